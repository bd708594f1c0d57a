import { existsSync, mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { inNewFolder, tapeworthy } from "./cli.fixture.ts";

/** A unit without film or motor: quick, and every kind of term in it. */
function project(folder: string, requirement = "{pick tool: 0.2 mm, calibration: one point}"): string {
  const write = (path: string, lines: readonly string[]): void => writeFileSync(join(folder, path), lines.join("\n"));
  if (!existsSync(join(folder, "units"))) for (const inner of ["units", "tapes"]) mkdirSync(join(folder, inner));
  write("project.yaml", [
    "format: 1",
    "project: one pick",
    `requirement: ${requirement}`,
    "wanted: {plain: [strip]}",
    "",
  ]);
  write("tapes/strip.yaml", [
    "format: 1",
    "tape: strip",
    "kind: embossed",
    "part length: 6.0 mm",
    "part width: 5.0 mm",
    "W: 12.0 ±0.1 mm",
    "A0: 6.2 ±0.05 mm",
    "B0: 5.2 ±0.05 mm",
    "K0: 2.1 mm",
    "P1: 8 mm",
    "",
  ]);
  write("units/plain.yaml", [
    "format: 1",
    "unit: Plain",
    "serves: {kind: [embossed], W: [12]}",
    "built for:",
    "  12: {A0: 6.4 mm, B0: 5.2 mm, K0: 2.1 mm, P1: 8 mm, T: 0.30 mm}",
    "tape:",
    "  rests on: underside",
    "  route: [{line: 80 mm}, {mark: pick}, {line: 40 mm}]",
    "  place: {mark: pick, x: 0 mm, z: 0 mm, heading: 0 deg}",
    "  section:",
    "    width: W + 0.45 ±0.1 mm",
    "    ledge: {near: 2.6 mm, far: 0.7 mm}",
    "    groove: {depth: K0 + 0.6 mm, margin: 0.75 mm}",
    "    lips: {near: 0.9 mm, far: 0.7 mm, gap: T + 0.35 mm}",
    "film: {opens: one seal}",
    "sprocket:",
    "  teeth: 24",
    "  at: pick + 14 mm",
    "  axis below tape: 24*P0/(2*pi) - T/2",
    "  tooth: {height above tape: 1.1 mm, along: 1.10 mm, across: 0.70 mm, corner: 0.30 mm, flank: 22 deg}",
    "  runout: 0.03 mm",
    "  disc: {from: E1 - 1.6 mm, to: E1 + 0.5 mm}",
    "",
  ]);
  return folder;
}

// 160 000 draws are 40 blocks, eight to a job: five jobs, so that five threads all have one.
test("one, two and five threads print the same bits, and another seed others", () => {
  inNewFolder((folder) => {
    project(folder);
    const call = (...more: string[]) => tapeworthy(["accuracy", folder, "--draws", "160000", "--json", ...more]);
    const one = call("--workers", "1");
    expect(one.err).not.toMatch(/error|NaN/i);
    expect(one.code).toBe(0);
    for (const workers of ["2", "5"]) expect(call("--workers", workers).out).toBe(one.out);
    expect(call("--workers", "1", "--seed", "2").out).not.toBe(one.out);
    const [pair] = JSON.parse(one.out).pairs;
    expect(pair.draws).toBe(40 * 4096);
    expect(pair.radii.known.middle).toBeLessThan(pair.radii.any.middle);
    expect(pair.terms.find((t: { id: string }) => t.id === "stop").left).toBe(
      "the unit file does not say how its index is made",
    );
    expect(pair.takes).toBe(2e-4);
  });
}, 540_000);
test("a person reads three radii, who makes the spread, packages and levers", () => {
  inNewFolder((folder) => {
    project(folder);
    const { out, code } = tapeworthy(["accuracy", folder, "--draws", "20000"]);
    expect(code).toBe(0);
    for (const words of [
      "plain on strip: 99.7 % of indexes within",
      "a known unit and reel, its place taught",
      "any cycle of any unit",
      "The pick tool forgives 0.20 mm; the place is taught once, with another reel.",
      "Who makes the spread",
      "Parts on the tool, by package",
      "What would narrow it",
    ])
      expect(out).toContain(words);
    expect(out).not.toMatch(/NaN|undefined|Infinity/);
  });
});
test("a project's own families and share take the place of the usual ones", () => {
  inNewFolder((folder) => {
    project(
      folder,
      "{pick share: 99 %, calibration: none, pick families: [{family: my chip, radius: 0.2 mm, turn: 8 deg}]}",
    );
    const [pair] = JSON.parse(tapeworthy(["accuracy", folder, "--draws", "20000", "--json"]).out).pairs;
    expect(pair.yields.map((y: { family: string }) => y.family)).toEqual(["my chip"]);
    expect([pair.share, pair.calibration, pair.takes]).toEqual([0.99, "none", null]);
  });
});
describe("a call that cannot be taken", () => {
  const said = (...args: string[]): string =>
    inNewFolder((folder) => {
      const { err, code } = tapeworthy(["accuracy", project(folder), ...args]);
      expect(code).toBe(2);
      return err;
    });
  test("names what is near", () => {
    expect(said("--unit", "plan")).toContain('There is no unit "plan". Did you mean "plain"?');
    expect(said("--tape", "strop")).toContain('There is no tape "strop". Did you mean "strip"?');
  });
  test("wants a whole number of draws", () => {
    for (const draws of ["0", "-4", "1e6", "many", "1000000001"])
      expect(said("--draws", draws)).toContain("A whole number from 1 to 100000000 is wanted.");
  });
});
