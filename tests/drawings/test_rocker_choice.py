"""The three rockers in one drawing: true proportions, the stated factor, the builder's own strong."""

import re
from xml.etree import ElementTree as Tree

import numpy as np
import pytest
from sample import sample

from generator.drawings.rocker_choice import rocker_choice

SVG = "{http://www.w3.org/2000/svg}"


def drawn(**changes):
    figures = sample(**changes)
    return figures, Tree.fromstring(rocker_choice(figures))


def bottoms(root):
    """Points and classes of each long line, in the order in which they are drawn."""
    lines = []
    for path in root.iter(f"{SVG}path"):
        points = np.array([float(v) for v in re.findall(r"-?[\d.]+", path.attrib["d"])]).reshape(-1, 2)
        if len(points) > 50:
            lines.append((points, path.attrib["class"]))
    return lines


def texts(root):
    return [text.text for text in root.iter(f"{SVG}text")]


@pytest.mark.parametrize("changes", [{}, {"length_mm": 1750.0}, {"length_mm": 3100.0, "units": "inches"}])
def test_heights_are_as_many_times_too_large_as_the_drawing_says(changes):
    figures, root = drawn(**changes)
    (times,) = (int(m[1]) for text in texts(root) if (m := re.search(r"heights (\d) times too large", text)))
    length_mm = figures.values["board.length"].value
    lines = bottoms(root)
    assert len(lines) == 3
    for points, _ in lines:
        per_mm = np.ptp(points[:, 0]) / length_mm
        tall_mm = np.ptp(points[:, 1]) / per_mm / times
        assert any(
            tall_mm == pytest.approx(max(figures.curves[row["key"]].y), rel=0.01) for row in figures.rows["candidates"]
        )


def test_only_the_builders_own_is_strong_and_bold():
    for agreed, name in ((False, "between"), (True, "as agreed")):
        _, root = drawn(agreed=agreed)
        lines = bottoms(root)
        assert len(lines) == 3 + agreed
        assert sum("d-w-heavy" in classes for _, classes in lines) == 1
        assert len({classes for _, classes in lines}) == len(lines)  # no two look alike
        bold = [text.text for text in root.iter(f"{SVG}text") if "d-bold" in text.attrib["class"]]
        assert bold.count(name) == 1
        assert len(bold) == 1 + 1 + 3  # the heading, the name, three numbers


def test_the_numbers_beside_a_line_are_its_own():
    figures, root = drawn()
    shown = texts(root)
    for row in figures.rows["candidates"]:
        for part in ("tail", "nose", "flat"):
            value = figures.values[f"{row['key']}.{part}"].value
            assert any(text.replace(".", "").isdigit() and abs(float(text) - value) <= 0.5 for text in shown), part
