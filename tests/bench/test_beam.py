"""The beam and its exact columns."""

import numpy as np
import pytest

from generator.bench.beam import Beam, PointLoad, columns

GOOD = {
    "length_mm": 2000.0,
    "breaks_mm": np.array([0.0, 700.0, 2000.0]),
    "stiffness_n_mm2": np.array([1e8, 3e8]),
    "load_start_n_mm": np.array([0.02, 0.05]),
    "load_end_n_mm": np.array([0.04, 0.01]),
    "free_curvature_start_per_mm": np.array([1e-4, 2e-5]),
    "free_curvature_end_per_mm": np.array([3e-5, 9e-5]),
    "point_loads": (PointLoad(400.0, 12.0), PointLoad(1700.0, 5.0)),
}


@pytest.mark.parametrize(
    ("name", "bad"),
    [
        ("length_mm", -1.0),
        ("breaks_mm", np.array([0.0, 700.0, 1999.0])),
        ("breaks_mm", np.array([0.0, 2000.0])),
        ("breaks_mm", np.array([0.0, 2100.0, 2000.0])),
        ("stiffness_n_mm2", np.array([1e8, 0.0])),
        ("stiffness_n_mm2", np.array([1e8, np.nan])),
        ("load_end_n_mm", np.array([np.inf, 0.0])),
        ("point_loads", (PointLoad(2001.0, 1.0),)),
        ("point_loads", (PointLoad(5.0, np.nan),)),
    ],
)
def test_a_beam_that_makes_no_sense_is_refused(name, bad):
    with pytest.raises(ValueError, match=r"must"):
        Beam(**{**GOOD, name: bad})


def test_total_and_moment_of_the_loads_are_those_of_their_parts():
    beam = Beam(**GOOD)
    x = np.linspace(0, 2000, 200_001)
    w = np.where(x < 700, 0.02 + 0.02 * x / 700, 0.05 - 0.04 * (x - 700) / 1300)
    assert beam.total_load_n == pytest.approx(np.trapezoid(w, x) + 17, rel=1e-5)
    assert beam.load_moment_n_mm == pytest.approx(np.trapezoid(w * x, x) + 400 * 12 + 1700 * 5, rel=1e-5)


def test_columns_follow_curvature_that_is_integrated_finely():
    """Order of error: the trapezium rule's miss must fall by four when its step is halved."""
    beam = Beam(**GOOD)
    cols = columns(beam, [0.0, 900.0])
    at = np.array([650.0, 1300.0, 2000.0])
    exact_loads, exact_push = cols.heights(at)

    def by_trapezium(step: float) -> np.ndarray:
        out = []
        for which in range(2):
            x = np.arange(0, 2000 + step / 2, step)
            middle = x[:-1] + step / 2
            if which:
                moment = np.maximum(middle - 900, 0)
                k0 = 0.0
            else:
                fine = np.arange(0, 2000, 0.5) + 0.25
                w = np.where(fine < 700, 0.02 + 0.02 * fine / 700, 0.05 - 0.04 * (fine - 700) / 1300)
                moment = -np.array([(w * np.maximum(m - fine, 0)).sum() * 0.5 for m in middle])
                moment -= 12 * np.maximum(middle - 400, 0) + 5 * np.maximum(middle - 1700, 0)
                k0 = np.where(middle < 700, 1e-4 - 7e-5 * middle / 700, 2e-5 + 7e-5 * (middle - 700) / 1300)
            bend = moment / np.where(middle < 700, 1e8, 3e8) + k0
            out.append([(bend * np.maximum(a - middle, 0)).sum() * step for a in at])
        return np.array(out)

    exact = np.array([exact_loads, exact_push[1]])
    coarse, fine = np.abs(by_trapezium(50) - exact).max(), np.abs(by_trapezium(25) - exact).max()
    assert coarse < 0.5
    assert coarse / fine == pytest.approx(4, abs=0.8)
    assert exact_push[0] == pytest.approx(at_push_from_the_tail(at), rel=1e-12)


def at_push_from_the_tail(at: np.ndarray) -> np.ndarray:
    """Heights of a push of 1 N at x = 0: M = x, so x³/6EI on the first piece, then marched by hand."""
    a = 700.0
    height, slope = a**3 / 6e8, a**2 / 2e8
    s = at - a
    return np.where(at <= a, at**3 / 6e8, height + slope * s + (a * s**2 / 2 + s**3 / 6) / 3e8)


def test_curvature_at_breaks_is_given_from_both_sides():
    cols = columns(Beam(**GOOD), [0.0])
    loads, push = cols.end_curvatures()
    m = cols.starts_mm.size
    j = int(np.flatnonzero(cols.starts_mm == 700.0)[0])
    assert push[0, m + j - 1] == pytest.approx(700 / 1e8)
    assert push[0, j] == pytest.approx(700 / 3e8)
    assert loads[j] - loads[m + j - 1] != pytest.approx(0, abs=1e-6)


@pytest.mark.parametrize("at", [[0.0], [2000.0], [700.0], [0.0, 0.0, 2000.0], [699.9999999, 700.0, 1300.0]])
def test_loads_and_pushes_at_tips_breaks_and_at_one_place_turn_the_nose_as_statics_says(at):
    """Moment just before the nose tip: each force times how far it stands from there."""
    loads = tuple(PointLoad(x, 3.0) for x in at)
    beam = Beam(**{**GOOD, "point_loads": loads})
    cols = columns(beam, at)
    last = cols.sizes_mm[-1] ** np.arange(4)
    spread = 0.03 * 700 * (2000 - 700 * 0.04 * 2 / (3 * 0.06) - 700 * 0.02 / (3 * 0.06))
    spread += 0.03 * 1300 * (1300 - 1300 * 0.01 * 2 / (3 * 0.06) - 1300 * 0.05 / (3 * 0.06))
    assert cols.moment_loads[-1] @ last == pytest.approx(-spread - sum(3 * (2000 - x) for x in at))
    assert cols.moment_push[:, -1] @ last == pytest.approx([2000 - x for x in at], abs=1e-9)
    assert (cols.sizes_mm > 0).all()
    assert cols.starts_mm[0] == 0
    assert cols.starts_mm[-1] + cols.sizes_mm[-1] == 2000


def test_columns_cannot_be_written_on():
    cols = columns(Beam(**GOOD), [0.0, 900.0])
    for name in ("push_mm", "starts_mm", "sizes_mm", "stiffness_n_mm2", "free", "moment_loads", "moment_push"):
        assert not getattr(cols, name).flags.writeable
    assert not cols.height_loads.flags.writeable
    assert not cols.height_push.flags.writeable
    assert cols.height_push.shape == (2, cols.starts_mm.size, 6)


@pytest.mark.parametrize("at", [[-1.0], [2000.1], [np.nan]])
def test_a_push_that_is_not_on_the_beam_is_refused(at):
    with pytest.raises(ValueError, match="on the beam"):
        columns(Beam(**GOOD), at)
