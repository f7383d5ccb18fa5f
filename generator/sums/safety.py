"""Sums of noise, of hand-arm vibration, of dust and of airing."""

from __future__ import annotations

from generator.figures import Kind
from generator.safety.dust import left_pct
from generator.safety.noise import (
    Criterion,
    Exposure,
    allowed_min,
    american_rating_needed_db,
    average_dba,
    dose_pct,
    rating_needed_db,
)
from generator.safety.vapour import WORST_MIXING, cleared_min
from generator.safety.vibration import ACTION_POINTS, LIMIT_POINTS, Hold, day_average_m_s2, minutes_to, points
from generator.sums.sum_type import Answer, Sum, Takes, Typed

LEVEL = Takes("level_dba", "sound level at the ear", unit="dBA", low=80, high=140)
CRITERION = Takes("criterion_dba", "level that is allowed for 8 h", unit="dBA", low=80, high=90)
EXCHANGE = Takes("exchange_db", "dB more that halve the time", unit="dB", low=3, high=6)
MINUTES = Takes("minutes", "time in the day", unit="min", low=1, high=1440)
ACCELERATION = Takes("acceleration_m_s2", "the tool's vibration", unit="m/s2", low=0.1, high=40)
TRIGGER = Takes("minutes", "time in the day that the tool runs", unit="min", low=0, high=600)
POINTS = Takes(
    "points", "points to use up (100: action value, 400: limit)", unit="points",
    low=1, high=LIMIT_POINTS, usual=ACTION_POINTS,
)  # fmt: skip
NOISE_SOURCE = "NIOSH 98-126 (1998), section 1.1 (85 dBA, 3 dB); 29 CFR 1910.95, appendix A (90 dBA, 5 dB)"
NOISE_RANGE = "steady noise of 80 to 140 dBA at the ear, as NIOSH 98-126 Table 1-1; above 115 dBA no time is safe"
WANTED = Takes("wanted_dba", "level that is wanted at the ear", unit="dBA", low=70, high=87, usual=80)
MARK = Takes("mark", "rating on the packet", words=("SNR", "NRR"))
CAUGHT = Takes("caught_pct", "dust that extraction takes away", unit="%", low=0, high=99)
MASK = Takes("mask_factor", "protection factor of the mask (FFP2: 10, FFP3: 20, none: 1)", low=1, high=40)
CHANGES = Takes("changes_per_h", "how often the room's air is changed in an hour", low=0.1, high=50)
LEFT = Takes("left_pct", "share that may be left", unit="%", low=0.1, high=90, usual=1)
POINTS_SOURCE = "HSE hand-arm vibration ready-reckoner: 2 a² points an hour"
POINTS_RANGE = "vector sum to 40 m/s² and 10 h in one day, as the ready-reckoner"


def _criterion(typed: Typed) -> Criterion:
    return Criterion(typed.numbers["criterion_dba"], typed.numbers["exchange_db"])


def _noise_time(typed: Typed) -> Answer:
    return Answer.exact(allowed_min(level_dba=typed.numbers["level_dba"], criterion=_criterion(typed)))


def _noise_dose(typed: Typed) -> Answer:
    exposure = Exposure(typed.numbers["level_dba"], typed.numbers["minutes"])
    return Answer.exact(dose_pct([exposure], criterion=_criterion(typed)))


def _noise_average(typed: Typed) -> Answer:
    dose = _noise_dose(typed).value
    return Answer.exact(average_dba(dose, criterion=_criterion(typed)))


def _ear_rating(typed: Typed) -> Answer:
    needed = rating_needed_db if typed.words["mark"] == "SNR" else american_rating_needed_db
    return Answer.exact(needed(level_dba=typed.numbers["level_dba"], wanted_dba=typed.numbers["wanted_dba"]))


def _airing_time(typed: Typed) -> Answer:
    mixed = cleared_min(changes_per_h=typed.numbers["changes_per_h"], left_pct=typed.numbers["left_pct"])
    return Answer(mixed, mixed, WORST_MIXING * mixed)


def _hold(typed: Typed) -> Hold:
    return Hold(typed.numbers["acceleration_m_s2"], typed.numbers["minutes"])


SUMS: tuple[Sum, ...] = (
    Sum(
        "noise-time",
        "time a day in which a steady noise uses up the whole of an 8 h limit",
        (LEVEL, CRITERION, EXCHANGE),
        "min",
        Kind.PUBLISHED,
        NOISE_SOURCE,
        NOISE_RANGE,
        _noise_time,
    ),
    Sum(
        "noise-dose",
        "share of a day's noise that one tool uses up; doses of several tools add",
        (LEVEL, MINUTES, CRITERION, EXCHANGE),
        "%",
        Kind.PUBLISHED,
        "NIOSH 98-126 (1998), section 1.1.3",
        NOISE_RANGE,
        _noise_dose,
    ),
    Sum(
        "noise-average",
        "steady noise over 8 h that amounts to the same",
        (LEVEL, MINUTES, CRITERION, EXCHANGE),
        "dBA",
        Kind.PUBLISHED,
        "NIOSH 98-126 (1998), Table 1-2, footnote; 29 CFR 1910.95, appendix A",
        NOISE_RANGE,
        _noise_average,
    ),
    Sum(
        "vibration-points",
        "hand-arm vibration points of one tool in a day; points of several tools add",
        (ACCELERATION, TRIGGER),
        "points",
        Kind.PUBLISHED,
        POINTS_SOURCE,
        POINTS_RANGE,
        lambda typed: Answer.exact(points(_hold(typed))),
    ),
    Sum(
        "vibration-time",
        "time until a tool has used up so many points",
        (ACCELERATION, POINTS),
        "min",
        Kind.PUBLISHED,
        f"{POINTS_SOURCE}, solved for the time",
        POINTS_RANGE,
        lambda typed: Answer.exact(
            minutes_to(typed.numbers["points"], acceleration_m_s2=typed.numbers["acceleration_m_s2"])
        ),
    ),
    Sum(
        "vibration-average",
        "steady vibration over 8 h that amounts to the same, A(8)",
        (ACCELERATION, TRIGGER),
        "m/s2",
        Kind.PUBLISHED,
        "ISO 5349-1:2001, A(8) = a √(T / 8 h) (from memory; agrees with the HSE points)",
        POINTS_RANGE,
        lambda typed: Answer.exact(day_average_m_s2([_hold(typed)])),
    ),
    Sum(
        "ear-rating",
        "least rating of ear protection that brings a noise down to the wanted level; 0 if it is quiet enough",
        (LEVEL, WANTED, MARK),
        "dB",
        Kind.COMMON_PRACTICE,
        "SNR: ISO 4869-2 with HSE's 4 dB for real heads; NRR: 29 CFR 1910.95, appendix B, with OSHA's half "
        "(partly from memory)",
        "noise without strong low tones, protection that fits and is worn all the time",
        _ear_rating,
    ),
    Sum(
        "dust-left",
        "share of the dust that is still breathed in behind extraction and a mask",
        (CAUGHT, MASK),
        "%",
        Kind.PUBLISHED,
        "HSG53 / BS EN 529, assigned protection factors; what extraction leaves, divided by them",
        "a mask of the stated class that seals on a shaven face; extraction right at the tool",
        lambda typed: Answer.exact(
            left_pct(caught_pct=typed.numbers["caught_pct"], mask_factors=[typed.numbers["mask_factor"]])
        ),
    ),
    Sum(
        "airing-time",
        "airing until only so much is left of what floats in a room",
        (CHANGES, LEFT),
        "min",
        Kind.PUBLISHED,
        "CDC, MMWR 43 (RR-13), 1994, Table S3-1 and its formula; up to ten times as long where air stands still",
        "well-mixed air of 0.1 to 50 changes an hour, once nothing more is given off",
        _airing_time,
    ),
)
