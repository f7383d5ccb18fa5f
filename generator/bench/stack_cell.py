"""One cell of the bench's height and tilt: what may be put at each support there, and the cheapest choice of it."""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from generator.bench.stack_bound import LESS, SLACK_MM, Asked, Cells, Prices
from generator.bench.stack_fit import Area, Strip, cut
from generator.quantities import Floats, fixed

ROUNDS = 25
SHRINK = 1.5
REACH_PIECES = 3.0
"""Steps of the prices aim at a bound this many pieces higher at most."""
MOST_FACING = 3_000
PRICING, OPENING, OPTIONS_A_NODE, LOOK_AHEAD = 60, 100, 5, 4
"""What it counts for, in tried stacks, to price a cell, to open it, to list options, to look at all later supports."""


@dataclass(frozen=True, slots=True)
class Choice:
    """Rows of the list, one a support (-1 for no stack), which error is allowed at each, and the cost."""

    rows: tuple[int, ...]
    stretches: tuple[int, ...]
    cost: float


@dataclass(frozen=True, slots=True, eq=False)
class Options:
    """What may be put at each support, support by support.

    Attributes:
        starts: (n + 1,) where each support's options start, and the end.
        cost: (m,) of each option, likeness at mirror places left out.
        row, stretch: (m,) of the list, -1 for no stack; which error is allowed.
        uses: (m, kinds) how many of each kind.
    """

    starts: NDArray[np.int64]
    cost: Floats
    row: NDArray[np.int64]
    stretch: NDArray[np.int64]
    uses: NDArray[np.int64]

    @classmethod
    def of(cls, asked: Asked, each: Floats, cell: Cells, below: float) -> "Options | None":
        """All that can be part of a choice below a cost in a cell, as prices of 0 or more tell; None if nothing can."""
        height, counts = asked.listed.height_mm, asked.listed.counts
        half = float(cell.half_mm[0]) * (1 + np.abs(asked.turn)) + SLACK_MM
        wanted = asked.height_mm + float(cell.middle_mm[0]) + asked.turn * float(cell.tilt_mm[0])
        steps = int((asked.stretch_cost < below).sum())
        reach = asked.within_mm[:, :steps] + half[:, None]
        low, high = (np.searchsorted(height, wanted[:, None] + side * reach).ravel() for side in (-1, 1))
        size = high - low
        row = np.repeat(low - np.cumsum(size) + size, size) + np.arange(size.sum())
        support, stretch = (np.repeat(k.ravel(), size) for k in np.indices(reach.shape))
        inner = np.where(stretch > 0, asked.within_mm[support, stretch - 1] - half[support], -1.0)
        cost = np.where(
            np.abs(height[row] - wanted[support]) > inner,
            asked.cost[support, row] + asked.stretch_cost[stretch],
            np.inf,
        )
        every = np.arange(asked.supports)
        order = np.argsort(np.concatenate([support, every]), kind="stable")
        support = np.concatenate([support, every])[order]
        row = np.concatenate([row, np.full(every.size, -1)])[order]
        stretch = np.concatenate([stretch, 0 * every])[order]
        cost = np.concatenate([cost, np.full(every.size, asked.missing_cost)])[order]
        priced = cost + np.where(row < 0, 0.0, counts[row] @ each)
        lowest = np.minimum.reduceat(priced, np.searchsorted(support, every))
        good = priced <= (lowest + (below - LESS + float(each @ asked.stock) - lowest.sum()))[support]
        starts = np.searchsorted(support[good], np.arange(asked.supports + 1))
        if (np.diff(starts) == 0).any():
            return None
        row = row[good]
        return cls(starts, fixed(cost[good]), row, stretch[good], np.where((row < 0)[:, None], 0, counts[row]))

    @property
    def support(self) -> NDArray[np.int64]:
        """(m,) the support that each option is for."""
        return np.repeat(np.arange(self.starts.size - 1), np.diff(self.starts))

    def least(self, values: Floats) -> Floats:
        """(n,) least value of each support's options."""
        return fixed(np.minimum.reduceat(values, self.starts[:-1]))

    def used_by_cheapest(self, values: Floats) -> NDArray[np.int64]:
        """(kinds,) what the options of least value use in all."""
        spans = zip(self.starts[:-1], self.starts[1:], strict=True)
        out: NDArray[np.int64] = self.uses[[int(s + values[s:e].argmin()) for s, e in spans]].sum(axis=0)
        return out

    def scarce(self, stock: NDArray[np.int64]) -> NDArray[np.bool_]:
        """(kinds,) whether the supports together may use more than there are."""
        out: NDArray[np.bool_] = np.maximum.reduceat(self.uses, self.starts[:-1], axis=0).sum(axis=0) > stock
        return out

    def kept(self, good: NDArray[np.bool_]) -> "Options":
        starts = np.concatenate([[0], np.cumsum(np.add.reduceat(good.astype(np.int64), self.starts[:-1]))])
        return Options(starts, fixed(self.cost[good]), self.row[good], self.stretch[good], self.uses[good])


def priced(asked: Asked, options: Options, below: float, start: Floats) -> tuple[float, Floats]:
    """The best bound that prices on the stock give in a cell, and the prices; it stops where no choice is left.

    Steps along the surplus that the cheapest options use (Held and Karp's subgradient method, from memory).
    """
    scarce = options.scarce(asked.stock)
    each = np.where(scarce, start, 0.0)
    best, best_each, step = -np.inf, each, 1.0
    for _ in range(ROUNDS):
        values = options.cost + options.uses @ each
        bound = float(options.least(values).sum() - each @ asked.stock)
        if bound > best + LESS:
            best, best_each = bound, each
        else:
            step /= SHRINK
        over = options.used_by_cheapest(values) - asked.stock
        push = np.where(scarce & ((each > 0) | (over > 0)), over, 0)
        if best >= below - LESS or not push.any():
            break
        aim = max(min(below - bound, REACH_PIECES * asked.worth.piece), asked.worth.fiddly)
        each = np.maximum(0.0, each + step * aim * push / (push @ push))
    return best, fixed(best_each)


@dataclass(slots=True, eq=False)
class Descent:
    """Depth-first search of one cell.

    Attributes:
        bound: no choice in the cell costs less.
        each: (kinds,) the prices that gave it.
        best: the cheapest choice below the limit; None if there is none, or if `cut_short` none was found.
        nodes: stacks that were tried, and what other work counts for in them.
        cut_short: the search met its limit of nodes.
    """

    bound: float
    each: Floats
    best: Choice | None = None
    nodes: int = 0
    cut_short: bool = False


def descend(
    asked: Asked, prices: Prices, cell: Cells, start: Floats, *, below: float, most_nodes: int, any_will_do: bool
) -> Descent:
    """The cheapest choice in a cell that costs less than `below`; the first that is found if any will do."""
    middle, tilt, half = (float(v[0]) for v in (cell.middle_mm, cell.tilt_mm, cell.half_mm))
    corners = [(middle + a * half, tilt + b * half) for a, b in ((-1, -1), (1, -1), (1, 1), (-1, 1))]
    area = asked.room.within(corners)
    options = Options.of(asked, prices.each, cell, below) if area else None
    if options is None:
        return Descent(np.inf, start)
    bound, each = priced(asked, options, below, start)
    out = Descent(bound, each, nodes=PRICING)
    if bound < below - LESS:
        values = options.cost + options.uses @ each
        good = values - options.least(values)[options.support] <= below - LESS - bound
        out.nodes += OPENING + options.row.size // OPTIONS_A_NODE
        most_nodes += out.nodes
        _Steps(asked, options.kept(good), out, below, most_nodes, any_will_do).run(area)
    return out


@dataclass(frozen=True, slots=True, eq=False)
class _Step:
    """A support's turn.

    Attributes:
        options: (price, cost, strip or None for no stack, what it uses of scarce kinds) of each, cheapest first.
        ahead: for each, least price of all that comes after it.
        soonest: least of these.
        facing: how unlike each is to each option of the step before; None if that is not its mirror place, or if
            there are too many to tell beforehand.
        number: (m,) of each among the cell's options.
        uses: (m, kinds) how many of each kind.
    """

    support: int
    options: list[tuple[float, float, Strip | None, list[tuple[int, int]]]]
    ahead: list[float]
    soonest: float
    facing: list[list[float]] | None
    number: NDArray[np.int64]
    uses: NDArray[np.int64]


class _Steps:
    """The supports in the order in which they are given stacks, mirror places one after the other."""

    def __init__(
        self, asked: Asked, options: Options, out: Descent, below: float, nodes: int, any_will_do: bool
    ) -> None:
        self._asked, self._options, self._out = asked, options, out
        self._below, self._most_nodes, self._any = below, nodes, any_will_do
        self._of_stock = float(out.each @ asked.stock)
        self._left = asked.stock.tolist()
        self._stop = False
        self._steps = self._in_order()
        self._at = [0] * len(self._steps)

    def _in_order(self) -> list[_Step]:
        """The fewest options first; built from the last, so that each knows what is ahead."""
        options, n = self._options, self._asked.supports
        price = options.cost + options.uses @ self._out.each
        numbers = [s + np.argsort(price[s:e], kind="stable") for s, e in pairwise(options.starts.tolist())]
        pairs = [sorted((i, n - 1 - i), key=lambda k: numbers[k].size) for i in range(n // 2)]
        pairs.sort(key=lambda pair: numbers[pair[0]].size * numbers[pair[1]].size)
        steps: list[_Step] = []
        rest = 0.0
        for one, other in reversed(pairs):
            a, b = numbers[one], numbers[other]
            told = a.size * b.size <= MOST_FACING
            unlike = self._asked.unlike(options.row[a], options.row[b]) if told else np.zeros((1, b.size))
            ahead = np.broadcast_to((unlike + price[b]).min(axis=1), a.size) + rest
            steps.append(self._step(other, b, price, np.full(b.size, rest), unlike.tolist() if told else None))
            steps.append(self._step(one, a, price, ahead, None))
            rest = float((price[a] + ahead).min())
        if n % 2:
            steps.append(self._step(n // 2, numbers[n // 2], price, np.full(numbers[n // 2].size, rest), None))
        return steps[::-1]

    def _step(
        self, support: int, numbers: NDArray[np.int64], price: Floats, ahead: Floats, facing: list[list[float]] | None
    ) -> _Step:
        asked, options = self._asked, self._options
        row, turn = options.row[numbers], float(asked.turn[support])
        at = np.where(row < 0, 0.0, asked.listed.height_mm[row]) - asked.height_mm[support]
        within = asked.within_mm[support, options.stretch[numbers]]
        strips = [
            None if r < 0 else Strip(turn, low, high)
            for r, low, high in zip(row.tolist(), (at - within).tolist(), (at + within).tolist(), strict=True)
        ]
        uses: list[list[tuple[int, int]]] = [[] for _ in strips]
        scarce = options.uses[numbers] * options.scarce(asked.stock)
        for m, k in np.argwhere(scarce).tolist():
            uses[m].append((k, int(scarce[m, k])))
        told = list(zip(price[numbers].tolist(), options.cost[numbers].tolist(), strips, uses, strict=True))
        return _Step(support, told, ahead.tolist(), float(ahead.min()), facing, numbers, options.uses[numbers])

    def run(self, area: Area) -> None:
        self._go(0, 0.0, 0.0, area, [0] * len(self._steps))

    def _go(self, depth: int, price: float, cost: float, area: Area, first: list[int]) -> None:
        if depth == len(self._steps):
            if cost < self._below - LESS:
                self._end()
            return
        step, left = self._steps[depth], self._left
        facing = step.facing[self._at[depth - 1]] if step.facing is not None else None
        for q in range(first[depth], len(step.options)):
            its_price, its_cost, strip, uses = step.options[q]
            spare = self._below - LESS + self._of_stock - price - its_price
            if spare <= step.soonest:
                break
            unlike = facing[q] if facing is not None else 0.0
            if spare <= unlike + step.ahead[q]:
                continue
            if self._out.nodes >= self._most_nodes:
                self._out.cut_short = self._stop = True
                return
            self._out.nodes += 1
            if any(left[k] < n for k, n in uses):
                continue
            inside = area if strip is None else cut(area, strip)
            if not inside:
                continue
            for k, n in uses:
                left[k] -= n
            fit = self._first_that_fit(depth + 1, first, spare - unlike) if uses else first
            if fit is not None:
                self._at[depth] = q
                self._go(depth + 1, price + its_price + unlike, cost + its_cost + unlike, inside, fit)
            for k, n in uses:
                left[k] += n
            if self._stop:
                return

    def _first_that_fit(self, depth: int, first: list[int], spare: float) -> list[int] | None:
        """The cheapest option of each later step that what is left allows; None if none, or if they cost too much."""
        self._out.nodes += LOOK_AHEAD
        out, left = first[:], np.array(self._left)
        for later in range(depth, len(self._steps)):
            step = self._steps[later]
            if any(self._left[k] < n for k, n in step.options[out[later]][3]):
                fits = (step.uses[out[later] :] <= left).all(axis=1)
                if not fits.any():
                    return None
                out[later] += int(fits.argmax())
            spare -= step.options[out[later]][0]
            if spare <= 0:
                return None
        return out

    def _end(self) -> None:
        """Every support has its stack; the choice is kept if it is the cheapest so far."""
        rows, stretches = [0] * len(self._steps), [0] * len(self._steps)
        for step, q in zip(self._steps, self._at, strict=True):
            rows[step.support] = int(self._options.row[step.number[q]])
            stretches[step.support] = int(self._options.stretch[step.number[q]])
        total = self._asked.cost_of(rows, stretches)
        if total < self._below - LESS:
            self._out.best = Choice(tuple(rows), tuple(stretches), total)
            self._below = total
            self._stop = self._any
