import type { Scene } from "../scene.ts";
import type { Cite, Given } from "./given.ts";

/** Something we compute: a number, or what a solver returns for several numbers to share. */
export interface Model<T = number> {
  readonly kind: "model";
  readonly id: string;
  readonly symbol: string;
  /** Coherent SI unit as text; empty where T is no number. */
  readonly unit: string;
  /** Unit a person of the trade reads it in, where that is not the customary one of its dimension. */
  readonly shownIn?: string;
  readonly title: string;
  /** closed: the equation itself, held together with `value` by a test. solved: the governing equation, checked in validation/. */
  readonly equation: string;
  readonly form: "closed" | "solved";
  readonly origin: Cite;
  /** Range of each symbol (SI) in which the equation is known to hold; outside it a finding says so. */
  readonly valid?: Readonly<Record<string, readonly [low: number, high: number]>>;
  /**
   * A number that takes long to compute: over many draws it may stand as its differences, tested against true draws. "coarse": with many kinks,
   * an error of up to half its spread is taken, since computing it in every draw would take minutes.
   */
  readonly costly?: true | "coarse";
  /** undefined: this scene has no such member. */
  reads(scene: Scene): Reads | undefined;
  value(x: Readonly<Record<string, unknown>>): T;
  /** Which instance is the worst one: a span, a guide, a bend. With the scene at hand it may say more: the place as drawn. */
  where?(x: Readonly<Record<string, unknown>>, scene?: Scene): string;
}
export type Quantity = Given | Model;
/** A fact of the design that is no number with a scatter: which kind, how many, what it is called. */
export type Fact = number | boolean | string;
/** What a model reads, under the equation's own symbols. Facts, lists and groups are for solved models. */
export type Read = Fact | Given | Model<unknown> | readonly Read[] | Reads;
export interface Reads {
  readonly [symbol: string]: Read;
}

export type ValueOf<R> = R extends Fact
  ? R
  : R extends { readonly kind: "given" }
    ? number
    : R extends { readonly kind: "model"; value(...x: never[]): infer T }
      ? T
      : R extends object
        ? { readonly [K in keyof R]: ValueOf<R[K]> }
        : never;
export type Values<R extends Reads> = { readonly [K in keyof R]: ValueOf<R[K]> };

type Spec<R extends Reads, T> = Omit<Model<T>, "kind" | "reads" | "value" | "where"> & {
  reads(scene: Scene): R | undefined;
  value(x: Values<R>): T;
  where?(x: Values<R>, scene?: Scene): string;
};

/** A model, checked against its own symbols here and erased afterwards. */
export function model<R extends Reads, T = number>(spec: Spec<R, T>): Model<T> {
  const { where } = spec;
  const erased = {
    ...spec,
    kind: "model" as const,
    value: (x: Readonly<Record<string, unknown>>) => spec.value(x as Values<R>),
  };
  delete (erased as { where?: unknown }).where;
  return where ? { ...erased, where: (x, scene) => where(x as Values<R>, scene) } : (erased as Model<T>);
}

export const isFact = (r: Read | Reads): r is Fact => typeof r !== "object";
export const isQuantity = (r: Read): r is Given | Model<unknown> =>
  typeof r === "object" && "kind" in r && (r.kind === "given" || r.kind === "model");

/** Every given and model that a read holds, in order, lists and groups opened. */
export function* quantitiesIn(read: Read | Reads): Generator<Given | Model<unknown>> {
  if (isQuantity(read as Read)) yield read as Given | Model<unknown>;
  else if (!isFact(read)) for (const inner of Object.values(read as Reads)) yield* quantitiesIn(inner);
}

/** What a quantity reads in that scene; undefined where a member is missing. */
export const readsOf = (q: Given | Model<unknown>, scene: Scene): Reads | undefined => q.reads(scene);

/** The givens a quantity rests on: rows of the drill-down, axes of the draws, questions for a trial. */
export function rootsOf(q: Given | Model<unknown>, scene: Scene, seen = new Set<Given | Model<unknown>>()): Set<Given> {
  const out = new Set<Given>();
  const visit = (one: Given | Model<unknown>): void => {
    if (seen.has(one)) return;
    seen.add(one);
    if (one.kind === "given") out.add(one);
    for (const read of quantitiesIn(one.reads(scene) ?? {})) visit(read);
  };
  visit(q);
  return out;
}
