import { type Dimension, none, power as powered, times } from "./dimension.ts";
import { power } from "./power.ts";

/** A unit: how many SI units it is, and of what. */
export interface Unit {
  readonly factor: number;
  readonly dimension: Dimension;
}

const length: Dimension = [1, 0, 0, 0, 0];
const mass: Dimension = [0, 1, 0, 0, 0];
const time: Dimension = [0, 0, 1, 0, 0];
const current: Dimension = [0, 0, 0, 1, 0];
const heat: Dimension = [0, 0, 0, 0, 1];
const force: Dimension = [1, 1, -2, 0, 0];
const energy: Dimension = [2, 1, -2, 0, 0];
const pressure: Dimension = [-1, 1, -2, 0, 0];
const powerOf: Dimension = [2, 1, -3, 0, 0];
const voltage: Dimension = [2, 1, -3, -1, 0];
const resistance: Dimension = [2, 1, -3, -2, 0];
const capacity: Dimension = [-2, -1, 4, 2, 0];
const inductance: Dimension = [2, 1, -2, -2, 0];

const unit = (factor: number, dimension: Dimension): Unit => ({ factor, dimension });

/**
 * The units a file may use. The tape's letters W, F, T, R, D, E, K, P, A, B are deliberately not unit symbols here (no watt,
 * farad, tesla, kelvin by their bare letter): a letter that could be either would be read wrongly one day. Exceptions,
 * safe because they name no letter of the tape on their own: N, A, V, J.
 * Standard gravity 9.80665 m/s2 for `gf` (ISO 80000-4:2019, by definition).
 */
const table: Readonly<Record<string, Unit>> = {
  m: unit(1, length),
  cm: unit(1e-2, length),
  mm: unit(1e-3, length),
  um: unit(1e-6, length),
  µm: unit(1e-6, length),
  // The Greek letter, as some keyboards type it.
  μm: unit(1e-6, length),
  kg: unit(1, mass),
  g: unit(1e-3, mass),
  mg: unit(1e-6, mass),
  s: unit(1, time),
  ms: unit(1e-3, time),
  us: unit(1e-6, time),
  min: unit(60, time),
  h: unit(3600, time),
  d: unit(86_400, time),
  Hz: unit(1, [0, 0, -1, 0, 0]),
  kHz: unit(1e3, [0, 0, -1, 0, 0]),
  rpm: unit((2 * Math.PI) / 60, [0, 0, -1, 0, 0]),
  N: unit(1, force),
  mN: unit(1e-3, force),
  kN: unit(1e3, force),
  gf: unit(9.80665e-3, force),
  J: unit(1, energy),
  mJ: unit(1e-3, energy),
  Pa: unit(1, pressure),
  kPa: unit(1e3, pressure),
  MPa: unit(1e6, pressure),
  GPa: unit(1e9, pressure),
  mW: unit(1e-3, powerOf),
  V: unit(1, voltage),
  mV: unit(1e-3, voltage),
  A: unit(1, current),
  mA: unit(1e-3, current),
  ohm: unit(1, resistance),
  mohm: unit(1e-3, resistance),
  uF: unit(1e-6, capacity),
  nF: unit(1e-9, capacity),
  uH: unit(1e-6, inductance),
  mH: unit(1e-3, inductance),
  rad: unit(1, none),
  mrad: unit(1e-3, none),
  deg: unit(Math.PI / 180, none),
  counts: unit(1, none),
  "%": unit(0.01, none),
  // Differences of temperature only: no file gives an absolute one to compute with.
  degC: unit(1, heat),
  kelvin: unit(1, heat),
};

export const unitNames: readonly string[] = Object.keys(table);

/** The unit of that symbol, or undefined. Own properties only: "constructor" is not a unit. */
export const unitNamed = (symbol: string): Unit | undefined =>
  Object.hasOwn(table, symbol) ? table[symbol] : undefined;

const read = new Map<string, Unit>();
/**
 * The unit that a compound text such as "N*mm", "J/m^2", "mm/s", "1/h" or "/h" stands for.
 * Empty text is a plain number. Throws RangeError naming what is no unit.
 */
export function unitOf(text: string): Unit {
  const known = read.get(text);
  if (known) return known;
  const made = readUnit(text);
  if (read.size < 1000) read.set(text, made);
  return made;
}

const term = /\s*([*/]?)\s*([A-Za-zµμ%]+|1)(?:\^(-?\d+(?:\.\d+)?))?\s*/y;
function readUnit(text: string): Unit {
  let result = unit(1, none);
  let at = 0;
  while (at < text.length) {
    term.lastIndex = at;
    const [whole, sign, symbol, exponent] = term.exec(text) ?? [];
    if (whole === undefined || (at === 0 ? sign === "*" : sign === "")) throw new RangeError(`"${text}" is no unit`);
    at += whole.length;
    if (symbol === "1") continue;
    const found = unitNamed(symbol!);
    if (!found) throw new RangeError(`"${symbol}" is no unit`);
    const p = Number(exponent ?? 1) * (sign === "/" ? -1 : 1);
    result = unit(result.factor * power(found.factor, p), times(result.dimension, powered(found.dimension, p)));
  }
  return result;
}
