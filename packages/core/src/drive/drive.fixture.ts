import type { embossedTape, overhead, requirement, sideCrossing, tapeWith, written } from "../scene.fixture.ts";
import type { Requirement, Scene } from "../scene.ts";
import type { Tape } from "../tape/tape.ts";
import type { Unit } from "../unit/unit.ts";

/** What these scenes are made with; handed in, so that the list of all scenes may hold them. */
interface Kit {
  readonly written: typeof written;
  readonly sideCrossing: typeof sideCrossing;
  readonly overhead: typeof overhead;
  readonly embossedTape: typeof embossedTape;
  readonly tapeWith: typeof tapeWith;
  readonly requirement: typeof requirement;
}

/**
 * Two invented units with their motors, on an invented rail: one whose motors are known from a sheet, with a linear regulator, and one from its winding,
 * with limits and a switching regulator. Every number is made up; no test takes an expectation from here.
 */
export function drivenWith({ written, sideCrossing, overhead, embossedTape, tapeWith, requirement }: Kit) {
  const sheetDriven = (width = 12): Unit => {
    const base = sideCrossing(width);
    const at = (path: string, symbol: string, text: string, unit: string) =>
      written(`sheet driven/${path}`, symbol, text, unit, base.letters);
    const sheet = (drive: string, head: number) => ({
      supply: at(`${drive}.sheet.supply`, "V_s", "12 V", "V"),
      "no-load current": at(`${drive}.sheet.no-load current`, "I_0", "70 mA", "mA"),
      "no-load speed": at(`${drive}.sheet.no-load speed`, "w_0", `${(34_000 / head).toFixed(0)} rpm`, "rpm"),
      "stall current": at(`${drive}.sheet.stall current`, "I_s", "0.72 A", "A"),
      "stall torque": at(`${drive}.sheet.stall torque`, "M_s", `${(1.5 * head).toFixed(1)} N*mm`, "N*mm"),
    });
    const worm = (drive: string) => ({
      module: at(`${drive}.worm.module`, "m", "0.5 mm", "mm"),
      starts: at(`${drive}.worm.starts`, "n_w", "1", ""),
      "lead angle": at(`${drive}.worm.lead angle`, "lambda", "4.0 deg", "deg"),
    });
    return {
      ...base,
      "feed drive": {
        motor: "gear motor 10x12 mm",
        sheet: sheet("feed", 12),
        "gear head": { ratio: at("feed.head", "N_h", "12", "") },
        worm: worm("feed"),
        "wheel teeth": at("feed.teeth", "z_w", "40", ""),
        bush: { radius: at("feed.bush", "r_b", "1.5 mm", "mm") },
        encoder: at("feed.encoder", "c", "12 counts", "counts"),
      },
      "peel drive": {
        motor: "gear motor 10x12 mm",
        sheet: sheet("peel", 20),
        "gear head": { ratio: at("peel.head", "N_h", "20", ""), efficiency: at("peel.efficiency", "e_h", "0.65", "") },
        worm: worm("peel"),
        "wheel teeth": at("peel.teeth", "z_w", "20", ""),
        "stall time": at("peel.stall time", "t_s", "200 ms", "ms"),
      },
      supply: {
        least: at("supply.least", "V_n", "8 V", "V"),
        withstands: at("supply.withstands", "V_w", "28 V", "V"),
        idle: at("supply.idle", "I_0", "30 mA", "mA"),
        ceramic: at("supply.ceramic", "C_c", "10 uF", "uF"),
        bulk: at("supply.bulk", "C_b", "220 uF", "uF"),
        connector: {
          pins: at("supply.pins", "n_p", "2", ""),
          rating: at("supply.rating", "I_p", "3 A", "A"),
          resistance: at("supply.contact", "R_c", "10 mohm", "mohm"),
        },
        regulator: {
          kind: "linear",
          out: at("supply.out", "V_o", "3.3 V", "V"),
          load: at("supply.load", "I", "80 mA", "mA"),
          "thermal resistance": at("supply.Rt", "R_t", "110 kelvin*s/J", "kelvin*s/J"),
          limit: at("supply.limit", "T_max", "125 degC", "degC"),
        },
        trace: { width: at("supply.trace", "w", "1.0 mm", "mm"), layer: "outside" },
      },
      mount: {
        "slot pitch": at("mount.pitch", "p", "16 mm", "mm"),
        datum: at("mount.datum", "x_d", "-60 mm", "mm"),
      },
    };
  };
  const windingDriven = (width = 24): Unit => {
    const base = overhead(width);
    const at = (path: string, symbol: string, text: string, unit: string) =>
      written(`winding driven/${path}`, symbol, text, unit, base.letters);
    return {
      ...base,
      "feed drive": {
        motor: "motor with a bare shaft",
        winding: {
          resistance: at("feed.R", "R", "9 ohm", "ohm"),
          constant: at("feed.k", "k", "4.0 mN*m/A", "mN*m/A"),
        },
        "gear head": { ratio: at("feed.head", "N_h", "30", "") },
        gears: { ratio: at("feed.gears", "N_g", "10", "") },
        "current limit": at("feed.limit", "I_m", "0.5 A", "A"),
        "stall time": at("feed.stall time", "t_s", "150 ms", "ms"),
        heat: {
          "winding to case": at("feed.R_1", "R_1", "20 kelvin*s/J", "kelvin*s/J"),
          "case to air": at("feed.R_2", "R_2", "45 kelvin*s/J", "kelvin*s/J"),
          "winding capacity": at("feed.C_w", "C_w", "1.5 J/kelvin", "J/kelvin"),
          limit: at("feed.T_max", "T_max", "110 degC", "degC"),
        },
      },
      supply: {
        bulk: at("supply.bulk", "C_b", "100 uF", "uF"),
        withstands: at("supply.withstands", "V_w", "40 V", "V"),
        surge: at("supply.surge", "I_w", "60 A", "A"),
        "soft start": at("supply.soft", "R_s", "1 ohm", "ohm"),
        regulator: {
          kind: "switching",
          out: at("supply.out", "V_o", "3.3 V", "V"),
          load: at("supply.load", "I", "120 mA", "mA"),
          dropout: at("supply.dropout", "V_d", "1.5 V", "V"),
          efficiency: at("supply.efficiency", "e", "0.85", ""),
          "thermal resistance": at("supply.Rt", "R_t", "90 kelvin*s/J", "kelvin*s/J"),
          limit: at("supply.limit", "T_max", "125 degC", "degC"),
        },
        trace: {
          width: at("supply.trace", "w", "0.8 mm", "mm"),
          thickness: at("supply.copper", "t", "35 um", "um"),
          layer: "inside",
          rise: at("supply.rise", "dT_t", "15 kelvin", "kelvin"),
        },
      },
    };
  };
  const asked = (path: string, symbol: string, text: string, unit: string) =>
    written(`driven project/${path}`, symbol, text, unit);
  /** Forty units on a rail, four of which start at once. */
  const onRail: Requirement = {
    ...requirement,
    indexTime: asked("index time", "t_i", "100 ms", "ms"),
    indexRate: asked("index rate", "f_i", "2.5 /s", "1/s"),
    life: asked("life", "n_l", "3000000", ""),
    ambient: asked("ambient", "T_a", "26 degC", "degC"),
    pickTool: asked("pick tool", "r_t", "0.12 mm", "mm"),
    supply: {
      volts: asked("supply.volts", "V", "10.0 ±0.3 V", "V"),
      units: asked("supply.units", "n_u", "40", ""),
      together: asked("supply.together", "n_s", "4", ""),
      cable: {
        length: asked("cable.length", "l_c", "1.5 m", "m"),
        area: asked("cable.area", "A_c", "4 mm^2", "mm^2"),
      },
      bar: { length: asked("bar.length", "l_b", "0.7 m", "m"), area: asked("bar.area", "A_b", "4 mm^2", "mm^2") },
    },
  };
  const reel = (tape: string, path: string, symbol: string, text: string, unit: string) =>
    written(`${tape}/${path}`, symbol, text, unit, {}, "reel");
  /** A tape whose part is known, in a pocket a little longer. */
  const tapeWithPart = (width = 12): Tape => ({
    ...embossedTape(width, "heat activated"),
    partMass: reel(`embossed ${width}`, "part mass", "m_p", "80 mg", "mg"),
    partHeight: reel(`embossed ${width}`, "part height", "h_p", "1.75 mm", "mm"),
    partLength: reel(`embossed ${width}`, "part length", "l_p", "6.1 mm", "mm"),
    partWidth: reel(`embossed ${width}`, "part width", "w_p", "5.0 mm", "mm"),
  });
  const charged = (width: number): Tape => {
    const one = tapeWithPart(width);
    return {
      ...one,
      film: { ...one.film, charge: reel(one.name, "film.charge", "s", "8 mA*ms/m^2 measured", "mA*ms/m^2") },
    };
  };
  const sheetScene = (): Scene => ({ unit: sheetDriven(12), tape: charged(12), requirement: onRail });
  const { ambient: _, ...inAnyRoom } = onRail;
  const windingScene = (): Scene => ({ unit: windingDriven(24), tape: tapeWith(24, {}), requirement: inAnyRoom });
  return {
    sheetDriven,
    windingDriven,
    onRail,
    tapeWithPart,
    sheetScene,
    windingScene,
    scenes: [
      ["motors by their sheet, parts known", sheetScene()],
      ["motor by its winding", windingScene()],
      ["parts known, no motor", { unit: sideCrossing(12), tape: tapeWithPart(12), requirement }],
    ] as readonly (readonly [name: string, Scene])[],
  };
}
