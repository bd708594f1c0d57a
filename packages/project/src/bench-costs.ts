import {
  asWritten,
  type BenchCosts,
  type Given,
  type PieceCosts,
  type partKinds,
  Realiser,
  type Scene,
  usualCosts,
} from "@tapeworthy/core";
import type { ProjectData } from "./project-fields.ts";

const day = 86400;
const hour = 3600;
const nominal = (g: Given): number => new Realiser({} as Scene, [g]).run(asWritten).number(g);

/** `bench costs` of project.yaml in working days; what it leaves out as usual. */
export function benchCostsOf({ "bench costs": own }: ProjectData): BenchCosts {
  const inDays = (g: Given | undefined, usual: number): number => (g ? nominal(g) / day : usual);
  const plain = (g: Given | undefined, usual: number): number => (g ? nominal(g) : usual);
  type Own = NonNullable<ProjectData["bench costs"]>["trial piece"];
  const piece = (of: Own, usual: PieceCosts): PieceCosts => ({
    days: inDays(of?.days, usual.days),
    catches: plain(of?.catches, usual.catches),
    passesGood: plain(of?.["passes good"], usual.passesGood),
  });
  const byPart = (
    of: Readonly<Partial<Record<(typeof partKinds)[number], Given>>> | undefined,
    usual: BenchCosts["late"],
  ): BenchCosts["late"] => ({
    printed: inDays(of?.printed, usual.printed),
    bought: inDays(of?.bought, usual.bought),
    board: inDays(of?.board, usual.board),
  });
  const late = own?.["found late"];
  const hours = own?.["working day"];
  return {
    hours: hours ? nominal(hours) / hour : usualCosts.hours,
    piece: piece(own?.["trial piece"], usualCosts.piece),
    prototype: piece(own?.["whole prototype"], usualCosts.prototype),
    late: byPart(late, usualCosts.late),
    further: inDays(late?.["further pair"], usualCosts.further),
    falseAlarm: byPart(own?.["false alarm"], usualCosts.falseAlarm),
  };
}
