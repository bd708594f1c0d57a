/**
 * One unknown on its axis: the guess in stripes, tipping values with the side on which a tape stops, and what was measured. A card to be filled in and a
 * result that came back are drawn by this one function, so that they are read the same way.
 */
import { endsOfGuess, figures, showIn, unitOf } from "@tapeworthy/core";
import { sayAddress } from "./say.ts";
import { box, circle, line, type Point, path, type Shape, strokes, text } from "./scene.ts";
import { cutTo, textWidth } from "./text-width.ts";
import { ticks } from "./ticks.ts";

/** Where a tape tips, SI; `side` is where it stops, null where that is not known. */
export interface Tip {
  readonly at: number;
  readonly tape: string;
  readonly side: "above" | "below" | null;
}
/** What came out, SI. */
export interface MeasuredOnAxis {
  readonly value: number;
  /** Hold the middle in 95 % of belief. */
  readonly low: number;
  readonly high: number;
  /** Of the next reel or unit about the middle: a log sd where `log`, else SI. */
  readonly scatter?: { readonly sd: number; readonly log: boolean; readonly per: "reel" | "unit" };
}
export interface UnknownOnAxis {
  readonly address: string;
  readonly shownIn: string;
  readonly guess: { readonly low: number; readonly high: number };
  readonly tips: readonly Tip[];
  readonly measured?: MeasuredOnAxis;
}
/** Tapes that tip at one place on one side. */
export interface TipGroup {
  readonly at: number;
  readonly side: Tip["side"];
  readonly tapes: readonly string[];
}
export function tipGroups(tips: readonly Tip[]): TipGroup[] {
  const groups: { at: number; side: Tip["side"]; tapes: string[] }[] = [];
  for (const { at, side, tape } of tips) {
    const same = groups.find((g) => g.side === side && Math.abs(g.at - at) <= 1e-3 * Math.abs(at));
    if (same) same.tapes.push(tape);
    else groups.push({ at, side, tapes: [tape] });
  }
  // Words stand beside their lines: what stops above from the left, then what stops below from the right, so that no line crosses another's words.
  const rank = (g: TipGroup): number => (g.side === "below" ? 1 : 0);
  return groups.sort((a, b) => rank(a) - rank(b) || (a.side === "below" ? b.at - a.at : a.at - b.at));
}
/** Words of a group: "radio-44 and 2 more". */
export const sayTapes = (tapes: readonly string[]): string =>
  tapes.length > 2 ? `${tapes[0]} and ${tapes.length - 1} more` : tapes.join(" and ");

export const mostTips = 3;
/** Shapes in a box `width` wide from the top; `height` is what they take. */
export function unknownAxis(
  { shownIn, guess, tips, measured }: Omit<UnknownOnAxis, "address">,
  { width, fine }: { readonly width: number; readonly fine?: boolean },
): { shapes: Shape[]; height: number } {
  const { factor } = unitOf(shownIn);
  const [low, high] = [guess.low / factor, guess.high / factor];
  const groups = tipGroups(tips).slice(0, mostTips);
  const bell = measured?.scatter && bellOf(measured, factor);
  const marks = [
    low,
    high,
    ...groups.map((g) => g.at / factor),
    ...(measured ? [measured.low / factor, measured.high / factor] : []),
    ...(bell ? [bell.low, bell.high] : []),
  ];
  const span = Math.max(...marks) - Math.min(...marks) || Math.abs(low) || 1;
  const from = Math.min(...marks) - span * 0.3;
  const to = Math.max(...marks) + span * 0.3;
  const L = 8;
  const lines = Math.max(0, groups.length - 1);
  const up = bell ? 52 : 18;
  const y = 44 + up + lines * 13;
  const height = y + 38;
  const x = (v: number): number => L + ((v - from) / (to - from)) * (width - 2 * L);
  const shapes: Shape[] = [box([0, 0], width, height, "ground")];
  // Where some tape stops.
  for (const side of ["above", "below"] as const) {
    const ends = groups.filter((g) => g.side === side).map((g) => x(g.at / factor));
    if (ends.length === 0) continue;
    const data = { stops: side };
    shapes.push(
      side === "above"
        ? box([Math.min(...ends), y - up], width - L - Math.min(...ends), up, "", { fill: "fails", data })
        : box([L, y - up], Math.max(...ends) - L, up, "", { fill: "fails", data }),
    );
  }
  shapes.push(
    box([x(low), y - 7], x(high) - x(low), 7, "of-paper"),
    box([x(low), y - 7], x(high) - x(low), 7, "ask-line", { fill: "unknown", data: { guess: "range" } }),
  );
  if (bell) {
    const curve = bell.points.map(([v, p]): Point => [x(v), y - 8 - 32 * p]);
    shapes.push(
      path(strokes([[curve[0]![0], y - 8], ...curve, [curve.at(-1)![0], y - 8]], true), "of-paper softly"),
      path(strokes(curve), "outline", { data: { bell: measured!.scatter!.per } }),
    );
  }
  shapes.push(line([L, y], [width - L, y], "outline"));
  const large = ticks(from, to);
  const fifth = large.length > 1 ? (large[1]! - large[0]!) / 5 : 0;
  // Fine lines to mark a mean by hand.
  if (fine)
    for (let i = Math.ceil(from / fifth); fifth > 0 && i * fifth <= to; i++)
      shapes.push(line([x(i * fifth), y], [x(i * fifth), y + 3], "faint"));
  let free = Number.NEGATIVE_INFINITY;
  for (const v of large) {
    shapes.push(line([x(v), y], [x(v), y + 5], "thin"));
    const words = figures(v, 3)
      .replace(/(\.\d*?)0+$/, "$1")
      .replace(/\.$/, "");
    const half = textWidth(words, 10.5) / 2;
    if (x(v) - half < Math.max(L, free + 6) || x(v) + half > width - L) continue;
    shapes.push(text([x(v), y + 17], words, "", { anchor: "middle" }));
    free = x(v) + half;
  }
  groups.forEach((g, i) => {
    const t = x(g.at / factor);
    const row = groups.length === 1 ? 22 : 12 + 13 * i;
    const top = groups.length === 1 ? y - up - 8 : row - 8;
    shapes.push(line([t, top], [t, y + 8], "fail-line heavy", { data: { tipping: `${t}` } }));
    shapes.push(...tipWords(t, width, L, g, showIn(shownIn, g.at), row, groups.length));
  });
  if (measured) {
    const [a, b, m] = [x(measured.low / factor), x(measured.high / factor), x(measured.value / factor)];
    const at = bell ? y - 8 - 38 : y - 12;
    shapes.push(
      line([a, at], [b, at], "outline"),
      line([a, at - 4], [a, at + 4], "outline"),
      line([b, at - 4], [b, at + 4], "outline"),
      circle([m, at], 3.6, "of-ink", { data: { mean: `${m}` } }),
    );
  }
  return { shapes, height };
}
/** "24 mm feeds" on the kind side and "stops above 0.34" on the other, in two lines where one has no room; of several tips one line each. */
function tipWords(
  t: number,
  width: number,
  L: number,
  { side, tapes }: TipGroup,
  tip: string,
  y: number,
  of: number,
): Shape[] {
  const put = (words: string, cls: string, at: number, toRight: boolean): Shape => {
    const cut = cutTo(words, 10.5, width - 2 * L, true);
    const half = textWidth(cut, 10.5, true);
    const from = toRight ? Math.min(t + 5, width - L - half) : Math.max(t - 5, L + half);
    return text([from, at], cut, cls, { anchor: toRight ? "start" : "end" });
  };
  const right = side !== "below";
  if (of > 1)
    return [put(`${sayTapes(tapes)} ${side ? `stops ${side} ${tip}` : `tips at ${tip}`}`, "is-fail halo", y, right)];
  const stops = side ? `stops ${side} ${tip}` : `tips at ${tip}`;
  const feeds = side ? `${sayTapes(tapes)} ${tapes.length > 1 ? "feed" : "feeds"}` : "";
  return [put(stops, "is-fail halo", y, right), ...(feeds === "" ? [] : [put(feeds, "strong halo", y + 12, !right)])];
}
/** Density of the next reel or unit over its greatest, in the unit shown; it ends where 95 % lie within. */
function bellOf({ value, scatter }: MeasuredOnAxis, factor: number) {
  const { sd, log } = scatter!;
  if (!(sd > 0) || (log && !(value > 0))) return undefined;
  const reach = 2.6;
  const at = (z: number): number => (log ? value * Math.exp(sd * z) : value + sd * z) / factor;
  const points = Array.from({ length: 61 }, (_, i): [number, number] => {
    const z = -reach + (2 * reach * i) / 60;
    // Of a logarithm the density in the value itself falls off by 1/x.
    return [at(z), Math.exp(-0.5 * z * z) * (log ? Math.exp(-sd * z) : 1)];
  });
  const top = Math.max(...points.map(([, p]) => p));
  return {
    points: points.map(([v, p]): readonly [number, number] => [v, p / top]),
    low: at(-endsOfGuess),
    high: at(endsOfGuess),
  };
}
/** "nip friction, N": what the axis counts. */
export function axisName(address: string, shownIn: string): string {
  const unit = shownIn.replace(/^1\//, "/");
  return `${sayAddress(address)}${unit === "" ? "" : `, ${unit}`}`;
}
