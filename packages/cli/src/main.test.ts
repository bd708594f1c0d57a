import { spawn } from "node:child_process";
import { createHash } from "node:crypto";
import { cpSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { beforeAll, describe, expect, test } from "vitest";
import { exampleFolder, fewOf, inNewFolder, tapeworthy } from "./cli.fixture.ts";
import type { CheckResult } from "./run-check.ts";

type Answer = CheckResult & { readonly version: string };
const json = (text: string): Answer => JSON.parse(text) as Answer;

describe("the example", () => {
  let known: Answer;
  let alone: Answer;
  let text: string;
  let codes: number[];
  beforeAll(() => {
    const a = tapeworthy(["check", exampleFolder, "--json", "--no-cures"]);
    inNewFolder((folder) => {
      fewOf(folder, "{plover: [so8-12, coil-12, so16-16], dunlin: [so8-12, coil-12]}");
      const b = tapeworthy(["check", folder, "--json", "--no-known", "--no-cures"]);
      rmSync(folder, { recursive: true });
      fewOf(folder, "{plover: [so8-12, so20-24]}");
      const c = tapeworthy(["check", folder]);
      [known, alone, text, codes] = [json(a.out), json(b.out), c.out, [a.code, b.code, c.code]];
    });
  }, 900_000);
  const unit = (of: Answer, name: string) => of.units.find((u) => u.unit === name)!;
  const tape = (of: Answer, name: string, t: string) => unit(of, name).tapes.find((x) => x.tape === t)!;
  const finding = (of: Answer, name: string, t: string, check: string) =>
    tape(of, name, t).findings.find((f) => f.check === check)!;

  test("stops somewhere, so check exits with 1; where some only depend, with 3", () =>
    expect(codes).toEqual([1, 3, 1]));
  test("mismatch rises with the square of the film's width", () => {
    // Spans differ a little with W, the film's width is the measured one; m = b^2 / (4 L^2) for a quarter turn. [derived]
    const b = { "sensor-8": 5.3, "so8-12": 9.3, "so16-16": 13.3, "so20-24": 21.3, "socket-32": 25.5 };
    for (const [name, width] of Object.entries(b)) {
      const f = finding(known, "plover", name, "film.mismatch");
      const length = Number(/, (\d+) mm$/.exec(f.where!)![1]);
      expect(f.value! / (width ** 2 / (4 * length ** 2))).toBeGreaterThan(0.93);
      expect(f.value! / (width ** 2 / (4 * length ** 2))).toBeLessThan(1.07);
    }
  });
  test("the first unit's wall is the mismatch: it stops at 32 and does not feed 24", () => {
    for (const name of ["socket-32", "module-32"])
      expect([tape(known, "plover", name).verdict, tape(known, "plover", name).first[0]]).toEqual([
        "stops",
        "film.mismatch",
      ]);
    for (const name of ["so20-24", "carrier-24"])
      expect([tape(known, "plover", name).verdict, tape(known, "plover", name).first[0]]).toEqual([
        "stops",
        "film.mismatch",
      ]);
  });
  test("8 and 12 mm are reproduced before the record is weighed in, 32 fails as it should, and nothing is contradicted", () => {
    const line = (name: string) => known.known.lines.find((l) => l.tape === name)!;
    for (const name of ["sensor-8", "so8-12", "socket-32"])
      expect([name, line(name).standing]).toEqual([name, "reproduced"]);
    expect(known.known.contradicted).toEqual([]);
  });
  test("no film check of severity S stops the second unit anywhere", () => {
    for (const of of [known, alone])
      for (const t of unit(of, "dunlin").tapes)
        for (const f of t.findings)
          if (f.check.startsWith("film.") && f.severity === "S")
            expect([t.tape, f.check, f.verdict]).not.toEqual([t.tape, f.check, "stops"]);
  });
  test("on a tape whose seal, rate and frictions are measured both units feed, record or not", () => {
    const file = readFileSync(join(exampleFolder, "tapes/so8-12.yaml"), "utf8");
    for (const word of ["seal:", "rate exponent:", "friction:"]) expect(file).toMatch(new RegExp(`${word}.*measured`));
    for (const of of [known, alone])
      for (const name of ["plover", "dunlin"]) expect(tape(of, name, "so8-12").verdict).toBe("feeds");
  });
  test("every tape that depends names its unknown with a tipping value", () => {
    for (const of of [known, alone])
      for (const u of of.units)
        for (const t of u.tapes.filter((x) => x.verdict === "depends")) {
          const f = t.findings.find((x) => x.check === t.first[0])!;
          expect([u.unit, t.tape, f.check, f.decisive?.address, f.decisive?.tipping === null]).toEqual([
            u.unit,
            t.tape,
            f.check,
            expect.any(String),
            false,
          ]);
        }
  });
  test("so does every hard check that depends", () => {
    for (const of of [known, alone])
      for (const u of of.units)
        for (const t of u.tapes)
          for (const f of t.findings.filter((x) => x.verdict === "depends" && x.severity === "S"))
            expect([t.tape, f.check, f.decisive?.tipping ?? null]).not.toEqual([t.tape, f.check, null]);
  });
  test("the record moves belief: fewer pairs depend with it than without", () => {
    const asked = (u: string, t: string) => alone.units.some((o) => o.unit === u && o.tapes.some((x) => x.tape === t));
    const depend = (of: Answer) =>
      of.units.flatMap((u) => u.tapes.filter((t) => t.verdict === "depends" && asked(u.unit, t.tape))).length;
    expect(depend(known)).toBeLessThan(depend(alone));
    expect(known.known.effective).toBeGreaterThan(200);
    expect(known.known.effective).toBeLessThan(900);
  });
  test("two measured tapes leave the catalogue and go on", () => {
    expect(text).toContain("so16-16: F is 7.62 mm; the catalogue says 7.5 ±0.1 mm");
    expect(text).toContain("so8-12: E1 is 1.87 mm; the catalogue says 1.75 ±0.1 mm");
  });
  test("the text says what is known first, then each unit's table with its first stopper's sentence", () => {
    expect(text.indexOf("What is known")).toBeLessThan(text.indexOf("Plover, revision C"));
    expect(text).toMatch(
      /so20-24 +24 {2}stops +film\.mismatch \[g\]: Led sideways, the film's fibres differ by 3\.\d %/,
    );
    expect(text).not.toContain("\u001b");
  });
  test("no number in the answer is NaN or without end", () => {
    expect(JSON.stringify(known)).not.toMatch(/NaN|Infinity/);
    for (const u of known.units)
      for (const t of u.tapes)
        for (const f of t.findings)
          if (f.verdict !== "n/a") expect([t.tape, f.check, f.value]).not.toEqual([t.tape, f.check, null]);
  });
  test("any number of workers gives the same bits, another seed others", () => {
    inNewFolder((folder) => {
      const answer = (...more: string[]) => tapeworthy(["check", folder, "--json", "--no-cures", ...more]).out;
      const hash = (text: string) => createHash("sha256").update(text).digest("hex");
      fewOf(folder, "{plover: [so8-12, so20-24], dunlin: [so8-12]}");
      const one = answer("--workers", "1");
      expect(hash(answer("--workers", "5"))).toBe(hash(one));
      // A pair that feeds does not depend on the others: it alone is enough to see the seed.
      rmSync(folder, { recursive: true });
      fewOf(folder, "{plover: [so8-12]}");
      const first = (text: string) => tape(json(text), "plover", "so8-12");
      expect(first(answer())).toEqual(first(one));
      expect(first(answer("--seed", "2"))).not.toEqual(first(one));
    });
  }, 900_000);
});

/** Why a check says what it does, of the first unit on one tape alone and without a record: no other pair is judged for it. */
const why = (check: string, name: string) =>
  inNewFolder((folder) => {
    fewOf(folder, `{plover: [${name}]}`);
    rmSync(join(folder, "known.yaml"));
    return tapeworthy(["why", check, "--tape", name, "--unit", "plover", folder]);
  });
describe("why", () => {
  test("goes from the verdict over the equation with its numbers down to file, line and column", () => {
    const { out, code } = why("nip.slips", "coil-12");
    expect(code).toBe(0);
    expect(out).toContain("S = N·(μ_1 + μ_2)");
    expect(out).toContain("= 4.700 N·(0.2121 + 0.7071) = 4.320 N");
    const place = /units\/plover\.yaml:(\d+):(\d+)/.exec(out)!;
    const line = readFileSync(join(exampleFolder, "units/plover.yaml"), "utf8").split("\n")[Number(place[1]) - 1]!;
    expect(line.slice(Number(place[2]) - 1)).toMatch(/^4\.7 ±0\.5 N/);
  });
  test("a check that does not apply says why, and is no pass", () => {
    const { out } = why("entry.bend", "so8-12");
    expect(out).toContain("Not applicable: the route has no bend.");
  });
  test.each([
    [["why", "nip.slip", "--tape", "coil-12"], 'There is no check "nip.slip". Did you mean "nip.slips"?'],
    [
      ["why", "nip.slips", "--tape", "coil12", "--unit", "plover"],
      'There is no tape "coil12". Did you mean "coil-12"?',
    ],
    [["why", "nip.slips", "--tape", "coil-12", "--unit", "plovr"], 'There is no unit "plovr". Did you mean "plover"?'],
    [["why", "nip.slips", "--tape", "coil-12"], 'plover and dunlin want "coil-12"; name one with --unit.'],
    [
      ["why", "nip.slips", "--tape", "radio-44", "--unit", "plover"],
      "Plover is not made for 44 mm tape: it serves 8, 12, 16, 24, 32.",
    ],
  ])("%j is refused with a way out and exit code 2", (args, message) => {
    const { err, code } = tapeworthy([...(args as string[]), exampleFolder]);
    expect([code, err.trim()]).toEqual([2, message]);
  });
});

describe("other calls", () => {
  test("a missing folder, an unknown command and a wrong option exit with 2 and one message", () => {
    expect(tapeworthy(["check", "nowhere"])).toEqual({ code: 2, out: "", err: 'There is no folder "nowhere".\n' });
    expect(tapeworthy(["chek"])).toMatchObject({
      code: 2,
      out: "",
      err: expect.stringContaining("Did you mean check?"),
    });
    expect(tapeworthy(["check", "--seed", "x", exampleFolder])).toMatchObject({
      code: 2,
      err: expect.stringContaining("A whole number from 0 to 4294967295 is wanted."),
    });
  });
  test("bad input shows every error of every file and computes nothing", () => {
    inNewFolder((folder) => {
      cpSync(exampleFolder, folder, { recursive: true });
      const plover = join(folder, "units/plover.yaml");
      writeFileSync(
        plover,
        readFileSync(plover, "utf8")
          .replace("preload: 4.7 ±0.5 N", "preload: 4.7")
          .replace("radius: 1.5 mm", "radius: 1.2 W"),
      );
      writeFileSync(join(folder, "tapes/coil-12.yaml"), "format: 1\ntape: coil\nW: 12 mm\n");
      const { code, out, err } = tapeworthy(["check", folder]);
      expect([code, out]).toEqual([2, ""]);
      expect(err).toContain("found 4.7 without a unit, expected a force");
      expect(err).toContain('A letter is multiplied with a star: "1.2 * W".');
      expect(err).toContain("tapes/coil-12.yaml:1:1:");
      expect(err).toMatch(/\d+ errors in the project's files\. Nothing was computed\.\n$/);
    });
  });
  test("help names the commands and shows examples", () => {
    const { out, code } = tapeworthy(["--help"]);
    expect(code).toBe(0);
    for (const word of ["check", "why", "start", "schema", "catalogue", "Examples:", "Exit codes of check"])
      expect(out).toContain(word);
    expect(tapeworthy(["check", "--help"]).out).toContain("--vary <address=value>");
  });
  test("a reader that stops reading ends it without a word, and with no verdict's code", async () => {
    const bin = fileURLToPath(new URL("../bin/tapeworthy.mjs", import.meta.url));
    const child = spawn(process.execPath, [bin, "schema", "unit"], { stdio: ["ignore", "pipe", "pipe"] });
    child.stdout.destroy();
    let said = "";
    child.stderr.on("data", (piece) => {
      said += piece;
    });
    const code = await new Promise((resolve) => child.on("close", resolve));
    expect({ code, said }).toEqual({ code: 141, said: "" });
  });
  test("the catalogue knows 4 mm and pressed tape, and says that it remembers them", () => {
    expect(tapeworthy(["catalogue", "4"]).out).toMatch(/F +1\.8 ±0\.02 mm +memory +Remembered/);
    expect(tapeworthy(["catalogue", "8", "--kind", "pressed"]).out).toMatch(
      /^Pressed carrier tape, 8 mm\n[\s\S]* T +0\.5 mm at most +memory/,
    );
    expect(tapeworthy(["catalogue", "12", "--kind", "pressed"])).toMatchObject({
      code: 2,
      err: expect.stringContaining('There is no pressed tape of "12". Widths: 8.'),
    });
  });
  test("the catalogue shows a letter with its source, where sources differ, and usual parts", () => {
    const { out, code } = tapeworthy(["catalogue", "8"]);
    expect(code).toBe(0);
    expect(out).toMatch(/B1 +4\.35 mm at most +read +Embossed carrier tape, 8 to 24 mm/);
    expect(out).toMatch(/Where sources differ\n {2}B1: taken 4\.35/);
    expect(out).toContain("SOT-23-3");
    // SOT-23 tape and reel data: W1 8.4 +1.5/-0. [read]
    expect(out).toMatch(/Reels it comes on\n[\s\S]* {2}W1 +8\.4 \+1\.5\/0 mm +read +SOT-23 tape and reel data/);
    expect(tapeworthy(["catalogue", "9"])).toMatchObject({
      code: 2,
      err: expect.stringContaining('There is no embossed tape of "9". Widths: 4, 8, 12,'),
    });
  });
});
