// Lengths, weights and temperatures as people type them: 11/16, 1 3/16, 0,69, 5.2 mm, 3 lb 14 oz, 57 F. The builder's file reads the same.
window.shed.typed = (() => {
  "use strict";
  // In mm, kg, °C and %. The inch is 25.4 mm and the pound 0.45359237 kg by definition (yard and pound agreement, 1959).
  const UNITS = {
    length: { mm: 1, cm: 10, m: 1000, in: 25.4, ft: 304.8 },
    mass: { kg: 1, g: 0.001, lb: 0.45359237, oz: 0.45359237 / 16 },
    temperature: { c: 1, f: 5 / 9 },
    humidity: { "%": 1 },
  };
  const ZERO = { f: 32 };
  const WRITTEN = { c: "C", f: "F" };
  const ALSO = { '"': "in", "″": "in", "”": "in", inch: "in", inches: "in", "'": "ft", "′": "ft", "’": "ft", foot: "ft",
    feet: "ft", lbs: "lb" };
  const PART_OF = { in: "ft", oz: "lb" };
  const TERM = /^(?:(\d+) (\d+)\/(\d+)|(\d+)\/(\d+)|(\d+\.?\d*|\.\d+)) ?([a-z]+|["'″”′’%])? ?/;
  const SIGNS = /[¼½¾⅓⅔⅛⅜⅝⅞]/g;

  const refuse = (error) => ({ error });

  /** The text with one kind of minus, point, fraction and space. */
  function plain(typed) {
    return typed
      .replace(SIGNS, (sign) => ` ${sign.normalize("NFKC").replace("⁄", "/")}`)
      .replace(/[−–]/g, "-").replace(/⁄/g, "/").replace(/°/g, " ").toLowerCase()
      .replace(/(\d)-(\d+ ?\/)/g, "$1 $2").replace(/ *\/ */g, "/").replace(/(\d) *,(?=\d)/g, "$1.")
      .replace(/\s+/g, " ").trim();
  }

  /** One number: its value and how the builder's file has it; null if it is none. */
  function number([, whole, over, under, top, below, decimal]) {
    if (decimal !== undefined) return { value: Number(decimal), text: String(Number(decimal)) };
    const [n, up, down] = top === undefined ? [Number(whole), Number(over), Number(under)] : [0, Number(top), Number(below)];
    if (down === 0 || (top === undefined && up >= down)) return null;
    return { value: n + up / down, text: top === undefined ? `${n} ${up}/${down}` : `${up}/${down}` };
  }

  /** Numbers and units in the order typed, or null. */
  function terms(text, quantity) {
    const found = [];
    let rest = text;
    while (rest) {
      const match = TERM.exec(rest);
      const one = match && number(match);
      if (!one) return null;
      const unit = match[7] && (ALSO[match[7]] ?? match[7]);
      if (unit && !Object.hasOwn(UNITS[quantity], unit)) return null;
      found.push({ ...one, unit, fraction: match[6] === undefined });
      rest = rest.slice(match[0].length);
    }
    return found;
  }

  /** Whether two terms belong together as feet and inches or pounds and ounces do. */
  function together(first, second) {
    return Boolean(first.unit) && PART_OF[second.unit] === first.unit && Number.isInteger(first.value)
      && second.value < (first.unit === "ft" ? 12 : 16);
  }

  /**
   * A typed measure: `value` in mm or kg and `text` as the builder's file has it, or `error` in words; null if empty.
   * `unit` is that of a bare number.
   */
  function read(typed, quantity, unit) {
    const such = unit === "in" ? "11/16, 1 3/16 or 0.69" : unit === "lb" ? "3.9 or 3 lb 14 oz" : "12.5";
    if (!typed.trim()) return null;
    if (/^\D*\d{1,3},\d{3}(?!\d)/.test(typed)) return refuse("Write it without the comma: it could mean two things.");
    if (typed.length > 40) return refuse(`Type one number, such as ${such}.`);
    const text = plain(typed);
    const minus = text.startsWith("-");
    const found = terms(text.replace(/^[-+] ?/, ""), quantity);
    if (!found || !found.length || found.length > 2) return refuse(`Type a number, such as ${such}.`);
    if (found.length === 2 && (minus || !together(...found))) return refuse(`Type one number with its unit, such as ${such}.`);
    if (found[0].fraction && !found[0].unit && unit !== "in") return refuse(`A fraction needs its unit. In ${unit}, type ${such}.`);
    const bare = ["mm", "kg", "C", "%"].includes(unit);
    const sign = minus ? -1 : 1;
    const value = found.reduce((sum, one) => {
      const own = one.unit ?? unit.toLowerCase();
      return sum + (sign * one.value - (ZERO[own] ?? 0)) * UNITS[quantity][own];
    }, 0);
    const words = found.map((one) => {
      const own = one.unit ? WRITTEN[one.unit] ?? one.unit : bare ? "" : unit;
      return own ? `${one.text} ${own}` : one.text;
    });
    if (/e/.test(found.map((one) => one.text).join(""))) return refuse(`Type a number, such as ${such}.`);
    return { value, text: `${minus ? "-" : ""}${words.join(" ")}` };
  }

  /** A difference (mm, kg or °C, above 0) in the builder's unit, as fine as it can be read off. */
  function amount(value, unit) {
    const there = value / (UNITS.length[unit] ?? UNITS.mass[unit] ?? UNITS.temperature[unit.toLowerCase()] ?? 1);
    if (unit === "in") {
      const sixteenths = Math.round(there * 16);
      if (sixteenths < 1) return `${Math.max(there, 0.01).toFixed(2)} in`;
      const whole = Math.floor(sixteenths / 16);
      let [up, down] = [sixteenths % 16, 16];
      while (up && up % 2 === 0) [up, down] = [up / 2, down / 2];
      return `${[whole || "", up ? `${up}/${down}` : ""].filter(Boolean).join(" ")} in`;
    }
    const places = unit === "kg" || unit === "lb" ? 2 : 1;
    return `${Number(Math.max(there, 10 ** -places).toFixed(places))} ${unit === "C" || unit === "F" ? "°" : ""}${unit}`;
  }

  /** A kept text as it was meant: a bare number of a guide that was in another unit gets that unit. */
  function meant(text, was, now) {
    return was && was !== now && text.trim() && !/[a-z"'″′”’%]/i.test(text) ? `${text.trim()} ${was}` : text;
  }

  return { read, amount, meant };
})();
