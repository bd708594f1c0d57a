import { readProject, sceneOf } from "@tapeworthy/project";
import { describe, expect, test } from "vitest";
import { example } from "./project.fixture.ts";
import type { NumberView } from "./state.ts";
import { numberViews, projectView } from "./views.ts";

const project = readProject(example).project!;
const numbersOf = (unit: string, tape: string): Map<string, NumberView> =>
  new Map(numberViews(sceneOf(project, unit, tape), project.units.get(unit)!).map((n) => [n.address, n]));
const at24 = numbersOf("plover", "so20-24");
const mm = 1e-3;

describe("the numbers on screen", () => {
  test("stand in their files where their texts stand", () => {
    for (const { place, text } of at24.values()) {
      const line = example.get(place.file)!.split("\n")[place.line - 1]!;
      expect(line.slice(place.column - 1, place.column - 1 + place.length).replace(/^["']|["']$/g, "")).toBe(text);
    }
    expect(at24.size).toBeGreaterThan(150);
  });
  test("say what they mean, where they stand now and between which bounds they may be dragged", () => {
    // W = 24 mm: the channel is W + 0.45 mm, its schema's lever 3 to 220 mm. [read in the example and the schema]
    expect(at24.get("plover/tape.section.width")).toMatchObject({
      path: "tape.section.width",
      means: "clear width of the channel",
      text: "W + 0.45 ±0.10 mm",
      letter: "d",
      draggable: true,
      onlyWidth: undefined,
      widths: [8, 12, 16, 24, 32],
    });
    const width = at24.get("plover/tape.section.width")!;
    expect([width.value, width.least!, width.most!].map((v) => +(v / mm).toFixed(9))).toEqual([24.45, 3, 220]);
  });
  test("move by 0.05 and 1 mm, 0.5 and 5 degrees, or by one in the second figure", () => {
    const steps = (address: string): number[] => {
      const { step, coarse } = at24.get(address)!;
      return [step, coarse].map((v) => +v.toPrecision(6));
    };
    expect(steps("plover/film.guides.shoulder.through.2")).toEqual([0.05 * mm, mm]);
    expect(steps("plover/per width.24.nip.preload")).toEqual([0.1, 1]);
    expect(steps("plover/nip.overspeed")).toEqual([0.1, 1]);
    expect(steps("plover/sprocket.tooth.flank")).toEqual([0.00872665, 0.0872665]);
  });
  test("with a range have no centre to drag, but ends", () => {
    const friction = at24.get("plover/film.friction")!;
    expect(friction).toMatchObject({ draggable: false, step: 0, letter: "g" });
    expect(friction.guess!.low).toBeCloseTo(0.18, 12);
    expect(friction.guess!.high).toBeCloseTo(0.35, 12);
  });
  test("tell the width they are written for alone", () => {
    expect(at24.get("plover/per width.24.nip.preload")).toMatchObject({
      path: "nip.preload",
      onlyWidth: 24,
      widths: [24],
      text: "5.2 ±0.5 N",
    });
    expect(at24.has("plover/nip.preload")).toBe(false);
    expect(numbersOf("plover", "so8-12").get("plover/nip.preload")!.widths).toEqual([8, 12, 16]);
  });
  test("name what they read, with the address of what can be changed", () => {
    const names = at24.get("plover/tape.section.groove.depth")!.names;
    expect(names).toEqual([
      { name: "drop", address: "plover/let.drop" },
      { name: "gap", address: "plover/let.gap" },
    ]);
    expect(at24.get("plover/tape.section.width")!.names).toEqual([{ name: "W", address: undefined }]);
  });
  test("of the tape's own file are among them", () => {
    expect(at24.get("tapes/so20-24/A0")).toMatchObject({ path: "A0", widths: [] });
  });
  test("of every unit have a field of the schema, with its lever", () => {
    let levers = 0;
    for (const [stem, unit] of project.units)
      for (const tape of project.wanted.get(stem)!) {
        const scene = sceneOf(project, stem, tape);
        for (const n of numberViews(scene, unit)) {
          if (!n.address.startsWith(stem)) continue;
          expect([n.address, n.means === ""]).toEqual([n.address, false]);
          const { lever } = scene.unit.givens.get(n.address)!;
          if (!lever) continue;
          levers++;
          expect([n.least, n.most]).toEqual([Math.min(lever[0], n.value), Math.max(lever[1], n.value)]);
        }
      }
    expect(levers).toBeGreaterThan(300);
  });
});

test("a project as the page names it holds units, what they are wanted for, and tapes with their letters", () => {
  const view = projectView(project);
  expect(view.name).toBe("Saltgrass shop, two feeder units");
  expect(view.units.map(({ stem, name, widths }) => [stem, name, widths.length])).toEqual([
    ["dunlin", "Dunlin", project.units.get("dunlin")!.widths.length],
    ["plover", "Plover", 5],
  ]);
  const tape = view.tapes.find((t) => t.stem === "so20-24")!;
  expect(tape.row).toBe(24);
  expect(+(tape.icon.P1 / mm).toFixed(9)).toBe(12);
  expect(structuredClone(view)).toEqual(view);
});
