"""Sums of clamps and of weights that press."""

from __future__ import annotations

from generator.build.clamp_order import strip_pressure_mpa
from generator.build.pressing import FIXED, PIN, PROPPED, closing_force_n, strip_pressure_kpa
from generator.figures import Kind
from generator.quantities import GRAVITY_M_S2
from generator.sums.sum_type import Answer, Sum, Takes, Typed

FORCE = Takes("force_n", "force of one clamp", unit="N", low=10, high=40000, usual=160)
APART = Takes("apart_mm", "distance between clamps", unit="mm", low=20, high=1000)
JOINT = Takes("width_mm", "width of the joint", unit="mm", low=1, high=200)
MASS = Takes("mass_kg", "mass that stands on the joint", unit="kg", low=0, high=500)
LONG = Takes("length_mm", "length of the joint", unit="mm", low=50, high=5000)
GAP = Takes("gap_mm", "gap to close", unit="mm", low=0, high=5, usual=0.5)
SPAN = Takes("span_mm", "from the rib before to the rib after", unit="mm", low=50, high=1500)
STRIP = Takes("width_mm", "width of panel that bends with it", unit="mm", low=20, high=900)
THICK = Takes("thickness_mm", "thickness of the panel", unit="mm", low=3, high=12)
STIFF = Takes("stiffness_mpa", "stiffness of the panel along its grain", unit="MPa", low=500, high=25000)


def _closing(typed: Typed) -> Answer:
    n = typed.numbers
    low, value, high = (
        closing_force_n(
            gap_mm=n["gap_mm"],
            span_mm=n["span_mm"],
            width_mm=n["width_mm"],
            thickness_mm=n["thickness_mm"],
            stiffness_mpa=n["stiffness_mpa"],
            held=held,
        )
        / GRAVITY_M_S2
        for held in (PIN, PROPPED, FIXED)
    )
    return Answer(value, low, high)


SUMS: tuple[Sum, ...] = (
    Sum(
        "clamp-pressure",
        "mean pressure on a narrow glue joint under clamps",
        (FORCE, APART, JOINT),
        "MPa",
        Kind.COMMON_PRACTICE,
        "force over area",
        "a joint stiff enough to spread the clamps' force evenly",
        lambda typed: Answer.exact(
            strip_pressure_mpa(
                force_n=typed.numbers["force_n"],
                apart_mm=typed.numbers["apart_mm"],
                width_mm=typed.numbers["width_mm"],
            )
        ),
    ),
    Sum(
        "weight-pressure",
        "mean pressure on a narrow glue joint under a weight",
        (MASS, LONG, JOINT),
        "kPa",
        Kind.MEASURED,
        "weight over area",
        "a weight whose board spreads it evenly",
        lambda typed: Answer.exact(
            strip_pressure_kpa(
                kg=typed.numbers["mass_kg"], length_mm=typed.numbers["length_mm"], width_mm=typed.numbers["width_mm"]
            )
        ),
    ),
    Sum(
        "pressing-weight",
        "mass that closes a gap between panel and rib: one end held; low both free to turn, high both held",
        (GAP, SPAN, STRIP, THICK, STIFF),
        "kg",
        Kind.ASSUMED,
        "American Wood Council, Design Aid No. 6 (2007), figure 7; ends held: from memory",
        "a strip of panel with its grain along it, small slopes",
        _closing,
    ),
)
