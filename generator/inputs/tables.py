"""The CSV tables of the data folder: timbers, facts of practice, tools. A bad cell is a fault with its line."""

from __future__ import annotations

import csv
import io
import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, fields
from typing import Any, NoReturn, TypeVar

from generator.inputs.fault import BadInput, Fault, shown
from generator.inputs.fields import bad_character, nearest_name
from generator.inputs.stages import BUILD_STAGES

MOST_BYTES = 256 * 1024


@dataclass(frozen=True, slots=True)
class Species:
    """One timber. A value is None where the source was not seen; `…_read` say how each group was read.

    `shrink_…` is green to oven-dry in per cent, `coef_…` the change of a dimension per 1 % of moisture,
    `gravity_12pct` oven-dry mass over the volume near 12 % moisture, relative to water, the rest clear wood in MPa.
    """

    name: str
    botanical: str
    shrink_radial_pct: float | None
    shrink_tangential_pct: float | None
    shrink_volumetric_pct: float | None
    shrink_read: str
    coef_radial_per_pct: float | None
    coef_tangential_per_pct: float | None
    coef_read: str
    gravity_12pct: float | None
    strength_bending_mpa: float | None
    stiffness_mpa: float | None
    strength_compression_mpa: float | None
    strength_shear_mpa: float | None
    strength_tension_perp_mpa: float | None
    strength_read: str
    note: str
    source: str
    read: str


@dataclass(frozen=True, slots=True)
class PracticeRow:
    """One fact of common practice or published constant that pages use."""

    key: str
    value: float
    unit: str
    label: str
    how: str
    source: str


@dataclass(frozen=True, slots=True)
class Tool:
    """One tool: the stage that first needs it, what it is for here, and what a household has instead."""

    name: str
    stage: str
    use: str
    substitute: str


@dataclass(frozen=True, slots=True)
class RockerRule:
    """One of the maker's rules for a rocker: mm added at the tips, and by how many per cent the curve is lowered
    half-way from the low point to a tip.

    `name` is what a builder's file may say for that factor; the reference mass where the factor is body mass, the
    length that all mm are written for where it is length.
    """

    factor: str
    name: str
    tail_mm: float
    nose_mm: float
    flat_pct: float
    why: str


def tool_faults(tools: Iterable[Tool]) -> Iterator[Fault]:
    """A fault for each tool whose stage is none of the guide's."""
    for tool in tools:
        if tool.stage not in BUILD_STAGES:
            nearest = nearest_name(tool.stage, BUILD_STAGES)
            yield Fault(
                "household.csv", f"the stage of {shown(tool.name)}", shown(tool.stage), ", ".join(BUILD_STAGES), nearest
            )


R = TypeVar("R", bound=Species | PracticeRow | Tool | RockerRule)
_HEADERS = {"use": "for"}
_MAY_BE_EMPTY = frozenset({"shrink_read", "coef_read", "strength_read", "note", "unit"})


def read_table(raw: bytes, place: str, row_type: type[R]) -> tuple[R, ...]:
    """All rows of one table, in file order.

    Raises:
        BadInput: every row and cell that can't be read.
    """
    rows, faults = read_rows(raw, place, row_type)
    if faults:
        raise BadInput(faults)
    return tuple(row for _, row in rows)


def read_rows(
    raw: bytes, place: str, row_type: type[R], *, name_cells: int = 1
) -> tuple[list[tuple[str, R]], list[Fault]]:
    """The good rows of one table with their places, in file order, and the faults of the others.

    `name_cells` is how many of the first cells name a row; each name may stand there once.

    Raises:
        BadInput: the table as a whole can't be read.
    """
    text = _text_of(raw, place)
    lines = [(number, line) for number, line in enumerate(text.split("\n"), 1) if line.strip() and line[0] != "#"]
    names = [_HEADERS.get(field.name, field.name) for field in fields(row_type)]
    if not lines:
        raise BadInput([Fault(place, "the table", "empty", f"a first row with {', '.join(names)}", ",".join(names))])
    numbers = [number for number, _ in lines]
    rows = list(csv.reader(io.StringIO("\n".join(line for _, line in lines))))
    if rows[0] != names:
        found = shown(", ".join(rows[0]))
        raise BadInput([Fault(f"{place}:{numbers[0]}", "the first row", found, ", ".join(names), ",".join(names))])
    faults: list[Fault] = []
    good: list[tuple[str, R]] = []
    first_lines: dict[str, int] = {}
    for number, cells in zip(numbers[1:], rows[1:], strict=False):
        here, name = f"{place}:{number}", ", ".join(cells[:name_cells])
        wrong = list(_row_faults(here, names, cells, row_type))
        if name in first_lines:
            found = f"given again (first in line {first_lines[name]})"
            wrong.append(Fault(here, shown(name), found, "each once", "taking out one of the two"))
        first_lines.setdefault(name, number)
        faults += wrong
        if not wrong:
            values: list[Any] = [_cell(row_type, at, cell) for at, cell in enumerate(cells)]
            good.append((here, row_type(*values)))
    return good, faults


def _text_of(raw: bytes, place: str) -> str:
    if len(raw) > MOST_BYTES:
        _stop(place, f"over {MOST_BYTES // 1024} KiB long", f"up to {MOST_BYTES // 1024} KiB", "taking out rows")
    try:
        text = raw.decode("utf-8-sig").replace("\r\n", "\n")
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        _stop(f"{place}:{line}", "not in UTF-8 here", "UTF-8", "saving it as UTF-8")
    for number, line_text in enumerate(text.split("\n"), 1):
        if bad := bad_character(line_text):
            found = f"spoilt by the control character U+{ord(bad):04X}"
            _stop(f"{place}:{number}", found, "text without control characters", "typing the row again")
        if line_text.count('"') % 2:
            _stop(f"{place}:{number}", "left with a quote open", "quotes in pairs on one line", "closing the quote")
    return text


def _stop(place: str, found: str, allowed: str, nearest: str) -> NoReturn:
    raise BadInput([Fault(place, "the table", found, allowed, nearest)])


def _row_faults(place: str, names: list[str], cells: list[str], row_type: type[Any]) -> Iterator[Fault]:
    if len(cells) != len(names):
        found, allowed = f"{len(cells)} cells long", f"{len(names)} cells: {', '.join(names)}"
        yield Fault(place, "the row", found, allowed, "quotes round text with a comma in it")
        return
    for at, (name, cell) in enumerate(zip(names, cells, strict=True)):
        kind = str(fields(row_type)[at].type)
        if kind.startswith("float"):
            if cell == "" and "None" in kind:
                continue
            try:
                finite = math.isfinite(float(cell)) and cell == cell.strip() and "_" not in cell
            except ValueError:
                finite = False
            if not finite:
                yield Fault(place, f"the column `{name}`", shown(cell) or "empty", "a number with a dot", "")
        elif not cell.strip() and fields(row_type)[at].name not in _MAY_BE_EMPTY:
            yield Fault(place, f"the column `{name}`", "empty", "text", "")


def _cell(row_type: type[Any], at: int, cell: str) -> str | float | None:
    if str(fields(row_type)[at].type).startswith("float"):
        return float(cell) if cell else None
    return cell.strip()
