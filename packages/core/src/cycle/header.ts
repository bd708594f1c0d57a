import { showIn } from "../quantity/show.ts";
import { circumstances, type Firmware, type FirmwareConstant, type FirmwareName } from "./firmware.ts";

/**
 * The firmware constants as a C header: whole numbers in the unit of the name, what each rests on in the comment beside it.
 *
 * Lengths in micrometres, times in microseconds, currents in milliamperes, ramps in volts a second; the lead also in counts of the rotor where it
 * is counted. Rounded to whole units, which is far finer than any of them is known.
 */
export interface HeaderTitle {
  readonly unit: string;
  readonly revision?: string | undefined;
  readonly tape: string;
  /** Nominal width of the tape, mm. */
  readonly width: number;
  /** Travel of one index, m. */
  readonly travel: number;
  /** Counts a turn of the feed motor's rotor, and turns of it a turn of the wheel; undefined where nothing counts. */
  readonly counts?: { readonly perTurn: number; readonly ratio: number; readonly radius: number } | undefined;
  readonly version: string;
}
const scale: Readonly<Record<FirmwareConstant["unit"], readonly [suffix: string, times: number, shown: string]>> = {
  m: ["UM", 1e6, "um"],
  s: ["US", 1e6, "ms"],
  A: ["MA", 1e3, "mA"],
  "V/s": ["V_PER_S", 1, "V/s"],
};
/** A name of a constant in C. */
export const macro = (name: string): string =>
  name
    .toUpperCase()
    .replace(/[^A-Z0-9]+/g, "_")
    .replace(/^_+|_+$/g, "");
/** Text that cannot end a comment. */
const safe = (text: string): string => text.replace(/\*\//g, "* /").replace(/[\r\n]+/g, " ");
const shown = (unit: FirmwareConstant["unit"], v: number): string =>
  unit === "V/s" ? `${v.toPrecision(2)} V/s` : showIn(scale[unit][2], v);
const signed = (unit: FirmwareConstant["unit"], v: number): string => `${v < 0 ? "-" : "+"}${shown(unit, Math.abs(v))}`;

export function headerText({ constants, openLoop, warnings }: Firmware, title: HeaderTitle): string {
  const guard = `TAPEWORTHY_${macro(title.unit)}_${macro(String(title.width))}_H`;
  const out = [
    "/*",
    ` * Index of ${safe(title.unit)}${title.revision ? `, revision ${safe(title.revision)}` : ""}, built for ${title.width} mm, on ${safe(title.tape)}.`,
    ` * Written by tapeworthy ${safe(title.version)} from the design as written, what is not known at its middle; motors cold.`,
    " * These are numbers of a model. Learn the lead on every unit; check the stall current on one.",
    ` * ${safe(openLoop)}`,
    ...warnings.map((w) => ` * Caution: ${safe(w)}`),
    " */",
    `#ifndef ${guard}`,
    `#define ${guard}`,
    "",
    `#define INDEX_TRAVEL_UM ${Math.round(title.travel * 1e6)}L`,
  ];
  for (const c of constants) {
    const [suffix, times] = scale[c.unit];
    out.push(
      "",
      `/* ${safe(c.name)}: ${safe(c.means)}. ${shown(c.unit, c.value)}.`,
      ...(c.note && c.name !== "lead" ? [` * ${safe(c.note)}`] : []),
      ...c.shifts.map((s) => ` * ${signed(c.unit, s.by)} with ${circumstances[s.of]}`),
    );
    out[out.length - 1] += " */";
    out.push(`#define INDEX_${macro(c.name)}_${suffix} ${Math.round(c.value * times)}L`);
    if (c.name === "lead" && title.counts) {
      const { perTurn, ratio, radius } = title.counts;
      const count = (m: number): number => Math.round((m / radius / (2 * Math.PI)) * ratio * perTurn);
      out.push(`#define INDEX_TRAVEL_COUNTS ${count(title.travel)}L`, `#define INDEX_LEAD_COUNTS ${count(c.value)}L`);
    }
  }
  out.push("", `#endif /* ${guard} */`, "");
  return out.join("\n");
}
/** The number of a constant, SI; undefined where there is none. */
export const constantOf = ({ constants }: Firmware, name: FirmwareName): number | undefined =>
  constants.find((c) => c.name === name)?.value;
