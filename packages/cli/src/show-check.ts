import {
  type DecisiveFinding,
  type Finding,
  questionsOf,
  showIn,
  showShare,
  showVerdict,
  type TapeResult,
  type Verdict,
} from "@tapeworthy/core";
import type { KnownLine, Project } from "@tapeworthy/project";
import { type Paint, wrapped } from "./paint.ts";
import type { CheckResult, UnitResult } from "./run-check.ts";
import { cureInShort, cureLines } from "./show-cures.ts";

/** "tips at 9.6 N (guess 5.0 N to 15 N); 22 % if measured at its median" */
export function showDecisive(d: DecisiveFinding): string {
  const measured = `${showShare(d.shareIfMeasured)} if it were measured at its median`;
  if (d.words)
    return `hangs on ${d.address}: ${d.words[0]} or ${d.words[1]}${d.tipping === null ? ", though not on it alone" : ""}; ${showShare(d.shareIfMeasured)} if it were known to be ${d.words[0]}`;
  const show = (v: number) => showIn(d.shownIn, v);
  const guess = `guess ${show(d.guess.low)} to ${show(d.guess.high)}`;
  return d.tipping === null
    ? `hangs on ${d.address} most, though on no number alone (${guess}); ${measured}`
    : `hangs on ${d.address}: tips at ${show(d.tipping)}${d.when ? ` with ${d.when.map((w) => `${w.address} ${w.word}`).join(" and ")}` : ""} (${guess}); ${measured}`;
}

/** The table of one unit: a line a tape, the first stopper's sentence, and what decides where it depends. */
function unitLines(unit: UnitResult, paint: Paint, width: number): string[] {
  const name = Math.max(4, ...unit.tapes.map((t) => t.tape.length));
  const out = [paint.strong(`${unit.name}${unit.revision === "" ? "" : `, revision ${unit.revision}`}`)];
  if (unit.tapes.length === 0) return [...out, "  no tape is wanted of it", ""];
  /** A cure already told, by its words, and for which tape. */
  const saidFor = new Map<string, string>();
  out.push(paint.faint(`  ${"tape".padEnd(name)}   W  verdict        stops first`));
  for (const tape of unit.tapes) {
    const verdict = showVerdict(tape.verdict, tape.share).padEnd(13);
    const painted = tape.verdict === "n/a" ? verdict : paint[tape.verdict](verdict);
    const head = `  ${tape.tape.padEnd(name)} ${String(tape.W).padStart(3)}  ${painted}`;
    const indent = " ".repeat(name + 23);
    const first = tape.findings.find((f) => f.check === tape.first[0]);
    if (!first) {
      out.push(head.trimEnd());
      continue;
    }
    const room = Math.max(30, width - indent.length);
    const text = [`${first.check}${letterOf(first)}: ${first.because}${first.where ? ` (${first.where})` : ""}`];
    if (first.nearest && tells(first.nearest.ratio))
      text.push(
        `${ratio(first.nearest.ratio)} times that of ${first.nearest.unit} on ${first.nearest.tape}, which runs`,
      );
    if (first.decisive && tape.verdict === "depends") text.push(showDecisive(first.decisive));
    if (tape.first.length > 1) text.push(`then ${tape.first.slice(1).join(", ")}`);
    const [cures] = tape.cures ?? [];
    if (cures) {
      const said = cureInShort(cures, tape);
      const before = saidFor.get(said);
      text.push(before ? `cure: as for ${before}` : said);
      saidFor.set(said, before ?? tape.tape);
    }
    if (tape.setting && tape.setting.exists > tape.setting.drawn + 0.1) text.push(showSetting(tape));
    const lines = text.flatMap((line) => wrapped(line, room).split("\n"));
    out.push(`${head}  ${lines[0]}`, ...lines.slice(1).map((line) => indent + line));
  }
  return [...out, ""];
}
/** A ratio worth reading: not one, and not against a value that is next to nothing. */
const tells = (v: number): boolean => v > 0.05 && v < 50 && Math.abs(v - 1) > 0.05;
const ratio = (v: number): string => (v >= 9.95 ? v.toFixed(0) : v.toFixed(1));
const letterOf = (f: Finding): string => (f.letter ? ` [${f.letter}]` : "");
export function showSetting({ setting }: TapeResult): string {
  const s = setting!;
  const better = s.atBest > s.drawn + 0.02 ? `; best near ${showIn(s.shownIn, s.best)}: ${showShare(s.atBest)}` : "";
  return `a setting of ${s.address} exists in ${showShare(s.exists)} of belief; the drawn one holds in ${showShare(s.drawn)}${better}`;
}

const counted = (n: number, word: string): string => `${n} ${word}${n === 1 ? "" : "s"}`;

function knownLines(result: CheckResult, paint: Paint): string[] {
  const { known } = result;
  if (known.of === 0)
    return [
      "What is known: nothing yet. A line in known.yaml for a unit that runs is worth more than six measurements.",
      "",
    ];
  const out = [paint.strong("What is known, before its own weight")];
  const wide = Math.max(...known.lines.map((l) => `${l.unit} on ${l.tape}`.length));
  for (const line of known.lines) out.push(`  ${`${line.unit} on ${line.tape}`.padEnd(wide)}  ${sayKnown(line)}`);
  out.push(
    known.weighed
      ? `  ${known.reproduced} of ${known.of} reproduced, ${known.open} open. Weighed in below: belief is worth ${Math.round(known.effective)} of 1000 even draws.`
      : `  ${known.reproduced} of ${known.of} reproduced, ${known.open} open. Not weighed in below.`,
  );
  if (known.contradictedChecks.length > 0)
    out.push(
      paint.stops(`  The record contradicts the checks ${known.contradictedChecks.join(", ")}: they stop no tape.`),
    );
  return [...out, ""];
}
function sayKnown({ result, reelsRun, reelsRefused, verdict, share, standing, checks }: KnownLine): string {
  const reels = reelsRun === null ? "" : ` (${reelsRefused ?? 0} of ${reelsRun} reels refused)`;
  const says = `${result}${reels}: the checks say ${showVerdict(verdict, share)}`;
  if (standing === "open") return `${says}, so it stays open`;
  return `${says}, ${standing}${checks.length > 0 ? ` by ${checks.join(", ")}` : ""}`;
}

/** Trials that are taken, those that contradict, and those of units on the list that wait to be taken. */
function trialLines(
  { known: { taken, retired }, waiting, units }: CheckResult,
  { trials }: Project,
  paint: Paint,
  width: number,
): string[] {
  const isListed = (trial: string): boolean => units.some(({ unit }) => unit === trials.get(trial)?.unit);
  const inBelief = taken.filter(({ state }) => state === "taken").map(({ trial }) => trial);
  return [
    ...(inBelief.length > 0 ? [wrapped(`Taken into belief: ${inBelief.join(", ")}.`, width, "  ")] : []),
    ...taken
      .filter(({ state }) => state === "contradicts")
      .map(({ trial, says }) => paint.stops(wrapped(`${trial} is taken, and ${says}.`, width, "  "))),
    ...retired.map(({ trial, says }) => paint.depends(wrapped(`${trial} was taken and is ${says}.`, width, "  "))),
    ...waiting
      .filter(({ trial }) => isListed(trial))
      .map(({ trial, says }) => wrapped(`${trial} waits: ${says}.`, width, "  ")),
  ];
}

/** The unknowns on which most of the open cells hang. */
function questionLines(result: CheckResult): string[] {
  const ranked = questionsOf(result.units.flatMap((u) => u.tapes));
  if (ranked.length === 0) return [];
  return [
    "What to measure next, by the days it saves (tapeworthy next says how):",
    ...ranked.slice(0, 5).map(({ address, tapes }) => `  ${address}: ${counted(tapes.length, "pair")}`),
    "",
  ];
}

/** Cures of every check that keeps a tape from feeding, at length. */
function curesLines(result: CheckResult, paint: Paint, width: number): string[] {
  return result.units.flatMap((unit) =>
    unit.tapes.flatMap((tape) =>
      (tape.cures ?? []).flatMap((cures) => [
        `${unit.name} on ${tape.tape}, ${tape.W} mm wide`,
        ...cureLines(cures, paint, width),
        "",
      ]),
    ),
  );
}

export interface Showing {
  readonly width: number;
  /** Cures at length, below the verdicts. */
  readonly cures?: boolean;
}
export function showCheck(result: CheckResult, project: Project, paint: Paint, { width, cures }: Showing): string {
  const all = result.units.flatMap((u) => u.tapes);
  const of = (verdict: Verdict) => all.filter((t) => t.verdict === verdict).length;
  const lines = [paint.strong(project.name), ""];
  lines.push(...knownLines(result, paint));
  const questions = questionLines(result);
  const mostlyOpen = all.length > 0 && of("depends") > 0.6 * all.length;
  if (mostlyOpen)
    lines.push(
      `${of("depends")} of ${counted(all.length, "wanted pair")} hang on something nobody has measured.`,
      ...questions,
    );
  const departures = [...project.tapes.values()].flatMap((t) => t.tape.departures.map((d) => ({ tape: t.stem, ...d })));
  if (departures.length > 0) {
    lines.push(paint.strong("Tapes that leave the catalogue, taken as they are"));
    for (const d of departures)
      lines.push(
        `  ${d.tape}: ${d.letter} is ${d.found}; the catalogue says ${d.catalogue} (${d.source.split(";")[0]})`,
      );
    lines.push("");
  }
  for (const unit of result.units) lines.push(...unitLines(unit, paint, width));
  if (cures) lines.push(...curesLines(result, paint, width));
  if (!mostlyOpen) lines.push(...questions);
  const na = of("n/a") > 0 ? `, ${of("n/a")} not applicable` : "";
  lines.push(
    `${counted(all.length, "wanted pair")}: ${of("feeds")} feed, ${of("depends")} depend, ${of("stops")} stop${na}.`,
  );
  lines.push(...trialLines(result, project, paint, width));
  lines.push(
    paint.faint(
      "Letters: m measured here, d from a drawing or standard, g guessed or remembered. Why: tapeworthy why CHECK --tape TAPE",
    ),
  );
  return lines.join("\n");
}
