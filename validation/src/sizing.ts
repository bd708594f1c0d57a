import { readdirSync, readFileSync } from "node:fs";
import {
  beliefPoints,
  Cell,
  checks,
  Deviates,
  decide,
  evenWeights,
  type Free,
  finished,
  freeOf,
  isFault,
  leversOf,
  type Scene,
  type SizingResult,
  sizeInSteps,
} from "@tapeworthy/core";
import { readProject } from "@tapeworthy/project";

/** The example that comes with the project. */
const folder = new URL("../../examples/saltgrass/", import.meta.url);
const unit = "dunlin";
const deviates = new Deviates(1);
export interface Wanted {
  readonly tape: string;
  readonly scene: Scene;
}
/** The second example's wanted tapes, or those named of them. */
export function dunlin(only?: readonly string[]): Wanted[] {
  const paths = readdirSync(folder, { recursive: true, encoding: "utf8" }).map((path) => path.replaceAll("\\", "/"));
  const texts = paths
    .filter((p) => p.endsWith(".yaml"))
    .map((p) => [p, readFileSync(new URL(p, folder), "utf8")] as const);
  const { project } = readProject(new Map(texts));
  if (!project) throw new Error("the example has errors");
  return (project.wanted.get(unit) ?? [])
    .filter((name) => only?.includes(name) ?? true)
    .map((name) => {
      const { tape } = project.tapes.get(name)!;
      return {
        tape: name,
        scene: { unit: project.units.get(unit)!.variants.get(tape.row)!, tape, requirement: project.requirement },
      };
    });
}
/** A dimension of the unit freed between two values, or for one that follows its tape between two distances from it, SI. */
export type Freeing = readonly [path: string, low: number, high: number, by?: "distance"];
const freeing = (wanted: readonly Wanted[], marks: readonly Freeing[]): Free[] =>
  marks.map(([path, low, high, by]) => {
    const scenes = wanted.map(({ scene }) => scene);
    const from = (scene: Scene): number =>
      by ? leversOf(scene).find(({ address }) => address === `${unit}/${path}`)!.from : 0;
    const free = freeOf(scenes, { path, bounds: (scene) => [from(scene) + low, from(scene) + high] });
    if (isFault(free)) throw new Error(`${path}: ${free.found}`);
    return free;
  });
export function sizeDunlin(
  wanted: readonly Wanted[],
  marks: readonly Freeing[],
  starts: number,
): { result: SizingResult; free: Free[] } {
  const free = freeing(wanted, marks);
  const belief = { deviates, weights: evenWeights, contradicted: new Set<string>() };
  return { free, result: finished(sizeInSteps({ unit, tapes: wanted, checks, free, starts, ...belief })) };
}

/**
 * The least gap at distances x by full draws alone: every hard check that some dimension moves and that is not set aside, decided as `check` decides
 * it, in its standard deviation as drawn. Worked out here, from the definition, without the sizing's own way to it.
 */
export class ByForce {
  private readonly parts: readonly { readonly cell: Cell; readonly sd: readonly number[] }[];
  private readonly free: readonly Free[];
  constructor(wanted: readonly Wanted[], free: readonly Free[], aside: SizingResult["aside"]) {
    this.free = free;
    const members = free.flatMap((f) => f.members);
    this.parts = wanted.map(({ tape, scene }) => {
      const list = checks.filter(({ id, severity }) => {
        const one = new Cell(
          scene,
          checks.filter((check) => check.id === id),
        );
        const rests = members.some((address) => one.addresses.has(address));
        return severity === "S" && rests && !aside.some((a) => a.tape === tape && a.check === id);
      });
      const cell = new Cell(scene, list);
      const sd = decide(cell, deviates).map(({ gap, sides }) => {
        const finite = [...gap.keys()].filter((k) => Number.isFinite(gap[k]!));
        const mean = finite.reduce((sum, k) => sum + gap[k]!, 0) / finite.length;
        const squares = finite.map((k) => (gap[k]! - mean) ** 2 + Math.max(...sides.map((side) => side.sd[k]!)) ** 2);
        return Math.sqrt(squares.reduce((sum, v) => sum + v, 0) / finite.length) || Math.abs(mean) || 1;
      });
      return { cell, sd };
    });
  }
  at(x: readonly number[]): number {
    return Math.min(
      ...this.parts.map(({ cell, sd }) => {
        const by = new Map(this.free.flatMap(({ members }, i) => members.map((address) => [address, x[i]!] as const)));
        const decided = decide(cell, deviates, { moved: (given) => by.get(given.address) });
        const least = evenWeights.map((_, k) => Math.min(...decided.map(({ gap }, c) => gap[k]! / sd[c]!)));
        return beliefPoints(least, evenWeights).low;
      }),
    );
  }
  /** The greatest on an even grid of two dimensions, and where. */
  best(count: number): { readonly least: number; readonly x: readonly number[] } {
    let best = { least: Number.NEGATIVE_INFINITY, x: [] as readonly number[] };
    const along = ({ least, most }: Free): number[] =>
      Array.from({ length: count }, (_, n) => least + ((most - least) * n) / (count - 1));
    for (const a of along(this.free[0]!))
      for (const b of along(this.free[1]!)) {
        const least = this.at([a, b]);
        if (least > best.least) best = { least, x: [a, b] };
      }
    return best;
  }
}

/** Five levers of the second example, and two of them. */
const five: readonly Freeing[] = [
  ["reel.drag", 0.1, 0.6],
  ["sprocket.tooth.across", 0.5e-3, 1e-3],
  ["tape.section.lips.gap", 0.5e-3, 1.2e-3],
  ["let.rin", -4e-3, 20e-3, "distance"],
  ["nip.rollers.shaft.diameter", 3e-3, 8e-3],
];
export const two: readonly Freeing[] = [
  ["reel.drag", 0.1, 0.6],
  ["tape.section.lips.gap", 0.5e-3, 1.2e-3],
];
/** Ends of the random starts from the best one, as a share of it, that is allowed. */
export const sameEnd = 0.05;
/** What rounding to written steps, and moves taken back because they buy next to nothing, may cost, standard deviations. */
export const settling = 0.01;
const shown = (v: number): string => v.toFixed(4);

/** Prints the second example sized from three random starts, and two levers against a grid of full draws; 1 where one is off. */
export function sizingTable(print: (text: string) => void): number {
  const all = dunlin();
  const { result } = sizeDunlin(all, five, 4);
  const ends = result.starts.map((s) => s.least);
  const best = Math.max(...ends);
  const near = (v: number): boolean => Math.abs(v - best) <= sameEnd * Math.abs(best);
  print(
    `Dunlin, ${all.length} tapes, ${five.length} levers: least gap in standard deviations, ${result.evaluations} places looked at`,
  );
  ends.forEach((end, s) => {
    print(`  start ${s} ${s === 0 ? "as drawn " : "at random"}  ${shown(end)}  ${near(end) ? "ok" : "off"}`);
  });
  print(`  in full draws, rounded: ${shown(result.before.least)} as drawn, ${shown(result.after.least)} sized`);
  const some = dunlin(["so20-24", "socket-32", "module-32"]);
  const sized = sizeDunlin(some, two, 3);
  const force = new ByForce(some, sized.free, sized.result.aside);
  const grid = force.best(7);
  const again = force.at(sized.result.dimensions.map(({ by }) => by));
  const reached = again >= grid.least - sameEnd * Math.abs(grid.least) - settling;
  print(`Dunlin, ${some.length} tapes, 2 levers against a grid of 7 by 7 decided in full`);
  print(`  grid  ${shown(grid.least)} at ${grid.x.map(shown).join(", ")}`);
  print(
    `  sized ${shown(sized.result.after.least)}, the same place by force ${shown(again)}  ${reached ? "ok" : "off"}`,
  );
  return ends.every(near) && reached ? 0 : 1;
}
