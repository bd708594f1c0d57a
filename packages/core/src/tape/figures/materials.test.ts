import { expect, test } from "vitest";
import {
  carrierBoard,
  creepPC,
  drawnThickness,
  friction,
  growthPer40mm,
  HIPS,
  PC,
  PETsheet,
  PS,
  paper,
  strainOnHub,
} from "./materials.ts";

// Property pages of polystyrene and HIPS, paper data, PC grade. [read]
test("spot figures of carrier materials are the printed ones", () => {
  expect(PS.E).toMatchObject({ low: 3000, high: 3600, how: "read" });
  expect(PS.density).toMatchObject({ value: 1.05 });
  expect(HIPS.E).toMatchObject({ low: 1600, high: 2400 });
  expect(HIPS.yield).toMatchObject({ value: 25 });
  expect(HIPS.nu).toMatchObject({ low: 0.34, high: 0.41 });
  expect(paper.E).toMatchObject({ low: 3000, high: 8900 });
  expect([creepPC.short.value, creepPC.hour.value, creepPC.thousandHours.value]).toEqual([2400, 2200, 1900]);
  expect(drawnThickness.map(({ value }) => value)).toEqual([0.2, 0.228, 0.3, 0.4]);
});

// One page prints 193 to 381 kpsi; 1 kpsi is 6.894757 MPa. [derived]
test("flexural modulus of HIPS is its range in kpsi, to 10 MPa", () => {
  const toTen = (kpsi: number) => Math.round((kpsi * 6.894757) / 10) * 10;
  expect(HIPS.flexE).toMatchObject({ low: toTen(193), high: toTen(381) });
});

test("PC, PET sheet and carrier board are memory", () => {
  expect(PC.E).toMatchObject({ value: 2350, how: "memory" });
  expect(PETsheet.E).toMatchObject({ value: 2300, how: "memory" });
  expect(carrierBoard.E).toMatchObject({ low: 2000, high: 5000, how: "memory", confidence: "low" });
});

test("friction of a carrier on its guides is no more than a range to start from", () => {
  const guides = friction.find(({ between }) => between[0] === "PS, PC or paper carrier");
  expect(guides?.mu).toMatchObject({ low: 0.15, high: 0.45, how: "memory", confidence: "low" });
});

// Shackelford, Table 399. [read]
test("acetal on steel is 0.1 to 0.3, its copolymer 0.15", () => {
  const [homopolymer, copolymer] = friction;
  expect(homopolymer).toMatchObject({ between: ["acetal homopolymer", "steel"], mu: { low: 0.1, high: 0.3 } });
  expect(copolymer).toMatchObject({ between: ["acetal copolymer", "steel"], mu: { value: 0.15 } });
});

// Arithmetic on the figures that the notes name. [derived]
test("strain on a hub and growth with warmth come out again", () => {
  expect(strainOnHub.value).toBeCloseTo(0.3 / 55, 4);
  expect(growthPer40mm.value).toBeCloseTo(85e-6 * 40, 12);
  expect(Math.log(creepPC.hour.value / creepPC.thousandHours.value) / Math.log(1000)).toBeCloseTo(0.0212, 4);
});
