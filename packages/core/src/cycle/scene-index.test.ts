import { describe, expect, test } from "vitest";
import { embossedTape, scene, sideCrossing, written } from "../scene.fixture.ts";
import { drivenScene, drivenUnit } from "./cycle.fixture.ts";
import { constantOf } from "./header.ts";
import { sceneHeader, sceneIndex } from "./scene-index.ts";

describe("a unit with both motors and an encoder", () => {
  const unit = drivenUnit(12);
  const counted = {
    ...unit,
    "feed drive": { ...unit["feed drive"]!, encoder: written("driven/encoder", "c", "28 counts", "counts") },
  };
  const one = sceneIndex(drivenScene(12, undefined, counted));
  test("makes its index with the lead and the head start that were found for it", () => {
    expect(one.design.commands.lead).toBe(constantOf(one.firmware, "lead"));
    expect(one.design.commands.feedStart).toBe(constantOf(one.firmware, "peel lead"));
    expect(Math.abs(one.story.measures.stopError)).toBeLessThan(0.1e-3);
    expect(one.story.measures.warnings).toEqual([]);
  });
  test("is slower hot and at the least volts", () => {
    expect(one.slowest.finished).toBe(true);
    expect(constantOf(one.firmware, "time-out")!).toBeGreaterThan(1.5 * one.slowest.time);
  });
  test("has a header with counts of its rotor", () => {
    const text = sceneHeader(one, { unit: "Driven", tape: "embossed 12", width: 12, version: "0" });
    expect(text).toMatch(/#define INDEX_LEAD_COUNTS \d+L/);
    expect(text).toContain("#define INDEX_TRAVEL_UM 8000L");
  });
  test("keeps the head start and the hold that its file gives", () => {
    const index = {
      stop: "open loop",
      "peel lead": written("driven/lead", "t", "17 ms", "ms"),
      hold: written("driven/hold", "t", "9 ms", "ms"),
    } as const;
    const own = sceneIndex(drivenScene(12, index));
    expect(own.design.commands.feedStart).toBeCloseTo(17e-3, 12);
    expect(own.design.commands.peelHold).toBeCloseTo(9e-3, 12);
    expect(own.counts).toBeUndefined();
  });
});
test("a unit whose motors are not known is refused with the reason", () => {
  expect(() => sceneIndex(scene(sideCrossing(12), embossedTape(12)))).toThrow(
    "There is no index to simulate: the unit has no feed drive.",
  );
});
