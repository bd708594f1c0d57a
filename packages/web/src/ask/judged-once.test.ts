import { judgeFully, judgeInSteps, knownChances, studyInSteps } from "@tapeworthy/core";
import { expect, test, vi } from "vitest";
import { TestDesk } from "../engine/desk.fixture.ts";
import { few } from "../engine/project.fixture.ts";
import { Answers } from "./answers.ts";
import type { Progress } from "./question.ts";

// What is judged, and studied, is counted.
vi.mock("@tapeworthy/core", async (original) => {
  const core = await original<typeof import("@tapeworthy/core")>();
  const counted = ["judgeInSteps", "judgeFully", "knownChances", "studyInSteps"] as const;
  return { ...core, ...Object.fromEntries(counted.map((name) => [name, vi.fn(core[name] as () => unknown)])) };
});
const counts = () =>
  [judgeInSteps, judgeFully, knownChances, studyInSteps].map(
    (f) => vi.mocked<(...a: never[]) => unknown>(f).mock.calls.length,
  );

test("the map judges each pair once, and the ranking none of them again, with the same questions", async () => {
  const desk = new TestDesk(1);
  desk.open(few);
  desk.say({ kind: "ask", id: 1, question: { kind: "judged" } });
  expect(desk.of("answer").at(-1)!.answer).toBeUndefined();
  desk.rest();
  const [judgings, , , studies] = counts();
  // Three pairs; the one on screen, shown before the record has been weighed, once more.
  expect(judgings).toBeLessThanOrEqual(4);
  const studied = vi
    .mocked(studyInSteps)
    .mock.calls.map(([{ unit, tape }, check]) => `${unit.name} ${tape.name} ${check.id}`);
  expect(new Set(studied).size).toBe(studies);

  desk.say({ kind: "ask", id: 2, question: { kind: "judged" } });
  const answer = desk.of("answer").at(-1)!.answer;
  if (answer?.kind !== "judged") throw new Error("everything is drawn, and nothing is said of it");
  expect(answer.judged.rows.map(({ result }) => `${result.unit} ${result.tape}`)).toEqual([
    "plover so8-12",
    "plover so20-24",
    "dunlin so8-12",
  ]);
  const about = { texts: [...few], seed: 1 };
  const quietly = async (_: Progress) => {};
  const none = () => {};
  const taken = await new Answers().answer(about, { kind: "next" }, quietly, none, answer.judged);
  expect(counts()).toEqual([judgings, 0, 0, studies]);
  // By another belief, or of nothing found, it judges for itself, and comes to the same.
  const weights = answer.judged.weights.map((w, i) => (i === 0 ? 0 : w));
  const other = await new Answers().answer(about, { kind: "next" }, quietly, none, { ...answer.judged, weights });
  expect(counts()).toEqual([judgings, 3, 0, studies]);
  const afresh = await new Answers().answer(about, { kind: "next" }, quietly);
  expect(counts()).toEqual([judgings, 6, 1, studies]);
  expect(taken).toEqual(afresh);
  expect(other).toEqual(afresh);
}, 540_000);
