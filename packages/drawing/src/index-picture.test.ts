import { noIndex } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { sceneOf } from "./example.fixture.ts";
import {
  at,
  between,
  drawnLanes,
  endOf,
  eventAt,
  indexPicture,
  momentOf,
  nextEvent,
  sayMoment,
} from "./index-picture.ts";

const picture = indexPicture(sceneOf("plover", "so16-16"));
const { lanes } = picture;

test("every lane has one number a step, and all of them are numbers", () => {
  for (const name of drawnLanes) {
    expect(lanes[name]).toHaveLength(lanes.t.length);
    expect(lanes[name].every(Number.isFinite)).toBe(true);
  }
  for (const one of [picture.lo, picture.hi, picture.teeth]) expect(one).toHaveLength(lanes.t.length);
});
test("it can cross to another thread and is the same there", () => {
  expect(structuredClone(picture)).toEqual(picture);
});
test("the tape stays within the play of its teeth, but for what the hole gives way by", () => {
  // Least stiffness of a hole and greatest force give 0.1 mm; the play itself is several tenths.
  const off = [...lanes.t].map((_, i) => lanes.tape[i]! - lanes.wheel[i]! * picture.radius);
  off.forEach((x, i) => {
    expect(x).toBeGreaterThan(picture.lo[i]! - 0.1e-3);
    expect(x).toBeLessThan(picture.hi[i]! + 0.1e-3);
  });
});
test("where a tooth drives, the tape lies at the back of its play", () => {
  const i = lanes.hole.indexOf(Math.max(...lanes.hole));
  const seat = (lanes.tape[i]! - lanes.wheel[i]! * picture.radius - picture.lo[i]!) / (picture.hi[i]! - picture.lo[i]!);
  expect(seat).toBeLessThan(0.15);
});
test("the tape ends about one pitch on, within the play of its teeth", () => {
  const moved = lanes.tape.at(-1)! - lanes.tape[0]!;
  expect(Math.abs(moved - picture.travel)).toBeLessThan(Math.max(...picture.hi) - Math.min(...picture.lo));
});
test("between two steps a lane is their mean, beyond its ends what it is there", () => {
  const t = (lanes.t[10]! + lanes.t[11]!) / 2;
  expect(at(picture, "tape", t)).toBeCloseTo((lanes.tape[10]! + lanes.tape[11]!) / 2, 12);
  expect(between(picture, picture.lo, t)).toBeCloseTo((picture.lo[10]! + picture.lo[11]!) / 2, 12);
  expect(at(picture, "tape", -1)).toBe(lanes.tape[0]);
  expect(between(picture, picture.hi, 9)).toBe(picture.hi.at(-1));
});
test("a moment holds what the lanes hold then", () => {
  const t = lanes.t[200]!;
  expect(momentOf(picture, t)).toMatchObject({ tape: lanes.tape[200], wheel: lanes.wheel[200], hole: lanes.hole[200] });
});
describe("events", () => {
  test("come in order of time, and each is gone to from its neighbours", () => {
    const times = picture.events.map((e) => e.t);
    expect(times).toEqual([...times].sort((a, b) => a - b));
    const [, second] = [...new Set(times)];
    expect(nextEvent(picture, times[0]!, 1)).toBe(second);
    expect(nextEvent(picture, second!, -1)).toBe(times[0]);
    expect(nextEvent(picture, endOf(picture), 1)).toBe(endOf(picture));
    expect(nextEvent(picture, 0, -1)).toBe(0);
  });
  test("the last one is the one that was reached", () => {
    expect(eventAt(picture, -1e-3)).toBe(-1);
    for (const [i, e] of picture.events.entries()) expect(eventAt(picture, e.t)).toBeGreaterThanOrEqual(i);
    expect(eventAt(picture, endOf(picture))).toBe(picture.events.length - 1);
  });
});
test("a moment is said with time, places and forces, and no sign that a voice skips", () => {
  const said = sayMoment(picture, lanes.t[150]!);
  expect(said).toMatch(/^[\d.]+ ms, tape [\d.]+ mm on, wheel [\d.]+ mm, film [\d.]+ mm, tooth pushes with [\d.]+ N/);
  expect(sayMoment(picture, 0)).not.toContain("−");
});
test("a unit that can't be indexed says why", () => {
  const scene = sceneOf("plover", "so16-16");
  const { "feed drive": _, ...unit } = scene.unit;
  const bare = { ...scene, unit };
  expect(noIndex(bare)).toBeDefined();
  expect(() => indexPicture(bare)).toThrow(noIndex(bare));
});
