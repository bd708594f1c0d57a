import { type Dimension, none, power as powered, times } from "./dimension.ts";
import { power } from "./power.ts";

/** A unit: how many SI units it is, and of what. */
export interface Unit {
  readonly factor: number;
  readonly dimension: Dimension;
  /** The factor as a fraction of whole numbers, 1 over 1000 of mm, and that of a millionth of it; both in lowest terms. */
  readonly fraction?: Fraction;
  readonly millionth?: Fraction;
}
type Fraction = readonly [up: number, over: number];

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

/** Decimals that a number keeps exactly on its way to SI and back. */
const decimals = 1e6;
const isWhole = Number.isSafeInteger;
function lowest(up: number, over: number): Fraction {
  let [a, b] = [up, over];
  while (b > 0) [a, b] = [b, a % b];
  return [up / a, over / a];
}
/** A unit of up/over SI units. */
function unit(up: number, dimension: Dimension, over = 1): Unit {
  const factor = up / over;
  if (!(isWhole(up) && isWhole(over))) return { factor, dimension };
  const [left, under] = lowest(up, decimals);
  return { factor, dimension, fraction: lowest(up, over), millionth: lowest(left, under * over) };
}

/**
 * The units a file may use. The tape's letters W, F, T, R, D, E, K, P, A, B are deliberately not unit symbols here (no watt,
 * farad, tesla, kelvin by their bare letter): a letter that could be either would be read wrongly one day. Exceptions,
 * safe because they name no letter of the tape on their own: N, A, V, J.
 * Standard gravity 9.80665 m/s2 for `gf` (ISO 80000-4:2019, by definition).
 */
const table: Readonly<Record<string, Unit>> = {
  m: unit(1, length),
  cm: unit(1, length, 100),
  mm: unit(1, length, 1e3),
  um: unit(1, length, 1e6),
  µm: unit(1, length, 1e6),
  // The Greek letter, as some keyboards type it.
  μm: unit(1, length, 1e6),
  kg: unit(1, mass),
  g: unit(1, mass, 1e3),
  mg: unit(1, mass, 1e6),
  s: unit(1, time),
  ms: unit(1, time, 1e3),
  us: unit(1, time, 1e6),
  min: unit(60, time),
  h: unit(3600, time),
  d: unit(86_400, time),
  Hz: unit(1, [0, 0, -1, 0, 0]),
  kHz: unit(1e3, [0, 0, -1, 0, 0]),
  rpm: unit(2 * Math.PI, [0, 0, -1, 0, 0], 60),
  N: unit(1, force),
  mN: unit(1, force, 1e3),
  kN: unit(1e3, force),
  gf: unit(980_665, force, 1e8),
  J: unit(1, energy),
  mJ: unit(1, energy, 1e3),
  Pa: unit(1, pressure),
  kPa: unit(1e3, pressure),
  MPa: unit(1e6, pressure),
  GPa: unit(1e9, pressure),
  mW: unit(1, powerOf, 1e3),
  V: unit(1, voltage),
  mV: unit(1, voltage, 1e3),
  A: unit(1, current),
  mA: unit(1, current, 1e3),
  ohm: unit(1, resistance),
  mohm: unit(1, resistance, 1e3),
  uF: unit(1, capacity, 1e6),
  nF: unit(1, capacity, 1e9),
  uH: unit(1, inductance, 1e6),
  mH: unit(1, inductance, 1e3),
  rad: unit(1, none),
  mrad: unit(1, none, 1e3),
  deg: unit(Math.PI, none, 180),
  counts: unit(1, none),
  "%": unit(1, none, 100),
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
  let factor = 1;
  // The factor in whole numbers, as far as there are any.
  let [up, over] = [1, 1];
  let dimension = none;
  let at = 0;
  while (at < text.length) {
    term.lastIndex = at;
    const [all, sign, symbol, exponent] = term.exec(text) ?? [];
    if (all === undefined || (at === 0 ? sign === "*" : sign === "")) throw new RangeError(`"${text}" is no unit`);
    at += all.length;
    if (symbol === "1") continue;
    const found = unitNamed(symbol!);
    if (!found) throw new RangeError(`"${symbol}" is no unit`);
    const p = Number(exponent ?? 1) * (sign === "/" ? -1 : 1);
    factor *= power(found.factor, p);
    const [above, below] = found.fraction ?? [Number.NaN, Number.NaN];
    up *= power(p < 0 ? below : above, Math.abs(p));
    over *= power(p < 0 ? above : below, Math.abs(p));
    dimension = times(dimension, powered(found.dimension, p));
  }
  return isWhole(up) && isWhole(over) ? unit(up, dimension, over) : { factor, dimension };
}

/**
 * SI value of v of a unit: the double nearest to the decimal that is written, for numbers of up to six decimals and units that are a fraction of
 * whole numbers. 205 mm is 0.205 m and 24.3 mm are 0.0243 m, where 205 * 0.001 and 24.3/1000 are rounded twice and miss them by the last bit.
 */
export function toSI(v: number, { factor, fraction, millionth }: Unit): number {
  if (!fraction || !millionth) return v * factor;
  const n = Math.round(v * decimals);
  const [up, under] = [n * millionth[0], millionth[1]];
  return n / decimals === v && isWhole(up) && isWhole(under) ? up / under : (v * fraction[0]) / fraction[1];
}
/** The way back: how many of a unit an SI value is. The number of up to six decimals that `toSI` takes to just this value, where there is one. */
export function fromSI(si: number, unit: Unit): number {
  const { factor, fraction } = unit;
  if (!fraction) return si / factor;
  const v = (si * fraction[1]) / fraction[0];
  const written = Math.round(v * decimals) / decimals;
  return toSI(written, unit) === si ? written : v;
}
