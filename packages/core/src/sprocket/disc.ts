import { discParty, pocketParty, wantedGap } from "../clearance/wanted.ts";
import type { Check } from "../quantity/check.ts";
import { model } from "../quantity/model.ts";
import { noPockets } from "../tape/pocket.ts";

/**
 * The wheel's disc beside the pockets.
 *
 *     y_p = E_1 + F - B_1/2      near side of the pocket from the tape's edge, m
 *     y_d = d + g_w              far face of the disc with the gap it should keep, m
 *
 * E_1, F, B_1 letters of the served tape; d far face of the disc, g_w the gap it should keep. The pocket counts as wide as it is anywhere: draft
 * of its walls is left out. With the standards' greatest B_1, y_p is 3.08, 3.15, 3.20 and 3.20 mm at 8, 12, 16 and 24 mm tape, 1.33 to 1.45
 * mm beyond the hole line (derived). The tape's play on its teeth is not in here.
 */
export const pocketSide = model({
  id: "tape.pocket-side",
  symbol: "y_p",
  unit: "m",
  title: "near side of the pockets from the tape's edge",
  equation: "E_1 + F - B_1/2",
  form: "closed",
  origin: { cite: "EIA-481-D, letters of the embossed tape", how: "derived" },
  reads: ({ tape }) =>
    tape.kind === "embossed" ? { E_1: tape.letters.E1, F: tape.letters.F, B_1: tape.letters.B1 } : undefined,
  value: ({ E_1, F, B_1 }) => E_1 + F - B_1 / 2,
});
export const discReach = model({
  id: "sprocket.disc-reach",
  symbol: "y_d",
  unit: "m",
  title: "far face of the wheel's disc with the gap it should keep",
  equation: "d + g_w",
  form: "closed",
  origin: { cite: "unit file", how: "read" },
  reads: ({ unit }) =>
    unit.sprocket?.disc && { d: unit.sprocket.disc.to, g_w: wantedGap(unit, pocketParty, discParty) },
  value: ({ d, g_w }) => d + g_w,
});
export const checkDisc: Check = {
  id: "tooth.disc",
  station: 6,
  severity: "S",
  status: "established",
  title: "the wheel's disc stays clear of the pockets",
  value: pocketSide,
  atLeast: discReach,
  absent: ({ unit, tape }) =>
    noPockets(tape.kind) ??
    (unit.sprocket
      ? unit.sprocket.disc
        ? undefined
        : "the unit file does not say how wide the wheel's disc is"
      : "the unit has no sprocket"),
  because: (say) =>
    `The pockets begin ${say(pocketSide)} from the tape's edge; the wheel's disc needs the first ${say(discReach)}.`,
};
