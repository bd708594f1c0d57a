import { asWritten, type Quantity, Realiser, type Scene } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { changed, said } from "./curlew.fixture.ts";
import { readProject } from "./project.ts";

/** The small shop with a feed drive, its board and a rail. */
const drive = (feed: string) =>
  changed(
    "units/curlew.yaml",
    ["  gears: {module", `  slip: {kind: clutch, torque: 20 N*mm}\n  gears: {module`],
    [
      "bodies:\n",
      `feed drive:\n${feed}supply: {least: 8 V, idle: 30 mA, ceramic: 10 uF, trace: {width: 1 mm, layer: outside}}\nbodies:\n`,
    ],
  );
const sheet = `  motor: gear motor 10x12 mm
  sheet: {supply: 12 V, no-load current: 80 mA, no-load speed: 450 rpm, stall current: 0.75 A, stall torque: 98 N*mm}
  gear head: {ratio: 75.81}
  worm: {module: 0.5 mm, starts: 1, lead angle: 4.0 deg, friction: 0.10..0.16 guess}
  wheel teeth: 20
  heat: {winding to case: 20 kelvin*s/J, winding capacity: 1.5 J/kelvin, limit: 100 degC}
  brush: {segments: 3, life: 100..300 h guess}
`;
const rail = `supply:
  volts: 10.0 ±0.3 V
  units: 40
  together: 4
  cable: {length: 1.5 m, area: 4 mm^2}
  bar: {length: 0.7 m, area: 4 mm^2}
`;
const withRail = (text = rail) => {
  const files = changed(
    "project.yaml",
    ["wanted:\n", `${text}wanted:\n`],
    [
      "  allow pairs: 2 %\n",
      "  allow pairs: 2 %\n  index time: 100 ms\n  index rate: 2.5 /s\n  life: 5000000\n  ambient: 28 degC\n  pick force: 1.5 N\n  pick travel: 1 mm\n  pick tool: 0.12 mm\n",
    ],
  );
  files.set("units/curlew.yaml", drive(sheet).get("units/curlew.yaml")!);
  return files;
};
const value = (q: Quantity | undefined) => new Realiser({} as Scene, [q!]).run(asWritten).number(q!);

describe("a motor, its board and the rail", () => {
  const { project, errors } = readProject(withRail());
  test("are read without a word", () => expect(errors).toEqual([]));
  test("come in SI units", () => {
    const { requirement, units } = project!;
    expect(value(requirement.indexTime)).toBe(0.1);
    expect(value(requirement.indexRate)).toBe(2.5);
    expect(value(requirement.ambient)).toBe(28);
    expect([requirement.life, requirement.pickForce, requirement.pickTravel, requirement.pickTool].map(value)).toEqual([
      5e6, 1.5, 1e-3, 0.12e-3,
    ]);
    const { supply } = requirement;
    expect([supply!.volts, supply!.cable!.length, supply!.cable!.area].map(value)).toEqual([10, 1.5, 4e-6]);
    expect(supply!.volts).toMatchObject({ symbol: "V", address: "project/supply.volts" });
    expect(supply!.volts.scatters).toEqual([{ level: "unit", law: "uniform", from: -0.3, to: 0.3 }]);
    const feed = units.get("curlew")!.variants.get(8)!["feed drive"]!;
    expect(value(feed.sheet!["no-load speed"])).toBeCloseTo((450 * 2 * Math.PI) / 60, 9);
    expect(value(feed.heat!["winding to case"])).toBe(20);
    expect(feed.worm!.friction!.unknown).toMatchObject({ low: 0.1, high: 0.16 });
  });
  test("that a project does not give are not there, rather than usual ones", () => {
    const { requirement } = readProject(changed("project.yaml")).project!;
    for (const name of ["supply", "indexTime", "indexRate", "life", "ambient", "pickTool"] as const)
      expect(requirement, name).not.toHaveProperty(name);
  });
});

describe("a number that no drive has is refused where it stands", () => {
  const refused = (from: string, to: string) => said(drive(sheet.replace(from, to)));
  test("a worm wheel of three teeth", () => {
    expect(refused("wheel teeth: 20", "wheel teeth: 3")).toContain("found 3, expected at least 4");
  });
  test("a motor without current, and one without resistance", () => {
    expect(refused("stall current: 0.75 A", "stall current: 0 A")).toContain(
      "found 0 A, expected at least 0.01 A: current when it is held fast",
    );
    const bare = "  motor: bare\n  winding: {resistance: 0 ohm, constant: 3 mN*m/A}\n";
    expect(said(drive(bare))).toContain("found 0 ohm, expected at least 0.05 ohm");
  });
  test("a gear head that gives more than it gets", () => {
    expect(refused("gear head: {ratio: 75.81}", "gear head: {ratio: 75.81, efficiency: 1.2}")).toContain(
      "found 1.2, expected at most 1: share of the torque",
    );
  });
  test("a speed in the wrong dimension", () => {
    expect(refused("no-load speed: 450 rpm", "no-load speed: 450 V")).toContain("no-load speed: 450 V");
  });
  test("a rail below nothing, and no unit on it", () => {
    expect(said(withRail(rail.replace("10.0 ±0.3 V", "-10 V")))).toContain("found -10 V, expected at least 1 V");
    expect(said(withRail(rail.replace("units: 40", "units: 0")))).toContain(
      "found 0, expected at least 1: units on one rail",
    );
  });
  test("a word that is no kind of regulator", () => {
    const odd = drive(sheet)
      .get("units/curlew.yaml")!
      .replace(
        "trace: {",
        "regulator: {kind: magic, out: 3.3 V, load: 80 mA, thermal resistance: 100 kelvin*s/J, limit: 125 degC}, trace: {",
      );
    const files = drive(sheet);
    files.set("units/curlew.yaml", odd);
    expect(said(files)).toContain('"magic"');
  });
});
