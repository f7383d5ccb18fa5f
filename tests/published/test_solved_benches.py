"""Benches solved elsewhere: data/bench_cases.json, through the command that anyone can run.

Each case there was solved by three programs of other kinds (a force method with a search over all contact sets, Hermite
finite elements with a search of their own, and a general frame program held at the found contacts), some by a closed
form too. They agree to 2e-8 mm. Tolerances are the file's own: it prints 4 decimals of a millimetre.
"""

import contextlib
import io
import json
from pathlib import Path

import pytest

from generator.cli import main

FILE = Path(__file__).parent / "data" / "bench_cases.json"
CASES = json.loads(FILE.read_text(encoding="utf-8"))["cases"]


@pytest.fixture(scope="module")
def answers():
    out = io.StringIO()
    with contextlib.redirect_stdout(out):
        assert main(["bench", str(FILE)]) == 0
    return json.loads(out.getvalue())["cases"]


def test_every_case_is_answered_in_the_order_of_the_file(answers):
    assert [answer["name"] for answer in answers] == [case["name"] for case in CASES]


@pytest.mark.parametrize("number", range(len(CASES)), ids=lambda number: CASES[number]["name"])
def test_the_bench_lies_as_it_was_solved_elsewhere(answers, number):
    answer, expected = answers[number], CASES[number]["expected"]
    assert set(answer) == {"name", *expected} - {"closed_form"}
    assert answer["status"] == expected["status"]
    assert answer["total_load_N"] == pytest.approx(expected["total_load_N"], abs=1e-4)
    if answer["status"] == "tips_over":
        assert answer["resultant_x_mm"] == pytest.approx(expected["resultant_x_mm"], abs=1e-3)
        return
    assert answer["heights_mm"] == pytest.approx(expected["heights_mm"], abs=0.02)
    assert answer["curvature_per_mm"] == pytest.approx(expected["curvature_per_mm"], rel=5e-3, abs=5e-8)
    assert answer["reactions_N"] == pytest.approx(expected["reactions_N"], rel=2e-3, abs=0.05)
    assert answer["gaps_mm"] == pytest.approx(expected["gaps_mm"], abs=0.02)
    assert answer["open_supports"] == expected["open_supports"]
    assert answer["min_curvature_per_mm"] == pytest.approx(expected["min_curvature_per_mm"], rel=5e-3, abs=5e-8)
    if expected["min_curvature_at_mm"] is None:
        assert answer["min_curvature_at_mm"] is None
    else:
        assert answer["min_curvature_at_mm"] == pytest.approx(expected["min_curvature_at_mm"], abs=0.5)
