"""What the demo guides say of the frame's checks, the cut, clamps in goes and pressing weights."""

import numpy as np
import pytest

from generator.sums.asked import answered
from tests.demos import SLUGS, figures_of


@pytest.fixture(scope="module")
def demos():
    return {slug: figures_of(slug) for slug in SLUGS}


def value(figures, key):
    return figures.values[key].value


def test_the_diagonals_join_two_ribs_of_the_board_and_are_as_long_as_their_corners_are_apart(demos):
    for figures in demos.values():
        first, second = figures.said["diagonal_first"], figures.said["diagonal_second"]
        assert first < second
        x, half = (
            [value(figures, f"frame.rib.{n}.{part}") for n in (first, second)] for part in ("from_tail", "half_width")
        )
        flat = np.hypot(x[1] - x[0], sum(half))
        assert flat - 1e-9 <= value(figures, "frame.diagonal") <= flat + 2  # corners lie a little higher or lower
        assert 1 < value(figures, "frame.diagonal_limit") < 10


def test_a_stick_is_longer_than_the_frame_is_wide(demos):
    for figures in demos.values():
        widest = max(2 * value(figures, f"{row['key']}.half_width") for row in figures.rows["ribs"])
        assert value(figures, "frame.twist_stick") >= widest + 200


def test_all_ribs_go_in_within_the_goes_that_are_told(demos):
    for figures in demos.values():
        ribs, a_go = value(figures, "frame.ribs"), value(figures, "frame.ribs_a_go")
        assert 1 <= a_go <= ribs
        assert a_go * value(figures, "frame.rib_goes") >= ribs
        assert value(figures, "frame.joints_spine") + value(figures, "frame.joints_strips") == value(
            figures, "frame.joints"
        )


def test_the_page_shows_the_lesser_of_the_sum_and_what_is_usual(demos):
    for figures in demos.values():
        lesser = min(value(figures, "cut.overhang_sum"), value(figures, "practice.line_past_table"))
        assert value(figures, "cut.overhang") == lesser
        assert (figures.said["cut.way"] == "usual") == (lesser == value(figures, "practice.line_past_table"))


def test_each_side_is_cut_from_its_widest_place_to_both_tips(demos):
    for figures in demos.values():
        rows, trace = figures.rows["cut_stretches"], figures.curves["outline.trace"]
        widest = trace.x_mm[int(np.argmax(trace.y))]
        starts = [value(figures, f"{row['key']}.from") for row in rows]
        assert [row["tip"] for row in rows if row["tip"]] == ["tail", "nose"]
        for way in ("tail", "nose"):
            first = next(i for i, row in enumerate(rows) if row["way"] == way)
            assert starts[first] == pytest.approx(widest, abs=25)
        for row in rows:
            ends = [value(figures, f"{row['key']}.{part}") for part in ("from", "to")]
            assert (ends[1] < ends[0]) == (row["way"] == "tail")
        assert value(figures, "cut.settings") == 2 * len(rows)


def test_clamp_pairs_run_from_the_middle_outwards_nose_and_tail_in_turn(demos):
    for figures in demos.values():
        places = {row["n"]: value(figures, f"{row['key']}.from_tail") for row in figures.rows["ribs"]}
        middle = value(figures, "board.length") / 2
        pairs = sorted(figures.rows["clamp_pairs"], key=lambda row: row["order"])
        away = [abs(places[row["rib"]] - middle) for row in pairs]
        assert away[0] == min(abs(x - middle) for x in places.values())
        sides = [places[row["rib"]] > places[pairs[0]["rib"]] for row in pairs[1:]]
        assert all(a != b for a, b in zip(sides[::2], sides[1::2], strict=False))


def test_every_rib_is_in_one_go_and_a_go_uses_no_more_than_there_is(demos):
    for figures in demos.values():
        goes = figures.rows["clamp_goes"]
        ribs = [one["rib"] for go in goes for one in go["sets"]]
        assert sorted(ribs) == [row["n"] for row in figures.rows["ribs"]]
        assert all(len(go["sets"]) <= value(figures, "clamp.pairs_have") for go in goes)
        assert figures.said["clamps_enough"] == (len(goes) == 1)


def test_six_clamps_for_twelve_ribs_are_told_what_to_borrow(demos):
    figures = demos["tobin"]
    assert (value(figures, "clamp.pairs"), value(figures, "frame.ribs")) == (3, 12)
    assert figures.said["clamp.goes_word"] == "more"
    assert (value(figures, "clamp.borrow_two"), value(figures, "clamp.borrow_one")) == (3, 9)
    two = [set(row["ribs"]) for row in figures.rows["clamp_two"]]
    assert two == [{4, 5, 6, 7, 8, 9}, {1, 2, 3, 10, 11, 12}]


def test_a_film_is_never_closed_in_two_goes(demos):
    for figures in demos.values():
        bead = figures.said["glue.method"] == "bead" and figures.said["glue.type"] != "pva"
        assert figures.said["clamp.may_split"] == bead


def test_pressing_weights_are_those_on_for_the_rocker_and_what_the_bench_leaves(demos):
    for figures in demos.values():
        on = sum(value(figures, f"{row['key']}.on") for row in figures.rows["press_boards"])
        assert on == pytest.approx(value(figures, "bench.weight_total"))
        assert value(figures, "press.laid") <= value(figures, "press.have") + 1e-9
        for row in figures.rows["press_boards"]:
            need, *lies = (value(figures, f"{row['key']}.{part}") for part in ("need", "on", "laid"))
            assert value(figures, f"{row['key']}.short") in (pytest.approx(max(0.0, need - sum(lies))), 0)
            assert row["short"] == (value(figures, f"{row['key']}.short") > 0)
        assert {n for row in figures.rows["press_boards"] for n in (row["first"], row["second"])} == {
            row["n"] for row in figures.rows["ribs"]
        }


def test_a_bench_without_spare_weights_does_not_move(demos):
    for figures in demos.values():
        moved = value(figures, "press.moves") > 0
        assert moved == (value(figures, "press.laid") > 0) == figures.said["press.laid"]
        assert value(figures, "press.moves_per_kg") > 0


def asked(name, **words):
    typed = [f"{key}={number!r}" for key, number in words.items()]
    return answered(name, typed).by_word["value"]


def test_a_sum_asked_for_by_itself_gives_what_the_guide_shows(demos):
    for figures in demos.values():
        strength, load, thick = (value(figures, key) for key in ("cut.strength", "cut.load", "panel.thickness"))
        got = asked(
            "saw-overhang", thickness_mm=thick, strength_mpa=strength, load_n=load,
            base_mm=value(figures, "practice.saw_base"), safety=value(figures, "practice.wood_safety"),
        )  # fmt: skip
        assert got == pytest.approx(value(figures, "cut.overhang_sum"))
        last = value(figures, f"frame.rib.{figures.said['rib_last']}.half_width")
        got = asked(
            "twist-height", stick_mm=value(figures, "frame.twist_stick"), seen_mm=value(figures, "practice.twist"),
            width_mm=2 * last,
        )  # fmt: skip
        assert got == pytest.approx(value(figures, "frame.twist_rim"))
        strip, pitch = value(figures, "frame.strip_thickness"), value(figures, "frame.rib_pitch")
        got = asked("clamp-pressure", force_n=value(figures, "practice.clamp_force"), apart_mm=pitch, width_mm=strip)
        assert 1000 * got == pytest.approx(value(figures, "clamp.rim_pressure"))
