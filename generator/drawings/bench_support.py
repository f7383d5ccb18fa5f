"""Where a tip support has to stand: its edge, not its middle, belongs under the tip."""

from __future__ import annotations

from generator.drawings.marks import arrow_head, right, wrong
from generator.drawings.pen import EDGE, WIDE, Point, Sheet
from generator.drawings.read import shown, value
from generator.drawings.view import View, at
from generator.figures import Figures, Row

_WINDOW_MM = 520.0
_HIGH_MM = 62.0
_WORTH_SAYING_MM = 1.0


def bench_support(figures: Figures) -> str:
    """The tail tip on its support, to scale: wrong with the middle under the tip, right with the edge there."""
    row = figures.rows["supports"][0]
    width_mm = max([row["top_width_mm"], *(piece["width_mm"] for piece in row["pieces"])])
    inset = _inset(figures)
    sheet = Sheet(
        "bench-support",
        title="Where the support under the tip touches",
        words="A flat-topped support touches at the edge that is nearer the board's lowest point. With its middle "
        "under the tip it holds the board too far in; with that edge right under the tip it holds the tip. " + inset,
    )
    y = _picture(sheet, figures, 8, width_mm, good=False)
    y = sheet.note(EDGE, y, "Middle under the tip: it touches too far in, and the tip runs on straight. " + inset)
    y = _picture(sheet, figures, y + 2, width_mm, good=True, row=row)
    top = "the crossbar's edge" if row["crossbar"] else "its edge nearer the middle of the board"
    y = sheet.note(EDGE, y, f"Right: {top} stands under the tip.", "d-small d-bold")
    return sheet.svg(sheet.note(EDGE, y, "The nose tip is the same, the other way round.") - 4)


def _inset(figures: Figures) -> str:
    """By how much the tip comes out low if the end supports stand too far in, where that is worth saying."""
    lost = {end: figures.values.get(f"bench.inset_{end}") for end in ("tail", "nose")}
    end, worst = max(lost.items(), key=lambda pair: pair[1].value if pair[1] else 0.0)
    if worst is None or worst.value < _WORTH_SAYING_MM:
        return ""
    short = shown(figures, worst.key)
    return f"With the end supports {shown(figures, 'bench.inset')} too far in, your {end} tip ends up {short} too low."


def _picture(
    sheet: Sheet, figures: Figures, top: float, width_mm: float, *, good: bool, row: Row | None = None
) -> float:
    """The end of the board over one support; gives the baseline below."""
    per_mm = (WIDE - 2 * EDGE) / _WINDOW_MM
    bottom = figures.curves["bench.clamped"]
    rise_mm = at(bottom, 0) - at(bottom, _WINDOW_MM - width_mm)
    view = View(EDGE + (width_mm + 20) * per_mm, top + 62 + max(0, -rise_mm) * per_mm, per_mm)
    touch_mm = 0.0 if good else width_mm / 2
    zero_mm = at(bottom, 0)
    last_mm = _WINDOW_MM - width_mm - 20

    def under(x_mm: float) -> float:
        """Bottom of the board; past a support that stands too far in it runs on straight and low."""
        if good or x_mm >= touch_mm:
            return at(bottom, x_mm) - zero_mm
        slope = (at(bottom, touch_mm + 20) - at(bottom, touch_mm)) / 20
        return at(bottom, touch_mm) - zero_mm + slope * (x_mm - touch_mm)

    places = [last_mm * i / 40 for i in range(41)]
    heights = [under(x) for x in places]
    panel, depth = value(figures, "panel.thickness"), figures.curves["spine.depth"]
    table = view.y(under(touch_mm) - _HIGH_MM)
    sheet.box(EDGE, table, WIDE - EDGE, table + 9, "d-table")
    sheet.line(((EDGE, table), (WIDE - EDGE, table)), "d-line")
    _support(sheet, view, width_mm, touch_mm, under(touch_mm), crossbar=row is not None and bool(row["crossbar"]))
    over = [h + panel for h in heights]
    deck = [h + at(depth, x) for x, h in zip(places, over, strict=True)]
    sheet.shape(view.line(places, over) + view.line(places, deck)[::-1], "d-thing")
    sheet.shape(view.line(places, heights) + view.line(places, over)[::-1], "d-wood")
    contact: Point = (view.x(touch_mm), view.y(under(touch_mm)))
    arrow_head(sheet, contact, (0, -1), "d-fill-sea" if good else "d-fill-warn")
    label = max(contact[0], view.x(touch_mm + (width_mm / 2 - 20 if row is not None and row["crossbar"] else 0))) + 8
    sheet.text(label, table - 12, "touches here", f"d-small d-bold {'d-sea' if good else 'd-warn'}")
    sheet.line(((view.x(0), top + 6), (view.x(0), table)), "d-level")
    sheet.text(view.x(0) - 6, top + 16, "tail tip", anchor="end")
    (right if good else wrong)(sheet, EDGE + 10, top + 12)
    return table + 26


def _support(sheet: Sheet, view: View, width_mm: float, touch_mm: float, height_mm: float, *, crossbar: bool) -> None:
    bar = 18.0 if crossbar else 0.0
    edge = touch_mm + (width_mm / 2 - 20 if crossbar else 0)
    low, high = height_mm - _HIGH_MM, height_mm - bar
    sheet.box(view.x(edge - width_mm), view.y(high), view.x(edge), view.y(low), "d-thing", round_by=2)
    if crossbar:
        sheet.box(view.x(touch_mm - 40), view.y(height_mm), view.x(touch_mm), view.y(high), "d-wood")
