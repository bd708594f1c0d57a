import { describe, expect, test } from "vitest";
import { showError } from "./error.ts";
import { readLedger } from "./ledger-read.ts";

const sha = "0123456789abcdef".repeat(4);
/** A prediction of a value and one of pieces, of an invented shop. */
const value = `  - frozen: L-01
    trial: T-01
    question: knot/nip.preload
    unit: knot
    tape: coil
    predicted: [4 N, 2 N, 8 N]
    share: 77 %
    date: 2026-03-01
    seed: 7
    version: 0.1.0
    sha: ${sha}
    rests on: {knot/let.a: 1 mm}
`;
const pieces = value
  .replaceAll("-01\n", "-02\n")
  .replace("date: 2026-03-02", "date: 2026-03-01")
  .replace("predicted: [4 N, 2 N, 8 N]", "fails: [0.02, 0.001, 0.3]")
  .replace("question: knot/nip.preload", "question: nip.pulls");
const ledger = (...entries: string[]): string => `format: 1\nledger:\n${entries.join("")}`;
const read = (...entries: string[]) => {
  const { ledger: of, errors } = readLedger(ledger(...entries));
  return of ?? expect.fail(errors.map(showError).join("\n"));
};
const saidOf = (...entries: string[]): string[] => readLedger(ledger(...entries)).errors.map(showError);

describe("a ledger that is read", () => {
  test("gives its predictions in SI, in the order they were made", () => {
    const { frozen } = read(value, pieces);
    expect(frozen).toMatchObject([
      { id: "L-01", predicted: { median: 4, low: 2, high: 8 }, fails: undefined, share: 0.77, seed: 7, shownIn: "N" },
      { id: "L-02", predicted: undefined, fails: { median: 0.02, low: 0.001, high: 0.3 } },
    ]);
    expect(frozen[1]).not.toHaveProperty("shownIn");
  });
  test("judges a score by what was foretold and what came, not by the word that stands there", () => {
    const score = (came: string, result: string) =>
      `  - scored: L-01\n    trial: T-01\n    came: ${came}\n    result: ${result}\n`;
    // 4 N is the middle; 400 N is a hundred times that, far beyond an interval of a factor of 2.
    expect(read(value, score("4 N", "missed")).scores[0]).toMatchObject({ agreed: true, inside: true });
    expect(read(value, score("400 N", "agreed")).scores[0]).toMatchObject({ agreed: false, inside: false });
  });
  test("takes an uncertainty for none and failed pieces for none where they are left out", () => {
    const { scores } = read(
      value,
      pieces,
      "  - {scored: L-01, trial: T-01, came: 5 N, late: begun before}\n",
      "  - {scored: L-02, trial: T-02, pieces: 6, date: 2026-03-02}\n",
    );
    expect(scores.map((s) => [s.frozen, s.came, s.date, s.late])).toEqual([
      ["L-01", { kind: "value", value: 5, uncertainty: 0 }, undefined, "begun before"],
      ["L-02", { kind: "pieces", run: 6, failed: 0 }, "2026-03-02", undefined],
    ]);
  });
  test("counts the later of taken and apart, trial by trial", () => {
    const { taken, apart } = read(
      "  - {taken: T-01, date: 2026-03-01}\n",
      "  - {apart: T-02, reason: wet}\n",
      "  - {apart: T-01, reason: dry}\n",
      "  - {taken: T-02}\n",
      "  - {apart: T-03, reason: cold}\n",
    );
    expect([...taken]).toEqual([["T-02", undefined]]);
    expect([...apart]).toEqual([
      ["T-01", "dry"],
      ["T-03", "cold"],
    ]);
  });
  test("lets a trial rest on what was written last of it", () => {
    const { keys } = read(
      value,
      "  - {keyed: T-01, rests on: {knot/let.b: 2 mm}}\n",
      "  - {keyed: T-09, rests on: {}}\n",
    );
    expect([...keys].map(([t, key]) => [t, [...key]])).toEqual([
      ["T-01", [["knot/let.b", "2 mm"]]],
      ["T-09", []],
    ]);
  });
});

describe("a ledger is refused", () => {
  test.each([
    [
      "an entry of no kind",
      "  - {trial: T-01}\n",
      "found an entry of no kind, expected one of frozen, scored, taken, apart, keyed",
    ],
    ["an entry that is kept apart without a reason", "  - {apart: T-01}\n", 'found an entry "apart" without "reason"'],
    ["a score without its trial", "  - {scored: L-01, came: 1 N}\n", 'found an entry "scored" without "trial"'],
    ["a note that rests on nothing said", "  - {keyed: T-01}\n", 'found an entry "keyed" without "rests on"'],
    [
      "a score that stands above its prediction",
      "  - {scored: L-02, trial: T-02, pieces: 3}\n",
      'found "L-02", expected the name of a prediction that stands above',
    ],
    [
      "a score of nothing",
      "  - {scored: L-01, trial: T-01}\n",
      'found a score without what came out, expected "came", or "pieces" and "failed"',
    ],
    [
      "pieces held against a value",
      "  - {scored: L-01, trial: T-01, pieces: 3}\n",
      "found pieces that were tried, expected what came out: L-01 foretold no pieces",
    ],
    [
      "more failed pieces than were tried",
      "  - {scored: L-01, trial: T-01, pieces: 3, failed: 4}\n",
      "found 4 of 3 pieces failed, expected whole numbers, no more failed than tried",
    ],
    ["half a piece", "  - {scored: L-01, trial: T-01, pieces: 3.5}\n", "found 0 of 3.5 pieces failed"],
  ])("for %s", (_, entry, said) => {
    const errors = saidOf(value, entry, pieces);
    expect(errors).toHaveLength(1);
    expect(errors[0]).toContain(said);
    // Fourteen lines stand above the entry.
    expect(errors[0]).toMatch(/^ledger\.yaml:15:/);
  });
  test("for a value held against pieces", () => {
    expect(saidOf(pieces, "  - {scored: L-02, trial: T-02, came: 3 N}\n").join()).toContain(
      "found a value that came out, expected pieces and how many failed: L-02 foretold no value",
    );
  });
  test("for all that is wrong in it at once, in the order of its lines", () => {
    const errors = saidOf(
      value.replace("[4 N, 2 N, 8 N]", "[4 N, 5 N, 8 N]").replace("2026-03-01", "2026-13-01"),
      "  - {taken: T-01, date: yesterday}\n",
      "  - {apart: T-02}\n",
    );
    expect(errors.map((e) => Number(e.split(":")[1]))).toEqual([8, 10, 15, 16]);
  });
  test("in the name of the file that it came in", () => {
    expect(readLedger("format: 1\nledger: 3\n", undefined, "old/ledger.yaml").errors[0]!.place.file).toBe(
      "old/ledger.yaml",
    );
  });
});
