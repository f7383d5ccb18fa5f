"""The plan of the whole build: a line for each stage, days of work thick, days of waiting thin."""

from __future__ import annotations

from generator.drawings import lettering
from generator.drawings.pen import EDGE, WIDE, Sheet
from generator.figures import Figures

_LEFT, _RIGHT = 100.0, WIDE - EDGE
_TOP, _ROW, _BAR = 58.0, 21.0, 11.0
_LEAST = 2.4
"""Least width of a day of work, so that it is seen in a plan of many months."""


def plan_strip(figures: Figures) -> str:
    """Stages from top to bottom, days from left to right, months along the top."""
    rows = [row for row in figures.rows["plan"] if not row["done"]]
    dated = [row for row in rows if row["dated"]]
    last = max([max(row["days"]) for row in dated] + [until for row in dated for _, until in row["waits"]])
    scale = (_RIGHT - _LEFT) / (last + 1)
    bottom = _TOP + _ROW * len(rows)
    sheet = Sheet(
        "plan-strip",
        title="Your plan",
        words=" ".join(f"{row['short']}: {row['dates'] if row['dated'] else 'no date yet'}." for row in rows),
    )
    sheet.text(EDGE, 18, "Your plan", "d-text d-bold")
    _legend(sheet)
    _months(sheet, figures, scale, bottom)
    for n, row in enumerate(rows):
        top = _TOP + _ROW * n + (_ROW - _BAR) / 2
        sheet.text(EDGE, top + _BAR - 1.5, str(row["short"]), "d-small d-bold" if row["here"] else "d-small")
        if not row["dated"]:
            sheet.text(_LEFT + 4, top + _BAR - 1.5, "no date yet", "d-small d-over")
            continue
        for begins, until in row["waits"]:
            sheet.box(_at(begins, scale), top + 2, _at(until + 1, scale), top + _BAR - 2, "d-fill-wood")
        for day in row["days"]:
            left = _at(day, scale)
            sheet.box(left, top, min(left + max(scale, _LEAST), _RIGHT), top + _BAR, "d-fill-sea")
    return sheet.svg(bottom + 8)


def _at(day: float, scale: float) -> float:
    return _LEFT + day * scale


def _legend(sheet: Sheet) -> None:
    sheet.box(_LEFT, 10, _LEFT + 14, 19, "d-fill-sea")
    sheet.text(_LEFT + 19, 19, "you work")
    sheet.box(_LEFT + 96, 11, _LEFT + 110, 18, "d-fill-wood")
    sheet.text(_LEFT + 115, 19, "you wait")


def _months(sheet: Sheet, figures: Figures, scale: float, bottom: float) -> None:
    """A line at the first of each month; its name where there is room for it."""
    free = 0.0
    for month in figures.rows["plan_months"]:
        x = _at(month["day"], scale)
        if month["day"]:
            sheet.line([(x, _TOP - 6), (x, bottom)], "d-hair")
        name = str(month["name"])
        if x >= free and x + lettering.width(name) <= _RIGHT:
            sheet.text(x + 2, _TOP - 8, name)
            free = x + 2 + lettering.width(name) + 6
