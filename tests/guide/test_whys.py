"""What a page tells of its own numbers and words: only its own, each text once, and nothing that could run."""

import json
import re

from guide_sample import guide

from generator.guide.whys import BLOCK, explained, glossary, page_whys
from generator.guide.words import Typed

CARD = {"id": "bench-nose", "label": "Nose", "shown": "265 mm", "spread": "", "how": "By the sums.", "kind": "assumed"}
WORDS = (
    "### Nose {: #word-nose .word-entry }\n\nThe **front** end, see [tail](#word-tail).\nOr &#39;bow&#39;.\n\n## N\n"
)


def block_of(markdown):
    found = re.search(rf'<script type="application/json" id="{BLOCK}">(.*?)</script>', markdown)
    return json.loads(found[1]) if found else None


def test_a_card_gives_its_lines_and_a_source_that_only_repeats_the_kind_is_left_out():
    groups = (
        {"figures": (CARD | {"source": "assumed"}, CARD | {"id": "b", "source": "a  label", "spread": "1 to 2 mm"})},
    )
    assert explained(groups) == {
        "bench-nose": ("Nose", "265 mm", "", "By the sums.", "assumed"),
        "b": ("Nose", "265 mm", "1 to 2 mm", "By the sums.", "assumed: a label"),
    }


def test_the_glossary_is_read_without_its_marks():
    assert glossary(WORDS) == {"nose": ("Nose", "The front end, see tail. Or 'bow'.")}


def test_a_page_tells_only_what_it_links_to_and_a_shared_text_once():
    page = "[1](numbers.md#a){.fig} [2](numbers.md#b){.fig} [1](numbers.md#a){.fig} [nose](words.md#word-nose){.word}"
    numbers = {name: (name, "1 mm", "", "By the sums.", "assumed") for name in "abc"}
    told = block_of(page_whys(page, numbers, {"nose": ("Nose", "Front."), "tail": ("Tail", "Back.")}))
    assert told["words"] == {"nose": ["Nose", "Front."]}
    assert {name: [told["texts"][place] for place in places] for name, places in told["numbers"].items()} == {
        name: list(numbers[name]) for name in "ab"
    }
    assert len(set(told["texts"])) == len(told["texts"])
    assert page_whys("No link here.", numbers, {}) is None


def test_what_somebody_typed_stays_text():
    evil = Typed("</script><script>alert(1)</script> *a* [b](c) <!--")
    block = str(
        page_whys("[1](numbers.md#a){.fig}", explained(({"figures": (CARD | {"id": "a", "source": evil},)},)), {})
    )
    assert block.count("<") == 2, "something in it could end the block"
    assert block_of(block)["texts"][-1] == f"assumed: {evil}"


def test_every_number_and_word_that_a_page_links_to_is_told_on_it():
    for page in guide().pages:
        told = block_of(page.markdown)
        if page.slug in {"words", "numbers"}:
            assert told is None
            continue
        ids = set(re.findall(r"\]\(numbers\.md#([^)]+)\)", page.markdown))
        words = set(re.findall(r"\]\(words\.md#word-([^)]+)\)", page.markdown))
        assert ids == set((told or {}).get("numbers", {})), page.slug
        assert words == set((told or {}).get("words", {})), page.slug
