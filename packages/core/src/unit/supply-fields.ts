import { type DataOf, group, optional, quantity, word } from "./field.ts";

/** What one unit's board does with the volts it is given. The rail itself belongs to project.yaml. */
export const boardSupplyFields = group("what the unit's board does with its supply", {
  least: optional(
    quantity("V", "least supply at which the board works", { least: 0.5, most: 60, lever: [3, 24], example: "9 V" }),
  ),
  withstands: optional(
    quantity("V", "most volts that whatever hangs on the supply stands", { least: 1, most: 200, example: "18 V" }),
  ),
  idle: optional(
    quantity("mA", "current of the board with its motors off", { least: 0.1, most: 5000, example: "30 mA" }),
  ),
  "bridge resistance": optional(
    quantity("ohm", "resistance of a motor's bridge, both switches", { least: 0.001, most: 20, example: "0.5 ohm" }),
  ),
  ceramic: optional(
    quantity("uF", "ceramic capacitors at the connector", { least: 0.01, most: 1000, example: "10 uF" }),
  ),
  bulk: optional(
    quantity("uF", "electrolytic capacitors on the supply", { least: 0.1, most: 100_000, example: "220 uF" }),
  ),
  "soft start": optional(
    quantity("ohm", "resistance in the first moment of plugging in: a longer pin, a cold thermistor", {
      least: 0,
      most: 1000,
      lever: [0, 50],
      example: "4.7 ohm",
    }),
  ),
  surge: optional(
    quantity("A", "current that connector and capacitors bear for a moment", {
      least: 0.1,
      most: 1000,
      example: "30 A",
    }),
  ),
  connector: optional(
    group("the unit's supply connector", {
      pins: quantity("", "pins that share the supply current; as many carry it back", {
        least: 1,
        most: 64,
        lever: [1, 16],
        example: "2",
      }),
      rating: quantity("A", "rating of one pin alone", { least: 0.1, most: 50, example: "3 A" }),
      resistance: optional(
        quantity("mohm", "resistance of one contact", { least: 0.1, most: 500, example: "10 mohm" }),
      ),
    }),
  ),
  regulator: optional(
    group("what makes the logic's volts", {
      kind: word("how it works", "linear", "switching"),
      out: quantity("V", "volts it gives", { least: 0.5, most: 30, example: "3.3 V" }),
      load: quantity("mA", "current it gives", { least: 0.1, most: 10_000, example: "80 mA" }),
      dropout: optional(quantity("V", "volts it needs above what it gives", { least: 0, most: 10, example: "1.2 V" })),
      efficiency: optional(quantity("", "of a switching one", { least: 0.2, most: 1, example: "0.85" })),
      "thermal resistance": quantity("kelvin*s/J", "from junction to air, as it is soldered", {
        least: 1,
        most: 1000,
        example: "110 kelvin*s/J",
      }),
      limit: quantity("degC", "highest temperature of its junction", { least: 40, most: 220, example: "125 degC" }),
    }),
  ),
  trace: optional(
    group("the narrowest trace that carries the unit's whole current", {
      width: quantity("mm", "width of the trace", { least: 0.05, most: 100, lever: [0.1, 10], example: "1.0 mm" }),
      thickness: optional(
        quantity("um", "thickness of the copper; 35 um where it is left out", {
          least: 5,
          most: 500,
          example: "35 um",
        }),
      ),
      layer: word("where it lies", "outside", "inside"),
      rise: optional(
        quantity("kelvin", "how much warmer than the board it may get", { least: 1, most: 100, example: "20 kelvin" }),
      ),
    }),
  ),
});
export type BoardSupply = DataOf<typeof boardSupplyFields>;

const copper = (means: string) =>
  group(means, {
    length: quantity("m", "length, one way", { least: 0.001, most: 100, example: "1.5 m" }),
    area: quantity("mm^2", "cross-section of one conductor", { least: 0.01, most: 1000, example: "2.5 mm^2" }),
  });

/** The rail that feeds the units of a machine, as project.yaml gives it. */
export const railFields = group("the rail that feeds the units", {
  volts: quantity("V", "volts of the supply, with their tolerance", { least: 1, most: 60, example: "10.0 ±0.3 V" }),
  units: optional(quantity("", "units on one rail; 1 where it is left out", { least: 1, most: 1000, example: "40" })),
  together: optional(
    quantity("", "most units that start in one moment; all of them where it is left out", {
      least: 1,
      most: 1000,
      example: "4",
    }),
  ),
  cable: optional(copper("the cable from the supply to the rail, both ways alike")),
  bar: optional(copper("the conductors along the units, both ways alike")),
});
export type Rail = DataOf<typeof railFields>;
