import { noLength } from "../quantity/bound.ts";
import { type Model, model, type Quantity } from "../quantity/model.ts";
import { power } from "../quantity/power.ts";
import { pickOf } from "../route/pick.ts";
import type { Scene } from "../scene.ts";
import { intoFrame, type Window } from "./window.ts";

/**
 * The window in the hold-down's leaf: how wide its arms are and where along the leaf they run.
 *
 *     b   = b_g - o_y                 both arms together, m, where the file gives the whole leaf's width b_g alone
 *     b_o = b + o_y                   the whole leaf beside its window, m, where the file gives both arms' width b alone
 *     a   = b/2                       one arm, m
 *     d   = |s_p - s_o|               from the nose to the window's middle, m
 *     v_1 = min(L, d + o_x/2),  v_2 = max(0, d - o_x/2)     from the nose to the window's ends, m
 *     k   = E b t^3/(4 (L^3 b/b_o + (u_1^3 - u_2^3) (1 - b/b_o)))     small strokes, N/m
 *     u_1 = min(L, v_1 + 0.4 a),  u_2 = max(0, v_2 - 0.4 a)
 *
 * o_x, o_y window along and across, L free length, t thickness, m; s_p place of the nose, s_o of the window's middle along the tape, m: the pick
 * position where the file names none; E modulus, Pa. The clamp lies on the window's side of the nose. The leaf is taken to lie along the tape: at a
 * stroke of a third of its length the window sits up to 7 % of the length nearer to the nose. Without a window b_o = b, and k is the cantilever's.
 *
 * Against plates of 72 leaves (validation/independent/window.py) k lies 6 % low to 7 % high for windows of 0.8 to 5 arms across, and 4 to
 * 14 % high for 5 to 11, whose bars bend: less than the tolerance of strip makes of it. Arms of 0.1 to 0.7 of the window's length, a nose bar of an arm's
 * width or more. Arms that begin at the clamp: up to 2 % low.
 *
 * A leaf that tapers, or whose window no place is known of, counts as its two arms from clamp to nose: softer than it is, and more
 * stressed, by at most b_o/b.
 */
const heldBy = ({ unit }: Scene) => unit["hold-down"];
const windowOf = (scene: Scene) => heldBy(scene)?.opening;
const lengths = { cite: "sum of lengths", how: "derived" } as const;

const armsOfWhole = model({
  id: "leaf.arms",
  symbol: "b",
  unit: "m",
  title: "width of the leaf's two arms together",
  equation: "b_g - o_y",
  form: "closed",
  origin: lengths,
  reads: (scene) => {
    const b_g = heldBy(scene)?.["outside width"];
    const o_y = windowOf(scene)?.y;
    return b_g && o_y && { b_g, o_y };
  },
  value: ({ b_g, o_y }) => b_g - o_y,
});
/** Width the leaf bends with: of both arms together where it has a window. */
export function leafWidth(scene: Scene): Quantity | undefined {
  const held = heldBy(scene);
  return held?.width ?? (armsOfWhole.reads(scene) ? armsOfWhole : held?.["outside width"]);
}
const wholeOfArms = model({
  id: "leaf.outside-width",
  symbol: "b_o",
  unit: "m",
  title: "width of the whole leaf beside its window",
  equation: "b + o_y",
  form: "closed",
  origin: lengths,
  reads: (scene) => {
    const b = leafWidth(scene);
    const o_y = windowOf(scene)?.y;
    return b && o_y && { b, o_y };
  },
  value: ({ b, o_y }) => b + o_y,
});
/** Width from edge to edge. */
export const outsideWidth = (scene: Scene): Quantity | undefined =>
  windowOf(scene) ? (heldBy(scene)!["outside width"] ?? wholeOfArms) : leafWidth(scene);

const placeOf = (scene: Scene) => ({
  s_o: windowOf(scene)?.at ?? pickOf(scene),
  s_p: heldBy(scene)?.at ?? scene.unit.sprocket?.at,
  s_c: heldBy(scene)?.from,
});
const fromNose = model({
  id: "leaf.window-middle",
  symbol: "d",
  unit: "m",
  title: "leaf from its nose to the middle of its window",
  equation: "abs(s_p - s_o)",
  form: "closed",
  origin: { cite: "place along the tape; the clamp lies on the window's side of the nose", how: "derived" },
  reads: (scene) => {
    const { s_p, s_o } = placeOf(scene);
    return s_p && s_o && { s_p, s_o };
  },
  value: ({ s_p, s_o }) => Math.abs(s_p - s_o),
});
const fromClamp = model({
  id: "leaf.window-middle-by-clamp",
  symbol: "d",
  unit: "m",
  title: "leaf from its nose to the middle of its window, by the place of its clamp",
  equation: "L - abs(s_o - s_c)",
  form: "closed",
  origin: { cite: "place along the tape", how: "derived" },
  reads: (scene) => {
    const { s_c, s_o } = placeOf(scene);
    const L = heldBy(scene)?.["free length"];
    return L && s_c && s_o && { L, s_o, s_c };
  },
  value: ({ L, s_o, s_c }) => L - Math.abs(s_o - s_c),
});
const middle = (scene: Scene): Model | undefined => [fromNose, fromClamp].find((d) => d.reads(scene) !== undefined);

/** Why a window that the leaf has does not count in how it bends; undefined where it counts or there is none. */
export function windowLeftOut(scene: Scene): string | undefined {
  if (!windowOf(scene)) return undefined;
  if (heldBy(scene)!["tip width"]) return "the leaf tapers";
  if (!middle(scene)) return "where it lies along the leaf is not given";
  return undefined;
}
const counts = (scene: Scene): boolean => windowOf(scene) !== undefined && windowLeftOut(scene) === undefined;
const end = (
  id: string,
  symbol: string,
  title: string,
  equation: string,
  value: (d: number, o: number, L: number) => number,
) =>
  model({
    id,
    symbol,
    unit: "m",
    title,
    equation,
    form: "closed",
    origin: lengths,
    reads: (scene) => {
      const L = heldBy(scene)?.["free length"];
      const d = middle(scene);
      return counts(scene) && L && d ? { L, d, o_x: windowOf(scene)!.x } : undefined;
    },
    value: ({ L, d, o_x }) => value(d, o_x, L),
  });
export const windowFarEnd = end(
  "leaf.window-far-end",
  "v_1",
  "leaf from its nose to the end of its window near the clamp",
  "max(0, min(L, d + o_x/2))",
  (d, o, L) => Math.max(0, Math.min(L, d + o / 2)),
);
export const windowNearEnd = end(
  "leaf.window-near-end",
  "v_2",
  "leaf from its nose to the end of its window near the nose",
  "max(0, min(L, d - o_x/2))",
  (d, o, L) => Math.max(0, Math.min(L, d - o / 2)),
);

const ratio = { cite: "shape of the leaf", how: "derived" } as const;
const ends = (scene: Scene) => {
  const b = leafWidth(scene);
  return b && counts(scene) ? { b, v_1: windowFarEnd, v_2: windowNearEnd } : undefined;
};
const armShape = model({
  id: "leaf.arm-shape",
  symbol: "q_a",
  unit: "1",
  title: "width of an arm over the length of the window",
  equation: "b/(2*(v_1 - v_2))",
  form: "closed",
  origin: ratio,
  reads: ends,
  value: ({ b, v_1, v_2 }) => b / (2 * (v_1 - v_2)),
});
const barSpan = model({
  id: "leaf.bar-span",
  symbol: "q_o",
  unit: "1",
  title: "width of the window over that of an arm",
  equation: "2*(b_o - b)/b",
  form: "closed",
  origin: ratio,
  reads: (scene) => {
    const b = leafWidth(scene);
    const b_o = outsideWidth(scene);
    return b && b_o && counts(scene) ? { b_o, b } : undefined;
  },
  value: ({ b_o, b }) => (2 * (b_o - b)) / b,
});
const noseBar = model({
  id: "leaf.nose-bar",
  symbol: "q_n",
  unit: "1",
  title: "leaf between its window and its nose over the width of an arm",
  equation: "2*v_2/b",
  form: "closed",
  origin: ratio,
  reads: (scene) => {
    const both = ends(scene);
    return both && { v_2: both.v_2, b: both.b };
  },
  value: ({ v_2, b }) => (2 * v_2) / b,
});

/** The whole leaf's width, and the window in it where some of it lies within the leaf. */
export interface Cut {
  readonly outside: number;
  readonly window?: Window;
}
export function cutOf({ L, b, b_o, v_1, v_2 }: Record<"L" | "b" | "b_o" | "v_1" | "v_2", number>): Cut {
  return v_1 - v_2 > 1e-9 * L ? { outside: b_o, window: { from: L - v_1, to: L - v_2, arm: b / 2 } } : { outside: b_o };
}
export const leafCut = model({
  id: "leaf.window",
  symbol: "o",
  unit: "",
  title: "the window in the leaf",
  equation: "two arms of b/2 from L - v_1 to L - v_2 off the clamp, each 0.4 of its width longer at either end",
  form: "solved",
  origin: { cite: "rule of two shell models, held against 72 plates", how: "judgement" },
  valid: { q_a: [0.1, 0.7], q_o: [0.8, 11], q_n: [1, 1e3] },
  reads: (scene) => {
    const L = heldBy(scene)?.["free length"];
    const b_o = outsideWidth(scene);
    const both = ends(scene);
    return both && L && b_o && { L, b_o, ...both, q_a: armShape, q_o: barSpan, q_n: noseBar };
  },
  value: ({ L, b, b_o, v_1, v_2 }) => cutOf({ L, b, b_o, v_1, v_2 }),
});

/** What the rate of a straight leaf reads of its widths; without a window the same width throughout. */
export function widthsOf(scene: Scene) {
  const b = leafWidth(scene);
  if (!b) return undefined;
  if (!counts(scene)) return { b, b_o: b, v_1: noLength, v_2: noLength };
  return { b, b_o: outsideWidth(scene)!, v_1: windowFarEnd, v_2: windowNearEnd };
}
export const straightRateText =
  "E*b*t^3/(4*(L^3*(b/b_o) + (min(L, v_1 + 0.2*b)^3 - min(L, max(0, v_2 - 0.2*b))^3)*(1 - b/b_o)))";
/** Rate at the nose of a straight leaf at small strokes, N/m. */
export function straightRate({
  E,
  b,
  b_o,
  t,
  L,
  v_1,
  v_2,
}: Record<"E" | "b" | "b_o" | "t" | "L" | "v_1" | "v_2", number>): number {
  const into = (intoFrame / 2) * b;
  const arms = power(Math.min(L, v_1 + into), 3) - power(Math.min(L, Math.max(0, v_2 - into)), 3);
  return (E * b * power(t, 3)) / (4 * (power(L, 3) * (b / b_o) + arms * (1 - b / b_o)));
}

const mostStiffer = model({
  id: "leaf.window-most",
  symbol: "q_w",
  unit: "1",
  title: "width of the whole leaf over that of its arms",
  equation: "b_o/b",
  form: "closed",
  origin: ratio,
  reads: (scene) => {
    const b = leafWidth(scene);
    const b_o = outsideWidth(scene);
    return b && b_o && windowOf(scene) ? { b_o, b } : undefined;
  },
  value: ({ b_o, b }) => b_o / b,
});
/** One sentence more for a check that rests on how the leaf bends: what of its window is not counted, and by how much at most. */
export function windowInWords(say: (q: Quantity) => string, scene: Scene): string {
  const why = windowLeftOut(scene);
  if (why === undefined || !mostStiffer.reads(scene)) return "";
  return ` Its window is not counted, for ${why}: it is taken as two arms from clamp to nose, and may be up to ${say(mostStiffer)} times as stiff.`;
}
