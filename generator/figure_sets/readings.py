"""Figures of the heights read on the bench: which does not fit, is there a hollow, which shim belongs where."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from generator.bench.correction import Correction, best_correction
from generator.bench.readings import ReadCurve, curve_from_readings
from generator.figure_sets.bench_data import NAME, shims_held, shims_of
from generator.figure_sets.facts import BENT, TYPED_BUILDER, Facts, tip_rise_mm
from generator.figures import FigureBook, Kind
from generator.inputs.builder import LevelReading

FITTED = "The curve that a board of some stiffness can have and that comes nearest to your readings."
MOVED = "Your readings, and what the change does to the computed bench."


ROWS = {
    "read": ("readings", "misread", "read_hollows", "moves"),
    "top_read": ("top_readings", "top_misread", "top_read_hollows", "top_moves"),
}
"""Rows by the key that the figures begin with: readings, those that don't fit, hollows, moves."""


@dataclass(frozen=True, slots=True, eq=False)
class Read:
    """One set of heights above the level line: key, readings, height to aim for, and the bench as data.

    `when` is said in labels, such as "with the top panel clamped on".
    """

    key: str
    readings: tuple[LevelReading, ...]
    aim_mm: Callable[[float], float]
    data: dict[str, Any]
    when: str = ""

    def label(self, words: str) -> str:
        return f"{words}, {self.when}" if self.when else words


def add_readings(book: FigureBook, facts: Facts) -> None:
    """What the heights read before the bottom's glue say; after `add_bench_data`."""
    readings, curves = facts.inputs.builder.measured.on_bench, facts.plan.curves
    if readings is None:
        read_nothing(book, "read")
        return

    def aim_mm(place: float) -> float:
        return curves.at(place, curves.aim_mm) + facts.plan.line_mm(place, facts.body.length_mm)

    add_read(book, facts, Read("read", tuple(readings), aim_mm, dict(book.data[NAME])))


def read_nothing(book: FigureBook, key: str) -> None:
    """Nothing has been read yet."""
    book.said[key] = False
    book.rows |= {name: () for name in ROWS[key]}


def add_read(book: FigureBook, facts: Facts, one: Read) -> None:
    """What the builder's heights say, and what would bring them nearer."""
    read_nothing(book, one.key)
    x, read = [r.from_tail_mm for r in one.readings], [r.height_mm for r in one.readings]
    found = curve_from_readings(x, read, length_mm=facts.body.length_mm)
    fix = best_correction(one.data, x_mm=x, read_mm=read, held=shims_held(facts))
    _add_each(book, one, x, read)
    _add_found(book, one, found)
    _add_fix(book, facts, one, fix)
    trusted = found.verdict in {"fair", "hollow"}
    book.said |= {
        one.key: True,
        f"{one.key}_verdict": found.verdict,
        f"{one.key}_trusted": trusted,
        f"{one.key}_passes": trusted
        and found.verdict == "fair"
        and fix.before_mm <= book.values["bench.pass_middle"].value,
    }


def _add_each(book: FigureBook, one: Read, x: list[float], read: list[float]) -> None:
    rows = []
    for n, (place, height) in enumerate(zip(x, read, strict=True), 1):
        key = f"{one.key}.{n}"
        aim = one.aim_mm(place)
        book.add(
            f"{key}.from_tail",
            place,
            "mm",
            one.label(f"reading {n}, from the tail tip"),
            how=TYPED_BUILDER,
            kind=Kind.MEASURED,
        )
        book.add(
            f"{key}.read", height, "mm", one.label(f"reading {n}"), how=TYPED_BUILDER, kind=Kind.MEASURED, step=0.5
        )
        book.add(
            f"{key}.aim",
            aim,
            "mm",
            one.label(f"height to aim for at reading {n}"),
            how="The curve that leads to the wanted one, as high as your bench carries it.",
            kind=BENT,
            step=0.5,
        )
        rows.append({"n": n, "key": key})
    book.rows[ROWS[one.key][0]] = tuple(rows)


def _add_found(book: FigureBook, one: Read, found: ReadCurve) -> None:
    """The fair curve through the readings, those that don't fit, and hollows."""
    for at, end in ((0, "tail"), (-1, "nose")):
        book.add(
            f"{one.key}.{end}",
            tip_rise_mm(found.heights_mm, at),
            "mm",
            one.label(f"rise of the {end} tip by your readings"),
            how=FITTED,
            kind=Kind.MEASURED,
        )
    for slip in found.misread:
        book.add(
            f"{one.key}.{slip.index + 1}.expected",
            slip.expected_mm,
            "mm",
            one.label(f"what the other readings lead to expect of reading {slip.index + 1}"),
            how=FITTED,
            kind=Kind.MEASURED,
            step=0.5,
        )
    book.rows[ROWS[one.key][1]] = tuple(
        {"n": slip.index + 1, "key": f"{one.key}.{slip.index + 1}"} for slip in found.misread
    )
    for n, hollow in enumerate(found.hollows, 1):
        for name, value, label in (
            ("from", hollow.from_mm, "begins, from the tail tip"),
            ("to", hollow.to_mm, "ends, from the tail tip"),
            ("at", hollow.at_mm, "is deepest, from the tail tip"),
        ):
            book.add(
                f"{one.key}.hollow.{n}.{name}",
                value,
                "mm",
                one.label(f"hollow {n} {label}"),
                how=FITTED,
                kind=Kind.MEASURED,
                step=10,
            )
        book.add(
            f"{one.key}.hollow.{n}.deep",
            hollow.deepest_mm,
            "mm",
            one.label(f"hollow {n} under the straight edge"),
            how=FITTED,
            kind=Kind.MEASURED,
            step=0.1,
        )
    book.rows[ROWS[one.key][2]] = tuple(
        {"n": n, "key": f"{one.key}.hollow.{n}"} for n in range(1, len(found.hollows) + 1)
    )


def _add_fix(book: FigureBook, facts: Facts, one: Read, fix: Correction) -> None:
    """The shims to move, and what that leaves."""
    kinds = (Kind.MEASURED, *BENT)
    for name, value, label in (
        ("before", fix.before_mm, "worst distance of your readings from the curve to aim for"),
        ("after", fix.after_mm, "the same after the change"),
    ):
        book.add(f"{one.key}.{name}", value, "mm", one.label(label + ", as a shape"), how=MOVED, kind=kinds, step=0.5)
    shims = [thing.name for thing in shims_of(facts)]
    rows = []
    for n, move in enumerate(fix.moves, 1):
        support = facts.plan.supports[move.support]
        book.add(
            f"{one.key}.move.{n}",
            move.change_mm,
            "mm",
            one.label(f"change of the {support.name} support"),
            how=MOVED,
            kind=kinds,
            step=0.5,
        )
        pieces = tuple({"name": shims[kind], "count": abs(count), "add": count > 0} for kind, count in move.pieces)
        rows.append({"n": move.support + 1, "name": support.name, "key": f"{one.key}.move.{n}", "pieces": pieces})
    book.rows[ROWS[one.key][3]] = tuple(rows)
