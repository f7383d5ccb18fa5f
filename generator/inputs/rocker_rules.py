"""The maker's rules for rockers, `rocker_rules.csv`: reading, checks, and which rule belongs to what."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal, get_args

from pydantic_core import PydanticCustomError

from generator.inputs.fault import BadInput, Fault, shown
from generator.inputs.fields import Kind, Quantity, Text, nearest_name
from generator.inputs.tables import RockerRule, read_rows

RockerWord = Literal["easier paddling", "between", "later take-off"]
CANDIDATES: tuple[RockerWord, ...] = get_args(RockerWord)
SURF_FACTORS = ("where", "how", "skill")
BODY_MASS, LENGTH, CANDIDATE = "body mass", "length", "candidate"
FACTORS = (*SURF_FACTORS, BODY_MASS, LENGTH, CANDIDATE)

_REFERENCES = {BODY_MASS: Quantity("mass", 30, 150), LENGTH: Quantity("length", 1200, 4000)}
_MOST_MM, _MOST_PCT = 40.0, 25.0
_MOST_A_STEP_MM, _MOST_A_STEP_PCT = 10.0, 5.0
_WHY = Text(longest=300)
Placed = tuple[str, RockerRule]


@dataclass(frozen=True, slots=True)
class RockerRules:
    """All rules, each factor with at least one, `body mass` and `length` with one, and one for each candidate."""

    rows: tuple[RockerRule, ...]

    def names(self, factor: str) -> tuple[str, ...]:
        """The names that a factor has rules for, in the table's order."""
        return tuple(row.name for row in self.rows if row.factor == factor)

    def rule(self, factor: str, name: str) -> RockerRule:
        """The rule of that name.

        Raises:
            KeyError: there is none.
        """
        try:
            return next(row for row in self.rows if (row.factor, row.name) == (factor, name))
        except StopIteration:
            raise KeyError(f"{factor}, {name}") from None

    @property
    def body_mass(self) -> RockerRule:
        """The rule that counts once for each step of body mass above the reference."""
        return self.rule(BODY_MASS, self.names(BODY_MASS)[0])

    @property
    def length(self) -> RockerRule:
        """The row that says which length of board all mm are written for."""
        return self.rule(LENGTH, self.names(LENGTH)[0])

    @property
    def reference_mass_kg(self) -> float:
        """The body mass at which that rule adds nothing."""
        return _REFERENCES[BODY_MASS].read(self.body_mass.name)

    @property
    def reference_length_mm(self) -> float:
        """The length of board that all mm in the table are written for."""
        return _REFERENCES[LENGTH].read(self.length.name)


def read_rocker_rules(raw: bytes, place: str) -> RockerRules:
    """The table, checked.

    Raises:
        BadInput: all that is wrong with it.
    """
    placed, faults = read_rows(raw, place, RockerRule, name_cells=2)
    for here, row in placed:
        faults += _row_faults(here, row)
    if not faults:  # a row with a slip in its name would else be missing too
        faults += _missing(place, placed)
    faults += [*_second_references(placed), *_candidates_in_order(placed)]
    if faults:
        raise BadInput(faults)
    return RockerRules(tuple(row for _, row in placed))


def _row_faults(here: str, row: RockerRule) -> Iterator[Fault]:
    """What is wrong with one row by itself."""
    if row.factor not in FACTORS:
        listed = "one of " + ", ".join(FACTORS)
        yield Fault(here, "the column `factor`", shown(row.factor), listed, nearest_name(row.factor, FACTORS))
        return
    if row.factor == CANDIDATE and row.name not in CANDIDATES:
        listed = "one of " + ", ".join(CANDIDATES)
        yield Fault(here, "the column `name`", shown(row.name), listed, nearest_name(row.name, CANDIDATES))
    yield from _misfits(here, "name", _REFERENCES.get(row.factor, Text()), row.name)
    yield from _misfits(here, "why", _WHY, row.why)
    most_mm, most_pct = {
        BODY_MASS: (_MOST_A_STEP_MM, _MOST_A_STEP_PCT),
        LENGTH: (0.0, 0.0),
    }.get(row.factor, (_MOST_MM, _MOST_PCT))
    for column, value, most in (
        ("tail_mm", row.tail_mm, most_mm),
        ("nose_mm", row.nose_mm, most_mm),
        ("flat_pct", row.flat_pct, most_pct),
    ):
        if abs(value) > most:
            allowed = f"{-most:g} to {most:g}" if most else "0 (this row only says what length the mm are written for)"
            nearest = f"{most if value > 0 else -most:g}" if most else "0"
            yield Fault(here, f"the column `{column}`", f"{value:g}", allowed, nearest)


def _misfits(here: str, column: str, kind: Kind, cell: str) -> Iterator[Fault]:
    try:
        kind.read(cell)
    except PydanticCustomError as misfit:
        told = misfit.context or {}
        yield Fault(here, f"the column `{column}`", told["found"], told["allowed"], told["nearest"])


def _missing(place: str, placed: Sequence[Placed]) -> Iterator[Fault]:
    """A fault for each factor without a row and for each candidate without one."""
    factors, there = {row.factor for _, row in placed}, {(row.factor, row.name) for _, row in placed}
    for factor in FACTORS:
        if factor not in factors:
            yield Fault(
                place,
                f"the factor `{factor}`",
                "without a row",
                f"one row or more for each of {', '.join(FACTORS)}",
                f"adding a row that begins with `{factor},`",
            )
    for name in CANDIDATES:
        if CANDIDATE in factors and (CANDIDATE, name) not in there:
            allowed = f"one row for each of {', '.join(CANDIDATES)}"
            way = f"adding a row that begins with `{CANDIDATE},{name},`"
            yield Fault(place, f"the candidate `{name}`", "without a row", allowed, way)


def _second_references(placed: Sequence[Placed]) -> Iterator[Fault]:
    for factor in _REFERENCES:
        for here, row in [one for one in placed if one[1].factor == factor][1:]:
            allowed = f"one row for {factor}"
            yield Fault(here, f"the factor `{factor}`", f"there again ({shown(row.name)})", allowed, "taking it out")


def _candidates_in_order(placed: Sequence[Placed]) -> Iterator[Fault]:
    """From easier paddling to later take-off the nose must rise and the middle must not get flatter."""
    rows = {row.name: (here, row) for here, row in placed if row.factor == CANDIDATE}
    for before, after in pairwise(CANDIDATES):
        if before in rows and after in rows:
            less, (here, more) = rows[before][1], rows[after]
            if not more.nose_mm > less.nose_mm:
                allowed = f"more than {less.nose_mm:g} (the nose of {before})"
                yield Fault(here, "the column `nose_mm`", f"{more.nose_mm:g}", allowed, f"{less.nose_mm + 1:g}")
            if more.flat_pct > less.flat_pct:
                allowed = f"at most {less.flat_pct:g} (as flat as {before})"
                yield Fault(here, "the column `flat_pct`", f"{more.flat_pct:g}", allowed, f"{less.flat_pct:g}")
