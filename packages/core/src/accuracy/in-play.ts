import { camberBase, sidePlay } from "../channel/play.ts";
import { yaw, yawLength } from "../channel/yaw.ts";
import { type Model, model } from "../quantity/model.ts";
import { pickOf } from "../route/pick.ts";
import { cornerOf, sidePlayOnTooth, toothMiddle } from "../sprocket/opening.ts";
import { middleOf } from "./middle.ts";
import { places } from "./places.ts";

/**
 * What the play of the tape in its channel and on its teeth adds to the pick error.
 *
 *     j_y = min(j, y_s)                                   room across the tape: the channel's, or that of a tooth in its hole, m
 *     y_p = t_s (1 - q_s) j_y/2,   a_p = q_s j_y/2        side it keeps to, fixed for a unit; how far it wanders about that, m
 *     x_y = (1 - q_s/2) psi F,     a_x = q_s psi F/2      the same of its yaw, along; across with |s_w - s_p| for F
 *     x_W = -(1 - q_s/2) (W - W_m) F/(2 l)                what the width of a reel changes in that, m
 *     y_k = t_k 4 k x (l - x)/L_0^2,   x = |s_w - s_p|    bow of the edge between wheel and far end of the walls, m
 *
 * j play in the channel (channel/play.ts), y_s side play on a tooth (sprocket/opening.ts), psi yaw (channel/yaw.ts), l guided length; k bow over L_0;
 * t_s, t_k places between -1 and 1 (places.ts); q_s share of its play over which the tape wanders from index to index.
 *
 * Drag and film push a tape to one side and turn it one way, so most of its play is an offset that a calibration takes out. Where it flips
 * from side to side (tape.seat) q_s is too small. What the hole of a reel changes in y_p is left out. The walls of a channel with no play
 * would straighten a bow: y_k is then too large (safe side).
 */
const byShare = { cite: "a rigid tape between walls; the share is a judgement", how: "derived" } as const;
export const roomAcross: Model = model({
  id: "pick.room-across",
  symbol: "j_y",
  unit: "m",
  title: "room of the tape across its travel, at the wheel",
  equation: "max(0, min(j, y_s))",
  form: "closed",
  origin: byShare,
  reads: (scene) =>
    scene.unit.sprocket && cornerOf(scene) && toothMiddle(scene) ? { j: sidePlay, y_s: sidePlayOnTooth } : undefined,
  value: ({ j, y_s }) => Math.max(0, Math.min(j, y_s)),
});
export const sideKept: Model = model({
  id: "pick.side-kept",
  symbol: "y_p",
  unit: "m",
  shownIn: "um",
  title: "side of its play that the tape keeps to",
  equation: "t_s*(1 - q_s)*j_y/2",
  form: "closed",
  origin: byShare,
  reads: (scene) =>
    roomAcross.reads(scene)
      ? { t_s: places.side, q_s: scene.requirement.assume["side wander"], j_y: roomAcross }
      : undefined,
  value: ({ t_s, q_s, j_y }) => (t_s * (1 - q_s) * j_y) / 2,
});
export const sideWander: Model = model({
  id: "pick.side-wander",
  symbol: "a_p",
  unit: "m",
  shownIn: "um",
  title: "how far the tape wanders in its play, either way",
  equation: "q_s*j_y/2",
  form: "closed",
  origin: byShare,
  reads: (scene) =>
    roomAcross.reads(scene) ? { q_s: scene.requirement.assume["side wander"], j_y: roomAcross } : undefined,
  value: ({ q_s, j_y }) => (q_s * j_y) / 2,
});

export const yawKeptAlong: Model = model({
  id: "pick.yaw-kept-along",
  symbol: "x_y",
  unit: "m",
  shownIn: "um",
  title: "error along the travel from the yaw that the tape keeps",
  equation: "(1 - q_s/2)*psi*F",
  form: "closed",
  origin: byShare,
  reads: ({ unit, tape, requirement }) =>
    unit.sprocket && { q_s: requirement.assume["side wander"], psi: yaw, F: tape.letters.F },
  value: ({ q_s, psi, F }) => (1 - q_s / 2) * psi * F,
});
export const yawWanderAlong: Model = model({
  id: "pick.yaw-wander-along",
  symbol: "a_x",
  unit: "m",
  shownIn: "um",
  title: "how far the pick wanders along the travel as the tape yaws, either way",
  equation: "q_s/2*psi*F",
  form: "closed",
  origin: byShare,
  reads: ({ unit, tape, requirement }) =>
    unit.sprocket && { q_s: requirement.assume["side wander"], psi: yaw, F: tape.letters.F },
  value: ({ q_s, psi, F }) => (q_s / 2) * psi * F,
});
export const yawKeptAcross: Model = model({
  id: "pick.yaw-kept-across",
  symbol: "y_y",
  unit: "m",
  shownIn: "um",
  title: "error across the tape from the yaw that the tape keeps",
  equation: "(1 - q_s/2)*psi*abs(s_w - s_p)",
  form: "closed",
  origin: byShare,
  reads: (scene) => {
    const s_p = pickOf(scene);
    const { sprocket } = scene.unit;
    return sprocket && s_p && { q_s: scene.requirement.assume["side wander"], psi: yaw, s_w: sprocket.at, s_p };
  },
  value: ({ q_s, psi, s_w, s_p }) => (1 - q_s / 2) * psi * Math.abs(s_w - s_p),
});
export const yawWanderAcross: Model = model({
  id: "pick.yaw-wander-across",
  symbol: "a_y",
  unit: "m",
  shownIn: "um",
  title: "how far the pick wanders across the tape as it yaws, either way",
  equation: "q_s/2*psi*abs(s_w - s_p)",
  form: "closed",
  origin: byShare,
  reads: (scene) => {
    const s_p = pickOf(scene);
    const { sprocket } = scene.unit;
    return sprocket && s_p && { q_s: scene.requirement.assume["side wander"], psi: yaw, s_w: sprocket.at, s_p };
  },
  value: ({ q_s, psi, s_w, s_p }) => (q_s / 2) * psi * Math.abs(s_w - s_p),
});
export const yawTurnKept: Model = model({
  id: "pick.yaw-turn",
  symbol: "psi_k",
  unit: "1",
  shownIn: "mrad",
  title: "turn of the part from the yaw that the tape keeps",
  equation: "(1 - q_s/2)*psi",
  form: "closed",
  origin: byShare,
  reads: ({ unit, requirement }) => unit.sprocket && { q_s: requirement.assume["side wander"], psi: yaw },
  value: ({ q_s, psi }) => (1 - q_s / 2) * psi,
});
export const yawTurnWander: Model = model({
  id: "pick.yaw-turn-wander",
  symbol: "a_psi",
  unit: "1",
  shownIn: "mrad",
  title: "how far the part turns as the tape yaws, either way",
  equation: "q_s/2*psi",
  form: "closed",
  origin: byShare,
  reads: ({ unit, requirement }) => unit.sprocket && { q_s: requirement.assume["side wander"], psi: yaw },
  value: ({ q_s, psi }) => (q_s / 2) * psi,
});
export const widthOfReelAlong: Model = model({
  id: "pick.width-along",
  symbol: "x_W",
  unit: "m",
  shownIn: "um",
  title: "what the width of a reel changes in the yaw, along the travel",
  equation: "-(1 - q_s/2)*(W - W_m)*F/(2*l)",
  form: "closed",
  origin: byShare,
  reads: ({ unit, tape, requirement }) => {
    const W_m = middleOf(tape.letters.W);
    return (
      unit.sprocket &&
      W_m && { q_s: requirement.assume["side wander"], W: tape.letters.W, W_m, F: tape.letters.F, l: yawLength }
    );
  },
  value: ({ q_s, W, W_m, F, l }) => (-(1 - q_s / 2) * (W - W_m) * F) / (2 * l),
});

export const bowAcross: Model = model({
  id: "pick.bow-across",
  symbol: "y_k",
  unit: "m",
  shownIn: "um",
  title: "error across the tape from the bow of its edge",
  equation: "t_k*4*k*abs(s_w - s_p)*max(0, l - abs(s_w - s_p))/L_0^2",
  form: "closed",
  origin: { cite: "circle through wheel and far end of the walls, geometry", how: "derived" },
  reads: (scene) => {
    const s_p = pickOf(scene);
    const { sprocket } = scene.unit;
    return (
      sprocket && s_p && { t_k: places.bow, k: scene.tape.camber, s_w: sprocket.at, s_p, l: yawLength, L_0: camberBase }
    );
  },
  value: ({ t_k, k, s_w, s_p, l, L_0 }) => {
    const x = Math.abs(s_w - s_p);
    return (t_k * 4 * k * x * Math.max(0, l - x)) / L_0 ** 2;
  },
});
