import { readFileSync } from "node:fs";
import { example } from "../engine/project.fixture.ts";
import type { LogFile, Outcome, TrialAbout } from "./log-protocol.ts";

const bench = new URL("../../../../examples/saltgrass/bench/", import.meta.url);
/** A file of the example's bench, as it lies there. */
export const benchBytes = (name: string): Uint8Array<ArrayBuffer> =>
  Uint8Array.from(readFileSync(new URL(name, bench)));
export const benchText = (name: string): string => readFileSync(new URL(name, bench), "utf8");

/** A file as a browser hands it over. */
export const fileOf = (name: string, ...parts: (string | Uint8Array<ArrayBuffer>)[]): LogFile => new File(parts, name);
export const benchFile = (name: string): LogFile => fileOf(name, benchBytes(name));

/** The example's design and some of its trials. */
export const aboutTrial = (trial: string, trials: readonly string[] = ["T-03"]): TrialAbout => ({
  texts: [...example, ...trials.map((name) => [`bench/${name}.yaml`, benchText(`${name}.yaml`)] as const)],
  trial,
});
/** A trial that is begun with a log. */
export const freshTrial = (trials: readonly string[] = []): TrialAbout => ({
  ...aboutTrial("T-09", trials),
  fresh: { unit: "dunlin", tape: "so20-24", question: "film.pull" },
});
export const withText = (about: TrialAbout, file: string, text: string): TrialAbout => ({
  texts: [...about.texts.filter(([path]) => path !== file), [file, text]],
  trial: about.trial,
});
export const done = <T>(outcome: Outcome<T>): T => {
  if (!("done" in outcome)) throw new Error(JSON.stringify(outcome));
  return outcome.done;
};
/** What is said where it went wrong. */
export const said = (outcome: Outcome<unknown>): string =>
  "errors" in outcome
    ? outcome.errors.map((e) => e.shown).join("\n\n")
    : "why" in outcome
      ? outcome.why
      : JSON.stringify(outcome);
