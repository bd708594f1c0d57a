import { ChangeSet } from "@codemirror/state";
import {
  assumptionNames,
  type Given,
  isPlace,
  type MeasuredValue,
  measuredText,
  measuredValue,
  measuredWords,
} from "@tapeworthy/core";
import type { BenchResult, PieceReadings } from "./bench-evidence.ts";
import { applied, asValue, type Edit } from "./edit.ts";
import type { Trial } from "./log/trial.ts";
import { readProject, type Texts } from "./project.ts";
import { SourceFile } from "./source.ts";

/** A measured value on its way into the design. */
export interface Taking {
  readonly address: string;
  readonly was: string;
  readonly is: string;
  readonly comment: string;
  readonly value: MeasuredValue;
  readonly edit: Edit;
}

/** What taking a trial's reading into the design would write; why it can't be. */
export function takingOf(texts: Texts, trial: Trial, result: BenchResult, read: PieceReadings): Taking | string {
  const { direct } = result;
  if (result.state === "retired" || result.state === "in the design" || result.state === "apart")
    return `${trial.name} is ${result.says}`;
  if (!direct)
    return `${trial.name} tries ${trial.question}, which is no number of a file: it moves belief, and nothing is written`;
  const value = measuredValue(direct);
  const is = measuredText(direct.given, value, direct.per);
  const counted = `${value.n} ${direct.per}${value.n === 1 ? "" : "s"}`;
  const comment = `${trial.name}${trial.date === undefined ? "" : `, ${trial.date}`}, ${counted}${read.readings > value.n ? `, ${read.readings} readings` : ""}: ${measuredWords(direct.given, value)}`;
  const edit = editOf(texts, direct.given, is, comment);
  if (typeof edit === "string") return edit;
  // What is written must be read as what was meant: else it is a fault of ours, and nothing is written.
  const after = new Map(texts).set(edit.file, applied(edit, texts.get(edit.file)!));
  const { project: now, errors } = readProject(after);
  if (!now)
    throw new Error(`${direct.given.address} could not be written so that it reads again: ${errors[0]?.message}`);
  const found = now.givens.get(direct.given.address);
  if (found?.text !== is)
    throw new Error(`${direct.given.address} was written as "${is}" and reads as "${found?.text}"`);
  return { address: direct.given.address, was: direct.given.text, is, comment, value, edit };
}

/** The edit that gives a number another text and names the source at the end of its line. Every comment stays. */
function editOf(texts: Texts, given: Given, value: string, comment: string): Edit | string {
  if (isPlace(given.origin)) {
    const { file } = given.origin;
    const text = texts.get(file)!;
    const source = new SourceFile(file, text);
    const from = source.offset(given.origin);
    const quote = text[from] === '"' || text[from] === "'" ? text[from]! : "";
    const insert = quote === "" ? asValue(value) : `${quote}${value}${quote}`;
    const line = source.lineText(given.origin.line);
    const start = from - (given.origin.column - 1);
    const behind = line.slice(given.origin.column - 1 + given.origin.length);
    const commented = /\s#/.test(behind);
    const end = start + line.trimEnd().length;
    return {
      file,
      changes: ChangeSet.of(
        [
          { from, to: from + given.origin.length, insert },
          { from: end, insert: commented ? `; ${comment}` : `   # ${comment}` },
        ],
        text.length,
      ),
    };
  }
  const { address } = given;
  const assumption = assumptionNames.find((name) => `assume/${name}` === address);
  if (assumption !== undefined)
    return lineUnder(texts, "project.yaml", "assume", `${assumption}: ${asValue(value)}   # ${comment}`);
  const tape = /^tapes\/([^/]+)\/([^.]+)$/.exec(address);
  const file = tape && `tapes/${tape[1]}.yaml`;
  if (tape && file && texts.has(file)) {
    const text = texts.get(file)!;
    const line = `${tape[2]}: ${asValue(value)}   # ${comment}\n`;
    // Letters stand before what has members of its own.
    const at = text.search(/^[^\s#][^:\n]*:[^\S\n]*(#.*)?$/m);
    const from = at < 0 ? text.length : at;
    const before = from === text.length && text !== "" && !text.endsWith("\n") ? "\n" : "";
    return { file, changes: ChangeSet.of({ from, insert: before + line }, text.length) };
  }
  return `"${address}" is the catalogue's for every tape that gives none of its own. Write it into the tape's file: ${value}   # ${comment}`;
}
/** A line under a top-level key, which is added where it is not there. */
function lineUnder(texts: Texts, file: string, key: string, line: string): Edit {
  const text = texts.get(file)!;
  const block = new RegExp(`^${key}:[^\\S\\n]*(#.*)?\\n`, "m").exec(text);
  if (block)
    return { file, changes: ChangeSet.of({ from: block.index + block[0].length, insert: `  ${line}\n` }, text.length) };
  const head = text === "" || text.endsWith("\n") ? "" : "\n";
  return { file, changes: ChangeSet.of({ from: text.length, insert: `${head}${key}:\n  ${line}\n` }, text.length) };
}
