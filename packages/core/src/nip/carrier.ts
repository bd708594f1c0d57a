import { screwNamed, screwNames, screwStiffness, tippingStiffness } from "../frame/screws.ts";
import { materialFigure, materialNamed } from "../material/catalogue.ts";
import { noLength } from "../quantity/bound.ts";
import { tabled } from "../quantity/given.ts";
import { type Model, model, type Quantity } from "../quantity/model.ts";
import { power } from "../quantity/power.ts";
import type { Scene } from "../scene.ts";
import { pi } from "../sprocket/wheel.ts";
import type { Unit } from "../unit/unit.ts";
import { gripFace } from "./grip.ts";

/**
 * What carries the nip: shafts, their root, and how stiffly a sprung carrier stands against turning.
 *
 *     EI    = E pi d^4/64/2                  two shafts alike, one against the other, N m2
 *     k_th  = k_i s^2/2                      root of a shaft on a plate with two rows of screws the distance s apart, tipping about their middle
 *     k_phi = G b t^3/(3 l)                  torsion of a flexure hinge, N m per rad; G = E/2.8
 *
 * d diameter of a shaft, m, E its modulus (steel 206 GPa where no other material is named); k_i one screw with its plastic (frame/screws.ts), half of
 * the screws in each row; b, t, l width, thickness and length of the hinge, m. A screwed carrier without a hinge is as stiff as its screws.
 */
const gpa = (address: string, text: string, cite: string): Quantity =>
  tabled(address, "E", text, [-1, 1, -2, 0, 0], { cite, how: "memory" });
const steel = gpa("catalogue/modulus of steel", "206 GPa", "carbon steel, memory");
const aluminium = gpa("catalogue/modulus of aluminium", "70 GPa", "aluminium alloys, memory");
const brass = gpa("catalogue/modulus of brass", "100 GPa", "brass, memory");
function shaftModulus({ unit, requirement }: Scene): Quantity {
  const word = unit.nip?.rollers?.shaft?.material?.toLowerCase() ?? "steel";
  if (word.includes("steel") || /1\.\d{4}/.test(word)) return steel;
  if (word.includes("alumin")) return aluminium;
  if (word.includes("brass")) return brass;
  const named = materialNamed(word);
  return (named && materialFigure(named, "E")) ?? requirement.assume["plastic modulus"];
}

export const shaftStiffness = model({
  id: "nip.shaft",
  symbol: "EI",
  unit: "N*m^2",
  shownIn: "N*m^2",
  title: "bending stiffness of the nip's two shafts, one against the other",
  equation: "E*pi*d^4/128",
  form: "closed",
  origin: { cite: "round section; two alike in series", how: "derived" },
  valid: { d: [0.5e-3, 0.05] },
  reads: (scene) => {
    const shaft = scene.unit.nip?.rollers?.shaft;
    return shaft && { E: shaftModulus(scene), pi, d: shaft.diameter };
  },
  value: ({ E, pi: p, d }) => (E * p * power(d, 4)) / 128,
});
/** From what carries the shaft to the far end of its grip. */
export const shaftLength = (scene: Scene): Quantity | undefined =>
  scene.unit.nip?.rollers?.shaft?.length ?? gripFace(scene);

type Joint = NonNullable<Unit["joints"]>[number];
const plateThickness = tabled("catalogue/clamped plastic", "l", "6 mm", [1, 0, 0, 0, 0], {
  cite: "plastic under a screw's head where the joint does not say: common practice, no source",
  how: "memory",
});
/** Joints with screws that bear the nip's force. */
export const screwedJoints = ({ unit }: Scene): readonly Joint[] =>
  (unit.joints ?? []).filter((j) => j.screws && j.carries !== "nothing");
/** Why screws of a joint are not known. */
export function unknownScrew(scene: Scene): string | undefined {
  const odd = screwedJoints(scene).find((j) => !screwNamed(j.size));
  if (!odd) return undefined;
  return odd.size === undefined
    ? `the size of the screws of "${odd.name}" is not given`
    : `"${odd.size}" of "${odd.name}" is no screw we know: ${screwNames.join(", ")}`;
}
export const clampedIn = (joint: Joint): Quantity => joint.clamped ?? plateThickness;
const spaced = (scene: Scene): Joint | undefined =>
  unknownScrew(scene) ? undefined : screwedJoints(scene).find((j) => j.spacing);

const screwRead = (scene: Scene) => {
  const joint = spaced(scene);
  return (
    joint && {
      n: joint.screws!,
      s: joint.spacing!,
      l: clampedIn(joint),
      size: joint.size!,
      E: scene.requirement.assume["plastic modulus"],
      q_i: scene.requirement.assume.infill,
    }
  );
};
/** Moment stiffness of the screws that carry the nip: of a root, and of a carrier that nothing else lets turn. */
export const screwTorsion = model({
  id: "nip.screws",
  symbol: "k_th",
  unit: "N*m",
  shownIn: "N*m",
  title: "stiffness of the nip's screws against tipping, per radian",
  equation: "sum of k_i*x_i^2, the screws in two rows s apart",
  form: "solved",
  origin: { cite: "springs in two rows; frusta of 30 degrees, Shigley", how: "memory" },
  reads: screwRead,
  value: ({ n, s, l, size, E, q_i }) => {
    const k = screwStiffness(screwNamed(size)!, l, E, q_i);
    return tippingStiffness(k * (n / 2), [-s / 2, s / 2]);
  },
});
export const hingeTorsion = model({
  id: "nip.hinge",
  symbol: "k_phi",
  unit: "N*m",
  shownIn: "N*m",
  title: "torsion of the flexure hinge, per radian",
  equation: "E/2.8*b*t^3/(3*l)",
  form: "closed",
  origin: { cite: "torsion of a thin strip", how: "derived" },
  valid: { E: [0.5e9, 250e9] },
  reads: (scene) => {
    const spring = scene.unit.nip?.spring;
    const { width: b, thickness: t, length: l } = spring ?? {};
    if (spring?.kind !== "flexure hinge" || !b || !t || !l) return undefined;
    const named = spring.material === undefined ? undefined : materialNamed(spring.material);
    return { E: (named && materialFigure(named, "E")) ?? scene.requirement.assume["plastic modulus"], b, t, l };
  },
  value: ({ E, b, t, l }) => ((E / 2.8) * b * power(t, 3)) / (3 * l),
});
/** How stiffly the sprung carrier stands against turning out of parallel; undefined where nothing says it. */
export function carrierTorsion(scene: Scene): Quantity | undefined {
  const given = scene.unit.nip?.rollers?.["carrier torsion"];
  if (given) return given;
  if (hingeTorsion.reads(scene)) return hingeTorsion;
  return spaced(scene) ? (screwTorsion as Model) : undefined;
}
/** Play of the hook at the shaft's far end. */
export const hookPlay = ({ unit }: Scene): Quantity => unit.joints?.find((j) => j.kind === "hooked")?.play ?? noLength;
/** The root of a one-sided shaft has a spring where screws say so. */
export const rootSpring = (scene: Scene): Quantity | undefined => (spaced(scene) ? screwTorsion : undefined);
