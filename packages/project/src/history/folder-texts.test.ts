import { ChangeSet } from "@codemirror/state";
import { describe, expect, test } from "vitest";
import { textOf, toJson } from "./changes.ts";
import { type Decision, type FileChange, FolderTexts, type Refusal, replayed } from "./folder-texts.ts";
import { type JournalRecord, journalHead, journalText, readJournal } from "./record.ts";
import { sha256, when } from "./text.fixture.ts";

const file = "units/wren.yaml";
const other = "tapes/a-8.yaml";
const first = "one: 1\ntwo: 2\nthree: 3\nfour: 4\n";

/** A folder with one history, and the journal it would have written. */
class Folder {
  texts = new FolderTexts(sha256);
  journal: JournalRecord[] = [journalHead];
  constructor(files: Readonly<Record<string, string>> = { [file]: first, [other]: "a: 1\n" }) {
    for (const [name, text] of Object.entries(files)) this.do(this.texts.onDisk(name, text, when, true));
  }
  do(decision: Decision | Refusal): FileChange[] {
    if ("refused" in decision) throw new Error(`${decision.refused}: ${decision.words}`);
    if (decision.keep) this.journal.push(...decision.records);
    return decision.records.flatMap((record) => this.texts.take(record));
  }
  text(name = file): string | undefined {
    const now = this.texts.now(name);
    return now?.there ? now.text : undefined;
  }
  hash(name = file): string {
    return this.texts.now(name)!.hash;
  }
  /** What an edit that replaces a piece of text by another would be, made for the text as it is or for `of`. */
  wish(old: string, fresh: string, { gesture = "g", done = true, of = this.text()!, name = file, id = "" } = {}) {
    const from = of.indexOf(old);
    if (from < 0) throw new Error(`no "${old}"`);
    const changes = toJson(ChangeSet.of({ from, to: from + old.length, insert: textOf(fresh) }, of.length));
    return { file: name, base: sha256(of), changes, gesture, done, ...(id === "" ? {} : { id }) };
  }
  replace(old: string, fresh: string, options: Parameters<Folder["wish"]>[2] = {}): FileChange[] {
    return this.do(this.texts.edit(this.wish(old, fresh, options), when));
  }
  /** Somebody else changes a file on disk. */
  outside(text: string | undefined, name = file): FileChange[] {
    return this.do(this.texts.onDisk(name, text, when, false));
  }
  undo = (): FileChange[] => this.do(this.texts.undo(when));
  redo = (): FileChange[] => this.do(this.texts.redo(when));
  write(name = file): void {
    this.do(this.texts.written(name));
  }
  /** Begins again from the journal and a disk. */
  restart(disk: Readonly<Record<string, string>>, journal = journalText(this.journal)): void {
    const { texts, why } = replayed(readJournal(journal).records, sha256);
    if (why !== undefined) throw new Error(why);
    this.texts = texts;
    for (const name of new Set([...Object.keys(disk), ...texts.all().map((f) => f.file)]))
      this.do(texts.onDisk(name, disk[name], when, true));
  }
}
const refused = (answer: Decision | Refusal): Refusal => {
  if (!("refused" in answer)) throw new Error("it was not refused");
  return answer;
};

describe("an edit", () => {
  test("changes the text, counts a version and is not written yet", () => {
    const folder = new Folder();
    expect(folder.replace("two: 2", "two: 20")).toEqual([
      {
        file,
        version: 2,
        base: sha256(first),
        hash: sha256("one: 1\ntwo: 20\nthree: 3\nfour: 4\n"),
        there: true,
        changes: [7, [6, "two: 20"], 18],
        by: "edit",
        gesture: "g",
      },
    ]);
    expect(folder.texts.now(file)).toMatchObject({ text: "one: 1\ntwo: 20\nthree: 3\nfour: 4\n", written: false });
    expect(folder.texts.disk(file)).toBe(first);
    folder.write();
    expect(folder.texts.now(file)).toMatchObject({ written: true, version: 2 });
    expect(folder.texts.disk(file)).toBe(folder.text());
  });
  test("made for an older text goes to where its line stands now", () => {
    const folder = new Folder();
    folder.replace("one: 1", "zero: 0\none: 1");
    folder.replace("four: 4", "four: 40");
    const [told] = folder.replace("three: 3", "three: 30", { of: first });
    expect(folder.text()).toBe("zero: 0\none: 1\ntwo: 2\nthree: 30\nfour: 40\n");
    expect(told).toMatchObject({ version: 4, changes: [22, [8, "three: 30"], 10] });
  });
  test("of a line that was changed meanwhile is refused with both texts, and changes nothing", () => {
    const folder = new Folder();
    folder.outside(first.replace("two: 2", "two: 5"));
    const before = folder.texts.now(file)!;
    expect(folder.texts.edit(folder.wish("2", "20", { of: first }), when)).toEqual({
      refused: "conflict",
      words: "units/wren.yaml has changed in line 2 meanwhile.",
      file,
      yours: first.replace("two: 2", "two: 20"),
      theirs: { text: before.text, version: before.version, hash: before.hash },
    });
    expect(folder.texts.now(file)).toEqual(before);
  });
  test("made for a text that came back may be based on it again", () => {
    const folder = new Folder();
    folder.replace("two: 2", "two: 5");
    folder.undo();
    folder.replace("two: 2", "two: 6", { of: first });
    expect(folder.text()).toBe(first.replace("two: 2", "two: 6"));
  });
  test("made for a text that is not known is refused with the file as it is", () => {
    const folder = new Folder();
    const wish = { ...folder.wish("2", "20"), base: sha256("another") };
    expect(refused(folder.texts.edit(wish, when))).toMatchObject({
      refused: "unknown base",
      words: "units/wren.yaml has changed, and the text this edit was made for is not known.",
      theirs: { text: first },
    });
  });
  test("sent twice under one id is taken once, and answered alike", () => {
    const folder = new Folder();
    const wish = folder.wish("2", "20", { id: "7f" });
    const [told] = folder.do(folder.texts.edit(wish, when));
    expect(folder.texts.edit(wish, when)).toEqual({ records: [], keep: false, again: told });
  });
  test.each([
    [
      "of a file that is none of a project's",
      { file: "../wren.yaml" },
      "malformed",
      '"../wren.yaml" is no file of a project.',
    ],
    [
      "of a name that leads elsewhere on another system",
      { file: "units/..\\..\\wren.yaml", base: null },
      "malformed",
      '"units/..\\..\\wren.yaml" is no file of a project.',
    ],
    ["of the journal", { file: ".tapeworthy/journal" }, "malformed", '".tapeworthy/journal" is no file of a project.'],
    ["of a file that is not there", { file: "units/none.yaml" }, "gone", "There is no file units/none.yaml."],
    ["that makes a file which is there", { base: null }, "exists", "There is a file units/wren.yaml already."],
    [
      "for a text of another length",
      { changes: [3] },
      "malformed",
      "units/wren.yaml: the changes are for a text of 3 characters, this one has 31.",
    ],
    [
      "that leaves half a character",
      { changes: [[31, "\ud83d"]] },
      "malformed",
      "units/wren.yaml would hold half a character and could not be saved.",
    ],
    [
      "that makes a text without end",
      { changes: [31, [0, "x".repeat(1_000_001)]] },
      "malformed",
      "units/wren.yaml would be 1000032 characters long; at most 1000000 are kept.",
    ],
  ])("%s is refused", (_, wrong, code, words) => {
    const folder = new Folder();
    expect(refused(folder.texts.edit({ ...folder.wish("2", "20"), ...wrong }, when))).toMatchObject({
      refused: code,
      words,
    });
    expect(folder.text()).toBe(first);
  });
  test("that leaves a file which nobody can parse is taken: the text is the state", () => {
    const folder = new Folder();
    folder.replace(first, "]: {");
    expect(folder.text()).toBe("]: {");
  });
  test("can make a file", () => {
    const folder = new Folder();
    const name = "tapes/new-12.yaml";
    const wish = { file: name, base: null, changes: [[0, "W: 12 mm", ""]], gesture: "new", done: true };
    expect(folder.do(folder.texts.edit(wish, when))).toMatchObject([{ file: name, there: true, version: 1 }]);
    expect(folder.text(name)).toBe("W: 12 mm\n");
    folder.write(name);
    expect(folder.undo()).toMatchObject([{ file: name, there: false, changes: [[9]] }]);
    expect(folder.text(name)).toBeUndefined();
    folder.write(name);
    expect(folder.texts.disk(name)).toBeUndefined();
    expect(folder.redo()).toMatchObject([{ file: name, there: true, changes: [[0, "W: 12 mm", ""]] }]);
    expect(folder.text(name)).toBe("W: 12 mm\n");
  });
});

describe("undo", () => {
  test("takes a gesture back whole, and redo does it again", () => {
    const folder = new Folder();
    for (const [a, b] of ["2 21", "21 22", "22 23", "23 24"].map((pair) => pair.split(" ")))
      folder.replace(`two: ${a}\n`, `two: ${b}\n`, { gesture: "drag", done: false });
    folder.replace("four: 4", "four: 5", { gesture: "next" });
    expect(folder.texts.depth).toEqual({ undo: 2, redo: 0 });
    folder.undo();
    expect(folder.text()).toBe(first.replace("two: 2", "two: 24"));
    folder.undo();
    expect(folder.text()).toBe(first);
    expect(folder.texts.depth).toEqual({ undo: 0, redo: 2 });
    folder.redo();
    expect(folder.text()).toBe(first.replace("two: 2", "two: 24"));
    folder.redo();
    expect(folder.text()).toBe(first.replace("two: 2", "two: 24").replace("four: 4", "four: 5"));
  });
  test("takes a gesture over two files back in both", () => {
    const folder = new Folder();
    folder.replace("two: 2", "two: 20", { gesture: "both", done: false });
    folder.replace("a: 1", "a: 2", { gesture: "both", of: "a: 1\n", name: other });
    expect(folder.undo().map((c) => c.file)).toEqual([other, file]);
    expect([folder.text(), folder.text(other)]).toEqual([first, "a: 1\n"]);
    folder.redo();
    expect(folder.text(other)).toBe("a: 2\n");
  });
  test("tells two gestures of one name apart where the first was done", () => {
    const folder = new Folder();
    folder.replace("two: 2", "two: 3", { gesture: "same" });
    folder.replace("two: 3", "two: 4", { gesture: "same" });
    folder.undo();
    expect(folder.text()).toBe(first.replace("two: 2", "two: 3"));
  });
  test("ends a gesture, so that what follows under its name stands by itself", () => {
    const folder = new Folder();
    folder.replace("two: 2", "two: 3", { gesture: "drag", done: false });
    folder.replace("two: 3", "two: 4", { gesture: "drag", done: false });
    folder.undo();
    folder.replace("two: 2", "two: 7", { gesture: "drag", done: false });
    expect(folder.texts.depth).toEqual({ undo: 1, redo: 0 });
  });
  test("followed by another edit leaves nothing to redo", () => {
    const folder = new Folder();
    folder.replace("two: 2", "two: 3");
    folder.undo();
    folder.replace("two: 2", "two: 9");
    expect(refused(folder.texts.redo(when))).toEqual({ refused: "nothing", words: "There is nothing to redo." });
  });
  test("an edit that only ends its gesture is no step", () => {
    const folder = new Folder();
    folder.replace("two: 2", "two: 3", { gesture: "drag", done: false });
    const none = { file, base: folder.hash(), changes: [31], gesture: "drag", done: true };
    expect(folder.do(folder.texts.edit(none, when))).toEqual([]);
    expect(folder.texts.depth).toEqual({ undo: 1, redo: 0 });
    folder.replace("two: 3", "two: 4", { gesture: "drag" });
    expect(folder.texts.depth).toEqual({ undo: 2, redo: 0 });
  });
  test("knows nothing of a gesture that was given up", () => {
    const folder = new Folder();
    folder.replace("four: 4", "four: 5");
    folder.replace("two: 2", "two: 3", { gesture: "drag", done: false });
    folder.replace("a: 1", "a: 2", { gesture: "drag", of: "a: 1\n", name: other, done: false });
    folder.replace("two: 3", "two: 2", { gesture: "drag", done: false });
    folder.replace("a: 2", "a: 1", { gesture: "drag", of: "a: 2\n", name: other });
    expect(folder.texts.depth).toEqual({ undo: 1, redo: 0 });
    folder.undo();
    expect([folder.text(), folder.text(other)]).toEqual([first, "a: 1\n"]);
  });
  test("goes past what came from outside in other lines, and keeps it", () => {
    const folder = new Folder();
    folder.replace("two: 2", "two: 20");
    folder.replace("three: 3", "three: 30", { gesture: "h" });
    folder.write();
    folder.outside(`# new\n${folder.text()!.replace("four: 4", "four: 44")}`);
    folder.undo();
    folder.undo();
    expect(folder.text()).toBe(`# new\n${first.replace("four: 4", "four: 44")}`);
    folder.outside(`# newer\n${folder.text()}`.replace("one: 1", "one: 11"));
    folder.redo();
    folder.redo();
    expect(folder.text()).toBe("# newer\n# new\none: 11\ntwo: 20\nthree: 30\nfour: 44\n");
  });
  test("of a line that was changed from outside is refused with both texts, and can be left out", () => {
    const folder = new Folder();
    folder.replace("four: 4", "four: 5");
    folder.replace("two: 2", "two: 20", { gesture: "h" });
    folder.write();
    folder.outside(folder.text()!.replace("two: 20", "two: 21"));
    const text = folder.text();
    expect(refused(folder.texts.undo(when))).toMatchObject({
      refused: "conflict",
      words: "units/wren.yaml has been changed in line 2 from outside since, so this cannot be undone.",
      gesture: "h",
      yours: first.replace("four: 4", "four: 5"),
      theirs: { text },
    });
    expect(folder.text()).toBe(text);
    expect(refused(folder.texts.skip("undo", "g")).words).toBe('"g" is not the next to undo.');
    folder.do(folder.texts.skip("undo", "h"));
    folder.undo();
    expect(folder.text()).toBe(first.replace("two: 2", "two: 21"));
  });
  test("of half a gesture is none: where one file clashes the other is left alone too", () => {
    const folder = new Folder();
    folder.replace("two: 2", "two: 20", { gesture: "both", done: false });
    folder.replace("a: 1", "a: 2", { gesture: "both", of: "a: 1\n", name: other });
    folder.write();
    folder.outside(first.replace("two: 2", "two: 21"));
    expect(refused(folder.texts.undo(when)).refused).toBe("conflict");
    expect(folder.text(other)).toBe("a: 2\n");
  });
  test("of a file that is away is refused, and works again once it is back", () => {
    const folder = new Folder();
    folder.replace("two: 2", "two: 20");
    folder.write();
    const text = folder.text()!;
    expect(folder.outside(undefined)).toMatchObject([{ there: false, changes: [[text.length]] }]);
    expect(refused(folder.texts.undo(when))).toMatchObject({
      refused: "gone",
      words: "There is no file units/wren.yaml any more, so this cannot be undone.",
    });
    expect(folder.outside(text)).toMatchObject([{ there: true, version: 4 }]);
    folder.undo();
    expect(folder.text()).toBe(first);
  });
  test("does not remove a file that somebody else has written into since", () => {
    const folder = new Folder();
    const name = "tapes/new.yaml";
    folder.do(
      folder.texts.edit({ file: name, base: null, changes: [[0, "W: 8 mm", ""]], gesture: "n", done: true }, when),
    );
    folder.write(name);
    folder.outside("W: 8 mm\n# mine\n", name);
    expect(refused(folder.texts.undo(when)).words).toBe(
      "tapes/new.yaml has been changed from outside since, so this cannot be undone.",
    );
  });
  test("does not make a file again that is there again", () => {
    const folder = new Folder();
    const name = "tapes/new.yaml";
    folder.do(folder.texts.edit({ file: name, base: null, changes: [[0, "x"]], gesture: "n", done: true }, when));
    folder.write(name);
    folder.undo();
    folder.write(name);
    folder.outside("y", name);
    expect(refused(folder.texts.redo(when))).toMatchObject({
      refused: "exists",
      words: "There is a file tapes/new.yaml again, so this cannot be redone.",
    });
  });
});

describe("a change from outside", () => {
  test("of other lines goes together with what is not written yet", () => {
    const folder = new Folder();
    folder.replace("two: 2", "two: 20", { done: false });
    const told = folder.outside(first.replace("four: 4", "four: 44"));
    expect(told).toMatchObject([{ by: "outside", changes: [24, [8, "four: 44", ""]] }]);
    expect(folder.text()).toBe("one: 1\ntwo: 20\nthree: 3\nfour: 44\n");
    expect(folder.texts.now(file)!.written).toBe(false);
    expect(folder.texts.disk(file)).toBe(first.replace("four: 4", "four: 44"));
    folder.undo();
    expect(folder.text()).toBe(first.replace("four: 4", "four: 44"));
  });
  test("of a line that is not written yet stands, and what was accepted is set aside and offered", () => {
    const folder = new Folder();
    folder.replace("two: 2", "two: 20", { done: false });
    folder.outside(first.replace("two: 2", "two: 5"));
    expect(folder.text()).toBe(first.replace("two: 2", "two: 5"));
    expect(folder.texts.offers).toMatchObject([{ file, when, text: first.replace("two: 2", "two: 20") }]);
    const [offer] = folder.texts.offers;
    folder.do(folder.texts.answer(offer!.id, true, when));
    expect(folder.text()).toBe(first.replace("two: 2", "two: 20"));
    expect(folder.texts.offers).toEqual([]);
    folder.undo();
    expect(folder.text()).toBe(first.replace("two: 2", "two: 5"));
    expect(refused(folder.texts.answer(offer!.id, true, when)).words).toBe("There is no such offer any more.");
  });
  test("that removes a file with something not written yet offers it, and taking it makes the file again", () => {
    const folder = new Folder();
    folder.replace("two: 2", "two: 20", { done: false });
    folder.outside(undefined);
    expect(folder.text()).toBeUndefined();
    folder.do(folder.texts.answer(folder.texts.offers[0]!.id, true, when));
    expect(folder.text()).toBe(first.replace("two: 2", "two: 20"));
    expect(folder.texts.now(file)!.written).toBe(false);
  });
  test("adds a file", () => {
    const folder = new Folder();
    expect(folder.outside("W: 8 mm\n", "tapes/b.yaml")).toMatchObject([
      { file: "tapes/b.yaml", version: 1, there: true, changes: [[0, "W: 8 mm", ""]], by: "outside" },
    ]);
    expect(folder.journal).toHaveLength(1);
  });
  test("that is none tells nothing", () => expect(new Folder().outside(first)).toEqual([]));
  test("that is our own writing tells nothing, even where the note of it was lost", () => {
    const folder = new Folder();
    folder.replace("two: 2", "two: 20");
    expect(folder.outside(folder.text())).toEqual([]);
    expect(folder.texts.now(file)!.written).toBe(true);
  });
});

describe("after a crash", () => {
  test("a gesture that was not done is there, and can be undone", () => {
    const folder = new Folder();
    folder.replace("four: 4", "four: 5");
    folder.write();
    const disk = { [file]: folder.text()!, [other]: "a: 1\n" };
    folder.replace("two: 2", "two: 20", { gesture: "drag", done: false });
    folder.replace("two: 20", "two: 21", { gesture: "drag", done: false });
    folder.restart(disk);
    expect(folder.text()).toBe("one: 1\ntwo: 21\nthree: 3\nfour: 5\n");
    expect(folder.texts.now(file)!.written).toBe(false);
    folder.undo();
    expect(folder.text()).toBe(disk[file]);
    folder.undo();
    expect(folder.text()).toBe(first);
  });
  test("a file that was written just before the note of it is taken as written", () => {
    const folder = new Folder();
    folder.replace("two: 2", "two: 20");
    folder.restart({ [file]: folder.text()!, [other]: "a: 1\n" });
    expect(folder.texts.now(file)).toMatchObject({ text: first.replace("two: 2", "two: 20"), written: true });
    expect(folder.texts.offers).toEqual([]);
  });
  test("what fits the disk's text no more is offered, not put onto it", () => {
    const folder = new Folder();
    folder.replace("two: 2", "two: 20");
    const mine = folder.text()!;
    folder.restart({ [file]: first.replace("four: 4", "four: 44"), [other]: "a: 1\n" });
    expect(folder.text()).toBe(first.replace("four: 4", "four: 44"));
    expect(folder.texts.offers).toMatchObject([{ file, when, text: mine }]);
    folder.restart({ [file]: folder.text()!, [other]: "a: 1\n" });
    expect(folder.texts.offers).toHaveLength(1);
    folder.do(folder.texts.answer(folder.texts.offers[0]!.id, false, when));
    folder.restart({ [file]: folder.text()!, [other]: "a: 1\n" });
    expect(folder.texts.offers).toEqual([]);
    expect(folder.text()).toBe(first.replace("four: 4", "four: 44"));
  });
  test("what was changed while nobody watched is a change from outside where everything was written", () => {
    const folder = new Folder();
    folder.replace("two: 2", "two: 20");
    folder.write();
    folder.restart({ [file]: `# new\n${folder.text()}`, [other]: "a: 1\n" });
    expect(folder.texts.offers).toEqual([]);
    folder.undo();
    expect(folder.text()).toBe(`# new\n${first}`);
  });
  test("a removal that was carried out just before the note of it is taken as written", () => {
    const folder = new Folder({});
    folder.do(folder.texts.edit({ file, base: null, changes: [[0, "x"]], gesture: "n", done: true }, when));
    folder.write();
    folder.undo();
    folder.restart({});
    expect(folder.texts.now(file)).toMatchObject({ there: false, written: true });
    folder.redo();
    expect(folder.text()).toBe("x");
  });
  test("a journal that does not fit itself is taken up to there, and the reason is given", () => {
    const folder = new Folder();
    folder.replace("two: 2", "two: 20");
    folder.replace("four: 4", "four: 5", { gesture: "h" });
    const wrong = folder.journal.map((r) => (r.is === "edit" && r.gesture === "h" ? { ...r, hash: sha256("") } : r));
    const { texts, taken, why } = replayed(wrong, sha256);
    expect([taken, why]).toEqual([3, "units/wren.yaml is another after a change"]);
    expect(texts.now(file)!.text).toBe(first.replace("two: 2", "two: 20"));
  });
  test("steps that do not hang together are not taken", () => {
    const step: JournalRecord = { is: "step", of: "undo", file, gesture: "g", group: 1, changes: [5] };
    const base: JournalRecord = { is: "base", file, text: "four", there: true, ahead: [] };
    expect(replayed([journalHead, base, step], sha256)).toMatchObject({
      taken: 0,
      why: "its steps do not hang together",
    });
    expect(replayed([journalHead, base, { ...step, changes: [4] }], sha256).why).toBeUndefined();
  });
});

test("a shortened journal leads to the same texts, steps and offers", () => {
  const folder = new Folder();
  folder.replace("two: 2", "two: 20");
  folder.write();
  folder.outside(`# new\n${folder.text()}`);
  folder.replace("three: 3", "three: 30", { gesture: "h", done: false });
  folder.replace("a: 1", "a: 2", { gesture: "i", of: "a: 1\n", name: other });
  folder.undo();
  const short = journalText(folder.texts.snapshot());
  const { texts, why } = replayed(readJournal(short).records, sha256);
  expect(why).toBeUndefined();
  const state = (t: FolderTexts) => [t.now(file)!.text, t.now(file)!.written, t.now(other)!.text, t.depth, t.offers];
  expect(state(texts)).toEqual(state(folder.texts));
  expect(texts.snapshot()).toEqual(folder.texts.snapshot());
  for (const t of [texts, folder.texts]) {
    for (const record of (t.redo(when) as Decision).records) t.take(record);
    for (let i = 0; i < 3; i++) for (const record of (t.undo(when) as Decision).records) t.take(record);
  }
  expect(texts.now(file)!.text).toBe(`# new\n${first}`);
  expect(folder.texts.now(file)!.text).toBe(`# new\n${first}`);
  expect(texts.now(other)!.text).toBe("a: 1\n");
});
test("a thousand edits later the text they were made for is forgotten, and the edit is refused", () => {
  const folder = new Folder();
  for (let i = 0; i < 1001; i++)
    folder.replace(/two: \d+/.exec(folder.text()!)![0], `two: ${100 + i}`, { done: false });
  expect(refused(folder.texts.edit(folder.wish("four: 4", "four: 5", { of: first }), when)).refused).toBe(
    "unknown base",
  );
  folder.undo();
  expect(folder.text()).toBe(first);
});
