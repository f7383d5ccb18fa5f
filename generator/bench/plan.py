"""What a bench plan says: supports, weights, clamps, the curve that comes of them, and what is missing."""

from dataclasses import dataclass
from typing import Literal

import numpy as np

from generator.bench.assembly import ClampPair
from generator.bench.heights import Placed
from generator.bench.missing_piece import MissingPiece
from generator.bench.release import Released, Route
from generator.bench.setting import Bench
from generator.bench.stacks import Stack
from generator.bench.tip_rule import Inboard
from generator.quantities import Floats


@dataclass(frozen=True, slots=True)
class Part:
    """So many of one thing in a stack."""

    name: str
    kind: str
    height_mm: float
    width_mm: float
    count: int


@dataclass(frozen=True, slots=True)
class Support:
    """One support of the bench.

    Attributes:
        name: "tail tip", "middle 1", …, "nose tip".
        planned_x_mm: where its touching edge goes.
        centre_x_mm: middle of its top; past a tip it is below 0 or above the length.
        touch_x_mm: where the board really bears on it.
        edge: "nose side", "tail side" or "middle": what of its top touches.
        wanted_mm: planned height of its top above the level line.
        top_mm: height of the top above the level line as piled.
        reading_mm: the table's reading there; the stack stands on the table, so it is top minus reading high.
        stack: None where nothing in the house fits.
        parts: the same from the bottom up, in words.
        load_n, load_low_n, load_high_n: what it carries; the least and most over the stiffness range.
        takes_n: what its stack takes, at twofold safety (0 without a stack).
        lifts_off: the board does not bear on it.
        effect_mm: greatest change of the curve for 1 mm more here.
    """

    name: str
    planned_x_mm: float
    centre_x_mm: float
    top_width_mm: float
    touch_x_mm: float
    edge: str
    wanted_mm: float
    top_mm: float
    reading_mm: float
    stack: Stack | None
    parts: tuple[Part, ...]
    load_n: float
    load_low_n: float
    load_high_n: float
    takes_n: float
    lifts_off: bool
    effect_mm: float

    @property
    def stack_height_mm(self) -> float:
        """What has to stand on the table here."""
        return self.top_mm - self.reading_mm

    @property
    def error_mm(self) -> float:
        """Top as piled minus planned."""
        return self.top_mm - self.wanted_mm

    @property
    def over_limit(self) -> bool:
        """Whether it carries more than its stack takes at twofold safety."""
        return self.stack is not None and self.load_n > self.takes_n

    @property
    def crossbar(self) -> bool:
        return any(part.kind == "crossbar" for part in self.parts)


@dataclass(frozen=True, slots=True, eq=False)
class Curves:
    """Bottom curves at the same stations, all in the rocker's own level (see `BenchPlan.line_mm`), mm.

    Attributes:
        x_mm: (s,) stations.
        wanted_mm: what the board shall keep.
        aim_mm: the same set over by what it will lose: what the bench shall give.
        clamped_mm: on the bench with clamps and weights on, at the middle stiffness.
        low_mm, high_mm: the same bench with the softest and the stiffest board.
        bare_mm: before any clamp or weight is on.
        after_mm, after_low_mm, after_high_mm: what the board keeps, each laid over the wanted curve as closely as it
            will go.
        from_line_mm: the clamped curve above the level line.
    """

    x_mm: Floats
    wanted_mm: Floats
    aim_mm: Floats
    clamped_mm: Floats
    low_mm: Floats
    high_mm: Floats
    bare_mm: Floats
    after_mm: Floats
    after_low_mm: Floats
    after_high_mm: Floats
    from_line_mm: Floats

    def at(self, x_mm: float, heights_mm: Floats) -> float:
        """One of the curves at a place, straight between stations."""
        return float(np.interp(x_mm, self.x_mm, heights_mm))


@dataclass(frozen=True, slots=True)
class Clearance:
    """Room for one pair of clamps between the bottom and the table."""

    rib: int
    x_mm: float
    room_mm: float
    hang_mm: float
    past_edge: bool

    @property
    def clears(self) -> bool:
        return self.past_edge or self.room_mm >= self.hang_mm


@dataclass(frozen=True, slots=True)
class OtherWay:
    """The bench that the other way of letting the board go would take, as planned (not piled).

    Attributes:
        reached: it could be planned within the goal.
        deviation_mm: what it would keep, at worst from the wanted curve.
        mass_kg: weights that it takes.
        tail_mm, nose_mm: rise of the tips on that bench.
    """

    route: Route
    reached: bool
    deviation_mm: float
    mass_kg: float
    tail_mm: float
    nose_mm: float


Change = Literal["keep", "piece", "weight", "cut", "cut and weight"]


@dataclass(frozen=True, slots=True)
class Cure:
    """The one change with which this bench reaches the wanted rocker.

    Attributes:
        change: "keep" the board on the bench until the top panel is on; a "piece" for a stack; more "weight"; a frame
            "cut" to the rocker; both of these.
        placed: the weights that have to be found, and where they then lie.
        instead: for a "cut": the weights that would do it with the frame as it is; empty if none would.
        pieces: for a "piece": what has to be found, one thing a support, and how high it may be.
        deviation_mm: what the mended bench misses at worst.
    """

    change: Change
    placed: tuple[Placed, ...] = ()
    instead: tuple[Placed, ...] = ()
    pieces: tuple[MissingPiece, ...] = ()
    deviation_mm: float = 0.0


@dataclass(frozen=True, slots=True, eq=False)
class BenchPlan:
    """The whole bench, solved on the heights that were really piled.

    Attributes:
        bench: what it tells of.
        route, best_route: when the board comes off the bench as planned, and as the sums would have it.
        base_mm, tilt_mm, shift_mm, turn_mm: a height in the rocker's own level is above the level line by
            `line_mm(x)` = base + shift + (tilt + turn) · x/length. Base and tilt were chosen for the stacks; shift and
            turn are the rigid part of the stacks' errors, which changes no curve.
        deviation_mm, deviation_x_mm: worst distance of what is kept from the wanted rocker, with its sign (above is
            positive).
        planned_mm: the same before stacks were piled.
        deviation_low_mm, deviation_high_mm: the same at the softest and the stiffest board.
        band_mm: greatest distance between what any two boards keep: soft, stiff, or with only one part soft or stiff. A
            frame cut to the rocker keeps its curve if both parts are soft, and not if only one is.
        band_frame_mm, band_panel_mm: the same if only the frame's stiffness, or only the panel's, were in doubt.
        least_curvature_per_mm, inverted, hollow_mm, hollow_x_mm: the bottom as a straight edge of 600 mm sees it.
        effect_mm, effect_ribs_mm: greatest change of the curve, and of it at any rib, if every support is 1 mm out,
            each the worst way.
        sure_n: least load on a middle support over the whole range of stiffness, as planned.
        reached: within the goal, nothing inverted, every support bears and is piled, none is overloaded.
        cure: the one change that would reach it; None if it is reached or no change that was tried would do.
        missing_mm: (n,) height a support's stack would need where the stock has none, else 0.
        allowed_mm: error in a stack's height that had to be allowed.
        stacks_proven: nothing better can be piled from the stock.
        after_low, after, after_high: what becomes of the board by each way on, at the low, middle and high stiffness.
        other: the bench for the other way; None where no state of the board bears on it.
        inboard: end supports 50, 100 and 200 mm in from the tips.
        table_load_kg: board, clamps, weights and stacks.
        table_short_mm: how much longer the row of supports is than the table (0 if it fits).
    """

    bench: Bench
    supports: tuple[Support, ...]
    placed: tuple[Placed, ...]
    clamps: tuple[ClampPair, ...]
    clearances: tuple[Clearance, ...]
    curves: Curves
    route: Route
    best_route: Route
    base_mm: float
    tilt_mm: float
    shift_mm: float
    turn_mm: float
    deviation_mm: float
    deviation_x_mm: float
    planned_mm: float
    deviation_low_mm: float
    deviation_high_mm: float
    band_mm: float
    band_frame_mm: float
    band_panel_mm: float
    least_curvature_per_mm: float
    least_curvature_x_mm: float
    inverted: tuple[tuple[float, float], ...]
    hollow_mm: float
    hollow_x_mm: float
    effect_mm: float
    effect_ribs_mm: float
    sure_n: float
    reached: bool
    cure: Cure | None
    missing_mm: Floats
    allowed_mm: float
    stacks_proven: bool
    after_low: Released
    after: Released
    after_high: Released
    other: OtherWay | None
    inboard: tuple[Inboard, ...]
    table_load_kg: float
    table_short_mm: float

    def line_mm(self, x_mm: float, length_mm: float) -> float:
        """Height above the level line, at x, of what is 0 in the rocker's own level."""
        return self.base_mm + self.shift_mm + (self.tilt_mm + self.turn_mm) * x_mm / length_mm

    @property
    def stacks_fit(self) -> bool:
        """Every support could be piled from what there is, within a millimetre."""
        return self.allowed_mm <= 1.0 and all(s.stack is not None for s in self.supports)
