"""Sums of water and of mass, as asked for by name. What they are checked against stands in tests/published."""

import pytest

from generator.inputs.fault import BadInput
from generator.sums.asked import answered


def asked(name, *typed):
    return answered(name, typed).by_word


def test_wave_speed_of_a_long_waterline():
    told = asked("wave-speed", "waterline_m=2.4384")  # 8 ft: 1.3407 √8 = 3.792 knots
    assert told["value"] == pytest.approx(3.792 * 1852 / 3600, rel=3e-4)
    assert told["unit"] == "m/s"


def test_litres_for_a_kilogram_in_the_sea_and_in_a_lake():
    sea, lake = asked("float-volume", "mass_kg=1"), asked("float-volume", "mass_kg=1", "water=fresh")
    assert sea["value"] == pytest.approx(0.976, abs=0.0005)
    assert sea["low"] < sea["value"] < sea["high"]
    assert lake["value"] == pytest.approx(1)


def test_what_a_board_carries_and_one_that_carries_nothing():
    assert asked("carried-mass", "volume_l=40", "board_kg=5", "water=fresh")["value"] == pytest.approx(35)
    assert asked("carried-mass", "volume_l=10", "board_kg=20")["value"] < 0


def test_sea_water_at_5_degrees():
    told = asked("sea-density", "temperature_c=5", "salinity=35")  # EOS-80 check value
    assert told["value"] == pytest.approx(1027.67547, abs=1e-5)
    assert asked("sea-density", "temperature_c=5")["value"] == told["value"]


def test_a_square_metre_a_millimetre_thick():
    told = asked("sheet-mass", "area_m2=1", "thickness_mm=1", "density_kg_m3=350")
    assert told["value"] == pytest.approx(0.35)
    assert (told["low"], told["high"]) == pytest.approx((0.315, 0.385))


def test_a_slice_without_rails_or_crown_is_a_rectangle():
    told = asked("section-area", "width_mm=500", "thickness_mm=60", "rail_mm=0")
    assert told["value"] == told["low"] == told["high"] == pytest.approx(30000)


@pytest.mark.parametrize(
    ("name", "typed", "key"),
    [
        ("wave-speed", ("waterline_m=0",), "waterline_m"),
        ("float-volume", ("mass_kg=-3",), "mass_kg"),
        ("sea-density", ("temperature_c=60",), "temperature_c"),
        ("section-area", ("width_mm=500", "thickness_mm=20", "crown_mm=40"), "crown_mm"),
        ("float-volume", ("mass_kg=3", "water=lava"), "water"),
    ],
)
def test_what_does_not_fit_is_told_with_its_key(name, typed, key):
    with pytest.raises(BadInput) as found:
        answered(name, typed)
    assert key in str(found.value)
