// The place "tuning": shims and weights tried on the bench's own sums, and what the tape's readings ask for.
//
// Kept as "tuning": {plan, at, unit, shims, weights, readings}.
//   plan      mark of the bench that shims and weights belong to; on another one they mean nothing and are left out
//   at        when it was last changed, ms since 1970
//   unit      "in" or "mm": what a bare number among the readings is
//   shims     {number of the support, from 1: mm higher than planned}, only those that were changed
//   weights   {"rib-N": {name of the weight: how many lie there}}, only those that were changed
//   readings  {key of the place: text as typed}: "tail", "rib-1" and so on, "nose"; heights above the level line, with
//             everything on, in the builder's own units unless the text names one (see typed.js)
(() => {
  "use strict";
  const place = document.querySelector("[data-shed=tuning]");
  const bench = shed.block("bench-what-if"), tuning = shed.block("bench-tuning");
  if (!place) return;
  if (!bench || !tuning) {
    place.remove();
    return;
  }
  const { make, write } = shed, say = benchWords;
  const units = tuning.units, unit = units === "inches" ? "in" : "mm", step = tuning.step_mm, limit = tuning.limits.middle_mm;
  const ready = benchSolve.prepared(bench);
  const places = tuning.places.map((one) => ({ ...one, wantedMm: benchAdvice.wantedAt(bench, one.x_mm) }));
  const stations = bench.stations.map((i) => bench.nodes.x_mm[i]);
  const wantedThere = stations.map((at) => benchAdvice.wantedAt(bench, at));
  const capital = (words) => words.charAt(0).toUpperCase() + words.slice(1);
  const QUIET_MS = 300, TOLD_MS = 900, SLICE_MS = 8, NEARER_MM = 0.5, LEAST_READINGS = 5, LONGEST = 24, LIGHT_N = 3;

  // ---- what is set ------------------------------------------------------------------------------------------------

  const spotOf = (j, k) => `${j}:${k}`;
  const planned = new Map();
  for (const one of bench.weights.placed) {
    const spot = spotOf(one.place, one.kind);
    planned.set(spot, (planned.get(spot) ?? 0) + one.count);
  }
  let shims = bench.supports.map(() => 0), counts = new Map(planned), readings = {};

  const ribKey = (j) => `rib-${tuning.ribs[j]}`;
  const plain = (value) => (value && typeof value === "object" && !Array.isArray(value) ? value : {});
  const heldToSteps = (mm) => Math.round(Math.min(Math.max(mm, -tuning.most_mm), tuning.most_mm) / step) * step;
  const left = (k) => {
    let used = 0;
    for (const [spot, n] of counts) if (spot.endsWith(`:${k}`)) used += n;
    return bench.weights.kinds[k].count - used;
  };

  /** Take over what is kept, as far as it makes sense here: it may be of another bench, or written by anybody. */
  function recall() {
    const kept = plain(shed.kept("tuning"));
    const same = kept.plan === tuning.plan;
    shims = bench.supports.map((_, s) => {
      const mm = same ? Number(plain(kept.shims)[s + 1]) : 0;
      return Number.isFinite(mm) ? heldToSteps(mm) : 0;
    });
    counts = new Map(planned);
    const weights = same ? plain(kept.weights) : {};
    const told = bench.weights.node.flatMap((_, j) => bench.weights.kinds.flatMap((kind, k) => {
      const n = plain(weights[ribKey(j)])[kind.name];
      return Number.isInteger(n) && n >= 0 ? [[spotOf(j, k), k, n]] : [];
    }));
    for (const [spot] of told) counts.set(spot, 0); // all off first: what one rib gave, another one may have
    for (const [spot, k, n] of told) counts.set(spot, Math.min(n, left(k)));
    readings = {};
    for (const { key } of places) {
      const text = plain(kept.readings)[key];
      if (typeof text === "string" && text) readings[key] = shed.typed.meant(text, kept.unit, unit).slice(0, LONGEST);
    }
  }

  function keep() {
    const moved = Object.fromEntries(shims.flatMap((mm, s) => (mm ? [[s + 1, mm]] : [])));
    const weights = {};
    for (const [spot, n] of counts) {
      const [j, k] = spot.split(":").map(Number);
      if (n !== (planned.get(spot) ?? 0)) (weights[ribKey(j)] ??= {})[bench.weights.kinds[k].name] = n;
    }
    own = true;
    shed.keep("tuning", { plan: tuning.plan, at: Date.now(), unit, shims: moved, weights, readings });
    own = false;
  }
  let own = false, crosses = [], tape = null; // tape: {verdict, passes} of the readings, null before there are enough

  const asPlanned = () =>
    shims.every((mm) => !mm) && [...counts].every(([spot, n]) => n === (planned.get(spot) ?? 0));

  const weightsN = () => bench.weights.node.map((_, j) => bench.weights.kinds.reduce((sum, kind, k) => {
    const more = (counts.get(spotOf(j, k)) ?? 0) - (planned.get(spotOf(j, k)) ?? 0);
    return sum + more * kind.mass_kg * bench.gravity_m_s2;
  }, 0));

  // ---- what comes of it -------------------------------------------------------------------------------------------

  /** The bench laid as it is set; heights compared as a shape, with lift and tilt of the whole left out. */
  function laidNow() {
    const told = benchSolve.settled(ready, shims, weightsN());
    if (told.status !== "ok") return { told };
    const xs = bench.nodes.x_mm;
    const heights = places.map(({ x_mm: at }) => benchSolve.read(xs, told.nodeHeightsMm, at));
    const away = heights.map((mm, i) => mm - places[i].wantedMm);
    const [lift, turn] = benchAdvice.straightLine(places.map(({ x_mm: at }) => at), away, bench.length_mm);
    const level = (at) => lift + (turn * at) / bench.length_mm;
    const offs = places.map((one, i) => ({ ...one, offMm: away[i] - level(one.x_mm) }));
    const worst = offs.reduce((most, one) => (Math.abs(one.offMm) > Math.abs(most.offMm) ? one : most));
    const offMm = stations.map((at, i) => told.heightsMm[i] - wantedThere[i] - level(at));
    return { told, heights, offs, worst, offMm, lift, turn, fine: Math.abs(worst.offMm) <= limit };
  }

  /** A miss as words: to half a millimetre, as fine as it takes not to read like the limit where it is over it. */
  function howFar(mm) {
    const size = Math.abs(mm), near = Math.abs(size - limit) < 0.5;
    if (units === "inches") return near ? say.thin(size, units) : say.length(size, units);
    return say.length(size, units, near ? (size > limit && size - limit < 0.05 ? 0.01 : 0.1) : 0.5);
  }

  const isNothing = (text) => /^0 /.test(text);
  const missWords = (one) => (isNothing(howFar(one.offMm)) ? "on the curve"
    : `${howFar(one.offMm)} too ${one.offMm > 0 ? "high" : "low"} at ${one.name.replace(/ tip$/, "")}`);

  // ---- the drawing, and what it says --------------------------------------------------------------------------------

  const sketch = benchDrawing.drawing(bench, tuning);
  const verdict = make("p", { class: "tuning-verdict" }), signs = make("ul", { class: "tuning-signs" });
  const status = make("p", { class: "tuning-status", role: "status" });
  const supports = bench.supports.map((_, s) => supportRow(s));
  const rows = new Map();
  const weightRows = make("ul", { class: "tuning-rows" });
  const todo = make("div", { class: "tuning-todo" });
  const advice = make("div", { class: "tuning-advice" });
  const back = make("button", { type: "button", class: "shed-button", click: backToPlan }, "Back to the plan");

  /** Shows one line with a sign of its own, so that it is not told by colour alone. */
  function sign(element, fine, ...words) {
    const mark = make("span", { class: fine ? "tuning-yes" : "tuning-no", "aria-hidden": "true" }, fine ? "✓" : "!");
    element.replaceChildren(mark, ...words);
  }

  function show() {
    const now = laidNow();
    place.classList.toggle("tuning-tips", now.told.status !== "ok");
    if (now.told.status !== "ok") {
      sign(verdict, false, make("span", {}, make("strong", {}, "The board tips over like this.")));
      showSigns([]);
      supports.forEach((row, s) => row.set(shims[s], ""));
    } else {
      showResult(now);
    }
    for (const [spot, row] of rows) row.set(counts.get(spot) ?? 0);
    back.setAttribute("aria-disabled", String(asPlanned()));
    place.tuned = now;
    return now;
  }

  const shortly = (mm) => `${howFar(mm)} ${mm > 0 ? "high" : "low"}`;
  const piecesAt = (j) => bench.weights.kinds.reduce((n, _, k) => n + (counts.get(spotOf(j, k)) ?? 0), 0);

  function showResult(now) {
    const { told, worst } = now;
    const words = missWords(worst), size = isNothing(howFar(worst.offMm));
    sign(verdict, now.fine, make("strong", {}, size ? "Right on the curve" : words));
    showSigns(signLines(now));
    supports.forEach((row, s) => row.set(shims[s], supportWords(told, s)));
    const tops = bench.supports.map((one, s) => one.height_mm + shims[s]);
    sketch.show({
      lift: bench.line.base_mm + now.lift,
      turn: bench.line.tilt_mm + now.turn,
      heightsMm: told.heightsMm,
      offMm: now.offMm,
      places: now.offs.map((one) => ({ xMm: one.x_mm, offMm: one.offMm })),
      loadsN: told.loadsN,
      touchMm: told.touchMm,
      topsMm: tops,
      inverted: told.inverted,
      crosses,
      weights: bench.weights.node.map((_, j) => piecesAt(j)),
      worst: { xMm: worst.x_mm, offMm: worst.offMm, fine: now.fine, words: size ? "" : shortly(worst.offMm) },
      range: { high: (mm) => `${say.length(mm, units)} too high`, low: (mm) => `${say.length(mm, units)} too low` },
      words: `At worst ${words}. ${signWords(now)} Heights ${sketch.times} times too large.`,
    });
  }

  /** Whether it is near enough, what bends the wrong way, what touches, what carries too much: [is it good, words]. */
  function signLines({ told, fine }) {
    const size = say.length(limit, units), lines = [[fine, `${fine ? "Within" : "Over"} the limit of ${size}`]];
    if (told.inverted.length) {
      const along = (mm) => say.length(mm, units, 10);
      const where = told.inverted.map(([from, to]) => `${along(from).replace(" mm", "")} to ${along(to)}`);
      lines.push([false, `Hollow, ${say.listed(where)}: never glue it`]);
    }
    const free = told.loadsN.flatMap((load, s) => (load > 0 ? [] : [String(s + 1)]));
    if (!free.length) lines.push([true, "Every support touches"]);
    else lines.push([false, free.length > 1 ? `Supports ${say.listed(free)} are free` : `Support ${free[0]} is free`]);
    const hollowRead = tape?.verdict === "hollow" || tape?.verdict === "both";
    if (hollowRead) lines.push([false, "Hollow by your readings: never glue it"]);
    else if (!told.inverted.length) lines.push([true, "No hollow"]);
    if (tape && !hollowRead) lines.push([tape.passes, tape.passes ? "Your readings pass" : "Your readings do not pass yet"]);
    const most = tuning.supports.map((one) => one.takes_n || Infinity); // 0: nothing could be piled there
    const over = told.loadsN.flatMap((load, s) => (load > most[s] ? [String(s + 1)] : []));
    if (over.length) lines.push([false, `Too heavy for the pile at support ${say.listed(over)}`]);
    return lines;
  }

  let signed = "";
  function showSigns(lines) {
    if (signed === JSON.stringify(lines)) return; // most steps change nothing here
    signed = JSON.stringify(lines);
    signs.replaceChildren(...lines.map(([fine, line]) => {
      const item = make("li");
      sign(item, fine, make("span", {}, line));
      return item;
    }));
  }

  const signWords = (now) => `${signLines(now).map(([, line]) => line).join(". ")}.`;

  function supportWords(told, s) {
    if (told.loadsN[s] > 0 && told.loadsN[s] < LIGHT_N) return "only just touches";
    if (told.loadsN[s] > 0) return `about ${say.load(told.loadsN[s], units)}`;
    return `free: ${say.length(told.gapsMm[s], units)} of air`;
  }

  // ---- steps ------------------------------------------------------------------------------------------------------

  /** Minus, a value, plus: a row of the lists. `set` shows a value and what it comes to. */
  function stepper(name, { number, small, less, more, onStep }) {
    const value = make("span", { class: "tuning-value" }), under = make("span", { class: "tuning-small" }, small ?? "");
    const button = (label, by, sign_) => make("button", {
      type: "button", class: "tuning-step", "aria-label": `${name}: ${label}`,
      click: (event) => { if (event.currentTarget.getAttribute("aria-disabled") !== "true") onStep(by); },
    }, sign_);
    const minus = button(less, -1, "−"), plus = button(more, 1, "+");
    const spot = number ? make("span", { class: "tuning-spot", "aria-hidden": "true" }, number) : null;
    const row = make("li", { class: "tuning-row" },
      make("span", { class: "tuning-name" }, spot, make("span", {}, make("strong", {}, name), under)),
      make("span", { class: "tuning-steps", role: "group", "aria-label": name }, minus, value, plus));
    return { row, value, under, minus, plus };
  }

  function supportRow(s) {
    const name = capital(tuning.supports[s].name), size = say.thin(step, units);
    const made = stepper(name, {
      number: String(s + 1), less: `${size} lower`, more: `${size} higher`,
      onStep: (by) => {
        shims[s] = heldToSteps(shims[s] + by * step);
        changed(`Support ${s + 1}: ${shiftWords(shims[s])}.`);
      },
    });
    const set = (mm, words) => {
      write(made.value, (mm > 0 ? "+" : "") + say.thin(mm, units));
      made.row.classList.toggle("tuning-changed", mm !== 0);
      write(made.under, words);
      made.minus.setAttribute("aria-disabled", String(mm - step < -tuning.most_mm));
      made.plus.setAttribute("aria-disabled", String(mm + step > tuning.most_mm));
    };
    return { row: made.row, set };
  }

  const shiftWords = (mm) =>
    (mm ? `${say.thin(Math.abs(mm), units)} ${mm > 0 ? "higher" : "lower"} than planned` : "as planned");

  function weightRow(spot) {
    const [j, k] = spot.split(":").map(Number), kind = bench.weights.kinds[k];
    const made = stepper(`Rib ${tuning.ribs[j]}: ${kind.name}`, {
      small: `${say.mass(kind.mass_kg, units)} each`, less: "one off", more: "one more",
      onStep: (by) => {
        counts.set(spot, Math.max(0, (counts.get(spot) ?? 0) + by));
        changed(`Rib ${tuning.ribs[j]}: ${counts.get(spot)} × ${kind.name}.`);
      },
    });
    const set = (n) => {
      write(made.value, String(n));
      made.row.classList.toggle("tuning-changed", n !== (planned.get(spot) ?? 0));
      made.minus.setAttribute("aria-disabled", String(n <= 0));
      made.plus.setAttribute("aria-disabled", String(left(k) <= 0));
    };
    rows.set(spot, { row: made.row, set, order: j * bench.weights.kinds.length + k });
    weightRows.append(...[...rows.values()].sort((a, b) => a.order - b.order).map(({ row }) => row));
    return rows.get(spot);
  }

  /** Rows for what lies on the board or was touched; the others can be put on by `more`. */
  function listWeights() {
    for (const [spot, n] of counts) if ((n || planned.has(spot)) && !rows.has(spot)) weightRow(spot);
  }

  function moreWeights() {
    const choice = (label, names) =>
      make("select", { class: "shed-field", "aria-label": label }, ...names.map((name, i) => make("option", { value: String(i) }, name)));
    const rib = choice("Rib", tuning.ribs.map((n) => `rib ${n}`));
    const kind = choice("Weight", bench.weights.kinds.map((one) => one.name));
    const put = make("button", { type: "button", class: "shed-button", click: () => {
      const spot = spotOf(rib.value, kind.value), k = Number(kind.value);
      if (!rows.has(spot)) weightRow(spot);
      const some = left(k) > 0;
      if (some) counts.set(spot, (counts.get(spot) ?? 0) + 1);
      changed(some ? `Rib ${tuning.ribs[rib.value]}: ${counts.get(spot)} × ${bench.weights.kinds[k].name}.`
        : `There is no ${bench.weights.kinds[k].name} left.`);
    } }, "Put on");
    return make("div", { class: "tuning-more" }, make("span", { class: "tuning-small" }, "Put one on a rib:"), rib, kind, put);
  }

  // ---- from steps to pieces -----------------------------------------------------------------------------------------

  const MOST_PIECES = 6, SAME_MM = 0.06;

  /** One way a support to make what is set from whole shims, null at those where that can't be done. */
  function piecesNow() {
    const held = tuning.supports.map((one) => one.held);
    const none = { changeMm: 0, counts: bench.shims.map(() => 0), pieces: 0 };
    const options = shims.map((mm, s) => (mm
      ? benchAdvice.changesAt(s, bench.shims, held, MOST_PIECES, tuning.most_mm + 1).flat()
        .filter((way) => Math.abs(way.changeMm - mm) < SAME_MM).sort(benchAdvice.byPieces).slice(0, 8)
      : [none]));
    const able = options.map((ways) => (ways.length ? ways : [none]));
    const ways = benchAdvice.stocked(able, bench.shims.map((shim) => shim.count));
    return options.map((one, s) => (one.length && ways ? ways[s] : null));
  }

  const times = (count, name) => `${count}\u00a0×\u00a0${name}`;
  const pieceWords = (pieces) => {
    const part = (those, verb) => (those.length
      ? [`${verb} ${say.listed(those.map(({ kind, count }) => times(Math.abs(count), bench.shims[kind].name)))}`] : []);
    const more = pieces.filter(({ count }) => count > 0), less = pieces.filter(({ count }) => count < 0);
    return [...part(more, "put in"), ...part(less, "take out")].join(", ");
  };
  const asPieces = (way) => way.counts.flatMap((count, kind) => (count ? [{ kind, count }] : []));

  const noWay = (mm) => (mm > 0 ? `raise it by ${say.thin(mm, units)}; your shims can't make just that`
    : `lower its pile by ${say.thin(-mm, units)}; no shims in it make just that`);

  /** What these steps come to on the bench. */
  function showTodo() {
    if (asPlanned()) {
      todo.replaceChildren(make("p", {}, "This is the bench as planned. Nothing is changed."));
      return;
    }
    const ways = shims.some(Boolean) ? piecesNow() : [];
    const lines = shims.flatMap((mm, s) =>
      (mm ? [[`Support ${s + 1}`, ways[s] ? pieceWords(asPieces(ways[s])) : noWay(mm)]] : []));
    for (const [spot, n] of [...counts].sort(([a], [b]) => Number.parseInt(a, 10) - Number.parseInt(b, 10))) {
      const [j, k] = spot.split(":").map(Number), by = n - (planned.get(spot) ?? 0);
      const pieces = times(Math.abs(by), bench.weights.kinds[k].name);
      if (by) lines.push([`Rib ${tuning.ribs[j]}`, `${by > 0 ? "put on" : "take off"} ${pieces}`]);
    }
    todo.replaceChildren(make("p", {}, "On the bench that means:"),
      make("ul", {}, ...lines.map(([where, what]) => make("li", {}, make("strong", {}, `${where}: `), what))));
  }

  // ---- advice -----------------------------------------------------------------------------------------------------

  /** Runs a sum that pauses, a few milliseconds at a time, so that a tap is answered meanwhile; null if it was given up. */
  function inSlices(run, goOn) {
    return new Promise((done) => {
      const more = () => {
        if (!goOn()) return done(null);
        const until = performance.now() + SLICE_MS;
        for (;;) {
          const { done: over, value } = run.next();
          if (over) return done(value);
          if (performance.now() > until) break;
        }
        setTimeout(more);
      };
      more();
    });
  }

  /** The bench as it now stands: what each stack holds and what is left in the house. */
  function stockNow() {
    const ways = piecesNow(), none = bench.shims.map(() => 0);
    const held = tuning.supports.map((one, s) => one.held.map((n, k) => n + (ways[s]?.counts ?? none)[k]));
    const used = none.map((_, k) => ways.reduce((n, way) => n + (way?.counts[k] ?? 0), 0));
    const stock = bench.shims.map((shim, k) => ({ ...shim, count: Math.max(0, shim.count - used[k]) }));
    return { held, ready: { ...ready, data: { ...bench, shims: stock } } };
  }

  const corrected = (xMm, readMm, goOn) => {
    const { held, ready: there } = stockNow();
    const now = { shimsMm: shims.slice(), weightsN: weightsN() };
    return inSlices(benchAdvice.correcting(there, { xMm, readMm, held, ...now }), goOn);
  };

  function moveWords({ support, changeMm, pieces }) {
    const size = say.thin(Math.abs(changeMm), units), where = `support ${support + 1}`;
    return `${changeMm > 0 ? `add ${size} at ${where}` : `lower ${where} by ${size}`}: ${pieceWords(pieces)}`;
  }

  /** Puts the moves of a correction into the steps above. */
  function doMoves(moves) {
    for (const { support, changeMm } of moves) shims[support] = heldToSteps(shims[support] + changeMm);
    changed(`Set: ${moves.map(moveWords).join("; ")}.`);
  }

  function movesList(fix, words, press) {
    return [
      make("p", {}, words),
      make("ul", {}, ...fix.moves.map((move) => make("li", {}, `${capital(moveWords(move))}.`))),
      make("p", {}, `By the sums ${howFar(fix.afterMm)} is then left at the worst place.`),
      make("button", { type: "button", class: "shed-button", click: () => doMoves(fix.moves) }, press),
    ];
  }

  let asked = 0;
  /** The nearest that shims can bring this bench by the sums; worked out once the steps have rested. */
  async function advise() {
    const mine = (asked += 1), now = place.tuned;
    if (now.told.status !== "ok") {
      return showAdvice(make("p", {}, "Take the weight off that makes it tip, or put one at the other end."));
    }
    const fix = await corrected(places.map(({ x_mm: at }) => at), now.heights, () => mine === asked);
    if (!fix) return undefined;
    const good = now.fine && !now.told.inverted.length && now.told.loadsN.every((load) => load > 0);
    const goodWords = tape && !tape.passes ? ", but what you read counts: see below." : ": leave it.";
    const head = `By the sums this is ${good ? `good${goodWords}` : "not good yet."}`;
    const strong = make("p", {}, make("strong", {}, head));
    if (!fix.moves.length || fix.beforeMm - fix.afterMm < NEARER_MM) {
      if (!good) strong.append(" No shim that you have would bring it nearer. Try a weight, or go back to the plan.");
      return showAdvice(strong);
    }
    const list = movesList(fix, "Nearest with what you have:", "Set it like this");
    if (!good) return showAdvice(strong, ...list);
    const summary = make("summary", {}, "If you want it still nearer");
    return showAdvice(strong, make("details", { class: "tuning-nearer" }, summary, ...list));
  }

  function showAdvice(...parts) {
    advice.replaceChildren(...parts);
    advice.dataset.done = "";
  }

  // ---- what happens when --------------------------------------------------------------------------------------------

  let resting, telling;
  function later() {
    clearTimeout(resting);
    asked += 1; // gives up what is being worked out
    delete advice.dataset.done;
    resting = setTimeout(() => { showTodo(); judge().then(advise); }, QUIET_MS);
  }

  function tell(words) {
    clearTimeout(telling);
    telling = setTimeout(() => { status.textContent = words; }, TOLD_MS);
  }

  function changed(what) {
    listWeights();
    const now = show(), lies = now.told.status === "ok";
    keep();
    later();
    tell(`${what} ${lies ? `${capital(missWords(now.worst))}. ${signWords(now)}` : "The board tips over like this."}`);
  }

  function backToPlan() {
    if (asPlanned()) return;
    shims = shims.map(() => 0);
    counts = new Map(planned);
    changed("Back to the plan.");
  }

  // ---- what the tape says -------------------------------------------------------------------------------------------

  const found = make("div", { class: "tuning-found" });
  const inputs = places.map((one, n) => {
    const id = `tuning-${one.key}`, note = make("span", { class: "tuning-note", id: `${id}-note` });
    const input = make("input", {
      type: "text", class: "shed-field", id, inputmode: units === "inches" ? "text" : "decimal", autocomplete: "off", maxlength: LONGEST,
      "aria-describedby": `${id}-note`, enterkeyhint: "next",
      input: () => {
        if (input.value.trim()) readings[one.key] = input.value;
        else delete readings[one.key];
        keep();
        judged += 1; // what is being worked out was typed otherwise
        delete found.dataset.verdict;
        later();
      },
      keydown: (event) => { if (event.key === "Enter") inputs[n + 1]?.input.focus(); },
    });
    const row = make("li", { class: "tuning-read" },
      make("label", { for: id },
        make("strong", {}, capital(one.name.replace(/^the /, ""))),
        make("span", { class: "tuning-small" }, `aim for ${say.length(one.aim_mm, units)}`)),
      note, input);
    return { ...one, input, note, row };
  });

  /** Heights that can be read, tail first; a text that can't gets a word beside it. */
  function readNow() {
    return inputs.flatMap(({ key, x_mm: xMm, name, input, note }) => {
      const text = readings[key] ?? "", got = shed.typed.read(text, "length", unit);
      const mm = got?.value, fine = !text || (mm >= 0 && mm <= 900);
      input.toggleAttribute("aria-invalid", false);
      if (!fine) input.setAttribute("aria-invalid", "true");
      note.textContent = fine ? "" : `Like ${units === "inches" ? "7 3/8 or 7.38" : "187 or 187.5"}`;
      return text && fine ? [{ key, name, xMm, mm }] : [];
    });
  }

  const FOUND = {
    fair: [true, "The readings make one fair curve.", "No reading stands out, and there is no hollow."],
    misread: [false, "A reading does not fit.", "A board can't have a kink, so the tape slipped, most likely. Read it again:"],
    hollow: [false, "There is a true hollow.", "Neighbouring readings agree about it, so it is not the tape. Do not glue:"],
    both: [false, "There is a hollow, and a reading that does not fit.", "Read again before you change anything:"],
    unclear: [false, "The readings don't tell enough.", "Read these places again, and one more place between each and its neighbours:"],
  };

  /** How far each reading is from the curve to aim for, as a shape; for the drawing. */
  function crossesOf(read) {
    const off = read.map(({ xMm, mm }) => mm - benchAdvice.wantedAt(bench, xMm));
    const [lift, turn] = benchAdvice.straightLine(read.map(({ xMm }) => xMm), off, bench.length_mm);
    return read.map(({ xMm }, i) => ({ xMm, offMm: off[i] - lift - (turn * xMm) / bench.length_mm }));
  }

  let judged = 0, heard = "";
  /** The verdict on what was typed, and the shims that it asks for. */
  async function judge() {
    const mine = (judged += 1), read = readNow();
    delete found.dataset.verdict;
    if (read.length < LEAST_READINGS) {
      if (tape) {
        crosses = [];
        tape = null;
        show();
      }
      const so = `${read.length} of at least ${LEAST_READINGS} heights. Both tips and the ribs beside the supports tell most.`;
      found.replaceChildren(make("p", {}, read.length ? so : "Nothing typed yet."));
      return;
    }
    const xMm = read.map((one) => one.xMm), readMm = read.map((one) => one.mm);
    const told = benchAdvice.curveFromReadings(xMm, readMm, bench.length_mm);
    const trusted = told.verdict === "fair" || told.verdict === "hollow";
    const fix = trusted && laidNow().told.status === "ok" ? await corrected(xMm, readMm, () => mine === judged) : null;
    if (mine !== judged) return;
    crosses = crossesOf(read);
    tape = { verdict: told.verdict, passes: told.verdict === "fair" && fix !== null && fix.beforeMm <= limit };
    show();
    showFound(read, told, fix);
    if (found.textContent !== heard) tell(found.textContent);
    heard = found.textContent;
  }

  const slipItem = ({ index, readMm, expectedMm }, read) => make("li", {}, make("strong", {}, `${capital(read[index].name)}: `),
    `you read ${say.length(readMm, units)}, the others lead to ${say.length(expectedMm, units)}.`);

  function hollowItem({ fromMm, toMm, deepMm, atMm }) {
    const along = (mm) => say.length(mm, units, 10);
    const deep = units === "inches" ? say.thin(deepMm, units) : say.length(deepMm, units, 0.1);
    return make("li", {}, make("strong", {}, "Hollow "), `from ${along(fromMm)} to ${along(toMm)} from the tail tip. `
      + `Under the straight edge it is ${deep} deep, at ${along(atMm)}.`);
  }

  function showFound(read, told, fix) {
    const [fair, head, words] = FOUND[told.verdict];
    const { passes } = tape;
    const first = make("p", { class: "tuning-verdict" });
    sign(first, fair, make("span", {}, make("strong", {}, head), ` ${words}`));
    const items = [...told.misread.map((slip) => slipItem(slip, read)), ...told.hollows.map(hollowItem)];
    found.replaceChildren(first, ...(items.length ? [make("ul", {}, ...items)] : []), ...fixParts(fix, passes));
    found.dataset.verdict = told.verdict;
    found.dataset.passes = String(passes);
  }

  function fixParts(fix, passes) {
    if (!fix) return [make("p", {}, "First read again. Then this place can say which shim belongs where.")];
    const line = make("p", { class: "tuning-verdict" });
    const more = tape.verdict === "hollow"
      ? [make("p", {}, make("a", { href: "#check-rocker-hollow" }, "What to do about a hollow"))] : [];
    const missed = `The curve to aim for is missed by ${howFar(fix.beforeMm)} at the worst place.`;
    const near = fix.beforeMm <= limit ? " That would do, but a hollow never passes." : ` The limit is ${say.length(limit, units)}.`;
    sign(line, passes, make("span", {}, make("strong", {}, missed), passes ? " That passes." : near));
    if (!fix.moves.length) {
      const stay = passes ? "Leave it as it is." : "No shim that you have would bring it nearer.";
      return [line, make("p", {}, stay), ...more];
    }
    const words = passes ? "If you want it still nearer, with what you have:" : "Nearest with what you have:";
    return [line, ...movesList(fix, words, "Set the steps like this"), ...more];
  }

  function clearReadings() {
    readings = {};
    for (const { input } of inputs) input.value = "";
    keep();
    judge();
    inputs[0].input.focus();
  }

  // ---- on the page ------------------------------------------------------------------------------------------------

  function fill() {
    recall();
    listWeights();
    for (const { key, input } of inputs) if (input.value !== (readings[key] ?? "")) input.value = readings[key] ?? "";
    show();
    later();
  }

  const caption = "Dashed: the curve to aim for. Below: how far each place is from it, compared as a shape, within the limit where "
    + `it is shaded. Crosses are your own readings, once you have typed them. Heights above are ${sketch.times} times too large.`;
  place.querySelector(".tuning-room").replaceWith(
    make("p", {}, "Before you lift anything: change a shim (card or another thin sheet under a support) or a weight here, "
      + "and see what the whole curve does, by the sums."),
    make("div", { class: "tuning-try" },
      make("div", { class: "tuning-view" }, sketch.svg, verdict, signs),
      make("div", { class: "tuning-hands" },
        make("p", { class: "tuning-caption" }, caption),
        make("h3", {}, "Shims under the supports"),
        make("ul", { class: "tuning-rows" }, ...supports.map(({ row }) => row)),
        ...(bench.weights.kinds.length ? [make("h3", {}, "Weights that bend the board"), weightRows, moreWeights()] : []),
        todo, back, advice)),
    make("h3", {}, "What does your tape say?"),
    make("p", {}, "Set the steps above to what is on your bench. Then type each height above the level line, with everything on."),
    make("ul", { class: "tuning-reads" }, ...inputs.map(({ row }) => row)),
    found,
    make("button", { type: "button", class: "shed-button", click: clearReadings }, "Clear the heights"),
    status,
  );
  shed.heed("tuning", () => { if (!own) fill(); });
  fill();
})();
