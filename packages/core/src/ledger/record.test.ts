import { expect, test } from "vitest";
import { records, sayRecord } from "./record.ts";
import type { Score } from "./score.ts";

const score = (
  trial: string,
  question: string,
  agreed: boolean,
  late?: string,
): Score & { late?: string | undefined } => ({
  frozen: trial,
  trial,
  question,
  came: { kind: "pieces", failed: 0, run: 1 },
  inside: undefined,
  error: undefined,
  validation: undefined,
  log: false,
  chance: 1,
  agreed,
  ...(late === undefined ? {} : { late }),
});
const isCheck = (q: string): boolean => !q.includes("/");

test("six trials of which one missed say 5 of 6", () => {
  const all = ["A", "B", "C", "D", "E", "F"].map((t, i) => score(t, "nip.pulls", i !== 3));
  expect(sayRecord(records(all, isCheck).get("nip.pulls"))).toBe("agreed with 5 of 6 trials");
  expect(sayRecord(records(all.slice(0, 1), isCheck).get("nip.pulls"))).toBe("agreed with 1 of 1 trial");
});
test("a measuring card is no trial of a check", () => {
  expect(records([score("A", "plover/film.friction", true)], isCheck).size).toBe(0);
});
test("a trial that was scored again counts once, by its last score", () => {
  const record = records([score("A", "nip.pulls", true), score("A", "nip.pulls", false)], isCheck).get("nip.pulls");
  expect(record).toMatchObject({ trials: 1, agreed: 0 });
});
test("a prediction that came after its trial does not count", () => {
  expect(records([score("A", "nip.pulls", true, "no date")], isCheck).size).toBe(0);
  expect(sayRecord(undefined)).toBe("no trial yet");
});
