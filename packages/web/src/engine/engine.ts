import { ChangeSet, Text } from "@codemirror/state";
import type { Explained, TapeResult } from "@tapeworthy/core";
import {
  applied,
  type ChangesJson,
  type Edit,
  replaced,
  replacedFrom,
  toJson,
  writtenForWidth,
} from "@tapeworthy/project";
import type { Texts } from "../ask/question.ts";
import { difference } from "../text/difference.ts";
import { changedSince, type Snapshot } from "./changed.ts";
import { type DeskPort, workerDesk } from "./desk-port.ts";
import { Gesture } from "./gesture.ts";
import { merged } from "./merge.ts";
import type { AnswerOf, DeskEdit, FromDesk, JudgedPairs, Question } from "./protocol.ts";
import { overlaid } from "./protocol.ts";
import type { EngineState, FileError, Look, NumberView, PairState } from "./state.ts";
import { type Clock, SharedTexts, type TextChanged } from "./texts.ts";
import type { Kept, Transport } from "./transport.ts";

export { httpTransport } from "./http-transport.ts";
export { memoryTransport } from "./memory-transport.ts";
export type { JudgedPairs } from "./protocol.ts";
export type * from "./state.ts";
export type { Kept, Transport } from "./transport.ts";

/** The project on the page: its texts and what is computed from them. All of the page goes through it. */
export interface Engine {
  state(): EngineState;
  /** Calls back after the state has been replaced, once for all that happened together; the answer ends it. */
  subscribe(changed: () => void): () => void;
  /** What is on screen: its pair is sharpened first, and its drawing and numbers come along. */
  look(at: Look): void;

  /** An edit of a file's text, made for the text as it stands in the state. Edits of one gesture are one step of undo. */
  edit(file: string, changes: ChangeSet, step?: { readonly gesture?: string; readonly done?: boolean }): void;
  /** A hand is near numbers that may be dragged together: what that needs is made ready. */
  aim(address: string | readonly string[]): void;
  /** A gesture begins; a drag of numbers, all by one distance, where addresses are given. The answer names it. */
  beginGesture(address?: string | readonly string[]): string;
  /**
   * Stands the gesture's numbers off by so much from where it began, SI. Onto their grid unless `free`, and within their bounds; the answer is
   * how far they stand off then.
   */
  move(gesture: string, by: number, grid?: "fine" | "coarse" | "free"): number;
  /** The gesture ends: its edits become one step of undo; or everything it moved is put back. */
  endGesture(gesture: string, keep?: boolean): void;
  /** Gives a number another text, in drawing notation. Written where the parser takes it; else the answer says what is wrong, and nothing is written. */
  type(address: string, text: string): Promise<readonly FileError[]>;
  /** Writes a number for one width only, under `per width`; without a text, as it stands. */
  writeForWidth(address: string, width: number, text?: string): Promise<readonly FileError[]>;
  /** Writes a file anew where it still is `before`, as one step of undo; the errors that keeps it from. */
  writeWhole(file: string, before: string, text: string): Promise<readonly FileError[]>;

  /** Edits of several files, new ones among them, as one step of undo; the errors that keep all of it from being written. */
  put(edits: readonly FileEdit[]): Promise<readonly FileError[]>;

  undo(): Promise<void>;
  redo(): Promise<void>;
  /** Settles a stretch that was changed here and outside at once. */
  resolve(conflict: string, keep: "mine" | "theirs"): void;
  /** What to do with a text of an earlier session that was not written and fits its file no more. */
  answerOffered(id: string, keep: boolean): Promise<void>;

  /** Puts one of the bundled examples into the folder, which has no project; the answer says why not. */
  begin(example: string): Promise<string | undefined>;

  /** Raw rows of a trial, as Parquet; undefined where there are none of that name. Rejects where the line is broken. */
  raw(file: string): Promise<Uint8Array | undefined>;
  /** Keeps raw rows under a name that is new. They are no text: undo leaves them. Rejects where the line is broken. */
  keep(file: string, bytes: Uint8Array): Promise<Kept>;

  /** The drill-down of a check on a pair as it stands now; undefined where it does not apply. */
  explain(unit: string, tape: string, check: string): Promise<ExplainedCheck | undefined>;
  /**
   * What was found of all wanted pairs of these texts. While they are being drawn it waits, where `waits` is given, and tells that how far they
   * are; without it, and where these texts are not the present ones or can't be drawn, the answer is nothing.
   */
  judged(texts: Texts, waits?: (done: number, of: number) => void): Promise<JudgedPairs | undefined>;
  close(): void;
}
/** An edit of a file as it stood; without a base the file is new. */
export interface FileEdit {
  readonly file: string;
  readonly base: string | undefined;
  readonly changes: ChangesJson;
}
export interface ExplainedCheck {
  readonly value: Explained;
  readonly least?: Explained;
  readonly most?: Explained;
}

const plainClock: Clock = {
  later(ms, f) {
    const timer = setTimeout(f, ms);
    return () => clearTimeout(timer);
  },
};
/** An engine over a server's texts, computing at a desk: on a thread of its own, unless another is given. */
export const createEngine = (transport: Transport, desk: DeskPort = workerDesk(), clock: Clock = plainClock): Engine =>
  new PageEngine(transport, desk, clock);

const nothing: EngineState = {
  texts: new Map(),
  project: undefined,
  errors: [],
  pairs: [],
  known: {
    of: 0,
    reproduced: 0,
    open: 0,
    contradicted: [],
    contradictedChecks: [],
    lines: [],
    weighed: false,
    effective: 1000,
    sharp: false,
  },
  look: undefined,
  shape: undefined,
  trouble: undefined,
  numbers: [],
  gesture: undefined,
  changed: undefined,
  busy: undefined,
  connection: "opening",
  unsaved: 0,
  conflicts: [],
  canUndo: false,
  canRedo: false,
  offered: [],
  troubles: [],
  examples: [],
  seed: 1,
};
const noChecks: ReadonlySet<string> = new Set();
const keyOf = ({ unit, tape }: { readonly unit: string; readonly tape: string }): string => `${unit} ${tape}`;

const notWritten = (file: string, found: string, expected: string, hint: string): FileError => ({
  place: { file, line: 1, column: 1, length: 1 },
  found,
  expected,
  hint,
  shown: `${file}: ${found.endsWith(".") ? found : `found ${found}, expected ${expected}.`} ${hint}`,
});

class PageEngine implements Engine {
  private readonly desk: DeskPort;
  private readonly transport: Transport;
  private readonly shared: SharedTexts;
  private readonly listeners = new Set<() => void>();
  private now: EngineState = nothing;
  private isTelling = false;
  /** Of the texts last sent to the desk. */
  private seq = 0;
  private isOpen = false;
  private readonly waiting: DeskEdit[] = [];
  private isSending = false;
  private gesture: Gesture | undefined;
  /** Whose edits are being made now. */
  private hand: string | undefined;
  /** What the last change began from, and whose it is. */
  private before: (Snapshot & { readonly of: string }) | undefined;
  private readonly drawn = new Map<string, { readonly result: TapeResult; readonly seq: number }>();
  private changedAt = 0;
  private readonly asked = new Map<number, (answer: AnswerOf | undefined, fault?: string) => void>();
  private questions = 0;
  /** Faults of ours, each once: they stay, whatever the server says of the folder. */
  private faults: EngineState["troubles"] = [];
  /** One of them has ended the drawing. */
  private isFaulty = false;

  constructor(transport: Transport, desk: DeskPort, clock: Clock) {
    this.desk = desk;
    this.transport = transport;
    desk.hear((message) => this.hear(message));
    this.shared = new SharedTexts(transport, clock, {
      changed: (change) => this.textChanged(change),
      noted: () => this.noted(),
    });
  }
  state = (): EngineState => this.now;
  subscribe = (changed: () => void): (() => void) => {
    this.listeners.add(changed);
    return () => this.listeners.delete(changed);
  };
  private set(part: Partial<EngineState>): void {
    this.now = { ...this.now, ...part };
    if (this.isTelling) return;
    this.isTelling = true;
    queueMicrotask(() => {
      this.isTelling = false;
      for (const listener of [...this.listeners]) listener();
    });
  }

  // Texts.

  private textChanged({ file, changes, text, own }: TextChanged): void {
    const hand = this.hand ?? (own ? "history" : "others");
    if (this.isOpen) this.remember(hand);
    this.gesture?.follow(file, changes, text, this.hand === this.gesture.id);
    this.waiting.push(changes && text !== undefined ? { file, changes: toJson(changes) } : { file, text });
    this.set({ texts: this.shared.texts });
    if (this.isSending) return;
    this.isSending = true;
    queueMicrotask(() => this.send());
  }
  private send(): void {
    if (!this.isSending) return;
    this.isSending = false;
    const edits = this.waiting.splice(0);
    this.seq++;
    this.isFaulty = false;
    if (!this.isOpen) {
      this.isOpen = true;
      this.changedAt = this.seq;
      this.desk.post({ kind: "open", seq: this.seq, texts: [...this.shared.texts], seed: this.shared.seed });
      if (this.now.look) this.desk.post({ kind: "look", look: this.now.look });
      return;
    }
    this.changedAt = this.seq;
    const { gesture } = this;
    const drag =
      gesture && gesture.members.length > 0 && this.hand === gesture.id
        ? { drag: { members: gesture.members, by: gesture.by, reach: gesture.reach } }
        : {};
    this.desk.post({ kind: "edits", seq: this.seq, edits, ...drag });
    this.set({
      known: { ...this.now.known, sharp: false },
      busy: { done: 0, of: this.now.pairs.length },
      // What a drag moves becomes quick as it moves; what it leaves alone stays as it is.
      ...("drag" in drag
        ? {}
        : { pairs: this.now.pairs.map((p) => (p.sharpness === "drawn" ? { ...p, sharpness: "older" as const } : p)) }),
    });
  }
  private noted(): void {
    const { shared } = this;
    this.set({
      connection: shared.connection,
      unsaved: shared.unsaved,
      conflicts: shared.conflicts,
      canUndo: shared.canUndo,
      canRedo: shared.canRedo,
      offered: shared.offered,
      troubles: [...shared.trouble, ...this.faults],
      examples: shared.examples,
      seed: shared.seed,
    });
  }
  /** Where a new change begins, what stands is kept to be held against what will stand. */
  private remember(of: string): void {
    // What others do, and undo, are changes of their own each time.
    if (this.before?.of === of && of !== "others" && of !== "history") return;
    if (this.before && (of === "others" || of === "history") && this.isSending) return;
    const drawn = new Map<string, TapeResult>();
    for (const [key, { result, seq }] of this.drawn) {
      // What the change before this one has not been drawn for is held against what stood before that.
      const older = seq < this.changedAt ? this.before?.drawn.get(key) : undefined;
      drawn.set(key, older ?? result);
    }
    this.before = { of, texts: this.now.texts, drawn, numbers: this.now.numbers };
    this.set({ pairs: this.now.pairs.map((p) => ({ ...p, before: drawn.get(keyOf(p)) })) });
  }
  private showChanged(settled: boolean): void {
    const { before } = this;
    if (!before) return;
    const results = new Map(
      this.now.pairs.flatMap((p) => (p.result && p.sharpness !== "older" ? [[keyOf(p), p.result] as const] : [])),
    );
    this.set({ changed: changedSince(before, this.now.texts, results, this.now.numbers, settled) });
  }

  // The desk.

  private hear(message: FromDesk): void {
    switch (message.kind) {
      case "read": {
        if (message.project === undefined || !message.pairs) {
          this.set({ errors: message.errors });
          return;
        }
        const old = new Map(this.now.pairs.map((p) => [keyOf(p), p]));
        const pairs = message.pairs.map(({ unit, tape, stale }): PairState => {
          const known = old.get(keyOf({ unit, tape }));
          const drawn = this.drawn.get(keyOf({ unit, tape }));
          if (!known || !drawn)
            return { unit, tape, sharpness: "waiting", result: undefined, quick: noChecks, before: undefined };
          if (!stale && message.seq === this.seq)
            return { ...known, result: drawn.result, quick: noChecks, sharpness: "drawn" };
          return known;
        });
        this.set({ project: message.project, errors: message.errors, pairs });
        const { look } = this.now;
        const isThere = look && pairs.some((p) => p.unit === look.unit && p.tape === look.tape);
        const [first] = pairs;
        if (!isThere && first) this.set({ look: { unit: first.unit, tape: first.tape } });
        return;
      }
      case "shape": {
        const { look, shape, trouble, numbers } = message;
        if (look.unit !== this.now.look?.unit || look.tape !== this.now.look.tape) return;
        this.set({ shape, trouble, ...(numbers ? { numbers } : {}) });
        if (numbers && !this.gesture) this.showChanged(this.now.busy === undefined);
        return;
      }
      case "quick": {
        const by = new Map(message.pairs.map((p) => [keyOf(p), p]));
        this.set({
          pairs: this.now.pairs.map((p): PairState => {
            const quick = by.get(keyOf(p));
            const drawn = this.drawn.get(keyOf(p));
            if (!quick || !drawn) return p;
            const checks = new Set(quick.findings.map((f) => f.check));
            return { ...p, result: overlaid(drawn.result, quick), quick: checks, sharpness: "quick" };
          }),
        });
        this.showChanged(false);
        return;
      }
      case "drawn": {
        const { result, seq, final } = message;
        const key = keyOf(result);
        if (final) this.drawn.set(key, { result, seq });
        const sharpness = seq === this.seq ? (final ? "drawn" : "quick") : "older";
        this.set({
          pairs: this.now.pairs.map((p) => (keyOf(p) === key ? { ...p, result, quick: noChecks, sharpness } : p)),
        });
        this.showChanged(false);
        return;
      }
      case "known":
        this.set({ known: { ...message.known, sharp: message.seq === this.seq } });
        return;
      case "progress":
        if (message.seq === this.seq)
          this.set({ busy: message.done < message.of ? { done: message.done, of: message.of } : undefined });
        return;
      case "rest":
        if (message.seq !== this.seq) return;
        this.set({ busy: undefined });
        this.showChanged(true);
        return;
      case "answer":
        this.asked.get(message.id)?.(message.answer, message.fault);
        this.asked.delete(message.id);
        return;
      case "fault":
        this.isFaulty ||= !message.goesOn;
        this.faulted(message.words);
    }
  }
  private faulted(said: string): void {
    const words = `A fault of ours, please report it: ${said}`;
    if (this.faults.some((one) => one.words === words)) return;
    this.faults = [...this.faults, { file: "", words }];
    this.set({ troubles: [...this.shared.trouble, ...this.faults] });
  }
  private ask(question: Question): Promise<AnswerOf | undefined> {
    const id = ++this.questions;
    return new Promise((resolve, reject) => {
      this.asked.set(id, (answer, fault) => (fault === undefined ? resolve(answer) : reject(new Error(fault))));
      this.desk.post({ kind: "ask", id, question });
    });
  }

  look(look: Look): void {
    const { look: before } = this.now;
    if (before && look.unit === before.unit && look.tape === before.tape && look.check === before.check) return;
    const isOther = look.unit !== before?.unit || look.tape !== before.tape;
    this.set({ look, ...(isOther ? { shape: undefined, trouble: undefined, numbers: [] } : {}) });
    this.desk.post({ kind: "look", look });
  }

  // Edits.

  /** Edits under a gesture's name. */
  private under<T>(gesture: string, act: () => T): T {
    this.hand = gesture;
    try {
      return act();
    } finally {
      this.send();
      this.hand = undefined;
    }
  }
  edit(
    file: string,
    changes: ChangeSet,
    { gesture, done = gesture === undefined }: { readonly gesture?: string; readonly done?: boolean } = {},
  ): void {
    const id = gesture ?? this.shared.newGesture();
    this.under(id, () => this.shared.edit(file, changes, id));
    if (done) this.shared.end(id);
  }
  private numbersOf(address: string | readonly string[]): NumberView[] {
    const all = typeof address === "string" ? [address] : address;
    return all.flatMap((one) => this.now.numbers.find((n) => n.address === one) ?? []);
  }
  aim(address: string | readonly string[]): void {
    if (this.gesture) return;
    const { members, reach } = new Gesture("", this.numbersOf(address), this.now.texts);
    if (members.length > 0) this.desk.post({ kind: "aim", members, reach });
  }
  beginGesture(address?: string | readonly string[]): string {
    const id = this.shared.newGesture();
    if (address === undefined) return id;
    if (this.gesture) this.endGesture(this.gesture.id);
    this.gesture = new Gesture(id, this.numbersOf(address), this.now.texts);
    const { members, reach } = this.gesture;
    this.desk.post({ kind: "aim", members, reach });
    this.set({ gesture: { id, address: members[0], by: 0 } });
    return id;
  }
  move(id: string, wanted: number, grid: "fine" | "coarse" | "free" = "fine"): number {
    const { gesture } = this;
    if (gesture?.id !== id) return 0;
    const by = gesture.onGrid(wanted, grid);
    if (by === gesture.by) return by;
    return this.moveTo(gesture, by) ? by : gesture.by;
  }
  private moveTo(gesture: Gesture, by: number): boolean {
    const edits = gesture.edits(by, this.now.texts);
    // Somebody else has written there: the hand holds nothing any more.
    if (!edits) return false;
    gesture.by = by;
    this.under(gesture.id, () => {
      for (const { file, changes } of edits) this.shared.edit(file, changes, gesture.id);
    });
    const moved = new Map(gesture.now(by).map((one) => [one.address, one]));
    const { texts } = this.now;
    this.set({
      gesture: { id: gesture.id, address: gesture.members[0], by },
      numbers: this.now.numbers.map((n) => {
        const one = moved.get(n.address);
        if (!one) return n;
        const length = n.place.length + one.after.length - n.text.length;
        return texts.has(n.place.file)
          ? { ...n, text: one.after, value: one.number.value + by, place: { ...n.place, length } }
          : n;
      }),
    });
    return true;
  }
  endGesture(id: string, keep = true): void {
    const { gesture } = this;
    if (gesture?.id === id) {
      if (!keep && gesture.by !== 0) this.moveTo(gesture, 0);
      this.gesture = undefined;
      this.desk.post({ kind: "release" });
      this.set({ gesture: undefined });
    }
    this.shared.end(id);
  }
  async type(address: string, text: string): Promise<readonly FileError[]> {
    const { number, before } = this.inFile(address);
    return number.text === text.trim() ? [] : this.write(replaced(before, number.place, text.trim()), before);
  }
  async writeForWidth(address: string, width: number, text?: string): Promise<readonly FileError[]> {
    const { number, before } = this.inFile(address);
    const value = (text ?? number.text).trim();
    return this.write(writtenForWidth(before, number.place.file, width, number.path, value), before);
  }
  writeWhole(file: string, before: string, text: string): Promise<readonly FileError[]> {
    const { from, to, insert } = difference(before, text);
    return this.write(replacedFrom(before, file, from, to, insert), before);
  }
  /** A number on screen and the text it stands in. */
  private inFile(address: string): { readonly number: NumberView; readonly before: string } {
    const number = this.now.numbers.find((n) => n.address === address);
    const before = number && this.now.texts.get(number.place.file);
    if (!number || before === undefined) throw new RangeError(`there is no number ${address} on screen`);
    return { number, before };
  }
  /** Writes an edit where it brings no error that was not there before. */
  private async write(edit: Edit, before: string): Promise<readonly FileError[]> {
    const { file } = edit;
    const after = applied(edit, before);
    const answer = await this.ask({ kind: "errors", texts: [[file, after]] });
    const said = ({ place, found, expected }: FileError): string => `${place.file} ${found} ${expected}`;
    const known = new Set(this.now.errors.map(said));
    const errors = answer?.kind === "errors" ? answer.errors.filter((e) => !known.has(said(e))) : [];
    const now = this.now.texts.get(file);
    if (errors.length > 0 || now === undefined) return errors;
    // Where the file became another meanwhile, the edit goes in beside that; into a line that became another it does not.
    const { again, clashes } = merged(before, after, now);
    const [clash] = clashes;
    if (clash) {
      const line = now.slice(0, clash.from).split("\n").length;
      const place = { file, line, column: 1, length: Math.max(1, clash.theirs.indexOf("\n")) };
      const [found, expected] = ["a line that has changed meanwhile", "the line as it was"];
      const hint = "Look at it, and type again.";
      const shown = `${file}:${line}: found ${found}, expected ${expected}\n${clash.theirs.trimEnd()}\n${hint}`;
      return [{ place, found, expected, hint, shown }];
    }
    this.edit(file, again);
    return [];
  }

  async put(edits: readonly FileEdit[]): Promise<readonly FileError[]> {
    const after = edits.map(({ file, base, changes }) => ({
      file,
      base,
      changes,
      text: ChangeSet.fromJSON(changes)
        .apply(Text.of((base ?? "").split("\n")))
        .toString(),
    }));
    const stale = after.find(({ file, base }) => this.now.texts.get(file) !== base);
    if (stale)
      return [
        notWritten(
          stale.file,
          "a file that has changed meanwhile",
          "the file as it was",
          "Look at it, and do it again.",
        ),
      ];
    const answer = await this.ask({ kind: "errors", texts: after.map(({ file, text }) => [file, text] as const) });
    const said = ({ place, found, expected }: FileError): string => `${place.file} ${found} ${expected}`;
    const known = new Set(this.now.errors.map(said));
    const errors = answer?.kind === "errors" ? answer.errors.filter((e) => !known.has(said(e))) : [];
    if (errors.length > 0) return errors;
    const gesture = this.shared.newGesture();
    // New files first: an edit that names one comes after it.
    for (const { file, base, text } of after) {
      if (base !== undefined) continue;
      const words = await this.shared.create(file, text, gesture);
      if (words === undefined) continue;
      this.shared.end(gesture);
      return [notWritten(file, words, "a new file", "Nothing else was written.")];
    }
    this.under(gesture, () => {
      for (const { file, base, changes } of after)
        if (base !== undefined) this.shared.edit(file, ChangeSet.fromJSON(changes), gesture);
    });
    this.shared.end(gesture);
    return [];
  }

  // The rest.

  async undo(): Promise<void> {
    if (this.gesture) this.endGesture(this.gesture.id);
    await this.shared.undo();
  }
  async redo(): Promise<void> {
    if (this.gesture) this.endGesture(this.gesture.id);
    await this.shared.redo();
  }
  resolve(conflict: string, keep: "mine" | "theirs"): void {
    this.shared.resolve(conflict, keep);
  }
  answerOffered(id: string, keep: boolean): Promise<void> {
    return this.shared.answerOffer(id, keep);
  }
  begin(example: string): Promise<string | undefined> {
    return this.shared.begin(example);
  }
  raw(file: string): Promise<Uint8Array | undefined> {
    return this.transport.raw(file);
  }
  keep(file: string, bytes: Uint8Array): Promise<Kept> {
    return this.transport.keep(file, bytes);
  }
  async explain(unit: string, tape: string, check: string): Promise<ExplainedCheck | undefined> {
    const answer = await this.ask({ kind: "explain", unit, tape, check });
    if (answer?.kind !== "explain") return undefined;
    const { kind: _, ...found } = answer;
    return found;
  }
  judged = async (texts: Texts, waits?: (done: number, of: number) => void): Promise<JudgedPairs | undefined> => {
    while (this.now.texts === texts) {
      const { busy } = this.now;
      const answer = busy ? undefined : await this.ask({ kind: "judged" });
      if (this.now.texts !== texts) return undefined;
      if (answer?.kind === "judged") return answer.judged;
      if (!waits || this.isFaulty || this.now.errors.length > 0) return undefined;
      if (busy) waits(busy.done, busy.of);
      await new Promise<void>((resolve) => {
        const end = this.subscribe(() => {
          end();
          resolve();
        });
      });
    }
    return undefined;
  };
  close(): void {
    this.shared.close();
    this.desk.close();
    this.listeners.clear();
  }
}
