import { describe, expect, test } from "vitest";
import { toSI, unitOf } from "../quantity/units.ts";
import * as bending from "./bending.ts";
import * as electric from "./electric.ts";
import { cautionWords, localRules, type Method, pictures } from "./method.ts";
import * as peeling from "./peeling.ts";
import * as pulling from "./pulling.ts";
import { settingsOf } from "./read-off.ts";
import * as rubbing from "./rubbing.ts";
import * as sizing from "./sizing.ts";
import * as timing from "./timing.ts";
import * as trying from "./trying.ts";
import * as turning from "./turning.ts";
import * as warming from "./warming.ts";

// Methods are spread from each other: what one of them leaves in place of another's must still be its own.
const files = [bending, electric, peeling, pulling, rubbing, sizing, timing, trying, turning, warming];
const methods = files.flatMap((file) => Object.values(file) as Method[]);
/** What a rule says of the methods that break it. */
const broken = (rule: (m: Method) => boolean): string[] => methods.filter((m) => !rule(m)).map((m) => m.id);
const entryOf = (m: Method, symbol: string) => m.entries.find((e) => e.symbol === symbol);

test("there are methods enough", () => expect(methods.length).toBeGreaterThan(50));
describe("how a value is found", () => {
  test("closed is by the equation alone; solved is by one function, of a reading or of a piece", () => {
    const functions = (m: Method): number => (m.ofReading ? 1 : 0) + (m.ofPiece ? 1 : 0);
    expect(broken((m) => functions(m) === (m.form === "closed" ? 0 : 1))).toEqual([]);
  });
  test("a solved equation has two sides, a closed one is one expression", () =>
    expect(broken((m) => m.equation.split("=").length === (m.form === "solved" ? 2 : 1))).toEqual([]));
  test("what comes out of a solved one is named in it, and in no method is it one that was read in another sense", () => {
    expect(broken((m) => m.form === "closed" || new RegExp(`\\b${m.symbol}\\b`).test(m.equation))).toEqual([]);
    // An entry of the same letter is the value itself, as a length's.
    expect(broken((m) => entryOf(m, m.symbol) === undefined || m.equation === m.symbol)).toEqual([]);
    expect(broken((m) => m.settings.every((s) => s.symbol !== m.symbol))).toEqual([]);
  });
});
describe("what is read and what is set", () => {
  test("no symbol stands for two things", () =>
    expect(
      broken((m) => {
        const symbols = [...m.entries, ...m.settings].map((s) => s.symbol);
        return symbols.length > 0 && new Set(symbols).size === symbols.length;
      }),
    ).toEqual([]));
  test("every entry has a step, and errors that are given are more than nothing", () =>
    expect(
      broken((m) =>
        m.entries.every((e) => e.resolution > 0 && (e.zero ?? 1) > 0 && (e.scale ?? 0.001) > 0 && (e.scale ?? 0) < 0.2),
      ),
    ).toEqual([]));
  test("every setting is more than nothing by far more than it may be off", () =>
    expect(broken((m) => m.settings.every((s) => s.usual > 0 && s.within >= 0 && s.within < s.usual / 4))).toEqual([]));
  test("pairs in order and ends of a limit are entries in one unit; a limit's lower end is the one that must be less", () => {
    expect(
      broken((m) =>
        (m.order ?? []).every(
          ({ more, less, hint }) =>
            entryOf(m, more) !== undefined &&
            entryOf(m, more)?.unit === entryOf(m, less)?.unit &&
            /^[A-Z].*\.$/.test(hint),
        ),
      ),
    ).toEqual([]);
    expect(
      broken(
        ({ between, order }) =>
          between === undefined || (order ?? []).some(({ more, less }) => less === between[0] && more === between[1]),
      ),
    ).toEqual([]);
  });
  test("perfect instruments show a number for every entry, and keep the order that readings must have", () =>
    expect(
      broken((m) => {
        const row = m.shows(toSI(m.typical.value, unitOf(m.shownIn)), settingsOf(m), 0);
        return (
          m.entries.every((e) => Number.isFinite(row[e.symbol])) &&
          Object.keys(row).length === m.entries.length &&
          (m.between !== undefined || (m.order ?? []).every(({ more, less }) => row[more]! > row[less]!))
        );
      }),
    ).toEqual([]));
  test("the worked example has a number for every entry", () =>
    expect(broken((m) => m.example.rows.every((row) => row.length === m.entries.length))).toEqual([]));
});
describe("what it takes", () => {
  test("whole pieces, whole readings, minutes of at most half a day", () =>
    expect(
      broken(
        ({ pieces, repeats, minutes }) =>
          Number.isInteger(pieces) &&
          pieces > 0 &&
          Number.isInteger(repeats) &&
          repeats > 0 &&
          minutes > 0 &&
          minutes <= 240,
      ),
    ).toEqual([]));
  test("steps and needs are said: steps as sentences", () =>
    expect(
      broken((m) => m.needs.length > 0 && m.steps.length > 1 && m.steps.every((s) => /^[A-Z].*\.$/.test(s))),
    ).toEqual([]));
  test("where something is heated, the caution of what is hot goes with it", () => {
    const heated = methods.filter((m) => /\boven\b|warm box/.test([...m.needs, ...m.steps].join(" ")));
    expect(heated.length).toBeGreaterThan(1);
    for (const m of heated) expect(m.cautions, m.id).toContain("heat");
  });
});
describe("words of every card", () => {
  test("a caution is one sentence, and none is kept that no card says", () => {
    const said = new Set(methods.flatMap((m) => m.cautions));
    for (const [name, words] of Object.entries(cautionWords)) {
      expect(words, name).toMatch(/^[A-Z][^.]*\.$/);
      expect([...said], name).toContain(name);
    }
    expect(broken((m) => new Set(m.cautions).size === m.cautions.length)).toEqual([]);
  });
  test("no picture is listed twice, and local rules come first", () => {
    expect(new Set(pictures).size).toBe(pictures.length);
    expect(localRules).toBe("Local rules and licensed practice come first.");
  });
});
