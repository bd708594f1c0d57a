// The JSON of the commands that judge, and of the programs beside them.
import { spawnSync } from "node:child_process";
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { unitOf } from "@tapeworthy/core";
import { beforeAll, describe, expect, test } from "vitest";
import { exampleFolder, inNewFolder, tapeworthy } from "./cli.fixture.ts";
import {
  allFields,
  bench,
  bothWays,
  called,
  differences,
  documented,
  edited,
  fewPairs,
  type Json,
  objectsAt,
  parsed,
  project,
  root,
} from "./json.fixture.ts";

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
  }, 720_000);

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
      edited(folder, "project.yaml", (text) => text.replace("[so20-24, coil-12]", "[so20-24]"));
      for (const check of ["film.mismatch", "groove.lips", "groove.depth", "entry.bend", "nip.slips"])
        expect(
          differences(parsed(tapeworthy(["why", check, "--tape", "so20-24", folder, "--json"]).out), fields, seen),
        ).toEqual([]);
    });
    expect(allFields(fields).filter((name) => !seen.has(name))).toEqual([]);
  }, 360_000);
});

/** The second unit of the example, beside the first. */
function secondUnit(folder: string): void {
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
      project(folder, ["so16-16", "so20-24"]);
      narrowUnit(folder);
      ladder = parsed(tapeworthy(["ladder", folder, "--json"]).out);
      secondUnit(folder);
      compare = parsed(tapeworthy(["compare", "plover", "dunlin", folder, "--json"]).out);
    });
  }, 720_000);

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
}, 180_000);

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
}, 360_000);

test("misfeed --json likewise, on a pair whose film slips now and then", () => {
  const pair = ["--unit", "plover", "--tape", "coil-12", "--no-known", "--draws", "40"];
  bothWays("`misfeed --json`", [called("misfeed", exampleFolder, ...pair)]);
}, 360_000);

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
  }, 540_000);
  test("likewise where nothing is free", () => {
    inNewFolder((folder) => {
      project(folder, ["so20-24"]);
      bothWays("`size --json` where nothing is free", [called("size", folder, "--unit", "plover", "--no-known")]);
    });
  }, 360_000);
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
  }, 360_000);
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
        const called = tapeworthy(["check", folder, "--json", "--no-cures"]);
        expect(called.code).toBe(code);
        if (code === 2) expect([called.out, called.err]).toEqual(["", expect.stringContaining('Write "8 mm"')]);
      });
    },
    180_000,
  );
});
