"""The one look of all drawings: a sheet that takes marks and gives SVG text.

A sheet is 350 units wide, so that on a phone one unit is about one CSS pixel. Marks carry classes only; colours,
line weights and text sizes belong to `guide_src/assets/drawings.css`, which follows the page's light, dark and print.
Every coordinate is rounded here and nowhere else.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from shapely import LineString

from generator.drawings import lettering

WIDE = 350.0
EDGE = 6.0
"""Room that stays free at both sides of a sheet."""

Point = tuple[float, float]

_NOT_PLAIN = re.compile(r"[^A-Za-z0-9 .,/\u0080-\U0010ffff]")
_SIZES = {"d-small": lettering.SMALL, "d-text": lettering.TEXT, "d-head": lettering.HEAD}
_ANCHORS = {"start": "", "middle": " d-mid", "end": " d-end"}


def safe(words: str) -> str:
    """Text for an SVG that stands in Markdown: white space folded, what could be markup as numeric entities."""
    return _NOT_PLAIN.sub(lambda found: f"&#{ord(found[0])};", " ".join(words.split()))


def number(value: float) -> str:
    """One coordinate: a tenth of a unit, no minus nought."""
    text = f"{value:.1f}".removesuffix(".0")
    return "0" if text == "-0" else text


def thin_out(points: Iterable[Point], tolerance: float = 0.05) -> tuple[Point, ...]:
    """The same line with the points left out that nobody would miss."""
    kept = tuple(points)
    if len(kept) < 3:
        return kept
    return tuple((x, y) for x, y in LineString(kept).simplify(tolerance).coords)


class Sheet:
    """Collects the marks of one drawing; `svg()` gives the whole.

    `name` starts every id, so that several drawings can stand on one page. `title` and `words` are what a screen
    reader says.
    """

    def __init__(self, name: str, *, title: str, words: str) -> None:
        self.name = name
        self._title = title
        self._words = words
        self._marks: list[str] = []

    def line(self, points: Iterable[Point], classes: str = "d-line") -> None:
        """An open line through the points."""
        self._marks.append(f'<path class="d-open {classes}" d="{_path(thin_out(points))}"/>')

    def shape(self, points: Iterable[Point], classes: str) -> None:
        """A closed shape."""
        self._marks.append(f'<path class="{classes}" d="{_path(thin_out(points))}Z"/>')

    def box(self, left: float, top: float, right: float, bottom: float, classes: str, *, round_by: float = 0) -> None:
        """A rectangle, given by its sides."""
        corner = f' rx="{number(round_by)}"' if round_by else ""
        self._marks.append(
            f'<rect class="{classes}" x="{number(left)}" y="{number(top)}"{corner} '
            f'width="{number(right - left)}" height="{number(bottom - top)}"/>'
        )

    def ring(self, x: float, y: float, radius: float, classes: str) -> None:
        """A circle."""
        self._marks.append(f'<circle class="{classes}" cx="{number(x)}" cy="{number(y)}" r="{number(radius)}"/>')

    def text(self, x: float, y: float, words: str, classes: str = "d-small", *, anchor: str = "start") -> None:
        """One line of text on the baseline `y`; `anchor` is the point of the line that `x` gives."""
        self._marks.append(
            f'<text class="{classes}{_ANCHORS[anchor]}" x="{number(x)}" y="{number(y)}">{safe(words)}</text>'
        )

    def note(
        self,
        x: float,
        y: float,
        words: str,
        classes: str = "d-small",
        *,
        anchor: str = "start",
        room: float | None = None,
    ) -> float:
        """Text in as many lines as it takes; gives the baseline after the last.

        Without `room`, the text may run as far as the sheet's nearer edge lets it.
        """
        size = text_size(classes)
        if room is None:
            left, right = x - EDGE, WIDE - EDGE - x
            room = {"start": right, "end": left, "middle": 2 * min(left, right)}[anchor]
        for line in lettering.wrap(words, room, size, bold="d-bold" in classes.split() or "d-head" in classes.split()):
            self.text(x, y, line, classes, anchor=anchor)
            y += size * lettering.LINE
        return y

    def svg(self, height: float) -> str:
        """The drawing as SVG text, `height` units tall."""
        name = self.name
        return (
            f'<svg class="d-sheet" viewBox="0 0 {number(WIDE)} {number(height)}" role="img" '
            f'aria-labelledby="{name}-title {name}-words" xmlns="http://www.w3.org/2000/svg">'
            f'<title id="{name}-title">{safe(self._title)}</title><desc id="{name}-words">{safe(self._words)}</desc>'
            + "".join(self._marks)
            + "</svg>"
        )


def text_size(classes: str) -> float:
    """Size of the text that these classes ask for."""
    return next((size for name, size in _SIZES.items() if name in classes.split()), lettering.SMALL)


def _path(points: Sequence[Point]) -> str:
    steps: list[str] = []
    for x, y in points:
        step = f"{number(x)} {number(y)}"
        if not steps or steps[-1] != step:
            steps.append(step)
    return "M" + "L".join(steps)
