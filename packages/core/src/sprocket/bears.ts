import { tapeHold } from "../film/seat.ts";
import type { Check } from "../quantity/check.ts";
import { tabled } from "../quantity/given.ts";
import { model, type Quantity } from "../quantity/model.ts";
import type { Scene } from "../scene.ts";
import { cornerOf } from "./opening.ts";
import { noSprocket } from "./wheel.ts";

/**
 * The hole under the one tooth that carries.
 *
 *     F <= s_b T w_c
 *     w_c = how much of the tooth's front overlaps the hole's wall once it is pushed 0.04 D_0 past first touch
 *
 * F pull of the tape on the tooth, N; s_b pressure at which the hole grows by 4 %, Pa, measure it; T thickness, D_0 hole, t_c tooth across
 * the tape, r_c corner radius of its front seen from above (t_c/2: round-ended), m. A square front touches with two corners, a round one in
 * its middle: with 0.8 mm in a hole of 1.5 mm 0.23 and 0.56 mm bear.
 *
 * One tooth is taken to carry: of four teeth with pitch errors of 20 um the first carries all of 2 N (springs of 2e5 N/m, derived). 4 % is
 * the growth at which ASTM D953 defines bearing strength (read); it warns that no tensile figure gives it. Shear-out to the next hole (2 t T
 * (P_0 - D_0)) never governs. The tooth stands in the hole's middle: off centre one corner bears alone.
 */
const growth = tabled("bound/hole growth", "g", "4 %", [0, 0, 0, 0, 0], {
  cite: "ASTM D953, definition of bearing strength",
  how: "read",
});

/** Width of a rounded front that overlaps the wall of a round hole once it is pushed `past` first touch; the front is centred. */
export function bearingWidth(D: number, b: number, corner: number, past: number): number {
  if (!(D > 0)) throw new RangeError(`a hole of ${mm(D)} is none`);
  if (!(b > 0)) throw new RangeError(`a tooth ${mm(b)} thick across the tape is none`);
  if (b >= D) throw new RangeError(`the tooth is wider than the hole: ${mm(b)} across the tape in a hole of ${mm(D)}`);
  if (!(past >= 0)) throw new RangeError(`a hole grows by ${mm(past)}; it can't shrink`);
  const R = D / 2;
  const r = Math.min(corner, b / 2);
  // Half a front: flat up to c, then an arc of radius r about (x, c). First touch: the arc's circle lies inside the hole's and touches it.
  const c = b / 2 - r;
  const x = Math.sqrt((R - r) ** 2 - c * c) + past;
  const flat = x + r;
  // The wall stands in front of the flat where y > root: it overlaps there, up to c.
  const root = flat >= R ? 0 : Math.sqrt(R * R - flat * flat);
  let half = Math.max(0, c - root);
  if (r > 0) {
    // Of the arc, y from c to c + r, what lies outside the hole: from and to where the two circles cross.
    const centre = Math.hypot(x, c);
    if (centre >= R + r) half += r;
    else if (centre > R - r) {
      const along = (centre * centre + R * R - r * r) / (2 * centre);
      const across = Math.sqrt(Math.max(0, R * R - along * along));
      const [y0, y1] = [(along * c - across * x) / centre, (along * c + across * x) / centre];
      const [x0, x1] = [(along * x + across * c) / centre, (along * x - across * c) / centre];
      // Points of the circle behind its own centre belong to no front.
      const low = x0 >= x ? Math.max(c, y0) : c;
      const high = x1 >= x ? Math.min(c + r, y1) : c + r;
      half += Math.max(0, high - low);
    }
  }
  return Math.min(b, 2 * half);
}
const mm = (x: number): string => `${+(x * 1e3).toFixed(3)} mm`;

/** Which strength the hole's wall has: plastic of an embossed carrier, or board. */
export const holePressure = ({ tape, requirement: { assume } }: Scene): Quantity =>
  assume[tape.kind === "embossed" ? "hole strength of plastic" : "hole strength of board"];
export const bearing = model({
  id: "hole.bearing-width",
  symbol: "w_c",
  unit: "m",
  title: "width of a tooth's front that bears on its hole",
  equation: "width of the front over the wall, pushed g D_0 past first touch",
  form: "solved",
  origin: { cite: "rounded front in a round hole, geometry", how: "derived" },
  reads: (scene) => {
    const r_c = cornerOf(scene);
    const { sprocket } = scene.unit;
    return sprocket && r_c && { D_0: scene.tape.letters.D0, t_c: sprocket.tooth.across, r_c, g: growth };
  },
  value: ({ D_0, t_c, r_c, g }) => bearingWidth(D_0, t_c, r_c, g * D_0),
});
/** What one hole bears: also the budget that reel, hold-down and drag share. */
export const holeStrength = model({
  id: "hole.strength",
  symbol: "F_hole",
  unit: "N",
  title: "pull that one sprocket hole bears",
  equation: "s_b*T*w_c",
  form: "closed",
  origin: { cite: "pressure times area; ASTM D953 for the growth", how: "derived" },
  reads: (scene) => scene.unit.sprocket && { s_b: holePressure(scene), T: scene.tape.letters.T, w_c: bearing },
  value: ({ s_b, T, w_c }) => s_b * T * w_c,
});
export const checkBears: Check = {
  id: "hole.bears",
  station: 6,
  severity: "S",
  status: "judgement",
  title: "one hole bears the tape's pull",
  value: tapeHold,
  atMost: holeStrength,
  absent: noSprocket,
  because: (say, scene) =>
    `One tooth pulls the tape with ${say(tapeHold)}; ${say(bearing)} of its front bear on the hole, which takes ${say(holeStrength)} at ${say(holePressure(scene))}.`,
  beside: () => [bearing],
};
