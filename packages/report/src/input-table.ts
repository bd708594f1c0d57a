import { checkNamed, type Explained, explain, type Letter, placeText } from "@tapeworthy/core";
import { counted, escaped, letterMark, letterWords, list, sayAddress, shortName } from "@tapeworthy/drawing";
import { toId } from "./anchor.ts";
import type { ReportInput } from "./report-input.ts";
import type { UnitPart } from "./unit-part.ts";

/** A number that somebody gave, and the checks that rest on it. */
export interface InputLine {
  readonly address: string;
  readonly text: string;
  readonly letter: Letter;
  readonly place: string;
  readonly checks: readonly string[];
  /** Tapes of this unit whose verdict it decides first. */
  readonly decides: readonly { readonly tape: string; readonly check: string }[];
}

/** Every number that the checks of a unit rest on over its wanted tapes, guesses first. */
export function inputLines({ unit }: UnitPart, input: ReportInput): InputLine[] {
  const found = new Map<string, { text: string; letter: Letter; place: string; checks: Set<string> }>();
  const visit = (row: Explained, check: string): void => {
    const { given } = row;
    if (given) {
      const one = found.get(given.address) ?? {
        text: given.text,
        letter: given.letter,
        place: placeText(given.origin),
        checks: new Set<string>(),
      };
      one.checks.add(check);
      found.set(given.address, one);
    }
    for (const inner of row.rests) visit(inner, check);
  };
  for (const row of unit.tapes) {
    const scene = input.sceneOf(unit.unit, row.tape);
    for (const f of row.findings) {
      const check = f.verdict === "n/a" ? undefined : checkNamed(f.check);
      const tree = check && explain(check, scene);
      if (!tree) continue;
      for (const one of [tree.value, tree.least, tree.most]) if (one) visit(one, f.check);
    }
  }
  const decided = unit.tapes.flatMap((row) =>
    row.verdict === "depends" || row.verdict === "stops"
      ? row.first.flatMap((check) => {
          const d = row.findings.find((f) => f.check === check)?.decisive;
          return d ? [{ address: d.address, tape: row.tape, check }] : [];
        })
      : [],
  );
  const rank = { g: 0, m: 1, d: 2 } as const;
  return [...found]
    .map(([address, { checks, ...rest }]) => ({
      address,
      ...rest,
      checks: [...checks],
      decides: decided.filter((d) => d.address === address),
    }))
    .sort(
      (a, b) =>
        rank[a.letter] - rank[b.letter] ||
        b.decides.length - a.decides.length ||
        b.checks.length - a.checks.length ||
        (a.address < b.address ? -1 : 1),
    );
}

export function inputTables(part: UnitPart, input: ReportInput): string {
  const all = inputLines(part, input);
  const of = (letter: Letter): InputLine[] => all.filter((l) => l.letter === letter);
  const [guesses, measured, drawn] = [of("g"), of("m"), of("d")];
  const counts = `<p>${escaped(counted(all.length, "number"))} carry the verdicts: ${letterMark("g")} ${guesses.length} guessed or remembered, ${letterMark("m")} ${measured.length} measured here, ${letterMark("d")} ${drawn.length} from a drawing or standard.</p>`;
  return [
    counts,
    ...(["g", "m", "d"] as const).flatMap((letter) => {
      const lines = of(letter);
      if (lines.length === 0) return [];
      const head = `${letterMark(letter)} ${letterWords[letter]} <small>${lines.length}</small>`;
      return [
        `<details class="inputs ${letter}"${letter === "g" ? " open" : ""}><summary><h4>${head}</h4></summary>${table(part, letter, lines)}</details>`,
      ];
    }),
  ].join("\n");
}

function table({ unit }: UnitPart, letter: Letter, lines: readonly InputLine[]): string {
  const rows = alike(lines).map((group) => {
    const [{ address, text, place, checks, decides }] = group as [InputLine];
    const name =
      group.length === 1
        ? `${escaped(sayAddress(address))} <small>${escaped(address)}</small>`
        : escaped(list(group.map((l) => sayAddress(l.address))));
    const links = [...new Set(decides.map((d) => d.check))].map(
      (check) =>
        `${escaped(shortName(check))} on ${list(
          decides
            .filter((d) => d.check === check)
            .map(({ tape }) => `<a${toId("finding", unit.unit, tape, check)}>${escaped(tape)}</a>`),
        )}`,
    );
    return `<tr><th scope="row">${name}</th><td class="num">${escaped(text)}</td><td><small>${escaped(place)}</small></td><td><small>${escaped(list(checks.map(shortName)))}</small></td>${letter === "g" ? `<td>${links.length > 0 ? list(links) : ""}</td>` : ""}</tr>`;
  });
  const words = `Numbers that stand on: ${letterWords[letter]}`;
  return `<div class="scroll" tabindex="0" role="group" aria-label="${escaped(unit.name)}, ${words.toLowerCase()}"><table class="list"><caption class="unseen">${words}</caption><thead><tr><th scope="col">number</th><th scope="col">as written</th><th scope="col">where it stands</th><th scope="col">checks that rest on it</th>${letter === "g" ? '<th scope="col">decides</th>' : ""}</tr></thead><tbody>
${rows.join("\n")}
</tbody></table></div>`;
}

/** Numbers of several tapes that stand on the same words, decide nothing and carry the same checks are one row. */
function alike(lines: readonly InputLine[]): InputLine[][] {
  const groups = new Map<string, InputLine[]>();
  for (const l of lines) {
    const key = l.decides.length > 0 ? l.address : JSON.stringify([l.text, l.place, l.checks]);
    groups.set(key, [...(groups.get(key) ?? []), l]);
  }
  return [...groups.values()];
}
