"""Thousands of broken files: whatever stands in them, the reader gives inputs or `BadInput`, and writes nothing."""

import shutil
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from generator.inputs.board import Board
from generator.inputs.board_checks import board_faults
from generator.inputs.builder import Builder
from generator.inputs.builder_checks import builder_faults
from generator.inputs.fault import BadInput
from generator.inputs.fit import fit
from generator.inputs.maker import Maker
from generator.inputs.maker_checks import maker_faults
from generator.inputs.read import read_document
from generator.inputs.site import read_builder, read_site

DATA = Path(__file__).resolve().parents[2] / "site_data"
DEMO = {
    path.relative_to(DATA).as_posix(): path.read_bytes()
    for path in sorted([*DATA.glob("boards/*.yaml"), *DATA.glob("builders/*.yaml"), DATA / "maker.yaml"])
}
SITE = read_site(DATA)
ROUGH = settings(deadline=None, derandomize=True, suppress_health_check=list(HealthCheck), max_examples=1000)

HOSTILE = (
    b"&a ", b"*a", b"!!python/object/apply:os.system ", b"!x ", b"<<: ", b"? ", b"- ", b"---\n", b"...\n",
    b"%YAML 9.9\n", b"{", b"}", b"[", b"]", b"|", b">", b"'", b'"', b"\\", b'"\\U00110000"', b'"\\ud800"',
    b'"\\x00"', b"#", b"\t", b"\r", b"\x00", b"\xff", b"\xc3\x28", b"\xef\xbb\xbf", b"\xe2\x80\xa8",
    b"\xe2\x80\xae", b": ", b":", b",", b"\n", b"\n\n   ", b"~", b"null", b"true", b"no", b".nan", b"-.inf",
    b"1e999", b"9:30", b"010", b"0x_", b"2026-13-45", b"1,5", b"1_000", b"9" * 50, b"9" * 5000, b"-1", b"0",
    b"1/0 in", b"9 ft 14 in", b"\xd9\xa3", b"[" * 60, b"{a: " * 60, b"x" * 5000, b"<script>", b"a: &a [*a]\n",
    b"[1, 2, 3]", b"{x: 1}",
)  # fmt: skip


def check(name, raw):
    """All that reading one file does, short of the other files; the faults are as useful as they should be."""
    try:
        document = read_document(raw, name)
        if name.startswith("boards"):
            fitted = fit(Board, document)
            faults = [*fitted.faults, *board_faults(fitted, ())]
        elif name.startswith("builders"):
            fitted = fit(Builder, document)
            board = SITE.boards["dunlin"]
            faults = [*fitted.faults, *builder_faults(fitted, board, board_slugs=("dunlin",), tools=(), rules=None)]
        else:
            fitted = fit(Maker, document)
            faults = [*fitted.faults, *maker_faults(fitted)]
        assert (fitted.model is None) == bool(fitted.faults)
    except BadInput as bad:
        faults = bad.faults
        assert faults
    for fault in faults:
        assert fault.place.startswith(f"{name}:")
        assert 1 <= int(fault.place.rpartition(":")[2]) <= raw.count(b"\n") + 2
        assert str(fault).isprintable()
        assert len(str(fault)) < 2000


@st.composite
def broken(draw):
    """A demo file after one to six changes: cuts, insertions, swapped and repeated lines, other values."""
    name = draw(st.sampled_from(sorted(DEMO)))
    raw = DEMO[name]
    for _ in range(draw(st.integers(1, 6))):
        how = draw(st.sampled_from(["cut", "put", "bytes", "swap", "again", "drop", "value", "key", "indent"]))
        if how in {"cut", "put", "bytes"}:
            at = draw(st.integers(0, len(raw)))
            to = at + (draw(st.integers(0, 40)) if how == "cut" else 0)
            new = {"cut": b"", "put": draw(st.sampled_from(HOSTILE)), "bytes": draw(st.binary(max_size=8))}[how]
            raw = raw[:at] + new + raw[to:]
        else:
            raw = _with_line_changed(draw, raw, how)
    return name, raw


def _with_line_changed(draw, raw, how):
    lines = raw.split(b"\n")
    at, other = (draw(st.integers(0, len(lines) - 1)) for _ in range(2))
    key, colon, _ = lines[at].partition(b":")
    if how == "swap":
        lines[at], lines[other] = lines[other], lines[at]
    elif how == "again":
        lines.insert(other, lines[at])
    elif how == "drop":
        del lines[at]
    elif how == "value":
        lines[at] = key + colon + b" " + draw(st.sampled_from(HOSTILE))
    elif how == "key":
        lines[at] = lines[at].replace(b"e", draw(st.sampled_from([b"", b"ee", b"E", b" "])), 1)
    else:
        lines[at] = b" " * draw(st.integers(0, 5)) + lines[at].lstrip()
    return b"\n".join(lines)


@ROUGH
@given(broken())
def test_a_broken_demo_file_gives_faults_and_never_a_traceback(case):
    check(*case)


@ROUGH
@given(st.sampled_from(sorted(DEMO)), st.lists(st.sampled_from(HOSTILE), max_size=40))
def test_a_file_of_hostile_pieces_gives_faults(name, pieces):
    check(name, b"".join(pieces))


@ROUGH
@given(st.sampled_from(sorted(DEMO)), st.one_of(st.binary(max_size=300), st.text(max_size=300).map(str.encode)))
def test_a_file_of_any_bytes_gives_faults(name, raw):
    check(name, raw)


KEYS = sorted({line.split(b":")[0].strip(b" -").decode() for raw in DEMO.values() for line in raw.split(b"\n")} - {""})
PLAIN = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(-(10**6), 10**6),
    st.sampled_from(["6 mm", "1 in", "x", "", "round", "5 lb", "D3"]),
)
TREES = st.recursive(
    PLAIN,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.sampled_from(KEYS), inner, max_size=5),
    max_leaves=12,
)


def flow(value):
    """A value in YAML's flow style."""
    if isinstance(value, dict):
        return "{" + ", ".join(f'"{key}": {flow(inner)}' for key, inner in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(flow, value)) + "]"
    return (
        {None: "~", True: "true", False: "false"}.get(value, f'"{value}"')
        if not isinstance(value, int)
        else str(value).lower()
    )


@settings(ROUGH, max_examples=200)
@given(st.sampled_from(sorted(DEMO)), st.data())
def test_any_value_in_the_place_of_a_good_one_gives_faults(name, data):
    document = read_document(DEMO[name], name).data
    group, key = document, None
    for _ in range(data.draw(st.integers(1, 4))):
        group = group[key] if key is not None else group
        key = data.draw(st.sampled_from(sorted(group) if isinstance(group, dict) else range(len(group))))
        if not isinstance(group[key], dict | list) or not group[key]:
            break
    group[key] = data.draw(TREES)
    check(name, flow(document).encode())


@pytest.mark.parametrize("name", sorted(DEMO))
def test_a_demo_file_cut_anywhere_gives_faults(name):
    raw = DEMO[name]
    for end in range(0, len(raw), max(1, len(raw) // 30)):
        check(name, raw[:end])


@pytest.mark.parametrize("piece", HOSTILE, ids=lambda piece: repr(piece[:12]))
def test_a_file_filled_to_the_limit_with_one_piece_gives_faults(piece):
    check("maker.yaml", (piece * (64 * 1024 // len(piece)))[: 64 * 1024])
    check("maker.yaml", b"name: " + (piece * (64 * 1024 // len(piece)))[: 63 * 1024])


@settings(ROUGH, max_examples=25)
@given(case=broken())
def test_reading_a_broken_folder_writes_nothing(tmp_path_factory, case):
    name, raw = case
    folder = tmp_path_factory.mktemp("data", numbered=True) / "data"
    shutil.copytree(DATA, folder)
    (folder / name).write_bytes(raw)
    before = {path: path.stat().st_mtime_ns for path in sorted(folder.rglob("*"))}
    for builder in ("mara", "ines"):
        try:
            read_builder(folder, builder)
        except BadInput as bad:
            assert bad.faults  # noqa: PT017
    assert {path: path.stat().st_mtime_ns for path in sorted(folder.rglob("*"))} == before
    shutil.rmtree(folder)
