"""The deck panels from above: rows of planks, glue lines, end joins, and the line they are cut to later."""

from __future__ import annotations

from typing import Any

from generator.drawings.marks import SPOT, span, spot
from generator.drawings.pen import EDGE, WIDE, Sheet
from generator.drawings.read import shown, value
from generator.drawings.view import View
from generator.figures import Figures

_RIGHT = WIDE - EDGE - 14
_TOP = 58.0
_BETWEEN = 66.0


def planks(figures: Figures) -> str:
    """Both panels as glued up, to scale, tail to the left; one picture if they are laid alike."""
    alike = bool(figures.said["panel.alike"])
    names = ("bottom",) if alike else ("bottom", "top")
    rows = {name: figures.rows["planks" if name == "bottom" else "planks_top"] for name in names}
    first = min(row["start_mm"] for name in names for row in rows[name])
    last = max(row["end_mm"] for name in names for row in rows[name])
    per_mm = (_RIGHT - EDGE) / (last - first)
    sheet = Sheet("planks", title="The deck panels from their planks", words=_words(figures, names))
    top = _TOP
    for name in names:
        heading = "Both panels are laid like this" if alike else f"The {name} panel"
        sheet.note(EDGE, top - 40, heading, "d-small d-bold")
        view = View(EDGE - first * per_mm, top + value(figures, f"panel.{name}.width") * per_mm, per_mm)
        _panel(sheet, figures, name, rows[name], view, top)
        top = view.base + _BETWEEN
    return sheet.svg(_legend(sheet, figures, names, top - _BETWEEN + 40))


def _words(figures: Figures, names: tuple[str, ...]) -> str:
    told = [
        f"The {name} panel: rows of planks side by side, from one side to the other "
        + ", ".join(shown(figures, f"{row['key']}.width") for row in figures.rows[f"panel_{name}"])
        + f" wide; {shown(figures, f'panel.{name}.width')} together."
        for name in names
    ]
    if len(names) == 1:
        told.append("The top panel is laid the same way.")
    return " ".join([*told, "The line that a panel is cut to later lies inside it."])


def _panel(sheet: Sheet, figures: Figures, name: str, rows: tuple[Any, ...], view: View, top: float) -> None:
    long_mm = value(figures, "panel.blank_length")
    left, right = view.x(0), view.x(long_mm)
    words = f"{shown(figures, 'panel.blank_length')} long at least"
    sheet.text((EDGE + _RIGHT) / 2, top - 14, words, anchor="middle")
    span(sheet, (left, top - 8), (right, top - 8))
    for row in rows:
        low = row["from_mm"]
        sheet.box(view.x(row["start_mm"]), view.y(low + row["width_mm"]), view.x(row["end_mm"]), view.y(low), "d-wood")
        for at in row["joints_mm"]:
            x = view.x(at)
            sheet.line(((x, view.y(low)), (x, view.y(low + row["width_mm"]))), "d-heavy")
    _trace(sheet, figures, name, view)
    _numbers(sheet, rows, view)
    span(sheet, (_RIGHT + 9, top), (_RIGHT + 9, view.base))
    sheet.text(WIDE - EDGE, view.base + 17, f"{shown(figures, f'panel.{name}.width')} wide", anchor="end")


def _trace(sheet: Sheet, figures: Figures, name: str, view: View) -> None:
    trace = figures.curves["outline.trace"]
    spare = (value(figures, "panel.blank_length") - (trace.x_mm[-1] - trace.x_mm[0])) / 2
    middle = value(figures, f"panel.{name}.width") / 2
    places = [x - trace.x_mm[0] + spare for x in trace.x_mm]
    upper = view.line(places, [middle + y for y in trace.y])
    lower = view.line(places, [middle - y for y in trace.y])
    sheet.shape(upper + lower[::-1], "d-open d-pencil")


def _numbers(sheet: Sheet, rows: tuple[Any, ...], view: View) -> None:
    """A numbered spot on each row, stepping across the panel so that none hides another."""
    step = (_RIGHT - EDGE - 60) / max(1, len(rows) - 1)
    every = max(1, -(-int(2 * SPOT + 3) // max(1, int(step))))
    for i, row in enumerate(rows):
        if i % every == 0:
            middle = view.y(row["from_mm"] + row["width_mm"] / 2)
            spot(sheet, EDGE + 30 + i * step, middle, str(row["n"]))


def _legend(sheet: Sheet, figures: Figures, names: tuple[str, ...], y: float) -> float:
    sheet.line(((EDGE, y - 4), (EDGE + 24, y - 4)), "d-open d-stroke-wood-deep d-dim")
    lines = " and ".join(shown(figures, f"panel.{name}.glue_lines") for name in names)
    y = sheet.note(38, y, f"Glue lines between the rows: {lines}")
    sheet.line(((EDGE, y - 4), (EDGE + 24, y - 4)), "d-pencil")
    y = sheet.note(38, y, "Where it is traced and cut later, round the frame")
    if figures.said["planks_joined"]:
        sheet.line(((EDGE + 12, y - 9), (EDGE + 12, y + 1)), "d-heavy")
        y = sheet.note(38, y, "Planks joined end to end: joins well apart")
    return sheet.note(EDGE, y, "Drawn to scale, tail to the left.") - 4
