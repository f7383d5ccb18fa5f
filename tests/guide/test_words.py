"""One filter for all text that people type: it reads as it was typed, and makes no element, wherever it lands."""

import markdown
import pytest
from bs4 import BeautifulSoup
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.guide.pages import MARKDOWN_EXTENSION_CONFIGS, MARKDOWN_EXTENSIONS
from generator.guide.words import Typed, safe_text

PLACES = {
    "paragraph": "{}",
    "inside a sentence": "Before {} after.",
    "emphasis": "**{}**",
    "heading": "## {} {{: #here }}",
    "list item": "- first\n- {}\n- last",
    "numbered item": "1. first\n2. {}",
    "table cell": "| a | b |\n|---|--:|\n| {} | 2 |",
    "link text": "[{}](numbers.md)",
    "raw HTML": "<dl><dd>{}</dd></dl>",
    "HTML with Markdown": '<ol markdown="block"><li markdown="block">\n\n{}\n\n</li></ol>',
    "label": '<div class="tick"><label for="x">{}</label></div>',
    "attribute": '<p title="{}">x</p>',
}
HOSTILE = (
    "<script>alert(1)</script>",
    "[x](javascript:alert(1))",
    "![x](https://example.org/x.png)",
    "<img src=x onerror=alert(1)>",
    "*a* _b_ `c` ~~d~~ \\*e\\*",
    "1. one",
    "# heading",
    "    code",
    "&lt;b&gt; &amp; &#60;",
    "a | b | c",
    "{: #id .class onclick=x }",
    "{{ said.builder.name }} {% include 'x' %}",
    "https://example.org <https://example.org>",
    "--8<-- 'run.py'",
    "[^1] [TOC] !!! note",
    '" autofocus onfocus="alert(1)',
    "</dd></dl></li></ol>",
    "line one\n\n## line two\n\n- three",
    "\u2028\u00a0 spaced \t out \r\n",
)


def rendered(source: str) -> BeautifulSoup:
    html = markdown.markdown(source, extensions=list(MARKDOWN_EXTENSIONS), extension_configs=MARKDOWN_EXTENSION_CONFIGS)
    return BeautifulSoup(html, "html.parser")


def holds_exactly(place: str, text: str) -> None:
    marked, plain = rendered(PLACES[place].format(safe_text(f"Q{text}Z"))), rendered(PLACES[place].format("QZ"))
    assert [tag.name for tag in marked.find_all()] == [tag.name for tag in plain.find_all()]
    assert [sorted(tag.attrs) for tag in marked.find_all()] == [sorted(tag.attrs) for tag in plain.find_all()]
    seen = marked.p["title"] if place == "attribute" else marked.get_text()
    assert " ".join(f"Q{text}Z".split()) in seen


@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_text_reads_as_typed_and_makes_nothing(place, text):
    holds_exactly(place, text)


TYPEABLE = st.text(
    st.characters(exclude_categories=("Cc", "Cs"), include_characters="\t\n"), min_size=1, max_size=60
) | st.text("<>&;#*_`[](){}!|\\~:\"'=-+. \n1aA", min_size=1, max_size=60)


@settings(max_examples=400, deadline=None)
@given(place=st.sampled_from(sorted(PLACES)), text=TYPEABLE)
def test_any_text_reads_as_typed_and_makes_nothing(place, text):
    holds_exactly(place, text)


def test_typed_text_is_a_word_like_any_other_but_prints_safe():
    assert Typed("metric") == "metric"
    assert Typed("<b>").__html__() == "&#60;b&#62;"
