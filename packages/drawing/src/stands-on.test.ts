import { expect, test } from "vitest";
import { elementsOf } from "./example.fixture.ts";
import { standsOnHtml } from "./stands-on.ts";

const boxes = (html: string) =>
  elementsOf(html)
    .filter(({ name, attributes }) => name === "rect" && attributes.height === "15")
    .map(({ attributes }) => Number(attributes.width));

test("the bar is shared among the letters as they are many", () => {
  const html = standsOnHtml(["m", "d", "d", "g"], { width: 401 });
  expect(boxes(html)).toEqual([100, 200, 100]);
  expect(html).toContain("1 measured here, 2 drawing or standard, 1 guess or memory.");
});
test("a letter that no number has takes no room", () => {
  expect(boxes(standsOnHtml(["d", "d"], { width: 301 }))).toEqual([300]);
});
