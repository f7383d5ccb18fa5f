"""Sums of a deck that gives under a heel, bare and on foam."""

from __future__ import annotations

from generator.build.bays import Area
from generator.build.bracing import HEEL_MM, Held, Tread, foam_crush_mpa, held
from generator.figures import Kind
from generator.inputs.board import Spread
from generator.inputs.builder import FOAM_KINDS, Foam, FoamKind
from generator.quantities import GRAVITY_M_S2
from generator.sums.sum_type import Answer, OutOfRange, Sum, Takes, Typed
from generator.timber.across import stiffness_share

LENGTH = Takes("length_mm", "length of the bay along the grain, between ribs", unit="mm", low=80, high=600)
WIDTH = Takes("width_mm", "width of the bay across the grain", unit="mm", low=80, high=600)
THICKNESS = Takes("thickness_mm", "thickness of the panel", unit="mm", low=2, high=20)
STIFFNESS = Takes("stiffness_mpa", "stiffness of the panel along its grain", unit="MPa", low=1000, high=20000)
LOAD = Takes("load_kg", "mass on one heel or knee, in the middle of the bay", unit="kg", low=1, high=250)
SIDE = Takes("side_mm", "side of the square that it stands on", unit="mm", low=10, high=200, usual=HEEL_MM)
TIMBER = Takes("species", "timber of the panel", species=True, usual="Western redcedar")
BAY = (LENGTH, WIDTH, THICKNESS, STIFFNESS, LOAD, SIDE, TIMBER)
KIND = Takes("foam", "kind of foam", words=FOAM_KINDS)
DENSITY = Takes("foam_density_kg_m3", "density of the foam", unit="kg/m3", low=8, high=120)
DEPTH = Takes("depth_mm", "depth of the foam, panel to panel", unit="mm", low=10, high=150)
FILLS = Takes("foam_width_mm", "width of the foam, in the middle of the bay", unit="mm", low=20, high=600)
CLEAR_MM = 20.0
PLATE = "Timoshenko & Woinowsky-Krieger, Theory of Plates and Shells (1959), ch. 11 (from memory)"
SANDWICH = f"{PLATE}; Allen, Analysis and Design of Structural Sandwich Panels (1969) (from memory)"
BAY_RANGE = (
    "a thin flat panel held along four edges, edges between free to turn and fixed; stiffness across the grain and in "
    "shear assumed from Wood Handbook Table 5-1, across it by the timber where the table has it; stiffness along it a "
    "quarter either way"
)
FOAM_RANGE = f"{BAY_RANGE}; foam glued to both panels, as long as the bay less {CLEAR_MM:g} mm"


def _held(typed: Typed, *, foam: bool) -> Held:
    got = typed.numbers
    free = Area(0.0, got["length_mm"], 0.0, got["width_mm"])
    tread = Tread(got["load_kg"] * GRAVITY_M_S2, got["side_mm"])
    stiffness = Spread.model_validate(got["stiffness_mpa"])
    share = stiffness_share(typed.species.botanical if typed.species else "")
    if not foam:
        return held(stiffness, thickness_mm=got["thickness_mm"], free=free, tread=tread, across_share=share)
    fills = got["foam_width_mm"]
    if fills > free.width_mm:
        allowed = f"no more than width_mm, which is {free.width_mm:g}"
        raise OutOfRange("foam_width_mm", allowed, f"{free.width_mm:g}")
    least = min(got["side_mm"], free.width_mm)
    if fills < least:  # then the softest place is beside the foam and not in the middle
        raise OutOfRange("foam_width_mm", f"at least {least:g}, as wide as what stands on it", f"{least:g}")
    aside = (free.width_mm - fills) / 2
    return held(
        stiffness,
        thickness_mm=got["thickness_mm"],
        free=free,
        tread=tread,
        foam=Foam(name="foam", kind=_kind(typed), thickness=got["depth_mm"], density=got["foam_density_kg_m3"]),
        place=Area(CLEAR_MM / 2, free.length_mm - CLEAR_MM / 2, aside, aside + fills),
        depth_mm=got["depth_mm"],
        across_share=share,
    )


def _kind(typed: Typed) -> FoamKind:
    return next(kind for kind in FOAM_KINDS if kind == typed.words["foam"])


def _dent(typed: Typed, *, foam: bool) -> Answer:
    low, value, high = _held(typed, foam=foam).dent_mm
    return Answer(value, low, high)


def _pull(typed: Typed, *, foam: bool) -> Answer:
    low, value, high = _held(typed, foam=foam).across_mpa
    return Answer(value, low, high)


def _crush(typed: Typed) -> Answer:
    low, value, high = foam_crush_mpa(_kind(typed), typed.numbers["foam_density_kg_m3"])
    return Answer(value, low, high)


SUMS: tuple[Sum, ...] = (
    Sum(
        "bay-deflection",
        "how far a bare bay of the deck gives under a heel",
        BAY,
        "mm",
        Kind.ASSUMED,
        PLATE,
        BAY_RANGE,
        lambda typed: _dent(typed, foam=False),
    ),
    Sum(
        "bay-pull",
        "pull across the grain in a bare bay of the deck under a heel",
        BAY,
        "MPa",
        Kind.ASSUMED,
        PLATE,
        BAY_RANGE,
        lambda typed: _pull(typed, foam=False),
    ),
    Sum(
        "braced-deflection",
        "how far a bay with foam between both panels gives under a heel",
        (*BAY, KIND, DENSITY, DEPTH, FILLS),
        "mm",
        Kind.ASSUMED,
        SANDWICH,
        FOAM_RANGE,
        lambda typed: _dent(typed, foam=True),
    ),
    Sum(
        "braced-pull",
        "pull across the grain in a bay with foam between both panels under a heel",
        (*BAY, KIND, DENSITY, DEPTH, FILLS),
        "MPa",
        Kind.ASSUMED,
        SANDWICH,
        FOAM_RANGE,
        lambda typed: _pull(typed, foam=True),
    ),
    Sum(
        "foam-stiffness",
        "stiffness of foam as it is crushed",
        (KIND, DENSITY),
        "MPa",
        Kind.ASSUMED,
        "expanded polystyrene: line through ASTM D6817, stress at 1 % (read in makers' tables); others from memory",
        "8 to 120 kg/m³; single boards stray by half either way",
        _crush,
    ),
)
