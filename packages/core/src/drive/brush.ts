import type { Check } from "../quantity/check.ts";
import { type Model, model, type Quantity } from "../quantity/model.ts";
import { power } from "../quantity/power.ts";
import type { Scene } from "../scene.ts";
import { type DriveName, driveOf } from "./motor.ts";

/**
 * How many indexes the brushes last.
 *
 *     n = t_b (V/V_s)^(-m)/t_i
 *
 * t_b running time to worn brushes at the sheet's volts, s, 100 .. 1000 h; V volts of the rail, V_s of the sheet; m exponent, 4 .. 8; t_i time a motor
 * runs for one index, taken as the whole index time, s.
 *
 * One trial of one small motor at 5, 6 and 7.2 V gave 15.5, 5.5 and 1.7 h, one motor a point: order only. Start and stop wear brushes more than running
 * does, which is not known here. A rail below the sheet's volts lasts longer by the same power, which nobody has tried: outside range.
 */
const lasting = (name: DriveName): Model =>
  model({
    id: `brush.${name}-indexes`,
    symbol: name === "feed" ? "n_f" : "n_p",
    unit: "1",
    title: `indexes to worn brushes of the ${name} drive`,
    equation: "t_b*(V/V_s)^(-m)/t_i",
    form: "closed",
    origin: { cite: "a maker's trial of brush life at three voltages, one motor a point", how: "read" },
    valid: { m: [3, 9] },
    reads: (scene) => {
      const { supply, indexTime, assume } = scene.requirement;
      const d = driveOf(scene, name);
      const V_s = d?.sheet?.supply;
      return V_s && supply && indexTime
        ? {
            t_b: d.brush?.life ?? assume["brush life"],
            V: supply.volts,
            V_s,
            m: assume["brush exponent"],
            t_i: indexTime,
          }
        : undefined;
    },
    value: ({ t_b, V, V_s, m, t_i }) => (t_b * power(V / V_s, -m)) / t_i,
  });
export const brushes = { feed: lasting("feed"), peel: lasting("peel") } as const;
export const sooner = model({
  id: "brush.indexes",
  symbol: "n",
  unit: "1",
  title: "indexes to worn brushes of the drive that wears first",
  equation: "min(n_f, n_p)",
  form: "closed",
  origin: { cite: "the worse of two", how: "derived" },
  reads: (scene) => (judged(scene).length === 2 ? { n_f: brushes.feed, n_p: brushes.peel } : undefined),
  value: ({ n_f, n_p }) => Math.min(n_f, n_p),
  where: ({ n_f, n_p }) => (n_f <= n_p ? "the feed drive" : "the peel drive"),
});
const drives = ["feed", "peel"] as const;
const judged = (scene: Scene): DriveName[] => drives.filter((name) => brushes[name].reads(scene));
const heldValue = (scene: Scene): Model => {
  const names = judged(scene);
  return names.length === 2 ? sooner : brushes[names[0] ?? "feed"];
};
const lifeOf = (scene: Scene): Quantity | undefined => scene.requirement.life;
export const checkLasts: Check = {
  id: "brush.lasts",
  station: 8,
  severity: "L",
  status: "judgement",
  title: "the brushes last as many indexes as are asked",
  value: heldValue,
  atLeast: lifeOf,
  absent: (scene) => {
    const { life, supply, indexTime } = scene.requirement;
    if (!driveOf(scene, "feed") && !driveOf(scene, "peel")) return "the unit has no motor";
    if (!life) return "project.yaml asks for no life of a unit";
    if (!supply) return "project.yaml gives no supply";
    if (!indexTime) return "project.yaml asks for no index time";
    return judged(scene).length > 0
      ? undefined
      : "no drive gives the sheet of its motor, with the volts it is made for";
  },
  because: (say, scene) =>
    `At ${say(scene.requirement.supply!.volts)} the brushes that wear first last ${say(heldValue(scene))} indexes of ${say(scene.requirement.indexTime!)}, where ${say(scene.requirement.life!)} are asked.`,
  beside: (scene) => judged(scene).map((name) => brushes[name]),
};
