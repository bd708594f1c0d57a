import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { IndexDesign } from "./design.ts";
import { bareDesign } from "./drives.ts";
import { at, stateSize, stepperOf, V } from "./step.ts";

const bare = bareDesign(1);
const state = (set: Readonly<Record<number, number>> = {}): Float64Array => {
  const s = new Float64Array(stateSize);
  for (const [i, v] of Object.entries(set)) s[Number(i)] = v;
  return s;
};
/** One step; it must have converged. */
function stepped(d: IndexDesign, s: Float64Array, h: number, volts = 0): Float64Array {
  const out = new Float64Array(stateSize);
  expect(stepperOf(d).step(s, h, volts, 0, out, s.slice(0, 6))).toBe(true);
  return out;
}
const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const near = (got: number, wanted: number, share = 1e-9, least = 1e-12) =>
  expect(Math.abs(got - wanted), `${got} against ${wanted}`).toBeLessThanOrEqual(share * Math.abs(wanted) + least);

// Newton ends where the rotor is within 1e-4 rad/s. J w - h k i = J w_0 and h k w + (L + h R) i = L i_0 + h V, solved by Cramer's rule. [derived]
test("a step of a free rotor is the backward Euler step of its two equations, whatever its length", () => {
  const { J, k, L, R } = bare.feed;
  fc.assert(
    fc.property(between(1e-6, 1e-2), between(-500, 3000), between(-0.5, 0.5), between(0, 12), (h, w0, i0, volts) => {
      const out = stepped(bare, state({ [V.rotor]: w0, [at.current]: i0 }), h, volts);
      const det = J * (L + h * R) + h * k * (h * k);
      const [a, b] = [J * w0, L * i0 + h * volts];
      near(out[V.rotor]!, (a * (L + h * R) + h * k * b) / det, 1e-7, 1e-4);
      expect(Math.abs(out[at.current]! - (J * b - h * k * a) / det)).toBeLessThan(1e-7);
      near(out[at.rotor]!, h * out[V.rotor]!, 1e-12);
    }),
    { seed: 71, numRuns: 200 },
  );
});
test("a unit at rest without volts stays where it is, to the last bit", () => {
  const s = state({ [at.rotor]: 3, [at.wheel]: 0.2, [at.tape]: 0.2 * bare.wheel.radius, [at.reel]: -0.1 });
  expect([...stepped(bare, s, 1e-3).subarray(0, 16)]).toEqual([...s.subarray(0, 16)]);
});
// v - h F/m, the friction of a sliding tape being F itself. [derived]
test("a sliding tape loses h F/m a step, and one that would be stopped within a step turns not round", () => {
  const d: IndexDesign = { ...bare, tape: { ...bare.tape, sliding: 0.35, sticking: 0.35 } };
  const { mass, preSliding } = d.tape;
  const z = 0.35 / preSliding;
  fc.assert(
    fc.property(between(0.02, 0.3), between(1e-5, 2e-4), (v, h) => {
      near(stepped(d, state({ [V.tape]: v, [at.zTape]: z }), h)[V.tape]!, v - (h * 0.35) / mass);
    }),
    { seed: 72, numRuns: 100 },
  );
  const slow = stepped(d, state({ [V.tape]: 1e-3, [at.zTape]: z }), 1e-3)[V.tape]!;
  expect(Math.abs(slow)).toBeLessThan(1e-3);
});
describe("contacts push and never pull", () => {
  const toothed: IndexDesign = { ...bare, wheel: { ...bare.wheel, stiffness: 1e5, damping: 0.1 } };
  test("within the play of its tooth a tape feels nothing, beyond it a force that drives it back", () => {
    fc.assert(
      fc.property(between(-0.3e-3, 0.3e-3), between(-0.1, 0.1), (x, v) => {
        const out = stepped(toothed, state({ [at.tape]: x, [V.tape]: v }), 1e-5);
        const half = toothed.wheel.play.hi[0]!;
        const end = out[at.tape]!;
        if (Math.abs(end) <= half) expect(out[at.hole]).toBe(0);
        else expect(out[at.hole]! * end).toBeLessThanOrEqual(0);
      }),
      { seed: 73, numRuns: 300 },
    );
  });
  // Momentum of two masses on a spring; the reel's is J w/R at the tape. [derived]
  test("tape and reel exchange momentum over their web, none is made", () => {
    const d: IndexDesign = { ...bare, reel: { ...bare.reel, stiffness: 2000, damping: 0.3, slack: 0 } };
    const { inertia, radius } = d.reel;
    const momentum = (s: Float64Array): number => d.tape.mass * s[V.tape]! + (inertia / radius) * s[V.reel]!;
    fc.assert(
      fc.property(between(-1e-3, 2e-3), between(-0.1, 0.2), between(-2, 2), between(1e-5, 1e-3), (x, v, w, h) => {
        const s = state({ [at.tape]: x, [V.tape]: v, [V.reel]: w });
        const out = stepped(d, s, h);
        expect(Math.abs(momentum(out) - momentum(s))).toBeLessThan(1e-11);
        expect(out[at.web]).toBeGreaterThanOrEqual(0);
      }),
      { seed: 74, numRuns: 300 },
    );
  });
});
test("Newton's passes are counted, and a step that took none too many is no miss", () => {
  const stepper = stepperOf(bare);
  const s = state({ [V.rotor]: 100 });
  stepper.step(s, 1e-4, 10, 0, new Float64Array(stateSize), s.slice(0, 6));
  expect(stepper.count.newton).toBeGreaterThan(0);
  expect(stepper.count.missed).toBe(0);
});
