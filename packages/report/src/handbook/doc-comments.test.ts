import { expect, test } from "vitest";
import { docComments, idsIn, isWritten, writtenModels } from "./doc-comments.ts";

const source = `/**
 * The pull.
 *
 *     F = m a
 */
export const pull = model({
  id: "film.pull-at-nip",
  symbol: "F",
  unit: "N",
  title: "pull at the nip",
  equation: "m*a",
  reads: () => undefined,
});
/** Of each drive. */
const made = (name: string) => {
  const one = model({
    id: \`drive.\${name}-reserve\`,
  });
  /** Inside: for whoever reads the code. */
  return one;
};
export const check: Check = {
  id: "film.pull",
  station: 4,
  value: pull,
};
`;
test("comments at the left margin are found, each with the ids that its declaration writes", () => {
  expect(docComments(source).map(({ text, ids }) => [text, ids])).toEqual([
    ["The pull.\n\n    F = m a", ["film.pull-at-nip"]],
    ["Of each drive.", ["drive.*-reserve"]],
  ]);
});
test("ids are found in order, a template's hole as a star", () => {
  expect(idsIn(source).map(({ id }) => id)).toEqual(["film.pull-at-nip", "drive.*-reserve", "film.pull"]);
});
test("a star stands for one name, and only a whole id counts", () => {
  expect(isWritten("drive.*-reserve", "drive.feed-reserve")).toBe(true);
  expect(isWritten("drive.*-reserve", "drive.feed-reserve-left")).toBe(false);
  expect(isWritten("film.pull", "film.pull-at-nip")).toBe(false);
  expect(isWritten("film.pull", "film-pull")).toBe(false);
});
test("a model is read from its source where no scene shows it; a check is none", () => {
  expect(writtenModels(source)).toEqual([{ id: "film.pull-at-nip", title: "pull at the nip", equation: "F = m*a" }]);
});
