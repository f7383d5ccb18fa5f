"""Hundreds of broken bench files through the command: solved or refused in words, and never a traceback."""

import contextlib
import io
import json
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from generator.cli import main

GOOD = (Path(__file__).parents[1] / "published" / "data" / "bench_cases.json").read_bytes()
SHORT = json.dumps({"cases": [json.loads(GOOD)["cases"][1], json.loads(GOOD)["cases"][5]]}).encode()
ROUGH = settings(deadline=None, derandomize=True, suppress_health_check=list(HealthCheck), max_examples=250)

HOSTILE = (
    b"{", b"}", b"[", b"]", b'"', b"\\", b"\\u0000", b"\\ud800", b":", b",", b",,", b"\n", b"\t", b"\r", b"\x00",
    b"\xff", b"\xef\xbb\xbf", b"\xc2\xa0", b"\xe2\x80\xae", b"NaN", b"-Infinity", b"1e999", b"1e308", b"-1e308",
    b"1e-320", b".nan", b"-", b"0", b"-1", b"1e", b"0x10", b"9" * 50, b"9" * 5000, b"true", b"null", b'"x"', b"[]",
    b"{}", b"[" * 60, b'{"a":' * 60, b"'", b"//", b"# ", b"&a ", b"!!python/object:x ", b'"name": "a", ',
    b'"supports": [], ', b'"__proto__": 1, ', b"e9", b"00", b".",
)  # fmt: skip


@pytest.fixture(scope="module")
def path(tmp_path_factory):
    return tmp_path_factory.mktemp("benches") / "x.json"


def check(path, raw):
    """The command's exit code is 0 with JSON, or 2 with one line for each fault and nothing else."""
    path.write_bytes(raw)
    out, err = io.StringIO(), io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        code = main(["bench", str(path)])
    if code == 0:
        assert err.getvalue() == ""
        cases = json.loads(out.getvalue(), parse_constant=lambda word: pytest.fail(f"{word} in the answer"))["cases"]
        assert {case["status"] for case in cases} <= {"ok", "tips_over"}
        return
    assert code == 2
    assert out.getvalue() == ""
    lines = err.getvalue().splitlines()
    assert 1 <= len(lines) <= 101
    for line in lines:
        number, _, words = line.removeprefix(f"{path}:").partition(": ")
        assert 1 <= int(number) <= raw.count(b"\n") + 1
        assert words.isprintable()
        assert " is " in words
        assert "; allowed: " in words
        assert len(words) < 1000


@st.composite
def broken(draw):
    """A good file after one to five changes: cuts, insertions, swapped and repeated lines, other numbers."""
    raw = draw(st.sampled_from([GOOD, SHORT]))
    for _ in range(draw(st.integers(1, 5))):
        how = draw(st.sampled_from(["cut", "put", "bytes", "swap", "again", "drop", "value"]))
        at = draw(st.integers(0, len(raw)))
        if how in {"cut", "put", "bytes"}:
            to = at + (draw(st.integers(0, 40)) if how == "cut" else 0)
            new = {"cut": b"", "put": draw(st.sampled_from(HOSTILE)), "bytes": draw(st.binary(max_size=8))}[how]
            raw = raw[:at] + new + raw[to:]
        else:
            parts = raw.split(b",")
            at, other = (draw(st.integers(0, len(parts) - 1)) for _ in range(2))
            if how == "swap":
                parts[at], parts[other] = parts[other], parts[at]
            elif how == "again":
                parts.insert(other, parts[at])
            elif how == "drop":
                del parts[at]
            else:
                parts[at] = parts[at].rpartition(b":")[0] + b": " + draw(st.sampled_from(HOSTILE))
            raw = b",".join(parts)
    return raw


@ROUGH
@given(raw=broken())
def test_a_broken_file_is_solved_or_refused_in_words(path, raw):
    check(path, raw)


@ROUGH
@given(raw=st.one_of(st.binary(max_size=200), st.lists(st.sampled_from(HOSTILE), max_size=40).map(b"".join)))
def test_any_bytes_are_refused_in_words(path, raw):
    check(path, raw)


NUMBERS = st.one_of(
    st.integers(-3000, 3000),
    st.floats(allow_nan=False, allow_infinity=False),
    st.sampled_from([0, -0.0, 1e-3, 1e6, 1e15, 1e-9, 1e9, 2000, 2000.0000001, 5e-324]),
)
ANYTHING = st.one_of(
    st.none(),
    st.booleans(),
    NUMBERS,
    st.text(max_size=5),
    st.lists(NUMBERS, max_size=3),
    st.just({}),
    st.just("\ud800"),
)


@settings(ROUGH, max_examples=400)
@given(data=st.data())
def test_any_value_in_the_place_of_a_good_one_is_solved_or_refused_in_words(path, data):
    """Mostly numbers for numbers, so that many get past the reader and into the sums."""
    document = json.loads(SHORT)
    for _ in range(data.draw(st.integers(1, 4))):
        group, key = document, "cases"
        while isinstance(group[key], dict | list) and group[key] and data.draw(st.integers(0, 9)):
            group = group[key]
            key = data.draw(st.sampled_from(sorted(group) if isinstance(group, dict) else range(len(group))))
        number = isinstance(group[key], int | float)
        group[key] = data.draw(NUMBERS if number else ANYTHING)
        if not isinstance(document["cases"], list) or not document["cases"]:
            break
    check(path, json.dumps(document).encode())


@pytest.mark.parametrize("raw", [GOOD, SHORT], ids=["many lines", "one line"])
def test_a_file_cut_anywhere_is_refused_in_words(path, raw):
    for end in range(0, len(raw) - 2, max(1, len(raw) // 60)):
        check(path, raw[:end])
