import { aloud, capital, counted } from "./say.ts";
import { box, circle, type Drawing, group, line, type Point, path, type Shape, strokes, text } from "./scene.ts";
import { cutTo, textWidth } from "./text-width.ts";

/** One step of the trade: what stands after one dimension more has moved. The first is the file as it is. */
export interface SizeMove {
  readonly key: string;
  readonly name: string;
  /** Wanted cells that do not feed. */
  readonly open: number;
  readonly leastGap: number;
  /** What it costs, in words, where a cost is known. */
  readonly cost?: string;
}
export interface SizeFrontInput {
  readonly unit: string;
  readonly gapIn: string;
  readonly moves: readonly SizeMove[];
  /** How many of the moves are made: the step that stands. */
  readonly made: number;
}

/** Whether a move changes nothing that counts: as many cells, and no more than a hundredth of a gap. */
const buysNone = ({ moves }: SizeFrontInput, i: number): boolean => {
  const [before, now] = [moves[i - 1], moves[i]!];
  return before !== undefined && now.open === before.open && !(now.leastGap > before.leastGap + 0.01);
};
/** A least gap as it is told everywhere, to a hundredth of what it is counted in. */
export const sayGap = (v: number): string =>
  Number.isFinite(v) ? (Math.abs(v) < 5e-3 ? 0 : v).toFixed(2).replace("-", "−") : "no answer";
const gapWords = (v: number, unit: string): string => (Number.isFinite(v) ? `${sayGap(v)} ${unit}` : sayGap(v));

/** What each move buys: a stair of cells that do not feed, down the moves; the step that stands is filled. */
export function sizeFront(
  input: SizeFrontInput,
  { width, height = 0 }: { readonly width: number; readonly height?: number },
): Drawing {
  const { moves, gapIn } = input;
  const head = 62;
  const step = Math.max(30, Math.min(44, (height - head - 10) / (moves.length || 1)));
  const tall = Math.max(height, head + step * Math.max(1, moves.length) + 10);
  const shapes: Shape[] = [
    box([0, 0], width, tall, "ground"),
    text([10, 17], "What each move buys", "t1 strong"),
    text([10, 31], cutTo("wanted tapes and checks that do not feed, after each move", 10.5, width - 20), "quiet"),
  ];
  if (moves.length === 0) {
    shapes.push(text([10, head], "nothing moves", "dark"));
    return { title: `What each move buys for ${input.unit}`, desc: sizeFrontWords(input), width, height: tall, shapes };
  }
  const rights = moves.map((m, i) => ({
    gap: gapWords(m.leastGap, gapIn),
    more: [...(buysNone(input, i) ? ["buys none"] : []), ...(m.cost === undefined ? [] : [m.cost])].join(", "),
  }));
  const right = Math.min(
    width * 0.34,
    Math.max(
      textWidth("least gap", 10.5),
      ...rights.flatMap((r) => [textWidth(r.gap, 10.5, true), textWidth(r.more, 10.5)]),
    ) + 4,
  );
  const left = Math.min(width * 0.34, Math.max(...moves.map((m) => textWidth(m.name, 10.5, true))) + 6);
  const most = Math.max(1, ...moves.map((m) => (Number.isFinite(m.open) ? m.open : 0)));
  const count = textWidth(`${most}`, 12, true) + 12;
  const [x0, x1] = [10 + left + 12, width - 10 - right - count - 12];
  const x = (open: number): number => x0 + (Math.max(0, Math.min(most, open || 0)) / most) * Math.max(8, x1 - x0);
  const y = (i: number): number => head + i * step + 8;
  shapes.push(text([width - 10, 48], "least gap", "quiet", { anchor: "end" }));
  shapes.push(text([x0, 48], "0", "quiet", { anchor: "middle" }), line([x0, 52], [x0, tall - 8], "hair"));

  const stair: Point[] = moves.flatMap((m, i): Point[] => {
    const before = moves[i - 1];
    return [...(before ? [[x(before.open), y(i)] as Point] : []), [x(m.open), y(i)] as Point];
  });
  shapes.push(path(strokes(stair), "outline", { data: { stair: input.unit } }));
  moves.forEach((m, i) => {
    const on = i === input.made;
    const none = buysNone(input, i);
    const at: Point = [x(m.open), y(i)];
    const words = cutTo(m.name, 10.5, left, on);
    shapes.push(
      group(
        [
          text([10, at[1] + 3.6], words, on ? "strong" : none ? "quiet" : "dark"),
          circle(at, on ? 6 : 4, on ? "of-hand" : "outline of-paper", { data: { move: m.key } }),
          text([at[0] + 10, at[1] + (moves.length > 1 ? -4 : 4)], `${m.open}`, on ? "t1 strong halo" : "dark halo"),
          text(
            [width - 10, at[1] + (rights[i]!.more === "" ? 3.6 : -2)],
            cutTo(rights[i]!.gap, 10.5, right, on),
            on ? "strong" : "dark",
            {
              anchor: "end",
            },
          ),
          ...(rights[i]!.more === ""
            ? []
            : [text([width - 10, at[1] + 10], cutTo(rights[i]!.more, 10.5, right), "quiet", { anchor: "end" })]),
        ],
        { data: { step: m.key } },
      ),
    );
  });
  return { title: `What each move buys for ${input.unit}`, desc: sizeFrontWords(input), width, height: tall, shapes };
}

/** The trade told, move by move. */
export function sizeFrontWords(input: SizeFrontInput): string {
  const { moves, gapIn, made } = input;
  const [first] = moves;
  if (!first) return `Nothing moves on ${input.unit}.`;
  const cells = (n: number): string =>
    n === 0 ? "every cell feeds" : `${counted(n, "cell")} of the map ${n === 1 ? "does" : "do"} not feed`;
  const out = [`As ${input.unit} is, ${cells(first.open)}; the least gap is ${gapWords(first.leastGap, gapIn)}.`];
  moves.slice(1).forEach((m, i) => {
    const cost = m.cost === undefined ? "" : `, ${m.cost}`;
    out.push(
      `${capital(m.name)}: ${buysNone(input, i + 1) ? "buys none" : `${cells(m.open)}, least gap ${gapWords(m.leastGap, gapIn)}`}${cost}.`,
    );
  });
  if (made > 0 && moves[made]) out.push(`Made up to ${moves[made].name}.`);
  return aloud(out.join(" "));
}
