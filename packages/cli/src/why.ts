import { checkNamed, checks, explain, sayRecord, type TapeResult } from "@tapeworthy/core";
import { nearest, type Project, recordsOf, sceneOf } from "@tapeworthy/project";
import type { Command } from "commander";
import { type Common, type CuresWanted, checked, judging, open, print, printJson, weighedFor, width } from "./call.ts";
import { CallError } from "./folder.ts";
import { paintFor } from "./paint.ts";
import { showWhy } from "./show-why.ts";
import { version } from "./version.ts";

/** `why`: one check on one tape, down to file, line and column. */
export function whyCommand(program: Command): void {
  judging(
    program
      .command("why")
      .description("one check on one tape: the equation with its numbers, down to file, line and column")
      .argument("<check>", "the check's id, such as nip.pulls")
      .argument("[folder]", "the project's folder", ".")
      .requiredOption("--tape <name>", "the tape's file, without .yaml")
      .option("--unit <name>", "the unit's file, without .yaml; needed where several units want the tape"),
  )
    .addHelpText(
      "after",
      "\nExamples:\n  tapeworthy why film.mismatch --tape so20-24 --unit plover examples/saltgrass\n  tapeworthy why nip.slips --tape coil-12 --unit plover examples/saltgrass --json",
    )
    .action(async (id: string, folder: string, options: Common & { readonly tape: string; readonly unit?: string }) => {
      const check = checkNamed(id);
      if (!check) {
        const near = nearest(
          id,
          checks.map((c) => c.id),
        );
        throw new CallError(
          `There is no check "${id}".${near ? ` Did you mean "${near}"?` : ` There are: ${checks.map((c) => c.id).join(", ")}.`}`,
        );
      }
      const { project, texts } = open(folder, options.vary);
      const unit = unitFor(project, options.tape, options.unit);
      const weighed = await weighedFor(project, texts, options);
      const judged = async (tapes: readonly string[], cures: CuresWanted): Promise<TapeResult> => {
        const only: Project = { ...project, wanted: new Map([[unit, tapes]]) };
        const result = await checked(only, texts, options, cures, weighed);
        return result.units[0]!.tapes.find((t) => t.tape === options.tape)!;
      };
      let tape = await judged([options.tape], "none");
      const found = tape.findings.find((f) => f.check === check.id)!;
      // What a cure costs is seen on all tapes that are wanted of the unit.
      if (found.verdict === "stops" || found.verdict === "depends")
        tape = await judged([...new Set([options.tape, ...(project.wanted.get(unit) ?? [])])], {
          check: check.id,
          tape: options.tape,
        });
      const scene = sceneOf(project, unit, options.tape);
      const record = recordsOf(project.ledger).get(check.id);
      if (options.json) {
        const finding = tape.findings.find((f) => f.check === check.id)!;
        printJson({
          version,
          seed: options.seed,
          unit,
          tape: options.tape,
          finding,
          record: record ? { ...record, says: sayRecord(record) } : null,
          equations: explain(check, scene) ?? null,
          cures: tape.cures?.[0] ?? null,
        });
      } else print(showWhy(check, tape, scene, record, paintFor(process.stdout), width()));
    });
}

function unitFor(project: Project, tape: string, unit: string | undefined): string {
  if (!project.tapes.has(tape)) {
    const near = nearest(tape, project.tapes.keys());
    throw new CallError(
      `There is no tape "${tape}".${near ? ` Did you mean "${near}"?` : ` Tapes here: ${[...project.tapes.keys()].join(", ")}.`}`,
    );
  }
  const row = project.tapes.get(tape)!.tape.row;
  if (unit !== undefined) {
    const file = project.units.get(unit);
    if (!file) {
      const near = nearest(unit, project.units.keys());
      throw new CallError(
        `There is no unit "${unit}".${near ? ` Did you mean "${near}"?` : ` Units here: ${[...project.units.keys()].join(", ")}.`}`,
      );
    }
    if (!file.variants.has(row))
      throw new CallError(`${file.name} is not made for ${row} mm tape: it serves ${file.widths.join(", ")}.`);
    return unit;
  }
  const wanting = [...project.wanted].filter(([, tapes]) => tapes.includes(tape)).map(([stem]) => stem);
  if (wanting.length === 1) return wanting[0]!;
  throw new CallError(
    wanting.length === 0
      ? `No unit wants "${tape}"; name one with --unit.`
      : `${wanting.join(" and ")} want "${tape}"; name one with --unit.`,
  );
}
