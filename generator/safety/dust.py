"""Wood dust: which timbers are worst, how much sanding makes, how much air that spoils, what protection leaves of it.

Guidance by published limits for work; no clearance for anybody's lungs.
"""

from __future__ import annotations

import math
from collections.abc import Iterable

CONIFERS = frozenset(
    {"Abies", "Callitropsis", "Chamaecyparis", "Cupressus", "Larix", "Picea", "Pinus", "Pseudotsuga", "Sequoia",
     "Taxodium", "Thuja", "Tsuga"}
)  # fmt: skip
"""Genera whose wood is called softwood; the limits for hardwood dust do not name them (botany, from memory)."""
SENSITISERS = frozenset({"Sequoia", "Thuja"})
"""Genera with the timbers best known for asthma and skin allergy: OSHA's standard text on wood dust and cedar (1988,
kept by NIOSH); OSU extension fact sheet. A genus that is missing here is not harmless: any wood dust can do it."""


def is_hardwood(botanical: str) -> bool:
    """Whether a timber, by its botanical name, counts as hardwood for the limits."""
    return _genus(botanical) not in CONIFERS


def is_known_sensitiser(botanical: str) -> bool:
    """Whether a timber, by its botanical name, is one of those best known for allergies."""
    return _genus(botanical) in SENSITISERS


def sanded_g(*, area_m2: float, depth_mm: float, density_kg_m3: float) -> float:
    """Mass of wood that sanding takes off a face, g (m² · mm · kg/m³ = g).

    Raises:
        ValueError: one of them is not above 0.
    """
    if not all(0 < value < math.inf for value in (area_m2, depth_mm, density_kg_m3)):
        raise ValueError("area, depth and density must be above 0")
    return area_m2 * depth_mm * density_kg_m3


def air_filled_m3(*, dust_g: float, afloat: float, limit_mg_m3: float) -> float:
    """How much air the part of a mass of dust that floats fills up to a limit, m³.

        V = 1000 m s / c

    Args:
        afloat: Share of the dust that floats, 0 to 1.

    Raises:
        ValueError: mass or limit is not above 0, or the share not from 0 to 1.
    """
    if not (0 < dust_g < math.inf and 0 < limit_mg_m3 < math.inf and 0 <= afloat <= 1):
        raise ValueError("mass and limit must be above 0 and the share lie from 0 to 1")
    return 1000 * dust_g * afloat / limit_mg_m3


def left_pct(*, caught_pct: float, mask_factors: Iterable[float]) -> float:
    """Share of the dust that is still breathed in, %, behind extraction and behind a mask with a protection factor.

    Extraction leaves 1 − c of the dust in the air, a mask lets 1 / f of what is in the air through.

    Raises:
        ValueError: the share caught is not from 0 to 100, or a factor is below 1.
    """
    if not 0 <= caught_pct <= 100:
        raise ValueError("the share caught must lie from 0 to 100")
    left = 100 - caught_pct
    for factor in mask_factors:
        if not factor >= 1:
            raise ValueError("a protection factor is 1 or more")
        left /= factor
    return left


def _genus(botanical: str) -> str:
    return next(iter(botanical.split()), "")
