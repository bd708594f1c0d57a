export { type Bench, isRefused, type Refused, type Tell, whyNoTrialName } from "./bench.ts";
export {
  type Believed,
  type BenchAsked,
  type BenchBelief,
  believedOf,
  benchBelief,
} from "./bench-belief.ts";
export { type BenchCounts, benchCounts } from "./bench-counts.ts";
export {
  type Asked as TrialAsks,
  askedBy,
  type BenchResult,
  benchResult,
  benchResults,
  benchStanding,
  cameOutOf,
  inDateOrder,
  keyOfTrial,
  type PieceReadings,
  pieceReadings,
  restingOn,
} from "./bench-evidence.ts";
export {
  type Freezing,
  freezing,
  type NewTrialFields,
  type TrialBegun,
  trialBegun,
  whyNotFreeze,
} from "./bench-freeze.ts";
export {
  type AsIfWritten,
  asIfWritten,
  type BenchMoves,
  benchMoves,
  type MovesAsked,
  weighedInSteps,
} from "./bench-moves.ts";
export {
  leftOut,
  type Proof,
  type ProofAsked,
  proofOf,
  type Statement,
  sayProgress,
  saySequential,
  statementsOf,
} from "./bench-proof.ts";
export { recordsOf, type ScoreLine, type Scoring, sayScore, scoring } from "./bench-score.ts";
export { type Taking, takingOf } from "./bench-take.ts";
export { keepingApart, type TakingIn, takingIn } from "./bench-taking.ts";
export { type Waiting, waitingFor } from "./bench-waiting.ts";
export { type CardAsked, type CardSaid, cardOf, cardSays, type Decided, decidedBy, readingsTyped } from "./card-of.ts";
export { type CardKept, type CardToKeep, cardReadings } from "./card-readings.ts";
export * from "./edit.ts";
export * from "./error.ts";
export { boundsIn, type Freed } from "./free.ts";
export { GivenStore } from "./given-store.ts";
export { type ChangesJson, changed, toJson } from "./history/changes.ts";
export * from "./history/folder-texts.ts";
export { lineDiff } from "./history/line-diff.ts";
export { lineTouchedTwice } from "./history/lines.ts";
export * from "./history/record.ts";
export * from "./history/text-copy.ts";
export * from "./json-schema.ts";
export * from "./known-lines.ts";
export { familyOf } from "./ladder.ts";
export {
  apartEdit,
  canonicalTexts,
  frozenEdit,
  inUnitOf,
  keyedEdit,
  nextId,
  scoredEdit,
  takenEdit,
} from "./ledger-edit.ts";
export { type LedgerData, ledgerFields } from "./ledger-fields.ts";
export {
  emptyLedger,
  type Ledger,
  type LedgerFrozen,
  type LedgerScore,
  ledgerPath,
  readLedger,
} from "./ledger-read.ts";
export * from "./log/counting.ts";
export { type Dialect, type Separator, separators, type Wish } from "./log/dialect.ts";
export { type Encoding, encodings } from "./log/encoding.ts";
export * from "./log/import-log.ts";
export * from "./log/log.ts";
export * from "./log/mapping.ts";
export * from "./log/raw.ts";
export { LogReader, readLog } from "./log/read-log.ts";
export { openRun, settleEdit, traceOfRun } from "./log/settle.ts";
export {
  askedOfLog,
  type LogPlan,
  type LogToTake,
  plateauIn,
  readBefore,
  rememberedMapping,
  runOfLog,
  sameColumn,
  takingLog,
} from "./log/taking-log.ts";
export * from "./log/time-look.ts";
export * from "./log/trial.ts";
export * from "./log/trial-edit.ts";
export { type TrialData, trialFields } from "./log/trial-fields.ts";
export { type QuestionsWithPieces, type QuestionWithPiece, questionsWithPieces } from "./next-questions.ts";
export { writtenForWidth } from "./per-width.ts";
export * from "./project.ts";
export * from "./project-fields.ts";
export { sceneOf } from "./scene-of.ts";
export { sizedText } from "./sized-text.ts";
export { SourceFile } from "./source.ts";
export * from "./taken-trials.ts";
export type { TapeFile } from "./tape-file.ts";
export type { UnitFile } from "./unit-file.ts";
