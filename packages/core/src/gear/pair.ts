import { rootBetween } from "../study/root.ts";
import { angleOfInvolute, inv } from "./involute.ts";

/**
 * Two involute spur gears of the standard rack at the distance at which their axes really stand.
 *
 *     r = m z/2,  r_b = r cos a,  r_a = r + m (h_a + x),  r_f = r - m (h_f - x)
 *     cos a_w = (z_1 + z_2) m cos a/(2 A)
 *     eps     = [sqrt(r_a1^2 - r_b1^2) + sqrt(r_a2^2 - r_b2^2) - A sin a_w]/p_b,   p_b = pi m cos a
 *     j       = (m cos a/cos a_w) [(z_1 + z_2)(inv a_w - inv a) - 2 (x_1 + x_2) tan a] + j_0 cos a/cos a_w
 *     c       = A - r_a1 - r_f2 and A - r_a2 - r_f1, the lesser
 *
 * m module, m, 0.1 .. 2 mm; a pressure angle of the rack, rad, 10 .. 30 deg; z teeth, 4 .. 400; x profile shift in modules, -1 .. 1.5; h_a
 * addendum, h_f dedendum in modules (1 and 1.25); A distance of the axes, m; a_w working angle; eps contact ratio of the drawn teeth; j
 * backlash along the working pitch circle, m; j_0 backlash made into the teeth at the pitch circle; c root clearance.
 *
 * Usable is the contact ratio of what is left of the path: none of it lies inside a base circle (tip interference) or below where the flank
 * of a rack-cut tooth begins. A tooth below z = 2 (h_a - x)/sin^2 a is undercut: its flank begins where the rack's corner has cut it away.
 *
 * Source: ISO 21771:2007, 5 and 6, from memory; derived again. Spur gears, outside, full tips. Printed teeth are not involutes within some
 * hundredths of a millimetre. The corner of the rack is taken sharp at the depth h_a: a rounded one cuts a little less. Teeth whose sides
 * meet below their tip are cut off there.
 */
export interface GearPair {
  readonly module: number;
  /** rad */
  readonly pressure: number;
  readonly teeth: readonly [number, number];
  readonly shifts: readonly [number, number];
  readonly centre: number;
  /** Backlash made into the teeth, at the pitch circle, m. */
  readonly backlash?: number;
  readonly addendum?: number;
  readonly dedendum?: number;
  /** Height taken off both tips, in modules, where the drawing shortens them for clearance. */
  readonly shortening?: number;
}
export interface Mesh {
  /** Working pressure angle, rad. */
  readonly working: number;
  readonly contactRatio: number;
  /** Contact ratio of the part of the path on which both flanks are there. */
  readonly usable: number;
  /** Along the working pitch circle, m; below 0 the teeth jam. */
  readonly backlash: number;
  /** Least distance of a tip from the other gear's root, m. */
  readonly clearance: number;
  readonly basePitch: number;
  readonly undercut: readonly [boolean, boolean];
  /** A tip reaches past where the other gear's involute ends. */
  readonly interference: boolean;
}

const mm = (x: number): string => `${+(x * 1e3).toFixed(3)} mm`;
const degrees = (x: number): string => `${+((x * 180) / Math.PI).toFixed(2)} deg`;

function complain({ module, pressure, teeth, centre }: GearPair): void {
  if (!(module > 0)) throw new RangeError(`a module of ${mm(module)} makes no teeth`);
  if (!(pressure > 0.05 && pressure < 1))
    throw new RangeError(`a pressure angle of ${degrees(pressure)} makes no gear: it lies between 3 and 57 deg`);
  for (const z of teeth)
    if (!(Number.isInteger(z) && z >= 4))
      throw new RangeError(`a gear with ${z} teeth is none: it needs a whole number of 4 or more`);
  if (!(centre > 0)) throw new RangeError(`two axes ${mm(centre)} apart carry no gears`);
}

/** Throws RangeError, with words, for gears that are none or axes so near that the base circles meet. */
export function meshOf(pair: GearPair): Mesh {
  complain(pair);
  const { module: m, pressure: a, teeth, shifts, centre: A, backlash = 0 } = pair;
  const { addendum = 1, dedendum = 1.25, shortening = 0 } = pair;
  const cosine = ((teeth[0] + teeth[1]) * m * Math.cos(a)) / (2 * A);
  if (cosine >= 1)
    throw new RangeError(
      `gears of ${teeth[0]} and ${teeth[1]} teeth, module ${mm(m)}, can't mesh ${mm(A)} apart: their base circles meet`,
    );
  const working = Math.acos(cosine);
  const basePitch = Math.PI * m * Math.cos(a);
  const line = A * Math.sin(working);
  const gears = teeth.map((z, i) => {
    const r = (m * z) / 2;
    const base = r * Math.cos(a);
    const x = shifts[i]!;
    const tip = Math.min(r + m * (addendum + x - shortening), pointed(z, m, a, x));
    const root = r - m * (dedendum - x);
    return { tip, root, out: Math.sqrt(Math.max(0, tip * tip - base * base)), ...flankStart(z, m, a, x, addendum) };
  });
  const [one, two] = [gears[0]!, gears[1]!];
  const path = one.out + two.out - line;
  // Along the line of action from the foot of gear one's perpendicular: contact lies between the tips and above both flanks' beginnings.
  const end = Math.min(one.out, line - two.start);
  const begin = Math.max(line - two.out, one.start);
  const k = Math.cos(a) / Math.cos(working);
  const sum = teeth[0] + teeth[1];
  return {
    working,
    contactRatio: path / basePitch,
    usable: (end - begin) / basePitch,
    backlash: k * (m * (sum * (inv(working) - inv(a)) - 2 * (shifts[0] + shifts[1]) * Math.tan(a)) + backlash),
    clearance: Math.min(A - one.tip - two.root, A - two.tip - one.root),
    basePitch,
    undercut: [one.undercut, two.undercut],
    interference: one.out > line - two.start || two.out > line - one.start,
  };
}

/** The distance of the axes at which two gears mesh without backlash, m. */
export function tightCentre({ module: m, pressure: a, teeth, shifts }: Omit<GearPair, "centre">): number {
  const sum = teeth[0] + teeth[1];
  const working = angleOfInvolute(inv(a) + (2 * (shifts[0] + shifts[1]) * Math.tan(a)) / sum);
  return (m * sum * Math.cos(a)) / (2 * Math.cos(working));
}

/** Fewest teeth, as a number with a fraction, that the rack cuts without undercut. */
export const undercutLimit = (pressure: number, shift = 0, addendum = 1): number =>
  (2 * (addendum - shift)) / Math.sin(pressure) ** 2;

/** Distance from the axis at which both flanks of a tooth meet. */
function pointed(z: number, m: number, a: number, x: number): number {
  // Half a tooth's angle at the base circle.
  const half = Math.PI / (2 * z) + (2 * x * Math.tan(a)) / z + inv(a);
  return half > 0 ? ((m * z) / 2) * (Math.cos(a) / Math.cos(angleOfInvolute(half))) : 0;
}

/**
 * Where the usable flank begins: its distance from the base circle's tangent point along the line of action (0 at the base circle), m.
 * The rack's corner at the depth h below its pitch line cuts the foot; an undercut flank begins where the corner's path crosses it.
 */
function flankStart(
  z: number,
  m: number,
  a: number,
  x: number,
  addendum: number,
): { start: number; undercut: boolean } {
  const r = (m * z) / 2;
  const h = m * (addendum - x);
  const start = r * Math.sin(a) - h / Math.sin(a);
  if (start >= 0) return { start, undercut: false };
  const base = r * Math.cos(a);
  // The rack has moved by s from where its flank passes the pitch point; its corner stands h tan a behind the flank's pitch point.
  const corner = (s: number): { radius: number; angle: number } => {
    const along = s - h * Math.tan(a);
    return { radius: Math.hypot(along, r - h), angle: Math.atan2(along, r - h) - s / r };
  };
  // Angle of the flank at that radius, from its pitch point, against that of the corner: 0 where the corner leaves the flank.
  const off = (s: number): number => {
    const { radius, angle } = corner(s);
    const there = radius > base ? Math.acos(base / radius) : 0;
    return angle - (inv(there) - inv(a));
  };
  // The corner is nearest the axis at s = h tan a and climbs from there; on its way out it leaves the tooth through the flank.
  const bottom = h * Math.tan(a);
  const from = bottom + Math.sqrt(Math.max(0, base * base - (r - h) ** 2));
  const to = bottom + Math.sqrt(Math.max(0, r * r - (r - h) ** 2));
  const s = rootBetween(off, from, to, 1e-15);
  if (s === undefined) return { start: 0, undercut: true };
  const { radius } = corner(s);
  return { start: Math.sqrt(Math.max(0, radius * radius - base * base)), undercut: true };
}
