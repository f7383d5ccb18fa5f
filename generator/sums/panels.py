"""Sums of deck panels: planks, gluing pressure, springing up, weighing flat."""

from __future__ import annotations

from generator.build.panel_press import (
    GLUING_PRESSURE_MPA,
    buckling_force_n_mm,
    gluing_force_n_mm,
    hold_down_n_mm,
    kg_per_m,
)
from generator.build.planks import Allowance, Planks, plan_planks
from generator.figures import Kind
from generator.sums.sum_type import Answer, OutOfRange, Sum, Takes, Typed
from generator.timber.across import stiffness_share

THICKNESS = Takes("thickness_mm", "thickness of the panel", unit="mm", low=2, high=50)
EDGE = Takes("edge_mm", "width of the glued edge, the panel's thickness", unit="mm", low=1, high=200)
PLANK = Takes("plank_width_mm", "width of a plank", unit="mm", low=20, high=400)
SCARF = 8.0


def _buckling(typed: Typed) -> Answer:
    numbers = typed.numbers
    low, value, high = (
        buckling_force_n_mm(
            thickness_mm=numbers["thickness_mm"],
            width_mm=numbers["width_mm"],
            across_mpa=numbers["along_mpa"] * ratio,
        )
        for ratio in stiffness_share(typed.species.botanical if typed.species else "")
    )
    return Answer(value, low, high)


def _strip(typed: Typed) -> Answer:
    numbers = typed.numbers
    return Answer.exact(
        buckling_force_n_mm(
            thickness_mm=numbers["thickness_mm"], width_mm=numbers["width_mm"], across_mpa=numbers["across_mpa"]
        )
    )


def _gluing(typed: Typed) -> Answer:
    return Answer.exact(gluing_force_n_mm(pressure_mpa=typed.numbers["pressure_mpa"], edge_mm=typed.numbers["edge_mm"]))


def _hold_down(typed: Typed) -> Answer:
    numbers = typed.numbers
    newton = hold_down_n_mm(
        force_n_mm=numbers["force_n_mm"], plank_mm=numbers["plank_width_mm"], uneven_mm=numbers["uneven_mm"]
    )
    return Answer.exact(kg_per_m(newton))


def _plank_count(typed: Typed) -> Answer:
    numbers = typed.numbers
    overlap = SCARF * numbers["thickness_mm"]
    if numbers["plank_length_mm"] < 2 * overlap:
        raise OutOfRange("plank_length_mm", "at least twice the length of an end join", f"{2 * overlap:g}")
    plan = plan_planks(
        length_mm=numbers["panel_length_mm"],
        width_mm=numbers["panel_width_mm"],
        stock=[],
        bought=Planks(numbers["plank_width_mm"], numbers["plank_length_mm"], None),
        allowance=Allowance(numbers["joint_mm"], overlap, numbers["kerf_mm"], numbers["stagger_mm"]),
    )
    return Answer.exact(float(plan.planks))


SUMS: tuple[Sum, ...] = (
    Sum(
        "plank-count",
        "planks of one size for two panels alike",
        (
            Takes("panel_length_mm", "length that a panel must reach", unit="mm", low=300, high=4300),
            Takes("panel_width_mm", "width that a panel must reach", unit="mm", low=100, high=1000),
            Takes("plank_length_mm", "length of a plank", unit="mm", low=300, high=6000),
            PLANK,
            Takes("thickness_mm", "thickness of a plank", unit="mm", low=3, high=12, usual=6),
            Takes("joint_mm", "width that truing takes at each glue line", unit="mm", low=0, high=10, usual=0.5),
            Takes("kerf_mm", "length that a saw cut takes", unit="mm", low=0, high=10, usual=2),
            Takes("stagger_mm", "least distance between end joins side by side", unit="mm", low=0, high=600, usual=200),
        ),
        "",
        Kind.COMMON_PRACTICE,
        "integer programme over rows of whole planks and one cut piece; end joins 8 times as long as thick",
        "rows of one width; each row one plank, or whole planks and one piece cut from a further plank",
        _plank_count,
    ),
    Sum(
        "panel-buckling",
        "push on each long edge at which a thin panel springs up; 1 N/mm is 1 kN per metre",
        (
            THICKNESS,
            Takes("width_mm", "width of the panel across the grain", unit="mm", low=50, high=2000),
            Takes("along_mpa", "stiffness along the grain", unit="MPa", low=200, high=30000),
            Takes("species", "the timber, as timber.csv names it", species=True, usual="Western redcedar"),
        ),
        "N/mm",
        Kind.ASSUMED,
        "Wood Handbook, FPL-GTR-190 (2010), Table 5-1 (partly from memory); Euler's strut",
        "flat panel pressed at its two long edges, with nothing on it; ratio across to along from flat-sawn to sawn "
        "through the heart: redcedar 0.055 to 0.081, white-cedar 0.081 to 0.183, balsa 0.015 to 0.046, others assumed "
        "0.04 to 0.183",
        _buckling,
    ),
    Sum(
        "strip-buckling",
        "the same for a known stiffness across the grain",
        (
            THICKNESS,
            Takes("width_mm", "width of the panel across the grain", unit="mm", low=50, high=2000),
            Takes("across_mpa", "stiffness across the grain", unit="MPa", low=10, high=5000),
        ),
        "N/mm",
        Kind.PUBLISHED,
        "Euler's strut of unit breadth, both edges free to turn (textbook)",
        "flat panel pressed at its two long edges, with nothing on it",
        _strip,
    ),
    Sum(
        "glue-pressure-force",
        "force on each mm of an edge joint at a gluing pressure; 1 N/mm is 1 kN per metre",
        (
            EDGE,
            Takes("pressure_mpa", "gluing pressure", unit="MPa", low=0.01, high=3, usual=GLUING_PRESSURE_MPA),
        ),
        "N/mm",
        Kind.PUBLISHED,
        "pressure times width; 0.7 MPa for light woods: Wood Handbook, chapter 10 (from memory)",
        "even pressure on the whole edge",
        _gluing,
    ),
    Sum(
        "weigh-down",
        "weight on each metre of a wet joint that keeps it from rising",
        (
            Takes("force_n_mm", "push on the panel's edge", unit="N/mm", low=0, high=20),
            PLANK,
            Takes("uneven_mm", "how much higher than its neighbours the joint begins", unit="mm", low=0, high=10),
        ),
        "kg/m",
        Kind.ASSUMED,
        "balance of forces at a hinge (derived)",
        "joints that turn like hinges until the glue is hard, planks of one width",
        _hold_down,
    ),
)
