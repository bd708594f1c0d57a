import { warmShift } from "../part/warms.ts";
import { type Model, model, type Quantity } from "../quantity/model.ts";
import { pickOf } from "../route/pick.ts";
import type { Scene } from "../scene.ts";
import { places } from "./places.ts";

/**
 * Heat between datum and pick as part of the pick error (part/warms.ts): over its life a unit stands anywhere between cold and as warm as it gets,
 * and its place was taught anywhere between.
 *
 *     x_h = t_w e_x/2,  a_h = e_x/2      mean and reach of the shift, m; t_w how warm it was when it was taught, -1 .. 1
 *     e_c = a_t |s_w - s_p| dT           what of it is the carrier's own, m
 *
 * e_x shift from cold to warm. No calibration of one point takes x_h out: it is what that one leaves. Two, cold and warm, take out what is
 * proportional to the distance from the datum: then e_c stands for e_x.
 */
const origin = { cite: "expansion of frame and carrier, cold and warm alike often", how: "derived" } as const;
export const carrierShift: Model = model({
  id: "pick.carrier-shift",
  symbol: "e_c",
  unit: "m",
  shownIn: "um",
  title: "shift of the pick by the carrier's own expansion",
  equation: "a_t*abs(s_w - s_p)*dT",
  form: "closed",
  origin,
  reads: (scene) => {
    const s_p = pickOf(scene);
    const { sprocket } = scene.unit;
    const { assume } = scene.requirement;
    return sprocket && s_p && { a_t: assume["carrier expansion"], s_w: sprocket.at, s_p, dT: assume.warming };
  },
  value: ({ a_t, s_w, s_p, dT }) => a_t * Math.abs(s_w - s_p) * dT,
});
/** What moves once the unit is warm and no calibration follows. */
const left = (scene: Scene): Quantity | undefined => {
  const all = warmShift.reads(scene) ? warmShift : carrierShift;
  const one = scene.requirement.calibration === "two points" ? carrierShift : all;
  return one.reads(scene) ? one : undefined;
};
export const warmMean: Model = model({
  id: "pick.warm-mean",
  symbol: "x_h",
  unit: "m",
  shownIn: "um",
  title: "mean shift of the pick from where it was taught, with heat and damp",
  equation: "t_w*e_x/2",
  form: "closed",
  origin,
  reads: (scene) => {
    const e_x = left(scene);
    return e_x && { t_w: places.taught, e_x };
  },
  value: ({ t_w, e_x }) => (t_w * e_x) / 2,
});
export const warmReach: Model = model({
  id: "pick.warm-reach",
  symbol: "a_h",
  unit: "m",
  shownIn: "um",
  title: "how far the pick moves about that between cold and warm, either way",
  equation: "e_x/2",
  form: "closed",
  origin,
  reads: (scene) => {
    const e_x = left(scene);
    return e_x && { e_x };
  },
  value: ({ e_x }) => e_x / 2,
});
