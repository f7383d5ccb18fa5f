"""A file of benches: what is read, and every fault with its place, what was found, what is allowed and the way out."""

import copy
import json
import time
from pathlib import Path

import jsonschema
import pytest

from generator.inputs.bench_file import read_benches
from generator.inputs.fault import BadInput
from generator.inputs.read_json import MOST_FAULTS
from generator.inputs.schema import schemas

DATA = Path(__file__).resolve().parents[2] / "site_data"
SOLVED = Path(__file__).resolve().parents[1] / "published" / "data" / "bench_cases.json"
REMARKS = ("schema", "units", "conventions", "tolerances", "title")

GOOD = """{"cases": [
{"name": "one", "input": {
"L_mm": 2000,
"EI_Nmm2": [{"x0_mm": 0, "x1_mm": 900, "EI": 1e8},
            {"x0_mm": 900, "x1_mm": 2000, "EI": 2e8}],
"distributed_load_N_per_mm": [{"x0_mm": 0, "x1_mm": 900, "w0": 0.03, "w1": 0.02},
                              {"x0_mm": 900, "x1_mm": 1900, "w0": 0.02, "w1": 0.03}],
"stress_free_curvature_per_mm": [{"x0_mm": 0, "x1_mm": 1000, "k0": 1e-5, "k1": 2e-5},
                                 {"x0_mm": 1500, "x1_mm": 2000, "k0": 1e-5, "k1": 0}],
"point_loads": [{"x_mm": 1000, "P_N": 10}],
"supports": [{"x_mm": 0, "height_mm": 60}, {"x_mm": 900, "height_mm": 2},
             {"x_mm": 2000, "height_mm": 110}],
"stations_mm": [0, 1000, 2000]}},
{"name": "two", "input": {
"L_mm": 1900, "EI_Nmm2": [{"x0_mm": 0, "x1_mm": 1900, "EI": 3e8}], "distributed_load_N_per_mm": [],
"stress_free_curvature_per_mm": [], "point_loads": [{"x_mm": 950, "P_N": 50}],
"supports": [{"x_mm": 0, "height_mm": 0}, {"x_mm": 1900, "height_mm": 0}], "stations_mm": []}}
]}
"""


@pytest.fixture
def file(tmp_path):
    def write(text):
        path = tmp_path / "benches.json"
        path.write_bytes(text if isinstance(text, bytes) else text.encode())
        return path

    return write


@pytest.fixture
def faults(file):
    """The messages for GOOD after a change, the folder taken off and the line of the change as `@`."""

    def messages(*changes):
        text, line = GOOD, 0
        for old, new in changes:
            assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in the file"
            line = line or text[: text.index(old)].count("\n") + 1
            text = text.replace(old, new)
        path = file(text)
        with pytest.raises(BadInput) as bad:
            read_benches(path)
        seen = [str(fault) for fault in bad.value.faults]
        assert all(message.startswith(f"{path}:") for message in seen), seen
        return [message.removeprefix(f"{path}:").replace(f"{line}: ", "@: ", 1) for message in seen]

    return messages


def test_the_good_file_is_read_as_it_stands(file):
    benches = read_benches(file(GOOD))
    one, two = benches.cases
    assert (one.name, two.name) == ("one", "two")
    assert one.input.length_mm == 2000
    assert [(p.x0_mm, p.x1_mm, p.stiffness_n_mm2) for p in one.input.stiffness] == [(0, 900, 1e8), (900, 2000, 2e8)]
    assert [(p.load_start_n_mm, p.load_end_n_mm) for p in one.input.spread_loads] == [(0.03, 0.02), (0.02, 0.03)]
    assert one.input.free_curvature[1].curvature_start_per_mm == 1e-5
    assert one.input.point_loads[0].load_n == 10
    assert [(s.x_mm, s.height_mm) for s in one.input.supports] == [(0, 60), (900, 2), (2000, 110)]
    assert one.input.stations_mm == (0, 1000, 2000)
    assert [place.rpartition(":")[2] for place in benches.places] == ["2", "14"]


def test_remarks_may_stand_there_and_nobody_looks_at_them(file):
    given = json.loads(GOOD)
    given.update({key: {"any": ["thing", None, -1]} for key in REMARKS})
    for case in given["cases"]:
        case.update(why="so", expected={"heights_mm": "none"}, methods=[], agreement=3)
    assert [case.name for case in read_benches(file(json.dumps(given))).cases] == ["one", "two"]


@pytest.mark.parametrize("indent", [None, 1, "\t"])
def test_tabs_line_ends_and_one_long_line_are_no_matter(file, indent):
    text = json.dumps(json.loads(GOOD), indent=indent).replace("\n", "\r\n")
    assert len(read_benches(file(text)).cases) == 2


def test_a_big_file_is_read(file):
    given = json.loads(GOOD)
    given["cases"][0]["input"]["stations_mm"] = [place / 50 for place in range(100_000)]
    assert len(read_benches(file(json.dumps(given))).cases[0].input.stations_mm) == 100_000


APART = "no gap between pieces and no overlap"
NUMBER = "a number from -1000000 to 1000000"
FINITE = "a finite number like 0.5 or 1e8, text in double quotes, true, false or null"


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        # numbers
        ('"height_mm": 60', '"height_mm": "60"', f'supports[0].height_mm is the text "60"; allowed: {NUMBER}; try 60'),
        ('"height_mm": 60', '"height_mm": "6 cm"', f'supports[0].height_mm is the text "6 cm"; allowed: {NUMBER}'),
        ('"height_mm": 60', '"height_mm": NaN', f"supports[0].height_mm is NaN; allowed: {FINITE}"),
        ('"height_mm": 60', '"height_mm": -Infinity', f"supports[0].height_mm is -Infinity; allowed: {FINITE}"),
        ('"height_mm": 60', '"height_mm": 1e400', f"supports[0].height_mm is 1e400; allowed: {FINITE}"),
        ('"height_mm": 60', '"height_mm": .5', f"supports[0].height_mm is .5; allowed: {FINITE}; try 0.5"),
        ('"height_mm": 60', '"height_mm": null', f"supports[0].height_mm is null; allowed: {NUMBER}"),
        ('"height_mm": 60', '"height_mm": true', f"supports[0].height_mm is true; allowed: {NUMBER}"),
        ('"height_mm": 60', '"height_mm": [60]', f"supports[0].height_mm is a list; allowed: {NUMBER}"),
        ('"height_mm": 60', '"height_mm": {}', f"supports[0].height_mm is an object; allowed: {NUMBER}"),
        ('"height_mm": 60', '"height_mm": 1e9', f"supports[0].height_mm is 1000000000; allowed: {NUMBER}; try 1000000"),
        ('"L_mm": 2000', '"L_mm": 0', "L_mm is 0; allowed: a number from 0.001 to 1000000; try 0.001"),
        ('"EI": 1e8', '"EI": 0', "EI_Nmm2[0].EI is 0; allowed: a number from 0.001 to 1e+15; try 0.001"),
        ('"EI": 1e8', '"EI": -1e8', "EI_Nmm2[0].EI is -100000000; allowed: a number from 0.001 to 1e+15; try 0.001"),
        (
            '"EI": 1e8',
            '"EI": 1e1',
            "EI_Nmm2[1].EI is 200000000; allowed: at most 10000000 (1000000 times the softest piece); try 10000000",
        ),
        # lists and keys
        ("[0, 1000, 2000]", "1000", "stations_mm is 1000; allowed: a list of numbers"),
        (
            '[{"x_mm": 1000, "P_N": 10}]',
            "{}",
            "point_loads is an object; allowed: a list of objects, each with x_mm, P_N",
        ),
        ('{"x_mm": 1000, "P_N": 10}', "10", "point_loads[0] is 10; allowed: an object with x_mm, P_N"),
        (
            '"P_N": 10',
            '"P": 10',
            "the key cases[0].input.point_loads[0].P is not known; allowed: x_mm, P_N; try P_N",
        ),
        (
            '"stations_mm": [0',
            '"damping": 1,\n"stations_mm": [0',
            "the key cases[0].input.damping is not known; allowed: L_mm, EI_Nmm2, distributed_load_N_per_mm, "
            "point_loads, supports, stress_free_curvature_per_mm, stations_mm",
        ),
        (
            ', "P_N": 10',
            "",
            "point_loads[0].P_N is missing; allowed: a number from -1000000000 to 1000000000; try adding the key P_N",
        ),
        ('"w0": 0.03, ', "", f"distributed_load_N_per_mm[0].w0 is missing; allowed: {NUMBER}; try adding the key w0"),
        # places
        (
            '{"x_mm": 1000',
            '{"x_mm": 2500',
            "point_loads[0].x_mm is 2500; allowed: 0 to 2000 (the board is so long); try 2000",
        ),
        ("[0, 1000, 2000]", "[0, -1, 2000]", "stations_mm[1] is -1; allowed: 0 to 2000 (the board is so long); try 0"),
        (
            '{"x_mm": 900',
            '{"x_mm": 2000.1',
            "supports[1].x_mm is 2000.1; allowed: 0 to 2000 (the board is so long); try 2000",
        ),
        (
            '"x1_mm": 1900, "w0"',
            '"x1_mm": 2900, "w0"',
            "distributed_load_N_per_mm[1].x1_mm is 2900; allowed: 0 to 2000 (the board is so long); try 2000",
        ),
        # pieces
        (
            '{"x0_mm": 900, "x1_mm": 2000, "EI"',
            '{"x0_mm": 950, "x1_mm": 2000, "EI"',
            f"EI_Nmm2[1].x0_mm is 950; allowed: 900 (where EI_Nmm2[0] ends: {APART}); try 900",
        ),
        (
            '{"x0_mm": 900, "x1_mm": 2000, "EI"',
            '{"x0_mm": 850, "x1_mm": 2000, "EI"',
            f"EI_Nmm2[1].x0_mm is 850; allowed: 900 (where EI_Nmm2[0] ends: {APART}); try 900",
        ),
        (
            '{"x0_mm": 0, "x1_mm": 900, "EI"',
            '{"x0_mm": 5, "x1_mm": 900, "EI"',
            "EI_Nmm2[0].x0_mm is 5; allowed: 0 (the first piece begins at the tail); try 0",
        ),
        (
            '"x1_mm": 2000, "EI"',
            '"x1_mm": 1990, "EI"',
            "EI_Nmm2[1].x1_mm is 1990; allowed: 2000 (the last piece ends at L_mm); try 2000",
        ),
        (
            '"x1_mm": 2000, "EI"',
            '"x1_mm": 900, "EI"',
            "EI_Nmm2[1].x1_mm is 900; allowed: above x0_mm, which is 900; try 2000",
        ),
        (
            '{"x0_mm": 900, "x1_mm": 1900',
            '{"x0_mm": 899, "x1_mm": 1900',
            "distributed_load_N_per_mm[1].x0_mm is 899; allowed: at least 900 "
            "(where distributed_load_N_per_mm[0] ends: no overlap); try 900",
        ),
        (
            '{"x0_mm": 1500',
            '{"x0_mm": 999',
            "stress_free_curvature_per_mm[1].x0_mm is 999; allowed: at least 1000 "
            "(where stress_free_curvature_per_mm[0] ends: no overlap); try 1000",
        ),
        (
            '{"x0_mm": 1500, "x1_mm": 2000',
            '{"x0_mm": 1500, "x1_mm": 1400',
            "stress_free_curvature_per_mm[1].x1_mm is 1400; allowed: above x0_mm, which is 1500; try 2000",
        ),
        # names
        (
            '"name": "two"',
            '"name": "one"',
            'cases[1].name is "one", as cases[0].name is; allowed: each name once; try "one 2"',
        ),
        ('"name": "two"', '"name": 2', 'cases[1].name is 2; allowed: text of 1 to 200 characters; try "2"'),
        ('"name": "two"', '"name": ""', "cases[1].name is empty; allowed: text of 1 to 200 characters"),
        (
            '"name": "two"',
            '"name": "t\\u0007"',
            "cases[1].name is text with the character U+0007 in it; allowed: text without control characters; try t",
        ),
        (
            '"name": "two"',
            '"nam": "two"',
            "the key cases[1].nam is not known; allowed: name, input, why, expected, methods, agreement; try name",
        ),
    ],
)
def test_a_fault_tells_place_found_allowed_and_the_nearest_good_value(faults, old, new, message):
    (seen,) = faults((old, new))
    inside = message.startswith(("cases", "the key"))
    place, _, said = seen.partition(": ")
    assert said == (message if inside else f"cases[0].input.{message}")
    assert place == ("5" if "softest" in message else "@")


def test_a_board_without_supports_is_refused(faults):
    three = GOOD[GOOD.index('[{"x_mm": 0, "height_mm": 60}') : GOOD.index(',\n"stations_mm": [0')]
    (seen,) = faults((three, "[]"))
    assert seen == "@: cases[0].input.supports is a list of 0; allowed: at least 1 entry; try adding what is missing"


def test_five_hundred_supports_are_read_and_one_more_is_refused(file):
    given = json.loads(GOOD)
    supports = given["cases"][0]["input"]["supports"]
    supports += [{"x_mm": place, "height_mm": 0} for place in range(1, 498)]
    assert len(read_benches(file(json.dumps(given))).cases[0].input.supports) == 500
    supports.append({"x_mm": 1000, "height_mm": 0})
    with pytest.raises(BadInput, match=r"supports is a list of 501; allowed: at most 500 entries; try leaving out 1$"):
        read_benches(file(json.dumps(given)))


@pytest.mark.parametrize(("pull", "sum_n"), [("-50", "-3"), ("-47", "0")])
def test_loads_that_do_not_press_down_in_sum_are_refused(faults, pull, sum_n):
    """The spread loads are 900 mm × 0.025 N/mm + 1000 mm × 0.0245 N/mm = 47 N."""
    (seen,) = faults(('"w0": 0.02, "w1": 0.03', '"w0": 0.02, "w1": 0.029'), ('"P_N": 10', f'"P_N": {pull}'))
    assert f"cases[0].input is given loads that press down with {sum_n}" in seen


def test_all_faults_of_a_file_come_at_once(faults):
    seen = faults(
        ('"L_mm": 2000', '"L_mm": 2000, "colour": 1'),
        ('"EI": 1e8', '"EI": 0'),
        ('{"x_mm": 1000', '{"x_mm": 2500'),
        ('"height_mm": 60', '"height_mm": NaN'),
        ("[0, 1000, 2000]", "[0, 3000, 2000]"),
        ('"x1_mm": 1900, "EI"', '"x1_mm": 1800, "EI"'),
        ('"name": "two"', '"name": "one"'),
        ("]}}\n]}", ']}}\n], "more": 1}'),
    )
    assert [message.partition(": ")[2].partition(" is ")[0] for message in seen] == [
        "the key cases[0].input.colour",
        "cases[0].input.EI_Nmm2[0].EI",
        "cases[0].input.point_loads[0].x_mm",
        "cases[0].input.supports[0].height_mm",
        "cases[0].input.stations_mm[1]",
        "cases[1].name",
        "cases[1].input.EI_Nmm2[0].x1_mm",
        "the key more",
    ]


def test_the_faults_of_a_file_that_is_wrong_all_over_stay_few(file):
    given = json.loads(GOOD)
    given["cases"][0]["input"]["stations_mm"] = ["x"] * 500
    with pytest.raises(BadInput) as bad:
        read_benches(file(json.dumps(given)))
    assert len(bad.value.faults) == MOST_FAULTS + 1
    assert "the file is wrong in more places than these 100" in str(bad.value.faults[-1])


@pytest.mark.parametrize(
    "text",
    [
        '{"cases": [], ' + ",".join(f'"k{number}": 1' for number in range(60_000)) + "}",
        GOOD.replace("[0, 1000, 2000]", "[" + "-1," * 99_000 + "0]"),
        GOOD.replace("[0, 1000, 2000]", "[" + "NaN," * 99_000 + "0]"),
        GOOD.replace('"P_N": 10}', '"P_N": 10}' + ', {"x": 1}' * 30_000),
    ],
    ids=lambda text: repr(text[:20]),
)
def test_a_big_file_that_is_wrong_all_over_takes_no_time(file, text):
    path = file(text)
    begun = time.process_time()
    with pytest.raises(BadInput) as bad:
        read_benches(path)
    assert len(bad.value.faults) <= MOST_FAULTS + 1
    assert time.process_time() - begun < 10


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "1: the file is empty; allowed: an object with cases; try the example in the README"),
        ("\n \n", "1: the file is empty; allowed: an object with cases; try the example in the README"),
        ("[]", "1: the file is a list; allowed: an object with cases"),
        ("null", "1: the file is null; allowed: an object with cases"),
        ("{}", "1: cases is missing; allowed: a list of objects, each with name, input; try adding the key cases"),
        ('{"cases": {}}', "1: cases is an object; allowed: a list of objects, each with name, input"),
        ('{"cases":\n[]}', "1: cases is a list of 0; allowed: at least 1 entry; try adding what is missing"),
        (
            '{"cases": [{}]}',
            "1: cases[0].name is missing; allowed: text of 1 to 200 characters; try adding the key name",
        ),
        (
            "cases:\n  - name: one\n",
            "1: the file is not JSON here (column 1: cases:); allowed: an object in {} or a list in []",
        ),
        ("[" * 5000, "1: the file is nested deeper than 50; allowed: nesting of up to 50"),
        (b" " * 4 * 1024 * 1024 + b"{}", "1: the file is over 4 MiB long; allowed: up to 4 MiB; try two files"),
    ],
    ids=lambda text: repr(text[:20]),
)
def test_a_file_of_another_form_is_told(file, text, message):
    path = file(text)
    with pytest.raises(BadInput) as bad:
        read_benches(path)
    assert str(bad.value.faults[0]) == f"{path}:{message}"


@pytest.mark.parametrize(
    ("name", "problem"),
    [("", "not a file"), ("none.json", "not there"), ("n\0.json", "not there"), ("n" * 300, "not readable")],
)
def test_a_path_without_a_file_is_told(tmp_path, name, problem):
    with pytest.raises(BadInput) as bad:
        read_benches(tmp_path / name)
    (fault,) = bad.value.faults
    assert f": the file is {problem}" in str(fault)
    assert str(fault).isprintable()


def test_the_written_schema_is_current_and_takes_the_solved_cases():
    """Renew with: python -m generator schema"""
    schema = schemas()["bench-cases"]
    assert json.loads((DATA / "schema" / "bench-cases.json").read_text("utf-8")) == schema
    jsonschema.Draft202012Validator.check_schema(schema)
    checker = jsonschema.Draft202012Validator(schema)
    given = json.loads(SOLVED.read_text("utf-8"))
    checker.validate(given)
    for spoil in (
        lambda bench: bench.pop("supports"),
        lambda bench: bench.update(supports=[]),
        lambda bench: bench.update(extra=1),
        lambda bench: bench["EI_Nmm2"][0].update(EI=0),
        lambda bench: bench["stations_mm"].append("5"),
    ):
        spoilt = copy.deepcopy(given)
        spoil(spoilt["cases"][0]["input"])
        assert not checker.is_valid(spoilt)
