"""Fin and leash plug in their blocks, the tail from above, to scale."""

from __future__ import annotations

import numpy as np

from generator.drawings.marks import SPOT, spot
from generator.drawings.pen import EDGE, WIDE, Sheet
from generator.drawings.read import shown, value
from generator.drawings.view import View, at
from generator.figures import Figures

_TOP = 30.0
_ROOM = 176.0
_PAST_MM = 70.0


def fin_plan(figures: Figures) -> str:
    """The tail end as far as the fin's block and a little more."""
    places = {name: shown(figures, name) for name in ("fin.rear", "fin.front", "fin.leash.from_tail")}
    sheet = Sheet(
        "fin-plan",
        title="Fin and leash plug from above",
        words=f"The tail from above. The leash plug stands {places['fin.leash.from_tail']} from the tail tip; the fin "
        f"stands on the centre line from {places['fin.rear']} to {places['fin.front']}. Each lies inside its block.",
    )
    sheet.note(EDGE, 18, "The tail from above, to scale", "d-small d-bold")
    outline = figures.curves["outline.finished"]
    end = min(value(figures, "fin.front") + _PAST_MM, value(figures, "board.length"))
    x = np.linspace(0.0, end, 81)
    half = [at(outline, place) for place in x]
    per_mm = min((WIDE - 2 * EDGE - 16) / end, _ROOM / (2 * max(half)))
    left = EDGE + 8
    view = View(left, _TOP + max(half) * per_mm + 4, per_mm)
    sheet.shape([*view.line(x, half), *view.line(x, [-y for y in half])[::-1]], "d-wood")
    sheet.line(((left - 6, view.base), (view.x(end), view.base)), "d-level")
    for row in figures.rows["fin_blocks"]:
        if row["from_mm"] < end:
            stop = min(row["to_mm"], end)
            corners = ((row["from_mm"], row["low_mm"]), (stop, row["low_mm"]), (stop, row["high_mm"]),
                       (row["from_mm"], row["high_mm"]), (row["from_mm"], row["low_mm"]))  # fmt: skip
            sheet.line([(view.x(a), view.base + b * per_mm) for a, b in corners], "d-hidden")
    rear, front = view.x(value(figures, "fin.rear")), view.x(value(figures, "fin.front"))
    sheet.box(rear, view.base - 3, front, view.base + 3, "d-fill-sea", round_by=2)
    side = -1 if figures.said["fin.leash_side"] == "left" else 1
    plug = (view.x(value(figures, "fin.leash.from_tail")),
            view.base + side * value(figures, "fin.leash.from_centre") * per_mm)  # fmt: skip
    sheet.ring(*plug, max(3.0, value(figures, "fin.leash.hole") / 2 * per_mm), "d-fill-sea")
    spot(sheet, (rear + front) / 2, view.base - 3 - SPOT - 3, "2")
    spot(sheet, plug[0], plug[1] + side * (SPOT + 10), "1")
    return sheet.svg(_words(sheet, figures, view.base + max(half) * per_mm + 28))


def _words(sheet: Sheet, figures: Figures, y: float) -> float:
    aside = figures.said["fin.leash_side"]
    beside = "on the centre line" if aside == "centre" else f"{shown(figures, 'fin.leash.from_centre')} to the {aside}"
    lines = (
        f"Leash plug: middle {shown(figures, 'fin.leash.from_tail')} from the tail tip, {beside}",
        f"Fin, underneath: from {shown(figures, 'fin.rear')} to {shown(figures, 'fin.front')}, on the centre line",
    )
    for number, words in enumerate(lines, 1):
        spot(sheet, EDGE + SPOT, y - 4, str(number))
        y = max(sheet.note(EDGE + 2 * SPOT + 8, y, words), y + 2 * SPOT) + 3
    return sheet.note(EDGE, y, "Broken lines: blocks inside. Right is as seen from the tail, deck up.") - 4
