"""Sums of glue: its cure at a temperature, beads, films, bottles, and the time of a glue-up."""

from __future__ import annotations

from generator.build.cure import time_between
from generator.build.glue_time import CLOSE_MIN, FILM_MIN_PER_M, GlueUp
from generator.build.glue_use import bead_volume_ml, bottles, film_mass_kg
from generator.figures import Kind
from generator.sums.sum_type import Answer, OutOfRange, Sum, Takes, Typed

LEAST_APART_C = 3.0
TIMES = "a label's times at two temperatures, and one between them; not rounded, while guides go up to whole hours"
BEAD_SOURCE = "right triangle w²/2; hollow w²(1 − π/4); quarter round πw²/4 (geometry)"
PACE_SOURCE = (
    f"common practice: {FILM_MIN_PER_M.low:g} to {FILM_MIN_PER_M.high:g} min a metre of joint, "
    f"{CLOSE_MIN.low:g} to {CLOSE_MIN.high:g} min a pair of clamps for two people"
)


def whole(typed: Typed, key: str) -> int:
    """A count that was typed.

    Raises:
        OutOfRange: it is not a whole number.
    """
    number = typed.numbers[key]
    if number != round(number):
        raise OutOfRange(key, "a whole number", f"{round(number)}")
    return round(number)


def _cure_time(typed: Typed) -> Answer:
    at, cold, warm = (typed.numbers[key] for key in ("temperature_c", "colder_c", "warmer_c"))
    slow, fast = typed.numbers["colder_min"], typed.numbers["warmer_min"]
    if warm < cold + LEAST_APART_C:
        allowed = f"{LEAST_APART_C:g} or more above colder_c, which is {cold:g}"
        raise OutOfRange("warmer_c", allowed, f"{cold + LEAST_APART_C:g}")
    if fast > slow:
        raise OutOfRange("warmer_min", f"no longer than colder_min, which is {slow:g}", f"{slow:g}")
    if not cold <= at <= warm:
        nearest = min(max(at, cold), warm)
        raise OutOfRange("temperature_c", f"{cold:g} to {warm:g}, as the label gives times", f"{nearest:g}")
    value = time_between(temperature_c=at, cold_c=cold, cold_min=slow, warm_c=warm, warm_min=fast)
    return Answer(value, fast, slow)


def _bead_volume(typed: Typed) -> Answer:
    amount = bead_volume_ml(length_mm=typed.numbers["length_mm"], bead_mm=typed.numbers["bead_mm"])
    return Answer(amount.value, amount.low, amount.high)


def _spread_mass(typed: Typed) -> Answer:
    area_mm2 = typed.numbers["area_m2"] * 1e6
    return Answer.exact(1000 * film_mass_kg(area_mm2=area_mm2, spread_g_m2=typed.numbers["spread_g_m2"]))


def _bottles(typed: Typed) -> Answer:
    return Answer.exact(bottles(volume_ml=typed.numbers["volume_ml"], bottle_l=typed.numbers["bottle_ml"] / 1000))


def _glue_up_time(typed: Typed) -> Answer:
    job = GlueUp(joint_mm=typed.numbers["joint_mm"], pairs=whole(typed, "pairs"))
    taken = job.minutes(people=whole(typed, "people"))
    return Answer(taken.value, taken.low, taken.high)


SUMS: tuple[Sum, ...] = (
    Sum(
        "cure-time",
        "time of a glue at a temperature between the two that its label gives times for",
        (
            Takes("temperature_c", "where the glue cures", unit="°C", low=-10, high=45),
            Takes("colder_c", "the label's colder temperature", unit="°C", low=-10, high=42),
            Takes("colder_min", "its time there", unit="min", low=1, high=40320),
            Takes("warmer_c", "the label's warmer temperature", unit="°C", low=-7, high=45),
            Takes("warmer_min", "its time there", unit="min", low=1, high=40320),
        ),
        "min",
        Kind.ASSUMED,
        "the logarithm of the time goes straight with temperature (Arrhenius over a narrow range; from memory)",
        TIMES,
        _cure_time,
    ),
    Sum(
        "bead-volume",
        "glue in a bead along a corner, nothing wasted; flat, pressed hollow and left full",
        (
            Takes("length_mm", "length of the bead", unit="mm", low=1, high=1_000_000),
            Takes("bead_mm", "how far it reaches along both woods", unit="mm", low=0.5, high=20, usual=3.0),
        ),
        "ml",
        Kind.COMMON_PRACTICE,
        BEAD_SOURCE,
        "a bead in a right-angled corner, as wide as it is high, before it foams",
        _bead_volume,
    ),
    Sum(
        "spread-mass",
        "glue in a film, nothing wasted",
        (
            Takes("area_m2", "area of the joint", unit="m2", low=0.0001, high=100),
            Takes("spread_g_m2", "spread rate on the label", unit="g/m2", low=30, high=600),
        ),
        "g",
        Kind.LABEL,
        "area times the label's spread rate",
        "a film as thick as the label means it",
        _spread_mass,
    ),
    Sum(
        "glue-bottles",
        "whole bottles that hold a volume",
        (
            Takes("volume_ml", "glue to have", unit="ml", low=1, high=100_000),
            Takes("bottle_ml", "what one bottle holds", unit="ml", low=20, high=25_000),
        ),
        "",
        Kind.LABEL,
        "volume by the bottle, rounded up",
        "any volume; what is wasted must be in it",
        _bottles,
    ),
    Sum(
        "glue-up-time",
        "time from the first glue to the last clamp for one panel on a frame",
        (
            Takes("joint_mm", "length of the joints", unit="mm", low=100, high=200_000),
            Takes("pairs", "pairs of clamps", low=0, high=100),
            Takes("people", "people who work", low=1, high=10),
        ),
        "min",
        Kind.COMMON_PRACTICE,
        PACE_SOURCE,
        "a film on both faces; of more than four people only four count",
        _glue_up_time,
    ),
)
