import {
  asWritten,
  type Given,
  type Level,
  lowerTriangle,
  type Membership,
  type Place,
  Realiser,
  type Scatter,
  type Scene,
  type Together,
} from "@tapeworthy/core";
import { didYouMean } from "./error.ts";
import type { Refuse } from "./limits.ts";
import type { ProjectData } from "./project-fields.ts";
import { short } from "./read.ts";
import type { MapSource, ScalarSource } from "./source.ts";

/** One line of `goes together:`. */
export interface TogetherLine {
  readonly of: readonly Named[];
  readonly by: number;
  /** Where the number stands. */
  readonly byAt: Place;
}
/** A number that a line names; `per` where that line or another one says which of its scatters. */
interface Named {
  readonly address: string;
  readonly per: Level | undefined;
  readonly place: Place;
}
/** A number's place among those its scatter goes together with; `per` where the line says which of its scatters. */
export interface Fellowship {
  readonly per: Level | undefined;
  readonly place: Membership;
}

/** The lines of a project that was read without an error. */
export function togetherLines(tree: MapSource, data: ProjectData): TogetherLine[] {
  const items = tree.entries.get("goes together")?.value;
  const list = data["goes together"] ?? [];
  const said = (address: string): Level | undefined =>
    list.find(({ of, per }) => per !== undefined && of.includes(address))?.per;
  return list.flatMap(({ of, by, per }, i): TogetherLine[] => {
    const item = items?.kind === "list" ? items.items[i] : undefined;
    const named = item?.kind === "map" ? item.entries.get("of")?.value : undefined;
    if (named?.kind !== "list") return [];
    return [
      {
        of: of.map((address, k) => ({
          address,
          per: per ?? said(address),
          place: (named.items[k] as ScalarSource).place,
        })),
        by: new Realiser({} as Scene, [by]).run(asWritten).number(by),
        byAt: by.origin as Place,
      },
    ];
  });
}

/** A scatter by its number's address, and by its level where a line says it. */
const memberOf = ({ address, per }: Named): string => (per ? `${address} per ${per}` : address);

/**
 * The correlations of what some lines name, one matrix for each group of numbers that hang together. A pair that no line names counts as
 * independent, save through the others.
 */
function groupsOf(lines: readonly TogetherLine[]): Together[] {
  const groups: Set<string>[] = [];
  for (const { of } of lines) {
    const members = of.map(memberOf);
    const joined = groups.filter((g) => members.some((m) => g.has(m)));
    for (const g of joined) groups.splice(groups.indexOf(g), 1);
    groups.push(new Set([...joined.flatMap((g) => [...g]), ...members]));
  }
  return groups.map((group) => {
    const members = [...group].sort();
    const by = members.map((_, i) => members.map((_, j): number => (i === j ? 1 : 0)));
    for (const line of lines) {
      const at = line.of.map((one) => members.indexOf(memberOf(one)));
      for (const i of at) for (const j of at) if (i !== j && i >= 0 && j >= 0) by[i]![j] = line.by;
    }
    return { members, by };
  });
}

/**
 * For every address that the lines name its places; undefined where there are none. Groups that are alike stay the same objects in one store, so that
 * a number may stay the same object too.
 */
export function fellowships(
  lines: readonly TogetherLine[],
  store: { kept<T>(key: string, parts: readonly unknown[], make: () => T): T },
): ReadonlyMap<string, readonly Fellowship[]> | undefined {
  if (lines.length === 0) return undefined;
  const out = new Map<string, Fellowship[]>();
  for (const group of groupsOf(lines)) {
    // What cannot all be is refused by `checkTogether`; until then nothing goes together.
    if (!lowerTriangle(group.by)) continue;
    const of = store.kept(`goes together ${JSON.stringify(group)}`, [], () => group);
    group.members.forEach((member, at) => {
      const per = (["reel", "unit", "index"] as const).find((level) => member.endsWith(` per ${level}`));
      const address = per ? member.slice(0, -` per ${per}`.length) : member;
      out.set(address, [...(out.get(address) ?? []), { per, place: { of, at } }]);
    });
  }
  return out;
}

/** Which of a number's scatters a line means; undefined where there is not exactly one. */
function meant(g: Given, per: Level | undefined): number | undefined {
  const found = [...g.scatters.keys()].filter((i) => per === undefined || g.scatters[i]!.level === per);
  return found.length === 1 ? found[0] : undefined;
}
/** A number with its scatters' places among others. */
export function attached(g: Given, fellows: readonly Fellowship[]): Given {
  const scatters: Scatter[] = [...g.scatters];
  for (const { per, place } of fellows) {
    const which = meant(g, per);
    if (which !== undefined) scatters[which] = { ...scatters[which]!, together: place };
  }
  return { ...g, scatters };
}

const levelWords = { reel: "between reels", unit: "between units", index: "between indexes" } as const;
const and = (words: readonly string[]): string => words.join(" and ");

/** What is wrong with the lines, the numbers at hand: each fault with its place and the way out. */
export function checkTogether(
  lines: readonly TogetherLine[],
  givens: ReadonlyMap<string, Given>,
  refuse: Refuse,
): void {
  const pairs = new Set<string>();
  const good: TogetherLine[] = [];
  for (const line of lines) {
    let faults = 0;
    const fault: Refuse = (...rest) => {
      faults++;
      refuse(...rest);
    };
    if (line.of.length < 2) fault(line.byAt, `${line.of.length} number`, "two numbers or more that go together");
    const levels = line.of.map((one) => levelIn(one, givens, fault));
    const other = levels.findIndex((level) => level && levels[0] && level !== levels[0]);
    if (other > 0)
      fault(
        line.of[other]!.place,
        `"${line.of[other]!.address}", which scatters ${levelWords[levels[other]!]}`,
        `what scatters ${levelWords[levels[0]!]}, as "${line.of[0]!.address}" does`,
        "Only what scatters between the same things can go together.",
      );
    line.of.forEach((one, i) => {
      for (const before of line.of.slice(0, i)) {
        const pair = JSON.stringify([memberOf(before), memberOf(one)].sort());
        if (before.address === one.address)
          fault(one.place, `"${one.address}" with itself`, "each number once in a line");
        else if (pairs.has(pair))
          fault(one.place, `"${before.address}" and "${one.address}" a second time`, "each pair in one line");
        pairs.add(pair);
      }
    });
    if (faults > 0) continue;
    const trial = (by: number) => groupsOf([...good, { ...line, by }]).every((group) => lowerTriangle(group.by));
    if (trial(line.by)) good.push(line);
    else {
      const [least, most] = workable(trial);
      const nearest = line.by > 0 ? most : least;
      fault(
        line.byAt,
        `${line.by}, with which they cannot all go together`,
        `between ${least} and ${most} with the lines above it as they are`,
        `Write "by: ${nearest}", or say in a line of its own how any other two of them go together: a pair that no line names counts as 0.`,
      );
    }
  }
}
/** The least and the greatest value that works, in hundredths. Those that work lie in one interval about nought. */
function workable(trial: (by: number) => boolean): readonly [number, number] {
  let [least, most] = [0, 0];
  while (least > -99 && trial((least - 1) / 100)) least--;
  while (most < 99 && trial((most + 1) / 100)) most++;
  return [least / 100, most / 100];
}

function levelIn(
  { address, per, place }: Named,
  givens: ReadonlyMap<string, Given>,
  refuse: Refuse,
): Level | undefined {
  const g = givens.get(address);
  if (!g) {
    refuse(
      place,
      `"${short(address)}"`,
      "the address of a number in these files",
      didYouMean(address, [...givens.keys()]) ??
        'An address is file and place: "plover/nip.preload", "tapes/coil-12/K0".',
    );
    return undefined;
  }
  const which = meant(g, per);
  if (which !== undefined) return g.scatters[which]!.level;
  const levels = [...new Set(g.scatters.map((s) => s.level))];
  const here = g.scatters.filter((s) => per === undefined || s.level === per);
  if (here.length === 0)
    refuse(
      place,
      `"${address}", which does not scatter${per ? ` ${levelWords[per]}` : ""}`,
      "a number with a tolerance or a standard deviation",
      per && levels.length > 0 ? `It scatters ${and(levels.map((level) => levelWords[level]))}.` : undefined,
    );
  else if (levels.length > 1 && per === undefined)
    refuse(
      place,
      `"${address}", which scatters ${and(levels.map((level) => levelWords[level]))}`,
      'a line that says which, with "per"',
      `Add "per: ${levels[0]}" to the line.`,
    );
  else
    refuse(
      place,
      `"${address}" with two scatters ${levelWords[here[0]!.level]}`,
      "one, which goes together with others",
    );
  return undefined;
}
