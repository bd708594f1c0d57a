import { type Model, model, type Quantity } from "../quantity/model.ts";
import { power } from "../quantity/power.ts";
import type { Scene } from "../scene.ts";
import { pocketLength } from "../tape/pocket.ts";

/**
 * Bending stiffness of a carrier tape along its travel: lands and pockets one behind the other, as springs in series.
 *
 *     EI_l  = E T^3/12 / ((1 - D_0/P_0)/W + (D_0/P_0)/(W - D_0))    land, its row of holes counted, N m2
 *     EI_f  = the same with W - B_1 for W                           the two flanges beside a pocket, N m2
 *     a     = min(0.95, L/P_1)                                      pocket's share of the pitch
 *     EI_lo = 1/((1 - a)/EI_l + a/EI_f)                             walls give way: flanges alone bend with the tape
 *     I_p   = ((W - B_1) T^3 + B_1 t_w^3 + 2 t_w K_0^3)/12 + B_1 t_w K_0^2 + t_w K_0^3/2 - (B_1 t_w K_0 + t_w K_0^2)^2/A
 *     EI_hi = 1/((1 - a)/EI_l + a/(E I_p))                          walls hold: flanges, two walls and floor bend as one, so nearly only lands bend
 *     EI    = EI_lo (EI_hi/EI_lo)^min(1, q_w)                       between the two, q_w unknown, 0 .. 1
 *
 * E Young's modulus of the carrier, Pa, 1e9 .. 9e9; T thickness, m, 0.1e-3 .. 1.2e-3; W width, B_1 outside width of the pocket, D_0, P_0 sprocket
 * holes, P_1 pocket pitch, L outside length of a pocket, K_0 its depth, between the middles of flange and floor, t_w its walls, m; A = (W - B_1) T +
 * B_1 t_w + 2 t_w K_0. Holes in the flanges are left out of I_p.
 *
 * A deep pocket with stiff walls comes near EI_hi, a shallow wide one near EI_lo: its walls go oval, and no closed form says how far.
 * So a measured EI in the tape file comes first: hang a strip of length l over a table's edge, EI = w l^4/(8 y), y under a tenth of l.
 * Punched and pressed board has no walls: EI_lo, the floor of a pressed pocket left out. A flange is taken W/10 wide at least. Elastic: a tape
 * bent beyond its elastic limit (entry.bend) is softer.
 */
const series = { cite: "beams in series, land and pocket of one pitch", how: "derived" } as const;

/** Young's modulus of what the carrier is made of. */
export const carrierModulus = ({ tape, requirement: { assume } }: Scene): Quantity =>
  tape.kind === "embossed" ? assume["carrier modulus"] : assume["board modulus"];

export const landStiffness = model({
  id: "tape.land-stiffness",
  symbol: "EI_l",
  unit: "N*m^2",
  shownIn: "N*mm^2",
  title: "bending stiffness of the land, its holes counted",
  equation: "E*T^3/12/((1 - D_0/P_0)/W + (D_0/P_0)/(W - D_0))",
  form: "closed",
  origin: series,
  valid: { E: [1e9, 9e9], T: [0.1e-3, 1.2e-3] },
  reads: (scene) => {
    const { T, W, D0, P0 } = scene.tape.letters;
    return { E: carrierModulus(scene), T, W, D_0: D0, P_0: P0 };
  },
  value: ({ E, T, W, D_0, P_0 }) => (E * power(T, 3)) / 12 / ((1 - D_0 / P_0) / W + D_0 / P_0 / (W - D_0)),
});
export const flangeStiffness = model({
  id: "tape.flange-stiffness",
  symbol: "EI_f",
  unit: "N*m^2",
  shownIn: "N*mm^2",
  title: "bending stiffness of the two flanges beside a pocket",
  equation: "E*T^3/12/((1 - D_0/P_0)/max(W - B_1, W/10) + (D_0/P_0)/max(W - B_1 - D_0, W/10))",
  form: "closed",
  origin: series,
  valid: { E: [1e9, 9e9], T: [0.1e-3, 1.2e-3] },
  reads: (scene) => {
    const { T, W, B1, D0, P0 } = scene.tape.letters;
    return { E: carrierModulus(scene), T, W, B_1: B1, D_0: D0, P_0: P0 };
  },
  value: ({ E, T, W, B_1, D_0, P_0 }) =>
    (E * power(T, 3)) /
    12 /
    ((1 - D_0 / P_0) / Math.max(W - B_1, W / 10) + D_0 / P_0 / Math.max(W - B_1 - D_0, W / 10)),
});
export const pocketShare = model({
  id: "tape.pocket-share",
  symbol: "a",
  unit: "1",
  shownIn: "%",
  title: "pocket's share of the pitch",
  equation: "min(0.95, L/P_1)",
  form: "closed",
  origin: series,
  reads: ({ tape }) => ({ L: pocketLength, P_1: tape.letters.P1 }),
  value: ({ L, P_1 }) => Math.min(0.95, L / P_1),
});
export const lowStiffness = model({
  id: "tape.low-stiffness",
  symbol: "EI_lo",
  unit: "N*m^2",
  shownIn: "N*mm^2",
  title: "bending stiffness of a tape whose pocket walls give way",
  equation: "1/((1 - a)/EI_l + a/EI_f)",
  form: "closed",
  origin: series,
  reads: () => ({ a: pocketShare, EI_l: landStiffness, EI_f: flangeStiffness }),
  value: ({ a, EI_l, EI_f }) => 1 / ((1 - a) / EI_l + a / EI_f),
});
export const pocketSection = model({
  id: "tape.pocket-section",
  symbol: "I_p",
  unit: "m^4",
  shownIn: "mm^4",
  title: "second moment of flanges, walls and floor about their common neutral axis",
  equation:
    "(max(W - B_1, W/10)*T^3 + B_1*t_w^3 + 2*t_w*K_0^3)/12 + B_1*t_w*K_0^2 + t_w*K_0^3/2 - (B_1*t_w*K_0 + t_w*K_0^2)^2/(max(W - B_1, W/10)*T + B_1*t_w + 2*t_w*K_0)",
  form: "closed",
  origin: { cite: "thin-walled section, parallel axes", how: "derived" },
  reads: ({ tape }) => {
    const { T, W, B1, K0, wall } = tape.letters;
    return tape.kind === "embossed" ? { T, W, B_1: B1, K_0: K0, t_w: wall } : undefined;
  },
  value: ({ T, W, B_1, K_0, t_w }) => {
    const flanges = Math.max(W - B_1, W / 10);
    const about = (flanges * power(T, 3) + B_1 * power(t_w, 3) + 2 * t_w * power(K_0, 3)) / 12;
    const first = B_1 * t_w * K_0 + t_w * K_0 ** 2;
    return (
      about + B_1 * t_w * K_0 ** 2 + (t_w * power(K_0, 3)) / 2 - first ** 2 / (flanges * T + B_1 * t_w + 2 * t_w * K_0)
    );
  },
});
export const highStiffness = model({
  id: "tape.high-stiffness",
  symbol: "EI_hi",
  unit: "N*m^2",
  shownIn: "N*mm^2",
  title: "bending stiffness of a tape whose pocket walls hold",
  equation: "1/((1 - a)/EI_l + a/(E*I_p))",
  form: "closed",
  origin: series,
  reads: (scene) =>
    scene.tape.kind === "embossed"
      ? { a: pocketShare, EI_l: landStiffness, E: carrierModulus(scene), I_p: pocketSection }
      : undefined,
  value: ({ a, EI_l, E, I_p }) => 1 / ((1 - a) / EI_l + a / (E * I_p)),
});
const between = model({
  id: "tape.stiffness",
  symbol: "EI",
  unit: "N*m^2",
  shownIn: "N*mm^2",
  title: "bending stiffness of the tape along its travel",
  equation: "EI_lo*(EI_hi/EI_lo)^min(1, q_w)",
  form: "closed",
  origin: { cite: "between two bounds, on a logarithmic scale", how: "judgement" },
  reads: ({ tape, requirement }) =>
    tape.kind === "embossed"
      ? { EI_lo: lowStiffness, EI_hi: highStiffness, q_w: requirement.assume["pocket walls"] }
      : undefined,
  value: ({ EI_lo, EI_hi, q_w }) => EI_lo * power(EI_hi / EI_lo, Math.min(1, q_w)),
});

export { between as stiffnessBetween };

/** Bending stiffness of the tape: measured, else what its kind allows to say. */
export const stiffness = ({ tape }: Scene): Quantity =>
  tape.stiffness ?? (tape.kind === "embossed" ? between : lowStiffness);
/** The bounds behind an unmeasured stiffness, for showing. */
export const stiffnessBounds = ({ tape }: Scene): readonly Model[] =>
  tape.stiffness || tape.kind !== "embossed" ? [] : [lowStiffness, highStiffness];
