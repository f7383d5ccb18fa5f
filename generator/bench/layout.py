"""The whole bench for one builder: places, heights, stacks, weights and clamps, then the curve they really give."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from generator.bench.assembly import ClampKind, OnBench, Sections, TableTop, clamp_loads, place_clamps
from generator.bench.heights import HeightPlan, plan_heights
from generator.bench.piled import STATIONS, Laid, Loads, laid_on_piles, past_edge
from generator.bench.plan import BenchPlan, Clearance, Curves, Part, Support
from generator.bench.programme import Loose
from generator.bench.springback import SpringBack, spring_back
from generator.bench.stack_list import Piece
from generator.bench.stacks import ALLOWED_ERRORS_MM
from generator.bench.straight_edge import deepest_hollow
from generator.bench.tip_rule import moved_inboard
from generator.bench.tops import OnTops, Top
from generator.quantities import GRAVITY_M_S2, Floats, fixed

FINE_STATIONS = 241
GOAL_MM, SPARE_MM = 2.0, 0.5
"""Plan to 2 mm (common practice); half a millimetre is kept back for what the stacks' heights miss."""
CLOSER_MM = (0.5, 0.25)
"""Errors of the stacks to try when a millimetre spoils the curve or lets a support lift off."""
INSETS_MM = (50.0, 100.0, 200.0)


def lay(
    board: OnBench,
    *,
    pieces: Sequence[Piece],
    clamps: Sequence[ClampKind],
    loose: Sequence[Loose],
    table: TableTop,
) -> BenchPlan:
    """Plan the bench, pile it from what there is, and solve it again on the heights that were piled.

    Raises:
        ValueError: no two ribs are far enough apart for the middle supports.
        ArithmeticError: no state of the board bears on two tips and two middle supports.
    """
    pairs = place_clamps(board, clamps)
    station = np.linspace(0, board.length_mm, STATIONS)
    plan = plan_heights(
        board.value.beam(clamp_loads(pairs)),
        place_mm=board.rib_mm,
        station_mm=station,
        wanted_mm=board.wanted_mm(station),
        loose=loose,
        goal_mm=GOAL_MM,
        spare_mm=SPARE_MM,
    )
    loads = Loads(pairs, plan)
    laid = laid_on_piles(board, loads, pieces, table, ALLOWED_ERRORS_MM)
    if plan.reached and laid.spoiled_mm > GOAL_MM and laid.pile.allowed_mm <= ALLOWED_ERRORS_MM[0]:
        closer = (laid_on_piles(board, loads, pieces, table, (allowed, ALLOWED_ERRORS_MM[0])) for allowed in CLOSER_MM)
        laid = min([laid, *closer], key=lambda option: option.spoiled_mm)
    return _told(board, loads, laid, pieces, table, station)


def _told(
    board: OnBench, loads: Loads, laid: Laid, pieces: Sequence[Piece], table: TableTop, station: Floats
) -> BenchPlan:
    """Everything that the plan says, from the board as it lies."""
    plan, curves = loads.plan, _curves(board, laid, station)
    wanted, off = curves.wanted_mm, curves.clamped_mm - curves.wanted_mm
    worst = int(np.argmax(np.round(np.abs(off), 3)))  # of equals the first, whatever the last digits say
    effect = np.abs(laid.value.lift_effect(station))
    supports = _supports(board, plan, laid, pieces, table, effect.max(axis=0))
    least, least_x = laid.value.bent.least_curvature
    inverted = laid.value.bent.inverted()
    hollow, hollow_x = deepest_hollow(laid.value.bent.heights_mm, length_mm=board.length_mm)
    springs = [
        _spring(board, rest, which)
        for rest, which in ((laid.low, board.low), (laid.value, board.value), (laid.high, board.high))
    ]
    reached = (
        plan.reached
        and abs(float(off[worst])) <= GOAL_MM
        and not inverted
        and not any(s.lifts_off or s.over_limit or s.stack is None for s in supports)
    )
    return BenchPlan(
        supports,
        plan.placed,
        loads.clamps,
        _clearances(board, loads, laid, table),
        curves,
        base_mm=laid.pile.base_mm,
        tilt_mm=laid.pile.tilt_mm,
        shift_mm=laid.shift_mm,
        turn_mm=laid.turn_mm,
        deviation_mm=float(off[worst]),
        deviation_x_mm=float(station[worst]),
        planned_mm=plan.deviation_mm,
        tail_off_mm=float(off[0]),
        nose_off_mm=float(off[-1]),
        deviation_low_mm=float(np.abs(curves.low_mm - wanted).max()),
        deviation_high_mm=float(np.abs(curves.high_mm - wanted).max()),
        least_curvature_per_mm=least,
        least_curvature_x_mm=least_x,
        inverted=inverted,
        hollow_mm=hollow,
        hollow_x_mm=hollow_x,
        effect_mm=float(effect.sum(axis=1).max()),
        reached=reached,
        extra=() if reached else plan.extra,
        missing_mm=laid.pile.missing_mm,
        allowed_mm=laid.pile.allowed_mm,
        spring_low=springs[0],
        spring=springs[1],
        spring_high=springs[2],
        inboard=moved_inboard(
            laid.beam,
            laid.value.bent,
            x_mm=laid.value.touch_x_mm,
            height_mm=laid.value.touch_height_mm,
            inset_mm=INSETS_MM,
        ),
        table_load_kg=laid.beam.total_load_n / GRAVITY_M_S2 + sum(s.stack.mass_kg for s in supports if s.stack),
        table_short_mm=max(0.0, _row_mm(supports) - table.length_mm),
    )


def _curves(board: OnBench, laid: Laid, station: Floats) -> Curves:
    """The bottom at the stations, in the rocker's own level and above the line."""
    share = station / board.length_mm
    line = laid.pile.base_mm + laid.shift_mm + (laid.pile.tilt_mm + laid.turn_mm) * share
    clamped, low, high, bare = (rest.bent.heights_mm(station) for rest in (laid.value, laid.low, laid.high, laid.bare))
    return Curves(
        fixed(station),
        fixed(board.wanted_mm(station)),
        fixed(clamped - line),
        fixed(low - line),
        fixed(high - line),
        fixed(bare - line),
        fixed(clamped),
    )


def _row_mm(supports: Sequence[Support]) -> float:
    """Length of the row of supports, from outside to outside of their tops."""
    return max(s.centre_x_mm + s.top_width_mm / 2 for s in supports) - min(
        s.centre_x_mm - s.top_width_mm / 2 for s in supports
    )


def _supports(
    board: OnBench, plan: HeightPlan, laid: Laid, pieces: Sequence[Piece], table: TableTop, effect: Floats
) -> tuple[Support, ...]:
    n = plan.x_mm.size
    names = ["tail tip", *(f"middle {i}" for i in range(1, n - 1)), "nose tip"]
    loads = np.stack([laid.low.loads_n, laid.value.loads_n, laid.high.loads_n])
    out = []
    for i, top in enumerate(laid.tops):
        stack, x = laid.pile.stacks[i], float(plan.x_mm[i])
        parts = (
            ()
            if stack is None
            else tuple(
                Part(pieces[k].name, pieces[k].kind, pieces[k].height_mm, pieces[k].width_mm, count)
                for k, count in stack.pieces
            )
        )
        reading = float(table.at(x))
        wanted = laid.pile.base_mm + float(plan.heights_mm[i]) + laid.pile.tilt_mm * x / board.length_mm
        out.append(
            Support(
                names[i],
                x,
                (top.low_x_mm + top.high_x_mm) / 2,
                top.high_x_mm - top.low_x_mm,
                float(laid.value.touch_x_mm[i]),
                _edge(top, float(laid.value.touch_x_mm[i])),
                wanted,
                top.height_mm,
                reading,
                stack,
                parts,
                float(loads[1, i]),
                float(loads[:, i].min()),
                float(loads[:, i].max()),
                stack.takes_n if stack else 0.0,
                bool(laid.value.loads_n[i] <= 0),
                float(effect[i]),
            )
        )
    return tuple(out)


def _edge(top: Top, touch_mm: float) -> str:
    """What of a top touches."""
    if touch_mm >= top.high_x_mm - 1e-6:
        return "nose side"
    return "tail side" if touch_mm <= top.low_x_mm + 1e-6 else "middle"


def _clearances(board: OnBench, loads: Loads, laid: Laid, table: TableTop) -> tuple[Clearance, ...]:
    room = laid.value.bent.heights_mm(board.rib_mm) - table.at(board.rib_mm)
    return tuple(
        Clearance(p.rib, p.x_mm, float(room[p.rib]), p.hang_mm, past_edge(board, table, p.rib))
        for p in sorted(loads.clamps, key=lambda p: p.rib)
    )


def _spring(board: OnBench, rest: OnTops, sections: Sections) -> SpringBack:
    x: NDArray[np.float64] = np.linspace(0, board.length_mm, FINE_STATIONS)
    glued = sections.glued_at(x)
    return spring_back(
        x_mm=x,
        curvature_per_mm=rest.bent.curvature_per_mm(x),
        moment_n_mm=rest.bent.moment_n_mm(x),
        glued_n_mm2=glued,
        low_point_mm=board.low_point_mm,
    )
