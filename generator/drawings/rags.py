"""What to do with oily rags: flat in the open air or under water, never in a heap."""

from __future__ import annotations

from generator.drawings.marks import right, wrong
from generator.drawings.pen import EDGE, WIDE, Sheet
from generator.figures import Figures

_GROUND = 128.0
_COLUMNS = (EDGE, 122.0, 238.0, WIDE)


def rags(figures: Figures) -> str:
    """Three pictures: rags flat outdoors, a rag under water in a tin with a lid, rags in a heap."""
    sheet = Sheet(
        "rags",
        title="What to do with oily rags",
        words="Right: rags laid flat in one layer outdoors, or under water in a metal tin with a lid. Wrong: rags in a "
        "heap, which heats itself.",
    )
    for left, good, words in zip(
        _COLUMNS, (True, True, False), ("laid flat", "under water", "in a heap"), strict=False
    ):
        (right if good else wrong)(sheet, left + 10, 18)
        sheet.text(left + 25, 22, words, "d-small d-bold")
    sheet.line(((EDGE, _GROUND), (112, _GROUND)), "d-heavy")
    for x in (12.0, 62.0):
        _flat(sheet, x)
    _tin(sheet, 140.0, 214.0)
    _heap(sheet, 248.0)
    sheet.note(EDGE, _GROUND + 20, "outdoors, in one layer", room=106)
    sheet.note(122, _GROUND + 20, "metal tin, with its lid on", room=106)
    sheet.note(238, _GROUND + 20, "heats itself, can burn", room=106)
    return sheet.svg(_GROUND + 44)


def _flat(sheet: Sheet, x: float) -> None:
    top = [(x + 44 * i / 8, _GROUND - (4 if i % 2 else 6)) for i in range(9)]
    sheet.shape([(x, _GROUND - 1), *top, (x + 44, _GROUND - 1)], "d-wood")


def _tin(sheet: Sheet, left: float, end: float) -> None:
    top = 62.0
    sheet.box(left, top, end, _GROUND, "d-paper")
    sheet.box(left + 2, top + 14, end - 2, _GROUND - 2, "d-fill-sea")
    folds = [(left + 14 + 46 * i / 6, _GROUND - (16 if i % 2 else 22)) for i in range(7)]
    sheet.shape([(left + 14, _GROUND - 5), *folds, (left + 60, _GROUND - 5)], "d-wood")
    sheet.box(left - 4, top - 7, end + 4, top, "d-steel", round_by=2)


def _heap(sheet: Sheet, x: float) -> None:
    sheet.line(((x - 8, _GROUND), (WIDE - EDGE, _GROUND)), "d-heavy")
    outline = [(0, 0), (6, -22), (16, -18), (24, -40), (36, -34), (46, -52), (58, -36), (68, -40), (76, -18), (88, 0)]
    sheet.shape([(x + dx, _GROUND - 1 + dy) for dx, dy in outline], "d-wood")
    for dx in (22.0, 44.0, 66.0):
        smoke = [(x + dx + 4 * (-1) ** i, _GROUND - 60 - 7 * i) for i in range(4)]
        sheet.line(smoke, "d-open d-dim d-stroke-warn")
