import { one } from "../quantity/bound.ts";
import type { Check } from "../quantity/check.ts";
import { model } from "../quantity/model.ts";
import { baseRadius, flankOf, interval, noTeeth, pi, pitchRadius, tipRadius } from "./wheel.ts";

/**
 * A tooth stands deep enough in the tape at every angle of the wheel.
 *
 *     n = (alpha + 2 acos((r_b + o_t)/r_t)) z/(2 pi)
 *
 * n mean number of teeth whose tips stand over the tape's underside by o_t or more: at each angle it is n rounded down or up, so 1 is needed;
 * alpha angle of wrap, rad; r_b axis to underside, r_t axis to tip, o_t overlap wanted, m; z teeth.
 *
 * Middle of the tip; a tip some tenths long stays in a little longer (safe side). 0 where no tip reaches so far. Straight flanks that meet
 * below the tip end the tooth there; an involute's do so far higher than teeth are made.
 */
export const tip = model({
  id: "sprocket.tip",
  symbol: "r_t",
  unit: "m",
  title: "axis of the wheel to the tip as its flanks leave it",
  equation: "min(r_t, r_p + t_a/(2*tan(phi)))",
  form: "closed",
  origin: { cite: "two straight flanks meet, geometry", how: "derived" },
  reads: (scene) => {
    const { sprocket } = scene.unit;
    return sprocket && { r_t: tipRadius, r_p: pitchRadius, t_a: sprocket.tooth.along, phi: flankOf(scene) };
  },
  value: ({ r_t, r_p, t_a, phi }) => Math.min(r_t, r_p + t_a / (2 * Math.tan(phi))),
});
const shared = {
  cite: "Sprocket, drive and index cycle, section 2.2 (unpublished working notes)",
  how: "derived",
} as const;
const onFlat = model({
  id: "sprocket.teeth-in-tape",
  symbol: "n",
  unit: "1",
  title: "teeth that stand deep enough in the tape, mean over the wheel's angle",
  equation: "2*acos(min(1, (r_b + o_t)/r_t))*z/(2*pi)",
  form: "closed",
  origin: shared,
  reads: (scene) => {
    const r_b = baseRadius(scene);
    const { sprocket } = scene.unit;
    return sprocket && r_b && { r_b, o_t: scene.requirement.assume["tooth overlap"], r_t: tip, z: sprocket.teeth, pi };
  },
  value: ({ r_b, o_t, r_t, z, pi }) => (2 * Math.acos(Math.min(1, (r_b + o_t) / r_t)) * z) / (2 * pi),
});
const onWrap = model({
  id: "sprocket.teeth-in-wrapped-tape",
  symbol: "n",
  unit: "1",
  title: "teeth that stand deep enough in the tape round the wheel, mean over its angle",
  equation: "(alpha + 2*acos(min(1, (r_b + o_t)/r_t)))*z/(2*pi)",
  form: "closed",
  origin: shared,
  reads: (scene) => {
    const r_b = baseRadius(scene);
    const { sprocket } = scene.unit;
    return sprocket?.wrap && r_b
      ? {
          alpha: sprocket.wrap,
          r_b,
          o_t: scene.requirement.assume["tooth overlap"],
          r_t: tip,
          z: sprocket.teeth,
          pi,
        }
      : undefined;
  },
  value: ({ alpha, r_b, o_t, r_t, z, pi }) => ((alpha + 2 * Math.acos(Math.min(1, (r_b + o_t) / r_t))) * z) / (2 * pi),
});

export { onFlat as teethInTape, onWrap as teethInWrappedTape };
export const fewestTeeth = model({
  id: "sprocket.fewest-teeth",
  symbol: "n_0",
  unit: "1",
  title: "fewest teeth that stand in the tape at all",
  equation: "min over theta of the teeth with 0 <= h",
  form: "solved",
  origin: shared,
  costly: "coarse",
  reads: (scene) => (noTeeth(scene) === undefined ? { X: interval } : undefined),
  value: ({ X }) => X.engagedOver()[0],
});
export const checkEngaged: Check = {
  id: "tooth.engaged",
  station: 6,
  severity: "S",
  status: "judgement",
  title: "a tooth stands deep enough in the tape at every angle",
  value: ({ unit }) => (unit.sprocket?.wrap ? onWrap : onFlat),
  atLeast: one,
  absent: noTeeth,
  because: (say, { unit, requirement }) =>
    `${say(unit.sprocket?.wrap ? onWrap : onFlat)} teeth on the mean stand ${say(requirement.assume["tooth overlap"])} or more over the tape's underside; at least ${say(fewestTeeth)} reach into it at every angle.`,
  beside: () => [fewestTeeth],
};
