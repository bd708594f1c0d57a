import type { Check } from "../quantity/check.ts";
import { model } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import { nominalOf } from "../tape/served.ts";
import { interval, noTeeth } from "./wheel.ts";

/**
 * A step of half a hole pitch ends with the teeth half a pitch on, where the wheel's transmission error is another.
 *
 *     e = max over theta of | lo(theta + d/2) - lo(theta) - P/2 |
 *
 * lo drive law of `interval.ts`, m; d angle from tooth to tooth, P pitch of the holes. theta is the angle at which the wheel comes to rest:
 * it is taken as any, since a file does not say it; an index mark set to the best angle can halve this. A step of whole pitches of a perfect
 * wheel has none of it.
 *
 * Where the film draws the tape ahead, hi takes the place of lo; its greatest error is the same by symmetry.
 */
export const halfStepError = model({
  id: "pick.half-step",
  symbol: "e",
  unit: "m",
  shownIn: "um",
  title: "error of a step of half a hole pitch",
  equation: "max over theta of abs(lo(theta + d/2) - lo(theta) - P/2)",
  form: "solved",
  origin: { cite: "Sprocket, drive and index cycle, section 2.2 (unpublished working notes)", how: "derived" },
  costly: "coarse",
  reads: (scene) => (absent(scene) === undefined ? { X: interval } : undefined),
  value: ({ X }) => {
    const { error } = X.halfStep();
    if (Number.isFinite(error)) return error;
    throw new RangeError("at some angle of the wheel no tooth stands in the tape");
  },
});
/** Whether the tape's pockets lie whole hole pitches apart. */
function wholePitches({ tape: { letters } }: Scene): boolean {
  const steps = nominalOf(letters.P1) / nominalOf(letters.P0);
  return Math.abs(steps - Math.round(steps)) < 0.05;
}
function absent(scene: Scene): string | undefined {
  return noTeeth(scene) ?? (wholePitches(scene) ? "the tape steps whole hole pitches" : undefined);
}
export const checkHalfStep: Check = {
  id: "pick.half-step",
  station: 5,
  severity: "A",
  status: "established",
  title: "half a hole pitch is stepped as truly as a whole one",
  value: halfStepError,
  atMost: ({ requirement }) => requirement.assume["half-step allowance"],
  absent,
  because: (say, { requirement }) =>
    `Stepping half a hole pitch moves the part by up to ${say(halfStepError)} from where it should stand; ${say(requirement.assume["half-step allowance"])} are allowed for it.`,
};
