"""A case of a bench file, solved: its pieces as a beam, and the answer in the file's order and words."""

import itertools

import numpy as np
import pytest

from generator.bench.case import beam_of, solved, solved_cases
from generator.inputs.bench_file import Benches, Case
from generator.inputs.fault import BadInput


def case(name="a", *, length=2000, supports=((0, 0), (2000, 0)), stations=(), **lists):
    """A case with one stiffness and 0.03 N/mm all along, but for what `lists` says."""
    given = {
        "L_mm": length,
        "EI_Nmm2": [{"x0_mm": 0, "x1_mm": length, "EI": 1e8}],
        "distributed_load_N_per_mm": [{"x0_mm": 0, "x1_mm": length, "w0": 0.03, "w1": 0.03}],
        "point_loads": [],
        "supports": [{"x_mm": x, "height_mm": height} for x, height in supports],
        "stress_free_curvature_per_mm": [],
        "stations_mm": list(stations),
    }
    return Case.model_validate({"name": name, "input": {**given, **lists}})


def stiff(*pieces):
    return [{"x0_mm": x0, "x1_mm": x1, "EI": EI} for x0, x1, EI in pieces]


def free(*pieces):
    return [{"x0_mm": x0, "x1_mm": x1, "k0": k0, "k1": k1} for x0, x1, k0, k1 in pieces]


def test_the_lists_are_cut_at_the_ends_of_all_of_them():
    """Every piece linear where it is given and nothing where it is not, whatever the order of the pieces."""
    beam = beam_of(
        case(
            EI_Nmm2=stiff((800, 2000, 3e8), (0, 800, 1e8)),
            distributed_load_N_per_mm=[{"x0_mm": 400, "x1_mm": 1200, "w0": 0.01, "w1": 0.05}],
            stress_free_curvature_per_mm=free((1200, 1600, 4e-5, 8e-5)),
            point_loads=[{"x_mm": 7, "P_N": 1}],
        ).input
    )
    assert list(beam.breaks_mm) == [0, 400, 800, 1200, 1600, 2000]
    assert list(beam.stiffness_n_mm2) == [1e8, 1e8, 3e8, 3e8, 3e8]
    assert list(beam.load_start_n_mm) == pytest.approx([0, 0.01, 0.03, 0, 0])
    assert list(beam.load_end_n_mm) == pytest.approx([0, 0.03, 0.05, 0, 0])
    assert list(beam.free_curvature_start_per_mm) == pytest.approx([0, 0, 0, 4e-5, 0])
    assert list(beam.free_curvature_end_per_mm) == pytest.approx([0, 0, 0, 8e-5, 0])
    assert [(load.x_mm, load.load_n) for load in beam.point_loads] == [(7, 1)]


def test_ends_that_differ_by_rounding_are_one():
    third = 2000 / 3
    given = case(
        EI_Nmm2=stiff((0, third, 1e8), (np.nextafter(third, 1e4), 2000 + 1e-9, 1e8)),
        stress_free_curvature_per_mm=free((-1e-9, third - 1e-9, 1e-5, 1e-5)),
        supports=((-1e-9, 0), (2000 + 1e-9, 0)),
        stations=(2000 + 1e-9,),
    )
    assert list(beam_of(given.input).breaks_mm) == pytest.approx([0, third, 2000], abs=1e-8)
    assert solved(given)["heights_mm"] == pytest.approx([0], abs=1e-6)


def test_lists_are_in_the_order_of_the_case():
    """Two equal spans, even load, handbook: 3/8, 10/8, 3/8 of wl, sag wx(l³ − 3lx² + 2x³)/48EI (from memory)."""
    answer = solved(case(supports=((1000, 0), (2000, 0), (300, -500), (0, 0)), stations=(2000, 1000, 0)))
    assert list(answer) == [
        "name", "status", "heights_mm", "curvature_per_mm", "reactions_N", "gaps_mm", "open_supports",
        "min_curvature_per_mm", "min_curvature_at_mm", "total_load_N",
    ]  # fmt: skip
    assert answer["name"] == "a"
    assert answer["status"] == "ok"
    assert answer["reactions_N"] == pytest.approx([37.5, 11.25, 0, 11.25])
    assert answer["open_supports"] == [2]
    assert [answer["gaps_mm"][at] for at in (0, 1, 3)] == [0, 0, 0]
    sag = 0.03 * 300 * (1000**3 - 3 * 1000 * 300**2 + 2 * 300**3) / (48 * 1e8)
    assert answer["gaps_mm"][2] == pytest.approx(500 - sag, abs=1e-6)
    assert answer["heights_mm"] == pytest.approx([0, 0, 0], abs=1e-9)
    assert answer["curvature_per_mm"] == pytest.approx([0, -0.03 * 1000**2 / 8 / 1e8, 0], abs=1e-12)
    assert answer["total_load_N"] == pytest.approx(60)


def test_where_curvature_jumps_that_of_the_nose_side_is_told():
    """k = M/EI + k0 with M = wL²/8 at mid span of a simple beam (statics), 1.5e4 N·mm here."""
    step = case(EI_Nmm2=stiff((0, 1000, 1e8), (1000, 2000, 3e8)), stations=(1000,))
    assert solved(step)["curvature_per_mm"] == pytest.approx([1.5e4 / 3e8])
    bend = case(
        stress_free_curvature_per_mm=free((0, 1000, 7e-5, 7e-5), (1000, 2000, 2e-5, 4e-5)), stations=(1000, 2000)
    )
    assert solved(bend)["curvature_per_mm"] == pytest.approx([1.5e4 / 1e8 + 2e-5, 4e-5])


def test_least_curvature_at_one_place_has_that_place():
    """Two equal spans, handbook: −wl²/8 over the middle support (from memory)."""
    answer = solved(case(supports=((0, 0), (1000, 0), (2000, 0))))
    assert answer["min_curvature_per_mm"] == pytest.approx(-0.03 * 1000**2 / 8 / 1e8)
    assert answer["min_curvature_at_mm"] == pytest.approx(1000)


@pytest.mark.parametrize(
    ("given", "least"),
    [
        # a simple beam: nothing bends the free ends
        (case(), 0.0),
        # three equal spans, handbook: −wl²/10 over both inner supports (from memory)
        (case(length=3000, supports=((0, 0), (1000, 0), (2000, 0), (3000, 0))), -0.03 * 1000**2 / 10 / 1e8),
        # the load right on the supports, evenly bent when free: the same all along
        (
            case(
                distributed_load_N_per_mm=[],
                point_loads=[{"x_mm": 0, "P_N": 5}, {"x_mm": 2000, "P_N": 5}],
                stress_free_curvature_per_mm=free((0, 2000, 2e-5, 2e-5)),
            ),
            2e-5,
        ),
        # pulled up in two halves alike: least inside each of them
        (
            case(
                length=4000,
                supports=((0, 0), (2000, 0), (4000, 0)),
                distributed_load_N_per_mm=[{"x0_mm": 0, "x1_mm": 4000, "w0": -0.01, "w1": -0.01}],
                point_loads=[{"x_mm": x, "P_N": 1000} for x in (0, 2000, 4000)],
            ),
            None,
        ),
    ],
)
def test_least_curvature_at_several_places_has_no_place(given, least):
    answer = solved(given)
    assert answer["min_curvature_at_mm"] is None
    if least is not None:
        assert answer["min_curvature_per_mm"] == pytest.approx(least, abs=1e-15)
    else:
        assert answer["min_curvature_per_mm"] < -1e-5


def test_a_bench_that_tips_over_tells_where_its_loads_balance():
    answer = solved(case(supports=((1100, 0), (2000, 0))))
    assert answer == {"name": "a", "status": "tips_over", "resultant_x_mm": 1000.0, "total_load_N": 60.0}


def test_no_number_is_minus_zero():
    answer = solved(case(supports=((0, -0.0), (2000, 0)), stations=(0, 2000)))
    numbers = [*answer["heights_mm"], *answer["curvature_per_mm"], *answer["gaps_mm"], answer["min_curvature_per_mm"]]
    assert not any(number == 0 and np.signbit(number) for number in numbers)


def test_random_benches_like_real_ones_are_never_too_extreme():
    rng = np.random.default_rng(3)
    for _ in range(300):
        length = float(rng.uniform(1500, 3500))
        cuts = [0.0, *np.sort(rng.uniform(0, length, rng.integers(0, 6))).tolist(), length]
        spans = list(itertools.pairwise(cuts))
        places = [0.0, length, *rng.uniform(0, length, rng.integers(0, 8)).tolist()]
        answer = solved(
            case(
                length=length,
                EI_Nmm2=stiff(*((a, b, 10 ** rng.uniform(6, 10)) for a, b in spans)),
                stress_free_curvature_per_mm=free(*((a, b, *rng.uniform(-1e-4, 2e-4, 2)) for a, b in spans)),
                supports=[(x, float(rng.uniform(0, 150))) for x in places],
            )
        )
        assert sum(answer["reactions_N"]) == pytest.approx(0.03 * length)


def test_numbers_too_far_apart_are_refused_with_their_place():
    """A kilometre of thread under a ton: the sag has more digits than a float keeps beside a support's height."""
    thread = case("thread", length=1e6, supports=((0, 0), (1e6, 5)), EI_Nmm2=stiff((0, 1e6, 1e-3)))
    with pytest.raises(ArithmeticError):
        solved(thread)
    with pytest.raises(BadInput) as bad:
        solved_cases(Benches((case("good"), thread), ("x.json:1", "x.json:9")))
    assert str(bad.value).startswith("x.json:9: cases[1].input is too extreme to be solved exactly; allowed: ")
