import { expect, test } from "vitest";
import { yaw } from "../channel/yaw.ts";
import { widthOfReelAlong, yawKeptAlong } from "./in-play.ts";

// 0.2 mm less play over twice 60 mm, 5.5 mm off the hole line: 0.2*5.5/120 mm is 9.17 um; four fifths of it where a share of 0.4 wanders. [by hand]
test.each([
  [0, -9.1667],
  [0.4, -7.3333],
])(
  "a reel wider by 0.2 mm takes off the yaw's error what its own term says (share that wanders %f): %f um",
  (q_s, um) => {
    const [c, W_m, F, l] = [12.45e-3, 12e-3, 5.5e-3, 0.06];
    const errorAt = (W: number): number => yawKeptAlong.value({ q_s, psi: yaw.value({ c, W, l }), F });
    const term = widthOfReelAlong.value({ q_s, W: 12.2e-3, W_m, F, l });
    expect(term * 1e6).toBeCloseTo(um, 3);
    expect(errorAt(12.2e-3) - errorAt(W_m)).toBeCloseTo(term, 12);
  },
);
