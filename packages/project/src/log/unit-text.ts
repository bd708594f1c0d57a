import { type MeasureUnit, unitOf } from "@tapeworthy/core";

/**
 * Units as instruments write them, in units of ours. Standard gravity 9.80665 m/s2 and the pound 0.45359237 kg by definition (ISO 80000-4:2019;
 * international yard and pound agreement of 1959), the inch 25.4 mm by the same. [memory]
 */
const spelt: Readonly<Record<string, readonly [unit: string, times: number]>> = {
  sec: ["s", 1],
  secs: ["s", 1],
  second: ["s", 1],
  seconds: ["s", 1],
  sek: ["s", 1],
  msec: ["ms", 1],
  usec: ["us", 1],
  μs: ["us", 1],
  μA: ["mA", 1e-3],
  ns: ["us", 1e-3],
  Sec: ["s", 1],
  RPM: ["rpm", 1],
  hour: ["h", 1],
  hours: ["h", 1],
  newton: ["N", 1],
  cN: ["N", 1e-2],
  daN: ["N", 10],
  kgf: ["gf", 1000],
  kp: ["gf", 1000],
  lbf: ["N", 4.4482216152605],
  lb: ["N", 4.4482216152605],
  ozf: ["N", 4.4482216152605 / 16],
  oz: ["N", 4.4482216152605 / 16],
  gram: ["g", 1],
  grams: ["g", 1],
  in: ["mm", 25.4],
  inch: ["mm", 25.4],
  mil: ["mm", 0.0254],
  nm: ["um", 1e-3],
  amp: ["A", 1],
  amps: ["A", 1],
  volt: ["V", 1],
  volts: ["V", 1],
  "°C": ["degC", 1],
  "℃": ["degC", 1],
  C: ["degC", 1],
  Ω: ["ohm", 1],
  mΩ: ["ohm", 1e-3],
  kΩ: ["ohm", 1e3],
  Ohm: ["ohm", 1],
  "°": ["deg", 1],
  degree: ["deg", 1],
  degrees: ["deg", 1],
  "U/min": ["rpm", 1],
  "1/min": ["rpm", 1],
  "%RH": ["%", 1],
  "% RH": ["%", 1],
  "%rF": ["%", 1],
  RH: ["%", 1],
  count: ["counts", 1],
  cycles: ["counts", 1],
  cycle: ["counts", 1],
  pcs: ["counts", 1],
  ticks: ["counts", 1],
  "#": ["counts", 1],
  Ncm: ["N*mm", 10],
  Nmm: ["N*mm", 1],
  Nm: ["N*mm", 1000],
  mNm: ["N*mm", 1],
  W: ["mW", 1000],
};
/** What a unit's text in a log stands for: SI factor and dimension, and our own way to write it where it has one. Undefined for no unit. */
export function unitText(text: string): (MeasureUnit & { readonly ours: string }) | undefined {
  const t = text.trim();
  if (t === "" || t.length > 24) return undefined;
  // The ohm and the micro have two letters each that look alike.
  const own = wordFor(t.replaceAll("\u2126", "\u03a9").replaceAll("\u00b5", "\u03bc"));
  if (own) {
    const unit = unitOf(own[0]);
    return own[1] === 1
      ? { ...unit, ours: own[0] }
      : { factor: unit.factor * own[1], dimension: unit.dimension, ours: t };
  }
  try {
    return { ...unitOf(t.replaceAll("·", "*").replaceAll("²", "^2")), ours: t };
  } catch (e) {
    if (e instanceof RangeError) return undefined;
    throw e;
  }
}
/** Symbols as they stand; words in any case. */
function wordFor(t: string): readonly [unit: string, times: number] | undefined {
  if (Object.hasOwn(spelt, t)) return spelt[t];
  const lower = t.toLowerCase();
  return t.length > 3 && Object.hasOwn(spelt, lower) ? spelt[lower] : undefined;
}
