import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import {
  beliefColumn,
  checkNamed,
  chosen,
  Deviates,
  families,
  type Given,
  type Pick,
  type Quantity,
  Realiser,
  type Scene,
  scatterColumn,
} from "@tapeworthy/core";
import { readProject } from "@tapeworthy/project";
import { straightLine } from "./map-straight-line.ts";
import { inTurn, type Measured, machine, median, timed } from "./measure.ts";

/** Checks all of whose models are closed once the film path is known. */
const closedChecks = [
  "entry.play",
  "groove.width",
  "groove.lips",
  "film.kern",
  "film.pull",
  "nip.pulls",
  "nip.slips",
  "nip.takes-up",
  "film.stick",
] as const;
const draws = 200;

const example = fileURLToPath(new URL("../../examples/saltgrass/", import.meta.url));
const file = (path: string): string => readFileSync(example + path, "utf8");

/** The example's first unit on `count` tapes made from the package families. */
function scenes(count: number): Scene[] {
  const usable = families.filter((f) => f.kind === "embossed" && f.W <= 32 && f.A0 && f.B0 && f.K0);
  const texts = new Map<string, string>([["units/plover.yaml", file("units/plover.yaml")]]);
  const names: string[] = [];
  for (let i = 0; i < count; i++) {
    const f = usable[i % usable.length]!;
    const name = `tape-${i}`;
    names.push(name);
    texts.set(
      `tapes/${name}.yaml`,
      `format: 1\ntape: ${name}\nW: ${f.W} ±0.3 mm\nA0: ${f.A0} mm\nB0: ${f.B0} mm\nK0: ${f.K0} mm\nP1: ${f.P1} mm\n`,
    );
  }
  texts.set("project.yaml", `format: 1\nproject: speed\nwanted: {plover: [${names.join(", ")}]}\n`);
  const { project, errors } = readProject(texts);
  if (!project) throw new Error(errors.map((e) => `${e.place.file}:${e.place.line} ${e.message}`).join("\n"));
  return names.map((name) => {
    const { tape } = project.tapes.get(name)!;
    return { unit: project.units.get("plover")!.variants.get(tape.row)!, tape, requirement: project.requirement };
  });
}

interface Side {
  readonly value: Quantity;
  readonly bound: Quantity;
  readonly sign: 1 | -1;
}
function sidesOf(scene: Scene): Side[] {
  return closedChecks.flatMap((id) => {
    const check = checkNamed(id)!;
    const value = chosen(check.value, scene)!;
    const least = chosen<Quantity>(check.atLeast, scene);
    const most = chosen<Quantity>(check.atMost, scene);
    return [
      ...(least ? [{ value, bound: least, sign: 1 as const }] : []),
      ...(most ? [{ value, bound: most, sign: -1 as const }] : []),
    ];
  });
}
/** All inputs drawn, but those the film path rests on: the path is solved once a tape in both versions. */
function pickFor(realiser: Realiser, deviates: Deviates): Pick {
  const path = realiser.models.find((m) => m.id === "film.path")!;
  const still = new Set(new Realiser(realiser.scene, [path as unknown as Quantity]).givens.map((g) => g.address));
  return {
    n: draws,
    unknown: (g: Given) => (still.has(g.address) ? 0 : beliefColumn(deviates, g, draws)),
    scatter: (g: Given, which: number) =>
      still.has(g.address) || g.scatters[which]!.level === "index"
        ? undefined
        : scatterColumn(deviates, g, which, draws),
  };
}

/** The closed checks of a map: our evaluator against the same numbers written out by hand, in one run. */
export function measureMap(tapes = 60, rounds = 15): Measured {
  const deviates = new Deviates(1);
  const prepare = (count: number) =>
    scenes(count).map((scene) => {
      const sides = sidesOf(scene);
      const realiser = new Realiser(
        scene,
        sides.flatMap((s) => [s.value, s.bound]),
      );
      return { scene, sides, realiser, pick: pickFor(realiser, deviates) };
    });
  const cells = prepare(tapes);
  const hand = cells.map(({ realiser, pick }) => straightLine(realiser, pick));
  let ourSum = 0;
  let theirSum = 0;
  const ours = (list = cells): void => {
    ourSum = 0;
    for (const { sides, realiser, pick } of list) {
      realiser.forget();
      const run = realiser.run(pick);
      for (const { value, bound, sign } of sides) {
        const v = run.column(value);
        const b = run.column(bound);
        for (let k = 0; k < draws; k++)
          ourSum += sign * ((typeof v === "number" ? v : v[k]!) - (typeof b === "number" ? b : b[k]!));
      }
    }
  };
  const theirs = (): void => {
    theirSum = 0;
    for (const one of hand) theirSum += one();
  };
  const { ratio, ours: our, theirs: their, spread } = inTurn(rounds, ours, theirs);
  if (Math.abs(ourSum - theirSum) > 1e-9 * Math.abs(theirSum))
    throw new Error(`the two versions differ: ${ourSum} against ${theirSum}`);

  const sizes = [15, 30, 60, 120];
  const times = sizes.map((count) => {
    const list = count === tapes ? cells : prepare(count);
    for (let i = 0; i < 3; i++) ours(list);
    return median(Array.from({ length: 7 }, () => timed(() => ours(list))));
  });
  return {
    name: "map",
    ratio,
    against: "the same nine closed checks written out by hand as straight-line code, same draws",
    ours: our,
    theirs: their,
    spread,
    machine: machine(),
    tapes,
    checks: closedChecks.length,
    draws,
    costPerCell: our / tapes,
    costPerCheckAndDraw: our / tapes / closedChecks.length / draws,
    layingOutOneCell: median(
      Array.from({ length: 9 }, () =>
        timed(
          () =>
            new Realiser(
              cells[0]!.scene,
              cells[0]!.sides.flatMap((s) => [s.value, s.bound]),
            ),
        ),
      ),
    ),
    growth: { tapes: sizes, seconds: times, exponent: slope(sizes.map(Math.log), times.map(Math.log)) },
    why: "columns cost one pass over memory an operation where straight-line code keeps its numbers in registers; both call the same exp and pow",
  };
}
/** Least-squares slope. */
function slope(x: readonly number[], y: readonly number[]): number {
  const mx = x.reduce((a, b) => a + b, 0) / x.length;
  const my = y.reduce((a, b) => a + b, 0) / y.length;
  return x.reduce((s, v, i) => s + (v - mx) * (y[i]! - my), 0) / x.reduce((s, v) => s + (v - mx) ** 2, 0);
}
