import { checkBend, checkPockets } from "./channel/bend.ts";
import { checkDepth, checkWidth } from "./channel/groove.ts";
import { checkLips } from "./channel/lips.ts";
import { checkPlay } from "./channel/play.ts";
import { checkYaw } from "./channel/yaw.ts";
import { bodiesClear } from "./clearance/bodies.ts";
import { filmClear } from "./clearance/film.ts";
import { liftingClear } from "./clearance/lifting.ts";
import { pocketClear } from "./clearance/pocket.ts";
import { tapeClear } from "./clearance/tape.ts";
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
import { checkHeight } from "./mount/height.ts";
import { checkSlots } from "./mount/slots.ts";
import { checkTakesUp } from "./nip/takes-up.ts";
import { checkPulls, checkSlips } from "./nip/window.ts";
import type { Check } from "./quantity/check.ts";
import { checkDisc } from "./sprocket/disc.ts";

/** Every check, in reading order: by the station the tape meets it at. */
export const checks: readonly Check[] = [
  checkPlay,
  checkBend,
  checkPockets,
  checkLeader,
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
  checkMismatch,
  checkStraight,
  checkSteer,
  checkSeals,
  checkKern,
  checkBar,
  checkChatter,
  checkPull,
  checkSeat,
  checkDisc,
  checkPulls,
  checkSlips,
  checkTakesUp,
  checkStick,
];
/** The check of that id, or undefined. */
export const checkNamed = (id: string): Check | undefined => checks.find((c) => c.id === id);
