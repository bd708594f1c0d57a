import { describe, expect, test } from "vitest";
import { embossedTape, nominal, oneSeal, scene, scenes, sideCrossing, written } from "../scene.fixture.ts";
import { asWritten, Realiser } from "../study/realise.ts";
import { farVolts } from "../supply/volts.ts";
import { drivenScene, drivenUnit } from "./cycle.fixture.ts";
import { type IndexDesign, troubles } from "./design.ts";
import { index, indexHole, indexTime } from "./index-model.ts";
import { coldDesign, hotDesign, noFilmInIndex, noIndex } from "./of-scene.ts";
import { rigidTime } from "./rigid.ts";
import { checkStops, shiftByVolts, stopError } from "./stops.ts";
import { allowedTime, checkTime } from "./time.ts";

const drawn = (s: ReturnType<typeof drivenScene>, which: typeof coldDesign): IndexDesign =>
  which.value(new Realiser(s, [which]).run(asWritten).inputsOf(which, s));
const counted = {
  stop: "count at the wheel",
  "wheel counts": written("driven/counts", "c", "1200 counts", "counts"),
} as const;

const slowly = {
  stop: "two speeds",
  "slow share": written("driven/slow share", "q", "0.3", ""),
  "slow over": written("driven/slow over", "x", "4 mm"),
} as const;

describe("a unit with both motors known", () => {
  const s = drivenScene(12);
  const [cold, hot] = [drawn(s, coldDesign), drawn(s, hotDesign)];
  test("is a sound design, cold and hot", () => {
    expect(troubles(cold)).toEqual([]);
    expect(troubles(hot)).toEqual([]);
  });
  test("has the unit's own numbers: turns, travel, pitch radius", () => {
    expect(cold.feed.ratio).toBeCloseTo(8 * 40, 9);
    expect(cold.peel!.ratio).toBeCloseTo(6 * 20, 9);
    expect(cold.commands.travel).toBeCloseTo(8e-3, 12);
    expect(cold.wheel.radius).toBeCloseTo((24 * 4e-3) / (2 * Math.PI), 9);
    expect(cold.wheel.play.pitch).toBeCloseTo((2 * Math.PI) / 24, 12);
  });
  test("has less to give when it is hot and the rail sags", () => {
    expect(hot.feed.volts).toBeLessThan(cold.feed.volts);
    expect(hot.feed.R).toBeGreaterThan(cold.feed.R);
    expect(hot.feed.k).toBeLessThan(cold.feed.k);
    expect(cold.feed.volts).toBeCloseTo(12, 9);
  });
  test("locks its worm: driven backward it has no efficiency", () => expect(cold.feed.backward).toBeLessThan(0));
  test("runs its index in the simulation within a fifth of what the rigid drive takes", () => {
    const ratio = nominal(s, rigidTime) / nominal(s, indexTime);
    expect(ratio).toBeGreaterThan(0.8);
    expect(ratio).toBeLessThan(1.2);
    expect(nominal(s, indexHole)).toBeGreaterThan(0.5);
  });
  test("gives an index that finishes, with a lead shorter than its travel", () => {
    const solved = index.value(new Realiser(s, [index]).run(asWritten).inputsOf(index, s));
    expect(solved.finished).toBe(true);
    expect(solved.lead).toBeGreaterThan(0);
    expect(solved.lead).toBeLessThan(8e-3);
    expect(solved.measures.warnings).toEqual([]);
  });
});

describe("what is missing is said, never passed", () => {
  test.each([
    ["the unit has no sprocket", scene(oneSeal(), embossedTape(8))],
    ["the unit has no feed drive", scene(sideCrossing(12), embossedTape(12))],
    ["project.yaml gives no supply", scene(drivenUnit(12), embossedTape(12))],
  ])("%s", (why, one) => {
    expect(noIndex(one)).toBe(why);
    expect(checkTime.absent(one)).toBe(why);
    expect(checkStops.absent(one)).toBe(why);
  });
  test("a motor of which nothing is known", () => {
    const unit = drivenUnit(12);
    const { winding: _, ...feed } = unit["feed drive"]!;
    const one = drivenScene(12, undefined, { ...unit, "feed drive": feed });
    expect(checkTime.absent(one)).toMatch(/neither its motor's sheet nor its winding/);
  });
  test("a project that asks for no index time, which the stop does not need", () => {
    const { indexTime: _, ...rest } = drivenScene(12).requirement;
    const one = { ...drivenScene(12), requirement: rest };
    expect(checkTime.absent(one)).toBe("project.yaml asks for no index time");
    expect(checkStops.absent(one)).toBeUndefined();
  });
  test("a film whose motor is not known is left out, and the sentence says so", () => {
    const { "peel drive": _, ...unit } = drivenUnit(12);
    const one = drivenScene(12, undefined, unit);
    expect(noFilmInIndex(one)).toBe("the unit has no peel drive");
    expect(drawn(one, coldDesign).film).toBeUndefined();
    expect(checkTime.because(() => "x", one)).toContain("(without its film: the unit has no peel drive)");
  });
  test("every invented scene either has an index or a reason", () => {
    for (const [name, one] of scenes) {
      const why = noIndex(one);
      if (why === undefined) expect(rigidTime.reads(one), name).toBeDefined();
      else expect(why.length, name).toBeGreaterThan(10);
    }
  });
});

describe("drive.time", () => {
  test("allows what the project asks for, or what the pitch takes at film speed", () => {
    // 8 mm at 80 mm/s are 100 ms, 12 mm are 150 ms. [derived]
    expect(nominal(drivenScene(12), allowedTime)).toBeCloseTo(0.1, 12);
    expect(nominal(drivenScene(24), allowedTime)).toBeCloseTo(0.15, 12);
    expect(nominal(drivenScene(8), allowedTime)).toBeCloseTo(0.1, 12);
  });
});
describe("drive.stops", () => {
  test("a slow approach holds the stop better, and a count at the wheel adds half a count", () => {
    const open = drivenScene(12);
    const slow = drivenScene(12, slowly);
    const wheel = drivenScene(12, { ...slowly, ...counted });
    const error = (s: typeof open): number => nominal(s, stopError(s));
    expect(error(slow)).toBeLessThan(0.6 * error(open));
    // 96 mm a turn over 1200 counts, half of it. [derived]
    expect(error(wheel) - error(slow)).toBeCloseTo(40e-6, 9);
    expect(checkStops.because(() => "x", wheel)).toMatch(/^Slowed down and braked by the wheel's count/);
  });
  test("an open-loop stop shifts by more than is allowed it", () => {
    const s = drivenScene(12);
    expect(nominal(s, shiftByVolts)).toBeGreaterThan(nominal(s, s.requirement.assume["stop allowance"]));
  });
});
test("hot, both drives run at the volts that supply.drop finds at the farthest unit: nothing else says what the rail leaves", () => {
  const s = drivenScene(12);
  const [hot, cold] = [drawn(s, hotDesign), drawn(s, coldDesign)];
  const far = nominal(s, farVolts);
  expect([hot.feed.volts, hot.peel!.volts]).toEqual([far, far]);
  expect(far).toBeLessThan(cold.feed.volts);
});
