"""The inside from above: bays, blocks, foam, and the way of the air to the vent."""

from __future__ import annotations

from collections.abc import Iterable

from generator.drawings.lettering import SMALL, spread, width
from generator.drawings.marks import SPOT, spot
from generator.drawings.pen import EDGE, WIDE, Point, Sheet
from generator.drawings.read import value
from generator.drawings.view import at
from generator.figures import Curve, Figures, Row

_TALL, _HALF = 560.0, 84.0
_TOP = 40.0
_MIDDLE = WIDE / 2
_WAYS = {"right": (1,), "left": (-1,), "left and right": (-1, 1)}


def inside_plan(figures: Figures) -> str:
    """To scale, nose up, the top panel not yet on."""
    frame = figures.curves["outline.frame"]
    length = value(figures, "board.length")
    per_mm = min(_TALL / length, _HALF / max(frame.y))
    tail = _TOP + length * per_mm
    foamed = [row for row in figures.rows["bays"] if row["block"]]
    count = sum(row["count"] for row in foamed)
    blocks = ", ".join(str(row["name"]) for row in figures.rows["blocks"])
    sheet = Sheet(
        "inside-plan",
        title="The inside from above",
        words=f"Nose up. {len(figures.rows['ribs'])} ribs and the spine make bays. Solid blocks: {blocks}. "
        + (f"Foam stands in {count} bays, clear of the spine. " if foamed else "No foam. ")
        + "Holes beside the spine, in every rib and once through the spine, lead the air to the vent.",
    )
    right = [(_MIDDLE + y * per_mm, tail - x * per_mm) for x, y in zip(frame.x_mm, frame.y, strict=True)]
    sheet.shape([*right, *((2 * _MIDDLE - x, y) for x, y in reversed(right))], "d-wood")
    for row in foamed:
        _boxes(sheet, _WAYS[str(row["sides"])], row["block"], per_mm, tail, "d-thing")
    for row in figures.rows["blocks"]:
        for side, *place in row["places"]:
            _block(sheet, _WAYS[side], place, frame, per_mm, tail)
    sheet.line(((_MIDDLE, _TOP + 2), (_MIDDLE, tail - 2)), "d-heavy")
    _ribs(sheet, figures, per_mm, tail)
    _air(sheet, figures, per_mm, tail)
    _names(sheet, figures, per_mm, tail)
    sheet.text(_MIDDLE, _TOP - 7, "nose", "d-small d-bold", anchor="middle")
    sheet.text(_MIDDLE, tail + 16, "tail", "d-small d-bold", anchor="middle")
    return sheet.svg(_legend(sheet, tail + 40, foam=bool(foamed)))


def _boxes(sheet: Sheet, ways: Iterable[int], place: Iterable[float], per_mm: float, tail: float, classes: str) -> None:
    start, end, inner, outer = place
    for way in ways:
        sides = sorted((_MIDDLE + way * inner * per_mm, _MIDDLE + way * outer * per_mm))
        sheet.box(sides[0], tail - end * per_mm, sides[1], tail - start * per_mm, classes)


def _block(sheet: Sheet, ways: Iterable[int], place: Iterable[float], frame: Curve, per_mm: float, tail: float) -> None:
    """A block trimmed to the frame's outline."""
    start, end, inner, outer = place
    along = [start + (end - start) * n / 16 for n in range(17)]
    for way in ways:
        rim = [(_MIDDLE + way * max(min(outer, at(frame, x)), inner) * per_mm, tail - x * per_mm) for x in along]
        inside = _MIDDLE + way * inner * per_mm
        sheet.shape([(inside, rim[0][1]), *rim, (inside, rim[-1][1])], "d-fill-wood-deep")


def _ribs(sheet: Sheet, figures: Figures, per_mm: float, tail: float) -> None:
    rows = figures.rows["ribs"][::-1]
    places = [tail - value(figures, f"{row['key']}.from_tail") * per_mm for row in rows]
    labels = spread(places, [2 * SPOT + 2] * len(rows), low=_TOP, high=tail + 10)
    for row, y, label in zip(rows, places, labels, strict=True):
        half = value(figures, f"{row['key']}.half_width") * per_mm
        sheet.line(((_MIDDLE - half, y), (_MIDDLE + half, y)), "d-heavy")
        sheet.line(((EDGE + 2 * SPOT + 3, label), (_MIDDLE - half - 3, y)), "d-hair")
        spot(sheet, EDGE + SPOT, label, str(row["n"]))


def _air(sheet: Sheet, figures: Figures, per_mm: float, tail: float) -> None:
    """Holes as dots, joined by the way of the air on both sides; it passes the spine beside the vent's block."""
    spine = value(figures, "frame.spine_thickness") / 2
    holes = [
        (tail - value(figures, f"{rib['key']}.from_tail") * per_mm, (spine + hole["aside_mm"]) * per_mm)
        for rib, hole in zip(figures.rows["ribs"], figures.rows["air_holes"], strict=True)
    ]
    vent = _vent(figures, per_mm, tail)
    for way in (-1, 1):
        line: list[Point] = [(_MIDDLE + way * aside, y) for y, aside in holes]
        sheet.line(line, "d-pencil")
        for x, y in line:
            sheet.ring(x, y, 2.2, "d-fill-sea")
    sheet.line(((_MIDDLE - 5, _past(figures, per_mm, tail)), (_MIDDLE + 5, _past(figures, per_mm, tail))), "d-pencil")
    sheet.ring(_MIDDLE, _past(figures, per_mm, tail), 2.2, "d-fill-sea")
    sheet.ring(*vent, 4.5, "d-spot")
    sheet.ring(*vent, 1.8, "d-fill-sea")


def _vent(figures: Figures, per_mm: float, tail: float) -> Point:
    way = 1 if figures.said["air.vent_side"] == "right" else -1
    return (
        _MIDDLE + way * value(figures, "air.vent_from_centre") * per_mm,
        tail - value(figures, "air.vent_from_tail") * per_mm,
    )


def _past(figures: Figures, per_mm: float, tail: float) -> float:
    """Where the air passes the spine: beyond the vent's block, on its side away from the tail."""
    return tail - (value(figures, "block.vent.to") + 30) * per_mm


def _names(sheet: Sheet, figures: Figures, per_mm: float, tail: float) -> None:
    rows: list[Row] = sorted(figures.rows["blocks"], key=lambda row: -value(figures, f"{row['key']}.from_tail"))
    places = []
    for row in rows:
        ends = [value(figures, f"{row['key']}.{end}") for end in ("from_tail", "to")]
        places.append(tail - sum(ends) / 2 * per_mm)
    labels = spread(places, [SMALL * 1.35] * len(rows), low=_TOP, high=tail + 10)
    frame = figures.curves["outline.frame"]
    for row, y, label in zip(rows, places, labels, strict=True):
        reach, name = at(frame, (tail - y) / per_mm) * per_mm, str(row["name"]).removesuffix(" block")
        sheet.line(((_MIDDLE + max(reach, 12) + 3, y), (WIDE - EDGE - width(name) - 5, label)), "d-hair")
        sheet.text(WIDE - EDGE, label + 0.36 * SMALL, name, anchor="end")


def _legend(sheet: Sheet, y: float, *, foam: bool) -> float:
    if foam:
        sheet.box(EDGE, y - 10, EDGE + 22, y + 1, "d-thing")
        y = sheet.note(38, y, "Foam, glued to both panels") + 3
    sheet.box(EDGE, y - 10, EDGE + 22, y + 1, "d-fill-wood-deep")
    y = sheet.note(38, y, "Solid block") + 3
    sheet.line(((EDGE, y - 4), (EDGE + 22, y - 4)), "d-pencil")
    sheet.ring(EDGE + 11, y - 4, 2.2, "d-fill-sea")
    y = sheet.note(38, y, "Way of the air, and the holes that it goes through") + 3
    sheet.ring(EDGE + 11, y - 4, 4.5, "d-spot")
    sheet.ring(EDGE + 11, y - 4, 1.8, "d-fill-sea")
    y = sheet.note(38, y, "Vent, drilled later from the deck") + 3
    return sheet.note(EDGE, y, "Numbers in rings: ribs. Bay 1 lies behind rib 1. Drawn to scale.") - 4
