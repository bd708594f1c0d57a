import { statSync } from "node:fs";
import { lineDiff, toJson } from "@tapeworthy/project";
import fc from "fast-check";
import { expect, test } from "vitest";
import { Folder, first, sha256, wren } from "./open.fixture.ts";
import { type Answer, SharedFolder } from "./shared-folder.ts";

/** Nothing is waited for: what is seen is taken at the next look. */
const atOnce = { settle: 0, doubt: 0, look: 60_000, idle: 60_000 };
const open = (folder: Folder): SharedFolder =>
  new SharedFolder(
    folder.path,
    () => {},
    () => {},
    atOnce,
  );
const edit = (shared: SharedFolder, before: string, after: string, gesture = "g", done = true): Answer =>
  shared.edit({ file: wren, base: sha256(before), changes: toJson(lineDiff(before, after)), gesture, done });
const text = (shared: SharedFolder): string => shared.state().files.find(({ file }) => file === wren)!.text;

const journalSize = (folder: Folder): number => statSync(folder.file(".tapeworthy/journal")).size;
test("a journal that a long drag has filled is shortened on the way, and the drag can be undone after a restart", () => {
  const folder = new Folder();
  const shared = open(folder);
  const long = "x".repeat(20_000);
  let now = first;
  let [noted, longest] = [0, 0];
  for (let i = 0; i < 150; i++) {
    const next = first.replace("two: 2", `two: ${i} ${long}`);
    const before = journalSize(folder);
    edit(shared, now, next, "drag", false);
    noted += Math.max(0, journalSize(folder) - before);
    longest = Math.max(longest, journalSize(folder));
    now = next;
  }
  expect([noted > 2_500_000, longest < 1_050_000]).toEqual([true, true]);
  shared.close();
  // What stays is the text and one step back.
  expect(journalSize(folder)).toBeLessThan(long.length + 1000);
  const again = open(folder);
  expect([folder.read(), again.depth]).toEqual([now, { undo: 1, redo: 0 }]);
  again.undo();
  expect(folder.read()).toBe(first);
  again.close();
  folder.remove();
});
test("two hundred gestures can be undone after a restart, and no more", () => {
  const folder = new Folder();
  const shared = open(folder);
  const version = (i: number): string => (i === 0 ? first : first.replace("two: 2", `two: ${100 + i}`));
  for (let i = 1; i <= 200; i++) edit(shared, version(i - 1), version(i), `g${i}`);
  shared.close();
  const again = open(folder);
  expect(again.depth).toEqual({ undo: 200, redo: 0 });
  for (let i = 200; i > 0; i--) {
    expect(text(again)).toBe(version(i));
    again.undo();
  }
  expect([folder.read(), again.undo()]).toEqual([first, { refused: "nothing", words: "There is nothing to undo." }]);
  again.close();
  folder.remove();
});

const step = fc.record({
  what: fc.constantFrom(
    "edit",
    "edit",
    "edit",
    "drag",
    "outside",
    "outside",
    "undo",
    "undo",
    "redo",
    "look",
    "restart",
    "crash",
  ),
  line: fc.nat(2),
  value: fc.nat(99),
});
// Pages change lines `ours`, others lines `theirs`. What both have said, kept apart, says what the text and the file must be. [independent way]
test("edits, outside edits, undo, redo, restarts and crashes on a real folder: nothing is lost, and undo of all leads back", () => {
  fc.assert(
    fc.property(fc.array(step, { minLength: 12, maxLength: 24 }), (steps) => {
      const theirs = [0, 0, 0];
      let ours = [0, 0, 0];
      let onDisk = ours;
      const whole = (of: readonly number[]) =>
        of.map((v, i) => `ours ${i}: ${v}\ntheirs ${i}: ${theirs[i]}\n`).join("");
      const folder = new Folder({ "project.yaml": "format: 1\n", [wren]: whole(ours) });
      let shared = open(folder);
      const done: { before: number[]; after: number[] }[] = [];
      let undone: typeof done = [];
      let dragging = false;
      const begun = ours;
      const change = (line: number, value: number, isDrag: boolean) => {
        const after = ours.map((v, i) => (i === line ? value : v));
        // The same value again is no change at all.
        const answer = edit(shared, whole(ours), whole(after), isDrag ? "drag" : "g", !isDrag);
        expect("refused" in answer).toBe(false);
        if (value !== ours[line]) {
          const top = done.at(-1);
          if (isDrag && dragging && top) top.after = after;
          else done.push({ before: ours, after });
          undone = [];
          dragging = isDrag;
        }
        ours = after;
        if (!isDrag) onDisk = ours;
      };
      for (const { what, line, value } of steps) {
        if (what === "edit") change(line, value, false);
        else if (what === "drag") change(line, value, true);
        else if (what === "outside") {
          theirs[line] = value;
          folder.write(wren, whole(onDisk));
          shared.look();
        } else if (what === "undo" || what === "redo") {
          const [from, to] = what === "undo" ? [done, undone] : [undone, done];
          const top = from.pop();
          expect("refused" in (what === "undo" ? shared.undo() : shared.redo())).toBe(top === undefined);
          if (!top) continue;
          to.push(top);
          ours = what === "undo" ? top.before : top.after;
          onDisk = ours;
          dragging = false;
        } else if (what === "look") shared.look();
        else {
          if (what === "restart") shared.close();
          else die(shared, folder);
          // Others may write while nobody watches, where everything was written.
          if (what === "restart") {
            onDisk = ours;
            theirs[line] = value;
            folder.write(wren, whole(onDisk));
          }
          shared = open(folder);
          onDisk = ours;
        }
        expect([text(shared), folder.read(), shared.depth]).toEqual([
          whole(ours),
          whole(onDisk),
          { undo: done.length, redo: undone.length },
        ]);
      }
      for (const _ of done) expect("refused" in shared.undo()).toBe(false);
      expect([text(shared), folder.read()]).toEqual([whole(begun), whole(begun)]);
      shared.close();
      folder.remove();
    }),
    { seed: 31, numRuns: 40 },
  );
});
/** Ends a folder's server as SIGKILL would: nothing more is written, and the lock that stays behind says nothing. */
function die(shared: SharedFolder, folder: Folder): void {
  const inside = shared as unknown as {
    watcher: { close(): void };
    journal: { close(): void };
    lock: { release(): void };
    going: Map<string, { timer: NodeJS.Timeout }>;
  };
  inside.watcher.close();
  for (const { timer } of inside.going.values()) clearTimeout(timer);
  inside.journal.close();
  inside.lock.release();
  folder.write(".tapeworthy/lock-1-00000000", "");
}
