import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Check } from "../quantity/check.ts";
import type { Given } from "../quantity/given.ts";
import { decide } from "../study/allowance.ts";
import { smalls } from "../study/allowance.fixture.ts";
import { Cell } from "../study/cell.ts";
import { Deviates } from "../study/deviates.ts";
import { alike, check, closed, number, plainScene, solved } from "../study/plain.fixture.ts";
import { asWritten, Realiser } from "../study/realise.ts";
import { finished } from "../study/steps.ts";
import { movedBy } from "./cure.ts";
import { dragInSteps } from "./drag.ts";
import { judgeInSteps, studyInSteps } from "./judge.ts";
import { shareHolding, verdictOf } from "./verdict.ts";

const deviates = new Deviates(1);
const even = alike(1000);
function dragged(checks: readonly Check[], members: readonly string[], weights = even, reach = 1e9) {
  const scene = plainScene();
  const judging = { unit: "u", tape: "t", scene, checks, deviates, weights, contradicted: new Set<string>() };
  const studied = checks.map((one) => finished(studyInSteps(scene, one, deviates)));
  const { result } = finished(judgeInSteps(judging, studied));
  return { scene, result, drag: finished(dragInSteps({ judging, studied, result, members, reach })) };
}
/** Share of belief in which all of the checks hold with a number moved, from full draws. */
function drawn(checks: readonly Check[], members: readonly string[], by: number, weights = even) {
  const deciding = decide(new Cell(plainScene(), checks), deviates, { moved: movedBy(members, by) });
  return shareHolding(
    deciding.map(({ gap }) => gap),
    weights,
  );
}
const valueOf = (g: Given): number => new Realiser(plainScene(), [g]).run(asWritten).number(g);
const movable = (inputs: readonly Given[]): Given[] => inputs.filter((g) => g.expression);

test("explore", () => {
  const errs: number[] = [];
  for (const small of smalls) for (const g of movable(small.inputs)) {
    const { drag, result } = dragged([small.check], [g.address]);
    expect(drag.at(0)).toEqual(result);
    const v = valueOf(g) || 1;
    const line: string[] = [];
    for (const part of [-0.3, -0.15, -0.05, 0.05, 0.15, 0.3]) {
      const q = drag.at(v * part).share!;
      const t = drawn([small.check], [g.address], v * part);
      errs.push(q - t);
      line.push(`${t.toFixed(3)}${q - t >= 0 ? "+" : "-"}${Math.abs(q - t).toFixed(3)}${verdictOf(q) === verdictOf(t) ? "" : "!"}`);
    }
    console.log(small.name, g.symbol, result.share, line.join("  "));
  }
  console.log("rms", Math.sqrt(errs.reduce((s, e) => s + e * e, 0) / errs.length), "max", Math.max(...errs.map(Math.abs)), errs.length);
});
