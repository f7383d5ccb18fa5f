"""Figures of weight and floating, and what is said with them."""

import dataclasses

import pytest

from generator.figure_sets.floating import add_floating
from generator.figure_sets.weight import add_weight
from generator.figures import FigureBook, Kind
from tests.demos import facts_of

SLUGS = ("mara", "tobin", "ines")


@pytest.fixture(scope="module")
def demos():
    return {slug: facts_of(slug) for slug in SLUGS}


def told(facts, *, measured=None, **builder):
    """The two sets of figures, with some of the builder's fields changed."""
    own = facts.inputs.builder
    if measured:
        builder["measured"] = own.measured.model_copy(update=measured)
    inputs = dataclasses.replace(facts.inputs, builder=own.model_copy(update=builder))
    book = FigureBook()
    changed = dataclasses.replace(facts, inputs=inputs)
    add_floating(book, changed, add_weight(book, changed))
    return book


@pytest.mark.parametrize("slug", SLUGS)
def test_groups_and_parts_come_to_the_whole(demos, slug):
    book = told(demos[slug])
    whole = book.values["weight.finished"].value
    for rows in ("weight_groups", "weight_parts"):
        assert sum(book.values[row["key"]].value for row in book.rows[rows]) == pytest.approx(whole)
    assert len({row["key"] for row in book.rows["weight_parts"]}) == len(book.rows["weight_parts"])


@pytest.mark.parametrize(("slug", "low", "high"), [("tobin", 9, 12), ("mara", 7, 9.5), ("ines", 4.5, 6)])
def test_demo_boards_weigh_what_such_boards_do(demos, slug, low, high):
    """Only for sanity: common practice, our own notes, for boards of these three sizes, oiled."""
    figure = told(demos[slug]).values["weight.finished"]
    assert figure.low < high
    assert figure.high > low
    assert figure.kind is Kind.ASSUMED


def test_the_scales_win_over_the_sum(demos):
    book = told(demos["mara"], measured={"finished_mass_kg": 9.6})
    finished, summed = book.values["weight.finished"], book.values["weight.summed"]
    assert (finished.value, finished.low, finished.high, finished.kind) == (9.6, 9.6, 9.6, Kind.MEASURED)
    assert book.values["weight.over"].value == pytest.approx(9.6 - summed.value)
    assert book.said["weight.weighed"]
    assert not book.said["weight.as_summed"]
    near = told(demos["mara"], measured={"finished_mass_kg": round(summed.value, 1)})
    assert near.said["weight.as_summed"]
    plain = told(demos["mara"])
    assert "weight.over" not in plain.values
    assert book.values["float.carries"].value == pytest.approx(plain.values["float.carries"].value + summed.value - 9.6)


def test_a_weighed_part_is_the_builder_s_measurement(demos):
    book = told(demos["ines"])
    assert book.values["weight.frame"].kind is Kind.MEASURED
    assert book.values["weight.part.bottom_panel"].kind is Kind.MEASURED
    assert book.values["weight.panels"].kind is Kind.ASSUMED
    assert book.values["weight.fittings"].kind is Kind.MAKER


def test_without_finish_and_foam_they_are_left_out_and_said_to_be(demos):
    book = told(demos["mara"], finish=None, foam=None)
    assert {"weight.finish", "weight.foam"}.isdisjoint(book.values)
    assert not book.said["weight.finish_known"]
    assert not book.said["weight.foam_known"]
    with_them = told(demos["mara"])
    missing = with_them.values["weight.finish"].value + with_them.values["weight.foam"].value
    missing += with_them.values["weight.glue"].value - book.values["weight.glue"].value  # the foam's own glue
    assert book.values["weight.finished"].value == pytest.approx(with_them.values["weight.finished"].value - missing)


def test_light_riders_stay_dry_and_heavy_ones_do_not(demos):
    decks = {mass: told(demos["tobin"], body_mass_kg=float(mass)) for mass in (20, 45, 90, 120)}
    assert [decks[mass].said["float.deck"] for mass in decks] == ["dry", "dry", "wet", "wet"]
    for name in ("float.depth", "float.over_deck", "float.waterline", "float.wave_speed", "float.share_under"):
        values = [book.values[name].value for book in decks.values()]
        assert values == sorted(values), name
    assert decks[20].values["float.rider_litres"].value == 0
    assert decks[20].values["float.over_deck"].value < 0 < decks[120].values["float.over_deck"].value


def test_the_other_water_is_told_from_both_sides(demos):
    sea, fresh = (told(demos["mara"], water=water) for water in ("sea", "fresh"))
    assert (sea.said["float.water"], sea.said["float.other_water"]) == ("sea", "fresh")
    assert sea.values["float.other_change"].value > 0 > fresh.values["float.other_change"].value
    assert fresh.values["float.depth"].value == pytest.approx(
        sea.values["float.depth"].value + sea.values["float.other_change"].value
    )
    assert sea.values["float.water_density"].value > fresh.values["float.water_density"].value


def test_a_board_as_heavy_as_its_water_is_said_to_sink_and_nothing_more(demos):
    book = told(demos["ines"], measured={"finished_mass_kg": 35.0})
    assert book.said["float.sinks"]
    assert book.values["float.carries"].value < 0
    assert "float.depth" not in book.values


@pytest.mark.parametrize("slug", SLUGS)
def test_ranges_hold_their_values_and_drawn_lines_their_sizes(demos, slug):
    book = told(demos[slug])
    for figure in book.values.values():
        assert figure.low <= figure.value <= figure.high
        assert figure.how.endswith(".")
    bottom, deck = book.curves["float.bottom"], book.curves["float.deck"]
    assert bottom.x_mm == deck.x_mm
    assert all(low <= high for low, high in zip(bottom.y, deck.y, strict=True))
    assert 0 < book.values["float.lie_at"].value < bottom.x_mm[-1]
