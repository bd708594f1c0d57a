import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { noLength } from "../quantity/bound.ts";
import { embossedTape, nominal, oneSeal, outside, overhead, scene, sideCrossing, written } from "../scene.fixture.ts";
import { asWritten, Realiser } from "../study/realise.ts";
import { checkSeat, forwardPull, seatJump, seatMargin, tapeHold } from "./seat.ts";

// Rope over 150 degrees in a million steps: validation/independent/yaw.py; rope over 180 degrees at 0.3 leaves 1/2.57, worked in the
// unpublished working notes as exp(0.3 pi). [derived]
describe("behind the edge the tape feels of the nip", () => {
  test.each([
    [3.6, 0.25, 150, 1.87093, 4],
    [2.57, 0.3, 180, 1.0, 2],
  ])("%f N at friction %f over %i degrees: %f N", (S, mu, turn, left, digits) => {
    expect(forwardPull.value({ S, mu, w: (turn * Math.PI) / 180 })).toBeCloseTo(left, digits);
  });
  test("never more than the nip pulls, and less with every turn", () => {
    const angle = fc.double({ min: 0, max: 12, noNaN: true });
    fc.assert(
      fc.property(fc.double({ min: 0.02, max: 0.8, noNaN: true }), angle, angle, (mu, p, q) => {
        const [less, more] = [Math.min(p, q), Math.max(p, q)];
        const F = forwardPull.value({ S: 4, mu, w: less });
        expect(F).toBeLessThanOrEqual(4);
        expect(forwardPull.value({ S: 4, mu, w: more })).toBeLessThanOrEqual(F);
      }),
      { seed: 321, numRuns: 200 },
    );
  });
});
test("0.45 N of friction and 0.15 N of reel drag hold with 0.6 N", () => {
  expect(tapeHold.value({ F_t: 0.45, F_d: 0.15 })).toBeCloseTo(0.6, 12);
});

describe("two forces that each swing by a share", () => {
  const keeps = (F_f: number, F_h: number, h: number) => seatMargin.value({ F_f, F_h }) >= h;
  // 2 N against 0.3 .. 0.7 N of friction, as the review of the unpublished working notes takes them: (2 - 0.7)/2.7 = 48 %. By hand. [derived]
  test("2 N against 0.7 N lie 48 % of their sum apart, 2 N against 0.5 N 60 %", () => {
    expect(seatMargin.value({ F_f: 2, F_h: 0.7 })).toBeCloseTo(1.3 / 2.7, 12);
    expect(seatMargin.value({ F_f: 0.5, F_h: 2 })).toBeCloseTo(0.6, 12);
  });
  test("keep to one side exactly where their ranges don't meet", () => {
    const force = fc.double({ min: 0.05, max: 10, noNaN: true });
    fc.assert(
      fc.property(force, force, fc.double({ min: 0.01, max: 0.9, noNaN: true }), (F_f, F_h, h) => {
        const apart = F_f * (1 - h) - F_h * (1 + h);
        const other = F_h * (1 - h) - F_f * (1 + h);
        fc.pre(Math.abs(apart) > 1e-9 && Math.abs(other) > 1e-9);
        expect(keeps(F_f, F_h, h)).toBe(apart > 0 || other > 0);
      }),
      { seed: 322, numRuns: 300 },
    );
  });
  test("that are alike always flip", () => expect(keeps(0.6, 0.6, 1e-9)).toBe(false));
});

// A rounded tooth slid along in a round hole until a point of its outline touches: validation/independent/yaw.py. [derived]
describe("a tooth slides in its hole by", () => {
  test.each([
    [1.55, 1.1, 0.7, 0.3, 0.44472],
    [1.5, 1.1, 0.7, 0.3, 0.39443],
    [1.55, 1.1, 0.7, 0, 0.28293],
    [1.5, 1.1, 0.8, 0, 0.16886],
  ])("hole %f, tooth %f by %f, corners %f: %f mm", (D_0, t_a, t_c, r_c, play) => {
    expect(seatJump.value({ r_c, D_0, t_c, t_a, j_d: 0 })).toBeCloseTo(play, 5);
    expect(seatJump.value({ r_c, D_0, t_c, t_a, j_d: 0.05 })).toBeCloseTo(play + 0.05, 5);
  });
  test("nothing but the drive's backlash where it is as long as the hole, or wider", () => {
    expect(seatJump.value({ r_c: 0, D_0: 1.5, t_c: 0.7, t_a: 1.4, j_d: 0.05 })).toBeCloseTo(0.05, 12);
    expect(seatJump.value({ r_c: 0, D_0: 1.5, t_c: 1.6, t_a: 1.1, j_d: 0.05 })).toBeCloseTo(0.05, 12);
  });
});

describe("in a scene", () => {
  const held = (friction: string) => {
    const one = scene(overhead(24), embossedTape(24));
    const given = written("assume/tape friction", "F_t", friction, "N");
    return {
      ...one,
      requirement: { ...one.requirement, assume: { ...one.requirement.assume, "tape friction": given } },
    };
  };
  const side = (friction: string) => {
    const one = held(friction);
    return seatMargin.where!(new Realiser(one, [seatMargin]).run(asWritten).inputsOf(seatMargin, one));
  };
  test("it is said which side the tape keeps to", () => {
    expect(side("0.4 N")).toBe("the film draws the tape ahead on its teeth");
    expect(side("20 N")).toBe("the tape lies behind its teeth");
  });
  test("a tape held as hard as it is drawn flips, one held far less or far more keeps its side", () => {
    const pull = nominal(held("0.4 N"), forwardPull);
    const drag = nominal(held("0.4 N"), tapeHold) - 0.4;
    const margin = (friction: number) => nominal(held(`${friction} N`), seatMargin);
    expect(margin(pull - drag)).toBeCloseTo(0, 9);
    expect(margin((pull - drag) / 10)).toBeGreaterThan(0.35);
    expect(margin(10 * pull)).toBeGreaterThan(0.35);
  });
  test("a tooth drawn without corners is taken as sharp", () => {
    const { r_c } = seatJump.reads(scene(overhead(24), embossedTape(24)))! as { r_c: unknown };
    expect(r_c).toBe(noLength);
  });
  test("without a sprocket, a nip or a led film there is no seat to keep", () => {
    expect(checkSeat.absent(scene(oneSeal(), embossedTape(8)))).toBe("the unit has no sprocket");
    const { nip: _, ...rest } = sideCrossing(12);
    const bare = scene(rest, embossedTape(12));
    expect(checkSeat.absent(bare)).toBe("the unit has no nip");
    expect([forwardPull.reads(bare), seatMargin.reads(bare)]).toEqual([undefined, undefined]);
    expect(seatJump.reads(scene(oneSeal(), embossedTape(8)))).toBeUndefined();
  });
  test("it enters the pick error and colours no cell", () => expect(checkSeat.severity).toBe("A"));
  test("a friction of 1 is outside the range", () => {
    expect(outside(forwardPull, { S: 3, mu: 1, w: 2 })).toEqual(["mu"]);
  });
});
