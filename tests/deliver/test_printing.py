"""Sheets for paper: what stands on them, where their links lead, and what becomes of a print that fails."""

import os
import re
import stat
import sys
from dataclasses import replace
from html.parser import HTMLParser
from pathlib import Path

import pytest
from small_guide import small_guide

from generator.deliver import chromium
from generator.deliver.chromium import CannotPrint, find_chromium, print_pdf
from generator.deliver.pdf_pages import page_of_each_place, page_sizes
from generator.deliver.printing import Wanted, known_stage, printed, sheets_of
from generator.deliver.sheets import Front, sheets_html
from generator.deliver.whole_file import CannotWrite, put, told_plainly
from generator.inputs.fault import BadInput

FRONT = Front("Dunlin", "Demo", "Demo Kits", '<svg id="a"><use href="#b"/><path id="b" fill="url(#a)"/></svg>')


def sheets(wanted=Wanted(), **texts):  # noqa: B008 - frozen
    return sheets_of(small_guide(**texts), wanted, FRONT)


class Parts(HTMLParser):
    def __init__(self, html):
        super().__init__()
        self.ids, self.links, self.pointed, self.tags = [], [], [], []
        self.feed(html)

    def handle_starttag(self, tag, attrs):
        named = dict(attrs)
        self.tags.append((tag, named))
        self.ids += [named["id"]] if "id" in named else []
        self.links += [named["href"]] if "href" in named else []
        self.pointed += [word for name in ("for", "aria-labelledby") for word in named.get(name, "").split()]


def whole(wanted, numbers, **texts):
    return sheets_html(sheets(wanted, **texts), numbers)


@pytest.mark.parametrize("wanted", [Wanted(), Wanted(numbers=True), Wanted(stage="bench"), Wanted(stage="numbers")])
@pytest.mark.parametrize("numbers", [None, {}])
def test_every_id_is_there_once_and_every_link_arrives(wanted, numbers):
    parts = Parts(whole(wanted, numbers))
    assert len(parts.ids) == len(set(parts.ids))
    assert {link for link in parts.links if not link.startswith("#")} <= {"mailto:hello@example.org"}
    assert {link[1:] for link in parts.links if link.startswith("#")} <= set(parts.ids)
    assert set(parts.pointed) <= set(parts.ids)


def test_nothing_of_the_screen_is_left():
    text = (
        "# Bench\n\n<div data-shed='ticks' markdown='block'>\n\nTicked: none\n\n<div>deep</div>\n\n</div>\n\nAfter.\n\n"
        '<script type="application/json" id="x">{"a":1}</script>\n\n<p><button type="button">Press</button></p>\n'
    )
    html = whole(Wanted(stage="bench"), None, bench=text)
    body = html[html.index("<body") :]
    assert not re.search(r"Ticked|deep|<script|<button|Press|data-shed|style=", body)
    assert "After." in body


def test_clocks_and_fields_become_lines_to_write_on():
    text = (
        '# Bench\n\n<div data-shed="clock" data-minutes="9"><p class="clock-name">Full cure &#60;b&#62;</p>'
        '<p class="clock-left">9 min</p>'
        "<p>Go</p></div>\n\n"
        '<div data-shed="measured" data-field="a" data-unit="mm"><label for="f">Rib 1<span>aim for 5 mm</span></label>'
        '<input id="f"><p>said</p></div>\n\nAfter.\n'
    )
    body = whole(Wanted(stage="bench"), None, bench=text)
    assert "Full cure &#60;b&#62;, 9 min: began at" in body
    assert "Go" not in body
    assert re.search(
        r'sheet-write__label">Rib 1, aim for 5 mm</span><span class="sheet-write__line"></span><span>mm', body
    )
    assert "<input id" not in body
    assert "After." in body


def test_a_temperature_to_write_down_is_in_degrees():
    text = '# Bench\n\n<div data-shed="measured" data-field="a" data-unit="F"><label for="f">Night</label></div>\n'
    assert "<span>°F</span>" in whole(Wanted(stage="bench"), None, bench=text)


def test_the_plan_for_the_wall_begins_with_the_bench_alone():
    html = sheets_html(replace(sheets(Wanted(stage="bench")), wall=FRONT.drawing), None)
    body = html[html.index("<body") :]
    assert body.index('<section class="sheet-wall"><figure class="drawing"><svg id="wall--a">') < body.index("<article")
    assert "sheet-wall" not in whole(Wanted(stage="bench"), None).split("</style>")[1]


def test_tick_boxes_are_printed():
    assert '<input type="checkbox" class="tick-box"' in whole(Wanted(stage="bench"), None)


def test_a_link_to_another_page_says_its_number_or_its_title():
    told = whole(Wanted(), {"bench--steps": 41, "bench": 40})
    assert re.search(r'href="#bench--steps">the bench</a><span class="sheet-see"> \(page 41\)</span>', told)
    assert "sheet-see" not in whole(Wanted(), None).split("</style>")[1]
    links = "[your plan](index.md#time), [the board at a glance](index.md) and [12 mm](numbers.md#x){.fig}"
    text = f"# Bench\n\nRead {links}.\n"
    alone = whole(Wanted(stage="bench"), None, bench=text).split("</style>")[1]
    assert '<span class="sheet-elsewhere">your plan (see “The board at a glance”)</span>' in alone
    assert '<span class="sheet-elsewhere">the board at a glance</span>' in alone
    assert '<span class="fig">12 mm</span>' in alone


def test_the_whole_guide_leaves_the_numbers_out_unless_asked_and_says_so():
    assert "All the numbers" in whole(Wanted(), None).split("Only in the guide on your phone")[1].split("</p>")[0]
    assert [page.slug for page in sheets(Wanted()).pages] == ["board", "bench"]
    assert [page.slug for page in sheets(Wanted(numbers=True)).pages] == ["board", "bench", "numbers"]


HOSTILE = "&#60;script&#62;&#34;&#59;&#125;&#64;import &#92;&#60;&#47;style&#62; &#8206;é"


def test_a_hostile_title_stays_words_in_markup_and_in_the_style():
    html = sheets_html(replace(sheets(Wanted()), title=HOSTILE), None)
    assert html.count("</style>") == 1
    title = re.search(r"--sb-sheet-title: (.*);", html)[1]
    assert re.fullmatch(r'"(?:[\w ]|\\[0-9a-f]+ )*"', title)
    read = re.sub(r"\\([0-9a-f]+) ", lambda found: chr(int(found[1], 16)), title[1:-1])
    assert read == '<script>";}@import \\</style> \u200eé'
    assert "<script" not in html


def test_the_page_may_load_nothing_and_run_nothing():
    html = whole(Wanted(), None)
    policy = next(a["content"] for tag, a in Parts(html).tags if a.get("http-equiv") == "Content-Security-Policy")
    assert policy.startswith("default-src 'none'; img-src data:; style-src 'sha256-")
    assert not re.search(r"url\((?![\"']?data:|#)", html)


@pytest.mark.parametrize(("paper", "size"), [("a4", "A4"), ("letter", "letter")])
def test_the_paper_is_the_one_asked_for(paper, size):
    assert f"@page {{ size: {size}; }}" in whole(Wanted(paper=paper), None)


def test_an_unknown_stage_gets_the_nearest():
    assert known_stage("glue") == "glue"
    with pytest.raises(BadInput, match="try glue"):
        known_stage("gleu")


# A file as Chromium writes it, with a page tree in two steps and a stream that must not be read.
PDF = b"""%PDF-1.4
1 0 obj
<</Type /Catalog /Pages 9 0 R>>
endobj
2 0 obj
<</Type /Page
/MediaBox [0 0 595 842]
/Parent 8 0 R>>
endobj
3 0 obj
<</Length 20>> stream
/fake [2 0 R /XYZ 0 0 0] endobj
endstream
endobj
4 0 obj
<</Type /Page
/MediaBox [0 0 612 792]
/Parent 9 0 R>>
endobj
8 0 obj
<</Type /Pages
/Count 1
/Kids [2 0 R]>>
endobj
9 0 obj
<</Type /Pages
/Count 2
/Kids [4 0 R 8 0 R]>>
endobj
10 0 obj
<</bench [2 0 R /XYZ 6 8 0]
/board--end [4 0 R /XYZ 6 8 0]>>
endobj
%%EOF
"""


def test_places_and_sizes_are_read_from_the_tree_of_pages():
    assert page_of_each_place(PDF) == {"bench": 2, "board--end": 1}
    assert page_sizes(PDF) == ((612, 792), (595, 842))
    assert page_of_each_place(b"%PDF-1.7 packed") == {}


def pdf_with(places):
    """A file in which each place is on the page of that number."""
    pages = range(1, max(places.values()) + 1)
    objects = [f"{n} 0 obj\n<</Type /Page>>\nendobj" for n in pages]
    kids = " ".join(f"{n} 0 R" for n in pages)
    objects.append(f"98 0 obj\n<</Type /Pages /Kids [{kids}]>>\nendobj")
    named = " ".join(f"/{name} [{n} 0 R /XYZ 0 0 0]" for name, n in places.items())
    return "\n".join([*objects, f"99 0 obj\n<<{named}>>\nendobj"]).encode()


def test_it_is_printed_again_until_the_numbers_agree():
    seen = []

    def press(html):
        seen.append(html)
        return pdf_with({"board": 3, "bench": 4 if len(seen) == 1 else 12, "bench--steps": 13})

    assert b"12 0 obj" in printed(sheets(Wanted()), press)
    assert len(seen) == 3
    assert b'<span class="sheet-contents__page">12</span>' in seen[-1]
    assert b"(page 13)" in seen[-1]


def test_numbers_that_never_agree_or_can_t_be_read_are_left_out():
    seen = []

    def press(html):
        seen.append(html)
        return pdf_with({"bench": len(seen)})

    printed(sheets(Wanted()), press)
    assert b'sheet-see"> (page' not in seen[-1]
    assert b'<span class="sheet-contents__page"></span>' in seen[-1]
    seen.clear()
    printed(sheets(Wanted()), lambda html: seen.append(html) or b"%PDF packed")
    assert b'<span class="sheet-contents__page"></span>' in seen[-1]


def test_one_page_without_numbers_is_printed_once():
    seen = []
    printed(sheets(Wanted(stage="bench")), lambda html: seen.append(html) or b"%PDF")
    assert len(seen) == 1


@pytest.fixture
def browser(tmp_path):
    """Make a program that does this in place of a browser; its arguments are in `words`."""

    def make(does):
        path = tmp_path / "browser"
        head = f"#!{sys.executable}\nimport os, sys, time, pathlib, subprocess\nwords = sys.argv[1:]\n"
        pdf = "pdf = next(w.partition('=')[2] for w in words if w.startswith('--print-to-pdf='))\n"
        path.write_text(head + pdf + does, "utf-8")
        path.chmod(path.stat().st_mode | stat.S_IXUSR)
        return str(path)

    return make


WRITES = "pathlib.Path(pdf).write_bytes(b'%PDF-1.4 ' + repr(words).encode() + b' %%EOF')"


@pytest.fixture
def folder(tmp_path):
    made = tmp_path / "out"
    made.mkdir()
    return made


def test_a_print_leaves_nothing_but_its_answer(browser, folder):
    pdf = print_pdf(b"<p>x", chromium=browser(WRITES), folder=folder)
    assert pdf.startswith(b"%PDF")
    assert list(folder.iterdir()) == []
    assert b"MAP * ~NOTFOUND" in pdf
    assert (b"--no-sandbox" in pdf) == (os.geteuid() == 0)
    assert str(folder).encode() in re.search(rb"--user-data-dir=([^']*)", pdf)[1]


@pytest.mark.parametrize("uid", [0, 1000])
def test_the_sandbox_is_left_out_for_the_superuser_only(uid, browser, folder, monkeypatch):
    monkeypatch.setattr(chromium.os, "geteuid", lambda: uid)
    assert (b"--no-sandbox" in print_pdf(b"x", chromium=browser(WRITES), folder=folder)) == (uid == 0)


@pytest.mark.parametrize(
    "does",
    [
        "sys.exit('no usable sandbox')",
        "pathlib.Path(pdf).write_bytes(b'%PDF-1.4 half')",
        "pathlib.Path(pdf).write_bytes(b'<html>')",
    ],
)
def test_a_browser_that_writes_no_whole_pdf_is_told(does, browser, folder):
    with pytest.raises(CannotPrint, match="wrote no PDF") as stopped:
        print_pdf(b"x", chromium=browser(does), folder=folder)
    assert "\n" not in str(stopped.value)
    assert ("no usable sandbox" in str(stopped.value)) == ("sandbox" in does)
    assert list(folder.iterdir()) == []


def test_a_browser_that_hangs_is_stopped_with_its_children(browser, folder, tmp_path):
    child = tmp_path / "child"
    does = (
        "kid = subprocess.Popen([sys.executable, '-c', 'import time; time.sleep(60)'])\n"
        f"pathlib.Path({str(child)!r}).write_text(str(kid.pid))\ntime.sleep(60)"
    )
    with pytest.raises(CannotPrint, match="had not finished printing after 2 s"):
        print_pdf(b"x", chromium=browser(does), folder=folder, timeout_s=2)
    assert list(folder.iterdir()) == []
    status = Path(f"/proc/{child.read_text()}/stat")
    assert not status.exists() or status.read_text().split()[2] == "Z"  # gone, or dead and not yet counted


def test_a_child_that_stays_behind_is_not_waited_for(browser, folder):
    stays = f"{WRITES}\nsubprocess.Popen([sys.executable, '-c', 'import time; time.sleep(60)'])"
    assert print_pdf(b"x", chromium=browser(stays), folder=folder, timeout_s=5).startswith(b"%PDF")


def test_a_browser_that_is_named_must_be_there(monkeypatch, tmp_path):
    monkeypatch.setenv(chromium.NAMED_BY, str(tmp_path / "none"))
    with pytest.raises(CannotPrint, match="no program is there"):
        find_chromium()
    monkeypatch.setenv(chromium.NAMED_BY, sys.executable)
    assert find_chromium() == sys.executable


def test_a_machine_without_a_browser_is_told_what_to_do(monkeypatch):
    monkeypatch.delenv(chromium.NAMED_BY, raising=False)
    monkeypatch.setattr(chromium.shutil, "which", lambda name: None)
    with pytest.raises(CannotPrint, match=f"Install one, or name yours in {chromium.NAMED_BY}"):
        find_chromium()


def test_a_file_is_replaced_whole_or_not_at_all(tmp_path, monkeypatch):
    path = tmp_path / "a" / "b.pdf"
    put(path, b"old")
    real = os.replace
    monkeypatch.setattr(os, "replace", lambda *_: (_ for _ in ()).throw(OSError(28, "No space left on device")))
    with pytest.raises(CannotWrite, match=r"b\.pdf could not be .*No space left") as stopped, told_plainly(path):
        put(path, b"new")
    assert "\n" not in str(stopped.value)
    monkeypatch.setattr(os, "replace", real)
    assert path.read_bytes() == b"old"
    assert os.listdir(path.parent) == ["b.pdf"]
    link = tmp_path / "link.pdf"
    link.symlink_to(path)
    put(link, b"newer", mode=0o600)
    assert link.is_symlink()
    assert path.read_bytes() == b"newer"
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
