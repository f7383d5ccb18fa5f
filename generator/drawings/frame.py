"""The spine with its slots, and one rib with its line-up mark."""

from __future__ import annotations

from generator.drawings.marks import line_up_mark, span
from generator.drawings.pen import EDGE, WIDE, Point, Sheet
from generator.drawings.read import shown, value
from generator.drawings.view import at
from generator.figures import Figures, Row

_TOP = 52.0
_LEFT = 14.0


def frame(figures: Figures) -> str:
    """The widest rib from the front and the spine beside it from the side, both to one scale."""
    rows = figures.rows["ribs"]
    rib = max(rows, key=lambda row: value(figures, f"{row['key']}.half_width"))
    half_mm = value(figures, f"{rib['key']}.half_width")
    per_mm = (WIDE - 2 * _LEFT) / (2 * half_mm)
    opening = str(figures.said["slots_open_to"])
    sheet = Sheet(
        "frame",
        title="Spine and ribs",
        words=f"The spine has a slot at every rib, open to the {opening}, {shown(figures, 'frame.slot_width')} wide; "
        f"the ribs are slotted from the other side. Rib {rib['n']} reaches "
        f"{shown(figures, rib['key'] + '.half_width')} to each side of its line-up mark.",
    )
    y = _spine(sheet, figures, rib, per_mm, top_open=opening == "top")
    y = _rib(sheet, figures, rib, per_mm, y + 26, top_open=opening != "top")
    return sheet.svg(sheet.note(EDGE, y, "Both to one scale. The two slots slide into each other.") - 4)


def _spine(sheet: Sheet, figures: Figures, rib: Row, per_mm: float, *, top_open: bool) -> float:
    """A piece of the spine about the rib, from the side; gives the lowest point used."""
    middle = value(figures, f"{rib['key']}.from_tail")
    reach = (WIDE / 2 - _LEFT) / per_mm
    depth = at(figures.curves["spine.depth"], middle) * per_mm
    share = value(figures, "frame.slot_share") / 100
    slot = max(3.0, value(figures, "frame.slot_width") * per_mm)
    sheet.note(EDGE, 18, "Spine, a piece from the side", "d-small d-bold")
    places = [
        WIDE / 2 + (value(figures, f"{row['key']}.from_tail") - middle) * per_mm
        for row in figures.rows["ribs"]
        if abs(value(figures, f"{row['key']}.from_tail") - middle) < reach - 15 / per_mm
    ]
    upper: list[Point] = [(_LEFT, _TOP)]
    lower: list[Point] = [(_LEFT, _TOP + depth)]
    edge, run, inward = (upper, _TOP, 1) if top_open else (lower, _TOP + depth, -1)
    for x in places:
        cut = run + inward * share * depth
        edge += [(x - slot / 2, run), (x - slot / 2, cut), (x + slot / 2, cut), (x + slot / 2, run)]
    upper.append((WIDE - _LEFT, _TOP))
    lower.append((WIDE - _LEFT, _TOP + depth))
    sheet.shape([*upper, *lower[::-1]], "d-wood")
    return _spine_sizes(sheet, figures, rib, places, depth)


def _spine_sizes(sheet: Sheet, figures: Figures, rib: Row, places: list[float], depth: float) -> float:
    bottom = _TOP + depth
    numbers = [row["n"] for row in figures.rows["ribs"]]
    first = numbers.index(rib["n"]) - min(range(len(places)), key=lambda i: abs(places[i] - WIDE / 2))
    for i, x in enumerate(places):
        sheet.text(x, _TOP - 8, f"rib {numbers[first + i]}", anchor="middle")
    y = bottom + 18
    words = f"Slot: {shown(figures, 'frame.slot_width')} wide, {shown(figures, 'frame.slot_share')} of the depth, "
    return sheet.note(EDGE, y, words + f"open to the {figures.said['slots_open_to']}")


def _rib(sheet: Sheet, figures: Figures, rib: Row, per_mm: float, y: float, *, top_open: bool) -> float:
    """One rib from the front: flat below, slotted in the middle, lower at its ends."""
    key = rib["key"]
    half = value(figures, f"{key}.half_width") * per_mm
    centre, edge = (value(figures, f"{key}.{part}") * per_mm for part in ("depth_centre", "depth_edge"))
    slot = max(3.0, value(figures, "frame.spine_thickness") * per_mm)
    share = 1 - value(figures, "frame.slot_share") / 100
    sheet.note(EDGE, y, f"Rib {rib['n']} from the front", "d-small d-bold")
    top = y + 34
    base = top + centre
    x = WIDE / 2
    crown = [(x + half * s, base - edge - (centre - edge) * (1 - s * s)) for s in (i / 20 for i in range(-20, 21))]
    if top_open:
        cut = top + share * centre
        notch = [(x - slot / 2, top), (x - slot / 2, cut), (x + slot / 2, cut), (x + slot / 2, top)]
        crown = [p for p in crown if p[0] < x - slot / 2] + notch + [p for p in crown if p[0] > x + slot / 2]
        floor = [(x + half, base), (x - half, base)]
    else:
        cut = base - share * centre
        floor = [(x + half, base), (x + slot / 2, base), (x + slot / 2, cut), (x - slot / 2, cut), (x - slot / 2, base)]
        floor.append((x - half, base))
    sheet.shape([*crown, *floor], "d-wood")
    line_up_mark(sheet, x, cut + (centre * (1 - share) / 2) * (1 if top_open else -1), 6)
    return _rib_sizes(sheet, figures, key, (x - half, x + half, top, base, edge))


def _rib_sizes(sheet: Sheet, figures: Figures, key: str, box: tuple[float, float, float, float, float]) -> float:
    left, right, top, base, edge = box
    middle = (left + right) / 2
    span(sheet, (left, base + 9), (middle, base + 9))
    sheet.text((left + middle) / 2, base + 25, shown(figures, f"{key}.half_width"), "d-small d-bold", anchor="middle")
    span(sheet, (right + 6, base - edge), (right + 6, base))
    sheet.text(WIDE - EDGE, base + 25, f"{shown(figures, f'{key}.depth_edge')} at the edge", anchor="end")
    sheet.text(middle, top - 8, f"{shown(figures, f'{key}.depth_centre')} deep", anchor="middle")
    line_up_mark(sheet, EDGE + 9, base + 44)
    sheet.text(EDGE + 24, base + 48, "line-up mark: the centre of the rib")
    return base + 68
