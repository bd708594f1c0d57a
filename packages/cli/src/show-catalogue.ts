import {
  citation,
  type Disagreement,
  disagreements,
  type Family,
  families,
  hubForBend,
  leader,
  type Reel,
  type ReelWidth,
  reelA,
  reelB,
  reelC,
  reelD,
  reelFacts,
  reelN,
  reels,
  rowOf,
  type TapeKind,
  widthsOf,
} from "@tapeworthy/core";
import { wrapped } from "./paint.ts";

interface Known {
  readonly how: string;
  readonly sources: Parameters<typeof citation>[0];
  readonly note?: string;
}
interface PrintedFigure extends Known {
  readonly value: number;
  readonly tol?: readonly [number, number];
  readonly limit?: "max" | "min" | "ref";
}
interface PrintedRange extends Known {
  readonly low: number;
  readonly high: number;
}
const isKnown = (v: unknown): v is Known => typeof v === "object" && v !== null && "sources" in v;
const isFigure = (v: unknown): v is PrintedFigure => isKnown(v) && "value" in v;
const isRange = (v: unknown): v is PrintedRange => isKnown(v) && "low" in v;

/** One letter of a row: what the catalogue says, how it is known and where it stands. */
export interface CatalogueLine {
  readonly letter: string;
  readonly value: string;
  readonly how: string;
  readonly source: string;
  readonly note?: string;
}
const line = (letter: string, value: string, v: Known): CatalogueLine => ({
  letter,
  value,
  how: v.how,
  source: citation(v.sources),
  ...(v.note ? { note: v.note } : {}),
});
function figureLine(letter: string, v: PrintedFigure, unit = "mm"): CatalogueLine {
  const tol = v.tol ? (v.tol[0] === -v.tol[1] ? ` ±${v.tol[1]}` : ` +${v.tol[1]}/${v.tol[0]}`) : "";
  const limit = v.limit === "max" ? " at most" : v.limit === "min" ? " at least" : "";
  return line(letter, `${v.value}${tol} ${unit}${limit}`, v);
}
const rangeLine = (letter: string, v: PrintedRange): CatalogueLine => line(letter, `${v.low} to ${v.high} mm`, v);

export function catalogueLines(kind: TapeKind, width: number): CatalogueLine[] {
  const row = rowOf(kind, width);
  if (!row) return [];
  return Object.entries(row).flatMap(([letter, v]): CatalogueLine[] => {
    if (isFigure(v)) return [figureLine(letter, v, letter === "rotation" ? "deg" : "mm")];
    if (isRange(v)) return [rangeLine(letter, v)];
    if (letter !== "P1") return [];
    const p = row.P1;
    const list = "list" in p ? p.list.map((one) => one.value).join(", ") : `${p.from} to ${p.to} in steps of ${p.step}`;
    return [line(letter, `${list} mm`, p)];
  });
}
/** The reels that tape of that width comes on: diameters, hubs, widths, leader and trailer; widths only where a figure is known. */
export function reelLines(kind: TapeKind, width: number): CatalogueLine[] {
  const own: Reel | undefined = reels[width as ReelWidth];
  const R = rowOf(kind, width)?.R;
  return [
    ...reelA.map((f) => figureLine("A", f)),
    ...reelN.map((f) => figureLine("N", f)),
    ...(R ? [figureLine("N for R", hubForBend(R.value))] : []),
    figureLine("C", reelC),
    figureLine("D", reelD),
    figureLine("B", reelB),
    ...(own
      ? [
          figureLine("W1", own.W1),
          ...(own.W1makers ?? []).map((f) => figureLine("W1", f)),
          figureLine("W2", own.W2),
          ...(own.W2makers ?? []).map((f) => figureLine("W2", f)),
          ...(own.W3 ? [rangeLine("W3", own.W3)] : []),
        ]
      : []),
    figureLine("leader", leader.total),
    figureLine("of it empty", leader.empty),
    figureLine("of it carrier", leader.carrierEIA),
    figureLine("of it film alone", leader.moduleFilm),
    figureLine("trailer", leader.trailer),
    rangeLine("trailer", leader.moduleTail),
    figureLine("empty ends", leader.trimmerPitches, "pitches"),
  ];
}
/** Where sources differ on a letter of that width, and what the catalogue takes. */
export const disagreementsOn = (width: number): readonly Disagreement[] =>
  disagreements.filter((d) => !d.widths || (d.widths as readonly number[]).includes(width));
/** Package families that usually come in tape of that kind and width. */
export const familiesIn = (kind: TapeKind, width: number): readonly Family[] =>
  families.filter((f) => f.kind === kind && f.W === width);

function table(lines: readonly CatalogueLine[], columns: number): string[] {
  const wide = Math.max(...lines.map((l) => l.letter.length));
  const values = Math.max(...lines.map((l) => l.value.length));
  return lines.flatMap((l) => {
    const head = `  ${l.letter.padEnd(wide)}  ${l.value.padEnd(values)}  ${l.how.padEnd(7)}  `;
    const text = wrapped(`${l.source}${l.note ? ` (${l.note})` : ""}`, Math.max(30, columns - head.length)).split("\n");
    return [head + text[0], ...text.slice(1).map((t) => " ".repeat(head.length) + t)];
  });
}
export function showCatalogue(kind: TapeKind, width: number, columns: number): string {
  const out = [`${kind[0]!.toUpperCase()}${kind.slice(1)} carrier tape, ${width} mm`, ""];
  out.push(
    ...table(catalogueLines(kind, width), columns),
    "",
    "Reels it comes on",
    ...table(reelLines(kind, width), columns),
  );
  for (const f of reelFacts)
    out.push(
      ...wrapped(`${f.says} (${f.how}: ${citation(f.sources)})`, Math.max(30, columns - 2))
        .split("\n")
        .map((t) => `  ${t}`),
    );
  const differ = disagreementsOn(width);
  if (differ.length > 0) out.push("", "Where sources differ");
  for (const d of differ) {
    out.push(`  ${d.letters.join(", ")}: taken ${d.taken}; ${d.because}`);
    for (const s of d.says)
      out.push(
        ...wrapped(`${s.value}: ${citation(s.sources)}`, Math.max(30, columns - 6))
          .split("\n")
          .map((t, i) => `    ${i > 0 ? "  " : ""}${t}`),
      );
  }
  const parts = familiesIn(kind, width);
  if (parts.length > 0)
    out.push(
      "",
      "Parts that usually come in it (A0 x B0 x K0, pitch P1; the maker decides the width as much as the package)",
    );
  for (const f of parts) {
    const pocket = [f.A0, f.B0, f.K0 ?? f.T].every((v) => v !== undefined)
      ? `${f.A0} x ${f.B0} x ${f.K0 ?? f.T} mm`
      : "pocket not known";
    out.push(`  ${f.family.padEnd(28)} ${pocket.padEnd(24)} P1 ${f.P1} mm, ${f.how}`);
  }
  return out.join("\n");
}
export const catalogueWidths = (kind: TapeKind): readonly number[] => widthsOf(kind);
