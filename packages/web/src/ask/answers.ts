import {
  accuracyInSteps,
  type CureEffect,
  type CuresWithEffects,
  checkNamed,
  checks,
  climb,
  compare,
  curesOf,
  Deviates,
  effectsOf,
  type Judged,
  judgeFully,
  type KnownChances,
  type KnownCount,
  knownChances,
  type Ladder,
  ladderOf,
  misfeedsInSteps,
  noIndex,
  type Steps,
  sweepInputs,
  sweepOf,
  type TapeResult,
  weigh,
  worstFirst,
} from "@tapeworthy/core";
import { indexPicture, unitShape } from "@tapeworthy/drawing";
import {
  countOf,
  familyOf,
  GivenStore,
  isDesignPath,
  type Project,
  readProject,
  sceneOf,
  type WeighedBelief,
  weighedBelief,
} from "@tapeworthy/project";
import type { JudgedPairs } from "../engine/protocol.ts";
import { type BenchWork, benchNow, freezeOf, nextOf, proofFor, scoreOf, trialOf } from "./bench-answers.ts";
import type { About, Answer, Drawn, Progress, Question } from "./question.ts";
import { type SizingDesk, sizeIn } from "./sizing.ts";

/** Told before every piece of work; throws where nobody waits for the answer any more. */
export type Tell = (progress: Progress) => Promise<void>;
/** Told what is known of an answer so far. */
export type Show = (sofar: Answer) => void;

/**
 * Answers what takes long: ladders, comparisons, cures, with the record of known units weighed in. It keeps what it read from one text to the
 * next, and what it knows of units whose text has not changed. What the map found of the same texts is taken from it: no pair is judged twice by
 * one belief.
 */
export class Answers {
  private readonly store = new GivenStore();
  private readonly chances = new Map<string, { readonly parts: readonly unknown[]; readonly chances: KnownChances }>();
  /** Answers and ladders of the last few texts: what was taken back, and asked before, is there at once. */
  private readonly given = new Map<string, unknown>();

  /** The unit whose windows were widened last, with the texts it stands on. */
  private sizing: { readonly texts: About["texts"]; readonly desk: SizingDesk } | undefined;

  /** `found` is what the map found of these texts, where it is there. */
  async answer(
    about: About,
    question: Question,
    tell: Tell,
    show: Show = () => {},
    found?: JudgedPairs,
  ): Promise<Answer> {
    if (question.kind === "windows") return this.windowsAt(about, question, tell);
    return this.once([about, question], () => this.workedOut(about, question, tell, show, found));
  }
  private async once<T>(key: unknown, work: () => Promise<T>): Promise<T> {
    const name = JSON.stringify(key);
    const known = this.given.get(name);
    if (known !== undefined) return known as T;
    const found = await work();
    this.given.set(name, found);
    for (const old of [...this.given.keys()].slice(0, -mostGiven)) this.given.delete(old);
    return found;
  }

  private async workedOut(
    about: About,
    question: Exclude<Question, { kind: "windows" }>,
    tell: Tell,
    show: Show,
    found: JudgedPairs | undefined,
  ): Promise<Answer> {
    const { texts, seed } = about;
    const { project } = readProject(new Map(texts), this.store);
    if (!project) return { kind: "none", why: "The files can't be read as they stand." };
    // One index rests on the numbers as written: nothing has to be weighed for it.
    if (question.kind === "index") return indexIn(project, question, tell);
    if (question.kind === "bench") return { kind: "bench", bench: benchNow(project) };
    if (question.kind === "score") {
      const score = await scoreOf({ project, texts: new Map(texts) }, question.trial, question.date);
      return "none" in score ? { kind: "none", why: score.none } : { kind: "score", score };
    }
    const deviates = new Deviates(seed);
    const weighed = await this.weighed(project, deviates, tell, found);
    const ladder = (unit: string) => this.once([about, unit], () => ladderIn(work, unit));
    const work: Work = { project, deviates, weighed, tell, show, ladder, judged: judgedBy(weighed, found) };
    switch (question.kind) {
      case "ladder": {
        const found = await ladder(question.unit);
        return typeof found === "string" ? { kind: "none", why: found } : { kind: "ladder", ladder: found };
      }
      case "compare":
        return comparedIn(work, question.units, question.W);
      case "cures":
        return { kind: "cures", cures: await curesIn(work, question) };
      case "sweep":
        return sweepIn(work, question);
      case "misfeed":
        return misfeedIn(work, question);
      case "pick":
        return pickIn(work, question);
      case "next":
        return { kind: "next", next: await nextOf(benchWork(work, texts), await this.judgedAll(work, texts)) };
      case "trial": {
        const trial = await trialOf(benchWork(work, texts), question.trial, question.date);
        return "none" in trial ? { kind: "none", why: trial.none } : { kind: "trial", trial };
      }
      case "freeze": {
        const { trial, date, fresh } = question;
        const freeze = await freezeOf(benchWork(work, texts), trial, date, fresh);
        return "none" in freeze ? { kind: "none", why: freeze.none } : { kind: "freeze", freeze };
      }
      case "proof": {
        const proof = await proofFor(benchWork(work, texts), question.unit);
        return "none" in proof ? { kind: "none", why: proof.none } : { kind: "proof", proof };
      }
      case "size": {
        const { unit } = question;
        const tapes = project.wanted.get(unit) ?? [];
        if (tapes.length === 0) return { kind: "none", why: `No tape is wanted of ${unit}.` };
        const { weights, contradicted } = weighed;
        const { answer, desk } = await sizeIn({
          project,
          texts: new Map(texts),
          unit,
          scenes: tapes.map((tape) => ({ tape, scene: sceneOf(project, unit, tape) })),
          belief: { deviates, weights, contradicted: new Set(contradicted) },
          tell: (what, done, of) => tell({ what, done, of }),
          show: (sizing) => show({ kind: "size", sizing }),
          slices: inSlices,
        });
        this.sizing = desk && { texts, desk };
        return { kind: "size", sizing: answer };
      }
    }
  }

  /** Every wanted pair with what holds at which draw; what rests on the same design and belief is not judged again. */
  private async judgedAll(work: Work, texts: About["texts"]) {
    const wanted = [...work.project.wanted].flatMap(([unit, tapes]) => tapes.map((tape) => ({ unit, tape })));
    const design = texts.filter(([file]) => isDesignPath(file));
    const belief = [[...work.weighed.weights], work.weighed.contradicted];
    const rows = [];
    for (const [i, { unit, tape }] of wanted.entries()) {
      await work.tell({ what: "pairs of unit and tape", done: i, of: wanted.length });
      rows.push(await this.once(["judged", design, belief, unit, tape], () => judgedIn(work, unit, tape)));
    }
    return rows;
  }

  private async windowsAt(
    { texts }: About,
    { unit, at, rests }: Extract<Question, { kind: "windows" }>,
    tell: Tell,
  ): Promise<Answer> {
    const { sizing } = this;
    if (sizing?.desk.unit !== unit || JSON.stringify(sizing.texts) !== JSON.stringify(texts))
      return { kind: "none", why: "The files have changed: fold the sizing and unfold it again." };
    if (rests) await inSlices(sizing.desk.table(at), () => tell({ what: "windows", done: 0, of: 1 }));
    return { kind: "size", sizing: sizing.desk.seen(at) };
  }

  private async weighed(
    project: Project,
    deviates: Deviates,
    tell: Tell,
    found: JudgedPairs | undefined,
  ): Promise<WeighedBelief> {
    const out: (KnownCount & { readonly chances: KnownChances })[] = [];
    for (const [i, record] of project.known.entries()) {
      await tell({ what: "known units", done: i, of: project.known.length });
      const scene = sceneOf(project, record.unit, record.tape);
      const key = `${record.unit} ${record.tape}`;
      const parts = [scene.unit, scene.tape, JSON.stringify(scene.requirement, numbersOnly)];
      const known = this.chances.get(key);
      const chances =
        known && parts.every((part, at) => part === known.parts[at])
          ? known.chances
          : (found?.known.find((k) => k.unit === record.unit && k.tape === record.tape)?.chances ??
            knownChances(scene, checks, deviates));
      this.chances.set(key, { parts, chances });
      out.push({ ...countOf(record), chances });
    }
    return weighedBelief(project, weigh(out), deviates, { store: this.store });
  }
}
const mostGiven = 60;
const benchWork = ({ project, deviates, weighed, tell }: Work, texts: About["texts"]): BenchWork => ({
  project,
  texts: new Map(texts),
  deviates,
  weighed,
  inSlices: (steps, what) => inSlices(steps, () => tell(what())),
});
/** What a requirement asks, as text: its numbers as they are written. */
const numbersOnly = (key: string, value: unknown): unknown =>
  key === "origin" || typeof value === "function" ? undefined : value;

interface Work {
  readonly project: Project;
  readonly deviates: Deviates;
  readonly weighed: WeighedBelief;
  readonly tell: Tell;
  readonly show: Show;
  readonly ladder: (unit: string) => Promise<Ladder | string>;
  /** Pairs that the map has judged by this very belief. */
  readonly judged: ReadonlyMap<string, Judged>;
}
/** What was found by the same weights and the same contradicted checks; by others it is of no use here. */
function judgedBy({ weights, contradicted }: WeighedBelief, found: JudgedPairs | undefined): Work["judged"] {
  const isSame = found?.weights.every((w, i) => w === weights[i]) && `${found.contradicted}` === `${[...contradicted]}`;
  return new Map(found && isSame ? found.rows.map((row) => [`${row.result.unit} ${row.result.tape}`, row]) : []);
}

async function ladderIn({ project, deviates, weighed, tell }: Work, unit: string): Promise<Ladder | string> {
  const family = familyOf(project, unit);
  if (typeof family === "string") return family;
  const contradicted = new Set(weighed.contradicted);
  const climbed = [];
  for (const [i, piece] of family.pieces.entries()) {
    await tell({ what: `pieces of the ladder of ${family.name}`, done: i, of: family.pieces.length });
    climbed.push(climb(piece, { checks, deviates, weights: weighed.weights, contradicted }));
  }
  return ladderOf(family, climbed, checks, contradicted, project.requirement.allowPairs);
}

async function judgedIn({ project, deviates, weighed, judged }: Work, unit: string, tape: string): Promise<Judged> {
  const found = judged.get(`${unit} ${tape}`);
  if (found) return found;
  return judgeFully({
    unit,
    tape,
    scene: sceneOf(project, unit, tape),
    checks,
    deviates,
    weights: weighed.weights,
    contradicted: new Set(weighed.contradicted),
  });
}

async function comparedIn(work: Work, units: readonly string[], W: number): Promise<Answer> {
  const { project, tell } = work;
  const unknown = units.find((unit) => !project.units.has(unit));
  if (unknown !== undefined) return { kind: "none", why: `There is no unit "${unknown}".` };
  const compared = [];
  for (const unit of units) {
    const ladder = await work.ladder(unit);
    const file = project.units.get(unit)!;
    const served = servedBy(project, unit);
    const tapes: TapeResult[] = [];
    for (const [i, tape] of served.entries()) {
      await tell({ what: `tapes of ${file.name}`, done: i, of: served.length });
      tapes.push((await judgedIn(work, unit, tape)).result);
    }
    compared.push({
      unit,
      name: file.name,
      revision: [...file.variants.values()][0]?.revision ?? "",
      ladder: typeof ladder === "string" ? null : ladder,
      why: typeof ladder === "string" ? ladder : null,
      tapes,
    });
  }
  return {
    kind: "compare",
    comparison: compare(compared, checks),
    drawn: units.map((unit) => drawnWith(project, unit, W)),
  };
}
/** Every tape of the project that a unit is cut for. */
function servedBy(project: Project, unit: string): string[] {
  const { variants, kinds } = project.units.get(unit)!;
  return [...project.tapes.values()]
    .filter(({ tape }) => variants.has(tape.row) && kinds.includes(tape.kind))
    .map(({ stem }) => stem);
}
/** A unit with a tape of that width, or of the nearest that it is cut for. */
function drawnWith(project: Project, unit: string, W: number): Drawn {
  const wanted = servedBy(project, unit).sort(
    (a, b) => Math.abs(project.tapes.get(a)!.tape.row - W) - Math.abs(project.tapes.get(b)!.tape.row - W),
  );
  const [tape] = wanted;
  if (tape === undefined) return { unit, tape, shape: undefined, trouble: "there is no tape it is cut for" };
  try {
    return { unit, tape, shape: unitShape(sceneOf(project, unit, tape)), trouble: undefined };
  } catch (e) {
    if (!(e instanceof RangeError)) throw e;
    return { unit, tape, shape: undefined, trouble: e.message };
  }
}

/** One index of a unit on a tape, as its firmware would make it. */
async function indexIn(
  project: Project,
  { unit, tape }: Extract<Question, { kind: "index" }>,
  tell: Tell,
): Promise<Answer> {
  await tell({ what: "one index in time", done: 0, of: 1 });
  const scene = sceneOf(project, unit, tape);
  const why = noIndex(scene);
  if (why !== undefined) return { kind: "none", why: `There is no index to look at: ${why}.` };
  try {
    return { kind: "index", picture: indexPicture(scene) };
  } catch (e) {
    if (!(e instanceof RangeError)) throw e;
    return { kind: "none", why: `The index can't be worked out: ${e.message}` };
  }
}

/** Work in steps: told how far it is after a slice of it, so that another question may overtake it. */
async function inSlices<T>(steps: Steps<T>, tell: () => Promise<void>): Promise<T> {
  let last = performance.now();
  for (;;) {
    const piece = steps.next();
    if (piece.done) return piece.value;
    if (performance.now() - last < slice) continue;
    await tell();
    last = performance.now();
  }
}
/** ms */
const slice = 40;

/** Belief draws behind the bands of misfeeds, sharper from one to the next. */
const sharper = [40, 200];
async function misfeedIn(
  { project, deviates, weighed, tell, show }: Work,
  { unit, tape }: Extract<Question, { kind: "misfeed" }>,
): Promise<Answer> {
  const scene = sceneOf(project, unit, tape);
  let answer: Answer | undefined;
  for (const draws of sharper) {
    if (answer) show(answer);
    let at = { done: 0, of: 1 };
    const progress = (done: number, of: number): void => {
      at = { done, of };
    };
    const steps = misfeedsInSteps(scene, { deviates, weights: weighed.weights, draws, seed: deviates.seed, progress });
    const misfeeds = await inSlices(steps, () => tell({ what: `misfeeds, ${draws} draws of belief`, ...at }));
    answer = { kind: "misfeed", misfeeds };
  }
  return answer!;
}

/** Where parts come to lie at the pick: in closed form at once, then drawn. */
async function pickIn(
  { project, deviates, weighed, tell, show }: Work,
  { unit, tape }: Extract<Question, { kind: "pick" }>,
): Promise<Answer> {
  const scene = sceneOf(project, unit, tape);
  let at = { done: 0, of: 1 };
  const steps = accuracyInSteps(scene, { unit, tape }, deviates, weighed.weights, {}, (accuracy, done, of) => {
    at = { done, of };
    if (done < of) show({ kind: "pick", accuracy });
  });
  const accuracy = await inSlices(steps, () => tell({ what: "draws of the pick", ...at }));
  return accuracy.absent === undefined
    ? { kind: "pick", accuracy }
    : { kind: "none", why: `There is no pick chain: ${accuracy.absent}.` };
}

/** A check swept over the number asked for, else over the first of its levers, else of what is not known. */
async function sweepIn(
  { project, deviates, weighed, tell }: Work,
  { unit, tape, check: id, along, second }: Extract<Question, { kind: "sweep" }>,
): Promise<Answer> {
  await tell({ what: "the sweep", done: 0, of: 1 });
  const scene = sceneOf(project, unit, tape);
  const check = checkNamed(id);
  const inputs = check ? sweepInputs(scene, check) : [];
  const first = inputs.find((one) => one.address === along) ?? inputs[0];
  if (!check || !first) return { kind: "none", why: `${id} rests on no number that can be swept on ${tape}.` };
  const other = inputs.find((one) => one.address === second && one !== first);
  const sweep = sweepOf(scene, check, deviates, weighed.weights, first, other);
  return sweep ? { kind: "sweep", sweep, inputs } : { kind: "none", why: `${id} does not apply on ${tape}.` };
}

/** Up to three levers that make a check hold on a tape, with what each does to every wanted tape of the unit. */
async function curesIn(
  work: Work,
  { unit, tape, check }: Extract<Question, { kind: "cures" }>,
): Promise<CuresWithEffects> {
  const { project, deviates, weighed, tell } = work;
  await tell({ what: "ways out", done: 0, of: 1 });
  const scene = sceneOf(project, unit, tape);
  const { cures, ...rest } = curesOf(scene, checkNamed(check)!, deviates, weighed.weights, 3);
  const moves = cures.map((cure) => ({ members: cure.members.map((m) => m.address), by: cure.by }));
  const effects: (CureEffect | undefined)[][] = [];
  const wanted = cures.length === 0 ? [] : (project.wanted.get(unit) ?? []);
  for (const [i, one] of wanted.entries()) {
    await tell({ what: "what the ways out cost", done: i, of: wanted.length });
    const { held } = await judgedIn(work, unit, one);
    effects.push(
      effectsOf(
        {
          tape: one,
          scene: sceneOf(project, unit, one),
          checks,
          deviates,
          weights: weighed.weights,
          contradicted: new Set(weighed.contradicted),
          held,
        },
        moves,
      ),
    );
  }
  return {
    ...rest,
    cures: cures.map((cure, i) => ({ ...cure, effects: worstFirst(effects.flatMap((list) => list[i] ?? [])) })),
  };
}
