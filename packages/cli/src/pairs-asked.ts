import { nearest, type Project } from "@tapeworthy/project";
import { CallError } from "./folder.ts";
import { tapeNamed } from "./index-command.ts";
import { unitNamed } from "./ladder-command.ts";

export interface Pair {
  readonly unit: string;
  readonly tape: string;
}
/** Pairs that --unit and --tape ask for: wanted ones, or the one named by both. Throws CallError with the way out. */
export function pairsAsked(
  project: Project,
  { unit, tape }: { readonly unit?: string; readonly tape?: string },
): Pair[] {
  const stem = unit === undefined ? undefined : unitNamed(project, unit);
  if (stem !== undefined && tape !== undefined) return [{ unit: stem, tape: tapeNamed(project, stem, tape) }];
  if (tape !== undefined && !project.tapes.has(tape)) {
    const near = nearest(tape, project.tapes.keys());
    throw new CallError(
      `There is no tape "${tape}".${near ? ` Did you mean "${near}"?` : ` Tapes here: ${[...project.tapes.keys()].join(", ")}.`}`,
    );
  }
  const pairs = [...project.wanted]
    .filter(([u]) => stem === undefined || u === stem)
    .flatMap(([u, tapes]) => tapes.map((t) => ({ unit: u, tape: t })))
    .filter((p) => tape === undefined || p.tape === tape);
  if (pairs.length === 0)
    throw new CallError(
      stem !== undefined
        ? `project.yaml wants no tape of ${stem}; name one with --tape.`
        : tape !== undefined
          ? `project.yaml wants ${tape} of no unit; name one with --unit.`
          : "project.yaml wants no tape of any unit.",
    );
  return pairs;
}
