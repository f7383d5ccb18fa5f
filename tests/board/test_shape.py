"""The outside of the finished board."""

import numpy as np
import pytest

from generator.board.shape import FLATTER, FULLER, stations_mm, volume_litres

X = np.linspace(1, 2299, 47)[:, None]
SHARES = np.linspace(-1, 1, 401)


def places(shape):
    return X, shape.half_width_mm(X) * SHARES


def test_the_upper_side_is_nowhere_under_the_lower_one_and_both_sides_are_alike(body):
    x, y = places(body.shape)
    under, top = body.shape.under_mm(x, y), body.shape.top_mm(x, y)
    assert np.all(top >= under)
    assert np.all(under >= 0)
    assert top == pytest.approx(body.shape.top_mm(x, -y))
    assert under == pytest.approx(body.shape.under_mm(x, -y))


def test_on_the_centre_line_it_is_as_thick_as_the_board_but_for_the_rounded_tip(body):
    x = np.linspace(0, 2260, 40)  # a squared tail, and the round nose's last 28 mm left out
    thick = body.shape.top_mm(x, 0.0) - body.shape.under_mm(x, 0.0)
    assert thick == pytest.approx(body.finished_thickness_mm(x))
    assert body.shape.top_mm(2300, 0.0) == pytest.approx(body.shape.under_mm(2300, 0.0))


def test_the_bottom_is_flat_between_the_rails_and_the_deck_falls_by_its_crown(body):
    half, rail = float(body.finished.half_width_mm(1150)), body.board.rail_mm
    y = np.linspace(0, half - rail, 50)
    assert body.shape.under_mm(1150, y) == pytest.approx(np.zeros(50))
    crown = float(body.crown_mm(1150))
    assert body.shape.top_mm(1150, 0.0) - body.shape.deck_mm(1150, half) == pytest.approx(crown)
    assert body.shape.top_mm(1150, half) == pytest.approx(body.shape.under_mm(1150, half), abs=1e-3)


def test_sections_are_the_sum_of_the_thickness_across(body):
    x, y = X, body.shape.half_width_mm(X) * np.sin(np.pi / 2 * SHARES)  # close together at the rim
    thick = body.shape.top_mm(x, y) - body.shape.under_mm(x, y)
    summed = np.sum((thick[:, 1:] + thick[:, :-1]) / 2 * np.diff(y, axis=1), axis=1)
    assert body.shape.section_mm2(X[:, 0]) == pytest.approx(summed, rel=1e-3)


def test_a_fuller_rail_holds_more_and_without_rails_there_is_nothing_to_choose(make):
    volumes = [volume_litres(make().shape, rail_fill=fill) for fill in (FLATTER, np.pi / 4, FULLER)]
    assert volumes == sorted(volumes)
    assert volumes[2] / volumes[0] < 1.05
    bare = make(rail_mm=0.0).shape
    assert volume_litres(bare, rail_fill=FLATTER) == volume_litres(bare, rail_fill=FULLER)


def test_a_rounded_tip_takes_a_little_away_and_a_square_one_keeps_all(make):
    body = make()
    shares = body.shape.tip_share([0, 10, 500, 2272, 2290, 2300])
    assert shares[:4] == pytest.approx(1)
    assert 0 < shares[4] < 1
    assert shares[5] == 0


def test_stations_reach_from_tip_to_tip_and_crowd_there():
    x = stations_mm(2000, count=100)
    assert (x[0], x[-1], x.size) == (0, 2000, 101)
    assert np.all(np.diff(x) > 0)
    assert np.diff(x)[0] < np.diff(x)[50] / 20


@pytest.mark.parametrize("count", [300, 600])
def test_the_volume_settles_as_the_stations_close_up(body, count):
    def volume(stations):
        x = stations_mm(body.length_mm, count=stations)
        return np.trapezoid(body.shape.section_mm2(x), x)

    assert volume(count) == pytest.approx(volume(20_000), rel=2e-4 * (300 / count) ** 1.5)
