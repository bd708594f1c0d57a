import type { Verdict } from "@tapeworthy/core";
import { headsAt } from "./finding.ts";
import { counted, sayAddress, sayVerdict, shortName } from "./say.ts";
import { escaped } from "./scene.ts";
import { markInline } from "./verdict-mark.ts";

/** What one change moved: whose verdict is another now, worst first. */
export interface MovedInput {
  readonly flips: readonly {
    readonly unit: string;
    readonly tape: string;
    readonly W: number;
    /** Undefined where it is the verdict of the tape as a whole. */
    readonly check: string | undefined;
    readonly before: { readonly verdict: Verdict; readonly share: number | null };
    readonly after: { readonly verdict: Verdict; readonly share: number | null };
  }[];
  readonly worse: number;
  readonly better: number;
  /** Every pair has been worked out since. */
  readonly settled: boolean;
  readonly changes: readonly {
    readonly address: string | undefined;
    readonly file: string;
    readonly line: number;
    readonly before: string;
    readonly after: string;
  }[];
}

/** The panel of a change: what was changed, and verdicts that turned, worst first. `act` puts a button under it. */
export function movedHtml(
  { flips, worse, better, settled, changes }: MovedInput,
  {
    level = 2,
    most = 12,
    link,
    act = [],
  }: {
    readonly level?: 1 | 2 | 3 | 4 | 5;
    readonly most?: number;
    /** Where a cell leads. */
    readonly link?: (unit: string, tape: string, check: string | undefined) => string;
    readonly act?: readonly { readonly name: string; readonly words: string }[];
  } = {},
): string {
  const { head } = headsAt(level);
  const turned = [
    ...(worse > 0 ? [`${worse} worse`] : []),
    ...(better > 0 ? [`${better} better`] : []),
    ...(worse + better === 0 ? [settled ? "no verdict turns" : "no verdict has turned yet"] : ["worst first"]),
  ];
  const what = changes.map(
    (c) =>
      `<tr><th scope="row">${escaped(c.address === undefined ? `${c.file}, line ${c.line}` : sayAddress(c.address))}</th><td><code><span class="unseen">from </span>${escaped(c.before)}</code> → <code><span class="unseen">to </span>${escaped(c.after)}</code></td></tr>`,
  );
  const rows = flips.slice(0, most).map((f) => {
    const name = f.check === undefined ? "the whole tape" : shortName(f.check);
    const href = link?.(f.unit, f.tape, f.check);
    return `<tr><td class="num">${f.W}</td><th scope="row"><span class="name">${href === undefined ? escaped(name) : `<a href="${escaped(href)}">${escaped(name)}</a>`}</span> <small>${escaped(f.tape)}</small></th><td class="end">${said(f.before)} → ${said(f.after)}</td></tr>`;
  });
  const left = flips.length - rows.length;
  const buttons = act.map(
    ({ name, words }) => `<button type="button" data-act="${escaped(name)}">${escaped(words)}</button>`,
  );
  return `<section class="tw-panel moved">${head(`What this change moved <span class="note">${turned.join(", ")}</span>`)}
${what.length > 0 ? `<table class="what"><caption class="unseen">What was changed</caption><tbody>${what.slice(0, 6).join("")}</tbody></table>${what.length > 6 ? `<p class="small">and ${counted(what.length - 6, "more change")}</p>` : ""}` : ""}
${rows.length > 0 ? `<table class="flips"><caption class="unseen">Verdicts that turned</caption><tbody>${rows.join("\n")}</tbody></table>` : ""}
${left > 0 ? `<p class="small">and ${left} more</p>` : ""}
${settled ? "" : `<p class="small">Other tapes are still being worked out.</p>`}
${buttons.length > 0 ? `<p class="acts">${buttons.join(" ")}</p>` : ""}</section>`;
}
const said = ({ verdict, share }: { readonly verdict: Verdict; readonly share: number | null }): string =>
  `<span class="verdict ${verdict === "n/a" ? "na" : verdict}">${markInline(verdict, 13)} ${escaped(sayVerdict(verdict, share))}</span>`;
