import { ChangeSet } from "@codemirror/state";
import { type ChangesJson, changed, toJson } from "./changes.ts";
import type { FileChange } from "./folder-texts.ts";
import { lineDiff } from "./line-diff.ts";
import { lineTouchedTwice } from "./lines.ts";

/** What a copy sends: changes of one gesture, for the text with this hash. One at a time. */
export interface Sending {
  readonly id: string;
  readonly base: string;
  readonly changes: ChangesJson;
  readonly gesture: string;
}
/** What came in: the change of the copy's own text, and the copy's text before where the two touched one line. */
export interface Received {
  readonly changes: ChangeSet;
  readonly overtaken?: {
    readonly line?: number;
    readonly yours: string;
    /** The original that it was typed in. */
    readonly before: string;
  };
}
/** What was typed in one gesture. */
interface Typed {
  readonly gesture: string;
  readonly changes: ChangeSet;
}

/**
 * A copy of one file, edited here while others edit the original. Three texts follow one another: the original as last heard of, that with
 * what is on its way, that with what has been typed since. What comes in goes under both; where it touches a line of theirs, the original
 * wins, and the text that was typed is handed back to be shown beside it.
 */
export class TextCopy {
  version: number;
  hash: string;
  private original: string;
  private onItsWay: (Typed & { readonly id: string }) | undefined;
  private typed: readonly Typed[] = [];
  private readonly early = new Map<number, FileChange>();

  constructor(of: { readonly text: string; readonly version: number; readonly hash: string }) {
    this.original = of.text;
    this.version = of.version;
    this.hash = of.hash;
  }
  get text(): string {
    return this.typed.reduce((text, one) => changed(text, one.changes), this.sent);
  }
  /** The original as last heard of. */
  get heard(): string {
    return this.original;
  }
  /** The original with what is on its way. */
  get sent(): string {
    return this.onItsWay ? changed(this.original, this.onItsWay.changes) : this.original;
  }
  /** Whether everything typed has been answered. */
  get isSettled(): boolean {
    return !this.onItsWay && this.typed.length === 0;
  }
  /** Gestures with something that has not been answered, in the order they were made. */
  get unsettled(): readonly string[] {
    return [...(this.onItsWay ? [this.onItsWay] : []), ...this.typed].map(({ gesture }) => gesture);
  }
  /** Somebody types. What belongs to one gesture is one step of undo. */
  edit(changes: ChangeSet, gesture = ""): void {
    const last = this.typed.at(-1);
    this.typed =
      last?.gesture === gesture
        ? [...this.typed.slice(0, -1), { gesture, changes: last.changes.compose(changes) }]
        : [...this.typed, { gesture, changes }];
  }
  /** What is to be sent next, of one gesture; undefined while an answer is outstanding or nothing was typed. */
  send(id: string): Sending | undefined {
    const [first, ...rest] = this.typed;
    if (this.onItsWay || !first) return undefined;
    this.typed = rest;
    if (first.changes.empty) return this.send(id);
    this.onItsWay = { id, ...first };
    return this.sendAgain();
  }
  /** What is on its way, for the original as last heard of: for whoever does not know whether it arrived. */
  sendAgain(): Sending | undefined {
    if (!this.onItsWay) return undefined;
    const { id, gesture, changes } = this.onItsWay;
    return { id, base: this.hash, changes: toJson(changes), gesture };
  }
  /**
   * The answer to an edit, or an event: whichever comes first counts, each version once, and one that comes before its forerunners waits
   * for them.
   */
  receive(change: FileChange): Received {
    if (change.version > this.version) this.early.set(change.version, change);
    let all: Received = { changes: ChangeSet.empty(this.text.length) };
    for (let next = this.early.get(this.version + 1); next; next = this.early.get(this.version + 1)) {
      this.early.delete(next.version);
      const one = this.follow(next);
      all = { ...all, ...one, changes: all.changes.compose(one.changes) };
    }
    return all;
  }
  /** The edit was refused: the original stands, as the refusal gives it, and what was typed is handed back. */
  refused(id: string, theirs: { readonly text: string; readonly version: number; readonly hash: string }): Received {
    const [yours, before] = [this.text, this.original];
    if (this.onItsWay?.id !== id) return { changes: ChangeSet.empty(yours.length) };
    if (theirs.version >= this.version) {
      this.original = theirs.text;
      this.version = theirs.version;
      this.hash = theirs.hash;
      for (const version of this.early.keys()) if (version <= theirs.version) this.early.delete(version);
    }
    return this.handBack(yours, before);
  }
  private follow({ version, hash, changes: json, id }: FileChange): Received {
    const incoming = ChangeSet.fromJSON(json);
    const before = this.original;
    this.original = changed(before, incoming);
    this.version = version;
    this.hash = hash;
    const waiting = this.onItsWay?.changes ?? ChangeSet.empty(before.length);
    if (this.onItsWay && this.onItsWay.id === id) {
      this.onItsWay = undefined;
      // As a rule it was taken as it was sent, and there is no difference.
      return this.passTyped(lineDiff(changed(before, waiting), this.original));
    }
    const ours = this.typed.reduce((all, one) => all.compose(one.changes), waiting);
    const line = lineTouchedTwice(ours, incoming, before);
    if (line !== undefined) return this.handBack(changed(before, ours), before, line);
    if (this.onItsWay) this.onItsWay = { ...this.onItsWay, changes: waiting.map(incoming) };
    return this.passTyped(incoming.map(waiting, true));
  }
  /** A change of the text below what was typed: what was typed goes over it, and the change of the copy's text is left. */
  private passTyped(change: ChangeSet): Received {
    let changes = change;
    this.typed = this.typed.map((one) => {
      const mapped = one.changes.map(changes);
      changes = changes.map(one.changes, true);
      return { ...one, changes: mapped };
    });
    return { changes };
  }
  private handBack(yours: string, before: string, line?: number): Received {
    this.onItsWay = undefined;
    this.typed = [];
    return {
      changes: lineDiff(yours, this.original),
      overtaken: { yours, before, ...(line === undefined ? {} : { line }) },
    };
  }
}
