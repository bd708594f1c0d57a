import {
  asWritten,
  type Came,
  checkNamed,
  type Frozen,
  type Given,
  notADay,
  Realiser,
  type Scene,
  type Score,
  scored,
  shownUnit,
} from "@tapeworthy/core";
import { didYouMean, eachOnce, type ProjectError } from "./error.ts";
import { GivenStore } from "./given-store.ts";
import { type LedgerLine, ledgerFields } from "./ledger-fields.ts";
import { checkLimits } from "./limits.ts";
import { FieldReader, plainSetting } from "./read.ts";
import { parseSource, type Source, SourceFile } from "./source.ts";

/** A score as it stands in the ledger: worked out anew from what was foretold and what came. */
export interface LedgerScore extends Score {
  readonly date: string | undefined;
  readonly late: string | undefined;
}
/** A prediction as it stands in the ledger. */
export interface LedgerFrozen extends Frozen {
  /** The unit in which what is foretold is written there: it is read so where its trial's file is gone too. */
  readonly shownIn?: string;
}
/** ledger.yaml, read. */
export interface Ledger {
  readonly frozen: readonly LedgerFrozen[];
  readonly scores: readonly LedgerScore[];
  /** Trials of checks that are taken into belief, with the day; the later of taken and apart counts. */
  readonly taken: ReadonlyMap<string, string | undefined>;
  /** Trials that are not taken into belief, with the reason. */
  readonly apart: ReadonlyMap<string, string>;
  /** What a trial rests on: by its prediction, else as it was noted afterwards. */
  readonly keys: ReadonlyMap<string, ReadonlyMap<string, string>>;
}
export const ledgerPath = "ledger.yaml";
export const emptyLedger: Ledger = { frozen: [], scores: [], taken: new Map(), apart: new Map(), keys: new Map() };

type Kind = "frozen" | "scored" | "taken" | "apart" | "keyed";
const kinds: readonly Kind[] = ["frozen", "scored", "taken", "apart", "keyed"];
const needs: Readonly<Record<Kind, readonly (keyof LedgerLine)[]>> = {
  frozen: ["trial", "question", "unit", "tape", "share", "date", "seed", "version", "sha", "rests on"],
  scored: ["trial"],
  taken: [],
  apart: ["reason"],
  keyed: ["rests on"],
};

/**
 * Reads the ledger. All errors of the file come back together. With the trials that there are, by name, a line that takes one into belief is held
 * against them.
 */
export function readLedger(
  text: string,
  trials?: ReadonlyMap<string, { readonly question: string }>,
  file = ledgerPath,
): { ledger?: Ledger; errors: readonly ProjectError[] } {
  // Comments alone: nothing has been entered yet.
  if (text.replace(/^\s*#.*$/gm, "").trim() === "") return { ledger: emptyLedger, errors: [] };
  const source = new SourceFile(file, text);
  const { tree, errors } = parseSource(source);
  if (!tree) return { errors };
  const reader = new FieldReader(
    plainSetting({ source, prefix: "ledger/", level: "unit", store: new GivenStore(), errors }),
  );
  const data = reader.read(ledgerFields, tree, "") as { readonly ledger: readonly LedgerLine[] } | undefined;
  checkLimits(reader.limits, {} as Scene, "", (...fault) => errors.push(source.error(...fault)));
  const list = tree.kind === "map" ? tree.entries.get("ledger")?.value : undefined;
  if (!data || errors.length > 0 || list?.kind !== "list") return { errors: eachOnce(errors) };
  const frozen = new Map<string, LedgerFrozen>();
  const scores: LedgerScore[] = [];
  const taken = new Map<string, string | undefined>();
  const apart = new Map<string, string>();
  const keys = new Map<string, ReadonlyMap<string, string>>();
  for (const [i, line] of data.ledger.entries()) {
    const item = list.items[i]!;
    const at = (key: string): Source => (item.kind === "map" ? item.entries.get(key)?.value : undefined) ?? item;
    const refuse = (key: string, found: string, expected: string, hint?: string): void =>
      void errors.push(source.error(at(key).place, found, expected, hint));
    const kind = kinds.filter((k) => line[k] !== undefined);
    if (kind.length !== 1) {
      refuse(
        "",
        kind.length === 0 ? "an entry of no kind" : `an entry of two kinds (${kind.join(", ")})`,
        `one of ${kinds.join(", ")}`,
      );
      continue;
    }
    const missing = needs[kind[0]!].filter((key) => line[key] === undefined);
    if (missing.length > 0) {
      refuse(kind[0]!, `an entry "${kind[0]}" without ${missing.map((m) => `"${m}"`).join(", ")}`, "all of them");
      continue;
    }
    const bad = line.date === undefined ? undefined : notADay(line.date);
    if (bad !== undefined) refuse("date", bad, "a day");
    if (line.sha !== undefined && !/^[0-9a-f]{64}$/.test(line.sha))
      refuse("sha", `"${line.sha.slice(0, 12)}"`, "64 hexadecimal digits");
    if (line.taken !== undefined) {
      const trial = trials?.get(line.taken);
      if (trials && !trial)
        refuse(
          "taken",
          `the trial "${line.taken}"`,
          "the name of a file in bench/, without .yaml",
          didYouMean(line.taken, [...trials.keys()]) ?? undefined,
        );
      else if (trial && !checkNamed(trial.question))
        refuse(
          "taken",
          `${line.taken}, which reads ${trial.question}`,
          "a trial that tries a check",
          "What reads a number is taken by writing its value into the design.",
        );
      apart.delete(line.taken);
      taken.set(line.taken, line.date);
    }
    if (line.apart !== undefined) {
      taken.delete(line.apart);
      apart.set(line.apart, line.reason!);
    }
    if (line.keyed !== undefined) keys.set(line.keyed, keyOf(line));
    if (line.frozen !== undefined) {
      if (frozen.has(line.frozen)) refuse("frozen", `"${line.frozen}" a second time`, "each name once");
      const predicted = intervalOf(line.predicted);
      const fails = intervalOf(line.fails);
      for (const [key, of] of [
        ["predicted", predicted],
        ["fails", fails],
      ] as const)
        if (of && !(of.low <= of.median && of.median <= of.high))
          refuse(key, "a middle outside its own ends", "[middle, lower end, upper end]");
      frozen.set(line.frozen, {
        id: line.frozen,
        trial: line.trial!,
        question: line.question!,
        unit: line.unit!,
        tape: line.tape!,
        predicted,
        fails,
        share: nominal(line.share!),
        sha: line.sha!,
        date: line.date!,
        seed: nominal(line.seed!),
        version: line.version!,
        key: keyOf(line),
        ...(line.predicted ? { shownIn: shownUnit(line.predicted[0]) } : {}),
      });
      keys.set(line.trial!, keyOf(line));
    }
    if (line.scored !== undefined) {
      const of = frozen.get(line.scored);
      if (!of) {
        const hint = didYouMean(line.scored, [...frozen.keys()]);
        refuse("scored", `"${line.scored}"`, "the name of a prediction that stands above", hint ?? undefined);
        continue;
      }
      const came = cameOf(line, refuse);
      if (came === undefined) continue;
      if (came.kind === "value" && !of.predicted) {
        refuse("came", "a value that came out", `pieces and how many failed: ${of.id} foretold no value`);
        continue;
      }
      if (came.kind === "pieces" && !of.fails) {
        refuse("pieces", "pieces that were tried", `what came out: ${of.id} foretold no pieces`);
        continue;
      }
      scores.push({ ...scored(of, came), trial: line.trial!, date: line.date, late: line.late });
    }
  }
  if (errors.length > 0) return { errors: eachOnce(errors) };
  return { ledger: { frozen: [...frozen.values()], scores, taken, apart, keys }, errors: [] };
}
function cameOf(
  line: LedgerLine,
  refuse: (key: string, found: string, expected: string, hint?: string) => void,
): Came | undefined {
  if (line.came)
    return { kind: "value", value: nominal(line.came), uncertainty: line.uncertainty ? nominal(line.uncertainty) : 0 };
  if (!line.pieces) {
    refuse("scored", "a score without what came out", '"came", or "pieces" and "failed"');
    return undefined;
  }
  const [run, failed] = [nominal(line.pieces), line.failed ? nominal(line.failed) : 0];
  if (!(Number.isInteger(run) && Number.isInteger(failed) && failed <= run)) {
    refuse("pieces", `${failed} of ${run} pieces failed`, "whole numbers, no more failed than tried");
    return undefined;
  }
  return { kind: "pieces", failed, run };
}
const intervalOf = (of: readonly [Given, Given, Given] | undefined) =>
  of && { median: nominal(of[0]), low: nominal(of[1]), high: nominal(of[2]) };
const keyOf = (line: LedgerLine): ReadonlyMap<string, string> => new Map(Object.entries(line["rests on"] ?? {}));
const nominal = (g: Given): number => new Realiser({} as Scene, [g]).run(asWritten).number(g);
