import { type Given, guidesToNip, leversOf, type Quantity, type Scene, type Vector } from "@tapeworthy/core";
import { off, poseOn } from "./route-line.ts";
import type { Numbers, UnitShape } from "./unit-shape.ts";

/** A number of the file that a hand may move on the drawing, with the numbers that move together with it. */
export interface Grip {
  readonly name: string;
  readonly axis: "x" | "y" | "z";
  readonly members: readonly string[];
  readonly at: Vector;
  /** It stands at `at`, or at the first of these where there is room for it, or is left out. Without them it stands beside what it moves. */
  readonly here?: readonly Vector[];
  /** Drawn smaller: bodies, which are many. */
  readonly quiet?: boolean;
  /** So many times farther than to scale goes the hand: for what is too small on paper to be moved. Below nought: it grows the other way. */
  readonly gain?: number;
}
const axes = ["x", "y", "z"] as const;

/** The guides of a film that may be moved, as the levers of the unit say: the nip's rollers and axis go with it. */
export function gripsOf(scene: Scene, number: Numbers): Grip[] {
  const guides = guidesToNip(scene.unit);
  if (!guides) return [];
  const levers = leversOf(scene);
  return guides.flatMap(({ name, through }) => {
    const at = through.map((g: Quantity) => number(g)) as unknown as Vector;
    return axes.flatMap((axis, i): Grip[] => {
      const lever = levers.find(({ members }) => members.includes(through[i]!.address));
      return lever ? [{ name, axis, members: [...new Set(lever.members)], at }] : [];
    });
  });
}

/** Moved by hand a thickness of 0.2 mm would need a steady one: a pixel is 0.01 mm at most scales. */
const finer = 24;
/** Numbers of hold-down and wheel, where they act. */
export function memberGrips(
  { unit }: Scene,
  { route, lift, letters, holdDown, sprocket }: Pick<UnitShape, "route" | "lift" | "letters" | "holdDown" | "sprocket">,
): Grip[] {
  const out: Grip[] = [];
  type Flat = readonly [x: number, z: number];
  const one = (members: readonly (string | undefined)[], axis: "x" | "z", places: readonly Flat[], gain = 1): void => {
    const own = members.filter((m) => m !== undefined);
    const [at, ...more] = places.map(([x, z]): Vector => [x, 0, z]);
    if (own.length > 0) out.push({ name: "", axis, members: own, at: at!, here: more, gain });
  };
  const top = lift + letters.T;
  if (holdDown) {
    const { kind, from, to, height, gap, long, thick, reach, push } = holdDown;
    const on = (s: number, up: number): Flat => off(poseOn(route, s), Math.max(height, top) + up);
    /** Along it, at shares of its length, at heights over it (m). */
    const along = (shares: readonly number[], heights: readonly number[]): Flat[] =>
      heights.flatMap((up) => shares.map((share) => on(from + share * (to - from), up)));
    if (kind === "leaf") {
      one([thick?.address], "z", along([0.7, 0.85, 1, 0.5, 0.3], [4.5e-3, 8e-3, 12e-3]), finer);
      one([long?.address], "x", along([0, 0.15], [3.5e-3, 7e-3]), -1);
    }
    if (kind === "rib") one([gap?.address], "z", along([1, 0, 0.5], [3.5e-3, 7e-3, 11e-3]), finer);
    if (kind === "run-off bend") {
      one([push?.address], "z", along([1], [5e-3, 9e-3]), -6);
      one([reach?.address], "x", [on(to + 5e-3, 1e-3), on(to + 9e-3, 1e-3)]);
    }
  }
  const wheel = unit.sprocket;
  if (sprocket && wheel) {
    const [x, z] = sprocket.axis;
    const turned = (unit.bodies ?? []).flatMap((b) => (b.part === "sprocket" && b.circle ? [b.circle[0].address] : []));
    const round = (r: number, angle: number): Flat => [x + r * Math.cos(angle), z + r * Math.sin(angle)];
    one([wheel.at.address, ...turned], "x", [round(sprocket.body * 0.55, Math.PI), round(sprocket.body * 0.55, 0)]);
    const beside = sprocket.tip + 2.5e-3;
    one(
      [wheel.tooth["height above tape"].address],
      "x",
      [0, -0.35, -0.7, 0.35].map((a) => round(beside, a)),
      6,
    );
  }
  return out;
}

/**
 * Bodies: a part as a whole along the travel and up and down, by the lever that core gives it; the far edges of a box, the radius of a circle.
 * What stands in `besides` is moved by something else: wheel and rollers.
 */
export function bodyGrips(scene: Scene, number: Numbers, besides: (name: string) => boolean): Grip[] {
  const bodies = (scene.unit.bodies ?? []).filter((b) => !besides(b.name));
  if (bodies.length === 0) return [];
  const levers = leversOf(scene);
  const out: Grip[] = [];
  const whole = new Set<string>();
  for (const b of bodies) {
    const middle = (b.y[0] ? number(b.y[0]) + number(b.y[1]) : 0) / 2;
    type Flat = readonly [x: number, z: number];
    const add = (name: string, axis: "x" | "z", members: readonly string[], places: readonly Flat[]): void => {
      const [at, ...here] = places.map(([x, z]): Vector => [x, middle, z]);
      out.push({ name, axis, members, at: at!, here, quiet: true });
    };
    const moved = (given: Given | undefined, axis: "x" | "z", places: readonly Flat[]): void => {
      const lever = given && levers.find(({ members }) => members.includes(given.address));
      if (!lever || whole.has(lever.address)) return;
      whole.add(lever.address);
      const way = axis === "x" ? "along the travel" : "up and down";
      add(`${b.part ?? b.name}, ${way}`, axis, [...new Set(lever.members)], places);
    };
    if (b.box) {
      const [x0, z0, x1, z1] = b.box.map((g) => number(g)) as [number, number, number, number];
      const on = (u: number, v: number): Flat => [x0 + u * (x1 - x0), z0 + v * (z1 - z0)];
      moved(b.box[0], "x", [on(0.3, 0.2), on(0.15, 0.5), on(0.3, 0.8), on(0.1, 0.2)]);
      moved(b.box[1], "z", [on(0.7, 0.2), on(0.85, 0.5), on(0.7, 0.8), on(0.9, 0.2)]);
      const shares = [0.5, 0.25, 0.75, 0.1, 0.9];
      add(
        `${b.name}, far edge`,
        "x",
        [b.box[2].address],
        shares.map((v) => on(1, v)),
      );
      add(
        `${b.name}, upper edge`,
        "z",
        [b.box[3].address],
        shares.map((u) => on(u, 1)),
      );
    } else if (b.circle) {
      const [x, z, r] = b.circle.map((g) => number(g)) as [number, number, number];
      moved(b.circle[0], "x", [[x - 0.45 * r, z]]);
      moved(b.circle[1], "z", [[x, z - 0.45 * r]]);
      add(`${b.name}, radius`, "x", [b.circle[2].address], [[x + r, z]]);
    } else if (b.polygon?.[0]) {
      const xs = b.polygon.map((c) => number(c[0]));
      const zs = b.polygon.map((c) => number(c[1]));
      const [x, z] = [xs.reduce((p, q) => p + q, 0) / xs.length, zs.reduce((p, q) => p + q, 0) / zs.length];
      moved(b.polygon[0][0], "x", [[x - 3e-3, z]]);
      moved(b.polygon[0][1], "z", [[x + 3e-3, z]]);
    }
  }
  return out;
}
