"""All sums that can be asked for by name. A module with a `SUMS` of its own is added to the list below."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from generator.sums import (
    air,
    bracing,
    clamps,
    crown,
    cutting,
    finish,
    floating,
    frame,
    glue,
    panels,
    rails,
    safety,
    timber,
    weight,
)
from generator.sums.sum_type import Sum

MODULES = (safety, crown, rails, glue, finish, floating, weight, panels, timber, frame, cutting, clamps, air, bracing)


def _by_name() -> Mapping[str, Sum]:
    found: dict[str, Sum] = {}
    for module in MODULES:
        for one in module.SUMS:
            if one.name in found:
                raise ValueError(f"two sums are called {one.name}")
            found[one.name] = one
    return MappingProxyType(dict(sorted(found.items())))


SUMS: Mapping[str, Sum] = _by_name()
"""Every sum by its name, in alphabetical order."""
