// The contents, the search and the colours as real buttons: by thumb, by keyboard and by voice, with a name and a state.
// The theme drives all three by hidden boxes; what it leaves out is put right here.
(() => {
  "use strict";
  const DRAWN = matchMedia("(max-width: 76.234375em)"); // the contents lie outside the window until they are opened
  const LETTERS = new Set(["f", "s", "/", "p", "n", ",", "."]); // the theme turns pages and searches at a single key
  const drawer = document.getElementById("__drawer");
  const search = document.getElementById("__search");
  const contents = document.querySelector(".md-sidebar--primary");
  const opened = new Map(); // what each box was opened by: the focus goes back there
  let leaving = false; // a link was followed: the focus goes with it

  const buttons = (way) => document.querySelectorAll(`[data-way=${way}]`);
  function say(way, attribute, state) {
    for (const button of buttons(way)) button.setAttribute(attribute, String(state));
  }

  /** Let a button work one of the theme's boxes; the box tells what became of it. */
  function works(way, box, after) {
    if (!box) return;
    for (const button of buttons(way)) {
      button.addEventListener("click", () => {
        if (!box.checked) opened.set(way, button);
        box.click();
      });
    }
    box.addEventListener("change", () => {
      say(way, "aria-expanded", box.checked);
      after?.(box.checked);
      if (!box.checked && !leaving) opened.get(way)?.focus({ preventScroll: true });
    });
  }

  /** While the contents lie over the page, nothing behind them can be reached. */
  function overPage(open) {
    const behind = ".md-skip, .md-header, .md-content, .md-sidebar--secondary, .md-footer, .reach";
    for (const part of document.querySelectorAll(behind)) part.inert = open;
    if (open) contents.querySelector("[data-way=contents]")?.focus({ preventScroll: true });
  }

  function close(box) {
    if (box?.checked) box.click();
  }

  addEventListener(
    "click",
    (event) => {
      leaving = Boolean(event.target.closest?.("a[href]"));
      setTimeout(() => (leaving = false));
    },
    true,
  );
  works("contents", drawer, overPage);
  works("search", search, (open) => open && document.querySelector("[data-md-component=search-query]")?.focus());
  DRAWN.addEventListener("change", () => close(drawer));
  addEventListener("pageshow", (event) => event.persisted && close(drawer));
  document.addEventListener("keydown", (event) => event.key === "Escape" && close(drawer));

  const dark = () => document.body.dataset.mdColorScheme === "slate";
  say("dark", "aria-pressed", dark());
  for (const button of buttons("dark")) {
    button.addEventListener("click", () => {
      document.querySelector(`.md-option[data-md-color-scheme=${dark() ? "default" : "slate"}]`)?.click();
      say("dark", "aria-pressed", dark());
    });
  }

  // A single letter, spoken or struck by mistake, must not turn the page; in a field and in the search it is typing.
  addEventListener(
    "keydown",
    (event) => {
      const typing = search?.checked || event.target.matches?.("input, textarea, select, [contenteditable]");
      if (!typing && !event.ctrlKey && !event.metaKey && !event.altKey && LETTERS.has(event.key)) event.stopPropagation();
    },
    true,
  );
})();
