export { type BenchCounts, benchCounts } from "./bench-counts.ts";
export {
  type Asked as TrialAsks,
  askedBy,
  type BenchResult,
  benchResult,
  benchResults,
  cameOutOf,
  keyOfTrial,
  type PieceReadings,
  pieceReadings,
  restingOn,
  sceneOfTrial,
} from "./bench-evidence.ts";
export { type Taking, takingOf } from "./bench-take.ts";
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
export { apartEdit, canonicalTexts, frozenEdit, inUnitOf, keyedEdit, nextId, scoredEdit } from "./ledger-edit.ts";
export { type LedgerData, ledgerFields } from "./ledger-fields.ts";
export { emptyLedger, type Ledger, type LedgerScore, ledgerPath, readLedger } from "./ledger-read.ts";
export * from "./log/counting.ts";
export { type Dialect, type Separator, separators, type Wish } from "./log/dialect.ts";
export { type Encoding, encodings } from "./log/encoding.ts";
export * from "./log/import-log.ts";
export * from "./log/log.ts";
export * from "./log/mapping.ts";
export * from "./log/raw.ts";
export { LogReader, readLog } from "./log/read-log.ts";
export * from "./log/time-look.ts";
export * from "./log/trial.ts";
export * from "./log/trial-edit.ts";
export { type TrialData, trialFields } from "./log/trial-fields.ts";
export { writtenForWidth } from "./per-width.ts";
export * from "./project.ts";
export * from "./project-fields.ts";
export { sizedText } from "./sized-text.ts";
export { SourceFile } from "./source.ts";
export type { TapeFile } from "./tape-file.ts";
export type { UnitFile } from "./unit-file.ts";
