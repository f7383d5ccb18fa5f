"""What the commands print where, and their exit codes."""

import json
import re
import shutil
import subprocess
import sys
from email import message_from_bytes
from email.policy import SMTP
from pathlib import Path

import pytest

from generator.cli import main

ROOT = Path(__file__).resolve().parents[1]
DATA = ROOT / "site_data"


@pytest.fixture
def data(tmp_path):
    """The demo data with one builder of each board, so that a build is quick."""
    folder = tmp_path / "my"
    shutil.copytree(DATA, folder)
    for slug in ("wen", "tobin"):
        (folder / "builders" / f"{slug}.yaml").unlink()
    return folder


def spoil(path: Path, old: str, new: str) -> int:
    """Change one line and give its number."""
    text = path.read_text("utf-8")
    assert text.count(old) == 1
    path.write_text(text.replace(old, new), "utf-8")
    return text[: text.index(old)].count("\n") + 1


def test_figures_as_json_are_alone_on_standard_output(capsys):
    assert main(["figures", "ines", "--json", "--data", str(DATA)]) == 0
    out, err = capsys.readouterr()
    told = json.loads(out)
    assert err == ""
    assert {"values", "curves", "rows", "said", "data"} == set(told)
    for key, figure in told["values"].items():
        assert figure["key"] == key
        assert figure["low"] <= figure["value"] <= figure["high"]
        assert set(figure) >= {"unit", "label", "how", "kind", "source"}
        assert figure["kind"] in {
            "published",
            "your measurement",
            "your label",
            "maker's choice",
            "common practice",
            "assumed",
        }


def test_figures_for_people_go_to_standard_error(capsys):
    assert main(["figures", "ines", "--data", str(DATA)]) == 0
    out, err = capsys.readouterr()
    assert out == ""
    assert "bench.support.1.height" in err


def test_one_bad_file_does_not_stop_the_others_and_the_exit_code_says_so(data, tmp_path, capsys):
    line = spoil(data / "builders" / "mara.yaml", "humidity: 60", "humidity: 600")
    assert main(["build", "--data", str(data), "--out", str(tmp_path / "out")]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert f"mara.yaml:{line}: the shed's humidity is 600" in err
    assert "try 100 %" in err
    assert (tmp_path / "out" / "ines" / "index.html").is_file()
    assert sorted(path.name for path in (tmp_path / "out").iterdir()) == ["ines"]


def test_a_fault_in_the_maker_s_file_is_told_once(data, tmp_path, capsys):
    spoil(data / "maker.yaml", "contact: hello@example.org", "contact: nowhere")
    assert main(["build", "--data", str(data), "--out", str(tmp_path / "out")]) == 2
    err = capsys.readouterr().err
    assert err.count("maker.yaml:4") == 1
    assert not (tmp_path / "out").exists() or not list((tmp_path / "out").iterdir())


@pytest.mark.parametrize("command", [["build", "mar"], ["figures", "mar"], ["serve", "mar"]])
def test_an_unknown_builder_gets_the_nearest_name(command, tmp_path, capsys):
    extra = ["--out", str(tmp_path / "out")] if command[0] == "build" else []
    assert main([*command, "--data", str(DATA), *extra]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert "try mara" in err
    assert "Traceback" not in err


@pytest.mark.parametrize("command", ["print", "mail"])
def test_an_unknown_builder_is_neither_printed_nor_written_to(command, data, tmp_path, monkeypatch, capsys):
    monkeypatch.setenv("SHEDBOOK_CHROMIUM", sys.executable)
    monkeypatch.chdir(tmp_path)
    assert main([command, "../mar", "--data", str(data)]) == 2
    assert "try mara" in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == [data]
    assert not (data / "keys.json").exists()


def test_an_unknown_stage_gets_the_nearest_name(capsys):
    assert main(["print", "mara", "--stage", "gleu", "--data", str(DATA)]) == 2
    err = capsys.readouterr().err
    assert err.startswith("--stage: the stage is gleu")
    assert "try glue" in err
    assert err.count("\n") == 1


@pytest.mark.parametrize("words", [["--stage", "glue", "--bench"], ["--paper", "a5"], ["--numbers", "--bench"]])
def test_words_of_print_that_do_not_go_together_are_refused(words):
    with pytest.raises(SystemExit) as stopped:
        main(["print", "mara", *words])
    assert stopped.value.code == 2


def test_without_a_browser_one_line_says_so_and_an_old_pdf_stays(tmp_path, monkeypatch, capsys):
    monkeypatch.setenv("SHEDBOOK_CHROMIUM", str(tmp_path / "none"))
    out = tmp_path / "mara.pdf"
    out.write_bytes(b"old")
    assert main(["print", "mara", "--data", str(DATA), "--out", str(out)]) == 1
    err = capsys.readouterr().err
    assert "SHEDBOOK_CHROMIUM" in err
    assert err.count("\n") == 1
    assert out.read_bytes() == b"old"


def test_a_browser_that_writes_nothing_leaves_the_old_pdf(tmp_path, monkeypatch, capsys):
    monkeypatch.setenv("SHEDBOOK_CHROMIUM", shutil.which("false") or "")
    out = tmp_path / "glue.pdf"
    out.write_bytes(b"old")
    assert main(["print", "mara", "--stage", "glue", "--data", str(DATA), "--out", str(out)]) == 1
    err = capsys.readouterr().err
    assert "wrote no PDF" in err
    assert "Traceback" not in err
    assert out.read_bytes() == b"old"
    assert list(tmp_path.iterdir()) == [out]


def test_the_mail_draft_holds_the_link_and_the_terminal_does_not(data, tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    assert main(["mail", "mara", "--data", str(data)]) == 0
    out, err = capsys.readouterr()
    key = json.loads((data / "keys.json").read_text("ascii"))["mara"]
    draft = message_from_bytes((tmp_path / "mail" / "mara.eml").read_bytes(), policy=SMTP).get_content()
    assert f"https://example.org/sedge-lane/{key}/" in draft
    assert out == ""
    assert "out/mara/" in err
    assert key not in err
    (data / "keys.json").write_text('{"mara": 5}')
    assert main(["mail", "mara", "--data", str(data)]) == 2
    assert "keys.json:1: " in capsys.readouterr().err


@pytest.mark.parametrize("missing", ["nowhere", "site_data/boards"])
def test_a_wrong_data_folder_is_a_fault_and_not_a_silent_success(missing, tmp_path, capsys):
    assert main(["build", "--data", str(ROOT / missing), "--out", str(tmp_path / "out")]) == 2
    assert "maker.yaml" in capsys.readouterr().err


def test_a_file_with_an_odd_name_is_told_and_not_passed_over(data, tmp_path, capsys):
    (data / "builders" / "mara.yaml").rename(data / "builders" / "Mara Q.yml")
    assert main(["build", "--data", str(data), "--out", str(tmp_path / "out")]) == 2
    assert "try mara-q.yaml" in capsys.readouterr().err


def test_the_schemas_in_the_tree_are_those_that_the_program_writes(tmp_path, capsys):
    shutil.copytree(DATA, tmp_path / "data")
    shutil.rmtree(tmp_path / "data" / "schema")
    assert main(["schema", "--data", str(tmp_path / "data")]) == 0
    assert main(["schema", "--print"]) == 0
    printed = json.loads(capsys.readouterr().out)
    written = {path.stem: path.read_text("utf-8") for path in (tmp_path / "data" / "schema").iterdir()}
    kept = {path.stem: path.read_text("utf-8") for path in (DATA / "schema").iterdir()}
    assert kept.pop("what-if")  # describes what a page carries, no input file
    assert written == kept
    assert {name: json.loads(text) for name, text in written.items()} == printed


BENCHES = ROOT / "tests" / "published" / "data" / "bench_cases.json"


def test_solved_benches_are_alone_on_standard_output(capsys):
    assert main(["bench", str(BENCHES)]) == 0
    out, err = capsys.readouterr()
    assert err == ""
    asked = [case["name"] for case in json.loads(BENCHES.read_text("utf-8"))["cases"]]
    assert [case["name"] for case in json.loads(out)["cases"]] == asked


def test_a_bench_file_with_faults_gives_one_line_each_and_no_answer(tmp_path, capsys):
    path = tmp_path / "benches.json"
    path.write_text(BENCHES.read_text("utf-8"), "utf-8")
    lines = [
        spoil(path, '"EI": 80000000.0', '"EI": 0'),
        spoil(path, '"name": "unequal spans, stepped EI"', '"name": "one span, sinking end"'),
        spoil(path, '"P_N": 140', '"P_N": NaN'),
    ]
    assert main(["bench", str(path)]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert [line.split(": ")[0] for line in err.splitlines()] == [f"{path}:{line}" for line in lines]


@pytest.mark.parametrize(
    ("name", "problem"),
    [(".", "not a file"), ("none.json", "not there"), ("empty.json", "empty"), ("x.json", "not JSON")],
)
def test_what_is_no_bench_file_is_a_fault(name, problem, tmp_path, capsys):
    (tmp_path / "empty.json").touch()
    (tmp_path / "x.json").write_text("cases: []\n", "utf-8")
    assert main(["bench", str(tmp_path / name)]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err.count("\n") == 1
    assert f" is {problem}" in err


def test_the_bench_command_loads_no_more_than_it_needs():
    """Half of its time is loading: the site builder, charts and optimisers stay out."""
    code = (
        "import sys; from generator.cli import main; assert 'numpy' not in sys.modules; "
        f"code = main(['bench', {str(BENCHES)!r}]); "
        "assert not {'mkdocs', 'matplotlib', 'scipy', 'shapely', 'jinja2'} & set(sys.modules); sys.exit(code)"
    )
    subprocess.run([sys.executable, "-c", code], capture_output=True, check=True, cwd=ROOT)


def test_the_module_and_the_console_script_are_the_same_program():
    script = Path(sys.executable).with_name("shedbook")
    runs = [
        subprocess.run([*program, "--help"], capture_output=True, text=True, check=True, cwd=ROOT).stdout
        for program in ([sys.executable, "-m", "generator"], [str(script)])
    ]
    assert runs[0] == runs[1]


def test_every_command_stands_in_the_readme_or_in_developers_md():
    helped = subprocess.run(
        [sys.executable, "-m", "generator", "--help"], capture_output=True, text=True, check=True, cwd=ROOT
    ).stdout
    commands = re.findall(r"^    (\w+) ", helped, re.M)
    assert {"build", "figures", "serve", "bench", "schema"} <= set(commands)
    pages = (ROOT / "README.md").read_text("utf-8") + (ROOT / "DEVELOPERS.md").read_text("utf-8")
    for command in commands:
        assert f"shedbook {command}" in pages
