import { type CellMove, type CellShare, type EvidenceStanding, showShare } from "@tapeworthy/core";
import type { BenchResult } from "@tapeworthy/project";
import { type Paint, wrapped } from "./paint.ts";

const words = ({ verdict, share, first }: CellShare): string =>
  verdict === "n/a" ? "n/a" : `${verdict} ${showShare(share)}${first === undefined ? "" : ` (${first})`}`;
/** Cells before and after; those that moved by less than a point are counted. */
export function showMoves(moves: readonly CellMove[], untouched: number, paint: Paint): string {
  const told = moves.filter(
    (m) => m.before.verdict !== m.after.verdict || Math.abs(m.after.share - m.before.share) >= 0.01,
  );
  if (told.length === 0) return "No cell moves by a point or more.";
  const wide = Math.max(...told.map((m) => `${m.unit} ${m.tape}`.length));
  const lines = told.map((m) => {
    const turned = m.before.verdict !== m.after.verdict;
    const text = `  ${`${m.unit} ${m.tape}`.padEnd(wide)}  ${words(m.before)} -> ${words(m.after)}`;
    return turned ? paint.strong(text) : text;
  });
  const still = untouched + moves.length - told.length;
  return [
    `Cells before and after:`,
    ...lines,
    ...(still > 0 ? [`  ${still} others move by less than a point.`] : []),
  ].join("\n");
}
/** How what is shown after was worked out. */
interface Shown {
  readonly blunt: number;
  readonly ranAnew: readonly string[];
}
/** Every trial, and how it stands to belief. */
export function showResults(
  results: readonly BenchResult[],
  standings: readonly EvidenceStanding[],
  { blunt, ranAnew }: Shown,
  paint: Paint,
  width: number,
): string {
  if (results.length === 0) return "No trial yet.";
  const lines = results.map((r) => {
    const standing = standings.find((s) => s.trial === r.trial);
    const says = r.state === "used" ? (standing?.says ?? "left out of this answer") : r.says;
    const bare =
      r.state === "used" && !r.keyed
        ? "; nobody noted what it rests on, so a changed dimension would not retire it"
        : "";
    const text = `  ${r.trial}  ${r.question}: ${says}${bare}.`;
    const line = wrapped(text, width, "        ");
    return standing?.state === "contradicts" || r.state === "retired" ? paint.stops(line) : line;
  });
  const how = [
    ...(ranAnew.length > 0
      ? [`The map's draws are too few for ${ranAnew.join(", ")}: the cells were run anew with those readings in.`]
      : []),
    ...(blunt < 1
      ? [
          `The map's draws are too few to carry the rest whole: it counts as if it were ${+(1 / Math.sqrt(blunt)).toPrecision(2)} times less sure.`,
        ]
      : []),
  ].map((text) => `  ${wrapped(text, width - 2, "  ")}`);
  return ["Trials:", ...lines, ...how].join("\n");
}
