import { letterMark, markInline } from "@tapeworthy/drawing";

/** How to read the page: verdicts, margin, letters, lines of the drawing. */
export function readingHtml(): string {
  const verdict = (v: "feeds" | "depends" | "stops" | "n/a", cls: string, words: string, means: string): string =>
    `<div><dt><span class="verdict ${cls}">${markInline(v, 14)} ${words}</span></dt><dd>${means}</dd></div>`;
  const term = (words: string, means: string): string => `<div><dt>${words}</dt><dd>${means}</dd></div>`;
  return `<section class="reading" id="reading" aria-labelledby="reading-name" tabindex="-1"><h2 id="reading-name">How to read this page</h2>
<dl>
${verdict("feeds", "feeds", "feeds", "every hard check holds, within the allowed scatter, in at least 95 % of what is believed")}
${verdict("stops", "stops", "stops", "they hold together in at most 5 % of it: measuring can't save it, the drawing has to change")}
${verdict("depends", "depends", "depends 41 %", "they hold in that share; beside it stands the unknown that decides, its tipping value, and the share once it is measured")}
${verdict("n/a", "na", "not applicable", "the unit has no such member; never a pass")}
${term("margin", "how far a check is from failing, over belief and scatter, on one scale from −6 to 6; 6 is the cap. ~ or about: first order")}
${term("ratio", "value over the nearer bound; it needs no law of scatter")}
${term(`${letterMark("m")} ${letterMark("d")} ${letterMark("g")}`, "measured here; a drawing or a figure read in a standard; a guess or memory. A finding carries the worst of what moves it")}
${term("stripes", "not known: a range of belief, never a bell")}
${term("brackets", "a window; hatched is outside of it. On the map they hold what stops a tape first")}
${term("blue dashes", "where the open finding acts on the drawing; violet: where its unknown acts")}
</dl></section>`;
}
