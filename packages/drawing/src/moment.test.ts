import { expect, test } from "vitest";
import { shapeOf } from "./example.fixture.ts";
import { atMoment, type Moment, phaseOf, rideOf } from "./moment.ts";
import { pickPlace, pocketPlaces } from "./side-parts.ts";

const plover = shapeOf("plover", "so16-16");
const rest: Moment = { tape: 0, wheel: 0, drawn: 0, roller: 0, hole: 0 };

test("a unit at rest is drawn where its file puts it", () => {
  expect([rideOf(plover), phaseOf(plover)]).toEqual([0, plover.sprocket!.phase]);
  expect(pocketPlaces(atMoment(plover, rest))).toEqual(pocketPlaces(plover));
});
test("after an index of one pitch a pocket stands at the pick again, the one before it", () => {
  const after = atMoment(plover, { ...rest, tape: plover.letters.P1 });
  const near = Math.min(...pocketPlaces(after).map((s) => Math.abs(s - pickPlace(plover))));
  expect(near).toBeLessThan(1e-12);
});
test("the wheel turns with the travel: seen with it from left to right, clockwise", () => {
  const turned = atMoment(plover, { ...rest, wheel: 0.2 });
  expect(phaseOf(turned)).toBeCloseTo(plover.sprocket!.phase - 0.2, 12);
});
test("a moment changes nothing of the shape it was made from", () => {
  atMoment(plover, { ...rest, tape: 1e-3 });
  expect(plover.moment).toBeUndefined();
});
