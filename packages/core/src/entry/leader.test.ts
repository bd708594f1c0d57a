import { describe, expect, test } from "vitest";
import { pathLength } from "../film/path.ts";
import { embossedTape, nominal, oneSeal, overhead, scene, sideCrossing } from "../scene.fixture.ts";
import { checkLeader, leaderEmpty, leaderLength, openedByHand, threading } from "./leader.ts";

const mm = 1e-3;

// IEC 60286-3 as quoted in a maker's packaging sheet: leader 400 mm at least, of it 160 mm of empty, sealed pockets. [read]
test("a leader has 240 mm of film that is sealed to nothing", () => {
  expect(leaderLength.text).toBe("400 mm");
  expect(openedByHand.value({ l_t: 0.24, l_l: 0.4, l_e: 0.16 })).toBeCloseTo(0, 12);
  expect(nominal(scene(overhead(24), embossedTape(24)), leaderEmpty)).toBeCloseTo(0.16, 12);
});
test("a path of 300 mm opens 60 mm of pockets by hand, one of 200 mm none", () => {
  expect(openedByHand.value({ l_t: 0.3, l_l: 0.4, l_e: 0.16 })).toBeCloseTo(0.06, 12);
  expect(openedByHand.value({ l_t: 0.2, l_l: 0.4, l_e: 0.16 })).toBe(0);
});
describe("threading takes", () => {
  test("the film to the nip and the diameter of the larger roller", () => {
    expect(threading.value({ l_f: 0.1, r_1: 0.005, r_2: 0.006 })).toBeCloseTo(0.112, 12);
    const one = scene(overhead(24), embossedTape(24));
    // Rollers of 5 and 6 mm; one span from (-10, 0.35) to (-30, 12). By hand. [derived]
    expect(nominal(one, threading) / mm).toBeCloseTo(Math.hypot(20, 11.65) + 12, 6);
  });
  test("the same for both rollers where the file gives one radius, and nothing more where it gives none", () => {
    const one = scene(sideCrossing(12), embossedTape(12));
    expect(nominal(one, threading) - nominal(one, pathLength)).toBeCloseTo(10 * mm, 12);
    const { nip: _, ...rest } = sideCrossing(12);
    const bare = scene(rest, embossedTape(12));
    expect(nominal(bare, threading)).toBe(nominal(bare, pathLength));
  });
});
test("the check annoys and never stops a tape, and knows no film that is not led", () => {
  expect(checkLeader.severity).toBe("N");
  expect(checkLeader.absent(scene(oneSeal(), embossedTape(8)))).toBe(
    'the film is opened as "one seal", not peeled off whole',
  );
  expect(threading.reads(scene(oneSeal(), embossedTape(8)))).toBeUndefined();
});
