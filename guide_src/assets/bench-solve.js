// Lays the board again on its supports, from the page's block "bench-what-if" alone: the same sums as the generator's
// `replay`, in the same order, so that both give the same curve. Heights in mm, forces in N, places in mm from the tail.
"use strict";
globalThis.benchSolve = (() => {
  const NEAR_SHARE = 1e-6; // points nearer than this share of the length are one place
  const PENETRATED_MM = 1e-7; // less is rounding

  /** What every answer needs: stiffness between the nodes, and the heights that 1 N upwards gives at each place. */
  function prepared(data) {
    const x = data.nodes.x_mm;
    const between = betweenNodes(data.pieces, x);
    const points = data.touch.node.map((node) => x[node]);
    const places = data.weights.node.map((node) => x[node]);
    const column = (place) => twiceSummed(x, x.map((at) => Math.max(at - place, 0)), between.loose);
    return { data, ...between, points, places, pointColumns: points.map(column), placeColumns: places.map(column) };
  }

  /** Stiffness, loose and glued, and free curvature at both ends, of each stretch from one node to the next. */
  function betweenNodes(pieces, x) {
    const firsts = pieces.first_node;
    const loose = [], glued = [], freeStart = [], freeEnd = [];
    for (let i = 0, piece = 0; i < x.length - 1; i += 1) {
      if (piece + 1 < firsts.length && i >= firsts[piece + 1]) piece += 1;
      const start = x[firsts[piece]];
      const end = piece + 1 < firsts.length ? x[firsts[piece + 1]] : x[x.length - 1];
      const begin = pieces.free_start_per_mm[piece];
      const rise = (pieces.free_end_per_mm[piece] - begin) / (end - start);
      loose.push(pieces.loose_n_mm2[piece]);
      glued.push(pieces.glued_n_mm2[piece]);
      freeStart.push(begin + rise * (x[i] - start));
      freeEnd.push(begin + rise * (x[i + 1] - start));
    }
    return { loose, glued, freeStart, freeEnd };
  }

  /** Heights at the nodes of a beam that starts level at 0, from moments that run straight between the nodes. */
  function twiceSummed(x, moments, stiffness) {
    const heights = new Array(x.length).fill(0);
    for (let i = 0, slope = 0; i < x.length - 1; i += 1) {
      const size = x[i + 1] - x[i];
      const start = moments[i] / stiffness[i], end = moments[i + 1] / stiffness[i];
      heights[i + 1] = heights[i] + size * slope + (size * size * (2 * start + end)) / 6;
      slope += (size * (start + end)) / 2;
    }
    return heights;
  }

  /**
   * The board at rest with `shimsMm` more under each support and `weightsN` more at each place for weights.
   *
   * Either {status: "tips over", totalN, balanceMm}, or "ok" with, of each support, `loadsN`, `touchMm` (null if it
   * bears nothing) and `gapsMm`; `nodeHeightsMm` above the level line and `heightsMm` at the stations;
   * `leastPerMm` and `leastMm`, the least curvature and where; and `inverted`, stretches that bend the wrong way.
   */
  function settled(ready, shimsMm, weightsN) {
    const { data, points, places } = ready;
    const x = data.nodes.x_mm, length = data.length_mm;
    if (shimsMm.length !== data.supports.length || weightsN.length !== places.length) {
      throw new RangeError("one shim a support and one weight a place");
    }
    const totalN = weightsN.reduce((sum, n) => sum + n, data.load.total_n);
    if (!(totalN > 0)) throw new RangeError("the loads must press down in sum");
    const balanceMm = weightsN.reduce((sum, n, j) => sum + n * places[j], data.load.moment_n_mm) / totalN;
    const asked = data.touch.support.map((s) => data.supports[s].height_mm + shimsMm[s]);
    const able = ableToBear(points, asked, NEAR_SHARE * length);
    if (!(points[able[0]] < balanceMm && balanceMm < points[able[able.length - 1]])) {
      return { status: "tips over", totalN, balanceMm };
    }
    const heights = data.nodes.load_height_mm.slice(), moments = data.nodes.load_moment_n_mm.slice();
    weightsN.forEach((n, j) => n && push(x, heights, moments, ready.placeColumns[j], places[j], -n));
    const rest = atRest(ready, able, asked, heights, totalN, balanceMm);
    rest.bearing.forEach((j, k) => push(x, heights, moments, ready.pointColumns[j], points[j], rest.loads[k]));
    for (let i = 0; i < x.length; i += 1) heights[i] += rest.tail + (rest.rise * x[i]) / length;
    return {
      status: "ok",
      totalN,
      balanceMm,
      ...onSupports(data, points, rest, asked, heights),
      nodeHeightsMm: heights,
      heightsMm: data.stations.map((i) => heights[i]),
      ...bends(ready, moments),
      releasedMm: released(ready, moments, heights),
    };
  }

  /** Adds what a push of `n` upwards at one place does to heights and moments. */
  function push(x, heights, moments, column, place, n) {
    for (let i = 0; i < x.length; i += 1) {
      heights[i] += n * column[i];
      if (x[i] > place) moments[i] += n * (x[i] - place);
    }
  }

  /** Points that can bear, tail first: of those at one place only the highest. */
  function ableToBear(points, asked, near) {
    const order = points.map((_, i) => i).sort((i, j) => points[i] - points[j] || asked[j] - asked[i] || i - j);
    const kept = [];
    for (const i of order) {
      const last = kept[kept.length - 1];
      if (last === undefined || points[i] - points[last] > near) kept.push(i);
      else if (asked[i] > asked[last]) kept[kept.length - 1] = i;
    }
    return kept;
  }

  /**
   * Points that bear, their loads, and the rigid part (height at the tail, rise over the length).
   *
   * Starts on the outermost two, takes in the most deeply penetrated one, and steps only as far as no load turns
   * negative; whatever would have to pull is let go.
   */
  function atRest(ready, able, asked, loaded, total, balance) {
    const { data, points, pointColumns } = ready;
    const nodes = data.touch.node, length = data.length_mm;
    const wanted = points.map((_, i) => asked[i] - loaded[nodes[i]]);
    const hold = (bearing) => held(bearing, nodes, pointColumns, points, wanted, length, total, balance);
    let state = hold([able[0], able[able.length - 1]]);
    for (let turn = 0; turn < 50 + 10 * able.length; turn += 1) {
      let worst = null, deepest = -PENETRATED_MM;
      for (const i of able) {
        if (state.bearing.includes(i)) continue;
        let gap = state.tail + (state.rise * points[i]) / length - wanted[i];
        state.bearing.forEach((j, k) => { gap += state.loads[k] * pointColumns[j][nodes[i]]; });
        if (gap < deepest) [worst, deepest] = [i, gap];
      }
      if (worst === null) return state;
      state = takenIn(hold, state, worst);
    }
    throw new Error("the contact search did not end");
  }

  /** The state with one more point held, and those let go that would have to pull. */
  function takenIn(hold, state, added) {
    let now = [...state.loads, 0], next = hold([...state.bearing, added]);
    while (next.bearing.length > 2 && next.loads.some((load) => load < 0)) {
      let first = -1, step = Infinity;
      next.loads.forEach((load, k) => {
        const share = load < 0 ? now[k] / (now[k] - load) : Infinity;
        if (share < step) [first, step] = [k, share];
      });
      now = now.map((a, k) => Math.max(a + step * (next.loads[k] - a), 0)).filter((_, k) => k !== first);
      next = hold(next.bearing.filter((_, k) => k !== first));
    }
    return { ...next, loads: next.loads.map((load) => Math.max(load, 0)) };
  }

  /** Loads and rigid part with these points held and the others free. */
  function held(bearing, nodes, columns, points, wanted, length, total, balance) {
    const n = bearing.length;
    let scale = 0;
    for (const i of bearing) for (const j of bearing) scale = Math.max(scale, Math.abs(columns[j][nodes[i]]));
    scale = scale || 1;
    const rows = bearing.map((i) => [
      ...bearing.map((j) => columns[j][nodes[i]] / scale), 1, points[i] / length, wanted[i] / scale,
    ]);
    rows.push([...bearing.map(() => 1), 0, 0, total]);
    rows.push([...bearing.map((j) => points[j] / length), 0, 0, (total * balance) / length]);
    const answer = solved(rows);
    return { bearing, loads: answer.slice(0, n), tail: answer[n] * scale, rise: answer[n + 1] * scale };
  }

  /** Unknowns of as many equations, each row its factors and then its right side, by elimination. */
  function solved(rows) {
    const n = rows.length;
    for (let k = 0; k < n; k += 1) {
      let pivot = k;
      for (let i = k + 1; i < n; i += 1) if (Math.abs(rows[i][k]) > Math.abs(rows[pivot][k])) pivot = i;
      [rows[k], rows[pivot]] = [rows[pivot], rows[k]];
      for (let i = k + 1; i < n; i += 1) {
        const share = rows[i][k] / rows[k][k];
        if (share) for (let j = k; j <= n; j += 1) rows[i][j] -= share * rows[k][j];
      }
    }
    const out = new Array(n).fill(0);
    for (let k = n - 1; k >= 0; k -= 1) {
      let left = rows[k][n];
      for (let j = k + 1; j < n; j += 1) left -= rows[k][j] * out[j];
      out[k] = left / rows[k][k];
    }
    return out;
  }

  /** Load, middle of the load and least gap of each support. */
  function onSupports(data, points, rest, asked, heights) {
    const { node, support } = data.touch, count = data.supports.length;
    const loadsN = new Array(count).fill(0), turns = new Array(count).fill(0), gaps = new Array(count).fill(Infinity);
    rest.bearing.forEach((j, k) => {
      loadsN[support[j]] += rest.loads[k];
      turns[support[j]] += rest.loads[k] * points[j];
    });
    support.forEach((s, i) => { gaps[s] = Math.min(gaps[s], Math.max(heights[node[i]] - asked[i], 0)); });
    return {
      loadsN,
      touchMm: loadsN.map((load, s) => (load > 0 ? turns[s] / load : null)),
      gapsMm: loadsN.map((load, s) => (load > 0 ? 0 : gaps[s])),
    };
  }

  /** Least curvature and inverted stretches, curvature taken as straight between the nodes. */
  function bends(ready, moments) {
    const x = ready.data.nodes.x_mm, limit = ready.data.inverted_per_mm;
    let leastPerMm = Infinity, leastMm = 0;
    const inverted = [];
    for (let i = 0; i < x.length - 1; i += 1) {
      const start = moments[i] / ready.loose[i] + ready.freeStart[i];
      const end = moments[i + 1] / ready.loose[i] + ready.freeEnd[i];
      if (start < leastPerMm) [leastPerMm, leastMm] = [start, x[i]];
      if (end < leastPerMm) [leastPerMm, leastMm] = [end, x[i + 1]];
      if (Math.min(start, end) >= limit) continue;
      const crosses = Math.max(start, end) > limit;
      const cut = crosses ? x[i] + ((x[i + 1] - x[i]) * (limit - start)) / (end - start) : x[i + 1];
      const [low, high] = start < limit ? [x[i], cut] : [cut, x[i + 1]];
      const last = inverted[inverted.length - 1];
      if (last && low - last[1] < NEAR_SHARE) last[1] = high;
      else inverted.push([low, high]);
    }
    return { leastPerMm, leastMm, inverted };
  }

  /** Heights at the stations once lifted off after the bottom's glue; the low point's tangent stays. */
  function released(ready, moments, heights) {
    const { data, glued } = ready, x = data.nodes.x_mm, low = data.low_node;
    const lost = twiceSummed(x, moments, glued);
    let slope = 0;
    if (low > 0) {
      const size = x[low] - x[low - 1];
      slope = (lost[low] - lost[low - 1]) / size;
      slope += (size * (moments[low - 1] + 2 * moments[low])) / (6 * glued[low - 1]);
    }
    const turn = data.line.tilt_mm / data.length_mm - slope;
    return data.stations.map((k) => heights[k] - heights[low] - (lost[k] - lost[low]) - turn * (x[k] - x[low]));
  }

  /** `values` over `x`, both lists, read straight between them at `at`. */
  function read(x, values, at) {
    let i = 0;
    while (i < x.length - 2 && x[i + 1] < at) i += 1;
    const share = Math.min(Math.max((at - x[i]) / (x[i + 1] - x[i]), 0), 1);
    return values[i] + share * (values[i + 1] - values[i]);
  }

  return { prepared, settled, solved, read };
})();
