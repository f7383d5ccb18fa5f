"""The top panel laid on, clamped over the whole thickness, with weights over the spine."""

from __future__ import annotations

from generator.drawings.marks import span
from generator.drawings.pen import EDGE, Sheet
from generator.drawings.read import shown
from generator.figures import Figures

_SPINE, _RIM = 60.0, 236.0
_TOP = 78.0
_FALL = 10.0
_PANEL = 9.0
_DEEP = 66.0
_PAD = 8.0


def top_clamp(figures: Figures) -> str:
    """Half of the board cut across, not to scale."""
    opening = shown(figures, "top.clamp_opening")
    sheet = Sheet(
        "top-clamp",
        title="A clamp over the whole thickness",
        words="Half of the board cut across. A batten with a weight presses the top panel on the spine. At the rim a "
        f"clamp reaches over both panels, with a pad above and below; it opens {opening} or more.",
    )
    sheet.note(EDGE, 18, "Half of the board cut across, not to scale", "d-small d-bold")
    top, rim_top, low = _TOP, _TOP + _FALL, _TOP + _PANEL + _DEEP
    reach = _RIM + 14
    sheet.shape(((EDGE, top + _PANEL), (_RIM, rim_top + _PANEL), (_RIM, low), (EDGE, low)), "d-thing")
    sheet.box(_SPINE - 4, top + _PANEL + 1, _SPINE + 4, low, "d-wood")
    sheet.box(_RIM - 6, rim_top + _PANEL, _RIM, low, "d-wood")
    sheet.shape(((EDGE, top), (reach, rim_top), (reach, rim_top + _PANEL), (EDGE, top + _PANEL)), "d-wood")
    sheet.box(EDGE, low, reach, low + _PANEL, "d-wood")
    sheet.box(_SPINE - 14, top - 9, _SPINE + 14, top + 1, "d-pad")
    sheet.box(_SPINE - 26, top - 37, _SPINE + 26, top - 9, "d-thing", round_by=3)
    sheet.text(_SPINE, top - 19, "weight", anchor="middle")
    pad_top, pad_low = rim_top - _PAD - 0.5, low + _PANEL + _PAD
    sheet.box(_RIM - 26, pad_top, _RIM + 6, rim_top - 0.5, "d-pad")
    sheet.box(_RIM - 26, low + _PANEL, _RIM + 6, pad_low, "d-pad")
    bar = reach + 10
    sheet.box(_RIM - 20, pad_top - 9, bar + 8, pad_top, "d-steel", round_by=2)
    sheet.box(bar, pad_top - 9, bar + 8, pad_low + 46, "d-steel", round_by=2)
    sheet.box(_RIM - 20, pad_low + 8, bar + 8, pad_low + 17, "d-steel", round_by=2)
    sheet.box(_RIM - 14, pad_low, _RIM - 4, pad_low + 3, "d-steel")
    sheet.box(_RIM - 11, pad_low + 3, _RIM - 7, pad_low + 40, "d-steel")
    span(sheet, (bar + 18, pad_top), (bar + 18, pad_low))
    y = (pad_top + pad_low) / 2 - 10
    for words in ("opens", opening, "or more"):
        y = sheet.note(bar + 26, y, words)
    sheet.note(140, top - 26, "top panel", anchor="middle", room=100)
    sheet.text(150, (top + low) / 2 + 12, "rib", anchor="middle")
    sheet.text(_SPINE + 10, (top + low) / 2 + 12, "spine")
    sheet.text(EDGE, low + _PANEL + 16, "bottom panel")
    y = sheet.note(EDGE, low + _PANEL + 72, "Parting sheet under every pad and every batten.")
    return sheet.svg(y - 4)
