// Keeps the guide on the phone, says when there is no network, and offers a newer version.
(() => {
  "use strict";
  const named = document.querySelector("meta[name=shedbook-worker]"); // a preview names none
  if (!named || !/^https?:$/.test(location.protocol)) return;
  const { make, keep, kept } = window.shed;
  const workers = navigator.serviceWorker; // undefined without a secure connection
  const HOURS_12 = 12 * 3600e3;
  const SAYS = {
    newer: "There is a newer version of this guide. What you ticked stays.",
    gone: "No network. The guide is all here.",
    part: "No network, and the guide is not all on this phone yet. Open it once with a network.",
    kept: "The whole guide is on this phone now. It opens without a network.",
    ios: "The whole guide is on this phone now. It opens without a network. Put it on the home screen before you begin to tick: there it is kept longest.",
  };
  let registration = null;
  let whole = workers ? null : false; // null: not known yet
  let changing = false;
  let controlled = Boolean(workers?.controller);
  let fresh = null; // whether this page is the one that says that all is kept
  let shown = "";

  const said = make("p", { class: "strip__said", role: "status" });
  const change = make("button", { type: "button", class: "shed-button shed-button--main", click: changeOver }, "Change over");
  const close = make("button", { type: "button", class: "strip__close", "aria-label": "Close", click: putAway });
  close.append(make("span", { "aria-hidden": "true" }, "×"));
  change.hidden = close.hidden = true;
  const strip = make("section", { class: "strip", "aria-label": "This copy of the guide" }, said, change, close);

  /** Until when the reader wants no more of this message: for the life of the tab, half a day at most. */
  function quietUntil(name, time) {
    try {
      if (time !== undefined) sessionStorage.setItem(`shedbook:quiet:${name}`, time);
      return Number(sessionStorage.getItem(`shedbook:quiet:${name}`));
    } catch {
      return 0;
    }
  }

  /** What there is to say now: the most urgent that the reader has not put away. */
  function wanted() {
    const now = Date.now();
    if (changing || (registration?.waiting && now > quietUntil("newer"))) return "newer";
    if (!navigator.onLine && whole !== null && now > quietUntil("gone")) return whole ? "gone" : "part";
    if (whole && (fresh ??= !kept("kept-said"))) return "kept";
    return "";
  }

  function tell() {
    const say = wanted();
    if (say === shown) return;
    shown = say;
    strip.classList.toggle("strip--shown", say !== "");
    document.documentElement.classList.toggle("strip-shown", say !== "");
    change.hidden = say !== "newer";
    close.hidden = say === "";
    const inSafari = say === "kept" && navigator.standalone === false; // told by iOS alone
    said.textContent = say ? SAYS[inSafari ? "ios" : say] : "";
    if (say === "kept") keep("kept-said", true);
  }

  function putAway() {
    fresh = false;
    if (shown !== "kept") quietUntil(shown === "newer" ? "newer" : "gone", Date.now() + HOURS_12);
    tell();
  }

  function changeOver() {
    changing = true;
    change.setAttribute("aria-disabled", "true");
    if (registration.waiting) registration.waiting.postMessage("change over");
    else location.reload();
  }

  /** Ask the worker whether the guide is whole on this phone; it mends what it can. */
  function askWhole() {
    const channel = new MessageChannel();
    channel.port1.onmessage = (event) => {
      whole = event.data;
      tell();
    };
    registration.active.postMessage("whole?", [channel.port2]);
  }

  function follow(worker) {
    worker?.addEventListener("statechange", () => {
      if (worker.state === "activated") askWhole();
      if (worker.state === "redundant" && !registration.active) whole = false; // not all of it came
      tell();
    });
  }

  function lookForNewer() {
    if (navigator.onLine) registration.update().catch(() => {}); // none to be had just now: the one we have stays
  }

  async function begin() {
    try {
      registration = await workers.register(new URL(named.content, document.baseURI), { updateViaCache: "none" });
    } catch {
      whole = false; // refused, or storage is off: the guide reads on from the network
      return tell();
    }
    registration.addEventListener("updatefound", () => follow(registration.installing));
    follow(registration.installing);
    if (registration.active) askWhole();
    else whole = false;
    tell();
    lookForNewer();
    document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && lookForNewer());
    addEventListener("online", lookForNewer);
    if (matchMedia("(display-mode: standalone)").matches) navigator.storage?.persist?.().catch(() => {});
  }

  // Not in the page itself: opened from a folder, the browser would complain of it.
  const manifest = named.content.replace(/worker\.js$/, "manifest.webmanifest");
  document.head.append(make("link", { rel: "manifest", href: manifest, crossorigin: "use-credentials" }));
  document.body.append(strip);
  addEventListener("offline", tell);
  addEventListener("online", () => {
    quietUntil("gone", 0);
    tell();
  });
  workers?.addEventListener("controllerchange", () => {
    if (controlled || changing) location.reload(); // once: this page goes with it
    controlled = true;
  });
  if (!workers) tell();
  else if (document.readyState === "complete") begin();
  else addEventListener("load", begin);
})();
