"""What a guide tells of noise, vibration and dust, from the plates in a builder's file."""

from pathlib import Path

import pytest

from generator.figure_sets import safety
from generator.figure_sets.safety import add_exposure
from generator.figures import FigureBook, Kind
from generator.inputs.builder import Plate
from generator.inputs.tables import Tool, read_table


class Told:
    """Stand-ins for what `add_exposure` looks at: the plates and the list of tools."""

    def __init__(self, *plates, tools=("jigsaw", "random orbit sander", "pencil")):
        self.plates, self.tools = plates, tools

    @property
    def inputs(self):
        return type("Inputs", (), {"builder": self})


def told(*plates, **more):
    book = FigureBook()
    add_exposure(book, Told(*plates, **more))
    return book.close()


def plate(tool="jigsaw", noise=None, vibration=None, use=30):
    return Plate(tool=tool, noise=noise, vibration=vibration, use=use)


def test_a_day_with_two_tools_by_hand():
    """NIOSH Table 1-1 and HSE's points by hand: 91 dBA of 2 h for 30 min is 25 %, 85 of 8 h for 120 min another 25 %.

    Together 50 %, 3 dB under the 85 of the whole dose. 2 · 6² · 0.5 h + 2 · 3² · 2 h = 72 points. Upper ends are the
    same with 3 dB more, so twice the dose, and with 1.5 m/s² more: 2 · 7.5² · 0.5 + 2 · 4.5² · 2 = 137.25 points.
    """
    figures = told(plate(noise=91, vibration=6), plate("random orbit sander", 85, 3, use=120)).values
    assert figures["noise.1.time_upper"].value == pytest.approx(120)
    assert figures["noise.1.time_upper"].low == pytest.approx(60)
    assert figures["noise.2.time_lower"].value == pytest.approx(480 / 2 ** (5 / 3))
    assert figures["noise.1.dose"].value == pytest.approx(25)
    assert figures["noise.dose"].value == pytest.approx(50)
    assert figures["noise.dose"].high == pytest.approx(100)
    assert figures["noise.average"].value == pytest.approx(82)
    assert figures["vibration.1.hour"].value == pytest.approx(72)
    assert figures["vibration.points"].value == pytest.approx(72)
    assert figures["vibration.points"].high == pytest.approx(137.25)
    assert figures["vibration.2.time_action"].value == pytest.approx(100 / 18 * 60)
    assert figures["noise.snr"].value == pytest.approx(91 + 3 - 80 + 4)
    assert figures["noise.nrr"].value == pytest.approx(2 * (91 + 3 - 80) + 7)
    assert figures["noise.1.time_upper"].kind is figures["vibration.points"].kind is Kind.LABEL


def test_what_no_plate_states_is_asked_for_and_never_made_up():
    figures = told(plate(noise=88), tools=("jigsaw", "random orbit sander", "pencil"))
    assert "vibration.1.level" not in figures.values
    assert "vibration.points" not in figures.values
    assert figures.said["vibration.verdict"] == "unknown"
    assert [dict(row) for row in figures.rows["plates_missing"]] == [
        {"name": "jigsaw", "noise": False, "vibration": True, "use": False},
        {"name": "random orbit sander", "noise": True, "vibration": True, "use": True},
    ]
    nothing = told(tools=("pencil",))
    assert not {key for key in nothing.values if key.split(".")[1].isdigit()}
    assert "noise.dose" not in nothing.values
    assert nothing.rows["plates"] == nothing.rows["plates_missing"] == ()


@pytest.mark.parametrize(
    ("noise", "use", "verdict"),
    [(79.5, 240, "below"), (80.5, 240, "between"), (84.5, 240, "between"), (85.5, 240, "above"), (100, 1, "below")],
)
def test_the_day_is_judged_with_the_uncertainty_counted_in(noise, use, verdict):
    """4 h are 3 dB under the same noise for 8 h, and 3 dB are added: so 80 for 4 h is judged as 80 for 8 h.

    100 dBA for a minute, 3 dB added: 480 min are 8.9 halvings of 3 dB from it, 76.3 dBA.
    """
    assert told(plate(noise=noise, use=use)).said["noise.verdict"] == verdict


@pytest.mark.parametrize(
    ("vibration", "use", "verdict"),
    [(1.0, 479, "below"), (1.0, 481, "between"), (3.5, 479, "between"), (3.5, 481, "above")],
)
def test_hands_are_judged_with_the_uncertainty_counted_in(vibration, use, verdict):
    """2.5 and 5 m/s² for 8 h are the action value and the limit; 1.5 m/s² are added to what is stated."""
    assert told(plate(vibration=vibration, use=use)).said["vibration.verdict"] == verdict


def test_quiet_tools_run_all_day_and_a_roaring_one_not_at_all():
    quiet, roaring = told(plate(noise=60)), told(plate(noise=120))
    assert quiet.rows["plates"][0]["long_lower"]
    assert quiet.values["noise.1.time_lower"].value == 1440
    assert not quiet.said["noise.loudest_needs"]
    assert quiet.values["noise.snr"].value == quiet.values["noise.nrr"].value == 0
    assert roaring.rows["plates"][0]["too_loud"]
    assert roaring.said["noise.too_loud"]


def test_the_tools_that_are_asked_for_are_named_as_in_the_household_table():
    table = Path(__file__).resolve().parents[2] / "site_data" / "household.csv"
    names = {tool.name for tool in read_table(table.read_bytes(), "household.csv", Tool)}
    assert set(safety.HELD_AND_POWERED) <= names
