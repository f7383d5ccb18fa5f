"""The solid blocks: one sawn square and planed to the deck's slope, and the vent's block with its holes."""

from __future__ import annotations

from generator.drawings.marks import arrow, span
from generator.drawings.pen import EDGE, WIDE, Sheet
from generator.drawings.read import shown, value
from generator.figures import Figures

_PANEL = 11.0


def block_cut(figures: Figures) -> str:
    """The fin's block from the side, to scale lengthwise, its slope too steep so that it is seen; and from above."""
    key = "block.fin"
    piece = next(str(row["key"]) for row in next(b for b in figures.rows["blocks"] if b["key"] == key)["pieces"])
    sawn, length = shown(figures, f"{key}.depth"), shown(figures, f"{key}.length")
    ends = {end: shown(figures, f"{piece}.{end}") for end in ("tail", "nose")}
    sheet = Sheet(
        "block-cut",
        title="A block to cut",
        words=f"The fin block: {length} long, sawn {sawn} deep, then planed to {ends['tail']} at the tail end and "
        f"{ends['nose']} at the nose end. From above: the spine runs between its two halves.",
    )
    sheet.note(EDGE, 18, "The fin block from the side", "d-small d-bold")
    left, right, top, base = 92.0, WIDE - 92, 52.0, 132.0
    low = {end: value(figures, f"{piece}.{end}") / value(figures, f"{key}.depth") for end in ends}
    high = {end: base - (base - top) * (1 - min(3 * (1 - share), 0.55)) for end, share in low.items()}
    sheet.shape([(left, base), (right, base), (right, high["nose"]), (left, high["tail"])], "d-wood")
    sheet.shape([(left, base), (right, base), (right, top), (left, top)], "d-open d-hidden")
    sheet.box(left - 20, base, right + 20, base + _PANEL, "d-thing")
    for x, end, anchor in ((left - 10, "tail", "end"), (right + 10, "nose", "start")):
        span(sheet, (x, high[end]), (x, base))
        sheet.text(x + (-6 if anchor == "end" else 6), (high[end] + base) / 2 + 4, ends[end], anchor=anchor)
    span(sheet, (left, base + 26), (right, base + 26))
    sheet.text(WIDE / 2, base + 43, f"{length} long", anchor="middle")
    sheet.text(WIDE / 2, top - 8, f"dashed: as sawn, {sawn} deep", anchor="middle")
    sheet.text(WIDE / 2, base - 12, "grain along the board", anchor="middle")
    sheet.text(EDGE, base + 20, "tail")
    sheet.text(WIDE - EDGE, base + 20, "nose", anchor="end")
    y = base + 76
    sheet.note(EDGE, y, "From above", "d-small d-bold")
    for way in (-1, 1):
        sheet.box(left, y + 44 + way * 19 - 15, right, y + 44 + way * 19 + 15, "d-wood")
    sheet.box(left - 40, y + 40, right + 40, y + 48, "d-fill-wood-deep")
    sheet.text(WIDE / 2, y + 29, "one half", anchor="middle")
    sheet.text(WIDE / 2, y + 68, "the other half", anchor="middle")
    sheet.text(EDGE, y + 64, "spine")
    return sheet.svg(sheet.note(EDGE, y + 98, "The slope is drawn steeper than it is.") - 4)


def vent_block(figures: Figures) -> str:
    """The vent's block cut along the board, not to scale: the hole lengthwise, and the one that comes later."""
    hole = shown(figures, "air.hole")
    sheet = Sheet(
        "vent-block",
        title="The vent block",
        words=f"Cut along the board. A hole of {hole} runs lengthwise through the block, half-way down. Later the "
        "vent's own hole is drilled from the deck until it meets the first. Air from the bay leaves that way.",
    )
    sheet.note(EDGE, 18, "The vent block, cut along the board", "d-small d-bold")
    left, right, top, base = 90.0, WIDE - 90, 84.0, 156.0
    middle = (top + base) / 2
    sheet.box(left - 70, base, right + 70, base + _PANEL, "d-wood")
    sheet.box(left, top, right, base, "d-fill-wood")
    sheet.box(left - 70, top - _PANEL, right + 70, top, "d-open d-hidden")
    sheet.box(left, middle - 7, right, middle + 7, "d-fill-paper")
    sheet.box(WIDE / 2 - 8, top - _PANEL, WIDE / 2 + 8, middle, "d-open d-hidden")
    for x, end in ((left - 40, left - 4), (right + 40, right + 4)):
        arrow(sheet, (x, middle), (end, middle))
    arrow(sheet, (WIDE / 2, middle - 2), (WIDE / 2, top - _PANEL - 16))
    sheet.text(left - 44, middle + 4, "air", anchor="end")
    sheet.text(right + 44, middle + 4, "air")
    sheet.text(WIDE / 2 + 16, 48, "vent, drilled later")
    sheet.text(EDGE, top - _PANEL - 8, "deck, later")
    sheet.text(WIDE / 2, base - 8, f"hole, {hole}, end to end", anchor="middle")
    sheet.text(WIDE / 2, base + _PANEL + 18, "bottom panel", anchor="middle")
    return sheet.svg(base + _PANEL + 30)
