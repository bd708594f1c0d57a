/**
 * A trial piece: what of the unit a question needs, cut out in the side view.
 *
 * Kept are the station of the check, and every station whose numbers the check reads. Nothing that no kept member stands in is kept. The cut is the convex hull of what is
 * kept, each grown by a margin: good to see what stays and to say how large it is, not a part to print. Mass and time of a part that is cut through
 * count by the share of its bodies' area within the cut; where no body bears its name, by the share of the route's length that is kept (rough: walls are not even).
 */
import { plainAddress } from "../card/card.ts";
import { bodiesOf } from "../clearance/body.ts";
import type { Check, Station } from "../quantity/check.ts";
import { stations } from "../quantity/check.ts";
import type { Given } from "../quantity/given.ts";
import type { Model, Quantity } from "../quantity/model.ts";
import { cut, doubleArea, type Part } from "../route/convex.ts";
import type { Outline, Point } from "../route/outline.ts";
import { type Pose, poseAt } from "../route/pose.ts";
import type { Prism } from "../route/prism.ts";
import type { Scene } from "../scene.ts";
import { Cell } from "../study/cell.ts";
import { asWritten, Realiser } from "../study/realise.ts";

export type Turned = "nothing turns" | "a hand crank" | "its own motor";
export interface KeptPart {
  readonly name: string;
  /** Share of it that is kept. */
  readonly share: number;
  /** kg and s, of what is kept; absent where the file gives none. */
  readonly mass?: number;
  readonly time?: number;
}
export interface TrialPiece {
  readonly check: string;
  readonly station: Station;
  readonly kept: readonly Station[];
  readonly left: readonly Station[];
  readonly turned: Turned;
  /** Corners of the cut in the side view, anticlockwise, m; x along the travel, z towards the cover film. */
  readonly outline: readonly Point[];
  readonly bodies: readonly string[];
  readonly parts: readonly KeptPart[];
  /** Sums of what the file gives; null where it gives none. */
  readonly mass: number | null;
  readonly time: number | null;
}

/** Which station a member of a unit's file belongs to. */
const members: readonly (readonly [start: string, station: Station])[] = [
  ["unit/reel", 1],
  ["unit/tape.opening", 5],
  ["unit/tape.exit", 6],
  ["unit/tape.route", 2],
  ["unit/tape.section", 2],
  ["unit/hold-down", 3],
  ["unit/film", 4],
  ["unit/sprocket", 6],
  ["unit/nip", 7],
  ["unit/peel drive", 8],
  ["unit/feed drive", 8],
  ["unit/index", 8],
  ["unit/supply", 9],
];
const stationAt = (address: string): Station | undefined => {
  const plain = plainAddress(address);
  return members.find(([start]) => plain === start || plain.startsWith(`${start}.`))?.[1];
};
/** Which station a body belongs to, by the names a maker gives; undefined for what holds the rest together. */
const named: readonly (readonly [RegExp, Station])[] = [
  [/board|supply|connector/, 9],
  [/motor|worm|gear|drive/, 8],
  [/nip|roller/, 7],
  [/sprocket|wheel/, 6],
  [/leaf|hold/, 3],
  [/reel|arm/, 1],
];
const bodyStation = (words: string): Station | undefined => named.find(([word]) => word.test(words))?.[1];

/** Around what is kept, m. */
const margin = 4e-3;

/** The piece that a check needs; undefined where it does not apply to the scene. */
export function trialPiece(scene: Scene, check: Check): TrialPiece | undefined {
  const { unit } = scene;
  const cell = new Cell(scene, [check]);
  if (cell.checks.length === 0) return undefined;
  const own =
    unit.givens.size > 0
      ? [...unit.givens.values()].filter((g) => cell.readsGiven(g)).map((g) => g.address)
      : [...cell.addresses];
  const has = hasStations(scene);
  const kept = new Set<Station>([check.station]);
  for (const address of own) {
    const station = stationAt(address);
    if (station !== undefined && has.has(station)) kept.add(station);
  }
  // What is judged on the tape's own way needs no drive: a hand turns it.
  const drives = check.station >= 8;
  if (!drives) for (const s of [8, 9] as const) kept.delete(s);
  const turned: Turned =
    drives || readsSpeed(own) ? "its own motor" : kept.has(6) || kept.has(7) ? "a hand crank" : "nothing turns";
  if (turned === "its own motor") kept.add(8);

  const places = placesOf(scene);
  const bodies = bodiesOf(unit).filter((b) => !b.keepOut);
  const solids = new Map(bodies.map((b) => [b.name, places.solid(b.solid)]));
  const mine = bodies.filter((b) => {
    const station = bodyStation(`${b.part ?? ""} ${b.name}`);
    return station !== undefined && kept.has(station);
  });
  const rounds: Round[] = [...kept].flatMap((s) => places.of(s));
  for (const b of mine) rounds.push(...corners(solids.get(b.name)!.outline));
  const outline = hull(rounds.map((r) => ({ ...r, r: r.r + margin })));
  const held = bodies.filter((b) => mine.includes(b) || bodyStation(`${b.part ?? ""} ${b.name}`) === undefined);
  const parts = partsOf(
    scene,
    kept,
    (name) =>
      shareIn(
        outline,
        bodies.filter((b) => b.part === name).map((b) => solids.get(b.name)!.outline),
      ) ?? places.shareOfRoute(outline),
    places.number,
  );
  const sum = (of: "mass" | "time"): number | null => {
    const known = parts.flatMap((p) => p[of] ?? []);
    return known.length > 0 ? known.reduce((a, b) => a + b, 0) : null;
  };
  const all = (Object.keys(stations).map(Number) as Station[]).filter((s) => has.has(s) || kept.has(s));
  return {
    check: check.id,
    station: check.station,
    kept: all.filter((s) => kept.has(s)),
    left: all.filter((s) => !kept.has(s)),
    turned,
    outline,
    bodies: held.filter((b) => (shareIn(outline, [solids.get(b.name)!.outline]) ?? 0) > 0).map((b) => b.name),
    parts,
    mass: sum("mass"),
    time: sum("time"),
  };
}
/** What only a motor does: the way an index starts and stops. */
const readsSpeed = (addresses: readonly string[]): boolean =>
  addresses.some((a) => /^unit\/(index|feed drive)\b/.test(plainAddress(a)));

function hasStations({ unit }: Scene): ReadonlySet<Station> {
  const out = new Set<Station>([2, 5]);
  if (unit.reel) out.add(1);
  if (unit["hold-down"]) out.add(3);
  if (unit.film.peel ?? unit.film.opener ?? unit.film.guides) out.add(4);
  if (unit.sprocket) out.add(6);
  if (unit.nip) out.add(7);
  if (unit["peel drive"] ?? unit["feed drive"] ?? unit.index) out.add(8);
  if (unit.supply) out.add(9);
  return out;
}

/** A circle in the side view, m; a corner where r is 0. */
interface Round extends Point {
  readonly r: number;
}
/** Where the members stand, every number as written. */
function placesOf(scene: Scene) {
  const { unit } = scene;
  const { film, nip, sprocket } = unit;
  const hold = unit["hold-down"];
  const pick = unit.tape.place.x;
  const poses = new Map<string, Model<Pose>>(
    (
      [
        ["peel", film.peel?.at],
        ["hold", hold?.at],
        ["wheel", sprocket?.at],
        ["pick", pick],
      ] as const
    ).flatMap(([name, s]) => (s ? [[name, poseAt(unit.tape, s)] as const] : [])),
  );
  const guides = film.guides ?? [];
  const radius = nip?.rollers?.radius;
  const numbers: Quantity[] = [
    ...guides.flatMap((g) => [g.through[0], g.through[2], g.radius]),
    ...(nip?.axis ?? []),
    ...(radius === undefined ? [] : [radius].flat()),
    ...(sprocket ? [sprocket["axis below tape"], sprocket.tooth["height above tape"]] : []),
    ...unit.tape.route.flatMap((p) => (p.line ? [p.line] : p.arc ? [p.arc.radius, p.arc.turn] : [])),
    ...(unit.tape.opening ? [unit.tape.opening.x] : []),
    ...Object.values(unit.make ?? {}).flatMap((m) => [m.mass, m.time]),
  ] as Quantity[];
  const bodies = bodiesOf(unit);
  const run = new Realiser(scene, [
    ...numbers,
    pick,
    ...[...poses.values(), ...bodies.map((b) => b.solid)].map((m) => m as unknown as Quantity),
  ]).run(asWritten);
  const number = (q: Quantity): number => run.number(q);
  const raw = <T>(q: unknown): T => {
    const c = run.column(q as Quantity) as unknown;
    return (Array.isArray(c) ? c[0] : c) as T;
  };
  const pose = (name: string): Pose | undefined => {
    const model = poses.get(name);
    return model && raw<Pose>(model);
  };
  const behind = lengthBehind(scene, number);
  const onRoute = (name: string, ahead: number, back: number): Round[] => {
    const p = pose(name);
    if (!p) return [];
    const at = (d: number): Round => ({ x: p.x + d * Math.cos(p.heading), z: p.z + d * Math.sin(p.heading), r: 0 });
    return [at(-back), at(ahead)];
  };
  const of = (station: Station): Round[] => {
    switch (station) {
      case 1: {
        const p = pose("pick");
        return p ? [{ x: p.x - behind * Math.cos(p.heading), z: p.z - behind * Math.sin(p.heading), r: 0 }] : [];
      }
      case 2:
        return [...onRoute("pick", 10e-3, 10e-3), ...onRoute("peel", 0, 20e-3)];
      case 3:
        return onRoute("hold", 8e-3, 12e-3);
      case 4:
        return [
          ...onRoute("peel", 0, 20e-3),
          ...guides.map((g) => ({
            x: number(g.through[0]),
            z: number(g.through[2]),
            r: g.radius ? number(g.radius) : 0,
          })),
        ];
      case 5: {
        const half = unit.tape.opening ? number(unit.tape.opening.x) / 2 + 4e-3 : 10e-3;
        return onRoute("pick", half, half);
      }
      case 6: {
        const p = pose("wheel");
        if (!p || !sprocket) return [];
        const below = number(sprocket["axis below tape"]);
        const r = below + number(sprocket.tooth["height above tape"]);
        return [{ x: p.x + below * Math.sin(p.heading), z: p.z - below * Math.cos(p.heading), r }];
      }
      case 7: {
        if (!nip?.axis) return [];
        const [x, z] = [number(nip.axis[0]), number(nip.axis[1])];
        const [lower, upper = lower] = (radius === undefined ? [] : [radius].flat()).map(number);
        const [a, b] = [lower ?? 5e-3, upper ?? 5e-3];
        return [
          { x, z: z + b, r: b },
          { x, z: z - a, r: a },
        ];
      }
      default:
        return [];
    }
  };
  return {
    number,
    of,
    solid: (q: unknown): Prism => raw<Prism>(q),
    /** Share of the route's run along x that lies within the cut. */
    shareOfRoute: (outline: readonly Point[]): number => {
      const total = unit.tape.route.reduce(
        (s, p) => s + (p.line ? number(p.line) : p.arc ? number(p.arc.radius) * Math.abs(number(p.arc.turn)) : 0),
        0,
      );
      const x = outline.map((p) => p.x);
      return total > 0 ? Math.min(1, (Math.max(...x) - Math.min(...x)) / total) : 1;
    },
  };
}
/** Length of the route before the mark that is placed. */
function lengthBehind({ unit }: Scene, number: (q: Quantity) => number): number {
  const at = unit.tape.route.findIndex((p) => p.mark === unit.tape.place.mark);
  return unit.tape.route
    .slice(0, Math.max(0, at))
    .reduce(
      (s, p) => s + (p.line ? number(p.line) : p.arc ? number(p.arc.radius) * Math.abs(number(p.arc.turn)) : 0),
      0,
    );
}

const corners = ({ parts, round }: Outline): Round[] =>
  parts.flatMap((part) =>
    Array.from({ length: part.length / 2 }, (_, i) => ({ x: part[2 * i]!, z: part[2 * i + 1]!, r: round })),
  );
const sides = 16;
/** Convex hull of circles as sixteen-sided polygons that hold them (Andrew 1979; textbook), anticlockwise. */
export function hull(rounds: readonly Round[]): Point[] {
  const out = 1 / Math.cos(Math.PI / sides);
  const points = rounds
    .flatMap(({ x, z, r }) =>
      Array.from({ length: r > 0 ? sides : 1 }, (_, i) => {
        const angle = ((i + 0.5) / sides) * 2 * Math.PI;
        return { x: x + out * r * Math.cos(angle), z: z + out * r * Math.sin(angle) };
      }),
    )
    .sort((a, b) => a.x - b.x || a.z - b.z);
  const half = (list: readonly Point[]): Point[] => {
    const run: Point[] = [];
    for (const p of list) {
      while (run.length >= 2) {
        const [a, b] = [run.at(-2)!, run.at(-1)!];
        if ((b.x - a.x) * (p.z - a.z) - (b.z - a.z) * (p.x - a.x) > 0) break;
        run.pop();
      }
      run.push(p);
    }
    return run.slice(0, -1);
  };
  return points.length < 2 ? points : [...half(points), ...half([...points].reverse())];
}
/** Share of the outlines' area that lies within a convex cut; undefined where they have none. */
export function shareIn(hullOf: readonly Point[], outlines: readonly Outline[]): number | undefined {
  let [inside, all] = [0, 0];
  for (const outline of outlines)
    for (const part of outline.round > 0 ? [ring(hull(corners(outline)))] : outline.parts) {
      all += Math.abs(doubleArea(part));
      let left: Part = part;
      for (let i = 0; i < hullOf.length && left.length > 0; i++) {
        const [a, b] = [hullOf[i]!, hullOf[(i + 1) % hullOf.length]!];
        const [nx, nz] = [b.z - a.z, a.x - b.x];
        left = cut(left, nx, nz, nx * a.x + nz * a.z);
      }
      inside += left.length >= 6 ? Math.abs(doubleArea(left)) : 0;
    }
  return all > 0 ? inside / all : undefined;
}
const ring = (points: readonly Point[]): Part => points.flatMap(({ x, z }) => [x, z]);

/** The made parts of the unit of which something is kept. */
function partsOf(
  { unit }: Scene,
  kept: ReadonlySet<Station>,
  shareOf: (name: string) => number,
  number: (q: Quantity) => number,
): KeptPart[] {
  return Object.entries(unit.make ?? {}).flatMap(([name, { mass, time }]) => {
    const station = bodyStation(name);
    const share = station === undefined ? shareOf(name) : kept.has(station) ? 1 : 0;
    if (!(share > 0)) return [];
    return [{ name, share, mass: share * number(mass as Given), time: share * number(time as Given) }];
  });
}
