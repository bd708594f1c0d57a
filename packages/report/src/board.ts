import { checkNamed } from "@tapeworthy/core";
import {
  escaped,
  locator,
  type MapInput,
  mapColumns,
  routeMap,
  routeTable,
  type Shared,
  toSvg,
} from "@tapeworthy/drawing";
import { idOf } from "./anchor.ts";
import type { UnitPart, WidthPart, Written } from "./unit-part.ts";

/** The drawings of a unit, one a width, and its route map below: what stays in sight while the findings are read. */
export function boardHtml(part: UnitPart, prefix: string, shared: Shared): string {
  const { unit } = part;
  const name = escaped(unit.name);
  const sheets = part.widths.map((w, i) => {
    const first = w === part.first ? " first" : "";
    const words = `Drawing of ${name} at ${w.W} mm`;
    const inner = w.sheet
      ? toSvg(w.sheet, { prefix: `${prefix}s${i}`, shared })
      : `<p class="trouble">It can't be drawn: ${escaped(w.trouble ?? "")}</p>`;
    return `<div class="sheet scroll${first}" data-at="${w.W}" style="--order:${10 + i * 10}" tabindex="0" role="group" aria-label="${words}">${inner}</div>`;
  });
  const map = toSvg(routeMap(mapInput(part), { width: 928, rowHeight: 24, leastCell: 14 }), {
    prefix: `${prefix}m`,
    shared,
    role: "group",
  });
  return `<div class="board">
<h3 class="unseen">Drawings of ${name}</h3>
${sheets.join("\n")}
<div class="map scroll" tabindex="0" role="group" aria-label="Route map of ${name}"><h3 class="unseen">Route map of ${name}</h3>
<a class="skip" href="#${idOf("findings", unit.unit)}">Past the map to the findings</a>
${map}</div>
</div>`;
}

/** The map with its links: to the finding where one is written, else to the row of the check. */
export function mapInput(part: UnitPart): MapInput {
  const { unit } = part;
  const written = new Map(part.widths.flatMap((w) => w.written.map((one) => [keyOf(one), { W: w.W, one }] as const)));
  const titles: Record<string, string> = {};
  for (const { check } of mapColumns(unit.tapes)) {
    const title = checkNamed(check)?.title;
    if (title !== undefined) titles[check] = title;
  }
  return {
    unit: unit.name,
    rows: unit.tapes,
    titles,
    link: (row, f) => {
      if (f.verdict === "n/a") return undefined;
      const there = written.get(`${row.tape} ${f.check}`);
      const id = idOf("cell", unit.unit, row.tape, f.check);
      const data = { w: `${row.W}`, ...(there?.one.overlay ? { o: there.one.overlay } : {}) };
      return { href: `#${idOf(there ? "finding" : "check", unit.unit, row.tape, f.check)}`, id, data };
    },
  };
}
const keyOf = ({ row, finding }: Written): string => `${row.tape} ${finding.check}`;

/** The same map as a table. */
export const mapTableHtml = (part: UnitPart): string =>
  `<div class="scroll" tabindex="0" role="group" aria-label="Route map of ${escaped(part.unit.name)} as a table">${routeTable(mapInput(part), { id: idOf("map-table", part.unit.unit) })}</div>`;

/** A small drawing of where a finding acts. */
export function locatorHtml(width: WidthPart, written: Written, prefix: string, shared: Shared): string {
  const { sheet } = width;
  if (!sheet || written.overlay === "") return "";
  return `<div class="where">${toSvg(locator(sheet, written.overlay, { width: 300 }), { prefix, shared })}</div>`;
}
