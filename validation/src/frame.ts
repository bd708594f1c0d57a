import {
  bothEnds,
  clampedStiffness,
  clampLeft,
  evenness,
  exponentOf,
  forceLeft,
  hardEvenness,
  hingeTorsion,
  lambdaOf,
  oneEnd,
  parallelEvenness,
  screwNamed,
  screwStiffness,
  screwTorsion,
  shearOverBending,
  softEvenness,
  tippingStiffness,
  touchLength,
} from "@tapeworthy/core";
import { holdProgram, type Row, reviewNotes, row, springNotes } from "./row.ts";

function foundationRows(): Row[] {
  const beam = (L: number) => ({ k: 4 * L ** 4, EI: 1, l: 1 });
  const read = "Hetenyi 1946, section 19, equations 37a and 37b, in a scanned handout (read); beam elements agree";
  const remembered = "Hetenyi 1946, finite beam with a force at one end (memory); beam elements agree (derived)";
  const one = (id: string, expected: number, got: number, source: string, how: "read" | "memory") =>
    row({
      id: `foundation.${id}`,
      model: "nip.evenness",
      expected,
      got,
      near: { within: 1e-6 },
      source: `${source}; 1 in a million`,
      how,
    });
  return [
    ...(
      [
        [1, 0.5165398132, 0.4907019068],
        [2, 0.046102464, 0.022974565],
        [4, 0.0078482674, -0.0009219763],
      ] as const
    ).flatMap(([L, end, middle]) => [
      one(`both ends, ${L}, end`, end, bothEnds(beam(L), 1, 0), read, "read"),
      one(`both ends, ${L}, middle`, middle, bothEnds(beam(L), 1, 0.5), read, "read"),
    ]),
    ...(
      [
        [1, 1.0094592673, -0.4929194541],
        [4, 0.007818567, 2.97003553e-5],
      ] as const
    ).flatMap(([L, loaded, far]) => [
      one(`one end, ${L}, loaded`, loaded, oneEnd(beam(L), 1).loaded, remembered, "memory"),
      one(`one end, ${L}, far`, far, oneEnd(beam(L), 1).far, remembered, "memory"),
    ]),
  ];
}

function evenRows(): Row[] {
  const notes = (what: string) => `${springNotes}: ${what}; 1 in a million`;
  const even = (id: string, expected: number, got: number, source: string, within = 1e-6) =>
    row({ id: `even.${id}`, model: "nip.evenness", expected, got, near: { within }, source, how: "derived" });
  const krylov = notes("Krylov functions solved for each end");
  const beams = `${holdProgram}: 400 beam elements on a foundation`;
  const hook = { stiffness: Number.POSITIVE_INFINITY, play: 0 };
  /** Length at which a one-sided steel shaft of 4 mm against a rigid partner keeps 0.8. */
  const keeps = (k: number): number => {
    const lambda = lambdaOf(k, (2.06e11 * Math.PI * 4e-3 ** 4) / 64);
    let [low, high] = [0.1, 1.5];
    for (let i = 0; i < 60; i++) {
      const middle = (low + high) / 2;
      if (evenness(middle).tip > 0.8) low = middle;
      else high = middle;
    }
    return (low / lambda) * 1e3;
  };
  const scene = {
    EI: 1,
    k: 4,
    l: 1,
    N: 4,
    p: 0.1,
    carried: "hooked" as const,
  };
  return [
    ...(
      [
        [0.5, 0.9693774968, 0.9877458018],
        [1, 0.6238102552, 0.8485066183],
        [1.5, 0.0600858776, 0.6113797934],
      ] as const
    ).flatMap(([L, tip, mean]) => [
      even(`clamped and free, ${L}, tip`, tip, evenness(L).tip, notes("tip over root")),
      even(`clamped and free, ${L}, mean`, mean, evenness(L).mean, notes("mean over root")),
    ]),
    even("clamped and free, a quarter of a wave", 0, evenness(1.5707963268).tip, notes("tip over root")),
    ...(
      [
        [1, 0.9786968359],
        [2, 0.7274615642],
        [3, 0.2648467126],
      ] as const
    ).map(([L, least]) =>
      even(`hooked, ${L}`, least, evenness(L, undefined, hook).least, `${krylov}, its least read off a grid`, 2e-6),
    ),
    ...(
      [
        [0.5, 1, 0.7630446071],
        [1, 5, 0.4358919463],
        [1, 1, 0.0631605966],
      ] as const
    ).map(([L, kappa, tip]) => even(`root ${kappa}, ${L}`, tip, evenness(L, kappa).tip, krylov)),
    even("root 0.3, 0.8, opened", -0.0594, evenness(0.8, 0.3).tip, beams, 2e-4),
    even("hooked with play, 2", 0.696042, evenness(2, undefined, { ...hook, play: 0.1 }).least, beams, 1e-5),
    even("hooked on a spring, 2", 0.570169, evenness(2, undefined, { stiffness: 5, play: 0.05 }).least, beams, 1e-5),
    even(
      "hooked on a spring, 2, mean",
      0.721169,
      evenness(2, undefined, { stiffness: 5, play: 0.05 }).mean,
      beams,
      1e-5,
    ),
    even("hooked, root 2, 1", 0.961534, evenness(1, 2, hook).least, beams, 3e-5),
    even("two bearings, 1", 0.949979, evenness(1, 0, "bearing").least, beams, 1e-5),
    even("two bearings, 2.5", 0.22339, evenness(2.5, 0, "bearing").least, beams, 1e-5),
    even(
      "a hook's play against the interference",
      evenness(1, undefined, { ...hook, play: 0.1 }).least,
      softEvenness.value(scene) as number,
      "interference N/(k l) of 1: the same beam, by hand",
      1e-12,
    ),
    ...(
      [
        [1e6, 46],
        [5e6, 31],
        [20e6, 22],
      ] as const
    ).map(([k, expected]) =>
      row({
        id: `even.keeps 0.8 at ${k / 1e6} N/mm2`,
        model: "nip.evenness",
        expected,
        got: keeps(k),
        near: { within: 1 },
        unit: "mm",
        source: `${springNotes}, section 4: a steel shaft of 4 mm, one-sided; its last digit, its modulus not said`,
        how: "derived",
      }),
    ),
    ...(
      [
        ["clamped", 1.573, {}],
        ["on a root of 1", 1.0615, { k_th: 0.25 }],
      ] as const
    ).map(([root, expected, more]) =>
      row({
        id: `even.touches, ${root}`,
        model: "nip.touch",
        expected,
        got: touchLength.value({ EI: 0.25, k: 1, l: 2.2, ...more }) as number,
        near: { within: 2.8e-3 },
        source: `${holdProgram}: springs that can't pull, 800 elements over 2.2; one of them`,
        how: "derived",
      }),
    ),
    row({
      id: "even.hard nip",
      model: parallelEvenness.id,
      expected: 0.7,
      got: hardEvenness(0.49, 10e-3, 8, 21e-3),
      near: { within: 0.005 },
      source: `${reviewNotes}, A8: 8 N over 21 mm, 10 mrad: 0.7 needs 0.49 N m per rad at most; its last digit`,
      how: "derived",
    }),
    row({
      id: "even.hard nip, line of springs",
      model: parallelEvenness.id,
      expected: 0.70213,
      got: parallelEvenness.value({ k_phi: 0.49, phi_0: 10e-3, N: 8, l: 21e-3 }),
      near: { printedTo: 1e-5 },
      source: `${holdProgram}: 20 000 springs side by side`,
      how: "derived",
    }),
    row({
      id: "even.hinge",
      model: hingeTorsion.id,
      expected: 0.3,
      got: hingeTorsion.value({ E: 2e9, b: 8e-3, t: 1.2e-3, l: 11e-3 }),
      near: { printedTo: 0.01 },
      unit: "N m/rad",
      source: `${reviewNotes}, A8: a PETG hinge of 11 x 1.2 x 8 mm`,
      how: "derived",
    }),
  ];
}

function screwRows(): Row[] {
  const M3 = screwNamed("M3")!;
  const six = 6e-3;
  return [
    row({
      id: "joint.frustum",
      model: "nip.screws",
      expected: 6660,
      got: clampedStiffness(3e-3, six, 2e9) / 1e3,
      near: { share: 1e-3 },
      unit: "N/mm",
      source: "Shigley, frusta of 30 degrees (memory): M3, 6 mm, 2 GPa; 1 in 1000",
      how: "memory",
    }),
    row({
      id: "joint.screw itself",
      model: "nip.screws",
      expected: 173,
      got: (M3.area * 206e9) / six / 1e6,
      near: { printedTo: 1 },
      unit: "kN/mm",
      source: `${springNotes}, section 4: M3 over 6 mm`,
      how: "derived",
    }),
    row({
      id: "joint.stress area of M3",
      model: "nip.screws",
      expected: 5.03,
      got: M3.area * 1e6,
      near: { printedTo: 0.01 },
      unit: "mm2",
      source: "ISO 898-1, nominal stress area of M3 (memory)",
      how: "memory",
    }),
    row({
      id: "joint.pair of screws",
      model: "nip.screws",
      expected: 271,
      got: tippingStiffness(6.7e6, [-4.5e-3, 4.5e-3]),
      near: { printedTo: 1 },
      unit: "N m/rad",
      source: `${reviewNotes}, A8: a screwed carrier, 6.7 kN/mm each, 9 mm apart`,
      how: "derived",
    }),
    row({
      id: "joint.rows of screws",
      model: "nip.screws",
      expected: (2 * screwStiffness(M3, six, 2e9, 1) * 36e-6) as number,
      got: screwTorsion.value({ n: 2, s: 12e-3, l: six, size: "M3", E: 2e9, q_i: 1 }) as number,
      near: { share: 1e-12 },
      unit: "N m/rad",
      source: "two screws 6 mm either side of their middle, by hand",
      how: "derived",
    }),
    row({
      id: "joint.clamp of the worst",
      model: "joint.clamp",
      expected: 200 * 1000 ** -0.05 - 2 - 3,
      got: clampLeft.value({
        joints: [
          { name: "plate", size: "M3", z: 4, s: 12e-3, a: 9e-3 },
          { name: "cover", size: "M4", z: 2, s: 30e-3, a: 0 },
        ],
        F_3: 200,
        n: 0.05,
        r: 1000,
        N: 8,
      }),
      near: { share: 1e-12 },
      unit: "N",
      source: "8 N on four M3 in two rows 12 mm apart, acting 9 mm off: 2 and 3 N each, by hand",
      how: "derived",
    }),
    row({
      id: "joint.left after 1000 h, PC",
      model: "nip.preload-left",
      expected: 1900 / 2200,
      got: forceLeft(exponentOf(2200, 1900, 1000), 1000),
      near: { share: 1e-9 },
      source: "PC UV grade data sheet: creep modulus 2200 MPa at 1 h, 1900 MPa at 1000 h (read); quotient by hand",
      how: "read",
    }),
    row({
      id: "joint.left after 1000 h, printed",
      model: "nip.preload-left",
      expected: 0.501,
      got: forceLeft(0.1, 1000),
      near: { printedTo: 1e-3 },
      source: `${reviewNotes}, C: relaxation 0.864 0.664 0.813 0.501`,
      how: "derived",
    }),
    row({
      id: "frame.shear of a short beam",
      model: "frame shear",
      expected: 0.09,
      got: shearOverBending(1, 3, 0.35),
      near: { printedTo: 0.001 },
      source: "Timoshenko's beam, rectangular, 5/6: 3 EI/(kappa G A l^2) at l/h 3, by hand",
      how: "derived",
    }),
  ];
}

/** Beams on foundations, the evenness of a nip, screws in plastic. */
export const frameRows = (): Row[] => [...foundationRows(), ...evenRows(), ...screwRows()];
