"""Which scripts and styles a page loads: those of every page, and those of the places that stand on it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from types import MappingProxyType

EVERY_PAGE: tuple[str, ...] = ("offline.js", "progress.js", "why.js", "ways.js", "reach.js", "paper.js")
"""The scripts of every page, after `shed.js`, which stands in the head and comes before all others."""

NEEDS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "tuning": (
            "tuning.css",
            "bench-solve.js",
            "bench-advice.js",
            "bench-words.js",
            "typed.js",
            "bench-drawing.js",
            "tuning.js",
        ),
        "clock": ("clock.css", "clock.js"),
        "measured": ("measured.css", "typed.js", "measured.js"),
        "ticks": (),  # progress.js is on every page
        "progress": ("how-far.css", "how-far.js"),
        "carry": ("how-far.css", "storage.js"),
        "tonight": ("tonight.css", "tonight.js"),
    }
)
"""By what stands in `data-shed` of a place on the page: the files of `guide_src/assets` that bring it to life."""

_PLACE = re.compile(r'data-shed="([a-z-]+)"')


def needs(markdown: str) -> tuple[str, ...]:
    """The files that this page needs, each once: those of every page, then those of its places, as in `NEEDS`.

    Raises:
        KeyError: a place asks for something that there is not.
    """
    asked = set(_PLACE.findall(markdown))
    unknown = asked - NEEDS.keys()
    if unknown:
        raise KeyError(f"no script brings to life: {', '.join(sorted(unknown))}")
    own = (file for name, files in NEEDS.items() if name in asked for file in files)
    return tuple(dict.fromkeys((*EVERY_PAGE, *own)))
