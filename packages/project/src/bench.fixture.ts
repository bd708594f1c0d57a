import { Deviates, evenWeights, type Weighed } from "@tapeworthy/core";
import type { Bench } from "./bench.ts";
import { showError } from "./error.ts";
import { example } from "./example.fixture.ts";
import { readProject } from "./project.ts";
import type { WeighedBelief } from "./taken-trials.ts";

/** The example cut down to one pair without known units, so that its map takes a moment; `files` beside its design. */
export function oneCell(files: Readonly<Record<string, string>> = {}): Bench {
  const texts = new Map([...example].filter(([path]) => path !== "known.yaml"));
  const main = texts
    .get("project.yaml")!
    .replace(/wanted:\n( {2}.*\n)+/, "wanted:\n  dunlin: [dpak-16]\n")
    .replace(/pick tool: .*/, "pick tool: 1 mm")
    .replace(/^ladder:.*\n/m, "")
    .replace(/^ {2}misfeed allowance:.*\n/m, "")
    .replace("  allow pairs: 2 %\n", "  allow pairs: 2 %\n  misfeed allowance: 0.0001\n");
  texts.set("project.yaml", main);
  for (const [path, text] of Object.entries(files)) texts.set(path, text);
  return benchOf(texts);
}
export function benchOf(texts: Bench["texts"]): Bench {
  const { project, errors } = readProject(texts);
  if (!project) throw new Error(errors.map(showError).join("\n"));
  return { project, texts, sha: "a".repeat(64) };
}
export const deviates = new Deviates(1);
/** Belief of a project without known units. */
const byKnown: Weighed = {
  weights: evenWeights,
  effective: evenWeights.length,
  contradicted: [],
  leftOut: [],
};
/** Nothing weighed, nothing taken. */
export const even: WeighedBelief = { ...byKnown, byKnown, taken: [], retired: [] };
/** Six invented reels, alike within a hundredth. */
export const thickness = `format: 1
trial: T-01
unit: dunlin
tape: dpak-16
question: tapes/dpak-16/T
date: 2026-03-04
readings:
${["A", "B", "C", "D", "E", "F"].map((r, i) => `  - {reel: ${r}, value: 0.2${48 + i} mm}\n`).join("")}`;
/** Six invented units on a reel each, of which none failed. */
export const clean = `format: 1
trial: T-02
unit: dunlin
tape: dpak-16
question: entry.pockets
date: 2026-03-05
counts:
${[1, 2, 3, 4, 5, 6].map((n) => `  - {unit: D${n}, reel: R${n}, indexes: 1000, misfeeds: 0}\n`).join("")}`;
