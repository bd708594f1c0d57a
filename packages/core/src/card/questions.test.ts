import { describe, expect, test } from "vitest";
import { assumed, assumptionNames } from "../assume.ts";
import { tapeFields } from "../tape/tape-fields.ts";
import type { Field, OptionalField } from "../unit/field.ts";
import { unitFields } from "../unit/unit-fields.ts";
import * as bending from "./bending.ts";
import { cardFor, fits, whyNoCard } from "./card.ts";
import * as electric from "./electric.ts";
import type { Method } from "./method.ts";
import * as peeling from "./peeling.ts";
import * as pulling from "./pulling.ts";
import { notMeasured, questions } from "./questions.ts";
import * as rubbing from "./rubbing.ts";
import * as sizing from "./sizing.ts";
import * as timing from "./timing.ts";
import * as trying from "./trying.ts";
import * as turning from "./turning.ts";
import * as warming from "./warming.ts";

const patterns = questions.flatMap((q) => q.answers.map((pattern): [string, string] => [pattern, q.id]));
const files = [bending, electric, peeling, pulling, rubbing, sizing, timing, trying, turning, warming];
const written = files.flatMap((file) => Object.values(file) as Method[]);

describe("the first question that fits counts", () => {
  test("so none is hidden behind a wider one before it, nor behind what nobody measures", () => {
    const hidden = patterns.flatMap(([pattern, id]) =>
      ["any", "any words.7"].flatMap((word) => {
        const address = pattern.replaceAll("*", word);
        const got = cardFor(address)?.id ?? whyNoCard(address);
        return got === id ? [] : [`${address} of ${id} goes to ${got}`];
      }),
    );
    expect(hidden).toEqual([]);
  });
  test("so what has a question of its own is not taken for a plain length, and a plain length is", () => {
    const asked = [
      ["unit/nip.spring.rate", "spring-rate"],
      ["unit/nip.spring.free length", "length"],
      ["unit/nip.rollers.line stiffness", "roller-face"],
      ["unit/nip.rollers.parallelism", "nip-parallel"],
      ["unit/nip.rollers.driven.diameter", "length"],
      ["unit/hold-down.preload", "hold-down-force"],
      ["unit/hold-down.turn", "angle"],
      ["unit/hold-down.length", "length"],
      ["unit/tape.exit.force", "exit-force"],
      ["unit/tape.exit.x", "length"],
      ["unit/sprocket.tooth.flank", "tooth-flank"],
      ["unit/sprocket.tooth.height", "length"],
      ["built for/T1", "layer-thickness"],
      ["built for/T", "pocket-thickness"],
      ["built for/A0", "length"],
      ["tape/film.width", "film-width"],
      ["tape/W", "length"],
    ] as const;
    for (const [address, id] of asked) expect(cardFor(address)?.id, address).toBe(id);
  });
  test("no pattern stands in two places", () => {
    const all = [...patterns.map(([p]) => p), ...notMeasured.map(([p]) => p)];
    expect(all.filter((p, i) => all.indexOf(p) !== i)).toEqual([]);
  });
});
describe("no pattern answers what nobody can ask", () => {
  /** Every path of a file's numbers and words; a name or a place in a list is "1", and a list of one may go by its own name. */
  function* pathsIn(field: Field | OptionalField<Field>, path: string): Generator<string> {
    if (field.kind === "optional") yield* pathsIn(field.of, path);
    else if (field.kind === "group")
      for (const [name, inner] of Object.entries(field.members)) yield* pathsIn(inner, path ? `${path}.${name}` : name);
    else if (field.kind === "list" || field.kind === "map") {
      if (field.kind === "list" && field.orOne) yield* pathsIn(field.of, path);
      yield* pathsIn(field.of, `${path}.1`);
    } else if (field.kind === "tuple") for (const [i, f] of field.of.entries()) yield* pathsIn(f, `${path}.${i + 1}`);
    else if (field.kind === "either") for (const f of field.of) yield* pathsIn(f, path);
    else yield path;
  }
  const everything = assumed();
  const there = {
    // What a project believes one way or the other stands beside the assumptions.
    assume: [...assumptionNames.map((name) => everything[name].address), "assume/peel front"],
    unit: [...pathsIn(unitFields, "")].map((p) => `unit/${p}`),
    tape: [...pathsIn(tapeFields, "")].map((p) => `tape/${p}`),
  };
  test.each(["assume", "unit", "tape"] as const)("of %s", (file) => {
    const own = [...patterns, ...notMeasured].map(([p]) => p).filter((p) => p.startsWith(`${file}/`));
    expect(own.length).toBeGreaterThan(10);
    expect(own.filter((pattern) => !there[file].some((address) => fits(pattern, address)))).toEqual([]);
  });
  test("and every pattern stands in a file that there is", () => {
    const known = /^(?:assume|unit|tape|catalogue|built for|project|bound)\//;
    expect([...patterns, ...notMeasured].map(([p]) => p).filter((p) => !known.test(p))).toEqual([]);
  });
});
test("what is asked of one drive is asked of the other", () => {
  const of = (drive: string): string[] =>
    patterns
      .filter(([p]) => p.startsWith(`unit/${drive}.`))
      .map(([p, id]) => `${id}: ${p.slice(`unit/${drive}.`.length)}`);
  expect(of("feed drive").length).toBeGreaterThan(15);
  expect(of("peel drive")).toEqual(of("feed drive"));
});
test("every method that is written down is asked for; the plain clock is only what others are made from", () => {
  const asked = new Set(questions.map((q) => q.method));
  expect(written.filter((m) => !asked.has(m)).map((m) => m.id)).toEqual(["clock"]);
});
describe("a method that says nothing of its subject gets it from the question", () => {
  const withMethod = (m: Method) => questions.filter((q) => q.method === m);
  test("two pulls: which is the first and which the second", () => {
    const asked = withMethod(rubbing.forceRatio);
    expect(asked.length).toBeGreaterThan(2);
    for (const { id, mind } of asked) expect(mind, id).toMatch(/First.*: .*Second: /);
  });
  test("a share of a room: what the room is", () => {
    const asked = withMethod(sizing.roomShare);
    expect(asked.length).toBeGreaterThan(3);
    for (const { id, mind } of asked) expect(mind, id).toContain("Room: ");
  });
  test("one or two: what is 1 and what is 2", () => {
    for (const { id, mind } of withMethod(trying.look)) expect(mind, id).toMatch(/: 1 .*[,;] .*2 .*\.$/);
  });
});
describe("what nobody measures", () => {
  test("has no card, and a reason that goes on after a colon", () => {
    for (const [pattern, why] of notMeasured) {
      const address = pattern.replaceAll("*", "any");
      expect(cardFor(address), pattern).toBeUndefined();
      expect(whyNoCard(address), pattern).toBe(why);
      expect(why, pattern).toMatch(/^[a-z].*[^.]$/);
    }
  });
  test("is what is asked of the units and what holds by definition, whatever it is called", () => {
    for (const address of ["project/anything", "bound/anything.7"]) expect(whyNoCard(address), address).toBeDefined();
    expect(patterns.filter(([p]) => /^(?:project|bound)\//.test(p))).toEqual([]);
  });
});
