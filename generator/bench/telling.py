"""What a bench that stands has to tell: supports, curves, what is kept, and how sure all that is."""

from collections.abc import Sequence
from itertools import combinations

import numpy as np

from generator.bench.assembly import Sections
from generator.bench.heights import GOAL_MM, HeightPlan
from generator.bench.piled import STATIONS, Laid, Rest, at_rest, past_edge
from generator.bench.plan import BenchPlan, Clearance, Curves, OtherWay, Part, Support
from generator.bench.release import Route
from generator.bench.setting import Bench, Job
from generator.bench.straight_edge import deepest_hollow
from generator.bench.tip_rule import moved_inboard
from generator.bench.tops import Top
from generator.quantities import GRAVITY_M_S2, Floats, fixed

INSETS_MM = (50.0, 100.0, 200.0)


def told(bench: Bench, *, best_route: Route, other: OtherWay | None) -> BenchPlan:
    """Everything that the plan says, from the board as it lies; the cure is left open."""
    job, board, laid, plan = bench.job, bench.job.board, bench.laid, bench.plan
    station = np.linspace(0, board.length_mm, STATIONS)
    curves = _curves(job, laid, station, bench.route)
    bent, kept = laid.value.on.bent, laid.value.kept
    off = kept.heights_mm - curves.wanted_mm
    worst = int(np.argmax(np.round(np.abs(off), 3)))  # of equals the first, whatever the last digits say
    effect = np.abs(laid.value.on.lift_effect(station))
    frame, panel = ([_again(bench, one) for one in ends] for ends in (board.frame_range, board.panel_range))
    supports = _supports(job, plan, laid, effect.max(axis=0))
    least, least_x = bent.least_curvature
    inverted = bent.inverted()
    hollow, hollow_x = deepest_hollow(bent.heights_mm, length_mm=board.length_mm)
    reached = (
        plan.reached
        and abs(float(off[worst])) <= GOAL_MM
        and not inverted
        and not any(s.lifts_off or s.over_limit or s.stack is None for s in supports)
    )
    return BenchPlan(
        bench,
        supports,
        plan.placed,
        job.clamps,
        _clearances(job, laid),
        curves,
        route=bench.route,
        best_route=best_route,
        base_mm=laid.pile.base_mm,
        tilt_mm=laid.pile.tilt_mm,
        shift_mm=kept.shift_mm - laid.pile.base_mm,
        turn_mm=kept.turn_mm - laid.pile.tilt_mm,
        deviation_mm=float(off[worst]),
        deviation_x_mm=float(station[worst]),
        planned_mm=plan.deviation_mm,
        deviation_low_mm=laid.low.kept.worst_mm,
        deviation_high_mm=laid.high.kept.worst_mm,
        band_mm=max(_apart(*two) for two in combinations([laid.low, laid.high, *frame, *panel], 2)),
        band_frame_mm=_apart(*frame),
        band_panel_mm=_apart(*panel),
        least_curvature_per_mm=least,
        least_curvature_x_mm=least_x,
        inverted=inverted,
        hollow_mm=hollow,
        hollow_x_mm=hollow_x,
        effect_mm=float(effect.sum(axis=1).max()),
        effect_ribs_mm=float(np.abs(laid.value.on.lift_effect(board.rib_mm)).sum(axis=1).max()),
        sure_n=plan.sure_n,
        reached=reached,
        cure=None,
        missing_mm=laid.pile.missing_mm,
        allowed_mm=laid.pile.allowed_mm,
        stacks_proven=laid.pile.proven,
        after_low=laid.low.released,
        after=laid.value.released,
        after_high=laid.high.released,
        other=other,
        inboard=moved_inboard(
            laid.beam,
            bent,
            x_mm=laid.value.on.touch_x_mm,
            height_mm=laid.value.on.touch_height_mm,
            inset_mm=INSETS_MM,
        ),
        table_load_kg=laid.beam.total_load_n / GRAVITY_M_S2 + sum(s.stack.mass_kg for s in supports if s.stack),
        table_short_mm=max(0.0, _row_mm(supports) - job.table.length_mm),
    )


def _again(bench: Bench, sections: Sections) -> Rest:
    """The same bench under a board of another stiffness."""
    return at_rest(bench.job.board, sections, bench.laid.tops, bench.loads.points(), bench.route)


def _apart(one: Rest, other: Rest) -> float:
    """Greatest distance between what two boards keep of one bench."""
    return float(np.abs(one.kept.heights_mm - other.kept.heights_mm).max())


def _curves(job: Job, laid: Laid, station: Floats, route: Route) -> Curves:
    """The bottom at the stations, in the rocker's own level and above the line."""
    kept = laid.value.kept
    line = kept.shift_mm + kept.turn_mm * station / job.board.length_mm
    wanted = job.board.wanted_mm(station)
    rests = (laid.value.on, laid.low.on, laid.high.on, laid.bare)
    clamped, low, high, bare = (rest.bent.heights_mm(station) for rest in rests)
    return Curves(
        fixed(station),
        fixed(wanted),
        fixed(wanted + laid.value.released.lost(route).loss_at(station)),
        fixed(clamped - line),
        fixed(low - line),
        fixed(high - line),
        fixed(bare - line),
        kept.heights_mm,
        laid.low.kept.heights_mm,
        laid.high.kept.heights_mm,
        fixed(clamped),
    )


def _row_mm(supports: Sequence[Support]) -> float:
    """Length of the row of supports, from outside to outside of their tops."""
    return max(s.centre_x_mm + s.top_width_mm / 2 for s in supports) - min(
        s.centre_x_mm - s.top_width_mm / 2 for s in supports
    )


def _supports(job: Job, plan: HeightPlan, laid: Laid, effect: Floats) -> tuple[Support, ...]:
    pieces, n = job.pieces, plan.x_mm.size
    names = ["tail tip", *(f"middle {i}" for i in range(1, n - 1)), "nose tip"]
    loads = np.stack([laid.low.on.loads_n, laid.value.on.loads_n, laid.high.on.loads_n])
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
        reading = float(job.table.at(x))
        wanted = laid.pile.base_mm + float(plan.heights_mm[i]) + laid.pile.tilt_mm * x / job.board.length_mm
        out.append(
            Support(
                names[i],
                x,
                (top.low_x_mm + top.high_x_mm) / 2,
                top.high_x_mm - top.low_x_mm,
                float(laid.value.on.touch_x_mm[i]),
                _edge(top, float(laid.value.on.touch_x_mm[i])),
                wanted,
                top.height_mm,
                reading,
                stack,
                parts,
                float(loads[1, i]),
                float(loads[:, i].min()),
                float(loads[:, i].max()),
                stack.takes_n if stack else 0.0,
                bool(laid.value.on.loads_n[i] <= 0),
                float(effect[i]),
            )
        )
    return tuple(out)


def _edge(top: Top, touch_mm: float) -> str:
    """What of a top touches."""
    if touch_mm >= top.high_x_mm - 1e-6:
        return "nose side"
    return "tail side" if touch_mm <= top.low_x_mm + 1e-6 else "middle"


def _clearances(job: Job, laid: Laid) -> tuple[Clearance, ...]:
    ribs = job.board.rib_mm
    room = laid.value.on.bent.heights_mm(ribs) - job.table.at(ribs)
    return tuple(
        Clearance(p.rib, p.x_mm, float(room[p.rib]), p.hang_mm, past_edge(job.board, job.table, p.rib))
        for p in sorted(job.clamps, key=lambda p: p.rib)
    )
