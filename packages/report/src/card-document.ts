import {
  type Card,
  cardExpectedWords,
  cardPlural,
  cardUsual,
  figures,
  parseExpression,
  sayHowSure,
  showIn,
} from "@tapeworthy/core";
import {
  capital,
  cardAxis,
  cardPicture,
  expressionMl,
  fontFaces,
  escaped as plain,
  symbolMl,
  theme,
  toSvg,
  unitsInPrint,
} from "@tapeworthy/drawing";

const escaped = (words: string): string => plain(unitsInPrint(words));

/** What stands in the title block of every card, and how the lettering is found. */
export interface CardContext {
  readonly project: string;
  readonly version: string;
  readonly unit?: string;
  readonly revision?: string;
  /** Predictions as they were frozen before the reading, by a card's address or else its id: given by the caller, never by a clock here. */
  readonly frozen?: Readonly<
    Record<string, { readonly hash: string; readonly date: string; readonly predicted: string }>
  >;
  /** Address of a font file of the drawing package: a data URI, so that the page needs nothing else. */
  readonly font: (file: string) => string;
}

/** Cards as one HTML page that prints on A4, black on white, a card a page. Same input, same bytes. */
export function cardDocument(cards: readonly Card[], context: CardContext): string {
  const title = cards.length === 1 ? cards[0]!.asks : `${cards.length} measuring cards`;
  return `<!doctype html>
<html lang="en" data-theme="light">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escaped(`${context.project}: ${title}`)}</title>
<meta name="generator" content="Tapeworthy ${escaped(context.version)}">
<style>
/* Lettering: Sofia Sans Semi Condensed, SIL Open Font License 1.1 */
${fontFaces(context.font, "two")}
${theme()}${cardStyle}</style>
</head>
<body>
<main>
${cards.length === 1 ? "" : `<h1 class="unseen">${escaped(title)}</h1>\n`}${cards.map((card, i) => page(card, context, i, cards.length)).join("\n")}
</main>
</body>
</html>
`;
}

/** One card alone, to be put into a page that has lettering and theme already; `cardStyle` are its rules. */
export const cardArticle = (card: Card, context: CardContext): string => page(card, context, 0, 1);

function page(card: Card, context: CardContext, i: number, of: number): string {
  const { method, decides } = card;
  const h = of === 1 ? ["h1", "h2"] : ["h2", "h3"];
  const head = (words: string, small = ""): string =>
    `<${h[1]}>${escaped(words)}${small === "" ? "" : ` <small>${escaped(small)}</small>`}</${h[1]}>`;
  const id = `card-${i + 1}`;
  const list = (items: readonly string[]): string => items.map((s) => `<li>${escaped(s)}</li>`).join("");
  const axis =
    decides && !decides.decisive.words
      ? `<div>${head("Mark your mean here")}${toSvg(cardAxis(decides, { width: 330, shownIn: card.shownIn }), { prefix: `axis-${i + 1}` })}</div>`
      : "";
  return `<article class="page" aria-labelledby="${id}">
<${h[0]} class="question" id="${id}">${escaped(card.asks)}</${h[0]}>
<p class="lead">${escaped(card.lead)}</p>
<div class="two"><div>${toSvg(cardPicture(card, { width: 350 }), { prefix: `set-up-${i + 1}` })}
${head("You need")}<p>${escaped(capital(method.needs.join("; ")))}.</p></div>
<div>${head("Steps")}<ol>${list(card.steps)}</ol>${expecting(card)}</div></div>
${head("Readings", readingsOf(card))}
${readingTable(card)}
<div class="two"><div>${head(`From readings to the ${method.title}`)}
<p class="equation">${equation(card)}</p><p>${escaped(symbolsOf(card))}</p><p>${escaped(exampleWords(card))}</p>${axis}</div>
<div>${head("How sure is that")}<p>${escaped(sureness(card))}</p></div></div>
${head("Write down")}<div class="blanks">${blanks.map((b) => `<span>${escaped(b)}</span>`).join("")}</div>
<p class="caution"><span aria-hidden="true">!</span><span>${escaped(card.cautions.join(" "))}</span></p>
${titleBlock(card, context, i, of)}
</article>`;
}

const expecting = (card: Card): string => {
  const words = cardExpectedWords(card);
  return words === undefined ? "" : `<p>${escaped(words.replaceAll(" gf", " g"))}</p>`;
};

const blanks = [
  "Tape, film, its width",
  "Reel or batch, year",
  "Unit, part, revision",
  "Material, how it was made",
  "Temperature, humidity",
  "Name, date",
];

const readingsOf = ({ method: { per, pieces, repeats, entries } }: Card): string =>
  `${pieces} ${pieces === 1 ? per : cardPlural(per)}, ${repeats} ${repeats === 1 ? "reading" : "readings"} each; ${entries.map((e) => `${e.name}${e.unit === "" ? "" : `, ${inPrint(e.unit)}`}`).join("; ")}`;

/** One row a piece where that fits, else one row a reading. */
function readingTable({ method: { per, pieces, repeats, entries } }: Card): string {
  const caption = `<caption class="unseen">Blanks for the readings</caption>`;
  const cell = "<td></td>";
  const name = (j: number): string => `${capital(per)} ${j + 1}`;
  const count = Array.from({ length: pieces }, (_, j) => j);
  if (repeats * entries.length <= 12) {
    const columns = Array.from({ length: repeats }, (_, k) =>
      entries.map((e) => `<th scope="col">${k + 1}${entries.length > 1 ? ` ${short(e.symbol)}` : ""}</th>`).join(""),
    ).join("");
    const rows = count.map((j) => `<tr><th scope="row">${name(j)}</th>${cell.repeat(repeats * entries.length)}</tr>`);
    return `<table class="readings">${caption}<thead><tr><th scope="col"><span class="unseen">${capital(per)}</span></th>${columns}</tr></thead><tbody>${rows.join("")}</tbody></table>`;
  }
  // Two readings stand side by side, so that a long card stays on its page.
  const columns = [0, 1]
    .map(() => `<th scope="col">No.</th>${entries.map((e) => `<th scope="col">${short(e.symbol)}</th>`).join("")}`)
    .join("");
  const rows = count.flatMap((j) =>
    Array.from({ length: Math.ceil(repeats / 2) }, (_, k) => {
      const one = (n: number): string =>
        n < repeats
          ? `<td class="no">${n + 1}</td>${cell.repeat(entries.length)}`
          : `<td></td>${cell.repeat(entries.length)}`;
      return `<tr>${k === 0 ? `<th scope="rowgroup" rowspan="${Math.ceil(repeats / 2)}">${name(j)}</th>` : ""}${one(2 * k)}${one(2 * k + 1)}</tr>`;
    }),
  );
  return `<table class="readings many">${caption}<thead><tr><th scope="col"><span class="unseen">${capital(per)}</span></th>${columns}</tr></thead><tbody>${rows.join("")}</tbody></table>`;
}
const short = (symbol: string): string => {
  const [head, index] = symbol.split("_");
  return index === undefined ? `<i>${head}</i>` : `<i>${head}</i><sub>${index}</sub>`;
};

function equation({ method }: Card): string {
  const ml = (text: string): string => expressionMl(parseExpression(text));
  const whole =
    method.form === "closed"
      ? `${symbolMl(method.symbol)}<mo>=</mo>${ml(method.equation)}`
      : method.equation.split(" = ").map(ml).join("<mo>=</mo>");
  return `<math displaystyle="true"><mrow>${whole.replaceAll(/<\/?math[^>]*>/g, "").replaceAll("<mn>3.14159265</mn>", "<mi>π</mi>")}</mrow></math>`;
}
const symbolsOf = ({ method }: Card): string => {
  const set = method.settings.map(
    (s) => `${printed(s.symbol)}: ${s.name}, ${+s.usual.toPrecision(4)}${unitBehind(s.unit)}`,
  );
  const read = method.entries.map((e) => `${printed(e.symbol)}: ${e.name}`);
  return `${[...read, ...set].join("; ")}.`;
};
const printed = (symbol: string): string =>
  greek[symbol.split("_")[0]!]
    ? symbol.replace(/^[a-z]+/, (w) => greek[w] ?? w).replaceAll("_", " ")
    : symbol.replaceAll("_", " ");
/** A unit as a bench writes it. */
const inPrint = (unit: string): string =>
  unitsInPrint(unit).replace(/^gf$/, "g").replace(/^deg$/, "°").replace(/^1\//, "/").replaceAll("*", "·");
const unitBehind = (unit: string): string => (unit === "" ? "" : unit === "deg" ? "°" : ` ${inPrint(unit)}`);
const greek: Readonly<Record<string, string>> = { theta: "θ", alpha: "α", lambda: "λ", mu: "μ" };
const exampleWords = ({ method }: Card): string => {
  const { rows, gives } = method.example;
  const row = (r: readonly number[]): string => method.entries.map((e, i) => `${r[i]}${unitBehind(e.unit)}`).join(", ");
  const distinct = [...new Set(rows.map(row))];
  return `Example: ${distinct.join("; then ")} ${distinct.length === 1 ? "gives" : "give"} ${figures(gives, 3)}${unitBehind(method.shownIn)}.`;
};
/** What a usual card's uncertainty is made of, the largest part first. */
function sureness(card: Card): string {
  const usual = cardUsual(card);
  const say = (v: number): string => showIn(card.method.shownIn, v);
  const parts = [...usual.parts].filter((p) => p.u > 0).sort((a, b) => b.u - a.u);
  const said = parts.map((p) => `${p.words.replace(/ (\S+)$/, (_, last: string) => unitBehind(last))}: ${say(p.u)}`);
  const made =
    said.length === 0
      ? "Nothing scatters: right or wrong."
      : `Usual parts, as standard deviations: ${said.join("; ")}.`;
  return `${made} A whole card usually gives ${sayHowSure({ ...usual, shownIn: card.method.shownIn })}; yours is worked out from your own readings. ${capital(cardPlural(card.method.per))} count, not readings. Method: ${card.method.source.cite} (${card.method.source.how}).`;
}

function titleBlock(card: Card, context: CardContext, i: number, of: number): string {
  const { project, unit, revision } = context;
  const frozen = context.frozen?.[card.address ?? card.id];
  const cell = (small: string, strong: string): string =>
    `<div><small>${escaped(small)}</small><b>${escaped(strong)}</b></div>`;
  const made = card.decides?.unit ?? unit;
  const name = made === undefined ? "any unit" : `${made}${revision ? ` rev ${revision}` : ""}`;
  return `<footer class="block">${cell("Project", project)}${cell("Card", card.id)}${cell("For", card.decides ? `${name}, ${card.decides.check}` : name)}${
    frozen
      ? cell("Frozen", `${frozen.date}, ${frozen.hash.slice(0, 8)}`) + cell("Predicted", frozen.predicted)
      : cell("Predicted", "not frozen")
  }${cell("Page", `${i + 1} of ${of}`)}</footer>`;
}

/** Rules of the paper: black on white. */
export const cardStyle = `:root,[data-theme=light]{--paper:#fff;--well:#fff;--raise:#fff;--ink:#000;--ink2:#222;--ink3:#444;--t0:10.5px;--t1:12px;--t2:13.5px;--t3:15.5px;--t4:20px}
*{box-sizing:border-box}
body{margin:0;background:#fff;color:#000;font:400 12px/1.3 var(--face);font-variant-numeric:tabular-nums lining-nums}
h1,h2,h3,p,ol,table{margin:0}
.unseen{position:absolute;clip-path:inset(50%);width:1px;height:1px;overflow:hidden;white-space:nowrap}
.page{width:193mm;min-height:281mm;margin:0 auto;padding:6mm 8mm 0;border:1px solid #000;display:flex;flex-direction:column;break-inside:avoid;break-after:page}
.page:last-child{break-after:auto}
h2,h3{font-size:12.5px;font-weight:700;margin:7px 0 2px}
.question{font-size:22px;font-weight:600;line-height:1.12;margin:0}
.lead{font-size:13.5px;margin:4px 0 6px;text-wrap:pretty}
small{font-weight:400;color:#444;font-size:11px}
ol{padding-left:17px}li{margin:0 0 2px;text-wrap:pretty}
.two{display:grid;grid-template-columns:minmax(0,1fr) minmax(0,1fr);gap:0 20px}
.two p{text-wrap:pretty}
.equation{font-size:14px;margin:2px 0 3px}
.equation math{font-family:var(--face)}
.readings{border-collapse:collapse;width:100%;table-layout:fixed}
.readings th{font-weight:500;font-size:11px;text-align:left;padding:0 4px 1px;border-bottom:1.2px solid #000;white-space:nowrap}
.readings td,.readings tbody th{border-bottom:1px solid #777;border-right:1px solid #bbb;height:8mm;padding:0 4px}
.readings tbody th{border-right:1.2px solid #000;width:20mm}
.readings thead th:first-child{width:20mm}
.readings.many td,.readings.many tbody th{height:6.6mm}
.readings .no{width:9mm;font-size:11px;color:#444}
.blanks{display:grid;grid-template-columns:repeat(3,1fr);gap:2px 16px}
.blanks span{border-bottom:1px solid #000;height:7.5mm;display:flex;align-items:flex-end;color:#444;font-size:11px}
.caution{display:flex;gap:8px;margin:8px 0;align-items:flex-start}
.caution>span:first-child{flex:none;width:17px;height:17px;border:1.3px solid #000;border-radius:50%;text-align:center;font-weight:700;line-height:15px}
.block{margin:auto -8mm 0;border-top:1.5px solid #000;display:flex}
.block div{border-right:1px solid #777;padding:3px 9px 3px;flex:1 1 auto}.block div:last-child{border:0;flex:0 0 auto}
.block small{display:block;line-height:1.2}.block b{font-weight:600}
svg.tw .ground{fill:none}
svg.tw{max-width:100%;height:auto}
@media screen{body{background:#eee}.page{background:#fff;margin:12px auto}}
@page{size:A4;margin:8mm}
`;
