"""What the bench can't do with the things there are, and the one change that would mend it."""

from __future__ import annotations

from generator.bench.heights import Placed
from generator.bench.plan import Cure
from generator.figure_sets.facts import BENT, Facts
from generator.figures import FigureBook, Kind

TRIED = "The whole bench laid out again with this one change."


def add_verdict(book: FigureBook, facts: Facts) -> None:
    """Whether the rocker is reached, and what would reach it if not."""
    plan = facts.plan
    if plan.cure is not None:
        _add_cure(book, facts, plan.cure)
    else:
        book.rows["cure_weights"] = book.rows["cure_pieces"] = ()
    unpiled = [s.name for s in plan.supports if s.stack is None]
    book.said |= {
        "reached": plan.reached,
        "cure": plan.cure.change if plan.cure else "",
        "inverted": bool(plan.inverted),
        "stacks_ok": plan.stacks_fit,
        "stacks_proven": plan.stacks_proven,
        "stacks_missing": unpiled,
        "lifted_supports": [s.name for s in plan.supports if s.lifts_off],
        "table_read": bool(facts.inputs.builder.table.readings),
        "table_long": plan.table_short_mm <= 0,
        "crossbars": any(s.crossbar for s in plan.supports[1:-1]),
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


def _add_cure(book: FigureBook, facts: Facts, cure: Cure) -> None:
    """What has to be found, and what the mended bench then misses."""
    book.add(
        "bench.cure.deviation",
        cure.deviation_mm,
        "mm",
        "what the mended bench misses at worst",
        how=TRIED,
        kind=BENT,
        step=0.1,
    )
    weights = cure.placed or cure.instead
    if weights:
        total = sum(one.total_kg for one in weights)
        book.add("bench.short_weight", total, "kg", "weight that is missing", how=TRIED, kind=BENT, step=0.5)
        book.add(
            "bench.cure.each",
            weights[0].mass_kg,
            "kg",
            "one of the weights to find",
            how="A five-litre can of water, or whatever else weighs as much.",
            kind=Kind.MAKER,
            step=0.5,
        )
    rows = []
    for piece in cure.pieces:
        n = piece.support + 1
        for name, value in (("least", piece.least_mm), ("most", piece.most_mm)):
            label = f"height of the piece that support {n} lacks, at {name}"
            book.add(f"bench.cure.piece.{n}.{name}", value, "mm", label, how=TRIED, kind=BENT, step=0.5)
        rows.append({"n": n, "key": f"bench.cure.piece.{n}"})
    book.rows["cure_pieces"] = tuple(rows)
    book.rows["cure_weights"] = tuple(_weight_row(book, facts, n, one) for n, one in enumerate(weights, 1))


def _weight_row(book: FigureBook, facts: Facts, n: int, one: Placed) -> dict[str, object]:
    key = f"bench.extra.{n}"
    book.add(f"{key}.count", one.count, "", f"missing weights at place {n}", how=TRIED, kind=BENT)
    book.add(
        f"{key}.mass", one.total_kg, "kg", f"missing weights at place {n}, together", how=TRIED, kind=BENT, step=0.5
    )
    book.add(f"{key}.from_tail", one.x_mm, "mm", f"missing weights, place {n} from the tail tip", how=TRIED, kind=BENT)
    rib = min(facts.body.ribs, key=lambda r: abs(r.from_tail_mm - one.x_mm))
    return {"n": n, "key": key, "rib": rib.number}
