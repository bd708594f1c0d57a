import { describe, expect, test } from "vitest";
import { commanded, type IndexDesign } from "./design.ts";
import { inventedDesign } from "./drives.ts";
import { changed, circumstanceNames, firmwareOf, leadOf, stopOf } from "./firmware.ts";
import { measuresOf } from "./measures.ts";
import { runIndex } from "./run.ts";

const at = (volts: number): IndexDesign => {
  const d = inventedDesign();
  return commanded({ ...d, feed: { ...d.feed, volts } }, { end: 0.25 });
};
// 1.1568, 0.8664, 0.5666 mm at 10, 7, 5 V: an independent program of the same law (unpublished working notes). [derived]
test.each([
  [10, 1.1568e-3],
  [7, 0.8664e-3],
  [5, 0.5666e-3],
])("at %d V the brake that stops the wheel on 4 mm begins %d m before it", (volts, lead) => {
  const d = at(volts);
  const found = leadOf(d)!;
  expect(Math.abs(found - lead)).toBeLessThan(3e-6);
  expect(Math.abs(stopOf(commanded(d, { lead: found })))).toBeLessThan(3e-7);
});
test("a motor that cannot move the tape has no lead", () => {
  const d = at(10);
  expect(leadOf({ ...d, tape: { ...d.tape, sliding: 60, sticking: 60 } })).toBeUndefined();
});

describe("the constants of the invented unit", () => {
  const f = firmwareOf(at(10), { units: 40 });
  const named = (name: string) => f.constants.find((c) => c.name === name)!;
  test("stop the wheel where they should", () => {
    expect(Math.abs(measuresOf(f.design, f.run).stopError)).toBeLessThan(3e-7);
  });
  test("move their stop the way physics has it: further with volts and heat, less far with friction", () => {
    const by = Object.fromEntries(named("lead").shifts.map((s) => [s.of, s.by]));
    expect(Object.keys(by)).toEqual(circumstanceNames);
    expect(by.volts).toBeGreaterThan(0);
    expect(by.hot).toBeGreaterThan(0);
    expect(by.torque).toBeLessThan(0);
    expect(by.drag).toBeLessThan(0);
    expect(by.gearing).toBeLessThan(0);
  });
  test("say that a lead alone cannot hold 50 um", () => {
    expect(f.stopScatter).toBeGreaterThan(50e-6);
    expect(f.openLoop).toMatch(/^An open-loop lead cannot hold 50 um: .* um\. Approach slowly/);
    expect(named("lead").note).toBe(f.openLoop);
  });
  test("start the peel motor just as long before as its film takes to pull", () => {
    const lead = named("peel lead").value;
    expect(lead).toBeGreaterThan(5e-3);
    expect(lead).toBeLessThan(20e-3);
    // More volts pull sooner, a hot winding later.
    const by = Object.fromEntries(named("peel lead").shifts.map((s) => [s.of, s.by]));
    expect(by.volts).toBeLessThan(0);
    expect(by.hot).toBeGreaterThan(0);
  });
  test("tell a stall from a start: threshold over what running draws and below what a hot stall draws", () => {
    const { lanes, marks } = f.run;
    const brake = marks.find((m) => m.what === "brake")!.t;
    const late = lanes.current.filter((_, i) => lanes.t[i]! > 0.8 * brake && lanes.t[i]! < brake);
    expect(named("stall current").value).toBeGreaterThan(Math.max(...late));
    expect(named("stall current").value).toBeLessThan(10 / (16 * 1.2));
    // A start stays over the threshold for a shorter time than the stall time.
    const over = lanes.t.filter((t, i) => t < brake && lanes.current[i]! > named("stall current").value).at(-1)!;
    expect(over - f.design.commands.feedStart).toBeLessThan(named("stall time").value);
  });
  test("time out after half as long again as the index takes", () => {
    expect(named("time-out").value).toBeCloseTo(1.5 * measuresOf(f.design, f.run).time, 9);
    expect(named("time-out").note).toBe("From this index; at least volts and hot it takes longer.");
  });
  test("say that forty units in turn take longer than an index", () => {
    expect(named("stagger").note).toMatch(/^40 units in turn take .*, longer than an index/);
    expect(named("stagger").value * 40).toBeGreaterThan(measuresOf(f.design, f.run).time);
  });
  test("home over the play of teeth and gears: 0.1 mm and 6.5 mrad of 15.279 mm", () => {
    expect(named("homing").value).toBeCloseTo(0.1e-3 + 6.5e-3 * 15.279e-3, 12);
  });
});

test("a ramp brings the start's jolt below what was asked, where the start has one", () => {
  const d = at(10);
  const bare: IndexDesign = { ...d, peel: undefined, film: undefined };
  const f = firmwareOf(bare, { jolt: 0.02 });
  const ramp = f.constants.find((c) => c.name === "ramp")!;
  expect(ramp.value).toBeGreaterThan(0);
  const jolt = (r: number): number => {
    const x = commanded(bare, { ramp: r, lead: 0, travel: 40e-3 });
    return measuresOf(x, runIndex(x)).jolt;
  };
  expect(jolt(Number.POSITIVE_INFINITY)).toBeGreaterThan(0.02);
  expect(jolt(ramp.value)).toBeLessThanOrEqual(0.02);
});
test("a nip too weak for its seal has no peel lead, and the firmware says what it lacks", () => {
  const d = at(10);
  const f = firmwareOf({ ...d, film: { ...d.film!, traction: 0.4 } });
  expect(f.constants.map((c) => c.name)).not.toContain("peel lead");
  expect(f.warnings.join()).toContain("No peel lead: the nip pulls at most 0.40 N on a standing tape");
});
test("at least volts, hot, the time-out is longer", () => {
  const d = at(10);
  const worst: IndexDesign = { ...d, feed: { ...d.feed, volts: 8, R: 20 } };
  const of = (f: ReturnType<typeof firmwareOf>): number => f.constants.find((c) => c.name === "time-out")!.value;
  expect(of(firmwareOf(d, { worst }))).toBeGreaterThan(of(firmwareOf(d)));
});
test("each circumstance changes what its name says and nothing else", () => {
  const d = at(10);
  expect(changed(d, "volts").feed.volts).toBeCloseTo(10.5, 12);
  expect(changed(d, "hot").feed.R).toBeCloseTo(19.2, 12);
  expect(changed(d, "torque").feed.T0).toBeCloseTo(2.25e-4, 15);
  expect(changed(d, "drag").tape.sliding).toBeCloseTo(0.7, 12);
  expect(changed(d, "gearing").feed.forward).toBeLessThan(d.feed.forward);
  expect(changed(d, "volts", "peel").feed).toBe(d.feed);
  expect(changed({ ...d, peel: undefined }, "volts", "peel").peel).toBeUndefined();
});
