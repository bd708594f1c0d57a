import type { Given } from "../quantity/given.ts";
import { type Model, model, type Quantity } from "../quantity/model.ts";
import type { UnitData } from "../unit/unit-fields.ts";

/** A place along the route: coordinates of the tape's underside in the side view, its direction, its arc length. SI, radians. */
export interface Pose {
  readonly x: number;
  readonly z: number;
  readonly heading: number;
  readonly s: number;
}
/** A straight piece or a bend; turn is positive upwards and the radius is that of the tape's underside. */
export type Piece = { readonly line: number } | { readonly radius: number; readonly turn: number };

/** The pose at the end of a piece that begins at `from`. Exact. */
export function after(from: Pose, piece: Piece): Pose {
  if ("line" in piece)
    return {
      x: from.x + piece.line * Math.cos(from.heading),
      z: from.z + piece.line * Math.sin(from.heading),
      heading: from.heading,
      s: from.s + piece.line,
    };
  const { radius, turn } = piece;
  const side = Math.sign(turn);
  const end = from.heading + turn;
  return {
    x: from.x + side * radius * (Math.sin(end) - Math.sin(from.heading)),
    z: from.z - side * radius * (Math.cos(end) - Math.cos(from.heading)),
    heading: end,
    s: from.s + radius * Math.abs(turn),
  };
}
/** The same piece travelled from its far end. */
export function before(to: Pose, piece: Piece): Pose {
  if ("line" in piece) return after(to, { line: -piece.line });
  const start = to.heading - piece.turn;
  const there = after({ x: 0, z: 0, heading: start, s: 0 }, piece);
  return { x: to.x - there.x, z: to.z - there.z, heading: start, s: to.s - there.s };
}

/** Pieces between two marks, and whether the wanted mark lies downstream of the placed one. */
type RouteData = UnitData["tape"]["route"];
/** The bends of a route, in order. */
export const arcsOf = (route: RouteData) =>
  route.flatMap((p) => (p.arc ? [{ radius: p.arc.radius, turn: p.arc.turn }] : []));
export const markNames = (route: RouteData): string[] => route.flatMap((p) => (p.mark === undefined ? [] : [p.mark]));

/** The pose of a place along the tape, given as its arc length from the placed mark. Kept, so that its identity lasts. */
export function poseAt(tape: Pick<UnitData["tape"], "route" | "place">, s: Quantity): Model<Pose> {
  const known = poses.get(s);
  if (known) return known;
  const placed = tape.route.findIndex((p) => p.mark === tape.place.mark);
  type Drawn = { readonly line: Given } | { readonly radius: Given; readonly turn: Given };
  const piecesOf = (from: number, to: number): readonly Drawn[] =>
    tape.route
      .slice(from, to)
      .flatMap((p): Drawn[] =>
        p.arc ? [{ radius: p.arc.radius, turn: p.arc.turn }] : p.line ? [{ line: p.line }] : [],
      );
  const ahead = piecesOf(Math.max(0, placed), tape.route.length);
  const behind = piecesOf(0, Math.max(0, placed));
  const { x, z, heading } = tape.place;
  const made = model({
    id: "route.pose",
    symbol: "pose",
    unit: "",
    title: "pose of the tape's underside at a place along it",
    equation: "lines and arcs laid end to end from the placed mark",
    form: "solved",
    origin: { cite: "plane geometry of lines and arcs", how: "derived" },
    reads: () => ({ ahead, behind, x, z, heading, s }),
    value: ({ ahead: down, behind: up, x: x0, z: z0, heading: h0, s: wanted }) => {
      let pose: Pose = { x: x0, z: z0, heading: h0, s: x0 };
      const forward = wanted >= pose.s;
      const pieces: readonly Piece[] = forward ? down : [...up].reverse();
      for (const piece of pieces) {
        const next = forward ? after(pose, piece) : before(pose, piece);
        const left = Math.abs(wanted - pose.s);
        const long = Math.abs(next.s - pose.s);
        if (long >= left) {
          const part = long > 0 ? left / long : 0;
          const share: Piece =
            "line" in piece ? { line: piece.line * part } : { radius: piece.radius, turn: piece.turn * part };
          return forward ? after(pose, share) : before(pose, share);
        }
        pose = next;
      }
      // Past the drawn ends the route goes on straight.
      return after(pose, { line: wanted - pose.s });
    },
  });
  poses.set(s, made);
  return made;
}
const poses = new WeakMap<Quantity, Model<Pose>>();

/** x or arc length of a mark, measured from the mark that `place` puts down. Undefined where there is no such mark. */
export function markPosition(
  tape: Pick<UnitData["tape"], "route" | "place">,
  mark: string,
  what: "x" | "route",
): Model | undefined {
  const at = tape.route.findIndex((p) => p.mark === mark);
  const placed = tape.route.findIndex((p) => p.mark === tape.place.mark);
  if (at < 0 || placed < 0) return undefined;
  const between = tape.route.slice(Math.min(at, placed), Math.max(at, placed)).filter((p) => p.mark === undefined);
  const pieces = between.map((p) => (p.arc ? { radius: p.arc.radius, turn: p.arc.turn } : { line: p.line! }));
  const ahead = at > placed;
  const { x, z, heading } = tape.place;
  return model({
    id: `route.${mark}.${what}`,
    symbol: mark,
    unit: "m",
    title: what === "x" ? `x of the mark "${mark}"` : `place of the mark "${mark}" along the tape`,
    equation: what === "x" ? "x_place + sum of the pieces' projections" : "s_place + sum of the pieces' lengths",
    form: "solved",
    origin: { cite: "plane geometry of lines and arcs", how: "derived" },
    reads: () => ({ pieces, x, z, heading }),
    value: ({ pieces: run, x: x0, z: z0, heading: h0 }) => {
      let pose: Pose = { x: x0, z: z0, heading: h0, s: x0 };
      if (ahead) for (const piece of run) pose = after(pose, piece);
      else for (let i = run.length - 1; i >= 0; i--) pose = before(pose, run[i]!);
      return what === "x" ? pose.x : pose.s;
    },
  });
}
