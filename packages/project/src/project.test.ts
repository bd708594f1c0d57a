import { asWritten, type Given, isPlace, nominalOf, Realiser, type Scene } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { changed, project as projectFile, said, texts } from "./curlew.fixture.ts";
import { showError } from "./error.ts";
import { example } from "./example.fixture.ts";
import { GivenStore } from "./given-store.ts";
import { isDesignPath, isProjectPath, type Project, plainRequirement, readProject } from "./project.ts";

const read = (files: ReadonlyMap<string, string>, store = new GivenStore()): Project => {
  const { project, errors } = readProject(files, store);
  if (!project) throw new Error(errors.map(showError).join("\n\n"));
  return project;
};

/** Every number of a project: at one address each width may have its own. */
const allGivens = (p: Project): Set<Given> =>
  new Set([
    ...p.givens.values(),
    ...[...p.units.values()].flatMap((u) => [...u.variants.values()].flatMap((v) => [...v.givens.values()])),
  ]);

describe("the example", () => {
  const project = read(example);
  test("is read without a word: its units with all their widths, its tapes, what is wanted and what is known", () => {
    expect([...project.units.keys()].sort()).toEqual(
      [...example.keys()].filter((p) => p.startsWith("units/")).map((p) => p.slice(6, -5)),
    );
    expect([...project.tapes.keys()].sort()).toEqual(
      [...example.keys()].filter((p) => p.startsWith("tapes/")).map((p) => p.slice(6, -5)),
    );
    for (const unit of project.units.values()) expect([...unit.variants.keys()]).toEqual(unit.widths);
    expect(project.wanted.size).toBe(project.units.size);
    expect(project.known.length).toBeGreaterThan(0);
    for (const k of project.known) expect(project.units.has(k.unit) && project.tapes.has(k.tape)).toBe(true);
  });
  test("has line and column of every one of its numbers right: its text stands there", () => {
    let count = 0;
    for (const g of allGivens(project)) {
      if (!isPlace(g.origin)) continue;
      const line = project.files.get(g.origin.file)!.lineText(g.origin.line);
      expect(line.slice(g.origin.column - 1, g.origin.column - 1 + g.origin.length), g.address).toBe(g.text);
      count++;
    }
    expect(count).toBeGreaterThan(400);
  });
  test("has every number written in it among its givens: what looks like a quantity in a file is one", () => {
    const at = new Set(
      [...allGivens(project)].flatMap((g) =>
        isPlace(g.origin) ? [`${g.origin.file}:${g.origin.line}:${g.origin.column}`] : [],
      ),
    );
    for (const [file, text] of example) {
      // Bounds of what is free are no numbers of the unit.
      const lines = text
        .replace(/^free:.*\n(?: .*\n?)*/m, "")
        .split("\n")
        .map((line) => line.replace(/#.*/, ""));
      for (const [i, line] of lines.entries())
        for (const match of line.matchAll(
          /(?<=[:[,] +)-?\d[\d.]*(?= (?:±[\d.]+ )?(?:mm|N|deg|N\*mm|N\/mm|h|g|min|d|GPa|um)\b)/g,
        )) {
          if (/motor: |insert: |rise: /.test(line.slice(0, match.index).split(",").at(-1)!)) continue;
          expect(at, `${file}:${i + 1}:${match.index + 1}`).toContain(`${file}:${i + 1}:${match.index + 1}`);
        }
    }
  });
  test("has no number without a finite value, at any width, on any wanted tape", () => {
    for (const [name, list] of project.wanted)
      for (const tapeName of list) {
        const { tape } = project.tapes.get(tapeName)!;
        const unit = project.units.get(name)!.variants.get(tape.row)!;
        const scene: Scene = { unit, tape, requirement: project.requirement };
        const all = [...unit.givens.values(), ...tape.givens.values()];
        const run = new Realiser(scene, all).run(asWritten);
        for (const g of all) expect(Number.isFinite(run.number(g)), g.address).toBe(true);
      }
  });
});

describe("a project", () => {
  test("has its own requirement, and what holds without a word for the rest", () => {
    const { requirement } = read(texts);
    expect(requirement.allowPairs).toBe(0.02);
    expect(requirement.filmSpeed).toMatchObject({
      text: "80 mm/s",
      symbol: "v",
      address: "project/film speed",
      origin: { line: 5, column: 13 },
    });
    expect(requirement.breakSafety).toBe(plainRequirement().breakSafety);
    expect(requirement.assume["mismatch limit"]).toMatchObject({
      text: "1.8..2.2 % guess",
      symbol: "m_lim",
      address: "assume/mismatch limit",
      letter: "g",
    });
    expect(requirement.assume["film friction"]).toBe(plainRequirement().assume["film friction"]);
  });
  test("that says nothing of what is asked has 2 % of pairs, 80 mm/s and 1.5 times the pull", () => {
    const { requirement } = read(new Map([["project.yaml", "format: 1\nproject: empty\nwanted: {}\n"]]));
    expect(requirement.allowPairs).toBe(0.02);
    expect([requirement.filmSpeed.text, requirement.breakSafety.text]).toEqual(["80 mm/s", "1.5"]);
  });
  test("allows so many misfeeds as it says, and none in particular where it says nothing", () => {
    const asked = "format: 1\nproject: empty\nrequirement: {misfeed allowance: 0.001 %}\nwanted: {}\n";
    expect(read(new Map([["project.yaml", asked]])).requirement.misfeeds).toBeCloseTo(1e-5, 12);
    expect(read(texts).requirement.misfeeds).toBeUndefined();
  });
  test("needs neither units nor tapes nor a record", () => {
    const { units, tapes, known, ladder, wanted } = read(
      new Map([["project.yaml", "format: 1\nproject: empty\nwanted: {}\n"]]),
    );
    expect([units.size, tapes.size, known.length, ladder, wanted.size]).toEqual([0, 0, 0, undefined, 0]);
  });
  test("has its record in numbers of reels, and undefined where nothing is said", () => {
    expect(read(texts).known).toEqual([
      { unit: "curlew", tape: "chip", result: "runs", reelsRun: 120, reelsRefused: 1, note: undefined },
      {
        unit: "curlew",
        tape: "coil",
        result: "not good enough",
        reelsRun: undefined,
        reelsRefused: undefined,
        note: "stops once a reel",
      },
    ]);
  });
  test("leaves alone what is not its own in the folder", () => {
    const more = new Map([
      ...texts,
      ["notes.yaml", "}{"],
      ["units/old/curlew.yaml", "}{"],
      ["units/readme.md", "}{"],
      ["tapes/x.yml", "}{"],
    ]);
    expect(said(more)).toBe("");
    expect([...read(more).files.keys()].sort()).toEqual([...texts.keys()].sort());
    expect(["project.yaml", "known.yaml", "units/a.yaml", "tapes/b-1.yaml"].every(isProjectPath)).toBe(true);
    expect(["ledger.yaml", "bench/T-01.yaml"].map((path) => [isProjectPath(path), isDesignPath(path)])).toEqual([
      [true, false],
      [true, false],
    ]);
    expect(["bench/T-01/raw.yaml", "bench/T-01.csv", "bench.yaml", "bench/ledger.yml"].some(isProjectPath)).toBe(false);
    expect(["units/a.yml", "units/a/b.yaml", "Project.yaml", "x/project.yaml", "units.yaml"].some(isProjectPath)).toBe(
      false,
    );
  });
  const trial = (...more: readonly string[]) =>
    ["format: 1", "trial: T-01", "unit: curlew", "tape: coil", "question: nip.slips", ...more, ""].join("\n");
  test("holds its trials and its ledger; both are empty where nothing was tried", () => {
    expect([read(texts).trials.size, read(texts).ledger.frozen]).toEqual([0, []]);
    const files = new Map([
      ...texts,
      ["bench/T-01.yaml", trial("counts: [{indexes: 10, misfeeds: 0}]")],
      ["ledger.yaml", "format: 1\nledger:\n  - taken: T-01\n"],
    ]);
    const { trials, ledger } = read(files);
    expect(trials.get("T-01")).toMatchObject({ unit: "curlew", counts: [{ indexes: 10 }] });
    expect([...ledger.taken.keys()]).toEqual(["T-01"]);
  });
  test("says what is wrong in a trial and in the ledger, with the rest of its faults", () => {
    const files = new Map([
      ...texts,
      ["bench/T-01.yaml", trial().replace("tape: coil", "tape: coll")],
      ["bench/T-02.yaml", trial("counts: [{indexes: 10, misfeeds: 11}]").replace("T-01", "T-02")],
      ["ledger.yaml", "format: 1\nledger:\n  - taken: T-03\n    date: 2026-02-30\n"],
    ]);
    const all = readProject(files).errors.map(showError).join("\n\n");
    expect(all).toContain('bench/T-01.yaml:4:7: found the tape "coll"');
    expect(all).toContain('Did you mean "coil"?');
    expect(all).toContain("bench/T-02.yaml:6:34: found 11 misfeeds in 10 indexes");
    expect(all).toContain("ledger.yaml:4:11:");
    // A trial that can't be read is no trial that is not there.
    expect(all).not.toContain('the trial "T-03"');
  });
  test("reads a trial and the ledger once for as long as their texts stand", () => {
    const store = new GivenStore();
    const files = new Map([
      ...texts,
      ["bench/T-01.yaml", trial()],
      ["ledger.yaml", "format: 1\nledger:\n  - {apart: T-01, reason: why}\n"],
    ]);
    const before = read(files, store);
    const after = read(new Map(files).set("units/curlew.yaml", `${files.get("units/curlew.yaml")}# a word\n`), store);
    expect([after.trials, after.ledger]).toEqual([before.trials, before.ledger]);
    expect(after.trials.get("T-01")).toBe(before.trials.get("T-01"));
    expect(after.ledger).toBe(before.ledger);
    expect(read(new Map(files).set("bench/T-01.yaml", trial("date: 2026-03-04")), store).trials.get("T-01")).not.toBe(
      before.trials.get("T-01"),
    );
  });
  test("has units and tapes in the order of their names, in whatever order the files come", () => {
    const backwards = new Map([...example].reverse());
    expect([...read(backwards).tapes.keys()]).toEqual([...read(example).tapes.keys()]);
    expect([...read(backwards).units.keys()]).toEqual([...read(example).units.keys()]);
  });
});

describe("what is wanted", () => {
  test("must be a width the unit is made in, and a kind it serves", () => {
    const files = new Map([
      ...changed("project.yaml", ["curlew: [chip, coil]", "curlew: [chip, coil, paper, wide]"]),
      [
        "tapes/paper.yaml",
        "format: 1\ntape: paper\nkind: punched\nW: 8 mm\nA0: 1 mm\nB0: 1.8 mm\nK0: 0.6 mm\nP1: 4 mm\n",
      ],
      ["tapes/wide.yaml", "format: 1\ntape: wide\nW: 24 mm\nA0: 10 mm\nB0: 16 mm\nK0: 3 mm\nP1: 12 mm\n"],
    ]);
    expect(
      said(files),
    ).toBe(`project.yaml:7:24: found the tape "paper", punched, expected a kind that Curlew serves: embossed
7 |   curlew: [chip, coil, paper, wide]
                           ^^^^^
Add punched to its "serves: kind".

project.yaml:7:31: found the tape "wide", 24 mm wide, expected a width that Curlew is made in: 8, 12
7 |   curlew: [chip, coil, paper, wide]
                                  ^^^^
Add 24 to its "serves: W", with its pocket under "built for".`);
  });
  test("may be tape of 4 mm and pressed tape, where the unit serves them", () => {
    const files = new Map([
      ...changed(
        "units/curlew.yaml",
        ["kind: [embossed], W: [8, 12]", "kind: [embossed, pressed], W: [4, 8, 12]"],
        ["built for:\n", "built for:\n  4: {A0: 0.4 mm, B0: 0.7 mm, K0: 0.3 mm, P1: 1 mm, T: 0.2 mm}\n"],
      ),
      ["project.yaml", projectFile.replace("curlew: [chip, coil]", "curlew: [chip, coil, grain, board]")],
      ["tapes/grain.yaml", "format: 1\ntape: grain\nW: 4 mm\nA0: 0.3 mm\nB0: 0.5 mm\nK0: 0.25 mm\nP1: 1 mm\n"],
      [
        "tapes/board.yaml",
        "format: 1\ntape: board\nkind: pressed\nW: 8 mm\nA0: 0.4 mm\nB0: 0.7 mm\nK0: 0.3 mm\nT: 0.42 mm\nP1: 2 mm\n",
      ],
    ]);
    expect(said(files)).toBe("");
    const whole = read(files);
    expect(whole.units.get("curlew")!.widths).toEqual([4, 8, 12]);
    expect([whole.tapes.get("grain")!.tape.row, whole.tapes.get("board")!.tape.kind]).toEqual([4, "pressed"]);
    // The unit's letters are those of 4 mm tape: hole row 0.9, pocket 1.8 mm from it. [memory]
    const { E1, F } = whole.units.get("curlew")!.variants.get(4)!.letters;
    expect([E1, F].map((q) => +(nominalOf(q!) * 1e3).toFixed(9))).toEqual([0.9, 1.8]);
  });
  test("is as strict as what is known: a record of a width the unit is not made in is no record of it", () => {
    const files = new Map([
      ...changed("known.yaml", ["tape: coil", "tape: wide"]),
      ["tapes/wide.yaml", "format: 1\ntape: wide\nW: 24 mm\nA0: 10 mm\nB0: 16 mm\nK0: 3 mm\nP1: 12 mm\n"],
    ]);
    expect(
      said(files),
    ).toBe(`known.yaml:4:26: found the tape "wide", 24 mm wide, expected a width that Curlew is made in: 8, 12
4 |   - {unit: curlew, tape: wide, result: not good enough, note: stops once a reel}
                             ^^^^
Add 24 to its "serves: W", with its pocket under "built for".`);
  });
  test("is told that there is nothing yet where there is nothing yet", () => {
    expect(
      said(new Map([["project.yaml", "format: 1\nproject: p\nwanted: {left: [thin]}\n"]])),
    ).toBe(`project.yaml:3:10: found the unit "left", expected the name of a file in units/, without .yaml
3 | wanted: {left: [thin]}
             ^^^^
There is no unit file yet.

project.yaml:3:17: found the tape "thin", expected the name of a file in tapes/, without .yaml
3 | wanted: {left: [thin]}
                    ^^^^
There is no tape file yet.`);
  });
  test("of a unit whose own file is wrong is not wrong too", () => {
    expect(
      readProject(changed("units/curlew.yaml", ["opens: whole width", "opens: hole"])).errors.map((e) => e.place.file),
    ).toEqual(["units/curlew.yaml"]);
  });
});

describe("a project read again with what it was before", () => {
  test("reads no file again whose text is the same, and keeps all its numbers", () => {
    const store = new GivenStore();
    const before = read(example, store);
    const after = read(new Map(example), store);
    for (const [name, unit] of before.units) expect(after.units.get(name)).toBe(unit);
    for (const [name, tape] of before.tapes) expect(after.tapes.get(name)).toBe(tape);
    for (const [address, g] of before.givens) expect(after.givens.get(address), address).toBe(g);
    expect(after.requirement.filmSpeed).toBe(before.requirement.filmSpeed);
  });
  test("has a unit that is built for a tape follow that tape, and other units not", () => {
    const store = new GivenStore();
    const before = read(texts, store).units.get("curlew")!.variants;
    const files = changed("tapes/coil.yaml", ["K0: 2.1 mm", "K0: 2.3 mm"]);
    const after = read(files, store).units.get("curlew")!.variants;
    const depth = (variants: typeof before, width: number) => variants.get(width)!.tape.section.groove.depth;
    expect(depth(after, 8)).toBe(depth(before, 8));
    expect(depth(after, 12)).not.toBe(depth(before, 12));
    const value = (g: Given) => new Realiser({} as Scene, [g]).run(asWritten).number(g) * 1e3;
    expect([value(depth(before, 12)), value(depth(after, 12))].map((v) => +v.toFixed(9))).toEqual([2.8, 3]);
  });
  test("says the same of a fault, and nothing once it is mended", () => {
    const store = new GivenStore();
    const wrong = changed("units/curlew.yaml", ["line: 90 mm", "line: 90"]);
    const first = readProject(wrong, store).errors.map(showError);
    expect(first).toHaveLength(1);
    expect(readProject(wrong, store).errors.map(showError)).toEqual(first);
    expect(readProject(texts, store).errors).toEqual([]);
    expect(readProject(wrong, store).errors.map(showError)).toEqual(first);
  });
  test("has the numbers of project.yaml follow their lines", () => {
    const store = new GivenStore();
    const before = read(texts, store).requirement;
    const after = read(changed("project.yaml", ["requirement:", "note: a line more\nrequirement:"]), store).requirement;
    expect(after.filmSpeed).toBe(before.filmSpeed);
    expect(after.assume["mismatch limit"]).toBe(before.assume["mismatch limit"]);
    expect(after.filmSpeed.origin).toMatchObject({ line: 6, column: 13 });
  });
});
