import { type Card, cardFor, type NextQuestions, type TapeResult } from "@tapeworthy/core";
import { decidedBy } from "@tapeworthy/project";
import type { EngineState } from "../engine/engine.ts";

export interface CardAsked {
  readonly card: Card;
  readonly revision: string | undefined;
  /** File names of the unit and the tape it decides most. */
  readonly pair: { readonly unit: string; readonly tape: string } | undefined;
}
/** The card of a question, made out for what it decides most; undefined where no card measures it. */
export function cardAsked(
  question: string,
  rows: readonly TapeResult[],
  questions: NextQuestions | undefined,
  { project }: Pick<EngineState, "project">,
): CardAsked | undefined {
  // What the question is asked for, where it is one of the open ones: else what it decides most.
  const asked =
    questions && [...questions.ranked, ...questions.open, ...questions.dropped].find((q) => q.address === question);
  const hanging = asked?.hangs.flatMap((h) =>
    rows.flatMap((row) =>
      row.unit === h.unit && row.tape === h.tape
        ? [{ ...row, findings: row.findings.filter((f) => f.check === h.check) }]
        : [],
    ),
  );
  const at = (hanging && decidedBy(hanging.slice(0, 1), question)) ?? decidedBy(rows, question);
  const unit = at && project?.units.find((u) => u.stem === at.row.unit);
  const card = cardFor(
    question,
    at && { unit: unit?.name ?? at.row.unit, tape: at.row.tape, check: at.check, decisive: at.decisive },
  );
  return card && { card, revision: unit?.revision, pair: at && { unit: at.row.unit, tape: at.row.tape } };
}
