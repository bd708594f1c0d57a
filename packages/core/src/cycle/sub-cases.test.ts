import { describe, expect, test } from "vitest";
import { commanded, type IndexDesign } from "./design.ts";
import { bareDesign, inventedDesign } from "./drives.ts";
import { runIndex } from "./run.ts";
import { at, stateSize, V } from "./step.ts";
import { wormFriction } from "./worm.ts";

const tol = 1e-9;
const starting = (set: Readonly<Record<number, number>>): Float64Array => {
  const s = new Float64Array(stateSize);
  for (const [i, v] of Object.entries(set)) s[Number(i)] = v;
  return s;
};
const within = (share: number, got: number, wanted: number): void =>
  expect(Math.abs(got - wanted), `${got} against ${wanted}`).toBeLessThanOrEqual(share * Math.abs(wanted));

// Two poles of the brushed motor, by hand. [derived]
describe.each([
  [10, 16, 1.5e-3, 3e-3, 1e-8],
  [6, 30, 0.5e-3, 4e-3, 2e-8],
])("a free rotor at %d V, %d ohm, %d H, %d N m/A, %d kg m²", (volts, R, L, k, J) => {
  const bare = bareDesign(0.02);
  const run = runIndex(commanded({ ...bare, feed: { ...bare.feed, volts, R, L, k, J } }, { feedStart: 0 }), { tol });
  const p = R / L;
  const q = (k * k) / (L * J);
  const root = Math.sqrt(p * p - 4 * q);
  const [slow, fast] = [(-p + root) / 2, (-p - root) / 2];
  test("follows the two exponentials", () => {
    const speed = (t: number): number =>
      (volts / k) * (1 + (fast * Math.exp(slow * t) - slow * Math.exp(fast * t)) / (slow - fast));
    within(5e-6, run.end[V.rotor]!, speed(0.02));
  });
  test("draws the peak current of the two exponentials", () => {
    const t = Math.log(fast / slow) / (slow - fast);
    within(
      5e-4,
      Math.max(...run.lanes.current),
      (volts / L) * ((Math.exp(slow * t) - Math.exp(fast * t)) / (slow - fast)),
    );
  });
  test("draws from the rail what heats the winding, turns the rotor and stands in the coil", () => {
    const [w, i] = [run.end[V.rotor]!, run.end[at.current]!];
    within(2e-3, run.energy.feed, run.energy.feedHeat + (J * w * w + L * i * i) / 2);
  });
});

// v² m/2F, less the elastic way F/k of friction that still holds. [derived]
test.each([
  [0.35, 0.08, 4e-3],
  [1.2, 0.05, 20e-3],
])("friction of %d N stops a tape of %d m/s and %d kg where the energy is used up", (F, v, mass) => {
  const bare = bareDesign(0.03);
  const d: IndexDesign = { ...bare, tape: { ...bare.tape, mass, sliding: F, sticking: F } };
  const { end } = runIndex(d, { tol, from: starting({ [V.tape]: v, [at.zTape]: F / d.tape.preSliding }) });
  expect(Math.abs(end[at.tape]! - (mass * v * v) / 2 / F)).toBeLessThan((1.2 * F) / d.tape.preSliding);
  expect(Math.abs(end[V.tape]!)).toBeLessThan(1e-6);
});
test("a tape that sticks under half its friction does not creep in ten seconds", () => {
  const bare = bareDesign(10);
  const d: IndexDesign = {
    ...bare,
    tape: { ...bare.tape, sliding: 0.4, sticking: 0.4 },
    reel: { ...bare.reel, inertia: 1e6, stiffness: 100, slack: -2e-3 },
  };
  const half = runIndex(commanded(d, { end: 1 })).end[at.tape]!;
  const long = runIndex(d).end[at.tape]!;
  expect(Math.abs(half)).toBeLessThan(0.4 / d.tape.preSliding);
  expect(Math.abs(long - half)).toBeLessThan(1e-11);
});

// exp(-z/w (pi - atan2(2 z w, 1 - 2 z²))), w = sqrt(1 - z²): Schwager and Poeschel, Granular Matter 2007; re-derived. [derived]
test.each([0.05, 0.1, 0.3])(
  "a tooth of damping %d throws the tape back as the damped spring does that never pulls",
  (z) => {
    const bare = bareDesign(2.2e-3);
    const d: IndexDesign = {
      ...bare,
      feed: { ...bare.feed, shaftInertia: 1e9 },
      wheel: { ...bare.wheel, stiffness: 1e5, damping: z },
    };
    const { end } = runIndex(d, { tol: 1e-10, from: starting({ [V.tape]: 0.1, [at.tape]: -0.05e-3 }) });
    const w = Math.sqrt(1 - z * z);
    within(2e-4, -end[V.tape]! / 0.1, Math.exp((-z / w) * (Math.PI - Math.atan2(2 * z * w, 1 - 2 * z * z))));
  },
);

// v sqrt(k m m_r/(m + m_r)), then an elastic impact of two masses. [derived]
test("slack that ends suddenly pulls as two masses on a spring do", () => {
  const bare = bareDesign(8e-3);
  const d: IndexDesign = { ...bare, reel: { ...bare.reel, stiffness: 2000, slack: 0.1e-3 } };
  const { end, lanes } = runIndex(d, { tol: 1e-10, from: starting({ [V.tape]: 0.08 }) });
  const [m, r] = [d.tape.mass, d.reel.inertia / d.reel.radius ** 2];
  within(2e-4, Math.max(...lanes.web), 0.08 * Math.sqrt((2000 * m * r) / (m + r)));
  within(2e-4, end[V.tape]!, (0.08 * (m - r)) / (m + r));
});

describe("film on a tape too heavy to be moved", () => {
  const heavy = (traction: number, end: number): IndexDesign => {
    const bare = bareDesign(end);
    const { peel, film } = inventedDesign();
    return {
      ...bare,
      peel,
      film: { ...film!, traction },
      tape: { ...bare.tape, mass: 1e6, preSliding: 1 },
    };
  };
  // Peel speed (r w - c v)/(1 - c), tension P of it. [derived]
  test("a running tape loses its film at the speed the nip draws it, under the force of that speed", () => {
    const d = heavy(5, 0.08);
    const { end } = runIndex(d, { tol, from: starting({ [V.tape]: 0.08 }) });
    const { film } = d;
    const c = Math.cos(film!.angle);
    const speed = (film!.roller * end[V.roller]! - c * end[V.tape]!) / (1 - c);
    expect(speed).toBeGreaterThan(0.01);
    within(1e-4, end[at.tension]!, film!.peelForce * (speed / film!.speed) ** film!.exponent);
  });
  test("a standing tape holds the nip at its traction, and feels all of it forward", () => {
    const { end, steps } = runIndex(heavy(1.2, 0.05), { tol });
    within(1e-4, end[at.tension]!, 1.2);
    within(1e-4, end[at.filmForce]!, 1.2);
    expect(steps.unsolved).toBe(0);
  });
  test("over a bar that doubles the tension the standing tape feels half of it", () => {
    const d = heavy(1.2, 0.05);
    const { end } = runIndex({ ...d, film: { ...d.film!, bars: 2 } }, { tol });
    within(1e-4, end[at.tension]!, 1.2);
    within(1e-4, end[at.filmForce]!, 0.6);
  });
});

describe("a preloaded web pulls back on a drive that is switched off", () => {
  const pulled = (lead: number, mu: number, end: number) => {
    const bare = bareDesign(end);
    const { feed, wheel } = inventedDesign();
    const d: IndexDesign = {
      ...bare,
      feed: { ...feed, ...wormFriction(lead, mu, 0.349), T0: 1e-6 },
      wheel,
      tape: { ...bare.tape, viscous: 3 },
      reel: { ...bare.reel, stiffness: 500, slack: -2e-3, inertia: 1e6 },
    };
    return { d, run: runIndex(d, { tol: 1e-8 }) };
  };
  test("a worm that locks lets the tape go no further than its play and springs", () => {
    const [x1, x2] = [0.2, 0.4].map((end) => pulled(0.0873, 0.12, end).run.end[at.tape]!);
    expect(x1).toBeLessThan(0);
    expect(x1).toBeGreaterThan(-0.3e-3);
    expect(Math.abs(x2! - x1!)).toBeLessThan(2e-8);
  });
  // (eta_b M/N - T_0) R/k² for a rotor shorted through its winding, as the pull falls slowly. [derived]
  test("a worm that runs back turns the rotor at the speed at which its braking balances the pull", () => {
    const { d, run } = pulled(0.2, 0.05, 0.16);
    const { feed } = d;
    const M = run.end[at.mesh]!;
    expect(feed.backward).toBeCloseTo(0.73, 2);
    const w = ((feed.backward * Math.abs(M)) / feed.ratio - feed.T0) * (feed.R / feed.k ** 2);
    within(0.015, -run.end[V.rotor]!, w);
  });
});

// 65.7 N that stay, 99.3 N without friction: an independent program of the same law (unpublished working notes). [derived]
test("a tape grabbed at full speed loads its tooth with what the rotor carries, and a locking worm keeps it there", () => {
  const grabbed = (mu: number) => {
    const n = inventedDesign();
    const d = commanded(
      { ...n, feed: { ...n.feed, ...wormFriction(0.0873, mu, 0.349) } },
      { travel: 1, lead: 0, feedStart: 0, peelStart: 1, end: 0.06 },
    );
    const from = runIndex(d).end;
    from[at.zTape] = 0;
    const held: IndexDesign = { ...d, tape: { ...d.tape, sliding: 1000, sticking: 1000, preSliding: 1e8 } };
    return runIndex(commanded(held, { end: 0.04 }), { from }).lanes.hole;
  };
  const rubbing = grabbed(0.08);
  within(0.01, Math.max(...rubbing), 65.7);
  within(0.01, rubbing.at(-1)!, 65.7);
  const free = grabbed(0);
  within(0.01, Math.max(...free), 99.3);
  expect(free.at(-1)!).toBeLessThan(0.8 * Math.max(...free));
});

// Conservation: what the rail gives is heat, motion, springs and friction. [derived]
test("no index gives more heat and work than the rail put in", () => {
  const run = runIndex(inventedDesign());
  const { end } = run;
  const d = inventedDesign();
  const moving = (d.feed.J * end[V.rotor]! ** 2 + d.peel!.J * end[V.peelRotor]! ** 2) / 2;
  expect(run.energy.feedHeat + run.energy.peelHeat + moving).toBeLessThan(run.energy.feed + run.energy.peel);
});
