import type { Check } from "../quantity/check.ts";
import { model, type Quantity } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import { indexHole, indexJolt, indexSpeed, indexTime } from "./index-model.ts";
import { noFilmInIndex, noIndex } from "./of-scene.ts";
import { rigidTime } from "./rigid.ts";

/**
 * Is one index over in time, at the least volts and hot?
 *
 *     t   time from the first command until the wheel stands (rigid.ts); beside it what the whole simulation says
 *     t_a = max(t_i, P_1/v)
 *
 * t_i index time that project.yaml asks for, s; P_1 pocket pitch, m; v film speed that project.yaml states, m/s. Where a pitch at that speed takes
 * longer than t_i, it may: every other check takes the film to run at v, so a faster index would belong to another peel force. What the tape still moves within the play of its teeth after
 * the wheel stands is tape.seat's.
 */
export const allowedTime = model({
  id: "cycle.allowed-time",
  symbol: "t_a",
  unit: "s",
  shownIn: "ms",
  title: "time that an index may take",
  equation: "max(t_i, P_1/v)",
  form: "closed",
  origin: { cite: "project.yaml: index time, and the film speed the other checks rest on", how: "judgement" },
  reads: ({ tape, requirement }) =>
    requirement.indexTime && { t_i: requirement.indexTime, P_1: tape.letters.P1, v: requirement.filmSpeed },
  value: ({ t_i, P_1, v }) => Math.max(t_i, P_1 / v),
});
export const absentTime = (scene: Scene): string | undefined =>
  noIndex(scene) ?? (scene.requirement.indexTime ? undefined : "project.yaml asks for no index time");
export const checkTime: Check = {
  id: "drive.time",
  station: 8,
  severity: "S",
  status: "established",
  title: "an index is over in time at the least volts, hot",
  value: rigidTime,
  atMost: allowedTime,
  absent: absentTime,
  because: (say, scene) => {
    const film = noFilmInIndex(scene);
    return `At the least volts, hot, an index of ${say(scene.tape.letters.P1)} takes ${say(rigidTime)} until the wheel stands (${say(indexTime)} in the simulation with play, film and reel); it may take ${say(allowedTime)}${film ? ` (without its film: ${film})` : ""}.`;
  },
  beside: (): readonly Quantity[] => [indexTime, indexSpeed, indexJolt, indexHole],
};
