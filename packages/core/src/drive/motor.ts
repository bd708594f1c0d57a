import { one } from "../quantity/bound.ts";
import { type Given, tabled } from "../quantity/given.ts";
import { type Model, model, type Quantity } from "../quantity/model.ts";
import { unitOf } from "../quantity/units.ts";
import type { Scene } from "../scene.ts";
import { nominalOf } from "../tape/served.ts";
import type { UnitData } from "../unit/unit-fields.ts";

/**
 * Constants of a brushed motor and of the gears behind it, each from its data sheet or from its winding.
 *
 *     V = R i + L di/dt + k w           terminal volts; w speed of the rotor, rad/s
 *     R   = V_s/I_s                     resistance at 20 degC, ohm                     0.5 .. 100
 *     k   = (V_s - I_0 R)/(N_h w_0)     torque per ampere = volts per speed, N m/A     0.0005 .. 0.05
 *     T_0 = k I_0                       friction torque at the rotor, N m
 *     e_h = M_s/(N_h k (I_s - I_0))     efficiency of the gear head                    0.38 .. 0.9
 *     N   = N_h (z_w/n_w) N_g           turns of the rotor for one of the driven shaft
 *     e   = e_h e_w e_g                 efficiency of all of it
 *
 * V_s volts at which the sheet holds; I_s, I_0 current held fast and without a load, A; w_0 speed without a load and M_s torque held fast, of
 * the shaft that leaves motor or gear head; N_h ratio of the gear head; z_w teeth of the worm wheel, n_w starts of the worm; N_g, e_g ratio and
 * efficiency of the gears behind it; e_w efficiency of the worm (drive/worm.ts).
 *
 * A winding given in the unit file comes before the sheet. The winding is taken cold, the magnets as on the sheet; brush drop is left out, so k from
 * a sheet of a motor below 3 V is too small. T_0 from a sheet holds the gear head's own friction and stands for all speeds, which a greased head does
 * not quite keep to.
 */
export type DriveName = "feed" | "peel";
export type DriveData = NonNullable<UnitData["feed drive"]>;
export const driveOf = ({ unit }: Scene, name: DriveName): DriveData | undefined => unit[`${name} drive`];

const sheetCite = { cite: "equations of the brushed motor, from its data sheet", how: "derived" } as const;
const si = (unit: string) => unitOf(unit).dimension;
/** Copper in heat. */
export const copperRise = tabled("catalogue/copper in heat", "a", "0.00393 /kelvin", si("1/kelvin"), {
  cite: "resistance of copper by temperature at 20 degC, handbooks",
  how: "memory",
});
/** The pressure angle that gears have where nobody says another. */
export const usualPressure: Given = tabled("bound/pressure angle", "a", "20 deg", si("deg"), {
  cite: "ISO 53, standard basic rack",
  how: "memory",
});

export interface MotorModels {
  readonly resistance: Model;
  readonly constant: Model;
  readonly friction: Model;
  readonly headEfficiency: Model;
  readonly ratio: Model;
  readonly wormDiameter: Model;
  readonly wormForward: Model;
  readonly wormBackward: Model;
  readonly efficiency: Model;
}
const made = (name: DriveName): MotorModels => {
  const the = `the ${name} drive's`;
  const drive = (scene: Scene) => driveOf(scene, name);
  const resistance = model({
    id: `motor.${name}-resistance`,
    symbol: "R",
    unit: "ohm",
    title: `resistance of ${the} motor`,
    equation: "V_s/I_s",
    form: "closed",
    origin: sheetCite,
    reads: (scene) => {
      const sheet = drive(scene)?.sheet;
      return sheet && { V_s: sheet.supply, I_s: sheet["stall current"] };
    },
    value: ({ V_s, I_s }) => V_s / I_s,
  });
  const constant = model({
    id: `motor.${name}-constant`,
    symbol: "k",
    unit: "N*m/A",
    shownIn: "mN*m/A",
    title: `torque of ${the} rotor per ampere`,
    equation: "(V_s - I_0*R)/(N_h*w_0)",
    form: "closed",
    origin: sheetCite,
    reads: (scene) => {
      const d = drive(scene);
      const R = resistanceOf(scene, name);
      return (
        d?.sheet &&
        R && {
          V_s: d.sheet.supply,
          I_0: d.sheet["no-load current"],
          R,
          N_h: d["gear head"]?.ratio ?? one,
          w_0: d.sheet["no-load speed"],
        }
      );
    },
    value: ({ V_s, I_0, R, N_h, w_0 }) => (V_s - I_0 * R) / (N_h * w_0),
  });
  const friction = model({
    id: `motor.${name}-friction`,
    symbol: "T_0",
    unit: "N*m",
    shownIn: "mN*m",
    title: `friction torque of ${the} motor`,
    equation: "k*I_0",
    form: "closed",
    origin: sheetCite,
    reads: (scene) => {
      const sheet = drive(scene)?.sheet;
      const k = constantOf(scene, name);
      return sheet && k && { k, I_0: sheet["no-load current"] };
    },
    value: ({ k, I_0 }) => k * I_0,
  });
  const headEfficiency = model({
    id: `motor.${name}-head-efficiency`,
    symbol: "e_h",
    unit: "1",
    shownIn: "%",
    title: `efficiency of ${the} gear head`,
    equation: "M_s/(N_h*k*(I_s - I_0))",
    form: "closed",
    origin: sheetCite,
    reads: (scene) => {
      const d = drive(scene);
      const k = constantOf(scene, name);
      const M_s = d?.sheet?.["stall torque"];
      return (
        d?.sheet &&
        M_s &&
        k && {
          M_s,
          N_h: d["gear head"]?.ratio ?? one,
          k,
          I_s: d.sheet["stall current"],
          I_0: d.sheet["no-load current"],
        }
      );
    },
    value: ({ M_s, N_h, k, I_s, I_0 }) => M_s / (N_h * k * (I_s - I_0)),
  });
  const ratio = model({
    id: `drive.${name}-ratio`,
    symbol: "N",
    unit: "1",
    title: `turns of ${the} rotor for one of its driven shaft`,
    equation: "N_h*z_w/n_w*N_g",
    form: "closed",
    origin: { cite: "gears in a row", how: "derived" },
    reads: (scene) => {
      const d = drive(scene);
      return d && !gapOfTrain(d, name)
        ? {
            N_h: d["gear head"]?.ratio ?? one,
            z_w: (d.worm && d["wheel teeth"]) ?? one,
            n_w: d.worm?.starts ?? one,
            N_g: d.gears?.ratio ?? one,
          }
        : undefined;
    },
    value: ({ N_h, z_w, n_w, N_g }) => ((N_h * z_w) / n_w) * N_g,
  });
  const wormDiameter = model({
    id: `drive.${name}-worm-diameter`,
    symbol: "d",
    unit: "m",
    title: `pitch diameter of ${the} worm that its lead angle asks for`,
    equation: "m*n_w/tan(lambda)",
    form: "closed",
    origin: { cite: "a helix unrolled", how: "derived" },
    reads: (scene) => {
      const worm = drive(scene)?.worm;
      return worm && { m: worm.module, n_w: worm.starts, lambda: worm["lead angle"] };
    },
    value: ({ m, n_w, lambda }) => (m * n_w) / Math.tan(lambda),
  });
  const wormReads = (scene: Scene) => {
    const worm = drive(scene)?.worm;
    return (
      worm && {
        lambda: worm["lead angle"],
        alpha_n: worm["pressure angle"] ?? usualPressure,
        mu_w: worm.friction ?? scene.requirement.assume["worm friction"],
      }
    );
  };
  const wormForward = model({
    id: `drive.${name}-worm`,
    symbol: "e_w",
    unit: "1",
    shownIn: "%",
    title: `efficiency of ${the} worm, worm driving`,
    equation: "tan(lambda)*(cos(alpha_n) - mu_w*tan(lambda))/(cos(alpha_n)*tan(lambda) + mu_w)",
    form: "closed",
    origin: wormCite,
    valid: wormValid,
    reads: wormReads,
    value: ({ lambda, alpha_n, mu_w }) => wormEfficiency(lambda, alpha_n, mu_w),
  });
  const wormBackward = model({
    id: `drive.${name}-worm-back`,
    symbol: "e_b",
    unit: "1",
    shownIn: "%",
    title: `efficiency of ${the} worm, wheel driving; below 0 it locks`,
    equation: "(cos(alpha_n)*tan(lambda) - mu_w)/((cos(alpha_n) + mu_w*tan(lambda))*tan(lambda))",
    form: "closed",
    origin: wormCite,
    valid: wormValid,
    reads: wormReads,
    value: ({ lambda, alpha_n, mu_w }) => wormBackEfficiency(lambda, alpha_n, mu_w),
  });
  const efficiency = model({
    id: `drive.${name}-efficiency`,
    symbol: "e",
    unit: "1",
    shownIn: "%",
    title: `share of the rotor's torque that reaches ${the} shaft`,
    equation: "e_h*e_w*e_g",
    form: "closed",
    origin: { cite: "gears in a row", how: "derived" },
    reads: (scene) => {
      const d = drive(scene);
      return d && !gapOfTrain(d, name)
        ? {
            e_h: headEfficiencyOf(scene, name),
            e_w: d.worm ? wormForward : one,
            e_g: d.gears ? (d.gears.efficiency ?? scene.requirement.assume["gear efficiency"]) : one,
          }
        : undefined;
    },
    value: ({ e_h, e_w, e_g }) => e_h * e_w * e_g,
  });
  return { resistance, constant, friction, headEfficiency, ratio, wormDiameter, wormForward, wormBackward, efficiency };
};

/**
 * A worm under friction, forward and overhauling.
 *
 *     e_w = tan l (cos a - mu tan l)/(cos a tan l + mu)
 *     e_b = (cos a tan l - mu)/((cos a + mu tan l) tan l)
 *     d   = m n/tan l                                pitch diameter, m module, n starts
 *
 * l lead angle, 1 .. 30 deg; a normal pressure angle, 14.5 .. 25 deg; mu friction, 0.01 .. 0.3. Friction on the flank alone: bearings and churning
 * come on top. Below 0, e_b says that the wheel cannot turn the worm; a shaking worm may creep all the same.
 */
const wormCite = {
  cite: "wedge with friction wound round a cylinder; machine design textbooks",
  how: "memory",
} as const;
const wormValid = { lambda: [0.0087, 0.79], alpha_n: [0.17, 0.53], mu_w: [0.01, 0.5] } as const;
export function wormEfficiency(lead: number, pressure: number, mu: number): number {
  const [t, c] = [Math.tan(lead), Math.cos(pressure)];
  return (t * (c - mu * t)) / (c * t + mu);
}
export function wormBackEfficiency(lead: number, pressure: number, mu: number): number {
  const [t, c] = [Math.tan(lead), Math.cos(pressure)];
  return (c * t - mu) / ((c + mu * t) * t);
}

export const motors: Readonly<Record<DriveName, MotorModels>> = { feed: made("feed"), peel: made("peel") };

/** Resistance at 20 degC; undefined where neither winding nor sheet is given. */
export function resistanceOf(scene: Scene, name: DriveName): Quantity | undefined {
  const d = driveOf(scene, name);
  return d?.winding?.resistance ?? (d?.sheet && motors[name].resistance);
}
export function constantOf(scene: Scene, name: DriveName): Quantity | undefined {
  const d = driveOf(scene, name);
  return d?.winding?.constant ?? (d?.sheet && motors[name].constant);
}
/** Friction torque at the rotor: from the winding, from the sheet, else what is assumed of small motors. */
export function frictionTorqueOf(scene: Scene, name: DriveName): Quantity | undefined {
  const d = driveOf(scene, name);
  if (!d?.winding && !d?.sheet) return undefined;
  return d.winding?.friction ?? (d.sheet ? motors[name].friction : scene.requirement.assume["motor friction"]);
}
export const inductanceOf = (scene: Scene, name: DriveName): Quantity =>
  driveOf(scene, name)?.inductance ?? scene.requirement.assume["motor inductance"];
export const inertiaOf = (scene: Scene, name: DriveName): Quantity =>
  driveOf(scene, name)?.["rotor inertia"] ?? scene.requirement.assume["rotor inertia"];
function headEfficiencyOf(scene: Scene, name: DriveName): Quantity {
  const d = driveOf(scene, name);
  if (!d?.["gear head"]) return one;
  return (
    d["gear head"].efficiency ??
    (d.sheet?.["stall torque"] ? motors[name].headEfficiency : scene.requirement.assume["gear head efficiency"])
  );
}

/** What is missing between rotor and driven shaft; undefined where nothing is. */
export const gapOfTrain = (d: DriveData, name: DriveName): string | undefined =>
  d.worm && !d["wheel teeth"] ? `the ${name} drive has a worm, and the teeth of its wheel are not given` : undefined;
/** Why a drive's motor cannot be computed with; undefined where it can. */
export function noMotor(scene: Scene, name: DriveName): string | undefined {
  const d = driveOf(scene, name);
  if (!d) return `the unit has no ${name} drive`;
  if (!d.winding && !d.sheet)
    return `the ${name} drive gives neither its motor's sheet nor its winding, so its resistance is not known`;
  if (!d.winding && d.sheet && nominalOf(d.sheet["no-load current"]) >= nominalOf(d.sheet["stall current"]))
    return `the sheet of the ${name} drive's motor gives no less current without a load than held fast`;
  return gapOfTrain(d, name);
}
