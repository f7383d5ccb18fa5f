"""The rail built up on the edge strips: layers, how tightly they bend, the pieces they are cut from, their bevel."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from scipy.interpolate import CubicSpline

from generator.board.body import Body
from generator.build.crown import surface_strain
from generator.quantities import Floats, fixed

STEP_MM = 4.0
SPAN_MM = 60.0
"""Bends are read over this length of rim to either side, about what a strip itself evens out."""
LEAST_LEFT_MM = 1.0
"""A layer ends where less than this of it would be left in the finished rail."""
MOST_PIECES = 12
SAFETY = 1.5
"""Bending strength along the grain differs by about a sixth from piece to piece (coefficient of variation; Wood
Handbook, FPL-GTR-190 (2010), Table 5-6, from memory): this leaves the weak ones out."""


@dataclass(frozen=True, slots=True, eq=False)
class Rim:
    """One side of the frame's rim from the tail: all arrays have one value every `STEP_MM` or so along it.

    `width_mm` is the finished rail's, square to the rim; `bend_per_mm` the rim's curvature seen from above, round
    outwards positive.
    """

    along_mm: Floats
    x_mm: Floats
    y_mm: Floats
    out_x: Floats
    out_y: Floats
    width_mm: Floats
    bend_per_mm: Floats
    bottom_mm: Floats

    @property
    def length_mm(self) -> float:
        return float(self.along_mm[-1])


@dataclass(frozen=True, slots=True)
class RailLayer:
    """One layer of one side's rail. Lengths run round the rim on the layer's own middle line.

    `from_tail_mm`, `to_tail_mm` are where it begins and ends along the board. `height_middle_mm` and `height_tips_mm`
    (the greater of both ends) are those of its inner face. `tightest_mm` is the least radius of its middle line, and
    `tight_tail_mm`, `tight_nose_mm` how far from its ends the bend is tighter than the wood takes easily.
    """

    number: int
    length_mm: float
    from_tail_mm: float
    to_tail_mm: float
    height_middle_mm: float
    height_tips_mm: float
    tightest_mm: float
    tight_tail_mm: float
    tight_nose_mm: float
    tight_between: bool


@dataclass(frozen=True, slots=True)
class Stock:
    """A plank that pieces are cut from."""

    length_mm: float
    width_mm: float


@dataclass(frozen=True, slots=True)
class Pieces:
    """Pieces end to end for one layer of one side: alike, with slanted joins, each cut to the board's side view."""

    count: int
    length_mm: float
    plank_width_mm: float


def layers_needed(*, rail_mm: float, layer_mm: float) -> int:
    """Layers side by side that make the rail's width; the last one may be planed down. 0 if there is no rail."""
    return max(0, math.ceil(rail_mm / layer_mm - 1e-9))


def rim_height_mm(body: Body, x_mm: Floats, *, out_mm: Floats | float = 0.0) -> Floats:
    """Height of the closed board's side at the frame's rim, or `out_mm` outside it: both panels and what is between.

    The deck falls as a parabola to the finished rim. The edge strip counts where it is higher than the rib ends.
    """
    x = np.asarray(x_mm, dtype=np.float64)
    out = np.minimum(body.frame.half_width_mm(x) + out_mm, body.finished.half_width_mm(x))
    deep = body.inside_depth_mm(x, out)
    strips = np.where(np.asarray(out_mm) == 0, body.strip_height_mm(x), 0.0)
    return np.asarray(np.maximum(deep, strips) + 2 * body.panel_mm)


def rim_of(body: Body) -> Rim:
    """One side of the rim, tail to nose."""
    x, y = body.frame.x_mm, body.frame.y_mm
    along = np.concatenate(([0.0], np.cumsum(np.hypot(np.diff(x), np.diff(y)))))
    kept = np.concatenate(([True], np.diff(along) > 1e-9))
    line = CubicSpline(along[kept], np.column_stack((x, y, body.finished.y_mm - y))[kept])
    s = np.linspace(0.0, float(along[-1]), max(9, math.ceil(along[-1] / STEP_MM) + 1))
    px, py, rail = line(s).T
    tx, ty = line(s, 1).T[:2]
    size = np.hypot(tx, ty)
    out_x, out_y = -ty / size, tx / size
    reach = max(1, round(SPAN_MM / (s[1] - s[0])))
    return Rim(
        fixed(s), fixed(px), fixed(py), fixed(out_x), fixed(out_y),
        fixed(np.maximum(rail, 0.0) * np.maximum(out_y, 0.0)),
        fixed(_bend_per_mm(px, py, reach)),
        fixed(body.rocker.height_mm(px)),
    )  # fmt: skip


def _bend_per_mm(x: Floats, y: Floats, reach: int) -> Floats:
    """Curvature through three points `reach` steps apart: four times the triangle's area over the product of its sides.

    Near the ends the nearest whole triangle counts.
    """
    at = np.clip(np.arange(x.size), reach, x.size - 1 - reach)
    a, b, c = (np.column_stack((x[at + k * reach], y[at + k * reach])) for k in (-1, 0, 1))
    one, two = b - a, c - b
    cross = one[:, 0] * two[:, 1] - one[:, 1] * two[:, 0]
    sides = np.hypot(*one.T) * np.hypot(*two.T) * np.hypot(*(c - a).T)
    return np.asarray(-2 * cross / np.maximum(sides, 1e-12))


def _kept(rim: Rim, number: int, layer_mm: float) -> slice:
    """Where a layer, counted from 1, is still part of the finished rail."""
    there = np.flatnonzero(rim.width_mm >= (number - 1) * layer_mm + LEAST_LEFT_MM)
    return slice(int(there[0]), int(there[-1]) + 1) if there.size > 1 else slice(0, 0)


def rail_layers(body: Body, *, limit_strain: float | None = None) -> tuple[RailLayer, ...]:
    """The layers of one side, from the edge strip outwards; none if the board has no built-up rail.

    Args:
        limit_strain: Strain along the grain that the wood takes easily; without it no stretch is called tight.
    """
    thick = body.board.rails.layer_mm
    rim = rim_of(body)
    found = (
        _layer(body, rim, number, thick, limit_strain)
        for number in range(1, layers_needed(rail_mm=body.board.rail_mm, layer_mm=thick) + 1)
    )
    return tuple(layer for layer in found if layer is not None)


def _layer(body: Body, rim: Rim, number: int, thick: float, limit: float | None) -> RailLayer | None:
    kept = _kept(rim, number, thick)
    if kept.stop - kept.start < 2:
        return None
    middle = (number - 0.5) * thick
    x, y = rim.x_mm + rim.out_x * middle, rim.y_mm + rim.out_y * middle
    along = np.concatenate(([0.0], np.cumsum(np.hypot(np.diff(x[kept]), np.diff(y[kept])))))
    at, bend = rim.x_mm[kept], np.abs(rim.bend_per_mm[kept])
    radius = 1 / np.maximum(bend, 1e-9) + np.where(rim.bend_per_mm[kept] > 0, middle, -middle)
    radius = np.maximum(radius, thick)
    high = rim_height_mm(body, at, out_mm=(number - 1) * thick)
    tight = np.zeros(at.size, dtype=bool) if limit is None else thick / (2 * radius) > limit
    tail, nose = _tight_ends(tight)
    return RailLayer(
        number=number,
        length_mm=float(along[-1]),
        from_tail_mm=float(at[0]),
        to_tail_mm=float(at[-1]),
        height_middle_mm=float(np.interp(body.length_mm / 2, at, high)),
        height_tips_mm=float(max(high[0], high[-1])),
        tightest_mm=float(radius.min()),
        tight_tail_mm=float(along[tail]),
        tight_nose_mm=float(along[-1] - along[nose]),
        tight_between=bool(tight[tail + 1 : nose].any()),
    )


def _tight_ends(tight: np.ndarray) -> tuple[int, int]:
    """The last place of the tight stretch that begins in the tail's third, and the first of that in the nose's."""
    third = tight.size // 3
    back, front = np.flatnonzero(tight[:third]), np.flatnonzero(tight[-third:])
    tail = int(back[-1]) if back.size else 0
    nose = tight.size - third + int(front[0]) if front.size else tight.size - 1
    return tail, nose


def layer_strain(layer: RailLayer, *, layer_mm: float) -> float:
    """Strain along the grain at the tightest place of one layer: t / (2 R)."""
    return surface_strain(thickness_mm=layer_mm, radius_mm=layer.tightest_mm)


def pieces_of(
    body: Body, layer: RailLayer, stock: Stock, *, scarf: float, extra_mm: float, over_mm: float, stagger_mm: float
) -> Pieces | None:
    """The fewest pieces of a layer that fit the stock; None if no number up to `MOST_PIECES` does.

    A layer follows the rim up towards the tips. A thin strip bends round the outline easily but hardly upwards, in the
    plane of its width, so each piece is cut to the side view: it needs a plank as wide as its height and its rise.

    Args:
        scarf: Length of a slanted join over the layer's thickness.
        extra_mm: Length to spare at each end.
        over_mm: Height to spare, above and below together.
        stagger_mm: How far joins of neighbouring layers lie apart.
    """
    thick, rim = body.board.rails.layer_mm, rim_of(body)
    kept = (rim.x_mm >= layer.from_tail_mm) & (rim.x_mm <= layer.to_tail_mm)
    along, low = rim.along_mm[kept], rim.bottom_mm[kept]
    high = low + rim_height_mm(body, rim.x_mm[kept], out_mm=(layer.number - 1) * thick) + over_mm
    for count in range(1, MOST_PIECES + 1):
        shared = (count - 1) * scarf * thick
        length = (layer.length_mm + shared + 2 * extra_mm) / count + (stagger_mm / 2 if count > 1 else 0.0)
        if length > stock.length_mm:
            continue
        cuts = np.linspace(along[0], along[-1], count + 1)
        width = max(_side_view_mm(along, low, high, a, b) for a, b in pairwise(cuts))
        if width <= stock.width_mm:
            return Pieces(count, length, width)
    return None


def _side_view_mm(along: Floats, low: Floats, high: Floats, start: float, end: float) -> float:
    """Width of the plank that holds the side view between two places, laid along the chord of its lower edge."""
    there = (along >= start - 1e-6) & (along <= end + 1e-6)
    s, bottom, top = along[there], low[there], high[there]
    chord = np.interp(s, (s[0], s[-1]), (bottom[0], bottom[-1]))
    return float(np.max(top - chord) - np.min(bottom - chord))


def edge_strain(body: Body, layer: RailLayer) -> float:
    """Strain of a layer's edge if it were bent upwards in its own plane instead of cut to the side view: κ h / 2."""
    x = np.linspace(layer.from_tail_mm, layer.to_tail_mm, 201)
    high = rim_height_mm(body, x, out_mm=(layer.number - 1) * body.board.rails.layer_mm)
    return float(np.max(body.rocker.curvature_per_mm(x) * high / 2))


def deck_slope_deg(*, half_width_mm: float, drop_mm: float) -> float:
    """How steeply the deck falls outwards at the rim, degrees: atan(2 c / b), the slope of a parabola at its end.

    It is the bevel on the top edge of the first layer. The bottom is flat across, so its lower edge stays square.

    Raises:
        ValueError: the half width is not above 0, or the drop is below 0.

    Source: derivative of y = c (x/b)² at x = b.
    """
    if not half_width_mm > 0 or drop_mm < 0:
        raise ValueError("half_width_mm must be above 0 and drop_mm at or above 0")
    return math.degrees(math.atan(2 * drop_mm / half_width_mm))
