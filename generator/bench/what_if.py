"""The bench as data: all that a page needs to lay the board again after a shim or a weight was moved.

`replay.py` reads it. Sums that need no table are not in it: the moment of a push of 1 N at ξ is max(x − ξ, 0), so the
height column of every support and weight is one pass over the nodes, exact because that moment is linear between them.
Tables of those columns would be four times as long, and their rounding would tell points 20 mm apart from each other by
a few digits only.
"""

from collections.abc import Callable, Sequence
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from generator.bench.beam import Beam, columns
from generator.bench.contact import INVERTED_PER_MM
from generator.bench.tops import Top, rest_on
from generator.quantities import GRAVITY_M_S2, Floats

SCHEMA = "shedbook-what-if-1"
PLACE_DIGITS, HEIGHT_DIGITS, FORCE_DIGITS, SIGNIFICANT = 4, 5, 3, 8
"""Digits after the point of mm along, mm up, N and N·mm; significant digits of stiffness and curvature."""


def what_if(
    *,
    beam: Beam,
    glued_n_mm2: ArrayLike,
    tops: Sequence[Top],
    weight_kinds: Sequence[tuple[str, float, int]],
    placed: Sequence[tuple[int, float, int]],
    weight_places_mm: ArrayLike,
    wanted_mm: Callable[[ArrayLike], Floats],
    line: tuple[float, float],
    shims: Sequence[tuple[str, float, int]],
    low_point_mm: float,
    stations: int = 61,
) -> dict[str, Any]:
    """The bench as JSON-ready numbers; `site_data/schema/what-if.json` says what each one is.

    Args:
        beam: the loose pair at its middle stiffness with clamps and weights on.
        glued_n_mm2: (pieces,) E·I once the bottom panel's glue is hard, one a piece of the beam.
        tops: the supports, tail first, heights above the level line.
        weight_kinds: (name, mass in kg, how many there are).
        placed: (index of the kind, place in mm, how many): weights that are on the beam already.
        weight_places_mm: (w,) where a weight may lie, increasing; those of `placed` among them.
        wanted_mm: height that the bottom on the bench shall have at any x, in the rocker's own level.
        line: (base, tilt): that level is above the level line by base + tilt·x/length.
        shims: (name, height in mm, how many are not in use).
        low_point_mm: where the wanted bottom is lowest: the tangent there stays on release.
        stations: places at even distance where heights are wanted, tips among them; at least 2.

    Raises:
        ValueError: lists of unlike length, a place off the board, a stiffness not above 0, a top beside the board.
        ArithmeticError: the board tips over on these supports.
    """
    length, breaks = beam.length_mm, beam.breaks_mm
    glued, weights = np.asarray(glued_n_mm2, dtype=np.float64), np.asarray(weight_places_mm, dtype=np.float64)
    if glued.shape != beam.stiffness_n_mm2.shape or not np.all(glued > 0):
        raise ValueError("glued_n_mm2 needs one number above 0 a piece")
    if stations < 2 or not np.all((weights >= 0) & (weights <= length)) or not np.all(np.diff(weights) > 0):
        raise ValueError("weight_places_mm must increase along the board, and stations be at least 2")
    if not 0 <= low_point_mm <= length:
        raise ValueError("low_point_mm must be on the board")
    on = rest_on(beam, tops)
    if on.bent.columns is None:
        raise ValueError("a board at rest has columns")
    touch = on.bent.columns.push_mm
    even = np.linspace(0.0, length, stations)
    loaded = [point.x_mm for point in beam.point_loads]
    x = np.unique(_places(np.concatenate([breaks, loaded, touch, weights, even, [low_point_mm]])))
    shape = columns(beam, [])
    at, powers = shape.powers(x, 4)
    heights = shape.heights(x)[0]
    return {
        "schema": SCHEMA,
        "length_mm": float(x[-1]),
        "low_node": _nodes(x, np.array([low_point_mm]))[0],
        "inverted_per_mm": INVERTED_PER_MM,
        "gravity_m_s2": GRAVITY_M_S2,
        "line": {"base_mm": _round(line[0], HEIGHT_DIGITS), "tilt_mm": _round(line[1], HEIGHT_DIGITS)},
        "nodes": {
            "x_mm": _rounded(x, PLACE_DIGITS),
            "load_moment_n_mm": _rounded((shape.moment_loads[at] * powers).sum(-1), FORCE_DIGITS),
            "load_height_mm": _rounded(heights - heights[0] - (heights[-1] - heights[0]) * x / x[-1], HEIGHT_DIGITS),
            "wanted_mm": _rounded(wanted_mm(x), HEIGHT_DIGITS),
        },
        "pieces": {
            "first_node": _nodes(x, breaks[:-1]),
            "loose_n_mm2": _significant(beam.stiffness_n_mm2),
            "glued_n_mm2": _significant(glued),
            "free_start_per_mm": _significant(beam.free_curvature_start_per_mm),
            "free_end_per_mm": _significant(beam.free_curvature_end_per_mm),
        },
        "stations": _nodes(x, even),
        "supports": [
            {name: _round(getattr(top, name), PLACE_DIGITS) for name in ("low_x_mm", "high_x_mm", "height_mm")}
            for top in tops
        ],
        "touch": {"node": _nodes(x, touch), "support": [int(i) for i in on.support]},
        "load": {
            "total_n": _round(beam.total_load_n, 2 * FORCE_DIGITS),
            "moment_n_mm": _round(beam.load_moment_n_mm, FORCE_DIGITS),
        },
        "weights": {
            "node": _nodes(x, weights),
            "kinds": [{"name": name, "mass_kg": float(mass), "count": int(n)} for name, mass, n in weight_kinds],
            "placed": [_placed(weights, len(weight_kinds), *one) for one in placed],
        },
        "shims": [{"name": name, "height_mm": float(height), "count": int(n)} for name, height, n in shims],
    }


def _places(x_mm: Floats) -> Floats:
    return np.asarray(np.round(x_mm, PLACE_DIGITS), dtype=np.float64)


def _nodes(x: Floats, places: Floats) -> list[int]:
    """Index of each place among the nodes."""
    return [int(i) for i in np.searchsorted(x, _places(places))]


def _placed(weights: Floats, kinds: int, kind: int, x_mm: float, count: int) -> dict[str, int]:
    place = int(np.argmin(np.abs(weights - x_mm))) if weights.size else 0
    if not 0 <= kind < kinds or weights.size == 0 or abs(weights[place] - x_mm) > 10.0**-PLACE_DIGITS:
        raise ValueError(f"a weight of kind {kind} at {x_mm:g} mm is not of the kinds and places given")
    return {"kind": int(kind), "place": place, "count": int(count)}


def _round(value: float, digits: int) -> float:
    return round(float(value), digits) + 0.0  # no minus before a zero


def _rounded(values: Floats, digits: int) -> list[float]:
    return [_round(value, digits) for value in values]


def _significant(values: Floats) -> list[float]:
    return [float(f"{value:.{SIGNIFICANT}g}") + 0.0 for value in values]
