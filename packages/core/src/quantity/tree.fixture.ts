import fc from "fast-check";
import { type FunctionName, functions, type Node } from "./expression.ts";

const place = { at: 0, length: 1 };
export const num = (v: number, unit = ""): Node => ({ op: "num", v, unit, ...place });
export const sym = (name: string): Node => ({ op: "sym", name, ...place });

export interface Leaves {
  readonly numbers: fc.Arbitrary<number>;
  readonly units: readonly string[];
  readonly names: readonly string[];
  readonly functions?: readonly FunctionName[];
}
/** Random expressions: every operator and function, five levels deep at most. */
export function trees({
  numbers,
  units,
  names,
  functions: some = Object.keys(functions) as FunctionName[],
}: Leaves): fc.Arbitrary<Node> {
  const leaf = fc.oneof(
    fc.tuple(numbers, fc.constantFrom(...units)).map(([v, unit]) => num(v, unit)),
    fc.constantFrom(...names).map(sym),
  );
  const grown = fc.letrec<{ tree: Node }>((tie) => {
    const inner = tie("tree");
    const call = fc.constantFrom(...some).chain((f) => {
      const { least, most } = functions[f];
      return fc
        .array(inner, { minLength: least, maxLength: Math.min(most, 4) })
        .map((args): Node => ({ op: "call", f, args, ...place }));
    });
    const binary = fc
      .tuple(fc.constantFrom("+", "-", "*", "/", "^"), inner, inner)
      .map(([op, a, b]): Node => ({ op, a, b, ...place }) as Node);
    return {
      tree: fc.oneof(
        { maxDepth: 5, withCrossShrink: true },
        leaf,
        inner.map((a): Node => ({ op: "neg", a, ...place })),
        call,
        { arbitrary: binary, weight: 4 },
      ),
    };
  });
  return grown.tree;
}
