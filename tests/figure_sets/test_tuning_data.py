"""What the tuning place is told besides the bench: the page's own limits and heights, and a mark of the bench."""

from dataclasses import replace

import pytest

from generator.figure_sets import make_figures
from generator.figure_sets.bench_data import NAME as BENCH
from generator.figure_sets.tuning_data import NAME, _mark
from generator.inputs.site import read_builder
from tests.demos import DATA, figures_of

SLUGS = ("mara", "tobin")


@pytest.fixture(scope="module")
def demos():
    return {slug: figures_of(slug) for slug in SLUGS}


def test_only_a_rocker_that_is_reached_is_tuned(demos):
    assert {NAME in figures.data for figures in demos.values()} == {True, False}
    for figures in demos.values():
        assert (NAME in figures.data) is figures.said["reached"]


def test_it_says_what_the_page_says(demos):
    for figures in demos.values():
        if NAME not in figures.data:
            continue
        block, values = figures.data[NAME], figures.values
        assert block["units"] == figures.said["units"]
        assert block["limits"]["middle_mm"] == values["bench.pass_middle"].value
        assert block["limits"]["hollow_mm"] == values["bench.pass_hollow"].value
        keys = [place["key"] for place in block["places"]]
        assert keys == ["tail", *(f"rib-{row['n']}" for row in figures.rows["ribs"]), "nose"]
        aims = {place["key"]: place["aim_mm"] for place in block["places"]}
        assert aims["tail"] == pytest.approx(values["rocker.tip.tail.target"].value, abs=1e-3)
        for row in figures.rows["ribs"]:
            assert aims[f"rib-{row['n']}"] == pytest.approx(values[f"{row['rocker_key']}.target"].value, abs=1e-3)
        assert block["ribs"] == [row["n"] for row in figures.rows["ribs"]]
        assert len(block["depth_mm"]) == len(figures.data[BENCH]["stations"])
        shims = [shim["height_mm"] for shim in figures.data[BENCH]["shims"]]
        assert block["step_mm"] == min(shims)
        for support, row in zip(block["supports"], figures.rows["supports"], strict=True):
            assert support["name"] == row["name"]
            held = sum(piece["count"] for piece in row["pieces"] if piece["kind"] == "shim")
            assert sum(support["held"]) == held


def test_without_shims_a_step_is_as_fine_as_a_rule():
    inputs = read_builder(DATA, SLUGS[0])
    things = tuple(thing for thing in inputs.builder.things if thing.kind != "shim")
    bare = replace(inputs, builder=inputs.builder.model_copy(update={"things": things}))
    block = make_figures(bare).data.get(NAME)
    assert block is None or block["step_mm"] == 1.0


def test_another_bench_has_another_mark(demos):
    bench = dict(demos["mara"].data[BENCH])
    marks = {_mark(bench)}
    for name, value in (
        ("length_mm", bench["length_mm"] + 1),
        ("supports", [{**one, "height_mm": one["height_mm"] + 0.5} for one in bench["supports"]]),
        ("weights", {**bench["weights"], "placed": []}),
    ):
        marks.add(_mark({**bench, name: value}))
    assert len(marks) == 4
    assert _mark(bench) == demos["mara"].data[NAME]["plan"]
    assert _mark({**bench, "shims": []}) == _mark(bench)
