import { reach, stride } from "./banded.ts";
import type { Beam, Contact, Touch } from "./beam.ts";

/**
 * A round thing the leaf touches at a point: a pin, a rib, the nose of something else.
 *
 *     X(xi) = cubic Hermite curve through the nodes with their directions,  xi* nearest to the centre c
 *     D = n.(X - c),  G = D - R - t/2,  p = -kp G where G < 0,  force p (n + mu s tau)
 *     d2G/du2 = n.X_uu + (kn a a' - l (a b' + b a') - D b b')/(l^2 + kn D),
 *               a = X_u' tau,  b = X_xiu' n,  l = |X_xi|,  kn = n.X_xixi
 *
 * tau unit tangent towards the tip, n unit normal on the leaf's side of the pin; R radius, t thickness, m. The second derivative is free of
 * a division by D (derived). At a free tip it is the plain distance of the end point. All least distances along the leaf are contacts. It fails where
 * l^2 + kn D <= 0: there the leaf is bent tighter than the pin and lies on it along a length; a cylinder (surface.ts) is the kind for that.
 */
export class Pin implements Contact {
  readonly hasBarrier = false;
  cx: number;
  cy: number;
  /** Distance of the middle line from the centre in touch. */
  readonly off: number;
  private readonly x0: number;
  private readonly y0: number;
  private readonly dx: number;
  private readonly dy: number;
  private readonly side: 1 | -1;
  private readonly drag: number;
  private readonly tipTouches: boolean;

  /** Force carried at each element, and whether it is carried; those next to a contact are made ready to take it over. */
  private readonly carried: Float64Array;
  private readonly ready: Uint8Array;
  private readonly touching: Uint8Array;
  private readonly before: Uint8Array;
  private readonly savedForce: Float64Array;
  private readonly savedReady: Uint8Array;
  private readonly savedTouching: Uint8Array;

  // Places found nearest, and what the step left to take on.
  private readonly element = new Int32Array(most);
  private readonly share = new Float64Array(most);
  private readonly atTip = new Uint8Array(most);
  private readonly gradient = new Float64Array(6 * most);
  private readonly gap = new Float64Array(most);
  private readonly of = new Int32Array(most);
  private found = 0;
  private live = 0;

  // The curve at one place.
  private readonly H = new Float64Array(4);
  private readonly H1 = new Float64Array(4);
  private x = 0;
  private y = 0;
  private x1 = 0;
  private y1 = 0;
  private x2 = 0;
  private y2 = 0;
  private ca = 0;
  private sa = 0;
  private cb = 0;
  private sb = 0;
  // The contact there.
  private nx = 0;
  private ny = 0;
  private tx = 0;
  private ty = 0;
  private D = 0;
  private readonly gr = new Float64Array(6);
  private readonly ta = new Float64Array(6);
  private readonly bn = new Float64Array(6);

  constructor(
    beam: Beam,
    at: readonly [number, number],
    direction: readonly [number, number],
    off: number,
    side: 1 | -1,
    drag: number,
    tipTouches: boolean,
  ) {
    [this.x0, this.y0] = at;
    [this.cx, this.cy] = at;
    const l = Math.hypot(direction[0], direction[1]);
    this.dx = direction[0] / l;
    this.dy = direction[1] / l;
    this.off = off;
    this.side = side;
    this.drag = drag;
    this.tipTouches = tipTouches;
    this.carried = new Float64Array(beam.n);
    this.ready = new Uint8Array(beam.n);
    this.touching = new Uint8Array(beam.n);
    this.before = new Uint8Array(beam.n);
    this.savedForce = new Float64Array(beam.n);
    this.savedReady = new Uint8Array(beam.n);
    this.savedTouching = new Uint8Array(beam.n);
  }
  moveTo(stroke: number): void {
    this.cx = this.x0 + this.dx * stroke;
    this.cy = this.y0 + this.dy * stroke;
  }
  begin(): void {}
  save(): void {
    this.savedForce.set(this.carried);
    this.savedReady.set(this.ready);
    this.savedTouching.set(this.touching);
  }
  restore(): void {
    this.carried.set(this.savedForce);
    this.ready.set(this.savedReady);
    this.touching.set(this.savedTouching);
  }
  forget(): void {
    this.carried.fill(0);
    this.ready.fill(0);
    this.touching.fill(0);
  }

  private curve(beam: Beam, e: number, xi: number): void {
    const { X, h } = beam;
    const { H, H1 } = this;
    const i = 3 * e;
    const q = xi * xi;
    const c = q * xi;
    H[0] = 1 - 3 * q + 2 * c;
    H[1] = xi - 2 * q + c;
    H[2] = 3 * q - 2 * c;
    H[3] = c - q;
    H1[0] = -6 * xi + 6 * q;
    H1[1] = 1 - 4 * xi + 3 * q;
    H1[2] = 6 * xi - 6 * q;
    H1[3] = 3 * q - 2 * xi;
    this.ca = Math.cos(X[i + 2]!);
    this.sa = Math.sin(X[i + 2]!);
    this.cb = Math.cos(X[i + 5]!);
    this.sb = Math.sin(X[i + 5]!);
    const px1 = h * this.ca;
    const py1 = h * this.sa;
    const px3 = h * this.cb;
    const py3 = h * this.sb;
    this.x = H[0]! * X[i]! + H[1]! * px1 + H[2]! * X[i + 3]! + H[3]! * px3;
    this.y = H[0]! * X[i + 1]! + H[1]! * py1 + H[2]! * X[i + 4]! + H[3]! * py3;
    this.x1 = H1[0]! * X[i]! + H1[1]! * px1 + H1[2]! * X[i + 3]! + H1[3]! * px3;
    this.y1 = H1[0]! * X[i + 1]! + H1[1]! * py1 + H1[2]! * X[i + 4]! + H1[3]! * py3;
    const [a, b, d, f] = [-6 + 12 * xi, -4 + 6 * xi, 6 - 12 * xi, 6 * xi - 2];
    this.x2 = a * X[i]! + b * px1 + d * X[i + 3]! + f * px3;
    this.y2 = a * X[i + 1]! + b * py1 + d * X[i + 4]! + f * py3;
  }

  /** Finds the places nearest to the centre: where the distance along the leaf has a least. */
  private project(beam: Beam): void {
    const { X, n } = beam;
    this.found = 0;
    let before = 0;
    for (let i = 0; i <= n; i++) {
      const k = 3 * i;
      const w = (X[k]! - this.cx) * Math.cos(X[k + 2]!) + (X[k + 1]! - this.cy) * Math.sin(X[k + 2]!);
      if (i > 0 && before <= 0 && w > 0) {
        let xi = before / (before - w);
        for (let again = 0; again < 8; again++) {
          this.curve(beam, i - 1, xi);
          const rx = this.x - this.cx;
          const ry = this.y - this.cy;
          const f = rx * this.x1 + ry * this.y1;
          const slope = this.x1 * this.x1 + this.y1 * this.y1 + rx * this.x2 + ry * this.y2;
          if (slope <= 0) break;
          const step = -f / slope;
          xi = Math.min(1, Math.max(0, xi + step));
          if (Math.abs(step) < 1e-11) break;
        }
        this.note(i - 1, xi, 0);
      }
      if (i === n && w <= 0 && this.tipTouches) this.note(n - 1, 1, 1);
      before = w;
    }
  }
  private note(e: number, xi: number, tip: 0 | 1): void {
    if (this.found === most) return;
    this.element[this.found] = e;
    this.share[this.found] = xi;
    this.atTip[this.found] = tip;
    this.found++;
  }
  /** Normal, tangent, distance and gradient at a found place. */
  private touch(beam: Beam, k: number): void {
    const { H, H1, gr, ta, bn, side } = this;
    const { h } = beam;
    this.curve(beam, this.element[k]!, this.share[k]!);
    const l = Math.hypot(this.x1, this.y1);
    const rx = this.x - this.cx;
    const ry = this.y - this.cy;
    this.tx = this.x1 / l;
    this.ty = this.y1 / l;
    this.nx = -side * this.ty;
    this.ny = side * this.tx;
    this.D = this.nx * rx + this.ny * ry;
    if (this.atTip[k] === 1 && this.D > 0) {
      this.D = Math.hypot(rx, ry);
      this.nx = rx / this.D;
      this.ny = ry / this.D;
      this.tx = side * this.ny;
      this.ty = -side * this.nx;
    }
    const { nx, ny, tx, ty } = this;
    const wa = h * (ny * this.ca - nx * this.sa);
    const wb = h * (ny * this.cb - nx * this.sb);
    const va = h * (ty * this.ca - tx * this.sa);
    const vb = h * (ty * this.cb - tx * this.sb);
    gr[0] = H[0]! * nx;
    gr[1] = H[0]! * ny;
    gr[2] = H[1]! * wa;
    gr[3] = H[2]! * nx;
    gr[4] = H[2]! * ny;
    gr[5] = H[3]! * wb;
    ta[0] = H[0]! * tx;
    ta[1] = H[0]! * ty;
    ta[2] = H[1]! * va;
    ta[3] = H[2]! * tx;
    ta[4] = H[2]! * ty;
    ta[5] = H[3]! * vb;
    bn[0] = H1[0]! * nx;
    bn[1] = H1[0]! * ny;
    bn[2] = H1[1]! * wa;
    bn[3] = H1[2]! * nx;
    bn[4] = H1[2]! * ny;
    bn[5] = H1[3]! * wb;
  }

  assemble(beam: Beam, carried: boolean, asIfDead: boolean): void {
    const { A, R, h, stiffness } = beam;
    const { gr, ta, bn, drag, H } = this;
    this.project(beam);
    this.live = 0;
    for (let k = 0; k < this.found; k++) {
      this.touch(beam, k);
      const e = this.element[k]!;
      const g = this.D - this.off;
      if (g >= 0 && this.ready[e] === 0) continue;
      const p = -stiffness * g;
      const held = carried && this.ready[e] === 1 ? this.carried[e]! : Math.max(0, p);
      const i0 = 3 * e;
      const l = Math.hypot(this.x1, this.y1);
      const kn = this.nx * this.x2 + this.ny * this.y2;
      const tip = this.atTip[k] === 1;
      const inside = !tip && this.share[k]! > 0 && this.share[k]! < 1;
      const below = l * l + kn * this.D;
      for (let r = 0; r < 6; r++) {
        R[i0 + r] = R[i0 + r]! + p * (gr[r]! + drag * ta[r]!);
        const f = asIfDead ? gr[r]! : gr[r]! + drag * ta[r]!;
        const at = stride * (i0 + r) - r + reach;
        for (let s = 0; s < 6; s++) {
          let second = 0;
          if (tip) second = (ta[r]! * ta[s]!) / Math.max(this.D, 0.5 * this.off);
          else if (inside)
            second =
              (kn * ta[r]! * ta[s]! - l * (ta[r]! * bn[s]! + bn[r]! * ta[s]!) - this.D * bn[r]! * bn[s]!) / below;
          A[at + s] = A[at + s]! + stiffness * f * gr[s]! - held * second;
        }
      }
      // n.X_uu: turning of the end directions.
      const at2 = stride * (i0 + 2) + reach;
      const at5 = stride * (i0 + 5) + reach;
      A[at2] = A[at2]! + held * H[1]! * h * (this.nx * this.ca + this.ny * this.sa);
      A[at5] = A[at5]! + held * H[3]! * h * (this.nx * this.cb + this.ny * this.sb);
      this.of[this.live] = e;
      this.gap[this.live] = g;
      this.gradient.set(gr, 6 * this.live);
      this.live++;
    }
  }
  follow(beam: Beam): boolean {
    const { R, n, stiffness } = beam;
    this.before.set(this.touching);
    this.touching.fill(0);
    this.ready.fill(0);
    this.carried.fill(0);
    let greatest = 0;
    for (let k = 0; k < this.live; k++) {
      const e = this.of[k]!;
      let g = this.gap[k]!;
      for (let r = 0; r < 6; r++) g += this.gradient[6 * k + r]! * R[3 * e + r]!;
      if (g >= 0) continue;
      this.carried[e] = -stiffness * g;
      this.touching[e] = 1;
      this.ready[e] = 1;
      greatest = Math.max(greatest, this.carried[e]!);
    }
    for (let e = 0; e < n; e++) {
      if (this.touching[e] !== 1) continue;
      for (const next of [e - 1, e + 1])
        if (next >= 0 && next < n && this.ready[next] === 0) {
          this.ready[next] = 1;
          this.carried[next] = greatest;
        }
    }
    for (let e = 0; e < n; e++) if (this.before[e] !== this.touching[e]) return true;
    return false;
  }
  push(beam: Beam): void {
    const { R, stiffness } = beam;
    this.project(beam);
    for (let k = 0; k < this.found; k++) {
      this.touch(beam, k);
      const p = stiffness * (this.off - this.D);
      if (p <= 0) continue;
      const i0 = 3 * this.element[k]!;
      for (let r = 0; r < 6; r++) R[i0 + r] = R[i0 + r]! + p * (this.gr[r]! + this.drag * this.ta[r]!);
    }
  }
  /** Where it touches: distance from the clamp, force along the normal and force on the leaf, contact by contact. */
  touches(beam: Beam): (Touch & { atTip: boolean })[] {
    this.project(beam);
    const out: (Touch & { atTip: boolean })[] = [];
    for (let k = 0; k < this.found; k++) {
      this.touch(beam, k);
      const force = beam.stiffness * (this.off - this.D);
      if (force > 0)
        out.push({
          s: (this.element[k]! + this.share[k]!) * beam.h,
          force,
          x: force * (this.nx + this.drag * this.tx),
          y: force * (this.ny + this.drag * this.ty),
          atTip: this.atTip[k] === 1,
        });
    }
    return out;
  }
}
/** More places nearest to one pin than a leaf can have. */
const most = 16;
