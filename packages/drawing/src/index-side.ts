import { showIn } from "@tapeworthy/core";
import { arrow } from "./dimension.ts";
import { filmStrokes } from "./film-line.ts";
import { scaleBar } from "./frame.ts";
import { atMoment, type Moment, phaseOf, rideOf } from "./moment.ts";
import { off, poseOn } from "./route-line.ts";
import { mmShort } from "./say.ts";
import { box, type Drawing, group, line, type Point, path, type Segment, type Shape, strokes, text } from "./scene.ts";
import { filmPathOnPaper, outlineOfTooth, peelPlace, pickPlace } from "./side-parts.ts";
import { sideBounds, sideGeometry } from "./side-view.ts";
import { textWidth } from "./text-width.ts";
import type { UnitShape } from "./unit-shape.ts";
import { Bounds, fitted, length, onPaper, pointsAlong, type View } from "./view.ts";

/** The unit from the side at a moment of an index, to scale, and beside it the teeth in their holes larger. Words that change with the moment: `sayMoment`. */
export function indexSide(
  rest: UnitShape,
  moment: Moment,
  { width, height }: { readonly width: number; readonly height: number },
): Drawing {
  const shape = atMoment(rest, moment);
  // What stands still beside it would only be in the way.
  const bare = { ...shape, bodies: [], drives: [] };
  const wheel = rest.sprocket;
  const detail = wheel && width > 420 ? Math.min(width * 0.36, Math.max(230, height * 1.25)) : 0;
  const room = width - detail;
  const bounds = sideBounds(rest);
  const view = fitted(aroundWhatMoves(rest, bounds), [12, 24], room - 24, height - 36);
  const shapes: Shape[] = [
    box([0, 0], width, height, "ground"),
    group([...sideGeometry(bare, view), ...movingMarks(shape, view)], { clip: { box: [0, 0], width: room, height } }),
    text([10, 16], "Side view", "t1 strong halo"),
    text([16 + textWidth("Side view", 12, true), 16], "wheel, tape and film as they stand", "quiet halo"),
    ...scaleBar([12, height - 10], view.scale),
  ];
  if (detail > 0)
    shapes.push(
      ...teethShapes(shape, { x: room, y: 0, width: detail, height }),
      line([room, 8], [room, height - 8], "hair"),
    );
  return {
    title: `${rest.unit} at a moment of the index`,
    desc: `The tape has gone ${mmShort(moment.tape)} mm, the film ${mmShort(moment.drawn)} mm.`,
    width,
    height,
    shapes,
  };
}
/** Route, film, nip and wheel alone: bodies far from what moves would make it small. */
function aroundWhatMoves(shape: UnitShape, whole: Bounds): Bounds {
  const bounds = new Bounds();
  const { led, nip, sprocket, route } = shape;
  for (const s of [Math.max(route.start.s, (peelPlace(shape) ?? pickPlace(shape)) - 50e-3), route.end.s])
    bounds.add(off(poseOn(route, s), 0));
  if (led) for (const g of led.guides) bounds.add([g.through[0], g.through[2]], g.radius);
  if (nip) {
    bounds.add([nip.axis[0], nip.axis[1] + nip.upper], nip.upper);
    bounds.add([nip.axis[0], nip.axis[1] - nip.lower], nip.lower);
  }
  if (sprocket) bounds.add(sprocket.axis, sprocket.tip);
  return Number.isFinite(bounds.width) ? bounds : whole;
}

/** Ticks on the film as far apart as pockets, spokes of roller and wheel: what shows that they move. */
function movingMarks(shape: UnitShape, view: View): Shape[] {
  const { moment, led, nip, sprocket, letters } = shape;
  if (!moment) return [];
  const shapes: Shape[] = [];
  const spoke = (at: readonly [number, number], r: number, angle: number, cls: string): Shape =>
    line(
      onPaper(view, [at[0] + 0.3 * r * Math.cos(angle), at[1] + 0.3 * r * Math.sin(angle)]),
      onPaper(view, [at[0] + r * Math.cos(angle), at[1] + r * Math.sin(angle)]),
      cls,
    );
  if (sprocket) shapes.push(spoke(sprocket.axis, sprocket.body * 0.94, phaseOf(shape), "heavy"));
  if (led) {
    const points = pointsAlong(filmPathOnPaper(view, filmStrokes(led, nip)), 2);
    const marks = length(view, letters.P1);
    const shift = length(view, moment.drawn);
    let long = 0;
    let next = ((shift % marks) + marks) % marks;
    for (let i = 1; i < points.length; i++) {
      const [p, q] = [points[i - 1]!, points[i]!];
      const step = Math.hypot(q[0] - p[0], q[1] - p[1]);
      if (step === 0) continue;
      while (next <= long + step) {
        const part = (next - long) / step;
        const [ux, uy] = [(q[0] - p[0]) / step, (q[1] - p[1]) / step];
        const m: Point = [p[0] + (q[0] - p[0]) * part, p[1] + (q[1] - p[1]) * part];
        shapes.push(line([m[0] - uy * 4.5, m[1] + ux * 4.5], [m[0] + uy * 4.5, m[1] - ux * 4.5], "film-line thinner"));
        next += marks;
      }
      long += step;
    }
  }
  if (nip && led) {
    // The film goes between the rollers one way: the lower turns with it underneath.
    const before = led.spans.at(-1)?.ends[0];
    const way = before && before[0] > nip.axis[0] ? -1 : 1;
    const turn = way * moment.roller;
    shapes.push(
      spoke([nip.axis[0], nip.axis[1] - nip.lower], nip.lower, Math.PI / 2 - turn, "heavy"),
      spoke([nip.axis[0], nip.axis[1] + nip.upper], nip.upper, -Math.PI / 2 + (turn * nip.lower) / nip.upper, "heavy"),
    );
  }
  return shapes;
}

/** The top of the wheel with the teeth in their holes: what a tooth meets of a hole, drawn where it stands. */
function teethShapes(
  shape: UnitShape,
  area: { readonly x: number; readonly y: number; readonly width: number; readonly height: number },
): Shape[] {
  const { sprocket: wheel, letters, route, lift, moment } = shape;
  if (!wheel) return [];
  const pose = poseOn(route, wheel.s);
  const across = 2.25 * letters.P0;
  const scale = Math.min(
    (area.width - 24) / (across * 1e3),
    (area.height - 78) / ((wheel.tip - wheel.body + letters.T + 2.2e-3) * 1e3),
  );
  const centre: Point = [area.x + area.width / 2, area.y + area.height * 0.6];
  // Turned so that the tape runs level: seen along its own travel.
  const view: View = { scale, origin: centre };
  const flat = (along: number, up: number): Point => onPaper(view, [along, up]);
  const shapes: Shape[] = [];
  const reach = area.width / 2 / (scale * 1e3);
  const step = (2 * Math.PI) / wheel.teeth;
  const phase = phaseOf(shape) - pose.heading;
  const nearest = phase - Math.round((phase - Math.PI / 2) / step) * step;
  // Wheel: its body as an arc, its teeth as core's outline says.
  const body: Segment[] = [];
  for (let k = -3; k <= 3; k++) {
    const angle = nearest - k * step;
    const flank = outlineOfTooth(wheel);
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    const put = ([rho, half]: readonly [number, number], side: 1 | -1): Point =>
      flat(rho * c - side * half * s, rho * s + side * half * c - wheel.body);
    const points = [...flank.map((p) => put(p, 1)), ...[...flank].reverse().map((p) => put(p, -1))];
    const carries = moment && Math.abs(moment.hole) > 0.01 && k === (moment.tooth ?? Number.NaN);
    shapes.push(
      path(strokes(points, true), carries ? "outline of-handbg" : "outline of-body", { data: { tooth: `${k}` } }),
    );
  }
  for (let a = -12; a <= 12; a++) {
    const angle = Math.PI / 2 - (a / 12) * (reach / wheel.body) * 1.2;
    const p = flat(wheel.body * Math.cos(angle), wheel.body * Math.sin(angle) - wheel.body);
    body.push(a === -12 ? ["M", ...p] : ["L", ...p]);
  }
  shapes.unshift(path(body, "outline"));
  // The carrier, cut between the edges that a tooth meets; the round hole's own edge dashed.
  const first = pickPlace(shape) + letters.P2 + rideOf(shape);
  const near = first + Math.round((wheel.s - first) / letters.P0) * letters.P0 - wheel.s;
  const open = wheel.opening ?? letters.D0;
  const isNarrower = letters.D0 - open > 20e-6;
  const [low, top] = [lift, lift + letters.T];
  const band = (from: number, to: number): Shape => {
    const [x, y] = flat(from, top);
    return box([x, y], length(view, to - from), length(view, top - low), "carrier-cut");
  };
  for (let n = -3; n <= 3; n++) {
    const hole = near + n * letters.P0;
    shapes.push(band(hole + open / 2, hole + letters.P0 - open / 2));
    for (const side of [-1, 1])
      if (isNarrower) {
        const x = hole + (side * letters.D0) / 2;
        shapes.push(line(flat(x, low), flat(x, top), "rim-line"));
      }
  }
  const tooth = moment?.tooth;
  const marks: Shape[] = [];
  if (moment && tooth !== undefined && Math.abs(moment.hole) > 0.01) {
    const drives = moment.hole > 0;
    const x = near + tooth * letters.P0 + ((drives ? 1 : -1) * open) / 2;
    const from = flat(x, top + 0.55e-3);
    const long = 14 + Math.min(40, Math.abs(moment.hole) * 7);
    const to: Point = [from[0] + long, from[1]];
    const words = `${drives ? "drives" : "bears on it"} ${showIn("N", Math.abs(moment.hole))}`;
    const side = to[0] + 8 + textWidth(words, 10.5, true) < area.x + area.width - 6;
    marks.push(
      line(from, to, "outline"),
      arrow(to, 0),
      text([side ? to[0] + 6 : from[0], side ? from[1] + 3.6 : from[1] - 8], words, "strong halo", {
        anchor: side ? "start" : "middle",
      }),
    );
  }
  return [
    group([...shapes, ...marks], {
      clip: { box: [area.x + 1, area.y + 22], width: area.width - 2, height: area.height - 44 },
    }),
    text(
      [area.x + 10, area.y + 16],
      [
        { text: "Teeth in their holes ", class: "strong" },
        ...(isNarrower ? [{ text: "dashed: the round hole", class: "quiet" }] : []),
      ],
      "halo",
    ),
    ...scaleBar([area.x + 12, area.y + area.height - 10], scale),
  ];
}
