import { describe, expect, test } from "vitest";
import { shapeOf } from "./example.fixture.ts";
import { anchorOf, highlightShapes, type Place, placeOf, placeOfAddress, sayPlace, stationAnchor } from "./place.ts";

const plover = shapeOf("plover", "carrier-24");
const dunlin = shapeOf("dunlin", "carrier-24");

// The words are those that the checks give as `where`.
test.each([
  ["span back edge to shoulder, 56 mm", plover, { kind: "span", from: "back edge", to: "shoulder" }],
  ["span peel line to back edge, 8 mm", plover, { kind: "span", from: "peel line", to: "back edge" }],
  ["kink over the back edge", plover, { kind: "guide", name: "back edge" }],
  ["lean at the peel line", plover, { kind: "guide", name: "peel line" }],
  ["lean at the nip", plover, { kind: "guide", name: "nip" }],
  ["bend 1 of the route", dunlin, { kind: "bend", number: 1 }],
  ["bend 1, radius 48.8 mm", dunlin, { kind: "bend", number: 1 }],
  ["on the straight", plover, { kind: "station", station: 2 }],
] as const)("%j is found on the drawing", (where, shape, place) => {
  const found = placeOf(shape, { where, station: 2 });
  expect(found).toEqual(place);
  expect(anchorOf(shape, found)).toBeDefined();
});
test("a finding without a place of its own points at its station", () => {
  expect(placeOf(plover, { station: 7 })).toEqual({ kind: "station", station: 7 });
});

describe("an unknown is marked where it acts", () => {
  test.each([
    ["plover/film.friction", 4],
    ["assume/film friction", 4],
    ["catalogue/seal", 4],
    ["catalogue/film break", 4],
    ["assume/peel front", 4],
    ["assume/film wander", 7],
    ["plover/nip.friction.2", 7],
    ["dunlin/nip.slip.torque", 7],
    ["tapes/dpak-16/T", 2],
    ["plover/tape.section.groove.depth", 2],
    ["catalogue/ten-pitch error", 6],
    ["coil-12/camber", 1],
  ])("%s at station %d", (address, station) => {
    expect(placeOfAddress(address)).toEqual({ kind: "station", station });
  });
});
test("a station the unit has no part for has no place", () => {
  const bare = {
    ...plover,
    nip: undefined,
    sprocket: undefined,
    holdDown: undefined,
    led: undefined,
    drives: [],
    bodies: [],
  };
  expect([3, 6, 7, 8, 9].map((s) => stationAnchor(bare, s))).toEqual([
    undefined,
    undefined,
    undefined,
    undefined,
    undefined,
  ]);
  expect(stationAnchor(plover, 10)).toBeUndefined();
});
test("a span's anchor is its middle, a guide's its line", () => {
  const span = plover.led!.spans[1]!;
  expect(anchorOf(plover, { kind: "span", from: span.from, to: span.to })).toEqual([
    (span.ends[0][0] + span.ends[1][0]) / 2,
    (span.ends[0][2] + span.ends[1][2]) / 2,
  ]);
  const odd: Place = { kind: "span", from: "a", to: "b" };
  expect(anchorOf(plover, odd)).toBeUndefined();
});

describe("where the checks of hold-down, pick, wheel, drives and supply act", () => {
  const place = (check: string, station: number, where?: string): Place =>
    placeOf(plover, { check, station: station as 3, ...(where === undefined ? {} : { where }) });
  test.each([
    ["hold.down", 3, undefined, { kind: "stretch", of: "hold-down" }],
    ["leaf.fatigue", 3, undefined, { kind: "stretch", of: "hold-down" }],
    ["hold.opening", 3, "the leaf's window, along the travel", { kind: "station", station: 5 }],
    ["part.lifts", 5, undefined, { kind: "stretch", of: "open pockets" }],
    ["pocket.floor", 5, undefined, { kind: "station", station: 5 }],
    ["pick.half-step", 5, undefined, { kind: "tooth" }],
    ["tooth.enters", 6, "along the tape", { kind: "tooth" }],
    ["tooth.disc", 6, undefined, { kind: "station", station: 6 }],
    ["hole.bears", 6, undefined, { kind: "tooth" }],
    ["tape.push", 6, undefined, { kind: "stretch", of: "run-off" }],
    ["drive.moves", 8, "the peel drive", { kind: "drive", name: "peel" }],
    ["brush.lasts", 8, "the feed drive", { kind: "drive", name: "feed" }],
    ["drive.time", 8, undefined, { kind: "drive", name: "feed" }],
    ["nip.meshes", 7, undefined, { kind: "station", station: 7 }],
    ["supply.drop", 9, undefined, { kind: "station", station: 9 }],
  ] as const)("%s", (check, station, where, wanted) => {
    expect(place(check, station, where)).toEqual(wanted);
  });
  test("each has a point on the drawing, a mark about it, and words", () => {
    const view = { scale: 4, origin: [300, 200] as const };
    for (const one of [
      place("hold.down", 3),
      place("part.tips", 5),
      place("tooth.skip", 6),
      place("tape.push", 6),
      place("drive.heats", 8, "the peel drive"),
      place("supply.trace", 9),
    ]) {
      expect(anchorOf(plover, one)!.every(Number.isFinite)).toBe(true);
      expect(highlightShapes(plover, view, one).length).toBeGreaterThan(0);
      expect(sayPlace(one)).toMatch(/^(the |station )/);
    }
  });
  test("the open pockets are marked from the peel line to the pick", () => {
    const [x] = anchorOf(plover, { kind: "stretch", of: "open pockets" })!;
    expect(x).toBeGreaterThan(plover.led!.peel[0]);
    expect(x).toBeLessThan(plover.letters.A0 / 2);
  });
  test("what a unit does not have is pointed at by its station", () => {
    const bare = { ...plover, sprocket: undefined, holdDown: undefined, drives: [] };
    expect(placeOf(bare, { check: "tooth.enters", station: 6 })).toEqual({ kind: "station", station: 6 });
    expect(placeOf(bare, { check: "drive.moves", station: 8, where: "the feed drive" })).toEqual({
      kind: "station",
      station: 8,
    });
  });
  test.each([
    ["assume/hold-down friction", 3],
    ["assume/leaf ripple", 3],
    ["assume/pick tool excess", 5],
    ["assume/hole strength of plastic", 6],
    ["assume/gear head efficiency", 8],
    ["assume/worm friction", 8],
    ["assume/brush life", 8],
    ["assume/bridge resistance", 9],
    ["assume/contact resistance", 9],
    ["assume/loop stiffness", 1],
    ["assume/wound density", 1],
    ["assume/tape friction", 2],
    ["plover/supply.least", 9],
    ["plover/feed drive.worm.friction", 8],
    ["tapes/so16-16/part mass", 5],
    ["plover/per width.24.nip.preload", 7],
  ])("an unknown, %s, at station %d", (address, station) => {
    expect(placeOfAddress(address)).toEqual({ kind: "station", station });
  });
});
