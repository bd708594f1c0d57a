import { Deviates } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { benchCounts } from "./bench-counts.ts";
import { askedBy, benchResult, cameOutOf, keyOfTrial, pieceReadings } from "./bench-evidence.ts";
import { takingOf } from "./bench-take.ts";
import { applied } from "./edit.ts";
import { example } from "./example.fixture.ts";
import { emptyLedger, type Ledger } from "./ledger-read.ts";
import { readTrial, type Trial } from "./log/trial.ts";
import { type Project, readProject, type Texts } from "./project.ts";

const design = new Map([...example].filter(([path]) => /^(project|known)\.yaml$|^(units|tapes)\//.test(path)));
const project = readProject(design).project!;
const deviates = new Deviates(1);
const trialOf = (text: string): Trial => {
  const { trial, errors } = readTrial("bench/T-9.yaml", `format: 1\ntrial: T-9\n${text}`);
  if (!trial) throw new Error(errors[0]!.message);
  return trial;
};
const friction = trialOf(
  "unit: plover\ntape: so20-24\nquestion: plover/film.friction\ndate: 2026-03-04\nreadings:\n" +
    [
      ["A", 0.24],
      ["A", 0.26],
      ["B", 0.24],
      ["C", 0.23],
    ]
      .map(([r, v]) => `  - {reel: ${r}, value: "${v}"}\n`)
      .join(""),
);
const thickness = trialOf(
  "unit: dunlin\ntape: dpak-16\nquestion: tapes/dpak-16/T\ndate: 2026-03-04\nreadings:\n" +
    ["A", "B", "C", "D"].map((r, i) => `  - {reel: ${r}, value: 0.25${i} mm}\n`).join(""),
);
const counted = trialOf(
  "unit: dunlin\ntape: radio-44\nquestion: reel.jerks\ncounts:\n  - {unit: D1, reel: A, indexes: 2000, misfeeds: 1, mode: pick.radius}\n  - {unit: D1, reel: A, indexes: 1000, misfeeds: 0}\n  - {unit: D2, reel: B, indexes: 900, misfeeds: 2}\n  - {unit: D3, reel: C, indexes: 50, misfeeds: 9, set aside: the reel was damp}\n",
);
const withKey = (trial: Trial, of: Project = project): Ledger => ({
  ...emptyLedger,
  keys: new Map([[trial.name, keyOfTrial(of, trial)]]),
});
const changedIn = (file: string, was: string, is: string): { texts: Texts; project: Project } => {
  const text = design.get(file)!;
  expect(text).toContain(was);
  const texts = new Map(design).set(file, text.replace(was, is));
  return { texts, project: readProject(texts).project! };
};

describe("what a trial asks", () => {
  test("is an unknown by its address, also one that no file gives, or a check by its name", () => {
    expect(askedBy(project, friction)).toMatchObject({ kind: "unknown", given: { address: "plover/film.friction" } });
    expect(askedBy(project, thickness)).toMatchObject({ kind: "unknown", given: { address: "tapes/dpak-16/T" } });
    expect(askedBy(project, counted)).toMatchObject({ kind: "check", check: { id: "reel.jerks" } });
  });
  test("that nothing rests on is said to be gone", () => {
    expect(askedBy(project, { ...friction, question: "plover/film.taste" })).toMatchObject({ kind: "gone" });
  });
});
describe("readings", () => {
  test("of one reel are one reading", () => {
    expect(pieceReadings(friction, "1")).toMatchObject({
      values: [0.25, 0.24, 0.23],
      per: "reel",
      readings: 4,
      reels: 3,
    });
  });
  test("of another dimension are none of it", () => {
    expect(pieceReadings(thickness, "N")).toBeUndefined();
  });
  test("come out as their mean, with the mean's own uncertainty", () => {
    // sd of 0.25, 0.24, 0.23 is 0.01; over sqrt(3). [derived]
    expect(cameOutOf(project, friction)).toEqual({
      kind: "value",
      value: expect.closeTo(0.24, 12),
      uncertainty: expect.closeTo(0.01 / Math.sqrt(3), 12),
    });
  });
  test("counted are pieces that held or failed: a miss that is another check's fails none, one set aside counts for nothing", () => {
    expect(cameOutOf(project, counted)).toEqual({ kind: "pieces", failed: 1, run: 2 });
  });
});
describe("a result", () => {
  test("stands while nothing that it rests on has changed", () => {
    expect(benchResult(project, friction, withKey(friction), deviates)).toMatchObject({
      state: "used",
      keyed: true,
      changes: [],
    });
  });
  test("is retired by a word beside its number: a reading on another material is one of something else", () => {
    const { project: now } = changedIn(
      "units/plover.yaml",
      "  material: PETG\n  friction: 0.18",
      "  material: POM\n  friction: 0.18",
    );
    const result = benchResult(now, friction, withKey(friction), deviates);
    expect(result.state).toBe("retired");
    expect(result.says).toBe("retired, for the design is another one: plover/film.material was PETG, is POM");
    expect(result.evidence).toBeUndefined();
  });
  test("of a check is retired by a dimension that the check rests on, and by no other", () => {
    const key = withKey(counted);
    const at = (file: string, was: string, is: string) =>
      benchResult(changedIn(file, was, is).project, counted, key, deviates).changes.map((c) => c.address);
    expect(at("units/dunlin.yaml", "loop room: 60 mm", "loop room: 50 mm")).toEqual(["dunlin/reel.loop room"]);
    expect(at("units/dunlin.yaml", "preload: 5.5 ±0.4 N", "preload: 5.6 ±0.4 N")).toEqual([]);
  });
  test("is not retired by a guess that was narrowed", () => {
    const { project: now } = changedIn(
      "units/plover.yaml",
      "friction: 0.18..0.35 guess",
      "friction: 0.22..0.30 measured",
    );
    expect(benchResult(now, friction, withKey(friction), deviates).state).toBe("used");
  });
  test("kept apart is not weighed, whatever it says", () => {
    const ledger = { ...withKey(friction), apart: new Map([["T-9", "the scale was not zeroed"]]) };
    expect(benchResult(project, friction, ledger, deviates)).toMatchObject({
      state: "apart",
      says: "kept apart: the scale was not zeroed",
    });
  });
  test("without a note of what it rests on is used, and is known to be so", () => {
    expect(benchResult(project, friction, emptyLedger, deviates)).toMatchObject({ state: "used", keyed: false });
  });
});
describe("taking a reading into the design", () => {
  const taken = (trial: Trial, texts: Texts = design, of: Project = project) => {
    const result = benchResult(of, trial, emptyLedger, deviates);
    const taking = takingOf(texts, trial, result, pieceReadings(trial, result.direct!.given.unit)!);
    if (typeof taking === "string") throw new Error(taking);
    return { ...taking, text: applied(taking.edit, texts.get(taking.edit.file)!) };
  };
  const differing = (a: string, b: string): number => {
    const lines = b.split("\n");
    return a.split("\n").filter((l, i) => l !== lines[i]).length;
  };
  test("changes one line of the file that the guess stands in, and names the trial there", () => {
    const { text, is, edit } = taken(friction);
    expect(edit.file).toBe("units/plover.yaml");
    expect(differing(design.get(edit.file)!, text)).toBe(1);
    expect(text).toContain(`  friction: ${is}   # T-9, 2026-03-04, 3 reels, 4 readings: 0.24`);
    expect(is).toMatch(/^0\.\d+\.\.0\.\d+ per reel sd [\d.]+ % measured$/);
  });
  test("keeps a comment that stands on the line", () => {
    const { texts, project: now } = changedIn(
      "units/plover.yaml",
      "friction: 0.18..0.35 guess",
      "friction: 0.18..0.35 guess   # on PETG",
    );
    expect(taken(friction, texts, now).text).toMatch(/measured {3}# on PETG; T-9, 2026-03-04/);
  });
  test("adds a line to the tape's file where the catalogue alone knew the number", () => {
    const { text, is, edit } = taken(thickness);
    expect(edit.file).toBe("tapes/dpak-16.yaml");
    expect(text).toContain(`T: ${is}   # T-9`);
    expect(text.startsWith(design.get(edit.file)!)).toBe(true);
  });
  test("adds a line under assume: for what no file gives, and begins that where it is missing", () => {
    const density = trialOf(
      "unit: dunlin\ntape: radio-44\nquestion: assume/wound density\nreadings:\n  - {reel: A, value: 320 kg/m^3}\n  - {reel: B, value: 300 kg/m^3}\n  - {reel: C, value: 310 kg/m^3}\n",
    );
    const { text, edit, is } = taken(density);
    expect(edit.file).toBe("project.yaml");
    expect(text).toContain(`\nassume:\n  wound density: ${is}   # T-9, 3 reels`);
  });
  test("is done once: then the reading is in the number, and is not weighed again", () => {
    const { text, edit } = taken(friction);
    const texts = new Map(design).set(edit.file, text);
    const now = readProject(texts).project!;
    const result = benchResult(now, friction, withKey(friction), deviates);
    expect(result.state).toBe("in the design");
    expect(takingOf(texts, friction, result, pieceReadings(friction, "1")!)).toContain("in the design");
  });
  test("of a trial that tries a check writes nothing, and says so", () => {
    const result = benchResult(project, counted, emptyLedger, deviates);
    expect(takingOf(design, counted, result, pieceReadings(thickness, "m")!)).toContain("no number of a file");
  });
});
test("cycles are pooled by built unit, reels by tape; retired trials do not count", () => {
  const counts = benchCounts([counted], "dunlin", new Set())!;
  expect(counts.units).toEqual([
    { name: "D1", failed: 1, run: 3000 },
    { name: "D2", failed: 2, run: 900 },
  ]);
  expect(counts.reels).toBe(2);
  expect(benchCounts([counted], "dunlin", new Set(["T-9"]))).toBeUndefined();
  expect(benchCounts([counted], "plover", new Set())).toBeUndefined();
});
