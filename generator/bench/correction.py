"""Which shims to put under or take out so that the bottom comes nearest to what is wanted, from what the tape says."""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import product
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from generator.bench.programme import LEAST_LOAD_N
from generator.bench.replay import prepared, settled
from generator.quantities import Floats, fixed

LEAST_READINGS = 4
MOST_MM, MOST_PIECES = 8.0, 3
"""Change at one support: the sums are of the bench as planned, and further off it is another bench."""
TRIAL_MM = 0.25
ALIKE_MM = 0.1
"""Deviations nearer than this are equally good: no tape tells them apart."""
BANDS, TRIES, ROUNDS = 10, 16, 4
"""How far behind the best, in steps of `ALIKE_MM`, and how many are laid again in full; rounds to make all bear."""

SAMPLED = 97
"""Of so many choices one is judged first, so that most of the others need not be judged to the end."""


@dataclass(frozen=True, slots=True)
class Move:
    """What to do at one support: its change of height, and pieces of each shim added (or, below 0, taken out)."""

    support: int
    change_mm: float
    pieces: tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True, eq=False)
class Correction:
    """The best that shims can do.

    Attributes:
        moves: supports to change, tail first; empty if nothing better can be had.
        before_mm, after_mm: worst distance of the readings from the wanted heights, the rigid part taken away, as read
            and as foreseen.
        expected_mm: (n,) readings to expect afterwards, above the level line.
        off_mm: (n,) what is then left at each reading, the rigid part taken away.
        lift_mm, turn_mm: that rigid part after the moves: height at the tail tip, and rise to the nose tip. It changes
            no curve and asks for nothing.
        loads_n: load on each support afterwards.
        least_curvature_per_mm: afterwards, of the bench as computed.
    """

    moves: tuple[Move, ...]
    before_mm: float
    after_mm: float
    expected_mm: Floats
    off_mm: Floats
    lift_mm: float
    turn_mm: float
    loads_n: tuple[float, ...]
    least_curvature_per_mm: float


def best_correction(
    data: dict[str, Any],
    *,
    x_mm: ArrayLike,
    read_mm: ArrayLike,
    held: Sequence[Sequence[int]],
    shims_mm: Sequence[float] | None = None,
    weights_n: Sequence[float] | None = None,
) -> Correction:
    """Find the moves that leave the least deviation, and among those within a tenth of a millimetre the fewest pieces.

    Only the shape counts. A bottom that lies a little higher or more tilted than planned, as a whole, has the same
    rocker, so the straight line that fits best (least squares) is taken from readings minus wanted heights before the
    worst is sought; the line is reported.

    Neither board nor stacks need be quite as computed. The tops are taken to be where the readings say that the bottom
    is, and what is foreseen is the reading plus the change of the computed curve.
    All changes by whole pieces (up to 3 and 8 mm a support) are compared with the bench taken as linear about its
    present state, which is exact while the same points bear. The best are laid again in full; those that let a support
    go light (under 3 N, or less than it has now), bend the bottom the wrong way (or more so than now) or do not give
    what was foreseen are passed over. A support that bears nothing now is first raised, in the sums, until it does.

    Args:
        data: of `what_if`.
        x_mm, read_mm: (n,) places and heights above the level line, n at least 4.
        held: for each support, how many pieces of each shim its stack holds and could give.
        shims_mm: changes of height already made at each support since the data were written, none if left out.
        weights_n: load added since at each place for weights, none if left out.

    Raises:
        ValueError: lists of unlike length, too few readings, or one off the board.
        ArithmeticError: the board tips over as it lies.
    """
    x, read = fixed(x_mm), fixed(read_mm)
    supports, kinds = len(data["supports"]), len(data["shims"])
    if x.ndim != 1 or x.shape != read.shape or not (np.all(np.isfinite(x)) and np.all(np.isfinite(read))):
        raise ValueError("each reading needs one finite place and height")
    if np.unique(x).size < LEAST_READINGS or x.min() < 0 or x.max() > data["length_mm"]:
        raise ValueError(f"readings must be at {LEAST_READINGS} places or more, all on the board")
    if len(held) != supports or any(len(one) != kinds for one in held):
        raise ValueError("held needs one list a support and one number a shim")
    planned = _Bench(
        prepared(data),
        x,
        fixed([0.0] * supports if shims_mm is None else shims_mm),
        tuple([0.0] * len(data["weights"]["node"]) if weights_n is None else weights_n),
    )
    bench = _as_read(planned, read)
    asked = _Asked(x, read, _wanted(data, x), data["length_mm"])
    return _best(bench, asked, [_changes(data["shims"], held, i) for i in range(supports)])


@dataclass(frozen=True, slots=True, eq=False)
class _Laid:
    """The computed bench with some change made: heights at the readings, and of each support load, middle and gap."""

    heights_mm: Floats
    loads_n: Floats
    touch_x_mm: Floats
    gaps_mm: Floats
    least_per_mm: float


@dataclass(frozen=True, slots=True, eq=False)
class _Bench:
    """The bench as it is now, ready to be laid with any change."""

    ready: dict[str, Any]
    x_mm: Floats
    shims_mm: Floats
    weights_n: tuple[float, ...]

    def laid(self, change_mm: ArrayLike) -> _Laid:
        shims = (self.shims_mm + np.asarray(change_mm, dtype=np.float64)).tolist()
        told = settled(self.ready, shims_mm=shims, weights_n=self.weights_n)
        if told["status"] != "ok":
            raise ArithmeticError(f"the board tips over: its loads balance at {told['balance_x_mm']:.0f} mm")
        heights = np.interp(self.x_mm, self.ready["data"]["nodes"]["x_mm"], told["node_heights_mm"])
        lists = (told["loads_n"], [place or 0.0 for place in told["touch_x_mm"]], told["gaps_mm"])
        return _Laid(fixed(heights), *map(fixed, lists), told["least_curvature_per_mm"])


def _as_read(planned: _Bench, read: Floats) -> _Bench:
    """The same bench with each top as much higher as the board is read above the computed one there."""
    data, x = planned.ready["data"], planned.x_mm
    laid = planned.laid(np.zeros(planned.shims_mm.size))
    points, of = np.array(planned.ready["points"]), np.array(data["touch"]["support"])
    middle = np.array([points[of == i].mean() for i in range(planned.shims_mm.size)])
    touch = np.where(laid.loads_n > 0, laid.touch_x_mm, middle)
    order = np.argsort(x)
    over = np.interp(touch, x[order], (read - laid.heights_mm)[order])
    return replace(planned, shims_mm=fixed(planned.shims_mm + over))


@dataclass(frozen=True, slots=True, eq=False)
class _Asked:
    """Readings and wanted heights."""

    x_mm: Floats
    read_mm: Floats
    wanted_mm: Floats
    length_mm: float

    def off(self, change_mm: Floats) -> tuple[Floats, Floats]:
        """What is left at each reading once they change by so much, and the rigid part (lift, turn)."""
        away = self.read_mm + change_mm - self.wanted_mm
        line = np.column_stack((np.ones_like(self.x_mm), self.x_mm / self.length_mm))
        rigid = np.linalg.lstsq(line, away, rcond=None)[0]
        return fixed(away - line @ rigid), fixed(rigid)

    def worst_mm(self, change_mm: Floats) -> float:
        return float(np.abs(self.off(change_mm)[0]).max())

    def shape(self, change_mm: Floats) -> Floats:
        """(k, n) changes of the readings without their rigid parts."""
        line = np.linalg.qr(np.column_stack((np.ones_like(self.x_mm), self.x_mm)))[0]
        return np.asarray(change_mm - change_mm @ line @ line.T)


@dataclass(frozen=True, slots=True)
class _Way:
    """One way to change a support: its change of height, and how many of each shim are added."""

    change_mm: float
    counts: tuple[int, ...]

    @property
    def pieces(self) -> int:
        return sum(map(abs, self.counts))


@dataclass(frozen=True, slots=True, eq=False)
class _Found:
    """One way a support, and the bench laid so."""

    ways: tuple[_Way, ...]
    laid: _Laid
    worst_mm: float

    @property
    def pieces(self) -> int:
        return sum(way.pieces for way in self.ways)


def _wanted(data: dict[str, Any], x: Floats) -> Floats:
    """Wanted heights above the level line, straight between the nodes."""
    nodes, line = data["nodes"], data["line"]
    rocker = np.interp(x, nodes["x_mm"], nodes["wanted_mm"])
    return fixed(rocker + line["base_mm"] + line["tilt_mm"] * x / data["length_mm"])


def _changes(shims: Sequence[dict[str, Any]], held: Sequence[Sequence[int]], support: int) -> list[list[_Way]]:
    """Every change of height within reach, lowest first, each with the ways to make it, fewest pieces first."""
    found: dict[float, list[_Way]] = defaultdict(list)
    ranges = []
    for k, shim in enumerate(shims):
        own = held[support][k]
        spare = shim["count"] + sum(one[k] for one in held) - own
        ranges.append(range(-min(own, MOST_PIECES), min(spare, MOST_PIECES) + 1))
    for counts in product(*ranges):
        if sum(map(abs, counts)) <= MOST_PIECES:
            change = round(sum(n * shim["height_mm"] for n, shim in zip(counts, shims, strict=True)), 6)
            if abs(change) <= MOST_MM:
                found[change].append(_Way(change, counts))
    return [sorted(found[change], key=lambda way: (way.pieces, way.counts)) for change in sorted(found)]


def _best(bench: _Bench, asked: _Asked, changes: Sequence[list[list[_Way]]]) -> Correction:
    data = bench.ready["data"]
    stock = [shim["count"] for shim in data["shims"]]
    now = bench.laid(np.zeros(len(changes)))
    before = asked.worst_mm(np.zeros_like(asked.read_mm))
    stay = _Found((_Way(0.0, (0,) * len(stock)),) * len(changes), now, before)
    best, best_band, tries = stay, -1, 0
    for band, pieces, foreseen, rows in _ranked(bench, asked, changes, now, before):
        if best is not stay and (band > best_band or pieces >= best.pieces):
            break
        ways = _stocked([options[row] for options, row in zip(changes, rows, strict=True)], stock)
        if ways is None or (best is not stay and sum(way.pieces for way in ways) >= best.pieces):
            continue
        laid, tries = bench.laid([way.change_mm for way in ways]), tries + 1
        worst = asked.worst_mm(laid.heights_mm - now.heights_mm)
        if worst <= min(foreseen, before) + ALIKE_MM and _allowed(laid, now, data["inverted_per_mm"]):
            best, best_band = _Found(ways, laid, worst), band
        if tries == TRIES:
            break
    return _told(asked, now, before, best)


def _allowed(laid: _Laid, now: _Laid, limit_per_mm: float) -> bool:
    """Every support keeps a load that no careless hand lifts off, and the bottom is not bent the wrong way."""
    heavy = laid.loads_n >= np.minimum(LEAST_LOAD_N, np.where(now.loads_n > 0, now.loads_n, LEAST_LOAD_N))
    return bool(np.all(heavy)) and laid.least_per_mm >= min(limit_per_mm, now.least_per_mm)


def _ranked(
    bench: _Bench, asked: _Asked, changes: Sequence[list[list[_Way]]], now: _Laid, before: float
) -> Iterator[tuple[int, int, float, tuple[int, ...]]]:
    """Choices that the linear bench thinks better: step behind the best, fewest pieces, deviation, row a support."""
    heights = [np.array([ways[0].change_mm for ways in one]) for one in changes]
    pieces = [np.array([ways[0].pieces for ways in one]) for one in changes]
    origin, off, effect, loads, give = _linear(bench, asked, now)
    half = len(changes) // 2
    grids = [np.indices([one.size for one in part]).reshape(len(part), -1) for part in (heights[:half], heights[half:])]
    sums = []
    for grid, first in zip(grids, (0, half), strict=True):
        picked = np.array([heights[first + i][rows] - origin[first + i] for i, rows in enumerate(grid)])
        count = sum((pieces[first + i][rows] for i, rows in enumerate(grid)), np.zeros(grid.shape[1], dtype=np.int64))
        these = slice(first, first + len(grid))
        sums.append((picked.T @ effect[these], picked.T @ give[these], count))
    (shape_a, load_a, count_a), (shape_b, load_b, count_b) = sums
    a, b = np.nonzero(
        np.all([(loads[i] + load_a[:, i])[:, None] + load_b[:, i] >= 0 for i in range(loads.size)], axis=0)
    )
    some = off + shape_a[a[::SAMPLED]] + shape_b[b[::SAMPLED]]
    reached = float(np.abs(some).max(axis=1).min(initial=np.inf))
    limit = min(before - ALIKE_MM, reached + BANDS * ALIKE_MM)
    values = np.zeros(a.size)
    for k in np.argsort(-np.abs(off), kind="stable"):
        values = np.maximum(values, np.abs(off[k] + shape_a[a, k] + shape_b[b, k]))
        left = values < limit
        a, b, values = a[left], b[left], values[left]
    band = np.floor((values - values.min(initial=np.inf)) / ALIKE_MM)
    count = count_a[a] + count_b[b]
    for i in np.lexsort((values, count, band)):
        if band[i] >= BANDS:
            return
        yield int(band[i]), int(count[i]), float(values[i]), (*grids[0][:, a[i]].tolist(), *grids[1][:, b[i]].tolist())


def _linear(bench: _Bench, asked: _Asked, now: _Laid) -> tuple[Floats, Floats, Floats, Floats, Floats]:
    """About a state in which every support bears: its change (s,), what is left at the readings there (n,), what 1 mm
    at each support adds to that (s, n), loads there (s,), and what 1 mm adds to them (s, s)."""
    origin = np.zeros(now.loads_n.size)
    there = now
    for _ in range(ROUNDS):
        if np.all(there.loads_n > 0):
            break
        origin = origin + np.where(there.loads_n > 0, 0.0, there.gaps_mm + 2 * TRIAL_MM)
        there = bench.laid(origin)
    effect, give = [], []
    for step in np.eye(origin.size) * TRIAL_MM:
        up, down = bench.laid(origin + step), bench.laid(origin - step)
        effect.append((up.heights_mm - down.heights_mm) / (2 * TRIAL_MM))
        give.append((up.loads_n - down.loads_n) / (2 * TRIAL_MM))
    off = asked.off(there.heights_mm - now.heights_mm)[0]
    return fixed(origin), off, asked.shape(np.array(effect)), there.loads_n, fixed(give)


def _stocked(options: Sequence[Sequence[_Way]], stock: Sequence[int]) -> tuple[_Way, ...] | None:
    """The choice of one way a support with the fewest pieces that what is left allows; None if there is none.

    What is taken out at one support can be put under another.
    """
    best: tuple[_Way, ...] | None = None
    for ways in product(*options):
        used = [sum(way.counts[k] for way in ways) for k in range(len(stock))]
        if all(n <= have for n, have in zip(used, stock, strict=True)) and (
            best is None or sum(way.pieces for way in ways) < sum(way.pieces for way in best)
        ):
            best = ways
    return best


def _told(asked: _Asked, now: _Laid, before: float, found: _Found) -> Correction:
    change = found.laid.heights_mm - now.heights_mm
    off, rigid = asked.off(change)
    moves = tuple(
        Move(i, way.change_mm, tuple((k, n) for k, n in enumerate(way.counts) if n))
        for i, way in enumerate(found.ways)
        if any(way.counts)
    )
    return Correction(
        moves,
        before,
        found.worst_mm,
        fixed(asked.read_mm + change),
        off,
        float(rigid[0]),
        float(rigid[1]),
        tuple(found.laid.loads_n.tolist()),
        found.laid.least_per_mm,
    )
