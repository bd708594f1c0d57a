import {
  type Came,
  type Check,
  changedSince,
  checkNamed,
  checks,
  chosen,
  type Deviates,
  type DirectReading,
  directEvidence,
  type Evidence,
  type Given,
  isPlace,
  type KeyChange,
  notRead,
  type Outcome,
  type Quantity,
  rootsOf,
  type Scatter,
  type Scene,
  sameDimension,
  sayChange,
  stillGuessed,
  type Tried,
  triedEvidence,
  unitOf,
} from "@tapeworthy/core";
import { wordsBeside } from "./bench-words.ts";
import type { Ledger } from "./ledger-read.ts";
import { roles } from "./log/mapping.ts";
import type { Trial } from "./log/trial.ts";
import type { Project } from "./project.ts";
import { sceneOf } from "./scene-of.ts";

/** What a trial asks: an unknown to be read, or a check to be tried. */
export type Asked =
  | { readonly kind: "unknown"; readonly given: Given }
  | { readonly kind: "check"; readonly check: Check }
  | { readonly kind: "gone"; readonly why: string };

/** Everything that the checks of a scene rest on, or one check. */
function rootsIn(scene: Scene, of: readonly Check[]): Map<string, Given> {
  const out = new Map<string, Given>();
  const seen = new Set<Quantity>();
  for (const check of of) {
    if (check.absent(scene) !== undefined) continue;
    for (const q of [
      chosen(check.value, scene),
      chosen<Quantity>(check.atLeast, scene),
      chosen<Quantity>(check.atMost, scene),
    ])
      if (q) for (const g of rootsOf(q, scene, seen as Set<never>)) out.set(g.address, g);
  }
  return out;
}
/** Addresses of everything that some check of a unit on a tape rests on. */
export const restingOn = (project: Project, pair: Pick<Trial, "unit" | "tape">): ReadonlySet<string> =>
  new Set(rootsIn(sceneOf(project, pair.unit, pair.tape), checks).keys());
export function askedBy(project: Project, trial: Pick<Trial, "unit" | "tape" | "question">): Asked {
  const row = project.tapes.get(trial.tape)?.tape.row;
  if (row === undefined || !project.units.get(trial.unit)?.variants.has(row))
    return { kind: "gone", why: `${trial.unit} is not made for ${trial.tape}` };
  const check = checkNamed(trial.question);
  if (check) return { kind: "check", check };
  const scene = sceneOf(project, trial.unit, trial.tape);
  const given = rootsIn(scene, checks).get(trial.question) ?? project.givens.get(trial.question);
  if (!given) return { kind: "gone", why: `no check of ${trial.unit} on ${trial.tape} rests on "${trial.question}"` };
  return { kind: "unknown", given };
}

/**
 * What a trial's result rests on, as the files stand: of a check every number its value and bounds rest on, guesses by that word alone, and the words
 * beside them; of an unknown the words beside it.
 */
export function keyOfTrial(project: Project, trial: Pick<Trial, "unit" | "tape" | "question">): Map<string, string> {
  const asked = askedBy(project, trial);
  if (asked.kind === "gone") return new Map();
  const key = new Map<string, string>();
  const beside = (address: string): void => {
    for (const [at, text] of wordsBeside(project, address)) key.set(at, text);
  };
  if (asked.kind === "unknown") {
    beside(asked.given.address);
    return key;
  }
  for (const [address, g] of rootsIn(sceneOf(project, trial.unit, trial.tape), [asked.check])) {
    if (!g.unknown && !isPlace(g.origin)) continue;
    key.set(address, g.unknown ? stillGuessed : g.text);
    beside(address);
  }
  return key;
}

/** One mean a piece: readings of one unit and reel are one. What was set aside is not among them. */
export interface PieceReadings {
  readonly values: readonly number[];
  readonly per: "reel" | "unit";
  /** sd that all readings share, SI: the greatest tolerance written at one. */
  readonly shared: number;
  /** Readings behind them. */
  readonly readings: number;
  readonly reels: number;
  readonly units: number;
}
/** Readings of a trial that fit a dimension; typed ones, else the means of its logs. */
export function pieceReadings(trial: Trial, unit: string): PieceReadings | undefined {
  const { dimension } = unitOf(unit);
  const typed = trial.readings
    .filter((r) => r.setAside === undefined && sameDimension(r.given.dimension, dimension))
    .map((r) => ({ ...r, sd: sharedSd(r.given, r.value) }));
  const logged = trial.runs.flatMap((r) =>
    r.setAside === undefined && r.statistics && fits(r.statistics.of, unit)
      ? [{ reel: r.reel, unit: r.unit, value: r.statistics.mean, sd: 0 }]
      : [],
  );
  const all = typed.length > 0 ? typed : logged;
  if (all.length === 0) return undefined;
  const groups = new Map<string, number[]>();
  for (const r of all) {
    const key = JSON.stringify([r.unit ?? "", r.reel ?? ""]);
    groups.set(key, [...(groups.get(key) ?? []), r.value]);
  }
  const count = (of: "reel" | "unit"): number => new Set(all.map((r) => r[of] ?? "")).size;
  const [reels, units] = [count("reel"), count("unit")];
  return {
    values: [...groups.values()].map((v) => v.reduce((a, b) => a + b, 0) / v.length),
    per: units > reels ? "unit" : "reel",
    shared: Math.max(...all.map((r) => r.sd)),
    readings: all.length,
    reels,
    units,
  };
}
function fits(role: keyof typeof roles, unit: string): boolean {
  const { unit: own } = roles[role];
  if (own === "text" || own === "any" || own === "counts") return false;
  return sameDimension(unitOf(own === "degC" ? "kelvin" : own).dimension, unitOf(unit).dimension);
}
const sharedSd = (given: Given, value: number): number =>
  Math.hypot(
    ...given.scatters.map((s: Scatter) =>
      s.law === "uniform" ? (s.to - s.from) / Math.sqrt(12) : s.law === "normal" ? s.sd : s.sd * Math.abs(value),
    ),
  );

/** Pieces that were tried for a check: units on reels, failed where they misfed in a way that is not another check's. */
export function piecesTried(trial: Trial, check: string): { failed: number; run: number } | undefined {
  const groups = new Map<string, boolean>();
  for (const c of trial.counts) {
    if (c.setAside !== undefined || c.indexes === 0) continue;
    const other = c.mode !== undefined && c.mode !== check && checkNamed(c.mode) !== undefined;
    const key = JSON.stringify([c.unit ?? "", c.reel ?? ""]);
    groups.set(key, (groups.get(key) ?? false) || (c.misfeeds > 0 && !other));
  }
  return groups.size === 0 ? undefined : { failed: [...groups.values()].filter(Boolean).length, run: groups.size };
}

/** What came out of a trial, to be held against its prediction; why nothing did. */
export function cameOutOf(project: Project, trial: Trial): Came | string {
  const asked = askedBy(project, trial);
  if (asked.kind === "gone") return asked.why;
  const unit =
    asked.kind === "unknown"
      ? asked.given.unit
      : chosen(asked.check.value, sceneOf(project, trial.unit, trial.tape))?.unit;
  const read = unit === undefined ? undefined : pieceReadings(trial, unit);
  if (read) {
    const { values, shared } = read;
    const n = values.length;
    const mean = values.reduce((a, b) => a + b, 0) / n;
    const sd = n > 1 ? Math.sqrt(values.reduce((a, v) => a + (v - mean) ** 2, 0) / (n - 1)) : 0;
    return { kind: "value", value: mean, uncertainty: Math.hypot(sd / Math.sqrt(n), shared) };
  }
  const pieces = asked.kind === "check" ? piecesTried(trial, asked.check.id) : undefined;
  if (pieces) return { kind: "pieces", ...pieces };
  return `${trial.name} holds no result that answers ${trial.question}`;
}

/** How a trial stands to belief. */
export interface BenchResult {
  readonly trial: string;
  readonly question: string;
  /** used: it waits to be taken. taken: the ledger takes it into belief. */
  readonly state: "used" | "taken" | "retired" | "apart" | "in the design" | "nothing yet";
  readonly says: string;
  /** What changed since the trial was built. */
  readonly changes: readonly KeyChange[];
  /** What it rests on was noted. */
  readonly keyed: boolean;
  readonly evidence?: Evidence;
  readonly direct?: DirectReading;
  readonly tried?: Tried;
}

/** Every trial of a project as evidence, in the order of their dates and names. */
export function benchResults(
  project: Project,
  trials: Iterable<Trial>,
  ledger: Ledger,
  deviates: Deviates,
): BenchResult[] {
  return inDateOrder(trials).map((trial) => benchResult(project, trial, ledger, deviates));
}
export const inDateOrder = (trials: Iterable<Trial>): Trial[] =>
  [...trials].sort((a, b) => ((a.date ?? "") + a.name < (b.date ?? "") + b.name ? -1 : 1));
export function benchResult(project: Project, trial: Trial, ledger: Ledger, deviates: Deviates): BenchResult {
  const standing = benchStanding(project, trial, ledger);
  const { direct, tried } = standing;
  if (direct) return { ...standing, evidence: directEvidence(direct, deviates) };
  return tried ? { ...standing, evidence: triedEvidence(tried, deviates) } : standing;
}
/** How a trial stands, before anything is drawn. */
export function benchStanding(
  project: Project,
  trial: Trial,
  ledger: Ledger = project.ledger,
): Omit<BenchResult, "evidence"> {
  const { name, question } = trial;
  const then = ledger.keys.get(name);
  const changes = then ? changedSince(then, keyOfTrial(project, trial)) : [];
  const base = { trial: name, question, changes, keyed: then !== undefined };
  const apart = ledger.apart.get(name);
  if (apart !== undefined) return { ...base, state: "apart", says: `kept apart: ${apart}` };
  const asked = askedBy(project, trial);
  if (asked.kind === "gone") return { ...base, state: "retired", says: `retired: ${asked.why}` };
  if (changes.length > 0)
    return {
      ...base,
      state: "retired",
      says: `retired, for the design is another one: ${changes.map(sayChange).join("; ")}`,
    };
  if (asked.kind === "unknown") {
    const { given } = asked;
    if (writtenBy(project, given, name))
      return { ...base, state: "in the design", says: `in the design: ${given.text}` };
    const why = notRead(given);
    if (why !== undefined) return { ...base, state: "in the design", says: why };
    const read = pieceReadings(trial, given.unit);
    if (!read) return { ...base, state: "nothing yet", says: "no reading yet" };
    const direct: DirectReading = { trial: name, given, readings: read.values, per: read.per, shared: read.shared };
    return { ...base, state: "used", says: "", direct };
  }
  const scene = sceneOf(project, trial.unit, trial.tape);
  const outcome = outcomeOf(trial, asked.check, scene);
  if (!outcome) return { ...base, state: "nothing yet", says: "no result yet" };
  const tried: Tried = { trial: name, scene, check: asked.check, outcome };
  if (!ledger.taken.has(name)) return { ...base, state: "used", says: "", tried };
  const day = ledger.taken.get(name);
  return { ...base, state: "taken", says: `taken into belief${day === undefined ? "" : ` on ${day}`}`, tried };
}
function outcomeOf(trial: Trial, check: Check, scene: Scene): Outcome | undefined {
  const value = chosen(check.value, scene);
  const read = value && pieceReadings(trial, value.unit);
  if (read) return { kind: "value", readings: read.values, error: read.shared };
  const pieces = piecesTried(trial, check.id);
  return pieces && { kind: "pieces", ...pieces, error: 0 };
}
/** Whether the line on which a number stands names the trial: then its reading is in the number already. */
export function writtenBy(project: Project, given: Given, trial: string): boolean {
  if (!isPlace(given.origin)) return false;
  const line = project.files.get(given.origin.file)?.lineText(given.origin.line) ?? "";
  const comment = line.slice(given.origin.column - 1 + given.origin.length);
  const at = comment.search(/\s#/);
  return (
    at >= 0 &&
    new RegExp(`(^|[^\\p{L}\\p{N}-])${trial.replace(/[.*+?^${}()|[\]\\]/g, "\\$&")}([^\\p{L}\\p{N}-]|$)`, "u").test(
      comment.slice(at + 2),
    )
  );
}
