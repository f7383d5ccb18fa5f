"""Which planks go into the two deck panels: the fewest bought, the least wood opened, then the fewest glue lines."""

from __future__ import annotations

import itertools
import math
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from generator.board.body import Blank, Body
from generator.build.plank_choice import Choice, WidthClass, choose
from generator.build.plank_order import OrderedRow, in_order
from generator.build.plank_rows import ALIKE_MM, Planks, Wanted, any_recipe, recipes

__all__ = ["Allowance", "Layout", "Offcut", "PlankPlan", "Planks", "Row", "as_laid", "plan_planks"]

PANELS = ("bottom", "top")
OFFCUT_MM = 20.0
"""Ends shorter than this are sawdust and not listed."""


@dataclass(frozen=True, slots=True)
class Allowance:
    """What the work takes of the wood.

    Args:
        joint_mm: width that truing the two edges of one glue line takes.
        overlap_mm: length that one end join takes.
        kerf_mm: length that one saw cut takes.
        stagger_mm: least distance between end joins of rows side by side; no piece is shorter either.
    """

    joint_mm: float
    overlap_mm: float
    kerf_mm: float
    stagger_mm: float


@dataclass(frozen=True, slots=True)
class Row:
    """One row of a panel, from one side of it to the other; pieces and joins from the tail.

    `from_mm` is its near edge from the panel's first edge. Its wood runs from `start_mm` to `end_mm`, 0 being the tail
    end of the panel that is needed. `cut` says for each piece whether it is cut to that length before.
    """

    n: int
    width_mm: float
    from_mm: float
    start_mm: float
    end_mm: float
    pieces_mm: tuple[float, ...]
    cut: tuple[bool, ...]
    joints_mm: tuple[float, ...]


@dataclass(frozen=True)
class Layout:
    """One panel as it is glued up; `width_mm` after truing the edges. `staggered_mm` is infinite without end joins."""

    name: str
    rows: tuple[Row, ...]
    width_mm: float
    length_mm: float
    mirrored: bool
    staggered_mm: float

    @property
    def glue_lines(self) -> int:
        return len(self.rows) - 1

    @property
    def end_joints(self) -> int:
        return sum(len(row.joints_mm) for row in self.rows)

    @property
    def widths_mm(self) -> tuple[float, ...]:
        return tuple(row.width_mm for row in self.rows)


@dataclass(frozen=True, slots=True)
class Use:
    """Planks of one size: how many lie ready, are used of these, and are bought."""

    width_mm: float
    length_mm: float
    have: int
    used: int
    buy: int


@dataclass(frozen=True, slots=True)
class Offcut:
    """What is left over of one size."""

    width_mm: float
    length_mm: float
    count: int


@dataclass(frozen=True)
class PlankPlan:
    """Both panels, the planks they take, and what is left over."""

    bottom: Layout
    top: Layout
    uses: tuple[Use, ...]
    offcuts: tuple[Offcut, ...]
    need_length_mm: float
    need_width_mm: float

    @property
    def panels(self) -> tuple[Layout, Layout]:
        return (self.bottom, self.top)

    @cached_property
    def opened_mm2(self) -> float:
        """Area of all planks that are used."""
        return sum((use.used + use.buy) * use.width_mm * use.length_mm for use in self.uses)

    @property
    def waste_mm2(self) -> float:
        """Area of the planks used, less that of the two panels needed."""
        return self.opened_mm2 - 2 * self.need_length_mm * self.need_width_mm

    @property
    def planks(self) -> int:
        return sum(use.used + use.buy for use in self.uses)

    @property
    def buy(self) -> int:
        return sum(use.buy for use in self.uses)

    @property
    def joined(self) -> bool:
        """Some row is made of pieces joined end to end."""
        return any(panel.end_joints for panel in self.panels)

    @property
    def alike(self) -> bool:
        """Both panels are laid from the same rows."""
        return [(r.width_mm, r.pieces_mm) for r in self.bottom.rows] == [
            (r.width_mm, r.pieces_mm) for r in self.top.rows
        ]


def plan_planks(
    *, length_mm: float, width_mm: float, stock: Sequence[Planks], bought: Planks, allowance: Allowance
) -> PlankPlan:
    """Lay both panels from the planks that lie ready, buying as few as possible.

    A row is one plank, or whole planks and one piece cut from a further plank, whose end joins keep away from those of
    the rows beside it; rows that may lie side by side are laid from the tail and from the nose by turns. Among all
    choices of such rows: the fewest planks bought, then the least area of planks used, then the fewest glue lines, the
    fewest end joins, and two panels as alike and as even about their middles as can be. Each step is solved exactly
    (mixed-integer linear programme).

    Args:
        length_mm, width_mm: what each panel must reach.
        stock: planks that lie ready.
        bought: the size of a plank that can be bought, `have` None.

    Raises:
        ValueError: a size is not above 0, or the planks to buy are shorter than their end joins.
    """
    if not (length_mm > 0 and width_mm > 0):
        raise ValueError("length_mm and width_mm must be above 0")
    wanted = Wanted(length_mm, allowance.overlap_mm, allowance.stagger_mm, allowance.stagger_mm)
    sizes = (*_merged(stock), bought)
    classes = tuple(_classes(sizes, wanted))
    choice = choose(sizes, classes, width_mm=width_mm, length_mm=length_mm, allowance=allowance)
    panels = [_layout(name, choice, at, classes, sizes, length_mm, allowance) for at, name in enumerate(PANELS)]
    uses = tuple(
        Use(size.width_mm, size.length_mm, size.have or 0, 0, count)
        if size.have is None
        else Use(size.width_mm, size.length_mm, size.have, count, 0)
        for size, count in zip(sizes, choice.opened, strict=True)
        if size.have is not None or count
    )
    offcuts = _offcuts(choice, sizes, panels, length_mm, allowance.kerf_mm)
    return PlankPlan(panels[0], panels[1], uses, offcuts, length_mm, width_mm)


def as_laid(body: Body, plan: PlankPlan) -> Body:
    """The same board with its blank as the bottom panel is really laid."""
    blank, bottom = body.blank, plan.bottom
    most = max(len(row.pieces_mm) for panel in plan.panels for row in panel.rows)
    laid = Blank(
        blank.length_mm,
        blank.width_mm,
        len(bottom.rows),
        most,
        bottom.width_mm - blank.width_mm,
        bottom.length_mm - blank.length_mm,
    )
    return replace(body, blank=laid)


def _merged(stock: Sequence[Planks]) -> Iterator[Planks]:
    """Each size once."""
    counts: Counter[tuple[float, float]] = Counter()
    for one in stock:
        counts[one.width_mm, one.length_mm] += one.have or 0
    for (width, length), have in sorted(counts.items(), reverse=True):
        yield Planks(width, length, have)


def _classes(sizes: Sequence[Planks], wanted: Wanted) -> Iterator[WidthClass]:
    """Sizes of about one width, and the rows they make; the planks to buy always make some."""
    left = sorted(range(len(sizes)), key=lambda n: (sizes[n].width_mm, n))
    while left:
        narrowest = sizes[left[0]].width_mm
        members = tuple(n for n in left if sizes[n].width_mm <= narrowest + ALIKE_MM)
        left = [n for n in left if n not in members]
        of_class = [sizes[n] for n in members]
        made = recipes(of_class, wanted)
        if not made and any(size.have is None for size in of_class):
            made = any_recipe(of_class, wanted)
        if made:
            yield WidthClass(narrowest, members, made)


def _layout(
    name: str,
    choice: Choice,
    at: int,
    classes: Sequence[WidthClass],
    sizes: Sequence[Planks],
    length_mm: float,
    allowance: Allowance,
) -> Layout:
    """One panel with its rows in order."""
    rows: list[Row] = []
    ordered, mirrored = in_order(choice.rows[at], classes, length_mm=length_mm)
    edge = 0.0
    for n, row in enumerate(ordered, 1):
        rows.append(_row(n, row, classes, sizes, edge, length_mm))
        edge += classes[row.width_class].width_mm - allowance.joint_mm
    apart = min(
        (abs(a - b) for one, other in itertools.pairwise(rows) for a in one.joints_mm for b in other.joints_mm),
        default=math.inf,
    )
    reach = min(row.end_mm - row.start_mm for row in rows)
    return Layout(name, tuple(rows), edge + allowance.joint_mm, reach, mirrored, apart)


def _row(
    n: int, row: OrderedRow, classes: Sequence[WidthClass], sizes: Sequence[Planks], edge_mm: float, length_mm: float
) -> Row:
    of_class = classes[row.width_class]
    recipe = of_class.recipes[row.recipe]
    pieces = (recipe.cut_mm, *(sizes[of_class.members[k]].length_mm for k in recipe.whole))
    cut = (bool(recipe.whole), *(False for _ in recipe.whole))
    start, end, joints = 0.0, length_mm + recipe.spare_mm, recipe.joints_mm
    if row.from_nose:
        start, end = length_mm - end, length_mm
        pieces, cut, joints = pieces[::-1], cut[::-1], tuple(length_mm - x for x in reversed(joints))
    return Row(n, of_class.width_mm, edge_mm, start, end, pieces, cut, joints)


def _offcuts(
    choice: Choice, sizes: Sequence[Planks], panels: Sequence[Layout], length_mm: float, kerf_mm: float
) -> tuple[Offcut, ...]:
    """Rests of planks that pieces are cut from, and ends that stick out past the panels."""
    found: Counter[tuple[float, float]] = Counter()
    for size_at, lengths, count in choice.cut_up:
        rest = sizes[size_at].length_mm - sum(lengths) - len(lengths) * kerf_mm
        found[sizes[size_at].width_mm, round(rest, 1)] += count
    for panel in panels:
        for row in panel.rows:
            for end in (-row.start_mm, row.end_mm - length_mm):
                found[row.width_mm, round(end, 1)] += 1
    return tuple(
        Offcut(width, length, count)
        for (width, length), count in sorted(found.items(), key=lambda one: (-one[0][1], -one[0][0]))
        if length >= OFFCUT_MM
    )
