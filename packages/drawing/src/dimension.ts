import { mmShort } from "./say.ts";
import { group, type Handle, line, type Point, path, type Shape, strokes, text } from "./scene.ts";
import { textWidth } from "./text-width.ts";
import type { Measure } from "./unit-shape.ts";

/** The head of an arrow that points along an angle (rad on paper, down is positive), its tip at a point. */
export function arrow([x, y]: Point, angle: number, cls = "arrow", size = 7): Shape {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const half = size * 0.28;
  return path(
    strokes(
      [
        [x, y],
        [x - size * c - half * s, y - size * s + half * c],
        [x - size * c + half * s, y - size * s - half * c],
      ],
      true,
    ),
    cls,
  );
}

export interface DimensionOptions {
  /** Distance of the dimension line from the points, px; its sign tells the side. */
  readonly off: number;
  readonly words: string;
  /** Address of the number, so that a page can let it be dragged or typed. */
  readonly address?: string | undefined;
  /**
   * The value it shows (SI), where it may be taken hold of: at which end, and which share of a growth that end takes. Below nought for a number
   * that grows against the way it is measured.
   */
  readonly hold?: { readonly value: number; readonly end?: "from" | "to"; readonly share?: number };
  readonly fails?: boolean;
  /** Where the words stand along the line: over its middle, or past one end. */
  readonly at?: "middle" | "start" | "end";
  /** Words lie flat beside a line that is upright. */
  readonly flat?: boolean;
}

/** A dimension between two points: extension lines, arrows, the words in print. Points must lie level or upright to each other. */
export function dimension(a: Point, b: Point, o: DimensionOptions): Shape {
  const angle = Math.atan2(b[1] - a[1], b[0] - a[0]);
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const [nx, ny] = [-s, c];
  const at = (p: Point, d: number): Point => [p[0] + nx * d, p[1] + ny * d];
  const [p, q] = [at(a, o.off), at(b, o.off)];
  const long = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const sign = Math.sign(o.off) || 1;
  const fails = o.fails ? " fails" : "";
  const cls = `dim${fails}`;
  const wide = textWidth(o.words, 12);
  const tight = long < 18;
  const shapes: Shape[] = [];
  if (o.off !== 0)
    shapes.push(
      line(at(a, 2 * sign), at(a, o.off + 4 * sign), cls),
      line(at(b, 2 * sign), at(b, o.off + 4 * sign), cls),
    );
  const beyond = (from: Point, d: number): Point => [from[0] + c * d, from[1] + s * d];
  const place = o.at ?? (o.flat || (!tight && long + 30 >= wide) ? "middle" : "end");
  if (tight) {
    shapes.push(
      line(beyond(p, -13), p, cls),
      line(q, beyond(q, 13), cls),
      line(p, q, cls),
      arrow(p, angle, `arrow${fails}`),
      arrow(q, angle + Math.PI, `arrow${fails}`),
    );
  } else shapes.push(line(p, q, cls), arrow(p, angle + Math.PI, `arrow${fails}`), arrow(q, angle, `arrow${fails}`));
  let degrees = (angle * 180) / Math.PI;
  if (degrees > 91) degrees -= 180;
  if (degrees < -89) degrees += 180;
  const words = { data: o.address ? { address: o.address } : {} };
  const textClass = `dim-text${fails} halo`;
  if (o.flat) {
    const middle: Point = [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2];
    const right = nx * sign > 0;
    shapes.push(
      text([middle[0] + (right ? 6 : -6), middle[1] + 4], o.words, textClass, {
        anchor: right ? "start" : "end",
        ...words,
      }),
    );
  } else if (place === "middle") {
    shapes.push(
      text([(p[0] + q[0]) / 2 - 4 * Math.abs(s), (p[1] + q[1]) / 2 - 4 * Math.abs(c)], o.words, textClass, {
        anchor: "middle",
        turned: degrees,
        ...words,
      }),
    );
  } else {
    const end = place === "end" ? beyond(q, tight ? 16 : 5) : beyond(p, tight ? -16 : -5);
    const anchor = (place === "end") === c > -0.1 ? "start" : "end";
    shapes.push(text([end[0], end[1] + 4], o.words, textClass, { anchor, ...words }));
  }
  const handle = handleOf(p, q, o);
  return group(shapes, { class: "dimension", ...(handle ? { handle } : {}) });
}

function handleOf(p: Point, q: Point, { hold, address }: DimensionOptions): Handle | undefined {
  if (!hold || address === undefined || hold.value === 0) return undefined;
  const { value, end = "to", share = 1 } = hold;
  const way = end === "to" ? 1 : -1;
  const [dx, dy] = [q[0] - p[0], q[1] - p[1]];
  const k = (way * share) / value;
  const tip = end === "to" ? q : p;
  // A little beyond its arrow, off the words that stand over the line.
  const beyond = (9 * way) / (Math.hypot(dx, dy) || 1);
  return {
    members: [address],
    name: "",
    at: [tip[0] + dx * beyond, tip[1] + dy * beyond],
    along: [dx * k, dy * k],
  };
}

/** A measure in print: "24.45 ±0.10", "1.1 +0.05/0". */
export function sayMeasure({ value, limits }: Measure): string {
  const shown = mmShort(value);
  if (!limits) return shown;
  const [below, above] = limits;
  if (Math.abs(below + above) < 1e-9) return `${shown} ±${mmShort(above)}`;
  const one = (v: number) => (Math.abs(v) < 1e-9 ? "0" : `${v > 0 ? "+" : "−"}${mmShort(Math.abs(v))}`);
  return `${shown} ${one(above)}/${one(below)}`;
}
