"""What lies on the bench: panel and frame bent together, unglued, and the clamps that hold them to each other."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike, NDArray

from generator.bench.beam import Beam, PointLoad
from generator.quantities import GRAVITY_M_S2, Floats, fixed


@dataclass(frozen=True, slots=True, eq=False)
class Sections:
    """Panel and frame along the board, in pieces, at one guess of their stiffness.

    Attributes:
        breaks_mm: (n+1,) ends of the pieces, from 0 to the length.
        loose_n_mm2, glued_n_mm2: (n,) E·I of panel and frame side by side, and once they are one.
        panel_n_mm2, closed_n_mm2: (n,) E·I of one panel by itself, and of the frame glued between two.
        load_start_n_mm, load_end_n_mm: (n,) own weight of frame and bottom panel, N per mm.
        panel_load_start_n_mm, panel_load_end_n_mm: (n,) that of one panel.
        free_curvature_start_per_mm, free_curvature_end_per_mm: (n,) curvature of the loose pair with nothing on it:
            the frame's own, times the frame's share of the stiffness, since the panel is flat.
    """

    breaks_mm: Floats
    loose_n_mm2: Floats
    glued_n_mm2: Floats
    panel_n_mm2: Floats
    closed_n_mm2: Floats
    load_start_n_mm: Floats
    load_end_n_mm: Floats
    panel_load_start_n_mm: Floats
    panel_load_end_n_mm: Floats
    free_curvature_start_per_mm: Floats
    free_curvature_end_per_mm: Floats

    def beam(self, point_loads: Sequence[PointLoad] = ()) -> Beam:
        """The loose pair as one beam with loads on it."""
        return Beam(
            float(self.breaks_mm[-1]),
            self.breaks_mm,
            self.loose_n_mm2,
            self.load_start_n_mm,
            self.load_end_n_mm,
            self.free_curvature_start_per_mm,
            self.free_curvature_end_per_mm,
            tuple(point_loads),
        )

    def piece_at(self, x_mm: ArrayLike) -> NDArray[np.intp]:
        """Piece that each x lies in, the right-hand one at a break."""
        at = np.searchsorted(self.breaks_mm, x_mm, side="right") - 1
        return np.asarray(np.clip(at, 0, self.glued_n_mm2.size - 1), dtype=np.intp)

    def after_release(self, point_loads: Sequence[PointLoad] = ()) -> Beam:
        """A beam that takes, on the bench, the shape that the board keeps if it comes off after the bottom panel.

        Off the bench the glued pair has k − M / E·I_glued, with k = M / E·I_loose + k_free. Then the top panel, flat,
        is glued on and pulls it straighter, by its share of their stiffness. All that is linear in M: a beam does it.
        """
        keeps = self.glued_n_mm2 / (self.glued_n_mm2 + self.panel_n_mm2)
        return replace(
            self.beam(point_loads),
            stiffness_n_mm2=1 / (keeps * (1 / self.loose_n_mm2 - 1 / self.glued_n_mm2)),
            free_curvature_start_per_mm=keeps * self.free_curvature_start_per_mm,
            free_curvature_end_per_mm=keeps * self.free_curvature_end_per_mm,
        )

    def scaled(self, factor: float) -> "Sections":
        """The same board with every stiffness times `factor`."""
        names = ("loose_n_mm2", "glued_n_mm2", "panel_n_mm2", "closed_n_mm2")
        return replace(self, **{name: fixed(factor * getattr(self, name)) for name in names})


@dataclass(frozen=True, slots=True, eq=False)
class OnBench:
    """The board as the bench sees it.

    Attributes:
        low, value, high: sections at the low end, the middle and the high end of every stiffness.
        frame_range, panel_range: low and high end of the one, with the other in the middle.
        rib_mm: (r,) rib stations, tail first.
        rib_half_width_mm: (r,) from the centre line to the rim there.
        half_width_mm: from the centre line to the frame's rim at any x.
        rib_grip_mm: (r,) thickness that a rim clamp must span there.
        wanted_mm: wanted height of the bottom at any x, 0 at its lowest point.
        low_point_mm: where that is.
    """

    low: Sections
    value: Sections
    high: Sections
    frame_range: tuple[Sections, Sections]
    panel_range: tuple[Sections, Sections]
    rib_mm: Floats
    rib_half_width_mm: Floats
    rib_grip_mm: Floats
    wanted_mm: Callable[[ArrayLike], Floats]
    half_width_mm: Callable[[ArrayLike], Floats]
    low_point_mm: float

    @property
    def length_mm(self) -> float:
        return float(self.value.breaks_mm[-1])


@dataclass(frozen=True, slots=True)
class ClampKind:
    """One kind of clamp in the house."""

    name: str
    opening_mm: float
    mass_kg: float
    hang_mm: float
    count: int


@dataclass(frozen=True, slots=True)
class ClampPair:
    """Two clamps alike at the two ends of one rib; `rib` counts from 0 at the tail, `order` from 1."""

    order: int
    rib: int
    x_mm: float
    name: str
    mass_kg: float
    hang_mm: float


def place_clamps(board: OnBench, kinds: Sequence[ClampKind]) -> tuple[ClampPair, ...]:
    """Pairs of clamps at the ribs, from the middle outwards as far as they go, in that order.

    Those that hang least come first, since there is least room in the middle. A kind that does not open far enough
    for a rib is passed over there.
    """
    left = [(kind, kind.count // 2) for kind in sorted(kinds, key=lambda k: k.hang_mm)]
    middle = board.length_mm / 2
    pairs: list[ClampPair] = []
    for rib in sorted(range(board.rib_mm.size), key=lambda i: (abs(board.rib_mm[i] - middle), i)):
        for at, (kind, count) in enumerate(left):
            if count and kind.opening_mm >= board.rib_grip_mm[rib]:
                left[at] = (kind, count - 1)
                pairs.append(
                    ClampPair(len(pairs) + 1, rib, float(board.rib_mm[rib]), kind.name, 2 * kind.mass_kg, kind.hang_mm)
                )
                break
    return tuple(pairs)


def clamp_loads(pairs: Sequence[ClampPair]) -> list[PointLoad]:
    """The clamps as loads at their ribs."""
    return [PointLoad(pair.x_mm, pair.mass_kg * GRAVITY_M_S2) for pair in pairs]


@dataclass(frozen=True, slots=True, eq=False)
class TableTop:
    """The table: size, and how far it stands above the level line at some places (the line itself if none)."""

    length_mm: float
    width_mm: float
    reading_x_mm: Floats
    reading_mm: Floats

    def at(self, x_mm: ArrayLike) -> Floats:
        """Reading at each x, straight between those taken; past them the last one holds."""
        x = np.asarray(x_mm, dtype=np.float64)
        if self.reading_x_mm.size == 0:
            return np.zeros_like(x)
        order = np.argsort(self.reading_x_mm, kind="stable")
        return fixed(np.interp(x, self.reading_x_mm[order], self.reading_mm[order]))
