import { power } from "../quantity/power.ts";
import { allPivotsPositive, reach, solveBanded, stride } from "./banded.ts";

/**
 * A plane beam of two-node elements that may turn and bend as far as it likes.
 *
 *     thm = (th1 + th2)/2,  D = th2 - th1
 *     e   = cos thm (x2 - x1)/h + sin thm (y2 - y1)/h - 1 + D^2/24 - D^4/1920    stretch
 *     g   = -sin thm (x2 - x1)/h + cos thm (y2 - y1)/h                  slip angle
 *     k   = D/h - k0                                                    change of curvature
 *     U   = sum of h/2 (EA e^2 + GA* g^2 + EI k^2),   1/GA* = h^2/(12 EI) + 1/(kappa G A)
 *
 * x, y, th place and direction at the nodes, m and rad; h stress-free length of an element, m; k0 its stress-free curvature, 1/m; EA, GA*, EI
 * stiffnesses, N, N, N m^2. The terms in D are the chord of an element bent to an arc, to D^6/322560, so an arc is
 * exact; h^2/(12 EI) is the bending flexibility left inside an element (MacNeal 1978, memory), which
 * makes small deflections exact at the nodes. The error of large turns falls as h^4: 1e-7 of the length at 40 elements and P L^2/EI 10.
 *
 * Newton's iteration with carried stress resultants (mixed integration point: Magisano, Leonetti and Garcea 2017, memory). Each element keeps its forces
 * t = C (strain + B du) as unknowns that follow the linear step; the geometric stiffness takes these and not C strain. It costs the same and
 * needs a tenth of the iterations where the beam is slender. A state counts only when the true residual, with C strain, is below 1e-7 of the
 * greatest force. Strains are small and elastic; the beam does not know that it may touch itself.
 */
export class Beam {
  readonly n: number;
  readonly unknowns: number;
  /** Length of an element. */
  readonly h: number;
  readonly length: number;
  readonly EI: Float64Array;
  readonly EA: Float64Array;
  readonly GA: Float64Array;
  readonly k0: Float64Array;
  /** x, y, th node by node. */
  readonly X: Float64Array;
  readonly stressFree: Float64Array;
  /** Normal force, shear force and moment carried by the elements. */
  readonly T: Float64Array;
  /** Dead loads on the nodes. */
  readonly load: Float64Array;
  /** 1 where an unknown is held at `heldAt`. */
  readonly held: Uint8Array;
  readonly heldAt: Float64Array;
  /** Matrix and right-hand side under assembly; after `balanced` R holds the forces that are not in balance: reactions where held. */
  readonly A: Float64Array;
  readonly R: Float64Array;
  contacts: readonly Contact[] = [];
  /** Force and stiffness against which a residual or a contact is small. */
  force = 0;
  stiffness = 0;
  /** What the rounding of places alone leaves of a residual. */
  private rounding = 0;
  /** Iterations spent since made. */
  iterations = 0;

  // Of each element: cos and sin of its middle angle, stretched share, slip angle, turn, and its three strains.
  private readonly cos: Float64Array;
  private readonly sin: Float64Array;
  private readonly along: Float64Array;
  private readonly slip: Float64Array;
  private readonly turn: Float64Array;
  /** How the chord shortens with the turn: the derivative of its term. */
  private readonly chord: Float64Array;
  readonly strain: Float64Array;
  private readonly b0 = new Float64Array(6);
  private readonly b1 = new Float64Array(6);

  constructor(n: number, length: number, clamp: { x: number; y: number; angle: number }, k0: Float64Array) {
    this.n = n;
    this.unknowns = 3 * (n + 1);
    this.length = length;
    this.h = length / n;
    this.EI = new Float64Array(n);
    this.EA = new Float64Array(n);
    this.GA = new Float64Array(n);
    this.k0 = k0;
    this.X = new Float64Array(this.unknowns);
    this.T = new Float64Array(3 * n);
    this.load = new Float64Array(this.unknowns);
    this.held = new Uint8Array(this.unknowns);
    this.heldAt = new Float64Array(this.unknowns);
    this.A = new Float64Array(stride * this.unknowns);
    this.R = new Float64Array(this.unknowns);
    this.cos = new Float64Array(n);
    this.sin = new Float64Array(n);
    this.along = new Float64Array(n);
    this.slip = new Float64Array(n);
    this.turn = new Float64Array(n);
    this.chord = new Float64Array(n);
    this.strain = new Float64Array(3 * n);
    const { X, h } = this;
    X[0] = clamp.x;
    X[1] = clamp.y;
    X[2] = clamp.angle;
    for (let e = 0; e < n; e++) {
      const i = 3 * e;
      const D = k0[e]! * h;
      const middle = X[i + 2]! + D / 2;
      const chord = Math.abs(D) < 1e-9 ? h : (h * Math.sin(D / 2)) / (D / 2);
      X[i + 3] = X[i]! + chord * Math.cos(middle);
      X[i + 4] = X[i + 1]! + chord * Math.sin(middle);
      X[i + 5] = X[i + 2]! + D;
    }
    this.stressFree = X.slice();
    this.hold(0, X[0]!);
    this.hold(1, X[1]!);
    this.hold(2, X[2]!);
  }

  hold(unknown: number, at: number): void {
    this.held[unknown] = 1;
    this.heldAt[unknown] = at;
  }
  free(unknown: number): void {
    this.held[unknown] = 0;
  }
  /** To be called when stiffnesses have changed. */
  stiffnessesChanged(): void {
    const EI = this.EI.reduce((a, b) => Math.max(a, b), 0);
    this.force = EI / this.length ** 2;
    this.stiffness = (30 * EI) / power(this.h, 3);
    this.rounding = (4 * Number.EPSILON * this.EA.reduce((a, b) => Math.max(a, b), 0) * this.length) / this.h;
  }
  /** Lets the elements carry what their strains say. */
  carryStrains(): void {
    this.measure();
    const { n, T, EA, GA, EI, strain } = this;
    for (let e = 0; e < n; e++) {
      T[3 * e] = EA[e]! * strain[3 * e]!;
      T[3 * e + 1] = GA[e]! * strain[3 * e + 1]!;
      T[3 * e + 2] = EI[e]! * strain[3 * e + 2]!;
    }
  }

  /** Strains of all elements where the nodes stand. */
  private measure(): void {
    const { n, h, X, cos, sin, along, slip, turn, chord, strain, k0 } = this;
    for (let e = 0; e < n; e++) {
      const i = 3 * e;
      const D = X[i + 5]! - X[i + 2]!;
      const middle = 0.5 * (X[i + 2]! + X[i + 5]!);
      const c = Math.cos(middle);
      const s = Math.sin(middle);
      const dx = (X[i + 3]! - X[i]!) / h;
      const dy = (X[i + 4]! - X[i + 1]!) / h;
      const a = c * dx + s * dy;
      const g = -s * dx + c * dy;
      cos[e] = c;
      sin[e] = s;
      along[e] = a;
      slip[e] = g;
      const q = D * D;
      turn[e] = D;
      chord[e] = D * (1 / 12 - q / 480);
      strain[i] = a - 1 + q * (1 / 24 - q / 1920);
      strain[i + 1] = g;
      strain[i + 2] = D / h - k0[e]!;
    }
  }

  /** Takes what the elements resist with from R. */
  private resist(): void {
    const { n, h, R, cos, sin, along, slip, chord, strain, EA, GA, EI } = this;
    for (let e = 0; e < n; e++) {
      const i = 3 * e;
      const N = EA[e]! * strain[i]!;
      const Q = GA[e]! * strain[i + 1]!;
      const M = EI[e]! * strain[i + 2]!;
      const fx = cos[e]! * N - sin[e]! * Q;
      const fy = sin[e]! * N + cos[e]! * Q;
      const common = (h * (slip[e]! * N - along[e]! * Q)) / 2;
      const apart = h * chord[e]! * N + M;
      R[i] = R[i]! + fx;
      R[i + 1] = R[i + 1]! + fy;
      R[i + 2] = R[i + 2]! - common + apart;
      R[i + 3] = R[i + 3]! - fx;
      R[i + 4] = R[i + 4]! - fy;
      R[i + 5] = R[i + 5]! - common - apart;
    }
  }

  /** Adds the elements' stiffness to A: material, and geometric with the carried forces or with those of the strains. */
  private stiffen(carried: boolean): void {
    const { n, h, A, T, cos, sin, along, slip, turn, chord, strain, EA, GA, EI, b0, b1 } = this;
    for (let e = 0; e < n; e++) {
      const i0 = 3 * e;
      const c = cos[e]!;
      const s = sin[e]!;
      const a = along[e]!;
      const g = slip[e]!;
      const D = turn[e]!;
      b0[0] = -c;
      b0[1] = -s;
      b0[2] = h * (g / 2 - chord[e]!);
      b0[3] = c;
      b0[4] = s;
      b0[5] = h * (g / 2 + chord[e]!);
      b1[0] = s;
      b1[1] = -c;
      b1[2] = (-h * a) / 2;
      b1[3] = -s;
      b1[4] = c;
      b1[5] = (-h * a) / 2;
      const ea = EA[e]! / h;
      const ga = GA[e]! / h;
      const bend = EI[e]! / h;
      for (let r = 0; r < 6; r++) {
        const at = stride * (i0 + r) - r + reach;
        const p = ea * b0[r]!;
        const q = ga * b1[r]!;
        for (let k = 0; k < 6; k++) A[at + k] = A[at + k]! + p * b0[k]! + q * b1[k]!;
      }
      const N = carried ? T[i0]! : EA[e]! * strain[i0]!;
      const Q = carried ? T[i0 + 1]! : GA[e]! * strain[i0 + 1]!;
      const turning = (-h * (N * a + Q * g)) / 4;
      const arc = h * N * (1 / 12 - (D * D) / 160);
      const ax = (N * s + Q * c) / 2;
      const ay = (-N * c + Q * s) / 2;
      const r2 = stride * (i0 + 2) - 2 + reach;
      const r5 = stride * (i0 + 5) - 5 + reach;
      A[r2 + 2] = A[r2 + 2]! + turning + arc + bend;
      A[r2 + 5] = A[r2 + 5]! + turning - arc - bend;
      A[r5 + 2] = A[r5 + 2]! + turning - arc - bend;
      A[r5 + 5] = A[r5 + 5]! + turning + arc + bend;
      A[r2] = A[r2]! + ax;
      A[r2 + 1] = A[r2 + 1]! + ay;
      A[r2 + 3] = A[r2 + 3]! - ax;
      A[r2 + 4] = A[r2 + 4]! - ay;
      A[r5] = A[r5]! + ax;
      A[r5 + 1] = A[r5 + 1]! + ay;
      A[r5 + 3] = A[r5 + 3]! - ax;
      A[r5 + 4] = A[r5 + 4]! - ay;
      for (let r = 0; r < 5; r++) {
        if (r === 2) continue;
        const v = r === 0 ? ax : r === 1 ? ay : r === 3 ? -ax : -ay;
        const at = stride * (i0 + r) - r + reach;
        A[at + 2] = A[at + 2]! + v;
        A[at + 5] = A[at + 5]! + v;
      }
    }
  }

  /** Forces not in balance where the nodes stand, in R; true where they are small on every unknown that is not held. */
  balanced(tolerance: number): boolean {
    const { R, held, length, contacts } = this;
    this.measure();
    R.set(this.load);
    this.resist();
    for (const contact of contacts) contact.push(this);
    let greatest = 0;
    let left = 0;
    for (let i = 0; i < this.unknowns; i++) {
      const v = Math.abs(R[i]!) / (i % 3 === 2 ? length : 1);
      if (!(v <= Number.MAX_VALUE)) return false;
      if (v > greatest) greatest = v;
      if (held[i] === 0 && v > left) left = v;
    }
    return left < tolerance * (this.force + greatest) + this.rounding;
  }

  /** The linear equations of one step, at the strains measured last. */
  private assemble(carried: boolean, asIfDead = false): void {
    const { A, R, X, held, heldAt } = this;
    A.fill(0);
    R.set(this.load);
    this.resist();
    this.stiffen(carried);
    for (const contact of this.contacts) contact.assemble(this, carried, asIfDead);
    for (let i = 0; i < this.unknowns; i++)
      if (held[i] === 1) {
        A.fill(0, stride * i, stride * (i + 1));
        A[stride * i + reach] = 1;
        R[i] = heldAt[i]! - X[i]!;
      }
  }

  /**
   * Iterates from where the beam stands to balance. In a state called stable the stiffness resists every displacement (elimination meets positive
   * pivots only; friction counts as a dead load in this). On failure the state is whatever was reached; `drive`
   * restores it.
   */
  solve({
    most = 25,
    carried = true,
    tolerance = 1e-7,
    turnLimit = 0.7,
    cold = true,
  } = {}): "stable" | "unstable" | "failed" {
    const { n, X, T, A, R, h, length, contacts, EA, GA, EI, strain, cos, sin, along, slip, chord } = this;
    for (const contact of contacts) contact.begin(this, cold);
    const faces = contacts.some((c) => c.hasBarrier);
    for (let it = 1; it <= most; it++) {
      this.iterations++;
      this.measure();
      this.assemble(carried);
      if (!solveBanded(A, R, this.unknowns)) return "failed";
      let turned = 0;
      let moved = 0;
      for (let i = 0; i <= n; i++) {
        moved = Math.max(moved, Math.abs(R[3 * i]!), Math.abs(R[3 * i + 1]!));
        turned = Math.max(turned, Math.abs(R[3 * i + 2]!));
      }
      const share = Math.min(1, turned > 0 ? turnLimit / turned : 1, moved > 0 ? (0.5 * length) / moved : 1);
      for (let e = 0; e < n; e++) {
        const i = 3 * e;
        const c = cos[e]! / h;
        const s = sin[e]! / h;
        const dx = R[i + 3]! - R[i]!;
        const dy = R[i + 4]! - R[i + 1]!;
        const sum = R[i + 2]! + R[i + 5]!;
        const dif = R[i + 5]! - R[i + 2]!;
        const e0 = strain[i]! + c * dx + s * dy + (slip[e]! / 2) * sum + chord[e]! * dif;
        const e1 = strain[i + 1]! - s * dx + c * dy - (along[e]! / 2) * sum;
        const e2 = strain[i + 2]! + dif / h;
        T[i] = T[i]! + share * (EA[e]! * e0 - T[i]!);
        T[i + 1] = T[i + 1]! + share * (GA[e]! * e1 - T[i + 1]!);
        T[i + 2] = T[i + 2]! + share * (EI[e]! * e2 - T[i + 2]!);
      }
      for (let i = 0; i < this.unknowns; i++) X[i] = X[i]! + share * R[i]!;
      let changing = false;
      for (const contact of contacts) if (contact.follow(this, share)) changing = true;
      if (share < 1 || turned > 1e-3) continue;
      if (changing && (faces || it <= 5)) continue;
      if (!this.balanced(tolerance)) continue;
      this.assemble(false, true);
      return allPivotsPositive(A, this.unknowns) ? "stable" : "unstable";
    }
    return "failed";
  }
}

/** Something the beam touches. Forces it carries follow the linear step, as the elements' do. */
export interface Contact {
  /** True for a face that pushes before it touches: it decides itself when it has settled. */
  readonly hasBarrier: boolean;
  /** Before an iteration; `cold` where it starts far from where it will end. */
  begin(beam: Beam, cold: boolean): void;
  /** Adds its forces to R and its stiffness to A; `asIfDead` leaves out of A that friction follows the touch, so that A is symmetric. */
  assemble(beam: Beam, carried: boolean, asIfDead: boolean): void;
  /** Takes its forces on by a share of the step that R holds; true while what touches is still changing. */
  follow(beam: Beam, share: number): boolean;
  /** Adds its true forces to R, nothing else. */
  push(beam: Beam): void;
  /** Moves it to a share of its way. */
  moveTo(stroke: number): void;
  save(): void;
  restore(): void;
  forget(): void;
}
/** One place where something touches the leaf. */
export interface Touch {
  /** Distance from the clamp along the leaf, m. */
  readonly s: number;
  /** Along the normal, N. */
  readonly force: number;
  /** Force on the leaf, friction included. */
  readonly x: number;
  readonly y: number;
}
