import type { Shown } from "./walls.ts";

/** The page of the walls. `pageOf` leads from a check to its page of the handbook, under docs. */
export function wallsPage(shown: readonly Shown[], pageOf: (check: string) => string | undefined): string {
  return `${[
    "<!-- Written by `npm run walls`: words in packages/report/src/walls/walls.ts, numbers from the models. -->",
    "# Walls",
    "Places where a feeder that runs on one tape stops on the next, and no adjustment helps. Each is shown on an invented unit: the curve is the value of a check over the number that changes, its window is what lies unshaded, everything else stands as drawn. The numbers in the words are those of the curves, with every guess in its middle; striped is where 5 to 95 % of what may be believed lies. Your own unit has other numbers: `tapeworthy why CHECK --tape TAPE` shows them.",
    shown.map(({ wall }) => `- [${wall.title}](#${anchorOf(wall.title)})`).join("\n"),
    ...shown.flatMap(({ wall, curves, drawings }) => {
      const { happens, moves } = wall.words(curves);
      return [
        `## ${wall.title}`,
        happens,
        ...drawings.map(
          ({ name, drawing }) =>
            `<picture><source media="(prefers-color-scheme: dark)" srcset="images/walls/${name}-dark.svg"><img src="images/walls/${name}.svg" alt="${escaped(drawing.desc)}"></picture>`,
        ),
        `*Shown on: ${wall.shownOn}.*`,
        moves,
        `In the handbook: ${wall.see
          .map((id) => {
            const page = pageOf(id);
            if (!page) throw new RangeError(`no page of the handbook speaks of ${id}`);
            return `[\`${id}\`](${page})`;
          })
          .join(", ")}.`,
      ];
    }),
  ].join("\n\n")}\n`;
}
const escaped = (words: string): string =>
  words.replaceAll("&", "&amp;").replaceAll('"', "&quot;").replaceAll("<", "&lt;");
export const anchorOf = (title: string): string =>
  title
    .toLowerCase()
    .replace(/[^\w\s-]/g, "")
    .trim()
    .replace(/\s/g, "-");
