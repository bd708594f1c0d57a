import { explain, questionsOf, type TapeResult } from "@tapeworthy/core";
import {
  decidedBy,
  escaped,
  findingHtml,
  knownHtml,
  list,
  markInline,
  type Shared,
  sayAddress,
  sayShare,
  sayVerdict,
  shortName,
} from "@tapeworthy/drawing";
import { toId, withId } from "./anchor.ts";
import { locatorHtml } from "./board.ts";
import type { Judged, ReportInput } from "./report-input.ts";
import { checkOf, type UnitPart, type WidthPart, type Written } from "./unit-part.ts";
import { waysOf } from "./ways.ts";

/** The panel of a unit: what is known, what to measure next, then width by width every tape and what is not plainly fine on it. */
export function panelHtml(part: UnitPart, input: ReportInput, prefix: string, shared: Shared): string {
  const { unit } = part;
  const widths = part.widths.map((w, i) => widthHtml(part, w, i, `${prefix}w${i}`, shared));
  return `<div class="panel"${withId("findings", unit.unit)} tabindex="-1">
${knownOf(part, input.judged)}
${questionsHtml(part)}
${widths.join("\n")}
</div>`;
}

/** What is known of this unit; where nothing is, what its verdicts lean on. */
function knownOf({ unit }: UnitPart, { known, units }: Judged): string {
  if (known.of === 0) return knownHtml(known, { level: 3 });
  const lines = known.lines.filter((l) => l.unit === unit.unit);
  if (lines.length === 0)
    return `<section class="tw-panel known"><h3 class="headline">Nothing is known yet of ${escaped(unit.name)} itself</h3><p>${
      known.weighed
        ? `Its verdicts lean on what is known of ${escaped(list([...new Set(known.lines.map((l) => units.find((u) => u.unit === l.unit)?.name ?? l.unit))]))}: belief is worth ${Math.round(known.effective)} of 1000 even draws.`
        : "The record of other units is not weighed in."
    } A line in known.yaml for this unit is worth more than six measurements.</p></section>`;
  const count = (standing: string): number => lines.filter((l) => l.standing === standing).length;
  return knownHtml(
    {
      ...known,
      lines,
      of: lines.length,
      reproduced: count("reproduced"),
      open: count("open"),
      contradicted: known.contradictedChecks,
    },
    { level: 3, ofOne: true },
  );
}

function questionsHtml({ unit }: UnitPart): string {
  const asked = questionsOf(unit.tapes);
  if (asked.length === 0) return "";
  const rows = asked.map(({ address, tapes }) => {
    const row = unit.tapes.find((t) => t.tape === tapes[0])!;
    const d = row.findings.find((f) => f.check === row.first[0])!.decisive!;
    return `<tr><th scope="row"><a class="name"${toId("finding", unit.unit, row.tape, row.first[0]!)}>${escaped(sayAddress(address))}</a></th><td>${escaped(list(tapes))}</td><td class="end">${escaped(sayShare(d.shareIfMeasured))}</td></tr>`;
  });
  return `<section class="tw-panel questions"><h3 class="headline">Measure next</h3>
<table><caption class="unseen">Unknowns by the days their answer saves</caption><thead><tr><th scope="col">unknown</th><th scope="col">tapes that hang on it</th><th scope="col" class="end">holds then, at its middle</th></tr></thead><tbody>${rows.join("")}</tbody></table></section>`;
}

function widthHtml(part: UnitPart, width: WidthPart, i: number, prefix: string, shared: Shared): string {
  const { unit } = part;
  const { W, rows } = width;
  const key = `${W}`;
  const twins = rows.flatMap((row) => {
    const of = twinOf(width, row);
    return of ? [{ row, of }] : [];
  });
  const tapes = rows
    .filter((row) => !twins.some((t) => t.row === row))
    .map((row) =>
      tapeHtml(
        part,
        width,
        row,
        twins.flatMap((t) => (t.of === row.tape ? [t.row] : [])),
        prefix,
        shared,
      ),
    )
    .join("\n");
  const none = `<p class="plain">No tape of ${W} mm is wanted of it; it is drawn with ${escaped(width.tape)}.</p>`;
  return `<section class="width"${withId("width", unit.unit, key)} data-w="${W}" style="--order:${11 + i * 10}" tabindex="-1">
<h3 class="headline">${W} mm tape</h3>
${rows.length === 0 ? none : tapes}
</section>`;
}

/** The tape that a tape says the same as in every finding that is written out; undefined where there is none. */
function twinOf(width: WidthPart, row: TapeResult): string | undefined {
  const written = width.written.filter((w) => w.row === row);
  const [first] = written;
  const of = first?.like?.row;
  return of && of.verdict === row.verdict && written.every((w) => w.like?.row === of) ? of.tape : undefined;
}

function tapeHtml(
  part: UnitPart,
  width: WidthPart,
  row: TapeResult,
  twins: readonly TapeResult[],
  prefix: string,
  shared: Shared,
): string {
  const { unit } = part;
  const cls = row.verdict === "n/a" ? "na" : row.verdict;
  const written = width.written.filter((w) => w.row === row);
  const verdict = `<span class="verdict ${cls}">${markInline(row.verdict, 13)} ${escaped(sayVerdict(row.verdict, row.share))}</span>`;
  const by =
    row.verdict === "feeds"
      ? decidedBy(row)
      : row.first.length > 1
        ? `first ${shortName(row.first[0]!)}, then ${list(row.first.slice(1).map(shortName))}`
        : "";
  const alone =
    row.share !== null && row.shareAlone !== null && Math.abs(row.share - row.shareAlone) > 0.005
      ? `${sayVerdict(row.verdictAlone, row.shareAlone)} before known units`
      : "";
  const notes = [by, alone].filter((s) => s !== "").join("; ");
  const findings = written
    .filter((w) => !w.like)
    .map((w) => writtenHtml(part, width, w, `${prefix}f${width.written.indexOf(w)}`, shared));
  return `<div class="tape ${cls}"${withId("tape", unit.unit, row.tape)} data-w="${row.W}" tabindex="-1">
<h4><a${toId("checks", unit.unit, row.tape)}>${escaped(row.tape)}</a> ${verdict}</h4>${notes === "" ? "" : `<p class="notes">${escaped(notes)}</p>`}${softHtml(part, row)}${alikeHtml(part, written)}${twins.map((twin) => twinHtml(part, width, twin)).join("")}
${findings.length > 0 ? `<div class="entries">${findings.join("\n")}</div>` : ""}
</div>`;
}

/** A tape that says the same as the one above it in every finding. */
function twinHtml({ unit }: UnitPart, width: WidthPart, row: TapeResult): string {
  const cls = row.verdict === "n/a" ? "na" : row.verdict;
  const links = width.written.filter((w) => w.row === row).map((w) => alikeLink(unit.unit, w));
  return `<p class="twin"${withId("tape", unit.unit, row.tape)} data-w="${row.W}" tabindex="-1"><a${toId("checks", unit.unit, row.tape)}><b>${escaped(row.tape)}</b></a> <span class="verdict ${cls}">${markInline(row.verdict, 13)} ${escaped(sayVerdict(row.verdict, row.share))}</span> <span class="notes">the same in every word: ${list(links)}</span></p>`;
}
/** Findings that say what an earlier one of the same width says: named, each with its own place on the page, and the way to that one. */
function alikeHtml({ unit }: UnitPart, written: readonly Written[]): string {
  const tapes = [...new Set(written.flatMap((w) => (w.like ? [w.like.row.tape] : [])))];
  return tapes
    .map((tape) => {
      const links = written.filter((w) => w.like?.row.tape === tape).map((w) => alikeLink(unit.unit, w));
      return `<p class="notes">The same in every word as on ${escaped(tape)}: ${list(links)}.</p>`;
    })
    .join("");
}
const alikeLink = (unit: string, { row, finding: f, overlay, like }: Written): string =>
  `<a class="alike"${withId("finding", unit, row.tape, f.check)} data-w="${row.W}"${overlay ? ` data-o="${overlay}"` : ""}${toId("finding", unit, like!.row.tape, f.check)}>${escaped(shortName(f.check))}</a>`;

/** Checks that never stop a tape and do not hold: named, with the way to their row. */
function softHtml({ unit }: UnitPart, row: TapeResult): string {
  const soft = row.findings.filter((f) => f.severity !== "S" && (f.verdict === "stops" || f.verdict === "depends"));
  if (soft.length === 0) return "";
  const links = soft.map((f) => `<a${toId("check", unit.unit, row.tape, f.check)}>${escaped(shortName(f.check))}</a>`);
  return `<p class="notes">Does not hold, but stops nothing: ${list(links)}.</p>`;
}

function writtenHtml(part: UnitPart, width: WidthPart, w: Written, prefix: string, shared: Shared): string {
  const { unit } = part;
  const { finding: f, row } = w;
  const at = [unit.unit, row.tape, f.check] as const;
  const attributes = `${withId("finding", ...at)} data-w="${row.W}"${w.overlay ? ` data-o="${w.overlay}"` : ""} tabindex="-1"`;
  const back = `<p class="back"><a${toId("cell", ...at)}>Back to the map</a> <a${toId("check", ...at)}>Its row among all checks</a></p>`;
  const { check } = checkOf(f, w.scene);
  const explained = check && explain(check, w.scene);
  const ways = waysOf(row, f.check);
  const zone = w.overlay ? width.sheet?.zones.get(w.overlay) : undefined;
  const html = findingHtml({
    finding: f,
    result: row,
    title: w.title,
    shownIn: w.shownIn,
    level: 5,
    width: 320,
    prefix,
    ...(ways.length > 0 ? { ways } : {}),
    trials: part.recordOf ? part.recordOf(f.check) : "none kept",
    most: 24,
    elsewhere: `tapeworthy why ${f.check} --tape ${row.tape} --unit ${unit.unit}`,
    equation: w.isFirst ? "shown" : "folded",
    ...(zone ? { zone } : {}),
    ...(explained ? { explained } : {}),
    more: { afterReason: locatorHtml(width, w, `${prefix}p`, shared), end: back },
  });
  return `<div class="entry${w.isFirst ? " leads" : ""}"${attributes}>${html}</div>`;
}
