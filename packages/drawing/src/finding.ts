import { type Explained, type Finding, figures, showIn, type TapeResult } from "@tapeworthy/core";
import { equationHtml, letterMark } from "./equation.ts";
import {
  capital,
  letterWords,
  sayAddress,
  sayGuess,
  sayMargin,
  sayShare,
  severityWords,
  shortName,
  stationWords,
  stoppingSide,
  verdictWords,
} from "./say.ts";
import { escaped, toSvg } from "./scene.ts";
import { markInline } from "./verdict-mark.ts";
import { windowDrawing, windowOf } from "./window.ts";

/** Trials in which a check was right, of all. */
export interface Trials {
  readonly agreed: number;
  readonly of: number;
}
/** A way out: a number to measure or to move, with what it takes and what it buys. */
export interface WayOut {
  readonly what: string;
  readonly kind: "measure" | "move";
  readonly note: string;
  readonly change?: string;
  readonly address?: string;
}
export interface FindingInput {
  readonly finding: Finding;
  readonly result: TapeResult;
  /** What the check claims. */
  readonly title: string;
  /** Unit its value is read in. */
  readonly shownIn: string;
  readonly explained?: { readonly value: Explained; readonly least?: Explained; readonly most?: Explained };
  readonly scatter?: number;
  readonly trials?: Trials;
  readonly ways?: readonly WayOut[];
  /** Zone of the drawing in which it acts: "B3". */
  readonly zone?: string;
  readonly width?: number;
  /** Begins the ids of the drawing inside. */
  readonly prefix?: string;
  readonly math?: "mathml" | "text";
}

/** One finding as a panel: headline with the tipping value, why with numbers, ratio, margin and record, window, ways out, equation. */
export function findingHtml(input: FindingInput): string {
  const { finding: f, result } = input;
  const cls = f.verdict === "n/a" ? "na" : f.verdict;
  const kick = [
    `<span class="verdict ${cls}">${markInline(f.verdict, 15)}<span class="unseen">${verdictWords[f.verdict]}</span></span>`,
    `<span>Station ${f.station}, ${stationWords[f.station - 1]}</span>`,
    `<b>${escaped(f.check)}</b>`,
    ...(f.letter ? [letterMark(f.letter)] : []),
    `<span class="right">${escaped(result.tape)}${input.zone ? `, zone ${escaped(input.zone)}` : ""}</span>`,
  ].join("");
  const out = [
    `<p class="kick">${kick}</p>`,
    `<h1>${escaped(headline(f, input.title, input.shownIn))}</h1>`,
    `<p>${escaped(f.because)}${f.where ? ` <span class="small">(${escaped(f.where)})</span>` : ""}</p>`,
  ];
  if (f.verdict === "n/a") return panel(out);
  out.push(factsHtml(input));
  if (f.contradicted)
    out.push(
      `<p class="warning"><b aria-hidden="true">≠</b><span>A known unit contradicts this check, so it stops no tape: it ranks only.</span></p>`,
    );
  if (f.status !== "established")
    out.push(
      `<p class="small">${f.status === "judgement" ? "The bound is our judgement." : "An equation is used outside the range in which it is known to hold."}</p>`,
    );
  const window = windowOf(f, input.shownIn, input.scatter);
  if (window) {
    const striped = window.belief || window.decisive ? "striped: not known" : "everything known";
    const what = window.title === f.check ? shortName(f.check) : "room to the bound";
    out.push(
      `<h2>Window <span>${escaped(what)}${input.shownIn === "" ? "" : `, ${escaped(input.shownIn)}`}; ${striped}</span></h2>`,
      toSvg(windowDrawing(window, { width: input.width ?? 340 }), { prefix: input.prefix ?? "window" }),
    );
  }
  out.push(...waysHtml(input));
  if (input.explained) {
    const { value, least, most } = input.explained;
    const as = { as: input.math ?? "mathml", open: 0 } as const;
    out.push("<h2>Equation <span>open a number to see where it comes from</span></h2>", equationHtml(value, as));
    if (least && tells(least)) out.push("<h2>At least</h2>", equationHtml(least, as));
    if (most && tells(most)) out.push("<h2>At most</h2>", equationHtml(most, as));
  }
  if (f.beside.length > 0)
    out.push(
      "<h2>Beside it <span>worth seeing, decides nothing</span></h2>",
      `<table><tbody>${f.beside.map((b) => `<tr><th scope="row">${escaped(b.title)}</th><td class="end">${escaped(showIn(b.shownIn, b.value, 2))}</td></tr>`).join("")}</tbody></table>`,
    );
  return panel(out);
}
/** A bound that is nought or one by definition tells nothing. */
const tells = (bound: Explained): boolean => !/^[\d.]+$/.test(bound.symbol);
const panel = (parts: readonly string[]): string => `<article class="tw-panel finding">${parts.join("\n")}</article>`;

/** "Depends on film friction: stops above 0.34; you guess 0.18 to 0.35." */
export function headline(f: Finding, title: string, shownIn = ""): string {
  if (f.verdict === "n/a") return `Not applicable: ${title}`;
  const soft = f.severity === "S" ? "" : ` (${severityWords[f.severity]}, stops nothing)`;
  const d = f.decisive;
  if (f.verdict === "depends" && d) {
    const guess = `you guess ${sayGuess(d)}`;
    const when =
      d.when && d.when.length > 0
        ? ` with ${d.when.map((w) => `${sayAddress(w.address)} ${w.word}`).join(" and ")}`
        : "";
    if (d.words) return `Depends on ${sayAddress(d.address)}: ${d.words[0]} or ${d.words[1]}`;
    if (d.tipping === null) return `Depends most on ${sayAddress(d.address)}, on no number alone; ${guess}`;
    const side = stoppingSide(d);
    return `Depends on ${sayAddress(d.address)}: ${side ? `stops ${side}` : "tips at"} ${showIn(d.shownIn, d.tipping)}${when}; ${guess}${soft}`;
  }
  if (f.severity !== "S") return f.verdict === "feeds" ? `Holds: ${title}${soft}` : `Does not hold: ${title}${soft}`;
  if (f.verdict !== "stops") return `${capital(f.verdict)}: ${title}`;
  return `Stops: ${againstBound(f, shownIn)}`;
}
/** "mismatch is 3.6 %, over the 1.9 % it may be": a value that lies inside as written is too near its bound for its scatter. */
function againstBound({ check, value, bounds, where }: Finding, shownIn: string): string {
  const name = shortName(check);
  if (value === null) return where ?? name;
  const say = (v: number) => showIn(shownIn, v);
  const { least, most } = bounds;
  const byMost = least === undefined || (most !== undefined && most - value < value - least);
  const bound = byMost ? most : least;
  if (bound === undefined) return `${name} is ${say(value)}`;
  const outside = byMost ? value > bound : value < bound;
  const words = byMost ? `the ${say(bound)} it may be` : `the ${say(bound)} it needs`;
  return `${name} is ${say(value)}, ${outside ? (byMost ? "over" : "under") : "too near"} ${words}`;
}

function factsHtml({ finding: f, trials }: FindingInput): string {
  const cls = f.verdict === "feeds" ? "" : ` class="${f.verdict}"`;
  const facts: string[] = [];
  const fact = (name: string, value: string, attribute = ""): void =>
    void facts.push(`<div><dt>${name}</dt><dd${attribute}>${value}</dd></div>`);
  fact(
    "holds in",
    `${escaped(sayShare(f.share!))}${f.shareAlone !== null && Math.abs(f.shareAlone - f.share!) > 0.005 ? ` <span class="small">${escaped(sayShare(f.shareAlone))} before known units</span>` : ""}`,
    cls,
  );
  if (f.ratio !== null) fact("ratio to bound", escaped(figures(f.ratio)));
  fact("margin, of 6", escaped(sayMargin(f)), f.marginBy === "cannot fail as drawn" ? ' class="words"' : cls);
  if (f.nearest)
    fact(
      "times a known unit",
      `${escaped(figures(f.nearest.ratio))} <span class="small">${escaped(f.nearest.unit)} on ${escaped(f.nearest.tape)}</span>`,
    );
  fact("record", trials ? tally(trials) : "no trial yet", ' class="words"');
  if (f.letter)
    fact(
      "stands on",
      `${escaped(letterWords[f.letter])}${f.more > 0 ? ` <span class="small">and ${f.more} more</span>` : ""}`,
      ' class="words"',
    );
  return `<dl class="facts">${facts.join("")}</dl>`;
}

/** One stroke a trial: up where it agreed, down where it missed. */
function tally({ agreed, of }: Trials): string {
  const strokes = Array.from({ length: Math.min(of, 20) }, (_, i) =>
    i < agreed ? `<path class="outline" d="M${3 + i * 6} 2V9"/>` : `<path class="fail-line" d="M${3 + i * 6} 9V16"/>`,
  ).join("");
  return `<svg class="tw inline" width="${Math.min(of, 20) * 6 + 2}" height="17" aria-hidden="true"><path class="faint" d="M0 9H${Math.min(of, 20) * 6}"/>${strokes}</svg> ${agreed} of ${of} trials`;
}

function waysHtml({ finding: f, result, ways }: FindingInput): string[] {
  const d = f.decisive;
  const rows: string[] = [];
  if (f.verdict === "depends" && d) {
    rows.push(
      `<tr><td><span class="verdict depends">${markInline("depends", 13)} Measure ${escaped(sayAddress(d.address))}</span><small>at its middle ${escaped(sayShare(d.shareIfMeasured))} of belief would hold</small></td><td class="end">${letterMark("g")} ${escaped(sayGuess(d))}</td></tr>`,
    );
  }
  const s = result.setting;
  if (f.verdict !== "feeds" && s && s.exists > s.drawn + 0.05)
    rows.push(
      `<tr><td><span class="name">Set ${escaped(sayAddress(s.address))}</span><small>a setting holds in ${escaped(sayShare(s.exists))} of belief, the drawn one in ${escaped(sayShare(s.drawn))}</small></td><td class="end">${escaped(showIn(s.shownIn, s.best))}</td></tr>`,
    );
  for (const w of ways ?? [])
    rows.push(
      `<tr${w.address ? ` data-address="${escaped(w.address)}"` : ""}><td><span class="name">${escaped(w.what)}</span><small>${escaped(w.note)}</small></td><td class="end">${escaped(w.change ?? "")}</td></tr>`,
    );
  if (rows.length === 0)
    return f.verdict === "stops" && f.severity === "S"
      ? [
          "<h2>Ways out <span>measuring can't save it</span></h2>",
          '<p class="small">No value of what is not known lets this check hold: the drawing has to change.</p>',
        ]
      : [];
  const note = f.verdict === "stops" ? "measuring can't save it" : "know it, or make it not matter";
  return [`<h2>Ways out <span>${note}</span></h2>`, `<table><tbody>${rows.join("")}</tbody></table>`];
}
