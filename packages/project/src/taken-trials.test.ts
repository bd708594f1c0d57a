import { Deviates, type Evidence, evenWeights, type Weighed } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { benchStanding, keyOfTrial } from "./bench-evidence.ts";
import { applied } from "./edit.ts";
import { example } from "./example.fixture.ts";
import { GivenStore } from "./given-store.ts";
import { keyedEdit, takenEdit } from "./ledger-edit.ts";
import { type Project, readProject, type Texts } from "./project.ts";
import { takenEvidence, takenFooting, weighedBelief } from "./taken-trials.ts";

const deviates = new Deviates(1);
const read = (texts: Texts, store?: GivenStore): Project => {
  const { project, errors } = readProject(texts, store);
  if (!project) throw new Error(errors.map((e) => e.message).join("\n"));
  return project;
};
/** The example with a trial of a check: so many of so many pieces misfed. */
function tried(failed: number, run = 6): Map<string, string> {
  const counts = Array.from(
    { length: run },
    (_, i) => `  - {unit: ${i + 1}, reel: A, indexes: 100, misfeeds: ${i < failed ? 1 : 0}}\n`,
  );
  const trial = `format: 1\ntrial: T-09\nunit: plover\ntape: coil-12\nquestion: nip.slips\ncounts:\n${counts.join("")}`;
  return new Map([...example, ["bench/T-09.yaml", trial]]);
}
/** The same with what it rests on noted, and taken into belief. */
function taken(texts: Texts): Map<string, string> {
  const project = read(texts);
  const keyed = applied(keyedEdit(undefined, "T-09", keyOfTrial(project, project.trials.get("T-09")!), undefined), "");
  return new Map(texts).set("ledger.yaml", applied(takenEdit(keyed, "T-09", "2026-03-05"), keyed));
}
const even: Weighed = { weights: evenWeights, effective: 1000, contradicted: [], leftOut: [] };

describe("belief", () => {
  test("is the very same while a trial waits to be taken", () => {
    const project = read(tried(0));
    expect(benchStanding(project, project.trials.get("T-09")!).state).toBe("used");
    expect(weighedBelief(project, even, deviates)).toMatchObject({ weights: evenWeights, taken: [] });
    expect(weighedBelief(project, even, deviates).weights).toBe(even.weights);
  });
  test("moves once a trial is taken, to where the pieces that held are likelier", () => {
    const project = read(taken(tried(0)));
    const { weights, effective, taken: standings } = weighedBelief(project, even, deviates);
    expect(standings.map((s) => [s.trial, s.state])).toEqual([["T-09", "taken"]]);
    expect(weights.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12);
    expect(effective).toBeLessThan(990);
    // Two draws stand in the ratio of the likelihoods they give the result. [derived]
    const [{ log }] = takenEvidence(project, deviates) as [Evidence];
    const [a, b] = [log.indexOf(Math.max(...log)), log.findIndex((l) => l < -1 && l > -10)];
    expect(weights[a]! / weights[b]!).toBeCloseTo(Math.exp(log[a]! - log[b]!), 6);
  });
  test("does not move by a result that contradicts the model: that is a finding", () => {
    // Every piece fails, though the checks say that so light a nip slips long before the film breaks.
    const loose = [...tried(12, 12)].map(([path, text]): [string, string] => [
      path,
      path === "units/plover.yaml" ? text.replace(/^( *preload:).*$/m, "$1 0.5 N") : text,
    ]);
    const project = read(taken(new Map(loose)));
    const found = weighedBelief(project, even, deviates);
    expect(found.taken.map((s) => s.state)).toEqual(["contradicts"]);
    expect(found.taken[0]!.says).toContain("It is not weighed in");
    expect([...found.weights]).toEqual([...evenWeights]);
  });
  test("without the one trial is as it was before it", () => {
    const project = read(taken(tried(0)));
    expect(weighedBelief(project, even, deviates, { but: ["T-09"] }).weights).toBe(even.weights);
  });
  test("drops a taken trial whose dimension has changed since", () => {
    const texts = taken(tried(0));
    const plover = texts.get("units/plover.yaml")!;
    const project = read(new Map(texts).set("units/plover.yaml", plover.replace(/^( *preload:).*$/m, "$1 5.5 ±0.5 N")));
    expect(benchStanding(project, project.trials.get("T-09")!)).toMatchObject({ state: "retired" });
    const { taken: standings, retired } = weighedBelief(project, even, deviates);
    expect(standings).toEqual([]);
    expect(retired).toMatchObject([{ trial: "T-09" }]);
    expect(retired[0]!.says).toContain("plover/nip.preload was 4.7 ±0.5 N, is 5.5 ±0.5 N");
  });
  test("works out a taken trial once for as long as it rests on the same", () => {
    const store = new GivenStore();
    const texts = taken(tried(0));
    const [first] = takenEvidence(read(texts, store), deviates, { store });
    // Another number of the unit is another file text, and leaves this one's footing.
    const plover = texts.get("units/plover.yaml")!;
    const other = new Map(texts).set("units/plover.yaml", `${plover}# a word\n`);
    const project = read(other, store);
    expect(takenEvidence(project, deviates, { store })[0]).toBe(first);
    expect(takenFooting(project)).toEqual(takenFooting(read(texts, store)));
    expect(takenEvidence(project, new Deviates(2), { store })[0]).not.toBe(first);
  });
});
