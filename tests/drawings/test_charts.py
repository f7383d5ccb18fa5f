"""Charts: the step from styles to classes, and what the lines say."""

import re
from xml.etree import ElementTree as Tree

import numpy as np
import pytest
from sample import sample

from generator.drawings import DRAWINGS
from generator.drawings.chart import chart_svg, new_canvas, place
from generator.drawings.dom import SEA, UnknownStyle, to_classes

SVG = "{http://www.w3.org/2000/svg}"


def chart(**line):
    canvas = new_canvas(120)
    axes = place(canvas, left=40, top=10, right=340, bottom=90, height=120)
    axes.plot([0, 1], [0, 1], **line)
    return chart_svg(canvas, name="try", title="A try", words="A line from 0 to 1.")


def test_known_colours_and_weights_become_classes():
    svg = chart(color=SEA, linewidth=2.2)
    assert 'class="d-open d-stroke-sea d-w-heavy"' in svg
    assert "style" not in svg


@pytest.mark.parametrize("line", [{"color": "red", "linewidth": 1.6}, {"color": SEA, "linewidth": 3.3},
                                  {"color": SEA, "linewidth": 1.6, "alpha": 0.5},
                                  {"color": SEA, "linewidth": 1.6, "dashes": (1, 1)}])  # fmt: skip
def test_a_look_that_the_page_could_not_change_is_refused(line):
    with pytest.raises(UnknownStyle):
        chart(**line)


def test_ids_that_are_used_get_the_charts_name_and_others_go():
    svg = chart(color=SEA, linewidth=1.6)
    ids = re.findall(r' id="([^"]*)"', svg)
    assert ids
    assert all(one.startswith("try-") for one in ids)
    assert set(re.findall(r"url\(#([^)]*)\)", svg)) <= set(ids)


def test_typed_words_in_a_chart_are_not_read_as_markup_or_formulas():
    figures = sample()
    rows = tuple({**row, "name": "$x_1$ <i>*a*"} for row in figures.rows["supports"])
    changed = type(figures)(figures.values, figures.curves, {**figures.rows, "supports": rows}, figures.said)
    svg = DRAWINGS["load_chart"](changed)
    assert "<i>" not in svg
    assert any("$x_1$" in (e.text or "") for e in Tree.fromstring(svg).iter(f"{SVG}text"))


def test_a_style_sheet_inside_the_chart_is_left_out():
    raw = f'<svg xmlns="{SVG[1:-1]}" viewBox="0 0 350 90"><style>*{{fill:red}}</style><g id="a"/></svg>'
    assert to_classes(raw, name="bare", title="Bare", words="Nothing in it.").count("<") == 6


def test_lengths_on_the_axes_are_in_the_builders_units():
    def ticks(units):
        root = Tree.fromstring(DRAWINGS["curve_chart"](sample(length_mm=2540.0, units=units)))
        return [float(t.text.replace("−", "-")) for t in root.iter(f"{SVG}text") if re.fullmatch(r"−?[\d.]+", t.text)]

    assert max(ticks("metric")) == pytest.approx(2500, abs=500)
    assert max(ticks("inches")) == pytest.approx(100, abs=20)


def test_the_drawn_difference_is_what_is_kept_less_wanted():
    figures = sample()
    root = Tree.fromstring(DRAWINGS["curve_chart"](figures))
    lines = [
        np.array([float(v) for v in re.findall(r"-?[\d.]+", p.attrib["d"])]).reshape(-1, 2)
        for p in root.iter(f"{SVG}path")
        if "d-stroke-ink" in p.attrib.get("class", "")
    ]
    drawn = max((line for line in lines if len(line) > 50), key=lambda line: line[:, 1].mean())
    off = np.array(figures.curves["bench.after"].y) - np.array(figures.curves["bench.wanted"].y)
    at = np.interp(drawn[:, 0], np.linspace(drawn[0, 0], drawn[-1, 0], len(off)), off)
    assert np.corrcoef(at, -drawn[:, 1])[0, 1] > 0.9999


def test_loads_are_drawn_in_proportion():
    figures = sample()
    root = Tree.fromstring(DRAWINGS["load_chart"](figures))
    bars = [
        np.array([float(v) for v in re.findall(r"-?[\d.]+", p.attrib["d"])]).reshape(-1, 2)
        for p in root.iter(f"{SVG}path")
        if "d-fill-wood" in p.attrib.get("class", "").split()
    ]
    got = np.array([np.ptp(bar[:, 0]) for bar in bars])
    want = np.array([figures.values[f"{row['key']}.load"].value for row in figures.rows["supports"]])
    assert got / got.sum() == pytest.approx(want / want.sum(), abs=0.002)
