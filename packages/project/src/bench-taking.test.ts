import { finished } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { clean, deviates, even, oneCell, thickness } from "./bench.fixture.ts";
import type { Bench } from "./bench.ts";
import { benchBelief } from "./bench-belief.ts";
import { keepingApart, takingIn } from "./bench-taking.ts";
import { applied } from "./edit.ts";
import { weighedBelief } from "./taken-trials.ts";

const taking = (bench: Bench, name: string) => {
  const record = weighedBelief(bench.project, even, deviates);
  const belief = finished(benchBelief(bench, { deviates, record, only: name }));
  return takingIn(bench, bench.project.trials.get(name)!, belief, "2026-03-06");
};
const broken = clean.replaceAll("misfeeds: 0", "misfeeds: 900");
const apart = "format: 1\nledger:\n  - {apart: T-02, reason: the reels were damp}\n";

describe("taking a trial", () => {
  test("of a number writes its value into the design; of a check, that it is taken into the ledger", () => {
    expect(taking(oneCell({ "bench/T-01.yaml": thickness }), "T-01")).toMatchObject({
      kind: "design",
      edit: { file: "tapes/dpak-16.yaml" },
      taking: { address: "tapes/dpak-16/T" },
    });
    const tried = taking(oneCell({ "bench/T-02.yaml": clean }), "T-02");
    if (tried.kind !== "belief") throw new Error(tried.kind);
    const ledger = applied(tried.edit, "");
    expect(ledger).toBe("format: 1\nledger:\n  - taken: T-02\n    date: 2026-03-06\n");
    const twice = taking(oneCell({ "bench/T-02.yaml": clean, "ledger.yaml": ledger }), "T-02");
    expect(twice).toEqual({ kind: "nothing", why: "T-02 is taken into belief on 2026-03-06" });
  });
  test("that contradicts a check is a finding: there is nothing to take", () => {
    // Every piece fails where the check holds in all of belief.
    const bench = oneCell({ "bench/T-02.yaml": broken.replace("entry.pockets", "nip.pulls") });
    const said = taking(bench, "T-02");
    expect(said).toMatchObject({ kind: "nothing", why: expect.stringContaining("that is a finding") });
  });
  test("that is kept apart is refused with the reason, and may be taken afterwards", () => {
    const bench = oneCell({ "bench/T-02.yaml": clean, "ledger.yaml": apart });
    expect(taking(bench, "T-02")).toEqual({ kind: "nothing", why: "T-02 is kept apart: the reels were damp" });
    expect(keepingApart(bench, "T-02", "again", undefined)).toEqual({
      why: "T-02 is kept apart already: the reels were damp.",
    });
    expect(keepingApart(bench, "T-01", " ", undefined)).toHaveProperty("why");
  });
});
