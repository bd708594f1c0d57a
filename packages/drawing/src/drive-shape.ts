import type { Scene } from "@tapeworthy/core";
import type { Body, Numbers } from "./unit-shape.ts";

type Flat = readonly [x: number, z: number];
/** A drive as a schematic of what its file gives: the driven axis, its worm wheel to scale, worm and shaft where the motor's body says. m. */
export interface DriveShape {
  readonly name: "feed" | "peel";
  readonly axis: Flat;
  /** Pitch radius of the worm wheel; undefined where the drive has no worm. */
  readonly wheel: number | undefined;
  /** The worm on its motor's axis; undefined where no body says where that is. */
  readonly worm:
    | { readonly at: Flat; readonly radius: number; readonly along: number; readonly long: number }
    | undefined;
  /** Where the motor's shaft leaves it; undefined where no body is a motor. */
  readonly motor: Flat | undefined;
  /** Turns of the motor for one of the driven shaft, where the file gives all of them. */
  readonly ratio: number | undefined;
}

/** The body that is a drive's motor, by its name or its part. */
export const motorOf = (bodies: readonly Body[], name: DriveShape["name"]): Body | undefined =>
  bodies.find((b) => new RegExp(`${name}[ -]?(motor|drive)`, "i").test(`${b.name} ${b.part ?? ""}`));

/**
 * The drives of a unit. The worm wheel turns with the tape's wheel, or with the nip's lower roller; the worm touches it where the motor's long
 * axis passes it at about the distance that module and teeth ask for; where it does not, motor and driven axis are joined by a line alone. What
 * stands in a gear head is inside the motor's body and is not drawn.
 */
export function driveShapes(
  { unit }: Scene,
  number: Numbers,
  bodies: readonly Body[],
  axes: { readonly feed: Flat | undefined; readonly peel: Flat | undefined },
): DriveShape[] {
  return (["feed", "peel"] as const).flatMap((name): DriveShape[] => {
    const drive = unit[`${name} drive`];
    const axis = axes[name];
    if (!drive || !axis) return [];
    const { worm } = drive;
    const teeth = drive["wheel teeth"] && number(drive["wheel teeth"]);
    const ratio =
      (drive["gear head"] ? number(drive["gear head"].ratio) : 1) *
      (worm && teeth ? teeth / number(worm.starts) : 1) *
      (drive.gears ? number(drive.gears.ratio) : 1);
    const motor = motorOf(bodies, name);
    const [middle, level] = middleOf(motor);
    const base = { name, axis, ratio: ratio === 1 ? undefined : ratio };
    if (!worm || !teeth) return [{ ...base, wheel: undefined, worm: undefined, motor: middle }];
    const module = number(worm.module);
    const wheel = (module * teeth) / 2;
    const radius = (module * number(worm.starts)) / (2 * Math.tan(number(worm["lead angle"])));
    const centre = worm.centre ? number(worm.centre) : wheel + radius;
    const long = Math.min(2 * radius, wheel) * 1.2;
    // Where the motor's axis passes the wheel at about the right distance, the worm sits on it.
    const foot: Flat | undefined = middle && (level ? [axis[0], middle[1]] : [middle[0], axis[1]]);
    const passes = foot && Math.hypot(foot[0] - axis[0], foot[1] - axis[1]) / centre;
    const sits = foot !== undefined && passes !== undefined && passes > 0.6 && passes < 1.6;
    const at = sits ? { at: foot, radius, along: level ? 0 : Math.PI / 2, long } : undefined;
    return [{ ...base, wheel, worm: at, motor: middle }];
  });
}
/** Middle of a body, and whether it is longer along the travel than up. */
function middleOf(body: Body | undefined): readonly [Flat | undefined, boolean] {
  if (!body) return [undefined, true];
  const { outline } = body;
  if (outline.kind === "circle") return [outline.at, true];
  if (outline.kind === "polygon") {
    const xs = outline.corners.map((c) => c[0]);
    const zs = outline.corners.map((c) => c[1]);
    const [w, h] = [Math.max(...xs) - Math.min(...xs), Math.max(...zs) - Math.min(...zs)];
    return [[Math.min(...xs) + w / 2, Math.min(...zs) + h / 2], w >= h];
  }
  const { from, to } = outline;
  return [[(from[0] + to[0]) / 2, (from[1] + to[1]) / 2], to[0] - from[0] >= to[1] - from[1]];
}
