"""Which shims to put under or take out so that the bottom comes nearest to what is wanted, from what the tape says."""

from collections.abc import Callable, Collection, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from generator.bench.programme import LEAST_LOAD_N
from generator.bench.replay import prepared, settled
from generator.bench.shim_ways import Changes, Way, changes_at, stocked
from generator.quantities import Floats, fixed

LEAST_READINGS = 4
TRIAL_MM = 0.25
ALIKE_MM = 0.1
"""Deviations nearer than this are equally good: no tape tells them apart."""
BANDS, TRIES, ROUNDS = 5, 16, 4
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
    loose: Collection[int] = (),
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
        loose: supports that do not bear (a strip of paper slides through). Their tops are known less well.
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
    bench = _as_read(planned, read, np.array([i not in loose for i in range(supports)]))
    asked = _Asked(x, read, _wanted(data, x), data["length_mm"])
    return _best(bench, asked, [changes_at(i, shims=data["shims"], held=held) for i in range(supports)])


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
        touch = [0.0 if place is None else place for place in told["touch_x_mm"]]
        loads, gaps = fixed(told["loads_n"]), fixed(told["gaps_mm"])
        return _Laid(fixed(heights), loads, fixed(touch), gaps, told["least_curvature_per_mm"])


def _as_read(planned: _Bench, read: Floats, bears: NDArray[np.bool_]) -> _Bench:
    """The same bench with each top where the readings say that the bottom is; a loose one at most as high as that."""
    data, x = planned.ready["data"], planned.x_mm
    laid = planned.laid(np.zeros(planned.shims_mm.size))
    low = data["nodes"]["x_mm"][data["low_node"]]
    nearest = [min(max(low, top["low_x_mm"]), top["high_x_mm"]) for top in data["supports"]]
    touch = np.where(laid.loads_n > 0, laid.touch_x_mm, nearest)
    order = np.argsort(x)
    over = np.interp(touch, x[order], (read - laid.heights_mm)[order]) + laid.gaps_mm
    return replace(planned, shims_mm=fixed(planned.shims_mm + np.where(bears, over, np.minimum(over, 0.0))))


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


@dataclass(frozen=True, slots=True, eq=False)
class _Found:
    """One way a support, and the bench laid so."""

    ways: tuple[Way, ...]
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


def _best(bench: _Bench, asked: _Asked, changes: Sequence[Changes]) -> Correction:
    data = bench.ready["data"]
    stock = [shim["count"] for shim in data["shims"]]
    now = bench.laid(np.zeros(len(changes)))
    before = asked.worst_mm(np.zeros_like(asked.read_mm))
    stay = _Found((Way(0.0, (0,) * len(stock)),) * len(changes), now, before)
    best, best_band, tries = stay, -1, 0
    for band, pieces, foreseen, rows in _ranked(bench, asked, changes, now, before):
        if best is not stay and (band > best_band or pieces >= best.pieces):
            break
        ways = stocked([options[row] for options, row in zip(changes, rows, strict=True)], stock)
        if ways is None or (best is not stay and sum(way.pieces for way in ways) >= best.pieces):
            continue
        laid, tries = bench.laid([way.change_mm for way in ways]), tries + 1
        worst = asked.worst_mm(laid.heights_mm - now.heights_mm)
        if worst <= foreseen + ALIKE_MM and _allowed(laid, now, data["inverted_per_mm"]):
            best, best_band = _Found(ways, laid, worst), band
        if tries == TRIES:
            break
    return _told(asked, now, before, best)


def _allowed(laid: _Laid, now: _Laid, limit_per_mm: float) -> bool:
    """Every support keeps a load that no careless hand lifts off, and the bottom is not bent the wrong way."""
    heavy = laid.loads_n >= np.minimum(LEAST_LOAD_N, np.where(now.loads_n > 0, now.loads_n, LEAST_LOAD_N))
    return bool(np.all(heavy)) and laid.least_per_mm >= min(limit_per_mm, now.least_per_mm)


def _ranked(
    bench: _Bench, asked: _Asked, changes: Sequence[Changes], now: _Laid, before: float
) -> Iterator[tuple[int, int, float, tuple[int, ...]]]:
    """Choices that the linear bench thinks better: steps behind the best, fewest pieces, deviation, row a support."""
    line = _linear(bench, asked, now)
    half, stock = len(changes) // 2, np.array([shim["count"] for shim in bench.ready["data"]["shims"]])
    first, second = (_half(changes, line, part) for part in (range(half), range(half, len(changes))))
    a, b = np.divmod(np.arange(0, first.pieces.size * second.pieces.size, SAMPLED), second.pieces.size)
    sure = np.all(line.loads_n + first.loads_n[a] + second.loads_n[b] >= 0, axis=1)
    sure &= np.all(first.used[a] + second.used[b] <= stock, axis=1)
    some = np.abs(line.off_mm + first.shape_mm[a[sure]] + second.shape_mm[b[sure]]).max(axis=1)
    limit = min(before - ALIKE_MM, float(some.min(initial=np.inf)) + BANDS * ALIKE_MM)
    a, b = _near(line.off_mm, first.shape_mm, second.shape_mm, limit)
    fit = np.all(line.loads_n + first.loads_n[a] + second.loads_n[b] >= 0, axis=1)
    fit &= np.all(first.least_used[a] + second.least_used[b] <= stock, axis=1)
    a, b = a[fit], b[fit]
    values = np.abs(line.off_mm + first.shape_mm[a] + second.shape_mm[b]).max(axis=1, initial=0.0)
    band = np.floor((values - values.min(initial=np.inf)) / ALIKE_MM)
    count = first.pieces[a] + second.pieces[b]
    for i in np.lexsort((values, count, band)):
        yield int(band[i]), int(count[i]), float(values[i]), (*first.rows[a[i]].tolist(), *second.rows[b[i]].tolist())


def _near(off: Floats, first: Floats, second: Floats, limit: float) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
    """Rows of `first` (a, n) and `second` (b, n) with |off + first + second| below the limit at every reading.

    One reading leaves few of them: those lie next to each other once `second` is sorted by it.
    """
    lead = int(np.argmax(np.ptp(second, axis=0)))
    order = np.argsort(second[:, lead], kind="stable")
    middle, values = off[lead] + first[:, lead], second[order, lead]
    low, high = np.searchsorted(values, -limit - middle, "right"), np.searchsorted(values, limit - middle)
    count = np.maximum(high - low, 0)
    a = np.repeat(np.arange(count.size), count)
    b = order[np.arange(a.size) + np.repeat(low - np.cumsum(count) + count, count)]
    for k in np.argsort(-np.abs(off), kind="stable"):
        left = np.abs(off[k] + first[a, k] + second[b, k]) < limit
        a, b = a[left], b[left]
    return a, b


@dataclass(frozen=True, slots=True, eq=False)
class _Linear:
    """The bench about a state in which every support bears.

    Attributes:
        origin_mm: (s,) its change.
        off_mm, loads_n: (n,) what is left at each reading there, and (s,) the loads.
        shape_mm, give_n: (s, n) and (s, s) what 1 mm more at each support adds to them.
    """

    origin_mm: Floats
    off_mm: Floats
    loads_n: Floats
    shape_mm: Floats
    give_n: Floats


@dataclass(frozen=True, slots=True, eq=False)
class _Half:
    """All choices for some of the supports: rows, and what each adds to shape, loads and pieces.

    `used` is what the way with the fewest pieces takes of each shim, `least_used` the least that any way does.
    """

    rows: NDArray[np.int64]
    shape_mm: Floats
    loads_n: Floats
    pieces: NDArray[np.int64]
    used: NDArray[np.int64]
    least_used: NDArray[np.int64]


def _half(changes: Sequence[Changes], line: _Linear, part: range) -> _Half:
    rows = np.indices([len(changes[i]) for i in part]).reshape(len(part), -1).T

    def summed(of_each: Callable[[int], ArrayLike]) -> NDArray[Any]:
        picked = [np.asarray(of_each(i))[row] for i, row in zip(part, rows.T, strict=True)]
        return np.asarray(np.sum(picked, axis=0))

    def change(i: int) -> Floats:
        return fixed([ways[0].change_mm - line.origin_mm[i] for ways in changes[i]])

    return _Half(
        rows,
        summed(lambda i: np.outer(change(i), line.shape_mm[i])),
        summed(lambda i: np.outer(change(i), line.give_n[i])),
        summed(lambda i: [ways[0].pieces for ways in changes[i]]),
        summed(lambda i: [ways[0].counts for ways in changes[i]]),
        summed(lambda i: [np.min([way.counts for way in ways], axis=0) for ways in changes[i]]),
    )


def _linear(bench: _Bench, asked: _Asked, now: _Laid) -> _Linear:
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
    return _Linear(fixed(origin), off, there.loads_n, fixed(asked.shape(np.array(effect))), fixed(give))


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
