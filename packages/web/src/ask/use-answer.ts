import { useCallback, useEffect, useMemo, useRef, useState } from "react";
import type { EngineState } from "../engine/engine.ts";
import { Asker } from "./asker.ts";
import type { Answer, JudgedFor, Progress, Question } from "./question.ts";

/** A question with as much of its answer as there is. */
export interface Answering {
  readonly question: Question;
  /** As far as it is known: while there is progress it may still sharpen. */
  readonly answer: Answer | undefined;
  readonly progress: Progress | undefined;
  /** Somebody stopped it: what stands is all that comes. */
  readonly stopped: boolean;
  /** Ends it where it is, and keeps what is known. */
  readonly stop: () => void;
  /** What went wrong, a bug of ours. */
  readonly bug: string | undefined;
}
/** A question waits so long for the text to rest, ms. */
const patience = 400;

/** A thread for questions, ended with the page; `judged` is what the map has found already. */
export function useAsker(judged: JudgedFor): Asker {
  const [asker] = useState(() => new Asker(judged));
  useEffect(() => () => asker.close(), [asker]);
  return asker;
}

/**
 * Asks a question of the present texts as soon as they read and rest, and asks it again when they change. While it `waits` for another one
 * nothing is asked; what was answered before is shown.
 */
export function useAnswer(
  asker: Asker,
  { texts, seed, errors, gesture }: EngineState,
  question: Question | undefined,
  waits = false,
): Answering | undefined {
  /** What has been answered for these texts: folded and unfolded again it is there at once. */
  const answered = useRef(new WeakMap<object, Map<string, Answer>>());
  const key = question && JSON.stringify(question);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a question is what it says
  const asked = useMemo(() => question, [key]);
  const [state, setState] = useState<{ key: string; texts: unknown } & Answering>();
  const stop = useCallback(() => {
    asker.stop();
    setState((now) => now && { ...now, progress: undefined, stopped: true });
  }, [asker]);
  const rests = errors.length === 0 && gesture === undefined && !waits;
  useEffect(() => {
    if (!asked || key === undefined || !rests) return;
    let is = true;
    if (answered.current.get(texts)?.has(key)) return;
    const timer = setTimeout(() => {
      // What is known so far stays while it sharpens.
      const set = (part: Partial<Answering>) => {
        if (!is) return;
        setState((now) => ({
          ...nothingYet,
          stop,
          answer: now?.key === key && now.texts === texts ? now.answer : undefined,
          ...part,
          key,
          texts,
          question: asked,
        }));
      };
      asker
        .ask(
          { texts, seed },
          asked,
          (progress) => set({ progress }),
          (sofar) => set({ answer: sofar, progress: { what: "sharper numbers", done: 0, of: 1 } }),
        )
        .then(
          (answer) => {
            const known = answered.current.get(texts) ?? new Map<string, Answer>();
            answered.current.set(texts, known.set(key, answer));
            set({ answer });
          },
          (e: Error) => set({ bug: e.message }),
        );
    }, patience);
    return () => {
      is = false;
      clearTimeout(timer);
    };
  }, [asker, asked, key, texts, seed, rests, stop]);
  if (!asked || key === undefined) return undefined;
  const answer = answered.current.get(texts)?.get(key);
  if (answer) return { ...nothingYet, stop, question: asked, answer };
  if (state?.key === key && state?.texts === texts) return state;
  return { ...nothingYet, stop, question: asked };
}
const nothingYet = { answer: undefined, progress: undefined, stopped: false, bug: undefined } as const;
