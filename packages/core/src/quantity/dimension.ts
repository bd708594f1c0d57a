/**
 * Dimensions of quantities: exponents of length, mass, time, current and temperature.
 *
 * Angles, counts and prices (in the project's own currency) are pure numbers.
 */
export type Dimension = readonly [length: number, mass: number, time: number, current: number, heat: number];

export const none: Dimension = [0, 0, 0, 0, 0];

/** The dimension of a bare nought, which goes with anything: `max(0, x)`. Known by identity. */
export const anything: Dimension = [0, 0, 0, 0, 0];

export const sameDimension = (a: Dimension, b: Dimension): boolean =>
  a === anything || b === anything || a.every((v, i) => Math.abs(v - b[i]!) < 1e-9);
export const isPure = (a: Dimension): boolean => sameDimension(a, none);

const combine = (a: Dimension, b: Dimension, sign: 1 | -1): Dimension =>
  a.map((v, i) => v + sign * b[i]!) as unknown as Dimension;
export const times = (a: Dimension, b: Dimension): Dimension => combine(a, b, 1);
export const over = (a: Dimension, b: Dimension): Dimension => combine(a, b, -1);
export const power = (a: Dimension, p: number): Dimension => a.map((v) => v * p) as unknown as Dimension;

const named: readonly (readonly [word: string, Dimension])[] = [
  ["a plain number", none],
  ["a length", [1, 0, 0, 0, 0]],
  ["an area", [2, 0, 0, 0, 0]],
  ["a mass", [0, 1, 0, 0, 0]],
  ["a time", [0, 0, 1, 0, 0]],
  ["a speed", [1, 0, -1, 0, 0]],
  ["a force", [1, 1, -2, 0, 0]],
  ["a torque or an energy", [2, 1, -2, 0, 0]],
  ["a force per length", [0, 1, -2, 0, 0]],
  ["a pressure", [-1, 1, -2, 0, 0]],
  ["a voltage", [2, 1, -3, -1, 0]],
  ["a current", [0, 0, 0, 1, 0]],
  ["a resistance", [2, 1, -3, -2, 0]],
  ["a temperature difference", [0, 0, 0, 0, 1]],
  ["a curvature", [-1, 0, 0, 0, 0]],
  ["a rate per time", [0, 0, -1, 0, 0]],
  ["a rate per mass", [0, -1, 0, 0, 0]],
];

/** In words where there is a word for it ("a length"), else by its base units ("something in m^3"). */
export function dimensionInWords(d: Dimension): string {
  const found = named.find(([, known]) => sameDimension(known, d));
  return found ? found[0] : `something in ${dimensionInUnits(d)}`;
}

const coherent: readonly (readonly [unit: string, Dimension])[] = [
  ["N", [1, 1, -2, 0, 0]],
  ["N*m", [2, 1, -2, 0, 0]],
  ["N/m", [0, 1, -2, 0, 0]],
  ["Pa", [-1, 1, -2, 0, 0]],
  ["V", [2, 1, -3, -1, 0]],
  ["ohm", [2, 1, -3, -2, 0]],
];
/** The coherent SI unit: "N", "N/m", or base units as in "kg*m/s". A plain number is "1". */
export function dimensionInUnits(d: Dimension): string {
  const known = coherent.find(([, dimension]) => sameDimension(d, dimension));
  if (known) return known[0];
  const symbols = ["m", "kg", "s", "A", "kelvin"];
  const part = (sign: 1 | -1) =>
    d.flatMap((v, i) =>
      v * sign > 1e-9 ? [symbols[i]! + (Math.abs(v) === 1 ? "" : `^${+Math.abs(v).toFixed(4)}`)] : [],
    );
  const above = part(1);
  const below = part(-1);
  return `${above.join("*") || "1"}${below.map((u) => `/${u}`).join("")}`;
}

const customary: readonly (readonly [Dimension, unit: string])[] = [
  [[1, 0, 0, 0, 0], "mm"],
  [[0, 1, 0, 0, 0], "g"],
  [[0, 0, 1, 0, 0], "ms"],
  [[1, 0, -1, 0, 0], "mm/s"],
  [[1, 1, -2, 0, 0], "N"],
  [[2, 1, -2, 0, 0], "N*mm"],
  [[0, 1, -2, 0, 0], "N/mm"],
  [[-1, 1, -2, 0, 0], "MPa"],
  [[2, 1, -3, -1, 0], "V"],
  [[0, 0, 0, 1, 0], "A"],
  [[2, 1, -3, -2, 0], "ohm"],
  [[-1, 0, 0, 0, 0], "1/m"],
];
/** The unit a person of the trade would write for that dimension; "" where none is common. */
export const customaryUnit = (d: Dimension): string => customary.find(([known]) => sameDimension(known, d))?.[1] ?? "";
