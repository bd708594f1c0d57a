import { flangeGap } from "../route/flange.ts";
import { combined, gapAcross } from "../route/prism.ts";
import { type Body, bodiesOf } from "./body.ts";
import { course, flangeLetters, flangeTop } from "./lane.ts";
import { gapModel, once } from "./pair.ts";
import { betweenAcross } from "./place.ts";
import { clearance } from "./room.ts";
import { bodyParty, isMeantToTouch, tapeParty, wantedGap } from "./wanted.ts";

/**
 * The tape's flange with the films that lie on it against bodies and keep-outs.
 *
 *     g = gap of two prisms: outline against the band beside the route (route/flange.ts), y against 0 .. W
 *
 * Ledges, lips and hold-down are no bodies of a unit file: they belong to groove.lips.
 */
const gapTo = once(({ name, solid }: Body) =>
  gapModel({
    id: "clear.tape-gap",
    title: `gap between the tape and ${name}`,
    equation:
      "max(d_xz, d_y) of the band from 0 to T + n_f*T_1 above the course, the hypotenuse where both are positive",
    cite: "plane geometry of lines and arcs",
    reads: (scene) => ({ course, body: solid, ...flangeLetters(scene) }),
    nearest: ({ course: along, body, W, T, T_1, n_f }) => {
      const y = { from: 0, to: W };
      const near = flangeGap(along, 0, flangeTop({ T, T_1, n_f }), body.outline);
      return {
        gap: combined(near.gap, gapAcross(y, body.y)),
        spot: { ...near.point, y: betweenAcross(y, body.y), s: near.at },
      };
    },
  }),
);

export const tapeClear = clearance({
  id: "clear.tape",
  title: "the tape clears what stands near the route",
  what: "the tape",
  absent: () => undefined,
  pairs: ({ unit }) =>
    bodiesOf(unit).flatMap((body) => {
      const b = bodyParty(body);
      if (isMeantToTouch(unit, tapeParty, b)) return [];
      return [{ a: tapeParty, b, wanted: wantedGap(unit, tapeParty, b), ...gapTo(body) }];
    }),
});
