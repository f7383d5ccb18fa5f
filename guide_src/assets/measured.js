// What was measured: kept on this phone, compared with the limits that stand beside it, and put into a text to send.
(() => {
  "use strict";
  const { shed } = window;
  const { read, amount, meant } = shed.typed;
  const LONGEST_LINK = 1800; // characters of an address that every mail program takes
  const LEAST_READINGS = { table: 2 }; // as the builder's file asks
  const LEAST_HEIGHTS = 5;
  const CLOSE = 1e-6;

  const all = () => shed.kept("measured", {}) ?? {};
  const typedText = ({ id, unit }) => {
    const one = all()[id];
    return one && typeof one.text === "string" ? meant(one.text, one.unit, unit) : "";
  };

  /** One field on the page with all that its attributes say. */
  function field(root) {
    const { dataset } = root;
    const numbers = Object.fromEntries(
      ["least", "most", "low", "high", "aim"].map((name) => [name, dataset[name] === undefined ? null : Number(dataset[name])]),
    );
    const [group, part] = dataset.field.split(/[.:]/);
    return {
      ...dataset, ...numbers, root, id: dataset.field, group, part, listed: dataset.field.includes(":"),
      input: root.querySelector("input"), said: root.querySelector(".typed-said"), home: root.closest(".typed-group"),
    };
  }
  const fields = [...document.querySelectorAll("[data-field]")].map(field);
  const inputs = fields.filter((one) => one.input);
  const sends = [...document.querySelectorAll("[data-send]")];

  /** What stands in a field. Those of the bench's readings are typed where the bench is tuned, and kept there. */
  function textOf(one) {
    if (one.input) return one.input.value;
    const tuning = shed.kept("tuning"), text = tuning?.readings?.[one.tuned];
    return typeof text === "string" ? meant(text, tuning.unit, one.unit) : "";
  }

  /** What stands in a field, read; null if nothing does. */
  function value(one) {
    const got = read(textOf(one), one.quantity, one.unit);
    if (!got || got.error) return got;
    if (got.value < one.least - CLOSE || got.value > one.most + CLOSE) {
      return { error: `That can't be: it must lie within ${one.allowed}. Look at the number and its unit again.` };
    }
    return got;
  }

  // --- verdicts
  function tell(one, sign, words, kind) {
    if (!one.said) return;
    const line = sign ? `${sign} ${words}` : words;
    shed.write(one.said, line);
    one.said.dataset.verdict = kind;
    one.input.setAttribute("aria-invalid", String(kind === "error"));
  }

  function judge(one) {
    const got = value(one);
    if (!got) return tell(one, "", "", "");
    if (got.error) return tell(one, "", got.error, "error");
    if (one.home?.dataset.compare === "shape") return judgeShape(one, got);
    const asGiven = one.usual !== undefined && textOf(one) === one.usual;
    if (asGiven || one.low === null) return tell(one, "", asGiven ? "" : "Noted.", "noted");
    if (!asPlanned(one)) return tell(one, "", "Noted. What the sums expect holds for the span and the weight named above.", "noted");
    const over = one.high === null ? -Infinity : got.value - one.high;
    const under = one.low - got.value;
    if (over <= CLOSE && under <= CLOSE) {
      if (one.at !== undefined) return tell(one, "✓", "Within the limit.", "good");
      const words = one.kind === "limit" ? "Within the limit" : "Within what the sums expect";
      return tell(one, "✓", `${words}: ${one.limits}.`, "good");
    }
    const off = amount(Math.max(over, under), one.unit);
    const way = over > 0 ? one.over : one.under;
    if (one.kind === "limit") {
      return tell(one, "✗", `${capital(way)} by ${off}${one.at === undefined ? `. The limit: ${one.limits}` : ""}.`, "bad");
    }
    return tell(one, "!", `${capital(off)} ${way} than the sums expect (${one.limits}). Measure once more, and send it all the same.`, "odd");
  }
  const capital = (words) => words[0].toUpperCase() + words.slice(1);

  /** A sag test's drop can be compared only if span and weight are those that the page names. */
  function asPlanned(one) {
    const tests = fields.filter((other) => other.group.endsWith("_sag") && other.group === one.group);
    return tests.filter((other) => other.usual !== undefined).every((other) => {
      const [now, usual] = [value(other), read(other.usual, other.quantity, other.unit)];
      return now && !now.error && Math.abs(now.value - usual.value) <= 0.005 * usual.value;
    });
  }

  /** Height against the aim once both tips are made to agree: a bottom that lies higher or tilted has the same shape. */
  function judgeShape(one, got) {
    const row = fields.filter((other) => other.home === one.home);
    const [tail, nose] = [row[0], row.at(-1)];
    const [atTail, atNose] = [tail, nose].map(value);
    if (one === tail || one === nose) return tell(one, "", "Noted. The ribs are compared with both tips.", "noted");
    if (!atTail || !atNose || atTail.error || atNose.error) return tell(one, "", "Noted. Type both tips, and this is compared.", "noted");
    const place = (other) => read(other.at, "length", other.unit).value;
    const along = (place(one) - place(tail)) / (place(nose) - place(tail));
    const [lift, tilt] = [atTail.value - tail.aim, atNose.value - nose.aim - (atTail.value - tail.aim)];
    const off = got.value - one.aim - lift - tilt * along;
    const { miss, missWords } = one.home.dataset;
    const within = Math.abs(off) <= Number(miss) + CLOSE;
    if (within) return tell(one, "✓", `As a shape, within ${missWords}.`, "good");
    return tell(one, "✗", `As a shape, ${amount(Math.abs(off), one.unit)} too ${off > 0 ? "high" : "low"}.`, "bad");
  }

  // --- the text to send, which is a piece of the builder's file
  /** The lines of one group ("frame_sag", "cured", "panel_mass") under its heading; none if it is not whole. */
  function lines(group) {
    const here = fields.filter((one) => one.group === group);
    const got = here.map((one) => ({ one, got: value(one) })).filter(({ got }) => got && !got.error);
    const touched = got.some(({ one }) => one.usual === undefined || textOf(one) !== one.usual);
    if (!touched) return [];
    if (here[0].listed && got.length < (LEAST_READINGS[group] ?? LEAST_HEIGHTS)) return [];
    const places = (name) => got.map(({ one, got }) => `    - {from_tail: ${one.at}, ${name}: ${got.text}}`);
    if (group === "table") {
      const { length, width } = here[0].home.dataset;
      return [`  length: ${length}`, `  width: ${width}`, "  readings:", ...places("reading")];
    }
    if (here[0].listed) return [`  ${group}:`, ...places("height")];
    if (group === "shed") return got.length < here.length ? [] : got.map(({ one, got }) => `  ${one.part}: ${got.text}`);
    if (here[0].part === undefined) return [`  ${group}: ${got[0].got.text}`];
    if (got.length < here.length) return [];
    return [`  ${group}: {${got.map(({ one, got }) => `${one.part}: ${got.text}`).join(", ")}}`];
  }

  /** What keeps a group out of the text, in words. */
  function missing(group) {
    const here = fields.filter((one) => one.group === group);
    const filled = here.filter((one) => textOf(one).trim() !== (one.usual ?? ""));
    if (!filled.length) return "";
    if (here.some((one) => value(one)?.error)) return "Mend what is marked above; it is left out so far.";
    if (lines(group).length) return "";
    return here[0].listed
      ? `Readings count from ${LEAST_READINGS[group] ?? LEAST_HEIGHTS} places on; these are left out so far.`
      : "A number of this group is missing; the group is left out so far.";
  }

  function message(root) {
    const { board, builder, stage, file, photo } = root.dataset;
    const groups = [...new Set(fields.map((one) => one.group))];
    const under = (heading, names) => {
      const found = names.flatMap(lines);
      return found.length ? [heading, ...found] : [];
    };
    const block = [
      ...under("table:", groups.filter((group) => group === "table")),
      ...under("shed:", groups.filter((group) => group === "shed")),
      ...under("measured:", groups.filter((group) => group !== "table" && group !== "shed")),
    ];
    const gaps = [...new Set(groups.map(missing).filter(Boolean))];
    const day = new Date().toLocaleDateString("en-GB", { day: "numeric", month: "long", year: "numeric" });
    const head = [`# ${board}, ${builder}. ${stage}, ${day}.`, `# For ${file}.yaml, in place of what it says there under the same names:`];
    const tail = photo ? [`# Photo with it: ${photo}`] : [];
    const text = block.length ? [...head, ...block, ...tail].join("\n") : photo ? [head[0], ...tail].join("\n") : "";
    return { text, gaps, subject: `${board}, ${builder}: ${stage}` };
  }

  /** An address that opens a mail or a text message with it, or null if the maker's contact is neither. */
  function address(contact, subject, text) {
    const body = encodeURIComponent(text.replace(/\n/g, "\r\n"));
    if (contact.startsWith("mailto:")) return `${contact}?subject=${encodeURIComponent(subject)}&body=${body}`;
    return contact.startsWith("tel:") ? `sms:${contact.slice(4)}?body=${body}` : null;
  }

  function buildSend(root) {
    const [area, ways, said] = [".send-text", ".send-ways", ".send-said"].map((name) => root.querySelector(name));
    const mail = root.dataset.contact.startsWith("mailto:");
    const link = shed.make("a", { class: "shed-button" }, mail ? "Write the mail" : "Text message");
    const share = shed.make("button", { type: "button", class: "shed-button", click: () => doShare(root, said) }, "Share");
    const copy = shed.make("button", { type: "button", class: "shed-button", click: () => doCopy(area, said) }, "Copy");
    share.hidden = typeof navigator.share !== "function";
    ways.append(link, share, copy);
    return () => {
      const { text, gaps, subject } = message(root);
      const whole = text && address(root.dataset.contact, subject, text);
      const long = Boolean(whole) && whole.length > LONGEST_LINK;
      if (area.value !== text) area.value = text;
      area.rows = Math.min(16, Math.max(5, text.split("\n").length));
      if (whole && !long) link.setAttribute("href", whole);
      else link.removeAttribute("href");
      link.setAttribute("aria-disabled", String(!whole || long));
      link.classList.toggle("shed-button--main", Boolean(whole) && !long);
      copy.disabled = share.disabled = !text;
      const words = [...gaps];
      if (long) words.push("This is too long for the mail button. Copy it and paste it into a mail.");
      if (!shed.lasting && text) words.push("This browser keeps nothing: send it before you leave the page.");
      if (root.dataset.photo && text) words.push(`Attach a photo by hand: ${root.dataset.photo}.`);
      shed.write(said, words.join(" "));
    };
  }

  async function doShare(root, said) {
    const { text, subject } = message(root);
    try {
      await navigator.share({ title: subject, text });
    } catch (stopped) {
      if (stopped.name !== "AbortError") said.textContent = "Sharing did not work here. Copy the text instead.";
    }
  }

  async function doCopy(area, said) {
    try {
      await navigator.clipboard.writeText(area.value);
      said.textContent = "Copied. Paste it into a message.";
    } catch {
      area.focus();
      area.select();
      said.textContent = "All of it is marked. Hold your finger on it and choose Copy.";
    }
  }

  // --- keep, bring back, and show
  function fill() {
    for (const one of inputs) {
      const text = typedText(one) || one.usual || "";
      if (document.activeElement !== one.input && one.input.value !== text) one.input.value = text;
    }
  }
  function keep(one) {
    const text = one.input.value.slice(0, 40);
    shed.keep("measured", { ...all(), [one.id]: { text, at: Date.now(), unit: one.unit } });
  }
  function show() {
    fields.forEach(judge);
    renewals.forEach((renew) => renew());
  }
  const renewals = sends.map(buildSend);
  for (const one of inputs) {
    one.input.addEventListener("input", () => {
      keep(one);
      tell(one, "", "", ""); // half a number is no mistake yet
    });
    one.input.addEventListener("change", show);
  }
  shed.heed("measured", () => {
    fill();
    inputs.filter((one) => document.activeElement !== one.input).forEach(judge);
    renewals.forEach((renew) => renew());
  });
  shed.heed("tuning", () => renewals.forEach((renew) => renew()));
  fill();
  show();
})();
