import {
  type Deviates,
  type Evidence,
  type EvidenceStanding,
  effectiveDraws,
  evenWeights,
  footing,
  takenIn,
  triedEvidence,
  type Weighed,
} from "@tapeworthy/core";
import { benchStanding, inDateOrder } from "./bench-evidence.ts";
import { GivenStore } from "./given-store.ts";
import type { Project } from "./project.ts";

/** Belief as the files stand: known units, and on top of them what the ledger takes. */
export interface WeighedBelief extends Weighed {
  /** By known units alone. */
  readonly byKnown: Weighed;
  /** Trials that the ledger takes and nothing retires, in the order they are taken in. One that contradicts is not weighed in. */
  readonly taken: readonly EvidenceStanding[];
  /** Trials that the ledger takes and the design has left behind: they count no more. */
  readonly retired: readonly RetiredTrial[];
}
export interface RetiredTrial {
  readonly trial: string;
  readonly says: string;
}
/** Weights where the record of known units is left out. */
const unweighed: Weighed = { weights: evenWeights, effective: evenWeights.length, contradicted: [], leftOut: [] };

/**
 * Weights by known units with the trials of checks that the ledger takes multiplied in; without known units the even ones. Where nothing is taken, the
 * weights are the very same. Readings of numbers are not among them: they are taken by being written into the design. With the store of an earlier
 * time, a trial whose footing has not changed is not worked out again. The trials of `but` are left out: the belief before them.
 */
export function weighedBelief(
  project: Project,
  weighed: Weighed = unweighed,
  deviates: Deviates,
  { store, but = [] }: { readonly store?: GivenStore; readonly but?: readonly string[] } = {},
): WeighedBelief {
  const pieces = takenEvidence(project, deviates, { store, but });
  const retired = takenStandings(project).flatMap(({ trial, state, says }) =>
    state === "retired" && !but.includes(trial) ? [{ trial, says }] : [],
  );
  if (pieces.length === 0) return { ...weighed, byKnown: weighed, taken: [], retired };
  const { weights, standings } = takenIn(weighed.weights, pieces);
  return { ...weighed, byKnown: weighed, weights, effective: effectiveDraws(weights), taken: standings, retired };
}
/** What the ledger takes into belief and nothing retires, as it speaks of every draw. */
export function takenEvidence(
  project: Project,
  deviates: Deviates,
  {
    store = new GivenStore(),
    but = [],
  }: { readonly store?: GivenStore | undefined; readonly but?: readonly string[] } = {},
): Evidence[] {
  return takenTrials(project)
    .filter(({ trial }) => !but.includes(trial))
    .map(({ trial, tried, on }) =>
      store.kept(`taken/${trial}`, [deviates.seed, ...on], () => triedEvidence(tried, deviates)),
    );
}
/** What the evidence rests on, and what has retired the rest, as one list: where it is the same, so is belief. Nothing is drawn for it. */
export const takenFooting = (project: Project): readonly unknown[] => [
  ...takenTrials(project).flatMap(({ on }) => on),
  ...takenStandings(project).map(({ says }) => says),
];

const takenTrials = (project: Project) =>
  takenStandings(project).flatMap(({ trial, state, tried }) =>
    state === "taken" && tried
      ? [{ trial, tried, on: [project.trials.get(trial), ...footing(tried.check, tried.scene)] }]
      : [],
  );
function takenStandings(project: Project) {
  const { ledger, trials } = project;
  if (ledger.taken.size === 0) return [];
  return inDateOrder(trials.values())
    .filter(({ name }) => ledger.taken.has(name))
    .map((trial) => benchStanding(project, trial));
}
