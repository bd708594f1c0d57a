import { notLedToNip } from "../film/friction.ts";
import { pathLength } from "../film/path.ts";
import { noLength } from "../quantity/bound.ts";
import type { Check } from "../quantity/check.ts";
import { tabled } from "../quantity/given.ts";
import { model } from "../quantity/model.ts";
import { citation } from "../tape/catalogue.ts";
import type { Figure } from "../tape/figures/figure.ts";
import { leader } from "../tape/figures/reels.ts";

/**
 * Film it takes to thread a new reel, against what a leader brings.
 *
 *     l_t = l_f + 2 r              from the peel line to the nip and past it, m
 *     l_o = max(0, l_t - (l_l - l_e))   pockets that must be peeled open by hand, m of tape
 *
 * l_f film from the peel line to the nip; r radius of the larger roller: its diameter sticks out of the nip to pull on (judgement; 0 where
 * no rollers are given); l_l leader, 0.4 m at least; l_e part of it that is sealed on empty pockets, 0.16 m at least. A leader may be longer:
 * these are the least a reel must have. Beyond l_l parts are lost at every reel. That film is spent at every reel; a splice spends none.
 */
const figure = (address: string, symbol: string, { value, sources, how }: Figure) =>
  tabled(address, symbol, `${value} mm`, [1, 0, 0, 0, 0], { cite: citation(sources), how });
export const leaderLength = figure("catalogue/leader", "l_l", leader.total);
export const leaderEmpty = figure("catalogue/leader on empty pockets", "l_e", leader.empty);

export const threading = model({
  id: "film.threading",
  symbol: "l_t",
  unit: "m",
  title: "film spent at every reel by threading it past the nip",
  equation: "l_f + 2*max(r_1, r_2)",
  form: "closed",
  origin: { cite: "sum of lengths; the end to pull on is a judgement", how: "derived" },
  reads: (scene) => {
    if (notLedToNip(scene)) return undefined;
    const radius = scene.unit.nip?.rollers?.radius ?? [];
    return { l_f: pathLength, r_1: radius[0] ?? noLength, r_2: radius[1] ?? radius[0] ?? noLength };
  },
  value: ({ l_f, r_1, r_2 }) => l_f + 2 * Math.max(r_1, r_2),
});
/** Length of tape whose empty pockets are peeled open to thread the film. */
export const openedByHand = model({
  id: "tape.opened",
  symbol: "l_o",
  unit: "m",
  title: "sealed leader peeled open by hand at every reel",
  equation: "max(0, l_t - (l_l - l_e))",
  form: "closed",
  origin: { cite: "sum of lengths", how: "derived" },
  reads: (scene) => (notLedToNip(scene) ? undefined : { l_t: threading, l_l: leaderLength, l_e: leaderEmpty }),
  value: ({ l_t, l_l, l_e }) => Math.max(0, l_t - (l_l - l_e)),
});
export const checkLeader: Check = {
  id: "entry.leader",
  station: 1,
  severity: "N",
  status: "established",
  title: "the leader is long enough to thread the film",
  value: threading,
  atMost: leaderLength,
  absent: notLedToNip,
  because: (say) => `Threading takes ${say(threading)} of film; a leader has ${say(leaderLength)} at least.`,
  beside: () => [pathLength, openedByHand],
};
