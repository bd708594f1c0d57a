export * from "./assume.ts";
// Equations and models that validation/ holds against published figures.
export { leastRadius, meetingRadius, neededRadius, pocketGap } from "./channel/bend.ts";
export { roomBeside, roomUnder } from "./channel/groove.ts";
export { guidedLength, sidePlay } from "./channel/play.ts";
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
export * from "./coverage/judge.ts";
export * from "./coverage/ladder.ts";
export * from "./coverage/levers.ts";
export * from "./coverage/questions.ts";
export * from "./coverage/sweep.ts";
export * from "./coverage/verdict.ts";
export { leaderLength, openedByHand, threading } from "./entry/leader.ts";
export * from "./evidence/known.ts";
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
export { height as mountHeight } from "./mount/height.ts";
export { slotsTaken, width as mountWidth } from "./mount/slots.ts";
export { released, slipWork, takenUp } from "./nip/takes-up.ts";
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
export * from "./quantity/typeset.ts";
export { type Unit as MeasureUnit, unitNamed, unitNames, unitOf } from "./quantity/units.ts";
export type { Course, Stretch } from "./route/course.ts";
export type { Outline, Point } from "./route/outline.ts";
export * from "./route/pose.ts";
export { type Prism, prismGap } from "./route/prism.ts";
export { pocketAt, type Sweep } from "./route/ride.ts";
export { steppedGap, sweptGap } from "./route/sweep.ts";
export type * from "./scene.ts";
export { discReach, pocketSide } from "./sprocket/disc.ts";
export * from "./study/allowance.ts";
export * from "./study/cell.ts";
export * from "./study/decisive.ts";
export * from "./study/deviates.ts";
export * from "./study/margin.ts";
export * from "./study/points.ts";
export * from "./study/quick.ts";
export * from "./study/realise.ts";
export * from "./study/root.ts";
export * from "./study/shift.ts";
export * from "./study/steps.ts";
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
export * from "./unit/field.ts";
export { fieldAt } from "./unit/field-at.ts";
export * from "./unit/unit.ts";
export * from "./unit/unit-fields.ts";
