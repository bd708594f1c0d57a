import { sameDimension, unitNames, unitOf } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { unitText } from "./unit-text.ts";

describe("a unit in a log", () => {
  test("of our own notation stands for itself", () => {
    for (const name of unitNames) {
      const { factor, dimension } = unitOf(name);
      expect(unitText(name)).toMatchObject({ factor, dimension, ours: name });
    }
  });
  test.each([
    ["msec", "ms"],
    ["sek", "s"],
    ["Seconds", "s"],
    ["HOURS", "h"],
    ["Newton", "N"],
    ["grams", "g"],
    ["Amps", "A"],
    ["°C", "degC"],
    ["℃", "degC"],
    ["°", "deg"],
    ["Ω", "ohm"],
    ["U/min", "rpm"],
    ["1/min", "rpm"],
    ["%RH", "%"],
    ["#", "counts"],
    ["mNm", "N*mm"],
  ])("%s is our %s, and is called so", (text, ours) => {
    expect(unitText(text)).toEqual({ ...unitOf(ours), ours });
  });
  // Inch 25.4 mm, pound 0.45359237 kg, standard gravity 9.80665 m/s2 by definition, the ounce a sixteenth of a pound, the mil a
  // thousandth of an inch [memory]: 0.45359237 . 9.80665 = 4.4482216152605 N and a sixteenth of it. [derived]
  test.each([
    ["in", 0.0254, "m"],
    ["mil", 2.54e-5, "m"],
    ["nm", 1e-9, "m"],
    ["ns", 1e-9, "s"],
    ["lb", 0.45359237 * 9.80665, "N"],
    ["ozf", (0.45359237 * 9.80665) / 16, "N"],
    ["kp", 9.80665, "N"],
    ["Ncm", 0.01, "N*m"],
    ["Nm", 1, "N*m"],
    ["W", 1, "J/s"],
  ])("%s is %f of our %s, and keeps its own name", (text, factor, si) => {
    const unit = unitText(text)!;
    expect(unit.factor / unitOf(si).factor / factor).toBeCloseTo(1, 12);
    expect(sameDimension(unit.dimension, unitOf(si).dimension)).toBe(true);
    expect(unit.ours).toBe(text);
  });
  test("that is one of ours by name can be read by that name", () => {
    for (const text of ["secs", "gram", "Ohm", "cycles", "Nmm", "RH", "mm/s", "N*mm"]) {
      const { factor, dimension, ours } = unitText(text)!;
      expect(unitOf(ours)).toMatchObject({ factor, dimension });
    }
  });
  test("is the same with blanks around it, with the dot and the square of print", () => {
    expect(unitText("  mm ")).toEqual(unitText("mm"));
    expect(unitText("N·mm")!.factor).toBe(unitOf("N*mm").factor);
    expect(unitText("m/s²")!.dimension).toEqual(unitOf("m/s^2").dimension);
  });
  test("is the same by either of two letters that look alike", () => {
    expect(unitText("\u2126")).toMatchObject({ ours: "ohm" });
    expect(unitText("k\u2126")!.factor).toBe(unitText("k\u03a9")!.factor);
    expect(unitText("\u00b5A")!.factor / unitOf("mA").factor).toBeCloseTo(1e-3, 15);
    expect(unitText("\u03bcs")).toMatchObject({ ours: "us" });
  });
  test("is a symbol as it stands: only words may be in any case", () => {
    // A nanometre is a length, a newton metre a torque.
    expect(sameDimension(unitText("nm")!.dimension, unitText("Nm")!.dimension)).toBe(false);
    for (const text of ["n", "MN", "CN", "KGF", "LB", "mpA"]) expect([text, unitText(text)]).toEqual([text, undefined]);
  });
  test("is none where the text is empty, long, a word, or half a unit", () => {
    for (const text of ["", "   ", "left", "N left", "N/", "/", "5 N", "hasOwnProperty", "__proto__", "mm".repeat(13)])
      expect([text, unitText(text)]).toEqual([text, undefined]);
  });
});
