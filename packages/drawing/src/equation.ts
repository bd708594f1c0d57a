import { type Explained, type Origin, placeText, symbolInPrint } from "@tapeworthy/core";
import { equationMl, symbolMl } from "./mathml.ts";
import { letterWords } from "./say.ts";
import { escaped } from "./scene.ts";

export interface EquationOptions {
  /** "text" writes no MathML, for what shows none. */
  readonly as?: "mathml" | "text";
  /** How many levels of what an equation rests on are opened; the others stay closed, with their own button. */
  readonly open?: number;
  /** How many numbers are written at most, those nearest to the top first; the others are counted. All, where it is not given. */
  readonly most?: number;
  /** What is said of those left out: "tapeworthy why nip.pulls" shows them. */
  readonly elsewhere?: string;
  /** Where a number leads on a page that has a place for it; undefined where it leads nowhere. */
  readonly link?: (address: string, origin?: Origin) => string | undefined;
}

/** A letter of evidence in its own shape: solid, outlined, dashed. */
export const letterMark = (letter: "m" | "d" | "g"): string =>
  `<span class="letter ${letter}" title="${letterWords[letter]}">${letter}<span class="unseen"> ${letterWords[letter]}</span></span>`;

/** A number with its equation, the numbers in it, and everything it rests on, down to the files. Each number is opened once. */
export function equationHtml(tree: Explained, options: EquationOptions = {}): string {
  const written = options.most === undefined ? undefined : nearest(tree, options.most);
  return `<div class="tw-equation">${rowHtml(tree, options, 0, new Set(), written)}</div>`;
}
const keyOf = (tree: Explained): string => (tree.given ? tree.given.address : `${tree.title} ${tree.symbol}`);
/** The first numbers of a tree by their keys, level by level, each once. */
function nearest(tree: Explained, most: number): ReadonlySet<string> {
  const queue = [tree];
  const keys = new Set([keyOf(tree)]);
  for (const one of queue)
    for (const rest of one.rests) {
      if (keys.has(keyOf(rest)) || keys.size >= most) continue;
      keys.add(keyOf(rest));
      queue.push(rest);
    }
  return keys;
}

function rowHtml(
  tree: Explained,
  options: EquationOptions,
  depth: number,
  seen: Set<string>,
  written: ReadonlySet<string> | undefined,
): string {
  const key = keyOf(tree);
  const again = seen.has(key);
  seen.add(key);
  const head = headHtml(tree, options, again);
  if (again || tree.rests.length === 0) return head;
  const shown = written ? tree.rests.filter((r) => written.has(keyOf(r))) : tree.rests;
  const left = tree.rests.length - shown.length;
  const elsewhere = options.elsewhere === undefined ? "" : `; ${escaped(options.elsewhere)}`;
  const count = tree.rests.length === 1 ? "one number" : `${tree.rests.length} numbers`;
  if (shown.length === 0) return `${head}<span class="stands">rests on ${count}${elsewhere}</span>`;
  const more = left === 0 ? "" : `<li class="stands">and ${left} more${elsewhere}</li>`;
  const rests = shown.map((r) => `<li>${rowHtml(r, options, depth + 1, seen, written)}</li>`).join("") + more;
  const open = depth < (options.open ?? 1) ? " open" : "";
  return `${head}<details${open}><summary class="stands">rests on ${count}</summary><ul>${rests}</ul></details>`;
}

function headHtml(tree: Explained, { as = "mathml", link }: EquationOptions, again: boolean): string {
  const { given } = tree;
  const shown = tree.shown === "" ? "" : ` = <b>${escaped(tree.shown)}</b>`;
  if (given) {
    const note = given.unknown
      ? "nobody has measured it"
      : given.scatters.length > 0
        ? `scatters between ${[...new Set(given.scatters)].map((s) => (s === "index" ? "indexes" : `${s}s`)).join(" and ")}`
        : "";
    const what = `<span class="row"><span>${symbolHtml(tree.symbol, as)}${shown}</span> <code>${escaped(given.text)}</code> ${letterMark(given.letter)}</span>`;
    if (again) return what;
    const href = link?.(given.address, given.origin);
    const place = escaped(placeText(given.origin));
    const stands = [escaped(note), href === undefined ? place : `<a href="${escaped(href)}">${place}</a>`];
    return `${what}<span class="stands" data-address="${escaped(given.address)}">${stands.filter((s) => s !== "").join("; ")}</span>`;
  }
  if (again)
    return `<span class="row"><span>${symbolHtml(tree.symbol, as)}${shown}</span> <span class="stands">above</span></span>`;
  const equation = tree.form === "solved" ? inPrint(tree.equation ?? "") : (tree.equation ?? "");
  const closed = tree.form === "closed" && as === "mathml" ? equationMl(tree.symbol, equation) : undefined;
  const formula =
    closed ?? `<span class="governing">${symbolHtml(tree.symbol, as)} = ${subscribed(escaped(equation))}</span>`;
  const filled =
    tree.filled === undefined
      ? tree.shown === ""
        ? ""
        : `<span class="filled">= ${escaped(tree.shown)}</span>`
      : `<span class="filled">= ${escaped(tree.filled)}${tree.filled === tree.shown ? "" : ` = ${escaped(tree.shown)}`}</span>`;
  const source = [
    tree.title,
    ...(tree.form === "solved" ? ["solved"] : []),
    ...(tree.where ? [`worst at ${tree.where}`] : []),
    ...(tree.source ? [tree.source] : []),
  ].join("; ");
  return `${formula}${filled}<span class="stands">${escaped(source)}</span>`;
}
/** A solver's governing equation is words and symbols: its Greek letters and signs as print has them. */
const inPrint = (words: string): string =>
  words
    .replace(/\b[A-Za-z]+(?:_\w+)?\b/g, symbolInPrint)
    .replaceAll("*", "·")
    .replaceAll(" - ", " − ");
/** "P_1" as print has it. */
const subscribed = (words: string): string => words.replace(/(?<![\w&#])(\p{L})_(\w+)/gu, "$1<sub>$2</sub>");
const symbolHtml = (symbol: string, as: "mathml" | "text"): string =>
  as === "mathml" && !/\s/.test(symbol) ? `<math>${symbolMl(symbol)}</math>` : escaped(symbol);
