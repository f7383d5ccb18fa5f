"""What other pages tell of the stages' pages: their boxes to tick, what they lay out, how much there is to read."""

from __future__ import annotations

import html
import re
from collections.abc import Collection, Iterable
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from generator.guide.pages import Page

BLOCK = "guide-boxes"
"""The id of the data block that holds all boxes."""

_BOX = re.compile(r'<input type="checkbox" class="tick-box"[^>]*? data-tick="([^"]+)">\s*<label[^>]*>(.*?)</label>')
_TAG = re.compile(r"<[^>]*>")
_UNREAD = re.compile(r"<(script|svg)\b.*?</\1>", re.DOTALL)
_TARGET = re.compile(r"\]\([^)]*\)|\{[:.#][^}]*\}")
_WHOLE_BOARD = re.compile(r'<div class="whole-board".*?</div>', re.DOTALL)
_LAYOUT = re.compile(r"^## [^\n]*\{: #layout \}\n(.*?)(?=^## )", re.DOTALL | re.MULTILINE)


def boxes(markdown: str) -> list[list[str]]:
    """The boxes of a page in order: id, and title as plain text."""
    return [[id_, " ".join(html.unescape(_TAG.sub("", title)).split())] for id_, title in _BOX.findall(markdown)]


def guide_boxes(pages: Iterable[Page], done: Collection[str] = ()) -> dict[str, Any]:
    """All boxes of these pages for scripts: `stages`, each with slug, title, the finished file, and its boxes.

    `done` are the slugs that the builder's file counts as done; their boxes are not asked for first.
    """
    return {
        "stages": [
            {
                "slug": p.slug,
                "title": p.title,
                "file": p.file.removesuffix(".md") + ".html",
                "done": p.slug in done,
                "boxes": boxes(p.markdown),
            }
            for p in pages
        ]
    }


def word_count(markdown: str) -> int:
    """The words that somebody reads on a page; drawings, data and the targets of links are none."""
    return len(_TARGET.sub("", _TAG.sub(" ", _UNREAD.sub(" ", markdown))).split())


def laid_out(page: Page) -> str:
    """What a page lays out, as Markdown that may stand on another page; without what is told for the whole board.

    Raises:
        ValueError: the page has no such part.
    """
    found = _LAYOUT.search(page.markdown)
    if not found:
        raise ValueError(f"{page.file} lays nothing out")
    return _WHOLE_BOARD.sub("", found[1]).strip().replace("](#", f"]({page.file}#")
