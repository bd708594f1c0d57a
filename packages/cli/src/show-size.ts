import {
  type AsideCell,
  type FreeProposal,
  type SizedCell,
  type SizedDimension,
  type SizingResult,
  showShare,
  showVerdict,
  unitOf,
} from "@tapeworthy/core";
import { sayGap as gap, leastGapMeans, movesBought } from "@tapeworthy/drawing";
import { type Paint, wrapped } from "./paint.ts";

const minus = (text: string): string => text.replace("-", "−");
const inUnit = (shownIn: string, v: number): string => minus(`${+(v / unitOf(shownIn).factor).toPrecision(4)}`);
const withUnit = (shownIn: string, v: number): string => `${inUnit(shownIn, v)}${shownIn && ` ${shownIn}`}`;
/** "3..9 N", or how far the value runs over the widths. */
const range = (shownIn: string, low: number, high: number): string =>
  low === high ? withUnit(shownIn, low) : `${inUnit(shownIn, low)}..${withUnit(shownIn, high)}`;
const nothing = "nothing was written";

/** The trade of a sizing, as it is read before anything is written. */
export function showSize(
  r: SizingResult,
  known: { readonly weighed: boolean; readonly effective: number },
  paint: Paint,
  width: number,
): string {
  const out: string[] = [];
  const say = (text: string, indent = "  "): void =>
    void out.push(...wrapped(`${indent}${text}`, width, `${indent}  `).split("\n"));
  const head = (text: string, more = ""): void =>
    void out.push("", `${paint.strong(text)}${more && paint.faint(`  ${more}`)}`);
  const moved = r.dimensions.filter(({ by }) => by !== 0);
  const through = turned(r, (a, b) => b === "feeds" && a !== "feeds");
  const lost = turned(r, (a, b) => a === "feeds" && b !== "feeds");
  out.push(
    paint.strong(
      moved.length === 0
        ? `${r.unit}: no move of the free dimensions buys anything`
        : `${r.unit}: ${number(moved.length, "dimension")} ${moved.length === 1 ? "moves" : "move"}; ${number(through, "check")} ${through === 1 ? "comes" : "come"} through and ${lost === 0 ? "none breaks" : `${lost} ${lost === 1 ? "breaks" : "break"}`}`,
    ),
  );
  if (r.stopped) say("Stopped before the end: this is the best so far.");
  say(
    `Least gap ${gap(r.before.least)} to ${gap(r.after.least)} standard deviations${r.after.tape ? `, now set by ${r.after.tape} ${r.after.check}` : ""}. ${leastGapMeans}`,
  );

  head("Dimensions", "as drawn, where to, between");
  for (const d of r.dimensions) say(dimension(d));
  if (r.front.length > 1) {
    head("What each move buys", "hard checks that do not feed, least gap");
    for (const { path, open, least } of movesBought(r))
      say(`${`${open}`.padStart(3)}  ${gap(least).padStart(6)}  ${path === undefined ? "as drawn" : `+ ${path}`}`);
    for (const d of r.dimensions) if (d.by === 0) say(`          ${d.path} buys none`);
  }
  head("What pays", r.pays.length === 0 ? "nothing" : `worst first, of ${r.pays.length}`);
  for (const cell of r.pays.slice(0, 6)) say(cellLine(cell, paint));
  head("What gains", r.gains.length === 0 ? "nothing" : `largest first, of ${r.gains.length}`);
  for (const cell of r.gains.slice(0, 6)) say(cellLine(cell, paint));
  head("Tapes");
  for (const { tape, before, after } of r.tapes)
    say(
      `${tape.padEnd(12)} ${showVerdict(before.verdict, before.share)} → ${showVerdict(after.verdict, after.share)}; gap ${gap(before.least)} → ${gap(after.least)}`,
    );
  if (r.aside.length > 0) {
    head("Set aside", "no free dimension settles these");
    for (const why of ["guess", "unmoved", "bounds"] as const)
      for (const line of aside(
        r.aside.filter((a) => a.why === why),
        why,
      ))
        say(line);
  }
  if (r.widths.length > 0) {
    head("One width at a time", "the last resort: the common move leaves it short");
    for (const { W, before, after, moves } of r.widths)
      say(`${W} mm: gap ${gap(before)} → ${gap(after)} with its own ${moves.map((m) => m.path).join(", ")}`);
  }
  if (r.lines.length > 0) {
    head("Would write", `units/${r.unit}.yaml, one change; --write writes it`);
    for (const { path, width: W, text, written } of r.lines)
      say(`${W === undefined ? "" : `per width ${W}: `}${path}: ${written}   ${paint.faint(`(now ${text})`)}`);
  }
  const ends = r.starts.map((s) => gap(s.least)).join(", ");
  out.push("");
  say(
    `${number(r.starts.length, "start")} with seed ${r.seed} ended at ${ends || "none"} by quick gaps; ${r.evaluations} places looked at. What a move costs in parts is not reckoned. ${known.weighed ? `The record of known units is weighed in (${Math.round(known.effective)} of 1000 draws).` : "Without the record of known units."}`,
  );
  return out.join("\n");
}
const number = (n: number, word: string): string => `${n} ${word}${n === 1 ? "" : "s"}`;
function turned({ pays, gains }: SizingResult, is: (before: string, after: string) => boolean): number {
  return [...pays, ...gains].filter(({ before, after }) => is(before.verdict, after.verdict)).length;
}
function dimension({ path, shownIn, drawn, by, idle, bounds }: SizedDimension): string {
  const values = drawn.map(({ value }) => value);
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const lows = bounds.map((b) => b.low);
  const highs = bounds.map((b) => b.high);
  const between = `between ${range(shownIn, Math.min(...lows), Math.max(...highs))}`;
  const is = range(shownIn, low, high);
  const to = by === 0 ? "stays" : `→ ${range(shownIn, low + by, high + by)}`;
  const more = idle === undefined ? "" : `; ${range(shownIn, low + idle, high + idle)} would buy nothing`;
  return `${path}: ${is} ${to}, ${between}${more}`;
}
function cellLine({ tape, check, before, after }: SizedCell, paint: Paint): string {
  const told = ({ verdict, share, margin }: SizedCell["before"]): string =>
    paint[verdict === "n/a" ? "faint" : verdict](
      `${showVerdict(verdict, share)} ${minus(margin.toFixed(1))}${margin >= 6 ? "+" : ""}`,
    );
  return `${tape.padEnd(12)} ${check.padEnd(16)} ${told(before)} → ${told(after)}`;
}
/** Set-aside checks, those of one check and one reason in one line. */
function aside(cells: readonly AsideCell[], why: AsideCell["why"]): string[] {
  return [...grouped(cells)].map(([check, list]) => {
    const tapes = list
      .map(
        ({ tape, share, best }) =>
          `${tape} (${showShare(share)}${best > share + 0.005 ? `, at best ${showShare(best)}` : ""})`,
      )
      .join(", ");
    const unknown = list.find((a) => a.unknown)?.unknown;
    return {
      guess: `${check} hangs on a guess${unknown ? `, ${unknown.symbol}` : ""}: ${tapes}. Measure first: ${unknown?.address ?? "see its unknowns"}`,
      unmoved: `${check} is moved by none of them: ${tapes}`,
      bounds: `${check} cannot be brought to feed within the bounds: ${tapes}`,
    }[why];
  });
}
function grouped(cells: readonly AsideCell[]): Map<string, AsideCell[]> {
  const out = new Map<string, AsideCell[]>();
  for (const cell of cells) out.set(cell.check, [...(out.get(cell.check) ?? []), cell]);
  return out;
}

/** What to free, where nothing is. */
export function showProposals(
  unit: string,
  proposals: readonly FreeProposal[],
  open: number,
  paint: Paint,
  width: number,
): string {
  const out = wrapped(
    open === 0
      ? `No dimension of ${unit} is free, and every wanted tape feeds; ${nothing}. Free what you would let go for more room, under "free" in units/${unit}.yaml or with --free.`
      : `No dimension of ${unit} is free; ${nothing}. ${open} wanted tapes do not feed; these move what stops them first. Put what may move into units/${unit}.yaml, with the bounds you can live with:`,
    width,
  ).split("\n");
  if (proposals.length > 0) out.push("", paint.strong("free:"));
  for (const { path, bounds, because } of proposals) {
    const whom = [...new Set(because.map(({ check }) => check))].map(
      (check) =>
        `${check} on ${because
          .filter((b) => b.check === check)
          .map((b) => b.tape)
          .join(", ")}`,
    );
    out.push(`  ${/[,:#]/.test(path) ? `"${path}"` : path}: ${bounds}   ${paint.faint(`# ${whom.join("; ")}`)}`);
  }
  return out.join("\n");
}
