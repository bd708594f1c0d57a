import { gravity } from "../entry/weight.ts";
import type { Check } from "../quantity/check.ts";
import { model } from "../quantity/model.ts";
import { knockSpeed } from "./knocks.ts";
import { noOpenPart, openIndexes } from "./open.ts";

/**
 * Does a knock tip a part over its foot?
 *
 *     I     = (L^2 + H^2)/3,  R = sqrt(L^2 + H^2)/2
 *     v_tip = sqrt(2 g (R - H/2) I)/(H/2)
 *     v    <= q_k v_tip
 *
 * L length along the travel, H height of a block of even mass, m; I its moment of inertia about the foot by mass, m2, R from foot to middle, m; v speed
 * of the knock (part/knocks.ts), m/s; q_k 0.5.
 *
 * A plane block stopped dead at its foot, rocking up over its edge (the rocking block of earthquake engineers). A block slides before it tips as long as
 * friction is below L/H, nearly always, so only a knock tips it. The foot alone is stopped where a wall leans and a fillet fills its corner; a flat wall higher
 * than half the part prevents it, so walls cut square are not applicable and moulded ones are on the safe side here.
 */
const rocking = {
  cite: "rocking of a block over its edge after a plastic blow at the foot, Housner",
  how: "memory",
} as const;
export const tippingSpeed = model({
  id: "part.tip",
  symbol: "v_tip",
  unit: "m/s",
  title: "speed at which a knock at its foot tips a part over",
  equation: "sqrt(2*g*(hypot(L, H)/2 - H/2)*(L^2 + H^2)/3)/(H/2)",
  form: "closed",
  origin: rocking,
  reads: ({ tape }) => tape.partLength && tape.partHeight && { g: gravity, L: tape.partLength, H: tape.partHeight },
  value: ({ g, L, H }) => Math.sqrt((2 * g * (Math.hypot(L, H) / 2 - H / 2) * (L * L + H * H)) / 3) / (H / 2),
});
export const tippingShare = model({
  id: "part.tip-share",
  symbol: "v_a",
  unit: "m/s",
  title: "share of that speed which a knock may have",
  equation: "q_k*v_tip",
  form: "closed",
  origin: { cite: "share of the tipping speed", how: "judgement" },
  reads: ({ tape, requirement }) =>
    tape.partLength && tape.partHeight && { q_k: requirement.assume["knock share"], v_tip: tippingSpeed },
  value: ({ q_k, v_tip }) => q_k * v_tip,
});
export const checkTips: Check = {
  id: "part.tips",
  station: 5,
  severity: "S",
  status: "judgement",
  title: "no knock tips a part in its open pocket",
  value: knockSpeed,
  atMost: tippingShare,
  absent: (scene) =>
    scene.tape.kind === "embossed"
      ? noOpenPart(scene, "partLength", "partHeight")
      : "the pocket's walls are cut square and higher than half the part, which can't tip over them",
  because: (say) =>
    `The part knocks with ${say(knockSpeed)}; ${say(tippingSpeed)} at its foot would tip it over, and ${say(tippingShare)} are allowed, over ${say(openIndexes)} indexes in the open.`,
  beside: () => [tippingSpeed, openIndexes],
};
