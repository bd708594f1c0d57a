import type { Check } from "../quantity/check.ts";
import { model } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import { asWritten, Realiser } from "../study/realise.ts";
import {
  ownBodies,
  reachOfFilm,
  reachOfGuide,
  readsGuides,
  readsLedFilm,
  solidsOf,
  together,
  topOf,
} from "./extent.ts";

/**
 * Height of a unit over its tape: what the machine's head must clear.
 *
 *     h = z_max - z_0      over bodies, those that lift also lifted, guides and film, m
 *
 * z_0 height of the tape's underside where it is placed. The film itself and the tape count from there too, so h is not less than nothing
 * by the channel. Reaches as in extent.ts; keep-outs don't count.
 */
const lifted = ({ unit }: Scene) => {
  const lifts = unit.nip?.lifts;
  return lifts ? [{ by: lifts.by, x: lifts.about[0], z: lifts.about[1] }] : [];
};
export const height = model({
  id: "mount.height-over-tape",
  symbol: "h",
  unit: "m",
  title: "height of the unit over its tape",
  equation: "z_max - z_0 over bodies, lifted ones too, guides and film",
  form: "solved",
  costly: true,
  origin: { cite: "geometry", how: "derived" },
  reads: (scene) => ({
    z_0: scene.unit.tape.place.z,
    bodies: solidsOf(ownBodies(scene)),
    lifting: solidsOf(ownBodies(scene).filter((body) => body.lifts)),
    lifts: lifted(scene),
    guides: readsGuides(scene),
    films: readsLedFilm(scene),
  }),
  value: ({ z_0, bodies, lifting, lifts, guides, films }) => {
    const { to } = together([
      ...guides.map((guide) => reachOfGuide(guide, 2)),
      ...films.map((film) => reachOfFilm(film, 2)),
    ]);
    const tops = [
      ...bodies.map(({ outline }) => topOf(outline)),
      ...lifts.flatMap(({ by, x, z }) => lifting.map(({ outline }) => topOf(outline, { about: { x, z }, by }))),
    ];
    return Math.max(z_0, to, ...tops) - z_0;
  },
});
export const checkHeight: Check = {
  id: "mount.height",
  station: 2,
  severity: "S",
  status: "established",
  title: "the unit is no higher over its tape than it is said to be",
  value: height,
  atMost: ({ unit }) => unit.mount?.height,
  absent: (scene) =>
    scene.unit.mount?.height ? undefined : `no height is asserted; it stands ${heightInWords(scene)} over the tape`,
  because: (say, { unit }) =>
    `The unit stands ${say(height)} over its tape; the file says ${say(unit.mount!.height!)}.`,
};
/** "28.4 mm", every number as written; in words where it has no answer. */
function heightInWords(scene: Scene): string {
  const h = new Realiser(scene, [height]).run(asWritten).number(height);
  return Number.isFinite(h) ? `${(h * 1e3).toFixed(1)} mm` : "a height that can't be told";
}
