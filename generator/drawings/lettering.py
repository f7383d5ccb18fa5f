"""How wide words come out, and where labels can stand without running into one another.

Widths are those of a wide face (DejaVu Sans, hundredths of the text size, read from its own advance widths), so
that the narrower faces of phones and laptops fit too. All lengths here are drawing units.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence

SMALL = 12.0
TEXT = 13.0
HEAD = 14.0
LINE = 1.3
"""Distance of two lines of text over the text size; a line's own box is about 1.17 of it."""

_BOLD = 1.13
_GROUPS = {
    27: "'",
    30: "IJijl",
    33: " ,./:;\\|",
    39: "-f()[]t!",
    46: 'r"',
    50: "*_`szc?",
    58: "FkLvxyP",
    63: "TYaoeESbdghnpqu",
    66: "$0123456789{}K",
    70: "ABCRVXZU",
    78: "&DGHNOQ",
    85: "#+<=>^~Mw",
    99: "%mW@",
}
_WIDTH = {char: width / 100 for width, chars in _GROUPS.items() for char in chars}
_WIDEST_LETTER = 0.99
_WIDE_CHARACTER = 1.1


def _char_width(char: str) -> float:
    """Width of one character over the text size; generous for what the table does not hold."""
    known = _WIDTH.get(char)
    if known is not None:
        return known
    if unicodedata.combining(char):
        return 0.0
    base = unicodedata.normalize("NFD", char)[0]
    if base != char:
        return _char_width(base)
    return _WIDE_CHARACTER if unicodedata.east_asian_width(char) in "WF" else _WIDEST_LETTER


def width(words: str, size: float = SMALL, *, bold: bool = False) -> float:
    """Width of a line of text in a wide face."""
    return sum(map(_char_width, words)) * size * (_BOLD if bold else 1.0)


def shorten(words: str, room: float, size: float = SMALL, *, bold: bool = False) -> str:
    """The words, cut with an ellipsis if they are wider than `room`."""
    if width(words, size, bold=bold) <= room:
        return words
    kept = words
    while kept and width(kept.rstrip() + "…", size, bold=bold) > room:
        kept = kept[:-1]
    return kept.rstrip() + "…"


def wrap(words: str, room: float, size: float = SMALL, *, bold: bool = False) -> tuple[str, ...]:
    """The words in lines no wider than `room`; a single word that is wider is cut."""
    lines: list[str] = []
    current = ""
    for word in words.split():
        trial = f"{current} {word}".strip()
        if current and width(trial, size, bold=bold) > room:
            lines.append(current)
            trial = word
        current = shorten(trial, room, size, bold=bold)
    return (*lines, current) if current else tuple(lines)


def spread(wanted: Sequence[float], sizes: Sequence[float], *, low: float, high: float) -> tuple[float, ...]:
    """Middles of labels along a line: in the given order, each near its wanted middle, none overlapping.

    `wanted` must rise. Labels are moved together as little as the least squares sum asks; if they need more room
    than `low` to `high` has, they are spread evenly over it and past `high`.
    """
    blocks: list[list[float]] = []  # sum of (wanted − offset), count, total size
    for middle, size in zip(wanted, sizes, strict=True):
        blocks.append([middle - size / 2, 1, size])
        while len(blocks) > 1 and _start(blocks[-2], low, high) + blocks[-2][2] > _start(blocks[-1], low, high):
            last = blocks.pop()
            before = blocks[-1]
            before[0] += last[0] - last[1] * before[2]
            before[1] += last[1]
            before[2] += last[2]
    out: list[float] = []
    places = iter(sizes)
    for block in blocks:
        at = _start(block, low, high)
        for _ in range(int(block[1])):
            size = next(places)
            out.append(at + size / 2)
            at += size
    return tuple(out)


def _start(block: Sequence[float], low: float, high: float) -> float:
    return max(low, min(block[0] / block[1], high - block[2]))
