"""The top panel over the crown."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from rail_boards import body_of, inputs_of

from generator.build.crown import (
    SAFETY,
    arc_radius_mm,
    deck_height_mm,
    deck_length_mm,
    least_radius_mm,
    rim_force_n_mm,
    rolled,
    saddle,
    surface_strain,
    verdict_of,
    worst_of,
    wrap_extra_mm,
)
from generator.timber.across import across_grain

GAP = 0.5


def across(slug="mara", **changes):
    read = inputs_of(slug)
    species = read.species if not changes else replaced(read.species, **changes)
    panel = read.board.panel
    return across_grain(species, along_mpa=panel.stiffness_mpa.value, density_kg_m3=panel.density_kg_m3)


def replaced(species, **changes):
    import dataclasses

    return dataclasses.replace(species, **changes)


def places(slug="mara", **changes):
    return rolled(body_of(slug, **changes), across(slug), gap_mm=GAP)


def flat_thickness(slug="mara"):
    return tuple(one.model_copy(update={"crown_mm": 0.0}) for one in inputs_of(slug).board.thickness)


def test_every_rib_is_rolled_over_the_arc_through_its_middle_and_its_ends():
    body = body_of()
    for rib, place in zip(body.ribs, places(), strict=True):
        below = place.radius_mm - math.sqrt(place.radius_mm**2 - rib.half_width_mm**2)
        assert below == pytest.approx(rib.depth_mm - rib.end_depth_mm, rel=1e-9)


def test_a_flat_deck_is_not_bent():
    for place in places(thickness=flat_thickness()):
        assert (place.radius_mm, place.strain, place.force_n_mm) == (None, 0, 0)
        assert verdict_of(place.strain, across()) == "easy"
    body = body_of(thickness=flat_thickness())
    assert wrap_extra_mm(half_width_mm=200, drop_mm=body.ribs[3].depth_mm - body.ribs[3].end_depth_mm) == 0


@settings(deadline=None, max_examples=30)
@given(thin=st.floats(3, 8), more=st.floats(0.1, 4))
def test_a_thicker_panel_is_never_stretched_less(thin, more):
    for one, other in zip(places(panel_mm=thin), places(panel_mm=thin + more), strict=True):
        assert other.strain > one.strain
        assert other.force_n_mm > one.force_n_mm


def test_a_measured_thickness_counts():
    assert worst_of(places(panel_mm=3.0)).strain == pytest.approx(worst_of(places()).strain / 2)


def test_the_worst_place_is_the_tightest():
    all_of = places()
    assert worst_of(all_of).radius_mm == min(place.radius_mm for place in all_of)


def test_the_verdict_changes_at_the_limit_and_at_the_limit_over_the_safety():
    wood = across()
    limit = wood.limit_strain[1]
    told = [verdict_of(limit * share, wood) for share in (0, 0.999 / SAFETY, 1.001 / SAFETY, 0.999, 1.001)]
    assert told == ["easy", "easy", "slowly", "slowly", "too much"]


def test_a_wood_without_strength_in_the_table_is_judged_by_its_weight():
    table, light = across(), across(strength_tension_perp_mpa=None)
    assert table.published
    assert not light.published
    species = inputs_of("mara").species
    bare = replaced(species, strength_tension_perp_mpa=None)
    heavy = across_grain(bare, along_mpa=7700, density_kg_m3=672)
    assert heavy.strength_mpa[1] > light.strength_mpa[1]
    for wood in (table, light):
        assert list(wood.limit_strain) == sorted(wood.limit_strain)


@given(
    b=st.floats(50, 400), c=st.floats(2, 40), t=st.floats(3, 12), e=st.floats(100, 1000), g=st.floats(0.05, 10),
)  # fmt: skip
def test_a_smaller_gap_takes_more_pull(b, c, t, e, g):
    def pull(gap):
        return rim_force_n_mm(stiffness_mpa=e, thickness_mm=t, half_width_mm=b, drop_mm=c, gap_mm=gap)

    assert pull(g) >= pull(1.5 * g)
    assert pull(c / 3 * 0.999999) == pytest.approx(pull(c / 3 * 1.000001), rel=1e-4)
    assert pull(c) == 0


def test_crown_on_rocker_stretches_the_edges_and_shortens_the_middle():
    bent = saddle(along_per_mm=2e-4, across_per_mm=5e-4, half_width_mm=150)
    assert bent.edge > 0 > bent.middle
    bulged = saddle(along_per_mm=-2e-4, across_per_mm=5e-4, half_width_mm=150)
    assert bulged.edge < 0 < bulged.middle
    assert saddle(along_per_mm=0, across_per_mm=5e-4, half_width_mm=150).edge == 0


def test_the_deck_is_as_much_above_the_bottom_as_the_board_is_thick():
    body = body_of()
    for x in (0, 300, 1150, 2300):
        assert deck_height_mm(body, x) - body.rocker.height_mm(x) == pytest.approx(body.finished_thickness_mm(x))
    assert body.length_mm < deck_length_mm(body) < 1.02 * body.length_mm


@pytest.mark.parametrize(
    ("function", "values"),
    [
        (arc_radius_mm, {"half_width_mm": 0, "drop_mm": 5}),
        (arc_radius_mm, {"half_width_mm": 100, "drop_mm": float("nan")}),
        (surface_strain, {"thickness_mm": 6, "radius_mm": 0}),
        (least_radius_mm, {"thickness_mm": 6, "strain": 0}),
    ],
)
def test_what_makes_no_bend_is_refused(function, values):
    with pytest.raises(ValueError, match="above 0"):
        function(**values)
