import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { chosen } from "../quantity/check.ts";
import type { Quantity } from "../quantity/model.ts";
import { driven, embossedTape, nominal, oneSeal, overhead, scene, written } from "../scene.fixture.ts";
import type { Scene } from "../scene.ts";
import { Realiser } from "../study/realise.ts";
import { motors } from "./motor.ts";
import { checkMoves, pulls, stallTorqueOf, weakerReserve } from "./pull.ts";

const sheet = driven.sheetScene();
const withUnit = (one: Scene, more: Partial<Scene["unit"]>): Scene => ({ ...one, unit: { ...one.unit, ...more } });

// 480 to 1 at 0.25, 3 mN m/A at 0.5 A less 0.3 mN m of friction: 120 by 1.2 mN m. By hand. [derived]
test("1.2 mN m at the rotor are 144 N mm behind 480 to 1 that pass on a quarter", () => {
  expect(pulls.feed.stallTorque.value({ N: 480, e: 0.25, k_h: 3e-3, I_h: 0.5, T_0: 0.3e-3 })).toBeCloseTo(0.144, 12);
});
test("a motor too weak for its own friction gives nothing, and not less", () => {
  expect(pulls.feed.stallTorque.value({ N: 480, e: 0.25, k_h: 3e-3, I_h: 0.05, T_0: 0.3e-3 })).toBe(0);
});
// Copper 0.393 % a kelvin and magnets 0.15 %: at 100 degC 1.3144 times and 0.88 times, by hand. [derived]
test("80 K more make 16 ohm to 21.03 ohm and 3.0 mN m/A to 2.64", () => {
  expect(pulls.feed.hotResistance.value({ R: 16, a: 0.00393, T_h: 100 })).toBeCloseTo(21.03, 2);
  expect(pulls.feed.hotConstant.value({ k: 3, b: 0.0015, T_h: 100 })).toBeCloseTo(2.64, 12);
});
test("a hotter winding turns with less, always", () => {
  const heat = fc.double({ min: -3, max: 3, noNaN: true });
  const at = (z: number): number =>
    new Realiser(sheet, [pulls.feed.stallTorque])
      .run({ n: 1, unknown: (g) => (g.address === "assume/hot winding" ? z : 0), scatter: () => undefined })
      .number(pulls.feed.stallTorque);
  fc.assert(
    fc.property(heat, heat, (p, q) => {
      expect(at(Math.max(p, q))).toBeLessThanOrEqual(at(Math.min(p, q)));
    }),
    { seed: 411, numRuns: 60 },
  );
});
test("a rougher worm both holds better and turns with less: one friction, two checks", () => {
  const at = (z: number) => {
    const run = new Realiser(sheet, [pulls.feed.reserve, motors.feed.wormForward]).run({
      n: 1,
      unknown: (g) => (g.address === "assume/worm friction" ? z : 0),
      scatter: () => undefined,
    });
    return [run.number(pulls.feed.reserve), run.number(motors.feed.wormForward)] as const;
  };
  const [smooth, rough] = [at(-2), at(2)];
  expect(rough[0]).toBeLessThan(smooth[0]);
  expect(rough[1]).toBeLessThan(smooth[1]);
});
// 9.5 V less 20.5 ohm by 0.2 A leaves 5.4 V; over 2.5 mV s and 120 to 1 at 5 mm: 90 mm/s. By hand. [derived]
test("a roller of 5 mm behind 120 to 1 runs at 90 mm/s where 5.4 V are left of 9.5", () => {
  const v = pulls.peel.speed.value({
    r: 5e-3,
    N: 120,
    V_u: 9.5,
    R_h: 20,
    R_b: 0.5,
    T_0: 0.2e-3,
    M: 9e-3,
    e: 0.25,
    k_h: 2.5e-3,
  });
  expect(v).toBeCloseTo(0.09, 12);
});
describe("in a scene", () => {
  const boundOf = (one: Scene) => chosen<Quantity>(checkMoves.atLeast, one)!;
  test("with both motors the weaker counts, and it is named", () => {
    expect(chosen(checkMoves.value, sheet)).toBe(weakerReserve);
    const [f, p] = [nominal(sheet, pulls.feed.reserve), nominal(sheet, pulls.peel.reserve)];
    expect(nominal(sheet, weakerReserve)).toBe(Math.min(f, p));
    expect(weakerReserve.where!({ q_f: 2, q_p: 3 })).toBe("the feed drive");
    expect(weakerReserve.where!({ q_f: 2, q_p: 1 })).toBe("the peel drive");
    expect(nominal(sheet, boundOf(sheet))).toBe(1);
  });
  test("a torque that the file states is taken as it stands, without a motor or a rail", () => {
    const one = scene(overhead(24), embossedTape(24));
    expect(checkMoves.absent(one)).toBeUndefined();
    expect(chosen(checkMoves.value, one)).toBe(pulls.peel.reserve);
    expect(nominal(one, stallTorqueOf(one, "peel")!)).toBeCloseTo(0.06, 12);
    expect(checkMoves.because(() => "x", one)).toContain("(the unit has no feed drive)");
  });
  test("motors that nobody knows are not judged, and both are said", () => {
    const one = withUnit(sheet, { "feed drive": { motor: "some" }, "peel drive": { motor: "some" } });
    expect(checkMoves.absent(one)).toBe(
      "the feed drive gives neither its motor's sheet nor its winding, so its resistance is not known; the peel drive gives neither its motor's sheet nor its winding, so its resistance is not known",
    );
  });
  test("without a rail in the project nothing is judged", () => {
    const { supply: _, ...requirement } = sheet.requirement;
    expect(checkMoves.absent({ ...sheet, requirement })).toBe(
      "project.yaml gives no supply; project.yaml gives no supply",
    );
  });
  test("a unit that has neither wheel nor nip has no motor to judge", () => {
    expect(checkMoves.absent(scene(oneSeal(), embossedTape(8)))).toBe(
      "the unit has no feed drive; the unit has no peel drive",
    );
  });
  test("a limit of the bridge takes torque where it binds, and none where it does not", () => {
    const limited = (text: string) =>
      withUnit(sheet, {
        "feed drive": { ...sheet.unit["feed drive"]!, "current limit": written("own/limit", "I_m", text, "A") },
      });
    const free = nominal(sheet, stallTorqueOf(sheet, "feed")!);
    expect(nominal(limited("5 A"), stallTorqueOf(limited("5 A"), "feed")!)).toBeCloseTo(free, 12);
    expect(nominal(limited("0.2 A"), stallTorqueOf(limited("0.2 A"), "feed")!)).toBeLessThan(free);
  });
});
