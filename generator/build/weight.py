"""What the finished board weighs, part by part, with a range, and where its weight lies."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from generator.board.body import Body
from generator.board.shape import FLATTER, FULLER, HALF_ELLIPSE
from generator.build.amount import Amount
from generator.build.part_mass import PartMass
from generator.build.solids import Solid, blocks, bottom_panel, edge_strips, rails, ribs, spine, top_panel

DENSITY_SPREAD = 0.10
"""How far one board's density strays from what is given for its timber: the average coefficient of variation of
specific gravity. Wood Handbook, FPL-GTR-190 (2010), chapter 5, table of average coefficients of variation (from
memory)."""
SAME_PLANKS_SPREAD = 0.05  # assumed: of a second panel from the same planks as the one that was weighed
SANDED_MM = Amount(0.3, 0.1, 0.6)  # assumed: what sanding takes off each panel's outer face
PANELS = frozenset({"bottom panel", "top panel"})


@dataclass(frozen=True, slots=True)
class Weight:
    """The finished board on the scales, kg, with its parts; `from_tail_mm` is where it balances.

    `summed_kg` is what the parts come to. Where the board was weighed, `kg` is that and has no range.
    """

    parts: tuple[PartMass, ...]
    kg: float
    low_kg: float
    high_kg: float
    from_tail_mm: float
    summed_kg: float
    measured: bool


def sheet_kg(*, area_m2: float, thickness_mm: float, density_kg_m3: float) -> float:
    """Mass of a flat piece: area times thickness times density.

    Raises:
        ValueError: one of them is below 0 (nan included).
    """
    if not all(value >= 0 for value in (area_m2, thickness_mm, density_kg_m3)):
        raise ValueError("area, thickness and density must not be below 0")
    return area_m2 * thickness_mm / 1000 * density_kg_m3


def wood_parts(body: Body) -> tuple[PartMass, ...]:
    """Panels, frame, rails and blocks, and what sanding takes off again.

    A weighed panel or frame has no range; the second panel is taken to weigh nearly the same. A board whose panels
    reach its edge has no rails.
    """
    under, over = bottom_panel(body), top_panel(body)
    return (
        *_panel_parts(body, under, over),
        *_frame_parts(body),
        *((_rails_part(body),) if body.board.rail_mm > 0 else ()),
        *(_by_density(block) for block in blocks(body)),
        _sanded(body, under, over),
    )


def _by_density(solid: Solid) -> PartMass:
    """A part whose density is taken from a table or a maker's word."""
    off = DENSITY_SPREAD * solid.kg
    return PartMass(solid.name, solid.kg, solid.kg - off, solid.kg + off, solid.from_tail_mm)


def _panel_parts(body: Body, under: Solid, over: Solid) -> Iterable[PartMass]:
    if not body.masses.panel_weighed:
        return (_by_density(under), _by_density(over))
    per_mm3 = body.masses.panel_kg / (body.trace.area_mm2 * body.panel_mm)
    low, high = per_mm3 * under.mm3, per_mm3 * over.mm3
    off = SAME_PLANKS_SPREAD * high
    return (
        PartMass(under.name, low, low, low, under.from_tail_mm, measured=True),
        PartMass(over.name, high, high - off, high + off, over.from_tail_mm),
    )


def _frame_parts(body: Body) -> Iterable[PartMass]:
    parts = tuple(_by_density(one) for one in (spine(body), ribs(body), edge_strips(body)))
    if not body.masses.frame_weighed:
        return parts
    kg = body.masses.frame_kg
    return (PartMass("frame", kg, kg, kg, balance_mm(parts), measured=True),)


def _rails_part(body: Body) -> PartMass:
    """The rails: density and how full they are shaped err each by itself."""
    solid = rails(body)
    off_low, off_high = (abs(fill / HALF_ELLIPSE - 1) for fill in (FLATTER, FULLER))
    low, high = (solid.kg * math.hypot(DENSITY_SPREAD, off) for off in (off_low, off_high))
    return PartMass(solid.name, solid.kg, solid.kg - low, solid.kg + high, solid.from_tail_mm)


def _sanded(body: Body, under: Solid, over: Solid) -> PartMass:
    """What sanding takes off both panels: below 0."""
    kg_per_mm = (under.mm3 + over.mm3) / body.panel_mm * body.board.panel.density_kg_m3 * 1e-9
    off = SANDED_MM.times(kg_per_mm)
    middle = (under.from_tail_mm + over.from_tail_mm) / 2
    return PartMass("sanded off", -off.value, -off.high, -off.low, middle)


def fitting_parts(body: Body) -> tuple[PartMass, ...]:
    """Fin, leash plug and vent, as the maker's file has them."""
    own = body.board.fittings
    return (
        _exact("fin", own.fin.mass_kg, own.fin.from_tail_mm + own.fin.base_mm / 2),
        _exact("leash plug", own.leash_plug.mass_kg, own.leash_plug.from_tail_mm),
        _exact("vent", own.vent.mass_kg, own.vent.from_tail_mm),
    )


def _exact(name: str, kg: float, from_tail_mm: float) -> PartMass:
    return PartMass(name, kg, kg, kg, from_tail_mm)


def balance_mm(parts: Sequence[PartMass]) -> float:
    """Where the parts together balance, from the tail tip; half-way between them if they weigh nothing.

    Raises:
        ValueError: there are no parts.
    """
    if not parts:
        raise ValueError("a board has parts")
    kg = sum(part.kg for part in parts)
    if kg == 0:
        return sum(part.from_tail_mm for part in parts) / len(parts)
    return sum(part.kg * part.from_tail_mm for part in parts) / kg


def all_together(parts: Sequence[PartMass], *, weighed_kg: float | None = None) -> Weight:
    """The whole board.

    Parts err each by itself, so the range is the root of the sum of their squares; only the two panels, from the same
    planks, err together. The sum of all the lows or all the highs would be wider, and hardly ever met.

    Raises:
        ValueError: there are no parts.
    """
    if not parts:
        raise ValueError("a board has parts")
    kg = sum(part.kg for part in parts)
    down = [part.kg - part.low_kg for part in parts if part.name not in PANELS]
    up = [part.high_kg - part.kg for part in parts if part.name not in PANELS]
    both = [part for part in parts if part.name in PANELS]
    down.append(sum(part.kg - part.low_kg for part in both))
    up.append(sum(part.high_kg - part.kg for part in both))
    whole = (kg, kg - math.hypot(*down), kg + math.hypot(*up))
    if weighed_kg is not None:
        whole = (weighed_kg, weighed_kg, weighed_kg)
    return Weight(tuple(parts), *whole, balance_mm(parts), kg, weighed_kg is not None)
