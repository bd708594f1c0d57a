import { expect, test } from "vitest";
import { driven, written } from "../scene.fixture.ts";
import { finished } from "../study/steps.ts";
import { narrowingInSteps } from "./narrow.ts";

const sheet = driven.sheetScene();
const wheelAt = (text: string) => {
  const at = written("made up/sprocket.at", "at", text);
  const scene = { ...sheet, unit: { ...sheet.unit, sprocket: { ...sheet.unit.sprocket!, at } } };
  return finished(narrowingInSteps(scene, 0.997, [])).find((n) => n.address === at.address);
};
// Teeth stand 4 mm apart, and the pitch adds up from the pick to the wheel: the next place for it is one hole nearer. [by hand]
test.each([
  ["14 mm", 10],
  ["-14 mm", -10],
  ["5 mm", 1],
])("a wheel %s from the pick is proposed one hole nearer, at %d mm, whichever side it stands on", (text, to) => {
  const found = wheelAt(text)!;
  expect(found.to * 1e3).toBeCloseTo(to, 9);
  expect(found.after).toBeLessThan(found.before);
});
test("a wheel within one hole of the pick is left where it is", () => {
  for (const text of ["4 mm", "-3 mm"]) expect(wheelAt(text), text).toBeUndefined();
});
