import { one } from "../quantity/bound.ts";
import { tabled } from "../quantity/given.ts";
import { type Model, model, type Quantity } from "../quantity/model.ts";
import { unitOf } from "../quantity/units.ts";
import type { Scene } from "../scene.ts";
import { slipTorque, tapeTorque } from "./load.ts";
import {
  constantOf,
  type DriveName,
  driveOf,
  frictionTorqueOf,
  inertiaOf,
  motors,
  noMotor,
  resistanceOf,
} from "./motor.ts";

/**
 * Currents of a drive and of a unit.
 *
 *     I_s = V/(R + R_b)                              as it starts, cold, at the rail's own volts; at most the bridge's limit I_m
 *     I_r = min(I_s, (T_0 + M/(N e))/k)              as it runs against its load
 *     d   = min(1, t_i f_i)                          share of the time in which it runs
 *     Q   = J V/k^2                                  charge of one run-up, A s
 *     I_u = d (I_f + I_p) + f (Q_f + Q_p) + I_0      mean of the unit, A
 *
 * V volts of the rail; R, T_0, N, e, k of drive/motor.ts; R_b resistance of the bridge, ohm; M torque of the load, N m: for the peel drive that of the
 * nip as it slips; t_i time for one index, s, f_i indexes a second; J inertia of the rotor, kg m2: what it takes to run up to V/k comes on top; f starts a
 * second, f_i; I_f, I_p run currents of feed and peel drive; I_0 of the board, motors off.
 *
 * Every index is one start of both motors, up to their speed without a load (upper value). Where project.yaml asks for no rate, indexes follow each other
 * without a pause, and without an index time too the motors run on. A switching bridge takes less from the rail than the motor's current, and one that brakes by a
 * short circuit takes nothing: the rail's figure is an upper one.
 */
export const noCurrent = tabled("bound/no current", "0", "0 A", [0, 0, 0, 1, 0], {
  cite: "the unit has no such drive",
  how: "derived",
});

export const bridgeOf = ({ unit, requirement }: Scene): Quantity =>
  unit.supply?.["bridge resistance"] ?? requirement.assume["bridge resistance"];

const noCharge = tabled("bound/no charge", "0", "0 A*s", unitOf("A*s").dimension, {
  cite: "the unit has no such drive",
  how: "derived",
});
const noStart = tabled("bound/no start", "0", "0 /s", unitOf("1/s").dimension, {
  cite: "the motors run on",
  how: "derived",
});

interface Currents {
  readonly free: Model;
  readonly limited: Model;
  readonly run: Model;
  readonly runUp: Model;
}
const made = (name: DriveName): Currents => {
  const the = `the ${name} drive's`;
  const free = model({
    id: `drive.${name}-start`,
    symbol: "I_s",
    unit: "A",
    title: `current of ${the} motor as it starts, cold`,
    equation: "V/(R + R_b)",
    form: "closed",
    origin: { cite: "Ohm's law", how: "derived" },
    reads: (scene) => {
      const R = resistanceOf(scene, name);
      const V = scene.requirement.supply?.volts;
      return R && V && { V, R, R_b: bridgeOf(scene) };
    },
    value: ({ V, R, R_b }) => V / (R + R_b),
  });
  const limited = model({
    id: `drive.${name}-start-limited`,
    symbol: "I_s",
    unit: "A",
    title: `current of ${the} motor as it starts, within its limit`,
    equation: "min(I_f, I_m)",
    form: "closed",
    origin: { cite: "the bridge holds the current at its limit", how: "derived" },
    reads: (scene) => {
      const I_m = driveOf(scene, name)?.["current limit"];
      return I_m && free.reads(scene) ? { I_f: free, I_m } : undefined;
    },
    value: ({ I_f, I_m }) => Math.min(I_f, I_m),
  });
  const run = model({
    id: `drive.${name}-run`,
    symbol: "I_r",
    unit: "A",
    title: `current of ${the} motor against its load`,
    equation: "min(I_s, (T_0 + M/(N*e))/k)",
    form: "closed",
    origin: { cite: "torque balance of a brushed motor", how: "derived" },
    reads: (scene) => {
      const [k, T_0, I_s] = [constantOf(scene, name), frictionTorqueOf(scene, name), startCurrentOf(scene, name)];
      const M = name === "feed" ? tapeTorque : slipTorque;
      return k && T_0 && I_s && M.reads(scene)
        ? { I_s, T_0, M, N: motors[name].ratio, e: motors[name].efficiency, k }
        : undefined;
    },
    value: ({ I_s, T_0, M, N, e, k }) => Math.min(I_s, (T_0 + M / (N * e)) / k),
  });
  const runUp = model({
    id: `drive.${name}-run-up`,
    symbol: "Q",
    unit: "A*s",
    shownIn: "mA*s",
    title: `charge that one run-up of ${the} motor takes`,
    equation: "J*V/k^2",
    form: "closed",
    origin: { cite: "torque per ampere brings the rotor to its speed", how: "derived" },
    reads: (scene) => {
      const [k, V] = [constantOf(scene, name), scene.requirement.supply?.volts];
      return k && V && startCurrentOf(scene, name) ? { J: inertiaOf(scene, name), V, k } : undefined;
    },
    value: ({ J, V, k }) => (J * V) / (k * k),
  });
  return { free, limited, run, runUp };
};
export const currents: Readonly<Record<DriveName, Currents>> = { feed: made("feed"), peel: made("peel") };

/** Current as a drive starts; undefined where its motor or the rail is not known. */
export function startCurrentOf(scene: Scene, name: DriveName): Model | undefined {
  if (noMotor(scene, name) || !scene.requirement.supply) return undefined;
  return driveOf(scene, name)?.["current limit"] ? currents[name].limited : currents[name].free;
}
export const runCurrentOf = (scene: Scene, name: DriveName): Model | undefined =>
  startCurrentOf(scene, name) && currents[name].run.reads(scene) ? currents[name].run : undefined;

const dutyOfIndexes = model({
  id: "drive.duty",
  symbol: "d",
  unit: "1",
  shownIn: "%",
  title: "share of the time in which the motors run",
  equation: "min(1, t_i*f_i)",
  form: "closed",
  origin: { cite: "definition of a duty", how: "derived" },
  reads: ({ requirement: { indexTime, indexRate } }) =>
    indexTime && indexRate ? { t_i: indexTime, f_i: indexRate } : undefined,
  value: ({ t_i, f_i }) => Math.min(1, t_i * f_i),
});
export const dutyOf = (scene: Scene): Quantity => (dutyOfIndexes.reads(scene) ? dutyOfIndexes : one);

const unpaused = model({
  id: "drive.unpaused-rate",
  symbol: "f",
  unit: "1/s",
  title: "indexes a second without a pause",
  equation: "1/t_i",
  form: "closed",
  origin: { cite: "definition of a rate", how: "derived" },
  reads: ({ requirement: { indexTime } }) => indexTime && { t_i: indexTime },
  value: ({ t_i }) => 1 / t_i,
});
/** Starts of the motors a second. */
export const startsOf = (scene: Scene): Quantity =>
  scene.requirement.indexRate ?? (scene.requirement.indexTime ? unpaused : noStart);

/** Current of one unit as all its motors start, and its mean over a run; undefined where no motor of it is known. */
export const unitStart = model({
  id: "supply.unit-start",
  symbol: "I_1",
  unit: "A",
  title: "current of a unit as all its motors start",
  equation: "I_f + I_p + I_0",
  form: "closed",
  origin: { cite: "sum of currents", how: "derived" },
  reads: (scene) =>
    anyMotor(scene)
      ? {
          I_f: startCurrentOf(scene, "feed") ?? noCurrent,
          I_p: startCurrentOf(scene, "peel") ?? noCurrent,
          I_0: scene.unit.supply?.idle ?? noCurrent,
        }
      : undefined,
  value: ({ I_f, I_p, I_0 }) => I_f + I_p + I_0,
});
export const unitMean = model({
  id: "supply.unit-mean",
  symbol: "I_u",
  unit: "A",
  title: "current of a unit, mean over a run",
  equation: "d*(I_f + I_p) + f*(Q_f + Q_p) + I_0",
  form: "closed",
  origin: { cite: "sum of currents", how: "derived" },
  reads: (scene) =>
    anyMotor(scene)
      ? {
          d: dutyOf(scene),
          I_f: runCurrentOf(scene, "feed") ?? startCurrentOf(scene, "feed") ?? noCurrent,
          I_p: runCurrentOf(scene, "peel") ?? startCurrentOf(scene, "peel") ?? noCurrent,
          f: startsOf(scene),
          Q_f: currents.feed.runUp.reads(scene) ? currents.feed.runUp : noCharge,
          Q_p: currents.peel.runUp.reads(scene) ? currents.peel.runUp : noCharge,
          I_0: scene.unit.supply?.idle ?? noCurrent,
        }
      : undefined,
  value: ({ d, I_f, I_p, f, Q_f, Q_p, I_0 }) => d * (I_f + I_p) + f * (Q_f + Q_p) + I_0,
});
export const anyMotor = (scene: Scene): boolean =>
  startCurrentOf(scene, "feed") !== undefined || startCurrentOf(scene, "peel") !== undefined;
