import type { Check } from "../quantity/check.ts";
import { evaluate, parseExpression } from "../quantity/expression.ts";
import { type Given, given, type Letter } from "../quantity/given.ts";
import type { Model, Quantity, Reads } from "../quantity/model.ts";
import { type Level, parseQuantity } from "../quantity/notation.ts";
import { unitOf } from "../quantity/units.ts";
import type { Scene } from "../scene.ts";

/**
 * Scenes without a feeder in them: plain numbers at addresses of their own, models from an equation, checks that hold one against the
 * other. Small enough that a test can work its expectation out by hand. Every number is made up.
 */
export const invented = { cite: "invented for the tests", how: "judgement" } as const;

interface Written {
  readonly unit?: string;
  readonly level?: Level;
  readonly letter?: Letter;
  readonly names?: Readonly<Record<string, Quantity>>;
  readonly lever?: readonly [low: number, high: number];
  readonly settable?: true;
}
/** A number as a file would write it. Its symbol is the last word of its address. */
export function number(address: string, text: string, more: Written = {}): Given {
  const { unit = "", level = "unit", letter, names = {}, lever, settable } = more;
  return given({
    address,
    symbol: address.replace(/.*[/ .]/, ""),
    text,
    origin: invented,
    dimension: unitOf(unit).dimension,
    written: parseQuantity(text),
    level,
    ...(letter ? { letter } : {}),
    reads: () => names,
    ...(lever ? { lever } : {}),
    ...(settable ? { settable } : {}),
  });
}

type More<T> = Partial<Omit<Model<T>, "kind" | "value" | "reads">>;
/** A closed model of plain numbers: its code is its equation. */
export function closed(equation: string, reads: Reads, more: More<number> = {}): Model {
  const tree = parseExpression(equation);
  return {
    kind: "model",
    id: `test.${equation}`,
    symbol: "x",
    unit: "1",
    title: "a number of the test",
    equation,
    form: "closed",
    origin: invented,
    ...more,
    reads: () => reads,
    value: (x) => evaluate(tree, (name) => (x as Readonly<Record<string, number | undefined>>)[name]),
  };
}
/** A model whose result only its code knows. */
export const solved = <T = number>(id: string, reads: Reads, value: (x: never) => T, more: More<T> = {}): Model<T> => ({
  kind: "model",
  id,
  symbol: "y",
  unit: "1",
  title: "a solved number of the test",
  equation: "found by its code",
  form: "solved",
  origin: invented,
  ...more,
  reads: () => reads,
  value: (x) => value(x as never),
});

export const check = (id: string, rest: Partial<Check> & Pick<Check, "value">): Check => ({
  id,
  station: 1,
  severity: "S",
  status: "established",
  title: `the check ${id}`,
  absent: () => undefined,
  because: (say) => `The value is ${say(rest.value as Model)}.`,
  ...rest,
});

/** A scene in which only plain numbers are read. */
export const plainScene = (allowPairs = 0.02): Scene =>
  ({ unit: {}, tape: { row: 12 }, requirement: { allowPairs } }) as unknown as Scene;

/** Weights of belief draws that are all alike. */
export const alike = (n: number): Float64Array => new Float64Array(n).fill(1 / n);
