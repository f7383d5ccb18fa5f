"""The board seen from above: a smooth half width from tip to tip, through every width that was given."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Literal, Protocol

import numpy as np
from numpy.typing import ArrayLike
from scipy.interpolate import BSpline, PchipInterpolator
from scipy.optimize import nnls

from generator.quantities import Floats, fixed

Tip = Literal["round", "pointed", "square"]

SAMPLES = 241
SPANS = 36  # of the spline, tip to tip
LEAST_SPANS, MANY = 3, 12  # between two given widths; one less where many are given
HOLD = 1e4  # weight of a given width against smoothness
ROUNDS = 4
MOST_TURNS = 3  # a plain board turns once, one with hips three times
LEFT = 1e-6  # of the greatest half width
MET_MM = 0.05
PAST_WIDEST = 1.008  # between given places the board may be this much wider than the widest one given
POLYGON_STEP_MM = 10.0


class WidthAt(Protocol):
    """Half the width at one place."""

    @property
    def from_tail_mm(self) -> float: ...
    @property
    def half_width_mm(self) -> float: ...


@dataclass(frozen=True, slots=True, eq=False)
class Outline:
    """Half widths from the tail tip (0) to the nose tip (`length_mm`), the same on both sides.

    They are kept as close samples over a parameter in which all three tip shapes are smooth (`along`): a round tip's
    half width grows with the root of the distance from the tip, a pointed one's in proportion to it, and a squared tip
    begins at its full half width. Between samples a cubic in that parameter keeps their rises and falls (PCHIP).

    Args:
        length_mm: Above 0.
        tail, nose: Tip shapes.
        u: (n,) parameters of the samples, increasing from 0 to 1.
        y_mm: (n,) half widths there, at or above 0.
    """

    length_mm: float
    tail: Tip
    nose: Tip
    u: Floats
    y_mm: Floats
    x_mm: Floats = field(init=False, repr=False)
    _join: PchipInterpolator = field(init=False, repr=False)

    def __post_init__(self) -> None:
        u, y = fixed(self.u), fixed(self.y_mm)
        if u.shape != y.shape or not np.all(np.diff(u) > 0) or u[0] != 0 or u[-1] != 1:
            raise ValueError("u must increase from 0 to 1, with one half width each")
        if not np.all(np.isfinite(y)) or np.any(y < 0):
            raise ValueError("half widths must be finite and at or above 0")
        object.__setattr__(self, "u", u)
        object.__setattr__(self, "y_mm", y)
        object.__setattr__(self, "x_mm", fixed(place(u, self.tail, self.nose) * self.length_mm))
        object.__setattr__(self, "_join", PchipInterpolator(u, y))

    def half_width_mm(self, x_mm: ArrayLike) -> Floats:
        """Half width at each place, shape of `x_mm`; 0 off the board."""
        x = np.asarray(x_mm, dtype=np.float64)
        on = (x >= 0) & (x <= self.length_mm)
        u = along(np.clip(x / self.length_mm, 0.0, 1.0), self.tail, self.nose)
        return np.where(on, np.maximum(self._join(u), 0.0), 0.0)

    @property
    def widest_mm(self) -> float:
        """The greatest half width."""
        return float(np.max(self.y_mm))

    def with_half_widths(self, y_mm: ArrayLike) -> Outline:
        """An outline of the same length and tips with other samples."""
        return Outline(self.length_mm, self.tail, self.nose, self.u, fixed(y_mm))


def place(u: ArrayLike, tail: Tip, nose: Tip) -> Floats:
    """Share of the length, 0 to 1, at parameter `u`, 0 to 1. Level where a tip is round, so that it comes out round."""
    u = np.asarray(u, dtype=np.float64)
    if tail == "round" and nose == "round":
        return np.asarray((1 - np.cos(np.pi * u)) / 2)
    if tail == "round":
        return np.asarray(1 - np.cos(np.pi * u / 2))
    if nose == "round":
        return np.asarray(np.sin(np.pi * u / 2))
    return u


def along(share: ArrayLike, tail: Tip, nose: Tip) -> Floats:
    """The parameter at a share of the length: the inverse of `place`."""
    share = np.asarray(share, dtype=np.float64)
    if tail == "round" and nose == "round":
        return np.asarray(2 * np.arctan2(np.sqrt(share), np.sqrt(1 - share)) / np.pi)
    if tail == "round":
        return np.asarray(np.arccos(1 - share) * 2 / np.pi)
    if nose == "round":
        return np.asarray(np.arcsin(share) * 2 / np.pi)
    return share


def fair_outline(half_widths: Sequence[WidthAt], *, length_mm: float, tail: Tip, nose: Tip) -> Outline:
    """The smoothest outline through all half widths that rises where they rise and falls where they fall.

    A cubic spline in the parameter of `Outline`; its third derivative is as small as can be (least squares), and its
    slope keeps the sign of each stretch between two given widths. Only beside the widest one may the top lie between
    two places, if it is no more than `PAST_WIDEST` of it and brings no dip with it; else nothing is wider than the
    widest width given. Widths that jump about so much that no such spline meets them are joined by a plainer curve
    (PCHIP) that rises and falls with them.

    Args:
        half_widths: At least 3, in order from the tail. A squared tip needs one at that tip.

    Raises:
        ValueError: too few, not in order or off the board; a squared tip without a width, another tip with one.
    """
    x, y = _with_tips(half_widths, length_mm=length_mm, tail=tail, nose=nose)
    u, size = along(x / length_mm, tail, nose), float(np.max(y))
    # The given places are samples too, so that they are met as closely as the spline meets them.
    samples = _apart(np.linspace(0.0, 1.0, SAMPLES), u)
    for top_free in (True, False) if _is_plain(y) else ():
        spline = _smoothest(u, y / size, (tail == "round", nose == "round"), top_free=top_free)
        if spline is not None:
            outline = Outline(length_mm, tail, nose, samples, np.maximum(size * spline(samples), 0.0))
            near = np.max(np.abs(outline.half_width_mm(x) - y)) <= MET_MM
            if near and outline.widest_mm <= PAST_WIDEST * size and _turns(outline.y_mm) <= _turns(y):
                return outline
    return Outline(length_mm, tail, nose, samples, np.maximum(PchipInterpolator(u, y)(samples), 0.0))


def _apart(even: Floats, given: Floats) -> Floats:
    """Both lists as one in order; of two values that all but coincide, the given one, or the slope there is lost."""
    near = np.min(np.abs(even[:, None] - given), axis=1) < 0.05 / SAMPLES
    return np.sort(np.concatenate((even[~near], given)))


def _is_plain(y: Floats) -> bool:
    """Whether half widths turn from rising to falling or back so seldom that a smooth curve is worth trying."""
    return _turns(y) <= MOST_TURNS


def _turns(y: Floats) -> int:
    """How often half widths turn from rising to falling or back; steps under a nanometre count as level."""
    ways = np.sign(np.round(np.diff(y), 6))
    return int(np.count_nonzero(np.diff(ways[ways != 0])))


def _with_tips(half_widths: Sequence[WidthAt], *, length_mm: float, tail: Tip, nose: Tip) -> tuple[Floats, Floats]:
    """Places and half widths with both tips among them."""
    x = [float(one.from_tail_mm) for one in half_widths]
    y = [float(one.half_width_mm) for one in half_widths]
    if len(x) < 3 or min(np.diff(x)) <= 0 or x[0] < 0 or x[-1] > length_mm or min(y) < 0 or max(y) <= 0:
        raise ValueError("half widths must be at least 3, in order from the tail and on the board")
    for shape, end, at in ((nose, length_mm, len(x)), (tail, 0.0, 0)):
        given = [value for spot, value in zip(x, y, strict=True) if spot == end]
        if shape == "square" and not (given and given[0] > 0):
            raise ValueError("a squared tip needs its half width")
        if shape != "square" and given and given[0] > 0:
            raise ValueError("a round or pointed tip has no width at the tip itself")
        if not given:
            x.insert(at, end)
            y.insert(at, 0.0)
    return np.array(x), np.array(y)


def _knots(u: Floats) -> Floats:
    """Knots of the spline's slope (degree 2): every given place, and even steps between, ends three times."""
    least = LEAST_SPANS - (u.size > MANY)
    counts = [max(least, math.ceil((b - a) * SPANS - 1e-6)) for a, b in pairwise(u)]
    parts = [np.linspace(a, b, count + 1)[:-1] for (a, b), count in zip(pairwise(u), counts, strict=True)]
    inner = np.concatenate((*parts, [u[-1]]))
    return np.concatenate(([inner[0]] * 2, inner, [inner[-1]] * 2))


def _smoothest(u: Floats, y: Floats, rounded: tuple[bool, bool], *, top_free: bool) -> BSpline | None:
    """The spline of degree 3 near (u, y) with the least third derivative and the slope's signs of the data.

    None if the least squares do not converge. The given heights are rows of great weight; what is left between them
    and the curve is asked for again on top (multipliers), which soon leaves next to nothing.
    """
    knots = _knots(u)
    count, spots = knots.size - 3, np.unique(knots)
    slopes = BSpline(knots, np.eye(count), 2)
    heights = slopes.antiderivative()
    rough = slopes.derivative(2)((spots[:-1] + spots[1:]) / 2) * np.sqrt(np.diff(spots))[:, None]
    # A round tip is the same curve carried over to the other side: no second derivative there.
    level = [slopes.derivative(1)(end) for end, is_round in zip((0.0, 1.0), rounded, strict=True) if is_round]
    if not top_free and 0 < np.argmax(y) < y.size - 1:
        level.append(slopes(u[np.argmax(y)]))  # level at the widest place
    met = np.vstack([heights(u[1:]) - heights(u[0]), *(end[None, :] / np.max(np.abs(end)) for end in level)])
    wanted = np.concatenate((y[1:] - y[0], np.zeros(len(level))))
    rows = np.vstack((rough / np.max(np.abs(rough)), HOLD * met))
    ways = _slope_ways(knots, u, y, top_free=top_free)
    q, r = np.linalg.qr(rows @ ways)
    asked, found = wanted, np.zeros(count)
    for _ in range(ROUNDS):
        try:
            found = ways @ nnls(r, q.T @ np.concatenate((np.zeros(len(rough)), HOLD * asked)))[0]
        except RuntimeError:
            return None
        left = wanted - met @ found
        if np.max(np.abs(left)) < LEFT:
            break
        asked = asked + left
    # The cubic basis sums to 1 everywhere, so a constant on its coefficients lifts the whole curve.
    return BSpline(heights.t, heights.c @ found + y[0] - float(heights(u[0]) @ found), 3)


def _slope_ways(knots: Floats, u: Floats, y: Floats, *, top_free: bool) -> Floats:
    """(count, m) what each of m parts, all at or above 0, adds to the slope's coefficients.

    One part up where the data rise, one down where they fall, none where they are level, one each way where the slope
    is free.
    """
    count = knots.size - 3
    centres = (knots[1 : 1 + count] + knots[2 : 2 + count]) / 2
    stretch = np.clip(np.searchsorted(u, centres, side="right") - 1, 0, u.size - 2)
    up, down = np.diff(y) > 0, np.diff(y) < 0
    if top_free:
        top = np.flatnonzero(y == np.max(y))
        beside = slice(max(top[0] - 1, 0), top[-1] + 1)
        up[beside], down[beside] = True, True
    each = np.eye(count)
    return np.hstack((each[:, up[stretch]], -each[:, down[stretch]]))


def outline_polygon(outline: Outline, *, step_mm: float = POLYGON_STEP_MM) -> Floats:
    """(n, 2) x, y round the board, closed: from the tail up the right side and down the left.

    Even steps of the outline's parameter, `step_mm` or less apart on the whole, so they close up at round tips.
    """
    count = max(8, int(np.ceil(outline.length_mm / step_mm)))
    x = place(np.linspace(0.0, 1.0, count + 1), outline.tail, outline.nose) * outline.length_mm
    right = np.column_stack((x, outline.half_width_mm(x)))
    round_trip = np.vstack((right, right[::-1] * (1.0, -1.0)))
    kept = np.any(np.diff(round_trip, axis=0) != 0, axis=1)
    around = round_trip[np.concatenate(([True], kept))]
    closed = around if np.array_equal(around[0], around[-1]) else np.vstack((around, around[:1]))
    return fixed(closed)


def area_mm2(polygon: ArrayLike) -> float:
    """Area inside a closed (n, 2) line, mm² (shoelace sum)."""
    x, y = np.asarray(polygon, dtype=np.float64).T
    return float(abs(np.sum(x[:-1] * y[1:] - x[1:] * y[:-1])) / 2)


def perimeter_mm(polygon: ArrayLike) -> float:
    """Length of a closed (n, 2) line, mm."""
    return float(np.sum(np.hypot(*np.diff(np.asarray(polygon, dtype=np.float64), axis=0).T)))
