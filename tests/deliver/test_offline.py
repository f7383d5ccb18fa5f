"""The worker lists every file of the finished guide, its version tells any change, and the manifest takes any title."""

import json
import re
import struct
import zlib

import pytest

from generator.deliver.building import BuildFailed, build_site
from generator.deliver.finished import faults_in
from generator.deliver.offline import (
    ICONS,
    MANIFEST,
    WORKER,
    add_offline,
    contents,
    file_hash,
    manifest_of,
    no_worker,
    offline_faults,
    worker,
)
from generator.deliver.sources import GUIDE_SRC
from generator.guide.words import safe_text
from tests.deliver.small_guide import small_guide

FILES = {"a.css": b"p{}", "deep/b.svg": b"<svg/>\r\n", "index.html": b"<p>x"}
HOSTILE = [
    '"},"start_url":"https://example.org/","x":{"y":"',
    "</script><script>alert(1)</script>",
    "back\\slash 'quote' `tick` ${x}",
    "line\u2028end &amp; &#58; Ünï 🏄",
    "",
]


@pytest.fixture
def guide(tmp_path):
    """A folder like a finished guide."""
    for name, content in FILES.items() | {(file, b"icon") for file, _, _ in ICONS}:
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_bytes(content)
    add_offline(tmp_path, title="Demo", key="k1")
    return tmp_path


def filled(folder):
    """What was filled into the worker."""
    (line,) = re.findall(r"^const GUIDE = (.*);$", (folder / WORKER).read_text("utf-8"), re.MULTILINE)
    return json.loads(line)


def version(folder):
    add_offline(folder, title="Demo", key="k1")
    return filled(folder)["version"]


def test_the_list_holds_every_file_but_the_worker_itself_in_the_order_of_names(guide):
    listed = filled(guide)
    assert list(listed["files"]) == sorted([*FILES, MANIFEST, *(file for file, _, _ in ICONS)])
    assert listed["key"] == "k1"
    assert listed["files"]["index.html"] == file_hash(FILES["index.html"])


def test_the_hash_is_the_start_of_the_one_that_a_browser_works_out():
    # SHA-256 of "abc": FIPS 180-4, example published by NIST.
    assert file_hash(b"a\rb\r\nc".replace(b"\n", b"")) == file_hash(b"abc") == "ba7816bf8f01cfea414140de"


def test_the_same_files_give_the_same_worker_whatever_the_order_they_were_written_in(guide, tmp_path_factory):
    other = tmp_path_factory.mktemp("other")
    for name, content in reversed(contents(guide).items()):
        (other / name).parent.mkdir(exist_ok=True)
        (other / name).write_bytes(content)
    add_offline(other, title="Demo", key="k1")
    assert (other / WORKER).read_bytes() == (guide / WORKER).read_bytes()
    assert version(guide) == version(guide)


def test_the_version_changes_with_any_byte_and_any_name(guide):
    seen = {version(guide)}
    for name, content in FILES.items():
        for other in (content + b"\r", b"q" + content[1:], b""):
            (guide / name).write_bytes(other)
            seen.add(version(guide))
        (guide / name).write_bytes(content)
    (guide / "a.css").rename(guide / "b.css")
    seen.add(version(guide))
    (guide / "new.txt").write_bytes(b"")
    seen.add(version(guide))
    assert len(seen) == 1 + 3 * len(FILES) + 2


def test_the_version_changes_with_the_worker_and_a_template_without_its_line_is_refused():
    template = (GUIDE_SRC / WORKER).read_text("utf-8")
    assert worker(template, FILES, "k") != worker(template + "//", FILES, "k").removesuffix("//")
    with pytest.raises(ValueError, match="no line"):
        worker("", FILES, "k")


def test_the_script_stays_one_whatever_a_file_is_called(guide):
    (guide / "odd \u2028 'name' ${x} <script>.txt").write_text("x")
    assert version(guide)
    assert offline_faults(guide) == []


@pytest.mark.parametrize("title", HOSTILE)
def test_a_hostile_title_stays_the_name_and_nothing_else(guide, title):
    add_offline(guide, title=str(safe_text(title)), key="k1")
    found = json.loads((guide / MANIFEST).read_text("utf-8"))
    assert found == manifest_of(" ".join(title.split()))
    assert found["name"] == " ".join(title.split())
    assert found["start_url"] == "index.html"


def test_below_the_icon_stands_the_board():
    assert manifest_of("Mara Quill: Dunlin")["short_name"] == "Dunlin"
    assert manifest_of("Dunlin")["short_name"] == "Dunlin"


def spoil_list(guide):
    text = (guide / WORKER).read_text("utf-8")
    (guide / WORKER).write_text(text.replace('"a.css"', '"gone.css"'), "utf-8")


SPOILED = {
    "a file came later": (lambda guide: (guide / "late.html").write_text("x"), "late.html is not in its list"),
    "a file went": (lambda guide: (guide / "a.css").unlink(), "a.css is in its list and is not there"),
    "a file was changed": (lambda guide: (guide / "a.css").write_text("q"), "a.css is another file"),
    "another list": (spoil_list, "gone.css is in its list and is not there"),
    "no worker": (lambda guide: (guide / WORKER).unlink(), "worker.js: the file is missing"),
    "no manifest": (lambda guide: (guide / MANIFEST).unlink(), "manifest.webmanifest: the file is missing"),
    "a template": (lambda guide: (guide / WORKER).write_text("const GUIDE = null;"), "is not filled in"),
    "no icon": (lambda guide: (guide / ICONS[0][0]).unlink(), f"manifest.webmanifest: {ICONS[0][0]} leads nowhere"),
    "no first page": (lambda guide: (guide / "index.html").unlink(), "index.html leads nowhere"),
}


@pytest.mark.parametrize(("spoil", "fault"), SPOILED.values(), ids=SPOILED)
def test_a_guide_that_would_not_open_without_a_network_is_not_whole(guide, spoil, fault):
    assert offline_faults(guide) == []
    spoil(guide)
    assert any(fault in line for line in offline_faults(guide)), offline_faults(guide)
    assert any(fault in line for line in faults_in(guide, pages=["index.md"]))


def test_a_guide_without_its_list_is_not_put_in_place(tmp_path, monkeypatch):
    monkeypatch.setattr("generator.deliver.offline.add_offline", lambda *a, **k: None)
    with pytest.raises(BuildFailed, match=r"worker\.js: the file is missing"):
        build_site(small_guide(), out=tmp_path / "demo")
    assert list(tmp_path.iterdir()) == []


def test_a_preview_has_a_worker_that_keeps_nothing():
    assert "unregister" in no_worker()
    assert ".put(" not in no_worker()


def png(file):
    """Width, height and whether every pixel of a PNG with a palette is opaque.

    Source: PNG specification (W3C), sections 11.2.1 (IHDR) and 11.3.1.1 (tRNS).
    """
    data, at, clear = file.read_bytes(), 8, False
    assert data[:8] == b"\x89PNG\r\n\x1a\n"
    width, height, _, colour = struct.unpack(">IIBB", data[16:26])
    while at < len(data):
        (length,), kind = struct.unpack(">I", data[at : at + 4]), data[at + 4 : at + 8]
        assert (
            zlib.crc32(data[at + 4 : at + 8 + length])
            == struct.unpack(">I", data[at + 8 + length : at + 12 + length])[0]
        )
        clear |= kind == b"tRNS"
        at += 12 + length
    return width, height, colour in {0, 2, 3} and not clear


@pytest.mark.parametrize(
    ("file", "side", "opaque"),
    [*((file, side, purpose == "maskable") for file, side, purpose in ICONS), ("icons/touch-180.png", 180, True)],
)
def test_an_icon_has_its_size_and_no_hole_where_a_phone_would_fill_it_black(file, side, opaque):
    width, height, is_opaque = png(GUIDE_SRC / "assets" / file)
    assert (width, height) == (side, side)
    assert is_opaque or not opaque
    assert (GUIDE_SRC / "assets" / file).stat().st_size < 8_000
