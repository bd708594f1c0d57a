import {
  AccuracyStudy,
  type BlockResult,
  type Climbed,
  type CureEffect,
  type Cures,
  chancesFrom,
  checkNamed,
  checks,
  climb,
  curesOf,
  Deviates,
  type Drawn,
  drawnOf,
  effectsOf,
  finished,
  type Held,
  judgeFully,
  type KnownChances,
  type Misfeeds,
  type Move,
  misfeeds,
  type Scene,
  type TapeResult,
  type WidthFamily,
} from "@tapeworthy/core";
import { familyOf, type Project, readProject, sceneOf, type Texts } from "@tapeworthy/project";

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

/** Jobs about the same pair, or the same piece of a ladder: whoever did one of them is quicker at the next. */
export const subjectOf = (job: Job): string =>
  job.kind === "ladder" ? `${job.unit} piece ${job.piece}` : JSON.stringify([job.unit, job.tape]);

/**
 * Does jobs of one project one after the other. It keeps the scenes, with what costly models' differences were, and what was drawn of a known unit until
 * it is judged: an answer does not depend on what was done before, only how long it takes.
 */
export class Doer {
  private readonly project: Project;
  private readonly deviates: Deviates;
  private readonly scenes = new Map<string, Scene>();
  private readonly drawn = new Map<Scene, Drawn>();
  constructor({ texts, seed }: Start) {
    this.project = readProject(new Map(texts) as Texts).project!;
    this.deviates = new Deviates(seed);
  }
  do(job: Job): Done {
    if (job.kind === "ladder") return { kind: "ladder", climbed: this.climbed(job) };
    const scene = this.sceneOf(job);
    if (job.kind === "known") {
      const drawn = drawnOf({ scene, checks, deviates: this.deviates });
      drawn.cell.letGo();
      this.drawn.set(scene, drawn);
      return { kind: "known", chances: chancesFrom(scene, drawn.cell.checks, drawn.deciding) };
    }
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
    const judging = { unit, tape, scene, checks, deviates, weights, contradicted };
    const judged = judgeFully(judging, this.drawn.get(scene));
    this.drawn.delete(scene);
    return { kind: "judge", ...judged };
  }
  private sceneOf(job: Exclude<Job, { kind: "ladder" }>): Scene {
    const subject = subjectOf(job);
    const scene = this.scenes.get(subject) ?? sceneOf(this.project, job.unit, job.tape);
    this.scenes.set(subject, scene);
    return scene;
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
