import { useCallback, useState } from "react";
import { flushSync } from "react-dom";
import type { Asker } from "../ask/asker.ts";
import type { Answer, Question } from "../ask/question.ts";
import type { Engine, EngineState, FileEdit } from "../engine/engine.ts";

/** What is done on the bench: each act is one step of undo, and says in words why it could not be done. */
export interface Acts {
  /** What is being done now, in words. */
  readonly doing: string | undefined;
  readonly said: string;
  readonly freeze: (trial: string, date: string, fresh?: { unit: string; tape: string; question: string }) => void;
  readonly score: (trial: string, date: string) => void;
  /** Puts edits into the files; true where they are in. */
  readonly put: (what: string, edits: readonly FileEdit[]) => Promise<boolean>;
  readonly say: (words: string) => void;
}
export function useActs(engine: Engine, { texts, seed }: Pick<EngineState, "texts" | "seed">, asker: Asker): Acts {
  const [doing, setDoing] = useState<string>();
  const [said, say] = useState("");
  const put = useCallback(
    async (what: string, edits: readonly FileEdit[]): Promise<boolean> => {
      say("");
      setDoing(what);
      try {
        const errors = await engine.put(edits);
        say(errors.map((e) => e.shown).join("\n"));
        return errors.length === 0;
      } catch (e) {
        say(`It was not written: ${e instanceof Error ? e.message : e}.`);
        return false;
      } finally {
        setDoing(undefined);
      }
    },
    [engine],
  );
  const asking = useCallback(
    async (what: string, question: Question, edits: (answer: Answer) => readonly FileEdit[] | string) => {
      // Drawn at once: other questions step back before this one is asked, and are asked again after it.
      flushSync(() => {
        say("");
        setDoing(what);
      });
      try {
        const answer = await asker.ask({ texts: [...texts], seed }, question, ({ what: now, done, of }) =>
          setDoing(`${what}: ${now}, ${done} of ${of}`),
        );
        const found = answer.kind === "none" ? answer.why : edits(answer);
        if (typeof found === "string") say(found);
        else if (found.length > 0) await put(what, found);
      } catch (e) {
        say(e instanceof Error ? e.message : String(e));
      } finally {
        setDoing(undefined);
      }
    },
    [asker, texts, seed, put],
  );
  return {
    doing,
    said,
    say,
    put,
    freeze: (trial, date, fresh) =>
      void asking("Freezing the prediction", { kind: "freeze", trial, date, ...(fresh ? { fresh } : {}) }, (answer) =>
        answer.kind === "freeze" ? answer.freeze.edits : [],
      ),
    score: (trial, date) =>
      void asking("Scoring", { kind: "score", trial, date }, (answer) =>
        answer.kind !== "score" ? [] : answer.score.edit ? [answer.score.edit] : `Nothing is new. ${answer.score.says}`,
      ),
  };
}
