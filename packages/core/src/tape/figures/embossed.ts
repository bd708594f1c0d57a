import { D0, E1, P0, tenPitchError } from "./every-width.ts";
import type { Figure } from "./figure.ts";
import { least, max, memory, min, most, pm, read } from "./figure.ts";
import type { Pitches } from "./pitch.ts";
import { readPitches, readSteps } from "./pitch.ts";

/**
 * Embossed carrier tape, one row a width. Lengths in mm, rotation in degrees; the standards' letters.
 * EIA-481-D as read comes first; other sources that print the same figure stand beside it, and those that
 * differ are in disagreements.ts. 8 to 24 mm give Wmax, E2 and S1; 32 to 200 mm give W with a tolerance and S0.
 */
export type EmbossedWidth = 8 | 12 | 16 | 24 | 32 | 44 | 56 | 72 | 88 | 104 | 120 | 136 | 152 | 168 | 184 | 200;

export interface EmbossedRow {
  /** Tape width; nominal where Wmax is given. */
  readonly W: Figure;
  readonly Wmax?: Figure;
  /** Widths as makers draw them, with their tolerance. */
  readonly Wmakers?: readonly Figure[];
  /** Sprocket hole, and the hole in the pocket floor (least). */
  readonly D0: Figure;
  readonly D1: Figure;
  /** Sprocket edge to hole line. */
  readonly E1: Figure;
  /** W - 1.75 in every row (least). */
  readonly E2?: Figure;
  /** Hole line to pocket centre, across the tape. */
  readonly F: Figure;
  /** Pitch of the holes, of the pockets; hole to pocket centre along the tape. */
  readonly P0: Figure;
  readonly P1: Pitches;
  readonly P2: Figure;
  /** Round row to elongated row. */
  readonly S0?: Figure;
  /** Land for the seal (least). */
  readonly S1?: Figure;
  /** Bend the tape must pass. */
  readonly R: Figure;
  /** Carrier, cover film, and whole height with pocket (most). */
  readonly T: Figure;
  readonly T1: Figure;
  readonly T2: Figure;
  /** Pocket across the tape, outside, draft included: for the feeder's reference (most). */
  readonly B1: Figure;
  /** Pocket depth in an older form (most). */
  readonly K0old?: Figure;
  /** Turn and sideways shift of the part in its pocket (most). */
  readonly rotation: Figure;
  readonly lateral: Figure;
  readonly tenPitchError: Figure;
}

const mislabelled = "one sheet (SO8) labels this a maximum: a mislabel";
const bend = "filled or empty, the tape must pass round it unharmed; two older sheets print it as a minimum";
const spanned = "merged cells: 50 spans 32 to 56 mm, 75 spans 72 to 200 mm";
const SO8prints = "SO8 prints ±0.10, all others ±0.05";
const tighterP2 = "two makers' sheets print ±0.05 at all their widths";
const olderB1 = "older sheets print 4.55 and warn that above 4.2 some machines may not feed it";
const revised = "IEC 60286-3:2022 revised this tolerance; its figure was not read";
const merged40 = "merged cell: 40.0 stands on the 200 mm row";
const maybe35 = "merged cell, ambiguous: 35.0 stands on the 104 row and 40.0 on the 200 row, so this may be 35.0";
const oldK0 = "EIA-481-D limits no K0: T2 governs, and T2 max less 0.1 is this figure";

const lateral16and24: Figure = memory(1, {
  limit: "max",
  sources: ["EIA-B slides", "memory"],
  note: "the slides print 0.1; taken as 1.0, as the standard is remembered",
});
const wideRotation: Figure = memory(10, {
  limit: "max",
  confidence: "high",
  note: "EIA-481-C and -D leave it to a drawing that was not read",
});
const wideLateral: Figure = read(
  1,
  ["EIA-481-C fragments"],
  most("note (d) of the wide-tape table, machine-read text"),
);

export const embossed: Readonly<Record<EmbossedWidth, EmbossedRow>> = {
  8: {
    W: read(8, ["EIA-481-D p13", "SO8"]),
    Wmax: read(8.3, ["EIA-481-D p13", "C1003", "T2020", "older EIA", "EIA-B slides"], max),
    Wmakers: [
      read(8, ["SOT-23 rev C", "IEC 286-3 sheet"], { tol: pm(0.3) }),
      read(8, ["SS-241", "28704"], { tol: [-0.1, 0.3], note: "EIA-481-1 and IEC 60286-3 blister" }),
    ],
    D0,
    D1: read(1, ["EIA-481-D p13", "C1003", "T2020", "older EIA", "SS-241", "EIA-B slides"], least(mislabelled)),
    E1,
    E2: read(6.25, ["EIA-481-D p13", "C1003", "T2020", "EIA-B slides"], min),
    F: read(3.5, ["EIA-481-D p13", "C1003", "T2020", "older EIA", "SO8", "SS-241", "EIA-B slides"], {
      tol: pm(0.05),
      note: SO8prints,
    }),
    P0,
    P1: readPitches({ 2: 0.05, 4: 0.1 }, ["EIA-481-D p13", "T2020", "EIA-B slides"]),
    P2: read(2, ["EIA-481-D p13", "EIA-B slides", "C1003"], { tol: pm(0.05) }),
    S1: read(0.6, ["EIA-481-D p13", "C1003", "T2020"], min),
    R: read(25, ["EIA-481-D p13", "C1003", "T2020", "older EIA", "SS-241"], { limit: "ref", note: bend }),
    T: read(0.6, ["EIA-481-D p13", "C1003", "T2020", "older EIA", "SS-241", "EIA-B slides"], max),
    T1: read(0.1, ["EIA-481-D p13", "C1003", "T2020", "SS-241"], max),
    T2: read(2.5, ["EIA-481-D p13", "C1003", "T2020", "SS-241", "EIA-B slides"], max),
    B1: read(4.35, ["EIA-481-D p13", "C1003", "T2020", "EIA-B slides"], most(olderB1)),
    K0old: read(2.4, ["older EIA"], most(oldK0)),
    rotation: read(20, ["EIA-481-D p13", "capacitor table 7", "SOT-23 rev C", "EIA-B slides"], max),
    lateral: read(0.5, ["capacitor table 7", "SOT-23 rev C", "EIA-B slides"], max),
    tenPitchError,
  },
  12: {
    W: read(12, ["EIA-481-D p13", "SO8"]),
    Wmax: read(12.3, ["EIA-481-D p13", "C1003", "T2020", "older EIA", "EIA-B slides"], max),
    Wmakers: [read(12, ["SO8", "SS-241", "28704", "TSSOP drawing 1997"], { tol: pm(0.3) })],
    D0,
    D1: read(1.5, ["EIA-481-D p13", "C1003", "T2020", "older EIA", "SS-241", "EIA-B slides"], least(mislabelled)),
    E1,
    E2: read(10.25, ["EIA-481-D p13", "C1003", "T2020", "EIA-B slides"], min),
    F: read(5.5, ["EIA-481-D p13", "C1003", "T2020", "older EIA", "SO8", "SS-241", "EIA-B slides"], { tol: pm(0.05) }),
    P0,
    P1: readPitches({ 2: 0.05, 4: 0.1, 8: 0.1 }, ["EIA-481-D p13", "T2020", "EIA-B slides"]),
    P2: read(2, ["EIA-481-D p13", "EIA-B slides", "C1003"], { tol: pm(0.05) }),
    S1: read(0.6, ["EIA-481-D p13", "C1003", "T2020"], min),
    R: read(30, ["EIA-481-D p13", "C1003", "T2020", "older EIA", "SS-241"], { limit: "ref", note: bend }),
    T: read(0.6, ["EIA-481-D p13", "C1003", "T2020", "older EIA", "SS-241", "EIA-B slides"], max),
    T1: read(0.1, ["EIA-481-D p13", "C1003", "T2020", "SS-241"], max),
    T2: read(6.5, ["EIA-481-D p13", "SS-241", "EIA-B slides"], most("C1003, T2020: their own limit is 4.6")),
    B1: read(8.2, ["EIA-481-D p13", "C1003", "T2020", "EIA-B slides"], most("two older sheets agree")),
    K0old: read(6.4, ["older EIA"], most(oldK0)),
    rotation: read(20, ["EIA-481-D p13", "EIA-B slides"], max),
    lateral: read(0.5, ["EIA-B slides"], max),
    tenPitchError,
  },
  16: {
    W: read(16, ["EIA-481-D p13"]),
    Wmax: read(16.3, ["EIA-481-D p13", "C1003", "older EIA", "SO8", "EIA-B slides"], max),
    Wmakers: [read(16, ["module packing page"], { tol: pm(0.3) }), read(16, ["SMA taping sheet"], { tol: pm(0.2) })],
    D0,
    D1: read(1.5, ["EIA-481-D p13", "C1003", "older EIA", "EIA-B slides"], least(mislabelled)),
    E1,
    E2: read(14.25, ["EIA-481-D p13", "C1003", "EIA-B slides"], min),
    F: read(7.5, ["EIA-481-D p13", "C1003", "older EIA", "SO8", "EIA-B slides"], {
      tol: pm(0.1),
      note: "C1003 prints ±0.05",
    }),
    P0,
    P1: readPitches({ 4: 0.1, 8: 0.1, 12: 0.1 }, ["EIA-481-D p13", "EIA-B slides"]),
    P2: read(2, ["EIA-481-D p13", "EIA-B slides"], { tol: pm(0.1), note: tighterP2 }),
    S1: read(0.6, ["EIA-481-D p13", "C1003"], min),
    R: read(30, ["EIA-481-D p13", "C1003", "older EIA"], { limit: "ref", note: bend }),
    T: read(0.6, ["EIA-481-D p13", "C1003", "older EIA", "EIA-B slides"], max),
    T1: read(0.1, ["EIA-481-D p13", "C1003"], max),
    T2: read(8, ["EIA-481-D p13", "EIA-B slides"], max),
    B1: read(12.1, ["EIA-481-D p13", "C1003", "EIA-B slides"], most("two older sheets agree")),
    K0old: read(7.9, ["older EIA"], most(oldK0)),
    rotation: read(10, ["EIA-481-D p13", "EIA-B slides"], max),
    lateral: lateral16and24,
    tenPitchError,
  },
  24: {
    W: read(24, ["EIA-481-D p13"]),
    Wmax: read(24.3, ["EIA-481-D p13", "older EIA", "SO8", "EIA-B slides"], max),
    Wmakers: [read(24, ["28-pin SOP 2008"], { tol: [-0.1, 0.3] }), read(24, ["module packing page"], { tol: pm(0.3) })],
    D0,
    D1: read(1.5, ["EIA-481-D p13", "older EIA", "EIA-B slides"], least(mislabelled)),
    E1,
    E2: read(22.25, ["EIA-481-D p13", "EIA-B slides"], min),
    F: read(11.5, ["EIA-481-D p13", "older EIA", "SO8", "EIA-B slides"], { tol: pm(0.1) }),
    P0,
    P1: readPitches({ 4: 0.1, 8: 0.1, 12: 0.1, 16: 0.1, 20: 0.1 }, ["EIA-481-D p13", "SO8", "EIA-B slides"]),
    P2: read(2, ["EIA-481-D p13", "EIA-B slides"], { tol: pm(0.1), note: tighterP2 }),
    S1: read(0.6, ["EIA-481-D p13"], min),
    R: read(30, ["EIA-481-D p13", "older EIA"], { limit: "ref", note: bend }),
    T: read(0.6, ["EIA-481-D p13", "older EIA", "EIA-B slides"], max),
    T1: read(0.1, ["EIA-481-D p13"], max),
    T2: read(12, ["EIA-481-D p13", "EIA-B slides"], max),
    B1: read(20.1, ["EIA-481-D p13", "EIA-B slides"], most("two older sheets agree")),
    K0old: read(11.9, ["older EIA"], most(oldK0)),
    rotation: read(10, ["EIA-481-D p13", "EIA-B slides"], max),
    lateral: lateral16and24,
    tenPitchError,
  },
  32: {
    W: read(32, ["EIA-481-D p15", "logic package sheets"], { tol: pm(0.3) }),
    D0,
    D1: read(2, ["EIA-481-D p15"], min),
    E1,
    F: read(14.2, ["EIA-481-D p15"], { tol: pm(0.1) }),
    P0,
    P1: readSteps(4, 32, 4, 0.1, ["EIA-481-D p15"]),
    P2: read(2, ["EIA-481-D p15"], { tol: pm(0.1) }),
    S0: read(28.4, ["EIA-481-D p15"], { tol: pm(0.1) }),
    R: read(50, ["EIA-481-D p15"], { limit: "ref", note: spanned }),
    T: read(0.6, ["EIA-481-D p15"], max),
    T1: read(0.1, ["EIA-481-D p15"], max),
    T2: read(12, ["EIA-481-D p15"], max),
    B1: read(23, ["EIA-481-D p15"], max),
    rotation: wideRotation,
    lateral: wideLateral,
    tenPitchError,
  },
  44: {
    W: read(44, ["EIA-481-D p15", "module packing page"], { tol: pm(0.3) }),
    D0,
    D1: read(2, ["EIA-481-D p15"], min),
    E1,
    F: read(20.2, ["EIA-481-D p15"], { tol: pm(0.15) }),
    P0,
    P1: readSteps(4, 44, 4, 0.1, ["EIA-481-D p15"]),
    P2: read(2, ["EIA-481-D p15"], { tol: pm(0.15) }),
    S0: read(40.4, ["EIA-481-D p15", "module packing page"], { tol: pm(0.1) }),
    R: read(50, ["EIA-481-D p15"], { limit: "ref", note: spanned }),
    T: read(0.6, ["EIA-481-D p15"], max),
    T1: read(0.1, ["EIA-481-D p15"], max),
    T2: read(16, ["EIA-481-D p15"], max),
    B1: read(35, ["EIA-481-D p15"], max),
    rotation: wideRotation,
    lateral: wideLateral,
    tenPitchError,
  },
  56: {
    W: read(56, ["EIA-481-D p15"], { tol: pm(0.3) }),
    D0,
    D1: read(2, ["EIA-481-D p15"], min),
    E1,
    F: read(26.2, ["EIA-481-D p15"], { tol: pm(0.15) }),
    P0,
    P1: readSteps(4, 56, 4, 0.1, ["EIA-481-D p15"]),
    P2: read(2, ["EIA-481-D p15"], { tol: pm(0.15) }),
    S0: read(52.4, ["EIA-481-D p15"], { tol: pm(0.1) }),
    R: read(50, ["EIA-481-D p15"], { limit: "ref", note: spanned }),
    T: read(0.6, ["EIA-481-D p15"], max),
    T1: read(0.1, ["EIA-481-D p15"], max),
    T2: read(20, ["EIA-481-D p15"], max),
    B1: read(46, ["EIA-481-D p15"], max),
    rotation: wideRotation,
    lateral: wideLateral,
    tenPitchError,
  },
  72: {
    W: read(72, ["EIA-481-D p15", "EIA-481-C fragments"], { tol: pm(0.3), note: revised }),
    D0,
    D1: read(2, ["EIA-481-D p15"], min),
    E1,
    F: read(34.2, ["EIA-481-D p15"], { tol: pm(0.3) }),
    P0,
    P1: readSteps(4, 72, 4, 0.1, ["EIA-481-D p15"]),
    P2: read(2, ["EIA-481-D p15"], { tol: pm(0.2) }),
    S0: read(68.4, ["EIA-481-D p15", "EIA-481-C fragments"], { tol: pm(0.1) }),
    R: read(75, ["EIA-481-D p15"], { limit: "ref", note: spanned }),
    T: read(0.6, ["EIA-481-D p15"], max),
    T1: read(0.1, ["EIA-481-D p15"], max),
    T2: read(30, ["EIA-481-D p15"], most("merged cell: 30.0 stands on the 88 mm row")),
    B1: read(60, ["EIA-481-D p15"], max),
    rotation: wideRotation,
    lateral: wideLateral,
    tenPitchError,
  },
  88: {
    W: read(88, ["EIA-481-D p15", "EIA-481-C fragments"], { tol: pm(0.3) }),
    D0,
    D1: read(2, ["EIA-481-D p15"], min),
    E1,
    F: read(42.2, ["EIA-481-D p15", "EIA-481-C fragments"], { tol: pm(0.3) }),
    P0,
    P1: readSteps(4, 72, 4, 0.1, ["EIA-481-D p15"]),
    P2: read(2, ["EIA-481-D p15"], { tol: pm(0.2) }),
    S0: read(84.4, ["EIA-481-D p15", "EIA-481-C fragments"], { tol: pm(0.1) }),
    R: read(75, ["EIA-481-D p15"], { limit: "ref", note: spanned }),
    T: read(0.6, ["EIA-481-D p15"], max),
    T1: read(0.1, ["EIA-481-D p15"], max),
    T2: read(30, ["EIA-481-D p15"], max),
    B1: read(76, ["EIA-481-D p15"], max),
    rotation: wideRotation,
    lateral: wideLateral,
    tenPitchError,
  },
  104: {
    W: read(104, ["EIA-481-D p15", "EIA-481-C fragments"], { tol: pm(0.3) }),
    D0,
    D1: read(2, ["EIA-481-D p15"], min),
    E1,
    F: read(50.2, ["EIA-481-D p15"], { tol: pm(0.35) }),
    P0,
    P1: readSteps(4, 72, 4, 0.1, ["EIA-481-D p15"]),
    P2: read(2, ["EIA-481-D p15"], { tol: pm(0.2) }),
    S0: read(100.4, ["EIA-481-D p15", "EIA-481-C fragments"], { tol: pm(0.1) }),
    R: read(75, ["EIA-481-D p15"], { limit: "ref", note: spanned }),
    T: read(0.6, ["EIA-481-D p15"], max),
    T1: read(0.1, ["EIA-481-D p15"], max),
    T2: read(35, ["EIA-481-D p15"], max),
    B1: read(91, ["EIA-481-D p15"], max),
    rotation: wideRotation,
    lateral: wideLateral,
    tenPitchError,
  },
  120: {
    W: read(120, ["EIA-481-D p15", "EIA-481-C fragments"], { tol: pm(0.3) }),
    D0,
    D1: read(2, ["EIA-481-D p15"], min),
    E1,
    F: read(58.2, ["EIA-481-D p15"], { tol: pm(0.35) }),
    P0,
    P1: readSteps(4, 72, 4, 0.1, ["EIA-481-D p15"]),
    P2: read(2, ["EIA-481-D p15"], { tol: pm(0.2) }),
    S0: read(116.4, ["EIA-481-D p15"], { tol: pm(0.1) }),
    R: read(75, ["EIA-481-D p15"], { limit: "ref", note: spanned }),
    T: read(0.6, ["EIA-481-D p15"], max),
    T1: read(0.1, ["EIA-481-D p15"], max),
    T2: read(40, ["EIA-481-D p15"], { limit: "max", confidence: "low", note: maybe35 }),
    B1: read(107, ["EIA-481-D p15"], max),
    rotation: wideRotation,
    lateral: wideLateral,
    tenPitchError,
  },
  136: {
    W: read(136, ["EIA-481-D p15", "EIA-481-C fragments"], { tol: pm(0.3) }),
    D0,
    D1: read(2, ["EIA-481-D p15"], min),
    E1,
    F: read(66.2, ["EIA-481-D p15"], { tol: pm(0.4) }),
    P0,
    P1: readSteps(4, 72, 4, 0.1, ["EIA-481-D p15"]),
    P2: read(2, ["EIA-481-D p15"], { tol: pm(0.2) }),
    S0: read(132.4, ["EIA-481-D p15", "EIA-481-C fragments"], { tol: pm(0.1) }),
    R: read(75, ["EIA-481-D p15"], { limit: "ref", note: spanned }),
    T: read(0.6, ["EIA-481-D p15"], max),
    T1: read(0.1, ["EIA-481-D p15"], max),
    T2: read(40, ["EIA-481-D p15"], { limit: "max", confidence: "medium", note: merged40 }),
    B1: read(123, ["EIA-481-D p15"], max),
    rotation: wideRotation,
    lateral: wideLateral,
    tenPitchError,
  },
  152: {
    W: read(152, ["EIA-481-D p15"], { tol: pm(0.3) }),
    D0,
    D1: read(2, ["EIA-481-D p15"], min),
    E1,
    F: read(74.2, ["EIA-481-D p15"], { tol: pm(0.4) }),
    P0,
    P1: readSteps(4, 72, 4, 0.1, ["EIA-481-D p15"]),
    P2: read(2, ["EIA-481-D p15"], { tol: pm(0.2) }),
    S0: read(148.4, ["EIA-481-D p15"], { tol: pm(0.1) }),
    R: read(75, ["EIA-481-D p15"], { limit: "ref", note: spanned }),
    T: read(0.6, ["EIA-481-D p15"], max),
    T1: read(0.1, ["EIA-481-D p15"], max),
    T2: read(40, ["EIA-481-D p15"], { limit: "max", confidence: "medium", note: merged40 }),
    B1: read(139, ["EIA-481-D p15"], max),
    rotation: wideRotation,
    lateral: wideLateral,
    tenPitchError,
  },
  168: {
    W: read(168, ["EIA-481-D p15"], { tol: pm(0.3) }),
    D0,
    D1: read(2, ["EIA-481-D p15"], min),
    E1,
    F: read(82.2, ["EIA-481-D p15"], { tol: pm(0.45) }),
    P0,
    P1: readSteps(4, 72, 4, 0.1, ["EIA-481-D p15"]),
    P2: read(2, ["EIA-481-D p15"], { tol: pm(0.2) }),
    S0: read(164.4, ["EIA-481-D p15"], { tol: pm(0.1) }),
    R: read(75, ["EIA-481-D p15"], { limit: "ref", note: spanned }),
    T: read(0.6, ["EIA-481-D p15"], max),
    T1: read(0.1, ["EIA-481-D p15"], max),
    T2: read(40, ["EIA-481-D p15"], { limit: "max", confidence: "medium", note: merged40 }),
    B1: read(153, ["EIA-481-D p15"], max),
    rotation: wideRotation,
    lateral: wideLateral,
    tenPitchError,
  },
  184: {
    W: read(184, ["EIA-481-D p15"], { tol: pm(0.3) }),
    D0,
    D1: read(2, ["EIA-481-D p15"], min),
    E1,
    F: read(90.2, ["EIA-481-D p15"], { tol: pm(0.45) }),
    P0,
    P1: readSteps(4, 72, 4, 0.1, ["EIA-481-D p15"]),
    P2: read(2, ["EIA-481-D p15"], { tol: pm(0.2) }),
    S0: read(180.4, ["EIA-481-D p15"], { tol: pm(0.1) }),
    R: read(75, ["EIA-481-D p15"], { limit: "ref", note: spanned }),
    T: read(0.6, ["EIA-481-D p15"], max),
    T1: read(0.1, ["EIA-481-D p15"], max),
    T2: read(40, ["EIA-481-D p15"], { limit: "max", confidence: "medium", note: merged40 }),
    B1: read(169, ["EIA-481-D p15"], max),
    rotation: wideRotation,
    lateral: wideLateral,
    tenPitchError,
  },
  200: {
    W: read(200, ["EIA-481-D p15"], { tol: pm(0.3) }),
    D0,
    D1: read(2, ["EIA-481-D p15"], min),
    E1,
    F: read(98.2, ["EIA-481-D p15"], { tol: pm(0.5) }),
    P0,
    P1: readSteps(4, 72, 4, 0.1, ["EIA-481-D p15"]),
    P2: read(2, ["EIA-481-D p15"], { tol: pm(0.2) }),
    S0: read(196.4, ["EIA-481-D p15"], { tol: pm(0.1) }),
    R: read(75, ["EIA-481-D p15"], { limit: "ref", note: spanned }),
    T: read(0.6, ["EIA-481-D p15"], max),
    T1: read(0.1, ["EIA-481-D p15"], max),
    T2: read(40, ["EIA-481-D p15"], { limit: "max", confidence: "medium", note: merged40 }),
    B1: read(185, ["EIA-481-D p15"], max),
    rotation: wideRotation,
    lateral: wideLateral,
    tenPitchError,
  },
};

export const embossedWidths: readonly EmbossedWidth[] = [
  8, 12, 16, 24, 32, 44, 56, 72, 88, 104, 120, 136, 152, 168, 184, 200,
];
