"""`shedbook sum`: every sum by itself, what it prints, and what it says to words that do not fit."""

import importlib
import itertools
import json
import math
import pkgutil
import shutil
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import generator.sums
from generator.cli import main
from generator.figures import Kind
from generator.inputs.fault import BadInput
from generator.inputs.site import read_timbers
from generator.inputs.sum_words import plain, read_words
from generator.sums.asked import answered
from generator.sums.registry import MODULES, SUMS
from generator.sums.sum_type import OutOfRange, Sum, Takes

ROOT = Path(__file__).resolve().parents[1]
DATA = ROOT / "site_data"
TIMBERS = read_timbers(DATA)
WORDS = ["value", "unit", "kind", "source", "low", "high", "range of use"]
CEDAR = "western-redcedar"


def ask(capsys, *words, code=0):
    """Exit code as wanted; what stands on standard output and on standard error."""
    assert main(["sum", *words, "--data", str(DATA)]) == code
    return capsys.readouterr()


# What a sum takes, typed


def choices(takes: Takes) -> list[str]:
    """Both ends and the middle of a range, or all words."""
    if takes.species:
        return [timber.name for timber in TIMBERS]
    return list(takes.words) or [plain(v) for v in (takes.low, (takes.low + takes.high) / 2, takes.high)]


def middle(one: Sum) -> dict[str, str]:
    return {takes.key: CEDAR if takes.species else choices(takes)[len(choices(takes)) // 2] for takes in one.takes}


def typed(values: dict[str, str]) -> list[str]:
    return [f"{key}={value}" for key, value in values.items()]


def told(one: Sum, values: dict[str, str]):
    """The answer; where the inputs do not fit together, the answer to what the message advises."""
    for _ in range(len(one.takes) + 1):
        try:
            return answered(one.name, typed(values), TIMBERS)
        except BadInput as bad:
            for fault in bad.faults:
                key = fault.place.rpartition(", ")[2]
                assert fault.nearest, fault
                assert values[key] != fault.nearest, fault
                values = values | {key: fault.nearest}
    raise AssertionError(f"{one.name}: the advice leads nowhere, at last {values}")


def check(one: Sum, values: dict[str, str]) -> None:
    answer = told(one, values).by_word
    assert list(answer) == WORDS
    assert all(math.isfinite(answer[word]) for word in ("value", "low", "high"))
    assert answer["low"] <= answer["value"] <= answer["high"]
    assert answer["kind"] in set(Kind)


@pytest.mark.parametrize("one", SUMS.values(), ids=lambda one: one.name)
def test_every_sum_runs_in_its_middle_and_at_the_ends_of_all_it_takes(one):
    check(one, middle(one))
    for takes in one.takes:
        for value in choices(takes) if takes.species or takes.words else (choices(takes)[0], choices(takes)[-1]):
            check(one, middle(one) | {takes.key: value})
    for pattern in ("0", "1", "01", "10", "0011", "1100"):
        corner = zip(one.takes, itertools.cycle(pattern), strict=False)
        check(one, {takes.key: choices(takes)[-int(end)] for takes, end in corner})


@pytest.mark.parametrize("one", SUMS.values(), ids=lambda one: one.name)
def test_every_sum_refuses_what_lies_beyond_and_names_the_nearest_end(one):
    for takes in one.takes:
        if takes.species or takes.words:
            wrong = {"no such word": None}
        else:
            step = max((takes.high - takes.low) / 1000, 1e-4)
            wrong = {f"{takes.low - step:f}": takes.low, f"{takes.high + step:f}": takes.high}
        for value, nearest in wrong.items():
            with pytest.raises(BadInput) as caught:
                answered(one.name, typed(middle(one) | {takes.key: value}), TIMBERS)
            (fault,) = caught.value.faults
            assert fault.place == f"shedbook sum {one.name}, {takes.key}"
            assert nearest is None or float(fault.nearest) == pytest.approx(nearest)
            check(one, middle(one) | {takes.key: fault.nearest})


@pytest.mark.parametrize("one", SUMS.values(), ids=lambda one: one.name)
def test_every_sum_says_what_it_is_and_where_from(one):
    assert one.about[0].islower() or one.about.split()[0].isupper()
    assert one.source
    assert one.range_of_use
    assert one.name == one.name.lower()
    assert len({takes.key for takes in one.takes}) == len(one.takes) >= 1
    for takes in one.takes:
        assert takes.species + bool(takes.words) + (takes.low < takes.high) == 1, takes.key
        if isinstance(takes.usual, str):
            assert takes.usual in choices(takes)
        else:
            assert takes.usual is None or takes.low <= takes.usual <= takes.high


def test_no_module_of_sums_is_left_out():
    names = [found.name for found in pkgutil.iter_modules(generator.sums.__path__)]
    modules = [importlib.import_module(f"generator.sums.{name}") for name in names if name != "registry"]
    assert {
        module.__name__ for module in modules if hasattr(module, "SUMS") and module.__name__ != "generator.sums.asked"
    } == {module.__name__ for module in MODULES}


# What is printed


@pytest.mark.parametrize(
    ("words", "value", "unit", "within"),
    [
        # Wood Handbook, FPL-GTR-190 (2010), eq. 4-5 at 20 °C and 50 %: 9.27
        (["equilibrium-moisture", "temperature_c=20", "humidity_pct=50"], 9.27, "%", 0.005),
        # Wood Handbook eq. 13-2, western redcedar, 250 mm flat-sawn, 8 to 12 %: 250 · 0.00234 · 4 = 2.34 mm
        (
            ["board-movement", "width_mm=250", f"species={CEDAR}", "from_pct=8", "to_pct=12", "grain=tangential"],
            2.34, "mm", 0.005,
        ),
        # NIOSH 98-126 (1998), Table 1-1: 94 dBA for 1 h; 29 CFR 1910.95, Table G-16: 100 dBA for 2 h
        (["noise-time", "level_dba=94", "criterion_dba=85", "exchange_db=3"], 60, "min", 1e-9),
        (["noise-time", "level_dba=100", "criterion_dba=90", "exchange_db=5"], 120, "min", 1e-9),
        # HSE ready-reckoner: 5 m/s² for 3 h is 150 points
        (["vibration-points", "acceleration_m_s2=5", "minutes=180"], 150, "points", 1e-9),
        # Ideal gas at fixed volume: 101.325 (333.15 / 288.15 − 1) = 15.82 kPa
        (["closed-air", "from_c=15", "to_c=60"], 15.8, "kPa", 0.05),
        # Deep-water wave √(g L / 2π) of 2.5 m: 1.975 m/s (9.80665 m/s²)
        (["wave-speed", "waterline_m=2.5"], 1.975, "m/s", 0.001),
    ],
    ids=lambda value: value[0] if isinstance(value, list) else "",
)  # fmt: skip
def test_the_answers_that_others_publish_come_out(words, value, unit, within, capsys):
    out, err = ask(capsys, *words, "--json")
    assert err == ""
    answer = json.loads(out)
    assert list(answer) == WORDS
    assert answer["value"] == pytest.approx(value, abs=within)
    assert answer["unit"] == unit
    assert answer["low"] <= answer["value"] <= answer["high"]
    lines, err = ask(capsys, *words)
    assert err == ""
    pairs = [line.split(": ", 1) for line in lines.splitlines()]
    assert [word for word, _ in pairs] == WORDS
    for word, said in pairs:
        if isinstance(answer[word], str):
            assert said == answer[word]
        else:
            assert float(said) == pytest.approx(answer[word], rel=1e-5)
            assert "e" not in said


def test_without_a_name_all_sums_are_listed_with_what_they_take(capsys):
    out, err = ask(capsys)
    assert err == ""
    listed = json.loads(ask(capsys, "--json").out)
    assert [one["name"] for one in listed] == list(SUMS)
    for one in listed:
        part = out.split(f"\n{one['name']} (")[1].split("\n\n")[0]
        assert [takes["key"] for takes in one["takes"]] == [line.split()[0] for line in part.splitlines()[1:]]
        for takes in one["takes"]:
            assert ("low" in takes and "high" in takes and "unit" in takes) or takes["words"]


@pytest.mark.parametrize("name", ["Western redcedar", "western-redcedar", "WESTERN REDCEDAR", "western redcedar"])
def test_a_timber_is_known_with_hyphens_spaces_and_any_capitals(name):
    rest = ["width_mm=250", "from_pct=8", "to_pct=12", "grain=Tangential"]
    assert answered("board-movement", [f"species={name}", *rest], TIMBERS) == answered(
        "board-movement", [f"species={CEDAR}", *rest], TIMBERS
    )


def test_options_may_stand_anywhere(capsys):
    pair = ("acceleration_m_s2=5", "minutes=180")
    first = ask(capsys, "--json", "vibration-points", *pair)
    assert first == ask(capsys, "vibration-points", "--json", *pair) == ask(capsys, "vibration-points", *pair, "--json")


# What does not fit


NOISE = ["level_dba=94", "criterion_dba=85", "exchange_db=3"]


@pytest.mark.parametrize(
    ("words", "parts"),
    [
        (["noise-tim", *NOISE], ["the name of the sum is noise-tim", "noise-dose", "try noise-time"]),
        (["noise-time", *NOISE[1:]], ["level_dba: the value is missing", "80 to 140 dBA", "try level_dba=80"]),
        (["noise-time", "lvl_dba=94", *NOISE[1:]], ["lvl_dba", "an unknown key", "exchange_db", "try level_dba=94"]),
        (["noise-time", *NOISE, "level_dba=95"], ["level_dba", "given again (95)", "each key once"]),
        (["noise-time", "94", *NOISE[1:]], ["94 is no key=value", "try level_dba=94"]),
        (["noise-time", "level_dba", *NOISE[1:]], ["level_dba: the value is not given"]),
        (["noise-time", "level_dba=", *NOISE[1:]], ["level_dba: the value is empty"]),
        (["noise-time", "=94", *NOISE[1:]], ["=94 is an unknown key"]),
        (["noise-time", "level_dba=141", *NOISE[1:]], ["the value is 141 dBA", "80 to 140 dBA", "try 140"]),
        (["noise-time", "level_dba=-94", *NOISE[1:]], ["the value is -94 dBA", "try 80"]),
        (["noise-time", "level_dba=94,5", *NOISE[1:]], ["94,5 (written with a comma)", "try 94.5"]),
        (["noise-time", "level_dba=9.4e1", *NOISE[1:]], ["written with an exponent", "try 94"]),
        (["noise-time", "level_dba=94 dB", *NOISE[1:]], ["only a number belongs here", "try 94"]),
        (["noise-time", "level_dba=nan", *NOISE[1:]], ["not a finite number", "try 80"]),
        (["noise-time", "level_dba=inf", *NOISE[1:]], ["not a finite number"]),
        (["noise-time", "level_dba=0x5E", *NOISE[1:]], ["level_dba", "try"]),
        (["noise-time", "level_dba=9_4", *NOISE[1:]], ["level_dba", "try"]),
        (["noise-time", "level_dba=٩٤", *NOISE[1:]], ["level_dba", "try 80"]),
        (["noise-time", f"level_dba=94.{'0' * 90}", *NOISE[1:]], ["93 characters long"]),
        (["noise-time", "level_dba=loud\x1b[2J", *NOISE[1:]], ["loud"]),
        (["vibration-points", "acceleration_m_s2=5", "minutes=3 h"], ["3 h", "try 180"]),
        (["equilibrium-moisture", "temperature_c=64 F", "humidity_pct=50"], ["64 F", "try 17.7778"]),
        (
            ["board-movement", "width_mm=10 in", f"species={CEDAR}", "from_pct=8", "to_pct=12", "grain=radial"],
            ["10 in", "try 254"],
        ),
        (
            ["board-movement", "width_mm=100", "species=redceder", "from_pct=8", "to_pct=12", "grain=radial"],
            ["redceder", "a timber of timber.csv", "western-redcedar", "try western-redcedar"],
        ),
        (
            ["board-movement", "width_mm=100", f"species={CEDAR}", "from_pct=8", "to_pct=12", "grain=tangent"],
            ["tangent;", "tangential or radial", "try tangential"],
        ),
    ],
    ids=lambda value: " ".join(value)[:50].encode("ascii", "replace").decode() if isinstance(value, list) else "",
)
def test_what_does_not_fit_gets_one_clear_line(words, parts, capsys):
    out, err = ask(capsys, *words, code=2)
    assert out == ""
    assert err.count("\n") == 1
    assert err.startswith("shedbook sum")
    assert "\x1b" not in err
    for part in [*parts, "; allowed: "]:
        assert part in err


def test_all_that_is_wrong_is_told_at_once(capsys):
    out, err = ask(capsys, "noise-time", "level_dba=200", "criterion_dba=x", "exchange=3", code=2)
    assert out == ""
    assert [line.split(": ")[0] for line in err.splitlines()] == [
        f"shedbook sum noise-time, {key}" for key in ("criterion_dba", "exchange", "level_dba")
    ]


def test_inputs_that_do_not_fit_together_are_told_like_any_other_fault():
    def refuses(_):
        raise OutOfRange("off_mm", "below thickness_mm", "5")

    one = Sum("thin", "a thing", (Takes("off_mm", "off", low=0, high=20),), "mm", Kind.ASSUMED, "s", "r", refuses)
    words = read_words(one.name, ["off_mm=7"], one.takes)
    assert words.numbers == {"off_mm": 7.0}
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("generator.sums.asked.SUMS", {"thin": one})
        with pytest.raises(BadInput) as caught:
            answered("thin", ["off_mm=7"])
    line = "shedbook sum thin, off_mm: the value is 7; allowed: below thickness_mm; try 5"
    assert str(caught.value) == line


@pytest.mark.parametrize("spoil", ["missing", "broken"])
def test_a_timber_table_that_cannot_be_read_is_told_with_its_folder(spoil, tmp_path, capsys):
    folder = tmp_path / "my"
    folder.mkdir()
    if spoil == "broken":
        shutil.copy(DATA / "timber.csv", folder)
        text = (folder / "timber.csv").read_text("utf-8")
        (folder / "timber.csv").write_text(text.replace(",0.32,", ",light,", 1), "utf-8")
    words = ["board-movement", "width_mm=250", f"species={CEDAR}", "from_pct=8", "to_pct=12", "grain=radial"]
    assert main(["sum", *words, "--data", str(folder)]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err.startswith(f"{folder.as_posix()}/timber.csv")
    assert main(["sum", "wave-speed", "waterline_m=2.5", "--data", str(folder)]) == 0  # needs no timber


def test_an_unknown_option_is_refused_without_an_answer(capsys):
    with pytest.raises(SystemExit) as caught:
        main(["sum", "noise-time", *NOISE, "--exact"])
    assert caught.value.code == 2
    assert capsys.readouterr().out == ""


@given(
    name=st.sampled_from(sorted(SUMS)),
    words=st.lists(
        st.one_of(
            st.text(max_size=20),
            st.tuples(
                st.sampled_from(sorted({takes.key for one in SUMS.values() for takes in one.takes})),
                st.one_of(st.text(max_size=12), st.floats().map(str), st.integers(-9999, 9999).map(str)),
            ).map("=".join),
        ),
        max_size=6,
    ),
)
@settings(max_examples=150, deadline=None)
def test_whatever_is_typed_there_is_an_answer_or_a_fault_that_says_what_to_do(name, words):
    try:
        answer = answered(name, words, TIMBERS)
    except BadInput as bad:
        for fault in bad.faults:
            assert fault.allowed
            assert fault.nearest
            assert "\n" not in str(fault)
    else:
        assert list(answer.by_word) == WORDS


@given(value=st.floats(-1e6, 1e6))
def test_a_printed_number_is_read_back_to_six_digits(value):
    text = plain(value)
    assert "e" not in text
    assert float(text) == pytest.approx(value, rel=1e-5, abs=1e-11)
