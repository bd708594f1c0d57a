import { describe, expect, test } from "vitest";
import type { DecisiveFinding, Finding, TapeResult } from "../coverage/finding.ts";
import { believed, unknownBetween } from "../quantity/law.ts";
import { Deviates } from "../study/deviates.ts";
import { usualCosts } from "./costs.ts";
import { openQuestions, type Row } from "./questions.ts";

const friction = { low: 0.18, high: 0.35 };
const on = (address: string, tipping: number | null, guess = friction): DecisiveFinding => ({
  address,
  symbol: "x",
  tipping,
  guess,
  unit: "1",
  shownIn: "",
  shareIfMeasured: 0.9,
});
interface Said {
  readonly unit?: string;
  readonly tape: string;
  readonly share: number;
  readonly decisive?: DecisiveFinding;
  readonly check?: string;
  readonly station?: number;
  readonly verdict?: TapeResult["verdict"];
  readonly holds?: Uint8Array;
}
function row({
  unit = "plover",
  tape,
  share,
  decisive,
  check = "nip.pulls",
  station = 7,
  verdict = "depends",
  holds,
}: Said): Row {
  const finding = {
    check,
    station,
    severity: "S",
    verdict,
    share,
    ...(decisive ? { decisive } : {}),
  } as unknown as Finding;
  const first = verdict === "feeds" ? [] : [check];
  const result: TapeResult = {
    unit,
    tape,
    W: 24,
    verdict,
    share,
    shareAlone: share,
    verdictAlone: verdict,
    first,
    findings: [finding],
  };
  return { result, ...(holds ? { held: new Map([[check, holds]]) } : {}) };
}

describe("by the findings alone", () => {
  test("every wanted pair that hangs on an unknown is one question, the one likeliest to fail first", () => {
    const { ranked } = openQuestions([
      row({ tape: "a", share: 0.7, decisive: on("assume/film friction", 0.3) }),
      row({ tape: "b", share: 0.4, decisive: { ...on("assume/film friction", 0.22), shareIfMeasured: 0.1 } }),
    ]);
    expect(ranked).toHaveLength(1);
    expect(ranked[0]!.hangs.map((h) => [h.tape, h.fails.toFixed(3)])).toEqual([
      ["b", "0.600"],
      ["a", "0.300"],
    ]);
    expect(ranked[0]!.from).toBe("shares");
    expect(ranked[0]!.fails).toBeCloseTo(0.6, 10);
  });
  test("the card of half an hour is worth more than a piece that takes days", () => {
    const { ranked } = openQuestions([row({ tape: "a", share: 0.7, decisive: on("assume/film friction", 0.3) })]);
    expect(ranked[0]!.trials.map((t) => t.kind)).toEqual(["card", "trial piece", "whole prototype"]);
    expect(ranked[0]!.trials[0]).toMatchObject({ name: "film-friction", minutes: 25 });
    expect(ranked[0]!.trials[0]!.cost).toBeCloseTo(25 / 60 / usualCosts.hours, 12);
  });
  test("what nobody can measure goes to a piece, and the reason is said", () => {
    const { ranked } = openQuestions([row({ tape: "a", share: 0.6, decisive: on("plover/index.slow share", 0.3) })]);
    expect(ranked[0]).toMatchObject({ noCard: "firmware sets it", trials: [{ kind: "trial piece", name: "nip" }, {}] });
  });
  test("a limit of judgement costs the piece on which it is found", () => {
    const { ranked, open, dropped } = openQuestions([
      row({
        tape: "a",
        share: 0.6,
        decisive: on("assume/mismatch limit", 0.019, { low: 0.015, high: 0.025 }),
        station: 4,
      }),
    ]);
    const card = [...ranked, ...open, ...dropped][0]!.trials.find((t) => t.kind === "card")!;
    expect(card.cost).toBeCloseTo(usualCosts.piece.days + 120 / 60 / usualCosts.hours, 12);
  });
  test("pairs that feed or stop are settled and ask nothing", () => {
    const said = openQuestions([
      row({ tape: "a", share: 1, verdict: "feeds" }),
      row({ tape: "b", share: 0, verdict: "stops", decisive: on("assume/film friction", 0.1) }),
    ]);
    expect(said.ranked).toEqual([]);
    expect(said.settled.map((s) => s.verdict)).toEqual(["feeds", "stops"]);
  });
  test("where it hardly can fail and finding out is dear, the question is open or dropped, never ranked", () => {
    const dear = { ...usualCosts, hours: 0.1 };
    const said = openQuestions(
      [row({ tape: "a", share: 0.94, decisive: on("assume/film friction", 0.34) })],
      undefined,
      { costs: { ...dear, piece: { ...dear.piece, days: 9 } } },
    );
    expect(said.ranked).toEqual([]);
    expect([...said.open, ...said.dropped]).toHaveLength(1);
  });
  test("where it most likely fails and no card measures it, a piece is dropped: the design is changed at once", () => {
    const at = (share: number) =>
      openQuestions([row({ tape: "a", share, decisive: on("plover/index.slow share", 0.3) })]);
    expect(at(0.2).dropped[0]!.trials[0]).toMatchObject({ changeAtOnce: true, standing: "not worth it" });
    expect(at(0.6).ranked[0]!.trials[0]).toMatchObject({ changeAtOnce: true, standing: "worth it" });
  });
  test("questions of one unit are put as a series, of two units each by itself", () => {
    const seal = row({
      tape: "a",
      share: 0.7,
      decisive: on("tapes/a/film.seal", 0.6, { low: 0.2, high: 0.8 }),
      check: "film.pull",
      station: 4,
    });
    const one = openQuestions([row({ tape: "b", share: 0.7, decisive: on("assume/film friction", 0.3) }), seal]);
    expect(one.advised).toBe("series");
    expect(one.because).toContain("plover back to the drawing");
    const two = openQuestions([
      row({ unit: "dunlin", tape: "b", share: 0.7, decisive: on("assume/film friction", 0.3) }),
      seal,
    ]);
    expect(two.advised).toBe("independent");
    expect(openQuestions([seal], undefined, { order: "independent" }).advised).toBe("independent");
    expect([...two.orders.series].sort()).toEqual([...two.orders.independent].sort());
  });
  test("the film's break is measured before a roller's grip, for the film is pulled until it slips", () => {
    const said = openQuestions([
      row({ tape: "a", share: 0.5, decisive: on("plover/nip.friction.1", 0.22) }),
      row({ tape: "b", share: 0.9, decisive: on("tapes/b/film.break", 6, { low: 5, high: 10 }), check: "nip.slips" }),
    ]);
    expect(said.orders.series).toEqual(["tapes/b/film.break", "plover/nip.friction.1"]);
    expect(said.ranked[1]!.needs).toEqual([
      { address: "tapes/b/film.break", because: "the film is pulled until it slips: know first where it breaks" },
    ]);
  });
});

describe("by the draws", () => {
  const deviates = new Deviates(1);
  const weights = new Float64Array(1000).fill(1 / 1000);
  const address = "assume/film friction";
  const values = deviates
    .normal(`belief ${address}`, 1000)
    .map((z) => believed(unknownBetween(friction.low, friction.high), z));
  const holds = Uint8Array.from(values, (v) => (v > 0.28 ? 0 : 1));
  const share = holds.reduce((a, b) => a + b, 0) / 1000;
  const rows = [row({ tape: "a", share, decisive: on(address, 0.28), holds })];

  test("P is the weight of the draws in which it fails", () => {
    const { ranked } = openQuestions(rows, { weights, deviates });
    expect(ranked[0]).toMatchObject({ from: "draws" });
    expect(ranked[0]!.fails).toBeCloseTo(1 - share, 10);
    expect(ranked[0]!.hangs[0]).toMatchObject({ stops: "above", tipping: 0.28 });
  });
  test("a result that moves belief away from the tipping value takes the question's worth", () => {
    const after = values.map((v) => Math.exp(-0.5 * ((v - 0.22) / 0.02) ** 2));
    const before = openQuestions(rows, { weights, deviates }).ranked[0]!;
    const then = openQuestions(rows, { weights: after, deviates });
    const same = [...then.ranked, ...then.open, ...then.dropped][0]!;
    expect(same.fails).toBeLessThan(0.02);
    expect(same.trials[0]!.worth.saved).toBeLessThan(before.trials[0]!.worth.saved / 5);
  });
  test("of two that fail together the cheaper goes first, and the reason is said", () => {
    const two = [
      ...rows,
      row({
        tape: "b",
        share,
        decisive: on("plover/index.slow share", 0.3),
        check: "supply.drop",
        station: 9,
        holds: holds.slice(),
      }),
    ];
    const { ranked } = openQuestions(two, { weights, deviates });
    expect(ranked.map((q) => q.address)).toEqual([address, "plover/index.slow share"]);
    expect(ranked[1]!.needs[0]!.because).toBe("they fail together (correlation 1.0), and it costs less");
  });
});
