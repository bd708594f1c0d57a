import { type Comparison, showIn, showVerdict } from "@tapeworthy/core";
import { type Paint, wrapped } from "./paint.ts";
import { bar, legend, scale } from "./show-ladder.ts";

/** A value of a check as a person reads it. */
const shown = (value: number | null, unit: string): string =>
  value === null ? "no value" : unit === "m" ? showIn("mm", value) : showIn(unit === "1" ? "" : unit, value);

/** Units beside each other: one scale of width, one table of tapes, what parts them. */
export function showCompare(c: Comparison, paint: Paint, width: number): string {
  const out: string[] = [];
  const say = (text: string, indent = "  "): void =>
    void out.push(
      ...wrapped(text, width - indent.length, "  ")
        .split("\n")
        .map((line) => indent + line),
    );
  out.push(paint.strong(`${c.units.map((u) => u.name).join(" and ")}, ${c.from} to ${c.to} mm`), "");
  for (const u of c.units) {
    const by = ` ${u.endedBy
      .slice(0, 3)
      .map(({ check, W }) => (u.feedsTo === null ? check : `${check} from ${+W.toPrecision(3)}`))
      .join(", ")}`;
    const to = `${u.feedsTo === null ? "" : +u.feedsTo.toPrecision(3)}`;
    if (!u.ladder) say(`${u.name} has no ladder: ${u.says}`);
    else if (u.feedsTo === null) say(`${u.name} does not feed its least width, ${u.ladder.from} mm:${by}.`);
    else if (u.endedBy.length === 0) say(`${u.name} feeds all its widths, to ${to} mm.`);
    else say(`${u.name} feeds to ${to} mm; what ends it:${by}.`);
  }
  const name = Math.max(12, ...c.units.map((u) => u.name.length)) + 2;
  const length = Math.max(24, width - name - 12);
  out.push("", paint.faint(`  ${" ".repeat(name)}${scale(c.rows, c.from, c.to, length)}  W, mm`));
  for (const u of c.units)
    out.push(`  ${u.name.padEnd(name)}${u.ladder ? bar(u.ladder.spans, c.from, c.to, length, paint) : "no ladder"}`);
  say(legend);
  out.push("", ...table(c, paint, width));
  if (c.separates.length > 0) out.push("", paint.strong("What parts them, on the narrowest tape on which it does"));
  for (const s of c.separates) {
    const values = s.values.map((v, i) => {
      const unit = c.units[i]!.name;
      if (!v) return `${unit} not applicable`;
      const word = v.verdict === "n/a" ? v.verdict : paint[v.verdict](v.verdict);
      return `${unit} ${word} at ${shown(v.value, v.in)}`;
    });
    say(`${s.check} (${s.title}), ${s.tape}: ${values.join("; ")}.`);
  }
  if (c.mount.length > 0) out.push("", paint.strong(`Room in the machine, at ${c.mount[0]!.tape}`));
  for (const m of c.mount)
    for (const [i, { says }] of m.values.entries()) say(`${c.units[i]!.name}, ${m.check}: ${says}`);
  return out.join("\n");
}

/** A line a tape: every unit's verdict and what stops it first. */
function table(c: Comparison, paint: Paint, width: number): string[] {
  const tape = Math.max(4, ...c.tapes.map((t) => t.tape.length));
  const column = Math.max(8, Math.min(34, Math.floor((width - tape - 6) / c.units.length) - 2));
  const cut = (text: string): string => (text.length > column ? `${text.slice(0, column - 1)}…` : text.padEnd(column));
  const head = `  ${"tape".padEnd(tape)}   W  ${c.units.map((u) => cut(u.name)).join("  ")}`;
  const lines = c.tapes.map(({ tape: t, W, cells }) => {
    const words = cells.map((cell) => {
      if (!cell) return cut("not served");
      const text = cut(`${showVerdict(cell.verdict, cell.share)}${cell.first ? ` ${cell.first}` : ""}`);
      return cell.verdict === "n/a" ? text : paint[cell.verdict](text);
    });
    return `  ${t.padEnd(tape)} ${String(W).padStart(3)}  ${words.join("  ")}`.trimEnd();
  });
  return [paint.faint(head.trimEnd()), ...lines];
}
