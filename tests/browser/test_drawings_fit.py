"""Drawings as a phone and a laptop show them: large enough, nothing on top of another, nothing cut off."""

import runpy
from pathlib import Path

import pytest

from generator.drawings import DRAWINGS
from generator.figure_sets import make_figures
from generator.inputs.site import builder_slugs, read_builder

ROOT = Path(__file__).resolve().parents[2]
CSS = (ROOT / "guide_src" / "assets" / "drawings.css").read_text(encoding="utf-8")
INVENTED = runpy.run_path(str(ROOT / "tests" / "drawings" / "sample.py"))
SMALLEST_PX = 11
WIDTHS = {"phone": (390, 358), "phone, within a step": (390, 322), "laptop": (1280, 760)}

MEASURE = """() => [...document.querySelectorAll('svg')].map(sheet => {
  const edge = sheet.getBoundingClientRect(), faults = [];
  const words = [...sheet.querySelectorAll('text')].map(e => ({
    says: e.textContent, box: e.getBoundingClientRect(),
    px: parseFloat(getComputedStyle(e).fontSize) * edge.width / sheet.viewBox.baseVal.width}));
  for (const [i, {says, box, px}] of words.entries()) {
    if (px < SMALLEST) faults.push(`${says}: ${px} px`);
    if (!box.width) faults.push(`${says}: not shown`);
    if (box.left < edge.left || box.right > edge.right || box.top < edge.top || box.bottom > edge.bottom)
      faults.push(`${says}: outside`);
    for (const other of words.slice(i + 1))
      if (box.left < other.box.right && other.box.left < box.right &&
          box.top < other.box.bottom && other.box.top < box.bottom)
        faults.push(`${says}: on top of ${other.says}`);
  }
  return {title: sheet.querySelector('title')?.textContent, count: words.length, wide: edge.width, faults};
})""".replace("SMALLEST", str(SMALLEST_PX))

STRANGE_COLOURS = """() => {
  const root = getComputedStyle(document.body), strange = new Set();
  const ours = new Set(['paper', 'ink', 'wood', 'wood-deep', 'sea', 'warn', 'faint', 'mist'].map(name => {
    const probe = document.createElement('i');
    probe.style.color = root.getPropertyValue('--sb-' + name);
    document.body.append(probe);
    return getComputedStyle(probe).color;
  }));
  for (const mark of document.querySelectorAll('svg path, svg rect, svg circle, svg text')) {
    if (mark.closest('clipPath')) continue;
    const style = getComputedStyle(mark);
    for (const colour of [style.fill, style.stroke])
      if (colour !== 'none' && !ours.has(colour)) strange.add(colour + ' ' + mark.getAttribute('class'));
  }
  return [ours.size, ...strange];
}"""


def figures_of(who):
    if who in INVENTED["SAMPLES"]:
        return INVENTED["sample"](**INVENTED["SAMPLES"][who])
    return make_figures(read_builder(ROOT / "site_data", who))


@pytest.fixture(scope="module", params=[*INVENTED["SAMPLES"], *builder_slugs(ROOT / "site_data")])
def all_drawings(request):
    figures = figures_of(request.param)
    return "".join(f"<figure style='margin:0'>{draw(figures)}</figure>" for draw in DRAWINGS.values())


def shown(chromium, body, *, window, column, attributes=""):
    page = chromium.new_page(viewport={"width": window, "height": 800})
    page.set_content(f"<style>{CSS} div{{width:{column}px}}</style><body {attributes}><div>{body}</div>")
    return page


@pytest.mark.parametrize("screen", WIDTHS)
def test_words_are_large_enough_apart_and_inside(chromium, all_drawings, screen):
    window, column = WIDTHS[screen]
    page = shown(chromium, all_drawings, window=window, column=column)
    sheets = page.evaluate(MEASURE)
    page.close()
    assert len(sheets) == len(DRAWINGS)
    assert all(sheet["count"] >= 2 and 300 < sheet["wide"] <= column for sheet in sheets)
    assert {sheet["title"]: sheet["faults"] for sheet in sheets if sheet["faults"]} == {}


def test_the_measure_finds_what_it_is_meant_to_find(chromium):
    body = (
        "<svg class='d-sheet' viewBox='0 0 350 60'><text x='10' y='30'>one</text>"
        "<text x='14' y='33'>two</text><text x='330' y='20'>outside</text></svg>"
    )
    faults = []
    for column in (358, 280):
        page = shown(chromium, body, window=390, column=column)
        faults.append(page.evaluate(MEASURE)[0]["faults"])
        page.close()
    assert [fault.split(": ")[1] for fault in faults[0]] == ["on top of two", "outside"]
    assert sum(fault.endswith("px") for fault in faults[1]) == 3


@pytest.mark.parametrize("scheme", ["default", "slate"])
def test_every_mark_follows_the_pages_colours(chromium, all_drawings, scheme):
    page = shown(chromium, all_drawings, window=390, column=358, attributes=f"data-md-color-scheme='{scheme}'")
    known, *strange = page.evaluate(STRANGE_COLOURS)
    page.close()
    assert known == 8
    assert strange == []


def test_on_paper_the_dark_scheme_prints_dark_on_white(chromium, all_drawings):
    page = shown(chromium, all_drawings, window=800, column=700, attributes="data-md-color-scheme='slate'")
    page.emulate_media(media="print")
    ink, paper = page.evaluate(
        "() => [getComputedStyle(document.querySelector('svg text')).fill,"
        " getComputedStyle(document.querySelector('svg')).backgroundColor]"
    )
    page.close()
    assert (ink, paper) == ("rgb(0, 0, 0)", "rgb(255, 255, 255)")
