import {
  bearablePull,
  checkNamed,
  chosen,
  type Model,
  released,
  type Scene,
  slipWork,
  takenUp,
} from "@tapeworthy/core";
import { filmNotes, type Row, reviewNotes, row } from "./row.ts";

/** The nip's traction model, which depends on the unit alone: with a clutch or without. */
const traction = (slip: boolean): Model =>
  chosen(checkNamed("nip.pulls")!.value, { unit: { nip: slip ? { slip: {} } : {} } } as unknown as Scene)!;

/** By how much grip may leave the middle of the window between the pull and what the film bears, either way, in per cent. */
function room(pull: number): number {
  const wide = bearablePull.value({ F_b: 10, s: 1.5 }) / pull;
  return ((wide - 1) / (wide + 1)) * 100;
}

/** Grip, its window, film taken up. */
export function nipRows(): Row[] {
  const friction = traction(false);
  const clutched = traction(true);
  const window = `${reviewNotes}: break 10 N, safety 1.5`;
  return [
    row({
      id: "nip.limit seal",
      model: friction.id,
      expected: 5.06,
      got: friction.value({ N: 8.43, mu_1: 0.3, mu_2: 0.3 }),
      near: { printedTo: 0.01 },
      unit: "N",
      source: `${reviewNotes}: 8.43 N at 0.3 on both faces`,
      how: "derived",
    }),
    row({
      id: "nip.middle seal",
      model: friction.id,
      expected: 2.5,
      got: friction.value({ N: 4.17, mu_1: 0.3, mu_2: 0.3 }),
      near: { printedTo: 0.01 },
      unit: "N",
      source: `${reviewNotes}: 4.17 N at 0.3 on both faces`,
      how: "derived",
    }),
    row({
      id: "nip.force for the limit seal",
      model: friction.id,
      expected: 8.43,
      got: 5.06 / friction.value({ N: 1, mu_1: 0.3, mu_2: 0.3 }),
      near: { printedTo: 0.01 },
      unit: "N",
      source: reviewNotes,
      how: "derived",
    }),
    row({
      id: "nip.force for a middle seal",
      model: friction.id,
      expected: 4.17,
      got: 2.5 / friction.value({ N: 1, mu_1: 0.3, mu_2: 0.3 }),
      near: { printedTo: 0.01 },
      unit: "N",
      source: reviewNotes,
      how: "derived",
    }),
    row({
      id: "nip.clutch",
      model: clutched.id,
      expected: 3.2,
      got: clutched.value({ N: 7.2, mu_1: 0.7, mu_2: 0.7, M: 16e-3, r_1: 5e-3 }),
      near: { share: 1e-12 },
      unit: "N",
      source: "16 N mm on a roller of 5 mm, by hand",
      how: "derived",
    }),
    row({
      id: "nip.window of a limit seal",
      model: "film.bearable",
      expected: 13.7,
      got: room(5.06),
      near: { printedTo: 0.1 },
      unit: "%",
      source: window,
      how: "derived",
    }),
    row({
      id: "nip.window of a middle seal",
      model: "film.bearable",
      expected: 45,
      got: room(2.5),
      near: { printedTo: 1 },
      unit: "%",
      source: window,
      how: "derived",
    }),
    row({
      id: "nip.width of the window",
      model: "film.bearable",
      expected: 1.3,
      got: bearablePull.value({ F_b: 10, s: 1.5 }) / 5.06,
      near: { printedTo: 0.1 },
      source: `${filmNotes}, section 8`,
      how: "derived",
    }),
    row({
      id: "nip.released",
      model: released.id,
      expected: 8.04,
      got: released.value({ P_1: 8, C_10: 0.2, P_0: 4 }),
      near: { share: 1e-12 },
      unit: "mm",
      source:
        "Embossed carrier tape, EIA-481-D, p. 13: 0.2 mm over ten pitches (read); half a per cent of 8 mm, by hand",
      how: "derived",
    }),
    row({
      id: "nip.taken up",
      model: takenUp.id,
      expected: 10,
      got: takenUp.value({ o: 1.25, P_1: 8 }),
      near: { share: 1e-12 },
      unit: "mm",
      source: "1.25 of 8 mm, by hand",
      how: "derived",
    }),
    row({
      id: "nip.slip work",
      model: slipWork.id,
      expected: 12,
      got: slipWork.value({ S: 5, o: 1.3, P_1: 8 }),
      near: { share: 1e-12 },
      unit: "mJ",
      source: "5 N over 0.3 of 8 mm, by hand",
      how: "derived",
    }),
  ];
}
