"""Heights read with a tape: fair curves, slips of the tape and true hollows, told apart at known rates.

The boards are invented: rockers as high as is usual (tail 45–65 mm, nose 100–125 mm; common practice), half of them
drawn and half of them beams that lie on four supports. The hollows are those of a beam on a support set too high.
"""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache

import numpy as np
import pytest

from generator.bench.beam import Beam, PointLoad
from generator.bench.contact import INVERTED_PER_MM, OK, Bent, solve
from generator.bench.readings import ReadCurve, curve_from_readings
from generator.bench.straight_edge import deepest_hollow
from generator.quantities import Floats

TAPE_SD_MM = 0.4


@dataclass(frozen=True, slots=True, eq=False)
class Board:
    length_mm: float
    height_mm: Callable[[Floats], Floats]


def drawn(rng: np.random.Generator) -> Board:
    """Power curves on either side of a low point."""
    length = rng.uniform(1750, 2750)
    low, tail, nose = rng.uniform(0.4, 0.5) * length, rng.uniform(45, 65), rng.uniform(100, 125)
    by_tail, by_nose = rng.uniform(2.3, 3.0, 2)

    def height(x: Floats) -> Floats:
        away = np.where(x < low, (low - x) / low, (x - low) / (length - low))
        return np.where(x < low, tail * np.abs(away) ** by_tail, nose * np.abs(away) ** by_nose)

    return Board(length, height)


def laid(rng: np.random.Generator, raised_mm: float = 0.0) -> tuple[Board, Bent] | None:
    """A board of 3 to 5 kg with clamps and a few weights on four supports, one of them `raised_mm` too high."""
    aim = drawn(rng)
    length = aim.length_mm
    breaks = np.linspace(0, length, 25)
    along = (breaks[1:] + breaks[:-1]) / 2 / length
    fullness = 0.2 + 0.8 * np.sin(np.pi * along) ** 0.7
    load = rng.uniform(30, 50) / length * fullness / fullness.mean()
    inside = np.clip(breaks, 2, length - 2)
    cut = rng.uniform(0, 0.8) * np.maximum(
        aim.height_mm(inside - 1) - 2 * aim.height_mm(inside) + aim.height_mm(inside + 1), 0
    )
    clamps = [PointLoad(float(x), rng.uniform(8, 14)) for x in np.arange(0.09 * length, 0.95 * length, 210)]
    weights = [
        PointLoad(float(u * length), float(p)) for u, p in zip((0.2, 0.5, 0.78), rng.uniform(0, 100, 3), strict=True)
    ]
    beam = Beam(length, breaks, rng.uniform(2e8, 4.5e8) * fullness, load, load, cut[:-1], cut[1:], (*clamps, *weights))
    places = np.array([0.0, rng.uniform(0.3, 0.4), rng.uniform(0.6, 0.7), 1.0]) * length
    heights = aim.height_mm(places) + np.array([0, *rng.uniform(-3, 3, 2), 0])
    heights[rng.integers(1, 3)] += raised_mm
    bent = solve(beam, x_mm=places, height_mm=heights)
    return (Board(length, bent.heights_mm), bent) if bent.status == OK else None


def fair(rng: np.random.Generator) -> Board:
    if rng.random() < 0.5:
        return drawn(rng)
    while True:
        found = laid(rng)
        if found and found[1].least_curvature[0] > INVERTED_PER_MM:
            return found[0]


def hollow(rng: np.random.Generator) -> tuple[Board, tuple[float, float]]:
    """A board with one stretch of 300 to 800 mm that bends the wrong way, 3 to 8 mm deep."""
    while True:
        found = laid(rng, rng.uniform(15, 45))
        if found is None:
            continue
        wrong = found[1].inverted()
        if len(wrong) != 1 or not 300 <= wrong[0][1] - wrong[0][0] <= 800:
            continue
        deep, _ = deepest_hollow(found[0].height_mm, length_mm=found[0].length_mm, edge_mm=found[0].length_mm)
        if 3 <= deep <= 8:
            return found[0], wrong[0]


@cache
def hollows() -> list[tuple[Board, tuple[float, float]]]:
    """A hundred of them."""
    rng = np.random.default_rng(40)
    return [hollow(rng) for _ in range(100)]


def places(rng: np.random.Generator, board: Board, count: int) -> Floats:
    """Both tips and ribs between, not quite evenly spaced."""
    x = np.linspace(0, board.length_mm, count)
    x[1:-1] += rng.uniform(-0.12, 0.12, count - 2) * board.length_mm / (count - 1)
    return x


def taped(rng: np.random.Generator, board: Board, x: Floats, *, slip_at: int | None = None) -> Floats:
    """Readings above a line of any height and tilt; one of them 6 to 15 mm out if so asked."""
    read = board.height_mm(x) + rng.normal(0, TAPE_SD_MM, x.size)
    read += rng.uniform(50, 150) + rng.uniform(-8, 8) * x / board.length_mm
    if slip_at is not None:
        read[slip_at] += rng.choice([-1, 1]) * rng.uniform(6, 15)
    return read


def test_fair_boards_are_called_fair_and_their_curve_is_found():
    rng, verdicts, off = np.random.default_rng(41), [], []
    for _ in range(200):
        board = fair(rng)
        x = places(rng, board, int(rng.integers(7, 14)))
        told = curve_from_readings(x, taped(rng, board, x), length_mm=board.length_mm)
        verdicts.append(told.verdict)
        level = told.heights_mm - board.height_mm(told.x_mm)
        line = np.polynomial.Polynomial.fit(told.x_mm, level, 1)
        off.append(float(np.abs(level - line(told.x_mm)).max()))
        assert np.all(np.diff(told.heights_mm, n=2) >= -1e-9) or told.verdict != "fair"
    assert verdicts.count("fair") >= 0.97 * len(verdicts)
    assert np.percentile(off, 95) < 1.5


def slips(seed: int, count: int, least: int, most: int, *, inset: int) -> tuple[list[ReadCurve], list[int]]:
    """What is said of boards with one slip, `inset` readings or more from the tips."""
    rng, told, at = np.random.default_rng(seed), [], []
    for _ in range(count):
        board, readings = fair(rng), int(rng.integers(least, most + 1))
        x, slip_at = places(rng, board, readings), int(rng.integers(inset, readings - inset))
        told.append(curve_from_readings(x, taped(rng, board, x, slip_at=slip_at), length_mm=board.length_mm))
        at.append(slip_at)
    return told, at


def named_first(told: list[ReadCurve], at: list[int]) -> float:
    return float(np.mean([t.verdict == "misread" and t.misread[0].index == i for t, i in zip(told, at, strict=True)]))


def test_a_slip_between_the_tips_is_named():
    told, at = slips(42, 150, 7, 13, inset=1)
    assert named_first(told, at) >= 0.9
    alone = [t.verdict == "misread" and [m.index for m in t.misread] == [i] for t, i in zip(told, at, strict=True)]
    assert np.mean(alone) >= 0.85


def test_among_nine_readings_or_more_a_slip_between_the_tips_is_named_almost_always():
    told, at = slips(43, 150, 9, 13, inset=1)
    assert named_first(told, at) >= 0.95


def test_a_slip_at_a_tip_is_more_or_less_rocker_unless_it_is_large():
    """A tip has a neighbour on one side only: what is read there is never called a hollow, and often is fair."""
    rng, verdicts, found = np.random.default_rng(44), [], 0
    for _ in range(60):
        board = fair(rng)
        x = places(rng, board, int(rng.integers(9, 14)))
        tip = int(rng.choice([0, x.size - 1]))
        told = curve_from_readings(x, taped(rng, board, x, slip_at=tip), length_mm=board.length_mm)
        verdicts.append(told.verdict)
        found += tip in [m.index for m in told.misread]
    assert 0.2 < found / len(verdicts) < 0.9
    assert verdicts.count("hollow") + verdicts.count("both") <= 0.05 * len(verdicts)
    read = taped(rng, board, x)
    read[-1] += 60
    far = curve_from_readings(x, read, length_mm=board.length_mm)
    assert far.verdict == "misread"
    assert x.size - 1 in [m.index for m in far.misread]


def test_hollows_of_a_support_set_too_high_are_found_where_they_are():
    rng, verdicts, apart, deep = np.random.default_rng(45), [], [], []
    for board, (low, high) in hollows():
        x = places(rng, board, int(rng.integers(7, 14)))
        told = curve_from_readings(x, taped(rng, board, x), length_mm=board.length_mm)
        verdicts.append(told.verdict)
        if told.verdict == "hollow":
            deepest = max(told.hollows, key=lambda h: h.deepest_mm)
            apart.append(abs((deepest.from_mm + deepest.to_mm) / 2 - (low + high) / 2))
            deep.append(deepest.deepest_mm - deepest_hollow(board.height_mm, length_mm=board.length_mm)[0])
    assert verdicts.count("hollow") >= 0.9 * len(verdicts)
    assert verdicts.count("misread") <= 0.05 * len(verdicts)
    assert verdicts.count("fair") <= 0.02 * len(verdicts)
    assert np.percentile(apart, 90) < 120
    assert np.percentile(np.abs(deep), 90) < 2.0


def test_a_slip_on_a_hollow_board_shows_both():
    rng, right = np.random.default_rng(46), []
    for board, _ in hollows()[:50]:
        x = places(rng, board, int(rng.integers(10, 14)))
        slip_at = int(rng.integers(1, x.size - 1))
        told = curve_from_readings(x, taped(rng, board, x, slip_at=slip_at), length_mm=board.length_mm)
        right.append(told.verdict == "both" and slip_at in [m.index for m in told.misread] and bool(told.hollows))
    assert np.mean(right) >= 0.7


def test_a_tilted_and_lifted_line_changes_nothing():
    rng = np.random.default_rng(47)
    board = fair(rng)
    x = places(rng, board, 10)
    read = taped(rng, board, x, slip_at=4)
    one = curve_from_readings(x, read, length_mm=board.length_mm)
    other = curve_from_readings(x, read + 37 - 0.01 * x, length_mm=board.length_mm)
    assert one.verdict == other.verdict == "misread"
    assert other.heights_mm == pytest.approx(one.heights_mm + 37 - 0.01 * one.x_mm, abs=1e-5)
    assert other.misses_mm == pytest.approx(one.misses_mm, abs=1e-5)


def test_a_board_read_from_the_nose_gives_the_mirrored_answer():
    rng = np.random.default_rng(48)
    board = fair(rng)
    x = places(rng, board, 11)
    read = taped(rng, board, x, slip_at=3)
    one = curve_from_readings(x, read, length_mm=board.length_mm)
    other = curve_from_readings(board.length_mm - x[::-1], read[::-1], length_mm=board.length_mm)
    assert [m.index for m in one.misread] == [3]
    assert [m.index for m in other.misread] == [7]
    assert other.heights_mm[::-1] == pytest.approx(one.heights_mm, abs=1e-5)


def test_the_expected_height_is_near_the_true_one_and_the_slip_does_not_pull_the_curve():
    x = np.linspace(0, 2300, 11)
    true = 1e-4 * (x - 1000) ** 2 / 2
    read = true.copy()
    read[6] += 10
    told = curve_from_readings(x, read, length_mm=2300)
    assert told.verdict == "misread"
    assert told.misread[0].read_mm == read[6]
    assert told.misread[0].expected_mm == pytest.approx(true[6], abs=0.1)
    assert told.misses_mm[6] == pytest.approx(-10, abs=0.1)
    assert told.heights_mm == pytest.approx(1e-4 * (told.x_mm - 1000) ** 2 / 2, abs=0.1)


def test_two_neighbours_read_high_are_not_put_down_to_the_tape_alone():
    x = np.linspace(0, 2300, 11)
    read = 1e-4 * (x - 1000) ** 2 / 2
    read[5:7] += 7
    assert curve_from_readings(x, read, length_mm=2300).verdict in ("unclear", "hollow")


def test_readings_that_nothing_explains_are_unclear():
    read = [0, 30, 0, 30, 0, 30, 0, 30, 0, 30]
    told = curve_from_readings(np.linspace(0, 2300, 10), read, length_mm=2300)
    assert told.verdict == "unclear"
    assert told.misread


@pytest.mark.parametrize(
    ("x", "read", "message"),
    [
        ([0, 600, 1200, 2000], [50, 20, 0, 60], "at least 5"),
        ([0, 600, 600, 1200, 2000], [50, 20, 20, 0, 60], "increase"),
        ([0, 600, 900, 1200, 2400], [50, 20, 20, 0, 60], "increase"),
        ([0, 600, 900, 1200, 2000], [50, 20, np.nan, 0, 60], "finite"),
        ([0, 600, 900, 1200, 2000], [50, 20, 0, 60], "at least 5"),
    ],
)
def test_readings_that_make_no_sense_are_refused(x, read, message):
    with pytest.raises(ValueError, match=message):
        curve_from_readings(x, read, length_mm=2300)
