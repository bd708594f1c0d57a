import { ChangeSet } from "@codemirror/state";
import fc from "fast-check";
import { expect, test } from "vitest";
import { changed, textOf, toJson } from "./changes.ts";
import { type Decision, FolderTexts, type Refusal, replayed } from "./folder-texts.ts";
import { type JournalRecord, journalHead, journalText, readJournal } from "./record.ts";
import { anySpot, anyText, changeAt, sha256, when } from "./text.fixture.ts";

const files = ["units/wren.yaml", "bench/T-01.yaml"] as const;
const slots = 3;

/** Texts, a disk and a journal, with the crashes of all three. */
class World {
  texts = new FolderTexts(sha256);
  readonly disk = new Map<string, string>();
  journal = journalText([journalHead]);
  constructor(texts: readonly string[]) {
    files.forEach((file, i) => {
      this.disk.set(file, texts[i]!);
    });
    this.look(true);
  }
  do(decision: Decision | Refusal): boolean {
    if ("refused" in decision) return false;
    this.note(decision);
    return true;
  }
  private note({ records, keep }: Decision): void {
    if (keep) this.journal += journalText(records);
    for (const record of records) this.texts.take(record);
  }
  look(cold: boolean): void {
    for (const file of files) this.note(this.texts.onDisk(file, this.disk.get(file), when, cold));
  }
  /** `noted` says whether the process lived long enough to note that it wrote. */
  write(file: string, noted = true): void {
    const now = this.texts.now(file)!;
    this.disk.set(file, now.text);
    if (noted) this.note(this.texts.written(file));
  }
  crash(torn: JournalRecord): void {
    const line = journalText([torn]);
    const read = readJournal(this.journal + line.slice(0, line.length - 3));
    expect(read.fault).toBeUndefined();
    this.journal = read.whole;
    this.begin(read.records);
  }
  shorten(): void {
    this.journal = journalText(this.texts.snapshot());
    this.texts.shortened();
  }
  private begin(records: readonly JournalRecord[]): void {
    const { texts, why } = replayed(records, sha256);
    expect(why).toBeUndefined();
    this.texts = texts;
    this.look(true);
  }
}

/** What a page did to one line of ours: its own words and the lines it put above. */
interface Ours {
  readonly above: readonly string[];
  readonly word: string;
  /** Which edit last changed the line itself. */
  readonly touched: number;
}
type Page = readonly (readonly Ours[])[];
const ourText = ({ above, word }: Ours, i: number): string =>
  [...above.map((a) => `${a}\n`), `ours ${i}: ${word}\n`].join("");

const step = fc.record({
  what: fc.constantFrom(
    "change",
    "change",
    "change",
    "insert",
    "stale",
    "outside",
    "outside in",
    "undo",
    "undo",
    "redo",
    "write",
    "crash",
    "shorten",
    "late",
  ),
  file: fc.nat(1),
  slot: fc.nat(slots - 1),
  token: fc.nat(99),
  gesture: fc.nat(3),
  done: fc.boolean(),
});

// Page edits keep to lines called `ours`, the others' to lines called `theirs`, both may put lines above their own. A list of slots that knows
// nothing of characters, mapping or versions says what every text must be. [independent way]
test("page edits, outside edits, undo, redo, crashes and restarts in any order: every text is what a plain list of lines says", () => {
  const seen = new Map<string, number>();
  const count = (what: string) => seen.set(what, (seen.get(what) ?? 0) + 1);
  fc.assert(
    fc.property(fc.array(step, { minLength: 20, maxLength: 60 }), (steps) => {
      let page: Page = files.map(() => Array.from({ length: slots }, () => ({ above: [], word: "0", touched: 0 })));
      const firstPage = page;
      const theirs: string[][] = files.map(() => Array.from({ length: slots }, (_, i) => `theirs ${i}: 0\n`));
      const textOfFile = (of: Page, f: number): string =>
        of[f]!.map((ours, i) => ourText(ours, i) + theirs[f]![i]!).join("");
      const world = new World(files.map((_, f) => textOfFile(page, f)));
      const undo: { gesture: string; before: Page; after: Page }[] = [];
      let redo: typeof undo = [];
      let going = "";
      let edits = 0;
      /** Every text since the last undo or crash, and how many edits there had been when it was last the present one. */
      const known = files.map(() => new Map<string, number>());
      const forget = () => {
        for (const texts of known) texts.clear();
      };
      /** The page's lines as they were when the file was written. */
      const written: Page[] = files.map(() => page);

      const accept = (f: number, slot: number, ours: Ours, gesture: string, done: boolean) => {
        const after = page.map((all, g) => (g === f ? all.map((one, i) => (i === slot ? ours : one)) : all));
        const top = undo.at(-1);
        if (top && going === gesture) undo[undo.length - 1] = { ...top, after };
        else undo.push({ gesture, before: page, after });
        going = done ? "" : gesture;
        redo = [];
        page = after;
        // A gesture that came back to where it began is no step.
        const words = (of: Page) => files.map((_, g) => textOfFile(of, g)).join();
        if (done && words(undo.at(-1)!.before) === words(page)) undo.pop();
      };
      const check = () => {
        files.forEach((file, f) => {
          expect(world.texts.now(file)!.text).toBe(textOfFile(page, f));
        });
        expect(world.texts.depth).toEqual({ undo: undo.length, redo: redo.length });
        expect(world.texts.offers).toEqual([]);
      };
      /** Everything was written: only then may others write while nobody watches. */
      const writeAll = () =>
        files.forEach((file, f) => {
          world.write(file);
          written[f] = page;
        });

      for (const { what, file: f, slot, token, gesture: g, done } of steps) {
        const file = files[f]!;
        const gesture = `g${g}`;
        const text = world.texts.now(file)!.text;
        const ours = page[f]![slot]!;
        known[f]!.set(text, edits);
        const edit = (of: string, old: string, fresh: string): boolean => {
          const from = of.indexOf(old);
          const changes = ChangeSet.of({ from, to: from + old.length, insert: textOf(fresh) }, of.length);
          return world.do(world.texts.edit({ file, base: sha256(of), changes: toJson(changes), gesture, done }, when));
        };
        count(what);
        if (what === "change") {
          edits++;
          expect(edit(text, `ours ${slot}: ${ours.word}`, `ours ${slot}: ${token}`)).toBe(true);
          accept(f, slot, { ...ours, word: `${token}`, touched: edits }, gesture, done);
        } else if (what === "insert") {
          edits++;
          expect(edit(text, `ours ${slot}: `, `ours+ ${edits}\nours ${slot}: `)).toBe(true);
          accept(f, slot, { ...ours, above: [...ours.above, `ours+ ${edits}`], touched: edits }, gesture, done);
        } else if (what === "stale") {
          const texts = [...known[f]!];
          const [old, then] = texts[token % texts.length]!;
          const line = new RegExp(`ours ${slot}: .*`).exec(old)![0];
          const free = ours.touched <= then;
          edits++;
          const taken = edit(old, line, `ours ${slot}: ${token}`);
          expect([taken, text, old]).toEqual([free, text, old]);
          count(taken ? (old === text ? "present taken" : "stale taken") : "stale refused");
          if (taken) accept(f, slot, { ...ours, word: `${token}`, touched: edits }, gesture, done);
        } else if (what === "outside" || what === "outside in") {
          const lines = theirs[f]!;
          lines[slot] =
            what === "outside" ? lines[slot]!.replace(/: .*\n$/, `: ${token}\n`) : `theirs+ ${token}\n${lines[slot]!}`;
          world.disk.set(file, textOfFile(written[f]!, f));
          world.look(false);
        } else if (what === "undo" || what === "redo") {
          const [from, to] = what === "undo" ? [undo, redo] : [redo, undo];
          const top = from.pop();
          expect(world.do(what === "undo" ? world.texts.undo(when) : world.texts.redo(when))).toBe(top !== undefined);
          if (!top) continue;
          to.push(top);
          page = what === "undo" ? top.before : top.after;
          edits++;
          // The list does not know which lines that touched.
          forget();
          page = page.map((all) => all.map((one) => ({ ...one, touched: edits })));
          going = "";
        } else if (what === "write") {
          world.write(file);
          written[f] = page;
        } else if (what === "crash") {
          // A file may have been written and the note of it lost; the journal's last line is torn.
          if (done) {
            world.write(file, false);
            written[f] = page;
          }
          world.crash({ is: "skip", of: "undo", gesture: "half a line" });
          forget();
        } else if (what === "shorten") {
          world.shorten();
        } else {
          // Others write while nobody watches.
          writeAll();
          theirs[f]![slot] = theirs[f]![slot]!.replace(/: .*\n$/, `: ${token}\n`);
          world.disk.set(file, textOfFile(written[f]!, f));
          world.crash({ is: "answer", id: "half a line", take: true });
          forget();
        }
        check();
      }
      while (undo.length > 0) {
        undo.pop();
        expect(world.do(world.texts.undo(when))).toBe(true);
      }
      files.forEach((file, f) => {
        expect(world.texts.now(file)!.text).toBe(textOfFile(firstPage, f));
      });
    }),
    { seed: 21, numRuns: 250 },
  );
  for (const what of ["stale taken", "stale refused", "undo", "redo", "crash", "late"])
    expect(seen.get(what) ?? 0, what).toBeGreaterThan(50);
});

const wild = fc.record({
  what: fc.constantFrom(
    "edit",
    "edit",
    "edit",
    "outside",
    "undo",
    "redo",
    "skip",
    "write",
    "crash",
    "shorten",
    "remove",
    "answer",
  ),
  file: fc.nat(1),
  spot: anySpot,
  gesture: fc.nat(2),
  done: fc.boolean(),
});
test("with edits anywhere, no accepted text is lost without an offer, a clash changes nothing, and undo leads back where nobody else wrote", () => {
  const seen = new Map<string, number>();
  const count = (what: string) => seen.set(what, (seen.get(what) ?? 0) + 1);
  fc.assert(
    fc.property(anyText, anyText, fc.array(wild, { minLength: 10, maxLength: 50 }), (a, b, steps) => {
      const world = new World([a, b]);
      const nowOf = (file: string) =>
        world.texts.now(file) ?? { text: "", there: false, written: true, version: 0, hash: sha256("") };
      let othersWrote = false;
      const state = () => ({
        texts: files.map(nowOf).map(({ text, there, written }) => ({ text: there ? text : "", there, written })),
        depth: world.texts.depth,
        offers: world.texts.offers,
      });
      for (const { what, file: f, spot, gesture, done } of steps) {
        const file = files[f]!;
        const now = nowOf(file);
        const before = state();
        count(what);
        if (what === "edit" && now.there) {
          const changes = changeAt(now.text, spot);
          const wish = { file, base: now.hash, changes: toJson(changes), gesture: `g${gesture}`, done };
          expect(world.do(world.texts.edit(wish, when))).toBe(true);
          expect(world.texts.now(file)!.text).toBe(changed(now.text, changes));
        } else if (what === "outside" || what === "remove") {
          const disk = world.disk.get(file);
          if (what === "remove") world.disk.delete(file);
          else world.disk.set(file, changed(disk ?? "", changeAt(disk ?? "", spot)));
          othersWrote = true;
          const offers = world.texts.offers.length;
          world.look(false);
          const after = nowOf(file);
          // Either nothing was waiting, or it still is, or it is offered.
          const stillWaits = !after.written || after.text === now.text;
          const isOffered = world.texts.offers.some((offer) => offer.file === file && offer.text === now.text);
          if (!now.written && now.there) expect(stillWaits || isOffered).toBe(true);
          if (world.texts.offers.length > offers) count("set aside");
        } else if (what === "undo" || what === "redo") {
          const decision = what === "undo" ? world.texts.undo(when) : world.texts.redo(when);
          if (!world.do(decision)) {
            expect(state()).toEqual(before);
            if ("refused" in decision && decision.gesture !== undefined) count("clash");
          }
        } else if (what === "skip") {
          const clash = world.texts.undo(when);
          if ("refused" in clash && clash.gesture !== undefined) world.do(world.texts.skip("undo", clash.gesture));
        } else if (what === "write") {
          if (now.there) world.disk.set(file, now.text);
          else world.disk.delete(file);
          world.do(world.texts.written(file));
        } else if (what === "crash") {
          world.crash({ is: "skip", of: "undo", gesture: "half a line" });
          expect(state()).toEqual(before);
        } else if (what === "shorten") {
          world.shorten();
          expect(state()).toEqual(before);
        } else if (what === "answer") {
          const [offer] = world.texts.offers;
          if (!offer) continue;
          world.do(world.texts.answer(offer.id, done, when));
          if (done) expect(world.texts.now(offer.file)!.text).toBe(offer.text);
        }
      }
      // What clashes is left out; everything else comes back.
      while (world.texts.depth.undo > 0)
        if (!world.do(world.texts.undo(when))) {
          expect(othersWrote).toBe(true);
          const clash = world.texts.undo(when);
          if ("refused" in clash) expect(world.do(world.texts.skip("undo", clash.gesture!))).toBe(true);
        }
      if (!othersWrote) expect(files.map((file) => world.texts.now(file)!.text)).toEqual([a, b]);
    }),
    { seed: 22, numRuns: 400 },
  );
  for (const what of ["set aside", "clash", "crash", "answer"]) expect(seen.get(what) ?? 0, what).toBeGreaterThan(50);
});
