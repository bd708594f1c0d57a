import type { CellMove, CellShare, Verdict } from "@tapeworthy/core";
import { headsAt } from "./finding.ts";
import { counted, sayVerdict, shortName } from "./say.ts";
import { escaped } from "./scene.ts";
import { markInline } from "./verdict-mark.ts";

/** One side of a cell that moves. */
export interface MovedSide {
  readonly verdict: Verdict;
  readonly words: string;
  /** The check that decides, as a person reads it. */
  readonly first: string | undefined;
}
export interface CellMoveRow {
  readonly unit: string;
  readonly tape: string;
  /** Check that decides it after, else the one that did before. */
  readonly check: string | undefined;
  readonly before: MovedSide;
  readonly after: MovedSide;
  /** Its verdict is another one. */
  readonly turned: boolean;
  readonly spoken: string;
}
const sideOf = ({ verdict, share, first }: CellShare): MovedSide => ({
  verdict,
  words: sayVerdict(verdict, Number.isNaN(share) ? null : share),
  first: first === undefined ? undefined : shortName(first),
});
/** Cells that move by a point or more, in their order; and how many do not. */
export function cellMoveRows(moves: readonly CellMove[]): {
  readonly rows: readonly CellMoveRow[];
  readonly still: number;
} {
  const rows = moves
    .filter((m) => m.before.verdict !== m.after.verdict || Math.abs(m.after.share - m.before.share) >= 0.01)
    .map(({ unit, tape, before, after }): CellMoveRow => {
      const [was, is] = [sideOf(before), sideOf(after)];
      const turned = before.verdict !== after.verdict;
      return {
        unit,
        tape,
        check: after.first ?? before.first,
        before: was,
        after: is,
        turned,
        spoken: `${tape} of ${unit}: ${was.words}${was.first === undefined ? "" : ` by ${was.first}`}, then ${is.words}${is.first === undefined ? "" : ` by ${is.first}`}`,
      };
    });
  return { rows, still: moves.length - rows.length };
}

/** The table of cells that move: tape, check that decides, before and after. */
export function cellMovesHtml(
  moves: readonly CellMove[],
  {
    level = 1,
    most = 12,
    link,
    still: others = 0,
    title = "Cells that move",
    note = "if you take it",
  }: {
    readonly level?: 1 | 2 | 3 | 4 | 5;
    readonly most?: number;
    readonly link?: (unit: string, tape: string, check: string | undefined) => string;
    /** Cells that nobody weighed: nothing of theirs rests on it. */
    readonly still?: number;
    readonly title?: string;
    readonly note?: string;
  } = {},
): string {
  const { part } = headsAt(level);
  const { rows, still } = cellMoveRows(moves);
  const units = new Set(rows.map((r) => r.unit));
  const shown = rows.slice(0, most);
  const said = ({ verdict, words }: MovedSide): string =>
    `<span class="verdict ${verdict === "n/a" ? "na" : verdict}">${markInline(verdict, 13)} ${escaped(words)}</span>`;
  const body = shown.map((r) => {
    const href = link?.(r.unit, r.tape, r.check);
    const name = escaped(r.tape);
    const by = r.after.first ?? r.before.first;
    const small = [...(by === undefined ? [] : [by]), ...(units.size > 1 ? [r.unit] : [])].join(", ");
    return `<tr${r.turned ? ' class="turned"' : ""}><th scope="row"><span class="name">${href === undefined ? name : `<a href="${escaped(href)}">${name}</a>`}</span>${small === "" ? "" : ` <small>${escaped(small)}</small>`}</th><td class="end">${said(r.before)}</td><td class="end"><span aria-hidden="true">→ </span>${said(r.after)}</td></tr>`;
  });
  const turned = rows.filter((r) => r.turned).length;
  const rest = still + others;
  const notes = [
    ...(rows.length > shown.length ? [`and ${rows.length - shown.length} more`] : []),
    ...(rest > 0 ? [`${counted(rest, "other cell")} ${rest === 1 ? "moves" : "move"} by less than a point`] : []),
  ];
  const turn = turned === 0 ? "no verdict turns" : `${counted(turned, "verdict")} ${turned === 1 ? "turns" : "turn"}`;
  return `<section class="tw-panel moves">${part(escaped(title), `${escaped(note)}${rows.length > 0 ? `; ${turn}` : ""}`)}
${rows.length === 0 ? `<p>No cell moves by a point or more.</p>` : `<table class="moves"><caption class="unseen">${escaped(title)}, ${escaped(note)}</caption><thead class="unseen"><tr><th scope="col">Tape</th><th scope="col">Before</th><th scope="col">After</th></tr></thead><tbody>${body.join("\n")}</tbody></table>`}
${notes.length > 0 ? `<p class="small">${notes.join("; ")}.</p>` : ""}</section>`;
}
