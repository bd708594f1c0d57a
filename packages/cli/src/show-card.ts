import {
  type Card,
  type CardAnswer,
  type CardStand,
  cardExpectedWords,
  cardPlural,
  cardUsual,
  figures,
  sayHowSure,
  showIn,
} from "@tapeworthy/core";
import { type Paint, wrapped } from "./paint.ts";

const inUnit = (unit: string): string => (unit === "" ? "" : `, ${unit}`);

/** A text in lines, the later ones under the first one's words. */
const hung = (text: string, wide: number, first = "  "): string[] =>
  wrapped(text, wide - first.length)
    .split("\n")
    .map((line, i) => (i === 0 ? first : "".padEnd(first.length)) + line);

/** A card as text: what it decides, what it needs, its steps, what to type, how sure it will be, what to mind. */
export function showCard(card: Card, paint: Paint, wide: number): string {
  const { method } = card;
  const out: string[] = [];
  const say = (text: string, first = "  "): void => void out.push(...hung(text, wide, first));
  out.push(paint.strong(`${card.asks}  `) + paint.faint(card.id));
  say(card.lead);
  out.push("", paint.strong("You need"));
  say(`${method.needs.join("; ")}.`);
  out.push("", paint.strong("Steps"));
  card.steps.forEach((step, i) => {
    say(step, `  ${i + 1}. `);
  });
  const expecting = cardExpectedWords(card);
  if (expecting) say(expecting);
  out.push("", paint.strong("Readings"));
  say(
    `${method.pieces} ${method.pieces === 1 ? method.per : cardPlural(method.per)}, ${method.repeats} ${method.repeats === 1 ? "reading" : "readings"} each. A reading is ${method.entries.map((e) => `${e.name}${inUnit(e.unit)}`).join("; then ")}.`,
  );
  for (const s of method.settings)
    say(`${s.symbol} = ${s.usual} ${s.unit}`.trimEnd() + `: ${s.name}; another one by --set ${s.symbol}=NUMBER`);
  out.push("", paint.strong(`From readings to the ${method.title}`));
  say(method.form === "closed" ? `${method.symbol} = ${method.equation}` : method.equation);
  const { rows, gives } = method.example;
  say(
    `Example: --value "${rows.map((r) => r.join(",")).join(",")}" gives ${figures(gives, 3)} ${method.shownIn.replace(/^1\//, "/")}`.trimEnd() +
      ".",
  );
  say(
    `A whole card usually gives ${sayHowSure({ ...cardUsual(card), shownIn: method.shownIn })}. Method: ${method.source.cite} (${method.source.how}).`,
  );
  out.push("", paint.strong("Mind"));
  for (const caution of card.cautions) say(caution, "  ! ");
  out.push("", paint.strong("It answers"));
  say((card.address ? [card.address, ...card.answers] : card.answers).join(", "));
  return out.join("\n");
}

/** All cards, a line each. */
export function showCards(cards: readonly Card[], paint: Paint, wide: number): string {
  const long = Math.max(...cards.map((c) => c.id.length));
  return cards
    .flatMap((c) => [
      `${paint.strong(c.id.padEnd(long))}  ${c.asks} ${c.method.minutes} min`,
      ...hung(c.answers.join(", "), wide, "".padEnd(long + 2)).map(paint.faint),
    ])
    .join("\n");
}

/** What typed readings say, of what the uncertainty is made, and where it stands. */
export function showAnswer(
  card: Card,
  answer: CardAnswer,
  stand: Pick<CardStand, "says"> | undefined,
  paint: Paint,
  wide: number,
): string {
  const out = [paint.strong(`${card.method.title}: ${sayHowSure(answer)}`)];
  const say = (text: string, first = "  "): void => void out.push(...hung(text, wide, first));
  if (answer.pieces.length > 1)
    say(
      `${cardPlural(card.method.per)}: ${answer.pieces.map((v) => showIn(answer.shownIn, v, 3)).join(", ")}; they scatter by ${figures((answer.scatter ?? 0) * 100)} %`,
    );
  for (const p of [...answer.parts].filter((one) => one.u > 0).sort((a, b) => b.u - a.u))
    say(`${p.name}: ${p.words}`, `  ${showIn(answer.shownIn, p.u).padStart(10)}  `);
  for (const warning of answer.warnings) say(warning, "  ! ");
  if (stand) say(stand.says);
  return out.join("\n");
}
