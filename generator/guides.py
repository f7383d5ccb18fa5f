"""From a builder's files to their guide, in the one direction: inputs → board → bench → figures → drawings → pages."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from generator.deliver.sources import read_sources
from generator.figure_sets import make_figures
from generator.figures import Figures
from generator.guide.pages import Guide, write_guide
from generator.inputs.site import read_builder


def read_figures(data: Path, slug: str) -> Figures:
    """All figures of one builder.

    Raises:
        BadInput: what the maker or the builder's file says is wrong, all of it at once.
    """
    return make_figures(read_builder(data, slug))


def make_guide(data: Path, slug: str) -> Guide:
    """One builder's whole guide, not yet a site.

    Raises:
        BadInput: as `read_figures`.
    """
    figures = read_figures(data, slug)
    return guide_of(figures, draw_all(figures))


def guide_of(figures: Figures, drawings: Mapping[str, str]) -> Guide:
    """The guide of figures and drawings that are there already."""
    return write_guide(figures, drawings, read_sources())


def draw_all(figures: Figures) -> dict[str, str]:
    """Every drawing of the guide, by name, as SVG text."""
    from generator.drawings import DRAWINGS  # brings matplotlib, a second that `figures` need not wait for

    return {name: draw(figures) for name, draw in DRAWINGS.items()}
