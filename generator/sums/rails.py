"""Sums of rails, fair curves and fittings."""

from __future__ import annotations

from generator.build.crown import least_radius_mm, surface_strain
from generator.build.fairness import gap_curvature_per_mm, round_marks, sagitta_mm, thinned
from generator.build.fittings import plug_holds_n
from generator.build.rails import SAFETY, deck_slope_deg
from generator.figures import Kind
from generator.sums.sum_type import Answer, OutOfRange, Sum, Takes, Typed
from generator.timber.by_density import SOURCE as BY_DENSITY

THICK = Takes("thickness_mm", "thickness of the strip", unit="mm", low=0.5, high=80)
PANEL = Takes("thickness_mm", "thickness of the panel", unit="mm", low=1, high=25)
OFF = Takes("off_mm", "what is taken off one face", unit="mm", low=0, high=20)
RADIUS = Takes("radius_mm", "radius of the curve", unit="mm", low=50, high=1_000_000)
SPAN = Takes("span_mm", "length of the straight edge or batten", unit="mm", low=50, high=3000)
GAP = Takes("gap_mm", "gap at the middle of the batten", unit="mm", low=0, high=20)
HALF = Takes("half_width_mm", "half of the deck's width there", unit="mm", low=20, high=450)
DROP = Takes("drop_mm", "how far the deck falls from its middle to the rim", unit="mm", low=0, high=60)
WIDE = Takes("width_mm", "how far in from the outside the round begins", unit="mm", low=1, high=100)
HOLE = Takes("hole_mm", "diameter of the hole", unit="mm", low=4, high=60)
DEEP = Takes("depth_mm", "depth of the hole within the block", unit="mm", low=1, high=120)
HEAVY = Takes("density_kg_m3", "density of the block's wood", unit="kg/m3", low=80, high=1200)
TIMBER = Takes("species", "timber of the strip", species=True)
SEGMENT = "height of a circle's segment (Euclid III.35; from memory)"
PCT = 100.0


def _bend_radius(typed: Typed) -> Answer:
    species = typed.species
    if species is None or species.stiffness_mpa is None or species.strength_bending_mpa is None:
        raise OutOfRange("species", "a timber whose stiffness and bending strength the table gives", "Western redcedar")
    strain = species.strength_bending_mpa / species.stiffness_mpa
    thick = typed.numbers["thickness_mm"]
    safe, breaks = (least_radius_mm(thickness_mm=thick, strain=strain / by) for by in (SAFETY, 1.0))
    return Answer(safe, breaks, safe)


def _strain(typed: Typed) -> Answer:
    return Answer.exact(
        PCT * surface_strain(thickness_mm=typed.numbers["thickness_mm"], radius_mm=typed.numbers["radius_mm"])
    )


def _batten_gap(typed: Typed) -> Answer:
    radius, span = typed.numbers["radius_mm"], typed.numbers["span_mm"]
    if span > 2 * radius:
        raise OutOfRange("span_mm", f"50 to {2 * radius:g} mm, no wider than the circle", f"{2 * radius:g}")
    return Answer.exact(sagitta_mm(radius_mm=radius, span_mm=span))


def _gap_radius(typed: Typed) -> Answer:
    gap, span = typed.numbers["gap_mm"], typed.numbers["span_mm"]
    if gap <= 0 or gap > span / 10:
        raise OutOfRange("gap_mm", f"above 0 and up to {span / 10:g} mm, a tenth of the batten", f"{span / 100:g}")
    return Answer.exact(1 / gap_curvature_per_mm(gap_mm=gap, span_mm=span))


def _bevel(typed: Typed) -> Answer:
    return Answer.exact(deck_slope_deg(half_width_mm=typed.numbers["half_width_mm"], drop_mm=typed.numbers["drop_mm"]))


def _sanded(typed: Typed) -> Answer:
    thick, off = typed.numbers["thickness_mm"], typed.numbers["off_mm"]
    if off >= thick:
        raise OutOfRange("off_mm", f"0 to below {thick:g} mm, the panel's thickness", f"{thick / 10:g}")
    return Answer.exact(PCT * thinned(thickness_mm=thick, off_mm=off).stiffness)


def _round(typed: Typed) -> Answer:
    wide = typed.numbers["width_mm"]
    return Answer.exact(round_marks(width_mm=wide, height_mm=wide).first_in)


def _plug(typed: Typed) -> Answer:
    numbers = typed.numbers
    return Answer.exact(
        plug_holds_n(hole_mm=numbers["hole_mm"], depth_mm=numbers["depth_mm"], density_kg_m3=numbers["density_kg_m3"])
    )


SUMS: tuple[Sum, ...] = (
    Sum(
        "rail-bend-radius",
        "tightest bend that a dry strip takes along its grain; the low end is where it breaks",
        (TIMBER, THICK),
        "mm",
        Kind.ASSUMED,
        "t / (2 ε), ε = bending strength / stiffness; Wood Handbook, FPL-GTR-190 (2010), Table 5-3a, as read in the "
        "timber table",
        f"dry, straight-grained, bent slowly, with a safety of {SAFETY:g}",
        _bend_radius,
    ),
    Sum(
        "bend-strain",
        "stretch of a strip's outside when it is bent to a radius at its middle",
        (THICK, RADIUS),
        "%",
        Kind.PUBLISHED,
        "plane sections (beam bending; textbook, from memory)",
        "straight when free, thin beside the radius",
        _strain,
    ),
    Sum(
        "batten-gap",
        "gap at the middle of a straight edge laid across an arc",
        (RADIUS, SPAN),
        "mm",
        Kind.PUBLISHED,
        SEGMENT,
        "a round arc",
        _batten_gap,
    ),
    Sum(
        "gap-radius",
        "radius by which a surface bends away from a batten that shows a gap",
        (GAP, SPAN),
        "mm",
        Kind.PUBLISHED,
        SEGMENT,
        "gaps up to a tenth of the batten; within 1 % up to a twentieth",
        _gap_radius,
    ),
    Sum(
        "bevel-angle",
        "slope of a crowned deck at its rim, and so the bevel of the rail's top edge",
        (HALF, DROP),
        "°",
        Kind.PUBLISHED,
        "derivative of a parabola, atan(2 c / b)",
        "a deck that falls as a parabola",
        _bevel,
    ),
    Sum(
        "sanding-loss",
        "bending stiffness that a panel has left, of what it had",
        (PANEL, OFF),
        "%",
        Kind.PUBLISHED,
        "I = b d³/12 (Machinery's Handbook, 21st ed.)",
        "a panel of one material, thinned evenly",
        _sanded,
    ),
    Sum(
        "round-mark",
        "where the first flat starts on the way to a quarter round, in from the edge",
        (WIDE,),
        "mm",
        Kind.PUBLISHED,
        "tangents of a circle at equal angles: r (1 − tan 22.5°)",
        "a quarter of a circle; of an ellipse for each side by itself",
        _round,
    ),
    Sum(
        "plug-hold",
        "pull that a plug glued into wood may take",
        (HOLE, DEEP, HEAVY),
        "N",
        Kind.ASSUMED,
        BY_DENSITY,
        "half the wall counts, glue no weaker than the wood, with a safety of 3",
        _plug,
    ),
)
