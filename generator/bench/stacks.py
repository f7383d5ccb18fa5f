"""What to pile at each support from the things in the house, one stock for all supports.

Every stack of up to five pieces is listed once; then the cheapest choice of one for each support is searched for, the
whole bench being free to lie higher and to tilt (see `stack_search`). In order, what is wanted is:

1. every support within its tolerance. Where the stock does not allow that, tolerances are stretched by `FACTORS`; a
   factor counts as much as it is above 1. A support that is left without a stack counts for more than all of them
   stretched by the least factor and one by the greatest.
2. a crossbar where one is wanted, if there are any crossbars;
3. fewest pieces;
4. fewest stacks with a shim in them and kinds beyond two in a stack;
5. stacks alike at mirror places (first and last support, second and last but one, ...): the same thing at the bottom,
   then most pieces in common;
6. least worst error, as a share of the tolerance, to within `NEARER` and as far as a short search finds.

Height and tilt are then chosen so that the worst error is as small as these stacks allow. In 1 to 5 the answer is the
best there is, at any height and tilt, unless `Pile.cut` says that something was cut short.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from generator.bench.stack_bound import Asked, Worth
from generator.bench.stack_cell import Choice
from generator.bench.stack_fit import TILTS_MM, Room, Strip, least_ratio
from generator.bench.stack_list import Piece, list_stacks, piled_order
from generator.bench.stack_search import cheapest, unlisted_may_be_cheaper
from generator.quantities import Floats, fixed

__all__ = ["FACTORS", "TILTS_MM", "Piece", "Pile", "Stack", "pile"]

TOLERANCE_MM = 1.0
FACTORS = (1.0, 2.0, 4.0, 8.0)
NEARER, NEARER_ROUNDS, NEARER_NODES = 0.1, 4, 12_000
STRETCHED_NODES = 60_000
"""How far a nearer choice is sought, and one that needs stretched tolerances, before that is given up."""

Cut = Literal["", "list", "search"]


@dataclass(frozen=True, slots=True)
class Stack:
    """Pieces from the bottom up as (index of the kind, how many); their height and how far it misses what is wanted."""

    pieces: tuple[tuple[int, int], ...]
    height_mm: float
    wanted_mm: float
    takes_n: float
    mass_kg: float

    @property
    def error_mm(self) -> float:
        """Stack minus wanted, mm."""
        return self.height_mm - self.wanted_mm


@dataclass(frozen=True, slots=True, eq=False)
class Pile:
    """What to pile where.

    Attributes:
        stacks: one a support, None where the stock has nothing that fits.
        missing_mm: (n,) height that a missing stack would need, 0 elsewhere.
        base_mm, tilt_mm: the bench's common height, and its rise from tail tip to nose tip.
        tolerance_mm: (n,) greatest error that was asked for at each support.
        within_mm: (n,) error that had to be allowed, the tolerance if all went well; inf where a stack is missing.
        cut: empty if nothing better exists; "list" if there are so many kinds that stacks of five pieces were not
            all looked at and one of them might do better; "search" if the search was given up.
    """

    stacks: tuple[Stack | None, ...]
    missing_mm: Floats
    base_mm: float
    tilt_mm: float
    tolerance_mm: Floats
    within_mm: Floats
    cut: Cut

    @property
    def kept(self) -> tuple[bool, ...]:
        """Whether each support has a stack within its tolerance."""
        return tuple(bool(one) for one in self.within_mm <= self.tolerance_mm)

    @property
    def proven(self) -> bool:
        """Nothing better exists, at any height and tilt."""
        return not self.cut

    @property
    def allowed_mm(self) -> float:
        """Greatest error that had to be allowed where there is a stack; the greatest tolerance if there is none."""
        piled = np.isfinite(self.within_mm)
        return float(self.within_mm[piled].max() if piled.any() else self.tolerance_mm.max())


def pile(
    pieces: Sequence[Piece],
    *,
    x_per_length: ArrayLike,
    height_mm: ArrayLike,
    table_mm: ArrayLike,
    load_n: ArrayLike,
    wants_bar: Sequence[bool],
    least_base_mm: ArrayLike,
    tolerance_mm: ArrayLike = TOLERANCE_MM,
    factors: Sequence[float] = FACTORS,
) -> Pile:
    """Pile every support from one stock.

    The top of stack i is wanted at base + height_i + tilt·x_i above the level line, so the stack is as high as that
    less the table's own reading there. The tilt is at most 8 mm either way, the base at most 160 mm above the lowest.

    Args:
        x_per_length: (n,) place of each support, 0 tail tip to 1 nose tip, in order.
        height_mm: (n,) wanted heights in the rocker's own level.
        table_mm: (n,) reading of the table at each support, above the level line positive.
        load_n: (n,) load on each.
        wants_bar: whether a crossbar is wanted on each: where the board is wide, it holds twist.
        least_base_mm: (9,) or one number: lowest base for each of `TILTS_MM`, so that clamps have room. Between these
            tilts it is taken as straight, which is on the safe side since the lowest base curves up from tilt to tilt.
        tolerance_mm: one number, or (n,) numbers where some supports are more sensitive than others.
        factors: what tolerances may be stretched by, 1 first, rising.

    Raises:
        ValueError: lists of unlike length; a tolerance that is not above 0; factors that do not rise from 1.
    """
    asked = _asked(
        pieces,
        fixed(x_per_length),
        fixed(np.asarray(height_mm, dtype=np.float64) - np.asarray(table_mm)),
        fixed(load_n),
        np.array(wants_bar, dtype=np.bool_),
        fixed(np.broadcast_to(least_base_mm, len(TILTS_MM))),
        fixed(np.broadcast_to(tolerance_mm, np.shape(x_per_length))),
        factors,
    )
    found = cheapest(asked, below=asked.worth.stretch)
    if found.choice is None:
        found = cheapest(asked, below=asked.supports * asked.missing_cost, most_nodes=STRETCHED_NODES)
    nothing = Choice((-1,) * asked.supports, (0,) * asked.supports, asked.supports * asked.missing_cost)
    choice = _nearer(asked, found.choice or nothing)
    cut: Cut = ""
    if not found.ended:
        cut = "search"
    elif unlisted_may_be_cheaper(asked, choice.cost):
        cut = "list"
    return _told(pieces, asked, choice, cut)


def _asked(
    pieces: Sequence[Piece],
    share: Floats,
    height_mm: Floats,
    load_n: Floats,
    wants_bar: NDArray[np.bool_],
    least_base_mm: Floats,
    tolerance_mm: Floats,
    factors: Sequence[float],
) -> Asked:
    """What is wanted, and all stacks with what they cost at each support."""
    if not share.shape == height_mm.shape == load_n.shape == wants_bar.shape:
        raise ValueError("each support needs one of every number")
    if not (tolerance_mm > 0).all() or factors[0] != 1 or (np.diff(factors) <= 0).any():
        raise ValueError("tolerances must be above 0, and what stretches them must rise from 1")
    order = np.argsort(TILTS_MM)
    room = Room(fixed(np.array(TILTS_MM)[order]), fixed(least_base_mm[order]))
    turn, within = share - 0.5, tolerance_mm[:, None] * np.array(factors)
    corners = np.array([corner for area in room.stretches() for corner in area])
    highest = (corners[:, :1] + corners[:, 1:] * turn + height_mm).max() + within.max()
    listed = list_stacks(pieces, most_mm=float(highest), least_n=float(load_n.min()))
    worth = Worth.of(share.size)
    stretch = [0.0]
    for factor in factors[1:]:
        stretch.append(max(stretch[-1] + 1, np.ceil(factor - 1)))
    bars = any(piece.kind == "crossbar" and piece.count for piece in pieces)
    cost = (
        listed.pieces * worth.piece
        + listed.fiddly * worth.fiddly
        + (wants_bar[:, None] & bars & ~listed.crossbar) * worth.bar
    )
    return Asked(
        fixed(turn),
        height_mm,
        fixed(within),
        fixed(np.array(stretch) * worth.stretch),
        fixed(np.where(listed.takes_n >= load_n[:, None], cost, np.inf)),
        (share.size * stretch[:2][-1] + stretch[-1] + 1) * worth.stretch,
        np.array([piece.count for piece in pieces], dtype=np.int64),
        room,
        listed,
        worth,
    )


def _strips(asked: Asked, choice: Choice) -> list[Strip]:
    """Where the bench may lie for each support that has a stack."""
    out = []
    for i, (row, stretch) in enumerate(zip(choice.rows, choice.stretches, strict=True)):
        if row >= 0:
            at = float(asked.listed.height_mm[row] - asked.height_mm[i])
            out.append(Strip.about(float(asked.turn[i]), at, float(asked.within_mm[i, stretch])))
    return out


def _nearer(asked: Asked, choice: Choice) -> Choice:
    """A choice that costs no more, with the least worst share of the allowed errors, to within `NEARER`."""
    for _ in range(NEARER_ROUNDS):
        ratio, _, _ = least_ratio(asked.room.stretches(), _strips(asked, choice))
        if ratio <= NEARER:
            break
        closer = replace(asked, within_mm=fixed(asked.within_mm * (ratio - NEARER)))
        better = cheapest(closer, below=choice.cost + 1, any_will_do=True, most_nodes=NEARER_NODES).choice
        if better is None:
            break
        choice = better
    return choice


def _told(pieces: Sequence[Piece], asked: Asked, choice: Choice, cut: Cut) -> Pile:
    _, middle, tilt = least_ratio(asked.room.stretches(), _strips(asked, choice))
    wanted = middle + asked.turn * tilt + asked.height_mm
    listed, order = asked.listed, piled_order(pieces)
    stacks: list[Stack | None] = []
    for row, height in zip(choice.rows, wanted.tolist(), strict=True):
        if row < 0:
            stacks.append(None)
            continue
        parts = tuple((i, int(listed.counts[row, i])) for i in order if listed.counts[row, i])
        numbers = (float(values[row]) for values in (listed.height_mm, listed.takes_n, listed.mass_kg))
        high, takes, mass = numbers
        stacks.append(Stack(parts, high, height, takes, mass))
    within = [
        np.inf if row < 0 else float(asked.within_mm[i, stretch])
        for i, (row, stretch) in enumerate(zip(choice.rows, choice.stretches, strict=True))
    ]
    missing = np.where(np.array(choice.rows) < 0, wanted, 0.0)
    return Pile(
        tuple(stacks), fixed(missing), middle - tilt / 2, tilt, fixed(asked.within_mm[:, 0]), fixed(within), cut
    )
