"""The jigsaw at the table's edge, seen along the cut."""

from __future__ import annotations

from generator.drawings.marks import arrow, right, wrong
from generator.drawings.pen import EDGE, WIDE, Sheet
from generator.figures import Figures

_PANEL = 9.0
_TABLE = 15.0
_BATTEN = 11.0
_TOP_Y = 132.0
_MISTAKES_Y = 232.0


def jigsaw(figures: Figures) -> str:
    """Not to scale: what lies flat, what must be clear, and the two ways it goes wrong."""
    sheet = Sheet(
        "jigsaw",
        title="Jigsaw at the table's edge",
        words="The panel is clamped to the table with the cut past the table's edge. "
        + ("Battens under the panel end just short of the cut. " if figures.said["cut.way"] == "battens" else "")
        + "The saw's base lies flat on the panel; the blade runs free below. A panel that overhangs far bends and "
        "shakes, and a tilted base cuts a slanted edge.",
    )
    right(sheet, EDGE + 10, 16)
    sheet.text(EDGE + 28, 20, "Seen along the cut", "d-small d-bold")
    _good(sheet, _TOP_Y, battens=figures.said["cut.way"] == "battens")
    sheet.line(((EDGE, _MISTAKES_Y - 16), (WIDE - EDGE, _MISTAKES_Y - 16)), "d-hair")
    _far_out(sheet, EDGE, _MISTAKES_Y)
    _tilted(sheet, 190.0, _MISTAKES_Y)
    return sheet.svg(_MISTAKES_Y + 152)


def _good(sheet: Sheet, table: float, *, battens: bool) -> None:
    """Panel clamped, base flat, blade past the table's edge; battens carry a panel that needs it nearly to the cut."""
    y = table - (_BATTEN if battens else 0.0)
    _table(sheet, EDGE, 150 if battens else 182, table)
    if battens:
        sheet.box(EDGE, y, 190, table, "d-pad")
    sheet.box(EDGE, y - _PANEL, 262, y, "d-wood")
    _saw(sheet, 200, y - _PANEL)
    _clamp(sheet, 66, y, table)
    sheet.text(12, table + 34, "table")
    sheet.text(66, y - 46, "panel clamped", anchor="middle")
    arrow(sheet, (264, y - 36), (231, y - _PANEL - 4))
    sheet.note(WIDE - EDGE, y - 62, "base flat on the panel", anchor="end", room=88)
    if battens:
        arrow(sheet, (246, table + 34), (208, table + 20))
        sheet.note(250, table + 30, "blade in free air all the way down", room=94)
        arrow(sheet, (146, table + 42), (180, table - 2))
        sheet.note(156, table + 56, "batten, its end just short of the line", anchor="end", room=144)
        return
    arrow(sheet, (246, y + 38), (208, y + 28))
    sheet.note(250, y + 34, "blade in free air all the way down", room=94)
    arrow(sheet, (136, y + 42), (181, y + 6))
    sheet.note(146, y + 56, "cut close to the table's edge", anchor="end", room=110)


def _table(sheet: Sheet, left: float, edge: float, y: float) -> None:
    sheet.box(left, y, edge, y + _TABLE, "d-table")
    sheet.line(((left, y), (edge, y), (edge, y + _TABLE), (left, y + _TABLE)), "d-line")


def _clamp(sheet: Sheet, x: float, y: float, table: float) -> None:
    """A clamp holding panel and table together, seen along its jaws."""
    top, under = y - _PANEL, table + _TABLE
    sheet.box(x - 11, top - 6, x + 11, top, "d-steel", round_by=2)
    sheet.box(x - 4, top - 30, x + 4, top - 6, "d-steel")
    sheet.box(x - 11, under, x + 11, under + 6, "d-steel", round_by=2)


def _saw(sheet: Sheet, blade: float, y: float) -> None:
    """A jigsaw from the front: body, base flat at `y`, blade going down past it."""
    tip = ((blade - 2, y - 6), (blade - 2, y + 48), (blade + 1, y + 54), (blade + 3, y + 48), (blade + 3, y - 6))
    sheet.shape(tip, "d-steel")
    sheet.box(blade - 28, y - 5, blade + 28, y, "d-steel", round_by=1)
    sheet.box(blade - 11, y - 20, blade + 12, y - 5, "d-thing", round_by=2)
    sheet.box(blade - 17, y - 84, blade + 18, y - 18, "d-thing", round_by=9)
    sheet.line(((blade - 8, y - 66), (blade + 9, y - 66)), "d-line")
    sheet.line(((blade - 8, y - 59), (blade + 9, y - 59)), "d-line")


def _far_out(sheet: Sheet, left: float, y: float) -> None:
    """The panel hangs far past the table and bends under the saw."""
    wrong(sheet, left + 10, y + 6)
    base = y + 74
    _table(sheet, left, left + 38, base)
    bent = [(left + 12 * i, base + 0.32 * max(0, i - 3) ** 1.9) for i in range(13)]
    sheet.line(((left + 113, base + 8), (left + 113, base + 36)), "d-cut")
    sheet.shape([*bent, *((x, p - 6) for x, p in bent[::-1])], "d-wood")
    sheet.box(left + 102, base - 38, left + 124, base + 2, "d-thing", round_by=5)
    sheet.note(left, base + 56, "Far past the edge: it bends and shakes", room=164)


def _tilted(sheet: Sheet, left: float, y: float) -> None:
    """The base does not lie flat, so the blade stands askew."""
    wrong(sheet, left + 10, y + 6)
    base = y + 74
    _table(sheet, left, left + 66, base)
    sheet.box(left, base - 6, left + 140, base, "d-wood")
    lean = 0.22

    def turned(x: float, up: float) -> tuple[float, float]:
        return left + 72 + x - lean * up, base - 6 + lean * -x - up

    sheet.line((turned(22, 0), turned(22, -44)), "d-cut")
    sheet.shape((turned(0, 0), turned(44, 0), turned(44, 5), turned(0, 5)), "d-steel")
    sheet.shape((turned(11, 5), turned(33, 5), turned(33, 46), turned(11, 46)), "d-thing")
    sheet.note(left, base + 56, "Base tilted: the edge comes out slanted", room=154)
