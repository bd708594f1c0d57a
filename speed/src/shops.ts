/**
 * 200 invented shops with a truth that nobody tells them: how long until each has decided rightly (to promise all that is wanted of its unit, or to draw it
 * anew), and how many of its promises break, by the ways of core/src/trial/shop.ts.
 *
 * The stand-in: 12 checks on 5 widths with lognormal margins over 10 unknowns, another family in every shop. The example: the wanted pairs of its second unit, the
 * deciding gaps of its belief draws against truths drawn with another seed, so that no truth is among the draws; the record of known units is left out. Outside:
 * 30 % of the truths stand 2 to 3 standard deviations off, beyond the stated range. Days and chances of trials are the usual ones.
 */
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import {
  beliefColumn,
  beliefDraws,
  Cell,
  cardFor,
  cardUsual,
  checks,
  Deviates,
  decide,
  endsOfGuess,
  explained,
  type Given,
  shopPolicies as policies,
  runShop,
  type Scene,
  type Shop,
  type ShopCheck,
  type ShopEnd,
  type ShopPair,
  type ShopPolicy,
  type ShopUnknown,
  type Station,
  Stream,
  usualCosts,
  valueAt,
} from "@tapeworthy/core";
import { readProject } from "@tapeworthy/project";
import { type Measured, machine } from "./measure.ts";

const shops = 200;
const standInDraws = 500;
const outsideShare = 0.3;
const even = new Float64Array(beliefDraws).fill(1 / beliefDraws);

/** A normal score of a truth: as believed, or with 30 % of them beyond the range that was stated. */
const truthScore = (stream: Stream, outside: boolean): number => {
  const z = stream.normal();
  return outside && stream.uniform() < outsideShare ? Math.sign(z) * (2 + stream.uniform()) : z;
};

// ---- the stand-in

const widths = [8, 12, 16, 24, 32];
/** A family of 12 checks on 5 widths, and a truth. */
function standIn(seed: number, outside: boolean): Shop {
  const stream = new Stream(seed, "stand-in");
  const z = Array.from({ length: 10 }, () => Float64Array.from({ length: standInDraws }, () => stream.normal()));
  const truths = z.map(() => truthScore(stream, outside));
  const facts = z.map((_, u) => {
    const spread = 0.15 + 0.25 * stream.uniform();
    const days = (10 + 110 * stream.uniform()) / 480;
    return {
      address: `u${u}`,
      spread,
      truth: Math.exp(spread * truths[u]!),
      days,
      error: 0.02 + 0.08 * stream.uniform(),
    };
  });
  const members = Array.from({ length: 12 }, (_, c) => {
    const rests = [...new Set(Array.from({ length: 3 }, () => Math.floor(10 * stream.uniform())))];
    return {
      station: (1 + (c % 9)) as Station,
      rests,
      reach: rests.map((_, i) => (stream.uniform() < 0.5 ? -1 : 1) * (i === 0 ? 0.4 + 0.4 * stream.uniform() : 0.15)),
      margin: 1 + 1.6 * stream.uniform(),
      falls: 0.9 * stream.uniform(),
    };
  });
  const weights = new Float64Array(standInDraws).fill(1 / standInDraws);
  const shop = (scores: readonly Float64Array[]): Shop => {
    const unknowns = facts.map(
      ({ spread, ...f }, u): ShopUnknown => ({ ...f, values: scores[u]!.map((v) => Math.exp(spread * v)) }),
    );
    const pairs = widths.map(
      (W): ShopPair => ({
        unit: "u",
        tape: `${W}`,
        checks: members.map(({ station, rests, reach, margin, falls }, c): ShopCheck => {
          const middle = margin - falls * Math.log(W / 8);
          const gap = (score: (u: number) => number): number =>
            rests.reduce((sum, u, i) => sum + reach[i]! * score(u), middle);
          return {
            id: `c${c}`,
            station,
            holds: Uint8Array.from(weights, (_, k) => (gap((u) => scores[u]![k]!) >= 0 ? 1 : 0)),
            truth: gap((u) => truths[u]!) >= 0,
            rests: rests.map((u) => [u, undefined] as const),
          };
        }),
      }),
    );
    // A reading replaces the guess: its draws stand about what was shown, within its error (of the logarithm: scores over the spread).
    const taken = (u: number, shown: number): Shop => {
      const { spread, error } = facts[u]!;
      const at = Math.log(Math.max(shown, 1e-3)) / spread;
      return shop(scores.map((column, i) => (i === u ? z[u]!.map((v) => at + (error / spread) * v) : column)));
    };
    return { unknowns, pairs, weights, costs: usualCosts, taken };
  };
  return shop(z);
}

// ---- the example

/** Draws of belief that are truths: of another seed, some of them outside. */
class Truths extends Deviates {
  private readonly outside: boolean;
  private readonly made = new Map<string, Float64Array>();
  constructor(seed: number, outside: boolean) {
    super(seed);
    this.outside = outside;
  }
  override normal(address: string, n: number): Float64Array {
    if (!this.outside || !address.startsWith("belief ")) return super.normal(address, n);
    const key = `${n} ${address}`;
    const known = this.made.get(key);
    if (known) return known;
    const stream = new Stream(this.seed, address);
    const column = Float64Array.from({ length: n }, () => truthScore(stream, true));
    this.made.set(key, column);
    return column;
  }
}
const example = fileURLToPath(new URL("../../examples/saltgrass/", import.meta.url));
function exampleScenes(unit: string): readonly { readonly tape: string; readonly scene: Scene }[] {
  const paths = readdirSync(example, { recursive: true, encoding: "utf8" }).filter((p) =>
    /^(project\.yaml|known\.yaml|units.*\.yaml|tapes.*\.yaml)$/.test(p),
  );
  const { project, errors } = readProject(
    new Map(paths.map((p) => [p.replaceAll("\\", "/"), readFileSync(example + p, "utf8")])),
  );
  if (!project) throw new Error(errors.map((e) => `${e.place.file}:${e.place.line} ${e.found}`).join("\n"));
  return project.wanted.get(unit)!.map((tape) => {
    const served = project.tapes.get(tape)!.tape;
    return {
      tape,
      scene: {
        unit: project.units.get(unit)!.variants.get(served.row)!,
        tape: served,
        requirement: project.requirement,
      },
    };
  });
}
/** One shop for each truth, over the same belief. */
function exampleShops(
  unit: string,
  says: (text: string) => void,
): { readonly inside: Shop[]; readonly outside: Shop[] } {
  const belief = new Deviates(1);
  const truths = { inside: new Truths(2, false), outside: new Truths(3, true) };
  const places = new Map<string, number>();
  const givens: Given[] = [];
  const kinds = ["inside", "outside"] as const;
  const pairs = exampleScenes(unit).map(({ tape, scene }) => {
    says(`the example's ${tape}`);
    const found = checks
      .filter((c) => c.severity === "S")
      .flatMap((check) => {
        const cell = new Cell(scene, [check]);
        if (cell.checks.length === 0) return [];
        const holdsOf = (d: Deviates): Uint8Array => Uint8Array.from(decide(cell, d)[0]!.gap, (g) => (g >= 0 ? 1 : 0));
        const holds = holdsOf(belief);
        // No truth is asked where nothing is unknown.
        const truth =
          cell.unknowns.length === 0
            ? { inside: holds, outside: holds }
            : { inside: holdsOf(truths.inside), outside: holdsOf(truths.outside) };
        const rests = cell.unknowns
          .filter((g) => cardFor(g))
          .map((g) => ({ g, carries: explained(beliefColumn(belief, g), holds, even) }))
          .filter(({ carries }) => carries > 0)
          .sort((a, b) => b.carries - a.carries)
          .slice(0, 4)
          .map(({ g }) => {
            if (!places.has(g.address)) {
              places.set(g.address, givens.length);
              givens.push(g);
            }
            return [places.get(g.address)!, undefined] as const;
          });
        cell.letGo();
        return [{ id: check.id, station: check.station, holds, truth, rests }];
      });
    return { tape, found };
  });
  const shop = (kind: (typeof kinds)[number], k: number): Shop => ({
    unknowns: unknownsAt(givens, belief, truths[kind], k),
    pairs: pairs.map(
      ({ tape, found }): ShopPair => ({
        unit,
        tape,
        checks: found.map(({ truth, ...c }) => ({ ...c, truth: truth[kind][k] === 1 })),
      }),
    ),
    weights: even,
    costs: usualCosts,
  });
  const all = (kind: (typeof kinds)[number]): Shop[] => Array.from({ length: shops }, (_, k) => shop(kind, k));
  return { inside: all("inside"), outside: all("outside") };
}
const columns = new WeakMap<Given, Float64Array>();
/** What is seen as one of two words counts as 1 or 2. */
const sizeOf = (g: Given, z: number): number => (g.unknown?.law === "switch" ? 1 + valueAt(g, z) : valueAt(g, z));
function unknownsAt(givens: readonly Given[], belief: Deviates, truths: Deviates, k: number): ShopUnknown[] {
  return givens.map((g) => {
    const card = cardFor(g)!;
    const values = columns.get(g) ?? beliefColumn(belief, g).map((z) => sizeOf(g, z));
    columns.set(g, values);
    const usual = cardUsual(card);
    const seen = g.unknown?.law === "switch";
    return {
      address: g.address,
      values,
      truth: sizeOf(g, beliefColumn(truths, g)[k]!),
      days:
        (card.method.id.startsWith("trial") ? usualCosts.piece.days : 0) + card.method.minutes / 60 / usualCosts.hours,
      error: seen ? 0.05 : Math.max(0.002, usual.within / Math.abs(usual.value) / endsOfGuess),
    };
  });
}

// ---- the table

interface Line {
  readonly policy: ShopPolicy;
  readonly ends: readonly ShopEnd[];
  readonly seconds: number;
}
const mean = (x: readonly number[]): number => x.reduce((a, b) => a + b, 0) / x.length;
/** A ratio of sums over shops, and what holds 95 % of it when shops are drawn anew. */
function interval(top: readonly number[], bottom: readonly number[]): string {
  const stream = new Stream(7, "resample");
  const draws = Array.from({ length: 1000 }, () => {
    let [a, b] = [0, 0];
    for (let i = 0; i < top.length; i++) {
      const j = Math.floor(stream.uniform() * top.length);
      a += top[j]!;
      b += bottom[j]!;
    }
    return b > 0 ? a / b : 0;
  }).sort((x, y) => x - y);
  const show = (v: number): string => v.toFixed(v < 0.995 ? 3 : 1);
  const at = mean(bottom) > 0 ? mean(top) / mean(bottom) : 0;
  return `${show(at)} (${show(draws[25]!)} to ${show(draws[974]!)})`;
}
/** Of how many; with few, the interval from shops drawn anew says too little. */
function wrongPromises(wrong: readonly number[], promised: readonly number[]): string {
  const of = promised.reduce((a, b) => a + b, 0);
  return of === 0 ? "none, for none was made" : `${interval(wrong, promised)} of ${of}`;
}
const share = (ends: readonly ShopEnd[], key: "drawnAnew" | "forNothing"): string =>
  `${Math.round((100 * ends.filter((e) => e[key]).length) / ends.length)} %`;
function runAll(name: string, list: readonly Shop[]): readonly Line[] {
  return policies.map((policy) => {
    const begun = process.hrtime.bigint();
    const ends = list.map((shop, i) => runShop(shop, policy, new Stream(i, `${name} ${policy}`)));
    return { policy, ends, seconds: Number(process.hrtime.bigint() - begun) / 1e9 / list.length };
  });
}
function linesOf(name: string, list: readonly Shop[], results: readonly Line[]): string[] {
  const pairs = mean(list.map((s) => s.pairs.length));
  const good = mean(list.map((s) => s.pairs.filter((p) => p.checks.every((c) => c.truth)).length / s.pairs.length));
  const head = `${name}: ${list.length} shops, ${pairs.toFixed(0)} pairs each, ${(100 * good).toFixed(0)} % of them good in truth`;
  const ones = list.map(() => 1);
  const ours = results[0]!.ends.map((e) => e.days);
  return [
    head,
    ...results.map(({ policy, ends }) => {
      const of = (key: "days" | "tried" | "trials" | "wrong" | "promised"): number[] => ends.map((e) => e[key]);
      // Shop by shop: what all of them share falls out.
      const more =
        policy === policies[0]
          ? ""
          : `, ${interval(
              of("days").map((d, i) => d - ours[i]!),
              ones,
            )} more than ours`;
      return `  ${policy.padEnd(26)} days to a right decision ${interval(of("days"), ones)}${more}, of which trials ${mean(of("tried")).toFixed(1)} (${mean(of("trials")).toFixed(1)} of them); wrong promises ${wrongPromises(of("wrong"), of("promised"))}; drawn anew ${share(ends, "drawnAnew")}, for nothing ${share(ends, "forNothing")}`;
    }),
  ];
}

export function measureShops(): Measured {
  const says = (text: string): void => void process.stderr.write(`${text}\n`);
  const seeds = Array.from({ length: shops }, (_, i) => i + 1);
  const sets: (readonly [name: string, shops: readonly Shop[]])[] = [
    ["stand-in", seeds.map((s) => standIn(s, false))],
    ["stand-in, 30 % of truths outside", seeds.map((s) => standIn(s, true))],
  ];
  if (!process.argv.includes("--stand-in")) {
    const { inside, outside } = exampleShops("dunlin", says);
    sets.push(["the example's second unit", inside], ["the example's second unit, 30 % of truths outside", outside]);
  }
  const results = sets.map(([name, list]) => {
    says(name);
    return { name, list, lines: runAll(name, list) };
  });
  const [ours] = results[0]!.lines;
  const prototype = results[0]!.lines.at(-1);
  const days = ({ ends }: Line): number => mean(ends.map((e) => e.days));
  return {
    name: "shops",
    ratio: days(ours!) / days(prototype!),
    against: "the days to a right decision of a whole prototype first (times: reckoning a shop)",
    ours: ours!.seconds,
    theirs: prototype!.seconds,
    spread: 0,
    machine: machine(),
    lines: results.flatMap(({ name, list, lines }) => linesOf(name, list, lines)),
    table: results.map(({ name, lines }) => ({
      name,
      policies: lines.map(({ policy, ends }) => ({
        policy,
        days: days({ policy, ends, seconds: 0 }),
        tried: mean(ends.map((e) => e.tried)),
        promised: ends.reduce((s, e) => s + e.promised, 0),
        wrong: ends.reduce((s, e) => s + e.wrong, 0),
      })),
    })),
  };
}
