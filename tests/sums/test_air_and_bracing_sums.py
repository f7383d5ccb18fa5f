"""Sums of shut-in air and of a deck under a heel, as they are asked for by name."""

from pathlib import Path

import pytest

from generator.build.air import closed_air_kpa
from generator.inputs.fault import BadInput
from generator.inputs.tables import Species, read_table
from generator.sums.asked import answered

TABLE = Path(__file__).resolve().parents[2] / "site_data" / "timber.csv"
TIMBERS = read_table(TABLE.read_bytes(), "timber.csv", Species)

BAY = ("length_mm=205", "width_mm=230", "thickness_mm=6", "stiffness_mpa=7700", "load_kg=35")
FOAM = ("foam=extruded polystyrene", "foam_density_kg_m3=33", "depth_mm=50", "foam_width_mm=115")


def told(name, *typed):
    return answered(name, typed, TIMBERS).by_word


def test_closed_air_takes_two_temperatures_and_gives_kilopascals():
    """15.8 kPa from 15 to 60 °C: 101.325 × (333.15 / 288.15 − 1)."""
    got = told("closed-air", "from_c=15", "to_c=60")
    assert got["value"] == pytest.approx(101.325 * (333.15 / 288.15 - 1))
    assert (got["unit"], got["kind"]) == ("kPa", "published")
    assert got["low"] == got["value"] == got["high"] == closed_air_kpa(from_c=15, to_c=60)
    assert told("closed-air", "from_c=60", "to_c=15")["value"] < 0


def test_cabin_air_and_air_pressure_come_to_one_atmosphere():
    over, outside = (told(name, "altitude_m=2438")["value"] for name in ("cabin-air", "air-pressure"))
    assert over + outside == pytest.approx(101.325)


def test_foam_takes_give_and_pull_off_a_bay():
    for part in ("deflection", "pull"):
        bare, braced = told(f"bay-{part}", *BAY), told(f"braced-{part}", *BAY, *FOAM)
        for got in (bare, braced):
            assert got["low"] <= got["value"] <= got["high"]
            assert got["kind"] == "assumed"
        assert braced["value"] < bare["value"]


@pytest.mark.parametrize(
    ("name", "typed", "part"),
    [
        ("closed-air", ("from_c=15", "to_c=200"), "to_c"),
        ("closed-air", ("from_c=15",), "to_c"),
        ("water-drawn-in", ("inside_l=30", "hot_c=15", "cold_c=50"), "cold_c"),
        ("braced-deflection", (*BAY, *FOAM[:3], "foam_width_mm=300"), "foam_width_mm"),
        ("braced-pull", (*BAY, *FOAM[:3], "foam_width_mm=49"), "foam_width_mm"),
        ("foam-stiffness", ("foam=sponge", "foam_density_kg_m3=30"), "foam"),
        ("air-pressure", ("altitude_m=12000",), "altitude_m"),
    ],
)
def test_what_does_not_fit_is_told_with_its_place(name, typed, part):
    with pytest.raises(BadInput) as caught:
        answered(name, typed, TIMBERS)
    assert any(part in fault.place or part in fault.found for fault in caught.value.faults)


def test_a_timber_s_own_stiffness_across_the_grain_counts():
    """Balsa is the softer across by Table 5-1 (0.015 to 0.046 against redcedar's 0.055 to 0.081)."""
    cedar, other = (told("bay-deflection", *BAY, f"species={name}")["value"] for name in ("western-redcedar", "balsa"))
    assert cedar == told("bay-deflection", *BAY)["value"] < other
