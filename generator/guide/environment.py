"""The one page environment: strict names, everything escaped, numbers through filters only.

A template gets `said` (words and choices), `rows` (repeated things whose numbers are named by key), `stages`, and
the page it is rendered for. Whatever it prints that is not already safe goes through `safe_text`.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

import jinja2
from markupsafe import Markup

from generator.figures import Figure, Figures
from generator.guide.compiled import COMPILED, never_folded
from generator.guide.typed import typed_filters
from generator.guide.words import Typed, safe_text
from generator.shown import show, show_exact, show_range

NUMBERS = "numbers.md"
_KEY = re.compile(r"[a-z0-9_.-]+")


class UnknownFigure(KeyError):
    """A template names a figure that this guide does not have."""


def page_environment(figures: Figures, drawings: Mapping[str, str], sources: Mapping[str, str]) -> jinja2.Environment:
    """The environment in which all pages of one guide are rendered.

    Args:
        figures: All that pages may show.
        drawings: SVG text by name.
        sources: Template texts by name, such as "pages/bench.md" and "cautions/dust.md".
    """
    environment = jinja2.Environment(
        loader=jinja2.DictLoader(dict(sources)),
        autoescape=True,
        undefined=jinja2.StrictUndefined,
        finalize=_finished,
        bytecode_cache=COMPILED,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    environment.filters.update(number_filters(figures))
    environment.filters.update(typed_filters(figures))
    environment.filters.update(said=safe_text, own=own)
    environment.globals.update(
        said=nested(figures.said),
        rows={name: tuple(_typed(row) for row in rows) for name, rows in figures.rows.items()},
        has=lambda key, part="": _full(key, part) in figures.values,
        svg=lambda name: Markup(drawings[name]),  # made by our own pen, which escapes what it letters
        anchor=anchor,
        data_block=lambda name: data_block(name, figures.data[name]),
    )
    return environment


def data_block(name: str, block: Mapping[str, Any]) -> Markup:
    """JSON for scripts as a data block of the page, which browsers never run.

    What could end the element or begin another one is written as an escape of JSON, so that no text in it can.

    Source: HTML Living Standard (WHATWG), 4.12.1.3, restrictions for contents of script elements.
    """
    text = json.dumps(dict(block), ensure_ascii=True, separators=(",", ":"), sort_keys=True)
    for char in "<>&":
        text = text.replace(char, f"\\u{ord(char):04x}")
    return Markup(f'<script type="application/json" id="{name}">{text}</script>')  # escaped just above


def anchor(key: str) -> Markup:
    """The id of a figure on the page of all numbers.

    Raises:
        ValueError: the key holds anything but small letters, digits, dots, hyphens and underscores.
    """
    if not _KEY.fullmatch(key):
        raise ValueError(f"{key!r} can't be the key of a figure")
    return Markup(key.replace(".", "-"))  # letters, digits, hyphens and underscores, as just checked


def own(words: str) -> Markup:
    """Words that stand in a template itself, printed as they are.

    Raises:
        TypeError: the words come from outside the templates.
    """
    if isinstance(words, Typed):
        raise TypeError(f"{words!r} was typed by somebody and is not ours")
    return Markup(words)  # checked: not typed by anybody


def number_filters(figures: Figures) -> dict[str, Callable[..., Any]]:
    """The filters that turn a figure's key into text; each takes `part`, a rest of the key after a dot."""
    units = str(figures.said["units"])

    def found(key: str, part: str = "") -> Figure:
        full = _full(key, part)
        if full not in figures.values:
            raise UnknownFigure(full)
        return figures.values[full]

    def linked(figure: Figure, text: str) -> Markup:
        return Markup(f"[{text}]({NUMBERS}#{anchor(figure.key)}){{.fig}}")  # text is digits and a unit of ours

    def fig(key: str, part: str = "") -> Markup:
        """The number as a link to where it is explained."""
        figure = found(key, part)
        return linked(figure, show(figure, units))

    def exact(key: str, part: str = "") -> Markup:
        """As `fig`, with hundredths of an inch, for what is measured with a caliper or against a card."""
        figure = found(key, part)
        return linked(figure, show_exact(figure, units))

    def plain(key: str, part: str = "") -> Markup:
        """The number without a link: headings, labels of boxes to tick."""
        return Markup(show(found(key, part), units))  # digits and a unit of ours

    def size(key: str, part: str = "") -> Markup:
        """The number without its sign, where the words say which way it goes."""
        figure = found(key, part)
        return linked(figure, show(figure, units).removeprefix("−"))

    def lowhigh(key: str, part: str = "") -> Markup:
        """The range as a link; the plain value where there is no range."""
        figure = found(key, part)
        return linked(figure, show_range(figure, units))

    def counted(key: str, one: str, many: str, part: str = "") -> Markup:
        """A count with its noun, one or many."""
        figure = found(key, part)
        number = show(figure, units)
        return linked(figure, f"{number} {one if number == '1' else many}")

    def is_zero(key: str, part: str = "") -> bool:
        """Whether the number reads as nothing in the builder's units."""
        return show(found(key, part), units, short=True) == "0"

    def may_be_zero(key: str, part: str = "") -> bool:
        """Whether the lowest end of the range reads as nothing or less."""
        figure = found(key, part)
        lowest = show(replace(figure, value=figure.low), units, short=True)
        return lowest == "0" or lowest.startswith("−")

    def is_below_zero(key: str, part: str = "") -> bool:
        """Whether the number reads as less than nothing."""
        return show(found(key, part), units, short=True).startswith("−")

    filters: dict[str, Callable[..., Any]] = {
        "fig": fig,
        "exact": exact,
        "plain": plain,
        "size": size,
        "lowhigh": lowhigh,
        "counted": counted,
        "is_zero": is_zero,
        "is_below_zero": is_below_zero,
        "may_be_zero": may_be_zero,
    }
    return {name: never_folded(function) for name, function in filters.items()}


def nested(said: Mapping[str, Any]) -> dict[str, Any]:
    """Dotted keys as a tree ("glue.name" → said.glue.name), every text marked as typed.

    Raises:
        ValueError: a key is both a word and a group.
    """
    tree: dict[str, Any] = {}
    for key, value in said.items():
        *groups, last = key.split(".")
        place = tree
        for group in groups:
            place = place.setdefault(group, {})
            if not isinstance(place, dict):
                raise ValueError(f"{key}: {group} is already a word")
        if last in place:
            raise ValueError(f"{key} is both a word and a group")
        place[last] = _typed(value)
    return tree


def _full(key: str, part: str) -> str:
    return f"{key}.{part}" if part else str(key)


def _typed(value: Any) -> Any:
    if isinstance(value, str):
        return Typed(value)
    if isinstance(value, Mapping):
        return {str(key): _typed(item) for key, item in value.items()}
    if isinstance(value, tuple | list):
        return tuple(_typed(item) for item in value)
    return value


def _finished(value: Any) -> Any:
    """What an expression prints: safe markup as it is, whole numbers as digits, any other text made harmless."""
    if isinstance(value, Markup):
        return value
    if isinstance(value, jinja2.Undefined):
        return str(value)  # raises, and names what is missing
    if isinstance(value, bool) or not isinstance(value, str | int):
        raise TypeError(f"a page can't print {value!r}: numbers go through the filters")
    return safe_text(value)
