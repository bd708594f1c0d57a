import type { Check } from "../quantity/check.ts";
import { type Model, model, type Quantity } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import { marginsOfPair, noPair, pairReads } from "./meshes.ts";
import { leastRatio, type Margins, nothing, spareOf, worstOf } from "./spare.ts";

/**
 * Do the gears that join the nip's rollers still drive while the nip stands open?
 *
 *     D   = |R(phi) (u - p) + p - l| - |u - l|         how far the axes move apart as the nip gives way, m
 *     q   = min over A and A + D of min(eps_u - 1.1, j/p_b, c/p_b)
 *
 * u, l axes of the upper and the lower roller, p pivot of the one that lifts, m; phi angle by which it lifts, rad; A distance of the gears'
 * axes with the nip closed. The gears sit on the rollers' axes. Contact is least open, backlash and clearance least closed.
 *
 * The greatest lift of the file is taken as standing: it is what a splice or a fold may do, not what a film does. Without `lifts` in the file
 * the nip is taken closed.
 */
export interface NipLift {
  readonly axis: readonly [x: number, z: number];
  readonly lower: number;
  readonly upper: number;
  readonly about: readonly [x: number, z: number];
  readonly by: number;
}
/** How far the axes move apart; a turn that would close the nip is taken the other way, since the rollers stop it. */
export function nipOpening({ axis: [x, z], lower, upper, about: [px, pz], by }: NipLift): number {
  const apart = (phi: number): number => {
    const [dx, dz] = [x - px, z + upper - pz];
    const [c, s] = [Math.cos(phi), Math.sin(phi)];
    return Math.hypot(px + dx * c - dz * s - x, pz + dx * s + dz * c - (z - lower)) - (upper + lower);
  };
  return Math.max(apart(by), apart(-by));
}

type Nip = NonNullable<Scene["unit"]["nip"]>;
const radii = (nip: Nip): readonly [Quantity, Quantity] | undefined => {
  const r = nip.rollers?.radius;
  const lower = r?.[0];
  return lower && [lower, r[1] ?? lower];
};
export const opening = model({
  id: "nip.opening",
  symbol: "D",
  unit: "m",
  title: "how far the rollers' axes move apart as the nip gives way",
  equation: "abs(R(phi)*(u - p) + p - l) - abs(u - l)",
  form: "solved",
  origin: { cite: "turn about a pivot, geometry", how: "derived" },
  reads: ({ unit: { nip } }) => {
    const r = nip && radii(nip);
    return nip?.lifts && nip.axis && r
      ? { axis: nip.axis, lower: r[0], upper: r[1], about: nip.lifts.about, phi: nip.lifts.by }
      : undefined;
  },
  value: ({ axis, lower, upper, about, phi }) =>
    nipOpening({ axis: [axis[0]!, axis[1]!], lower, upper, about: [about[0]!, about[1]!], by: phi }),
});
export function noNipGears({ unit: { nip } }: Scene): string | undefined {
  if (!nip) return "the unit has no nip";
  if (!nip.gears) return "no gears join the nip's rollers";
  return noPair(nip.gears, "the nip's");
}
const meshes: Model<readonly Margins[]> = model({
  id: "nip.mesh",
  symbol: "meshes",
  unit: "",
  title: "mesh of the nip's gears, closed and open",
  equation: "contact, backlash and clearance at A and at A + D",
  form: "solved",
  origin: { cite: "ISO 21771:2007", how: "memory" },
  reads: (scene) => {
    if (noNipGears(scene) !== undefined) return undefined;
    const pair = pairReads(scene, scene.unit.nip!.gears!);
    return opening.reads(scene) ? { pair, opens: true, D: [opening] } : { pair, opens: false, D: [] as Model[] };
  },
  value: ({ pair, D }) => [marginsOfPair("closed", pair), ...D.map((d) => marginsOfPair("open", pair, Math.max(0, d)))],
});
const ofMesh = (scene: Scene) => (noNipGears(scene) === undefined ? { meshes } : undefined);
export const nipMeshSpare = model({
  id: "nip.mesh-spare",
  symbol: "q",
  unit: "1",
  title: "what is left of contact, backlash and clearance of the nip's gears, in base pitches",
  equation: "min(eps_u - eps_0, j/p_b, c/p_b)",
  form: "solved",
  costly: "coarse",
  origin: { cite: "ISO 21771:2007; the least contact ratio is a judgement", how: "judgement" },
  reads: (scene) => (noNipGears(scene) === undefined ? { meshes, eps_0: leastRatio } : undefined),
  value: ({ meshes: all, eps_0 }) => Math.min(...all.map((m) => spareOf(m, eps_0))),
  where: ({ meshes: all, eps_0 }) => worstOf(all, eps_0),
});
export const nipContactRatio = model({
  id: "nip.contact-ratio",
  symbol: "eps_u",
  unit: "1",
  title: "usable contact ratio of the nip's gears with the nip open",
  equation: "usable path/(pi*m*cos(a))",
  form: "solved",
  origin: { cite: "ISO 21771:2007", how: "memory" },
  reads: ofMesh,
  value: ({ meshes: all }) => Math.min(...all.map((m) => m.usable)),
});
export const nipBacklash = model({
  id: "nip.backlash",
  symbol: "j",
  unit: "m",
  title: "backlash of the nip's gears with the nip closed",
  equation: "m*cos(a)/cos(a_w)*((z_1 + z_2)*(inv(a_w) - inv(a)) - 2*(x_1 + x_2)*tan(a)) + j_0*cos(a)/cos(a_w)",
  form: "solved",
  origin: { cite: "ISO 21771:2007", how: "memory" },
  reads: ofMesh,
  value: ({ meshes: all }) => all[0]!.backlash,
});
export const checkNipMeshes: Check = {
  id: "nip.meshes",
  station: 7,
  severity: "S",
  status: "established",
  title: "the nip's gears go on driving while it stands open",
  value: nipMeshSpare,
  atLeast: nothing,
  absent: noNipGears,
  because: (say, scene) =>
    `${opening.reads(scene) ? `The nip opens by ${say(opening)}; its gears then keep` : "The nip's gears keep"} ${say(nipContactRatio)} pairs of teeth in touch, where ${say(leastRatio)} are wanted; closed they have ${say(nipBacklash)} of backlash.`,
  beside: (scene) => [nipContactRatio, nipBacklash, ...(opening.reads(scene) ? [opening] : [])],
};
