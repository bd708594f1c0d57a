import { expect, test } from "vitest";
import { places } from "./places.ts";

const all = Object.entries(places);
test("every place is nought as written and lies evenly between -1 and 1, at one level", () => {
  for (const [name, place] of all) {
    expect(place.text, name).toBe("0 ±1");
    expect(place.scatters, name).toHaveLength(1);
    expect(place.scatters[0], name).toMatchObject({ law: "uniform", from: -1, to: 1 });
  }
});
test("no two places share an address: a share of one is not taken for the other's", () => {
  expect(new Set(all.map(([, place]) => place.address)).size).toBe(all.length);
});
// A unit's side and phase stay for its life, a reel's bow for the reel; all the rest is new with every index. Definition. [derived]
test("three places are fixed for a unit and one for a reel", () => {
  const at = (level: string): string[] =>
    all.filter(([, place]) => place.scatters[0]!.level === level).map(([name]) => name);
  expect(at("unit")).toEqual(["restPhase", "side", "taught"]);
  expect(at("reel")).toEqual(["bow"]);
  expect(at("index")).toHaveLength(all.length - 4);
});
