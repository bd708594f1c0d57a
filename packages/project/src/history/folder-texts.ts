import { ChangeSet } from "@codemirror/state";
import { type ChangesJson, changed, readChanges, takingBack, toJson } from "./changes.ts";
import { lineDiff } from "./line-diff.ts";
import { lineTouchedTwice } from "./lines.ts";
import type {
  AheadJson,
  EditRecord,
  JournalRecord,
  OfferRecord,
  OutsideRecord,
  StepRecord,
  UndoRecord,
  WrittenRecord,
} from "./record.ts";
import { isPlainPath, journalHead } from "./record.ts";
import { attach, type Clash, type Step, unwound, withoutTop } from "./step.ts";

/** A file as it is now: what was accepted, whether written or not. */
export interface FileNow {
  readonly file: string;
  readonly text: string;
  readonly there: boolean;
  readonly version: number;
  readonly hash: string;
  /** Whether it lies on disk like this. */
  readonly written: boolean;
}
/** What happened to a file, for whoever holds a copy of it. A file that is not there counts as the empty text. */
export interface FileChange {
  readonly file: string;
  readonly version: number;
  /** Of the text before. */
  readonly base: string;
  readonly hash: string;
  readonly there: boolean;
  readonly changes: ChangesJson;
  readonly by: "edit" | "undo" | "redo" | "outside";
  readonly gesture?: string;
  readonly id?: string;
}
export interface EditWish {
  readonly file: string;
  /** Hash of the text that the changes were made for; null makes a new file. */
  readonly base: string | null;
  readonly changes: unknown;
  readonly gesture: string;
  readonly done: boolean;
  /** The same id is taken once, however often it is sent. */
  readonly id?: string;
}
export type RefusalCode = "malformed" | "unknown base" | "conflict" | "gone" | "exists" | "nothing";
/** Why something was not done. Nothing has changed. */
export interface Refusal {
  readonly refused: RefusalCode;
  readonly words: string;
  readonly file?: string;
  readonly gesture?: string;
  /** The text that was wished for, where it can be said. */
  readonly yours?: string;
  /** The file as it is; absent where it is not there. */
  readonly theirs?: Pick<FileNow, "text" | "version" | "hash">;
}
/** What is to be noted, in order, before it is taken; empty where nothing happens. */
export interface Decision {
  readonly records: readonly JournalRecord[];
  /** Whether the journal has to keep the records: a file that nobody here has touched needs none. */
  readonly keep: boolean;
  /** An edit that was taken before under the same id. */
  readonly again?: FileChange;
}
/** The journal does not fit itself: a text has another hash than the one that was noted. */
export class JournalFault extends Error {
  override readonly name = "JournalFault";
}

interface Version {
  readonly hash: string;
  readonly there: boolean;
  /** From the version before. */
  readonly changes: ChangeSet;
  readonly back: ChangeSet;
}
interface Ahead {
  readonly when: string;
  readonly changes: ChangeSet;
  readonly there: boolean;
  readonly hash: string;
}
interface Kept {
  readonly file: string;
  /** The last text, kept also while the file is away: it may come back. */
  text: string;
  there: boolean;
  version: number;
  hash: string;
  disk: { text: string; there: boolean };
  /** Accepted and not written yet; leads from the disk's text to this one. */
  ahead: Ahead[];
  /** Versions that an edit may still be based on; the last is the present one. */
  versions: Version[];
  /** Whether the journal knows its text. */
  inJournal: boolean;
}

const versionsKept = 1000;
const idsKept = 500;
const longestText = 1_000_000;

/**
 * The texts of a folder, every change of them in one line of history, and what it takes to take changes back.
 *
 * Two halves: what is asked (`edit`, `undo`, `onDisk`, ...) gives records and changes nothing; `take` alone changes, and takes nothing but
 * records. Whoever writes the records down before he takes them can come back to the same state by taking them again.
 */
export class FolderTexts {
  private readonly hashOf: (text: string) => string;
  private readonly files = new Map<string, Kept>();
  private undoable: Step[] = [];
  private redoable: Step[] = [];
  private readonly waiting = new Map<string, OfferRecord>();
  private readonly ids = new Map<string, FileChange>();
  private group = 0;
  /** The gesture that the next edit may go on with. */
  private going: { readonly gesture: string; readonly group: number } | undefined;

  /** `hashOf` is any function that tells texts apart for good; files and callers use SHA-256 of the UTF-8 bytes. */
  constructor(hashOf: (text: string) => string) {
    this.hashOf = hashOf;
  }

  // What is there.

  now(file: string): FileNow | undefined {
    const kept = this.files.get(file);
    return kept && fileNow(kept);
  }
  /** All files that are there or are to be removed from disk, in the order of their names. */
  all(): FileNow[] {
    return [...this.files.values()].map(fileNow).sort((a, b) => (a.file < b.file ? -1 : 1));
  }
  /** The disk's text as it was last seen; undefined where there was no file. */
  disk(file: string): string | undefined {
    const disk = this.files.get(file)?.disk;
    return disk?.there ? disk.text : undefined;
  }
  get offers(): readonly OfferRecord[] {
    return [...this.waiting.values()];
  }
  /** How many gestures can be taken back, and taken again. */
  get depth(): { readonly undo: number; readonly redo: number } {
    return { undo: gesturesIn(this.undoable), redo: gesturesIn(this.redoable) };
  }

  // What is asked.

  edit(wish: EditWish, when: string): Decision | Refusal {
    const { file, base, gesture, done, id } = wish;
    const before = id === undefined ? undefined : this.ids.get(id);
    if (before) return { records: [], keep: false, again: before };
    if (!isPlainPath(file)) return refusal("malformed", `"${file.slice(0, 100)}" is no file of a project.`);
    const kept = this.files.get(file);
    const note = (changes: ChangeSet, makes: boolean): Decision | Refusal => {
      const from = kept?.text ?? "";
      const text = changed(from, changes);
      if (text.length > longestText)
        return refusal(
          "malformed",
          `${file} would be ${text.length} characters long; at most ${longestText} are kept.`,
          kept,
        );
      if (/\p{Surrogate}/u.test(text))
        return refusal("malformed", `${file} would hold half a character and could not be saved.`, kept);
      const edit: EditRecord = {
        is: "edit",
        when,
        file,
        gesture,
        done,
        changes: toJson(changes),
        hash: this.hashOf(text),
        ...(id === undefined ? {} : { id }),
        ...(makes ? { makes: true } : {}),
      };
      return { records: [...this.baseFor(file), edit], keep: true };
    };
    if (base === null) {
      if (kept?.there) return refusal("exists", `There is a file ${file} already.`, kept);
      const changes = readChanges(wish.changes, 0);
      if (typeof changes === "string") return refusal("malformed", `${file}: ${changes}.`, kept);
      return note(lineDiff(kept?.text ?? "", changed("", changes)), true);
    }
    if (!kept?.there) return refusal("gone", `There is no file ${file}.`, kept);
    const at = kept.versions.findLastIndex((version) => version.there && version.hash === base);
    if (at < 0)
      return refusal("unknown base", `${file} has changed, and the text this edit was made for is not known.`, kept);
    let baseText = kept.text;
    let since = ChangeSet.empty(baseText.length);
    for (const version of kept.versions.slice(at + 1).reverse()) {
      baseText = changed(baseText, version.back);
      since = version.changes.compose(since);
    }
    const changes = readChanges(wish.changes, baseText.length);
    if (typeof changes === "string") return refusal("malformed", `${file}: ${changes}.`, kept);
    const line = lineTouchedTwice(changes, since, baseText);
    if (line !== undefined)
      return {
        ...refusal("conflict", `${file} has changed in line ${line} meanwhile.`, kept),
        yours: changed(baseText, changes),
      };
    return note(changes.map(since), false);
  }

  undo(when: string): Decision | Refusal {
    return this.unwind("undo", when);
  }
  redo(when: string): Decision | Refusal {
    return this.unwind("redo", when);
  }
  /** Leaves the gesture out that could not be taken back, so that those before it can be. */
  skip(of: "undo" | "redo", gesture: string): Decision | Refusal {
    const top = this.stack(of).at(-1);
    if (top?.gesture !== gesture) return refusal("nothing", `"${gesture.slice(0, 100)}" is not the next to ${of}.`);
    return { records: [{ is: "skip", of, gesture }], keep: true };
  }

  /**
   * A file as it was found on disk; undefined where there is none. `cold` says that nobody watched since the journal was written: what was not
   * written then is put onto the disk's text only where that text is the one it was made for, and is offered otherwise.
   */
  onDisk(file: string, found: string | undefined, when: string, cold: boolean): Decision {
    const nothing: Decision = { records: [], keep: false };
    const kept = this.files.get(file);
    const disk = kept?.disk ?? { text: "", there: false };
    const there = found !== undefined;
    const text = found ?? disk.text;
    if (there === disk.there && text === disk.text) return nothing;
    const ahead = kept?.ahead ?? [];
    const fits = ahead.findLast((one) => one.there === there && (!there || one.hash === this.hashOf(text)));
    if (fits) return { records: [{ is: "written", file, hash: fits.hash, there }], keep: true };
    const changes = lineDiff(disk.text, text);
    const outside: OutsideRecord = { is: "outside", when, file, changes: toJson(changes), there, hash: "" };
    const mapped = kept && ahead.length > 0 ? this.overAhead(kept, changes, there, cold) : changes;
    if (mapped)
      return {
        records: [{ ...outside, hash: this.hashOf(changed(kept?.text ?? "", mapped)) }],
        keep: kept?.inJournal ?? false,
      };
    const aside: OutsideRecord = { ...outside, hash: this.hashOf(text), aside: true };
    // Nothing is offered where a removal was not carried out: the file is there.
    const offered = kept!.there && ![...this.waiting.values()].some((o) => o.file === file && o.text === kept!.text);
    const offer: OfferRecord = {
      is: "offer",
      id: `${file} ${kept!.hash.slice(0, 12)} ${when}`,
      file,
      when: ahead.at(-1)!.when,
      text: kept!.text,
    };
    return { records: offered ? [offer, aside] : [aside], keep: true };
  }
  /** A file was written as it is now. */
  written(file: string): Decision {
    const kept = this.files.get(file);
    if (!kept || kept.ahead.length === 0) return { records: [], keep: false };
    return { records: [{ is: "written", file, hash: kept.hash, there: kept.there }], keep: true };
  }
  /** Answers an offer. A text that is taken is an edit like any other, and can be taken back. */
  answer(id: string, take: boolean, when: string): Decision | Refusal {
    const offer = this.waiting.get(id);
    if (!offer) return refusal("nothing", "There is no such offer any more.");
    const answer: JournalRecord = { is: "answer", id, take };
    const kept = this.files.get(offer.file);
    if (!take || (kept?.there && kept.text === offer.text)) return { records: [answer], keep: true };
    const changes = lineDiff(kept?.text ?? "", offer.text);
    const edit: EditRecord = {
      is: "edit",
      when,
      file: offer.file,
      gesture: `offer ${id}`,
      done: true,
      changes: toJson(changes),
      hash: this.hashOf(offer.text),
      ...(kept?.there ? {} : { makes: true }),
    };
    return { records: [...this.baseFor(offer.file), edit, answer], keep: true };
  }
  /** The shortest journal that leads to this state. */
  snapshot(): JournalRecord[] {
    const needed = new Set([...this.undoable, ...this.redoable].map((step) => step.file));
    const bases = [...this.files.values()].filter((kept) => needed.has(kept.file) || kept.ahead.length > 0);
    const steps = (of: "undo" | "redo") =>
      this.stack(of).map((step) => stepRecord(of, step, of === "undo" && step.group === this.going?.group));
    return [journalHead, ...bases.map(baseRecord), ...steps("undo"), ...steps("redo"), ...this.waiting.values()];
  }
  /** Whether the steps hang together; false only where the journal was damaged in a way that each line of it survived. */
  get isSound(): boolean {
    return [this.undoable, this.redoable].every((stack) => {
      const lengths = new Map<string, number>();
      return (
        stack.findLast(({ file, changes, back }) => {
          const above = lengths.get(file) ?? this.files.get(file)?.text.length;
          lengths.set(file, changes.newLength);
          return (back ?? changes).length !== above || (back !== undefined && back.newLength !== changes.length);
        }) === undefined
      );
    });
  }
  /** Says that the journal holds a snapshot of this state and nothing else. */
  shortened(): void {
    const known = new Set(this.snapshot().flatMap((record) => (record.is === "base" ? [record.file] : [])));
    for (const kept of this.files.values()) {
      kept.inJournal = known.has(kept.file);
      kept.ahead = inOne(kept);
    }
  }

  // What happens.

  /** Takes one record. Throws JournalFault, and has then to be thrown away, where it does not fit what was taken before. */
  take(record: JournalRecord): FileChange[] {
    switch (record.is) {
      case "journal":
        return [];
      case "base":
        return this.takeBase(record.file, record.text, record.there, record.ahead);
      case "step":
        return this.takeStep(record);
      case "edit":
        return this.takeEdit(record);
      case "undo":
      case "redo":
        return this.takeUndo(record);
      case "skip": {
        this.setStack(record.of, withoutTop(this.stack(record.of)));
        this.going = undefined;
        return [];
      }
      case "outside":
        return this.takeOutside(record);
      case "written":
        return this.takeWritten(record);
      case "offer":
        this.waiting.set(record.id, record);
        return [];
      case "answer":
        this.waiting.delete(record.id);
        return [];
    }
  }

  private takeBase(file: string, text: string, there: boolean, ahead: readonly AheadJson[]): FileChange[] {
    const known = this.files.get(file);
    if (known && (known.inJournal || known.ahead.length > 0 || known.disk.text !== text || known.disk.there !== there))
      throw new JournalFault(`${file} begins twice`);
    const kept = known ?? this.fresh(file, text, there);
    kept.inJournal = true;
    for (const one of ahead) {
      const changes = ChangeSet.fromJSON(one.changes);
      this.move(kept, changes, one.there, one.hash);
      kept.ahead.push({ ...one, changes });
    }
    return [];
  }
  private fresh(file: string, text: string, there: boolean): Kept {
    const hash = this.hashOf(text);
    const none = ChangeSet.empty(text.length);
    const kept: Kept = {
      file,
      text,
      there,
      version: there ? 1 : 0,
      hash,
      disk: { text, there },
      ahead: [],
      versions: [{ hash, there, changes: none, back: none }],
      inJournal: false,
    };
    this.files.set(file, kept);
    return kept;
  }
  private takeStep({ of, file, gesture, group, changes, back, there, goesOn }: StepRecord): FileChange[] {
    const step: Step = {
      file,
      gesture,
      group,
      changes: ChangeSet.fromJSON(changes),
      ...(back ? { back: ChangeSet.fromJSON(back) } : {}),
      ...(there === undefined ? {} : { there }),
    };
    (of === "undo" ? this.undoable : this.redoable).push(step);
    this.group = Math.max(this.group, group);
    if (goesOn) this.going = { gesture, group };
    return [];
  }
  private takeEdit({ file, gesture, done, changes: json, hash, id, makes, when }: EditRecord): FileChange[] {
    const kept = this.files.get(file) ?? this.fresh(file, "", false);
    if (kept.there === (makes ?? false)) throw new JournalFault(`${file} is ${makes ? "" : "not "}there`);
    const changes = ChangeSet.fromJSON(json);
    const before = kept.text;
    const empty = changes.empty && !makes;
    if (!empty) {
      const top = this.undoable.at(-1);
      const goesOn = this.going?.gesture === gesture && top?.group === this.going.group;
      if (!goesOn) this.group++;
      const inverse = takingBack(changes, before);
      if (top && goesOn && top.file === file && !top.back && !makes)
        this.undoable[this.undoable.length - 1] = { ...top, changes: inverse.compose(top.changes) };
      else
        this.undoable.push({ file, gesture, group: this.group, changes: inverse, ...(makes ? { there: false } : {}) });
      this.redoable = [];
      this.going = { gesture, group: this.group };
    }
    const change = this.move(kept, changes, true, hash);
    if (!empty) kept.ahead.push({ when, changes, there: true, hash });
    if (done) this.end(gesture);
    const told: FileChange = { ...change, by: "edit", gesture, ...(id === undefined ? {} : { id }) };
    if (id !== undefined) {
      this.ids.set(id, told);
      if (this.ids.size > idsKept) this.ids.delete(this.ids.keys().next().value!);
    }
    return empty ? [] : [told];
  }
  /** A gesture ends. Where undoing it would change nothing, as with a drag that was given up, it is no step. */
  private end(gesture: string): void {
    if (this.going?.gesture !== gesture) return;
    const { group } = this.going;
    this.going = undefined;
    const all = unwound(this.undoable, (file) => this.files.get(file));
    if (!all || "clash" in all || all.changes.some(({ file, there }) => there !== this.files.get(file)?.there)) return;
    if ([...all.after].some(([file, { text }]) => text !== this.files.get(file)?.text)) return;
    // What came from outside meanwhile goes on to the steps below.
    const below = new Map<string, string>();
    for (let step = this.undoable.at(-1); step?.group === group; step = this.undoable.at(-1)) {
      const { file, back, changes } = step;
      const above = below.get(file) ?? this.files.get(file)!.text;
      below.set(file, changed(back ? changed(above, back) : above, changes));
      this.undoable.pop();
    }
    for (const [file, text] of below) attach(this.undoable, file, lineDiff(this.files.get(file)!.text, text));
  }
  private takeUndo({ is, gesture, hashes, when }: UndoRecord): FileChange[] {
    const undone = unwound(this.stack(is), (file) => this.files.get(file));
    if (!undone || "clash" in undone || undone.gesture !== gesture)
      throw new JournalFault(`"${gesture}" cannot be taken back`);
    const told = undone.changes.map(({ file, changes, there }): FileChange => {
      const kept = this.files.get(file)!;
      const text = changed(kept.text, changes);
      const change = this.move(kept, changes, there, this.hashOf(text));
      kept.ahead.push({ when, changes, there, hash: kept.hash });
      return { ...change, by: is, gesture };
    });
    for (const [file, hash] of Object.entries(hashes))
      if (this.files.get(file)?.hash !== hash) throw new JournalFault(`${file} is another after ${is}`);
    this.setStack(is, undone.rest);
    const other = is === "undo" ? "redo" : "undo";
    this.setStack(other, [...this.stack(other), ...undone.opposite]);
    this.going = undefined;
    return told;
  }
  private takeOutside({ file, changes: json, there, hash, aside }: OutsideRecord): FileChange[] {
    const kept = this.files.get(file) ?? this.fresh(file, "", false);
    const onDisk = sized(ChangeSet.fromJSON(json), kept.disk.text.length);
    const diskText = changed(kept.disk.text, onDisk);
    const mapped = aside ? lineDiff(kept.text, diskText) : this.mappedOverAhead(kept, onDisk);
    const back = takingBack(mapped, kept.text);
    attach(this.undoable, file, back);
    attach(this.redoable, file, back);
    const change = this.move(kept, mapped, aside || kept.ahead.length === 0 ? there : kept.there, hash);
    kept.ahead = aside ? [] : aheadOver(kept, onDisk, this.hashOf);
    kept.disk = { text: diskText, there };
    return [{ ...change, by: "outside" }];
  }
  private takeWritten({ file, hash, there }: WrittenRecord): FileChange[] {
    const kept = this.files.get(file);
    const at = kept?.ahead.findLastIndex((one) => one.hash === hash && one.there === there) ?? -1;
    if (!kept || at < 0) throw new JournalFault(`${file} was written with a text that is not known`);
    let text = kept.disk.text;
    for (const one of kept.ahead.slice(0, at + 1)) text = changed(text, one.changes);
    kept.disk = { text, there };
    kept.ahead = kept.ahead.slice(at + 1);
    return [];
  }

  // Ways and means.

  private unwind(is: "undo" | "redo", when: string): Decision | Refusal {
    const undone = unwound(this.stack(is), (file) => this.files.get(file));
    if (!undone) return refusal("nothing", `There is nothing to ${is}.`);
    if ("clash" in undone) return this.clashed(is, undone);
    const hashes = Object.fromEntries([...undone.after].map(([file, { text }]) => [file, this.hashOf(text)]));
    return { records: [{ is, when, gesture: undone.gesture, hashes }], keep: true };
  }
  private clashed(is: "undo" | "redo", { clash, gesture, file, line, yours }: Clash): Refusal {
    const kept = this.files.get(file);
    const words = {
      line: `${file} has been changed${line === undefined ? "" : ` in line ${line}`} from outside since, so this cannot be ${is === "undo" ? "undone" : "redone"}.`,
      gone: `There is no file ${file} any more, so this cannot be ${is === "undo" ? "undone" : "redone"}.`,
      exists: `There is a file ${file} again, so this cannot be ${is === "undo" ? "undone" : "redone"}.`,
    }[clash];
    return { ...refusal(clash === "line" ? "conflict" : clash, words, kept), gesture, yours };
  }
  private stack(of: "undo" | "redo"): readonly Step[] {
    return of === "undo" ? this.undoable : this.redoable;
  }
  private setStack(of: "undo" | "redo", steps: readonly Step[]): void {
    if (of === "undo") this.undoable = [...steps];
    else this.redoable = [...steps];
  }
  /** What the journal has to know of a file before it can note a change of it. */
  private baseFor(file: string): JournalRecord[] {
    const kept = this.files.get(file);
    if (!kept) return [{ is: "base", file, text: "", there: false, ahead: [] }];
    return kept.inJournal ? [] : [baseRecord(kept)];
  }
  /** A change of the disk's text as a change of the present one; undefined where the two do not go together. */
  private overAhead(kept: Kept, onDisk: ChangeSet, there: boolean, cold: boolean): ChangeSet | undefined {
    const ahead = composed(kept);
    if (cold || there !== kept.disk.there || !kept.there) return undefined;
    return lineTouchedTwice(onDisk, ahead, kept.disk.text) === undefined ? onDisk.map(ahead, true) : undefined;
  }
  private mappedOverAhead(kept: Kept, onDisk: ChangeSet): ChangeSet {
    return kept.ahead.length === 0 ? sized(onDisk, kept.text.length) : onDisk.map(composed(kept), true);
  }
  /** Moves a file to its next version. Throws JournalFault where the text is not the one that was noted. */
  private move(kept: Kept, changes: ChangeSet, there: boolean, hash: string): Omit<FileChange, "by"> {
    const { file, text: before, there: wasThere } = kept;
    const base = wasThere ? kept.hash : this.hashOf("");
    if (changes.length !== before.length) throw new JournalFault(`${file} has another length than the change is for`);
    const text = changed(before, changes);
    if (this.hashOf(text) !== hash) throw new JournalFault(`${file} is another after a change`);
    if (!changes.empty || there !== wasThere) {
      kept.version++;
      kept.versions.push({ hash, there, changes, back: takingBack(changes, before) });
      if (kept.versions.length > versionsKept) kept.versions.shift();
    }
    kept.text = text;
    kept.there = there;
    kept.hash = hash;
    const seen =
      there === wasThere ? (there ? changes : ChangeSet.empty(0)) : lineDiff(wasThere ? before : "", there ? text : "");
    return { file, version: kept.version, base, hash: there ? hash : this.hashOf(""), there, changes: toJson(seen) };
  }
}

/** Takes records up to the first that does not fit; `why` says what is wrong with it. */
export function replayed(
  records: readonly JournalRecord[],
  hashOf: (text: string) => string,
): { readonly texts: FolderTexts; readonly taken: number; readonly why?: string } {
  const texts = new FolderTexts(hashOf);
  let taken = 0;
  try {
    for (; taken < records.length; taken++) texts.take(records[taken]!);
    if (texts.isSound) return { texts, taken };
    return { texts: new FolderTexts(hashOf), taken: 0, why: "its steps do not hang together" };
  } catch (e) {
    // A record that was taken in part spoils the rest.
    if (!(e instanceof JournalFault || e instanceof RangeError)) throw e;
    return { ...replayed(records.slice(0, taken), hashOf), why: e.message };
  }
}

const fileNow = ({ file, text, there, version, hash, ahead }: Kept): FileNow => ({
  file,
  text,
  there,
  version,
  hash,
  written: ahead.length === 0,
});
const refusal = (refused: RefusalCode, words: string, kept?: Kept): Refusal => ({
  refused,
  words,
  ...(kept ? { file: kept.file } : {}),
  ...(kept?.there ? { theirs: { text: kept.text, version: kept.version, hash: kept.hash } } : {}),
});
/** An empty change, whatever length it was made for, fits any text; others are as they are. */
const sized = (changes: ChangeSet, length: number): ChangeSet => (changes.empty ? ChangeSet.empty(length) : changes);
const composed = ({ disk, ahead }: Kept): ChangeSet =>
  ahead.reduce<ChangeSet>((all, one) => all.compose(one.changes), ChangeSet.empty(disk.text.length));
/** What is not written yet, put onto the disk's new text as one change. */
function aheadOver(kept: Kept, onDisk: ChangeSet, hashOf: (text: string) => string): Ahead[] {
  const last = kept.ahead.at(-1);
  if (!last) return [];
  return [{ when: last.when, changes: composed(kept).map(onDisk), there: last.there, hash: hashOf(kept.text) }];
}
const gesturesIn = (stack: readonly Step[]): number =>
  stack.reduce((count, step, i) => count + Number(step.group !== stack[i - 1]?.group), 0);
function baseRecord(kept: Kept): JournalRecord {
  const { file, disk } = kept;
  const ahead = inOne(kept).map(({ when, changes, there, hash }) => ({ when, changes: toJson(changes), there, hash }));
  return { is: "base", file, text: disk.text, there: disk.there, ahead };
}
/** What is not written yet as one change: of all the texts on the way only the last will be written. */
function inOne(kept: Kept): Ahead[] {
  const last = kept.ahead.at(-1);
  return last ? [{ ...last, changes: composed(kept) }] : [];
}
const stepRecord = (of: "undo" | "redo", { changes, back, ...step }: Step, goesOn: boolean): JournalRecord => ({
  is: "step",
  of,
  ...step,
  ...(goesOn ? { goesOn } : {}),
  changes: toJson(changes),
  ...(back ? { back: toJson(back) } : {}),
});
