import type { Grip } from "./grip.ts";
import { ways } from "./say.ts";
import type { Handle, Point, Shape } from "./scene.ts";
import type { UnitSheet } from "./sheet.ts";
import type { UnitShape } from "./unit-shape.ts";
import { length, onPaper } from "./view.ts";

/** Two handles nearer than this would be one target to a finger, px. */
export const handleSize = 24;

/**
 * Where a page may take hold of a sheet: at its dimensions, and beside the guides of the film, each on the side where it stands clear of the
 * others. What moves along the travel stands before or behind its guide, what moves up and down above or below it.
 */
export function handlesOf(sheet: UnitSheet, shape: UnitShape): Handle[] {
  const found = inShapes(sheet.shapes);
  const { view, plan } = sheet.placed;
  const balloons = Object.values(sheet.placed.balloons);
  const out = [...found];
  const isHeld = (grip: Grip): boolean => out.some((h) => h.members.some((one) => grip.members.includes(one)));
  for (const grip of shape.grips) {
    // Across the tape a guide is moved where it is seen from above.
    const on = grip.axis === "y" ? plan?.view : view;
    if (!on || isHeld(grip)) continue;
    const middle = onPaper(on, grip.axis === "y" ? [grip.at[0], grip.at[1]] : [grip.at[0], grip.at[2]]);
    const far = length(on, radiusOf(shape, grip.name)) + 15;
    const along: Point = grip.axis === "x" ? [on.scale * 1e3, 0] : [0, -on.scale * 1e3];
    const size = Math.hypot(...along);
    const spots = [-1, 1, -1.9, 1.9].map(
      (k): Point => [middle[0] + (k * far * along[0]) / size, middle[1] + (k * far * along[1]) / size],
    );
    const taken = [...out.map((h) => h.at), ...balloons];
    const free = ([x, y]: Point): number =>
      Math.min(
        handleSize,
        x - sheet.geometry.window.x,
        y - sheet.geometry.window.y,
        sheet.geometry.window.x + sheet.geometry.window.width - x,
        sheet.geometry.window.y + sheet.geometry.window.height - y,
        ...taken.map((p) => Math.hypot(p[0] - x, p[1] - y)),
      );
    const at = spots.reduce((best, p) => (free(p) > free(best) + 1e-9 ? p : best));
    out.push({ members: grip.members, name: `${grip.name}, ${ways["xyz".indexOf(grip.axis)]}`, at, along });
  }
  return out;
}

const radiusOf = ({ led, nip }: UnitShape, name: string): number =>
  name === "nip" && nip ? 2 * Math.max(nip.lower, nip.upper) : (led?.guides.find((g) => g.name === name)?.radius ?? 0);

const inShapes = (shapes: readonly Shape[]): Handle[] =>
  shapes.flatMap((s) =>
    s.kind === "group"
      ? [...(s.handle ? [s.handle] : []), ...inShapes(s.shapes)]
      : s.kind === "part"
        ? inShapes(s.shapes)
        : [],
  );

/** How far a number grows (SI) when its handle is drawn across the paper by so many pixels. */
export function grownBy({ along }: Pick<Handle, "along">, [dx, dy]: Point): number {
  return (dx * along[0] + dy * along[1]) / (along[0] ** 2 + along[1] ** 2);
}
