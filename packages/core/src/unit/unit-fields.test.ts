import { describe, expect, test } from "vitest";
import { dimensionInUnits, isPure } from "../quantity/dimension.ts";
import { checkDimension, isBare, parseQuantity } from "../quantity/notation.ts";
import { unitOf } from "../quantity/units.ts";
import { tapeFields } from "../tape/tape-fields.ts";
import type { Field, QuantityField } from "./field.ts";
import { builtForLetters, unitFields } from "./unit-fields.ts";

/** Every field below one, with its path. */
function* fieldsIn(field: Field, path: string): Generator<readonly [path: string, field: Field]> {
  yield [path, field];
  if (field.kind === "list" || field.kind === "map") yield* fieldsIn(field.of, `${path}[]`);
  if (field.kind === "tuple" || field.kind === "either")
    for (const [i, inner] of field.of.entries()) yield* fieldsIn(inner, `${path}[${i}]`);
  if (field.kind === "group")
    for (const [name, member] of Object.entries(field.members))
      yield* fieldsIn(member.kind === "optional" ? member.of : member, `${path}.${name}`);
}
const all = [
  ...fieldsIn(unitFields, "unit"),
  ...fieldsIn(tapeFields, "tape"),
  ...Object.entries(builtForLetters).map(([letter, field]) => [`built for.${letter}`, field] as const),
];
const quantities = all.filter((one): one is readonly [string, QuantityField] => one[1].kind === "quantity");

/** Names an example may use, with their dimensions. */
const letters: Readonly<Record<string, string>> = {
  W: "m",
  R: "m",
  T: "m",
  P0: "m",
  b: "m",
  teeth: "1",
  pi: "1",
  pick: "m",
  peel: "m",
};
const names = (name: string) => (Object.hasOwn(letters, name) ? unitOf(letters[name]!).dimension : undefined);

test("every field says what it means, in a line", () => {
  for (const [path, { means }] of all) {
    expect(means, path).toMatch(/\S/);
    expect(means, path).not.toMatch(/\n/);
  }
});
test("a member's name holds no dot, so that a path into a file has one reading", () => {
  for (const [path, field] of all)
    if (field.kind === "group")
      for (const name of Object.keys(field.members)) expect(name, path).toMatch(/^[A-Za-z0-9][A-Za-z0-9 -]*$/);
});

describe("a quantity's field", () => {
  test.each(quantities)("%s has an example that it takes itself", (_, { example, unit, set, least, most }) => {
    const written = parseQuantity(example);
    const wanted = unit === "any" ? undefined : unitOf(unit).dimension;
    expect(() => checkDimension(written, wanted, names, example)).not.toThrow();
    if (unit === "deg" || unit === "mrad") expect(isBare(written)).toBe(false);
    if (written.form === "range") {
      expect(written.status !== undefined || set).toBe(true);
      return;
    }
    if (written.node.op !== "num" || unit === "any") return;
    const value = (written.node.v * unitOf(written.node.unit).factor) / unitOf(unit).factor;
    expect(value).toBeGreaterThanOrEqual(least ?? Number.NEGATIVE_INFINITY);
    expect(value).toBeLessThanOrEqual(most ?? Number.POSITIVE_INFINITY);
  });
  test.each(quantities.filter(([, { lever }]) => lever))(
    "%s has a lever that moves within what makes sense",
    (_, { lever, least, most }) => {
      const [low, high] = lever!;
      expect(low).toBeLessThan(high);
      expect(low).toBeGreaterThanOrEqual(least ?? Number.NEGATIVE_INFINITY);
      expect(high).toBeLessThanOrEqual(most ?? Number.POSITIVE_INFINITY);
    },
  );
  test("with a smallest and a greatest value has them in order", () => {
    for (const [path, { least, most }] of quantities)
      if (least !== undefined && most !== undefined) expect(least, path).toBeLessThan(most);
  });
  test("that is settable is a force or a torque: what a person turns on a finished unit", () => {
    const settable = quantities.filter(([, { settable }]) => settable);
    expect(settable.length).toBeGreaterThan(0);
    for (const [path, { unit }] of settable)
      expect(["N", "N*m"], path).toContain(dimensionInUnits(unitOf(unit).dimension));
  });
  test("for a place along the tape is a length", () => {
    for (const [path, { marks, unit }] of quantities) if (marks === "route") expect(unit, path).toBe("mm");
  });
  test("of a plain number has no length for its example's unit", () => {
    for (const [path, { unit, example }] of quantities)
      if (unit === "")
        expect(isPure(checkDimension(parseQuantity(example), undefined, names, example)), path).toBe(true);
  });
});
