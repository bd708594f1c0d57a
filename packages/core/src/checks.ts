import { checkRadius } from "./accuracy/radius.ts";
import { checkBend, checkPockets } from "./channel/bend.ts";
import { checkDepth, checkWidth } from "./channel/groove.ts";
import { checkLips } from "./channel/lips.ts";
import { checkPlay } from "./channel/play.ts";
import { checkPush } from "./channel/push.ts";
import { checkYaw } from "./channel/yaw.ts";
import { bodiesClear } from "./clearance/bodies.ts";
import { filmClear } from "./clearance/film.ts";
import { liftingClear } from "./clearance/lifting.ts";
import { pocketClear } from "./clearance/pocket.ts";
import { tapeClear } from "./clearance/tape.ts";
import { checkStops } from "./cycle/stops.ts";
import { checkTime } from "./cycle/time.ts";
import { checkLasts } from "./drive/brush.ts";
import { checkHeats } from "./drive/heats.ts";
import { checkHolds as checkWormHolds } from "./drive/holds.ts";
import { checkMoves } from "./drive/pull.ts";
import { checkLeader } from "./entry/leader.ts";
import { checkBar } from "./film/bar.ts";
import { checkChatter } from "./film/chatter.ts";
import { checkKern } from "./film/kern.ts";
import { checkMismatch } from "./film/mismatch.ts";
import { checkPull } from "./film/pull.ts";
import { checkSeals } from "./film/seals.ts";
import { checkSeat } from "./film/seat.ts";
import { checkSteer } from "./film/steer.ts";
import { checkStick } from "./film/stick.ts";
import { checkStraight } from "./film/straight.ts";
import { checkHolds as checkJointHolds } from "./frame/holds.ts";
import { checkMeshes } from "./gear/meshes.ts";
import { checkNipMeshes } from "./gear/nip-meshes.ts";
import { checkBend as checkRunOff } from "./hold-down/bend.ts";
import { checkBow } from "./hold-down/bow.ts";
import { checkDown } from "./hold-down/down.ts";
import { checkDrag } from "./hold-down/drag.ts";
import { checkOpening } from "./hold-down/opening.ts";
import { checkRides } from "./hold-down/rides.ts";
import { checkHeight } from "./mount/height.ts";
import { checkSlots } from "./mount/slots.ts";
import { checkEven } from "./nip/even.ts";
import { checkRelaxes } from "./nip/relaxes.ts";
import { checkTakesUp } from "./nip/takes-up.ts";
import { checkPulls, checkSlips } from "./nip/window.ts";
import { checkClings } from "./part/clings.ts";
import { checkFloor } from "./part/floor.ts";
import { checkKnocks } from "./part/knocks.ts";
import { checkLifts } from "./part/lifts.ts";
import { checkTips } from "./part/tips.ts";
import { checkWarms } from "./part/warms.ts";
import type { Check } from "./quantity/check.ts";
import { checkJerks } from "./reel/jerks.ts";
import { checkLeafFatigue } from "./spring/fatigue.ts";
import { checkLeafRelaxes } from "./spring/relaxes.ts";
import { checkLeafStress } from "./spring/stress.ts";
import { checkBears } from "./sprocket/bears.ts";
import { checkDisc } from "./sprocket/disc.ts";
import { checkEngaged } from "./sprocket/engaged.ts";
import { checkEnters } from "./sprocket/enters.ts";
import { checkHalfStep } from "./sprocket/half-step.ts";
import { checkJam } from "./sprocket/jam.ts";
import { checkSkip } from "./sprocket/skip.ts";
import { checkWrap } from "./sprocket/wrap.ts";
import { checkInrush } from "./supply/inrush.ts";
import { checkRegulator } from "./supply/regulator.ts";
import { checkTrace } from "./supply/trace.ts";
import { checkDrop } from "./supply/volts.ts";

/** Every check, in reading order: by the station the tape meets it at. */
export const checks: readonly Check[] = [
  checkPlay,
  checkBend,
  checkPockets,
  checkLeader,
  checkJerks,
  checkDepth,
  checkWidth,
  checkLips,
  pocketClear.check,
  tapeClear.check,
  filmClear.check,
  bodiesClear.check,
  liftingClear.check,
  checkSlots,
  checkHeight,
  checkYaw,
  checkDown,
  checkBow,
  checkDrag,
  checkOpening,
  checkRides,
  checkRunOff,
  checkLeafStress,
  checkLeafFatigue,
  checkLeafRelaxes,
  checkMismatch,
  checkStraight,
  checkSteer,
  checkSeals,
  checkKern,
  checkBar,
  checkChatter,
  checkPull,
  checkSeat,
  checkRadius,
  checkHalfStep,
  checkWarms,
  checkFloor,
  checkLifts,
  checkKnocks,
  checkTips,
  checkClings,
  checkEnters,
  checkWrap,
  checkEngaged,
  checkSkip,
  checkDisc,
  checkBears,
  checkJam,
  checkPush,
  checkPulls,
  checkSlips,
  checkTakesUp,
  checkEven,
  checkNipMeshes,
  checkStick,
  checkRelaxes,
  checkJointHolds,
  checkMoves,
  checkTime,
  checkStops,
  checkWormHolds,
  checkHeats,
  checkLasts,
  checkMeshes,
  checkDrop,
  checkInrush,
  checkRegulator,
  checkTrace,
];
/** The check of that id, or undefined. */
export const checkNamed = (id: string): Check | undefined => checks.find((c) => c.id === id);
