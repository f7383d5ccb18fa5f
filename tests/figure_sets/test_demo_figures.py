"""The figures of the demo guides: their keys, their kinds, and what must hold between them."""

import re
from pathlib import Path

import pytest

from generator.figures import FigureBook, Kind, least_certain
from tests.demos import SLUGS, figures_of

ROOT = Path(__file__).resolve().parents[2]
KEPT = ROOT / "tests" / "kept" / "figure_keys.txt"


@pytest.fixture(scope="module")
def demos():
    return {slug: figures_of(slug) for slug in SLUGS}


def shapes(figures) -> set[str]:
    return {re.sub(r"\.\d+(?=\.|$)", ".N", key) for key in figures.values}


def test_no_key_was_renamed_or_lost(demos):
    """Keys are links that were sent out. New ones are added to tests/kept/figure_keys.txt; none may go."""
    kept = set(KEPT.read_text("utf-8").split())
    now = set().union(*(shapes(figures) for figures in demos.values()))
    assert kept - now == set()
    assert now - kept == set(), "add these to tests/kept/figure_keys.txt"


def test_every_figure_says_how_it_was_got_and_published_ones_name_their_source(demos):
    for figures in demos.values():
        for figure in figures.values.values():
            assert figure.label, figure.key
            assert figure.how.endswith("."), figure.key
            assert figure.kind is not Kind.PUBLISHED or figure.source, figure.key


def test_what_rests_on_the_stiffness_of_wood_is_called_assumed(demos):
    for figures in demos.values():
        for key in ("bench.deviation", "bench.result_nose", "bench.spring_tail", "bench.support.2.load"):
            assert figures.values[key].kind is Kind.ASSUMED


def test_a_weighed_panel_is_the_builder_s_measurement_and_another_is_the_maker_s_choice(demos):
    assert (
        demos["ines"].values["panel.mass"].kind is Kind.MEASURED or demos["ines"].values["panel.mass"].how == "Weighed."
    )
    assert demos["mara"].values["panel.mass"].kind is Kind.MAKER


def test_the_loads_on_the_supports_are_the_weight_of_all_that_lies_on_them(demos):
    for figures in demos.values():
        value = {key: figure.value for key, figure in figures.values.items()}
        supports = sum(value[f"{row['key']}.load"] for row in figures.rows["supports"])
        lying = value["panel.mass"] + value["frame.mass"] + value["clamp.mass"] + value["bench.weight_total"]
        assert supports == pytest.approx(lying, rel=1e-9)


def test_stacks_are_as_high_as_the_things_in_them_and_no_more_things_are_used_than_there_are(demos):
    for figures in demos.values():
        for row in figures.rows["supports"]:
            if row["piled"]:
                height = sum(piece["count"] * piece["height_mm"] for piece in row["pieces"])
                assert height == pytest.approx(figures.values[f"{row['key']}.stack"].value)
        for thing in figures.rows["things"]:
            assert 0 <= thing["used"] <= thing["count"]


def test_three_demo_benches_reach_their_rocker_and_one_says_what_is_missing(demos):
    reached = {slug: figures.said["reached"] for slug, figures in demos.items()}
    assert sorted(reached.values()) == [False, True, True, True]
    for slug, figures in demos.items():
        assert (figures.values["bench.deviation"].value <= 2.0) == reached[slug]
        assert ("bench.short_weight" in figures.values) != reached[slug]
        assert not figures.said["inverted"]


def test_the_demo_builders_differ_in_every_way_that_matters(demos):
    for word in (
        "units",
        "reached",
        "glue.type",
        "glue.method",
        "frame_bottom",
        "rocker_from",
        "surf.where",
        "surf.how",
        "surf.skill",
        "rocker_choice",
        "night_ok",
        "clamps_enough",
        "helpers_enough",
        "slots_open_to",
        "sizes",
        "stage",
    ):
        assert len({str(figures.said[word]) for figures in demos.values()}) > 1, word


@pytest.mark.parametrize(
    ("kinds", "least"),
    [
        ([Kind.PUBLISHED, Kind.MEASURED], Kind.MEASURED),
        ([Kind.MEASURED, Kind.MAKER, Kind.LABEL], Kind.MAKER),
        ([Kind.ASSUMED, Kind.COMMON_PRACTICE], Kind.ASSUMED),
    ],
)
def test_a_computed_figure_takes_the_kind_of_its_least_certain_input(kinds, least):
    assert least_certain(kinds) is least
    assert FigureBook().add("k", 1, "mm", "l", how="h.", kind=kinds).kind is least


def test_a_key_is_set_once_and_a_number_is_finite():
    book = FigureBook()
    book.add("k", 1, "mm", "l", how="h.", kind=Kind.MAKER)
    with pytest.raises(ValueError, match="twice"):
        book.add("k", 2, "mm", "l", how="h.", kind=Kind.MAKER)
    with pytest.raises(ValueError, match="finite"):
        book.add("n", float("nan"), "mm", "l", how="h.", kind=Kind.MAKER)
