"""Sums of the top panel over the deck's crown."""

from __future__ import annotations

from generator.build.crown import (
    SAFETY,
    arc_radius_mm,
    least_radius_mm,
    rim_force_n_mm,
    saddle,
    surface_strain,
)
from generator.figures import Kind
from generator.inputs.tables import Species
from generator.sums.sum_type import Answer, OutOfRange, Sum, Takes, Typed
from generator.timber.across import AcrossGrain, across_grain
from generator.timber.by_density import density_kg_m3

HALF = Takes("half_width_mm", "half of the deck's width there", unit="mm", low=20, high=450)
DROP = Takes("drop_mm", "how far the deck falls from its middle to the rim", unit="mm", low=0.2, high=60)
THICK = Takes("thickness_mm", "thickness of the panel", unit="mm", low=1, high=25)
ACROSS = Takes("across_mpa", "stiffness across the grain", unit="MPa", low=50, high=3000)
GAP = Takes("gap_mm", "gap that may be left at the rim", unit="mm", low=0.05, high=5, usual=0.5)
ALONG_RADIUS = Takes("rocker_radius_mm", "radius of the deck along the board, ends up", unit="mm", low=500, high=100000)
TIMBER = Takes("species", "timber of the panel", species=True)
ARC = "an arc no higher than half as wide"
BENDING = "plane sections (beam bending; textbook, from memory)"
SPLITTING = "Wood Handbook, FPL-GTR-190 (2010), Tables 5-1 and 5-3a, as read in the timber table"
PCT = 100.0


def _radius(typed: Typed) -> float:
    half, drop = typed.numbers["half_width_mm"], typed.numbers["drop_mm"]
    if drop > half:
        raise OutOfRange("drop_mm", f"0.2 to {half:g} mm, no more than the half width", f"{half:g}")
    return arc_radius_mm(half_width_mm=half, drop_mm=drop)


def _strain(typed: Typed) -> Answer:
    strain = surface_strain(thickness_mm=typed.numbers["thickness_mm"], radius_mm=_radius(typed))
    return Answer.exact(PCT * strain)


def _across(species: Species | None) -> AcrossGrain:
    if species is None or species.stiffness_mpa is None:
        raise OutOfRange("species", "a timber whose stiffness the table gives", "Western redcedar")
    if species.strength_tension_perp_mpa is None and species.gravity_12pct is None:
        raise OutOfRange("species", "a timber whose strength or specific gravity the table gives", "Western redcedar")
    density = density_kg_m3(species.gravity_12pct) if species.gravity_12pct is not None else 0.0
    return across_grain(species, along_mpa=species.stiffness_mpa, density_kg_m3=density)


def _limit(typed: Typed) -> Answer:
    low, usual, high = _across(typed.species).limit_strain
    return Answer(PCT * usual, PCT * low, PCT * high)


def _easy_radius(typed: Typed) -> Answer:
    low, usual, high = _across(typed.species).limit_strain
    thick = typed.numbers["thickness_mm"]
    radii = [least_radius_mm(thickness_mm=thick, strain=strain / SAFETY) for strain in (usual, high, low)]
    return Answer(radii[0], radii[1], radii[2])


def _force(typed: Typed) -> Answer:
    numbers = typed.numbers
    _radius(typed)
    per_mm = rim_force_n_mm(
        stiffness_mpa=numbers["across_mpa"],
        thickness_mm=numbers["thickness_mm"],
        half_width_mm=numbers["half_width_mm"],
        drop_mm=numbers["drop_mm"],
        gap_mm=numbers["gap_mm"],
    )
    return Answer.exact(1000 * per_mm)


def _stretch(typed: Typed) -> Answer:
    numbers = typed.numbers
    bent = saddle(
        along_per_mm=1 / numbers["rocker_radius_mm"],
        across_per_mm=1 / _radius(typed),
        half_width_mm=numbers["half_width_mm"],
    )
    return Answer.exact(PCT * bent.edge)


SUMS: tuple[Sum, ...] = (
    Sum(
        "crown-radius",
        "radius of the arc through the deck's middle and both its edges",
        (HALF, DROP),
        "mm",
        Kind.PUBLISHED,
        "height of a circle's segment (Euclid III.35; from memory)",
        ARC,
        lambda typed: Answer.exact(_radius(typed)),
    ),
    Sum(
        "crown-strain",
        "stretch of a flat panel's surface when it is rolled over the crown",
        (HALF, DROP, THICK),
        "%",
        Kind.PUBLISHED,
        BENDING,
        "a panel that is flat when free and thin beside the radius",
        _strain,
    ),
    Sum(
        "crown-limit",
        "stretch across the grain at which a timber splits",
        (TIMBER,),
        "%",
        Kind.ASSUMED,
        SPLITTING,
        "dry clear wood; single planks differ by a wide margin",
        _limit,
    ),
    Sum(
        "crown-easy-radius",
        "tightest crown that a flat panel takes without care",
        (TIMBER, THICK),
        "mm",
        Kind.ASSUMED,
        SPLITTING,
        f"dry clear wood rolled across its grain, with a safety of {SAFETY:g}",
        _easy_radius,
    ),
    Sum(
        "rim-force",
        "pull along each metre of rim that brings a flat panel down over the crown",
        (HALF, DROP, THICK, ACROSS, GAP),
        "N",
        Kind.PUBLISHED,
        "a strip bent over a round former, shallow (first principles)",
        "held in the middle, pulled down at both rims, thin and shallow",
        _force,
    ),
    Sum(
        "saddle-stretch",
        "stretch along the edges of a flat panel that is bent over crown and rocker at once",
        (HALF, DROP, ALONG_RADIUS),
        "%",
        Kind.PUBLISHED,
        "compatibility of a shallow shell (von Kármán; from memory)",
        "bends that change slowly along the board; an estimate",
        _stretch,
    ),
)
