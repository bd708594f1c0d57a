import { place } from "./banded.ts";
import type { Beam, Contact } from "./beam.ts";

/**
 * The leaf's end on a flat: one node, one fixed normal.
 *
 *     G = n.(X - c) >= 0,  p >= 0,  p = -kp G,  force p (n + mu s tau),  moment -mu s p r side
 *
 * n normal of the flat, towards the leaf; tau along the flat towards the tip; mu friction, s +1 where the flat drags the leaf towards its tip,
 * -1 towards its clamp; r from the leaf's middle line to where the nose touches, m; kp 30 EI/h^3, N/m: it yields by a few millionths of the length.
 * The leaf is always sliding: the sense of friction is prescribed.
 */
export class NoseOnFlat implements Contact {
  readonly hasBarrier = false;
  private readonly nx: number;
  private readonly ny: number;
  private readonly fx: number;
  private readonly fy: number;
  private readonly arm: number;
  private readonly from: number;
  private at: number;
  private touches = false;
  private saved = false;

  /** `drag` is mu s; `side` +1 where the flat lies below the leaf, looking along it with +y up. */
  constructor(beam: Beam, normal: readonly [number, number], drag: number, side: 1 | -1, radius: number) {
    [this.nx, this.ny] = normal;
    this.fx = this.nx + drag * side * this.ny;
    this.fy = this.ny - drag * side * this.nx;
    this.arm = drag * side * radius;
    this.from = this.reachOf(beam.stressFree, 3 * beam.n);
    this.at = this.from;
  }
  private reachOf(X: Float64Array, i: number): number {
    return this.nx * X[i]! + this.ny * X[i + 1]!;
  }
  moveTo(stroke: number): void {
    this.at = this.from + stroke;
  }
  begin(): void {}
  /** Force on the flat with the tip where it stands; below 0 where it stands clear. */
  pressure(beam: Beam): number {
    return beam.stiffness * (this.at - this.reachOf(beam.X, 3 * beam.n));
  }
  assemble(beam: Beam, _carried: boolean, asIfDead: boolean): void {
    const p = this.pressure(beam);
    if (p <= 0 && !this.touches) return;
    const i = 3 * beam.n;
    const { A, R, stiffness } = beam;
    R[i] = R[i]! + p * this.fx;
    R[i + 1] = R[i + 1]! + p * this.fy;
    R[i + 2] = R[i + 2]! + p * this.arm;
    const fx = stiffness * (asIfDead ? this.nx : this.fx);
    const fy = stiffness * (asIfDead ? this.ny : this.fy);
    const arm = asIfDead ? 0 : stiffness * this.arm;
    const x = place(i, i);
    const y = place(i + 1, i);
    const turn = place(i + 2, i);
    A[x] = A[x]! + fx * this.nx;
    A[x + 1] = A[x + 1]! + fx * this.ny;
    A[y] = A[y]! + fy * this.nx;
    A[y + 1] = A[y + 1]! + fy * this.ny;
    A[turn] = A[turn]! + arm * this.nx;
    A[turn + 1] = A[turn + 1]! + arm * this.ny;
  }
  follow(beam: Beam): boolean {
    const before = this.touches;
    this.touches = this.pressure(beam) > 0;
    return before !== this.touches;
  }
  push(beam: Beam): void {
    const p = this.pressure(beam);
    if (p <= 0) return;
    const i = 3 * beam.n;
    const { R } = beam;
    R[i] = R[i]! + p * this.fx;
    R[i + 1] = R[i + 1]! + p * this.fy;
    R[i + 2] = R[i + 2]! + p * this.arm;
  }
  save(): void {
    this.saved = this.touches;
  }
  restore(): void {
    this.touches = this.saved;
  }
  forget(): void {
    this.touches = false;
  }
}
