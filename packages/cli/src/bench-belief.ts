import {
  type CellMove,
  checks,
  Deviates,
  evenWeights,
  type HeldCell,
  heldCell,
  movesBetween,
  stillGuessed,
  type Taken,
  takenIn,
  type Weighed,
} from "@tapeworthy/core";
import {
  applied,
  type BenchResult,
  benchResult,
  benchResults,
  keyOfTrial,
  pieceReadings,
  restingOn,
  sceneOfTrial,
  takingOf,
} from "@tapeworthy/project";
import type { BenchFolder } from "./bench-folder.ts";
import { load } from "./load.ts";
import { weighRecord } from "./run-check.ts";

/** Belief with the bench's results in it. */
export interface BenchBelief {
  readonly deviates: Deviates;
  /** Weights by the record of known units alone. */
  readonly base: Float64Array;
  readonly weighed: Weighed;
  readonly results: readonly BenchResult[];
  readonly taken: Taken;
}
export interface BeliefOptions {
  readonly seed: number;
  readonly workers: number | undefined;
  readonly known: boolean;
  readonly progress: (what: string, done: number, of: number) => void;
}
/** Known units first, then the trials in their order, or only the one that is named; `record` where the known units have been weighed. */
export async function benchBelief(
  { project, texts, trials, ledger }: BenchFolder,
  { seed, workers, known, progress }: BeliefOptions,
  only?: string,
  record?: Weighed,
): Promise<BenchBelief> {
  const deviates = new Deviates(seed);
  const weighed = record ?? (await weighRecord(project, { texts: [...texts], seed }, { workers, progress })).weighed;
  const base = known ? weighed.weights : evenWeights;
  const asked = [...trials.values()].filter((t) => only === undefined || t.name === only);
  const results = benchResults(project, asked, ledger, deviates);
  const pieces = results.flatMap((r) => (r.evidence ? [r.evidence] : []));
  return { deviates, base, weighed, results, taken: takenIn(base, pieces) };
}
/** What holds at which draw; no margin, no sentence, so it is a fraction of a check. */
function heldCells(
  { project }: BenchFolder,
  deviates: Deviates,
  pairs: readonly Pair[],
  progress: BeliefOptions["progress"],
): HeldCell[] {
  return pairs.map(({ unit, tape }, i) => {
    progress("pairs of unit and tape", i, pairs.length);
    return heldCell(unit, tape, sceneOfTrial(project, { unit, tape }), checks, deviates);
  });
}
interface Pair {
  readonly unit: string;
  readonly tape: string;
}
/** The unknowns that a trial moves: the one it reads, or all that the check it tries rests on. */
const movedBy = ({ project, trials }: BenchFolder, { trial, direct }: BenchResult): string[] =>
  direct
    ? [direct.given.address]
    : [...keyOfTrial(project, trials.get(trial)!)].flatMap(([address, text]) =>
        text === stillGuessed ? [address] : [],
      );
/** What results do to the map, and how it was worked out. */
export interface BenchMoves {
  /** Of the wanted pairs that rest on something a trial moves. */
  readonly moves: readonly CellMove[];
  /** Wanted pairs that rest on none of it. */
  readonly untouched: number;
  /** Trials whose readings were put in as if written, and the cells run anew: the draws of the map were too few to carry them. */
  readonly ranAnew: readonly string[];
  /** Belief behind what is shown after. */
  readonly after: BenchBelief;
}
/**
 * The cells before and after. Where the draws carry the results, by their weights alone. Where they don't, the readings of guesses are put in as if
 * they had been written and those cells are run anew, so that nothing is blunted that need not be; what tries a check stays a weight. A pair that
 * rests on nothing a trial moves is passed over: known units tie unknowns together a little, and that is left out.
 */
export async function benchMoves(
  bench: BenchFolder,
  belief: BenchBelief,
  options: BeliefOptions,
  only?: string,
): Promise<BenchMoves> {
  const { base, weighed, taken, results, deviates } = belief;
  const contradicted = new Set(weighed.contradicted);
  const used = taken.standings.filter((s) => s.state === "taken");
  if (used.length === 0) return { moves: [], untouched: 0, ranAnew: [], after: belief };
  const wanted = [...bench.project.wanted].flatMap(([unit, tapes]) => tapes.map((tape) => ({ unit, tape })));
  const restsOn = (addresses: readonly string[]) => {
    return (pair: Pair): boolean => {
      const on = restingOn(bench.project, pair);
      return addresses.some((address) => on.has(address));
    };
  };
  const pairs = wanted.filter(
    restsOn(results.filter((r) => used.some((s) => s.trial === r.trial)).flatMap((r) => movedBy(bench, r))),
  );
  const untouched = wanted.length - pairs.length;
  const cells = heldCells(bench, deviates, pairs, options.progress);
  const before = { cells, weights: base, contradicted };
  if (taken.blunt === 1)
    return {
      moves: movesBetween(before, { cells, weights: taken.weights, contradicted }),
      untouched,
      ranAnew: [],
      after: belief,
    };
  const ranAnew: string[] = [];
  const moved = new Set<string>();
  let now = bench;
  for (const { trial, direct } of results) {
    if (!direct || !used.some((s) => s.trial === trial)) continue;
    const of = bench.trials.get(trial)!;
    // Places move with every edit: each number is looked up in the files as they then are.
    const result = benchResult(now.project, of, bench.ledger, deviates);
    const read = pieceReadings(of, direct.given.unit);
    const taking = read && takingOf(now.texts, of, result, read);
    if (taking === undefined || typeof taking === "string") continue;
    const texts = new Map(now.texts).set(taking.edit.file, applied(taking.edit, now.texts.get(taking.edit.file)!));
    now = { ...now, texts, project: load(texts) };
    ranAnew.push(trial);
    moved.add(taking.address);
  }
  if (ranAnew.length === 0)
    return {
      moves: movesBetween(before, { cells, weights: taken.weights, contradicted }),
      untouched,
      ranAnew,
      after: belief,
    };
  // What rests on none of the readings stays as it is.
  const rests = restsOn([...moved]);
  const after = await benchBelief(now, options, only, bench.project.known.some(rests) ? undefined : weighed);
  const anew = {
    cells: cells.map((cell, i) => {
      options.progress("pairs run anew", i, cells.length);
      const { unit, tape } = cell;
      return rests(cell) ? heldCell(unit, tape, sceneOfTrial(now.project, cell), checks, after.deviates) : cell;
    }),
    weights: after.taken.weights,
    contradicted: new Set(after.weighed.contradicted),
  };
  return { moves: movesBetween(before, anew), untouched, ranAnew, after };
}
