"""Figures of the heights read on the bench: which does not fit, is there a hollow, which shim belongs where."""

from __future__ import annotations

from generator.bench.correction import Correction, best_correction
from generator.bench.readings import ReadCurve, curve_from_readings
from generator.figure_sets.bench_data import NAME, shims_held, shims_of
from generator.figure_sets.facts import BENT, TYPED_BUILDER, Facts, tip_rise_mm
from generator.figures import FigureBook, Kind

FITTED = "The curve that a board of some stiffness can have and that comes nearest to your readings."
MOVED = "Your readings, and what the change does to the computed bench."


def add_readings(book: FigureBook, facts: Facts) -> None:
    """What the builder's heights say, and what would bring them nearer; after `add_bench_data`."""
    readings = facts.inputs.builder.measured.on_bench
    book.said["read"] = readings is not None
    for name in ("readings", "misread", "read_hollows", "moves"):
        book.rows[name] = ()
    if readings is None:
        return
    x, read = [one.from_tail_mm for one in readings], [one.height_mm for one in readings]
    found = curve_from_readings(x, read, length_mm=facts.body.length_mm)
    fix = best_correction(dict(book.data[NAME]), x_mm=x, read_mm=read, held=shims_held(facts))
    _add_each(book, facts, x, read)
    _add_found(book, found)
    _add_fix(book, facts, fix)
    trusted = found.verdict in {"fair", "hollow"}
    book.said |= {
        "read_verdict": found.verdict,
        "read_trusted": trusted,
        "read_passes": trusted and found.verdict == "fair" and fix.before_mm <= book.values["bench.pass_middle"].value,
    }


def _add_each(book: FigureBook, facts: Facts, x: list[float], read: list[float]) -> None:
    curves, length = facts.plan.curves, facts.body.length_mm
    rows = []
    for n, (place, height) in enumerate(zip(x, read, strict=True), 1):
        key = f"read.{n}"
        aim = curves.at(place, curves.aim_mm) + facts.plan.line_mm(place, length)
        book.add(
            f"{key}.from_tail", place, "mm", f"reading {n}, from the tail tip", how=TYPED_BUILDER, kind=Kind.MEASURED
        )
        book.add(f"{key}.read", height, "mm", f"reading {n}", how=TYPED_BUILDER, kind=Kind.MEASURED, step=0.5)
        book.add(
            f"{key}.aim",
            aim,
            "mm",
            f"height to aim for at reading {n}",
            how="The curve that leads to the wanted one, as high as your bench carries it.",
            kind=BENT,
            step=0.5,
        )
        rows.append({"n": n, "key": key})
    book.rows["readings"] = tuple(rows)


def _add_found(book: FigureBook, found: ReadCurve) -> None:
    """The fair curve through the readings, those that don't fit, and hollows."""
    for at, end in ((0, "tail"), (-1, "nose")):
        book.add(
            f"read.{end}",
            tip_rise_mm(found.heights_mm, at),
            "mm",
            f"rise of the {end} tip by your readings",
            how=FITTED,
            kind=Kind.MEASURED,
        )
    for one in found.misread:
        book.add(
            f"read.{one.index + 1}.expected",
            one.expected_mm,
            "mm",
            f"what the other readings lead to expect of reading {one.index + 1}",
            how=FITTED,
            kind=Kind.MEASURED,
            step=0.5,
        )
    book.rows["misread"] = tuple({"n": one.index + 1, "key": f"read.{one.index + 1}"} for one in found.misread)
    for n, hollow in enumerate(found.hollows, 1):
        for name, value, label in (
            ("from", hollow.from_mm, "begins, from the tail tip"),
            ("to", hollow.to_mm, "ends, from the tail tip"),
            ("at", hollow.at_mm, "is deepest, from the tail tip"),
        ):
            book.add(
                f"read.hollow.{n}.{name}", value, "mm", f"hollow {n} {label}", how=FITTED, kind=Kind.MEASURED, step=10
            )
        book.add(
            f"read.hollow.{n}.deep",
            hollow.deepest_mm,
            "mm",
            f"hollow {n} under the straight edge",
            how=FITTED,
            kind=Kind.MEASURED,
            step=0.1,
        )
    book.rows["read_hollows"] = tuple({"n": n, "key": f"read.hollow.{n}"} for n in range(1, len(found.hollows) + 1))


def _add_fix(book: FigureBook, facts: Facts, fix: Correction) -> None:
    """The shims to move, and what that leaves."""
    kinds = (Kind.MEASURED, *BENT)
    for name, value, label in (
        ("before", fix.before_mm, "worst distance of your readings from the curve to aim for"),
        ("after", fix.after_mm, "the same after the change"),
    ):
        book.add(f"read.{name}", value, "mm", label + ", as a shape", how=MOVED, kind=kinds, step=0.5)
    shims = [thing.name for thing in shims_of(facts)]
    rows = []
    for n, move in enumerate(fix.moves, 1):
        support = facts.plan.supports[move.support]
        book.add(
            f"read.move.{n}",
            move.change_mm,
            "mm",
            f"change of the {support.name} support",
            how=MOVED,
            kind=kinds,
            step=0.5,
        )
        pieces = tuple({"name": shims[kind], "count": abs(count), "add": count > 0} for kind, count in move.pieces)
        rows.append({"n": move.support + 1, "name": support.name, "key": f"read.move.{n}", "pieces": pieces})
    book.rows["moves"] = tuple(rows)
