"""Sighting over two straight sticks to see twist."""

from __future__ import annotations

from generator.drawings.marks import right, span, wrong
from generator.drawings.pen import EDGE, WIDE, Point, Sheet
from generator.figures import Figures

_NEAR = 130.0
_FAR = 104.0
_TALL = 118.0


def winding(figures: Figures) -> str:
    """Seen from behind the tail, eye at the height of the sticks: level with one another, then twisted."""
    sheet = Sheet(
        "winding",
        title="Two sticks show twist",
        words="Lay one straight stick across the board near the tail and one near the nose. Look along the board over "
        "the near stick. If the far stick shows the same height left and right, there is no twist. If it shows more on "
        "one side, the board is twisted.",
    )
    sheet.note(EDGE, 18, "Seen from behind the tail, one eye shut", "d-small d-bold")
    y = _view(sheet, 34, tilt=0.0)
    y = sheet.note(EDGE, y, "Same height left and right: no twist")
    y = _view(sheet, y + 4, tilt=0.06)
    y = sheet.note(EDGE, y, "More showing on one side: twisted. Raise or lower one end of a crossbar until it is gone.")
    return sheet.svg(y - 4)


def _view(sheet: Sheet, top: float, *, tilt: float) -> float:
    """The two sticks over the board's end; `tilt` is the slope of the far one."""
    x, near = WIDE / 2, top + 52

    def bar(middle: Point, half: float, tall: float, slope: float, classes: str) -> None:
        mx, my = middle
        sheet.shape(
            (
                (mx - half, my + slope * half),
                (mx + half, my - slope * half),
                (mx + half, my - slope * half + tall),
                (mx - half, my + slope * half + tall),
            ),
            classes,
        )

    bar((x, near - 16), _FAR, 22, tilt, "d-thing")
    for side in (-1, 1):
        far = near - 16 - side * tilt * (_FAR - 12)
        span(sheet, (x + side * (_FAR - 12), far), (x + side * (_FAR - 12), near))
    bar((x, near), _NEAR, 15, 0, "d-wood")
    crown = [(x + 84 * t, near + 15 + 5 * t * t) for t in (i / 10 for i in range(-10, 11))]
    sheet.shape([*crown, (x + 76, near + 40), (x - 76, near + 40)], "d-paper")
    sheet.text(x, near + 33, "tail of the board", anchor="middle")
    sheet.text(x, near + 11.5, "near stick", anchor="middle")
    sheet.text(x, near - 24, "far stick", anchor="middle")
    (right if not tilt else wrong)(sheet, EDGE + 10, top + 12)
    return near + 60
