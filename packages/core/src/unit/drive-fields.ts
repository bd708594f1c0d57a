import { group, list, optional, quantity, text } from "./field.ts";
import { gearPairFields } from "./gear-fields.ts";

const worm = group("worm of the drive", {
  module: quantity("mm", "module of the worm", { least: 0.05 }),
  starts: quantity("", "number of starts", { least: 1, most: 12, example: "1" }),
  "lead angle": quantity("deg", "lead angle at the pitch radius", {
    least: 0.5,
    most: 45,
    lever: [1, 15],
    example: "4.5 deg",
  }),
  "pressure angle": optional(
    quantity("deg", "normal pressure angle; 20 deg where it is left out", { least: 10, most: 30, example: "20 deg" }),
  ),
  centre: optional(
    quantity("mm", "distance of the axes of worm and wheel", {
      least: 0.5,
      most: 200,
      lever: [2, 60],
      example: "13.0 ±0.1 mm",
    }),
  ),
  friction: optional(
    quantity("", "friction of worm on wheel", { least: 0.005, most: 0.8, example: "0.10..0.16 guess" }),
  ),
});

/** What a data sheet gives of a motor, at one voltage. Speeds and torque are of the shaft that leaves the motor or its gear head. */
const sheet = group("what the motor's data sheet gives", {
  supply: quantity("V", "voltage at which the sheet's figures hold", { least: 0.5, most: 60, example: "12 V" }),
  "no-load current": quantity("mA", "current without a load", { least: 1, most: 5000, example: "80 mA" }),
  "no-load speed": quantity("rpm", "speed without a load, of the shaft that leaves motor or gear head", {
    least: 1,
    most: 60_000,
    example: "450 rpm",
  }),
  "stall current": quantity("A", "current when it is held fast", { least: 0.01, most: 30, example: "0.75 A" }),
  "stall torque": optional(
    quantity("N*mm", "torque when it is held fast, of the shaft that leaves motor or gear head", {
      least: 0.1,
      most: 50_000,
      example: "98 N*mm",
    }),
  ),
});
/** The same motor by the constants of its winding. */
const winding = group("the motor's winding, measured or from its maker", {
  resistance: quantity("ohm", "resistance between the terminals at 20 degC", {
    least: 0.05,
    most: 1000,
    example: "16 ohm",
  }),
  constant: quantity("mN*m/A", "torque of the rotor per ampere, which is also volts per speed", {
    least: 0.05,
    most: 200,
    example: "3.0 mN*m/A",
  }),
  friction: optional(
    quantity("mN*m", "friction torque of the bare motor, gear head included, at the rotor", {
      least: 0.001,
      most: 50,
      example: "0.15 mN*m",
    }),
  ),
});

/** The motor of a drive with all its gears down to the driven shaft: the wheel of the tape, or the lower roller of the nip. */
export const driveFields = group("motor with its gearing", {
  motor: text("what motor, in words"),
  sheet: optional(sheet),
  winding: optional(winding),
  inductance: optional(
    quantity("mH", "inductance of the winding", { least: 0.001, most: 100, example: "1.5 mH measured" }),
  ),
  "rotor inertia": optional(
    quantity("g*mm^2", "moment of inertia of the rotor", { least: 0.1, most: 20_000, example: "10 g*mm^2" }),
  ),
  "gear head": optional(
    group("gears built on to the motor", {
      ratio: quantity("", "turns of the motor for one of the shaft that comes out", {
        least: 1,
        most: 2000,
        lever: [2, 1000],
        example: "75.81",
      }),
      efficiency: optional(
        quantity("", "share of the torque that comes through", { least: 0.05, most: 1, example: "0.64" }),
      ),
    }),
  ),
  worm: optional(worm),
  "wheel teeth": optional(quantity("", "teeth of the worm wheel", { least: 4, example: "40" })),
  gears: optional(
    group("gears behind motor, gear head and worm, down to the driven shaft", {
      ratio: quantity("", "turns at the motor's side for one of the driven shaft", {
        least: 0.05,
        most: 200,
        lever: [0.2, 20],
        example: "2.5",
      }),
      efficiency: optional(
        quantity("", "share of the torque that comes through", { least: 0.05, most: 1, example: "0.9" }),
      ),
    }),
  ),
  "gear pairs": optional(
    list(gearPairFields, "pairs of spur gears in the drive, each with its teeth and the distance of its axes"),
  ),
  bush: optional(
    group("plain bearings of the driven shaft", {
      radius: quantity("mm", "radius of the shaft in its bushes", { least: 0.2, most: 20, lever: [0.5, 5] }),
      friction: optional(
        quantity("", "friction in the bushes", { least: 0.005, most: 0.8, example: "0.2..0.35 guess" }),
      ),
    }),
  ),
  backlash: optional(
    quantity("mm", "backlash of the whole drive at the pitch line of the driven wheel or roller", {
      least: 0,
      most: 2,
      set: true,
      example: "0.02..0.10 mm",
    }),
  ),
  encoder: optional(quantity("counts", "counts per turn of the motor", { example: "28 counts" })),
  stall: optional(
    quantity("N*mm", "stall torque at the driven shaft, at the least supply, hot", {
      lever: [1, 500],
      example: "60 N*mm",
    }),
  ),
  "current limit": optional(
    quantity("A", "current at which the bridge holds the motor back", {
      least: 0.01,
      most: 30,
      lever: [0.05, 3],
      example: "0.45 A",
    }),
  ),
  "stall time": optional(
    quantity("ms", "how long the firmware drives a motor that stands", {
      least: 1,
      most: 60_000,
      lever: [20, 5000],
      example: "200 ms",
    }),
  ),
  heat: optional(
    group("how the motor gets rid of its heat", {
      "winding to case": optional(
        quantity("kelvin*s/J", "thermal resistance from winding to case", {
          least: 0.1,
          most: 200,
          example: "20 kelvin*s/J",
        }),
      ),
      "case to air": optional(
        quantity("kelvin*s/J", "thermal resistance from case to air, as it is fitted", {
          least: 0.1,
          most: 500,
          example: "45 kelvin*s/J",
        }),
      ),
      "winding capacity": optional(
        quantity("J/kelvin", "heat capacity of winding and rotor", { least: 0.05, most: 500, example: "1.5 J/kelvin" }),
      ),
      limit: optional(
        quantity("degC", "highest temperature of the winding", { least: 40, most: 220, example: "100 degC" }),
      ),
    }),
  ),
  brush: optional(
    group("its brushes", {
      segments: optional(quantity("", "segments of the commutator", { least: 2, most: 60, example: "3" })),
      life: optional(
        quantity("h", "running time to worn brushes at the sheet's voltage", {
          least: 0.5,
          most: 50_000,
          example: "100..300 h guess",
        }),
      ),
    }),
  ),
});
