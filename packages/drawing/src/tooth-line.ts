import type { ToothOutline } from "@tapeworthy/core";

/** A point of a tooth in its own frame, m: height over the wheel's axis along its middle line, half its length along the tape there. */
export type ToothPoint = readonly [rho: number, half: number];

const stride = 6;
const [line, involute, arc] = [0, 1, 2] as const;

/**
 * One flank of a tooth from its foot to the middle of its tip, as straight strokes: pieces of core's outline (sprocket/outline.ts) with their
 * curves cut into chords, 8 to an involute and 6 to a rounded corner; a chord of an involute of 1 mm is off by less than 1 um.
 */
export function toothLine({ pieces }: Pick<ToothOutline, "pieces">): ToothPoint[] {
  const out: ToothPoint[] = [];
  for (let i = 0; i + stride <= pieces.length; i += stride) {
    const [kind, a, b, c, d, e] = pieces.slice(i, i + stride) as unknown as [
      number,
      number,
      number,
      number,
      number,
      number,
    ];
    if (kind === line) {
      add(out, [a, b]);
      add(out, [c, d]);
    } else if (kind === involute) {
      for (let k = 0; k <= 8; k++) {
        const tau = c + ((d - c) * k) / 8;
        const angle = b - (tau - Math.atan(tau));
        add(out, [a * Math.hypot(1, tau) * Math.cos(angle), a * Math.hypot(1, tau) * Math.sin(angle)]);
      }
    } else if (kind === arc) {
      for (let k = 0; k <= 6; k++) {
        const angle = d + ((e - d) * k) / 6;
        add(out, [a + c * Math.sin(angle), b + c * Math.cos(angle)]);
      }
    }
  }
  return out;
}
function add(out: ToothPoint[], p: ToothPoint): void {
  const last = out.at(-1);
  if (!last || Math.hypot(last[0] - p[0], last[1] - p[1]) > 1e-9) out.push(p);
}
/** The flank from a height on: what stands out of the wheel's body. */
export function fromHeight(points: readonly ToothPoint[], rho: number): ToothPoint[] {
  const first = points.findIndex((p) => p[0] > rho);
  if (first < 0) return [];
  if (first === 0) return [...points];
  const [p, q] = [points[first - 1]!, points[first]!];
  const part = (rho - p[0]) / (q[0] - p[0]);
  return [[rho, p[1] + (q[1] - p[1]) * part], ...points.slice(first)];
}
