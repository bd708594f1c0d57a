import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import {
  checks,
  Deviates,
  judge,
  knownChances,
  type Scene,
  type TapeResult,
  weigh,
  withNearest,
} from "@tapeworthy/core";
import { applied, countOf, keyedEdit, keyOfTrial, readProject, takenEdit, weighedBelief } from "@tapeworthy/project";
import { describe, expect, test } from "vitest";
import { DeskTime, TestDesk } from "./desk.fixture.ts";
import { Desk } from "./desk.ts";
import { sidesFor } from "./desk-port.ts";
import { few, two } from "./project.fixture.ts";
import type { FromDesk, FromSide, ToSide } from "./protocol.ts";

const file = "units/plover.yaml";
const shoulder = "plover/film.guides.shoulder.through.2";
const withText = (texts: ReadonlyMap<string, string>, file: string, text: string) => new Map([...texts, [file, text]]);
const replacedIn = (file: string, old: string, fresh: string, texts = few): ReadonlyMap<string, string> => {
  const text = texts.get(file)!;
  expect(text).toContain(old);
  return withText(texts, file, text.replace(old, fresh));
};

/** With a trial of a check that was noted, run and taken into belief: all its pieces held. */
function withTaken(texts: ReadonlyMap<string, string>): ReadonlyMap<string, string> {
  const counts = [1, 2, 3, 4].map((unit) => `{unit: ${unit}, reel: A, indexes: 100, misfeeds: 0}`);
  const trial = `format: 1\ntrial: T-01\nunit: plover\ntape: so8-12\nquestion: nip.slips\ncounts: [${counts.join(", ")}]\n`;
  const noted = withText(texts, "bench/T-01.yaml", trial);
  const project = readProject(noted).project!;
  const keyed = applied(keyedEdit(undefined, "T-01", keyOfTrial(project, project.trials.get("T-01")!), undefined), "");
  return withText(noted, "ledger.yaml", applied(takenEdit(keyed, "T-01", undefined), keyed));
}

/** Everything judged afresh, with nothing kept: what the desk must come to, whatever happened before. */
function afresh(texts: ReadonlyMap<string, string>, which: (pair: number) => boolean = () => true, seed = 1) {
  const project = readProject(texts).project!;
  const deviates = new Deviates(seed);
  const sceneOf = (unit: string, name: string): Scene => {
    const { tape } = project.tapes.get(name)!;
    return { unit: project.units.get(unit)!.variants.get(tape.row)!, tape, requirement: project.requirement };
  };
  const chances = project.known.map(({ unit, tape }) => knownChances(sceneOf(unit, tape), checks, deviates));
  const byKnown = weigh(project.known.map((r, i) => ({ ...countOf(r), chances: chances[i]! })));
  const { weights, ...weighed } = weighedBelief(project, byKnown, deviates);
  const contradicted = new Set(weighed.contradicted);
  const wanted = [...project.wanted].flatMap(([unit, tapes]) => tapes.map((tape) => ({ unit, tape })));
  const results = wanted
    .filter((_, i) => which(i))
    .map(({ unit, tape }) => {
      const scene = sceneOf(unit, tape);
      const result = judge({ unit, tape, scene, checks, deviates, weights, contradicted });
      return [`${unit} ${tape}`, withNearest(result, project.known, chances)] as const;
    });
  return new Map(results);
}
const resultsOf = (desk: TestDesk) => new Map([...desk.drawn()].map(([key, m]) => [key, m.result]));
const drawnBy = (texts: ReadonlyMap<string, string>): TestDesk => {
  const desk = new TestDesk();
  desk.open(texts);
  desk.rest();
  return desk;
};

describe("at rest the numbers are the command line's", () => {
  const checkedBy = (texts: ReadonlyMap<string, string>, seed: number) => {
    const folder = mkdtempSync(join(tmpdir(), "tapeworthy-desk-"));
    try {
      for (const [path, text] of texts) {
        mkdirSync(dirname(join(folder, path)), { recursive: true });
        writeFileSync(join(folder, path), text);
      }
      const program = fileURLToPath(new URL("../../../cli/bin/tapeworthy.mjs", import.meta.url));
      const said = (() => {
        try {
          return execFileSync(
            process.execPath,
            [program, "check", folder, "--json", "--no-cures", "--seed", `${seed}`],
            {
              stdio: ["ignore", "pipe", "ignore"],
              maxBuffer: 1e8,
            },
          );
        } catch (e) {
          // The exit code is the worst verdict.
          return (e as { stdout: Buffer }).stdout;
        }
      })();
      return JSON.parse(said.toString()) as {
        units: { tapes: object[] }[];
        known: object;
      };
    } finally {
      rmSync(folder, { recursive: true });
    }
  };
  // The command is asked once for all.
  let said: ReturnType<typeof checkedBy> | undefined;
  test.each([1, 3])(
    "to the bit, with the same seed, after a drag was let go, with %i threads",
    (threads) => {
      const desk = new TestDesk(threads - 1);
      const begun = withTaken(few);
      desk.open(begun, 3);
      desk.rest();
      desk.say({ kind: "look", look: { unit: "plover", tape: "so20-24" } });
      desk.say({ kind: "aim", members: [shoulder], reach: 2e-3 });
      desk.rest();
      const moved = (mm: number) => replacedIn(file, "1.25*W + 2.2 mm", `1.25*W + ${2.2 + mm} mm`, begun);
      for (const mm of [1, 2, 3.1]) {
        const edits = [{ file, text: moved(mm).get(file)! }];
        desk.say({ kind: "edits", seq: ++desk.seq, edits, drag: { members: [shoulder], by: mm * 1e-3, reach: 2e-3 } });
        desk.time.slice();
      }
      desk.say({ kind: "release" });
      desk.rest();
      // The pair on screen is the desk's own; of the two others each of those beside has had its share.
      const shares = desk.beside.map((list) => list.some((m) => m.kind === "done" && m.judged));
      expect(shares.filter((has) => has).length).toBe(threads - 1);
      said ??= checkedBy(moved(3.1), 3);
      const { units, known } = said;
      const theirs = units.flatMap((u) => u.tapes);
      expect(theirs.length).toBe(3);
      expect([...resultsOf(desk).values()].map((r) => JSON.parse(JSON.stringify(r)))).toEqual(
        expect.arrayContaining(theirs),
      );
      const { sharp, ...mine } = desk.of("known").at(-1)!.known;
      expect([sharp, JSON.parse(JSON.stringify(mine))]).toEqual([true, known]);
      expect(mine.taken).toMatchObject([{ trial: "T-01", state: "taken" }]);
    },
    720_000,
  );
});

describe("what is kept from before never shows in the numbers", () => {
  const preload = replacedIn(file, "preload: 4.7 ±0.5 N", "preload: 6 ±0.5 N");
  const edits: readonly (readonly [what: string, texts: ReadonlyMap<string, string>])[] = [
    [
      "numbers of the unit, one of them for one width",
      replacedIn(file, "preload: 5.2 ±0.5 N", "preload: 9 ±0.5 N", preload),
    ],
    [
      "a tape and the record",
      replacedIn(
        "tapes/so20-24.yaml",
        "W:",
        "note: other\nW:",
        replacedIn("known.yaml", "reels refused: 1", "reels refused: 40"),
      ),
    ],
    ["a trial that is taken", withTaken(preload)],
    ["a dimension that retires it", new Map([...withTaken(few), [file, preload.get(file)!]])],
    ["what is allowed", replacedIn("project.yaml", "allow pairs: 2 %", "allow pairs: 5 %")],
    ["nothing, after all that", few],
  ];
  test("whatever was edited, one after the other", () => {
    const desk = drawnBy(few);
    let before = few;
    let same = 0;
    // One pair after each edit, another each time; all of them at the end.
    for (const [i, [, texts]] of edits.entries()) {
      for (const [path, text] of texts) if (before.get(path) !== text) desk.write(path, text);
      for (const path of before.keys()) if (!texts.has(path)) desk.write(path, undefined);
      before = texts;
      desk.rest();
      expect(desk.of("rest").at(-1)!.seq).toBe(desk.seq);
      const theirs = afresh(texts, (pair) => texts === few || pair === i % 3);
      const mine = resultsOf(desk);
      for (const [key, result] of theirs) expect(mine.get(key)).toEqual(result);
      same += theirs.size;
    }
    expect(same).toBe(edits.length - 1 + 3);
  }, 540_000);
});

describe("work in slices", () => {
  test("ends each after 4 ms, and draws the pair on screen first", () => {
    const desk = new TestDesk();
    desk.open(few);
    desk.say({ kind: "look", look: { unit: "dunlin", tape: "so8-12" } });
    desk.rest();
    // Half a millisecond a look at the clock: eight looks a slice and the two around it.
    expect(desk.time.mostLooks).toBeLessThanOrEqual(20);
    const order = desk.of("drawn").map((m) => `${m.result.unit} ${m.result.tape} ${m.final}`);
    expect(order).toEqual(["dunlin so8-12 false", "dunlin so8-12 true", "plover so8-12 true", "plover so20-24 true"]);
    expect(desk.of("progress").at(-1)).toMatchObject({ done: 3, of: 3 });
  }, 180_000);
  test("leaves a text that is not the last any more", () => {
    const desk = new TestDesk();
    desk.open(few);
    for (let i = 0; i < 60; i++) desk.time.slice();
    const texts = replacedIn(file, "preload: 4.7 ±0.5 N", "preload: 6 ±0.5 N");
    desk.write(file, texts.get(file)!);
    desk.rest();
    expect(desk.of("rest").map((m) => m.seq)).toEqual([2]);
    expect(
      desk
        .of("drawn")
        .filter((m) => m.final)
        .map((m) => m.seq),
    ).toEqual([2, 2, 2]);
  }, 180_000);
  test("goes on with the last good reading where a text is wrong, and says what is wrong", () => {
    const desk = drawnBy(two);
    desk.write(file, two.get(file)!.replace("preload: 4.7 ±0.5 N", "preload: 4.7 ±0.5 mm"));
    desk.rest();
    const read = desk.of("read").at(-1)!;
    expect(read.project).toBeUndefined();
    expect(read.errors).toMatchObject([{ place: { file }, found: "a length", expected: "a force" }]);
    expect(desk.of("rest").length).toBe(1);
    desk.say({ kind: "ask", id: 7, question: { kind: "explain", unit: "plover", tape: "so8-12", check: "nip.pulls" } });
    expect(desk.of("answer").at(-1)!.answer).toMatchObject({ kind: "explain" });
  }, 180_000);
  test("answers what would be wrong with a text without taking it", () => {
    const desk = new TestDesk();
    desk.open(two);
    const ask = (text: string) => {
      desk.say({ kind: "ask", id: 1, question: { kind: "errors", texts: [[file, text]] } });
      const { answer } = desk.of("answer").at(-1)!;
      return answer?.kind === "errors" ? answer.errors : undefined;
    };
    const wrong = two.get(file)!.replace("preload: 4.7 ±0.5 N", "preload: 4.7 ±0.5");
    expect(ask(wrong)).toMatchObject([{ place: { file }, expected: "a force" }]);
    expect(ask(two.get(file)!)).toEqual([]);
    expect(desk.of("read").length).toBe(0);
  });
});

/** A desk beside that says what the test wants said. */
function besideThat(post: (message: ToSide) => void) {
  let heard: (message: FromSide) => void = () => {};
  const hear = (f: typeof heard): void => {
    heard = f;
  };
  return { side: { post, hear }, hear: (message: FromSide) => heard(message) };
}
describe("desks beside", () => {
  const jobs = (desk: TestDesk, side: number) => desk.beside[side]!.flatMap((m) => (m.kind === "done" ? [m] : []));
  test("take pairs off the desk, each pair once, and give quick numbers of what they have", () => {
    const desk = new TestDesk(1);
    desk.open(two);
    desk.rest();
    expect(jobs(desk, 0).length).toBe(1);
    expect([...desk.drawn().keys()].sort()).toEqual(["plover so20-24", "plover so8-12"]);
    expect(desk.of("progress").map((m) => m.done)).toEqual([1, 2]);
    expect(desk.of("rest").length).toBe(1);
    desk.say({ kind: "look", look: { unit: "plover", tape: "so8-12", check: "film.steer" } });
    desk.say({ kind: "aim", members: [shoulder], reach: 2e-3 });
    desk.rest();
    const text = two.get(file)!.replace("1.25*W + 2.2 mm", "1.25*W + 2.7 mm");
    const drag = { members: [shoulder], by: 0.5e-3, reach: 2e-3 };
    desk.say({ kind: "edits", seq: ++desk.seq, edits: [{ file, text }], drag });
    desk.rest();
    expect(
      desk
        .of("quick")
        .flatMap((m) => m.pairs.map((p) => p.tape))
        .sort(),
    ).toEqual(["so20-24", "so8-12"]);
    // The hand has not rested: nothing is drawn in full.
    expect(desk.of("rest").length).toBe(1);
  }, 360_000);
  test("leave what is of an older text, and do not study again what an edit left alone", () => {
    const desk = new TestDesk(1);
    desk.open(two);
    for (let i = 0; i < 40; i++) desk.time.slice();
    desk.write("tapes/so20-24.yaml", two.get("tapes/so20-24.yaml")!.replace("W:", "note: other\nW:"));
    desk.rest();
    expect(desk.of("rest").map((m) => m.seq)).toEqual([2]);
    expect(
      desk
        .of("drawn")
        .filter((m) => m.final)
        .map((m) => m.seq),
    ).toEqual([2, 2]);
    // Something that no pair rests on: every pair is said again, and nothing was to be done for it.
    const before = jobs(desk, 0).length;
    desk.write("notes.yaml", "format: 1\n");
    desk.rest();
    expect(jobs(desk, 0).length).toBe(before);
    expect(desk.of("rest").map((m) => m.seq)).toEqual([2, 3]);
  }, 360_000);
  test("that die leave their pairs to the others", () => {
    const desk = new TestDesk(1);
    desk.open(two);
    for (let i = 0; i < 40; i++) desk.time.slice();
    desk.dead.add(0);
    desk.rest();
    expect(desk.of("rest")).toEqual([]);
    desk.say({ kind: "lost", side: 0 });
    desk.rest();
    expect(jobs(desk, 0)).toEqual([]);
    expect(desk.of("rest").length).toBe(1);
    expect(desk.drawn().size).toBe(2);
  }, 360_000);
  test("say a fault of theirs through the desk, which then waits for no more of them", () => {
    const heard: FromDesk[] = [];
    const asked: ToSide[] = [];
    const time = new DeskTime();
    const { side, hear } = besideThat((m) => asked.push(m));
    const desk = new Desk((m) => heard.push(m), time, [side]);
    desk.receive({ kind: "open", seq: 1, texts: [...few], seed: 1 });
    for (let i = 0; i < 3; i++) time.slice();
    // The pair on screen is the desk's own, though it is one that is known.
    const jobs = () => asked.flatMap((m) => (m.kind === "do" ? [`${m.unit} ${m.tape}`] : []));
    expect(jobs()).toEqual(["plover so20-24"]);
    hear({ kind: "fault", words: "a model broke" });
    while (time.slice());
    expect(heard.filter((m) => m.kind === "fault")).toEqual([{ kind: "fault", words: "a model broke" }]);
    expect(heard.some((m) => m.kind === "rest")).toBe(false);
    // With the next thing to draw it is asked again.
    desk.receive({ kind: "release" });
    for (let i = 0; i < 3; i++) time.slice();
    expect(jobs().length).toBe(2);
  });
  test("leave another pair for the one that is looked at, where they have had it before", () => {
    const asked: Extract<ToSide, { kind: "do" }>[] = [];
    const time = new DeskTime();
    const { side, hear } = besideThat((m) => void (m.kind === "do" && asked.push(m)));
    const desk = new Desk(() => {}, time, [side]);
    const look = (unit: string, tape: string): void => {
      desk.receive({ kind: "look", look: { unit, tape } });
      for (let i = 0; i < 3; i++) time.slice();
    };
    const answer = (): void => {
      const { id, unit, tape, by } = asked.at(-1)!;
      const result = { unit, tape, findings: [] } as unknown as TapeResult;
      const chances = { checks: [], share: 1, values: {} };
      hear({ kind: "done", id, ...(by ? { judged: { result, held: new Map() } } : { chances }) });
    };
    desk.receive({ kind: "open", seq: 1, texts: [...few], seed: 1 });
    // The pair on screen is the desk's own: the one beside studies what is known meanwhile, judges that, and takes the pair left.
    look("dunlin", "so8-12");
    answer();
    answer();
    expect(asked.map((m) => [m.tape, m.by !== undefined])).toEqual([
      ["so8-12", false],
      ["so8-12", true],
      ["so20-24", true],
    ]);
    desk.receive({ kind: "edits", seq: 2, edits: [{ file, text: few.get(file)!.replace("4.7 ±0.5 N", "6 ±0.5 N") }] });
    for (let i = 0; i < 3; i++) time.slice();
    expect(asked.at(-1)).toMatchObject({ seq: 2, tape: "so8-12" });
    look("plover", "so20-24");
    expect(asked.at(-1)).toMatchObject({ seq: 2, tape: "so20-24" });
    // What it would have said of the other is not taken for this one.
    expect(asked.length).toBe(5);
    hear({ kind: "done", id: asked[3]!.id });
    expect(asked.length).toBe(5);
  });
});
test("all processors but one draw, at least one, at most six", () => {
  expect([1, 2, 3, 7, 8, 64].map(sidesFor)).toEqual([1, 1, 2, 6, 6, 6]);
});

describe("a hand on a number", () => {
  const at = (mm: number) => ({ file, text: two.get(file)!.replace("1.25*W + 2.2 mm", `1.25*W + ${2.2 + mm} mm`) });
  const held = (): TestDesk => {
    const desk = drawnBy(two);
    desk.say({ kind: "look", look: { unit: "plover", tape: "so20-24", check: "film.steer" } });
    desk.say({ kind: "aim", members: [shoulder], reach: 2e-3 });
    desk.rest();
    desk.said.length = 0;
    return desk;
  };
  const move = (desk: TestDesk, mm: number): void =>
    desk.say({
      kind: "edits",
      seq: ++desk.seq,
      edits: [at(mm)],
      drag: { members: [shoulder], by: mm * 1e-3, reach: 2e-3 },
    });
  test("gives quick numbers of what rests on it, and the drawing, at every step; nothing is drawn in full", () => {
    const desk = held();
    for (const mm of [0.5, 1, 1.5]) {
      move(desk, mm);
      desk.time.slice();
    }
    const quick = desk.of("quick");
    expect(quick.map((m) => [m.seq, +(m.by * 1e3).toFixed(9)])).toEqual([
      [2, 0.5],
      [3, 1],
      [4, 1.5],
    ]);
    expect(quick[0]!.pairs.map((p) => `${p.unit} ${p.tape}`)).toEqual(["plover so8-12", "plover so20-24"]);
    const touched = quick[0]!.pairs[1]!.findings.map((f) => f.check);
    expect(touched).toContain("film.steer");
    expect(touched).not.toContain("nip.slips");
    // Only the finding on screen says its sentence anew.
    expect(
      quick[0]!.pairs.flatMap((p) => p.findings.filter((f) => f.because).map((f) => `${p.tape} ${f.check}`)),
    ).toEqual(["so20-24 film.steer"]);
    const guides = desk.of("shape").map((m) => m.shape!.led!.guides.find((g) => g.name === "shoulder")!.through[1]);
    expect(guides.map((y) => +(y * 1e3).toFixed(9))).toEqual([32.7, 33.2, 33.7]);
    expect([desk.of("drawn"), desk.of("read")]).toEqual([[], []]);
  }, 180_000);
  test("that lags behind is told the last place only", () => {
    const desk = held();
    for (const mm of [0.5, 1, 1.5]) move(desk, mm);
    desk.time.slice();
    desk.time.slice();
    expect(desk.of("quick").map((m) => m.seq)).toEqual([4]);
  }, 180_000);
  test("that rests has its numbers drawn, from the text as it stands, and goes on from there without a jump", () => {
    const desk = held();
    move(desk, 1);
    desk.rest();
    expect(desk.of("rest")).toEqual([]);
    desk.time.pass(200);
    desk.rest();
    expect(desk.of("rest").map((m) => m.seq)).toEqual([desk.seq]);
    const drawn = desk.drawn().get("plover so20-24")!.result;
    expect(drawn).toEqual(afresh(new Map([...two, [file, at(1).text]])).get("plover so20-24"));
    // A step of nothing: the same numbers, now from what was drawn here.
    move(desk, 1);
    desk.time.slice();
    const quick = desk
      .of("quick")
      .at(-1)!
      .pairs.find((p) => p.tape === "so20-24")!;
    for (const f of quick.findings) {
      const full = drawn.findings.find((one) => one.check === f.check)!;
      expect([f.check, f.share, f.margin, f.value]).toEqual([f.check, full.share, full.margin, full.value]);
    }
  }, 180_000);
  test("that takes hold again before its numbers were drawn goes on from where it let go", () => {
    const desk = held();
    move(desk, 1);
    desk.time.slice();
    const first = desk
      .of("quick")
      .at(-1)!
      .pairs.find((p) => p.tape === "so8-12")!;
    desk.say({ kind: "release" });
    desk.time.slice();
    desk.say({ kind: "aim", members: [shoulder], reach: 2e-3 });
    desk.time.slice();
    desk.say({
      kind: "edits",
      seq: ++desk.seq,
      edits: [at(1)],
      drag: { members: [shoulder], by: 0, reach: 2e-3 },
    });
    desk.time.slice();
    const again = desk
      .of("quick")
      .at(-1)!
      .pairs.find((p) => p.tape === "so8-12")!;
    expect(again).toEqual(first);
  }, 180_000);
});
