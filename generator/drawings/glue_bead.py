"""The glue in the joint between a rib and the bottom panel, by the method that this builder's glue allows."""

from __future__ import annotations

from generator.drawings.marks import arrow
from generator.drawings.pen import EDGE, WIDE, Sheet
from generator.figures import Figures

_TOP = 30.0
_PANEL_Y = 128.0
_PANEL = 22.0
_RIB = (165.0, 185.0)


def glue_bead(figures: Figures) -> str:
    """Cut across, not to scale: a bead in both corners, or a thin film between the faces."""
    bead = figures.said["glue.method"] == "bead"
    how = (
        "a bead of glue in the corner on each side of the rib, pressed into the corner"
        if bead
        else "a thin even film of glue on both faces before they are closed, with a little squeezed out on both sides"
    )
    sheet = Sheet("glue-bead", title="Where the glue goes", words=f"Cut across a rib and the bottom panel: {how}.")
    sheet.note(EDGE, 18, "Cut across one joint", "d-small d-bold")
    left, right = _RIB
    sheet.box(left, _TOP, right, _PANEL_Y, "d-thing")
    sheet.box(60, _PANEL_Y, 290, _PANEL_Y + _PANEL, "d-wood")
    for x in range(72, 276, 26):
        sheet.line(((x, _PANEL_Y + 8), (x + 12, _PANEL_Y + 10)), "d-grain")
    sheet.line(((40, _PANEL_Y + _PANEL + 5), (310, _PANEL_Y + _PANEL + 5)), "d-level")
    sheet.box(90, _PANEL_Y + _PANEL + 10, 260, _PANEL_Y + _PANEL + 30, "d-table")
    (_bead if bead else _film)(sheet)
    sheet.text((left + right) / 2, _TOP + 24, "rib", anchor="middle")
    sheet.text(EDGE, _PANEL_Y + 15, "panel")
    sheet.text(175, _PANEL_Y + _PANEL + 25, "support", anchor="middle")
    y = _PANEL_Y + _PANEL + 52
    sheet.line(((EDGE, y - 4), (EDGE + 26, y - 4)), "d-level")
    y = sheet.note(40, y, "Parting sheet, so that nothing sticks to the bench")
    return sheet.svg(y - 4)


def _bead(sheet: Sheet) -> None:
    left, right = _RIB
    reach = 17.0
    for x, way in ((left, -1), (right, 1)):
        hollow = [(x + way * reach * (1 - t) ** 2, _PANEL_Y - reach * t**2) for t in (i / 12 for i in range(13))]
        sheet.shape([(x, _PANEL_Y), *hollow], "d-glue")
    arrow(sheet, (96, 78), (left - 9, _PANEL_Y - 8))
    arrow(sheet, (254, 78), (right + 9, _PANEL_Y - 8))
    sheet.note(EDGE, 46, "a bead along the corner, one side …", room=120)
    sheet.note(WIDE - EDGE, 46, "… and the other, no break in it", anchor="end", room=120)


def _film(sheet: Sheet) -> None:
    left, right = _RIB
    sheet.box(left, _PANEL_Y - 3, right, _PANEL_Y, "d-glue")
    for x, way in ((left, -1), (right, 1)):
        bulge = [(x, _PANEL_Y), (x + way * 5, _PANEL_Y), (x + way * 3.5, _PANEL_Y - 3), (x, _PANEL_Y - 4)]
        sheet.shape(bulge, "d-glue")
    arrow(sheet, (96, 78), (left - 1, _PANEL_Y - 4))
    arrow(sheet, (254, 78), (right + 7, _PANEL_Y - 4))
    sheet.note(EDGE, 46, "a thin film on both faces, then closed", room=120)
    sheet.note(WIDE - EDGE, 46, "a little comes out on both sides", anchor="end", room=120)
