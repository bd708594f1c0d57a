import { type Model, model, type Quantity } from "../quantity/model.ts";
import { power } from "../quantity/power.ts";
import type { Scene } from "../scene.ts";

/**
 * The curvature a tape keeps when it comes off its reel.
 *
 *     q_s = 1 - (sin(n pi)/pi) integral from 0 to s/t of w^(n-1)/(1 + w) dw      share of the hub's curvature that is left
 *     1/R_s = q_s/r_h                                                            curvature at the wheel, 1/m
 *
 * t time wound on the reel, s, s time since it came off, s; n exponent with which the carrier's stiffness fades, E(t) ~ t^-n, 0.005 .. 0.2; r_h
 * radius of the hub, m: the last turns of a reel set hardest, and every reel runs down to them.
 *
 * A strip bent by a step for the time t and then free of moment (Boltzmann superposition of a power law, E D = sin(n pi)/(n pi)); the equation of
 * the free strip is solved exactly by that integral: 1 at s = 0, nought after endless time. For s far below t it is 1 - (s/t)^n to within
 * 0.005. Ageing is left out: a real tape, older and stiffer when it comes off, recovers less at first. Above the elastic limit on the hub
 * it keeps more. Board follows moisture, not time: its share is an assumption. No figure was found for carrier tape, so a measured radius in the
 * tape file comes first: 300 mm laid on edge, chord c and rise h, R_s = c^2/(8 h) + h/2.
 *
 * The tape is concave towards the hub. On the usual winding its pockets face the hub (memory), so between two rests it bows up, to the cover.
 */
export function setShare({ n, t, s }: { readonly n: number; readonly t: number; readonly s: number }): number {
  if (!(n > 0 && n < 1)) throw new RangeError(`the creep exponent is ${n}; it must lie between 0 and 1`);
  if (!(t > 0) || !(s >= 0)) throw new RangeError("a tape is wound for some time before it comes off");
  const x = s / t;
  const weight = Math.sin(n * Math.PI) / Math.PI;
  // The two halves of the integral mirror each other: w -> 1/w turns n into 1 - n, and the whole is pi/sin(n pi).
  return x <= 1 ? 1 - weight * toward(x, n) : weight * toward(1 / x, 1 - n);
}
/** Integral of w^(n-1)/(1+w) from 0 to x, x <= 1: an alternating series, its tail halved again and again (Euler). */
function toward(x: number, n: number): number {
  if (x === 0) return 0;
  // Up to 1/2 the series itself; from there on w = v/(1 - v) makes all terms of one sign: v^(n-1) (1-v)^(-n), v = x/(1+x) <= 1/2.
  const v = x / (1 + x);
  let factor = power(v, n);
  let sum = 0;
  for (let k = 0; k < 200; k++) {
    const term = factor / (n + k);
    sum += term;
    if (term < 1e-17 * sum) break;
    factor *= (v * (n + k)) / (k + 1);
  }
  return sum;
}

export const keptShare = model({
  id: "tape.set-share",
  symbol: "q_s",
  unit: "1",
  shownIn: "%",
  title: "share of the hub's curvature that the tape keeps",
  equation: "1 - sin(n*pi)/pi times the integral of w^(n-1)/(1+w) from 0 to s/t",
  form: "solved",
  origin: { cite: "Boltzmann superposition of a power law of relaxation", how: "derived" },
  valid: { n: [0.005, 0.2] },
  reads: ({ tape, requirement: { assume } }) =>
    tape.kind === "embossed" && !tape.setRadius
      ? { n: assume["creep exponent"], t: assume["storage time"], s: assume["free time"] }
      : undefined,
  value: setShare,
});
const fromHub = (id: string, kept: (scene: Scene) => Quantity | undefined, cite: Model["origin"]) =>
  model({
    id,
    symbol: "kappa",
    unit: "1/m",
    title: "curvature that the tape keeps off the hub",
    equation: "2*q_s/N",
    form: "closed",
    origin: cite,
    valid: { N: [0.02, 0.4] },
    reads: (scene) => {
      const q_s = kept(scene);
      return q_s && { q_s, N: scene.tape.reel.hub };
    },
    value: ({ q_s, N }) => (2 * q_s) / N,
  });
const ofPlastic = fromHub(
  "tape.set-curvature",
  ({ tape }) => (tape.kind === "embossed" && !tape.setRadius ? keptShare : undefined),
  { cite: "share of the hub's curvature", how: "derived" },
);
const ofBoard = fromHub(
  "tape.board-curvature",
  ({ tape, requirement }) => (tape.kind === "embossed" || tape.setRadius ? undefined : requirement.assume["board set"]),
  { cite: "share of the hub's curvature; board follows moisture", how: "judgement" },
);
const measured = model({
  id: "tape.measured-curvature",
  symbol: "kappa",
  unit: "1/m",
  title: "curvature that the tape keeps off the hub, as measured",
  equation: "1/R_s",
  form: "closed",
  origin: { cite: "by definition", how: "derived" },
  reads: ({ tape }) => tape.setRadius && { R_s: tape.setRadius },
  value: ({ R_s }) => 1 / R_s,
});

export { measured as measuredCurvature, ofBoard as boardCurvature, ofPlastic as plasticCurvature };

/** Curvature the tape keeps at the wheel, 1/m: measured, else of its kind. */
export const setCurvature = ({ tape }: Scene): Model =>
  tape.setRadius ? measured : tape.kind === "embossed" ? ofPlastic : ofBoard;
