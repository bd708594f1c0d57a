import {
  type BuiltForLetter,
  builtForLetters,
  type Quantity,
  type Scene,
  servedTape,
  type Tape,
  type TapeData,
  tapeFields,
} from "@tapeworthy/core";
import { eachOnce, type ProjectError } from "./error.ts";
import type { GivenStore } from "./given-store.ts";
import { checkLimits } from "./limits.ts";
import { FieldReader, plainSetting } from "./read.ts";
import { parseSource, type Source, type SourceFile } from "./source.ts";

/** A tape file read, with the pocket that a unit may be built for. */
export interface TapeFile {
  readonly tape: Tape;
  readonly stem: string;
  readonly source: SourceFile;
  readonly pocket: Readonly<Partial<Record<BuiltForLetter, Quantity>>>;
}

/** Letters a tape's own expressions may use: those given above in the same file. */
const lettersOfFile = ["W", "A0", "B0", "K0", "P1", "T", "T1", "T2", "B1", "wall"] as const;

/** Reads a tape file. All its errors come back together. Scatter without a level is between reels. */
export function readTapeFile(
  source: SourceFile,
  stem: string,
  store: GivenStore,
): { file?: TapeFile; errors: ProjectError[] } {
  const { tree, errors } = parseSource(source);
  if (!tree) return { errors };
  const prefix = `tapes/${stem}/`;
  const names: Record<string, Quantity> = {};
  const reader: FieldReader = new FieldReader({
    ...plainSetting({ source, prefix, level: "reel", store, errors }),
    names: () => {
      for (const letter of lettersOfFile) {
        const g = reader.givens.get(prefix + letter);
        if (g) names[letter] = g;
      }
      return names;
    },
    expects: "a letter given above or a unit",
    hint: (name) =>
      givenIn(tree, name) ? `"${name}" is given further down; a letter may use those above it.` : undefined,
  });
  const data = reader.read(tapeFields, tree, "") as TapeData | undefined;
  checkLimits(reader.limits, {} as Scene, "", (...fault) => errors.push(source.error(...fault)));
  if (!data || errors.length > 0) return { errors: eachOnce(errors) };
  const tape = servedTape(`tapes/${stem}`, data, reader.givens, source.place(0, 1));
  const pocket: Partial<Record<BuiltForLetter, Quantity>> = {};
  for (const letter of Object.keys(builtForLetters) as BuiltForLetter[]) {
    if (letter === "b" || letter === "w_t") continue;
    pocket[letter] = tape.letters[letter];
  }
  if (data.film?.width) pocket.b = data.film.width;
  if (data.film?.["seal track"]) pocket.w_t = data.film["seal track"];
  return { file: { tape, stem, source, pocket }, errors };
}
const givenIn = (tree: Source, name: string): boolean =>
  tree.kind === "map" && (lettersOfFile as readonly string[]).includes(name) && tree.entries.has(name);
