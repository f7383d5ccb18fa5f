"""What drawings take out of the figures: numbers in the builder's units, numbers to draw with."""

from __future__ import annotations

from generator.figures import Figures
from generator.shown import show


def shown(figures: Figures, key: str) -> str:
    """The figure as the builder reads it, with its unit."""
    return show(figures.values[key], str(figures.said["units"]))


def value(figures: Figures, key: str) -> float:
    """The figure in the unit of the inside, to draw with."""
    return figures.values[key].value
