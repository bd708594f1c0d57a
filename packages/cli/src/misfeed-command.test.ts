import { createHash } from "node:crypto";
import { describe, expect, test } from "vitest";
import { exampleFolder, tapeworthy } from "./cli.fixture.ts";

const pair = ["--unit", "dunlin", "--tape", "so20-24", "--no-known", "--draws", "40"];
interface Told {
  readonly pairs: readonly {
    readonly tape: string;
    readonly W: number;
    readonly misfeeds: {
      readonly rate: number;
      readonly allowance: number;
      readonly belief: { readonly low: number; readonly high: number };
      readonly modes: readonly { readonly id: string; readonly rate: number }[];
    };
  }[];
}

describe("misfeed", () => {
  test("one pair: a rate with its band against the allowance, by mode, and what makes it", () => {
    const { code, out } = tapeworthy(["misfeed", exampleFolder, ...pair]);
    expect(code).toBe(0);
    expect(out).toContain("dunlin on 24 so20-24: misfeeds in a million indexes");
    expect(out).toMatch(/allowed 10: (within|open|over)/);
    expect(out).toContain("the part lies outside what the pick tool forgives");
    expect(out).toContain("cannot fail as drawn");
    expect(out).toContain("measure: ");
    expect(out).toMatch(/Belief\s+without\s+a\s+record\s+of\s+known\s+units\./);
  }, 120_000);
  test("any number of workers gives the same bits, the rate within its band", () => {
    const args = ["misfeed", exampleFolder, "--unit", "plover", "--no-known", "--draws", "40", "--json"];
    const few = [...args, "--tape", "so8-12"];
    const told = [1, 2].map((n) => tapeworthy([...few, "--workers", `${n}`]).out);
    const hashes = told.map((out) => createHash("sha256").update(out).digest("hex"));
    expect(new Set(hashes).size).toBe(1);
    const { pairs } = JSON.parse(told[0]!) as Told;
    const { misfeeds, W } = pairs[0]!;
    expect(W).toBe(12);
    expect(misfeeds.allowance).toBeCloseTo(1e-5, 12);
    expect(misfeeds.belief.low).toBeLessThanOrEqual(misfeeds.belief.high);
    expect(misfeeds.modes.map(({ id }) => id)).toContain("film-slips");
  }, 180_000);
  test("a pair that nobody wants, a tape or unit that is not there: said with the way out", () => {
    expect(tapeworthy(["misfeed", exampleFolder, "--tape", "radio-44", "--unit", "plover"])).toMatchObject({ code: 2 });
    expect(tapeworthy(["misfeed", exampleFolder, "--unit", "plovr"]).err).toContain('Did you mean "plover"?');
    expect(tapeworthy(["misfeed", exampleFolder, "--draws", "3"]).err).toContain("from 40 to 1000");
    expect(tapeworthy(["misfeed", exampleFolder, "--tape", "nothing"]).err).toContain('There is no tape "nothing"');
  });
});
