import { liftingGap, type Turn } from "../route/lifting.ts";
import { combined, gapAcross } from "../route/prism.ts";
import type { Scene } from "../scene.ts";
import { asWritten, Realiser } from "../study/realise.ts";
import { gapAtRest, isOnePart } from "./bodies.ts";
import { type Body, bodiesOf } from "./body.ts";
import { gapModel, once } from "./pair.ts";
import { betweenAcross } from "./place.ts";
import { clearance } from "./room.ts";
import { bodyParty, isMeantToTouch, wantedGap } from "./wanted.ts";

/**
 * What lifts when the nip gives way against what stands, over the whole turn.
 *
 *     g = least over 0 .. by of the gap of two prisms (route/lifting.ts), anticlockwise in the side view where `by` is positive
 *
 * The pivot lies along y, so y does not change. Bodies that lift together are not held against each other. Within one part what lifts is
 * held against what stays, unless the two touch as drawn: then the turn begins at a contact (the rollers of a nip). Rigid; play of the
 * pivot is left out. Tape and film are not held against what lifts.
 */
const gapTo = once((one: Body) =>
  once((other: Body) =>
    gapModel({
      id: "clear.lifting-gap",
      title: `gap between ${one.name}, lifting, and ${other.name}`,
      equation: "least over the turn of max(d_xz, d_y), the hypotenuse where both are positive",
      cite: "rigid turn about a pivot",
      reads: ({ unit }) => {
        const lifts = unit.nip?.lifts;
        return lifts && { one: one.solid, other: other.solid, by: lifts.by, x: lifts.about[0], z: lifts.about[1] };
      },
      nearest: ({ one: a, other: b, by, x, z }) => {
        const turn: Turn = { about: { x, z }, from: Math.min(0, by), to: Math.max(0, by) };
        const near = liftingGap(a.outline, turn, b.outline);
        return {
          gap: combined(near.gap, gapAcross(a.y, b.y)),
          spot: { ...near.to, y: betweenAcross(a.y, b.y), turned: near.angle },
        };
      },
    }),
  ),
);

/** Two that stand nearer than this touch, m. */
const touching = 1e-6;
function touches(scene: Scene, one: Body, other: Body): boolean {
  const { gap } = gapAtRest(one)(other);
  return new Realiser(scene, [gap]).run(asWritten).number(gap) < touching;
}

export const liftingClear = clearance({
  id: "clear.lifting",
  title: "what lifts with the nip clears what stays",
  what: "what lifts",
  absent: ({ unit }) => {
    if (!bodiesOf(unit).some((body) => body.lifts)) return "no body lifts with the nip";
    return unit.nip?.lifts ? undefined : "the unit file does not say how the nip lifts";
  },
  pairs: (scene) => {
    const { unit } = scene;
    const all = bodiesOf(unit);
    return all
      .filter((body) => body.lifts)
      .flatMap((one) =>
        all.flatMap((other) => {
          if (other.lifts || (isOnePart(one, other) && touches(scene, one, other))) return [];
          const [a, b] = [bodyParty(one), bodyParty(other)];
          if (isMeantToTouch(unit, a, b)) return [];
          return [{ a, b, wanted: wantedGap(unit, a, b), ...gapTo(one)(other) }];
        }),
      );
  },
});
