import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  embossedTape,
  heldByBend,
  heldByLeaf,
  heldByRib,
  nominal,
  outside,
  punchedTape,
  scene,
  written,
} from "../scene.fixture.ts";
import {
  checkBow,
  freeBow,
  leafLift,
  liftOverTeeth,
  overhangLift,
  pulledBow,
  restBow,
  ribLift,
  tautBow,
} from "./bow.ts";

// 240 beam elements with natural curvature: validation/independent/hold.py; the same figures stand in the unpublished working notes. [derived]
describe("a tape of 30 mm set radius over 40 mm", () => {
  const span = { kappa: 1 / 0.03, L: 0.04 };
  test("bows by 6.667 mm and keeps 0.494 mm when its middle is pressed flat", () => {
    expect(freeBow.value(span) * 1e3).toBeCloseTo(6.6667, 4);
    expect(restBow.value(span) * 1e3).toBeCloseTo(0.009259 * (40 ** 2 / 30), 3);
  });
  test("leaves a bow of 1/2160 of its span at a set radius of 20 spans", () => {
    expect(restBow.value({ kappa: 1 / 20, L: 1 })).toBeCloseTo(0.00046296, 8);
  });
});
test("a tail of 12 mm at 10 /m rises 0.72 mm", () => {
  expect(overhangLift.value({ kappa: 10, c: 12e-3 }) * 1e3).toBeCloseTo(0.72, 9);
});
describe("tension takes bow away", () => {
  // The same program, and the notes: 34.2 N mm2, 0.5 N, 60 mm over 40 mm. [derived]
  test("0.5 N leave 0.938503 of 3.333 mm", () => {
    expect(tautBow({ EI: 34.2e-6, kappa: 1 / 0.06, S: 0.5, L: 0.04 }) * 1e3).toBeCloseTo(0.938503, 5);
  });
  test("none is left alone: a slack span bows freely, and more pull never bows it more", () => {
    const pull = fc.double({ min: 0, max: 5, noNaN: true });
    const at = (S: number) => tautBow({ EI: 34.2e-6, kappa: 10, S, L: 0.04 });
    expect(at(0)).toBeCloseTo(freeBow.value({ kappa: 10, L: 0.04 }), 12);
    fc.assert(
      fc.property(pull, pull, (a, b) => {
        expect(at(Math.max(a, b))).toBeLessThanOrEqual(at(Math.min(a, b)) + 1e-15);
      }),
      { seed: 431, numRuns: 200 },
    );
  });
  test("a push and a tape without stiffness are refused in words", () => {
    expect(() => tautBow({ EI: 34e-6, kappa: 10, S: -0.1, L: 0.04 })).toThrow("-0.1 N pushes");
    expect(() => tautBow({ EI: 0, kappa: 10, S: 0.1, L: 0.04 })).toThrow("stiffness is 0");
  });
});

describe("in a scene", () => {
  test("a leaf leaves rest bow and tail, and the lips stop the tape at their room", () => {
    expect(leafLift.value({ b_r: 0.02e-3, b_o: 0.1e-3, s_l: 0.35e-3 }) * 1e3).toBeCloseTo(0.12, 12);
    expect(leafLift.value({ b_r: 0.2e-3, b_o: 0.5e-3, s_l: 0.35e-3 }) * 1e3).toBeCloseTo(0.35, 12);
    expect(leafLift.value({ b_r: 0.2e-3, b_o: 0.5e-3, s_l: -0.1e-3 })).toBe(0);
  });
  test("a rib lets the tape rise to it, wherever its set would have it", () => {
    const one = scene(heldByRib(24), embossedTape(24));
    expect(liftOverTeeth(one)).toBe(ribLift);
    expect(ribLift.value({ g_r: 0.6e-3, T: 0.35e-3, b_o: 0 }) * 1e3).toBeCloseTo(0.25, 12);
    expect(checkBow.because(() => "x", one)).toContain("Under the rib");
  });
  test("a leaf that presses 10 mm before the wheel lets a strongly set tape rise to its lips", () => {
    const unit = heldByLeaf(8);
    const far = { ...unit["hold-down"]!, at: written("u/at", "s", "4 mm") };
    const lift = (hold: typeof far) => nominal(scene({ ...unit, "hold-down": hold }, embossedTape(8)), leafLift);
    expect(lift(far)).toBeGreaterThan(10 * nominal(scene(unit, embossedTape(8)), leafLift));
  });
  test("the tape's own pull takes a little of the bow in a leaf's window", () => {
    const one = scene(heldByLeaf(12), embossedTape(12));
    const [free, pulled] = [nominal(one, freeBow), nominal(one, pulledBow)];
    expect(pulled).toBeLessThan(free);
    expect(pulled).toBeGreaterThan(0.9 * free);
  });
  test("a run-off bend leaves no bow of its own to judge", () => {
    const one = scene(heldByBend(8), punchedTape());
    expect(checkBow.absent(one)).toBe("the tape is held by its own stiffness over the run-off bend");
    expect(liftOverTeeth(one)).toBeUndefined();
  });
  test("a rib without a gap says what is missing", () => {
    expect(checkBow.absent(scene({ ...heldByLeaf(12), "hold-down": { kind: "rib" } }, embossedTape(12)))).toBe(
      "the height between ledge and rib is not given",
    );
  });
  test("a tape that comes off curled to 10 mm is outside the range", () => {
    expect(outside(restBow, { kappa: 100, L: 0.02 })).toEqual(["kappa"]);
  });
});
