"""The board on its bench with the top panel clamped on, not yet glued: how it lies, and what holds it to its curve."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from scipy.optimize import linprog

from generator.bench.assembly import Sections
from generator.bench.beam import Beam, PointLoad, columns
from generator.bench.contact import INVERTED_PER_MM
from generator.bench.programme import least_bends
from generator.bench.release import cured, with_top_panel
from generator.bench.setting import Bench, wanted_curvature_per_mm
from generator.bench.springback import lost_rocker
from generator.bench.tops import OnTops, Top, rest_on
from generator.quantities import GRAVITY_M_S2, Floats, fixed

STATIONS = 121
TIGHT_N = 3.0
"""Load that a support must carry to count as touching, as on the bench before."""
LEAST_KG = 0.25
MOST_PLACES = 4
MOST_MM = 60.0
"""How far a support may be moved."""


@dataclass(frozen=True, slots=True, eq=False)
class TopOn:
    """The cured bottom, and a loose top panel of some stiffness bent over the crown, on the bench's supports.

    Attributes:
        top_n_mm2: (pieces of the board's sections,) of the top panel.
        beam: both side by side, with clamps and weights on.
        closed_n_mm2: (pieces of the beam,) once the glue is hard.
        tops: of the supports.
        on: at rest.
        x_mm: (s,) stations.
        aim_mm: (s,) heights, above the lowest, that lead to the wanted rocker if the board is held to them while the
            top panel's glue sets.
    """

    bench: Bench
    top_n_mm2: Floats
    beam: Beam
    closed_n_mm2: Floats
    tops: tuple[Top, ...]
    on: OnTops
    x_mm: Floats
    aim_mm: Floats

    def aim_at(self, x_mm: float) -> float:
        """Height to aim for, straight between the stations."""
        return float(np.interp(x_mm, self.x_mm, self.aim_mm))

    @property
    def heights_mm(self) -> Floats:
        """(s,) as it lies, above the level line."""
        return self.on.bent.heights_mm(self.x_mm)

    @property
    def off_mm(self) -> Floats:
        """(s,) height less the one to aim for, without lift and turn (least squares)."""
        return shape_of(self.x_mm, self.heights_mm - self.aim_mm)


@dataclass(frozen=True, slots=True)
class Press:
    """A weight at a rib, or a strap that pulls as much."""

    rib: int
    x_mm: float
    kg: float


@dataclass(frozen=True, slots=True, eq=False)
class Held:
    """What more has to press on the board so that it follows its curve, and how near it then comes.

    `changes_mm` are of the supports' heights, tail first (0 where they stay); `worst_mm` is the greatest distance from
    the curve to aim for, lift and turn taken away; `bears` says whether every support then carries something.
    """

    presses: tuple[Press, ...]
    changes_mm: Floats
    worst_mm: float
    bears: bool

    @property
    def kg(self) -> float:
        """All of it."""
        return sum(press.kg for press in self.presses)


def shape_of(x_mm: Floats, off_mm: Floats) -> Floats:
    """What is left of a difference once the straight line that fits it best is taken away."""
    line = np.column_stack((np.ones_like(x_mm), x_mm))
    return fixed(off_mm - line @ np.linalg.lstsq(line, off_mm, rcond=None)[0])


def top_on(
    bench: Bench, *, top_n_mm2: Floats, presses: Sequence[Press] = (), changes_mm: Floats | None = None
) -> TopOn:
    """Lay the cured board with its top panel on its supports, under its clamps and weights and `presses`.

    Args:
        top_n_mm2: (pieces of the board's sections,) E·I of the top panel.
        changes_mm: (supports,) what has been put under each, or taken out, since the bottom was glued.

    Raises:
        ArithmeticError: the board tips over.
    """
    rest = bench.laid.value
    sections = replace(rest.sections, panel_n_mm2=fixed(top_n_mm2))
    pair = cured(rest.on.bent, sections)
    points = [*bench.loads.points(), *(PointLoad(p.x_mm, p.kg * GRAVITY_M_S2) for p in presses)]
    beam = with_top_panel(pair, sections, points)
    closed = fixed(sections.closed_n_mm2[sections.piece_at(beam.breaks_mm[:-1])])
    x = np.linspace(0.0, beam.length_mm, STATIONS)
    aim = _aim_mm(bench, sections, beam, closed, x)
    changes = np.zeros(len(bench.laid.tops)) if changes_mm is None else changes_mm
    tops = tuple(
        replace(top, height_mm=top.height_mm + float(change))
        for top, change in zip(bench.laid.tops, changes, strict=True)
    )
    return TopOn(bench, fixed(top_n_mm2), beam, closed, tops, rest_on(beam, tops), fixed(x), aim)


def _aim_mm(bench: Bench, sections: Sections, beam: Beam, closed: Floats, x: Floats) -> Floats:
    """Heights that leave the wanted rocker once the box is let go.

    Held to k, the bottom pair (which has k_own by itself) and the top panel (flat by itself) push back with
    EI_both·k − EI_glued·k_own = EI_both·(k − k_free). Let go, the box keeps k − that/EI_closed, so

        k = (k_wanted − r·k_free) / (1 − r),    r = EI_both / EI_closed.
    """
    board = bench.job.board
    fine = np.unique(np.concatenate([np.linspace(0.0, beam.length_mm, 4 * STATIONS), x]))
    piece = np.clip(np.searchsorted(beam.breaks_mm, fine, side="right") - 1, 0, closed.size - 1)
    size = np.diff(beam.breaks_mm)[piece]
    start, end = beam.free_curvature_start_per_mm[piece], beam.free_curvature_end_per_mm[piece]
    free = start + (end - start) * (fine - beam.breaks_mm[piece]) / size
    wanted = wanted_curvature_per_mm(board, fine)
    ratio = beam.stiffness_n_mm2[piece] / closed[piece]
    held = (wanted - ratio * free) / (1 - ratio)
    lost = lost_rocker(x_mm=fine, curvature_per_mm=held, lost_per_mm=held - wanted, low_point_mm=board.low_point_mm)
    heights = board.wanted_mm(x) + lost.loss_at(x)
    return fixed(heights - heights.min())


def held_down(
    bench: Bench, *, top_n_mm2: Floats, within_mm: float, ribs: Sequence[int] | None = None, move: bool = False
) -> Held:
    """The least that has to press on the ribs, besides what lies there already, for the board to follow its curve.

    All supports bear; loads on them and presses are unknowns of a linear programme. If `within_mm` can't be had, what
    comes nearest. Presses under `LEAST_KG` and all but the `MOST_PLACES` heaviest are left out, and the board is laid
    again with the rest: what is told is of that.

    Args:
        ribs: where something may press, counted from 0 at the tail; everywhere if None.
        move: whether the supports may be set to other heights; else they stay as they are.

    Raises:
        ArithmeticError: the board tips over.
    """
    state = top_on(bench, top_n_mm2=top_n_mm2)
    places = [(i, float(x)) for i, x in enumerate(bench.job.board.rib_mm) if ribs is None or i in ribs]
    found, changes = _pressed(state, places, within_mm, move)
    heavy = sorted((p for p in found if p.kg >= LEAST_KG), key=lambda p: -p.kg)[:MOST_PLACES]
    if len(heavy) < len(found) and heavy:
        keep = {press.rib for press in heavy}
        heavy, changes = _pressed(state, [place for place in places if place[0] in keep], within_mm, move)
    presses = tuple(sorted((p for p in heavy if p.kg >= LEAST_KG), key=lambda p: p.x_mm))
    then = top_on(bench, top_n_mm2=top_n_mm2, presses=presses, changes_mm=changes)
    return Held(presses, changes, float(np.abs(then.off_mm).max()), bool(np.all(then.on.loads_n > 0)))


def _pressed(
    state: TopOn, places: Sequence[tuple[int, float]], within_mm: float, move: bool
) -> tuple[list[Press], Floats]:
    """Presses and changes of height: what comes nearest, or least mass where `within_mm` can be had."""
    n, at = state.on.loads_n.size, [x for _, x in places]
    first = _programme(state, at, worst_mm=None, move=move)
    if first is None:
        return [], np.zeros(n)
    worst = max(within_mm, 1.02 * float(first[-n - 1]))
    found = _programme(state, at, worst_mm=worst, move=move)
    answer = first if found is None else found
    loads = answer[n:][: len(places)]
    presses = [
        Press(rib, x, float(load) / GRAVITY_M_S2) for (rib, x), load in zip(places, loads, strict=True) if load > 1e-6
    ]
    return presses, fixed(answer[-n:])


def _programme(state: TopOn, press_mm: Sequence[float], *, worst_mm: float | None, move: bool) -> Floats | None:
    """Unknowns: loads on supports, presses, the beam's lift and turn, the aim's, the worst distance, changes of height.

    Least worst distance if `worst_mm` is None, else least press within it.
    """
    beam, on, x = state.beam, state.on, state.x_mm
    length = beam.length_mm
    touch, press = np.clip(on.touch_x_mm, 0.0, length), np.asarray(press_mm, dtype=np.float64)
    n, p = touch.size, press.size
    cols = columns(beam, np.concatenate([touch, press]))
    loads, push = cols.heights(np.concatenate([x, touch]))
    sign = np.concatenate([np.ones(n), -np.ones(p)])
    shapes = push * sign[:, None]
    share = np.concatenate([x, touch]) / length
    rigid = np.stack([np.ones_like(share), share], axis=1)
    curve = np.hstack([shapes[:, : x.size].T, rigid[: x.size], -rigid[: x.size], np.zeros((x.size, 1 + n))])
    at_tops = np.hstack([shapes[:, x.size :].T, rigid[x.size :], np.zeros((n, 3)), -np.eye(n)])
    balance = np.zeros((2, n + p + 5 + n))
    balance[0, : n + p], balance[1, : n + p] = sign, sign * np.concatenate([touch, press]) / length
    bend_loads, bend_push = least_bends(cols)
    bend = np.hstack([(bend_push * sign[:, None]).T, np.zeros((bend_loads.size, 5 + n))])
    gap = state.aim_mm - loads[: x.size]
    slack = np.zeros(curve.shape)
    slack[:, -n - 1] = 1.0
    upper = np.concatenate([gap, -gap, 1e5 * (bend_loads - INVERTED_PER_MM)])
    rows = np.vstack([curve - slack, -curve - slack, -1e5 * bend])
    cost = np.zeros(n + p + 5 + n)
    cost[-n - 1] = 1.0 if worst_mm is None else 1e-3
    cost[n : n + p] = 1e-6 if worst_mm is None else 1.0
    found = linprog(
        cost,
        A_ub=rows,
        b_ub=upper,
        A_eq=np.vstack([balance, at_tops]),
        b_eq=np.concatenate(
            [[beam.total_load_n, beam.load_moment_n_mm / length], on.touch_height_mm - loads[x.size :]]
        ),
        bounds=[(TIGHT_N, None)] * n
        + [(0, None)] * p
        + [(None, None)] * 4
        + [(0, worst_mm)]
        # the level as a whole is free, so the outermost supports stay
        + [(-MOST_MM, MOST_MM) if move and 0 < i < n - 1 else (0, 0) for i in range(n)],
    )
    return None if found.x is None else fixed(found.x)
