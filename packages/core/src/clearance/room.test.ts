import { describe, expect, test } from "vitest";
import { chosen } from "../quantity/check.ts";
import type { Quantity } from "../quantity/model.ts";
import { showValue } from "../quantity/show.ts";
import { embossedTape, nominal, scene, withBodies, written } from "../scene.fixture.ts";
import { asWritten, Realiser } from "../study/realise.ts";
import { bodiesClear } from "./bodies.ts";
import { boxed, mm, unitWith, with12 } from "./clearance.fixture.ts";
import { clearancesInOrder } from "./pair-gaps.ts";
import { pocketClear } from "./pocket.ts";

const gap = (pair: string, text: string) => ({ [pair]: written(`gaps/${pair}`, "g", text) });
/** Three boxes in a row, 2 and 0.5 mm apart; the wider gap wants more. */
const row = (first = "3 mm") =>
  with12(
    unitWith(
      [boxed("a", [0, 0, 10, 10], [0, 5]), boxed("b", [12, 0, 20, 10], [0, 5]), boxed("c", [20.5, 0, 30, 10], [0, 5])],
      {
        clearances: { ...gap("default", "0.3 mm"), ...gap("a / b", first) },
      },
    ),
  );
const sentence = (one = row()) => {
  const { check, pairs } = bodiesClear;
  const run = new Realiser(one, [
    check.value as Quantity,
    ...pairs(one).flatMap((p): Quantity[] => [p.gap, p.wanted]),
  ]).run(asWritten);
  return check.because((q) => showValue(q, run.number(q)), one);
};
const where = (one = row()): string => {
  const { room } = bodiesClear;
  return room.where!(new Realiser(one, [room]).run(asWritten).inputsOf(room, one), one);
};

describe("the room of a clearance", () => {
  test("is that of the pair with least gap beyond what is wanted, not of the least gap", () => {
    expect(nominal(row(), bodiesClear.room) / mm).toBeCloseTo(-1, 9);
    expect(nominal(row("1 mm"), bodiesClear.room) / mm).toBeCloseTo(0.2, 9);
  });
  test("names its worst pair and where it stands", () => {
    expect(where()).toBe("a against b, at x 12, y 2.5, z 5.0 mm");
    expect(where(row("1 mm"))).toMatch(/^b against c, at x 21, /);
  });
  test("names the pair alone where no scene is at hand", () => {
    const { room } = bodiesClear;
    const one = row();
    expect(room.where!(new Realiser(one, [room]).run(asWritten).inputsOf(room, one))).toBe("a against b");
  });
  test("says its worst gap and what is wanted of it, and the depth where it is an overlap", () => {
    expect(sentence()).toBe("At the worst pair 2.0 mm are left; 3.0 mm are wanted.");
    const met = with12(unitWith([boxed("a", [0, 0, 10, 10], [0, 5]), boxed("b", [9.5, 0, 20, 10], [0, 5])]));
    expect(sentence(met)).toBe("The worst pair overlaps by 0.50 mm; 0 mm would do.");
  });
  test("has no answer where one of its pairs has none", () => {
    const flat = with12(
      unitWith([
        boxed("a", [0, 0, 10, 10], [0, 5]),
        boxed("b", [9, 3, 9, 3], [0, 5]),
        boxed("c", [20, 0, 30, 10], [0, 5]),
      ]),
    );
    expect(nominal(flat, bodiesClear.room)).toBeNaN();
    expect(bodiesClear.worst(flat)).toBeUndefined();
  });
});

describe("identity, by which draws are kept", () => {
  const one = scene(withBodies(), embossedTape(12));
  const again = { ...one };
  test.each(clearancesInOrder.map((c) => [c.id, c] as const))(
    "of the pairs of %s lasts as long as unit and tape",
    (_, { pairs, check, room }) => {
      expect(pairs(again)).toBe(pairs(one));
      expect(pairs(one).length).toBeGreaterThan(0);
      expect(chosen(check.value, one)).toBe(room);
    },
  );
  test("of a pair's gap lasts over tapes of the same unit", () => {
    const other = scene(one.unit, embossedTape(12, "heat activated"));
    const [here, there] = [pocketClear.pairs(one), pocketClear.pairs(other)];
    for (const [i, { gap: g }] of here.entries()) expect(there[i]!.gap).toBe(g);
  });
  test("of every gap says that it is costly: one number a draw would take long", () => {
    for (const { pairs } of clearancesInOrder) for (const { gap: g } of pairs(one)) expect(g.costly).toBe(true);
  });
});
