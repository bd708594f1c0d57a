import { applied, keepingApart, type TakingIn, takingIn } from "@tapeworthy/project";
import { type Command, Option } from "commander";
import { beliefOf, movesOf, openBench, orRefused, trialNamed, writeEdit } from "./bench-folder.ts";
import { type Common, onBench, print, printJson, width } from "./call.ts";
import { CallError } from "./folder.ts";
import { paintFor } from "./paint.ts";
import { Progress } from "./progress.ts";
import { showMoves, showResults } from "./show-bench.ts";
import { version } from "./version.ts";

interface TakeOptions extends Omit<Common, "vary"> {
  readonly write?: true;
  readonly dry?: true;
  readonly apart?: string;
  readonly date?: string;
}
/** `take`: what a trial's result does to belief, and the measured value into the design where that is asked for. */
export function takeCommand(program: Command): void {
  onBench(
    program
      .command("take")
      .description(
        "what a trial does to the map; with --write its measured value into the design's file, with its source, or a tried check into belief",
      )
      .argument("<folder>", "the project's folder")
      .argument("<trial>", "the trial, such as T-01")
      .option(
        "--write",
        "write the measured value in place of the guess; of a tried check, into ledger.yaml that it is taken into belief",
      )
      .option("--dry", "show only, as without --write")
      .addOption(
        new Option("--apart <reason>", "keep the trial apart: it is not taken into belief, and why").conflicts([
          "write",
        ]),
      )
      .option("--date <day>", "the day that ledger.yaml notes, as 2026-03-01"),
  )
    .addHelpText(
      "after",
      '\nExamples:\n  tapeworthy take . T-01\n  tapeworthy take . T-01 --write\n  tapeworthy take . T-03 --apart "the scale was not zeroed"',
    )
    .action(async (folder: string, name: string, options: TakeOptions) => {
      if (options.write && options.dry) throw new CallError("--write and --dry exclude each other.");
      const bench = openBench(folder);
      const trial = trialNamed(bench, name);
      if (options.apart !== undefined) {
        if (options.apart.trim() === "") throw new CallError("--apart wants a reason.");
        const { edit } = orRefused(keepingApart(bench, name, options.apart, options.date));
        if (!options.dry) writeEdit(bench, edit);
        if (options.json) printJson({ version, trial: name, apart: options.apart, written: !options.dry });
        else print(`${name} is kept apart: ${options.apart}.${options.dry ? " Nothing was written." : ""}`);
        return;
      }
      const progress = new Progress(process.stderr);
      try {
        const asked = { seed: options.seed, workers: options.workers, known: options.known, progress: progress.say };
        const belief = await beliefOf(bench, asked, name);
        const result = belief.results.find((r) => r.trial === name)!;
        const standing = belief.taken.standings[0];
        const taking = takingIn(bench, trial, belief, options.date);
        if (options.write) {
          if (taking.kind === "nothing") throw new CallError(`${taking.why}. Nothing was written.`);
          writeEdit(bench, taking.edit);
        }
        const { moves, untouched, ranAnew, after } = await movesOf(bench, belief, asked, name);
        progress.end();
        if (options.json) {
          printJson({
            version,
            seed: options.seed,
            trial: name,
            question: trial.question,
            state: result.state,
            says: standing?.says ?? result.says,
            chance: standing?.chance ?? null,
            contradicts: standing?.state === "contradicts",
            effective: after.taken.effective,
            blunt: after.taken.blunt,
            ranAnew,
            changes: result.changes,
            taking: jsonOf(taking),
            cells: moves.map(({ unit, tape, before, after }) => ({ unit, tape, before, after })),
            written: options.write === true,
          });
          return;
        }
        const paint = paintFor(process.stdout);
        const out = [
          showResults([result], belief.taken.standings, { blunt: after.taken.blunt, ranAnew }, paint, width()).replace(
            /^Trials:\n/,
            "",
          ),
        ];
        if (taking.kind === "nothing") out.push(`Nothing to write: ${taking.why}.`);
        else {
          const { file } = taking.edit;
          const before = bench.texts.get(file) ?? "";
          out.push(
            `${options.write ? "Written into" : "Would write into"} ${file}:\n${changedLines(before, applied(taking.edit, before))}`,
          );
          if (taking.kind === "belief") out.push(`${taking.says}.`);
          for (const w of taking.kind === "design" ? taking.taking.value.warnings : []) out.push(`Warning: ${w}.`);
          if (standing?.state === "contradicts")
            out.push(
              `${options.write ? "It was written because you asked for it" : "It is written only if you ask for it"}: the readings lie where ${standing.blames} does not reach. Look first whether the set-up is that of the unit.`,
            );
          if (!options.write) out.push(`Take it with: tapeworthy take ${folder} ${name} --write`);
        }
        if (moves.length > 0) out.push(showMoves(moves, untouched, paint));
        print(out.join("\n"));
      } finally {
        progress.end();
      }
    });
}
const jsonOf = (of: TakingIn) => {
  if (of.kind !== "design") return { why: of.kind === "belief" ? of.says : of.why };
  const { taking } = of;
  return {
    file: taking.edit.file,
    address: taking.address,
    was: taking.was,
    is: taking.is,
    comment: taking.comment,
    middle: taking.value.middle,
    low: taking.value.low,
    high: taking.value.high,
    scatter: taking.value.scatter,
    scatterOfLogarithm: taking.value.log,
    pieces: taking.value.n,
    warnings: taking.value.warnings,
  };
};
/** Lines that differ, before and after. */
function changedLines(before: string, after: string): string {
  const [a, b] = [before.split("\n"), after.split("\n")];
  let from = 0;
  while (from < a.length && a[from] === b[from]) from++;
  let [endA, endB] = [a.length, b.length];
  while (endA > from && endB > from && a[endA - 1] === b[endB - 1]) {
    endA--;
    endB--;
  }
  return [...a.slice(from, endA).map((l) => `  - ${l}`), ...b.slice(from, endB).map((l) => `  + ${l}`)].join("\n");
}
