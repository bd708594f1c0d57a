import { leastGaps } from "@tapeworthy/core";
import { escaped, type Shared } from "@tapeworthy/drawing";
import { idOf, withId } from "./anchor.ts";
import { boardHtml, mapTableHtml } from "./board.ts";
import { cautionsOf } from "./cautions.ts";
import { checkTables } from "./check-table.ts";
import { clearanceTable } from "./clearance-table.ts";
import { cureTables } from "./cure-table.ts";
import { panelHtml } from "./findings.ts";
import { inputTables } from "./input-table.ts";
import { ladderHtml } from "./ladder-figure.ts";
import { limitsOf } from "./limits.ts";
import type { ReportInput } from "./report-input.ts";
import { stripHtml } from "./strip.ts";
import type { UnitPart } from "./unit-part.ts";

/** Everything about one unit: strip, drawings and map beside the findings, then the tables under them. */
export function unitSection(part: UnitPart, input: ReportInput, n: number, shared: Shared): string {
  const { unit } = part;
  const prefix = `u${n}`;
  const cures = cureTables(part, shared);
  const rungs = input.ladders?.find((l) => l.unit === unit.unit);
  const scene = part.widths[0]?.scene;
  const departed = departures(part, input);
  const sections = [
    block(part, "checks", "Every check", checkTables(part, input, shared)),
    ...(cures === "" ? [] : [block(part, "cures", "Cures", cures)]),
    ...(rungs ? [block(part, "ladder", "Width ladder", ladderHtml(part, rungs, prefix, shared))] : []),
    block(
      part,
      "clearances",
      "Clearances",
      clearanceTable(part, leastGaps(unit.tapes.map(({ tape }) => ({ tape, scene: input.sceneOf(unit.unit, tape) })))),
    ),
    block(part, "inputs", "What the verdicts stand on", inputTables(part, input)),
    ...(departed === "" ? [] : [block(part, "departures", "Tapes that leave the catalogue", departed)]),
    block(part, "table", "The route map as a table", mapTableHtml(part)),
    ...(scene ? [block(part, "cautions", "Cautions", listed(cautionsOf(scene.unit)))] : []),
    block(part, "limits", `What this page can't tell of ${escaped(unit.name)}`, listed(limitsOf(part))),
  ];
  return `<section class="unit unit-${n}"${withId("unit", unit.unit)} aria-labelledby="${idOf("name", unit.unit)}">
${stripHtml(part, input)}
<div class="desk">
${boardHtml(part, prefix, shared)}
${panelHtml(part, input, prefix, shared)}
</div>
<div class="rest">
${sections.join("\n")}
</div>
</section>`;
}
const listed = (lines: readonly string[]): string => `<ul>${lines.map((l) => `<li>${escaped(l)}</li>`).join("")}</ul>`;
const block = ({ unit }: UnitPart, name: string, head: string, inner: string): string =>
  `<section class="block ${name}"${withId(name, unit.unit)} tabindex="-1"><h3>${head}</h3>\n${inner}\n</section>`;

/** Figures of the unit's wanted tapes outside the catalogue's; they are taken as they are. */
function departures({ unit }: UnitPart, { project }: ReportInput): string {
  const rows = unit.tapes.flatMap((row) =>
    (project.tapes.get(row.tape)?.tape.departures ?? []).map(
      (d) =>
        `<tr><th scope="row">${escaped(row.tape)}</th><td>${escaped(d.letter)}</td><td class="num">${escaped(d.found)}</td><td class="num">${escaped(d.catalogue)}</td><td><small>${escaped(d.source)}</small></td></tr>`,
    ),
  );
  if (rows.length === 0) return "";
  return `<p>Real tapes break the standard; these are taken as they are.</p><div class="scroll" tabindex="0" role="group" aria-label="Tapes of ${escaped(unit.name)} that leave the catalogue"><table class="list snug"><caption class="unseen">Tapes of ${escaped(unit.name)} that leave the catalogue</caption><thead><tr><th scope="col">tape</th><th scope="col">letter</th><th scope="col">in its file</th><th scope="col">catalogue</th><th scope="col">source</th></tr></thead><tbody>${rows.join("")}</tbody></table></div>`;
}
