import {
  arcContact,
  archForce,
  bendPress,
  buckling,
  columnEnds,
  cutAt,
  entryPull,
  exitFriction,
  flangeStiffness,
  flattenForce,
  freeBow,
  highStiffness,
  holdDrag,
  landStiffness,
  liftOff,
  lowStiffness,
  openingRoom,
  overhangLift,
  pastBend,
  pocketSection,
  pullAfterEach,
  reelInertia,
  restBow,
  setShare,
  snatch,
  spillDrag,
  stiffnessBetween,
  tapeWeight,
  tautBow,
  toothLift,
  woundMass,
} from "@tapeworthy/core";
import { holdProgram, type Row, reviewNotes, row, springNotes } from "./row.ts";

function stiffnessRows(): Row[] {
  // 8 mm tape without its holes: the notes count bare flanges.
  const eight = { E: 1.9e9, T: 0.3e-3, W: 8e-3, D_0: 0, P_0: 4e-3 };
  const EI_l = landStiffness.value(eight);
  const EI_f = flangeStiffness.value({ ...eight, B_1: 4e-3 });
  const box = pocketSection.value({ T: 0.3e-3, W: 8e-3, B_1: 4e-3, K_0: 1e-3, t_w: 0.2e-3 });
  const source = `${springNotes}: 8 mm tape of 0.3 mm, B1 4 mm, K0 1 mm, walls 0.2 mm, pocket share 0.55, 1.9 GPa, holes not counted; 1 in 1000`;
  const twelve = { E: 1.9e9, T: 0.3e-3, W: 12e-3, D_0: 1.55e-3, P_0: 4e-3 };
  const land = landStiffness.value(twelve);
  const flange = flangeStiffness.value({ ...twelve, B_1: 5.8e-3 });
  const averaged = `${holdProgram}: flexibility averaged over where pocket and hole stand, 12 mm tape; its grid of 4000`;
  const bound = (id: string, model: string, expected: number, got: number) =>
    row({ id, model, expected, got: got * 1e6, near: { share: 1e-3 }, unit: "N mm2", source, how: "derived" });
  return [
    bound("tape.bare land", landStiffness.id, 34.2, EI_l),
    bound("tape.low bound", lowStiffness.id, 22.06, lowStiffness.value({ a: 0.55, EI_l, EI_f })),
    bound("tape.high bound", highStiffness.id, 72.96, highStiffness.value({ a: 0.55, EI_l, E: 1.9e9, I_p: box })),
    ...(
      [
        ["walls that give way", lowStiffness.id, 25.09192, lowStiffness.value({ a: 7 / 8, EI_l: land, EI_f: flange })],
        [
          "walls that hold",
          highStiffness.id,
          373.12725,
          highStiffness.value({
            a: 7 / 8,
            EI_l: land,
            E: 1.9e9,
            I_p: pocketSection.value({ T: 0.3e-3, W: 12e-3, B_1: 5.8e-3, K_0: 2.1e-3, t_w: 0.3e-3 }),
          }),
        ],
      ] as const
    ).map(([what, model, expected, got]) =>
      row({
        id: `tape.${what}`,
        model,
        expected,
        got: got * 1e6,
        near: { share: 5e-4 },
        unit: "N mm2",
        source: averaged,
        how: "derived",
      }),
    ),
    row({
      id: "tape.half way between the bounds",
      model: stiffnessBetween.id,
      expected: 40,
      got: stiffnessBetween.value({ EI_lo: 20, EI_hi: 80, q_w: 0.5 }),
      near: { share: 1e-12 },
      unit: "N mm2",
      source: "geometric mean of 20 and 80, by hand",
      how: "derived",
    }),
    row({
      id: "tape.board",
      model: landStiffness.id,
      expected: 844,
      got: landStiffness.value({ E: 3e9, T: 0.75e-3, W: 8e-3, D_0: 0, P_0: 4e-3 }) * 1e6,
      near: { printedTo: 1 },
      unit: "N mm2",
      source: `${springNotes}, section 3.1: board of 0.75 mm, 3 GPa, 8 mm`,
      how: "derived",
    }),
    row({
      id: "tape.weight",
      model: tapeWeight.id,
      expected: 0.0961052,
      got: tapeWeight.value({ rho: 1050, W: 24e-3, T: 0.3e-3, m: 26.88e-6, P_1: 12e-3, g: 9.80665 }),
      near: { share: 1e-4 },
      unit: "N/m",
      source: "7.56 g/m of carrier and 26.88 mg every 12 mm, 9.80665 m/s2, by hand",
      how: "derived",
    }),
  ];
}

function setRows(): Row[] {
  const exact = (n: number, t: number, s: number, expected: number, source: string, share: number) =>
    row({
      id: `set.n ${n}, ${s} s of ${t} s`,
      model: "tape.set-share",
      expected,
      got: setShare({ n, t, s }),
      near: { share },
      source,
      how: "derived",
    });
  const notes = `${springNotes}: Boltzmann superposition of a power law, exact integral; 1 in a million`;
  const stepped = `${holdProgram}: the hereditary integral by quadrature (8 digits) and, to 2e-5, step by step`;
  return [
    exact(0.03, 1e7, 1, 0.3843174269, notes, 1e-6),
    exact(0.03, 1e7, 1e5, 0.130577274, notes, 1e-6),
    exact(0.06, 1e7, 1e3, 0.4279648706, notes, 1e-6),
    exact(0.05, 1e6, 1e6, 0.03668118, stepped, 2e-7),
    exact(0.08, 1e6, 1e7, 0.00987942, stepped, 1e-6),
    row({
      id: "set.simple law",
      model: "tape.set-share",
      expected: 1 - 1e-7 ** 0.03,
      got: setShare({ n: 0.03, t: 1e7, s: 1 }),
      near: { within: 5e-3 },
      source: `${springNotes}, section 3.2: 1 - (s/t)^n, within 0.005 while s is below t/100`,
      how: "derived",
    }),
    row({
      id: "set.four months, twenty minutes",
      model: "tape.set-share",
      expected: 0.422,
      got: setShare({ n: 0.06, t: 1e7, s: 1200 }),
      near: { printedTo: 1e-3 },
      source: `${reviewNotes}, C 21: exact 0.422`,
      how: "derived",
    }),
  ];
}

function bowRows(): Row[] {
  const span = { EI: 2e-5, kappa: 1 / 0.03, L: 0.04 };
  const notes = `${springNotes}: 2 GPa by 1e-14 m4 over 40 mm, set radius 30 mm`;
  const beams = `${holdProgram}: 240 beam elements with natural curvature`;
  return [
    row({
      id: "flatten.force",
      model: flattenForce.id,
      expected: 0.1,
      got: flattenForce.value(span),
      near: { share: 1e-6 },
      unit: "N",
      source: notes,
      how: "derived",
    }),
    row({
      id: "flatten.bow",
      model: freeBow.id,
      expected: 6.6667,
      got: freeBow.value(span) * 1e3,
      near: { printedTo: 1e-4 },
      unit: "mm",
      source: notes,
      how: "derived",
    }),
    row({
      id: "flatten.rest bow",
      model: restBow.id,
      expected: 0.00046296,
      got: restBow.value({ kappa: 1 / 20, L: 1 }),
      near: { share: 3e-3 },
      source: `${springNotes}: rest bow over span at a set radius of 20 spans`,
      how: "derived",
    }),
    row({
      id: "flatten.rest bow, elements",
      model: restBow.id,
      expected: 0.009259,
      got: restBow.value({ kappa: 1, L: 1 }),
      near: { printedTo: 1e-6 },
      source: `${beams}, its middle pressed flat: of L^2/Rs`,
      how: "derived",
    }),
    row({
      id: "bow.tension",
      model: freeBow.id,
      expected: 0.938503,
      got: tautBow({ EI: 34.2e-6, kappa: 1 / 0.06, S: 0.5, L: 0.04 }) * 1e3,
      near: { share: 1e-5 },
      unit: "mm",
      source: `${springNotes}: 34.2 N mm2, 0.5 N, set radius 60 mm over 40 mm; ${beams} gives the same six digits`,
      how: "derived",
    }),
    row({
      id: "bow.tail",
      model: overhangLift.id,
      expected: 0.72,
      got: overhangLift.value({ kappa: 10, c: 12e-3 }) * 1e3,
      near: { printedTo: 1e-6 },
      unit: "mm",
      source: `${beams}: a tail of 12 mm, 10 /m`,
      how: "derived",
    }),
    row({
      id: "bend.press",
      model: bendPress.id,
      expected: 0.05,
      got: bendPress.value({ EI: 40e-6, g: 0.72 / 12, a: 12e-3 }),
      near: { printedTo: 1e-6 },
      unit: "N",
      source: `${beams}: 40 N mm2 pushed 0.72 mm off at 12 mm`,
      how: "derived",
    }),
    row({
      id: "hold.tooth lift",
      model: toothLift.id,
      expected: 0.10084,
      got: toothLift.value({ F_h: 0.5, phi: (22 * Math.PI) / 180, mu: 0.1871 }),
      near: { printedTo: 1e-5 },
      unit: "N",
      source: "0.5 N by the tangent of 22 degrees less a friction angle of 10.5976 degrees, by hand",
      how: "derived",
    }),
    row({
      id: "hold.drag",
      model: holdDrag.id,
      expected: 0.45,
      got: holdDrag.value({ F: 0.9, mu_h: 0.3, mu_w: 0.2 }),
      near: { share: 1e-12 },
      unit: "N",
      source: "0.9 N by 0.3 above and 0.2 below, by hand",
      how: "derived",
    }),
    row({
      id: "hold.opening, across",
      model: "hold.opening",
      expected: 0.75,
      got: openingRoom.value({
        windows: [{ x: 10, y: 7, name: "cover" }],
        A_0: 6.4,
        B_0: 5.2,
        e_t: 0.5,
        along: 0.45,
        across: 0.55,
      }),
      near: { share: 1e-9 },
      unit: "mm",
      source: "7 less 5.2, 0.5 and 0.55 mm; along 10 less 6.4, 0.5 and 0.45 mm leaves more; by hand",
      how: "derived",
    }),
  ];
}

function routeRows(): Row[] {
  const eight = { EI: 34.2e-6, R: 15e-3, phi: Math.PI / 2, kappa: 0, mu: 0, psi: 0, room: 0.35e-3 };
  const notes = `${springNotes}: 8 mm tape of 0.3 mm on R 15 mm, pulled with 0.5 N`;
  const inside = pastBend(0.5, eight).inside;
  const B = 34.2e-6 / (2 * 15e-3 ** 2);
  const off = liftOff(B, 0.5);
  const bend = (T1: number, EI: number, R: number, phi: number, kappa: number, mu: number, expected: number) =>
    row({
      id: `pull.bend of ${R * 1e3} mm after ${T1} N`,
      model: "entry.pull",
      expected,
      got: pastBend(T1, { EI, R, phi, kappa, mu, psi: 0, room: 0.35e-3 }).pull,
      near: { share: 1e-5 },
      unit: "N",
      source: `${holdProgram}: elastica integrated along the free ends, rope in 200 000 steps`,
      how: "derived",
    });
  const capstan = (
    id: string,
    expected: number,
    got: number,
    near: { printedTo: number } | { share: number },
    unit: string,
  ) => row({ id: `capstan.${id}`, model: "entry.pull", expected, got, near, unit, source: notes, how: "derived" });
  const channel = { EI: 63e-6, kappa: 7.2, w: 0, T: 0.3e-3, s_l: 0.35e-3, c_r: 0.05e-3, mu: 0.25, psi: 0 };
  const exit = { ...channel, behind: [{ line: 0.1 }], ahead: [{ line: 0.2 }], s_w: 0.05, s_0: 0 };
  const arch = 0.05312;
  return [
    capstan("tension inside the wrap", 0.424, inside, { share: 1e-3 }, "N"),
    capstan("lift-off", 57.99, 90 - (off * 180) / Math.PI, { printedTo: 0.01 }, "deg"),
    capstan("end force", 0.265, 0.5 * Math.sin(off), { printedTo: 1e-4 }, "N"),
    capstan("line pressure", 0.028267, inside / 15e-3 / 1e3, { printedTo: 1e-6 }, "N/mm"),
    bend(0.5, 34.2e-6, 0.015, Math.PI / 2, 0, 0.25, 0.718667),
    bend(0.3, 63e-6, 0.04, 0.8, 7.2, 0.25, 0.365041),
    bend(0.6, 130e-6, 0.05, 1.1, -7.2, 0.3, 0.823428),
    row({
      id: "pull.a limp tape is a rope",
      model: "entry.pull",
      expected: 2.57,
      got: pastBend(1, { ...eight, EI: 1e-12, phi: Math.PI, mu: 0.3 }).pull,
      near: { printedTo: 0.01 },
      unit: "N",
      source: `${reviewNotes}, C: half a turn at 0.3 is x2.57`,
      how: "derived",
    }),
    row({
      id: "pull.contact of board",
      model: "entry.contact",
      expected: 0.5 / 1.9,
      got: arcContact.value({
        pieces: pullAfterEach(0.5, [{ radius: 15e-3 - 0.375e-3, turn: -1.5 }], {
          ...channel,
          EI: 844e-6,
          kappa: 0,
          T: 0.75e-3,
        }),
      }),
      near: { share: 0.015 },
      source: `${springNotes}, section 3.4: B of board of 0.75 mm on R 15 mm is 1.9 N, so 0.5 N never lays it on the arc; printed to 0.1 N`,
      how: "derived",
    }),
    row({
      id: "pull.energy of a 24 mm tape on 20 mm",
      model: "entry.pull",
      expected: 0.13,
      got: (landStiffness.value({ E: 1.9e9, T: 0.3e-3, W: 24e-3, D_0: 0, P_0: 4e-3 }) as number) / (2 * 0.02 ** 2),
      near: { printedTo: 0.01 },
      unit: "N",
      source: `${springNotes}, section 3.4`,
      how: "derived",
    }),
    row({
      id: "pull.arch between two faces",
      model: "entry.pull",
      expected: arch,
      got: archForce({ length: 0.2, EI: 63e-6, kappa: 7.2, room: 0.35e-3 }),
      near: { printedTo: 1e-6 },
      unit: "N",
      source: `${holdProgram}: the greatest over 200 000 places of its feet`,
      how: "derived",
    }),
    row({
      id: "pull.two straight pieces and their reel",
      model: "entry.pull",
      expected: 0.3 + 2 * (0.25 * 2 * arch),
      got: entryPull.value({
        pieces: pullAfterEach(0.3, cutAt([{ line: 0.1 }], [{ line: 0.2 }], 0.15).before, channel),
        F_d: 0.3,
        q_a: 1e6,
      }),
      near: { within: 1e-6 },
      unit: "N",
      source: "0.3 N and twice two faces of an arch of 0.05312 N at 0.25, by hand",
      how: "derived",
    }),
    row({
      id: "push.exit friction",
      model: "tape.exit-friction",
      expected: 0.25 * 2 * arch,
      got: exitFriction.value(exit),
      near: { within: 1e-6 },
      unit: "N",
      source: "one straight piece past the wheel, two faces of an arch of 0.05312 N at 0.25, by hand",
      how: "derived",
    }),
    ...(
      [
        ["pinned", "pinned", 0.84385],
        ["fixed-fixed", "clamped", 3.3754],
        ["fixed-free", "clamped and free", 0.21096],
      ] as const
    ).map(([name, ends, expected]) =>
      row({
        id: `push.column, ${name}`,
        model: buckling.id,
        expected,
        got: buckling.value({ pi: Math.PI, EI: 34.2e-6, L: 0.02 }) * columnEnds[ends],
        near: { printedTo: 1e-5 },
        unit: "N",
        source:
          name === "pinned"
            ? `Euler; ${springNotes}; ${holdProgram}: 60 beam elements lose their stiffness at 0.84385 N`
            : `Euler; ${springNotes}`,
        how: "derived",
      }),
    ),
  ];
}

function reelRows(): Row[] {
  const wound = (rho_w: number, W: number, R_o: number, N: number) =>
    woundMass.value({ rho_w, W, pi: Math.PI, R_o, N });
  const large = wound(300, 24e-3, 0.16, 0.1);
  const inertia = reelInertia.value({ m: large, N: 0.1, R_o: 0.16 });
  const small = wound(600, 8e-3, 0.085, 0.06);
  const light = reelInertia.value({ m: small, N: 0.06, R_o: 0.085 });
  const B3 = (reel: string) => `${reviewNotes}, B3: ${reel}`;
  const printed = (
    id: string,
    model: string,
    expected: number,
    got: number,
    printedTo: number,
    unit: string,
    reel: string,
  ) => row({ id: `reel.${id}`, model, expected, got, near: { printedTo }, unit, source: B3(reel), how: "derived" });
  const thirteen = "13 in, 24 mm, 300 kg/m3 (assumed there), outer turn 160 mm, hub 50 mm radius";
  return [
    printed("mass, 13 in", woundMass.id, 0.52, large, 0.01, "kg", thirteen),
    printed("inertia, 13 in", reelInertia.id, 0.29, inertia, 0.01, "kg", thirteen),
    printed("snatch, 13 in", snatch.id, 2.2, snatch.value({ v: 0.09, k: 2000, m_eq: inertia }), 0.1, "N", thirteen),
    printed(
      "drag against spilling, 13 in",
      spillDrag.id,
      0.155,
      spillDrag.value({ m_eq: inertia, v: 0.09, x_l: 0.03 }),
      1e-3,
      "N",
      `${thirteen}, 30 mm of room`,
    ),
    printed("snatch, 7 in", snatch.id, 0.9, snatch.value({ v: 0.09, k: 2000, m_eq: light }), 0.1, "N", "7 in, 8 mm"),
    printed(
      "drag against spilling, 7 in",
      spillDrag.id,
      0.03,
      spillDrag.value({ m_eq: light, v: 0.09, x_l: 0.03 }),
      0.01,
      "N",
      "7 in, 8 mm",
    ),
    row({
      id: "reel.snatch of a mass on a spring",
      model: snatch.id,
      expected: 2.1675,
      got: snatch.value({ v: 0.09, k: 2000, m_eq: 0.29 }),
      near: { printedTo: 1e-4 },
      unit: "N",
      source: `${holdProgram}: its differential equation, steps of 20 us; the reel reaches 2.0000 times the speed`,
      how: "derived",
    }),
    row({
      id: "reel.running on",
      model: spillDrag.id,
      expected: 30,
      got: (spillDrag.value({ m_eq: 0.29, v: 0.09, x_l: 0.03 }) / 0.1566) * 30,
      near: { within: 0.01 },
      unit: "mm",
      source: `${holdProgram}: a drag of 0.1566 N stops 0.29 kg from 180 mm/s in 30.000 mm`,
      how: "derived",
    }),
  ];
}

/** The tape as a spring, its set, the hold-down, the route's pull, the reel, the push past the wheel. */
export const holdDownRows = (): Row[] => [
  ...stiffnessRows(),
  ...setRows(),
  ...bowRows(),
  ...routeRows(),
  ...reelRows(),
];
