import {
  type Cure,
  type CureEffect,
  type CuresWithEffects,
  type CureWithEffects,
  showShare,
  showVerdict,
  unitOf,
} from "@tapeworthy/core";
import { type Paint, wrapped } from "./paint.ts";

const pathOf = (address: string): string => address.slice(address.indexOf("/") + 1);
/** A number to be written on a drawing: no more digits than it has. */
const drawn = (shownIn: string, v: number): string => {
  const inUnit = +(v / unitOf(shownIn).factor).toFixed(3);
  return `${`${inUnit}`.replace("-", "−")}${shownIn === "" ? "" : ` ${shownIn}`}`;
};

/** "tape.section.groove.depth from 2.8 mm to 2.85 mm" or "part motor, z by −0.15 mm". */
export function sayCure(cure: Cure): string {
  const { members, shownIn, from, to, by } = cure;
  return members.length === 1
    ? `${pathOf(cure.address)} from ${drawn(shownIn, from)} to ${drawn(shownIn, to)}`
    : `${pathOf(cure.address)} by ${by > 0 ? "+" : ""}${drawn(shownIn, by)}`;
}
/** What to write, one text a number. */
const writesOf = ({ members }: Cure): string[] =>
  members.map(({ address, text, written }) => `${pathOf(address)}: ${written}   (now ${text})`);

/** "so8-12 stops, fed before (clear.film)" */
export function sayEffect({ tape, before, after, checks }: CureEffect): string {
  const same = before.verdict === after.verdict;
  const verdict = same
    ? before.verdict === "depends"
      ? `${showVerdict(after.verdict, after.share)}, before ${showShare(before.share)}`
      : `still ${after.verdict}`
    : `${showVerdict(after.verdict, after.share)}, before ${showVerdict(before.verdict, before.share)}`;
  const changed = checks.map((c) => `${c.check} ${c.before} to ${c.after}${c.severity === "S" ? "" : " (no stopper)"}`);
  return `${tape} ${verdict}${changed.length > 0 ? ` (${changed.join(", ")})` : ""}`;
}

/** A cure in one line, for the list of verdicts: what it costs at this width, and what it would cost written for all of them. */
export function cureInShort(
  asked: CuresWithEffects,
  { tape, W }: { readonly tape: string; readonly W: number },
): string {
  const [cure] = asked.cures;
  if (!cure) return noCure(asked);
  const losing = cure.effects.filter((e) => e.tape !== tape && worse(e));
  const here = sayLosses(losing.filter((e) => e.W === W));
  const elsewhere = sayLosses(losing.filter((e) => e.W !== W));
  const own = cure.effects.find((e) => e.tape === tape);
  const spoilt = own ? worsened(own) : [];
  const rest =
    own && own.after.verdict !== "feeds"
      ? `; the tape then still ${sayRest(own)}${spoilt.length > 0 ? `, now by ${spoilt.join(" and ")} too` : ""}`
      : "";
  return `cure: ${sayCure(cure)}${rest}${here && `; it costs ${here}`}${elsewhere && `; write it for ${W} mm alone: for all widths it costs ${elsewhere}`}`;
}
const mostLosses = 4;
function sayLosses(losing: readonly CureEffect[]): string {
  const said = losing
    .slice(0, mostLosses)
    .map((e) =>
      e.after.verdict === e.before.verdict
        ? `${e.tape} ${worsened(e).join(" and ")}`
        : `${e.tape} ${showVerdict(e.after.verdict, e.after.share)}`,
    );
  return said.join(", ") + (losing.length > mostLosses ? ` and ${losing.length - mostLosses} more` : "");
}
const sayRest = ({ after }: CureEffect): string => showVerdict(after.verdict, after.share);
const rank = { stops: 0, depends: 1, feeds: 2, "n/a": 3 } as const;
const worsened = (e: CureEffect): string[] =>
  e.checks.filter((c) => c.severity === "S" && rank[c.after] < rank[c.before]).map((c) => c.check);
const worse = (e: CureEffect): boolean => rank[e.after.verdict] < rank[e.before.verdict] || worsened(e).length > 0;
function noCure({ nearest, levers }: CuresWithEffects): string {
  if (levers === 0) return "no cure: no number of the unit's file moves this check";
  return nearest
    ? `no one number cures it within its bounds; ${sayCure(nearest)} comes nearest, and holds in ${showShare(nearest.share)}`
    : "no one number cures it within its bounds";
}

/** Every cure with what to write and what it changes, tape by tape. */
export function cureLines(asked: CuresWithEffects, paint: Paint, width: number): string[] {
  const out = [paint.strong(`Cures of ${asked.check}`)];
  if (asked.cures.length === 0)
    return [
      ...out,
      ...wrapped(noCure(asked), width - 2)
        .split("\n")
        .map((l) => `  ${l}`),
    ];
  for (const cure of asked.cures) out.push(...one(cure, paint, width));
  return out;
}
function one(cure: CureWithEffects, paint: Paint, width: number): string[] {
  const line = (text: string, indent: string): string[] =>
    wrapped(`${indent}${text}`, width, `${indent}  `).split("\n");
  const out = line(`${sayCure(cure)}; holds then in ${showShare(cure.share)}`, "  ");
  for (const write of writesOf(cure)) out.push(...line(paint.faint(write), "      "));
  for (const effect of cure.effects) out.push(...line(sayEffect(effect), "    "));
  out.push(
    paint.faint(`    ${cure.effects.length > 0 ? "every other wanted tape" : "every wanted tape"} stays as it is`),
  );
  return out;
}
