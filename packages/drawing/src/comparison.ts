import {
  type ComparedCell,
  type Comparison,
  checkNamed,
  customaryUnit,
  showIn,
  shownUnit,
  unitOf,
} from "@tapeworthy/core";
import { headsAt } from "./finding.ts";
import { capital, list, sayVerdict, shortName } from "./say.ts";
import { escaped } from "./scene.ts";
import { markInline } from "./verdict-mark.ts";

/** "Plover feeds to 17 mm, then mismatch ends it." */
export function comparisonHeadline({ units }: Comparison): string {
  return units
    .map(({ name, feedsTo, endedBy, ladder }) => {
      const [first] = endedBy;
      if (!ladder) return `${name} has no ladder.`;
      if (feedsTo === null)
        return `${name} does not feed from its least width${first ? `: ${shortName(first.check)} is open there` : ""}.`;
      if (!first) return `${name} feeds all of its widths.`;
      return `${name} feeds to ${Math.round(feedsTo * 10) / 10} mm, where ${shortName(first.check)} ends it.`;
    })
    .join(" ");
}

/** Units beside each other: what stops each tape first, the checks on which they part, the room each takes. */
export function comparisonHtml(
  comparison: Comparison,
  {
    level = 1,
    link,
  }: {
    readonly level?: 1 | 2 | 3 | 4 | 5;
    readonly link?: (unit: string, tape: string, check: string | null) => string;
  } = {},
): string {
  const { head, part } = headsAt(level);
  const { units, tapes, separates, mount } = comparison;
  const names = units.map(({ name }) => `<th scope="col">${escaped(name)}</th>`).join("");
  const rows = tapes.map(
    ({ tape, W, cells }) =>
      `<tr><th scope="row"><span class="name">${W}</span> ${escaped(tape)}</th>${cells.map((c) => cellHtml(c, tape, link)).join("")}</tr>`,
  );
  const say = (check: string, value: number | null, unit: string): string =>
    value === null ? "no number" : showIn(shownInOf(check, unit), value);
  const parted = separates.map(
    ({ check, title, tape, values }) =>
      `<tr><th scope="row"><span class="name">${escaped(capital(shortName(check)))}</span><small>${escaped(title)}; on ${escaped(tape)}</small></th>${values
        .map((v) =>
          v
            ? `<td><span class="verdict ${v.verdict === "n/a" ? "na" : v.verdict}">${markInline(v.verdict, 13)} ${escaped(say(check, v.value, v.in))}</span></td>`
            : `<td class="small">not applicable</td>`,
        )
        .join("")}</tr>`,
  );
  const room = mount.map(
    ({ check, title, tape, values }) =>
      `<tr><th scope="row"><span class="name">${escaped(capital(title))}</span><small>on ${escaped(tape)}</small></th>${values.map((v) => `<td>${v.value === null ? `<span class="small">${escaped(v.says)}</span>` : escaped(say(check, v.value, v.in))}</td>`).join("")}</tr>`,
  );
  const table = (caption: string, lines: readonly string[]): string =>
    `<table><caption class="unseen">${caption}</caption><thead><tr><th scope="col"><span class="unseen">what</span></th>${names}</tr></thead><tbody>${lines.join("\n")}</tbody></table>`;
  return `<section class="tw-panel comparison">${head(escaped(comparisonHeadline(comparison)))}
${part("First stop of each tape")}${table("First stop of each tape", rows)}
${part("What separates them", separates.length === 0 ? "nothing: no check parts them on a tape both serve" : "the narrowest tape on which they part")}${separates.length === 0 ? "" : table("What separates them", parted)}
${mount.length === 0 ? "" : `${part("Room in the machine")}${table("Room in the machine", room)}`}
<p class="small">Compared: ${escaped(list(units.map((u) => `${u.name}${u.revision === "" ? "" : `, revision ${u.revision}`}`)))}.</p></section>`;
}
/** Unit in which the value of a check is read; the customary one where it chooses its value by the scene. */
export function shownInOf(check: string, unit: string): string {
  const value = checkNamed(check)?.value;
  return value && typeof value !== "function" ? shownUnit(value) : customaryUnit(unitOf(unit).dimension);
}
function cellHtml(
  cell: ComparedCell | null,
  tape: string,
  link: ((unit: string, tape: string, check: string | null) => string) | undefined,
): string {
  if (!cell) return `<td class="small">not served</td>`;
  const { unit, verdict, share, first } = cell;
  const words = `${sayVerdict(verdict, share)}${first === null ? "" : `, ${shortName(first)}`}`;
  const inner = link ? `<a href="${escaped(link(unit, tape, first))}">${escaped(words)}</a>` : escaped(words);
  return `<td><span class="verdict ${verdict === "n/a" ? "na" : verdict}">${markInline(verdict, 13)} ${inner}</span></td>`;
}
