import type { Given } from "../quantity/given.ts";
import { model, type Quantity } from "../quantity/model.ts";
import { type Course, courseThrough, raised } from "../route/course.ts";
import type { Piece } from "../route/pose.ts";
import type { Across } from "../route/prism.ts";
import { type Sweep, sweepOf } from "../route/ride.ts";
import type { Scene } from "../scene.ts";
import { pocketDrop, pocketLength } from "../tape/pocket.ts";
import type { UnitData } from "../unit/unit-fields.ts";

/**
 * The tape on the reel as it runs through the unit: its underside's course, its pockets riding on it, and what both fill across.
 *
 *     up  = 0             rests on its underside
 *         = T_u - T       rests on its cover side: a thicker tape grows downward
 *         = drop - d      rests on its floors: they lie on the groove's floor
 *     y   0 .. W                                   the flange
 *     y   E_1 + F - B_1/2 .. E_1 + F + B_1/2       the pockets
 *     w   0 .. T + n_f T_1                         faces of the flange above its underside
 *
 * up height of the tape's underside over the drawn route; T, T_u thickness of the served tape and of the one the unit is built for; drop
 * pocket below the underside, d depth of the groove; W, E_1, F, B_1 letters of the served tape; n_f films of T_1 that lie on it; all m.
 * The route is the unit's, everything else the tape's. The tape keeps its sprocket-side edge at y = 0: its play is not in here. The films
 * count along the whole route, though behind the peel line the upper one is gone: 0.06 mm on the safe side.
 */
type RouteData = UnitData["tape"]["route"];
type Drawn = { readonly line: Given } | { readonly radius: Given; readonly turn: Given };
const piecesOf = (route: RouteData): readonly Drawn[] =>
  route.flatMap((p): Drawn[] =>
    p.arc ? [{ radius: p.arc.radius, turn: p.arc.turn }] : p.line ? [{ line: p.line }] : [],
  );
/** What the tape's underside stands above the drawn route: what is added and what is taken off. */
function standing({ unit, tape }: Scene): readonly { readonly over: Quantity; readonly under: Quantity }[] {
  const rests = unit.tape["rests on"];
  if (rests === "cover side" && unit.letters.T) return [{ over: unit.letters.T, under: tape.letters.T }];
  if (rests === "floors" && tape.kind === "embossed")
    return [{ over: pocketDrop, under: unit.tape.section.groove.depth }];
  return [];
}

export const course = model({
  id: "tape.course",
  symbol: "course",
  unit: "",
  title: "course of the served tape's underside",
  equation: "lines and arcs laid end to end through the placed mark, raised by up",
  form: "solved",
  origin: { cite: "plane geometry of lines and arcs", how: "derived" },
  reads: (scene) => {
    const { route, place } = scene.unit.tape;
    const placed = Math.max(
      0,
      route.findIndex((p) => p.mark === place.mark),
    );
    return {
      behind: piecesOf(route.slice(0, placed)),
      ahead: piecesOf(route.slice(placed)),
      x: place.x,
      z: place.z,
      heading: place.heading,
      up: standing(scene),
    };
  },
  value: ({ behind, ahead, x, z, heading, up }): Course => {
    const drawn = courseThrough({ x, z, heading, s: x }, behind as readonly Piece[], ahead as readonly Piece[]);
    const height = up.reduce((sum, { over, under }) => sum + over - under, 0);
    return height === 0 ? drawn : raised(drawn, height);
  },
});
/** The served pocket riding on the course; absent where the tape has none. */
export const pocketSweep = model({
  id: "tape.pocket-sweep",
  symbol: "sweep",
  unit: "",
  title: "the pockets riding along the course as rigid chords",
  equation: "|b(s_b) - a(s_a)| = L",
  form: "solved",
  origin: { cite: "rigid pocket on a chord", how: "derived" },
  reads: ({ tape }) => (tape.kind === "embossed" ? { course, L: pocketLength, drop: pocketDrop } : undefined),
  value: ({ course: along, L, drop }): Sweep => sweepOf(along, { length: L, drop }),
});

/** What the pockets' y, and the flange's faces, are made of. */
export const pocketLetters = ({ tape: { letters } }: Scene) => ({ E_1: letters.E1, F: letters.F, B_1: letters.B1 });
export const flangeLetters = ({ tape }: Scene) => ({
  W: tape.letters.W,
  T: tape.letters.T,
  T_1: tape.letters.T1,
  n_f: tape.films,
});
export const pocketAcross = ({
  E_1,
  F,
  B_1,
}: {
  readonly E_1: number;
  readonly F: number;
  readonly B_1: number;
}): Across => ({
  from: E_1 + F - B_1 / 2,
  to: E_1 + F + B_1 / 2,
});
export const flangeTop = ({
  T,
  T_1,
  n_f,
}: {
  readonly T: number;
  readonly T_1: number;
  readonly n_f: number;
}): number => T + n_f * T_1;
