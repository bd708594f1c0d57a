import { afterAll, describe, expect, test } from "vitest";
import { exampleFolder } from "./cli.fixture.ts";
import type * as crew from "./crew.ts";
import { readFolder } from "./folder.ts";
import type { Done, Job, Start } from "./job.ts";

// Threads run what is built, so the crew does too.
const built = "../dist/crew.js";
const { doAll, dismiss } = (await import(built)) as typeof crew;

const start = (seed = 1): Start => ({ texts: [...readFolder(exampleFolder)], seed });
const known = (unit: string, tape: string): Job => ({ kind: "known", unit, tape });
const judge = (unit: string, tape: string): Job => ({
  kind: "judge",
  unit,
  tape,
  weights: new Float64Array(1000).fill(1e-3),
  contradicted: [],
});
const quiet = () => {};
const sharesOf = (done: readonly Done[]) =>
  done.map((d) => (d.kind === "known" ? d.chances.share : d.kind === "judge" ? d.result.share : undefined));

afterAll(() => dismiss());

describe("a crew", () => {
  const pairs = [known("plover", "sensor-8"), known("plover", "so8-12")];
  const then = [judge("plover", "so8-12"), judge("plover", "sensor-8")];
  test("answers the same whether it is one or two, and whether it has done jobs about the pair before", async () => {
    const fresh = await doAll(start(), [then[0]!], 1, quiet);
    dismiss();
    const alone = [await doAll(start(), pairs, 1, quiet), await doAll(start(), then, 1, quiet)];
    dismiss();
    const two = [await doAll(start(), pairs, 2, quiet), await doAll(start(), then, 2, quiet)];
    expect(alone[1]![0]).toEqual(fresh[0]);
    expect(two).toEqual(alone);
  });
  test("tells how far it is, job by job", async () => {
    const told: number[] = [];
    await doAll(start(), pairs, 2, (done, of) => told.push(done / of));
    expect(told).toEqual([0.5, 1]);
  });
  test("works for a new start with its own texts and seed", async () => {
    const [one] = await doAll(start(1), [pairs[0]!], 2, quiet);
    const [two] = await doAll(start(2), [pairs[0]!], 2, quiet);
    const [again] = await doAll(start(1), [pairs[0]!], 2, quiet);
    expect(two).not.toEqual(one);
    expect(again).toEqual(one);
  });
  test("says which job failed, and can be asked again", async () => {
    const jobs = [pairs[0]!, known("plover", "no-such-tape"), pairs[1]!];
    await expect(doAll(start(), jobs, 2, quiet)).rejects.toThrow("no variant of plover for no-such-tape");
    expect(sharesOf(await doAll(start(), pairs, 2, quiet))).toHaveLength(2);
  });
});
