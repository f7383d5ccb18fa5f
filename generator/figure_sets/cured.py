"""Figures of the heights that were read once the glue was hard and the clamps were off."""

from __future__ import annotations

from generator.bench.calibrate import fit_cured
from generator.figure_sets.facts import BENT, TYPED_BUILDER, Facts, tip_rise_mm
from generator.figures import FigureBook, Kind

FITTED = "The stiffness at which the sums come nearest to your readings."


def add_cured(book: FigureBook, facts: Facts) -> None:
    """What the readings say of the board's stiffness, and what the board will keep by them."""
    readings = facts.inputs.builder.measured.cured
    book.said["cured.done"] = readings is not None
    book.rows["cured"] = ()
    if readings is None:
        return
    x, read = [one.from_tail_mm for one in readings], [one.height_mm for one in readings]
    found = fit_cured(facts.plan.bench, x_mm=x, read_mm=read)
    rows = []
    for n, (place, height, expected) in enumerate(zip(x, read, found.expected_mm, strict=True), 1):
        key = f"cured.{n}"
        book.add(
            f"{key}.from_tail", place, "mm", f"reading {n}, from the tail tip", how=TYPED_BUILDER, kind=Kind.MEASURED
        )
        book.add(
            f"{key}.read", height, "mm", f"reading {n}, clamps off", how=TYPED_BUILDER, kind=Kind.MEASURED, step=0.5
        )
        book.add(f"{key}.expected", float(expected), "mm", f"reading {n} by the sums", how=FITTED, kind=BENT, step=0.5)
        rows.append({"n": n, "key": key})
    book.rows["cured"] = tuple(rows)
    book.add(
        "cured.stiffness",
        100 * found.factor,
        "%",
        "stiffness of your board, of what was planned with",
        how=FITTED,
        kind=(Kind.MEASURED, Kind.ASSUMED),
        low=100 * found.factor_low,
        high=100 * found.factor_high,
    )
    book.add(
        "cured.miss",
        found.miss_mm,
        "mm",
        "what your readings and the sums then differ by",
        how="Root of the mean square.",
        kind=(Kind.MEASURED, Kind.ASSUMED),
        step=0.1,
    )
    kept = found.rest.kept
    for at, end in ((0, "tail"), (-1, "nose")):
        book.add(
            f"cured.{end}",
            tip_rise_mm(kept.heights_mm, at),
            "mm",
            f"rise of the {end} tip that the finished board will keep",
            how=FITTED + " Then let go of.",
            kind=(Kind.MEASURED, Kind.ASSUMED),
        )
    book.add(
        "cured.deviation",
        kept.worst_mm,
        "mm",
        "worst distance of the finished bottom from the wanted rocker, by your readings",
        how=FITTED,
        kind=(Kind.MEASURED, Kind.ASSUMED),
        step=0.1,
    )
