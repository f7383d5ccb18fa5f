"""The order in which the rim clamps go on, and one clamp cut across."""

from __future__ import annotations

import math
from collections.abc import Sequence

from generator.drawings.lettering import spread
from generator.drawings.marks import SPOT, span, spot
from generator.drawings.pen import EDGE, WIDE, Sheet
from generator.drawings.read import shown, value
from generator.drawings.view import View
from generator.figures import Figures, Row

_TOP = 30.0
_APART = 15.0
_SECTION_PER_MM = 0.62
_SIZE = 2 * SPOT + 1.5
_ROW = 2 * SPOT + 3
_LOW, _HIGH = EDGE - 4, WIDE - EDGE + 4


def _rows_of(pairs: int) -> int:
    """Rows that the numbers take on each side: one, or more where they do not fit side by side."""
    return max(1, math.ceil(pairs * _SIZE / (_HIGH - _LOW)))


def clamps(figures: Figures) -> str:
    """From above, to scale: a number at each pair; then a clamp on the rim with its opening and what hangs below."""
    pairs = figures.rows["clamp_pairs"]
    sheet = Sheet(
        "clamps",
        title="The order of the clamps",
        words=f"{len(pairs)} pairs of clamps, one each side, put on from the middle outwards, in this order of ribs: "
        + ", ".join(str(row["rib"]) for row in sorted(pairs, key=lambda row: row["order"]))
        + f". A clamp opens {shown(figures, 'clamp.opening_needed')}; yours hang {shown(figures, 'clamp.hang')} below "
        "the panel."
        if pairs
        else f"No pair of clamps fits. A clamp has to open {shown(figures, 'clamp.opening_needed')}.",
    )
    sheet.note(EDGE, 18, "Clamps in pairs, in this order; tail on the left", "d-small d-bold")
    outline = figures.curves["outline.frame"]
    per_mm = (WIDE - 2 * EDGE) / value(figures, "board.length")
    half = max(outline.y) * per_mm
    tall = _rows_of(len(pairs)) * _ROW
    view = View(EDGE, _TOP + tall + _APART + half, per_mm)
    upper = view.line(outline.x_mm, outline.y)
    sheet.shape(upper + view.line(outline.x_mm, [-y for y in outline.y])[::-1], "d-wood")
    sheet.line(view.line((outline.x_mm[0], outline.x_mm[-1]), (0, 0)), "d-line")
    _pairs(sheet, figures, view, half)
    y = _legend(sheet, figures, view.base + half + _APART + tall + 22)
    return sheet.svg(_section(sheet, figures, y + 12))


def _pairs(sheet: Sheet, figures: Figures, view: View, half: float) -> None:
    """A line a rib; at clamped ribs a clamp at each end and the order beside it."""
    ribs = {row["n"]: row["key"] for row in figures.rows["ribs"]}
    for key in ribs.values():
        x, reach = value(figures, f"{key}.from_tail"), value(figures, f"{key}.half_width")
        sheet.line(view.line((x, x), (-reach, reach)), "d-line")
    pairs = sorted(figures.rows["clamp_pairs"], key=lambda row: value(figures, f"{ribs[row['rib']]}.from_tail"))
    rows = _rows_of(len(pairs))
    for number in range(rows):
        _row_of_numbers(sheet, figures, view, half + number * _ROW, pairs[number::rows])


def _row_of_numbers(sheet: Sheet, figures: Figures, view: View, half: float, pairs: Sequence[Row]) -> None:
    ribs = {row["n"]: row["key"] for row in figures.rows["ribs"]}
    past = set(figures.said["hangs_past"])
    places = [view.x(value(figures, f"{ribs[row['rib']]}.from_tail")) for row in pairs]
    middles = spread(places, [_SIZE] * len(places), low=_LOW, high=_HIGH)
    for row, x, middle in zip(pairs, places, middles, strict=True):
        reach = value(figures, f"{ribs[row['rib']]}.half_width") * view.per_mm
        look = "d-spot-warn" if row["rib"] in past else "d-spot-on" if row["order"] == 1 else "d-spot"
        for side in (-1, 1):
            rim, mark = view.base + side * reach, view.base + side * (half + _APART + SPOT)
            sheet.line(((x, rim), (middle, mark)), "d-dim d-stroke-ink")
            sheet.box(x - 3, rim - 5, x + 3, rim + 5, "d-steel", round_by=1)
            spot(sheet, middle, mark, str(row["order"]), look)


def _legend(sheet: Sheet, figures: Figures, y: float) -> float:
    if not figures.rows["clamp_pairs"]:
        return sheet.note(EDGE, y, "No two of your clamps fit any rib.") + 4
    if not figures.said["hangs_past"] or 1 not in {
        row["order"] for row in figures.rows["clamp_pairs"] if row["rib"] in figures.said["hangs_past"]
    }:
        spot(sheet, EDGE + SPOT, y - 4, "1", "d-spot-on")
        y = sheet.note(36, y, "Start here, then work outwards to both tips") + 6
    else:
        y = sheet.note(EDGE, y, "Start at 1, then work outwards to both tips") + 6
    if figures.said["hangs_past"]:
        sheet.ring(EDGE + SPOT, y - 4, SPOT, "d-spot-warn")
        y = sheet.note(36, y, "These reach below the table's top: let them hang past its edge") + 4
    return y


def _section(sheet: Sheet, figures: Figures, y: float) -> float:
    """One clamp on the rim, to scale; gives the height used."""
    per_mm = _SECTION_PER_MM
    strip = value(figures, "frame.strip_height") * per_mm
    panel = max(3.0, value(figures, "panel.thickness") * per_mm)
    pad = 7.0
    opening = strip + panel + 2 * pad
    hang = max(40.0, value(figures, "clamp.hang") * per_mm)
    sheet.line(((EDGE, y - 16), (WIDE - EDGE, y - 16)), "d-hair")
    sheet.note(EDGE, y, "One clamp on the rim, cut across", "d-small d-bold")
    top = y + 30
    rim = 150.0
    under = top + opening
    sheet.box(EDGE, top + pad + 4, rim - 4, top + pad + strip, "d-thing")
    sheet.box(rim - 4, top + pad, rim, top + pad + strip, "d-wood")
    sheet.box(EDGE, top + pad + strip, rim + 7, under - pad, "d-wood")
    sheet.box(rim - 22, top, rim + 3, top + pad, "d-pad")
    sheet.box(rim - 22, under - pad, rim + 3, under, "d-pad")
    bar = rim + 26
    sheet.box(rim - 16, top - 9, bar + 7, top, "d-steel", round_by=2)
    sheet.box(bar, top - 9, bar + 7, under + hang * 0.62, "d-steel", round_by=2)
    sheet.box(rim - 16, under + 8, bar + 7, under + 17, "d-steel", round_by=2)
    sheet.box(rim - 12, under, rim - 2, under + 3, "d-steel")
    sheet.box(rim - 9, under + 3, rim - 5, under + hang - 18, "d-steel")
    sheet.box(rim - 13, under + hang - 18, rim - 1, under + hang, "d-steel", round_by=3)
    return _section_words(sheet, figures, (top, under, hang, bar))


def _section_words(sheet: Sheet, figures: Figures, box: tuple[float, float, float, float]) -> float:
    top, under, hang, bar = box
    span(sheet, (bar + 18, top), (bar + 18, under))
    middle = (top + under) / 2
    sheet.note(bar + 28, middle - 4, f"{shown(figures, 'clamp.opening_needed')} to open: frame, panel and pads")
    if value(figures, "clamp.hang") > 0:
        span(sheet, (100, under - 5), (100, under + hang))
        words = f"{shown(figures, 'clamp.hang')} hang below the panel"
        sheet.note(92, under + hang / 2, words, anchor="end", room=86)
    sheet.note(bar + 28, under + 26, "pads of scrap wood, with parting sheet between", room=WIDE - EDGE - bar - 28)
    return max(under + hang + 12, under + 68)
