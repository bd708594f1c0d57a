import { finished } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { clean, deviates, even, oneCell, thickness } from "./bench.fixture.ts";
import { believedOf, benchBelief } from "./bench-belief.ts";
import { weighedBelief } from "./taken-trials.ts";

const files = { "bench/T-01.yaml": thickness, "bench/T-02.yaml": clean };
const taken = "format: 1\nledger:\n  - taken: T-02\n    date: 2026-03-06\n";

describe("belief with the bench in it", () => {
  test("leaves what is believed as it stands: what waits is beside it", () => {
    const belief = finished(benchBelief(oneCell(files), { deviates, record: even }));
    expect(believedOf(belief).weights).toBe(even.weights);
    expect(belief.results.map((r) => [r.trial, r.state])).toEqual([
      ["T-01", "used"],
      ["T-02", "used"],
    ]);
    expect(belief.taken.standings.map((s) => s.trial)).toEqual(["T-01", "T-02"]);
    expect(belief.taken.effective).toBeLessThan(even.effective);
  });
  test("is that of one trial where one is named", () => {
    const belief = finished(benchBelief(oneCell(files), { deviates, record: even, only: "T-02" }));
    expect(belief.results.map((r) => r.trial)).toEqual(["T-02"]);
  });
  test("counts what the ledger takes once, and not as something that waits", () => {
    const bench = oneCell({ ...files, "ledger.yaml": taken });
    const record = weighedBelief(bench.project, even, deviates);
    const belief = finished(benchBelief(bench, { deviates, record, only: "T-02" }));
    expect(belief.results[0]!.state).toBe("taken");
    expect(belief.base).toBe(record.weights);
    expect([...belief.taken.weights]).toEqual([...record.weights]);
    expect(record.effective).toBeLessThan(even.effective);
    // Without known units it is taken all the same.
    const alone = finished(benchBelief(bench, { deviates, record, known: false, only: "T-02" }));
    expect([...alone.base]).toEqual([...record.weights]);
  });
});
