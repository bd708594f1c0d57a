import { allCards, type Card, type CardReadings } from "@tapeworthy/core";
import {
  type CardAsked,
  cardOf,
  cardReadings,
  cardSays,
  nearest,
  type Project,
  readingsTyped,
  sceneOf,
  type Texts,
  trialBegun,
  trialPath,
} from "@tapeworthy/project";
import { cardDocument } from "@tapeworthy/report";
import type { Command } from "commander";
import { orRefused, writeEdit } from "./bench-folder.ts";
import { type Common, checked, judging, open, print, printJson, width } from "./call.ts";
import { CallError, writeWhole } from "./folder.ts";
import { unitNamed } from "./ladder-command.ts";
import { paintFor } from "./paint.ts";
import { fontData, htmlOption, refuseFolder } from "./report-file.ts";
import { showAnswer, showCard, showCards } from "./show-card.ts";
import { version } from "./version.ts";

interface CardOptions extends Common {
  readonly unknown?: string;
  readonly list?: true;
  readonly unit?: string;
  readonly tape?: string;
  readonly html?: string;
  readonly value?: string;
  readonly trial?: string;
  readonly names?: string;
  readonly by?: string;
  readonly date?: string;
  readonly write?: true;
  readonly set: readonly string[];
}

/** `card`: how to measure an unknown, and what typed readings say. */
export function cardCommand(program: Command): void {
  judging(
    program
      .command("card")
      .description("how to measure an unknown on the bench, as text or a sheet to print; and what typed readings say")
      .argument("[folder]", "the project's folder", ".")
      .option("--unknown <address>", "the unknown's address, or a card's id; the next question where it is left out")
      .option("--list", "every card, and what it answers")
      .option("--unit <name>", "the unit's file, without .yaml: with --tape, what the card decides")
      .option("--tape <name>", "the tape's file, without .yaml")
      .option(
        "--value <readings>",
        'readings as they are read: numbers between commas, reels or units between semicolons: "431,92,418,97; 440,90,425,95"',
      )
      .option(
        "--set <symbol=number>",
        "another number of the set-up than the card's; may be repeated",
        (v: string, all: string[]) => [...all, v],
        [] as string[],
      )
      .option(
        "--trial <name>",
        "the trial that --value belongs to, such as T-04; begun with --unit and --tape where there is none",
      )
      .option("--names <names>", "names of its reels or pieces, between commas; A, B, C or 1, 2, 3 where left out")
      .option("--by <who>", "who read it")
      .option("--date <day>", "the day of the trial, as 2026-03-01, where it has none")
      .option("--write", "write the readings into the trial's file; else they are only shown")
      .addOption(htmlOption()),
  )
    .addHelpText(
      "after",
      '\nExamples:\n  tapeworthy card --list\n  tapeworthy card examples/saltgrass --unknown plover/film.friction --html card.html\n  tapeworthy card examples/saltgrass --unknown plover/film.friction --unit plover --tape so20-24 --value "431,92,418,97; 440,90,425,95; 436,93,428,94"\n  tapeworthy card . --unknown plover/film.friction --value "431,92; 440,90; 436,93" --trial T-04 --date 2026-03-01 --write',
    )
    .action(async (folder: string, options: CardOptions) => {
      if (options.html !== undefined) refuseFolder(options.html);
      if (options.list) {
        const cards = allCards();
        if (options.json) printJson({ version, cards: cards.map(plain) });
        else print(showCards(cards, paintFor(process.stdout), width()));
        if (options.html !== undefined) write(options.html, cards, { project: "Measuring cards" });
        return;
      }
      const { project, texts } = open(folder, options.vary);
      const { card, revision } = await wantedCard(project, texts, options);
      if (options.trial !== undefined && options.value === undefined)
        throw new CallError("--trial wants readings to put there: --value.");
      const typed =
        options.value === undefined ? undefined : orRefused(readingsTyped(card, options.value, options.set));
      const said = typed && orRefused(cardSays(card, typed, project));
      const kept =
        typed && options.trial !== undefined
          ? intoTrial({ folder, texts, project }, card, typed, options.trial, options)
          : undefined;
      if (options.json)
        printJson({
          version,
          card: plain(card),
          answer: said?.answer ?? null,
          stand: said?.stand ?? null,
          ...(kept ? { kept } : {}),
        });
      else if (said)
        print(
          [
            showAnswer(card, said.answer, said.stand, paintFor(process.stdout), width()),
            ...(kept
              ? [kept.written ? `${kept.file} has the readings.` : `${kept.file} would have the readings: add --write.`]
              : []),
          ].join("\n"),
        );
      else print(showCard(card, paintFor(process.stdout), width()));
      if (options.html !== undefined)
        write(options.html, [card], { project: project.name, ...(revision ? { revision } : {}) });
    });
}

/** A card without its functions: what the JSON prints. */
function plain({ method, decides, ...card }: Card) {
  const { shows: _s, ofPiece: _p, ofReading: _r, ...rest } = method;
  return { ...card, decides: decides ?? null, method: rest };
}

function write(
  path: string,
  cards: readonly Card[],
  context: { readonly project: string; readonly revision?: string },
): void {
  const text = cardDocument(cards, { ...context, version, font: fontData });
  try {
    writeWhole(path, text);
  } catch (e) {
    throw new CallError(`"${path}" can't be written: ${(e as Error).message}`);
  }
  process.stderr.write(`Card: ${path}. Print it on A4.\n`);
}

/** Puts typed readings into a trial, which is begun where there is none. */
function intoTrial(
  at: { readonly folder: string; readonly texts: Texts; readonly project: Project },
  card: Card,
  readings: CardReadings,
  name: string,
  { unit, tape, names, by, date, write: really }: CardOptions,
): { readonly trial: string; readonly file: string; readonly written: boolean } {
  const { trial, text } = orRefused(trialBegun(at, name, { unit, tape, question: card.address }));
  const file = trialPath(name);
  const before = at.texts.get(file);
  const { edit } = orRefused(
    cardReadings({
      card,
      readings,
      trial,
      before,
      text: before ?? text!,
      names: names?.split(",").map((n) => n.trim()),
      by,
      date,
    }),
  );
  if (really) writeEdit(at, edit);
  return { trial: name, file, written: really === true };
}

/** The card that is asked for, made out for what it decides where unit and tape are named or it is the next question. */
async function wantedCard(project: Project, texts: Texts, options: CardOptions): Promise<CardAsked> {
  const { unknown, tape } = options;
  if ((options.unit === undefined) !== (tape === undefined))
    throw new CallError("A card says what it decides for a unit on a tape: name both --unit and --tape, or neither.");
  if (options.unit === undefined && unknown !== undefined) return orRefused(cardOf(unknown, project));
  const wanted =
    options.unit === undefined
      ? project.wanted
      : new Map([[unitNamed(project, options.unit), [tapeIn(project, tape!)]]]);
  if (options.unit !== undefined) scene(project, options.unit, tape!);
  const result = await checked({ ...project, wanted }, texts, options);
  const rows = result.units.flatMap((u) => u.tapes);
  return orRefused(cardOf(unknown, project, rows));
}
function scene(project: Project, unit: string, tape: string): void {
  try {
    sceneOf(project, unit, tape);
  } catch (e) {
    if (e instanceof RangeError) throw new CallError(`${unit} is not made for ${tape}: ${e.message}.`);
    throw e;
  }
}
function tapeIn(project: Project, name: string): string {
  if (project.tapes.has(name)) return name;
  const near = nearest(name, project.tapes.keys());
  throw new CallError(
    `There is no tape "${name}".${near ? ` Did you mean "${near}"?` : ` Tapes here: ${[...project.tapes.keys()].join(", ")}.`}`,
  );
}
