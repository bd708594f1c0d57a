import { describe, expect, test } from "vitest";
import { entry, method, set } from "./made.ts";
import { readOff } from "./read-off.ts";

/** A length by a rule of the bench's own. */
const spec = (more: Partial<Parameters<typeof method>[0]> = {}): Parameters<typeof method>[0] => ({
  id: "rule",
  title: "length",
  picture: "calipers",
  symbol: "x",
  unit: "m",
  shownIn: "mm",
  equation: "a/n",
  entries: [entry("a", "reading of the rule", "mm", 1)],
  settings: [set("n", "lengths laid end to end", "", 4, 0)],
  per: "part",
  pieces: 3,
  repeats: 2,
  minutes: 5,
  cost: "nothing to buy",
  needs: [],
  steps: ["Lay four end to end and read."],
  cautions: [],
  source: { cite: "invented", how: "judgement" },
  shows: (x, { n }) => ({ a: x * n! }),
  typical: { value: 12, pieces: 0, readings: 0 },
  example: { rows: [[48]], gives: 12 },
  ...more,
});

describe("an entry", () => {
  test("has a step, and neither nought, scale nor sign unless they are given", () => {
    expect(entry("a", "reading", "mm", 0.5)).toEqual({ symbol: "a", name: "reading", unit: "mm", resolution: 0.5 });
    expect(Object.keys(entry("a", "reading", "mm", 0.5, {}))).toHaveLength(4);
  });
  test("keeps what is given besides", () =>
    expect(entry("a", "reading", "mm", 0.5, { zero: 0.1, scale: 0.01, signed: true })).toMatchObject({
      zero: 0.1,
      scale: 0.01,
      signed: true,
    }));
});
test("a setting says what is usual first, then how far it may be off", () =>
  expect(set("L", "length", "mm", 40, 0.5)).toEqual({
    symbol: "L",
    name: "length",
    unit: "mm",
    usual: 40,
    within: 0.5,
  }));
describe("a method", () => {
  test("is closed unless it says otherwise", () => {
    expect(method(spec()).form).toBe("closed");
    expect(method(spec({ form: "solved" })).form).toBe("solved");
  });
  test("is all else as it was written", () => {
    const written = spec();
    expect(method(written)).toEqual({ ...written, form: "closed" });
  });
  // 48 mm over four. By hand. [derived]
  test("can be read off as it stands", () =>
    expect(readOff(method(spec()), { pieces: [[[48]]] })).toMatchObject({ kind: "answer", value: 0.012 }));
  test("may be typed in plain numbers and in compound units", () => {
    for (const unit of ["", "%", "N*mm", "J/m^2", "1/kelvin"])
      expect(() => method(spec({ entries: [entry("a", "reading", unit, 1)] }))).not.toThrow();
  });
  test("with a unit that is none is refused as it is written, whichever entry or setting has it", () => {
    const good = entry("a", "reading", "mm", 1);
    expect(() => method(spec({ entries: [good, entry("b", "other reading", "furlong", 1)] }))).toThrow("furlong");
    expect(() => method(spec({ settings: [set("n", "lengths", "dozen", 4, 0)] }))).toThrow("dozen");
    expect(() => method(spec({ shownIn: "ell" }))).toThrow("ell");
    expect(() => method(spec({ unit: "rood" }))).toThrow("rood");
    expect(() => method(spec({ entries: [entry("a", "reading", "mm/", 1)] }))).toThrow(RangeError);
  });
});
