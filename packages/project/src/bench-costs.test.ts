import { usualCosts } from "@tapeworthy/core";
import { expect, test } from "vitest";
import * as curlew from "./curlew.fixture.ts";
import { showError } from "./error.ts";
import { readProject } from "./project.ts";

const withCosts = (block: string) => {
  const texts = new Map(curlew.texts);
  texts.set("project.yaml", `${texts.get("project.yaml")!.trimEnd()}\n${block}`);
  return readProject(texts);
};

test("a project that says nothing of its bench has the usual costs", () => {
  expect(readProject(curlew.texts).project!.benchCosts).toEqual(usualCosts);
});
test("what the shop writes stands in place of the usual, the rest stays", () => {
  const { project } = withCosts(
    "bench costs: {working day: 7 h, trial piece: {days: 3 d, catches: 80 %}, found late: {printed: 6 d, further pair: 1 d}}\n",
  );
  expect(project!.benchCosts).toEqual({
    ...usualCosts,
    hours: 7,
    piece: { days: 3, catches: 0.8, passesGood: usualCosts.piece.passesGood },
    late: { ...usualCosts.late, printed: 6 },
    further: 1,
  });
});
test("days without a unit are refused with the way out", () => {
  const { errors } = withCosts("bench costs: {trial piece: {days: 3}}\n");
  expect(errors.map(showError)[0]).toContain("found 3 without a unit");
});
