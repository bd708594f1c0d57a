import type { Beam } from "./beam.ts";

/**
 * Brings a beam along a way in steps: the whole at once where that converges, else halves.
 *
 * A step that fails is taken back and halved; at a sixteenth of the way and below plain Newton (geometric stiffness from the strains) is tried once
 * before. A state the leaf falls out of counts as a failed step too.
 */
export interface Driven {
  readonly arrived: boolean;
  /** Share of the way that was covered. */
  readonly share: number;
  readonly steps: number;
  /** The smallest step found a balance, but one the leaf falls out of. */
  readonly unstable: boolean;
}
export class Driver {
  private readonly X: Float64Array;
  private readonly T: Float64Array;
  private readonly beam: Beam;
  constructor(beam: Beam) {
    this.beam = beam;
    this.X = new Float64Array(beam.X.length);
    this.T = new Float64Array(beam.T.length);
  }
  save(): void {
    this.X.set(this.beam.X);
    this.T.set(this.beam.T);
    for (const c of this.beam.contacts) c.save();
  }
  restore(): void {
    this.beam.X.set(this.X);
    this.beam.T.set(this.T);
    for (const c of this.beam.contacts) c.restore();
  }
  /** `set` moves faces and loads to a share of the way. `first` is the first step tried; `warm` where the way is short. */
  run(set: (share: number) => void, first = 1, warm = false, smallest = 1 / 512): Driven {
    const { beam } = this;
    let share = 0;
    let step = first;
    let steps = 0;
    let unstable = false;
    let cold = !warm;
    while (share < 1 - 1e-12) {
      step = Math.min(step, 1 - share);
      this.save();
      set(share + step);
      const before = beam.iterations;
      let found = beam.solve({ cold });
      unstable = found === "unstable";
      if (found !== "stable") {
        this.restore();
        if (step <= 1 / 16) {
          found = beam.solve({ carried: false, most: 80 });
          if (found === "stable") beam.carryStrains();
          else this.restore();
          unstable ||= found === "unstable";
        }
      }
      if (found === "stable") {
        share += step;
        steps++;
        if (beam.iterations - before < 12) step *= 2;
        continue;
      }
      // What failed warm is tried again cold before it is halved.
      if (!cold) {
        cold = true;
        continue;
      }
      step /= 2;
      if (step < smallest) {
        set(share);
        return { arrived: false, share, steps, unstable };
      }
    }
    return { arrived: true, share: 1, steps, unstable: false };
  }
}
