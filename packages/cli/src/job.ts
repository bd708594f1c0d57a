import {
  AccuracyStudy,
  type BlockResult,
  type Climbed,
  type CureEffect,
  type Cures,
  checkNamed,
  checks,
  climb,
  curesOf,
  Deviates,
  effectsOf,
  finished,
  type Held,
  judgeFully,
  type KnownChances,
  knownChances,
  type Misfeeds,
  type Move,
  misfeeds,
  type Scene,
  type TapeResult,
  type WidthFamily,
} from "@tapeworthy/core";
import { familyOf, type Project, readProject, type Texts } from "@tapeworthy/project";

/** One piece of work that a worker does by itself: plain data in, plain data out. */
export type Job =
  | { readonly kind: "known"; readonly unit: string; readonly tape: string }
  | {
      readonly kind: "judge";
      readonly unit: string;
      readonly tape: string;
      readonly weights: Float64Array;
      readonly contradicted: readonly string[];
    }
  | {
      readonly kind: "cures";
      readonly unit: string;
      readonly tape: string;
      readonly weights: Float64Array;
      readonly check: string;
      readonly most: number;
    }
  | {
      readonly kind: "effects";
      readonly unit: string;
      readonly tape: string;
      readonly weights: Float64Array;
      readonly contradicted: readonly string[];
      /** What holds as drawn, at each belief draw. */
      readonly held: Held;
      readonly moves: readonly Move[];
    }
  | {
      readonly kind: "misfeeds";
      readonly unit: string;
      readonly tape: string;
      readonly weights: Float64Array;
      /** Belief draws for the bands. */
      readonly draws: number;
    }
  | {
      readonly kind: "pick draws";
      readonly unit: string;
      readonly tape: string;
      readonly weights: Float64Array;
      readonly draws: number;
      readonly blocks: readonly number[];
    }
  | {
      readonly kind: "ladder";
      readonly unit: string;
      /** Which piece of its family. */
      readonly piece: number;
      readonly weights: Float64Array;
      readonly contradicted: readonly string[];
    };
export type Done =
  | { readonly kind: "known"; readonly chances: KnownChances }
  | { readonly kind: "judge"; readonly result: TapeResult; readonly held: Held }
  | { readonly kind: "cures"; readonly cures: Cures }
  | { readonly kind: "effects"; readonly effects: readonly (CureEffect | undefined)[] }
  | { readonly kind: "misfeeds"; readonly misfeeds: Misfeeds }
  | { readonly kind: "pick draws"; readonly blocks: readonly BlockResult[] }
  | { readonly kind: "ladder"; readonly climbed: Climbed };

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
    if (job.kind === "ladder") return { kind: "ladder", climbed: this.climbed(job) };
    const scene = sceneOf(this.project, job.unit, job.tape);
    if (job.kind === "known") return { kind: "known", chances: knownChances(scene, checks, this.deviates) };
    const { deviates } = this;
    const { unit, tape, weights } = job;
    if (job.kind === "pick draws") {
      const study = new AccuracyStudy(scene, { unit, tape }, deviates, weights, { draws: job.draws });
      finished(study.prepare());
      return { kind: "pick draws", blocks: job.blocks.map((b) => study.block(b)) };
    }
    if (job.kind === "cures")
      return { kind: "cures", cures: curesOf(scene, checkNamed(job.check)!, deviates, weights, job.most) };
    if (job.kind === "misfeeds")
      return {
        kind: "misfeeds",
        misfeeds: misfeeds(scene, { deviates, weights, draws: job.draws, seed: deviates.seed }),
      };
    const contradicted = new Set(job.contradicted);
    if (job.kind === "effects") {
      const on = { tape, scene, checks, deviates, weights, contradicted, held: job.held };
      return { kind: "effects", effects: effectsOf(on, job.moves) };
    }
    return { kind: "judge", ...judgeFully({ unit, tape, scene, checks, deviates, weights, contradicted }) };
  }
  private climbed({ unit, piece, weights, contradicted }: Extract<Job, { kind: "ladder" }>): Climbed {
    const { pieces } = familyIn(this.project, unit);
    const { deviates } = this;
    return climb(pieces[piece]!, { checks, deviates, weights, contradicted: new Set(contradicted) });
  }
}

/** A unit's family over width. Throws RangeError where it has none. */
export function familyIn(project: Project, unit: string): WidthFamily {
  const family = familyOf(project, unit);
  if (typeof family === "string") throw new RangeError(family);
  return family;
}
/** The scene of a unit, cut for the tape's width, on a tape. Throws RangeError where the project has no such pair. */
export function sceneOf(project: Project, unit: string, tape: string): Scene {
  const served = project.tapes.get(tape)?.tape;
  const variant = served && project.units.get(unit)?.variants.get(served.row);
  if (!served || !variant) throw new RangeError(`no variant of ${unit} for ${tape}`);
  return { unit: variant, tape: served, requirement: project.requirement };
}
