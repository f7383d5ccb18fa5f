"""Figures of the glue: joints, beads, bottles, and its times in this shed."""

from __future__ import annotations

import math
from dataclasses import dataclass

from generator.build.amount import Amount
from generator.build.bracing import foam_blocks
from generator.build.cure import label_ends, label_times
from generator.build.glue_joints import rail_side_mm
from generator.build.glue_time import (
    BEAD_MIN_PER_M,
    CLOSE_MIN,
    FILM_MIN_PER_M,
    LINE_MIN_PER_M,
    MOST_PEOPLE,
    GlueUp,
    bead_minutes,
    bead_reach_mm,
    goes_needed,
    people_needed,
    verdict,
)
from generator.build.glue_use import WASTE, StageUse, all_stages, bead_volume_ml, bottles, glue_parts, runs_beads
from generator.build.joints import bottom_joints
from generator.figure_sets.facts import Facts
from generator.figure_sets.inside import braced_bays
from generator.figure_sets.shed import LABEL
from generator.figures import FigureBook, Kind

METRE_MM = 1000.0
G_PER_KG = 1000.0
PRACTICE = Kind.COMMON_PRACTICE
COMMON = "common practice"
BEAD_SUM = "Length of the beads times a bead's cross-section, and what is wasted."
STAGE_WORDS = {
    "panels": "Deck panels",
    "frame": "Frame",
    "glue": "Bottom glue-up",
    "inside": "Inside: the blocks",
    "top-deck": "Top deck",
    "rails": "Rails",
}
FOAM_TOO = " and the foam"
LINES_A_GO = 2


def add_joints(book: FigureBook, facts: Facts) -> None:
    """Lengths of the joints between bottom panel and frame."""
    joints = bottom_joints(facts.body)
    for key, value, label in (
        ("glue.rim_length", joints.rim_mm, "joint round the rim"),
        ("glue.spine_length", joints.spine_mm, "joint along the spine"),
        ("glue.rib_length", joints.ribs_mm, "joints across all the ribs"),
        ("glue.joint_length", joints.total_mm, "all joints of the bottom together"),
        ("glue.bead_length", joints.bead_mm, "bead of glue, both sides of spine and ribs"),
    ):
        book.add(key, value, "mm", label, how="Measured along the frame.", kind=Kind.MAKER, step=10)


def add_glue_here(book: FigureBook, facts: Facts) -> None:
    """The label's times in this shed: open and clamp time by day, full cure at the night's low."""
    glue, shed = facts.inputs.builder.glue, facts.inputs.builder.shed
    day, night = (label_times(glue, temperature_c=c) for c in (shed.temperature_c, shed.night_low_c))
    ends, night_ends = (label_ends(glue, temperature_c=c) for c in (shed.temperature_c, shed.night_low_c))
    between = "Between the label's temperatures its logarithm goes straight; outside them the nearer one's time counts."
    kinds = [Kind.LABEL, Kind.MEASURED, Kind.ASSUMED] if glue.also else [Kind.LABEL, Kind.MEASURED]
    source = "Arrhenius' law over a narrow range, from memory" if glue.also else ""
    how = f"The label's time at your shed's temperature. {between}"
    for key, value, label, (low, high) in (
        ("glue.open_here", day.open_min, "open time of your glue in your shed", [one.open_min for one in ends]),
        ("glue.clamp_here", day.clamp_min, "clamp time of your glue in your shed", [one.clamp_min for one in ends]),
    ):
        book.add(key, value, "min", label, how=how, kind=kinds, source=source, low=low, high=high)
    book.add(
        "glue.cure_here",
        night.full_cure_min,
        "min",
        "full cure of your glue in your shed",
        how=f"The label's time at your lowest night, for that is when it goes slowest. {between}",
        kind=kinds,
        source=source,
        low=night_ends[0].full_cure_min,
        high=night_ends[1].full_cure_min,
    )
    book.add("glue.label_at", glue.times_at_c, "°C", "temperature of the label's times", how=LABEL, kind=Kind.LABEL)
    if glue.also is not None:
        for part, value, unit, label in (
            ("at", glue.also.at_c, "°C", "temperature of the label's other times"),
            ("open", glue.also.open_min, "min", "open time at that temperature"),
            ("clamp", glue.also.clamp_min, "min", "clamp time at that temperature"),
            ("cure", glue.also.full_cure_min, "min", "full cure at that temperature"),
        ):
            book.add(f"glue.also_{part}", value, unit, label, how=LABEL, kind=Kind.LABEL)
    book.said |= {
        "glue.two_columns": glue.also is not None,
        "glue.cure_beyond": night.beyond,
        "glue.open_beyond": day.beyond,
        "glue.beads": runs_beads(glue),
    }


def add_glue_use(book: FigureBook, facts: Facts) -> None:
    """What a bead takes, glue by stage, bottles, and what stays in the board."""
    body, glue, foam = facts.body, facts.inputs.builder.glue, foam_blocks(braced_bays(facts))
    bead_mm = facts.usual("practice.bead_width")
    one = bead_volume_ml(length_mm=METRE_MM, bead_mm=bead_mm)
    _range(
        book, "glue.bead_per_metre", one, "ml/m", "glue in a bead", step=0.05, kind=[PRACTICE],
        how="A flat-faced bead is a right triangle. Pressed hollow it takes least, left standing full it takes most.",
        source="geometry of a right triangle and a quarter circle; bead width common practice",
    )  # fmt: skip
    _range(
        book, "glue.waste", WASTE.times(100.0), "%", "glue to buy, of what the joints take", kind=[PRACTICE],
        how="Some stays in the bottle, on the brush and on the bench.", source=COMMON,
    )  # fmt: skip
    for key, value, unit, label, step in (
        ("glue.bottle", None if glue.bottle_l is None else 1000 * glue.bottle_l, "ml", "size of your bottle", 1.0),
        ("glue.spread_rate", glue.spread_g_m2, "g/m2", "film that your glue's label asks for", 1.0),
        ("glue.density", glue.density_kg_m3, "kg/m3", "density of your glue", 1.0),
    ):
        if value is not None:
            book.add(key, value, unit, label, how=LABEL, kind=Kind.LABEL, step=step)
    _stages(book, all_stages(body, glue, bead_mm=bead_mm, foam=foam), glue.bottle_l)
    parts = glue_parts(body, glue, foam=foam)
    whole = sum((Amount(p.kg, p.low_kg, p.high_kg) for p in parts), Amount.exact(0.0))
    _range(
        book, "glue.stays", whole.times(G_PER_KG), "g", "dry glue that stays in the board", step=10,
        kind=[PRACTICE, Kind.ASSUMED],
        how="Beads and films less what dries away or is wiped off, without the glue in parts that you weighed.",
    )  # fmt: skip


def _stages(book: FigureBook, uses: tuple[StageUse, ...], bottle_l: float | None) -> None:
    """Glue of every stage, and how many bottles are wanted up to and with it."""
    rows, so_far, known = [], Amount.exact(0.0), True
    for use in uses:
        key, name = f"glue.stage.{use.stage}", STAGE_WORDS[use.stage] + (FOAM_TOO if use.foam else "")
        book.add(
            f"{key}.length", use.length_mm, "mm", f"joints, {name}", kind=Kind.MAKER, step=10,
            how="All joints of this stage, one after the other.",
        )  # fmt: skip
        how = BEAD_SUM if not use.film_mm2 else "Area of the joints times the label's spread rate, and what is wasted."
        kinds = [Kind.MAKER, Kind.LABEL, PRACTICE]
        if use.volume_ml is not None:
            _range(book, f"{key}.volume", use.volume_ml, "ml", f"glue to have, {name}", how=how, kind=kinds)
            so_far = so_far + use.volume_ml
        if use.mass_kg is not None:
            _range(book, f"{key}.mass", use.mass_kg.times(G_PER_KG), "g", f"glue to have, {name}", how=how, kind=kinds)
        known = known and use.volume_ml is not None
        if known and bottle_l is not None:
            book.add(
                f"{key}.bottles", bottles(volume_ml=so_far.high, bottle_l=bottle_l), "",
                f"bottles up to and with this stage, {name}", kind=kinds,
                how="Glue of all stages so far, at its most, in whole bottles of your size.",
            )  # fmt: skip
        rows.append(
            {"key": key, "slug": use.stage, "name": name, "volume": use.volume_ml is not None,
             "mass": use.mass_kg is not None, "bottles": known and bottle_l is not None, "beads": use.bead_mm > 0}
        )  # fmt: skip
    book.rows["glue_stages"] = tuple(rows)
    missing = {word for use in uses for word in use.missing} | ({"bottle"} if bottle_l is None else set())
    book.said["glue.missing"] = [word for word in ("bottle", "spread rate", "density") if word in missing]
    if known:
        _range(
            book, "glue.volume", so_far, "ml", "glue to have for the whole board", how="Glue of all stages together.",
            kind=[Kind.MAKER, Kind.LABEL, PRACTICE], step=5,
        )  # fmt: skip
        if bottle_l is not None:
            book.add(
                "glue.bottles", bottles(volume_ml=so_far.high, bottle_l=bottle_l), "", "bottles to buy in all",
                how="The whole board's glue, at its most, in whole bottles of your size.",
                kind=[Kind.MAKER, Kind.LABEL, PRACTICE],
            )  # fmt: skip


@dataclass(frozen=True, slots=True)
class _Up:
    """A glue-up that runs against the clock, as a row of the page."""

    slug: str
    name: str
    job: GlueUp


def add_glue_time(book: FigureBook, facts: Facts) -> None:
    """How long each glue-up takes with the people there are, beside the open time; and the way out."""
    glue, helpers = facts.inputs.builder.glue, facts.inputs.builder.helpers
    people, beads = 1 + helpers, runs_beads(glue)
    open_min = book.values["glue.open_here"].value
    for key, pace, label in (
        ("glue.pace_film", FILM_MIN_PER_M, "time for one person to brush a film on both faces"),
        ("glue.pace_bead", BEAD_MIN_PER_M, "time for one person to run a bead and press it in"),
    ):
        _range(
            book, key, pace, "min/m", label, step=0.1, kind=[PRACTICE], source=COMMON, how="A first build, unhurried."
        )
    _range(
        book, "glue.close_pair", CLOSE_MIN, "min", "time for two people to close a pair of clamps", step=0.1,
        kind=[PRACTICE], source=COMMON, how="Clamps laid out beforehand and opened wide enough.",
    )  # fmt: skip
    book.add(
        "glue.people", min(people, MOST_PEOPLE), "", "people at the glue-up", kind=Kind.MEASURED,
        how=f"You and your helpers; no more than {MOST_PEOPLE} count, for more stand in each other's way.",
    )  # fmt: skip
    rows = []
    for up in _glue_ups(facts, beads):
        taken = up.job.minutes(people=people)
        fit = verdict(taken, open_min=open_min)
        _range(
            book, f"glue.up.{up.slug}.time", taken, "min", f"from the first glue to the last clamp, {up.name}",
            kind=[PRACTICE, Kind.MAKER], how="Spreading, lowering and clamping, shared by the people there are.",
        )  # fmt: skip
        rows.append({"key": f"glue.up.{up.slug}", "slug": up.slug, "name": up.name, "fit": fit})
        if up.slug == ("top-deck" if beads else "glue"):
            _way_out(book, up.job, people=people, open_min=open_min, fit=fit)
    book.rows["glue_ups"] = tuple(rows)
    book.said |= {f"glue.fits.{str(row['slug']).replace('-', '_')}": row["fit"] for row in rows}
    if beads:
        _bead_time(book, facts, people=people, open_min=open_min)


def _glue_ups(facts: Facts, beads: bool) -> list[_Up]:
    """Everything that is closed against the clock: bottom only if it gets a film, the top deck always."""
    body, pairs = facts.body, len(facts.body.ribs)
    joints = bottom_joints(body).total_mm
    lines = min(LINES_A_GO, body.blank.planks_across - 1)
    ups = [_Up("panels", "two joints of a deck panel", GlueUp(lines * body.blank.length_mm, lines))]
    if not beads:
        ups.append(_Up("glue", "the bottom", GlueUp(joints, pairs)))
    ups.append(_Up("top-deck", "the top deck", GlueUp(joints, pairs, LINE_MIN_PER_M if beads else FILM_MIN_PER_M)))
    side = rail_side_mm(body)
    if side:
        holds = math.ceil(side / facts.usual("practice.rail_hold"))
        ups.append(_Up("rails", "one layer of one rail", GlueUp(side, math.ceil(holds / 2))))
    return ups


def _way_out(book: FigureBook, job: GlueUp, *, people: int, open_min: float, fit: str) -> None:
    """What would make the panel's glue-up fit: more people, a slower glue, or goes."""
    needed = people_needed(job, open_min=open_min)
    goes = goes_needed(job, people=people, open_min=open_min)
    book.said |= {
        "glue.more_people": fit != "fits" and needed is not None,
        "glue.goes_help": fit != "fits" and goes is not None,
    }
    kinds = [PRACTICE, Kind.MAKER, Kind.LABEL]
    if needed is not None:
        book.add(
            "glue.people_needed", needed, "", "people with whom even a slow glue-up fits", kind=kinds,
            how="The fewest whose slowest time is within the open time.",
        )  # fmt: skip
    book.add(
        "glue.open_wanted", job.minutes(people=people).high, "min", "open time that would be enough for your people",
        how="The slowest time of the glue-up.", kind=kinds,
    )  # fmt: skip
    if goes is not None:
        book.add(
            "glue.goes", goes, "", "goes in which the glue-up fits", kind=kinds,
            how="Stretches from the middle outwards, each closed within the open time even if it goes slowly.",
        )  # fmt: skip
        book.add(
            "glue.go_ribs",
            job.part(goes).pairs,
            "",
            "ribs in one go",
            kind=kinds,
            how="All ribs by the number of goes.",
        )


def _bead_time(book: FigureBook, facts: Facts, *, people: int, open_min: float) -> None:
    beads = bottom_joints(facts.body).bead_mm
    kinds = [PRACTICE, Kind.MAKER]
    _range(
        book, "glue.bead_time", bead_minutes(bead_mm=beads, people=people), "min",
        "running all the beads of the bottom", kind=kinds,
        how="Their length times the pace, shared by the people there are.",
    )  # fmt: skip
    book.add(
        "glue.bead_reach", bead_reach_mm(open_min=open_min), "mm", "bead to run before you go back and press it in",
        how="What a slow hand runs in half the open time.", kind=[*kinds, Kind.LABEL], step=100,
    )  # fmt: skip


def _range(
    book: FigureBook, key: str, amount: Amount, unit: str, label: str, *, how: str, kind: list[Kind], source: str = "",
    step: float = 1.0,
) -> None:  # fmt: skip
    book.add(
        key, amount.value, unit, label, how=how, kind=kind, source=source, low=amount.low, high=amount.high, step=step
    )
