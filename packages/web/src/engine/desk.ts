import { ChangeSet } from "@codemirror/state";
import {
  applies,
  chancesFrom,
  checkNamed,
  checks,
  Deviates,
  type Drag,
  dragInSteps,
  evenWeights,
  explain,
  footing,
  judgeInSteps,
  type KnownChances,
  movedBy,
  type Scene,
  type Steps,
  type Studied,
  sameFooting,
  studyInSteps,
  type TapeResult,
  weigh,
  withNearest,
} from "@tapeworthy/core";
import { unitShape } from "@tapeworthy/drawing";
import {
  changed,
  countOf,
  GivenStore,
  knownLines,
  type Project,
  readProject,
  takenFooting,
  type WeighedBelief,
  weighedBelief,
} from "@tapeworthy/project";
import type { AnswerOf, DeskEdit, DragState, FromDesk, Question, QuickPair, ToDesk } from "./protocol.ts";
import { quickPair } from "./protocol.ts";
import type { KnownView, Look } from "./state.ts";
import { errorView, numberViews, projectView } from "./views.ts";

/** Time, as the desk has it. */
export interface DeskClock {
  now(): number;
  /** Calls back after what came in meanwhile has been heard, or after so many ms; the answer calls it off. */
  later(f: () => void, ms?: number): () => void;
}
/** A slice of work, ms. What comes in is heard between slices. */
const slice = 4;
/** A hand that has not moved for so long rests: its numbers are drawn, ms. */
const resting = 150;

/** A unit on a tape, with what is known of it. */
interface Desked {
  readonly unit: string;
  readonly tape: string;
  scene: Scene;
  /** Studies by check, with what they rest on. */
  readonly kept: Map<string, { readonly on: readonly unknown[]; readonly studied: Studied }>;
  /** Studies of all checks that apply, of this scene. */
  whole: { readonly scene: Scene; readonly list: readonly Studied[] } | undefined;
  chances: { readonly of: readonly Studied[]; readonly chances: KnownChances } | undefined;
  drawn: { readonly scene: Scene; readonly by: Record_; readonly result: TapeResult } | undefined;
  drag: { readonly drag: Drag; readonly from: number } | undefined;
}
/** Belief as it was weighed, by known units and by the trials that are taken: one object for as long as it stays the same. */
interface Record_ {
  readonly weights: Float64Array;
  readonly contradicted: ReadonlySet<string>;
  readonly known: Project["known"];
  readonly chances: readonly KnownChances[];
  /** What the trials that are taken into belief rest on. */
  taken: readonly unknown[];
}
interface Hand {
  readonly members: readonly string[];
  readonly reach: number;
  by: number;
  /** When it last moved; not at all while it is only near. */
  moved: number | undefined;
}

/**
 * The desk on which a project lies open: it holds the texts, reads them, and draws its pairs of unit and tape, the one on screen first. What is
 * asked last goes first: a text that is not the last any more is not drawn to its end.
 *
 * While a hand drags a number the desk gives quick numbers of what rests on it, from what was drawn last; where the hand rests, or lets go,
 * everything is drawn with the same draws as the command line's.
 */
export class Desk {
  private readonly post: (message: FromDesk) => void;
  private readonly clock: DeskClock;
  private texts = new Map<string, string>();
  private store = new GivenStore();
  private readonly trial = new GivenStore();
  private deviates = new Deviates(1);
  private project: Project | undefined;
  private isFaulty = false;
  private seq = 0;
  /** The texts have changed since they were read. */
  private isUnread = false;
  private readonly pairs = new Map<string, Desked>();
  private record: Record_ | undefined;
  private weighed: WeighedBelief | undefined;
  private look: Look | undefined;
  private hand: Hand | undefined;
  /** The hand before, for pairs that have not been drawn since. */
  private last: Hand | undefined;
  /** How far off the hand's number stands in the last reading. */
  private readAt = 0;
  private wantsQuick = false;
  private drawing: Steps<void> | undefined;
  private making: Steps<void> | undefined;
  private renewing: Steps<void> | undefined;
  private isWorking = false;
  private endRest: (() => void) | undefined;

  constructor(post: (message: FromDesk) => void, clock: DeskClock) {
    this.post = post;
    this.clock = clock;
  }

  receive(message: ToDesk): void {
    switch (message.kind) {
      case "open":
        this.open(message.texts, message.seed);
        this.seq = message.seq;
        break;
      case "edits":
        this.seq = message.seq;
        for (const edit of message.edits) this.edit(edit);
        this.isUnread = true;
        if (message.drag) this.move(message.drag);
        else {
          if (!this.hand) this.forgetDrags();
          this.drawing = this.draw();
        }
        break;
      case "aim":
        // Distances count from the text as it is now.
        if (this.isUnread) this.read();
        this.take({ ...message, by: 0 }, undefined);
        break;
      case "release":
        this.release();
        break;
      case "look":
        this.lookAt(message.look);
        break;
      case "ask":
        this.answer(message.id, message.question);
        break;
    }
    this.wake();
  }

  // Slices.

  private wake(): void {
    if (this.isWorking) return;
    this.isWorking = true;
    this.clock.later(() => this.work());
  }
  private work(): void {
    this.isWorking = false;
    const end = this.clock.now() + slice;
    try {
      if (this.wantsQuick) this.quick();
      let task = this.next();
      while (task && this.clock.now() < end) {
        if (task.next().done) this.end(task);
        task = this.next();
      }
      if (task) this.wake();
    } catch (e) {
      this.drawing = this.making = this.renewing = undefined;
      this.post({ kind: "fault", words: e instanceof Error ? (e.stack ?? e.message) : String(e) });
    }
  }
  private next(): Steps<void> | undefined {
    const isMoving = this.hand?.moved !== undefined && this.clock.now() - this.hand.moved < resting;
    return this.making ?? this.renewing ?? (isMoving ? undefined : this.drawing);
  }
  private end(task: Steps<void>): void {
    if (task === this.making) this.making = undefined;
    if (task === this.renewing) this.renewing = undefined;
    if (task === this.drawing) this.drawing = undefined;
  }

  // Texts.

  private open(texts: readonly (readonly [string, string])[], seed: number): void {
    this.texts = new Map(texts);
    this.store = new GivenStore();
    if (seed !== this.deviates.seed) this.deviates = new Deviates(seed);
    this.pairs.clear();
    this.record = undefined;
    this.project = undefined;
    this.hand = undefined;
    this.isUnread = true;
    this.drawing = this.draw();
  }
  private edit(edit: DeskEdit): void {
    const { file } = edit;
    if ("changes" in edit) this.texts.set(file, changed(this.texts.get(file) ?? "", ChangeSet.fromJSON(edit.changes)));
    else if (edit.text === undefined) this.texts.delete(file);
    else this.texts.set(file, edit.text);
  }
  private read(): void {
    this.isUnread = false;
    const { by = 0 } = this.hand ?? {};
    this.readAt = by;
    const { project, errors } = readProject(this.texts, this.store);
    this.isFaulty = !project;
    if (!project) {
      this.post({ kind: "read", seq: this.seq, errors: errors.map(errorView) });
      return;
    }
    this.project = project;
    const wanted = [...project.wanted].flatMap(([unit, tapes]) => tapes.map((tape) => ({ unit, tape })));
    const all = new Map([...wanted, ...project.known].map(({ unit, tape }) => [keyOf(unit, tape), { unit, tape }]));
    for (const key of this.pairs.keys()) if (!all.has(key)) this.pairs.delete(key);
    for (const [key, { unit, tape }] of all) {
      const scene = sceneOf(project, unit, tape);
      const known = this.pairs.get(key);
      if (known) known.scene = sameScene(known.scene, scene) ? known.scene : scene;
      else
        this.pairs.set(key, {
          unit,
          tape,
          scene,
          kept: new Map(),
          whole: undefined,
          chances: undefined,
          drawn: undefined,
          drag: undefined,
        });
    }
    const first = wanted[0];
    if (!this.look || !all.has(keyOf(this.look.unit, this.look.tape))) this.look = first;
    this.post({
      kind: "read",
      seq: this.seq,
      project: projectView(project),
      errors: [],
      pairs: wanted.map(({ unit, tape }) => {
        const pair = this.pairs.get(keyOf(unit, tape))!;
        return { unit, tape, stale: pair.drawn?.scene !== pair.scene };
      }),
    });
    this.showShape(true);
  }

  // The pair on screen.

  private lookAt(look: Look): void {
    const isOther = look.unit !== this.look?.unit || look.tape !== this.look.tape;
    this.look = look;
    if (!isOther) return;
    this.showShape(true);
    // It is drawn first, and made ready first.
    if (this.drawing) this.drawing = this.draw();
  }
  private get onScreen(): Desked | undefined {
    return this.look && this.pairs.get(keyOf(this.look.unit, this.look.tape));
  }
  private showShape(withNumbers: boolean): void {
    const pair = this.onScreen;
    const unit = pair && this.project?.units.get(pair.unit);
    if (!pair || !unit || !this.look) return;
    const { seq, look, hand } = this;
    const numbers = withNumbers ? { numbers: numberViews(pair.scene, unit) } : {};
    const off = (hand?.by ?? 0) - this.readAt;
    try {
      const shape = unitShape(pair.scene, hand && off !== 0 ? movedBy(hand.members, off) : undefined);
      this.post({ kind: "shape", seq, look, shape, ...numbers });
    } catch (e) {
      if (!(e instanceof RangeError)) throw e;
      this.post({ kind: "shape", seq, look, trouble: e.message, ...numbers });
    }
  }

  // A hand on a number.

  private take({ members, reach, by }: DragState, moved: number | undefined): void {
    const isSame = this.hand && sameList(this.hand.members, members);
    if (isSame) {
      this.hand!.by = by;
      this.hand!.moved = moved ?? this.hand!.moved;
      return;
    }
    this.hand = { members, reach, by, moved };
    this.readAt = 0;
    // A pair that has not been drawn since the last time goes on from what was made ready for that.
    if (this.last && sameList(this.last.members, members)) {
      for (const pair of this.pairs.values())
        if (pair.drag) pair.drag = { drag: pair.drag.drag, from: pair.drag.from - this.last.by };
    } else this.forgetDrags();
    this.last = undefined;
    this.making = this.makeReady();
  }
  private forgetDrags(): void {
    this.last = undefined;
    for (const pair of this.pairs.values()) pair.drag = undefined;
  }
  private move(drag: DragState): void {
    this.take(drag, this.clock.now());
    this.wantsQuick = true;
    // What was being drawn is of a text that is not the last any more.
    this.drawing = this.draw();
    this.endRest?.();
    this.endRest = this.clock.later(() => this.wake(), resting);
  }
  private release(): void {
    this.endRest?.();
    this.last = this.hand;
    this.hand = undefined;
    this.readAt = 0;
    this.making = this.renewing = undefined;
    this.drawing = this.draw();
  }
  private *makeReady(): Steps<void> {
    for (const pair of this.inOrder()) if (yield* this.ready(pair)) this.wantsQuick = this.hand?.moved !== undefined;
  }
  /** Makes a pair ready for the hand; true where something of it rests on what the hand holds. */
  private *ready(pair: Desked): Steps<boolean> {
    const { hand, readAt } = this;
    const { drawn, whole } = pair;
    if (!hand || !drawn || drawn.scene !== pair.scene || whole?.scene !== drawn.scene || pair.drag) return false;
    const judging = this.judging(pair, drawn.scene, drawn.by);
    const { members, reach } = hand;
    const drag = yield* dragInSteps({ judging, studied: whole.list, result: drawn.result, members, reach });
    pair.drag = { drag, from: readAt };
    return drag.checks.size > 0;
  }
  /** Quick numbers at where the hand is now. */
  private quick(): void {
    this.wantsQuick = false;
    const { hand, look, seq } = this;
    if (hand?.moved === undefined) return;
    const pairs: QuickPair[] = [];
    for (const pair of this.pairs.values()) {
      const { drag, from } = pair.drag ?? {};
      if (!drag || from === undefined || drag.checks.size === 0) continue;
      const told = pair === this.onScreen ? { told: look?.check } : undefined;
      pairs.push(quickPair(drag.at(hand.by - from, told), drag.checks, told?.told));
    }
    this.showShape(false);
    this.post({ kind: "quick", seq, by: hand.by, pairs });
    this.renewing = this.renew(hand.by);
  }
  private *renew(by: number): Steps<void> {
    for (const { drag } of this.pairs.values()) if (drag) yield* drag.drag.renew(by - drag.from);
  }

  // Drawing.

  private inOrder(): Desked[] {
    const { look, project } = this;
    const rank = ({ unit, tape }: Desked): number => (unit !== look?.unit ? 2 : tape !== look.tape ? 1 : 0);
    const wanted = [...(project?.wanted ?? [])].flatMap(([unit, tapes]) =>
      tapes.map((tape) => this.pairs.get(keyOf(unit, tape))!),
    );
    return wanted.sort((a, b) => rank(a) - rank(b));
  }
  private judging({ unit, tape }: Desked, scene: Scene, { weights, contradicted }: Record_) {
    return { unit, tape, scene, checks, deviates: this.deviates, weights, contradicted };
  }

  private *draw(): Steps<void> {
    if (this.isUnread) this.read();
    yield;
    const { seq, project } = this;
    if (!project || this.isFaulty) return;
    const order = this.inOrder();
    let done = 0;
    const drawn = (): void => this.post({ kind: "progress", seq, done: ++done, of: order.length });
    // The pair on screen at once, by the record as it was last weighed.
    const [first, ...rest] = order;
    const before = this.record;
    if (first) yield* this.drawPair(first, before ?? alone, before !== undefined && this.isRecordFresh(before));
    const record = yield* this.weigh();
    if (first) {
      yield* this.drawPair(first, record, true);
      drawn();
    }
    for (const pair of rest) {
      yield* this.drawPair(pair, record, true);
      drawn();
    }
    this.post({ kind: "rest", seq });
  }
  private *drawPair(pair: Desked, by: Record_, final: boolean): Steps<void> {
    const { seq } = this;
    const { scene } = pair;
    if (pair.drawn?.scene !== scene || pair.drawn.by !== by) {
      const list = yield* this.study(pair);
      const { result } = yield* judgeInSteps(this.judging(pair, scene, by), list);
      pair.drawn = { scene, by, result };
      pair.drag = undefined;
      // A hand that rests goes on from here.
      if (this.hand?.moved !== undefined) yield* this.ready(pair);
    }
    this.post({ kind: "drawn", seq, result: withNearest(pair.drawn.result, by.known, by.chances), final });
  }
  /** Studies what has changed of a pair; the rest of it is kept. */
  private *study(pair: Desked): Steps<readonly Studied[]> {
    const { scene, kept, whole } = pair;
    if (whole?.scene === scene) return whole.list;
    const list: Studied[] = [];
    for (const check of checks) {
      if (!applies(check, scene)) {
        kept.delete(check.id);
        continue;
      }
      const on = footing(check, scene);
      const known = kept.get(check.id);
      const studied =
        known && sameFooting(known.on, on) ? known.studied : yield* studyInSteps(scene, check, this.deviates);
      if (studied !== known?.studied) kept.set(check.id, { on, studied });
      list.push(studied);
      yield;
    }
    pair.whole = { scene, list };
    return list;
  }

  /** What each known unit says, from its studies. */
  private *chancesOf(pair: Desked): Steps<KnownChances> {
    const list = yield* this.study(pair);
    if (pair.chances?.of === list) return pair.chances.chances;
    const chances = chancesFrom(
      pair.scene,
      list.map(({ check }) => check),
      list.map(({ deciding }) => deciding),
    );
    pair.chances = { of: list, chances };
    return chances;
  }
  private *weigh(): Steps<Record_> {
    const { known } = this.project!;
    const chances: KnownChances[] = [];
    for (const { unit, tape } of known) chances.push(yield* this.chancesOf(this.pairs.get(keyOf(unit, tape))!));
    const before = this.record;
    const taken = takenFooting(this.project!);
    if (before && before.known === known && sameList(before.chances, chances) && sameList(before.taken, taken)) {
      this.tellRecord(before, this.weighed!);
      return before;
    }
    const byKnown = weigh(known.map((record, i) => ({ ...countOf(record), chances: chances[i]! })));
    const weighed = weighedBelief(this.project!, byKnown, this.deviates, { store: this.store });
    const isSame =
      before !== undefined &&
      sameList(before.weights, weighed.weights) &&
      sameList([...before.contradicted], weighed.contradicted) &&
      sameValues(before, known, chances);
    const record = isSame
      ? before
      : { weights: weighed.weights, contradicted: new Set(weighed.contradicted), known, chances, taken };
    record.taken = taken;
    this.record = record;
    this.weighed = weighed;
    this.tellRecord({ ...record, known, chances }, weighed);
    return record;
  }
  private isRecordFresh({ known, chances, taken }: Record_): boolean {
    return (
      this.project!.known === known &&
      sameList(takenFooting(this.project!), taken) &&
      known.every(({ unit, tape }, i) => {
        const pair = this.pairs.get(keyOf(unit, tape))!;
        return pair.whole?.scene === pair.scene && pair.chances?.chances === chances[i];
      })
    );
  }
  private tellRecord({ known, chances, contradicted }: Record_, weighed: WeighedBelief): void {
    const lines = knownLines(known, chances);
    const view: KnownView = {
      of: lines.length,
      reproduced: lines.filter((l) => l.standing === "reproduced").length,
      open: lines.filter((l) => l.standing === "open").length,
      contradicted: lines.filter((l) => l.standing === "contradicted").map((l) => `${l.unit} on ${l.tape}`),
      contradictedChecks: [...contradicted],
      lines,
      weighed: lines.length > 0,
      effective: weighed.effective,
      taken: weighed.taken,
      retired: weighed.retired,
      sharp: true,
    };
    this.post({ kind: "known", seq: this.seq, known: view });
  }

  // Questions.

  private answer(id: number, question: Question): void {
    try {
      const answer = this.found(question);
      this.post({ kind: "answer", id, answer });
    } catch (e) {
      this.post({ kind: "answer", id, answer: undefined, fault: e instanceof Error ? e.message : String(e) });
    }
  }
  private found(question: Question): AnswerOf | undefined {
    if (question.kind === "errors") {
      const { errors } = readProject(new Map([...this.texts, ...question.texts]), this.trial);
      return { kind: "errors", errors: errors.map(errorView) };
    }
    if (this.isUnread && this.hand?.moved === undefined) this.read();
    const scene = this.pairs.get(keyOf(question.unit, question.tape))?.scene;
    const check = checkNamed(question.check);
    const found = scene && check && explain(check, scene);
    return found && { kind: "explain", ...found };
  }
}

const alone: Record_ = { weights: evenWeights, contradicted: new Set(), known: [], chances: [], taken: [] };
const keyOf = (unit: string, tape: string): string => `${unit} ${tape}`;
function sceneOf({ tapes, units, requirement }: Project, unit: string, tape: string): Scene {
  const served = tapes.get(tape)!.tape;
  return { unit: units.get(unit)!.variants.get(served.row)!, tape: served, requirement };
}
const sameScene = (a: Scene, b: Scene): boolean =>
  a.unit === b.unit && a.tape === b.tape && a.requirement === b.requirement;
const sameList = (a: ArrayLike<unknown>, b: ArrayLike<unknown>): boolean => {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (!Object.is(a[i], b[i])) return false;
  return true;
};
/** The values that findings are held beside are the same. */
const sameValues = (before: Record_, known: Project["known"], chances: readonly KnownChances[]): boolean =>
  JSON.stringify([before.known.map(countOf), before.chances.map((c) => c.values)]) ===
  JSON.stringify([known.map(countOf), chances.map((c) => c.values)]);
