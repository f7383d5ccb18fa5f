"""Which shims bring a board that was read with a tape nearer to what is wanted."""

from itertools import product
from time import process_time

import numpy as np
import pytest
from try_bench import LENGTH, PLACES, RIBS, SHIMS, clamped, data_of, line_mm, solved_again, tops, wanted_mm

from generator.bench.contact import INVERTED_PER_MM
from generator.bench.correction import ALIKE_MM, Correction, best_correction
from generator.bench.programme import LEAST_LOAD_N
from generator.bench.tops import OnTops
from generator.quantities import Floats

READ_AT = np.array([0.0, *RIBS, LENGTH])
HELD = [[1, 1, 2, 2]] * 4
NONE_HELD = [[0, 0, 0, 0]] * 4
NO_WEIGHT = [0.0] * RIBS.size


def read_on(rest: OnTops) -> Floats:
    return rest.bent.heights_mm(READ_AT)


def shape_off(heights_mm: Floats) -> float:
    """Worst distance from the wanted rocker once the best straight line is taken away."""
    off = heights_mm - wanted_mm(READ_AT) - line_mm(READ_AT)
    line = np.polynomial.Polynomial.fit(READ_AT, off, 1)
    return float(np.abs(off - line(READ_AT)).max())


def changes(found: Correction) -> Floats:
    out = np.zeros(4)
    for move in found.moves:
        out[move.support] = move.change_mm
        assert move.change_mm == pytest.approx(sum(n * SHIMS[k][1] for k, n in move.pieces))
    return out


def pieces(found: Correction) -> int:
    return sum(abs(n) for move in found.moves for _, n in move.pieces)


def test_of_all_ways_to_use_four_shims_the_best_is_found_with_the_fewest_pieces():
    """All ways to share 2 of 2 mm and 2 of 0.5 mm, up to three a support, each laid again by the full solve."""
    beam, data = clamped(), data_of()
    data["shims"] = [{"name": "tile", "height_mm": 2.0, "count": 2}, {"name": "card", "height_mm": 0.5, "count": 2}]
    ways = [one for one in product(range(3), repeat=4) if sum(one) <= 2]
    for out_mm in ([0.0, 1.5, -4.0, 1.0], [-2.0, 0.0, -1.0, -3.0], [0.0, -3.0, -3.0, 0.0]):
        now = solved_again(beam, tops(), out_mm, NO_WEIGHT)
        found = best_correction(data, x_mm=READ_AT, read_mm=read_on(now), held=[[0, 0]] * 4)
        tried = []
        for two, half in product(ways, ways):
            if max(np.add(two, half)) > 3:
                continue
            change = 2.0 * np.array(two) + 0.5 * np.array(half)
            rest = solved_again(beam, tops(), out_mm + change, NO_WEIGHT)
            if rest.loads_n.min() >= LEAST_LOAD_N and rest.bent.least_curvature[0] >= INVERTED_PER_MM:
                tried.append((shape_off(read_on(rest)), sum(two) + sum(half)))
        least = min(off for off, _ in tried)
        assert found.before_mm == pytest.approx(shape_off(read_on(now)), abs=0.05)
        assert found.after_mm <= least + ALIKE_MM + 0.02
        assert pieces(found) <= min(count for off, count in tried if off <= least + 1e-9)
        assert found.after_mm < found.before_mm


def test_boards_that_are_not_quite_as_computed_come_nearer():
    """Stiffness and cut of the frame out by a fifth, each stack by up to 4 mm, a tape of 0.4 mm."""
    rng, before, after = np.random.default_rng(81), [], []
    data = data_of()
    for _ in range(25):
        board, out_mm = clamped(rng.uniform(0.8, 1.25), rng.uniform(0.3, 0.5)), rng.uniform(-4, 4, 4)
        now = solved_again(board, tops(), out_mm, NO_WEIGHT)
        read = read_on(now) + rng.normal(0, 0.4, READ_AT.size)
        found = best_correction(data, x_mm=READ_AT, read_mm=read, held=HELD)
        then = solved_again(board, tops(), out_mm + changes(found), NO_WEIGHT)
        before.append(shape_off(read_on(now)))
        after.append(shape_off(read_on(then)))
        assert after[-1] <= before[-1] + 0.4
        assert then.loads_n.min() > 0
        assert then.bent.least_curvature[0] >= INVERTED_PER_MM
        assert found.after_mm <= found.before_mm
        assert np.abs(found.off_mm).max() == pytest.approx(found.after_mm)
        assert found.expected_mm == pytest.approx(read_on(then), abs=3.0)
    assert np.median(after) < 0.65 * np.median(before)


def test_a_stack_too_high_gives_up_what_it_holds():
    """Nothing is left in the house, so the cards come out from under the support itself or go to another one."""
    data, beam = data_of(), clamped()
    for shim in data["shims"]:
        shim["count"] = 0
    now = solved_again(beam, tops(), [0, 4, 0, 0], NO_WEIGHT)
    found = best_correction(data, x_mm=READ_AT, read_mm=read_on(now), held=[[0] * 4, [1, 0, 1, 0], [0] * 4, [0] * 4])
    then = solved_again(beam, tops(), np.array([0, 4, 0, 0]) + changes(found), NO_WEIGHT)
    assert shape_off(read_on(then)) == pytest.approx(found.after_mm, abs=0.05)
    assert found.after_mm < found.before_mm - 0.5
    given = {k: sum(dict(move.pieces).get(k, 0) for move in found.moves) for k in range(4)}
    assert all(n <= 0 for n in given.values())
    assert changes(found)[1] < 0


def test_no_more_is_moved_than_there_is():
    data, beam = data_of(), clamped()
    now = solved_again(beam, tops(), [0, -6, -6, 0], NO_WEIGHT)
    read = read_on(now)
    none = best_correction({**data, "shims": []}, x_mm=READ_AT, read_mm=read, held=[[]] * 4)
    assert none.moves == ()
    assert none.after_mm == none.before_mm > 1
    one = [{"name": "tile", "height_mm": 2.0, "count": 1}]
    few = best_correction({**data, "shims": one}, x_mm=READ_AT, read_mm=read, held=[[0]] * 4)
    assert pieces(few) == 1
    assert few.after_mm < few.before_mm


def test_a_board_as_wanted_is_left_alone():
    """Readings on the wanted curve, a whole bench that lies 8 mm too high and tilted among them."""
    data = data_of()
    right = wanted_mm(READ_AT) + line_mm(READ_AT)
    for read in (right, right + 8 - 5 * READ_AT / LENGTH):
        found = best_correction(data, x_mm=READ_AT, read_mm=read, held=HELD)
        assert found.moves == ()
        assert found.before_mm == pytest.approx(0, abs=0.02)
    assert (found.lift_mm, found.turn_mm) == (pytest.approx(8, abs=0.05), pytest.approx(-5, abs=0.05))


def test_lifting_or_tilting_the_line_changes_no_move():
    data, beam = data_of(), clamped()
    read = read_on(solved_again(beam, tops(), [0, 3, -3, 0], NO_WEIGHT))
    one = best_correction(data, x_mm=READ_AT, read_mm=read, held=HELD)
    other = best_correction(data, x_mm=READ_AT, read_mm=read + 20 - 6 * READ_AT / LENGTH, held=HELD)
    assert one.moves == other.moves
    assert len(one.moves) > 0
    assert other.lift_mm - one.lift_mm == pytest.approx(20, abs=0.1)
    assert other.turn_mm - one.turn_mm == pytest.approx(-6, abs=0.1)


def test_no_move_lets_a_support_go():
    """Lightly loaded middle supports, so that many of the moves that would help would lift the board off one."""
    beam = clamped(2.0, 0.4)
    data = data_of(beam)
    rng, moved = np.random.default_rng(82), 0
    for _ in range(12):
        out_mm = rng.uniform(-3, 3, 4)
        now = solved_again(beam, tops(), out_mm, NO_WEIGHT)
        if now.loads_n.min() <= 0:
            continue
        found = best_correction(data, x_mm=READ_AT, read_mm=read_on(now), held=HELD)
        then = solved_again(beam, tops(), out_mm + changes(found), NO_WEIGHT)
        assert found.loads_n == pytest.approx(then.loads_n, abs=1.0)
        assert then.loads_n.min() >= min(LEAST_LOAD_N, now.loads_n.min()) - 1.0
        moved += bool(found.moves)
    assert moved > 3


def test_moves_and_weights_made_since_are_counted():
    beam, data = clamped(), data_of()
    weights = np.zeros(RIBS.size)
    weights[7] = 24.5
    now = solved_again(beam, tops(), [0, 2, 0, 0], weights)
    told = best_correction(
        data, x_mm=READ_AT, read_mm=read_on(now), held=HELD, shims_mm=[0, 2, 0, 0], weights_n=weights
    )
    then = solved_again(beam, tops(), np.array([0, 2, 0, 0]) + changes(told), weights)
    assert told.expected_mm == pytest.approx(read_on(then), abs=0.05)
    assert told.loads_n == pytest.approx(then.loads_n, abs=0.5)


def test_it_answers_at_once():
    data, took = data_of(), []
    read = read_on(solved_again(clamped(), tops(), [0, 3, -3, 1], NO_WEIGHT))
    for _ in range(5):
        start = process_time()
        best_correction(data, x_mm=READ_AT, read_mm=read, held=HELD)
        took.append(process_time() - start)
    assert min(took) < 0.2


@pytest.mark.parametrize(
    ("changed", "message"),
    [
        ({"x_mm": READ_AT[:3], "read_mm": READ_AT[:3]}, "4 places"),
        ({"read_mm": READ_AT[:5]}, "one finite"),
        ({"read_mm": READ_AT * np.nan}, "one finite"),
        ({"x_mm": READ_AT + 10}, "on the board"),
        ({"held": [[0, 0, 0, 0]] * 3}, "one list a support"),
        ({"held": [[0, 0]] * 4}, "one number a shim"),
    ],
)
def test_wrong_calls_are_refused(changed, message):
    given = {"x_mm": READ_AT, "read_mm": wanted_mm(READ_AT), "held": NONE_HELD, **changed}
    with pytest.raises(ValueError, match=message):
        best_correction(data_of(), **given)


def test_a_board_that_tips_over_cannot_be_corrected():
    data = data_of(on=[tops()[0], tops()[2]])
    weights = [0.0] * (RIBS.size - 1) + [200.0]
    read = wanted_mm(READ_AT) + line_mm(READ_AT)
    assert PLACES[2] < RIBS[-1]
    with pytest.raises(ArithmeticError, match="tips over"):
        best_correction(data, x_mm=READ_AT, read_mm=read, held=[[0] * 4] * 2, weights_n=weights)
