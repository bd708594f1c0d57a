import { spawnSync } from "node:child_process";
import { cpSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { openQuestions, type TapeResult, unitOf } from "@tapeworthy/core";
import { beforeAll, describe, expect, test } from "vitest";
import { exampleFolder, inNewFolder, tapeworthy } from "./cli.fixture.ts";

const root = fileURLToPath(new URL("../../..", import.meta.url));
const page = readFileSync(join(root, "docs/json.md"), "utf8");

/** One field as the page documents it. */
interface Field {
  readonly name: string;
  readonly type: string;
  readonly always: boolean;
  readonly meaning: string;
}
/** The tables below one heading of the page: fields by the path of the object that holds them. A table may stand for several paths. */
function documented(heading: string): Map<string, Field[]> {
  const section = page.split(/^## /m).find((part) => part.startsWith(heading));
  if (!section) throw new Error(`docs/json.md has no section "${heading}"`);
  const parts = section.split(/^### /m).slice(1);
  return new Map(
    parts.flatMap((part) => {
      const [title = ""] = part.split("\n");
      // What stands after that is said of other objects, in words.
      const [told = ""] = title.split(/, (?:and every|likewise) /);
      const all = [...told.matchAll(/`([^`]+)`/g)].map(([, path = ""]) => path);
      const paths = title === "the answer" ? [""] : all;
      const fields = [...part.matchAll(/^\| `([^`]+)` \| (.+?) \| (yes|may) \| (.+) \|$/gm)].map(
        ([, name = "", type = "", there, meaning = ""]): Field => ({ name, type, always: there === "yes", meaning }),
      );
      return paths.map((path) => [path, fields] as const);
    }),
  );
}

type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };
type Group = { readonly [key: string]: Json };
const isGroup = (v: Json): v is Group => typeof v === "object" && v !== null && !Array.isArray(v);

/** The objects at a path such as "units[].tapes[]"; "*" stands for every member. A rests[] counts with what it explains. */
function objectsAt(answer: Json, path: string): Group[] {
  const steps = path.split(".").filter((step) => step !== "");
  const found = steps.reduce<readonly Json[]>(
    (now, step) =>
      now.flatMap((v): readonly Json[] => {
        if (step === "[]") return v as readonly Json[];
        if (!isGroup(v)) return [];
        if (step === "*") return Object.values(v).flatMap(withRests);
        const inner = v[step.replace("[]", "")];
        return inner === undefined ? [] : step.endsWith("[]") ? (inner as readonly Json[]) : [inner];
      }),
    [answer],
  );
  return found.filter(isGroup);
}
const withRests = (v: Json): readonly Json[] =>
  isGroup(v) ? [v, ...(Array.isArray(v.rests) ? v.rests.flatMap(withRests) : [])] : [v];

/** Whether a value is what the page's type column says. */
function fits(value: Json, type: string): boolean {
  if (type.endsWith(" or null")) return value === null || fits(value, type.slice(0, -" or null".length));
  if (type.startsWith("list of "))
    return Array.isArray(value) && value.every((v) => fits(v, type.slice("list of ".length)));
  if (type === "object") return isGroup(value);
  if (["string", "number", "boolean"].includes(type)) return typeof value === type;
  const words = [...type.matchAll(/`([^`]+)`/g)].map(([, word]) => word);
  if (words.length === 0) throw new Error(`docs/json.md: "${type}" is no type`);
  return words.includes(value as string);
}

/** What an answer has and the page does not say, or the other way round. `seen` collects the fields met. */
function differences(
  answer: Json,
  fields: ReadonlyMap<string, readonly Field[]>,
  seen: Set<string>,
  open = false,
): string[] {
  return [...fields].flatMap(([path, list]) =>
    objectsAt(answer, path).flatMap((object) => {
      const at = (name: string) => `${path === "" ? "" : `${path}.`}${name}`;
      const undocumented = open ? [] : Object.keys(object).filter((key) => !list.some((f) => f.name === key));
      return [
        ...undocumented.map((key) => `${at(key)} is not documented`),
        ...list.flatMap(({ name, type, always }) => {
          if (!Object.hasOwn(object, name)) return always ? [`${at(name)} is missing`] : [];
          seen.add(at(name));
          return fits(object[name]!, type)
            ? []
            : [`${at(name)} is ${JSON.stringify(object[name])}, documented as ${type}`];
        }),
      ];
    }),
  );
}
const allFields = (fields: ReadonlyMap<string, readonly Field[]>): string[] =>
  [...fields].flatMap(([path, list]) => list.map(({ name }) => `${path === "" ? "" : `${path}.`}${name}`));

/** A small project in a folder: the example's first unit on some of its tapes. */
function project(folder: string, tapes: readonly string[], known = ""): void {
  for (const inner of ["units", "tapes"]) mkdirSync(join(folder, inner));
  const copy = (path: string) => writeFileSync(join(folder, path), readFileSync(join(exampleFolder, path)));
  copy("units/plover.yaml");
  for (const tape of tapes) copy(`tapes/${tape}.yaml`);
  writeFileSync(join(folder, "project.yaml"), `format: 1\nproject: small\nwanted: {plover: [${tapes.join(", ")}]}\n`);
  if (known !== "") writeFileSync(join(folder, "known.yaml"), `format: 1\nknown: ${known}\n`);
}
/** Trials in that folder: a reading that waits, and a trial of a check that was foretold, agreed and is taken. */
function bench(folder: string): void {
  const trial = (name: string, lines: readonly string[]) =>
    writeFileSync(
      join(folder, `bench/${name}.yaml`),
      `format: 1\ntrial: ${name}\nunit: plover\ntape: coil-12\n${lines.join("\n")}\n`,
    );
  mkdirSync(join(folder, "bench"));
  trial("T-01", ["question: tapes/coil-12/T", "readings: [{reel: A, value: 0.26 mm}]"]);
  trial("T-02", [
    "question: nip.slips",
    "date: 2026-03-04",
    "counts: [{unit: 1, reel: A, indexes: 500, misfeeds: 0}, {unit: 2, reel: B, indexes: 500, misfeeds: 0}]",
  ]);
  const rests = "catalogue/film break: a guess, plover/nip.friction.1: a guess, plover/nip.friction.2: a guess";
  const head =
    "{frozen: L-01, trial: T-02, question: nip.slips, unit: plover, tape: coil-12, fails: [0.02, 0.001, 0.3]";
  const tail = `share: 0.7, date: 2026-03-01, seed: 1, version: 0.1.0, sha: ${"0".repeat(64)}`;
  const score = "{scored: L-01, trial: T-02, pieces: 2, failed: 0}";
  writeFileSync(
    join(folder, "ledger.yaml"),
    `format: 1\nledger: [${head}, ${tail}, rests on: {${rests}, plover/nip.preload: 4.7 ±0.5 N}}, ${score}, {taken: T-02}]\n`,
  );
}
const parsed = (text: string): Json => JSON.parse(text) as Json;
const called = (...args: readonly string[]): Json => {
  const { out, err } = tapeworthy([...args, "--json"]);
  if (out === "") throw new Error(err);
  return parsed(out);
};
/** Fields of objects that have no table of their own and are not named where the object is described, nor elsewhere on the page. */
function untold(answer: Json, fields: ReadonlyMap<string, readonly Field[]>): string[] {
  return [...fields].flatMap(([path, list]) =>
    list.flatMap(({ name, type, meaning }) => {
      const at = `${path === "" ? "" : `${path}.`}${name}${type.startsWith("list of ") ? "[]" : ""}`;
      if (!type.includes("object") || [at, `${at}.*`, `${path}.*`].some((told) => fields.has(told))) return [];
      if (/as in `|fields of `|for every address/.test(meaning)) return [];
      const told = [...meaning.matchAll(/`([^`]+)`/g)].map(([, word]) => word);
      const keys = objectsAt(answer, at).flatMap((object) => Object.keys(object));
      return [...new Set(keys)].filter((key) => !told.includes(key)).map((key) => `${at}.${key} is told nowhere`);
    }),
  );
}
/** Every field of the answers is documented, and every field documented is in one of them. */
function bothWays(heading: string, answers: readonly Json[]): void {
  const fields = documented(heading);
  const seen = new Set<string>();
  expect(answers.flatMap((answer) => differences(answer, fields, seen))).toEqual([]);
  expect(allFields(fields).filter((name) => !seen.has(name))).toEqual([]);
  expect(answers.flatMap((answer) => untold(answer, fields))).toEqual([]);
}
function edited(folder: string, path: string, edit: (text: string) => string): void {
  const file = join(folder, path);
  const before = readFileSync(file, "utf8");
  const after = edit(before);
  if (after === before) throw new Error(`${path} is as it was`);
  writeFileSync(file, after);
}
/** The example with its trials and its ledger, a pair or two of its units wanted, and without known units: a call takes seconds. */
function fewPairs(folder: string, wanted: string): void {
  cpSync(exampleFolder, folder, {
    recursive: true,
    filter: (path) => !/[\\/](known\.yaml|\.tapeworthy)$/.test(path),
  });
  edited(folder, "project.yaml", (text) =>
    text.replace(/^wanted:\n( {2}.*\n)+/m, `wanted: ${wanted}\n`).replace(/^ladder:.*\n/m, ""),
  );
}

describe("check --json", () => {
  const fields = documented("`check --json`");
  const seen = new Set<string>();
  const answers: Json[] = [];
  beforeAll(() => {
    inNewFolder((folder) => {
      project(folder, ["so20-24", "coil-12"], "[{unit: plover, tape: coil-12, result: runs}]");
      bench(folder);
      answers.push(parsed(tapeworthy(["check", folder, "--json"]).out));
      // A wider groove and longer spans: what stopped for certain now hangs on what is unknown.
      const span = "plover/film.guides.shoulder.through.1=peel - 81 mm";
      answers.push(
        parsed(
          tapeworthy([
            "check",
            folder,
            "--json",
            "--vary",
            span,
            "--vary",
            "plover/film.guides.nip.through.1=peel - 155 mm",
          ]).out,
        ),
      );
      // A film that bears nothing: no one lever cures that.
      const limit = "assume/mismatch limit=0.02 % measured";
      // Another preload: what was tried on the one before is retired.
      const preload = "plover/nip.preload=4.8 ±0.5 N";
      answers.push(
        parsed(tapeworthy(["check", folder, "--json", "--no-known", "--vary", limit, "--vary", preload]).out),
      );
    });
  }, 120_000);

  test("has the fields that are documented, each of its type, and no others", () => {
    expect(answers.flatMap((answer) => differences(answer, fields, seen))).toEqual([]);
  });
  test("shows every documented field at least once on two tapes", () => {
    expect(allFields(fields).filter((name) => !seen.has(name))).toEqual([]);
  });
  test("counts in coherent SI units", () => {
    const units = ["", ".decisive", ".beside[]"].flatMap((inner) =>
      answers.flatMap((answer) => objectsAt(answer, `units[].tapes[].findings[]${inner}`).map((o) => o.unit as string)),
    );
    const odd = [...new Set(units)].filter((unit) => unit !== "" && unitOf(unit).factor !== 1);
    expect(odd).toEqual([]);
  });
  test("gives a length in metres", () => {
    const play = answers
      .flatMap((a) => objectsAt(a, "units[].tapes[].findings[]"))
      .filter((f) => f.check === "entry.play");
    // W + 0.45 mm less W and a bow of some hundredths. [derived]
    for (const f of play) expect(f.value).toBeGreaterThan(0.3e-3);
    for (const f of play) expect(f.value).toBeLessThan(0.45e-3);
  });
});

describe("why --json", () => {
  const fields = documented("`why --json`");
  const seen = new Set<string>();
  test("has the fields that are documented, each of its type, and no others", () => {
    inNewFolder((folder) => {
      project(folder, ["so20-24", "coil-12"]);
      bench(folder);
      for (const check of ["film.mismatch", "groove.lips", "groove.depth", "entry.bend", "nip.slips"])
        expect(
          differences(parsed(tapeworthy(["why", check, "--tape", "so20-24", folder, "--json"]).out), fields, seen),
        ).toEqual([]);
    });
    expect(allFields(fields).filter((name) => !seen.has(name))).toEqual([]);
  }, 120_000);
});

/** The two units of the example on a tape of 16 and one of 24 mm. */
function twoUnits(folder: string): void {
  project(folder, ["so16-16", "so20-24"]);
  for (const path of ["units/dunlin.yaml", "tapes/dpak-16.yaml"])
    writeFileSync(join(folder, path), readFileSync(join(exampleFolder, path)));
}
/** The first unit again, made for one width alone: it has no ladder. */
function narrowUnit(folder: string): void {
  const text = readFileSync(join(folder, "units/plover.yaml"), "utf8");
  const single = text.replace(/W: \[8, 12, 16, 24, 32\]/, "W: [24]").replaceAll(/^ {2}(8|12|16|32): .*\n/gm, "");
  writeFileSync(join(folder, "units/single.yaml"), single);
}
test("clearances --json has the fields that are documented, each of its type, all of them and no others", () => {
  const fields = documented("`clearances --json`");
  const seen = new Set<string>();
  const plain = parsed(tapeworthy(["clearances", exampleFolder, "--json"]).out);
  const bent = parsed(
    tapeworthy([
      "clearances",
      exampleFolder,
      "--unit",
      "dunlin",
      "--vary",
      "dunlin/film.guides.nip.along.2=0",
      "--json",
    ]).out,
  );
  for (const answer of [plain, bent]) expect(differences(answer, fields, seen)).toEqual([]);
  expect(allFields(fields).filter((name) => !seen.has(name))).toEqual([]);
});

describe("ladder --json and compare --json", () => {
  const [ofLadder, ofCompare] = [documented("`ladder --json`"), documented("`compare --json`")];
  let ladder: Json;
  let compare: Json;
  beforeAll(() => {
    inNewFolder((folder) => {
      twoUnits(folder);
      narrowUnit(folder);
      ladder = parsed(tapeworthy(["ladder", folder, "--json"]).out);
      compare = parsed(tapeworthy(["compare", "plover", "dunlin", folder, "--json"]).out);
    });
  }, 240_000);

  test("of a ladder: the fields that are documented, each of its type, all of them and no others", () => {
    const seen = new Set<string>();
    expect(differences(ladder, ofLadder, seen)).toEqual([]);
    expect(allFields(ofLadder).filter((name) => !seen.has(name))).toEqual([]);
  });
  test("of a comparison: likewise, and each unit's ladder in it is as in ladder", () => {
    const seen = new Set<string>();
    expect(differences(compare, ofCompare, seen)).toEqual([]);
    expect(allFields(ofCompare).filter((name) => !seen.has(name))).toEqual([]);
    const inner = new Map(
      [...ofLadder].flatMap(([path, fields]) =>
        path === "" || path === "known" || path === "without[]" ? [] : [[path, fields] as const],
      ),
    );
    const ladders = { ladders: objectsAt(compare, "units[].ladder") };
    expect(ladders.ladders).toHaveLength(2);
    expect(differences(ladders, inner, new Set())).toEqual([]);
  });
  test("gaps are SI: a film's mismatch is a plain number, room is in metres", () => {
    const lines = objectsAt(ladder, "ladders[].lines[]");
    const gapOf = (check: string) => {
      const line = lines.find((l) => l.check === check)!;
      return [line.unit, objectsAt(line, "points[].gap").map((g) => g.middle as number)] as const;
    };
    const [unit, gaps] = gapOf("groove.depth");
    expect(unit).toBe("m");
    for (const g of gaps) expect(Math.abs(g)).toBeLessThan(0.02);
    expect(gapOf("film.mismatch")[0]).toBe("1");
  });
});

test("catalogue --json has the fields that are documented, each of its type, and no others", () => {
  const fields = documented("`catalogue --json`");
  const seen = new Set<string>();
  const calls = [["4"], ["8"], ["24"], ["8", "--kind", "punched"], ["8", "--kind", "pressed"]];
  for (const call of calls)
    expect(differences(parsed(tapeworthy(["catalogue", ...call, "--json"]).out), fields, seen)).toEqual([]);
  expect(allFields(fields).filter((name) => !seen.has(name))).toEqual([]);
}, 60_000);

test("accuracy --json has the fields that are documented, each of its type, and no others; without a wheel too", () => {
  inNewFolder((folder) => {
    const write = (path: string, text: string) => writeFileSync(join(folder, path), text);
    for (const inner of ["units", "tapes"]) mkdirSync(join(folder, inner));
    write("project.yaml", "format: 1\nproject: no wheel\nwanted: {bare: [strip]}\n");
    write(
      "tapes/strip.yaml",
      "format: 1\ntape: strip\nkind: embossed\nW: 12 ±0.1 mm\nA0: 6.2 mm\nB0: 5.2 mm\nK0: 2.1 mm\nP1: 8 mm\n",
    );
    write(
      "units/bare.yaml",
      `format: 1
unit: Bare
serves: {kind: [embossed], W: [12]}
built for:
  12: {A0: 6.4 mm, B0: 5.2 mm, K0: 2.1 mm, P1: 8 mm, T: 0.30 mm}
tape:
  rests on: underside
  route: [{line: 80 mm}, {mark: pick}, {line: 40 mm}]
  place: {mark: pick, x: 0 mm, z: 0 mm, heading: 0 deg}
  section:
    width: W + 0.45 mm
    ledge: {near: 2.6 mm, far: 0.7 mm}
    groove: {depth: K0 + 0.6 mm, margin: 0.75 mm}
    lips: {near: 0.9 mm, far: 0.7 mm, gap: T + 0.35 mm}
film: {opens: one seal}
`,
    );
    const one = ["--unit", "dunlin", "--tape", "dpak-16", "--no-known", "--draws", "4096"];
    bothWays("`accuracy --json`", [called("accuracy", exampleFolder, ...one), called("accuracy", folder)]);
  });
}, 120_000);

test("misfeed --json likewise, on a pair whose film slips now and then", () => {
  const pair = ["--unit", "plover", "--tape", "coil-12", "--no-known", "--draws", "40"];
  bothWays("`misfeed --json`", [called("misfeed", exampleFolder, ...pair)]);
}, 120_000);

describe("size --json", () => {
  test("likewise, where the tapes of two widths want lips of their own", () => {
    inNewFolder((folder) => {
      fewPairs(folder, "{dunlin: [dpak-16, so20-24]}");
      edited(folder, "units/dunlin.yaml", (text) =>
        text.replace("gap: T + 0.35 ±0.10 mm", "gap: 0.60 ±0.05 mm").replace(/^free:.*\n(?: .*\n?)*/m, ""),
      );
      edited(folder, "tapes/dpak-16.yaml", (text) => `${text}T: 0.2 mm\n`);
      edited(folder, "tapes/so20-24.yaml", (text) => `${text}T: 1.0 mm\n`);
      const free = ["--free", "tape.section.lips.gap=0.3..1.8 mm", "--free", "nip.preload=3..9 N"];
      bothWays("`size --json`", [called("size", folder, "--unit", "dunlin", ...free, "--starts", "1", "--no-known")]);
    });
  }, 180_000);
  test("likewise where nothing is free", () => {
    inNewFolder((folder) => {
      project(folder, ["so20-24"]);
      bothWays("`size --json` where nothing is free", [called("size", folder, "--unit", "plover", "--no-known")]);
    });
  }, 120_000);
});

describe("next --json", () => {
  /** Open and dropped questions have the form of the ranked ones. */
  const together = (answer: Json): Json => {
    if (!isGroup(answer)) throw new Error("no answer");
    const lists = [answer.ranked, answer.open, answer.dropped] as readonly (readonly Json[])[];
    return { ...answer, ranked: lists.flat(), open: [], dropped: [] };
  };
  /** A pair that hangs on one unknown, made up. */
  const hanging = (check: string, address: string, more: object = {}) => {
    const decisive = { address, symbol: "x", tipping: 0.25, guess: { low: 0.18, high: 0.35 }, unit: "1", shownIn: "" };
    const finding = { check, station: 7, severity: "S", verdict: "depends", share: 0.6 };
    const findings = [{ ...finding, decisive: { ...decisive, shareIfMeasured: 0.9, ...more } }];
    const result = { unit: "plover", tape: "coil-12", W: 12, verdict: "depends", share: 0.6, first: [check], findings };
    return { result: result as unknown as TapeResult };
  };
  test("has the fields that are documented, each of its type, and no others", () => {
    inNewFolder((folder) => {
      fewPairs(folder, "{dunlin: [so20-24]}");
      const answer = together(called("next", folder, "--no-known"));
      // What no pair of the example asks: a choice, what nobody measures, and a film that is pulled before one knows where it breaks.
      const made = openQuestions([
        hanging("nip.slips", "plover/nip.friction"),
        hanging("nip.breaks", "catalogue/film break"),
        hanging("film.pull", "plover/index.hold"),
        hanging("film.peel", "catalogue/seal kind", {
          words: ["heat", "pressure"],
          tipping: null,
          guess: { low: 0, high: 1 },
        }),
      ]);
      const plain = together(parsed(JSON.stringify(made)));
      const questions = objectsAt(plain, "ranked[]").map((q) => ({ ...q, piece: null }));
      bothWays("`next --json`", [{ ...(answer as Group), ranked: [...objectsAt(answer, "ranked[]"), ...questions] }]);
    });
  }, 120_000);
});

describe("card --json", () => {
  test("of every card, of readings, what it decides and where they are put: the fields that are documented, and no others", () => {
    const list = called("card", exampleFolder, "--list");
    bothWays("`card --list --json`", [list]);
    const every = objectsAt(list, "cards[]").map((card): Json => ({ version: "", card, answer: null, stand: null }));
    expect(every.length).toBeGreaterThan(100);
    const friction = ["--unknown", "plover/film.friction", "--value", "420,95; 440,95; 430,95"];
    const of = ["--unknown", "tapes/dpak-16/T", "--unit", "dunlin", "--tape", "dpak-16", "--no-known"];
    const into = ["--trial", "T-09", "--value", "250; 260; 255"];
    bothWays("`card --json`", [
      ...every,
      called("card", exampleFolder, ...friction),
      called("card", exampleFolder, ...of, ...into),
    ]);
  }, 120_000);
});

describe("read --json", () => {
  const log = (name: string) => join(exampleFolder, "bench", name);
  const own = ["--unit", "dunlin", "--tape", "so20-24", "--question", "film.pull", "--date", "2026-03-01"];
  test("of readings, counts and traces, dry and written: the fields that are documented, and no others", () => {
    inNewFolder((folder) => {
      fewPairs(folder, "{dunlin: [so20-24]}");
      const dry = ["T-01", "T-02"].map((name) => called("read", folder, log(`${name}.csv`), "--trial", name, "--dry"));
      const written = called("read", folder, log("T-03-B.csv"), "--trial", "T-09", ...own);
      bothWays("`read --json`", [...dry, written]);
      expect([...dry, written].map((answer) => (answer as Group).kind)).toEqual(["readings", "counts", "trace"]);
      bothWays("`read --run --json`", [
        called("read", folder, "--trial", "T-09", "--run", "1", "--plateau", "40..180 mm", "--dry"),
      ]);
      bothWays("`read --set-aside --json`", [
        called("read", folder, log("T-03-B.csv"), "--trial", "T-09", "--set-aside", "the edge was lost", "--dry"),
      ]);
    });
  }, 60_000);
});

describe("the bench's commands", () => {
  /** The trials of the example, T-02 of another brake than the unit has now, and one without a prediction. */
  function benchOf(folder: string): void {
    fewPairs(folder, "{dunlin: [dpak-16]}");
    edited(folder, "units/dunlin.yaml", (text) => text.replace("drag: 0.20 ±0.05 N", "drag: 0.22 ±0.05 N"));
    const counts = ["D1", "D2", "D3"].map((unit, i) => `  - {unit: ${unit}, reel: ${i}, indexes: 3000, misfeeds: 0}\n`);
    writeFileSync(
      join(folder, "bench/T-04.yaml"),
      `format: 1\ntrial: T-04\nunit: dunlin\ntape: dpak-16\nquestion: entry.pockets\ncounts:\n${counts.join("")}`,
    );
  }
  test("freeze --json has the fields that are documented, each of its type, and no others", () => {
    inNewFolder((folder) => {
      benchOf(folder);
      const asked = (question: string) =>
        called(
          "freeze",
          folder,
          "T-09",
          ...["--date", "2026-12-01", "--unit", "dunlin", "--tape", "dpak-16", "--no-known", "--dry"],
          ...["--question", question],
        );
      bothWays("`freeze --json`", [asked("tapes/dpak-16/T"), asked("entry.pockets")]);
    });
  }, 120_000);
  test("take --json likewise, of a number, of one whose design has changed, and of one kept apart", () => {
    inNewFolder((folder) => {
      benchOf(folder);
      bothWays(
        "`take --json`",
        ["T-01", "T-02"].map((trial) => called("take", folder, trial, "--dry")),
      );
      bothWays("`take --apart --json`", [called("take", folder, "T-01", "--apart", "not zeroed", "--dry")]);
    });
  }, 180_000);
  test("score --json likewise, with the map and without", () => {
    inNewFolder((folder) => {
      benchOf(folder);
      bothWays("`score --json`", [called("score", folder, "--dry"), called("score", folder, "--no-cells", "--dry")]);
    });
  }, 180_000);
  test("proof --json likewise, with the model and without", () => {
    inNewFolder((folder) => {
      benchOf(folder);
      const dunlin = ["--unit", "dunlin", "--no-known"];
      bothWays("`proof --json`", [
        called("proof", folder, ...dunlin),
        called("proof", folder, ...dunlin, "--no-model"),
      ]);
    });
  }, 180_000);
});

describe.each([
  ["`npm run --silent speed", "speed/dist/main.js", ["map", "--json"], true],
  ["`npm run --silent validate", "validation/dist/main.js", ["--json"], false],
])("%s -- --json`", (heading, program, args, open) => {
  test("has the fields that are documented, each of its type", () => {
    const fields = documented(heading);
    const seen = new Set<string>();
    const { stdout } = spawnSync(process.execPath, [join(root, program), ...args], {
      encoding: "utf8",
      maxBuffer: 1 << 28,
    });
    expect(differences(parsed(stdout), fields, seen, open)).toEqual([]);
    expect(allFields(fields).filter((name) => !seen.has(name))).toEqual([]);
  }, 120_000);
});

describe("the exit code of check", () => {
  test.each([
    [0, "every pair feeds", "so8-12", ""],
    [1, "a pair stops", "so20-24", ""],
    [2, "a number has no unit", "so8-12", "P1: 8"],
    [3, "a pair depends", "coil-12", ""],
  ])(
    "is %i where %s",
    (code, _, tape, instead) => {
      inNewFolder((folder) => {
        project(folder, [tape]);
        const file = join(folder, `tapes/${tape}.yaml`);
        if (instead !== "") writeFileSync(file, readFileSync(file, "utf8").replace(/^P1: .*$/m, instead));
        const called = tapeworthy(["check", folder, "--json"]);
        expect(called.code).toBe(code);
        if (code === 2) expect([called.out, called.err]).toEqual(["", expect.stringContaining('Write "8 mm"')]);
      });
    },
    60_000,
  );
});
