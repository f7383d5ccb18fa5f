// Progress as a file: saved here, brought in on another phone, and ticks forgotten. Nothing leaves the phone by itself.
(() => {
  "use strict";
  const place = document.querySelector('[data-shed="carry"]');
  if (!place) return;
  const { make } = shed;
  const LARGEST = 1000000; // bytes; a whole build's progress is a fiftieth of it
  const UNCHANGED = "Nothing was changed.";
  const isObject = (value) => value !== null && typeof value === "object" && !Array.isArray(value);
  const isTime = (value) => Number.isFinite(value) && value >= 0 && value <= 8.64e15;
  const isText = (value) => typeof value === "string" && value.length <= 500;
  const isId = (value) => /^[A-Za-z][\w.:-]{0,120}$/.test(value);
  const entries = (value, good) => isObject(value) && Object.entries(value).every(([id, one]) => isId(id) && good(one));
  const isClock = (one) =>
    isObject(one) && isText(one.label) && (one.page === undefined || isText(one.page)) && shed.isClock(one) &&
    [one.to, one.stopped].every((time) => time === undefined || time === null || isTime(time));
  const isMeasured = (one) => isObject(one) && isText(one.text) && isTime(one.at);
  const isTuning = (value) =>
    isObject(value) && [value.plan, value.unit].every((text) => text === undefined || isText(text)) &&
    (value.at === undefined || isTime(value.at)) &&
    [value.shims, value.weights, value.readings].every((part) => part === undefined || isObject(part));

  /** By the name under which it is kept: whether a value can be right, and when one entry was made. */
  const KINDS = {
    ticks: { good: (value) => entries(value, isTime), made: (one) => one },
    clocks: { good: (value) => entries(value, isClock), made: (one) => Math.max(one.began, one.stopped ?? 0) },
    measured: { good: (value) => entries(value, isMeasured), made: (one) => one.at },
    tuning: { good: isTuning, made: null },
    stage: { good: (value) => isObject(value) && isText(value.slug) && isTime(value.at), made: null },
  };

  /** Of what is kept here, what can be right: a damaged store must not keep the rest from being carried. */
  function sound(own, { good, made }) {
    if (!made) return good(own) ? own : null;
    return Object.fromEntries(Object.entries(isObject(own) ? own : {}).filter(([id, one]) => good({ [id]: one })));
  }

  /** The newer of two that are kept as one whole; ours if nothing tells which is newer. */
  function newer(own, theirs) {
    if (!isObject(own)) return theirs;
    return (theirs.at ?? 0) > (own.at ?? 0) ? theirs : own;
  }

  /** Both together: of each entry the newer one. */
  function merged(own, theirs, made) {
    const both = new Map(Object.entries(own));
    for (const [id, one] of Object.entries(theirs)) {
      if (!both.has(id) || made(one) > made(both.get(id))) both.set(id, one);
    }
    return Object.fromEntries(both);
  }

  /** What is wrong with a file's text, in one sentence, or what is kept in it. */
  function read(text) {
    let file;
    try {
      file = JSON.parse(text);
    } catch {
      return { wrong: "This file is broken, or it is not saved progress." };
    }
    if (!isObject(file) || file.shedbook === undefined || !isObject(file.kept)) {
      return { wrong: "This file is not saved progress of a guide." };
    }
    if (file.shedbook !== 1) return { wrong: "This file was saved by a newer kind of guide than this one." };
    if (file.guide !== shed.guide) return { wrong: "This file belongs to another guide." };
    const faulty = Object.keys(KINDS).find((name) => Object.hasOwn(file.kept, name) && !KINDS[name].good(file.kept[name]));
    if (faulty) return { wrong: `This file holds something that can't be right (${faulty}).` };
    return { kept: file.kept };
  }

  /** Put what was brought beside what is here; how many boxes are new, and whether all of it will last. */
  function bring(kept) {
    const before = Object.keys(shed.ticks()).length;
    let lasts = true;
    for (const [name, { made }] of Object.entries(KINDS)) {
      if (!Object.hasOwn(kept, name)) continue;
      const own = sound(shed.kept(name), KINDS[name]);
      lasts = shed.keep(name, made ? merged(own, kept[name], made) : newer(own, kept[name])) && lasts;
    }
    return { fresh: Object.keys(shed.ticks()).length - before, lasts };
  }

  async function brought(file) {
    if (file.size > LARGEST) return `This file is far too large to be saved progress. ${UNCHANGED}`;
    let text;
    try {
      text = await file.text();
    } catch {
      return `This file can't be read. ${UNCHANGED}`;
    }
    const { wrong, kept } = read(text);
    if (wrong) return `${wrong} ${UNCHANGED}`;
    const { fresh, lasts } = bring(kept);
    const count = `Brought in. ${fresh === 1 ? "1 tick is" : `${fresh} ticks are`} new on this phone.`;
    return lasts ? count : `${count} But this browser keeps nothing: it is gone when you leave the page.`;
  }

  /** All that is kept for this guide, as the text of a file. */
  function saved() {
    const names = Object.keys(KINDS).filter((name) => shed.kept(name) !== null);
    const kept = Object.fromEntries(names.map((name) => [name, sound(shed.kept(name), KINDS[name]) ?? undefined]));
    return JSON.stringify({ shedbook: 1, guide: shed.guide, saved: new Date().toISOString(), kept }, null, 1);
  }

  /** The board and the day, and nobody's name. */
  function fileName(ending) {
    const board = (place.dataset.board ?? "").normalize("NFKD").toLowerCase().replace(/[^a-z0-9]+/g, "-");
    const now = new Date();
    const day = [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((part) => String(part).padStart(2, "0"));
    return ["shedbook-progress", board.replace(/^-|-$/g, "").slice(0, 40), ...day].filter(Boolean).join("-") + ending;
  }

  function save() {
    shed.download(fileName(".json"), "application/json", saved());
    say("Saved. The file lies where your browser puts its downloads.");
  }

  /** Phones pass on texts where they pass on no JSON. */
  const toSend = () => new File([saved()], fileName(".txt"), { type: "text/plain" });
  function maySend() {
    try {
      return Boolean(navigator.canShare?.({ files: [new File([""], "a.txt", { type: "text/plain" })] }));
    } catch {
      return false;
    }
  }
  async function send() {
    try {
      await navigator.share({ files: [toSend()] });
    } catch (stopped) {
      if (stopped.name !== "AbortError") say("It could not be sent. Save it to a file instead.");
    }
  }

  const told = make("p", { class: "carry__told shed-note", role: "status" });
  const say = (text) => told.replaceChildren(text);
  const button = (words, click) => make("button", { type: "button", class: "shed-button", click }, words);

  const file = make("input", {
    type: "file", accept: ".json,.txt,application/json,text/plain", hidden: true, "aria-label": "Saved progress",
    change: async () => {
      const [chosen] = file.files;
      if (chosen) say(await brought(chosen));
      file.value = "";
    },
  });

  const forgetting = make("div", { class: "carry__forget" });
  const first = button("Forget all ticks on this phone", ask);

  /** Two taps of our own: the second one says what will be gone. */
  function ask() {
    const count = Object.keys(shed.ticks()).length;
    if (count === 0) return say("There is no tick to forget.");
    const keepThem = button("Keep them", calm);
    forgetting.replaceChildren(
      make("p", {}, `${count === 1 ? "One tick" : `All ${count} ticks`} will be gone from this phone. There is no way back but a saved file.`),
      button("Yes, forget them", () => {
        shed.forget("ticks");
        calm();
        say("All ticks on this phone are forgotten.");
      }),
      keepThem,
    );
    return keepThem.focus();
  }
  function calm() {
    forgetting.replaceChildren(first);
    first.focus();
  }

  forgetting.append(first);
  place.append(
    make("details", { class: "carry__box" },
      make("summary", {}, "Take your progress along"),
      make("p", {}, "Ticks, clocks and what you measured stay on this phone. A file carries them to another one, or keeps them safe."),
      make("div", { class: "shed-row" },
        button("Save progress to a file", save),
        maySend() ? button("Send progress", send) : null,
        button("Bring progress from a file", () => file.click()),
        file,
      ),
      told,
      forgetting,
    ),
  );
})();
