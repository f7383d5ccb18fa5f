"""A flat panel rolled over the deck's crown: how tightly, how hard the wood is stretched, what holds its rim down."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike

from generator.board.body import Body
from generator.quantities import Floats
from generator.timber.across import AcrossGrain

SAFETY = 2.0
"""Strength across the grain differs by about a quarter (coefficient of variation) from piece to piece, so that the
weak ones have little more than half (Wood Handbook, FPL-GTR-190 (2010), Table 5-6, from memory)."""
FLAT_MM = 0.2
"""A rib whose ends lie no lower than this is flat."""
PIECES = 400

Verdict = Literal["easy", "slowly", "too much"]


def arc_radius_mm(*, half_width_mm: float, drop_mm: float) -> float:
    """Radius of the arc that falls by `drop_mm` from its middle to `half_width_mm` beside it: (b² + c²) / (2 c).

    Raises:
        ValueError: a length is not above 0.

    Source: chord and height of a circle's segment (Euclid III.35; from memory).
    """
    if not (half_width_mm > 0 and drop_mm > 0):
        raise ValueError("half_width_mm and drop_mm must be above 0")
    return (half_width_mm**2 + drop_mm**2) / (2 * drop_mm)


def surface_strain(*, thickness_mm: float, radius_mm: float) -> float:
    """Stretch of the surface of a straight or flat piece bent to a radius at its middle: t / (2 R).

    Raises:
        ValueError: a length is not above 0.

    Source: plane sections (beam bending; textbook, from memory).
    """
    if not (thickness_mm > 0 and radius_mm > 0):
        raise ValueError("thickness_mm and radius_mm must be above 0")
    return thickness_mm / (2 * radius_mm)


def least_radius_mm(*, thickness_mm: float, strain: float) -> float:
    """The tightest bend at which the surface stretches by `strain`: t / (2 ε).

    Raises:
        ValueError: a number is not above 0.
    """
    if not (thickness_mm > 0 and strain > 0):
        raise ValueError("thickness_mm and strain must be above 0")
    return thickness_mm / (2 * strain)


def rim_force_n_mm(
    *, stiffness_mpa: float, thickness_mm: float, half_width_mm: float, drop_mm: float, gap_mm: float
) -> float:
    """Force along each millimetre of rim that brings a flat panel down over an arc, but for a gap at the rim.

    The panel is held at the middle and pulled down at its edge. It wraps the arc from the middle outwards: where it
    lies on it, its moment is EI/R, so the last L = EI/(R p) stands free and a gap of L²/(6 R) is left at the rim. So
    p = EI/R / √(6 R g). If the gap may be a third of the drop or more, it touches nowhere but at the middle and
    p = 3 EI (c − g) / b³. EI is that of a strip 1 mm wide, E t³/12.

    Raises:
        ValueError: a number is not above 0.

    Source: a strip bent over a round former, shallow (first principles).
    """
    if not min(stiffness_mpa, thickness_mm, half_width_mm, drop_mm, gap_mm) > 0:
        raise ValueError("all must be above 0")
    bending = stiffness_mpa * thickness_mm**3 / 12
    radius = half_width_mm**2 / (2 * drop_mm)
    if gap_mm >= drop_mm / 3:
        return max(3 * bending * (drop_mm - gap_mm) / half_width_mm**3, 0.0)
    return bending / radius / math.sqrt(6 * radius * gap_mm)


@dataclass(frozen=True, slots=True)
class Saddle:
    """Strain along the board that a flat panel takes when it is bent both ways at once; stretched is above 0."""

    edge: float
    middle: float


def saddle(*, along_per_mm: float, across_per_mm: float, half_width_mm: float) -> Saddle:
    """Strain along a strip bent both along and across: K b²/3 at its edges, −K b²/6 in its middle.

    K = along · across is the Gaussian curvature, which no flat sheet takes without stretching. Curvatures are given
    so that rocker (ends up) along and crown (edges down) across are both above 0: a saddle, edges stretched. Shallow;
    changes slowly along the board; nothing pulls across or along as a whole (∂²ε/∂y² = K, mean 0).

    Source: compatibility of a shallow shell (von Kármán; from memory).
    """
    bend = along_per_mm * across_per_mm * half_width_mm**2
    return Saddle(bend / 3, -bend / 6)


@dataclass(frozen=True, slots=True)
class Rolled:
    """The panel over one rib. `radius_mm` is None and all strains 0 where the rib is flat."""

    number: int
    from_tail_mm: float
    half_width_mm: float
    drop_mm: float
    radius_mm: float | None
    strain: float
    saddle: Saddle
    force_n_mm: float


def verdict_of(strain: float, across: AcrossGrain) -> Verdict:
    """`easy` up to the usual limit over `SAFETY`, `slowly` up to the limit itself, else `too much`."""
    limit = across.limit_strain[1]
    return "easy" if strain <= limit / SAFETY else "slowly" if strain <= limit else "too much"


def deck_height_mm(body: Body, x_mm: ArrayLike) -> Floats:
    """Height of the finished deck on the centre line, above the lowest point of the bottom."""
    return np.asarray(body.rocker.height_mm(x_mm) + body.finished_thickness_mm(x_mm))


def deck_length_mm(body: Body) -> float:
    """Length of the deck along its curve on the centre line, tip to tip."""
    x = np.linspace(0.0, body.length_mm, PIECES + 1)
    return float(np.sum(np.hypot(np.diff(x), np.diff(deck_height_mm(body, x)))))


def rolled(body: Body, across: AcrossGrain, *, gap_mm: float) -> tuple[Rolled, ...]:
    """The top panel over every rib, from the tail.

    Only the ribs bend it: past the last ones it lies on the blocks at the tips, which are planed to it. Along the
    board, the deck's curvature is that of its height at three neighbours: ribs, and the tips beyond the last ones.
    """
    bends = _deck_curvature_per_mm(body)
    out = []
    for rib, bend in zip(body.ribs, bends, strict=True):
        half, drop = rib.half_width_mm, rib.depth_mm - rib.end_depth_mm
        if drop <= FLAT_MM or half <= 0:
            out.append(Rolled(rib.number, rib.from_tail_mm, half, drop, None, 0.0, Saddle(0.0, 0.0), 0.0))
            continue
        radius = arc_radius_mm(half_width_mm=half, drop_mm=drop)
        out.append(
            Rolled(
                rib.number,
                rib.from_tail_mm,
                half,
                drop,
                radius,
                surface_strain(thickness_mm=body.panel_mm, radius_mm=radius),
                saddle(along_per_mm=float(bend), across_per_mm=1 / radius, half_width_mm=half),
                rim_force_n_mm(
                    stiffness_mpa=across.stiffness_mpa[1],
                    thickness_mm=body.panel_mm,
                    half_width_mm=half,
                    drop_mm=drop,
                    gap_mm=gap_mm,
                ),
            )
        )
    return tuple(out)


def _deck_curvature_per_mm(body: Body) -> Floats:
    """Curvature of the deck along the board at each rib, ends up positive."""
    x = np.array([0.0, *(rib.from_tail_mm for rib in body.ribs), body.length_mm])
    slope = np.diff(deck_height_mm(body, x)) / np.diff(x)
    return np.asarray(2 * np.diff(slope) / (x[2:] - x[:-2]))


def worst_of(places: tuple[Rolled, ...]) -> Rolled:
    """The rib over which the panel is bent most tightly; the first of equals."""
    return max(places, key=lambda place: place.strain)


def deck_verdict(body: Body, across: AcrossGrain) -> Verdict:
    """How the top panel goes over its tightest rib; the gap left at the rim is no part of it."""
    return verdict_of(worst_of(rolled(body, across, gap_mm=FLAT_MM)).strain, across)


def wrap_extra_mm(*, half_width_mm: float, drop_mm: float) -> float:
    """How much longer the way over the crown is than straight across, both halves: arc less chord.

    Source: arc and chord of a circle (from memory).
    """
    if drop_mm <= 0:
        return 0.0
    radius = arc_radius_mm(half_width_mm=half_width_mm, drop_mm=drop_mm)
    return 2 * (radius * math.atan2(half_width_mm, radius - drop_mm) - half_width_mm)
