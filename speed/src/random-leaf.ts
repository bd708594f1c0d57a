import type { Counterface, LeafShape, More, Pressed } from "@tapeworthy/core";
import { Leaf } from "@tapeworthy/core";

/**
 * Leaf springs drawn at random as a feeder unit might hold them, of five kinds: a pin under a cantilever, a leaf that lies down on a flat, one that
 * wraps a cylinder, a tip load onto a stop, a clamped and guided leaf with a pin in its middle. Steel strip of 0.1 to 0.3 mm, 12 to 60 mm long, or
 * plastic of 0.8 to 1.6 mm, 12 to 40 mm long; tapered, bowed or wavy, with friction of either sense to 0.4; pressed by up to 0.45 of the length,
 * or to what 300 to 1300 MPa allow a straight cantilever. Flat, wrap and bridge strain a leaf far more than a cantilever at the same stroke: they get
 * a fifth to two fifths of it, the whole with `full`, where many end beyond small strain. The same number gives the same leaf.
 */
export const kinds = ["pin", "flat", "wrap", "stop", "bridge"] as const;
export type Kind = (typeof kinds)[number];
export interface RandomLeaf {
  readonly kind: Kind;
  readonly shape: LeafShape;
  readonly faces: readonly Counterface[];
  readonly stroke: number;
  readonly more: More;
}

/** Numbers from 0 to 1, the same for the same seed. */
export function numbers(seed: number): () => number {
  let a = seed >>> 0;
  return () => {
    a = (a + 0x6d2b79f5) | 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

export function randomLeaf(kind: Kind, seed: number, elements = 40, full = false): RandomLeaf {
  const next = numbers(seed * 5 + kinds.indexOf(kind));
  const from = (low: number, high: number): number => low + (high - low) * next();
  const oneOf = <T>(list: readonly T[]): T => list[Math.floor(next() * list.length)]!;
  const mm = 1e-3;
  const plastic = next() < 0.3;
  const L = (plastic ? from(12, 40) : from(12, 60)) * mm;
  const t = (plastic ? from(0.8, 1.6) : oneOf([0.1, 0.15, 0.2, 0.25, 0.3])) * mm;
  const b = (plastic ? from(3, 10) : from(2, 12)) * mm;
  const E = plastic ? from(1500, 3200) * 1e6 : oneOf([185e9, 206e9]);
  const taper = from(0.4, 1);
  const sigma = from(300e6, 1300e6);
  const bow = Math.min(from(0, 1.2) / L, 0.01 / t);
  const phase = from(0, Math.PI);
  const shape: LeafShape = {
    length: L,
    thickness: t,
    width: (s) => b * (1 - ((1 - taper) * s) / L),
    E,
    nu: 0.3,
    curvature: (s) => bow * Math.cos((Math.PI * s) / L + phase),
    elements,
    bends: "beam",
  };
  // Its stress-free middle line, to place the faces by.
  const still = new Leaf({ ...shape, elements: 40 }).load({});
  if (still.outcome !== "solved") throw new Error("a leaf without load has no shape");
  const { x, y, angle } = still.shape;
  const most = Math.min(0.45 * L, ((((plastic ? 0.025 : sigma / E) * 2) / t) * L * L) / 3);
  const rub = { friction: from(0, 0.4), slip: next() < 0.5 ? ("to tip" as const) : ("to clamp" as const) };
  const under = (share: number, gap: number): readonly [number, number] => {
    const i = Math.floor(share * 40);
    return [x[i]! + Math.sin(angle[i]!) * gap, y[i]! - Math.cos(angle[i]!) * gap];
  };
  const air = 0.02 * mm;
  if (kind === "pin") {
    const a = from(0.35, 0.93);
    const R = from(0.3, 4) * mm;
    const direction = [from(-0.3, 0.3), 1] as const;
    const face = { kind, at: under(a, R + t / 2 + air), radius: R, side: "below" as const, direction, ...rub };
    return { kind, shape, faces: [face], stroke: most * a * a + air, more: {} };
  }
  if (kind === "flat") {
    const low = Math.min(...y) - t / 2 - air;
    const face = { kind, at: [0, low] as const, normal: [0, 1] as const, from: L / 4, ...rub };
    return { kind, shape, faces: [face], stroke: (full ? 1 : 0.2) * most + air, more: {} };
  }
  if (kind === "wrap") {
    const R = from(0.6, 2) * L;
    const cx = from(0.5, 1) * L;
    let room = Number.POSITIVE_INFINITY;
    for (let i = 10; i <= 40; i++) {
      const over = Math.sqrt(Math.max(R * R - (x[i]! - cx) ** 2, 0)) - R;
      room = Math.min(room, y[i]! - t / 2 - over);
    }
    const at = [cx, room - R - air] as const;
    const direction = [0, 1] as const;
    const face = { kind: "cylinder" as const, at, radius: R, side: "below" as const, direction, from: L / 4, ...rub };
    return { kind, shape, faces: [face], stroke: (full ? 0.7 : 0.4) * most + air, more: {} };
  }
  if (kind === "stop") {
    const R = from(0.5, 3) * mm;
    const [px, py] = under(from(0.4, 0.8), 0);
    const at = [px, py - (R + t / 2 + from(0.02, 0.4) * most * 0.5)] as const;
    const face = { kind: "pin" as const, at, radius: R, side: "below" as const, direction: [0, 1] as const };
    const EI = (E * b * t ** 3) / 12;
    return { kind, shape, faces: [face], stroke: 0, more: { load: { y: (-6 * EI * most) / L ** 3 } } };
  }
  const R = from(0.3, 4) * mm;
  const at = under(from(0.35, 0.65), R + t / 2);
  const face = { kind: "pin" as const, at, radius: R, side: "below" as const, direction: [0, 1] as const, ...rub };
  return { kind, shape, faces: [face], stroke: (full ? 0.35 : 0.2) * most + 0.01 * mm, more: { end: "guided" } };
}

export const solveRandom = ({ shape, faces, stroke, more }: RandomLeaf): Pressed =>
  new Leaf(shape).press(faces, stroke, more);
