import {
  bareDesign,
  commanded,
  countError,
  type IndexDesign,
  indexHole,
  indexJolt,
  indexSpeed,
  indexState,
  indexStateSize,
  indexTension,
  indexTime,
  indexVelocity,
  inventedDesign,
  leadOf,
  measuresOf,
  rigidTime,
  runIndex,
  shiftByDrag,
  shiftByVolts,
  wormFriction,
} from "@tapeworthy/core";
import { cycleProgram, driveNotes, type Row, reviewNotes, row } from "./row.ts";

const { tape: x, mesh: M, tension, filmForce, zTape } = indexState;
const { rotor, tape: v, roller } = indexVelocity;
const starting = (set: readonly (readonly [place: number, value: number])[]): Float64Array => {
  const s = new Float64Array(indexStateSize);
  for (const [i, value] of set) s[i] = value;
  return s;
};

/** The invented unit as a whole. */
function wholeRows(): Row[] {
  const { lanes, marks, end } = runIndex(inventedDesign());
  const brake = marks.find((m) => m.what === "brake")!.t * 1e3;
  const current = Math.max(...lanes.current);
  const at = (volts: number): IndexDesign => {
    const d = inventedDesign();
    return commanded({ ...d, feed: { ...d.feed, volts } }, { end: 0.25 });
  };
  const lead = (volts: number, expected: number): Row =>
    row({
      id: `index.lead at ${volts} V`,
      model: "cycle.index",
      expected,
      got: (leadOf(at(volts)) ?? Number.NaN) * 1e3,
      near: { within: 0.003 },
      unit: "mm",
      source: `${driveNotes}: brake that stops the wheel at 4.000 mm, by a program of its own`,
      how: "derived",
    });
  const smooth = `${cycleProgram}: Radau, rtol 1e-9, friction smoothed over 20 um/s`;
  return [
    row({
      id: "index.tape at 100 ms",
      model: "cycle.index",
      expected: 4.9957,
      got: end[x]! * 1e3,
      near: { within: 0.0005 },
      unit: "mm",
      source: `${driveNotes}: Radau on the smooth law`,
      how: "derived",
    }),
    row({
      id: "index.tape at 100 ms, second program",
      model: "cycle.index",
      expected: 4.99557,
      got: end[x]! * 1e3,
      near: { within: 0.0003 },
      unit: "mm",
      source: smooth,
      how: "derived",
    }),
    row({
      id: "index.brake",
      model: "cycle.index",
      expected: 62.078,
      got: brake,
      near: { within: 0.005 },
      unit: "ms",
      source: `${driveNotes}: Radau on the smooth law`,
      how: "derived",
    }),
    row({
      id: "index.brake, second program",
      model: "cycle.index",
      expected: 62.0798,
      got: brake,
      near: { within: 0.005 },
      unit: "ms",
      source: smooth,
      how: "derived",
    }),
    row({
      id: "index.greatest current",
      model: "cycle.index",
      expected: 0.612,
      got: current,
      near: { within: 0.002 },
      unit: "A",
      source: `${driveNotes}: Radau on the smooth law`,
      how: "derived",
    }),
    lead(10, 1.1568),
    lead(7, 0.8664),
    lead(5, 0.5666),
  ];
}

/** Parts of it alone, against closed forms. */
function partRows(): Row[] {
  const tol = 1e-9;
  // Two poles of the motor, by hand.
  const free = (end: number) => {
    const d = bareDesign(end);
    return runIndex(commanded(d, { feedStart: 0 }), { tol });
  };
  const { volts, R, L, k, J } = inventedDesign().feed;
  const root = Math.sqrt((R / L) ** 2 - (4 * k * k) / (L * J));
  const [slow, fast] = [(-R / L + root) / 2, (-R / L - root) / 2];
  const peak = Math.log(fast / slow) / (slow - fast);

  const bare = bareDesign(0.02);
  const rubbed: IndexDesign = { ...bare, tape: { ...bare.tape, sliding: 0.35, sticking: 0.35 } };
  const stopped = runIndex(rubbed, {
    tol,
    from: starting([
      [v, 0.08],
      [zTape, 0.35 / bare.tape.preSliding],
    ]),
  });
  const thrown = (damping: number): number => {
    const alone = bareDesign(2.2e-3);
    const d: IndexDesign = {
      ...alone,
      feed: { ...alone.feed, shaftInertia: 1e9 },
      wheel: { ...alone.wheel, stiffness: 1e5, damping },
    };
    const { end } = runIndex(d, {
      tol: 1e-10,
      from: starting([
        [v, 0.1],
        [x, -0.05e-3],
      ]),
    });
    return -end[v]! / 0.1;
  };
  const impact = (damping: number, expected: number): Row =>
    row({
      id: `index.restitution, damping ${damping}`,
      model: "cycle.index",
      expected,
      got: thrown(damping),
      near: { within: 2e-4 },
      source:
        "Schwager and Poeschel, Coefficient of restitution and linear dashpot model revisited, Granular Matter 2007 (abstract read; formula remembered and re-derived)",
      how: "derived",
    });
  const slack = bareDesign(8e-3);
  const taken = runIndex(
    { ...slack, reel: { ...slack.reel, stiffness: 2000, slack: 0.1e-3 } },
    { tol: 1e-10, from: starting([[v, 0.08]]) },
  );

  const heavy = (traction: number, end: number, speed: number) => {
    const alone = bareDesign(end);
    const { peel, film } = inventedDesign();
    const d: IndexDesign = {
      ...alone,
      peel,
      film: { ...film!, traction },
      tape: { ...alone.tape, mass: 1e6, preSliding: 1 },
    };
    return { film: d.film!, end: runIndex(d, { tol, from: starting([[v, speed]]) }).end };
  };
  const peel = heavy(5, 0.08, 0.08);
  const cos = Math.cos(peel.film.angle);
  const peelSpeed = (peel.film.roller * peel.end[roller]! - cos * 0.08) / (1 - cos);
  const standing = heavy(1.2, 0.05, 0).end;

  const pulled = (lead: number, mu: number, end: number) => {
    const alone = bareDesign(end);
    const { feed, wheel } = inventedDesign();
    const d: IndexDesign = {
      ...alone,
      feed: { ...feed, ...wormFriction(lead, mu, 0.349), T0: 1e-6 },
      wheel,
      tape: { ...alone.tape, viscous: 3 },
      reel: { ...alone.reel, stiffness: 500, slack: -2e-3, inertia: 1e6 },
    };
    return { feed: d.feed, end: runIndex(d, { tol: 1e-8 }).end };
  };
  const held = pulled(0.0873, 0.12, 0.4).end[x]! - pulled(0.0873, 0.12, 0.2).end[x]!;
  const back = pulled(0.2, 0.05, 0.16);
  const balance =
    ((back.feed.backward * Math.abs(back.end[M]!)) / back.feed.ratio - back.feed.T0) * (back.feed.R / back.feed.k ** 2);

  return [
    row({
      id: "index.motor step",
      model: "cycle.index",
      expected: 2251.864,
      got: free(0.02).end[rotor]!,
      near: { within: 0.01 },
      unit: "rad/s",
      source: `${driveNotes}: two exponentials, 20 ms after 10 V`,
      how: "derived",
    }),
    row({
      id: "index.peak current",
      model: "cycle.index",
      expected: (volts / L) * ((Math.exp(slow * peak) - Math.exp(fast * peak)) / (slow - fast)),
      got: Math.max(...free(5e-3).lanes.current),
      near: { share: 5e-4 },
      unit: "A",
      source: "two exponentials of the same motor, by hand",
      how: "derived",
    }),
    row({
      id: "index.stopped by friction",
      model: "cycle.index",
      expected: 36.571,
      got: stopped.end[x]! * 1e6,
      near: { within: 0.5 },
      unit: "um",
      source: `${driveNotes}: m v²/2F; friction that holds springs back by F/k, 0.35 um`,
      how: "derived",
    }),
    impact(0.05, 0.85876),
    impact(0.1, 0.74408),
    impact(0.3, 0.45098),
    row({
      id: "index.slack taken up",
      model: "cycle.index",
      expected: 0.2032,
      got: Math.max(...taken.lanes.web),
      near: { within: 2e-4 },
      unit: "N",
      source: `${driveNotes}: v sqrt(k m) of two masses`,
      how: "derived",
    }),
    row({
      id: "index.steady peel",
      model: "cycle.index",
      expected: peel.film.peelForce * (peelSpeed / peel.film.speed) ** peel.film.exponent,
      got: peel.end[tension]!,
      near: { share: 1e-4 },
      unit: "N",
      source: `${driveNotes}: peel speed (r w - v cos)/(1 - cos), tension P of it`,
      how: "derived",
    }),
    row({
      id: "index.slipping nip",
      model: "cycle.index",
      expected: 1.2,
      got: standing[tension]!,
      near: { share: 1e-4 },
      unit: "N",
      source: "a slipping nip pulls its traction, by hand",
      how: "derived",
    }),
    row({
      id: "index.film on a standing tape",
      model: "cycle.index",
      expected: 1.2,
      got: standing[filmForce]!,
      near: { share: 1e-4 },
      unit: "N",
      source: `${driveNotes}: peel line held at the edge, all of the tension forward; a judgement not yet measured`,
      how: "derived",
    }),
    row({
      id: "index.locked worm",
      model: "cycle.index",
      expected: 0,
      got: held * 1e6,
      near: { within: 0.02 },
      unit: "um",
      source: `${driveNotes}: backward efficiency below 0 holds; moved in the second 0.2 s`,
      how: "derived",
    }),
    row({
      id: "index.worm runs back",
      model: "cycle.index",
      expected: balance,
      got: -back.end[rotor]!,
      near: { share: 0.015 },
      unit: "rad/s",
      source: "(eta_b M/N - T0) R/k² of a rotor shorted through its winding, by hand; 1.5 % for the pull that falls",
      how: "derived",
    }),
  ];
}

/** The tape grabbed at full speed, with a worm that rubs and one that does not. */
function jamRows(): Row[] {
  const grabbed = (mu: number) => {
    const n = inventedDesign();
    const d = commanded(
      { ...n, feed: { ...n.feed, ...wormFriction(0.0873, mu, 0.349) } },
      { travel: 1, lead: 0, feedStart: 0, peelStart: 1, end: 0.06 },
    );
    const before = runIndex(d);
    const from = before.end.slice();
    from[zTape] = 0;
    const held: IndexDesign = { ...d, tape: { ...d.tape, sliding: 1000, sticking: 1000, preSliding: 1e8 } };
    const { lanes } = runIndex(commanded(held, { end: 0.04 }), { from });
    return {
      speed: before.lanes.wheelSpeed.at(-1)! * d.wheel.radius * 1e3,
      peak: Math.max(...lanes.hole),
      left: lanes.hole.at(-1)!,
    };
  };
  const rubbing = grabbed(0.08);
  const force = (id: string, expected: number, got: number, within: number, source: string): Row =>
    row({ id, model: "cycle.index", expected, got, near: { within }, unit: "N", source, how: "derived" });
  const notes = `${driveNotes}: tape grabbed at full speed, by a program of its own`;
  return [
    row({
      id: "index.speed of the drive alone",
      model: "cycle.index",
      expected: 90.1,
      got: rubbing.speed,
      near: { printedTo: 0.1 },
      unit: "mm/s",
      source: notes,
      how: "derived",
    }),
    force("index.jam", 65.7, rubbing.peak, 1, notes),
    force("index.jam held by its worm", 65.7, rubbing.left, 1, notes),
    force("index.jam without friction", 99.3, grabbed(0).peak, 1, notes),
    force("index.jam, second opinion", 66.0, rubbing.peak, 1, `${reviewNotes}, C15: an equation of its own`),
  ];
}

/** The numbers that stand beside checks, on the invented unit; and the rigid drive by which those are judged. */
function numberRows(): Row[] {
  const measured = measuresOf(inventedDesign(), runIndex(inventedDesign(), { tol: 1e-8 }));
  const told = { index: { measures: measured } };
  const smooth = `${cycleProgram}: Radau, rtol 1e-9, friction smoothed over 2 um/s`;
  const d = inventedDesign();
  const bare: IndexDesign = {
    ...commanded(d, { feedStart: 0, lead: 1.2e-3, end: 0.25 }),
    peel: undefined,
    film: undefined,
  };
  const alone = { time: measuresOf(bare, runIndex(bare)).wheelTime };
  const cold = { V: 12, R: 16, R_b: 0, k: 3e-3, J: 1e-8, T_0: 1.5e-4, N: 200, e: 0.5, J_w: 2.4e-5, M: 0.017, m_eq: 0 };
  const on = { r_p: (24 * 4e-3) / (2 * Math.PI), S: 8e-3, slow: false };
  const apart = `${cycleProgram}: the two equations of a rigid drive, integrated and stopped by root search`;
  return [
    row({
      id: "index.greatest speed",
      model: "cycle.speed",
      expected: 89.31,
      got: indexSpeed.value(told) * 1e3,
      near: { share: 2e-3 },
      unit: "mm/s",
      source: smooth,
      how: "derived",
    }),
    row({
      id: "index.jolt",
      model: "cycle.jolt",
      expected: 42.31,
      got: indexJolt.value(told) * 1e3,
      near: { share: 0.03 },
      unit: "mm/s",
      source: `${smooth}; 3 % for friction that truly sticks`,
      how: "derived",
    }),
    row({
      id: "index.tooth force",
      model: "cycle.hole",
      expected: 1.584,
      got: indexHole.value(told),
      near: { share: 0.02 },
      unit: "N",
      source: `${smooth}; 2 % for friction that truly sticks`,
      how: "derived",
    }),
    row({
      id: "index.pull of the nip",
      model: "cycle.tension",
      expected: 2,
      got: indexTension.value(told),
      near: { share: 1e-6 },
      unit: "N",
      source: "a nip that slips pulls its traction, by hand",
      how: "derived",
    }),
    row({
      id: "index.wheel stands",
      model: "cycle.time",
      expected: 80.172,
      got: indexTime.value({ index: alone }) * 1e3,
      near: { within: 0.2 },
      unit: "ms",
      source: `${smooth}, without a film, lead 1.2 mm; 0.2 ms for friction that truly sticks and the tolerance of the steps`,
      how: "derived",
    }),
    row({
      id: "rigid.time",
      model: "cycle.rigid-time",
      expected: 67.0987,
      got: rigidTime.value({ ...cold, ...on, t_0: 0 }) * 1e3,
      near: { within: 0.1 },
      unit: "ms",
      source: `${apart}; 0.1 ms for the last 10 um, taken as slowed down evenly`,
      how: "derived",
    }),
    row({
      id: "rigid.shift by volts and heat",
      model: "cycle.shift-by-volts",
      expected: 245.009,
      got: shiftByVolts.value({ cold, hot: { ...cold, V: 11.2, R: 20, k: 2.7e-3 }, ...on }) * 1e6,
      near: { within: 0.05 },
      unit: "um",
      source: apart,
      how: "derived",
    }),
    row({
      id: "rigid.shift by drag",
      model: "cycle.shift-by-drag",
      expected: 142.911,
      got: shiftByDrag.value({ cold, h: 4 / 17, ...on }) * 1e6,
      near: { within: 0.05 },
      unit: "um",
      source: apart,
      how: "derived",
    }),
    row({
      id: "index.half a count",
      model: "cycle.count-error",
      expected: 40,
      got: countError.value({ pi: Math.PI, r_p: (24 * 4e-3) / (2 * Math.PI), c: 1200 }) * 1e6,
      near: { share: 1e-12 },
      unit: "um",
      source: "96 mm a turn over 1200 counts, half of it, by hand",
      how: "derived",
    }),
  ];
}

/** One index in time. */
export const cycleRows = (): Row[] => [...wholeRows(), ...partRows(), ...jamRows(), ...numberRows()];
