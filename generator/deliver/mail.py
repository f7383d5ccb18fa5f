"""A mail draft for one builder: the link to their guide, what it is, and what comes next. The maker sends it."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Mapping
from email.header import Header
from email.message import EmailMessage
from email.policy import SMTP
from pathlib import Path
from typing import Any

from generator.deliver.keys import key_of
from generator.deliver.page_html import page_html
from generator.deliver.plain import Block, blocks
from generator.deliver.whole_file import OWNER, put, told_plainly
from generator.figures import Figures
from generator.guide.pages import Guide
from generator.guides import draw_all, guide_of, read_figures

LONGEST_NAME = 120
LONGEST_WORD = 39
"""Bytes in one coded word after "From: ". Source: RFC 2047 (1996), section 2: a line with one has 76 characters."""

_PLAIN_WORDS = re.compile(r"[A-Za-z0-9 ,.:;!'&()+/-]{1,60}")
_THERE = " on that page"
_BELOW = re.compile(r"(?<=listed) below\b|(?<=support) below$")
_ADDRESS = re.compile(r"[A-Za-z0-9._+-]{1,64}@[A-Za-z0-9.-]{1,190}")
_TURNS_TEXT = frozenset("\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")


def write_draft(data: Path, slug: str, out: Path) -> None:
    """Write the draft of builder `slug` to `out`, for its owner's eyes alone; a key is made if there is none.

    Raises:
        BadInput: there is no such builder, or what the files say, or the file of keys, is wrong.
        CannotWrite: the draft or a new key can't be written.
    """
    figures = read_figures(data, slug)
    guide = guide_of(figures, draw_all(figures))
    address = guide_address(str(figures.said["maker.site"]), key_of(data, slug))
    with told_plainly(out):
        put(out, draft(figures, guide, address), mode=OWNER)


def guide_address(site: str, key: str) -> str:
    """Where a guide stands: below the maker's site, which may or may not end with a slash."""
    return f"{site.rstrip('/')}/{key}/"


def draft(figures: Figures, guide: Guide, address: str) -> bytes:
    """The draft as a file that mail programs open to be sent. The same input gives the same bytes.

    It has no date, no number and no receiver: these belong to the sending.

    Source: RFC 5322 (2008) for the form, RFC 2047 (1996) for names; `X-Unsent` is what mail programs know a draft by.
    """
    said = figures.said
    heads = [("Subject", worded(f"{said['board.name']}: your build guide"))]
    contact = str(said["maker.contact"])
    if _ADDRESS.fullmatch(contact):
        heads.append(("From", f"{_phrase(str(said['maker.name']))}\r\n <{contact}>"))
    heads += [("X-Unsent", "1"), ("Content-Language", "en-GB")]
    body = EmailMessage(policy=SMTP)
    body.set_content("\n".join(_lines(figures, guide, address)) + "\n", charset="utf-8", cte="quoted-printable")
    return "".join(f"{name}: {value}\r\n" for name, value in heads).encode("ascii") + body.as_bytes()


def one_line(text: str) -> str:
    """A typed text on one line, without anything that acts instead of being read, and not longer than a name is."""
    kept = (" " if char.isspace() else char for char in text if char not in _TURNS_TEXT)
    line = " ".join("".join(char for char in kept if unicodedata.category(char) not in {"Cc", "Cs"}).split())
    return line if len(line) <= LONGEST_NAME else line[: LONGEST_NAME - 1].rstrip() + "…"


def worded(text: str) -> str:
    """A header's text in ASCII. What could be read as more than words is encoded whole, so that it reads as typed."""
    line = one_line(text)
    if _PLAIN_WORDS.fullmatch(line):
        return line
    return Header(line, "utf-8", maxlinelen=72, header_name="Subject").encode(linesep="\r\n")


def _phrase(name: str) -> str:
    """A name before an address: in quotes if it is plain words, else as one coded word, cut to what fits in one.

    Some readers put spaces between coded words here, so there is one only.
    """
    line = one_line(name)
    if _PLAIN_WORDS.fullmatch(line):
        return f'"{line}"'
    if len(line.encode()) > LONGEST_WORD:
        line = line.encode()[: LONGEST_WORD - len("…".encode())].decode(errors="ignore").rstrip() + "…"
    return Header(line, "utf-8").encode() if line else '""'


def _lines(figures: Figures, guide: Guide, address: str) -> list[str]:
    said, rows = figures.said, figures.rows
    stage = next(page for page in guide.pages if page.slug == said["plan.next_stage"])
    shopping = next(page for page in guide.pages if page.slug == "shopping")
    laid, bought = blocks(page_html(stage.markdown)), blocks(page_html(shopping.markdown))
    lines = [
        f"Hello {one_line(said['builder.name'])},",
        "",
        f"Your guide for building the {one_line(said['board.name'])} is ready. It is made for you: for your board, your"
        " table, your tools and your shed.",
        "",
        address,
        "",
        "The address is yours alone. Nobody can guess it, but whoever has it can read the guide. Please do not pass it"
        " on.",
        "",
        "- Open it once where reception is good. After that it works in the shed without any.",
        "- Put it on your phone's home screen, by the browser's menu, before you tick anything. It keeps best there.",
        "- What you tick and write in it stays on that phone.",
        "",
        f"WHAT COMES NEXT: {stage.title.upper()}",
        "",
        f"{one_line(said['plan.next_what'])}: {said['plan.next_when']}"
        f"{', with your helper' if said['plan.next_two'] else ''}.",
    ]
    if not said["reached"]:
        lines += [
            "",
            "Please read the page of the bench first. With the things you have, your rocker can't be reached yet, and"
            " the page says what would fix it. Do not glue the bottom before we have agreed on it.",
        ]
    lines += _asked(rows["shop_ask"])
    lines += _list("To lay out for it, in the page's own words:", _laid_out(laid))
    lines += _list("Still to buy for it:", _under(bought, "buy", stage.title))
    lines += _list("To borrow for it:", _under(bought, "borrow", stage.title))
    lines += [
        "",
        "Read that page to its end the evening before. If something in it looks wrong, write to me before you cut or"
        " glue anything.",
        "",
        one_line(said["maker.name"]),
        one_line(said["maker.contact"]),
    ]
    return lines


def _laid_out(found: Iterable[Block]) -> list[str]:
    """What a page lays out first; what it lists after that, in groups of its own, is only named."""
    items: list[str] = []
    for block in (block for block in found if block.section == "layout"):
        if block.tag == "li":
            items.append(_BELOW.sub(_THERE, block.text))
        elif items:
            told = any(_THERE in item for item in items)
            return items if told else [*items, "and what else that page lists"]
    return items


def _under(found: Iterable[Block], section: str, title: str) -> list[str]:
    """The items of a section of the shopping page that stand under a stage's name."""
    items, mine = [], False
    for block in found:
        if block.section == section and block.tag == "p":
            mine = block.text == title or block.text.startswith(f"{title}, from ")
        elif block.section == section and block.tag == "li" and mine:
            items.append(block.text)
    return items


def _list(heading: str, items: Iterable[str]) -> list[str]:
    """The items under a heading, with a paragraph between them as a line of its own; nothing if there are none."""
    lines = [f"- {item}" for item in items]
    return ["", heading, "", *lines] if lines else []


def _asked(rows: Iterable[Mapping[str, Any]]) -> list[str]:
    asked = (f"{one_line(row['what'])} ({one_line(row['where'])})" for row in rows)
    return _list("Please send me these numbers. The guide does not guess them:", asked)
