"""Sums of the finish."""

from __future__ import annotations

from generator.build.finish_use import cans, finish_volume_ml
from generator.figures import Kind
from generator.sums.glue import whole
from generator.sums.sum_type import Answer, Sum, Takes, Typed


def _finish_volume(typed: Typed) -> Answer:
    amount = finish_volume_ml(
        area_mm2=typed.numbers["area_m2"] * 1e6,
        coverage_m2_l=typed.numbers["coverage_m2_l"],
        coats=whole(typed, "coats"),
    )
    return Answer(amount.value, amount.low, amount.high)


def _finish_cans(typed: Typed) -> Answer:
    return Answer.exact(cans(volume_ml=typed.numbers["volume_ml"], can_l=typed.numbers["can_ml"] / 1000))


SUMS: tuple[Sum, ...] = (
    Sum(
        "finish-volume",
        "oil, varnish or resin for all coats; at the least by the label alone, with up to 30 % for brush and pot",
        (
            Takes("area_m2", "area to be coated", unit="m2", low=0.01, high=100),
            Takes("coverage_m2_l", "area that a litre covers, by the label", unit="m2/l", low=1, high=40),
            Takes("coats", "number of coats", low=1, high=12),
        ),
        "ml",
        Kind.COMMON_PRACTICE,
        "area by coverage, times coats; what is wasted: common practice",
        "a coverage that the label gives for bare wood",
        _finish_volume,
    ),
    Sum(
        "finish-cans",
        "whole cans that hold a volume",
        (
            Takes("volume_ml", "finish to have", unit="ml", low=1, high=100_000),
            Takes("can_ml", "what one can holds", unit="ml", low=50, high=25_000),
        ),
        "",
        Kind.LABEL,
        "volume by the can, rounded up",
        "any volume; what is wasted must be in it",
        _finish_cans,
    ),
)
