import { describe, expect, test } from "vitest";
import { elementsOf, pairs, pointsOf, sceneOf, shapeOf } from "./example.fixture.ts";
import { endOf, indexPicture, momentOf } from "./index-picture.ts";
import { indexSide } from "./index-side.ts";
import type { Moment } from "./moment.ts";
import { toSvg } from "./scene.ts";

const size = { width: 908, height: 250 };
const rest: Moment = { tape: 0, wheel: 0, drawn: 0, roller: 0, hole: 0 };
const plover = shapeOf("plover", "so16-16");
const drawn = (moment: Moment, shape = plover, s = size) =>
  elementsOf(toSvg(indexSide(shape, moment, s), { prefix: "i" }));
const pocket = (list: ReturnType<typeof elementsOf>, n: number) =>
  pointsOf(list.find((e) => e.attributes["data-pocket"] === `${n}`)!.attributes.d!)[0]!;

test("pockets go on by what the tape has gone, to scale", () => {
  const [a, b] = [drawn(rest), drawn({ ...rest, tape: 3e-3 })];
  const scale = Number(a.find((e) => e.attributes["data-scale"])!.attributes["data-scale"]);
  expect(pocket(b, -2)[0] - pocket(a, -2)[0]).toBeCloseTo(3 * scale, 1);
});
test("the carrying tooth is marked and its force said; without a force none is", () => {
  const pushes = toSvg(indexSide(plover, { ...rest, hole: 2.5, tooth: 0 }, size), { prefix: "i" });
  expect(pushes).toContain("drives 2.5 N");
  expect(pushes).toContain("of-handbg");
  const pushed = toSvg(indexSide(plover, { ...rest, hole: -1.2, tooth: 0 }, size), { prefix: "i" });
  expect(pushed).toContain("bears on it 1.2 N");
  expect(toSvg(indexSide(plover, { ...rest, tooth: 0 }, size), { prefix: "i" })).not.toContain("of-handbg");
});
test("in contact the tooth that carries touches the edge of its hole on paper", () => {
  // At the greatest force the hole gives way by less than 0.1 mm: 3 px at the detail's scale.
  const picture = indexPicture(sceneOf("plover", "so16-16"));
  const i = picture.lanes.hole.indexOf(Math.max(...picture.lanes.hole));
  const moment = momentOf(picture, picture.lanes.t[i]!);
  const list = drawn(moment);
  const tooth = pointsOf(list.find((e) => e.attributes["data-tooth"] === `${moment.tooth}`)!.attributes.d!);
  const cuts = list.filter((e) => e.attributes.class === "carrier-cut");
  const under = Math.max(...cuts.map((e) => Number(e.attributes.y) + Number(e.attributes.height)));
  const over = Math.min(...cuts.map((e) => Number(e.attributes.y)));
  // Where the front flank passes the carrier's thickness it is nearest to the next cut's edge.
  const front: number[] = [];
  for (let k = 1; k < tooth.length; k++) {
    const [p, q] = [tooth[k - 1]!, tooth[k]!];
    for (let u = 0; u <= 1; u += 0.05) {
      const [x, y] = [p[0] + (q[0] - p[0]) * u, p[1] + (q[1] - p[1]) * u];
      if (y >= over && y <= under) front.push(x);
    }
  }
  const edge = Math.max(...front);
  const gaps = cuts.map((e) => Number(e.attributes.x) - edge);
  expect(Math.min(...gaps.map(Math.abs))).toBeLessThan(3.5);
});
test("without room the teeth are left out", () => {
  expect(drawn(rest, plover, { width: 380, height: 200 }).some((e) => e.attributes.class === "carrier-cut")).toBe(
    false,
  );
});
describe.each(pairs)("%s on %s", (unit, tape) => {
  test("its index is drawn at its beginning, middle and end, every number a number", () => {
    const picture = indexPicture(sceneOf(unit, tape));
    for (const part of [0, 0.5, 1]) {
      const svg = toSvg(indexSide(shapeOf(unit, tape), momentOf(picture, part * endOf(picture)), size), {
        prefix: "i",
      });
      expect(svg.length).toBeGreaterThan(2000);
    }
  });
});
