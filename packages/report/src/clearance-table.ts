import { type LeastGaps, showIn } from "@tapeworthy/core";
import { escaped } from "@tapeworthy/drawing";
import type { UnitPart } from "./unit-part.ts";

/** Pairs that must keep clear of each other: least gap over the wanted tapes, the gap wanted, where and on which tape. Tightest first. */
export function clearanceTable({ unit }: UnitPart, { pairs, without }: LeastGaps): string {
  const open = without.map((w) => `<li>${escaped(pairOf(w))}: ${escaped(w.trouble)}</li>`);
  const none = open.length > 0 ? `<p>Without an answer:</p><ul>${open.join("")}</ul>` : "";
  if (pairs.length === 0) return `<p>No two things of this unit are held against each other.</p>${none}`;
  const rows = pairs.map((c) => {
    const short = c.gap < c.wanted;
    const spare = showIn("mm", c.gap - c.wanted, 2);
    return `<tr><th scope="row">${escaped(pairOf(c))}</th><td class="end num">${escaped(showIn("mm", c.gap, 2))}</td><td class="end num">${escaped(showIn("mm", c.wanted, 2))}</td><td class="end num${short ? " short" : ""}">${escaped(spare)}${short ? " too near" : ""}</td><td>${escaped(c.place)}</td><td class="num">${escaped(c.tape)}</td></tr>`;
  });
  return `<p>As written, what is not known at its middle; what may break a pair for its scatter is a check's to say.</p><div class="scroll" tabindex="0" role="group" aria-label="Clearances of ${escaped(unit.name)}"><table class="list snug"><caption class="unseen">Clearances of ${escaped(unit.name)}, tightest first</caption><thead><tr><th scope="col">pair</th><th scope="col" class="end">least gap</th><th scope="col" class="end">wanted</th><th scope="col" class="end">to spare</th><th scope="col">where</th><th scope="col">on tape</th></tr></thead><tbody>
${rows.join("\n")}
</tbody></table></div>${none}`;
}
const pairOf = ({ a, b }: { readonly a: string; readonly b: string }): string => `${a} / ${b}`;
