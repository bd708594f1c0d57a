import { embossedTape, overhead, scene, sideCrossing, withBodies, written } from "../scene.fixture.ts";
import type { Scene } from "../scene.ts";
import type { Tape } from "../tape/tape.ts";
import type { Unit } from "../unit/unit.ts";
import type { PrismData } from "./body.ts";
import type { Nearest } from "./pair.ts";
import type { Clearance } from "./room.ts";

/** Units with bodies of plain numbers, mm. Invented; no test takes an expectation from here. */
export const mm = 1e-3;
export const um = 1e-6;
const number = (path: string, v: number, unit = "mm") => written(`standing/${path}`, "v", `${v} ${unit}`.trim(), unit);
type Four = readonly [x0: number, z0: number, x1: number, z1: number];
type Two = readonly [from: number, to: number];
type More = Partial<Pick<PrismData, "part" | "lifts">>;

export const boxed = (name: string, box: Four, y: Two, more: More = {}): PrismData => ({
  name,
  box: box.map((v, i) => number(`${name}.box.${i}`, v)) as unknown as NonNullable<PrismData["box"]>,
  y: y.map((v, i) => number(`${name}.y.${i}`, v)) as unknown as PrismData["y"],
  ...more,
});
export const round = (
  name: string,
  circle: readonly [x: number, z: number, r: number],
  y: Two,
  more: More = {},
): PrismData => ({
  name,
  circle: circle.map((v, i) => number(`${name}.circle.${i}`, v)) as unknown as NonNullable<PrismData["circle"]>,
  y: y.map((v, i) => number(`${name}.y.${i}`, v)) as unknown as PrismData["y"],
  ...more,
});
export const ring = (name: string, corners: readonly Two[], y: Two, more: More = {}): PrismData => ({
  name,
  polygon: corners.map(([x, z], i) => [number(`${name}.${i}.x`, x), number(`${name}.${i}.z`, z)] as const),
  y: y.map((v, i) => number(`${name}.y.${i}`, v)) as unknown as PrismData["y"],
  ...more,
});
export const turning = (by: number, x: number, z: number): Pick<Unit, "nip"> => ({
  nip: { lifts: { by: number("lifts.by", by, "deg"), about: [number("lifts.x", x), number("lifts.z", z)] } },
});

/** A unit whose film crosses sideways, with these bodies in place of its own and nothing said of gaps and contacts. */
export const unitWith = (bodies: readonly PrismData[], more: Partial<Unit> = {}): Unit => ({
  ...withoutWords(sideCrossing(12)),
  bodies,
  ...more,
});
/** A level route that bends down behind the pick, the tape held by its cover side. */
export const bentUnitWith = (bodies: readonly PrismData[], more: Partial<Unit> = {}): Unit => ({
  ...withoutWords(overhead(24)),
  bodies,
  ...more,
});
function withoutWords({ clearances: _, "meant to touch": __, "keep out": ___, ...unit }: Unit): Unit {
  return unit;
}
export const with12 = (unit: Unit, tape: Tape = embossedTape(12)): Scene => scene(unit, tape);
export const with24 = (unit: Unit, tape: Tape = embossedTape(24)): Scene => scene(unit, tape);
export const crowded = (): Scene => with12(withBodies());

/** The gap of a clearance's pair with that name, as drawn. */
export function nearestTo({ pairs }: Clearance, one: Scene, name: string): Nearest {
  const pair = pairs(one).find(({ b }) => b.says === name);
  if (!pair) throw new Error(`no pair with ${name}`);
  return pair.nearest(one);
}
export const says = ({ pairs }: Clearance, one: Scene): string[] =>
  pairs(one).map(({ a, b }) => `${a.says} / ${b.says}`);
