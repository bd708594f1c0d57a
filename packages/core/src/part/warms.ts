import type { Check } from "../quantity/check.ts";
import { model } from "../quantity/model.ts";
import { pickOf } from "../route/pick.ts";
import type { Scene } from "../scene.ts";

/**
 * How far the pick moves away from where it was set, with heat and damp.
 *
 *     e_x = abs(L) (a_f dT + q_w) + a_t abs(s_w - s_p) dT
 *
 * L from the machine's datum to the pick, m; a_f expansion of the frame, 1/K, q_w its swelling; a_t expansion of the carrier, s_w and s_p places of
 * wheel and pick along the tape, m; dT warming since the place was set, 5 .. 20 K.
 *
 * The shares are added as if all pushed one way, which is the unkind one: a carrier that grows between wheel and pick may take back what its frame does.
 * Frame of one plastic, warm all through; a datum, a wheel and a pick joined by one metal strip do a third of it. It enters the pick error; by itself it is held
 * against the whole of what the pick tool forgives.
 */
export const warmShift = model({
  id: "pick.warm-shift",
  symbol: "e_x",
  unit: "m",
  shownIn: "um",
  title: "shift of the pick with heat and damp",
  equation: "abs(x_p - x_d)*(a_f*dT + q_w) + a_t*abs(s_w - s_p)*dT",
  form: "closed",
  origin: { cite: "expansion of frame and carrier from the datum to the pick", how: "derived" },
  reads: (scene) => {
    const { unit, requirement } = scene;
    const x_d = unit.mount?.datum;
    const s_p = pickOf(scene);
    return x_d && s_p && unit.sprocket && unit.tape.place.mark === "pick"
      ? {
          x_p: unit.tape.place.x,
          x_d,
          a_f: requirement.assume["frame expansion"],
          dT: requirement.assume.warming,
          q_w: requirement.assume["frame swelling"],
          a_t: requirement.assume["carrier expansion"],
          s_w: unit.sprocket.at,
          s_p,
        }
      : undefined;
  },
  value: ({ x_p, x_d, a_f, dT, q_w, a_t, s_w, s_p }) =>
    Math.abs(x_p - x_d) * (a_f * dT + q_w) + a_t * Math.abs(s_w - s_p) * dT,
});
function absent(scene: Scene): string | undefined {
  const { unit, requirement } = scene;
  if (!unit.sprocket) return "the unit has no sprocket";
  if (!unit.mount?.datum) return "the mount gives no datum from which the pick's place is set";
  if (!warmShift.reads(scene)) return 'the route is not placed by its mark "pick"';
  return requirement.pickTool ? undefined : "project.yaml gives no radius that the pick tool forgives";
}
export const checkWarms: Check = {
  id: "pick.warms",
  station: 5,
  severity: "A",
  status: "established",
  title: "heat and damp leave the pick within the tool's reach",
  value: warmShift,
  atMost: ({ requirement }) => requirement.pickTool,
  absent,
  because: (say, { requirement }) =>
    `${say(requirement.assume.warming)} warmer than when it was set, the pick stands ${say(warmShift)} off; the pick tool forgives ${say(requirement.pickTool!)} in all.`,
};
