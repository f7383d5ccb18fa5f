"""What the bench can't do with the things there are, and what would mend it."""

from __future__ import annotations

from generator.bench.heights import Extra
from generator.figure_sets.facts import BENT, Facts
from generator.figures import FigureBook


def add_verdict(book: FigureBook, facts: Facts) -> None:
    """Whether the rocker is reached, and the one thing that is missing if not."""
    plan = facts.plan
    short = plan.extra
    if not plan.reached and short:
        book.add(
            "bench.short_weight",
            sum(one.mass_kg for one in short),
            "kg",
            "weight that is missing",
            how="Least weight more with which the wanted rocker is reached.",
            kind=BENT,
            step=0.5,
        )
    off = [s.name for s in plan.supports if s.lifts_off]
    unpiled = [s.name for s in plan.supports if s.stack is None]
    book.rows["extra"] = tuple(_extra_row(book, facts, n, one) for n, one in enumerate(short or (), 1))
    book.said |= {
        "reached": plan.reached,
        "inverted": bool(plan.inverted),
        "stacks_ok": plan.stacks_fit,
        "stacks_missing": unpiled,
        "lifted_supports": off,
        "weight_would_do": bool(short),
        "table_read": bool(facts.inputs.builder.table.readings),
        "table_long": plan.table_short_mm <= 0,
        "crossbars": all(s.crossbar for s in (plan.supports[0], plan.supports[-1])),
    }
    if plan.table_short_mm > 0:
        book.add(
            "bench.table_short",
            plan.table_short_mm,
            "mm",
            "how much too short the table is for the bench",
            how="Outer edges of the end supports' tops, less the table's length.",
            kind=BENT,
            step=10,
        )


def _extra_row(book: FigureBook, facts: Facts, n: int, one: Extra) -> dict[str, object]:
    key = f"bench.extra.{n}"
    book.add(
        f"{key}.mass",
        one.mass_kg,
        "kg",
        f"missing weight {n}",
        how="Least weight more that is enough.",
        kind=BENT,
        step=0.5,
    )
    book.add(
        f"{key}.from_tail",
        one.x_mm,
        "mm",
        f"missing weight {n}, from the tail tip",
        how="The rib where it helps most.",
        kind=BENT,
    )
    rib = min(facts.body.ribs, key=lambda r: abs(r.from_tail_mm - one.x_mm))
    return {"n": n, "key": key, "rib": rib.number}
