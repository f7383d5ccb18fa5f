"""A thin panel under a saw: how far it may stand past what carries it, and in which pieces the cut is made."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from generator.inputs.tables import Species
from generator.quantities import GRAVITY_M_S2, Floats

ALONG_UNSEEN_MPA = (20.0, 40.0, 60.0)
"""Bending strength along the grain of a light wood whose own value was not seen: assumed; balsa has 22, western
redcedar 52."""
SPREAD_OF_BOARDS = 0.25
"""Single boards lie about so far to either side of the mean of a species: assumed, and wide."""
STEP_MM = 1.0
SLICES = 60
SHORTEST_MM = 60.0
"""A last piece shorter than this, round the end of a tip, is cut with the one before: the saw turns, not the panel."""


@dataclass(frozen=True, slots=True)
class Strength:
    """A strength, MPa, with its range; `published` where the timber table has the species' own."""

    low_mpa: float
    value_mpa: float
    high_mpa: float
    published: bool


@dataclass(frozen=True, slots=True)
class Stretch:
    """Part of a cut that is made without moving the panel: from one place to another, mm from the tail tip."""

    start_mm: float
    end_mm: float


def along_grain(species: Species) -> Strength:
    """Bending strength along the grain."""
    seen = species.strength_bending_mpa
    if seen is None:
        return Strength(*ALONG_UNSEEN_MPA, published=False)
    return Strength((1 - SPREAD_OF_BOARDS) * seen, seen, (1 + SPREAD_OF_BOARDS) * seen, published=True)


def saw_load_n(*, saw_kg: float, push_n: float) -> float:
    """What a jigsaw presses on the panel with, N: its weight and the hand's push."""
    return saw_kg * GRAVITY_M_S2 + push_n


def bending_mpa(*, load_n: float, arm_mm: float, width_mm: float, thickness_mm: float) -> float:
    """Stress at the root of a strip that sticks out with a load at its end, MPa: 6 P a / (b t²).

    Source: cantilever with an end load, M = P a (American Wood Council, Design Aid No. 6, figure 13); section modulus
    of a rectangle b t²/6.
    """
    return 6 * load_n * arm_mm / (width_mm * thickness_mm**2)


def working_width_mm(*, arm_mm: float, base_mm: float, length_mm: float) -> float:
    """Width of panel that carries a saw standing `arm_mm` past the edge: its base, spreading at 45° to both sides.

    Never more than the whole panel. 45° is assumed; a plate that is clamped along one edge and loaded at the other has
    its greatest moment as if the load were spread over about twice the arm (0.51 P, from memory), which is the same.
    """
    return min(base_mm + 2 * arm_mm, length_mm)


def overhang_limit_mm(
    *, thickness_mm: float, strength_mpa: float, load_n: float, safety: float, base_mm: float, length_mm: float
) -> float:
    """How far the cut line may stand past the table's edge, mm, where it runs along the grain.

    There the panel bends across its grain over the edge. Solved for the arm: 6 P a / (b t²) = f / s with
    b = base + 2 a, at most the panel's length.

    Args:
        thickness_mm: Panel, above 0.
        strength_mpa: Tension strength across the grain, f, above 0.
        load_n: Saw and push, P, above 0.
        safety: s, 1 or more.
        base_mm: Length of the saw's base along the cut.
        length_mm: Length of the panel along the table's edge, above 0.

    Raises:
        ValueError: a number is out of its range.
    """
    if not all(value > 0 for value in (thickness_mm, strength_mpa, load_n, length_mm)):
        raise ValueError("thickness_mm, strength_mpa, load_n and length_mm must be above 0")
    if not safety >= 1 or not base_mm >= 0:
        raise ValueError("safety must be 1 or more and base_mm not below 0")
    holds_n = strength_mpa * thickness_mm**2  # f t², N
    needs_n = 6 * load_n * safety
    whole = length_mm * holds_n / needs_n
    if needs_n <= 2 * holds_n:
        return whole
    return min(whole, base_mm * holds_n / (needs_n - 2 * holds_n))


def tongue_sag_mm(
    *, load_n: float, arm_mm: float, width_mm: Callable[[ArrayLike], Floats], stiffness_mpa: float, thickness_mm: float
) -> float:
    """How far the end of a tongue dips under a load there, mm; `width_mm` gives its width so far in from the end.

    P ∫ s² / (E I(s)) ds from the end to the root, I = b t³/12, by unit load.
    """
    s = np.linspace(0.0, arm_mm, SLICES + 1)[1:] - arm_mm / (2 * SLICES)
    inertia = np.maximum(np.asarray(width_mm(s), dtype=np.float64), 1e-9) * thickness_mm**3 / 12
    return float(load_n * np.sum(s**2 / (stiffness_mpa * inertia)) * arm_mm / SLICES)


def tongue_limit_mm(
    *,
    width_mm: Callable[[ArrayLike], Floats],
    thickness_mm: float,
    strength_mpa: float,
    stiffness_mpa: float,
    load_n: float,
    safety: float,
    sag_mm: float,
    most_mm: float,
) -> float:
    """How far a narrow tongue may reach past its support with the saw at its end, mm, up to `most_mm`.

    Near a tip the grain runs along the tongue, so it is strong; it shakes long before it breaks. Both are tried every
    millimetre: stress at the root within strength / safety, dip at the end within `sag_mm`.
    """
    limit = 0.0
    for arm in np.arange(STEP_MM, most_mm + STEP_MM / 2, STEP_MM):
        root = float(np.asarray(width_mm(arm)))
        if root <= 0:
            continue
        stress = bending_mpa(load_n=load_n, arm_mm=float(arm), width_mm=root, thickness_mm=thickness_mm)
        dip = tongue_sag_mm(
            load_n=load_n,
            arm_mm=float(arm),
            width_mm=width_mm,
            stiffness_mpa=stiffness_mpa,
            thickness_mm=thickness_mm,
        )
        if stress > strength_mpa / safety or dip > sag_mm:
            break
        limit = float(arm)
    return limit


def batten_gap_mm(
    *,
    thickness_mm: float,
    strength_mpa: float,
    stiffness_mpa: float,
    load_n: float,
    safety: float,
    strip_mm: float,
    sag_mm: float,
) -> float:
    """How far apart battens may lie under a panel that spans them along its grain, mm.

    A strip as wide as the saw's base carries the saw midway: stress 3 P l / (2 b t²) within strength / safety, sag
    P l³ / (48 E I) within `sag_mm`. Source: simple span with a load at its middle (Design Aid No. 6, figure 7).
    """
    strong = strength_mpa / safety * 2 * strip_mm * thickness_mm**2 / (3 * load_n)
    stiff = math.cbrt(48 * stiffness_mpa * strip_mm * thickness_mm**3 / 12 * sag_mm / load_n)
    return min(strong, stiff)


def stretches(
    half_width_mm: Callable[[ArrayLike], Floats],
    *,
    start_mm: float,
    end_mm: float,
    band_mm: float,
    longest_mm: float,
) -> tuple[Stretch, ...]:
    """The cut from `start_mm` to `end_mm` in as few pieces as a straight table edge allows, in that order.

    The panel lies so that the ends of a piece are equally near the edge; the piece goes on as long as the line between
    stays within a band of `band_mm`, and no longer than the table. A short last piece joins the one before it.

    Args:
        half_width_mm: Half width of the line at a place.
        band_mm, longest_mm: Above 0.

    Raises:
        ValueError: no band or no table.
    """
    if not band_mm > 0 or not longest_mm > 0:
        raise ValueError("band_mm and longest_mm must be above 0")
    way = 1.0 if end_mm > start_mm else -1.0
    places = np.append(np.arange(start_mm, end_mm, way * 10.0), end_mm)
    y = np.asarray(half_width_mm(places), dtype=np.float64)
    found: list[Stretch] = []
    at = 0
    while at < places.size - 1:
        to = at + 1
        while to + 1 < places.size and _fits(places[at : to + 2], y[at : to + 2], band_mm, longest_mm):
            to += 1
        found.append(Stretch(float(places[at]), float(places[to])))
        at = to
    if len(found) > 1 and abs(found[-1].end_mm - found[-1].start_mm) < SHORTEST_MM:
        found[-2:] = [Stretch(found[-2].start_mm, found[-1].end_mm)]
    return tuple(found)


def _fits(x: Floats, y: Floats, band_mm: float, longest_mm: float) -> bool:
    """Whether a piece of the line stays within the band about the straight line between its ends."""
    dx, dy = x[-1] - x[0], y[-1] - y[0]
    long = math.hypot(dx, dy)
    aside = ((y - y[0]) * dx - (x - x[0]) * dy) / long
    return long <= longest_mm and float(np.ptp(aside)) <= band_mm


def offcut_area_mm2(
    half_width_mm: Callable[[ArrayLike], Floats], *, start_mm: float, end_mm: float, blank_half_mm: float
) -> float:
    """Area of what falls off beside the line between two places, mm²: out to the edge of the panel as glued up."""
    x = np.linspace(start_mm, end_mm, 401)
    spare = np.maximum(blank_half_mm - np.asarray(half_width_mm(x), dtype=np.float64), 0.0)
    return abs(float(np.trapezoid(spare, x)))
