import { type BeliefBand, figures, type Misfeeds, type ModeRate } from "@tapeworthy/core";
import { perMillion } from "@tapeworthy/drawing";
import type { MisfeedResult, PairMisfeeds } from "./misfeed-command.ts";
import { type Paint, wrapped } from "./paint.ts";

const least = 1e-9;
/** A rate per million indexes; below what is told apart, that. */
const rate = (p: number): string => (p < least ? `<${perMillion(least)}` : perMillion(p));
const band = ({ low, high }: BeliefBand): string => `${rate(low)} .. ${rate(high)}`;
const share = (p: number | undefined): string =>
  p === undefined
    ? "-"
    : p > 0 && p < 1e-4
      ? "under 0.01 %"
      : p < 1 && p > 0.9999
        ? "over 99.99 %"
        : `${figures(100 * p)} %`;

/** Within, over or open: the whole band below the allowance, all above, or neither. */
function standing({ belief, allowance }: Misfeeds, paint: Paint): string {
  if (allowance === undefined) return "";
  if (belief.high <= allowance) return paint.feeds("within");
  if (belief.low > allowance) return paint.stops("over");
  return paint.depends("open");
}

/** All pairs, a line each. */
export function showMisfeeds({ pairs, known, draws }: MisfeedResult, paint: Paint, width: number): string {
  const out: string[] = [];
  const allowance = pairs[0]?.misfeeds.allowance;
  let unit = "";
  for (const pair of pairs) {
    if (pair.unit !== unit) {
      unit = pair.unit;
      out.push(
        ...(out.length > 0 ? [""] : []),
        paint.strong(
          `${unit}: misfeeds in a million indexes${allowance === undefined ? "" : `, allowed ${perMillion(allowance)}`}`,
        ),
        paint.faint(
          `${"  tape".padEnd(16)}${"rate".padStart(10)}  ${"5 .. 95 % of belief".padEnd(24)}${"median pair".padStart(12)}${"units over".padStart(12)}  most of it`,
        ),
      );
    }
    const { misfeeds: m, W, tape } = pair;
    out.push(
      `${`  ${W} ${tape}`.padEnd(16)}${rate(m.rate).padStart(10)}  ${band(m.belief).padEnd(24)}${rate(m.medianPair).padStart(12)}${share(m.unitsOver).padStart(12)}  ${standing(m, paint)}${mostOf(m)}`,
    );
  }
  out.push("", ...foot(known, draws, width));
  return out.join("\n");
}
function mostOf({ modes }: Misfeeds): string {
  const first = [...modes].sort((a, b) => b.rate - a.rate || b.belief.high - a.belief.high)[0];
  return first && first.belief.high >= least ? `  ${first.title}` : "";
}
function foot(known: MisfeedResult["known"], draws: number, width: number): string[] {
  const belief = known.weighed
    ? `Belief is weighed by the known units (${Math.round(known.effective)} even draws left).`
    : "Belief without a record of known units.";
  return wrapped(
    `Rates are means over units and reels, unknowns at their medians; the band is what ${draws} belief draws say. ${belief} A broken window counts as a misfeed: windows drawn on the safe side make these rates upper bounds.`,
    width,
  ).split("\n");
}

/** One pair with its modes. */
export function showMisfeed(
  { unit, tape, W, misfeeds: m }: PairMisfeeds,
  { known, draws }: MisfeedResult,
  paint: Paint,
  width: number,
): string {
  const say = (text: string): string[] => wrapped(`  ${text}`, width, "  ").split("\n");
  const out = [
    paint.strong(`${unit} on ${W} ${tape}: misfeeds in a million indexes`),
    ...say(
      `${rate(m.rate)}; belief ${band(m.belief)}${m.allowance === undefined ? "; the project states no misfeed allowance" : `; allowed ${perMillion(m.allowance)}: ${standing(m, paint)}, over it in ${share(m.beliefOver)} of belief`}. ${capital(m.words)}.`,
    ),
    ...say(
      `The median pair of unit and reel: ${rate(m.medianPair)}; nine in ten lie below ${rate(m.pair90)}, ninety-nine in a hundred below ${rate(m.pair99)}.${m.unitsOver === undefined ? "" : ` Units over the allowance, their reels averaged: ${share(m.unitsOver)}; pairs over it: ${share(m.pairsOver)}.`}`,
    ),
    ...say(
      `A pair drawn at random runs 10 000 indexes clean with chance ${share(m.clean1e4)}, 100 000 with ${share(m.clean1e5)}.`,
    ),
    "",
    paint.faint(`  ${"rate".padStart(10)}  ${"5 .. 95 % of belief".padEnd(24)}whose  what happens`),
  ];
  for (const mode of [...m.modes].sort((a, b) => b.rate - a.rate || b.belief.high - a.belief.high))
    out.push(...modeLines(mode, paint, width));
  if (m.notJudged.length > 0) out.push("", ...say(`Not judged here, for want of a member: ${m.notJudged.join(", ")}.`));
  out.push("", ...foot(known, draws, width));
  return out.join("\n");
}
function modeLines(mode: ModeRate, paint: Paint, width: number): string[] {
  const none = mode.said === "cannot fail as drawn";
  const head = `  ${(none ? "0" : rate(mode.rate)).padStart(10)}  ${(none && mode.belief.high < least ? "cannot fail as drawn" : band(mode.belief)).padEnd(24)}${mode.blames.padEnd(5)}  ${mode.title}`;
  const notes: string[] = [];
  const carrying = mode.importances.filter(({ share: s }) => s >= 0.1).slice(0, 3);
  if (mode.rate >= least && carrying.length > 0)
    notes.push(
      `makes it: ${carrying.map((i) => `${i.address} (${i.text}, ${i.letter}, each ${i.level}) ${figures(100 * i.share)} %`).join("; ")}`,
    );
  if (mode.belief.high >= least && mode.measure)
    notes.push(
      `measure: ${mode.measure.address} (${mode.measure.text}), which carries ${figures(100 * mode.measure.carries)} % of what is not known of it`,
    );
  if (mode.rate >= least) notes.push(mode.words);
  return [
    mode.rate >= least || mode.belief.high >= least ? head : paint.faint(head),
    ...notes.flatMap((note) =>
      wrapped(note, width - noted.length)
        .split("\n")
        .map((line) => paint.faint(noted + line)),
    ),
  ];
}
const noted = " ".repeat(14);
const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
