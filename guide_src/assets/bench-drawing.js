// The bench while it is tuned: the board on its supports, and under it how far each place is from the curve to aim for.
// Drawn once, then only moved. Heights are enlarged; the look is that of the other side drawings (drawings.css).
"use strict";
globalThis.benchDrawing = (() => {
  const SVG = "http://www.w3.org/2000/svg";
  const WIDE = 350, LEFT = 16, RIGHT = 334, TOP = 20, ROOM = 86, MOST_TIMES = 5;
  const BASE = 128, SPOT = 10, STRIP = 208, STRIP_HALF = 26, TALL = 252;
  const RANGES_MM = [5, 10, 20, 40, 80];
  const LETTER = 5; // half a letter of the label, about

  const round = (value) => Math.round(value * 10) / 10;
  const within = (value, low, high) => Math.min(Math.max(value, low), high);

  function part(tag, classes, attributes = {}, text = "") {
    const made = document.createElementNS(SVG, tag);
    if (classes) made.setAttribute("class", classes);
    put(made, attributes);
    if (text) made.textContent = text;
    return made;
  }

  function put(element, attributes) {
    for (const [name, value] of Object.entries(attributes)) {
      element.setAttribute(name, typeof value === "number" ? round(value) : value);
    }
  }

  /** A path through the points of two lists, closed if so asked. */
  function path(xs, ys, closed = false) {
    let out = "";
    for (let i = 0; i < xs.length; i += 1) out += `${i ? "L" : "M"}${round(xs[i])} ${round(ys[i])}`;
    return closed ? `${out}Z` : out;
  }

  const cross = (x, y) => `M${round(x - 4)} ${round(y - 4)}l8 8M${round(x - 4)} ${round(y + 4)}l8 -8`;

  /** Places pushed apart to `room`, kept in order and on the sheet. */
  function spread(places, room) {
    const out = places.map((x) => within(x, LEFT + 4, RIGHT - 4));
    for (let turn = 0; turn < 20; turn += 1) {
      for (let i = 1; i < out.length; i += 1) {
        const short = room - (out[i] - out[i - 1]);
        if (short > 0) { out[i - 1] -= short / 2; out[i] += short / 2; }
      }
      for (let i = 0; i < out.length; i += 1) out[i] = within(out[i], LEFT - 4, RIGHT + 4);
    }
    return out;
  }

  /**
   * A drawing for a bench and its tuning block. `svg` is the element; `show(state)` moves it.
   *
   * The state: `lift`, `turn` (the straight line by which the whole bottom lies above its own level), `heightsMm` and
   * `offMm` at the stations, `places` and `crosses` (what was read): {xMm, offMm} each, `loadsN`, `touchMm`, `topsMm` of
   * the supports, `inverted`, `weights` (pieces at each place), `worst` {xMm, offMm, words, fine}, `range` (words for the
   * ends of the lower half) and `words` for readers of the screen.
   */
  function drawing(bench, tuning) {
    const nodes = bench.nodes.x_mm, length = bench.length_mm;
    const station = bench.stations.map((i) => nodes[i]), wanted = bench.stations.map((i) => bench.nodes.wanted_mm[i]);
    const perMm = (RIGHT - LEFT) / length, xs = station.map((mm) => LEFT + mm * perMm);
    const tall = Math.max(...wanted.map((mm, i) => mm + tuning.panel_mm + tuning.depth_mm[i]));
    const times = within(Math.floor(ROOM / (tall * perMm)), 1, MOST_TIMES);
    const ground = TOP + ROOM; // where the wanted bottom is lowest
    const yOf = (mm) => ground - mm * perMm * times;
    const spots = spread(bench.supports.map((one, s) => LEFT + middleOf(one, s) * perMm), 2 * SPOT + 6);
    const ribXs = bench.weights.node.map((i) => LEFT + nodes[i] * perMm);
    const svg = part("svg", "d-sheet tuning-sheet", { viewBox: `0 0 ${WIDE} ${TALL}`, role: "img" });
    const title = part("title", "", {}, "The board on the bench, as set here");
    const words = part("desc", "");
    svg.append(title, words);
    const add = (...made) => { svg.append(...made); return made[0]; };

    function middleOf(one, s) {
      if (s === 0) return 0;
      if (s === bench.supports.length - 1) return length;
      return (one.low_x_mm + one.high_x_mm) / 2;
    }

    // the upper half: supports, board, wanted bottom, weights
    add(part("path", "d-line d-stroke-faint", { d: `M${LEFT - 10} ${BASE}H${RIGHT + 10}` }));
    const piles = bench.supports.map(() => add(part("path", "d-thing")));
    const frame = add(part("path", "d-thing d-no-line")), ribs = add(part("path", "d-open d-hair"));
    const panel = add(part("path", "d-wood"));
    const wrong = add(part("path", "d-open tuning-wrong"));
    add(part("path", "d-open d-over-line", { d: path(xs, wanted.map(yOf)) }));
    add(part("path", "d-open d-pencil tuning-aim", { d: path(xs, wanted.map(yOf)) }));
    const heaps = bench.weights.node.map(() => {
      const box = part("rect", "d-steel", { width: 17, height: 17, rx: 3 });
      const count = part("text", "d-bold d-mid");
      add(box, count);
      return { box, count };
    });
    add(part("text", "d-text d-mid", { x: WIDE / 2, y: 14 }, "by the sums"));
    add(part("text", "d-text", { x: 4, y: 14 }, "tail"), part("text", "d-text d-end", { x: WIDE - 4, y: 14 }, "nose"));
    const marks = bench.supports.map((_, s) => {
      const stem = part("path", "d-open d-line"), ring = part("circle", "", { cx: spots[s], cy: BASE + 16, r: SPOT });
      const number = part("text", "d-mid d-bold tuning-number", { x: spots[s], y: BASE + 21 }, String(s + 1));
      const air = part("path", "d-open tuning-air");
      add(stem, air, ring, number);
      return { stem, air, ring, number };
    });

    // the lower half: how far off
    const band = add(part("path", "tuning-band"));
    add(part("path", "d-open d-pencil", { d: `M${LEFT} ${STRIP}H${RIGHT}` }));
    const edges = add(part("path", "d-open tuning-limit"));
    const off = add(part("path", "d-open tuning-off")), wrongToo = add(part("path", "d-open tuning-wrong"));
    const crosses = add(part("path", "d-open tuning-crosses"));
    const dots = add(part("path", "d-open tuning-dots"));
    const ring = add(part("circle", "tuning-ring", { r: 6 }));
    const high = add(part("text", "", { y: STRIP - STRIP_HALF - 5 })), low = add(part("text", "", { y: STRIP + STRIP_HALF + 15 }));
    const label = add(part("text", "d-bold d-mid tuning-label"));

    function show(state) {
      words.textContent = state.words;
      const own = state.heightsMm.map((mm, i) => mm - state.lift - (state.turn * station[i]) / length);
      const bottom = own.map(yOf), under = own.map((mm) => yOf(mm + tuning.panel_mm));
      const over = own.map((mm, i) => yOf(mm + tuning.panel_mm + tuning.depth_mm[i]));
      const loop = [...xs, ...xs.slice().reverse()];
      put(panel, { d: path(loop, [...bottom, ...under.slice().reverse()], true) });
      put(frame, { d: path(loop, [...under, ...over.slice().reverse()], true) });
      put(ribs, { d: ribXs.map((x) => `M${round(x)} ${round(benchSolve.read(xs, under, x))}V${round(benchSolve.read(xs, over, x))}`).join("") });
      bench.supports.forEach((one, s) => showSupport(state, one, s, bottom));
      state.weights.forEach((count, j) => showHeap(heaps[j], count, j, over));
      showWrong(state, bottom, showStrip(state));
    }

    function showSupport(state, one, s, bottom) {
      const left = LEFT + Math.max(one.low_x_mm, -60) * perMm, right = LEFT + Math.min(one.high_x_mm, length + 60) * perMm;
      const at = state.touchMm[s] ?? middleOf(one, s);
      const top = yOf(state.topsMm[s] - state.lift - (state.turn * at) / length);
      const touches = state.loadsN[s] > 0;
      put(piles[s], { d: `M${round(left)} ${BASE}V${round(top)}H${round(right)}V${BASE}Z` });
      const x = LEFT + at * perMm, { stem, air, ring: spot, number } = marks[s];
      put(stem, { d: `M${round(spots[s])} ${BASE + 16 - SPOT}L${round(x)} ${BASE}` });
      spot.setAttribute("class", touches ? "d-spot-on" : "d-spot-warn");
      number.setAttribute("class", `d-mid d-bold tuning-number ${touches ? "d-spot-on-text" : "d-spot-warn-text"}`);
      const over = benchSolve.read(xs, bottom, x);
      put(air, { d: touches ? "" : `M${round(x - 7)} ${round(top)}h14M${round(x)} ${round(top)}V${round(over)}M${round(x - 7)} ${round(over)}h14` });
    }

    function showHeap({ box, count }, pieces, j, over) {
      const x = LEFT + nodes[bench.weights.node[j]] * perMm, y = benchSolve.read(xs, over, x);
      box.style.display = count.style.display = pieces ? "" : "none";
      if (!pieces) return;
      put(box, { x: x - 8.5, y: y - 17 });
      put(count, { x, y: y - 4 });
      count.textContent = String(pieces);
    }

    /** Thick broken lines along what bends the wrong way, in both halves. */
    function showWrong(state, bottom, y) {
      let upper = "", lower = "";
      for (const [from, to] of state.inverted) {
        const start = LEFT + from * perMm, end = LEFT + to * perMm;
        const places = [start, ...xs.filter((x) => x > start && x < end), end];
        upper += path(places, places.map((x) => benchSolve.read(xs, bottom, x) + 4));
        lower += path(places, places.map((x) => y(benchSolve.read(xs, state.offMm, x))));
      }
      put(wrong, { d: upper });
      put(wrongToo, { d: lower });
    }

    /** The lower half; gives the height on the sheet for a miss in mm. */
    function showStrip(state) {
      const most = Math.max(tuning.limits.middle_mm, ...state.offMm.map(Math.abs), ...state.crosses.map(({ offMm }) => Math.abs(offMm)));
      const range = RANGES_MM.find((mm) => mm >= most) ?? most;
      const y = (mm) => STRIP - (mm / range) * STRIP_HALF, limit = tuning.limits.middle_mm;
      put(band, { d: `M${LEFT} ${round(y(limit))}H${RIGHT}V${round(y(-limit))}H${LEFT}Z` });
      put(edges, { d: `M${LEFT} ${round(y(limit))}H${RIGHT}M${LEFT} ${round(y(-limit))}H${RIGHT}` });
      put(off, { d: path(xs, state.offMm.map(y)) });
      put(dots, { d: state.places.map(({ xMm, offMm }) => `M${round(LEFT + xMm * perMm)} ${round(y(offMm))}h0`).join("") });
      put(crosses, { d: state.crosses.map(({ xMm, offMm }) => cross(LEFT + xMm * perMm, y(offMm))).join("") });
      const x = LEFT + state.worst.xMm * perMm, at = y(state.worst.offMm), isHigh = state.worst.offMm > 0;
      put(ring, { cx: x, cy: at });
      ring.setAttribute("class", state.worst.fine ? "tuning-ring" : "tuning-ring tuning-ring-warn");
      put(label, { x: within(x, LETTER * state.worst.words.length, WIDE - LETTER * state.worst.words.length), y: isHigh ? Math.min(at - 10, STRIP - 8) : Math.max(at + 20, STRIP + 18) });
      label.textContent = state.worst.words;
      const aside = x < WIDE / 2 ? { x: RIGHT + 8, "text-anchor": "end" } : { x: LEFT - 8, "text-anchor": "start" };
      for (const [text, words] of [[high, state.range.high(range)], [low, state.range.low(range)]]) {
        put(text, aside);
        text.textContent = words;
      }
      return y;
    }

    return { svg, times, show };
  }

  return { drawing };
})();
