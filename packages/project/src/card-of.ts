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
  fromSI,
  type Given,
  questionsOf,
  showIn,
  stopsSide,
  type TapeResult,
  unitOf,
  whyNoCard,
} from "@tapeworthy/core";
import { isRefused, type Refused } from "./bench.ts";
import { nearest } from "./error.ts";
import type { Project } from "./project.ts";

/** What an unknown decides: a check of a pair, and the finding that hangs on it. */
export interface Decided {
  readonly row: TapeResult;
  readonly check: string;
  readonly decisive: DecisiveFinding;
}
/** Of the findings that hang on an unknown the one it decides most: of a tape that depends on it first, then one that tips within the guess. */
export function decidedBy(rows: readonly TapeResult[], address: string): Decided | undefined {
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

/** A card, and what it was made out for. */
export interface CardAsked {
  readonly card: Card;
  readonly at?: Decided;
  /** Revision of the unit that it decides. */
  readonly revision?: string;
}
/**
 * The card of an unknown's address, or by its own id; of the first question where none is named. With judged pairs it is made out for what it decides.
 */
export function cardOf(
  question: string | undefined,
  project: Project,
  rows?: readonly TapeResult[],
): CardAsked | Refused {
  const address = question ?? (rows && questionsOf(rows)[0]?.address);
  if (address === undefined)
    return {
      why: "Nothing depends on an unknown: there is no question to measure. Name one with --unknown, or see --list.",
    };
  const at = rows && decidedBy(rows, address);
  const unit = at && project.units.get(at.row.unit);
  const card = named(
    address,
    project,
    at && { unit: unit?.name ?? at.row.unit, tape: at.row.tape, check: at.check, decisive: at.decisive },
  );
  if (isRefused(card)) return card;
  const revision = unit && [...unit.variants.values()][0]?.revision;
  return { card, ...(at ? { at } : {}), ...(revision ? { revision } : {}) };
}
const assumptions = (project: Project): readonly Given[] => Object.values(project.requirement.assume);
const givenAt = (project: Project, address: string): Given | undefined =>
  project.givens.get(address) ?? assumptions(project).find((g) => g.address === address);

function named(of: string, project: Project, decides?: CardDecides): Card | Refused {
  const byId = allCards().find((c) => c.id === of);
  if (byId) return byId;
  const why = whyNoCard(of);
  if (why) return { why: `Nobody measures ${of}: ${why}.` };
  const card = cardFor(givenAt(project, of) ?? of, decides);
  if (card) return card;
  const known = [
    ...project.givens.keys(),
    ...assumptions(project).map((g) => g.address),
    ...allCards().map((c) => c.id),
  ];
  const near = nearest(of, known);
  return {
    why: `There is no card for "${of}".${near ? ` Did you mean "${near}"?` : ""} See tapeworthy card --list.`,
  };
}

/** Readings as they are typed on one line: "431,92; 440,90" with as many numbers a reading as the card asks for; settings as "theta=90". */
export function readingsTyped(card: Card, typed: string, sets: readonly string[] = []): CardReadings | Refused {
  const n = card.method.entries.length;
  const names = card.method.entries.map((e) => e.name).join(", then ");
  const pieces: number[][][] = [];
  for (const [j, piece] of typed.split(";").entries()) {
    const words = piece.split(/[\s,]+/).filter((w) => w !== "");
    if (words.length % n !== 0)
      return {
        why: `${card.method.per} ${j + 1} has ${words.length} numbers, not ${n} a reading: ${names}. A decimal comma is read as a comma: write 0.5.`,
      };
    pieces.push(Array.from({ length: words.length / n }, (_, k) => words.slice(k * n, k * n + n).map(Number)));
  }
  const settings = Object.fromEntries(
    sets.map((one) => {
      const [symbol = "", number = ""] = one.split("=").map((s) => s.trim());
      return [symbol, number === "" ? Number.NaN : Number(number)];
    }),
  );
  return { pieces, settings };
}

/** What readings say, and where the value stands: against the tipping value of what the card decides, else against the guess. */
export interface CardSaid {
  readonly answer: CardAnswer;
  readonly stand?: CardStand | { readonly says: string };
}
export function cardSays(card: Card, readings: CardReadings, project: Project): CardSaid | Refused {
  const answer = cardAnswer(card, readings);
  if (answer.kind === "refusal") return { why: `${answer.found}. ${answer.wayOut}` };
  if (card.decides) return { answer, stand: cardStand(answer, card.decides) };
  const unknown = card.address === undefined ? undefined : givenAt(project, card.address)?.unknown;
  if (!unknown || !("low" in unknown)) return { answer };
  const { low, high } = unknown;
  const side = answer.value < low ? "below" : answer.value > high ? "above" : "inside";
  const guess = `${figures(fromSI(low, unitOf(answer.shownIn)))} to ${showIn(answer.shownIn, high)}`;
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
