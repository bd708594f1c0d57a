import { type Bench, ledgerText, type Refused } from "./bench.ts";
import type { BenchBelief } from "./bench-belief.ts";
import { pieceReadings } from "./bench-evidence.ts";
import { type Taking, takingOf } from "./bench-take.ts";
import type { Edit } from "./edit.ts";
import { apartEdit, takenEdit } from "./ledger-edit.ts";
import type { Trial } from "./log/trial.ts";

/** What taking a trial would write: a measured value into the design's file, or into the ledger that a tried check is believed. */
export type TakingIn =
  | { readonly kind: "design"; readonly taking: Taking; readonly edit: Edit }
  | { readonly kind: "belief"; readonly edit: Edit; readonly says: string }
  | { readonly kind: "nothing"; readonly why: string };

/** `belief` holds the trial as evidence: a result that contradicts is a finding, and does not move belief. */
export function takingIn(bench: Bench, trial: Trial, belief: BenchBelief, date: string | undefined): TakingIn {
  const { name, question } = trial;
  const result = belief.results.find((r) => r.trial === name);
  if (!result) throw new RangeError(`belief was worked out without ${name}`);
  const read = result.direct && pieceReadings(trial, result.direct.given.unit);
  if (read) {
    const taking = takingOf(bench.texts, trial, result, read);
    return typeof taking === "string"
      ? { kind: "nothing", why: taking }
      : { kind: "design", taking, edit: taking.edit };
  }
  if (result.state !== "used") return { kind: "nothing", why: `${name} is ${result.says}` };
  const standing = belief.taken.standings.find((s) => s.trial === name);
  if (standing?.state === "contradicts")
    return {
      kind: "nothing",
      why: `${name} contradicts ${standing.blames}: that is a finding, and belief does not move by it`,
    };
  return {
    kind: "belief",
    edit: takenEdit(ledgerText(bench), name, date),
    says: `${name} tries ${question}: it moves belief, and there is no number to write`,
  };
}
/** Keeps a trial apart, with the reason. */
export function keepingApart(
  bench: Bench,
  name: string,
  reason: string,
  date: string | undefined,
): { readonly edit: Edit } | Refused {
  if (reason.trim() === "") return { why: "Keeping a trial apart wants a reason." };
  const { apart } = bench.project.ledger;
  if (apart.has(name)) return { why: `${name} is kept apart already: ${apart.get(name)}.` };
  return { edit: apartEdit(ledgerText(bench), name, reason, date) };
}
