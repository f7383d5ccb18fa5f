"""The tuning place's scripts in Node, by its own test runner: equal to the generator's sums on the same inputs.

Node comes with Playwright, so nothing more is needed. `bench.test.js` holds the checks, this file makes the cases.
"""

import json
import subprocess
import sys
from pathlib import Path

import numpy as np
import playwright
import pytest

HERE = Path(__file__).resolve().parent
ROOT = HERE.parents[1]
sys.path.insert(0, str(ROOT / "tests" / "bench"))

from test_readings import fair, hollows, places, taped  # noqa: E402

from generator.bench.case import beam_of  # noqa: E402
from generator.bench.correction import best_correction  # noqa: E402
from generator.bench.readings import curve_from_readings  # noqa: E402
from generator.bench.replay import prepared, settled  # noqa: E402
from generator.bench.straight_edge import deepest_hollow  # noqa: E402
from generator.bench.tops import Top  # noqa: E402
from generator.bench.what_if import what_if  # noqa: E402
from generator.figure_sets import work_out  # noqa: E402
from generator.figure_sets.bench_data import NAME, add_bench_data, shims_held  # noqa: E402
from generator.figures import Figure, FigureBook, Kind  # noqa: E402
from generator.inputs.bench_file import read_benches  # noqa: E402
from generator.inputs.site import builder_slugs, read_builder  # noqa: E402
from generator.shown import show, show_exact  # noqa: E402

NODE = Path(playwright.__file__).parent / "driver" / ("node.exe" if sys.platform == "win32" else "node")
PUBLISHED = ROOT / "tests" / "published" / "data" / "bench_cases.json"
LAID, READ, FIXED = 30, 60, 5


def demo_benches():
    """Each demo builder's bench as its page gets it, and what its stacks hold."""
    for slug in builder_slugs(ROOT / "site_data"):
        facts, book = work_out(read_builder(ROOT / "site_data", slug)), FigureBook()
        add_bench_data(book, facts)
        yield slug, book.data[NAME], shims_held(facts)


def laid(rng, benches):
    """Random shims and weights, small and large, and what the generator's replay says."""
    for slug, bench in benches.items():
        ready, none = prepared(bench), [0.0] * len(bench["weights"]["node"])
        before = [gap > 0 for gap in settled(ready, shims_mm=[0] * 4, weights_n=none)["gaps_mm"]]
        for number in range(LAID):
            shims = (rng.uniform(-1, 1, 4) * rng.choice([2, 8, 12])).round(3).tolist()
            weights = np.zeros(len(none))
            weights[rng.choice(len(none), 2, replace=False)] = rng.uniform(-15, 60, 2)
            told = settled(ready, shims_mm=shims, weights_n=weights.tolist())
            yield {
                "bench": slug,
                "shims_mm": shims,
                "weights_n": weights.tolist(),
                "told": told,
                "other_contact": number > 0 and before != [gap > 0 for gap in told.get("gaps_mm", [])],
            }


def published():
    """Benches solved elsewhere as data for a page: a support is a top without width, a station a place for weights.

    A bench that tips over is laid on two more supports, and those are taken away again.
    """
    expected = {case["name"]: case["expected"] for case in json.loads(PUBLISHED.read_text("utf-8"))["cases"]}
    for case in read_benches(PUBLISHED).cases:
        given = case.input
        tops = [Top(s.x_mm, s.x_mm, s.height_mm) for s in given.supports]
        tips = expected[case.name]["status"] == "tips_over"
        ends = [Top(x, x, -9999.0) for x in (0.0, given.length_mm)] if tips else []
        bench = what_if(
            beam=beam_of(given),
            glued_n_mm2=beam_of(given).stiffness_n_mm2,
            tops=[*tops, *ends],
            weight_kinds=[],
            placed=[],
            weight_places_mm=given.stations_mm,
            wanted_mm=lambda x: 0 * np.asarray(x),
            line=(0.0, 0.0),
            shims=[],
            low_point_mm=given.length_mm / 2,
        )
        keep = [i for i, s in enumerate(bench["touch"]["support"]) if s < len(tops)]
        bench["touch"] = {name: [values[i] for i in keep] for name, values in bench["touch"].items()}
        bench["supports"] = bench["supports"][: len(tops)]
        tolerances = {"mm": 0.02, "n": 0.05}
        yield {"name": case.name, "bench": bench, "expected": expected[case.name], "tolerances": tolerances}


def read(rng):
    """Fair boards, slips, hollows and both, as `tests/bench/test_readings.py` draws them."""
    for number in range(READ):
        hollow = number % 2 == 0
        board = hollows()[number // 2][0] if hollow else fair(rng)
        x = places(rng, board, int(rng.integers(7, 14)))
        slip = int(rng.integers(1, x.size - 1)) if number % 4 > 1 else None
        yield case_of(x, taped(rng, board, x, slip_at=slip), board.length_mm, truly_hollow=hollow)
    yield case_of(np.linspace(0, 2300, 10), np.array([0, 30] * 4 + [3, 31]), 2300.0, truly_hollow=False)


def case_of(x, heights, length, *, truly_hollow):
    told = curve_from_readings(x, heights, length_mm=length)
    return {
        "x_mm": x.tolist(),
        "read_mm": heights.tolist(),
        "length_mm": length,
        "truly_hollow": truly_hollow,
        "verdict": told.verdict,
        "misread": [[one.index, one.expected_mm] for one in told.misread],
        "hollows": [[one.from_mm, one.to_mm, one.deepest_mm, one.at_mm] for one in told.hollows],
        "heights_mm": told.heights_mm.tolist(),
    }


def fixed(rng, benches, held):
    """Boards read with a tape on supports that are out, and the generator's correction."""
    for slug, bench in benches.items():
        ready, nodes = prepared(bench), bench["nodes"]["x_mm"]
        x = np.array([0.0, *(nodes[i] for i in bench["weights"]["node"]), bench["length_mm"]])
        for number in range(FIXED):
            out, moved = rng.uniform(-6, 6, 4), rng.choice([0.0, 2.0], 4)
            weights = np.zeros(x.size - 2)
            weights[number % weights.size] = 10.0 * (number % 2)
            told = settled(ready, shims_mm=(out + moved).tolist(), weights_n=weights.tolist())
            heights = np.interp(x, nodes, told["node_heights_mm"]) + rng.normal(0, 0.4, x.size)
            own = [[n + int(rng.integers(0, 2)) for n in one] for one in held[slug]]
            fix = best_correction(bench, x_mm=x, read_mm=heights, held=own, shims_mm=moved, weights_n=weights.tolist())
            yield {
                "bench": slug,
                "x_mm": x.tolist(),
                "read_mm": heights.tolist(),
                "held": own,
                "shims_mm": moved.tolist(),
                "weights_n": weights.tolist(),
                "moves": [[m.support, m.change_mm, m.pieces] for m in fix.moves],
                "before_mm": fix.before_mm,
                "after_mm": fix.after_mm,
                "lift_mm": fix.lift_mm,
                "turn_mm": fix.turn_mm,
                "expected_mm": fix.expected_mm.tolist(),
                "loads_n": fix.loads_n,
            }


def edges(rng):
    """Wavy bottoms under straight edges of several lengths."""
    for _ in range(12):
        length, edge = rng.uniform(1500, 3000), rng.uniform(200, 900)
        x = np.linspace(0, length, 60)
        y = 1e-4 * (x - length / 2) ** 2 + rng.uniform(0, 6) * np.sin(x / rng.uniform(80, 300))
        told = deepest_hollow(lambda at, x=x, y=y: np.interp(at, x, y), length_mm=length, edge_mm=edge)
        yield {"x_mm": x.tolist(), "heights_mm": y.tolist(), "edge_mm": edge, "told": told}


def lengths(rng):
    for mm in [
        0.0,
        0.3,
        1.0,
        -0.5,
        12.7,
        25.4,
        204.0,
        2743.2,
        *rng.uniform(-20, 400, 150).round(3).tolist(),
        *rng.uniform(400, 3000, 50).tolist(),
    ]:
        for step in (0.5, 0.1, 10.0) if mm >= 0 else (0.5,):
            figure = Figure("one", mm, "mm", "one", "", Kind.MEASURED, "", mm, mm, step)
            yield mm, step, show(figure, "metric"), show(figure, "inches"), show_exact(figure, "inches")


IN = 25.4
TYPED = [
    ("187", "mm", 187),
    (" 187.5 ", "mm", 187.5),
    ("187,5", "mm", 187.5),
    ("18.7 cm", "mm", 187),
    ("187 mm", "in", 187),
    ("11/16", "in", 11 / 16 * IN),
    ("0.69", "in", 0.69 * IN),
    (".69", "in", 0.69 * IN),
    ("7 3/8", "in", 7.375 * IN),
    ("7-3/8", "in", 7.375 * IN),
    ('7 3/8"', "in", 7.375 * IN),
    ("7.38 in", "mm", 7.38 * IN),
    ("8 11/16 in", "in", 8.6875 * IN),
    *((text, "mm", None) for text in ("", " ", "1e3", "1.2.3", "1/0", "7 8", "7 9/8", "<b>1</b>", "NaN", "9" * 30)),
]


TIPS = "the first two supports only"


def on_two_supports(bench):
    """The same bench with its first two supports only: the board tips over."""
    keep = [i for i, support in enumerate(bench["touch"]["support"]) if support < 2]
    touch = {name: [values[i] for i in keep] for name, values in bench["touch"].items()}
    return {**bench, "supports": bench["supports"][:2], "touch": touch}


def tipping(bench):
    none = [0.0] * len(bench["weights"]["node"])
    told = settled(prepared(bench), shims_mm=[0, 0], weights_n=none)
    yield {"bench": TIPS, "shims_mm": [0, 0], "weights_n": none, "told": told, "other_contact": False}


@pytest.fixture(scope="module")
def cases(tmp_path_factory):
    rng = np.random.default_rng(91)
    demos = list(demo_benches())
    benches, held = ({slug: one[i] for slug, *one in demos} for i in (0, 1))
    tips = on_two_supports(next(iter(benches.values())))
    made = {
        "benches": {**benches, TIPS: tips},
        "laid": [*laid(rng, benches), *tipping(tips)],
        "published": list(published()),
        "read": list(read(rng)),
        "fixed": list(fixed(rng, benches, held)),
        "edges": list(edges(rng)),
        "lengths": list(lengths(rng)),
        "typed": TYPED,
    }
    file = tmp_path_factory.mktemp("node") / "cases.json"
    file.write_text(json.dumps(made), "utf-8")
    return file


def test_the_scripts_say_what_the_sums_say(cases):
    run = subprocess.run(
        [str(NODE), "--test", "--test-reporter=spec", str(HERE / "bench.test.js")],
        env={"SHEDBOOK_CASES": str(cases)},
        capture_output=True,
        text=True,
        timeout=120,
    )
    assert run.returncode == 0, run.stdout[-6000:] + run.stderr[-2000:]
    assert "fail 0" in run.stdout
    assert "skipped 0" in run.stdout
