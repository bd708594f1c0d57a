import { readdirSync, readFileSync } from "node:fs";
import {
  type BeliefPoints,
  beliefPoints,
  Cell,
  checkNamed,
  climb,
  Deviates,
  decide,
  evenWeights,
  type WidthFamily,
} from "@tapeworthy/core";
import { familyOf, type Project, readProject } from "@tapeworthy/project";
import { type Row, row } from "./row.ts";

/** The example that comes with the project. */
const folder = new URL("../../examples/saltgrass/", import.meta.url);
function example(): Project {
  const paths = readdirSync(folder, { recursive: true, encoding: "utf8" }).map((path) => path.replaceAll("\\", "/"));
  const texts = paths
    .filter((p) => p.endsWith(".yaml"))
    .map((p) => [p, readFileSync(new URL(p, folder), "utf8")] as const);
  const { project } = readProject(new Map(texts));
  if (!project) throw new Error("the example has errors");
  return project;
}

/** Widths of the brute force over a whole ladder. */
const count = 200;
const points = ["low", "middle", "high"] as const;
interface Found {
  readonly point: keyof BeliefPoints;
  readonly W: number;
}

/**
 * Every width at which a point of belief of a check's deciding gap is nought, by looking at 200 widths and going straight between two of
 * opposite sign; each of them is decided as `check` decides a pair, with true draws and its own tests.
 */
function byForce(family: WidthFamily, id: string, from: number, to: number, deviates: Deviates): Found[] {
  const out: Found[] = [];
  const step = (family.to - family.from) / count;
  let before: { readonly W: number; readonly at: BeliefPoints } | undefined;
  for (let W = from; W <= to + step / 2; W += step) {
    const end = Math.min(W, to);
    const piece = family.pieces.find((p) => end > p.from && end <= p.to) ?? family.pieces[0]!;
    const scene = piece.scene(end);
    if (typeof scene === "string") throw new Error(scene);
    const at = beliefPoints(decide(new Cell(scene, [checkNamed(id)!]), deviates)[0]!.gap, evenWeights);
    for (const point of points) {
      const [a, b] = [before?.at[point], at[point]];
      if (before && a !== undefined && a >= 0 !== b >= 0)
        out.push({ point, W: before.W + ((end - before.W) * a) / (a - b) });
    }
    before = { W: end, at };
  }
  return out;
}
/** The same by climbing the ladder. */
function byClimbing(family: WidthFamily, id: string, from: number, to: number, deviates: Deviates): Found[] {
  const climbing = { checks: [checkNamed(id)!], deviates, weights: evenWeights, contradicted: new Set<string>() };
  return family.pieces
    .filter((p) => p.to > from && p.from < to)
    .flatMap((piece) => climb(piece, climbing).roots)
    .filter((root) => root.check === id && root.W >= from && root.W <= to);
}

/** Checks whose brute force takes a second or two; the mismatch only where it turns. Widths in mm. */
const asked: readonly (readonly [unit: string, check: string, from?: number, to?: number])[] = [
  ["plover", "film.mismatch", 16, 22],
  ["plover", "film.stick"],
  ["plover", "nip.slips"],
  ["dunlin", "nip.slips"],
];
let kept: readonly Row[] | undefined;
/** Crossings of the ladder over continuous width against a brute force over 200 widths. */
export function ladderRows(): readonly Row[] {
  kept ??= asked.flatMap(([unit, check, ...range]) => {
    const family = familyOf(example(), unit);
    if (typeof family === "string") throw new Error(family);
    const [from = family.from, to = family.to] = range;
    const deviates = new Deviates(1);
    const forced = byForce(family, check, from, to, deviates);
    const climbed = byClimbing(family, check, from, to, deviates);
    const source = `brute force over ${count} widths, each decided with true draws (validation/src/ladder.ts)`;
    return [
      row({
        id: `ladder.${unit}.${check}.count`,
        model: check,
        expected: forced.length,
        got: climbed.length,
        near: { within: 0 },
        unit: "crossings",
        source,
        how: "derived",
      }),
      ...forced.map(({ point, W }, i) =>
        row({
          id: `ladder.${unit}.${check}.${point}.${i + 1}`,
          model: check,
          expected: W,
          got:
            climbed.filter((c) => c.point === point).sort((a, b) => Math.abs(a.W - W) - Math.abs(b.W - W))[0]?.W ??
            Number.NaN,
          near: { within: 0.05 },
          unit: "mm",
          source,
          how: "derived",
        }),
      ),
    ];
  });
  return kept;
}
