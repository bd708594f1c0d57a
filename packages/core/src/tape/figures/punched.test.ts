import { expect, test } from "vitest";
import { allowedPitches } from "./pitch.ts";
import { punched, punchedWidths } from "./punched.ts";

// A ceramic capacitor maker's Table 7, punched paper tape, 8 mm. [read]
test("the 8 mm row is the printed one", () => {
  const row = punched[8];
  expect(row.Wmax).toMatchObject({ value: 8.3, limit: "max", how: "read" });
  expect(row.F).toMatchObject({ value: 3.5, tol: [-0.05, 0.05] });
  expect(row.E2).toMatchObject({ value: 6.25, limit: "min" });
  expect(row.T).toMatchObject({ value: 1.1, limit: "max" });
  expect(row.G).toMatchObject({ value: 0.75, limit: "min" });
  expect(row.R).toMatchObject({ value: 25, limit: "ref" });
  expect(row.rotation?.value).toBe(20);
  expect(row.lateral?.value).toBe(0.5);
  expect(allowedPitches(row.P1)).toEqual([
    { value: 2, tol: [-0.05, 0.05] },
    { value: 4, tol: [-0.1, 0.1] },
  ]);
});

// Sheets after IEC 286-3 and 28704, and a polymer tantalum guide. [read]
test("boards on sale are 0.43, 0.60, 0.75 and 0.95 mm thick, each ±0.05", () => {
  expect(punched[8].Ttypical?.map(({ value }) => value)).toEqual([0.43, 0.6, 0.75, 0.95]);
  for (const { tol } of punched[8].Ttypical ?? []) expect(tol).toEqual([-0.05, 0.05]);
});

// The sheet after IEC 286-3: ±0.2 for 0402, ±0.3 above; 28704, the tantalum guide and the MLCC page ±0.2. [read]
test("makers draw the 8 mm width ±0.2 or ±0.3", () => {
  expect(punched[8].Wmakers?.map(({ value, tol }) => [value, tol?.[1]])).toEqual([
    [8, 0.2],
    [8, 0.3],
    [8, 0.2],
  ]);
});

test("what is peculiar to 12 mm is memory", () => {
  const { W, Wmax, E2, F, R, T, P1 } = punched[12];
  for (const figure of [W, Wmax, E2, F, R, T, P1]) expect(figure.how).toBe("memory");
  expect([Wmax.value, E2.value, F.value, R.value, T.value]).toEqual([12.3, 10.25, 5.5, 30, 1.1]);
  expect(allowedPitches(P1)).toEqual([{ value: 2 }, { value: 4 }, { value: 8 }]);
});

// The same relations as embossed tape. [derived]
test.each(punchedWidths)("%i mm: E2 min = W - 1.75, F = W/2 - 0.5", (width) => {
  expect(punched[width].E2.value).toBeCloseTo(width - 1.75, 12);
  expect(punched[width].F.value).toBeCloseTo(width / 2 - 0.5, 12);
});
