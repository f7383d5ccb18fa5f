"""A guide, one of its pages, or the plan of its bench, as a PDF for paper."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

from markupsafe import Markup

from generator.deliver.chromium import find_chromium, print_pdf
from generator.deliver.pdf_pages import page_of_each_place
from generator.deliver.sheets import Front, Sheets, sheets_html
from generator.deliver.whole_file import put, told_plainly
from generator.guide.pages import Guide, Page
from generator.guide.stages import STAGES
from generator.guide.words import safe_text
from generator.guides import draw_all, guide_of, read_figures
from generator.inputs.fault import BadInput, Fault, shown
from generator.inputs.fields import nearest_name

BENCH_PLAN = ("bench", "rocker")
"""What is wanted on the wall while the bench is laid out: its supports and piles, then the heights to read."""

ON_SCREEN_ONLY = frozenset({"tonight"})
"""Pages that say again, for one stage, what the printed guide holds in its own place."""

NUMBERS = "numbers"
MOST_ROUNDS = 4


@dataclass(frozen=True, slots=True)
class Wanted:
    """What to print: one page by its slug, the plan of the bench, or neither for the whole guide.

    `numbers` puts the page of all the numbers last in the whole guide; it is as long as everything else together.
    """

    stage: str = ""
    bench: bool = False
    numbers: bool = False
    paper: str = "a4"

    @property
    def name(self) -> str:
        """What the file's name says after the builder's."""
        what = self.stage or ("bench-plan" if self.bench else "guide")
        return what if self.paper == "a4" else f"{what}-{self.paper}"


def print_guide(data: Path, slug: str, wanted: Wanted, out: Path, *, tell: Callable[[object], None]) -> None:
    """Write the PDF to `out`; one that was there stays until the new one is whole.

    Raises:
        BadInput: there is no such builder, or what the files say is wrong.
        CannotPrint: there is no browser, or it writes no PDF.
        CannotWrite: the file can't be written.
    """
    chromium = find_chromium()
    figures = read_figures(data, slug)
    drawings = draw_all(figures)
    said = figures.said
    maker = f"{safe_text(said['maker.name'])} ({safe_text(said['maker.contact'])})"
    front = Front(str(safe_text(said["board.name"])), str(safe_text(said["builder.name"])), maker, drawings["plan"])
    sheets = sheets_of(guide_of(figures, drawings), wanted, front)
    if wanted.bench:
        sheets = replace(sheets, wall=drawings["bench"])
    tell("Printing …")
    with told_plainly(out):
        out.parent.mkdir(parents=True, exist_ok=True)
        put(out, printed(sheets, lambda html: print_pdf(html, chromium=chromium, folder=out.parent)))


def known_stage(slug: str) -> str:
    """`slug`, if guides have such a page.

    Raises:
        BadInput: they have none; the nearest name is told.
    """
    slugs = tuple(stage.slug for stage in STAGES)
    if slug in slugs:
        return slug
    allowed, nearest = ", ".join(slugs), nearest_name(slug, slugs)
    raise BadInput([Fault("--stage", "the stage", shown(slug) or "empty", allowed, nearest)])


def sheets_of(guide: Guide, wanted: Wanted, front: Front) -> Sheets:
    """The pages that are wanted, in the order of the guide, as sheets."""
    by_slug = {page.slug: page for page in guide.pages}
    whole = Sheets(str(Markup.escape(guide.title)), (), guide.pages, guide.links, guide.nav, wanted.paper)
    if wanted.stage:
        return replace(whole, pages=(by_slug[wanted.stage],))
    if wanted.bench:
        return replace(whole, pages=tuple(by_slug[slug] for slug in BENCH_PLAN))
    return replace(whole, pages=_whole(guide.pages, numbers=wanted.numbers), front=front)


def _whole(pages: tuple[Page, ...], *, numbers: bool) -> tuple[Page, ...]:
    left_out = ON_SCREEN_ONLY if numbers else ON_SCREEN_ONLY | {NUMBERS}
    return tuple(page for page in pages if page.slug not in left_out)


def printed(sheets: Sheets, print_: Callable[[bytes], bytes]) -> bytes:
    """The PDF with the number of its page wherever one is named.

    A number is known only from the print, and may move what comes after it; so it is printed again until the numbers
    that it names are the ones that it has. If they can't be read or never agree, none is named.
    """

    def pdf_with(numbers: dict[str, int] | None) -> bytes:
        return print_(sheets_html(sheets, numbers).encode("utf-8"))

    if sheets_html(sheets, {}) == sheets_html(sheets, None):
        return pdf_with(None)
    told: dict[str, int] = {}
    for _ in range(MOST_ROUNDS):
        pdf = pdf_with(told)
        found = dict(page_of_each_place(pdf))
        if found and found == told:
            return pdf
        told = found
    return pdf_with(None)
