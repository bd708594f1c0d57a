import { describe, expect, test } from "vitest";
import { scenes } from "../scene.fixture.ts";
import { leastGaps } from "./least-gaps.ts";
import { pairGaps } from "./pair-gaps.ts";

const on = scenes.map(([tape, scene]) => ({ tape, scene }));
const { pairs, without } = leastGaps(on);
const all = on.flatMap(({ tape, scene }) => pairGaps(scene).map((p) => ({ ...p, tape })));
const keyOf = (p: { check: string; a: string; b: string }) => `${p.check} ${p.a} / ${p.b}`;

describe("every pair over several tapes", () => {
  test("stands once, on the tape that leaves it least room", () => {
    expect(new Set(all.map(keyOf)).size).toBe(pairs.length + without.length);
    expect(pairs.length).toBeGreaterThan(5);
    for (const one of pairs) {
      const rooms = all.flatMap((p) => (!("trouble" in p) && keyOf(p) === keyOf(one) ? [p.gap - p.wanted] : []));
      expect(one.gap - one.wanted).toBe(Math.min(...rooms));
    }
  });
  test("the one with least room leads", () => {
    const rooms = pairs.map((p) => p.gap - p.wanted);
    expect([...rooms].sort((a, b) => a - b)).toEqual(rooms);
  });
});
test("no tape, no pair", () => expect(leastGaps([])).toEqual({ pairs: [], without: [] }));
