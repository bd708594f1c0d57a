import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { inNewFolder, tapeworthy } from "./cli.fixture.ts";

const motor =
  "winding: {resistance: 16 ohm, constant: 3.0 mN*m/A, friction: 0.15 mN*m}, inductance: 1.5 mH, rotor inertia: 10 g*mm^2";
const drive = (head: number, teeth: number, more = ""): string =>
  `{motor: invented, ${motor}, gear head: {ratio: ${head}, efficiency: 0.85}, worm: {module: 0.5 mm, starts: 1, lead angle: 4.5 deg, friction: 0.12}, wheel teeth: ${teeth}${more}}`;
/** A unit without a film, its feed motor known or not. */
function project(folder: string, feed: string, supply = "supply: {volts: 12 V}"): string {
  const write = (path: string, lines: readonly string[]): void => writeFileSync(join(folder, path), lines.join("\n"));
  for (const inner of ["units", "tapes"]) mkdirSync(join(folder, inner));
  write("project.yaml", [
    "format: 1",
    "project: one index",
    "requirement: {index time: 100 ms}",
    supply,
    "wanted: {plain: [strip]}",
    "",
  ]);
  write("tapes/strip.yaml", [
    "format: 1",
    "tape: strip",
    "kind: embossed",
    "W: 12 mm",
    "A0: 6.4 mm",
    "B0: 5.2 mm",
    "K0: 2.1 mm",
    "P1: 8 mm",
    "",
  ]);
  write("units/plain.yaml", [
    "format: 1",
    "unit: Plain",
    "revision: B",
    "serves: {kind: [embossed], W: [12]}",
    "built for:",
    "  12: {A0: 6.4 mm, B0: 5.2 mm, K0: 2.1 mm, P1: 8 mm, T: 0.30 mm}",
    "tape:",
    "  rests on: underside",
    "  route: [{line: 80 mm}, {mark: pick}, {line: 40 mm}]",
    "  place: {mark: pick, x: 0 mm, z: 0 mm, heading: 0 deg}",
    "  section:",
    "    width: W + 0.45 mm",
    "    ledge: {near: 2.6 mm, far: 0.7 mm}",
    "    groove: {depth: K0 + 0.6 mm, margin: 0.75 mm}",
    "    lips: {near: 0.9 mm, far: 0.7 mm, gap: T + 0.35 mm}",
    "film: {opens: one seal}",
    "sprocket:",
    "  teeth: 24",
    "  at: pick + 14 mm",
    "  axis below tape: 24*P0/(2*pi) - T/2",
    "  tooth: {height above tape: 1.1 mm, along: 1.10 mm, across: 0.70 mm, corner: 0.30 mm, flank: 22 deg}",
    "  disc: {from: E1 - 1.6 mm, to: E1 + 0.5 mm}",
    feed,
    "",
  ]);
  return folder;
}
const known = `feed drive: ${drive(6, 40, ", encoder: 28 counts")}`;
const call = (folder: string, ...more: string[]) =>
  tapeworthy(["index", folder, "--unit", "plain", "--tape", "strip", ...more]);

describe("index of a unit whose motor is known", () => {
  test("tells what happens in order, how it ends and what the firmware needs", () =>
    inNewFolder((folder) => {
      const { code, out, err } = call(project(folder, known));
      expect(err).toBe("");
      expect(code).toBe(0);
      expect(out).not.toMatch(/undefined|NaN|Infinity/);
      const story = ["the feed motor is switched on", "a tooth carries the tape", "is shorted", "the tape stands"];
      const places = story.map((s) => out.indexOf(s));
      expect(places.every((p) => p > 0)).toBe(true);
      expect(places).toEqual([...places].sort((a, b) => a - b));
      expect(out).toContain("The film is left out:");
      expect(out).toMatch(/ lead +\d+ um /);
      expect(out).toContain("An open-loop lead cannot hold 50 um");
    }));
  test("prints lanes of one length, events and constants as JSON, in SI", () =>
    inNewFolder((folder) => {
      const got = JSON.parse(call(project(folder, known), "--json").out);
      expect(got).toMatchObject({ width: 12, revision: expect.any(String) });
      const lengths = Object.values(got.lanes as Record<string, number[]>).map((lane) => lane.length);
      expect(new Set(lengths).size).toBe(1);
      expect(got.measures.travel).toBeCloseTo(8e-3, 4);
      expect(got.steps.unsolved).toBe(0);
      const lead = got.firmware.constants.find((c: { name: string }) => c.name === "lead");
      expect(lead.value).toBeGreaterThan(0);
      expect(lead.value).toBeLessThan(8e-3);
    }));
  test("writes a C header whole, in place of an older one", () =>
    inNewFolder((folder) => {
      const header = join(folder, "index.h");
      writeFileSync(header, "earlier text");
      const { code, out } = call(project(folder, known), "--header", header);
      expect(code).toBe(0);
      expect(out).toContain(`The constants are in ${header}.`);
      const text = readFileSync(header, "utf8");
      expect(text).toContain("Index of Plain, revision B, built for 12 mm, on strip.");
      expect(text).toMatch(/#define INDEX_LEAD_COUNTS \d+L/);
      expect(text).not.toContain("earlier text");
    }));
});
describe("index that cannot be simulated ends with 2 and the way out", () => {
  test("where the motor is not known, and no header is written", () =>
    inNewFolder((folder) => {
      const header = join(folder, "index.h");
      const { code, err } = call(project(folder, "feed drive: {motor: some motor}"), "--header", header);
      expect(code).toBe(2);
      expect(err).toContain("plain on strip has no index to simulate: the feed drive gives neither");
      expect(existsSync(header)).toBe(false);
    }));
  test("where the project gives no supply", () =>
    inNewFolder((folder) => {
      const { code, err } = call(project(folder, known, ""));
      expect(code).toBe(2);
      expect(err).toContain("project.yaml gives no supply");
    }));
  test("where the tape or the unit is not there", () =>
    inNewFolder((folder) => {
      project(folder, known);
      const tape = tapeworthy(["index", folder, "--unit", "plain", "--tape", "strap"]);
      expect([tape.code, tape.err]).toEqual([2, expect.stringContaining('Did you mean "strip"?')]);
      const unit = tapeworthy(["index", folder, "--unit", "plainn", "--tape", "strip"]);
      expect([unit.code, unit.err]).toEqual([2, expect.stringContaining('Did you mean "plain"?')]);
    }));
});
