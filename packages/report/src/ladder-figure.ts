import { type Ladder, saySpans } from "@tapeworthy/core";
import { escaped, ladder, ladderInput, list, type Shared, shortName, toSvg } from "@tapeworthy/drawing";
import type { UnitPart } from "./unit-part.ts";

/** A unit over continuous width: the drawing, the whole unit in a sentence, and each hard check that turns as a row. */
export function ladderHtml({ unit }: UnitPart, climbed: Ladder, prefix: string, shared: Shared): string {
  const wanted = [...new Set(unit.tapes.map((t) => t.W))];
  const drawn = toSvg(ladder(ladderInput(climbed, wanted), { width: 928, height: 420 }), {
    prefix: `${prefix}l`,
    shared,
  });
  const name = escaped(unit.name);
  const tapes = list(climbed.tapes.map(({ tape }) => tape));
  const turning = climbed.lines.filter((l) => l.severity === "S" && l.turns.length > 0);
  const rows = turning.map(
    (l) =>
      `<tr><th scope="row">${escaped(shortName(l.check))}</th><td>${escaped(saySpans(l.spans))}</td><td>${escaped(list(l.turns.map((t) => `${t.after} ${t.where}`)))}</td><td class="words">${escaped(l.title)}${l.contradicted ? "; contradicted, ranks only" : ""}</td></tr>`,
  );
  const table =
    rows.length === 0
      ? "<p>No hard check turns between its least and its greatest width.</p>"
      : `<div class="scroll" tabindex="0" role="group" aria-label="Checks of ${name} that turn over the width"><table class="list snug"><caption class="unseen">Checks of ${name} that turn over the width</caption><thead><tr><th scope="col">check</th><th scope="col">over the width, mm</th><th scope="col">it turns</th><th scope="col">what it claims</th></tr></thead><tbody>
${rows.join("\n")}
</tbody></table></div>`;
  return `<p><b>${name} ${escaped(saySpans(climbed.spans))}</b>, at ${climbed.from} to ${climbed.to} mm. Between ${escaped(tapes)} the tape's letters, its film and what the unit is built for change evenly.</p>
<div class="scroll" tabindex="0" role="group" aria-label="Width ladder of ${name}"><div class="ladder">${drawn}</div></div>
${table}`;
}
