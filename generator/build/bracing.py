"""Which bays of the deck give under a heel, and the blocks of foam that hold them up."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

import numpy as np

from generator.board.body import Body
from generator.build.bays import Area, Bay, bays
from generator.build.part_mass import PartMass
from generator.build.plate import Core, Dent, Edges, Pane, Patch, Wood, pressed, pressed_on_foam
from generator.inputs.board import Spread
from generator.inputs.builder import Foam, FoamKind
from generator.quantities import GRAVITY_M_S2
from generator.timber.across import STIFFNESS_SHARE
from generator.timber.across import strength_mpa as strength_across

End = Literal["low", "value", "high"]
Range = tuple[float, float, float]

SHEAR: Range = (0.06, 0.085, 0.19)
"""Stiffness in shear over that along the grain, G_LT / E_L of Wood Handbook, FPL-GTR-190 (2010), Table 5-1: northern
white-cedar 0.187 and Douglas-fir 0.078, read in a text that quotes it; western redcedar 0.086, from memory."""
POISSON = 0.4
"""Narrowing across per stretch along: 0.34 and 0.449 for the same two (Table 5-2, read in the same text)."""
HEEL_SHARE: Range = (0.35, 0.5, 1.0)
"""Share of the body's mass on one heel or knee: standing on both feet, on one foot's heel, landing. Assumed."""
HEEL_MM, KNEE_MM = 50.0, 80.0
MOST_DENT_MM = 2.0
"""Give underfoot that most people do not mind. Common practice."""
SAFETY = 1.5
"""Handbook strength across the grain over what is allowed: a mean of clear wood, for a load that is itself a guess."""
AT_RIB_MM, AT_SPINE_MM, AT_RIM_MM = 10.0, 30.0, 15.0
"""Foam keeps this far from ribs, from the spine or a block (the air goes there), and from the edge strips' glue."""
HALF = 0.5
"""Where half the bay's width of foam will do, no more is put in: what then stays bare is hardly wider than a heel."""
CUTS = 25
LEAST_FOAM_MM = 20.0
"""Narrower foam is not worth cutting."""
FOAM_NARROWING = 0.2
CRUSH: dict[FoamKind, tuple[float, float, float, float]] = {
    "expanded polystyrene": (0.325, -2.0, 0.7, 1.5),
    "extruded polystyrene": (0.85, -14.6, 0.6, 1.6),
    "polyurethane": (0.25, -2.0, 0.5, 1.6),
}
"""Stiffness in crushing, MPa, as slope × density in kg/m³ + offset; then the low and the high end over that.

Expanded: a line through the least stress at 1 % crushing of the six types of ASTM D6817 (read in two makers' tables).
Extruded: the same for its types (from memory; a maker's 20 to 25 MPa near 38 kg/m³ lies above it). Polyurethane:
assumed.
"""
LEAST_CRUSH_MPA = 0.5


@dataclass(frozen=True, slots=True)
class Tread:
    """A load on the deck: N, over a square of `side_mm`."""

    load_n: float
    side_mm: float = HEEL_MM

    def patch(self, thickness_mm: float) -> Patch:
        """The square as it reaches the middle of a panel: the load spreads at 45° (Pigeaud; from memory)."""
        return Patch(self.side_mm + thickness_mm, self.side_mm + thickness_mm)


@dataclass(frozen=True, slots=True)
class Held:
    """How far a bay gives, mm, and how hard it is pulled across the grain, MPa, each from least to most."""

    dent_mm: Range
    across_mpa: Range

    def passes(self, allowed_mpa: float) -> bool:
        """Whether the likely value keeps both limits."""
        return self.dent_mm[1] <= MOST_DENT_MM and self.across_mpa[1] <= allowed_mpa


@dataclass(frozen=True, slots=True)
class FoamBlock:
    """A block of foam to cut: where it lies, its greatest and least depth, layers, volume, mass."""

    place: Area
    depth_mm: float
    least_depth_mm: float
    layers: int
    volume_mm3: float
    kg: float

    @property
    def sheet_mm2(self) -> float:
        """Foam board that its layers take."""
        return self.layers * self.place.area_mm2


@dataclass(frozen=True, slots=True)
class Braced:
    """One bay that is wide enough to tread in: bare, and with the foam that it needs, if it does and there is any."""

    bay: Bay
    free: Area
    bare: Held
    needs_foam: bool
    block: FoamBlock | None
    after: Held | None


def heel(body_mass_kg: float, *, share: float = HEEL_SHARE[1]) -> Tread:
    """One heel of somebody who weighs `body_mass_kg`."""
    return Tread(share * body_mass_kg * GRAVITY_M_S2)


def knee(body_mass_kg: float) -> Tread:
    """One knee: as much, on a larger square."""
    return Tread(HEEL_SHARE[1] * body_mass_kg * GRAVITY_M_S2, KNEE_MM)


def panel_wood(stiffness: Spread, end: End = "value", *, across_share: Range = STIFFNESS_SHARE) -> Wood:
    """The panel's timber, with what is assumed of it across the grain and in shear.

    Args:
        across_share: Stiffness across the grain over that along it, low, usual, high: `timber.across.stiffness_share`.
    """
    at = ("low", "value", "high").index(end)
    along = float(getattr(stiffness, end))
    return Wood(along, across_share[at] * along, SHEAR[at] * along, POISSON)


def foam_crush_mpa(kind: FoamKind, density_kg_m3: float) -> Range:
    """Stiffness of foam in crushing: low, likely, high, MPa; see `CRUSH`."""
    slope, offset, low, high = CRUSH[kind]
    likely = max(slope * density_kg_m3 + offset, LEAST_CRUSH_MPA)
    return low * likely, likely, high * likely


def held(
    stiffness: Spread, *, thickness_mm: float, free: Area, tread: Tread, foam: Foam | None = None,
    place: Area | None = None, depth_mm: float = 0.0, across_share: Range = STIFFNESS_SHARE,
) -> Held:  # fmt: skip
    """How one bay's panel bears a tread in its middle, with foam in `place` or without.

    The panel is held by ribs, spine and strip, neither free to turn nor quite fixed: the likely value is the mean
    (of logarithms) of both, the least is of stiff timber and foam with fixed edges, the most of soft ones with edges
    that turn.
    """

    def dent(end: End, edges: Edges) -> Dent:
        wood = panel_wood(stiffness, end, across_share=across_share)
        pane = Pane(free.length_mm, free.width_mm, thickness_mm, wood, edges)
        patch = tread.patch(thickness_mm)
        if foam is None or place is None:
            return pressed(pane, load_n=tread.load_n, patch=patch)
        crush = foam_crush_mpa(foam.kind, foam.density_kg_m3)[("low", "value", "high").index(end)]
        core = Core(Patch(place.length_mm, place.width_mm), depth_mm, crush, crush / (2 * (1 + FOAM_NARROWING)))
        return pressed_on_foam(pane, core, load_n=tread.load_n, patch=patch)

    soft, stiff = dent("low", "turning"), dent("high", "fixed")
    turning, fixed = dent("value", "turning"), dent("value", "fixed")
    across = math.sqrt(turning.across_mpa * fixed.across_mpa)
    pulls = (across, soft.across_mpa, stiff.across_mpa, turning.across_mpa, fixed.across_mpa)
    return Held(
        (stiff.deflection_mm, math.sqrt(turning.deflection_mm * fixed.deflection_mm), soft.deflection_mm),
        (min(pulls), across, max(pulls)),
    )


def strength_across_mpa(body: Body, table_mpa: float | None) -> float:
    """Tension strength of the panel across its grain: its table's, or else what its density lets expect."""
    return strength_across(table_mpa, density_kg_m3=body.board.panel.density_kg_m3)


@lru_cache(maxsize=4)
def brace(
    body: Body,
    foam: Foam | None,
    *,
    tread: Tread,
    strength_mpa: float | None = None,
    across_share: Range = STIFFNESS_SHARE,
) -> tuple[Braced, ...]:
    """Every bay wide enough to tread in, from the tail, left before right.

    Args:
        strength_mpa: Tension strength of the panel's timber across the grain, None where its table gives none.
        across_share: As `panel_wood`.
    """
    allowed = strength_across_mpa(body, strength_mpa) / SAFETY
    found: list[Braced] = []
    for bay in bays(body):
        if bay.free is None:
            continue
        twin = found[-1] if found and found[-1].bay.number == bay.number and found[-1].free == bay.free else None
        found.append(
            Braced(bay, twin.free, twin.bare, twin.needs_foam, twin.block, twin.after)
            if twin
            else _braced(body, bay, bay.free, foam, tread, allowed, across_share)
        )
    return tuple(found)


def _braced(body: Body, bay: Bay, free: Area, foam: Foam | None, tread: Tread, allowed: float, share: Range) -> Braced:
    panel, thick = body.board.panel.stiffness_mpa, body.panel_mm
    bare = held(panel, thickness_mm=thick, free=free, tread=tread, across_share=share)
    needs = not bare.passes(allowed)
    if foam is None or not needs:
        return Braced(bay, free, bare, needs, None, None)
    block = after = None
    for place in foam_places(body, free):
        depth = float(body.inside_depth_mm(*place.middle_mm))
        block = cut_block(body, place, foam)
        after = held(
            panel, thickness_mm=thick, free=free, tread=tread, foam=foam, place=place, depth_mm=depth,
            across_share=share,
        )  # fmt: skip
        if after.passes(allowed):
            break
    return Braced(bay, free, bare, needs, block, after)


def foam_places(body: Body, free: Area) -> tuple[Area, ...]:
    """Where foam may stand in a free bay: half as wide as it in the middle, if the air gets by, and all that fits.

    Its outer side keeps clear of the edge strip at the bay's narrower end too.
    """
    tail, nose = free.tail_mm + AT_RIB_MM, free.nose_mm - AT_RIB_MM
    aside = free.width_mm * (1 - HALF) / 2
    narrow = float(min(body.frame.half_width_mm(end) for end in (tail, nose))) - body.board.edge_strip.thickness_mm
    most = min(free.outer_mm, narrow) - AT_RIM_MM
    full = Area(tail, nose, free.inner_mm + AT_SPINE_MM, most)
    half = Area(tail, nose, free.inner_mm + aside, min(free.outer_mm - aside, most))
    places = [half] if aside >= AT_SPINE_MM else []
    return tuple(place for place in (*places, full) if place.width_mm >= LEAST_FOAM_MM and place.length_mm > 0)


def cut_block(body: Body, place: Area, foam: Foam) -> FoamBlock:
    """The block that fills a place between the panels."""
    x, y = (np.linspace(low, high, CUTS) for low, high in (
        (place.tail_mm, place.nose_mm), (place.inner_mm, place.outer_mm)
    ))  # fmt: skip
    depths = body.inside_depth_mm(x[:, None], y)
    volume = float(np.trapezoid(np.trapezoid(depths, y, axis=1), x))
    deepest = float(np.max(depths))
    layers = math.ceil(deepest / foam.thickness_mm)
    return FoamBlock(place, deepest, float(np.min(depths)), layers, volume, volume * foam.density_kg_m3 * 1e-9)


def mass_of(braced: Sequence[Braced]) -> PartMass | None:
    """All blocks of foam on the scales together, density to a tenth; None where there are none."""
    blocks = foam_blocks(braced)
    if not blocks:
        return None
    kg = sum(block.kg for block in blocks)
    return PartMass("foam", kg, 0.9 * kg, 1.1 * kg, sum(block.kg * block.place.middle_mm[0] for block in blocks) / kg)


def foam_blocks(braced: Sequence[Braced]) -> tuple[FoamBlock, ...]:
    """All blocks of foam, from the tail."""
    return tuple(one.block for one in braced if one.block is not None)


def foam_mm3(braced: Sequence[Braced]) -> float:
    """Volume of all blocks of foam."""
    return sum(block.volume_mm3 for block in foam_blocks(braced))
