"""How long a noise may be borne in a day, how several add up, and what a protector leaves of it.

Guidance by published limits for work; no clearance for anybody's ears. Levels are A-weighted, dB(A), as they reach the
ear without protection.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

DAY_MIN = 480.0
"""The eight hours that all these limits are averaged over."""
NO_LONGER_DBA = 115.0
"""Never, however short, above this: NIOSH 98-126 (1998), section 1.1.4."""
REAL_WORLD_DB = 4.0
NRR_A_WEIGHTED_DB = 7.0
PLATE_UNSURE_DB = 3.0
"""The uncertainty K that tools' booklets commonly state for noise; for jigsaws 5 dB is seen too (common practice)."""


@dataclass(frozen=True, slots=True)
class Criterion:
    """A limit for eight hours, and by how many dB more the time is halved."""

    level_dba: float
    exchange_db: float


NIOSH = Criterion(85.0, 3.0)
"""NIOSH 98-126 (1998), section 1.1."""
OSHA = Criterion(90.0, 5.0)
"""29 CFR 1910.95, Table G-16 and appendix A. Kept for comparison only: no page uses the 5 dB rule."""
LOWER_ACTION = Criterion(80.0, 3.0)
UPPER_ACTION = Criterion(85.0, 3.0)
LIMIT_AT_EAR = Criterion(87.0, 3.0)
"""Directive 2003/10/EC, article 3. The limit counts what the protector takes away, the action values do not. An equal
dose of energy, so 3 dB for half the time (exactly 10·log10 2 = 3.0103 dB)."""


@dataclass(frozen=True, slots=True)
class Exposure:
    """A noise and how long it lasts in the day."""

    level_dba: float
    minutes: float


def allowed_min(*, level_dba: float, criterion: Criterion) -> float:
    """Minutes in a day after which a steady noise has used the whole of a limit's dose.

        T = 480 / 2^((L − L_c) / q)

    May be longer than a day for a noise below the limit.

    Raises:
        ValueError: the level is not finite, or the exchange rate is not above 0.

    Source: NIOSH 98-126 (1998), section 1.1 (85 dBA, 3 dB); 29 CFR 1910.95 appendix A (90 dBA, 5 dB).
    """
    if not (math.isfinite(level_dba) and math.isfinite(criterion.level_dba) and criterion.exchange_db > 0):
        raise ValueError("the levels must be finite and the exchange rate above 0")
    return DAY_MIN / 2 ** ((level_dba - criterion.level_dba) / criterion.exchange_db)


def dose_pct(exposures: Iterable[Exposure], *, criterion: Criterion) -> float:
    """Share of a day's dose that several noises use together, %.

        D = 100 Σ C / T

    Raises:
        ValueError: a time is below 0, or as `allowed_min`.

    Source: NIOSH 98-126 (1998), section 1.1.3.
    """
    total = 0.0
    for one in exposures:
        if not one.minutes >= 0:
            raise ValueError("minutes must not be below 0")
        total += one.minutes / allowed_min(level_dba=one.level_dba, criterion=criterion)
    return 100 * total


def average_dba(dose: float, *, criterion: Criterion) -> float:
    """The steady noise over eight hours that uses the same dose, dB(A); `dose` in %, above 0.

        L = q log2(D / 100) + L_c

    For 85 dBA and 3 dB the sources print 10 log10(D / 100) + 85, which is the same within a rounded factor (9.97).

    Raises:
        ValueError: the dose is not above 0.

    Source: NIOSH 98-126 (1998), Table 1-2, footnote; 29 CFR 1910.95 appendix A.
    """
    if not 0 < dose < math.inf:
        raise ValueError("the dose must be above 0 and finite")
    return criterion.exchange_db * math.log2(dose / 100) + criterion.level_dba


def rating_needed_db(*, level_dba: float, wanted_dba: float) -> float:
    """The SNR that a protector needs so that no more than `wanted_dba` reaches the ear; 0 if it is quiet enough.

        SNR = L − L_wanted + 4 dB

    The 4 dB stand for how worn, hurried fitting falls short of the laboratory's. For noise without strong low tones,
    so that its C-weighted level is near its A-weighted one.

    Source: ISO 4869-2, SNR method (from memory); HSE's real-world factor of 4 dB (Control of Noise at Work Regulations
    2005, guidance L108, as quoted by a maker of sound level meters).
    """
    return level_dba - wanted_dba + REAL_WORLD_DB if level_dba > wanted_dba else 0.0


def american_rating_needed_db(*, level_dba: float, wanted_dba: float) -> float:
    """The same as an NRR, the rating on packets in the USA; 0 if it is quiet enough.

        NRR = 2 (L − L_wanted) + 7 dB

    From L_ear = L − (NRR − 7) / 2: 7 dB for a noise measured in dB(A), and half of what is left for real heads.

    Source: 29 CFR 1910.95, appendix B, with OSHA's safety factor of a half (from memory).
    """
    return 2 * (level_dba - wanted_dba) + NRR_A_WEIGHTED_DB if level_dba > wanted_dba else 0.0
