"""Figures of the finish: how much, how many cans, when each coat goes on."""

from __future__ import annotations

from generator.build.finish_use import Coat, cans, coat_volume_ml, finish_part, finish_volume_ml, planned_coats
from generator.build.solids import surface_area_mm2
from generator.figure_sets.facts import Facts
from generator.figure_sets.planned import long_date
from generator.figures import FigureBook, Kind
from generator.inputs.builder import Finish

LABEL = "As the finish's label says; typed into the builder's file."
SUM_KINDS = (Kind.MAKER, Kind.LABEL)
PRACTICE = Kind.COMMON_PRACTICE


def add_finish(book: FigureBook, facts: Facts) -> None:
    """The outside's area always; all the rest once the file names a finish."""
    finish = facts.inputs.builder.finish
    area = surface_area_mm2(facts.body)
    book.add(
        "finish.area", area / 1e6, "m2", "outside of the finished board", kind=Kind.MAKER, step=0.01,
        how="Bottom, deck and rails, along their curves.",
    )  # fmt: skip
    book.said |= {"finish.known": finish is not None, "finish.type": finish.type if finish else ""}
    book.rows["coats"] = ()
    if finish is not None:
        _label(book, finish, facts)
        _amounts(book, finish, area)
        _coats(book, facts, finish)


def _label(book: FigureBook, finish: Finish, facts: Facts) -> None:
    shed = facts.inputs.builder.shed
    for key, value, unit, label, step in (
        ("coats", finish.coats, "", "coats of finish", 1.0),
        ("coverage", finish.coverage_m2_l, "m2/L", "area that your finish covers", 0.1),
        ("can", 1000 * finish.can_l, "ml", "size of your can of finish", 1.0),
        ("recoat_after", finish.recoat_after_min, "min", "earliest next coat", 1.0),
        ("recoat_before", finish.recoat_before_min, "min", "latest next coat", 1.0),
        ("full_cure", finish.full_cure_min, "min", "full cure of your finish", 1.0),
        ("lowest", finish.lowest_c, "°C", "lowest temperature for your finish", 1.0),
    ):
        if value is not None:
            book.add(f"finish.{key}", value, unit, label, how=LABEL, kind=Kind.LABEL, step=step)
    book.add(
        "finish.night_margin", shed.night_low_c - finish.lowest_c, "°C difference",
        "night's low above the finish's lowest", kind=[Kind.LABEL, Kind.MEASURED],
        how="Your shed's lowest at night less the finish's lowest temperature; below zero is too cold.",
    )  # fmt: skip
    book.said |= {
        "finish.name": finish.name,
        "finish.has_latest": finish.recoat_before_min is not None,
        "finish.night_ok": shed.night_low_c >= finish.lowest_c,
        "finish.day_ok": shed.temperature_c >= finish.lowest_c,
    }


def _amounts(book: FigureBook, finish: Finish, area_mm2: float) -> None:
    whole = finish_volume_ml(area_mm2=area_mm2, coverage_m2_l=finish.coverage_m2_l, coats=finish.coats)
    book.add(
        "finish.per_coat", coat_volume_ml(area_mm2=area_mm2, coverage_m2_l=finish.coverage_m2_l), "ml",
        "finish for one coat", how="Outside of the board by the area that a litre covers.", kind=SUM_KINDS, step=5,
    )  # fmt: skip
    book.add(
        "finish.volume", whole.value, "ml", "finish for all coats", low=whole.low, high=whole.high, step=10,
        how="One coat times the coats, and what stays in brush, rag and pot.", kind=[*SUM_KINDS, PRACTICE],
    )  # fmt: skip
    book.add(
        "finish.cans", cans(volume_ml=whole.high, can_l=finish.can_l), "", "cans of finish to buy",
        how="The most that all coats may take, in whole cans of your size.", kind=[*SUM_KINDS, PRACTICE],
    )  # fmt: skip
    part = finish_part(area_mm2=area_mm2, finish=finish, from_tail_mm=0.0)
    if part is not None:
        book.add(
            "finish.stays", part.kg, "kg", "finish that stays on the board", low=part.low_kg, high=part.high_kg,
            how="All coats, less the solvent that leaves.", kind=[*SUM_KINDS, Kind.ASSUMED],
            source="share that stays: from memory", step=0.05,
        )  # fmt: skip


def _coats(book: FigureBook, facts: Facts, finish: Finish) -> None:
    """The coats as the plan has them: date, time since the one before, and what has to be done first."""
    coats = planned_coats(facts.evenings, before_min=finish.recoat_before_min)
    rows = []
    for coat in coats:
        key = f"finish.coat.{coat.number}"
        if coat.number > 1:
            book.add(
                f"{key}.gap", coat.gap_min, "min", f"time between coats {coat.number - 1} and {coat.number}",
                how="Coats laid into your free time.", kind=[Kind.LABEL, Kind.MEASURED, PRACTICE],
            )  # fmt: skip
        rows.append(_row(coat, key))
    book.rows["coats"] = tuple(rows)
    book.said |= {
        "finish.planned": bool(coats),
        "finish.too_late": [coat.number for coat in coats if coat.too_late],
        "finish.by_day": any(coat.sitting.whole_day for coat in coats),
        "finish.water_from": long_date(coats[-1].sitting.over.date()) if coats else "",
    }


def _row(coat: Coat, key: str) -> dict[str, object]:
    return {
        "n": coat.number,
        "key": key,
        "date": long_date(coat.sitting.begins.date()),
        "first": coat.number == 1,
        "too_late": coat.too_late,
        "whole_day": coat.sitting.whole_day,
    }
