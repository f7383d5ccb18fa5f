// The scripts of the tuning place against what the generator's own sums gave for the same inputs.
// Run by test_in_node.py, which writes the cases; alone: SHEDBOOK_CASES=cases.json node --test tests/node
"use strict";
const assert = require("node:assert/strict");
const fs = require("node:fs");
const path = require("node:path");
const test = require("node:test");

const assets = path.join(__dirname, "../../guide_src/assets");
globalThis.window = { shed: {} };
for (const name of ["bench-solve.js", "bench-advice.js", "bench-words.js", "typed.js"]) require(path.join(assets, name));
const { benchSolve, benchAdvice, benchWords } = globalThis;
const cases = JSON.parse(fs.readFileSync(process.env.SHEDBOOK_CASES, "utf8"));

const near = (got, want, by, what) =>
  assert.ok(Math.abs(got - want) <= by, `${what}: ${got} instead of ${want}`);
const allNear = (got, want, by, what) => {
  assert.equal(got.length, want.length, what);
  want.forEach((value, i) => near(got[i], value, by, `${what} ${i}`));
};

test("the board lies as the generator lays it, whatever bears", () => {
  let other = 0;
  for (const one of cases.laid) {
    const told = benchSolve.settled(benchSolve.prepared(cases.benches[one.bench]), one.shims_mm, one.weights_n);
    const want = one.told;
    assert.equal(told.status, want.status);
    near(told.balanceMm, want.balance_x_mm, 1e-6, "balance");
    if (want.status !== "ok") continue;
    other += one.other_contact;
    allNear(told.nodeHeightsMm, want.node_heights_mm, 1e-6, "height");
    allNear(told.heightsMm, want.heights_mm, 1e-6, "height at a station");
    allNear(told.releasedMm, want.released_mm, 1e-6, "released");
    allNear(told.loadsN, want.loads_n, 1e-6, "load");
    allNear(told.gapsMm, want.gaps_mm, 1e-6, "gap");
    want.touch_x_mm.forEach((at, s) => (at === null ? assert.equal(told.touchMm[s], null) : near(told.touchMm[s], at, 1e-4, "touch")));
    near(told.leastPerMm, want.least_curvature_per_mm, 1e-12, "least curvature");
    allNear(told.inverted.flat(), want.inverted.flat(), 1e-4, "inverted");
  }
  assert.ok(other >= cases.laid.length / 4, `only ${other} of ${cases.laid.length} change what bears`);
  assert.ok(cases.laid.some((one) => one.told.status !== "ok"), "none tips over");
  assert.ok(cases.laid.some((one) => one.told.inverted?.length), "none is hollow");
});

test("benches solved elsewhere come out as printed", () => {
  for (const { name, bench, expected, tolerances } of cases.published) {
    const told = benchSolve.settled(benchSolve.prepared(bench), bench.supports.map(() => 0), bench.weights.node.map(() => 0));
    assert.equal(told.status === "ok" ? "ok" : "tips_over", expected.status, name);
    near(told.totalN, expected.total_load_N, 1e-3, name);
    if (told.status !== "ok") {
      near(told.balanceMm, expected.resultant_x_mm, 1e-2, name);
      continue;
    }
    const at = bench.weights.node.map((i) => told.nodeHeightsMm[i]);
    allNear(at, expected.heights_mm, tolerances.mm, name);
    expected.reactions_N.forEach((load, s) => near(told.loadsN[s], load, Math.max(tolerances.n, 2e-3 * load), name));
    allNear(told.gapsMm, expected.gaps_mm, tolerances.mm, name);
    assert.deepEqual(told.loadsN.flatMap((load, s) => (load > 0 ? [] : [s])), expected.open_supports, name);
  }
});

test("readings are judged as the generator judges them: misread, hollow, both, fair or unclear", () => {
  const seen = new Set();
  for (const one of cases.read) {
    const told = benchAdvice.curveFromReadings(one.x_mm, one.read_mm, one.length_mm);
    seen.add(one.verdict);
    assert.equal(told.verdict, one.verdict);
    assert.deepEqual(told.misread.map(({ index }) => index), one.misread.map(([index]) => index));
    allNear(told.misread.map(({ expectedMm }) => expectedMm), one.misread.map(([, mm]) => mm), 1e-6, "expected");
    allNear(told.hollows.flatMap((h) => [h.fromMm, h.toMm, h.deepMm, h.atMm]), one.hollows.flat(), 1e-6, "hollow");
    allNear(told.heightsMm, one.heights_mm, 1e-6, "curve");
  }
  assert.deepEqual([...seen].sort(), ["both", "fair", "hollow", "misread", "unclear"]);
});

test("no board with a true hollow is called fair", () => {
  const hollow = cases.read.filter((one) => one.truly_hollow);
  assert.ok(hollow.length >= 20);
  const fair = hollow.filter((one) => benchAdvice.curveFromReadings(one.x_mm, one.read_mm, one.length_mm).verdict === "fair");
  assert.equal(fair.length, 0);
});

test("readings that make no sense are refused", () => {
  for (const [x, read] of [
    [[0, 1, 2, 3], [1, 1, 1, 1]], [[0, 1, 1, 2, 3], [1, 1, 1, 1, 1]], [[0, 1, 2, 3, 11], [1, 1, 1, 1, 1]],
    [[0, 1, 2, 3, 4], [1, 1, NaN, 1, 1]], [[0, 1, 2, 3, 4], [1, 1, 1, 1]],
  ]) assert.throws(() => benchAdvice.curveFromReadings(x, read, 10), RangeError);
});

test("the same shims are asked for, from one stock", () => {
  let moved = 0;
  for (const one of cases.fixed) {
    const fix = benchAdvice.bestCorrection(benchSolve.prepared(cases.benches[one.bench]), {
      xMm: one.x_mm, readMm: one.read_mm, held: one.held, shimsMm: one.shims_mm, weightsN: one.weights_n,
    });
    const moves = fix.moves.map(({ support, changeMm, pieces }) => [support, changeMm, pieces.map(({ kind, count }) => [kind, count])]);
    assert.deepEqual(moves, one.moves);
    moved += moves.length;
    near(fix.beforeMm, one.before_mm, 1e-6, "before");
    near(fix.afterMm, one.after_mm, 1e-6, "after");
    near(fix.liftMm, one.lift_mm, 1e-6, "lift");
    near(fix.turnMm, one.turn_mm, 1e-6, "turn");
    allNear(fix.expectedMm, one.expected_mm, 1e-6, "expected");
    allNear(fix.loadsN, one.loads_n, 1e-5, "load");
  }
  assert.ok(moved > cases.fixed.length);
});

test("a straight edge shows as deep a hollow", () => {
  for (const { x_mm: x, heights_mm: heights, edge_mm: edge, told } of cases.edges) {
    const [deep, at] = benchAdvice.deepestHollow((place) => benchSolve.read(x, heights, place), x[x.length - 1], edge);
    near(deep, told[0], 1e-9, "deep");
    near(at, told[1], 1e-6, "place");
  }
});

test("lengths read as on the page", () => {
  for (const [mm, step, metric, inches, exact] of cases.lengths) {
    assert.equal(benchWords.length(mm, "metric", step), metric);
    assert.equal(benchWords.length(mm, "inches", step), inches);
    assert.equal(benchWords.thin(mm, "inches"), exact);
  }
});

test("heights are read as people type them, and nothing else is taken for one", () => {
  for (const [text, unit, mm] of cases.typed) {
    const got = window.shed.typed.read(text, "length", unit);
    if (mm === null) assert.ok(got === null || got.error, text);
    else near(got?.value ?? NaN, mm, 1e-9, text);
  }
});

test("a pausing correction comes to the same end", () => {
  const one = cases.fixed[0];
  const run = benchAdvice.correcting(benchSolve.prepared(cases.benches[one.bench]), {
    xMm: one.x_mm, readMm: one.read_mm, held: one.held, shimsMm: one.shims_mm, weightsN: one.weights_n,
  });
  let pauses = 0, step = run.next();
  for (; !step.done; step = run.next()) pauses += 1;
  assert.ok(pauses >= 4);
  near(step.value.afterMm, one.after_mm, 1e-6, "after");
});
