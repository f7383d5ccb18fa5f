"""The page for the evening before: five parts for every stage, for every builder, and nothing typed twice."""

import functools
import re
from dataclasses import replace

import pytest
from guide_sample import SOURCES, Drawings, guide, sample
from test_guide_pages import ALL, SLIPS, soup_of, words

from generator.guide.pages import write_guide
from generator.guide.stages import BUILD_STAGES
from tests.demos import SLUGS, figures_of

SAMPLES = ("plain", "inches", "poor", "cold", "resin in a cold room")
PARTS = ("read", "layout", "dry", "weather", "mistake")


@functools.cache
def figures_for(name):
    return figures_of(name) if name in SLUGS else sample(**ALL[name])


@functools.cache
def written(name):
    return {page.slug: page for page in write_guide(figures_for(name), Drawings(), SOURCES).pages}


@functools.cache
def tonight(name):
    return soup_of(written(name)["tonight"].markdown)


def part(section, name):
    """All that stands under one heading of a stage, up to the next."""
    heading = section.find("h3", id=re.compile(rf"-{name}$"))
    following = []
    for tag in heading.find_next_siblings():
        if tag.name in {"h2", "h3"}:
            break
        following.append(tag)
    return following


def text_of(tags):
    return " ".join(words(tag) for tag in tags)


@pytest.fixture(params=[*SLUGS, *SAMPLES])
def name(request):
    return request.param


def test_every_build_stage_has_all_five_parts_in_order(name):
    sections = tonight(name).select("section.tonight-stage")
    assert [section["data-stage"] for section in sections] == [stage.slug for stage in BUILD_STAGES]
    for section, stage in zip(sections, BUILD_STAGES, strict=True):
        assert section.h2["id"] == f"tonight-{stage.slug}"
        assert [h3["id"] for h3 in section.find_all("h3")] == [f"tonight-{stage.slug}-{one}" for one in PARTS]
        assert len(section.select(".tonight-when")) == 1
        for one in PARTS:
            assert len(text_of(part(section, one)).split()) > 4, (stage.slug, one)
    assert not SLIPS.findall(words(tonight(name)))
    assert len(tonight(name).select("section.by-plan")) == 1


def test_what_to_lay_out_is_what_the_stages_own_page_says(name):
    for section in tonight(name).select("section.tonight-stage"):
        own = soup_of(written(name)[section["data-stage"]].markdown)
        heading = own.find("h2", id="layout")
        listed = [words(item) for item in heading.find_next_sibling("ul").find_all("li")]
        assert listed
        shown = text_of(part(section, "layout"))
        assert not [item for item in listed if item not in shown]


def test_the_page_and_its_time_to_read_are_named(name):
    for section in tonight(name).select("section.tonight-stage"):
        slug, (read, *_) = section["data-stage"], part(section, "read")
        assert read.a["href"] == f"{slug}.md"
        assert read.select_one("a.fig")["href"] == f"numbers.md#tonight-read-{slug}"


def test_the_weather_counts_where_there_is_glue_or_finish_and_not_elsewhere(name):
    rows = {row["stage"]: row for row in figures_for(name).rows["tonight"]}
    for section in tonight(name).select("section.tonight-stage"):
        told, row = text_of(part(section, "weather")), rows[section["data-stage"]]
        assert ("Your shed has" in told) == (row["glue"] or row["finish"])
        assert ("how damp the air will be" in told) == row["finish"]
        bare = not row["glue"] and not row["finish"]
        swim = section["data-stage"] == "water"
        assert ("does not matter to the board" in told) == (bare and not swim)
        assert ("calm day" in told and "no more" in told) == swim
        assert ("dusty work" in told) == (bare and section["data-stage"] in {"keying", "trace", "shaping"})


def test_one_mistake_a_stage_each_its_own(name):
    told = [text_of(part(section, "mistake")) for section in tonight(name).select("section.tonight-stage")]
    assert len(set(told)) == len(BUILD_STAGES)
    for section in tonight(name).select("section.tonight-stage"):
        (only,) = part(section, "mistake")
        assert len(only.find_all("strong")) == 1


def test_every_wait_of_the_plan_is_told_where_the_next_work_begins(name):
    for section in tonight(name).select("section.tonight-stage"):
        waits = [row for row in figures_for(name).rows["dry"] if row["stage"] == section["data-stage"]]
        told = part(section, "dry")
        assert sum(len(tag.find_all("li")) for tag in told) == len(waits)
        assert all(wait["over"] in text_of(told) for wait in waits)


def test_a_room_too_cold_is_said_before_any_glue():
    cold, warm = tonight("cold"), tonight("plain")
    glue = text_of(part(cold.find(attrs={"data-stage": "glue"}), "weather"))
    assert "That is too cold" in glue
    assert "That is too cold" not in text_of(part(warm.find(attrs={"data-stage": "glue"}), "weather"))


def test_a_night_with_nothing_to_spare_is_told_as_that():
    figures = sample()
    margin = replace(figures.values["glue.night_margin"], value=0.0, low=0.0, high=0.0)
    figures = replace(figures, values={**figures.values, "glue.night_margin": margin})
    pages = {page.slug: page for page in write_guide(figures, Drawings(), SOURCES).pages}
    glue = soup_of(pages["tonight"].markdown).find(attrs={"data-stage": "glue"})
    assert "nothing to spare" in text_of(part(glue, "weather"))


def test_the_front_page_leads_to_it():
    board = soup_of(next(page.markdown for page in guide().pages if page.slug == "board"))
    assert board.select_one(".now a[href='tonight.md']")


def test_what_only_a_label_can_say_is_not_passed_over():
    sections = {one["data-stage"]: one for one in tonight("tobin").select("section.tonight-stage")}
    told = {slug: text_of(part(section, "dry")) for slug, section in sections.items()}
    assert "Nothing has to dry" not in told["water"], "a finish without its label hardens all the same"
    assert "the label says" in told["water"]
    assert "the label says" in told["seal"]
    other = "Fin and plugs take another glue"
    assert other not in told["fin"], "a thickened epoxy fills gaps itself"
    assert other in text_of(part(tonight("ines").find(attrs={"data-stage": "fin"}), "dry"))
    longer = {slug for slug, said in told.items() if "takes longer than that" in said}
    assert {"panels", "frame", "glue", "rails"} <= longer, "nights colder than any temperature on the glue's label"
    assert not longer & {"keying", "trace", "bench", "water"}
    assert not any("takes longer than that" in text_of(part(one, "dry")) for one in tonight("plain").select("section"))
