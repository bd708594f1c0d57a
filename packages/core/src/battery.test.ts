// What every model and check inherits for nothing: text and code agree, units agree, symbols are read, nothing is left out.
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { checks } from "./checks.ts";
import { type Check, chosen } from "./quantity/check.ts";
import { type Dimension, sameDimension } from "./quantity/dimension.ts";
import { dimensionOf, evaluate, namesIn, parseExpression } from "./quantity/expression.ts";
import type { Given } from "./quantity/given.ts";
import { isQuantity, type Model, type Quantity, quantitiesIn, type Read, type Reads } from "./quantity/model.ts";
import { unitOf } from "./quantity/units.ts";
import { scenes, written } from "./scene.fixture.ts";
import type { Scene } from "./scene.ts";
import { asWritten, Realiser } from "./study/realise.ts";

/** One model as one scene reads it; a model may read other members in another scene. */
interface Use {
  readonly model: Model<unknown>;
  readonly scene: Scene;
  readonly sceneName: string;
  readonly reads: Reads;
}

/** Every model that a check reaches in a scene: its value, its bounds, what stands beside it, what its sentence says, and all they read. */
function usesIn(sceneName: string, scene: Scene): Use[] {
  const seen = new Set<Given | Model<unknown>>();
  const out: Use[] = [];
  const visit = (q: Given | Model<unknown>): void => {
    if (seen.has(q)) return;
    seen.add(q);
    const reads = q.reads(scene);
    if (!reads) return;
    if (q.kind === "model") out.push({ model: q, scene, sceneName, reads });
    for (const inner of quantitiesIn(reads)) visit(inner);
  };
  for (const check of checks) {
    if (check.absent(scene) !== undefined) continue;
    const said: Quantity[] = [];
    check.because((q) => {
      said.push(q);
      return "";
    }, scene);
    const sides = [
      chosen(check.value, scene),
      chosen<Quantity>(check.atLeast, scene),
      chosen<Quantity>(check.atMost, scene),
    ];
    for (const q of [...sides, ...(check.beside?.(scene) ?? []), ...said]) if (q) visit(q);
  }
  return out;
}
const uses = scenes.flatMap(([name, scene]) => usesIn(name, scene));
const models = [...new Set(uses.map((u) => u.model))];
const useOf = (m: Model<unknown>): Use => uses.find((u) => u.model === m)!;
const closed = models.filter((m) => m.form === "closed");
const solved = models.filter((m) => m.form === "solved");
/** Closed models by name; the same id in another scene is another row only where it is another model. */
const named = (list: readonly Model<unknown>[]): [string, Model<unknown>][] => list.map((m) => [m.id, m]);

const numbersRead = (reads: Reads): [symbol: string, Quantity][] =>
  Object.entries(reads).flatMap(([symbol, r]) =>
    isQuantity(r) ? [[symbol, r as Quantity] as [string, Quantity]] : [],
  );
const dimension = (q: Quantity): Dimension => (q.kind === "given" ? q.dimension : unitOf(q.unit).dimension);

/** 50 draws of each input: within `valid`, else within 20 % of its value as written. */
const draws = 50;
function drawnInputs(use: Use): { x: Record<string, number>[]; columns: Map<string, Float64Array> } {
  const numbers = numbersRead(use.reads);
  const run = new Realiser(
    use.scene,
    numbers.map(([, q]) => q),
  ).run(asWritten);
  const between = numbers.map(([symbol, q]) => {
    const nominal = run.number(q);
    const [low, high] = use.model.valid?.[symbol] ?? [
      nominal - 0.2 * Math.abs(nominal),
      nominal + 0.2 * Math.abs(nominal),
    ];
    return low < high ? fc.double({ min: low, max: high, noNaN: true, noDefaultInfinity: true }) : fc.constant(low);
  });
  const rows = fc.sample(fc.tuple(...between), { numRuns: draws, seed: 1009 });
  const columns = new Map(numbers.map(([symbol], i) => [symbol, Float64Array.from(rows, (row) => row[i]! + 0)]));
  return {
    x: rows.map((_, k) => Object.fromEntries(numbers.map(([symbol]) => [symbol, columns.get(symbol)![k]!]))),
    columns,
  };
}

test("the scenes reach closed and solved models, and every check at least once", () => {
  expect(closed.length).toBeGreaterThan(25);
  expect(solved.length).toBeGreaterThan(10);
  for (const check of checks)
    expect(
      scenes.some(([, scene]) => check.absent(scene) === undefined),
      check.id,
    ).toBe(true);
});

describe("the equation people read is what the code computes", () => {
  test.each(named(closed))("%s", (_, model) => {
    const use = useOf(model);
    const tree = parseExpression(model.equation);
    const { x, columns } = drawnInputs(use);
    // The same model over plain numbers of the same dimensions, evaluated column by column.
    const inputs = new Map(numbersRead(use.reads).map(([symbol, q]) => [symbol, plain(symbol, q)]));
    const over: Model = { ...(model as Model), reads: () => Object.fromEntries(inputs) };
    const symbolOf = new Map([...inputs].map(([symbol, g]) => [g, symbol]));
    const run = new Realiser(use.scene, [over]).run({
      n: draws,
      unknown: () => 0,
      scatter: () => undefined,
      moved: (g) => {
        const symbol = symbolOf.get(g);
        return symbol === undefined ? undefined : columns.get(symbol);
      },
    });
    x.forEach((values, k) => {
      const code = model.value(values) as number;
      expect(code, JSON.stringify(values)).toSatisfy(Number.isFinite);
      const text = evaluate(tree, (name) => values[name]);
      const near = 1e-12 * Math.max(Math.abs(code), scaleOf(values, model));
      expect(Math.abs(text - code), JSON.stringify(values)).toBeLessThanOrEqual(near);
      expect(Math.abs(run.number(over, k) - code), JSON.stringify(values)).toBeLessThanOrEqual(near);
    });
  });
});
const plain = (symbol: string, q: Quantity): Given => ({
  ...written(`drawn/${symbol}`, symbol, "0", ""),
  dimension: dimension(q),
  unit: q.unit,
});
/** Where a difference of like lengths nearly cancels, 1e-12 is meant of the lengths. */
function scaleOf(values: Readonly<Record<string, number>>, model: Model<unknown>): number {
  const own = unitOf(model.unit).dimension;
  const alike = numbersRead(useOf(model).reads).flatMap(([symbol, q]) =>
    sameDimension(dimension(q), own) ? [Math.abs(values[symbol]!)] : [],
  );
  return /[+-]/.test(model.equation) ? Math.max(0, ...alike) : 0;
}

describe("units of both sides of an equation agree", () => {
  test.each(named(closed))("%s", (_, model) => {
    for (const use of uses.filter((u) => u.model === model)) {
      const inputs = new Map(numbersRead(use.reads));
      const found = dimensionOf(parseExpression(model.equation), (name) => {
        const q = inputs.get(name);
        return q && dimension(q);
      });
      expect(
        sameDimension(found, unitOf(model.unit).dimension),
        `${use.sceneName}: ${found} is not ${model.unit}`,
      ).toBe(true);
    }
  });
});

describe("an equation uses what the model reads, all of it and nothing else", () => {
  test.each(named(closed))("%s", (_, model) => {
    for (const use of uses.filter((u) => u.model === model)) {
      const inEquation = namesIn(parseExpression(model.equation)).sort();
      expect(Object.keys(use.reads).sort(), use.sceneName).toEqual(inEquation);
      for (const [symbol, r] of Object.entries(use.reads)) expect(isQuantity(r), `${symbol} of ${model.id}`).toBe(true);
    }
  });
});

describe("a range belongs to a symbol that is read, and its low end comes first", () => {
  test.each(named(models.filter((m) => m.valid)))("%s", (_, model) => {
    for (const [symbol, [low, high]] of Object.entries(model.valid!)) {
      expect(Object.keys(useOf(model).reads)).toContain(symbol);
      expect(low).toBeLessThan(high);
    }
  });
});

test("an id names one model: the same one in every scene, but for a mark's place and a body's gaps", () => {
  for (const m of models) {
    const twins = models.filter((other) => other.id === m.id);
    // Marks and poses are made for each route; bodies and the gaps of their pairs for each body, whose name is in the title.
    const ofBody = /^clear\.(body|[a-z]+-gap)$/.test(m.id);
    if (!m.id.startsWith("route.") && !ofBody) expect(twins, m.id).toHaveLength(1);
    for (const twin of twins)
      expect([twin.equation, twin.unit, ofBody || twin.title]).toEqual([m.equation, m.unit, ofBody || m.title]);
    expect(m.id).toMatch(/^[a-z]+(\.[A-Za-z]+(-[a-z]+)*)+$/);
  }
});
test("an address names one number: a scene reads no second one under it", () => {
  for (const [name, scene] of scenes) {
    const read = usesIn(name, scene).flatMap((u) => numbersRead(u.reads).map(([, q]) => q));
    const given = [...new Set(read)].filter((q): q is Given => q.kind === "given");
    const twice = given.filter((g) => given.some((other) => other !== g && other.address === g.address));
    expect(
      twice.map((g) => g.address),
      name,
    ).toEqual([]);
  }
});
test("a model names its source and how that is known", () => {
  for (const m of models) {
    expect(m.origin.cite.length, m.id).toBeGreaterThan(5);
    expect(["read", "derived", "memory", "judgement"]).toContain(m.origin.how);
    expect(m.origin.cite, m.id).not.toMatch(/http|www\./);
  }
});
test("a solved model that gives a number gives a finite one in every scene it applies to", () => {
  for (const { model, scene, sceneName } of uses) {
    if (model.form !== "solved" || model.unit === "") continue;
    expect(new Realiser(scene, [model]).run(asWritten).number(model as Model), `${model.id} in ${sceneName}`).toSatisfy(
      Number.isFinite,
    );
  }
});

const source = fileURLToPath(new URL(".", import.meta.url));
const validation = fileURLToPath(new URL("../../../validation/src/", import.meta.url));
const filesIn = (folder: string): string[] =>
  readdirSync(folder).filter((name) => name.endsWith(".ts") && !/\.(test|fixture)\.ts$/.test(name));

describe("a solved model owns a row in the table of published figures", () => {
  const rows = filesIn(validation)
    .map((name) => readFileSync(validation + name, "utf8"))
    .join("\n");
  const inRows = new Set([...rows.matchAll(/"((?:[a-z]+\.)[A-Za-z.-]+)"/g)].map(([, id]) => id));
  test.each([...new Set(solved.filter((m) => m.unit !== "").map((m) => m.id))])("%s", (id) =>
    expect(inRows).toContain(id),
  );
});

describe("no check is left out of the list", () => {
  const folders = [
    "accuracy",
    "channel",
    "clearance",
    "cycle",
    "drive",
    "entry",
    "film",
    "frame",
    "gear",
    "hold-down",
    "mount",
    "nip",
    "part",
    "reel",
    "spring",
    "sprocket",
    "supply",
  ];
  const isCheck = (value: unknown): value is Check =>
    typeof value === "object" &&
    value !== null &&
    ["id", "station", "severity", "because", "absent"].every((key) => key in value);
  test.each(folders.flatMap((folder) => filesIn(source + folder).map((name) => `${folder}/${name}`)))(
    "of %s",
    async (file) => {
      const exported: Record<string, unknown> = await import(/* @vite-ignore */ `./${file}`);
      for (const [name, value] of Object.entries(exported))
        if (isCheck(value)) expect(checks, `${name} in ${file}`).toContain(value);
    },
  );
  test("and it is in the order of the stations", () => {
    const order = checks.map((c) => c.station);
    expect(order).toEqual([...order].sort((a, b) => a - b));
  });
});

test("a read that is a list or a group belongs to a solved model", () => {
  for (const { model, reads } of uses)
    if (model.form === "closed")
      for (const r of Object.values(reads) as Read[]) expect(typeof r === "object" && "kind" in r, model.id).toBe(true);
});
