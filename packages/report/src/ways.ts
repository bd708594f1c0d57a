import { type Cure, type CureEffect, type TapeResult, unitOf } from "@tapeworthy/core";
import { list, sayAddress, sayShare, type WayOut } from "@tapeworthy/drawing";

/** The cures found for a check, as ways out of its finding: what moves, from and to, and the worst it does to the other tapes. */
export function waysOf({ cures, tape }: TapeResult, check: string): WayOut[] {
  const found = cures?.find((c) => c.check === check)?.cures ?? [];
  return found.map((cure) => ({
    what: sayAddress(cure.address),
    kind: "move",
    note: `holds in ${sayShare(cure.share)} of belief; ${costOf(cure.effects.filter((e) => e.tape !== tape))}`,
    change: sayMove(cure),
    address: cure.address,
  }));
}
/** "0.6 \u2192 1.05 mm" of one number; "by \u22120.15 mm" of several that move together. */
export function sayMove({ members, shownIn, from, to, by }: Cure): string {
  const unit = shownIn === "" ? "" : ` ${shownIn}`;
  return members.length > 1
    ? `by ${by > 0 ? "+" : ""}${drawnFigure(shownIn, by)}${unit}`
    : `${drawnFigure(shownIn, from)} \u2192 ${drawnFigure(shownIn, to)}${unit}`;
}
/** A number as a drawing has it: no more digits than it needs, three places at most. */
export const drawnFigure = (shownIn: string, v: number): string =>
  `${+(v / unitOf(shownIn).factor).toFixed(3)}`.replace("-", "\u2212");

const rank = { stops: 3, depends: 2, feeds: 1, "n/a": 0 } as const;
function costOf(others: readonly CureEffect[]): string {
  const worse = others.filter((e) => rank[e.after.verdict] > rank[e.before.verdict]);
  const better = others.filter((e) => rank[e.after.verdict] < rank[e.before.verdict]);
  const said = [
    ...(worse.length > 0 ? [`${list(worse.map((e) => e.tape))} ${worse.length === 1 ? "gets" : "get"} worse`] : []),
    ...(better.length > 0 ? [`${list(better.map((e) => e.tape))} ${better.length === 1 ? "gets" : "get"} better`] : []),
  ];
  return said.length > 0 ? said.join(", ") : "no other tape's verdict turns";
}
