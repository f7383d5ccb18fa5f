"""What the finished board weighs, part by part, as bars."""

from __future__ import annotations

from generator.drawings.lettering import LINE, SMALL, width
from generator.drawings.pen import EDGE, WIDE, Sheet
from generator.drawings.read import shown, value
from generator.figures import Figures

_ROW = 22.0
_HIGH = 13.0
_TOP = 34.0
_GAP = 8.0


def mass_bars(figures: Figures) -> str:
    """One bar for each group of parts, with its range, heaviest first."""
    rows = sorted(
        (row for row in figures.rows["weight_groups"] if value(figures, row["key"]) > 0),
        key=lambda row: -value(figures, row["key"]),
    )
    names = [str(row["name"]) for row in rows]
    texts = [shown(figures, row["key"]) for row in rows]
    left = EDGE + max(map(width, names)) + _GAP
    right = WIDE - EDGE - max(width(text, bold=True) for text in texts) - _GAP
    most = max(figures.values[row["key"]].high for row in rows)
    per_kg = (right - left) / most
    sheet = Sheet(
        "mass_bars",
        title="What the finished board weighs",
        words=f"All together about {shown(figures, 'weight.finished')}: "
        + ", ".join(f"{name} {text}" for name, text in zip(names, texts, strict=True))
        + ".",
    )
    sheet.note(EDGE, 18, "What the parts weigh", "d-small d-bold")
    y = _TOP
    for row, name, text in zip(rows, names, texts, strict=True):
        own = figures.values[row["key"]]
        middle = y + _HIGH / 2
        sheet.text(left - _GAP, middle + 0.36 * SMALL, name, anchor="end")
        sheet.box(left, y, left + own.value * per_kg, y + _HIGH, "d-wood")
        if (own.high - own.low) * per_kg > 2:
            sheet.line(((left + own.low * per_kg, middle), (left + own.high * per_kg, middle)), "d-heavy")
        sheet.text(WIDE - EDGE, middle + 0.36 * SMALL, text, "d-small d-bold", anchor="end")
        y += _ROW
    y = sheet.note(EDGE, y + SMALL, "The thick lines show how far each may be off.")
    return sheet.svg(y - SMALL * LINE + 10)
