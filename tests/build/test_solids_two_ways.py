"""Volume, area and centre of board and parts, by sections and by triangles.

The one way is `generator.board.shape` and `generator.build.solids`: areas of cross-sections, added up along the board.
The other is here: a net of triangles over each solid, built from the outline, thickness, crown and rocker functions
alone, and measured by trimesh (divergence theorem over the faces). The two share the shape that is meant, and none of
the sums. They must agree within half a per cent; both nets are fine enough for a tenth of that.
"""

from pathlib import Path

import numpy as np
import pytest
import trimesh
from shapely import Polygon

from generator.board.body import make_body
from generator.build.floating import hull_of
from generator.build.solids import (
    blocks,
    bottom_panel,
    edge_strips,
    rails,
    ribs,
    spine,
    surface_area_mm2,
    top_panel,
)
from generator.inputs.site import read_builder

DATA = Path(__file__).resolve().parents[2] / "site_data"
HALF_PER_CENT = 0.005
ALONG, AROUND = 500, 161


@pytest.fixture(scope="module", params=["mara", "tobin", "ines"], ids=["Dunlin", "Heron", "Teal"])
def body(request):
    read = read_builder(DATA, request.param)
    return make_body(read.board, rocker=read.board.rocker, trace_margin=read.maker.defaults.trace_margin)


def closed(lower, upper):
    """The solid between two nets (n, m, 3) of the same plan, walled in along their four rims."""
    n, m, _ = lower.shape
    at = np.arange(n * m).reshape(n, m)

    def sheet(ids):
        a, b, c, d = ids[:-1, :-1], ids[1:, :-1], ids[1:, 1:], ids[:-1, 1:]
        corners = (np.stack((a, b, c), -1).reshape(-1, 3), np.stack((a, c, d), -1).reshape(-1, 3))
        return np.vstack(corners)

    over = at + n * m
    faces = [sheet(at)[:, ::-1], sheet(over)]
    # round the upper sheet against the clock, seen from above
    rims = (at[:, 0], at[-1, :], at[::-1, -1], at[0, ::-1])
    for rim in rims:
        p, q = rim[:-1], rim[1:]
        faces += [np.stack((q + n * m, p + n * m, p), -1), np.stack((q + n * m, p, q), -1)]
    points = np.vstack((lower.reshape(-1, 3), upper.reshape(-1, 3)))
    return trimesh.Trimesh(points, np.vstack(faces), process=False)


def places(body, count=ALONG):
    """From tip to tip, closer near the tips, leaving out the last hundredth of a millimetre of a tip without width."""
    share = (1 - np.cos(np.linspace(0, np.pi, count + 1))) / 2
    return 0.01 + share * (body.length_mm - 0.02)


def grid(x, half, across):
    """Plan of a symmetric thing: (n, m) places and offsets; offsets crowd at the rim."""
    y = half[:, None] * np.sin(np.linspace(-np.pi / 2, np.pi / 2, across))
    return np.broadcast_to(x[:, None], y.shape), y


def outside(body, x, y):
    """Heights of underside and upper side over the centre line's bottom, worked out anew from what is meant.

    The deck falls by the crown times (y / half width)². Over the outermost `rail` of the width the thickness shrinks as
    the height of an ellipse, about its own middle; and over the last `rail` before a tip that is not square, too.
    """
    rail = body.board.rail_mm
    half = body.finished.half_width_mm(x)
    deck = body.finished_thickness_mm(x) - body.crown_mm(x) * (np.abs(y) / half) ** 2
    wide = np.minimum(rail, half)
    from_rim = np.clip((half - np.abs(y)) / wide, 0, 1)
    left = np.sqrt(from_rim * (2 - from_rim))
    for shape, way in ((body.board.tail, x), (body.board.nose, body.length_mm - x)):
        if shape != "square":
            ahead = np.clip(way / rail, 0, 1)
            left = left * np.sqrt(ahead * (2 - ahead))
    return deck * (1 - left) / 2, deck * (1 + left) / 2


def board_mesh(body, along=ALONG, around=AROUND):
    x, y = grid(places(body, along), body.finished.half_width_mm(places(body, along)), around)
    low = body.rocker.height_mm(x)
    under, top = outside(body, x, y)
    return closed(np.stack((x, y, low + under), -1), np.stack((x, y, low + top), -1))


@pytest.fixture(scope="module")
def mesh(body):
    return board_mesh(body)


def test_the_net_is_closed_and_fine_enough(body, mesh):
    assert mesh.is_watertight
    coarse = board_mesh(body, ALONG // 2, (AROUND + 1) // 2)
    assert coarse.volume == pytest.approx(mesh.volume, rel=HALF_PER_CENT / 5)
    assert coarse.area == pytest.approx(mesh.area, rel=HALF_PER_CENT / 5)


def test_the_finished_board_s_volume(body, mesh):
    assert body.volume_l == pytest.approx(mesh.volume / 1e6, rel=HALF_PER_CENT)
    assert hull_of(body).litres == pytest.approx(mesh.volume / 1e6, rel=HALF_PER_CENT)


def test_the_middle_of_the_finished_board_s_volume(body, mesh):
    litres, middle = hull_of(body).wet(1e6)
    assert litres == pytest.approx(mesh.volume / 1e6, rel=HALF_PER_CENT)
    assert middle == pytest.approx(mesh.center_mass[0], abs=HALF_PER_CENT * body.length_mm)


def test_the_area_of_the_outside(body, mesh):
    assert surface_area_mm2(body) == pytest.approx(mesh.area, rel=HALF_PER_CENT)


def test_the_area_seen_from_above(body, mesh):
    x = places(body)
    half = body.finished.half_width_mm(x)
    around = Polygon(np.vstack((np.column_stack((x, half)), np.column_stack((x, -half))[::-1])))
    assert body.finished_area_mm2 == pytest.approx(around.area, rel=HALF_PER_CENT)
    facing_up = mesh.face_normals[:, 2] > 0
    assert np.sum(mesh.area_faces[facing_up] * mesh.face_normals[facing_up, 2]) == pytest.approx(
        body.finished_area_mm2, rel=HALF_PER_CENT
    )


def test_what_is_under_water_at_several_levels(body, mesh):
    hull = hull_of(body)
    for level in (10.0, 25.0, 45.0, 70.0):
        cut = mesh.slice_plane([0, 0, level], [0, 0, -1], cap=False)
        # the open cut lies at the level, so its own part of the flux is that of a flat lid: none, counted from there
        cut.apply_translation([0, 0, -level])
        below = np.sum(cut.triangles_center[:, 2] * cut.face_normals[:, 2] * cut.area_faces) / 1e6
        assert hull.wet(level)[0] == pytest.approx(below, rel=HALF_PER_CENT), level


def panel_mesh(body, on_top):
    """A sheet of even thickness along its own normals, as wide as the frame."""
    x, y = grid(places(body), body.frame.half_width_mm(places(body)), 61)

    def points(at_x, at_y):
        low = body.rocker.height_mm(at_x)
        if not on_top:
            return np.stack((at_x, at_y, low), -1)
        half = np.maximum(body.finished.half_width_mm(at_x), 1e-9)
        deck = body.finished_thickness_mm(at_x) - body.crown_mm(at_x) * (at_y / half) ** 2
        return np.stack((at_x, at_y, low + deck), -1)

    face = points(x, y)
    step = 0.005
    along = points(x + step, y) - points(x - step, y)
    across = points(x, y + step) - points(x, y - step)
    normal = np.cross(along, across)
    normal /= np.linalg.norm(normal, axis=-1, keepdims=True)
    other = face + (-1 if on_top else 1) * body.panel_mm * normal
    return closed(other, face) if on_top else closed(face, other)


@pytest.mark.parametrize("on_top", [False, True])
def test_each_panel(body, on_top):
    sheet, solid = panel_mesh(body, on_top), (top_panel if on_top else bottom_panel)(body)
    assert sheet.is_watertight
    assert solid.mm3 == pytest.approx(sheet.volume, rel=HALF_PER_CENT)
    assert solid.from_tail_mm == pytest.approx(sheet.center_mass[0], abs=HALF_PER_CENT * body.length_mm)
    density = body.board.panel.density_kg_m3
    assert solid.kg == pytest.approx(sheet.volume * 1e-9 * density, rel=HALF_PER_CENT)


def test_the_rails(body):
    x = places(body)
    inner, outer = body.frame.half_width_mm(x), body.finished.half_width_mm(x)
    share = np.sin(np.linspace(0, np.pi / 2, 81))
    y = inner[:, None] + (outer - inner)[:, None] * share
    at = np.broadcast_to(x[:, None], y.shape)
    under, top = outside(body, at, np.minimum(y, outer[:, None]))
    one = closed(np.stack((at, y, under), -1), np.stack((at, y, top), -1))
    solid = rails(body)
    assert solid.mm3 == pytest.approx(2 * one.volume, rel=HALF_PER_CENT)
    assert solid.from_tail_mm == pytest.approx(one.center_mass[0], abs=HALF_PER_CENT * body.length_mm)


def test_the_spine(body):
    x = np.linspace(0, body.length_mm, 2001)
    depth = body.spine_depth_mm(x)
    half = body.board.spine.thickness_mm / 2
    at, y = np.broadcast_to(x[:, None], (x.size, 2)), np.broadcast_to([-half, half], (x.size, 2))
    whole = closed(np.stack((at, y, 0 * at), -1), np.stack((at, y, depth[:, None] + 0 * at), -1))
    slots = [
        trimesh.creation.box(
            (body.board.slots.width_mm, 2 * half, rib.depth_mm * body.board.slots.share_of_depth),
            trimesh.transformations.translation_matrix((rib.from_tail_mm, 0, 0)),
        )
        for rib in body.ribs
    ]
    volume = whole.volume - sum(slot.volume for slot in slots)
    moment = whole.volume * whole.center_mass[0] - sum(slot.volume * slot.center_mass[0] for slot in slots)
    solid = spine(body)
    assert solid.mm3 == pytest.approx(volume, rel=HALF_PER_CENT)
    assert solid.from_tail_mm == pytest.approx(moment / volume, abs=1.0)
    assert solid.kg == pytest.approx(body.masses.spine_kg, rel=HALF_PER_CENT)


def test_the_ribs(body):
    volume = 0.0
    for rib in body.ribs:
        y = np.linspace(-rib.half_width_mm, rib.half_width_mm, 201)
        deck = rib.depth_mm - (rib.depth_mm - rib.end_depth_mm) * (y / rib.half_width_mm) ** 2
        x = np.array([0.0, body.board.ribs.thickness_mm])
        at, out = np.broadcast_to(x[:, None], (2, y.size)), np.broadcast_to(y, (2, y.size))
        plate = closed(np.stack((at, out, 0 * at), -1), np.stack((at, out, deck + 0 * at), -1))
        slot = (1 - body.board.slots.share_of_depth) * rib.depth_mm * body.board.spine.thickness_mm
        volume += plate.volume - slot * body.board.ribs.thickness_mm
    assert ribs(body).mm3 == pytest.approx(volume, rel=HALF_PER_CENT)
    assert ribs(body).kg == pytest.approx(body.masses.ribs_kg, rel=HALF_PER_CENT)


def test_the_edge_strips(body):
    x = places(body, 1500)
    line = np.column_stack((x, body.frame.half_width_mm(x)))
    way = np.gradient(line, axis=0)
    aside = np.column_stack((-way[:, 1], way[:, 0])) / np.linalg.norm(way, axis=1, keepdims=True)
    outer = line + aside * body.board.edge_strip.thickness_mm / 2
    inner = line - aside * body.board.edge_strip.thickness_mm / 2
    plan = np.stack((inner, outer), axis=1)
    high = np.broadcast_to(body.strip_height_mm(x)[:, None], plan.shape[:2])
    strip = closed(np.dstack((plan, 0 * high)), np.dstack((plan, high)))
    assert edge_strips(body).mm3 == pytest.approx(2 * strip.volume, rel=HALF_PER_CENT)
    assert edge_strips(body).kg == pytest.approx(body.masses.strips_kg, rel=HALF_PER_CENT)


def test_a_block_beside_the_spine(body):
    block, solid = next(
        (block, solid)
        for block, solid in zip(body.board.blocks, blocks(body), strict=True)
        if abs(block.from_centre_mm) - block.width_mm / 2 > body.board.spine.thickness_mm / 2
    )
    x = np.linspace(block.from_tail_mm, block.from_tail_mm + block.length_mm, 41)
    y = block.from_centre_mm + np.linspace(-block.width_mm / 2, block.width_mm / 2, 41)
    at, out = np.meshgrid(x, y, indexing="ij")
    under, top = outside(body, at, out)
    assert np.all(under == 0)  # so far from the rim nothing is rounded
    made = closed(np.stack((at, out, under + body.panel_mm), -1), np.stack((at, out, top - body.panel_mm), -1))
    assert solid.mm3 == pytest.approx(made.volume, rel=HALF_PER_CENT)
    assert solid.from_tail_mm == pytest.approx(made.center_mass[0], abs=0.5)


def test_all_of_the_inside_is_panels_rails_and_what_lies_between(body, mesh):
    """Panels counted upright, rails and the room between the panels make up the whole board."""
    x, y = grid(places(body), body.frame.half_width_mm(places(body)), AROUND)
    under, top = outside(body, x, y)
    middle = closed(np.stack((x, y, under), -1), np.stack((x, y, top), -1))
    assert middle.volume + rails(body).mm3 == pytest.approx(mesh.volume, rel=HALF_PER_CENT)
