// Lengths and loads as the builder reads them: the same rounding as the generator's `shown`, for tuning.
"use strict";
globalThis.benchWords = (() => {
  const MM_PER_INCH = 25.4, N_PER_KG = 9.80665, LB_PER_KG = 1 / 0.45359237;
  const MINUS = "−", COARSE_MM = 10, FEET_FROM_IN = 96;

  /** The value in whole steps, halves away from nought, without idle noughts and with a real minus. */
  function stepped(value, step) {
    const digits = Math.max(0, Math.ceil(-Math.log10(step) - 1e-9)) + 1;
    const text = (Math.floor(Math.abs(value) / step + 0.5 + 1e-9) * step).toFixed(digits).replace(/\.?0+$/, "");
    return (value < 0 && text !== "0" ? MINUS : "") + text;
  }

  /** A number of sixteenths, above 0, as whole number and reduced fraction. */
  function mixed(count) {
    const whole = Math.floor(count / 16);
    let over = count % 16, under = 16;
    if (!over) return String(whole);
    while (over % 2 === 0) [over, under] = [over / 2, under / 2];
    return whole ? `${whole} ${over}/${under}` : `${over}/${under}`;
  }

  /** A length with its unit: "12.5 mm" in steps of `step` mm; or inches as the page has them, to 1/16 at the finest. */
  function length(mm, units, step = 0.5) {
    if (units !== "inches") return `${stepped(mm, step)} mm`;
    const inches = Math.abs(mm) / MM_PER_INCH, grain = step >= COARSE_MM && inches >= 1 ? 16 : 1;
    const count = grain * Math.floor((inches * 16) / grain + 0.5 + 1e-9);
    if (!count) return `${Math.abs(mm) >= step ? stepped(mm / MM_PER_INCH, 0.01) : "0"} in`;
    const sign = mm < 0 ? MINUS : "", feet = count < FEET_FROM_IN * 16 ? 0 : Math.floor(count / (12 * 16));
    const over = count - feet * 12 * 16;
    if (!feet) return `${sign}${mixed(count)} in`;
    return `${sign}${feet} ft${over ? ` ${mixed(over)} in` : ""}`;
  }

  /** A thickness of shims: tenths of a millimetre or hundredths of an inch. */
  function thin(mm, units) {
    return units === "inches" ? `${stepped(mm / MM_PER_INCH, 0.01)} in` : `${stepped(mm, 0.1)} mm`;
  }

  /** A load, roughly: half kilograms, or whole pounds. */
  function load(n, units) {
    const kg = n / N_PER_KG;
    return units === "inches" ? `${stepped(kg * LB_PER_KG, 1)} lb` : `${stepped(kg, 0.5)} kg`;
  }

  /** A mass as it was typed, to a twentieth. */
  function mass(kg, units) {
    return units === "inches" ? `${stepped(kg * LB_PER_KG, 0.1)} lb` : `${stepped(kg, 0.05)} kg`;
  }

  /** "a", "a and b", "a, b and c". */
  function listed(parts) {
    return parts.length < 2 ? parts.join("") : `${parts.slice(0, -1).join(", ")} and ${parts[parts.length - 1]}`;
  }

  return { length, thin, load, mass, listed };
})();
