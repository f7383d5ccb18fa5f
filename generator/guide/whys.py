"""What each page tells by itself about its own numbers and words, so that a tap need not leave the page."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from html import unescape
from types import MappingProxyType
from typing import Any

from markupsafe import Markup

from generator.guide.environment import NUMBERS, data_block
from generator.guide.terms import PAGE as WORDS

BLOCK = "page-whys"
"""The id of the data block."""

_NUMBER = re.compile(rf"\]\({re.escape(NUMBERS)}#([a-z0-9_-]+)\)\{{\.fig\}}")
_WORD = re.compile(rf"\]\({re.escape(WORDS)}#word-([a-z0-9-]+)\)\{{\.word\}}")
_ENTRY = re.compile(
    r"^### (?P<title>.+?) \{: #word-(?P<slug>[a-z0-9-]+) \.word-entry \}\n(?P<text>(?:(?!#).+\n|\n)*)", re.MULTILINE
)
_LINK = re.compile(r"\[([^\]]*)\]\([^)]*\)(?:\{[^}]*\})?")


def explained(groups: Iterable[Mapping[str, Any]]) -> Mapping[str, tuple[str, ...]]:
    """By the id of its place on the page of all numbers: what a figure's card says, line by line.

    The lines are label, number, range ("" if there is none), how it was got, and kind with source, as on the card.

    Args:
        groups: As from `generator.guide.numbers.number_groups`.
    """
    return MappingProxyType(
        {str(card["id"]): _lines(card) for group in groups for card in group["figures"]}  # ids are the figures' own
    )


def _lines(card: Mapping[str, Any]) -> tuple[str, ...]:
    kind, source = _folded(card["kind"]), _folded(card["source"])
    trust = f"{kind}: {source}" if source and source != kind else kind
    return (*(_folded(card[part]) for part in ("label", "shown", "spread", "how")), trust)


def glossary(markdown: str) -> Mapping[str, tuple[str, str]]:
    """Title and text of each entry of the glossary's page, without marks, by the end of the entry's id."""
    return MappingProxyType(
        {found["slug"]: (_plain(found["title"]), _plain(found["text"])) for found in _ENTRY.finditer(markdown)}
    )


def page_whys(
    markdown: str, numbers: Mapping[str, tuple[str, ...]], words: Mapping[str, tuple[str, str]]
) -> Markup | None:
    """The data block for one page: only the numbers and words that it links to; None if there are none.

    `numbers` holds, by id, places in `texts` of the card's lines, so that a text that many share stands once; `words`
    holds title and text by the end of the entry's id.
    """
    texts: dict[str, int] = {}
    linked = dict.fromkeys(_NUMBER.findall(markdown))
    cards = {name: [texts.setdefault(line, len(texts)) for line in numbers[name]] for name in linked if name in numbers}
    entries = {name: words[name] for name in dict.fromkeys(_WORD.findall(markdown)) if name in words}
    if not cards and not entries:
        return None
    return data_block(BLOCK, {"numbers": cards, "texts": list(texts), "words": entries})


def _folded(text: object) -> str:
    return " ".join(str(text).split())


def _plain(markdown: str) -> str:
    without_raw = "\n".join(line for line in markdown.split("\n") if not line.lstrip().startswith("<"))
    return _folded(unescape(_LINK.sub(r"\1", without_raw).replace("**", "")))
