"""Every page of every demo guide, opened in a real browser: quiet, alone, within the screen, open to all readers."""

import pytest
from axe_playwright_python.base import AXE_FILE_PATH

from generator.guide.stages import STAGES
from tests.browser.conftest import SLUGS, pages_of

AXE = AXE_FILE_PATH.read_text("utf-8")
VIEWS = [(slug, *view) for slug in SLUGS for view in ((390, "light"), (1280, "dark"))]
VIEWS += [(SLUGS[0], 390, "dark"), (SLUGS[0], 1280, "light")]
CHECKED_WHOLE = {("mara", 390), ("tobin", 1280)}  # between them they have every kind of box
FROM_A_FOLDER = "mara"  # its page of the rocker has the place that loads most scripts
FINGER_PX = 44
READABLE, READABLE_LARGE = 4.5, 3.0
"""Least contrast of text, and of large or heavy text. Source: WCAG 2.2, success criterion 1.4.3."""

STILL = 0.005
"""A page that is painted before all of it has come may move by a hair; from here on somebody might see it. Good is
0.1 in all: web.dev, "Cumulative Layout Shift" (from memory)."""

SHIFTS = """
window.shifts = [];
new PerformanceObserver(list => list.getEntries().forEach(entry => entry.value > STILL && shifts.push([entry.value,
  ...entry.sources.map(source => (source.node?.outerHTML ?? source.node?.textContent ?? '').slice(0, 120))]))
).observe({type: 'layout-shift', buffered: true});
""".replace("STILL", str(STILL))
# Relative luminance and contrast as WCAG 2.2 defines them; each pair of ink and paper is looked at once a page.
FAINT = """
([readable, large]) => {
  const canvas = new OffscreenCanvas(1, 1).getContext('2d', {willReadFrequently: true});
  const known = new Map();
  const bytes = colour => {
    if (!known.has(colour)) {
      canvas.clearRect(0, 0, 1, 1);
      canvas.fillStyle = colour;
      canvas.fillRect(0, 0, 1, 1);
      known.set(colour, [...canvas.getImageData(0, 0, 1, 1).data]);
    }
    return known.get(colour);
  };
  const light = bytes => bytes.slice(0, 3).map(byte => byte / 255)
    .map(part => part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4)
    .reduce((sum, part, place) => sum + part * [0.2126, 0.7152, 0.0722][place], 0);
  const paper = element => {
    for (let at = element; at; at = at.parentElement) {
      const colour = bytes(getComputedStyle(at).backgroundColor);
      if (colour[3] === 255) return colour;
    }
    return [255, 255, 255, 255];
  };
  const found = new Map();
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let text = walker.nextNode(); text; text = walker.nextNode()) {
    const element = text.parentElement;
    const left = 'svg, script, noscript, .md-search, :disabled, [aria-disabled=true]';
    if (!text.data.trim() || element.closest(left)) continue;
    if (!element.checkVisibility({visibilityProperty: true, opacityProperty: true})) continue;
    const style = getComputedStyle(element);
    const [ink, under] = [light(bytes(style.color)), light(paper(element))];
    const contrast = (Math.max(ink, under) + 0.05) / (Math.min(ink, under) + 0.05);
    const size = parseFloat(style.fontSize);
    const least = size >= 24 || (size >= 18.66 && style.fontWeight >= 700) ? large : readable;
    const what = `${contrast.toFixed(2)}: ${text.data.trim().slice(0, 60)}`;
    if (contrast < least) found.set(`${style.color} on ${paper(element)}`, what);
  }
  return [...found.values()];
}
"""


def findings(page, *, contrast=True):
    """What the accessibility checker finds, one line each.

    Contrast takes seconds where hundreds of numbers are listed alike, so it looks at the first ones of each list.
    """
    page.evaluate(AXE)
    found = page.evaluate(
        "async contrast => {"
        " const alike = [...document.querySelectorAll('.number:nth-of-type(n+3)')];"
        " const quick = {resultTypes: ['violations'], preload: false, rules: {'target-size': {enabled: true}}};"
        " const all = await axe.run(document, alike.length || !contrast"
        "   ? {...quick, rules: {...quick.rules, 'color-contrast': {enabled: false}}} : quick);"
        " if (!alike.length || !contrast) return all.violations;"
        " alike.forEach(one => one.remove());"
        " const first = await axe.run(document, {...quick, runOnly: ['color-contrast']});"
        " return [...all.violations, ...first.violations];"
        "}",
        contrast,
    )
    return [f"{f['id']}: {f['help']}: {node['html'][:120]}" for f in found for node in f["nodes"]]


def small_for_a_thumb(page):
    """Boxes, buttons, fields and ways on that are smaller than a fingertip: what, width and height in px."""
    sizes = page.evaluate(
        "() => [...document.querySelectorAll('.tick-box, .tick label, .sb-turn__link, .md-header__button,"
        " .reach > *, .shed-button, .shed-field')]"
        ".filter(e => e.checkVisibility()).map(e => [e.className || e.textContent.trim(),"
        " e.getBoundingClientRect().width, e.getBoundingClientRect().height])"
    )
    return [size for size in sizes if min(size[1:]) < FINGER_PX]


@pytest.mark.parametrize(("slug", "width", "scheme"), VIEWS)
def test_pages_are_quiet_alone_within_the_screen_and_accessible(watched, served, demo_sites, slug, width, scheme):
    watch = watched(width, scheme)
    watch.page.add_init_script(SHIFTS)
    for name in pages_of(demo_sites / slug):
        page = watch.open(f"{served}/{slug}/{name}")
        assert not watch.said, f"{name}: {watch.said}"
        assert not [address for address in watch.asked if not address.startswith(f"{served}/{slug}/")], name
        wide = page.evaluate("() => document.documentElement.scrollWidth - innerWidth")
        assert wide <= 0, f"{name} scrolls sideways by {wide} px"
        assert page.evaluate("() => document.body.dataset.mdColorScheme") == (
            "slate" if scheme == "dark" else "default"
        )
        page.evaluate("() => new Promise(done => requestAnimationFrame(() => setTimeout(done, 40)))")
        assert page.evaluate("shifts") == [], f"{name} moves while it opens"
        assert page.evaluate(FAINT, [READABLE, READABLE_LARGE]) == [], f"{name} is hard to read"
        if width == 390:
            assert not small_for_a_thumb(page), name
        if (slug, width) in CHECKED_WHOLE:
            assert not findings(page), name
        elif (width, scheme) == (390, "light"):
            assert not findings(page, contrast=False), name  # FAINT has it just above


def test_pages_open_from_a_folder_without_complaint(watched, demo_sites):
    watch = watched(390)
    folder = demo_sites / FROM_A_FOLDER
    for name in pages_of(folder):
        page = watch.open((folder / name).as_uri())
        assert not watch.said, f"{name}: {watch.said}"
        assert all(address.startswith("file:") for address in watch.asked), name
        assert page.evaluate("() => getComputedStyle(document.body).backgroundColor") == "rgb(255, 253, 248)", name


def test_the_checker_does_find_what_is_wrong(watched, served, demo_sites):
    page = watched(1280).open(f"{served}/{SLUGS[0]}/index.html")
    page.evaluate("() => document.querySelector('.md-search').removeAttribute('aria-label')")
    page.evaluate("() => document.querySelector('article').insertAdjacentHTML('beforeend', '<img src=mark.svg>')")
    assert {line.split(":")[0] for line in findings(page)} >= {"image-alt", "aria-dialog-name"}


def test_the_check_for_thumbs_sees_boxes_and_what_is_too_small(watched, served):
    page = watched(390).open(f"{served}/{SLUGS[0]}/bench.html")
    page.evaluate(
        "width => document.querySelectorAll('.tick-box').forEach(e => Object.assign(e.style, {minWidth: 0, width}))",
        f"{FINGER_PX - 1}px",
    )
    assert len(small_for_a_thumb(page)) == page.locator(".tick-box").count() > 5


def test_a_box_is_ticked_by_a_tap_on_its_words(watched, served):
    page = watched(390).open(f"{served}/{SLUGS[0]}/bench.html")
    page.locator(".tick label").first.click()
    assert page.locator(".tick-box").first.is_checked()


def test_a_number_in_the_list_of_all_numbers_stands_clear_of_the_head(watched, served):
    watch = watched(390)
    page = watch.open(f"{served}/{SLUGS[0]}/bench.html")
    page.locator("a.fig").first.click()
    page.locator(".why__all").click()
    page.wait_for_url("**/numbers.html#*")
    target = page.locator(".number:target")
    assert target.locator(".number-how").inner_text()
    head = page.evaluate("() => document.querySelector('.md-header').getBoundingClientRect().bottom")
    assert target.bounding_box()["y"] >= head, "the number hides behind the header"
    assert not watch.said


def test_dark_and_light_can_be_chosen_and_stay_chosen(watched, served):
    watch = watched(390, "light")
    page = watch.open(f"{served}/{SLUGS[0]}/index.html")
    page.click(".md-header [data-way=dark]")
    assert page.evaluate("() => document.body.dataset.mdColorScheme") == "slate"
    watch.open(f"{served}/{SLUGS[0]}/ready.html")
    assert page.evaluate("() => document.body.dataset.mdColorScheme") == "slate"


def test_the_contents_open_on_a_phone_and_say_where_the_builder_is(watched, served):
    watch = watched(390)
    page = watch.open(f"{served}/{SLUGS[0]}/bench.html")
    page.click(".reach [data-way=contents]")
    page.wait_for_function("() => document.querySelector('.md-sidebar--primary').getBoundingClientRect().left >= 0")
    contents = page.locator(".sb-contents")
    assert contents.locator("[aria-current=page]").inner_text().startswith("The bench")
    assert contents.locator(".sb-contents__state").count() == 1
    assert contents.locator(".sb-contents__item").count() == len(STAGES)
    assert not watch.said


def test_the_search_finds_a_word_and_complains_of_nothing(watched, served):
    watch = watched(1280)
    page = watch.open(f"{served}/{SLUGS[0]}/index.html")
    page.locator("input[name=query]").press_sequentially("winding sticks")
    page.wait_for_selector(".md-search-result__link[href*='frame.html']", state="attached")
    assert not watch.said
