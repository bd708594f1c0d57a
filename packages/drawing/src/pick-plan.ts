import { figures, showIn, spaced } from "@tapeworthy/core";
import { arrow } from "./dimension.ts";
import { aloud, capital, list } from "./say.ts";
import { box, circle, type Drawing, group, line, type Point, path, type Segment, type Shape, text } from "./scene.ts";
import { cutTo, textWidth } from "./text-width.ts";

/** A radius about the nominal pick place that holds a share of the indexes; `low` and `high` are what belief leaves of it. SI. */
export interface PickRadius {
  readonly name: string;
  readonly radius: number;
  readonly low?: number;
  readonly high?: number;
}
/** What a plan of the pick place shows. Lengths in m, x along the travel, y across the tape; errors are about the nominal place. */
export interface PickPlanInput {
  readonly unit: string;
  readonly tape: string;
  readonly pocket: { readonly A0: number; readonly B0: number };
  readonly part?: { readonly along: number; readonly across: number };
  readonly tool?: { readonly diameter: number };
  /** How far from the nominal place the tool still takes a part. */
  readonly takes?: number;
  /** Share of indexes that each radius holds. */
  readonly share: number;
  /** The first is the one that decides. */
  readonly radii: readonly PickRadius[];
  readonly offset: readonly [x: number, y: number];
  readonly spread?: { readonly x: number; readonly y: number; readonly correlation?: number };
  /** Rotation of the part about its middle, rad. */
  readonly turn?: { readonly mean: number; readonly sd: number };
  /** Some of the drawn indexes; `of` says out of how many. */
  readonly points?: { readonly x: ArrayLike<number>; readonly y: ArrayLike<number>; readonly of?: number };
}

const mm = (v: number): string => showIn("mm", v);
const mostPoints = 400;
/** From this width on the words stand beside the plan, with leaders. */
const wideFrom = 600;
const row = 13.5;

/** How many times larger than everything else errors are drawn: a step of 1, 2, 5 at which they fill the pocket, never below 1. */
export function pickEnlargement(input: PickPlanInput): number {
  const reach = reachOf(input);
  const [A0, B0] = [sized(input.pocket.A0), sized(input.pocket.B0)];
  const room = 0.56 * Math.min(A0, B0);
  if (!(reach > 0) || !(room > 0)) return 1;
  const wanted = room / reach;
  if (!(wanted > 1)) return 1;
  const size = 10 ** Math.min(4, Math.floor(Math.log10(wanted) + 1e-12));
  return size * ([5, 2].find((k) => k * size <= wanted * (1 + 1e-12)) ?? 1);
}
/** How far what is drawn of the errors goes from the nominal place, m. */
function reachOf({ takes, radii, offset, spread }: PickPlanInput): number {
  const far = Math.hypot(...offset) + 3 * Math.max(0, spread?.x ?? 0, spread?.y ?? 0);
  const all = [takes ?? 0, ...radii.flatMap((r) => [r.radius, r.high ?? 0]), far];
  return Math.max(0, ...all.filter(Number.isFinite));
}

/** One thing named beside the plan: how its line looks, its words, and where on paper a leader towards a point may touch it. */
interface Item {
  readonly cls: string;
  readonly sample: "line" | "dot" | "box" | "cross" | "bound";
  readonly words: readonly string[];
  readonly fails?: boolean;
  readonly touch?: (from: Point) => Point;
}

/**
 * Plan of the pick place: pocket, part and tool to scale; over them, enlarged, where the middles of parts come to lie: points, ellipses of 1,
 * 2, 3 standard deviations, the radius that holds the share with what belief leaves of it, and the radius the tool takes.
 */
export function pickPlan(
  input: PickPlanInput,
  { width, height = 0 }: { readonly width: number; readonly height?: number },
): Drawing {
  const { pocket, part, tool, takes, radii, offset, spread, points, turn } = input;
  const k = pickEnlargement(input);
  const wide = width >= wideFrom;
  const head = 40;
  const foot = 44;

  const [A0, B0] = [sized(pocket.A0), sized(pocket.B0)];
  const margin = 0.16 * Math.max(A0, B0) || 1e-3;
  const [halfX, halfY] = [A0 / 2 + margin, B0 / 2 + margin];
  const column = wide ? Math.min(290, Math.max(246, Math.round(width * 0.36))) : width - 20;

  // The words first: on a narrow sheet they take their room below.
  const items: Item[] = [];
  let view = { scale: 1, at: [0, 0] as Point };
  const on = (x: number, y: number): Point => [view.at[0] + near(x * view.scale), view.at[1] - near(y * view.scale)];
  const err = (x: number, y: number): Point => on(x * k, y * k);
  const middle = (): Point => on(0, 0);
  const ring =
    (r: number) =>
    (from: Point): Point => {
      const [cx, cy] = middle();
      const long = Math.hypot(from[0] - cx, from[1] - cy) || 1;
      const on = near(r * view.scale);
      return [cx + ((from[0] - cx) * on) / long, cy + ((from[1] - cy) * on) / long];
    };
  const share = percent(input.share);
  if (takes !== undefined)
    items.push({
      cls: "heavy",
      sample: "bound",
      words: [`the tool takes ${mm(takes)}`],
      ...(shown(takes) ? { touch: ring(takes * k) } : {}),
    });
  radii.forEach((r, i) => {
    const fails = takes !== undefined && r.radius > takes;
    const believed = r.low !== undefined && r.high !== undefined ? mmFromTo(r.low, r.high) : undefined;
    items.push({
      cls: fails ? "fail-line heavy" : i === 0 ? "outline" : "bell-kind thin",
      sample: "line",
      words: [
        `${share} within ${mm(r.radius)}${fails ? ", more than it takes" : ""}`,
        r.name,
        ...(believed === undefined ? [] : [i === 0 ? `belief ${believed}: striped` : `belief ${believed}`]),
      ],
      fails,
      ...(shown(r.radius) ? { touch: ring(r.radius * k) } : {}),
    });
  });
  const ellipse = spread && Number.isFinite(spread.x) && Number.isFinite(spread.y) ? spread : undefined;
  if (ellipse)
    items.push({
      cls: "hidden-line",
      sample: "line",
      words: ["1, 2 and 3 standard deviations", `one is ${mm(ellipse.x)} along, ${mm(ellipse.y)} across`],
      touch: (from) => {
        const [cx, cy] = err(...offset);
        return farthest(
          outlineOf(offset, ellipse, 3).map(([x, y]) => err(x, y)),
          from[0] - cx,
          from[1] - cy,
        );
      },
    });
  const isOff = Math.hypot(...offset) > 0 && offset.every(Number.isFinite);
  if (isOff || ellipse)
    items.push({
      cls: "outline",
      sample: "cross",
      words: [isOff ? `off by ${mm(offset[0])} along, ${mm(offset[1])} across` : "on the mark in the mean"],
      touch: () => err(...offset),
    });
  const drawn = pointsOf(input);
  if (drawn.length > 0) {
    const of = points?.of ?? points!.x.length;
    items.push({
      cls: "of-ink2",
      sample: "dot",
      words: [
        of > drawn.length
          ? `${spaced(drawn.length)} of ${spaced(of)} indexes drawn`
          : `${spaced(drawn.length)} indexes`,
      ],
    });
  }
  if (tool && shown(tool.diameter))
    items.push({
      cls: "steel-line thinner",
      sample: "line",
      words: [`nozzle Ø${mm(tool.diameter)}`],
      touch: ring(tool.diameter / 2),
    });
  if (part && shown(part.along) && shown(part.across))
    items.push({
      cls: "thin of-body",
      sample: "box",
      words: [`part ${mm(part.along)} along, ${mm(part.across)} across`],
    });
  items.push({
    cls: "outline of-paper",
    sample: "box",
    words: [`pocket ${mm(pocket.A0)} along, ${mm(pocket.B0)} across`],
  });
  if (turn) items.push({ cls: "", sample: "dot", words: [`turned by ${degrees(turn.mean)}, sd ${degrees(turn.sd)}`] });

  const blockOf = (item: Item): number => item.words.length * row + 5;
  const block = items.reduce((sum, one) => sum + blockOf(one), 0);
  const planWide = (wide ? width - column - 34 : width - 20) as number;
  const natural = Math.min((planWide * halfY) / halfX, 440, Math.max(190, planWide * (wide ? 0.95 : 0.8)));
  const planTall = wide
    ? Math.max(natural, height - head - foot, block)
    : Math.max(natural, height - head - foot - block - 6);
  const tall = Math.max(height, head + planTall + foot + (wide ? 0 : block + 6));
  const area = { x: 10, y: head, width: planWide, height: planTall };
  view = {
    scale: Math.min(area.width / (2 * halfX), area.height / (2 * halfY)),
    at: [area.x + area.width / 2, area.y + area.height / 2],
  };

  const shapes: Shape[] = [
    box([0, 0], width, tall, "ground"),
    text([10, 17], "Plan on the pick place", "t1 strong"),
    text([10, 31], cutTo(enlargedWords(k, width), 10.5, width - 20), "quiet"),
  ];
  const inner: Shape[] = [box([area.x, area.y], area.width, area.height, "of-cavity softly")];
  const rect = (along: number, across: number, cls: string, what: string, round = 0): Shape => {
    const [x, y] = on(-along / 2, across / 2);
    return box([x, y], near(along * view.scale), near(across * view.scale), cls, { round, data: { what } });
  };
  inner.push(rect(A0, B0, "outline of-paper", "pocket", Math.min(4, 0.03 * Math.min(A0, B0) * view.scale)));
  if (part && shown(part.along) && shown(part.across))
    inner.push(rect(part.along, part.across, "thin of-body", "part"));
  const [cx, cy] = middle();
  inner.push(
    line([area.x, cy], [area.x + area.width, cy], "axis"),
    line([cx, area.y], [cx, area.y + area.height], "axis"),
  );
  if (tool && shown(tool.diameter))
    inner.push(
      circle([cx, cy], near((tool.diameter / 2) * view.scale), "steel-line thinner", { data: { what: "tool" } }),
    );
  const r = (v: number): number => near(v * k * view.scale);
  if (takes !== undefined && shown(takes))
    inner.push(
      path(annulus([cx, cy], r(takes), r(takes) + 6), "", { fill: "outside" }),
      circle([cx, cy], r(takes), "heavy", { data: { what: "takes", r: `${r(takes)}` } }),
    );
  const first = radii[0];
  if (
    first?.low !== undefined &&
    first.high !== undefined &&
    shown(first.high) &&
    first.low >= 0 &&
    first.high > first.low
  )
    inner.push(
      path(annulus([cx, cy], r(first.low), r(first.high)), "softly", { fill: "unknown", data: { what: "belief" } }),
    );
  for (const [x, y] of drawn) inner.push(circle(err(x, y), 1.1, "of-ink2 softly"));
  if (ellipse)
    for (const q of [1, 2, 3])
      inner.push(path(ellipsePath(offset, ellipse, q, err), "hidden-line", { data: { what: "ellipse", sd: `${q}` } }));
  [...radii].reverse().forEach((one) => {
    if (!shown(one.radius)) return;
    const i = radii.indexOf(one);
    const fails = takes !== undefined && one.radius > takes;
    const cls = fails ? "fail-line heavy" : i === 0 ? "outline" : "bell-kind thin";
    inner.push(circle([cx, cy], r(one.radius), cls, { data: { what: "holds", radius: one.name } }));
  });
  if (isOff || ellipse) inner.push(...cross(err(offset[0] || 0, offset[1] || 0), 5));
  shapes.push(group(inner, { clip: { box: [area.x, area.y], width: area.width, height: area.height } }));
  shapes.push(box([area.x, area.y], area.width, area.height, "faint"));
  shapes.push(...footOf(area, view.scale, k));

  // Words: in the order of the list, beside the plan from its middle outwards, or below it.
  const x = wide ? area.x + area.width + 30 : 10;
  let y = wide ? Math.max(head, area.y + (area.height - block) / 2) : head + planTall + foot;
  for (const item of items) {
    const foot = y + 10;
    const room = (wide ? width - 10 : width - 10) - (x + 26);
    if (wide && item.touch) {
      const from: Point = [x - 4, foot - 4];
      const to = item.touch(from);
      const inside = to[0] > area.x && to[0] < area.x + area.width && to[1] > area.y && to[1] < area.y + area.height;
      if (inside) shapes.push(line(to, from, "leader"), circle(to, 1.6, "of-ink3"));
    }
    shapes.push(...sampleOf(item, [x, foot - 4]));
    item.words.forEach((words, i) => {
      const cls = i > 0 ? "quiet" : item.fails ? "is-fail" : "dark";
      shapes.push(text([x + 26, foot + i * row], cutTo(words, 10.5, room, item.fails === true && i === 0), cls));
    });
    y += blockOf(item);
  }
  return {
    title: `Plan on the pick place of ${input.unit} with ${input.tape}`,
    desc: pickPlanWords(input),
    width,
    height: tall,
    shapes,
  };
}

const enlargedWords = (k: number, width: number): string =>
  k === 1
    ? "all to scale"
    : width < 400
      ? `errors ${spaced(k)} times larger, the rest to scale`
      : `pocket, part and nozzle to scale; errors ${spaced(k)} times larger`;

/** One bar read two ways, and the way the tape goes. */
function footOf(area: { x: number; y: number; width: number; height: number }, scale: number, k: number): Shape[] {
  const y = area.y + area.height + 20;
  const most = Math.min(110, area.width * 0.3) / (scale || 1);
  const size = 10 ** Math.floor(Math.log10(most));
  const long = size * ([5, 2].find((n) => n * size <= most) ?? 1);
  const px = near(long * scale);
  const x = area.x + 1;
  const shapes: Shape[] = [];
  for (const i of [0, 1, 2, 3])
    shapes.push(
      box([x + (i * px) / 4, y - 4], px / 4, 4, i % 2 === 0 ? "of-ink2" : "of-paper"),
      box([x + (i * px) / 4, y - 4], px / 4, 4, "thin"),
    );
  shapes.push(text([x, y - 7], mm(long), "halo", { data: { scale: `${px / long}` } }));
  if (k > 1)
    shapes.push(text([x, y + 11], `${mm(long / k)} of error`, "halo", { data: { errors: `${px / (long / k)}` } }));
  const [x1, words] = [area.x + area.width - 1, "travel, x"];
  const wide = textWidth(words, 10.5);
  shapes.push(
    line([x1 - 34, y - 2], [x1 - 3, y - 2], "dim"),
    arrow([x1, y - 2], 0),
    text([x1 - 40, y + 1.6], words, "", { anchor: "end", data: { wide: `${Math.round(wide)}` } }),
  );
  return shapes;
}

function sampleOf({ cls, sample }: Item, [x, y]: Point): Shape[] {
  if (cls === "") return [];
  switch (sample) {
    case "line":
      return [line([x, y], [x + 19, y], cls)];
    case "bound":
      return [box([x, y - 5.5], 19, 5.5, "", { fill: "outside" }), line([x, y], [x + 19, y], cls)];
    case "box":
      return [box([x + 3, y - 4.5], 13, 9, cls)];
    case "dot":
      return [-5, 0, 5].map((d, i) => circle([x + 9.5 + d, y + [1.5, -2, 2][i]!], 1.1, cls));
    case "cross":
      return cross([x + 9.5, y], 4);
  }
}
const cross = ([x, y]: Point, r: number): Shape[] => [
  line([x - r, y], [x + r, y], "outline"),
  line([x, y - r], [x, y + r], "outline"),
];

/** Between two circles, so that a fill stays between them. */
function annulus([x, y]: Point, inner: number, outer: number): Segment[] {
  const round = (r: number, clockwise: boolean): Segment[] => [
    ["M", x - r, y],
    ["A", x + r, y, r, false, clockwise],
    ["A", x - r, y, r, false, clockwise],
    ["Z"],
  ];
  return inner > 0 ? [...round(outer, true), ...round(inner, false)] : round(outer, true);
}

type Spread = NonNullable<PickPlanInput["spread"]>;
/** A point of the contour at q standard deviations: the circle (cos, sin) through the Cholesky factor of the covariance. */
const contour = (
  [mx, my]: readonly [number, number],
  { x, y, correlation = 0 }: Spread,
  q: number,
  c: number,
  s: number,
) => {
  const rho = Math.max(-1, Math.min(1, correlation));
  return [(mx || 0) + q * x * c, (my || 0) + q * y * (rho * c + Math.sqrt(1 - rho * rho) * s)] as const;
};
const outlineOf = (offset: readonly [number, number], spread: Spread, q: number) =>
  Array.from({ length: 48 }, (_, i) =>
    contour(offset, spread, q, Math.cos((i * Math.PI) / 24), Math.sin((i * Math.PI) / 24)),
  );
/** Four cubic arcs: an affine image of a circle is the same image of its cubics. */
function ellipsePath(
  offset: readonly [number, number],
  spread: Spread,
  q: number,
  on: (x: number, y: number) => Point,
): Segment[] {
  const a = 0.5522847498;
  const at = (c: number, s: number): Point => on(...contour(offset, spread, q, c, s));
  const quarter = (c0: number, s0: number, c1: number, s1: number): Segment => [
    "C",
    ...at(c0 - a * s0, s0 + a * c0),
    ...at(c1 + a * s1, s1 - a * c1),
    ...at(c1, s1),
  ];
  return [
    ["M", ...at(1, 0)],
    quarter(1, 0, 0, 1),
    quarter(0, 1, -1, 0),
    quarter(-1, 0, 0, -1),
    quarter(0, -1, 1, 0),
    ["Z"],
  ];
}
const farthest = (points: readonly Point[], dx: number, dy: number): Point =>
  points.reduce((best, p) => (p[0] * dx + p[1] * dy > best[0] * dx + best[1] * dy ? p : best));

/** Points that are numbers, evenly taken where there are many. */
function pointsOf({ points }: PickPlanInput): (readonly [number, number])[] {
  if (!points) return [];
  const n = Math.min(points.x.length, points.y.length);
  const step = Math.max(1, n / mostPoints);
  const out: (readonly [number, number])[] = [];
  for (let i = 0; Math.floor(i * step) < n && out.length < mostPoints; i++) {
    const [x, y] = [points.x[Math.floor(i * step)]!, points.y[Math.floor(i * step)]!];
    if (Number.isFinite(x) && Number.isFinite(y)) out.push([x, y]);
  }
  return out;
}
/** What lies far off the sheet need not be told exactly. */
const near = (px: number): number => (Number.isNaN(px) ? 0 : Math.max(-1e5, Math.min(1e5, px)));
const shown = (v: number): boolean => Number.isFinite(v) && v > 0;
/** A pocket of no size, or of none that a tape can have, is drawn as one of a millimetre; its words say what was given. */
const sized = (v: number): number => (v > 1e-7 && v < 10 ? v : 1e-3);
const degrees = (rad: number): string => `${figures(Math.abs(rad) < 1e-12 ? 0 : (rad * 180) / Math.PI)}°`;
const mmFromTo = (low: number, high: number): string => `${mm(low).replace(/ mm$/, "")} to ${mm(high)}`;
/** A share as somebody asked for it: 99.73 %. */
const percent = (share: number): string => `${Number((share * 100).toPrecision(6))} %`;

/** The plan told: which radius holds the share, whether the tool takes it, where the middle lies, how it scatters. */
export function pickPlanWords(input: PickPlanInput): string {
  const { takes, radii, offset, spread, turn, pocket, part, tool } = input;
  const share = percent(input.share);
  const [first] = radii;
  const out = [`The pick place of ${input.unit} with ${input.tape} from above.`];
  if (first) {
    const verdict =
      takes === undefined ? "" : `; the tool takes ${mm(takes)}${first.radius > takes ? ", which is less" : ""}`;
    const believed =
      first.low !== undefined && first.high !== undefined ? `, by belief ${mmFromTo(first.low, first.high)}` : "";
    out.push(`${share} of indexes lie within ${mm(first.radius)} of the mark, ${first.name}${believed}${verdict}.`);
    for (const r of radii.slice(1)) out.push(`${capital(r.name)}: ${mm(r.radius)}.`);
  } else out.push("No radius is known.", ...(takes === undefined ? [] : [`The tool takes ${mm(takes)}.`]));
  if (offset.some((v) => v !== 0))
    out.push(`The mean is off by ${mm(offset[0])} along the travel and ${mm(offset[1])} across.`);
  if (spread) out.push(`One standard deviation is ${mm(spread.x)} along and ${mm(spread.y)} across.`);
  if (turn)
    out.push(
      `Parts are turned by ${degrees(turn.mean)} in the mean, with a standard deviation of ${degrees(turn.sd)}.`,
    );
  out.push(
    `${capital(
      list([
        `pocket ${mm(pocket.A0)} by ${mm(pocket.B0)}`,
        ...(part ? [`part ${mm(part.along)} by ${mm(part.across)}`] : []),
        ...(tool ? [`nozzle ${mm(tool.diameter)} wide`] : []),
      ]),
    )}.`,
  );
  const k = pickEnlargement(input);
  if (k > 1) out.push(`Errors are drawn ${spaced(k)} times larger than the rest.`);
  return aloud(out.join(" "));
}
