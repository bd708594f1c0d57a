import fc from "fast-check";
import { expect, test } from "vitest";
import { idOf, toId, withId } from "./anchor.ts";

test("a plain name stands in the id as it is", () => {
  expect(idOf("finding", "plover", "so20-24", "film.mismatch")).toBe("finding/plover/so20-24/film.mismatch");
  expect([withId("unit", "plover"), toId("unit", "plover")]).toEqual([' id="unit/plover"', ' href="#unit/plover"']);
});
test("an id needs no escaping in a link, a selector or a style, whatever the name", () => {
  fc.assert(fc.property(fc.string({ unit: "binary" }), (name) => /^[A-Za-z0-9._~/-]*$/.test(idOf("unit", name))));
});
test("two names never share an id", () => {
  const name = fc.string({ unit: "binary", maxLength: 6 });
  fc.assert(fc.property(name, name, (a, b) => (a === b) === (idOf("unit", a) === idOf("unit", b))));
  expect(idOf("a/b", "c")).not.toBe(idOf("a", "b/c"));
});
