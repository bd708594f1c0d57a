import {
  barResistance,
  brushes,
  cableResistance,
  contactsCarry,
  farVolts,
  filmTorque,
  firstDip,
  floorSag,
  freeRotorSpeed,
  greatestTorqueCurrent,
  heats,
  hop,
  hopHeight,
  knockSpeed,
  liftingCharge,
  linearJunction,
  motors,
  peakCurrent,
  plugCurrent,
  plugPeak,
  regenerated,
  rotorPoles,
  runawayCurrent,
  runUps,
  setCurrentRise,
  setTorqueRise,
  setVoltsRise,
  tippingSpeed,
  traceRise,
  twoNodes,
  warmShift,
  wormEfficiency,
} from "@tapeworthy/core";
import { driveNotes, driveProgram, type How, type Near, type Row, reviewNotes, row } from "./row.ts";

const { feed } = motors;
const degrees = (d: number) => (d * Math.PI) / 180;
const copper = 0.00393;
const fromMemory = "Shigley, Mechanical Engineering Design, table of worm gear efficiency";
const gearSheet = "data sheet of 10 x 12 mm gear motors, table of May 2018 and the page of a 75.81:1 type for 12 V";

interface Figure {
  readonly id: string;
  readonly model: string | { readonly id: string };
  readonly expected: number;
  readonly got: number;
  readonly near: Near;
  readonly unit?: string;
  readonly source: string;
  readonly how: How;
}
const figure = ({ model, ...rest }: Figure): Row =>
  row({ model: typeof model === "string" ? model : model.id, ...rest });

function motorRows(): Row[] {
  const [V_s, I_0, I_s, N_h] = [12, 0.08, 0.75, 75.81];
  const R = feed.resistance.value({ V_s, I_s });
  const k = feed.constant.value({ V_s, I_0, R, N_h, w_0: (450 * 2 * Math.PI) / 60 });
  // 1 kgf cm, standard gravity.
  const e_h = feed.headEfficiency.value({ M_s: 0.0980665, N_h, k, I_s, I_0 });
  const sheet = (what: string, model: { id: string }, expected: number, got: number, unit: string): Row =>
    figure({
      id: `motor.12 V, 75.81 to 1, ${what}`,
      model,
      expected,
      got,
      near: { share: 0.01 },
      unit,
      source: `${gearSheet}: 12 V, 450 rpm, 0.08 A, 0.75 A, 1.0 kg cm; a hundredth`,
      how: "read",
    });
  const table = [
    [29.86, 450, 2.9, 0.696],
    [100.37, 130, 7.4, 0.513],
    [297.92, 45, 20, 0.48],
    [986.41, 13, 55, 0.381],
  ] as const;
  return [
    sheet("resistance", feed.resistance, 16, R, "ohm"),
    sheet("constant", feed.constant, 3.0, k * 1e3, "mN m/A"),
    sheet("gear head", feed.headEfficiency, 0.643, e_h, "1"),
    ...table.map(([ratio, rpm, kgmm, expected]) => {
      const resistance = feed.resistance.value({ V_s: 6, I_s: 0.36 });
      const constant = feed.constant.value({
        V_s: 6,
        I_0: 0.02,
        R: resistance,
        N_h: ratio,
        w_0: (rpm * 2 * Math.PI) / 60,
      });
      return figure({
        id: `motor.6 V, ${ratio} to 1, gear head`,
        model: feed.headEfficiency,
        expected,
        got: feed.headEfficiency.value({ M_s: kgmm * 9.80665e-3, N_h: ratio, k: constant, I_s: 0.36, I_0: 0.02 }),
        near: { within: 0.01 },
        source: `${gearSheet}: 6 V, ${rpm} rpm, ${kgmm} kg mm, 0.02 and 0.36 A`,
        how: "read",
      });
    }),
    ...([0, 1] as const).map((i) =>
      figure({
        id: `motor.poles ${i + 1}`,
        model: runUps.feed.mechanical,
        expected: [-9.9975, -2.0025][i]!,
        got: rotorPoles(1, 0.5, 0.01, 0.01, 0.1).real[i]!,
        near: { within: 5e-4 },
        unit: "1/s",
        source: "a well-known university tutorial on the control of a motor: J 0.01, b 0.1, K 0.01, R 1, L 0.5",
        how: "memory",
      }),
    ),
    figure({
      id: "motor.free rotor after 20 ms",
      model: runUps.feed.mechanical,
      expected: 2251.864,
      got: freeRotorSpeed(10, 16, 1.5e-3, 3e-3, 1e-8, 0.02),
      near: { within: 0.01 },
      unit: "rad/s",
      source: `${driveNotes}: 10 V, 16 ohm, 1.5 mH, 3 mV s, 1e-8 kg m2; ${driveProgram} by steps in time`,
      how: "derived",
    }),
    figure({
      id: "motor.free rotor that rings",
      model: runUps.feed.mechanical,
      expected: 1382.7928,
      got: freeRotorSpeed(10, 2, 4e-3, 6e-3, 4e-9, 0.005),
      near: { within: 0.01 },
      unit: "rad/s",
      source: `${driveProgram}: 10 V, 2 ohm, 4 mH, 6 mV s, 4e-9 kg m2, steps in time`,
      how: "derived",
    }),
    ...([0.2, 0.35] as const).map((mu) =>
      figure({
        id: `drive.bushes cost torque, friction ${mu}`,
        model: filmTorque,
        expected: mu === 0.2 ? 27 : 47,
        got: (bushShare(mu) - 1) * 100,
        near: { printedTo: 1 },
        unit: "%",
        source: `${reviewNotes}, B6: shafts of 2 mm in a nip of 5 mm; grip 0.6 of the force, as its figures imply`,
        how: "derived",
      }),
    ),
  ];
}
/** Torque with bushes over torque without, a nip of 5 mm whose grip is 0.6 of the force between its rollers, shafts of 2 mm. */
const bushShare = (mu_b: number): number =>
  filmTorque.value({ F: 0.6, r_1: 5, mu_b, N_r: 1, r_b: 2 }) /
  filmTorque.value({ F: 0.6, r_1: 5, mu_b: 0, N_r: 1, r_b: 2 });

function wormRows(): Row[] {
  const efficiency = (f: number, a: number, l: number) => wormEfficiency(degrees(l), degrees(a), f);
  const remembered = (l: number, expected: number): Row =>
    figure({
      id: `worm.lead ${l} deg`,
      model: feed.wormForward,
      expected,
      got: efficiency(0.05, 14.5, l),
      near: { within: 0.006 },
      source: `${fromMemory}: friction 0.05, pressure angle 14.5 deg; 0.006 for the figure remembered`,
      how: "memory",
    });
  const limit = (mu: number, expected: number): Row =>
    figure({
      id: `worm.efficiency where it just locks, friction ${mu}`,
      model: feed.wormForward,
      expected,
      got: wormEfficiency(Math.atan(mu / Math.cos(degrees(20))), degrees(20), mu),
      near: { within: 0.002 },
      source: `${driveNotes}: friction is cos(20 deg) tan(lead)`,
      how: "derived",
    });
  const flank = (l: number, a: number, mu: number, way: "forward" | "backward", expected: number): Row => {
    const model = way === "forward" ? feed.wormForward : feed.wormBackward;
    return figure({
      id: `worm.${way}, lead ${l}, friction ${mu}`,
      model,
      expected,
      got: model.value({ lambda: degrees(l), alpha_n: degrees(a), mu_w: mu }),
      near: { within: 1e-6 },
      source: `${driveProgram}: forces on a flank of pressure angle ${a} deg in three dimensions`,
      how: "derived",
    });
  };
  return [
    remembered(1, 0.252),
    remembered(5, 0.626),
    remembered(10, 0.766),
    remembered(30, 0.891),
    figure({
      id: "worm.example with two starts",
      model: feed.wormForward,
      expected: 0.839,
      got: efficiency(0.03, 14.5, 9.46),
      near: { within: 0.003 },
      source: "Shigley, Mechanical Engineering Design, worked worm example: lead angle 9.46 deg, friction 0.03",
      how: "memory",
    }),
    figure({
      id: "worm.diameter from its lead angle",
      model: feed.wormDiameter,
      expected: 2,
      got: feed.wormDiameter.value({ m: 1.5708 / Math.PI, n_w: 1, lambda: degrees(14.04) }),
      near: { within: 0.0015 },
      unit: "in",
      source:
        "Mott, Machine Elements in Mechanical Design, 4th ed., p. 343: lead 1.5708 in on 2.000 in is 14.04 deg; its last digit",
      how: "read",
    }),
    limit(0.05, 0.499),
    limit(0.25, 0.465),
    flank(4.5, 20, 0.12, "forward", 0.377469),
    flank(4.5, 20, 0.12, "backward", -0.616404),
    flank(9, 14.5, 0.05, "forward", 0.747937),
    flank(9, 14.5, 0.05, "backward", 0.668458),
    figure({
      id: "worm.friction at which 4.5 deg passes on 45 %",
      model: feed.wormForward,
      expected: 0.45,
      got: efficiency(0.089, 20, 4.5),
      near: { within: 0.0005 },
      source: `${reviewNotes}, C16: tips at a friction of 0.089, its last digit`,
      how: "derived",
    }),
    figure({
      id: "worm.4.0 deg locks at friction 0.08",
      model: feed.wormForward,
      expected: 0.448278,
      got: efficiency(0.08, 20, 4),
      near: { within: 1e-6 },
      source: `${driveProgram}; ${reviewNotes}, C16: a lead of 4.0 deg cures`,
      how: "derived",
    }),
  ];
}

function heatRows(): Row[] {
  const torque = heats.feed.running;
  const held = heats.feed.heldFast;
  const still = { f: 0, J: 1e-8, V: 10, k: 3e-3 } as const;
  const rise = (I: number) => torque.value({ R_t: 65, R: 16, I, d: 1, a: copper, b: 0.002, ...still });
  const repeated = (I: number, expected: number): Row[] =>
    (["motor.feed-rise", "motor.peel-rise"] as const).map((model) =>
      figure({
        id: `heat.set torque, ${I} A cold, ${model === "motor.feed-rise" ? "feed" : "peel"}`,
        model,
        expected,
        got: (model === "motor.feed-rise" ? heats.feed : heats.peel).running.value({
          R_t: 65,
          R: 16,
          I,
          d: 1,
          a: copper,
          b: 0.002,
          ...still,
        }),
        near: { within: 1e-4 },
        unit: "K",
        source: `${driveProgram}: the balance repeated until it stands; 16 ohm, 65 K/W, magnets 0.2 %/K`,
        how: "derived",
      }),
    );
  return [
    figure({
      id: "heat.set current 0.25 A",
      model: "motor.feed-stall-rise",
      expected: 87.3,
      got: setCurrentRise(0.25, 16, 65, copper),
      near: { within: 0.1 },
      unit: "K",
      source: `${driveNotes}: 16 ohm, 65 K/W`,
      how: "derived",
    }),
    figure({
      id: "heat.set current, resistance held cold",
      model: "motor.feed-stall-rise",
      expected: 65,
      got: setCurrentRise(0.25, 16, 65, 0),
      near: { within: 1e-9 },
      unit: "K",
      source: `${driveNotes}: the same with copper that does not change`,
      how: "derived",
    }),
    figure({
      id: "heat.runaway current",
      model: "motor.feed-stall-rise",
      expected: 0.495,
      got: runawayCurrent(16, 65, copper),
      near: { printedTo: 0.001 },
      unit: "A",
      source: `${driveNotes}: 16 ohm, 65 K/W`,
      how: "derived",
    }),
    figure({
      id: "heat.set volts, 6 V",
      model: "motor.feed-stall-rise",
      expected: 104,
      got: setVoltsRise(6, 16, 65, copper),
      near: { printedTo: 1 },
      unit: "K",
      source: `${reviewNotes}, C17: held fast at 6 V`,
      how: "derived",
    }),
    figure({
      id: "heat.set volts, 6 V, by repetition",
      model: "motor.feed-stall-rise",
      expected: 103.85862,
      got: held.value({ R_t: 65, R: 16, V: 6, a: copper }),
      near: { within: 1e-4 },
      unit: "K",
      source: driveProgram,
      how: "derived",
    }),
    figure({
      id: "heat.set volts, 6 V, by repetition, peel",
      model: "motor.peel-stall-rise",
      expected: 103.85862,
      got: heats.peel.heldFast.value({ R_t: 65, R: 16, V: 6, a: copper }),
      near: { within: 1e-4 },
      unit: "K",
      source: driveProgram,
      how: "derived",
    }),
    figure({
      id: "heat.greatest current of a set torque",
      model: "motor.feed-rise",
      expected: 0.213,
      got: greatestTorqueCurrent(16, 65, copper, 0.002),
      near: { printedTo: 0.001 },
      unit: "A",
      source: `${reviewNotes}, C17; magnets 0.2 %/K`,
      how: "derived",
    }),
    figure({
      id: "heat.current for a rise of 100 K",
      model: "motor.feed-rise",
      expected: 100,
      got: rise(0.21),
      near: { within: 1.6 },
      unit: "K",
      source: `${reviewNotes}, C17: 0.210 A, its last digit`,
      how: "derived",
    }),
    figure({
      id: "heat.copper alone",
      model: "motor.feed-rise",
      expected: 100,
      got: setTorqueRise(65 * 16 * 0.263 ** 2, copper, 0),
      near: { within: 1.1 },
      unit: "K",
      source: `${reviewNotes}, C17: 0.263 A without the magnets, its last digit`,
      how: "derived",
    }),
    figure({
      id: "heat.starts and stops with a set torque",
      model: "motor.feed-rise",
      expected: 56.28585,
      got: heats.feed.running.value({
        R_t: 65,
        R: 16,
        I: 0.15,
        d: 1,
        a: copper,
        b: 0.002,
        f: 4,
        J: 1e-8,
        V: 10,
        k: 3.60555127546e-3,
      }),
      near: { within: 1e-4 },
      unit: "K",
      source: `${driveProgram}: the same with 20 K besides, 4 starts a second of 77 mJ`,
      how: "derived",
    }),
    ...repeated(0.15, 29.48709),
    ...repeated(0.2, 73.93949),
    ...repeated(0.21, 99.21491),
    ...([0, 1] as const).map((i) =>
      figure({
        id: `heat.two nodes, ${i === 0 ? "fast" : "slow"}`,
        model: heats.feed.toAir,
        expected: [24.97, 432.5][i]!,
        got: twoNodes(20, 45, 1.5, 8)[i]!,
        near: { within: 0.1 },
        unit: "s",
        source: `${driveNotes}: 20 and 45 K/W, 1.5 and 8 J/K; ${driveProgram} by eigenvalues`,
        how: "derived",
      }),
    ),
    figure({
      id: "heat.held fast for 0.2 s",
      model: "motor.feed-stall-rise",
      expected: 0.82921,
      got: held.value({ R_t: 65, R: 16, V: 10, a: copper, t_s: 0.2, C_w: 1.5 }),
      near: { share: 0.006 },
      unit: "K",
      source: `${driveProgram}: 10 V, steps in time with leak and warming, which the model leaves out: 1 in 170 above`,
      how: "derived",
    }),
  ];
}

function brushRows(): Row[] {
  const last = (V: number, minutes: number): Row =>
    figure({
      id: `brush.life at ${V} V from that at 5 V`,
      model: brushes.feed,
      expected: minutes / 60,
      got: brushes.feed.value({ t_b: 15 * 60 + 31, V, V_s: 5, m: 6, t_i: 60 }),
      near: { share: 0.06 },
      unit: "h",
      source:
        "a maker's trial of one small motor: 15 h 31 at 5 V, 5 h 28 at 6 V, 1 h 44 at 7.2 V, one motor a point; 6 in 100 for that",
      how: "read",
    });
  return [last(6, 328), last(7.2, 104)];
}

function supplyRows(): Row[] {
  const mil = 25.4e-6;
  const trace = (id: string, I: number, mils: number, c: number, expected: number, near: Near, how: How): Row =>
    figure({
      id: `trace.${id}`,
      model: traceRise,
      expected,
      got: traceRise.value({ I, c, w: mils * mil, t: 35e-6 * (35.0012 / 35) }),
      near,
      unit: "K",
      source: `IPC-2221 fit as a semiconductor maker's calculator quotes it: ${mils} mil of 35 um copper for ${I} A`,
      how,
    });
  const wire = (gauge: number, diameter: number, expected: number): Row =>
    figure({
      id: `wire.${gauge} gauge`,
      model: cableResistance,
      expected,
      got: cableResistance.value({ rho: 1.72e-8, l: 0.5, A: (Math.PI / 4) * (diameter * 1e-3) ** 2 }),
      near: { printedTo: 1e-4 },
      unit: "ohm/m",
      source: `${driveNotes}: copper at 20 degC, ${diameter} mm; one conductor of 1 m is there and back over half`,
      how: "derived",
    });
  const ring = (id: string, V: number, R: number, L: number, C: number, volts: number, amperes: number): Row[] => [
    figure({
      id: `plug.volts, ${id}`,
      model: plugPeak,
      expected: volts,
      got: plugPeak.value({ V, R, L, C }),
      near: { share: 2e-4 },
      unit: "V",
      source: `${driveProgram}: series circuit by steps in time; it stops short of an endless approach`,
      how: "derived",
    }),
    figure({
      id: `plug.current, ${id}`,
      model: "supply.plug-current",
      expected: amperes,
      got: plugCurrent.value({ V, R, L, C: [C] }),
      near: { share: 1e-4 },
      unit: "A",
      source: `${driveProgram}: series circuit by steps in time`,
      how: "derived",
    }),
  ];
  const rail = (starting: number, expected: number): Row =>
    figure({
      id: `rail.40 units, ${starting} starting`,
      model: farVolts,
      expected,
      got: farVolts.value({
        V: 10,
        I_t: starting * 1.25 + (40 - starting) * 0.12,
        R_f: cableResistance.value({ rho: 1.72e-8, l: 1.5, A: 4e-6 }),
        n: 40,
        n_s: starting,
        I_1: 1.25,
        I_u: 0.12,
        R_r: barResistance.value({ rho: 1.72e-8, l: 0.7, A: 4e-6 }),
        R_c: 0,
        n_p: 1,
      }),
      near: { printedTo: 1e-5 },
      unit: "V",
      source: `${driveProgram}: ladder of forty pieces by linear equations`,
      how: "derived",
    });
  return [
    trace("1 A outside", 1, 11.83, 0.048, 10, { share: 0.008 }, "read"),
    trace("1 A inside", 1, 30.76, 0.024, 10, { share: 0.003 }, "read"),
    trace("5 A outside", 5, 71.5, 0.048, 20, { share: 0.005 }, "derived"),
    figure({
      id: "contacts.two pairs",
      model: contactsCarry,
      expected: 4.8,
      got: contactsCarry.value({ I_p: 3, n_p: 2 }),
      near: { within: 0.01 },
      unit: "A",
      source: "a design note on derating connector pins: 3 A each, 20 % for every doubling",
      how: "read",
    }),
    figure({
      id: "contacts.four pairs",
      model: contactsCarry,
      expected: 7.68,
      got: contactsCarry.value({ I_p: 3, n_p: 4 }),
      near: { within: 0.01 },
      unit: "A",
      source: "the same note",
      how: "read",
    }),
    wire(24, 0.511, 0.0839),
    wire(22, 0.6438, 0.0528),
    wire(20, 0.8118, 0.0332),
    wire(18, 1.0237, 0.0209),
    figure({
      id: "plug.overshoot",
      model: plugPeak,
      expected: 16.7,
      got: plugPeak.value({ V: 10, R: 0.08, L: 1e-6, C: 10e-6 }),
      near: { printedTo: 0.1 },
      unit: "V",
      source: `${reviewNotes}, C18: 10 V, 10 uF of ceramic, 80 mohm, 1 uH`,
      how: "derived",
    }),
    figure({
      id: "plug.doubled without damping",
      model: plugPeak,
      expected: 20,
      got: plugPeak.value({ V: 10, R: 0, L: 1e-6, C: 10e-6 }),
      near: { within: 1e-9 },
      unit: "V",
      source: "a converter maker's note on ceramic capacitors plugged in live: up to twice the volts",
      how: "read",
    }),
    figure({
      id: "plug.bulk through 1 uH",
      model: "supply.plug-current",
      expected: 51,
      got: peakCurrent(10, 0.15, 1e-6, 220e-6),
      near: { printedTo: 1 },
      unit: "A",
      source: `${reviewNotes}, C18: 0.15 ohm`,
      how: "derived",
    }),
    figure({
      id: "plug.bulk without inductance",
      model: "supply.plug-current",
      expected: 67,
      got: peakCurrent(10, 0.15, 1e-12, 220e-6),
      near: { printedTo: 1 },
      unit: "A",
      source: `${driveNotes}: 10 V over 0.15 ohm`,
      how: "derived",
    }),
    ...ring("10 uF, 80 mohm, 1 uH", 10, 0.08, 1e-6, 10e-6, 16.69917, 26.3048),
    ...ring("220 uF, 150 mohm, 1 uH", 10, 0.15, 1e-6, 220e-6, 10, 50.7479),
    ...ring("220 uF, 30 mohm, 0.5 uH", 10, 0.03, 0.5e-6, 220e-6, 13.52971, 138.5716),
    figure({
      id: "supply.bulk for a dip of 0.2 V",
      model: firstDip,
      expected: 0.2,
      got: firstDip.value({ I_1: 1.25, t_l: 50e-6, C: 313e-6 }),
      near: { share: 0.002 },
      unit: "V",
      source: `${driveNotes}: 1.25 A for 50 us into 313 uF, its last digit`,
      how: "derived",
    }),
    figure({
      id: "supply.energy of a rotor",
      model: regenerated,
      expected: 22,
      got: regenerated.value({ V: 10, J: 1e-8, k: 10 / 3000, C: 220e-6 }),
      near: { within: 0.6 },
      unit: "V",
      source: `${driveNotes}: 45 mJ at 3000 rad/s into 220 uF at 10 V, rounded down there`,
      how: "derived",
    }),
    figure({
      id: "supply.linear regulator",
      model: linearJunction,
      expected: 0.54,
      got: linearJunction.value({ T_a: 0, V: 10, V_o: 3.3, I: 0.08, R_t: 1 }),
      near: { printedTo: 0.01 },
      unit: "W",
      source: `${driveNotes}: 10 to 3.3 V at 80 mA`,
      how: "derived",
    }),
    rail(4, 9.83877),
    rail(40, 9.20074),
  ];
}

function partRows(): Row[] {
  const page = (n: number, f: number, expected: number, printedTo: number): Row =>
    figure({
      id: `part.hop of ${n} g at ${f} Hz`,
      model: "part.hop",
      expected,
      got: hop(n, f, 9.81) * 1e6,
      near: { printedTo },
      unit: "um",
      source: `${driveNotes}, section 7`,
      how: "derived",
    });
  const stone = (n: number, f: number, expected: number): Row =>
    figure({
      id: `part.flight of ${n} g at ${f} Hz`,
      model: "part.hop",
      expected,
      got: hopHeight.value({ n, f, g: 9.80665 }) * 1e6,
      near: { printedTo: 1e-3 },
      unit: "um",
      source: `${driveProgram}: sine and stone by steps in time`,
      how: "derived",
    });
  const tip = (L: number, H: number, expected: number, swung: number): Row[] =>
    [expected, swung].map((value, i) =>
      figure({
        id: `part.tips ${L} x ${H} mm${i === 0 ? "" : ", swung"}`,
        model: tippingSpeed,
        expected: value,
        got: tippingSpeed.value({ g: 9.80665, L: L * 1e-3, H: H * 1e-3 }) * 1e3,
        near: i === 0 ? { printedTo: 1 } : { share: 2e-4 },
        unit: "mm/s",
        source: i === 0 ? `${driveNotes}, section 7` : `${driveProgram}: a block swung over its foot by steps in time`,
        how: "derived",
      }),
    );
  const cling = (id: string, m: number, l_p: number, w_p: number, expected: number): Row =>
    figure({
      id: `part.clings ${id}`,
      model: liftingCharge,
      expected,
      got: liftingCharge.value({ e_0: 8.8541878e-12, m: m * 1e-6, g: 9.80665, l_p: l_p * 1e-3, w_p: w_p * 1e-3 }) * 1e6,
      near: { share: 0.08 },
      unit: "uC/m2",
      source: `${driveNotes}, section 7; the chip's mass is remembered: 8 in 100 for that`,
      how: "memory",
    });
  const floor = (a: number, expected: number): Row =>
    figure({
      id: `pocket.floor of ${a} mm`,
      model: "pocket.sag",
      expected,
      got: 1e3 * floorSag.value({ F: 1, A_0: a * 1e-3, B_0: 1.5e-3 * a, t: 0.2e-3, E: 1.9e9, nu: 0.35, g_u: 1 }),
      near: { printedTo: 0.01 },
      unit: "mm/N",
      source: `${reviewNotes}, B5: 0.2 mm thick, 1.9 GPa`,
      how: "derived",
    });
  const shift = (id: string, frame: number, carrier: number, expected: number): Row =>
    figure({
      id: `pick.warms ${id}`,
      model: warmShift,
      expected,
      got:
        warmShift.value({
          x_p: 0,
          x_d: -0.06,
          a_f: frame,
          dT: 15,
          q_w: 0,
          a_t: carrier,
          s_w: 0.014,
          s_p: 0,
        }) * 1e6,
      near: { within: 0.51 },
      unit: "um",
      source: `${reviewNotes}, B4: 15 K, 60 mm to the datum, 14 mm to the wheel; its last digit, 58.5 printed as 58`,
      how: "derived",
    });
  return [
    page(2, 100, 62, 1),
    page(2, 300, 7, 1),
    page(2, 1000, 0.6, 0.1),
    page(5, 100, 323, 1),
    page(5, 300, 36, 1),
    page(5, 1000, 3, 1),
    page(10, 100, 1255, 1),
    page(10, 300, 139, 1),
    page(10, 1000, 13, 1),
    stone(2, 100, 62.101),
    stone(5, 100, 322.927),
    stone(10, 100, 1254.447),
    ...tip(0.6, 0.3, 156, 155.703),
    ...tip(1.6, 0.8, 254, 254.262),
    ...tip(1.0, 0.35, 292, 291.559),
    cling("0.6 x 0.3 mm", 0.23, 0.6, 0.3, 15),
    cling("2.0 x 1.25 mm", 12, 2.0, 1.25, 29),
    floor(10, 0.29),
    floor(16, 0.49),
    floor(24, 0.72),
    shift("frame of PETG", 65e-6, 0, 58),
    shift("carrier", 0, 85e-6, 18),
    figure({
      id: "part.knocks",
      model: knockSpeed,
      expected: 98.9,
      got: knockSpeed.value({ dv: 0.2, mu_p: 0.2039432, g: 9.80665, A_0: 2.0247e-3, l_p: 2e-3 }) * 1e3,
      near: { share: 1e-4 },
      unit: "mm/s",
      source: "200 m/s2 less 2 m/s2 of friction over 24.7 um: root of 2 by 198 by 24.7e-6, by hand",
      how: "derived",
    }),
  ];
}

/** Motors, worms, heat, brushes, supply, parts in open pockets. */
export const driveRows = (): Row[] => [
  ...motorRows(),
  ...wormRows(),
  ...heatRows(),
  ...brushRows(),
  ...supplyRows(),
  ...partRows(),
];
