import { checkNamed, type Finding, type TapeResult } from "@tapeworthy/core";
import { shownInOf as shownInOfCheck } from "@tapeworthy/drawing";
import type { EngineState, PairState } from "../engine/engine.ts";
import type { Choice } from "../sheet/choice.ts";

export const chosenPair = (state: EngineState, { unit, tape }: Choice): PairState | undefined =>
  state.pairs.find((p) => p.unit === unit && p.tape === tape);
export const chosenRow = (state: EngineState, choice: Choice): TapeResult | undefined =>
  chosenPair(state, choice)?.result;
/** The finding whose panel is open. */
export const chosenFinding = (state: EngineState, choice: Choice): Finding | undefined =>
  choice.panel === "known" ? undefined : chosenRow(state, choice)?.findings.find((f) => f.check === choice.check);
/** What has been worked out so far of a unit on its wanted tapes, in their order. */
export const rowsOf = (state: EngineState, unit: string | undefined): TapeResult[] =>
  state.pairs.flatMap((p) => (p.unit === unit && p.result ? [p.result] : []));

/** What a check claims. */
export const titleOf = (check: string): string => checkNamed(check)?.title ?? check;
/** Unit in which its value is read. */
export const shownInOf = ({ check, unit, verdict }: Finding): string =>
  verdict === "n/a" ? "" : shownInOfCheck(check, unit);
