import {
  bindingLength,
  forwardPull,
  type Given,
  given,
  nipWalk,
  parseQuantity,
  phi,
  pullOffset,
  Realiser,
  ribbonStiffness,
  type Scene,
  sealMoment,
  seatJump,
  seatMargin,
  slackExcess,
  slackOffset,
  slackRatio,
  stickSlipSpeed,
  tapeHold,
  trackDistance,
  walkedOverlap,
  wallForce,
  yaw,
  yawAcross,
  yawAlong,
  yawLength,
  yawMoment,
} from "@tapeworthy/core";
import { filmNotes, type Row, reviewNotes, row, yawProgram } from "./row.ts";

/** Lengths in mm where both sides of an equation are lengths. */
const B1 = `${reviewNotes}, B1: 0.225 mm to either wall`;
const table = [
  [8, 3.5, [26, 13, 8]],
  [24, 11.5, [86, 43, 26]],
  [44, 20.2, [152, 76, 45]],
  [200, 98, [735, 368, 221]],
] as const;
const along = (F: number, l: number) => yawAlong.value({ psi: yaw.value({ c: 0.45, W: 0, l }), F }) * 1e3;

function yawRows(): Row[] {
  const moment = yawMoment.value({ F_h: 0.6, W: 24, E_1: 1.75, F_f: 1.8, F: 11.5 });
  return [
    ...table.flatMap(([W, F, errors]) =>
      errors.map((expected, i) => {
        const l = [30, 60, 100][i]!;
        return row({
          id: `yaw.${W} mm over ${l} mm`,
          model: yawAlong.id,
          expected,
          got: along(F, l),
          near: { printedTo: 1 },
          unit: "um",
          source: W === 200 ? `${B1}, F 98.0 mm` : B1,
          how: "derived",
        });
      }),
    ),
    row({
      id: "yaw.turned rectangle",
      model: yawAlong.id,
      expected: 43.12,
      got: along(11.5, 60),
      near: { share: 1e-3 },
      unit: "um",
      source: `${yawProgram}: 24 mm tape turned about its tooth until it touches; 1 in 1000 for the small angle`,
      how: "derived",
    }),
    row({
      id: "yaw.angle",
      model: yaw.id,
      expected: 3.74978,
      got: yaw.value({ c: 24.45, W: 24, l: 60 }) * 1e3,
      near: { share: 1e-3 },
      unit: "mrad",
      source: `${yawProgram}: the same`,
      how: "derived",
    }),
    row({
      id: "yaw.across",
      model: yawAcross.id,
      expected: 52.497,
      got: yawAcross.value({ psi: 3.74978e-3, s_w: 14, s_p: 0 }) * 1e3,
      near: { share: 1e-3 },
      unit: "um",
      source: `${yawProgram}: a pocket 14 mm from the wheel`,
      how: "derived",
    }),
    ...([24, 44] as const).map((W) =>
      row({
        id: `yaw.jams ${W} mm`,
        model: bindingLength.id,
        expected: W === 24 ? 7.175 : 14.175,
        got: bindingLength.value({ mu_w: 0.35, W, E_1: 1.75 }),
        near: { share: 1e-6 },
        unit: "mm",
        source: `${yawProgram}: where three equations of the rigid tape have no answer, friction 0.35`,
        how: "derived",
      }),
    ),
    row({
      id: "yaw.moment",
      model: yawMoment.id,
      expected: -14.55,
      got: moment,
      near: { share: 1e-9 },
      unit: "N mm",
      source: "0.6 N by 10.25 mm less 1.8 N by 11.5 mm, by hand",
      how: "derived",
    }),
    row({
      id: "yaw.wall force",
      model: wallForce.id,
      expected: 0.27544,
      got: wallForce.value({ M: moment, l: 60, l_b: 7.175 }),
      near: { printedTo: 1e-5 },
      unit: "N",
      source: `${yawProgram}: three equations of the rigid tape, 60 mm, friction 0.35`,
      how: "derived",
    }),
    row({
      id: "yaw.guided length",
      model: "channel.yaw-length",
      expected: 86.8319,
      got: yawLength.value({ L: 200, lines: [10], arcs: [{ radius: 40, turn: -Math.PI / 2 }], s_w: 14, s_0: 0 }),
      near: { printedTo: 1e-4 },
      unit: "mm",
      source: "10 mm, a quarter turn of 40 mm and 14 mm to the wheel: 24 + 20 pi, by hand",
      how: "derived",
    }),
    row({
      id: "yaw.guided length of the file",
      model: "channel.yaw-length",
      expected: 60,
      got: yawLength.value({ L: 60, lines: [96, 10], arcs: [], s_w: 14, s_0: 0 }),
      near: { within: 0 },
      unit: "mm",
      source: "walls over 60 mm of a route that has 120 mm, by hand",
      how: "derived",
    }),
  ];
}

const width = { 8: 5.3, 12: 9.3, 16: 13.3, 24: 21.3, 32: 25.5 } as const;
const apart = (b: number) => trackDistance.value({ b, s: 0.4, w_t: 0.5 });
/** A ratio of two tracks that each scatter by `sd` (log): what the project's own law makes of it. */
const ratioOf = (sd: number): Given => {
  const text = `1 per reel sd ${100 * Math.sqrt(Math.expm1(2 * sd * sd))} %`;
  return given({
    address: `validation/ratio ${sd}`,
    symbol: "r_s",
    text,
    origin: { cite: "example of this table", how: "derived" },
    dimension: [0, 0, 0, 0, 0],
    written: parseQuantity(text),
    level: "reel",
  });
};
/** Share of reels over a ratio on either side, in per cent. */
function shareOver(ratio: number, sd: number): number {
  const r = ratioOf(sd);
  const oneSd = new Realiser({} as Scene, [r]).run({ n: 1, unknown: () => 0, scatter: () => 1 }).number(r);
  return 200 * (1 - phi(Math.log(ratio) / Math.log(oneSd)));
}

function sealRows(): Row[] {
  const B2 = `${reviewNotes}, B2`;
  const e = (r_s: number) => pullOffset.value({ r_s, b_c: apart(width[24]) });
  const walk = (r: number) => nipWalk.value({ e: e(r), f: width[24] / 3 });
  const slack = (W: keyof typeof width) => slackRatio.value({ b_c: apart(width[W]), b: width[W] });
  const printed = (W: keyof typeof width, expected: number) =>
    row({
      id: `seals.slack beyond, ${W} mm`,
      model: slackRatio.id,
      expected,
      got: slack(W),
      near: { printedTo: 0.1 },
      source: B2,
      how: "derived",
    });
  const fitted = (W: keyof typeof width, expected: number) =>
    row({
      id: `seals.edge by bisection, ${W} mm`,
      model: slackRatio.id,
      expected,
      got: slack(W),
      near: { printedTo: 1e-4 },
      source: `${yawProgram}: a tension linear across with the force and moment of the tracks`,
      how: "derived",
    });
  const share = (sd: number, expected: number, drawn: number) => [
    row({
      id: `seals.over 2.1 to 1, tracks of ${sd * 100} %`,
      model: "assume/seal ratio",
      expected,
      got: shareOver(2.1, sd),
      near: { printedTo: 1 },
      unit: "% of reels",
      source: B2,
      how: "derived",
    }),
    row({
      id: `seals.drawn over 2.1 to 1, tracks of ${sd * 100} %`,
      model: "assume/seal ratio",
      expected: drawn,
      got: shareOver(2.1, sd),
      near: { within: 0.06 },
      unit: "% of reels",
      source: `${yawProgram}: 4 million pairs of tracks drawn; three standard errors of the drawing`,
      how: "derived",
    }),
  ];
  const excess = (r: number, F: number, expected: number) =>
    row({
      id: `seals.slack edge ${r} to 1, ${F} N`,
      model: slackExcess.id,
      expected,
      got: slackExcess.value({ F, b: width[24] * 1e-3, e: e(r) * 1e-3, Eh: 79600 }) * 100,
      near: { share: 1e-3 },
      unit: "%",
      source: `${yawProgram}: fibres that bear tension alone, one by one`,
      how: "derived",
    });
  return [
    row({
      id: "seals.walk 2 to 1",
      model: nipWalk.id,
      expected: 0,
      got: walk(2),
      near: { within: 0 },
      unit: "mm",
      source: `${B2}: 24 mm tape, face of a third of the film`,
      how: "derived",
    }),
    row({
      id: "seals.walk 3 to 1",
      model: nipWalk.id,
      expected: 1.45,
      got: walk(3),
      near: { printedTo: 0.01 },
      unit: "mm",
      source: `${B2}: 24 mm tape, face of a third of the film`,
      how: "derived",
    }),
    row({
      id: "seals.offset 2 to 1",
      model: pullOffset.id,
      expected: 10 / 3,
      got: e(2),
      near: { share: 1e-12 },
      unit: "mm",
      source: "forces 2 and 1 at 10 mm either side of the middle, by hand",
      how: "derived",
    }),
    row({
      id: "seals.tracks",
      model: trackDistance.id,
      expected: 20,
      got: apart(width[24]),
      near: { share: 1e-12 },
      unit: "mm",
      source: "21.3 mm less twice 0.65 mm, by hand",
      how: "derived",
    }),
    row({
      id: "seals.middle third",
      model: slackOffset.id,
      expected: 3.55,
      got: slackOffset.value({ b: width[24] }),
      near: { share: 1e-12 },
      unit: "mm",
      source: `${filmNotes}, section 4: a sixth of 21.3 mm`,
      how: "derived",
    }),
    printed(8, 2.6),
    printed(24, 2.1),
    printed(32, 2.1),
    fitted(8, 2.5821),
    fitted(12, 2.2653),
    fitted(16, 2.1718),
    fitted(24, 2.1008),
    fitted(32, 2.0828),
    ...share(0.2, 1, 0.88),
    ...share(0.3, 8, 8.02),
    ...share(0.4, 19, 18.95),
    excess(3, 2, 0.07608),
    excess(5, 5, 0.82254),
    row({
      id: "seals.track under the grip",
      model: walkedOverlap.id,
      expected: 0.15,
      got: walkedOverlap.value({ w_t: 0.5, f: 7.1, e_w: 0.35, x_w: 6, b: 21.3, s: 0.4 }),
      near: { share: 1e-9 },
      unit: "mm",
      source: "3.55 + 0.35 + 6.00 mm against 9.75 mm, by hand",
      how: "derived",
    }),
    row({
      id: "seals.moment",
      model: sealMoment.id,
      expected: 4,
      got: sealMoment.value({ P: 0.8, e: 5 }),
      near: { share: 1e-12 },
      unit: "N mm",
      source: `${B2}: moment P e; 0.8 N by 5 mm, by hand`,
      how: "derived",
    }),
  ];
}

function seatRows(): Row[] {
  const jump = (D_0: number, t_a: number, t_c: number, r_c: number, expected: number) =>
    row({
      id: `seat.tooth ${t_a} x ${t_c}, corners ${r_c}, hole ${D_0}`,
      model: seatJump.id,
      expected,
      got: seatJump.value({ r_c, D_0, t_c, t_a, j_d: 0 }),
      near: { printedTo: 1e-5 },
      unit: "mm",
      source: `${yawProgram}: a rounded tooth slid along until a point of its outline touches`,
      how: "derived",
    });
  return [
    row({
      id: "seat.forward pull",
      model: forwardPull.id,
      expected: 1.87093,
      got: forwardPull.value({ S: 3.6, mu: 0.25, w: (150 * Math.PI) / 180 }),
      near: { printedTo: 1e-5 },
      unit: "N",
      source: `${yawProgram}: rope over 150 degrees in a million steps`,
      how: "derived",
    }),
    row({
      id: "seat.forward pull of one fold",
      model: forwardPull.id,
      expected: 1,
      got: forwardPull.value({ S: 2.57, mu: 0.3, w: Math.PI }),
      near: { share: 0.005 },
      unit: "N",
      source: `${reviewNotes}, C: a fold of 180 degrees at 0.3 is x2.57; its last digit`,
      how: "derived",
    }),
    row({
      id: "seat.hold",
      model: tapeHold.id,
      expected: 0.6,
      got: tapeHold.value({ F_t: 0.45, F_d: 0.15 }),
      near: { share: 1e-12 },
      unit: "N",
      source: "0.45 and 0.15 N, by hand",
      how: "derived",
    }),
    row({
      id: "seat.apart",
      model: seatMargin.id,
      expected: 48.148,
      got: seatMargin.value({ F_f: 2, F_h: 0.7 }) * 100,
      near: { printedTo: 1e-3 },
      unit: "%",
      source: `${reviewNotes}, A5: 2 N against 0.7 N; 1.3 over 2.7, by hand`,
      how: "derived",
    }),
    jump(1.55, 1.1, 0.7, 0.3, 0.44472),
    jump(1.55, 1.1, 0.7, 0, 0.28293),
    jump(1.5, 1.1, 0.8, 0, 0.16886),
  ];
}

function chatterRows(): Row[] {
  const spring = (Eh: number, b: number, L: number, expected: number) =>
    row({
      id: `chatter.ribbon ${b} by ${L} mm`,
      model: ribbonStiffness.id,
      expected,
      got: ribbonStiffness.value({ Eh, b: b * 1e-3, L: L * 1e-3 }) / 1e3,
      near: { printedTo: 1e-3 },
      unit: "N/mm",
      source: `${filmNotes}, section 6: spring Eh b/L; ${Eh / 1e3} kN/m, by hand`,
      how: "derived",
    });
  return [
    spring(79600, 21.3, 100, 16.955),
    spring(243000, 5.3, 40, 32.198),
    row({
      id: "chatter.index over onset",
      model: stickSlipSpeed.id,
      expected: 8,
      got: stickSlipSpeed.value({ q_p: 1, v: 0.004 / 0.05 }) / 0.01,
      near: { share: 1e-12 },
      source: `${filmNotes}, section 6: from about 0.01 m/s; 4 mm in 50 ms`,
      how: "memory",
    }),
  ];
}

/** Yaw of the tape, uneven seal tracks, the seat on the teeth, stick-slip. */
export const yawAndSeatRows = (): Row[] => [...yawRows(), ...sealRows(), ...seatRows(), ...chatterRows()];
