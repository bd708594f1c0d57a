import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Given } from "../quantity/given.ts";
import { embossedTape, nominal, scene, sideCrossing, written } from "../scene.fixture.ts";
import {
  filmParty,
  isMeantToTouch,
  type Party,
  pocketParty,
  sidesOf,
  tapeParty,
  wantedGap,
  wordsOfContacts,
  wordsOfGaps,
} from "./wanted.ts";

const board: Party = { says: "main board", names: ["main board"], parts: ["board"] };
const rail: Party = { says: "rail", names: ["rail"], parts: [] };
const gaps = (lines: Record<string, string>) => ({
  clearances: Object.fromEntries(
    Object.entries(lines).map(([pair, text]) => [pair, written(`gaps/${pair}`, "g", text)]),
  ),
});
const anywhere = scene(sideCrossing(12), embossedTape(12));
const mm = (g: Given): number => +(nominal(anywhere, g) * 1e3).toFixed(9);

describe("the gap a pair should keep", () => {
  const all = gaps({
    default: "0.3 mm",
    "film / board": "0.5 mm",
    "film / main board": "0.8 mm",
    "tape pocket / board": "1 mm",
  });
  test("is that of its names before that of its parts, and that before the default", () => {
    expect(mm(wantedGap(all, filmParty, board))).toBe(0.8);
    expect(mm(wantedGap(all, pocketParty, board))).toBe(1);
    expect(mm(wantedGap(all, tapeParty, board))).toBe(0.3);
  });
  test("is the same whichever side is said first", () => {
    const words = ["film", "tape", "tape pocket", "board", "main board", "rail"];
    const parties = [filmParty, tapeParty, pocketParty, board, rail];
    fc.assert(
      fc.property(
        fc.constantFrom(...words),
        fc.constantFrom(...words),
        fc.constantFrom(...parties),
        fc.constantFrom(...parties),
        (p, q, a, b) => {
          const one = gaps({ default: "0.3 mm", [`${p} / ${q}`]: "2 mm" });
          const other = gaps({ default: "0.3 mm", [`${q} / ${p}`]: "2 mm" });
          expect(mm(wantedGap(one, a, b))).toBe(mm(wantedGap(other, a, b)));
          expect(mm(wantedGap(one, a, b))).toBe(mm(wantedGap(one, b, a)));
        },
      ),
      { seed: 3201, numRuns: 200 },
    );
  });
  test("stays where the pocket is meant, and does not reach the tape's flange", () => {
    const one = gaps({ "tape / board": "2 mm", "pocket / rail": "3 mm" });
    expect(mm(wantedGap(one, pocketParty, board))).toBe(0);
    expect(mm(wantedGap(one, tapeParty, board))).toBe(2);
    expect(mm(wantedGap(one, pocketParty, rail))).toBe(3);
  });
  test("is nothing where the file wants none: then only a contact is a fault, and the number says so itself", () => {
    const none = wantedGap({}, filmParty, board);
    expect(mm(none)).toBe(0);
    expect(none.origin).toMatchObject({ cite: expect.stringContaining("what is not meant to touch must not touch") });
    expect(wantedGap(gaps({ "film / rail": "1 mm" }), filmParty, board)).toBe(none);
  });
  test("of two lines that fit alike is the first", () => {
    const two = gaps({ "board / film": "1 mm", "film / board": "2 mm" });
    expect(mm(wantedGap(two, filmParty, board))).toBe(1);
  });
});

describe("what is meant to touch", () => {
  const said = (...pairs: string[]) => ({ "meant to touch": pairs });
  test("is said by name or by part, either side first", () => {
    for (const pair of ["film / board", "film / main board", "board / film", "main board/film"])
      expect(isMeantToTouch(said(pair), filmParty, board), pair).toBe(true);
    for (const pair of ["tape / board", "film / rail", "film", "film / board / rail", ""])
      expect(isMeantToTouch(said(pair), filmParty, board), pair).toBe(false);
  });
  test("for the tape's flange says nothing of its pockets", () => {
    expect(isMeantToTouch(said("tape / board"), pocketParty, board)).toBe(false);
    expect(isMeantToTouch(said("tape pocket / board"), pocketParty, board)).toBe(true);
    expect(isMeantToTouch(said("pocket / board"), pocketParty, board)).toBe(true);
  });
  test("is nothing where the file says nothing", () => expect(isMeantToTouch({}, filmParty, board)).toBe(false));
});

test("a pair is two names with a stroke between them", () => {
  expect(sidesOf("film / nip")).toEqual(["film", "nip"]);
  expect(sidesOf(" tape pocket/board ")).toEqual(["tape pocket", "board"]);
  for (const text of ["film", "", "/", "film /", "a / b / c"]) expect(sidesOf(text), text).toBeUndefined();
});
test("the words of a file are its bodies, parts and keep-outs beside tape, pockets and film; contacts also know guides and members", () => {
  const { bodies, ...rest } = { ...sideCrossing(12), bodies: [] };
  const body = (name: string, part?: string) => ({ name, ...(part ? { part } : {}) }) as never;
  const unit = { ...rest, bodies: [body("main board", "board")], "keep out": [body("rail")] };
  expect(bodies).toEqual([]);
  expect(wordsOfGaps(unit)).toEqual(
    expect.arrayContaining(["tape", "tape pocket", "film", "disc", "main board", "board", "rail"]),
  );
  expect(wordsOfGaps(unit)).not.toContain("ledge");
  expect(wordsOfContacts(unit)).toEqual(
    expect.arrayContaining(["ledge", "lips", "hold-down", "guide", "shoulder", "main board"]),
  );
});
