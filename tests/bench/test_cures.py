"""The one change that is named where the rocker is out of reach: applied to the inputs, it makes the plan."""

from dataclasses import replace
from functools import cache

import pytest
from bench_boards import CLAMPS, TABLE, THINGS, board
from laid_benches import BOARDS, NONE, job

from generator.bench.assembly import ClampKind, OnBench
from generator.bench.cures import FOUND, FOUND_COUNTS, FOUND_KG, find_cure
from generator.bench.heights import Placed
from generator.bench.layout import lay
from generator.bench.plan import BenchPlan, Cure
from generator.bench.programme import Loose
from generator.bench.release import BOTTOM, TOP, Route
from generator.bench.setting import Job, recommended
from generator.bench.stack_list import Piece

FEW = (ClampKind("bar clamp", 120, 0.7, 170, 6),)
VERY_STIFF = board(frame_n_mm2=9e8)
HOUSES: dict[str, tuple[OnBench, OnBench | None, tuple[ClampKind, ...], tuple[Loose, ...], Route]] = {
    "keep": (BOARDS["straight"], BOARDS["cut"], CLAMPS, (Loose("sand", 10, 2),), BOTTOM),
    "weight": (BOARDS["straight"], BOARDS["cut"], CLAMPS, NONE, TOP),
    "cut": (BOARDS["stiff"], board(frame_n_mm2=5e8, cut_to_rocker=1.0), FEW, NONE, TOP),
    "cut and weight": (VERY_STIFF, BOARDS["cut"], (), NONE, TOP),
    "much weight": (BOARDS["stiff"], None, FEW, NONE, TOP),
    "nothing": (board(frame_n_mm2=8e9), None, (), NONE, TOP),
}


def laid(name: str, *, on: OnBench | None = None, more: int = 0, route: Route | None = None) -> BenchPlan:
    """One house's bench, with another board, with more weights of 5 kg, or the other way of letting go."""
    first, cut, clamps, loose, usual = HOUSES[name]
    loose = (*loose, Loose("cans of water", FOUND_KG, more)) if more else loose
    board_now = on or first
    return lay(
        board_now, pieces=THINGS, clamps=clamps, loose=loose, table=TABLE, route=route or usual,
        cut=cut if board_now is first else None,
    )  # fmt: skip


@cache
def missed(name: str) -> BenchPlan:
    """The bench as the house has it."""
    return laid(name)


def count(placed: tuple[Placed, ...]) -> int:
    return sum(one.count for one in placed)


def test_each_house_misses_its_rocker_and_is_told_its_own_cure():
    plans = {name: missed(name) for name in HOUSES}
    assert not any(plan.reached for plan in plans.values())
    named = {name: plan.cure.change if plan.cure else None for name, plan in plans.items()}
    assert named == {
        "keep": "keep", "weight": "weight", "cut": "cut", "cut and weight": "cut and weight",
        "much weight": "weight", "nothing": None,
    }  # fmt: skip


def test_left_on_the_bench_the_same_things_reach_it():
    mended = laid("keep", route=TOP)
    assert mended.reached
    assert abs(mended.deviation_mm) == pytest.approx(missed("keep").cure.deviation_mm)
    assert missed("keep").cure.placed == ()


@pytest.mark.parametrize(("name", "most"), [("weight", FOUND_COUNTS[0]), ("much weight", FOUND_COUNTS[1])])
def test_with_the_weights_that_are_missing_it_is_reached(name, most):
    cure = missed(name).cure
    assert 0 < count(cure.placed) <= most
    assert all((one.name, one.mass_kg) == (FOUND, FOUND_KG) for one in cure.placed)
    assert {one.x_mm for one in cure.placed} <= set(HOUSES[name][0].rib_mm)
    mended = laid(name, more=count(cure.placed))
    assert mended.reached
    assert abs(mended.deviation_mm) <= 2


def test_more_weight_than_a_frame_is_recut_for_is_more_than_five():
    assert count(missed("much weight").cure.placed) > FOUND_COUNTS[0]


def test_with_its_frame_cut_to_the_rocker_it_is_reached_and_the_weights_that_would_do_instead_are_named():
    cure = missed("cut").cure
    mended = laid("cut", on=HOUSES["cut"][1], route=recommended(HOUSES["cut"][1]))
    assert mended.reached
    assert abs(mended.deviation_mm) == pytest.approx(cure.deviation_mm)
    assert cure.placed == ()
    assert FOUND_COUNTS[0] < count(cure.instead) <= FOUND_COUNTS[1]
    assert laid("cut", more=count(cure.instead)).reached


def test_cut_to_the_rocker_and_with_weights_it_is_reached_and_by_neither_alone():
    cure, cut = missed("cut and weight").cure, HOUSES["cut and weight"][1]
    way = recommended(cut)
    assert not laid("cut and weight", on=cut, route=way).reached
    assert not laid("cut and weight", more=FOUND_COUNTS[0]).reached
    assert laid("cut and weight", on=cut, more=count(cure.placed), route=way).reached


# Which changes are tried, and in which order: benches are not laid here.


class Bench:
    """Stands in for laying benches: notes what is tried and reaches the rocker at the change asked for."""

    def __init__(self, at: int | None, fails: tuple[int, ...] = ()) -> None:
        self.at, self.fails = at, fails
        self.tried: list[tuple[int, OnBench, Route]] = []

    def __call__(self, asked: Job, route: Route) -> BenchPlan:
        number = len(self.tried)
        found = next((one.count for one in asked.loose if one.name == FOUND), 0)
        self.tried.append((found, asked.board, route))
        if number in self.fails:
            raise ArithmeticError
        placed = (Placed(FOUND, FOUND_KG, found, 415.0), Placed("sand", 10, 1, 835.0)) if found else ()
        return replace(missed("weight"), reached=number == self.at, placed=placed, deviation_mm=-1.25)


def cure_by(lay_again: Bench, *, route: Route = BOTTOM, cut: OnBench | None = BOARDS["cut"]) -> Cure | None:
    return find_cure(job("straight", NONE), replace(missed("weight"), route=route), cut, lay_again)


def test_the_easiest_change_is_tried_first():
    """Off after the bottom panel was asked for against the sums' advice, so the cut frame is tried that way too."""
    bench, straight, cut = Bench(None), BOARDS["straight"], BOARDS["cut"]
    assert missed("weight").best_route == TOP
    assert cure_by(bench) is None
    assert bench.tried == [
        (0, straight, TOP), (5, straight, BOTTOM), (0, cut, BOTTOM), (5, cut, BOTTOM), (24, straight, BOTTOM),
    ]  # fmt: skip


def test_who_left_it_to_the_sums_leaves_it_to_them_for_a_cut_frame_too():
    """One cut 1.7 times as deep may come off early, the straight one had better stay."""
    bench, straight, cut = Bench(None), BOARDS["straight"], BOARDS["cut too deep"]
    assert (recommended(straight), recommended(cut)) == (TOP, BOTTOM)
    assert cure_by(bench, route=TOP, cut=cut) is None
    assert bench.tried == [(5, straight, TOP), (0, cut, BOTTOM), (5, cut, BOTTOM), (24, straight, TOP)]


def test_what_there_is_already_or_is_cut_already_is_not_tried():
    bench = Bench(None)
    assert cure_by(bench, route=TOP, cut=None) is None
    assert [found for found, _, _ in bench.tried] == [5, 24]


@pytest.mark.parametrize(("at", "change"), list(enumerate(["keep", "weight", "cut", "cut and weight", "weight"])))
def test_the_first_change_that_does_is_named_with_the_weights_to_find_and_no_others(at, change):
    cure = cure_by(Bench(at))
    assert cure.change == change
    assert cure.deviation_mm == 1.25
    assert all(one.name == FOUND for one in cure.placed)
    assert count(cure.placed) == {0: 0, 1: 5, 2: 0, 3: 5, 4: 24}[at]


def test_a_change_on_which_no_board_would_bear_is_passed_over():
    assert cure_by(Bench(2, fails=(0, 1))).change == "cut"
    assert cure_by(Bench(None, fails=(0, 1, 2, 3, 4))) is None


def test_a_house_without_the_right_heights_is_told_them_and_with_them_the_bench_stands():
    tin, can, brick, card = THINGS[0], THINGS[1], THINGS[2], THINGS[7]
    few = (replace(tin, count=1), replace(can, count=2), replace(brick, count=2), replace(card, count=6))

    def laid_on(pieces: tuple[Piece, ...]) -> BenchPlan:
        return lay(BOARDS["cut"], pieces=pieces, clamps=CLAMPS, loose=NONE, table=TABLE)

    poor = laid_on(few)
    assert not poor.reached
    assert poor.cure is not None
    assert poor.cure.change == "piece"
    assert {one.support for one in poor.cure.pieces} == {i for i, s in enumerate(poor.supports) if s.stack is None}
    found = tuple(
        Piece(f"block for {one.support}", "block", (one.least_mm + one.most_mm) / 2, 80, 0.5, one.takes_kg, 1)
        for one in poor.cure.pieces
    )
    assert laid_on((*few, *found)).reached
    too_high = tuple(replace(one, height_mm=one.height_mm + 4) for one in found)
    assert not laid_on((*few, *too_high)).reached
