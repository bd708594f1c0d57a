import { notLedToNip } from "../film/friction.ts";
import { type Path, path, type Vector } from "../film/path.ts";
import { tabled } from "../quantity/given.ts";
import { type CorridorGap, corridorGap, type Strip, stripsOf } from "../route/corridor.ts";
import { type Crossing, crossing, outlineOfSlabs, type Slab, slabsOf } from "../route/crossing.ts";
import type { Scene } from "../scene.ts";
import { guidesToNip } from "../unit/unit.ts";
import { type Body, bodiesOf } from "./body.ts";
import { course, flangeLetters, flangeTop, pocketAcross, pocketLetters, pocketSweep } from "./lane.ts";
import { gapModel, type Nearest, once, type Pair } from "./pair.ts";
import { clearance } from "./room.ts";
import { bodyParty, filmParty, isMeantToTouch, type Party, pocketParty, tapeParty, wantedGap } from "./wanted.ts";

/**
 * The free film between the peel line, its guides and the nip, against bodies, keep-outs, and the tape it came from.
 *
 *     g = d - h/2            apart from a body: distance of the film's middle surface, less half the room it flutters in
 *     g = -depth - h/2       where it goes through the tape: the shorter way out (route/crossing.ts)
 *
 * h 0.5e-3 m (judgement). Straight fibres between lines (film/path.ts): guides count as lines and the film never leaves their plane. The
 * tape is its flange, and the lane its pockets need: on a straight down to their bottom, in a bend with the pockets inside by the chord
 * deeper, everywhere. The first span leaves the tape, so only those past the first guide are held against it. Behind the nip nothing is.
 */
export const flutter = tabled("clearance/film room", "h", "0.5 mm", [1, 0, 0, 0, 0], {
  cite: "room kept for a free film that flutters; common practice, no source",
  how: "judgement",
});

const readsFilm = (scene: Scene) => ({ path, b: scene.tape.film.width, h: flutter });
type Film = { readonly path: Path; readonly b: number; readonly h: number };
const placed = (strip: Strip, number: number, { along, film }: Pick<CorridorGap | Crossing, "along" | "film">) => ({
  x: film[0],
  y: film[1],
  z: film[2],
  span: { number, along: along * lengthOf(strip.run) },
});
const lengthOf = (v: Vector): number => Math.hypot(v[0], v[1], v[2]);

const gapTo = once(({ name, solid }: Body) =>
  gapModel({
    id: "clear.film-gap",
    title: `gap between the free film and ${name}`,
    equation: "least over the spans of d - h/2",
    cite: "straight fibres between lines",
    reads: (scene) => (notLedToNip(scene) ? undefined : { ...readsFilm(scene), body: solid }),
    nearest: ({ path: led, b, h, body }) => {
      const strips = stripsOf(led, led.start);
      const near = corridorGap(strips, b, h, body);
      return { gap: near.gap, spot: placed(strips[near.span]!, near.span, near) };
    },
  }),
);

/** The film past its first guide against a band beside the course. */
function toBand({ path: led, b, h }: Film, slabs: readonly Slab[]): Nearest {
  const strips = stripsOf(led, led.start);
  let deepest: { readonly crossing: Crossing; readonly number: number } | undefined;
  strips.forEach((strip, number) => {
    if (number === 0) return;
    for (const slab of slabs) {
      const through = crossing(strip, b, slab);
      if (through && (!deepest || through.depth > deepest.crossing.depth)) deepest = { crossing: through, number };
    }
  });
  if (deepest)
    return {
      gap: -deepest.crossing.depth - h / 2,
      spot: placed(strips[deepest.number]!, deepest.number, deepest.crossing),
    };
  const near = corridorGap(strips.slice(1), b, h, { outline: outlineOfSlabs(slabs), y: slabs[0]!.y });
  return { gap: near.gap, spot: placed(strips[near.span + 1]!, near.span + 1, near) };
}
const past = (scene: Scene): boolean => (guidesToNip(scene.unit)?.length ?? 0) > 1;
const toTape = gapModel({
  id: "clear.film-tape-gap",
  title: "gap between the free film past its first guide and the tape",
  equation: "least over the spans past the first guide of d - h/2, -depth - h/2 where film and tape cross",
  cite: "straight fibres between lines; a film must pass the tape's edge",
  reads: (scene) =>
    notLedToNip(scene) || !past(scene) ? undefined : { ...readsFilm(scene), course, ...flangeLetters(scene) },
  nearest: ({ course: along, W, T, T_1, n_f, ...film }) =>
    toBand(film, slabsOf(along, 0, flangeTop({ T, T_1, n_f }), { from: 0, to: W })),
});
const toPocket = gapModel({
  id: "clear.film-pocket-gap",
  title: "gap between the free film past its first guide and the pockets",
  equation: "least over the spans past the first guide of d - h/2, -depth - h/2 where film and pockets cross",
  cite: "straight fibres between lines",
  reads: (scene) =>
    notLedToNip(scene) || !past(scene) || scene.tape.kind !== "embossed"
      ? undefined
      : { ...readsFilm(scene), sweep: pocketSweep, ...pocketLetters(scene) },
  nearest: ({ sweep: { course: along, pocket }, E_1, F, B_1, ...film }) => {
    const chord = along.stretches.reduce(
      (most, { bend }) =>
        bend && bend.sense < 0
          ? Math.max(most, bend.radius - Math.sqrt(bend.radius ** 2 - pocket.length ** 2 / 4))
          : most,
      0,
    );
    return toBand(film, slabsOf(along, -pocket.drop - chord, 0, pocketAcross({ E_1, F, B_1 })));
  },
});

export const filmClear = clearance({
  id: "clear.film",
  title: "the free film clears the unit and the tape it came from",
  what: "the free film",
  absent: notLedToNip,
  pairs: (scene) => {
    const { unit, tape } = scene;
    const pair = (b: Party, gap: Pick<Pair, "gap" | "nearest">): Pair[] =>
      isMeantToTouch(unit, filmParty, b) ? [] : [{ a: filmParty, b, wanted: wantedGap(unit, filmParty, b), ...gap }];
    return [
      ...bodiesOf(unit).flatMap((body) => pair(bodyParty(body), gapTo(body))),
      ...(past(scene) ? pair(tapeParty, toTape) : []),
      ...(past(scene) && tape.kind === "embossed" ? pair(pocketParty, toPocket) : []),
    ];
  },
});
