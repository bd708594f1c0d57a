import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import {
  asWritten,
  bodiesOf,
  clearancesInOrder,
  type Model,
  type Outline,
  pocketSweep,
  Realiser,
  type Scene,
  type Sweep,
  steppedGap,
  sweptGap,
} from "@tapeworthy/core";
import { readProject } from "@tapeworthy/project";
import { inTurn, type Measured, machine, median, timed } from "./measure.ts";

const tapeName = "so20-24";
/** How far apart the other way's poses stand, m. */
const step = 0.5e-3;

/** Both units of the example on one tape. */
function scenes(): { readonly unit: string; readonly scene: Scene }[] {
  const example = fileURLToPath(new URL("../../examples/saltgrass/", import.meta.url));
  const texts = new Map([["project.yaml", readFileSync(`${example}project.yaml`, "utf8")]]);
  for (const folder of ["units", "tapes"])
    for (const name of readdirSync(example + folder))
      texts.set(`${folder}/${name}`, readFileSync(`${example}${folder}/${name}`, "utf8"));
  const { project, errors } = readProject(texts);
  if (!project) throw new Error(errors.map((e) => `${e.place.file}:${e.place.line} ${e.message}`).join("\n"));
  const { tape } = project.tapes.get(tapeName)!;
  return [...project.units].map(([unit, file]) => ({
    unit,
    scene: { unit: file.variants.get(tape.row)!, tape, requirement: project.requirement },
  }));
}
const drawn = <T>(scene: Scene, m: Model<T>): T =>
  m.value(new Realiser(scene, [m as Model<unknown>]).run(asWritten).inputsOf(m as Model<unknown>, scene));

/** All gaps of one realisation: how long each check's pairs take, and the whole with what they share. */
function costOf(scene: Scene) {
  const pairs = clearancesInOrder.flatMap((clearance) =>
    clearance.pairs(scene).map(({ gap }) => ({ id: clearance.id, gap })),
  );
  const realiser = new Realiser(
    scene,
    pairs.map(({ gap }) => gap),
  );
  const whole = () => {
    realiser.forget();
    realiser.run(asWritten);
  };
  const run = realiser.run(asWritten);
  const inputs = pairs.map(({ id, gap }) => ({ id, gap, x: run.inputsOf(gap, scene) }));
  const often = (f: () => void) => {
    for (let i = 0; i < 20; i++) f();
    return median(Array.from({ length: 25 }, () => timed(f)));
  };
  const byCheck = Object.fromEntries(
    clearancesInOrder.map(({ id }) => {
      const mine = inputs.filter((one) => one.id === id);
      const gaps = () => {
        for (const { gap, x } of mine) gap.value(x);
      };
      return [id, { pairs: mine.length, seconds: often(gaps) }];
    }),
  );
  const seconds = often(whole);
  const ofGaps = Object.values(byCheck).reduce((sum, one) => sum + one.seconds, 0);
  return {
    pairs: pairs.length,
    seconds,
    byCheck,
    /** Laying out course, pockets, film and solids, which the pairs share. */
    shared: seconds - ofGaps,
  };
}

/** The swept pocket against every body and keep-out: closed forms on lines and bends, against a pose every half millimetre. */
export function measureClearance(rounds = 15): Measured {
  const both = scenes();
  const held = both.flatMap(({ scene }) => {
    const sweep: Sweep = drawn(scene, pocketSweep);
    return bodiesOf(scene.unit).map(({ solid }) => ({ sweep, outline: drawn(scene, solid).outline as Outline }));
  });
  const ours = held.map(() => 0);
  const theirs = held.map(() => 0);
  // Many rounds of ours in one: a single one is too short for the clock.
  const repeat = 20;
  const {
    ratio,
    ours: our,
    theirs: their,
    spread,
  } = inTurn(
    rounds,
    () => {
      for (let k = 0; k < repeat; k++)
        for (const [i, { sweep, outline }] of held.entries()) ours[i] = sweptGap(sweep, outline).gap;
    },
    () => {
      for (const [i, { sweep, outline }] of held.entries()) theirs[i] = steppedGap(sweep, outline, step).gap;
    },
  );
  held.forEach((_, i) => {
    const more = theirs[i]! - ours[i]!;
    if (!(more > -1e-7 && more < step))
      throw new Error(`pair ${i}: ${ours[i]} against ${theirs[i]} at poses ${step} m apart`);
  });
  const all = Object.fromEntries(both.map(({ unit, scene }) => [unit, costOf(scene)]));
  return {
    name: "clearance",
    ratio: ratio / repeat,
    against: `the same pockets posed every ${step * 1e3} mm, each pose held against each body (route/sweep.ts, steppedGap)`,
    ours: our / repeat,
    theirs: their,
    spread,
    machine: machine(),
    tape: tapeName,
    pairsOfPockets: held.length,
    /** By how much the stepped gaps are too large, m: they see only their poses. */
    steppedTooLarge: Math.max(...held.map((_, i) => theirs[i]! - ours[i]!)),
    allClearances: all,
    costOfOneTape: Object.values(all).reduce((sum, one) => sum + one.seconds, 0),
    why: "of the gaps the film takes most, because its corridor is searched in two directions, then the pockets, whose way between two pieces of the route and whose overlaps are searched in one; the rest is laying out what the pairs share",
  };
}
