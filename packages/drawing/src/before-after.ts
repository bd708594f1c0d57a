import { figures, showIn, unitOf } from "@tapeworthy/core";
import { aloud, capital, sayAddress } from "./say.ts";
import { box, type Drawing, type Shape, text } from "./scene.ts";
import { cutTo, textWidth } from "./text-width.ts";
import { axisName, mostTips, sayTapes, tipGroups, type UnknownOnAxis, unknownAxis } from "./unknown-axis.ts";

export interface BeforeAfterInput extends UnknownOnAxis {
  /** Of a thing that is one or the other: the two, and which it turned out to be. */
  readonly words?: readonly [string, string];
  readonly found?: string;
}

/** What was guessed and what was measured, on the axis of a card: stripes, bracket, and the scatter of the next reel or unit as a bell. */
export function beforeAfter(input: BeforeAfterInput, { width }: { readonly width: number }): Drawing {
  const { address, shownIn, guess, measured, words, found, tips } = input;
  const desc = beforeAfterWords(input);
  const title = measured || found ? `${capital(sayAddress(address))} before and after` : capital(sayAddress(address));
  if (words) {
    const shapes: Shape[] = [
      box([0, 0], width, 40, "ground"),
      text([8, 16], cutTo(`before: ${words[0]} or ${words[1]}`, 12, width - 16, true), "t1 is-ask"),
      text(
        [8, 33],
        cutTo(found === undefined ? "nothing found yet" : `after: ${found}`, 12, width - 16, true),
        "t1 strong",
      ),
    ];
    return { title, desc, width, height: 40, shapes };
  }
  const { factor } = unitOf(shownIn);
  const { shapes, height } = unknownAxis(input, { width });
  const said: Shape[] = [];
  const y = height + 4;
  const striped = `striped: guess ${figures(guess.low / factor)} to ${showIn(shownIn, guess.high)}`;
  said.push(text([8, y], cutTo(striped, 10.5, width - 16, true), "is-ask"));
  let foot = y + 6;
  const name = axisName(address, shownIn);
  if (textWidth(striped, 10.5, true) + textWidth(name, 10.5) + 28 < width)
    said.push(text([width - 8, y], name, "dark", { anchor: "end" }));
  if (measured) {
    const half = (measured.high - measured.low) / 2;
    const is = `measured ${figures(measured.value / factor, 3)} ±${showIn(shownIn, half)}, 95 %`;
    const bell = measured.scatter ? `; bell: the next ${measured.scatter.per}` : "";
    const one = textWidth(is + bell, 10.5, true) < width - 16;
    said.push(text([8, y + 14], cutTo(one ? is + bell : is, 10.5, width - 16, true), "strong"));
    foot = y + 20;
    if (!one && bell !== "") {
      said.push(text([8, y + 28], bell.slice(2), "strong"));
      foot = y + 34;
    }
  }
  if (tipGroups(tips).length > mostTips) {
    const more = `and ${tipGroups(tips).length - mostTips} more tipping values`;
    said.push(text([width - 8, foot - 6], more, "quiet", { anchor: "end" }));
  }
  return {
    title,
    desc,
    width,
    height: foot,
    shapes: [box([0, 0], width, foot, "ground"), ...shapes.slice(1), ...said],
  };
}

export function beforeAfterWords({ address, shownIn, guess, tips, measured, words, found }: BeforeAfterInput): string {
  const name = capital(sayAddress(address));
  if (words) return aloud(`${name}: ${words[0]} or ${words[1]}.${found === undefined ? "" : ` Found: ${found}.`}`);
  const out = [`${name}: you guess ${figures(guess.low / unitOf(shownIn).factor)} to ${showIn(shownIn, guess.high)}.`];
  const groups = tipGroups(tips);
  for (const { at, side, tapes } of groups)
    out.push(
      side
        ? `${sayTapes(tapes)} ${tapes.length > 1 ? "stop" : "stops"} ${side} ${showIn(shownIn, at)}.`
        : `${sayTapes(tapes)} ${tapes.length > 1 ? "tip" : "tips"} at ${showIn(shownIn, at)}.`,
    );
  if (groups.length === 0) out.push("Nothing tips on it alone.");
  if (measured) {
    out.push(
      `Measured ${showIn(shownIn, measured.value, 3)}, 95 % from ${showIn(shownIn, measured.low, 3)} to ${showIn(shownIn, measured.high, 3)}.`,
    );
    for (const { at, side, tapes } of groups)
      if (side) out.push(`${sayTapes(tapes)}: ${standing(measured, at, side)}.`);
  }
  return aloud(out.join(" "));
}
/** On which side of a tipping value all of the 95 % lies. */
function standing({ low, high }: { readonly low: number; readonly high: number }, at: number, side: "above" | "below") {
  if (side === "above" ? high < at : low > at) return "on the side that feeds";
  if (side === "above" ? low > at : high < at) return "on the side that stops";
  return "still on both sides";
}
