import {
  type CellMove,
  checks,
  type Deviates,
  type HeldCell,
  heldCell,
  type KnownChances,
  knownChances,
  movesBetween,
  type Steps,
  stillGuessed,
  weigh,
} from "@tapeworthy/core";
import type { Bench, Tell } from "./bench.ts";
import { type BenchBelief, benchBelief } from "./bench-belief.ts";
import { type BenchResult, benchResult, keyOfTrial, pieceReadings, restingOn } from "./bench-evidence.ts";
import { takingOf } from "./bench-take.ts";
import { applied } from "./edit.ts";
import { countOf, type Project, readProject } from "./project.ts";
import { sceneOf } from "./scene-of.ts";
import { type WeighedBelief, weighedBelief } from "./taken-trials.ts";

interface Pair {
  readonly unit: string;
  readonly tape: string;
}
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
/** The design as it would be with readings written into it. Nothing is written. */
export interface AsIfWritten {
  readonly bench: Bench;
  readonly trials: readonly string[];
  /** Numbers that the readings stand for. */
  readonly addresses: ReadonlySet<string>;
  /** Known units rest on them: their record has to be weighed anew. */
  readonly knownRest: boolean;
}
const restsOn = (project: Project, addresses: Iterable<string>): ((pair: Pair) => boolean) => {
  const wanted = [...addresses];
  return (pair) => {
    const on = restingOn(project, pair);
    return wanted.some((address) => on.has(address));
  };
};
/** The unknowns that a trial moves: the one it reads, or all that the check it tries rests on. */
const movedBy = ({ project }: Bench, { trial, direct }: BenchResult): string[] =>
  direct
    ? [direct.given.address]
    : [...keyOfTrial(project, project.trials.get(trial)!)].flatMap(([address, text]) =>
        text === stillGuessed ? [address] : [],
      );
const usedIn = ({ taken }: BenchBelief): ReadonlySet<string> =>
  new Set(taken.standings.flatMap((s) => (s.state === "taken" ? [s.trial] : [])));

/** The design with what waits to be read put in; undefined where the draws of the map carry all of it, or there is nothing of the kind. */
export function asIfWritten(bench: Bench, belief: BenchBelief): AsIfWritten | undefined {
  const { taken, results, deviates } = belief;
  if (taken.blunt === 1) return undefined;
  const used = usedIn(belief);
  const trials: string[] = [];
  const addresses = new Set<string>();
  let now = bench;
  for (const { trial, direct } of results) {
    if (!direct || !used.has(trial)) continue;
    const of = bench.project.trials.get(trial)!;
    // Places move with every edit: each number is looked up in the files as they then are.
    const result = benchResult(now.project, of, bench.project.ledger, deviates);
    const read = pieceReadings(of, direct.given.unit);
    const taking = read && takingOf(now.texts, of, result, read);
    if (taking === undefined || typeof taking === "string") continue;
    const texts = new Map(now.texts).set(taking.edit.file, applied(taking.edit, now.texts.get(taking.edit.file)!));
    const { project, errors } = readProject(texts);
    if (!project) throw new Error(`the design could not be read with ${trial} in it: ${errors[0]?.message}`);
    now = { ...now, texts, project };
    trials.push(trial);
    addresses.add(taking.address);
  }
  if (trials.length === 0) return undefined;
  const knownRest = bench.project.known.some(restsOn(bench.project, addresses));
  return { bench: now, trials, addresses, knownRest };
}

export interface MovesAsked {
  readonly anew?: AsIfWritten | undefined;
  /** The record of known units weighed on `anew`; worked out here where it is wanted and left out. */
  readonly record?: WeighedBelief | undefined;
  readonly known?: boolean;
  readonly only?: string | undefined;
  readonly tell?: Tell;
}
/**
 * The cells before and after. Where the draws carry the results, by their weights alone. Where they don't, the readings of guesses are put in as if
 * they had been written and those cells are run anew, so that nothing is blunted that need not be; what tries a check stays a weight. A pair that
 * rests on nothing a trial moves is passed over: known units tie unknowns together a little, and that is left out.
 */
export function* benchMoves(bench: Bench, belief: BenchBelief, asked: MovesAsked = {}): Steps<BenchMoves> {
  const { base, weighed, taken, results, deviates } = belief;
  const { tell } = asked;
  const used = usedIn(belief);
  if (used.size === 0) return { moves: [], untouched: 0, ranAnew: [], after: belief };
  const anew = "anew" in asked ? asked.anew : asIfWritten(bench, belief);
  const wanted = [...bench.project.wanted].flatMap(([unit, tapes]) => tapes.map((tape) => ({ unit, tape })));
  const moved = results.filter((r) => used.has(r.trial)).flatMap((r) => movedBy(bench, r));
  const pairs = wanted.filter(restsOn(bench.project, moved));
  const untouched = wanted.length - pairs.length;
  const contradicted = new Set(weighed.contradicted);
  const cells: HeldCell[] = [];
  for (const [i, { unit, tape }] of pairs.entries()) {
    tell?.("pairs of unit and tape", i, pairs.length);
    cells.push(heldCell(unit, tape, sceneOf(bench.project, unit, tape), checks, deviates));
    yield undefined;
  }
  const before = { cells, weights: base, contradicted };
  if (!anew)
    return {
      moves: movesBetween(before, { cells, weights: taken.weights, contradicted }),
      untouched,
      ranAnew: [],
      after: belief,
    };
  const record = asked.record ?? (anew.knownRest ? yield* weighedInSteps(anew.bench.project, deviates, tell) : weighed);
  const { known, only } = asked;
  const after = yield* benchBelief(anew.bench, {
    deviates,
    record,
    ...(known === undefined ? {} : { known }),
    only,
    ...(tell ? { tell } : {}),
  });
  // What rests on none of the readings stays as it is.
  const rests = restsOn(bench.project, anew.addresses);
  const again: HeldCell[] = [];
  for (const [i, cell] of cells.entries()) {
    tell?.("pairs run anew", i, cells.length);
    const { unit, tape } = cell;
    again.push(
      rests(cell)
        ? heldCell(unit, tape, sceneOf(anew.bench.project, cell.unit, cell.tape), checks, after.deviates)
        : cell,
    );
    yield undefined;
  }
  const run = { cells: again, weights: after.taken.weights, contradicted: new Set(after.weighed.contradicted) };
  return { moves: movesBetween(before, run), untouched, ranAnew: anew.trials, after };
}

/** The record of known units weighed, one after the other, with what the ledger takes in it. */
export function* weighedInSteps(project: Project, deviates: Deviates, tell?: Tell): Steps<WeighedBelief> {
  const chances: KnownChances[] = [];
  for (const [i, { unit, tape }] of project.known.entries()) {
    tell?.("known units", i, project.known.length);
    chances.push(knownChances(sceneOf(project, unit, tape), checks, deviates));
    yield undefined;
  }
  const weighed = weigh(project.known.map((record, i) => ({ ...countOf(record), chances: chances[i]! })));
  return weighedBelief(project, weighed, deviates);
}
