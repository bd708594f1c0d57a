import { type Finding, figures, showIn, type TapeResult } from "@tapeworthy/core";
import {
  decidedBy,
  escaped,
  letterMark,
  markInline,
  type Shared,
  sayMargin,
  sayShare,
  sayVerdict,
  severityWords,
  stationWords,
} from "@tapeworthy/drawing";
import { idOf, toId, withId } from "./anchor.ts";
import type { ReportInput } from "./report-input.ts";
import { checkOf, type UnitPart, writtenOf } from "./unit-part.ts";

/** Every check on every tape: value, bounds, ratio, margin, what it stands on, status, and its sentence. A table a tape, folded. */
export function checkTables(part: UnitPart, input: ReportInput, shared: Shared): string {
  return part.unit.tapes.map((row) => tapeTable(part, row, input, shared)).join("\n");
}

function tapeTable({ unit }: UnitPart, row: TapeResult, input: ReportInput, shared: Shared): string {
  const scene = input.sceneOf(unit.unit, row.tape);
  const cls = row.verdict === "n/a" ? "na" : row.verdict;
  const written = new Set(writtenOf(row).map((f) => f.check));
  const applied = row.findings.filter((f) => f.verdict !== "n/a");
  const absent = row.findings.filter((f) => f.verdict === "n/a");
  const lines = applied.map((f) => rowHtml(unit.unit, row, f, checkOf(f, scene).shownIn, written.has(f.check), shared));
  const none =
    absent.length === 0
      ? ""
      : `<p class="notes">Not applicable, which is no pass: ${absent.map((f) => `${escaped(f.check)} (${escaped(reasonOf(f))})`).join("; ")}.</p>`;
  const by = decidedBy(row);
  return `<details class="checks"${withId("checks", unit.unit, row.tape)}><summary><h4>${escaped(row.tape)} <small>${row.W} mm</small> <span class="verdict ${cls}">${markInline(row.verdict, 13)} ${escaped(sayVerdict(row.verdict, row.share))}</span> <small>${escaped(by)}</small></h4></summary>
<div class="scroll" tabindex="0" role="group" aria-label="Every check of ${escaped(unit.name)} on ${escaped(row.tape)}"><table class="list"><caption class="unseen">Every check of ${escaped(unit.name)} on ${escaped(row.tape)}</caption>
<thead><tr><th scope="col">check</th><th scope="col">verdict</th><th scope="col" class="end">value</th><th scope="col">it must be</th><th scope="col" class="end">ratio</th><th scope="col" class="end">margin</th><th scope="col">stands on, status</th><th scope="col">in words</th></tr></thead>
<tbody>
${lines.join("\n")}
</tbody></table></div>${none}</details>`;
}
const reasonOf = (f: Finding): string => f.because.replace(/^Not applicable: /, "").replace(/\.$/, "");

/** "at least 0.19 mm, at most 0.80 mm" */
export function boundWords({ bounds }: Pick<Finding, "bounds">, shownIn: string): string {
  const say = (word: string, v: number | undefined): string[] =>
    v === undefined || v === null || !Number.isFinite(v) ? [] : [`${word} ${showIn(shownIn, v)}`];
  return [...say("at least", bounds.least), ...say("at most", bounds.most)].join(", ");
}

function rowHtml(unit: string, row: TapeResult, f: Finding, shownIn: string, written: boolean, shared: Shared): string {
  const soft = f.severity !== "S";
  const cls = soft ? "soft" : f.verdict;
  const verdict = soft
    ? f.verdict === "feeds"
      ? "holds"
      : f.verdict === "depends"
        ? `holds in ${sayShare(f.share!)}`
        : "does not hold"
    : sayVerdict(f.verdict, f.share);
  const at = [unit, row.tape, f.check] as const;
  const name = written
    ? `<a${toId("finding", ...at)}>${escaped(f.check)}</a>`
    : `<a${toId("cell", ...at)}>${escaped(f.check)}</a>`;
  const value = f.value === null ? "no answer" : showIn(shownIn, f.value, 2);
  const notes = [
    f.status,
    ...(soft ? [severityWords[f.severity]] : []),
    ...(f.contradicted ? ["contradicted, ranks only"] : []),
  ].join("; ");
  const letter = f.letter ? `${letterMark(f.letter)}${f.more > 0 ? ` <small>+${f.more}</small>` : ""}` : "";
  return `<tr id="${idOf("check", ...at)}" class="${cls}" data-w="${row.W}"${row.first[0] === f.check && row.verdict !== "feeds" ? ' aria-description="stops it first"' : ""}><th scope="row"><span class="station" title="${escaped(stationWords[f.station - 1]!)}">${f.station}</span> ${name}</th><td><span class="verdict ${cls}">${soft ? "" : markInline(f.verdict, 12, shared)} ${escaped(verdict)}</span></td><td class="end num">${escaped(value)}</td><td class="num">${escaped(boundWords(f, shownIn))}</td><td class="end num">${escaped(ratioText(f))}</td><td class="end num">${escaped(shortMargin(f))}</td><td class="num">${letter}${notes === "" ? "" : ` <small>${escaped(notes)}</small>`}</td><td class="words">${escaped(f.because)}${f.where ? ` <small>(${escaped(f.where)})</small>` : ""}</td></tr>`;
}
/** A ratio that is nothing but rounding is 0. */
const ratioText = ({ ratio }: Finding): string =>
  ratio === null || !Number.isFinite(ratio) ? "" : figures(Math.abs(ratio) < 1e-9 ? 0 : ratio);
const shortMargin = (f: Finding): string =>
  f.marginBy === "cannot fail as drawn" ? "can't fail" : sayMargin(f).replace("about ", "~\u2009");
