import type { Engine } from "../engine/engine.ts";
import type { LogPort } from "./log-port.ts";
import type { KeepHow, KeepPlan, Outcome, TrialAbout } from "./log-protocol.ts";

/** Names tried for raw rows where others lie already. */
const attempts = 50;

/**
 * Keeps the rows of the log mapped last. Rows first, text after: a text never names rows that are not there. Names that are taken by rows which the
 * trial does not know of, as undo leaves them, are passed over; the same rows are not kept twice. The answer's `edit` is for the caller to make, as
 * one step of undo.
 */
export async function keepLog(
  engine: Pick<Engine, "keep">,
  port: Pick<LogPort, "plan">,
  how: KeepHow,
  about: TrialAbout,
): Promise<Outcome<KeepPlan>> {
  const taken = [...(how.taken ?? [])];
  for (let attempt = 0; attempt < attempts; attempt++) {
    const outcome = await port.plan({ ...how, taken }, about);
    if (!("done" in outcome)) return outcome;
    const { files, raw } = outcome.done;
    let isTaken = false;
    for (const { at, bytes } of files) {
      const kept = await engine.keep(at, bytes);
      if (!("refused" in kept)) continue;
      if (kept.refused !== "exists") return { why: kept.words };
      // Rows and indexes of a run have one number.
      taken.push(raw);
      isTaken = true;
      break;
    }
    if (!isTaken) return outcome;
  }
  return { why: `There are rows of ${attempts} logs already that ${about.trial} does not name; nothing was written.` };
}
