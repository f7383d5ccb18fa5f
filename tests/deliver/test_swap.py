"""Replacing a folder as a whole, with a crash at every point."""

from pathlib import Path

import pytest

from generator.deliver.swap import beside, mend


def make(folder, words):
    folder.mkdir(parents=True)
    (folder / "index.html").write_text(words)


def make_new(out, words):
    with beside(out) as place:
        (place.folder / "index.html").write_text(words)
        place.keep()


def words_in(out):
    return (out / "index.html").read_text()


def test_what_was_kept_takes_the_place_of_the_old(tmp_path):
    out = tmp_path / "demo"
    make(out, "old")
    make_new(out, "new")
    assert words_in(out) == "new"
    assert list(tmp_path.iterdir()) == [out]


def test_what_was_not_kept_vanishes(tmp_path):
    out = tmp_path / "demo"
    make(out, "old")
    with beside(out) as place:
        (place.folder / "index.html").write_text("half")
    assert words_in(out) == "old"
    assert list(tmp_path.iterdir()) == [out]


class Killed(BaseException):
    pass


@pytest.mark.parametrize("at", [1, 2])
def test_a_stop_at_either_rename_leaves_a_whole_folder(tmp_path, monkeypatch, at):
    out = tmp_path / "demo"
    make(out, "old")
    real, calls = Path.rename, []

    def stopped(self, target):
        calls.append(target)
        if len(calls) == at:
            raise Killed
        return real(self, target)

    monkeypatch.setattr(Path, "rename", stopped)
    with pytest.raises(Killed):
        make_new(out, "new")
    monkeypatch.undo()
    mend(out)
    assert words_in(out) == "old"
    assert list(tmp_path.iterdir()) == [out]


def test_a_refused_rename_puts_the_old_folder_back_at_once(tmp_path, monkeypatch):
    out = tmp_path / "demo"
    make(out, "old")
    real, calls = Path.rename, []

    def refused(self, target):
        calls.append(target)
        if len(calls) == 2:
            raise OSError("no")
        return real(self, target)

    monkeypatch.setattr(Path, "rename", refused)
    with pytest.raises(OSError, match="no"):
        make_new(out, "new")
    assert words_in(out) == "old"
    assert list(tmp_path.iterdir()) == [out]


def test_an_old_folder_left_over_after_the_swap_is_cleared(tmp_path):
    out = tmp_path / "demo"
    make(out, "new")
    make(tmp_path / ".demo.old", "old")
    mend(out)
    assert words_in(out) == "new"
    assert list(tmp_path.iterdir()) == [out]


def test_leavings_of_the_dead_are_cleared_and_work_of_the_living_is_not(tmp_path):
    out = tmp_path / "demo"
    make(tmp_path / ".demo.new-1-dead", "half")
    make(tmp_path / ".demonstration.new-1-other", "another guide's")
    with beside(out) as living:
        (living.folder / "index.html").write_text("at work")
        mend(out)
        assert words_in(living.folder) == "at work"
    assert sorted(path.name for path in tmp_path.iterdir()) == [".demonstration.new-1-other"]
