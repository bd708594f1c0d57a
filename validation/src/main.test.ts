import { describe, expect, test } from "vitest";
import { allRows, summary, table, validate } from "./main.ts";
import { type Row, row } from "./row.ts";

const rows = allRows();

test("every figure holds", () => expect(rows.filter((r) => !r.ok)).toEqual([]));
test("there are at least 60 rows, and no two have one id", () => {
  expect(rows.length).toBeGreaterThanOrEqual(60);
  expect(new Set(rows.map((r) => r.id)).size).toBe(rows.length);
});
test("a row says what it is, from where, and how that is known", () => {
  for (const r of rows) {
    expect(r.source.length, r.id).toBeGreaterThan(10);
    expect(r.source, r.id).not.toContain("http");
    expect(r.source, r.id).not.toContain("www");
    expect(["read", "derived", "memory", "common practice"]).toContain(r.how);
    expect(Number.isFinite(r.expected) && Number.isFinite(r.tolerance) && r.tolerance >= 0, r.id).toBe(true);
  }
});
test("twenty letters of the catalogue and more are held against the standard's own page", () => {
  const letters = rows.filter((r) => r.model === "catalogue" && r.how === "read");
  expect(letters.length).toBeGreaterThanOrEqual(20);
  expect(letters.filter((r) => /p\. 1[35]/.test(r.source)).length).toBeGreaterThanOrEqual(20);
  expect(letters.some((r) => r.id.startsWith("punched"))).toBe(true);
});
test("the order of the trade is one row and cites no source", () => {
  expect(rows.filter((r) => r.how === "common practice")).toEqual([
    expect.objectContaining({ id: "order of the trade", source: "common practice, no source", ok: true }),
  ]);
});

const claim = { id: "a", model: "m", expected: 2, got: 2, source: "a source with a title", how: "derived" } as const;
describe("a row", () => {
  test("holds within its share, its distance or half its last digit, and not beyond", () => {
    expect(row({ ...claim, got: 2.019, near: { share: 0.01 } }).ok).toBe(true);
    expect(row({ ...claim, got: 2.021, near: { share: 0.01 } }).ok).toBe(false);
    expect(row({ ...claim, got: 1.9, near: { within: 0.1 } }).ok).toBe(true);
    expect(row({ ...claim, got: 1.89, near: { within: 0.1 } }).ok).toBe(false);
    expect(row({ ...claim, got: 2.05, near: { printedTo: 0.1 } }).ok).toBe(true);
    expect(row({ ...claim, got: 2.06, near: { printedTo: 0.1 } }).ok).toBe(false);
  });
  test("says when half a printed digit is all that is allowed", () => {
    expect(row({ ...claim, near: { printedTo: 0.1 } })).toMatchObject({
      tolerance: 0.05,
      source: "a source with a title; printed to 0.1, half of that allowed",
    });
  });
  test("without a number fails", () => expect(row({ ...claim, got: Number.NaN, near: { share: 1 } }).ok).toBe(false));
});

describe("the exit status", () => {
  const run = (args: readonly string[], list: readonly Row[] = rows) => {
    const printed: string[] = [];
    const status = validate(args, (text) => printed.push(text), list);
    return { status, text: printed.join("\n") };
  };
  const wrong = row({ ...claim, expected: 3, near: { share: 0.01 } });
  test("is 0 while every row holds", () => expect(run([]).status).toBe(0));
  test("is 1 when a single expectation is wrong, and the table says which", () => {
    const { status, text } = run([], [...rows, wrong]);
    expect(status).toBe(1);
    expect(text.split("\n").filter((l) => l.startsWith("FAILS"))).toEqual([
      expect.stringMatching(/^FAILS\s+a\s+m\s+3\s+2\s+±0\.03/),
    ]);
    expect(text.endsWith(`${rows.length} of ${rows.length + 1} figures hold, 1 fail`)).toBe(true);
  });
  test("is 1 with --json too, and all that is printed is the array", () => {
    const { status, text } = run(["--json"], [wrong]);
    expect(status).toBe(1);
    expect(JSON.parse(text)).toEqual([wrong]);
  });
  test("is the same with --failed, which shows only the rows that fail, and all are counted", () => {
    const { status, text } = run(["--failed"], [...rows, wrong]);
    expect(status).toBe(1);
    expect(text.split("\n")).toHaveLength(3);
    expect(text.endsWith(`${rows.length} of ${rows.length + 1} figures hold, 1 fail`)).toBe(true);
    expect(run(["--failed"])).toEqual({ status: 0, text: `${rows.length} of ${rows.length} figures hold, 0 fail` });
  });
  test("is 2 for an argument that is not known", () => {
    expect(run(["--jsn"])).toEqual({
      status: 2,
      text: 'found "--jsn", expected nothing, --json, --failed, reliability, cover or sizing',
    });
  });
  test("--json gives each row its fields", () => {
    const [first] = JSON.parse(run(["--json"]).text) as Row[];
    expect(Object.keys(first!)).toEqual(["id", "model", "expected", "got", "tolerance", "unit", "ok", "source", "how"]);
  });
});
test("the table has a line a row, and the summary counts them", () => {
  expect(table(rows).split("\n")).toHaveLength(rows.length + 2);
  expect(summary(rows)).toBe(`${rows.length} of ${rows.length} figures hold, 0 fail`);
});
