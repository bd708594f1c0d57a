import { screwedJoints, shaftLength, unknownScrew } from "../nip/carrier.ts";
import { thousandHours } from "../nip/relaxes.ts";
import type { Check } from "../quantity/check.ts";
import { noForce } from "../quantity/force.ts";
import { model } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import { forceLeft } from "./relaxation.ts";
import { screwNamed } from "./screws.ts";

/**
 * Do the screws of the frame still clamp after 1000 h?
 *
 *     F_t = F_3 (d/3 mm)^2 r^(-n)          pull that is left in one screw, N
 *     F_l = N/z + N a/(s max(1, z/2))      pull that the nip's force asks of the most loaded one, N
 *     least F_t - F_l over the joints
 *
 * F_3 pull of an M3 screw tightened by hand into plastic, N; d size; n exponent of printed plastic, r 1000 h over 1 h; N preload of the nip, z screws, s
 * between their two rows, a from the screws to where the force acts, m (half the nip's shaft where the joint doesn't say).
 *
 * Clamped plastic creeps, so the clamp fades, whatever holds the thread; a washer and a metal sleeve keep it. The nip's force taken as a pull
 * straight off the plate: the worst way it may act. Without a spacing no lever is known and a counts as nothing.
 */
interface JointRead {
  readonly name: string;
  readonly size: string;
  readonly z: number;
  readonly s?: number;
  readonly a?: number;
}
interface Loads {
  readonly joints: readonly JointRead[];
  readonly F_3: number;
  readonly n: number;
  readonly r: number;
  readonly N: number;
}
export function leastClamp({ joints, F_3, n, r, N }: Loads): { readonly left: number; readonly name: string } {
  const all = joints.map(({ name, size, z, s, a }) => {
    if (!(z > 0)) throw new RangeError(`"${name}" has ${z} screws`);
    const lever = s !== undefined && a !== undefined ? (N * a) / (s * Math.max(1, z / 2)) : 0;
    const pull = F_3 * (screwNamed(size)!.d / 3e-3) ** 2 * forceLeft(n, r);
    return { left: pull - N / z - lever, name };
  });
  return all.reduce((least, one) => (one.left < least.left ? one : least));
}
export const clampLeft = model({
  id: "joint.clamp",
  symbol: "F_c",
  unit: "N",
  title: "clamp left in the worst joint of the frame after 1000 h",
  equation: "F_3*(d/3 mm)^2*r^(-n) - N/z - N*a/(s*max(1, z/2)), the least over the joints",
  form: "solved",
  origin: { cite: "power law of relaxation; statics of a plate on screws", how: "derived" },
  valid: { n: [0, 0.2] },
  reads: (scene) => {
    const N = scene.unit.nip?.preload;
    if (!N || screwedJoints(scene).length === 0 || unknownScrew(scene)) return undefined;
    const half = shaftLength(scene);
    const { assume } = scene.requirement;
    return {
      joints: screwedJoints(scene).map((j) => ({
        name: j.name,
        size: j.size!,
        z: j.screws!,
        ...(j.spacing ? { s: j.spacing } : {}),
        ...(j.arm ? { a: j.arm } : {}),
        ...(!j.arm && half ? { twice: half } : {}),
      })),
      F_3: assume["screw preload"],
      n: assume["printed creep"],
      r: thousandHours,
      N,
    };
  },
  value: (x) => leastClamp(withArms(x)).left,
  where: (x) => leastClamp(withArms(x)).name,
});
type Read = Omit<Loads, "joints"> & { readonly joints: readonly (JointRead & { readonly twice?: number })[] };
const withArms = (x: Read): Loads => ({
  ...x,
  joints: x.joints.map((j) => (j.a === undefined && j.twice !== undefined ? { ...j, a: j.twice / 2 } : j)),
});
export const checkHolds: Check = {
  id: "joint.holds",
  station: 7,
  severity: "L",
  status: "judgement",
  title: "the screws of the frame still clamp after 1000 h",
  value: clampLeft,
  atLeast: noForce,
  absent: (scene: Scene) => {
    if (!scene.unit.nip?.preload) return "nothing says what the joints have to bear: the nip's preload is not given";
    if (screwedJoints(scene).length === 0) return "no joint of the frame has screws that bear the nip";
    return unknownScrew(scene);
  },
  because: (say, { unit }) =>
    `After 1000 h the worst screw clamps with ${say(clampLeft)} more than the nip's ${say(unit.nip!.preload!)} ask of it.`,
};
