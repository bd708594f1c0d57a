import { figures } from "@tapeworthy/core";
import { aloud, capital, counted, list } from "./say.ts";
import { box, circle, type Drawing, group, line, type Shape, text } from "./scene.ts";
import { cutTo, textWidth } from "./text-width.ts";

/** What one input makes of the spread: its total share of the variance, from 0 to 1. */
export interface PickShare {
  readonly key: string;
  readonly name: string;
  readonly share: number;
  /** What it differs between: every index of a run, reels, or units. */
  readonly level: "index" | "reel" | "unit";
  /** Which way it acts at the pick. */
  readonly acts: "x" | "y" | "x, y" | "turn" | "z";
  /** A good part of its share it makes only together with others, so that shares add up to more than the whole. */
  readonly together?: boolean;
  /** Calibration takes it out. */
  readonly trims?: boolean;
}
export interface PickSharesInput {
  readonly unit: string;
  readonly tape: string;
  /** What is shared out: "the radius, squared". */
  readonly of: string;
  readonly rows: readonly PickShare[];
}
const levelWords = { index: "each index", reel: "each reel", unit: "each unit" } as const;
const levels = ["index", "reel", "unit"] as const;
const mostRows = 10;

/** A part of a whole in two figures, never all or nothing where it is not. A sampled share may come out a little below nought. */
export function sayPart(share: number): string {
  if (Number.isNaN(share)) return "no number";
  if (share <= 0) return "0 %";
  if (share < 0.001) return "under 0.1 %";
  return share > 0.995 && share < 1 - 1e-12 ? "over 99 %" : `${figures(share * 100)} %`;
}

/** Who makes the spread, largest first: bars filled by what they differ between. */
export function pickShares(
  input: PickSharesInput,
  {
    width,
    height = 0,
    link,
  }: { readonly width: number; readonly height?: number; readonly link?: (key: string) => string },
): Drawing {
  const rows = sorted(input.rows);
  const kept = rows.slice(0, rows.length > mostRows + 1 ? mostRows : rows.length);
  const rest = rows.slice(kept.length);
  const head = 46;
  const legend = legendOf(input, width);
  const most = Math.max(0, ...kept.map(({ share }) => clamped(share))) || 1;
  const fixedRoom = head + (rest.length > 0 ? 20 : 0) + legend.height + 14;
  const step = Math.max(27, Math.min(38, (height - fixedRoom) / (kept.length || 1)));
  const tall = Math.max(height, fixedRoom + step * Math.max(1, kept.length));
  const [x0, x1] = [10, width - 10];
  const shareColumn = textWidth("under 0.1 %", 10.5, true) + 2;
  const waysColumn = textWidth("x, y", 10.5) + 14;
  const shapes: Shape[] = [
    box([0, 0], width, tall, "ground"),
    text([x0, 17], "Who makes the spread", "t1 strong"),
    text([x0, 31], cutTo(`shares of ${input.of}`, 10.5, width - 20), "quiet"),
  ];
  if (kept.length === 0) shapes.push(text([x0, head + 14], "nothing is known to scatter", "dark"));
  kept.forEach((one, i) => {
    const y = head + i * step;
    const said = sayPart(one.share);
    const mark = x1 - shareColumn - 14;
    const room = mark - 12 - waysColumn - x0;
    const long = (x1 - x0) * (clamped(one.share) / most);
    const at = y + 15;
    const shapesOfRow: Shape[] = [
      text([x0, y + 10], cutTo(one.name, 10.5, room), "dark"),
      text([mark - 12, y + 10], one.acts, "", { anchor: "end" }),
      ...(one.together ? togetherMark(mark, y + 6.5) : []),
      text([x1, y + 10], said, "strong", { anchor: "end" }),
      line([x0, at], [x0, at + 8], "faint"),
      ...(long > 0 ? barOf(one, x0, at, long) : []),
    ];
    shapes.push(
      group(
        [...(link ? [box([x0, y - 2], x1 - x0, step - 1, "clear")] : []), ...shapesOfRow],
        link
          ? { link: { href: link(one.key), label: spoken(one) }, data: { share: one.key } }
          : { data: { share: one.key } },
      ),
    );
  });
  let y = head + kept.length * step;
  if (rest.length > 0) {
    shapes.push(text([x0, y + 12], cutTo(restWords(rest), 10.5, width - 20), "quiet"));
    y += 20;
  }
  shapes.push(...legend.at(tall - legend.height - 6));
  return {
    title: `Who makes the spread at the pick of ${input.unit} with ${input.tape}`,
    desc: pickSharesWords(input),
    width,
    height: tall,
    shapes,
  };
}

function barOf({ level, key }: PickShare, x: number, y: number, long: number): Shape[] {
  const data = { bar: key, level };
  if (level === "index") return [box([x, y], long, 8, "of-ink2", { data })];
  const rim = box([x, y], long, 8, "thin", { data });
  return level === "reel" ? [box([x, y], long, 8, "", { fill: "outside" }), rim] : [rim];
}
/** Two rings that overlap: a part of the share belongs to no one alone. */
const togetherMark = (x: number, y: number): Shape[] => [
  circle([x - 2.4, y], 4, "thin", { data: { mark: "together" } }),
  circle([x + 2.4, y], 4, "thin"),
];

/** The key: only what occurs, in as many lines as it needs. */
function legendOf({ rows }: PickSharesInput, width: number): { height: number; at: (y: number) => Shape[] } {
  const entries: { words: string; draw: (x: number, y: number) => Shape[] }[] = levels
    .filter((level) => rows.some((r) => r.level === level))
    .map((level) => ({
      words: `${levelWords[level]}${rows.some((r) => r.level === level && r.trims) ? ", trims out" : ""}`,
      draw: (x, y) => barOf({ level, key: "", name: "", share: 0, acts: "x" }, x, y - 8, 14),
    }));
  if (rows.some((r) => r.together))
    entries.push({ words: "acts together with others", draw: (x, y) => togetherMark(x + 7, y - 4) });
  const placed: { x: number; row: number; entry: (typeof entries)[number] }[] = [];
  let [x, row] = [10, 0];
  for (const entry of entries) {
    const wide = 20 + textWidth(entry.words, 10.5);
    if (x > 10 && x + wide > width - 10) {
      x = 10;
      row++;
    }
    placed.push({ x, row, entry });
    x += wide + 16;
  }
  return {
    height: entries.length === 0 ? 0 : (row + 1) * 15,
    at: (y) =>
      placed.flatMap(({ x, row, entry }) => [
        ...entry.draw(x, y + row * 15 + 10),
        text([x + 20, y + row * 15 + 10], entry.words, ""),
      ]),
  };
}

const clamped = (share: number): number => (share > 0 ? Math.min(1e3, share) : 0);
const sorted = (rows: readonly PickShare[]): PickShare[] =>
  [...rows].sort((a, b) => clamped(b.share) - clamped(a.share) || (a.key < b.key ? -1 : a.key > b.key ? 1 : 0));
const restWords = (rest: readonly PickShare[]): string =>
  `${counted(rest.length, "other")}, none above ${sayPart(Math.max(...rest.map((r) => clamped(r.share))))}`;
const actsWords = { x: "along", y: "across", "x, y": "along and across", turn: "turning", z: "up and down" } as const;
const spoken = (one: PickShare): string =>
  `${one.name}, ${sayPart(one.share)}, ${actsWords[one.acts]}, ${levelWords[one.level]}${one.trims ? ", trims out" : ""}${one.together ? ", acts together with others" : ""}`;

/** The shares told, largest first, and what they add up to where that is not the whole. */
export function pickSharesWords(input: PickSharesInput): string {
  const rows = sorted(input.rows);
  if (rows.length === 0) return "Nothing is known to scatter at the pick.";
  const kept = rows.slice(0, rows.length > mostRows + 1 ? mostRows : rows.length);
  const rest = rows.slice(kept.length);
  const out = [
    `Shares of ${input.of}, largest first: ${kept.map(spoken).join("; ")}.`,
    ...(rest.length > 0 ? [`${capital(restWords(rest))}.`] : []),
  ];
  const sum = rows.reduce((all, r) => all + clamped(r.share), 0);
  const together = rows.filter((r) => r.together);
  if (together.length > 0 && sum > 1.005)
    out.push(`They add up to ${sayPart(sum)}, because ${list(together.map((r) => r.name))} act together with others.`);
  return aloud(out.join(" "));
}
