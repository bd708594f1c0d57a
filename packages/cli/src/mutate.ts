/**
 * Feeds damaged copies of the example's files to the reader of projects.
 *
 *     npm run mutate -- 100000 [--seed N]
 *
 * Every text has a seed of its own, N and the numbers after it, so that text k of a run is the first of a run with seed N + k. The
 * last line says how many texts were accepted and refused; the exit code is 1 if anything else happened.
 */
import { fileURLToPath, pathToFileURL } from "node:url";
import { asWritten, type Given, isPlace, Realiser, type Scene, type Tape, type Unit } from "@tapeworthy/core";
import { GivenStore, type Project, type ProjectError, readProject, showError, type Texts } from "@tapeworthy/project";
import { readFolder } from "./folder.ts";

/** A fault of ours: what came of a text, and the seed that makes the text again. */
export interface Crash {
  readonly seed: number;
  readonly file: string;
  readonly what: string;
}
export interface Tally {
  readonly accepted: number;
  readonly refused: number;
  readonly crashes: readonly Crash[];
  /** The longest reading, s, and its text's seed. */
  readonly slowest: { readonly seconds: number; readonly seed: number };
}
/** A reading may take no longer, s of the processor: how busy the machine is with other things does not count. */
const patience = 2;
/** Readings that share what was read before, so that a text costs one file and not the whole project. */
const together = 500;

/** Reads so many damaged copies of a project's files. `progress` is called after each. */
export function mutate(
  texts: Texts,
  count: number,
  seed: number,
  progress: (tally: Tally) => void = () => undefined,
  read: typeof readProject = readProject,
): Tally {
  const tally = { accepted: 0, refused: 0, crashes: [] as Crash[], slowest: { seconds: 0, seed } };
  let store = new GivenStore();
  for (let k = 0; k < count; k++) {
    if (k % together === 0) {
      store = new GivenStore();
      read(texts, store);
    }
    const { file, text } = mutant(texts, seed + k);
    const began = process.cpuUsage();
    let what: string | undefined;
    try {
      const { project, errors } = read(new Map([...texts, [file, text]]), store);
      what = project ? faultOfProject(project, file, text) : faultOfErrors(errors, file, text);
      if (project) tally.accepted++;
      else tally.refused++;
    } catch (e) {
      what = e instanceof Error ? (e.stack ?? e.message) : String(e);
    }
    const { user, system } = process.cpuUsage(began);
    const took = (user + system) / 1e6;
    if (took > tally.slowest.seconds) tally.slowest = { seconds: took, seed: seed + k };
    what ??= took > patience ? `the reading took ${took.toFixed(1)} s` : undefined;
    if (what !== undefined) tally.crashes.push({ seed: seed + k, file, what });
    progress(tally);
  }
  return tally;
}

/** What is wrong with errors as errors: each must stand in its file and show as text. */
function faultOfErrors(errors: readonly ProjectError[], file: string, text: string): string | undefined {
  if (errors.length === 0) return "neither a project nor an error";
  const lines = text.split("\n");
  for (const e of errors) {
    const { line, column } = e.place;
    const shown = showError(e);
    if (!shown.startsWith(`${e.place.file}:${line}:${column}: found `))
      return `an error that shows as ${JSON.stringify(shown)}`;
    if (/undefined|NaN|\[object/.test(`${e.found} ${e.expected} ${e.hint ?? ""}`.replaceAll(/"[^"]*"/g, "")))
      return `an error that says ${e.message}`;
    if (e.place.file !== file) continue;
    const inside = line >= 1 && line <= lines.length && column >= 1 && column <= lines[line - 1]!.length + 1;
    if (!inside) return `an error outside the file, at ${line}:${column}`;
  }
  return undefined;
}

/** What is wrong with an accepted project: every number finite as written, and standing where it says it stands. */
function faultOfProject(project: Project, file: string, text: string): string | undefined {
  const stem = file.replace(/^.*\//, "").replace(/\.yaml$/, "");
  const lines = text.split("\n");
  for (const { unit, tape } of pairs(project, file, stem)) {
    const scene: Scene = { unit, tape, requirement: project.requirement };
    const givens: Given[] = [...unit.givens.values(), ...tape.givens.values()];
    const run = new Realiser(scene, givens).run(asWritten);
    for (const g of givens) {
      if (!Number.isFinite(run.number(g))) return `${g.address} is ${run.number(g)} with ${unit.name} on ${tape.name}`;
      if (!isPlace(g.origin) || g.origin.file !== file) continue;
      const { line, column, length } = g.origin;
      const stands = lines[line - 1]?.slice(column - 1, column - 1 + length) ?? "";
      if (stands !== g.text && !/^["']/.test(stands))
        return `${g.address} is ${JSON.stringify(g.text)}, and at ${line}:${column} stands ${JSON.stringify(stands)}`;
    }
  }
  const { requirement } = project;
  const asked = [requirement.filmSpeed, requirement.breakSafety, ...Object.values(requirement.assume)];
  const run = new Realiser({} as Scene, asked).run(asWritten);
  for (const g of asked) if (!Number.isFinite(run.number(g))) return `${g.address} is ${run.number(g)}`;
  return Number.isFinite(requirement.allowPairs) ? undefined : `the share of pairs is ${requirement.allowPairs}`;
}
/** One pair for every variant that the file may have touched. */
function pairs(project: Project, file: string, stem: string): { unit: Unit; tape: Tape }[] {
  return [...project.wanted].flatMap(([name, list]) => {
    const seen = new Set<number>();
    return list.flatMap((tapeName) => {
      const { tape } = project.tapes.get(tapeName)!;
      const touched =
        file === `units/${name}.yaml` ? !seen.has(tape.row) : file === `tapes/${tapeName}.yaml` && tapeName === stem;
      seen.add(tape.row);
      return touched ? [{ unit: project.units.get(name)!.variants.get(tape.row)!, tape }] : [];
    });
  });
}

/** A number from 0 up to n, without n. */
type Dice = (n: number) => number;
/** The stream of a seed (mulberry32); neighbouring seeds are mixed first. */
function dice(seed: number): Dice {
  let state = Math.imul(seed ^ (seed >>> 16), 0x85ebca6b) ^ Math.imul(Math.floor(seed / 2 ** 32) + 1, 0xc2b2ae35);
  return (n) => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return Math.floor((((t ^ (t >>> 14)) >>> 0) / 2 ** 32) * n);
  };
}
const oneOf = <T>(list: readonly T[], roll: Dice): T => list[roll(list.length)]!;

/** The damaged file of a seed. */
export function mutant(texts: Texts, seed: number): { readonly file: string; readonly text: string } {
  const roll = dice(seed);
  const files = [...texts.keys()].sort();
  const file = oneOf(files, roll);
  let text = texts.get(file)!;
  for (let left = 1 + (roll(3) === 0 ? roll(4) : 0); left > 0; left--)
    text = oneOf(damages, roll)(text, roll, () => texts.get(oneOf(files, roll))!);
  return { file, text };
}

type Damage = (text: string, roll: Dice, other: () => string) => string;
const put = (text: string, from: number, to: number, piece: string): string =>
  text.slice(0, from) + piece + text.slice(to);
/** A stretch of a text, mostly short. */
const stretch = (text: string, roll: Dice): readonly [from: number, to: number] => {
  const from = roll(text.length + 1);
  return [from, Math.min(text.length, from + 1 + roll(oneOf([2, 8, 40, 400], roll)))];
};
const withLines =
  (change: (lines: string[], roll: Dice) => void): Damage =>
  (text, roll) => {
    const lines = text.split("\n");
    change(lines, roll);
    return lines.join("\n");
  };
/** Where a value of a line begins and ends. */
const values = (text: string): RegExpMatchArray[] => [...text.matchAll(/(?<=[:[,-] +)[^\s,[\]{}#:][^,[\]{}#\n:]*/g)];

const damages: readonly Damage[] = [
  // One bit or byte of a character.
  (text, roll) => {
    const at = roll(text.length);
    return put(text, at, at + 1, String.fromCharCode((text.charCodeAt(at) || 32) ^ (1 << roll(8))));
  },
  (text, roll) => {
    const at = roll(text.length);
    return put(text, at, at + 1, String.fromCharCode(roll(2) ? 32 + roll(95) : roll(0x300)));
  },
  // Deleted, doubled, moved.
  (text, roll) => put(text, ...stretch(text, roll), ""),
  (text, roll) => {
    const [from, to] = stretch(text, roll);
    return put(text, to, to, text.slice(from, to));
  },
  (text, roll) => {
    const [from, to] = stretch(text, roll);
    const at = roll(text.length + 1);
    return put(text, at, at, text.slice(from, to));
  },
  withLines((lines, roll) => {
    const [a, b] = [roll(lines.length), roll(lines.length)];
    [lines[a], lines[b]] = [lines[b]!, lines[a]!];
  }),
  withLines((lines, roll) => void lines.splice(roll(lines.length), 1 + roll(3))),
  withLines((lines, roll) => {
    const at = roll(lines.length);
    lines.splice(at, 0, lines[at]!);
  }),
  withLines((lines, roll) => {
    const at = roll(lines.length);
    lines[at] = roll(2) ? ` ${lines[at]}` : lines[at]!.replace(/^ /, "");
  }),
  // Something nasty anywhere, in the place of a value, behind one, or as a line.
  (text, roll) => {
    const at = roll(text.length + 1);
    return put(text, at, at, nasty(roll));
  },
  ...[0, 1, 2].map(
    (): Damage => (text, roll, other) => {
      const all = values(text);
      if (all.length === 0) return text;
      const value = oneOf(all, roll);
      const [from, to] = [value.index!, value.index! + value[0].length];
      const theirs = values(other());
      const piece = roll(3) === 0 && theirs.length > 0 ? oneOf(theirs, roll)[0] : nasty(roll);
      return put(text, roll(3) === 0 ? to : from, to, piece);
    },
  ),
  withLines((lines, roll) => {
    const at = roll(lines.length);
    lines.splice(at, 0, (lines[at]!.match(/^ */)?.[0] ?? "") + nasty(roll));
  }),
  // A number with other digits.
  (text, roll) => {
    const all = [...text.matchAll(/\d+(\.\d+)?/g)];
    if (all.length === 0) return text;
    const number = oneOf(all, roll);
    return put(
      text,
      number.index!,
      number.index! + number[0].length,
      oneOf(["0", "-1", "1e9", "1e-9", "0.000", "9".repeat(400), `${roll(1000)}`, "1e308", "08"], roll),
    );
  },
  // A piece of another file.
  (text, roll, other) => {
    const theirs = other();
    const [from, to] = stretch(theirs, roll);
    const at = roll(text.length + 1);
    return put(text, at, at, theirs.slice(from, to));
  },
];

const nasty = (roll: Dice): string => {
  const token = oneOf(tokens, roll);
  return typeof token === "string" ? token : token(roll);
};
const deep = (open: string, close: string) => (roll: Dice) => {
  const depth = oneOf([3, 30, 70, 300, 3000], roll);
  return open.repeat(depth) + (roll(2) ? `1${close.repeat(depth)}` : "");
};
const tokens: readonly (string | ((roll: Dice) => string))[] = [
  ..."1e999|-1e999|1e308 mm|1e-400|0|-0|nan|NaN|.nan|.inf|-.inf|Infinity|1/0|0/0|1/0*1 mm|sqrt(-1)*1 mm|0x10|1_000|1,5 mm|.5 mm".split(
    "|",
  ),
  ..."..|...|1..|..1|1..2|2..1 mm guess|1..1e309 N guess|0..0|-1..1 guess|±|±T|±1e308 GPa|±0|+0.1/-0.2 mm|+-1|-0.1 mm|sd|per|per reel|per reel sd 20 %|sd 1e308 %|sd -1 %|guess|measured|guess guess".split(
    "|",
  ),
  ..."actual|actual W|actual R|actual guess|actual W*actual W/actual W|pi|W|A0|b|K0^9|W^1e9|W^-9|2^W|max(|max()|max(W, 1 mm)|hypot(W, W, W)|min|sin(W)|W/(W - W)|5 mm^9|5 mm^2^2|mm|%|% %|^|(|)|W W|1 W|teeth".split(
    "|",
  ),
  ..."none|null|~|true|false|yes|__proto__|constructor|toString|hasOwnProperty|__proto__: 1 mm|constructor: {prototype: 1}|- __proto__|{__proto__: 1}|[__proto__]".split(
    "|",
  ),
  ...'&a|*a|&a 1 mm|<<: *a|<<: {W: 1 mm}|!!binary x|!!float 1|!x|!|? |? [a]|: |-|- - -|[]|{}|[,]|{,}|[1|{a: 1|]|}|[[]]|{a: {b: c}}|"|\'|"\\u0000"|"\\x1b"|\'\'|""|||>|>-|%YAML 1.1|@|`|#|# |,|;|=|\\'
    .split("||")
    .flatMap((part, i) => (i === 0 ? part.split("|") : ["|", ...part.split("|")])),
  ..."\t,\r,\r\n,\n,\n\n,\u0000,\u0007,\u001b[2J,\u007f,\u0085,\u00a0,\u2028,\u202e,\ufeff,\ud800,\udc00,\u{1f600},e\u0301,µ,\u03bc,−,×,°,²".split(
    ",",
  ),
  "\n---\n",
  "\n...\n",
  "%YAML 1.1\n---\n",
  "%TAG ! tag:x,2000:\n---\n",
  "a: &a [x, x]\nb: &b [*a, *a]\nc: &c [*b, *b]\nd: [*c, *c]\n",
  "per width:\n  8: {unit: none, tape.route: [], let.gap: 1/0, nip: none}\n",
  "built for:\n  8: [so8-12, so8-12, nothing]\n",
  "let:\n  a: b\n  b: a\n",
  "let: {a: a, mm: 2, guess: 1, max: 2, W: 3}\n",
  deep("(", ")"),
  deep("[", "]"),
  deep("{a: ", "}"),
  deep("-", ""),
  deep("- ", ""),
  deep("2^", ""),
  deep("max(1, ", ")"),
  (roll) => "9".repeat(oneOf([20, 300, 400, 5000], roll)),
  (roll) => `0.${"0".repeat(oneOf([20, 300, 400], roll))}1`,
  (roll) => `1${" + 1".repeat(oneOf([10, 95, 150, 3000], roll))}`,
  (roll) => "x".repeat(oneOf([50, 250, 5000, 250_000], roll)),
  (roll) => `[${"1 mm, ".repeat(oneOf([10, 1000, 20_000], roll))}1 mm]`,
  (roll) => `{${Array.from({ length: oneOf([10, 1000, 10_000], roll) }, (_, i) => `k${i}: 1 mm`).join(", ")}}`,
  (roll) => Array.from({ length: oneOf([5, 300, 4000], roll) }, (_, i) => `\n    - line: ${i} mm`).join(""),
  (roll) =>
    `\n${Array.from({ length: oneOf([5, 300, 2000], roll) }, (_, i) => `  - {name: n${i}, box: [0 mm, 0 mm, W, T], y: [0 mm, W]}`).join("\n")}\n`,
  (roll) => " ".repeat(oneOf([1, 7, 300, 20_000], roll)),
  (roll) => "\n".repeat(oneOf([1, 7, 20_000], roll)),
];

/** What the command line asks for; a text where it asks for something else. */
function asked(args: readonly string[]): { count: number; seed: number } | string {
  const wanted = { count: 10_000, seed: 1 };
  for (let i = 0; i < args.length; i++) {
    const isSeed = args[i] === "--seed";
    const text = isSeed ? args[++i] : args[i];
    if (text === undefined || !/^\d{1,15}$/.test(text))
      return `found ${text === undefined ? "nothing" : `"${text}"`}, expected a whole number: npm run mutate -- 100000 [--seed N]`;
    wanted[isSeed ? "seed" : "count"] = Number(text);
  }
  return wanted;
}

/** Runs the program and returns its exit code. */
export function main(args: readonly string[], say: (line: string) => void, murmur: (line: string) => void): number {
  const wanted = asked(args);
  if (typeof wanted === "string") {
    murmur(wanted);
    return 2;
  }
  const texts = readFolder(fileURLToPath(new URL("../../../examples/saltgrass", import.meta.url)));
  let spoke = performance.now();
  let told = 0;
  const { accepted, refused, crashes, slowest } = mutate(texts, wanted.count, wanted.seed, (tally) => {
    for (; told < tally.crashes.length; told++) {
      const { seed, file, what } = tally.crashes[told]!;
      murmur(`seed ${seed}, ${file}: ${what}\nAgain with: npm run mutate -- 1 --seed ${seed}`);
    }
    if (performance.now() - spoke < 1000) return;
    spoke = performance.now();
    const { accepted: a, refused: r } = tally;
    murmur(`${a + r} of ${wanted.count}: ${a} accepted, ${r} refused`);
  });
  murmur(`The longest reading took ${slowest.seconds.toFixed(2)} s, seed ${slowest.seed}.`);
  say(`${wanted.count} mutated files: ${accepted} accepted, ${refused} refused, ${crashes.length} crashes`);
  return crashes.length > 0 ? 1 : 0;
}

if (process.argv[1] !== undefined && pathToFileURL(process.argv[1]).href === import.meta.url)
  process.exitCode = main(
    process.argv.slice(2),
    (line) => process.stdout.write(`${line}\n`),
    (line) => process.stderr.write(`${line}\n`),
  );
