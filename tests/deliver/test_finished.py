"""The check of finished HTML finds what is planted in it, and nothing in a whole guide."""

import pytest

from generator.deliver.finished import faults_in
from generator.deliver.offline import ICONS, add_offline

HEAD = (
    "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; script-src 'self'\">"
    '<meta name="referrer" content="no-referrer"><meta name="robots" content="noindex">'
)


@pytest.fixture
def guide(tmp_path):
    """A whole guide of two pages, and a function that puts HTML into the first and gives the faults."""
    (tmp_path / "a b").mkdir()
    (tmp_path / "a b" / "picture.svg").write_text("<svg/>")
    (tmp_path / "look.css").write_text("p{background:url(data:image/png;base64,AA)}")
    (tmp_path / "second.html").write_text(HEAD + '<p id="spot">here</p>')
    (tmp_path / "icons").mkdir()
    for file, _, _ in ICONS:
        (tmp_path / file).write_bytes(b"icon")

    def faults(html="", *, head=HEAD, pages=("index.md", "second.md"), may_link=()):
        (tmp_path / "index.html").write_text(f"<html><head>{head}</head><body>{html}</body></html>")
        add_offline(tmp_path, title="Demo", key="k")
        return faults_in(tmp_path, pages=pages, may_link=may_link)

    return faults


def test_a_whole_guide_has_no_fault(guide):
    assert not guide(
        '<a href="second.html#spot">on</a><a href="#top">up</a><h1 id="top">x</h1><a href="second.html?a=1">s</a>'
        '<img src="a%20b/picture.svg" alt=""><img srcset="a%20b/picture.svg 2x" alt="">'
        '<svg aria-labelledby="t"><title id="t">x</title><use href="#t"></use></svg><label for="t">x</label>'
        '<link href="look.css" rel="stylesheet"><script src="look.css"></script>'
    )


PLANTED = {
    '<a href="gone.html">x</a>': "gone.html leads nowhere",
    '<a href="second.html#gone">x</a>': "no such place on second.html",
    '<a href="#gone">x</a>': "no such place on index.html",
    '<img src="gone.png" alt="">': "gone.png leads nowhere",
    '<img srcset="gone.png 2x" alt="">': "gone.png leads nowhere",
    '<script src="gone.js"></script>': "gone.js leads nowhere",
    '<svg><use xlink:href="#gone"/></svg>': "no such place",
    '<svg aria-labelledby="gone"></svg>': "nothing has the id 'gone'",
    '<label for="gone">x</label>': "nothing has the id 'gone'",
    '<a href="../outside.html">x</a>': "leads nowhere",
    '<a href="/index.html">x</a>': "absolute path",
    '<a href="Second.html">x</a>': "leads nowhere",
    '<a href="https://example.org/">x</a>': "leads outside",
    '<a href="//example.org/">x</a>': "leads outside",
    '<a href="javascript:alert(1)">x</a>': "leads outside",
    '<img src="data:image/png;base64,AA" alt="">': "leads outside",
    '<a href="http://[">x</a>': "not an address",
    '<p id="p"></p><p id="p"></p>': "stands 2 times",
    '<p style="color:red">x</p>': "style attribute",
    '<p onclick="a()">x</p>': "onclick attribute",
    "<style>p{}</style>": "<style> element",
    '<iframe src="second.html"></iframe>': "<iframe> element",
    '<img src="a%20b/picture.svg">': "without a description",
    "<script>alert(1)</script>": "not the theme's",
}


@pytest.mark.parametrize(("html", "fault"), PLANTED.items(), ids=PLANTED.keys())
def test_a_planted_fault_is_found(guide, html, fault):
    found = guide(html)
    assert any(line.startswith("index.html: ") and fault in line for line in found), found


def test_a_named_address_outside_may_be_linked_and_no_other(guide):
    mail, site = "mailto:hello@example.org", "https://example.org/"
    assert not guide(f'<a href="{mail}">x</a><a href="{site}">x</a>', may_link=(mail, site))
    assert guide(f'<a href="{site}more">x</a>', may_link=(mail, site))
    assert guide(f'<img src="{site}" alt="">', may_link=(mail, site))


def test_pages_are_counted_by_name(guide):
    assert guide(pages=("index.md", "second.md", "third.md")) == ["third.html: the page is missing"]
    assert guide(pages=("index.md",)) == ["second.html: no such page was asked for"]


@pytest.mark.parametrize(
    ("head", "fault"),
    [
        ("", "must stand once"),
        (HEAD + HEAD, "must stand once"),
        ('<script src="look.css"></script>' + HEAD, "must stand once"),
        (HEAD.replace("script-src 'self'", "script-src 'unsafe-inline'"), "lets too much through"),
        (HEAD.replace("'none'", "'self'"), "lets too much through"),
        (HEAD.replace("no-referrer", "origin"), "referrer"),
        (HEAD.replace("noindex", "all"), "robots"),
    ],
)
def test_a_weak_head_is_a_fault(guide, head, fault):
    assert any(fault in line for line in guide(head=head))


@pytest.mark.parametrize("css", ["p{background:url(gone.png)}", '@import "gone.css";', "p{src:url('https://e.org/f')}"])
def test_a_style_sheet_reaches_nothing_outside(guide, tmp_path, css):
    (tmp_path / "look.css").write_text(css)
    assert any(line.startswith("look.css: ") for line in guide())
