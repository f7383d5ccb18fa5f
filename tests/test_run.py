"""`run.py` on machines that lack something."""

import importlib.util
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]


@pytest.fixture
def run(tmp_path, monkeypatch):
    spec = importlib.util.spec_from_file_location("run_under_test", ROOT / "run.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    for name in ("pyproject.toml", "lock.txt", "lock-test.txt"):
        (tmp_path / name).write_bytes((ROOT / name).read_bytes())
    monkeypatch.setattr(module, "ROOT", tmp_path)
    monkeypatch.setattr(module, "VENV", tmp_path / ".venv")
    monkeypatch.setattr(module, "STAMP", tmp_path / ".venv" / "shedbook-stamp")
    return module


def lines_of(capsys):
    out, err = capsys.readouterr()
    assert out == ""
    return err.strip().splitlines()


def test_an_old_python_is_told_in_one_line_and_leaves_nothing(run, monkeypatch, capsys):
    monkeypatch.setattr(sys, "version_info", (3, 9, 2, "final", 0))
    assert run.main(["guide"]) == 2
    assert "3.11 or newer; this is 3.9" in lines_of(capsys)[-1]
    assert not run.VENV.exists()


def test_a_python_without_ensurepip_is_told_what_to_install_and_leaves_nothing(run, monkeypatch, capsys):
    monkeypatch.setitem(sys.modules, "ensurepip", None)
    assert run.main(["guide"]) == 2
    lines = lines_of(capsys)
    assert len(lines) == 1
    assert "python3-venv" in lines[0]
    assert not run.VENV.exists()


def fake_calls(run, monkeypatch, failing=None):
    calls = []

    def call(step, **_):
        calls.append(step)
        if "venv" in step:
            run.venv_python().parent.mkdir(parents=True)
            run.venv_python().touch()
        return int(failing is not None and failing in step)

    monkeypatch.setattr(run.subprocess, "call", call)
    return calls


def test_a_half_made_environment_is_cleared_away(run, monkeypatch, capsys):
    fake_calls(run, monkeypatch, failing="venv")
    assert run.main(["guide"]) == 2
    assert not run.VENV.exists()
    assert "Run the same command again" in lines_of(capsys)[-1]


def test_a_broken_install_repeats_itself_and_a_finished_one_does_not(run, monkeypatch):
    fake_calls(run, monkeypatch, failing="--require-hashes")
    assert run.main(["guide"]) == 2
    assert not run.STAMP.exists()
    run.shutil.rmtree(run.VENV)
    calls = fake_calls(run, monkeypatch)
    assert run.main(["guide"]) == 0
    assert any("--require-hashes" in step for step in calls)
    calls.clear()
    assert run.main(["guide"]) == 0
    assert [step[-1] for step in calls] == ["build"]


def test_a_changed_lock_installs_again(run, monkeypatch):
    calls = fake_calls(run, monkeypatch)
    run.main(["guide"])
    (run.ROOT / "lock.txt").write_text("numpy==1", "utf-8")
    run.shutil.rmtree(run.VENV / "bin", ignore_errors=True)
    calls.clear()
    run.main(["guide"])
    assert any("--require-hashes" in step for step in calls)


def test_the_test_environment_serves_the_guide_too(run, monkeypatch):
    calls = fake_calls(run, monkeypatch)
    run.set_up(("lock.txt", "lock-test.txt"))
    calls.clear()
    run.set_up(("lock.txt",))
    assert calls == []


def test_without_a_chromium_the_rest_runs_and_the_command_fails_with_one_line(run, monkeypatch, capsys):
    calls = fake_calls(run, monkeypatch)
    monkeypatch.setattr(run, "get_chromium", lambda: None)
    assert run.main(["test"]) == 1
    assert "not browser" in calls[-1]
    assert "No Chromium could be had" in lines_of(capsys)[-1]


def test_a_browser_named_by_the_user_comes_first(run, monkeypatch):
    monkeypatch.setenv("SHEDBOOK_CHROMIUM", sys.executable)
    assert run.get_chromium() == sys.executable


def test_speed_sets_both_locks_up_and_runs_the_benchmarks(run, monkeypatch):
    calls = fake_calls(run, monkeypatch)
    assert run.main(["speed"]) == 0
    assert [step[-1] for step in calls if "--requirement" in step] == [
        str(run.ROOT / name) for name in ("lock.txt", "lock-test.txt")
    ]
    assert calls[-1] == [str(run.venv_python()), str(run.ROOT / "tests" / "speed" / "bench_speed.py")]
    assert (ROOT / "tests" / "speed" / "bench_speed.py").is_file()


def test_shots_sets_both_locks_up_and_hands_the_builders_and_the_browser_on(run, monkeypatch, capsys):
    calls = fake_calls(run, monkeypatch)
    monkeypatch.setattr(run, "get_chromium", lambda: "a-browser")
    assert run.main(["shots", "mara", "wen"]) == 0
    assert calls[-1] == [str(run.venv_python()), str(run.ROOT / "tests" / "browser" / "shots.py"), "mara", "wen"]
    assert (ROOT / "tests" / "browser" / "shots.py").is_file()
    monkeypatch.setattr(run, "get_chromium", lambda: None)
    calls.clear()
    assert run.main(["shots"]) == 1
    assert calls == []
    assert "No Chromium could be had" in lines_of(capsys)[-1]


@pytest.mark.parametrize("words", [[], ["guides"], ["serve"], ["guide", "x"], ["speed", "x"]])
def test_other_words_get_the_usage(run, words, capsys):
    assert run.main(words) == 2
    assert lines_of(capsys)[0].startswith("usage:")
