"""A guide is built beside the old one and replaces it only when it is whole."""

import hashlib
import json
import logging
import shutil

import pytest

from generator.deliver.building import BuildFailed, build_site
from tests.deliver.small_guide import small_guide


def contents(folder):
    """Every file below `folder` by name, as a hash of its bytes."""
    return {
        path.relative_to(folder).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in folder.rglob("*")
        if path.is_file()
    }


@pytest.fixture(scope="module")
def built_once(tmp_path_factory):
    """The small guide as a finished folder, not to be changed."""
    out = tmp_path_factory.mktemp("once") / "demo"
    build_site(small_guide(), out=out)
    return out


@pytest.fixture
def old_guide(built_once, tmp_path):
    """A guide in its place, and what it holds."""
    out = tmp_path / "out" / "demo"
    shutil.copytree(built_once, out)
    return out, contents(out)


def test_the_report_counts_what_was_written(tmp_path):
    report = build_site(small_guide(), out=tmp_path / "demo")
    assert report.start == tmp_path / "demo" / "index.html"
    assert report.start.is_file()
    files = [path for path in (tmp_path / "demo").rglob("*") if path.is_file()]
    assert (report.pages, report.files) == (3, len(files))
    assert report.size_bytes == sum(len(path.read_bytes()) for path in files)


def test_a_guide_carries_nothing_that_it_does_not_use(old_guide):
    _, files = old_guide
    assert not [name for name in files if name.endswith(".map") or "lunr" in name]
    assert not {"404.html", "sitemap.xml", "sitemap.xml.gz", "assets/images/favicon.png"} & files.keys()


def test_a_new_guide_replaces_the_old_one_whole(old_guide):
    out, before = old_guide
    build_site(small_guide(bench="# The bench\n\n## Steps { #steps }\n\nAll new.\n"), out=out)
    assert contents(out)["bench.html"] != before["bench.html"]
    assert [path.name for path in out.parent.iterdir()] == ["demo"]


BROKEN = {
    "a dead Markdown link": {"bench": "# The bench\n\n## Steps { #steps }\n\n[gone](nowhere.md)\n"},
    "a dead anchor": {"bench": "# The bench\n\n## Steps { #steps }\n\n[gone](index.md#nowhere)\n"},
    "a dead link in raw HTML": {"bench": '# The bench\n\n<p id="steps"><a href="nowhere.html">gone</a></p>\n'},
    "a dead anchor in raw HTML": {"bench": '# The bench\n\n<p id="steps"><a href="index.html#no">gone</a></p>\n'},
    "a missing image": {"bench": "# The bench\n\n## Steps { #steps }\n\n![a picture](gone.png)\n"},
    "a missing image in raw HTML": {"bench": '# The bench\n\n<p id="steps"><img src="gone.png" alt=""></p>\n'},
    "an absolute link": {"bench": "# The bench\n\n## Steps { #steps }\n\n[home](/index.html)\n"},
    "a link to another host": {"bench": "# The bench\n\n## Steps { #steps }\n\n[away](https://example.org/)\n"},
    "a picture from another host": {"bench": '# B\n\n<p id="steps"><img src="//example.org/a.png" alt=""></p>\n'},
    "an id twice": {"bench": '# The bench\n\n## Steps { #steps }\n\n<p id="steps">again</p>\n'},
    "a style attribute": {"bench": '# The bench\n\n<p id="steps" style="color:red">red</p>\n'},
    "a script of its own": {"bench": '# The bench\n\n<p id="steps">x</p>\n<script>alert(1)</script>\n'},
    "an inline handler": {"bench": '# The bench\n\n<p id="steps" onclick="alert(1)">x</p>\n'},
}


@pytest.mark.parametrize("texts", BROKEN.values(), ids=BROKEN.keys())
def test_a_broken_guide_leaves_the_old_one_byte_for_byte(old_guide, texts):
    out, before = old_guide
    with pytest.raises(BuildFailed) as failed:
        build_site(small_guide(**texts), out=out)
    assert any("bench" in reason for reason in failed.value.reasons)
    assert contents(out) == before
    assert [path.name for path in out.parent.iterdir()] == ["demo"]


def test_a_page_too_few_leaves_the_old_guide(old_guide, monkeypatch):
    out, before = old_guide
    from generator.deliver.mkdocs_plugin import GuidePlugin

    feed = GuidePlugin.on_files

    def lose_one(self, files, *, config):
        files = feed(self, files, config=config)
        files.remove(files.get_file_from_path("numbers.md"))
        config.nav = [{"Start": "index.md"}, {"Bench": "bench.md"}]
        return files

    monkeypatch.setattr(GuidePlugin, "on_files", lose_one)
    texts = {"board": "# The board\n", "bench": "# The bench\n"}
    with pytest.raises(BuildFailed, match=r"numbers\.html: the page is missing"):
        build_site(small_guide(**texts), out=out)
    assert contents(out) == before


def test_an_error_of_our_own_leaves_no_half_made_folder(old_guide, monkeypatch):
    out, before = old_guide
    monkeypatch.setattr("generator.deliver.building.faults_in", lambda *a, **k: 1 / 0)
    with pytest.raises(ZeroDivisionError):
        build_site(small_guide(), out=out)
    assert contents(out) == before
    assert [path.name for path in out.parent.iterdir()] == ["demo"]


@pytest.mark.parametrize("silence", ["off", "level", "logger"])
def test_warnings_count_even_when_logging_is_silenced(tmp_path, silence):
    logger = logging.getLogger("mkdocs")
    try:
        if silence == "off":
            logging.disable(logging.CRITICAL)
        elif silence == "level":
            logger.setLevel(logging.CRITICAL)
        else:
            logger.disabled = True
        with pytest.raises(BuildFailed, match=r"nowhere\.md"):
            build_site(small_guide(**BROKEN["a dead Markdown link"]), out=tmp_path / "demo")
    finally:
        logging.disable(logging.NOTSET)
        logger.setLevel(logging.NOTSET)
        logger.disabled = False
    assert list(tmp_path.iterdir()) == []


def test_a_folder_that_is_not_a_guide_is_never_replaced(tmp_path):
    (tmp_path / "photos").mkdir()
    (tmp_path / "photos" / "wave.jpg").write_bytes(b"\xff\xd8")
    with pytest.raises(BuildFailed, match="not a guide"):
        build_site(small_guide(), out=tmp_path / "photos")
    assert contents(tmp_path / "photos").keys() == {"wave.jpg"}


def test_a_title_with_markup_in_it_stays_text(tmp_path):
    from generator.guide.words import safe_text

    hostile = "</title><script>alert(1)</script>"
    build_site(small_guide(title=str(safe_text(hostile))), out=tmp_path / "demo")
    assert "<script>alert" not in (tmp_path / "demo" / "bench.html").read_text("utf-8")


def test_every_page_carries_one_policy_without_unsafe_parts(old_guide):
    out, _ = old_guide
    for page in out.glob("*.html"):
        text = page.read_text("utf-8")
        assert text.count('http-equiv="Content-Security-Policy"') == 1
        assert "unsafe-" not in text
        assert text.index("Content-Security-Policy") < text.index("<script")
        assert '<meta name="referrer" content="no-referrer">' in text
        assert '<meta name="robots" content="noindex' in text


def test_the_search_that_every_page_loads_holds_a_number_and_not_how_it_was_got(tmp_path):
    number = (
        '<dl markdown="0"><div class="number" id="board-length"><dt>Whole length</dt>'
        '<dd class="number-value">2300 mm</dd><dd class="number-how">By a long sum.</dd>'
        '<dd class="number-kind">worked out</dd></div><span id="bench-support-1-height"></span></dl>'
    )
    build_site(small_guide(numbers=f"# All the numbers\n\n{number}\n"), out=tmp_path / "demo")
    found = json.loads((tmp_path / "demo" / "search" / "search_index.json").read_text("utf-8"))
    text = " ".join(entry["text"] for entry in found["docs"])
    assert "2300 mm" in text
    assert "Whole length" in text
    assert "long sum" not in text
    assert "worked out" not in text
    page = (tmp_path / "demo" / "numbers.html").read_text("utf-8")
    assert "By a long sum." in page
    assert "data-search" not in page
