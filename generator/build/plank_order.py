"""The order of a panel's rows from one side to the other: mirrored about the middle where the rows allow it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.build.plank_choice import WidthClass


@dataclass(frozen=True, slots=True)
class OrderedRow:
    """One row: its width class, its recipe there, and whether it is laid from the nose."""

    width_class: int
    recipe: int
    from_nose: bool


def in_order(
    rows: Sequence[tuple[int, int]], classes: Sequence[WidthClass], *, length_mm: float
) -> tuple[tuple[OrderedRow, ...], bool]:
    """The rows in their order, and whether their widths are the same from both sides.

    The widest lie in the middle and narrower ones outside, where the panel is cut round and bent over the deck's edge,
    in pairs of one width. A row without a partner lies in the middle; further ones lie beside it, so that the panel is
    then not quite the same from both sides. Rows with end joins are laid from the tail and from the nose by turns.
    """
    by_class: dict[int, list[tuple[int, int]]] = {}
    for row in sorted(rows, key=lambda row: (row[0], len(classes[row[0]].recipes[row[1]].joints_mm), row[1])):
        by_class.setdefault(row[0], []).append(row)
    widest_first = sorted(by_class, key=lambda c: -classes[c].width_mm)
    single = [by_class[c].pop() for c in widest_first if len(by_class[c]) % 2]
    left: list[tuple[int, int]] = []
    right: list[tuple[int, int]] = []
    for c in reversed(widest_first):
        members = by_class[c]
        left += members[0::2]
        right += members[1::2]
    lined_up = [*left, *single, *reversed(right)]
    widths = [classes[c].width_mm for c, _ in lined_up]
    turned = False
    ordered: list[OrderedRow] = []
    for c, r in lined_up:
        joined = bool(classes[c].recipes[r].joints_mm)
        ordered.append(OrderedRow(c, r, turned and joined))
        turned = not turned
    return tuple(ordered), widths == widths[::-1]
