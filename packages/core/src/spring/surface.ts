import { place } from "./banded.ts";
import type { Beam, Contact, Touch } from "./beam.ts";

/**
 * A face the leaf may lie on: its nodes against a flat or a cylinder, with a barrier in place of a list of what touches.
 *
 *     G = m/p - p/kp                 gap and force of a node; p > 0 always
 *     force p (n + mu s tau)
 *
 * G gap of the node, m; p force, N; kp 3000 EI/h^3, N/m; m barrier, N m, from 1e-2 EI/L down by 10 an iteration to 1e-9 EI/L: a node that
 * stands clear by a thousandth of the length is pushed with 1e-6 EI/L^2. p is carried through the iteration, with compliance m/p^2 + 1/kp, and
 * falls to no less than a tenth a step. With nothing to add or drop there is nothing to cycle. tau along the face, s as in nose.ts.
 * The pressure of a wrap shows at the nodes, so where it begins is known to a node's distance.
 */
export class Surface implements Contact {
  readonly hasBarrier = true;
  readonly nodes: number;
  /** The first node that may touch. */
  readonly first: number;
  private readonly p: Float64Array;
  private readonly next: Float64Array;
  private readonly yields: Float64Array;
  private readonly normals: Float64Array;
  private readonly saved: Float64Array;
  private known = false;
  private savedKnown = false;
  private barrier = 0;
  private cx: number;
  private cy: number;
  // The face at one node.
  private nx = 0;
  private ny = 0;
  private gap = 0;
  private bend = 0;

  private readonly face: Face;
  private readonly drag: number;
  private readonly side: 1 | -1;
  private readonly off: number;

  constructor(beam: Beam, face: Face, off: number, side: 1 | -1, drag: number, first: number) {
    this.face = face;
    this.drag = drag;
    this.side = side;
    this.off = off;
    this.first = first;
    this.nodes = beam.n + 1 - first;
    this.p = new Float64Array(this.nodes);
    this.next = new Float64Array(this.nodes);
    this.yields = new Float64Array(this.nodes);
    this.normals = new Float64Array(2 * this.nodes);
    this.saved = new Float64Array(this.nodes);
    [this.cx, this.cy] = face.at;
  }
  moveTo(stroke: number): void {
    this.cx = this.face.at[0] + this.face.direction[0] * stroke;
    this.cy = this.face.at[1] + this.face.direction[1] * stroke;
  }
  save(): void {
    this.saved.set(this.p);
    this.savedKnown = this.known;
  }
  restore(): void {
    this.p.set(this.saved);
    this.known = this.savedKnown;
  }
  forget(): void {
    this.known = false;
  }
  private least(beam: Beam): number {
    return 1e-9 * beam.force * beam.length;
  }
  private look(X: Float64Array, k: number): void {
    const i = 3 * (this.first + k);
    const dx = X[i]! - this.cx;
    const dy = X[i + 1]! - this.cy;
    const { radius } = this.face;
    if (radius === undefined) {
      [this.nx, this.ny] = this.face.direction;
      this.gap = dx * this.nx + dy * this.ny - this.off;
      this.bend = 0;
      return;
    }
    const D = Math.hypot(dx, dy);
    this.nx = dx / D;
    this.ny = dy / D;
    this.gap = D - radius - this.off;
    this.bend = 1 / D;
  }
  begin(beam: Beam, cold: boolean): void {
    const { p, nodes } = this;
    const { force, length } = beam;
    const far = cold || !this.known;
    this.barrier = (far ? 1e-2 : 1e-6) * force * length;
    const least = (far ? 1e-3 : 1e-6) * force;
    for (let k = 0; k < nodes; k++) p[k] = this.known ? Math.max(p[k]!, least) : 1e-2 * force;
    this.known = true;
  }
  assemble(beam: Beam, _carried: boolean, asIfDead: boolean): void {
    const { p, next, yields, normals, nodes, first, drag, side } = this;
    const { A, R, X } = beam;
    const stiffness = firm * beam.stiffness;
    for (let k = 0; k < nodes; k++) {
      this.look(X, k);
      const { nx, ny, bend } = this;
      const p0 = p[k]!;
      const ke = 1 / (this.barrier / (p0 * p0) + 1 / stiffness);
      const p1 = p0 + (this.barrier / p0 - p0 / stiffness - this.gap) * ke;
      yields[k] = ke;
      next[k] = p1;
      normals[2 * k] = nx;
      normals[2 * k + 1] = ny;
      const tx = side * ny;
      const ty = -side * nx;
      const i = 3 * (first + k);
      R[i] = R[i]! + p1 * (nx + drag * tx);
      R[i + 1] = R[i + 1]! + p1 * (ny + drag * ty);
      const rubs = asIfDead ? 0 : drag;
      const fx = nx + rubs * tx;
      const fy = ny + rubs * ty;
      // The normal turns with the place: dn = bend (I - n n') du, and tau with it.
      const q = p0 * bend;
      const turn = side * rubs * q;
      const xx = place(i, i);
      const yx = place(i + 1, i);
      A[xx] = A[xx]! + ke * fx * nx - q * (1 - nx * nx) + turn * nx * ny;
      A[xx + 1] = A[xx + 1]! + ke * fx * ny + q * nx * ny - turn * (1 - ny * ny);
      A[yx] = A[yx]! + ke * fy * nx + q * nx * ny + turn * (1 - nx * nx);
      A[yx + 1] = A[yx + 1]! + ke * fy * ny - q * (1 - ny * ny) - turn * nx * ny;
    }
  }
  follow(beam: Beam, share: number): boolean {
    const { p, next, yields, normals, nodes, first } = this;
    const { R, X, length } = beam;
    const stiffness = firm * beam.stiffness;
    let changing = false;
    for (let k = 0; k < nodes; k++) {
      const i = 3 * (first + k);
      const wanted = next[k]! - yields[k]! * (normals[2 * k]! * R[i]! + normals[2 * k + 1]! * R[i + 1]!);
      const p0 = p[k]!;
      if (wanted < 0.1 * p0) changing = true;
      const now = Math.max(p0 + share * (wanted - p0), 0.1 * p0);
      p[k] = now;
      this.look(X, k);
      if (Math.abs(this.gap - (this.barrier / now - now / stiffness)) > 1e-6 * length) changing = true;
    }
    const least = this.least(beam);
    if (this.barrier > least * 1.0001) changing = true;
    this.barrier = Math.max(least, this.barrier * (share === 1 ? 0.1 : 0.5));
    return changing;
  }
  push(beam: Beam): void {
    const { p, nodes, first, drag, side } = this;
    const { R, X } = beam;
    for (let k = 0; k < nodes; k++) {
      this.look(X, k);
      const i = 3 * (first + k);
      R[i] = R[i]! + p[k]! * (this.nx + drag * side * this.ny);
      R[i + 1] = R[i + 1]! + p[k]! * (this.ny - drag * side * this.nx);
    }
  }
  /** Where it presses: distance from the clamp and force of each node that carries more than its barrier leaves. */
  touches(beam: Beam): Touch[] {
    const out: Touch[] = [];
    const { drag, side } = this;
    for (let k = 0; k < this.nodes; k++) {
      const force = this.p[k]!;
      if (force <= 1e-5 * beam.force) continue;
      this.look(beam.X, k);
      const x = force * (this.nx + drag * side * this.ny);
      const y = force * (this.ny - drag * side * this.nx);
      out.push({ s: (this.first + k) * beam.h, force, x, y });
    }
    return out;
  }
}
/** A flat, whose direction is its normal towards the leaf; or a cylinder with a radius, that moves along its direction. */
export interface Face {
  readonly at: readonly [number, number];
  readonly direction: readonly [number, number];
  readonly radius?: number;
}

/** How much firmer a face is than a pin: a leaf driven onto it near its clamp must not sink in. */
const firm = 100;
