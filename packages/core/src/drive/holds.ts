import type { Check } from "../quantity/check.ts";
import { driveOf, motors } from "./motor.ts";

/**
 * Does the worm hold the tape while it stands?
 *
 *     e_w(mu) <= e_l
 *
 * e_w efficiency of the feed drive's worm with the worm driving; e_l efficiency below which a worm can be trusted to lock, 0.45. At the very limit of
 * locking, mu = cos(a) tan(l), e_w is 0.465 to 0.5 for mu of 0.05 to 0.25: published practice says sure below 0.45, unsure to 0.55. Low friction
 * makes a worm efficient and lets it go; high friction makes it hold and costs torque: this check and drive.moves draw one friction and pull it
 * opposite ways. At a friction of 0.08 a lead angle of 4.0 deg locks and one of 4.5 deg does not.
 *
 * Judgement: statics, no vibration. A shaking worm may creep where it should lock, and one that is short-circuited by its bridge holds for a moment where
 * it should not. Held is the feed drive alone: a peel drive that runs back slackens the film and stops nothing.
 */
export const checkHolds: Check = {
  id: "drive.holds",
  station: 8,
  severity: "S",
  status: "judgement",
  title: "the worm locks while the tape stands",
  value: motors.feed.wormForward,
  atMost: ({ requirement }) => requirement.assume["locking efficiency"],
  absent: (scene) => {
    const d = driveOf(scene, "feed");
    if (!d) return "the unit has no feed drive";
    return d.worm ? undefined : "the feed drive has no worm; what else holds the tape while it stands is not judged";
  },
  because: (say, scene) =>
    `The feed drive's worm passes on ${say(motors.feed.wormForward)} of its torque; one that passes on less than ${say(scene.requirement.assume["locking efficiency"])} can be trusted to lock. Turned from its wheel it would pass on ${say(motors.feed.wormBackward)}: nothing, where that is below 0.`,
  beside: () => [motors.feed.wormBackward, motors.feed.wormDiameter],
};
