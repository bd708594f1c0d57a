import type { EvidenceStanding, KnownStanding, KnownWord, Verdict } from "@tapeworthy/core";
import { headsAt } from "./finding.ts";
import { list, sayVerdict, shortName } from "./say.ts";
import { escaped } from "./scene.ts";
import { markInline } from "./verdict-mark.ts";

/** One unit known to run or fail on a tape, beside what the checks say without its own weight. */
export interface KnownRow {
  readonly unit: string;
  readonly tape: string;
  readonly result: KnownWord;
  readonly reelsRun: number | null;
  readonly reelsRefused: number | null;
  readonly share: number;
  readonly verdict: Exclude<Verdict, "n/a">;
  readonly standing: KnownStanding;
  /** Checks that stop what is known to run. */
  readonly checks: readonly string[];
}
export interface KnownInput {
  readonly of: number;
  readonly reproduced: number;
  readonly open: number;
  readonly contradicted: readonly string[];
  readonly lines: readonly KnownRow[];
  readonly weighed: boolean;
  readonly effective: number;
  /** Trials of checks that the ledger takes into belief. */
  readonly taken?: readonly EvidenceStanding[];
  /** Those that a changed design has retired, with the reason. */
  readonly retired?: readonly { readonly trial: string; readonly says: string }[];
}
const signs: Readonly<Record<KnownStanding, readonly [sign: string, aloud: string]>> = {
  reproduced: ["=", "comes out right"],
  open: ["?", "stays open"],
  contradicted: ["≠", "contradicted"],
};

/** The first panel: what the shop knows beside what the checks say, before anybody believes a number. */
export function knownHtml(
  input: KnownInput,
  {
    level = 1,
    ofOne = false,
  }: {
    readonly level?: 1 | 2 | 3 | 4 | 5 /** All lines are of one unit, whose name the page says already. */;
    readonly ofOne?: boolean;
  } = {},
): string {
  const { of, reproduced, open, lines, contradicted } = input;
  const { head, part } = headsAt(level);
  if (of === 0)
    return `<section class="tw-panel known">${head("Nothing is known yet")}<p>A line in known.yaml for a unit that runs or fails is worth more than six measurements.</p>${takenHtml(input, part)}</section>`;
  const rows = lines.map((l) => {
    const [sign, aloud] = signs[l.standing];
    const reels = l.reelsRun === null ? "" : ` <small>${l.reelsRefused ?? 0} of ${l.reelsRun} reels refused</small>`;
    const by = l.checks.length > 0 ? `<small>${escaped(list(l.checks.map(shortName)))}</small>` : "";
    return `<tr class="${l.standing}${l.standing === "contradicted" ? " odd" : ""}"><th scope="row">${ofOne ? `<span class="name">${escaped(l.tape)}</span>` : `<span class="name">${escaped(l.unit)}</span> on ${escaped(l.tape)}`}</th><td>${escaped(l.result)}${reels}</td><td class="sign"><span aria-hidden="true">${sign}</span><span class="unseen">${aloud}</span></td><td class="end"><span class="verdict ${l.verdict}">${markInline(l.verdict, 13)} ${escaped(sayVerdict(l.verdict, l.share))}</span>${by}</td></tr>`;
  });
  const openWords = open > 0 ? `; ${open} ${open === 1 ? "stays" : "stay"} open` : "";
  const weight = input.weighed
    ? `<p>Their record is weighed in: belief is worth ${Math.round(input.effective)} of 1000 even draws.</p>`
    : "<p>Their record is not weighed in.</p>";
  const against =
    contradicted.length === 0
      ? ""
      : `${part(`<span aria-hidden="true">≠</span> The record contradicts ${escaped(list(contradicted))}`)}<p>What it contradicts keeps its words but stops no tape: it ranks only.</p>`;
  return `<section class="tw-panel known">${head(`The checks reproduce ${of === 1 ? (reproduced === 1 ? "the one thing" : "nothing yet of the one thing") : `${reproduced} of the ${of} things`} you know${openWords}`)}<p>Before you believe a number, see what the same checks say of units that run or fail in your shop.</p>
<table><caption class="unseen">Known units</caption><thead><tr><th scope="col">${ofOne ? "tape" : "unit on tape"}</th><th scope="col">what the shop knows</th><th scope="col"><span class="unseen">comparison</span></th><th scope="col" class="end">what the checks say</th></tr></thead><tbody>
${rows.join("\n")}
</tbody></table>${weight}${against}${takenHtml(input, part)}</section>`;
}
/** Trials that are taken into belief; what contradicts is a finding, and moves nothing. */
function takenHtml({ taken = [], retired = [] }: KnownInput, part: ReturnType<typeof headsAt>["part"]): string {
  const names = taken.filter(({ state }) => state === "taken").map(({ trial }) => trial);
  const against = taken.filter(({ state }) => state === "contradicts");
  const said = names.length === 0 ? "" : `<p>Taken into belief besides: ${escaped(list(names))}.</p>`;
  return (
    said +
    against
      .map(
        ({ trial, says }) =>
          `${part(`<span aria-hidden="true">≠</span> ${escaped(trial)} contradicts`)}<p>${escaped(`${trial} is taken, and ${says}.`)}</p>`,
      )
      .join("") +
    retired.map(({ trial, says }) => `<p>${escaped(`${trial} was taken and is ${says}.`)}</p>`).join("")
  );
}
