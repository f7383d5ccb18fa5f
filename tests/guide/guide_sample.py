"""Invented figures with every key that a page asks for, and the choices that pages turn on."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from generator.deliver.sources import read_sources
from generator.figures import FigureBook, Figures, Kind
from generator.guide.pages import Guide, write_guide
from generator.guide.stages import BUILD_STAGES, STAGES
from generator.inputs.tables import PracticeRow, read_table

ROOT = Path(__file__).resolve().parents[2]
PRACTICE = (ROOT / "site_data" / "practice.csv").read_bytes()
SOURCES = read_sources()
RIBS, SUPPORTS = 10, 4
LENGTHS_MM = {
    "board": "length width thickness rail tips_in",
    "rocker": "tail nose tail_300 nose_300 low_point",
    "panel": "thickness blank_length blank_width plank_width plank_length",
    "frame": "length slot_width slot_depth_max rib_thickness spine_thickness strip_height "
    "strip_height_tips strip_thickness",
    "trace": "margin margin_tips perimeter width length",
    "bench": "common_height result_tail result_nose deviation deviation_at bare_tail bare_nose hollow straight_edge "
    "sensitivity pass_tips pass_middle pass_hollow inset inset_tail inset_nose spring_tail spring_nose room_lowest "
    "room_needed room_least table_short aim_tail aim_nose set_over_tail set_over_nose kept_tail kept_nose "
    "free_top_tail free_top_nose loss_matters band band_frame band_panel other.tail other.nose hollow_seen "
    "cure.deviation cure.piece.2.least cure.piece.2.most planned_to drawn_in",
    "read": "tail nose before after 1.from_tail 1.read 1.aim 1.expected hollow.1.from hollow.1.to hollow.1.deep "
    "hollow.1.at",
    "after": "tail nose",
    "sag": "frame.apart frame.drop frame.read panel.apart panel.drop panel.read",
    "cured": "1.from_tail 1.read 1.expected miss tail nose deviation",
    "clamp": "opening opening_needed hang slide_tail slide_nose centre_limit",
    "glue": "gap bead_length rim_length spine_length rib_length joint_length",
}
COUNTS = "panel.planks panel.planks_across panel.planks_along panel.glue_lines frame.ribs frame.joints bench.supports"
MASSES_KG = (
    "builder.mass panel.mass frame.mass bench.table_load bench.short_weight bench.weight_total clamp.mass "
    "bench.other.mass bench.least_load bench.cure.each sag.frame.weight sag.panel.weight"
)
SAID: Mapping[str, Any] = {
    "units": "metric",
    "builder.name": "Robin",
    "board.name": "Curlew",
    "maker.name": "Marsh Kits",
    "maker.contact": "hello@example.org",
    "maker.site": "https://example.org/",
    "surf.where": "reef",
    "surf.how": "turning",
    "surf.skill": "some years",
    "stage": "frame",
    "notes": {},
    "tail_shape": "round",
    "nose_shape": "pointed",
    "frame_bottom": "straight",
    "slots_open_to": "top",
    "spine.material": "poplar ply",
    "ribs.material": "poplar ply",
    "panel.timber": "cedar",
    "planks_joined": False,
    "glue.name": "harbour glue",
    "glue.type": "polyurethane",
    "glue.method": "bead",
    "glue.water_class": "D4",
    "rocker_from": "maker",
    "rocker_choice": "between",
    "reached": True,
    "cure": "weight",
    "route": "top panel",
    "best_route": "top panel",
    "other_reached": True,
    "measure_first": "frame",
    "sag.frame.done": True,
    "sag.panel.done": False,
    "cured.done": True,
    "read": True,
    "read_verdict": "both",
    "read_trusted": True,
    "read_passes": False,
    "insets_matter": True,
    "measure_alike": False,
    "inverted": False,
    "stacks_ok": True,
    "stacks_proven": True,
    "stacks_missing": [],
    "lifted_supports": [],
    "clamps_enough": True,
    "clamps_clear": True,
    "night_ok": True,
    "temperature_ok": True,
    "table_read": True,
    "table_long": True,
    "crossbars": True,
    "helpers_enough": True,
    "start_text": "Monday, 1 March 2027",
    "finish_text": "Friday, 2 April 2027",
    "weekdays_text": "Mondays and Fridays",
    "hangs_past": [],
}


def sample(*, rich: bool = True, one: bool = False, **said: Any) -> Figures:
    """Figures of an invented builder; `said` keys have two underscores for a dot.

    `rich` gives clamps, weights and piles, `one` makes every count one.
    """
    book = FigureBook()

    def put(key: str, value: float, unit: str = "mm", **more: Any) -> None:
        book.add(key, value, unit, f"label of {key}", how="Invented.", kind=Kind.ASSUMED, **more)

    for group, names in LENGTHS_MM.items():
        for n, name in enumerate(names.split()):
            put(f"{group}.{name}", 12.5 + 37 * n, step=0.5)
    for key in COUNTS.split():
        put(key, 1 if one else 4, "")
    for key in MASSES_KG.split():
        put(key, 2.35, "kg", low=2.0, high=2.9, step=0.05)
    put("board.volume", 51, "L")
    put("board.volume_per_rider", 0.74, "L/kg", step=0.01)
    put("panel.moisture", 11.5, "%", step=0.5)
    for key in ("sag.frame.found", "sag.panel.found", "cured.stiffness"):
        put(key, 95, "%", low=80, high=110)
    put("frame.slot_share", 50, "%")
    for key, value in (("glue.lowest", 10.0), ("shed.temperature", 18.0), ("shed.night_low", 7.0)):
        put(key, value, "°C")
    put("shed.humidity", 60, "%")
    put("glue.night_margin", -3, "°C difference")
    for key, value in (("glue.open", 20), ("glue.clamp", 240), ("glue.full_cure", 1440), ("plan.evening", 150)):
        put(key, value, "min")
    put("plan.hands_on", 1050, "min")
    put("plan.evenings", 1 if one else 8, "")
    put("clamp.pairs", 1 if one else 10, "")
    put("clamp.pairs_needed", 1 if one else 10, "")
    put("clamp.pairs_have", 1 if one else 17, "")
    put("bench.tilt", -2.0, step=0.5)
    for end in ("tail", "nose"):
        for part in ("target", "from_line", "bare"):
            put(f"rocker.tip.{end}.{part}", 260.0, step=0.5)
    put("ready.stack_heaviest", 4.6, "kg", step=0.1)
    for slug in (stage.slug for stage in BUILD_STAGES if not stage.later):
        put(f"plan.hands_on.{slug}", 90, "min")
        put(f"plan.wait.{slug}", 1440 if slug in {"panels", "frame", "glue"} else 0, "min")
    _add_rockers(book, put, rich=rich)
    _add_ribs_and_supports(book, put, rich=rich, one=one)
    _add_lists(book, put, rich=rich)
    for row in read_table(PRACTICE, "practice.csv", PracticeRow):
        put(row.key, row.value, row.unit, step=0.5)
    book.said |= {**SAID, **{key.replace("__", "."): value for key, value in said.items()}}
    return book.close()


def _add_rockers(book: FigureBook, put: Any, *, rich: bool) -> None:
    for key in ("rocker", "advice.paddling", "advice.between", "advice.late"):
        for part in ("flat_length", "tail", "nose", "tail_in", "nose_in"):
            if f"{key}.{part}" not in book.values:
                put(f"{key}.{part}", 58.0, step=0.5)
        put(f"{key}.flat", 31.0, "%")
        for end in ("tail", "nose"):
            put(f"{key}.{end}_angle", 8.7, "°", step=0.5)
    put("advice.flat_within", 5.0)
    put("advice.mass_reference", 75.0, "kg")
    put("advice.mass_step", 10.0, "kg")
    put("advice.length_reference", 2300.0)
    put("advice.length_scale", 96.0, "%")
    rules = ("where", "how", "skill", "mass", "choice")
    for number, slug in enumerate(rules):
        for part, unit in (("tail", "mm"), ("nose", "mm"), ("flat", "%")):
            put(f"advice.rule.{slug}.{part}", 2.0 - number if rich else 0.0, unit, step=0.5)
    for part, unit in (("tail", "mm"), ("nose", "mm"), ("flat", "%")):
        put(f"rocker.shift_{part}", -3.0 if rich else 0.0, unit, step=0.5)
    book.rows["candidates"] = tuple(
        {"key": f"advice.{slug}", "name": name, "chosen": slug == "between", "why": f"What {name} gives and costs."}
        for slug, name in (("paddling", "easier paddling"), ("between", "between"), ("late", "later take-off"))
    )
    book.rows["rocker_rules"] = tuple(
        {"key": f"advice.rule.{slug}", "slug": slug, "name": f"name of {slug}", "why": f"Why {slug} counts."}
        for slug in (*rules, "length")
    )


def _add_ribs_and_supports(book: FigureBook, put: Any, *, rich: bool, one: bool) -> None:
    for n in range(1, RIBS + 1):
        for part in ("from_tail", "half_width", "depth_centre", "depth_edge"):
            put(f"frame.rib.{n}.{part}", 200.0 * n)
        for part in ("height", "target", "from_line", "bare"):
            put(f"rocker.rib.{n}.{part}", 20.0 * n, step=0.5)
    book.rows["ribs"] = tuple(
        {"n": n, "key": f"frame.rib.{n}", "rocker_key": f"rocker.rib.{n}"} for n in range(1, RIBS + 1)
    )
    pieces = ({"name": "paint tin", "count": 1 if one else 2, "kind": "tin", "height_mm": 98.0, "width_mm": 170.0},)
    rows = []
    for n in range(1, SUPPORTS + 1):
        key = f"bench.support.{n}"
        for part in ("from_tail", "height", "stack", "reading", "effect", "miss"):
            put(f"{key}.{part}", 31.0 * n, step=0.5)
        put(f"{key}.centre", -85.0 if n == 1 else 700.0 * n)
        put(f"{key}.load", 3.0, "kg", low=0.0 if n == 2 else 1.5, high=4.5, step=0.1)
        put(f"{key}.takes", 30.0, "kg")
        rows.append(
            {
                "n": n,
                "name": "tail tip" if n == 1 else f"middle {n}",
                "key": key,
                "pieces": pieces if rich else (),
                "piled": rich,
                "top_width_mm": 170.0,
                "edge": ("nose side", "middle", "tail side")[n % 3],
                "crossbar": n == 1,
                "touching": n != 3,
                "over_limit": n == 4,
            }
        )
    book.rows["supports"] = tuple(rows)


def _add_lists(book: FigureBook, put: Any, *, rich: bool) -> None:
    put("ready.thing.1.height", 98.0)
    book.rows["things"] = (
        {"n": 1, "key": "ready.thing.1", "name": "paint tin", "kind": "tin", "count": 4, "used": 3 if rich else 0},
    )
    book.rows["tools"] = (
        {"name": "jigsaw", "have": rich, "for_what": "cutting the panel", "substitute": "a coping saw"},
    )
    book.rows["clamps"] = ({"name": "screw clamp", "count": 20},) if rich else ()
    book.rows["own_weights"] = ({"name": "sandbag", "count": 6},) if rich else ()
    book.rows["clamp_pairs"] = tuple(
        {"n": n, "rib": 11 - n, "order": 11 - n, "name": "screw clamp"} for n in range(1, 11 if rich else 1)
    )
    put("bench.weight.1.from_tail", 1700.0)
    put("bench.weight.1.mass", 2.5, "kg", step=0.1)
    put("bench.weight.1.count", 2, "")
    book.rows["weights"] = ({"n": 1, "name": "sandbag", "key": "bench.weight.1", "rib": 8},) if rich else ()
    put("bench.extra.1.mass", 4.0, "kg", step=0.5)
    put("bench.extra.1.from_tail", 400.0)
    put("bench.extra.1.count", 2, "")
    book.rows["cure_pieces"] = ({"n": 2, "key": "bench.cure.piece.2"},)
    book.rows["cure_weights"] = ({"n": 1, "key": "bench.extra.1", "rib": 2},)
    put("read.move.1", -2.0, step=0.5)
    book.rows["readings"] = book.rows["misread"] = ({"n": 1, "key": "read.1"},)
    book.rows["read_hollows"] = ({"n": 1, "key": "read.hollow.1"},)
    pieces = ({"name": "card", "count": 2, "add": True}, {"name": "cork mat", "count": 1, "add": False})
    book.rows["moves"] = ({"n": 2, "name": "middle 1", "key": "read.move.1", "pieces": pieces},) if rich else ()
    book.data["bench-what-if"] = {"schema": "a small block", "shims": [{"name": "</script><b>"}]}
    book.rows["cured"] = ({"n": 1, "key": "cured.1"},)
    book.rows["insets"] = tuple({"key": f"bench.inset.{inset}"} for inset in (50, 100, 200))
    book.rows["evenings"] = (
        {"date": "Monday, 1 March 2027", "stage": "frame", "overruns": False},
        {"date": "Friday, 5 March 2027", "stage": "frame", "overruns": False},
        {"date": "Friday, 2 April 2027", "stage": "glue", "overruns": True},
    )
    book.rows["stages"] = tuple(
        {"slug": s.slug, "title": s.title, "file": s.file, "later": s.later, "here": s.slug == "frame"} for s in STAGES
    )


class Drawings(dict[str, str]):
    """A small drawing under every name, so that these tests need no real one."""

    def __missing__(self, name: str) -> str:
        return f'<svg viewBox="0 0 9 9" role="img"><title>{name}</title></svg>'


def guide(**choices: Any) -> Guide:
    """The whole guide for `sample(**choices)`."""
    return write_guide(sample(**choices), Drawings(), SOURCES)
