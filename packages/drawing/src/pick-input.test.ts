import type { Accuracy } from "@tapeworthy/core";
import { expect, test } from "vitest";
import { pickPlanInput, pickSharesInput } from "./pick-input.ts";

const band = (middle: number) => ({ low: 0.8 * middle, middle, high: 1.2 * middle });
const accuracy = {
  unit: "plover",
  tape: "so8-12",
  share: 0.997,
  takes: 0.25e-3,
  radii: { known: band(0.09e-3), any: band(0.14e-3), unitMean: band(0.33e-3) },
  offset: { x: 2e-7, y: -3e-6 },
  sd: { x: 5e-5, y: 3e-5, correlation: 0.1 },
  turn: null,
  points: { x: [0], y: [0], of: 10 },
  pocket: { A0: 6.4e-3, B0: 5.2e-3 },
  part: null,
  contributions: [
    { address: "tapes/so8-12/A0", level: "reel", share: 0.5, along: 0.5, across: 0.001, actsTogether: false },
    { address: "plover/sprocket.runout", level: "unit", share: 0.3, along: 0.2, across: 0.1, actsTogether: true },
  ],
} as unknown as Accuracy;

test("any cycle of any unit decides, where it is known; a mean within half a micrometre is no offset", () => {
  const input = pickPlanInput(accuracy);
  expect(input.radii.map(({ radius }) => radius)).toEqual([0.14e-3, 0.09e-3, 0.33e-3]);
  expect(input.offset).toEqual([0, -3e-6]);
  expect(input.part).toBeUndefined();
  const closed = { ...accuracy, takes: null, radii: { ...accuracy.radii, any: null, unitMean: null } };
  expect(pickPlanInput(closed).radii).toHaveLength(1);
  expect(pickPlanInput(closed).takes).toBeUndefined();
});
test("an input acts along, across or both ways by what it carries of each", () => {
  const { rows } = pickSharesInput(accuracy);
  expect(rows.map(({ acts, together }) => [acts, together])).toEqual([
    ["x", undefined],
    ["x, y", true],
  ]);
});
