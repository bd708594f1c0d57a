import type { JudgedPairs } from "../engine/protocol.ts";
import { Answers } from "./answers.ts";
import type { About, Answer, Progress, Question } from "./question.ts";

export type Asked =
  | { readonly id: number; readonly about: About; readonly question: Question; readonly judged?: JudgedPairs }
  /** Nobody waits any more. */
  | { readonly stop: number };
export type Told =
  | { readonly id: number; readonly progress: Progress }
  /** What is known of the answer so far: it sharpens in place. */
  | { readonly id: number; readonly sofar: Answer }
  | { readonly id: number; readonly answer: Answer }
  | { readonly id: number; readonly bug: string };

const scope = self as unknown as {
  onmessage: (event: MessageEvent<Asked>) => void;
  postMessage(told: Told): void;
};
const answers = new Answers();
let latest = 0;
/** Nobody waits for an older question: it ends at its next piece of work. */
class Overtaken extends Error {}

scope.onmessage = async ({ data }) => {
  if ("stop" in data) {
    if (latest === data.stop) latest = 0;
    return;
  }
  const { id, about, question, judged } = data;
  latest = id;
  try {
    const answer = await answers.answer(
      about,
      question,
      async (progress) => {
        scope.postMessage({ id, progress });
        await new Promise((resolve) => setTimeout(resolve, 0));
        if (id !== latest) throw new Overtaken();
      },
      (sofar) => scope.postMessage({ id, sofar }),
      judged,
    );
    scope.postMessage({ id, answer });
  } catch (e) {
    if (e instanceof Overtaken) return;
    scope.postMessage({ id, bug: e instanceof Error ? e.message : String(e) });
  }
};
