"""The guide by keyboard alone, at four times its size, in forced colours, without movement, with its sheets open."""

import pytest

from generator.guide.stages import BUILD_STAGES
from tests.browser.conftest import SLUGS, pages_of
from tests.browser.test_every_page import findings

SLUG = SLUGS[0]
REFLOW_PX = 320  # WCAG 2.2, success criterion 1.4.10
SPACING = (  # WCAG 2.2, success criterion 1.4.12
    "* { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important }"
    " p { margin-bottom: 2em !important }"
)

# The part that has the focus: none at the end of the page, and why it can't be seen, if it can't.
FOLLOW = """
() => {
  const target = document.activeElement;
  if (!document.hasFocus() || target === document.body) return [true, null];
  (window.focused ??= new Set()).add(target);
  const box = target.getClientRects()[0] ?? {left: 0, top: 0, width: 0, height: 0};
  const top = document.elementFromPoint(box.left + box.width / 2, box.top + box.height / 2);
  const bar = top?.closest('.md-header, .reach');
  const shown = top && (target.contains(top) || top.contains(target) || target.labels?.[0]?.contains(top));
  if (shown && (!bar || bar.contains(target))) return [false, null];
  return [false, `${target.outerHTML.slice(0, 160)} under ${top?.outerHTML.slice(0, 80)}`];
}
"""
MISSED = """
() => [...document.querySelectorAll('a[href], button, input, select, textarea, summary, [tabindex="0"]')]
  .filter(part => part.checkVisibility({visibilityProperty: true}) && !part.disabled && part.tabIndex >= 0)
  .filter(part => part.type !== 'radio' && !part.closest('[inert], .md-search') && !part.matches('.md-skip'))
  .filter(part => !focused.has(part)).map(part => part.outerHTML.slice(0, 160))
"""


def everywhere(page, key, limit=600):
    """Press `key` until the focus has gone round; what was focused but hidden, and what was never reached."""
    page.evaluate("() => { window.focused = new Set() }")
    hidden = []
    for _ in range(limit):
        page.keyboard.press(key)
        over, why = page.evaluate(FOLLOW)
        if why:
            page.wait_for_timeout(150)  # the theme moves its columns a moment after the page has scrolled
            over, why = page.evaluate(FOLLOW)
        hidden += [why] if why else []
        if over:
            return hidden, page.evaluate(MISSED)
    raise AssertionError(f"{key} goes round and round")


@pytest.mark.parametrize(("width", "name"), [(390, "rocker.html"), (1280, "bench.html")])
def test_the_keyboard_reaches_everything_and_what_it_reaches_can_be_seen(watched, served, width, name):
    page = watched(width).open(f"{served}/{SLUG}/{name}")
    page.emulate_media(reduced_motion="reduce")
    page.keyboard.press("Tab")
    skip = page.evaluate("() => [document.activeElement.className, document.activeElement.getBoundingClientRect().top]")
    assert "md-skip" in skip[0]
    page.wait_for_function("() => getComputedStyle(document.activeElement).opacity === '1'")
    page.evaluate("() => document.activeElement.blur()")
    for key in ("Tab", "Shift+Tab"):
        hidden, missed = everywhere(page, key)
        assert hidden == [], f"{key}: focused, and hidden"
        assert missed == [], f"{key}: never focused"


def test_the_whole_guide_is_worked_by_keyboard(watched, served):
    watch = watched(390)
    page = watch.open(f"{served}/{SLUG}/bench.html")
    focus, press = page.evaluate, page.keyboard.press
    doing = "() => document.activeElement.dataset.way ?? document.activeElement.className"

    page.locator(".reach [data-way=contents]").focus()
    press("Enter")
    page.wait_for_function("() => document.activeElement.closest('.sb-contents')")
    assert page.locator(".reach [data-way=contents]").get_attribute("aria-expanded") == "true"
    for _ in range(3):
        press("Shift+Tab")
        assert focus("() => !document.activeElement.closest('.md-content, .md-header, .reach')"), "behind the contents"
    press("Escape")
    assert page.locator(".reach [data-way=contents]").get_attribute("aria-expanded") == "false"
    assert focus(doing) == "contents", "the focus is not given back"

    page.locator(".md-header [data-way=search]").focus()
    press("Enter")
    page.wait_for_function("() => document.activeElement.name === 'query'")
    page.keyboard.type("winding")
    page.wait_for_selector(".md-search-result__link", state="visible")
    assert "matching" in page.locator(".md-search-result__meta[role=status], .md-search-result__meta").inner_text()
    press("Escape")
    page.wait_for_function("() => document.activeElement.dataset.way === 'search'")

    dark = page.locator(".md-header [data-way=dark]")
    dark.focus()
    press("Space")
    assert (dark.get_attribute("aria-pressed"), focus("() => document.body.dataset.mdColorScheme")) == ("true", "slate")
    for letter in "np,.fs":
        press(letter)
    page.wait_for_timeout(150)
    assert page.url.endswith("bench.html"), "a single letter turned the page"
    assert not page.locator("#__search").is_checked(), "a single letter opened the search"

    box = page.locator(".tick-box").first
    box.focus()
    press("Space")
    assert box.is_checked()
    page.locator(".md-content a.fig").first.focus()
    press("Enter")
    for _ in range(3):
        press("Tab")
        assert focus("() => document.activeElement === document.body || !!document.activeElement.closest('.why')")
    press("Escape")
    assert focus(doing).startswith("fig")
    assert not watch.said


def test_the_bar_leads_to_the_next_box_and_then_to_the_next_page(watched, served):
    watch = watched(390)
    page = watch.open(f"{served}/{SLUG}/bench.html")
    bar, title = page.locator(".reach__next"), page.locator(".tick label")
    assert bar.inner_text() == f"Next: {title.first.inner_text()}"
    bar.click()
    page.wait_for_function("() => document.activeElement.matches('.tick-box')")
    page.keyboard.press("Space")
    assert bar.inner_text() == f"Next: {title.nth(1).inner_text()}"
    page.evaluate("() => document.querySelectorAll('.tick-box:not(:checked)').forEach(box => box.click())")
    following = BUILD_STAGES[[stage.slug for stage in BUILD_STAGES].index("bench") + 1]
    assert bar.inner_text() == f"Next page: {following.title}"
    assert bar.get_attribute("href") == following.file.replace(".md", ".html")
    clocks = "{a: {label: 'Clamps', page: 'glue.html', began: Date.now(), minutes: 90},"
    clocks += " b: {label: 'Glue', page: 'bench.html', began: Date.now(), minutes: 5, stopped: Date.now()}}"
    page.evaluate(f"() => shed.keep('clocks', {clocks})")
    began = page.evaluate("() => shed.kept('clocks').a.began")
    ends = page.evaluate("ms => new Date(Math.ceil(ms / 60000 + 90) * 60000).toTimeString().slice(0, 5)", began)
    clock = page.locator(".reach__clock")
    assert ends in clock.inner_text()
    assert "Clamps" in clock.text_content()
    assert clock.get_attribute("href") == "glue.html#a"
    page.evaluate(
        "() => shed.keep('clocks', {a: {label: 'Clamps', page: 'glue.html', began: Date.now() - 9e5, minutes: 1}})"
    )
    assert "reach__clock--over" in clock.get_attribute("class")
    page.evaluate("() => shed.forget('clocks')")
    assert not clock.is_visible()
    page.evaluate("() => document.querySelector('.md-content').append(shed.make('input', {id: 'typed'}))")
    page.focus("#typed")
    assert not page.locator(".reach").is_visible(), "the bar stands on the keyboard"
    assert not watch.said


def test_nothing_scrolls_sideways_at_four_times_its_size_nor_with_wide_spacing(watched, served, demo_sites):
    watch = watched(REFLOW_PX)
    for name in pages_of(demo_sites / SLUG):
        page = watch.open(f"{served}/{SLUG}/{name}")
        wide = "() => document.documentElement.scrollWidth - innerWidth"
        assert page.evaluate(wide) <= 0, name
        page.evaluate(
            "text => { const sheet = new CSSStyleSheet(); sheet.replaceSync(text);"
            " document.adoptedStyleSheets = [sheet]; }",
            SPACING,
        )
        assert page.evaluate(wide) <= 0, f"{name}, spaced"
        cut = page.evaluate(
            "() => [...document.querySelectorAll('.md-content :is(p, li, dt, dd, h2, h3, label, button)')]"
            ".filter(part => getComputedStyle(part).overflow !== 'visible')"
            ".filter(part => part.scrollHeight > part.clientHeight + 1)"
            ".map(part => part.outerHTML.slice(0, 100))"
        )
        assert cut == [], f"{name}, spaced"
    page.set_viewport_size({"width": REFLOW_PX, "height": 256})
    assert not page.locator(".reach").is_visible(), "the bar takes room that a low window does not have"
    assert page.locator(".md-header [data-way=contents]").is_visible()


def test_ticks_and_signs_are_seen_in_forced_colours(watched, served):
    page = watched(390).open(f"{served}/{SLUG}/bench.html")
    page.emulate_media(forced_colors="active")
    look = """box => {
      const [edge, mark] = ['::before', '::after'].map(part => getComputedStyle(box, part));
      return [edge.borderTopColor, edge.backgroundColor, mark.content, mark.borderRightColor];
    }"""
    box = page.locator(".tick-box").first
    edge, paper, _, _ = box.evaluate(look)
    assert edge != paper, "the box can't be seen"
    box.check()
    _, paper, mark, ink = box.evaluate(look)
    assert mark != "none"
    assert ink != paper, "the tick can't be seen"
    sides = "card => getComputedStyle(card).borderLeftWidth + getComputedStyle(card).borderLeftStyle"
    for card in (".caution", ".step", ".check"):
        assert page.locator(card).first.evaluate(sides) not in {"0pxnone", "0pxsolid"}, card


def test_nothing_moves_where_people_ask_for_stillness(watched, served):
    page = watched(390).open(f"{served}/{SLUG}/bench.html")
    page.emulate_media(reduced_motion="reduce")
    page.locator(".reach__next").click()
    there = "() => Math.round(document.querySelector('.step').getBoundingClientRect().top)"
    first = page.evaluate(there)
    page.wait_for_timeout(120)
    assert page.evaluate(there) == first, "the page still glides"
    moving = page.evaluate(
        "() => [...document.querySelectorAll('*')].filter(part => {"
        " const style = getComputedStyle(part);"
        " return parseFloat(style.transitionDuration) > 0.01 || style.animationName !== 'none';"
        " }).map(part => part.className)"
    )
    assert moving == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_sheet_contents_and_search_are_open_to_all_readers(watched, served, scheme):
    watch = watched(390, scheme)
    page = watch.open(f"{served}/{SLUG}/words.html")
    page.emulate_media(reduced_motion="reduce")
    page.click(".reach [data-way=contents]")
    assert not findings(page)
    page.keyboard.press("Escape")
    page = watch.open(f"{served}/{SLUG}/keying.html")
    page.locator(".md-content a.fig").first.click()
    assert not findings(page)
    page.keyboard.press("Escape")
    page.click(".md-header [data-way=search]")
    page.keyboard.type("glue")
    page.wait_for_selector(".md-search-result__link", state="visible")
    assert not findings(page)
    assert not watch.said
