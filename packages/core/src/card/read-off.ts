/**
 * From readings to a value with its uncertainty.
 *
 *     y_j  = mean over a piece's readings of f(readings, settings)         y = mean of y_j
 *     U^2 = t(m - 1)^2 s^2/m + k^2 v^2
 *     v^2 = sum (c_i a_i)^2/3,     k = 1.96 (1 - 0.16 q^2),     q = sum (c_i a_i)^4/9/v^4
 *
 * m pieces (reels, units), s their standard deviation, t Student's two-sided 95 %, c_i slopes of y, a_i half widths of nought, scale and
 * settings, and half the least step where that leaves a wider half width than repeats do (a number that is counted or chosen has none). Pieces count, not readings: only where there is one piece does the scatter of its
 * readings stand in, and it says nothing of others. The wider of repeat and resolution counts, since a scatter that is seen holds the
 * resolution already. The last factor is for what lies evenly within its half width: 95 % of an even law is 1.65 standard deviations,
 * not 1.96; it was fitted to sums of one, two and three even laws (1.65, 1.90, 1.94), derived.
 *
 * GUM (JCGM 100) 4.3 to 5.1: root sum of squares, even laws; memory. Half widths are summed, each widened by its own law, in place of one factor with an
 * effective freedom (G.4): with three pieces that held the truth in 90 of 100 simulated benches only, this in 94 to 97. It stops holding
 * where f is far from straight within the uncertainty.
 */
import { evaluate, type Node, parseExpression } from "../quantity/expression.ts";
import { power } from "../quantity/power.ts";
import { showIn } from "../quantity/show.ts";
import { fromSI, toSI, type Unit, unitOf } from "../quantity/units.ts";
import type { Entry, Method, Readings, Row } from "./method.ts";
import { studentHalfWidth } from "./student.ts";

export type PartName = "repeat" | "resolution" | "nought" | "scale" | "set-up";
/** One contribution to the uncertainty: a standard uncertainty of the value, SI. */
export interface Part {
  readonly name: PartName;
  readonly words: string;
  readonly u: number;
}
export interface Answer {
  readonly kind: "answer";
  readonly value: number;
  /** Half width that holds 95 %, SI. */
  readonly within: number;
  readonly unit: string;
  readonly shownIn: string;
  /** What each piece says, SI. */
  readonly pieces: readonly number[];
  /** Standard deviation between pieces as a share of the value: what goes into the file as scatter; null for one piece. */
  readonly scatter: number | null;
  readonly parts: readonly Part[];
  readonly freedom: number;
  readonly warnings: readonly string[];
}
/** Readings that say nothing, with the way out. */
export interface Refusal {
  readonly kind: "refusal";
  readonly found: string;
  readonly wayOut: string;
}
const refusal = (found: string, wayOut: string): Refusal => ({ kind: "refusal", found, wayOut });

const trees = new Map<string, Node>();
const treeOf = (equation: string): Node => {
  const known = trees.get(equation);
  if (known) return known;
  const made = parseExpression(equation);
  trees.set(equation, made);
  return made;
};

const closed = (equation: string) => {
  const tree = treeOf(equation);
  return (row: Row, set: Row): number => evaluate(tree, (name) => row[name] ?? set[name]);
};
/** The value of one piece from its readings in SI. */
export function pieceValue(method: Method, rows: readonly Row[], set: Row): number {
  if (method.ofPiece) return method.ofPiece(rows, set);
  const one = method.ofReading ?? closed(method.equation);
  return rows.reduce((sum, row) => sum + one(row, set), 0) / rows.length;
}
/** Settings in SI: the card's, or those of the bench. */
export const settingsOf = (method: Method, own: Readonly<Record<string, number>> = {}): Record<string, number> =>
  Object.fromEntries(method.settings.map((s) => [s.symbol, toSI(own[s.symbol] ?? s.usual, unitOf(s.unit))]));

const normal95 = studentHalfWidth(Number.POSITIVE_INFINITY);
const evenLaw95 = 0.84 * normal95;
const mean = (x: readonly number[]): number => x.reduce((a, b) => a + b, 0) / x.length;
const sdOf = (x: readonly number[]): number => {
  const m = mean(x);
  return Math.sqrt(x.reduce((sum, v) => sum + (v - m) ** 2, 0) / (x.length - 1));
};

export function readOff(method: Method, readings: Readings): Answer | Refusal {
  const wrong = faultOf(method, readings);
  if (wrong) return wrong;
  const { entries, settings } = method;
  const units = entries.map((e) => unitOf(e.unit));
  const set = settingsOf(method, readings.settings);
  type Move = (entry: number, typed: number) => number;
  const valuesWith = (move: Move, moved: Row = set): number[] =>
    readings.pieces.map((rows) =>
      pieceValue(
        method,
        rows.map((row) => Object.fromEntries(entries.map((e, i) => [e.symbol, toSI(move(i, row[i]!), units[i]!)]))),
        moved,
      ),
    );
  const pieces = valuesWith((_, v) => v);
  const value = mean(pieces);
  const odd = pieces.findIndex((v) => !Number.isFinite(v));
  if (odd >= 0)
    return refusal(
      `The readings of ${method.per} ${odd + 1} give no ${method.title}`,
      "Look for two numbers typed in each other's place, or for readings that should differ and are alike.",
    );
  const short = method.least ? pieces.findIndex((v) => v < method.least!.value) : -1;
  if (short >= 0)
    return refusal(
      `The readings of ${method.per} ${short + 1} give a ${method.title} of ${showIn(method.shownIn, pieces[short]!, 3)}`,
      method.least!.hint,
    );
  /** Half the change of the value when something goes up and down by its half width. */
  const slope = (up: number[], down: number[]): number => Math.abs(mean(up) - mean(down)) / 2;
  const shifted = (entry: number, by: number): number =>
    slope(
      valuesWith((i, v) => (i === entry ? v + by : v)),
      valuesWith((i, v) => (i === entry ? v - by : v)),
    );

  const parts: Part[] = [];
  const warnings: string[] = [];
  const repeat = repeatOf(method, readings, pieces, set, units);
  if (repeat.warning) warnings.push(repeat.warning);
  const seen = method.between
    ? bracketOf(method, readings, valuesWith)
    : Math.hypot(...entries.map((e, i) => (e.whole ? 0 : shifted(i, e.resolution / 2)))) / Math.sqrt(3);
  // Whichever leaves the wider half width: a few pieces that happen to agree do not make their scatter small.
  const scatter95 = repeat.u === 0 ? 0 : studentHalfWidth(repeat.freedom) * repeat.u;
  const coarse = evenLaw95 * seen > scatter95;
  parts.push({ name: "repeat", words: repeat.words, u: coarse ? 0 : repeat.u });
  parts.push({
    name: "resolution",
    words: coarse ? "more than the readings scatter" : "held in what the readings scatter",
    u: coarse ? seen : 0,
  });
  entries.forEach((e, i) => {
    if (e.zero)
      parts.push({
        name: "nought",
        words: `${e.name}: nought within ${e.zero} ${e.unit}`,
        u: shifted(i, e.zero) / Math.sqrt(3),
      });
    const off = e.scale;
    if (off)
      parts.push({
        name: "scale",
        words: `${e.name}: scale within ${+(off * 100).toFixed(2)} %`,
        u:
          slope(
            valuesWith((k, v) => (k === i ? v * (1 + off) : v)),
            valuesWith((k, v) => (k === i ? v * (1 - off) : v)),
          ) / Math.sqrt(3),
      });
  });
  for (const s of settings) {
    if (s.within === 0) continue;
    const by = toSI(s.within, unitOf(s.unit));
    const at = set[s.symbol]!;
    parts.push({
      name: "set-up",
      words: `${s.name} within ${s.within} ${s.unit}`.trimEnd(),
      u:
        slope(
          valuesWith((_, v) => v, { ...set, [s.symbol]: at + by }),
          valuesWith((_, v) => v, { ...set, [s.symbol]: at - by }),
        ) / Math.sqrt(3),
    });
  }
  // Repeats widen by Student's law; what lies evenly within half widths by how much one of them stands out.
  const rest = parts.filter((p) => p.name !== "repeat").map((p) => p.u);
  const even = Math.hypot(...rest);
  const alone = even > 0 ? rest.reduce((sum, one) => sum + power(one / even, 4), 0) : 0;
  const within = Math.hypot(coarse ? 0 : scatter95, normal95 * (1 - 0.16 * alone * alone) * even);
  if (!Number.isFinite(within))
    return refusal(
      `The readings lie too near the end of what this can measure: their uncertainty has no bound`,
      "Take readings that differ more from each other, or a finer instrument.",
    );
  if (Math.abs(value) < within && !entries.some((e) => e.signed))
    warnings.push(`The uncertainty is as large as the value: take a finer instrument, or more ${plural(method.per)}.`);
  return {
    kind: "answer",
    value,
    within,
    unit: method.unit,
    shownIn: method.shownIn,
    pieces,
    scatter: pieces.length > 1 && value !== 0 ? sdOf(pieces) / Math.abs(value) : null,
    parts,
    freedom: coarse || repeat.u === 0 ? Number.POSITIVE_INFINITY : repeat.freedom,
    warnings,
  };
}
export const plural = (per: Method["per"]): string => `${per}s`;

/** Standard uncertainty of the mean by what repeats show: pieces where there are two, else the readings of the one. */
function repeatOf(
  method: Method,
  { pieces: typed }: Readings,
  values: readonly number[],
  set: Row,
  units: readonly Unit[],
): { readonly u: number; readonly freedom: number; readonly words: string; readonly warning?: string } {
  const m = values.length;
  const { per } = method;
  if (m > 1)
    return {
      u: sdOf(values) / Math.sqrt(m),
      freedom: m - 1,
      words: `${m} ${plural(per)} differ`,
      ...(m < 3 ? { warning: `Two ${plural(per)} say little of others: take three or more.` } : {}),
    };
  const rows = typed[0]!;
  const warning = `One ${per} says nothing of others: the uncertainty is that of this ${per} alone.`;
  if (method.ofPiece || rows.length < 2)
    return { u: 0, freedom: 1, words: `nothing is repeated`, warning: `${warning} Nothing shows how readings repeat.` };
  const each = rows.map((row) =>
    pieceValue(method, [Object.fromEntries(method.entries.map((e, i) => [e.symbol, toSI(row[i]!, units[i]!)]))], set),
  );
  return {
    u: sdOf(each) / Math.sqrt(rows.length),
    freedom: rows.length - 1,
    words: `${rows.length} readings of one ${per} differ`,
    warning,
  };
}
/** Standard uncertainty of a limit that lies evenly between two ends. */
function bracketOf(
  method: Method,
  { pieces }: Readings,
  valuesWith: (move: (entry: number, typed: number) => number) => number[],
): number {
  const [low, high] = method.between!.map((s) => method.entries.findIndex((e) => e.symbol === s)) as [number, number];
  const all = pieces.flat();
  const half = mean(all.map((row) => Math.abs(row[high]! - row[low]!))) / 2;
  const both = (by: number): number[] => valuesWith((i, v) => (i === low || i === high ? v + by : v));
  return Math.abs(mean(both(half)) - mean(both(-half))) / 2 / Math.sqrt(3);
}

/** What is wrong with readings as they are typed; undefined where nothing is. */
function faultOf(method: Method, { pieces, settings }: Readings): Refusal | undefined {
  const { entries, per } = method;
  const names = entries.map((e) => e.name).join(", then ");
  if (pieces.length === 0 || pieces.every((rows) => rows.length === 0))
    return refusal("There are no readings yet", `Type at least one reading: ${names}.`);
  for (const [j, rows] of pieces.entries()) {
    if (rows.length === 0)
      return refusal(`There is no reading of ${per} ${j + 1}`, `Type one, or leave this ${per} out.`);
    for (const [k, row] of rows.entries()) {
      const where = `Reading ${k + 1} of ${per} ${j + 1}`;
      if (row.length !== entries.length)
        return refusal(
          `${where} has ${row.length} ${row.length === 1 ? "number" : "numbers"}`,
          `It wants ${entries.length}: ${names}.`,
        );
      for (const [i, e] of entries.entries()) {
        const fault = faultOfNumber(row[i]!, e);
        if (fault) return refusal(`${where}: ${e.name} is ${fault.is}`, fault.wayOut);
      }
      for (const { more, less, hint } of method.order ?? []) {
        const [a, b] = [more, less].map((s) => entries.findIndex((e) => e.symbol === s)) as [number, number];
        if (!(row[a]! > row[b]!))
          return refusal(
            `${where}: ${entries[a]!.name} (${row[a]}) is not above ${entries[b]!.name} (${row[b]})`,
            hint,
          );
      }
    }
    if (method.ofPiece && rows.length < 2)
      return refusal(
        `Reading 1 of ${per} ${j + 1} stands alone`,
        "A slope wants readings at two places at least, far from each other.",
      );
  }
  for (const [symbol, v] of Object.entries(settings ?? {})) {
    const s = method.settings.find((one) => one.symbol === symbol);
    if (!s)
      return refusal(
        `This card has no "${symbol}" to set`,
        method.settings.length === 0
          ? "It has none at all."
          : `It has ${method.settings.map((one) => `${one.symbol} (${one.name})`).join(", ")}.`,
      );
    if (!Number.isFinite(v) || v <= 0)
      return refusal(
        `${s.name} is ${said(v)}`,
        `It must be more than nothing; the card draws ${`${s.usual} ${s.unit}`.trimEnd()}.`,
      );
  }
  return undefined;
}
const choice = (last: number): string => `Write ${Array.from({ length: last }, (_, i) => i + 1).join(" or ")}.`;
const said = (v: number): string => (Number.isFinite(v) ? `${v}` : "no number");
function faultOfNumber(v: number, e: Entry): { readonly is: string; readonly wayOut: string } | undefined {
  if (typeof v !== "number" || !Number.isFinite(v))
    return { is: "no number", wayOut: `Type it in ${e.unit || "plain figures"}, with a point for decimals.` };
  if (Math.abs(v) > 1e9 || (v !== 0 && Math.abs(v) < 1e-9))
    return {
      is: `${v} ${e.unit}`.trimEnd(),
      wayOut: "No instrument of a workshop shows that: look for a slip of the keys.",
    };
  if (e.whole && v > 0 && !Number.isInteger(v))
    return {
      is: `${v}, no whole number`,
      wayOut: e.most ? choice(e.most) : "A part of one is none: count again.",
    };
  if (e.most !== undefined && v > e.most) return { is: `${v}`, wayOut: choice(e.most) };
  if (e.signed || v > 0) return undefined;
  return {
    is: v === 0 ? `0 ${e.unit}`.trimEnd() : `${v} ${e.unit}, less than nothing`,
    wayOut:
      v === 0
        ? "The instrument shows no step of it: take a finer one or a larger piece, or leave the reading out."
        : "Set the instrument to nought and read again.",
  };
}

/** "0.24 ±0.02", "18.2 ±0.6 mm": as many decimals as two figures of the uncertainty want. */
export function sayAnswer({ value, within, shownIn }: Pick<Answer, "value" | "within" | "shownIn">): string {
  const unit = unitOf(shownIn);
  const [v, w] = [fromSI(value, unit), fromSI(within, unit)];
  if (!(w > 0)) return `${+v.toPrecision(9)} ${shownIn.replace(/^1\//, "/")}`.trimEnd().replaceAll("-", "−");
  const size = Math.floor(Math.log10(w) + 1e-9);
  const decimals = Math.max(0, Math.min(12, (w / power(10, size) < 2.95 ? 1 : 0) - size));
  const tooMany = Math.abs(v) >= 1e6 || (Math.abs(v) > 0 && Math.abs(v) < 1e-6);
  const text = tooMany
    ? `${v.toExponential(2)} ±${w.toExponential(1)}`
    : `${v.toFixed(decimals)} ±${w.toFixed(decimals)}`;
  return `${text} ${shownIn.replace(/^1\//, "/")}`.trimEnd().replaceAll("-", "−");
}
/** The same with how sure it is: "0.24 ±0.02 at 95 %", "24, as it was counted or seen". */
export const sayHowSure = (answer: Pick<Answer, "value" | "within" | "shownIn">): string =>
  answer.within > 0 ? `${sayAnswer(answer)} at 95 %` : `${sayAnswer(answer)}, as it was counted or seen`;
