import { readFileSync } from "node:fs";
import { type Fit, fit, linearFit, oneWay, summary } from "@tapeworthy/core";
import { type Row, row } from "./row.ts";

type Law = (b: Float64Array, x: readonly number[]) => number;
const sets: Readonly<Record<string, Law>> = {
  Bennett5: (b, [x]) => b[0]! * (b[1]! + x!) ** (-1 / b[2]!),
  BoxBOD: (b, [x]) => b[0]! * (1 - Math.exp(-b[1]! * x!)),
  Chwirut2: (b, [x]) => Math.exp(-b[0]! * x!) / (b[1]! + b[2]! * x!),
  DanWood: (b, [x]) => b[0]! * x! ** b[1]!,
  Eckerle4: (b, [x]) => (b[0]! / b[1]!) * Math.exp(-0.5 * ((x! - b[2]!) / b[1]!) ** 2),
  Hahn1: cubics,
  Kirby2: (b, [x]) => (b[0]! + b[1]! * x! + b[2]! * x! ** 2) / (1 + b[3]! * x! + b[4]! * x! ** 2),
  Lanczos3: (b, [x]) => b[0]! * Math.exp(-b[1]! * x!) + b[2]! * Math.exp(-b[3]! * x!) + b[4]! * Math.exp(-b[5]! * x!),
  MGH09: (b, [x]) => (b[0]! * (x! ** 2 + x! * b[1]!)) / (x! ** 2 + x! * b[2]! + b[3]!),
  MGH10: (b, [x]) => b[0]! * Math.exp(b[1]! / (x! + b[2]!)),
  MGH17: (b, [x]) => b[0]! + b[1]! * Math.exp(-x! * b[3]!) + b[2]! * Math.exp(-x! * b[4]!),
  Misra1a: (b, [x]) => b[0]! * (1 - Math.exp(-b[1]! * x!)),
  Misra1b: (b, [x]) => b[0]! * (1 - (1 + (b[1]! * x!) / 2) ** -2),
  Misra1c: (b, [x]) => b[0]! * (1 - (1 + 2 * b[1]! * x!) ** -0.5),
  Misra1d: (b, [x]) => (b[0]! * b[1]! * x!) / (1 + b[1]! * x!),
  Nelson: (b, [x1, x2]) => b[0]! - b[1]! * x1! * Math.exp(-b[2]! * x2!),
  Rat42: (b, [x]) => b[0]! / (1 + Math.exp(b[1]! - b[2]! * x!)),
  Rat43: (b, [x]) => b[0]! / (1 + Math.exp(b[1]! - b[2]! * x!)) ** (1 / b[3]!),
  Roszman1: (b, [x]) => b[0]! - b[1]! * x! - Math.atan(b[2]! / (x! - b[3]!)) / Math.PI,
  Thurber: cubics,
};
function cubics(b: Float64Array, [x]: readonly number[]): number {
  return (b[0]! + x! * (b[1]! + x! * (b[2]! + x! * b[3]!))) / (1 + x! * (b[4]! + x! * (b[5]! + x! * b[6]!)));
}
export const setNames: readonly string[] = Object.keys(sets);

export interface Certified {
  readonly starts: readonly (readonly number[])[];
  readonly b: readonly number[];
  readonly sd: readonly number[];
  readonly rss: number;
  readonly y: readonly number[];
  readonly x: readonly (readonly number[])[];
}
/** A set as its public file has it: starts, certified values, readings. */
export function certified(name: string): Certified {
  const lines = readFileSync(new URL(`../nist/${name}.dat`, import.meta.url), "utf8").split(/\r?\n/);
  const parameters = lines.flatMap((line) => {
    const found = /^\s*b\d+\s*=\s+(\S+)\s+(\S+)\s+(\S+)\s+(\S+)\s*$/.exec(line);
    return found ? [found.slice(1).map(Number)] : [];
  });
  const rss = Number(lines.find((l) => l.startsWith("Residual Sum of Squares"))!.split(":")[1]);
  const from = lines.findLastIndex((l) => l.startsWith("Data:"));
  const data = lines
    .slice(from + 1)
    .map((l) => l.trim().split(/\s+/).map(Number))
    .filter((v) => v.length >= 2 && v.every(Number.isFinite));
  const y = data.map((v) => (name === "Nelson" ? Math.log(v[0]!) : v[0]!));
  return {
    starts: [parameters.map((p) => p[0]!), parameters.map((p) => p[1]!)],
    b: parameters.map((p) => p[2]!),
    sd: parameters.map((p) => p[3]!),
    rss,
    y,
    x: data.map((v) => v.slice(1)),
  };
}
/** A set fitted from the starts its file gives. */
export function fitted(name: string): { set: Certified; result: Fit } {
  const set = certified(name);
  const law = sets[name]!;
  const { x } = set;
  return {
    set,
    result: fit({
      y: set.y,
      law: (b, out) => {
        for (let i = 0; i < out.length; i++) out[i] = law(b, x[i]!);
      },
      starts: set.starts,
    }),
  };
}
/** Least number of digits in which two rows agree, 11 at most: the certified ones have no more. */
export const digits = (got: ArrayLike<number>, want: readonly number[]): number =>
  Math.min(11, ...want.map((c, j) => -Math.log10(Math.abs(got[j]! / c - 1) + 1e-300)));

const nist = (name: string): string => `NIST Statistical Reference Datasets, ${name}`;
const sirstv = [
  [196.3052, 196.124, 196.189, 196.2569, 196.3403],
  [196.3042, 196.3825, 196.1669, 196.3257, 196.0422],
  [196.1303, 196.2005, 196.2889, 196.0343, 196.1811],
  [196.2795, 196.1748, 196.1494, 196.1485, 195.9885],
  [196.2119, 196.1051, 196.185, 196.0052, 196.209],
];
/** Middle, then a tenth below and above it in turn. */
const inTurn = (middle: number, low: number, high: number, pairs: number): number[] => [
  middle,
  ...Array.from({ length: 2 * pairs }, (_, i) => (i % 2 === 0 ? low : high)),
];
/** Nine groups of 1 + 2 pairs readings whose middles are 1.4, then 1.3 and 1.5 in turn, each offset. */
const nineGroups = (offset: number, pairs: number): number[][] =>
  [14, 13, 15, 13, 15, 13, 15, 13, 15].map((m) =>
    inTurn(offset + m / 10, offset + (m - 1) / 10, offset + (m + 1) / 10, pairs),
  );
export const longleyX = [
  [83, 234289, 2356, 1590, 107608, 1947],
  [88.5, 259426, 2325, 1456, 108632, 1948],
  [88.2, 258054, 3682, 1616, 109773, 1949],
  [89.5, 284599, 3351, 1650, 110929, 1950],
  [96.2, 328975, 2099, 3099, 112075, 1951],
  [98.1, 346999, 1932, 3594, 113270, 1952],
  [99, 365385, 1870, 3547, 115094, 1953],
  [100, 363112, 3578, 3350, 116219, 1954],
  [101.2, 397469, 2904, 3048, 117388, 1955],
  [104.6, 419180, 2822, 2857, 118734, 1956],
  [108.4, 442769, 2936, 2798, 120445, 1957],
  [110.8, 444546, 4681, 2637, 121950, 1958],
  [112.6, 482704, 3813, 2552, 123366, 1959],
  [114.2, 502601, 3931, 2514, 125368, 1960],
  [115.7, 518173, 4806, 2572, 127852, 1961],
  [116.9, 554894, 4007, 2827, 130081, 1962],
];
export const longleyY = [
  60323, 61122, 60171, 61187, 63221, 63639, 64989, 63761, 66019, 67857, 68169, 66513, 68655, 69564, 69331, 70551,
];
const longleyB = [
  -3482258.63459582, 15.0618722713733, -0.035819179292591, -2.02022980381683, -1.03322686717359, -0.0511041056535807,
  1829.15146461355,
];

/** Sets with certified answers: laws fitted from both starts, a nearly singular linear fit, analysis of variance, sums with large offsets. */
export function fitRows(): Row[] {
  const rows: Row[] = [];
  const add = (
    id: string,
    model: string,
    expected: number,
    got: number,
    near: Parameters<typeof row>[0]["near"],
    source: string,
    how: Row["how"] = "read",
  ) => rows.push(row({ id: `nist.${id}`, model, expected, got, near, source, how }));
  for (const name of setNames) {
    const { set, result } = fitted(name);
    const low = name.toLowerCase();
    const second = result.ends[1]!;
    set.b.forEach((b, j) => {
      add(`${low} b${j + 1}`, "fit", b, second.b[j]!, { share: 1e-7 }, `${nist(name)}, certified value, from start 2`);
      add(`${low} sd of b${j + 1}`, "fit", set.sd[j]!, second.sd[j]!, { share: 1e-5 }, `${nist(name)}, from start 2`);
    });
    // Lanczos3's residuals are roundings of its data: below that the digits of the sum are those of the arithmetic.
    add(`${low} rss`, "fit", set.rss, second.rss, { share: 1e-7 }, `${nist(name)}, from start 2`);
    const first = result.ends[0]!;
    const astray = digits(first.b, set.b) < 4;
    add(
      `${low} start 1 is right or named`,
      "fit",
      1,
      astray === result.findings.some((f) => f.startsWith("start 1")) ? 1 : 0,
      { within: 0 },
      `${nist(name)}: 1 where start 1 ends at the certified values, or ends elsewhere and a finding says so`,
    );
  }
  const longley = linearFit(
    [longleyY.map(() => 1), ...longleyX[0]!.map((_, j) => longleyX.map((r) => r[j]!))],
    longleyY,
  );
  longleyB.forEach((b, j) => {
    add(
      `longley b${j}`,
      "linear fit",
      b,
      longley.b[j]!,
      { share: 1e-12 },
      `${nist("Longley")}, certified value`,
      "memory",
    );
  });
  add("anova SiRstv F", "one-way", 1.18046237440255, oneWay(sirstv).F, { share: 1e-10 }, nist("SiRstv"));
  const twoThousand = `${nist("SmLs03")}: nine groups of 2001, the data written out from their rule`;
  add("anova SmLs03 F", "one-way", 2001, oneWay(nineGroups(0, 1000)).F, { share: 1e-9 }, twoThousand);
  add(
    "anova SmLs06 F",
    "one-way",
    2001,
    oneWay(nineGroups(1e6, 1000)).F,
    { share: 1e-6 },
    `${nist("SmLs06")}: the same above 1 000 000; the data themselves hold 10 digits of a tenth`,
    "derived",
  );
  for (const [set, offset] of [
    [2, 1],
    [3, 1e6],
    [4, 1e7],
  ] as const) {
    const got = summary(inTurn(offset + 0.2, offset + 0.1, offset + 0.3, 500));
    const source = `${nist(`NumAcc${set}`)}: 1001 readings, ${offset + 0.2}, then ${offset + 0.1} and ${offset + 0.3} in turn`;
    add(`numacc${set} mean`, "summary", offset + 0.2, got.mean, { share: 1e-15 }, source, "memory");
    add(`numacc${set} sd`, "summary", 0.1, got.sd!, { share: 1e-8 }, source, "memory");
  }
  return rows;
}
