import type { Card, CardPicture } from "@tapeworthy/core";
import { arrow } from "./dimension.ts";
import { box, circle, type Drawing, line, type Point, path, type Shape, strokes, text } from "./scene.ts";
import { textWidth } from "./text-width.ts";

/** A thing in the picture with its name: where it is, and what it is called beside it. */
interface Named {
  readonly at: Point;
  readonly words: string;
}
interface Sketch {
  readonly shapes: readonly Shape[];
  readonly names: readonly Named[];
}
/** Paper of a sketch before it is set to a width. */
const wide = 190;
const size = 10.5;
const lineHeight = 12.5;

/**
 * The set-up of a card. The sketch stands at the left and grows with the room; names stand in a column at its right, each tied to its thing by a
 * leader, so none can hide another. Not to scale.
 */
export function cardPicture(card: Card, { width }: { readonly width: number }): Drawing {
  const column = Math.max(96, Math.min(190, width * 0.36));
  const k = Math.min(1.35, (width - column - 14) / wide);
  const draw = sketches[card.method.picture];
  const [top, foot] = reach(draw(card, (p) => p, 1).shapes);
  const at = ([x, y]: Point): Point => [4 + k * x, 12 + k * (y - top)];
  const { shapes, names } = draw(card, at, k);
  const left = 4 + k * wide + 10;
  const order = [...names].sort((a, b) => a.at[1] - b.at[1]);
  const lines = order.map(({ words }) => broken(words, width - left - 2));
  const tall = lines.reduce((sum, l) => sum + l.length * lineHeight + 6, 0);
  const height = Math.max(k * (foot - top) + 42, tall + 26);
  const labels: Shape[] = [];
  let free = 12;
  let rest = tall;
  order.forEach(({ at: p }, i) => {
    const mine = lines[i]!;
    const need = mine.length * lineHeight + 6;
    const [tx, ty] = at(p);
    // As near to its thing as those above and below leave room.
    const y = Math.max(free, Math.min(ty - (mine.length * lineHeight) / 2 + 9, height - 16 - rest + 10));
    labels.push(
      line([tx, ty], [left - 3, y - 3.5], "leader"),
      circle([tx, ty], 1.4, "of-ink3"),
      ...mine.map((words, n) => text([left, y + n * lineHeight], words, "dark")),
    );
    free = y + need;
    rest -= need;
  });
  labels.push(text([4, height - 5], "Not to scale.", "quiet"));
  return {
    title: `Set-up: ${card.method.title}`,
    desc: `${spoken[card.method.picture]} Named from above: ${order.map((n) => n.words).join("; ")}.`,
    width,
    height,
    shapes: [box([0, 0], width, height, "ground"), ...shapes, ...labels],
  };
}
/** Highest and lowest point of shapes. */
function reach(shapes: readonly Shape[]): readonly [top: number, foot: number] {
  const ys = shapes.flatMap((s): number[] => {
    if (s.kind === "circle") return [s.at[1] - s.r, s.at[1] + s.r];
    if (s.kind === "box") return [s.at[1], s.at[1] + s.height];
    if (s.kind !== "path") return [];
    return s.d.flatMap((d) => (d[0] === "Z" ? [] : d[0] === "C" ? [d[2], d[4], d[6]] : [d[2]]));
  });
  return [Math.min(...ys), Math.max(...ys)];
}
/** Words in lines no wider than the room. */
function broken(words: string, room: number): string[] {
  const out: string[] = [];
  let now = "";
  for (const word of words.split(" ")) {
    const more = now === "" ? word : `${now} ${word}`;
    if (now !== "" && textWidth(more, size) > room) {
      out.push(now);
      now = word;
    } else now = more;
  }
  return [...out, now];
}

const spoken: Readonly<Record<CardPicture, string>> = {
  capstan: "A strip lies half round a fixed pin, a weight on one end, a scale on the other.",
  tilt: "A board raised at one end, a sledge on it.",
  peel: "A tape stuck to a slide; its film is folded back and pulled by a scale.",
  pull: "A strip is pulled level by a scale out of what it runs through.",
  bars: "A strip is held down on a table's edge; its free end hangs under a small weight.",
  nip: "Two rollers on a carrier with a pivot; a strip of paper between them, a scale on the carrier.",
  bend: "A strip on two supports, a weight on its middle.",
  coil: "A curled strip on a table, a rule across its chord.",
  hole: "A carrier hangs by one hole on a pin in a clamp and is pulled downwards.",
  rock: "A wheel with a long pointer rocks before a scale of lines while its mate is held.",
  feeler: "A square stands against a reference face; a feeler gauge goes under its blade.",
  drum: "A shaft with a drum and a weight on its thread; a scale pulls on a lever.",
  thermometer: "A sensor fixed to the piece, its reading beside it.",
  probe: "A supply feeds a motor; a probe lies round one lead.",
  camera: "A camera stands straight above film and rule.",
  calipers: "Calipers close on a piece.",
};

type At = (p: Point) => Point;
const poly = (at: At, points: readonly Point[], cls: string, closed = false): Shape =>
  path(strokes(points.map(at), closed), cls);
const rect = (at: At, k: number, [x, y]: Point, w: number, h: number, cls: string, hatched = false): Shape =>
  box(at([x, y]), w * k, h * k, cls, hatched ? { fill: "hatch" } : {});
const weight = (at: At, [x, y]: Point, w = 30): Shape[] => [
  poly(
    at,
    [
      [x, y - 8],
      [x, y],
    ],
    "thin",
  ),
  poly(
    at,
    [
      [x - w / 2 + 3, y],
      [x + w / 2 - 3, y],
      [x + w / 2, y + 24],
      [x - w / 2, y + 24],
    ],
    "outline of-body",
    true,
  ),
];
/** A hanging scale: hook, body, window. */
const scaleAt = (at: At, k: number, [x, y]: Point): Shape[] => [
  poly(
    at,
    [
      [x, y - 8],
      [x, y],
    ],
    "outline",
  ),
  rect(at, k, [x - 11, y], 22, 36, "outline of-paper"),
  rect(at, k, [x - 8, y + 5], 16, 9, "thin"),
];
/** The same lying, its hook to the left. */
const scaleLying = (at: At, k: number, [x, y]: Point): Shape[] => [
  poly(
    at,
    [
      [x - 8, y],
      [x, y],
    ],
    "outline",
  ),
  rect(at, k, [x, y - 10], 36, 20, "outline of-paper"),
  rect(at, k, [x + 6, y - 5], 16, 9, "thin"),
];
const ground = (at: At, k: number, x: number, y: number, w: number): Shape[] => [
  rect(at, k, [x, y], w, 8, "", true),
  poly(
    at,
    [
      [x, y],
      [x + w, y],
    ],
    "outline",
  ),
];
const show = (card: Card, symbol: string): string => {
  const s = card.method.settings.find((one) => one.symbol === symbol);
  return s ? ` ${+s.usual.toPrecision(3)} ${s.unit === "deg" ? "°" : s.unit}`.replace(" °", "°") : "";
};

const sketches: Readonly<Record<CardPicture, (card: Card, at: At, k: number) => Sketch>> = {
  capstan: (card, at, k) => {
    const [cx, cy, r] = [92, 52, 24];
    const [lx, ly] = at([cx - r, cy]);
    const [rx] = at([cx + r, cy]);
    return {
      shapes: [
        rect(at, k, [4, 84], 34, 10, "", true),
        poly(
          at,
          [
            [14, 84],
            [14, 40],
            [30, 40],
            [30, 84],
          ],
          "outline of-body",
          true,
        ),
        poly(
          at,
          [
            [30, cy - 6],
            [cx - r, cy - 6],
          ],
          "thin",
        ),
        poly(
          at,
          [
            [30, cy + 6],
            [cx - r, cy + 6],
          ],
          "thin",
        ),
        circle(at([cx, cy]), (r - 2) * k, "outline", { fill: "hatch" }),
        poly(
          at,
          [
            [cx - 36, cy],
            [cx + 36, cy],
          ],
          "axis",
        ),
        poly(
          at,
          [
            [cx, cy - 36],
            [cx, cy + 36],
          ],
          "axis",
        ),
        path(
          [
            ["M", lx, at([0, 118])[1]],
            ["L", lx, ly],
            ["A", rx, ly, r * k, false, true],
            ["L", rx, at([0, 106])[1]],
          ],
          "film-line",
        ),
        ...weight(at, [cx - r, 122]),
        ...scaleAt(at, k, [cx + r, 112]),
        poly(
          at,
          [
            [cx + r + 22, 112],
            [cx + r + 22, 146],
          ],
          "outline",
        ),
        arrow(at([cx + r + 22, 148]), Math.PI / 2),
      ],
      names: [
        { at: [cx + 12, cy - 14], words: "pin, held from behind" },
        { at: [cx + 17, cy - 17], words: `strip, wrapped${show(card, "theta")}` },
        { at: [22, 60], words: "vice" },
        { at: [cx + r + 22, 124], words: "up: pull; down: let it creep back" },
        { at: [cx + r + 6, 132], words: "scale" },
        { at: [cx - r + 8, 138], words: "weight, both ends plumb" },
      ],
    };
  },
  tilt: (_card, at, k) => ({
    shapes: [
      ...ground(at, k, 4, 140, 178),
      poly(
        at,
        [
          [14, 138],
          [172, 72],
          [174, 78],
          [16, 144],
        ],
        "outline of-body",
        true,
      ),
      poly(
        at,
        [
          [80, 110],
          [78, 94],
          [106, 82],
          [112, 97],
        ],
        "outline of-paper",
        true,
      ),
      poly(
        at,
        [
          [80, 110],
          [112, 97],
        ],
        "film-line",
      ),
      poly(
        at,
        [
          [168, 78],
          [168, 140],
        ],
        "dim",
      ),
      arrow(at([168, 76]), -Math.PI / 2),
      arrow(at([168, 140]), Math.PI / 2),
      poly(
        at,
        [
          [18, 156],
          [168, 156],
        ],
        "dim",
      ),
      arrow(at([18, 156]), Math.PI),
      arrow(at([168, 156]), 0),
    ],
    names: [
      { at: [94, 90], words: "sledge, 50 g" },
      { at: [108, 99], words: "pieces that rub, face down" },
      { at: [140, 86], words: "counter-face; tap it lightly" },
      { at: [168, 112], words: "height h" },
      { at: [120, 156], words: "level distance l" },
    ],
  }),
  peel: (card, at, k) => ({
    shapes: [
      ...ground(at, k, 4, 132, 178),
      rect(at, k, [10, 122], 130, 9, "outline of-body"),
      poly(
        at,
        [
          [14, 120],
          [136, 120],
        ],
        "heavy",
      ),
      poly(
        at,
        [
          [14, 117],
          [74, 117],
        ],
        "film-line",
      ),
      poly(
        at,
        [
          [74, 117],
          [77, 113],
          [74, 109],
          [30, 102],
        ],
        "film-line",
      ),
      poly(
        at,
        [
          [30, 102],
          [22, 100],
        ],
        "outline",
      ),
      rect(at, k, [2, 88], 22, 20, "outline of-paper"),
      rect(at, k, [5, 92], 14, 8, "thin"),
      poly(
        at,
        [
          [146, 127],
          [176, 127],
        ],
        "outline",
      ),
      arrow(at([178, 127]), 0),
    ],
    names: [
      { at: [14, 90], words: "scale, held still" },
      { at: [52, 105], words: `film, folded back${show(card, "theta")}` },
      { at: [78, 113], words: "peel line" },
      { at: [112, 120], words: "tape, stuck down" },
      { at: [166, 127], words: "slide, drawn evenly" },
    ],
  }),
  pull: (_card, at, k) => ({
    shapes: [
      ...ground(at, k, 4, 110, 104),
      rect(at, k, [10, 74], 84, 12, "outline", true),
      poly(
        at,
        [
          [10, 92],
          [124, 92],
        ],
        "heavy",
      ),
      rect(at, k, [10, 98], 84, 12, "outline", true),
      ...scaleLying(at, k, [132, 92]),
      poly(
        at,
        [
          [134, 122],
          [168, 122],
        ],
        "outline",
      ),
      arrow(at([170, 122]), 0),
    ],
    names: [
      { at: [50, 80], words: "what it runs through, as in the unit" },
      { at: [112, 92], words: "what is pulled" },
      { at: [156, 88], words: "scale, in line" },
      { at: [160, 122], words: "slow and even; read while it moves" },
    ],
  }),
  bars: (card, at, k) => {
    const [fx, fy] = at([84, 66]);
    return {
      shapes: [
        rect(at, k, [4, 68], 80, 70, "", true),
        poly(
          at,
          [
            [4, 68],
            [84, 68],
            [84, 138],
          ],
          "outline",
        ),
        rect(at, k, [40, 46], 44, 18, "outline of-body"),
        path(
          [
            ["M", ...at([8, 66])],
            ["L", fx, fy],
            ["C", ...at([116, 66]), ...at([144, 76]), ...at([160, 92])],
          ],
          "heavy",
        ),
        poly(
          at,
          [
            [84, 66],
            [170, 66],
          ],
          "phantom",
        ),
        ...weight(at, [158, 104], 20),
        poly(
          at,
          [
            [176, 68],
            [176, 92],
          ],
          "dim",
        ),
        arrow(at([176, 92]), Math.PI / 2),
      ],
      names: [
        { at: [62, 54], words: "block, to the table's very edge" },
        { at: [116, 71], words: `free length${show(card, "l")}` },
        { at: [176, 80], words: "how far the end goes down" },
        { at: [158, 116], words: "clips or a small weight" },
      ],
    };
  },
  nip: (card, at, k) => ({
    shapes: [
      ...ground(at, k, 4, 140, 150),
      circle(at([100, 114]), 24 * k, "outline of-body"),
      circle(at([100, 66]), 24 * k, "outline", { fill: "rubber" }),
      circle(at([100, 114]), 2 * k, "of-ink"),
      circle(at([100, 66]), 2 * k, "of-ink"),
      poly(
        at,
        [
          [40, 66],
          [150, 66],
        ],
        "steel-line",
      ),
      circle(at([40, 66]), 4 * k, "outline of-paper"),
      poly(
        at,
        [
          [62, 90],
          [140, 90],
        ],
        "film-line",
      ),
      poly(
        at,
        [
          [150, 66],
          [150, 46],
        ],
        "outline",
      ),
      rect(at, k, [139, 8], 22, 38, "outline of-paper"),
      rect(at, k, [142, 13], 16, 9, "thin"),
    ],
    names: [
      { at: [156, 34], words: "scale, or a known load" },
      { at: [146, 66], words: `carrier${show(card, "l_1") ? `, arm${show(card, "l_1")}` : ""}` },
      { at: [112, 76], words: "upper roller" },
      { at: [136, 90], words: "strip: tug it lightly" },
      { at: [112, 122], words: "lower roller, held" },
      { at: [40, 66], words: "pivot" },
    ],
  }),
  bend: (card, at, k) => ({
    shapes: [
      ...ground(at, k, 4, 130, 170),
      poly(
        at,
        [
          [28, 130],
          [34, 88],
          [40, 130],
        ],
        "outline of-body",
        true,
      ),
      poly(
        at,
        [
          [138, 130],
          [144, 88],
          [150, 130],
        ],
        "outline of-body",
        true,
      ),
      path(
        [
          ["M", ...at([16, 82])],
          ["C", ...at([60, 92]), ...at([118, 92]), ...at([162, 82])],
        ],
        "heavy",
      ),
      poly(
        at,
        [
          [16, 85],
          [162, 85],
        ],
        "phantom",
      ),
      ...weight(at, [89, 98], 24),
      poly(
        at,
        [
          [34, 146],
          [144, 146],
        ],
        "dim",
      ),
      arrow(at([34, 146]), Math.PI),
      arrow(at([144, 146]), 0),
      poly(
        at,
        [
          [89, 52],
          [89, 84],
        ],
        "thin",
      ),
      rect(at, k, [80, 28], 18, 24, "outline of-paper"),
    ],
    names: [
      { at: [89, 36], words: "gauge, or what reads the force" },
      { at: [128, 87], words: "strip or bar" },
      { at: [98, 112], words: "weight on the middle" },
      { at: [120, 146], words: `supports apart${show(card, "L")}` },
    ],
  }),
  coil: (card, at, k) => ({
    shapes: [
      ...ground(at, k, 4, 140, 178),
      path(
        [
          ["M", ...at([30, 120])],
          ["A", ...at([152, 120]), 61.1 * k, false, true],
        ],
        "heavy",
      ),
      poly(
        at,
        [
          [22, 120],
          [160, 120],
        ],
        "steel-line",
      ),
      poly(
        at,
        [
          [91, 62],
          [91, 120],
        ],
        "dim",
      ),
      arrow(at([91, 62]), -Math.PI / 2),
      arrow(at([91, 120]), Math.PI / 2),
      rect(at, k, [18, 122], 146, 10, "thin of-paper"),
    ],
    names: [
      { at: [128, 74.4], words: "strip, on its edge, lying free" },
      { at: [91, 92], words: "rise" },
      { at: [140, 120], words: `chord${show(card, "c")}` },
      { at: [150, 127], words: "rule or straightedge" },
    ],
  }),
  hole: (card, at, k) => ({
    shapes: [
      rect(at, k, [20, 14], 140, 16, "outline", true),
      rect(at, k, [70, 40], 44, 84, "carrier-cut"),
      circle(at([92, 52]), 6 * k, "outline of-paper"),
      circle(at([92, 70]), 6 * k, "thin of-paper"),
      circle(at([92, 88]), 6 * k, "thin of-paper"),
      poly(
        at,
        [
          [84, 30],
          [84, 49],
          [100, 49],
          [100, 30],
        ],
        "outline",
      ),
      circle(at([92, 50]), 4.5 * k, "of-steel"),
      rect(at, k, [64, 112], 56, 14, "outline of-body"),
      poly(
        at,
        [
          [92, 126],
          [92, 150],
        ],
        "outline",
      ),
      arrow(at([92, 158]), Math.PI / 2),
    ],
    names: [
      { at: [140, 22], words: "clamp" },
      { at: [94, 50], words: `pin${show(card, "d")} in one hole` },
      { at: [108, 82], words: `carrier${show(card, "T")}` },
      { at: [114, 119], words: "two plates that hold it flat" },
      { at: [92, 144], words: "pull, 50 g more each time" },
    ],
  }),
  rock: (card, at, k) => {
    const teeth = Array.from({ length: 16 }, (_, i): Shape => {
      const a = (i / 16) * 2 * Math.PI;
      const p = (r: number): Point => [66 + r * Math.cos(a), 104 + r * Math.sin(a)];
      return poly(at, [p(30), p(36)], "outline");
    });
    return {
      shapes: [
        circle(at([66, 104]), 30 * k, "outline of-body"),
        ...teeth,
        circle(at([66, 104]), 3 * k, "of-ink"),
        rect(at, k, [10, 142], 112, 8, "", true),
        poly(
          at,
          [
            [58, 142],
            [66, 139],
            [74, 142],
          ],
          "outline",
        ),
        poly(
          at,
          [
            [66, 104],
            [152, 40],
          ],
          "steel-line",
        ),
        poly(
          at,
          [
            [66, 104],
            [160, 56],
          ],
          "hidden-line",
        ),
        path(
          [
            ["M", ...at([142, 26])],
            ["A", ...at([172, 66]), 112 * k, false, true],
          ],
          "outline",
        ),
        ...[0, 1, 2, 3, 4].map((i) =>
          poly(
            at,
            [
              [146 + i * 5.6, 30 + i * 8],
              [151 + i * 5.4, 26 + i * 8],
            ],
            "thin",
          ),
        ),
      ],
      names: [
        { at: [164, 50], words: "lines to read the pointer by" },
        { at: [126, 59], words: `pointer${show(card, "l")}, pressed both ways` },
        { at: [84, 118], words: `wheel${show(card, "r") ? `, pitch line at${show(card, "r")}` : ""}` },
        { at: [70, 141], words: "the other side, held fast" },
      ],
    };
  },
  feeler: (card, at, k) => ({
    shapes: [
      ...ground(at, k, 4, 134, 178),
      rect(at, k, [14, 46], 20, 88, "outline of-body"),
      rect(at, k, [34, 46], 118, 12, "outline of-body"),
      poly(
        at,
        [
          [34, 66],
          [152, 62],
          [152, 82],
          [34, 82],
        ],
        "outline of-paper",
        true,
      ),
      poly(
        at,
        [
          [128, 60.5],
          [180, 60.5],
        ],
        "heavy",
      ),
      poly(
        at,
        [
          [34, 98],
          [140, 98],
        ],
        "dim",
      ),
      arrow(at([34, 98]), Math.PI),
      arrow(at([140, 98]), 0),
    ],
    names: [
      { at: [96, 52], words: "square's blade" },
      { at: [172, 60.5], words: "thickest feeler that goes in" },
      { at: [120, 74], words: "guide" },
      { at: [116, 98], words: `from the heel${show(card, "l")}` },
      { at: [22, 110], words: "stock, on the reference face" },
    ],
  }),
  drum: (card, at, k) => ({
    shapes: [
      poly(
        at,
        [
          [20, 70],
          [160, 70],
        ],
        "axis",
      ),
      rect(at, k, [24, 52], 12, 36, "", true),
      rect(at, k, [24, 52], 12, 36, "outline"),
      rect(at, k, [138, 52], 12, 36, "", true),
      rect(at, k, [138, 52], 12, 36, "outline"),
      rect(at, k, [12, 67], 156, 6, "outline of-paper"),
      rect(at, k, [52, 54], 22, 32, "outline of-body"),
      poly(
        at,
        [
          [60, 54],
          [60, 86],
        ],
        "thin",
      ),
      poly(
        at,
        [
          [66, 54],
          [66, 86],
        ],
        "thin",
      ),
      poly(
        at,
        [
          [74, 70],
          [74, 112],
        ],
        "thin",
      ),
      ...weight(at, [74, 120]),
      rect(at, k, [102, 40], 20, 60, "outline of-body"),
      poly(
        at,
        [
          [122, 72],
          [122, 112],
        ],
        "thin",
      ),
      ...scaleAt(at, k, [122, 120]),
    ],
    names: [
      { at: [116, 46], words: "second drum, or a lever" },
      { at: [144, 60], words: "bush" },
      { at: [66, 62], words: `drum${show(card, "r_d") || show(card, "r_1") || show(card, "r")}` },
      { at: [130, 136], words: "scale or second weight" },
      { at: [80, 136], words: "weight that just keeps it turning" },
    ],
  }),
  thermometer: (_card, at, k) => ({
    shapes: [
      ...ground(at, k, 4, 134, 178),
      rect(at, k, [24, 74], 90, 60, "outline of-body"),
      circle(at([96, 78]), 5 * k, "outline of-ask"),
      path(
        [
          ["M", ...at([96, 78])],
          ["C", ...at([120, 40]), ...at([130, 96]), ...at([146, 66])],
        ],
        "thin",
      ),
      rect(at, k, [138, 34], 38, 32, "outline of-paper"),
      rect(at, k, [143, 40], 28, 12, "thin"),
    ],
    names: [
      { at: [156, 46], words: "reading, once it rests" },
      { at: [96, 78], words: "sensor, pressed or stuck on" },
      { at: [60, 104], words: "what gets warm" },
    ],
  }),
  probe: (_card, at, k) => ({
    shapes: [
      rect(at, k, [8, 40], 50, 60, "outline of-body"),
      rect(at, k, [14, 48], 38, 14, "thin of-paper"),
      poly(
        at,
        [
          [58, 82],
          [136, 82],
        ],
        "steel-line",
      ),
      poly(
        at,
        [
          [58, 94],
          [136, 94],
        ],
        "thin",
      ),
      circle(at([158, 88]), 22 * k, "outline of-body"),
      circle(at([158, 88]), 4 * k, "of-ink"),
      path(
        [
          ["M", ...at([88, 82])],
          ["A", ...at([108, 82]), 10 * k, true, true],
        ],
        "outline",
      ),
      path(
        [
          ["M", ...at([108, 82])],
          ["A", ...at([88, 82]), 10 * k, true, true],
        ],
        "outline",
      ),
      poly(
        at,
        [
          [98, 72],
          [98, 36],
        ],
        "outline",
      ),
      rect(at, k, [84, 12], 28, 24, "outline of-paper"),
      rect(at, k, [88, 16], 20, 8, "thin"),
    ],
    names: [
      { at: [104, 30], words: "meter or scope" },
      { at: [44, 56], words: "supply, its current limited" },
      { at: [106, 76], words: "probe round one lead" },
      { at: [164, 96], words: "motor, cool; shaft free or held" },
    ],
  }),
  camera: (card, at, k) => ({
    shapes: [
      ...ground(at, k, 4, 138, 178),
      rect(at, k, [70, 14], 40, 24, "outline of-body"),
      rect(at, k, [82, 38], 16, 8, "outline of-paper"),
      poly(
        at,
        [
          [90, 48],
          [46, 126],
        ],
        "hidden-line",
      ),
      poly(
        at,
        [
          [90, 48],
          [134, 126],
        ],
        "hidden-line",
      ),
      poly(
        at,
        [
          [26, 134],
          [154, 134],
        ],
        "film-line",
      ),
      rect(at, k, [56, 124], 68, 6, "outline of-paper"),
      ...Array.from({ length: 10 }, (_, i) =>
        poly(
          at,
          [
            [60 + i * 6.6, 124],
            [60 + i * 6.6, 127],
          ],
          "thin",
        ),
      ),
      poly(
        at,
        [
          [162, 26],
          [162, 138],
        ],
        "outline",
      ),
      poly(
        at,
        [
          [162, 26],
          [110, 26],
        ],
        "outline",
      ),
    ],
    names: [
      { at: [96, 22], words: "camera, straight above" },
      { at: [162, 60], words: "rest" },
      { at: [118, 126], words: `rule in the same plane${show(card, "L")}` },
      { at: [144, 134], words: "what is looked at" },
    ],
  }),
  calipers: (_card, at, k) => ({
    shapes: [
      rect(at, k, [10, 40], 170, 14, "outline of-body"),
      poly(
        at,
        [
          [14, 54],
          [14, 118],
          [44, 118],
          [40, 54],
        ],
        "outline of-paper",
        true,
      ),
      rect(at, k, [104, 32], 50, 30, "outline of-paper"),
      rect(at, k, [112, 38], 32, 12, "thin"),
      poly(
        at,
        [
          [104, 62],
          [100, 118],
          [130, 118],
          [130, 62],
        ],
        "outline of-paper",
        true,
      ),
      rect(at, k, [44, 86], 56, 24, "outline", true),
    ],
    names: [
      { at: [136, 44], words: "reading" },
      { at: [122, 76], words: "jaw, closed lightly" },
      { at: [84, 98], words: "piece, taken out between readings" },
    ],
  }),
};
