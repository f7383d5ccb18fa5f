"""The works of a build: their order, and which must not be broken off."""

import dataclasses

import pytest

from generator.build.works import AFTER_PHOTO, GOES, Build, Coats, Rolling, works

BUILD = Build(
    hands_on_min={go: 60.0 for goes in GOES.values() for go in goes},
    rest_min=7 * 1440,
    cure_min=2000.0,
    clamp_min=300.0,
    answer_min=3 * 1440,
    fresh_min=1440.0,
    inside_dry_min=1440.0,
    rail_layers=3,
    rails_joined=True,
    planks_joined=True,
    foam=True,
    rolling=Rolling(720.0, 1500.0),
    coats=Coats(3, 960, 4320, 14400),
    on_bench_to_top=True,
)


def named(build):
    return {work.name: work for work in works(build)}


def test_the_stages_come_in_their_order_and_none_is_missing():
    assert list(dict.fromkeys(work.slug for work in works(BUILD))) == list(GOES)
    kinds = {work.name.partition(".")[0] for work in works(BUILD)}
    assert kinds == {go for goes in GOES.values() for go in goes}


def test_whatever_is_left_to_cure_was_done_in_one_go_and_cures_as_long_as_the_glue_says():
    glued = [work for work in works(BUILD) if work.waits_for == "cure"]
    assert {work.slug for work in glued} == {"panels", "frame", "glue", "inside", "top-deck", "rails", "fin"}
    assert all(work.wait_min == BUILD.cure_min for work in glued)
    assert [work.name for work in glued if not work.unbroken] == ["rails_cut"]  # joined one after the other


def test_planks_that_are_joined_end_to_end_cure_before_the_panels_are_glued_up():
    joined, whole = (works(dataclasses.replace(BUILD, planks_joined=joined)) for joined in (True, False))
    names = [work.name for work in joined]
    assert names.index("panels_join") < names.index("panels.1")
    assert next(work.wait_min for work in joined if work.name == "panels_join") == BUILD.cure_min
    assert [work for work in joined if work.name != "panels_join"] == list(whole)


def test_panels_and_frame_take_two_goes_rails_one_a_layer_and_coats_one_each():
    names = [work.name for work in works(BUILD)]
    for repeated, count in (("panels", 2), ("frame", 2), ("rails", 3), ("seal_coat", 3)):
        assert [name for name in names if name.startswith(f"{repeated}.")] == [
            f"{repeated}.{n + 1}" for n in range(count)
        ]
    assert sum(work.hands_on_min for work in works(BUILD) if work.name.startswith("panels.")) == pytest.approx(60)


def test_readings_are_sent_three_times_and_each_waits_for_its_answer():
    assert [work.name for work in works(BUILD) if work.waits_for == "answer"] == ["frame_fair", "clamp", "glue_read"]


def test_coats_wait_for_one_another_and_the_last_one_for_full_cure():
    coats = [work for work in works(BUILD) if work.name.startswith("seal_coat.")]
    assert [work.wait_min for work in coats] == [960, 960, 14400]
    assert [work.fresh_since for work in coats] == ["", "seal_coat.1", "seal_coat.2"]
    unlimited = named(dataclasses.replace(BUILD, coats=Coats(2, 960, None, 14400)))
    assert unlimited["seal_coat.2"].fresh_since == ""


def test_without_a_finish_there_are_no_coats_but_everything_else():
    without = named(dataclasses.replace(BUILD, coats=None))
    assert set(named(BUILD)) - set(without) == {"seal_coat.1", "seal_coat.2", "seal_coat.3"}


def test_a_board_without_rails_has_no_layers_to_glue():
    bare = named(dataclasses.replace(BUILD, rail_layers=0))
    assert not [name for name in bare if name.startswith(("rails.", "rails_cut"))]


def test_layers_are_cut_before_the_first_is_glued_on_and_wait_only_where_pieces_are_joined():
    joined, whole = (named(dataclasses.replace(BUILD, rails_joined=joined)) for joined in (True, False))
    names = list(joined)
    assert names.index("rails_trim") < names.index("rails_cut") < names.index("rails.1")
    assert joined["rails_cut"].hands_on_min == pytest.approx(3 * 60.0)  # 60 min a layer
    assert (joined["rails_cut"].wait_min, whole["rails_cut"].wait_min) == (BUILD.cure_min, 0.0)


def test_a_deck_rolled_slowly_rests_damp_then_dries_in_its_bend_and_only_then_is_clamped_and_keyed():
    slowly, at_once = works(BUILD), works(dataclasses.replace(BUILD, rolling=None))
    names = [work.name for work in slowly if work.slug == "top-deck"]
    assert names == [
        *("top_deck_read", "top_deck_cut", "top_deck_roll", "top_deck_down", "top_deck_dry"),
        *("top_deck_key", "top_deck"),
    ]
    waits = [
        (work.wait_min, work.waits_for, work.people)
        for work in slowly
        if work.name in {"top_deck_roll", "top_deck_down"}
    ]
    assert waits == [(720.0, "damp", 2), (1500.0, "bent", 2)]
    extra = {work.name for work in slowly} - {work.name for work in at_once}
    assert extra == {"top_deck_roll", "top_deck_down"}


def test_without_foam_nothing_is_cut_for_it():
    without = named(dataclasses.replace(BUILD, foam=False))
    assert set(named(BUILD)) - set(without) == {"inside_foam"}


@pytest.mark.parametrize("slug", AFTER_PHOTO)
def test_a_photo_is_answered_before_what_cannot_be_undone(slug):
    made = works(dataclasses.replace(BUILD, photo_first=(slug,)))
    before = set()
    for name in AFTER_PHOTO[slug]:
        at = next(n for n, work in enumerate(made) if work.name.partition(".")[0] == name)
        assert made[at - 1].wait_min >= BUILD.answer_min
        before.add(at - 1)
    for n, (work, usual) in enumerate(zip(made, works(BUILD), strict=True)):
        assert work == usual or n in before


def test_a_photo_of_a_stage_without_a_final_step_changes_nothing():
    assert works(dataclasses.replace(BUILD, photo_first=("bench",))) == works(BUILD)


def test_the_bench_stands_until_the_board_comes_off():
    kept = {work.name for work in works(BUILD) if work.table and work.stays}
    early = {
        work.name for work in works(dataclasses.replace(BUILD, on_bench_to_top=False)) if work.table and work.stays
    }
    assert kept - early == {"glue_read", "inside", "inside_foam", "inside_blocks", "inside_seal"}
    assert {"bench", "rocker", "clamp", "glue", "top_deck_read"} <= early
