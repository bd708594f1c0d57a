import { thicknessClass } from "../material/figures.ts";
import { tabled } from "../quantity/given.ts";
import { model } from "../quantity/model.ts";
import { power } from "../quantity/power.ts";
import { leafOf } from "./held.ts";

/**
 * What the tolerance of a leaf's thickness does to its force.
 *
 *     f = (1 + d/t)^3 - 1
 *
 * t thickness, d its tolerance either way, m. The force at a given stroke goes with t^3, the stress with t. Strip of 0.15 mm: class A of EN 10140,
 * +-0.010 mm, 21 %; class B, +-0.008, 17 %; class C, +-0.005, 10 % (tolerances read, for strip over 0.10 up to 0.15 mm and under 125 mm wide). That is
 * more than any error of the beam: order class C and say so in the parts list, or set the force by hand and not by the stroke.
 */
const classB = tabled("catalogue/thickness class B", "d", `${thicknessClass.upTo015.B.value} mm`, [1, 0, 0, 0, 0], {
  cite: "strip over 0.10 up to 0.15 mm, class B of EN 10140, page of high-carbon strip",
  how: "read",
});
export const forceSwing = model({
  id: "leaf.force-swing",
  symbol: "f_t",
  unit: "1",
  shownIn: "%",
  title: "change of force by the strip's thickness, class B, at one stroke",
  equation: "(1 + d/t)^3 - 1",
  form: "closed",
  origin: { cite: "bending stiffness goes with the cube of the thickness", how: "derived" },
  valid: { t: [0.1e-3, 0.15e-3] },
  reads: (scene) => {
    const t = leafOf(scene)?.thickness;
    return t && { d: classB, t };
  },
  value: ({ d, t }) => power(1 + d / t, 3) - 1,
});
