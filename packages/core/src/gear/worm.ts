import { undercutLimit } from "./pair.ts";

/**
 * A worm on its wheel, in the wheel's middle plane, where the worm is a rack of the module m.
 *
 *     d_1 = m n_w/tan(lambda),  A_0 = (d_1 + m z)/2,  tan(a_x) = tan(a_n)/cos(lambda)
 *     eps = [sqrt(r_a^2 - r_b^2) - r sin(a_x) + min((m - e)/sin(a_x), r sin(a_x))]/(pi m cos(a_x))
 *     j   = 2 e tan(a_x) + j_0,    e = A - A_0
 *
 * m axial module, m, 0.1 .. 2 mm; n_w starts, 1 .. 12; lambda lead angle, rad, 1 .. 30 deg; a_n normal pressure angle, a_x the one in the
 * axial section; z teeth of the wheel, r = m z/2, r_b = r cos(a_x), r_a = r + m; e how far the axes stand apart beyond A_0, m; eps contact
 * ratio there; j backlash along the wheel's pitch circle, j_0 what is made into the teeth, m; clearance m/4 + e at both roots.
 *
 * Rack and gear, from the textbooks of machine elements (memory). The middle plane alone: a throated wheel has more contact beside it, a
 * plain spur gear on a worm has one point a tooth, which this describes well enough. The wheel's flank ends where its rack would undercut it.
 */
export interface WormPair {
  readonly module: number;
  readonly starts: number;
  /** rad */
  readonly lead: number;
  /** Normal pressure angle, rad. */
  readonly pressure: number;
  readonly teeth: number;
  /** Distance of the axes beyond that of the drawing, m. */
  readonly opened: number;
  readonly backlash?: number;
}
export interface WormMesh {
  readonly contactRatio: number;
  readonly backlash: number;
  readonly clearance: number;
  readonly basePitch: number;
  /** Distance of the axes as drawn, m. */
  readonly centre: number;
  readonly undercut: boolean;
}

export function wormMeshOf({
  module: m,
  starts,
  lead,
  pressure,
  teeth: z,
  opened: e,
  backlash = 0,
}: WormPair): WormMesh {
  if (!(m > 0)) throw new RangeError(`a module of ${+(m * 1e3).toFixed(3)} mm makes no teeth`);
  if (!(starts >= 1)) throw new RangeError(`a worm with ${starts} starts is none`);
  if (!(lead > 0 && lead < 1.4)) throw new RangeError("a worm's lead angle lies between 0 and 80 deg");
  if (!(pressure > 0.05 && pressure < 1)) throw new RangeError("a worm's pressure angle lies between 3 and 57 deg");
  if (!(Number.isInteger(z) && z >= 4))
    throw new RangeError(`a worm wheel with ${z} teeth is none: it needs a whole number of 4 or more`);
  const a = Math.atan(Math.tan(pressure) / Math.cos(lead));
  const r = (m * z) / 2;
  const base = r * Math.cos(a);
  const basePitch = Math.PI * m * Math.cos(a);
  const [sin, tip] = [Math.sin(a), r + m];
  const out = Math.sqrt(tip * tip - base * base) - r * sin;
  const into = Math.min((m - e) / sin, r * sin);
  return {
    contactRatio: (out + into) / basePitch,
    backlash: 2 * e * Math.tan(a) + backlash,
    clearance: m / 4 + e,
    basePitch,
    centre: (m * starts) / Math.tan(lead) / 2 + r,
    undercut: z < undercutLimit(a),
  };
}
