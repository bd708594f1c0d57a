import { describe, expect, test } from "vitest";
import { elementsOf, pointsOf, sceneOf } from "./example.fixture.ts";
import {
  fanned,
  indexCursor,
  indexLanes,
  indexWords,
  laneFrame,
  sayTime,
  seatAt,
  stretchNames,
  stretchOf,
  timeAt,
} from "./index-lanes.ts";
import { at, endOf, type IndexPicture, indexPicture } from "./index-picture.ts";
import { toSvg } from "./scene.ts";

const picture = indexPicture(sceneOf("plover", "so16-16"));
const size = { width: 908, height: 450 };
const drawn = (p: IndexPicture = picture, more: Partial<Parameters<typeof indexLanes>[1]> = {}) =>
  elementsOf(toSvg(indexLanes(p, { ...size, ...more }), { prefix: "l" }));
const lane = (list: ReturnType<typeof elementsOf>, name: string) =>
  pointsOf(list.find((e) => e.attributes["data-lane"] === name)!.attributes.d!);

describe("lanes over time", () => {
  test("each line begins and ends where its numbers do", () => {
    const frame = laneFrame(picture, size);
    const points = lane(drawn(), "place tape");
    expect(points[0]![0]).toBeCloseTo(frame.x0, 1);
    expect(points.at(-1)![0]).toBeLessThanOrEqual(frame.x1 + 0.1);
  });
  test("places share one scale: where tape and wheel moved alike their lines lie on each other", () => {
    const [tape, wheel] = [lane(drawn(), "place tape"), lane(drawn(), "place wheel")];
    const end = Math.abs(tape.at(-1)![1] - wheel.at(-1)![1]);
    expect(end).toBeLessThan(4);
    expect(tape[0]![1] - tape.at(-1)![1]).toBeGreaterThan(30);
  });
  test("a limit that is not passed is no fault, one that is passed is", () => {
    const weak = { ...picture, limits: { ...picture.limits, hole: 0.5 } };
    const cls = (p: IndexPicture) =>
      drawn(p).find((e) => e.attributes["data-limit"]?.startsWith("a hole bears"))!.attributes.class;
    expect(cls(picture)).toBe("thin");
    expect(cls(weak)).toBe("fail-line");
  });
  test("a limit far above its lane is said at its rim and does not squeeze the lane", () => {
    const far = { ...picture, limits: { ...picture.limits, hole: 500 } };
    expect(drawn(far).some((e) => e.attributes["data-limit"]?.startsWith("a hole bears"))).toBe(false);
    expect(toSvg(indexLanes(far, size), { prefix: "l" })).toContain("a hole bears 500 N ↑");
  });
  test("the tape's rest is flagged; where it comes too late, so is the time it may take", () => {
    expect(drawn().some((e) => e.attributes["data-flag"] === "settled")).toBe(true);
    const late = { ...picture, limits: { ...picture.limits, time: picture.settled * 0.8 } };
    const flag = drawn(late).find((e) => e.attributes["data-flag"]?.startsWith("may take"))!;
    expect(flag.attributes.class).toBe("fail-line");
  });
  test("steps that did not converge are flagged at the first, and only where there are any", () => {
    expect(toSvg(indexLanes(picture, size), { prefix: "l" })).not.toContain("did not converge");
    const missed = { ...picture, steps: { taken: 400, unsolved: 3, unsolvedAt: 0.03 } };
    expect(toSvg(indexLanes(missed, size), { prefix: "l" })).toContain(
      "3 of 400 steps did not converge, the first here",
    );
  });
  test("a unit whose film is left out has no lines of it", () => {
    const bare = { ...picture, roller: 0 };
    const names = drawn(bare).flatMap((e) => e.attributes["data-lane"] ?? []);
    expect(names.filter((n) => /film|peel|roller/.test(n))).toEqual([]);
    expect(names).toContain("force tooth");
  });
  test.each([
    [390, 496],
    [620, 400],
    [1112, 560],
  ])("at %d by %d nothing is drawn off the paper", (width, height) => {
    for (const stretch of stretchNames) {
      const svg = toSvg(indexLanes(picture, { width, height, stretch }), { prefix: "l" });
      for (const e of elementsOf(svg)) {
        if (e.name !== "text") continue;
        expect(Number(e.attributes.x)).toBeGreaterThanOrEqual(0);
        expect(Number(e.attributes.x)).toBeLessThanOrEqual(width);
      }
      expect(svg).not.toContain("NaN");
    }
  });
});
describe("flags", () => {
  test("every event of what is shown has its number, in order from the left", () => {
    const flags = drawn().filter((e) => e.attributes.class === "flag");
    expect(flags.map((e) => Number(e.attributes["data-event"]))).toEqual(picture.events.map((_, i) => i));
  });
  test("fanned out they stand apart, in order, within bounds", () => {
    const places = fanned([0, 1, 2, 50, 99, 100, 100], 10, -5, 105);
    for (const [i, x] of places.slice(1).entries()) expect(x - places[i]!).toBeGreaterThanOrEqual(10 - 1e-9);
    expect(places.at(-1)).toBeLessThanOrEqual(105);
    expect(fanned([0, 40, 80], 10, -5, 105)).toEqual([0, 40, 80]);
  });
});
describe("a part of the index", () => {
  test("its beginning holds the tape's first move, its end the brake", () => {
    const time = (what: string) => picture.events.find((e) => e.what === what)!.t;
    const [start, stop] = [stretchOf(picture, "start"), stretchOf(picture, "stop")];
    expect(start.from).toBe(0);
    expect(start.to).toBeGreaterThan(time("tape moves"));
    expect(start.to).toBeLessThan(endOf(picture) / 2);
    expect(stop.from).toBeLessThan(time("brake"));
    expect(stop.to).toBe(endOf(picture));
  });
  test("the time under a place on paper is that of its frame, and within the index", () => {
    for (const stretch of stretchNames) {
      const frame = laneFrame(picture, { ...size, stretch });
      const middle = (frame.stretch.from + frame.stretch.to) / 2;
      expect(timeAt(picture, frame, (frame.x0 + frame.x1) / 2)).toBeCloseTo(Math.min(middle, endOf(picture)), 9);
      expect(timeAt(picture, frame, -1000)).toBe(frame.stretch.from);
      expect(timeAt(picture, frame, 5000)).toBeCloseTo(Math.min(endOf(picture), frame.stretch.to), 12);
    }
  });
});
describe("the moment over the lanes", () => {
  test("stands at its time, and every line's number is there", () => {
    const t = picture.lanes.t[210]!;
    const list = elementsOf(toSvg(indexCursor(picture, t, size), { prefix: "c" }));
    const frame = laneFrame(picture, size);
    const [[x]] = pointsOf(list.find((e) => e.attributes.class === "hand-line")!.attributes.d!) as [[number, number]];
    expect(timeAt(picture, frame, x)).toBeCloseTo(t, 4);
    const svg = toSvg(indexCursor(picture, t, size), { prefix: "c" });
    expect(svg).toContain(`>${(at(picture, "tape", t) * 1e3).toFixed(2).replace("-", "−")}<`);
    expect(svg).toContain(`>${sayTime(t)}<`);
  });
  test("outside the part that is shown there is no line, and the numbers stay", () => {
    const svg = toSvg(indexCursor(picture, endOf(picture), { ...size, stretch: "start" }), { prefix: "c" });
    expect(svg).not.toContain("hand-line");
    expect(svg).toContain("strong");
  });
});
test("the seat is behind while a tooth drives", () => {
  const i = picture.lanes.hole.indexOf(Math.max(...picture.lanes.hole));
  expect(seatAt(picture, picture.lanes.t[i]!)).toBeLessThan(0.15);
});
test("the words tell the same in order, with what was left out", () => {
  const said = indexWords({ ...picture, withoutFilm: "no rollers" });
  expect(said).toContain("Its film is left out: no rollers.");
  const places = picture.events.map((e) => said.indexOf(e.says));
  expect(places.every((p) => p > 0)).toBe(true);
  expect(said).toContain(picture.said[0]);
});
