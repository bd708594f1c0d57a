import type { Given } from "../quantity/given.ts";
import { shownUnit } from "../quantity/show.ts";
import type { Scene } from "../scene.ts";
import { asWritten, Realiser } from "../study/realise.ts";
import { guidesToNip, type Unit } from "../unit/unit.ts";

/**
 * Something of a unit's file that a cure may move by one distance: a number with bounds of its own, or the place of a guide or of a whole part
 * along one axis; a part's bodies (and, for the nip, its axis, guide and pivot) go together.
 */
export interface Lever {
  /** Address of the number, or of the part: "plover/part motor, z". */
  readonly address: string;
  readonly symbol: string;
  /** Addresses of the numbers that move, each by the same distance. */
  readonly members: readonly string[];
  /** Where it stands as drawn (the first member), and how far it may move, SI. */
  readonly from: number;
  readonly least: number;
  readonly most: number;
  readonly unit: string;
  readonly shownIn: string;
}

/** How far a guide or a part may be moved along an axis, m (judgement: farther away it is another design). */
const farthest = 0.06;
const axes = ["x", "y", "z"] as const;
type Axis = (typeof axes)[number];

/**
 * Levers of a unit: numbers of its file with bounds in the schema, and places of its guides and parts. Where a number only repeats the name of another one of the file
 * that one is the lever, within the same bounds. Not among them: a guess, what a person asserts, what belongs to the machine, and the
 * place of the sprocket, which the pitch of the holes rules.
 */
export function leversOf(scene: Scene): Lever[] {
  const { unit } = scene;
  const parts = partsOf(unit);
  const inParts = new Set(parts.flatMap((p) => p.members));
  const singles = new Map<Given, readonly [low: number, high: number]>();
  for (const g of unit.givens.values()) {
    const owner = g.lever && !g.unknown && !inParts.has(g) ? ownerOf(g, scene) : undefined;
    if (!owner) continue;
    const [low, high] = singles.get(owner) ?? g.lever!;
    singles.set(owner, [Math.max(low, g.lever![0]), Math.min(high, g.lever![1])]);
  }
  const run = new Realiser(scene, [...singles.keys(), ...parts.flatMap((p) => p.members)]).run(asWritten);
  return [
    ...[...singles].map(([g, [low, high]]): Lever => {
      const from = run.number(g);
      return {
        address: g.address,
        symbol: g.symbol,
        members: [g.address],
        from,
        least: low - from,
        most: high - from,
        unit: g.unit,
        shownIn: shownUnit(g),
      };
    }),
    ...parts.map(
      ({ part, axis, members }): Lever => ({
        address: members.length === 1 ? members[0]!.address : `${stemOf(unit)}/part ${part}, ${axis}`,
        symbol: axis,
        members: members.map((g) => g.address),
        from: run.number(members[0]!),
        least: -farthest,
        most: farthest,
        unit: "m",
        shownIn: "mm",
      }),
    ),
  ];
}
/** The number of the unit's file that gives this one its value: itself, or the one whose name is all its text says. */
function ownerOf(g: Given, scene: Scene): Given | undefined {
  if (g.expression?.op !== "sym") return g;
  const named = g.reads(scene)[g.expression.name];
  const own = named?.kind === "given" && !named.unknown && scene.unit.givens.get(named.address) === named;
  return own ? ownerOf(named, scene) : undefined;
}
const stemOf = (unit: Unit): string => [...unit.givens.keys()][0]?.split("/")[0] ?? unit.name;

interface Part {
  readonly part: string;
  readonly axis: Axis;
  readonly members: readonly Given[];
}
/** Bodies by the part they belong to, with the numbers that place it along each axis. */
function partsOf(unit: Unit): Part[] {
  const bodies = unit.bodies ?? [];
  // One part of several bodies that belong to no other: a body without a part is one by itself.
  const names = [...new Set(bodies.map((b) => b.part ?? b.name))].filter((name) => name !== "sprocket");
  const guides = (guidesToNip(unit)?.slice(0, -1) ?? []).flatMap((g) =>
    axes.map((axis, i): Part => ({ part: g.name, axis, members: [g.through[i]!] })),
  );
  const places = names.flatMap((part) =>
    axes.flatMap((axis): Part[] => {
      const members = bodies
        .filter((b) => (b.part ?? b.name) === part)
        .flatMap((b): Given[] => {
          if (axis === "y") return [...b.y];
          const i = axis === "x" ? 0 : 1;
          if (b.box) return [b.box[i]!, b.box[i + 2]!];
          if (b.circle) return [b.circle[i]!];
          return (b.polygon ?? []).map((corner) => corner[i]!);
        });
      if (part === "nip") members.push(...placesOfNip(unit, axis));
      return members.length > 0 && members.every((g) => !g.unknown) ? [{ part, axis, members }] : [];
    }),
  );
  return [...guides.filter(({ members }) => members.every((g) => !g.unknown)), ...places];
}
function placesOfNip(unit: Unit, axis: Axis): Given[] {
  const guide = guidesToNip(unit)?.at(-1);
  const place = guide ? [guide.through[axes.indexOf(axis)]!] : [];
  if (axis === "y") return place;
  const i = axis === "x" ? 0 : 1;
  const { axis: at, lifts } = unit.nip ?? {};
  return [...place, ...(at ? [at[i]!] : []), ...(lifts ? [lifts.about[i]!] : [])];
}
