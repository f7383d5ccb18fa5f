"""A panel bent over the crown is stiffer along the board: second moments against other ways of getting them."""

import numpy as np
import pytest
from shapely import LineString

from generator.board.crowned_panel import crowned_panel_n_mm2


def second_moment_mm4(outline) -> float:
    """About the horizontal through the centroid, from the corners of a polygon (Green's theorem)."""
    y, z = (np.asarray(axis) for axis in outline.exterior.xy)
    cross = y[:-1] * z[1:] - y[1:] * z[:-1]
    area = cross.sum() / 2
    middle = ((z[:-1] + z[1:]) * cross).sum() / (6 * area)
    whole = ((z[:-1] ** 2 + z[:-1] * z[1:] + z[1:] ** 2) * cross).sum() / 12
    return abs(whole - area * middle**2)


@pytest.mark.parametrize(("width", "crown", "thick"), [(550, 18, 6), (300, 10, 6), (420, 14, 5), (560, 0.001, 6)])
def test_a_bent_strip_against_the_polygon_of_its_section(width, crown, thick):
    y = np.linspace(-width / 2, width / 2, 401)
    strip = LineString(np.column_stack((y, -crown * (2 * y / width) ** 2))).buffer(thick / 2, cap_style="flat")
    got = float(crowned_panel_n_mm2([0.0], panel_mpa=1.0, panel_mm=thick, width_mm=width, crown_mm=crown, works=1.0)[0])
    assert got == pytest.approx(second_moment_mm4(strip), rel=0.02)


@pytest.mark.parametrize(("half_angle", "radius"), [(0.05, 4000.0), (0.1, 2500.0), (0.15, 1800.0)])
def test_a_shallow_arc_against_the_thin_ring_of_the_handbooks(half_angle, radius):
    """Thin circular arc, axis through its centroid: R³t (α + sin α cos α − 2 sin²α / α); from memory, as handbooks of
    stress give it for a sector of a thin annulus."""
    a, t = half_angle, 6.0
    arc = radius**3 * t * (a + np.sin(a) * np.cos(a) - 2 * np.sin(a) ** 2 / a)
    width, crown = 2 * radius * np.sin(a), radius * (1 - np.cos(a))
    got = crowned_panel_n_mm2([0.0], panel_mpa=1.0, panel_mm=t, width_mm=width, crown_mm=crown, works=1.0)[0]
    assert got - width * t**3 / 12 == pytest.approx(arc, rel=0.02)


def test_none_of_the_crown_at_work_is_the_flat_panel():
    """b·t³/12 (check-values: rectangle)."""
    got = crowned_panel_n_mm2([0, 1], panel_mpa=7700, panel_mm=6, width_mm=[560, 300], crown_mm=[18, 9], works=0)
    assert got == pytest.approx([7700 * 560 * 6**3 / 12, 7700 * 300 * 6**3 / 12])


@pytest.mark.parametrize("works", [-0.1, 1.1, float("nan")])
def test_a_share_outside_0_to_1_is_refused(works):
    with pytest.raises(ValueError, match="works"):
        crowned_panel_n_mm2([0.0], panel_mpa=1, panel_mm=6, width_mm=500, crown_mm=10, works=works)
