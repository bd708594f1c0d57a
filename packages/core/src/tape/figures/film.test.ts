import { describe, expect, test } from "vitest";
import { embossed, embossedWidths } from "./embossed.ts";
import { D0, E1 } from "./every-width.ts";
import { isRange } from "./figure.ts";
import { coverBreak, filmThickness, filmWidth, peelLimit, peelTest } from "./film.ts";
import {
  BOPET,
  BOPET_92gauge,
  BOPET_100um,
  elmendorf,
  filmFriction,
  laminate,
  peelRate,
  strip,
  tear,
  yieldBound,
} from "./film-material.ts";

const widest = (width: (typeof embossedWidths)[number]) => {
  const b = filmWidth[width];
  return isRange(b) ? b.high : b.value;
};

// SOT-23 tape data, revision C, and 28-pin SOP package information. [read]
test("film width is read at 8 and 24 mm only", () => {
  expect(filmWidth[8]).toMatchObject({ value: 5.2, tol: [-0.3, 0.3], how: "read" });
  expect(filmWidth[24]).toMatchObject({ value: 21.3, tol: [-0.1, 0.1], how: "read" });
  expect(embossedWidths.filter((width) => filmWidth[width].how === "read")).toEqual([8, 24]);
  expect(embossedWidths.filter((width) => filmWidth[width].how === "derived")).toEqual([
    88, 104, 120, 136, 152, 168, 184, 200,
  ]);
});

// Geometry of the tape. [derived]
test("film covers the widest pocket and leaves the holes bare", () => {
  for (const width of embossedWidths) {
    const { B1, S0 } = embossed[width];
    const room = S0 === undefined ? width - E1.value - D0.value / 2 : S0.value - D0.value;
    expect(widest(width)).toBeGreaterThan(B1.value);
    expect(widest(width)).toBeLessThanOrEqual(room);
  }
});

// EIA-481 clause 4.11 as quoted in a trade forum of 2010. [read, second hand]
test("peel is 0.1 N at least and 1.0, 1.3 or 1.5 N at most", () => {
  expect(embossedWidths.map((width) => peelLimit[width].high)).toEqual([
    1,
    1.3,
    1.3,
    1.3,
    1.3,
    1.3,
    1.3,
    ...Array<number>(9).fill(1.5),
  ]);
  for (const width of embossedWidths) expect(peelLimit[width].low).toBe(0.1);
});

// Sheet 28704 and the sheet after IEC 286-3. [read]
test("the peel test draws at 165 to 180 degrees and 300 ±10 mm/min", () => {
  expect(peelTest.angle).toMatchObject({ low: 165, high: 180 });
  expect(peelTest.speed).toMatchObject({ value: 300, tol: [-10, 10] });
});
test("the same speed in m/s is 0.3/60 [derived]", () => expect(peelTest.speedSI.value).toBeCloseTo(0.3 / 60, 15));

// Wireless module data sheet, section 8.4 [read]; the others memory.
test("only the module maker's 5 N film break is read", () => {
  expect(coverBreak.moduleMaker).toMatchObject({ value: 5, limit: "min", how: "read" });
  expect([coverBreak.capacitorMaker.how, coverBreak.IEC60286.how]).toEqual(["memory", "memory"]);
});
test("film of 8 mm tape is 0.06 ±0.02 mm thick [read, SOT-23 tape data]", () => {
  expect(filmThickness.blister8).toMatchObject({ value: 0.06, tol: [-0.02, 0.02] });
});

describe("figures worked out here come out again from their parts [derived]", () => {
  const kilogramForce = 9.80665;
  test("bulletin H-37232-3: 490, 510 and 10 kg/mm2", () => {
    expect(BOPET_92gauge.E_MD.value).toBe(Math.round(490 * kilogramForce));
    expect(BOPET_92gauge.E_TD.value).toBe(Math.round(510 * kilogramForce));
    expect(BOPET_92gauge.F5_MD.value).toBe(Math.round(10 * kilogramForce));
  });
  test("100 um film: 20.10 and 11.6 kg/mm2", () => {
    expect(BOPET_100um.strength_MD.value).toBe(Math.round(20.1 * kilogramForce));
    expect(BOPET_100um.F5_MD.value).toBe(Math.round(11.6 * kilogramForce));
  });
  test("the default laminate: E h, and D about its neutral plane", () => {
    const h = [laminate.defaultStretched.value / 1e3, laminate.defaultRest.value / 1e3] as const;
    const E = [BOPET.E.value * 1e6, laminate.defaultRestModulus.value * 1e9] as const;
    const z = [h[0] / 2, h[0] + h[1] / 2] as const;
    const Eh = E[0] * h[0] + E[1] * h[1];
    const neutral = (E[0] * h[0] * z[0] + E[1] * h[1] * z[1]) / Eh;
    const bend = (i: 0 | 1) => E[i] * (h[i] ** 3 / 12 + h[i] * (z[i] - neutral) ** 2);
    const D = (bend(0) + bend(1)) / (1 - 0.38 ** 2);
    expect(laminate.Eh.value).toBeCloseTo(Eh, 6);
    expect(laminate.D.value / D).toBeCloseTo(1, 2);
  });
  test("a 5.2 mm strip of 25 um film: EA and break load", () => {
    expect(strip.EA.value).toBeCloseTo(5.2 * 0.025 * BOPET.E.value, 9);
    expect(strip.breakLoad.value).toBeCloseTo(5.2 * 0.025 * BOPET.strength.value, 9);
  });
  test("yield bound: F5 over E of the three films, rounded", () => {
    const strains = [
      BOPET_92gauge.F5_MD.value / BOPET_92gauge.E_MD.value,
      BOPET.F5.value / BOPET.E.value,
      BOPET_100um.F5_MD.value / BOPET.E.value,
    ];
    expect(yieldBound.low).toBeCloseTo(Math.min(...strains), 3);
    expect(yieldBound.high).toBeCloseTo(Math.max(...strains), 3);
  });
  test("rate exponents of label adhesives over one decade", () => {
    expect(peelRate.rubberAcrylic_n.value).toBeCloseTo(Math.log10(1 + peelRate.rubberAcrylicRise.value / 100), 2);
    expect(peelRate.pureAcrylic_n.value).toBeCloseTo(Math.log10(1 + peelRate.pureAcrylicRise.value / 100), 2);
  });
  test("92 gauge is 92 hundred-thousandths of an inch", () =>
    expect(BOPET_92gauge.thickness.value).toBeCloseTo(92e-5 * 25.4, 3));
});

// Bulletin H-37232-3; PMC4554610, Table 1; a film maker's page on 12 um film. [read]
test("spot figures of film are the printed ones", () => {
  expect([
    BOPET_92gauge.nu.value,
    BOPET_92gauge.nuAfterYield.value,
    BOPET_92gauge.cte.value,
    BOPET_92gauge.Ra.value,
  ]).toEqual([0.38, 0.58, 17, 38]);
  expect([BOPET_92gauge.strength_MD.value, BOPET_92gauge.strength_TD.value]).toEqual([196, 235]);
  expect([BOPET_92gauge.elongation_MD.value, BOPET_92gauge.elongation_TD.value]).toEqual([116, 91]);
  expect(elmendorf.map(({ MD, TD }) => [MD.value, TD.value])).toEqual([
    [0.77, 3.53],
    [0.81, 3.79],
    [1.93, 18.6],
    [2.56, 19.75],
  ]);
  expect([tear.propagation.value, tear.edge.value, tear.impactMD.value, tear.impactTD.value]).toEqual([
    240, 150, 1400, 1800,
  ]);
});

test("film friction is read on film only; on steel, POM, rubber and prints it is memory of low confidence", () => {
  const ofFilm = filmFriction.filter(({ between }) => between[0] === "PET film");
  const onOthers = ofFilm.filter(({ between }) => between[1] !== "PET film");
  expect(ofFilm.filter(({ between }) => between[1] === "PET film").every(({ mu }) => mu.how === "read")).toBe(true);
  expect(onOthers.map(({ between }) => between[1])).toEqual(["steel", "POM", "rubber", "printed PLA or PETG"]);
  for (const { mu } of onOthers) expect(mu).toMatchObject({ how: "memory", confidence: "low" });
});
