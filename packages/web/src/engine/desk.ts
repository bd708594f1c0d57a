import {
  checkNamed,
  evenWeights,
  explain,
  type KnownChances,
  movedBy,
  type Steps,
  weigh,
  withNearest,
} from "@tapeworthy/core";
import { unitShape } from "@tapeworthy/drawing";
import {
  countOf,
  GivenStore,
  knownLines,
  type Project,
  type ProjectError,
  readProject,
  takenFooting,
  type WeighedBelief,
  weighedBelief,
} from "@tapeworthy/project";
import { type DeskClock, type Desked, isDrawn, keyOf, PairDesk, sameList } from "./pair-desk.ts";
import type { AnswerOf, Belief, FromDesk, FromSide, Question, QuickPair, ToDesk, ToSide } from "./protocol.ts";
import type { KnownView, Look } from "./state.ts";
import { errorView, numberViews, projectView } from "./views.ts";

/** A hand that has not moved for so long rests: its numbers are drawn, ms. */
const resting = 150;

/** Belief as it was weighed, by known units and by the trials that are taken: one object for as long as it stays the same. */
interface Record_ extends Belief {
  readonly known: Project["known"];
  readonly chances: readonly KnownChances[];
  /** What the trials that are taken into belief rest on. */
  taken: readonly unknown[];
}
/** The way to a desk beside this one, on a thread of its own. */
export interface SidePort {
  post(message: ToSide): void;
  hear(heard: (message: FromSide) => void): void;
}
/** A desk beside this one, and what it is doing. */
interface Side {
  readonly port: SidePort;
  doing: (Job & { readonly id: number; readonly scene: Desked["scene"] }) | undefined;
}
/** A pair to be studied; by a belief, to be judged too. */
interface Job {
  readonly pair: Desked;
  readonly by: Belief | undefined;
}
/** One drawing of everything, from a reading to rest. */
interface Round {
  readonly seq: number;
  readonly order: readonly Desked[];
  readonly known: readonly Desked[];
  /** Belief as it was weighed last, for the pair on screen while it is weighed anew. */
  readonly before: Record_;
  /** Belief as these texts have it. */
  record: Record_ | undefined;
  /** The pair on screen has been shown by the belief before. */
  isShown: boolean;
  readonly told: Set<Desked>;
}

/**
 * The desk on which a project lies open: it holds the texts, reads them, and draws its pairs of unit and tape, the one on screen first. What is
 * asked last goes first: a text that is not the last any more is not drawn to its end.
 *
 * Other desks beside it, each on a thread of its own, take pairs off it; a pair stays with the desk that had it first, with its studies. The
 * pair on screen, where nobody has it yet, is this desk's. Which desk draws a pair does not show in the numbers: a pair's draws depend on its
 * scene, the belief and the seed alone.
 *
 * While a hand drags a number the desks give quick numbers of what rests on it, from what was drawn last; where the hand rests, or lets go,
 * everything is drawn with the same draws as the command line's.
 */
export class Desk extends PairDesk {
  private readonly post: (message: FromDesk) => void;
  private readonly trial = new GivenStore();
  private record: Record_ = this.noRecord();
  private weighed: WeighedBelief | undefined;
  private beliefs = 0;
  private jobs = 0;
  private readonly sides: (Side | undefined)[];
  /** Who has a pair: one of the desks beside, or this one. */
  private readonly homes = new Map<Desked, Side | "here">();
  private round: Round | undefined;
  /** The pair that is being worked at here. */
  private mine: Desked | undefined;
  /** Nothing is to be done here until another desk has said something. */
  private isWaiting = false;
  private endRest: (() => void) | undefined;

  constructor(post: (message: FromDesk) => void, clock: DeskClock, sides: readonly SidePort[] = []) {
    super(clock);
    this.post = post;
    this.sides = sides.map((port, i) => {
      port.hear((message) => this.hearSide(i, message));
      return { port, doing: undefined };
    });
  }

  receive(message: ToDesk): void {
    switch (message.kind) {
      case "ask":
        this.answer(message.id, message.question);
        break;
      case "lost":
        this.lose(message.side);
        break;
      case "look":
        this.toSides(message);
        this.lookAt(message.look);
        break;
      default:
        this.toSides(message);
        if (message.kind === "open") {
          this.record = this.noRecord();
          this.weighed = undefined;
        }
        this.hear(message);
        if (message.kind === "release") {
          this.endRest?.();
          this.drawAnew();
        }
    }
    this.wake();
  }
  protected override texted(byHand: boolean): void {
    // The desks beside leave what they do when they hear of it.
    for (const side of this.sides) if (side) side.doing = undefined;
    this.drawAnew();
    if (!byHand) return;
    this.endRest?.();
    this.endRest = this.clock.later(() => this.wake(), resting);
  }
  protected override tellFault(words: string): void {
    this.round = undefined;
    for (const side of this.sides) if (side) side.doing = undefined;
    this.post({ kind: "fault", words });
  }
  protected override toDraw(): Steps<void> | undefined {
    const isMoving = this.hand?.moved !== undefined && this.clock.now() - this.hand.moved < resting;
    return isMoving || this.isWaiting ? undefined : this.drawing;
  }

  // Texts.

  protected override read(): readonly ProjectError[] {
    const errors = super.read();
    const { seq, project } = this;
    if (errors.length > 0 || !project) {
      this.post({ kind: "read", seq, errors: errors.map(errorView) });
      return errors;
    }
    for (const pair of this.homes.keys())
      if (this.pairs.get(keyOf(pair.unit, pair.tape)) !== pair) this.homes.delete(pair);
    this.post({
      kind: "read",
      seq,
      project: projectView(project),
      errors: [],
      pairs: this.wanted().map(({ unit, tape }) => {
        const pair = this.pairs.get(keyOf(unit, tape))!;
        return { unit, tape, stale: pair.drawn?.scene !== pair.scene };
      }),
    });
    this.showShape(true);
    return errors;
  }

  // The pair on screen.

  private lookAt(look: Look): void {
    const isOther = look.unit !== this.look?.unit || look.tape !== this.look.tape;
    this.look = look;
    if (!isOther) return;
    this.showShape(true);
    // It is drawn first, and made ready first.
    if (this.drawing) this.drawAnew();
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

  protected override tellQuick(by: number, pairs: readonly QuickPair[]): void {
    this.showShape(false);
    this.post({ kind: "quick", seq: this.seq, by, pairs });
  }

  // Drawing.

  private drawAnew(): void {
    this.round = this.mine = undefined;
    this.isWaiting = false;
    this.drawing = this.draw();
  }
  private *draw(): Steps<void> {
    if (this.isUnread) this.read();
    yield;
    const { seq, project } = this;
    if (!project || this.isFaulty) return;
    const known = project.known.map(({ unit, tape }) => this.pairs.get(keyOf(unit, tape))!);
    const order = this.inOrder();
    const before = this.record;
    const round: Round = { seq, order, known, before, record: undefined, isShown: false, told: new Set() };
    this.round = round;
    for (this.advance(); this.round === round; this.advance()) {
      const job = this.jobFor("here");
      if (job) yield* this.doHere(job);
      else {
        this.isWaiting = true;
        yield;
      }
    }
  }
  private *doHere({ pair, by }: Job): Steps<void> {
    this.mine = pair;
    this.homes.set(pair, "here");
    yield* this.study(pair);
    pair.studied = pair.scene;
    if (this.round?.known.includes(pair)) yield* this.chancesOf(pair);
    // Belief may have been weighed meanwhile.
    if (by) yield* this.judge(pair, this.round?.record ?? by);
    this.mine = undefined;
  }
  /** Says what can be said by now, and gives every desk beside that is free something to do. */
  private advance(): void {
    const { round } = this;
    if (!round) return;
    this.isWaiting = false;
    if (!round.record && round.known.every((pair) => pair.chances?.scene === pair.scene)) round.record = this.weigh();
    const { record, order, before, told } = round;
    const [first] = order;
    if (first && !record && !round.isShown && isDrawn(first, before)) {
      round.isShown = true;
      this.tellDrawn(first, before, false);
    }
    if (record)
      for (const pair of order) {
        if (told.has(pair) || !isDrawn(pair, record)) continue;
        told.add(pair);
        this.tellDrawn(pair, record, true);
        this.post({ kind: "progress", seq: round.seq, done: told.size, of: order.length });
      }
    if (record && told.size === order.length) {
      this.round = undefined;
      this.post({ kind: "rest", seq: round.seq });
      return;
    }
    for (const side of this.sides) if (side) this.employ(side, round);
  }
  private tellDrawn(pair: Desked, { known, chances }: Pick<Record_, "known" | "chances">, final: boolean): void {
    const result = withNearest(pair.drawn!.judged.result, known, chances);
    this.post({ kind: "drawn", seq: this.seq, result, final });
  }
  /** What a desk is to do next. The belief before is good for the pair on screen alone: others wait until it has been weighed, studied meanwhile. */
  private jobFor(who: Side | "here"): Job | undefined {
    const { round } = this;
    if (!round) return undefined;
    const { order, known, record, before } = round;
    const [first] = order;
    const homeOf = (pair: Desked): Side | "here" => this.homes.get(pair) ?? (pair === first ? "here" : who);
    const isFree = (pair: Desked): boolean =>
      homeOf(pair) === who && pair !== this.mine && !this.sides.some((s) => s?.doing?.pair === pair);
    const found = (list: readonly Desked[], isOpen: (pair: Desked) => boolean, by?: Belief): Job | undefined => {
      const pair = list.find((one) => isOpen(one) && isFree(one));
      return pair && { pair, by };
    };
    if (record) return found(order, (pair) => !isDrawn(pair, record), record);
    return (
      (first && !round.isShown ? found([first], () => true, before) : undefined) ??
      found(known, (pair) => pair.chances?.scene !== pair.scene) ??
      found(order, (pair) => pair !== first && pair.studied !== pair.scene)
    );
  }

  // Desks beside.

  private toSides(message: ToSide): void {
    for (const side of this.sides) side?.port.post(message);
  }
  private employ(side: Side, round: Round): void {
    const [first] = round.order;
    const isShown = first && (round.record ? isDrawn(first, round.record) : round.isShown);
    const isFirsts = first && !isShown && this.homes.get(first) === side && side.doing?.pair !== first;
    // For the pair on screen it leaves another, and comes back to that with its studies.
    if (side.doing && !isFirsts) return;
    side.doing = undefined;
    const job = this.jobFor(side);
    if (!job) return;
    const { pair, by } = job;
    const { unit, tape, scene } = pair;
    this.homes.set(pair, side);
    side.doing = { ...job, scene, id: ++this.jobs };
    const belief = by ? { by: { id: by.id, weights: by.weights, contradicted: by.contradicted } } : {};
    side.port.post({ kind: "do", id: this.jobs, seq: round.seq, unit, tape, ...belief });
  }
  private hearSide(index: number, message: FromSide): void {
    const side = this.sides[index];
    if (!side) return;
    switch (message.kind) {
      case "fault":
        this.drawing = undefined;
        this.tellFault(message.words);
        return;
      case "quick":
        if (message.seq === this.seq && this.hand?.moved !== undefined) this.post(message);
        return;
      case "done": {
        const { doing } = side;
        const { id, chances, judged } = message;
        if (doing?.id !== id) return;
        const { pair, scene, by } = doing;
        side.doing = undefined;
        pair.studied = scene;
        if (chances) pair.chances = { scene, chances };
        if (judged && by) pair.drawn = { scene, by, judged };
        this.advance();
        this.wake();
      }
    }
  }
  /** A desk beside is no more: what it had is taken up by the others. */
  private lose(index: number): void {
    const side = this.sides[index];
    if (!side) return;
    this.sides[index] = undefined;
    for (const [pair, home] of this.homes) {
      if (home !== side) continue;
      this.homes.delete(pair);
      pair.studied = pair.drawn = undefined;
    }
    this.advance();
  }

  // Belief.

  private noRecord(): Record_ {
    return { id: 0, weights: evenWeights, contradicted: new Set(), known: [], chances: [], taken: [] };
  }
  private weigh(): Record_ {
    const project = this.project!;
    const { known } = project;
    const chances = known.map(({ unit, tape }) => this.pairs.get(keyOf(unit, tape))!.chances!.chances);
    const before = this.record;
    const taken = takenFooting(project);
    if (this.weighed && before.known === known && sameList(before.chances, chances) && sameList(before.taken, taken)) {
      this.tellRecord(before, this.weighed);
      return before;
    }
    const byKnown = weigh(known.map((record, i) => ({ ...countOf(record), chances: chances[i]! })));
    const weighed = weighedBelief(project, byKnown, this.deviates, { store: this.store });
    const isSame =
      sameList(before.weights, weighed.weights) &&
      sameList([...before.contradicted], weighed.contradicted) &&
      sameValues(before, known, chances);
    const { weights } = weighed;
    const record = isSame
      ? before
      : { id: ++this.beliefs, weights, contradicted: new Set(weighed.contradicted), known, chances, taken };
    record.taken = taken;
    this.record = record;
    this.weighed = weighed;
    this.tellRecord({ ...record, known, chances }, weighed);
    return record;
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
    if (question.kind === "judged") return this.judged();
    if (this.isUnread && this.hand?.moved === undefined) this.read();
    const scene = this.pairs.get(keyOf(question.unit, question.tape))?.scene;
    const check = checkNamed(question.check);
    const found = scene && check && explain(check, scene);
    return found && { kind: "explain", ...found };
  }
  /** What was found of the wanted pairs, once everything is drawn. */
  private judged(): AnswerOf | undefined {
    const { record, project } = this;
    const pairs = this.wanted().map(({ unit, tape }) => this.pairs.get(keyOf(unit, tape))!);
    const isAtRest = !this.isUnread && this.drawing === undefined && pairs.every((pair) => isDrawn(pair, record));
    if (!isAtRest || !project) return undefined;
    const known = project.known.map(({ unit, tape }) => {
      const { chances } = this.pairs.get(keyOf(unit, tape))!.chances!;
      return { unit, tape, chances };
    });
    const { weights, contradicted } = record;
    const rows = pairs.map((pair) => pair.drawn!.judged);
    return { kind: "judged", judged: { rows, weights, contradicted: [...contradicted], known } };
  }
}

/** The values that findings are held beside are the same. */
const sameValues = (before: Record_, known: Project["known"], chances: readonly KnownChances[]): boolean =>
  JSON.stringify([before.known.map(countOf), before.chances.map((c) => c.values)]) ===
  JSON.stringify([known.map(countOf), chances.map((c) => c.values)]);
