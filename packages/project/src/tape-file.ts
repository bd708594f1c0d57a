import { asWritten, type BuiltForLetter, builtForLetters, type Quantity, Realiser, type Scene, servedTape, type Tape, type TapeData, tapeFields, unitOf } from "@tapeworthy/core";
import type { ProjectError } from "./error.ts";
import type { GivenStore } from "./given-store.ts";
import { FieldReader } from "./read.ts";
import { parseSource, type SourceFile } from "./source.ts";

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
export function readTapeFile(source: SourceFile, stem: string, store: GivenStore): { file?: TapeFile; errors: ProjectError[] } {
  const { tree, errors } = parseSource(source);
  if (!tree) return { errors };
  const names: Record<string, Quantity> = {};
  const reader: FieldReader = new FieldReader({
    source,
    prefix: `tapes/${stem}/`,
    level: "reel",
    names: () => {
      for (const letter of lettersOfFile) {
        const g = reader.givens.get(`tapes/${stem}/${letter}`);
        if (g) names[letter] = g;
      }
      return names;
    },
    actual: false,
    instead: new Map(),
    store,
    errors,
  });
  const data = reader.read(tapeFields, tree, "") as TapeData | undefined;
  if (!data || errors.length > 0) return { errors };
  const run = new Realiser({} as Scene, reader.limits.map((l) => l.given)).run(asWritten);
  for (const { given, field, place } of reader.limits) {
    const value = run.number(given);
    const factor = field.unit === "any" ? 1 : unitOf(field.unit).factor;
    const unit = field.unit === "" || field.unit === "any" ? "" : ` ${field.unit}`;
    if (!Number.isFinite(value)) errors.push(source.error(place, "a value that is not finite", "a finite number"));
    else if (field.least !== undefined && value < field.least * factor * (1 - 1e-9)) errors.push(source.error(place, `${+(value / factor).toPrecision(6)}${unit}`, `at least ${field.least}${unit}: ${field.means}`));
    else if (field.most !== undefined && value > field.most * factor * (1 + 1e-9)) errors.push(source.error(place, `${+(value / factor).toPrecision(6)}${unit}`, `at most ${field.most}${unit}: ${field.means}`));
  }
  if (errors.length > 0) return { errors };
  const tape = servedTape(data.tape, data, reader.givens, source.place(0, 1));
  const pocket: Partial<Record<BuiltForLetter, Quantity>> = {};
  for (const letter of Object.keys(builtForLetters) as BuiltForLetter[]) {
    if (letter === "b" || letter === "w_t") continue;
    pocket[letter] = tape.letters[letter];
  }
  if (data.film?.width) pocket.b = data.film.width;
  if (data.film?.["seal track"]) pocket.w_t = data.film["seal track"];
  return { file: { tape, stem, source, pocket }, errors };
}
