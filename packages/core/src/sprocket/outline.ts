import { rootBetween } from "../study/root.ts";

/**
 * A tooth from the side, symmetric about its middle line: pieces from below the tape's underside up to the middle of its tip.
 *
 *     straight   w = w_p - (rho - r_p) tan(phi)
 *     involute   w = r sin(beta_0 - (tan p - p)),  cos p = r_p/r,  beta_0 = asin(w_p/r_p);  below r_p upright sides, w = w_p
 *     tip        at rho = r_t, square or rounded with the radius q
 *
 * rho height over the wheel's axis along the tooth's middle line, w half the tooth's length along the tape there, r distance from the axis, m;
 * w_p half of its length at the pitch line, 0.1 .. 2 mm; r_p radius of the pitch line (the neutral circle z P_0/(2 pi)); phi half angle
 * of its flanks, rad, 0 .. 0.7; r_t axis to tip, m.
 *
 * Sources: an involute of the neutral circle is the flank that a straight run-off leaves without touching the hole's edge (Journal SMPE 15,
 * 1930, and a disclosure of 1963, read); geometry derived. Flanks that meet below the tip end the tooth there: it is pointed and shorter than
 * drawn. The outline is the section through the tooth's middle; a section farther out across the tape is in `opening.ts`.
 */
export type ToothShape = "straight" | "involute";
export interface ToothForm {
  readonly shape: ToothShape;
  /** Half the length along the tape at the pitch line. */
  readonly halfWidth: number;
  readonly pitchRadius: number;
  /** Axis to tip. */
  readonly tipRadius: number;
  /** Half angle of a straight flank, rad; an involute has none. */
  readonly flank?: number;
  /** Radius at the corners of the tip, m. */
  readonly rounding?: number;
}
/** Kinds of piece, and how many numbers each takes in `pieces`. */
export const [lineKind, involuteKind, arcKind] = [0, 1, 2] as const;
export const stride = 6;

export interface ToothOutline {
  /**
   * Pieces, `stride` numbers each, in the tooth's own frame (rho, w):
   * line: 0, rho_0, w_0, rho_1, w_1 · involute: 1, r_I, beta_0, from tau, to tau (tau = tan p) · arc: 2, centre rho, centre w, radius, from, to,
   * its angles counted from +w towards +rho.
   */
  readonly pieces: Float64Array;
  /** Greatest distance of any point from the axis. */
  readonly reach: number;
  /** Height of the tip over the axis; less than asked for where the flanks meet before. */
  readonly tip: number;
  /** Half length of the tooth at its tip, 0 of a pointed tooth; of a rounded one what the square tip would have. */
  readonly tipHalfWidth: number;
  /** Greatest half length at or above the height `rho`. */
  halfWidthAt(rho: number): number;
}

const mm = (x: number): string => `${+(x * 1e3).toFixed(3)} mm`;

/** Throws RangeError, with words, for a tooth that is none. */
export function toothOutline(form: ToothForm): ToothOutline {
  const { shape, halfWidth: w, pitchRadius: r, tipRadius, flank = 0, rounding = 0 } = form;
  if (!(w > 0)) throw new RangeError(`a tooth ${mm(2 * w)} long at its pitch line is none`);
  if (!(r > w)) throw new RangeError(`a tooth ${mm(2 * w)} long does not stand on a pitch circle of radius ${mm(r)}`);
  if (!(tipRadius > 0))
    throw new RangeError(`the tip of a tooth lies ${mm(tipRadius)} over the axis; it must be above 0`);
  if (!(Math.abs(flank) < 1.2))
    throw new RangeError(`flanks of ${+((flank * 180) / Math.PI).toFixed(1)} deg make no tooth`);
  if (!(rounding >= 0)) throw new RangeError(`the tip's corners have a radius of ${mm(rounding)}; it can't be below 0`);
  return shape === "straight"
    ? straight(w, r, tipRadius, Math.tan(flank), rounding)
    : involute(w, r, tipRadius, rounding);
}

/** How far below the axis' side an outline begins: no point of it at or above a tape's underside is left out for radii above 2 w. */
const below = (w: number, r: number): number => Math.max(0.2 * r, r - 12 * w);

function straight(w: number, r: number, asked: number, slope: number, q: number): ToothOutline {
  const at = (rho: number): number => w - (rho - r) * slope;
  const pointed = slope > 0 ? r + w / slope : Number.POSITIVE_INFINITY;
  const tip = Math.min(asked, pointed);
  const half = Math.max(0, at(tip));
  // Far below the pitch line a wide flank would meet its neighbour: the outline there never meets a tape.
  const foot = Math.min(below(w, r), tip - 1e-9);
  const rows: number[] = [];
  const length = Math.hypot(1, slope);
  // A rounding that fits: its centre on the middle line at the most.
  const most = half / (length - slope);
  const radius = Math.min(q, most, tip - foot);
  if (radius > 0) {
    // Tangent to the tip's line and to the flank, whose outward normal is (slope, 1)/length in (rho, w).
    const rho = tip - radius;
    const centre = at(rho) - radius * length;
    const touch = rho + (radius * slope) / length;
    rows.push(lineKind, foot, at(foot), touch, at(touch), 0);
    rows.push(arcKind, rho, centre, radius, Math.atan(slope), Math.PI / 2);
    if (centre > 0) rows.push(lineKind, tip, centre, tip, 0, 0);
  } else {
    rows.push(lineKind, foot, at(foot), tip, half, 0);
    if (half > 0) rows.push(lineKind, tip, half, tip, 0, 0);
  }
  return {
    pieces: Float64Array.from(rows),
    reach: Math.hypot(tip, half),
    tip,
    tipHalfWidth: half,
    halfWidthAt: (rho) => (rho > tip ? 0 : slope >= 0 ? at(rho) : at(tip)),
  };
}

/** tan p - p of a point of an involute, from tau = tan p. */
export const rolledLess = (tau: number): number => tau - Math.atan(tau);

function involute(w: number, r: number, asked: number, q: number): ToothOutline {
  const beta = Math.asin(w / r);
  const angle = (tau: number): number => beta - rolledLess(tau);
  const rho = (tau: number): number => r * Math.hypot(1, tau) * Math.cos(angle(tau));
  const half = (tau: number): number => r * Math.hypot(1, tau) * Math.sin(angle(tau));
  const base = Math.sqrt(r * r - w * w);
  // Where the flanks meet, or the tip's height if it comes first; below the involute the sides stand upright.
  const meet = solved((tau) => rolledLess(tau) - beta, 0, Math.cbrt(3 * beta) + beta + 1);
  const short = asked <= base;
  const end = short ? 0 : rho(meet) > asked ? solved((tau) => rho(tau) - asked, 0, meet) : meet;
  const tip = short ? asked : Math.min(asked, rho(end));
  const tipHalf = short ? w : end === meet ? 0 : half(end);
  const rows: number[] = [lineKind, Math.min(below(w, r), tip - 1e-9), w, Math.min(base, tip), w, 0];
  const radius = Math.min(q, tipHalf, short ? 0 : (0.9 * (tip - base)) / (1 + Math.sin(beta)));
  if (radius > 0) {
    // The curve climbs in the direction beta - tau from the middle line; its outward normal lies square to that.
    const touch = solved((tau) => rho(tau) + radius * Math.sin(beta - tau) - (tip - radius), 0, end);
    const centre = half(touch) - radius * Math.cos(beta - touch);
    rows.push(involuteKind, r, beta, 0, touch, 0);
    rows.push(arcKind, tip - radius, centre, radius, touch - beta, Math.PI / 2);
    if (centre > 0) rows.push(lineKind, tip, centre, tip, 0, 0);
  } else {
    if (end > 0) rows.push(involuteKind, r, beta, 0, end, 0);
    if (tipHalf > 0) rows.push(lineKind, tip, tipHalf, tip, 0, 0);
  }
  return {
    pieces: Float64Array.from(rows),
    reach: Math.hypot(tip, tipHalf),
    tip,
    tipHalfWidth: tipHalf,
    halfWidthAt: (height) => (height > tip ? 0 : height <= base ? w : half(solved((tau) => rho(tau) - height, 0, end))),
  };
}
/** Root between two points that are known to enclose one; the nearer end where rounding hides it. */
function solved(f: (x: number) => number, low: number, high: number): number {
  return rootBetween(f, low, high, 0) ?? (Math.abs(f(low)) < Math.abs(f(high)) ? low : high);
}
