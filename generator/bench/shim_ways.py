"""Ways to change the height of a support by whole shims, from one stock for all supports."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product
from typing import Any

MOST_MM, MOST_PIECES = 8.0, 3
"""Change at one support: the sums are of the bench as planned, and further off it is another bench."""


@dataclass(frozen=True, slots=True)
class Way:
    """One way to change a support: its change of height, and how many of each shim are added (below 0: taken out)."""

    change_mm: float
    counts: tuple[int, ...]

    @property
    def pieces(self) -> int:
        return sum(map(abs, self.counts))


Changes = list[list[Way]]
"""Every change of height of one support, lowest first, each with the ways to make it, fewest pieces first."""


def changes_at(support: int, *, shims: Sequence[dict[str, Any]], held: Sequence[Sequence[int]]) -> Changes:
    """Every change of height within reach at one support.

    Args:
        shims: height and how many are not in use, as `what_if` gives them.
        held: for each support, how many of each shim its stack could give; the others' may be put here.
    """
    found: dict[float, list[Way]] = defaultdict(list)
    ranges = []
    for k, shim in enumerate(shims):
        own = held[support][k]
        spare = shim["count"] + sum(one[k] for one in held) - own
        ranges.append(range(-min(own, MOST_PIECES), min(spare, MOST_PIECES) + 1))
    for counts in product(*ranges):
        if sum(map(abs, counts)) <= MOST_PIECES:
            change = round(sum(n * shim["height_mm"] for n, shim in zip(counts, shims, strict=True)), 6)
            if abs(change) <= MOST_MM:
                found[change].append(Way(change, counts))
    return [sorted(found[change], key=lambda way: (way.pieces, way.counts)) for change in sorted(found)]


def stocked(options: Sequence[Sequence[Way]], stock: Sequence[int]) -> tuple[Way, ...] | None:
    """The choice of one way a support with the fewest pieces that what is left allows; None if there is none.

    What is taken out at one support can be put under another.
    """
    best: tuple[Way, ...] | None = None
    for ways in product(*options):
        used = [sum(way.counts[k] for way in ways) for k in range(len(stock))]
        if all(n <= have for n, have in zip(used, stock, strict=True)) and (
            best is None or sum(way.pieces for way in ways) < sum(way.pieces for way in best)
        ):
            best = ways
    return best
