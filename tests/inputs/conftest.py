"""A copy of the demo data that a test may spoil, and what the reader says about it."""

import shutil
from pathlib import Path

import pytest

from generator.inputs.fault import BadInput
from generator.inputs.site import read_builder

DATA = Path(__file__).resolve().parents[2] / "site_data"


@pytest.fixture
def data():
    return DATA


@pytest.fixture
def folder(tmp_path):
    shutil.copytree(DATA, tmp_path / "data")
    return tmp_path / "data"


@pytest.fixture
def edit(folder):
    """Replace text that stands once in a file of the copy; gives the lines of the changes."""

    def edit_file(name, *changes):
        path, lines = folder / name, []
        text = path.read_text("utf-8")
        for old, new in changes:
            assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in {name}"
            text = text.replace(old, new)
            lines.append(text[: text.index(new)].count("\n") + 1)
        path.write_text(text, "utf-8", newline="\n")
        return lines

    return edit_file


@pytest.fixture
def faults(folder, edit):
    """The messages after changes to a file, as faults("builders/mara.yaml", (old, new)); `@` is the line."""

    def faults_after(name, *changes, builder="mara"):
        lines = edit(name, *changes)
        try:
            read_builder(folder, builder)
        except BadInput as bad:
            messages = [str(fault) for fault in bad.faults]
            return [m.replace(f"{name}:{line}: ", f"{name}:@: ", 1) for m in messages for line in lines[:1]] or messages
        return []

    return faults_after
