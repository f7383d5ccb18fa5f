// What every script of the guide stands on: what this phone keeps for this guide, and elements made without markup.
// Classic and without dependencies, so that it runs from a folder too. It comes first, before anything is painted.
window.shed = (() => {
  "use strict";
  const guide = document.querySelector("meta[name=shedbook-guide]")?.content ?? "";
  const prefix = `shedbook:${guide}:`;
  const memory = new Map(); // where the browser keeps nothing: for this page only
  let lasting = true;
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
      const text = memory.get(name) ?? (lasting ? localStorage.getItem(prefix + name) : null);
      return text === null ? otherwise : JSON.parse(text);
    } catch {
      return otherwise;
    }
  }

  /** Keep `value` (anything that JSON can say) under `name`, and tell this page; false if it is lost with the page. */
  function keep(name, value) {
    const text = JSON.stringify(value);
    let done = lasting;
    memory.delete(name);
    try {
      if (lasting) localStorage.setItem(prefix + name, text);
    } catch {
      done = false; // full, or taken away meanwhile
    }
    if (!done) memory.set(name, text);
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

  /** Call `ear` whenever what is kept under `name` changes, on this page or on another one of this guide. */
  function heed(name, ear) {
    ears.set(name, [...(ears.get(name) ?? []), ear]);
  }
  addEventListener("storage", (event) => {
    if (event.key?.startsWith(prefix)) tell(event.key.slice(prefix.length));
  });

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

  /** The page's data block with this id, or null. */
  function block(id) {
    const found = document.getElementById(id);
    return found && found.type === "application/json" ? JSON.parse(found.textContent) : null;
  }

  return { guide, lasting, kept, keep, forget, heed, make, block };
})();
