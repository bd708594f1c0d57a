import {
  type Dialect,
  type Imported,
  inUnit,
  type Remark,
  roles,
  showError,
  type Trace,
  unitOfRole,
} from "@tapeworthy/project";
import { type Paint, wrapped } from "./paint.ts";

const named: Readonly<Record<string, string>> = {
  ",": "comma",
  ";": "semicolon",
  "\t": "tab",
  "|": "bar",
  " ": "blank",
  ".": "point",
  "'": "apostrophe",
};
/** "separator semicolon, decimal comma, UTF-8, header in line 4". */
export function sayDialect(d: Dialect): string {
  const parts = [
    `separator ${named[d.separator]}`,
    `decimal ${named[d.decimal]}`,
    ...(d.thousands === "" ? [] : [`thousands ${named[d.thousands]}`]),
    d.encoding.toUpperCase(),
    d.header === 0 ? "no header" : `header in line ${d.header}`,
    ...(d.units === 0 ? [] : [`units in line ${d.units}`]),
    `rows from line ${d.first}`,
  ];
  const sure = d.sure >= 0.9 ? "sure" : d.sure >= 0.6 ? "fairly sure" : "not sure: look at the first rows";
  return `${parts.join(", ")} (${sure})`;
}
const plural = (n: number, one: string): string => `${n} ${one}${n === 1 ? "" : "s"}`;

export interface LogShown {
  readonly imported: Imported;
  readonly trial: string;
  readonly remembered: string | undefined;
  readonly written:
    | { readonly raw: string; readonly indexes?: string; readonly file: string; readonly run?: number }
    | undefined;
  readonly setAside: string | undefined;
}
/** What a log was taken for, what it says, and where it went. */
export function showLog(
  { imported, trial, remembered, written, setAside }: LogShown,
  paint: Paint,
  width: number,
): string {
  const { log, mapping, remarks, what } = imported;
  const out = [paint.strong(`${log.file}: ${plural(log.rows, "row")} of ${plural(log.columns.length, "column")}`)];
  const say = (text: string): void =>
    void out.push(
      ...wrapped(text, width - 2, "  ")
        .split("\n")
        .map((l) => `  ${l}`),
    );
  say(sayDialect(log.dialect));
  const wide = Math.max(...mapping.columns.map((c) => c.column.length));
  for (const c of mapping.columns) {
    const column = log.columns.find((one) => one.name === c.column)!;
    const gaps = column.gaps > 0 ? `, ${plural(column.gaps, "gap")}` : "";
    const more = `${c.reversed ? ", reversed" : ""}${c.zero === 0 ? "" : `, zero at ${c.zero}`}`;
    const because = remembered ? "" : c.because === "" ? " (as you say)" : ` (${c.because})`;
    const unit = c.unit === "" || roles[c.role].unit === "text" ? "" : ` in ${c.unit}`;
    out.push(`  ${c.column.padEnd(wide)}  ${c.role}${unit}${more}${gaps}${paint.faint(because)}`);
  }
  if (remembered) say(`Mapped as remembered under "${remembered}".`);
  else if (mapping.columns.some((c) => c.because !== ""))
    say('Where that is a wrong guess: --map "COLUMN=ROLE UNIT", and read it again.');
  out.push("");
  if (what.kind === "trace")
    out.push(
      ...traceLines(what, (row) => `line ${log.lineOf(row)}`).flatMap((t) =>
        wrapped(t, width - 2, "  ")
          .split("\n")
          .map((l) => `  ${l}`),
      ),
    );
  if (what.kind === "counts") {
    if (what.running) say("The counters run on: the last less the first counts.");
    for (const r of what.rows)
      say(
        `${[r.unit && `unit ${r.unit}`, r.reel && `reel ${r.reel}`, r.mode].filter((t) => t !== "").join(", ") || "all"}: ${plural(r.misfeeds, "misfeed")} in ${r.indexes} indexes`,
      );
  }
  if (what.kind === "readings") {
    const shown = what.rows.map((r) => inUnit(r.value, what.unit));
    say(`${plural(shown.length, "reading")}: ${shown.slice(0, 12).join(", ")}${shown.length > 12 ? " and more" : ""}`);
  }
  for (const r of remarks) out.push("", ...remarkLines(r));
  out.push("");
  if (!written) say("Nothing was written.");
  else {
    const kept = written.indexes ? `, statistics of each index in ${written.indexes}` : "";
    say(`All rows are kept in ${written.raw}${kept}.`);
    say(
      `${written.file} has it${written.run === undefined ? "" : ` as run ${written.run}`} of ${trial}${setAside ? `, set aside: ${setAside}` : ""}.`,
    );
  }
  return out.join("\n");
}
/** Flags of a run set anew, and what it says between them. */
export function showSettled(
  trial: string,
  run: number,
  trace: Trace,
  written: boolean,
  paint: Paint,
  width: number,
): string {
  const lines = [
    ...traceLines(trace, (row) => `row ${row + 1}`),
    written ? `bench/${trial}.yaml has it. Its rows stay as they are.` : "Nothing was written.",
  ];
  return [
    paint.strong(`Run ${run} of ${trial}`),
    ...lines.map((l) => `  ${wrapped(l, width - 2, "  ").replaceAll("\n", "\n  ")}`),
  ].join("\n");
}
const remarkLines = ({ first, count }: Remark): string[] => [
  ...showError(first)
    .split("\n")
    .filter((_, i) => first.lineText !== "" || i === 0 || i > 2),
  ...(count > 1 ? [`${count} times in all.`] : []),
];

function traceLines(trace: Trace, placeOf: (row: number) => string): string[] {
  const { of, summary: s, along, partedBy, time } = trace;
  const unit = unitOfRole(of);
  const q = (v: number): string => inUnit(+v.toPrecision(3), unit);
  const share = (v: number): string => `${+(100 * v).toPrecision(2)} %`;
  const place = (v: number): string =>
    along === "row" ? `row ${v}` : inUnit(+v.toPrecision(5), along === "travel" ? "mm" : "s");
  const lines = [
    `${of} on the plateau, ${place(s.plateau[0])} to ${place(s.plateau[1])}: mean ${q(s.mean)}, sd ${q(s.sd)}, from ${q(s.least)} to ${q(s.greatest)}`,
  ];
  const more: string[] = [];
  if (s.ripple !== undefined) more.push(`ripple ${share(s.ripple)}`);
  if (s.rippleAtP1 !== undefined) more.push(`${share(s.rippleAtP1)} of it with every pocket`);
  if (s.rippleAtP0 !== undefined) more.push(`${share(s.rippleAtP0)} with every hole`);
  if (s.trend !== undefined) more.push(`trend ${share(s.trend)}`);
  if (more.length > 0) lines.push(more.join(", "));
  const indexes = `${plural(s.indexes, "index").replace("indexs", "indexes")}${partedBy ? `, parted by ${partedBy}` : ""}`;
  lines.push(
    s.lagOne === undefined
      ? indexes
      : `${indexes}; lag-one correlation ${s.lagOne.toFixed(2)}, so they are worth ${+s.independent.toPrecision(2)} independent readings`,
  );
  if (s.outliers.length > 0)
    lines.push(
      `${plural(s.outliers.length, "outlier")}, kept and marked: ${s.outliers
        .slice(0, 8)
        .map((row, i) => (i === 0 ? placeOf(row) : placeOf(row).replace(/^\D*/, "")))
        .join(", ")}${s.outliers.length > 8 ? " and more" : ""}`,
    );
  if (time)
    lines.push(
      `time step ${inUnit(+time.step.toPrecision(4), time.step < 1 ? "ms" : "s")}${time.constant ? ", constant" : ", not constant"}`,
    );
  lines.push(...s.findings.map((f) => `${f}.`));
  return lines;
}
