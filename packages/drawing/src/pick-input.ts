import type { Accuracy, AccuracyBand } from "@tapeworthy/core";
import type { PickPlanInput, PickRadius } from "./pick-plan.ts";
import type { PickShare, PickSharesInput } from "./pick-shares.ts";
import { sayAddress } from "./say.ts";

const bandOf = (name: string, { low, middle, high }: AccuracyBand): PickRadius => ({ name, radius: middle, low, high });

/** Below half a micrometre a mean is dust of the draws. */
const dustless = (v: number): number => (Math.abs(v) < 0.5e-6 ? 0 : v);

/** Accuracy at the pick as its plan takes it: the radius that decides first, then those of a known unit and of a unit's mean. */
export function pickPlanInput(a: Accuracy): PickPlanInput {
  const { known, any, unitMean } = a.radii;
  return {
    unit: a.unit,
    tape: a.tape,
    pocket: a.pocket,
    ...(a.part ? { part: a.part } : {}),
    ...(a.takes === null ? {} : { takes: a.takes }),
    share: a.share,
    radii: [
      ...(any ? [bandOf("any cycle of any unit", any)] : []),
      bandOf("a known unit and reel", known),
      ...(unitMean ? [bandOf("a unit's mean, untaught", unitMean)] : []),
    ],
    offset: [dustless(a.offset.x), dustless(a.offset.y)],
    spread: a.sd,
    ...(a.turn ? { turn: { mean: a.turn.mean, sd: a.turn.sd } } : {}),
    points: a.points,
  };
}
/** Who makes its spread, by input. */
export function pickSharesInput(a: Accuracy): PickSharesInput {
  const { unit, tape } = a;
  return {
    unit,
    tape,
    of: "the spread along and across, any cycle of any unit",
    rows: a.contributions.map(({ address, share, level, along, across, actsTogether }): PickShare => {
      const acts = across < 0.05 * share ? "x" : along < 0.05 * share ? "y" : "x, y";
      return {
        key: `${address} ${level}`,
        name: sayAddress(address),
        share,
        level,
        acts,
        ...(actsTogether ? { together: true } : {}),
      };
    }),
  };
}
