import { firstStops, questionsOf } from "@tapeworthy/core";
import { counted, escaped, list, sayAddress, sayVerdict, shortName, stationWords } from "@tapeworthy/drawing";
import { toId, withId } from "./anchor.ts";
import type { ReportInput } from "./report-input.ts";
import type { UnitPart } from "./unit-part.ts";

/** The title strip of a unit: what it is, what it feeds, what is known of it, what is asked or stops first; and where to go from here. */
export function stripHtml(part: UnitPart, input: ReportInput): string {
  const { unit } = part;
  const { project, judged } = input;
  const { known } = judged;
  const revision = unit.revision === "" ? "" : `, revision ${unit.revision}`;
  const out = [
    cell("who", project.name, `<h2${withId("name", unit.unit)}>${escaped(unit.name + revision)}</h2>`, "raw"),
    cell("feeds", counted(unit.tapes.length, "wanted tape"), tallied(unit.tapes.map((t) => t.verdict))),
    cell("known", "Known units", known.of === 0 ? "nothing yet" : `${known.reproduced} of ${known.of} come out right`),
    nextHtml(part),
    widthsHtml(part),
    `<nav class="goto" aria-label="Parts of ${escaped(unit.name)}">${parts
      .map(([id, words]) => `<a${toId(id, unit.unit)}>${words}</a>`)
      .join("")}</nav>`,
  ];
  return `<header class="strip">${out.join("\n")}</header>`;
}
const parts = [
  ["findings", "Findings"],
  ["checks", "Checks"],
  ["inputs", "Inputs"],
  ["limits", "Limits"],
] as const;

const cell = (cls: string, small: string, strong: string, as: "text" | "raw" = "text"): string =>
  `<div class="${cls}"><small>${escaped(small)}</small>${as === "raw" ? strong : `<b>${escaped(strong)}</b>`}</div>`;

/** "4 feed, 1 depends, 6 stop" */
export function tallied(verdicts: readonly string[]): string {
  const of = (verdict: string): number => verdicts.filter((v) => v === verdict).length;
  const words = [
    `${of("feeds")} ${of("feeds") === 1 ? "feeds" : "feed"}`,
    ...(of("depends") > 0 ? [`${of("depends")} ${of("depends") === 1 ? "depends" : "depend"}`] : []),
    ...(of("stops") > 0 ? [`${of("stops")} ${of("stops") === 1 ? "stops" : "stop"}`] : []),
    ...(of("n/a") > 0 ? [`${of("n/a")} not applicable`] : []),
  ];
  return words.join(", ");
}

/** What to measure next, where something depends; else what stops first. */
function nextHtml({ unit }: UnitPart): string {
  const [question] = questionsOf(unit.tapes);
  if (question) {
    const row = unit.tapes.find((t) => t.tape === question.tapes[0])!;
    const small = `Measure next: ${counted(question.tapes.length, "tape")} ${question.tapes.length === 1 ? "hangs" : "hang"} on it`;
    return `<a class="next ask"${toId("finding", unit.unit, row.tape, row.first[0] ?? "")}><small>${escaped(small)}</small><b>${escaped(sayAddress(question.address))}</b></a>`;
  }
  const [stop] = firstStops(unit.tapes);
  if (!stop) return cell("next", "Stops first", "nothing: every wanted tape feeds");
  const row = unit.tapes.find((t) => t.tape === stop.tapes[0])!;
  const station = row.findings.find((f) => f.check === stop.check)?.station ?? 1;
  return `<a class="next"${toId("finding", unit.unit, row.tape, stop.check)}><small>${escaped(`Stops ${counted(stop.tapes.length, "tape")} first`)}</small><b>${escaped(`${shortName(stop.check)}, at the ${stationWords[station - 1]}`)}</b></a>`;
}

function widthsHtml({ unit, widths, first }: UnitPart): string {
  const links = widths.map((w) => {
    const words =
      w.rows.length === 0 ? "not wanted" : list(w.rows.map((r) => `${r.tape} ${sayVerdict(r.verdict, r.share)}`));
    const worst = w.rows.some((r) => r.verdict === "stops")
      ? " stops"
      : w.rows.some((r) => r.verdict === "depends")
        ? " depends"
        : "";
    return `<a class="${w === first ? "first" : ""}${worst}" data-to="${w.W}"${toId("width", unit.unit, `${w.W}`)} title="${escaped(words)}">${w.W}</a>`;
  });
  return `<nav class="widths" aria-label="Widths of ${escaped(unit.name)}, mm"><small>Drawn at, mm</small><span>${links.join("")}</span></nav>`;
}
