import { describe, expect, test } from "vitest";
import { commanded } from "./design.ts";
import { inventedDesign } from "./drives.ts";
import { firmwareOf } from "./firmware.ts";
import { headerText, macro } from "./header.ts";
import { runIndex, seatedStart } from "./run.ts";
import { storyOf } from "./story.ts";

const d = commanded(inventedDesign(), { end: 0.25, peelHold: 20e-3 });
const f = firmwareOf(d, { units: 40 });
const text = headerText(f, {
  unit: "Plover */ x",
  revision: "C",
  tape: "so8-12",
  width: 12,
  travel: 4e-3,
  counts: { perTurn: 28, ratio: 480, radius: 15.279e-3 },
  version: "0.1.0",
});
const defined = new Map([...text.matchAll(/^#define (\w+) (-?\d+)L$/gm)].map(([, name, v]) => [name!, Number(v)]));

describe("the C header", () => {
  test("says unit, revision, width and tape, and cannot be broken out of by a name", () => {
    expect(text).toContain("Index of Plover * / x, revision C, built for 12 mm, on so8-12.");
    expect(text.match(/\*\//g)!.length).toBe(text.match(/\/\*/g)!.length);
  });
  test("holds every constant as a whole number in the unit of its name", () => {
    for (const c of f.constants) {
      const suffix = { m: "UM", s: "US", A: "MA", "V/s": "V_PER_S" }[c.unit];
      const times = { m: 1e6, s: 1e6, A: 1e3, "V/s": 1 }[c.unit];
      expect(defined.get(`INDEX_${macro(c.name)}_${suffix}`), c.name).toBe(Math.round(c.value * times));
    }
    expect(defined.get("INDEX_TRAVEL_UM")).toBe(4000);
  });
  // 4 mm are 4/96 of a turn of 480 times 28 counts. [derived]
  test("gives travel and lead in counts of the rotor", () => {
    expect(defined.get("INDEX_TRAVEL_COUNTS")).toBe(Math.round((4 / (2 * Math.PI * 15.279)) * 480 * 28));
    expect(defined.get("INDEX_LEAD_COUNTS")! / defined.get("INDEX_TRAVEL_COUNTS")!).toBeCloseTo(
      f.constants[0]!.value / 4e-3,
      2,
    );
  });
  test("is guarded, and every line is ASCII that a C compiler of any age reads", () => {
    expect(text.match(/#ifndef (\w+)\n#define \1\n/)).not.toBeNull();
    expect(text.endsWith("*/\n")).toBe(true);
    expect([...text].filter((c) => c > "~")).toEqual([]);
  });
  test("says beside each constant what moves it, and that a lead alone does not hold 50 um", () => {
    expect(text).toMatch(/ \* [+-].* with 5 % more volts/);
    expect(text).toContain(" * An open-loop lead cannot hold 50 um");
  });
});
test("the story tells its events in order, with words for each, and how the index ends", () => {
  const design = f.design;
  const { events, said, measures } = storyOf(design, runIndex(design, { from: seatedStart(design) }));
  expect(events.map((e) => e.t)).toEqual(events.map((e) => e.t).sort((a, b) => a - b));
  for (const e of events) expect(e.says.length, e.what).toBeGreaterThan(5);
  expect(said.join(" ")).toMatch(/The index is over after .* ms/);
  expect(said.join(" ")).toContain(measures.seat > 0.9 ? "ahead on its teeth" : "It ends lying");
  expect(said.join(" ")).not.toContain("undefined");
});
test("a name becomes a macro of capitals and underscores", () => {
  expect([macro("peel lead"), macro("time-out"), macro(" 8 mm! ")]).toEqual(["PEEL_LEAD", "TIME_OUT", "8_MM"]);
});
test("a nip switched off too early leaves film on the tape, and the story says how much", () => {
  const early = commanded(f.design, { peelHold: 0, peelStart: 0, feedStart: 30e-3 });
  const weak = { ...early, peel: { ...early.peel!, volts: 2.5 } };
  const { said } = storyOf(weak, runIndex(weak));
  expect(said.join(" ")).toMatch(/mm of film stay on the tape: the nip draws too slowly/);
});
