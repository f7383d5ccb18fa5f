"""What a newcomer does: a clean copy of the project, and the README's first command."""

import os
import shutil
import subprocess
import sys
from pathlib import Path
from urllib.parse import unquote, urldefrag

import pytest
from bs4 import BeautifulSoup

from generator.guide.stages import STAGES

ROOT = Path(__file__).resolve().parents[1]


@pytest.fixture(scope="module")
def clone(tmp_path_factory):
    folder = tmp_path_factory.mktemp("newcomer") / "shedbook"
    listed = subprocess.run(
        ["git", "ls-files", "--cached", "--others", "--exclude-standard", "-z"],
        cwd=ROOT,
        check=True,
        capture_output=True,
    )
    for name in filter(None, listed.stdout.decode().split("\0")):
        if (ROOT / name).is_file():
            (folder / name).parent.mkdir(parents=True, exist_ok=True)
            shutil.copy2(ROOT / name, folder / name)
    return folder


@pytest.fixture(scope="module")
def guide_run(clone):
    python = getattr(sys, "_base_executable", sys.executable)
    env = {
        name: value for name, value in os.environ.items() if not name.startswith(("PYTHON", "VIRTUAL_ENV", "PYTEST"))
    }
    return subprocess.run(
        [python, "run.py", "guide"], cwd=clone, env=env, capture_output=True, text=True, timeout=600, check=False
    )


def test_one_command_sets_up_and_builds_every_demo_guide(clone, guide_run):
    assert guide_run.returncode == 0, guide_run.stderr
    builders = sorted(path.stem for path in (clone / "site_data" / "builders").glob("*.yaml"))
    assert len(builders) >= 4
    assert sorted(path.name for path in (clone / "out").iterdir()) == builders
    for slug in builders:
        assert str(Path("out") / slug / "index.html") in guide_run.stderr


def unresolved(site: Path):
    """Links, images and anchors that lead nowhere; read with another parser than the build's own check."""
    soups = {path.name: BeautifulSoup(path.read_text("utf-8"), "html.parser") for path in site.glob("*.html")}
    for name, soup in soups.items():
        ids = [tag["id"] for tag in soup.find_all(id=True)]
        yield from (f"{name}: id {one} stands twice" for one in set(ids) if ids.count(one) > 1)
        for tag in soup.find_all(True):
            for attribute in ("href", "src", "xlink:href"):
                if attribute in tag.attrs:
                    yield from dead(site, soups, name, tag[attribute])


def dead(site: Path, soups, name: str, address: str):
    if address.startswith(("https://example.org", "mailto:")):  # the invented maker's own
        return
    path, anchor = urldefrag(address)
    target = unquote(path) or name
    if not (site / target).is_file():
        yield f"{name}: {address} is not there"
    elif anchor and target in soups and not soups[target].find(id=unquote(anchor)):
        yield f"{name}: {address} has no such place"


def test_every_link_image_and_anchor_of_every_demo_guide_resolves(clone, guide_run):
    assert guide_run.returncode == 0
    sites = sorted((clone / "out").iterdir())
    assert sites
    for site in sites:
        assert list(unresolved(site)) == []
        assert (site / "index.html").is_file()
        assert len(list(site.glob("*.html"))) == len(STAGES)


def test_nothing_is_left_in_the_tree_but_what_git_ignores(clone, guide_run):
    assert guide_run.returncode == 0
    assert {path.name for path in clone.iterdir()} - {path.name for path in ROOT.iterdir()} <= {".venv", "out"}


def test_a_second_start_is_quick_to_set_up_and_writes_the_same_bytes(clone, guide_run):
    before = {path: path.read_bytes() for path in (clone / "out").rglob("*") if path.is_file()}
    again = subprocess.run(
        [sys.executable, "run.py", "guide"], cwd=clone, capture_output=True, text=True, timeout=300, check=False
    )
    assert again.returncode == 0, again.stderr
    assert "Setting up" not in again.stderr
    assert {path: path.read_bytes() for path in (clone / "out").rglob("*") if path.is_file()} == before
