import type { CureEffect, CuresWithEffects, TapeResult } from "@tapeworthy/core";
import {
  escaped,
  list,
  markInline,
  type Shared,
  sayAddress,
  sayShare,
  sayVerdict,
  shortName,
} from "@tapeworthy/drawing";
import { toId } from "./anchor.ts";
import type { UnitPart } from "./unit-part.ts";
import { drawnFigure, sayMove } from "./ways.ts";

/** Cures of the unit's stopping checks: lever, from, to, and what else changes on the wanted tapes, worst first. */
export function cureTables(part: UnitPart, shared: Shared): string {
  const all = part.unit.tapes.flatMap((row) => (row.cures ?? []).map((found) => ({ row, found })));
  const same = new Map<string, { readonly rows: TapeResult[]; readonly found: CuresWithEffects }>();
  for (const { row, found } of all) {
    const key = JSON.stringify(found);
    const one = same.get(key) ?? { rows: [], found };
    one.rows.push(row);
    same.set(key, one);
  }
  return [...same.values()].map(({ rows, found }) => cureTable(part, rows, found, shared)).join("\n");
}

function cureTable({ unit }: UnitPart, rows: readonly TapeResult[], found: CuresWithEffects, shared: Shared): string {
  const links = rows.map((row) => `<a${toId("finding", unit.unit, row.tape, found.check)}>${escaped(row.tape)}</a>`);
  const head = `<h4>${escaped(shortName(found.check))} on ${list(links)}</h4>`;
  const name = `Cures of ${escaped(found.check)} on ${escaped(list(rows.map((row) => row.tape)))}`;
  if (found.cures.length === 0) {
    const near = found.nearest;
    const words = near
      ? `No single number of the file cures it. ${sayAddress(near.address)} comes nearest: ${near.members.length > 1 ? sayMove(near) : `at ${showAt(near.shownIn, near.to)}`} it holds in ${sayShare(near.share)} of belief.`
      : found.levers === 0
        ? "It rests on no number of the unit's file that could be moved."
        : "No single number of the file cures it.";
    return `${head}<p>${escaped(words)}</p>`;
  }
  const lines = found.cures.map((c) => {
    const writes = c.members.map(
      ({ address, text, written }) =>
        `<li><code>${escaped(address)}</code>: ${escaped(written)} <small>now ${escaped(text)}</small></li>`,
    );
    const [from, to] = c.members.length > 1 ? ["", sayMove(c)] : [showAt(c.shownIn, c.from), showAt(c.shownIn, c.to)];
    return `<tr><th scope="row">${escaped(sayAddress(c.address))}</th><td class="end num">${escaped(from)}</td><td class="end num">${escaped(to)}</td><td class="end num">${escaped(sayShare(c.share))}</td><td><ul class="effects">${writes.join("")}</ul></td><td>${effectsHtml(c.effects, shared)}</td></tr>`;
  });
  return `${head}<div class="scroll" tabindex="0" role="group" aria-label="${name}"><table class="list snug"><caption class="unseen">${name}</caption><thead><tr><th scope="col">lever</th><th scope="col" class="end">from</th><th scope="col" class="end">to</th><th scope="col" class="end">it then holds in</th><th scope="col">what to write</th><th scope="col">what else changes, worst first</th></tr></thead><tbody>
${lines.join("\n")}
</tbody></table></div>`;
}
const showAt = (shownIn: string, v: number): string =>
  `${drawnFigure(shownIn, v)}${shownIn === "" ? "" : ` ${shownIn}`}`;

/** Tapes on which the same happens stand together; a verdict that turns comes before one that stays. */
function effectsHtml(effects: readonly CureEffect[], shared: Shared): string {
  if (effects.length === 0) return "nothing";
  const same = new Map<string, CureEffect[]>();
  for (const e of effects) {
    const key = JSON.stringify([said(e.before), said(e.after), e.checks]);
    same.set(key, [...(same.get(key) ?? []), e]);
  }
  const turns = ([e]: readonly CureEffect[]): number => (e!.before.verdict === e!.after.verdict ? 1 : 0);
  const groups = [...same.values()].sort((a, b) => turns(a) - turns(b));
  return `<ul class="effects">${groups.map((g) => groupHtml(g, shared)).join("")}</ul>`;
}
const said = ({ verdict, share }: CureEffect["before"]): string => sayVerdict(verdict, share);

function groupHtml(group: readonly CureEffect[], shared: Shared): string {
  const { before, after, checks } = group[0]!;
  const tapes = list(group.map((e) => e.tape));
  const turned = list(checks.map((c) => `${shortName(c.check)} ${c.before} to ${c.after}`));
  if (before.verdict === after.verdict)
    return `<li><small>${escaped(tapes)}: ${escaped(said(before))}${said(before) === said(after) ? " as before" : ` to ${escaped(said(after))}`}${turned === "" ? "" : `, with ${escaped(turned)}`}</small></li>`;
  const cls = after.verdict === "n/a" ? "na" : after.verdict;
  return `<li><b>${escaped(tapes)}</b> ${escaped(said(before))} <span aria-hidden="true">→</span><span class="unseen">to</span> <span class="verdict ${cls}">${markInline(after.verdict, 12, shared)} ${escaped(said(after))}</span>${turned === "" ? "" : ` <small>${escaped(turned)}</small>`}</li>`;
}
