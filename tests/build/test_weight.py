"""What the finished board weighs."""

from pathlib import Path

import pytest

from generator.board.body import make_body
from generator.build.part_mass import PartMass
from generator.build.solids import blocks, bottom_panel, inside_air_litres, rails, surface_area_mm2, wood
from generator.build.weight import DENSITY_SPREAD, all_together, balance_mm, fitting_parts, sheet_kg, wood_parts
from generator.inputs.builder import Measured
from generator.inputs.site import read_builder

DATA = Path(__file__).resolve().parents[2] / "site_data"


def made(slug="mara", *, measured=None, **changes):
    read = read_builder(DATA, slug)
    board = read.board.model_copy(update=changes)
    margin = read.maker.defaults.trace_margin
    return make_body(board, rocker=board.rocker, measured=measured, trace_margin=margin)


def by_name(parts):
    return {part.name: part for part in parts}


def heavier(part, by):
    return part.model_copy(update={"density_kg_m3": part.density_kg_m3 * by})


@pytest.fixture(scope="module")
def body():
    return made()


def test_every_wooden_part_is_there_once(body):
    names = [part.name for part in wood_parts(body)]
    assert len(names) == len(set(names)) == 12
    assert {"bottom panel", "top panel", "spine", "ribs", "edge strips", "rails"} <= set(names)
    assert {f"{holds} block" for holds in ("tail", "leash plug", "fin", "vent", "nose")} <= set(names)
    assert [part.name for part in fitting_parts(body)] == ["fin", "leash plug", "vent"]


@pytest.mark.parametrize("sizes_of", ["frame", "finished"])
def test_a_board_without_rails_has_no_part_that_weighs_nothing(sizes_of):
    parts = wood_parts(made(rail_mm=0.0, sizes_of=sizes_of))
    assert "rails" not in by_name(parts)
    assert all(part.kg for part in parts)
    assert all(0 < balance_mm([part]) < 2300 for part in parts)


@pytest.mark.parametrize("field", ["panel", "spine", "ribs", "edge_strip", "rails"])
def test_a_denser_material_makes_its_own_parts_heavier_and_no_others(body, field):
    before = by_name(wood_parts(body))
    after = by_name(wood_parts(made(**{field: heavier(getattr(body.board, field), 1.2)})))
    names = {"panel": {"bottom panel", "top panel", "sanded off"}, "edge_strip": {"edge strips"}}.get(field, {field})
    for name, part in before.items():
        assert after[name].kg == pytest.approx(part.kg * (1.2 if name in names else 1.0))


def test_all_parts_lie_within_the_board_and_within_their_range(body):
    for part in (*wood_parts(body), *fitting_parts(body)):
        assert part.low_kg <= part.kg <= part.high_kg
        assert 0 < part.from_tail_mm < body.length_mm
        assert (part.kg < 0) == (part.name == "sanded off")


def test_a_given_density_may_be_off_by_a_tenth(body):
    spine = by_name(wood_parts(body))["spine"]
    assert spine.high_kg / spine.kg - 1 == pytest.approx(DENSITY_SPREAD)
    assert spine.high_kg / spine.kg == pytest.approx(1.10)  # Wood Handbook, chapter 5, specific gravity (from memory)


def test_a_weighed_panel_counts_by_its_share_inside_the_frame_and_has_no_range():
    weighed = made(measured=Measured(panel_mass_kg=2.4))
    panel = by_name(wood_parts(weighed))["bottom panel"]
    share = bottom_panel(weighed).mm3 / (weighed.trace.area_mm2 * weighed.panel_mm)
    assert panel.measured
    assert panel.kg == panel.low_kg == panel.high_kg == pytest.approx(2.4 * share)
    assert 0.9 < share < 1
    other = by_name(wood_parts(weighed))["top panel"]
    assert not other.measured
    assert other.low_kg < other.kg < other.high_kg


def test_a_weighed_frame_stands_for_all_its_parts(body):
    parts = by_name(wood_parts(made(measured=Measured(frame_mass_kg=1.3))))
    assert {"spine", "ribs", "edge strips"}.isdisjoint(parts)
    frame = parts["frame"]
    assert (frame.kg, frame.low_kg, frame.high_kg, frame.measured) == (1.3, 1.3, 1.3, True)
    own = [by_name(wood_parts(body))[name] for name in ("spine", "ribs", "edge strips")]
    assert frame.from_tail_mm == pytest.approx(balance_mm(own))


def test_a_weighed_board_weighs_what_the_scales_say(body):
    parts = wood_parts(body)
    whole = all_together(parts, weighed_kg=9.1)
    assert (whole.kg, whole.low_kg, whole.high_kg, whole.measured) == (9.1, 9.1, 9.1, True)
    assert whole.summed_kg == pytest.approx(sum(part.kg for part in parts))
    assert whole.from_tail_mm == pytest.approx(all_together(parts).from_tail_mm)


def test_the_whole_s_range_is_narrower_than_all_lows_and_highs_and_wider_than_any_part_s(body):
    parts = wood_parts(body)
    whole = all_together(parts)
    assert sum(part.low_kg for part in parts) < whole.low_kg < whole.kg < whole.high_kg
    assert whole.high_kg < sum(part.high_kg for part in parts)
    assert whole.high_kg - whole.kg > max(part.high_kg - part.kg for part in parts)
    with pytest.raises(ValueError, match="parts"):
        all_together(())


def test_the_order_of_the_parts_does_not_matter(body):
    parts = wood_parts(body)
    one, other = all_together(parts), all_together(parts[::-1])
    assert one.kg == pytest.approx(other.kg)
    assert one.high_kg == pytest.approx(other.high_kg)


def test_a_heavy_thing_at_the_tail_moves_the_balance_there(body):
    parts = [*wood_parts(body), *fitting_parts(body)]
    assert balance_mm([*parts, PartMass("ballast", 1, 1, 1, 0)]) < balance_mm(parts)


def test_a_block_across_the_spine_loses_the_spine_s_place_and_one_beside_it_nothing(body):
    own = dict(zip([block.holds for block in body.board.blocks], zip(body.board.blocks, blocks(body), strict=True),
                   strict=True))  # fmt: skip
    thin = made(spine=body.board.spine.model_copy(update={"thickness_mm": body.board.spine.thickness_mm + 2}))
    thinner = {solid.name: solid.mm3 for solid in blocks(thin)}
    fin, solid = own["fin"]
    assert solid.mm3 - thinner["fin block"] == pytest.approx(
        solid.mm3 * 2 / (fin.width_mm - body.board.spine.thickness_mm), rel=0.02
    )
    assert thinner["vent block"] == pytest.approx(own["vent"][1].mm3)


def test_a_block_is_cut_to_the_frame():
    wide = made(blocks=tuple(block.model_copy(update={"width_mm": 400.0}) for block in made().board.blocks))
    nose = wide.board.blocks[-1]
    reach = float(wide.frame.half_width_mm(nose.from_tail_mm))
    assert reach < 200  # here the frame is narrower than the block as typed
    assert blocks(wide)[-1].mm3 < 2 * reach * nose.length_mm * float(wide.spine_depth_mm(nose.from_tail_mm))


def test_a_rib_through_a_block_takes_its_place(body):
    fin = next(block for block in body.board.blocks if block.holds == "fin")
    places = [rib for rib in body.board.ribs.from_tail_mm if not fin.from_tail_mm < rib < fin.from_tail_mm + 198]
    inside = sorted([*places, fin.from_tail_mm + 99.0])
    through = made(ribs=body.board.ribs.model_copy(update={"from_tail_mm": tuple(inside)}))
    before, after = (next(s for s in blocks(one) if s.name == "fin block") for one in (body, through))
    assert 1 - after.mm3 / before.mm3 == pytest.approx(5 / 198, rel=0.1)


def test_without_rails_there_is_no_mass_in_them():
    bare = made(rail_mm=0.0)
    assert rails(bare).mm3 == 0
    assert surface_area_mm2(bare) > 2 * bare.finished_area_mm2


def test_the_outside_is_more_than_twice_the_board_seen_from_above(body):
    assert 2 * body.finished_area_mm2 < surface_area_mm2(body) < 2.3 * body.finished_area_mm2


def test_wood_and_air_fill_the_board(body):
    """Panels, frame, rails, blocks and the air between: the whole volume, but for the panels' slant at the tips."""
    solid = sum(part.mm3 for part in wood(body)) / 1e6
    assert solid + inside_air_litres(body) == pytest.approx(body.volume_l, rel=0.01)
    assert inside_air_litres(body, foam_mm3=5e6) == pytest.approx(inside_air_litres(body) - 5)


def test_a_sheet_without_a_size_is_refused():
    with pytest.raises(ValueError, match="below 0"):
        sheet_kg(area_m2=-1, thickness_mm=6, density_kg_m3=300)
    with pytest.raises(ValueError, match="below 0"):
        sheet_kg(area_m2=1, thickness_mm=float("nan"), density_kg_m3=300)


def test_parts_that_weigh_nothing_balance_half_way_between_them():
    nothing = [PartMass("one", 0.0, 0.0, 0.0, 100.0), PartMass("other", 0.0, 0.0, 0.0, 300.0)]
    assert balance_mm(nothing) == 200.0
    assert all_together(nothing).kg == 0.0
    with pytest.raises(ValueError, match="parts"):
        balance_mm([])
