"""Figures of the bench's supports, their stacks, and the weights on the board."""

from __future__ import annotations

from generator.bench.plan import Support
from generator.build.joints import drawn_in_mm
from generator.figure_sets.facts import BENT, SOLVED, TYPED_BUILDER, Facts
from generator.figures import FigureBook, Kind
from generator.quantities import GRAVITY_M_S2

STACKED = "From the heights of the things in the stack."


def add_supports(book: FigureBook, facts: Facts) -> None:
    """Where each support stands, what it is piled from and what it carries; and the weights."""
    _add_supports(book, facts)
    _add_weights(book, facts)


def _kg(load_n: float) -> float:
    return load_n / GRAVITY_M_S2


def _add_supports(book: FigureBook, facts: Facts) -> None:
    plan = facts.plan
    book.add(
        "bench.supports",
        len(plan.supports),
        "",
        "supports",
        how="Two at the tips, two between.",
        kind=Kind.COMMON_PRACTICE,
    )
    book.add(
        "bench.drawn_in",
        drawn_in_mm(facts.body),
        "mm",
        "how much shorter from tip to tip the bent board is than its frame was cut",
        how="Length along the bent bottom less the length from tip to tip; none for a frame that was cut to a curve.",
        kind=Kind.MAKER,
    )
    for n, support in enumerate(plan.supports, 1):
        _add_support(book, f"bench.support.{n}", support)
    book.rows["supports"] = tuple(_row(n, support) for n, support in enumerate(plan.supports, 1))


def _add_support(book: FigureBook, key: str, support: Support) -> None:
    name = f"{support.name} support"
    plan_kinds = [Kind.MAKER, Kind.MEASURED, Kind.ASSUMED]
    book.add(
        f"{key}.from_tail",
        support.planned_x_mm,
        "mm",
        f"{name}, its touching edge from the tail tip",
        how="Tips: right under the tip. Between: the two ribs that bring the curve nearest and are least fragile.",
        kind=plan_kinds,
    )
    book.add(
        f"{key}.centre",
        support.centre_x_mm,
        "mm",
        f"{name}, middle of its top from the tail tip",
        how="Half a top's width outside the edge that touches; below zero is beyond the tail tip.",
        kind=plan_kinds,
    )
    book.add(
        f"{key}.height",
        support.top_mm,
        "mm",
        f"{name}, its top above the level line",
        how="The table's reading there and the heights of the things.",
        kind=Kind.MEASURED,
        step=0.5,
    )
    book.add(
        f"{key}.stack",
        support.stack_height_mm,
        "mm",
        f"{name}, height of the stack",
        how=STACKED,
        kind=Kind.MEASURED,
        step=0.5,
    )
    book.add(
        f"{key}.reading",
        support.reading_mm,
        "mm",
        f"{name}, the table's reading there",
        how="Straight between your two nearest readings.",
        kind=Kind.MEASURED,
        step=0.5,
    )
    book.add(
        f"{key}.miss",
        support.error_mm,
        "mm",
        f"{name}, stack above (+) or below (−) what was planned",
        how="Stack as piled less the height that the curve asks for.",
        kind=plan_kinds,
        step=0.1,
    )
    book.add(
        f"{key}.load",
        _kg(support.load_n),
        "kg",
        f"{name}, what it carries",
        how=SOLVED,
        kind=BENT,
        low=_kg(support.load_low_n),
        high=_kg(support.load_high_n),
        step=0.1,
    )
    book.add(
        f"{key}.takes",
        _kg(support.takes_n),
        "kg",
        f"{name}, what it may carry",
        how="Half of what its weakest thing takes.",
        kind=[Kind.MEASURED, Kind.COMMON_PRACTICE],
    )
    book.add(
        f"{key}.effect",
        support.effect_mm,
        "mm",
        f"{name}, what 1 mm more here does to the curve at most",
        how=SOLVED,
        kind=BENT,
        step=0.1,
    )


def _row(n: int, support: Support) -> dict[str, object]:
    return {
        "n": n,
        "name": support.name,
        "key": f"bench.support.{n}",
        "pieces": tuple(
            {
                "name": part.name,
                "count": part.count,
                "kind": part.kind,
                "height_mm": part.height_mm,
                "width_mm": part.width_mm,
            }
            for part in support.parts
        ),
        "top_width_mm": support.top_width_mm,
        "edge": support.edge,
        "crossbar": support.crossbar,
        "touching": not support.lifts_off,
        "piled": support.stack is not None,
        "over_limit": support.stack is not None and support.load_high_n > support.takes_n,
    }


def _add_weights(book: FigureBook, facts: Facts) -> None:
    numbers = {rib.from_tail_mm: rib.number for rib in facts.body.ribs}
    rows = []
    for n, placed in enumerate(facts.plan.placed, 1):
        key = f"bench.weight.{n}"
        book.add(
            f"{key}.from_tail",
            placed.x_mm,
            "mm",
            f"weight {n}, from the tail tip",
            how="The rib where it helps the curve most; least weight that is enough.",
            kind=BENT,
        )
        book.add(
            f"{key}.mass",
            placed.mass_kg,
            "kg",
            f"weight {n}, mass of each",
            how=TYPED_BUILDER,
            kind=Kind.MEASURED,
            step=0.05,
        )
        book.add(
            f"{key}.count", placed.count, "", f"weight {n}, how many", how="Least weight that is enough.", kind=BENT
        )
        nearest = min(numbers, key=lambda x: abs(x - placed.x_mm))
        rows.append({"n": n, "name": placed.name, "key": key, "rib": numbers[nearest]})
    book.rows["weights"] = tuple(rows)
    book.add(
        "bench.weight_total",
        sum(one.total_kg for one in facts.plan.placed),
        "kg",
        "weights on the board, together",
        how="Added up.",
        kind=BENT,
        step=0.1,
    )
