import { sidesOfPair, type UnitData, wordsOfContacts, wordsOfGaps } from "@tapeworthy/core";
import { didYouMean, type ProjectError } from "./error.ts";
import { short } from "./read.ts";
import type { MapSource, Source, SourceFile } from "./source.ts";

/**
 * Pairs that a unit file names ("film / nip"): under "clearances" and under "meant to touch". A name that is nothing's would be read and never
 * looked up: what was meant to keep a gap would go unchecked. Bodies must have one outline, for the same reason.
 */
export function checkPairs(source: SourceFile, tree: MapSource, unit: UnitData, errors: ProjectError[]): void {
  const gaps = tree.entries.get("clearances")?.value;
  if (gaps?.kind === "map")
    for (const { key, keyPlace } of gaps.entries.values())
      if (key !== "default")
        checkPair(key, wordsOfGaps(unit), "the tape, its pockets, the film, a body or a part", (...fault) =>
          errors.push(source.error(keyPlace, ...fault)),
        );
  const contacts = tree.entries.get("meant to touch")?.value;
  for (const item of itemsOf(contacts))
    if (item.kind === "scalar")
      checkPair(
        item.text,
        wordsOfContacts(unit),
        "the tape, its pockets, the film, a body, a part, or a member they run over",
        (...fault) => errors.push(source.error(item.place, ...fault)),
      );
  for (const [list, bodies] of [
    ["bodies", unit.bodies],
    ["keep out", unit["keep out"]],
  ] as const)
    itemsOf(tree.entries.get(list)?.value).forEach((item, i) => {
      const body = bodies?.[i];
      if (!body) return;
      const found = outlines.filter((outline) => body[outline] !== undefined);
      if (found.length === 1) return;
      const what =
        found.length === 0 ? `no outline of "${short(body.name)}"` : `${found.join(" and ")} of "${short(body.name)}"`;
      errors.push(
        source.error(
          item.place,
          what,
          `one of ${outlines.join(", ")}`,
          "A body of two outlines is two bodies of one part.",
        ),
      );
    });
}
const outlines = ["box", "circle", "polygon"] as const;
const itemsOf = (at: Source | undefined): readonly Source[] => (at?.kind === "list" ? at.items : []);

function checkPair(
  pair: string,
  words: readonly string[],
  means: string,
  refuse: (found: string, expected: string, hint: string) => void,
): void {
  const sides = sidesOfPair(pair);
  if (!sides) {
    refuse(`"${short(pair)}"`, "a pair of names with a stroke between them", 'For example "film / nip".');
    return;
  }
  for (const side of sides)
    if (!words.includes(side))
      refuse(
        `"${short(side)}"`,
        `a name of something here: ${means}`,
        didYouMean(side, words) ?? `Known here: ${words.join(", ")}.`,
      );
}
