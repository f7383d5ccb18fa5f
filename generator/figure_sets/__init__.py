"""Figures of each part of the guide, gathered into one collection."""

from __future__ import annotations

from collections.abc import Sequence

from generator.bench.assembly import ClampKind, TableTop
from generator.bench.from_body import on_bench
from generator.bench.layout import lay
from generator.bench.programme import Loose
from generator.bench.stack_list import Piece
from generator.board.body import Body, make_body
from generator.board.rocker import HeightAt, wanted_rocker
from generator.board.section import calibrated
from generator.build.crown import deck_verdict
from generator.build.planks import PlankPlan, as_laid
from generator.figure_sets.air import add_air
from generator.figure_sets.bench_curve import add_curve
from generator.figure_sets.bench_data import add_bench_data
from generator.figure_sets.bench_supports import add_supports
from generator.figure_sets.bench_verdict import add_verdict
from generator.figure_sets.board import add_board, add_rocker
from generator.figure_sets.breathing import add_breathing
from generator.figure_sets.clamps import add_clamps
from generator.figure_sets.crown import add_crown, add_top_clamps
from generator.figure_sets.cured import add_cured
from generator.figure_sets.cutting import add_cutting
from generator.figure_sets.evenings import add_evenings
from generator.figure_sets.facts import Facts, panel_across
from generator.figure_sets.fin import add_fin
from generator.figure_sets.finish import add_finish
from generator.figure_sets.floating import add_floating
from generator.figure_sets.frame import add_frame
from generator.figure_sets.frame_checks import add_frame_checks
from generator.figure_sets.glue import add_glue_here, add_glue_time, add_glue_use, add_joints
from generator.figure_sets.household import add_household, add_practice
from generator.figure_sets.inside import add_inside
from generator.figure_sets.movement import add_movement
from generator.figure_sets.panel_press import add_panel_press
from generator.figure_sets.panels import add_panels, add_trace
from generator.figure_sets.planks import add_planks, laid_planks
from generator.figure_sets.planned import build_of, laid_out
from generator.figure_sets.pressing import add_pressing
from generator.figure_sets.rails import add_rails, rails_joined
from generator.figure_sets.readings import add_readings
from generator.figure_sets.release import add_release
from generator.figure_sets.rocker_advice import add_advice, advise
from generator.figure_sets.safety import add_exposure
from generator.figure_sets.shaping import add_shaping
from generator.figure_sets.shed import add_builder, add_glue_label, add_moisture
from generator.figure_sets.shopping import add_shopping
from generator.figure_sets.tonight import add_tonight
from generator.figure_sets.top_panel import add_top_panel
from generator.figure_sets.trust import add_trust
from generator.figure_sets.tuning_data import add_tuning
from generator.figure_sets.weight import add_weight
from generator.figures import FigureBook, Figures
from generator.inputs.board import Board
from generator.inputs.builder import Table
from generator.inputs.site import Inputs
from generator.quantities import fixed

__all__ = ["make_figures", "work_out"]
TO_ROCKER = "to the rocker"


def work_out(inputs: Inputs) -> Facts:
    """The sums of one builder: board, bench, evenings."""
    builder, maker = inputs.builder, inputs.maker
    own = advise(inputs)
    rocker = wanted_rocker(inputs.board.rocker, agreed=own.agreed, shift=own.shift, length_mm=inputs.board.length_mm)
    unmeasured, body, cut, planks = _bodies(inputs, rocker)
    board, table = on_bench(body), _table(builder.table)
    plan = lay(
        board,
        pieces=[
            Piece(t.name, t.kind, t.height_mm, t.top_width_mm, t.mass_kg, t.takes_kg, t.count) for t in builder.things
        ],
        clamps=[ClampKind(c.name, c.opening_mm, c.mass_kg, c.hang_mm, c.count) for c in builder.clamps],
        loose=[Loose(w.name, w.mass_kg, w.count) for w in builder.weights],
        table=table,
        route=builder.off_bench_after,
        cut=on_bench(cut) if cut else None,
    )
    slowly = deck_verdict(body, panel_across(inputs)) == "slowly"
    build = build_of(
        inputs, plan.route, slowly=slowly, rails_joined=rails_joined(inputs, body), planks_joined=planks.joined
    )
    units, sittings = builder.units or maker.defaults.units, laid_out(inputs, build)
    return Facts(inputs, units, body, unmeasured, board, table, plan, build, sittings, planks)


def _bodies(inputs: Inputs, rocker: Sequence[HeightAt]) -> tuple[Body, Body, Body | None, PlankPlan]:
    """The board before its sag tests, as measured, the same with its frame cut to the rocker if it is not, and the
    planks that its panels are laid from.
    """
    board, measured, margin = inputs.board, inputs.builder.measured, inputs.maker.defaults.trace_margin

    def made(one: Board) -> Body:
        return make_body(one, rocker=rocker, measured=measured, trace_margin=margin)

    bare = made(board)
    planks = laid_planks(inputs, bare.blank)
    body, cut = as_laid(bare, planks), None
    if board.frame_bottom != TO_ROCKER:
        cut = calibrated(as_laid(made(board.model_copy(update={"frame_bottom": TO_ROCKER})), planks), measured)
    return body, calibrated(body, measured), cut, planks


def _table(typed: Table) -> TableTop:
    places = [one.from_tail_mm for one in typed.readings]
    return TableTop(typed.length_mm, typed.width_mm, fixed(places), fixed([one.reading_mm for one in typed.readings]))


def make_figures(inputs: Inputs) -> Figures:
    """All figures of one builder's guide."""
    facts = work_out(inputs)
    book = FigureBook()
    add_board(book, facts)
    add_rocker(book, facts)
    add_advice(book, facts)
    add_panels(book, facts)
    add_planks(book, facts)
    add_panel_press(book, facts)
    add_movement(book, facts)
    add_trace(book, facts)
    add_cutting(book, facts)
    add_frame(book, facts)
    add_frame_checks(book, facts)
    add_supports(book, facts)
    add_curve(book, facts)
    add_release(book, facts)
    add_trust(book, facts)
    add_verdict(book, facts)
    add_bench_data(book, facts)
    add_tuning(book, facts)
    add_readings(book, facts)
    add_cured(book, facts)
    add_top_panel(book, facts)
    add_crown(book, facts)
    add_top_clamps(book, facts)
    add_clamps(book, facts)
    add_rails(book, facts)
    add_shaping(book, facts)
    add_fin(book, facts)
    add_pressing(book, facts)
    add_joints(book, facts)
    add_glue_label(book, inputs.builder)
    add_glue_here(book, facts)
    add_glue_use(book, facts)
    add_glue_time(book, facts)
    add_finish(book, facts)
    add_floating(book, facts, add_weight(book, facts))
    add_inside(book, facts)
    add_air(book, facts)
    add_builder(book, inputs.builder)
    add_moisture(book, inputs.builder)
    add_household(book, facts)
    add_evenings(book, facts)
    add_tonight(book, facts)
    add_exposure(book, facts)
    add_breathing(book, facts)
    add_practice(book, facts)
    add_shopping(book, facts)
    _say_names(book, facts)
    return book.close()


def _say_names(book: FigureBook, facts: Facts) -> None:
    inputs = facts.inputs
    book.said |= {
        "units": facts.units,
        "slug": inputs.slug,
        "builder.name": inputs.builder.name,
        "maker.name": inputs.maker.name,
        "maker.contact": inputs.maker.contact,
        "maker.site": inputs.maker.site,
        "notes": dict(inputs.builder.notes),
        "photo_first": tuple(facts.build.photo_first),
    }
