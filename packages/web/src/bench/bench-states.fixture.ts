import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { Answers } from "../ask/answers.ts";
import type { Answer, Question } from "../ask/question.ts";
import type { EngineState } from "../engine/state.ts";
import { LogDesk } from "../log/log-desk.ts";
import { goodState } from "../states.fixture.ts";

const example = resolve(import.meta.dirname, "../../../../examples/saltgrass");
const read = (name: string): string => readFileSync(`${example}/${name}`, "utf8");

/** The small project with two of the example's trials and its ledger; plover on so20-24 is on the screen. */
export function benchState(): EngineState {
  const good = goodState();
  const texts = new Map(good.texts);
  for (const name of ["bench/T-01.yaml", "bench/T-03.yaml"]) texts.set(name, read(name));
  // T-02 was tried on a tape that the small project has not.
  texts.set("ledger.yaml", read("ledger.yaml").replace(/ {2}- (frozen|scored): L-02\n(?: {4,}.*\n)+/g, ""));
  return { ...good, texts };
}
const flat = (value: unknown): string =>
  JSON.stringify(value, (_, v) => (ArrayBuffer.isView(v) ? [...(v as Float64Array)] : v));
const answers = new Answers();
export async function answered(state: EngineState, question: Question): Promise<Answer> {
  const about = { texts: [...state.texts], seed: state.seed };
  return answers.answer(about, question, () => Promise.resolve());
}
/** Answers of a state to the questions of the bench, as text, by their kinds. */
export async function benchAnswers(state: EngineState, trial?: string): Promise<Record<string, string>> {
  const out: Record<string, string> = {};
  const questions: readonly Question[] = [
    { kind: "bench" },
    { kind: "next" },
    ...(trial === undefined ? [] : [{ kind: "trial", trial, date: "2026-03-01" } as const]),
  ];
  for (const question of questions) out[question.kind] = flat(await answered(state, question));
  return out;
}
/** A kept log as it is opened, as text. */
export async function openedLog(state: EngineState, trial: string, run: number, file: string): Promise<string> {
  const bytes = new Uint8Array(readFileSync(`${example}/${file}`));
  const about = { texts: [...state.texts], trial };
  const outcome = await new LogDesk().open({ do: "open", file, bytes, about, run, width: 600 }, () => undefined);
  return flat(outcome);
}
