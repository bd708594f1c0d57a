import { type CardAnswer, type CardDecides, figures, showIn, stopsSide, unitOf } from "@tapeworthy/core";
import { aloud, sayAddress } from "./say.ts";
import { box, circle, type Drawing, line, path, type Shape, strokes, text } from "./scene.ts";
import { textWidth } from "./text-width.ts";

/** Round steps for ticks: 1, 2 or 5 by a power of ten, five to ten of them. */
export function ticks(from: number, to: number): number[] {
  const rough = (to - from) / 6;
  const ten = 10 ** Math.floor(Math.log10(rough));
  const step = ([1, 2, 5, 10].find((m) => m * ten >= rough) ?? 10) * ten;
  const out: number[] = [];
  for (let i = Math.ceil(from / step - 1e-9); i * step <= to + step * 1e-9; i++)
    out.push(Number((i * step).toPrecision(12)));
  return out;
}

/**
 * The axis "mark your mean here": the guess in stripes, the tipping value, which side feeds and which stops; with an answer, its mean and the half
 * width that holds 95 %.
 */
export function cardAxis(
  { tape, decisive }: CardDecides,
  {
    width,
    answer,
    shownIn,
  }: { readonly width: number; readonly shownIn: string; readonly answer?: Pick<CardAnswer, "value" | "within"> },
): Drawing {
  const { factor } = unitOf(shownIn);
  const { guess, tipping } = decisive;
  const [low, high, tip] = [guess.low / factor, guess.high / factor, tipping === null ? undefined : tipping / factor];
  const [mean, within] = answer ? [answer.value / factor, answer.within / factor] : [undefined, 0];
  const marks = [
    low,
    high,
    ...(tip === undefined ? [] : [tip]),
    ...(mean === undefined ? [] : [mean - within, mean + within]),
  ];
  const span = Math.max(...marks) - Math.min(...marks) || Math.abs(low) || 1;
  const from = Math.min(...marks) - span * 0.3;
  const to = Math.max(...marks) + span * 0.3;
  const [L, y, height] = [8, 62, 100];
  const x = (v: number): number => L + ((v - from) / (to - from)) * (width - 2 * L);
  const shapes: Shape[] = [box([0, 0], width, height, "ground")];
  const side = stopsSide(decisive);
  if (tip !== undefined && side)
    shapes.push(
      side === "above"
        ? box([x(tip), y - 18], width - L - x(tip), 18, "", { fill: "fails", data: { stops: side } })
        : box([L, y - 18], x(tip) - L, 18, "", { fill: "fails", data: { stops: side } }),
    );
  shapes.push(
    box([x(low), y - 7], x(high) - x(low), 7, "of-paper"),
    box([x(low), y - 7], x(high) - x(low), 7, "ask-line", { fill: "unknown", data: { guess: "range" } }),
    line([L, y], [width - L, y], "outline"),
  );
  const large = ticks(from, to);
  const fifth = large.length > 1 ? (large[1]! - large[0]!) / 5 : 0;
  // Fine lines to mark a mean by hand.
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
  if (tip !== undefined) {
    const t = x(tip);
    shapes.push(line([t, y - 26], [t, y + 8], "fail-line heavy", { data: { tipping: `${t}` } }));
    shapes.push(...tipWords(t, width, L, side, tape, showIn(shownIn, tipping!)));
  }
  if (mean !== undefined) {
    const [a, b] = [x(mean - within), x(mean + within)];
    shapes.push(
      path(
        strokes([
          [a, y - 12],
          [b, y - 12],
        ]),
        "outline",
      ),
      line([a, y - 16], [a, y - 8], "outline"),
      line([b, y - 16], [b, y - 8], "outline"),
      circle([x(mean), y - 12], 3.6, "of-ink", { data: { mean: `${x(mean)}` } }),
    );
  }
  const unit = shownIn.replace(/^1\//, "/");
  const name = `${sayAddress(decisive.address)}${unit === "" ? "" : `, ${unit}`}`;
  const striped = "striped: your guess";
  const roomy = textWidth(name, 10.5) + textWidth(striped, 10.5) + 24 < width;
  shapes.push(text([L, height - 5], striped, "is-ask"));
  shapes.push(text([width - L, roomy ? height - 5 : 10], name, "dark", { anchor: "end" }));
  return {
    title: "Mark your mean here",
    desc: aloud(
      [
        `${sayAddress(decisive.address)}: you guess ${figures(low)} to ${showIn(shownIn, guess.high)}.`,
        tipping === null
          ? "Nothing tips on it alone."
          : side
            ? `${tape} stops ${side} ${showIn(shownIn, tipping)}.`
            : `It tips at ${showIn(shownIn, tipping)}.`,
        ...(answer
          ? [`Measured ${showIn(shownIn, answer.value)}, give or take ${showIn(shownIn, answer.within)}.`]
          : []),
      ].join(" "),
    ),
    width,
    height,
    shapes,
  };
}
/** "24 mm feeds" on the kind side and "stops above 0.34" on the other, in two lines where one has no room. */
function tipWords(
  t: number,
  width: number,
  L: number,
  side: "above" | "below" | undefined,
  tape: string,
  tip: string,
): Shape[] {
  const stops = side ? `stops ${side} ${tip}` : `tips at ${tip}`;
  const feeds = side ? `${tape} feeds` : "";
  const right = side !== "below";
  const put = (words: string, cls: string, y: number, toRight: boolean): Shape => {
    const half = textWidth(words, 10.5, true);
    const at = toRight ? Math.min(t + 5, width - L - half) : Math.max(t - 5, L + half);
    return text([at, y], words, cls, { anchor: toRight ? "start" : "end" });
  };
  return [put(stops, "is-fail", 22, right), ...(feeds === "" ? [] : [put(feeds, "strong", 34, !right)])];
}
