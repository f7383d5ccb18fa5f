"""The top panel over the crown, cut across: flat as it comes, and rolled down to the rims."""

from __future__ import annotations

import numpy as np

from generator.drawings.marks import arrow, span
from generator.drawings.pen import EDGE, WIDE, Point, Sheet
from generator.drawings.read import shown, value
from generator.figures import Figures

_TIMES = 2.0
_TOP = 54.0


def deck_rolled(figures: Figures) -> str:
    """One rib cut across, the one with the tightest crown; heights twice too large."""
    rib = f"frame.rib.{round(value(figures, 'crown.worst_rib'))}"
    half, deep = value(figures, f"{rib}.half_width"), value(figures, f"{rib}.depth_centre")
    drop = max(deep - value(figures, f"{rib}.depth_edge"), 0.0)
    flat = bool(figures.said["crown.flat"])
    how = "The deck is flat across." if flat else f"It falls {shown(figures, 'crown.drop')} from the middle to the rim."
    sheet = Sheet(
        "deck-rolled",
        title="The panel rolled over the crown",
        words=f"One rib cut across. The panel lies flat on its middle at first; clamps pull its rims down. {how}",
    )
    sheet.note(EDGE, 18, "Cut across; heights twice too large", "d-small d-bold")
    per_mm = (WIDE - 2 * EDGE - 64) / (2 * half)
    tall = per_mm * _TIMES
    thick = max(3.5, value(figures, "panel.thickness") * tall)
    middle, top = WIDE / 2, _TOP + thick
    left, right = middle - half * per_mm, middle + half * per_mm

    def deck(lift: float) -> list[Point]:
        return [(middle + a * half * per_mm, top + drop * tall * a * a - lift) for a in np.linspace(-1, 1, 41)]

    low = top + max(deep * tall, drop * tall + 12)
    sheet.shape([*deck(0), (right, low), (left, low)], "d-thing")
    sheet.box(left - 6, low, right + 6, low + thick, "d-wood")
    sheet.shape([*deck(0), *deck(thick)[::-1]], "d-wood")
    if not flat:
        sheet.line(((left, top - thick), (right, top - thick)), "d-hidden")
        sheet.line(((left, top), (right, top)), "d-hidden")
        for x in (left, right):
            arrow(sheet, (x, top - thick - 22), (x, top - thick - 4))
        span(sheet, (left - 14, top), (left - 14, top + drop * tall))
    sheet.text(middle, low - 8, "rib", anchor="middle")
    y = low + thick + 22
    if flat:
        return sheet.svg(sheet.note(EDGE, y, "Flat across: nothing to roll.") + 2)
    y = sheet.note(EDGE, y, "Broken line: flat at first, then pulled down at both rims.") + 2
    y = sheet.note(EDGE, y, f"At the left: it falls {shown(figures, 'crown.drop')} to the rim.") + 2
    y = sheet.note(EDGE, y, f"Radius of the crown here: {shown(figures, 'crown.radius')}")
    return sheet.svg(y - 4)
