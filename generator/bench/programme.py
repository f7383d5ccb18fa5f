"""The linear programme behind a bench plan: loads on the supports and weights on the board as unknowns.

The curve, its curvature and its balance are all linear in them; whole weights make it a small integer programme.
"""

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import Bounds, LinearConstraint, milp

from generator.bench.beam import Beam, columns
from generator.bench.contact import INVERTED_PER_MM
from generator.quantities import GRAVITY_M_S2, Floats, fixed

LEAST_LOAD_N = 3.0
"""Less than this on a support, and a careless hand decides whether it bears."""
PIECES_A_PLACE, KG_A_PLACE = 3, 20.0
"""What can lie on one rib without rolling off or breaking it."""
EXTRA_KG_A_PLACE = 25.0
SPARE_CURVATURE = 0.9
"""The programme keeps a tenth of the allowed inversion back for rounding."""
NODES, GAP = 60, 0.03
"""Limits of the integer search: counted, not timed, so that the same board gives the same plan everywhere."""


Aim = Literal["deviation", "mass", "extra", "bearing"]
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
    last one the nose tip, those between them may take a middle support or a weight.
    """

    beam: Beam
    place_mm: Floats
    station_mm: Floats
    wanted_mm: Floats
    height_loads: Floats
    height_push: Floats
    bend_loads: Floats
    bend_push: Floats
    loose: tuple[Loose, ...]
    least_load_n: float


@dataclass(frozen=True, slots=True, eq=False)
class Answer:
    """One solved programme: loads at the supports, weights (kinds × inner places), extra kg, heights' rigid part."""

    members: tuple[int, ...]
    loads_n: Floats
    counts: Floats
    extra_kg: Floats
    rigid_mm: Floats
    deviation_mm: float
    cost: float


def programme_of(beam: Beam, inner: Floats, station: Floats, wanted: Floats, loose: tuple[Loose, ...]) -> Programme:
    length = beam.length_mm
    place = fixed(np.concatenate([[0.0], inner[(inner > 0) & (inner < length)], [length]]))
    cols = columns(beam, place)
    loads, push = cols.heights(np.concatenate([station, [0.0, length]]))

    def level(y: Floats) -> Floats:
        share = station / length
        return y[..., :-2] - y[..., -2:-1] * (1 - share) - y[..., -1:] * share

    bend_loads, bend_push = cols.end_curvatures()
    return Programme(
        beam, place, station, wanted, level(loads), level(push), bend_loads, bend_push, loose, LEAST_LOAD_N
    )


def answer_of(
    programme: Programme,
    members: tuple[int, ...],
    *,
    aim: Aim,
    own: Own,
    within_mm: float = np.inf,
    fixed_counts: Floats | None = None,
    extra_places: NDArray[np.bool_] | None = None,
) -> Answer | None:
    """Solve one programme; None if nothing satisfies it.

    Unknowns in order: loads (4), counts (kinds × inner places), extra kg (inner places), heights of the tips (2),
    deviation, least middle load.

    Args:
        aim: "deviation", "mass" (of own weights), "extra" (of mass that is not there) or "bearing" (most load on the
            least loaded middle support).
        within_mm: most deviation allowed.
        own: "none", "shares" (weights may be split) or "whole"; `fixed_counts` overrides it.
        extra_places: (inner places,) where extra mass may lie; everywhere if None.
    """
    inner = np.arange(1, programme.place_mm.size - 1)
    kinds = len(programme.loose)
    n, w, e = len(members), kinds * inner.size, inner.size
    masses = np.repeat([k.mass_kg for k in programme.loose], e)
    onto = np.concatenate([np.tile(inner, kinds), inner]).astype(np.intp)
    newtons = GRAVITY_M_S2 * np.concatenate([masses, np.ones(e)])
    rows = _rows(programme, list(members), onto, newtons, kinds)
    least = programme.least_load_n
    lower = np.concatenate([np.full(n, least), np.zeros(w + e), [-np.inf, -np.inf, 0, least]])
    upper = np.full(lower.size, np.inf)
    upper[n : n + w] = np.repeat([min(k.count, PIECES_A_PLACE) for k in programme.loose], e)
    upper[n + w : n + w + e] = EXTRA_KG_A_PLACE if aim == "extra" else 0.0
    upper[-2] = within_mm
    if extra_places is not None:
        upper[n + w : n + w + e][~extra_places] = 0
    if own == "none":
        upper[n : n + w] = 0
    if fixed_counts is not None:
        lower[n : n + w] = upper[n : n + w] = fixed_counts
    cost = np.zeros(lower.size)
    if aim == "bearing":
        cost[-1] = -1
    else:
        cost[n : n + w] = (1.0 if aim == "mass" else 1e-3) * masses + 1e-3
        cost[n + w : n + w + e] = 1.0
        cost[-2] = 1.0 if aim == "deviation" else 1e-3
    whole = np.zeros(lower.size)
    if own == "whole" and fixed_counts is None:
        whole[n : n + w] = 1
    found = milp(
        cost,
        integrality=whole,
        bounds=Bounds(lower, upper),
        constraints=rows,
        options={"node_limit": NODES, "mip_rel_gap": GAP},
    )
    if found.x is None:
        return None
    x = found.x
    counts = np.round(x[n : n + w]) if own == "whole" else x[n : n + w]
    return Answer(
        members,
        fixed(x[:n]),
        fixed(counts.reshape(kinds, e)),
        fixed(x[n + w : n + w + e]),
        fixed(x[n + w + e : n + w + e + 2]),
        float(x[-2]),
        float(found.fun),
    )


def _rows(
    programme: Programme, members: list[int], onto: NDArray[np.intp], newtons: Floats, kinds: int
) -> LinearConstraint:
    """Balance, nearness to the wanted curve, no inverted stretch, stock, and at most so much at one place."""
    p, length = programme, programme.beam.length_mm
    inner = p.place_mm.size - 2
    none = np.zeros
    place = p.place_mm / length
    balance = np.zeros((2, len(members) + newtons.size + 4))
    balance[0, : len(members)], balance[1, : len(members)] = 1, place[members]
    balance[0, len(members) : -4], balance[1, len(members) : -4] = -newtons, -newtons * place[onto]
    rest = np.array([p.beam.total_load_n, p.beam.load_moment_n_mm / length])
    share = p.station_mm[:, None] / length
    curve = np.hstack([p.height_push[members].T, -(p.height_push[onto] * newtons[:, None]).T, 1 - share, share])
    gap = p.wanted_mm - p.height_loads
    ones, nothing = np.ones_like(share), np.zeros_like(share)
    bend = 1e5 * np.hstack(
        [p.bend_push[members].T, -(p.bend_push[onto] * newtons[:, None]).T, none((p.bend_loads.size, 4))]
    )
    bend_least = 1e5 * (SPARE_CURVATURE * INVERTED_PER_MM - p.bend_loads)
    middles = np.zeros((len(members) - 2, balance.shape[1]))
    middles[:, 1 : len(members) - 1] = np.eye(len(members) - 2)
    middles[:, -1] = -1
    stock = np.zeros((kinds + 2 * inner, balance.shape[1]))
    for i, kind in enumerate(p.loose):
        at = len(members) + i * inner
        stock[i, at : at + inner] = 1
        stock[kinds + np.arange(inner), at + np.arange(inner)] = 1
        stock[kinds + inner + np.arange(inner), at + np.arange(inner)] = kind.mass_kg
    most = np.array([*(k.count for k in p.loose), *([PIECES_A_PLACE] * inner), *([KG_A_PLACE] * inner)])
    matrix = np.vstack(
        [balance, np.hstack([curve, -ones, nothing]), np.hstack([curve, ones, nothing]), bend, middles, stock]
    )
    free = np.full(gap.size + bend_least.size + len(middles) + most.size, np.inf)
    lower = np.concatenate([rest, -free[: gap.size], gap, bend_least, none(len(middles)), -free[: most.size]])
    upper = np.concatenate([rest, gap, free[: gap.size + bend_least.size + len(middles)], most])
    return LinearConstraint(matrix, lower, upper)
