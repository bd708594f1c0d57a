import { noLength } from "../quantity/bound.ts";
import type { Check } from "../quantity/check.ts";
import { model } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import { asWritten, Realiser } from "../study/realise.ts";
import {
  ownBodies,
  reachAcross,
  reachOfFilm,
  reachOfGuide,
  readsGuides,
  readsLedFilm,
  solidsOf,
  together,
} from "./extent.ts";

/**
 * Slots of the machine that a unit takes.
 *
 *     w   = y_max - y_min              over bodies, channel, guides and film, m
 *     w_o = w + 2 a <= n_s p
 *     n   = w_o/p, rounded up
 *
 * a side allowance towards a neighbour, p pitch of the slots, m; n_s slots the file asserts. The channel stands W/2 -+ c/2, c its clear width: a
 * wall outside it counts where it is drawn as a body. Reaches as in extent.ts. n is a whole number, so the check holds the width against that
 * of the asserted slots, which says how much is left.
 */
export const width = model({
  id: "mount.width",
  symbol: "w",
  unit: "m",
  title: "width of the unit outside",
  equation: "y_max - y_min over bodies, channel, guides and film",
  form: "solved",
  costly: true,
  origin: { cite: "geometry", how: "derived" },
  reads: (scene) => ({
    bodies: solidsOf(ownBodies(scene)),
    guides: readsGuides(scene),
    films: readsLedFilm(scene),
    W: scene.unit.letters.W!,
    c: scene.unit.tape.section.width,
  }),
  value: ({ bodies, guides, films, W, c }) => {
    const { from, to } = together([
      { from: (W - c) / 2, to: (W + c) / 2 },
      ...bodies.map(reachAcross),
      ...guides.map((guide) => reachOfGuide(guide, 1)),
      ...films.map((film) => reachOfFilm(film, 1)),
    ]);
    return to - from;
  },
});
export const outside = model({
  id: "mount.outside",
  symbol: "w_o",
  unit: "m",
  title: "width of the unit with its allowance on both sides",
  equation: "w + 2*a",
  form: "closed",
  origin: { cite: "geometry", how: "derived" },
  reads: ({ unit: { mount } }) => mount && { w: width, a: mount["side allowance"] ?? noLength },
  value: ({ w, a }) => w + 2 * a,
});
export const slotsTaken = model({
  id: "mount.slots-taken",
  symbol: "n",
  unit: "1",
  title: "slots of the machine that the unit takes",
  equation: "w_o/p, rounded up",
  form: "solved",
  origin: { cite: "geometry", how: "derived" },
  reads: ({ unit: { mount } }) => mount && { w_o: outside, p: mount["slot pitch"] },
  value: ({ w_o, p }) => {
    if (!(p > 0)) throw new RangeError(`slots ${p} m apart hold no unit`);
    // What fits to a nanometre fits.
    return Math.ceil((w_o - 1e-9) / p);
  },
});
export const slotsHold = model({
  id: "mount.slots-hold",
  symbol: "w_s",
  unit: "m",
  title: "width of the slots that the file says it takes",
  equation: "n_s*p",
  form: "closed",
  origin: { cite: "unit file", how: "read" },
  reads: ({ unit: { mount } }) => mount?.slots && { n_s: mount.slots, p: mount["slot pitch"] },
  value: ({ n_s, p }) => n_s * p,
});
export const checkSlots: Check = {
  id: "mount.slots",
  station: 2,
  severity: "S",
  status: "established",
  title: "the unit fits the slots it is said to take",
  value: outside,
  atMost: slotsHold,
  absent: (scene) => {
    const { mount } = scene.unit;
    if (!mount) return "the unit file does not say how it is mounted";
    return mount.slots ? undefined : `no number of slots is asserted; it takes ${slotsInWords(scene)}`;
  },
  because: (say) =>
    `With its allowance the unit is ${say(outside)} wide; the slots it is said to take hold ${say(slotsHold)}.`,
  beside: () => [slotsTaken, width],
};
/** "2 (18.4 mm wide)", every number as written; the reason where it has no answer. */
function slotsInWords(scene: Scene): string {
  const run = new Realiser(scene, [slotsTaken, width]).run(asWritten);
  const [n, w] = [run.number(slotsTaken), run.number(width)];
  return Number.isFinite(n) ? `${n} (${(w * 1e3).toFixed(1)} mm wide)` : "a number that can't be told";
}
