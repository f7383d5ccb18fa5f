"""Drawings that say they are to scale are, and marks stand where the figures say."""

import re
from xml.etree import ElementTree as Tree

import numpy as np
import pytest
from sample import SAMPLES, sample

from generator.drawings import DRAWINGS

SVG = "{http://www.w3.org/2000/svg}"
each_sample = pytest.mark.parametrize("kind", SAMPLES)


def drawn(name, figures):
    return Tree.fromstring(DRAWINGS[name](figures))


def points(path):
    return np.array([float(v) for v in re.findall(r"-?[\d.]+", path.attrib["d"])]).reshape(-1, 2)


def with_class(root, tag, name):
    return [e for e in root.iter(f"{SVG}{tag}") if name in e.attrib.get("class", "").split()]


@each_sample
def test_the_plan_is_as_long_for_its_width_as_the_board(kind):
    figures = sample(**SAMPLES[kind])
    outline = points(with_class(drawn("plan", figures), "path", "d-wood")[0])
    wide, tall = np.ptp(outline, axis=0)
    board = figures.values["board.length"].value / (2 * max(figures.curves["outline.finished"].y))
    assert tall / wide == pytest.approx(board, rel=0.01)


@each_sample
def test_every_rib_on_the_plan_has_its_place_and_length(kind):
    figures = sample(**SAMPLES[kind])
    root = drawn("plan", figures)
    outline = points(with_class(root, "path", "d-wood")[0])
    per_mm = np.ptp(outline[:, 1]) / figures.values["board.length"].value
    ribs = [points(p) for p in with_class(root, "path", "d-heavy")]
    got = sorted((outline[:, 1].max() - rib[0, 1], np.ptp(rib[:, 0])) for rib in ribs)
    want = [
        (figures.values[f"{row['key']}.from_tail"].value * per_mm,
         2 * figures.values[f"{row['key']}.half_width"].value * per_mm)
        for row in figures.rows["ribs"]
    ]  # fmt: skip
    assert np.abs(np.array(got) - np.array(want)).max() < 0.21


@each_sample
def test_the_side_view_enlarges_heights_by_what_it_says(kind):
    figures = sample(**SAMPLES[kind])
    root = drawn("side", figures)
    words = " ".join(text.text for text in root.iter(f"{SVG}text"))
    times = float(re.search(r"heights ([\d.]+) times", words)[1])
    bottom = points(with_class(root, "path", "d-wood")[0])
    per_mm = np.ptp(bottom[:, 0]) / figures.values["board.length"].value
    low = bottom[:, 1].max()
    nose = bottom[bottom[:, 0] == bottom[:, 0].max()][:, 1].max()
    assert (low - nose) / per_mm / times == pytest.approx(figures.values["rocker.nose"].value, abs=1.0)


@each_sample
def test_supports_touch_the_board_where_the_bench_says(kind):
    figures = sample(**SAMPLES[kind])
    root = drawn("bench", figures)
    table_line, *_ = with_class(root, "path", "d-level")
    level = points(table_line)[0, 1]
    tips = [points(p)[0] for p in with_class(root, "path", "d-fill-sea")]
    rows = figures.rows["supports"]
    assert len(tips) == len(rows)
    xs = np.array([figures.values[f"{row['key']}.from_tail"].value for row in rows])
    heights = np.array([figures.values[f"{row['key']}.height"].value for row in rows])
    per_mm = (tips[-1][0] - tips[0][0]) / (xs[-1] - xs[0])
    words = " ".join(text.text for text in root.iter(f"{SVG}text"))
    found = re.search(r"heights ([\d.]+) times", words)
    times = float(found[1]) if found else 1.0
    got = np.array([(tip[0] - tips[0][0], level - tip[1]) for tip in tips])
    assert np.abs(got - np.column_stack([(xs - xs[0]) * per_mm, heights * per_mm * times])).max() < 0.25


def test_the_clamps_are_numbered_on_their_own_ribs():
    figures = sample()
    root = drawn("clamps", figures)
    spots = [t for t in root.iter(f"{SVG}text") if re.search(r"d-spot\S*-text", t.attrib["class"])]
    upper = {t.text: float(t.attrib["x"]) for t in spots if float(t.attrib["y"]) < 60}
    ribs = {row["n"]: figures.values[f"{row['key']}.from_tail"].value for row in figures.rows["ribs"]}
    order = sorted(figures.rows["clamp_pairs"], key=lambda row: ribs[row["rib"]])
    assert sorted(upper, key=upper.get) == [str(row["order"]) for row in order]


def test_clamps_that_reach_below_the_table_are_marked():
    figures = sample()
    marked = with_class(drawn("clamps", figures), "text", "d-spot-warn-text")
    past = [str(row["order"]) for row in figures.rows["clamp_pairs"] if row["rib"] in figures.said["hangs_past"]]
    assert sorted(text.text for text in marked) == sorted(2 * past)


def test_the_cut_runs_outside_the_pencil_line():
    root = drawn("trace", sample())
    cut = points(with_class(root, "path", "d-cut")[0])
    pencil = points(with_class(root, "path", "d-pencil")[0])
    middle = 150.0
    above = [np.interp(middle, line[1:, 0], line[1:, 1]) for line in (cut[1:], pencil)]
    assert above[0] < above[1] - 1


@pytest.mark.parametrize(
    ("method", "there", "not_there"), [("bead", "a bead", "a thin"), ("spread", "a thin", "a bead")]
)
def test_the_glue_goes_where_the_builders_method_puts_it(method, there, not_there):
    svg = DRAWINGS["glue_bead"](sample(method=method))
    assert there in svg
    assert not_there not in svg


def test_a_support_that_lifts_off_is_marked_and_one_that_touches_is_not():
    assert not with_class(drawn("bench", sample()), "circle", "d-spot-warn")
    assert len(with_class(drawn("bench", sample(reached=False)), "circle", "d-spot-warn")) == 4


def test_a_tip_support_is_drawn_inboard_when_wrong_and_under_the_tip_when_right():
    root = drawn("bench_support", sample())
    tip = points(with_class(root, "path", "d-level")[0])[0, 0]
    wrong = points(with_class(root, "path", "d-fill-warn")[0])[0, 0]
    right = points(with_class(root, "path", "d-fill-sea")[0])[0, 0]
    assert right == pytest.approx(tip, abs=0.1)
    assert wrong > tip + 20
