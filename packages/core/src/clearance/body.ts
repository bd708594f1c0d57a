import type { Given } from "../quantity/given.ts";
import { type Model, model } from "../quantity/model.ts";
import { box, circle, type Outline, polygon } from "../route/outline.ts";
import { type Prism, prism } from "../route/prism.ts";
import type { Unit } from "../unit/unit.ts";
import type { UnitData } from "../unit/unit-fields.ts";

/**
 * What stands near tape and film, as a unit file lists it: the unit's own bodies, then room that belongs to something else.
 *
 * Each is an outline in the side view over a stretch of y, so a body whose outline changes across the tape is several bodies.
 */
export type PrismData = NonNullable<UnitData["bodies"]>[number];
export interface Body {
  readonly name: string;
  readonly part: string | undefined;
  readonly keepOut: boolean;
  /** It moves with the upper roller when the nip gives way. */
  readonly lifts: boolean;
  readonly solid: Model<Prism>;
  readonly data: PrismData;
}

const shapes = ["box", "circle", "polygon"] as const;
type Shape = (typeof shapes)[number];

/** Bodies and keep-outs of a unit, in the order of its file. The same objects for the same unit. One without an outline is left out. */
export function bodiesOf(unit: Unit): readonly Body[] {
  const known = kept.get(unit);
  if (known) return known;
  const from = (data: PrismData, keepOut: boolean): Body[] => {
    const kind = shapes.find((shape) => data[shape] !== undefined);
    return kind === undefined
      ? []
      : [
          {
            name: data.name,
            part: data.part,
            keepOut,
            lifts: data.lifts === "true",
            solid: solidOf(data, kind),
            data,
          },
        ];
  };
  const made = [
    ...(unit.bodies ?? []).flatMap((data) => from(data, false)),
    ...(unit["keep out"] ?? []).flatMap((data) => from(data, true)),
  ];
  kept.set(unit, made);
  return made;
}
const kept = new WeakMap<Unit, readonly Body[]>();

const solidOf = (data: PrismData, kind: Shape): Model<Prism> =>
  model({
    id: "clear.body",
    symbol: "body",
    unit: "",
    title: `${data.name}, an outline over a stretch of y`,
    equation: "outline in x-z times the stretch of y it fills",
    form: "solved",
    origin: { cite: "unit file", how: "read" },
    reads: () => ({ kind, name: data.name, numbers: numbersOf(data), y: data.y }),
    value: ({ name, numbers, y }) => {
      try {
        return prism(outlineOf(kind, numbers), y[0], y[1]);
      } catch (e) {
        throw e instanceof RangeError ? new RangeError(`${name}: ${e.message}`) : e;
      }
    },
  });
const numbersOf = ({ box: corners, circle: round, polygon: ring }: PrismData): readonly Given[] =>
  corners ?? round ?? (ring ?? []).flat();
function outlineOf(kind: Shape, v: readonly number[]): Outline {
  if (kind === "box") return box(v[0]!, v[1]!, v[2]!, v[3]!);
  if (kind === "circle") return circle(v[0]!, v[1]!, v[2]!);
  return polygon(v.flatMap((x, i) => (i % 2 === 0 ? [{ x, z: v[i + 1]! }] : [])));
}
