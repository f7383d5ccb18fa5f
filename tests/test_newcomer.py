"""What a newcomer does: a clean copy of the project, and the README's first command."""

import os
import shutil
import subprocess
import sys
from collections import Counter
from pathlib import Path
from urllib.parse import unquote, urldefrag

import pytest
from bs4 import BeautifulSoup

from generator.guide.stages import STAGES

ROOT = Path(__file__).resolve().parents[1]


@pytest.fixture
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


def guide_command(clone, python):
    """What `run.py guide` came to in the copy, without anything of this run's own environment."""
    strange = ("PYTHON", "VIRTUAL_ENV", "PYTEST")
    env = {name: value for name, value in os.environ.items() if not name.startswith(strange)}
    run = subprocess.run(
        [python, "run.py", "guide"], cwd=clone, env=env, capture_output=True, text=True, timeout=600, check=False
    )
    assert run.returncode == 0, run.stderr
    return run.stderr


def unresolved(site: Path):
    """Links, images and anchors that lead nowhere; read with another parser than the build's own check."""
    soups = {path.name: BeautifulSoup(path.read_text("utf-8"), "html.parser") for path in site.glob("*.html")}
    ids = {name: Counter(tag["id"] for tag in soup.find_all(id=True)) for name, soup in soups.items()}
    for name, soup in soups.items():
        yield from (f"{name}: id {one} stands twice" for one, count in ids[name].items() if count > 1)
        for tag in soup.find_all(True):
            for attribute in ("href", "src", "xlink:href"):
                if attribute in tag.attrs:
                    yield from dead(site, ids, name, tag[attribute])


def dead(site: Path, ids, name: str, address: str):
    if address.startswith(("https://example.org", "mailto:")):  # the invented maker's own
        return
    path, anchor = urldefrag(address)
    target = unquote(path) or name
    if not (site / target).is_file():
        yield f"{name}: {address} is not there"
    elif anchor and target in ids and unquote(anchor) not in ids[target]:
        yield f"{name}: {address} has no such place"


def every_file(clone):
    return {path: path.read_bytes() for path in (clone / "out").rglob("*") if path.is_file()}


def test_one_command_sets_up_and_builds_whole_guides_and_again_the_same_bytes(clone):
    """One test, since all of it hangs on one copy of the project that takes half a minute to set up."""
    said = guide_command(clone, getattr(sys, "_base_executable", sys.executable))
    builders = sorted(path.stem for path in (clone / "site_data" / "builders").glob("*.yaml"))
    assert len(builders) >= 4
    assert sorted(path.name for path in (clone / "out").iterdir()) == builders
    for slug in builders:
        assert str(Path("out") / slug / "index.html") in said
        site = clone / "out" / slug
        assert list(unresolved(site)) == []
        assert (site / "index.html").is_file()
        assert len(list(site.glob("*.html"))) == len(STAGES)
    assert {path.name for path in clone.iterdir()} - {path.name for path in ROOT.iterdir()} <= {".venv", "out"}
    before = every_file(clone)
    again = guide_command(clone, sys.executable)
    assert "Setting up" not in again
    assert every_file(clone) == before
