"""All figures, grouped for the page that explains every number."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from generator.figures import Figure, Figures
from generator.guide.environment import anchor
from generator.guide.words import Typed
from generator.shown import show, show_range

GROUPS: tuple[tuple[str, str], ...] = (
    ("board", "The board"),
    ("rocker", "The rocker"),
    ("advice", "The three rockers"),
    ("panel", "Deck panels"),
    ("frame", "Frame"),
    ("trace", "Trace and cut"),
    ("cut", "The saw and the panel"),
    ("bench", "The bench"),
    ("after", "What the board keeps"),
    ("sag", "Sag tests"),
    ("read", "Your readings on the bench"),
    ("cured", "Your readings after the glue"),
    ("top_read", "Your readings with the top panel on"),
    ("clamp", "Clamps"),
    ("press", "Weights that press"),
    ("crown", "The deck's crown"),
    ("top", "The top panel"),
    ("rail", "Rails"),
    ("shape", "Shaping"),
    ("fin", "Fin and plugs"),
    ("glue", "Glue"),
    ("bay", "Bays of the deck"),
    ("foam", "Foam"),
    ("block", "Solid blocks"),
    ("air", "Air in the board"),
    ("finish", "Sealing"),
    ("shed", "Your shed"),
    ("beach", "Your beach"),
    ("table", "Your table"),
    ("builder", "You"),
    ("ready", "Getting ready"),
    ("plan", "Your plan"),
    ("tonight", "Tonight"),
    ("shop", "What to get"),
    ("noise", "Noise"),
    ("vibration", "Vibration in the hand"),
    ("dust", "Dust"),
    ("vapour", "Vapour and airing"),
    ("weight", "Weight"),
    ("float", "Floating"),
    ("practice", "Common practice and published values"),
)
OTHER = ("other", "Other numbers")


def number_groups(figures: Figures) -> tuple[dict[str, Any], ...]:
    """Groups that hold at least one figure: slug, title and `figures`, each with all that its card shows.

    Every figure stands in exactly one group, the last one taking what no group names.
    """
    units = str(figures.said["units"])
    members: dict[str, list[Figure]] = {slug: [] for slug, _ in (*GROUPS, OTHER)}
    for figure in figures.values.values():
        first = figure.key.split(".")[0]
        members[first if first in members else OTHER[0]].append(figure)
    return tuple(
        {"slug": slug, "title": title, "figures": tuple(_cards(members[slug], units))}
        for slug, title in (*GROUPS, OTHER)
        if members[slug]
    )


def _cards(figures: list[Figure], units: str) -> Iterator[dict[str, Any]]:
    for figure in figures:
        shown, spread = show(figure, units), show_range(figure, units)
        yield {
            "id": anchor(figure.key),
            "label": Typed(figure.label[:1].upper() + figure.label[1:]),
            "shown": Typed(shown),
            "spread": Typed(spread if figure.low < figure.high and spread != shown else ""),
            "how": Typed(figure.how),
            "kind": Typed(figure.kind.value),
            "source": Typed(figure.source),
        }
