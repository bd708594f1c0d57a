import { type Frozen, scored } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { applied } from "./edit.ts";
import { showError } from "./error.ts";
import { apartEdit, canonicalTexts, frozenEdit, keyedEdit, nextId, scoredEdit, takenEdit } from "./ledger-edit.ts";
import { readLedger } from "./ledger-read.ts";

const frozen: Frozen = {
  id: "L-01",
  trial: "T-01",
  question: "tapes/so8-12/film.seal",
  unit: "plover",
  tape: "so8-12",
  predicted: { median: 0.4, low: 0.2, high: 0.8 },
  fails: undefined,
  share: 0.77,
  sha: "0123456789abcdef".repeat(4),
  date: "2026-03-01",
  seed: 7,
  version: "0.1.0",
  key: new Map([
    ["plover/nip.preload", "4.7 ±0.5 N"],
    ["plover/let.rin", "max(R, drop/2) + 4 mm"],
    ["plover/film.guides.back edge.along.1", "0: # odd, {text}"],
  ]),
};
const written = (...edits: ((text: string | undefined) => { changes: unknown })[]): string =>
  edits.reduce<string>((text, edit) => applied(edit(text) as never, text), "");

describe("the ledger", () => {
  test("reads back what was frozen, keys and all", () => {
    const { ledger, errors } = readLedger(written((t) => frozenEdit(t, frozen, "N")));
    expect(errors).toEqual([]);
    expect(ledger!.frozen).toEqual([{ ...frozen, shownIn: "N" }]);
    expect(ledger!.keys.get("T-01")).toEqual(frozen.key);
  });
  test("keeps the unit that a prediction is written in, whatever its trial's file is", () => {
    const of = { ...frozen, predicted: { median: 2.8e-4, low: 2e-4, high: 4e-4 } };
    expect(readLedger(written((t) => frozenEdit(t, of, "mm"))).ledger!.frozen[0]!.shownIn).toBe("mm");
  });
  test("of pieces reads back the chance that one fails", () => {
    const of = {
      ...frozen,
      question: "nip.pulls",
      predicted: undefined,
      fails: { median: 0.0136, low: 5.08e-6, high: 0.994 },
    };
    expect(readLedger(written((t) => frozenEdit(t, of, ""))).ledger!.frozen).toEqual([of]);
  });
  test("reads back a score, worked out anew from what came", () => {
    const score = scored(frozen, { kind: "value", value: 0.5, uncertainty: 0.02 });
    const text = written(
      (t) => frozenEdit(t, frozen, "N"),
      (t) => scoredEdit(t, score, { date: "2026-03-04", late: undefined, shownIn: "N" }),
    );
    expect(readLedger(text).ledger!.scores[0]).toMatchObject({
      frozen: "L-01",
      trial: "T-01",
      agreed: true,
      inside: true,
      date: "2026-03-04",
    });
  });
  test("is only ever added to: what stands in it stays, byte for byte", () => {
    const before = `# ours\n${written((t) => frozenEdit(t, frozen, "N"))}`;
    for (const edit of [
      apartEdit(before, "T-02", "the scale: not zeroed", "2026-03-02"),
      keyedEdit(before, "T-03", frozen.key, undefined),
    ]) {
      const after = applied(edit, before);
      expect(after.startsWith(before)).toBe(true);
      expect(readLedger(after).errors).toEqual([]);
    }
    expect(
      readLedger(applied(apartEdit(before, "T-02", "the scale: not zeroed", undefined), before)).ledger!.apart.get(
        "T-02",
      ),
    ).toBe("the scale: not zeroed");
  });
  test("takes a trial of a check into belief, and the later of taken and apart counts", () => {
    const taken = takenEdit(undefined, "T-02", "2026-03-05");
    const text = applied(taken, "");
    expect(readLedger(text).ledger!.taken).toEqual(new Map([["T-02", "2026-03-05"]]));
    const apart = applied(apartEdit(text, "T-02", "the reel was old", undefined), text);
    expect(readLedger(apart).ledger).toMatchObject({
      taken: new Map(),
      apart: new Map([["T-02", "the reel was old"]]),
    });
    const again = readLedger(applied(takenEdit(apart, "T-02", undefined), apart)).ledger!;
    expect([again.taken.has("T-02"), again.apart.size]).toEqual([true, 0]);
  });
  test("refuses to take a trial that is not there, or that reads a number", () => {
    const trials = new Map([
      ["T-01", { question: "tapes/dpak-16/T" }],
      ["T-02", { question: "reel.jerks" }],
    ]);
    const said = (name: string) =>
      readLedger(applied(takenEdit(undefined, name, undefined), ""), trials)
        .errors.map(showError)
        .join();
    expect(said("T-02")).toBe("");
    expect(said("T-20")).toContain('ledger.yaml:3:12: found the trial "T-20"');
    expect(said("T-20")).toContain('Did you mean "T-02"?');
    expect(said("T-01")).toContain("found T-01, which reads tapes/dpak-16/T, expected a trial that tries a check");
  });
  test("that is comments alone is empty, and is begun below them", () => {
    expect(readLedger("# nothing yet\n")).toMatchObject({ ledger: { frozen: [] }, errors: [] });
    const text = applied(apartEdit("# nothing yet\n", "T-01", "why", undefined), "# nothing yet\n");
    expect(readLedger(text).ledger!.apart.size).toBe(1);
  });
  test("refuses a score of a prediction that nobody made, with its place and the way out", () => {
    const text = `${written((t) => frozenEdit(t, frozen, "N"))}  - scored: L-1\n    trial: T-01\n    came: 0.5 N\n`;
    expect(readLedger(text).errors.map(showError)).toEqual([
      'ledger.yaml:18:13: found "L-1", expected the name of a prediction that stands above\n18 |   - scored: L-1\n                 ^^^\nDid you mean "L-01"?',
    ]);
  });
  test.each([
    ["a day that is not", "date: 2026-03-01", "date: 2026-02-30", "a day that is not"],
    ["a short hash", "sha: 0123456789abcdef", "sha: 99", "64 hexadecimal digits"],
    ["a middle outside its ends", "predicted: [0.4 N", "predicted: [0.9 N", "a middle outside its own ends"],
    ["an entry of two kinds", "trial: T-01", "apart: T-01", "two kinds"],
    ["a missing member", "    seed: 7\n", "", 'without "seed"'],
  ])("refuses %s", (_, was, is, said) => {
    const text = written((t) => frozenEdit(t, frozen, "N"));
    expect(text).toContain(was);
    expect(readLedger(text.replace(was, is)).errors.map(showError).join("\n")).toContain(said);
  });
  test("refuses a second prediction of the same name", () => {
    const text = written(
      (t) => frozenEdit(t, frozen, "N"),
      (t) => frozenEdit(t, frozen, "N"),
    );
    expect(readLedger(text).errors[0]!.message).toContain('"L-01" a second time');
  });
  test("gives the next free name", () => {
    expect(nextId([])).toBe("L-01");
    expect(nextId([frozen])).toBe("L-02");
    expect(nextId([{ ...frozen, id: "L-02" }])).toBe("L-03");
  });
});
describe("the texts that are hashed", () => {
  const texts = new Map([
    ["project.yaml", "a"],
    ["units/x.yaml", "b"],
    ["bench/T-01.yaml", "c"],
    ["ledger.yaml", "d"],
  ]);
  test("are the same in any order, and leave trials and ledger out", () => {
    expect(canonicalTexts(new Map([...texts].reverse()))).toBe(canonicalTexts(texts));
    expect(canonicalTexts(new Map([...texts].filter(([p]) => !/bench|ledger/.test(p))))).toBe(canonicalTexts(texts));
  });
  test("differ where a character moves from one file to the next", () => {
    expect(
      canonicalTexts(
        new Map([
          ["project.yaml", "ab"],
          ["units/x.yaml", ""],
        ]),
      ),
    ).not.toBe(
      canonicalTexts(
        new Map([
          ["project.yaml", "a"],
          ["units/x.yaml", "b"],
        ]),
      ),
    );
  });
});
