import { noLength } from "../quantity/bound.ts";
import { type Given, tabled } from "../quantity/given.ts";
import { type Model, model, type Quantity } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import { nominalOf } from "../tape/served.ts";
import type { Tape } from "../tape/tape.ts";
import { type FeasibleInterval, feasibleInterval, type ToothedWheel } from "./interval.ts";
import { opening, toothMiddle } from "./opening.ts";
import { type ToothOutline, toothOutline } from "./outline.ts";

/**
 * A unit's wheel and a tape's holes as numbers.
 *
 *     r_p = z P_w/(2 pi)          pitch line of the wheel, m; P_w the pitch it is drawn for
 *     r_b = r_a                   axis to the tape's underside; the frame fixes the underside
 *     r_b = r_a - (T - T_u)       the same where the frame fixes the cover side: a thicker tape hangs lower
 *     r_t = r_a + h               axis to tip
 *     e_1 = |P_0 - P_n|           error of a single hole, m
 *
 * z teeth, 4 .. 400; r_a axis below the tape's underside as drawn, m; T thickness of the served carrier, T_u of the one the unit is built
 * for; h tip above the underside as drawn. The mean pitch of a tape from the catalogue scatters by a tenth of the error over ten pitches, a
 * file's own pitch as the file says; the catalogue's tolerance on one pitch is the error of a single hole, not of all.
 *
 * Where the tape rests on its floors the height of its underside is taken as drawn. Without a flank in the file its angle is an unknown.
 */
export const noSprocket = ({ unit }: Scene): string | undefined =>
  unit.sprocket ? undefined : "the unit has no sprocket";
export const pi = tabled("bound/pi", "pi", "3.141592653589793", [0, 0, 0, 0, 0], {
  cite: "by definition",
  how: "derived",
});
export const flat = tabled("bound/no wrap", "alpha", "0", [0, 0, 0, 0, 0], {
  cite: "the tape runs flat past the wheel",
  how: "derived",
});
const upright = tabled("bound/no flank", "phi", "0", [0, 0, 0, 0, 0], {
  cite: "an involute flank has no angle of its own",
  how: "derived",
});

const length = [1, 0, 0, 0, 0] as const;
const fromCatalogue = (q: Quantity): q is Given => q.kind === "given" && q.address.startsWith("catalogue/");
const kept = new Map<string, Given>();
function keep(address: string, symbol: string, text: string, cite: string, how: "read" | "derived"): Given {
  const key = `${address} ${text}`;
  const known = kept.get(key);
  if (known) return known;
  const made = tabled(address, symbol, text, length, { cite, how }, "reel");
  kept.set(key, made);
  return made;
}
const millimetres = (q: Quantity): number => +(nominalOf(q) * 1e3).toPrecision(12);
/** Mean pitch of the served tape's holes. */
export function meanPitch({ letters: { P0 }, tenPitch }: Tape): Quantity {
  if (!fromCatalogue(P0)) return P0;
  const [P, tenth] = [millimetres(P0), +(millimetres(tenPitch) / 10).toPrecision(6)];
  const cite = "EIA-481-D p. 13: error over ten pitches, a tenth of it on each; taken as even between its limits";
  return keep(`catalogue/mean hole pitch of ${P} mm`, "P", `${P} ±${tenth} mm`, cite, "derived");
}
/** The pitch that a single hole should have; the file's own where a file gives it, so that it has no error of its own. */
const pitchWithout = ({ letters: { P0 } }: Tape): Quantity =>
  fromCatalogue(P0)
    ? keep(
        `catalogue/hole pitch of ${millimetres(P0)} mm`,
        "P_n",
        `${millimetres(P0)} mm`,
        "EIA-481-D, letters of the tape",
        "read",
      )
    : P0;
export const singlePitchError = model({
  id: "tape.single-pitch-error",
  symbol: "e_1",
  unit: "m",
  title: "error of a single hole's place",
  equation: "abs(P_0 - P_n)",
  form: "closed",
  origin: { cite: "EIA-481-D, tolerance of P0", how: "read" },
  reads: ({ unit, tape }) => unit.sprocket && { P_0: tape.letters.P0, P_n: pitchWithout(tape) },
  value: ({ P_0, P_n }) => Math.abs(P_0 - P_n),
});

const hanging = model({
  id: "sprocket.base-radius",
  symbol: "r_b",
  unit: "m",
  title: "axis of the wheel to the tape's underside",
  equation: "r_a - (T - T_u)",
  form: "closed",
  origin: { cite: "the frame fixes the cover side", how: "derived" },
  reads: ({ unit, tape }) =>
    unit.sprocket &&
    unit.letters.T && { r_a: unit.sprocket["axis below tape"], T: tape.letters.T, T_u: unit.letters.T },
  value: ({ r_a, T, T_u }) => r_a - (T - T_u),
});
export const baseRadius = ({ unit }: Scene): Quantity | undefined =>
  unit.sprocket &&
  (unit.tape["rests on"] === "cover side" && unit.letters.T ? hanging : unit.sprocket["axis below tape"]);
/** Half angle of the flanks: the file's, or an unknown; nothing for an involute. */
export const flankOf = ({ unit, requirement }: Scene): Quantity =>
  unit.sprocket?.tooth.shape === "involute"
    ? upright
    : (unit.sprocket?.tooth.flank ?? requirement.assume["tooth flank"]);

/** Pitch that the wheel is drawn for. */
const drawnPitch = ({ unit, tape }: Scene): Quantity => unit.letters.P0 ?? pitchWithout(tape);
export const pitchRadius = model({
  id: "sprocket.pitch-radius",
  symbol: "r_p",
  unit: "m",
  title: "radius of the wheel's pitch line",
  equation: "z*P_w/(2*pi)",
  form: "closed",
  origin: { cite: "Journal SMPE 15 (1930) p. 311: the pitch circle is the tape's mid plane", how: "read" },
  valid: { z: [4, 400] },
  reads: (scene) => scene.unit.sprocket && { z: scene.unit.sprocket.teeth, P_w: drawnPitch(scene), pi },
  value: ({ z, P_w, pi }) => (z * P_w) / (2 * pi),
});
export const tipRadius = model({
  id: "sprocket.tip-radius",
  symbol: "r_t",
  unit: "m",
  title: "axis of the wheel to the tip of a tooth",
  equation: "r_a + h",
  form: "closed",
  origin: { cite: "unit file", how: "derived" },
  reads: ({ unit: { sprocket } }) =>
    sprocket && { r_a: sprocket["axis below tape"], h: sprocket.tooth["height above tape"] },
  value: ({ r_a, h }) => r_a + h,
});
/** The tooth from the side. */
export const outline: Model<ToothOutline> = model({
  id: "sprocket.outline",
  symbol: "outline",
  unit: "",
  title: "outline of a tooth from the side",
  equation: "w = t_a/2 - (rho - r_p)*tan(phi), or the involute of r_p",
  form: "solved",
  origin: { cite: "geometry; Journal SMPE 15 (1930) for the involute", how: "derived" },
  reads: (scene) => {
    const tooth = scene.unit.sprocket?.tooth;
    return (
      tooth && {
        shape: tooth.shape ?? "straight",
        t_a: tooth.along,
        r_p: pitchRadius,
        r_t: tipRadius,
        phi: flankOf(scene),
        q: tooth["tip radius"] ?? noLength,
      }
    );
  },
  value: ({ shape, t_a, r_p, r_t, phi, q }) =>
    toothOutline({
      shape: shape === "involute" ? "involute" : "straight",
      halfWidth: t_a / 2,
      pitchRadius: r_p,
      tipRadius: r_t,
      flank: phi,
      rounding: q,
    }),
});
/** All that the feasible interval rests on. */
export const wheel: Model<ToothedWheel> = model({
  id: "sprocket.wheel",
  symbol: "wheel",
  unit: "",
  title: "the wheel with its teeth, and the tape's holes",
  equation: "numbers of unit and tape",
  form: "solved",
  origin: { cite: "unit file and tape", how: "derived" },
  reads: (scene) => {
    const { unit, tape, requirement } = scene;
    const r_b = baseRadius(scene);
    return (
      unit.sprocket &&
      r_b &&
      toothMiddle(scene) && {
        z: unit.sprocket.teeth,
        outline,
        r_b,
        T: tape.letters.T,
        u: requirement.assume["neutral line"],
        alpha: unit.sprocket.wrap ?? flat,
        P: meanPitch(tape),
        D_e: opening,
      }
    );
  },
  value: ({ z, outline: shape, r_b, T, u, alpha, P, D_e }) => ({
    teeth: z,
    outline: shape,
    baseRadius: r_b,
    thickness: T,
    neutral: u,
    wrap: alpha,
    pitch: P,
    opening: D_e,
  }),
});
/** What the wheel allows the tape at every angle. */
export const interval: Model<FeasibleInterval> = model({
  id: "sprocket.interval",
  symbol: "X",
  unit: "",
  title: "feasible interval of the tape over the wheel's angle",
  equation: "lo <= X <= hi",
  form: "solved",
  origin: { cite: "Sprocket, drive and index cycle, section 2.2 (unpublished working notes)", how: "derived" },
  reads: (scene) => (wheel.reads(scene) ? { wheel } : undefined),
  value: ({ wheel: w }) => feasibleInterval(w),
});
/** Why nothing of the teeth can be said; undefined where it can. */
export const noTeeth = (scene: Scene): string | undefined =>
  noSprocket(scene) ??
  (toothMiddle(scene) ? undefined : "the unit file does not say where its teeth stand across the tape");
