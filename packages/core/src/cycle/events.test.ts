import { describe, expect, test } from "vitest";
import { commanded, type IndexDesign } from "./design.ts";
import { inventedDesign } from "./drives.ts";
import { type EventName, eventsOf, timeOf } from "./events.ts";
import { measuresOf } from "./measures.ts";
import { runIndex, seatedStart } from "./run.ts";

const told = (d: IndexDesign) => {
  const run = runIndex(d, { from: seatedStart(d) });
  const events = eventsOf(d, run);
  return {
    run,
    events,
    order: events.map((e) => e.what),
    m: measuresOf(d, run),
    when: (e: EventName) => timeOf(events, e)!,
  };
};
const peeled = (traction: number, more: Partial<IndexDesign["commands"]> = {}): IndexDesign => {
  const d = inventedDesign();
  return commanded(
    { ...d, film: { ...d.film!, traction } },
    { feedStart: 10e-3, lead: 1.1e-3, end: 0.25, peelHold: 20e-3, ...more },
  );
};

describe("a nip stronger than the tape's friction, its motor first", () => {
  const { order, when, m, run } = told(peeled(2));
  test("the film is taut before the tape moves, and before it peels", () => {
    expect(when("film taut")).toBeLessThan(when("film peels"));
    expect(when("film taut")).toBeLessThan(when("tape moves"));
  });
  test("the nip slips only after the film is taken up", () => {
    expect(order).toContain("nip slips");
    expect(when("nip slips")).toBeGreaterThan(when("film taut"));
    const i = run.lanes.slips.indexOf(1);
    expect(run.lanes.filmSlack[i]).toBe(0);
    expect(run.lanes.tension[i]).toBeCloseTo(2, 9);
  });
  test("the tape, held at the peel edge by more than rubs on it, ends ahead on its teeth", () => {
    expect(m.seat).toBeGreaterThan(0.9);
    expect(run.end[23]).toBeLessThanOrEqual(0);
  });
});

describe("a nip weaker than the tape's friction", () => {
  const { order, m, run } = told(peeled(0.3));
  test("never draws the tape by itself: a tooth carries it before it moves, and at the end it lies behind", () => {
    expect(order.indexOf("tooth carries")).toBeLessThan(order.indexOf("tape moves"));
    expect(m.seat).toBeLessThan(0.1);
  });
  test("slips through the whole index, since its seal needs more", () => {
    expect(m.slipped).toBeGreaterThan(3e-3);
    expect(m.peeled).toBeLessThan(0.5e-3);
    expect(run.steps.unsolved).toBe(0);
  });
});

test("without a film one tooth carries the tape, before the tape moves and before the reel pulls", () => {
  const d = inventedDesign();
  const { when, order, m } = told(commanded({ ...d, peel: undefined, film: undefined }, { end: 0.25, lead: 1e-3 }));
  expect(when("feed on")).toBeLessThanOrEqual(when("tooth carries"));
  expect(when("tooth carries")).toBeLessThanOrEqual(when("tape moves"));
  expect(when("tape moves")).toBeLessThan(when("reel pulls"));
  expect(when("brake")).toBeLessThan(when("tape stops"));
  for (const none of ["film taut", "film peels", "nip slips", "peel on", "peel off"]) expect(order).not.toContain(none);
  expect(m.hole).toBeGreaterThan(0.35);
});
test("a peel motor that starts early enough takes load off the hole", () => {
  const late = told(peeled(2, { feedStart: 0 })).m.hole;
  const early = told(peeled(2, { feedStart: 20e-3 })).m.hole;
  expect(early).toBeLessThan(0.9 * late);
});
test("events stand in the order of time, and each at most once", () => {
  const { events, order } = told(peeled(2));
  expect(events.map((e) => e.t)).toEqual(events.map((e) => e.t).sort((a, b) => a - b));
  expect(new Set(order).size).toBe(order.length);
});
