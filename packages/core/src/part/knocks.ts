import { indexJolt } from "../cycle/index-model.ts";
import { gravity } from "../entry/weight.ts";
import type { Check } from "../quantity/check.ts";
import { model } from "../quantity/model.ts";
import { noOpenPart, openIndexes, speedChange } from "./open.ts";

/**
 * How hard does a part knock against the wall of its open pocket?
 *
 *     c   = max(0, A_0 - l_p)                        free play along the travel, m
 *     v   = min(dv, sqrt(2 max(0, dv/(1 ms) - mu g) c))
 *     q_u v <= q_k sqrt(2 g K_0)
 *
 * A_0 pocket, l_p part along the travel, m; dv change of the tape's speed within a millisecond, m/s; mu friction of the part on the floor, 0.1 .. 0.8; K_0
 * depth of the pocket, m; q_u share of a knock that the wall turns upward, 0.05 .. 0.3: (1 + e) sin d cos d of a wall that leans by d; q_k 0.5.
 *
 * The pocket runs away under the part at dv/(1 ms) less friction until a wall meets it, never by more than the whole change of speed. A wall that leans turns
 * some of the blow upward; the bound is a share of the speed that would carry the part to the wall's top. Judgement: no experiment on parts in carrier pockets
 * was found. A turn within the play is always possible and counts as accuracy, not as loss.
 */
const sliding = { cite: "a body that slides on an accelerated floor until a wall meets it", how: "derived" } as const;
export const knockSpeed = model({
  id: "part.knock",
  symbol: "v",
  unit: "m/s",
  title: "speed at which a part knocks against its pocket's wall",
  equation: "min(dv, sqrt(2*max(0, dv/(1 ms) - mu_p*g)*max(0, A_0 - l_p)))",
  form: "closed",
  origin: sliding,
  valid: { mu_p: [0.1, 0.8], dv: [0, 0.5] },
  reads: (scene) =>
    scene.tape.partLength && {
      dv: speedChange(scene),
      mu_p: scene.requirement.assume["part friction"],
      g: gravity,
      A_0: scene.tape.letters.A0,
      l_p: scene.tape.partLength,
    },
  value: ({ dv, mu_p, g, A_0, l_p }) =>
    Math.min(dv, Math.sqrt(2 * Math.max(0, dv / 1e-3 - mu_p * g) * Math.max(0, A_0 - l_p))),
});
export const thrownSpeed = model({
  id: "part.thrown",
  symbol: "v_u",
  unit: "m/s",
  title: "speed at which a knock throws a part up its wall",
  equation: "q_u*v",
  form: "closed",
  origin: { cite: "blow against a leaning wall", how: "derived" },
  reads: ({ tape, requirement }) => tape.partLength && { q_u: requirement.assume["knock turned up"], v: knockSpeed },
  value: ({ q_u, v }) => q_u * v,
});
export const carryingSpeed = model({
  id: "part.carry-out",
  symbol: "v_a",
  unit: "m/s",
  title: "share of the speed that would carry a part over its wall",
  equation: "q_k*sqrt(2*g*K_0)",
  form: "closed",
  origin: { cite: "height of a throw", how: "derived" },
  reads: ({ tape, requirement }) => ({ q_k: requirement.assume["knock share"], g: gravity, K_0: tape.letters.K0 }),
  value: ({ q_k, g, K_0 }) => q_k * Math.sqrt(2 * g * K_0),
});
export const checkKnocks: Check = {
  id: "part.knocks",
  station: 5,
  severity: "S",
  status: "judgement",
  title: "no knock carries a part over the wall of its open pocket",
  value: thrownSpeed,
  atMost: carryingSpeed,
  absent: (scene) => noOpenPart(scene, "partLength"),
  because: (say, scene) =>
    `The tape changes its speed by ${say(speedChange(scene))} in a millisecond and the part knocks against its wall with ${say(knockSpeed)}, which throws it up with ${say(thrownSpeed)}; ${say(carryingSpeed)} are allowed, over ${say(openIndexes)} indexes in the open.`,
  beside: (scene) => [openIndexes, ...(indexJolt.reads(scene) ? [indexJolt] : [])],
};
