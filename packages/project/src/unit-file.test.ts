import { asWritten, type Given, type Quantity, Realiser, type Scene, type Unit } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { chip, coil, unit } from "./curlew.fixture.ts";
import { showError } from "./error.ts";
import { example } from "./example.fixture.ts";
import { GivenStore } from "./given-store.ts";
import { openers, withMembers } from "./openers.fixture.ts";
import { SourceFile } from "./source.ts";
import { readTapeFile } from "./tape-file.ts";
import { readUnitFile } from "./unit-file.ts";

const store = new GivenStore();
const tapes = new Map(
  Object.entries({ chip, coil }).map(([name, text]) => [
    name,
    readTapeFile(new SourceFile(`tapes/${name}.yaml`, text), name, store).file!,
  ]),
);
const read = (text: string, s = new GivenStore()) =>
  readUnitFile(
    new SourceFile("units/curlew.yaml", text),
    "curlew",
    (name) => tapes.get(name)?.pocket,
    [...tapes.keys()],
    s,
  );
/** A variant of the small unit, one fragment changed. */
const variant = (width: number, from = "", to = ""): Unit => {
  const { unit: file, errors } = read(unit.replace(from, () => to));
  if (!file) throw new Error(errors.map(showError).join("\n\n"));
  return file.variants.get(width)!;
};
const scene = { tape: tapes.get("coil")!.tape } as Scene;
const value = (q: Quantity, at = scene) => new Realiser(at, [q]).run(asWritten).number(q);
const mm = (q: Quantity | undefined, at = scene) => +(value(q!, at) * 1e3).toFixed(9);

describe("a letter of a unit file", () => {
  test("of the catalogue's is the nominal one of the variant's width, whatever tape is on the reel", () => {
    expect([mm(variant(8).letters.W), mm(variant(12).letters.W)]).toEqual([8, 12]);
    // EIA-481-D, table of the widths: F = 3.5 and 5.5 mm, E1 = 1.75 mm, R = 25 and 30 mm. [remembered]
    expect([mm(variant(8).letters.F), mm(variant(12).letters.F)]).toEqual([3.5, 5.5]);
    expect(mm(variant(12).letters.E1)).toBe(1.75);
    expect([mm(variant(8).letters.R), mm(variant(12).letters.R)]).toEqual([25, 30]);
    expect((variant(12).letters.W as Given).scatters).toEqual([]);
  });
  test("of the pocket is what the width is built for, by its letters or by a tape, as it was drawn", () => {
    expect(mm(variant(8).letters.K0)).toBe(1.3);
    expect(mm(variant(12).letters.K0)).toBe(2.1);
    expect(mm(variant(12).letters.A0)).toBe(4.3);
    expect((variant(12).letters.B0 as Given).scatters).toEqual([]);
    expect((variant(12).letters.B0 as Given).text).toBe("4.3 ±0.05 mm");
  });
  test("of a list of tapes is the greatest of each letter", () => {
    const both = variant(12, "12: coil", "12: [chip, coil]").letters;
    expect([mm(both.A0), mm(both.K0), mm(both.T)]).toEqual([4.3, 2.1, 0.3]);
    const mixed = variant(12, "12: coil", "12: [coil, chip]").letters;
    expect(mm(mixed.P1)).toBe(8);
  });
  test("that follows from others does so where it is not given: T2 = K0 + T + T1, B1 = B0 + 2 T", () => {
    const { T1, T2, B1 } = variant(8).letters;
    expect(mm(T2)).toBeCloseTo(1.3 + 0.25 + mm(T1), 9);
    expect(mm(B1)).toBeCloseTo(2.3 + 0.5, 9);
    expect(mm(variant(12).letters.T2)).toBeCloseTo(2.46, 9);
    expect(mm(variant(8, "T: 0.25 mm}", "T: 0.25 mm, T2: 1.9 mm}").letters.T2)).toBe(1.9);
  });
  test("the catalogue has for that width may be left out of the pocket: T1 and b", () => {
    expect(mm(variant(8).letters.T1)).toBeGreaterThan(0.03);
    expect(mm(variant(8).letters.b)).toBeCloseTo(5.3, 0);
    expect(mm(variant(8, "T: 0.25 mm}", "T: 0.25 mm, b: 5.4 mm}").letters.b)).toBe(5.4);
  });
  test("with actual before it is the one of the tape on the reel", () => {
    const body = variant(12).bodies![0]!.y[1];
    expect(mm(body)).toBeCloseTo(12.05, 9);
    expect(mm(body, { tape: tapes.get("chip")!.tape } as Scene)).toBeCloseTo(8, 9);
    expect(mm(variant(12).tape.section.width)).toBeCloseTo(12.45, 9);
    expect(mm(variant(12, "W + 0.45 ±0.10 mm", "actual W + 0.45 ±0.10 mm").tape.section.width)).toBeCloseTo(12.5, 9);
  });
});

describe("a name in let", () => {
  test("whose text has a tolerance carries it to every use: both read one and the same number", () => {
    const v = variant(8, "groove: {depth: drop + gap, margin: 0.75 mm}", "groove: {depth: drop + gap, margin: gap/2}");
    const { depth, margin } = v.tape.section.groove;
    const gap = v.givens.get("curlew/let.gap")!;
    expect(depth.reads(scene).gap).toBe(gap);
    expect(margin.reads(scene).gap).toBe(gap);
    expect(gap.scatters).toEqual([{ level: "unit", law: "uniform", from: -0.00015, to: 0.00015 }]);
    expect(depth.scatters).toEqual([]);
    const run = new Realiser(scene, [depth, margin]).run({
      n: 1,
      unknown: () => 0,
      scatter: (g) => (g === gap ? 1 : undefined),
    });
    expect(run.number(depth) * 1e3).toBeCloseTo(1.4 + 0.75, 9);
    expect(run.number(margin) * 1e3).toBeCloseTo(0.375, 9);
  });
  test("may use the letters and the names above it", () => {
    const v = variant(8, "  gap: 0.60 ±0.15 mm\n", "  gap: 0.60 ±0.15 mm\n  low: -(drop + gap + 1 mm)\n");
    expect(mm(v.givens.get("curlew/let.low"))).toBeCloseTo(-3, 9);
  });
  test("stands before a unit of the same name, except right behind a number", () => {
    const v = variant(8, "  gap: 0.60 ±0.15 mm\n", "  gap: 0.60 ±0.15 mm\n  g: 2 mm\n  cm: g + 1 cm\n");
    expect(mm(v.givens.get("curlew/let.cm"))).toBeCloseTo(12, 9);
  });
  test("may be called as what every object has", () => {
    const v = variant(
      8,
      "  gap: 0.60 ±0.15 mm\n",
      "  gap: 0.60 ±0.15 mm\n  constructor: 2 mm\n  toString: constructor + 1 mm\n",
    );
    expect(mm(v.givens.get("curlew/let.toString"))).toBeCloseTo(3, 9);
  });
});

describe("a mark", () => {
  test("stands for its x in the side view, or for its place along the tape where that is asked", () => {
    const v = variant(8, "  gears:", "  lifts: {by: 3 deg, about: [peel, 2 mm]}\n  gears:");
    expect(mm(v.nip!.lifts!.about[0])).toBeCloseTo(-9, 9);
    expect(mm(v.film.peel!.at)).toBeCloseTo(-9, 9);
    const away = variant(8, "heading: 0 deg", "heading: 90 deg");
    expect(mm(away.film.guides![0]!.through[0])).toBeCloseTo(-7, 9);
    expect(mm(away.film.peel!.at)).toBeCloseTo(-9, 9);
  });
  test("moves with the scatter of the pieces between it and the placed one", () => {
    const v = variant(8);
    const piece = v.givens.get("curlew/tape.route.3.line")!;
    const at = v.film.peel!.at;
    const run = new Realiser(scene, [at]).run({
      n: 1,
      unknown: () => 0,
      scatter: (g) => (g === piece ? 1 : undefined),
    });
    expect(run.number(at) * 1e3).toBeCloseTo(-9.2, 9);
  });
});

describe("what one width has instead", () => {
  test("is that width's alone", () => {
    expect(value(variant(12).nip!.preload!)).toBe(7);
    expect(value(variant(8).nip!.preload!)).toBe(6);
  });
  test.each([
    ["nip.preload: 7 ±1 N", "let.gap: 0.9 mm", (v: Unit) => mm(v.tape.section.groove.depth), 1.4 + 0.6, 2.2 + 0.9],
    ["nip.preload: 7 ±1 N", "film.guides.edge.radius: 3 mm", (v: Unit) => mm(v.film.guides![0]!.radius), 1.5, 3],
    ["nip.preload: 7 ±1 N", "film.guides.nip.through.3: 14 mm", (v: Unit) => mm(v.film.guides![1]!.through[2]), 12, 14],
    ["nip.preload: 7 ±1 N", "tape.route.1.line: 120 mm", (v: Unit) => mm(v.tape.route[0]!.line), 90, 120],
    [
      "nip.preload: 7 ±1 N",
      "nip.interference: 0.8 mm",
      (v: Unit) => (v.nip!.interference ? mm(v.nip!.interference) : 0),
      0,
      0.8,
    ],
    ["nip.preload: 7 ±1 N", "nip: none", (v: Unit) => (v.nip ? 1 : 0), 1, 0],
    ["nip.preload: 7 ±1 N", "nip: {preload: 3 N}", (v: Unit) => value(v.nip!.preload!), 6, 3],
    ["nip.preload: 7 ±1 N", "film.opens: one side", (v: Unit) => v.film.opens.length, 11, 8],
  ])("may be in the place of %s: %s", (from, to, of, narrow, wide) => {
    expect(of(variant(8, from, to))).toBeCloseTo(narrow, 9);
    expect(of(variant(12, from, to))).toBeCloseTo(wide, 9);
  });
  test("stands in its own place, though another width has the same text", () => {
    const { variants } = read(unit.replace("  12: {nip", "  8: {nip.preload: 7 ±1 N}\n  12: {nip")).unit!;
    const places = [8, 12].map((width) => variants.get(width)!.nip!.preload!.origin as { line: number });
    expect(places.map((place) => place.line)).toEqual([11, 12]);
  });
  test("has an address of its own, which the value it replaces keeps at the other widths", () => {
    const addresses = (width: number) => [...variant(width).givens.keys()].filter((address) => /preload/.test(address));
    expect(addresses(8)).toEqual(["curlew/nip.preload"]);
    expect(addresses(12)).toEqual(["curlew/per width.12.nip.preload"]);
    const group = variant(12, "nip.preload: 7 ±1 N", "nip: {preload: 3 N}, let.gap: 1 mm");
    expect([...group.givens.keys()].filter((address) => /preload|gap$/.test(address)).sort()).toEqual([
      "curlew/per width.12.let.gap",
      "curlew/per width.12.nip.preload",
      "curlew/tape.section.lips.gap",
    ]);
  });
  test("moves the marks of that width alone", () => {
    const v = (width: number) => variant(width, "nip.preload: 7 ±1 N", "tape.route.3.line: 12 mm").film.peel!.at;
    expect([mm(v(8)), mm(v(12))]).toEqual([-9, -12]);
  });
});

describe("the numbers of a variant", () => {
  test("scatter between units where the text names no level", () => {
    const levels = [...variant(8).givens.values()].flatMap((g) => g.scatters.map((s) => s.level));
    expect(new Set(levels)).toEqual(new Set(["unit"]));
    const named = variant(8, "6.0 ±1.0 N", "6.0 ±1.0 N per index sd 2 %").nip!.preload!;
    expect(named.scatters.map((s) => s.level)).toEqual(["unit", "index"]);
  });
  test("have addresses with the names of list items, else their numbers from one", () => {
    const addresses = [...variant(8).givens.keys()];
    expect(addresses).toContain("curlew/film.guides.edge.through.2");
    expect(addresses).toContain("curlew/tape.route.5.arc.radius");
    expect(addresses).toContain("curlew/nip.gears.teeth.1");
    expect(addresses).toContain("curlew/bodies.board: left.box.4");
    expect(addresses).toContain("curlew/built for.8.A0");
    expect(addresses).toContain("curlew/let.gap");
  });
  test("are levers and settable where their fields say so, in SI", () => {
    const { nip, film } = variant(8);
    expect(nip!.preload).toMatchObject({ lever: [0.5, 30], settable: true });
    expect(film.peel!["edge radius"]).toMatchObject({ lever: [0.0001, 0.005] });
    expect(film.peel!["edge radius"].settable).toBeUndefined();
    expect(film.friction!.lever).toBeUndefined();
  });
  test("that may be a set are one where they are a range without a status, and a guess where they have one", () => {
    const backlash = variant(8).nip!.gears!.backlash!;
    expect(backlash.unknown).toBeUndefined();
    expect(backlash.scatters).toHaveLength(1);
    expect([mm(backlash), (backlash.scatters[0] as { to: number }).to]).toEqual([0.14, 0.00006]);
    expect(backlash.text).toBe("0.08..0.20 mm");
    expect(variant(8, "0.08..0.20 mm", "0.08..0.20 mm guess").nip!.gears!.backlash!.unknown).toBeDefined();
  });
  test("are shared by the widths where they name no letter, and not where they do", () => {
    const { variants } = read(unit).unit!;
    const [narrow, wide] = [variants.get(8)!, variants.get(12)!];
    expect(narrow.nip!.overspeed).toBe(wide.nip!.overspeed);
    expect(narrow.tape.section.width).not.toBe(wide.tape.section.width);
    expect(narrow.tape.section.width.text).toBe(wide.tape.section.width.text);
  });
});

describe("a file read again", () => {
  const addressesOf = (v: Unit) => [...v.givens].map(([address, g]) => [address, g] as const);
  test("with lines above keeps every number the same object, and only their places move", () => {
    const s = new GivenStore();
    const before = read(unit, s).unit!.variants.get(12)!;
    const lines = new Map(addressesOf(before).map(([address, g]) => [address, (g.origin as { line: number }).line]));
    const after = read(`# one\n# two\n# three\n${unit}`, s).unit!.variants.get(12)!;
    for (const [address, g] of addressesOf(after)) {
      expect(before.givens.get(address)).toBe(g);
      expect((g.origin as { line: number }).line).toBe(lines.get(address)! + 3);
    }
    expect(after.letters.T2).toBe(before.letters.T2);
    expect(after.film.guides![0]!.through[0].reads(scene).peel).toBe(
      before.film.guides![0]!.through[0].reads(scene).peel,
    );
  });
  test("with one text changed has a new object for it and for what reads it, and for nothing else", () => {
    const s = new GivenStore();
    const before = read(unit, s).unit!.variants.get(8)!;
    const after = read(unit.replace("gap: 0.60", "gap: 0.61"), s).unit!.variants.get(8)!;
    const changed = addressesOf(after).flatMap(([address, g]) => (before.givens.get(address) === g ? [] : [address]));
    expect(changed).toEqual(["curlew/let.gap", "curlew/tape.section.groove.depth"]);
  });
  test("with a piece of the route changed has new marks, and new numbers where they are used", () => {
    const s = new GivenStore();
    const before = read(unit, s).unit!.variants.get(8)!;
    const after = read(unit.replace("line: 9.0 ±0.2 mm", "line: 9.5 ±0.2 mm"), s).unit!.variants.get(8)!;
    const changed = addressesOf(after).flatMap(([address, g]) => (before.givens.get(address) === g ? [] : [address]));
    expect(changed).toEqual([
      "curlew/tape.route.3.line",
      "curlew/film.peel.at",
      "curlew/film.guides.edge.through.1",
      "curlew/film.guides.nip.through.1",
    ]);
  });
  test("as it was before has its earlier objects again", () => {
    const s = new GivenStore();
    const gap = () => read(unit, s).unit!.variants.get(8)!.givens.get("curlew/let.gap");
    const first = gap();
    read(unit.replace("gap: 0.60", "gap: 0.61"), s);
    expect(gap()).toBe(first);
  });
});

describe("the members of a unit may be", () => {
  const base = example.get("units/plover.yaml")!;
  test.each(Object.entries(openers))("%s", (_, members) => {
    for (const whole of [base, unit]) {
      const text = withMembers(whole, members);
      const { unit: file, errors } = read(text);
      expect(errors.map(showError)).toEqual([]);
      expect(file!.variants.size).toBe(file!.widths.length);
      for (const v of file!.variants.values())
        for (const g of v.givens.values()) expect(Number.isFinite(value(g)), g.address).toBe(true);
    }
  });
  test("none, where they may be missing", () => {
    const { unit: file } = read(withMembers(unit, "nip: none\nsprocket: none\npeel drive: none\nbodies: none\n"));
    expect(file!.variants.get(8)).not.toHaveProperty("nip");
    expect(file!.variants.get(8)).not.toHaveProperty("bodies");
  });
  test("replaced only if they are there to be replaced: what the texts above hold arrives", () => {
    const v = (name: RegExp) =>
      read(withMembers(unit, Object.entries(openers).find(([key]) => name.test(key))![1])).unit!.variants.get(8)!;
    expect(v(/rake/).film).toMatchObject({
      opens: "one seal",
      opener: { kind: "rake", rise: "4 mm over 12 mm" },
      guides: [],
    });
    expect(mm(v(/rake/).film.hinge!.y)).toBeGreaterThan(0);
    expect(v(/blade/).cautions).toEqual(["blade edge"]);
    expect(v(/diagonal/).film.guides!.map((g) => g.name)).toEqual(["diagonal", "side edge", "nip"]);
    expect(v(/by hand/).nip).toBeUndefined();
    expect(v(/stiffness/)["hold-down"]).toMatchObject({ kind: "run-off bend" });
    expect(v(/flexure/).nip).toMatchObject({ spring: { kind: "flexure hinge", material: "PETG" } });
    expect(mm(v(/relief/).nip!.stripper!["past nip"])).toBe(4);
    expect(v(/hook/).joints!.map((j) => [j.name, j.kind, j.side])).toEqual([
      ["nip carrier", undefined, "near"],
      ["far hook", "hooked", "far"],
    ]);
  });
});
