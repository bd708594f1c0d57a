export {
  type Accuracy,
  type AccuracyOptions,
  AccuracyStudy,
  accuracyInSteps,
  type Band as AccuracyBand,
  blocksOf as pickBlocks,
  type Contribution,
  type FamilyYield,
  type TermPart as PickTermPart,
  type TermResult as PickTermResult,
  usualDraws as usualPickDraws,
} from "./accuracy/accuracy.ts";
export * from "./accuracy/capability.ts";
export { chainOf, noChain, type Part as PickPart, restAngles, type Term as PickTerm } from "./accuracy/chain.ts";
export { radiusByTails, radiusOfSpread, type Spread as PickSpread, withinSpread } from "./accuracy/holding.ts";
export { bowAcross, roomAcross, yawKeptAlong } from "./accuracy/in-play.ts";
export { partAlong, partTurn } from "./accuracy/in-pocket.ts";
export { AnyRadius, type Narrowing } from "./accuracy/narrow.ts";
export { type BlockResult, PickDraws } from "./accuracy/pick-draws.ts";
export {
  calibrationOf,
  offsetAcross,
  offsetAlong,
  pickRadius,
  shareOf as pickShareOf,
  spreadAcross,
  spreadAlong,
  spreadOf as pickSpreadOf,
} from "./accuracy/radius.ts";
export * from "./accuracy/radius-laws.ts";
export { pitchAddedUp, pocketAcross, pocketAlong, singleHole } from "./accuracy/reel-errors.ts";
export { carrierShift, warmReach } from "./accuracy/warm.ts";
export { eccentricity, seatFlips, slowStop } from "./accuracy/wheel-errors.ts";
export { familiesOf as pickFamiliesOf, usualFamilies as usualPickFamilies } from "./accuracy/yield.ts";
export * from "./assume.ts";
export {
  allCards,
  answerOf as cardAnswer,
  type Card,
  cardFor,
  type Decides as CardDecides,
  exampleOf as cardExample,
  expected as cardExpected,
  expectedWords as cardExpectedWords,
  plainAddress,
  type Stand as CardStand,
  standOf as cardStand,
  stopsSide,
  unitWritten as cardUnit,
  usualAnswer as cardUsual,
  whyNoCard,
} from "./card/card.ts";
export {
  type Cost as CardCost,
  type Entry as CardEntry,
  localRules,
  type Method as CardMethod,
  type Picture as CardPicture,
  type Piece as CardPiece,
  pictures as cardPictures,
  type Readings as CardReadings,
  type Setting as CardSetting,
} from "./card/method.ts";
export {
  type Answer as CardAnswer,
  type Part as CardPart,
  pieceValue as cardPieceValue,
  plural as cardPlural,
  type Refusal as CardRefusal,
  sayAnswer,
  sayHowSure,
} from "./card/read-off.ts";
export { simulateBench } from "./card/simulate.ts";
// Equations and models that validation/ holds against published figures.
export { leastRadius, meetingRadius, neededRadius, pocketGap } from "./channel/bend.ts";
export { roomBeside, roomUnder } from "./channel/groove.ts";
export { guidedLength, sidePlay } from "./channel/play.ts";
export { buckling, ends as columnEnds, exitFriction } from "./channel/push.ts";
export {
  bindingLength,
  wallForce,
  yaw,
  yawAcross,
  yawAlong,
  yawLength,
  yawMoment,
} from "./channel/yaw.ts";
export * from "./checks.ts";
export { bodiesOf } from "./clearance/body.ts";
export { filmClear } from "./clearance/film.ts";
export { course, pocketSweep } from "./clearance/lane.ts";
export { type LeastGap, type LeastGaps, leastGaps, type NoGap } from "./clearance/least-gaps.ts";
export { clearancesInOrder, type PairGap, type PairWithout, pairGaps } from "./clearance/pair-gaps.ts";
export type { Spot } from "./clearance/place.ts";
export type { Clearance, ClearanceId } from "./clearance/room.ts";
export { sidesOf as sidesOfPair, wordsOfContacts, wordsOfGaps } from "./clearance/wanted.ts";
export * from "./coverage/climb.ts";
export * from "./coverage/compare.ts";
export * from "./coverage/cure.ts";
export * from "./coverage/drag.ts";
export * from "./coverage/explain.ts";
export type * from "./coverage/family.ts";
export type * from "./coverage/finding.ts";
export * from "./coverage/flips.ts";
export * from "./coverage/footing.ts";
export * from "./coverage/free.ts";
export * from "./coverage/judge.ts";
export * from "./coverage/ladder.ts";
export * from "./coverage/levers.ts";
export { type Maximin, maximinInSteps } from "./coverage/maximin.ts";
export * from "./coverage/propose-free.ts";
export * from "./coverage/questions.ts";
export { SizedTape, sizingDraws } from "./coverage/sized-tape.ts";
export * from "./coverage/sizing.ts";
export * from "./coverage/sweep.ts";
export * from "./coverage/verdict.ts";
export * from "./coverage/windows.ts";
export {
  type Commands,
  commanded,
  type DriveDesign,
  type FilmDesign,
  type IndexDesign,
  type ReelDesign,
  rubbing,
  type TapeDesign,
  troubles as designTroubles,
  type WheelDesign,
} from "./cycle/design.ts";
export { bareDesign, inventedDesign, randomDesign, seeded } from "./cycle/drives.ts";
export { type Event as IndexEvent, type EventName, eventNames, eventsOf, timeOf } from "./cycle/events.ts";
export {
  type Circumstance,
  circumstanceNames,
  circumstances,
  type Firmware,
  type FirmwareConstant,
  type FirmwareName,
  type FirmwareOptions,
  firmwareOf,
  leadOf,
  stopOf,
} from "./cycle/firmware.ts";
export { constantOf as firmwareConstantOf, type HeaderTitle, headerText, macro as macroName } from "./cycle/header.ts";
export {
  coldIndex,
  index as simulatedIndex,
  indexHole,
  indexJolt,
  indexSpeed,
  indexTension,
  indexTime,
  type SolvedIndex,
  solvedIndex,
} from "./cycle/index-model.ts";
export { greatestChange, type LaneName, type Lanes, laneAt, laneNames } from "./cycle/lanes.ts";
export { type IndexMeasures, measuresOf } from "./cycle/measures.ts";
export { coldDesign, hotDesign, noFilmInIndex, noIndex } from "./cycle/of-scene.ts";
export { coast, type RigidDrive, rigidIndex, rigidStop, rigidTime } from "./cycle/rigid.ts";
export { BadDesign, type IndexRun, type Mark, type RunOptions, runIndex, seatedStart } from "./cycle/run.ts";
export { type SceneIndex, sceneHeader, sceneIndex } from "./cycle/scene-index.ts";
export { at as indexState, stateSize as indexStateSize, V as indexVelocity } from "./cycle/step.ts";
export { countError, shiftByDrag, shiftByVolts, stopError } from "./cycle/stops.ts";
export { type Story, storyOf, type Told } from "./cycle/story.ts";
export { allowedTime } from "./cycle/time.ts";
export { constantPlay, sampledPlay, type ToothPlay } from "./cycle/tooth-play.ts";
export { wormFriction } from "./cycle/worm.ts";
export { brushes } from "./drive/brush.ts";
export { currents, unitMean, unitStart } from "./drive/current.ts";
export { freeRotorSpeed, rotorPoles, runUps } from "./drive/free-rotor.ts";
export {
  greatestTorqueCurrent,
  heats,
  runawayCurrent,
  setCurrentRise,
  setTorqueRise,
  setVoltsRise,
  twoNodes,
} from "./drive/heats.ts";
export { filmBackPull, filmTorque, slipTorque, tapeTorque } from "./drive/load.ts";
export {
  constantOf,
  type DriveData,
  type DriveName,
  driveOf,
  frictionTorqueOf,
  inductanceOf,
  inertiaOf,
  motors,
  noMotor,
  resistanceOf,
  wormBackEfficiency,
  wormEfficiency,
} from "./drive/motor.ts";
export { pulls, stallTorqueOf } from "./drive/pull.ts";
export { archForce, bendEnergy, liftOff, pastBend, pastStraight } from "./entry/bends.ts";
export { leaderLength, openedByHand, threading } from "./entry/leader.ts";
export { arcContact, cutAt, entryPull, pullAfterEach, routePull } from "./entry/pull.ts";
export {
  flangeStiffness,
  highStiffness,
  landStiffness,
  lowStiffness,
  pocketSection,
  stiffnessBetween,
} from "./entry/stiffness.ts";
export { tapeWeight } from "./entry/weight.ts";
export * from "./evidence/alike.ts";
export {
  type CellMove,
  type CellShare,
  cellMoves,
  cellShare,
  type HeldCell,
  heldCell,
  movesBetween,
} from "./evidence/before-after.ts";
export * from "./evidence/beta.ts";
export * from "./evidence/beta-binomial.ts";
export * from "./evidence/clean-runs.ts";
export * from "./evidence/contingency.ts";
export * from "./evidence/count-interval.ts";
export * from "./evidence/direct.ts";
export { type MeasuredPlain, measuredPlain } from "./evidence/direct-plain.ts";
export * from "./evidence/fit.ts";
export * from "./evidence/gamma.ts";
export * from "./evidence/gauge.ts";
export * from "./evidence/index-statistics.ts";
export {
  changedSince,
  type Key as EvidenceKey,
  type KeyChange,
  keyText,
  sayChange,
  stillGuessed,
} from "./evidence/keyed.ts";
export * from "./evidence/known.ts";
export * from "./evidence/lifetimes.ts";
export * from "./evidence/linear-fit.ts";
export * from "./evidence/one-way.ts";
export * from "./evidence/peel-trace.ts";
export * from "./evidence/promise.ts";
export {
  type DirectReading,
  directEvidence,
  type MeasuredValue,
  measuredValue,
  notRead,
} from "./evidence/read-directly.ts";
export * from "./evidence/reweigh.ts";
export * from "./evidence/sequential.ts";
export * from "./evidence/summary.ts";
export {
  type Evidence,
  type EvidenceStanding,
  type EvidenceState,
  fewestDraws,
  type Taken,
  takenIn,
} from "./evidence/taken.ts";
export { type Foretold, foretold, type Outcome, type Tried, triedEvidence } from "./evidence/tried.ts";
export * from "./evidence/unlike.ts";
export * from "./evidence/with-model.ts";
export { measuredText, measuredWords } from "./evidence/written.ts";
export { barStrain } from "./film/bar.ts";
export { ribbonStiffness, stickSlipSpeed } from "./film/chatter.ts";
export { kern } from "./film/kern.ts";
export { filmD, filmEh, filmNeutral, filmOuter } from "./film/laminate.ts";
export { chordMismatch, flatFilm, flatMismatch, mismatch } from "./film/mismatch.ts";
export {
  filmPath,
  type Guide,
  norm,
  type Path,
  pathLength,
  peelAngle,
  plus,
  type Span,
  type Vector,
  wrapOverBars,
} from "./film/path.ts";
export { kendallForce, peelForce, runningPeel } from "./film/peel-force.ts";
export { bearablePull, filmPull } from "./film/pull.ts";
export {
  nipWalk,
  pullOffset,
  sealMoment,
  slackExcess,
  slackOffset,
  slackRatio,
  trackDistance,
  walkedOverlap,
} from "./film/seals.ts";
export { forwardPull, seatJump, seatMargin, tapeHold } from "./film/seat.ts";
export { entryRatio, netError, slackAngle, steer, turnFactor } from "./film/steer.ts";
export { criticalTack, straightening, tackEnergy, trackOverlap } from "./film/stick.ts";
export { greatestLean, leanOfLand } from "./film/straight.ts";
export { fibreLength, greatestStrain, slackShare, strip } from "./film/strip.ts";
export { slackTwist } from "./film/twist.ts";
export { evenness, hardEvenness, lambdaOf } from "./frame/evenness.ts";
export { bothEnds, oneEnd } from "./frame/foundation.ts";
export { clampLeft } from "./frame/holds.ts";
export { exponentOf, forceLeft } from "./frame/relaxation.ts";
export { clampedStiffness, screwNamed, screwStiffness, tippingStiffness } from "./frame/screws.ts";
export { shearOverBending } from "./frame/shear.ts";
export {
  contactRatio as gearContactRatio,
  marginsOfPair,
  meshBacklash as gearBacklash,
  meshSpare as gearSpare,
} from "./gear/meshes.ts";
export { nipBacklash, nipContactRatio, nipMeshSpare, opening as nipGearOpening } from "./gear/nip-meshes.ts";
export { type GearPair, type Mesh, meshOf, tightCentre, undercutLimit } from "./gear/pair.ts";
export { type WormMesh, type WormPair, wormMeshOf } from "./gear/worm.ts";
export { bendPress } from "./hold-down/bend.ts";
export { freeBow, overhangLift, restBow, tautBow } from "./hold-down/bow.ts";
export { flattenForce, toothLift } from "./hold-down/down.ts";
export { holdDrag } from "./hold-down/drag.ts";
export { openingRoom } from "./hold-down/opening.ts";
export { type ForetoldCheck, foretellCheck, foretellUnknown, type Interval } from "./ledger/foretell.ts";
export { type Frozen, lateFor, notADay, whyNotFrozen } from "./ledger/frozen.ts";
export { type CheckRecord, records, sayRecord } from "./ledger/record.ts";
export { type Came, type Score, scored } from "./ledger/score.ts";
export {
  type BeliefBand,
  type Importance,
  leastRate,
  type MisfeedOptions,
  type Misfeeds,
  type ModeRate,
  misfeeds,
  misfeedsInSteps,
  type ToMeasure,
} from "./misfeed/misfeed.ts";
export { type Blame, type Mode, modes as misfeedModes } from "./misfeed/modes.ts";
export { height as mountHeight } from "./mount/height.ts";
export { slotsTaken, width as mountWidth } from "./mount/slots.ts";
export { hingeTorsion, screwTorsion } from "./nip/carrier.ts";
export { parallelEvenness, softEvenness, touchLength } from "./nip/even.ts";
export { released, slipWork, takenUp } from "./nip/takes-up.ts";
export { liftingCharge } from "./part/clings.ts";
export { floorSag, sag } from "./part/floor.ts";
export { carryingSpeed, knockSpeed } from "./part/knocks.ts";
export { floorKick, hop, hopHeight, hopRoom } from "./part/lifts.ts";
export { openIndexes } from "./part/open.ts";
export { tippingSpeed } from "./part/tips.ts";
export { warmShift } from "./part/warms.ts";
export * from "./quantity/between.ts";
export * from "./quantity/check.ts";
export * from "./quantity/dimension.ts";
export * from "./quantity/expression.ts";
export * from "./quantity/given.ts";
export * from "./quantity/law.ts";
export * from "./quantity/model.ts";
export * from "./quantity/moved.ts";
export * from "./quantity/nearest.ts";
export * from "./quantity/notation.ts";
export * from "./quantity/show.ts";
export { spaced } from "./quantity/spaced.ts";
export * from "./quantity/typeset.ts";
export { fromSI, toSI, type Unit as MeasureUnit, unitNamed, unitNames, unitOf } from "./quantity/units.ts";
export { reelInertia, snatch, spillDrag, woundMass } from "./reel/jerks.ts";
export { keptShare, setShare } from "./reel/set.ts";
export type { Course, Stretch } from "./route/course.ts";
export type { Outline, Point } from "./route/outline.ts";
export * from "./route/pose.ts";
export { type Prism, prismGap } from "./route/prism.ts";
export { pocketAt, type Sweep } from "./route/ride.ts";
export { steppedGap, sweptGap } from "./route/sweep.ts";
export type * from "./scene.ts";
export { curl, momentFactor, stripNumber } from "./spring/anticlastic.ts";
export { type Cut, cutOf, leafCut, straightRate } from "./spring/arms.ts";
export { enduranceLimit, fatigueUse } from "./spring/fatigue.ts";
export {
  type HeldLeaf,
  heldLeaf,
  type LeafInputs,
  leafBuilt,
  leafRate,
  leafShapeOf,
  leafStress,
  leafStressRate,
  leafStroke,
  pressedLeaf,
} from "./spring/held.ts";
export * from "./spring/leaf.ts";
export { creepAndRelaxation, exponentFrom, forceShare } from "./spring/relaxes.ts";
export { stressAllowed } from "./spring/stress.ts";
export { forceSwing } from "./spring/thickness.ts";
export { bearing, bearingWidth, holeStrength } from "./sprocket/bears.ts";
export { discReach, pocketSide } from "./sprocket/disc.ts";
export { fewestTeeth, teethInTape, teethInWrappedTape, tip as sprocketTip } from "./sprocket/engaged.ts";
export { entryRoom, leastPlay, tipHalfWidth, tipRoom, transmissionError } from "./sprocket/enters.ts";
export { halfStepError } from "./sprocket/half-step.ts";
export { type FeasibleInterval, feasibleInterval, type ToothedWheel } from "./sprocket/interval.ts";
export { land, tear } from "./sprocket/jam.ts";
export { effectiveOpening, opening as sprocketOpening, sidePlayOnTooth } from "./sprocket/opening.ts";
export { type ToothForm, type ToothOutline, type ToothShape, toothOutline } from "./sprocket/outline.ts";
export { flankSlope, highestOverlap } from "./sprocket/skip.ts";
export {
  interval as sprocketInterval,
  pitchRadius,
  wheel as sprocketWheel,
} from "./sprocket/wheel.ts";
export { fittingThickness, neutralRadius, toothInWrap, wrapPlay } from "./sprocket/wrap.ts";
export * from "./study/allowance.ts";
export * from "./study/cell.ts";
export { lowerTriangle, mixtures, togetherColumn } from "./study/correlated.ts";
export * from "./study/decisive.ts";
export * from "./study/deviates.ts";
export * from "./study/draws.ts";
export { type FirstOrder, mirroredInSteps, nearestFailing, nearestFailingInSteps } from "./study/first-order.ts";
export * from "./study/inputs.ts";
export { Counted, type LimitStates, pointwise } from "./study/limit-states.ts";
export * from "./study/margin.ts";
export { type Mixture, mixture } from "./study/mixture.ts";
export { normalScore } from "./study/normal-score.ts";
export * from "./study/points.ts";
export * from "./study/quick.ts";
export { type RareEvent, type RareOptions, rareEvent, rareEventInSteps, type Said } from "./study/rare.ts";
export * from "./study/realise.ts";
export * from "./study/root.ts";
export { type Scaled, scaled } from "./study/scaled.ts";
export * from "./study/shares.ts";
export * from "./study/shift.ts";
export * from "./study/sobol.ts";
export * from "./study/steps.ts";
export { Stream } from "./study/stream.ts";
export { type Subset, subset } from "./study/subset.ts";
export { type TwoLevels, twoLevels, twoLevelsInSteps } from "./study/two-levels.ts";
export { loopResistance, overshoot, peakCurrent, plugCurrent, plugPeak } from "./supply/inrush.ts";
export { linearJunction, switchingJunction } from "./supply/regulator.ts";
export { firstDip, regenerated } from "./supply/store.ts";
export { traceRise } from "./supply/trace.ts";
export { barResistance, cableResistance, contactsCarry, farVolts, railCurrent, unitVolts } from "./supply/volts.ts";
export * from "./tape/between.ts";
export * from "./tape/catalogue.ts";
export { type Disagreement, disagreements } from "./tape/figures/disagreements.ts";
export { type Family, families } from "./tape/figures/families.ts";
export {
  hubForBend,
  leader,
  type Reel,
  type ReelWidth,
  reelA,
  reelB,
  reelC,
  reelD,
  reelFacts,
  reelN,
  reels,
} from "./tape/figures/reels.ts";
export { pocketDrop, pocketLength } from "./tape/pocket.ts";
export * from "./tape/served.ts";
export type * from "./tape/tape.ts";
export { tapeKinds } from "./tape/tape.ts";
export * from "./tape/tape-fields.ts";
export * from "./trial/costs.ts";
export * from "./trial/information.ts";
export { type TrialPiece, trialPiece } from "./trial/piece.ts";
export * from "./trial/questions.ts";
export {
  type Policy as ShopPolicy,
  policies as shopPolicies,
  runShop,
  type Shop,
  type ShopCheck,
  type ShopEnd,
  type ShopPair,
  type ShopUnknown,
} from "./trial/shop.ts";
export * from "./trial/worth.ts";
export * from "./unit/field.ts";
export { fieldAt } from "./unit/field-at.ts";
export { type BoardSupply, boardSupplyFields, type Rail, railFields } from "./unit/supply-fields.ts";
export * from "./unit/unit.ts";
export * from "./unit/unit-fields.ts";
