import { ChangeSet } from "@codemirror/state";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { changed, textOf } from "./changes.ts";
import { type FileChange, FolderTexts } from "./folder-texts.ts";
import { anySpot, changeAt, sha256, when } from "./text.fixture.ts";
import { TextCopy } from "./text-copy.ts";

const file = "units/wren.yaml";
const first = "one: 1\ntwo: 2\nthree: 3\nfour: 4\n";
const replace = (text: string, old: string, fresh: string): ChangeSet => {
  const from = text.indexOf(old);
  return ChangeSet.of({ from, to: from + old.length, insert: textOf(fresh) }, text.length);
};

/** An original, and what it told of itself. */
class Original {
  readonly texts = new FolderTexts(sha256);
  readonly told: FileChange[] = [];
  constructor() {
    this.outside(first);
    this.told.length = 0;
  }
  outside(text: string): void {
    for (const r of this.texts.onDisk(file, text, when, false).records) this.told.push(...this.texts.take(r));
  }
  /** Takes what a copy sends; undefined where it was refused. */
  edit(sending: { id: string; base: string; changes: unknown }): FileChange | undefined {
    const decision = this.texts.edit({ file, gesture: "g", done: true, ...sending }, when);
    if ("refused" in decision) return undefined;
    const told = decision.records.flatMap((r) => this.texts.take(r));
    for (const r of this.texts.written(file).records) this.texts.take(r);
    this.told.push(...told);
    return told[0];
  }
  get now() {
    return this.texts.now(file)!;
  }
}

describe("a copy", () => {
  test("sends one edit at a time, and what was typed meanwhile with the next", () => {
    const original = new Original();
    const copy = new TextCopy(original.now);
    copy.edit(replace(copy.text, "two: 2", "two: 20"));
    const sent = copy.send("1")!;
    copy.edit(replace(copy.text, "two: 20", "two: 21"));
    copy.edit(replace(copy.text, "two: 21", "two: 22"));
    expect(copy.send("2")).toBeUndefined();
    expect(copy.receive(original.edit(sent)!).changes.empty).toBe(true);
    const next = copy.send("2")!;
    expect(changed(original.now.text, ChangeSet.fromJSON(next.changes))).toBe(first.replace("two: 2", "two: 22"));
    copy.receive(original.edit(next)!);
    expect([copy.isSettled, copy.hash, copy.text]).toEqual([true, original.now.hash, original.now.text]);
  });
  test("sends the edits of two gestures apart, each led past what comes in before it", () => {
    const original = new Original();
    const copy = new TextCopy(original.now);
    copy.edit(replace(copy.text, "two: 2", "two: 20"), "a");
    const sent = copy.send("1")!;
    copy.edit(replace(copy.text, "three: 3", "three: 30"), "b");
    copy.edit(replace(copy.text, "four: 4", "four: 40"), "c");
    copy.edit(replace(copy.text, "four: 40", "four: 41"), "c");
    expect(copy.unsettled).toEqual(["a", "b", "c"]);
    original.outside(`# new\n${first}`);
    copy.receive(original.told[0]!);
    copy.receive(original.edit(sent)!);
    const [b, none] = [copy.send("2")!, copy.send("3")];
    expect([b.gesture, none]).toEqual(["b", undefined]);
    copy.receive(original.edit(b)!);
    expect(original.now.text).toBe("# new\none: 1\ntwo: 20\nthree: 30\nfour: 4\n");
    const c = copy.send("3")!;
    expect(c.gesture).toBe("c");
    copy.receive(original.edit(c)!);
    expect([copy.isSettled, copy.text]).toEqual([true, "# new\none: 1\ntwo: 20\nthree: 30\nfour: 41\n"]);
    expect(original.now.text).toBe(copy.text);
  });
  test("sends again what may not have arrived, for the original as it has become", () => {
    const original = new Original();
    const copy = new TextCopy(original.now);
    expect(copy.sendAgain()).toBeUndefined();
    copy.edit(replace(copy.text, "two: 2", "two: 20"), "a");
    copy.send("1");
    original.outside(`# new\n${first}`);
    copy.receive(original.told[0]!);
    const again = copy.sendAgain()!;
    expect([again.id, again.base]).toEqual(["1", original.now.hash]);
    copy.receive(original.edit(again)!);
    expect([copy.isSettled, original.now.text]).toEqual([true, `# new\n${first.replace("two: 2", "two: 20")}`]);
  });
  test("keeps what was typed where something comes in for another line", () => {
    const original = new Original();
    const copy = new TextCopy(original.now);
    copy.edit(replace(copy.text, "two: 2", "two: 20"));
    const sent = copy.send("1")!;
    copy.edit(replace(copy.text, "three: 3", "three: 30"));
    original.outside(`# new\n${first}`);
    const before = copy.text;
    const { changes, overtaken } = copy.receive(original.told[0]!);
    expect(overtaken).toBeUndefined();
    expect(changed(before, changes)).toBe(copy.text);
    expect(copy.text).toBe("# new\none: 1\ntwo: 20\nthree: 30\nfour: 4\n");
    copy.receive(original.edit(sent)!);
    copy.receive(original.edit(copy.send("2")!)!);
    expect(original.now.text).toBe(copy.text);
  });
  test("gives way where something comes in for a line that was typed in, and hands the text back", () => {
    const original = new Original();
    const copy = new TextCopy(original.now);
    copy.edit(replace(copy.text, "two: 2", "two: 20"));
    original.outside(first.replace("two: 2", "two: 5"));
    const before = copy.text;
    const { changes, overtaken } = copy.receive(original.told[0]!);
    expect(overtaken).toEqual({ line: 2, yours: first.replace("two: 2", "two: 20"), before: first });
    expect(changed(before, changes)).toBe(first.replace("two: 2", "two: 5"));
    expect(copy.isSettled).toBe(true);
  });
  test("takes an answer that comes before earlier events once those are there", () => {
    const original = new Original();
    const copy = new TextCopy(original.now);
    copy.edit(replace(copy.text, "two: 2", "two: 20"));
    const sent = copy.send("1")!;
    original.outside(`# new\n${first}`);
    const answer = original.edit(sent)!;
    expect(copy.receive(answer).changes.empty).toBe(true);
    expect(copy.isSettled).toBe(false);
    copy.receive(original.told[0]!);
    expect([copy.isSettled, copy.text]).toEqual([true, original.now.text]);
    expect(copy.receive(answer).changes.empty).toBe(true);
    expect(copy.text).toBe(original.now.text);
  });
  test("refused, takes the original and hands the text back; a refusal of something older does nothing", () => {
    const original = new Original();
    const copy = new TextCopy(original.now);
    copy.edit(replace(copy.text, "two: 2", "two: 20"));
    copy.send("1");
    original.outside(first.replace("two: 2", "two: 5"));
    expect(copy.refused("0", original.now).overtaken).toBeUndefined();
    const before = copy.text;
    const { changes, overtaken } = copy.refused("1", original.now);
    expect(overtaken).toEqual({ yours: before, before: first });
    expect([changed(before, changes), copy.text]).toEqual([original.now.text, original.now.text]);
    copy.receive(original.told[0]!);
    expect(copy.text).toBe(original.now.text);
  });
});

test("copies that type at the same time come to the same text, whatever comes when", () => {
  const step = fc.record({
    who: fc.nat(2),
    what: fc.constantFrom("type", "type", "send", "send", "hear", "answer", "outside", "undo"),
    spot: anySpot,
  });
  let [overtakenOnce, taken] = [0, 0];
  fc.assert(
    fc.property(fc.array(step, { minLength: 20, maxLength: 40 }), (steps) => {
      const original = new Original();
      const copies = [0, 1].map(() => ({
        copy: new TextCopy(original.now),
        heard: 0,
        answer: undefined as FileChange | "refused" | undefined,
      }));
      let ids = 0;
      const shown = (one: (typeof copies)[number], act: () => { changes: ChangeSet; overtaken?: unknown }) => {
        const before = one.copy.text;
        const { changes, overtaken } = act();
        if (overtaken) overtakenOnce++;
        expect(changed(before, changes)).toBe(one.copy.text);
      };
      const hear = (one: (typeof copies)[number]) => {
        const next = original.told[one.heard++];
        if (next) shown(one, () => one.copy.receive(next));
        else one.heard--;
      };
      const answer = (one: (typeof copies)[number]) => {
        const { answer } = one;
        one.answer = undefined;
        if (answer === "refused") shown(one, () => one.copy.refused(`${ids}`, original.now));
        else if (answer) shown(one, () => one.copy.receive(answer));
      };
      const send = (one: (typeof copies)[number]) => {
        if (one.answer) return;
        const sending = one.copy.send(`${++ids}`);
        if (!sending) return;
        const told = original.edit(sending);
        if (told) taken++;
        // A refusal is answered at once, so that its id is the last one given.
        one.answer = told ?? "refused";
        if (!told) answer(one);
      };
      for (const { who, what, spot } of steps) {
        const one = copies[who];
        if (!one || what === "outside") original.outside(changed(original.now.text, changeAt(original.now.text, spot)));
        else if (what === "type") one.copy.edit(changeAt(one.copy.text, spot), `g${spot.at % 2}`);
        else if (what === "send") send(one);
        else if (what === "hear") hear(one);
        else if (what === "answer") answer(one);
        else {
          const undo = original.texts.undo(when);
          if (!("refused" in undo)) for (const r of undo.records) original.told.push(...original.texts.take(r));
          for (const r of original.texts.written(file).records) original.texts.take(r);
        }
      }
      for (let round = 0; round < 6; round++)
        for (const one of copies) {
          answer(one);
          while (one.heard < original.told.length) hear(one);
          send(one);
        }
      for (const { copy } of copies)
        expect([copy.isSettled, copy.text, copy.hash]).toEqual([true, original.now.text, original.now.hash]);
    }),
    { seed: 11, numRuns: 600 },
  );
  expect(taken).toBeGreaterThan(300);
  expect(overtakenOnce).toBeGreaterThan(50);
});
