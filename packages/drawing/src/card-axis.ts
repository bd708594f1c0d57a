import { type CardAnswer, type CardDecides, figures, showIn, stopsSide, unitOf } from "@tapeworthy/core";
import { aloud, sayAddress } from "./say.ts";
import { type Drawing, type Shape, text } from "./scene.ts";
import { textWidth } from "./text-width.ts";
import { axisName, unknownAxis } from "./unknown-axis.ts";

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
  const { address, guess, tipping } = decisive;
  const side = stopsSide(decisive);
  const { shapes, height } = unknownAxis(
    {
      shownIn,
      guess,
      tips: tipping === null ? [] : [{ at: tipping, tape, side: side ?? null }],
      ...(answer
        ? { measured: { value: answer.value, low: answer.value - answer.within, high: answer.value + answer.within } }
        : {}),
    },
    { width, fine: true },
  );
  const name = axisName(address, shownIn);
  const striped = "striped: your guess";
  const roomy = textWidth(name, 10.5) + textWidth(striped, 10.5) + 24 < width;
  const words: Shape[] = [
    text([8, height - 5], striped, "is-ask"),
    text([width - 8, roomy ? height - 5 : 10], name, "dark", { anchor: "end" }),
  ];
  return {
    title: "Mark your mean here",
    desc: aloud(
      [
        `${sayAddress(address)}: you guess ${figures(guess.low / factor)} to ${showIn(shownIn, guess.high)}.`,
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
    shapes: [...shapes, ...words],
  };
}
