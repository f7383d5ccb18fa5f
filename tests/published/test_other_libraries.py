"""Other people's programs on the same benches.

- PyNiteFEA 3.2, a structural frame library (three-dimensional frame, direct stiffness). It gets the supports that bear
  as ours found them, held at their heights; it does not look for them.
- scipy, `CubicSpline(bc_type="natural")`: a strip of constant stiffness without weight, loaded only right over its
  supports, is that spline if all of them bear.
"""

import numpy as np
import pytest
from frame_library import frame_model
from scipy.interpolate import CubicSpline

from generator.bench.beam import Beam, PointLoad
from generator.bench.contact import Bent, solve

CHUNKS, IN_EACH = 4, 50


def continuous_beam(rng: np.random.Generator) -> tuple[Beam, np.ndarray, np.ndarray]:
    """One to three pieces, up to three loads, three to six supports, everything on whole centimetres.

    Half of the beams are straight when free.
    """
    length = 10.0 * rng.integers(150, 321)
    pieces, supports, loads = (int(n) for n in rng.integers([1, 2, 0], [4, 6, 4]))
    places = 10.0 * rng.permutation(rng.choice(np.arange(6, length / 10 - 6), pieces - 1 + supports + loads, False))
    breaks, x, loaded = np.split(places, [pieces - 1, pieces - 1 + supports])
    free = rng.uniform(-5e-5, 2e-4, (2, pieces)) * rng.integers(0, 2)
    beam = Beam(
        length,
        np.concatenate([[0.0], np.sort(breaks), [length]]),
        10 ** rng.uniform(7, 9, pieces),
        rng.uniform(0.005, 0.08, pieces),
        rng.uniform(0.005, 0.08, pieces),
        *free,
        tuple(PointLoad(float(place), float(rng.uniform(0, 40))) for place in loaded),
    )
    return beam, np.append(x, 0.0), rng.uniform(-12, 12, supports + 1)


def assert_as_the_frame(beam: Beam, bent: Bent, x: np.ndarray, height: np.ndarray) -> None:
    on = bent.touching
    model, nodes = frame_model(beam, x[on], height[on])
    model.analyze_linear()
    heights, slopes = (
        np.array([getattr(model.nodes[f"{i}"], name)["Combo 1"] for i in range(nodes.size)]) for name in ("DY", "RZ")
    )
    loads = [model.nodes[f"{int(np.searchsorted(nodes, place))}"].RxnFY["Combo 1"] for place in x[on]]
    assert bent.reactions_n[on] == pytest.approx(loads, abs=1e-4)
    assert bent.heights_mm(nodes) == pytest.approx(heights, abs=1e-5)
    assert bent.slopes(nodes) == pytest.approx(slopes, abs=1e-7)
    if not beam.free_curvature_start_per_mm.any():
        moments = [-float(model.members[f"{i}"].moment("Mz", 0.0, "Combo 1")) for i in range(nodes.size - 1)]
        assert bent.moment_n_mm(nodes[:-1]) == pytest.approx(moments, abs=0.1)


@pytest.mark.parametrize("chunk", range(CHUNKS))
def test_continuous_beams_lie_as_a_frame_library_lays_them(chunk):
    """200 beams in all. Heights to 1e-5 mm and loads to 1e-4 N: what rounding leaves in the frame's one big system."""
    rng, compared, lifted, bowed = np.random.default_rng([8, chunk]), 0, 0, 0
    while compared < IN_EACH:
        beam, x, height = continuous_beam(rng)
        bent = solve(beam, x_mm=x, height_mm=height)
        if bent.status == "ok":
            compared += 1
            lifted += not bent.touching.all()
            bowed += bool(beam.free_curvature_start_per_mm.any())
            assert_as_the_frame(beam, bent, x, height)
    assert lifted > IN_EACH / 5
    assert IN_EACH / 5 < bowed < IN_EACH * 4 / 5


def test_heavy_loads_over_the_supports_leave_the_natural_spline():
    """Loads right above the supports bend nothing; they only see to it that all supports bear."""
    rng = np.random.default_rng(3)
    for _ in range(40):
        x = np.sort(rng.choice(np.arange(0, 2401.0, 60), rng.integers(3, 9), replace=False))
        height, one, length = rng.uniform(-60, 60, x.size), np.ones(1), float(x[-1] + rng.integers(0, 2) * 300)
        loads = tuple(PointLoad(float(place), 1e8) for place in x)
        beam = Beam(length, np.array([0.0, length]), 2e8 * one, 0 * one, 0 * one, 0 * one, 0 * one, loads)
        bent, spline = solve(beam, x_mm=x, height_mm=height), CubicSpline(x, height, bc_type="natural")
        at = np.linspace(x[0], x[-1], 97)
        assert bent.touching.all()
        assert bent.heights_mm(at) == pytest.approx(spline(at), abs=1e-5)
        assert bent.slopes(at) == pytest.approx(spline(at, 1), abs=1e-7)
        assert bent.curvature_per_mm(at) == pytest.approx(spline(at, 2), abs=1e-9)
        straight_on = spline(x[-1]) + spline(x[-1], 1) * (length - x[-1])
        assert float(bent.heights_mm(length)) == pytest.approx(float(straight_on), abs=1e-5)
