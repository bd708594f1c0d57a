import type { Solved } from "@tapeworthy/core";
import type { RandomLeaf } from "./random-leaf.ts";

/**
 * Is a state that the beam solver found one of a bent leaf? Judged without the solver: the leaf is drawn again from its clamp by the equations of the
 * elastica, with the forces the solver reports and nothing else of it.
 *
 *     x' = (1 + e) cos th - g sin th,  y' = (1 + e) sin th + g cos th,  th' = k0 + M/EI,  M' = Fx y' - Fy x'
 *     e = F.t/EA,  g = 1.2 F.n/GA
 *
 * Runge and Kutta's fourth order, eight steps an element; F jumps by each touch. At the end what a free or guided tip must be; on the way the
 * distance to the nodes the solver gives, to each face where it presses and where it does not, and the direction of each press.
 */
export interface Opinion {
  /** Greatest distance of the drawn line from the solver's nodes, of the length. */
  readonly apart: number;
  /** Force and moment left over at the tip, of the greatest on the leaf. */
  readonly left: number;
  /** How deep a face reaches into the leaf, or how far a pressing face is off it, of the length. */
  readonly gap: number;
  /** How far a press leans off its normal and its friction, of the press. */
  readonly lean: number;
}

export function secondOpinion({ shape, faces, stroke, more }: RandomLeaf, solved: Solved): Opinion {
  const { length: L, thickness: t, E } = shape;
  const n = solved.shape.x.length - 1;
  const per = 8;
  const widthAt = (s: number): number => (typeof shape.width === "function" ? shape.width(s) : shape.width);
  const k0 = (s: number): number => (typeof shape.curvature === "function" ? shape.curvature(s) : 0);
  const touches = solved.faces
    .flatMap((f, i) => f.touches.map((one) => ({ ...one, face: faces[i]! })))
    .sort((a, b) => a.s - b.s);
  let [x, y, th] = [0, 0, 0];
  let M = -solved.root.moment;
  let [Fx, Fy] = [-solved.root.x, -solved.root.y];
  const scale = Math.max(
    Math.hypot(solved.root.x, solved.root.y),
    ...touches.map((o) => o.force),
    Math.abs(solved.root.moment) / L,
    1e-6 * ((E * widthAt(0) * t ** 3) / L / L),
  );
  type State = readonly [number, number, number, number];
  const slope = (s: number, [, , a, m]: State): State => {
    const b = widthAt(s);
    const c = Math.cos(a);
    const si = Math.sin(a);
    const stretch = 1 + (Fx * c + Fy * si) / (E * b * t);
    const slip = ((Fy * c - Fx * si) * 2.4 * (1 + shape.nu)) / (E * b * t);
    const dx = stretch * c - slip * si;
    const dy = stretch * si + slip * c;
    return [dx, dy, k0(s) + (12 * m) / (E * b * t ** 3), Fx * dy - Fy * dx];
  };
  const plus = (a: State, b: State, f: number): State => [
    a[0] + f * b[0],
    a[1] + f * b[1],
    a[2] + f * b[2],
    a[3] + f * b[3],
  ];
  const go = (s: number, to: number): void => {
    const h = to - s;
    if (h <= 0) return;
    const z: State = [x, y, th, M];
    const a = slope(s, z);
    const b = slope(s + h / 2, plus(z, a, h / 2));
    const c = slope(s + h / 2, plus(z, b, h / 2));
    const d = slope(to, plus(z, c, h));
    [x, y, th, M] = z.map((v, i) => v + (h / 6) * (a[i]! + 2 * b[i]! + 2 * c[i]! + d[i]!)) as [
      number,
      number,
      number,
      number,
    ];
  };
  let apart = 0;
  let gap = 0;
  let lean = 0;
  let next = 0;
  let s = 0;
  const place = faces.map((f) => {
    if (f.kind === "nose") throw new Error("a random leaf has no nose");
    if (f.kind === "flat") return [f.at[0] + f.normal[0] * stroke, f.at[1] + f.normal[1] * stroke] as const;
    const l = Math.hypot(f.direction[0], f.direction[1]);
    return [f.at[0] + (f.direction[0] / l) * stroke, f.at[1] + (f.direction[1] / l) * stroke] as const;
  });
  const normalTo = (i: number): { d: number; nx: number; ny: number } => {
    const f = faces[i]!;
    const [cx, cy] = place[i]!;
    if (f.kind === "flat") {
      const [nx, ny] = f.normal;
      return { d: (x - cx) * nx + (y - cy) * ny - t / 2, nx, ny };
    }
    if (f.kind === "nose") throw new Error("a random leaf has no nose");
    const D = Math.hypot(x - cx, y - cy);
    return { d: D - f.radius - t / 2, nx: (x - cx) / D, ny: (y - cy) / D };
  };
  for (let e = 0; e < n; e++)
    for (let i = 1; i <= per; i++) {
      const to = ((e + i / per) / n) * L;
      while (next < touches.length && touches[next]!.s <= to + 1e-12 * L) {
        const touch = touches[next++]!;
        go(s, Math.min(touch.s, to));
        s = Math.max(s, Math.min(touch.s, to));
        const which = faces.indexOf(touch.face);
        const { d, nx, ny } = normalTo(which);
        gap = Math.max(gap, Math.abs(d) / L);
        const { friction = 0 } = touch.face;
        const along = touch.x * nx + touch.y * ny;
        const across = Math.abs(touch.x * ny - touch.y * nx);
        lean = Math.max(lean, Math.abs(across - friction * along) / touch.force, Math.abs(along / touch.force - 1));
        Fx -= touch.x;
        Fy -= touch.y;
      }
      go(s, to);
      s = to;
      for (const [which, f] of faces.entries())
        if (f.kind === "pin" || (f.kind !== "nose" && s >= (f.from ?? 0) + L / n))
          gap = Math.max(gap, -normalTo(which).d / L);
      if (i === per) apart = Math.max(apart, Math.hypot(x - solved.shape.x[e + 1]!, y - solved.shape.y[e + 1]!) / L);
    }
  const { load = {}, end = "free" } = more;
  let left = Math.abs(Fx - (load.x ?? 0));
  if (end === "free") left = Math.max(left, Math.abs(Fy - (load.y ?? 0)), Math.abs(M - (load.moment ?? 0)) / L);
  else apart = Math.max(apart, Math.abs(y - solved.shape.y[n]!) / L, Math.abs(th - solved.shape.angle[n]!));
  return { apart, left: left / scale, gap, lean };
}
