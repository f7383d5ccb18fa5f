"""Figures of what the board keeps: what the bench is set over by, and both ways of letting the board go."""

from __future__ import annotations

from generator.bench.plan import BenchPlan
from generator.bench.setting import MATTERS_MM
from generator.bench.springback import SpringBack
from generator.figure_sets.facts import BENT, Facts
from generator.figures import FigureBook, Kind
from generator.quantities import Floats

LET_GO = "The bend that the bench put in, taken from the section as it is when the board is let go."
PLANNED = "The bench planned once more for that."
_WAYS = (
    ("spring", "lifted", "lifted off as soon as the bottom panel's glue is hard"),
    ("free_top", "free_top", "lifted off then, and the top panel glued on with the board lying free"),
    ("kept", "kept", "left on the bench until the top panel's glue is hard"),
)


def add_release(book: FigureBook, facts: Facts) -> None:
    """What is lost and kept at the tips, by each way, and what the other way would take."""
    plan = facts.plan
    for at, end in ((0, "tail"), (-1, "nose")):
        _add_end(book, plan, end, at)
    book.add(
        "bench.loss_matters",
        MATTERS_MM,
        "mm",
        "loss at a tip from which the board had better stay on the bench",
        how="More than a tip may be out anyway.",
        kind=Kind.MAKER,
        step=0.5,
    )
    other = plan.other
    if other is not None:
        for name, value, unit, label in (
            ("mass", other.mass_kg, "kg", "weights that the other way would take"),
            ("tail", other.tail_mm, "mm", "rise of the tail tip on the bench for the other way"),
            ("nose", other.nose_mm, "mm", "rise of the nose tip on the bench for the other way"),
        ):
            book.add(f"bench.other.{name}", value, unit, label, how=PLANNED, kind=BENT, step=0.1 if unit == "kg" else 1)
    book.said |= {
        "route": plan.route,
        "best_route": plan.best_route,
        "other_reached": other is not None and other.reached,
        "spring_matters": plan.best_route == "top panel",
    }


def _add_end(book: FigureBook, plan: BenchPlan, end: str, at: int) -> None:
    """Figures of one tip."""
    curves = plan.curves

    def rise(heights: Floats) -> float:
        return float(heights[at] - heights.min())

    def lost(one: SpringBack) -> float:
        return one.tail_mm if end == "tail" else one.nose_mm

    ends = rise(curves.after_low_mm), rise(curves.after_mm), rise(curves.after_high_mm)
    book.add(
        f"after.{end}",
        ends[1],
        "mm",
        f"rise of the {end} tip once the board is off the bench",
        how=LET_GO,
        kind=BENT,
        low=min(ends),
        high=max(ends),
    )
    book.add(
        f"bench.aim_{end}",
        rise(curves.aim_mm),
        "mm",
        f"rise of the {end} tip to aim for on the bench",
        how="The wanted rise and what is lost afterwards.",
        kind=BENT,
        step=0.5,
    )
    for key, name, words in _WAYS:
        values = [lost(getattr(one, name)) for one in (plan.after_low, plan.after, plan.after_high)]
        book.add(
            f"bench.{key}_{end}",
            values[1],
            "mm",
            f"rocker lost at the {end} tip if {words}",
            how=LET_GO,
            kind=BENT,
            low=min(values),
            high=max(values),
        )
    values = [lost(one.lost(plan.route)) for one in (plan.after_low, plan.after, plan.after_high)]
    book.add(
        f"bench.set_over_{end}",
        values[1],
        "mm",
        f"how much higher the bench holds the {end} tip than wanted",
        how="What is lost once the board is off, put on beforehand.",
        kind=BENT,
        low=min(values),
        high=max(values),
        step=0.5,
    )
