"""A number or a word of the trade is told where it stands; without the script the link leads on as before."""

import json

import pytest

from tests.browser.conftest import SLUGS

SLUG = SLUGS[0]


def told(page):
    """What the open sheet says, line by line."""
    return page.locator("dialog.why[open] p").all_inner_texts()


def test_a_tapped_number_says_how_it_was_got_and_leads_to_its_place(watched, served):
    watch = watched(390)
    page = watch.open(f"{served}/{SLUG}/bench.html")
    link = page.locator(".md-content a.fig").nth(1)
    place = link.get_attribute("href").partition("#")[2]
    link.click()
    sheet = page.locator("dialog.why[open]")
    sheet.evaluate("sheet => Promise.all(sheet.getAnimations().map(one => one.finished))")
    name, said = sheet.locator("h2").inner_text(), told(page)
    box = sheet.bounding_box()
    assert (round(box["x"]), round(box["width"]), round(box["y"] + box["height"])) == (0, 390, 844)
    assert page.url.endswith("bench.html"), "the page was left"
    assert page.evaluate("() => document.activeElement.getAttribute('aria-label')") == "Close"
    assert sheet.get_attribute("aria-labelledby") == sheet.locator("h2").get_attribute("id")
    way = sheet.locator("a")
    assert way.inner_text() == "All the numbers"
    way.click()
    page.wait_for_url(f"**/numbers.html#{place}")
    card = page.locator(".number:target")
    lines = [card.locator(f".number-{part}") for part in ("value", "range", "how", "kind")]
    texts = [line.inner_text() for line in lines if line.count()]
    assert [name, *said[:-1], said[-1].removeprefix("Where its trust comes from: ")] == [
        card.locator("dt").inner_text(),
        *texts,
    ]
    assert not watch.said


@pytest.mark.parametrize("width", [390, 1280])
def test_the_sheet_closes_in_every_way_and_gives_the_focus_back(watched, served, width):
    watch = watched(width)
    page = watch.open(f"{served}/{SLUG}/bench.html")
    ways = {
        "button": lambda: page.click(".why__close"),
        "Escape": lambda: page.keyboard.press("Escape"),
        "outside": lambda: page.mouse.click(4, 70),
    }
    for number, (way, close) in enumerate(ways.items()):
        link = page.locator(".md-content a.word" if way == "outside" else ".md-content a.fig").nth(number)
        link.click()
        sheet = page.locator("dialog.why[open]")
        sheet.evaluate("sheet => Promise.all(sheet.getAnimations().map(one => one.finished))")
        box = sheet.bounding_box()
        assert box["x"] >= 0, way
        assert box["y"] >= 0, way
        assert box["x"] + box["width"] <= width, way
        assert box["y"] + box["height"] <= 844, way
        if width == 390:
            assert page.locator(".why__close").bounding_box()["height"] >= 44
        page.mouse.click(box["x"] + box["width"] / 2, box["y"] + 12)
        assert sheet.count() == 1, f"{way}: a tap on the sheet itself closed it"
        close()
        assert sheet.count() == 0, way
        assert link.evaluate("link => link === document.activeElement"), f"{way}: the focus is lost"
    assert not watch.said


def test_a_word_is_told_as_in_the_glossary(watched, served):
    page = watched(390).open(f"{served}/{SLUG}/bench.html")
    link = page.locator(".md-content a.word").first
    place = link.get_attribute("href").partition("#")[2]
    link.click()
    name, said = page.locator(".why h2").inner_text(), told(page)
    page.click(".why__all")
    page.wait_for_url(f"**/words.html#{place}")
    entry = page.locator(f"#{place}")
    assert name == entry.inner_text()
    assert said == [entry.evaluate("entry => entry.nextElementSibling.innerText")]


def test_a_link_stays_a_link_with_a_key_held_without_an_entry_and_without_scripts(watched, served, chromium):
    page = watched(390).open(f"{served}/{SLUG}/bench.html")
    link = page.locator(".md-content a.fig").first
    with page.context.expect_page() as beside:
        link.click(modifiers=["Control"])
    assert "/numbers.html#" in beside.value.url
    assert page.locator("dialog[open]").count() == 0
    nothing = json.dumps({"numbers": {}, "texts": [], "words": {}})
    page.evaluate("text => { document.getElementById('page-whys').textContent = text }", nothing)
    link.click()
    page.wait_for_url("**/numbers.html#*")
    with chromium.new_context(java_script_enabled=False, viewport={"width": 390, "height": 844}) as context:
        still = context.new_page()
        still.goto(f"{served}/{SLUG}/bench.html")
        assert not still.locator(".reach").is_visible()
        assert still.locator(".md-header label[for=__drawer]").is_visible()
        still.locator(".md-content a.fig").first.click()
        still.wait_for_url("**/numbers.html#*")


def test_a_number_opens_from_a_folder_too(watched, demo_sites):
    watch = watched(390)
    page = watch.open((demo_sites / SLUG / "rocker.html").as_uri())
    page.locator(".md-content a.fig").first.click()
    assert len(told(page)) >= 3
    assert not page.locator("[data-way=search]").count(), "there is no search in a folder"
    assert not watch.said
