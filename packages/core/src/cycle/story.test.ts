import { describe, expect, test } from "vitest";
import { commanded, type IndexDesign } from "./design.ts";
import { inventedDesign } from "./drives.ts";
import { runIndex } from "./run.ts";
import { type Story, storyOf } from "./story.ts";

const d = commanded(inventedDesign(), { peelHold: 20e-3, end: 0.25 });
const told = (one: IndexDesign): Story => storyOf(one, runIndex(one));
const whole = told(d);
const text = ({ said }: Story): string => said.join(" ");

test("every event has words, the first at the first command and none before the one it is told after", () => {
  expect(whole.events[0]).toMatchObject({ what: "peel on", says: "the peel motor is switched on" });
  const times = whole.events.map((e) => e.t);
  expect(times).toEqual([...times].sort((a, b) => a - b));
  for (const e of whole.events) expect(e.says, e.what).toMatch(/^(the|a) .*[^ ]$/);
});
// 4 mm less a lead of 0.25 mm, by the rotor's count; the tape hangs back by its play and the springs. By hand. [derived]
test("the brake is told with the tape's own way up to it: less than what the rotor has counted", () => {
  const brake = whole.events.find((e) => e.what === "brake")!;
  const mm = Number(/shorted, ([\d.]+) mm on/.exec(brake.says)![1]);
  expect(mm).toBeLessThan(3.75 + 1.05);
  expect(mm).toBeGreaterThan(3.0);
});
test("the first sentence has the travel and the time of the measures", () => {
  const { time, travel } = whole.measures;
  const [, ms, mm] = /is over after ([\d.]+) ms: the tape has moved ([\d.]+) mm/.exec(whole.said[0]!)!;
  // Two figures.
  expect(Math.abs(Number(ms) / (time * 1e3) - 1)).toBeLessThanOrEqual(0.05);
  expect(Math.abs(Number(mm) - travel * 1e3)).toBeLessThanOrEqual(0.5e-3);
});
describe("what does not happen is not told", () => {
  test("an index that never ends is not over, and says why", () => {
    const weak = told({ ...d, tape: { ...d.tape, sliding: 60, sticking: 60 } });
    expect(text(weak)).not.toContain("is over after");
    expect(text(weak)).toContain("The index does not finish");
  });
  test("without a film there is no word of film or nip", () => {
    const { peel: _p, film: _f, ...bare } = d;
    const alone = told(commanded(bare, { feedStart: 0 }));
    expect(text(alone)).not.toMatch(/film|nip/);
    expect(alone.events.map((e) => e.what)).not.toContain("peel on");
  });
});
describe("the film", () => {
  test("slips in a nip too weak for its seal, and stays on the tape", () => {
    const slipping = told({ ...d, film: { ...d.film!, traction: 0.2 } });
    expect(slipping.events.find((e) => e.what === "nip slips")!.says).toBe("the nip slips at 0.20 N");
    expect(text(slipping)).toMatch(/of film stay on the tape/);
  });
  test("is drawn without slipping where the nip holds ten times the peel force", () => {
    const held = told(commanded({ ...d, film: { ...d.film!, traction: 50 } }, { peelHold: 0 }));
    expect(text(held)).toContain("the nip does not slip");
  });
});
test("a stop within half a micrometre is on its pitch, a later one past it, an earlier short of it", () => {
  const at = (lead: number): string => told(commanded(d, { lead })).said[0]!;
  expect(at(0)).toContain("past its pitch");
  expect(at(2.5e-3)).toContain("short of its pitch");
});
