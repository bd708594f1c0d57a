import { type Explained, placeText, symbolInPrint } from "@tapeworthy/core";
import { equationMl, symbolMl } from "./mathml.ts";
import { letterWords } from "./say.ts";
import { escaped } from "./scene.ts";

export interface EquationOptions {
  /** "text" writes no MathML, for what shows none. */
  readonly as?: "mathml" | "text";
  /** How many levels of what an equation rests on are opened; the others stay closed, with their own button. */
  readonly open?: number;
}

/** A letter of evidence in its own shape: solid, outlined, dashed. */
export const letterMark = (letter: "m" | "d" | "g"): string =>
  `<span class="letter ${letter}" title="${letterWords[letter]}">${letter}<span class="unseen"> ${letterWords[letter]}</span></span>`;

/** A number with its equation, the numbers in it, and everything it rests on, down to the files. Each number is opened once. */
export function equationHtml(tree: Explained, options: EquationOptions = {}): string {
  return `<div class="tw-equation">${rowHtml(tree, options, 0, new Set())}</div>`;
}

function rowHtml(tree: Explained, options: EquationOptions, depth: number, seen: Set<string>): string {
  const key = tree.given ? tree.given.address : `${tree.title} ${tree.symbol}`;
  const again = seen.has(key);
  seen.add(key);
  const head = headHtml(tree, options.as ?? "mathml", again);
  if (again || tree.rests.length === 0) return head;
  const rests = tree.rests.map((r) => `<li>${rowHtml(r, options, depth + 1, seen)}</li>`).join("");
  const open = depth < (options.open ?? 1) ? " open" : "";
  return `${head}<details${open}><summary class="stands">rests on ${tree.rests.length === 1 ? "one number" : `${tree.rests.length} numbers`}</summary><ul>${rests}</ul></details>`;
}

function headHtml(tree: Explained, as: "mathml" | "text", again: boolean): string {
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
    const stands = [note, placeText(given.origin)].filter((s) => s !== "").join("; ");
    return `${what}<span class="stands" data-address="${escaped(given.address)}">${escaped(stands)}</span>`;
  }
  if (again)
    return `<span class="row"><span>${symbolHtml(tree.symbol, as)}${shown}</span> <span class="stands">above</span></span>`;
  const equation = tree.form === "solved" ? inPrint(tree.equation ?? "") : (tree.equation ?? "");
  const closed = tree.form === "closed" && as === "mathml" ? equationMl(tree.symbol, equation) : undefined;
  const formula = closed ?? `<span class="governing">${symbolHtml(tree.symbol, as)} = ${escaped(equation)}</span>`;
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
const symbolHtml = (symbol: string, as: "mathml" | "text"): string =>
  as === "mathml" && !/\s/.test(symbol) ? `<math>${symbolMl(symbol)}</math>` : escaped(symbol);
