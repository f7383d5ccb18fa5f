"""Pages of a guide as one HTML document for paper: no scripts, no theme, every link inside it or plain words."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import partial
from html.parser import HTMLParser

from markupsafe import Markup

from generator.deliver.page_html import page_html
from generator.deliver.policy import script_hash
from generator.deliver.sources import GUIDE_SRC
from generator.guide.pages import Group, Page
from generator.guide.typed import SIGNS
from generator.guide.words import safe_text

STYLES = ("assets/drawings.css", "assets/shedbook.css", "assets/shed.css", "assets/print.css", "paper/sheets.css")
PAPERS = {"a4": "A4", "letter": "letter"}
QUIET = frozenset({"fig", "word"})
"""Links of these classes are so many that on paper they say nothing of where they lead."""

_POINTS = re.compile(r'(\s(?:id|for|aria-labelledby|aria-describedby|aria-controls)=")([^"]*)"')
_ID = re.compile(r'\sid="([^"]*)"')
_WITHIN = re.compile(r'<a\b[^>]*\shref="#([^"]*)"[^>]*>(.*?)</a>', re.DOTALL)
_HREF = re.compile(r'\shref="([^"]*)"')
_CLASS = re.compile(r'\sclass="([^"]*)"')
_IN_SVG = re.compile(r"(url\(#)([^)]*)(?=\))|((?:xlink:)?href=\"#)([^\"]*)(?=\")")
_WORDS = re.compile(r"<[^>]*>")


@dataclass(frozen=True, slots=True)
class Front:
    """What the first sheet says, all of it safe for HTML: board, builder, maker with contact, a drawing."""

    board: str
    builder: str
    maker: str
    drawing: str


@dataclass(frozen=True, slots=True)
class Sheets:
    """What is to be printed.

    `title` is the guide's, safe for HTML, and stands at the foot of every sheet. `pages` are printed in this order;
    `all_pages` are those of the guide, to which a link may lead, and `links` are the addresses outside it. With a
    `front`, a first sheet and the contents, grouped as in `nav`, come before them. With a `wall`, a drawing that is
    safe for HTML, a sheet with it alone does. `paper` is a key of `PAPERS`.
    """

    title: str
    pages: tuple[Page, ...]
    all_pages: tuple[Page, ...]
    links: tuple[str, ...]
    nav: tuple[Group, ...]
    paper: str
    front: Front | None = None
    wall: str = ""


def sheets_html(sheets: Sheets, numbers: Mapping[str, int] | None) -> str:
    """The document.

    Args:
        numbers: On which page of the print each place is, by its id in the document; empty while nobody knows yet
            (room is left for them), None if nobody ever will.
    """
    css = "\n".join((GUIDE_SRC / name).read_text("utf-8") for name in STYLES) + _own_css(sheets)
    articles = _without_dangling("".join(_article(page, sheets, numbers) for page in sheets.pages))
    policy = f"default-src 'none'; img-src data:; style-src {script_hash(css)}"
    begin = _front(sheets.front) + _contents(sheets, numbers) if sheets.front else _line(sheets) + _wall(sheets.wall)
    return (
        '<!doctype html>\n<html lang="en-GB" dir="ltr"><head><meta charset="utf-8">'
        f'<meta http-equiv="Content-Security-Policy" content="{policy}">'
        f"<title>{_doc_title(sheets)}</title><style>{css}</style></head>"
        f'<body class="md-typeset">\n{begin}\n{articles}</body></html>\n'
    )


def place_of(page: Page, anchor: str = "") -> str:
    """The id in the document of a page, or of a place on it."""
    return f"{page.slug}--{anchor}" if anchor else page.slug


def _own_css(sheets: Sheets) -> str:
    title = _css_string(Markup(sheets.title).unescape())  # entities back into characters; escaped for CSS at once
    own = f"\n@page {{ size: {PAPERS[sheets.paper]}; }}\n:root {{ --sb-sheet-title: {title}; }}\n"
    if sheets.front:
        own += "@page :first { @bottom-left { content: none; } @bottom-right { content: none; } }\n"
    return own


def _css_string(text: str) -> str:
    """`text` as a string of CSS; whatever could mean something there, or to HTML, is written as its number.

    Source: CSS Syntax Module Level 3 (W3C), 4.3.7, escaped code points.
    """
    safe = "".join(char if char.isalnum() or char == " " else f"\\{ord(char):x} " for char in text)
    return f'"{safe}"'


def _doc_title(sheets: Sheets) -> str:
    if sheets.front:
        return sheets.title
    return f"{sheets.title} &#8211; {', '.join(str(safe_text(page.title)) for page in sheets.pages)}"


def _line(sheets: Sheets) -> str:
    return f'<p class="sb-sheet-line">{sheets.title}</p>'


def _front(front: Front) -> str:
    return (
        f'<section class="sheet-front"><h1>{front.board}</h1>'
        f'<p class="sheet-for">The build guide of {front.builder}</p>'
        f'<figure class="drawing">{_rewritten(front.drawing, _Place("front"))}</figure>'
        f'<p class="sheet-by">From {front.maker}. This print does not change when the guide does. Where the two differ,'
        " the newest guide counts.</p></section>"
    )


def _wall(drawing: str) -> str:
    """The drawing as large as a sheet is, to hang above the bench; nothing if there is none."""
    if not drawing:
        return ""
    figure = f'<figure class="drawing">{_rewritten(drawing, _Place("wall"))}</figure>'
    return f'<section class="sheet-wall">{figure}</section>'


def _contents(sheets: Sheets, numbers: Mapping[str, int] | None) -> str:
    by_file = {page.file: page for page in sheets.pages}
    parts = ['<nav class="sheet-contents" aria-label="Contents"><h1>Contents</h1>']
    for group in sheets.nav:
        here = [by_file[file] for file in group.files if file in by_file]
        if here:
            parts += [f"<h2>{safe_text(group.title)}</h2>" if group.title else "", "<ul>"]
            parts += [_entry(page, numbers) for page in here]
            parts.append("</ul>")
    left_out = [page.title for page in sheets.all_pages if page.file not in by_file]
    if left_out:
        names = ", ".join(f"“{safe_text(title)}”" for title in left_out)
        parts.append(f"<p>Only in the guide on your phone: {names}.</p>")
    return "".join([*parts, "</nav>"])


def _entry(page: Page, numbers: Mapping[str, int] | None) -> str:
    number = "" if numbers is None else str(numbers.get(place_of(page), "00"))
    return (
        f'<li><a href="#{place_of(page)}"><span>{safe_text(page.title)}</span>'
        '<span class="sheet-contents__dots"></span>'
        f'<span class="sheet-contents__page">{number}</span></a></li>'
    )


def _without_dangling(html: str) -> str:
    """Links to places that only a screen has become plain words."""
    ids = set(_ID.findall(html))
    return _WITHIN.sub(lambda found: found[0] if found[1] in ids else found[2], html)


def _article(page: Page, sheets: Sheets, numbers: Mapping[str, int] | None) -> str:
    html = _rewritten(page_html(page.markdown), _Place(page.slug, page.file, sheets, numbers))
    return f'<article class="sheet" id="{place_of(page)}">\n{html}\n</article>\n'


@dataclass(frozen=True, slots=True)
class _Place:
    """Where a piece of HTML stands, for its ids and links."""

    slug: str
    file: str = ""
    sheets: Sheets | None = None
    numbers: Mapping[str, int] | None = None


def _rewritten(html: str, place: _Place) -> str:
    rewriter = _Rewriter(place)
    rewriter.feed(html)
    rewriter.close()
    return "".join(rewriter.out)


@dataclass(slots=True)
class _Rewriter(HTMLParser):
    """Gives the HTML back with ids of its own, links that lead somewhere, and nothing that only a screen can use."""

    place: _Place
    out: list[str] = field(default_factory=list)
    _skipping: str = ""
    _depth: int = 0
    _place_of_script: Mapping[str, str] = field(default_factory=dict)
    _label: list[str] = field(default_factory=list)
    _in_label: str = ""
    _ends: list[Callable[[], str]] = field(default_factory=list)

    def __post_init__(self) -> None:
        HTMLParser.__init__(self, convert_charrefs=False)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        named = {name: value or "" for name, value in attrs}
        if self._skipping:
            self._depth += tag == self._skipping
            self._begin_label(tag, named.get("class", ""))
            return
        if tag in {"script", "button", "template"} or "data-shed" in named:
            self._skipping, self._depth, self._place_of_script, self._label = tag, 1, named, []
            return
        raw = self._own_ids(self.get_starttag_text() or "")
        self.out.append(self._link(raw) if tag == "a" else self._own_uses(raw))

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self._put(self._own_uses(self._own_ids(self.get_starttag_text() or "")))

    def handle_endtag(self, tag: str) -> None:
        if self._skipping:
            self._depth -= tag == self._skipping
            if tag == self._in_label:
                self._in_label = ""
            if self._depth == 0:
                self._skipping = ""
                self.out.append(_to_write_on(self._place_of_script, "".join(self._label)))
            return
        self.out.append(self._ends.pop()() if tag == "a" and self._ends else f"</{tag}>")

    def handle_data(self, data: str) -> None:
        self._put(data)

    def handle_entityref(self, name: str) -> None:
        self._put(f"&{name};")

    def handle_charref(self, name: str) -> None:
        self._put(f"&#{name};")

    def _put(self, text: str) -> None:
        if not self._skipping:
            self.out.append(text)
        elif self._in_label:
            self._label.append(text)

    def _begin_label(self, tag: str, classes: str) -> None:
        """Keep the words of a place of scripts that say what it is for."""
        if tag == "label" or "clock-name" in classes or "clock-left" in classes:
            self._in_label = tag
        if self._in_label and self._label and (tag == "span" or "clock-left" in classes):
            self._label.append(", ")

    def _own_ids(self, raw: str) -> str:
        """The tag with every id that it has or points to made one of this page."""
        return _POINTS.sub(lambda found: f'{found[1]}{" ".join(map(self._own, found[2].split()))}"', raw)

    def _own_uses(self, raw: str) -> str:
        """A tag of a drawing with the parts of the same drawing that it uses."""
        return _IN_SVG.sub(lambda found: f"{found[1] or found[3]}{self._own(found[2] or found[4])}", raw)

    def _own(self, name: str) -> str:
        return f"{self.place.slug}--{name}"

    def _link(self, raw: str) -> str:
        """The start of a link, or of plain words if it leads out of what is printed; the end is remembered."""
        found, sheets = _HREF.search(raw), self.place.sheets
        href = Markup(found[1]).unescape() if found else ""
        if sheets is None or href in sheets.links:
            self._ends.append(lambda: "</a>")
            return raw
        classes = _CLASS.search(raw)
        names = set(classes[1].split()) if classes else set()
        file, _, anchor = href.partition("#")
        page = _page(sheets.all_pages, file or self.place.file)
        if page is not None and page.file in {one.file for one in sheets.pages}:
            target = place_of(page, anchor)
            see = "" if names & QUIET or page.file == self.place.file else self._see(target, place_of(page))
            self._ends.append(lambda: f"</a>{see}")
            return _HREF.sub(lambda _: f' href="#{target}"', raw)
        if names & QUIET or page is None:
            self._ends.append(lambda: "</span>")
            return f"<span{classes[0] if classes else ''}>"
        self._ends.append(partial(self._elsewhere, page.title, len(self.out) + 1))
        return '<span class="sheet-elsewhere">'

    def _see(self, target: str, otherwise: str) -> str:
        numbers = self.place.numbers
        if numbers is None:
            return ""
        number = numbers.get(target, numbers.get(otherwise, "00"))
        return f'<span class="sheet-see"> (page {number})</span>'

    def _elsewhere(self, title: str, start: int) -> str:
        """The end of words that led to a page which is not printed; its title is said unless the words do."""
        words = Markup(_WORDS.sub("", "".join(self.out[start:]))).unescape()
        return "</span>" if title.lower() in words.lower() else f" (see “{safe_text(title)}”)</span>"


def _to_write_on(place: Mapping[str, str], label: str) -> str:
    """What paper has where the phone has a clock or a field to type into: lines to write on. Else nothing.

    Args:
        place: The attributes of the place.
        label: The words in it that say what it is for, as they stand in the page.
    """
    line, name = '<span class="sheet-write__line"></span>', " ".join(label.split())
    if place.get("data-shed") == "clock":
        return f'<p class="sheet-write"><span>{name}: began at</span>{line}<span>over at</span>{line}</p>'
    if place.get("data-shed") == "measured" and "data-field" in place:
        unit = safe_text(SIGNS.get(place.get("data-unit", ""), place.get("data-unit", "")))
        return f'<p class="sheet-write"><span class="sheet-write__label">{name}</span>{line}<span>{unit}</span></p>'
    return ""


def _page(pages: Sequence[Page], file: str) -> Page | None:
    name = file.removesuffix(".html") + ".md" if file.endswith(".html") else file
    return next((page for page in pages if page.file == name), None)
