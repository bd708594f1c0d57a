import {
  checks,
  Deviates,
  judge,
  type KnownChances,
  knownChances,
  type Scene,
  type TapeResult,
} from "@tapeworthy/core";
import { type Project, readProject, type Texts } from "@tapeworthy/project";

/** One piece of work that a worker does by itself: plain data in, plain data out. */
export type Job =
  | { readonly kind: "known"; readonly unit: string; readonly tape: string }
  | {
      readonly kind: "judge";
      readonly unit: string;
      readonly tape: string;
      readonly weights: Float64Array;
      readonly contradicted: readonly string[];
    };
export type Done =
  | { readonly kind: "known"; readonly chances: KnownChances }
  | { readonly kind: "judge"; readonly result: TapeResult };

/** What a worker needs to begin: the project's texts and the seed. It holds no other state, so any worker gives the same bits. */
export interface Start {
  readonly texts: readonly (readonly [string, string])[];
  readonly seed: number;
}

/** Does jobs of one project one after the other. */
export class Doer {
  private readonly project: Project;
  private readonly deviates: Deviates;
  constructor({ texts, seed }: Start) {
    this.project = readProject(new Map(texts) as Texts).project!;
    this.deviates = new Deviates(seed);
  }
  do(job: Job): Done {
    const scene = sceneOf(this.project, job.unit, job.tape);
    if (job.kind === "known") return { kind: "known", chances: knownChances(scene, checks, this.deviates) };
    const { unit, tape, weights } = job;
    return {
      kind: "judge",
      result: judge({
        unit,
        tape,
        scene,
        checks,
        deviates: this.deviates,
        weights,
        contradicted: new Set(job.contradicted),
      }),
    };
  }
}

/** The scene of a unit, cut for the tape's width, on a tape. Throws RangeError where the project has no such pair. */
export function sceneOf(project: Project, unit: string, tape: string): Scene {
  const served = project.tapes.get(tape)?.tape;
  const variant = served && project.units.get(unit)?.variants.get(served.row);
  if (!served || !variant) throw new RangeError(`no variant of ${unit} for ${tape}`);
  return { unit: variant, tape: served, requirement: project.requirement };
}
