import { ChangeSet, Text } from "@codemirror/state";
import { type FileChange, lineDiff, type Sending, TextCopy, toJson } from "@tapeworthy/project";
import { type Clash, merged } from "./merge.ts";
import type { Conflict, Offered } from "./state.ts";
import type { Answer, Depth, OfferedText, Refused, ServerEvent, ServerState, Transport, Trouble } from "./transport.ts";

/** A text as the page shows it became another. */
export interface TextChanged {
  readonly file: string;
  /** Undefined where the file came or went. */
  readonly changes: ChangeSet | undefined;
  /** Undefined where there is none any more. */
  readonly text: string | undefined;
  /** Whether somebody at this page did it; undo and redo are. */
  readonly own: boolean;
}
/** Time, as the page has it; tests have their own. */
export interface Clock {
  /** Calls f after so many ms; the answer calls it off. */
  later(ms: number, f: () => void): () => void;
}
export interface Listening {
  /** A text changed. */
  changed(change: TextChanged): void;
  /** Anything else changed: connection, conflicts, history. */
  noted(): void;
}

/** First wait before the line is tried again, and the longest, ms. */
const firstWait = 400;
const longestWait = 15_000;

interface Standing {
  readonly conflict: Omit<Conflict, "line">;
  /** Where the other text stands now. */
  from: number;
  to: number;
  /** A gesture that could not be taken back, which its answer leaves out. */
  readonly leaves?: { readonly of: "undo" | "redo"; readonly gesture: string };
}

/**
 * The texts of the project on this page, and their way to the server and back.
 *
 * An edit shows at once and is sent after the ones before it have been answered; what comes in goes under it. Where both touched one line the
 * server's text stands, what was typed on other lines is typed again, and the lines in question are kept as a conflict with both texts. While
 * the line is broken edits gather; what was on its way is sent again under its old name, which the server takes once.
 */
export class SharedTexts {
  private readonly transport: Transport;
  private readonly clock: Clock;
  private readonly on: Listening;
  private readonly copies = new Map<string, TextCopy>();
  /** Files with a request under way. */
  private readonly asking = new Set<string>();
  /** Gestures that ended here, and the files of gestures whose end the server has not been told. */
  private readonly ended = new Set<string>();
  private readonly untold = new Map<string, Set<string>>();
  private readonly standing: Standing[] = [];
  private readonly locked = new Map<string, string>();
  private offers: readonly OfferedText[] = [];
  private troubles: readonly Trouble[] = [];
  private exampleNames: readonly string[] = [];
  private refusals: readonly Trouble[] = [];
  private depth: Depth = { undo: 0, redo: 0 };
  private last: string | undefined;
  private seedNow = 1;
  private link: "opening" | "live" | "lost" = "opening";
  private wait = firstWait;
  private endEvents: (() => void) | undefined;
  private endWait: (() => void) | undefined;
  /** Counts the lines that were opened: what an older one says counts no more. */
  private line = 0;
  private ids = 0;
  private readonly name = Math.random().toString(36).slice(2, 10);
  private isClosed = false;
  private readonly settled: (() => void)[] = [];

  constructor(transport: Transport, clock: Clock, on: Listening) {
    this.transport = transport;
    this.clock = clock;
    this.on = on;
    void this.load();
  }

  // What the page shows.

  get texts(): ReadonlyMap<string, string> {
    return new Map([...this.copies].map(([file, copy]) => [file, copy.text]));
  }
  text(file: string): string | undefined {
    return this.copies.get(file)?.text;
  }
  get connection(): "opening" | "live" | "lost" {
    return this.link;
  }
  get seed(): number {
    return this.seedNow;
  }
  get unsaved(): number {
    return [...this.copies.values()].reduce((n, copy) => n + copy.unsettled.length, 0);
  }
  get canUndo(): boolean {
    return this.depth.undo > 0 || this.unsaved > 0;
  }
  get canRedo(): boolean {
    return this.depth.redo > 0 && this.unsaved === 0;
  }
  get trouble(): readonly Trouble[] {
    const locked = [...this.locked].map(([file, words]) => ({ file, words }));
    return [...this.troubles, ...locked, ...this.refusals];
  }
  get conflicts(): readonly Conflict[] {
    return this.standing.map(({ conflict, from }) => ({
      ...conflict,
      line: (this.text(conflict.file) ?? "").slice(0, from).split("\n").length,
    }));
  }
  get examples(): readonly string[] {
    return this.exampleNames;
  }
  get offered(): readonly Offered[] {
    return this.offers.map(({ id, file, text }) => {
      const now = this.text(file) ?? "";
      return { id, file, lines: hunksOf(now, text) };
    });
  }

  // What is done here.

  newGesture(): string {
    return `${this.name}-${++this.ids}`;
  }
  /** Edits a text as it stands now. Edits of one gesture are one step of undo. */
  edit(file: string, changes: ChangeSet, gesture: string, own = true): void {
    const copy = this.copies.get(file);
    if (!copy || changes.empty) return;
    copy.edit(changes, gesture);
    this.show(file, changes, own);
    this.pump(file);
  }
  /** Nothing more belongs to this gesture. */
  end(gesture: string): void {
    this.ended.add(gesture);
    this.tellEnd(gesture);
    for (const file of this.copies.keys()) this.pump(file);
  }
  async undo(): Promise<void> {
    await this.wind("undo");
  }
  async redo(): Promise<void> {
    await this.wind("redo");
  }
  resolve(id: string, keep: "mine" | "theirs"): void {
    const at = this.standing.findIndex(({ conflict }) => conflict.id === id);
    const one = this.standing[at];
    if (!one) return;
    this.standing.splice(at, 1);
    const { conflict, from, to, leaves } = one;
    const text = this.text(conflict.file);
    if (leaves && !this.standing.some((other) => other.leaves?.gesture === leaves.gesture)) this.leaveOut(leaves);
    if (keep === "mine" && text === undefined) this.make(conflict.file, conflict.mine);
    else if (keep === "mine" && text !== undefined && text.slice(from, to) !== conflict.mine) {
      const gesture = this.newGesture();
      const insert = Text.of(conflict.mine.split("\n"));
      this.edit(conflict.file, ChangeSet.of({ from, to, insert }, text.length), gesture);
      this.end(gesture);
    }
    this.on.noted();
  }
  /** Words of a refusal; undefined where the folder has begun. */
  async begin(from: string): Promise<string | undefined> {
    const answer = await this.transport.begin(from);
    if ("refused" in answer) return answer.words;
    this.took(answer);
    return undefined;
  }
  async answerOffer(id: string, take: boolean): Promise<void> {
    await this.quiet();
    this.took(await this.transport.answerOffer(id, take));
  }
  close(): void {
    this.isClosed = true;
    this.line++;
    this.endWait?.();
    this.endEvents?.();
  }

  // The line to the server.

  private async load(): Promise<void> {
    const mine = ++this.line;
    try {
      // What was on its way is asked for first: the server knows by its name whether it arrived.
      const arrived = new Set<string>();
      for (const [file, copy] of this.copies) {
        const again = copy.sendAgain();
        if (!again) continue;
        const answer = await this.transport.edit({ ...again, file, done: false });
        if (!("refused" in answer)) arrived.add(file);
      }
      const state = await this.transport.state();
      if (mine !== this.line) return;
      this.meet(state, arrived);
      this.listen(mine);
    } catch {
      this.lose(mine);
    }
  }
  private listen(mine: number): void {
    this.endEvents = this.transport.events(this.last!, {
      hear: (event) => {
        if (mine === this.line) this.hear(event);
      },
      opened: () => {
        if (mine !== this.line) return;
        this.link = "live";
        this.wait = firstWait;
        for (const [file, copy] of this.copies) {
          const again = copy.sendAgain();
          if (again) void this.ask(file, again);
          else this.pump(file);
        }
        for (const gesture of this.untold.keys()) this.tellEnd(gesture);
        this.on.noted();
      },
      lost: () => this.lose(mine),
    });
  }
  private lose(mine: number): void {
    if (mine !== this.line || this.isClosed) return;
    this.line++;
    this.endEvents?.();
    this.endEvents = undefined;
    this.asking.clear();
    if (this.link !== "opening") this.link = "lost";
    for (const resolve of this.settled.splice(0)) resolve();
    const next = this.line;
    this.endWait = this.clock.later(this.wait, () => {
      if (next !== this.line) return;
      if (this.last === undefined) void this.load();
      else this.listen(++this.line);
    });
    this.wait = Math.min(longestWait, this.wait * 2);
    this.on.noted();
  }
  private hear(event: ServerEvent): void {
    if (event.event === "reload") {
      this.endEvents?.();
      void this.load();
      return;
    }
    this.last = event.id;
    switch (event.event) {
      case "change":
        this.depth = event.data.history;
        this.follow(event.data);
        break;
      case "history":
        this.depth = event.data;
        break;
      case "offered":
        this.offers = event.data.offered;
        break;
      case "trouble":
        this.troubles = event.data.trouble;
        break;
      case "written":
        break;
    }
    this.on.noted();
  }

  /** The whole state, after a time in which nobody listened. */
  private meet(state: ServerState, arrived: ReadonlySet<string>): void {
    this.last = state.event;
    this.seedNow = state.seed;
    this.depth = state.history;
    this.offers = state.offered;
    this.troubles = state.trouble;
    this.exampleNames = state.examples;
    this.locked.clear();
    const files = new Set<string>();
    for (const { file, locked, ...now } of state.files) {
      if (locked !== undefined) this.locked.set(file, locked);
      files.add(file);
      const copy = this.copies.get(file);
      if (!copy) {
        this.copies.set(file, new TextCopy(now));
        this.show(file, undefined, false);
        continue;
      }
      const yours = copy.text;
      const before = arrived.has(file) ? copy.sent : copy.heard;
      this.copies.set(file, new TextCopy(now));
      this.overtake(file, before, yours, copy.unsettled);
    }
    for (const [file, copy] of this.copies) if (!files.has(file)) this.gone(file, copy);
  }
  /** A change of the original, in an answer or an event. */
  private follow(change: FileChange): void {
    const { file, version, base, by, id } = change;
    let copy = this.copies.get(file);
    if (!copy) {
      if (!change.there) return;
      copy = new TextCopy({ text: "", version: version - 1, hash: base });
      this.copies.set(file, copy);
    }
    const { unsettled, text: shown } = copy;
    const isOwn = by !== "outside" && (by !== "edit" || (id?.startsWith(this.name) ?? false));
    const { changes, overtaken } = copy.receive(change);
    if (!change.there && copy.version === version) {
      this.gone(file, copy, overtaken);
      return;
    }
    if (overtaken) {
      this.overtake(file, overtaken.before, overtaken.yours, unsettled, shown);
      return;
    }
    if (!changes.empty || copy.version === 1) this.show(file, changes, isOwn);
    this.settle(file);
  }
  /** The original overtook what was typed: what goes beside it is typed again, the rest is a conflict. */
  private overtake(file: string, before: string, yours: string, gestures: readonly string[], shown = yours): void {
    const copy = this.copies.get(file)!;
    const theirs = copy.text;
    const { again, clashes } = merged(before, yours, theirs);
    this.show(file, lineDiff(shown, theirs), false);
    for (const clash of clashes) this.clash(file, clash);
    for (const gesture of gestures) this.ended.add(gesture);
    if (!again.empty) {
      const gesture = this.newGesture();
      this.edit(file, again, gesture);
      this.end(gesture);
    }
    this.settle(file);
    this.on.noted();
  }
  /** A file is gone; what was typed in it is not. */
  private gone(file: string, copy: TextCopy, overtaken?: { readonly before: string; readonly yours: string }): void {
    const { unsettled, heard, text } = copy;
    this.copies.delete(file);
    const typed = overtaken ?? (unsettled.length > 0 ? { before: heard, yours: text } : undefined);
    if (typed) this.clash(file, { before: typed.before, mine: typed.yours, theirs: "", from: 0, to: 0 });
    this.on.changed({ file, changes: undefined, text: undefined, own: false });
  }
  private clash(file: string, { from, to, ...texts }: Clash, leaves?: Standing["leaves"]): void {
    const conflict = { id: `${this.name}-c${++this.ids}`, file, ...texts };
    this.standing.push({ conflict, from, to, ...(leaves ? { leaves } : {}) });
  }

  // Sending.

  private pump(file: string): void {
    if (this.link !== "live" || this.asking.has(file)) return;
    const sending = this.copies.get(file)?.send(`${this.name}-${++this.ids}`);
    if (sending) void this.ask(file, sending);
  }
  private async ask(file: string, sending: Sending): Promise<void> {
    const mine = this.line;
    const { gesture } = sending;
    const more = [...this.copies].some(([other, copy]) =>
      copy.unsettled.slice(other === file ? 1 : 0).includes(gesture),
    );
    const done = this.ended.has(gesture) && !more;
    this.asking.add(file);
    if (done) this.untold.delete(gesture);
    else this.untold.set(gesture, new Set([...(this.untold.get(gesture) ?? []), file]));
    try {
      const answer = await this.transport.edit({ ...sending, file, done });
      if (mine !== this.line) return;
      this.asking.delete(file);
      if (!("refused" in answer)) this.took(answer);
      else if (laterPerhaps.has(answer.refused)) {
        this.refusals = [{ file, words: answer.words }];
        throw new Error(answer.words);
      } else this.refuse(file, sending.id, answer);
      this.pump(file);
      this.tellEnd(gesture);
      this.on.noted();
    } catch {
      if (done) this.untold.set(gesture, new Set([file]));
      this.lose(mine);
    }
  }
  /** The gesture ended with its last edit under way or answered: the server is told by an edit that changes nothing. */
  private tellEnd(gesture: string): void {
    const file = [...(this.untold.get(gesture) ?? [])].find((one) => this.copies.has(one));
    if (!this.ended.has(gesture) || this.link !== "live" || file === undefined) return;
    if ([...this.copies.values()].some((copy) => copy.unsettled.includes(gesture))) return;
    const copy = this.copies.get(file)!;
    this.untold.delete(gesture);
    const mine = this.line;
    const changes = toJson(ChangeSet.empty(copy.heard.length));
    this.transport
      .edit({ id: `${this.name}-${++this.ids}`, file, base: copy.hash, changes, gesture, done: true })
      .then((answer) => {
        if (mine === this.line && !("refused" in answer)) this.took(answer);
      })
      .catch(() => {
        this.untold.set(gesture, new Set([file]));
        this.lose(mine);
      });
  }
  private took(answer: Answer): void {
    if ("refused" in answer) {
      this.refusals = [{ file: answer.file ?? "", words: answer.words }];
      this.on.noted();
      return;
    }
    this.refusals = [];
    for (const change of answer.changes) this.follow(change);
    this.depth = answer.history;
    this.on.noted();
  }
  private refuse(file: string, id: string, refused: Refused): void {
    this.refusals = refused.refused === "conflict" ? [] : [{ file, words: refused.words }];
    const copy = this.copies.get(file);
    if (!copy) return;
    const unsettled = copy.unsettled;
    // Where the server does not say what its text is, it is the one last heard of.
    const theirs = refused.theirs ?? { text: copy.heard, version: copy.version, hash: copy.hash };
    if (refused.refused === "gone") {
      this.gone(file, copy);
      return;
    }
    const { overtaken } = copy.refused(id, theirs);
    if (!overtaken) return;
    if (refused.refused === "conflict" || refused.refused === "unknown base") {
      this.overtake(file, overtaken.before, overtaken.yours, unsettled);
      return;
    }
    // It would be refused again: all of it is shown beside the server's.
    this.show(file, lineDiff(overtaken.yours, copy.text), false);
    for (const hunk of hunks(copy.text, overtaken.yours)) this.clash(file, { ...hunk, before: hunk.theirs });
    this.settle(file);
  }
  private make(file: string, text: string): void {
    const mine = this.line;
    this.transport
      .edit({ ...this.making(file, text), gesture: this.newGesture(), done: true })
      .then((answer) => this.took(answer))
      .catch(() => this.lose(mine));
  }
  private making(file: string, text: string) {
    const changes = toJson(ChangeSet.of({ from: 0, insert: Text.of(text.split("\n")) }, 0));
    return { id: `${this.name}-${++this.ids}`, file, base: null, changes };
  }
  /** A new file within a gesture, once everything typed has been answered; the words of a refusal. Nothing is kept for later where the line is broken. */
  async create(file: string, text: string, gesture: string): Promise<string | undefined> {
    await this.quiet();
    if (this.link !== "live") return `There is no connection: ${file} was not begun.`;
    const mine = this.line;
    try {
      const answer = await this.transport.edit({ ...this.making(file, text), gesture, done: false });
      if ("refused" in answer) return answer.words;
      this.untold.set(gesture, new Set([file]));
      this.took(answer);
      return undefined;
    } catch {
      this.lose(mine);
      return `The connection broke while ${file} was begun.`;
    }
  }

  // Undo.

  private async wind(of: "undo" | "redo"): Promise<void> {
    await this.quiet();
    if (this.link !== "live") return;
    const mine = this.line;
    try {
      const answer = await this.transport[of]();
      if (!("refused" in answer)) this.took(answer);
      else if (answer.refused !== "nothing") this.notWound(of, answer);
    } catch {
      this.lose(mine);
    }
  }
  /** It would undo what somebody else wrote: both texts are shown. */
  private notWound(of: "undo" | "redo", { file, gesture, yours, theirs, words }: Refused): void {
    if (file === undefined || gesture === undefined) {
      this.refusals = [{ file: file ?? "", words }];
      this.on.noted();
      return;
    }
    const leaves = { of, gesture };
    const now = this.text(file) ?? theirs?.text ?? "";
    for (const hunk of hunks(now, yours ?? now)) this.clash(file, { ...hunk, before: hunk.theirs }, leaves);
    if (yours === undefined || yours === now) {
      this.refusals = [{ file, words }];
      this.leaveOut(leaves);
    }
    this.on.noted();
  }
  private leaveOut({ of, gesture }: NonNullable<Standing["leaves"]>): void {
    const mine = this.line;
    this.transport[of](gesture)
      .then((answer) => this.took(answer))
      .catch(() => this.lose(mine));
  }
  /** Waits until everything typed has been answered; not for a line that is broken. */
  private quiet(): Promise<void> {
    if (this.unsaved === 0 || this.link !== "live") return Promise.resolve();
    return new Promise((resolve) => this.settled.push(resolve));
  }
  private settle(file: string): void {
    this.pump(file);
    if (this.unsaved === 0) for (const resolve of this.settled.splice(0)) resolve();
  }

  private show(file: string, changes: ChangeSet | undefined, own: boolean): void {
    if (changes && !changes.empty)
      for (const one of this.standing) {
        if (one.conflict.file !== file) continue;
        one.from = changes.mapPos(Math.min(one.from, changes.length), -1);
        one.to = Math.max(one.from, changes.mapPos(Math.min(one.to, changes.length), 1));
      }
    if (!changes?.empty) this.on.changed({ file, changes, text: this.text(file), own });
  }
}

/** Refusals that have nothing to do with the edit: it is kept and sent again. */
const laterPerhaps = new Set<Refused["refused"]>(["session", "journal", "other"]);

interface Hunk {
  readonly from: number;
  readonly to: number;
  readonly theirs: string;
  readonly mine: string;
}
/** Stretches of whole lines in which two texts differ; places are the first text's. */
function hunks(theirs: string, mine: string): Hunk[] {
  const out: Hunk[] = [];
  lineDiff(theirs, mine).iterChanges((from, to, _a, _b, inserted) => {
    out.push({ from, to, theirs: theirs.slice(from, to), mine: inserted.toString() });
  });
  return out;
}
const hunksOf = (before: string, after: string): Offered["lines"] =>
  hunks(before, after).map(({ from, theirs, mine }) => ({
    line: before.slice(0, from).split("\n").length,
    before: theirs,
    after: mine,
  }));
