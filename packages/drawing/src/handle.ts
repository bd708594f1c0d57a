import type { Grip } from "./grip.ts";
import type { Rect } from "./room.ts";
import { ways } from "./say.ts";
import type { Handle, Point, Shape } from "./scene.ts";
import type { UnitSheet } from "./sheet.ts";
import { textWidth } from "./text-width.ts";
import type { UnitShape } from "./unit-shape.ts";
import { length, onPaper } from "./view.ts";

/** Two handles nearer than this would be one target to a finger, px. */
export const handleSize = 24;

/**
 * Where a page may take hold of a sheet: at its dimensions, and beside the guides of the film, each on the side where it stands clear of the
 * others. What moves along the travel stands before or behind its guide, what moves up and down above or below it. Bodies, hold-down and wheel
 * are held where they stand, as far as there is room for a finger; what is left out there stands in the text. While a hand holds one of them, `kept` says which were there and
 * at which of their places (`handleKey`, `spot`): none comes, goes or jumps then.
 */
export function handlesOf(sheet: UnitSheet, shape: UnitShape, kept?: ReadonlyMap<string, number>): Handle[] {
  const found = inShapes(sheet.shapes);
  const { view, plan } = sheet.placed;
  const balloons = Object.values(sheet.placed.balloons);
  const out = [...found];
  const words = wordsIn(sheet.shapes);
  const { detail } = sheet.placed;
  /** Words and the circle of the detail are not to be covered. */
  const isCovered = ([x, y]: Point): boolean =>
    words.some((r) => x > r.x - 8 && x < r.x + r.width + 8 && y > r.y - 8 && y < r.y + r.height + 8) ||
    (detail !== undefined && Math.hypot(x - detail.at[0], y - detail.at[1]) < detail.r + 8);
  const isHeld = (grip: Grip): boolean => out.some((h) => h.members.some((one) => grip.members.includes(one)));
  for (const grip of shape.grips) {
    // Across the tape a guide is moved where it is seen from above.
    const on = grip.axis === "y" ? plan?.view : view;
    // An edge moves with its part and by itself: a number of a body may stand in two handles, and leads one.
    const isEdge = grip.quiet && grip.members.length === 1;
    if (!on || (!isEdge && isHeld(grip))) continue;
    const middle = onPaper(on, grip.axis === "y" ? [grip.at[0], grip.at[1]] : [grip.at[0], grip.at[2]]);
    const far = length(on, radiusOf(shape, grip.name)) + 15;
    const gain = grip.gain ?? 1;
    const along: Point = grip.axis === "x" ? [on.scale * 1e3 * gain, 0] : [0, -on.scale * 1e3 * gain];
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
        ...(detail ? [Math.max(0, Math.hypot(detail.at[0] - x, detail.at[1] - y) - detail.r)] : []),
      );
    if (grip.here) {
      const places = [grip.at, ...grip.here].map((p) => onPaper(on, grip.axis === "y" ? [p[0], p[1]] : [p[0], p[2]]));
      const held = kept?.get(handleKey(grip));
      const spot = kept ? held : places.findIndex((p) => free(p) >= handleSize && !(grip.quiet && isCovered(p)));
      const at = spot === undefined ? undefined : places[spot];
      if (at)
        out.push({
          members: grip.members,
          name: grip.name,
          at,
          along,
          spot: spot!,
          ...(grip.quiet ? { quiet: true } : {}),
        });
      continue;
    }
    const at = spots.reduce((best, p) => (free(p) > free(best) + 1e-9 ? p : best));
    out.push({ members: grip.members, name: `${grip.name}, ${ways["xyz".indexOf(grip.axis)]}`, at, along });
  }
  return out;
}

/** What a handle is known by from drawing to drawing. */
export const handleKey = ({ members }: Pick<Handle, "members">): string => members.join(" ");

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

/** Room that lines of text take, as far as they lie level. */
const wordsIn = (shapes: readonly Shape[]): Rect[] =>
  shapes.flatMap((s): Rect[] => {
    if (s.kind === "group") return s.turn || s.shift ? [] : wordsIn(s.shapes);
    if (s.kind !== "text" || s.turned) return [];
    const plain = typeof s.text === "string" ? s.text : s.text.map((run) => run.text).join("");
    const wide = textWidth(plain, /\bt1\b|dim-text/.test(s.class ?? "") ? 12 : 10.5);
    const x = s.anchor === "end" ? s.at[0] - wide : s.anchor === "middle" ? s.at[0] - wide / 2 : s.at[0];
    return [{ x, y: s.at[1] - 9, width: wide, height: 11 }];
  });

/** How far a number grows (SI) when its handle is drawn across the paper by so many pixels. */
export function grownBy({ along }: Pick<Handle, "along">, [dx, dy]: Point): number {
  return (dx * along[0] + dy * along[1]) / (along[0] ** 2 + along[1] ** 2);
}
