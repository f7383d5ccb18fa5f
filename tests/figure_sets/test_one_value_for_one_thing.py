"""Where two parts of a guide speak of the same thing, they give the same number, and call it no surer than it is."""

import shutil

import pytest

from generator.figure_sets import make_figures
from generator.figures import Kind
from generator.inputs.site import read_builder
from tests.demos import DATA, figures_of

DEMOS = ("mara", "wen", "ines", "tobin")


@pytest.fixture(scope="module")
def values():
    return {slug: figures_of(slug).values for slug in DEMOS}


def numbers(figure):
    return pytest.approx((figure.value, figure.low, figure.high))


@pytest.mark.parametrize("slug", DEMOS)
@pytest.mark.parametrize(
    ("one", "other"),
    [("panel.across", "crown.across"), ("cut.strength", "crown.strength"), ("glue.cure_here", "plan.cure")],
)
def test_pages_agree_on_wood_and_cure_with_their_ranges(values, slug, one, other):
    first, second = values[slug][one], values[slug][other]
    assert (first.value, first.low, first.high) == numbers(second)


@pytest.mark.parametrize("slug", DEMOS)
def test_pages_agree_on_the_strength_across_the_grain(values, slug):
    own = values[slug]
    assert len({round(own[key].value, 9) for key in
                ("cut.strength", "crown.strength", "bay.strength", "air.seam_strength")}) == 1  # fmt: skip


@pytest.mark.parametrize(
    ("slug", "low", "high"),
    [
        ("mara", 0.055 * 6500, 0.081 * 9000),  # Table 5-1, redcedar E_T/E_L and E_R/E_L, by the board file's ends
        ("ines", 0.05 * 3500, 0.081 * 5200),  # at the least what Douglas-fir and white-cedar show flat-sawn
    ],
)
def test_stiffness_across_the_grain_reaches_over_flat_sawn_and_quarter_sawn(values, slug, low, high):
    across = values[slug]["panel.across"]
    assert across.kind is Kind.ASSUMED
    assert across.low <= low * 1.0001 < high * 0.9999 <= across.high


@pytest.mark.parametrize("slug", ["mara", "wen", "tobin"])
def test_a_time_between_two_columns_of_a_label_lies_between_them(slug, values):
    """Ines's label has one column; the others' open and clamp times are the columns' where nothing lies between."""
    glue, own = read_builder(DATA, slug).builder.glue, values[slug]
    for key, first, second in (
        ("glue.open_here", glue.open_min, glue.also.open_min),
        ("glue.clamp_here", glue.clamp_min, glue.also.clamp_min),
        ("glue.cure_here", glue.full_cure_min, glue.also.full_cure_min),
    ):
        shown = own[key]
        between = sorted((first, second))
        assert [shown.low, shown.high] in (between, [shown.value, shown.value])
        assert between[0] <= shown.value <= between[1]


def test_mara_s_cure_by_hand():
    """48 h at 10 °C and 24 h at 20 °C make 48 · 0.5^0.4 = 36.4 h at 14 °C, and so 37 h in whole hours."""
    own = figures_of("mara").values
    assert own["glue.cure_here"].value == own["plan.cure"].value == 37 * 60


def test_the_pressing_is_reckoned_with_the_panel_as_it_was_measured(values):
    """Ines measured 5.2 mm; 0.7 MPa on that is 3.64 N/mm, the weight of 371.2 kg on a metre."""
    own = values["ines"]
    assert own["panel.thickness"].value == 5.2
    assert own["panel.press.textbook"].value == pytest.approx(3640 / 9.80665)


@pytest.mark.parametrize("slug", DEMOS)
def test_nothing_that_rests_on_an_assumed_height_or_heat_is_called_published(values, slug):
    own = values[slug]
    for key in ("air.pass_kpa", "air.pass_height", "air.car_kpa", "air.car_push", "air.car_bay", "air.car_seam",
                "air.sun_hot", "air.drawn_in"):  # fmt: skip
        assert own[key].kind is Kind.ASSUMED
        assert own[key].low < own[key].value < own[key].high, key


def test_the_push_of_hot_air_by_hand(values):
    """Closed at 19 °C (292.15 K): 101.325 · 41 / 292.15 = 14.22 kPa at 60 °C, 10.75 at 50 and 19.42 at 75."""
    own = values["mara"]
    area = own["air.panel_area"].value
    assert own["air.car_force"].value == pytest.approx(14220 * area, rel=1e-3)
    assert own["air.car_force"].low == pytest.approx(10752 * area, rel=1e-3)
    assert own["air.car_force"].high == pytest.approx(19422 * area, rel=1e-3)


@pytest.mark.parametrize(("slug", "board"), [("mara", "dunlin"), ("ines", "teal")])
def test_a_board_without_rails_has_a_guide(tmp_path, slug, board):
    """Nothing lies outside the frame, so no rail is weighed, and the board balances where its other parts do."""
    data = shutil.copytree(DATA, tmp_path / "site_data")
    path = data / "boards" / f"{board}.yaml"
    path.write_text(path.read_text("utf-8").replace("\nrail: 30\n", "\nrail: 0\n"), "utf-8")
    own = make_figures(read_builder(data, slug)).values
    assert own["board.rail"].value == 0
    assert "weight.rails" not in own
    assert 0.4 < own["weight.balance"].value / own["board.length"].value < 0.6
