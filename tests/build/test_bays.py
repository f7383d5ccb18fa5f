"""Bays, blocks, foam and air holes of the demo boards: nothing stands in anything else's way."""

import functools
import math

import numpy as np
import pytest
from rail_boards import body_of
from shapely import Polygon, box

from generator.build.bays import LEAST_MM, SIDES, Area, bays, block_area
from generator.build.blocks import HOLE_SHARE, NEAR_RIB_MM, air_holes, solid_blocks
from generator.build.bracing import AT_RIB_MM, AT_RIM_MM, AT_SPINE_MM, brace, cut_block, foam_places, heel
from generator.build.solids import blocks as block_solids
from generator.inputs.board import Block
from generator.inputs.builder import Foam

SLUGS = ("mara", "wen", "ines", "tobin")
FOAM = Foam.model_validate(
    {"name": "offcuts", "kind": "extruded polystyrene", "thickness_mm": 40.0, "density_kg_m3": 33.0}
)
each_board = pytest.mark.parametrize("slug", SLUGS)


@functools.cache
def body(slug):
    return body_of(slug)


@functools.cache
def braced(slug):
    return brace(body(slug), FOAM, tread=heel(80.0), strength_mpa=1.5)


def shape(area: Area, side: str):
    """The area on the board, right of the centre line above 0."""
    way = 1 if side == "right" else -1
    low, high = sorted((way * area.inner_mm, way * area.outer_mm))
    return box(area.tail_mm, low, area.nose_mm, high)


def ribs(slug):
    own = body(slug).board.ribs
    for place in own.from_tail_mm:
        yield box(place - own.thickness_mm / 2, -400, place + own.thickness_mm / 2, 400)


def blocks(slug, side):
    for at in range(len(body(slug).board.blocks)):
        if area := block_area(body(slug), at, side):
            yield shape(area, side)


@each_board
def test_bays_fill_the_frame_between_the_ribs(slug):
    own = body(slug)
    found = bays(own)
    assert len(found) == 2 * (len(own.ribs) + 1)
    along = sum(bay.whole.length_mm for bay in found if bay.side == "left")
    assert along == pytest.approx(own.length_mm - len(own.ribs) * own.board.ribs.thickness_mm)
    for bay in found:
        assert bay.whole.inner_mm == own.board.spine.thickness_mm / 2
        middle = bay.whole.middle_mm[0]
        rim = own.frame.half_width_mm(middle) - own.board.edge_strip.thickness_mm
        assert bay.whole.outer_mm == pytest.approx(max(rim, bay.whole.inner_mm))


@each_board
def test_free_bays_keep_clear_of_ribs_and_blocks(slug):
    for bay in bays(body(slug)):
        if bay.free is None:
            continue
        assert min(bay.free.length_mm, bay.free.width_mm) >= LEAST_MM
        free = shape(bay.free, bay.side)
        assert all(free.intersection(rib).area < 1e-6 for rib in ribs(slug))
        assert all(free.intersection(block).area < 1e-6 for block in blocks(slug, bay.side))


@each_board
def test_foam_stands_inside_the_frame_with_room_for_glue_and_air(slug):
    own = body(slug)
    strip = own.board.edge_strip.thickness_mm
    inside = Polygon(own.frame_line).buffer(-strip)
    assert any(one.block for one in braced(slug))
    for one in braced(slug):
        if one.block is None:
            continue
        for place in (one.block.place, *foam_places(own, one.free)):
            foam = shape(place, one.bay.side)
            assert inside.contains(foam)
            assert (
                foam.distance(inside.boundary) > 0.7 * AT_RIM_MM
            )  # counted square to the centre line, and the rim slants
            assert all(foam.distance(rib) >= AT_RIB_MM - 1e-6 for rib in ribs(slug))
            assert all(foam.distance(block) >= AT_RIB_MM - 1e-6 for block in blocks(slug, one.bay.side))
            assert place.inner_mm - one.free.inner_mm >= AT_SPINE_MM - 1e-6


@each_board
def test_no_block_covers_an_air_hole_and_no_hole_takes_too_much_of_a_rib(slug):
    own = body(slug)
    half = own.board.ribs.thickness_mm / 2
    holes = air_holes(own)
    assert [hole.rib for hole in holes] == [rib.number for rib in own.ribs]
    for hole, rib in zip(holes, own.ribs, strict=True):
        assert 0 < hole.share <= HOLE_SHARE
        at = own.board.spine.thickness_mm / 2 + hole.from_spine_mm
        assert at + hole.hole_mm / 2 < rib.half_width_mm - own.board.edge_strip.thickness_mm
        for side, way in (("left", -1), ("right", 1)):
            y = way * at
            front = box(
                rib.from_tail_mm - half - NEAR_RIB_MM, y - hole.hole_mm / 2, rib.from_tail_mm + half + NEAR_RIB_MM,
                y + hole.hole_mm / 2,
            )  # fmt: skip
            assert all(front.intersection(block).area == 0 for block in blocks(slug, side))


@each_board
def test_foam_blocks_fill_the_depth_they_stand_in(slug):
    """The volume by a fine net of depths, which knows nothing of corners and middles."""
    own = body(slug)
    for one in braced(slug):
        if one.block is None:
            continue
        place, n = one.block.place, 60
        x = place.tail_mm + (np.arange(n) + 0.5) / n * place.length_mm
        y = place.inner_mm + (np.arange(n) + 0.5) / n * place.width_mm
        depth = own.inside_depth_mm(x[:, None], y)
        assert one.block.volume_mm3 == pytest.approx(depth.mean() * place.area_mm2, rel=0.005)
        assert one.block.kg == pytest.approx(one.block.volume_mm3 * FOAM.density_kg_m3 * 1e-9)
        assert one.block.least_depth_mm - 0.5 <= depth.min() <= depth.max() <= one.block.depth_mm + 0.5
        assert one.block.layers == math.ceil(one.block.depth_mm / FOAM.thickness_mm)


@each_board
def test_pieces_of_the_blocks_weigh_what_the_blocks_do(slug):
    """Against the volumes that the board's weight is added up from; tip blocks lose their outer corners there."""
    whole = {solid.name: solid.kg for solid in block_solids(body(slug))}
    for block in solid_blocks(body(slug)):
        kg = whole[f"{block.holds} block"]
        if block.holds in {"tail", "nose"}:
            assert block.kg >= 0.99 * kg
        else:
            assert block.kg == pytest.approx(kg, rel=0.05)
        for piece in block.pieces:
            assert piece.depth_mm == max(piece.depths_mm)
            fall = math.tan(math.radians(piece.bevel_along_deg)) * piece.place.length_mm
            assert piece.nose_inner_mm == pytest.approx(piece.tail_inner_mm - fall)


def test_a_block_on_one_side_narrows_the_bay_on_that_side_only():
    vent = next(block for block in body("mara").board.blocks if block.holds == "vent")
    number = next(bay.number for bay in bays(body("mara")) if bay.whole.tail_mm < vent.from_tail_mm < bay.whole.nose_mm)
    free = {bay.side: bay.free for bay in bays(body("mara")) if bay.number == number}
    assert free["left"].width_mm > free["right"].width_mm
    assert free["right"].inner_mm == vent.from_centre_mm + vent.width_mm / 2
    mirrored = body_of("mara", blocks=tuple(
        block.model_copy(update={"from_centre_mm": -block.from_centre_mm}) for block in body("mara").board.blocks
    ))  # fmt: skip
    other = {bay.side: bay.free for bay in bays(mirrored) if bay.number == number}
    assert (other["left"], other["right"]) == (free["right"], free["left"])


def test_a_block_across_a_whole_bay_leaves_nothing_to_brace():
    own = body("mara")
    start, end = own.board.ribs.from_tail_mm[4] + 3, own.board.ribs.from_tail_mm[5] - 3
    big = Block(holds="fin", from_tail=start, length=end - start, width=400, density=430)
    others = tuple(block for block in own.board.blocks if block.holds != "fin")
    full = body_of("mara", blocks=(*others, big))
    free = {(bay.number, bay.side): bay.free for bay in bays(full)}
    assert all(free[6, side] is None or free[6, side].inner_mm >= 200 for side in SIDES)


def test_foam_in_a_block_of_known_size():
    """A slab with level sides: volume is length × width × depth."""
    own = body_of("mara", thickness=tuple(
        station.model_copy(update={"thickness_mm": 62.0, "crown_mm": 0.0}) for station in body("mara").board.thickness
    ))  # fmt: skip
    block = cut_block(own, Area(900.0, 1080.0, 40.0, 140.0), FOAM)
    assert block.volume_mm3 == pytest.approx(180 * 100 * 50)
    assert (block.depth_mm, block.least_depth_mm, block.layers) == (pytest.approx(50), pytest.approx(50), 2)
