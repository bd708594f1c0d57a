import { showIn } from "../quantity/show.ts";
import type { IndexDesign } from "./design.ts";
import { type Event, type EventName, eventsOf, timeOf } from "./events.ts";
import { laneAt } from "./lanes.ts";
import { type IndexMeasures, measuresOf } from "./measures.ts";
import type { IndexRun } from "./run.ts";

/** One index as a person would tell it: what happens when, and how it ends. */
export interface Story {
  readonly events: readonly Told[];
  /** Sentences: on which side the tape ends, what was greatest. */
  readonly said: readonly string[];
  readonly measures: IndexMeasures;
}
export interface Told extends Event {
  readonly says: string;
}

const ms = (s: number): string => showIn("ms", s);
const newtons = (v: number): string => showIn("N", v);

/** What each event says, with the numbers of its moment. */
function says(d: IndexDesign, run: IndexRun, { what, t }: Event): string {
  const { lanes } = run;
  const mm = (lane: "tape" | "drawn"): string => showIn("mm", laneAt(lanes, lane, t) - lanes[lane][0]!);
  const words: Readonly<Record<EventName, () => string>> = {
    "peel on": () => "the peel motor is switched on",
    "feed on": () => "the feed motor is switched on",
    "film taut": () => `the film is taut, ${mm("drawn")} drawn`,
    "film peels": () => `the seal parts under ${newtons(laneAt(lanes, "tension", t))} at the nip`,
    "feed play closed": () => "the play of the feed gears is closed",
    "tooth carries": () => "a tooth carries the tape",
    "tape moves": () =>
      `the tape moves, ${laneAt(lanes, "hole", t) > 0.01 ? "driven by a tooth" : laneAt(lanes, "filmForce", t) > 0 ? "drawn by its film" : "by itself"}`,
    "tape ahead": () => "the tape runs ahead and bears forward on a tooth",
    "reel pulls": () => "the reel pulls back",
    "nip slips": () => `the nip slips at ${newtons(d.film?.traction ?? 0)}`,
    slow: () => `the feed motor slows down, ${mm("tape")} on`,
    brake: () => `the feed motor is shorted, ${mm("tape")} on`,
    "peel off": () => "the peel motor is switched off",
    "wheel stops": () => "the wheel stands",
    "tape stops": () => "the tape stands",
  };
  return words[what]();
}

export function storyOf(d: IndexDesign, run: IndexRun): Story {
  const events = eventsOf(d, run);
  const m = measuresOf(d, run);
  const said: string[] = [];
  if (Number.isFinite(m.time))
    said.push(
      `The index is over after ${ms(m.time)}: the tape has moved ${showIn("mm", m.travel, 4)}, the wheel stops ${Math.abs(m.stopError) < 0.5e-6 ? "on its pitch" : `${showIn("um", Math.abs(m.stopError))} ${m.stopError > 0 ? "past" : "short of"} its pitch`}.`,
    );
  const seat =
    m.seat > 0.9
      ? "ahead on its teeth, where its film draws it"
      : m.seat < 0.1
        ? "behind, carried by a tooth"
        : "between its teeth";
  said.push(`It ends lying ${seat}.`);
  said.push(
    `At most a tooth pushes with ${newtons(m.hole)}${m.holeAhead > 0.01 ? ` and is pushed with ${newtons(m.holeAhead)}` : ""}${d.film ? `, the nip pulls with ${newtons(m.tension)}` : ""}, the reel with ${newtons(m.web)}; the motors draw ${showIn("A", m.current)}${d.peel ? ` and ${showIn("A", m.peelCurrent)}` : ""}.`,
  );
  said.push(
    `The tape's speed changes by at most ${showIn("mm/s", m.jolt)} within 1 ms, at ${ms(m.joltAt)}. An acceleration at an impact would be no number: it grows as steps shrink.`,
  );
  if (d.film) {
    const taut = timeOf(events, "film taut");
    const slips = timeOf(events, "nip slips");
    if (slips !== undefined && taut !== undefined)
      said.push(
        `${showIn("mm", m.peeled)} of film are peeled, ${showIn("mm", m.slipped)} slip in the nip${slips > taut ? ", only after the film is taken up" : ""}.`,
      );
    else said.push(`${showIn("mm", m.peeled)} of film are peeled; the nip does not slip.`);
  }
  if (d.film && m.peeled < 0.98 * m.travel)
    said.push(
      `${showIn("mm", m.travel - m.peeled)} of film stay on the tape: the nip draws too slowly, slips, or is switched off too early.`,
    );
  said.push(`One index takes ${showIn("mJ", m.energy)} from the rail.`);
  said.push(...m.warnings);
  return { events: events.map((e) => ({ ...e, says: says(d, run, e) })), said, measures: m };
}
