"""Figures, drawings and template texts in; the pages of one builder's guide as Markdown out."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Any

import jinja2
from markupsafe import Markup

from generator.figure_sets.tonight import with_reading_times
from generator.figures import Figures
from generator.guide.boxes import BLOCK, guide_boxes, laid_out, word_count
from generator.guide.environment import NUMBERS, page_environment
from generator.guide.needs import needs
from generator.guide.numbers import number_groups
from generator.guide.stages import BUILD_STAGES, STAGES, Stage
from generator.guide.terms import PAGE, with_terms
from generator.guide.whys import explained, glossary, page_whys
from generator.guide.words import Typed, safe_text

MARKDOWN_EXTENSIONS: tuple[str, ...] = ("attr_list", "md_in_html", "tables", "toc")
MARKDOWN_EXTENSION_CONFIGS: dict[str, dict[str, Any]] = {
    "tables": {"use_align_attribute": True},  # a style attribute would break the content security policy
    "toc": {"toc_depth": "2-3"},
}
"""What the page texts are written for; the site must turn Markdown into HTML with these and no others."""

WITHOUT_TERMS = frozenset({PAGE, NUMBERS, "tonight.md"})
"""Pages whose words are not linked to the glossary: itself, the list of all numbers, and what repeats other pages."""
BOTTOM = ("panels", "frame", "keying", "trace", "bench", "rocker", "clamp", "glue")
TOP = ("inside", "top-deck", "rails", "shaping", "fin", "seal", "water")
NAV = (
    ("Start here", ("board", "tonight", "ready", "shopping")),
    ("The bottom", BOTTOM),
    ("The top and the finish", TOP),
    ("Look up", ("safety", "words", "numbers")),
)


@dataclass(frozen=True, slots=True)
class Page:
    """One page: its file name in the guide, its title, its Markdown and the slug of its stage.

    `needs` are the scripts and styles that it loads, by file name; the theme's own and `shed.js` come before them.
    """

    file: str
    title: str
    markdown: str
    slug: str
    needs: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Group:
    """Pages that stand together in the contents, by file name."""

    title: str
    files: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Guide:
    """One builder's guide.

    A `title` of the type Markup is already safe for HTML and Markdown. `links` are the only addresses outside the
    guide that a page may lead to, `nav` are the pages as they stand together in the contents, and `here` is the slug
    of the stage that the builder is at. `key` is the name under which a phone keeps what was ticked and typed.
    """

    title: str
    pages: tuple[Page, ...]
    links: tuple[str, ...] = ()
    nav: tuple[Group, ...] = ()
    here: str = ""
    key: str = ""


def write_guide(figures: Figures, drawings: Mapping[str, str], sources: Mapping[str, str]) -> Guide:
    """All pages of one builder's guide, in the order of the stages.

    Args:
        figures: All that pages may show.
        drawings: SVG text by name.
        sources: Template texts by name, such as "pages/bench.md" and "cautions/dust.md".

    Raises:
        UnknownFigure: a template names a figure that is not there.
        KeyError: a template shows a drawing that is not there.
        jinja2.TemplateError: a template is missing or faulty, or uses a name that is not there.
    """
    environment = _environment(figures, drawings, sources)
    built = {stage.slug: _page(stage, environment) for stage in BUILD_STAGES}
    told = with_reading_times(figures, {slug: word_count(page.markdown) for slug, page in built.items()})
    done = {row["stage"] for row in figures.rows["plan"] if row["done"]}
    told = replace(told, data={**told.data, BLOCK: guide_boxes(built.values(), done)})
    looked_up = _environment(told, drawings, sources)  # these pages tell of the stages' pages, so they come last
    groups = number_groups(told)
    looked_up.globals |= {
        "laid_out": {slug: Markup(laid_out(page)) for slug, page in built.items()},  # rendered, so safe already
        "groups": groups,
    }
    pages = _with_whys(tuple(built.get(stage.slug) or _page(stage, looked_up) for stage in STAGES), groups)
    contact, site = contact_address(str(figures.said["maker.contact"])), str(figures.said["maker.site"])
    title = safe_text(f"{figures.said['builder.name']}: {figures.said['board.name']}")
    return Guide(
        title,
        pages,
        links=(contact, site),
        nav=_contents(),
        here=str(figures.said["stage"]),
        key=storage_key(str(figures.said["slug"])),
    )


def _environment(figures: Figures, drawings: Mapping[str, str], sources: Mapping[str, str]) -> jinja2.Environment:
    environment = page_environment(figures, drawings, sources)
    environment.globals.update(
        contact_address=Typed(contact_address(str(figures.said["maker.contact"]))),
        stages=tuple(_facts(stage) for stage in STAGES),
    )
    return environment


def _page(stage: Stage, environment: jinja2.Environment) -> Page:
    following = next((after for before, after in pairwise(STAGES) if before == stage), None)
    text = environment.get_template(f"pages/{stage.slug}.md").render(
        here=_facts(stage), following=_facts(following) if following else None
    )
    markdown = _tidy(text if stage.file in WITHOUT_TERMS else with_terms(text))
    return Page(stage.file, stage.title, markdown, stage.slug, needs(markdown))


def _with_whys(pages: tuple[Page, ...], groups: Iterable[Mapping[str, Any]]) -> tuple[Page, ...]:
    """The pages, each with what it tells about its own numbers and words; the two that list them need none."""
    numbers, words = explained(groups), glossary(next(page.markdown for page in pages if page.file == PAGE))
    blocks = {page.file: page_whys(page.markdown, numbers, words) for page in pages if page.file not in (PAGE, NUMBERS)}
    return tuple(
        replace(page, markdown=f"{page.markdown}\n{blocks[page.file]}\n") if blocks.get(page.file) else page
        for page in pages
    )


def storage_key(slug: str) -> str:
    """The name under which a phone keeps what belongs to one guide: always the same for a builder, and no name."""
    return hashlib.sha256(f"shedbook guide {slug}".encode()).hexdigest()[:16]


def contact_address(contact: str) -> str:
    """The address behind the maker's contact: a mail address as mailto:, anything else as a telephone number."""
    if "@" in contact:
        return f"mailto:{contact}"
    return "tel:" + "".join(char for char in contact if char in "+0123456789")


def _facts(stage: Stage) -> dict[str, Any]:
    return {"slug": stage.slug, "title": stage.title, "file": stage.file}


def _contents() -> tuple[Group, ...]:
    """The contents: start, the stages in order, what is looked up."""
    files = {stage.slug: stage.file for stage in STAGES}
    return tuple(Group(title, tuple(files[slug] for slug in slugs)) for title, slugs in NAV)


def _tidy(text: str) -> str:
    """The text with no blank line doubled and none at the ends."""
    return re.sub(r"\n[ \t]*(?:\n[ \t]*)+\n", "\n\n", text).strip() + "\n"
