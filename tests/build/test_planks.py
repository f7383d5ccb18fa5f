"""Planks for two panels: laws that any layout must keep, and the best choice found by trying all of them."""

import itertools
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.build.planks import Allowance, PlankPlan, Planks, plan_planks

ALLOWANCE = Allowance(joint_mm=0.5, overlap_mm=48, kerf_mm=2, stagger_mm=200)
BOUGHT = Planks(95, 2400, None)
sizes = st.tuples(st.floats(40, 200), st.floats(700, 3200), st.integers(1, 14))
stocks = st.lists(sizes, max_size=4).map(lambda rows: [Planks(*row) for row in rows])


def plan(length=2300.0, width=510.0, stock=(), bought=BOUGHT, allowance=ALLOWANCE) -> PlankPlan:
    return plan_planks(length_mm=length, width_mm=width, stock=stock, bought=bought, allowance=allowance)


def holds(made: PlankPlan, stock, *, length, width):
    """What any plan must keep."""
    have = {}
    for one in stock:
        have[one.width_mm, one.length_mm] = have.get((one.width_mm, one.length_mm), 0) + one.have
    for use in made.uses:
        assert use.used <= have.get((use.width_mm, use.length_mm), 0)
        assert not (use.buy and use.have)
    assert made.waste_mm2 >= -1e-3
    for panel in made.panels:
        assert panel.width_mm >= width - 1e-3
        assert panel.glue_lines == len(panel.rows) - 1
        assert panel.width_mm == pytest.approx(sum(panel.widths_mm) - panel.glue_lines * ALLOWANCE.joint_mm)
        for row in panel.rows:
            assert row.start_mm <= 1e-6
            assert row.end_mm >= length - 1e-6
            joined = sum(row.pieces_mm) - len(row.joints_mm) * ALLOWANCE.overlap_mm
            assert joined == pytest.approx(row.end_mm - row.start_mm)
            assert len(row.joints_mm) == len(row.pieces_mm) - 1
            assert list(row.joints_mm) == sorted(row.joints_mm)
            assert all(0 < at < length for at in row.joints_mm)
        for one, other in itertools.pairwise(panel.rows):
            assert other.from_mm - one.from_mm == pytest.approx(one.width_mm - ALLOWANCE.joint_mm)
        if panel.mirrored:
            assert panel.widths_mm == panel.widths_mm[::-1]
    wood = sum(sum(row.pieces_mm) * row.width_mm for panel in made.panels for row in panel.rows)
    assert wood <= made.opened_mm2 + 1e-3


@settings(max_examples=60, deadline=None)
@given(stock=stocks, length=st.floats(1300, 3000), width=st.floats(300, 600))
def test_any_stock_gives_two_whole_panels_from_no_more_than_there_is(stock, length, width):
    made = plan(length, width, stock)
    holds(made, stock, length=length, width=width)
    for panel in made.panels:
        assert panel.staggered_mm >= ALLOWANCE.stagger_mm - 1e-6


@settings(max_examples=25, deadline=None)
@given(stock=stocks, extra=sizes)
def test_another_heap_of_planks_never_makes_you_buy_more(stock, extra):
    assert plan(stock=[*stock, Planks(*extra)]).buy <= plan(stock=stock).buy


@settings(max_examples=40, deadline=None)
@given(width=st.floats(200, 700), plank=st.floats(30, 300), narrower=st.floats(0.3, 1))
def test_more_planks_never_make_fewer_glue_lines_or_less_glue(width, plank, narrower):
    few = plan(width=width, bought=Planks(plank, 2400, None))
    many = plan(width=width, bought=Planks(max(20, narrower * plank), 2400, None))
    assert many.planks >= few.planks or many.bottom.glue_lines >= few.bottom.glue_lines
    if many.planks > few.planks:
        assert many.bottom.glue_lines >= few.bottom.glue_lines
    for made, each in ((few, plank), (many, max(20, narrower * plank))):
        rows = math.ceil((width - 0.5) / (each - 0.5) - 1e-9)
        assert len(made.bottom.rows) == len(made.top.rows) == rows
        assert made.planks == 2 * rows


def least_by_trying(stock, *, width):
    """Least width opened by trying every count of every size for both panels; all planks reach the whole length."""
    best = math.inf
    ranges = [range(one.have + 1) for one in stock]
    fits = [
        (counts, sum(n * one.width_mm for n, one in zip(counts, stock, strict=True)))
        for counts in itertools.product(*ranges)
        if sum(n * (one.width_mm - 0.5) for n, one in zip(counts, stock, strict=True)) >= width - 0.5
    ]
    for (one, first), (other, second) in itertools.combinations_with_replacement(fits, 2):
        if all(a + b <= size.have for a, b, size in zip(one, other, stock, strict=True)):
            best = min(best, first + second)
    return best


@settings(max_examples=30, deadline=None)
@given(
    widths=st.lists(st.integers(60, 160), min_size=2, max_size=3, unique=True).filter(
        lambda w: min(b - a for a, b in itertools.pairwise(sorted(w))) > 3
    ),
    counts=st.tuples(st.integers(1, 7), st.integers(1, 7), st.integers(1, 7)),
)
def test_no_other_choice_of_whole_planks_opens_less_wood(widths, counts):
    stock = [Planks(float(w), 2400.0, n) for w, n in zip(widths, counts, strict=False)]
    made, best = plan(width=400.0, stock=stock), least_by_trying(stock, width=400.0)
    assert (made.buy == 0) == math.isfinite(best)
    if made.buy == 0:
        assert made.opened_mm2 == pytest.approx(best * 2400)


def test_short_pieces_share_a_plank():
    """Planks of 1900 for 2400: a row is one plank and 548 mm, and three such pieces come out of one plank."""
    made = plan(length=2400, width=514, bought=Planks(95, 1900, None))
    assert [row.pieces_mm for row in made.bottom.rows] == [(548, 1900), (1900, 548)] * 3
    assert made.planks == 12 + 4
    assert made.bottom.staggered_mm == pytest.approx(2400 - 2 * 548 + 48)


def test_planks_just_too_short_to_meet_get_a_third_piece():
    made = plan(length=2820, width=300, bought=Planks(100, 1397, None))
    assert all(len(row.pieces_mm) == 3 for row in made.bottom.rows)
    assert min(min(row.pieces_mm) for row in made.bottom.rows) >= 200


def test_two_rows_can_come_out_of_one_long_plank():
    made = plan(length=2000, width=300, bought=Planks(110, 4100, None))
    assert made.planks == 3
    assert made.bottom.end_joints == 0


def test_the_widest_lie_in_the_middle_and_both_panels_are_alike():
    made = plan(length=2372, width=514.5, stock=[Planks(95, 2450, 12), Planks(70, 2450, 6)])
    assert made.bottom.widths_mm == (70, 95, 95, 95, 95, 70)
    assert made.alike
    assert made.bottom.mirrored
    assert made.buy == 0
    assert [(use.have, use.used) for use in made.uses] == [(12, 8), (6, 4)]


def test_what_is_missing_is_bought_in_the_kit_s_size():
    made = plan(stock=[Planks(95, 2400, 5)])
    assert made.buy == made.planks - 5
    assert next(use for use in made.uses if use.buy).have == 0


def test_planks_of_nearly_one_width_share_a_row():
    made = plan(length=2400, width=180, stock=[Planks(100, 1500, 2), Planks(101, 1400, 6)])
    assert made.buy == 0
    assert set(made.bottom.widths_mm) == {100}


def test_planks_too_short_to_keep_joins_apart_are_left_alone():
    made = plan(stock=[Planks(95, 300, 100)])
    assert all(use.used == 0 for use in made.uses if use.length_mm == 300)


def test_if_only_such_planks_are_sold_the_joins_come_nearer_and_the_plan_says_so():
    made = plan(bought=Planks(95, 420, None))
    assert made.bottom.staggered_mm < 200
    holds(made, [], length=2300, width=510)


def test_offcuts_are_what_the_pieces_leave():
    made = plan(length=2400, width=514, bought=Planks(95, 1900, None))
    rest = 1900 - 3 * 548 - 3 * 2
    assert [(cut.length_mm, cut.count) for cut in made.offcuts] == [(pytest.approx(rest), 4)]


@pytest.mark.parametrize(("length", "width"), [(0, 500), (2000, -1), (float("nan"), 500)])
def test_a_panel_has_a_size(length, width):
    with pytest.raises(ValueError, match="above 0"):
        plan(length, width)


def test_planks_shorter_than_their_joins_are_refused():
    with pytest.raises(ValueError, match="shorter than their end joins"):
        plan(bought=Planks(95, 40, None))
