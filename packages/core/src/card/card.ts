import type { DecisiveFinding } from "../coverage/finding.ts";
import { customaryUnit, sameDimension } from "../quantity/dimension.ts";
import type { Given } from "../quantity/given.ts";
import { figures, showIn } from "../quantity/show.ts";
import { fromSI, unitOf } from "../quantity/units.ts";
import { cautionWords, localRules, type Method, type Readings } from "./method.ts";
import { notMeasured, type Question, questions } from "./questions.ts";
import { type Answer, plural, type Refusal, readOff, settingsOf } from "./read-off.ts";
import { simulateBench } from "./simulate.ts";

/** What a card decides: a check of a unit on a tape, and the unknown its finding hangs on. */
export interface Decides {
  readonly unit: string;
  readonly tape: string;
  readonly check: string;
  readonly decisive: DecisiveFinding;
}
/** A measuring card: one page, one question. Plain data with its method's pure functions. */
export interface Card {
  readonly id: string;
  readonly asks: string;
  readonly method: Method;
  /** Patterns of the addresses that it answers. */
  readonly answers: readonly string[];
  /** The one address it is made out for; absent on a card out of the box. */
  readonly address?: string;
  readonly shownIn: string;
  readonly steps: readonly string[];
  readonly cautions: readonly string[];
  /** What it is for, and what it takes, in a sentence or three. */
  readonly lead: string;
  readonly decides?: Decides;
}

/** "plover/per width.24.nip.preload" as "unit/nip.preload", "tapes/coil-12/film.seal" as "tape/film.seal": an address without the names of files. */
export function plainAddress(address: string): string {
  const [file, ...rest] = address.replace(/ as drawn$/, "").split("/");
  if (rest.length === 0) return address;
  if (["assume", "catalogue", "project", "bound", "unit", "tape", "built for"].includes(file!))
    return `${file}/${rest.join("/")}`;
  if (file === "tapes") return `tape/${rest.slice(1).join("/")}`;
  const path = rest.join("/").replace(/^per width\.[^.]+\./, "");
  const letter = /^built for\.[^.]+\.(.+)$/.exec(path)?.[1];
  return letter === undefined ? `unit/${path}` : `built for/${letter}`;
}
const expressions = new Map<string, RegExp>();
export function fits(pattern: string, plain: string): boolean {
  let r = expressions.get(pattern);
  if (!r) {
    r = new RegExp(
      `^${pattern
        .split("*")
        .map((s) => s.replace(/[.+?^${}()|[\]\\]/g, "\\$&"))
        .join(".*")}$`,
    );
    expressions.set(pattern, r);
  }
  return r.test(plain);
}

/** Why nobody measures what stands at this address; undefined where somebody can, or where the address is none of ours. */
export function whyNoCard(address: string): string | undefined {
  const plain = plainAddress(address);
  return notMeasured.find(([pattern]) => fits(pattern, plain))?.[1];
}
const questionAt = (address: string): Question | undefined => {
  if (whyNoCard(address) !== undefined) return undefined;
  const plain = plainAddress(address);
  return questions.find((q) => q.answers.some((pattern) => fits(pattern, plain)));
};

/** The card for a number, by the number itself or its address; undefined where `whyNoCard` says why. */
export function cardFor(of: Given | string, decides?: Decides): Card | undefined {
  const address = typeof of === "string" ? of : of.address;
  const question = questionAt(address);
  if (!question) return undefined;
  if (typeof of !== "string" && !sameDimension(of.dimension, unitOf(question.method.unit).dimension)) return undefined;
  const shownIn = decides?.decisive.shownIn ?? (typeof of === "string" ? question.method.shownIn : of.shownIn);
  return made(question, shownIn, address, decides);
}
/** Every card, out of the box. */
export const allCards = (): readonly Card[] => questions.map((q) => made(q, q.method.shownIn));

function made(question: Question, shownIn: string, address?: string, decides?: Decides): Card {
  const { id, asks, method, answers, mind } = question;
  return {
    id,
    asks,
    method,
    answers,
    ...(address === undefined ? {} : { address }),
    shownIn,
    steps: [...method.steps, ...(mind ? [mind] : [])],
    cautions: [...method.cautions.map((c) => cautionWords[c]), localRules],
    lead: leadOf(method, shownIn, decides),
    ...(decides ? { decides } : {}),
  };
}

/** The side of the tipping value on which the check stops; undefined where nothing tips within the guess. */
export function stopsSide(d: DecisiveFinding): "above" | "below" | undefined {
  const { tipping, guess } = d;
  if (tipping === null || d.words || tipping <= guess.low || tipping >= guess.high) return undefined;
  const middle = guess.low > 0 && guess.high > 0 ? Math.sqrt(guess.low * guess.high) : (guess.low + guess.high) / 2;
  return d.shareIfMeasured >= 0.5 === middle < tipping ? "above" : "below";
}
function leadOf({ minutes, cost, pieces, per }: Method, shownIn: string, decides?: Decides): string {
  const takes = `${minutes} minutes, ${pieces} ${pieces === 1 ? per : plural(per)}; ${cost}.`;
  if (!decides) return takes;
  const { unit, tape, check, decisive } = decides;
  const say = (v: number): string => showIn(shownIn, v);
  const side = stopsSide(decisive);
  const guess = decisive.words
    ? `It is ${decisive.words[0]} or ${decisive.words[1]}.`
    : `You guess ${figures(fromSI(decisive.guess.low, unitOf(shownIn)))} to ${say(decisive.guess.high)}.`;
  const tips =
    decisive.tipping === null || decisive.words
      ? `It decides ${check} of ${unit} on ${tape}.`
      : side
        ? `${side === "above" ? "Above" : "Below"} ${say(decisive.tipping)} the check ${check} of ${unit} stops on ${tape}.`
        : `The check ${check} of ${unit} on ${tape} tips at ${say(decisive.tipping)}.`;
  return `${tips} ${guess} ${takes}`;
}

/** What the readings of a card say, in the unit that its number is read in. */
export function answerOf(card: Card, readings: Readings): Answer | Refusal {
  const answer = readOff(card.method, readings);
  return answer.kind === "answer" ? { ...answer, shownIn: card.shownIn } : answer;
}

export type Standing = "feeds" | "stops" | "straddles" | "tips nothing";
/** Where an answer stands: against the tipping value with its whole uncertainty, and against the guess. */
export interface Stand {
  readonly standing: Standing;
  readonly guess: "inside" | "below" | "above";
  readonly says: string;
}
export function standOf(answer: Answer, { check, tape, decisive }: Decides): Stand {
  const { value, within } = answer;
  const { tipping, guess } = decisive;
  const say = (v: number): string => showIn(answer.shownIn, v);
  const inGuess = value < guess.low ? "below" : value > guess.high ? "above" : "inside";
  const guessed =
    inGuess === "inside"
      ? "It lies inside your guess."
      : `It lies ${inGuess} your guess of ${figures(fromSI(guess.low, unitOf(answer.shownIn)))} to ${say(guess.high)}: look whether the set-up is that of the unit.`;
  if (decisive.words) {
    const seen = value === 0 || value === 1 ? decisive.words[value] : undefined;
    const says = seen
      ? `It is ${seen}.`
      : `Looks differ: some say ${decisive.words[0]}, some ${decisive.words[1]}. Keep it open.`;
    return { standing: "tips nothing", guess: inGuess, says };
  }
  const side = stopsSide(decisive);
  if (tipping === null || !side)
    return { standing: "tips nothing", guess: inGuess, says: `Nothing tips on it alone. ${guessed}` };
  const clear = Math.abs(value - tipping) > within;
  const stops = side === "above" ? value > tipping : value < tipping;
  if (!clear)
    return {
      standing: "straddles",
      guess: inGuess,
      says: `It straddles the tipping value ${say(tipping)}: read more pieces, or use a finer instrument. ${guessed}`,
    };
  return {
    standing: stops ? "stops" : "feeds",
    guess: inGuess,
    says: `It lies ${value > tipping ? "above" : "below"} the tipping value ${say(tipping)}: by this alone ${check} ${stops ? "stops" : "holds"} on ${tape}. ${guessed}`,
  };
}

/** What the instruments would show at a value (SI), in the order of the entries: what to expect before reading. */
export const expected = ({ method }: Card, value: number): readonly number[] => {
  const row = method.shows(value, settingsOf(method), 0);
  return method.entries.map((e) => fromSI(row[e.symbol]!, unitOf(e.unit)));
};
/** What the instruments show at both ends of the guess, in words; undefined on a card without a finding. */
export function expectedWords(card: Card): string | undefined {
  const { decides, method, shownIn } = card;
  if (!decides || decides.decisive.words) return undefined;
  const at = (v: number): string => {
    const shown = expected(card, v).map(
      (x, i) => `${method.entries[i]!.name} ${`${figures(x, 3)} ${method.entries[i]!.unit}`.trimEnd()}`,
    );
    return `at ${showIn(shownIn, v)} ${shown.join(", ")}`;
  };
  const { low, high } = decides.decisive.guess;
  return `To expect: ${at(low)}; ${at(high)}.`;
}
/** What a whole card usually ends with: of 15 benches of the usual scatter the one whose half width is the middle one. */
export function usualAnswer(card: Card): Answer {
  const { method } = card;
  const known = usual.get(method.id);
  if (known) return { ...known, shownIn: card.shownIn };
  const answers = Array.from({ length: 15 }, (_, seed) => readOff(method, simulateBench(method, { seed }).readings))
    .filter((a): a is Answer => a.kind === "answer")
    .sort((a, b) => a.within - b.within);
  const middle = answers[Math.floor(answers.length / 2)]!;
  usual.set(method.id, middle);
  return { ...middle, shownIn: card.shownIn };
}
const usual = new Map<string, Answer>();

/** The worked example of a card: its readings, and what comes out. */
export const exampleOf = ({ method }: Card): { readonly readings: Readings; readonly gives: number } => ({
  readings: { pieces: [method.example.rows] },
  gives: method.example.gives,
});
/** The unit a person writes a value of this method in, and its words for a file: "0.24 measured". */
export const unitWritten = (card: Card): string => card.shownIn || customaryUnit(unitOf(card.method.unit).dimension);
