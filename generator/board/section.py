"""How stiff the board is along its length: panel, frame, both loose on each other, both glued."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike

from generator.board.body import Body
from generator.board.sag import Scale, drop_mm, measured_scale
from generator.inputs.board import Spread
from generator.inputs.builder import Measured, Sag
from generator.quantities import Floats, fixed

Which = Literal["low", "value", "high"]
SagPart = Literal["frame", "panel"]

REACH_PER_DEPTH = 0.82
PIECES = 40
PANEL_WORKS: dict[Which, float] = {"low": 0.25, "value": 0.5, "high": 1.0}
"""Share of the panels' width that works once the board is closed. Assumed, and a wide guess: of a board that stays on
the bench until the top panel is on, it moves what is kept by 1 to 3 mm."""


@dataclass(frozen=True, slots=True, eq=False)
class Stiffness:
    """E·I, N·mm², at places along the board; all arrays have the places' shape.

    `unglued` is panel and frame bent together, free to slide on each other; `glued` is one panel glued under the frame,
    `closed` the frame between both panels.
    """

    panel_n_mm2: Floats
    frame_n_mm2: Floats
    glued_n_mm2: Floats
    closed_n_mm2: Floats
    slot_factor: Floats

    @property
    def unglued_n_mm2(self) -> Floats:
        """Panel and frame side by side."""
        return np.asarray(self.panel_n_mm2 + self.frame_n_mm2)

    @property
    def frame_share(self) -> Floats:
        """The frame's share of the loose pair's stiffness, 0 to 1."""
        return np.asarray(self.frame_n_mm2 / self.unglued_n_mm2)


@dataclass(frozen=True, slots=True, eq=False)
class Sections:
    """Pieces along the board for the bench: stiffness constant in each, weight and free curvature linear.

    `breaks_mm` is (n + 1,), the rest (n,). Loads are those of frame and bottom panel, `panel_load` those of one panel.
    Free curvature is what frame and panel, bent together loose, would have with nothing on them; the panel alone is
    flat.
    """

    breaks_mm: Floats
    panel_n_mm2: Floats
    frame_n_mm2: Floats
    unglued_n_mm2: Floats
    glued_n_mm2: Floats
    closed_n_mm2: Floats
    slot_factor: Floats
    free_curvature_start_per_mm: Floats
    free_curvature_end_per_mm: Floats
    load_start_n_mm: Floats
    load_end_n_mm: Floats
    panel_load_start_n_mm: Floats
    panel_load_end_n_mm: Floats


def slot_factor(depth_mm: ArrayLike, *, pitch_mm: ArrayLike, share_of_depth: float, slot_width_mm: float) -> Floats:
    """Stiffness of a strip with open slots over that of the whole strip: 1 / (1 + (Le/p) · (1/(1 − s)³ − 1)).

    Each slot weakens a length Le = slot width + 0.82 · depth, over which only the uncut share works; compliances add.
    0.82 was fitted to a plane-stress study of our own (strips 40 to 70 mm deep, pitch 150 to 200 mm, slots a third to
    two thirds of the depth); it does not count what a tight glued rib gives back.

    Args:
        depth_mm, pitch_mm: Depth of the strip and distance between slots.
        share_of_depth: 0 to below 1.
    """
    reach = np.minimum(_reach_mm(depth_mm, slot_width_mm) / np.asarray(pitch_mm, dtype=np.float64), 1.0)
    return np.asarray(1 / (1 + reach * (1 / (1 - share_of_depth) ** 3 - 1)))


def glued_stiffness_n_mm2(
    depth_mm: ArrayLike,
    *,
    spine_mpa: float,
    spine_mm: float,
    panel_mpa: float,
    panel_mm: float,
    panel_width_mm: ArrayLike,
    pitch_mm: ArrayLike,
    share_of_depth: float,
    slot_width_mm: float,
    open_to: Literal["top", "bottom"],
    strip_mpa: float = 0.0,
    strip_mm: float = 0.0,
    strip_height_mm: ArrayLike = 0.0,
) -> Floats:
    """E·I of a panel glued under the spine and two edge strips: plane sections, parts weighted by their E.

    At a slot only the spine's uncut part works: the lower one if slots are open to the top, the upper one if they are
    open to the bottom. The two sections share the pitch as in `slot_factor`, and their compliances add. The panel
    works over its whole width (no shear lag). Heights in the section count from the panel's upper face.
    """
    depth = np.asarray(depth_mm, dtype=np.float64)
    width, strip = np.asarray(panel_width_mm, dtype=np.float64), np.asarray(strip_height_mm, dtype=np.float64)
    others = ((panel_mpa * width, -panel_mm, 0.0 * depth), (2 * strip_mpa * strip_mm + 0 * depth, 0.0, strip))
    kept = depth * (1 - share_of_depth)
    low = 0.0 * depth if open_to == "top" else depth - kept
    whole = _layered((*others, (spine_mpa * spine_mm + 0 * depth, 0.0, depth)))
    at_slot = _layered((*others, (spine_mpa * spine_mm + 0 * depth, low, low + kept)))
    reach = np.minimum(_reach_mm(depth, slot_width_mm) / np.asarray(pitch_mm, dtype=np.float64), 1.0)
    return np.asarray(1 / ((1 - reach) / whole + reach / at_slot))


def _reach_mm(depth_mm: ArrayLike, slot_width_mm: float) -> Floats:
    """Length that one slot weakens."""
    return np.asarray(slot_width_mm + REACH_PER_DEPTH * np.asarray(depth_mm, dtype=np.float64))


def _layered(parts: tuple[tuple[ArrayLike, ArrayLike, ArrayLike], ...]) -> Floats:
    """E·I about the common neutral line of upright parts (E × width, lower edge, upper edge)."""
    area: Floats = np.asarray(0.0)
    first: Floats = np.asarray(0.0)
    second: Floats = np.asarray(0.0)
    for per_mm, low, high in parts:
        e, a, b = (np.asarray(value, dtype=np.float64) for value in (per_mm, low, high))
        area = area + e * (b - a)
        first = first + e * (b**2 - a**2) / 2
        second = second + e * (b**3 - a**3) / 3
    return np.asarray(second - first**2 / area)


def rib_pitch_mm(x_mm: ArrayLike, *, ribs_mm: ArrayLike, length_mm: float) -> Floats:
    """Distance between the ribs on either side of each place; past the last rib, twice its distance from the tip.

    Twice, since a tip's stretch holds half of one slot's reach, a stretch between two ribs one half from each.
    """
    ribs = np.asarray(ribs_mm, dtype=np.float64)
    gaps = np.concatenate(([2 * ribs[0]], np.diff(ribs), [2 * (length_mm - ribs[-1])]))
    return np.asarray(np.maximum(gaps[np.searchsorted(ribs, np.asarray(x_mm, dtype=np.float64), side="right")], 1e-6))


def closed_stiffness_n_mm2(
    glued_n_mm2: ArrayLike,
    *,
    panel_mpa: float,
    panel_mm: float,
    panel_width_mm: ArrayLike,
    depth_mm: ArrayLike,
    crown_mm: ArrayLike,
    works: float,
) -> Floats:
    """E·I once the top panel is on too: plane sections, two equal panels far apart.

    The deck counts at its mean height, a third of its crown below the centre line. `works` is the share of both
    panels' width that works with the frame: wide thin panels lag behind near the rim, and the frame's own shear gives.
    """
    depth = np.asarray(depth_mm, dtype=np.float64)
    panel = works * panel_mpa * panel_mm * np.asarray(panel_width_mm, dtype=np.float64)
    apart = np.maximum(depth - np.asarray(crown_mm) / 3, 0.0) + panel_mm
    return np.asarray(np.asarray(glued_n_mm2, dtype=np.float64) + panel / 2 * apart**2)


def _pick(spread: Spread, which: Which, scale: Scale | None) -> float:
    """Stiffness at one end of its range; of what was measured, the given one times what was found."""
    return float(getattr(spread, which)) if scale is None else spread.value * float(getattr(scale, which))


def calibrated(body: Body, measured: Measured) -> Body:
    """The same board with its frame and panel as stiff as the builder's sag tests found them."""
    frame, panel = _found(body, "frame", measured.frame_sag), _found(body, "panel", measured.panel_sag)
    return replace(body, frame_scale=frame, panel_scale=panel)


def _found(body: Body, part: SagPart, test: Sag | None) -> Scale | None:
    """What one sag test says of a part."""
    if test is None:
        return None
    given = expected_drop_mm(body, part, apart_mm=test.apart_mm, weight_kg=test.weight_kg)
    return measured_scale(read_mm=test.drop_mm, given_mm=given)


def expected_drop_mm(body: Body, part: SagPart, *, apart_mm: float, weight_kg: float, which: Which = "value") -> float:
    """Drop of the loose frame, or of the panel as glued up and not yet cut, in a sag test, mm."""

    def stiffness(x_mm: Floats) -> Floats:
        if part == "frame":
            return section_at(body, x_mm, which=which).frame_n_mm2
        e_panel = _pick(body.board.panel.stiffness_mpa, which, body.panel_scale)
        width = body.blank.width_mm + body.blank.spare_width_mm
        return fixed(np.full_like(x_mm, e_panel * width * body.panel_mm**3 / 12))

    return drop_mm(stiffness, length_mm=body.length_mm, apart_mm=apart_mm, weight_kg=weight_kg)


def section_at(body: Body, x_mm: ArrayLike, *, which: Which = "value", panel_which: Which | None = None) -> Stiffness:
    """Stiffness at places on the board, all materials at their low, given or high stiffness.

    Args:
        panel_which: that of the panel, if not the same as the frame's; how well the two panels work together is then
            taken as given.
    """
    board = body.board
    panel, spine, strip, slots = board.panel, board.spine, board.edge_strip, board.slots
    x = np.asarray(x_mm, dtype=np.float64)
    depth, strip_height = body.spine_depth_mm(x), body.strip_height_mm(x)
    width = 2 * body.panel_half_width_mm(x)
    pitch = rib_pitch_mm(x, ribs_mm=board.ribs.from_tail_mm, length_mm=body.length_mm)
    share, slot_width = slots.share_of_depth, slots.width_mm
    factor = slot_factor(depth, pitch_mm=pitch, share_of_depth=share, slot_width_mm=slot_width)
    e_panel = _pick(panel.stiffness_mpa, panel_which or which, body.panel_scale)
    e_spine, e_strip = (_pick(one.stiffness_mpa, which, body.frame_scale) for one in (spine, strip))
    alone = factor * e_spine * spine.thickness_mm * depth**3 / 12
    strips = 2 * e_strip * strip.thickness_mm * strip_height**3 / 12
    glued = glued_stiffness_n_mm2(
        depth,
        spine_mpa=e_spine,
        spine_mm=spine.thickness_mm,
        panel_mpa=e_panel,
        panel_mm=body.panel_mm,
        panel_width_mm=width,
        pitch_mm=pitch,
        share_of_depth=share,
        slot_width_mm=slot_width,
        open_to=slots.open_to,
        strip_mpa=e_strip,
        strip_mm=strip.thickness_mm,
        strip_height_mm=strip_height,
    )
    closed = closed_stiffness_n_mm2(
        glued,
        panel_mpa=e_panel,
        panel_mm=body.panel_mm,
        panel_width_mm=width,
        depth_mm=depth,
        crown_mm=body.crown_mm(x),
        works=PANEL_WORKS["value" if panel_which and panel_which != which else which],
    )
    alone_n_mm2 = e_panel * width * body.panel_mm**3 / 12
    return Stiffness(fixed(alone_n_mm2), fixed(alone + strips), fixed(glued), fixed(closed), fixed(factor))


def sections(body: Body, *, which: Which = "value", panel_which: Which | None = None, pieces: int = PIECES) -> Sections:
    """About `pieces` even pieces from tip to tip, broken at every rib too; stiffness is that of each piece's middle."""
    even = np.linspace(0.0, body.length_mm, pieces + 1)
    ribs = np.array([rib.from_tail_mm for rib in body.ribs])
    breaks = _apart(np.concatenate((even, ribs)), body.length_mm)
    at = section_at(body, (breaks[:-1] + breaks[1:]) / 2, which=which, panel_which=panel_which)
    bend, load, panel = (
        body.frame_bottom.curvature_per_mm(breaks),
        body.load.per_mm(breaks),
        body.panel_load.per_mm(breaks),
    )
    return Sections(
        breaks_mm=fixed(breaks),
        panel_n_mm2=at.panel_n_mm2,
        frame_n_mm2=at.frame_n_mm2,
        unglued_n_mm2=fixed(at.unglued_n_mm2),
        glued_n_mm2=at.glued_n_mm2,
        closed_n_mm2=at.closed_n_mm2,
        slot_factor=at.slot_factor,
        free_curvature_start_per_mm=fixed(at.frame_share * bend[:-1]),
        free_curvature_end_per_mm=fixed(at.frame_share * bend[1:]),
        load_start_n_mm=fixed(load[:-1]),
        load_end_n_mm=fixed(load[1:]),
        panel_load_start_n_mm=fixed(panel[:-1]),
        panel_load_end_n_mm=fixed(panel[1:]),
    )


def _apart(places_mm: Floats, length_mm: float) -> Floats:
    """Sorted places without those that all but coincide (a millionth of the length)."""
    ordered = np.unique(places_mm)
    return ordered[np.concatenate(([True], np.diff(ordered) > 1e-6 * length_mm))]
