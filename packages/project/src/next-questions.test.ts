import { evenWeights, finished, type TapeResult } from "@tapeworthy/core";
import { expect, test } from "vitest";
import { deviates } from "./bench.fixture.ts";
import { example } from "./example.fixture.ts";
import { questionsWithPieces } from "./next-questions.ts";
import { readProject } from "./project.ts";

const project = readProject(example).project!;
const decisive = {
  address: "plover/film.friction",
  symbol: "mu",
  tipping: 0.3,
  guess: { low: 0.18, high: 0.35 },
  unit: "1",
  shownIn: "",
  shareIfMeasured: 0.9,
};
const row = (tape: string, share: number): TapeResult =>
  ({
    unit: "plover",
    tape,
    W: 24,
    verdict: share > 0.95 ? "feeds" : "depends",
    share,
    first: share > 0.95 ? [] : ["nip.pulls"],
    findings: [{ check: "nip.pulls", station: 7, severity: "S", verdict: "depends", share, decisive }],
  }) as unknown as TapeResult;
const asked = (...rows: TapeResult[]) =>
  finished(
    questionsWithPieces(
      project,
      rows.map((result) => ({ result })),
      { weights: evenWeights, deviates },
    ),
  );

test("a question comes with the piece of the pair that fails most", () => {
  const [question] = asked(row("so8-12", 0.8), row("so20-24", 0.4)).ranked;
  expect(question!.hangs[0]!.tape).toBe("so20-24");
  expect(question!.piece).toMatchObject({ check: "nip.pulls", station: 7 });
  expect(question!.piece!.kept).toContain(7);
});
test("nothing is asked of what feeds", () => {
  const found = asked(row("so20-24", 1));
  expect([found.ranked, found.open, found.dropped]).toEqual([[], [], []]);
  expect(found.settled).toHaveLength(1);
});
