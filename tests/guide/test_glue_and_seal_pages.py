"""What the pages of glue and sealing say for each label, room and number of hands."""

import functools

import markdown
import pytest
from bs4 import BeautifulSoup
from guide_sample import SOURCES, Drawings, sample

from generator.guide.environment import page_environment
from generator.guide.pages import MARKDOWN_EXTENSION_CONFIGS, MARKDOWN_EXTENSIONS


@functools.cache
def page(slug, **said):
    environment = page_environment(sample(**said), Drawings(), SOURCES)
    environment.globals.update(contact_address="mailto:hello@example.org", stages=())
    here = {"slug": slug, "title": slug, "file": f"{slug}.md"}
    text = environment.get_template(f"pages/{slug}.md").render(here=here, following=None)
    html = markdown.markdown(text, extensions=list(MARKDOWN_EXTENSIONS), extension_configs=MARKDOWN_EXTENSION_CONFIGS)
    return BeautifulSoup(html, "html.parser")


def words(soup):
    return " ".join(soup.get_text().split())


def stops(soup):
    return " ".join(words(box) for box in soup.select("div.stop"))


@pytest.mark.parametrize(("fit", "stopped"), [("fits", False), ("tight", True), ("no", True)])
def test_a_glue_up_stops_where_the_open_time_may_not_be_enough(fit, stopped):
    soup = page("glue", glue__method="spread", glue__fits__glue=fit)
    assert ("it may not stay open long enough" in stops(soup)) == stopped
    assert ("can't be split joint by joint" in words(soup)) == stopped
    assert "it may not stay open" not in stops(page("glue", glue__fits__glue=fit)), "beads are not closed in a hurry"


def test_each_way_out_is_named_only_where_it_is_one():
    spread = {"glue__method": "spread", "glue__fits__glue": "no"}
    both = words(page("glue", **spread))
    neither = words(page("glue", **spread, glue__more_people=False, glue__goes_help=False, glue__type="pva"))
    for way in ("More hands", "from the middle outwards. Everything lies", "clamp first, then run a bead"):
        assert way in both
        assert way not in neither
    assert "A slower glue" in neither


@pytest.mark.parametrize(
    ("beyond", "told"), [("colder", "full cure really takes longer"), ("warmer", "on the safe side"), ("", "")]
)
def test_a_night_beyond_the_label_is_said_and_asked_about(beyond, told):
    text = words(page("glue", glue__cure_beyond=beyond))
    for one in ("full cure really takes longer", "on the safe side"):
        assert (one in text) == (one == told)


def test_what_the_label_does_not_say_is_asked_for():
    missing = words(page("glue", glue__missing=("bottle", "density")))
    assert "does not give the size of your bottle, or the glue's density" in missing
    assert "does not guess" in missing
    assert "does not guess" not in words(page("glue"))


@pytest.mark.parametrize("method", ["bead", "spread"])
def test_the_last_checks_stand_right_before_the_first_glue(method):
    steps = page("glue", glue__method=method).select("ol.steps > li")
    at = next(n for n, step in enumerate(steps) if step["id"] == "before-glue-glue")
    assert steps[at + 1]["id"] == f"step-glue-{method}"
    assert len(steps[at].select("li.check")) == 3


def test_a_photo_is_asked_for_only_where_the_maker_wants_one():
    assert "Send a photo first" in words(page("glue", photo_first=("glue",)))
    assert "Send a photo first" not in words(page("glue", photo_first=("seal",)))
    assert "Send a photo first" in words(page("seal", photo_first=("seal",)))


def test_without_a_finish_the_sealing_page_asks_and_names_no_amount():
    soup = page("seal", finish__known=False, finish__type="", finish__planned=False)
    assert "Your file names no finish yet" in stops(soup)
    links = {link["href"].partition("#")[2] for link in soup.select("a.fig")}
    assert not {link for link in links if link.startswith("finish-")} - {"finish-area"}
    assert "Oily rags can set themselves on fire" in words(soup)


@pytest.mark.parametrize(
    ("kind", "said", "unsaid"),
    [
        ("oil", ("wipe off all that has not soaked in", "Oily rags"), ("Mixed resin",)),
        ("varnish", ("Stir it, do not shake it", "Oily rags"), ("Mixed resin",)),
        ("resin", ("pour it into the tray at once", "Mixed resin"), ("Oily rags can set", "wipe off all that")),
    ],
)
def test_each_finish_has_its_own_way_and_its_own_dangers(kind, said, unsaid):
    text = words(page("seal", finish__type=kind))
    assert all(one in text for one in said)
    assert not any(one in text for one in unsaid)


def test_a_coat_that_comes_too_late_is_scratched_first():
    late, early = words(page("seal")), words(page("seal", finish__too_late=()))
    assert "That is too late to go on as it is" in late
    assert "lie before coat 3 in your plan" in late
    assert "in your plan. There you scratch" not in early


def test_a_cold_room_stops_the_finish():
    assert "the room is too cold" in stops(page("seal", finish__night_ok=False))
    assert "the room is too cold" not in stops(page("seal"))
