"""What must fit together inside a file of benches. Each check runs when the fields that it reads are sound."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass
from functools import partial
from itertools import islice, pairwise
from typing import Any

from generator.inputs.fault import Fault, shown
from generator.inputs.fit import Fitted, UnsoundError
from generator.inputs.fit_json import plain
from generator.inputs.read import Document
from generator.inputs.read_json import MOST_FAULTS, path_of
from generator.inputs.words import Loc

SLACK_SHARE = 1e-9
"""Places that differ by less than this share of the length are one place."""
MOST_UNEVEN = 1e6
LEAST_PRESS = 1e-9


def bench_faults(fitted: Fitted[Any]) -> list[Fault]:
    """The faults between the fields of each case, and names that stand there twice; of very many the first."""
    try:
        cases = list(enumerate(fitted.sound.cases))
    except UnsoundError:
        return []
    checks: list[Callable[[], Iterable[Fault]]] = [partial(_names_once, cases, fitted.document)]
    for number, case in cases:
        try:
            bench = _Bench(case.input, ("cases", number, "input"), fitted.document)
        except UnsoundError:
            continue
        checks += bench.checks()
    return list(islice(_found_by(checks), MOST_FAULTS + 1))


def _found_by(checks: Iterable[Callable[[], Iterable[Fault]]]) -> Iterator[Fault]:
    """One check after another; one that meets a field that is not sound ends there."""
    for check in checks:
        with suppress(UnsoundError):
            yield from check()


def _names_once(cases: Sequence[tuple[int, Any]], document: Document) -> Iterator[Fault]:
    first: dict[str, int] = {}
    names = {name for _, case in cases if (name := _name_of(case))}
    for number, case in cases:
        name = _name_of(case)
        if name in first:
            found = f'"{shown(name)}", as cases[{first[name]}].name is'
            free = next(text for count in range(2, len(cases) + 2) if (text := f"{name} {count}") not in names)
            loc: Loc = ("cases", number, "name")
            yield Fault(document.at(loc), path_of(loc), found, "each name once", f'"{shown(free)}"')
        elif name:
            first[name] = number


def _name_of(case: Any) -> str:
    try:
        return str(case.name)
    except UnsoundError:
        return ""


@dataclass(frozen=True, slots=True)
class _Bench:
    """The input of one case: a model or what is sound of it, and where it stands."""

    given: Any
    loc: Loc
    document: Document

    def checks(self) -> list[Callable[[], Iterable[Fault]]]:
        """Every check of this bench."""
        return [
            self._stiffness_covers_the_board,
            self._stiffness_is_even_enough,
            lambda: self._pieces_apart("distributed_load_N_per_mm", self.given.spread_loads),
            lambda: self._pieces_apart("stress_free_curvature_per_mm", self.given.free_curvature),
            lambda: self._on_the_board("point_loads", [load.x_mm for load in self.given.point_loads], "x_mm"),
            lambda: self._on_the_board("supports", [support.x_mm for support in self.given.supports], "x_mm"),
            lambda: self._on_the_board("stations_mm", self.given.stations_mm),
            self._loads_press_down,
        ]

    @property
    def _slack_mm(self) -> float:
        return float(SLACK_SHARE * self.given.length_mm)

    def _fault(self, loc: Sequence[str | int], found: str, allowed: str, nearest: str) -> Fault:
        whole = (*self.loc, *loc)
        return Fault(self.document.at(whole), path_of(whole), found, allowed, nearest)

    def _on_the_board(self, name: str, places_mm: Sequence[float], key: str = "") -> Iterator[Fault]:
        for at, place in enumerate(places_mm):
            yield from self._within_the_length((name, at, key) if key else (name, at), place)

    def _within_the_length(self, loc: Sequence[str | int], place_mm: float) -> Iterator[Fault]:
        length = self.given.length_mm
        if not -self._slack_mm <= place_mm <= length + self._slack_mm:
            allowed = f"0 to {plain(length)} (the board is so long)"
            yield self._fault(loc, plain(place_mm), allowed, "0" if place_mm < 0 else plain(length))

    def _stiffness_covers_the_board(self) -> Iterator[Fault]:
        """From the tail to the nose, each piece begins where the one before it ends."""
        name, pieces, length = "EI_Nmm2", self.given.stiffness, self.given.length_mm
        short = list(self._too_short(name, pieces))
        yield from short
        if short:
            return
        along = sorted(range(len(pieces)), key=lambda at: pieces[at].x0_mm)
        ends = [(along[0], "x0_mm", 0.0, "0 (the first piece begins at the tail)")]
        for before, after in pairwise(along):
            end = pieces[before].x1_mm
            why = f"{plain(end)} (where {name}[{before}] ends: no gap between pieces and no overlap)"
            ends.append((after, "x0_mm", end, why))
        ends.append((along[-1], "x1_mm", length, f"{plain(length)} (the last piece ends at L_mm)"))
        for at, key, wanted, allowed in ends:
            if abs(getattr(pieces[at], key) - wanted) > self._slack_mm:
                yield self._fault((name, at, key), plain(getattr(pieces[at], key)), allowed, plain(wanted))

    def _stiffness_is_even_enough(self) -> Iterator[Fault]:
        values = [piece.stiffness_n_mm2 for piece in self.given.stiffness]
        low = min(values)
        for at, value in enumerate(values):
            if value > MOST_UNEVEN * low:
                most = plain(MOST_UNEVEN * low)
                allowed = f"at most {most} ({plain(MOST_UNEVEN)} times the softest piece)"
                yield self._fault(("EI_Nmm2", at, "EI"), plain(value), allowed, most)

    def _pieces_apart(self, name: str, pieces: Sequence[Any]) -> Iterator[Fault]:
        """On the board, and at each place one piece at the most."""
        faults = [
            *(f for at, piece in enumerate(pieces) for f in self._within_the_length((name, at, "x0_mm"), piece.x0_mm)),
            *(f for at, piece in enumerate(pieces) for f in self._within_the_length((name, at, "x1_mm"), piece.x1_mm)),
            *self._too_short(name, pieces),
        ]
        yield from faults
        along = [] if faults else sorted(range(len(pieces)), key=lambda at: pieces[at].x0_mm)
        for before, after in pairwise(along):
            end, start = pieces[before].x1_mm, pieces[after].x0_mm
            if start < end - self._slack_mm:
                allowed = f"at least {plain(end)} (where {name}[{before}] ends: no overlap)"
                yield self._fault((name, after, "x0_mm"), plain(start), allowed, plain(end))

    def _too_short(self, name: str, pieces: Sequence[Any]) -> Iterator[Fault]:
        for at, piece in enumerate(pieces):
            if piece.x1_mm - piece.x0_mm <= self._slack_mm:
                allowed = f"above x0_mm, which is {plain(piece.x0_mm)}"
                yield self._fault((name, at, "x1_mm"), plain(piece.x1_mm), allowed, plain(self.given.length_mm))

    def _loads_press_down(self) -> Iterator[Fault]:
        spread = [(p.load_start_n_mm + p.load_end_n_mm) / 2 * (p.x1_mm - p.x0_mm) for p in self.given.spread_loads]
        loads = [*spread, *(load.load_n for load in self.given.point_loads)]
        total, size = sum(loads), sum(map(abs, loads))
        if total <= LEAST_PRESS * max(size, 1.0):
            found = f"given loads that press down with {plain(total)} N in sum"
            yield self._fault((), found, "loads that press down in sum: above 0 N", "loads above 0")
