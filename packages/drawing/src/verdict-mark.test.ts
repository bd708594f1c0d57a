import { expect, test } from "vitest";
import { elementsOf } from "./example.fixture.ts";
import { Shared } from "./scene.ts";
import { markInline } from "./verdict-mark.ts";

test("marks that are many share their form, each verdict its own, and stay silent", () => {
  const shared = new Shared("page");
  const marks = (["stops", "stops", "depends", "feeds", "n/a"] as const).map((v) => markInline(v, 12, shared));
  const uses = marks.flatMap((m) => elementsOf(m).flatMap((e) => (e.name === "use" ? [e.attributes.href] : [])));
  expect(uses).toEqual([
    "#page-mark-stops",
    "#page-mark-stops",
    "#page-mark-depends",
    "#page-mark-feeds",
    "#page-mark-na",
  ]);
  const ids = elementsOf(shared.svg()).flatMap((e) => (e.attributes.id ? [e.attributes.id] : []));
  expect(new Set(uses).size).toBe(ids.length);
  expect(marks.every((m) => m.includes('aria-hidden="true"'))).toBe(true);
});
