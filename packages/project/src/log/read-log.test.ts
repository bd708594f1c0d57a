import { finished } from "@tapeworthy/core";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { showError } from "../error.ts";
import { bytesOf, logOf, numbersOf, utf8, wordsOf } from "./log.fixture.ts";
import { LogReader, readLog } from "./read-log.ts";

const utf16 = (text: string, big = false, mark = true): Uint8Array =>
  Uint8Array.from([
    ...(mark ? (big ? [0xfe, 0xff] : [0xff, 0xfe]) : []),
    ...[...text].flatMap((c) => {
      const [low, high] = [c.charCodeAt(0) & 255, c.charCodeAt(0) >> 8];
      return big ? [high, low] : [low, high];
    }),
  ]);

describe("one and the same table is read from", () => {
  const want = { t: [0, 1, 2, 3], F: [1.5, -2.25, null, 4] };
  const table: readonly (readonly [string, string | Uint8Array])[] = [
    ["commas", "t,F\n0,1.5\n1,-2.25\n2,\n3,4\n"],
    ["semicolons and decimal commas", "t;F\n0;1,5\n1;-2,25\n2;\n3;4\n"],
    ["semicolons and decimal points", "t;F\n0;1.5\n1;-2.25\n2;\n3;4\n"],
    ["tabs", "t\tF\n0\t1.5\n1\t-2.25\n2\t\n3\t4\n"],
    ["tabs and decimal commas", "t\tF\n0\t1,5\n1\t-2,25\n2\t\n3\t4\n"],
    ["bars", "t|F\n0|1.5\n1|-2.25\n2|\n3|4\n"],
    ["blanks in columns", "t   F\n 0   1.5\n 1  -2.25\n 2   -\n 3   4\n"],
    ["quoted decimal commas between commas", 't,F\n"0","1,5"\n"1","-2,25"\n"2",""\n"3","4"\n'],
    ["lines that end as on other systems", "t,F\r\n0,1.5\r\n1,-2.25\r\n2,\r\n3,4\r\n"],
    ["lines that end as on old systems", "t,F\r0,1.5\r1,-2.25\r2,\r3,4\r"],
    ["no end of the last line", "t,F\n0,1.5\n1,-2.25\n2,\n3,4"],
    ["empty lines between", "\n\nt,F\n\n0,1.5\n1,-2.25\n\n2,\n3,4\n\n\n"],
    ["a mark of UTF-8", "\ufefft,F\n0,1.5\n1,-2.25\n2,\n3,4\n"],
    ["bytes with a mark of UTF-8", utf8("\ufefft,F\n0,1.5\n1,-2.25\n2,\n3,4\n")],
    ["UTF-16, low byte first", utf16("t,F\n0,1.5\n1,-2.25\n2,\n3,4\n")],
    ["UTF-16, high byte first", utf16("t,F\n0,1.5\n1,-2.25\n2,\n3,4\n", true)],
    ["UTF-16 without a mark", utf16("t,F\n0,1.5\n1,-2.25\n2,\n3,4\n", false, false)],
    ["a separator at every line's end", "t;F;\n0;1.5;\n1;-2.25;\n2;;\n3;4;\n"],
    ["exponents", "t,F\n0,1.5e0\n1,-225E-2\n2,\n3,0.4e+1\n"],
    ["a minus sign of print", "t;F\n0;1.5\n1;−2.25\n2;\n3;4\n"],
    ["units in the header", "t [s],F [N]\n0,1.5\n1,-2.25\n2,\n3,4\n"],
    ["a row of units", "t;F\ns;N\n0;1,5\n1;-2,25\n2;\n3;4\n"],
    ["a row of units in brackets", "t;F\n[s];[N]\n0;1,5\n1;-2,25\n2;\n3;4\n"],
    ["a header behind a comment sign", "# t, F\n0,1.5\n1,-2.25\n2,\n3,4\n"],
    ["comments between the rows", "# rig 2\nt,F\n0,1.5\n# bump\n1,-2.25\n2,\n3,4\n"],
    ["a preamble of keys and values", "Rig: 2\nRate;1000\nDate,2026-03-01\n\nt,F\n0,1.5\n1,-2.25\n2,\n3,4\n"],
    ["a header again and a closing line", "t,F\n0,1.5\n1,-2.25\nt,F\n2,\n3,4\nend of log\n"],
    ["texts and categories beside", 't,F,state\n0,1.5,on\n1,-2.25,"off, then on"\n2,,on\n3,4,\n'],
    ["cells with their units", "t,F\n0,1.5 N\n1,-2.25 N\n2,\n3,4 N\n"],
    ["whole numbers before the first comma", "t;F;n\n0;1,5;1\n1;-2,25;2\n2;;3\n3;4;4\n"],
  ];
  test.each(table)("%s", async (_, text) => {
    const log = await logOf(text);
    expect(numbersOf(log, "t")).toEqual(want.t);
    expect(numbersOf(log, "F")).toEqual(want.F);
    expect(log.columns.find((c) => c.name === "F")!.gaps).toBe(1);
  });
});

describe("the reader", () => {
  test("keeps what stands above the header, with its line", async () => {
    const log = await logOf("Prüfer: Ada\nRate;1000 Hz\nfree words\n\nt;F\n0;1\n1;2\n");
    expect(log.preamble).toEqual([
      { line: 1, key: "Prüfer", value: "Ada" },
      { line: 2, key: "Rate", value: "1000 Hz" },
      { line: 3, key: "", value: "free words" },
    ]);
  });
  test.each([
    ["pull [N]", "pull", "N"],
    ["Zeit (ms)", "Zeit", "ms"],
    ["Kraft / cN", "Kraft", "cN"],
    ["t_s", "t", "s"],
    ["force_N", "force", "N"],
    ["travel in mm", "travel", "mm"],
    ["speed (mm/s)", "speed", "mm/s"],
    ["rel. humidity [%]", "rel. humidity", "%"],
    ["edge (left)", "edge (left)", ""],
    ["state_machine", "state_machine", ""],
  ])("takes the unit out of the name %s", async (name, plain, unit) => {
    const log = await logOf(`n;${name}\n0;1\n1;2\n`);
    expect(log.columns.map((c) => [c.name, c.unit])[1]).toEqual([plain, unit]);
  });
  test("reads Latin-1 where the bytes are no UTF-8", async () => {
    const log = await logOf(bytesOf("Zeit;Pr\xfcfer\n0;J\xf6rg\n1;\xc5sa\n"));
    expect(log.dialect.encoding).toBe("latin-1");
    expect(log.columns.map((c) => c.name)).toEqual(["Zeit", "Prüfer"]);
    expect(wordsOf(log, "Prüfer")).toEqual(["Jörg", "Åsa"]);
  });
  test("reads times of day and dates as seconds", async () => {
    const log = await logOf("time,F\n12:00:00.250,1\n12:00:00.750,2\n");
    expect(numbersOf(log, "time")).toEqual([43_200.25, 43_200.75]);
    const dated = await logOf("stamp;F\n1970-01-02 00:00:01,5;1\n1970-01-02 00:00:02,0;2\n");
    expect(numbersOf(dated, "stamp")).toEqual([86_401.5, 86_402]);
  });
  test("parts thousands where the mark can be nothing else", async () => {
    expect(numbersOf(await logOf("t;F\n0;1.234,5\n1;12.345,25\n"), "F")).toEqual([1234.5, 12_345.25]);
    expect(numbersOf(await logOf("t;F\n0;1,234.5\n1;12,345.25\n"), "F")).toEqual([1234.5, 12_345.25]);
    expect(numbersOf(await logOf("t;F\n0;1'234.5\n1;12'345.25\n"), "F")).toEqual([1234.5, 12_345.25]);
  });
  test("takes the user's word over its own guess", async () => {
    const log = await logOf("t;F\n0;1,250\n1;1,375\n", { thousands: ",", decimal: "." });
    expect(numbersOf(log, "F")).toEqual([1250, 1375]);
    expect(wordsOf(await logOf("t,reel\n0,1\n1,2\n", { texts: ["reel"] }), "reel")).toEqual(["1", "2"]);
  });
  test("says how sure it is: less where a mark could as well part thousands", async () => {
    expect((await logOf("t;F\n0;1,25\n1;1,375\n")).dialect.sure).toBeGreaterThan(0.9);
    expect((await logOf("t;F\n0;1,250\n1;1,375\n")).dialect.sure).toBeLessThan(0.7);
  });
  test("learns the decimal mark late, where the beginning holds whole numbers", async () => {
    const whole = Array.from({ length: 9000 }, (_, i) => `${i};${i % 9}\n`).join("");
    const log = await logOf(`t;F\n${whole}9000;1,5\n`);
    expect(numbersOf(log, "F").at(-1)).toBe(1.5);
    expect(log.remarks).toEqual([]);
  });
  test("takes a column that begins empty for what it turns out to hold", async () => {
    const empty = Array.from({ length: 9000 }, (_, i) => `${i};;\n`).join("");
    const log = await logOf(`t;note;F\n${empty}9000;bump;1,5\n`);
    expect(wordsOf(log, "note").at(-1)).toBe("bump");
    expect(numbersOf(log, "F").at(-1)).toBe(1.5);
  });
  test("knows the line of a row past comments, empty lines and a second header", async () => {
    const log = await logOf("t,F\n0,1\n\n# x\n1,2\nt,F\n2,3\n");
    expect([0, 1, 2].map((row) => log.lineOf(row))).toEqual([2, 5, 7]);
  });
  test("renames a name that comes twice", async () => {
    expect((await logOf("t,F,F,\n0,1,2,5\n1,2,3,6\n")).columns.map((c) => c.name)).toEqual([
      "t",
      "F",
      "F (2)",
      "column 4",
    ]);
  });
  test("stops within two megabytes of a line that does not end", async () => {
    let given = 0;
    const chunks = function* () {
      const chunk = new Uint8Array(65_536).fill(55);
      for (; given < 2 ** 31; given += chunk.length) yield chunk;
    };
    const { log, errors } = await readLog("endless.csv", chunks());
    expect(log).toBeUndefined();
    expect(errors[0]!.found).toBe("a line of more than 1 MB");
    expect(given).toBeLessThan(2e6);
    given = 0;
    const later = function* () {
      yield utf8(`t,F\n${"0,1\n".repeat(20_000)}`);
      yield* chunks();
    };
    expect((await readLog("endless.csv", later())).errors.map(showError)).toEqual([
      `endless.csv:20002:1: found a line of more than 1 MB, expected lines of at most 1 MB\n20002 | ${"7".repeat(60)}\n        ^\nIs the file text? A table written sideways is to be turned first.`,
    ]);
    expect(given).toBeLessThan(2e6);
  });
  test("does its work in pieces of at most 24 kB, between which a page can breathe", () => {
    const reader = new LogReader("run.csv");
    const text = utf8(`t,F\n${Array.from({ length: 40_000 }, (_, i) => `${i},${i % 7}\n`).join("")}`);
    let pieces = 0;
    const steps = reader.take(text);
    while (!steps.next().done) pieces++;
    expect(pieces).toBeGreaterThanOrEqual(Math.floor(text.length / 24_576));
    expect(finished(reader.end()).log!.rows).toBe(40_000);
  });
});

// Whatever a number's digits: what is written is what is read, to the last bit.
test("a number comes back to the last bit", async () => {
  const cell = fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e12, max: 1e12 });
  await fc.assert(
    fc.asyncProperty(fc.array(cell, { minLength: 1, maxLength: 20 }), fc.boolean(), async (values, comma) => {
      const text = `n;x\n${values.map((v, i) => `${i};${comma ? `${v}`.replace(".", ",") : v}\n`).join("")}`;
      const wish = comma ? ({ decimal: ",", thousands: "" } as const) : ({ decimal: ".", thousands: "" } as const);
      expect(numbersOf(await logOf(text, wish), "x")).toEqual(values);
    }),
    { seed: 1, numRuns: 100 },
  );
});

const good = [
  'Prüfer: Ada\nRate;1000\n\nZeit (ms);Kraft [N];Bemerkung\n0;1,5;\n1;1,7;los\n2;;x\n3;1,9;\n4;2,1;"a;b"\n5;2,0;\n',
  "t_s,index,force_N\n0.000,0,0.5512\n0.001,0,0.5601\n0.002,1,-0.5\n0.003,1,1e-3\n0.004,2,NaN\n0.005,2,0.7\n",
  "# rig 2\n# t F n\n 0.0  1.5  7\n 0.1  1.6  8\n 0.2  1.7  9\n 0.3  1.8  1\n",
  "unit\treel\tindexes\tmisfeeds\tmode\r\n1\tA\t20000\t1\tpart turned\r\n1\tB\t20000\t0\t\r\n2\tA\t15000\t2\tno part\r\n",
];
/** A few bytes of a good log changed, taken out, put in, doubled; or the end cut off. Seeded. */
function damaged(seed: number): Uint8Array {
  let state = seed * 2654435761 + 1;
  const next = (n: number): number => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 2 ** 32) * n);
  };
  let bytes = [...(seed % 5 === 4 ? utf16(good[seed % 4]!) : utf8(good[seed % 4]!))];
  const odd = [0, 9, 10, 13, 34, 35, 44, 45, 46, 48, 57, 59, 101, 124, 195, 252, 255];
  for (let k = 1 + next(4); k > 0; k--) {
    const at = next(bytes.length);
    const what = next(5);
    if (what === 0) bytes[at] = odd[next(odd.length)]!;
    else if (what === 1) bytes.splice(at, 1 + next(6));
    else if (what === 2) bytes.splice(at, 0, ...Array.from({ length: 1 + next(6) }, () => odd[next(odd.length)]!));
    else if (what === 3) bytes.splice(at, 0, ...bytes.slice(at, at + next(40)));
    else bytes = bytes.slice(0, Math.max(1, at));
  }
  return Uint8Array.from(bytes);
}
const parts = (bytes: Uint8Array, size: number): Uint8Array[] =>
  Array.from({ length: Math.ceil(bytes.length / size) }, (_, i) => bytes.slice(i * size, (i + 1) * size));

test("500 damaged logs are each read or refused with a place, alike in whatever chunks they come", async () => {
  let read = 0;
  for (let seed = 0; seed < 500; seed++) {
    const bytes = damaged(seed);
    const whole = await readLog("run.csv", [bytes]);
    const inParts = await readLog("run.csv", parts(bytes, 7));
    const say = ({ log, errors }: typeof whole) =>
      log
        ? [
            log.dialect,
            log.columns.map((c) => (c.kind === "number" ? [c.name, [...c.values]] : [c.name, c.words, [...c.codes]])),
            log.remarks.map((r) => [showError(r.first), r.count]),
          ]
        : errors.map(showError);
    // The first chunk decides whether there is a mark of UTF-16 or a sign of it.
    if (seed % 5 !== 4) expect(say(inParts)).toEqual(say(whole));
    if (whole.log) {
      read++;
      expect(whole.log.rows).toBeGreaterThan(0);
      for (const c of whole.log.columns) {
        expect(c.kind === "number" ? c.values.length : c.codes.length).toBe(whole.log.rows);
        if (c.kind === "number") expect(c.values.some((v) => !Number.isFinite(v) && !Number.isNaN(v))).toBe(false);
        const empty =
          c.kind === "number" ? c.values.filter((v) => Number.isNaN(v)).length : c.codes.filter((v) => v < 0).length;
        expect(empty).toBe(c.gaps);
      }
    } else {
      expect(whole.errors.length).toBeGreaterThan(0);
      for (const e of whole.errors) {
        expect(e.place.line).toBeGreaterThanOrEqual(1);
        expect(`${e.found}${e.expected}`).not.toMatch(/undefined|NaN rows|\[object/);
      }
    }
  }
  expect(read).toBeGreaterThan(200);
  expect(read).toBeLessThan(500);
});
