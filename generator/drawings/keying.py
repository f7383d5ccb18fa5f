"""Scratching the glue faces: both ways, no shiny patch left."""

from __future__ import annotations

from generator.drawings.marks import arrow, right, wrong
from generator.drawings.pen import EDGE, WIDE, Sheet
from generator.figures import Figures

_LEFT = (EDGE, 168.0)
_RIGHT = (182.0, WIDE - EDGE)
_TOP = 44.0
_BASE = 116.0


def keying(figures: Figures) -> str:
    """A piece of a glue face before its glue: left as it should be, right not ready."""
    sheet = Sheet(
        "keying",
        title="What a keyed face looks like",
        words="A keyed face is dull all over, with fine scratches in both slanting directions. A face with shiny "
        "patches is not ready.",
    )
    right(sheet, _LEFT[0] + 10, 20)
    sheet.text(_LEFT[0] + 28, 24, "ready: dull all over", "d-small d-bold")
    wrong(sheet, _RIGHT[0] + 10, 20)
    sheet.text(_RIGHT[0] + 28, 24, "not yet", "d-small d-bold")
    for left, end in (_LEFT, _RIGHT):
        sheet.box(left, _TOP, end, _BASE, "d-wood")
        _scratches(sheet, left, end)
    for left, end in ((214, 252), (286, 322)):
        sheet.box(left, _TOP + 14, end, _BASE - 14, "d-shine", round_by=10)
        for x in (left + 10, left + 19):
            sheet.line(((x, _BASE - 26), (x + 9, _TOP + 26)), "d-glint")
    arrow(sheet, (30, _BASE + 32), (60, _BASE + 8))
    arrow(sheet, (144, _BASE + 32), (114, _BASE + 8))
    sheet.note((_LEFT[0] + _LEFT[1]) / 2, _BASE + 48, "slanting one way, then the other", anchor="middle", room=158)
    arrow(sheet, (258, _BASE + 32), (238, _BASE - 20))
    sheet.note((_RIGHT[0] + _RIGHT[1]) / 2, _BASE + 48, "shiny patch: the glue lets go here", anchor="middle", room=158)
    return sheet.svg(_BASE + 76)


def _scratches(sheet: Sheet, left: float, end: float) -> None:
    """Fine lines in both slanting directions."""
    tall = _BASE - _TOP
    for way in (1, -1):
        x = left - tall
        while x < end:
            start, stop = max(left + 2, x), min(end - 2, x + tall)
            if stop - start > 6:
                ys = [_BASE - (p - x) if way > 0 else _TOP + (p - x) for p in (start, stop)]
                sheet.line(((start, ys[0]), (stop, ys[1])), "d-grain")
            x += 7
