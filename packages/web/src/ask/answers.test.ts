import { describe, expect, test } from "vitest";
import { smallProject } from "../states.fixture.ts";
import { Answers } from "./answers.ts";
import type { Progress } from "./question.ts";

const about = { texts: [...smallProject()], seed: 1 };
const answers = new Answers();
const quietly = async () => {};

describe("what takes long", () => {
  test("a sweep is over the number asked for, and names all that could be asked for", async () => {
    const asked = {
      kind: "sweep",
      unit: "plover",
      tape: "so20-24",
      check: "nip.pulls",
      along: "plover/per width.24.nip.preload",
    } as const;
    const answer = await answers.answer(about, asked, quietly);
    if (answer.kind !== "sweep") throw new Error(JSON.stringify(answer));
    expect(answer.sweep.along.address).toBe(asked.along);
    expect(answer.inputs.map(({ address }) => address)).toContain(asked.along);
  }, 180_000);

  test("cures come with what they cost on every wanted tape, each step told", async () => {
    const told: Progress[] = [];
    const answer = await answers.answer(
      about,
      { kind: "cures", unit: "plover", tape: "so20-24", check: "film.mismatch" },
      async (progress) => void told.push(progress),
    );
    if (answer.kind !== "cures") throw new Error(JSON.stringify(answer));
    const [first] = answer.cures.cures;
    expect(first?.members.length).toBeGreaterThan(0);
    expect(first?.effects.map(({ tape }) => tape)).toContain("so20-24");
    expect(new Set(told.map(({ what }) => what))).toEqual(
      new Set(["known units", "ways out", "what the ways out cost"]),
    );
    for (const { done, of } of told) expect(done).toBeLessThan(of);
  }, 360_000);

  test("one index comes with its lanes, its events and what it must not pass, and waits for no known unit", async () => {
    const told: Progress[] = [];
    const answer = await answers.answer(
      about,
      { kind: "index", unit: "plover", tape: "so16-16" },
      async (progress) => void told.push(progress),
    );
    if (answer.kind !== "index") throw new Error(JSON.stringify(answer));
    const { picture } = answer;
    expect(picture.events.map(({ what }) => what)).toEqual(expect.arrayContaining(["feed on", "brake", "tape stops"]));
    expect(picture.lanes.t.length).toBeGreaterThan(100);
    expect(picture.limits.hole).toBeGreaterThan(0);
    expect(told.map(({ what }) => what)).toEqual(["one index in time"]);
    expect(structuredClone(answer)).toEqual(answer);
  }, 180_000);
  test("a unit without a motor has no index, and says so", async () => {
    const texts = about.texts.map(
      ([file, text]) =>
        [file, file === "units/plover.yaml" ? text.replace(/^feed drive:\n(?: .*\n)+/m, "") : text] as const,
    );
    const answer = await answers.answer(
      { ...about, texts },
      { kind: "index", unit: "plover", tape: "so16-16" },
      quietly,
    );
    if (answer.kind !== "none") throw new Error(answer.kind);
    expect(answer.why).toMatch(/^There is no index to look at: /);
  }, 180_000);

  test("what was asked of the same texts before is there at once, nothing worked out anew", async () => {
    const question = { kind: "cures", unit: "plover", tape: "so20-24", check: "film.mismatch" } as const;
    const first = await answers.answer(about, question, quietly);
    const again = await answers.answer(
      { ...about, texts: about.texts.map(([f, t]) => [f, t] as const) },
      question,
      async () => {
        throw new Error("nothing is to be worked out");
      },
    );
    expect(again).toEqual(first);
    const texts = about.texts.map(([f, t]) => [f, f === "project.yaml" ? `${t}# more\n` : t] as const);
    const asked = answers.answer({ ...about, texts }, question, async () => {
      throw new Error("this is worked out anew");
    });
    await expect(asked).rejects.toThrow("this is worked out anew");
  }, 180_000);

  test("nobody waits: it ends at its next piece of work", async () => {
    class Enough extends Error {}
    let pieces = 0;
    const asked = answers.answer(about, { kind: "ladder", unit: "plover" }, async () => {
      pieces++;
      throw new Enough();
    });
    await expect(asked).rejects.toBeInstanceOf(Enough);
    expect(pieces).toBe(1);
  }, 180_000);
});

describe("what has no answer says why", () => {
  test.each([
    [{ kind: "ladder", unit: "wren" }, 'There is no unit "wren".'],
    [{ kind: "compare", units: ["plover", "wren"], W: 24 }, 'There is no unit "wren".'],
    [
      { kind: "sweep", unit: "plover", tape: "so20-24", check: "entry.bend" },
      "entry.bend rests on no number that can be swept on so20-24.",
    ],
  ] as const)(
    "%o",
    async (question, why) => {
      expect(await answers.answer(about, question, quietly)).toEqual({ kind: "none", why });
    },
    180_000,
  );
  test("files that do not read", async () => {
    const texts = about.texts.map(([file, text]) => [file, file === "project.yaml" ? "format: 2" : text] as const);
    expect(await answers.answer({ ...about, texts }, { kind: "ladder", unit: "plover" }, quietly)).toEqual({
      kind: "none",
      why: "The files can't be read as they stand.",
    });
  });
});
