import type { Unit } from "@tapeworthy/core";
import { expect, test } from "vitest";
import { cautionsOf } from "./cautions.ts";
import { example } from "./report.fixture.ts";

const plover = example.units.get("plover")!.variants.get(8)!;
/** The unit without some of its members. */
const without = (...members: readonly (keyof Unit)[]): Unit =>
  Object.fromEntries(
    Object.entries(plover).filter(([name]) => !(members as readonly string[]).includes(name)),
  ) as unknown as Unit;

test("a unit with wheel, rollers, worm, leaf and motors is warned of each", () => {
  const words = cautionsOf(plover).join("\n");
  for (const part of [
    "Sprocket, nip rollers and gears pinch",
    "leaf has edges that cut",
    "Gear motors",
    "spring is compressed",
    "current-limited supply",
  ])
    expect(words).toContain(part);
});
test("local codes and licensed practice come last, and always", () => {
  for (const unit of [plover, without("sprocket", "nip", "hold-down", "feed drive", "peel drive", "bodies")])
    expect(cautionsOf(unit).at(-1)).toBe("Local codes and licensed practice come before anything said here.");
});
test("what a unit does not have is not warned of", () => {
  const words = cautionsOf(without("sprocket", "nip", "hold-down", "feed drive", "peel drive", "bodies")).join("\n");
  expect(words).not.toMatch(/pinch|leaf|motor|spring|supply/i);
});
