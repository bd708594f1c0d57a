import { type Card, cardFor, type TapeResult } from "@tapeworthy/core";
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
  { project }: Pick<EngineState, "project">,
): CardAsked | undefined {
  const at = decidedBy(rows, question);
  const unit = at && project?.units.find((u) => u.stem === at.row.unit);
  const card = cardFor(
    question,
    at && { unit: unit?.name ?? at.row.unit, tape: at.row.tape, check: at.check, decisive: at.decisive },
  );
  return card && { card, revision: unit?.revision, pair: at && { unit: at.row.unit, tape: at.row.tape } };
}
