import { existsSync, readFileSync, statSync } from "node:fs";
import { createRequire } from "node:module";
import type { Ladder } from "@tapeworthy/core";
import { familyOf, type Project, sceneOf, type Texts } from "@tapeworthy/project";
import { reportHtml } from "@tapeworthy/report";
import { Option } from "commander";
import type { Common } from "./call.ts";
import { CallError, writeWhole } from "./folder.ts";
import { Progress } from "./progress.ts";
import type { CheckResult } from "./run-check.ts";
import { runLadder } from "./run-ladder.ts";
import { version } from "./version.ts";

export const htmlOption = () =>
  new Option(
    "--html <file>",
    "write the report as well: one HTML file that needs nothing beside it, to read, print or send",
  );

/** Throws CallError where a folder stands in the place of the file: told before anything is computed. */
export function refuseFolder(path: string): void {
  if (existsSync(path) && statSync(path).isDirectory())
    throw new CallError(`"${path}" is a folder. Name a file: --html ${path.replace(/\/+$/, "")}/report.html`);
}

const { resolve } = createRequire(import.meta.url);
/** A file of the lettering as a data URI. */
export const fontData = (file: string): string =>
  `data:font/woff2;base64,${readFileSync(resolve(`@tapeworthy/drawing/fonts/${file}`)).toString("base64")}`;

/** The report of a judged project as the text of one HTML file, its lettering inside. */
function reportOf(project: Project, result: CheckResult, ladders: readonly Ladder[]): string {
  return reportHtml({
    project,
    judged: result,
    version,
    sceneOf: (unit, tape) => sceneOf(project, unit, tape),
    font: fontData,
    ladders,
  });
}

/** Climbs the ladders of the wanted units that have one. */
async function climbed(project: Project, texts: Texts, options: Common): Promise<readonly Ladder[]> {
  const units = [...project.wanted.keys()].filter((unit) => typeof familyOf(project, unit) !== "string");
  if (units.length === 0) return [];
  const progress = new Progress(process.stderr);
  const { seed, workers, known } = options;
  const { ladders } = await runLadder(project, texts, units, {
    seed,
    workers,
    useKnown: known,
    progress: progress.say,
  }).finally(() => progress.end());
  return ladders;
}

/**
 * Writes the report, whole or not at all, and says where on stderr: stdout is the answer's. The ladders in it are climbed here. Throws
 * CallError where the file can't be written.
 */
export async function writeReport(
  path: string,
  project: Project,
  texts: Texts,
  result: CheckResult,
  options: Common,
): Promise<void> {
  const text = reportOf(project, result, await climbed(project, texts, options));
  try {
    writeWhole(path, text);
  } catch (e) {
    throw new CallError(`"${path}" can't be written: ${(e as Error).message}`);
  }
  process.stderr.write(`Report: ${path}. Open it in a browser; it needs nothing beside it.\n`);
}
