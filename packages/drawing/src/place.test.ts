import { describe, expect, test } from "vitest";
import { shapeOf } from "./example.fixture.ts";
import { anchorOf, type Place, placeOf, placeOfAddress, stationAnchor } from "./place.ts";

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
  const bare = { ...plover, nip: undefined, sprocket: undefined, holdDown: undefined, led: undefined, bodies: [] };
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
