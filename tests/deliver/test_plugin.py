"""One guide comes out the same whichever way it is built, and on every run."""

import hashlib
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
import yaml

from generator.guide.pages import MARKDOWN_EXTENSION_CONFIGS, MARKDOWN_EXTENSIONS

ROOT = Path(__file__).resolve().parents[2]
SLUG = "mara"


def contents(folder):
    return {
        path.relative_to(folder).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in folder.rglob("*")
        if path.is_file()
    }


def run(*words, **settings):
    return subprocess.run(
        [sys.executable, "-m", *words],
        cwd=ROOT,
        env={**os.environ, **settings},
        capture_output=True,
        text=True,
        check=False,
        timeout=300,
    )


def shedbook_build(out, **settings):
    done = run("generator", "build", SLUG, "--out", str(out), **settings)
    assert done.returncode == 0, done.stderr
    assert done.stdout == ""
    return contents(out / SLUG)


@pytest.fixture(scope="module")
def built(tmp_path_factory):
    """What `shedbook build` writes for one builder."""
    return shedbook_build(tmp_path_factory.mktemp("built") / "out")


def test_a_second_process_writes_the_same_bytes(built, tmp_path):
    assert shedbook_build(tmp_path / "elsewhere", PYTHONHASHSEED="7", TZ="Pacific/Auckland") == built


def test_mkdocs_itself_builds_the_same_guide(built, tmp_path):
    done = run("mkdocs", "build", "--strict", "--site-dir", str(tmp_path / "site"), SHEDBOOK_BUILDER=SLUG)
    assert done.returncode == 0, done.stderr
    assert contents(tmp_path / "site") == built


def test_mkdocs_stops_at_bad_input_and_says_where(tmp_path):
    data = tmp_path / "data"
    shutil.copytree(ROOT / "site_data", data)
    file = data / "builders" / f"{SLUG}.yaml"
    file.write_text(file.read_text("utf-8").replace("body_mass: 68", "body_mass: heavy"), "utf-8")
    site = tmp_path / "site"
    settings = {"SHEDBOOK_BUILDER": SLUG, "SHEDBOOK_DATA": str(data)}
    done = run("mkdocs", "build", "--strict", "--site-dir", str(site), **settings)
    assert done.returncode != 0
    assert "mara.yaml:" in done.stderr
    assert "body mass" in done.stderr
    assert "Traceback" not in done.stderr
    assert not site.exists()


def test_the_site_turns_markdown_into_html_as_the_page_texts_expect():
    text = (ROOT / "mkdocs.yml").read_text("utf-8").replace("!ENV", "")
    listed = {}
    for extension in yaml.safe_load(text)["markdown_extensions"]:
        listed |= extension if isinstance(extension, dict) else {extension: {}}
    assert listed == {name: MARKDOWN_EXTENSION_CONFIGS.get(name, {}) for name in MARKDOWN_EXTENSIONS}
