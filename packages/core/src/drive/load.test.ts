import { describe, expect, test } from "vitest";
import { driven, embossedTape, nominal, oneSeal, scene, sideCrossing } from "../scene.fixture.ts";
import { filmBackPull, filmTorque, slipTorque, tapeTorque } from "./load.ts";

describe("the film pulls the tape back", () => {
  test("with all it needs where it folds over flat, with half at 120 deg, with nothing up to 90 deg", () => {
    const pull = (deg: number) => filmBackPull.value({ P: 0.8, theta: (deg * Math.PI) / 180 });
    expect(pull(180)).toBeCloseTo(0.8, 12);
    expect(pull(120)).toBeCloseTo(0.4, 12);
    expect([pull(90), pull(60)].map((v) => Math.abs(v) < 1e-12)).toEqual([true, true]);
  });
});
describe("bushes", () => {
  // Shafts of 2 mm in a nip of 5 mm, grip 0.6 of the force: friction 0.2 costs 27 %, 0.35 costs 47 % more torque. [derived]
  test.each([
    [0.2, 1.27],
    [0.35, 1.47],
  ])("of friction %f take %f times the torque of the film", (mu_b, share) => {
    const torque = filmTorque.value({ F: 0.6, r_1: 5, mu_b, N_r: 1, r_b: 2 });
    expect(torque / (0.6 * 5)).toBeCloseTo(share, 2);
  });
  // (0.7 + 0.3) N by 15 mm and 2 by 0.2 by 2 mm: 15.8 N mm, by hand. [derived]
  test("carry the tape's pull once more", () => {
    expect(tapeTorque.value({ F_h: 0.7, F_f: 0.3, r_p: 15, mu_b: 0.2, r_b: 2 })).toBeCloseTo(15.8, 12);
  });
});
describe("in a scene", () => {
  test("a nip that slips asks more of its motor than the film does, where it can pull the film", () => {
    const one = driven.sheetScene();
    expect(nominal(one, slipTorque)).toBeGreaterThan(nominal(one, filmTorque));
  });
  test("a unit without a sprocket asks nothing of a feed drive, one without a nip nothing of a peel drive", () => {
    const one = scene(oneSeal(), embossedTape(8));
    expect([tapeTorque.reads(one), filmTorque.reads(one), slipTorque.reads(one)]).toEqual([
      undefined,
      undefined,
      undefined,
    ]);
  });
  test("a tape whose film isn't led is held by its friction and its reel alone", () => {
    const base = sideCrossing();
    const { guides: _, ...film } = base.film;
    const one = scene({ ...base, film }, embossedTape(12));
    expect(tapeTorque.reads(one)!.F_f).toMatchObject({ address: "bound/no force" });
  });
});
