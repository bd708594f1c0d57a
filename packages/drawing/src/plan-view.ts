import type { Vector } from "@tapeworthy/core";
import { type DimensionOptions, dimension } from "./dimension.ts";
import type { Place } from "./place.ts";
import type { Rect } from "./room.ts";
import { poseOn } from "./route-line.ts";
import { list, mmShort } from "./say.ts";
import {
  box,
  circle,
  type Drawing,
  line,
  type Point,
  part,
  path,
  type Segment,
  type Shape,
  strokes,
  text,
} from "./scene.ts";
import { pickPlace, pocketPlaces } from "./side-parts.ts";
import { textWidth } from "./text-width.ts";
import type { UnitShape } from "./unit-shape.ts";
import { Bounds, fitted, length, onPaper, type View } from "./view.ts";

/** Whether the film leaves the plane of the side view: a guide stands beside it, or a guide's line does not run straight across. */
export function leavesPlane(shape: UnitShape): boolean {
  const { led } = shape;
  if (!led) return false;
  return led.guides
    .filter((g) => !g.beyond)
    .some((g) => Math.abs(g.through[1] - led.peel[1]) > 1e-6 || Math.abs(g.along[1]) < 0.9999);
}

/** What the plan must hold, in x and y. */
export function planBounds(shape: UnitShape): Bounds {
  const bounds = new Bounds();
  const { route, letters, led, film } = shape;
  for (const y of [0, letters.W]) for (const pose of [route.start, route.end]) bounds.add([pose.x, y]);
  for (const span of led?.spans ?? [])
    for (const end of [0, 1] as const)
      for (const side of [-1, 1])
        bounds.add([
          span.ends[end][0] + (side * film.width * span.fans[end][0]) / 2,
          span.ends[end][1] + (side * film.width * span.fans[end][1]) / 2,
        ]);
  for (const g of led?.guides ?? []) bounds.add([g.through[0], g.through[1]], g.radius + 0.5e-3);
  return bounds;
}

const corners = (shape: UnitShape, i: number): [Vector, Vector, Vector, Vector] => {
  const span = shape.led!.spans[i]!;
  const half = shape.film.width / 2;
  const edge = (end: 0 | 1, side: 1 | -1): Vector =>
    [0, 1, 2].map((k) => span.ends[end][k]! + side * half * span.fans[end][k]!) as unknown as Vector;
  return [edge(0, 1), edge(1, 1), edge(1, -1), edge(0, -1)];
};
const flat = (v: Vector): readonly [number, number] => [v[0], v[1]];

/** The film from above, over the tape; the sprocket side lies below. `view` may be that of the side view, so that both share their x. */
export function planRegion(
  shape: UnitShape,
  area: Rect,
  options: {
    readonly highlight?: Place | undefined;
    readonly view?: View;
    /** The whole view as it stood before: while a hand moves something the rest keeps its place. */
    readonly keep?: View | undefined;
    /** Name under which the geometry is shared with other drawings of the page. */
    readonly share?: string | undefined;
  } = {},
): { shapes: Shape[]; geometry: Shape[]; view: View } {
  const { letters, led, route, film } = shape;
  const bounds = planBounds(shape);
  const fit = fitted(bounds, [area.x + 30, area.y + 30], area.width - 60, area.height - 46);
  const view: View = options.keep
    ? options.keep
    : options.view
      ? {
          scale: options.view.scale,
          origin: [
            options.view.origin[0],
            area.y +
              30 +
              (area.height - 46 - bounds.height * 1e3 * options.view.scale) / 2 +
              bounds.z1 * 1e3 * options.view.scale,
          ],
        }
      : fit;
  const at = (x: number, y: number): Point => onPaper(view, [x, y]);
  const geometry: Shape[] = [];
  const words: Shape[] = [];
  const [x0, x1] = [Math.min(route.start.x, route.end.x), Math.max(route.start.x, route.end.x)];
  const rect = (a: readonly [number, number], b: readonly [number, number]): Segment[] =>
    strokes([at(a[0], a[1]), at(b[0], a[1]), at(b[0], b[1]), at(a[0], b[1])], true);
  // The tape from above, parts up to the pick.
  geometry.push(path(rect([x0, 0], [x1, letters.W]), "thin of-cavity", { data: { what: "tape" } }));
  const first = pickPlace(shape) + letters.P2;
  for (let n = Math.ceil((route.start.s - first) / letters.P0); first + n * letters.P0 < route.end.s; n++) {
    const p = poseOn(route, first + n * letters.P0);
    geometry.push(circle(at(p.x, letters.E1), length(view, letters.D0 / 2), "of-paper"));
  }
  for (const s of pocketPlaces(shape)) {
    const p = poseOn(route, s);
    const [hx, hy] = [letters.A0 / 2, letters.B0 / 2];
    geometry.push(
      path(
        rect(
          [p.x - hx * Math.cos(p.heading), letters.E1 + letters.F - hy],
          [p.x + hx * Math.cos(p.heading), letters.E1 + letters.F + hy],
        ),
        s <= pickPlace(shape) + 1e-9 ? "thin of-land" : "thin of-paper",
      ),
    );
  }
  if (led) {
    for (let i = 0; i < led.spans.length; i++) {
      const span = led.spans[i]!;
      const four = corners(shape, i).map((c) => at(...flat(c))) as [Point, Point, Point, Point];
      // What runs under the tape is drawn as hidden.
      const under = span.ends[1][2] < -1e-3 && span.ends[0][2] < letters.T;
      geometry.push(
        path(strokes(four, true), "film-face"),
        path([...strokes([four[0], four[1]]), ...strokes([four[3], four[2]])], under ? "film-edge far" : "film-edge", {
          data: { span: `${i + 1}` },
        }),
      );
      geometry.push(line(at(...flat(span.ends[0])), at(...flat(span.ends[1])), under ? "film-line far" : "film-line"));
    }
    for (const g of led.guides) {
      const data = { guide: g.name };
      const seen = Math.hypot(g.along[0], g.along[1]);
      const r = length(view, g.radius);
      if (seen < 0.05) {
        geometry.push(circle(at(g.through[0], g.through[1]), r, "outline", { data, fill: "counterhatch" }));
        continue;
      }
      const half = film.width / 2 + 1.5e-3;
      const end = (side: number): Point =>
        at(g.through[0] + side * half * g.along[0], g.through[1] + side * half * g.along[1]);
      const [p, q] = [end(1), end(-1)];
      const [ux, uy] = [
        (q[0] - p[0]) / Math.hypot(q[0] - p[0], q[1] - p[1]),
        (q[1] - p[1]) / Math.hypot(q[0] - p[0], q[1] - p[1]),
      ];
      const wide = Math.min(r, 6);
      geometry.push(
        path(
          strokes(
            [
              [p[0] - uy * wide, p[1] + ux * wide],
              [q[0] - uy * wide, q[1] + ux * wide],
              [q[0] + uy * wide, q[1] - ux * wide],
              [p[0] + uy * wide, p[1] - ux * wide],
            ],
            true,
          ),
          g.through[2] < -2e-3 ? "hidden-line" : "outline veil",
          { data },
        ),
      );
    }
    const peel = led.peel;
    geometry.push(
      line(at(peel[0], peel[1] - film.width / 2 - 1e-3), at(peel[0], peel[1] + film.width / 2 + 1e-3), "heavy", {
        data: { guide: "peel line" },
      }),
    );
    for (const g of led.guides) {
      const p = at(g.through[0], g.through[1]);
      const half = Math.abs(g.along[1]) * (film.width / 2 + 1.5e-3);
      const below = at(g.through[0], g.through[1] - Math.max(half, g.radius))[1] + 13;
      words.push(
        text([p[0], Math.abs(g.along[1]) < 0.05 ? p[1] - length(view, g.radius) - 5 : below], g.name, "halo", {
          anchor: "middle",
        }),
      );
    }
    // How far the film stands beside the tape.
    const out = led.guides
      .filter((g) => !g.beyond)
      .reduce((far, g) => (Math.abs(g.through[1] - peel[1]) > Math.abs(far.through[1] - peel[1]) ? g : far));
    if (Math.abs(out.through[1] - peel[1]) > 1e-6) {
      const x = at(out.through[0], 0)[0];
      words.push(
        dimension([x, at(0, peel[1])[1]], [x, at(0, out.through[1])[1]], {
          off: 24,
          words: mmShort(Math.abs(out.through[1] - peel[1])),
          ...heldAcross(shape, out.name, out.through[1] - peel[1]),
          flat: true,
        }),
      );
    }
  }
  words.push(
    text([area.x + 10, area.y + 18], [{ text: "Plan", class: "strong" }], "t1"),
    text(
      [area.x + 16 + textWidth("Plan", 12, true), area.y + 18],
      "the film from above, sprocket holes below",
      "quiet",
    ),
  );
  const marked = options.highlight ? planHighlight(shape, view, options.highlight) : [];
  const drawn = options.share === undefined ? geometry : [part(`${options.share}-plan`, geometry)];
  return { shapes: [...drawn, ...words, ...marked], geometry, view };
}

/** A dimension across the tape is held at the guide, where the file gives its place. */
function heldAcross(shape: UnitShape, name: string, value: number): Pick<DimensionOptions, "address" | "hold"> {
  const address = shape.grips.find((g) => g.name === name && g.axis === "y")?.members[0];
  return address === undefined ? {} : { address, hold: { value } };
}

/** A span marked on the plan; nothing for what the plan does not show by itself. */
export function planHighlight(shape: UnitShape, view: View, place: Place): Shape[] {
  const { led } = shape;
  if (place.kind !== "span" || !led) return [];
  const i = led.spans.findIndex((s) => s.from === place.from && s.to === place.to);
  if (i < 0) return [];
  const rim = corners(shape, i).map((c) => onPaper(view, flat(c)));
  return [path(strokes(rim, true), "hand-line dashed flash", { data: { highlight: "span" } })];
}

/** The plan as a drawing of its own; undefined where the film stays in the plane of the side view. */
export function planView(
  shape: UnitShape,
  size: { readonly width: number; readonly height: number; readonly highlight?: Place },
): Drawing | undefined {
  if (!leavesPlane(shape)) return undefined;
  const { width, height } = size;
  const region = planRegion(shape, { x: 0, y: 0, width, height }, { highlight: size.highlight });
  return {
    title: `${shape.unit}, plan of the film with ${shape.tape}`,
    desc: planWords(shape),
    width,
    height,
    shapes: [box([0, 0], width, height, "ground"), ...region.shapes],
  };
}
export function planWords(shape: UnitShape): string {
  const { led, film } = shape;
  if (!led) return "The film is not led to a nip.";
  const say = (v: number) => `${mmShort(v).replace("−", "minus ")} mm`;
  return `From above: the film, ${say(film.width)} wide, passes ${list(led.guides.map((g) => `${g.name} ${say(g.through[0] - led.peel[0])} from the peel line along the travel and ${say(g.through[1] - led.peel[1])} across`))}.`;
}
