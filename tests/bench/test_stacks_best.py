"""No pile is better than the one that is found: all choices tried one by one, and an integer programme."""

import itertools
from dataclasses import replace

import numpy as np
import pytest
from pile_checks import fiddliness, left_out, piled, unlikeness, wishes
from scipy.optimize import Bounds, LinearConstraint, milp

from generator.bench import stack_list
from generator.bench.stack_list import Piece
from generator.bench.stacks import TILTS_MM


def all_stacks(things, load):
    """Every legal stack as counts, by all orders of its pieces."""
    out = []
    for counts in itertools.product(*(range(min(t.count, 5) + 1) for t in things)):
        lying = [thing for thing, n in zip(things, counts, strict=True) for _ in range(n)]
        if not 1 <= len(lying) <= 5 or sum(p.kind == "tin" for p in lying) > 1:
            continue
        if any(carries(order, load) for order in set(itertools.permutations(lying))):
            out.append(counts)
    return out


def carries(order, load):
    body = order[:-1] if order[-1].kind == "crossbar" else order
    if any(p.kind == "crossbar" for p in body) or any(a.width_mm < b.width_mm for a, b in itertools.pairwise(body)):
        return False
    masses = [sum(p.mass_kg for p in order[at + 1 :]) for at in range(len(order))]
    return all(p.takes_kg / 2 >= load / 9.80665 + m for p, m in zip(order, masses, strict=True))


def somewhere(line_mm, within_mm, share, level, slope):
    """(m,) whether each choice of stacks fits at one base and tilt: some corner of the area that is left is legal."""
    sides, limits = [], []
    for i, x in enumerate(share):
        sides += [(1.0, x), (-1.0, -x)]
        limits += [line_mm[:, i] + within_mm[:, i], within_mm[:, i] - line_mm[:, i]]
    sides += [(-1.0, slope), (1.0, -slope), (0.0, 1.0), (0.0, -1.0)]
    limits += [np.full(line_mm.shape[0], v) for v in (-level, level + 160, 8.0, 8.0)]
    sides, limits = np.array(sides), np.stack(limits, axis=1)
    out = np.zeros(line_mm.shape[0], dtype=bool)
    for p, q in itertools.combinations(range(len(sides)), 2):
        if abs(np.linalg.det(sides[[p, q]])) > 1e-9:
            corner = limits[:, [p, q]] @ np.linalg.inv(sides[[p, q]]).T
            out |= (corner @ sides.T <= limits + 1e-6).all(axis=1)
    return out


def best_by_trying(things, heights, *, load, level, slope, tolerance, factors):
    """The least wishes of all choices, sorted before they are tried for stock and for fit."""
    n = len(heights)
    share = np.linspace(0, 1, n)
    stacks_ = all_stacks(things, load)
    options = [(counts, k) for counts in stacks_ for k in range(len(factors))] + [(None, -1)]
    high = np.array([sum(c * t.height_mm for c, t in zip(o, things, strict=True)) if o else 0.0 for o, _ in options])
    uses = np.array([o or (0,) * len(things) for o, _ in options])
    named = [{k: c for k, c in enumerate(o) if c} if o else None for o, _ in options]
    stretch = np.array([left_out(n, factors) if o is None else factors[k] - 1 for o, k in options])
    bar = np.array(
        [
            o is not None and not any(c and t.kind == "crossbar" for c, t in zip(o, things, strict=True))
            for o, _ in options
        ]
    )
    fiddly = np.array([fiddliness(things, c) if c else 0 for c in named])
    strength = [-(t.takes_kg / 2 + t.mass_kg) for t in things]  # of equal widths the strongest and heaviest is lowest
    body = sorted(range(len(things)), key=lambda k: (things[k].kind == "crossbar", -things[k].width_mm, strength[k]))
    base = [next((k for k in body if c and c.get(k)), None) for c in named]
    unlike = np.array(
        [
            [unlikeness(a, b, base[i] != base[j]) if a and b else 0 for j, b in enumerate(named)]
            for i, a in enumerate(named)
        ]
    )
    pick = np.stack([axis.ravel() for axis in np.indices((len(options),) * n)], axis=1)
    pick = pick[(uses[pick].sum(axis=1) <= [t.count for t in things]).all(axis=1)]
    counted = any(t.kind == "crossbar" for t in things)
    keys = [
        stretch[pick].sum(axis=1),
        (bar[pick[:, 0]].astype(int) + bar[pick[:, -1]]) * counted,
        uses.sum(axis=1)[pick].sum(axis=1),
        fiddly[pick].sum(axis=1),
        sum(unlike[pick[:, i], pick[:, n - 1 - i]] for i in range(n // 2)),
    ]
    order = np.lexsort(keys[::-1])
    allowed = np.array([1e7 if o is None else tolerance * factors[k] for o, k in options])
    for start in range(0, order.size, 20_000):
        part = order[start : start + 20_000]
        fits = somewhere(high[pick[part]] - heights, allowed[pick[part]], share, level, slope)
        if fits.any():
            first = part[int(np.argmax(fits))]
            return tuple(int(key[first]) for key in keys)
    raise AssertionError("leaving out every support always fits")


KINDS = {"tin": (60, 160), "block": (30, 90), "sheet": (6, 30), "shim": (1, 4), "crossbar": (15, 40)}
DECIDING = (807, 1205, 1817, 1826)
"""Houses in which likeness decides, and a crossbar against a tolerance."""


def a_house(rng, most_kinds):
    """One to `most_kinds` kinds, one or two of each, so alike in width and so weak that both matter."""
    return [
        Piece(
            f"{kind} {i}",
            kind,
            float(rng.integers(*KINDS[kind])),
            int(rng.integers(60, 63)),
            float(rng.uniform(0.1, 4)),
            float(rng.uniform(12, 60)),
            int(rng.integers(1, 3)),
        )
        for i, kind in enumerate(rng.choice(list(KINDS), int(rng.integers(1, most_kinds + 1))))
    ]


@pytest.mark.parametrize("seed", [*range(70), *DECIDING])
def test_nothing_better_exists_at_any_height_and_tilt(seed):
    """All choices for two to four supports, tried one by one in the order of the wishes: an enumeration of its own."""
    rng = np.random.default_rng(seed)
    n = int(rng.integers(2, 5))
    things = a_house(rng, 2 if n == 4 else 4)
    heights, level, slope = rng.uniform(0, 60, n), float(rng.uniform(10, 90)), float(rng.uniform(-1, 0))
    load, tolerance = float(rng.uniform(5, 60)), float(rng.choice([0.5, 1.0]))
    factors = ((1.0, 3.0), (1.0,), (1.0, 2.0, 4.0))[int(rng.integers(3))] if n < 4 else (1.0, 3.0)
    made = piled(
        things,
        list(heights),
        loads=load,
        base=[level + slope * tilt for tilt in TILTS_MM],
        tolerance_mm=tolerance,
        factors=factors,
    )
    best = best_by_trying(things, heights, load=load, level=level, slope=slope, tolerance=tolerance, factors=factors)
    assert made.proven
    assert wishes(things, made, factors) == best


@pytest.mark.parametrize("seed", range(40))
def test_a_list_that_was_cut_is_the_best_if_it_says_so(seed, monkeypatch):
    """Piled with the whole list and with one of pairs only: if a higher stack does better, it must be told."""
    rng = np.random.default_rng(seed)
    things = [replace(piece, count=3, takes_kg=200.0) for piece in a_house(rng, 5)]
    heights = list(rng.uniform(0, 12, 3))
    whole = piled(things, heights, base=30.0, tolerance_mm=1.0)
    monkeypatch.setattr(stack_list, "MOST_STACKS", len(things) * (len(things) + 3) // 2)
    short = piled(things, heights, base=30.0, tolerance_mm=1.0)
    if short.proven and whole.proven:
        assert wishes(things, short) == wishes(things, whole)


@pytest.mark.parametrize("seed", range(5))
def test_no_integer_programme_needs_fewer_pieces(seed):
    """HiGHS (through scipy's `milp`), base and tilt free, four to six supports and six kinds that are strong enough."""
    rng = np.random.default_rng(seed)
    sizes = {"tin": (80, 200), "block": (30, 90), "thick": (30, 90), "sheet": (5, 30), "thin": (5, 30), "shim": (1, 4)}
    kinds = {"thick": "block", "thin": "sheet"}
    things = [
        Piece(name, kinds.get(name, name), float(rng.integers(*size)), 100, 1, 500, int(rng.integers(3, 6)))
        for name, size in sizes.items()
    ]
    n, k = 4 + seed % 3, len(things)
    heights, share, end = rng.uniform(0, 100, n), np.linspace(0, 1, n), n * k
    rows, low, high = [], [], []

    def rule(of, weights, least, most):
        row = np.zeros(end + 2)
        row[of] = weights
        rows.append(row)
        low.append(least)
        high.append(most)

    for i in range(n):
        own = [*range(i * k, (i + 1) * k)]
        rule([*own, end, end + 1], [*(t.height_mm for t in things), -1, -share[i]], heights[i] - 1, heights[i] + 1)
        rule(own, 1, 1, 5)
        rule(own[:1], 1, 0, 1)
    for i, piece in enumerate(things):
        rule([*range(i, end, k)], 1, 0, piece.count)
    found = milp(
        [1.0] * end + [0.0, 0.0],
        constraints=LinearConstraint(np.array(rows), low, high),
        integrality=[1] * end + [0, 0],
        bounds=Bounds([0.0] * end + [60.0, -8.0], [5.0] * end + [220.0, 8.0]),
        options={"mip_rel_gap": 0.0},
    )
    made = piled(things, list(heights), tips=False)
    assert all(made.kept) == found.success
    if found.success:
        assert made.proven
        assert wishes(things, made)[2] == round(found.fun)


def test_mirror_places_get_the_same_where_nothing_else_is_lost():
    """Two tins and two bricks of one height: the outer supports get one kind, the inner ones the other."""
    things = [Piece("tin", "tin", 65, 150, 1, 100, 2), Piece("brick", "block", 65, 100, 1, 100, 2)]
    made = piled(things, [0.0, 0.0, 0.0, 0.0], base=60.0, tips=False)
    kinds = [s.pieces[0][0] for s in made.stacks]
    assert kinds == kinds[::-1]
    assert wishes(things, made)[-1] == 0
