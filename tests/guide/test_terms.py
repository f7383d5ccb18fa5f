"""The glossary: every word has its entry, and its first mention on a page leads there."""

import re

import pytest
from guide_sample import SOURCES, guide
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.guide.terms import OTHER_SENSES, PAGE, TERMS, with_terms

ENTRIES = re.findall(r'part\.word\("([^"]+)", "([^"]+)"\)', SOURCES["pages/words.md"])
LINK = re.compile(r"\[([^\]]*)\]\(words\.md#word-[a-z-]+\)\{\.word\}")


def test_every_term_has_one_entry_and_every_entry_is_a_term():
    slugs = [slug for slug, _ in ENTRIES]
    assert sorted(slugs) == sorted(TERMS)
    assert len(set(slugs)) == len(slugs)


def test_every_entry_is_explained_in_a_sentence():
    text = SOURCES["pages/words.md"]
    for slug, _ in ENTRIES:
        after = text.split(f'part.word("{slug}"')[1].split("\n")[1]
        assert re.match(r"[A-Z].+[.:]", after), slug


def test_no_form_belongs_to_two_terms():
    forms = [form for forms in TERMS.values() for form in forms]
    assert len(set(forms)) == len(forms)
    assert all(form == form.lower() for form in forms)


def test_the_first_mention_leads_to_the_glossary_and_no_other():
    told = with_terms("Ribs and a rib.\n\nThe rib again, and the spine.")
    assert told == (
        f"[Ribs]({PAGE}#word-rib){{.word}} and a rib.\n\nThe rib again, and the [spine]({PAGE}#word-spine){{.word}}."
    )


@pytest.mark.parametrize(
    "line",
    [
        "# The spine",
        "## Rails {: #rails }",
        '<label for="x">Glue the ribs in</label>',
        "| rib | mm |",
        "[All about the rail](rails.md)",
        "**Rib 3 (rail):**",
        "See `rib`.",
        "<svg><text>rib</text></svg>",
        "a wibrib, rib-like, ribbed",
    ],
)
def test_what_is_not_running_text_is_left_alone(line):
    assert with_terms(line) == line


def test_a_drawing_over_several_lines_is_left_alone():
    drawing = '<svg class="d-sheet">\n<text>rib</text>\nrib\n</svg>'
    assert with_terms(drawing) == drawing


@pytest.mark.parametrize("phrase", OTHER_SENSES)
def test_a_word_in_another_sense_is_left_alone(phrase):
    told = with_terms(f"Here {phrase} stands.")
    assert told == f"Here {phrase} stands."
    assert re.search(rf"(?<![\w-])(?:{'|'.join(form for forms in TERMS.values() for form in forms)})(?![\w-])", phrase)


def test_a_word_in_its_own_sense_is_still_found_after_it():
    assert with_terms("Two equal blocks, and the tail block.").endswith(
        f"the [tail]({PAGE}#word-tail){{.word}} [block]({PAGE}#word-block){{.word}}."
    )


@pytest.mark.parametrize("line", ["2 × thin ply offcut", "1 × cinder half block, then", "3 × hollow block; more"])
def test_names_of_counted_things_are_left_alone(line):
    assert with_terms(line) == line


@settings(max_examples=200, deadline=None)
@given(
    st.lists(st.sampled_from([*("a", " ", ", ", "rib", "Ribs", "edge strip", "[rail](x.md)", "**key**", "\n", "# ")]))
)
def test_nothing_but_links_is_added(bits):
    text = "".join(bits)
    assert LINK.sub(r"\1", with_terms(text)) == text


OTHERWISE = {"rail__built": "laminations", "glue__type": "pva", "glue__method": "spread", "panel__staggered": False}


def test_every_term_stands_on_a_page():
    pages = [page.markdown for page in (*guide().pages, *guide(**OTHERWISE).pages)]
    linked = {slug for text in pages for slug in re.findall(r"words\.md#word-([a-z-]+)", text)}
    assert set(TERMS) - linked == set()
