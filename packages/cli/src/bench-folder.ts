import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import {
  applied,
  canonicalTexts,
  type Edit,
  emptyLedger,
  type Ledger,
  ledgerPath,
  nearest,
  type Project,
  readLedger,
  readTrials,
  type Texts,
  type Trial,
} from "@tapeworthy/project";
import { CallError, readFolder, writeWhole } from "./folder.ts";
import { BadProject, load } from "./load.ts";

/** A project with its trials and its ledger, read. */
export interface BenchFolder {
  readonly folder: string;
  readonly project: Project;
  readonly texts: Texts;
  readonly trials: ReadonlyMap<string, Trial>;
  readonly ledger: Ledger;
  /** Text of the ledger; undefined where there is none yet. */
  readonly ledgerText: string | undefined;
  /** SHA-256 of the project's texts in their fixed order. */
  readonly sha: string;
}
export function openBench(folder: string): BenchFolder {
  const texts = readFolder(folder);
  const project = load(texts);
  const names = { units: [...project.units.keys()], tapes: [...project.tapes.keys()] };
  const { trials, errors } = readTrials(trialTexts(folder), names);
  const at = join(folder, ledgerPath);
  const ledgerText = existsSync(at) ? readFileSync(at, "utf8") : undefined;
  const read = ledgerText === undefined ? { ledger: emptyLedger, errors: [] } : readLedger(ledgerText);
  const all = [...errors, ...read.errors];
  if (all.length > 0 || !read.ledger) throw new BadProject(all);
  const sha = createHash("sha256").update(canonicalTexts(texts)).digest("hex");
  return { folder, project, texts, trials, ledger: read.ledger, ledgerText, sha };
}
function trialTexts(folder: string): Map<string, string> {
  const texts = new Map<string, string>();
  const full = join(folder, "bench");
  if (!existsSync(full) || !statSync(full).isDirectory()) return texts;
  for (const name of readdirSync(full).sort())
    if (name.endsWith(".yaml")) texts.set(`bench/${name}`, readFileSync(join(full, name), "utf8"));
  return texts;
}
export function trialNamed({ trials }: BenchFolder, name: string): Trial {
  const trial = trials.get(name);
  if (trial) return trial;
  const near = nearest(name, trials.keys());
  throw new CallError(
    `There is no trial "${name}".${near ? ` Did you mean "${near}"?` : trials.size === 0 ? ' There is none yet: begin with "tapeworthy freeze" or "tapeworthy read".' : ` There are: ${[...trials.keys()].join(", ")}.`}`,
  );
}
/** Writes one edit of a file whole, unless somebody has changed it since it was read; `before` is undefined for a file that was not there. */
export function writeEdit(folder: string, edit: Edit, before: string | undefined): void {
  const full = join(folder, edit.file);
  const still = (): boolean => (existsSync(full) ? readFileSync(full, "utf8") : undefined) === before;
  if (!writeWhole(full, applied(edit, before ?? ""), still))
    throw new CallError(`${edit.file} was changed meanwhile. It is as it was; call again.`);
}
