import { combined, gapAcross } from "../route/prism.ts";
import { sweptGap } from "../route/sweep.ts";
import { noPockets } from "../tape/pocket.ts";
import { type Body, bodiesOf } from "./body.ts";
import { pocketAcross, pocketLetters, pocketSweep } from "./lane.ts";
import { gapModel, once } from "./pair.ts";
import { betweenAcross } from "./place.ts";
import { clearance } from "./room.ts";
import { bodyParty, isMeantToTouch, pocketParty, wantedGap } from "./wanted.ts";

/**
 * The swept pocket against everything that stands near the route: bodies and keep-outs.
 *
 *     g = least over all poses of the gap of two prisms
 *
 * Poses, bends and overlaps as in route/sweep.ts, across as in route/prism.ts: the outline's gap and that of the stretches of y count
 * together, so the wheel beside the pocket is held by y alone. The groove's own floor and walls belong to groove.depth and groove.width.
 */
const gapTo = once(({ name, solid }: Body) =>
  gapModel({
    id: "clear.pocket-gap",
    title: `gap between the pockets and ${name}`,
    equation: "least over the poses of the pocket of max(d_xz, d_y), the hypotenuse where both are positive",
    cite: "rigid pocket swept along lines and arcs",
    reads: (scene) =>
      scene.tape.kind === "embossed" ? { sweep: pocketSweep, body: solid, ...pocketLetters(scene) } : undefined,
    nearest: ({ sweep, body, E_1, F, B_1 }) => {
      const y = pocketAcross({ E_1, F, B_1 });
      const near = sweptGap(sweep, body.outline);
      return {
        gap: combined(near.gap, gapAcross(y, body.y)),
        spot: { ...near.point, y: betweenAcross(y, body.y), s: near.at },
      };
    },
  }),
);

export const pocketClear = clearance({
  id: "clear.pocket",
  title: "the pockets clear what stands near the route",
  what: "the pockets",
  absent: ({ tape }) => noPockets(tape.kind),
  pairs: ({ unit }) =>
    bodiesOf(unit).flatMap((body) => {
      const b = bodyParty(body);
      if (isMeantToTouch(unit, pocketParty, b)) return [];
      return [{ a: pocketParty, b, wanted: wantedGap(unit, pocketParty, b), ...gapTo(body) }];
    }),
});
