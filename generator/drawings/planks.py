"""One deck panel from above: planks side by side, glue lines, and the line it is cut to later."""

from __future__ import annotations

from generator.drawings.marks import SPOT, span, spot
from generator.drawings.pen import EDGE, WIDE, Sheet
from generator.drawings.read import shown, value
from generator.drawings.view import View
from generator.figures import Figures

_RIGHT = WIDE - EDGE - 14
_TOP = 58.0
_CUT_OFF = (0.25, 0.75)
"""Shares of the spare length that the first plank of a row loses, by turns, so that the ends never lie side by side."""


def planks(figures: Figures) -> str:
    """The panel as glued up, to scale, tail to the left; the trace line lies on its middle."""
    long_mm, wide_mm = value(figures, "panel.blank_length"), value(figures, "panel.width")
    per_mm = (_RIGHT - EDGE) / long_mm
    view = View(EDGE, _TOP + wide_mm * per_mm, per_mm)
    rows = figures.rows["planks"]
    sheet = Sheet(
        "planks",
        title="One deck panel from its planks",
        words=f"{len(rows)} planks side by side, each {shown(figures, 'panel.plank_width')} wide, glued edge to edge "
        f"into a panel {shown(figures, 'panel.blank_length')} long and {shown(figures, 'panel.width')} wide. "
        "The line that the panel is cut to later lies inside it.",
    )
    sheet.note(EDGE, 18, "One panel: planks glued edge to edge", "d-small d-bold")
    sheet.text((EDGE + _RIGHT) / 2, _TOP - 14, f"{shown(figures, 'panel.blank_length')} long", anchor="middle")
    span(sheet, (EDGE, _TOP - 8), (_RIGHT, _TOP - 8))
    for row in rows:
        low = row["from_mm"]
        sheet.box(EDGE, view.y(low + row["width_mm"]), _RIGHT, view.y(low), "d-wood")
    _ends(sheet, figures, view)
    _trace(sheet, figures, view)
    _numbers(sheet, figures, view)
    span(sheet, (_RIGHT + 9, _TOP), (_RIGHT + 9, view.base))
    sheet.text(WIDE - EDGE, view.base + 17, f"{shown(figures, 'panel.width')} wide", anchor="end")
    return sheet.svg(_legend(sheet, figures, view.base + 40))


def _ends(sheet: Sheet, figures: Figures, view: View) -> None:
    """Where planks meet end to end, a good way apart in neighbouring rows."""
    if not figures.said["planks_joined"]:
        return
    along, plank_mm = round(value(figures, "panel.planks_along")), value(figures, "panel.plank_length")
    long_mm = value(figures, "panel.blank_length")
    spare_mm = along * plank_mm - long_mm
    for i, row in enumerate(figures.rows["planks"]):
        cut_mm = spare_mm * _CUT_OFF[i % len(_CUT_OFF)]
        for x in (view.x(k * plank_mm - cut_mm) for k in range(1, along + 1) if k * plank_mm - cut_mm < long_mm - 1):
            sheet.line(((x, view.y(row["from_mm"])), (x, view.y(row["from_mm"] + row["width_mm"]))), "d-heavy")


def _trace(sheet: Sheet, figures: Figures, view: View) -> None:
    trace = figures.curves["outline.trace"]
    spare = (value(figures, "panel.blank_length") - (trace.x_mm[-1] - trace.x_mm[0])) / 2
    middle = value(figures, "panel.width") / 2
    places = [x - trace.x_mm[0] + spare for x in trace.x_mm]
    upper = view.line(places, [middle + y for y in trace.y])
    lower = view.line(places, [middle - y for y in trace.y])
    sheet.shape(upper + lower[::-1], "d-open d-pencil")


def _numbers(sheet: Sheet, figures: Figures, view: View) -> None:
    """A numbered spot on each plank, stepping across the panel so that none hides another."""
    rows = figures.rows["planks"]
    step = (_RIGHT - EDGE - 60) / max(1, len(rows) - 1)
    every = max(1, -(-int(2 * SPOT + 3) // max(1, int(step))))
    for i, row in enumerate(rows):
        if i % every == 0:
            middle = view.y(row["from_mm"] + row["width_mm"] / 2)
            spot(sheet, EDGE + 30 + i * step, middle, str(row["n"]))


def _legend(sheet: Sheet, figures: Figures, y: float) -> float:
    sheet.line(((EDGE, y - 4), (EDGE + 24, y - 4)), "d-open d-stroke-wood-deep d-dim")
    widths = f"{shown(figures, 'panel.plank_width')} a plank"
    y = sheet.note(38, y, f"Glue line, {shown(figures, 'panel.glue_lines')} of them; {widths}")
    sheet.line(((EDGE, y - 4), (EDGE + 24, y - 4)), "d-pencil")
    y = sheet.note(38, y, "Where it is traced and cut later, round the frame")
    if figures.said["planks_joined"]:
        sheet.line(((EDGE + 12, y - 9), (EDGE + 12, y + 1)), "d-heavy")
        y = sheet.note(38, y, "Planks joined end to end: joints well apart")
    return sheet.note(EDGE, y, "Drawn to scale, tail to the left.") - 4
