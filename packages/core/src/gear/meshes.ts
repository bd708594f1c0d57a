import { type DriveName, driveOf, usualPressure } from "../drive/motor.ts";
import { noLength } from "../quantity/bound.ts";
import type { Check } from "../quantity/check.ts";
import { type Given, tabled } from "../quantity/given.ts";
import { type Model, model } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import type { UnitData } from "../unit/unit-fields.ts";
import { meshOf, tightCentre } from "./pair.ts";
import { leastRatio, type Margins, nothing, spareOf, worstOf } from "./spare.ts";
import { wormMeshOf } from "./worm.ts";

/**
 * Do the gears of the drives mesh at the distance at which their axes really stand?
 *
 *     q = least over the meshes of min(eps_u - 1.1, j/p_b, c/p_b)
 *
 * Meshes: the worm with its wheel and the gear pairs of both drives. A pair whose file gives no distance of the axes is taken at the distance
 * without backlash, opened by what a printed frame opens it. Equations: `pair.ts`, `worm.ts`, `spare.ts`.
 */
export type GearPairData = NonNullable<NonNullable<UnitData["nip"]>["gears"]>;
const noShift: Given = tabled("bound/no profile shift", "x", "0", [0, 0, 0, 0, 0], {
  cite: "the file shifts no profile",
  how: "derived",
});

/** A pair of a file under the symbols of `pair.ts`; A is the centre, or nothing where the file gives none. */
export function pairReads(scene: Scene, g: GearPairData) {
  const { assume } = scene.requirement;
  return {
    m: g.module,
    a: g["pressure angle"] ?? usualPressure,
    z: g.teeth,
    x: g.shifts ?? [noShift, noShift],
    given: g.centre !== undefined,
    A: g.centre ?? noLength,
    e_A: g.centre ? noLength : assume["gear centre error"],
    j: g.backlash ?? assume["gear backlash"],
  };
}
/** Why a pair of gears can't be computed with; undefined where it can. */
export const noPair = (g: GearPairData, whose: string): string | undefined =>
  g.teeth.length !== 2
    ? `${whose} gears give ${g.teeth.length} numbers of teeth; a pair has two`
    : g.shifts && g.shifts.length !== 2
      ? `${whose} gears give ${g.shifts.length} profile shifts; a pair has two`
      : undefined;
export interface PairNumbers {
  readonly m: number;
  readonly a: number;
  readonly z: readonly number[];
  readonly x: readonly number[];
  readonly given: boolean;
  readonly A: number;
  readonly e_A: number;
  readonly j: number;
}
/** What a pair leaves when its axes stand `opened` farther apart than drawn. */
export function marginsOfPair(name: string, { m, a, z, x, given, A, e_A, j }: PairNumbers, opened = 0): Margins {
  const pair = { module: m, pressure: a, teeth: [z[0]!, z[1]!], shifts: [x[0]!, x[1]!] } as const;
  const centre = (given ? A : tightCentre(pair) + e_A) + opened;
  const mesh = meshOf({ ...pair, centre, backlash: j });
  return { name, ...mesh, undercut: mesh.undercut[0] || mesh.undercut[1] };
}

const drives: readonly DriveName[] = ["feed", "peel"];
/** The gear pairs that a drive lists. */
const pairsOf = (scene: Scene, name: DriveName): readonly GearPairData[] => driveOf(scene, name)?.["gear pairs"] ?? [];
function wormsOf(scene: Scene) {
  const { assume } = scene.requirement;
  return drives.flatMap((name) => {
    const d = driveOf(scene, name);
    const teeth = d?.["wheel teeth"];
    if (!d?.worm || !teeth) return [];
    return [
      {
        name: `worm of the ${name} drive`,
        m: d.worm.module,
        n_w: d.worm.starts,
        lambda: d.worm["lead angle"],
        a_n: d.worm["pressure angle"] ?? usualPressure,
        z: teeth,
        given: d.worm.centre !== undefined,
        A: d.worm.centre ?? noLength,
        e_A: d.worm.centre ? noLength : assume["gear centre error"],
        j: assume["gear backlash"],
      },
    ];
  });
}
export function noMeshes(scene: Scene): string | undefined {
  for (const name of drives)
    for (const g of pairsOf(scene, name)) {
      const why = noPair(g, `the ${name} drive's`);
      if (why) return why;
    }
  return wormsOf(scene).length === 0 && drives.every((name) => pairsOf(scene, name).length === 0)
    ? "no drive gives a worm with its wheel's teeth, or a pair of gears"
    : undefined;
}
const meshes: Model<readonly Margins[]> = model({
  id: "gear.meshes",
  symbol: "meshes",
  unit: "",
  title: "meshes of the drives",
  equation: "contact, backlash and clearance of each",
  form: "solved",
  origin: { cite: "ISO 21771:2007", how: "memory" },
  reads: (scene) =>
    noMeshes(scene) === undefined
      ? {
          worms: wormsOf(scene),
          pairs: drives.flatMap((name) =>
            pairsOf(scene, name).map((g, i) => ({
              name: `gears ${i + 1} of the ${name} drive`,
              ...pairReads(scene, g),
            })),
          ),
        }
      : undefined,
  value: ({ worms, pairs }) => [
    ...worms.map(({ name, m, n_w, lambda, a_n, z, given, A, e_A, j }) => {
      const worm = { module: m, starts: n_w, lead: lambda, pressure: a_n, teeth: z, backlash: j };
      const opened = given ? A - wormMeshOf({ ...worm, opened: 0 }).centre : e_A;
      const mesh = wormMeshOf({ ...worm, opened });
      return { name, ...mesh, usable: mesh.contactRatio };
    }),
    ...pairs.map((p) => marginsOfPair(p.name, p)),
  ],
});
const least =
  <K extends "usable" | "backlash">(key: K) =>
  (all: readonly Margins[]) =>
    Math.min(...all.map((m) => m[key]));
const ofMeshes = (scene: Scene) => (noMeshes(scene) === undefined ? { meshes } : undefined);
export const meshSpare = model({
  id: "gear.spare",
  symbol: "q",
  unit: "1",
  title: "what is left of contact, backlash and clearance in the worst mesh, in base pitches",
  equation: "min(eps_u - eps_0, j/p_b, c/p_b)",
  form: "solved",
  costly: "coarse",
  origin: { cite: "ISO 21771:2007; the least contact ratio is a judgement", how: "judgement" },
  reads: (scene) => (noMeshes(scene) === undefined ? { meshes, eps_0: leastRatio } : undefined),
  value: ({ meshes: all, eps_0 }) => Math.min(...all.map((m) => spareOf(m, eps_0))),
  where: ({ meshes: all, eps_0 }) => worstOf(all, eps_0),
});
export const contactRatio = model({
  id: "gear.contact-ratio",
  symbol: "eps_u",
  unit: "1",
  title: "least usable contact ratio of the drives' meshes",
  equation: "usable path/(pi*m*cos(a))",
  form: "solved",
  origin: { cite: "ISO 21771:2007", how: "memory" },
  reads: ofMeshes,
  value: ({ meshes: all }) => least("usable")(all),
});
export const meshBacklash = model({
  id: "gear.backlash",
  symbol: "j",
  unit: "m",
  title: "least backlash of the drives' meshes at their pitch circles",
  equation: "m*cos(a)/cos(a_w)*((z_1 + z_2)*(inv(a_w) - inv(a)) - 2*(x_1 + x_2)*tan(a)) + j_0*cos(a)/cos(a_w)",
  form: "solved",
  origin: { cite: "ISO 21771:2007", how: "memory" },
  reads: ofMeshes,
  value: ({ meshes: all }) => least("backlash")(all),
});
export const checkMeshes: Check = {
  id: "gear.meshes",
  station: 8,
  severity: "S",
  status: "established",
  title: "the drives' gears mesh at the distance of their axes",
  value: meshSpare,
  atLeast: nothing,
  absent: noMeshes,
  because: (say) =>
    `The worst mesh of the drives keeps ${say(contactRatio)} pairs of teeth in touch, where ${say(leastRatio)} are wanted, and ${say(meshBacklash)} of backlash is the least.`,
  beside: () => [contactRatio, meshBacklash],
};
