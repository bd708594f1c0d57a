import type { Given } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import { changed, said, texts } from "./curlew.fixture.ts";
import { showError } from "./error.ts";
import { GivenStore } from "./given-store.ts";
import { type Project, readProject } from "./project.ts";

const withLines = (...lines: readonly string[]): Map<string, string> =>
  changed("project.yaml", ["ladder: [chip, coil]", `goes together:\n${lines.join("\n")}\nladder: [chip, coil]`]);
const read = (files: ReadonlyMap<string, string>, store = new GivenStore()): Project => {
  const { project, errors } = readProject(files, store);
  if (!project) throw new Error(errors.map(showError).join("\n\n"));
  return project;
};
const membership = (g: Given | undefined) => g!.scatters.map((s) => s.together);
const pair = "  - {of: [tapes/coil/W, tapes/coil/B0], by: 0.6}";

describe("numbers that go together", () => {
  test("know one another by one matrix, and only the scatter that is meant", () => {
    const { givens, tapes } = read(
      withLines(pair, "  - {of: [tapes/coil/film.seal, tapes/coil/W], by: -0.2, per: reel}"),
    );
    const seal = givens.get("tapes/coil/film.seal");
    expect(membership(seal).map((m) => m?.of.members)).toEqual([
      ["tapes/coil/B0", "tapes/coil/W per reel", "tapes/coil/film.seal per reel"],
      undefined,
    ]);
    expect(tapes.get("coil")!.tape.givens.get("tapes/coil/B0")!.scatters[0]!.together).toBeDefined();
  });
  test("chain: what no line names counts as independent but for the others", () => {
    const { givens } = read(withLines(pair, "  - {of: [tapes/coil/B0, tapes/chip/W], by: 0.5}"));
    const { of } = membership(givens.get("tapes/chip/W"))[0]!;
    expect(of).toEqual({
      members: ["tapes/chip/W", "tapes/coil/B0", "tapes/coil/W"],
      by: [
        [1, 0.5, 0],
        [0.5, 1, 0.6],
        [0, 0.6, 1],
      ],
    });
    expect(membership(givens.get("tapes/coil/W"))[0]!.of).toBe(of);
  });
  test("stay the same objects while nothing of them changes, and are others when the number does", () => {
    const store = new GivenStore();
    const plain = read(texts, store).givens.get("tapes/coil/W");
    const first = read(withLines(pair), store).givens;
    const again = read(
      withLines(pair, "  - {of: [curlew/nip.preload, curlew/film.peel.edge radius], by: 0.4}"),
      store,
    ).givens;
    const other = read(withLines(pair.replace("0.6", "0.7")), store).givens;
    expect(first.get("tapes/coil/W")).not.toBe(plain);
    expect(again.get("tapes/coil/W")).toBe(first.get("tapes/coil/W"));
    expect(again.get("curlew/nip.preload")).not.toBe(first.get("curlew/nip.preload"));
    expect(other.get("tapes/coil/W")).not.toBe(first.get("tapes/coil/W"));
    expect(membership(other.get("tapes/coil/W"))[0]!.of).toBe(membership(other.get("tapes/coil/B0"))[0]!.of);
    expect(read(texts, store).givens.get("tapes/coil/W")).toBe(plain);
  });
  test("leave every other number as it is", () => {
    const store = new GivenStore();
    const before = read(texts, store).givens;
    const after = read(withLines(pair), store).givens;
    for (const [address, g] of before)
      if (!["tapes/coil/W", "tapes/coil/B0", "tapes/coil/T2"].includes(address))
        expect(after.get(address), address).toBe(g);
  });
});

describe("lines that cannot be are refused", () => {
  test("correlations that contradict one another, with the nearest value that works", () => {
    expect(
      said(withLines(pair, "  - {of: [tapes/coil/B0, tapes/chip/W], by: 0.9}")),
    ).toBe(`project.yaml:10:45: found 0.9, with which they cannot all go together, expected between -0.79 and 0.79 with the lines above it as they are
10 |   - {of: [tapes/coil/B0, tapes/chip/W], by: 0.9}
                                                 ^^^
Write "by: 0.79", or say in a line of its own how any other two of them go together: a pair that no line names counts as 0.`);
  });
  // Three that all go together by r < -1/2 cannot be: 1 + 2r < 0. [closed form]
  test("more than two that all go apart", () => {
    expect(said(withLines("  - {of: [tapes/coil/W, tapes/coil/B0, tapes/chip/W], by: -0.6}"))).toContain(
      "expected between -0.49 and 0.99 with the lines above it as they are",
    );
  });
  test("an address that no file gives", () => {
    expect(said(withLines("  - {of: [tapes/coil/W, curlew/nip.preloat], by: 0.6}"))).toBe(
      `project.yaml:9:25: found "curlew/nip.preloat", expected the address of a number in these files
9 |   - {of: [tapes/coil/W, curlew/nip.preloat], by: 0.6}
                            ^^^^^^^^^^^^^^^^^^
Did you mean "curlew/nip.preload"?`,
    );
  });
  test("numbers that scatter between different things", () => {
    expect(said(withLines("  - {of: [tapes/coil/W, curlew/nip.preload], by: 0.6}"))).toBe(
      `project.yaml:9:25: found "curlew/nip.preload", which scatters between units, expected what scatters between reels, as "tapes/coil/W" does
9 |   - {of: [tapes/coil/W, curlew/nip.preload], by: 0.6}
                            ^^^^^^^^^^^^^^^^^^
Only what scatters between the same things can go together.`,
    );
  });
  test.each([
    [
      "{of: [tapes/coil/W, tapes/coil/film.seal], by: 0.6}",
      'which scatters between reels and between indexes, expected a line that says which, with "per"',
    ],
    [
      "{of: [tapes/coil/W, tapes/coil/A0], by: 0.6}",
      '"tapes/coil/A0", which does not scatter, expected a number with a tolerance',
    ],
    ["{of: [tapes/coil/W, tapes/coil/B0], by: 0.6, per: unit}", '"tapes/coil/W", which does not scatter between units'],
    ["{of: [tapes/coil/W], by: 0.6}", "found 1 number, expected two numbers or more"],
    ["{of: [tapes/coil/W, tapes/coil/W], by: 0.6}", '"tapes/coil/W" with itself'],
    ["{of: [tapes/coil/W, tapes/coil/B0], by: 1.2}", "at most 0.999"],
    ["{of: [tapes/coil/W, tapes/coil/B0]}", 'no "by"'],
  ])("%s", (line, words) => {
    expect(said(withLines(`  - ${line}`))).toContain(words);
  });
  test("a pair twice", () => {
    expect(said(withLines(pair, pair))).toContain('"tapes/coil/W" and "tapes/coil/B0" a second time');
  });
});
