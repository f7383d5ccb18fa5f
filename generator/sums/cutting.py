"""Sums of a thin panel under a saw."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from generator.build.cutting import batten_gap_mm, bending_mpa, overhang_limit_mm, tongue_limit_mm, working_width_mm
from generator.figures import Kind
from generator.quantities import Floats
from generator.sums.sum_type import Answer, Sum, Takes, Typed

THICK = Takes("thickness_mm", "thickness of the panel", unit="mm", low=3, high=25)
ACROSS = Takes("strength_mpa", "strength across the grain", unit="MPa", low=0.3, high=15)
ALONG = Takes("strength_mpa", "bending strength along the grain", unit="MPa", low=5, high=200)
STIFF = Takes("stiffness_mpa", "stiffness along the grain", unit="MPa", low=500, high=25000)
LOAD = Takes("load_n", "what saw and hand press with", unit="N", low=5, high=300, usual=54.5)
SAFETY = Takes("safety", "safety factor", low=1, high=10, usual=3)
BASE = Takes("base_mm", "length of the saw's base along the cut", unit="mm", low=20, high=400, usual=150)
LENGTH = Takes("length_mm", "length of the panel along the table's edge", unit="mm", low=100, high=5000, usual=2400)
OUT = Takes("overhang_mm", "how far the line stands past the table's edge", unit="mm", low=0, high=400)
WIDE = Takes("width_mm", "width of the tongue", unit="mm", low=10, high=600)
STRIP = Takes("strip_mm", "width of the saw's base", unit="mm", low=20, high=300, usual=75)
SAG = Takes("sag_mm", "how far it may give under the saw", unit="mm", low=0.1, high=20, usual=1)
CANTILEVER = "American Wood Council, Design Aid No. 6 (2007), figure 13: M = P a; section modulus b t²/6"
SPAN = "American Wood Council, Design Aid No. 6 (2007), figure 7: M = P l/4, sag P l³/48EI"
EDGE_RANGE = "a flat panel held down at the table's edge, load spread at 45° from the saw's base; a guide, no promise"
MOST_TONGUE_MM = 600.0


def _limit(typed: Typed) -> Answer:
    n = typed.numbers
    return Answer.exact(
        overhang_limit_mm(
            thickness_mm=n["thickness_mm"],
            strength_mpa=n["strength_mpa"],
            load_n=n["load_n"],
            safety=n["safety"],
            base_mm=n["base_mm"],
            length_mm=n["length_mm"],
        )
    )


def _stress(typed: Typed) -> Answer:
    n = typed.numbers
    width = working_width_mm(arm_mm=n["overhang_mm"], base_mm=n["base_mm"], length_mm=n["length_mm"])
    return Answer.exact(
        bending_mpa(load_n=n["load_n"], arm_mm=n["overhang_mm"], width_mm=width, thickness_mm=n["thickness_mm"])
    )


def _tongue(typed: Typed) -> Answer:
    n = typed.numbers

    def even(in_mm: ArrayLike) -> Floats:
        return np.full(np.shape(in_mm), n["width_mm"])

    return Answer.exact(
        tongue_limit_mm(
            width_mm=even,
            thickness_mm=n["thickness_mm"],
            strength_mpa=n["strength_mpa"],
            stiffness_mpa=n["stiffness_mpa"],
            load_n=n["load_n"],
            safety=n["safety"],
            sag_mm=n["sag_mm"],
            most_mm=MOST_TONGUE_MM,
        )
    )


def _battens(typed: Typed) -> Answer:
    n = typed.numbers
    return Answer.exact(
        batten_gap_mm(
            thickness_mm=n["thickness_mm"],
            strength_mpa=n["strength_mpa"],
            stiffness_mpa=n["stiffness_mpa"],
            load_n=n["load_n"],
            safety=n["safety"],
            strip_mm=n["strip_mm"],
            sag_mm=n["sag_mm"],
        )
    )


SUMS: tuple[Sum, ...] = (
    Sum(
        "saw-overhang",
        "how far a cut along the grain may stand past the table's edge before the saw can crack the panel",
        (THICK, ACROSS, LOAD, SAFETY, BASE, LENGTH),
        "mm",
        Kind.ASSUMED,
        CANTILEVER,
        EDGE_RANGE,
        _limit,
    ),
    Sum(
        "saw-stress",
        "stress across the grain over the table's edge under a saw",
        (THICK, OUT, LOAD, BASE, LENGTH),
        "MPa",
        Kind.ASSUMED,
        CANTILEVER,
        EDGE_RANGE,
        _stress,
    ),
    Sum(
        "tongue-overhang",
        "how far a narrow tongue with its grain along it may stick out under a saw, to the millimetre below",
        (THICK, WIDE, ALONG, STIFF, LOAD, SAFETY, SAG),
        "mm",
        Kind.ASSUMED,
        CANTILEVER,
        f"a tongue of even width, up to {MOST_TONGUE_MM:g} mm",
        _tongue,
    ),
    Sum(
        "cutting-battens",
        "how far apart battens may lie under a panel whose grain runs across them",
        (THICK, ALONG, STIFF, LOAD, SAFETY, STRIP, SAG),
        "mm",
        Kind.ASSUMED,
        SPAN,
        "a strip as wide as the saw's base, held up at two battens",
        _battens,
    ),
)
