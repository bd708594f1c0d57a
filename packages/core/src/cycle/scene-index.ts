import type { Quantity } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import { asWritten, Realiser } from "../study/realise.ts";
import { commanded, type IndexDesign } from "./design.ts";
import { type Firmware, firmwareOf } from "./firmware.ts";
import { constantOf, type HeaderTitle, headerText } from "./header.ts";
import { type SolvedIndex, solvedIndex } from "./index-model.ts";
import { coldDesign, hotDesign, noFilmInIndex, noIndex } from "./of-scene.ts";
import { type IndexRun, runIndex, seatedStart } from "./run.ts";
import { type Story, storyOf } from "./story.ts";

/**
 * All that the simulation says of a unit on a tape, every number as written and what is not known at its middle.
 *
 * `run` is one index as the firmware would make it with these constants, motors cold, from a seated start; `slowest` the same unit at the least
 * volts, hot. The peel motor's head start and hold are those found here, unless the unit file gives its own.
 */
export interface SceneIndex {
  readonly design: IndexDesign;
  readonly run: IndexRun;
  readonly story: Story;
  readonly firmware: Firmware;
  readonly slowest: Pick<SolvedIndex, "time" | "finished" | "measures">;
  /** Why the film is left out; undefined where it is drawn. */
  readonly withoutFilm?: string;
  /** Counts a turn of the feed motor; undefined where it has no encoder. */
  readonly counts?: number;
}

/** Throws RangeError with the reason where the scene has no index. */
export function sceneIndex(scene: Scene): SceneIndex {
  const why = noIndex(scene);
  if (why) throw new RangeError(`There is no index to simulate: ${why}.`);
  const { unit, requirement } = scene;
  const encoder = unit["feed drive"]?.encoder;
  const units = requirement.supply?.units;
  const numbers: Quantity[] = [encoder, units].flatMap((q) => q ?? []);
  const run = new Realiser(scene, [coldDesign, hotDesign, ...numbers]).run(asWritten);
  const cold = coldDesign.value(run.inputsOf(coldDesign, scene));
  const hot = hotDesign.value(run.inputsOf(hotDesign, scene));
  const firmware = firmwareOf(cold, {
    from: seatedStart(cold),
    worst: hot,
    ...(units ? { units: run.number(units) } : {}),
  });
  const found = (name: "peel lead" | "hold"): number | undefined => constantOf(firmware, name);
  const design = commanded(firmware.design, {
    feedStart:
      unit.index?.["peel lead"] || !cold.film
        ? cold.commands.feedStart
        : (found("peel lead") ?? cold.commands.feedStart),
    peelHold: unit.index?.hold ? cold.commands.peelHold : (found("hold") ?? cold.commands.peelHold),
    end: 1,
  });
  const last = runIndex(design, { from: seatedStart(design), untilStill: true });
  const { time, finished, measures } = solvedIndex(hot);
  const withoutFilm = noFilmInIndex(scene);
  return {
    design,
    run: last,
    story: storyOf(design, last),
    firmware,
    slowest: { time, finished, measures },
    ...(withoutFilm === undefined ? {} : { withoutFilm }),
    ...(encoder ? { counts: run.number(encoder) } : {}),
  };
}
/** The C header of a scene's firmware. */
export function sceneHeader(
  { firmware, design, counts }: SceneIndex,
  title: Omit<HeaderTitle, "counts" | "travel">,
): string {
  return headerText(firmware, {
    ...title,
    travel: design.commands.travel,
    ...(counts === undefined
      ? {}
      : { counts: { perTurn: counts, ratio: design.feed.ratio, radius: design.wheel.radius } }),
  });
}
