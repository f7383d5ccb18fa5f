"""Volume of every wooden part of the finished board, and where its middle lies."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from generator.board.body import Body
from generator.board.shape import Shape, stations_mm
from generator.inputs.board import Block
from generator.quantities import Floats

ACROSS = 24  # Gauss points over a half width
ROUND = 48  # points round a rail
_NODES, _WEIGHTS = (one / 2 for one in np.polynomial.legendre.leggauss(ACROSS))
_NODES = _NODES + 0.5


@dataclass(frozen=True, slots=True)
class Solid:
    """A part's volume in mm³, its density, and how far from the tail tip its middle lies."""

    name: str
    mm3: float
    density_kg_m3: float
    from_tail_mm: float

    @property
    def kg(self) -> float:
        """What it weighs at its density."""
        return self.mm3 * self.density_kg_m3 * 1e-9


def wood(body: Body) -> tuple[Solid, ...]:
    """All wooden parts as they are in the finished board, from the bottom panel to the blocks."""
    return (bottom_panel(body), top_panel(body), spine(body), ribs(body), edge_strips(body), rails(body), *blocks(body))


def bottom_panel(body: Body) -> Solid:
    """The bottom panel, trimmed to the frame, along the bent bottom; what rounding the tips takes off is gone."""
    return _panel(body, "bottom panel", on_top=False)


def top_panel(body: Body) -> Solid:
    """The top panel, trimmed to the frame, along the deck's own curve and over its crown."""
    return _panel(body, "top panel", on_top=True)


def _panel(body: Body, name: str, *, on_top: bool) -> Solid:
    shape, x = body.shape, stations_mm(body.length_mm)
    half = body.frame.half_width_mm(x)
    y = half[:, None] * _NODES
    at = x[:, None]
    deck, left = shape.deck_mm(at, y), shape.left_share(at, y)
    off = deck / 2 * (1 - left)  # what rounding took, from below and from above
    thick = np.maximum(np.minimum(body.panel_mm - off, deck - 2 * off), 0.0)
    along = body.rocker.slope(x)[:, None] + np.zeros_like(y)
    across = np.zeros_like(y)
    if on_top:
        along, across = along + np.gradient(deck, x, axis=0), _deck_slope(shape, x, y)
    per_mm = 2 * half * ((thick * np.sqrt(1 + along**2 + across**2)) @ _WEIGHTS)
    return _summed(name, x, per_mm, body.board.panel.density_kg_m3)


def _deck_slope(shape: Shape, x: Floats, y: Floats) -> Floats:
    """How steeply the deck falls across the board, mm per mm."""
    half, crown = shape.half_width_mm(x), shape.depth.crown_mm(x)
    per_width = np.divide(crown, half**2, out=np.zeros_like(half), where=half > 1)
    return np.asarray(-2 * per_width[:, None] * y)


def spine(body: Body) -> Solid:
    """The spine less its slots."""
    x, own, slots = stations_mm(body.length_mm), body.board.spine, body.board.slots
    depth = body.spine_depth_mm(x)
    cut = np.array([rib.depth_mm for rib in body.ribs]) * slots.share_of_depth * slots.width_mm
    places = np.array([rib.from_tail_mm for rib in body.ribs])
    area = float(np.trapezoid(depth, x)) - float(np.sum(cut))
    moment = float(np.trapezoid(depth * x, x)) - float(np.sum(cut * places))
    return Solid("spine", area * own.thickness_mm, own.density_kg_m3, moment / area)


def ribs(body: Body) -> Solid:
    """All ribs together."""
    density = body.board.ribs.density_kg_m3
    kg = sum(rib.mass_kg for rib in body.ribs)
    middle = sum(rib.mass_kg * rib.from_tail_mm for rib in body.ribs) / kg
    return Solid("ribs", kg / density * 1e9, density, middle)


def edge_strips(body: Body) -> Solid:
    """Both edge strips, round the rim but not across a squared end."""
    own, x, y = body.board.edge_strip, body.frame.x_mm, body.frame.y_mm
    way, middles = np.hypot(np.diff(x), np.diff(y)), (x[:-1] + x[1:]) / 2
    each = 2 * way * body.strip_height_mm(middles)
    whole = float(np.sum(each))
    return Solid("edge strips", whole * own.thickness_mm, own.density_kg_m3, float(np.sum(each * middles)) / whole)


def rails(body: Body) -> Solid:
    """Both rails as shaped: all of the board that lies outside the frame seen from above."""
    shape, x = body.shape, stations_mm(body.length_mm)
    inner, outer = body.frame.half_width_mm(x), shape.half_width_mm(x)
    wide = np.maximum(outer - inner, 0.0)
    angle = np.pi / 2 * _NODES  # the thickness ends as a root: even steps round a quarter circle follow it
    y = inner[:, None] + wide[:, None] * np.sin(angle)
    thick = shape.deck_mm(x[:, None], y) * shape.left_share(x[:, None], y)
    per_mm = 2 * wide * ((thick * np.cos(angle)) @ (_WEIGHTS * np.pi / 2))
    return _summed("rails", x, per_mm, body.board.rails.density_kg_m3)


def blocks(body: Body) -> tuple[Solid, ...]:
    """Each block between the panels, cut to the frame; where spine or ribs run through it, they take its place."""
    return tuple(_block(body, block) for block in body.board.blocks)


def _block(body: Body, block: Block) -> Solid:
    half_spine, strip = body.board.spine.thickness_mm / 2, body.board.edge_strip.thickness_mm
    start, end = block.from_tail_mm, min(block.from_tail_mm + block.length_mm, body.length_mm)
    x = start + (end - start) * (1 - np.cos(np.linspace(0.0, np.pi, 121))) / 2
    reach = np.maximum(body.frame.half_width_mm(x) - strip, 0.0)
    left, right = block.from_centre_mm - block.width_mm / 2, block.from_centre_mm + block.width_mm / 2
    per_mm = np.zeros_like(x)
    for low, high in ((left, min(right, -half_spine)), (max(left, half_spine), right)):
        near, far = np.clip(low, -reach, reach), np.clip(high, -reach, reach)
        y = near[:, None] + np.maximum(far - near, 0.0)[:, None] * _NODES
        per_mm += np.maximum(far - near, 0.0) * (_hollow_mm(body, x[:, None], y) @ _WEIGHTS)
    inside = [rib.from_tail_mm for rib in body.ribs if start < rib.from_tail_mm < end]
    solid = _summed(f"{block.holds} block", x, per_mm, block.density_kg_m3)
    cut = sum(float(np.interp(place, x, per_mm)) for place in inside) * body.board.ribs.thickness_mm
    return Solid(solid.name, max(solid.mm3 - cut, 0.0), solid.density_kg_m3, solid.from_tail_mm)


def _hollow_mm(body: Body, x_mm: Floats, y_mm: Floats) -> Floats:
    """Height between the panels, less what rounding the tips takes off there."""
    deck, left = body.shape.deck_mm(x_mm, y_mm), body.shape.left_share(x_mm, y_mm)
    taken = np.maximum(deck / 2 * (1 - left), body.panel_mm)
    return np.asarray(np.maximum(deck - 2 * taken, 0.0))


def inside_air_litres(body: Body, *, foam_mm3: float = 0.0) -> float:
    """Air shut in between the panels and inside the frame, once the board is closed."""
    x = stations_mm(body.length_mm)
    half = body.frame.half_width_mm(x)
    y = half[:, None] * _NODES
    hollow = float(np.trapezoid(2 * half * (_hollow_mm(body, x[:, None], y) @ _WEIGHTS), x))
    parts = (spine(body), ribs(body), edge_strips(body), *blocks(body))
    return max(hollow - sum(part.mm3 for part in parts) - foam_mm3, 0.0) / 1e6


def _summed(name: str, x: Floats, per_mm: Floats, density_kg_m3: float) -> Solid:
    """A solid from its cross-section's areas along the board; one that is nothing lies half-way."""
    whole = float(np.trapezoid(per_mm, x))
    middle = float(np.trapezoid(per_mm * x, x)) / whole if whole > 0 else float(np.mean(x))
    return Solid(name, whole, density_kg_m3, middle)


def surface_area_mm2(body: Body) -> float:
    """Area of the finished outside: bottom, deck, rails and a squared end, on the board as bent.

    Each cell of a net over the surface counts half the product of its two diagonals.
    """
    shape, x = body.shape, stations_mm(body.length_mm)
    low = body.rocker.height_mm(x)
    half, rail = shape.half_width_mm(x), shape.rounding_mm(x)
    flat = half - rail
    net = [_net(shape, x, low, flat[:, None] * np.linspace(0.0, 1.0, ACROSS + 1), way) for way in (-1, 1)]
    turn = np.linspace(0.0, np.pi / 2, ROUND + 1)
    y = flat[:, None] + rail[:, None] * np.sin(turn)
    net += [_net(shape, x, low, y, way) for way in (-1, 1)]
    sides = 2 * sum(_net_area_mm2(one) for one in net)
    if body.board.rail_mm == 0:
        way = np.hypot(np.diff(x), np.diff(half))
        rim = shape.deck_mm(x, half)
        sides += 2 * float(np.sum(way * (rim[1:] + rim[:-1]) / 2))
    return sides + float(np.sum(shape.section_mm2(x[[0, -1]])))


def _net(shape: Shape, x: Floats, low: Floats, y: Floats, way: int) -> Floats:
    """(n, m, 3) points of the upper (`way` 1) or the lower side (−1)."""
    at = x[:, None]
    # exactly at the rim, rounding must leave nothing, whatever the last digit of y says
    deck, left = shape.deck_mm(at, y), shape.left_share(at, np.minimum(y, shape.half_width_mm(at)))
    return np.stack((at + 0 * y, y, low[:, None] + deck / 2 * (1 + way * left)), axis=-1)


def _net_area_mm2(net: Floats) -> float:
    one, other = net[1:, 1:] - net[:-1, :-1], net[1:, :-1] - net[:-1, 1:]
    return float(np.sum(np.linalg.norm(np.cross(one, other), axis=-1)) / 2)
