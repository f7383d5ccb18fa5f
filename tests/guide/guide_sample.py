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
MASKS = ("ffp2", "ffp3")
LENGTHS_MM = {
    "board": "length width thickness rail tips_in",
    "rocker": "tail nose tail_300 nose_300 low_point",
    "panel": "thickness blank_length blank_width plank_width plank_length",
    "frame": "length slot_width slot_depth_max rib_thickness spine_thickness strip_height "
    "strip_height_tips strip_thickness diagonal diagonal_limit diagonal_per_mm square_end twist_stick twist_rim "
    "strip_length splice",
    "cut": "overhang_sum overhang tongue batten_apart offcut_length past_back past_end",
    "trace": "margin margin_tips perimeter width length",
    "bench": "common_height result_tail result_nose deviation deviation_at bare_tail bare_nose hollow straight_edge "
    "sensitivity pass_tips pass_middle pass_hollow inset inset_tail inset_nose spring_tail spring_nose room_lowest "
    "room_needed room_least table_short aim_tail aim_nose set_over_tail set_over_nose kept_tail kept_nose "
    "free_top_tail free_top_nose loss_matters band band_frame band_panel other.tail other.nose hollow_seen "
    "cure.deviation cure.piece.2.least cure.piece.2.most planned_to drawn_in",
    "read": "tail nose before after 1.from_tail 1.read 1.aim 1.expected hollow.1.from hollow.1.to hollow.1.deep "
    "hollow.1.at",
    "top": "off left aim_tail aim_nose aim.1.from_tail aim.1.height aim.2.from_tail aim.2.height support.1.height "
    "support.2.height",
    "top_read": "tail nose before after 1.from_tail 1.read 1.aim 1.expected hollow.1.from hollow.1.to hollow.1.deep "
    "hollow.1.at",
    "after": "tail nose",
    "sag": "frame.apart frame.drop frame.read panel.apart panel.drop panel.read",
    "cured": "1.from_tail 1.read 1.expected miss tail nose deviation",
    "clamp": "opening opening_needed hang slide_tail slide_nose centre_limit",
    "press": "moves moves_per_kg moves_all",
    "glue": "gap bead_length rim_length spine_length rib_length joint_length",
    "table": "length width",
}
COUNTS = "panel.planks panel.planks_across panel.planks_along panel.glue_lines frame.ribs frame.joints bench.supports"
MASSES_KG = (
    "top.press.4 top.press_total top.weights_spare "
    "builder.mass panel.mass frame.mass bench.table_load bench.short_weight bench.weight_total clamp.mass "
    "bench.other.mass bench.least_load bench.cure.each sag.frame.weight sag.panel.weight"
)
SAID: Mapping[str, Any] = {
    "units": "metric",
    "slug": "robin",
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
    "diagonal_first": 3,
    "diagonal_second": 8,
    "rib_first": 1,
    "rib_last": 10,
    "cut.way": "battens",
    "cut.past_back": True,
    "cut.past_end": True,
    "clamp.goes_word": "two",
    "clamp.may_split": True,
    "clamp.unreached": [],
    "press.short": True,
    "press.laid": True,
    "press.matters": True,
    "press.overloads": [],
    "press.rib_most": 3,
    "tail_shape": "round",
    "nose_shape": "pointed",
    "frame_bottom": "straight",
    "slots_open_to": "top",
    "spine.material": "poplar ply",
    "ribs.material": "poplar ply",
    "panel.timber": "cedar",
    "planks_joined": False,
    "panel.planks_listed": True,
    "panel.mirrored": True,
    "panel.staggered": True,
    "panel.moves": True,
    "panel.moves_assumed": False,
    "panel.hardly_moves": False,
    "panel.weights_enough": True,
    "glue.name": "harbour glue",
    "glue.type": "polyurethane",
    "glue.method": "bead",
    "glue.water_class": "D4",
    "glue.two_columns": True,
    "glue.cure_beyond": "",
    "glue.open_beyond": "",
    "glue.missing": [],
    "glue.more_people": True,
    "glue.goes_help": True,
    "glue.fits.panels": "fits",
    "glue.fits.glue": "fits",
    "glue.fits.top_deck": "fits",
    "glue.fits.rails": "fits",
    "finish.known": True,
    "finish.type": "oil",
    "finish.name": "harbour oil",
    "finish.has_latest": True,
    "finish.night_ok": True,
    "finish.day_ok": True,
    "finish.planned": True,
    "finish.too_late": [3],
    "finish.by_day": True,
    "finish.water_from": "Monday, 3 May 2027",
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
    "evening_too_short": [],
    "plan.finish": "Friday, 2 April 2027",
    "plan.days_text": "Sundays",
    "plan.busy_text": "Fri 5 March",
    "plan.evening_starts": "19:00",
    "plan.day_starts": "10:00",
    "plan.next_stage": "frame",
    "plan.next_what": "Glue the ribs in",
    "plan.next_when": "Monday, 1 March 2027, 19:00 to 21:00",
    "plan.next_two": False,
    "plan.two_text": "Fri 2 April",
    "plan.table_text": "Mon 1 March to Fri 2 April",
    "plan.beyond": "",
    "hangs_past": [],
    "crown.flat": False,
    "crown.verdict": "slowly",
    "crown.published": True,
    "crown.stretch_known": True,
    "top_clamps_enough": True,
    "top_weights_enough": False,
    "top_read": False,
    "top_read_verdict": "fair",
    "top_read_trusted": True,
    "top_read_passes": True,
    "rail.none": False,
    "rail.built": "strips",
    "rail.published": True,
    "rail.joined": True,
    "rail.shorter": True,
    "rail.bends_dry": False,
    "rail.breaks": True,
    "rail.tight_between": True,
    "fin.plug_holds": True,
    "fin.leash_side": "right",
    "fin.vent_side": "left",
    "photo_first": ("glue",),
    "foam.have": True,
    "foam.kind": "expanded polystyrene",
    "foam.name": "packing foam",
    "foam.needed": True,
    "foam.fits": True,
    "foam.does": True,
    "air.vent_side": "right",
    "weight.weighed": False,
    "weight.as_summed": False,
    "weight.finish_known": False,
    "weight.foam_known": False,
    "float.water": "sea",
    "float.other_water": "fresh",
    "float.deck": "wet",
    "float.sinks": False,
    "noise.verdict": "between",
    "noise.too_loud": False,
    "noise.loudest_needs": True,
    "vibration.verdict": "between",
    "dust.hardwood": False,
    "dust.sensitiser": True,
    "vapour.finish": "oil",
    "vapour.foam": "expanded polystyrene",
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
    for key, value in (("glue.open", 20), ("glue.clamp", 240), ("glue.full_cure", 1440)):
        put(key, value, "min")
    put("clamp.pairs", 1 if one else 10, "")
    put("clamp.pairs_needed", 1 if one else 10, "")
    put("clamp.pairs_have", 1 if one else 17, "")
    put("bench.tilt", -2.0, step=0.5)
    for end in ("tail", "nose"):
        for part in ("target", "from_line", "bare"):
            put(f"rocker.tip.{end}.{part}", 260.0, step=0.5)
    put("ready.stack_heaviest", 4.6, "kg", step=0.1)
    _add_planks(book, put, rich=rich, one=one)
    _add_plan(book, put, rich=rich, one=one)
    _add_crown_and_top(book, put, rich=rich, one=one)
    _add_rails(book, put, rich=rich, one=one)
    _add_fin(book, put)
    _add_rockers(book, put, rich=rich)
    _add_ribs_and_supports(book, put, rich=rich, one=one)
    _add_checks(book, put, rich=rich, one=one)
    _add_lists(book, put, rich=rich)
    _add_glue(book, put, rich=rich, one=one)
    _add_finish(book, put, one=one)
    _add_exposure(book, put, rich=rich)
    _add_float(book, put, rich=rich)
    _add_inside(book, put, rich=rich, one=one)
    for row in read_table(PRACTICE, "practice.csv", PracticeRow):
        put(row.key, row.value, row.unit, step=0.5)
    book.said |= {**SAID, **{key.replace("__", "."): value for key, value in said.items()}}
    return book.close()


def _add_planks(book: FigureBook, put: Any, *, rich: bool, one: bool) -> None:
    put("panel.planks_both", 1 if one else 12, "")
    put("panel.buy", (1 if one else 2) if rich else 0, "")
    put("panel.waste", 0.11, "m2", step=0.01)
    put("panel.waste_share", 4, "%")
    for panel in ("bottom", "top"):
        for word in ("width", "spare", "glue_length"):
            put(f"panel.{panel}.{word}", 517.5)
        put(f"panel.{panel}.glue_lines", 1 if one else 5, "")
        rows = []
        for n in range(1, 3):
            key = f"panel.{panel}.row.{n}"
            put(f"{key}.width", 70.0 + n)
            for m in range(1, n + 1):
                put(f"{key}.piece.{m}.length", 900.0 + m)
            pieces = tuple({"key": f"{key}.piece.{m}", "cut": m == 2} for m in range(1, n + 1))
            rows.append({"n": n, "key": key, "pieces": pieces, "single": n == 1})
        book.rows[f"panel_{panel}"] = tuple(rows)
    book.rows["panel_layouts"] = tuple(
        {"key": f"panel.{panel}", "both": one, "one_line": one, "rows": book.rows[f"panel_{panel}"]}
        for panel in (("bottom",) if one else ("bottom", "top"))
    )
    sizes = []
    for n in range(1, 4):
        for word in ("width", "length"):
            put(f"panel.size.{n}.{word}", 95.0 * n)
        for word in ("have", "used", "buy", "left"):
            put(f"panel.size.{n}.{word}", 1 if one else n + 1, "")
        key = f"panel.size.{n}"
        sizes.append({"n": n, "key": key, "have": n < 3, "used": n < 3, "buy": n == 3 and rich, "left": n < 3})
    book.rows["panel_sizes"] = tuple(sizes)
    for n in range(1, 4):
        for word in ("width", "length"):
            put(f"panel.offcut.{n}.{word}", 95.0 * n)
        put(f"panel.offcut.{n}.count", 1 if one else n, "")
    offcuts = enumerate(("long", "middle", "short"), 1)
    book.rows["offcuts"] = tuple({"n": n, "key": f"panel.offcut.{n}", "size": s} for n, s in offcuts) if rich else ()
    for key in ("buckles", "textbook", "joint"):
        put(f"panel.press.{key}", 42, "kg/m", low=24, high=111)
    put("panel.press.pressure", 0.7, "MPa", step=0.1)
    put("panel.press.uneven", 1, low=0.5, high=2, step=0.5)
    put("panel.press.battens", 1 if one else 8, "")
    for key in ("weight", "each", "short"):
        put(f"panel.press.{key}", 1.8, "kg", step=0.1)
    put("panel.batten.1.from_end", 148)
    pieces = ({"name": "sandbag", "count": 1},) if rich else ()
    book.rows["battens"] = ({"n": 1, "key": "panel.batten.1", "pieces": pieces},)
    put("panel.moisture_beach", 16.5, "%", step=0.5)
    put("beach.temperature", 17, "°C")
    put("beach.humidity", 82, "%")
    grows = 3.8 if rich else -2.4
    put("panel.grows", grows, low=grows - 1, high=grows + 1, step=0.5)
    put("panel.gap", 1.8, low=1.1, high=2.4, step=0.5)
    if rich:
        put("panel.bow", 14)
        put("panel.tears", 1.4, "%", low=0.4, high=3.8, step=0.1)
    put("panel.cup", 9.5, low=6.1, high=12.9)
    put("panel.cup_for", 1, "%")


def _add_glue(book: FigureBook, put: Any, *, rich: bool, one: bool) -> None:
    for key, value in (("open_here", 26), ("clamp_here", 255), ("cure_here", 1440), ("open_wanted", 33)):
        put(f"glue.{key}", value, "min")
    for key in ("label_at", "also_at"):
        put(f"glue.{key}", 15, "°C")
    for key in ("up.panels.time", "up.glue.time", "up.top-deck.time", "up.rails.time", "bead_time"):
        put(f"glue.{key}", 9, "min", low=6, high=15)
    for key in ("people", "people_needed", "goes", "go_ribs"):
        put(f"glue.{key}", 1 if one else 3, "")
    put("glue.bead_reach", 4200)
    put("glue.bottle", 500, "ml")
    if rich:
        put("glue.volume", 310, "ml", low=200, high=430, step=5)
        put("glue.bottles", 1 if one else 2, "")
    rows = []
    for slug in ("panels", "glue", "top-deck"):
        key = f"glue.stage.{slug}"
        put(f"{key}.volume", 95, "ml", low=40, high=160)
        put(f"{key}.mass", 106, "g", low=42, high=181)
        put(f"{key}.bottles", 1 if one else 2, "")
        rows.append({"key": key, "slug": slug, "name": slug, "volume": rich, "mass": slug == "glue", "bottles": rich})
    book.rows["glue_stages"] = tuple(rows)


def _add_finish(book: FigureBook, put: Any, *, one: bool) -> None:
    put("finish.area", 2.1, "m2", step=0.01)
    for key in ("coats", "cans"):
        put(f"finish.{key}", 1 if one else 3, "")
    for key in ("recoat_after", "recoat_before", "full_cure", "coat.2.gap", "coat.3.gap"):
        put(f"finish.{key}", 960, "min")
    put("finish.lowest", 10, "°C")
    for key in ("can", "per_coat", "volume"):
        put(f"finish.{key}", 500, "ml", high=590, step=10)
    put("finish.stays", 0.25, "kg", low=0.15, high=0.6, step=0.05)
    book.rows["coats"] = tuple(
        {"n": n, "key": f"finish.coat.{n}", "date": "Monday, 5 April 2027", "first": n == 1, "too_late": n == 3}
        for n in (1, 2, 3)
    )


def _add_exposure(book: FigureBook, put: Any, *, rich: bool) -> None:
    for key in ("action_lower", "action_upper", "limit_at_ear", "never", *(("average",) if rich else ())):
        put(f"noise.{key}", 80, "dB(A)", high=84, step=0.5)
    for key in ("halves", "plate_unsure", "snr", "nrr"):
        put(f"noise.{key}", 3, "dB")
    put("noise.day", 480, "min")
    for key in ("action", "limit", "plate_unsure", *(("average",) if rich else ())):
        put(f"vibration.{key}", 2.5, "m/s2", high=3.5, step=0.1)
    for key in ("points_action", "points_limit", *(("points",) if rich else ())):
        put(f"vibration.{key}", 100, "points")
    if rich:
        put("noise.dose", 31, "%", high=62)
    for name in ("use", "time_lower", "time_upper"):
        put(f"noise.1.{name}", 45, "min", low=22)
    put("noise.1.level", 90, "dB(A)", high=93)
    put("noise.1.dose", 31, "%", high=62)
    for n in (2, 3, 4):
        put(f"noise.{n}.use", 20, "min")
    for n in (3, 4):
        put(f"noise.{n}.level", 118, "dB(A)", high=121)
        put(f"noise.{n}.dose", 31, "%", high=62)
    put("vibration.1.level", 4.5, "m/s2", high=6, step=0.1)
    put("vibration.1.points", 30, "points", high=54)
    for name in ("time_action", "time_limit"):
        put(f"vibration.1.{name}", 148, "min", low=83)
    put("dust.sanded_depth", 0.1, step=0.1)
    put("dust.sanded_mass", 32, "g")
    put("dust.floats", 0.1, "%", step=0.01)
    put("dust.air", 32, "m3")
    for key in ("caught", "left_extraction", *(f"left_{part}_{mask}" for part in ("mask", "both") for mask in MASKS)):
        put(f"dust.{key}", 10, "%")
    for mask in MASKS:
        put(f"dust.factor_{mask}", 10, "")
    put("vapour.changes", 2, "")
    put("vapour.cleared_to", 1, "%")
    put("vapour.cleared", 138, "min", low=46, high=552, step=5)
    tools = (("jigsaw", "all"), ("vacuum cleaner", "nothing"), ("planer", "roars"), ("fan", "hums"))
    book.rows["plates"] = tuple(
        {
            "n": n,
            "name": name,
            "noise_key": f"noise.{n}",
            "vibration_key": f"vibration.{n}",
            "noise": known != "nothing",
            "vibration": known == "all",
            "too_loud": known == "roars",
            "long_lower": known == "hums",
            "long_upper": known == "hums",
        }
        for n, (name, known) in enumerate(tools if rich else (), 1)
    )
    book.rows["plates_missing"] = (
        {"name": "vacuum cleaner", "noise": True, "vibration": rich, "use": not rich},
        {"name": "sander", "noise": False, "vibration": True, "use": False},
    )


def _add_inside(book: FigureBook, put: Any, *, rich: bool, one: bool) -> None:
    for key in ("dent_limit", "worst_dent", "knee_dent", "worst_dent_foam"):
        put(f"bay.{key}", 1.9, low=0.8, high=4.1, step=0.1)
    for key in ("worst_pull", "allowed"):
        put(f"bay.{key}", 1.4, "MPa", step=0.1)
    put("bay.heel_mass", 34, "kg", low=24, high=68)
    put("bay.soft", 1 if one else 18, "")
    for key in ("blocks", "layers"):
        put(f"foam.{key}", 1 if one else 18, "")
    for key in ("at_rib", "at_spine", "at_rim", "thickness"):
        put(f"foam.{key}", 15)
    put("foam.sheet", 0.6, "m2", step=0.01)
    put("foam.mass", 300, "g", low=270, high=330, step=5)
    rows = []
    for n, (after, before, sides) in enumerate(
        ((0, 1, "left and right"), (1, 2, "left"), (1, 2, "right"), (2, 0, "left and right")), 1
    ):
        key = f"bay.{n}"
        for part in ("length", "width", "depth", "least", "from_tail", "from_centre"):
            put(f"{key}.foam_{part}", 35 * n)
        put(f"{key}.foam_layers", n, "")
        foam = rich and n < 4
        rows.append(
            {
                "n": n,
                "key": key,
                "after_rib": after,
                "before_rib": before,
                "sides": sides,
                "count": 2 if "and" in sides else 1,
                "soft": n < 4,
                "foam": foam,
                "foam_does": n == 1,
            }
        )
    book.rows["bays"] = tuple(rows)
    blocks = []
    for name, pieces in (("tail", 1), ("leash plug", 2), ("fin", 1), ("vent", 1), ("nose", 1)):
        key = f"block.{name.replace(' ', '_')}"
        for part in ("from_tail", "to", "length", "width", "depth", "from_centre"):
            put(f"{key}.{part}", 60)
        own = []
        for side in ("left", "right")[:pieces]:
            piece = f"{key}.{side}" if pieces == 2 else f"{key}.piece"
            for part in ("width", "tail", "tail_outer", "nose", "nose_outer"):
                put(f"{piece}.{part}", 27, step=0.5)
            for part in ("bevel_along", "bevel_across"):
                put(f"{piece}.{part}", 2.5, "°", step=0.5)
            own.append({"key": piece, "side": side, "count": 1 if pieces == 2 or name == "vent" else 2})
        blocks.append(
            {
                "key": key,
                "name": f"{name} block",
                "pieces": tuple(own),
                "split": name != "vent",
                "tip": name in {"tail", "nose"},
                "vent": name == "vent",
                "side": "right",
            }
        )
    book.rows["blocks"] = tuple(blocks)
    for key in ("hole", "hole_up", "hole_aside", "vent_from_tail", "vent_from_centre"):
        put(f"air.{key}", 12)
    for key in ("hole_share", "hole_limit"):
        put(f"air.{key}", 31, "%")
    for n in range(1, RIBS + 1):
        put(f"air.rib.{n}.aside", 20)
    book.rows["air_holes"] = tuple({"n": n, "key": f"air.rib.{n}", "moved": rich and n < 3} for n in range(1, RIBS + 1))
    for key in ("inside", "drawn_in"):
        put(f"air.{key}", 19, "L")
    for key in ("closed_at", "car_hot", "sun_hot", "sea_cold"):
        put(f"air.{key}", 50, "°C", high=60)
    for key in ("car", "flight", "pass", "pump", "warm"):
        put(f"air.{key}_kpa", 14, "kPa", low=11, high=19, step=0.5)
    for key in ("car_push", "car_bay", "flight_push", "pump_push", "warm_push", "warm_bay"):
        put(f"air.{key}", 1260, "kg", step=10)
    put("air.pump_force", 6060, "N", step=100)
    put("air.panel_area", 0.87, "m2", step=0.01)
    put("air.warmed", 5, "°C difference")
    for key in ("flight_height", "pass_height"):
        put(f"air.{key}", 2438, "m", step=10)


def _add_float(book: FigureBook, put: Any, *, rich: bool) -> None:
    for key, low in (("finished", 7.1), ("summed", 6.9), ("over", None), ("panels", 3.3), ("sanded", None)):
        put(f"weight.{key}", 7.6 if low else -0.2, "kg", low=low, step=0.1)
    put("weight.balance", 1100, step=5)
    put("weight.density_spread", 10, "%")
    put("weight.sanded_depth", 0.3, step=0.1)
    groups = (("panels", "two panels"), ("sanded", "sanded off"))
    book.rows["weight_groups"] = tuple({"key": f"weight.{s}", "slug": s, "name": n} for s, n in groups)
    for key in ("alone", "over_deck", "lie_at", "waterline", "depth", "body_thickness", "other_change"):
        put(f"float.{key}", 38 if rich else -12, low=-20, high=60, step=1)
    for key in ("share_under", "rider_share"):
        put(f"float.{key}", 34, "%")
    put("float.rider_litres", 23, "L")
    for key in ("carries", "body_reference"):
        put(f"float.{key}", 45, "kg", low=43)
    put("float.wave_speed", 1.9, "m/s", step=0.1)


def _add_plan(book: FigureBook, put: Any, *, rich: bool, one: bool) -> None:
    for key, value in (("hands_on", 1050), ("evening", 150), ("free_day", 300), ("cure", 2220)):
        put(f"plan.{key}", value, "min")
    for key, value in (("evenings", 8), ("whole_days", 2), ("weeks", 9), ("table_days", 30), ("two_people", 4)):
        put(f"plan.{key}", 1 if one else value, "")
    for slug in (stage.slug for stage in BUILD_STAGES):
        put(f"plan.hands_on.{slug}", 90, "min")
        put(f"plan.wait.{slug}", 1440 if slug in {"panels", "frame", "glue"} else 0, "min")
        for part, value in (("hands_on", 60), ("wait", 1440)):
            put(f"plan.go.{slug}.1.{part}", value, "min")
    book.rows["goes"] = tuple(
        {"stage": stage.slug, "key": f"plan.go.{stage.slug}.1", "what": f"Do {stage.slug}", "people": 2 if rich else 1,
         "wait": "the glue dries" if rich else ""}
        for stage in BUILD_STAGES
    )  # fmt: skip
    book.rows["tonight"] = tuple(
        {"stage": s.slug, "glue": s.slug in {"frame", "glue"}, "finish": s.slug == "seal", "dates": ""}
        for s in BUILD_STAGES
    )
    wait = {"wait": "the glue dries", "before": "Glue it", "after": "Scrape it", "key": "plan.go.frame.1.wait"}
    dates = {"over": "Tue 2 March, 21:00", "begins": "Fri 5 March"} if rich else {"over": "", "begins": ""}
    book.rows["dry"] = tuple({**wait, **dates, "stage": slug} for slug in ("frame", "frame", "glue"))
    plain = dict.fromkeys(("overruns", "late_start", "stale", "coat", "two", "goes_on", "dark"), False)
    first = {"date": "Monday, 1 March 2027", "short": "Mon 1 March", "clock": "19:00 to 21:00", "what": "Glue it"}
    awkward = dict.fromkeys(plain, True) if rich else plain
    book.rows["evenings"] = (
        {**plain, **first, "stage": "frame"},
        {**awkward, **first, "stage": "glue", "date": "Friday, 2 April 2027", "coat": False},
        {**awkward, **first, "stage": "seal", "date": "Friday, 9 April 2027"},
    )
    dated = {"dated": True, "done": False, "here": False, "open": False, "wait": "", "dates": "Mon 1 to Tue 9 March"}
    odd = {"ready": {"done": True, "dated": False}, "frame": {"here": True, "wait": "the glue dries"},
           "seal": {"open": True}, "water": {"dated": False}}  # fmt: skip
    book.rows["plan"] = tuple(
        {**dated, "stage": s.slug, "short": s.slug, "until": "Thu 11 March", "days": (0, 3), "waits": ((3, 5),),
         **odd.get(s.slug, {})}
        for s in BUILD_STAGES
    )  # fmt: skip


def _add_shopping(book: FigureBook, put: Any, *, rich: bool) -> None:
    for key, unit in (("parting_sheet", "m2"), ("gloves", ""), ("masks", ""), ("people", ""), ("weights", "kg")):
        put(f"shop.{key}", 2.0, unit)
    put("shop.clamp_pairs", 1, "")
    for part, unit in (("width", "mm"), ("length", "mm")):
        if f"panel.size.1.{part}" not in book.values:
            put(f"panel.size.1.{part}", 95.0, unit)
    item = {"name": "harbour glue", "amount": "shop.people", "unit": "", "size": "", "why": ""}
    units = ("bottle", "can", "pair", "place", "height", "piece")
    put("panel.size.1.depth", 30.0)
    items = (item, {**item, "amount": "", "why": "For everything."}, {**item, "size": "panel.size.1", "unit": "plank"},
             {**item, "amount": "", "size": "panel.size.1", "unit": "block"},
             {**item, "amount": "", "size": "shop.gloves"},
             *({**item, "unit": unit, "size": "shop.masks"} for unit in units))  # fmt: skip
    book.rows["shop_buy"] = ({"stage": "ready", "when": "Mon 1 March", "items": items},
                             {"stage": "water", "when": "", "items": (item,)})  # fmt: skip
    book.rows["shop_borrow"] = book.rows["shop_buy"] if rich else ()
    book.rows["shop_check"] = book.rows["shop_buy"] if rich else ()
    book.rows["shop_ask"] = ({"what": "its label", "where": "the can", "why": "the dates"},) if rich else ()


def _add_crown_and_top(book: FigureBook, put: Any, *, rich: bool, one: bool) -> None:
    for key in ("strain", "limit", "safe", "stretch", "stretch_limit"):
        put(f"crown.{key}", 0.21, "%", low=0.1, high=0.5, step=0.01)
    for key in ("radius", "thin_to", "wrap", "drop"):
        put(f"crown.{key}", 4.5, step=0.5)
    put("crown.worst_rib", 1, "")
    put("crown.clamp_force", 33, "N", low=23, high=47)
    put("crown.clamp_mass", 3.3, "kg", low=2.4, high=4.8, step=0.1)
    words = ("too much", "slowly", "slowly", "easy")
    book.rows["crown_ribs"] = tuple(
        {"n": n, "key": f"crown.rib.{n}", "verdict": word, "flat": False} for n, word in enumerate(words, 1)
    )
    for key in ("clamp_opening", "length", "width"):
        put(f"top.{key}", 65)
    for key in ("pairs", "pairs_missing"):
        put(f"top.{key}", 1 if one else 4, "")
    for n in range(1, RIBS + 1):
        put(f"top.rib.{n}.opening", 40 + n)
    book.rows["top_openings"] = tuple({"n": n, "key": f"top.rib.{n}"} for n in range(1, RIBS + 1))
    book.rows["top_clamps"] = tuple(
        {"rib": n, "order": n, "name": "screw clamp"} for n in range(1, RIBS + 1 if rich else 1)
    )


def _add_rails(book: FigureBook, put: Any, *, rich: bool, one: bool) -> None:
    for key in ("layer_thickness", "radius", "dry_radius", "thin_to", "plane_off", "stock_length", "stock_width",
                "bevel_fall"):  # fmt: skip
        put(f"rail.{key}", 7.5 if rich or key != "plane_off" else 0, step=0.5)
    for key in ("strain", "limit", "safe", "upwards"):
        put(f"rail.{key}", 0.71, "%", step=0.01)
    for key in ("layers", "pieces", "holds"):
        put(f"rail.{key}", 1 if one else 6, "")
    parts = ("length", "from_tail", "to_tail", "height_middle", "height_tips", "piece_length", "plank_width")
    rows = []
    for n in (1, 2, 3):
        key = f"rail.layer.{n}"
        for part in parts:
            put(f"{key}.{part}", 90.0 * n)
        put(f"{key}.tight_tail", 0 if n == 2 else 120)
        put(f"{key}.tight_nose", 0 if n == 3 else 120)
        put(f"{key}.pieces", 1 if one else 2, "")
        rows.append({"n": n, "key": key, "cut": rich, "joined": rich, "tight": True})
    book.rows["rail_layers"] = tuple(rows)
    for n in range(1, RIBS + 1):
        put(f"rail.rib.{n}.bevel", 5.5, "°", step=0.5)
    book.rows["rail_bevels"] = tuple({"n": n, "key": f"rail.rib.{n}"} for n in range(1, RIBS + 1))
    for key in ("batten", "gap", "stiff_gap", "off", "least"):
        put(f"shape.{key}", 5.5, step=0.5)
    for key in ("bends", "stress", "gap_share"):
        put(f"shape.{key}", 19, "%")
    put("shape.passes", 10, "", low=6, high=17)
    for n, _name in enumerate(("near the tail", "half-way along", "near the nose"), 1):
        for part in ("from_tail", "width", "first_in", "first_down", "second_on_flat", "second_in", "second_down"):
            put(f"shape.round.{n}.{part}", 15.5, step=0.5)
    book.rows["round_marks"] = tuple(
        {"n": n, "key": f"shape.round.{n}", "name": name}
        for n, name in enumerate(("near the tail", "half-way along", "near the nose"), 1)
    )


def _add_fin(book: FigureBook, put: Any) -> None:
    for key in ("rear", "front", "base", "depth", "margin_tail", "margin_nose", "block_half", "block_depth", "slot",
                "margin_needed", "left"):  # fmt: skip
        put(f"fin.{key}", 18.5, step=0.5)
    for plug in ("leash", "vent"):
        for part in ("from_tail", "from_centre", "hole", "block_depth", "stop", "margin"):
            put(f"fin.{plug}.{part}", 24.5, step=0.5)
    for key in ("pull", "holds"):
        put(f"fin.leash.{key}", 2000, "N", low=1300, high=3300, step=50)
    put("fin.vent.meets", 28, step=0.5)
    put("fin.leash.weights", 3, "", low=2, high=5)
    put("fin.leash.safety", 3, "")
    put("fin.leash.use", 95, "%")


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


def _add_checks(book: FigureBook, put: Any, *, rich: bool, one: bool) -> None:
    """The frame's checks, the cut, clamps in goes, and the weights that press."""
    for key in ("joints_all", "joints_spine", "joints_strips", "joints_tips", "ribs_a_go", "rib_goes"):
        put(f"frame.{key}", 1 if one else 4, "")
    put("frame.wait_touch", 240, "min")
    for key in ("twist_angle", "straight_angle"):
        put(f"frame.{key}", 0.15, "°", step=0.05)
    put("cut.strength", 1.5, "MPa", high=3.0, step=0.1)
    put("cut.load", 55, "N", low=45, high=65)
    put("cut.offcut_mass", 0.25, "kg", step=0.05)
    for key in ("stretches", "settings", "battens"):
        put(f"cut.{key}", 1 if one else 4, "")
    rows = []
    for n, tip in enumerate(("", "tail", "", "nose"), 1):
        put(f"cut.stretch.{n}.from", 1200.0)
        put(f"cut.stretch.{n}.to", 300.0 * n)
        rows.append({"n": n, "key": f"cut.stretch.{n}", "tip": tip, "way": "tail" if n < 3 else "nose"})
    book.rows["cut_stretches"] = tuple(rows)
    for key in ("goes", "borrow_one", "borrow_two"):
        put(f"clamp.{key}", 1 if one else 2, "")
    for key in ("pair_mass", "force_mass", "textbook_nail", "rim_nail"):
        put(f"clamp.{key}", 0.8, "kg", step=0.1)
    put("clamp.rim_pressure", 190, "kPa", step=10)
    put("clamp.textbook_pressure", 700, "kPa", step=10)
    for n in range(1, RIBS + 1):
        put(f"clamp.rib.{n}.opening", 40.0 + n)
    book.rows["clamp_ribs"] = tuple(
        {"n": n, "key": f"clamp.rib.{n}.opening", "name": "screw clamp" if rich else "", "have": rich}
        for n in range(1, RIBS + 1)
    )
    halves = ((4, 5, 6, 7), (1, 2, 3, 8, 9, 10))
    book.rows["clamp_two"] = tuple({"n": n, "ribs": half} for n, half in enumerate(halves, 1))
    book.rows["clamp_goes"] = tuple(
        {"n": n, "ribs": half, "sets": tuple({"rib": rib, "name": "screw clamp"} for rib in half)}
        for n, half in enumerate(halves, 1)
    )
    put("press.boards", 1 if one else 2, "")
    for key in ("need", "have", "laid", "short", "one_weight"):
        put(f"press.{key}", 12.0, "kg", low=4.0, high=26.0, step=0.5)
    for n in (1, 2):
        put(f"press.board.{n}.length", 290.0)
        for part in ("need", "on", "laid", "short"):
            put(f"press.board.{n}.{part}", 5.0, "kg", low=2.0, high=9.0, step=0.5)
    pieces = ({"name": "sandbag", "count": 2}, {"name": "brick", "count": 1})
    book.rows["press_boards"] = tuple(
        {
            "n": n,
            "key": f"press.board.{n}",
            "first": 2 * n - 1,
            "second": 2 * n,
            "pieces": pieces[:n] if rich else (),
            "on": rich and n == 1,
            "on_ribs": (1, 2) if rich and n == 1 else (),
            "short": n == 2,
        }
        for n in (1, 2)
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
        {"name": "jigsaw", "have": rich, "needed": not rich, "stage": "trace", "for_what": "cutting the panel",
         "substitute": "a coping saw"},
    )  # fmt: skip
    book.rows["shop_tools"] = () if rich else ({**book.rows["tools"][0], "when": "Mon 1 March"},)
    _add_shopping(book, put, rich=rich)
    book.rows["clamps"] = ({"name": "screw clamp", "count": 20},) if rich else ()
    put("ready.weight.1", 2.5, "kg", step=0.05)
    book.rows["own_weights"] = ({"key": "ready.weight.1", "name": "sandbag", "count": 6},) if rich else ()
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
    put("top_read.move.1", 2.0, step=0.5)
    put("top.support.1.change", 0.0)
    put("top.support.2.change", -3.0)
    put("plan.extra.1", 360.0, "min")
    book.rows["plan_extra"] = ({"date": "Wed 3 March", "key": "plan.extra.1"},) if rich else ()
    book.rows["top_aims"] = (
        {"n": 1, "key": "top.aim.1", "name": "the tail tip"},
        {"n": 2, "key": "top.aim.2", "name": "rib 1"},
    )
    book.rows["top_presses"] = ({"rib": 4, "key": "top.press.4"},) if rich else ()
    book.rows["top_supports"] = tuple({"n": n, "name": "middle 1", "key": f"top.support.{n}"} for n in (1, 2))
    book.rows["top_readings"] = book.rows["top_misread"] = ({"n": 1, "key": "top_read.1"},)
    book.rows["top_read_hollows"] = ({"n": 1, "key": "top_read.hollow.1"},)
    book.rows["readings"] = book.rows["misread"] = ({"n": 1, "key": "read.1"},)
    book.rows["read_hollows"] = ({"n": 1, "key": "read.hollow.1"},)
    pieces = ({"name": "card", "count": 2, "add": True}, {"name": "cork mat", "count": 1, "add": False})
    book.rows["top_moves"] = ({"n": 2, "name": "middle 1", "key": "top_read.move.1", "pieces": pieces},) if rich else ()
    book.rows["moves"] = ({"n": 2, "name": "middle 1", "key": "read.move.1", "pieces": pieces},) if rich else ()
    book.data["bench-what-if"] = {"schema": "a small block", "shims": [{"name": "</script><b>"}]}
    book.data["bench-tuning"] = {"schema": "another small block"}
    book.rows["cured"] = ({"n": 1, "key": "cured.1"},)
    book.rows["insets"] = tuple({"key": f"bench.inset.{inset}"} for inset in (50, 100, 200))
    book.rows["stages"] = tuple(
        {"slug": s.slug, "title": s.title, "file": s.file, "here": s.slug == "frame"} for s in STAGES
    )


class Drawings(dict[str, str]):
    """A small drawing under every name, so that these tests need no real one."""

    def __missing__(self, name: str) -> str:
        return f'<svg viewBox="0 0 9 9" role="img"><title>{name}</title></svg>'


def guide(**choices: Any) -> Guide:
    """The whole guide for `sample(**choices)`."""
    return write_guide(sample(**choices), Drawings(), SOURCES)
