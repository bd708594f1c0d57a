import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { showError } from "../error.ts";
import { countedIn, readingsIn } from "./counting.ts";
import { logOf } from "./log.fixture.ts";
import { guessedMapping, mappingWish, withWishes } from "./mapping.ts";

/** A log with what its columns are: guessed, and as the wishes have it. */
async function mappedLog(text: string, ...wishes: string[]) {
  const log = await logOf(text, { texts: ["reel"] });
  const said = wishes.map((w) => mappingWish(w, log));
  const mapping = withWishes(
    guessedMapping(log),
    said.map((w) => (typeof w === "string" ? expect.fail(w) : w)),
  );
  return [log, mapping] as const;
}
const counted = async (text: string, ...wishes: string[]) => countedIn(...(await mappedLog(text, ...wishes)));
const readings = async (text: string, ...wishes: string[]) => readingsIn(...(await mappedLog(text, ...wishes)));
const saidOf = async (text: string, ...wishes: string[]): Promise<string> =>
  (await counted(text, ...wishes)).errors.map(showError).join("\n");

describe("counts added up", () => {
  test("have nothing in common with the order of rows but the order of groups", async () => {
    const row = fc.record({
      reel: fc.constantFrom("A", "B", "C"),
      indexes: fc.integer({ min: 10, max: 5000 }),
      misfeeds: fc.integer({ min: 0, max: 10 }),
    });
    await fc.assert(
      fc.asyncProperty(fc.array(row, { minLength: 1, maxLength: 12 }), async (rows) => {
        const text = (of: typeof rows): string =>
          `reel,indexes,misfeeds\n${of.map((r) => `${r.reel},${r.indexes},${r.misfeeds}\n`).join("")}`;
        const { rows: sums } = await counted(text(rows));
        const { rows: back } = await counted(text([...rows].reverse()));
        const byReel = (of: typeof sums) => [...of].sort((a, b) => (a.reel < b.reel ? -1 : 1));
        expect(byReel(back)).toEqual(byReel(sums));
        // Groups in the order of their first rows; nothing is lost and nothing counted twice.
        expect(sums.map((s) => s.reel)).toEqual([...new Set(rows.map((r) => r.reel))]);
        for (const key of ["indexes", "misfeeds"] as const)
          expect(sums.reduce((n, s) => n + s[key], 0)).toBe(rows.reduce((n, r) => n + r[key], 0));
      }),
      { seed: 1, numRuns: 60 },
    );
  });
  test("leave out a row that lacks either of the two", async () => {
    const { rows, errors } = await counted("reel,indexes,misfeeds\nA,100,1\nA,200,\nA,,3\nB,,\nA,50,0\n");
    expect(rows).toEqual([{ unit: "", reel: "A", mode: "", indexes: 150, misfeeds: 1 }]);
    expect(errors).toEqual([]);
  });
  test("keep apart what only looks alike when it is put together", async () => {
    const { rows } = await counted("unit,reel,indexes,misfeeds\na,b c,10,0\na b,c,20,1\n");
    expect(rows.map((r) => [r.unit, r.reel, r.indexes])).toEqual([
      ["a", "b c", 10],
      ["a b", "c", 20],
    ]);
  });
});

describe("counters that run on", () => {
  test("are differenced reel by reel", async () => {
    const { rows, running } = await counted(
      "time,reel,cycles,misfeeds\n0,A,100,2\n0,B,900,0\n1,A,150,2\n1,B,940,1\n2,A,250,3\n2,B,940,1\n",
    );
    expect(running).toBe(true);
    // 250 - 100 with 3 - 2, and 940 - 900 with 1 - 0. [derived]
    expect(rows.map((r) => [r.reel, r.indexes, r.misfeeds])).toEqual([
      ["A", 150, 1],
      ["B", 40, 1],
    ]);
  });
  test.each([
    ["fall once", "0,100,0\n1,150,0\n2,120,0\n", 370],
    ["have misfeeds that fall once", "0,100,0\n1,150,1\n2,170,0\n", 420],
    ["stand still", "0,100,0\n1,100,0\n2,100,0\n", 300],
    ["are two rows only", "0,100,0\n1,150,0\n", 250],
  ])("are none where they %s: the rows are added", async (_, rows, sum) => {
    const { rows: sums, running } = await counted(`time,cycles,misfeeds\n${rows}`);
    expect([running, sums[0]!.indexes]).toEqual([false, sum]);
  });
  test("are none where those of one reel fall: all are read the same way", async () => {
    const { rows, running } = await counted(
      "time,reel,cycles,misfeeds\n0,A,1,0\n1,A,2,0\n2,A,3,0\n0,B,9,0\n1,B,8,0\n2,B,7,0\n",
    );
    expect([running, ...rows.map((r) => r.indexes)]).toEqual([false, 6, 24]);
  });
});

describe("a counting log is refused", () => {
  test("without misfeeds, at its header and with what to say", async () => {
    expect(await saidOf("reel,indexes\nA,100\nB,200\n")).toBe(
      `run.csv:1:1: found no column of misfeeds, expected indexes and misfeeds, a unit and reel a row
1 | reel | indexes
    ^
Say which it is: --map "COLUMN=misfeeds".`,
    );
  });
  test("where no row holds both counts", async () => {
    expect(await saidOf("reel,indexes,misfeeds\nA,100,\nB,,2\n")).toContain(
      "found no row with both counts, expected indexes and misfeeds in a row",
    );
  });
  test("for a count that is none, at its line past a comment and an empty line", async () => {
    expect(await saidOf("reel,indexes,misfeeds\nA,100,1\n# pause\n\nA,200,-1\n")).toContain(
      "run.csv:5:1: found -1 misfeeds in 200 indexes, expected whole numbers from 0",
    );
  });
  test("for a sum of more misfeeds than indexes, though another reel has enough", async () => {
    expect(await saidOf("reel,indexes,misfeeds\nA,1000,0\nB,2,2\nB,1,2\n")).toContain("found 4 misfeeds in 3 indexes");
  });
});

describe("typed readings", () => {
  test("come out in SI, less their zero and with their sign, with who read them and of what", async () => {
    const rows = await readings(
      "unit,reel,by,value [cN]\n1,A,Ada,120\n1,B,Ada,\n2,A,Jo,70\n",
      "value=value cN, reversed, zero 20",
    );
    // -(120 - 20) and -(70 - 20) cN; the row without a number is no reading, and keeps its number to itself.
    expect(rows).toEqual([
      { unit: "1", reel: "A", by: "Ada", value: -1, row: 0 },
      { unit: "2", reel: "A", by: "Jo", value: -0.5, row: 2 },
    ]);
  });
  test("without a unit are plain numbers, and nobody's where no column says whose", async () => {
    expect(await readings("n,value\n7,0.25\n8,0.5\n")).toEqual([
      { unit: "", reel: "", by: "", value: 0.25, row: 0 },
      { unit: "", reel: "", by: "", value: 0.5, row: 1 },
    ]);
  });
  test("are none where no column holds them", async () => {
    expect(await readings("t,pull [N]\n0,1\n1,2\n")).toEqual([]);
  });
});
