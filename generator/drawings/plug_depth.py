"""A hole for a plug, cut across: how deep the drill may go, and what must stay below it."""

from __future__ import annotations

from generator.drawings.marks import span
from generator.drawings.pen import EDGE, WIDE, Sheet
from generator.drawings.read import shown, value
from generator.figures import Figures

_DECK = 92.0
_LEFT, _RIGHT = 92.0, 226.0


def plug_depth(figures: Figures) -> str:
    """The leash plug's hole, depths to scale."""
    stop, left = shown(figures, "fin.leash.stop"), shown(figures, "fin.left")
    sheet = Sheet(
        "plug-depth",
        title="How deep to drill",
        words=f"Cut across the leash plug's block. The hole ends {stop} below the deck; {left} of the block stay under "
        "it. A strip of tape round the drill marks the depth.",
    )
    sheet.note(EDGE, 18, "Cut across the leash plug's block, depths to scale", "d-small d-bold")
    panel, block = value(figures, "panel.thickness"), value(figures, "fin.leash.block_depth")
    per_mm = min(3.0, 110 / (2 * panel + block))
    under = _DECK + panel * per_mm
    low = under + block * per_mm
    deep = _DECK + value(figures, "fin.leash.stop") * per_mm
    hole = max(24.0, value(figures, "fin.leash.hole") * per_mm * 0.6)
    middle = (_LEFT + _RIGHT) / 2
    sheet.box(EDGE + 44, _DECK, WIDE - EDGE - 60, under, "d-wood")
    sheet.box(EDGE + 44, low, WIDE - EDGE - 60, low + panel * per_mm, "d-wood")
    sheet.box(_LEFT, under, _RIGHT, low, "d-thing")
    sheet.box(middle - hole / 2, _DECK, middle + hole / 2, deep, "d-paper")
    sheet.box(middle - 7, 46, middle + 7, deep - 1, "d-steel")
    sheet.box(middle - 9, _DECK - 13, middle + 9, _DECK, "d-glue")
    sheet.note(middle + 22, _DECK - 14, "tape at the drill", room=110)
    span(sheet, (_LEFT - 26, _DECK), (_LEFT - 26, deep))
    sheet.note(_LEFT - 34, (_DECK + deep) / 2 + 4, stop, anchor="end", room=50)
    x = _RIGHT + 12
    span(sheet, (x, deep), (x, low))
    sheet.note(x + 12, (deep + low) / 2 + 4, f"{left} stay", room=WIDE - EDGE - x - 12)
    sheet.text(_LEFT + 8, low - 6, "block")
    y = low + panel * per_mm + 20
    y = sheet.note(EDGE, y, "Bottom panel below: the drill must never reach it.")
    return sheet.svg(y - 4)
