export { type BeforeAfterInput, beforeAfter, beforeAfterWords } from "./before-after.ts";
export { cardAxis } from "./card-axis.ts";
export { cardPicture } from "./card-picture.ts";
export { type CellMoveRow, cellMoveRows, cellMovesHtml, type MovedSide } from "./cell-moves.ts";
export { comparisonHeadline, comparisonHtml, shownInOf } from "./comparison.ts";
export { type EquationOptions, equationHtml, letterMark } from "./equation.ts";
export { type FindingInput, findingHtml, headline, headsAt, type WayOut } from "./finding.ts";
export { frameShapes, type Zones, zoneAt, zonesFor } from "./frame.ts";
export type { Grip } from "./grip.ts";
export { grownBy, handleKey, handleSize, handlesOf } from "./handle.ts";
export type { HoldShape } from "./hold-shape.ts";
export {
  fanned,
  indexCursor,
  indexLanes,
  indexWords,
  type LaneFrame,
  type LaneSize,
  laneFrame,
  type Stretch,
  type StretchName,
  sayTime,
  seatAt,
  stretchNames,
  stretchOf,
  timeAt,
} from "./index-lanes.ts";
export {
  drawnLanes,
  endOf,
  eventAt,
  type IndexPicture,
  indexPicture,
  momentOf,
  nextEvent,
  sayMoment,
} from "./index-picture.ts";
export { indexSide } from "./index-side.ts";
export { type KnownInput, type KnownRow, knownHtml } from "./known.ts";
export {
  type LadderCrossing,
  type LadderInput,
  type LadderJump,
  type LadderLine,
  type LadderPoint,
  ladder,
  ladderWords,
} from "./ladder.ts";
export { ladderInput } from "./ladder-input.ts";
export {
  alongAt,
  type LogFrame,
  type LogLane,
  type LogSize,
  type LogTraceInput,
  logFrame,
  logTrace,
  logWords,
  type PlateauSlider,
  plateauFlags,
  plateauSliders,
  type ShownAs,
  xAlong,
} from "./log-trace.ts";
export { mapColumns } from "./map-columns.ts";
export { foldFor, leastCell, shownCells } from "./map-fold.ts";
export { equationMl, expressionMl, expressionOf, symbolMl } from "./mathml.ts";
export { misfeedInput } from "./misfeed-input.ts";
export {
  type MisfeedMode,
  type MisfeedRate,
  type MisfeedRatesInput,
  misfeedRates,
  misfeedStanding,
  misfeedWords,
  perMillion,
  type RateAxis,
  rateAxis,
} from "./misfeed-rates.ts";
export { atMoment, type Moment } from "./moment.ts";
export { type MovedInput, movedHtml } from "./moved.ts";
export { pickPlanInput, pickSharesInput } from "./pick-input.ts";
export { type PickPlanInput, type PickRadius, pickEnlargement, pickPlan, pickPlanWords } from "./pick-plan.ts";
export { type PickShare, type PickSharesInput, pickShares, pickSharesWords, sayPart } from "./pick-shares.ts";
export { anchorOf, askedOf, type Place, placeOf, placeOfAddress } from "./place.ts";
export { leavesPlane, planView } from "./plan-view.ts";
export {
  type ProofInput,
  type ProofStep,
  proofBar,
  proofSteps,
  proofWords,
} from "./proof-bar.ts";
export {
  type AskedQuestion,
  chanceBar,
  guessWords,
  type QuestionRow,
  type QuestionRows,
  type QuestionsInput,
  type QuestionWay,
  questionRows,
  sayDays,
} from "./question-rows.ts";
export { type LedgerInput, type LedgerRow, ledgerRows, recordTally, tallyInline } from "./record-tally.ts";
export {
  cellsFor,
  decidedBy,
  type MapInput,
  type MapLink,
  type MapSize,
  routeMap,
  routeTable,
  sayCell,
  stationVerdicts,
  type TapeIcon,
} from "./route-map.ts";
export * from "./say.ts";
export * from "./scene.ts";
export { grooveSection, nipSection, type SectionSize } from "./section.ts";
export { type Geometry, locator, type UnitSheet, unitSheet } from "./sheet.ts";
export { type Asked, type Overlay, type Placed, type SideOptions, type SizedOptions, sideView } from "./side-view.ts";
export { type SizeFrontInput, type SizeMove, sayGap, sizeFront, sizeFrontWords } from "./size-front.ts";
export { leastGapMeans, movesBought, type SizedRowOf, sizeFrontInput, sizeRowsInput, sizeStep } from "./size-input.ts";
export {
  type SizeEnd,
  type SizeRow,
  type SizeRowsInput,
  type SizeRowsSize,
  type SizeSlider,
  sizeRows,
  sizeSliders,
  sizeWords,
} from "./size-rows.ts";
export { type PitchShare, type StandingPitch, standingPitches } from "./standing-pitches.ts";
export { standsOnHtml } from "./stands-on.ts";
export { sweepDrawing, sweepWords } from "./sweep.ts";
export { darkTokens, fontFaces, fontFiles, lightTokens, printTokens, theme, themeOfDrawing } from "./theme.ts";
export { type Thinned, thinned } from "./thinned.ts";
export { type PieceRow, trialPieceDrawing, trialPieceRows, trialPieceWords } from "./trial-piece.ts";
export {
  type Body,
  type FilmShape,
  type GuideShape,
  type Measure,
  type SpanShape,
  type UnitShape,
  unitShape,
} from "./unit-shape.ts";
export { unitsInPrint } from "./units-in-print.ts";
export type { MeasuredOnAxis, Tip, UnknownOnAxis } from "./unknown-axis.ts";
export { markInline, verdictMark } from "./verdict-mark.ts";
export { type WindowInput, windowDrawing, windowOf } from "./window.ts";
