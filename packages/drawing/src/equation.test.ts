import { checkNamed, type Explained, explain } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { equationHtml } from "./equation.ts";
import { elementsOf, pairs, sceneOf } from "./example.fixture.ts";

const tree = (check: string, unit = "plover", tape = "so8-12"): Explained =>
  explain(checkNamed(check)!, sceneOf(unit, tape))!.value;

test.each(["nip.pulls", "groove.depth", "film.steer", "nip.slips", "entry.play", "film.stick", "nip.takes-up"])(
  "%s is well formed in both ways of writing",
  (check) => {
    const one = tree(check);
    for (const as of ["mathml", "text"] as const) {
      const names = elementsOf(equationHtml(one, { as })).map((e) => e.name);
      expect(names.includes("math")).toBe(as === "mathml");
    }
  },
);
test("a number that several equations read is opened once", () => {
  const html = equationHtml(tree("film.steer"), { open: 9 });
  const addresses = elementsOf(html).flatMap((e) =>
    e.attributes["data-address"] ? [e.attributes["data-address"]] : [],
  );
  expect(addresses.length).toBeGreaterThan(5);
  expect(new Set(addresses).size).toBe(addresses.length);
});
test("the value, its equation with its numbers, and where the numbers stand are all there", () => {
  const html = equationHtml(tree("groove.lips"));
  expect(html).toContain('alttext="s_l = g − T"');
  expect(html).toContain("= 0.6500 mm − 0.3000 mm = 0.3500 mm");
  expect(html).toContain("units/plover.yaml:");
  expect(html).toContain('class="letter m"');
  expect(html).toContain("T + 0.35 ±0.10 mm");
});
test("what nobody has measured says so", () => {
  expect(equationHtml(tree("nip.pulls", "plover", "carrier-24"), { open: 9 })).toContain("nobody has measured it");
});
test("text from a file stays text", () => {
  const one: Explained = { ...tree("groove.lips"), title: "<b>&", symbol: "<i>", rests: [] };
  const html = equationHtml(one, { as: "text" });
  expect(html).toContain("&lt;b&gt;&amp;");
  expect(elementsOf(html).map((e) => e.name)).not.toContain("i");
});
test("deeper levels stay closed until they are asked for", () => {
  const closed = elementsOf(equationHtml(tree("nip.pulls"), { open: 0 })).filter((e) => e.name === "details");
  expect(closed.every((e) => e.attributes.open === undefined)).toBe(true);
  const opened = elementsOf(equationHtml(tree("nip.pulls"), { open: 1 })).filter((e) => e.name === "details");
  expect(opened.filter((e) => e.attributes.open !== undefined)).toHaveLength(1);
});
describe("every check of the example is explained", () => {
  test.each(pairs.filter(([, tape]) => ["so8-12", "carrier-24", "socket-32"].includes(tape)))(
    "%s with %s",
    (unit, tape) => {
      const scene = sceneOf(unit, tape);
      for (const id of [
        "entry.play",
        "entry.bend",
        "groove.width",
        "film.mismatch",
        "film.pull",
        "nip.slips",
        "film.kern",
      ]) {
        const found = explain(checkNamed(id)!, scene);
        if (found) for (const one of Object.values(found)) elementsOf(equationHtml(one));
      }
    },
  );
});
test("a long equation is written down to its nearest numbers; the others are counted, and where they are is told", () => {
  const whole = equationHtml(tree("film.steer"), { open: 9 });
  const part = equationHtml(tree("film.steer"), { open: 9, most: 8, elsewhere: "tapeworthy why film.steer" });
  const numbers = (html: string) => elementsOf(html).filter((e) => e.name === "li").length;
  expect(numbers(part)).toBeLessThan(numbers(whole));
  expect(part).toMatch(/rests on \d+ numbers; tapeworthy why film\.steer|and \d+ more; tapeworthy why film\.steer/);
  elementsOf(part);
  expect(equationHtml(tree("film.steer"), { most: 1e6 })).toBe(equationHtml(tree("film.steer")));
});
test("a subscript in a solver's equation is set low", () => {
  expect(equationHtml(tree("film.mismatch", "plover", "so20-24"))).toMatch(/a<sub>1<\/sub>/);
});
