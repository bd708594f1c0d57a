import {
  checkNamed,
  type Deviates,
  type NextQuestions,
  type OpenQuestion,
  openQuestions,
  type Row,
  type Steps,
  type TrialPiece,
  trialPiece,
} from "@tapeworthy/core";
import type { Project } from "./project.ts";
import { sceneOf } from "./scene-of.ts";

/** A question with the piece that would settle it for the pair that fails most. */
export interface QuestionWithPiece extends OpenQuestion {
  readonly piece: TrialPiece | null;
}
export interface QuestionsWithPieces extends Omit<NextQuestions, "ranked" | "open" | "dropped"> {
  readonly ranked: readonly QuestionWithPiece[];
  readonly open: readonly QuestionWithPiece[];
  readonly dropped: readonly QuestionWithPiece[];
}
/** What to find out next, of pairs that were judged, each question with its trial piece. */
export function* questionsWithPieces(
  project: Project,
  rows: readonly Row[],
  belief: { readonly weights: Float64Array; readonly deviates: Deviates },
  order?: "series" | "independent",
): Steps<QuestionsWithPieces> {
  const found = openQuestions(rows, belief, { costs: project.benchCosts, ...(order ? { order } : {}) });
  yield undefined;
  const withPieces = function* (list: readonly OpenQuestion[]): Steps<QuestionWithPiece[]> {
    const out: QuestionWithPiece[] = [];
    for (const question of list) {
      const [worst] = question.hangs;
      const check = worst && checkNamed(worst.check);
      out.push({
        ...question,
        piece: check ? (trialPiece(sceneOf(project, worst.unit, worst.tape), check) ?? null) : null,
      });
      yield undefined;
    }
    return out;
  };
  return {
    ...found,
    ranked: yield* withPieces(found.ranked),
    open: yield* withPieces(found.open),
    dropped: yield* withPieces(found.dropped),
  };
}
