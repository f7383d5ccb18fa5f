"""Glue and finish of the demo guides: what is told holds together, and what a label does not say is left out."""

import math

import pytest

from generator.build.cure import label_times
from generator.figures import Kind
from generator.inputs.site import read_builder
from tests.demos import figures_of

SLUGS = ("ines", "mara", "tobin")


@pytest.fixture(scope="module")
def told(site_data):
    return {slug: (read_builder(site_data, slug).builder, figures_of(slug)) for slug in SLUGS}


@pytest.fixture(scope="module")
def site_data(request):
    return request.config.rootpath / "site_data"


def value(figures, key):
    return figures.values[key].value


def test_the_cure_is_the_label_s_at_the_lowest_night_and_the_plan_waits_as_long(told):
    for builder, figures in told.values():
        night = label_times(builder.glue, temperature_c=builder.shed.night_low_c)
        cure = figures.values["glue.cure_here"]
        columns = {glue.full_cure_min for glue in (builder.glue, builder.glue.also) if glue is not None}
        assert cure.value == night.full_cure_min
        assert {cure.low, cure.high} in (columns, {cure.value})
        plan = figures.values["plan.cure"]
        assert (plan.value, plan.low, plan.high) == (cure.value, cure.low, cure.high)
        assert cure.low <= cure.value
        assert figures.said["glue.cure_beyond"] == night.beyond
        assert value(figures, "plan.go.glue.1.wait") == cure.value


def test_two_columns_make_a_time_assumed_and_one_leaves_it_the_label_s(told):
    assert told["mara"][1].values["glue.cure_here"].kind is Kind.ASSUMED
    assert told["ines"][1].values["glue.cure_here"].kind is Kind.LABEL


def test_the_bottles_hold_all_the_glue_at_its_most_and_grow_from_stage_to_stage(told):
    builder, figures = told["mara"]
    assert figures.said["glue.missing"] == []
    volume = figures.values["glue.volume"]
    assert value(figures, "glue.bottles") == math.ceil(volume.high / (1000 * builder.glue.bottle_l))
    stages = figures.rows["glue_stages"]
    assert volume.value == pytest.approx(sum(value(figures, f"{stage['key']}.volume") for stage in stages))
    counts = [value(figures, f"{stage['key']}.bottles") for stage in stages]
    assert counts == sorted(counts)
    assert counts[-1] == value(figures, "glue.bottles")


def test_what_the_label_does_not_say_is_asked_for_and_no_number_stands_in_for_it(told):
    ines, tobin = told["ines"][1], told["tobin"][1]
    assert ines.said["glue.missing"] == ["density"]
    assert tobin.said["glue.missing"] == ["bottle", "spread rate", "density"]
    for figures in (ines, tobin):
        assert "glue.bottles" not in figures.values
        assert "glue.density" not in figures.values
    assert value(ines, "glue.stage.glue.mass") > 0, "grams of film need no density"
    assert value(tobin, "glue.stage.glue.volume") > 0, "the volume of a bead needs no label"


def test_a_glue_up_that_does_not_fit_for_sure_shows_a_way_out(told):
    _, figures = told["ines"]
    taken, open_min = figures.values["glue.up.glue.time"], value(figures, "glue.open_here")
    assert figures.said["glue.fits.glue"] == "tight"
    assert taken.value <= open_min < taken.high
    assert value(figures, "glue.open_wanted") == taken.high
    assert figures.said["glue.more_people"]
    assert value(figures, "glue.people_needed") > value(figures, "glue.people")
    assert "glue.up.glue.time" not in told["mara"][1].values, "beads are not closed against the clock"
    assert "glue.up.top-deck.time" in told["mara"][1].values, "the top deck always is"


def test_coats_keep_the_label_s_earliest_time_and_say_when_the_latest_has_passed(told):
    for slug in ("ines", "mara"):
        builder, figures = told[slug]
        rows = figures.rows["coats"]
        assert len(rows) == builder.finish.coats
        for row in rows[1:]:
            gap = value(figures, f"{row['key']}.gap")
            assert gap >= builder.finish.recoat_after_min
            latest = builder.finish.recoat_before_min
            assert row["too_late"] == (latest is not None and gap > latest)


def test_cans_hold_all_coats_and_without_a_finish_only_the_area_is_told(told):
    builder, figures = told["mara"]
    volume = figures.values["finish.volume"]
    by_hand = 1000 * value(figures, "finish.area") / builder.finish.coverage_m2_l * builder.finish.coats
    assert volume.low == pytest.approx(by_hand)
    assert value(figures, "finish.cans") == math.ceil(volume.high / (1000 * builder.finish.can_l))
    bare = told["tobin"][1]
    assert [key for key in bare.values if key.startswith("finish.")] == ["finish.area"]
    assert not bare.said["finish.known"]
    assert bare.rows["coats"] == ()
