import { arcKind, involuteKind, lineKind, rolledLess, stride, type ToothOutline } from "./outline.ts";

/**
 * How far one tooth reaches along the tape, exactly.
 *
 *     flat:     s = r sin A,                          h = r cos A - r_b
 *     wrapped:  s = r_n A,                            h = r - r_b                        |A| <= alpha/2
 *               s = +-r_n alpha/2 + r sin B,          h = r cos B - r_b                  B = A -+ alpha/2 beyond
 *     front(a) = greatest s of the tooth at the angle a with 0 <= h <= T
 *
 * (r, A) a point of the outline about the axis, A from upright, + downstream; s its place along the tape's neutral line, h its height over
 * the tape's underside; r_b axis to underside, T thickness, r_n = r_b + u T radius of the neutral line, m; alpha angle of wrap, rad, 0 .. pi.
 * A hole's walls stand square to the tape.
 *
 * The greatest s lies at an end of a piece, where a piece crosses the underside or the top of the tape or an end of the wrap, or where s has
 * an extreme: on the involute that is its tangent point, s = r_p (a + beta_0), which is why such a tooth runs true. Each is solved for, none
 * is sampled; right to rounding, 1e-12 m. The tooth is symmetric, so its rear is -front(-a). -Infinity where it stands outside the tape.
 */
export interface Layer {
  /** Axis to the tape's underside, m. */
  readonly baseRadius: number;
  readonly thickness: number;
  /** Neutral line as a share of the thickness, from the underside. */
  readonly neutral: number;
  /** Angle over which the tape lies round the wheel, rad. */
  readonly wrap: number;
}
const near = 1e-12;

export class OneTooth {
  /** Angle from upright beyond which no point of the tooth stands in the tape; below 0 where none ever does. */
  readonly widest: number;
  private readonly pieces: Float64Array;
  private readonly inner: number;
  private readonly outer: number;
  private readonly neutralRadius: number;
  private readonly halfWrap: number;
  private readonly sinWrap: number;
  private readonly cosWrap: number;
  private readonly broadest: number;
  private readonly upright: number | undefined;
  private readonly uprightHeight: number = 0;
  private best = 0;
  private highest = 0;

  constructor({ pieces, reach }: ToothOutline, { baseRadius, thickness, neutral, wrap }: Layer) {
    this.pieces = pieces;
    this.inner = baseRadius;
    this.outer = baseRadius + thickness;
    this.neutralRadius = baseRadius + neutral * thickness;
    this.halfWrap = wrap / 2;
    this.sinWrap = Math.sin(wrap / 2);
    this.cosWrap = Math.cos(wrap / 2);
    // Only what reaches the tape counts: the angle of the flank where it leaves the underside, or of the tip.
    this.broadest = Math.max(0, ...this.corners().map(([rho, w]) => (rho > 0 ? Math.atan2(w, rho) : 0)));
    this.widest = reach > baseRadius ? wrap / 2 + Math.acos(baseRadius / reach) + this.broadest : -1;
    if (this.broadest < this.halfWrap) {
      const upright = this.front(0);
      this.uprightHeight = this.highest;
      this.upright = upright;
    }
  }

  /** Greatest s of the tooth in the tape. */
  front(a: number): number {
    this.best = Number.NEGATIVE_INFINITY;
    this.highest = Number.NEGATIVE_INFINITY;
    if (Math.abs(a) > this.widest) return this.best;
    if (Math.abs(a) + this.broadest < this.halfWrap && this.upright !== undefined) {
      // All of it inside the wrap: it turns with the tape.
      this.highest = this.uprightHeight;
      this.best = this.upright + this.neutralRadius * a;
      return this.best;
    }
    const sin = Math.sin(a);
    const cos = Math.cos(a);
    const { pieces } = this;
    // Of the rear side only the tip can be the foremost point at some height.
    for (let i = 0; i < pieces.length; i += stride) {
      const kind = pieces[i]!;
      if (kind === lineKind) {
        this.line(i, sin, cos, 1);
        if (pieces[i + 1] === pieces[i + 3]) this.line(i, sin, cos, -1);
      } else if (kind === involuteKind) this.involute(i, a);
      else {
        this.arc(i, sin, cos, 1);
        this.arc(i, sin, cos, -1);
      }
    }
    return this.best;
  }
  /** Height of the tooth's highest point over the tape's underside; below 0 where it stands under the tape. */
  height(a: number): number {
    this.front(a);
    return this.highest;
  }

  /** One point of the outline, in the wheel's frame (x along the travel, y up): its s counts where it lies in the tape. */
  private at(x: number, y: number): void {
    let s = x;
    let h = y - this.inner;
    if (this.halfWrap > 0) {
      const A = Math.atan2(x, y);
      if (Math.abs(A) <= this.halfWrap) {
        s = this.neutralRadius * A;
        h = Math.hypot(x, y) - this.inner;
      } else {
        const side = A > 0 ? 1 : -1;
        s = side * this.neutralRadius * this.halfWrap + x * this.cosWrap - side * y * this.sinWrap;
        h = side * x * this.sinWrap + y * this.cosWrap - this.inner;
      }
    }
    if (h > this.highest) this.highest = h;
    if (h >= -near && h <= this.outer - this.inner + near && s > this.best) this.best = s;
  }

  private line(i: number, sin: number, cos: number, side: 1 | -1): void {
    const p = this.pieces;
    const [w0, w1] = [side * p[i + 2]!, side * p[i + 4]!];
    const x0 = p[i + 1]! * sin + w0 * cos;
    const y0 = p[i + 1]! * cos - w0 * sin;
    const x1 = p[i + 3]! * sin + w1 * cos;
    const y1 = p[i + 3]! * cos - w1 * sin;
    this.at(x0, y0);
    this.at(x1, y1);
    const dx = x1 - x0;
    const dy = y1 - y0;
    if (this.halfWrap === 0) {
      this.cutLine(x0, y0, dx, dy, 0, 1, this.inner);
      this.cutLine(x0, y0, dx, dy, 0, 1, this.outer);
      return;
    }
    for (let end = -1; end <= 1; end += 2) {
      const ux = end * this.sinWrap;
      this.cutLine(x0, y0, dx, dy, ux, this.cosWrap, this.inner);
      this.cutLine(x0, y0, dx, dy, ux, this.cosWrap, this.outer);
      this.cutLine(x0, y0, dx, dy, this.cosWrap, -ux, 0);
    }
    this.cutRound(x0, y0, dx, dy, this.inner);
    this.cutRound(x0, y0, dx, dy, this.outer);
  }
  /** Where a line meets ux x + uy y = level. */
  private cutLine(x0: number, y0: number, dx: number, dy: number, ux: number, uy: number, level: number): void {
    const rise = ux * dx + uy * dy;
    if (rise === 0) return;
    const t = (level - ux * x0 - uy * y0) / rise;
    if (t > 0 && t < 1) this.at(x0 + t * dx, y0 + t * dy);
  }
  /** Where a line meets a circle about the axis. */
  private cutRound(x0: number, y0: number, dx: number, dy: number, r: number): void {
    const a = dx * dx + dy * dy;
    if (a === 0) return;
    const b = x0 * dx + y0 * dy;
    const under = b * b - a * (x0 * x0 + y0 * y0 - r * r);
    if (under < 0) return;
    const root = Math.sqrt(under);
    for (const t of [(-b - root) / a, (-b + root) / a]) if (t > 0 && t < 1) this.at(x0 + t * dx, y0 + t * dy);
  }

  /** The front flank's involute: its root stands at root, the curve at root - (tau - atan tau) about the axis. */
  private involute(i: number, a: number): void {
    const p = this.pieces;
    const r = p[i + 1]!;
    const root = a + p[i + 2]!;
    const from = p[i + 3]!;
    const to = p[i + 4]!;
    this.onInvolute(r, root, from);
    this.onInvolute(r, root, to);
    if (this.halfWrap === 0) {
      this.cutInvolute(r, root, from, to, 0);
      return;
    }
    for (let end = -1; end <= 1; end += 2) {
      const turn = end * this.halfWrap;
      this.cutInvolute(r, root, from, to, turn);
      const tau = rolled(root - turn);
      if (tau > from && tau < to) this.onInvolute(r, root, tau);
    }
    for (let n = 0; n < 2; n++) {
      const level = n === 0 ? this.inner : this.outer;
      if (level <= r) continue;
      const tau = Math.sqrt((level / r) ** 2 - 1);
      if (tau > from && tau < to) this.onInvolute(r, root, tau);
    }
  }
  private onInvolute(r: number, root: number, tau: number): void {
    const A = root - rolledLess(tau);
    const size = r * Math.sqrt(1 + tau * tau);
    this.at(size * Math.sin(A), size * Math.cos(A));
  }
  /** The extreme of s, and where the curve crosses the tape's faces, in the straight that leaves the wheel at the angle `turn`. */
  private cutInvolute(r: number, root: number, from: number, to: number, turn: number): void {
    const tangent = root - turn;
    if (tangent > from && tangent < to) this.onInvolute(r, root, tangent);
    const low = heightOn(r, tangent, from);
    const high = heightOn(r, tangent, to);
    for (let n = 0; n < 2; n++) {
      const level = n === 0 ? this.inner : this.outer;
      if (low > level === high > level) continue;
      // dh/dtau = r tau cos(tangent - tau): Newton inside a bracket.
      let a = from;
      let b = to;
      let tau = (a + b) / 2;
      for (let k = 0; k < 60; k++) {
        const off = heightOn(r, tangent, tau) - level;
        if (Math.abs(off) < 1e-17 || b - a < 1e-15) break;
        if (off > 0 === high > low) b = tau;
        else a = tau;
        const next = tau - off / (r * tau * Math.cos(tangent - tau));
        const inside = next > a && next < b;
        if (inside && Math.abs(next - tau) < 1e-14) {
          tau = next;
          break;
        }
        tau = inside ? next : (a + b) / 2;
      }
      this.onInvolute(r, root, tau);
    }
  }

  private arc(i: number, sin: number, cos: number, side: 1 | -1): void {
    const p = this.pieces;
    const w = side * p[i + 2]!;
    const cx = p[i + 1]! * sin + w * cos;
    const cy = p[i + 1]! * cos - w * sin;
    const q = p[i + 3]!;
    const [from, to] = [p[i + 4]!, p[i + 5]!];
    // In the tooth's own frame an arc's angle runs from +w to +rho; `side` mirrors it.
    const on = (x: number, y: number): void => {
      const ex = x - cx;
      const ey = y - cy;
      const psi = Math.atan2(ex * sin + ey * cos, side * (ex * cos - ey * sin));
      if (psi > from && psi < to) this.at(x, y);
    };
    for (const psi of [from, to]) {
      const rho = p[i + 1]! + q * Math.sin(psi);
      const v = side * (p[i + 2]! + q * Math.cos(psi));
      this.at(rho * sin + v * cos, rho * cos - v * sin);
    }
    const ends = this.halfWrap === 0 ? [0] : [-this.halfWrap, this.halfWrap];
    for (const turn of ends) {
      const [ux, uy] = [Math.sin(turn), Math.cos(turn)];
      on(cx + q * uy, cy - q * ux);
      on(cx + q * ux, cy + q * uy);
      for (const level of [this.inner, this.outer]) this.cutArc(cx, cy, q, ux, uy, level, on);
      if (this.halfWrap > 0) this.cutArc(cx, cy, q, uy, -ux, 0, on);
    }
    if (this.halfWrap === 0) return;
    const c = Math.hypot(cx, cy);
    // Where a ray from the axis touches the arc, and where circles about the axis cross it.
    const along = Math.sqrt(Math.max(0, c * c - q * q));
    for (const sign of [-1, 1]) {
      const turn = Math.atan2(cx, cy) + sign * Math.asin(Math.min(1, q / c));
      on(along * Math.sin(turn), along * Math.cos(turn));
      for (const r of [this.inner, this.outer]) {
        const cosine = (c * c + r * r - q * q) / (2 * c * r);
        if (Math.abs(cosine) > 1) continue;
        const A = Math.atan2(cx, cy) + sign * Math.acos(cosine);
        on(r * Math.sin(A), r * Math.cos(A));
      }
    }
  }
  private cutArc(
    cx: number,
    cy: number,
    q: number,
    ux: number,
    uy: number,
    level: number,
    on: (x: number, y: number) => void,
  ): void {
    const off = level - ux * cx - uy * cy;
    if (Math.abs(off) > q) return;
    const across = Math.sqrt(q * q - off * off);
    on(cx + off * ux + across * uy, cy + off * uy - across * ux);
    on(cx + off * ux - across * uy, cy + off * uy + across * ux);
  }

  /** Ends of the pieces, both sides. */
  private corners(): [rho: number, w: number][] {
    const p = this.pieces;
    const out: [number, number][] = [];
    for (let i = 0; i < p.length; i += stride) {
      const kind = p[i]!;
      if (kind === lineKind) out.push([p[i + 1]!, p[i + 2]!], [p[i + 3]!, p[i + 4]!]);
      else if (kind === involuteKind)
        for (const tau of [p[i + 3]!, p[i + 4]!]) {
          const A = p[i + 2]! - rolledLess(tau);
          const size = p[i + 1]! * Math.hypot(1, tau);
          out.push([size * Math.cos(A), size * Math.sin(A)]);
        }
      else
        for (const psi of [p[i + 4]!, p[i + 5]!])
          out.push([p[i + 1]! + p[i + 3]! * Math.sin(psi), p[i + 2]! + p[i + 3]! * Math.cos(psi)]);
    }
    return out.flatMap(([rho, w]) => [[rho, w] as [number, number], [rho, -w] as [number, number]]);
  }

  /** Angles at which front() changes its form: a corner or an extreme enters or leaves the tape, or an end of the wrap. */
  turnings(): number[] {
    const out: number[] = [];
    const bends = this.halfWrap === 0 ? [0] : [-this.halfWrap, this.halfWrap];
    const point = (r: number, A: number): void => {
      for (const turn of bends) {
        for (const level of [this.inner, this.outer])
          if (r >= level) for (const sign of [-1, 1]) out.push(turn + sign * Math.acos(level / r) - A);
        if (this.halfWrap > 0) out.push(turn - A);
      }
    };
    for (const [rho, w] of this.corners()) point(Math.hypot(rho, w), Math.atan2(w, rho));
    const p = this.pieces;
    for (let i = 0; i < p.length; i += stride) {
      if (p[i] === involuteKind)
        for (const turn of bends)
          for (const side of [-1, 1])
            for (const tau of [p[i + 3]!, p[i + 4]!]) out.push(turn + side * (tau - p[i + 2]!));
      if (p[i] === arcKind) {
        const [rho, w, q] = [p[i + 1]!, p[i + 2]!, p[i + 3]!];
        for (const side of [-1, 1]) {
          const [r, A] = [Math.hypot(rho, w), Math.atan2(side * w, rho)];
          // The foremost and the top point of the arc stand at the height of its centre, and a radius above that.
          for (const turn of bends)
            for (const level of [this.inner, this.outer, this.inner - q, this.outer - q])
              if (r >= Math.abs(level)) for (const sign of [-1, 1]) out.push(turn + sign * Math.acos(level / r) - A);
          // The foremost point comes on to the arc where its normal lies along the tape.
          for (const turn of bends)
            for (const psi of [p[i + 4]!, p[i + 5]!]) for (const sign of [-1, 1]) out.push(turn + sign * psi);
        }
      }
      // Where the tape lies round the wheel its faces cross the pieces at points that turn with the tooth.
      if (this.halfWrap > 0) for (const A of this.roundCuts(i)) for (const turn of bends) out.push(turn - A, turn + A);
    }
    return out;
  }
  /** Points of a piece on circles about the axis at the tape's faces, as angles from the tooth's middle line. */
  private roundCuts(i: number): number[] {
    const p = this.pieces;
    const out: number[] = [];
    for (const r of [this.inner, this.outer]) {
      if (p[i] === involuteKind && r > p[i + 1]!) out.push(p[i + 2]! - rolledLess(Math.sqrt((r / p[i + 1]!) ** 2 - 1)));
      if (p[i] === lineKind) {
        const [x0, y0] = [p[i + 2]!, p[i + 1]!];
        const [dx, dy] = [p[i + 4]! - x0, p[i + 3]! - y0];
        const a = dx * dx + dy * dy;
        const b = x0 * dx + y0 * dy;
        const under = b * b - a * (x0 * x0 + y0 * y0 - r * r);
        if (a > 0 && under >= 0)
          for (const root of [-Math.sqrt(under), Math.sqrt(under)]) {
            const t = (-b + root) / a;
            if (t >= 0 && t <= 1) out.push(Math.atan2(x0 + t * dx, y0 + t * dy));
          }
      }
      if (p[i] === arcKind) {
        const c = Math.hypot(p[i + 1]!, p[i + 2]!);
        const cosine = (c * c + r * r - p[i + 3]! ** 2) / (2 * c * r);
        if (Math.abs(cosine) <= 1)
          for (const sign of [-1, 1]) out.push(Math.atan2(p[i + 2]!, p[i + 1]!) + sign * Math.acos(cosine));
      }
    }
    return out;
  }
}
/** Height over the axis of an involute's point at tau, its root standing at the angle `root`. */
const heightOn = (r: number, root: number, tau: number): number =>
  r * Math.sqrt(1 + tau * tau) * Math.cos(root - rolledLess(tau));
/** tau with tau - atan tau = angle, 0 where the angle is below it. */
function rolled(angle: number): number {
  if (!(angle > 0)) return 0;
  let tau = Math.cbrt(3 * angle) + (angle > 1 ? angle : 0);
  for (let n = 0; n < 60; n++) {
    const step = (rolledLess(tau) - angle) * (1 + 1 / (tau * tau));
    tau = Math.max(tau / 4, tau - step);
    if (Math.abs(step) < 1e-16 + 1e-15 * tau) break;
  }
  return tau;
}
