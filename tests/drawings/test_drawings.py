"""What holds for every drawing, whoever it is for."""

import functools
import re
import subprocess
import sys
from itertools import combinations
from pathlib import Path
from xml.etree import ElementTree as Tree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sample import LONG_NAME, SAMPLES, sample

from generator.drawings import DRAWINGS
from generator.drawings.lettering import width

ROOT = Path(__file__).resolve().parents[2]
CSS = (ROOT / "guide_src" / "assets" / "drawings.css").read_text(encoding="utf-8")
SVG = "{http://www.w3.org/2000/svg}"
ALLOWED = {"class", "d", "x", "y", "rx", "cx", "cy", "r", "width", "height", "viewBox", "role", "id", "aria-labelledby",
           "clip-path"}  # fmt: skip

each_drawing = pytest.mark.parametrize("name", DRAWINGS)
each_sample = pytest.mark.parametrize("kind", SAMPLES)


@functools.cache
def figures_of(kind):
    return sample(**SAMPLES[kind])


@functools.cache
def svg_of(name, kind):
    return DRAWINGS[name](figures_of(kind))


def tree_of(name, kind):
    return Tree.fromstring(svg_of(name, kind))


def texts(root):
    return [element for element in root.iter(f"{SVG}text")]


def box_of(text):
    """Left, top, right, bottom of a line of text, by the estimate for a wide face."""
    classes = text.attrib["class"].split()
    wide = width(text.text, 12, bold="d-bold" in classes)
    x, y = float(text.attrib["x"]), float(text.attrib["y"])
    left = x - wide / 2 if "d-mid" in classes else x - wide if "d-end" in classes else x
    return left, y - 11.2, left + wide, y + 3


@each_drawing
@each_sample
def test_looks_come_from_classes_that_have_a_style(name, kind):
    styled = set(re.findall(r"\.(d-[\w-]+)", CSS))
    for element in tree_of(name, kind).iter():
        assert set(element.attrib) <= ALLOWED, element.attrib
        assert set(element.attrib.get("class", "").split()) <= styled
        assert element.tag.removeprefix(SVG) not in {"style", "script", "image", "a", "foreignObject"}


@each_drawing
@each_sample
def test_every_mark_is_drawn_in_some_colour(name, kind):
    clips = {mark for clip in tree_of(name, kind).iter(f"{SVG}clipPath") for mark in Tree.tostringlist(clip)}
    for element in tree_of(name, kind).iter():
        if element.tag.removeprefix(SVG) in {"path", "rect", "circle", "text"} and Tree.tostring(element) not in clips:
            assert element.attrib.get("class") or element.attrib.get("width"), element.attrib


@each_sample
def test_ids_are_unique_on_a_page_with_all_drawings(kind):
    ids = [e.attrib["id"] for name in DRAWINGS for e in tree_of(name, kind).iter() if "id" in e.attrib]
    assert len(ids) == len(set(ids)) >= 2 * len(DRAWINGS)


@each_drawing
@each_sample
def test_a_screen_reader_is_told_what_is_shown(name, kind):
    root = tree_of(name, kind)
    assert root.attrib["role"] == "img"
    by_id = {e.attrib["id"]: e for e in root.iter() if "id" in e.attrib}
    title, words = (by_id[i] for i in root.attrib["aria-labelledby"].split())
    assert 5 < len(title.text) < 60
    assert len(words.text) > 25
    assert words.text.rstrip().endswith(".")


@each_drawing
@each_sample
def test_words_stay_apart_and_inside_by_the_estimate_for_a_wide_face(name, kind):
    check_words(tree_of(name, kind))


@settings(max_examples=15, deadline=None)
@given(
    length_mm=st.floats(1500, 3400), ribs=st.integers(5, 18), units=st.sampled_from(["metric", "inches"]),
    supports=st.integers(2, 8), planks=st.integers(1, 18), weights=st.integers(0, 9), rail_mm=st.sampled_from([0, 30]),
    tail=st.sampled_from(["square", "round"]), crossbars=st.booleans(), reached=st.booleans(), long_names=st.booleans(),
)  # fmt: skip
def test_words_stay_apart_on_any_believable_board(**changes):
    figures = sample(**changes)
    for name in set(DRAWINGS) - {"curve_chart", "load_chart"}:
        check_words(Tree.fromstring(DRAWINGS[name](figures)))


def check_words(root):
    _, _, wide, tall = map(float, root.attrib["viewBox"].split())
    boxes = [(text.text, box_of(text)) for text in texts(root)]
    for words, (left, top, right, bottom) in boxes:
        assert left >= 0 and top >= 0 and right <= wide and bottom <= tall, words  # noqa: PT018
    for (one, a), (other, b) in combinations(boxes, 2):
        assert a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1], (one, other)


@each_drawing
def test_inches_are_shown_to_those_who_measure_in_inches(name):
    shown = " ".join(e.text for e in tree_of(name, "inches").iter() if e.text)
    assert not re.search(r"\b(mm|kg|cm)\b", shown)


@each_drawing
@each_sample
def test_typed_words_never_become_markup(name, kind):
    svg = svg_of(name, kind)
    assert "<b>" not in svg
    assert not re.search(r"[*`\[\]_]|javascript", re.sub(r'="[^"]*"', "", svg))


def test_a_long_name_is_shown_as_typed_as_far_as_there_is_room():
    shown = [text.text for text in texts(tree_of("bench", "inches"))]
    assert any(LONG_NAME[:12] in words and words.endswith("…") for words in shown)


@each_drawing
def test_the_same_figures_give_the_same_bytes(name):
    figures = figures_of("inches")
    assert DRAWINGS[name](figures) == DRAWINGS[name](figures)


def test_another_process_gives_the_same_bytes():
    code = (
        f"import sys, hashlib; sys.path[:0] = [{str(ROOT)!r}, {str(ROOT / 'tests' / 'drawings')!r}]\n"
        "from sample import SAMPLES, sample\nfrom generator.drawings import DRAWINGS\n"
        "figures = sample(**SAMPLES['metric'])\n"
        "print(hashlib.sha256(''.join(draw(figures) for draw in DRAWINGS.values()).encode()).hexdigest())"
    )
    runs = [
        subprocess.run([sys.executable, "-c", code], env={"PYTHONHASHSEED": seed, "HOME": str(Path.home())},
                       capture_output=True, text=True, check=True).stdout
        for seed in ("1", "2")
    ]  # fmt: skip
    assert runs[0] == runs[1]


@each_drawing
def test_drawings_stay_small(name):
    assert max(len(svg_of(name, kind)) for kind in SAMPLES) < 20_000
