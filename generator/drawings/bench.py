"""The bench from the side: table, stacks, board, level line, and a list of the supports."""

from __future__ import annotations

from collections.abc import Sequence

from generator.drawings.lettering import LINE, SMALL, shorten, spread, width
from generator.drawings.marks import SPOT, arrow_head, spot
from generator.drawings.pen import EDGE, WIDE, Sheet
from generator.drawings.read import shown, value
from generator.drawings.view import View, at, times_that_fit
from generator.figures import Figures, Row

_TOP = 30.0
_ROOM = 120.0
_MOST_TIMES = 2
_BEYOND_MM = 40.0
_WEIGHT = 18.0


def bench(figures: Figures) -> str:
    """The board on its supports, with everything that lies on it; numbers belong to the list below."""
    supports = figures.rows["supports"]
    view = _view(figures, supports)
    sheet = Sheet(
        "bench",
        title="The bench from the side",
        words=f"{len(supports)} supports under the board. " + " ".join(_said(figures, row) for row in supports),
    )
    sheet.note(EDGE, 18, "The bench from the side, tail on the left", "d-small d-bold")
    _table(sheet, figures, view, supports)
    for row in supports:
        _stack(sheet, figures, view, row)
    _board(sheet, figures, view)
    _weights(sheet, figures, view)
    y = _spots(sheet, figures, view, supports)
    y = _list(sheet, figures, y + 20)
    sheet.line(((EDGE, y - 4), (EDGE + 26, y - 4)), "d-level")
    y = sheet.note(40, y, "Level line: every height is measured up from it")
    return sheet.svg(sheet.note(EDGE, y, view.scale_words()) - 4)


def _said(figures: Figures, row: Row) -> str:
    key = row["key"]
    return f"{row['n']}, {row['name']}: top {shown(figures, f'{key}.height')} above the level line."


def _view(figures: Figures, supports: Sequence[Row]) -> View:
    """A view that takes in the board and every stack."""
    ends = [0.0, value(figures, "board.length")]
    for row in supports:
        half = max([row["top_width_mm"], *(piece["width_mm"] for piece in row["pieces"])]) / 2
        centre = value(figures, f"{row['key']}.centre")
        ends += [centre - half, centre + half]
    first, last = min(ends) - _BEYOND_MM, max(ends) + _BEYOND_MM
    per_mm = (WIDE - 2 * EDGE) / (last - first)
    tall_mm = max(figures.curves["bench.from_line"].y) + _thick_mm(figures)
    times = times_that_fit(tall_mm, per_mm=per_mm, room=_ROOM, most=_MOST_TIMES)
    top = _TOP + 6 + 17 * _heap(figures, per_mm)
    return View(EDGE - first * per_mm, top + tall_mm * per_mm * times, per_mm, times)


def _thick_mm(figures: Figures) -> float:
    """Frame and bottom panel at the thickest: what lies on the bench."""
    return max(figures.curves["spine.depth"].y) + value(figures, "panel.thickness")


def _table(sheet: Sheet, figures: Figures, view: View, supports: Sequence[Row]) -> None:
    places = [(value(figures, f"{row['key']}.centre"), value(figures, f"{row['key']}.reading")) for row in supports]
    top = [(EDGE, view.y(places[0][1])), *((view.x(x), view.y(z)) for x, z in places)]
    top.append((WIDE - EDGE, view.y(places[-1][1])))
    floor = view.base + 12
    sheet.shape([*top, (WIDE - EDGE, floor), (EDGE, floor)], "d-table")
    sheet.line(top, "d-line")


def _stack(sheet: Sheet, figures: Figures, view: View, row: Row) -> None:
    """The pieces from the table up, each as high and as wide as it is; broken lines where none could be piled."""
    centre = value(figures, f"{row['key']}.centre")
    height_mm = value(figures, f"{row['key']}.reading")
    if not row["pieces"]:
        half, top_mm = row["top_width_mm"] / 2, value(figures, f"{row['key']}.height")
        sheet.box(view.x(centre - half), view.y(top_mm), view.x(centre + half), view.y(height_mm), "d-open d-hidden")
    for piece in row["pieces"]:
        top_mm = height_mm + piece["height_mm"] * piece["count"]
        half = piece["width_mm"] / 2
        if view.y(height_mm) - view.y(top_mm) < 1.5:
            sheet.line(view.line((centre - half, centre + half), (top_mm, top_mm)), "d-line")
        else:
            for i in range(piece["count"]):
                low = height_mm + i * piece["height_mm"]
                sides = (view.x(centre - half), view.y(low + piece["height_mm"]), view.x(centre + half), view.y(low))
                sheet.box(*sides, "d-wood" if piece["kind"] in {"block", "crossbar"} else "d-thing")
        height_mm = top_mm


def _board(sheet: Sheet, figures: Figures, view: View) -> None:
    bottom, depth = figures.curves["bench.from_line"], figures.curves["spine.depth"]
    panel = value(figures, "panel.thickness")
    x, z = bottom.x_mm, bottom.y
    upper = [b + panel for b in z]
    top = [b + at(depth, a) for a, b in zip(x, upper, strict=True)]
    sheet.shape(view.line(x, upper) + view.line(x, top)[::-1], "d-thing")
    sheet.shape(view.line(x, z) + view.line(x, upper)[::-1], "d-wood")


def _weights(sheet: Sheet, figures: Figures, view: View) -> None:
    """A lettered weight at each place; where two would meet, one lies on the other."""
    bottom, depth = figures.curves["bench.from_line"], figures.curves["spine.depth"]
    panel = value(figures, "panel.thickness")
    tops: list[tuple[float, float]] = []
    for row in figures.rows["weights"]:
        x_mm = value(figures, f"{row['key']}.from_tail")
        x, deck = view.x(x_mm), view.y(at(bottom, x_mm) + panel + at(depth, x_mm))
        y = min([deck, *(top for other, top in tops if abs(other - x) < _WEIGHT + 1)])
        sheet.box(x - _WEIGHT / 2, y - 16, x + _WEIGHT / 2, y, "d-steel", round_by=3)
        sheet.text(x, y - 3.5, _letter(row["n"]), "d-small d-bold", anchor="middle")
        tops.append((x, y - 17))


def _heap(figures: Figures, per_mm: float) -> int:
    """The most weights that can come to lie on one another."""
    places = sorted(value(figures, f"{row['key']}.from_tail") * per_mm for row in figures.rows["weights"])
    return max((sum(0 <= other - x < _WEIGHT + 1 for other in places) for x in places), default=0)


def _look(row: Row) -> str:
    return "d-spot" if row["touching"] and row["pieces"] else "d-spot-warn"


def _letter(n: int) -> str:
    """A to Z, then AA and so on."""
    before, last = divmod(n - 1, 26)
    return (_letter(before) if before else "") + chr(ord("A") + last)


def _spots(sheet: Sheet, figures: Figures, view: View, supports: Sequence[Row]) -> float:
    """A number under each support, and an arrow at the very place where it touches."""
    places = [view.x(value(figures, f"{row['key']}.from_tail")) for row in supports]
    room = 2 * SPOT + 4
    middles = spread(places, [room] * len(places), low=EDGE, high=WIDE - EDGE)
    y = view.base + 30
    sheet.line(((EDGE - 4, view.base), (WIDE - EDGE + 4, view.base)), "d-level")
    for row, x, middle in zip(supports, places, middles, strict=True):
        touch = view.y(value(figures, f"{row['key']}.height"))
        sheet.line(((middle, y - SPOT), (x, view.base), (x, touch + 5)), "d-dim d-stroke-sea")
        arrow_head(sheet, (x, touch), (0, -1))
        spot(sheet, middle, y, str(row["n"]), _look(row))
    return y + SPOT


def _list(sheet: Sheet, figures: Figures, y: float) -> float:
    """One line a support: its name, its height, the place of the touching edge; then the weights."""
    sheet.text(222, y, "top, above level", "d-small", anchor="end")
    sheet.text(WIDE - EDGE, y, "edge, from tail", "d-small", anchor="end")
    y += 8
    for row in figures.rows["supports"]:
        y += 1.75 * SMALL
        sheet.line(((EDGE, y - 15.5), (WIDE - EDGE, y - 15.5)), "d-hair")
        spot(sheet, EDGE + SPOT, y - 4, str(row["n"]), _look(row))
        name = str(row["name"])
        if not row["pieces"]:
            name += ": missing"
        elif not row["touching"]:
            name += ": lifts off"
        sheet.text(32, y, shorten(name, 108))
        sheet.text(222, y, shown(figures, f"{row['key']}.height"), "d-small d-bold", anchor="end")
        sheet.text(WIDE - EDGE, y, shown(figures, f"{row['key']}.from_tail"), "d-small d-bold", anchor="end")
    y += 1.75 * SMALL
    for row in figures.rows["weights"]:
        sheet.box(EDGE + 1, y - 12, EDGE + 19, y + 3, "d-steel", round_by=3)
        sheet.text(EDGE + 10, y - 0.5, _letter(row["n"]), "d-small d-bold", anchor="middle")
        count = round(value(figures, f"{row['key']}.count"))
        words = f"{count} × " if count > 1 else ""
        words += f"{shown(figures, row['key'] + '.mass')} at {shown(figures, row['key'] + '.from_tail')}: "
        y = sheet.note(32, y, words + shorten(str(row["name"]), WIDE - EDGE - 34 - width(words))) + 4
    return y + SMALL * LINE - 8
