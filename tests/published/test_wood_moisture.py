"""USDA Forest Products Laboratory, Wood Handbook, FPL-GTR-190 (2010), chapter 4, Table 4-2 against eq. 4-5.

The table prints one decimal; equation and table are up to 0.0556 % moisture content apart over 30-200 °F, so the
tolerance is 0.06. Twelve of the table's eighteen rows stand in data/emc_table.csv.
"""

import csv
from pathlib import Path

import pytest

from generator.timber.moisture import equilibrium_moisture_pct

TABLE = Path(__file__).parent / "data" / "emc_table.csv"


def cells():
    lines = [line for line in TABLE.read_text("utf-8").splitlines() if not line.startswith("#")]
    for row in csv.DictReader(lines):
        temperature_c = (float(row["temp_f"]) - 32) / 1.8
        for name, printed in row.items():
            if name.startswith("rh_"):
                yield temperature_c, float(name[3:]), float(printed)


def test_every_cell_of_the_table_is_met():
    seen = list(cells())
    assert len(seen) == 12 * 19
    for temperature_c, humidity_pct, printed in seen:
        got = equilibrium_moisture_pct(temperature_c=max(-1.1, min(98.9, temperature_c)), humidity_pct=humidity_pct)
        assert got == pytest.approx(printed, abs=0.06)


@pytest.mark.parametrize(
    ("temperature_c", "humidity_pct", "expected"), [(20, 50, 9.27), (20, 65, 12.00), (28, 75, 14.09)]
)
def test_three_derived_points_of_the_equation(temperature_c, humidity_pct, expected):
    assert equilibrium_moisture_pct(temperature_c=temperature_c, humidity_pct=humidity_pct) == pytest.approx(
        expected, abs=0.005
    )


@pytest.mark.parametrize(("temperature_c", "humidity_pct"), [(-5, 50), (20, 4), (20, 96), (float("nan"), 50)])
def test_outside_the_table_is_refused(temperature_c, humidity_pct):
    with pytest.raises(ValueError, match="outside"):
        equilibrium_moisture_pct(temperature_c=temperature_c, humidity_pct=humidity_pct)
