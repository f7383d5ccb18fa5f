"""Weights that press the spine and the middles of the ribs, where rim clamps do not reach, and what they do to the
curve.

A rim clamp presses the edge strip only. The rest is pressed by weights on boards that bridge two ribs.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from generator.bench.beam import Beam, PointLoad
from generator.bench.tops import Top, rest_on
from generator.quantities import GRAVITY_M_S2, Floats, fixed

PIN, PROPPED, FIXED = 48.0, 768 / 7, 192.0
"""P l³ / (E I δ) of a strip with a load P at its middle: both ends free to turn, one held, both held.

Source: American Wood Council, Design Aid No. 6, figures 7, 17 and 24 (the second and third from memory)."""
MOST_A_BOARD_KG = 20.0
"""What can stand on one board without rolling off; common practice."""
HALF, TENTH = 0.5, 0.1


@dataclass(frozen=True, slots=True)
class Need:
    """Mass that closes the joint at one rib, kg, with its range."""

    low_kg: float
    value_kg: float
    high_kg: float

    def plus(self, other: Need) -> Need:
        """Both together."""
        return Need(self.low_kg + other.low_kg, self.value_kg + other.value_kg, self.high_kg + other.high_kg)


@dataclass(frozen=True, slots=True)
class Lying:
    """A weight that lies on the board for its rocker: place and mass of all of it."""

    x_mm: float
    kg: float


@dataclass(frozen=True, slots=True)
class Spare:
    """One kind of weight that the bench did not use, and how many are left."""

    name: str
    mass_kg: float
    count: int


@dataclass(frozen=True, slots=True)
class Bridge:
    """One board on two ribs, by their index; `pressing` are the ribs that count for it.

    `on_kg` lies there for the rocker, `pieces` are spare weights laid on by name and count, `laid_kg` their mass.
    """

    ribs: tuple[int, int]
    pressing: tuple[int, ...]
    need: Need
    on_kg: float
    pieces: tuple[tuple[str, int], ...]
    laid_kg: float

    @property
    def short_kg(self) -> float:
        """What is missing."""
        return max(0.0, self.need.value_kg - self.on_kg - self.laid_kg)


def closing_force_n(
    *, gap_mm: float, span_mm: float, width_mm: float, thickness_mm: float, stiffness_mpa: float, held: float = PROPPED
) -> float:
    """Force at the middle of a strip of panel that closes a gap there, N: `held` E I δ / l³, I = b t³/12.

    Args:
        gap_mm: Gap, δ.
        span_mm: Between the ribs on either side, l, above 0.
        width_mm: Panel that bends with it, b.
        held: `PIN`, `PROPPED` or `FIXED`: how the neighbours hold it.

    Raises:
        ValueError: no span.
    """
    if not span_mm > 0:
        raise ValueError("span_mm must be above 0")
    return held * stiffness_mpa * width_mm * thickness_mm**3 / 12 * gap_mm / span_mm**3


def rib_needs(
    *,
    rib_mm: ArrayLike,
    half_width_mm: ArrayLike,
    length_mm: float,
    gap_mm: float,
    thickness_mm: float,
    stiffness_mpa: tuple[float, float, float],
) -> tuple[Need, ...]:
    """Mass at each rib that presses the panel to it across a gap such as the batten check lets pass.

    The panel spans from the rib before to the rib after (from a tip at the ends of the row), and a strip half as wide
    as the board bends with it. That is a modest wish: joints that touch, not the pressure that a glue's textbook asks
    for. Low: softest panel, free to turn over its neighbours; high: stiffest panel, held there.
    """
    ribs, half = fixed(rib_mm), fixed(half_width_mm)
    ends = np.concatenate(([0.0], ribs, [length_mm]))
    low, value, high = stiffness_mpa
    found = []
    for before, after, width in zip(ends[:-2], ends[2:], half, strict=True):
        masses = [
            closing_force_n(
                gap_mm=gap_mm,
                span_mm=float(after - before),
                width_mm=float(width),
                thickness_mm=thickness_mm,
                stiffness_mpa=mpa,
                held=held,
            )
            / GRAVITY_M_S2
            for mpa, held in ((low, PIN), (value, PROPPED), (high, FIXED))
        ]
        found.append(Need(*masses))
    return tuple(found)


def bridges(
    needs: Sequence[Need], *, rib_mm: ArrayLike, lying: Sequence[Lying], spare: Sequence[Spare]
) -> tuple[Bridge, ...]:
    """Boards from rib to rib, tail first, with what lies there already and what of the spare weights goes on each.

    Each board bridges two ribs, so that it touches both; with an odd number the last one also stands on a rib that is
    pressed already. A weight that is on for the rocker counts where its rib is. Spare pieces go one by one, the
    heaviest first, to the board that lacks most, as long as that board lacks at least half of the piece.

    Raises:
        ValueError: fewer than two ribs.
    """
    ribs = fixed(rib_mm)
    if ribs.size < 2 or len(needs) != ribs.size:
        raise ValueError("needs and rib_mm must name the same ribs, at least two")
    pairs = [(i, min(i + 1, ribs.size - 1)) for i in range(0, ribs.size, 2)]
    boards = [((a - 1, a) if a == b else (a, b), (a,) if a == b else (a, b)) for a, b in pairs]
    on = [0.0] * len(boards)
    for one in lying:
        on[int(np.abs(ribs - one.x_mm).argmin()) // 2] += one.kg
    wants = [_together(needs, pressing) for _, pressing in boards]
    laid = _laid_out(wants, on, spare)
    return tuple(
        Bridge(bridged, pressing, need, kg, tuple(got.items()), sum(n * _mass(spare, name) for name, n in got.items()))
        for (bridged, pressing), need, kg, got in zip(boards, wants, on, laid, strict=True)
    )


def _together(needs: Sequence[Need], ribs: Sequence[int]) -> Need:
    total = Need(0.0, 0.0, 0.0)
    for rib in ribs:
        total = total.plus(needs[rib])
    return total


def _mass(spare: Sequence[Spare], name: str) -> float:
    return next(one.mass_kg for one in spare if one.name == name)


def _laid_out(wants: Sequence[Need], on_kg: Sequence[float], spare: Sequence[Spare]) -> list[dict[str, int]]:
    """Names and counts of the spare pieces on each board."""
    got: list[dict[str, int]] = [{} for _ in wants]
    here = list(on_kg)
    for one in sorted(spare, key=lambda s: -s.mass_kg):
        for _ in range(one.count):
            lacks = [
                need.value_kg - kg if kg + one.mass_kg <= MOST_A_BOARD_KG else -1.0
                for need, kg in zip(wants, here, strict=True)
            ]
            at = int(np.argmax(lacks))
            if lacks[at] < HALF * one.mass_kg:
                break
            here[at] += one.mass_kg
            got[at][one.name] = got[at].get(one.name, 0) + 1
    return got


def lacking(found: Sequence[Bridge], spare: Sequence[Spare]) -> tuple[bool, ...]:
    """Which boards really lack weight: by more than a tenth of their need, and than half of a piece that is left over.

    Pieces are laid on to the nearest piece, so what is less than half of one is no lack.
    """
    used: dict[str, int] = {}
    for one in found:
        for name, count in one.pieces:
            used[name] = used.get(name, 0) + count
    left = [one.mass_kg for one in spare if one.count > used.get(one.name, 0)]
    least = HALF * min(left, default=0.0)
    return tuple(one.short_kg > max(TENTH * one.need.value_kg, least) for one in found)


def board_loads(found: Sequence[Bridge], *, rib_mm: ArrayLike) -> tuple[PointLoad, ...]:
    """The spare weights as loads: each board leans half of what lies on it on each of its two ribs."""
    ribs = fixed(rib_mm)
    return tuple(
        PointLoad(float(ribs[rib]), HALF * bridge.laid_kg * GRAVITY_M_S2)
        for bridge in found
        if bridge.laid_kg > 0
        for rib in bridge.ribs
    )


def curve_moves_mm(beam: Beam, tops: Sequence[Top], loads: Sequence[PointLoad], x_mm: ArrayLike) -> Floats:
    """How far the bottom moves at each place when loads are added to a bench, up positive, supports left as they are.

    Raises:
        ArithmeticError: the board tips over under them.
    """
    more = rest_on(beam.with_point_loads(loads), tops).bent.heights_mm(x_mm)
    return fixed(more - rest_on(beam, tops).bent.heights_mm(x_mm))


def support_loads_n(beam: Beam, tops: Sequence[Top], loads: Sequence[PointLoad]) -> Floats:
    """What each support carries with the loads added."""
    return rest_on(beam.with_point_loads(loads), tops).loads_n


def strip_pressure_kpa(*, kg: float, length_mm: float, width_mm: float) -> float:
    """Mean pressure of a mass that stands on a narrow joint, kPa.

    Raises:
        ValueError: the joint has no face.
    """
    if not length_mm * width_mm > 0:
        raise ValueError("length_mm and width_mm must be above 0")
    return 1000 * kg * GRAVITY_M_S2 / (length_mm * width_mm)
