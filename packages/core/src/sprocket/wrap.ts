import { noLength } from "../quantity/bound.ts";
import type { Check } from "../quantity/check.ts";
import { model } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import { opening } from "./opening.ts";
import { baseRadius, meanPitch, noTeeth, outline, pi } from "./wheel.ts";

/**
 * The tape lies round the wheel: its pitch at the neutral line, and the wheel's, add up over the wrap.
 *
 *     p_w = D_e - l_t - K P |r_n/r_p - 1|,   K = alpha z/(2 pi),   r_p = z P/(2 pi)
 *     r_n = r_b + u T                        radius of the neutral line, m
 *     l_t = 2 r_n atan(w_b/rho)              length of a tooth where it is longest in the tape, at the neutral line, m
 *
 * D_e what a tooth meets of a hole, alpha angle of wrap, rad, 0 .. pi; z teeth; P the tape's own pitch, so its error counts; r_b axis to
 * underside, T thickness, u neutral line as a share of T: 0.5 of a plain strip, else measure it; w_b half of the tooth at the height rho of
 * the underside.
 *
 * The play falls as the tape gets thicker or thinner than the wheel is made for: thick tape jams or climbs on a wrapped wheel while it runs
 * on a flat one. The same relation gives the limits of shrinkage printed for film (Transactions SMPE, Aug. 1927, p. 409: 2.92 %, read).
 * Against the exact sweep (`interval.ts`): within 1 um for thick tape and flanks cut as an involute; on the tape it is made for such a wheel
 * has up to 24 um less than the rule says, and upright flanks jam in the run-off before the wrap does (derived): `tooth.enters` holds both.
 * The tape's own stiffness against the bend is left out.
 */
export const neutralRadius = model({
  id: "sprocket.neutral-radius",
  symbol: "r_n",
  unit: "m",
  title: "radius of the tape's neutral line on the wheel",
  equation: "r_b + u*T",
  form: "closed",
  origin: { cite: "bending of a strip", how: "derived" },
  valid: { u: [0, 1] },
  reads: (scene) => {
    const r_b = baseRadius(scene);
    return r_b && { r_b, u: scene.requirement.assume["neutral line"], T: scene.tape.letters.T };
  },
  value: ({ r_b, u, T }) => r_b + u * T,
});
export const toothInWrap = model({
  id: "sprocket.tooth-in-wrap",
  symbol: "l_t",
  unit: "m",
  title: "length of a tooth at the neutral line where it is longest in the tape",
  equation: "2*r_n*atan(w_b/rho)",
  form: "solved",
  origin: { cite: "geometry", how: "derived" },
  reads: (scene) => {
    const r_b = baseRadius(scene);
    return r_b && { outline, r_b, r_n: neutralRadius };
  },
  value: ({ outline: tooth, r_b, r_n }) => {
    // The point of the flank that lies r_b from the axis.
    let rho = r_b;
    for (let i = 0; i < 60; i++) rho = Math.sqrt(Math.max(0, r_b * r_b - tooth.halfWidthAt(rho) ** 2));
    return 2 * r_n * Math.atan2(tooth.halfWidthAt(rho), rho);
  },
});
export const wrapPlay = model({
  id: "sprocket.wrap-play",
  symbol: "p_w",
  unit: "m",
  title: "play of the tape where it lies round the wheel",
  equation: "D_e - l_t - alpha*z/(2*pi)*P*abs(r_n*2*pi/(z*P) - 1)",
  form: "closed",
  origin: {
    cite: "Transactions SMPE, Aug. 1927, pp. 409-410: limits of shrinkage of film on its sprockets",
    how: "read",
  },
  valid: { alpha: [0, Math.PI] },
  reads: (scene) => {
    const { sprocket } = scene.unit;
    return (
      (sprocket?.wrap &&
        noTeeth(scene) === undefined && {
          D_e: opening,
          l_t: toothInWrap,
          alpha: sprocket.wrap,
          z: sprocket.teeth,
          P: meanPitch(scene.tape),
          r_n: neutralRadius,
          pi,
        }) ||
      undefined
    );
  },
  value: ({ D_e, l_t, alpha, z, P, r_n, pi }) =>
    D_e - l_t - ((alpha * z) / (2 * pi)) * P * Math.abs((r_n * 2 * pi) / (z * P) - 1),
});
/** Thickness at which the tape fits the wheel. */
export const fittingThickness = model({
  id: "sprocket.fitting-thickness",
  symbol: "T_f",
  unit: "m",
  title: "thickness of tape that the wheel is made for",
  equation: "max(0, (z*P/(2*pi) - r_b)/u)",
  form: "closed",
  origin: { cite: "Journal SMPE 15 (1930) p. 311: the pitch circle is the tape's mid plane", how: "read" },
  reads: (scene) => {
    const r_b = baseRadius(scene);
    return (
      scene.unit.sprocket &&
      r_b && {
        z: scene.unit.sprocket.teeth,
        P: meanPitch(scene.tape),
        r_b,
        u: scene.requirement.assume["neutral line"],
        pi,
      }
    );
  },
  value: ({ z, P, r_b, u, pi }) => Math.max(0, ((z * P) / (2 * pi) - r_b) / u),
});
export const checkWrap: Check = {
  id: "tooth.wrap",
  station: 6,
  severity: "S",
  status: "established",
  title: "thick and thin tape run round the wheel without jamming",
  value: wrapPlay,
  atLeast: noLength,
  absent: (scene: Scene) =>
    noTeeth(scene) ?? (scene.unit.sprocket?.wrap ? undefined : "the tape runs flat past its wheel, not round it"),
  because: (say, scene) =>
    `Round the wheel ${say(wrapPlay)} of play are left on tape ${say(scene.tape.letters.T)} thick; the wheel is made for ${say(fittingThickness)}, and every pitch of the wrap adds what the neutral line lies off.`,
  beside: () => [opening, toothInWrap, neutralRadius, fittingThickness],
};
