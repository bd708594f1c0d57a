import { describe, expect, test } from "vitest";
import { assumed, assumptionNames } from "../assume.ts";
import { checks } from "../checks.ts";
import { chosen } from "../quantity/check.ts";
import { sameDimension } from "../quantity/dimension.ts";
import type { Given } from "../quantity/given.ts";
import { type Quantity, rootsOf } from "../quantity/model.ts";
import { unitOf } from "../quantity/units.ts";
import { scenes } from "../scene.fixture.ts";
import { tapeFields } from "../tape/tape-fields.ts";
import type { Field, OptionalField, QuantityField } from "../unit/field.ts";
import { builtForLetters, unitFields } from "../unit/unit-fields.ts";
import {
  allCards,
  answerOf,
  cardFor,
  type Decides,
  exampleOf,
  expected,
  expectedWords,
  plainAddress,
  standOf,
  stopsSide,
  usualAnswer,
  whyNoCard,
} from "./card.ts";

/** Every number a file may hold, by its path; "#" stands for an item, "NAME" for a name of the user's own. */
function* numbersIn(field: Field | OptionalField<Field>, path: string): Generator<readonly [string, QuantityField]> {
  switch (field.kind) {
    case "optional":
      yield* numbersIn(field.of, path);
      break;
    case "quantity":
      yield [path, field];
      break;
    case "group":
      for (const [name, inner] of Object.entries(field.members))
        yield* numbersIn(inner, path.endsWith("/") ? path + name : `${path}.${name}`);
      break;
    case "list":
      yield* numbersIn(field.of, `${path}.1`);
      break;
    case "map":
      yield* numbersIn(field.of, `${path}.name`);
      break;
    case "tuple":
      for (const [i, inner] of field.of.entries()) yield* numbersIn(inner, `${path}.${i + 1}`);
      break;
    case "either":
      for (const inner of field.of) yield* numbersIn(inner, path);
      break;
    default:
  }
}
const fields = [
  ...numbersIn(unitFields, "plover/"),
  ...numbersIn(tapeFields, "tapes/coil-12/"),
  ...Object.entries(builtForLetters).map(([letter, f]) => [`plover/built for.24.${letter}`, f] as const),
];
const assumedAll = assumed();
const guessed = assumptionNames.filter((name) => assumedAll[name].unknown);

test("the tables are walked whole", () => {
  expect(fields.length).toBeGreaterThan(300);
  expect(guessed.length).toBeGreaterThan(75);
});
describe("every guess of assume.ts has a card in its own dimension, or a reason why not", () => {
  test.each(guessed)("%s", (name) => {
    const given = assumedAll[name];
    const card = cardFor(given);
    if (card) expect(unitOf(card.method.unit).dimension, card.id).toEqual(given.dimension);
    else expect(whyNoCard(given.address) ?? "").toMatch(/\w{4}/);
  });
});
test("every number of a unit file and of a tape file has a card in its own dimension, or a reason why not", () => {
  const without: string[] = [];
  for (const [address, field] of fields) {
    const card = cardFor(address);
    if (!card) {
      if (whyNoCard(address) === undefined) without.push(address);
    } else if (field.unit !== "any" && !sameDimension(unitOf(field.unit).dimension, unitOf(card.method.unit).dimension))
      without.push(`${address}: ${card.id} gives ${card.method.unit}, the field wants ${field.unit}`);
  }
  expect(without).toEqual([]);
});
test("every unknown that any check of the scenes rests on has a card in its own dimension, or a reason why not", () => {
  const unknowns = new Map<string, Given>();
  for (const [, scene] of scenes)
    for (const check of checks) {
      if (check.absent(scene) !== undefined) continue;
      const sides = [
        chosen(check.value, scene),
        chosen<Quantity>(check.atLeast, scene),
        chosen<Quantity>(check.atMost, scene),
        ...(check.beside?.(scene) ?? []),
      ];
      for (const q of sides) if (q) for (const g of rootsOf(q, scene)) if (g.unknown) unknowns.set(g.address, g);
    }
  expect(unknowns.size).toBeGreaterThan(90);
  // The tapes of the scenes stand in no folder: "embossed 12/T" would be "tapes/embossed-12/T".
  const inFolder = (address: string): string =>
    address.replace(/^(?:embossed|punched|own|pressed) \d+\//, "tapes/invented/");
  const without = [...unknowns.values()]
    .map((g): Given => ({ ...g, address: inFolder(g.address) }))
    .filter((g) => !cardFor(g) && whyNoCard(g.address) === undefined);
  expect(without.map((g) => `${g.address} [${g.unit}]`)).toEqual([]);
});
test("a limit of judgement is judged by a trial that runs or fails", () => {
  expect(cardFor("assume/mismatch limit")?.method.id).toBe("trial-of-strain");
  expect(cardFor("assume/winding limit")?.method.id).toBe("trial-of-heat");
});
test("what is chosen has no card, and says why", () => {
  expect(cardFor("plover/clearances.default")).toBeUndefined();
  expect(whyNoCard("plover/clearances.default")).toBe("a wanted gap is chosen");
  expect(whyNoCard("plover/film.friction")).toBeUndefined();
  expect(cardFor("nowhere")).toBeUndefined();
});
test.each([
  ["plover/per width.24.nip.preload", "unit/nip.preload"],
  ["plover/film.guides.shoulder.through.2", "unit/film.guides.shoulder.through.2"],
  ["tapes/coil-12/film.seal", "tape/film.seal"],
  ["plover/built for.24.T", "built for/T"],
  ["plover/built for.24.T as drawn", "built for/T"],
  ["assume/film friction", "assume/film friction"],
])("%s is %s without the names of files", (address, plain) => expect(plainAddress(address)).toBe(plain));
test("cards are told apart by their ids, and each asks a question", () => {
  const cards = allCards();
  expect(cards.length).toBeGreaterThan(80);
  expect(new Set(cards.map((c) => c.id)).size).toBe(cards.length);
  for (const c of cards) {
    expect(c.asks, c.id).toMatch(/^[A-Z].*\?$/);
    expect(c.cautions.at(-1), c.id).toContain("Local rules");
    expect(c.steps.length, c.id).toBeGreaterThan(0);
    expect(c.lead, c.id).toContain(`${c.method.minutes} minutes`);
    const usual = usualAnswer(c);
    expect(usual.within / Math.abs(usual.value), c.id).toBeLessThan(1);
    expect(exampleOf(c).gives, c.id).not.toBeNaN();
  }
});

const decides = (more: Partial<Decides["decisive"]> = {}): Decides => ({
  unit: "Plover",
  tape: "so20-24",
  check: "nip.pulls",
  decisive: {
    address: "plover/film.friction",
    symbol: "mu",
    tipping: 0.34,
    guess: { low: 0.18, high: 0.35 },
    unit: "1",
    shownIn: "",
    shareIfMeasured: 0.99,
    ...more,
  },
});
test("a card made out for a finding says what it decides, what is guessed and what it takes", () => {
  expect(cardFor("plover/film.friction", decides())!.lead).toBe(
    "Above 0.34 the check nip.pulls of Plover stops on so20-24. You guess 0.18 to 0.35. 25 minutes, 3 reels; nothing to buy.",
  );
});
test("a finding that holds at the middle of its guess stops on the other side of the tipping value", () => {
  expect(stopsSide(decides().decisive)).toBe("above");
  expect(stopsSide(decides({ shareIfMeasured: 0.1 }).decisive)).toBe("below");
  expect(stopsSide(decides({ tipping: 0.5 }).decisive)).toBeUndefined();
  expect(stopsSide(decides({ tipping: null }).decisive)).toBeUndefined();
});
describe("where an answer stands", () => {
  const card = cardFor("plover/film.friction", decides())!;
  const answer = (pairs: readonly (readonly number[])[]) => {
    const a = answerOf(card, { pieces: pairs.map((p) => [p]) });
    if (a.kind !== "answer") throw new Error(a.found);
    return a;
  };
  // ln(420/95)/(2 pi) = 0.237. [derived]
  test("clear of the tipping value on the kind side it holds", () => {
    const stand = standOf(
      answer([
        [420, 95],
        [418, 96],
        [425, 95],
        [415, 94],
      ]),
      decides(),
    );
    expect(stand).toMatchObject({ standing: "feeds", guess: "inside" });
    expect(stand.says).toContain("nip.pulls holds on so20-24");
  });
  // ln(1000/60)/(2 pi) = 0.448. [derived]
  test("clear of it on the other side it stops, and is told to be above the guess", () => {
    const stand = standOf(
      answer([
        [1000, 60],
        [1000, 61],
        [1005, 60],
        [1000, 60],
      ]),
      decides(),
    );
    expect(stand).toMatchObject({ standing: "stops", guess: "above" });
    expect(stand.says).toContain("0.18 to 0.35");
  });
  test("with the tipping value inside its uncertainty it straddles", () => {
    expect(
      standOf(
        answer([
          [600, 80],
          [700, 80],
          [560, 75],
        ]),
        decides(),
      ).standing,
    ).toBe("straddles");
  });
});
// Half round at friction 0.25: 200 g by e^(0.25 pi) = 2.193 and its inverse. [derived]
test("what to expect is said before it is read", () => {
  const [up, down] = expected(cardFor("plover/film.friction")!, 0.25);
  expect(up).toBeCloseTo(438.6, 0);
  expect(down).toBeCloseTo(91.2, 0);
});

test("a card made out for a finding says what to expect at both ends of the guess", () => {
  // 200 g by e^(0.18 pi) = 1.760 and e^(0.35 pi) = 3.003. [derived]
  expect(expectedWords(cardFor("plover/film.friction", decides())!)).toMatch(
    /^To expect: at 0\.18 pull while it moves up 352 gf, .* 114 gf; at 0\.35 pull while it moves up 601 gf, .* 66\.6 gf\.$/,
  );
  expect(expectedWords(cardFor("plover/film.friction")!)).toBeUndefined();
});

test("what is seen is said in its own words, and stays open where looks differ", () => {
  const of: Decides = {
    unit: "Plover",
    tape: "so20-24",
    check: "film.stick",
    decisive: {
      address: "catalogue/seal kind",
      symbol: "q_p",
      tipping: null,
      guess: { low: 0, high: 1 },
      unit: "1",
      shownIn: "",
      shareIfMeasured: 0.4,
      words: ["heat activated", "pressure sensitive"],
    },
  };
  const card = cardFor("catalogue/seal kind", of)!;
  const says = (looks: readonly number[]) => {
    const a = answerOf(card, { pieces: looks.map((v) => [[v]]) });
    return a.kind === "answer" ? standOf(a, of).says : a.found;
  };
  expect(says([2, 2, 2])).toBe("It is pressure sensitive.");
  expect(says([1, 1, 1])).toBe("It is heat activated.");
  expect(says([1, 2, 1])).toContain("Keep it open.");
});
