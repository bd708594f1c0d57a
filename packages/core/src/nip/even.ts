import { evenness, hardEvenness, lambdaOf, longest, touching } from "../frame/evenness.ts";
import type { Check } from "../quantity/check.ts";
import { type Model, model, type Quantity } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import { carrierTorsion, hookPlay, rootSpring, shaftLength, shaftStiffness } from "./carrier.ts";
import { nipKind, noKind } from "./faces.ts";
import { noNip } from "./grip.ts";

/**
 * How evenly the nip presses over the width it grips.
 *
 *     soft face:  least line force over that at the root, a shaft on a soft foundation      frame/evenness.ts
 *                 d = N/(k l), the interference behind a hook's play
 *     hard faces: (1 - q)/(1 + q),  q = 6 k_phi phi_0/(N l)
 *
 * k line stiffness of the soft face, Pa, 1e6 .. 20e6 (only for soft faces); EI of both shafts, N m2; l from what carries the shaft to the far end of
 * the grip, m; k_phi torsion of the sprung carrier, N m per rad; phi_0 how far out of parallel the rollers stand; N preload, N.
 *
 * A one-sided steel shaft of 4 mm against a rigid partner keeps 0.8 to 22 .. 46 mm on rubber, 10 .. 13 mm between hard rollers. On both sides: bearings in
 * which the shaft turns; hooked: clamped on one side, and on the other in a stiff hook with its joint's play. A root on screws gives by them.
 * An uneven nip walks the film and slips first where it is light. 0 and less: open at one end.
 */
export const lineStiffness = ({ unit, requirement }: Scene): Quantity =>
  unit.nip?.rollers?.["line stiffness"] ?? requirement.assume["soft nip stiffness"];
const parallelism = ({ unit, requirement }: Scene): Quantity =>
  unit.nip?.rollers?.parallelism ?? requirement.assume["nip parallelism"];

export const softEvenness = model({
  id: "nip.evenness",
  symbol: "v",
  unit: "1",
  title: "least line force of the soft nip over that at its root",
  equation: "EI*w'''' + k*w = k*d; v = 1 - w/d",
  form: "solved",
  origin: { cite: "beam on a springy foundation, Hetenyi 1946", how: "derived" },
  valid: { k: [0.1e6, 100e6] },
  reads: (scene) => {
    const shaft = scene.unit.nip?.rollers?.shaft;
    const l = shaftLength(scene);
    const N = scene.unit.nip?.preload;
    const root = rootSpring(scene);
    return (
      shaft &&
      l &&
      N && {
        EI: shaftStiffness,
        k: lineStiffness(scene),
        l,
        N,
        carried: shaft.carried,
        ...(root && shaft.carried !== "both sides" ? { k_th: root } : {}),
        p: hookPlay(scene),
      }
    );
  },
  value: (x) => {
    const { EI, k, l, N, carried, p } = x;
    if (!(EI > 0) || !(k > 0)) throw new RangeError("a shaft or a face without stiffness presses nowhere");
    const lambda = lambdaOf(k, EI);
    // So long a shaft presses only near what carries it.
    const L = Math.min(longest, lambda * l);
    const kappa = "k_th" in x && x.k_th !== undefined ? x.k_th / (EI * lambda) : Number.POSITIVE_INFINITY;
    if (carried === "both sides") return evenness(L, 0, "bearing").least;
    if (carried === "one side") return evenness(L, kappa).least;
    return evenness(L, kappa, { stiffness: Number.POSITIVE_INFINITY, play: (p * k * l) / N }).least;
  },
});
export const touchLength = model({
  id: "nip.touch",
  symbol: "l_t",
  unit: "m",
  title: "length over which the soft nip of a one-sided shaft touches",
  equation: "l, or where a shorter shaft would be bare at its tip",
  form: "solved",
  origin: { cite: "beam on springs that push alone", how: "derived" },
  reads: (scene) => {
    const shaft = scene.unit.nip?.rollers?.shaft;
    const l = shaftLength(scene);
    const root = rootSpring(scene);
    return shaft?.carried === "one side" && l
      ? { EI: shaftStiffness, k: lineStiffness(scene), l, ...(root ? { k_th: root } : {}) }
      : undefined;
  },
  value: (x) => {
    if (!(x.EI > 0) || !(x.k > 0)) throw new RangeError("a shaft or a face without stiffness presses nowhere");
    const lambda = lambdaOf(x.k, x.EI);
    const kappa = "k_th" in x && x.k_th !== undefined ? x.k_th / (x.EI * lambda) : Number.POSITIVE_INFINITY;
    return touching(Math.min(longest, lambda * x.l), kappa) / lambda;
  },
});
export const parallelEvenness = model({
  id: "nip.parallel",
  symbol: "v",
  unit: "1",
  title: "line force of the hard nip at its light end over that at its heavy one",
  equation: "(1 - 6*k_phi*phi_0/(N*l))/(1 + 6*k_phi*phi_0/(N*l))",
  form: "closed",
  origin: { cite: "line force linear along the nip, statics", how: "derived" },
  valid: { phi_0: [0, 0.1] },
  reads: (scene) => {
    const k_phi = carrierTorsion(scene);
    const N = scene.unit.nip?.preload;
    const l = shaftLength(scene);
    return k_phi && N && l && { k_phi, phi_0: parallelism(scene), N, l };
  },
  value: ({ k_phi, phi_0, N, l }) => hardEvenness(k_phi, phi_0, N, l),
});
const value = (scene: Scene): Model => (nipKind(scene) === "hard" ? parallelEvenness : softEvenness);

function absent(scene: Scene): string | undefined {
  const { nip } = scene.unit;
  if (!nip?.preload) return noNip(scene);
  const why = noKind(scene);
  if (why) return why;
  if (!shaftLength(scene)) return "the width that the nip grips is not given";
  if (nipKind(scene) === "soft") return nip.rollers?.shaft ? undefined : "the nip's shafts are not given";
  return carrierTorsion(scene)
    ? undefined
    : "neither a hinge nor screws say how stiffly the nip's carrier stands against turning";
}
export const checkEven: Check = {
  id: "nip.even",
  station: 7,
  severity: "S",
  status: "judgement",
  title: "the nip presses the film evenly",
  value,
  atLeast: ({ requirement }) => requirement.assume["nip evenness"],
  absent,
  because: (say, scene) =>
    nipKind(scene) === "hard"
      ? `Rollers ${say(parallelism(scene))} out of parallel press at their light end with ${say(parallelEvenness)} of what they press with at the other.`
      : `Along ${say(shaftLength(scene)!)} of shaft, carried on ${carriedIn(scene)}, the nip presses at its least with ${say(softEvenness)} of what it presses with where it is carried.`,
  beside: (scene) =>
    nipKind(scene) === "hard"
      ? [carrierTorsion(scene)!]
      : [
          shaftStiffness,
          lineStiffness(scene),
          ...(scene.unit.nip?.rollers?.shaft?.carried === "one side" ? [touchLength] : []),
          ...(softEvenness.reads(scene) && "k_th" in softEvenness.reads(scene)! ? [rootSpring(scene)!] : []),
        ],
};
function carriedIn({ unit }: Scene): string {
  const { carried } = unit.nip!.rollers!.shaft!;
  return carried === "hooked" ? "one side and hooked on the other" : carried;
}
