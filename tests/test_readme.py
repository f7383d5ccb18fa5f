"""What the README shows is run."""

import json
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from generator.cli import main

ROOT = Path(__file__).resolve().parents[1]
README = (ROOT / "README.md").read_text("utf-8")


def five_minutes():
    """The commands of "Your first guide in five minutes", in order; the preview, which never ends, left out."""
    part = README.split("## Your first guide in five minutes")[1].split("\n## ")[0]
    found = re.findall(r"`((?:mkdir|cp|\.venv/bin/shedbook) [^`]+)`", part)
    return [command for command in found if " serve " not in command]


@pytest.mark.skipif(sys.platform == "win32", reason="the README's commands are for a POSIX shell")
def test_the_first_guide_in_five_minutes_comes_out(tmp_path):
    shutil.copytree(ROOT / "site_data", tmp_path / "site_data")
    commands = five_minutes()
    assert len(commands) == 5
    for command in commands:
        typed = command.replace(".venv/bin/shedbook", f"PYTHONPATH={ROOT} {sys.executable} -m generator")
        done = subprocess.run(typed, shell=True, cwd=tmp_path, capture_output=True, text=True, check=False)
        assert done.returncode == 0, f"{command}\n{done.stderr}"
    assert (tmp_path / "out" / "sam" / "index.html").is_file()
    assert (tmp_path / "my" / "schema" / "builder.json").is_file()


def test_the_bench_of_the_readme_sags_as_a_handbook_says(tmp_path, capsys):
    """Simple beam: 5wL⁴/384EI + PL³/48EI below the chord (handbook, from memory); free curvature k sags kL²/8 more."""
    (example,) = re.findall(r"```json\n(.*?)```", README, re.S)
    (tmp_path / "benches.json").write_text(example, "utf-8")
    assert main(["bench", str(tmp_path / "benches.json")]) == 0
    (bench,) = json.loads(capsys.readouterr().out)["cases"]
    sag = 5 * 0.03 * 2000**4 / (384 * 1e8) + 10 * 2000**3 / (48 * 1e8) + 1e-5 * 2000**2 / 8
    assert bench["heights_mm"][2] == pytest.approx((60 + 110) / 2 - sag)
    assert bench["reactions_N"] == pytest.approx([35, 35])


def test_the_sum_of_the_readme_prints_what_stands_there(capsys):
    typed, shown = re.search(r"\$ shedbook (sum [^\n]+)\n(.*?)```", README, re.S).groups()
    assert main([*typed.split(), "--data", str(ROOT / "site_data")]) == 0
    assert capsys.readouterr().out == shown


def test_the_readme_is_short_and_its_picture_is_there():
    assert len(README.splitlines()) < 130
    for path in re.findall(r"!\[[^\]]*\]\(([^)]+)\)", README):
        assert (ROOT / path).is_file()


def test_the_developers_page_shows_the_tree_as_it_is():
    page = (ROOT / "DEVELOPERS.md").read_text("utf-8")
    for folder in sorted(path for path in (ROOT / "generator").iterdir() if (path / "__init__.py").is_file()):
        assert f"{folder.name}/" in page, folder.name
    for named in re.findall(r"`((?:tests|generator|guide_src|site_data)/[\w./-]+)`", page):
        if "NAME" not in named and "SLUG" not in named:
            assert (ROOT / named).exists(), named
