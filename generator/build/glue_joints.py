"""Every glued joint of the board, stage by stage: how long, how wide, with a film or with beads."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from generator.board.body import Body
from generator.build.bracing import FoamBlock
from generator.build.joints import bottom_joints
from generator.build.rails import rail_layers, rim_height_mm, rim_of
from generator.inputs.board import Block

STAGES = ("panels", "frame", "glue", "inside", "top-deck", "rails")
"""Stages at which something is glued, in order."""

SAMPLES = 61
OVER_MM = 2.0  # common practice: how far a film goes over a narrow edge on each side, on the panel or as squeeze-out
FOAM_LINES = 0.5  # common practice: share of foam's faces that lines of a glue from the bottle come to cover


@dataclass(frozen=True, slots=True)
class Joint:
    """Joints of one kind at one stage.

    `length_mm` is how far they run together, `film_mm2` the area that gets a film of glue, `bead_mm` how long the beads
    are; one of the two is 0. `from_tail_mm` is the middle of them all along the board.
    """

    stage: str
    name: str
    length_mm: float
    film_mm2: float
    bead_mm: float
    from_tail_mm: float


def glue_joints(body: Body, *, beads: bool, foam: Sequence[FoamBlock] = ()) -> tuple[Joint, ...]:
    """All joints of one board.

    Args:
        beads: Whether glue goes on as a bead: into every corner of the bottom after clamping, and as one line along
            the frame's top edges before the top panel is closed. Otherwise both get a film. Everything else is
            closed on a film either way: planks' edges, slots, rib ends, blocks and the layers of the rails.
        foam: Blocks of foam, if any: glued to the bottom and layer on layer inside, and to the top panel with it. A
            glue that goes on as a bead is run over them in lines, which come to cover `FOAM_LINES` of each face.
    """
    share = FOAM_LINES if beads else 1.0
    return (
        *_panels(body), *_frame(body), *_bottom(body, beads), *_blocks(body, "inside"), *_foam(foam, "inside", share),
        *_top(body, beads), *_foam(foam, "top-deck", share), *_rails(body),
    )  # fmt: skip


def _panels(body: Body) -> Iterator[Joint]:
    """The planks' edges and ends, of both panels."""
    blank, middle = body.blank, body.length_mm / 2
    for name, lines, length in (
        ("edges", blank.planks_across - 1, blank.length_mm),
        ("ends", blank.planks_along - 1, blank.width_mm),
    ):
        whole = 2 * lines * length
        if whole:
            yield Joint("panels", name, whole, whole * body.panel_mm, 0.0, middle)


def _frame(body: Body) -> Iterator[Joint]:
    """The walls and floors of the slots, and the ribs' ends on the edge strips."""
    board = body.board
    spine, rib_thick, share = board.spine.thickness_mm, board.ribs.thickness_mm, board.slots.share_of_depth
    middle = _ribs_middle(body)
    walls = sum(2 * rib.depth_mm * (share * spine + (1 - share) * rib_thick + 2 * OVER_MM) for rib in body.ribs)
    depth = sum(2 * rib.depth_mm for rib in body.ribs)
    yield Joint("frame", "slots", depth, walls + len(body.ribs) * spine * rib_thick, 0.0, middle)
    ends = sum(2 * min(float(body.strip_height_mm(rib.from_tail_mm)), rib.end_depth_mm) for rib in body.ribs)
    yield Joint("frame", "rib ends", ends, ends * (rib_thick + 2 * OVER_MM), 0.0, middle)


def _bottom(body: Body, beads: bool) -> Iterator[Joint]:
    yield from _on_the_frame(body, "glue", 2 if beads else 0, 1 if beads else 0)


def _top(body: Body, beads: bool) -> Iterator[Joint]:
    lines = 1 if beads else 0
    yield from _on_the_frame(body, "top-deck", lines, lines)
    yield from _blocks(body, "top-deck")


def _on_the_frame(body: Body, stage: str, lines: int, rim_lines: int) -> Iterator[Joint]:
    """One panel on the frame; `lines` beads along spine and ribs, `rim_lines` along the rim, none for a film.

    A film on so narrow an edge is taken as `OVER_MM` wider on both sides.
    """
    board, lengths, middle = body.board, bottom_joints(body), body.length_mm / 2
    for name, length, thick, count, at in (
        ("rim", lengths.rim_mm, board.edge_strip.thickness_mm, rim_lines, middle),
        ("spine", lengths.spine_mm, board.spine.thickness_mm, lines, middle),
        ("ribs", lengths.ribs_mm, board.ribs.thickness_mm, lines, _ribs_middle(body)),
    ):
        film = 0.0 if count else length * (thick + 2 * OVER_MM)
        yield Joint(stage, name, length, film, count * length, at)


def _foam(foam: Sequence[FoamBlock], stage: str, share: float) -> Iterator[Joint]:
    """Underside and between the layers inside, the upper face with the top panel."""
    faces = [one.layers if stage == "inside" else 1 for one in foam]
    areas = [n * one.place.area_mm2 for n, one in zip(faces, foam, strict=True)]
    if whole := sum(areas):
        length = sum(n * one.place.length_mm for n, one in zip(faces, foam, strict=True))
        middle = sum(a * one.place.middle_mm[0] for a, one in zip(areas, foam, strict=True)) / whole
        yield Joint(stage, "foam", length, share * whole, 0.0, middle)


def _blocks(body: Body, stage: str) -> Iterator[Joint]:
    """The blocks on one panel, no further than the frame reaches."""
    blocks = body.board.blocks
    areas = [_block_area_mm2(body, block) for block in blocks]
    whole = sum(areas)
    middle = sum(a * (b.from_tail_mm + b.length_mm / 2) for a, b in zip(areas, blocks, strict=True)) / whole
    yield Joint(stage, "blocks", sum(block.length_mm for block in blocks), whole, 0.0, middle)


def _block_area_mm2(body: Body, block: Block) -> float:
    end = min(block.from_tail_mm + block.length_mm, body.length_mm)
    x = np.linspace(min(block.from_tail_mm, end), end, SAMPLES)
    reach = body.frame.half_width_mm(x)
    left, right = block.from_centre_mm - block.width_mm / 2, block.from_centre_mm + block.width_mm / 2
    across = np.maximum(np.minimum(right, reach) - np.maximum(left, -reach), 0.0)
    return float(np.trapezoid(across, x))


def rail_side_mm(body: Body) -> float:
    """Length of the longest layer of one rail, 0 where there are no rails."""
    return max((layer.length_mm for layer in rail_layers(body)), default=0.0)


def _rails(body: Body) -> Iterator[Joint]:
    """Every layer of both rails on what lies inside it, as high as the board is there."""
    rim, thick = rim_of(body), body.board.rails.layer_mm
    length = area = moment = 0.0
    for layer in rail_layers(body):
        there = (rim.x_mm >= layer.from_tail_mm) & (rim.x_mm <= layer.to_tail_mm)
        x, along = rim.x_mm[there], rim.along_mm[there]
        high = rim_height_mm(body, x, out_mm=(layer.number - 1) * thick)
        length += 2 * layer.length_mm
        area += 2 * float(np.trapezoid(high, along))
        moment += 2 * float(np.trapezoid(high * x, along))
    if area:
        yield Joint("rails", "layers", length, area, 0.0, moment / area)


def _ribs_middle(body: Body) -> float:
    """Middle of all ribs along the board, by their widths."""
    widths = sum(rib.half_width_mm for rib in body.ribs)
    return sum(rib.from_tail_mm * rib.half_width_mm for rib in body.ribs) / widths
