import { embossedTape, requirement, scene, sideCrossing, written } from "../scene.fixture.ts";
import type { Scene } from "../scene.ts";
import type { IndexData } from "../unit/index-fields.ts";
import type { Unit } from "../unit/unit.ts";

type Drive = NonNullable<Unit["feed drive"]>;
const drive = (name: string, ratio: string, lead: string): Drive => {
  const at = (path: string, text: string, u = "mm") =>
    written(`driven/${name}.${path}`, path.split(".").at(-1)!, text, u);
  return {
    motor: "invented",
    winding: {
      resistance: at("winding.resistance", "16 ohm", "ohm"),
      constant: at("winding.constant", "3.0 mN*m/A", "mN*m/A"),
      friction: at("winding.friction", "0.15 mN*m", "mN*m"),
    },
    "gear head": { ratio: at("head.ratio", ratio, ""), efficiency: at("head.efficiency", "0.8", "") },
    worm: {
      module: at("worm.module", "0.5 mm"),
      starts: at("worm.starts", "1", ""),
      "lead angle": at("worm.lead", lead, "deg"),
    },
    "wheel teeth": at("teeth", name === "feed" ? "40" : "20", ""),
    inductance: at("inductance", "1.5 mH", "mH"),
    "rotor inertia": at("inertia", "10 g*mm^2", "g*mm^2"),
  };
};
/** The crossing with both its motors known, and its firmware where it is given. */
export const drivenUnit = (width = 12, index?: IndexData): Unit => {
  const base = sideCrossing(width);
  const at = (path: string, text: string, u = "mm") => written(`driven/${path}`, path, text, u, base.letters);
  return {
    ...base,
    sprocket: {
      ...base.sprocket!,
      disc: { from: at("disc from", "E1 - 1.6 mm"), to: at("disc to", "E1 + 0.5 mm") },
    },
    "feed drive": drive("feed", "8", "4.5 deg"),
    "peel drive": drive("peel", "6", "4.5 deg"),
    ...(index ? { index } : {}),
  };
};
/** On a rail of 12 V, an index of 100 ms asked for. */
export const drivenScene = (width = 12, index?: IndexData, unit = drivenUnit(width, index)): Scene => ({
  ...scene(unit, embossedTape(width, "heat activated")),
  requirement: {
    ...requirement,
    indexTime: written("driven/index time", "t_i", "100 ms", "ms"),
    supply: {
      volts: written("driven/volts", "V", "12.0 ±0.4 V", "V"),
      units: written("driven/units", "n", "20", ""),
      together: written("driven/together", "n_s", "4", ""),
      cable: {
        length: written("driven/cable length", "l", "1.5 m", "m"),
        area: written("driven/cable area", "A", "2.5 mm^2", "mm^2"),
      },
    },
  },
});
