import type { Check } from "../quantity/check.ts";
import type { Given } from "../quantity/given.ts";
import { believing, endsOfGuess } from "../quantity/law.ts";
import { shownUnit } from "../quantity/show.ts";
import type { Scene } from "../scene.ts";
import { decide } from "../study/allowance.ts";
import { beliefColumn, beliefDraws, Cell, type Standing } from "../study/cell.ts";
import type { Deviates } from "../study/deviates.ts";
import { type BeliefPoints, beliefPoints } from "../study/points.ts";
import { rootBetween } from "../study/root.ts";
import { movedBy } from "./cure.ts";
import { leversOf } from "./levers.ts";

/**
 * One check along one number: the room to its bound at the median and the 5 and 95 % points of belief.
 *
 *     room(x) = g(u, x) - (g(u, drawn) - deciding gap(u)),  u one of 200 belief draws
 *
 * g  gap as written. What scatter takes is held as it is where the unit is drawn: near there the room is the deciding gap, farther away it is
 * off by as much as the scatter grows.
 */
export interface SweepInput {
  /** A lever of the unit ("plover/part nip, x" for several numbers that go together), or an unknown. */
  readonly address: string;
  readonly kind: "lever" | "unknown";
  readonly members: readonly string[];
  /** Where it stands as drawn; of an unknown the median. SI. */
  readonly drawn: number;
  /** Ends of the sweep, SI. */
  readonly from: number;
  readonly to: number;
  readonly unit: string;
  readonly shownIn: string;
}
export interface SweepPoint {
  /** Value of the number, SI. */
  readonly at: number;
  readonly room: BeliefPoints;
}
export interface CheckSweep {
  readonly check: string;
  /** Coherent unit of the room, and the one it is read in. */
  readonly unit: string;
  readonly shownIn: string;
  readonly along: SweepInput;
  readonly points: readonly SweepPoint[];
  /** The same at other values of a second number; the middle one is as drawn. */
  readonly family?: {
    readonly along: SweepInput;
    readonly curves: readonly { readonly at: number; readonly points: readonly SweepPoint[] }[];
  };
}

const steps = 24;
const draws = 200;
/** Shares of a lever's bounds at which a turn is looked for. */
const outward = [0.01, 0.02, 0.04, 0.08, 0.16, 0.32, 0.64, 1];

/** The numbers that a check may be swept over, levers and unknowns: those over which it turns first, then by how much its room changes as written; none that changes nothing. */
export function sweepInputs(scene: Scene, check: Check): SweepInput[] {
  const cell = new Cell(scene, [check]);
  if (cell.checks.length === 0) return [];
  const { addresses } = cell;
  const levers = leversOf(scene).filter(({ members }) => members.some((one) => addresses.has(one)));
  const all = [
    ...levers.map(({ address, members, from, least, most, unit, shownIn }): SweepInput => {
      const [low, high] = rangeOf(cell, members, least, most);
      return { address, kind: "lever", members, drawn: from, from: from + low, to: from + high, unit, shownIn };
    }),
    ...cell.unknowns.flatMap((g): SweepInput[] => {
      if (!g.unknown || g.unknown.law === "switch") return [];
      const value = believing(g.unknown);
      const [a, b] = [value(-1.3 * endsOfGuess), value(1.3 * endsOfGuess)];
      return [
        {
          address: g.address,
          kind: "unknown",
          members: [g.address],
          drawn: value(0),
          from: Math.min(a, b),
          to: Math.max(a, b),
          unit: g.unit,
          shownIn: shownUnit(g),
        },
      ];
    }),
  ];
  return all
    .map((input) => ({ input, ...changeOver(cell, input) }))
    .filter(({ change }) => change > 0)
    .sort((a, b) => Number(b.turns) - Number(a.turns) || b.change - a.change)
    .map(({ input }) => input);
}
/** The greatest change of the gap as written within the ends, and whether its sign turns there. */
function changeOver(cell: Cell, input: SweepInput): { readonly change: number; readonly turns: boolean } {
  const gap = (at: number): number =>
    cell.gaps({ n: 1, ...standingAt([{ input, at }], cell.unknowns, () => undefined) })[0]![0]!;
  const now = gap(input.drawn);
  const gaps = [0, 0.25, 0.5, 0.75, 1].map((k) => gap(input.from + k * (input.to - input.from)));
  const changes = gaps.map((g) => Math.abs(g - now)).filter((v) => !Number.isNaN(v));
  return { change: Math.max(0, ...changes), turns: gaps.some((g) => g >= 0 !== now >= 0) };
}
/** Far enough either way to show the nearest turn as written, and a little beyond; a quarter of the bounds where nothing turns. */
function rangeOf(cell: Cell, members: readonly string[], least: number, most: number): [number, number] {
  const span = most - least;
  const gap = (by: number): number => cell.gaps({ n: 1, moved: movedBy(members, by) })[0]![0]!;
  const now = gap(0) >= 0;
  const turn = outward.find((share) =>
    [-1, 1].some((side) => {
      const by = side * share * span;
      return by > least && by < most && gap(by) >= 0 !== now;
    }),
  );
  const reach = span * Math.max(0.03, (turn ?? 0.125) * 2);
  return [Math.max(least, -reach), Math.min(most, reach)];
}

/** A check along a number, and along a second one as a family of curves. Undefined where the check does not apply. */
export function sweepOf(
  scene: Scene,
  check: Check,
  deviates: Deviates,
  weights: Float64Array,
  along: SweepInput,
  second?: SweepInput,
): CheckSweep | undefined {
  const cell = new Cell(scene, [check]);
  if (cell.checks.length === 0) return undefined;
  const picked = Array.from({ length: draws }, (_, i) => Math.floor(((i + 0.5) * beliefDraws) / draws));
  const thinned = (column: Float64Array): Float64Array => Float64Array.from(picked, (k) => column[k]!);
  const belief = new Map<Given, Float64Array>();
  const unknown = (given: Given): Float64Array => {
    const known = belief.get(given) ?? thinned(beliefColumn(deviates, given));
    belief.set(given, known);
    return known;
  };
  const weight = thinned(weights);
  const deciding = thinned(decide(cell, deviates)[0]!.gap);
  const written = cell.gaps({ n: draws, unknown })[0]!;
  const takes = written.map((g, i) => (Number.isFinite(g) && Number.isFinite(deciding[i]!) ? g - deciding[i]! : 0));
  const room = (standing: Partial<Standing>): BeliefPoints => {
    const gap = cell.gaps({ n: draws, unknown, ...standing })[0]!;
    return beliefPoints(
      gap.map((g, i) => g - takes[i]!),
      weight,
    );
  };
  const curve = (other?: { readonly input: SweepInput; readonly at: number }): SweepPoint[] =>
    placesOf(along).map((at) => ({
      at,
      room: room(standingAt([{ input: along, at }, ...(other ? [other] : [])], cell.unknowns, unknown)),
    }));
  const value = check.value;
  const shown = typeof value === "function" ? value(scene) : value;
  return {
    check: check.id,
    unit: shown!.unit,
    shownIn: shownUnit(shown!),
    along,
    points: curve(),
    ...(second
      ? {
          family: {
            along: second,
            curves: [second.from, second.drawn, second.to].map((at) => ({ at, points: curve({ input: second, at }) })),
          },
        }
      : {}),
  };
}
/** Even steps from end to end, and the drawn place among them. */
function placesOf({ from, to, drawn }: SweepInput): number[] {
  const even = Array.from({ length: steps + 1 }, (_, i) => from + ((to - from) * i) / steps);
  return [...new Set([...even, drawn])].sort((a, b) => a - b);
}
function standingAt(
  set: readonly { readonly input: SweepInput; readonly at: number }[],
  unknowns: readonly Given[],
  unknown: (given: Given) => Float64Array | undefined,
): Partial<Standing> {
  const moved = set.filter(({ input }) => input.kind === "lever");
  const held = new Map(
    set.flatMap(({ input, at }): [Given, number][] => {
      const given = input.kind === "unknown" ? unknowns.find((g) => g.address === input.address) : undefined;
      return given ? [[given, coordinateOf(given, at)]] : [];
    }),
  );
  return {
    unknown: (given) => held.get(given) ?? unknown(given),
    ...(moved.length > 0
      ? {
          moved: (given) => {
            const mine = moved.filter(({ input }) => input.members.includes(given.address));
            return mine.length === 0 ? undefined : mine.reduce((sum, { input, at }) => sum + at - input.drawn, 0);
          },
        }
      : {}),
  };
}
/** The normal coordinate at which an unknown has a value. */
function coordinateOf({ unknown }: Given, at: number): number {
  const value = believing(unknown!);
  return rootBetween((z) => value(z) - at, -3 * endsOfGuess, 3 * endsOfGuess, 1e-9) ?? 0;
}
