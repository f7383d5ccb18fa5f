"""How much glue the board takes: beads, films, what is wasted, bottles, and what stays in the board once it is dry."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from generator.board.body import Body
from generator.build.amount import Amount
from generator.build.bracing import FoamBlock
from generator.build.glue_joints import STAGES, Joint, glue_joints
from generator.build.part_mass import PartMass
from generator.inputs.builder import Glue

BEAD_MM = 3.0  # common practice: what a modest bead reaches along both woods
WASTE = Amount(1.2, 1.1, 1.3)  # common practice: of what is bought, to what gets into the joints
MM3_PER_ML = 1000.0

# Only for the board's weight, where a label is silent; never for buying. All from memory, assumed.
SPREAD_G_M2 = Amount(200.0, 150.0, 250.0)
DENSITY_KG_M3 = Amount(1120.0, 1050.0, 1200.0)
STAYS = {"pva": Amount(0.5, 0.4, 0.6), "polyurethane": Amount(0.98, 0.9, 1.0), "thickened epoxy": Amount.exact(1.0)}
KEPT_FILM = Amount(0.85, 0.7, 1.0)  # the rest is squeezed out and wiped or cut off


@dataclass(frozen=True, slots=True)
class StageUse:
    """Glue of one stage as bought, waste included.

    `volume_ml` and `mass_kg` are None where the label does not say enough; `missing` names what it must say for the
    volume: "spread rate", "density". `foam` says that blocks of foam are among what is glued.
    """

    stage: str
    length_mm: float
    film_mm2: float
    bead_mm: float
    volume_ml: Amount | None
    mass_kg: Amount | None
    missing: tuple[str, ...]
    foam: bool = False


def bead_section_mm2(*, bead_mm: float) -> Amount:
    """Cross-section of a bead that reaches `bead_mm` along both woods of a right-angled corner.

    A flat-faced bead is a right triangle, w²/2. One pressed in with a round stick is hollow, w²(1 − π/4); one that is
    left standing is full, a quarter round, πw²/4.

    Raises:
        ValueError: `bead_mm` is below 0 (nan included).

    Source: areas of a right triangle, a square less a quarter circle, and a quarter circle (geometry).
    """
    if not bead_mm >= 0:
        raise ValueError("bead_mm must not be below 0")
    square = bead_mm**2
    return Amount(square / 2, square * (1 - math.pi / 4), square * math.pi / 4)


def bead_volume_ml(*, length_mm: float, bead_mm: float) -> Amount:
    """Volume of a bead in a corner, ml, nothing wasted.

    Raises:
        ValueError: a length is below 0 (nan included).
    """
    return bead_section_mm2(bead_mm=bead_mm).times(length_mm / MM3_PER_ML)


def film_mass_kg(*, area_mm2: float, spread_g_m2: float) -> float:
    """Mass of the film that a label asks for on a joint, kg; `spread_g_m2` is per square metre of joint."""
    return area_mm2 * spread_g_m2 * 1e-9


def volume_ml(*, mass_kg: float, density_kg_m3: float) -> float:
    """Volume of a mass of glue, ml."""
    return mass_kg / density_kg_m3 * 1e6


def runs_beads(glue: Glue) -> bool:
    """Whether this builder's glue goes on as beads: PVA never does, whatever the file says."""
    return glue.method == "bead" and glue.type != "pva"


def stage_use(
    stage: str, joints: Sequence[Joint], glue: Glue, *, bead_mm: float = BEAD_MM, waste: Amount = WASTE
) -> StageUse:
    """Glue of one stage of `joints`, waste included, as far as the label lets it be told."""
    own = [joint for joint in joints if joint.stage == stage]
    length, film, beads = (sum(part) for part in zip(*((j.length_mm, j.film_mm2, j.bead_mm) for j in own), strict=True))
    bead = bead_volume_ml(length_mm=beads, bead_mm=bead_mm).times(waste)
    missing = tuple(
        word
        for word, value in (("spread rate", glue.spread_g_m2), ("density", glue.density_kg_m3))
        if film and value is None
    )
    spread, density = glue.spread_g_m2, glue.density_kg_m3
    film_kg = Amount.exact(0.0)
    if film and spread is not None:
        film_kg = Amount.exact(film_mass_kg(area_mm2=film, spread_g_m2=spread)).times(waste)
    per_kg = 1e6 / density if density is not None else 0.0
    volume = None if missing else bead + film_kg.times(per_kg)
    unknown = (film and spread is None) or (beads and density is None)
    mass = None if unknown else film_kg + bead.times((density or 0.0) * 1e-6)
    return StageUse(stage, length, film, beads, volume, mass, missing, any(joint.name == "foam" for joint in own))


def all_stages(
    body: Body, glue: Glue, *, bead_mm: float = BEAD_MM, waste: Amount = WASTE, foam: Sequence[FoamBlock] = ()
) -> tuple[StageUse, ...]:
    """Glue of every stage that glues something, in order; `foam` are the blocks of foam between the panels."""
    joints = glue_joints(body, beads=runs_beads(glue), foam=foam)
    used = [stage for stage in STAGES if any(joint.stage == stage for joint in joints)]
    return tuple(stage_use(stage, joints, glue, bead_mm=bead_mm, waste=waste) for stage in used)


def bottles(*, volume_ml: float, bottle_l: float) -> int:
    """Whole bottles for a volume.

    Raises:
        ValueError: the bottle does not hold more than 0.
    """
    if not bottle_l > 0:
        raise ValueError("bottle_l must be above 0")
    return math.ceil(volume_ml / (1000 * bottle_l) - 1e-9)


def glue_parts(body: Body, glue: Glue, *, foam: Sequence[FoamBlock] = ()) -> tuple[PartMass, ...]:
    """The glue that stays in the finished board, dry, one part a stage.

    What dries away or is squeezed out and wiped off is left out, and so is the glue in panels and frame where those
    were weighed. Where the label is silent, a range of common glues is assumed. Of the panels' glue only what lies
    inside the frame stays. All assumed, from memory, and small beside the wood.
    """
    density = Amount.exact(glue.density_kg_m3) if glue.density_kg_m3 else DENSITY_KG_M3
    spread = Amount.exact(glue.spread_g_m2) if glue.spread_g_m2 else SPREAD_G_M2
    weighed = {"panels": body.masses.panel_weighed, "frame": body.masses.frame_weighed}
    joints = glue_joints(body, beads=runs_beads(glue), foam=foam)
    parts = []
    for stage in STAGES:
        own = [joint for joint in joints if joint.stage == stage]
        if not own or weighed.get(stage, False):
            continue
        share = body.frame_area_mm2 / (body.blank.length_mm * body.blank.width_mm) if stage == "panels" else 1.0
        masses = [_dry_kg(joint, density=density, spread=spread).times(STAYS[glue.type]).times(share) for joint in own]
        whole = sum(masses, Amount.exact(0.0))
        middle = sum(m.value * joint.from_tail_mm for m, joint in zip(masses, own, strict=True)) / whole.value
        parts.append(PartMass(NAMES[stage], whole.value, whole.low, whole.high, middle))
    return tuple(parts)


NAMES = {
    "panels": "glue between the planks",
    "frame": "glue in the frame",
    "glue": "glue of the bottom",
    "inside": "glue of the blocks",
    "top-deck": "glue of the top deck",
    "rails": "glue of the rails",
}


def _dry_kg(joint: Joint, *, density: Amount, spread: Amount) -> Amount:
    """What stays in a joint before it dries: all of a bead, and of a film what is not squeezed out."""
    bead = bead_volume_ml(length_mm=joint.bead_mm, bead_mm=BEAD_MM).times(density).times(1e-6)
    return bead + spread.times(joint.film_mm2 * 1e-9).times(KEPT_FILM)
