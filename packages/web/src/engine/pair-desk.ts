import { ChangeSet } from "@codemirror/state";
import {
  applies,
  chancesFrom,
  checks,
  Deviates,
  type Drag,
  dragInSteps,
  footing,
  type Judged,
  judgeInSteps,
  type KnownChances,
  type Scene,
  type Steps,
  type Studied,
  sameFooting,
  studyInSteps,
} from "@tapeworthy/core";
import { changed, GivenStore, type Project, type ProjectError, readProject, sceneOf } from "@tapeworthy/project";
import type { Belief, DeskEdit, DragState, QuickPair, ToAllDesks } from "./protocol.ts";
import { quickPair } from "./protocol.ts";
import type { Look } from "./state.ts";

/** Time, as a desk has it. */
export interface DeskClock {
  now(): number;
  /** Calls back after what came in meanwhile has been heard, or after so many ms; the answer calls it off. */
  later(f: () => void, ms?: number): () => void;
}
/** A slice of work, ms. What comes in is heard between slices. */
const slice = 4;

/** A unit on a tape, with what is known of it. */
export interface Desked {
  readonly unit: string;
  readonly tape: string;
  scene: Scene;
  /** Studies by check, with what they rest on. */
  readonly kept: Map<string, { readonly on: readonly unknown[]; readonly studied: Studied }>;
  /** Studies of all checks that apply, of this scene. */
  whole: { readonly scene: Scene; readonly list: readonly Studied[] } | undefined;
  /** The scene it was studied in last, here or at another desk. */
  studied: Scene | undefined;
  chances: { readonly scene: Scene; readonly chances: KnownChances } | undefined;
  drawn: { readonly scene: Scene; readonly by: Belief; readonly judged: Judged } | undefined;
  drag: { readonly drag: Drag; readonly from: number } | undefined;
}
export interface Hand {
  readonly members: readonly string[];
  readonly reach: number;
  by: number;
  /** When it last moved; not at all while it is only near. */
  moved: number | undefined;
}

/**
 * A desk that studies and judges pairs of unit and tape, and gives quick numbers of those it has judged while a hand drags a number. It holds the
 * texts and reads them by itself, so that nothing but texts, belief and results goes from desk to desk. Work is done in slices of 4 ms.
 */
export abstract class PairDesk {
  protected readonly clock: DeskClock;
  protected texts = new Map<string, string>();
  protected store = new GivenStore();
  protected deviates = new Deviates(1);
  protected project: Project | undefined;
  protected isFaulty = false;
  protected seq = 0;
  /** The texts have changed since they were read. */
  protected isUnread = false;
  protected readonly pairs = new Map<string, Desked>();
  protected look: Look | undefined;
  protected hand: Hand | undefined;
  /** The hand before, for pairs that have not been drawn since. */
  protected last: Hand | undefined;
  /** How far off the hand's number stands in the last reading. */
  protected readAt = 0;
  private wantsQuick = false;
  protected drawing: Steps<void> | undefined;
  private making: Steps<void> | undefined;
  private renewing: Steps<void> | undefined;
  private isWorking = false;

  constructor(clock: DeskClock) {
    this.clock = clock;
  }

  /** The texts are others, or a hand moves: what was being drawn is left. */
  protected abstract texted(byHand: boolean): void;
  protected abstract tellFault(words: string): void;
  /** Quick numbers of the pairs that rest on what the hand holds. */
  protected abstract tellQuick(by: number, pairs: readonly QuickPair[]): void;
  /** What may be drawn now. */
  protected abstract toDraw(): Steps<void> | undefined;

  protected hear(message: ToAllDesks): void {
    switch (message.kind) {
      case "open":
        this.open(message.texts, message.seed);
        this.seq = message.seq;
        this.texted(false);
        break;
      case "edits":
        this.seq = message.seq;
        for (const edit of message.edits) this.edit(edit);
        this.isUnread = true;
        if (message.drag) {
          this.take(message.drag, this.clock.now());
          this.wantsQuick = true;
        } else if (!this.hand) this.forgetDrags();
        this.texted(message.drag !== undefined);
        break;
      case "aim":
        // Distances count from the text as it is now.
        if (this.isUnread) this.read();
        this.take({ ...message, by: 0 }, undefined);
        break;
      case "release":
        this.last = this.hand;
        this.hand = undefined;
        this.readAt = 0;
        this.making = this.renewing = undefined;
        break;
      case "look":
        this.look = message.look;
        break;
    }
  }

  // Slices.

  protected wake(): void {
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
      this.tellFault(e instanceof Error ? (e.stack ?? e.message) : String(e));
    }
  }
  private next(): Steps<void> | undefined {
    return this.making ?? this.renewing ?? this.toDraw();
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
    this.project = undefined;
    this.hand = undefined;
    this.isUnread = true;
  }
  private edit(edit: DeskEdit): void {
    const { file } = edit;
    if ("changes" in edit) this.texts.set(file, changed(this.texts.get(file) ?? "", ChangeSet.fromJSON(edit.changes)));
    else if (edit.text === undefined) this.texts.delete(file);
    else this.texts.set(file, edit.text);
  }
  /** Reads the texts; where they have errors the last reading stands, and these are the answer. */
  protected read(): readonly ProjectError[] {
    this.isUnread = false;
    const { by = 0 } = this.hand ?? {};
    this.readAt = by;
    const { project, errors } = readProject(this.texts, this.store);
    this.isFaulty = !project;
    if (!project) return errors;
    this.project = project;
    const wanted = this.wanted();
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
          studied: undefined,
          chances: undefined,
          drawn: undefined,
          drag: undefined,
        });
    }
    const first = wanted[0];
    if (!this.look || !all.has(keyOf(this.look.unit, this.look.tape))) this.look = first;
    return [];
  }
  protected wanted(): { readonly unit: string; readonly tape: string }[] {
    return [...(this.project?.wanted ?? [])].flatMap(([unit, tapes]) => tapes.map((tape) => ({ unit, tape })));
  }
  /** Wanted pairs, the one on screen first, then its unit's. */
  protected inOrder(): Desked[] {
    const { look } = this;
    const rank = ({ unit, tape }: Desked): number => (unit !== look?.unit ? 2 : tape !== look.tape ? 1 : 0);
    return this.wanted()
      .map(({ unit, tape }) => this.pairs.get(keyOf(unit, tape))!)
      .sort((a, b) => rank(a) - rank(b));
  }
  protected get onScreen(): Desked | undefined {
    return this.look && this.pairs.get(keyOf(this.look.unit, this.look.tape));
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
    const drag = yield* dragInSteps({ judging, studied: whole.list, result: drawn.judged.result, members, reach });
    pair.drag = { drag, from: readAt };
    return drag.checks.size > 0;
  }
  /** Quick numbers at where the hand is now. */
  private quick(): void {
    this.wantsQuick = false;
    const { hand, look } = this;
    if (hand?.moved === undefined) return;
    const pairs: QuickPair[] = [];
    for (const pair of this.pairs.values()) {
      const { drag, from } = pair.drag ?? {};
      if (!drag || from === undefined || drag.checks.size === 0) continue;
      const told = pair === this.onScreen ? { told: look?.check } : undefined;
      pairs.push(quickPair(drag.at(hand.by - from, told), drag.checks, told?.told));
    }
    this.tellQuick(hand.by, pairs);
    this.renewing = this.renew(hand.by);
  }
  private *renew(by: number): Steps<void> {
    for (const { drag } of this.pairs.values()) if (drag) yield* drag.drag.renew(by - drag.from);
  }

  // Studies and judgements.

  private judging({ unit, tape }: Desked, scene: Scene, { weights, contradicted }: Belief) {
    return { unit, tape, scene, checks, deviates: this.deviates, weights, contradicted };
  }
  /** Judges a pair by a belief, unless it has been. */
  protected *judge(pair: Desked, by: Belief): Steps<void> {
    const { scene } = pair;
    if (isDrawn(pair, by)) return;
    const list = yield* this.study(pair);
    const judged = yield* judgeInSteps(this.judging(pair, scene, by), list);
    for (const { alone } of list) alone.letGo();
    pair.drawn = { scene, by, judged };
    pair.drag = undefined;
    // A hand that rests goes on from here.
    if (this.hand?.moved !== undefined) yield* this.ready(pair);
  }
  /** Studies what has changed of a pair; the rest of it is kept. */
  protected *study(pair: Desked): Steps<readonly Studied[]> {
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

  /** What a pair says that is known, from its studies. */
  protected *chancesOf(pair: Desked): Steps<KnownChances> {
    const { scene } = pair;
    if (pair.chances?.scene === scene) return pair.chances.chances;
    const list = yield* this.study(pair);
    const chances = chancesFrom(
      scene,
      list.map(({ check }) => check),
      list.map(({ deciding }) => deciding),
    );
    pair.chances = { scene, chances };
    return chances;
  }
}

export const keyOf = (unit: string, tape: string): string => `${unit} ${tape}`;
/** The pair has been judged as it stands, by this belief. */
export const isDrawn = ({ drawn, scene }: Desked, by: Belief): boolean =>
  drawn?.scene === scene && drawn.by.id === by.id;
const sameScene = (a: Scene, b: Scene): boolean =>
  a.unit === b.unit && a.tape === b.tape && a.requirement === b.requirement;
export const sameList = (a: ArrayLike<unknown>, b: ArrayLike<unknown>): boolean => {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (!Object.is(a[i], b[i])) return false;
  return true;
};
