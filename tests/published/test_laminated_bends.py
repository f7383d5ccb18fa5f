"""Layers that are bent together, glued, and let go.

- Boatbuilders' rule for n equal layers: of a camber x on the form, x/n² is lost; 3 in with four layers lose 3/16 in
  (a boatbuilding forum's thread on laminated frames quotes rule and example). Elastic theory gives the same: n loose
  layers are n·e stiff, glued they are n³·e.
- Unequal layers: first principles, written out here fibre by fibre and by the transformed section (textbook, from
  memory).
"""

import numpy as np
import pytest

from generator.bench.beam import Beam, PointLoad
from generator.bench.contact import Bent, solve
from generator.bench.springback import SpringBack, spring_back

LENGTH_MM, INCH_MM = 2000.0, 25.4
STATION_MM = np.linspace(0, LENGTH_MM, 201)


def bent_to(camber_mm: float, loose_n_mm2: float) -> Bent:
    """A weightless pack on a low block in the middle and two high ones at the tips, pressed on right over each."""
    one, places = np.ones(1), (0.0, LENGTH_MM / 2, LENGTH_MM)
    loads = tuple(PointLoad(x, 1e6) for x in places)
    pack = Beam(LENGTH_MM, np.array([0.0, LENGTH_MM]), loose_n_mm2 * one, 0 * one, 0 * one, 0 * one, 0 * one, loads)
    bent = solve(pack, x_mm=places, height_mm=[camber_mm, 0, camber_mm])
    assert bent.touching.all()
    return bent


def let_go(bent: Bent, glued_n_mm2: float) -> SpringBack:
    return spring_back(
        x_mm=STATION_MM,
        curvature_per_mm=bent.curvature_per_mm(STATION_MM),
        moment_n_mm=bent.moment_n_mm(STATION_MM),
        glued_n_mm2=np.full(STATION_MM.size, glued_n_mm2),
        low_point_mm=LENGTH_MM / 2,
    )


@pytest.mark.parametrize("layers", [2, 3, 4, 6, 10])
def test_of_n_equal_layers_one_part_in_n_squared_is_lost(layers):
    width, thick, e_mpa, camber = 120.0, 4.0, 9000.0, 90.0
    loose = layers * e_mpa * width * thick**3 / 12
    loss = let_go(bent_to(camber, loose), e_mpa * width * (layers * thick) ** 3 / 12)
    assert loss.kept_share == pytest.approx(1 - 1 / layers**2)
    assert [loss.tail_mm, loss.nose_mm] == pytest.approx([camber / layers**2] * 2)


def test_three_inches_on_four_layers_lose_three_sixteenths():
    loss = let_go(bent_to(3 * INCH_MM, 4 * 7e6), 4**3 * 7e6)
    assert loss.nose_mm == pytest.approx(3 / 16 * INCH_MM)


def test_one_layer_springs_back_wholly():
    loss = let_go(bent_to(60.0, 7e6), 7e6)
    assert loss.kept_share == pytest.approx(0, abs=1e-9)
    assert loss.tail_mm == pytest.approx(60.0)


UNEQUAL = [
    pytest.param([(9.0, 11000.0), (4.0, 5000.0), (6.0, 8000.0)], id="three timbers"),
    pytest.param([(6.0, 7700.0), (60.0, 650.0)], id="panel on a slotted frame"),
    pytest.param([(3.0, 9000.0), (12.0, 9000.0)], id="thin on thick"),
]


@pytest.mark.parametrize("layers", UNEQUAL)
def test_unequal_layers_lose_what_the_fibres_say(layers):
    """Bent to a curvature k, each layer strains by k(y − its own middle). Glued and let go, all fibres change by one
    curvature c and one stretch s, until no force and no moment is left: ∫E(k(y − mᵢ) − c·y − s) and ∫E(…)y are zero.
    The share c/k is lost."""
    width, top = 100.0, np.cumsum([thick for thick, _ in layers])
    bottom = top - [thick for thick, _ in layers]
    fibres = 2000
    y = np.concatenate([a + (np.arange(fibres) + 0.5) * (b - a) / fibres for a, b in zip(bottom, top, strict=True)])
    e_mpa = np.repeat([e for _, e in layers], fibres)
    area = width * np.repeat(top - bottom, fibres) / fibres
    own = np.repeat((top + bottom) / 2, fibres)
    force, turn, stiff = (float((e_mpa * area * y**p).sum()) for p in (0, 1, 2))
    bent = [float((e_mpa * area * (y - own) * y**p).sum()) for p in (0, 1)]
    lost_share = float(np.linalg.solve([[turn, force], [stiff, turn]], bent)[0])

    loose = sum(e * width * thick**3 / 12 for thick, e in layers)
    middle = [(a + b) / 2 for a, b in zip(bottom, top, strict=True)]
    axis = sum(e * t * m for (t, e), m in zip(layers, middle, strict=True)) / sum(e * t for t, e in layers)
    glued = loose + sum(e * width * t * (m - axis) ** 2 for (t, e), m in zip(layers, middle, strict=True))
    loss = let_go(bent_to(80.0, loose), glued)
    assert 1 - loss.kept_share == pytest.approx(lost_share, rel=1e-5)
    assert loss.nose_mm == pytest.approx(80 * lost_share, rel=1e-5)


def test_two_timbers_by_hand():
    """Width 1: 6 thick of E 2 below, 3 thick of E 1 above. Loose 2·6³/12 + 3³/12 = 38.25. Middles at 3 and 7.5, axis at
    (12·3 + 3·7.5)/15 = 3.9; glued 38.25 + 12·0.9² + 3·3.6² = 86.85. Kept: 48.6 of 86.85."""
    loss = let_go(bent_to(50.0, 38.25), 86.85)
    assert loss.kept_share == pytest.approx(48.6 / 86.85)
