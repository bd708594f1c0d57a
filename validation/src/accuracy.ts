import {
  bowAcross,
  carrierShift,
  eccentricity,
  offsetAcross,
  offsetAlong,
  partTurn,
  pickRadius,
  pitchAddedUp,
  radiusOfSpread,
  seatFlips,
  singleHole,
  spreadAcross,
  spreadAlong,
  warmReach,
  warmShift,
  yawKeptAlong,
} from "@tapeworthy/core";
import { type Row, reviewNotes, row } from "./row.ts";

const pickProgram = "independent program validation/independent/pick.py";
const um = 1e6;
type Numbers = Readonly<Record<string, unknown>>;
const value = (m: { value(x: Numbers): number }, x: Numbers): number => m.value(x);

/** Groups of the chain as the radius reads them. */
const fixed = (v: number) => ({ swing: "none", by: [v] });
const even = (a: number) => ({ swing: "even", by: [a] });
const either = (b: number) => ({ swing: "either", by: [b] });
/** A cause that turns round counts as normal: its reach is root two of its sd. */
const normal = (s: number) => ({ swing: "turn", by: [s * Math.SQRT2] });

/** Rayleigh and Rice through the check's own model: the sum of a chain whose causes count as normal. */
function laws(): Row[] {
  const one = (id: string, q: number, v: number, expected: number, near: number, source: string): Row =>
    row({
      id,
      model: "pick.radius",
      expected,
      got: value(pickRadius, { q, along: [fixed(v), normal(1)], across: [normal(1)] }),
      near: { share: near },
      source,
      how: "derived",
    });
  return [
    one("pick.rayleigh 95 %", 0.95, 0, 2.4477468, 2e-5, "Rayleigh, sqrt(-2 ln 0.05)"),
    one("pick.rayleigh 99 %", 0.99, 0, 3.0348543, 2e-5, "Rayleigh, sqrt(-2 ln 0.01)"),
    one("pick.rayleigh 99.73 %", 0.9973, 0, 3.4393, 2e-5, "Rayleigh, sqrt(-2 ln 0.0027)"),
    one("pick.rice 1 sd off", 0.99, 1, 3.5844939965311617, 1e-7, "Rice; noncentral chi-square of 2 degrees"),
    one("pick.rice 3 sd off", 0.99, 3, 5.449368252056856, 1e-7, "Rice; noncentral chi-square of 2 degrees"),
  ];
}

/** Even and double causes: exact by quadrature, and the check's quick form. */
function limits(): Row[] {
  type Four = readonly [v: number, s: number, a: number, b: number];
  const spread = ([v, s, a, b]: Four) => ({ v, s, a, b });
  const groups = ([v, s, a, b]: Four) => [
    fixed(v),
    normal(s),
    ...(a > 0 ? [even(a)] : []),
    ...(b > 0 ? [either(b)] : []),
  ];
  const one = (name: string, x: Four, y: Four, expected: number, quick: number): Row[] => [
    row({
      id: `pick.limits ${name}, exact`,
      model: "pick.radius",
      expected,
      got: radiusOfSpread(0.997, spread(x), spread(y)),
      near: { share: 0.001 },
      source: `${pickProgram}: ten million places; 0.1 % allowed for their scatter`,
      how: "derived",
    }),
    row({
      id: `pick.limits ${name}, quick`,
      model: "pick.radius",
      expected,
      got: value(pickRadius, { q: 0.997, along: groups(x), across: groups(y) }),
      near: { share: quick },
      source: `${pickProgram}: ten million places; what the quick form states is allowed`,
      how: "derived",
    }),
  ];
  return [
    ...one("even along", [0, 0.3, 1, 0], [0, 0.4, 0, 0], 1.6715, 0.04),
    ...one("even both ways, off", [0.5, 0.3, 1, 0], [0.2, 0.2, 0.5, 0], 2.0516, 0.04),
    // Two limits without a rest: the corners of a square, where the quick form is at its worst.
    ...one("a square", [0, 0.05, 1, 0], [0, 0.05, 1, 0], 1.3857, 0.18),
    ...one("one of two places", [0.4, 0.3, 0.6, 0.8], [0, 0.3, 0, 0], 2.2999, 0.06),
  ];
}

/** A chain of ten causes, um. */
function chain(): Row[] {
  const along = [fixed(18), { swing: "turn", by: [12] }, even(31), even(28), even(15), even(13), even(10)];
  const across = [fixed(-7), either(20), even(27), even(20)];
  const one = (id: string, model: typeof pickRadius, parts: unknown, expected: number, printedTo: number): Row =>
    row({
      id: `pick.chain ${model.symbol}`,
      model: id,
      expected,
      got: value(model, { parts }),
      near: { within: printedTo },
      unit: "um",
      source: `${pickProgram}: ten causes drawn ten million times`,
      how: "derived",
    });
  return [
    row({
      id: "pick.chain radius",
      model: "pick.radius",
      expected: 97.66,
      got: value(pickRadius, { q: 0.997, along, across }),
      near: { share: 0.1 },
      unit: "um",
      source: `${pickProgram}: ten causes drawn ten million times; the quick form takes all but the greatest as normal, 10 % allowed`,
      how: "derived",
    }),
    one("pick.offset-along", offsetAlong, along, 18, 1e-9),
    one("pick.offset-across", offsetAcross, across, -7, 1e-9),
    one("pick.spread-along", spreadAlong, along, 28.614, 0.03),
    one("pick.spread-across", spreadAcross, across, 27.865, 0.03),
  ];
}

/** Corrections B1 and B4 of the review, at the pick. */
function published(): Row[] {
  const yaw = (W: number, F: number, l: number, expected: number): Row =>
    row({
      id: `pick.yaw ${W} mm tape, ${l} mm`,
      model: yawKeptAlong.id,
      expected,
      got: value(yawKeptAlong, { q_s: 0, psi: 0.225 / l, F: F * 1e-3 }) * um,
      near: { printedTo: 1 },
      unit: "um",
      source: `${reviewNotes}, B1: 0.225 mm of play over the guided length`,
      how: "derived",
    });
  const warm = { x_p: 0, x_d: -0.06, dT: 15, q_w: 0, a_t: 85e-6, s_w: 0, s_p: 0 };
  const heat = (id: string, expected: number, got: number): Row =>
    row({
      id,
      model: warmReach.id,
      expected,
      got: got * um,
      near: { within: 0.8 },
      unit: "um",
      source: `${reviewNotes}, B4: 60 mm, 15 K; printed to 1, alpha rounded`,
      how: "derived",
    });
  return [
    yaw(8, 3.5, 30, 26),
    yaw(8, 3.5, 60, 13),
    yaw(8, 3.5, 100, 8),
    yaw(24, 11.5, 30, 86),
    yaw(24, 11.5, 60, 43),
    yaw(24, 11.5, 100, 26),
    yaw(44, 20.2, 30, 152),
    yaw(44, 20.2, 60, 76),
    yaw(44, 20.2, 100, 45),
    yaw(200, 98, 30, 735),
    yaw(200, 98, 60, 368),
    yaw(200, 98, 100, 221),
    heat("pick.warm frame", 58, 2 * value(warmReach, { e_x: value(warmShift, { ...warm, a_f: 65e-6 }) })),
    heat("pick.warm tape", 18, value(carrierShift, { a_t: 85e-6, s_w: 0.014, s_p: 0, dT: 15 })),
    heat("pick.warm strip", 21, 2 * value(warmReach, { e_x: value(warmShift, { ...warm, a_f: 23e-6 }) })),
  ];
}

function terms(): Row[] {
  const one = (
    id: string,
    model: { id: string; value(x: Numbers): number },
    x: Numbers,
    expected: number,
    share: number,
    source: string,
  ): Row =>
    row({
      id,
      model: model.id,
      expected,
      got: value(model, x) * um,
      near: { share },
      unit: "um",
      source,
      how: "derived",
    });
  return [
    one(
      "pick.pitch",
      pitchAddedUp,
      { q_t: 1, s_w: 0.014, s_p: 0, P: 4.02e-3, P_w: 4e-3 },
      70,
      1e-9,
      "3.5 pitches of 20 um each, by hand",
    ),
    one("pick.hole", singleHole, { q_t: 0.4, e_1: 0.1e-3 }, 40, 1e-9, "0.4 of 100 um, by hand"),
    one("pick.wheel", eccentricity, { e_w: 30e-6 }, 15, 1e-9, "half of what it runs out, by hand"),
    one("pick.seat", seatFlips, { x_j: 0.45e-3 }, 225, 1e-9, "half a jump either way, by hand"),
    one(
      "pick.bow",
      bowAcross,
      { t_k: 1, k: 1e-3, s_w: 0.014, s_p: 0, l: 0.06, L_0: 0.25 },
      41.21,
      5e-4,
      `${pickProgram}: its exact circle`,
    ),
    ...(
      [
        [6.4, 5.2, 6, 5, 33.816],
        [1.85, 2.25, 1.7, 2.1, 73.692],
      ] as const
    ).map(([A_0, B_0, l_p, w_p, expected]) =>
      row({
        id: `pick.turn ${A_0} by ${B_0}`,
        model: partTurn.id,
        expected,
        got: value(partTurn, { q_p: 1, A_0, B_0, l_p, w_p }) * 1e3,
        near: { share: 0.035 },
        unit: "mrad",
        source: `${pickProgram}: corners turned until they touch; 3.5 % for small angles`,
        how: "derived",
      }),
    ),
  ];
}

/** The pick chain: radii, terms, and what a review printed of yaw and heat. */
export const accuracyRows = (): Row[] => [...laws(), ...limits(), ...chain(), ...published(), ...terms()];
