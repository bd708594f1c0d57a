import type { Given } from "../quantity/given.ts";
import { type Model, model, quantitiesIn, type Reads, type Values } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import { asWritten, type Realised, Realiser } from "../study/realise.ts";
import type { Spot } from "./place.ts";
import type { Party } from "./wanted.ts";

/** A pair that is not meant to touch: its gap as a model, the gap it should keep, and its place as drawn. */
export interface Pair {
  readonly a: Party;
  readonly b: Party;
  readonly gap: Model;
  readonly wanted: Given;
  /** The gap and where it is least, every number as written and every unknown at its median. RangeError where the gap has no answer. */
  nearest(scene: Scene): Nearest;
}
export interface Nearest {
  /** m; negative is the depth of an overlap. */
  readonly gap: number;
  readonly spot: Spot;
}
/** A gap between two things, and where it is least. */
export type Gap = Pick<Pair, "gap" | "nearest">;

interface Spec<R extends Reads> {
  readonly id: string;
  readonly title: string;
  readonly equation: string;
  readonly cite: string;
  reads(scene: Scene): R | undefined;
  nearest(x: Values<R>): Nearest;
}
/** The gap of a pair as a model: costly, so many draws may stand by its first differences. */
export function gapModel<R extends Reads>({ id, title, equation, cite, reads, nearest }: Spec<R>): Gap {
  const gap = model({
    id,
    symbol: "g",
    unit: "m",
    title,
    equation,
    form: "solved",
    origin: { cite, how: "derived" },
    costly: true,
    reads,
    value: (x: Values<R>) => nearest(x).gap,
  });
  return {
    gap,
    nearest: (scene) => {
      const run = new Realiser(scene, [gap]).run(asWritten);
      if (!Number.isFinite(run.number(gap))) throw new RangeError(troubleOf(gap, scene, run));
      return nearest(run.inputsOf(gap, scene) as Values<R>);
    },
  };
}
/** Why a quantity has no answer: what the first of what it rests on says that has none itself. */
function troubleOf(q: Given | Model<unknown>, scene: Scene, run: Realised): string {
  if (q.kind === "given") return Number.isFinite(run.number(q)) ? "" : `${q.address} is no finite number`;
  for (const inner of quantitiesIn(q.reads(scene) ?? {})) {
    const found = troubleOf(inner, scene, run);
    if (found !== "") return found;
  }
  try {
    const value = q.value(run.inputsOf(q, scene));
    return typeof value === "number" && !Number.isFinite(value) ? `${q.title} is no finite number` : "";
  } catch (e) {
    if (!(e instanceof RangeError)) throw e;
    return e.message;
  }
}

/** Makes something for an object once, and for a pair of objects once, so that its identity lasts as long as they do. */
export function once<K extends object, V>(make: (key: K) => V): (key: K) => V {
  const made = new WeakMap<K, V>();
  return (key) => {
    const known = made.get(key);
    if (known !== undefined) return known;
    const fresh = make(key);
    made.set(key, fresh);
    return fresh;
  };
}
