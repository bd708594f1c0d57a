import { channelReads, cutAt, piecesOf, pullAfterEach } from "../entry/pull.ts";
import { stiffness } from "../entry/stiffness.ts";
import type { Check } from "../quantity/check.ts";
import { noForce } from "../quantity/force.ts";
import { model, type Quantity } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import { pi } from "../sprocket/wheel.ts";

/**
 * The wheel pushes the used tape out. Where nothing holds it from both faces it may buckle.
 *
 *     P_c = pi^2 EI/L^2            ends that may turn (20.19, 4 pi^2, pi^2/4: one end clamped, both, one clamped and one free), N
 *     P   = F_e + F_0              friction of what lies past the wheel, and what a cutter or chute asks, N
 *     q   = P/P_c <= 0.3           a bow from the tape's set grows by 1/(1 - q)
 *
 * EI stiffness of the tape, N m2; L tape past the wheel that nothing holds from both faces, m. Euler; ends that may turn: a wheel and the first lips
 * hold stiffer, so it is on the safe side. F_e: the pieces of the route past the wheel as in entry/bends.ts, where nothing pulls: a pushed tape never
 * lies on the inside of a bend, so both faces bend it.
 *
 * Within a channel a tape that has buckled once touches both faces and goes on: its next wave wants 16 pi^2 EI/L^2 (memory); friction of the waves
 * then multiplies. That is not in it: where the channel holds the tape, nothing is asked here.
 */
export const buckling = model({
  id: "tape.buckling",
  symbol: "P_c",
  unit: "N",
  title: "push at which the unguided tape buckles",
  equation: "pi^2*EI/L^2",
  form: "closed",
  origin: { cite: "Euler's column, ends that may turn", how: "memory" },
  valid: { L: [2e-3, 0.3] },
  reads: (scene) => ({ pi, EI: stiffness(scene), L: unguided(scene) }),
  value: ({ pi: p, EI, L }) => (p ** 2 * EI) / L ** 2,
});
const unguided = ({ unit, requirement }: Scene): Quantity =>
  unit.tape.exit?.unguided ?? requirement.assume["exit length"];

/** How many times Euler's column with ends that may turn, by what holds its ends. */
export const ends = {
  pinned: 1,
  "one clamped": 20.190728556 / Math.PI ** 2,
  clamped: 4,
  "clamped and free": 0.25,
} as const;

export const exitFriction = model({
  id: "tape.exit-friction",
  symbol: "F_e",
  unit: "N",
  title: "friction of the tape past the wheel",
  equation: "T_n of the route's last piece past the wheel, from none",
  form: "solved",
  origin: { cite: "rope law with the stiffness of the elastica", how: "derived" },
  reads: (scene) => {
    const { sprocket, tape } = scene.unit;
    return sprocket && { ...channelReads(scene), ...piecesOf(scene), s_w: sprocket.at, s_0: tape.place.x };
  },
  value: (x) => {
    const { after } = cutAt(x.behind, x.ahead, x.s_w - x.s_0);
    return pullAfterEach(0, after, x).at(-1)?.pull ?? 0;
  },
});
export const push = model({
  id: "tape.push",
  symbol: "P",
  unit: "N",
  title: "push that takes the tape out past the wheel",
  equation: "F_e + F_0",
  form: "closed",
  origin: { cite: "sum of forces", how: "derived" },
  reads: ({ unit }) => unit.sprocket && { F_e: exitFriction, F_0: unit.tape.exit?.force ?? noForce },
  value: ({ F_e, F_0 }) => F_e + F_0,
});
export const pushShare = model({
  id: "tape.push-share",
  symbol: "q",
  unit: "1",
  shownIn: "%",
  title: "push of the used tape over the force that buckles it",
  equation: "P/P_c",
  form: "closed",
  origin: { cite: "Euler's column", how: "derived" },
  reads: ({ unit }) => unit.sprocket && { P: push, P_c: buckling },
  value: ({ P, P_c }) => P / P_c,
});
export const checkPush: Check = {
  id: "tape.push",
  station: 6,
  severity: "S",
  status: "judgement",
  title: "the used tape goes out without buckling",
  value: pushShare,
  atMost: ({ requirement }) => requirement.assume["push limit"],
  absent: ({ unit }) => (unit.sprocket ? undefined : "the unit has no sprocket"),
  because: (say, scene) =>
    `Past the wheel the tape is pushed with ${say(push)} over ${say(unguided(scene))} that nothing holds; it buckles at ${say(buckling)}.`,
  beside: () => [buckling, push, exitFriction],
};
