"""The integer programme behind the planks: how many rows of which kind for each panel, cut from which planks."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations_with_replacement
from typing import Any, Protocol

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import coo_array

from generator.build.plank_rows import Planks, Recipe, apart_mm
from generator.quantities import Floats, fixed

MOST_CUTTINGS = 100
"""Ways to cut up one plank that are thought about."""
MOST_NODES = 20_000
"""Branches that the search for each aim may try; far more than planks of a few sizes need."""
TOLERANCE = 1e-6


class Takes(Protocol):
    """What the work takes of the wood."""

    @property
    def joint_mm(self) -> float: ...
    @property
    def kerf_mm(self) -> float: ...
    @property
    def stagger_mm(self) -> float: ...


@dataclass(frozen=True, slots=True)
class WidthClass:
    """Sizes of one width, by their places in the list of all sizes, and the rows that they make."""

    width_mm: float
    members: tuple[int, ...]
    recipes: tuple[Recipe, ...]


@dataclass(frozen=True, slots=True)
class Choice:
    """What was chosen.

    `rows` are, for each panel, class and recipe of every row; `opened` planks of each size; `cut_up` the planks that
    pieces are cut from: size, the pieces' lengths, how many planks are cut so.
    """

    rows: tuple[tuple[tuple[int, int], ...], ...]
    opened: tuple[int, ...]
    cut_up: tuple[tuple[int, tuple[float, ...], int], ...]


class _Programme:
    """Columns with names, rows as they come; every column is a whole number of at least 0."""

    def __init__(self) -> None:
        self.names: dict[Any, int] = {}
        self.most: list[float] = []
        self.rows: list[tuple[dict[int, float], float, float]] = []

    def column(self, name: Any, most: float = math.inf) -> int:
        if name not in self.names:
            self.names[name] = len(self.names)
            self.most.append(most)
        return self.names[name]

    def row(self, terms: dict[int, float], low: float, high: float) -> None:
        self.rows.append((terms, low, high))

    def least(self, cost: dict[int, float]) -> Floats:
        """The whole numbers that make the cost least; the cost is then held there for whatever is asked next.

        Raises:
            RuntimeError: the programme could not be solved.
        """
        c = np.zeros(len(self.names))
        for column, factor in cost.items():
            c[column] = factor
        at = [(i, j, v) for i, (terms, _, _) in enumerate(self.rows) for j, v in terms.items()]
        rows, columns, values = (np.array(part) for part in zip(*at, strict=True))
        matrix = coo_array((values, (rows, columns)), shape=(len(self.rows), len(c))).tocsr()
        limits = LinearConstraint(matrix, [low for _, low, _ in self.rows], [high for _, _, high in self.rows])
        got = milp(
            c,
            constraints=limits,
            bounds=Bounds(np.zeros(len(c)), np.array(self.most)),
            integrality=np.ones(len(c)),
            options={"mip_rel_gap": 0.0, "node_limit": MOST_NODES},
        )
        if got.x is None:
            raise RuntimeError(f"the planks could not be chosen: {got.message}")
        x = fixed(np.round(got.x))
        self.row(dict(cost), -math.inf, float(c @ x) + TOLERANCE)
        return x


def choose(
    sizes: Sequence[Planks], classes: Sequence[WidthClass], *, width_mm: float, length_mm: float, allowance: Takes
) -> Choice:
    """Rows for two panels, each at least `width_mm` wide after their glue lines.

    First the fewest planks bought, then the least area of planks used, the fewest rows, the fewest end joins, panels
    alike and even, and at last whatever comes first in the lists.

    Raises:
        RuntimeError: no choice was found.
    """
    programme = _Programme()
    kinds = [(c, r) for c, one in enumerate(classes) for r in range(len(one.recipes))]
    cuttings = {
        (c, n): tuple(_cuttings(sizes[n].length_mm, _cuts(one), allowance.kerf_mm))
        for c, one in enumerate(classes)
        for n in one.members
    }
    for p in range(2):
        _panel(programme, p, kinds, classes, width_mm=width_mm, length_mm=length_mm, allowance=allowance)
    opened = _stock(programme, kinds, classes, sizes, cuttings)
    _evenness(programme, classes, kinds)

    def rows_cost(worth: Any) -> dict[int, float]:
        return {programme.column(("row", p, c, r)): worth(c, r) for p in range(2) for c, r in kinds}

    unit = max(size.area_mm2 for size in sizes)
    bought = [n for n, size in enumerate(sizes) if size.have is None]
    stages: list[dict[int, float]] = [
        _summed(opened, {n: 1.0 for n in bought}),
        _summed(opened, {n: size.area_mm2 / unit for n, size in enumerate(sizes)}),
        rows_cost(lambda c, r: 1.0),
        rows_cost(lambda c, r: float(len(classes[c].recipes[r].joints_mm))),
        {at: 1.0 for name, at in programme.names.items() if name[0] in {"odd", "unlike"}},
        {at: 1.0 + 0.01 * at for name, at in programme.names.items() if name[0] in {"row", "plank"}},
    ]
    x = fixed([])
    for stage in stages:
        if any(stage.values()):
            x = programme.least(stage)
    return _told(x, programme, kinds, classes, sizes, cuttings)


def _cuts(one: WidthClass) -> tuple[float, ...]:
    """Lengths that pieces are cut to, the longest first."""
    return tuple(sorted({recipe.cut_mm for recipe in one.recipes}, reverse=True))


def _cuttings(plank_mm: float, cuts_mm: Sequence[float], kerf_mm: float) -> Iterator[tuple[float, ...]]:
    """Ways to cut one plank up into pieces, none with room for one piece more; at most `MOST_CUTTINGS`."""
    given = 0
    fitting = [cut for cut in cuts_mm if cut <= plank_mm]
    if not fitting:
        return
    for count in range(1, int((plank_mm + kerf_mm) / (min(fitting) + kerf_mm)) + 1):
        for pieces in combinations_with_replacement(fitting, count):
            rest = plank_mm - sum(pieces) - (count - 1) * kerf_mm
            if rest >= -1e-9 and rest < kerf_mm + min(fitting):
                yield pieces
                given += 1
                if given == MOST_CUTTINGS:
                    return


def _panel(
    programme: _Programme,
    p: int,
    kinds: Sequence[tuple[int, int]],
    classes: Sequence[WidthClass],
    *,
    width_mm: float,
    length_mm: float,
    allowance: Takes,
) -> None:
    """One panel's rows: wide enough, and no two kinds in it whose end joins would come too near."""
    net = [one.width_mm - allowance.joint_mm for one in classes]
    most = [math.ceil(width_mm / width) + 1 for width in net]
    columns = {(c, r): programme.column(("row", p, c, r), most[c]) for c, r in kinds}
    programme.row({at: net[c] for (c, _), at in columns.items()}, width_mm - allowance.joint_mm, math.inf)
    joined = [(c, r) for c, r in kinds if classes[c].recipes[r].joints_mm]
    clashes = [
        (a, b)
        for i, a in enumerate(joined)
        for b in joined[i + 1 :]
        if apart_mm(classes[a[0]].recipes[a[1]], classes[b[0]].recipes[b[1]], length_mm=length_mm)
        < min(allowance.stagger_mm, *(classes[c].recipes[r].stagger_mm for c, r in (a, b))) - TOLERANCE
    ]
    for kind in dict.fromkeys(kind for pair in clashes for kind in pair):
        taken = programme.column(("taken", p, *kind), 1)
        programme.row({columns[kind]: 1.0, taken: -float(most[kind[0]])}, -math.inf, 0.0)
    for a, b in clashes:
        programme.row({programme.column(("taken", p, *k)): 1.0 for k in (a, b)}, -math.inf, 1.0)


def _stock(
    programme: _Programme,
    kinds: Sequence[tuple[int, int]],
    classes: Sequence[WidthClass],
    sizes: Sequence[Planks],
    cuttings: dict[tuple[int, int], tuple[tuple[float, ...], ...]],
) -> dict[int, dict[int, float]]:
    """No more planks than there are, and as many cut pieces as the rows take; gives the planks of each size used."""
    opened: dict[int, dict[int, float]] = {n: {} for n in range(len(sizes))}
    pieces: dict[tuple[int, float], dict[int, float]] = {}
    for c, r in kinds:
        recipe, whole = classes[c].recipes[r], Counter(classes[c].recipes[r].whole)
        for p in range(2):
            at = programme.column(("row", p, c, r))
            for k, count in whole.items():
                opened[classes[c].members[k]][at] = float(count)
            pieces.setdefault((c, recipe.cut_mm), {})[at] = -1.0
    for (c, n), ways in cuttings.items():
        for q, lengths in enumerate(ways):
            at = programme.column(("plank", n, q))
            opened[n][at] = 1.0
            for length, count in Counter(lengths).items():
                pieces[c, length][at] = float(count)
    for terms in pieces.values():
        programme.row(terms, 0.0, math.inf)
    for n, terms in opened.items():
        have = sizes[n].have
        if terms and have is not None:
            programme.row(terms, 0.0, float(have))
    return opened


def _evenness(programme: _Programme, classes: Sequence[WidthClass], kinds: Sequence[tuple[int, int]]) -> None:
    """Columns that count rows without a partner across the middle, and rows that only one panel has."""
    for c in range(len(classes)):
        unlike = programme.column(("unlike", c))
        of_class = [[programme.column(("row", p, c, r)) for k, r in kinds if k == c] for p in range(2)]
        for sign in (1.0, -1.0):
            terms = {at: sign for at in of_class[0]} | {at: -sign for at in of_class[1]} | {unlike: -1.0}
            programme.row(terms, -math.inf, 0.0)
        for p in range(2):
            pairs, odd = programme.column(("pairs", p, c)), programme.column(("odd", p, c), 1)
            programme.row({at: 1.0 for at in of_class[p]} | {pairs: -2.0, odd: -1.0}, 0.0, 0.0)


def _summed(opened: dict[int, dict[int, float]], worth: dict[int, float]) -> dict[int, float]:
    total: dict[int, float] = {}
    for n, factor in worth.items():
        for at, count in opened[n].items():
            total[at] = total.get(at, 0.0) + factor * count
    return total


def _told(
    x: Floats,
    programme: _Programme,
    kinds: Sequence[tuple[int, int]],
    classes: Sequence[WidthClass],
    sizes: Sequence[Planks],
    cuttings: dict[tuple[int, int], tuple[tuple[float, ...], ...]],
) -> Choice:
    """The columns as rows and planks; pieces cut for nothing stay in their plank."""
    rows = tuple(
        tuple((c, r) for c, r in kinds for _ in range(int(x[programme.column(("row", p, c, r))]))) for p in range(2)
    )
    opened = Counter[int]()
    needed = Counter[tuple[int, float]]()
    for c, r in (kind for panel in rows for kind in panel):
        recipe = classes[c].recipes[r]
        needed[c, recipe.cut_mm] += 1
        opened.update(classes[c].members[k] for k in recipe.whole)
    cut_up = Counter[tuple[int, tuple[float, ...]]]()
    for (c, n), ways in cuttings.items():
        for q, lengths in enumerate(ways):
            for _ in range(int(x[programme.column(("plank", n, q))])):
                kept = []
                for length in lengths:
                    if needed[c, length] > 0:
                        needed[c, length] -= 1
                        kept.append(length)
                if kept:
                    cut_up[n, tuple(kept)] += 1
                    opened[n] += 1
    return Choice(
        rows,
        tuple(opened[n] for n in range(len(sizes))),
        tuple((n, lengths, count) for (n, lengths), count in cut_up.items()),
    )
