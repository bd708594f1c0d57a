import { prismGap } from "../route/prism.ts";
import { type Body, bodiesOf } from "./body.ts";
import { gapModel, once } from "./pair.ts";
import { betweenAcross } from "./place.ts";
import { clearance } from "./room.ts";
import { bodyParty, isMeantToTouch, wantedGap } from "./wanted.ts";

/**
 * Bodies of different parts against each other, and against keep-outs. As they stand at rest; what lifts is in lifting.ts.
 *
 *     g = gap of two prisms (route/prism.ts)
 *
 * Bodies of one part may touch and overlap: they are pieces of one thing. A keep-out is not held against a keep-out.
 */
export const gapAtRest = once((one: Body) =>
  once((other: Body) =>
    gapModel({
      id: "clear.bodies-gap",
      title: `gap between ${one.name} and ${other.name}`,
      equation: "max(d_xz, d_y), the hypotenuse where both are positive",
      cite: "plane geometry of prisms",
      reads: () => ({ one: one.solid, other: other.solid }),
      nearest: ({ one: a, other: b }) => {
        const near = prismGap(a, b);
        return { gap: near.gap, spot: { ...near.to, y: betweenAcross(a.y, b.y) } };
      },
    }),
  ),
);
/** Pieces of one thing. */
export const isOnePart = (a: Body, b: Body): boolean => a.part !== undefined && a.part === b.part;

export const bodiesClear = clearance({
  id: "clear.bodies",
  title: "the unit's bodies clear each other and what belongs to the machine",
  what: "the bodies",
  absent: ({ unit }) => (bodiesOf(unit).length < 2 ? "the unit has no two bodies" : undefined),
  pairs: ({ unit }) =>
    bodiesOf(unit).flatMap((one, i, all) =>
      all.slice(i + 1).flatMap((other) => {
        if (isOnePart(one, other) || (one.keepOut && other.keepOut)) return [];
        const [a, b] = [bodyParty(one), bodyParty(other)];
        if (isMeantToTouch(unit, a, b)) return [];
        return [{ a, b, wanted: wantedGap(unit, a, b), ...gapAtRest(one)(other) }];
      }),
    ),
});
