import { createHash } from "node:crypto";
import { createReadStream, existsSync, readFileSync, statSync } from "node:fs";
import { basename, join } from "node:path";
import { finished } from "@tapeworthy/core";
import {
  type Asked,
  askedOfLog,
  type Edit,
  guessedMapping,
  headerOf,
  type Imported,
  imported,
  mappingWish,
  newTrial,
  openRaw,
  openRun,
  type Project,
  plateauIn,
  type Role,
  readBefore,
  readLog,
  readTrial,
  rememberedMapping,
  roleNames,
  runOfLog,
  setAside,
  settleEdit,
  type Texts,
  type Trace,
  type Trial,
  takingLog,
  traceAt,
  trialPath,
  type Wish,
  whyNoTrialName,
  withWishes,
} from "@tapeworthy/project";
import { type Command, Option } from "commander";
import { orRefused, wrote } from "./bench-folder.ts";
import { jsonOption, ofNewTrial, print, printJson, width } from "./call.ts";
import { CallError, readFolder, writeWhole } from "./folder.ts";
import { BadProject, load } from "./load.ts";
import { paintFor } from "./paint.ts";
import { showLog, showSettled } from "./show-log.ts";
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
  readonly run?: string;
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
  ofNewTrial(
    program
      .command("read")
      .description("read a log, typed readings or counts into a trial: bench/NAME.yaml, with all rows kept beside it")
      .argument("<folder>", "the project's folder")
      .argument("[log]", "the file as the recorder exported it; left out with --run")
      .requiredOption("--trial <name>", "the trial's name, such as T-01"),
  )
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
    .option("--run <number>", "with --plateau: other flags for a run that was read, worked out from its kept rows")
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
      '\nExamples:\n  tapeworthy read . run3.csv --trial T-01 --unit plover --tape so20-24 --question film.pull --dry\n  tapeworthy read . run3.csv --trial T-01 --reel C --map "pull=force cN, zero 1.5"\n  tapeworthy read . run2.csv --trial T-01 --set-aside "the camera lost the edge"\n  tapeworthy read . --trial T-01 --run 2 --plateau "20..190 mm"',
    )
    .action(async (folder: string, path: string | undefined, options: ReadOptions) => {
      const texts = readFolder(folder);
      const project = load(texts);
      const file = trialPath(trialName(options.trial));
      const before = texts.get(file);
      const trial = project.trials.get(options.trial);
      if (options.run !== undefined) {
        if (path !== undefined) throw new CallError("A log is read, or the flags of a run are set: not both at once.");
        await settle({ folder, texts, project }, trial, options);
        return;
      }
      if (path === undefined)
        throw new CallError("Name the log to be read; or a run that was read, with --run and --plateau.");
      const aside = options.setAside;
      const run = aside === undefined || !trial ? undefined : runOfLog(trial, await shaOf(path), basename(path));
      if (trial && run !== undefined) {
        const edit = setAside(before!, file, "runs", run, aside!);
        if (!options.dry) write({ folder, texts }, edit);
        if (options.json) printJson({ version, trial: trial.name, run, setAside: aside, written: !options.dry });
        else print(`Run ${run} of ${trial.name} is set aside: ${aside}. Its rows stay in ${trial.runs[run - 1]!.raw}.`);
        return;
      }
      const text = before ?? newTrialText(options, project);
      const now = trial ?? trialIn(file, text, project);
      const plateau = plateauOf(options.plateau);
      const asked = { ...askedOfLog({ project }, now), ...(options.of ? { of: options.of } : {}), plateau };
      const { result, sha, remembered } = await take(path, options, now, project, asked);
      const why = options.dry ? undefined : readBefore(now, result, sha, plateau !== undefined);
      if (why !== undefined) throw new CallError(`${why} Nothing was written.`);
      const plan = orRefused(
        finished(
          takingLog({
            trial: now,
            before,
            text,
            imported: result,
            sha,
            read: options.date ?? new Date().toISOString().slice(0, 10),
            reel: options.reel,
            piece: options.piece,
            setAside: aside,
            known: remembered,
            exists: (at) => existsSync(join(folder, at)),
          }),
        ),
      );
      if (!options.dry) {
        for (const { at, bytes } of plan.files) writeWhole(join(folder, at), bytes);
        write({ folder, texts }, plan.edit);
      }
      const { raw, indexes } = plan;
      const written = options.dry ? undefined : { raw, ...(indexes ? { indexes } : {}), file, run: plan.run };
      if (options.json) printJson(jsonOf(result, now, sha, written));
      else
        print(
          showLog(
            { imported: result, trial: now.name, remembered, written, setAside: aside },
            paintFor(process.stdout),
            width(),
          ),
        );
    });
}
/** Other flags for a run that was read: its kept rows are read again, its statistics worked out anew. */
async function settle(
  { folder, texts, project }: { readonly folder: string; readonly texts: Texts; readonly project: Project },
  trial: Trial | undefined,
  options: ReadOptions,
): Promise<void> {
  if (!trial) throw new CallError(`There is no trial ${options.trial}.`);
  const run = trial.runs.find((r) => `${r.number}` === options.run);
  if (!run)
    throw new CallError(
      `${trial.name} has no run ${options.run}: it has ${trial.runs.length === 0 ? "none" : `1 to ${trial.runs.length}`}.`,
    );
  const plateau = plateauOf(options.plateau);
  if (!plateau) throw new CallError('Say where the readings count: --plateau "20..190 mm".');
  const at = join(folder, run.raw);
  if (!existsSync(at)) throw new CallError(`${run.raw} is gone: read ${run.log} again.`);
  const { raw, errors } = openRaw(run.raw, readFileSync(at));
  if (!raw) throw new BadLog(errors);
  const { columns, errors: more } = await openRun(raw, run.raw, run, askedOfLog({ project }, trial));
  if (!columns) throw new BadLog(more);
  const { trace, errors: last } = finished(traceAt(columns, plateau));
  if (!trace) throw new BadLog(last);
  const edit = settleEdit(texts.get(trial.path)!, trial.path, run.number, trace);
  if (!options.dry) write({ folder, texts }, edit);
  if (options.json) printJson(settledJson(trial, run.number, trace, !options.dry));
  else print(showSettled(trial.name, run.number, trace, !options.dry, paintFor(process.stdout), width()));
}
const settledJson = (trial: Trial, run: number, { of, along, summary }: Trace, written: boolean) => ({
  version,
  trial: trial.name,
  run,
  of,
  along,
  summary,
  written,
});

function trialName(name: string): string {
  const bad = whyNoTrialName(name);
  if (bad !== undefined) throw new CallError(bad);
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
/** SHA-256 of a file's bytes; undefined where there is no such file. */
async function shaOf(log: string): Promise<string | undefined> {
  if (!existsSync(log) || !statSync(log).isFile()) return undefined;
  const hash = createHash("sha256");
  for await (const chunk of createReadStream(log)) hash.update(chunk as Uint8Array);
  return hash.digest("hex");
}
const plateauOf = (text: string | undefined): readonly [number, number] | undefined =>
  text === undefined ? undefined : orRefused(plateauIn(text));
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
  project: Project,
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
  const known = rememberedMapping(trial, project.trials.values(), headerOf(log));
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
/** Writes a trial's file, unless somebody has changed it since it was read. */
function write(at: { readonly folder: string; readonly texts: Texts }, edit: Edit): void {
  if (!wrote(at, edit))
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
