"""The linear programme behind a bench plan: loads on the supports and weights on the board as unknowns.

The curve, its curvature and its balance are all linear in them; whole weights make it a small integer programme.
"""

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import Bounds, LinearConstraint, milp

from generator.bench.beam import Beam, Columns, columns
from generator.bench.contact import INVERTED_PER_MM
from generator.quantities import GRAVITY_M_S2, Floats, fixed

LEAST_LOAD_N = 3.0
"""Less than this on a support, and a careless hand decides whether it bears."""
PIECES_A_PLACE, KG_A_PLACE = 3, 20.0
"""What can lie on one rib without rolling off or breaking it."""
SPARE_CURVATURE = 0.9
"""The programme keeps a tenth of the allowed inversion back for rounding."""
NODES, GAP = 60, 0.08
"""Limits of the integer search: counted, not timed, so that the same board gives the same plan everywhere.

The gap is a share of all the weight, about a piece; half of it cost twenty times as long and gave the same plans.
"""


Aim = Literal["deviation", "mass"]
Own = Literal["none", "shares", "whole"]


@dataclass(frozen=True, slots=True)
class Loose:
    """One kind of loose weight the builder has, and how many."""

    name: str
    mass_kg: float
    count: int


@dataclass(frozen=True, slots=True, eq=False)
class Programme:
    """Everything that the linear programmes of one board share.

    Columns are freed of their rigid part (0 at both tips), so that numbers stay small. Place 0 is the tail tip, the
    last one the nose tip, those between them may take a middle support or a weight. Heights at the stations are those
    that are compared with what is wanted: of the board on the bench, or of what it keeps once it is lifted off.

    Attributes:
        beam: on the bench.  kept: takes the compared shape under the same loads; the beam itself if that is compared.
        place_mm: (p,).  station_mm, wanted_mm: (s,).
        height_loads, height_push: (s,) and (p, s) of `kept`.  place_push: (p, p) of `beam` at the places.
        bend_loads, bend_push: (b,) and (p, b) least curvature of `beam` at every break.
    """

    beam: Beam
    kept: Beam
    place_mm: Floats
    station_mm: Floats
    wanted_mm: Floats
    height_loads: Floats
    height_push: Floats
    place_push: Floats
    bend_loads: Floats
    bend_push: Floats
    loose: tuple[Loose, ...]
    least_load_n: float

    def effect_mm(self, members: tuple[int, ...]) -> float:
        """Greatest change of the curve on the bench if every support is 1 mm out, each the worst way."""
        on, n = list(members), len(members)
        share = self.place_mm[on] / self.beam.length_mm
        ways = np.stack([np.ones(n), share])
        push = self.place_push[np.ix_(on, on)]
        scale = float(np.abs(push).max())
        matrix = np.block([[push / scale, ways.T], [ways, np.zeros((2, 2))]])
        answer = np.linalg.solve(matrix, np.vstack([np.eye(n), np.zeros((2, n))]))
        at = self.place_mm / self.beam.length_mm
        moved = self.place_push[on].T @ answer[:n] / scale + np.stack([np.ones(at.size), at], axis=1) @ answer[n:]
        return float(np.abs(moved).sum(axis=1).max())


@dataclass(frozen=True, slots=True, eq=False)
class Answer:
    """One solved programme: loads at the supports, weights (kinds × inner places), heights of the compared tips."""

    members: tuple[int, ...]
    loads_n: Floats
    counts: Floats
    rigid_mm: Floats
    deviation_mm: float
    cost: float


def programme_of(
    beam: Beam,
    inner: Floats,
    station: Floats,
    wanted: Floats,
    loose: tuple[Loose, ...],
    *,
    kept: Beam | None = None,
) -> Programme:
    """The programme of one board; `inner` are the places between the tips, `kept` as in `Programme`."""
    length = beam.length_mm
    place = fixed(np.concatenate([[0.0], inner[(inner > 0) & (inner < length)], [length]]))
    cols = columns(beam, place)
    loads, push = (columns(kept, place) if kept else cols).heights(np.concatenate([station, [0.0, length]]))
    _, at_places = cols.heights(place)
    bend_loads, bend_push = least_bends(cols)
    return Programme(
        beam,
        kept or beam,
        place,
        station,
        wanted,
        level(loads, station / length),
        level(push, station / length),
        level(np.hstack([at_places, at_places[:, [0, -1]]]), place / length),
        bend_loads,
        bend_push,
        loose,
        LEAST_LOAD_N,
    )


def level(heights: Floats, share: Floats) -> Floats:
    """Heights (…, s + 2), the last two at the tips, turned so that both tips are at 0: (…, s)."""
    return heights[..., :-2] - heights[..., -2:-1] * (1 - share) - heights[..., -1:] * share


def least_bends(cols: Columns) -> tuple[Floats, Floats]:
    """(b,) and (n, b) columns of a curvature that is nowhere above that on either side of any break.

    A moment that bends the board the wrong way shows most on the less stiff side; the free curvature, never below 0
    on a board, counts with its lesser side. Between breaks curvature has no least value (loads press down).
    """
    stiff = np.minimum(np.append(cols.stiffness_n_mm2, np.inf), np.append(np.inf, cols.stiffness_n_mm2))
    last = cols.sizes_mm[-1] ** np.arange(4)
    loads = np.append(cols.moment_loads[:, 0], cols.moment_loads[-1] @ last)
    push = np.hstack([cols.moment_push[:, :, 0], (cols.moment_push[:, -1] @ last)[:, None]])
    ends = cols.free[:, 0] + cols.free[:, 1] * cols.sizes_mm
    free = np.minimum(np.append(cols.free[:, 0], np.inf), np.append(np.inf, ends))
    return loads / stiff + free, push / stiff


def answer_of(
    programme: Programme,
    members: tuple[int, ...],
    *,
    aim: Aim,
    own: Own,
    within_mm: float = np.inf,
    weight_places: NDArray[np.bool_] | None = None,
) -> Answer | None:
    """Solve one programme; None if nothing satisfies it.

    Unknowns in order: loads (n), counts (kinds × inner places), heights of the tips (2), deviation.

    Args:
        aim: "deviation" or "mass" (of the weights); the other one breaks ties.
        own: "none", "shares" (weights may be split) or "whole".
        within_mm: most deviation allowed.
        weight_places: (kinds × inner places,) where weights may lie; everywhere if None.
    """
    inner = np.arange(1, programme.place_mm.size - 1)
    kinds, n = len(programme.loose), len(members)
    w = kinds * inner.size
    masses = np.repeat([k.mass_kg for k in programme.loose], inner.size)
    onto = np.tile(inner, kinds).astype(np.intp)
    lower = np.concatenate([np.full(n, programme.least_load_n), np.zeros(w), [-np.inf, -np.inf, 0]])
    upper = np.full(lower.size, np.inf)
    upper[n : n + w] = np.repeat([min(k.count, PIECES_A_PLACE) for k in programme.loose], inner.size)
    upper[-1] = within_mm
    if weight_places is not None:
        upper[n : n + w][~weight_places] = 0
    if own == "none":
        upper[n : n + w] = 0
    cost = np.zeros(lower.size)
    cost[n : n + w] = (1.0 if aim == "mass" else 1e-3) * masses + 1e-3
    cost[-1] = 1.0 if aim == "deviation" else 1e-3
    whole = np.zeros(lower.size)
    whole[n : n + w] = own == "whole"
    found = milp(
        cost,
        integrality=whole,
        bounds=Bounds(lower, upper),
        constraints=_rows(programme, list(members), onto, GRAVITY_M_S2 * masses),
        options={"node_limit": NODES, "mip_rel_gap": GAP},
    )
    if found.x is None:
        return None
    x = found.x
    counts = np.round(x[n : n + w]) if own == "whole" else x[n : n + w]
    return Answer(
        members,
        fixed(x[:n]),
        fixed(counts.reshape(kinds, inner.size)),
        fixed(x[n + w : n + w + 2]),
        float(x[-1]),
        float(found.fun),
    )


def _rows(programme: Programme, members: list[int], onto: NDArray[np.intp], newtons: Floats) -> LinearConstraint:
    """Balance, nearness to the wanted curve, no inverted stretch, stock, and at most so much at one place."""
    p, length, n = programme, programme.beam.length_mm, len(members)
    inner, kinds = p.place_mm.size - 2, len(p.loose)
    place = p.place_mm / length
    balance = np.zeros((2, n + newtons.size + 3))
    balance[0, :n], balance[1, :n] = 1, place[members]
    balance[0, n:-3], balance[1, n:-3] = -newtons, -newtons * place[onto]
    rest = np.array([p.beam.total_load_n, p.beam.load_moment_n_mm / length])
    share = p.station_mm[:, None] / length
    curve = np.hstack([p.height_push[members].T, -(p.height_push[onto] * newtons[:, None]).T, 1 - share, share])
    gap, ones = p.wanted_mm - p.height_loads, np.ones_like(share)
    bend = 1e5 * np.hstack(
        [p.bend_push[members].T, -(p.bend_push[onto] * newtons[:, None]).T, np.zeros((p.bend_loads.size, 3))]
    )
    bend_least = 1e5 * (SPARE_CURVATURE * INVERTED_PER_MM - p.bend_loads)
    stock = np.zeros((kinds + 2 * inner, balance.shape[1]))
    for i, kind in enumerate(p.loose):
        at = n + i * inner
        stock[i, at : at + inner] = 1
        stock[kinds + np.arange(inner), at + np.arange(inner)] = 1
        stock[kinds + inner + np.arange(inner), at + np.arange(inner)] = kind.mass_kg
    most = np.array([*(k.count for k in p.loose), *([PIECES_A_PLACE] * inner), *([KG_A_PLACE] * inner)])
    matrix = np.vstack([balance, np.hstack([curve, -ones]), np.hstack([curve, ones]), bend, stock])
    free = np.full(gap.size + bend_least.size + most.size, np.inf)
    lower = np.concatenate([rest, -free[: gap.size], gap, bend_least, -free[: most.size]])
    upper = np.concatenate([rest, gap, free[: gap.size + bend_least.size], most])
    return LinearConstraint(matrix, lower, upper)
