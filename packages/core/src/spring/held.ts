import { materialFigure, materialNamed, type Named, unknownMaterial } from "../material/catalogue.ts";
import { none } from "../quantity/dimension.ts";
import { type Given, tabled } from "../quantity/given.ts";
import { model, type Quantity, type Reads } from "../quantity/model.ts";
import { toSI, unitOf } from "../quantity/units.ts";
import type { Scene } from "../scene.ts";
import type { Unit } from "../unit/unit.ts";
import { type Cut, leafCut, leafWidth, straightRate } from "./arms.ts";
import { Leaf, type LeafShape } from "./leaf.ts";

/**
 * The hold-down's leaf as drawn, its nose on the tape, and what a higher tape does to it.
 *
 *     n.f = F_0 at the stroke x_0,  k = dF/dx,  s = dS/dx there
 *     F_max = F_0 + k d,  S_max = S_0 + s d,  d = max(0, T - T_b) + t_s
 *     S_m   = S_0 + s (T - T_b),  S_a = s x_r/2
 *
 * F_0 force on the tape that the unit is built for, N, 0 .. 20; S_0 greatest stress there, Pa; T_b thickness of that tape, T of the served one, t_s of a
 * splice, x_r how far the nose goes up and down from pitch to pitch, m. The leaf is the exact beam of leaf.ts, 20 elements, bending as a strip of its
 * width; its nose rests on a flat, without friction (friction mu changes the moment at the clamp by mu times the tip's slope). It leaves its clamp
 * along the tape, or at the clamp angle towards it; tapered where a tip width is given, curved where a set radius is. The rates hold for d small
 * against the stroke: at a tenth of it the force is off by a part in a hundred. A window leaves it two arms along a part of its length (arms.ts).
 *
 * Where the leaf would be strained beyond 5 %, or no state is found, the numbers of the straight cantilever stand in, 6 F L/(b t^2) and
 * F L^3/(3 EI): above the true stress, and far above what any material bears.
 */
export const leafOf = ({ unit }: Scene): NonNullable<Unit["hold-down"]> | undefined =>
  unit["hold-down"]?.kind === "leaf" ? unit["hold-down"] : undefined;

/** A file's length where it is a plain number, m; undefined where it names anything. */
const plain = (g: Given): number | undefined => {
  const node = g.expression;
  return node?.op === "num" ? toSI(node.v, unitOf(node.unit)) : undefined;
};

/** Why the leaf's own checks do not apply; undefined where they do. */
export function noLeaf(scene: Scene): string | undefined {
  const held = scene.unit["hold-down"];
  if (!held) return "the unit has no hold-down over its sprocket";
  if (held.kind !== "leaf") return "the hold-down is no leaf";
  const missing = (["free length", "width", "thickness", "preload"] as const).filter(
    (name) => !(name === "width" ? leafWidth(scene) : held[name]),
  );
  if (missing.length > 0) return `the leaf's ${missing.join(", ")} ${missing.length > 1 ? "are" : "is"} not given`;
  if (held.material === undefined) return "what the leaf is made of is not given";
  const named = materialNamed(held.material);
  if (!named) return unknownMaterial(held.material);
  if (!yieldOf(named)) return `no yield strength is known of ${named.name}`;
  const t = plain(held.thickness!);
  const L = plain(held["free length"]!);
  if (t !== undefined && L !== undefined && t > L / 4)
    return `a leaf ${t * 1e3} mm thick and ${L * 1e3} mm long is a block, not a leaf`;
  const way = scene.unit.tape.route.reduce((sum, piece) => sum + (piece.line ? (plain(piece.line) ?? 1) : 0), 0);
  if (L !== undefined && scene.unit.tape.route.every((piece) => !piece.arc) && L > way)
    return `the leaf's free length of ${L * 1e3} mm is longer than the tape's whole way through the unit`;
  return undefined;
}
/** What the leaf is made of; undefined where the file does not say or nothing is known of it. */
export function leafMaterial(scene: Scene): Named | undefined {
  const word = leafOf(scene)?.material;
  return word === undefined ? undefined : materialNamed(word);
}
const yieldOf = (named: Named): Given | undefined =>
  materialFigure(named, "strength") && materialFigure(named, "yieldShare");

const along = tabled("bound/leaf along the tape", "alpha", "0 rad", none, {
  cite: "a leaf without a clamp angle in the file leaves its clamp along the tape",
  how: "judgement",
});
const noModulus = tabled("bound/no modulus", "nu", "0.3", none, { cite: "metal and plastic alike", how: "memory" });

/** Symbols of the leaf as drawn; undefined where the checks do not apply. */
export function leafReads(scene: Scene): (Reads & { readonly F_0: Quantity }) | undefined {
  if (noLeaf(scene) !== undefined) return undefined;
  const held = leafOf(scene)!;
  const named = leafMaterial(scene)!;
  const width = leafWidth(scene)!;
  return {
    F_0: held.preload!,
    L: held["free length"]!,
    b: width,
    b_t: held["tip width"] ?? width,
    t: held.thickness!,
    E: materialFigure(named, "E")!,
    nu: materialFigure(named, "nu") ?? noModulus,
    ...(held["set radius"] ? { R_s: held["set radius"] } : {}),
    alpha: held["clamp angle"] ?? along,
    ...(leafCut.reads(scene) ? { o: leafCut } : {}),
  };
}

export interface LeafInputs {
  readonly F_0: number;
  readonly L: number;
  readonly b: number;
  readonly b_t: number;
  readonly t: number;
  readonly E: number;
  readonly nu: number;
  readonly R_s?: number;
  readonly alpha: number;
  readonly o?: Cut;
}
/** The leaf at its preload: stroke of the nose, greatest stress, and what both gain with more stroke. */
export interface HeldLeaf {
  readonly stroke: number;
  readonly stress: number;
  readonly rate: number;
  readonly stressRate: number;
}
const elements = 20;

/** The last leaves that were solved: the numbers read off one leaf ask for it one after the other, over the same draws. */
const solved = new Map<string, HeldLeaf>();
const mostSolved = 1000;

export function heldLeaf(x: LeafInputs): HeldLeaf {
  const key = [x.F_0, x.L, x.b, x.b_t, x.t, x.E, x.nu, x.R_s, x.alpha, ...cutKey(x.o)].join(" ");
  const known = solved.get(key);
  if (known) return known;
  const found = solvedLeaf(x);
  if (solved.size >= mostSolved) solved.delete(solved.keys().next().value!);
  solved.set(key, found);
  return found;
}
const cutKey = (cut: Cut | undefined): readonly (number | undefined)[] =>
  cut ? [cut.outside, cut.window?.from, cut.window?.to, cut.window?.arm] : [];
/** The pressed leaf as the beam solver takes it. */
export const leafShapeOf = ({ L, b, b_t, t, E, nu, R_s, o }: LeafInputs): LeafShape => ({
  length: L,
  thickness: t,
  width: o ? o.outside : b === b_t ? b : (s) => b + ((b_t - b) * s) / L,
  E,
  nu,
  curvature: R_s ? -1 / R_s : 0,
  elements,
  ...(o?.window ? { window: o.window } : {}),
});
function solvedLeaf(x: LeafInputs): HeldLeaf {
  const { F_0, L, b, t, E, alpha, o } = x;
  const [v_1, v_2] = o?.window ? [L - o.window.from, L - o.window.to] : [0, 0];
  const rate = straightRate({ E, b, b_o: o?.window ? o.outside : b, t, L, v_1, v_2 });
  const straight: HeldLeaf = {
    stroke: F_0 / rate,
    stress: (6 * F_0 * L) / (b * t ** 2),
    rate,
    stressRate: (3 * E * t) / (2 * L ** 2),
  };
  const leaf = new Leaf(leafShapeOf(x));
  const face = { kind: "nose", normal: [-Math.sin(alpha), Math.cos(alpha)] } as const;
  const at = leaf.pressWith(face, F_0);
  if (at.outcome !== "solved") return straight;
  const more = 0.01 * Math.max(F_0, 0.01 * rate * L);
  const on = leaf.pressWith(face, F_0 + more);
  if (on.outcome !== "solved") return { ...straight, stroke: at.stroke, stress: at.stress };
  const by = on.stroke - at.stroke;
  return { stroke: at.stroke, stress: at.stress, rate: more / by, stressRate: (on.stress - at.stress) / by };
}

export const pressedLeaf = model({
  id: "leaf.pressed",
  symbol: "leaf",
  unit: "",
  title: "the hold-down's leaf at its preload",
  equation: "balance of a beam that may turn freely: M = EI (k - k_0), its nose on a flat with the force F_0",
  form: "solved",
  origin: { cite: "exact beam, mixed-point Newton iteration; anticlastic factor after Ashwell 1950", how: "derived" },
  reads: leafReads,
  value: (x) => heldLeaf(x as unknown as LeafInputs),
});
/** A number of the pressed leaf. */
const numberOf = (id: string, symbol: string, unit: string, title: string, of: (leaf: HeldLeaf) => number) =>
  model({
    id,
    symbol,
    unit,
    ...(unit === "Pa" ? { shownIn: "MPa" } : {}),
    title: `${title} of the leaf at its preload`,
    equation: `${title} of the leaf pressed with F_0`,
    form: "solved",
    costly: true,
    origin: { cite: "exact beam; anticlastic factor after Ashwell 1950", how: "derived" },
    reads: (scene) => (leafReads(scene) ? { leaf: pressedLeaf } : undefined),
    value: ({ leaf }) => of(leaf as HeldLeaf),
  });
export const leafStroke = numberOf("leaf.stroke", "x_0", "m", "stroke of the nose", (l) => l.stroke);
export const leafBuilt = numberOf("leaf.built-stress", "S_0", "Pa", "greatest stress", (l) => l.stress);
export const leafRate = numberOf("leaf.rate", "k", "N/m", "rate of the force", (l) => l.rate);
export const leafStressRate = numberOf("leaf.stress-rate", "s", "Pa/m", "rate of the stress", (l) => l.stressRate);

const rates = { cite: "rates about the leaf's place at its preload", how: "derived" } as const;
/** How the served tape lifts the nose; undefined where the leaf's checks do not apply. */
function lifted(scene: Scene) {
  const T_b = scene.unit.letters.T;
  if (noLeaf(scene) !== undefined) return undefined;
  return { T: scene.tape.letters.T, T_b: T_b ?? scene.tape.letters.T };
}
const splice = ({ requirement }: Scene): Quantity => requirement.assume["splice thickness"];
export const leafHighest = model({
  id: "leaf.highest-force",
  symbol: "F_max",
  unit: "N",
  title: "force of the leaf while a splice passes",
  equation: "F_0 + k*(max(0, T - T_b) + t_s)",
  form: "closed",
  origin: rates,
  reads: (scene) => {
    const more = lifted(scene);
    return more && { F_0: leafOf(scene)!.preload!, k: leafRate, ...more, t_s: splice(scene) };
  },
  value: ({ F_0, k, T, T_b, t_s }) => F_0 + k * (Math.max(0, T - T_b) + t_s),
});
export const leafStress = model({
  id: "leaf.greatest-stress",
  symbol: "S_max",
  unit: "Pa",
  shownIn: "MPa",
  title: "greatest stress in the leaf while a splice passes",
  equation: "S_0 + s*(max(0, T - T_b) + t_s)",
  form: "closed",
  origin: rates,
  reads: (scene) => {
    const more = lifted(scene);
    return more && { S_0: leafBuilt, s: leafStressRate, ...more, t_s: splice(scene) };
  },
  value: ({ S_0, s, T, T_b, t_s }) => S_0 + s * (Math.max(0, T - T_b) + t_s),
});
export const leafMean = model({
  id: "leaf.mean-stress",
  symbol: "S_m",
  unit: "Pa",
  shownIn: "MPa",
  title: "mean stress in the leaf on this tape",
  equation: "max(0, S_0 + s*(T - T_b))",
  form: "closed",
  origin: rates,
  reads: (scene) => {
    const more = lifted(scene);
    return more && { S_0: leafBuilt, s: leafStressRate, ...more };
  },
  value: ({ S_0, s, T, T_b }) => Math.max(0, S_0 + s * (T - T_b)),
});
export const leafSwing = model({
  id: "leaf.stress-swing",
  symbol: "S_a",
  unit: "Pa",
  shownIn: "MPa",
  title: "half the swing of the leaf's stress from pitch to pitch",
  equation: "s*x_r/2",
  form: "closed",
  origin: rates,
  reads: (scene) =>
    noLeaf(scene) === undefined ? { s: leafStressRate, x_r: scene.requirement.assume["leaf ripple"] } : undefined,
  value: ({ s, x_r }) => (s * x_r) / 2,
});
