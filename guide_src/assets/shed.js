// What every script of the guide stands on: what this phone keeps for this guide, and elements made without markup.
// Classic and without dependencies, so that it runs from a folder too. It comes first, before anything is painted.
window.shed = (() => {
  "use strict";
  // Two words of the language that phones of 2021 lack; every script here speaks them.
  Object.hasOwn ??= (thing, name) => Object.prototype.hasOwnProperty.call(thing, name);
  Array.prototype.at ??= function at(place) {
    return this[place < 0 ? this.length + place : place];
  };
  const guide = document.querySelector("meta[name=shedbook-guide]")?.content ?? "";
  const prefix = `shedbook:${guide}:`;
  const MINUTE_MS = 60000;
  const memory = new Map(); // where the browser keeps nothing: for this page only
  let lasting = true; // false also where the store is full: what is kept can then still be read
  for (const store of ["localStorage", "sessionStorage"]) {
    try {
      window[store].getItem("");
    } catch {
      // Forbidden: the theme asks it unguarded, and would leave half the page dead.
      const none = { getItem: () => null, setItem: () => { throw new DOMException("nothing is kept", "QuotaExceededError"); }, removeItem() {} };
      Object.defineProperty(window, store, { value: none, configurable: true });
    }
  }
  try {
    const probe = `${prefix}probe`;
    localStorage.setItem(probe, "1");
    localStorage.removeItem(probe);
  } catch {
    lasting = false;
  }
  document.documentElement.classList.add("scripts");
  if (location.protocol === "file:") document.documentElement.classList.add("folder"); // where nothing may be fetched
  document.documentElement.classList.toggle("forgetful", !lasting);

  /** What is kept under `name`, or `otherwise` if there is nothing or what is there can't be read. */
  function kept(name, otherwise = null) {
    try {
      const text = memory.get(name) ?? localStorage.getItem(prefix + name);
      return text === null ? otherwise : JSON.parse(text);
    } catch {
      return otherwise;
    }
  }

  /** Keep `value` (anything that JSON can say) under `name`, and tell this page; false if it is lost with the page. */
  function keep(name, value) {
    const text = JSON.stringify(value);
    let done = true;
    memory.delete(name);
    try {
      localStorage.setItem(prefix + name, text);
    } catch {
      done = false; // full, forbidden, or taken away meanwhile
      memory.set(name, text);
    }
    tell(name);
    return done;
  }

  function forget(name) {
    try {
      localStorage.removeItem(prefix + name);
    } catch {
      // nothing was kept there
    }
    memory.delete(name);
    tell(name);
  }

  const ears = new Map();
  function tell(name) {
    for (const ear of ears.get(name) ?? []) ear();
  }

  function tellAll() {
    for (const name of ears.keys()) tell(name);
  }

  /** Call `ear` whenever what is kept under `name` changes, on this page or on another one of this guide. */
  function heed(name, ear) {
    ears.set(name, [...(ears.get(name) ?? []), ear]);
  }
  addEventListener("storage", (event) => {
    if (event.key === null) tellAll(); // all of it was cleared
    else if (event.key.startsWith(prefix)) tell(event.key.slice(prefix.length));
  });
  addEventListener("pageshow", (event) => event.persisted && tellAll()); // a page that lay asleep has heard nothing

  /** An element with attributes and children; texts stay texts. A function as attribute hears the event of its name. */
  function make(tag, attributes = {}, ...children) {
    const made = document.createElement(tag);
    for (const [name, value] of Object.entries(attributes)) {
      if (typeof value === "function") made.addEventListener(name, value);
      else if (value === true) made.setAttribute(name, "");
      else if (value !== false && value !== null && value !== undefined) made.setAttribute(name, value);
    }
    made.append(...children.filter((child) => child !== null && child !== undefined));
    return made;
  }

  /** Other words in an element; the same ones are left alone, so that nothing is laid out or read aloud again. */
  function write(element, words) {
    if (element.textContent !== words) element.textContent = words;
  }

  /** Hand a text over as a file, as browsers do with downloads. */
  function download(name, type, text) {
    const address = URL.createObjectURL(new Blob([text], { type }));
    const link = make("a", { href: address, download: name, hidden: true });
    document.body.append(link);
    link.click();
    link.remove();
    setTimeout(() => URL.revokeObjectURL(address), MINUTE_MS);
  }

  /** To the minute as the clock itself says it: an open time ends early rather than late, a wait the other way. */
  function endOf({ began, kind }, minutes) {
    return Math[kind === "open" ? "floor" : "ceil"](began / MINUTE_MS + minutes) * MINUTE_MS;
  }

  const isSpan = (minutes) => Number.isFinite(minutes) && minutes > 0 && minutes < 1e6;

  /** Whether this can be a clock; anything may have been written into the store, or brought in. */
  function isClock(one) {
    return Boolean(one) && typeof one.label === "string" && Number.isFinite(one.began) && Math.abs(one.began) < 8e15 && isSpan(one.minutes);
  }

  /** What is kept of the clocks, with id, earliest and latest end in ms, first things first; what is no clock is left out. */
  function clocks() {
    const timed = Object.entries(kept("clocks") ?? {}).filter(([, one]) => isClock(one)).map(([id, one]) => {
      const to = isSpan(one.to) ? one.to : null;
      const page = typeof one.page === "string" && /^[a-z0-9-]+(\.html)?$/.test(one.page) ? one.page : "";
      return { ...one, id, to, page, ends: endOf(one, one.minutes), latest: endOf(one, Math.max(one.minutes, to ?? 0)) };
    });
    return timed.sort((one, other) => one.ends - other.ends);
  }

  /** What is ticked: a box's id and when, in ms since 1970. Boxes that no page has any more stay in it. */
  function ticks() {
    const found = kept("ticks", {});
    return found && typeof found === "object" && !Array.isArray(found) ? found : {};
  }

  /** How many of these box ids are ticked. */
  function ticked(ids) {
    const done = ticks();
    return ids.filter((id) => Object.hasOwn(done, id)).length;
  }

  /** The stage that comes next: the first with a box left, of those that the builder's file does not count as done. */
  function coming(stages) {
    const done = ticks();
    const left = stages.filter(({ boxes }) => boxes.some(([id]) => !Object.hasOwn(done, id)));
    return left.find((stage) => !stage.done) ?? left[0] ?? null;
  }

  /** The page's data block with this id, or null. */
  function block(id) {
    const found = document.getElementById(id);
    return found && found.type === "application/json" ? JSON.parse(found.textContent) : null;
  }

  return { guide, lasting, kept, keep, forget, heed, make, write, download, isClock, clocks, ticks, ticked, coming, block };
})();
