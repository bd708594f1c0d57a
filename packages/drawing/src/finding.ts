import { type CheckRecord, type Explained, type Finding, figures, showIn, type TapeResult } from "@tapeworthy/core";
import { type EquationOptions, equationHtml, letterMark } from "./equation.ts";
import { recordTally } from "./record-tally.ts";
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

/** A way out: a number to measure or to move, with what it takes and what it buys. */
export interface WayOut {
  readonly what: string;
  readonly kind: "measure" | "move";
  readonly note: string;
  readonly change?: string;
  readonly address?: string;
  /** Words of a button that tries it out, on a page where that can be done. */
  readonly act?: string;
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
  /** Record of this check's trials; "none kept" where nobody keeps one, so that its absence is not told each time. */
  readonly trials?: CheckRecord | "none kept" | undefined;
  readonly ways?: readonly WayOut[];
  /** Zone of the drawing in which it acts: "B3". */
  readonly zone?: string;
  readonly width?: number;
  /** Begins the ids of the drawing inside. */
  readonly prefix?: string;
  readonly math?: "mathml" | "text";
  /** Level of the headline; the parts below it are one deeper. */
  readonly level?: 1 | 2 | 3 | 4 | 5;
  /** Put where the page that holds it wants more: in its head, after the reason, at its end. */
  readonly more?: { readonly head?: string; readonly afterReason?: string; readonly end?: string };
  /** Equations shown at once, or behind a button of their own. */
  readonly equation?: "shown" | "folded";
  /** How many levels of what an equation rests on are opened. */
  readonly open?: number;
  /** How many numbers under each equation are written, and where the others are. */
  readonly most?: number;
  readonly elsewhere?: string;
  /** Where a number leads on a page that has a place for it. */
  readonly link?: EquationOptions["link"];
  /** Said where ways out are still being looked for. */
  readonly seeking?: string;
}

/** A headline and the heads of its parts, at the levels a page has for them. */
export interface Heads {
  head(words: string): string;
  part(words: string, note?: string): string;
}
export const headsAt = (level: 1 | 2 | 3 | 4 | 5): Heads => ({
  head: (words) => `<h${level} class="headline">${words}</h${level}>`,
  part: (words, note) =>
    `<h${level + 1} class="part">${words}${note === undefined ? "" : ` <span>${note}</span>`}</h${level + 1}>`,
});

/** One finding as a panel: headline with the tipping value, why with numbers, ratio, margin and record, window, ways out, equation. */
export function findingHtml(input: FindingInput): string {
  const { finding: f, result } = input;
  const { head, part } = headsAt(input.level ?? 1);
  const { more = {} } = input;
  const cls = f.verdict === "n/a" ? "na" : f.verdict;
  const kick = [
    `<span class="verdict ${cls}">${markInline(f.verdict, 15)}<span class="unseen">${verdictWords[f.verdict]}</span></span>`,
    `<span><span class="unseen">Station </span><span class="station">${f.station}</span> ${stationWords[f.station - 1]}</span>`,
    `<b>${escaped(f.check)}</b>`,
    ...(f.letter ? [letterMark(f.letter)] : []),
    `<span class="right">${escaped(result.tape)}${input.zone ? `, zone ${escaped(input.zone)}` : ""}${more.head ?? ""}</span>`,
  ].join("");
  const out = [
    `<p class="kick">${kick}</p>`,
    head(escaped(headline(f, input.title, input.shownIn))),
    `<p>${escaped(f.because)}${f.where ? ` <span class="small">(${escaped(f.where)})</span>` : ""}</p>`,
    ...(more.afterReason ? [more.afterReason] : []),
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
      part("Window", `${escaped(what)}${input.shownIn === "" ? "" : `, ${escaped(input.shownIn)}`}; ${striped}`),
      toSvg(windowDrawing(window, { width: input.width ?? 340 }), { prefix: input.prefix ?? "window" }),
    );
  }
  out.push(...waysHtml(input, part));
  if (input.explained) {
    const { value, least, most } = input.explained;
    const { most: rows, elsewhere } = input;
    const as: EquationOptions = {
      as: input.math ?? "mathml",
      open: input.open ?? 0,
      ...(rows === undefined ? {} : { most: rows }),
      ...(elsewhere === undefined ? {} : { elsewhere }),
      ...(input.link ? { link: input.link } : {}),
    };
    const bounds = [
      ...(least && tells(least) ? [part("At least"), equationHtml(least, as)] : []),
      ...(most && tells(most) ? [part("At most"), equationHtml(most, as)] : []),
    ];
    if (input.equation === "folded")
      out.push(
        `<details class="equation"><summary>${part("Equation", "with its numbers, down to the files")}</summary>`,
        equationHtml(value, as),
        ...bounds,
        "</details>",
      );
    else out.push(part("Equation", "open a number to see where it comes from"), equationHtml(value, as), ...bounds);
  }
  if (f.beside.length > 0)
    out.push(
      part("Beside it", "worth seeing, decides nothing"),
      `<table><caption class="unseen">Beside it</caption><tbody>${f.beside.map((b) => `<tr><th scope="row">${escaped(b.title)}</th><td class="end">${escaped(showIn(b.shownIn, b.value, 2))}</td></tr>`).join("")}</tbody></table>`,
    );
  if (more.end) out.push(more.end);
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
  if (f.ratio !== null) fact("ratio to bound", escaped(figures(withoutDust(f.ratio))));
  fact("margin, of 6", escaped(sayMargin(f)), f.marginBy === "cannot fail as drawn" ? ' class="words"' : cls);
  if (f.nearest && Math.abs(f.nearest.ratio) > dust)
    fact(
      "times a known unit",
      `${escaped(figures(f.nearest.ratio))} <span class="small">${escaped(f.nearest.unit)} on ${escaped(f.nearest.tape)}</span>`,
    );
  if (trials !== "none kept") fact("record", tally(trials), ' class="words"');
  if (f.letter)
    fact(
      "stands on",
      `${escaped(letterWords[f.letter])}${f.more > 0 ? ` <span class="small">and ${f.more} more</span>` : ""}`,
      ' class="words"',
    );
  return `<dl class="facts">${facts.join("")}</dl>`;
}

/** A value that is nothing but rounding makes a ratio that is no ratio. */
const dust = 1e-9;
const withoutDust = (v: number): number => (Math.abs(v) < dust ? 0 : v);

function tally(record: CheckRecord | undefined): string {
  const { svg, words } = recordTally(record);
  return svg === "" ? escaped(words) : `${svg} ${escaped(words)}`;
}

function waysHtml({ finding: f, result, ways, link, seeking }: FindingInput, part: Heads["part"]): string[] {
  const d = f.decisive;
  const rows: string[] = [];
  if (f.verdict === "depends" && d) {
    rows.push(
      `<tr><td><span class="verdict depends">${markInline("depends", 13)} ${linked(`Measure ${sayAddress(d.address)}`, link?.(d.address))}</span><small>${d.words ? `known to be ${escaped(d.words[0])}` : "at its middle"}, ${escaped(sayShare(d.shareIfMeasured))} of belief would hold</small></td><td class="end">${letterMark("g")} ${escaped(sayGuess(d))}</td></tr>`,
    );
  }
  const s = result.setting;
  if (f.verdict !== "feeds" && s && s.exists > s.drawn + 0.05)
    rows.push(
      `<tr><td><span class="name">${linked(`Set ${sayAddress(s.address)}`, link?.(s.address))}</span><small>a setting holds in ${escaped(sayShare(s.exists))} of belief, the drawn one in ${escaped(sayShare(s.drawn))}</small></td><td class="end">${escaped(showIn(s.shownIn, s.best))}</td></tr>`,
    );
  for (const w of ways ?? [])
    rows.push(
      `<tr${w.address ? ` data-address="${escaped(w.address)}"` : ""}><td><span class="name">${escaped(w.what)}</span><small>${escaped(w.note)}</small></td><td class="end">${escaped(w.change ?? "")}${w.act === undefined ? "" : ` <button type="button" data-act="${escaped(w.address ?? "")}">${escaped(w.act)}<span class="unseen">: ${escaped(w.what)}</span></button>`}</td></tr>`,
    );
  if (seeking !== undefined) rows.push(`<tr><td colspan="2" class="small">${escaped(seeking)}</td></tr>`);
  if (rows.length === 0)
    return f.verdict === "stops" && f.severity === "S"
      ? [
          part("Ways out", "measuring can't save it"),
          '<p class="small">No value of what is not known lets this check hold: the drawing has to change.</p>',
        ]
      : [];
  const note = f.verdict === "stops" ? "measuring can't save it" : "know it, or make it not matter";
  return [
    part("Ways out", note),
    `<table><caption class="unseen">Ways out</caption><tbody>${rows.join("")}</tbody></table>`,
  ];
}
const linked = (words: string, href: string | undefined): string =>
  href === undefined ? escaped(words) : `<a href="${escaped(href)}">${escaped(words)}</a>`;
