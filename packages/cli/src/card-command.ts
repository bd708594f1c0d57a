import {
  allCards,
  type Card,
  type CardAnswer,
  type CardDecides,
  type CardReadings,
  type CardStand,
  cardAnswer,
  cardFor,
  cardStand,
  type DecisiveFinding,
  type Finding,
  figures,
  type Given,
  questionsOf,
  showIn,
  stopsSide,
  type TapeResult,
  unitOf,
  whyNoCard,
} from "@tapeworthy/core";
import { nearest, type Project, type Texts } from "@tapeworthy/project";
import { cardDocument } from "@tapeworthy/report";
import type { Command } from "commander";
import {
  type Common,
  checked,
  jsonOption,
  open,
  print,
  printJson,
  seedOption,
  varyOption,
  width,
  workersOption,
} from "./call.ts";
import { CallError, writeWhole } from "./folder.ts";
import { sceneOf } from "./job.ts";
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
  readonly set: readonly string[];
}

/** `card`: how to measure an unknown, and what typed readings say. */
export function cardCommand(program: Command): void {
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
    .addOption(htmlOption())
    .addOption(jsonOption())
    .addOption(varyOption())
    .addOption(seedOption())
    .addOption(workersOption())
    .option("--no-known", "leave the record of known units out of the belief")
    .addHelpText(
      "after",
      '\nExamples:\n  tapeworthy card --list\n  tapeworthy card examples/saltgrass --unknown plover/film.friction --html card.html\n  tapeworthy card examples/saltgrass --unknown plover/film.friction --unit plover --tape so20-24 --value "431,92,418,97; 440,90,425,95; 436,93,428,94"',
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
      const said = options.value === undefined ? undefined : answered(card, options.value, options.set, project);
      if (options.json)
        printJson({ version, card: plain(card), answer: said?.answer ?? null, stand: said?.stand ?? null });
      else if (said) print(showAnswer(card, said.answer, said.stand, paintFor(process.stdout), width()));
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

/** The card that is asked for, made out for what it decides where unit and tape are named or it is the next question. */
async function wantedCard(
  project: Project,
  texts: Texts,
  options: CardOptions,
): Promise<{ readonly card: Card; readonly revision?: string }> {
  const { unknown, tape } = options;
  if ((options.unit === undefined) !== (tape === undefined))
    throw new CallError("A card says what it decides for a unit on a tape: name both --unit and --tape, or neither.");
  if (options.unit === undefined && unknown !== undefined) return { card: named(unknown, project) };
  const wanted =
    options.unit === undefined
      ? project.wanted
      : new Map([[unitNamed(project, options.unit), [tapeIn(project, tape!)]]]);
  if (options.unit !== undefined) scene(project, options.unit, tape!);
  const result = await checked({ ...project, wanted }, texts, options);
  const rows = result.units.flatMap((u) => u.tapes);
  const address = unknown ?? questionsOf(rows)[0]?.address;
  if (address === undefined)
    throw new CallError(
      "Nothing depends on an unknown: there is no question to measure. Name one with --unknown, or see --list.",
    );
  const at = decidedBy(rows, address);
  const found = at && result.units.find((u) => u.unit === at.row.unit);
  return {
    card: named(
      address,
      project,
      at && { unit: found?.name ?? at.row.unit, tape: at.row.tape, check: at.check, decisive: at.decisive },
    ),
    ...(found?.revision ? { revision: found.revision } : {}),
  };
}
function scene(project: Project, unit: string, tape: string): void {
  try {
    sceneOf(project, unit, tape);
  } catch (e) {
    if (e instanceof RangeError) throw new CallError(`${unit} is not made for ${tape}: ${e.message}.`);
    throw e;
  }
}
/** Of the findings that hang on an unknown the one it decides most: of a tape that depends on it first, then one that tips within the guess. */
export function decidedBy(
  rows: readonly TapeResult[],
  address: string,
): { readonly row: TapeResult; readonly check: string; readonly decisive: DecisiveFinding } | undefined {
  const all = rows.flatMap((row) =>
    row.findings.flatMap((f) =>
      f.decisive?.address === address ? [{ row, check: f.check, decisive: f.decisive, rank: rank(row, f) }] : [],
    ),
  );
  return all.sort((x, y) => x.rank - y.rank)[0];
}
const rank = (row: TapeResult, f: Finding): number =>
  row.verdict === "depends" && row.first[0] === f.check
    ? 0
    : (f.decisive && stopsSide(f.decisive) !== undefined ? 1 : 3) + (row.first.includes(f.check) ? 0 : 1);

function tapeIn(project: Project, name: string): string {
  if (project.tapes.has(name)) return name;
  const near = nearest(name, project.tapes.keys());
  throw new CallError(
    `There is no tape "${name}".${near ? ` Did you mean "${near}"?` : ` Tapes here: ${[...project.tapes.keys()].join(", ")}.`}`,
  );
}
const givenAt = (project: Project, address: string): Given | undefined =>
  project.givens.get(address) ?? Object.values(project.requirement.assume).find((g) => g.address === address);

/** The card of an address, or by its own id. Throws CallError with the way out. */
function named(of: string, project: Project, decides?: CardDecides): Card {
  const byId = allCards().find((c) => c.id === of);
  if (byId) return byId;
  const why = whyNoCard(of);
  if (why) throw new CallError(`Nobody measures ${of}: ${why}.`);
  const card = cardFor(givenAt(project, of) ?? of, decides);
  if (card) return card;
  const known = [
    ...project.givens.keys(),
    ...Object.values(project.requirement.assume).map((g) => g.address),
    ...allCards().map((c) => c.id),
  ];
  const near = nearest(of, known);
  throw new CallError(
    `There is no card for "${of}".${near ? ` Did you mean "${near}"?` : ""} See tapeworthy card --list.`,
  );
}

/** Readings as they are typed: "431,92; 440,90" with as many numbers a reading as the card asks for. */
export function readingsIn(card: Card, typed: string, sets: readonly string[]): CardReadings {
  const n = card.method.entries.length;
  const names = card.method.entries.map((e) => e.name).join(", then ");
  const pieces = typed.split(";").map((piece, j) => {
    const words = piece.split(/[\s,]+/).filter((w) => w !== "");
    if (words.length % n !== 0)
      throw new CallError(
        `${card.method.per} ${j + 1} has ${words.length} numbers, not ${n} a reading: ${names}. A decimal comma is read as a comma: write 0.5.`,
      );
    return Array.from({ length: words.length / n }, (_, k) => words.slice(k * n, k * n + n).map(Number));
  });
  const settings = Object.fromEntries(
    sets.map((one) => {
      const [symbol = "", number = ""] = one.split("=").map((s) => s.trim());
      return [symbol, number === "" ? Number.NaN : Number(number)];
    }),
  );
  return { pieces, settings };
}
function answered(
  card: Card,
  typed: string,
  sets: readonly string[],
  project: Project,
): { readonly answer: CardAnswer; readonly stand?: CardStand | { readonly says: string } } {
  const answer = cardAnswer(card, readingsIn(card, typed, sets));
  if (answer.kind === "refusal") throw new CallError(`${answer.found}. ${answer.wayOut}`);
  if (card.decides) return { answer, stand: cardStand(answer, card.decides) };
  const unknown = card.address === undefined ? undefined : givenAt(project, card.address)?.unknown;
  if (!unknown || !("low" in unknown)) return { answer };
  const { low, high } = unknown;
  const side = answer.value < low ? "below" : answer.value > high ? "above" : "inside";
  const guess = `${figures(low / unitOf(answer.shownIn).factor)} to ${showIn(answer.shownIn, high)}`;
  return {
    answer,
    stand: {
      says:
        side === "inside"
          ? `It lies inside your guess of ${guess}.`
          : `It lies ${side} your guess of ${guess}: look whether the set-up is that of the unit.`,
    },
  };
}
