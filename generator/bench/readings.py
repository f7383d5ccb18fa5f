"""What heights read with a tape say of a board: its curve, a reading that does not fit, or a true hollow."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike
from scipy.optimize import nnls

from generator.bench.straight_edge import deepest_hollow
from generator.board.curve import FairCurve
from generator.quantities import Floats, fixed

Verdict = Literal["fair", "misread", "hollow", "both", "unclear"]

LEAST_READINGS = 5
STATION_MM, EDGE_MM = 10.0, 600.0
TAPE_SHARE = 0.4
"""Standard deviation of a reading as a share of what the tape is out at most (2½ deviations)."""
MISREAD_MM = 8.0
"""Standard deviation of a slip: a wrong mark on the tape is commonly 5 or 10 mm."""
EVEN_PER_MM3, UNEVEN_PER_MM3 = 2e-11, 1.5e-10
"""How fast curvature may wander along a board, variance a mm: by 8e-5 and by 2e-4 /mm over 300 mm."""
UNEVEN_COST, SLIP_COSTS, INVERTED_EVIDENCE = 1.0, (0.0, 3.0, 11.0), 6.0
CLOSE, ALIKE = 1.0, 2.0
"""Two stories as near as `CLOSE` can't be told apart; of slips within `ALIKE` of the best each is named."""
FEW_READINGS = 8
"""With fewer, one slip at most: two among seven could be anything."""
NO_STORY = 40.0
"""Misfit, beyond one a reading, that no story may have."""
HOLLOW_MM = 0.5
"""Less than this under a straight edge passes; common practice."""
NODES, BEND_PER_MM = 31, 1e-4


@dataclass(frozen=True, slots=True)
class Misread:
    """A reading to take again: which (from 0), where, what was read, and what the others lead to expect there."""

    index: int
    x_mm: float
    read_mm: float
    expected_mm: float


@dataclass(frozen=True, slots=True)
class Hollow:
    """A stretch that bends the wrong way, and its deepest place under a straight edge of 600 mm."""

    from_mm: float
    to_mm: float
    deepest_mm: float
    at_mm: float


@dataclass(frozen=True, slots=True, eq=False)
class ReadCurve:
    """What the readings say.

    Attributes:
        x_mm, heights_mm: (s,) stations about 10 mm apart and the curve through the trusted readings, in the readings'
            own level.
        misses_mm: (n,) curve minus reading, of all readings.
        misread: readings to take again, the likeliest first. Where one slip would do but two readings could be it
            (a tip and its neighbour, most often), both are named and neither is trusted.
        hollows: tail first; empty unless the verdict is "hollow", "both" or "unclear".
        verdict: "unclear" where a slip and a hollow (or a fair curve) explain the readings as well as each other,
            or nothing explains them.
    """

    x_mm: Floats
    heights_mm: Floats
    misses_mm: Floats
    misread: tuple[Misread, ...]
    hollows: tuple[Hollow, ...]
    verdict: Verdict


def curve_from_readings(x_mm: ArrayLike, read_mm: ArrayLike, *, length_mm: float, tape_mm: float = 1.0) -> ReadCurve:
    """Tell a fair curve, a misread tape and a true hollow apart.

    A board has stiffness, so its curvature has no jumps: it wanders along the board, as a sum of many small steps. A
    hollow is a stretch of it below zero and shows in the slopes on both sides as well; a slip of the tape is one
    reading off among neighbours that agree. Each story is fitted, and judged by −2 log of its likelihood:

        J + log|K| + log|XᵀK⁻¹X|,   J = Σ miss²/sd² + Σ (step of curvature)²/(wander · node distance)

    with K the readings' covariance when curvature wanders freely and X what is free of charge (lift, tilt, one even
    bend). The stories: fair (curvature nowhere below 0; even, or uneven at a small cost); fair but for one or two
    readings with a slip of 8 mm standard deviation; hollow (curvature of either sign, if that lowers J by at least 6
    against the same fit held at or above 0, and a straight edge shows 0.5 mm); hollow and a slip. The least wins.

    What to expect of 7 to 13 readings with 0.4 mm standard deviation (tests/bench/test_readings.py): fair boards are
    called fair 99 times in 100, hollows of a support set too high hollow 94 times. A slip of 6 to 15 mm between the
    tips is named first 99 times with nine readings or more; with seven or eight, 400 mm apart, 79 times. At a tip it
    is named every second time only, and with few readings next to never: a tip read high is simply more rocker, and a
    slip of the tip may be put down to its neighbour. A dent shorter than the pitch shows in one reading and passes for
    a slip.

    Args:
        x_mm, read_mm: (n,) places, increasing, and heights above any straight line; n at least 5.
        length_mm: The curve runs from 0 to here.
        tape_mm: What a careful reading is out at most.

    Raises:
        ValueError: fewer than 5 readings, shapes differ, a number is not finite, places do not increase or are off
            the board, length or tape not above 0.
        RuntimeError: the least squares do not converge.

    Source: Gaussian process with a Wiener process for curvature, marginal likelihood with flat trend: Rasmussen and
    Williams, Gaussian Processes for Machine Learning (2006), sections 2.7 and 5.4 (from memory).
    """
    case = _case(x_mm, read_mm, length_mm, tape_mm)
    fair = min(_story(case, EVEN_PER_MM3), _story(case, UNEVEN_PER_MM3, extra=UNEVEN_COST), key=_cost)
    slips = _slips(case, EVEN_PER_MM3, convex=True)
    hollow = _story(case, UNEVEN_PER_MM3, convex=False)
    both = _slips(case, UNEVEN_PER_MM3, convex=False)
    told: list[tuple[Verdict, _Story]] = [("fair", fair), ("misread", slips[0])]
    least = min(fair.cost, slips[0].cost)
    wrong_way: tuple[tuple[Verdict, _Story], ...] = (("hollow", hollow), ("both", both[0]))
    for verdict, story in wrong_way:
        if story.cost < least + CLOSE and _is_hollow(case, story):
            told.append((verdict, story))
    told.sort(key=lambda one: one[1].cost)
    verdict, best = told[0]
    near = [story for _, story in told if story.cost < best.cost + CLOSE]
    lost = best.misfit > case.read_mm.size + NO_STORY
    two_ways = len(near) > 1 or (verdict == "misread" and _side_by_side(case, best))
    if verdict == "fair" and not lost:
        return _told(case, verdict, best, (), None)
    if verdict == "hollow" and not lost and not two_ways:
        return _told(case, verdict, best, (), best)
    doubted = both if best is both[0] else slips
    bent = next((story for story in near if not story.convex), None)
    return _told(case, "unclear" if lost or two_ways else verdict, best, doubted, bent)


@dataclass(frozen=True, slots=True, eq=False)
class _Case:
    """Readings with the heights that a bend at each node gives: (n, nodes) at the readings and (s, nodes) between."""

    x_mm: Floats
    read_mm: Floats
    station_mm: Floats
    length_mm: float
    sd_mm: float
    rows: Floats
    station_rows: Floats

    @property
    def line(self) -> Floats:
        """(n, 2) lift and tilt."""
        return np.column_stack((np.ones_like(self.x_mm), self.x_mm / self.length_mm))


@dataclass(frozen=True, slots=True)
class _Story:
    """One way to explain the readings: which of them slipped, how unevenly curvature wanders, may it be below 0."""

    slipped: tuple[int, ...]
    wander_per_mm3: float
    convex: bool
    misfit: float
    cost: float


def _cost(story: _Story) -> float:
    return story.cost


def _case(x_mm: ArrayLike, read_mm: ArrayLike, length_mm: float, tape_mm: float) -> _Case:
    x, read = fixed(x_mm), fixed(read_mm)
    if x.ndim != 1 or x.shape != read.shape or x.size < LEAST_READINGS:
        raise ValueError(f"at least {LEAST_READINGS} places with one height each")
    if not (np.all(np.isfinite(x)) and np.all(np.isfinite(read)) and length_mm > 0 and tape_mm > 0):
        raise ValueError("every number must be finite, length_mm and tape_mm above 0")
    if not (np.all(np.diff(x) > 0) and x[0] >= 0 and x[-1] <= length_mm):
        raise ValueError("places must increase from 0 to length_mm")
    station = np.linspace(0.0, length_mm, int(np.ceil(length_mm / STATION_MM)) + 1)
    nodes, at = np.linspace(0.0, length_mm, NODES), np.concatenate((x, station))
    rows = np.column_stack([FairCurve(nodes, hat, 0.0, 0.0).height_mm(at) for hat in BEND_PER_MM * np.eye(NODES)])
    return _Case(x, read, fixed(station), length_mm, TAPE_SHARE * tape_mm, fixed(rows[: x.size]), fixed(rows[x.size :]))


def _story(
    case: _Case, wander_per_mm3: float, *, slipped: tuple[int, ...] = (), convex: bool = True, extra: float = 0.0
) -> _Story:
    free = _free(case, wander_per_mm3, slipped)
    misfit = _bends(case, wander_per_mm3, 1 / _sds(case, slipped), convex=True)[1] if convex else free.misfit
    return _Story(slipped, wander_per_mm3, convex, misfit, misfit + free.room + extra + SLIP_COSTS[len(slipped)])


def _sds(case: _Case, slipped: tuple[int, ...]) -> Floats:
    """(n,) standard deviations of the readings."""
    sd = np.full(case.x_mm.size, case.sd_mm)
    sd[list(slipped)] = np.hypot(case.sd_mm, MISREAD_MM)
    return sd


@dataclass(frozen=True, slots=True, eq=False)
class _Free:
    """Curvature of either sign: J, log|K| + log|XᵀK⁻¹X|, and R with J = zᵀRz for the readings z."""

    misfit: float
    room: float
    rest: Floats

    def with_one_more(self, read_mm: Floats) -> tuple[Floats, Floats]:
        """(n,) J and log determinants if each reading in turn had slipped too.

        A variance v more in one place takes v (Rz)² / (1 + v R_ii) from J and adds log(1 + v R_ii) (matrix determinant
        lemma and Sherman-Morrison formula, from memory).
        """
        gain, pull = 1 + MISREAD_MM**2 * np.diag(self.rest), self.rest @ read_mm
        return self.misfit - MISREAD_MM**2 * pull**2 / gain, self.room + np.log(gain)


def _free(case: _Case, wander_per_mm3: float, slipped: tuple[int, ...]) -> _Free:
    steps = case.rows @ np.tril(np.ones((NODES, NODES)))
    free = np.column_stack((case.line, steps[:, 0]))
    size = _step_size(case, wander_per_mm3)
    spread = steps[:, 1:] @ steps[:, 1:].T * size**2 + np.diag(_sds(case, slipped) ** 2)
    inverse = np.linalg.inv(spread)
    held = free.T @ inverse @ free
    rest = inverse - inverse @ free @ np.linalg.solve(held, free.T @ inverse)
    room = float(np.linalg.slogdet(spread)[1] + np.linalg.slogdet(held)[1])
    return _Free(float(case.read_mm @ rest @ case.read_mm), room, fixed(rest))


def _step_size(case: _Case, wander_per_mm3: float) -> float:
    """Standard deviation of the step of curvature from node to node, in units of `BEND_PER_MM`."""
    return float(np.sqrt(wander_per_mm3 * case.length_mm / (NODES - 1)) / BEND_PER_MM)


def _bends(case: _Case, wander_per_mm3: float, weight: Floats, *, convex: bool) -> tuple[Floats, float]:
    """Bend at each node in units of `BEND_PER_MM`, and J; weight 0 leaves a reading out."""
    line = np.linalg.qr(case.line * weight[:, None])[0]
    rows, aims = case.rows * weight[:, None], case.read_mm * weight
    steps = np.diff(np.eye(NODES), axis=0) / _step_size(case, wander_per_mm3)
    matrix = np.vstack((rows - line @ (line.T @ rows), steps))
    wanted = np.concatenate((aims - line @ (line.T @ aims), np.zeros(NODES - 1)))
    if convex:
        bend, left = nnls(matrix, wanted, maxiter=50 * NODES)
    else:
        bend = np.linalg.lstsq(matrix, wanted, rcond=None)[0]
        left = np.linalg.norm(matrix @ bend - wanted)
    return fixed(bend), float(left) ** 2


def _slips(case: _Case, wander_per_mm3: float, *, convex: bool) -> list[_Story]:
    """The likeliest story with one slip (two, if a second one pays), then those that differ in one reading."""
    out: tuple[int, ...] = ()
    told: list[_Story] = []
    for _ in SLIP_COSTS[1:] if case.x_mm.size >= FEW_READINGS else SLIP_COSTS[1:2]:
        more = _one_more(case, wander_per_mm3, out, convex=convex)
        if told and more[0].cost >= told[0].cost:
            break
        told, out = [one for one in more if one.cost < more[0].cost + ALIKE], more[0].slipped
    return told


def _one_more(case: _Case, wander_per_mm3: float, out: tuple[int, ...], *, convex: bool) -> list[_Story]:
    """Stories with one slip more than `out`, cheapest first.

    Holding curvature at or above 0 can only add to J, so a story that is too dear without need not be fitted.
    """
    misfits, rooms = _free(case, wander_per_mm3, out).with_one_more(case.read_mm)
    rooms = rooms + SLIP_COSTS[len(out) + 1]
    told: list[_Story] = []
    for i in sorted(set(range(case.x_mm.size)) - set(out), key=lambda i: misfits[i] + rooms[i]):
        if told and misfits[i] + rooms[i] > min(one.cost for one in told) + ALIKE:
            break
        slipped, misfit = (*out, i), float(misfits[i])
        if convex:
            misfit = _bends(case, wander_per_mm3, 1 / _sds(case, slipped), convex=True)[1]
        told.append(_Story(slipped, wander_per_mm3, convex, misfit, misfit + float(rooms[i])))
    return sorted(told, key=_cost)


def _is_hollow(case: _Case, story: _Story) -> bool:
    """Whether curvature below 0 is needed, and a straight edge would show it."""
    held = _story(case, story.wander_per_mm3, slipped=story.slipped)
    return held.misfit - story.misfit >= INVERTED_EVIDENCE and bool(_hollows(case, *_curve(case, story, story.slipped)))


def _curve(case: _Case, story: _Story, without: Sequence[int]) -> tuple[Floats, Floats, Floats]:
    """Bends at the nodes, and the heights at stations and readings, when some readings are left out."""
    weight = np.full(case.x_mm.size, 1 / case.sd_mm)
    weight[list(without)] = 0
    bend = _bends(case, story.wander_per_mm3, weight, convex=story.convex)[0]
    line = np.linalg.lstsq(case.line * weight[:, None], (case.read_mm - case.rows @ bend) * weight, rcond=None)[0]
    station = case.station_rows @ bend + line[0] + line[1] * case.station_mm / case.length_mm
    return bend, station, case.rows @ bend + case.line @ line


def _hollows(case: _Case, bend: Floats, heights: Floats, _: Floats) -> tuple[Hollow, ...]:
    """Stretches of curvature below 0 where a straight edge shows more than what passes."""
    nodes = np.linspace(0.0, case.length_mm, NODES)
    below = np.interp(case.station_mm, nodes, bend) < 0
    edges = np.flatnonzero(np.diff(np.concatenate(([False], below, [False])).astype(np.int64)))
    out = []
    for first, last in zip(edges[::2], edges[1::2] - 1, strict=True):
        low, high = float(case.station_mm[first]), float(case.station_mm[last])
        start, end = max(0.0, min(low, high - EDGE_MM)), min(case.length_mm, max(high, low + EDGE_MM))
        deep, at = deepest_hollow(_part(case.station_mm, heights, start), length_mm=end - start, edge_mm=EDGE_MM)
        if deep >= HOLLOW_MM and low - STATION_MM <= start + at <= high + STATION_MM:
            out.append(Hollow(low, high, deep, start + at))
    return tuple(out)


def _part(x: Floats, heights: Floats, start_mm: float) -> Callable[[ArrayLike], Floats]:
    return lambda along_mm: np.interp(start_mm + np.asarray(along_mm), x, heights)


def _side_by_side(case: _Case, story: _Story) -> bool:
    """Whether two neighbours are both read too high: what a short hollow would show too."""
    pair = sorted(story.slipped)
    high = case.read_mm - _curve(case, story, pair)[2]
    return len(pair) > 1 and pair[1] - pair[0] == 1 and bool(np.all(high[pair] > 0))


def _told(case: _Case, verdict: Verdict, best: _Story, named: Sequence[_Story], wrong_way: _Story | None) -> ReadCurve:
    """The curve of the best story through the readings that no named story doubts, and the hollows of another."""
    likeliest: dict[int, _Story] = {}
    for story in named:
        for i in story.slipped:
            likeliest.setdefault(i, story)
    misread = tuple(
        Misread(i, float(case.x_mm[i]), float(case.read_mm[i]), float(_curve(case, story, story.slipped)[2][i]))
        for i, story in likeliest.items()
    )
    curve = _curve(case, best, list(likeliest))
    hollows = _hollows(case, *_curve(case, wrong_way, list(likeliest))) if wrong_way else ()
    return ReadCurve(case.station_mm, fixed(curve[1]), fixed(curve[2] - case.read_mm), misread, hollows, verdict)
