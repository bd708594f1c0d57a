import {
  type Check,
  checkNamed,
  checks,
  Deviates,
  type Free,
  type FreeMark,
  type FreeProposal,
  freeOf,
  isFault,
  judge,
  NotationError,
  proposeFreeInSteps,
  type SizingProgress,
  type SizingResult,
  type Steps,
  sizeInSteps,
} from "@tapeworthy/core";
import { boundsIn, type Project, sceneOf, type Texts } from "@tapeworthy/project";
import { CallError } from "./folder.ts";
import { type CheckOptions, weighRecord, withoutKnown } from "./run-check.ts";

export interface SizeOptions extends Omit<CheckOptions, "cures"> {
  readonly starts: number;
  /** "nip.preload=3..9 N": beside what the file frees, or in its place. */
  readonly free: readonly string[];
  readonly stop: () => boolean;
}
export type Sized =
  | {
      readonly kind: "sized";
      readonly result: SizingResult;
      readonly known: { readonly weighed: boolean; readonly effective: number };
    }
  | { readonly kind: "nothing free"; readonly proposals: readonly FreeProposal[]; readonly open: number };

/** Sizes a unit over its wanted tapes; where nothing is freed, proposes what to free. */
export async function runSize(project: Project, texts: Texts, unit: string, options: SizeOptions): Promise<Sized> {
  const names = project.wanted.get(unit) ?? [];
  if (names.length === 0)
    throw new CallError(`No tape is wanted of ${unit}: name some under "wanted" in project.yaml.`);
  const tapes = names.map((tape) => ({ tape, scene: sceneOf(project, unit, tape) }));
  const free = freed(project, unit, options.free);
  const belief = options.useKnown
    ? (options.record ?? (await weighRecord(project, { texts: [...texts], seed: options.seed }, options))).weighed
    : withoutKnown(project, options.seed);
  const { weights, effective } = belief;
  const contradicted = new Set(belief.contradicted);
  const deviates = new Deviates(options.seed);
  if (free.length === 0) {
    const stopped: { tape: string; scene: (typeof tapes)[number]["scene"]; first: readonly Check[] }[] = [];
    for (const { tape, scene } of tapes) {
      const { first, verdict } = judge({ unit, tape, scene, checks, deviates, weights, contradicted });
      if (verdict !== "feeds" && verdict !== "n/a")
        stopped.push({ tape, scene, first: first.flatMap((id) => checkNamed(id) ?? []) });
      options.progress("tapes as drawn", tapes.findIndex((t) => t.tape === tape) + 1, tapes.length);
      await breath();
    }
    const proposals = await stepped(proposeFreeInSteps(stopped, deviates, weights));
    return { kind: "nothing free", proposals, open: stopped.length };
  }
  const told = ({ what, done, of, least }: SizingProgress): void =>
    options.progress(least === undefined ? what : `${what} (least gap so far ${least.toFixed(2)})`, done, of);
  const { starts, stop } = options;
  const result = await stepped(
    sizeInSteps({ unit, tapes, checks, deviates, weights, contradicted, free, starts, stop, told }),
  );
  return {
    kind: "sized",
    result,
    known: {
      weighed: options.useKnown && project.known.length > 0,
      effective,
    },
  };
}
const breath = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));
/** Work in steps that lets an interrupt and the progress through. */
async function stepped<T>(steps: Steps<T>): Promise<T> {
  let last = performance.now();
  for (;;) {
    const piece = steps.next();
    if (piece.done) return piece.value;
    if (performance.now() - last < 50) continue;
    await breath();
    last = performance.now();
  }
}

/** What the file frees, then what the call does; the call's bounds stand in place of the file's. */
export function freed(project: Project, unit: string, wishes: readonly string[]): Free[] {
  const file = project.units.get(unit)!;
  const marks = new Map<string, FreeMark>(file.free.map((mark) => [mark.path, mark]));
  const asked = new Set<string>();
  for (const wish of wishes) {
    const at = wish.indexOf("=");
    if (at < 1) throw new CallError(`"${wish}" is no PATH=LOW..HIGH. For example: --free "nip.preload=3..9 N".`);
    const path = wish
      .slice(0, at)
      .trim()
      .replace(new RegExp(`^${unit}/`), "");
    asked.add(path);
    try {
      const { plain, unit: written } = boundsIn(wish.slice(at + 1).trim());
      marks.set(path, { path, unit: written, bounds: () => plain });
    } catch (e) {
      if (!(e instanceof NotationError)) throw e;
      throw new CallError(`--free ${path}: found ${e.found}, expected ${e.expected}.${e.hint ? ` ${e.hint}` : ""}`);
    }
  }
  const scenes = (project.wanted.get(unit) ?? []).map((tape) => sceneOf(project, unit, tape));
  return [...marks.values()].flatMap((mark): Free[] => {
    const free = freeOf(scenes, mark);
    if (!isFault(free)) return [free];
    // A width that no wanted tape has may hold what the file frees.
    if (!asked.has(mark.path) && free.of === "path") return [];
    throw new CallError(
      `--free ${mark.path}: found ${free.found}, expected ${free.expected}.${free.hint ? ` ${free.hint}` : ""}`,
    );
  });
}
