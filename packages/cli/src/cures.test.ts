import { fileURLToPath } from "node:url";
import {
  Cell,
  checkNamed,
  checks,
  curesOf,
  Deviates,
  decide,
  type Effecting,
  effectsOf,
  evenWeights,
  holdsAt,
  shareHolding,
  verdictOf,
} from "@tapeworthy/core";
import { applied, type Project, sceneOf, type Texts, valueChanged } from "@tapeworthy/project";
import { describe, expect, test } from "vitest";
import { readFolder } from "./folder.ts";
import { load } from "./load.ts";

const texts = readFolder(fileURLToPath(new URL("../../../examples/saltgrass", import.meta.url)));
const project = load(texts);
const deviates = new Deviates(1);
const on = (of: Project, unit: string, tape: string): Effecting => {
  const scene = sceneOf(of, unit, tape);
  const cell = new Cell(scene, checks);
  const held = new Map(decide(cell, deviates).map(({ gap }, c) => [cell.checks[c]!.id, holdsAt(gap)] as const));
  return { tape, scene, checks, deviates, weights: evenWeights, contradicted: new Set(), held };
};
/** As drawn, for all that is asked of the same project. */
const asDrawn = new Map<string, Effecting>();
const drawn = (of: Project, unit: string, tape: string): Effecting => {
  if (of !== project) return on(of, unit, tape);
  const key = `${unit} ${tape}`;
  const known = asDrawn.get(key) ?? on(of, unit, tape);
  asDrawn.set(key, known);
  return known;
};
/** What a tape's verdicts are, check by check and together. */
const verdictsOf = ({ held, weights }: Effecting) => {
  const columns = [...held].map(([id, h]) => [id, Float64Array.from(h, (v) => v - 1)] as const);
  const hard = columns.filter(([id]) => checkNamed(id)!.severity === "S").map(([, c]) => c);
  const share = shareHolding(hard, weights);
  return {
    share,
    verdict: verdictOf(share),
    checks: new Map(columns.map(([id, c]) => [id, verdictOf(shareHolding([c], weights))])),
  };
};

/** Takes the first cures of a check as they are written, and holds the tape and some others against what was announced. */
function taken(
  unit: string,
  tape: string,
  id: string,
  others: readonly string[],
  from: { texts: Texts; project: Project },
) {
  const most = 1;
  const found = curesOf(sceneOf(from.project, unit, tape), checkNamed(id)!, deviates, evenWeights, most);
  expect(found.cures.length, `${id} on ${tape}`).toBeGreaterThan(0);
  const tapes = [tape, ...others];
  const before = tapes.map((t) => drawn(from.project, unit, t));
  for (const cure of found.cures) {
    let now: Texts = from.texts;
    for (const { address, written } of cure.members) {
      // Read anew each time: an edit moves what stands behind it on its line.
      const given = load(now).givens.get(address)!;
      const edit = valueChanged(now, given, written);
      now = new Map(now).set(edit.file, applied(edit, now.get(edit.file)!));
    }
    const after = load(now);
    const move = { members: cure.members.map((m) => m.address), by: cure.by };
    tapes.forEach((t, i) => {
      const was = verdictsOf(before[i]!);
      const is = verdictsOf(on(after, unit, t));
      const [announced] = effectsOf(before[i]!, [move]);
      const changed = [...is.checks]
        .filter(([check, v]) => v !== was.checks.get(check))
        .map(([check, v]) => ({ check, before: was.checks.get(check), after: v }));
      const said = announced?.checks.map(({ check, before: b, after: a }) => ({ check, before: b, after: a })) ?? [];
      expect(changed, `${cure.address} on ${t}`).toEqual(said);
      expect(is.verdict, `${cure.address} on ${t}`).toBe(announced?.after.verdict ?? was.verdict);
      expect(Math.abs(is.share - (announced?.after.share ?? was.share))).toBeLessThan(1e-3);
      if (t === tape) expect(is.checks.get(id), `${cure.address} cures ${id}`).toBe("feeds");
    });
  }
}

describe("a cure taken as proposed turns its verdict and nothing it did not announce", () => {
  const plain = { texts, project };
  test.each([
    ["plover", "paper-8", "groove.lips", ["sensor-8", "so16-16"]],
    ["plover", "dpak-16", "groove.depth", ["so16-16", "so8-12"]],
    ["plover", "so20-24", "film.mismatch", ["carrier-24", "so16-16"]],
    ["dunlin", "dpak-16", "entry.pockets", ["so16-16", "so20-24"]],
  ] as const)("%s on %s: %s", { timeout: 360_000 }, (unit, tape, id, others) => {
    taken(unit, tape, id, others, plain);
  });
  // The feed motor raised into the groove of the 44 mm variant: its place along z is the lever.
  test("a whole part that moves", { timeout: 360_000 }, () => {
    const unit = texts
      .get("units/dunlin.yaml")!
      .replace(
        /(name: feed motor.*box: \[-28 mm, ).*?(, -4 mm, ).*?(\], y)/,
        "$1-(drop + gap + floor) - 6.5 mm$2-(drop + gap + floor) + 5.5 mm$3",
      );
    const changed = new Map(texts).set("units/dunlin.yaml", unit);
    taken("dunlin", "radio-44", "clear.pocket", ["holder-44"], { texts: changed, project: load(changed) });
  });
});
