import {
  bearingWidth,
  effectiveOpening,
  feasibleInterval,
  fewestTeeth,
  fittingThickness,
  flankSlope,
  halfStepError,
  holeStrength,
  leastPlay,
  neutralRadius,
  pitchRadius,
  rootBetween,
  sidePlayOnTooth,
  sprocketTip,
  type ToothedWheel,
  type ToothOutline,
  tear,
  teethInTape,
  tipHalfWidth,
  tipRoom,
  toothInWrap,
  toothOutline,
  transmissionError,
  wrapPlay,
} from "@tapeworthy/core";
import { driveNotes, type Row, reviewNotes, row, sprocketProgram } from "./row.ts";

const pi = Math.PI;
const rad = pi / 180;
const film1927 = "Society of Motion Picture Engineers, Transactions, Aug. 1927 (vol. XI no. 29), pp. 409-410";
const film1930 = "Journal SMPE 15 (Sept. 1930), p. 311";

/** Lengths in inches where the source has inches, else in mm. */
function filmRows(): Row[] {
  const base = (z: number, P: number, s: number, F: number) => 2 * pitchRadius.value({ z, P_w: P * (1 - s), pi }) - F;
  const meshes = (B: number, z: number, P: number, F: number) =>
    1 - (neutralRadius.value({ r_b: B / 2, u: 0.5, T: F }) * 2 * pi) / (z * P);
  const limit = (h: number, t: number, K: number, P: number, s0: number) =>
    rootBetween(
      (s) =>
        wrapPlay.value({
          D_e: h * (1 - s),
          l_t: t,
          alpha: (K * 2 * pi) / 16,
          z: 16,
          P: P * (1 - s),
          r_n: (16 * P * (1 - s0)) / (2 * pi),
          pi,
        }),
      0.005,
      0.1,
      1e-12,
    ) ?? Number.NaN;
  return [
    row({
      id: "sprocket.take-up film sprocket of 1927",
      model: "sprocket.pitch-radius",
      expected: 0.9321,
      got: base(16, 0.187, 0.015, 0.006),
      near: { within: 1e-4 },
      unit: "in",
      source: `${film1927}: base diameter, 16 teeth, shrinkage 1.5 %; pitch 0.187 in and film 0.006 in from memory`,
      how: "read",
    }),
    row({
      id: "sprocket.wide film sprocket of 1930",
      model: "sprocket.neutral-radius",
      expected: 0.1844,
      got: (neutralRadius.value({ r_b: 1.1679 / 2, u: 0.5, T: 0.006 }) * 2 * pi) / 20,
      near: { printedTo: 1e-4 },
      unit: "in",
      source: `${film1930}: circular pitch on a base of 1.1679 in, 20 teeth: the pitch circle is the film's mid plane`,
      how: "read",
    }),
    row({
      id: "sprocket.perfect mesh at 0.943 in",
      model: "sprocket.neutral-radius",
      expected: 0.0036,
      got: meshes(0.943, 16, 0.187, 0.006),
      near: { within: 2e-4 },
      source: "Theatre catalog 1952: sprockets of 0.935 and 0.943 in (diameters read); shrinkage at which they mesh",
      how: "derived",
    }),
    row({
      id: "sprocket.film it fits",
      model: "sprocket.fitting-thickness",
      expected: 0.006,
      got: fittingThickness.value({ z: 16, P: 0.187 * (1 - 0.015), r_b: 0.9321 / 2, u: 0.5, pi }),
      near: { within: 1e-4 },
      unit: "in",
      source: `${film1927}: the same sprocket, solved for the film's thickness`,
      how: "read",
    }),
    row({
      id: "sprocket.limit of shrinkage 1927",
      model: "sprocket.wrap-play",
      expected: 0.0292,
      got: limit(0.073, 0.05, 4, 0.187, 0.0013),
      near: { within: 2e-4 },
      source: `${film1927}: 2.92 %; height of the hole from memory, tooth 0.050 in and 4 pitches inferred`,
      how: "read",
    }),
  ];
}

function openingRows(): Row[] {
  const one = (id: string, D: number, b: number, y: number, rc: number, expected: number, source: string) =>
    row({
      id: `sprocket.${id}`,
      model: "sprocket.opening",
      expected,
      got: effectiveOpening(D, b, y, rc),
      near: { within: 2e-4 },
      unit: "mm",
      source,
      how: "derived",
    });
  const front = (id: string, b: number, rc: number, expected: number, source: string, printedTo = 1e-4) =>
    row({
      id: `sprocket.${id}`,
      model: "hole.bearing-width",
      expected,
      got: bearingWidth(1.5, b, rc, 0.06),
      near: { printedTo },
      unit: "mm",
      source,
      how: "derived",
    });
  const strength = (id: string, b: number, rc: number, s: number, expected: number) =>
    row({
      id: `sprocket.${id}`,
      model: "hole.strength",
      expected,
      got: holeStrength.value({ s_b: s, T: 0.3, w_c: bearingWidth(1.5, b, rc, 0.06) }),
      near: { printedTo: 0.1 },
      unit: "N",
      source: `${reviewNotes}, A7: polystyrene of 0.3 mm at ${s} MPa`,
      how: "derived",
    });
  return [
    one("opening", 1.5, 0.8, 0, 0, 1.2689, `${driveNotes}, 2.1: 2 sqrt(0.75^2 - 0.4^2)`),
    one("opening off centre", 1.5, 0.8, 0.2, 0, 0.9, `${driveNotes}, 2.1`),
    one("opening, round-ended off centre", 1.5, 0.8, 0.2, 0.4, 1.37446, `${sprocketProgram}: points of its outline`),
    one("opening, rounded corners", 1.5, 0.6, 0.15, 0.1, 1.29545, `${sprocketProgram}: points of its outline`),
    ...(
      [
        [0.54, 0],
        [0.34, 0.1],
        [0.14, 0.2],
      ] as const
    ).map(([b, y]) =>
      row({
        id: `sprocket.thickest tooth of 1.40 mm ${y} mm off`,
        model: "sprocket.opening",
        expected: b,
        got: rootBetween((t) => effectiveOpening(1.5, t, y, 0) - 1.4, 0.01, 1.2, 1e-12) ?? Number.NaN,
        near: { printedTo: 0.01 },
        unit: "mm",
        source: `${reviewNotes}, A6`,
        how: "derived",
      }),
    ),
    row({
      id: "sprocket.side play",
      model: "sprocket.side-play",
      expected: 0.22,
      got: sidePlayOnTooth.value({ D_0: 1.5, t_a: 1.1, t_c: 0.8, r_c: 0 }),
      near: { printedTo: 0.01 },
      unit: "mm",
      source: `${reviewNotes}, A6: tooth of 1.10 by 0.8 mm`,
      how: "derived",
    }),
    row({
      id: "sprocket.room of a tip",
      model: "sprocket.tip-room",
      expected: 0.535,
      got: tipRoom.value({ D_0: 1.5, w_t: 0.15, t_t: 0.4, r_c: 0, y_w: 0 }) / 2,
      near: { printedTo: 0.001 },
      unit: "mm",
      source: `${reviewNotes}, A6: tip of 0.30 by 0.4 mm, by hand`,
      how: "derived",
    }),
    front("square front", 0.8, 0, 0.23, `${reviewNotes}, A7`, 0.01),
    front("square front by strips", 0.8, 0, 0.2334, sprocketProgram),
    front("corners of 0.15 mm by strips", 0.8, 0.15, 0.7935, sprocketProgram),
    front("round front by strips", 0.8, 0.4, 0.5596, sprocketProgram),
    front("corners of 0.30 mm by strips", 0.7, 0.3, 0.5699, sprocketProgram),
    front("round pin by strips", 1.2, 0.6, 0.9333, sprocketProgram),
    strength("square front, weak", 0.8, 0, 25, 1.8),
    strength("square front, strong", 0.8, 0, 45, 3.2),
    strength("round front, weak", 0.8, 0.4, 25, 4.2),
    strength("round front, strong", 0.8, 0.4, 45, 7.6),
    row({
      id: "sprocket.tear of a jam",
      model: "hole.tear",
      expected: 10,
      got: tear.value({ e: (58 / 83.6) ** 2, J: 10e-6, N: 1000, v: 0.0901, r_p: 1, F_hole: 2 }) * 1e3,
      near: { within: 0.5 },
      unit: "mm",
      source: `${reviewNotes}, C15: 2 to 10 mm; moving mass 10 kg, 90.1 mm/s, a hole of 2 N, share of the energy from its forces 58.0 and 83.6 N`,
      how: "derived",
    }),
  ];
}

/** mm; a wheel of z teeth for tape of the thickness t. */
function wheelOf(
  z: number,
  t: number,
  outline: (rp: number, rb: number) => ToothOutline,
  more: Partial<ToothedWheel> = {},
): ToothedWheel {
  const rp = (z * 4) / (2 * pi);
  const baseRadius = rp - t / 2;
  return {
    teeth: z,
    baseRadius,
    thickness: t,
    neutral: 0.5,
    pitch: 4,
    opening: 2 * Math.sqrt(0.75 ** 2 - 0.4 ** 2),
    wrap: 0,
    outline: outline(rp, baseRadius),
    ...more,
  };
}
const straight =
  (flank: number, half = 0.55, tip = 1.2, rounding = 0) =>
  (rp: number, rb: number) =>
    toothOutline({
      shape: "straight",
      halfWidth: half,
      pitchRadius: rp,
      tipRadius: rb + tip,
      flank: flank * rad,
      rounding,
    });
const involute =
  (tip = 1.2, rounding = 0) =>
  (rp: number, rb: number) =>
    toothOutline({ shape: "involute", halfWidth: 0.55, pitchRadius: rp, tipRadius: rb + tip, rounding });
/** The notes' teeth: 0.55 mm half their length 0.2 mm below the tape, or at its underside. */
const noteTaper = (flank: number, tip: number) => (_: number, rb: number) =>
  toothOutline({ shape: "straight", halfWidth: 0.55, pitchRadius: rb - 0.2, tipRadius: rb + tip, flank: flank * rad });
const noteInvolute = (_: number, rb: number) =>
  toothOutline({ shape: "involute", halfWidth: 0.55, pitchRadius: rb, tipRadius: rb + 1.3 });

function sweptRows(): Row[] {
  const run = `${driveNotes}, 2.2: a sweep over 60 points of the outline`;
  const swept = (id: string, w: ToothedWheel, [play, error, half]: readonly [number, number, number]): Row[] => {
    const X = feasibleInterval(w);
    const source = `${sprocketProgram}: outlines of 6000 points at 601 angles, so its extremes fall a little short`;
    return [
      row({
        id: `sprocket.least play, ${id}`,
        model: "sprocket.least-play",
        expected: play,
        got: leastPlay.value({ X }),
        near: { within: 2e-5 },
        unit: "mm",
        source,
        how: "derived",
      }),
      row({
        id: `sprocket.transmission error, ${id}`,
        model: "sprocket.transmission-error",
        expected: error,
        got: transmissionError.value({ X }) * 1e3,
        near: { within: 0.2 },
        unit: "um",
        source,
        how: "derived",
      }),
      row({
        id: `sprocket.half step, ${id}`,
        model: "pick.half-step",
        expected: half,
        got: halfStepError.value({ X }) * 1e3,
        near: { within: 0.2 },
        unit: "um",
        source,
        how: "derived",
      }),
    ];
  };
  const error = (z: number, outline: (rp: number, rb: number) => ToothOutline) =>
    transmissionError.value({ X: feasibleInterval(wheelOf(z, 0.3, outline)) }) * 1e3;
  const noted = (id: string, expected: number, got: number) =>
    row({
      id: `sprocket.${id}`,
      model: "sprocket.transmission-error",
      expected,
      got,
      near: { within: 1 },
      unit: "um",
      source: run,
      how: "derived",
    });
  const made03 = (T: number): ToothedWheel => ({ ...wheelOf(24, 0.3, noteInvolute), thickness: T, wrap: pi / 2 });
  const rule = (T: number, l_t: number) =>
    wrapPlay.value({
      D_e: 2 * Math.sqrt(0.75 ** 2 - 0.4 ** 2),
      l_t,
      alpha: pi / 2,
      z: 24,
      P: 4,
      r_n: (24 * 4) / (2 * pi) - 0.15 + T / 2,
      pi,
    });
  const teeth = (tip: number) =>
    teethInTape.value({ r_b: 15.2789 - 0.15, o_t: 0, r_t: 15.2789 - 0.15 + tip, z: 24, pi });
  const wrapped = wheelOf(24, 0.3, straight(0), { wrap: pi / 2 });
  return [
    ...swept("straight flanks", wheelOf(24, 0.3, straight(20)), [0.059667, 57.014, 56.116]),
    ...swept("straight flanks, wrapped", wheelOf(24, 0.3, straight(20), { wrap: pi / 2 }), [0.036598, 1.731, 1.731]),
    ...swept("involute", wheelOf(24, 0.3, involute()), [0.142874, 13.102, 13.102]),
    ...swept(
      "involute, thick tape, wrapped",
      { ...wheelOf(24, 0.3, involute()), thickness: 0.6, wrap: pi / 2 },
      [-0.072456, 5.435, 5.435],
    ),
    ...swept("involute, tip rounded", wheelOf(24, 0.3, involute(1.2, 0.1)), [0.142874, 13.102, 13.102]),
    ...swept(
      "straight flanks, tip rounded, wrapped",
      wheelOf(24, 0.3, straight(15, 0.55, 1.2, 0.15), { wrap: pi / 6 }),
      [0.067931, 2.233, 2.233],
    ),
    ...swept("eight teeth", wheelOf(8, 0.3, straight(12, 0.5, 1.05), { opening: 1.4 }), [0.292801, 116.367, 103.579]),
    ...swept(
      "long pitch",
      wheelOf(24, 0.3, straight(22, 0.55, 1.1), { pitch: 4.02, opening: 1.494 }),
      [0.26894, 65.959, 65.047],
    ),
    noted("error of 15 deg flanks, 40 teeth", 25, error(40, noteTaper(15, 1.3))),
    noted("error of 15 deg flanks, 16 teeth", 68, error(16, noteTaper(15, 1.3))),
    noted("error of an involute, 40 teeth", 9, error(40, involute(1.15))),
    noted("error of an involute, 16 teeth", 17, error(16, involute(1.15))),
    ...(
      [
        [0.6, -0.067, 0.003],
        [1.1, -0.46, 0.003],
      ] as const
    ).map(([T, expected, within]) =>
      row({
        id: `sprocket.wrap of 90 deg, tape ${T} mm`,
        model: "sprocket.least-play",
        expected,
        got: leastPlay.value({ X: feasibleInterval(made03(T)) }),
        near: { within },
        unit: "mm",
        source: `${driveNotes}, 2.4: wheel made for 0.3 mm, teeth of 1.1 mm`,
        how: "derived",
      }),
    ),
    ...(
      [
        [0.6, 1.1, -0.067],
        [1.1, 1.1, -0.459],
        [0.6, 0.8, 0.23],
        [1.1, 0.8, -0.16],
      ] as const
    ).map(([T, l, expected]) =>
      row({
        id: `sprocket.wrap by the rule, tape ${T} mm, tooth ${l} mm`,
        model: "sprocket.wrap-play",
        expected,
        got: rule(T, l),
        near: { within: 0.005 },
        unit: "mm",
        source: `${reviewNotes}, C13`,
        how: "derived",
      }),
    ),
    row({
      id: "sprocket.pitch radius",
      model: "sprocket.pitch-radius",
      expected: 15.2789,
      got: pitchRadius.value({ z: 24, P_w: 4, pi }),
      near: { within: 1e-4 },
      unit: "mm",
      source: `${driveNotes}, 1: 24 teeth at 4 mm`,
      how: "derived",
    }),
    row({
      id: "sprocket.teeth in the tape, tips 1.2 mm",
      model: "sprocket.teeth-in-tape",
      expected: 2.9,
      got: teeth(1.2),
      near: { printedTo: 0.1 },
      source: `${driveNotes}, 2.2`,
      how: "derived",
    }),
    row({
      id: "sprocket.teeth in the tape, tips 1.3 mm",
      model: "sprocket.teeth-in-tape",
      expected: 3.06,
      got: teeth(1.3),
      near: { printedTo: 0.01 },
      source: `${driveNotes}, 2.2`,
      how: "derived",
    }),
    row({
      id: "sprocket.fewest teeth, pointed tips",
      model: "sprocket.fewest-teeth",
      expected: 2,
      got: fewestTeeth.value({
        X: feasibleInterval(wheelOf(24, 0.3, straight(Math.atan(0.55 / 1.05) / rad, 0.55, 1.2))),
      }),
      near: { within: 0 },
      source: `${driveNotes}, 2.2: 2.9 teeth on the mean are 2 or 3`,
      how: "derived",
    }),
    row({
      id: "sprocket.flank that pushes",
      model: "sprocket.flank-slope",
      expected: 20 + 21.35,
      got: flankSlope.value({ phi: 20 * rad, r_b: 15.1289, r_t: 16.2439 }) / rad,
      near: { within: 0.01 },
      unit: "deg",
      source: "20 deg of flank on a tooth that leans by acos(15.1289/16.2439) = 21.35 deg, by hand",
      how: "derived",
    }),
    row({
      id: "sprocket.tip half width",
      model: "sprocket.tip-half-width",
      expected: 0.55 - 1.05 * Math.tan(20 * rad),
      got: tipHalfWidth.value({ outline: wheelOf(24, 0.3, straight(20)).outline }),
      near: { share: 1e-9 },
      unit: "mm",
      source: "1.05 mm over the pitch line at 20 deg, by hand",
      how: "derived",
    }),
    row({
      id: "sprocket.pointed tip",
      model: "sprocket.tip",
      expected: 15.2788745 + 0.55 / Math.tan(45 * rad),
      got: sprocketTip.value({ r_t: 16.3289, r_p: 15.2788745, t_a: 1.1, phi: 45 * rad }),
      near: { share: 1e-6 },
      unit: "mm",
      source: "flanks of 45 deg meet 0.55 mm over the pitch line, by hand",
      how: "derived",
    }),
    row({
      id: "sprocket.tooth in the wrap",
      model: "sprocket.tooth-in-wrap",
      expected: 2 * 15.2788745 * Math.asin(0.55 / (15.2788745 - 0.15)),
      got: toothInWrap.value({ outline: wrapped.outline, r_b: wrapped.baseRadius, r_n: wrapped.baseRadius + 0.15 }),
      near: { share: 1e-6 },
      unit: "mm",
      source: "upright sides: angle of 0.55 mm at the underside, at the neutral line, by hand",
      how: "derived",
    }),
  ];
}

/** Tooth and hole: opening, feasible interval, strength, and film sprockets of 1927 and 1930. */
export const sprocketRows = (): Row[] => [...filmRows(), ...openingRows(), ...sweptRows()];
