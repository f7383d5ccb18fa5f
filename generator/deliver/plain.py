"""Finished HTML of a page as plain text, block by block: for mail."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from html.parser import HTMLParser

HEADINGS = frozenset({"h1", "h2", "h3"})
BLOCKS = HEADINGS | {"p", "li", "figcaption", "td", "th", "dt", "dd"}
UNREAD = frozenset({"script", "style", "svg", "button", "template"})


@dataclass(frozen=True, slots=True)
class Block:
    """One block: `section` is the id of the heading above it, `tag` what it is (h1, h2, h3, p, li …), `text` plain."""

    section: str
    tag: str
    text: str


def blocks(html: str) -> tuple[Block, ...]:
    """The blocks of `html` in order; what only scripts use, drawings and empty blocks are left out."""
    reader = _Reader()
    reader.feed(html)
    reader.close()
    return tuple(reader.done())


@dataclass(slots=True)
class _Reader(HTMLParser):
    found: list[Block] = field(default_factory=list)
    _section: str = ""
    _tag: str = "p"
    _words: list[str] = field(default_factory=list)
    _skipping: str = ""
    _depth: int = 0

    def __post_init__(self) -> None:
        HTMLParser.__init__(self, convert_charrefs=True)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if self._skipping:
            self._depth += tag == self._skipping
        elif tag in UNREAD or any(name == "data-shed" for name, _ in attrs):
            self._skipping, self._depth = tag, 1
        elif tag in BLOCKS:
            within_item = tag == "p" and self._tag == "li" and not "".join(self._words).strip()
            self._end()
            self._tag = "li" if within_item else tag  # an item's first paragraph is the item
            if tag in HEADINGS:
                self._section = dict(attrs).get("id") or ""
        elif tag == "br":
            self._words.append(" ")

    def handle_endtag(self, tag: str) -> None:
        if self._skipping:
            self._depth -= tag == self._skipping
            if self._depth == 0:
                self._skipping = ""
        elif tag in BLOCKS:
            self._end()

    def handle_data(self, data: str) -> None:
        if not self._skipping:
            self._words.append(data)

    def _end(self) -> None:
        text = " ".join("".join(self._words).split())
        if text:
            self.found.append(Block(self._section, self._tag, text))
        self._words, self._tag = [], "p"

    def done(self) -> Iterator[Block]:
        self._end()
        yield from self.found
