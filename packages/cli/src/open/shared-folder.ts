import { createHash, randomBytes } from "node:crypto";
import { existsSync, lstatSync, mkdirSync, realpathSync, renameSync, statSync, writeFileSync } from "node:fs";
import { basename, join } from "node:path";
import {
  type Decision,
  type EditWish,
  type FileChange,
  type FolderTexts,
  journalHead,
  journalText,
  type OfferRecord,
  type Refusal,
  readJournal,
  replayed,
} from "@tapeworthy/project";
import { CallError } from "../folder.ts";
import { Disk, type DiskFile } from "./disk.ts";
import { JournalError, JournalFile } from "./journal-file.ts";
import { Lock } from "./lock.ts";
import { Watcher } from "./watcher.ts";

/** Milliseconds. */
export interface Patience {
  /** A change from outside is taken once it has stood so long. */
  readonly settle: number;
  /** The same where the file is gone, empty or cut short: somebody may be in the middle of writing. */
  readonly doubt: number;
  /** The folder is looked at so often, whatever the system tells. */
  readonly look: number;
  /** A gesture that nobody goes on with or ends is written after so long. */
  readonly idle: number;
}
export const usualPatience: Patience = { settle: 100, doubt: 700, look: 2000, idle: 10_000 };

/** What pages are told as it happens. */
export type Told =
  | { readonly event: "change"; readonly data: FileChange & { readonly history: FolderTexts["depth"] } }
  | { readonly event: "written"; readonly data: { readonly file: string; readonly hash: string } }
  | { readonly event: "history"; readonly data: FolderTexts["depth"] }
  | { readonly event: "offered"; readonly data: { readonly offered: readonly Offer[] } }
  | { readonly event: "trouble"; readonly data: { readonly trouble: readonly Trouble[] } };
export type Offer = Omit<OfferRecord, "is">;
export interface Trouble {
  /** Empty where it is no single file. */
  readonly file: string;
  readonly words: string;
}
export interface SharedState {
  readonly project: string;
  readonly files: readonly {
    readonly file: string;
    readonly version: number;
    readonly hash: string;
    readonly text: string;
    readonly written: boolean;
    readonly locked?: string;
  }[];
  readonly offered: readonly Offer[];
  readonly trouble: readonly Trouble[];
  readonly history: FolderTexts["depth"];
}
export interface Locked {
  readonly refused: "locked";
  readonly words: string;
  readonly file: string;
}
export type Answer = { readonly changes: readonly FileChange[] } | Refusal | Locked;

const corner = ".tapeworthy";
const sha256 = (text: string): string => createHash("sha256").update(text, "utf8").digest("hex");
const now = (): string => new Date().toISOString();
/** The journal is shortened once it is so long, and so many times its shortest. */
const longJournal = 1_000_000;
const manyTimes = 4;

/**
 * A project's folder that several pages and other programs change at the same time. Whatever is accepted is in the journal, on disk, before
 * the answer; it is in its file when its gesture is done. Nothing is written over a text that was not seen.
 */
export class SharedFolder {
  private readonly folder: string;
  private readonly disk: Disk;
  private readonly lock: Lock;
  private readonly journal: JournalFile;
  private readonly texts: FolderTexts;
  private readonly watcher: Watcher;
  private readonly patience: Patience;
  private readonly tell: (told: Told) => void;
  private readonly locked = new Map<string, string>();
  private readonly trouble = new Map<string, string>();
  /** What was seen on disk, is not what was known, and may not be finished. */
  private readonly unsettled = new Map<string, { readonly text: string | undefined; readonly since: number }>();
  /** Files of gestures that are not done. */
  private readonly going = new Map<string, { readonly files: ReadonlySet<string>; readonly timer: NodeJS.Timeout }>();
  private shortest: number;
  private isClosed = false;

  /** Throws CallError where there is no such folder, or another server has it. A folder without a project is one that has not begun. `say` tells what was done about an earlier crash. */
  constructor(
    folder: string,
    tell: (told: Told) => void,
    say: (line: string) => void = () => {},
    patience: Patience = usualPatience,
  ) {
    if (!existsSync(folder) || !statSync(folder).isDirectory()) throw new CallError(`There is no folder "${folder}".`);
    this.folder = realpathSync(folder);
    this.tell = tell;
    this.patience = patience;
    const inner = makeCorner(this.folder, folder);
    this.lock = Lock.take(inner, folder);
    try {
      this.disk = new Disk(this.folder);
      for (const process of this.lock.left) this.disk.sweep(process);
      const path = join(inner, "journal");
      const begun = begin(path, say);
      this.journal = begun.journal;
      this.texts = begun.texts;
      this.shortest = journalText(this.texts.snapshot()).length;
      this.meetDisk(say);
    } catch (e) {
      this.lock.release();
      throw e;
    }
    this.watcher = new Watcher(this.folder, () => this.look(), Math.min(30, patience.settle), patience.look);
    this.writeIdle();
  }

  state(): SharedState {
    const files = this.texts
      .all()
      .filter(({ there }) => there)
      .map(({ file, version, hash, text, written }) => {
        const locked = this.locked.get(file);
        return { file, version, hash, text, written, ...(locked === undefined ? {} : { locked }) };
      });
    const known = new Set(files.map(({ file }) => file));
    for (const [file, locked] of this.locked)
      if (!known.has(file)) files.push({ file, version: 0, hash: "", text: "", written: true, locked });
    return {
      project: basename(this.folder),
      files,
      offered: this.offered(),
      trouble: this.troubles(),
      history: this.texts.depth,
    };
  }
  edit(wish: EditWish): Answer {
    const locked = this.locked.get(wish.file);
    if (locked !== undefined) return { refused: "locked", words: locked, file: wish.file };
    const decision = this.texts.edit(wish, now());
    if ("refused" in decision) return decision;
    const changes = decision.again ? [decision.again] : this.note(decision);
    if (wish.done) this.finish(wish.gesture, wish.file);
    else this.goOn(wish.gesture, wish.file);
    return { changes };
  }
  undo(): Answer {
    return this.wind(this.texts.undo(now()));
  }
  redo(): Answer {
    return this.wind(this.texts.redo(now()));
  }
  /** Leaves out a gesture that could not be undone. */
  skip(of: "undo" | "redo", gesture: string): Answer {
    const decision = this.texts.skip(of, gesture);
    if ("refused" in decision) return decision;
    this.note(decision);
    this.tell({ event: "history", data: this.texts.depth });
    return { changes: [] };
  }
  answer(id: string, take: boolean): Answer {
    const file = this.texts.offers.find((offer) => offer.id === id)?.file ?? "";
    const locked = this.locked.get(file);
    if (take && locked !== undefined) return { refused: "locked", words: locked, file };
    const decision = this.texts.answer(id, take, now());
    if ("refused" in decision) return decision;
    const changes = this.note(decision);
    this.tell({ event: "offered", data: { offered: this.offered() } });
    for (const change of changes) this.write(change.file);
    return { changes };
  }
  /**
   * Puts the texts of an example into a folder that has no project, as one step of undo. A file that is there is left alone, and all is refused.
   * The rows of its logs are put there first, where there are none: they are no texts, and undo leaves them.
   */
  begin(texts: ReadonlyMap<string, string>, raw: ReadonlyMap<string, Uint8Array> = new Map()): Answer {
    if (this.texts.now("project.yaml")?.there)
      return { refused: "exists", words: "There is a project in this folder already.", file: "project.yaml" };
    const there = [...texts.keys()].find((file) => this.texts.now(file)?.there || this.locked.has(file));
    if (there !== undefined)
      return { refused: "exists", words: `There is a file ${there} already; nothing was written.`, file: there };
    for (const [file, bytes] of raw)
      try {
        this.disk.add(file, bytes);
      } catch (e) {
        this.say(file, `${file} cannot be written: ${(e as Error).message}`);
      }
    const gesture = `begin ${randomBytes(6).toString("hex")}`;
    const changes: FileChange[] = [];
    for (const [file, text] of texts) {
      const wish = { file, base: null, changes: [[0, ...text.split("\n")]], gesture, done: false };
      const decision = this.texts.edit(wish, now());
      if ("refused" in decision) return decision;
      changes.push(...this.note(decision));
      this.goOn(gesture, file);
    }
    this.finish(gesture);
    return { changes };
  }
  get depth(): FolderTexts["depth"] {
    return this.texts.depth;
  }
  isWritten(file: string): boolean {
    return this.texts.now(file)?.written ?? true;
  }

  /** Looks at the folder now: takes changes from outside that have settled, and writes what is waiting for nothing. */
  look(): void {
    if (this.isClosed) return;
    const seen = this.disk.look();
    this.say("", seen ? undefined : `The folder ${this.folder} cannot be seen.`);
    if (!seen) return;
    this.takeLocks(seen);
    let next = Number.POSITIVE_INFINITY;
    for (const [file, found] of this.met(seen)) next = Math.min(next, this.lookAt(file, found));
    if (Number.isFinite(next)) this.watcher.again(Math.max(5, next));
    this.writeIdle();
  }
  /** Writes what there is to write, shortens the journal and lets the folder go. */
  close(): void {
    if (this.isClosed) return;
    for (const { timer } of this.going.values()) clearTimeout(timer);
    this.going.clear();
    this.writeIdle();
    this.isClosed = true;
    this.watcher.close();
    try {
      this.shorten();
    } catch (e) {
      // The journal is as long as it was, and as good.
      if (!(e instanceof JournalError)) throw e;
    } finally {
      this.journal.close();
      this.lock.release();
    }
  }

  // Happenings.

  /** Puts records into the journal, then takes them, then tells everybody. Throws JournalError, and has done nothing, where the first fails. */
  private note({ records, keep }: Decision, settled = true): FileChange[] {
    if (keep) this.append(journalText(records), settled);
    const changes = records.flatMap((record) => this.texts.take(record));
    for (const change of changes) this.tell({ event: "change", data: { ...change, history: this.texts.depth } });
    if (this.journal.size > Math.max(longJournal, manyTimes * this.shortest)) this.shorten();
    return changes;
  }
  private append(text: string, settled: boolean): void {
    if (this.journal.isLost) {
      // Somebody has cleared our corner away under us: it is made again from what is known.
      makeCorner(this.folder, this.folder);
      if (!this.lock.renew()) throw new JournalError("Another server has this folder since; end this one.");
      this.shorten();
    }
    this.journal.append(text, settled);
  }
  private shorten(): void {
    const text = journalText(this.texts.snapshot());
    this.journal.replace(text);
    this.texts.shortened();
    this.shortest = this.journal.size;
  }
  private wind(decision: Decision | Refusal): Answer {
    if ("refused" in decision) return decision;
    const changes = this.note(decision);
    for (const { gesture } of changes) if (gesture !== undefined) this.finish(gesture);
    for (const { file } of changes) this.write(file);
    return { changes };
  }
  private goOn(gesture: string, file: string): void {
    const known = this.going.get(gesture);
    clearTimeout(known?.timer);
    const timer = setTimeout(() => this.finish(gesture), this.patience.idle).unref();
    this.going.set(gesture, { files: new Set([...(known?.files ?? []), file]), timer });
  }
  private finish(gesture: string, file?: string): void {
    const known = this.going.get(gesture);
    clearTimeout(known?.timer);
    this.going.delete(gesture);
    for (const one of new Set([...(known?.files ?? []), ...(file === undefined ? [] : [file])])) this.write(one);
  }

  // Disk to texts.

  /** The first look: nobody has watched since the journal was written. */
  private meetDisk(say: (line: string) => void): void {
    const seen = this.disk.look();
    if (!seen) throw new CallError(`The folder ${this.folder} cannot be seen.`);
    this.takeLocks(seen);
    const offered = this.texts.offers.length;
    const restored = this.texts.all().filter(({ written }) => !written);
    for (const [file, found] of this.met(seen)) this.note(this.texts.onDisk(file, found, now(), true));
    for (const { file } of restored)
      if (this.texts.now(file)?.written === false) say(`${file}: what was not written yet is restored.`);
    if (this.texts.offers.length > offered)
      say("Changes that were not written fit their files no more; the page offers them.");
  }
  /** Gives the time until this file has to be looked at again. */
  private lookAt(file: string, found: string | undefined): number {
    const known = this.texts.disk(file);
    if (found === known) {
      this.unsettled.delete(file);
      return Number.POSITIVE_INFINITY;
    }
    const before = this.unsettled.get(file);
    const since = before && before.text === found ? before.since : performance.now();
    this.unsettled.set(file, { text: found, since });
    const isDoubtful = found === undefined || found === "" || (known ?? "").startsWith(found);
    const left = since + (isDoubtful ? this.patience.doubt : this.patience.settle) - performance.now();
    if (left > 0) return left;
    const offered = this.texts.offers.length;
    try {
      this.note(this.texts.onDisk(file, found, now(), false));
    } catch (e) {
      if (!(e instanceof JournalError)) throw e;
      this.say(file, e.message);
      return this.patience.look;
    }
    this.unsettled.delete(file);
    if (this.texts.offers.length > offered) this.tell({ event: "offered", data: { offered: this.offered() } });
    return Number.POSITIVE_INFINITY;
  }
  /** Texts on disk by file, undefined where one is gone; without those that cannot be read. */
  private met(seen: ReadonlyMap<string, DiskFile>): Map<string, string | undefined> {
    const met = new Map<string, string | undefined>(this.texts.all().map(({ file }) => [file, undefined]));
    for (const [file, { text }] of seen) {
      if (text === undefined) met.delete(file);
      else met.set(file, text);
    }
    return met;
  }
  private takeLocks(seen: ReadonlyMap<string, DiskFile>): void {
    this.locked.clear();
    for (const [file, { locked }] of seen) if (locked !== undefined) this.locked.set(file, locked);
  }

  // Texts to disk.

  /** Writes all files that no gesture holds open. */
  private writeIdle(): void {
    const held = new Set([...this.going.values()].flatMap(({ files }) => [...files]));
    for (const { file, written } of this.texts.all()) if (!written && !held.has(file)) this.write(file);
  }
  /** Writes a file. Where it cannot be done it stays in the journal, and is tried again with the next look. */
  private write(file: string): void {
    const one = this.texts.now(file);
    if (!one || one.written || this.locked.has(file) || this.unsettled.has(file)) return;
    const before = this.texts.disk(file);
    try {
      // What was there already and what must not be there: nothing to do.
      const done = one.there
        ? this.disk.write(file, one.text, before)
        : before === undefined || this.disk.remove(file, before);
      if (done) {
        this.note(this.texts.written(file), false);
        this.unsettled.delete(file);
        this.tell({ event: "written", data: { file, hash: one.hash } });
        this.say(file, undefined);
      } else this.watcher.again(5);
    } catch (e) {
      this.say(file, `${file} cannot be written: ${(e as Error).message}`);
    }
  }

  private say(file: string, words: string | undefined): void {
    if (this.trouble.get(file) === words) return;
    if (words === undefined) this.trouble.delete(file);
    else this.trouble.set(file, words);
    this.tell({ event: "trouble", data: { trouble: this.troubles() } });
  }
  private troubles(): Trouble[] {
    return [...this.trouble].map(([file, words]) => ({ file, words }));
  }
  private offered(): Offer[] {
    return this.texts.offers.map(({ is: _, ...offer }) => offer);
  }
}

/** Our corner of a folder, out of the way of version control. */
function makeCorner(folder: string, named: string): string {
  const inner = join(folder, corner);
  try {
    mkdirSync(inner, { recursive: true, mode: 0o700 });
    if (!lstatSync(inner).isDirectory()) throw new Error(`${inner} is no folder`);
    const ignore = join(inner, ".gitignore");
    if (!existsSync(ignore)) writeFileSync(ignore, "*\n", { flag: "wx" });
    return inner;
  } catch (e) {
    throw new CallError(`"${named}" cannot be opened: ${(e as Error).message}`);
  }
}
/** Reads the journal; what cannot be understood of it is put aside, not thrown away. */
function begin(path: string, say: (line: string) => void): { journal: JournalFile; texts: FolderTexts } {
  const journal = JournalFile.open(path);
  const { records, whole, fault } = readJournal(journal.read());
  const { texts, taken, why } = replayed(records, sha256);
  const wrong = fault ?? (why === undefined ? undefined : { line: taken + 1, why });
  if (wrong) {
    const aside = `${path}.${randomBytes(4).toString("hex")}`;
    journal.close();
    renameSync(path, aside);
    say(`Line ${wrong.line} of the journal makes no sense (${wrong.why}). It was put aside as ${aside}.`);
    const fresh = JournalFile.open(path);
    fresh.replace(journalText(texts.snapshot()));
    texts.shortened();
    return { journal: fresh, texts };
  }
  const length = Buffer.byteLength(whole);
  if (length < journal.size) journal.cutTo(length);
  if (records.length === 0) journal.append(journalText([journalHead]));
  return { journal, texts };
}
