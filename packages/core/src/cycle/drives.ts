import { power } from "../quantity/power.ts";
import type { DriveDesign, IndexDesign } from "./design.ts";
import { constantPlay, sampledPlay, type ToothPlay } from "./tooth-play.ts";
import { wormFriction } from "./worm.ts";

/** Worms of 20 degrees. */
const worm = (lead: number, friction: number): Pick<DriveDesign, "forward" | "backward" | "worm"> => ({
  ...wormFriction(lead, friction, 0.349),
  worm: { lead, friction, pressure: 0.349 },
});
/** An invented unit: a worm drive that pulls 4 mm of tape in about 60 ms, and a second motor for the film. */
const motor = { volts: 10, R: 16, L: 1.5e-3, k: 3e-3, J: 1e-8, T0: 1.5e-4 } as const;
export const inventedDesign = (): IndexDesign => ({
  feed: {
    ...motor,
    ...worm(0.0873, 0.08),
    ratio: 480,
    backlash: 6.5e-3,
    stiffness: 117,
    damping: 0.15,
    shaftInertia: 4.5e-7,
    shaftFriction: 2e-3,
  },
  peel: {
    ...motor,
    ...worm(0.0873, 0.08),
    ratio: 200,
    backlash: 20e-3,
    stiffness: 30,
    damping: 0.15,
    shaftInertia: 2e-7,
    shaftFriction: 1e-3,
  },
  wheel: { radius: 15.279e-3, play: constantPlay(0.1e-3), stiffness: 1e5, damping: 0.1 },
  tape: { mass: 4e-3, sliding: 0.35, sticking: 0.45, fallSpeed: 5e-3, viscous: 0.5, preSliding: 1e6 },
  reel: { inertia: 6e-5, radius: 0.06, friction: 4e-3, stiffness: 2000, damping: 0.3, slack: 1.5e-3 },
  film: {
    stiffness: 4000,
    angle: (170 * Math.PI) / 180,
    bars: 1,
    peelForce: 0.5,
    speed: 5e-3,
    exponent: 0.15,
    slow: 1e-3,
    traction: 2,
    roller: 5e-3,
  },
  commands: {
    peelStart: 0,
    feedStart: 5e-3,
    peelHold: Number.POSITIVE_INFINITY,
    travel: 4e-3,
    lead: 0.25e-3,
    counts: "rotor",
    ramp: Number.POSITIVE_INFINITY,
    end: 0.1,
  },
});
/** Evenly spread numbers from a seed, the same on every machine: 32-bit mixing of a counter. */
export function seeded(seed: number): () => number {
  let a = seed >>> 0;
  return () => {
    a = (a + 0x9e3779b9) >>> 0;
    let z = a;
    z = Math.imul(z ^ (z >>> 16), 0x21f0aaad);
    z = Math.imul(z ^ (z >>> 15), 0x735a2d97);
    return ((z ^ (z >>> 15)) >>> 0) / 2 ** 32;
  };
}

/** A play of teeth that hand over unevenly, 24 to the turn. */
function wavy(play: number, height: number): ToothPlay {
  const pitch = (2 * Math.PI) / 24;
  const wave = (phi: number): number => height * Math.sin((2 * Math.PI * phi) / pitch);
  return sampledPlay(
    pitch,
    (phi) => wave(phi) - play / 2,
    (phi) => wave(phi) + play / 2,
  );
}
/**
 * A drive drawn at random, wider than anybody would build: gears that lock and gears that run back, strong and weak motors, tape of 1 to 60 g,
 * seals of 0.1 to 1.5 N, nips that slip and nips that never do, tooth play from nothing to 0.3 mm, every second one wavy by up to 20 um from tooth to tooth. Some never finish their index.
 */
export function randomDesign(random: () => number): IndexDesign {
  const even = (low: number, high: number): number => low + (high - low) * random();
  const log = (low: number, high: number): number => low * power(high / low, random());
  const drive = (ratio: readonly [number, number], shaft: number): DriveDesign => ({
    volts: even(6, 12),
    R: log(8, 40),
    L: log(0.3e-3, 4e-3),
    k: even(2e-3, 5e-3),
    J: log(4e-9, 2.5e-8),
    T0: log(5e-5, 4e-4),
    ...worm(even(0.05, 0.2), even(0.03, 0.25)),
    ratio: log(...ratio),
    stiffness: shaft * log(20, 600),
    backlash: (shaft === 1 ? 1 : 5) * even(0, 12e-3),
    damping: even(0.05, 0.5),
    shaftInertia: (shaft === 1 ? 1 : 0.45) * log(1.3e-7, 1.8e-6),
    shaftFriction: (shaft === 1 ? 1 : 0.5) * log(4e-4, 8e-3),
  });
  const feed = drive([150, 900], 1);
  const peel = drive([80, 500], 0.28);
  const sliding = log(0.05, 2);
  const play = even(0, 0.3e-3);
  const travel = random() < 0.3 ? 2e-3 : 4e-3;
  return {
    feed,
    peel,
    wheel: {
      radius: 15.279e-3,
      play: random() < 0.5 ? constantPlay(play) : wavy(play, even(0, 20e-6)),
      stiffness: log(2e4, 8e5),
      damping: even(0.03, 0.4),
    },
    tape: {
      mass: log(1e-3, 60e-3),
      sliding,
      sticking: sliding * even(1, 1.6),
      fallSpeed: log(1e-3, 20e-3),
      viscous: log(0.05, 3),
      preSliding: 1e6,
    },
    reel: {
      inertia: log(1e-5, 3e-3),
      radius: even(0.025, 0.16),
      friction: log(5e-4, 0.03),
      stiffness: log(500, 2e4),
      damping: 0.3,
      slack: random() < 0.2 ? 0 : even(0, 6e-3),
    },
    film: {
      stiffness: log(800, 2e4),
      angle: even(1.74, 3.11),
      bars: 1,
      peelForce: log(0.1, 1.5),
      speed: 5e-3,
      exponent: even(0.05, 0.35),
      slow: 1e-3,
      traction: log(0.3, 6),
      roller: log(3e-3, 8e-3),
    },
    commands: {
      peelStart: 0,
      feedStart: even(0, 20e-3),
      peelHold: Number.POSITIVE_INFINITY,
      travel,
      lead: even(0.05e-3, 0.8e-3),
      counts: "rotor",
      ramp: Number.POSITIVE_INFINITY,
      end: 0.1,
    },
  };
}

/**
 * A unit with everything taken away that may be: no film, no friction, bodies that touch nothing, motors off. What is added back can be
 * held against a closed form.
 */
export const bareDesign = (end: number): IndexDesign => {
  const { feed, tape, reel, commands } = inventedDesign();
  return {
    feed: { ...feed, T0: 0, stiffness: 0, forward: 1, backward: 1, worm: undefined, shaftFriction: 0 },
    wheel: { radius: 15.279e-3, play: constantPlay(0.1e-3), stiffness: 0, damping: 0 },
    tape: { ...tape, sliding: 0, sticking: 0, viscous: 0 },
    reel: { ...reel, friction: 0, stiffness: 0, damping: 0 },
    commands: { ...commands, feedStart: 1e9, travel: 1e9, end },
  };
};
