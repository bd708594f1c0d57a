import { expect, test } from "vitest";
import { unitsInPrint } from "./units-in-print.ts";

test.each([
  ["thickness of the stack, um", "thickness of the stack, µm"],
  ["252 ±5 um at 95 %", "252 ±5 µm at 95 %"],
  ["Above 15 N/mm^2 it stops; 1.0 to 20 N/mm^2", "Above 15 N/mm² it stops; 1.0 to 20 N/mm²"],
  ["200 kg/m^3", "200 kg/m³"],
  ["22 degC", "22 °C"],
])("%s is printed %s", (typed, printed) => expect(unitsInPrint(typed)).toBe(printed));
test.each(["a^2 is no unit", "drum and album", "x_um", "tapes/umber"])("%s stays", (words) =>
  expect(unitsInPrint(words)).toBe(words),
);
