"""Everything computed for one builder, before it is told as figures."""

from __future__ import annotations

from dataclasses import dataclass

from generator.bench.assembly import OnBench, TableTop
from generator.bench.plan import BenchPlan
from generator.board.body import Body
from generator.build.planks import PlankPlan
from generator.build.timeline import Sitting
from generator.build.works import Build
from generator.figure_sets.planned import practice
from generator.figures import Kind
from generator.inputs.board import Spread
from generator.inputs.site import Inputs
from generator.quantities import Floats
from generator.timber.across import AcrossGrain, across_grain

TYPED_BOARD = "As the maker's file for this board says."
TYPED_BUILDER = "As typed into the builder's file."
SOLVED = "Solved as an elastic board on supports that push but can't pull, with clamps and weights on."
BENT = (Kind.MAKER, Kind.MEASURED, Kind.ASSUMED)
"""Kinds of what the bench's sums are made from: the board's sizes, the house's things, the stiffness of wood."""


@dataclass(frozen=True, slots=True, eq=False)
class Facts:
    """One builder's inputs and all that was computed from them; `unmeasured` is the body before its sag tests."""

    inputs: Inputs
    units: str
    body: Body
    unmeasured: Body
    board: OnBench
    table: TableTop
    plan: BenchPlan
    build: Build
    evenings: tuple[Sitting, ...]
    planks: PlankPlan

    def usual(self, key: str) -> float:
        """A fact of common practice by its key."""
        return practice(self.inputs, key)

    @property
    def across(self) -> AcrossGrain:
        """The panels' timber across its grain."""
        return panel_across(self.inputs)

    @property
    def rocker_kind(self) -> Kind:
        """Both the suggested and the agreed rocker are the maker's word."""
        return Kind.MAKER

    @property
    def frame_mass_kind(self) -> Kind:
        return Kind.MEASURED if self.body.masses.frame_weighed else Kind.MAKER

    @property
    def panel_thickness_kind(self) -> Kind:
        return Kind.MEASURED if self.inputs.builder.measured.panel_thickness_mm else Kind.MAKER


def panel_across(inputs: Inputs) -> AcrossGrain:
    """The panels' timber across its grain."""
    panel = inputs.board.panel
    along = panel.stiffness_mpa
    return across_grain(
        inputs.species,
        along_mpa=along.value,
        density_kg_m3=panel.density_kg_m3,
        along_ends_mpa=(along.low, along.high),
    )


def tip_rise_mm(heights_mm: Floats, at: int) -> float:
    """Rise of a tip above the lowest point of the same curve; `at` is 0 for the tail and -1 for the nose."""
    return float(heights_mm[at] - heights_mm.min())


def stiffness_kind(spread: Spread) -> Kind:
    """How far a stiffness from a board file can be trusted."""
    return Kind(spread.kind)
