"""Sums of wood and water: the moisture it settles at, and how it moves."""

from __future__ import annotations

from generator.figures import Kind
from generator.inputs.tables import Species
from generator.sums.sum_type import Answer, OutOfRange, Sum, Takes, Typed
from generator.timber.moisture import RANGE_C, RANGE_PCT, equilibrium_moisture_pct
from generator.timber.movement import Grain, Range, Swelling, cup_mm, movement_mm, swelling

BOOK = "Wood Handbook, FPL-GTR-190 (2010)"
KNOWN = "a timber whose shrinkage the table gives"
SPLIT = "split from its shrinkage in volume, assumed"
KNOWN_EXAMPLE = "Western redcedar"
SPECIES = Takes("species", "the timber, as timber.csv names it", species=True)
GRAIN = Takes("grain", "tangential for slab-sawn wood, radial for quarter-sawn", words=("tangential", "radial"))
WIDTH = Takes("width_mm", "width across the grain", unit="mm", low=1, high=5000)


def moves_of(species: Species | None, grain: str) -> Swelling:
    """How the timber moves.

    Raises:
        OutOfRange: nothing is known of it.
    """
    along: Grain = "radial" if grain == "radial" else "tangential"
    moves = swelling(species, along) if species is not None else None
    if moves is None:
        raise OutOfRange("species", KNOWN, KNOWN_EXAMPLE)
    return moves


def kind_of(moves: Swelling) -> Kind:
    """Assumed where the movement is a share of the shrinkage in volume, which nobody measured by itself."""
    return Kind.ASSUMED if moves.how == "volume" else Kind.PUBLISHED


def _answer(found: Range, moves: Swelling) -> Answer:
    return Answer(found.value, found.low, found.high, kind=kind_of(moves))


def _moisture(typed: Typed) -> Answer:
    numbers = typed.numbers
    return Answer.exact(
        equilibrium_moisture_pct(temperature_c=numbers["temperature_c"], humidity_pct=numbers["humidity_pct"])
    )


def _movement(typed: Typed) -> Answer:
    numbers, moves = typed.numbers, moves_of(typed.species, typed.words["grain"])
    found = movement_mm(
        dimension_mm=numbers["width_mm"], moves=moves, from_pct=numbers["from_pct"], to_pct=numbers["to_pct"]
    )
    return _answer(found, moves)


def _cup(typed: Typed) -> Answer:
    timber, numbers = moves_of(typed.species, typed.words["grain"]), typed.numbers
    moves = timber.coefficient
    try:
        value, low, high = (
            cup_mm(
                width_mm=numbers["width_mm"],
                thickness_mm=numbers["thickness_mm"],
                coefficient=share,
                difference_pct=numbers["difference_pct"],
            )
            for share in (moves.value, moves.low, moves.high)
        )
    except ValueError as error:
        nearest = f"{3 * numbers['thickness_mm'] / (moves.high * numbers['difference_pct']):.0f}"
        raise OutOfRange("width_mm", "so narrow that the panel does not roll up", nearest) from error
    return _answer(Range(value, low, high), timber)


SUMS: tuple[Sum, ...] = (
    Sum(
        "equilibrium-moisture",
        "moisture that bare wood settles at in steady air, of its dry mass",
        (
            Takes("temperature_c", "temperature of the air", unit="°C", low=RANGE_C[0], high=RANGE_C[1]),
            Takes("humidity_pct", "relative humidity of the air", unit="%", low=RANGE_PCT[0], high=RANGE_PCT[1]),
        ),
        "%",
        Kind.PUBLISHED,
        f"{BOOK}, eq. 4-5",
        "-1.1 to 98.9 °C and 5 to 95 % humidity, as Table 4-2; within 0.06 of that table from 0 to 93 °C",
        _moisture,
    ),
    Sum(
        "board-movement",
        "how much a board grows (+) or shrinks across its grain",
        (
            WIDTH,
            SPECIES,
            Takes("from_pct", "moisture at first", unit="%", low=0, high=30),
            Takes("to_pct", "moisture at last", unit="%", low=0, high=30),
            GRAIN,
        ),
        "mm",
        Kind.PUBLISHED,
        f"{BOOK}, eq. 13-2 with Table 13-5 within 6 to 14 %, else eq. 13-3 with Table 4-3 or 4-4 (form from memory)",
        "bare wood with all the time it needs; redcedar, redwood and white-cedar beyond 6 to 14 %: eq. 13-3 with the "
        f"22 % of their Table 13-5 for its 30 %, as printed at the other end; paulownia: {SPLIT}",
        _movement,
    ),
    Sum(
        "panel-cup",
        "height of the dish that a loose panel makes if one face is damper",
        (
            WIDTH,
            Takes("thickness_mm", "thickness of the panel", unit="mm", low=1, high=50),
            SPECIES,
            Takes("difference_pct", "moisture of the damper face above that of the drier one", unit="%", low=0, high=8),
            GRAIN,
        ),
        "mm",
        Kind.PUBLISHED,
        f"{BOOK}, Table 13-5; strip with a strain that runs evenly from face to face (derived)",
        f"a free panel, both faces within 6 to 14 % moisture; up to a half circle; paulownia: {SPLIT}",
        _cup,
    ),
)
