/**
 * A drawing as data: groups, paths, circles, boxes and text in pixels of the sheet, with the words that say the same aloud.
 * `toSvg` is the only place that writes SVG. Colours are classes (theme.ts), so light, dark and print are one text.
 */
export type Point = readonly [x: number, y: number];

/** A piece of a path in absolute coordinates. An arc is circular: its end, radius, and the two flags of SVG. */
export type Segment =
  | readonly ["M" | "L", number, number]
  | readonly ["A", number, number, number, large: boolean, clockwise: boolean]
  | readonly ["C", number, number, number, number, number, number]
  | readonly ["Z"];

/** Fills that are a pattern of lines; what each means stands in README.md. */
export type Pattern = "hatch" | "counterhatch" | "rubber" | "fails" | "unknown" | "outside" | "grid";

interface Common {
  readonly class?: string;
  /** What it stands for, as data-* attributes: what a page finds it by. */
  readonly data?: Readonly<Record<string, string>>;
  readonly fill?: Pattern;
}
export type Shape =
  | (Common & {
      readonly kind: "group";
      readonly shapes: readonly Shape[];
      readonly clip?: Clip;
      /** Makes the group a link of its page; `label` is its spoken name. */
      readonly link?: {
        readonly href: string;
        readonly label: string;
        readonly id?: string;
        /** Whether the Tab key stops at it, where a page moves among links by other keys. */
        readonly isStop?: boolean;
      };
      readonly turn?: { readonly degrees: number; readonly about: Point };
      /** Moves what it holds; not together with a turn. */
      readonly shift?: Point;
      readonly handle?: Handle;
    })
  /** Shapes that several drawings of one page show: written once where they are shared, else in place. */
  | (Common & { readonly kind: "part"; readonly name: string; readonly shapes: readonly Shape[] })
  | (Common & { readonly kind: "path"; readonly d: readonly Segment[] })
  | (Common & { readonly kind: "circle"; readonly at: Point; readonly r: number })
  | (Common & {
      readonly kind: "box";
      readonly at: Point;
      readonly width: number;
      readonly height: number;
      readonly round?: number;
    })
  | (Common & {
      readonly kind: "text";
      readonly at: Point;
      readonly text: string | readonly Run[];
      readonly anchor?: Anchor;
      readonly turned?: number;
    });
/** Where a page may take hold of what a drawing shows. Data for the page: it is not written into the drawing. */
export interface Handle {
  /** Numbers that move by the same distance, by their addresses. */
  readonly members: readonly string[];
  readonly name: string;
  readonly at: Point;
  /** How far it goes on paper for each unit (SI) that the numbers grow by. */
  readonly along: Point;
  /** At which of its places it stands, where it has several. */
  readonly spot?: number;
  /** One of many, shown smaller than others. */
  readonly quiet?: boolean;
}
export type Anchor = "start" | "middle" | "end";
/** A part of a line of text with its own class. */
export interface Run {
  readonly text: string;
  readonly class?: string;
}
export type Clip =
  | { readonly circle: Point; readonly r: number }
  | { readonly box: Point; readonly width: number; readonly height: number }
  | { readonly corners: readonly Point[] };

export interface Drawing {
  /** Name of the drawing, and what it shows in words: the spoken text alternative. */
  readonly title: string;
  readonly desc: string;
  readonly width: number;
  readonly height: number;
  readonly shapes: readonly Shape[];
  /** The box of its coordinates that fills its width and height; all of it, from the origin, where it is not given. */
  readonly window?: { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
}

type More<K extends Shape["kind"]> = Omit<Extract<Shape, { kind: K }>, "kind">;
type Extra = Pick<Common, "class" | "data" | "fill">;
export const group = (shapes: readonly Shape[], more: Omit<More<"group">, "shapes"> = {}): Shape => ({
  kind: "group",
  shapes,
  ...more,
});
export const part = (name: string, shapes: readonly Shape[]): Shape => ({ kind: "part", name, shapes });
export const path = (d: readonly Segment[], cls: string, more: Extra = {}): Shape => ({
  kind: "path",
  d,
  class: cls,
  ...more,
});
export const circle = (at: Point, r: number, cls: string, more: Extra = {}): Shape => ({
  kind: "circle",
  at,
  r,
  class: cls,
  ...more,
});
export const box = (
  at: Point,
  width: number,
  height: number,
  cls: string,
  more: Extra & { round?: number } = {},
): Shape => ({ kind: "box", at, width, height, class: cls, ...more });
export const text = (
  at: Point,
  words: string | readonly Run[],
  cls: string,
  more: Omit<More<"text">, "at" | "text" | "class"> = {},
): Shape => ({
  kind: "text",
  at,
  text: words,
  class: cls,
  ...more,
});
/** Straight strokes from point to point. */
export function strokes(points: readonly Point[], closed = false): Segment[] {
  const d = points.map(([x, y], i): Segment => [i === 0 ? "M" : "L", x, y]);
  return closed ? [...d, ["Z"]] : d;
}
export const line = (from: Point, to: Point, cls: string, more: Extra = {}): Shape =>
  path(strokes([from, to]), cls, more);

/** Drawings under each other as one, from the top, as wide as the widest, a line between them. */
export function stacked(drawings: readonly Drawing[], title: string): Drawing {
  let height = 0;
  const shapes = drawings.map((one): Shape => {
    const shift: Point = [0, height];
    const edge = height > 0 ? [line([0, 0], [one.width, 0], "faint")] : [];
    height += one.height;
    return group([...one.shapes, ...edge], { shift });
  });
  return {
    title,
    desc: drawings.map((one) => one.desc).join(" "),
    width: Math.max(0, ...drawings.map((one) => one.width)),
    height,
    shapes,
  };
}

/** A bug of ours: a drawing was asked to show something that is no number. */
export class DrawingBug extends Error {
  override readonly name = "DrawingBug";
}

/** A coordinate: three decimals of a pixel, no exponent, no minus nought. */
export function fixed(v: number): string {
  if (!Number.isFinite(v)) throw new DrawingBug(`a coordinate is ${v}; please report this with the design files`);
  const rounded = Math.round(v * 1000) / 1000;
  return `${rounded === 0 ? 0 : rounded}`;
}

const entities: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};
/** Text for SVG and HTML: markup escaped, control characters (which XML refuses) left out. */
export const escaped = (raw: string): string => (/^[\w\s.,:;()#/%+=-]*$/.test(raw) ? raw : withEntities(raw));
const withEntities = (raw: string): string =>
  raw.replace(/(?![\t\n\r])\p{Cc}|\p{Cs}|[\ufffe\uffff]/gu, "").replace(/[&<>"']/g, (ch) => entities[ch]!);

export interface SvgOptions {
  /** Begins every id in this drawing; two drawings of one page need two. */
  readonly prefix: string;
  /** CSS to put inside, for a file that stands alone. */
  readonly style?: string;
  /** Where patterns and parts of several drawings of one page are written once. */
  readonly shared?: Shared;
  /** A drawing with links in it is a group of them: an image would hide them from who can't see it. */
  readonly role?: "img" | "group";
}

const checkedPrefix = (prefix: string): string => {
  if (!/^[A-Za-z][\w-]*$/.test(prefix))
    throw new RangeError(`"${prefix}" can't begin an id: use letters, digits, "-" and "_"`);
  return prefix;
};

/** The drawing as SVG text. Same drawing and prefix, same bytes. */
export function toSvg(drawing: Drawing, { prefix, style, shared, role = "img" }: SvgOptions): string {
  const writer = new Writer(checkedPrefix(prefix), shared);
  const body = drawing.shapes.map((s) => writer.shape(s)).join("");
  const [width, height] = [fixed(drawing.width), fixed(drawing.height)];
  const { x, y, width: w, height: h } = drawing.window ?? { x: 0, y: 0, width: drawing.width, height: drawing.height };
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" class="tw" width="${width}" height="${height}" viewBox="${[x, y, w, h].map(fixed).join(" ")}" role="${role}" aria-labelledby="${prefix}-title ${prefix}-desc">` +
    `<title id="${prefix}-title">${escaped(drawing.title)}</title><desc id="${prefix}-desc">${escaped(drawing.desc)}</desc>` +
    (style === undefined ? "" : `<style>${style.replace(/[<&]/g, (ch) => entities[ch]!)}</style>`) +
    writer.defs() +
    `${body}</svg>`
  );
}

/**
 * What several drawings of one page have in common: patterns, and parts by their names. `svg` is written once, before or after them; it takes
 * no room and must not be hidden, or what it holds would be gone from the drawings too.
 */
export class Shared {
  readonly prefix: string;
  private readonly writer: Writer;
  private readonly parts = new Map<string, string>();
  constructor(prefix: string) {
    this.prefix = checkedPrefix(prefix);
    this.writer = new Writer(prefix);
  }
  /** Id of a part, which is written the first time it is asked for: its name stands for its shapes. */
  idOf(name: string, shapes: readonly Shape[]): string {
    const id = `${this.prefix}-${checkedPrefix(name)}`;
    if (!this.parts.has(id)) this.parts.set(id, shapes.map((s) => this.writer.shape(s)).join(""));
    return id;
  }
  pattern(name: Pattern): string {
    return this.writer.pattern(name);
  }
  svg(): string {
    const parts = [...this.parts].map(([id, inner]) => `<g class="tw" id="${id}">${inner}</g>`).join("");
    return `<svg xmlns="http://www.w3.org/2000/svg" class="tw shared" width="0" height="0" aria-hidden="true" focusable="false">${this.writer.defs(parts)}</svg>`;
  }
}

class Writer {
  private readonly prefix: string;
  private readonly shared: Shared | undefined;
  private readonly patterns = new Set<Pattern>();
  private readonly clips = new Map<string, string>();
  constructor(prefix: string, shared?: Shared) {
    this.prefix = prefix;
    this.shared = shared;
  }

  defs(more = ""): string {
    const patterns = [...this.patterns].sort().map((name) => patternText(name, `${this.prefix}-${name}`));
    const clips = [...this.clips].map(([shape, id]) => `<clipPath id="${id}">${shape}</clipPath>`);
    const all = [...patterns, ...clips, more].join("");
    return all === "" ? "" : `<defs>${all}</defs>`;
  }

  shape(s: Shape): string {
    const common = this.common(s);
    switch (s.kind) {
      case "group": {
        const clip = s.clip ? ` clip-path="url(#${this.clip(s.clip)})"` : "";
        const turn = s.turn
          ? ` transform="rotate(${fixed(s.turn.degrees)} ${fixed(s.turn.about[0])} ${fixed(s.turn.about[1])})"`
          : "";
        const shift = s.shift ? ` transform="translate(${fixed(s.shift[0])} ${fixed(s.shift[1])})"` : "";
        const inner = s.shapes.map((one) => this.shape(one)).join("");
        if (!s.link) return `<g${common}${clip}${turn}${shift}>${inner}</g>`;
        const id = s.link.id === undefined ? "" : ` id="${escaped(s.link.id)}"`;
        const stop = s.link.isStop === undefined ? "" : ` tabindex="${s.link.isStop ? 0 : -1}"`;
        return `<a${id} href="${escaped(s.link.href)}"${stop} aria-label="${escaped(s.link.label)}"${common}${clip}${turn}>${inner}</a>`;
      }
      case "part":
        return this.shared
          ? `<use${common} href="#${this.shared.idOf(s.name, s.shapes)}"/>`
          : `<g${common}>${s.shapes.map((one) => this.shape(one)).join("")}</g>`;
      case "path":
        return `<path${common} d="${pathText(s.d)}"/>`;
      case "circle":
        return `<circle${common} cx="${fixed(s.at[0])}" cy="${fixed(s.at[1])}" r="${fixed(s.r)}"/>`;
      case "box": {
        const round = s.round ? ` rx="${fixed(s.round)}"` : "";
        return `<rect${common} x="${fixed(s.at[0])}" y="${fixed(s.at[1])}" width="${fixed(s.width)}" height="${fixed(s.height)}"${round}/>`;
      }
      case "text": {
        const [x, y] = [fixed(s.at[0]), fixed(s.at[1])];
        const anchor = s.anchor && s.anchor !== "start" ? ` text-anchor="${s.anchor}"` : "";
        const turn = s.turned ? ` transform="rotate(${fixed(s.turned)} ${x} ${y})"` : "";
        const words =
          typeof s.text === "string"
            ? escaped(s.text)
            : s.text
                .map((run) =>
                  run.class ? `<tspan class="${run.class}">${escaped(run.text)}</tspan>` : escaped(run.text),
                )
                .join("");
        return `<text${common} x="${x}" y="${y}"${anchor}${turn}>${words}</text>`;
      }
    }
  }

  /** Id of a pattern, which is written once. */
  pattern(name: Pattern): string {
    if (this.shared) return this.shared.pattern(name);
    this.patterns.add(name);
    return `${this.prefix}-${name}`;
  }

  private common({ class: cls, data, fill }: Common): string {
    const names = cls ? ` class="${cls}"` : "";
    const kept = Object.entries(data ?? {})
      .map(([key, value]) => ` data-${key}="${escaped(value)}"`)
      .join("");
    return fill ? `${names}${kept} fill="url(#${this.pattern(fill)})"` : names + kept;
  }

  private clip(clip: Clip): string {
    const shape =
      "circle" in clip
        ? `<circle cx="${fixed(clip.circle[0])}" cy="${fixed(clip.circle[1])}" r="${fixed(clip.r)}"/>`
        : "corners" in clip
          ? `<polygon points="${clip.corners.map(([x, y]) => `${fixed(x)},${fixed(y)}`).join(" ")}"/>`
          : `<rect x="${fixed(clip.box[0])}" y="${fixed(clip.box[1])}" width="${fixed(clip.width)}" height="${fixed(clip.height)}"/>`;
    const known = this.clips.get(shape);
    if (known) return known;
    const id = `${this.prefix}-clip-${this.clips.size + 1}`;
    this.clips.set(shape, id);
    return id;
  }
}

function pathText(d: readonly Segment[]): string {
  return d
    .map((seg) => {
      switch (seg[0]) {
        case "Z":
          return "Z";
        case "A":
          return `A${fixed(seg[3])} ${fixed(seg[3])} 0 ${seg[4] ? 1 : 0} ${seg[5] ? 1 : 0} ${fixed(seg[1])} ${fixed(seg[2])}`;
        default:
          return (
            seg[0] +
            seg
              .slice(1)
              .map((v) => fixed(v as number))
              .join(" ")
          );
      }
    })
    .join("");
}

/** Cut bodies slant, rubber crosses, what fails slants heavy, what is not known lies flat, what is outside slants thin. */
function patternText(name: Pattern, id: string): string {
  const tile = (size: number, turn: number, inner: string) =>
    `<pattern id="${id}" width="${size}" height="${size}" patternUnits="userSpaceOnUse"${turn === 0 ? "" : ` patternTransform="rotate(${turn})"`}>${inner}</pattern>`;
  const ground = (size: number, cls: string) => `<rect class="${cls}" width="${size}" height="${size}"/>`;
  switch (name) {
    case "hatch":
      return tile(5, 45, `${ground(5, "of-body")}<path class="hatching" d="M0 0V5"/>`);
    case "counterhatch":
      return tile(4, -45, `${ground(4, "of-body")}<path class="hatching" d="M0 0V4"/>`);
    case "rubber":
      return tile(4, 0, `${ground(4, "of-body")}<path class="hatching fine" d="M0 0L4 4M4 0L0 4"/>`);
    case "fails":
      return tile(4.5, 45, `${ground(4.5, "of-failbg")}<path class="fail-hatching" d="M0 0V4.5"/>`);
    case "unknown":
      return tile(3, 0, `<rect class="of-ask" width="3" height="1.5"/>`);
    case "grid":
      return tile(20, 0, `<path class="grid" d="M0 .5H20M.5 0V20"/>`);
    case "outside":
      return tile(6, 45, `<path class="thin-hatching" d="M0 0V6"/>`);
  }
}
