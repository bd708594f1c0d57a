import { createHash } from "node:crypto";
import { cpSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { exampleFolder, inNewFolder, tapeworthy } from "./cli.fixture.ts";

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
  }, 360_000);
  // A job is a pair: five pairs, so that five workers all have one.
  test("one, two and five workers give the same bits, the rate within its band", () => {
    const told = inNewFolder((folder) => {
      for (const inner of ["units", "tapes"])
        cpSync(join(exampleFolder, inner), join(folder, inner), { recursive: true });
      const pairs = "wanted: {plover: [so8-12, sensor-8], dunlin: [so8-12, so16-16, carrier-24]}\n";
      const text = readFileSync(join(exampleFolder, "project.yaml"), "utf8").replace(/^ladder:.*\n/m, "");
      writeFileSync(join(folder, "project.yaml"), text.replace(/^wanted:\n( {2}.*\n)+/m, pairs));
      const args = ["misfeed", folder, "--draws", "40", "--json", "--workers"];
      return [1, 2, 5].map((n) => tapeworthy([...args, `${n}`]).out);
    });
    const hashes = told.map((out) => createHash("sha256").update(out).digest("hex"));
    expect(new Set(hashes).size).toBe(1);
    const { pairs } = JSON.parse(told[0]!) as Told;
    expect(pairs).toHaveLength(5);
    const { misfeeds, W } = pairs[0]!;
    expect(W).toBe(12);
    expect(misfeeds.allowance).toBeCloseTo(1e-5, 12);
    expect(misfeeds.belief.low).toBeLessThanOrEqual(misfeeds.belief.high);
    expect(misfeeds.modes.map(({ id }) => id)).toContain("film-slips");
  }, 900_000);
  test("a pair that nobody wants, a tape or unit that is not there: said with the way out", () => {
    expect(tapeworthy(["misfeed", exampleFolder, "--tape", "radio-44", "--unit", "plover"])).toMatchObject({ code: 2 });
    expect(tapeworthy(["misfeed", exampleFolder, "--unit", "plovr"]).err).toContain('Did you mean "plover"?');
    expect(tapeworthy(["misfeed", exampleFolder, "--draws", "3"]).err).toContain("from 40 to 1000");
    expect(tapeworthy(["misfeed", exampleFolder, "--tape", "nothing"]).err).toContain('There is no tape "nothing"');
  });
});
