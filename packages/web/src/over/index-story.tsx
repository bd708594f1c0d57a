import { showIn } from "@tapeworthy/core";
import { endOf, eventAt, type IndexPicture, sayTime, unitsInPrint } from "@tapeworthy/drawing";
import { useSyncExternalStore } from "react";
import type { Playhead } from "./playhead.ts";

/** A time whose unit stays on its line. */
const whole = (t: number): string => showIn("ms", t, 3).replace(" ", "\u00a0");

/** One index told in words: what happens when, how it ends, what has to be known before believing it. Each moment can be gone to. */
export function IndexStory({ picture, playhead }: { readonly picture: IndexPicture; readonly playhead: Playhead }) {
  const t = useSyncExternalStore(playhead.subscribe, playhead.time);
  const last = eventAt(picture, Math.min(t, endOf(picture)));
  const { events, said, slowest, steps, limits, withoutFilm, settled } = picture;
  const late = limits.time !== undefined && !(slowest.finished && slowest.time <= limits.time);
  return (
    <section className="tw-panel story" aria-label="The index in words">
      <h2 className="headline">
        {Number.isFinite(settled) ? `The tape rests after ${whole(settled)}` : "The index is not finished"}
        {limits.time === undefined ? "" : `, it may take ${whole(limits.time)}`}
      </h2>
      <p className="small">
        Motors cold, rail full, numbers as written.{" "}
        <span className={late ? "late" : undefined}>
          {slowest.finished
            ? `At the least volts, hot, it takes ${showIn("ms", slowest.time, 3)}${late ? ": too long" : ""}.`
            : "At the least volts, hot, it does not finish."}
        </span>
      </p>
      {withoutFilm === undefined ? null : <p className="small">The film is left out: {withoutFilm}.</p>}
      {steps.unsolved > 0 ? (
        <p className="warning">
          {steps.unsolved} of {steps.taken} steps did not converge: the run rests on its last guess there.
        </p>
      ) : null}
      <h3 className="part">
        In which order it takes load <span>choose one to go there</span>
      </h3>
      <ol>
        {events.map((event, i) => (
          <li key={event.what} className={i === last ? "now" : undefined}>
            <button type="button" aria-current={i === last ? "step" : undefined} onClick={() => playhead.set(event.t)}>
              <span className="when">{sayTime(event.t)}</span> {unitsInPrint(event.says)}
            </button>
          </li>
        ))}
      </ol>
      <h3 className="part">How it ends</h3>
      {said.map((sentence) => (
        <p key={sentence}>{unitsInPrint(sentence)}</p>
      ))}
    </section>
  );
}
