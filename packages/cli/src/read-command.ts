import { createHash } from "node:crypto";
import { createReadStream, existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import { basename, join } from "node:path";
import { asWritten, finished, type Quantity, Realiser, type Scene, unitOf } from "@tapeworthy/core";
import {
  type Asked,
  added,
  applied,
  type ColumnMapping,
  type Edit,
  guessedMapping,
  headerOf,
  type Imported,
  type Item,
  imported,
  indexLog,
  inOne,
  inUnit,
  mappingItem,
  mappingWish,
  type NamedMapping,
  newTrial,
  type Project,
  plateauItem,
  type Role,
  rawOf,
  readLog,
  readTrial,
  readTrials,
  roleNames,
  setAside,
  statisticsItem,
  type Trial,
  trialPath,
  type Wish,
  withWishes,
} from "@tapeworthy/project";
import { type Command, Option } from "commander";
import { jsonOption, print, printJson, width } from "./call.ts";
import { CallError, readFolder, writeWhole } from "./folder.ts";
import { BadProject, load } from "./load.ts";
import { paintFor } from "./paint.ts";
import { showLog } from "./show-log.ts";
import { version } from "./version.ts";

interface ReadOptions {
  readonly trial: string;
  readonly unit?: string;
  readonly tape?: string;
  readonly question?: string;
  readonly built?: string;
  readonly reel?: string;
  readonly piece?: string;
  readonly map: readonly string[];
  readonly of?: Role;
  readonly plateau?: string;
  readonly date?: string;
  readonly setAside?: string;
  readonly dry?: true;
  readonly json?: true;
  readonly separator?: string;
  readonly decimal?: "." | ",";
  readonly thousands?: Wish["thousands"];
  readonly encoding?: Wish["encoding"];
  readonly header?: string;
  readonly unitsLine?: string;
  readonly first?: string;
  readonly texts: readonly string[];
}
const several = (value: string, before: readonly string[]): string[] => [...before, value];

/** `read`: a log into a trial. Nothing is written before the whole of it has been read. */
export function readCommand(program: Command): void {
  program
    .command("read")
    .description("read a log, typed readings or counts into a trial: bench/NAME.yaml, with all rows kept beside it")
    .argument("<folder>", "the project's folder")
    .argument("<log>", "the file as the recorder exported it")
    .requiredOption("--trial <name>", "the trial's name, such as T-01")
    .option("--unit <name>", "for a trial that is new: the unit's file, without .yaml")
    .option("--tape <name>", "for a trial that is new: the tape's file, without .yaml")
    .option("--question <address>", "for a trial that is new: the unknown it measures, or the check it tries")
    .option("--built <text>", "for a trial that is new: what was built")
    .option("--reel <name>", "which reel was on")
    .option("--piece <name>", "which built unit or piece ran")
    .addOption(
      new Option(
        "--map <column=role unit>",
        'what a column is: --map "pull=force N, reversed, zero 0.02"; may be repeated',
      )
        .default([] as string[])
        .argParser(several),
    )
    .addOption(new Option("--of <role>", "what to work statistics out of").choices(roleNames))
    .option("--plateau <from..to unit>", 'where the readings count, along the travel or in time: "20..190 mm"')
    .option("--date <day>", "the day it is read, as 2026-03-01; today where it is left out")
    .option("--set-aside <reason>", "the run does not count, and why; it stays in the file")
    .option("--dry", "show only; write nothing")
    .addOption(jsonOption())
    .addOption(new Option("--separator <sign>", "what parts the cells").choices([",", ";", "tab", "|", "blank"]))
    .addOption(new Option("--decimal <sign>", "the decimal mark").choices([".", ","]))
    .addOption(new Option("--thousands <sign>", "what parts groups of three digits").choices([".", ",", "'", " "]))
    .addOption(new Option("--encoding <name>", "the encoding").choices(["utf-8", "utf-16le", "utf-16be", "latin-1"]))
    .option("--header <line>", "the line of the names; 0 for none")
    .option("--units-line <line>", "the line of the units; 0 for none")
    .option("--first <line>", "the line of the first row")
    .addOption(
      new Option("--texts <column>", "a column of texts that look like numbers; may be repeated")
        .default([] as string[])
        .argParser(several),
    )
    .addHelpText(
      "after",
      '\nExamples:\n  tapeworthy read . run3.csv --trial T-01 --unit plover --tape so20-24 --question film.pull --dry\n  tapeworthy read . run3.csv --trial T-01 --reel C --map "pull=force cN, zero 1.5"\n  tapeworthy read . run2.csv --trial T-01 --set-aside "the camera lost the edge"',
    )
    .action(async (folder: string, log: string, options: ReadOptions) => {
      const texts = readFolder(folder);
      const project = load(texts);
      const bench = benchTexts(folder);
      const path = trialPath(trialName(options.trial));
      const before = bench.get(path);
      const trial = before === undefined ? undefined : trialIn(path, before, project);
      const markAlone = options.setAside === undefined ? undefined : await runOf(trial, log);
      if (trial && markAlone !== undefined) {
        const edit = setAside(before!, path, "runs", markAlone, options.setAside!);
        if (!options.dry) write(folder, edit, before!, before);
        if (options.json)
          printJson({ version, trial: trial.name, run: markAlone, setAside: options.setAside, written: !options.dry });
        else
          print(
            `Run ${markAlone} of ${trial.name} is set aside: ${options.setAside}. Its rows stay in ${trial.runs[markAlone - 1]!.raw}.`,
          );
        return;
      }
      const text = before ?? newTrialText(options, project);
      const now = trial ?? trialIn(path, text, project);
      const asked = {
        ...askedOf(now, project),
        ...(options.of ? { of: options.of } : {}),
        plateau: plateauOf(options.plateau),
      };
      const { result, sha, remembered } = await take(log, options, now, bench, asked);
      const twin = now.runs.find((r) => r.sha === sha);
      if (
        twin &&
        !options.dry &&
        twin.mapping.columns.every((c, i) => same(c, result.mapping.columns[i])) &&
        options.plateau === undefined
      )
        throw new CallError(
          `${basename(log)} has been read: it is run ${twin.number} of ${now.name}. Nothing was written.`,
        );
      const plan = planned(folder, path, text, now, result, sha, basename(log), options, remembered, twin?.number);
      if (!options.dry) {
        for (const { at, bytes } of plan.files) writeWhole(join(folder, at), bytes);
        write(folder, plan.edit, text, before);
      }
      const written = options.dry
        ? undefined
        : {
            raw: plan.raw,
            ...(plan.indexes ? { indexes: plan.indexes } : {}),
            file: path,
            ...(plan.run ? { run: plan.run } : {}),
          };
      if (options.json) printJson(jsonOf(result, now, sha, written));
      else
        print(
          showLog(
            { imported: result, trial: now.name, remembered, written, setAside: options.setAside },
            paintFor(process.stdout),
            width(),
          ),
        );
    });
}
const same = (a: ColumnMapping, b: ColumnMapping | undefined): boolean =>
  b !== undefined &&
  a.column === b.column &&
  a.role === b.role &&
  a.unit === b.unit &&
  a.reversed === b.reversed &&
  a.zero === b.zero;

/** Trials that are there already, as texts. */
function benchTexts(folder: string): Map<string, string> {
  const texts = new Map<string, string>();
  const full = join(folder, "bench");
  if (!existsSync(full) || !statSync(full).isDirectory()) return texts;
  for (const name of readdirSync(full).sort())
    if (name.endsWith(".yaml")) texts.set(`bench/${name}`, readFileSync(join(full, name), "utf8"));
  return texts;
}
function trialName(name: string): string {
  if (!/^[\p{L}\p{N}][\p{L}\p{N} ._-]{0,60}$/u.test(name))
    throw new CallError(`"${name}" is no name for a trial: letters, digits, dots and dashes, such as T-01.`);
  return name;
}
function trialIn(path: string, text: string, project: Project): Trial {
  const names = { units: [...project.units.keys()], tapes: [...project.tapes.keys()] };
  const { trial, errors } = readTrial(path, text, names);
  if (!trial) throw new BadProject(errors);
  return trial;
}
function newTrialText({ trial, unit, tape, question, built }: ReadOptions, project: Project): string {
  if (unit === undefined || tape === undefined || question === undefined)
    throw new CallError(
      `There is no trial ${trial} yet. Say what it tries: --unit ${[...project.units.keys()][0]} --tape ${[...project.tapes.keys()][0]} --question ADDRESS.`,
    );
  return newTrial({ trial, unit, tape, question, built });
}
/** The run that a log is, by its bytes or its name; undefined where it has not been read. */
async function runOf(trial: Trial | undefined, log: string): Promise<number | undefined> {
  if (!trial) return undefined;
  const sha = existsSync(log) && statSync(log).isFile() ? await shaOf(log) : undefined;
  const bySha = trial.runs.findLast((r) => r.sha === sha);
  const byName = trial.runs.filter((r) => r.log === basename(log) && r.setAside === undefined);
  return bySha?.number ?? (sha === undefined && byName.length === 1 ? byName[0]!.number : undefined);
}
async function shaOf(log: string): Promise<string> {
  const hash = createHash("sha256");
  for await (const chunk of createReadStream(log)) hash.update(chunk as Uint8Array);
  return hash.digest("hex");
}
function askedOf(trial: Trial, project: Project): Asked {
  const letters = project.tapes.get(trial.tape)?.tape.letters;
  const value = (q: Quantity | undefined): number | undefined =>
    q && new Realiser({} as Scene, [q]).run(asWritten).number(q);
  return { P1: value(letters?.P1), P0: value(letters?.P0) };
}
function plateauOf(text: string | undefined): readonly [number, number] | undefined {
  if (text === undefined) return undefined;
  const m = /^\s*(-?[\d.]+)\s*\.\.\s*(-?[\d.]+)\s*(mm|m|cm|s|ms)\s*$/.exec(text);
  const [from, to] = m ? [Number(m[1]), Number(m[2])] : [Number.NaN, Number.NaN];
  if (!m || !(from < to)) throw new CallError(`"${text}" is no plateau. For example: --plateau "20..190 mm".`);
  const { factor } = unitOf(m[3]!);
  return [from * factor, to * factor];
}
function wishOf(o: ReadOptions): Wish {
  const line = (text: string | undefined, name: string): number | undefined => {
    if (text !== undefined && !/^\d{1,7}$/.test(text))
      throw new CallError(`--${name} wants the number of a line, not "${text}".`);
    return text === undefined ? undefined : Number(text);
  };
  const separator = o.separator === "tab" ? "\t" : o.separator === "blank" ? " " : o.separator;
  const all = {
    separator,
    decimal: o.decimal,
    thousands: o.thousands,
    encoding: o.encoding,
    header: line(o.header, "header"),
    units: line(o.unitsLine, "units-line"),
    first: line(o.first, "first"),
    texts: o.texts.length > 0 ? o.texts : undefined,
  };
  return Object.fromEntries(Object.entries(all).filter(([, v]) => v !== undefined)) as Wish;
}

/** Reads, maps and works out a log; throws with everything that is wrong. */
async function take(
  path: string,
  options: ReadOptions,
  trial: Trial,
  bench: ReadonlyMap<string, string>,
  asked: Asked,
): Promise<{ result: Imported; sha: string; remembered: string | undefined }> {
  if (!existsSync(path) || !statSync(path).isFile()) throw new CallError(`There is no file "${path}".`);
  const hash = createHash("sha256");
  const chunks = async function* () {
    for await (const chunk of createReadStream(path, { highWaterMark: 1 << 18 })) {
      hash.update(chunk as Uint8Array);
      yield chunk as Uint8Array;
    }
  };
  const { log, errors } = await readLog(basename(path), chunks(), wishOf(options));
  if (!log) throw new BadLog(errors);
  const known = remembered(trial, bench, headerOf(log));
  const wishes = options.map.map((text) => {
    const wish = mappingWish(text, log);
    if (typeof wish === "string") throw new CallError(wish);
    return wish;
  });
  const mapping = withWishes(known ?? guessedMapping(log), wishes);
  const { imported: result, errors: more } = finished(imported(log, mapping, asked));
  if (!result) throw new BadLog(more);
  return { result, sha: hash.digest("hex"), remembered: known && wishes.length === 0 ? known.name : undefined };
}
/** Errors of a log. Exit 2. */
class BadLog extends BadProject {
  override text(): string {
    return super.text().replace(/in the project's files\. Nothing was computed\.$/, "in the log. Nothing was written.");
  }
}
/** How a log with this header was read before: in this trial, else in any other. */
function remembered(trial: Trial, bench: ReadonlyMap<string, string>, header: string): NamedMapping | undefined {
  const others = [...readTrials(bench).trials.values()].flatMap((t) => t.mappings);
  return [...trial.mappings].reverse().find((m) => m.header === header) ?? others.find((m) => m.header === header);
}

interface Plan {
  readonly edit: Edit;
  readonly files: readonly { readonly at: string; readonly bytes: Uint8Array }[];
  readonly raw: string;
  readonly indexes: string | undefined;
  readonly run: number | undefined;
}
/** Everything that is to be written, before anything is. */
function planned(
  folder: string,
  path: string,
  text: string,
  trial: Trial,
  result: Imported,
  sha: string,
  file: string,
  options: ReadOptions,
  known: string | undefined,
  twin: number | undefined,
): Plan {
  const { log, mapping, what, remarks } = result;
  const base = `bench/${trial.name}`;
  let n = trial.runs.length + 1;
  const nameOf = (kind: string): string => `${base}/${kind}${n === 1 ? "" : `-${n}`}.parquet`;
  while (existsSync(join(folder, nameOf("raw")))) n++;
  const raw = nameOf("raw");
  const read = options.date ?? new Date().toISOString().slice(0, 10);
  if (!/^\d{4}-\d\d-\d\d$/.test(read)) throw new CallError(`"${read}" is no day. Write it as 2026-03-01.`);
  const marks = [
    ...remarks.map(({ about, count, rows }) => ({ about, count, rows })),
    ...(what.kind === "trace" && what.summary.outliers.length > 0
      ? [{ about: "outlier" as const, count: what.summary.outliers.length, rows: what.summary.outliers }]
      : []),
  ];
  const files = [{ at: raw, bytes: finished(rawOf(log, { source: file, sha, read, mapping, marks })) }];
  let indexes: string | undefined;
  if (what.kind === "trace" && what.partedBy) {
    indexes = nameOf("indexes");
    const table = indexLog(indexes, what);
    files.push({
      at: indexes,
      bytes: finished(rawOf(table, { source: file, sha, read, mapping: { header: "", columns: [] }, marks: [] })),
    });
  }
  const here = trial.mappings.find(
    (m) => m.header === mapping.header && m.columns.every((c, i) => same(c, mapping.columns[i])),
  );
  const name = here?.name ?? nextName(trial.mappings, known);
  const aside = options.setAside;
  const run = trial.runs.length + 1;
  const item: Item = {
    log: file,
    raw,
    sha,
    read,
    mapping: name,
    reel: options.reel ?? preambleSays(log.preamble, /^(?:reel|rolle)$/i),
    unit: options.piece,
    ...(what.kind === "trace"
      ? { plateau: plateauItem(what), "set aside": aside, statistics: statisticsItem(what) }
      : { "set aside": aside }),
  };
  const steps: ((t: string) => Edit)[] = [];
  if (!here) steps.push((t) => added(t, path, "mapping", mappingItem(name, mapping)));
  if (twin !== undefined) steps.push((t) => setAside(t, path, "runs", twin, `read again as run ${run}`));
  steps.push((t) => added(t, path, "runs", item));
  const may = (value: string): string | undefined => (value === "" ? undefined : value);
  if (what.kind === "counts")
    for (const r of what.rows)
      steps.push((t) =>
        added(t, path, "counts", {
          unit: may(r.unit) ?? options.piece,
          reel: may(r.reel) ?? options.reel,
          indexes: `${r.indexes}`,
          misfeeds: `${r.misfeeds}`,
          mode: may(r.mode),
          run: `${run}`,
        }),
      );
  if (what.kind === "readings")
    for (const r of what.rows)
      steps.push((t) =>
        added(t, path, "readings", {
          reel: may(r.reel) ?? options.reel,
          unit: may(r.unit) ?? options.piece,
          value: inUnit(r.value, what.unit),
          by: may(r.by),
          run: `${run}`,
        }),
      );
  const edit = inOne(text, path, steps);
  // What is written must be readable again: else it is a fault of this program, and nothing is written.
  const { errors } = readTrial(path, applied(edit, text));
  if (errors.length > 0)
    throw new Error(`the trial's file could not be written so that it reads again: ${errors[0]!.message}`);
  return { edit: { ...edit, file: path }, files, raw, indexes, run };
}
const preambleSays = (
  lines: readonly { readonly key: string; readonly value: string }[],
  key: RegExp,
): string | undefined => lines.find((l) => key.test(l.key) && l.value !== "")?.value.slice(0, 60);
function nextName(mappings: readonly { readonly name: string }[], known: string | undefined): string {
  const taken = new Set(mappings.map((m) => m.name));
  if (known !== undefined && !taken.has(known)) return known;
  for (let i = 1; ; i++) if (!taken.has(`M${i}`)) return `M${i}`;
}
/** Writes a trial's file, unless somebody has changed it since it was read. */
function write(folder: string, edit: Edit, base: string, before: string | undefined): void {
  const full = join(folder, edit.file);
  const text = applied(edit, base);
  const still = () => (existsSync(full) ? readFileSync(full, "utf8") : undefined) === before;
  if (!writeWhole(full, text, still))
    throw new CallError(`${edit.file} was changed while the log was read. It is as it was; read the log again.`);
}

function jsonOf(result: Imported, trial: Trial, sha: string, written: object | undefined) {
  const { log, mapping, remarks, what } = result;
  return {
    version,
    trial: trial.name,
    log: log.file,
    sha,
    rows: log.rows,
    dialect: log.dialect,
    columns: mapping.columns.map((c) => {
      const column = log.columns.find((one) => one.name === c.column)!;
      return { ...c, gaps: column.gaps };
    }),
    preamble: log.preamble,
    remarks: remarks.map(({ about, first, count, rows }) => ({
      about,
      line: first.place.line,
      column: first.place.column,
      found: first.found,
      expected: first.expected,
      hint: first.hint ?? null,
      count,
      rows,
    })),
    ...(what.kind === "trace"
      ? { kind: what.kind, of: what.of, along: what.along, partedBy: what.partedBy ?? null, summary: what.summary }
      : what.kind === "counts"
        ? { kind: what.kind, running: what.running, counts: what.rows }
        : { kind: what.kind, unit: what.unit, readings: what.rows }),
    written: written ?? null,
  };
}
