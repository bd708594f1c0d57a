import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Ladder } from "@tapeworthy/core";
import { beforeAll, describe, expect, test } from "vitest";
import { type Called, exampleFolder, inNewFolder, tapeworthy } from "./cli.fixture.ts";

/** The example's first unit on a few of its tapes. */
function project(folder: string, tapes: readonly string[]): void {
  for (const inner of ["units", "tapes"]) mkdirSync(join(folder, inner));
  const copy = (path: string) => writeFileSync(join(folder, path), readFileSync(join(exampleFolder, path)));
  copy("units/plover.yaml");
  for (const tape of tapes) copy(`tapes/${tape}.yaml`);
  writeFileSync(join(folder, "project.yaml"), `format: 1\nproject: small\nwanted: {plover: [${tapes.join(", ")}]}\n`);
}

describe("ladder of a unit on a tape of 16 and one of 24 mm", () => {
  let text: Called;
  let one: Called;
  let two: Called;
  beforeAll(() => {
    inNewFolder((folder) => {
      project(folder, ["so16-16", "so20-24"]);
      text = tapeworthy(["ladder", folder]);
      one = tapeworthy(["ladder", folder, "--unit", "plover", "--json", "--workers", "1"]);
      two = tapeworthy(["ladder", folder, "--unit", "plover", "--json", "--workers", "2"]);
    });
  }, 720_000);
  test("ends well and says nothing of errors", () => {
    expect([text, one, two].map((c) => c.code)).toEqual([0, 0, 0]);
    expect(text.out).not.toMatch(/undefined|NaN/);
    expect(text.out).not.toContain("\u001b");
  });
  test("gives the same bits with one worker and with two", () => {
    expect(one.out).toBe(two.out);
  });
  test("says where the unit comes to depend and where it stops, and which check does that", () => {
    const ladder = (JSON.parse(one.out) as { ladders: Ladder[] }).ladders[0]!;
    const mismatch = ladder.lines.find((l) => l.check === "film.mismatch")!;
    expect(mismatch.spans.map((s) => s.verdict)).toEqual(["feeds", "depends", "stops"]);
    for (const turn of mismatch.turns) {
      expect(turn.where).toBe(`between 16 and 24 (about ${+turn.W.toPrecision(3)})`);
      expect(text.out.replace(/\s+/g, " ")).toContain(`${turn.after} ${turn.where}`);
    }
  });
  test("leaves widths without a tape out, and says so", () => {
    for (const W of [8, 12, 32]) expect(text.out).toContain(`${W} mm: no tape of ${W} mm is wanted`);
  });
  test("draws a bar for the whole unit under the catalogue's widths, each line within the terminal's width", () => {
    const lines = text.out.split("\n");
    const bar = lines.find((l) => l.startsWith("  whole unit"))!;
    expect(bar).toMatch(/^ {2}whole unit +[=?#]+ {2}/);
    expect(lines[lines.indexOf(bar) - 1]).toMatch(/^ +16 +24 {2}W, mm$/);
    for (const line of lines) expect(line.length).toBeLessThanOrEqual(140);
  });
});

describe("ladder refuses with exit 2 and the way out", () => {
  test("a unit that is not there", () => {
    const { code, err } = tapeworthy(["ladder", exampleFolder, "--unit", "plovr"]);
    expect([code, err]).toEqual([2, 'There is no unit "plovr". Did you mean "plover"?\n']);
  });
  test("a unit with a tape of one width alone", () => {
    inNewFolder((folder) => {
      project(folder, ["so20-24"]);
      const { code, out, err } = tapeworthy(["ladder", folder]);
      expect([code, out]).toEqual([2, ""]);
      expect(err).toBe(
        'The ladder of Plover has a tape of 24 mm alone: name one tape a width under "ladder" in project.yaml, for two widths at least that it is made in (8, 12, 16, 24, 32).\n',
      );
    });
  });
  test("a folder that is not there", () => expect(tapeworthy(["ladder", "nowhere"]).code).toBe(2));
});

describe("compare refuses with exit 2 and the way out", () => {
  const refused = (...args: string[]) => {
    const { code, out, err } = tapeworthy(["compare", ...args]);
    expect([code, out]).toEqual([2, ""]);
    return err.trim();
  };
  test("one unit alone, with or without a folder", () => {
    expect(refused("plover", exampleFolder)).toBe(
      '"plover" alone is given; name two to five units: tapeworthy compare plover dunlin.',
    );
    expect(refused("plover")).toContain('"plover" alone is given');
  });
  test("a folder and no unit", () => expect(refused(exampleFolder)).toContain("No unit is given"));
  test("more than five units", () =>
    expect(refused("a", "b", "c", "d", "e", "f", exampleFolder)).toBe(
      "6 units are too many: two to five fit on one scale.",
    ));
  test("a unit that is not there", () =>
    expect(refused("plover", "dunlyn", exampleFolder)).toBe('There is no unit "dunlyn". Did you mean "dunlin"?'));
  test("a unit beside itself", () =>
    expect(refused("plover", "plover", exampleFolder)).toBe(
      '"plover" is named twice; a unit is compared with others.',
    ));
});
test.each(["ladder", "compare"])("%s --help shows examples", (command) => {
  const { code, out } = tapeworthy([command, "--help"]);
  expect(code).toBe(0);
  expect(out).toContain(`tapeworthy ${command} `);
  expect(out).toContain("Examples:");
  expect(tapeworthy(["--help"]).out).toContain(`  ${command}`);
});
