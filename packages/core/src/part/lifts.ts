import { gravity } from "../entry/weight.ts";
import type { Check } from "../quantity/check.ts";
import { model } from "../quantity/model.ts";
import { noOpenPart, openIndexes, speedChange } from "./open.ts";

/**
 * Does the floor of an open pocket throw its part up?
 *
 *     n   = q_z dv/(1 ms g)                          peak acceleration of the floor, in g
 *     h   = (n^2 + 1) g/(2 (2 pi f)^2)  for n > 1    top of the part's flight over the floor at rest; 0 else
 *     h  <= q_h (K_0 - h_p)                          a share of the room over the part
 *
 * q_z share of a change of speed that moves the floor up or down; dv change of speed within a millisecond, m/s; f frequency at which the floor
 * shakes, Hz, 50 .. 2000; K_0 depth of the pocket, h_p height of the part, m; q_h 0.3.
 *
 * A part leaves a floor that falls faster than it does: the rule of vibrating feeders. The floor swings as a sine and the part flies as a stone: at the moment of
 * parting the floor stands at g/w^2 and moves at (g/w) sqrt(n^2 - 1). Seen from a floor that swings on the gap is greater: up to (n + 1)^2/2 in
 * place of (n^2 + 1)/2. Hops do not add up, the part falls back between two; n_o of them are made. Judgement: no experiment on parts in carrier pockets was
 * found. A film that parts in jerks shakes the tape too (film.chatter), which is not in it. Below a millimetre a part clings as hard as it weighs.
 */
export function hop(n: number, f: number, g = 9.80665): number {
  if (!(f > 0)) throw new RangeError(`a floor that shakes at ${f} Hz does not shake`);
  return n > 1 ? ((n * n + 1) * g) / (2 * (2 * Math.PI * f) ** 2) : 0;
}
const rule = {
  cite: "a part leaves a floor that falls faster than it: rule of vibrating feeders",
  how: "derived",
} as const;
export const floorKick = model({
  id: "part.floor-kick",
  symbol: "n",
  unit: "1",
  title: "peak acceleration of a pocket's floor, up or down, over gravity",
  equation: "q_z*dv/(1 ms*g)",
  form: "closed",
  origin: { cite: "share of the change of speed within a millisecond", how: "judgement" },
  reads: (scene) => ({ q_z: scene.requirement.assume["floor kick"], dv: speedChange(scene), g: gravity }),
  value: ({ q_z, dv, g }) => (q_z * dv) / (1e-3 * g),
});
export const hopHeight = model({
  id: "part.hop",
  symbol: "h",
  unit: "m",
  shownIn: "um",
  title: "height to which a part hops in its open pocket",
  equation: "(n^2 + 1)*g/(2*(2*pi*f)^2) for n > 1, else 0",
  form: "solved",
  origin: rule,
  valid: { f: [50, 2000], n: [0, 20] },
  reads: (scene) => ({ n: floorKick, f: scene.requirement.assume["floor frequency"], g: gravity }),
  value: ({ n, f, g }) => hop(n, f, g),
});
export const hopRoom = model({
  id: "part.hop-room",
  symbol: "h_a",
  unit: "m",
  title: "height that a hop may take",
  equation: "q_h*max(0, K_0 - h_p)",
  form: "closed",
  origin: { cite: "share of the room over the part", how: "judgement" },
  reads: ({ tape, requirement }) =>
    tape.partHeight && { q_h: requirement.assume["hop share"], K_0: tape.letters.K0, h_p: tape.partHeight },
  value: ({ q_h, K_0, h_p }) => q_h * Math.max(0, K_0 - h_p),
});
export const checkLifts: Check = {
  id: "part.lifts",
  station: 5,
  severity: "S",
  status: "judgement",
  title: "no part hops out of its open pocket",
  value: hopHeight,
  atMost: hopRoom,
  absent: (scene) => noOpenPart(scene, "partHeight"),
  because: (say) =>
    `An index throws the pocket's floor about with ${say(floorKick)} times gravity and the part hops by ${say(hopHeight)}, where ${say(hopRoom)} are allowed, over ${say(openIndexes)} indexes in the open.`,
  beside: () => [floorKick, openIndexes],
};
