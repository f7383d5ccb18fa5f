"""The page on dust, noise and hands: guidance with the builder's own numbers, and never a clearance."""

import re

import pytest
from guide_sample import SOURCES, sample
from test_guide_pages import ALL, soup_of, words

from generator.guide.environment import page_environment
from generator.guide.words import Typed

HERE = {"slug": "safety", "title": "Dust, noise and hands", "file": "safety.md"}
LINKING = ("noise", "dust", "jigsaw", "general")


def rendered(name="pages/safety.md", **choices):
    environment = page_environment(sample(**choices), {}, SOURCES)
    environment.globals.update(contact_address=Typed("tel:1"), stages=(), groups=(), here=HERE, following=None)
    return soup_of(environment.get_template(name).render())


@pytest.mark.parametrize("name", sorted(ALL))
def test_it_says_before_all_numbers_that_it_is_no_clearance(name):
    page = rendered(**ALL[name])
    first = page.find("div", class_="stop")
    assert "General guidance, never a clearance." in first.get_text()
    assert "doctor" in first.get_text()
    assert not first.find_previous("a", class_="fig")


def test_each_tool_has_a_small_table_and_what_is_not_known_is_asked_for():
    page = rendered()
    tables = {table.find("th").get_text(): words(table) for table in page.find_all("table")[:-1]}
    assert list(tables) == ["jigsaw", "vacuum cleaner", "planer", "fan"]
    assert "22 to 45 min" in tables["jigsaw"]
    assert not re.search(r"\d dB|m/s²|points$", tables["vacuum cleaner"])
    assert tables["vacuum cleaner"].count("not known") == 2
    assert tables["planer"].count("at once") == 2
    assert tables["fan"].count("all day") == 2
    asked = words(page)
    assert "vacuum cleaner: its noise and its vibration" in asked
    assert "sander: its vibration" in asked


def test_without_a_plate_no_number_of_a_tool_is_made_up():
    page = rendered(rich=False, noise__verdict="unknown", vibration__verdict="unknown")
    assert len(page.find_all("table")) == 1
    assert "With no stated noise there is no sum to show" in words(page)
    assert "With no stated vibration there is no sum to show" in words(page)
    assert not [link for link in page.select("a.fig") if re.search(r"#(noise|vibration)-\d", link["href"])]


@pytest.mark.parametrize(
    ("choice", "told"),
    [
        ({"noise__verdict": "below"}, "where employers must begin to offer"),
        ({"noise__verdict": "between"}, "Wear it whenever a tool runs"),
        ({"noise__verdict": "above"}, "Never run these tools without ear protection"),
        ({"noise__too_loud": True}, "too loud for any time"),
        ({"vibration__verdict": "above"}, "too much for one day"),
        ({"dust__sensitiser": True}, "timbers best known for asthma"),
        ({"dust__hardwood": True}, "a hardwood by the botanist's count"),
        ({"glue__type": "thickened epoxy"}, "Your glue is an epoxy"),
        ({"glue__type": "pva"}, "Your glue is a PVA"),
        ({"vapour__finish": "varnish"}, "Your finish is a varnish"),
        ({"vapour__finish": "not named"}, "Your file names no finish yet"),
        ({"vapour__foam": "polyurethane"}, "Never cut it with a hot wire"),
    ],
    ids=lambda value: " ".join(map(str, value.values())) if isinstance(value, dict) else "",
)
def test_what_it_says_follows_the_builders_own_tools_timber_and_tins(choice, told):
    other = {"noise__verdict": "unknown", "noise__too_loud": False, "vibration__verdict": "between"}
    other |= {"dust__sensitiser": False, "dust__hardwood": False, "vapour__finish": "oil", "vapour__foam": "none"}
    assert told in words(rendered(**choice))
    assert told not in words(rendered(**{key: other.get(key, "polyurethane") for key in choice}))


@pytest.mark.parametrize("caution", LINKING)
def test_the_cautions_lead_to_it(caution):
    ids = {tag["id"] for tag in rendered().find_all(id=True)}
    links = [a["href"] for a in rendered(f"cautions/{caution}.md").find_all("a") if a["href"].startswith("safety.md")]
    assert links
    assert all(link.partition("#")[2] in ids | {""} for link in links)
