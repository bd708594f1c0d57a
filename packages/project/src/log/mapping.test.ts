import { finished } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { countedIn } from "./counting.ts";
import { logOf } from "./log.fixture.ts";
import { faultsOf, guessedMapping, mapped, mappingWish, type Role, unitOfColumn, withWishes } from "./mapping.ts";
import { timeLook } from "./time-look.ts";
import { unitText } from "./unit-text.ts";

const rolesOf = async (header: string, row = "0;1;2;3;4"): Promise<string[]> => {
  const n = header.split(";").length;
  const cells = row.split(";").slice(0, n).join(";");
  const log = await logOf(`${header}\n${cells}\n${cells}\n`, { separator: ";", header: 1 });
  return guessedMapping(log).columns.map((c) => `${c.role} ${c.unit}`.trim());
};

describe("what a column is, is guessed from its name and unit:", () => {
  test.each([
    ["t [s];travel [mm];pull [N]", ["time s", "travel mm", "force N"]],
    ["Zeit (ms);Weg (mm);Kraft (cN);Strom (mA)", ["time ms", "travel mm", "force cN", "current mA"]],
    ["t_s;index;force_N;current_A;pos_mm", ["time s", "index counts", "force N", "current A", "travel mm"]],
    ["time;edge left [um]", ["time s", "edge um"]],
    ["channel 1 [V];channel 2 [A]", ["volts V", "current A"]],
    ["unit;reel;indexes;misfeeds", ["unit", "reel", "indexes counts", "misfeeds counts"]],
    ["time [ms];load [g]", ["time ms", "force g"]],
  ])("%s", async (header, roles) => {
    expect(await rolesOf(header)).toEqual(roles);
  });
  test("no role is given twice, and what nothing speaks for is a note", async () => {
    expect(await rolesOf("F1 [N];F2 [N];foo")).toEqual(["force N", "note N", "note"]);
  });
  test("where the name says one thing and the unit another, the user is asked", async () => {
    const log = await logOf("t [s];Kraft [mm]\n0;1\n1;2\n");
    expect(faultsOf(guessedMapping(log), log).map((e) => [e.message, e.hint])).toEqual([
      [
        "found mm for force, a unit of m, expected a unit such as N: pull or push",
        'Give the unit the instrument shows: --map "Kraft=force N"; or what it is: --map "Kraft=travel mm".',
      ],
    ]);
  });
  test("a small n counts rows, a large one is a force", async () => {
    expect(await rolesOf("n;pull [N]")).toEqual(["note", "force N"]);
    expect(await rolesOf("t;N")).toEqual(["time s", "force N"]);
  });
  test("of two words in a name the one that goes with its unit counts", async () => {
    expect(await rolesOf("t [s];load cell temperature [degC];pull position [mm]")).toEqual([
      "time s",
      "temperature degC",
      "travel mm",
    ]);
  });
});

describe("units as instruments write them", () => {
  // cN, kgf, lbf by definition: 0.01 N, 9.80665 N, 0.45359237 . 9.80665 N. [memory]
  test.each([
    ["cN", 0.01],
    ["kgf", 9.80665],
    ["gf", 0.00980665],
    ["lbf", 4.4482216152605],
    ["N", 1],
    ["mN", 0.001],
    ["daN", 10],
  ])("%s is %f N", (unit, newtons) => {
    expect(unitOfColumn({ role: "force", unit }).factor).toBeCloseTo(newtons, 12);
  });
  test("a scale's gram is a force where a force is asked for, and a mass elsewhere", () => {
    expect(unitOfColumn({ role: "force", unit: "g" }).factor).toBeCloseTo(0.00980665, 12);
    expect(unitOfColumn({ role: "value", unit: "g" }).factor).toBeCloseTo(0.001, 12);
  });
  test("a word that is no unit is none, whatever objects inherit", () => {
    for (const word of ["constructor", "toString", "zork", "", "N N"]) expect(unitText(word)).toBeUndefined();
  });
});

test("a column comes out in SI: less its zero, with its sign and unit", async () => {
  const log = await logOf("t [ms];pull [cN]\n0;100\n1;-50\n2;\n");
  const wish = mappingWish("pull=force cN, reversed, zero 20", log);
  if (typeof wish === "string") throw new Error(wish);
  const mapping = withWishes(guessedMapping(log), [wish]);
  expect([...finished(mapped(log, mapping, "force"))!]).toEqual([-0.8, 0.7000000000000001, Number.NaN]);
  expect([...finished(mapped(log, mapping, "time"))!]).toEqual([0, 0.001, 0.002]);
  expect(finished(mapped(log, mapping, "travel" as Role))).toBeUndefined();
});
test("a wish takes a role from the column that was guessed to have it", async () => {
  const log = await logOf("t [s];pull [N];load [N]\n0;1;2\n1;2;3\n");
  const wish = mappingWish("load=force", log);
  if (typeof wish === "string") throw new Error(wish);
  const mapping = withWishes(guessedMapping(log), [wish]);
  expect(mapping.columns.map((c) => c.role)).toEqual(["time", "note", "force"]);
  expect(faultsOf(mapping, log)).toEqual([]);
});

describe("a column of times", () => {
  const look = (t: readonly number[]) => finished(timeLook(Float64Array.from(t)));
  test("that runs evenly has its step and nothing marked", () => {
    const { step, constant, timesBack, timesJumped } = look(Array.from({ length: 100 }, (_, i) => i * 0.01));
    expect([step, constant, timesBack, timesJumped]).toEqual([expect.closeTo(0.01, 12), true, 0, 0]);
  });
  test("that runs back is marked where and by how much", () => {
    const t = Array.from({ length: 100 }, (_, i) => (i < 50 ? i : i - 10));
    expect(look(t).backwards).toEqual([{ row: 50, by: 9 }]);
  });
  test("that leaves a gap is marked, but one that is uneven throughout is not", () => {
    expect(look(Array.from({ length: 100 }, (_, i) => (i < 50 ? i : i + 5))).jumps).toEqual([{ row: 50, by: 6 }]);
    expect(look(Array.from({ length: 100 }, (_, i) => i * i)).timesJumped).toBe(0);
  });
  test("is compared across its gaps", () => {
    expect(look([0, 1, Number.NaN, 3, 4, 5, 6]).timesBack).toBe(0);
    expect(look([0, 1, Number.NaN, 0, 1, 2, 3]).timesBack).toBe(1);
  });
});

describe("a counting log", () => {
  const counted = async (text: string) => {
    const log = await logOf(text);
    return countedIn(log, guessedMapping(log));
  };
  test("is added up by unit, reel and mode", async () => {
    const { rows } = await counted(
      "unit,reel,indexes,misfeeds,mode\n1,A,100,1,turned\n1,A,200,0,turned\n1,B,50,0,\n2,A,70,2,none\n",
    );
    expect(rows).toEqual([
      { unit: "1", reel: "A", mode: "turned", indexes: 300, misfeeds: 1 },
      { unit: "1", reel: "B", mode: "", indexes: 50, misfeeds: 0 },
      { unit: "2", reel: "A", mode: "none", indexes: 70, misfeeds: 2 },
    ]);
  });
  test("whose counters run on counts the last less the first", async () => {
    const { rows, running } = await counted("time,cycles,misfeeds\n0,1000,2\n1,2000,2\n2,3000,5\n");
    expect([running, rows[0]!.indexes, rows[0]!.misfeeds]).toEqual([true, 2000, 3]);
  });
  test("without times adds its rows though they grow", async () => {
    const { rows, running } = await counted("cycles,misfeeds\n1000,2\n2000,2\n3000,5\n");
    expect([running, rows[0]!.indexes, rows[0]!.misfeeds]).toEqual([false, 6000, 9]);
  });
});
