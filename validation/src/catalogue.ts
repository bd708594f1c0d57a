import {
  hubForBend,
  leader,
  nominalOf,
  reelA,
  reelC,
  reelN,
  reels,
  rowFigure,
  rowOf,
  type TapeKind,
} from "@tapeworthy/core";
import { type How, type Row, row } from "./row.ts";

const narrow = "Embossed carrier tape, 8 to 24 mm, EIA-481-D, p. 13, Table 2";
const wide = "Embossed carrier tape, 32 to 200 mm, EIA-481-D, p. 15, Table 3";
const paper = "A ceramic capacitor maker's data sheet, punched paper tape, 8 mm, Table 7";
const four = "Embossed carrier tape, 4 mm: remembered, no source with figures was found";
const board = "Pressed carrier tape, 8 mm: remembered, its table was not read";
const paperOfIEC = "Chip resistor packaging sheet (1996) after IEC 286-3, second edition";

/** Figures typed from the sources again, apart from the catalogue: kind, width, letter, value, tolerance either way (none: a limit), source. */
const figures: readonly (readonly [
  kind: TapeKind,
  width: number,
  letter: string,
  value: number,
  tolerance: number | undefined,
  source: string,
  how?: How,
])[] = [
  ["embossed", 8, "F", 3.5, 0.05, narrow],
  ["embossed", 8, "E1", 1.75, 0.1, narrow],
  ["embossed", 8, "R", 25, undefined, narrow],
  ["embossed", 8, "T2", 2.5, undefined, narrow],
  ["embossed", 8, "B1", 4.35, undefined, narrow],
  ["embossed", 8, "Wmax", 8.3, undefined, narrow],
  ["embossed", 12, "F", 5.5, 0.05, narrow],
  ["embossed", 12, "E2", 10.25, undefined, narrow],
  ["embossed", 12, "P2", 2, 0.05, narrow],
  ["embossed", 12, "B1", 8.2, undefined, narrow],
  ["embossed", 12, "T2", 6.5, undefined, narrow],
  ["embossed", 12, "D1", 1.5, undefined, narrow],
  ["embossed", 16, "F", 7.5, 0.1, narrow],
  ["embossed", 16, "B1", 12.1, undefined, narrow],
  ["embossed", 16, "T2", 8, undefined, narrow],
  ["embossed", 16, "R", 30, undefined, narrow],
  ["embossed", 24, "F", 11.5, 0.1, narrow],
  ["embossed", 24, "P0", 4, 0.1, narrow],
  ["embossed", 24, "T", 0.6, undefined, narrow],
  ["embossed", 24, "T1", 0.1, undefined, narrow],
  ["embossed", 24, "Wmax", 24.3, undefined, narrow],
  ["embossed", 32, "W", 32, 0.3, wide],
  ["embossed", 32, "F", 14.2, 0.1, wide],
  ["embossed", 32, "R", 50, undefined, wide],
  ["embossed", 44, "F", 20.2, 0.15, wide],
  ["embossed", 44, "S0", 40.4, 0.1, wide],
  ["embossed", 44, "B1", 35, undefined, wide],
  ["embossed", 56, "F", 26.2, 0.15, wide],
  ["embossed", 72, "R", 75, undefined, wide],
  ["embossed", 88, "F", 42.2, 0.3, wide],
  ["embossed", 104, "T2", 35, undefined, wide],
  ["embossed", 200, "F", 98.2, 0.5, wide],
  ["embossed", 200, "B1", 185, undefined, wide],
  ["punched", 8, "W", 8, undefined, paperOfIEC],
  ["punched", 8, "Wmax", 8.3, undefined, paper],
  ["punched", 8, "F", 3.5, 0.05, paper],
  ["punched", 8, "T", 1.1, undefined, paper],
  ["punched", 8, "T1", 0.1, undefined, paper],
  ["punched", 8, "R", 25, undefined, paper],
  ["punched", 8, "G", 0.75, undefined, paper],
  ["punched", 8, "P2", 2, 0.05, paperOfIEC],
  ["punched", 8, "tenPitchError", 0.2, undefined, paper],
  ["embossed", 4, "W", 4, 0.08, four, "memory"],
  ["embossed", 4, "E1", 0.9, 0.05, four, "memory"],
  ["embossed", 4, "F", 1.8, 0.02, four, "memory"],
  ["embossed", 4, "D0", 0.8, 0.04, four, "memory"],
  ["embossed", 4, "P0", 2, 0.04, four, "memory"],
  ["embossed", 4, "P2", 1, 0.02, four, "memory"],
  ["pressed", 8, "E1", 1.75, 0.1, narrow],
  ["pressed", 8, "P0", 4, 0.1, narrow],
  ["pressed", 8, "T1", 0.1, undefined, narrow],
  ["pressed", 8, "tenPitchError", 0.2, undefined, wide],
  ["pressed", 8, "F", 3.5, 0.05, board, "memory"],
  ["pressed", 8, "P2", 2, 0.05, board, "memory"],
  ["pressed", 8, "Wmax", 8.3, undefined, board, "memory"],
  ["pressed", 8, "T", 0.5, undefined, board, "memory"],
  ["pressed", 8, "R", 25, undefined, board, "memory"],
  ["punched", 12, "F", 5.5, 0.05, "Punched carrier tape, 12 mm, EIA-481: remembered, its table was not read", "memory"],
];

/** What the catalogue gives for a letter, and its tolerance, mm. */
function catalogued(
  kind: TapeKind,
  width: number,
  letter: string,
): { readonly value: number; readonly tolerance: number } {
  const figure = (rowOf(kind, width) as Readonly<Record<string, unknown>> | undefined)?.[letter] as
    | { value: number; tol?: readonly [number, number] }
    | undefined;
  const g = ["W", "E1", "F", "D0", "P0", "P2", "S0", "R"].includes(letter) ? rowFigure(kind, width, letter) : undefined;
  const scatter = g?.scatters[0];
  return {
    // As a quantity where a check can read it, else as the table has it.
    value: g ? +(nominalOf(g) * 1e3).toFixed(9) : (figure?.value ?? Number.NaN),
    tolerance: scatter?.law === "uniform" ? +(scatter.to * 1e3).toFixed(9) : (figure?.tol?.[1] ?? Number.NaN),
  };
}

const sot23 = "SOT-23 tape and reel data, revision C (1999), Figures 3.0 and 4.0";
const trimmer = "SMT trimmer packaging sheet (2014)";
const sop = "28-pin SOP package information (2008): reel, carrier, cover width";
const iecSheet = "Packaging of chip and MELF resistors (2009), document 28704, IEC 60286-3 types I and II";
/** Figures of reels typed from their sources again: what, value, what the catalogue has, source. */
const ofReels: readonly (readonly [what: string, value: number, got: number | undefined, source: string, how?: How])[] =
  [
    ["8 mm W1", 8.4, reels[8].W1.value, sot23],
    ["8 mm W1, upwards", 1.5, reels[8].W1.tol?.[1], sot23],
    ["8 mm W2", 14.4, reels[8].W2.value, sot23],
    ["8 mm W3, inside", 7.9, reels[8].W3?.low, sot23],
    ["8 mm W3, outside", 10.9, reels[8].W3?.high, sot23],
    ["12 mm W1", 12.4, reels[12].W1.value, trimmer],
    ["12 mm W1, upwards", 2, reels[12].W1.tol?.[1], trimmer],
    ["12 mm W2", 18.4, reels[12].W2.value, trimmer],
    ["24 mm W1 of a maker", 24.8, reels[24].W1makers?.[0]?.value, sop],
    ["24 mm W2 of a maker", 30.2, reels[24].W2makers?.[0]?.value, sop],
    ["32 mm W1", 32.4, reels[32].W1.value, "A logic and analogue maker's package-materials sheets, nominal figures"],
    [
      "44 mm W2",
      50.4,
      reels[44].W2.value,
      "Reel of 44 mm tape: remembered, fits W + 6.4 as the rows read do",
      "memory",
    ],
    ["A, 7 in, either way", 2, reelA[0]?.tol?.[1], trimmer],
    ["C", 13, reelC.value, sot23],
    ["N of a 13 in reel", 100, reelN.at(-1)?.value, sop],
    ["leader", 400, leader.total.value, iecSheet],
    ["leader, empty pockets", 160, leader.empty.value, iecSheet],
    ["trailer", 160, leader.trailer.value, iecSheet],
    [
      "N for the bend of 12 mm tape",
      60,
      hubForBend(30).value,
      `${narrow}: R 30 mm (read); twice that, by hand`,
      "derived",
    ],
  ];

/** Published letters of carrier tape and of its reels. */
export const catalogueRows = (): Row[] => [...letterRows(), ...reelRows()];
const reelRows = (): Row[] =>
  ofReels.map(([what, expected, got = Number.NaN, source, how = "read"]) =>
    row({ id: `reel ${what}`, model: "catalogue", expected, got, near: { within: 1e-9 }, unit: "mm", source, how }),
  );
const letterRows = (): Row[] =>
  figures.flatMap(([kind, width, letter, value, tolerance, source, how = "read"]) => {
    const found = catalogued(kind, width, letter);
    const same = (id: string, expected: number, got: number) =>
      row({ id, model: "catalogue", expected, got, near: { within: 1e-9 }, unit: "mm", source, how });
    return [
      same(`${kind} ${width} mm ${letter}`, value, found.value),
      ...(tolerance === undefined
        ? []
        : [same(`${kind} ${width} mm ${letter}, tolerance`, tolerance, found.tolerance)]),
    ];
  });
