"""A part of the finished board on the scales: what it weighs, within which range, and where its weight lies."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class PartMass:
    """One part's mass in kg with its range, and how far from the tail tip its centre of mass lies."""

    name: str
    kg: float
    low_kg: float
    high_kg: float
    from_tail_mm: float
    measured: bool = False
