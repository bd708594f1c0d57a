import { describe, expect, test } from "vitest";
import { pairs, sceneOf, shapeOf } from "./example.fixture.ts";
import { grownBy, handleKey, handleSize, handlesOf } from "./handle.ts";
import { type Handle, toSvg } from "./scene.ts";
import { unitSheet } from "./sheet.ts";
import { unitShape } from "./unit-shape.ts";

const sizes = [
  [920, 400],
  [1480, 640],
  [700, 430],
] as const;
const sheetOf = (unit: string, tape: string, width = 920, height = 400) =>
  unitSheet(shapeOf(unit, tape), { width, height });
const handles = (unit: string, tape: string, width?: number, height?: number): Handle[] =>
  handlesOf(sheetOf(unit, tape, width, height), shapeOf(unit, tape));
const named = (list: readonly Handle[], member: string): Handle => {
  const found = list.find(({ members }) => members.includes(member));
  if (!found) throw new Error(`no handle of ${member} among ${list.map((h) => h.members.join(" ")).join(", ")}`);
  return found;
};

describe.each(pairs)("%s on %s", (unit, tape) => {
  test.each(sizes)(
    "at %d by %d every handle is a finite place, a direction, and numbers of the unit's file",
    (width, height) => {
      const list = handles(unit, tape, width, height);
      expect(list.length).toBeGreaterThan(5);
      const { givens } = sceneOf(unit, tape).unit;
      for (const { at, along, members } of list) {
        expect([...at, ...along].every(Number.isFinite)).toBe(true);
        expect(Math.hypot(...along)).toBeGreaterThan(0);
        expect(members.filter((address) => !givens.has(address))).toEqual([]);
      }
    },
  );
  test("every handle stands on the sheet, whole", () => {
    const far = handles(unit, tape).filter(({ at: [x, y] }) => x < 12 || y < 12 || x > 920 - 8 || y > 400 - 8);
    expect(far.map(({ members, at }) => `${members[0]} at ${at.map(Math.round)}`)).toEqual([]);
  });
  test("no number leads two handles, and none but a body's stands in two", () => {
    const list = handles(unit, tape, 1480, 640);
    const leading = list.map(({ members }) => members[0]);
    expect(leading).toHaveLength(new Set(leading).size);
    const all = list.filter((h) => !h.quiet).flatMap(({ members }) => members);
    expect(all).toHaveLength(new Set(all).size);
  });
  test("no two handles are one target to a finger on a screen 1280 wide", () => {
    const list = handles(unit, tape);
    const near = list.flatMap((a, i) =>
      list.slice(i + 1).flatMap((b) => {
        const apart = Math.hypot(a.at[0] - b.at[0], a.at[1] - b.at[1]);
        return apart < handleSize / 2 ? [`${a.members[0]} and ${b.members[0]} are ${apart.toFixed(1)} px apart`] : [];
      }),
    );
    expect(near).toEqual([]);
  });
});

describe("a handle goes where its number goes", () => {
  // The drawing is made again with the number moved, its views kept: the handle must stand where `along` says.
  const by = 2e-3;
  const moved = (address: string) => {
    const scene = sceneOf("plover", "so20-24");
    const givens = [...scene.unit.givens.values()];
    const given = givens.find((g) => g.address === address);
    if (!given?.expression) throw new Error(`${address} has no centre`);
    const node = given.expression;
    const more = { op: "num", v: by * 1e3, unit: "mm", at: 0, length: 0 } as const;
    const was = { ...given };
    Object.assign(given, { expression: { op: "+", a: node, b: more, at: 0, length: 0 } });
    try {
      return unitShape(scene);
    } finally {
      Object.assign(given, was);
    }
  };
  test.each([
    "plover/film.guides.shoulder.through.2",
    "plover/film.guides.shoulder.through.1",
    "plover/film.guides.back edge.through.3",
    "plover/tape.route.3.line",
    "plover/tape.section.groove.depth",
  ])("%s", (address) => {
    const before = sheetOf("plover", "so20-24");
    const shape = moved(address);
    const after = unitSheet(shape, { width: 920, height: 400, keep: before.placed });
    const [a, b] = [
      named(handlesOf(before, shapeOf("plover", "so20-24")), address),
      named(handlesOf(after, shape), address),
    ];
    const wanted = [a.at[0] + a.along[0] * by, a.at[1] + a.along[1] * by];
    expect(Math.hypot(b.at[0] - wanted[0]!, b.at[1] - wanted[1]!)).toBeLessThan(1.5);
  });
  test("and what is drawn back by as many pixels is the number again", () => {
    for (const handle of handles("plover", "so20-24"))
      expect(grownBy(handle, [handle.along[0] * by, handle.along[1] * by])).toBeCloseTo(by, 12);
  });
  test("what is drawn across it changes nothing", () => {
    for (const handle of handles("plover", "so20-24"))
      expect(grownBy(handle, [-handle.along[1], handle.along[0]])).toBeCloseTo(0, 12);
  });
});

test("the nip's rollers, axis and guide have one handle: they go together", () => {
  const { members } = named(handles("plover", "so20-24"), "plover/film.guides.nip.through.1");
  expect(members).toEqual(expect.arrayContaining(["plover/nip.axis.1", "plover/bodies.nip upper.circle.1"]));
});
test("a unit whose film stays in the plane has no handles across the tape", () => {
  expect(handles("dunlin", "so20-24").filter(({ name }) => name.endsWith("across the tape"))).toEqual([]);
});
test("handles are not written into the drawing", () => {
  const sheet = sheetOf("plover", "so20-24");
  expect(JSON.stringify(sheet.shapes)).toContain('"handle":');
  expect(toSvg(sheet, { prefix: "unit" })).not.toContain("handle");
});

describe("bodies, hold-down and wheel", () => {
  const big = (unit: string, tape: string) => handles(unit, tape, 1480, 640);
  test("a motor is moved as the part it is, along the travel and up and down", () => {
    const { members, quiet } = named(big("plover", "so16-16"), "plover/bodies.feed motor.box.1");
    expect(members).toContain("plover/bodies.feed motor.box.3");
    expect(quiet).toBe(true);
  });
  test("thickness of a leaf, gap of a rib and height of a tooth are held where they act, finer than to scale", () => {
    const { scale } = sheetOf("plover", "so16-16", 1480, 640).placed.view!;
    expect(Math.hypot(...named(big("plover", "so16-16"), "plover/hold-down.thickness").along)).toBeGreaterThan(
      scale * 1e4,
    );
    expect(Math.hypot(...named(big("dunlin", "so20-24"), "dunlin/hold-down.gap").along)).toBeGreaterThan(scale * 1e4);
    named(big("plover", "so16-16"), "plover/sprocket.tooth.height above tape");
  });
  test("the wheel takes its body along", () => {
    const { members } = named(big("plover", "so16-16"), "plover/sprocket.at");
    expect(members).toContain("plover/bodies.wheel.circle.1");
  });
  test("none of them covers words or the detail", () => {
    const sheet = sheetOf("plover", "so16-16");
    const { at, r } = sheet.placed.detail!;
    for (const h of handlesOf(sheet, shapeOf("plover", "so16-16")).filter((one) => one.quiet))
      expect(Math.hypot(h.at[0] - at[0], h.at[1] - at[1])).toBeGreaterThan(r);
  });
  test("while a hand holds one, none comes or goes", () => {
    const shape = shapeOf("plover", "so16-16");
    const sheet = sheetOf("plover", "so16-16", 1480, 640);
    const some = new Map(
      handlesOf(sheet, shape)
        .slice(0, -2)
        .map((h) => [handleKey(h), h.spot ?? 0] as const),
    );
    const here = (list: readonly Handle[]) => list.filter((h) => h.quiet).map(handleKey);
    expect(here(handlesOf(sheet, shape, some))).toEqual(here(handlesOf(sheet, shape)).filter((key) => some.has(key)));
  });
});
