import { expect, test } from "vitest";
import type { Given } from "../quantity/given.ts";
import type { Scene } from "../scene.ts";
import { number, plainScene } from "../study/plain.fixture.ts";
import { leversOf } from "./levers.ts";

const mm = (address: string, text: string, names: Record<string, Given> = {}, lever?: readonly [number, number]) =>
  number(address, text, { unit: "mm", names, ...(lever ? { lever } : {}) });
/** A unit of two parts and a nip: only what levers are made of. */
function unitOf() {
  const nipz = mm("u/let.nipz", "12 mm");
  const names = { nipz };
  const at = (path: string, text: string, lever?: readonly [number, number]) => mm(`u/${path}`, text, names, lever);
  const body = (name: string, part: string, x0: string, z0: string, x1: string, z1: string) => ({
    name,
    part,
    box: [at(`${name}.box.1`, x0), at(`${name}.box.2`, z0), at(`${name}.box.3`, x1), at(`${name}.box.4`, z1)],
    y: [at(`${name}.y.1`, "0 mm"), at(`${name}.y.2`, "8 mm")],
  });
  const roller = {
    name: "roller",
    part: "nip",
    circle: [at("roller.1", "-20 mm"), at("roller.2", "nipz + 5 mm"), at("roller.3", "5 mm")],
    y: [at("roller.y.1", "1 mm"), at("roller.y.2", "7 mm")],
  };
  const guides = [
    { name: "bar", through: [at("bar.1", "-5 mm"), at("bar.2", "4 mm"), at("bar.3", "3 mm")] },
    { name: "nip", through: [at("nip.1", "-20 mm"), at("nip.2", "4 mm"), at("nip.3", "nipz")] },
  ];
  const depth = at("depth", "2 mm", [0, 6e-3]);
  const rail = at("rail", "1 mm", [0, 6e-3]);
  const guess = number("u/guess", "1..2 mm guess", { unit: "mm", lever: [0, 1] });
  const bodies = [
    body("board", "board", "0 mm", "-9 mm", "30 mm", "-7 mm"),
    body("chips", "board", "0 mm", "-7 mm", "30 mm", "-4 mm"),
    body("motor", "motor", "40 mm", "-9 mm", "60 mm", "3 mm"),
    roller,
  ];
  const nip = { axis: [at("axis.1", "-20 mm"), at("axis.2", "nipz")] };
  const givens = [
    nipz,
    depth,
    rail,
    guess,
    ...guides.flatMap((g) => g.through),
    ...nip.axis,
    ...bodies.flatMap((b) => [...("box" in b ? b.box : b.circle), ...b.y]),
  ];
  const unit = { name: "U", film: { guides }, bodies, nip, givens: new Map(givens.map((g) => [g.address, g])) };
  return { ...plainScene(), unit } as unknown as Scene;
}
const levers = new Map(leversOf(unitOf()).map((l) => [l.address, l]));

test("a number with bounds is a lever from where it stands to its bounds; a guess is none", () => {
  const depth = levers.get("u/depth")!;
  expect([depth.from, depth.least, depth.most].map((v) => v * 1e3)).toEqual([
    expect.closeTo(2, 9),
    expect.closeTo(-2, 9),
    expect.closeTo(4, 9),
  ]);
  expect(levers.has("u/guess")).toBe(false);
});
test("bodies of one part move together, each axis by itself", () => {
  const z = levers.get("u/part board, z")!;
  expect(z.members).toEqual(["u/board.box.2", "u/board.box.4", "u/chips.box.2", "u/chips.box.4"]);
  expect(z.least).toBe(-z.most);
  expect(levers.get("u/part motor, x")!.members).toEqual(["u/motor.box.1", "u/motor.box.3"]);
  expect(levers.get("u/part motor, y")!.members).toEqual(["u/motor.y.1", "u/motor.y.2"]);
});
test("the nip moves with its rollers, its guide and its axis; its radius stays", () => {
  expect(levers.get("u/part nip, z")!.members).toEqual(["u/roller.2", "u/nip.3", "u/axis.2"]);
  expect(levers.get("u/part nip, y")!.members).toEqual(["u/roller.y.1", "u/roller.y.2", "u/nip.2"]);
});
test("another guide is a lever along each axis by itself", () => {
  expect(levers.get("u/bar.3")!.members).toEqual(["u/bar.3"]);
  expect([...levers.keys()].filter((a) => a.startsWith("u/nip."))).toEqual([]);
});
