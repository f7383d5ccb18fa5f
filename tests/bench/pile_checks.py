"""What the tests of stacks share: a question, every rule checked on its answer, and how good the answer is."""

import itertools

import numpy as np
import pytest

from generator.bench.stacks import FACTORS, TILTS_MM, Pile, pile

HEIGHTS = [58.0, 4.0, 12.0, 118.0]


def asked(heights=HEIGHTS, *, loads=60.0, table=0.0, base=60.0, tips=True, **more):
    n = len(heights)
    return {
        "x_per_length": np.linspace(0, 1, n),
        "height_mm": heights,
        "table_mm": np.full(n, table),
        "load_n": np.full(n, loads),
        "wants_bar": [tips and i in (0, n - 1) for i in range(n)],
        "least_base_mm": base,
        **more,
    }


def piled(things, heights=HEIGHTS, **more) -> Pile:
    return pile(things, **asked(heights, **more))


def flat(things, stack):
    return [things[k] for k, count in stack.pieces for _ in range(count)]


def assert_obeys(things, made, question):
    """Every rule, checked on what came out and on nothing else."""
    heights, share, loads = (np.asarray(question[k], dtype=float) for k in ("height_mm", "x_per_length", "load_n"))
    tolerance = np.broadcast_to(question.get("tolerance_mm", 1.0), heights.shape)
    least = np.broadcast_to(question["least_base_mm"], len(TILTS_MM))
    order = np.argsort(TILTS_MM)
    lowest = np.interp(made.tilt_mm, np.array(TILTS_MM)[order], least[order])
    assert lowest - 1e-6 <= made.base_mm <= lowest + 160 + 1e-6
    assert abs(made.tilt_mm) <= 8 + 1e-6
    wanted = made.base_mm + heights + made.tilt_mm * share - question["table_mm"]
    used = np.zeros(len(things), dtype=int)
    for i, stack in enumerate(made.stacks):
        if stack is None:
            assert made.missing_mm[i] == pytest.approx(wanted[i])
            assert not made.kept[i]
            continue
        for k, count in stack.pieces:
            used[k] += count
        order_up = flat(things, stack)
        assert 1 <= len(order_up) <= 5
        assert sum(p.kind == "tin" for p in order_up) <= 1
        assert all(p.kind != "crossbar" for p in order_up[:-1])
        body = [p for p in order_up if p.kind != "crossbar"]
        assert all(low.width_mm >= high.width_mm for low, high in itertools.pairwise(body))
        assert stack.height_mm == pytest.approx(sum(p.height_mm for p in order_up))
        assert stack.mass_kg == pytest.approx(sum(p.mass_kg for p in order_up))
        for at, piece in enumerate(order_up):
            above = sum(p.mass_kg for p in order_up[at + 1 :])
            assert piece.takes_kg * 9.80665 >= 2 * (loads[i] + above * 9.80665) - 1e-6
        assert stack.wanted_mm == pytest.approx(wanted[i])
        assert abs(stack.error_mm) <= made.within_mm[i] + 1e-7
        assert made.kept[i] == (made.within_mm[i] <= tolerance[i])
    assert all(n <= thing.count for n, thing in zip(used, things, strict=True))


def wishes(things, made, factors=FACTORS):
    """What the pile is judged by, in order: stretching, tips without crossbar, pieces, fiddly stacks, unlike pairs."""
    n = len(made.stacks)
    penalty = {factor: factor - 1 for factor in factors}
    stretch = sum(
        left_out(n, factors) if stack is None else penalty[round(within / tolerance, 6)]
        for stack, within, tolerance in zip(made.stacks, made.within_mm, made.tolerance_mm, strict=True)
    )
    bars = sum(made.stacks[i] is not None and flat(things, made.stacks[i])[-1].kind != "crossbar" for i in (0, n - 1))
    bars *= any(p.kind == "crossbar" for p in things)
    counts = [dict(s.pieces) if s else None for s in made.stacks]
    pieces = sum(sum(c.values()) for c in counts if c)
    fiddly = sum(fiddliness(things, c) for c in counts if c)
    unlike = sum(
        unlikeness(one, other, made.stacks[i].pieces[0][0] != made.stacks[n - 1 - i].pieces[0][0])
        for i, (one, other) in enumerate(zip(counts[: n // 2], counts[::-1], strict=False))
        if one and other
    )
    return stretch, bars, pieces, fiddly, unlike


def left_out(supports, factors):
    """One more than all supports stretched by the least factor above 1 and one by the greatest."""
    above = [factor - 1 for factor in factors[1:]] or [0]
    return supports * above[0] + above[-1] + 1


def fiddliness(things, counts):
    return any(things[k].kind == "shim" for k in counts) + max(0, len(counts) - 2)


def unlikeness(one, other, other_base):
    """Six for another lowest piece, one for each piece that is not in the other stack (of the larger of the two)."""
    shared = sum(min(n, other.get(k, 0)) for k, n in one.items())
    return 6 * other_base + max(sum(one.values()), sum(other.values())) - shared
