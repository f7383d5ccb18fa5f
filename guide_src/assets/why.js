// Opens a number, or a word of the trade, where it stands: the page itself holds what is told about it.
// Without a script, or without an entry, the link leads to the page of all numbers or words as it always did.
(() => {
  "use strict";
  const { make, block } = window.shed;
  const WIDE = matchMedia("(min-width: 45em)");
  const GAP_PX = 8;
  let told = null; // read at the first tap, not before
  let sheet = null;
  let asked = null; // the link that was tapped: the focus goes back to it

  /** What the page tells about the place that a link leads to, or null. */
  function entry(link) {
    told = told ?? block("page-whys") ?? { numbers: {}, texts: [], words: {} };
    const id = decodeURIComponent(link.hash.slice(1));
    if (link.matches(".word")) {
      const word = told.words[id.replace(/^word-/, "")];
      return word ? { name: word[0], lines: [["how", word[1]]], all: "Words of the trade" } : null;
    }
    const places = Object.hasOwn(told.numbers, id) ? told.numbers[id] : null;
    if (!places) return null;
    const [label, shown, range, how, trust] = places.map((place) => told.texts[place]);
    const lines = [["value", shown], ["range", range && `Range: ${range}`], ["how", how], ["trust", `Where its trust comes from: ${trust}`]];
    return { name: label, lines: lines.filter(([, text]) => text), all: "All the numbers" };
  }

  /** The sheet, made once: an element that the browser keeps the focus in and closes by Escape. */
  function made() {
    const close = make("button", { type: "button", class: "why__close", "aria-label": "Close", click: () => sheet.close() });
    close.append(make("span", { "aria-hidden": "true" }, "×"));
    const dialog = make("dialog", { class: "why", "aria-labelledby": "why-name" });
    dialog.append(
      make("div", { class: "why__head" }, make("h2", { id: "why-name", class: "why__name" }), close),
      make("div", { class: "why__told" }),
      make("a", { class: "why__all" }),
    );
    dialog.addEventListener("click", (event) => outside(event) && dialog.close());
    dialog.addEventListener("close", () => asked?.focus({ preventScroll: true }));
    document.body.append(dialog);
    return dialog;
  }

  /** Whether a click fell beside the sheet: what lies round it counts as the sheet itself. */
  function outside(event) {
    const box = sheet.getBoundingClientRect();
    const { clientX: x, clientY: y, target } = event;
    return target === sheet && (x < box.left || x > box.right || y < box.top || y > box.bottom);
  }

  /** Near the link on a wide window, below it if there is room; a phone has it at the foot of the window by its style. */
  function place(link) {
    sheet.style.left = sheet.style.top = "";
    if (!WIDE.matches) return;
    const at = link.getClientRects()[0];
    const { width, height } = sheet.getBoundingClientRect();
    const below = at.bottom + GAP_PX;
    const top = below + height + GAP_PX <= innerHeight ? below : Math.max(GAP_PX, at.top - height - GAP_PX);
    const left = Math.min(at.left - GAP_PX, document.documentElement.clientWidth - width - GAP_PX);
    sheet.style.left = `${Math.max(GAP_PX, left)}px`;
    sheet.style.top = `${top}px`;
  }

  function open(link, { name, lines, all }) {
    sheet = sheet ?? made();
    asked = link;
    sheet.querySelector(".why__name").textContent = name;
    sheet.querySelector(".why__told").replaceChildren(
      ...lines.map(([part, text]) => make("p", { class: `why__${part}` }, text)),
    );
    const way = sheet.querySelector(".why__all");
    way.textContent = all;
    way.setAttribute("href", link.getAttribute("href"));
    sheet.showModal();
    sheet.scrollTop = 0;
    place(link);
  }

  /** A plain tap or Enter only: with a key held or another button, a link does what links do. */
  function plain(event) {
    return event.button === 0 && !(event.metaKey || event.ctrlKey || event.shiftKey || event.altKey);
  }

  document.addEventListener("click", (event) => {
    const link = event.target.closest?.("a.fig[href], a.word[href]");
    if (!link || !plain(event) || event.defaultPrevented || !window.HTMLDialogElement?.prototype.showModal) return;
    const found = entry(link);
    if (!found) return;
    event.preventDefault();
    open(link, found);
  });
})();
