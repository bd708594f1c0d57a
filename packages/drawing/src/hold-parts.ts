import { type HoldShape, heightOfLeaf } from "./hold-shape.ts";
import { off, poseOn } from "./route-line.ts";
import { box, circle, type Point, path, type Segment, type Shape, strokes } from "./scene.ts";
import { alongRoute, band } from "./side-parts.ts";
import type { UnitShape } from "./unit-shape.ts";
import { length, onPaper, type View } from "./view.ts";

/** What keeps the tape on its wheel: a leaf as it is bent, a rib over the tape, a guide that pushes the tape off its tangent. */
export function holdDownShapes(shape: UnitShape, view: View): Shape[] {
  const hold = shape.holdDown;
  if (!hold) return [];
  return hold.kind === "leaf"
    ? leafShapes(shape, hold, view)
    : hold.kind === "rib"
      ? ribShapes(shape, hold, view)
      : bendShapes(shape, hold, view);
}
const data = { what: "hold-down" };

/** The window in a hold-down, along the tape. */
function windowOf({ opening }: UnitShape): readonly [number, number] | undefined {
  return opening && [opening.at - opening.along / 2, opening.at + opening.along / 2];
}
/** Stretches from one place to another, and whether each lies in the window. */
function parted(shape: UnitShape, from: number, to: number): { from: number; to: number; open: boolean }[] {
  const window = windowOf(shape);
  if (!window || window[1] <= from || window[0] >= to) return [{ from, to, open: false }];
  const [a, b] = [Math.max(from, window[0]), Math.min(to, window[1])];
  return [
    { from, to: a, open: false },
    { from: a, to: b, open: true },
    { from: b, to, open: false },
  ].filter((one) => one.to - one.from > 1e-6);
}

function leafShapes(shape: UnitShape, hold: HoldShape, view: View): Shape[] {
  const top = shape.lift + shape.letters.T;
  const nose = hold.to;
  // Its stroke stands off the tape by half its own width on paper, so that both are seen.
  const clear = 1.6 / (view.scale * 1e3) + hold.thickness / 2;
  const heightAt = (s: number): number => top + clear + (hold.bent ? heightOfLeaf(hold.bent, s - nose) : 0);
  const point = (s: number): Point => onPaper(view, off(poseOn(shape.route, s), heightAt(s)));
  const run = (from: number, to: number): Segment[] => {
    const n = hold.bent ? 16 : 1;
    return hold.bent
      ? strokes(Array.from({ length: n + 1 }, (_, i) => point(from + ((to - from) * i) / n)))
      : alongRoute(shape, view, from, to, heightAt(from));
  };
  const body = parted(shape, hold.from, nose).map((one) =>
    path(run(one.from, one.to), one.open ? "steel-line fine" : "steel-line", { data }),
  );
  // Behind its nose a leaf turns up a little.
  const lip = onPaper(
    view,
    off({ ...poseOn(shape.route, nose + 2.2e-3), heading: poseOn(shape.route, nose).heading }, top + clear + 0.9e-3),
  );
  const clamp = point(hold.from);
  const [w, h] = [Math.max(9, length(view, 3.2e-3)), Math.max(7, length(view, 2.4e-3))];
  return [
    ...body,
    path(strokes([point(nose), lip]), "steel-line"),
    ...(hold.placed ? [box([clamp[0] - w / 2, clamp[1] - h - 1], w, h, "outline", { fill: "counterhatch" })] : []),
  ];
}

/** A rib is part of a cover: its lower face stands where the file says, how thick it is is not given, so the hatch above has no edge. */
function ribShapes(shape: UnitShape, hold: HoldShape, view: View): Shape[] {
  const low = shape.lift + Math.max(hold.height, 0);
  const thick = Math.max(1.4e-3, 6 / (view.scale * 1e3));
  return parted(shape, hold.from, hold.to)
    .filter((one) => !one.open)
    .flatMap((one) => [
      path(band(shape, view, one.from, one.to, low, low + thick), "", { fill: "counterhatch" }),
      path(
        [
          ...strokes([
            onPaper(view, off(poseOn(shape.route, one.from), low + thick)),
            onPaper(view, off(poseOn(shape.route, one.from), low)),
          ]),
          ...alongRoute(shape, view, one.from, one.to, low, false),
          ["L", ...onPaper(view, off(poseOn(shape.route, one.to), low + thick))],
        ],
        "outline",
        { data },
      ),
    ]);
}

/** The tape as a cantilever from its last tooth, pushed off its tangent by the guide: d (3 u^2 - u^3)/2. */
function bendShapes(shape: UnitShape, hold: HoldShape, view: View): Shape[] {
  const top = shape.lift + shape.letters.T;
  const push = hold.push?.value;
  const r = Math.max(1.2e-3, 5 / (view.scale * 1e3));
  const guide = onPaper(view, off(poseOn(shape.route, hold.to), top - (push ?? 0) + r));
  const shapes: Shape[] = [circle(guide, length(view, r), "outline of-paper", { data }), circle(guide, 1.6, "of-ink")];
  if (push !== undefined && push > 0 && hold.to > hold.from) {
    const bent = Array.from({ length: 17 }, (_, i): Point => {
      const u = i / 16;
      return onPaper(
        view,
        off(poseOn(shape.route, hold.from + (hold.to - hold.from) * u), top - (push * (3 * u * u - u ** 3)) / 2),
      );
    });
    shapes.unshift(path(strokes(bent), "steel-line fine", { data }));
  }
  return shapes;
}
