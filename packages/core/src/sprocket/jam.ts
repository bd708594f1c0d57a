import { driveOf, gapOfTrain, inertiaOf, motors } from "../drive/motor.ts";
import { one } from "../quantity/bound.ts";
import type { Check } from "../quantity/check.ts";
import { model } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import { holeStrength } from "./bears.ts";
import { noSprocket, pitchRadius } from "./wheel.ts";

/**
 * The tape is grabbed while the rotor runs: the hole yields first, and the rotor's energy tears it open.
 *
 *     x_t = e J N^2 v^2/(2 r_p^2 F_hole)      length of the tear, m
 *     l   = P_0 - D_0                         land between two holes, m
 *
 * e share of the rotor's energy that comes through the worm (its efficiency, the wheel held back), 0 .. 1; J inertia of the rotor, kg m2; N
 * turns of the rotor for one of the wheel; v speed of the tape, m/s: its mean over an index, which a fast drive exceeds by half; r_p pitch
 * line of the wheel; F_hole what one hole bears, N.
 *
 * The motor goes on pushing: a run of the whole cycle gives 12 to 16 % more force than the rotor's energy alone (unpublished working notes),
 * and a worm that locks holds what it has reached. A torn land hands over to the next hole. A clutch or give between motor and wheel takes
 * its share first and is left out.
 */
export const tear = model({
  id: "hole.tear",
  symbol: "x_t",
  unit: "m",
  title: "length that a jam tears of a hole",
  equation: "e*J*N^2*v^2/(2*r_p^2*F_hole)",
  form: "closed",
  origin: {
    cite: "An independent re-derivation of the pages, C15 (review of the unpublished working notes)",
    how: "derived",
  },
  reads: (scene) =>
    noTear(scene) === undefined
      ? {
          e: driveOf(scene, "feed")!.worm ? motors.feed.wormForward : one,
          J: inertiaOf(scene, "feed"),
          N: motors.feed.ratio,
          v: scene.requirement.filmSpeed,
          r_p: pitchRadius,
          F_hole: holeStrength,
        }
      : undefined,
  value: ({ e, J, N, v, r_p, F_hole }) => (e * J * N ** 2 * v ** 2) / (2 * r_p ** 2 * F_hole),
});
export const land = model({
  id: "hole.land",
  symbol: "l",
  unit: "m",
  title: "land between two holes",
  equation: "P_0 - D_0",
  form: "closed",
  origin: { cite: "EIA-481-D, letters of the tape", how: "derived" },
  reads: ({ tape }) => ({ P_0: tape.letters.P0, D_0: tape.letters.D0 }),
  value: ({ P_0, D_0 }) => P_0 - D_0,
});
function noTear(scene: Scene): string | undefined {
  const missing = noSprocket(scene);
  if (missing) return missing;
  const drive = driveOf(scene, "feed");
  if (!drive) return "the unit has no feed drive";
  return gapOfTrain(drive, "feed");
}
export const checkJam: Check = {
  id: "hole.jam",
  station: 6,
  severity: "L",
  status: "judgement",
  title: "a jam doesn't tear through to the next hole",
  value: tear,
  atMost: land,
  absent: noTear,
  because: (say) =>
    `If the tape is held fast at full speed, the rotor's energy tears its hole by ${say(tear)}; ${say(land)} stand to the next hole, which bears ${say(holeStrength)}.`,
  beside: () => [holeStrength],
};
