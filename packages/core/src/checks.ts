import { checkBend, checkPockets } from "./channel/bend.ts";
import { checkDepth, checkWidth } from "./channel/groove.ts";
import { checkLips } from "./channel/lips.ts";
import { checkPlay } from "./channel/play.ts";
import { checkBar } from "./film/bar.ts";
import { checkKern } from "./film/kern.ts";
import { checkMismatch } from "./film/mismatch.ts";
import { checkPull } from "./film/pull.ts";
import { checkSteer } from "./film/steer.ts";
import { checkStick } from "./film/stick.ts";
import { checkStraight } from "./film/straight.ts";
import { checkTakesUp } from "./nip/takes-up.ts";
import { checkPulls, checkSlips } from "./nip/window.ts";
import type { Check } from "./quantity/check.ts";

/** Every check, in reading order: by the station the tape meets it at. */
export const checks: readonly Check[] = [
  checkPlay,
  checkBend,
  checkPockets,
  checkDepth,
  checkWidth,
  checkLips,
  checkMismatch,
  checkStraight,
  checkSteer,
  checkKern,
  checkBar,
  checkPull,
  checkPulls,
  checkSlips,
  checkTakesUp,
  checkStick,
];
/** The check of that id, or undefined. */
export const checkNamed = (id: string): Check | undefined => checks.find((c) => c.id === id);
