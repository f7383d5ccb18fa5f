"""When the vent is open, and when it is shut."""

from __future__ import annotations

from generator.drawings.marks import SPOT, arrow, right, wrong
from generator.drawings.pen import EDGE, WIDE, Sheet
from generator.drawings.read import shown
from generator.figures import Figures

_LINE = 24.0


def vent_when(figures: Figures) -> str:
    """Two pictures of the vent, with the places under each."""
    car, flight = (shown(figures, f"air.{key}_kpa") for key in ("car", "flight"))
    opened = (
        "at home, in the shed",
        f"in the sun, on a hot car ({car} if shut)",
        f"in an aircraft ({flight} if shut), up a mountain",
        "while it cools in the shade before you go in",
        "while you seal it or mend it",
    )
    shut = ("in the water, once the board is cool", "for the leak test, and only while it lasts")
    sheet = Sheet(
        "vent-when",
        title="When the vent is open",
        words=f"Open: {'; '.join(opened)}. Shut: {'; '.join(shut)}. Never: shut and warm.",
    )
    y = _list(sheet, "Open", opened, 24, is_open=True)
    y = _list(sheet, "Shut", shut, y + 14, is_open=False)
    wrong(sheet, EDGE + SPOT, y + 8)
    sheet.text(EDGE + 2 * SPOT + 6, y + 12, "Never shut and warm.", "d-small d-bold")
    return sheet.svg(y + 30)


def _list(sheet: Sheet, head: str, lines: tuple[str, ...], y: float, *, is_open: bool) -> float:
    """One vent, open or shut, and the lines that belong to it; gives the first free place below."""
    sheet.text(EDGE, y, head, "d-text d-bold")
    _vent(sheet, WIDE - 70, y + 4, is_open=is_open)
    y += 44
    for words in lines:
        right(sheet, EDGE + SPOT, y - 4)
        y = max(sheet.note(EDGE + 2 * SPOT + 6, y, words), y + _LINE - 3) + 4
    return y


def _vent(sheet: Sheet, x: float, y: float, *, is_open: bool) -> None:
    """The deck cut across at the vent; the screw in it or beside it."""
    sheet.box(x - 56, y + 8, x - 7, y + 20, "d-wood")
    sheet.box(x + 7, y + 8, x + 56, y + 20, "d-wood")
    at = x + 34 if is_open else x
    raised = -4.0 if is_open else 8.0
    sheet.box(at - 10, y + raised - 6, at + 10, y + raised, "d-steel")
    sheet.box(at - 5, y + raised, at + 5, y + raised + 10, "d-steel")
    if is_open:
        arrow(sheet, (x, y + 28), (x, y - 8))
