import { apartEdit, toJson } from "@tapeworthy/project";
import type { FileEdit } from "../engine/engine.ts";

/** The line of the ledger that keeps a trial apart; why there is none. */
export function keptApart(
  texts: ReadonlyMap<string, string>,
  trial: string,
  reason: string,
  date: string,
): FileEdit | string {
  if (reason.trim() === "") return "Say why it is kept apart: the reason stands in the ledger.";
  const before = texts.get("ledger.yaml");
  const edit = apartEdit(before, trial, reason.trim(), date);
  return { file: edit.file, base: before, changes: toJson(edit.changes) };
}
