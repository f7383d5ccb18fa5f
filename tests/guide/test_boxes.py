"""What other pages tell of the stages' pages: their boxes, what they lay out, how long they are."""

import json

import pytest
from bs4 import BeautifulSoup
from guide_sample import guide

from generator.guide.boxes import BLOCK, boxes, guide_boxes, laid_out, word_count
from generator.guide.pages import Page
from generator.guide.stages import BUILD_STAGES


@pytest.fixture(scope="module")
def pages():
    return {page.slug: page for page in guide().pages}


def block_of(markdown):
    found = BeautifulSoup(markdown, "html.parser").find(id=BLOCK)
    return found and json.loads(found.string)


def test_a_box_has_its_id_and_its_title_as_plain_text():
    line = (
        '<div class="tick"><input type="checkbox" class="tick-box" id="tick-step-a-b" data-tick="step-a-b">'
        ' <label for="tick-step-a-b">Don&#39;t &#60;b&#62;press&#60;/b&#62;  <em>it</em></label></div>'
    )
    assert boxes(f"## Steps\n\n{line}\n") == [["step-a-b", "Don't <b>press</b> it"]]
    assert boxes("no box at all") == []


def test_the_block_lists_every_box_of_every_build_stage_in_the_order_of_the_pages(pages):
    block = block_of(pages["board"].markdown)
    assert [stage["slug"] for stage in block["stages"]] == [stage.slug for stage in BUILD_STAGES]
    for stage in block["stages"]:
        page = pages[stage["slug"]]
        soup = BeautifulSoup(page.markdown, "html.parser")
        found = [(box["data-tick"], box.find_next("label").get_text()) for box in soup.select("input.tick-box")]
        assert [tuple(box) for box in stage["boxes"]] == found
        assert len(found) >= 4
        assert stage["file"] == f"{page.slug}.html"
        assert stage["title"] == page.title


def test_the_block_stands_on_the_two_pages_that_use_it_and_on_no_other(pages):
    assert {slug for slug, page in pages.items() if block_of(page.markdown)} == {"board", "tonight"}
    assert block_of(pages["board"].markdown) == block_of(pages["tonight"].markdown)


def test_a_title_can_not_end_the_block():
    title = "&#60;/script&#62;&#60;img src=x onerror=alert(1)&#62;"
    text = f'<input type="checkbox" class="tick-box" id="tick-x" data-tick="x"> <label for="tick-x">{title}</label>'
    made = guide_boxes([Page("a.md", "A", text, "a")])
    assert made["stages"][0]["boxes"] == [["x", "</script><img src=x onerror=alert(1)>"]]


def test_the_block_says_which_stages_the_file_counts_as_done():
    made = guide_boxes([Page("a.md", "A", "", "a"), Page("b.md", "B", "", "b")], {"a"})
    assert [stage["done"] for stage in made["stages"]] == [True, False]


def test_words_are_counted_without_drawings_data_and_the_targets_of_links():
    text = (
        "## Four words stand here {: #here }\n\n"
        '<svg><text>not one of these</text></svg>\n<script type="application/json">{"nor": "these"}</script>\n\n'
        "Take [about 3 mm](numbers.md#a-b){.fig} off **it**.\n"
    )
    assert word_count(text) == 1 + 4 + 6  # the heading's mark counts as one


def test_what_a_page_lays_out_can_stand_on_another_page():
    head = "# A\n\n## Time {: #time }\n\nNo.\n\n## What to lay out {: #layout }\n\n"
    own = '- [a step](#step-a-b)\n\n<div class="whole-board" markdown="block">\n\nall glue\n\n</div>\n\n'
    page = Page("a.md", "A", f"{head}{own}## Cautions {{: #cautions }}\n\nNot this.\n", "a")
    assert laid_out(page) == "- [a step](a.md#step-a-b)"
    with pytest.raises(ValueError, match=r"a\.md"):
        laid_out(Page("a.md", "A", "# A\n\nNothing.\n", "a"))
