"""The bench as data for scripts: what a page needs to lay the board again."""

from __future__ import annotations

from numpy.typing import ArrayLike

from generator.bench.what_if import what_if
from generator.figure_sets.facts import Facts
from generator.figures import FigureBook
from generator.inputs.builder import Thing
from generator.quantities import Floats, fixed

NAME = "bench-what-if"
SHIM = "shim"


def add_bench_data(book: FigureBook, facts: Facts) -> None:
    """The block of the rocker page: the bench as it stands, with the shims and weights that are left in the house."""
    plan = facts.plan
    laid = plan.bench.laid
    lost = laid.value.released.lost(plan.route)
    kinds, placed = bench_weights(facts)

    def aim_mm(x_mm: ArrayLike) -> Floats:
        return fixed(facts.board.wanted_mm(x_mm) + lost.loss_at(x_mm))

    book.data[NAME] = what_if(
        beam=laid.beam,
        glued_n_mm2=laid.value.sections.glued_n_mm2,
        tops=laid.tops,
        weight_kinds=kinds,
        placed=placed,
        weight_places_mm=facts.board.rib_mm,
        wanted_mm=aim_mm,
        line=(plan.base_mm + plan.shift_mm, plan.tilt_mm + plan.turn_mm),
        shims=[(thing.name, thing.height_mm, left) for thing, left in shims_left(facts)],
        low_point_mm=facts.board.low_point_mm,
    )


def shims_of(facts: Facts) -> list[Thing]:
    """The kinds of shim in the house, in the order of the block."""
    return [thing for thing in facts.inputs.builder.things if thing.kind == SHIM]


def shims_held(facts: Facts) -> list[list[int]]:
    """(supports, kinds of shim) how many of each shim every stack holds."""
    names = [thing.name for thing in shims_of(facts)]
    return [
        [sum(part.count for part in support.parts if part.name == name) for name in names]
        for support in facts.plan.supports
    ]


def bench_weights(facts: Facts) -> tuple[list[tuple[str, float, int]], list[tuple[int, float, int]]]:
    """The kinds of weight (name, kg, count) and those on the board (kind, place in mm, how many)."""
    weights = facts.inputs.builder.weights
    names = [weight.name for weight in weights]
    return (
        [(weight.name, weight.mass_kg, weight.count) for weight in weights],
        [(names.index(one.name), one.x_mm, one.count) for one in facts.plan.placed],
    )


def shims_left(facts: Facts) -> list[tuple[Thing, int]]:
    """Each kind of shim, and how many of it no stack holds."""
    used = [sum(column) for column in zip(*shims_held(facts), strict=True)]
    return [(thing, max(0, thing.count - n)) for thing, n in zip(shims_of(facts), used, strict=True)]
