import { power } from "../quantity/power.ts";
import { momentFactor } from "./anticlastic.ts";
import { Beam, type Contact, type Touch } from "./beam.ts";
import { Driver } from "./drive.ts";
import { NoseOnFlat } from "./nose.ts";
import { Pin } from "./pin.ts";
import { Surface } from "./surface.ts";
import { armsWithin, type Window, windowAmiss } from "./window.ts";

/**
 * A leaf spring and what presses on it: the way into the beam solver. Plain SI numbers; the clamp at (0, 0), the leaf along +x, +y to its left.
 *
 * What comes back is a state that was tested (forces in balance to 1e-7 of the greatest, no face pierced, none that pulls, not one the leaf falls
 * out of), or a word why there is none. Elastic, of small strain, plane: no twist, no weight unless given, no rate.
 */
export interface LeafShape {
  readonly length: number;
  readonly thickness: number;
  /** Outside width; of the distance from the clamp where it tapers. */
  readonly width: number | ((s: number) => number);
  readonly E: number;
  readonly nu: number;
  /** Stress-free curvature, 1/m, + towards +y. */
  readonly curvature?: number | ((s: number) => number);
  readonly window?: Window;
  readonly clamp?: { readonly x: number; readonly y: number; readonly angle: number };
  readonly elements?: number;
  /** strip: between beam and plate, by its width (anticlastic.ts). beam: E t^3 b/12 as it stands. */
  readonly bends?: "strip" | "beam";
  /** Without stretch and shear: the elastica. */
  readonly slender?: boolean;
}
type Vector = readonly [x: number, y: number];
interface Rubbing {
  readonly friction?: number;
  /** Which way the face drags the leaf. */
  readonly slip?: "to tip" | "to clamp";
}
export interface NoseFace extends Rubbing {
  readonly kind: "nose";
  /** Normal of the flat, towards the leaf. */
  readonly normal: Vector;
  /** Middle line of the leaf to where its nose touches, m. */
  readonly radius?: number;
}
export interface PinFace extends Rubbing {
  readonly kind: "pin";
  readonly at: Vector;
  readonly radius: number;
  /** On which side of the leaf it stands, looking along the leaf with +y up. */
  readonly side: "below" | "above";
  readonly direction: Vector;
}
export interface FlatFace extends Rubbing {
  readonly kind: "flat";
  readonly at: Vector;
  readonly normal: Vector;
  /** Distance from the clamp from which on the leaf may touch it. */
  readonly from?: number;
}
export interface CylinderFace extends Rubbing {
  readonly kind: "cylinder";
  readonly at: Vector;
  readonly radius: number;
  readonly side: "below" | "above";
  readonly direction: Vector;
  readonly from?: number;
}
export type Counterface = NoseFace | PinFace | FlatFace | CylinderFace;
/** Dead load at the tip, N and N m; `weight` a dead load along the whole leaf, N/m. */
export interface Load {
  readonly x?: number;
  readonly y?: number;
  readonly moment?: number;
  readonly weight?: Vector;
}
export interface More {
  readonly load?: Load;
  /** guided: the tip keeps its angle and its height and slides along x. level: it keeps its angle alone. */
  readonly end?: "free" | "guided" | "level";
}

export interface FaceForce {
  /** Force of the face on the leaf. */
  readonly x: number;
  readonly y: number;
  /** The part along the face's normals, summed. */
  readonly normal: number;
  readonly touches: readonly Touch[];
}
export interface Solved {
  readonly outcome: "solved";
  readonly stroke: number;
  readonly faces: readonly FaceForce[];
  readonly tip: { readonly x: number; readonly y: number; readonly angle: number };
  /** Of the clamp on the leaf. */
  readonly root: { readonly x: number; readonly y: number; readonly moment: number };
  /** Greatest bending and axial stress, Pa, and where along the leaf, m. */
  readonly stress: number;
  readonly at: number;
  /** Greatest fibre strain t |k|/2 + |e|. */
  readonly strain: number;
  readonly shape: { readonly x: Float64Array; readonly y: Float64Array; readonly angle: Float64Array };
  readonly iterations: number;
  readonly steps: number;
}
export interface NotSolved {
  /** overstrained: a state was found in which the strain is no longer small. */
  readonly outcome: "no equilibrium" | "overstrained" | "not solved";
  readonly because: string;
  /** Stroke up to which states were found. */
  readonly stroke: number;
}
export type Pressed = Solved | NotSolved;

const need = (what: string, v: number, why: string): void => {
  if (!(v > 0 && Number.isFinite(v))) throw new RangeError(`the leaf's ${what} is ${v} ${why}; it must be above 0`);
};
const unit = ([x, y]: Vector): Vector => {
  const l = Math.hypot(x, y);
  if (!(l > 0)) throw new RangeError("a direction without length");
  return [x / l, y / l];
};

export class Leaf {
  private readonly shape: LeafShape;
  private readonly beam: Beam;
  private readonly driver: Driver;
  /** Moment of the strip over that of a beam as wide, element by element. */
  private readonly factor: Float64Array;
  private faces: readonly Counterface[] = [];
  private end: More["end"] = "free";
  private key = "";
  private stroke = 0;
  private carried: Required<Load> = noLoad;
  private broken = false;
  /** Stress-free since its last release. */
  private fresh = true;
  private readonly wraps: boolean;

  /** `wraps`: a pin is taken for a cylinder, which the leaf may lie on along a length. */
  constructor(shape: LeafShape, wraps = false) {
    this.wraps = wraps;
    const { length, thickness, E, nu } = shape;
    need("length", length, "m");
    need("thickness", thickness, "m");
    need("modulus", E, "Pa");
    if (!(nu >= 0 && nu <= 0.5)) throw new RangeError(`Poisson's ratio is ${nu}; it must lie from 0 to 0.5`);
    const n = shape.elements ?? 40;
    if (!(Number.isInteger(n) && n >= 2)) throw new RangeError(`${n} elements; a leaf needs two or more`);
    for (const s of [0, length / 2, length]) {
      const b = widthAt(shape, s);
      need("width", b, "m");
      const amiss = shape.window && windowAmiss(shape.window, length, b);
      if (amiss) throw new RangeError(amiss);
    }
    this.shape = shape;
    const { curvature = 0 } = shape;
    const h = length / n;
    const k0 = Float64Array.from({ length: n }, (_, e) =>
      typeof curvature === "function" ? curvature((e + 0.5) * h) : curvature,
    );
    this.beam = new Beam(n, length, shape.clamp ?? { x: 0, y: 0, angle: 0 }, k0);
    this.factor = new Float64Array(n).fill(1);
    this.stiffen();
    this.driver = new Driver(this.beam);
  }

  /** Stiffnesses of all elements for the curvatures the leaf has now; the greatest relative change of one. */
  private stiffen(): number {
    const { beam, shape, factor } = this;
    const { thickness: t, E, nu, slender = false, bends = "strip" } = shape;
    const { h, n } = beam;
    const samples = typeof shape.width === "number" ? 1 : within;
    let changed = 0;
    for (let e = 0; e < n; e++) {
      const k = (beam.X[3 * e + 5]! - beam.X[3 * e + 2]!) / h;
      // Compliance averaged over the element: a window or a taper may begin within it.
      let bend = 0;
      let stretch = 0;
      let plain = 0;
      const count = (share: number, strips: number, width: number): void => {
        const beamEI = (E * strips * width * power(t, 3)) / 12;
        const stiffer = bends === "beam" ? 1 : momentFactor(width, t, nu, k, beam.k0[e]) / (1 - nu * nu);
        bend += share / (beamEI * stiffer);
        plain += share / beamEI;
        stretch += share / (E * strips * width * t);
      };
      for (let i = 0; i < samples; i++) {
        const s = e + i / samples;
        const [from, to] = armsWithin(s * h, (s + 1 / samples) * h, shape.window);
        const arms = to - from;
        if (arms < 1) count(1 - arms, 1, widthAt(shape, (e + (i + 0.5) / samples) * h));
        if (arms > 0) count(arms, 2, shape.window!.arm);
      }
      const EI = samples / bend;
      const EA = samples / stretch;
      factor[e] = plain / bend;
      changed = Math.max(changed, Math.abs(beam.EI[e]! - EI) / EI);
      beam.EI[e] = EI;
      beam.EA[e] = slender ? EA * 1e4 : EA;
      const shear = slender ? 0 : (2 * (1 + nu) * 1.2) / EA;
      beam.GA[e] = 1 / ((h * h) / (12 * EI) + shear);
    }
    beam.stiffnessesChanged();
    return changed;
  }

  /** Back to the stress-free shape. */
  release(): void {
    const { beam } = this;
    beam.X.set(beam.stressFree);
    beam.T.fill(0);
    beam.load.fill(0);
    for (const c of beam.contacts) {
      c.forget();
      c.moveTo(0);
    }
    this.stroke = 0;
    this.carried = noLoad;
    this.broken = false;
    this.fresh = true;
    this.stiffen();
  }

  /** A dead load at the tip, nothing touching. */
  load(load: Load, end: More["end"] = "free"): Pressed {
    return this.press([], 0, { load, end });
  }

  /**
   * Moves the faces to a stroke, from where they stand if they are the same as the last time, and finds where the leaf comes to rest.
   * Loads grow along with the stroke.
   */
  press(face: Counterface | readonly Counterface[], stroke: number, { load = {}, end = "free" }: More = {}): Pressed {
    if (!Number.isFinite(stroke)) throw new RangeError(`a stroke of ${stroke} m`);
    const faces = Array.isArray(face) ? (face as readonly Counterface[]) : [face as Counterface];
    const pressed = this.pressHere(faces, stroke, load, end);
    if (pressed.outcome === "solved" || pressed.outcome === "overstrained") return pressed;
    for (const [times, wraps] of finer) {
      const other = new Leaf({ ...this.shape, elements: this.beam.n * times }, wraps);
      const found = other.pressHere(faces, stroke, load, end);
      if (found.outcome === "solved" || found.outcome === "overstrained") return found;
    }
    return pressed;
  }
  private pressHere(faces: readonly Counterface[], stroke: number, load: Load, end: More["end"]): Pressed {
    const key = JSON.stringify([faces, end]);
    if (key !== this.key || this.broken) {
      this.key = key;
      this.faces = faces;
      this.end = end;
      this.setUp();
    }
    const from = this.stroke;
    const warm = !this.fresh;
    this.fresh = false;
    const to = { ...noLoad, ...load };
    const start = this.beam.iterations;
    let driven = this.go(from, stroke, this.carried, to, 1, warm);
    if (!driven.arrived) {
      // Again from the stress-free shape in small steps: a great one may have passed a fold.
      this.release();
      driven = this.go(0, stroke, noLoad, to, 1 / 16, false);
    }
    const reached = driven.at;
    if (!driven.arrived) {
      this.broken = true;
      return this.refused(reached, driven.unstable, driven.share);
    }
    this.stroke = stroke;
    this.carried = to;
    const told = this.told(stroke, this.beam.iterations - start, driven.steps);
    const amiss = this.strained(told) ?? this.amiss();
    if (!amiss) return told;
    this.broken = true;
    return { ...amiss, stroke: reached };
  }

  /** Stroke at which a face presses with a force, m; undefined where none does up to the leaf's length. */
  strokeFor(face: Counterface, force: number): number | undefined {
    const pressed = this.pressWith(face, force);
    return pressed.outcome === "solved" ? pressed.stroke : undefined;
  }

  /** Presses a face on with a force; the stroke comes back with the state. A nose takes one solution, the others a search over the stroke. */
  pressWith(face: Counterface, force: number): Pressed {
    if (!(force >= 0 && Number.isFinite(force))) throw new RangeError(`a force of ${force} N`);
    if (face.kind === "nose") return this.noseWith(face, force);
    const { length } = this.shape;
    const at = (stroke: number): Pressed => this.press(face, stroke);
    const pushing = (p: Pressed): number => (p.outcome === "solved" ? p.faces[0]!.normal : Number.NaN);
    let low = 0;
    let high = length / 64;
    let pressed = at(high);
    while (pushing(pressed) < force && high < length) {
      low = high;
      high *= 1.5;
      pressed = at(high);
    }
    if (!(pushing(pressed) >= force)) {
      if (pressed.outcome !== "solved") return pressed;
      return { outcome: "no equilibrium", because: `the face never presses with ${force} N`, stroke: high };
    }
    for (let again = 0; again < 60 && high - low > 1e-9 * length; again++) {
      const middle = (low + high) / 2;
      pressed = at(middle);
      if (pressed.outcome !== "solved") return pressed;
      if (pushing(pressed) < force) low = middle;
      else high = middle;
    }
    return at(high);
  }
  private noseWith(face: NoseFace, force: number): Pressed {
    const { normal, drag, side } = sliding(face, this.direction());
    const x = force * (normal[0] + drag * side * normal[1]);
    const y = force * (normal[1] - drag * side * normal[0]);
    const moment = force * drag * side * (face.radius ?? 0);
    const pressed = this.load({ x, y, moment });
    if (pressed.outcome !== "solved") return pressed;
    const { stressFree, n } = this.beam;
    const stroke =
      normal[0] * (pressed.tip.x - stressFree[3 * n]!) + normal[1] * (pressed.tip.y - stressFree[3 * n + 1]!);
    const touches = force > 0 ? [{ s: this.shape.length, force, x, y }] : [];
    return { ...pressed, stroke, faces: [{ x, y, normal: force, touches }] };
  }

  private direction(): number {
    return this.shape.clamp?.angle ?? 0;
  }
  private setUp(): void {
    const { beam, shape, end } = this;
    beam.contacts = this.faces.map((face) => this.contactOf(face));
    const tip = 3 * beam.n;
    if (end === "free" || end === "level") beam.free(tip + 1);
    else beam.hold(tip + 1, beam.stressFree[tip + 1]!);
    if (end === "free") beam.free(tip + 2);
    else beam.hold(tip + 2, beam.stressFree[tip + 2]!);
    if (shape.thickness > shape.length / 2)
      throw new RangeError(`a leaf ${shape.thickness} m thick and ${shape.length} m long is no leaf`);
    this.release();
  }
  private contactOf(face: Counterface): Contact {
    const { beam, shape } = this;
    const { normal, drag, side } = sliding(face, this.direction());
    const half = shape.thickness / 2;
    if (face.kind === "nose") return new NoseOnFlat(beam, normal, drag, side, face.radius ?? 0);
    if (face.kind === "pin") need("pin's radius", face.radius, "m");
    if (face.kind === "pin" && !this.wraps)
      return new Pin(beam, face.at, face.direction, face.radius + half, side, drag, this.end === "free");
    const from = face.kind === "pin" ? 0 : (face.from ?? 0);
    const first = Math.max(1, Math.ceil((from / shape.length) * beam.n));
    if (face.kind === "flat") return new Surface(beam, { at: face.at, direction: normal }, half, side, drag, first);
    need("cylinder's radius", face.radius, "m");
    const { at, radius } = face;
    return new Surface(beam, { at, radius, direction: unit(face.direction) }, half, side, drag, first);
  }
  private setLoad(from: Required<Load>, to: Required<Load>, share: number): void {
    const { beam } = this;
    const { n, h } = beam;
    const mixed = (a: number, b: number): number => a + share * (b - a);
    const wx = mixed(from.weight[0], to.weight[0]) * h;
    const wy = mixed(from.weight[1], to.weight[1]) * h;
    for (let i = 0; i <= n; i++) {
      const part = i === 0 || i === n ? 0.5 : 1;
      beam.load[3 * i] = part * wx;
      beam.load[3 * i + 1] = part * wy;
    }
    // Between its ends an element bends under its own weight: end moments h^2/12 of the weight across it, as its direction is now.
    for (let e = 0; e < n; e++) {
      const i = 3 * e;
      const across = beam.X[i + 3]! - beam.X[i]!;
      const up = beam.X[i + 4]! - beam.X[i + 1]!;
      const m = (across * wy - up * wx) / 12;
      beam.load[i + 2] = (e === 0 ? 0 : beam.load[i + 2]!) + m;
      beam.load[i + 5] = -m;
    }
    beam.load[3 * n] = beam.load[3 * n]! + mixed(from.x, to.x);
    beam.load[3 * n + 1] = beam.load[3 * n + 1]! + mixed(from.y, to.y);
    beam.load[3 * n + 2] = beam.load[3 * n + 2]! + mixed(from.moment, to.moment);
  }
  /** Along the way, then again while the strip's stiffness still changes with what it found. */
  private go(from: number, to: number, load: Required<Load>, loadTo: Required<Load>, first: number, warm: boolean) {
    const set = (share: number): void => {
      for (const c of this.beam.contacts) c.moveTo(from + share * (to - from));
      this.setLoad(load, loadTo, share);
    };
    const driven = this.driver.run(set, first, warm);
    let { arrived, unstable } = driven;
    const heavy = loadTo.weight[0] !== 0 || loadTo.weight[1] !== 0;
    for (let pass = 0; arrived && heavy && pass < 3; pass++) arrived = this.driver.run(set, 1, true).arrived;
    for (let pass = 0; arrived && this.shape.bends !== "beam" && pass < 8; pass++) {
      if (this.stiffen() < 1e-5) break;
      const again = this.driver.run(set, 1, true);
      arrived = again.arrived;
      unstable = again.unstable;
    }
    return { ...driven, arrived, unstable, at: from + driven.share * (to - from) };
  }

  private strained({ strain }: Solved): Omit<NotSolved, "stroke"> | undefined {
    if (strain <= smallStrain) return undefined;
    const because = `the leaf would be strained by ${(100 * strain).toFixed(0)} %, and the equations end at ${100 * smallStrain} %`;
    return { outcome: "overstrained", because };
  }
  /** What contradicts a state that is in balance: an element bent further than it can follow, a face passed without a touch, or pierced between two places that are looked at. */
  private amiss(): Omit<NotSolved, "stroke"> | undefined {
    const { beam } = this;
    const { X, n, length } = beam;
    for (let e = 0; e < n; e++)
      if (Math.abs(X[3 * e + 5]! - X[3 * e + 2]!) > elementTurn)
        return { outcome: "not solved", because: `${n} elements are too few for how sharply the leaf bends` };
    for (const [c, contact] of beam.contacts.entries()) {
      const face = this.faces[c]!;
      if (face.kind !== "pin" && face.kind !== "cylinder") continue;
      const off = face.radius + this.shape.thickness / 2;
      const way = unit(face.direction);
      const cx = face.at[0] + way[0] * this.stroke;
      const cy = face.at[1] + way[1] * this.stroke;
      let least = Number.POSITIVE_INFINITY;
      let where = 0;
      for (let e = contact instanceof Surface ? contact.first : 0; e < n; e++) {
        const i = 3 * e;
        const ux = X[i + 3]! - X[i]!;
        const uy = X[i + 4]! - X[i + 1]!;
        const along = ((cx - X[i]!) * ux + (cy - X[i + 1]!) * uy) / (ux * ux + uy * uy);
        const s = Math.min(1, Math.max(0, along));
        const d = Math.hypot(X[i]! + s * ux - cx, X[i + 1]! + s * uy - cy);
        if (d < least) {
          least = d;
          where = e + s;
        }
      }
      const touches = (contact as Pin | Surface).touches(beam);
      // A chord of an element cuts inside its own arc by up to h^2 |k|/8.
      const room = (beam.h * beam.h) / (8 * off) + 1e-3 * length;
      if (least < off - room) return { outcome: "not solved", because: `the ${face.kind} stands inside the leaf` };
      if (touches.length > 0) continue;
      const e = Math.min(n - 1, Math.floor(where));
      const i = 3 * e;
      const side = face.side === "below" ? 1 : -1;
      const cross = (X[i + 3]! - X[i]!) * (cy - X[i + 1]!) - (X[i + 4]! - X[i + 1]!) * (cx - X[i]!);
      if (cross * side > 0)
        return { outcome: "no equilibrium", because: `the tip slid off the ${face.kind}, which passed the leaf` };
    }
    return undefined;
  }
  private refused(stroke: number, unstable: boolean, share: number): NotSolved {
    const { beam } = this;
    for (const [c, contact] of beam.contacts.entries()) {
      if (!(contact instanceof Pin)) continue;
      const last = contact.touches(beam).at(-1);
      if (last && (last.atTip || last.s > 0.98 * beam.length))
        return { outcome: "no equilibrium", because: `the tip slid off the ${this.faces[c]!.kind}`, stroke };
    }
    if (unstable)
      return { outcome: "no equilibrium", because: "the leaf snaps through: no state near the last one holds", stroke };
    return {
      outcome: "not solved",
      because: `no state was found beyond ${(100 * share).toFixed(1)} % of the way`,
      stroke,
    };
  }

  private told(stroke: number, iterations: number, steps: number): Solved {
    const { beam, factor, shape } = this;
    const { n, h, X, R, strain } = beam;
    const { thickness: t, E } = shape;
    beam.balanced(1);
    const root = { x: -R[0]!, y: -R[1]!, moment: -R[2]! };
    let stress = 0;
    let most = 0;
    let at = 0;
    for (let e = 0; e < n; e++) {
      const M = beam.EI[e]! * strain[3 * e + 2]!;
      const half = (beam.GA[e]! * strain[3 * e + 1]! * h) / 2;
      const axial = shape.slender ? 0 : Math.abs(strain[3 * e]!);
      for (const end of [0, 1] as const) {
        // The moment falls along an element by its shear force.
        const k = Math.abs(M + (end === 0 ? half : -half)) / beam.EI[e]!;
        most = Math.max(most, (t * k) / 2 + axial);
        const here = E * ((factor[e]! * t * k) / 2 + axial);
        if (here > stress) {
          stress = here;
          at = (e + end) * h;
        }
      }
      const arms = armsWithin(e * h, (e + 1) * h, shape.window);
      if (arms[1] - arms[0] === 0 || arms[1] - arms[0] === 1) continue;
      // Arms that end within an element bear its moment there alone.
      for (const place of arms) {
        const bending = (6 * Math.abs(M + half * (1 - 2 * place))) / (2 * shape.window!.arm * t ** 2);
        most = Math.max(most, bending / E + axial);
        if (bending + E * axial > stress) {
          stress = bending + E * axial;
          at = (e + place) * h;
        }
      }
    }
    const nodes = (which: 0 | 1 | 2): Float64Array => Float64Array.from({ length: n + 1 }, (_, i) => X[3 * i + which]!);
    return {
      outcome: "solved",
      stroke,
      faces: beam.contacts.map((contact, c) => this.forceOf(contact, this.faces[c]!)),
      tip: { x: X[3 * n]!, y: X[3 * n + 1]!, angle: X[3 * n + 2]! },
      root,
      stress,
      at,
      strain: most,
      shape: { x: nodes(0), y: nodes(1), angle: nodes(2) },
      iterations,
      steps,
    };
  }
  private forceOf(contact: Contact, face: Counterface): FaceForce {
    const { beam } = this;
    const { R, n } = beam;
    R.fill(0);
    contact.push(beam);
    let x = 0;
    let y = 0;
    for (let i = 0; i <= n; i++) {
      x += R[3 * i]!;
      y += R[3 * i + 1]!;
    }
    if (face.kind === "nose") {
      const normal = Math.max(0, (contact as NoseOnFlat).pressure(beam));
      return { x, y, normal, touches: normal > 0 ? [{ s: beam.length, force: normal, x, y }] : [] };
    }
    const touches = (contact as Pin | Surface).touches(beam);
    const normal = touches.reduce((sum, one) => sum + one.force, 0);
    return { x, y, normal, touches };
  }
}

/** Strain up to which stress and strain are taken to be proportional; steel strip yields below 1 %, plastics below 5 %. */
const smallStrain = 0.05;
/** Turn of an element, rad, up to which its error stays below about 1e-3. */
const elementTurn = 0.35;
/** What is tried where no state was found: more elements, and pins as cylinders. */
const finer = [
  [2, false],
  [4, true],
  [8, true],
] as const;
/** Places within an element at which its width is looked at. */
const within = 8;
const noLoad: Required<Load> = { x: 0, y: 0, moment: 0, weight: [0, 0] };
const widthAt = ({ width }: LeafShape, s: number): number => (typeof width === "function" ? width(s) : width);

/** Normal, friction with its sense (+ drags the leaf to its tip) and side (+1 below) of a face. */
function sliding(face: Counterface, angle: number): { normal: Vector; drag: number; side: 1 | -1 } {
  const { friction = 0, slip = "to tip" } = face;
  if (!(friction >= 0 && Number.isFinite(friction))) throw new RangeError(`a friction of ${friction}`);
  const drag = slip === "to tip" ? friction : -friction;
  if (face.kind === "pin" || face.kind === "cylinder")
    return { normal: [0, 0], drag, side: face.side === "below" ? 1 : -1 };
  const normal = unit(face.normal);
  return { normal, drag, side: Math.cos(angle) * normal[1] - Math.sin(angle) * normal[0] >= 0 ? 1 : -1 };
}
