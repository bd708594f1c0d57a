import { createHash } from "node:crypto";
import { describe, expect, test } from "vitest";
import { checkPlay } from "../channel/play.ts";
import { checks } from "../checks.ts";
import { filmPull } from "../film/pull.ts";
import { checkPulls, checkSlips } from "../nip/window.ts";
import type { Check } from "../quantity/check.ts";
import { belief } from "../quantity/given.ts";
import { phi } from "../quantity/law.ts";
import type { Model } from "../quantity/model.ts";
import { embossedTape, nominal, scene as sceneOf, scenes, sideCrossing } from "../scene.fixture.ts";
import type { Scene } from "../scene.ts";
import { beliefDraws, Cell } from "../study/cell.ts";
import { Deviates } from "../study/deviates.ts";
import { check, closed, invented, number, plainScene, solved } from "../study/plain.fixture.ts";
import { evenWeights, judge } from "./judge.ts";

const ends = 1.959963984540054;
const none: ReadonlySet<string> = new Set();
const seed1 = new Deviates(1);
const judged = (
  scene: Scene,
  list: readonly Check[],
  more: { weights?: Float64Array; contradicted?: ReadonlySet<string>; deviates?: Deviates } = {},
) =>
  judge({
    unit: "unit",
    tape: "tape",
    scene,
    checks: list,
    deviates: more.deviates ?? seed1,
    weights: more.weights ?? evenWeights,
    contradicted: more.contradicted ?? none,
  });
const bound = (v: number) => number("bound", v < 0 ? `-${-v}` : `${v}`);
const over = (id: string, value: Model, least: number, more: Partial<Check> = {}) =>
  check(id, { value, atLeast: bound(least), ...more });
const under = (id: string, value: Model, most: number, more: Partial<Check> = {}) =>
  check(id, { value, atMost: bound(most), ...more });
/** Share of belief draws for which the lognormal guess low..high lies where `holds` says. Same draws, law by hand. */
const share = (address: string, low: number, high: number, holds: (x: number) => boolean) =>
  seed1
    .normal(`belief ${address}`, beliefDraws)
    .filter((z) => holds(Math.sqrt(low * high) * (high / low) ** (z / (2 * ends)))).length / beliefDraws;

describe("the verdict of a tape", () => {
  const u = number("u", "1..4 guess");
  const value = closed("u", { u });
  const safe = over("safe", closed("a", { a: number("a", "5 ±1") }), 2);

  test("is that of the share of belief in which every hard check holds at once", () => {
    const joint = share("u", 1, 4, (x) => x >= 1.5 && x <= 3);
    const found = judged(plainScene(), [safe, over("low", value, 1.5), under("high", value, 3)]);
    expect(found.share).toBeCloseTo(joint, 12);
    expect(found.shareAlone).toBeCloseTo(joint, 12);
    expect(found.verdict).toBe("depends");
    const [s, low, high] = found.findings;
    expect([s!.verdict, s!.share]).toEqual(["feeds", 1]);
    expect(low!.share).toBeCloseTo(
      share("u", 1, 4, (x) => x >= 1.5),
      12,
    );
    expect(high!.share).toBeCloseTo(
      share("u", 1, 4, (x) => x <= 3),
      12,
    );
    // The shares alone do not multiply to the joint one: both hang on one number.
    expect(Math.abs(found.share! - low!.share! * high!.share!)).toBeGreaterThan(0.02);
  });
  test("stops where each check alone depends but no value of their unknown passes both", () => {
    const found = judged(plainScene(), [over("low", value, 2.1), under("high", value, 1.9)]);
    expect(found.findings.map((f) => f.verdict)).toEqual(["depends", "depends"]);
    expect([found.verdict, found.share]).toEqual(["stops", 0]);
    expect([...found.first].sort()).toEqual(["high", "low"]);
  });
  test("feeds where all hard checks hold, and nothing stands first", () => {
    expect(judged(plainScene(), [safe])).toMatchObject({
      verdict: "feeds",
      share: 1,
      first: [],
      W: 12,
      unit: "unit",
      tape: "tape",
    });
  });
  test("names first what stops first: hard checks that do not feed, the least share first", () => {
    const found = judged(plainScene(), [
      safe,
      over("nearly", value, 1.4),
      over("never", value, 40),
      over("seldom", value, 3),
    ]);
    expect(found.verdict).toBe("stops");
    expect(found.first).toEqual(["never", "seldom", "nearly"]);
  });
  // Four independent checks at 96 % each make 85 % together.
  test("may depend though every check alone feeds; the weakest is named", () => {
    const list = ["p", "q", "r", "s"].map((name, i) =>
      over(name, closed("x", { x: number(name, "1..4 guess") }), 1.07 - 0.02 * i),
    );
    const found = judged(plainScene(), list);
    expect(found.findings.map((f) => f.verdict)).toEqual(["feeds", "feeds", "feeds", "feeds"]);
    expect(found.verdict).toBe("depends");
    const least = Math.min(...found.findings.map((f) => f.share!));
    expect(found.first).toEqual([found.findings.find((f) => f.share === least)!.check]);
  });
  test("is not coloured by what only adds error, wears or annoys", () => {
    for (const severity of ["A", "L", "N"] as const) {
      const found = judged(plainScene(), [safe, over("soft", value, 40, { severity })]);
      expect(found.findings[1]).toMatchObject({ verdict: "stops", share: 0, severity });
      expect(found).toMatchObject({ verdict: "feeds", share: 1, first: [] });
    }
  });
  test("follows the weights of belief; the share before them stays beside it", () => {
    // Weight only where u is above 2.
    const weights = Float64Array.from(seed1.normal("belief u", beliefDraws), (z) => (z > 0 ? 1 : 0));
    const found = judged(plainScene(), [over("low", value, 2)], { weights });
    expect(found).toMatchObject({ verdict: "feeds", share: 1, verdictAlone: "depends" });
    expect(found.shareAlone).toBeCloseTo(
      share("u", 1, 4, (x) => x >= 2),
      12,
    );
    expect(found.findings[0]).toMatchObject({ verdict: "feeds", share: 1 });
    expect(found.findings[0]!.shareAlone).toBeCloseTo(found.shareAlone!, 12);
  });
});

describe("a check that does not apply", () => {
  const value = closed("a", { a: number("a", "5") });
  const absent = over("absent", value, 2, { absent: () => "the unit has no nip" });
  test("is not applicable, says why, and is never a pass", () => {
    const found = judged(plainScene(), [absent, over("no value", value, 2, { value: () => undefined })]);
    expect(found).toMatchObject({ verdict: "n/a", share: null, shareAlone: null, verdictAlone: "n/a", first: [] });
    expect(found.findings[0]).toMatchObject({
      verdict: "n/a",
      share: null,
      value: null,
      margin: null,
      letter: null,
      because: "Not applicable: the unit has no nip.",
    });
    expect(found.findings[1]!.because).toBe("Not applicable: the unit has no such member.");
  });
  test("leaves the others' verdict alone", () => {
    expect(judged(plainScene(), [absent, over("holds", value, 2)]).verdict).toBe("feeds");
    expect(judged(plainScene(), [absent, over("fails", value, 9)]).verdict).toBe("stops");
  });
  test("makes no tape feed where only soft checks are left", () => {
    expect(judged(plainScene(), [absent, over("soft", value, 2, { severity: "N" })]).verdict).toBe("n/a");
  });
});

describe("a check that answers nothing", () => {
  const a = number("a", "5 sd 0.1");
  const broken = solved("broken", { a }, () => {
    throw new RangeError("the film path turns back on itself");
  });
  test("stops the tape and says what its model says", () => {
    const found = judged(plainScene(), [over("asks", broken, 0)]);
    expect(found).toMatchObject({ verdict: "stops", share: 0, first: ["asks"] });
    expect(found.findings[0]).toMatchObject({
      verdict: "stops",
      value: null,
      ratio: null,
      margin: -6,
      because: "No answer: the film path turns back on itself.",
    });
    expect(found.findings[0]!.where).toBeUndefined();
  });
  test("says so too where a model below it is the one without an answer, or its bound", () => {
    const below = closed("2*b", { b: broken });
    expect(judged(plainScene(), [over("below", below, 0)]).findings[0]).toMatchObject({
      verdict: "stops",
      value: null,
      because: "No answer: the film path turns back on itself.",
    });
    const held = check("bound", { value: closed("a", { a }), atMost: below });
    const found = judged(plainScene(), [held]).findings[0]!;
    expect(found).toMatchObject({
      verdict: "stops",
      value: 5,
      ratio: null,
      bounds: {},
      because: "No answer: the film path turns back on itself.",
    });
  });
  test("says which number is not finite where nothing threw", () => {
    const found = judged(plainScene(), [
      over("root", closed("sqrt(1 - a)", { a }, { title: "root of what is left" }), 0),
    ]);
    expect(found.findings[0]).toMatchObject({
      verdict: "stops",
      because: "No answer: root of what is left is not finite.",
    });
    // Above a bound without end is no pass either.
    expect(judged(plainScene(), [over("pole", closed("1/(a - a)", { a }, { title: "pole" }), 0)])).toMatchObject({
      verdict: "stops",
    });
  });
  test("hands on plain numbers: nothing in the result is lost as JSON", () => {
    const list = [
      over("asks", broken, 0),
      over(
        "part",
        solved("part", { u: number("u", "1..4 guess") }, ({ u }: { u: number }) => {
          if (u > 3) throw new RangeError("too much");
          return u;
        }),
        1.2,
      ),
    ];
    const found = judged(plainScene(), list);
    expect(JSON.parse(JSON.stringify(found))).toEqual(found);
  });
});

describe("a finding", () => {
  const [u, a] = [number("u", "1..4 guess"), number("a", "3 ±0.5 mm", { unit: "mm" })];
  test("has the decisive unknown where its verdict depends on one, and only there", () => {
    const find = (least: number) => judged(plainScene(), [over("c", closed("u", { u }), least)]).findings[0]!;
    const open = find(2.2);
    expect(open.share).toBeGreaterThan(0);
    expect(open.share).toBeLessThan(1);
    expect(open.decisive).toMatchObject({
      address: "u",
      symbol: "u",
      guess: { low: 1, high: 4 },
      unit: "1",
      shareIfMeasured: 0,
    });
    expect(open.decisive!.tipping).toBeCloseTo(2.2, 2);
    expect(find(100).decisive).toBeUndefined();
    expect(find(0.001).decisive).toBeUndefined();
    // A few draws in a thousand fall short: it feeds, and still one may ask what on.
    const nearly = find(0.9);
    expect(nearly.verdict).toBe("feeds");
    expect(nearly.share).toBeLessThan(1);
    expect(nearly.decisive!.tipping).toBeCloseTo(0.9, 2);
  });
  test("of a switch names its words", () => {
    const s = belief("s", "s", ["free", "clamped"], 0.5, invented);
    const found = judged(plainScene(), [under("c", closed("2*s", { s }), 1)]).findings[0]!;
    expect(found.decisive).toMatchObject({
      address: "s",
      tipping: 1,
      guess: { low: 0, high: 1 },
      words: ["free", "clamped"],
    });
  });
  // Value 3 mm, bounds 2 and 7 mm: nearer to the lower one, 1 mm off.
  test("gives value, bounds and their ratio as written, in SI, the ratio to the nearer bound", () => {
    const length = (v: string) => number("bound", v, { unit: "mm" });
    const window = (least: string, most: string) =>
      judged(plainScene(), [
        check("w", { value: closed("a", { a }, { unit: "m" }), atLeast: length(least), atMost: length(most) }),
      ]).findings[0]!;
    const found = window("2 mm", "7 mm");
    expect(found.value).toBeCloseTo(0.003, 15);
    expect(found.unit).toBe("m");
    expect(found.bounds).toEqual({ least: 0.002, most: 0.007 });
    expect(found.ratio).toBeCloseTo(1.5, 12);
    expect(window("0 mm", "4 mm").ratio).toBeCloseTo(0.75, 12);
    expect(window("2.9 mm", "60 mm").ratio).toBeCloseTo(3 / 2.9, 12);
  });
  test("has no ratio to a bound that is nought", () => {
    expect(judged(plainScene(), [over("c", closed("u", { u }), 0)]).findings[0]!.ratio).toBeNull();
  });
  test("is outside range where any model behind it is, however deep, and keeps its verdict", () => {
    const inner = closed("2*u", { u }, { valid: { u: [0.1, 1.5] } });
    const outer = closed("i + 1", { i: inner });
    const found = judged(plainScene(), [over("deep", outer, 0), over("plain", closed("u", { u }), 0)]);
    expect(found.findings[0]).toMatchObject({ status: "outside range", verdict: "feeds" });
    expect(found.findings[1]).toMatchObject({ status: "established" });
    // The median, 2, is on the edge of this one.
    expect(
      judged(plainScene(), [over("edge", closed("2*u", { u }, { valid: { u: [2, 3] } }), 0)]).findings[0]!.status,
    ).toBe("established");
    expect(
      judged(plainScene(), [
        check("bound", { value: closed("u", { u }), atMost: closed("9*u", { u }, { valid: { u: [3, 4] } }) }),
      ]).findings[0]!.status,
    ).toBe("outside range");
    expect(
      judged(plainScene(), [over("judgement", closed("u", { u }), 0, { status: "judgement" })]).findings[0]!.status,
    ).toBe("judgement");
  });
  test("says its sentence with numbers, where the worst one is, and what stands beside", () => {
    const value = {
      ...solved(
        "list",
        { list: [a, number("b", "1 mm", { unit: "mm" })] },
        ({ list }: { list: readonly number[] }) => Math.min(...list),
        { unit: "m" },
      ),
      where: (x: Readonly<Record<string, unknown>>) =>
        `piece ${(x.list as number[]).indexOf(Math.min(...(x.list as number[]))) + 1}`,
    };
    const beside = closed("2*a", { a }, { id: "twice", title: "twice as much", unit: "m" });
    const absent = closed("a", { a });
    const one = check("c", {
      value,
      atLeast: number("bound", "0.2 mm", { unit: "mm" }),
      because: (say) => `The least is ${say(value)}.`,
      beside: () => [beside, { ...absent, reads: () => undefined }],
    });
    const found = judged(plainScene(), [one]).findings[0]!;
    expect(found.because).toBe("The least is 1.0 mm.");
    expect(found.where).toBe("piece 2");
    expect(found.beside).toEqual([{ id: "twice", title: "twice as much", value: 0.006, unit: "m", shownIn: "mm" }]);
  });
  test("holds the corners of belief, which decide nothing", () => {
    const found = judged(plainScene(), [over("c", closed("u", { u }), 2)]).findings[0]!;
    expect(found.corners!.best).toBeCloseTo(2, 9);
    expect(found.corners!.worst).toBeCloseTo(-1, 9);
  });
  test("does not change with the company it is judged in", () => {
    const list = [
      over("one", closed("u*a/mm", { u, a }), 5),
      under("two", closed("a/mm", { a }), 3.4),
      under("three", closed("u", { u }), 3),
    ];
    const together = judged(plainScene(), list).findings;
    for (const [i, one] of list.entries()) expect(judged(plainScene(), [one]).findings[0]).toEqual(together[i]);
  });
});

describe("a check that the record contradicts", () => {
  const u = number("u", "1..4 guess");
  const fails = over("fails", closed("u", { u }), 40);
  const open = over("open", closed("u", { u }), 2);
  test("keeps its words but can't stop the tape", () => {
    const found = judged(plainScene(), [fails, open], { contradicted: new Set(["fails"]) });
    expect(found.findings[0]).toMatchObject({
      verdict: "stops",
      share: 0,
      contradicted: true,
      because: judged(plainScene(), [fails]).findings[0]!.because,
    });
    expect(found.share).toBeCloseTo(
      share("u", 1, 4, (x) => x >= 2),
      12,
    );
    expect(found.verdict).toBe("depends");
    expect(found.first).toEqual(["open"]);
    expect(found.findings[1]!.contradicted).toBe(false);
  });
  test("leaves no verdict, and no pass, where it was the only hard one", () => {
    expect(judged(plainScene(), [fails], { contradicted: new Set(["fails"]) })).toMatchObject({
      verdict: "n/a",
      share: null,
    });
  });
});

describe("the nip's window: two checks on one friction", () => {
  /**
   * The side crossing on a tape whose film needs a pull F known to the last digit, and a nip of which only the friction is unknown:
   * S = 2 N mu. F comes out of the film's own model; where mu must lie for S >= F and S <= F_b/s is worked out here.
   */
  const film = { ...embossedTape(12).film };
  const at = (name: string, text: string, unit = "") => number(name, text, { unit });
  const base = sceneOf(sideCrossing(12), {
    ...embossedTape(12),
    letters: { ...embossedTape(12).letters, T: at("T", "0.3 mm", "mm") },
    film: {
      ...film,
      seal: at("seal", "0.81 N", "N"),
      rate: at("rate", "0.15"),
      ageing: at("ageing", "1"),
      testAngle: at("angle", "170 deg"),
      testSpeed: at("speed", "5 mm/s", "mm/s"),
      friction: {},
      frictionOfClass: {},
    },
  });
  const bars: Scene = { ...base, unit: { ...base.unit, film: { ...base.unit.film, friction: at("bars", "0.25") } } };
  const F = nominal(bars, filmPull);
  const mu = number("mu", "0.2..0.6 guess");
  const withNip = (preload: number, bears: number): Scene => ({
    ...bars,
    unit: {
      ...bars.unit,
      nip: {
        ...bars.unit.nip!,
        friction: [mu],
        preload: number("preload", `${preload.toFixed(6)} N`, { unit: "N", lever: [0.5, 30], settable: true }),
      },
    },
    tape: { ...bars.tape, film: { ...bars.tape.film, break: at("break", `${(1.5 * bears).toFixed(9)} N`, "N") } },
  });
  const median = Math.sqrt(0.12);
  const sd = Math.log(3) / (2 * ends);
  /** A preload at which the median friction just pulls. */
  const just = F / (2 * median);
  const window = [checkPulls, checkSlips];

  // A film that bears 0.9 F: S >= F and S <= 0.9 F have no friction in common, at any preload.
  test("stops without a common friction, though each check alone depends", () => {
    const found = judged(withNip(just, 0.9 * F), window);
    const [pulls, slips] = found.findings;
    // ln S is normal: P(S >= F) = 1/2, P(S <= 0.9 F) = Phi(ln 0.9/sd); 1000 draws, four standard errors.
    const close = (found: number, exact: number) =>
      expect(Math.abs(found - exact)).toBeLessThan(4 * Math.sqrt((exact * (1 - exact)) / beliefDraws));
    close(pulls!.share!, 0.5);
    close(slips!.share!, phi(Math.log(0.9) / sd));
    expect([pulls!.verdict, slips!.verdict]).toEqual(["depends", "depends"]);
    expect([found.verdict, found.share]).toEqual(["stops", 0]);
    expect([...found.first].sort()).toEqual(["nip.pulls", "nip.slips"]);
    // Corners of intervals can't see it: each check has a kind end.
    expect(pulls!.corners!.best).toBeGreaterThan(0);
    expect(slips!.corners!.best).toBeGreaterThan(0);
  });
  test("has no setting either where no friction passes both, at no preload", () => {
    for (const factor of [0.6, 1, 2]) expect(judged(withNip(factor * just, 0.9 * F), window).setting).toBeUndefined();
  });
  // A film that bears 1.8 F: at the drawn preload mu must lie within [median, 1.8 median]; for every mu some preload does.
  test("depends where the window has room, and another preload holds in more of belief", () => {
    const found = judged(withNip(just, 1.8 * F), window);
    const exact = phi(Math.log(1.8) / sd) - 0.5;
    expect(found.verdict).toBe("depends");
    expect(Math.abs(found.share! - exact)).toBeLessThan(4 * Math.sqrt((exact * (1 - exact)) / beliefDraws));
    const { setting } = found;
    expect(setting).toMatchObject({ address: "preload", unit: "N", shownIn: "N" });
    expect(setting!.exists).toBeGreaterThan(0.97);
    // The best one setting centres the window: ln mu within ±ln(1.8)/2 of the median.
    const best = 2 * phi(Math.log(1.8) / 2 / sd) - 1;
    expect(Math.abs(setting!.atBest - best)).toBeLessThan(0.1);
    expect(setting!.best / (just / 1)).toBeGreaterThan(1.1);
    expect(Math.abs(setting!.drawn - exact)).toBeLessThan(4 * Math.sqrt((exact * (1 - exact)) / 250));
  });
  test("stops at a preload far off, and says that a setting exists", () => {
    const found = judged(withNip(0.4 * just, 1.8 * F), window);
    expect(found.verdict).toBe("stops");
    expect(found.setting!.drawn).toBeLessThan(0.05);
    // Three times the drawn one is the greatest tried: it pulls from median/1.2 on. 250 draws, four standard errors.
    const exact = phi(Math.log(1.2) / sd);
    expect(Math.abs(found.setting!.exists - exact)).toBeLessThan(4 * Math.sqrt((exact * (1 - exact)) / 250));
    expect(found.setting!.best / (1.2 * just)).toBeCloseTo(1, 6);
  });
  test("names the friction as decisive, and where it tips", () => {
    const found = judged(withNip(just * 1.2, 1.8 * F), window);
    for (const [i, tip] of [F, 1.8 * F].entries()) {
      expect(found.findings[i]!.decisive!.address).toBe("mu");
      expect(found.findings[i]!.decisive!.tipping! / (tip / (2 * just * 1.2))).toBeCloseTo(1, 3);
    }
  });
});

describe("a channel cut for the catalogue's 24 mm on a tape of 24 ±0.3 mm", () => {
  // c = W + 0.45 ±0.10 with the catalogue's W = 24: c is 24.35 to 24.55. The tape on the reel is 23.7 to 24.3. Least play
  // 24.35 - 24.3 = 0.05 mm, greatest 24.55 - 23.7 = 0.85 mm. A fence set to the tape on the reel keeps 0.45 ±0.10. [by hand]
  const W = number("tape/W", "24.0 ±0.3 mm", { unit: "mm", level: "reel" });
  const catalogue = number("catalogue/W as drawn", "24 mm", { unit: "mm" });
  const channel = (width: ReturnType<typeof number>): Scene =>
    ({
      unit: { tape: { route: [], section: { width, "guided length": number("guided", "60 mm", { unit: "mm" }) } } },
      tape: { row: 24, letters: { W }, camber: number("camber", "0 mm", { unit: "mm" }) },
      requirement: { allowPairs: 0.02 },
    }) as unknown as Scene;
  const toCatalogue = channel(number("width", "W + 0.45 ±0.10 mm", { unit: "mm", names: { W: catalogue } }));
  const toReel = channel(number("width", "actual W + 0.45 ±0.10 mm", { unit: "mm", names: { "actual W": W } }));
  const corners = (scene: Scene): number[] => {
    const cell = new Cell(scene, [checkPlay]);
    const [x, y] = [Float64Array.of(-1, -1, 1, 1), Float64Array.of(-1, 1, -1, 1)];
    return Array.from(cell.gaps({ n: 4, scatter: (g) => (g === W ? x : y) })[0]!, (v) => +(v * 1e3).toFixed(9)).sort(
      (a, b) => a - b,
    );
  };
  test("has 0.05 mm of play at its worst corner", () => {
    expect(corners(toCatalogue)).toEqual([0.05, 0.25, 0.65, 0.85]);
  });
  test("would have 0.35 mm if its width followed the tape on the reel", () => {
    expect(corners(toReel)).toEqual([0.35, 0.35, 0.55, 0.55]);
  });
  // 2 % of pairs may break a window: with limits ±0.3 and ±0.1 the tail below the corner is a triangle, x = sqrt(0.02 * 8 * 0.3 * 0.1).
  test("keeps, at an allowance of 2 %, what the corner's triangle cuts off", () => {
    const cell = new Cell(toCatalogue, [checkPlay]);
    const cut = Math.sqrt(0.02 * 8 * 0.3 * 0.1);
    let sum = 0;
    for (let seed = 0; seed < 40; seed++) {
      const d = new Deviates(seed);
      const gap = cell
        .gaps({ n: 2000, scatter: (g) => d.between(`scatter ${g === W ? "reel tape/W" : "unit width"}#0`, 2000) })[0]!
        .slice()
        .sort();
      sum += gap[39]! * 1e3;
    }
    expect(sum / 40).toBeCloseTo(0.05 + cut, 2);
    const found = judged(toCatalogue, [checkPlay]);
    expect(found).toMatchObject({ verdict: "feeds", share: 1 });
    expect(found.findings[0]).toMatchObject({ margin: 6, marginBy: "cannot fail as drawn" });
    expect(found.findings[0]!.because).toBe(
      "0.45 mm are left between a 24 mm tape with its bow and walls 24 mm apart.",
    );
  });
});

describe("the same bits every time", () => {
  const hash = (result: unknown) => createHash("sha256").update(JSON.stringify(result)).digest("hex");
  const result = (i: number, deviates: Deviates) =>
    judge({ unit: "u", tape: "t", scene: scenes[i]![1], checks, deviates, weights: evenWeights, contradicted: none });

  test("whichever scenes were judged before, and with fresh deviates", () => {
    const [a, b] = [2, 6];
    const first = hash(result(a, new Deviates(1)));
    const second = hash(result(b, new Deviates(1)));
    expect(second).not.toBe(first);
    const shared = new Deviates(1);
    expect(hash(result(b, shared))).toBe(second);
    expect(hash(result(a, shared))).toBe(first);
    expect(hash(result(a, shared))).toBe(first);
    expect(hash(result(b, shared))).toBe(second);
    expect(hash(result(a, new Deviates(2)))).not.toBe(first);
  });
  const some = ["crossing, punched", "one seal", "held by a leaf"];
  const few = scenes.flatMap(([name], i) =>
    some.some((begins) => name.startsWith(begins)) ? [[name, i] as const] : [],
  );
  test.each(few)("%s: as JSON nothing is lost", (_, i) => {
    const found = result(i, seed1);
    expect(JSON.parse(JSON.stringify(found))).toEqual(found);
  });
});
