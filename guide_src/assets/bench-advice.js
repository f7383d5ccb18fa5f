// What heights read with a tape say, and which shims bring the bottom nearest: the generator's `readings` and
// `correction` over again, with the same stories, costs and limits, so that page and guide never say two things.
"use strict";
globalThis.benchAdvice = (() => {
  const { prepared, settled, read: readAt } = globalThis.benchSolve;

  // ---- small sums -------------------------------------------------------------------------------------------------

  const sum = (list) => list.reduce((a, b) => a + b, 0);
  const largest = (list) => list.reduce((most, one) => Math.max(most, Math.abs(one)), 0);
  const dot = (a, b) => a.reduce((all, one, i) => all + one * b[i], 0);
  const zeros = (n) => new Array(n).fill(0);
  const even = (from, to, count) => zeros(count).map((_, i) => from + ((to - from) * i) / (count - 1));

  /** Lower factor of a symmetric matrix that is positive, or null if rounding made it none. */
  function rooted(matrix) {
    const n = matrix.length, low = matrix.map(() => zeros(n));
    for (let i = 0; i < n; i += 1) {
      for (let j = 0; j <= i; j += 1) {
        let left = matrix[i][j];
        for (let k = 0; k < j; k += 1) left -= low[i][k] * low[j][k];
        if (i === j && !(left > 0)) return null;
        low[i][j] = i === j ? Math.sqrt(left) : left / low[j][j];
      }
    }
    return low;
  }

  /** The unknowns of low · lowᵀ · unknowns = right. */
  function unrooted(low, right) {
    const n = low.length, out = right.slice();
    for (let i = 0; i < n; i += 1) {
      for (let k = 0; k < i; k += 1) out[i] -= low[i][k] * out[k];
      out[i] /= low[i][i];
    }
    for (let i = n - 1; i >= 0; i -= 1) {
      for (let k = i + 1; k < n; k += 1) out[i] -= low[k][i] * out[k];
      out[i] /= low[i][i];
    }
    return out;
  }

  const logSize = (low) => 2 * sum(low.map((row, i) => Math.log(row[i])));

  /** Lift and rise over `length` of the straight line nearest to `values` at `x` (least squares, weights squared). */
  function straightLine(x, values, length, weights) {
    let n = 0, a = 0, aa = 0, v = 0, av = 0;
    x.forEach((place, i) => {
      const w = weights ? weights[i] ** 2 : 1, share = place / length;
      n += w;
      a += w * share;
      aa += w * share * share;
      v += w * values[i];
      av += w * share * values[i];
    });
    const size = n * aa - a * a;
    return size > 0 ? [(aa * v - a * av) / size, (n * av - a * v) / size] : [n > 0 ? v / n : 0, 0];
  }

  // ---- what a straight edge shows ---------------------------------------------------------------------------------

  const STEP_MM = 10;

  /** Deepest gap between the bottom and a straight edge held under it, and its place: [0, 0] if there is none. */
  function deepestHollow(heightAt, lengthMm, edgeMm) {
    const x = even(0, lengthMm, Math.ceil(lengthMm / STEP_MM) + 1), y = x.map(heightAt);
    const reach = Math.max(2, Math.round(edgeMm / (x[1] - x[0])));
    let worst = 0, place = 0;
    if (y.every((_, i) => i < 2 || y[i] - 2 * y[i - 1] + y[i - 2] >= -1e-9)) return [0, 0];
    for (let start = 0; start < Math.max(1, x.length - reach); start += 1) {
      const end = Math.min(start + reach, x.length - 1), hull = lowerHull(x, y, start, end);
      let deep = -Infinity, at = start;
      for (let i = start, k = 0; i <= end; i += 1) {
        while (k < hull.length - 2 && hull[k + 1] < i) k += 1;
        const a = hull[k], b = hull[k + 1], gap = y[i] - y[a] - ((y[b] - y[a]) * (x[i] - x[a])) / (x[b] - x[a]);
        if (gap > deep) [deep, at] = [gap, i];
      }
      if (deep > worst + 1e-9) [worst, place] = [deep, x[at]];
    }
    return [worst, place];
  }

  /** Points that a line can touch from below, left to right. */
  function lowerHull(x, y, first, last) {
    const hull = [];
    for (let i = first; i <= last; i += 1) {
      while (hull.length > 1) {
        const b = hull[hull.length - 1], a = hull[hull.length - 2];
        if ((y[b] - y[a]) * (x[i] - x[a]) < (y[i] - y[a]) * (x[b] - x[a])) break;
        hull.pop();
      }
      hull.push(i);
    }
    return hull;
  }

  // ---- a fair curve, a slip of the tape, or a true hollow -----------------------------------------------------------

  const LEAST_READINGS = 5, STATION_MM = 10, EDGE_MM = 600;
  const TAPE_SHARE = 0.4, MISREAD_MM = 8;
  const EVEN_PER_MM3 = 2e-11, UNEVEN_PER_MM3 = 1.5e-10;
  const UNEVEN_COST = 1, SLIP_COSTS = [0, 3, 11], INVERTED_EVIDENCE = 6;
  const CLOSE = 1, ALIKE = 2, FEW_READINGS = 8, NO_STORY = 40, HOLLOW_MM = 0.5;
  const NODES = 31, BEND_PER_MM = 1e-4;

  const byCost = (a, b) => a.cost - b.cost;

  /**
   * What heights `readMm` at places `xMm` say of the board: {verdict, misread, hollows, xMm, heightsMm, missesMm}.
   *
   * The verdict is "fair", "misread", "hollow", "both" or "unclear". A board has stiffness, so its curvature wanders
   * and has no jumps: a hollow shows in the slopes on both sides, a slip of the tape in one reading among neighbours
   * that agree. Each story is fitted and judged by its likelihood; the generator's `readings` says it at length.
   */
  function curveFromReadings(xMm, readMm, lengthMm, tapeMm = 1) {
    const bench = readings(xMm, readMm, lengthMm, tapeMm);
    const fair = [story(bench, EVEN_PER_MM3), story(bench, UNEVEN_PER_MM3, [], true, UNEVEN_COST)].sort(byCost)[0];
    const slipped = slips(bench, EVEN_PER_MM3, true);
    const hollow = story(bench, UNEVEN_PER_MM3, [], false);
    const both = slips(bench, UNEVEN_PER_MM3, false);
    const told = [["fair", fair], ["misread", slipped[0]]];
    const least = Math.min(fair.cost, slipped[0].cost);
    for (const [name, one] of [["hollow", hollow], ["both", both[0]]]) {
      if (one.cost < least + CLOSE && isHollow(bench, one)) told.push([name, one]);
    }
    told.sort((a, b) => byCost(a[1], b[1]));
    const [verdict, best] = told[0];
    const near = told.map(([, one]) => one).filter((one) => one.cost < best.cost + CLOSE);
    const lost = best.misfit > bench.x.length + NO_STORY;
    const twoWays = near.length > 1 || (verdict === "misread" && sideBySide(bench, best));
    if (verdict === "fair" && !lost) return tell(bench, verdict, best, [], null);
    if (verdict === "hollow" && !lost && !twoWays) return tell(bench, verdict, best, [], best);
    const doubted = best === both[0] ? both : slipped;
    const bent = near.find((one) => !one.convex) ?? null;
    return tell(bench, lost || twoWays ? "unclear" : verdict, best, doubted, bent);
  }

  /** The readings, with the heights that a bend at each node gives there and at stations between. */
  function readings(x, read, length, tapeMm) {
    if (x.length !== read.length || x.length < LEAST_READINGS) throw new RangeError("at least 5 places with a height");
    const fine = [...x, ...read].every(Number.isFinite) && length > 0 && tapeMm > 0;
    if (!fine || x[0] < 0 || x[x.length - 1] > length || x.some((place, i) => i && place <= x[i - 1])) {
      throw new RangeError("places must increase along the board, and every number be finite");
    }
    const station = even(0, length, Math.ceil(length / STATION_MM) + 1), size = length / (NODES - 1);
    const rows = (places) => places.map((at) => zeros(NODES).map((_, k) => BEND_PER_MM * hatHeight(at, k, size)));
    return { x, read, length, sd: TAPE_SHARE * tapeMm, station, rows: rows(x), stationRows: rows(station) };
  }

  /** Height at `at` of a line that starts level at 0 and whose curvature is 1 at node `k` and 0 at its neighbours. */
  function hatHeight(at, k, size) {
    const ramp = (from) => Math.max(at - from, 0) ** 3 / (6 * size);
    const middle = k * size;
    if (k === 0) return at * at / 2 - ramp(0) + ramp(size);
    return ramp(middle - size) - 2 * ramp(middle) + ramp(middle + size);
  }

  /** One way to explain the readings, with its misfit and what it costs. */
  function story(bench, wander, slipped = [], convex = true, extra = 0) {
    const open = free(bench, wander, slipped);
    const misfit = convex ? bends(bench, wander, sds(bench, slipped).map((sd) => 1 / sd), true).misfit : open.misfit;
    return { slipped, wander, convex, misfit, cost: misfit + open.room + extra + SLIP_COSTS[slipped.length] };
  }

  const sds = (bench, slipped) =>
    bench.x.map((_, i) => (slipped.includes(i) ? Math.hypot(bench.sd, MISREAD_MM) : bench.sd));

  const stepSize = (bench, wander) => Math.sqrt((wander * bench.length) / (NODES - 1)) / BEND_PER_MM;

  /** Curvature of either sign: J, log|K| + log|XᵀK⁻¹X|, and R with J = zᵀRz for the readings z. */
  function free(bench, wander, slipped) {
    const n = bench.x.length, size = stepSize(bench, wander), sd = sds(bench, slipped);
    const steps = bench.rows.map((row) => {
      const out = row.slice();
      for (let k = NODES - 2; k >= 0; k -= 1) out[k] += out[k + 1];
      return out;
    });
    const trend = bench.x.map((at, i) => [1, at / bench.length, steps[i][0]]);
    const spread = steps.map((row, i) => steps.map((other, j) => {
      let shared = i === j ? sd[i] ** 2 : 0;
      for (let k = 1; k < NODES; k += 1) shared += row[k] * other[k] * size ** 2;
      return shared;
    }));
    const low = rooted(spread);
    const inverse = spread.map((_, i) => unrooted(low, zeros(n).map((_one, j) => (i === j ? 1 : 0))));
    const pulled = inverse.map((row) => [0, 1, 2].map((k) => dot(row, trend.map((one) => one[k]))));
    const held = [0, 1, 2].map((k) => [0, 1, 2].map((l) => dot(trend.map((one) => one[k]), pulled.map((one) => one[l]))));
    const heldLow = rooted(held);
    const shares = pulled.map((row) => unrooted(heldLow, row));
    const rest = inverse.map((row, i) => row.map((value, j) => value - dot(pulled[i], shares[j])));
    const pull = rest.map((row) => dot(row, bench.read));
    return { misfit: dot(bench.read, pull), room: logSize(low) + logSize(heldLow), rest, pull };
  }

  /** Bend at each node in units of BEND_PER_MM, and J; weight 0 leaves a reading out. */
  function bends(bench, wander, weights, convex) {
    const size = stepSize(bench, wander), line = levelWays(bench, weights);
    const without = (list) => list.map((value, i) => value - sum(line.map((way) => way[i] * dot(way, list))));
    const columns = zeros(NODES).map((_, k) => without(bench.rows.map((row, i) => row[k] * weights[i])));
    const aims = without(bench.read.map((value, i) => value * weights[i]));
    const gram = columns.map((a, k) => columns.map((b, l) => dot(a, b) + stepGram(k, l) / size ** 2));
    const right = columns.map((a) => dot(a, aims));
    const bend = convex ? atLeastZero(gram, right) : unrooted(rooted(gram), right);
    const left = aims.map((aim, i) => sum(columns.map((a, k) => a[i] * bend[k])) - aim);
    const steps = bend.slice(1).map((one, k) => (one - bend[k]) / size);
    return { bend, misfit: dot(left, left) + dot(steps, steps) };
  }

  /** What the steps from node to node add to the factor of nodes k and l. */
  function stepGram(k, l) {
    if (k === l) return k === 0 || k === NODES - 1 ? 1 : 2;
    return Math.abs(k - l) === 1 ? -1 : 0;
  }

  /** Two weighted directions, square to each other and of length 1, that lift and tilt of the line give. */
  function levelWays(bench, weights) {
    const first = weights.slice(), second = bench.x.map((at, i) => (at / bench.length) * weights[i]);
    const size = Math.sqrt(dot(first, first)), one = first.map((value) => value / size);
    const share = dot(one, second), rest = second.map((value, i) => value - share * one[i]);
    const left = Math.sqrt(dot(rest, rest));
    return [one, rest.map((value) => value / left)];
  }

  /** The least of ½·bᵀ·gram·b − right·b with no b below 0 (Lawson and Hanson's active set). */
  function atLeastZero(gram, right) {
    const n = right.length, tolerance = 1e-11 * Math.max(1, largest(right));
    let out = zeros(n);
    const inside = zeros(n).map(() => false);
    for (let turn = 0; turn < 50 * n; turn += 1) {
      const pull = right.map((value, i) => value - dot(gram[i], out));
      let next = -1;
      pull.forEach((value, i) => { if (!inside[i] && value > tolerance && (next < 0 || value > pull[next])) next = i; });
      if (next < 0) return out;
      inside[next] = true;
      for (;;) {
        const aim = within(gram, right, inside);
        let step = 1, stop = -1;
        aim.forEach((value, i) => {
          if (!inside[i] || value > 0) return;
          const share = out[i] / (out[i] - value);
          if (stop < 0 || share < step) [step, stop] = [share, i];
        });
        if (stop < 0) { out = aim; break; }
        out = out.map((value, i) => value + step * (aim[i] - value));
        inside[stop] = false;
        out.forEach((value, i) => { if (inside[i] && value <= 1e-15) inside[i] = false; });
        out = out.map((value, i) => (inside[i] ? value : 0));
      }
    }
    throw new Error("the least squares do not converge");
  }

  function within(gram, right, inside) {
    const open = inside.flatMap((one, i) => (one ? [i] : []));
    const out = zeros(right.length);
    if (!open.length) return out;
    const answer = unrooted(rooted(open.map((i) => open.map((j) => gram[i][j]))), open.map((i) => right[i]));
    open.forEach((i, k) => { out[i] = answer[k]; });
    return out;
  }

  /** The likeliest story with one slip (two, if a second one pays), then those that differ in one reading. */
  function slips(bench, wander, convex) {
    let out = [], told = [];
    const most = bench.x.length >= FEW_READINGS ? SLIP_COSTS.length - 1 : 1;
    for (let turn = 0; turn < most; turn += 1) {
      const more = oneMore(bench, wander, out, convex);
      if (told.length && more[0].cost >= told[0].cost) break;
      told = more.filter((one) => one.cost < more[0].cost + ALIKE);
      out = more[0].slipped;
    }
    return told;
  }

  /** Stories with one slip more than `out`, cheapest first; those too dear even when free are not fitted. */
  function oneMore(bench, wander, out, convex) {
    const open = free(bench, wander, out), extra = SLIP_COSTS[out.length + 1];
    const tried = bench.x.map((_, i) => {
      const gain = 1 + MISREAD_MM ** 2 * open.rest[i][i];
      const misfit = open.misfit - (MISREAD_MM ** 2 * open.pull[i] ** 2) / gain;
      return { i, misfit, room: open.room + Math.log(gain) + extra };
    }).filter(({ i }) => !out.includes(i)).sort((a, b) => a.misfit + a.room - b.misfit - b.room || a.i - b.i);
    const told = [];
    for (const { i, misfit, room } of tried) {
      if (told.length && misfit + room > Math.min(...told.map((one) => one.cost)) + ALIKE) break;
      const slipped = [...out, i];
      const fitted = convex ? bends(bench, wander, sds(bench, slipped).map((sd) => 1 / sd), true).misfit : misfit;
      told.push({ slipped, wander, convex, misfit: fitted, cost: fitted + room });
    }
    return told.sort(byCost);
  }

  /** Whether curvature below 0 is needed, and a straight edge would show it. */
  function isHollow(bench, one) {
    const held = story(bench, one.wander, one.slipped);
    return held.misfit - one.misfit >= INVERTED_EVIDENCE && hollowsOf(bench, curveOf(bench, one, one.slipped)).length > 0;
  }

  /** Bends at the nodes, and heights at stations and readings, when some readings are left out. */
  function curveOf(bench, one, without) {
    const weights = bench.x.map((_, i) => (without.includes(i) ? 0 : 1 / bench.sd));
    const { bend } = bends(bench, one.wander, weights, one.convex);
    const off = bench.read.map((value, i) => value - dot(bench.rows[i], bend));
    const [lift, turn] = straightLine(bench.x, off, bench.length, weights);
    const heights = (rows, places) => rows.map((row, i) => dot(row, bend) + lift + (turn * places[i]) / bench.length);
    return { bend, station: heights(bench.stationRows, bench.station), at: heights(bench.rows, bench.x) };
  }

  /** Stretches of curvature below 0 where a straight edge shows more than what passes. */
  function hollowsOf(bench, curve) {
    const { station, length } = bench, nodes = even(0, length, NODES), out = [];
    const below = station.map((at) => readAt(nodes, curve.bend, at) < 0);
    for (let first = 0; first < station.length; first += 1) {
      if (!below[first] || below[first - 1]) continue;
      let last = first;
      while (below[last + 1]) last += 1;
      const low = station[first], high = station[last];
      const start = Math.max(0, Math.min(low, high - EDGE_MM)), end = Math.min(length, Math.max(high, low + EDGE_MM));
      const along = (at) => readAt(station, curve.station, start + at);
      const [deep, at] = deepestHollow(along, end - start, EDGE_MM);
      if (deep >= HOLLOW_MM && low - STATION_MM <= start + at && start + at <= high + STATION_MM) {
        out.push({ fromMm: low, toMm: high, deepMm: deep, atMm: start + at });
      }
    }
    return out;
  }

  /** Whether two neighbours are both read too high: what a short hollow would show too. */
  function sideBySide(bench, one) {
    const pair = [...one.slipped].sort((a, b) => a - b);
    const { at } = curveOf(bench, one, pair);
    return pair.length > 1 && pair[1] - pair[0] === 1 && pair.every((i) => bench.read[i] > at[i]);
  }

  /** The curve of the best story through the readings that no named story doubts, and the hollows of another. */
  function tell(bench, verdict, best, named, wrongWay) {
    const likeliest = new Map();
    for (const one of named) for (const i of one.slipped) if (!likeliest.has(i)) likeliest.set(i, one);
    const misread = [...likeliest].map(([i, one]) => ({
      index: i, xMm: bench.x[i], readMm: bench.read[i], expectedMm: curveOf(bench, one, one.slipped).at[i],
    }));
    const doubted = [...likeliest.keys()], curve = curveOf(bench, best, doubted);
    const hollows = wrongWay ? hollowsOf(bench, curveOf(bench, wrongWay, doubted)) : [];
    const missesMm = curve.at.map((height, i) => height - bench.read[i]);
    return { verdict, misread, hollows, xMm: bench.station, heightsMm: curve.station, missesMm };
  }

  // ---- whole shims from one stock ----------------------------------------------------------------------------------

  const MOST_MM = 8, MOST_PIECES = 3;

  const piecesOf = (counts) => sum(counts.map(Math.abs));
  const rounded = (mm) => Math.round(mm * 1e6) / 1e6;

  /** In order of pieces, then of counts. */
  function byPieces(a, b) {
    if (a.pieces !== b.pieces) return a.pieces - b.pieces;
    const k = a.counts.findIndex((count, i) => count !== b.counts[i]);
    return k < 0 ? 0 : a.counts[k] - b.counts[k];
  }

  /** Every change of one support by up to three pieces, lowest first, each with the ways to make it, fewest first. */
  function changesAt(support, shims, held, mostPieces = MOST_PIECES, mostMm = MOST_MM) {
    const found = new Map();
    const ranges = shims.map((shim, k) => {
      const own = held[support][k], spare = shim.count + sum(held.map((one) => one[k])) - own;
      return [-Math.min(own, mostPieces), Math.min(spare, mostPieces)];
    });
    const go = (counts, pieces) => {
      const k = counts.length;
      if (k < shims.length) {
        for (let n = ranges[k][0]; n <= ranges[k][1]; n += 1) {
          if (pieces + Math.abs(n) <= mostPieces) go([...counts, n], pieces + Math.abs(n));
        }
        return;
      }
      const changeMm = rounded(sum(counts.map((n, i) => n * shims[i].height_mm)));
      if (Math.abs(changeMm) > mostMm) return;
      if (!found.has(changeMm)) found.set(changeMm, []);
      found.get(changeMm).push({ changeMm, counts, pieces });
    };
    go([], 0);
    return [...found.keys()].sort((a, b) => a - b).map((change) => found.get(change).sort(byPieces));
  }

  /** One way a support with the fewest pieces that the stock allows, or null. What is taken out here may go there. */
  function stocked(options, stock) {
    let best = null, bestPieces = Infinity;
    const go = (ways, used, pieces) => {
      if (ways.length === options.length) {
        if (pieces < bestPieces && used.every((n, k) => n <= stock[k])) [best, bestPieces] = [ways, pieces];
        return;
      }
      for (const way of options[ways.length]) {
        go([...ways, way], used.map((n, k) => n + way.counts[k]), pieces + way.pieces);
      }
    };
    go([], stock.map(() => 0), 0);
    return best;
  }

  // ---- the correction ---------------------------------------------------------------------------------------------

  const LEAST_LOAD_N = 3, LEAST_PLACES = 4, TRIAL_MM = 0.25, ALIKE_MM = 0.1;
  const BANDS = 5, TRIES = 16, ROUNDS = 4, SAMPLED = 97, PAUSE_EVERY = 4096;

  /**
   * The moves that leave the least deviation of the shape, and among those within 0.1 mm the fewest pieces.
   *
   * `asked`: {xMm, readMm, held, shimsMm, weightsN}. `held` says how many of each shim each stack holds; the last two
   * what was changed since the data were written. Pauses (yields) now and then, so that a page can go on meanwhile;
   * `bestCorrection` runs it to its end. See the generator's `correction` for what is compared and why.
   */
  function* correcting(ready, asked) {
    const { data } = ready;
    const x = asked.xMm, supports = data.supports.length;
    if (x.length !== asked.readMm.length || new Set(x).size < LEAST_PLACES) throw new RangeError("4 places or more");
    const planned = {
      ready, x, shimsMm: asked.shimsMm ?? zeros(supports), weightsN: asked.weightsN ?? zeros(ready.places.length),
    };
    const bench = asRead(planned, asked.readMm);
    const aim = { x, readMm: asked.readMm, wantedMm: x.map((at) => wantedAt(data, at)), lengthMm: data.length_mm };
    const changes = data.supports.map((_, i) => changesAt(i, data.shims, asked.held));
    return yield* bestOf(bench, aim, changes);
  }

  function bestCorrection(ready, asked) {
    const run = correcting(ready, asked);
    for (;;) {
      const { done, value } = run.next();
      if (done) return value;
    }
  }

  /** Wanted height above the level line, straight between the nodes. */
  function wantedAt(data, at) {
    const { nodes, line } = data;
    return readAt(nodes.x_mm, nodes.wanted_mm, at) + line.base_mm + (line.tilt_mm * at) / data.length_mm;
  }

  /** The bench laid with a change at each support. */
  function laid(bench, changeMm) {
    const told = settled(bench.ready, bench.shimsMm.map((mm, i) => mm + changeMm[i]), bench.weightsN);
    if (told.status !== "ok") throw new RangeError("the board tips over");
    const heights = bench.x.map((at) => readAt(bench.ready.data.nodes.x_mm, told.nodeHeightsMm, at));
    return { ...told, heights };
  }

  /** The same bench with each top where the readings say that the bottom is. */
  function asRead(planned, readMm) {
    const { data } = planned.ready, low = data.nodes.x_mm[data.low_node];
    const now = laid(planned, zeros(planned.shimsMm.length));
    const order = planned.x.map((_, i) => i).sort((i, j) => planned.x[i] - planned.x[j]);
    const places = order.map((i) => planned.x[i]), over = order.map((i) => readMm[i] - now.heights[i]);
    return {
      ...planned,
      shimsMm: planned.shimsMm.map((mm, s) => {
        const top = data.supports[s], nearest = Math.min(Math.max(low, top.low_x_mm), top.high_x_mm);
        return mm + readAt(places, over, now.loadsN[s] > 0 ? now.touchMm[s] : nearest) + now.gapsMm[s];
      }),
    };
  }

  /** What is left at each reading once they change by so much, and the rigid part. */
  function offOf(aim, changeMm) {
    const away = aim.readMm.map((value, i) => value + changeMm[i] - aim.wantedMm[i]);
    const [lift, turn] = straightLine(aim.x, away, aim.lengthMm);
    return { off: away.map((value, i) => value - lift - (turn * aim.x[i]) / aim.lengthMm), lift, turn };
  }

  function* bestOf(bench, aim, changes) {
    const { data } = bench.ready, none = zeros(changes.length);
    const now = laid(bench, none), stock = data.shims.map((shim) => shim.count);
    const beforeMm = largest(offOf(aim, zeros(aim.x.length)).off);
    const stay = { ways: changes.map(() => ({ changeMm: 0, counts: zeros(stock.length), pieces: 0 })), laid: now, worstMm: beforeMm };
    let best = stay, bestBand = -1, bestPieces = 0, tries = 0;
    for (const one of yield* ranked(bench, aim, changes, now, beforeMm)) {
      if (best !== stay && (one.band > bestBand || one.pieces >= bestPieces)) break;
      const ways = stocked(changes.map((options, s) => options[one.rows[s]]), stock);
      if (!ways || (best !== stay && sum(ways.map((way) => way.pieces)) >= bestPieces)) continue;
      yield;
      const then = laid(bench, ways.map((way) => way.changeMm));
      tries += 1;
      const worstMm = largest(offOf(aim, then.heights.map((height, i) => height - now.heights[i])).off);
      if (worstMm <= one.value + ALIKE_MM && allowed(then, now, data.inverted_per_mm)) {
        best = { ways, laid: then, worstMm };
        bestBand = one.band;
        bestPieces = sum(ways.map((way) => way.pieces));
      }
      if (tries === TRIES) break;
    }
    return told(aim, now, beforeMm, best);
  }

  /** Every support keeps a load that no careless hand lifts off, and the bottom is not bent the wrong way. */
  function allowed(then, now, limit) {
    const least = now.loadsN.map((load) => Math.min(LEAST_LOAD_N, load > 0 ? load : LEAST_LOAD_N));
    return then.loadsN.every((load, s) => load >= least[s]) && then.leastPerMm >= Math.min(limit, now.leastPerMm);
  }

  /** Choices that the linear bench thinks better: by steps behind the best, then fewest pieces, then deviation. */
  function* ranked(bench, aim, changes, now, beforeMm) {
    const line = yield* linear(bench, aim, now);
    const half = Math.floor(changes.length / 2), stock = bench.ready.data.shims.map((shim) => shim.count);
    const first = halfOf(changes, line, 0, half), second = halfOf(changes, line, half, changes.length);
    const bears = (a, b) => line.loadsN.every((load, s) => load + first[a].loads[s] + second[b].loads[s] >= 0);
    const fits = (a, b, used) => stock.every((n, k) => first[a][used][k] + second[b][used][k] <= n);
    const off = (a, b, k) => Math.abs(line.off[k] + first[a].shape[k] + second[b].shape[k]);
    let least = Infinity;
    for (let i = 0; i < first.length * second.length; i += SAMPLED) {
      const a = Math.floor(i / second.length), b = i % second.length;
      if (!bears(a, b) || !fits(a, b, "used")) continue;
      let worst = 0;
      for (let k = 0; k < line.off.length; k += 1) worst = Math.max(worst, off(a, b, k));
      least = Math.min(least, worst);
      if (i % PAUSE_EVERY === 0) yield;
    }
    const limit = Math.min(beforeMm - ALIKE_MM, least + BANDS * ALIKE_MM);
    const found = [];
    for (const [a, b] of yield* near(line.off, first, second, limit)) {
      if (!bears(a, b) || !fits(a, b, "least")) continue;
      let value = 0;
      for (let k = 0; k < line.off.length; k += 1) value = Math.max(value, off(a, b, k));
      found.push({ value, pieces: first[a].pieces + second[b].pieces, rows: [...first[a].rows, ...second[b].rows] });
    }
    const lowest = found.reduce((most, one) => Math.min(most, one.value), Infinity);
    for (const one of found) one.band = Math.floor((one.value - lowest) / ALIKE_MM);
    return found.sort((a, b) => a.band - b.band || a.pieces - b.pieces || a.value - b.value);
  }

  /** Pairs of choices with every reading nearer than the limit; sorted by one reading, few need to be looked at. */
  function* near(off, first, second, limit) {
    const spans = off.map((_, k) => {
      let low = Infinity, high = -Infinity;
      for (const one of second) [low, high] = [Math.min(low, one.shape[k]), Math.max(high, one.shape[k])];
      return high - low;
    });
    const lead = spans.indexOf(Math.max(...spans)), found = [];
    const order = second.map((_, b) => b).sort((a, b) => second[a].shape[lead] - second[b].shape[lead]);
    const values = order.map((b) => second[b].shape[lead]);
    const sooner = off.map((_, k) => k).sort((a, b) => Math.abs(off[b]) - Math.abs(off[a]));
    let looked = 0;
    for (let a = 0; a < first.length; a += 1) {
      const middle = off[lead] + first[a].shape[lead], one = first[a].shape;
      for (let at = firstAbove(values, -limit - middle); at < order.length && values[at] < limit - middle; at += 1) {
        const other = second[order[at]].shape;
        if (sooner.every((k) => Math.abs(off[k] + one[k] + other[k]) < limit)) found.push([a, order[at]]);
        looked += 1;
        if (looked % PAUSE_EVERY === 0) yield;
      }
    }
    return found;
  }

  /** Index of the first of these growing values that is above `level`. */
  function firstAbove(values, level) {
    let low = 0, high = values.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (values[middle] > level) high = middle;
      else low = middle + 1;
    }
    return low;
  }

  /** All choices for the supports from `start` to `end`, and what each adds to shape, loads, pieces and stock. */
  function halfOf(changes, line, start, end) {
    const kinds = changes[0][0][0].counts.length, places = line.off.length, supports = line.loadsN.length;
    let made = [{ rows: [], shape: zeros(places), loads: zeros(supports), pieces: 0, used: zeros(kinds), least: zeros(kinds) }];
    for (let s = start; s < end; s += 1) {
      const options = changes[s].map((ways, row) => ({
        row,
        up: ways[0].changeMm - line.originMm[s],
        way: ways[0],
        least: zeros(kinds).map((_, k) => Math.min(...ways.map((way) => way.counts[k]))),
      }));
      made = made.flatMap((one) => options.map(({ row, up, way, least }) => ({
        rows: [...one.rows, row],
        shape: one.shape.map((mm, k) => mm + up * line.shape[s][k]),
        loads: one.loads.map((n, k) => n + up * line.give[s][k]),
        pieces: one.pieces + way.pieces,
        used: one.used.map((n, k) => n + way.counts[k]),
        least: one.least.map((n, k) => n + least[k]),
      })));
    }
    return made;
  }

  /** The bench about a state in which every support bears: what 1 mm more at each one adds to shape and loads. */
  function* linear(bench, aim, now) {
    let originMm = zeros(now.loadsN.length), there = now;
    for (let turn = 0; turn < ROUNDS && there.loadsN.some((load) => !(load > 0)); turn += 1) {
      originMm = originMm.map((mm, s) => (there.loadsN[s] > 0 ? mm : mm + there.gapsMm[s] + 2 * TRIAL_MM));
      there = laid(bench, originMm);
    }
    const shape = [], give = [];
    for (let s = 0; s < originMm.length; s += 1) {
      const moved = (step) => laid(bench, originMm.map((mm, i) => (i === s ? mm + step : mm)));
      const up = moved(TRIAL_MM), down = moved(-TRIAL_MM);
      const rise = up.heights.map((height, i) => (height - down.heights[i]) / (2 * TRIAL_MM));
      const [lift, turn] = straightLine(aim.x, rise, aim.lengthMm);
      shape.push(rise.map((mm, i) => mm - lift - (turn * aim.x[i]) / aim.lengthMm));
      give.push(up.loadsN.map((load, i) => (load - down.loadsN[i]) / (2 * TRIAL_MM)));
      yield;
    }
    const { off } = offOf(aim, there.heights.map((height, i) => height - now.heights[i]));
    return { originMm, off, loadsN: there.loadsN, shape, give };
  }

  function told(aim, now, beforeMm, best) {
    const change = best.laid.heights.map((height, i) => height - now.heights[i]);
    const { off, lift, turn } = offOf(aim, change);
    return {
      moves: best.ways.flatMap((way, support) => (way.pieces ? [{
        support, changeMm: way.changeMm, pieces: way.counts.flatMap((count, kind) => (count ? [{ kind, count }] : [])),
      }] : [])),
      beforeMm,
      afterMm: best.worstMm,
      expectedMm: aim.readMm.map((value, i) => value + change[i]),
      offMm: off,
      liftMm: lift,
      turnMm: turn,
      loadsN: best.laid.loadsN,
      leastPerMm: best.laid.leastPerMm,
    };
  }

  return { prepared, curveFromReadings, deepestHollow, changesAt, stocked, correcting, bestCorrection, straightLine, wantedAt, byPieces };
})();
