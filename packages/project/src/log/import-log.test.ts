import { finished, fromSI, unitOf } from "@tapeworthy/core";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { showError } from "../error.ts";
import {
  type Asked,
  flagsAsWritten,
  type Imported,
  imported,
  indexLog,
  inUnit,
  plateauItem,
  statisticsItem,
  type Trace,
  unitOfRole,
} from "./import-log.ts";
import { logOf } from "./log.fixture.ts";
import { guessedMapping, mappingWish, roleNames, withWishes } from "./mapping.ts";

async function tried(text: string, asked: Asked = {}, ...wishes: string[]) {
  const log = await logOf(text);
  const said = wishes.map((w) => mappingWish(w, log));
  const mapping = withWishes(
    guessedMapping(log),
    said.map((w) => (typeof w === "string" ? expect.fail(w) : w)),
  );
  return finished(imported(log, mapping, asked));
}
async function importedOf(text: string, asked: Asked = {}, ...wishes: string[]): Promise<Imported> {
  const { imported: of, errors } = await tried(text, asked, ...wishes);
  return of ?? expect.fail(errors.map(showError).join("\n"));
}
async function traceOf(text: string, asked: Asked = {}, ...wishes: string[]): Promise<Trace> {
  const { what } = await importedOf(text, asked, ...wishes);
  return what.kind === "trace" ? what : expect.fail(what.kind);
}
const saidOf = async (text: string, asked: Asked = {}): Promise<string> =>
  (await tried(text, asked)).errors.map(showError).join("\n");

describe("what a log becomes", () => {
  test.each([
    ["a trace", "t [s],pull [N]\n0,1\n1,2\n", "trace"],
    ["counts", "reel,indexes,misfeeds\n1,100,2\n2,50,0\n", "counts"],
    ["readings", "reel,value [cN]\n1,27\n2,28\n", "readings"],
    ["counts, though a force stands beside them", "pull [N],indexes,misfeeds\n1,100,2\n2,50,0\n", "counts"],
  ])("is %s", async (_, text, kind) => {
    expect((await importedOf(text)).what.kind).toBe(kind);
  });
  test("is shown in the unit of its readings where that is one of ours, else in the customary one of its kind", async () => {
    const shown = async (unit: string): Promise<unknown> => {
      const { what } = await importedOf(`reel,value${unit}\n1,2\n2,3\n`);
      return what.kind === "readings" ? [what.unit, +what.rows[0]!.value.toPrecision(6)] : what.kind;
    };
    expect(await shown(" [mN]")).toEqual(["mN", 0.002]);
    // 2 cN and 2 kgf are no units of ours: 0.02 N and 2 . 9.80665 N.
    expect(await shown(" [cN]")).toEqual(["N", 0.02]);
    expect(await shown(" [kgf]")).toEqual(["N", 19.6133]);
    expect(await shown("")).toEqual(["", 2]);
  });
});

describe("a trace", () => {
  // Eight rows, two an index. [derived]: the means are 2, 4, 3, 3, so their mean is 3.
  const log = `t [s];travel [mm];pull [N];current [A];index;command
0;0;1;5;1;0
1;2;3;5;1;1
2;4;3;5;2;0
3;6;5;5;2;1
4;8;2;5;3;0
5;10;4;5;3;1
6;12;3;5;4;0
7;14;3;5;4;1
`;
  test("is of the force where nobody says, and of what is asked for where somebody does", async () => {
    expect((await traceOf(log)).of).toBe("force");
    expect(await traceOf(log, { of: "current" })).toMatchObject({ of: "current", summary: { mean: 5, sd: 0 } });
  });
  test("is parted by index numbers before commands, by commands before travel, and is else one piece", async () => {
    const asked = { P1: 0.004 };
    const parted = async (...wishes: string[]) => {
      const { partedBy, by } = await traceOf(log, asked, ...wishes);
      return [partedBy, [...by.first]];
    };
    expect(await parted()).toEqual(["index", [0, 2, 4, 6]]);
    // A command rises at every second row.
    expect(await parted("index=note")).toEqual(["command", [1, 3, 5, 7]]);
    // Every 4 mm of 2 mm a row.
    expect(await parted("index=note", "command=note")).toEqual(["travel", [0, 2, 4, 6]]);
    expect(await parted("index=note", "command=note", "travel=note")).toEqual([undefined, [0]]);
  });
  test("is parted by the pocket pitch where it knows both pitches, and not at all by travel without one", async () => {
    const of = async (asked: Asked) => {
      const { partedBy, by } = await traceOf(log, asked, "index=note", "command=note");
      return [partedBy, by.mean.length];
    };
    expect(await of({ P0: 0.004, P1: 0.008 })).toEqual(["travel", 2]);
    expect(await of({ P0: 0.004 })).toEqual(["travel", 4]);
    expect(await of({})).toEqual([undefined, 1]);
  });
  test("lies along the travel, else along the time, else along its rows", async () => {
    expect((await traceOf(log)).along).toBe("travel");
    expect((await traceOf(log, {}, "travel=note")).along).toBe("time");
    const bare = await traceOf("row,pull [N]\n7,1\n8,3\n");
    expect([bare.along, bare.summary.plateau, plateauItem(bare)]).toEqual(["row", [0, 1], undefined]);
  });
  test("between flags counts the rows between them alone", async () => {
    // 4 to 10 mm: 3, 5, 2, 4 N. Mean 14/4, sum of squares (0.25 + 2.25 + 2.25 + 0.25)/3. [derived]
    const { summary } = await traceOf(log, { plateau: [0.004, 0.01] });
    expect(summary).toMatchObject({ rows: 4, mean: 3.5, greatest: 5, least: 2, indexes: 2 });
    expect(summary.sd).toBeCloseTo(Math.sqrt(5 / 3), 12);
  });
  test("goes into a trial's file with unit and four or six figures, and without what it has not", async () => {
    const trace = await traceOf(log, { plateau: [0.004, 0.01] });
    // sqrt(5/3) = 1.290994; ripple 1.290994/3.5 = 0.36886.
    expect(statisticsItem(trace)).toMatchObject({
      of: "force",
      rows: "4",
      mean: "3.5 N",
      sd: "1.29099 N",
      greatest: "5 N",
      least: "2 N",
      ripple: "0.3689",
      "ripple at P1": undefined,
      "lag one": undefined,
      outliers: "0",
      indexes: "2",
      gaps: "0",
      "times back": "0",
    });
    expect(plateauItem(trace)).toEqual(["4 mm", "10 mm"]);
    const withoutTime = statisticsItem(await traceOf(log, {}, "t=note"));
    expect(withoutTime["times back"]).toBeUndefined();
  });
  test("is kept index by index in the unit that its role is shown in", async () => {
    const kept = indexLog("bench/T-01/index.parquet", await traceOf(log, { of: "travel" }));
    expect([kept.rows, kept.lineOf(0)]).toEqual([4, 2]);
    const columns = new Map(kept.columns.map((c) => [`${c.name} ${c.unit}`, c.kind === "number" ? [...c.values] : []]));
    // Travel is computed in m and shown in mm again.
    const rounded = (name: string) => columns.get(name)!.map((v) => +v.toFixed(9));
    expect(rounded("mean mm")).toEqual([1, 5, 9, 13]);
    expect(rounded("greatest mm")).toEqual([2, 6, 10, 14]);
    expect(columns.get("first row ")).toEqual([0, 2, 4, 6]);
    expect(columns.get("row of the greatest ")).toEqual([1, 3, 5, 7]);
  });
});

describe("a log is refused", () => {
  test("where what is asked for is in none of its columns", async () => {
    expect(await saidOf("t [s],pull [N]\n0,1\n1,2\n", { of: "edge" })).toBe(
      `run.csv:1:1: found no column mapped as edge, expected a force, an edge, a current or such
1 | t [s] | pull [N]
    ^
Say what the columns are: --map "t=force N".`,
    );
  });
  test("where flags that end before they begin leave no row", async () => {
    expect(await saidOf("t [s],pull [N]\n0,1\n1,2\n2,3\n", { plateau: [2, 0] })).toContain(
      "Set the flags within the log.",
    );
  });
  test("for what is wrong in its mapping before anything is computed", async () => {
    expect(await saidOf("t [mm],pull [mm]\n0,1\n1,2\n")).toMatch(/found mm for (time|force)/);
  });
});

describe("a number for a trial's file", () => {
  test("has six figures at most and its unit behind it", () => {
    expect(inUnit(0.0123456789, "mm")).toBe("12.3457 mm");
    expect(inUnit(-2, "N")).toBe("-2 N");
    expect(inUnit(0.5, "%")).toBe("50 %");
    expect(inUnit(1 / 3, "")).toBe("0.333333");
  });
  test("has a unit of ours for every role but those of texts and of readings", () => {
    for (const role of roleNames) expect(() => unitOf(unitOfRole(role))).not.toThrow();
    expect([unitOfRole("torque"), unitOfRole("value"), unitOfRole("reel")]).toEqual(["N*mm", "", ""]);
  });
  test("gives flags that are the same when they are written once more, within half of the sixth figure", () => {
    const end = fc.double({ min: 1e-3, max: 100, noNaN: true });
    fc.assert(
      fc.property(end, end, fc.constantFrom("travel" as const, "time" as const), (from, to, along) => {
        const once = flagsAsWritten(along, [from, to]);
        expect(flagsAsWritten(along, once)).toEqual(once);
        for (const [i, v] of [from, to].entries()) expect(Math.abs(once[i]! / v - 1)).toBeLessThanOrEqual(5.0001e-6);
        // What the file says of them is what they are.
        const unit = along === "travel" ? "mm" : "s";
        expect(once.map((v) => inUnit(v, unit))).toEqual([from, to].map((v) => inUnit(v, unit)));
        expect(once.map((v) => +fromSI(v, unitOf(unit)).toPrecision(6))).toEqual(
          [from, to].map((v) => +fromSI(v, unitOf(unit)).toPrecision(6)),
        );
      }),
      { seed: 1, numRuns: 300 },
    );
    expect(flagsAsWritten("row", [3, 1_234_567])).toEqual([3, 1_234_567]);
  });
});
