"""What becomes of the curve once the glue is hard."""

from dataclasses import dataclass, replace
from functools import cache

import numpy as np
import pytest
from laid_benches import BOARDS, bench_of, job, narrow_tops, plan_of, points
from layered_board import CELL_MM, Layer, State, above_tangent, at_rest, heights, loose, middles

from generator.bench.assembly import Sections
from generator.bench.beam import Beam, PointLoad
from generator.bench.contact import solve
from generator.bench.release import BOTTOM, TOP, Released, clamps_off, cured, foreseen_loss, released
from generator.bench.springback import spring_back
from generator.bench.tops import rest_on
from generator.quantities import fixed

LENGTH, LOW = 2000.0, 900.0


def uniform(
    *, loose_n_mm2=2e8, glued=6e8, panel=1e-3, closed=1e12, weight=0.0, panel_weight=0.0, free=0.0, pieces=4
) -> Sections:
    """A board that is the same all along."""

    def all_along(value: float):
        return fixed(np.full(pieces, value))

    return Sections(
        fixed(np.linspace(0, LENGTH, pieces + 1)),
        all_along(loose_n_mm2),
        all_along(glued),
        all_along(panel),
        all_along(closed),
        all_along(weight),
        all_along(weight),
        all_along(panel_weight),
        all_along(panel_weight),
        all_along(free),
        all_along(free),
    )


def let_go(sections: Sections, loads, tops, low_point_mm=LENGTH / 2) -> Released:
    points = [PointLoad(*load) for load in loads]
    bent = rest_on(sections.beam(points), narrow_tops(*zip(*tops, strict=True))).bent
    return released(bent, sections, narrow_tops(*zip(*tops, strict=True)), points, low_point_mm=low_point_mm)


def test_lifting_off_gives_back_what_the_moment_bent_the_glued_board():
    """On two tips with P in the middle the glued board gives back P·L³/48 E·I (AISC case 7: from memory)."""
    loss = let_go(uniform(), [(1000, 50)], [(0, 0), (2000, 0)]).lifted
    assert [loss.tail_mm, loss.nose_mm] == pytest.approx([50 * 2000**3 / (48 * 6e8)] * 2, rel=1e-4)


@pytest.mark.parametrize("layers", [2, 3, 4, 6])
def test_n_equal_layers_keep_one_less_one_over_n_squared(layers):
    """n·e loose, n³·e glued (first principles)."""
    e = 3e7
    after = let_go(uniform(loose_n_mm2=layers * e, glued=layers**3 * e), [(800, 60)], [(0, 0), (1500, 0), (2000, 30)])
    assert after.lifted.kept_share == pytest.approx(1 - 1 / layers**2, rel=1e-6)


def test_a_flat_top_panel_takes_its_share_of_the_curve_that_was_left():
    """Glued 6, loose 2: two thirds of the bend are left; a panel of 1.5 beside 6 leaves 0.8 of them."""
    after = let_go(uniform(panel=1.5e8), [(1000, 50)], [(0, 0), (2000, 0)])
    assert after.free_top.kept_share == pytest.approx(2 / 3 * 0.8, rel=1e-6)
    assert after.free_top.nose_mm > after.lifted.nose_mm > 0


def test_with_a_box_that_gives_nothing_and_a_panel_without_stiffness_or_weight_nothing_is_lost():
    after = let_go(uniform(closed=1e20), [(700, 60), (1500, 40)], [(0, 40), (600, 5), (1400, 0), (2000, 60)], LOW)
    assert np.abs(after.kept.loss_mm).max() < 1e-4
    assert after.kept.kept_share == pytest.approx(1, abs=1e-6)


@pytest.mark.parametrize("name", ["straight", "cut", "cut too deep"])
def test_the_hard_glue_alone_moves_nothing(name):
    """With the same loads on and no top panel the glued board lies as the loose one lay, and bears alike.

    Tolerances: the product lets the pair's own curvature run straight between breaks, where own weight bows it a bit.
    """
    bench, sections = bench_of(name, TOP), BOARDS[name].value
    none = replace(
        sections,
        panel_n_mm2=fixed(1e-6 * sections.panel_n_mm2),
        panel_load_start_n_mm=fixed(0 * sections.panel_load_start_n_mm),
        panel_load_end_n_mm=fixed(0 * sections.panel_load_end_n_mm),
    )
    on = bench.laid.value.on
    after = released(on.bent, none, bench.laid.tops, bench.loads.points(), low_point_mm=1035.0)
    x = np.linspace(0, 2300, 93)
    assert after.with_top.bent.heights_mm(x) == pytest.approx(on.bent.heights_mm(x), abs=2e-3)
    assert after.with_top.loads_n == pytest.approx(on.loads_n, abs=0.05)


@pytest.mark.parametrize("name", ["straight", "flat"])
def test_a_straight_frame_loses_more_with_the_flat_panel_on_and_little_on_the_bench(name):
    after = bench_of(name, TOP).laid.value.released
    assert after.free_top.tail_mm > after.lifted.tail_mm > after.kept.tail_mm > 0
    assert after.free_top.nose_mm > after.lifted.nose_mm > after.kept.nose_mm > 0
    assert after.lost(BOTTOM) is after.free_top
    assert after.lost(TOP) is after.kept


@pytest.mark.parametrize("name", ["straight", "cut", "cut too deep", "flat"])
def test_supports_carry_all_that_lies_on_them_at_every_step(name):
    bench = bench_of(name, TOP)
    on, own = bench.laid.value.on, 42.0
    lying = own + sum(p.load_n for p in bench.loads.points())
    assert on.loads_n.sum() == pytest.approx(lying, rel=1e-6)
    assert bench.laid.value.released.with_top.loads_n.sum() == pytest.approx(lying + 0.45 * own, rel=1e-6)
    assert clamps_off(on.bent, BOARDS[name].value, bench.laid.tops).loads_n.sum() == pytest.approx(own, rel=1e-6)


def test_the_loss_on_lifting_off_is_what_spring_back_says_of_the_bench():
    on, plan = job("straight"), plan_of("straight", BOTTOM)
    tops, sections = narrow_tops(plan.x_mm, plan.heights_mm), on.board.value
    bent = rest_on(sections.beam(points(on, plan)), tops).bent
    x = np.linspace(0, 2300, 23001)
    by_hand = spring_back(
        x_mm=x,
        curvature_per_mm=bent.curvature_per_mm(x),
        moment_n_mm=bent.moment_n_mm(x),
        glued_n_mm2=sections.glued_n_mm2[sections.piece_at(x)],
        low_point_mm=1035.0,
    )
    after = released(bent, sections, tops, points(on, plan), low_point_mm=1035.0)
    assert after.lifted.loss_at(x) == pytest.approx(by_hand.loss_mm, abs=0.01)


def test_where_the_stiffness_jumps_the_loss_is_exact():
    """A cantilever's other half: span 2000, P = 40 in the middle, 6e8 glued inside and 1e8 outside 501 mm of the tips.

    By the moment-area theorem the tip drops against the middle by ∫ M·s/E·I ds, M = 20·s, s from the tip: first 501 mm
    on 1e8, the rest on 6e8 (first principles).
    """
    breaks, inside = np.array([0.0, 501.0, 1499.0, 2000.0]), np.array([1e8, 6e8, 1e8])
    plain = uniform(pieces=3)
    sections = replace(plain, breaks_mm=fixed(breaks), glued_n_mm2=fixed(inside), loose_n_mm2=fixed(inside / 2))
    loss = let_go(sections, [(1000, 40)], [(0, 0), (2000, 0)]).lifted
    by_hand = 20 / 3 * (501**3 / 1e8 + (1000**3 - 501**3) / 6e8)
    assert [loss.tail_mm, loss.nose_mm] == pytest.approx([by_hand, by_hand], rel=1e-4)


def test_a_board_that_tips_over_has_no_curve_to_cure():
    beam = uniform(weight=0.01).beam()
    with pytest.raises(ValueError, match="tips over"):
        cured(solve(beam, x_mm=[0.0, 300.0], height_mm=[0.0, 0.0]), uniform())


# What a bench loses that was set over for it.


@pytest.mark.parametrize("free", [0.0, 2e-5, 6e-5])
def test_the_foreseen_loss_of_an_even_curve_by_hand(free):
    """Loose 2, glued 6, panel 0.5: let go it must have k·6.5/6, so the bench has (6.5/6 k − free/3) / (2/3).
    A curvature c more than wanted stands c·s²/2 higher at s from the low point."""
    k, x = 4e-5, np.linspace(0, LENGTH, 81)
    sections = uniform(panel=0.5e8, free=free)
    loss = foreseen_loss(sections, x_mm=x, wanted_per_mm=np.full(81, k), route=BOTTOM, low_point_mm=LOW)
    more = (6.5 / 6 * k - free / 3) * 3 / 2 - k
    assert loss.tail_mm == pytest.approx(more * 900**2 / 2)
    assert loss.nose_mm == pytest.approx(more * 1100**2 / 2)


def test_left_on_the_bench_a_stiff_box_loses_little_by_hand():
    """Loose 2 and panel 0.5 against a box of 50: s = 0.05, the pair's own rocker counts 2/2.5 of itself."""
    k, free, x = 4e-5, 1e-5, np.linspace(0, LENGTH, 81)
    sections = uniform(panel=0.5e8, free=free, closed=5e9)
    loss = foreseen_loss(sections, x_mm=x, wanted_per_mm=np.full(81, k), route=TOP, low_point_mm=LOW)
    more = (k - 0.05 * 0.8 * free) / 0.95 - k
    assert loss.nose_mm == pytest.approx(more * 1100**2 / 2)


@pytest.mark.parametrize("name", ["straight", "cut", "cut too deep"])
@pytest.mark.parametrize("route", [BOTTOM, TOP])
def test_a_bench_that_has_the_foreseen_curve_everywhere_loses_what_was_foreseen(name, route):
    """Layer by layer at each place: the moment that such a bench puts in is taken out again by the section as it is
    then, and the wanted curvature is what is left."""
    on, sections = BOARDS[name], BOARDS[name].value
    x = np.linspace(0, 2300, 4601)
    wanted = 3e-5 + 2e-8 * x
    loss = foreseen_loss(sections, x_mm=x, wanted_per_mm=wanted, route=route, low_point_mm=on.low_point_mm)
    bench = wanted[1:-1] + np.diff(loss.loss_mm, n=2) / 0.5**2
    piece = sections.piece_at(x[1:-1])
    ahead, behind = sections.piece_at(x[:-2]), sections.piece_at(x[2:])
    inside = (ahead == piece) & (behind == piece)
    share = (x[1:-1] - sections.breaks_mm[piece]) / np.diff(sections.breaks_mm)[piece]
    first, last = sections.free_curvature_start_per_mm[piece], sections.free_curvature_end_per_mm[piece]
    free = first + (last - first) * share
    loose_ei, glued = sections.loose_n_mm2[piece], sections.glued_n_mm2[piece]
    panel, closed = sections.panel_n_mm2[piece], sections.closed_n_mm2[piece]
    moment = loose_ei * (bench - free)
    if route == BOTTOM:
        left = (bench - moment / glued) * glued / (glued + panel)
    else:
        left = bench - (moment + panel * bench) / closed
    assert left[inside] == pytest.approx(wanted[1:-1][inside], abs=2e-9)


# One board from the bench to the box, by fibres.

PIECES = 20


@dataclass(frozen=True)
class Chain:
    """The product's board and the layers that it stands for."""

    sections: Sections
    frame: Layer
    bottom: Layer
    top: Layer
    weight: np.ndarray
    panel_weight: np.ndarray
    loads: list[tuple[float, float]]
    supports: list[tuple[float, float]]


@cache
def chain(cut: float) -> Chain:
    """A frame 20 to 55 deep on a panel of 6 × 200 to 500; its bottom cut to `cut` of a rocker."""
    breaks = np.linspace(0, LENGTH, PIECES + 1)
    along = np.repeat((breaks[1:] + breaks[:-1]) / 2 / LENGTH, round(LENGTH / PIECES / CELL_MM))
    depth, width = 20 + 35 * np.sin(np.pi * along), 200 + 300 * np.sin(np.pi * along)
    x, zero = middles(LENGTH), np.zeros(round(LENGTH / CELL_MM))
    own = cut * (3e-5 + 6e-8 * np.abs(x - LOW))
    frame = Layer(6500.0, zero + 12, zero, depth, own)
    bottom, top = Layer(7700.0, width, zero - 6, zero, zero), Layer(7700.0, width, depth, depth + 6, zero)
    weight, panel_weight = 0.004 + 0.016 * np.sin(np.pi * x / LENGTH), 0.006 + 0 * x

    def stiff(state: State) -> np.ndarray:
        return 1 / state.give_per_n_mm2()

    def each(values: np.ndarray):
        return fixed(values[:: round(LENGTH / PIECES / CELL_MM)])

    def at_breaks(values: np.ndarray):
        line = np.interp(breaks, x, values)
        return fixed(line[:-1]), fixed(line[1:])

    pair = loose(frame, bottom)
    rise = cut * (3e-5 + 6e-8 * np.abs(breaks - LOW))
    share = each(frame.stiffness_n_mm2()) / each(stiff(pair))
    sections = Sections(
        fixed(breaks),
        each(stiff(pair)),
        each(stiff(pair.glued())),
        each(top.stiffness_n_mm2()),
        each(stiff(loose(frame, bottom, top).glued())),
        *at_breaks(weight),
        *at_breaks(panel_weight),
        fixed(share * rise[:-1]),
        fixed(share * rise[1:]),
    )
    loads = [(200.0, 12.0), (500.0, 12.0), (700.0, 8.0), (1300.0, 12.0), (1600.0, 40.0), (1800.0, 25.0)]
    supports = [(0.0, 52.0), (400.0, 13.0), (1200.0, 3.0), (2000.0, 96.0)]
    if cut > 1:  # pressed flatter in the middle, where the weights lie
        supports = [(0.0, 40.0), (500.0, 8.0), (1300.0, 8.0), (2000.0, 66.0)]
    return Chain(sections, frame, bottom, top, weight, panel_weight, loads, supports)


@pytest.mark.parametrize("cut", [0.0, 0.9, 1.5], ids=["straight", "cut", "cut too deep"])
def test_from_the_bench_to_the_box_as_the_fibres_have_it(cut):
    """Tolerance 0.05 mm: cells of 1 mm, and weights that run straight between the product's breaks."""
    made = chain(cut)
    state, lies, loads = at_rest(loose(made.frame, made.bottom), made.weight, made.loads, made.supports)
    hard = state.glued()
    lifted = hard.bent_to(np.zeros(lies.size - 1))
    free_top = lifted.with_layer(made.top).bent_to(np.zeros(lies.size - 1))
    off, off_lies, off_loads = at_rest(hard, made.weight, [], made.supports)
    topped, top_lies, top_loads = at_rest(
        hard.with_layer(made.top), made.weight + made.panel_weight, made.loads, made.supports
    )
    kept = topped.glued().bent_to(np.zeros(lies.size - 1))

    points = [PointLoad(*load) for load in made.loads]
    tops = narrow_tops(*zip(*made.supports, strict=True))
    on = rest_on(made.sections.beam(points), tops)
    after = released(on.bent, made.sections, tops, points, low_point_mm=LOW)
    bare = clamps_off(on.bent, made.sections, tops)
    x = np.arange(lies.size) * CELL_MM
    near = {"abs": 0.05}
    assert on.bent.heights_mm(x) == pytest.approx(lies, **near)
    assert on.loads_n == pytest.approx(loads, **near)
    assert bare.bent.heights_mm(x) == pytest.approx(off_lies, **near)
    assert bare.loads_n == pytest.approx(off_loads, **near)
    assert after.with_top.bent.heights_mm(x) == pytest.approx(top_lies, **near)
    assert after.with_top.loads_n == pytest.approx(top_loads, **near)
    for loss, then in ((after.lifted, lifted), (after.free_top, free_top), (after.kept, kept)):
        lost = above_tangent(heights(state.curvature_per_mm - then.curvature_per_mm), LOW)
        assert loss.loss_at(x) == pytest.approx(lost, **near)
    assert np.abs(loads - top_loads).max() > 1  # what the top panel weighs and pulls does count
    assert np.abs(off.moment()).max() < np.abs(state.moment()).max()


def test_the_fibre_model_bends_as_a_handbook_beam_does():
    """So that it can judge: two layers loose and glued under a load in the middle, P·L³/48 E·I (AISC case 7: from
    memory)."""
    one = np.ones(round(LENGTH / CELL_MM))
    layers = [Layer(9000.0, 30 * one, low * one, (low + 8) * one, 0 * one) for low in (0.0, 8.0)]
    for state, second in ((loose(*layers), 2 * 8**3), (loose(*layers).glued(), 16**3)):
        _, lies, _ = at_rest(state, 0 * one, [(1000.0, 30.0)], [(0.0, 0.0), (2000.0, 0.0)])
        assert -lies.min() == pytest.approx(30 * 2000**3 / (48 * 9000 * 30 * second / 12), rel=1e-5)


def test_the_beam_of_what_is_kept_has_the_kept_shape_under_the_same_loads():
    """Off after the bottom panel: laid out with the bench's own loads on it, the whole shape comes from one beam."""
    made = chain(0.9)
    points, tops = [PointLoad(*load) for load in made.loads], narrow_tops(*zip(*made.supports, strict=True))
    on = rest_on(made.sections.beam(points), tops)
    after = released(on.bent, made.sections, tops, points, low_point_mm=LOW)
    x = np.arange(0, LENGTH + 1, 10)
    kept = on.bent.heights_mm(x) - after.lost(BOTTOM).loss_at(x)
    where = [one.low_x_mm for one in tops]
    beam: Beam = made.sections.after_release(points)
    same = solve(beam, x_mm=where, height_mm=np.interp(where, x, kept))
    assert same.reactions_n == pytest.approx(on.loads_n, abs=0.05)
    assert same.heights_mm(x) == pytest.approx(kept, abs=0.01)
