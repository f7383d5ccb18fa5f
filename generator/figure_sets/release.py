"""Figures of what the board keeps: what the bench is set over by, and both ways of letting the board go."""

from __future__ import annotations

from collections.abc import Sequence

from generator.bench.plan import BenchPlan
from generator.bench.setting import MATTERS_MM
from generator.bench.springback import SpringBack
from generator.figure_sets.facts import BENT, Facts, tip_rise_mm
from generator.figures import FigureBook, Kind

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
    }


def _add_end(book: FigureBook, plan: BenchPlan, end: str, at: int) -> None:
    """Figures of one tip."""
    curves = plan.curves

    def lost(one: SpringBack) -> float:
        return one.tail_mm if end == "tail" else one.nose_mm

    def over(key: str, label: str, values: Sequence[float], *, how: str = LET_GO, step: float = 1.0) -> None:
        """A value with the range of the stiffness: at its low end, in the middle, at its high end."""
        book.add(key, values[1], "mm", label, how=how, kind=BENT, low=min(values), high=max(values), step=step)

    released = (plan.after_low, plan.after, plan.after_high)
    ends = [tip_rise_mm(line, at) for line in (curves.after_low_mm, curves.after_mm, curves.after_high_mm)]
    over(f"after.{end}", f"rise of the {end} tip once the board is off the bench", ends)
    book.add(
        f"bench.aim_{end}",
        tip_rise_mm(curves.aim_mm, at),
        "mm",
        f"rise of the {end} tip to aim for on the bench",
        how="The wanted rise and what is lost afterwards.",
        kind=BENT,
        step=0.5,
    )
    for key, name, words in _WAYS:
        label = f"rocker lost at the {end} tip if {words}"
        over(f"bench.{key}_{end}", label, [lost(getattr(one, name)) for one in released])
    over(
        f"bench.set_over_{end}",
        f"how much higher the bench holds the {end} tip than wanted",
        [lost(one.lost(plan.route)) for one in released],
        how="What is lost once the board is off, put on beforehand.",
        step=0.5,
    )
