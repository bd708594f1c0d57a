import {
  citation,
  type Disagreement,
  disagreements,
  type Family,
  families,
  rowOf,
  type TapeKind,
  widthsOf,
} from "@tapeworthy/core";
import { wrapped } from "./paint.ts";

interface PrintedFigure {
  readonly value: number;
  readonly tol?: readonly [number, number];
  readonly limit?: "max" | "min" | "ref";
  readonly how: string;
  readonly sources: Parameters<typeof citation>[0];
  readonly note?: string;
}
const isFigure = (v: unknown): v is PrintedFigure =>
  typeof v === "object" && v !== null && "value" in v && "sources" in v;

/** One letter of a row: what the catalogue says, how it is known and where it stands. */
export interface CatalogueLine {
  readonly letter: string;
  readonly value: string;
  readonly how: string;
  readonly source: string;
  readonly note?: string;
}
export function catalogueLines(kind: TapeKind, width: number): CatalogueLine[] {
  const row = rowOf(kind, width);
  if (!row) return [];
  return Object.entries(row).flatMap(([letter, v]): CatalogueLine[] => {
    if (isFigure(v)) {
      const unit = letter === "rotation" ? "deg" : "mm";
      const tol = v.tol ? (v.tol[0] === -v.tol[1] ? ` ±${v.tol[1]}` : ` +${v.tol[1]}/${v.tol[0]}`) : "";
      const limit = v.limit === "max" ? " at most" : v.limit === "min" ? " at least" : "";
      return [
        {
          letter,
          value: `${v.value}${tol} ${unit}${limit}`,
          how: v.how,
          source: citation(v.sources),
          ...(v.note ? { note: v.note } : {}),
        },
      ];
    }
    if (letter !== "P1") return [];
    const p = row.P1;
    const list = "list" in p ? p.list.map((one) => one.value).join(", ") : `${p.from} to ${p.to} in steps of ${p.step}`;
    return [
      { letter, value: `${list} mm`, how: p.how, source: citation(p.sources), ...(p.note ? { note: p.note } : {}) },
    ];
  });
}
/** Where sources differ on a letter of that width, and what the catalogue takes. */
export const disagreementsOn = (width: number): readonly Disagreement[] =>
  disagreements.filter((d) => !d.widths || (d.widths as readonly number[]).includes(width));
/** Package families that usually come in tape of that kind and width. */
export const familiesIn = (kind: TapeKind, width: number): readonly Family[] =>
  families.filter((f) => f.kind === kind && f.W === width);

export function showCatalogue(kind: TapeKind, width: number, columns: number): string {
  const lines = catalogueLines(kind, width);
  const wide = Math.max(...lines.map((l) => l.letter.length));
  const values = Math.max(...lines.map((l) => l.value.length));
  const out = [`${kind[0]!.toUpperCase()}${kind.slice(1)} carrier tape, ${width} mm`, ""];
  for (const l of lines) {
    const head = `  ${l.letter.padEnd(wide)}  ${l.value.padEnd(values)}  ${l.how.padEnd(7)}  `;
    const text = wrapped(`${l.source}${l.note ? ` (${l.note})` : ""}`, Math.max(30, columns - head.length)).split("\n");
    out.push(head + text[0], ...text.slice(1).map((t) => " ".repeat(head.length) + t));
  }
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
