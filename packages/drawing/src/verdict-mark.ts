import type { Verdict } from "@tapeworthy/core";
import { box, fixed, group, line, type Point, path, type Shape, type Shared, strokes } from "./scene.ts";

/**
 * The marks of the four verdicts: a window, drawn as two brackets, and where the value stands in it. Inside: feeds. On its far side and
 * struck: stops. A question: depends. A dash: no such member. They are told apart without colour.
 */
const strokeOf: Readonly<Record<Verdict, string>> = {
  feeds: "thin",
  depends: "ask-line",
  stops: "fail-line",
  "n/a": "faint",
};
const fillOf: Readonly<Record<Verdict, string>> = {
  feeds: "of-ink2",
  depends: "of-ask",
  stops: "of-fail",
  "n/a": "of-ink3",
};

/** The mark with its upper left corner at a point, `size` px square. */
export function verdictMark(verdict: Verdict, at: Point, size = 14): Shape {
  const k = size / 14;
  const p = (x: number, y: number): Point => [at[0] + x * k, at[1] + y * k];
  const stroke = strokeOf[verdict];
  const brackets = path(
    [
      ...strokes([p(3.5, 1.5), p(1.5, 1.5), p(1.5, 12.5), p(3.5, 12.5)]),
      ...strokes([p(10.5, 1.5), p(12.5, 1.5), p(12.5, 12.5), p(10.5, 12.5)]),
    ],
    stroke,
  );
  const inner: Shape[] = {
    feeds: [box(p(5.5, 3), 3 * k, 8 * k, fillOf.feeds)],
    stops: [
      box(p(11, 0), 3 * k, 14 * k, fillOf.stops),
      path([...strokes([p(4, 4), p(8, 10)]), ...strokes([p(8, 4), p(4, 10)])], stroke),
    ],
    depends: [
      path(
        [
          ["M", ...p(5, 5.2)],
          ["A", ...p(7.6, 7.1), 2 * k, true, true],
          ["L", ...p(7.6, 8.4)],
        ],
        stroke,
      ),
      line(p(7.6, 10), p(7.6, 11.4), stroke),
    ],
    "n/a": [line(p(5, 7), p(9, 7), stroke)],
  }[verdict];
  return group([brackets, ...inner], { class: `mark ${verdict === "n/a" ? "na" : verdict}` });
}

/** The same mark as a small SVG for a line of HTML; silent, because the word stands beside it. Where marks are many they may be shared. */
export function markInline(verdict: Verdict, size = 14, shared?: Shared): string {
  if (shared) {
    const id = shared.idOf(`mark-${verdict === "n/a" ? "na" : verdict}`, [verdictMark(verdict, [0, 0])]);
    return `<svg class="tw inline" width="${fixed(size)}" height="${fixed(size)}" viewBox="0 0 14 14" aria-hidden="true"><use href="#${id}"/></svg>`;
  }
  const cls = strokeOf[verdict];
  const fill = fillOf[verdict];
  const inner = {
    feeds: `<rect class="${fill}" x="5.5" y="3" width="3" height="8"/>`,
    stops: `<rect class="${fill}" x="11" y="0" width="3" height="14"/><path class="${cls}" d="M4 4L8 10M8 4L4 10"/>`,
    depends: `<path class="${cls}" d="M5 5.2A2 2 0 1 1 7.6 7.1V8.4M7.6 10V11.4"/>`,
    "n/a": `<path class="${cls}" d="M5 7H9"/>`,
  }[verdict];
  const s = fixed(size);
  return `<svg class="tw inline" width="${s}" height="${s}" viewBox="0 0 14 14" aria-hidden="true"><path class="${cls}" d="M3.5 1.5H1.5V12.5H3.5M10.5 1.5H12.5V12.5H10.5"/>${inner}</svg>`;
}
