import { sameDimension } from "./dimension.ts";
import { centreOf, type Given, namesOf, worstLetter } from "./given.ts";
import { believed, endsOfGuess, type Scatter, type Unknown, unknownBetween } from "./law.ts";
import type { Quantity } from "./model.ts";

/** Whose draws a number between two others takes: theirs, blended, so that it has a's own at share 0 and b's own at share 1. */
export interface Blend {
  readonly of: readonly [a: Given, b: Given];
  readonly share: number;
  /** For each of its scatters, which of a's and which of b's it lies between. */
  readonly scatters: readonly { readonly a?: number; readonly b?: number }[];
}
/** Between two tolerances in proportion, or the wider of both all the way up to b. */
export type Tolerances = "in proportion" | "the wider";

/**
 * Numbers part of the way from one to another, share 0 <= t <= 1.
 *
 *     centre       (1 - t) a + t b
 *     guess        (1 - t) a(z) + t b(z) at every coordinate z of belief; what is known has one value at all z
 *     tolerance    its limits, and the sd of other scatters, in proportion; or the wider of both for t < 1
 *     coordinates  z = z_a cos(pi t/2) + z_b sin(pi t/2), normal at every t; those of limits through their normal deviate
 *
 * At t = 0 and t = 1 it is a and b themselves: their numbers, their draws. Between, it is as uncertain as its neighbours, which a mean
 * of two independent numbers would not be. A number whose text is the same formula on both sides follows it with names between. Where one
 * side is a model, or the formulas differ, it is the mean (1 - t) a + t b of both, and less uncertain than either where they are
 * independent. Two belief switches, which have nothing between them, are b from the first step on.
 */
export class Between {
  readonly share: number;
  private readonly made = {
    "in proportion": new Map<Quantity, Map<Quantity, Quantity>>(),
    "the wider": new Map<Quantity, Map<Quantity, Quantity>>(),
  };
  constructor(share: number) {
    if (!(share >= 0 && share <= 1)) throw new RangeError(`${share} of the way is not between nothing and all of it`);
    this.share = share;
  }

  of(a: Quantity, b: Quantity, tolerances: Tolerances = "in proportion"): Quantity {
    if (a === b) return a;
    const known = this.known(tolerances, a);
    const before = known.get(b);
    if (before) return before;
    const made = this.make(a, b, tolerances);
    known.set(b, made);
    return made;
  }
  private known(tolerances: Tolerances, a: Quantity): Map<Quantity, Quantity> {
    const from = this.made[tolerances];
    const known = from.get(a) ?? new Map<Quantity, Quantity>();
    from.set(a, known);
    return known;
  }

  private make(a: Quantity, b: Quantity, tolerances: Tolerances): Quantity {
    if (a.kind === "model" || b.kind === "model") return this.mean(a, b);
    if (!sameDimension(a.dimension, b.dimension))
      throw new RangeError(`nothing lies between ${a.address}, in ${a.unit}, and ${b.address}, in ${b.unit}`);
    if (a.unknown?.law === "switch" || b.unknown?.law === "switch") return b;
    const [namesOfA, namesOfB] = [namesOf(a), namesOf(b)].map((names) => new Set(names));
    const reads = [a, b].map((g) => g.reads(undefined as never));
    const follows = (names: Set<string>, i: number) => [...names].filter((name) => Object.hasOwn(reads[i]!, name));
    const [fromA, fromB] = [follows(namesOfA!, 0), follows(namesOfB!, 1)];
    const both = this.scattersOf(a, b, tolerances);
    if (fromA.length === 0 && fromB.length === 0) return this.plain(a, b, both);
    if (a.text !== b.text || fromA.length !== fromB.length) return this.mean(a, b);
    const names = Object.fromEntries(fromA.map((name) => [name, this.of(reads[0]![name]!, reads[1]![name]!)]));
    return { ...this.frame(a, b, both), text: a.text, expression: a.expression!, reads: () => names };
  }

  /** Between two numbers that name nothing. */
  private plain(a: Given, b: Given, both: Scattered): Given {
    const t = this.share;
    const base = this.frame(a, b, both);
    if (!a.unknown && !b.unknown) {
      const v = (1 - t) * centreOf(a, () => undefined) + t * centreOf(b, () => undefined);
      return { ...base, expression: { op: "num", v, unit: "", at: 0, length: 0 } };
    }
    const of = [a, b].map((g): Unknown | number => g.unknown ?? centreOf(g, () => undefined));
    const at = (z: number): number =>
      of
        .map((u) => (typeof u === "number" ? u : believed(u, z)))
        .reduce((sum, v, i) => sum + (i === 0 ? 1 - t : t) * v, 0);
    const [low, high] = [at(-endsOfGuess), at(endsOfGuess)];
    return { ...base, unknown: { law: "between", low, high, of: [of[0]!, of[1]!], share: t } };
  }

  /** The mean of two quantities as they are. */
  private mean(a: Quantity, b: Quantity): Given {
    const t = this.share;
    const num = (v: number) => ({ op: "num", v, unit: "", at: 0, length: 0 }) as const;
    const sym = (name: string) => ({ op: "sym", name, at: 0, length: 0 }) as const;
    const part = (v: number, name: string) => ({ op: "*", a: num(v), b: sym(name), at: 0, length: 0 }) as const;
    const names = { a, b };
    const given = a.kind === "given" ? a : (b as Given);
    return {
      kind: "given",
      address: `${nameOf(a)} to ${nameOf(b)}`,
      symbol: b.symbol,
      unit: b.unit,
      shownIn: given.shownIn,
      dimension: given.dimension,
      text: `(1 - t)*a + t*b, t = ${+t.toPrecision(6)}`,
      origin: origin(a, b),
      letter: worstLetter([a, b].flatMap((q) => (q.kind === "given" ? [q.letter] : []))),
      scatters: [],
      expression: { op: "+", a: part(1 - t, "a"), b: part(t, "b"), at: 0, length: 0 },
      reads: () => names,
    };
  }

  private frame(a: Given, b: Given, both: Scattered) {
    return {
      kind: "given" as const,
      address: `${a.address} to ${b.address}`,
      symbol: b.symbol,
      unit: b.unit,
      shownIn: b.shownIn,
      dimension: b.dimension,
      text: `${+this.share.toPrecision(6)} of the way from ${a.text} to ${b.text}`,
      origin: origin(a, b),
      letter: worstLetter([a.letter, b.letter]),
      scatters: both.map((one) => one.scatter),
      reads: () => nothing,
      blend: { of: [a, b] as const, share: this.share, scatters: both.map((one) => one.from) },
    };
  }

  private scattersOf(a: Given, b: Given, tolerances: Tolerances): Scattered {
    const left = new Set(b.scatters.keys());
    const out: { scatter: Scatter; from: Blend["scatters"][number] }[] = a.scatters.map((mine, i) => {
      const j = [...left].find((at) => b.scatters[at]!.level === mine.level && b.scatters[at]!.law === mine.law);
      if (j === undefined) return { scatter: this.scatter(mine, undefined, tolerances), from: { a: i } };
      left.delete(j);
      return { scatter: this.scatter(mine, b.scatters[j]!, tolerances), from: { a: i, b: j } };
    });
    for (const j of left) out.push({ scatter: this.scatter(undefined, b.scatters[j]!, tolerances), from: { b: j } });
    return out;
  }
  /** Between two scatters of one level and law; none counts as one of no width. */
  private scatter(a: Scatter | undefined, b: Scatter | undefined, tolerances: Tolerances): Scatter {
    const t = this.share;
    const is = (b ?? a)!;
    const lie = (x: number, y: number): number => (1 - t) * x + t * y;
    if (is.law !== "uniform") {
      const [x, y] = [a, b].map((s) => (s && s.law !== "uniform" ? s.sd : 0));
      return { ...is, sd: tolerances === "the wider" && t < 1 ? Math.max(x!, y!) : lie(x!, y!) };
    }
    const [x, y] = [a, b].map((s) => (s?.law === "uniform" ? s : { from: 0, to: 0 }));
    if (tolerances === "the wider" && t < 1) {
      const { from, to } = x!.to - x!.from > y!.to - y!.from ? x! : y!;
      return { ...is, from, to };
    }
    return { ...is, from: lie(x!.from, y!.from), to: lie(x!.to, y!.to) };
  }
}
type Scattered = readonly { readonly scatter: Scatter; readonly from: Blend["scatters"][number] }[];
const nothing = {};
const nameOf = (q: Quantity): string => (q.kind === "given" ? q.address : q.id);
const origin = (a: Quantity, b: Quantity) =>
  ({ cite: `linear between ${nameOf(a)} and ${nameOf(b)}`, how: "derived" }) as const;

/** The same number with its centre, or both ends of its guess, further by `by`, SI. */
export function shifted(q: Given, by: number): Given {
  if (by === 0) return q;
  if (q.unknown) return { ...q, unknown: movedUnknown(q.unknown, by) };
  const more = { op: "num", v: by, unit: "", at: 0, length: 0 } as const;
  return { ...q, expression: { op: "+", a: q.expression!, b: more, at: 0, length: 0 } };
}
function movedUnknown(u: Unknown, by: number): Unknown {
  if (u.law === "switch") return u;
  if (u.law !== "between") return unknownBetween(u.low + by, u.high + by);
  const [a, b] = u.of.map((one) => (typeof one === "number" ? one + by : movedUnknown(one, by)));
  return { ...u, low: u.low + by, high: u.high + by, of: [a!, b!] };
}
