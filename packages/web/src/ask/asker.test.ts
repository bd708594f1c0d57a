import { expect, test } from "vitest";
import type { JudgedPairs } from "../engine/protocol.ts";
import type { Asked } from "./ask.worker.ts";
import { Asker } from "./asker.ts";
import type { Progress } from "./question.ts";

const judged: JudgedPairs = { rows: [], weights: new Float64Array(0), contradicted: [], known: [] };
const texts = new Map([["project.yaml", "format: 1\n"]]);
const turn = () => new Promise((resolve) => setTimeout(resolve, 0));

function asking() {
  const posted: Asked[] = [];
  let found: (judged: JudgedPairs | undefined) => void = () => {};
  let waits: ((done: number, of: number) => void) | undefined;
  const worker = { postMessage: (asked: Asked) => posted.push(asked), terminate: () => {} } as unknown as Worker;
  const asker = new Asker(
    (_, told) => {
      waits = told;
      return new Promise((resolve) => {
        found = resolve;
      });
    },
    () => worker,
  );
  return { asker, posted, found: (one: JudgedPairs | undefined) => found(one), waits: () => waits };
}

test("the ranking waits for the map, says how far that is, and takes what it found along", async () => {
  const { asker, posted, found, waits } = asking();
  const told: Progress[] = [];
  void asker.ask({ texts, seed: 1 }, { kind: "next" }, (progress) => told.push(progress));
  waits()!(3, 20);
  await turn();
  expect([posted, told]).toEqual([[], [{ what: "pairs of unit and tape", done: 3, of: 20 }]]);
  found(judged);
  await turn();
  expect(posted).toEqual([{ id: 1, about: { texts: [...texts], seed: 1 }, question: { kind: "next" }, judged }]);
});
test("ways out take it where it is there, and do not wait", async () => {
  const { asker, posted, found, waits } = asking();
  void asker.ask({ texts, seed: 1 }, { kind: "cures", unit: "a", tape: "b", check: "c" }, () => {});
  expect(waits()).toBeUndefined();
  found(undefined);
  await turn();
  expect(posted.map((m) => Object.keys(m))).toEqual([["id", "about", "question"]]);
});
test("a question that was overtaken while it waited is not asked any more", async () => {
  const { asker, posted, found } = asking();
  void asker.ask({ texts, seed: 1 }, { kind: "next" }, () => {});
  void asker.ask({ texts, seed: 1 }, { kind: "bench" }, () => {});
  found(judged);
  await turn();
  expect(posted.map((m) => "question" in m && m.question.kind)).toEqual(["bench"]);
});
