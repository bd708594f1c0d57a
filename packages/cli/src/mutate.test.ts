import { fileURLToPath } from "node:url";
import { ProjectError, readProject, showError } from "@tapeworthy/project";
import { describe, expect, test } from "vitest";
import { readFolder } from "./folder.ts";
import { main, mutant, mutate } from "./mutate.ts";

const texts = readFolder(fileURLToPath(new URL("../../../examples/saltgrass", import.meta.url)));

test("of 500 damaged files of the example each is accepted or refused, and nothing else comes of any", () => {
  const seen: number[] = [];
  const { accepted, refused, crashes, slowest } = mutate(
    texts,
    500,
    4000,
    (tally) => void seen.push(tally.accepted + tally.refused),
  );
  expect(crashes).toEqual([]);
  expect(accepted + refused).toBe(500);
  expect(accepted).toBeGreaterThan(25);
  expect(refused).toBeGreaterThan(250);
  expect(slowest.seconds).toBeLessThan(2);
  expect(seen).toHaveLength(500);
}, 360_000);

describe("a damaged file", () => {
  const many = Array.from({ length: 600 }, (_, seed) => mutant(texts, seed));
  test("is the same for the same seed, and hardly ever the same for another", () => {
    for (const seed of [0, 7, 123_456, 2 ** 40]) expect(mutant(texts, seed)).toEqual(mutant(texts, seed));
    expect(new Set(many.map((m) => m.file + m.text)).size).toBeGreaterThan(560);
  });
  test("is one of the project's, each in its turn", () => {
    expect(new Set(many.map((m) => m.file))).toEqual(new Set(texts.keys()));
  });
  test("is as a rule not what it was", () => {
    expect(many.filter((m) => m.text === texts.get(m.file)).length).toBeLessThan(30);
  });
  test.each([
    ["a number without end", /1e999/],
    ["a range without ends", /\.\./],
    ["an alias", /\*a/],
    ["a merge key", /<<:/],
    ["a prototype", /__proto__/],
    ["a control character", /(?![\t\r\n])\p{Cc}/u],
    ["brackets thirty deep", /\({30}|\[{30}/],
    ["a list of a thousand", /(1 mm, ){1000}/],
    ["a long number", /9{300}/],
    ["a sign no keyboard has", /\u202e|\u2028|\ud800|\u{1f600}/u],
  ])("holds %s now and then", (_, sign) => {
    const more = Array.from({ length: 6000 }, (_, seed) => mutant(texts, 10_000 + seed).text);
    expect(more.some((text) => sign.test(text))).toBe(true);
  });
});

describe("a reader with a fault is found out, with the seed that makes the text again:", () => {
  const place = { file: "tapes/coil-12.yaml", line: 1, column: 1, length: 1 };
  const error = (more: object) => ({ errors: [new ProjectError({ ...place, ...more }, "x", "a", "b")] });
  const whole = readProject(texts).project!;
  const number = [...whole.givens.values()].find((g) => g.address === "plover/nip.overspeed")!;
  const endless = {
    ...number,
    expression: { op: "num", v: Number.POSITIVE_INFINITY, unit: "", at: 0, length: 1 },
  } as const;
  const requirement = { ...whole.requirement, filmSpeed: endless };
  test.each<[string, () => ReturnType<typeof readProject>, RegExp]>([
    [
      "one that throws",
      () => {
        throw new TypeError("no");
      },
      /^TypeError: no/,
    ],
    ["one that says nothing", () => ({ errors: [] }), /^neither a project nor an error$/],
    [
      "one that points before a file",
      () => ({ errors: Array.from(texts.keys(), (file) => error({ file, line: 0 }).errors[0]!) }),
      /^an error outside the file, at 0:1$/,
    ],
    [
      "one that points behind a line",
      () => ({ errors: Array.from(texts.keys(), (file) => error({ file, column: 1e6 }).errors[0]!) }),
      /^an error outside the file, at 1:1000000$/,
    ],
    [
      "one that says undefined",
      () => ({ errors: [new ProjectError(place, "x", "undefined", "b")] }),
      /^an error that says found undefined, expected b$/,
    ],
    [
      "one that accepts an endless number",
      () => ({ project: { ...whole, wanted: new Map(), requirement }, errors: [] }),
      /^plover\/nip\.overspeed is Infinity$/,
    ],
  ])("%s", (_, fault, what) => {
    const { crashes } = mutate(texts, 3, 9, undefined, (files) =>
      files === texts ? { project: whole, errors: [] } : fault(),
    );
    expect(crashes.map((c) => c.seed)).toEqual([9, 10, 11]);
    for (const crash of crashes) expect(crash.what).toMatch(what);
  });
  test("one whose numbers stand elsewhere than it says", () => {
    const { crashes } = mutate(texts, 60, 9, undefined, () => ({ project: whole, errors: [] }));
    expect(crashes.some((c) => /^tapes\/[a-z0-9-]+\/.* is ".*", and at \d+:\d+ stands "/.test(c.what))).toBe(true);
  });
});

describe("the program", () => {
  const run = (...args: string[]) => {
    const [out, err]: string[][] = [[], []];
    const code = main(
      args,
      (line) => out!.push(line),
      (line) => err!.push(line),
    );
    return { code, out, err };
  };
  test("says at the end how many it read, and repeats a text by its seed", () => {
    const { code, out, err } = run("20", "--seed", "77");
    expect(code).toBe(0);
    expect(out).toEqual([expect.stringMatching(/^20 mutated files: \d+ accepted, \d+ refused, 0 crashes$/)]);
    expect(err!.at(-1)).toMatch(/^The longest reading took \d\.\d\d s, seed \d\d\.$/);
    expect(run("--seed", "77", "20").out).toEqual(out);
  });
  test.each([
    [["many"], 'found "many", expected a whole number: npm run mutate -- 100000 [--seed N]'],
    [["10", "--seed"], "found nothing, expected a whole number: npm run mutate -- 100000 [--seed N]"],
    [["-5"], 'found "-5", expected a whole number: npm run mutate -- 100000 [--seed N]'],
    [["--fast"], 'found "--fast", expected a whole number: npm run mutate -- 100000 [--seed N]'],
  ])("refuses %j", (args, message) => {
    expect(run(...args)).toEqual({ code: 2, out: [], err: [message] });
  });
});

test("what is damaged where the text says nothing is refused in words, not by chance", () => {
  const { errors } = readProject(
    new Map([...texts, ["tapes/coil-12.yaml", texts.get("tapes/coil-12.yaml")!.replace("A0: 4.3 mm", "A0: 1e999 mm")]]),
  );
  expect(errors.map(showError)).toEqual([
    `tapes/coil-12.yaml:9:5: found "1e999", expected a finite number
9 | A0: 1e999 mm
        ^^^^^`,
  ]);
});
