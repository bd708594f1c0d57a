import {
  type CellMove,
  chosen,
  type DecisiveFinding,
  type Deviates,
  type KeyChange,
  measuredValue,
  type Steps,
  sayRecord,
  shownUnit,
  type TrialPiece,
  trialPiece,
} from "@tapeworthy/core";
import { type UnitShape, unitShape } from "@tapeworthy/drawing";
import {
  askedBy,
  type Bench,
  type BenchCounts,
  type BenchResult,
  believedOf,
  benchBelief,
  benchMoves,
  benchStanding,
  canonicalTexts,
  type Edit,
  freezing,
  inDateOrder,
  isRefused,
  type LedgerFrozen,
  type LedgerScore,
  leftOut,
  type Project,
  type Proof,
  proofOf,
  type QuestionsWithPieces,
  questionsWithPieces,
  recordsOf,
  type Statement,
  sayProgress,
  sayScore,
  saySequential,
  sceneOf,
  scoring,
  statementsOf,
  type Trial,
  takingIn,
  toJson,
  trialBegun,
  type WeighedBelief,
  waitingFor,
} from "@tapeworthy/project";
import type { FileEdit } from "../engine/engine.ts";
import { version } from "../version.ts";

/** A trial as it stands, without a draw. */
export interface TrialView {
  readonly name: string;
  readonly question: string;
  readonly unit: string;
  readonly tape: string;
  readonly date: string | undefined;
  readonly built: string | undefined;
  readonly state: BenchResult["state"];
  readonly says: string;
  /** What waits to be taken: "3 readings not taken into the design". */
  readonly waits: string | undefined;
  readonly asks: "unknown" | "check" | "gone";
  readonly changes: readonly KeyChange[];
  readonly readings: number;
  readonly counts: number;
  readonly runs: readonly RunLine[];
  readonly readingRows: readonly {
    readonly piece: string;
    readonly text: string;
    readonly from: string;
    readonly setAside: string | undefined;
  }[];
  readonly countRows: readonly {
    readonly unit: string | undefined;
    readonly reel: string | undefined;
    readonly indexes: number;
    readonly misfeeds: number;
    readonly mode: string | undefined;
    readonly setAside: string | undefined;
  }[];
  /** Unit in which its answer is read. */
  readonly shownIn: string;
}
export interface RunLine {
  readonly number: number;
  readonly log: string;
  readonly raw: string;
  readonly reel: string | undefined;
  readonly unit: string | undefined;
  readonly setAside: string | undefined;
  readonly plateau: readonly [number, number] | undefined;
  readonly isTrace: boolean;
}
export interface BenchAnswer {
  readonly trials: readonly TrialView[];
  readonly frozen: readonly (Omit<LedgerFrozen, "key"> & { readonly restsOn: number })[];
  readonly scores: readonly LedgerScore[];
  readonly taken: readonly (readonly [trial: string, date: string | undefined])[];
  readonly apart: readonly (readonly [trial: string, reason: string])[];
  readonly records: readonly {
    readonly check: string;
    readonly agreed: number;
    readonly trials: number;
    readonly strokes: readonly { readonly trial: string; readonly agreed: boolean }[];
    readonly says: string;
  }[];
  /** Units whose cycles were counted. */
  readonly counted: readonly string[];
  /** Unit in which a question's answer is read, by the question. */
  readonly shownIn: Readonly<Record<string, string>>;
}
export interface NextAnswer {
  readonly questions: QuestionsWithPieces;
  /** Units drawn with the tape their worst question hangs on, by `unit tape`. */
  readonly shapes: Readonly<Record<string, UnitShape>>;
}
export interface TrialAnswer {
  readonly trial: string;
  readonly question: string;
  readonly unit: string;
  readonly tape: string;
  readonly state: BenchResult["state"];
  readonly says: string;
  readonly contradicts: boolean;
  readonly chance: number | undefined;
  readonly changes: readonly KeyChange[];
  readonly keyed: boolean;
  /** The guess and what was measured of it, SI. */
  readonly direct:
    | {
        readonly address: string;
        readonly shownIn: string;
        readonly guess: DecisiveFinding["guess"] | undefined;
        readonly measured: {
          readonly value: number;
          readonly low: number;
          readonly high: number;
          readonly scatter: { readonly sd: number; readonly log: boolean; readonly per: "reel" | "unit" };
        };
        readonly n: number;
        readonly warnings: readonly string[];
      }
    | undefined;
  readonly taking:
    | {
        readonly kind: "design";
        readonly file: string;
        readonly was: string;
        readonly is: string;
        readonly comment: string;
        readonly warnings: readonly string[];
        readonly edit: FileEdit;
      }
    | { readonly kind: "belief"; readonly says: string; readonly edit: FileEdit }
    | { readonly kind: "nothing"; readonly why: string };
  /** What of the unit a trial of a check keeps, and the unit drawn; undefined where it reads a number, or can't be drawn. */
  readonly cut: { readonly piece: TrialPiece; readonly shape: UnitShape } | undefined;
  readonly moves: readonly CellMove[];
  readonly untouched: number;
  readonly ranAnew: readonly string[];
}
export interface FreezeAnswer {
  readonly id: string;
  readonly says: readonly string[];
  readonly edits: readonly FileEdit[];
}
export interface ScoreAnswer {
  readonly says: string;
  readonly scored: boolean;
  /** Absent where nothing is new. */
  readonly edit: FileEdit | undefined;
}
export interface ProofAnswer {
  readonly unit: string;
  readonly counts: BenchCounts;
  readonly promised: Proof["promised"];
  readonly statements: readonly Statement[];
  readonly lines: readonly string[];
  readonly warnings: readonly string[];
  readonly sentence: string;
  readonly leftOut: readonly { readonly trial: string; readonly says: string }[];
}

/** What the answers below work with: the project as read, what is believed of it, and a way to do a piece of work at a time. */
export interface BenchWork {
  readonly project: Project;
  readonly texts: ReadonlyMap<string, string>;
  readonly deviates: Deviates;
  readonly weighed: WeighedBelief;
  readonly inSlices: <T>(steps: Steps<T>, what: () => { what: string; done: number; of: number }) => Promise<T>;
}
type None = { readonly none: string };

/** Trials and ledger as the texts hold them. */
export function benchNow(project: Project): BenchAnswer {
  const { ledger } = project;
  const waits = new Map(waitingFor({ project }).map((w) => [w.trial, w.says]));
  const shownIn: Record<string, string> = {};
  const trials = inDateOrder(project.trials.values()).map((trial): TrialView => {
    const { state, says, changes } = benchStanding(project, trial);
    const asked = askedBy(project, trial);
    const unit = shownInOf(project, trial, asked);
    shownIn[trial.question] = unit;
    return {
      name: trial.name,
      question: trial.question,
      unit: trial.unit,
      tape: trial.tape,
      date: trial.date,
      built: trial.built,
      state,
      says,
      waits: waits.get(trial.name),
      asks: asked.kind,
      changes,
      readings: trial.readings.filter((r) => r.setAside === undefined).length,
      counts: trial.counts.filter((c) => c.setAside === undefined).length,
      runs: trial.runs.map((r) => ({
        number: r.number,
        log: r.log,
        raw: r.raw,
        reel: r.reel,
        unit: r.unit,
        setAside: r.setAside,
        plateau: r.plateau,
        isTrace: r.statistics !== undefined,
      })),
      readingRows: trial.readings.map((r) => ({
        piece: [r.unit, r.reel === undefined ? undefined : `reel ${r.reel}`].filter((one) => one).join(", "),
        text: r.given.text,
        from: r.run === undefined ? (r.by ?? "typed") : `run ${r.run}`,
        setAside: r.setAside,
      })),
      countRows: trial.counts.map(({ unit: built, reel, indexes, misfeeds, mode, setAside }) => ({
        unit: built,
        reel,
        indexes,
        misfeeds,
        mode,
        setAside,
      })),
      shownIn: unit,
    };
  });
  return {
    trials,
    frozen: ledger.frozen.map(({ key, ...rest }) => ({ ...rest, restsOn: key.size })),
    scores: ledger.scores,
    taken: [...ledger.taken],
    apart: [...ledger.apart],
    records: [...recordsOf(ledger).values()].map((r) => ({ ...r, says: sayRecord(r) })),
    counted: [...new Set([...project.trials.values()].flatMap((t) => (t.counts.length > 0 ? [t.unit] : [])))],
    shownIn,
  };
}
function shownInOf(
  project: Project,
  trial: { readonly unit: string; readonly tape: string },
  asked: ReturnType<typeof askedBy>,
): string {
  if (asked.kind === "gone") return "";
  if (asked.kind === "unknown") return shownUnit(asked.given);
  const value = chosen(asked.check.value, sceneOf(project, trial.unit, trial.tape));
  return value ? shownUnit(value) : "";
}

/** Judged pairs ranked by what to find out, each question with the piece that would settle it. */
export async function nextOf(work: BenchWork, rows: Parameters<typeof questionsWithPieces>[1]): Promise<NextAnswer> {
  const { project, deviates, weighed } = work;
  const questions = await work.inSlices(
    questionsWithPieces(project, rows, { weights: weighed.weights, deviates }),
    () => ({ what: "questions", done: 0, of: 1 }),
  );
  const shapes: Record<string, UnitShape> = {};
  for (const { hangs } of [...questions.ranked, ...questions.open, ...questions.dropped]) {
    const [worst] = hangs;
    if (!worst || shapes[`${worst.unit} ${worst.tape}`]) continue;
    try {
      shapes[`${worst.unit} ${worst.tape}`] = unitShape(sceneOf(project, worst.unit, worst.tape));
    } catch (e) {
      // What can't be drawn is shown without its drawing.
      if (!(e instanceof RangeError)) throw e;
    }
  }
  return { questions, shapes };
}

/** What one trial says, and what moves if it is taken. */
export async function trialOf(work: BenchWork, name: string, date: string): Promise<TrialAnswer | None> {
  const { project, deviates, weighed } = work;
  const trial = project.trials.get(name);
  if (!trial) return { none: `There is no trial ${name}.` };
  const bench = await benchOf(work);
  let at = { what: "the trial", done: 0, of: 1 };
  const tell = (what: string, done: number, of: number): void => {
    at = { what, done, of };
  };
  const belief = await work.inSlices(benchBelief(bench, { deviates, record: weighed, only: name, tell }), () => at);
  const result = belief.results.find((r) => r.trial === name)!;
  const standing = belief.taken.standings[0];
  const moved = await work.inSlices(benchMoves(bench, belief, { only: name, tell }), () => at);
  const taking = takingIn(bench, trial, belief, date);
  return {
    trial: name,
    question: trial.question,
    unit: trial.unit,
    tape: trial.tape,
    state: result.state,
    says: standing?.says ?? result.says,
    contradicts: standing?.state === "contradicts",
    chance: standing?.chance,
    changes: result.changes,
    keyed: result.keyed,
    direct: result.direct && directView(result.direct),
    taking:
      taking.kind === "design"
        ? {
            kind: "design",
            file: taking.edit.file,
            was: taking.taking.was,
            is: taking.taking.is,
            comment: taking.taking.comment,
            warnings: taking.taking.value.warnings,
            edit: plain(taking.edit, work.texts),
          }
        : taking.kind === "belief"
          ? { kind: "belief", says: taking.says, edit: plain(taking.edit, work.texts) }
          : taking,
    cut: cutOf(project, trial),
    moves: moved.moves,
    untouched: moved.untouched,
    ranAnew: moved.ranAnew,
  };
}
function cutOf(project: Project, trial: Trial): TrialAnswer["cut"] {
  const asked = askedBy(project, trial);
  if (asked.kind !== "check") return undefined;
  const scene = sceneOf(project, trial.unit, trial.tape);
  const piece = trialPiece(scene, asked.check);
  try {
    return piece && { piece, shape: unitShape(scene) };
  } catch (e) {
    // What can't be drawn is shown without its drawing.
    if (!(e instanceof RangeError)) throw e;
    return undefined;
  }
}
function directView(direct: NonNullable<BenchResult["direct"]>): NonNullable<TrialAnswer["direct"]> {
  const { given, per } = direct;
  const { middle, low, high, scatter, log, n, warnings } = measuredValue(direct);
  const { unknown } = given;
  return {
    address: given.address,
    shownIn: shownUnit(given),
    guess: unknown && "low" in unknown ? { low: unknown.low, high: unknown.high } : undefined,
    measured: { value: middle, low, high, scatter: { sd: scatter, log, per } },
    n,
    warnings,
  };
}

export async function freezeOf(
  work: BenchWork,
  name: string,
  date: string,
  fresh: { readonly unit: string; readonly tape: string; readonly question: string } | undefined,
): Promise<FreezeAnswer | None> {
  const { deviates, weighed } = work;
  const bench = await benchOf(work);
  const begun = trialBegun(bench, name, fresh ?? {});
  if (isRefused(begun)) return { none: begun.why };
  const believed = believedOf({ deviates, base: weighed.weights, weighed, byKnown: weighed.byKnown });
  const found = freezing(bench, begun, believed, { date, version });
  if (isRefused(found)) return { none: found.why };
  return { id: found.frozen.id, says: found.says, edits: found.edits.map((e) => plain(e, work.texts)) };
}

export async function scoreOf(
  work: Pick<BenchWork, "project" | "texts">,
  name: string,
  date: string,
): Promise<ScoreAnswer | None> {
  const trial = work.project.trials.get(name);
  if (!trial) return { none: `There is no trial ${name}.` };
  const { lines, edit } = scoring(await benchOf(work), [trial], date);
  const [line] = lines;
  return {
    says: sayScore(line!),
    scored: line!.score !== undefined,
    edit: edit && plain(edit, work.texts),
  };
}

export async function proofFor(work: BenchWork, unit: string): Promise<ProofAnswer | None> {
  const { project, deviates, weighed } = work;
  const bench = await benchOf(work);
  const results = inDateOrder(project.trials.values()).map((t) => benchStanding(project, t));
  let at = { what: "what may be promised", done: 0, of: 1 };
  const proof = await work.inSlices(
    proofOf(bench, unit, {
      results,
      believed: believedOf({ deviates, base: weighed.weights, weighed, byKnown: weighed.byKnown }),
      tell: (what, done, of) => {
        at = { what, done, of };
      },
    }),
    () => at,
  );
  if (!proof) return { none: `No cycles of ${unit} were counted that still stand.` };
  if (isRefused(proof)) return { none: proof.why };
  const sequential = saySequential(proof);
  return {
    unit,
    counts: proof.counts,
    promised: proof.promised,
    statements: statementsOf(proof),
    lines: [sayProgress(proof), ...(sequential === undefined ? [] : [sequential])],
    warnings: proof.promised.warnings,
    sentence: proof.promised.sentence,
    leftOut: leftOut(results).map(({ trial, says }) => ({ trial, says })),
  };
}

async function benchOf({ project, texts }: Pick<BenchWork, "project" | "texts">): Promise<Bench> {
  const bytes = new TextEncoder().encode(canonicalTexts(texts));
  const hash = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return { project, texts, sha: [...hash].map((b) => b.toString(16).padStart(2, "0")).join("") };
}
const plain = ({ file, changes }: Edit, texts: ReadonlyMap<string, string>): FileEdit => ({
  file,
  base: texts.get(file),
  changes: toJson(changes),
});
