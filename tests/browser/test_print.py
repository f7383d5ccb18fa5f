"""Paper, as Chromium prints it: the sheets of `shedbook print`, and a page printed from the phone.

Where things came to lie is read from the written PDF: marks are put round what must stay together, and a link to a mark
makes Chromium write down the page that it is on.
"""

import re
from dataclasses import replace

import pytest
from conftest import DATA, named_chromium

from generator.deliver import printing
from generator.deliver.chromium import print_pdf
from generator.deliver.pdf_pages import page_of_each_place, page_sizes
from generator.deliver.printing import Wanted, print_guide, printed, sheets_of
from generator.deliver.sheets import Front, sheets_html
from generator.guides import draw_all, guide_of
from tests.demos import figures_of

POINTS_PER_MM = 72 / 25.4
A4 = (210 * POINTS_PER_MM, 297 * POINTS_PER_MM)  # ISO 216
LETTER = (8.5 * 72, 11 * 72)  # ANSI/ASME Y14.1
PX_PER_MM = 96 / 25.4
BETWEEN_MARGINS = 210 - 28  # mm on A4: print.css leaves 14 on each side

_HEADING = re.compile(r"(<h[23][^>]*>.*?</h[23]>)(\s*(?:<(?:p|ul|ol|li|div|section|table|thead|tr|th)\b[^>]*>\s*)*)")


def marked(html):
    """The document with a mark at both ends of each drawing and of each heading with what follows, and links to them.

    Also the pairs of marks that must lie on one page, by what they stand round.
    """
    head, body = html.split("</head>")
    pairs = {}

    def mark(kind, number, end):
        pairs.setdefault(f"{kind}{number}", []).append(f"{kind}{number}.{end}")
        return f'<span id="{kind}{number}.{end}"></span>'

    parts = re.split(r"(<figure[^>]*>.*?</figure>)", body, flags=re.DOTALL)
    for number in range(1, len(parts), 2):
        start, inside, end = re.fullmatch(r"(<figure[^>]*>)(.*)(</figure>)", parts[number], re.DOTALL).groups()
        parts[number] = start + mark("drawing", number, "a") + inside + mark("drawing", number, "z") + end
    count = iter(range(10_000))

    def kept(found):
        number = next(count)
        heading = found[1][:-5] + mark("heading", number, "a") + found[1][-5:]
        return heading + found[2] + mark("heading", number, "z")

    body = _HEADING.sub(kept, "".join(parts))
    links = " ".join(f'<a href="#{name}">x</a>' for pair in pairs.values() for name in pair)
    return f"{head}</head>{body.replace('</body>', f'<p>{links}</p></body>')}", pairs


def parted(pdf, pairs):
    """The pairs whose ends came to lie on different pages."""
    pages = page_of_each_place(pdf)
    assert all(name in pages for pair in pairs.values() for name in pair)
    return {what: [pages[name] for name in pair] for what, pair in pairs.items() if len({*map(pages.get, pair)}) > 1}


@pytest.fixture(scope="module")
def told():
    figures = figures_of("mara")
    return figures, draw_all(figures)


@pytest.fixture(scope="module")
def made(told):
    figures, drawings = told
    return guide_of(figures, drawings), Front("Dunlin", "Mara", "Demo", drawings["plan"])


@pytest.fixture
def press(tmp_path):
    def print_(html):
        return print_pdf(html, chromium=named_chromium() or "chromium", folder=tmp_path)

    return print_


def said(pdf_string):
    """A string of a PDF as text; ours are plain or UTF-16."""
    raw = re.sub(rb"\\(.)", rb"\1", pdf_string, flags=re.DOTALL)
    return raw.decode("utf-16") if raw.startswith(b"\xfe\xff") else raw.decode("latin-1")


def test_the_whole_guide_on_a4(made, press):
    guide, front = made
    sheets = sheets_of(guide, Wanted(), front)
    pairs = {}

    def press_marked(html):
        text, found = marked(html.decode("utf-8"))
        pairs.update(found)
        return press(text.encode("utf-8"))

    pdf = printed(sheets, press_marked)
    assert sum(what.startswith("drawing") for what in pairs) > 40
    assert sum(what.startswith("heading") for what in pairs) > 150
    assert parted(pdf, pairs) == {}
    sizes = page_sizes(pdf)
    assert len(sizes) > 60
    for size in set(sizes):
        assert size == pytest.approx(A4, abs=1)
    titles = [said(found) for found in re.findall(rb"/Title \(((?:\\.|[^\\)])*)\)", pdf)]
    stages = [page.title for page in guide.pages if page.slug not in {"tonight", "numbers"}]
    assert set(stages) <= set(titles)  # in the list that readers show beside the pages
    assert [title for title in titles if title[: len(title) // 2] * 2 == title] == []  # each painted on one sheet only
    pages = page_of_each_place(pdf)
    again = sheets_html(sheets, pages)
    for page in sheets.pages:
        assert f'<span class="sheet-contents__page">{pages[page.slug]}</span>' in again
    assert len({pages[page.slug] for page in sheets.pages}) == len(sheets.pages)


def test_the_whole_guide_on_letter(made, press):
    guide, front = made
    text, pairs = marked(sheets_html(sheets_of(guide, Wanted(paper="letter"), front), None))
    pdf = press(text.encode("utf-8"))
    assert parted(pdf, pairs) == {}
    for size in set(page_sizes(pdf)):
        assert size == pytest.approx(LETTER, abs=1)


def test_the_plan_for_the_wall_is_large_and_whole(made, told, press):
    guide, front = made
    sheets = replace(sheets_of(guide, Wanted(bench=True, paper="letter"), front), wall=told[1]["bench"])
    text, pairs = marked(sheets_html(sheets, None))
    pdf = press(text.encode("utf-8"))
    assert parted(pdf, pairs) == {}
    pages = page_of_each_place(pdf)
    assert min(pages[name] for what, pair in pairs.items() if what.startswith("heading") for name in pair) == 2


def test_marks_tell_a_drawing_that_is_cut(made, press):
    guide, front = made
    html = sheets_html(sheets_of(guide, Wanted(stage="bench"), front), None)
    broken = html.replace("break-inside: avoid", "break-inside: auto").replace("max-width: 96mm", "max-width: 170mm")
    css = broken[broken.index("<style>") + 7 : broken.index("</style>")]
    text, pairs = marked(re.sub(r"style-src [^\"]*", "style-src 'unsafe-inline'", broken, count=1))
    assert css in text
    assert any(what.startswith("drawing") for what in parted(press(text.encode("utf-8")), pairs))


def test_nothing_is_wider_than_the_narrower_sheet_and_no_link_dangles(made, watched, tmp_path):
    """Chromium makes the whole print smaller if one thing is too wide."""
    guide, front = made
    html = sheets_html(sheets_of(guide, Wanted(numbers=True), front), None)
    (tmp_path / "sheets.html").write_text(html, "utf-8")
    watch = watched(int(BETWEEN_MARGINS * PX_PER_MM))
    watch.page.emulate_media(media="print")
    page = watch.open((tmp_path / "sheets.html").as_uri())
    assert watch.said == []
    assert len(watch.asked) == 1
    wide = """() => [...document.querySelectorAll("body *")].filter(
        (one) => one.getBoundingClientRect().right > innerWidth + 1).map((one) => one.outerHTML.slice(0, 120))"""
    assert page.evaluate(wide) == []
    dangling = """() => [...document.links].filter((link) => link.hash && !document.getElementById(link.hash.slice(1)))
        .map((link) => link.outerHTML)"""
    assert page.evaluate(dangling) == []
    assert page.evaluate("[...document.querySelectorAll('.tick-box')].every((box) => box.offsetWidth > 10)")
    assert page.evaluate("document.querySelectorAll('.tick-box').length") > 100


def test_one_page_is_written_and_nothing_else(told, tmp_path, monkeypatch):
    out = tmp_path / "keying.pdf"
    monkeypatch.setattr(printing, "read_figures", lambda *_: told[0])
    monkeypatch.setattr(printing, "draw_all", lambda _: told[1])
    monkeypatch.setenv("SHEDBOOK_CHROMIUM", named_chromium() or "")
    print_guide(DATA, "mara", Wanted(stage="keying", paper="letter"), out, tell=lambda _: None)
    pdf = out.read_bytes()
    assert set(page_sizes(pdf)) == {(612, 792)}
    assert b"Keying the glue faces" in pdf
    assert list(tmp_path.iterdir()) == [out]


SEEN = """() => [...document.querySelectorAll("body *")].filter((one) => one.checkVisibility() && one.matches(
    "header, nav, form, dialog, button, input:not(.tick-box), [role=search], .md-sidebar, .md-footer, .reach, .strip"))
    .filter((one) => one.getBoundingClientRect().width > 1 && !one.closest(".typed"))
    .map((one) => one.outerHTML.slice(0, 120))"""
LOOK = """() => ({
    page: getComputedStyle(document.body).backgroundColor,
    words: getComputedStyle(document.querySelector("article p:not([class])")).color,
    paper: getComputedStyle(document.querySelector("svg.d-sheet")).backgroundColor,
    lines: [...document.querySelectorAll("article a")].filter(
        (link) => getComputedStyle(link).textDecorationLine !== "none").length,
    line: document.querySelector(".sb-sheet-line").innerText,
    cautions: [...document.querySelectorAll(".caution")].every((one) => one.checkVisibility()),
    ticked: [...document.querySelectorAll(".tick-box:checked")].map(
        (box) => getComputedStyle(box, "::before").backgroundImage.slice(0, 15)),
    open: [...document.querySelectorAll(".tick-box:not(:checked)")].filter(
        (box) => box.checkVisibility() && getComputedStyle(box, "::before").backgroundImage === "none").length,
})"""
MARK = """() => {
    const links = document.createElement("p");
    document.querySelectorAll("figure.drawing").forEach((figure, number) => {
        for (const end of ["a", "z"]) {
            const mark = document.createElement("span");
            mark.id = `drawing${number}.${end}`;
            if (end === "a") figure.prepend(mark); else figure.append(mark);
            const link = document.createElement("a");
            link.href = `#${mark.id}`;
            link.textContent = "x ";
            links.append(link);
        }
    });
    document.querySelector("article").append(links);
    return document.querySelectorAll("figure.drawing").length;
}"""


def test_a_page_printed_from_the_phone_in_the_dark(served, watched):
    watch = watched(390, "dark")
    page = watch.open(f"{served}/mara/bench.html")
    for box in page.locator(".tick-box").all()[:2]:
        box.check()
    page.emulate_media(media="print", color_scheme="dark")
    assert page.evaluate(SEEN) == []
    look = page.evaluate(LOOK)
    assert look["page"] == look["paper"] == "rgb(255, 255, 255)"
    assert look["words"] == "rgb(0, 0, 0)"
    assert look["lines"] == 0
    assert look["line"] == "Mara Quill: Dunlin"
    assert look["cautions"]
    assert look["ticked"] == ['url("data:image'] * 2
    assert look["open"] > 5
    drawings = page.evaluate(MARK)
    for name, size in {"A4": A4, "Letter": LETTER}.items():
        pdf = page.pdf(format=name, prefer_css_page_size=True)
        pages = page_of_each_place(pdf)
        assert drawings > 2
        assert all(pages[f"drawing{n}.a"] == pages[f"drawing{n}.z"] for n in range(drawings))
        for found in set(page_sizes(pdf)):
            assert found == pytest.approx(size, abs=1)
    page.emulate_media(media="screen")
    watch.open(f"{served}/mara/index.html")
    assert "Tap" in page.inner_text("article")
    page.emulate_media(media="print")
    assert "Tap" not in page.inner_text("article")
    assert watch.said == []
