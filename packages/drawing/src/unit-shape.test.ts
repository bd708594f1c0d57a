import { asWritten, filmPath, guidesToNip, Realiser, type Scene, tabled } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { example, pairs, sceneOf, shapeOf } from "./example.fixture.ts";
import { unitShape } from "./unit-shape.ts";

describe.each(pairs)("%s with %s", (unit, tape) => {
  const shape = shapeOf(unit, tape);
  const scene = sceneOf(unit, tape);

  test("holds nothing but plain numbers and words, so it may cross to another thread", () => {
    expect(structuredClone(shape)).toEqual(shape);
    expect(JSON.parse(JSON.stringify(shape, (_, v) => (v === undefined ? null : v)))).toBeTruthy();
    const numbers: number[] = [];
    JSON.stringify(shape, (_, v) => {
      if (typeof v === "number") numbers.push(v);
      return v;
    });
    expect(numbers.filter((v) => !Number.isFinite(v))).toEqual([]);
  });
  test("the tape's letters are those the checks use", () => {
    const letters = Object.entries(scene.tape.letters).filter(([name]) => name in shape.letters);
    const run = new Realiser(
      scene,
      letters.map(([, q]) => q),
    ).run(asWritten);
    for (const [name, q] of letters) expect(shape.letters[name as "W"]).toBe(run.number(q));
  });
  test("the film's spans end where filmPath ends them, with its twist and fold", () => {
    const led = shape.led!;
    const guides = led.guides.slice(0, guidesToNip(scene.unit)!.length);
    const path = filmPath(
      led.peel,
      guides.map((g) => ({ through: g.through, along: g.along, rolls: g.rolls })),
      led.heading,
    );
    expect(led.peelAngle).toBeCloseTo(path.peelAngle, 12);
    expect(led.spans.map((s) => s.twist)).toEqual(path.spans.map((s) => expect.closeTo(s.twist, 12)));
    led.spans.forEach((span, i) => {
      for (const k of [0, 1, 2] as const) expect(span.ends[1][k]).toBeCloseTo(guides[i]!.through[k], 12);
    });
    // At the nip the film's width lies along the rollers, in the sense that the file gives them.
    expect(led.spans.at(-1)!.fans[1]).toEqual(guides.at(-1)!.along.map((v) => expect.closeTo(v, 9)));
  });
  test("a tooth stands in a sprocket hole", () => {
    const wheel = shape.sprocket!;
    const pick = shape.marks.find((m) => m.name === "pick")!.s;
    const holes = (wheel.s - pick - shape.letters.P2) / shape.letters.P0;
    // The drawings' wheel lies P2 and whole P0 from the pick, so its highest tooth points straight up.
    expect(Math.abs(holes - Math.round(holes))).toBeLessThan(1e-9);
    expect(wheel.phase).toBeCloseTo(Math.PI / 2, 9);
  });
});

test("the pitch circle of Plover's wheel has 24 pitches of 4 mm on it", () => {
  // 24 x 4/(2 pi) = 15.2789 mm. [derived]
  expect(shapeOf("plover", "so8-12").sprocket!.pitch * 1e3).toBeCloseTo(15.2789, 4);
});
test("the pocket hangs K0 less the carrier and more the wall below the tape", () => {
  // 2.10 + 0.30 - 0.30 mm. [derived]
  expect(shapeOf("plover", "so8-12").drop * 1e3).toBeCloseTo(2.1, 9);
  expect(shapeOf("plover", "paper-8").drop).toBe(0);
});
test("a drawn number keeps its address and its limits", () => {
  const { width } = shapeOf("plover", "so8-12").section;
  expect(width.address).toBe("plover/tape.section.width");
  expect(width.limits).toEqual([expect.closeTo(-0.1e-3, 12), expect.closeTo(0.1e-3, 12)]);
  expect(width.value).toBeCloseTo(12.45e-3, 12);
});
test("from peel to pick stands the number of the file, with its tolerance", () => {
  const [step] = shapeOf("plover", "so8-12").steps;
  expect(step).toMatchObject({
    from: "peel",
    to: "pick",
    measure: { value: expect.closeTo(9e-3, 12), limits: [expect.closeTo(-0.2e-3, 12), expect.closeTo(0.2e-3, 12)] },
  });
});

describe("the tape stands off the drawn route", () => {
  const resting = (rests: Scene["unit"]["tape"]["rests on"]): Scene => {
    const scene = sceneOf("plover", "so20-24");
    return { ...scene, unit: { ...scene.unit, tape: { ...scene.unit.tape, "rests on": rests } } };
  };
  test("not at all where its underside rests on the frame", () => {
    expect(unitShape(resting("underside")).lift).toBe(0);
  });
  test("by the difference of the thicknesses where its cover side does", () => {
    const shape = unitShape(resting("cover side"));
    // Built for T 0.35; this tape's own T is the middle of what is believed, above or below that.
    expect(shape.lift).toBeCloseTo(0.35e-3 - shape.letters.T, 12);
  });
  test("as far as the pocket hangs above the groove's floor where the floors of the pockets rest there", () => {
    const shape = unitShape(resting("floors"));
    expect(shape.lift - shape.drop).toBeCloseTo(-shape.section.depth.value, 12);
  });
});
test("a number that is no number is named, not drawn", () => {
  const scene = sceneOf("plover", "so8-12");
  const place = scene.unit.tape.place;
  const broken = tabled("plover/tape.place.x", "x", "sqrt(0 - 1) * 1 mm", [1, 0, 0, 0, 0], {
    cite: "invented",
    how: "judgement",
  });
  expect(() =>
    unitShape({ ...scene, unit: { ...scene.unit, tape: { ...scene.unit.tape, place: { ...place, x: broken } } } }),
  ).toThrow(/tape\.place.*is no finite number/);
});
test("guides at one place leave the film undrawn, with the reason", () => {
  const scene = sceneOf("plover", "so8-12");
  const guides = scene.unit.film.guides!;
  const film = { ...scene.unit.film, guides: [guides[0]!, { ...guides[0]!, name: "nip" }] };
  const shape = unitShape({ ...scene, unit: { ...scene.unit, film } });
  expect(shape.led).toBeUndefined();
  expect(shape.trouble).toContain("two guides of the film stand at the same place");
});
test("a unit without members that a drawing shows has none of them", () => {
  const scene = sceneOf("plover", "so8-12");
  const { film, sprocket: _s, nip: _n, bodies: _b, "hold-down": _h, "keep out": _k, ...rest } = scene.unit;
  const shape = unitShape({ ...scene, unit: { ...rest, film: { opens: "one seal" } } });
  expect([shape.sprocket, shape.nip, shape.led, shape.holdDown, shape.bodies.length, shape.keepOut.length]).toEqual([
    undefined,
    undefined,
    undefined,
    undefined,
    0,
    0,
  ]);
  expect(film.opens).toBe("whole width");
});
test("the example names every width both units are cut for", () => {
  expect(new Set(pairs.map(([unit, tape]) => `${unit} ${sceneOf(unit, tape).unit.row}`))).toEqual(
    new Set([...[8, 12, 16, 24, 32].map((w) => `plover ${w}`), ...[12, 16, 24, 32, 44].map((w) => `dunlin ${w}`)]),
  );
  expect([...example.wanted.keys()]).toEqual(["plover", "dunlin"]);
});
