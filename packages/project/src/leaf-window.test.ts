import { expect, test } from "vitest";
import { said, texts } from "./curlew.fixture.ts";

/** What is said of the small unit held by such a leaf. */
const saidOf = (leaf: string): string =>
  said(
    new Map(texts).set(
      "units/curlew.yaml",
      `${texts.get("units/curlew.yaml")}hold-down: {kind: leaf, thickness: 0.2 mm, free length: 24 mm, preload: 0.9 N, ${leaf}}\n`,
    ),
  );
const window = "opening: {x: 8 mm, y: B0 + 2 mm, at: pick}";

test("a window as wide as its leaf or wider is refused where it is written, with the width it is too wide at", () => {
  expect(saidOf(`outside width: 6 mm, ${window}`)).toBe(`\
units/curlew.yaml:39:123: found a window of 6.3 mm in a leaf of 6 mm at W = 12 mm, built for coil, expected a window that leaves two arms of the leaf beside it
39 | …side width: 6 mm, opening: {x: 8 mm, y: B0 + 2 mm, at: pick}}
                                              ^^^^^^^^^
Narrow it, or give the leaf a greater "outside width".`);
  expect(saidOf(`outside width: 6.301 mm, ${window}`)).toBe("");
});
test("a window that leaves no room for arms of the width given is refused", () => {
  const text = saidOf(`width: 3 mm, outside width: 9.2 mm, ${window}`);
  expect(text).toContain("found a window of 6.3 mm in a leaf of 9.2 mm whose arms take 3 mm at W = 12 mm");
  expect(saidOf(`width: 3 mm, outside width: 9.3 mm, ${window}`)).toBe("");
});
test("a window beside arms whose width alone is given may be wider than they", () => {
  expect(saidOf(`width: 5 mm, ${window}`)).toBe("");
});
test("a rib's window is not held against the width of a leaf", () => {
  const rib = `hold-down: {kind: rib, gap: T + 0.3 mm, outside width: 3 mm, ${window}}\n`;
  expect(said(new Map(texts).set("units/curlew.yaml", `${texts.get("units/curlew.yaml")}${rib}`))).toBe("");
});
