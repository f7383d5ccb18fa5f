"""Whole pages, rendered for every choice that pages turn on."""

import functools
import itertools
import re
from dataclasses import replace

import markdown
import pytest
from bs4 import BeautifulSoup
from guide_sample import SOURCES, Drawings, guide, sample

from generator.guide.compiled import COMPILED
from generator.guide.environment import UnknownFigure, anchor, own, page_environment
from generator.guide.pages import MARKDOWN_EXTENSION_CONFIGS, MARKDOWN_EXTENSIONS, contact_address, write_guide
from generator.guide.stages import BUILD_STAGES, STAGES
from generator.guide.words import Typed

PARTS = ("end", "time", "layout", "cautions", "steps", "checks", "rescue", "tonight")
LOOKED_UP = {"tonight", "shopping", "safety", "words"}
WRITTEN = tuple(stage.slug for stage in STAGES if stage.slug not in LOOKED_UP)
HOSTILE = '<img src=x onerror=alert(1)> [x](javascript:alert(1)) *a* "b" {{ 7 }} | c'
CHOICES = {
    "plain": {},
    "inches": {"units": "inches"},
    "one of everything": {"one": True},
    "poor": {"rich": False, "clamps_enough": False, "stacks_ok": False, "stacks_missing": ["middle 1"]},
    "not reached, weight would do": {"reached": False},
    "not reached, nothing would do": {"reached": False, "cure": "", "rich": False},
    "not reached, another frame": {"reached": False, "cure": "cut"},
    "not reached, a frame and weight": {"reached": False, "cure": "cut and weight"},
    "not reached, a piece": {"reached": False, "cure": "piece", "one": True},
    "not reached, keep it": {"reached": False, "cure": "keep", "route": "bottom panel", "other_reached": False},
    "off early": {"route": "bottom panel", "best_route": "bottom panel", "measure_first": "panel"},
    "fair readings": {"read_verdict": "fair", "read_passes": True, "insets_matter": False, "measure_alike": True},
    "a misread tape": {
        "read_verdict": "misread",
        "read_trusted": False,
        "lifted_supports": ["middle 1"],
        "stacks_proven": False,
    },
    "a hollow": {"read_verdict": "hollow", "rich": False},
    "read with the top panel on": {"top_read": True, "top_weights_enough": True, "photo_first": ("top-deck",)},
    "misread with the top panel on": {"top_read": True, "top_read_verdict": "misread", "top_read_trusted": False},
    "unclear readings": {"read_verdict": "unclear", "read_trusted": False},
    "nothing read": {"read": False},
    "kept by choice": {"best_route": "bottom panel", "sag__panel__done": True, "cured__done": False},
    "cut to the rocker": {"frame_bottom": "to the rocker", "slots_open_to": "bottom"},
    "own line": {"frame_bottom": "own line", "rocker_from": "agreed", "rocker_choice": "agreed"},
    "no finish, little time": {
        "plan__finish": "",
        "plan__days_text": "",
        "plan__busy_text": "",
        "plan__two_text": "",
        "plan__table_text": "",
        "plan__next_two": True,
        "plan__beyond": "colder",
        "evening_too_short": ["glue", "seal"],
    },
    "a weighed board": {
        "weight__weighed": True,
        "weight__finish_known": True,
        "weight__foam_known": True,
        "stage": "rails",
        "plan__next_stage": "rails",
    },
    "a weighed board, floating high": {
        "weight__weighed": True,
        "weight__as_summed": True,
        "float__deck": "dry",
        "rich": False,
    },
    "a board that sinks": {"float__sinks": True, "float__deck": "sinks"},
    "no planks listed": {"panel__planks_listed": False},
    "short planks": {"planks_joined": True, "panel__staggered": False, "panel__moves_assumed": True},
    "few weights": {"panel__weights_enough": False, "panel__mirrored": False, "rich": False},
    "a timber that hardly moves": {"panel__hardly_moves": True},
    "a timber of unknown movement": {"panel__moves": False, "planks_joined": True},
    "cold": {"night_ok": False, "temperature_ok": False, "stage": "ready", "plan__next_stage": "ready"},
    "alone": {"helpers_enough": False},
    "no crossbars": {"crossbars": False, "table_read": False, "table_long": False},
    "too few clamps, one go after another": {"clamps_enough": False, "clamp__unreached": [1, 10]},
    "too few clamps for two goes": {"clamps_enough": False, "clamp__goes_word": "more", "clamp__unreached": [4]},
    "too few clamps for a film": {"clamps_enough": False, "clamp__may_split": False, "one": True},
    "no clamps": {"clamps_enough": False, "clamp__goes_word": "none", "rich": False},
    "a stout panel": {"cut__way": "usual", "cut__past_back": False, "cut__past_end": False},
    "a panel cut near the edge": {"cut__way": "near", "one": True, "cut__past_end": False},
    "weights enough": {"press__short": False, "press__matters": False},
    "no spare weights": {"press__laid": False, "press__overloads": ["middle 1", "nose tip"]},
    "clamps in the way": {"hangs_past": [4, 5], "clamps_clear": False},
    "quiet tools, hardwood": {
        "noise__verdict": "below",
        "noise__loudest_needs": False,
        "vibration__verdict": "below",
        "dust__hardwood": True,
        "dust__sensitiser": False,
        "vapour__finish": "varnish",
        "vapour__foam": "polyurethane",
    },
    "loud tools, resin": {
        "noise__verdict": "above",
        "noise__too_loud": True,
        "vibration__verdict": "above",
        "vapour__finish": "resin",
        "vapour__foam": "none",
    },
    "no plate, no finish": {"rich": False, "noise__verdict": "unknown", "vapour__finish": "not named"},
    "flat deck": {"crown__flat": True, "fin__leash_side": "centre", "fin__vent_side": "centre"},
    "crown too tight": {
        "crown__verdict": "too much",
        "crown__published": False,
        "crown__stretch_known": False,
        "top_clamps_enough": False,
        "glue__fits__top_deck": "no",
    },
    "easy crown": {"crown__verdict": "easy", "fin__plug_holds": False, "glue__fits__rails": "tight"},
    "no rails": {"rail__none": True},
    "laminations": {"rail__built": "laminations", "rail__bends_dry": True, "rail__published": False},
    "plain rails": {"rail__breaks": False, "rail__joined": False, "rail__shorter": False, "rail__tight_between": False},
    "inverted": {"inverted": True, "planks_joined": True},
    "no foam yet": {
        "foam__have": False,
        "foam__kind": "",
        "foam__name": "",
        "foam__fits": False,
        "foam__does": False,
        "rich": False,
    },
    "no foam needed": {"foam__needed": False, "foam__fits": False, "rich": False},
    "foam too soft": {"foam__does": False, "foam__kind": "extruded polystyrene", "air__vent_side": "left"},
    "polyurethane foam": {"foam__kind": "polyurethane"},
    "dry-room glue": {"glue__type": "pva", "glue__method": "spread", "glue__water_class": "D2"},
    "a tight glue-up": {"glue__method": "spread", "glue__fits__glue": "tight", "glue__open_beyond": "warmer"},
    "a glue-up that does not fit": {
        "glue__method": "spread",
        "glue__fits__glue": "no",
        "glue__more_people": False,
        "glue__goes_help": False,
        "glue__cure_beyond": "colder",
        "glue__two_columns": False,
    },
    "a warm night, a silent label": {
        "glue__cure_beyond": "warmer",
        "glue__open_beyond": "warmer",
        "glue__missing": ["bottle", "spread rate", "density"],
        "rich": False,
    },
    "a cold night, two columns": {"glue__cure_beyond": "colder", "glue__missing": ["density"]},
    "varnish": {
        "finish__type": "varnish",
        "finish__has_latest": False,
        "finish__too_late": [],
        "finish__by_day": False,
    },
    "resin in a cold room": {"finish__type": "resin", "finish__night_ok": False, "finish__too_late": []},
    "no finish named": {"finish__known": False, "finish__type": "", "finish__planned": False},
    "a finish without a plan, photos": {
        "finish__planned": False,
        "finish__day_ok": False,
        "photo_first": ("seal", "top-deck"),
    },
    "notes": {"notes": {stage.slug: f"Note for {stage.slug}." for stage in STAGES}},
}
GLUES = {
    f"{kind}, {method}": {"glue__type": kind, "glue__method": method, "glue__water_class": water}
    for (kind, method), water in zip(
        itertools.product(("pva", "polyurethane", "thickened epoxy"), ("bead", "spread")),
        ("D3", "D1", "D4", "none stated", "none stated", "D4"),
        strict=True,
    )
}
ALL = CHOICES | GLUES


def soup_of(text):
    html = markdown.markdown(text, extensions=list(MARKDOWN_EXTENSIONS), extension_configs=MARKDOWN_EXTENSION_CONFIGS)
    return BeautifulSoup(html, "html.parser")


@functools.cache
def finished(name):
    """Finished pages by slug, for one set of choices."""
    return {page.slug: soup_of(page.markdown) for page in guide(**ALL[name]).pages}


@pytest.fixture(params=sorted(ALL))
def pages(request):
    return finished(request.param)


def words(soup):
    return " ".join(soup.get_text().split())


def test_every_written_page_has_all_its_parts_in_order(pages):
    for slug in WRITTEN:
        ids = [heading["id"] for heading in pages[slug].find_all("h2")]
        assert tuple(name for name in ids if name in PARTS) == PARTS, slug
        assert ids[0] == PARTS[0], slug
        for heading in pages[slug].find_all("h2"):
            assert heading.find_next_sibling(), f"{slug}: nothing under {heading.get_text()}"


def test_every_step_and_check_can_be_ticked(pages):
    for slug in WRITTEN:
        items = pages[slug].select("li.step:not(.before), li.check")
        assert len(pages[slug].select("li.step")) >= 1
        assert len(pages[slug].select("li.check")) >= 1
        for item in items:
            assert item["id"].startswith((f"step-{slug}-", f"check-{slug}-"))
            box, label = item.find("input"), item.find("label")
            assert box["id"] == label["for"] == f"tick-{item['id']}"
            assert box["data-tick"] == item["id"]
            assert label.get_text().strip()
            assert not label.find("a")
            assert len(item.get_text().split()) > len(label.get_text().split()) + 3


def test_every_check_says_when_it_passes_and_when_it_fails(pages):
    for slug in WRITTEN:
        for check in pages[slug].select("li.check"):
            bold = [strong.get_text() for strong in check.find_all("strong")]
            assert "Pass:" in bold, check["id"]
            assert "Fail:" in bold, check["id"]


SLIPS = re.compile(
    r"\bNone\b|undefined|\bnan\b|\bTrue\b|\bFalse\b|[{}]|\*\*|\]\(|&#|,,|, ,|\.\.|:\.|\s[,.;:](?:\s|$)|\(\)|"
    r"\b1 (?:pairs|ribs|planks|joints|evenings|supports|rows|days|times|clamps|weights)\b|"
    r"\b(?:[02-9]|\d\d+) (?:pair|rib|plank|joint|evening|support|row|day)\b"
)


def test_no_page_shows_a_slip(pages):
    for slug, soup in pages.items():
        assert not SLIPS.findall(words(soup)), slug


def test_ids_are_unique_and_links_arrive(pages):
    ids = {slug: [tag["id"] for tag in soup.find_all(id=True)] for slug, soup in pages.items()}
    by_file = {stage.file: set(ids[stage.slug]) for stage in STAGES}
    for slug, soup in pages.items():
        assert len(ids[slug]) == len(set(ids[slug])), slug
        for link in soup.find_all("a"):
            if link["href"].startswith(("mailto:", "tel:")):
                continue
            file, _, place = link["href"].partition("#")
            assert file in by_file or not file, f"{slug}: {link['href']}"
            assert not place or place in (by_file[file] if file else ids[slug]), f"{slug}: {link['href']}"


def test_every_number_on_a_page_leads_to_its_explanation(pages):
    for slug in WRITTEN:
        for link in pages[slug].select("a.fig"):
            assert link["href"].startswith("numbers.md#")
            assert any(char.isdigit() for char in link.get_text())


def test_nothing_is_read_as_code(pages):
    for slug, soup in pages.items():
        assert not soup.find_all(["pre", "code"]), slug
        assert not soup.find_all(style=True), slug


@pytest.mark.parametrize("name", sorted(ALL))
def test_pva_is_never_run_as_a_bead(name):
    glue, choices = words(finished(name)["glue"]), ALL[name]
    bead = choices.get("glue__method", "bead") == "bead"
    pva = choices.get("glue__type", "polyurethane") == "pva"
    assert ("Run a bead into every corner" in glue) == (bead and not pva)
    assert ("A bead of PVA in the corners would not hold" in glue) == (bead and pva)
    assert ("Start the clock and spread" in glue) == (pva or not bead)


def test_a_bent_panel_waits_for_full_cure(pages, request):
    glue, said = pages["glue"], ALL[request.node.callspec.params["pages"]]
    wait = words(glue.find(id="step-glue-wait"))
    assert "Come back after 24 h, not earlier" in wait
    early = said.get("route") == "bottom panel"
    told = "taking the board off now" if early else "Leave the board on the bench until the top panel is on"
    assert told in words(glue.find(id="step-glue-lift" if early else "step-glue-stay"))
    assert ("carry the board with two people" in words(glue)) == early


@pytest.mark.parametrize(
    ("choice", "stop"),
    [
        ({"reached": False}, "the rocker is not agreed"),
        ({"night_ok": False}, "the room is too cold"),
        ({"temperature_ok": False}, "the room is too cold"),
        ({"clamps_enough": False}, "too few clamps"),
        ({"helpers_enough": False}, "Do not glue alone"),
        ({"inverted": True}, "curve the wrong way"),
    ],
)
def test_the_glue_page_says_stop_when_something_is_missing(choice, stop):
    def stops(**said):
        page = next(page for page in guide(**said).pages if page.slug == "glue")
        return " ".join(words(box) for box in soup_of(page.markdown).select("div.stop"))

    assert stop in stops(**choice)
    assert stop not in stops()


def test_a_rocker_out_of_reach_is_told_with_what_is_missing_and_the_nearest():
    pages = {page.slug: words(soup_of(page.markdown)) for page in guide(reached=False).pages}
    assert "What would fix it is weight" in pages["bench"]
    assert "the nearest you can reach is" in pages["bench"]
    assert "Do not glue until you and Marsh Kits have agreed" in pages["bench"]
    without = {page.slug: words(soup_of(page.markdown)) for page in guide(reached=False, cure="").pages}
    assert "No single change that was tried would do it" in without["bench"]


def test_the_makers_note_stands_on_its_page_only():
    pages = {page.slug: page.markdown for page in guide(notes={"glue": "Ring me first."}).pages}
    assert [slug for slug, text in pages.items() if "Ring me first" in text] == ["glue"]
    assert soup_of(pages["glue"]).select_one("div.maker-note")


def test_text_that_people_type_makes_no_element_anywhere():
    names = (
        *("builder__name", "board__name", "maker__name", "glue__name", "finish__name"),
        *("panel__timber", "surf__where", "surf__how"),
    )
    typed = {name: HOSTILE for name in names} | {"notes": {stage.slug: HOSTILE for stage in STAGES}}
    figures = sample(stacks_ok=False, stacks_missing=[HOSTILE], **typed)
    rows = {
        name: tuple(
            {key: HOSTILE if key in {"name", "substitute", "for_what", "date", "why"} else v for key, v in row.items()}
            for row in rows
        )
        for name, rows in figures.rows.items()
    }
    pages = write_guide(
        type(figures)(figures.values, figures.curves, rows, figures.said, figures.data), Drawings(), SOURCES
    )
    seen = 0
    for page in pages.pages:
        soup = soup_of(page.markdown)
        assert not soup.find_all("img"), page.slug
        assert not [a for a in soup.find_all("a") if "javascript" in a["href"]]
        seen += words(soup).count(HOSTILE)
        assert "onerror" not in page.markdown.replace("onerror&#61;", "")
    assert seen > 100
    assert "<" not in pages.title


def test_pages_stand_in_the_order_of_the_stages_under_fixed_names():
    made = guide()
    assert [(page.slug, page.file) for page in made.pages] == [(stage.slug, stage.file) for stage in STAGES]
    assert [file for group in made.nav for file in group.files] == [stage.file for stage in STAGES]
    assert made.links == ("mailto:hello@example.org", "https://example.org/")
    assert contact_address("+44 20 7946 0000") == "tel:+442079460000"


def test_the_same_figures_give_the_same_pages():
    assert guide() == guide()


def test_nothing_of_one_builder_stands_in_the_next_ones_guide():
    first, own_before = guide(builder__name="Ariel Quist", units="inches", one=True), guide(builder__name="Bea Ross")
    assert "Quist" not in "".join(page.markdown for page in own_before.pages)
    assert "Ross" not in "".join(page.markdown for page in first.pages)
    assert not re.search(r"\d in\]", "".join(page.markdown for page in own_before.pages))
    assert "[1 rib]" not in "".join(page.markdown for page in own_before.pages)
    COMPILED.clear()
    assert guide(builder__name="Bea Ross") == own_before


def test_a_changed_template_is_compiled_again():
    texts = [page_environment(sample(), {}, {"a.md": text}).get_template("a.md").render() for text in ("one", "two")]
    assert texts == ["one", "two"]


def test_inches_reach_every_page():
    for page in guide(units="inches").pages:
        text = re.sub(r"\([^)]*\)|<script.*?</script>", "", page.markdown)
        assert not re.search(r"\d (?:mm|kg|°C)\b", text), page.slug


def test_every_figure_has_one_card():
    figures = sample()
    soup = soup_of(next(page.markdown for page in guide().pages if page.slug == "numbers"))
    cards = [card["id"] for card in soup.select("dl.numbers > div.number")]
    reading = {f"tonight.read.{stage.slug}" for stage in BUILD_STAGES}  # known once the pages are written
    assert sorted(cards) == sorted(anchor(key) for key in {*figures.values, *reading})
    card = soup.find(id="panel-mass")
    assert card.select_one(".number-value").get_text() == "2.35 kg"
    assert card.select_one(".number-range").get_text() == "Range: 2 to 2.9 kg"
    assert card.select_one(".number-how").get_text() == "Invented."
    assert card.select_one(".number-kind").get_text() == "assumed"
    assert not soup.find(id="board-length").select_one(".number-range")


def test_an_unknown_figure_or_word_stops_the_page():
    environment = page_environment(
        sample(), {}, {"a.md": '{{ "no.such"|fig }}', "b.md": "{{ said.nobody }}", "c.md": "{{ rows.ribs|length / 3 }}"}
    )
    with pytest.raises(UnknownFigure, match=r"no\.such"):
        environment.get_template("a.md").render()
    with pytest.raises(Exception, match="nobody"):
        environment.get_template("b.md").render()
    with pytest.raises(TypeError, match="filters"):
        environment.get_template("c.md").render()


def test_typed_words_never_pass_as_our_own():
    with pytest.raises(TypeError, match="typed"):
        own(Typed("<b>"))
    with pytest.raises(ValueError, match="key"):
        anchor('x" onclick="y')


def test_typed_text_stays_safe_when_joined_or_changed():
    texts = {
        "a.md": '{{ said.builder.name ~ "-" ~ said.board.name }}',
        "b.md": "{{ said.builder.name|upper }}",
        "c.md": '{{ [said.builder.name]|join(", ") }}',
        "d.md": "{% macro m(x) %}{{ x }}{% endmacro %}{{ m(said.builder.name) }}",
    }
    environment = page_environment(sample(builder__name="<b>*x*"), {}, texts)
    for name in texts:
        assert "<" not in environment.get_template(name).render()
        assert "*" not in environment.get_template(name).render()


def test_each_filter_says_its_own_kind_of_thing():
    texts = {
        '{{ "panel.mass"|fig }}': "[2.35 kg](numbers.md#panel-mass){.fig}",
        '{{ "panel"|fig("mass") }}': "[2.35 kg](numbers.md#panel-mass){.fig}",
        '{{ "panel.mass"|plain }}': "2.35 kg",
        '{{ "panel.mass"|lowhigh }}': "[2 to 2.9 kg](numbers.md#panel-mass){.fig}",
        '{{ "glue.night_margin"|size }}': "[3 °C](numbers.md#glue-night_margin){.fig}",
        '{{ "frame.ribs"|counted("rib", "ribs") }}': "[4 ribs](numbers.md#frame-ribs){.fig}",
        "{{ said.glue.name|said }}": "harbour glue",
        '{{ "yes" if "plan.wait.bench"|is_zero }}': "yes",
        '{{ "yes" if "glue.night_margin"|is_below_zero }}': "yes",
        '{{ "yes" if "bench.support.2"|may_be_zero("load") }}': "yes",
        '{{ "yes" if has("no.such") else "no" }}': "no",
    }
    for text, wanted in texts.items():
        made = page_environment(sample(), {}, {"a.md": text}).get_template("a.md").render()
        assert made == wanted, text


@pytest.mark.parametrize(("count", "text"), [(1.04, "1 rib"), (0.96, "1 rib"), (2.0, "2 ribs"), (0.0, "0 ribs")])
def test_a_count_that_reads_as_one_has_the_noun_of_one(count, text):
    figures = sample()
    ribs = replace(figures.values["frame.ribs"], value=count, low=count, high=count, step=1.0)
    figures = replace(figures, values={**figures.values, "frame.ribs": ribs})
    texts = {"a.md": '{{ "frame.ribs"|counted("rib", "ribs") }}'}
    assert page_environment(figures, {}, texts).get_template("a.md").render().startswith(f"[{text}]")
