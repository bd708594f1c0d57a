import type { DriveShape } from "./drive-shape.ts";
import { circle, line, type Point, path, type Shape, strokes } from "./scene.ts";
import type { UnitShape } from "./unit-shape.ts";
import { length, onPaper, type View } from "./view.ts";

/** Motor shaft, worm with its thread, worm wheel by its pitch circle: thin, for it says what drives what. */
export function driveLines(shape: UnitShape, view: View): Shape[] {
  return shape.drives.flatMap((drive) => linesOf(drive, view));
}
function linesOf({ name, axis, wheel, worm, motor }: DriveShape, view: View): Shape[] {
  const data = { drive: name };
  const centre = onPaper(view, axis);
  const shapes: Shape[] = [];
  if (wheel !== undefined)
    shapes.push(circle(centre, length(view, wheel), "thin", { data: { ...data, what: "worm wheel" } }));
  if (!motor) return shapes;
  const from = onPaper(view, motor);
  if (!worm) return [...shapes, line(from, centre, "axis", { data }), circle(from, 2, "of-ink2")];
  const at = onPaper(view, worm.at);
  const [c, s] = [Math.cos(worm.along), -Math.sin(worm.along)];
  const put = (along: number, across: number): Point => [
    at[0] + along * c - across * s,
    at[1] + along * s + across * c,
  ];
  const [half, r] = [length(view, worm.long / 2), length(view, worm.radius)];
  const way = Math.sign((from[0] - at[0]) * c + (from[1] - at[1]) * s) || -1;
  shapes.push(
    line(from, put(-way * (half + 5), 0), "axis", { data }),
    path(strokes([put(-half, -r), put(half, -r), put(half, r), put(-half, r)], true), "thin of-paper", {
      data: { ...data, what: "worm" },
    }),
  );
  const threads = Math.max(2, Math.min(6, Math.round(half / 3)));
  for (let i = 0; i < threads; i++) {
    const x = -half + ((i + 0.5) * 2 * half) / threads;
    shapes.push(line(put(x - half / threads / 2, r), put(x + half / threads / 2, -r), "thin"));
  }
  return shapes;
}

/** The point (m) that a drive is pointed at: its worm, else its motor, else the shaft it drives. */
export const driveAnchor = ({ worm, motor, axis }: DriveShape): readonly [number, number] => worm?.at ?? motor ?? axis;
/** "worm, 240 to 1" */
export const sayDrive = ({ wheel, ratio }: DriveShape): string =>
  [
    wheel === undefined ? "gears" : "worm",
    ...(ratio === undefined ? [] : [`${Math.round(ratio * 10) / 10} to 1`]),
  ].join(", ");
