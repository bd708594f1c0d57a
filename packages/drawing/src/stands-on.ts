import type { Letter } from "@tapeworthy/core";
import { headsAt } from "./finding.ts";
import { counted, letterWords } from "./say.ts";
import { box, type Run, text, toSvg } from "./scene.ts";

const wordOf = { m: "measured", d: "drawing or standard", g: "guessed" } as const;

/** How many numbers of a unit are measured, drawn and guessed, as a bar and in words. */
export function standsOnHtml(
  letters: readonly Letter[],
  {
    level = 2,
    width = 340,
    prefix = "stands",
  }: { readonly level?: 1 | 2 | 3 | 4 | 5; readonly width?: number; readonly prefix?: string } = {},
): string {
  const { part } = headsAt(level);
  const count = (one: Letter): number => letters.filter((l) => l === one).length;
  const all = [
    { letter: "m", n: count("m"), cls: "of-ink" },
    { letter: "d", n: count("d"), cls: "thin of-paper" },
    { letter: "g", n: count("g"), cls: "ask-line" },
  ] as const;
  const total = Math.max(1, letters.length);
  let x = 0.5;
  const shapes = all.flatMap(({ letter, n, cls }) => {
    const wide = (n / total) * (width - 1);
    const at = x;
    x += wide;
    const words: readonly Run[] = [{ text: `${letter} ${n}`, class: "strong" }, { text: ` ${wordOf[letter]}` }];
    const middle = letter === "d" && count("m") > 0 && count("m") / total < 0.2;
    return n === 0
      ? []
      : [
          box([at, 1], wide, 15, cls, letter === "g" ? { fill: "unknown" as const } : {}),
          text([letter === "g" ? width : middle ? width / 2 : at, 30], words, letter === "g" ? "is-ask" : "", {
            anchor: letter === "g" ? "end" : middle ? "middle" : "start",
          }),
        ];
  });
  const words = all.filter(({ n }) => n > 0).map(({ letter, n }) => `${n} ${letterWords[letter]}`);
  const svg = toSvg(
    { title: "What the numbers stand on", desc: `${words.join(", ")}.`, width, height: 34, shapes },
    { prefix },
  );
  return `<section class="tw-panel stands-on">${part("What the drawing stands on", counted(letters.length, "number"))}${svg}</section>`;
}
