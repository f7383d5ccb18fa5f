"""How a beam lies on supports that push but cannot pull."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from generator.bench.beam import Beam, Columns, columns
from generator.quantities import Floats, fixed

OK = "ok"
TIPS_OVER = "tips over"
INVERTED_PER_MM = -5e-6
"""Curvature below this is called inverted: a 300 mm straight edge then shows 300² × 5e-6 / 8 = 0.06 mm of hollow."""


@dataclass(frozen=True, slots=True, eq=False)
class Bent:
    """A beam at rest on its supports, or the news that it tips over.

    Supports are in the order given. When it tips over, `columns` is None, the lists are empty, and only the load and
    its place mean anything.

    Attributes:
        status: "ok" or "tips over".
        total_load_n: all loads, N.
        resultant_x_mm: where they would balance, mm from the tail.
        reactions_n, gaps_mm, touching: (n,) load on each support, height of the beam above it, whether it bears.
        columns, height_coefficients, curvature_coefficients: exact shape; (m, 6) and (m, 4) powers in each segment.
    """

    status: str
    total_load_n: float
    resultant_x_mm: float
    reactions_n: Floats
    gaps_mm: Floats
    touching: NDArray[np.bool_]
    columns: Columns | None
    height_coefficients: Floats
    curvature_coefficients: Floats

    def _evaluated(self, coefficients: Floats, x_mm: ArrayLike) -> Floats:
        at, powers = self._shape().powers(x_mm, coefficients.shape[1])
        out: Floats = (coefficients[at] * powers).sum(-1)
        return out

    def heights_mm(self, x_mm: ArrayLike) -> Floats:
        """Height of the beam at each x, mm, from the same level as the supports' heights."""
        return self._evaluated(self.height_coefficients, x_mm)

    def slopes(self, x_mm: ArrayLike) -> Floats:
        """Slope at each x, mm per mm, rising to the nose positive."""
        return self._evaluated(self.height_coefficients[:, 1:] * np.arange(1, 6), x_mm)

    def curvature_per_mm(self, x_mm: ArrayLike) -> Floats:
        """Curvature at each x, 1/mm, rocker positive; at a jump, the value on the nose side."""
        return self._evaluated(self.curvature_coefficients, x_mm)

    def moment_n_mm(self, x_mm: ArrayLike) -> Floats:
        """Bending moment from loads and supports at each x, N·mm, positive where it adds rocker."""
        shape = self._shape()
        return self._evaluated(shape.moment_loads + _pushed(self.reactions_n, shape.moment_push), x_mm)

    @property
    def least_curvature(self) -> tuple[float, float]:
        """Least curvature of the whole length, both sides of each jump (1/mm), and its place (mm)."""
        shape = self._shape()
        worst, place = np.inf, 0.0
        for s in (np.zeros_like(shape.sizes_mm), shape.sizes_mm, *self._stationary(shape)):
            values = (self.curvature_coefficients * s[:, None] ** np.arange(4)).sum(-1)
            at = int(np.argmin(values))
            if values[at] < worst:
                worst, place = float(values[at]), float(shape.starts_mm[at] + s[at])
        return worst, place

    def _shape(self) -> Columns:
        if self.columns is None:
            raise ValueError("a board that tips over has no curve")
        return self.columns

    def _stationary(self, shape: Columns) -> tuple[Floats, Floats]:
        """(m,) places inside each segment where the curvature is stationary, or its start where there is none."""
        c = self.curvature_coefficients
        square = np.maximum(4 * c[:, 2] ** 2 - 12 * c[:, 1] * c[:, 3], 0)
        steep = -2 * c[:, 2] - np.where(c[:, 2] < 0, -1, 1) * np.sqrt(square)
        near = np.divide(2 * c[:, 1], steep, out=np.zeros_like(steep), where=steep != 0)
        far = np.divide(steep, 6 * c[:, 3], out=np.zeros_like(steep), where=c[:, 3] != 0)
        return np.clip(near, 0, shape.sizes_mm), np.clip(far, 0, shape.sizes_mm)

    def inverted(self, below_per_mm: float = INVERTED_PER_MM) -> tuple[tuple[float, float], ...]:
        """Stretches (from, to; mm) where the curvature is below `below_per_mm`, tail first."""
        shape = self._shape()
        parts: list[tuple[float, float]] = []
        for j, size in enumerate(shape.sizes_mm):
            for low, high in _below(self.curvature_coefficients[j], float(size), below_per_mm):
                start = float(shape.starts_mm[j])
                if parts and start + low - parts[-1][1] < 1e-6:
                    parts[-1] = (parts[-1][0], start + high)
                else:
                    parts.append((start + low, start + high))
        return tuple(parts)


def _below(curvature: Floats, size: float, limit: float) -> list[tuple[float, float]]:
    """Parts of one segment where a cubic is below `limit`."""
    cubic = np.array([curvature[0] - limit, *curvature[1:]])
    reach = np.abs(cubic[1:]) @ size ** np.arange(1, 4)
    if cubic[0] - reach >= 0:
        return []
    roots = np.roots(np.trim_zeros(cubic[::-1], "f")) if np.any(cubic[1:]) else np.zeros(0)
    real = roots[np.abs(roots.imag) <= 1e-9 * size].real
    cuts = np.concatenate([[0.0], np.sort(real[(real > 0) & (real < size)]), [size]])
    middles = (cuts[:-1] + cuts[1:]) / 2
    under = (cubic * middles[:, None] ** np.arange(4)).sum(-1) < 0
    return [(float(a), float(b)) for a, b, low in zip(cuts[:-1], cuts[1:], under, strict=True) if low and b > a]


@dataclass(frozen=True, slots=True, eq=False)
class _Balance:
    """The equations of contact in pure numbers: loads as shares of the total, heights in units of `scale_mm`.

    Unknowns are n shares and the rigid part (height at the tail, rise over the length). Rows of `matrix` (n+2, n+2)
    and `wanted` (n+2,) are the beam's height at each support, the sum of the shares, and their resultant's place.
    Heights count from a line at `tail_mm` over the tail tip that rises by `rise_mm` to the nose tip: what the outermost
    supports want, so that no digits are lost on a level far away.
    """

    matrix: Floats
    wanted: Floats
    scale_mm: float
    tail_mm: float
    rise_mm: float

    def held(self, members: Sequence[int]) -> Floats:
        """(k+2,) shares of the k members and rigid part, with all members held and the rest free."""
        rows = self._rows(members)
        return np.asarray(np.linalg.solve(self.matrix[rows[:, None], rows], self.wanted[rows]), dtype=np.float64)

    def gaps(self, members: Sequence[int], answer: Floats) -> Floats:
        """(n,) height of the beam above each support for what `held` gave."""
        n = self.wanted.size - 2
        out: Floats = self.matrix[:n, self._rows(members)] @ answer - self.wanted[:n]
        return out

    def _rows(self, members: Sequence[int]) -> NDArray[np.intp]:
        return np.array([*members, -2, -1])

    @property
    def rounding(self) -> float:
        """Gaps smaller than this are rounding."""
        return 1e-15 * max(1.0, float(np.abs(self.wanted).max()))


def solve(beam: Beam, *, x_mm: ArrayLike, height_mm: ArrayLike) -> Bent:
    """Lay a beam on supports that push but cannot pull.

    A primal active set: it starts on supports none of which has to pull, takes in the one that is most deeply
    penetrated, and steps only as far as every load stays at or above zero. Each step lowers the complementary energy,
    so no contact set comes twice. Of supports at one place (within a millionth of the length) the highest, first given,
    bears.

    Args:
        x_mm: (n,) places of the supports, on the beam, in any order.
        height_mm: (n,) their heights above any one level.

    Returns:
        "tips over" if the loads' resultant is not strictly between the outermost supports.

    Raises:
        ValueError: no support, one not finite or off the beam, or loads that do not press down in sum.
    """
    x, height = np.array(x_mm, dtype=np.float64).reshape(-1), np.array(height_mm, dtype=np.float64).reshape(-1)
    total = beam.total_load_n
    if x.size == 0 or x.shape != height.shape or not np.isfinite(height).all():
        raise ValueError("supports need as many finite heights as places, and at least one")
    if not total > 0:
        raise ValueError("the loads must press down in sum")
    if not (x.min() >= 0 and x.max() <= beam.length_mm):
        raise ValueError("every support must be on the beam")
    centre = beam.load_moment_n_mm / total
    able = _bearing(x, height, 1e-6 * beam.length_mm)
    slack = 1e-9 * beam.length_mm
    if not x[able[0]] + slack < centre < x[able[-1]] - slack:
        none, bears = fixed([]), np.zeros(0, dtype=np.bool_)
        return Bent(TIPS_OVER, total, centre, none, none, bears, None, fixed(np.zeros((0, 6))), fixed(np.zeros((0, 4))))
    cols = columns(beam, x)
    balance = _balance(cols, height, able, total, centre, beam.length_mm)
    members, answer = _rest(balance, able)
    return _bent(cols, balance, members, answer, total, centre, beam.length_mm)


def _bearing(x: Floats, height: Floats, near: float) -> list[int]:
    """Supports that can bear, tail first: of those at one place only the highest."""
    kept: list[int] = []
    for i in np.lexsort((-height, x)).tolist():
        if kept and x[i] - x[kept[-1]] <= near:
            if height[i] > height[kept[-1]]:
                kept[-1] = i
        else:
            kept.append(i)
    return kept


def _balance(cols: Columns, height: Floats, able: list[int], total: float, centre: float, length: float) -> _Balance:
    n, share = height.size, cols.push_mm / length
    loads, push = cols.heights(cols.push_mm)
    scale = max(float(push.max()) * total, 1e-300)
    asked, (first, last) = height - loads, (able[0], able[-1])
    rise = (asked[last] - asked[first]) / (share[last] - share[first])
    tail = asked[first] - rise * share[first]
    matrix, wanted = np.zeros((n + 2, n + 2)), np.empty(n + 2)
    matrix[:n, :n] = push.T * (total / scale)
    matrix[:n, n] = matrix[n, :n] = 1.0
    matrix[:n, n + 1] = matrix[n + 1, :n] = share
    wanted[:n] = (asked - tail - rise * share) / scale
    wanted[n:] = 1.0, centre / length
    return _Balance(matrix, wanted, scale, float(tail), float(rise))


def _rest(balance: _Balance, able: list[int]) -> tuple[list[int], Floats]:
    """Supports that bear and what `held` gives for them; `able` tail first.

    A set that came before can only come again by rounding: the support that led there has nothing to bear, and the
    next is tried.
    """
    members, answer = _start(balance, able)
    seen, passed = {frozenset(members)}, list[int]()
    while len(members) + len(passed) < len(able):
        gaps = balance.gaps(members, answer)
        taken = {*members, *passed}
        others = [i for i in able if i not in taken]
        new = others[int(gaps[others].argmin())]
        if gaps[new] >= -balance.rounding:
            break
        found = _admitted(balance, members, answer, new)
        if frozenset(found[0]) in seen:
            passed.append(new)
        else:
            members, answer = found
            passed.clear()
            seen.add(frozenset(members))
    return members, answer


def _start(balance: _Balance, able: list[int]) -> tuple[list[int], Floats]:
    """A set none of which pulls when all of it is held, mostly near the one that is sought.

    Those that pull are let go all at once, over and over; should that leave only two, it is the outermost two, which
    have the load between them.
    """
    members = able
    while len(members) > 2:
        answer = balance.held(members)
        pulls = answer[:-2] < 0
        if not pulls.any():
            return members, answer
        members = [i for i, gone in zip(members, pulls, strict=True) if not gone]
    outer = [able[0], able[-1]]
    return outer, balance.held(outer)


def _admitted(balance: _Balance, members: list[int], answer: Floats, new: int) -> tuple[list[int], Floats]:
    """Take one support in, letting go of those that would have to pull."""
    members, now = [*members, new], np.append(answer[:-2], 0.0)
    while True:
        answer = balance.held(members)
        aim = answer[:-2]
        if len(members) == 2 or aim.min() >= 0:
            break
        pulling = np.flatnonzero(aim < 0)
        steps = now[pulling] / (now[pulling] - aim[pulling])
        first = int(steps.argmin())
        now = np.delete(np.maximum(now + steps[first] * (aim - now), 0), pulling[first])
        del members[pulling[first]]
    np.maximum(aim, 0, out=aim)
    return members, answer


def _bent(
    cols: Columns,
    balance: _Balance,
    members: list[int],
    answer: Floats,
    total: float,
    centre: float,
    length: float,
) -> Bent:
    n = cols.push_mm.size
    reactions, touching = np.zeros(n), np.zeros(n, dtype=np.bool_)
    reactions[members], touching[members] = answer[:-2] * total, True
    gaps = balance.gaps(members, answer) * balance.scale_mm
    gaps[touching] = 0.0
    lift = balance.tail_mm + answer[-2] * balance.scale_mm
    tilt = (balance.rise_mm + answer[-1] * balance.scale_mm) / length
    heights = cols.height_loads + _pushed(reactions, cols.height_push)
    heights[:, 0] += lift + tilt * cols.starts_mm
    heights[:, 1] += tilt
    curvature = (cols.moment_loads + _pushed(reactions, cols.moment_push)) / cols.stiffness_n_mm2[:, None]
    curvature[:, :2] += cols.free
    for made in (reactions, gaps, touching, heights, curvature):
        made.setflags(write=False)
    return Bent(OK, total, centre, reactions, gaps, touching, cols, heights, curvature)


def _pushed(reactions: Floats, push: Floats) -> Floats:
    """(m, k) sum of reaction times column, from (n, m, k)."""
    out: Floats = reactions @ push.transpose(2, 0, 1)
    return out.T


def lift_effect(bent: Bent, x_mm: ArrayLike, *, together: ArrayLike | None = None) -> Floats:
    """How the curve at each x answers to 1 mm more at each support while the same ones bear, (len(x), n).

    Args:
        together: optional (n,) group of each support, counted from 0; the answer then has one column a group.
    """
    if bent.columns is None:
        raise ValueError("a board that tips over has no curve")
    cols = bent.columns
    on = np.flatnonzero(bent.touching)
    group = np.arange(bent.touching.size) if together is None else np.asarray(together, dtype=np.intp)
    x = np.asarray(x_mm, dtype=np.float64)
    _, push = cols.heights(np.concatenate([cols.push_mm[on], x]))
    give, seen = push[on][:, : on.size].T, push[on][:, on.size :].T
    scale = max(float(np.abs(give).max()), 1e-300)
    length = float(cols.starts_mm[-1] + cols.sizes_mm[-1])
    ways = np.stack([np.ones(on.size), cols.push_mm[on] / length])
    matrix = np.block([[give / scale, ways.T], [ways, np.zeros((2, 2))]])
    raised = np.zeros((on.size + 2, int(group.max()) + 1))
    raised[np.arange(on.size), group[on]] = 1.0
    answer = np.linalg.solve(matrix, raised)
    out: Floats = seen @ answer[: on.size] / scale + np.stack([np.ones(x.size), x / length], axis=1) @ answer[on.size :]
    return out
