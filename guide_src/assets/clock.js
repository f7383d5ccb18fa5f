// Clocks for glue and finish: they hold absolute times, so a locked phone, a reload or another page costs nothing.
(() => {
  "use strict";
  const { shed } = window;
  const MINUTE = 60000;
  const SETTLE = 700; // ms in which a second tap of a gloved hand counts for nothing
  const WEEKDAYS = ["Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday"];
  const MONTHS = ["January", "February", "March", "April", "May", "June", "July", "August", "September", "October",
    "November", "December"];
  const two = (number) => String(number).padStart(2, "0");

  /** The clock as it is kept, or null; what can't be a clock counts as none. */
  function kept(id) {
    return shed.clocks().find((one) => one.id === id) ?? null;
  }

  function keep(id, change) {
    const all = { ...shed.kept("clocks", {}) };
    all[id] = change(all[id]);
    shed.keep("clocks", all);
  }

  /** A time of day, with the day where it is not today. An open time ends early rather than late, a wait the other way. */
  function clockTime(ms, late = false) {
    const at = new Date(late ? Math.ceil(ms / MINUTE) * MINUTE : ms);
    const time = `${two(at.getHours())}:${two(at.getMinutes())}`;
    const today = new Date();
    if (at.toDateString() === today.toDateString()) return time;
    const next = new Date(today.getFullYear(), today.getMonth(), today.getDate() + 1);
    const near = at.toDateString() === next.toDateString() ? "tomorrow, " : "";
    const year = at.getFullYear() === today.getFullYear() ? "" : ` ${at.getFullYear()}`;
    return `${near}${WEEKDAYS[at.getDay()]} ${at.getDate()} ${MONTHS[at.getMonth()]}${year}, ${time}`;
  }

  /** A span in words; under two minutes with seconds if they count. */
  function span(ms, { seconds = false, up = false } = {}) {
    if (seconds && ms < 2 * MINUTE) {
      const left = Math.max(0, Math.floor(ms / 1000));
      return left < 60 ? `${left} s` : `${Math.floor(left / 60)} min ${left % 60} s`;
    }
    const minutes = Math.max(0, up ? Math.ceil(ms / MINUTE) : Math.floor(ms / MINUTE));
    if (minutes < 120) return `${minutes} min`;
    if (minutes < 4 * 1440) return `${Math.floor(minutes / 60)} h${minutes % 60 ? ` ${minutes % 60} min` : ""}`;
    const hours = Math.round(minutes / 60);
    return `${Math.floor(hours / 24)} days${hours % 24 ? ` ${hours % 24} h` : ""}`;
  }

  /** "idle", "running", "over", "stopped", or "ahead" where the phone's clock was put back behind the start. */
  function phase(one, now) {
    if (!one) return "idle";
    if (Number.isFinite(one.stopped)) return "stopped";
    if (one.began > now + MINUTE) return "ahead";
    return now < one.began + one.minutes * MINUTE ? "running" : "over";
  }

  // --- sound, vibration and the screen
  let sound = null;
  function ready() {
    try {
      sound ??= new AudioContext();
      if (sound.state === "suspended") sound.resume();
    } catch {
      sound = null; // no sound on this phone
    }
  }
  function ring(times) {
    if (document.visibilityState !== "visible") return;
    if (navigator.userActivation?.hasBeenActive !== false) navigator.vibrate?.(Array(times).fill([400, 200]).flat());
    if (sound?.state !== "running") return;
    for (let n = 0; n < times; n += 1) {
      const tone = sound.createOscillator();
      const loud = sound.createGain();
      tone.frequency.value = 880;
      loud.gain.setValueAtTime(0.25, sound.currentTime + n * 0.6);
      loud.gain.exponentialRampToValueAtTime(0.001, sound.currentTime + n * 0.6 + 0.4);
      tone.connect(loud).connect(sound.destination);
      tone.start(sound.currentTime + n * 0.6);
      tone.stop(sound.currentTime + n * 0.6 + 0.4);
    }
  }

  let lock = null;
  let asking = false;
  /** Keep the screen on while an open time runs and this page is looked at; the phone may refuse. */
  async function screen() {
    const wanted = document.visibilityState === "visible"
      && places.some((place) => place.kind === "open" && phase(kept(place.id), Date.now()) === "running");
    if (!wanted) {
      lock?.release();
      return;
    }
    if (lock || asking || !navigator.wakeLock) return;
    asking = true;
    try {
      lock = await navigator.wakeLock.request("screen");
      lock.addEventListener("release", () => {
        lock = null;
        refresh();
      });
    } catch {
      lock = null; // a nearly empty battery, for instance: the page then says nothing of it
    }
    asking = false;
    refresh();
  }

  // --- a calendar entry for the end
  /** One line of a calendar, folded so that none is longer than 75 bytes. Source: RFC 5545, 3.1. */
  function folded(line) {
    let out = "";
    let bytes = 0;
    for (const char of line) {
      const size = new TextEncoder().encode(char).length;
      if (bytes + size > 75) {
        out += "\r\n ";
        bytes = 1;
      }
      out += char;
      bytes += size;
    }
    return out;
  }
  const escaped = (text) => text.replace(/[\\;,]/g, "\\$&").replace(/\s*\n\s*/g, "\\n");
  const utc = (ms) => new Date(ms).toISOString().replace(/[-:]|\.\d+/g, "");

  /** The end of a clock as a calendar file with an alarm. Source: RFC 5545, 3.6.1 and 3.6.6. */
  function calendar(place, one) {
    const end = Math.ceil((one.began + one.minutes * MINUTE) / 1000) * 1000;
    const lines = [
      "BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//shedbook//clock//EN", "BEGIN:VEVENT",
      `UID:${place.id}-${one.began}-${shed.guide}@shedbook`, `DTSTAMP:${utc(Date.now())}`,
      `DTSTART:${utc(end)}`, `DTEND:${utc(end + 15 * MINUTE)}`,
      `SUMMARY:${escaped(`${one.label}: over`)}`, `DESCRIPTION:${escaped(place.words)}`,
      "BEGIN:VALARM", "ACTION:DISPLAY", `DESCRIPTION:${escaped(`${one.label}: over`)}`, "TRIGGER:PT0S", "END:VALARM",
      "END:VEVENT", "END:VCALENDAR",
    ];
    return `${lines.map(folded).join("\r\n")}\r\n`;
  }
  function download(place) {
    shed.download(`${place.id}.ics`, "text/calendar", calendar(place, kept(place.id)));
  }

  // --- one place on the page
  function text(element, words) {
    shed.write(element, words);
    element.hidden = !words;
  }

  function build(root) {
    const title = document.querySelector("h1")?.textContent.trim() ?? "";
    const place = {
      root, title, id: root.id, kind: root.dataset.kind, name: root.querySelector(".clock-name").textContent, start: root.dataset.start,
      minutes: Number(root.dataset.minutes), to: Number(root.dataset.to) || null, back: 0, tapped: 0, left: null,
      over: root.querySelector(".clock-over"),
    };
    place.words = place.over.textContent.trim();
    const button = (words, kind, act, settle = SETTLE) => shed.make("button", {
      type: "button", class: `shed-button ${kind}`, "aria-describedby": `${place.id}-name`, click: () => tap(place, act, settle),
    }, words);
    const made = {
      left: root.querySelector(".clock-left"),
      end: root.querySelector(".clock-end"),
      said: shed.make("p", { class: "clock-said", role: "status" }),
      hint: shed.make("p", { class: "clock-hint" }),
      screen: shed.make("p", { class: "clock-hint" }),
      start: button("Start", "shed-button--main clock-start", start),
      go: button("Undo: go on", "shed-button--main", goOn),
      now: button("It began just now", "shed-button--main", start),
      stop: button("Stop", "clock-stop", stop),
      again: button("Start again", "", start),
      earlier: button("Began 5 min earlier", "", () => move(place, -5), 0),
      later: button("5 min later", "", () => move(place, 5), 0),
      calendar: button("Calendar entry", "shed-button--quiet", download),
    };
    const { left, end, said, hint, screen: lit, ...buttons } = made;
    const row = shed.make("div", { class: "shed-row clock-buttons" }, ...Object.values(buttons));
    root.querySelector(".clock-room").replaceWith(row, hint, lit, said);
    return Object.assign(place, { made, buttons });
  }

  function tap(place, act, settle) {
    ready();
    if (Date.now() - place.tapped < settle && Date.now() >= place.tapped) return;
    place.tapped = Date.now();
    act(place);
    refresh();
    screen();
  }
  function start(place) {
    place.back = 0;
    const one = { label: `${place.name}: ${place.title}`, page: location.pathname.split("/").pop() || "index.html",
      began: Date.now(), minutes: place.minutes, kind: place.kind };
    if (place.to) one.to = place.to;
    keep(place.id, () => one);
    say(place, `Started. ${place.made.end.textContent}`);
  }
  function stop(place) {
    keep(place.id, (one) => ({ ...one, stopped: Date.now() }));
    say(place, "Stopped.");
  }
  function goOn(place) {
    keep(place.id, ({ stopped, ...one }) => one);
    say(place, "It goes on.");
  }
  function move(place, minutes) {
    place.back -= minutes;
    keep(place.id, (one) => ({ ...one, began: one.began + minutes * MINUTE }));
    say(place, minutes < 0 ? "Set back by 5 minutes." : "Set forward again.");
  }
  function say(place, words) {
    show(place);
    place.made.said.textContent = words;
  }

  const SHOWN = {
    idle: ["start"], stopped: ["go", "again"], ahead: ["now", "stop"],
    running: ["stop", "earlier", "later", "calendar"], over: ["stop", "again"],
  };
  const SMALL = 12 * 60; // minutes up to which a phone's own timer is of use

  function show(place) {
    const { made, kind } = place;
    const now = Date.now();
    const one = kept(place.id);
    const state = phase(one, now);
    const minutes = one?.minutes ?? place.minutes;
    const ends = one ? one.began + minutes * MINUTE : 0;
    const late = kind === "wait";
    place.root.dataset.state = state;
    for (const [name, button] of Object.entries(place.buttons)) button.hidden = !SHOWN[state].includes(name);
    made.later.hidden ||= place.back <= 0;
    made.stop.textContent = state === "over" ? "Done" : "Stop";
    place.over.hidden = state !== "over";
    text(made.hint, hint(kind, state, ends - now, minutes));
    text(made.screen, lock && kind === "open" && state === "running" ? "The screen stays on while this page is open." : "");
    if (state === "idle") {
      text(made.left, span(minutes * MINUTE));
      text(made.end, place.start);
    } else if (state === "running") {
      text(made.left, `${span(ends - now, { seconds: !late, up: late })} left`);
      const sure = one.to > minutes ? ` ${until(place, one)}` : "";
      const word = place.root.dataset.latest ? "Not before" : "Until";
      text(made.end, `${word} ${clockTime(ends, late)}.${sure}${place.back ? ` Began ${clockTime(one.began)}.` : ""}`);
    } else if (state === "over") {
      text(made.left, "Over");
      const latest = one.to > minutes ? ` ${until(place, one)}` : "";
      text(made.end, `Since ${clockTime(ends, late)}, ${span(now - ends)} ago.${latest}`);
    } else if (state === "stopped") {
      text(made.left, "Stopped");
      text(made.end, `At ${clockTime(one.stopped)}, after ${span(Math.max(0, one.stopped - one.began))}.`);
    } else {
      text(made.left, `${span(minutes * MINUTE)}, but when?`);
      text(made.end, `By this phone it begins only at ${clockTime(one.began)}. The phone's clock was changed. `
        + "Look at another clock.");
    }
    milestones(place, state, ends - now, minutes);
  }

  /** What the later end of a clock means: the label's longest time, or the latest time for the next coat. */
  function until(place, one) {
    const at = clockTime(one.began + one.to * MINUTE, false);
    const { latest } = place.root.dataset;
    if (!latest) return `To be quite sure, wait until ${at}.`;
    return Date.now() > one.began + one.to * MINUTE ? `${latest} since ${at}.` : `No later than ${at}.`;
  }

  function hint(kind, state, left, minutes) {
    if (state !== "running" && (state !== "idle" || kind === "wait")) return "";
    const timer = `Set your phone's own timer for ${span(state === "idle" ? minutes * MINUTE : left)}`;
    const entry = state === "idle" ? "" : "put the end into your calendar";
    const ways = minutes > SMALL ? `P${entry.slice(1)}` : entry ? `${timer}, or ${entry}` : `${timer} as well`;
    return `This page can't ring while the phone is locked. ${ways}.`;
  }

  /** Say aloud, once each, that half of the time, 5 minutes or 1 minute are left, and that it is over. */
  function milestones(place, state, left, minutes) {
    const before = place.left;
    place.left = state === "running" || state === "over" ? left : null;
    if (before === null || place.left === null || before - left > 10 * MINUTE) return;
    const passed = (at) => before > at && left <= at;
    if (passed(0)) {
      place.made.said.textContent = `${place.name}: over. ${place.words}`;
      ring(3);
    } else if (passed(MINUTE)) place.made.said.textContent = `${place.name}: 1 minute left.`;
    else if (passed(5 * MINUTE)) {
      place.made.said.textContent = `${place.name}: 5 minutes left.`;
      if (place.kind === "open") ring(1);
    } else if (passed((minutes * MINUTE) / 2)) place.made.said.textContent = `${place.name}: half of it is left.`;
  }

  /** A running clock follows a new guide's number. */
  function renew(place) {
    const one = kept(place.id);
    if (!one || phase(one, Date.now()) !== "running" || (one.minutes === place.minutes && one.to === place.to)) return;
    keep(place.id, ({ to, ...old }) => ({ ...old, minutes: place.minutes, ...(place.to ? { to: place.to } : {}) }));
  }

  const places = [...document.querySelectorAll("[data-shed=clock]")].map(build);
  function refresh() {
    for (const place of places) show(place);
  }
  places.forEach(renew);
  refresh();
  screen();
  shed.heed("clocks", refresh);
  document.addEventListener("visibilitychange", () => {
    refresh();
    screen();
  });
  document.addEventListener("pointerdown", () => {
    if (places.some((place) => place.root.dataset.state === "running")) ready();
  });
  setInterval(() => {
    if (document.visibilityState !== "visible") return;
    refresh();
    if (!lock) screen();
  }, 1000);
})();
