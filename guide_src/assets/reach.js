// Keeps the next action within reach of a thumb: the next box that is not ticked, and the clock that ends first.
(() => {
  "use strict";
  const { kept, heed, make, block } = window.shed;
  const HOUR_MS = 3600000;
  const LOOK_AGAIN_MS = 20000;
  const FORGOTTEN_MS = 12 * HOUR_MS; // a clock that nobody put out in half a day says nothing any more
  const DAYS = ["Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"];
  const YEAR_MS = 366 * 24 * HOUR_MS;
  const bar = document.querySelector(".reach");
  if (!bar) return;
  const next = bar.querySelector(".reach__next");
  const clock = bar.querySelector(".reach__clock");
  const still = matchMedia("(prefers-reduced-motion: reduce)");
  const otherwise = next && { way: text(".reach__way").replace(/: $/, ""), what: text(".reach__what"), to: next.getAttribute("href") };
  let aim = null; // the box that the middle leads to, on this page

  function text(place) {
    return next.querySelector(place).textContent;
  }

  /** What the middle says, and where it leads. */
  function show({ way, what, to }) {
    next.querySelector(".reach__way").textContent = `${way}: `;
    next.querySelector(".reach__what").textContent = what;
    next.setAttribute("href", to);
  }

  /** On a stage's page: its first box without a tick, and then the next page. */
  function nextHere(ticks) {
    const boxes = [...document.querySelectorAll(".tick-box[data-tick]")];
    aim = boxes.find((box) => !Object.hasOwn(ticks, box.dataset.tick)) ?? null;
    if (!aim) return otherwise;
    const what = document.querySelector(`label[for="${aim.id}"]`)?.textContent ?? "";
    return { way: aim.dataset.tick.startsWith("step-") ? "Next" : "Next check", what, to: `#${aim.id}` };
  }

  /** On any other page: the first stage that has a box without a tick, if the page tells of them all. */
  function nextStage(ticks) {
    const by = kept("stage")?.slug;
    const stages = block("guide-boxes")?.stages ?? [];
    const at = by ? stages.find(({ slug }) => slug === by) : null;
    if (!Object.keys(ticks).length && !at) return otherwise;
    const stage = at ?? window.shed.coming(stages);
    return stage ? { way: "Your stage", what: stage.title, to: stage.file } : otherwise;
  }

  function renew() {
    const ticks = window.shed.ticks();
    if (next) show(bar.dataset.reach === "stage" ? nextHere(ticks) : nextStage(ticks));
  }

  /** To the box itself, with the focus on it, so that the next tap or the space bar ticks it. */
  function go(event) {
    if (!aim || event.ctrlKey || event.metaKey || event.shiftKey) return;
    event.preventDefault();
    const card = aim.closest(".step, .check") ?? aim;
    card.scrollIntoView({ block: "start", behavior: still.matches ? "auto" : "smooth" });
    aim.focus({ preventScroll: true });
  }

  /** The day of the week if it is not today, and the time of day as "21:40". */
  function dayAndTime(when) {
    const [hours, minutes] = [when.getHours(), when.getMinutes()].map((number) => String(number).padStart(2, "0"));
    const today = when.toDateString() === new Date().toDateString();
    return [today ? "" : DAYS[when.getDay()], `${hours}:${minutes}`];
  }

  /** Clocks that run, or that are over and not put out yet, first things first. */
  function running() {
    const now = Date.now();
    return window.shed.clocks().filter(
      ({ stopped, ends }) => !Number.isFinite(stopped) && ends > now - FORGOTTEN_MS && ends < now + YEAR_MS,
    );
  }

  /** The clock that ends first, with its time of day. */
  function tell() {
    const first = running()[0];
    clock.hidden = !first;
    if (!first) return;
    const when = new Date(first.ends);
    const over = when.getTime() <= Date.now();
    const [day, time] = dayAndTime(when);
    clock.classList.toggle("reach__clock--over", over);
    clock.setAttribute("href", first.page ? `${first.page}#${encodeURIComponent(first.id)}` : "index.html");
    const what = make("span", { class: "reach__unseen" }, `${first.label}: `);
    const until = over ? "since" : day || "until";
    clock.replaceChildren(make("span", { class: "reach__of" }, what, until), make("span", { class: "reach__time" }, time));
  }

  // A keyboard on the glass leaves little room: the bar makes way for it.
  const TYPED = "input:not([type=checkbox]):not([type=radio]):not([type=button]):not([type=file]):not([type=range]), textarea";
  const typing = (event, now) => {
    if (event.target.matches?.(TYPED)) document.documentElement.classList.toggle("typing", now);
  };
  addEventListener("focusin", (event) => typing(event, true));
  addEventListener("focusout", (event) => typing(event, false));

  next?.addEventListener("click", go);
  heed("ticks", renew);
  heed("stage", renew);
  heed("clocks", tell);
  renew();
  tell();
  bar.classList.add("reach--told"); // only now: a line that changes its length after painting would jump
  setInterval(tell, LOOK_AGAIN_MS);
})();
