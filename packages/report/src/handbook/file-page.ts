import {
  asWritten,
  type Check,
  chosen,
  figures,
  type Given,
  isFact,
  isPlace,
  isQuantity,
  type Model,
  type Quantity,
  type Read,
  type Reads,
  Realiser,
  rootsOf,
  type Scene,
  showIn,
  shownUnit,
  showValue,
  unitOf,
} from "@tapeworthy/core";
import { severityWords } from "@tapeworthy/drawing";
import { type GivenWords, givenUnit, givenWords, sourceOf, unitWord } from "./given-words.ts";
import { mathsOf } from "./maths.ts";
import { printed } from "./printed.ts";
import { type LinkTo, markdownOf } from "./prose.ts";
import type { Reach } from "./reach.ts";
import { type Book, capital, type FileSubject, type ModelGroup, stationText } from "./subject.ts";
import { table } from "./table.ts";

/** The page of one source file. */
export function filePage(subject: FileSubject, book: Book): string {
  const { file, title, lead, checks, groups, further, unread } = subject;
  const link = linksFrom(subject, book);
  const up = "../".repeat(subject.page.split("/").length - 1);
  const out = [
    `<!-- Written by \`npm run handbook\` from packages/core/src/${file.path}: edit that file. -->`,
    `# ${title}`,
    `[All models](${up}README.md) · source [\`${file.path}\`](${up}../../packages/core/src/${file.path})`,
    ...(lead ? [markdownOf(lead.text, link)] : []),
    ...(checks.length > 0 ? ["## What is checked", ...checks.flatMap((check) => checkSection(check, book, link))] : []),
    ...(groups.length > 0
      ? [
          groups.length === 1 ? "## The model" : "## The models",
          ...groups.flatMap((group) => modelSection(group, subject, book, link)),
        ]
      : []),
    ...(unread.length > 0
      ? [
          "### For units that no invented scene shows",
          unread.map((m) => `- ${capital(m.title)}, \`${m.id}\`: \`${m.equation}\``).join("\n"),
        ]
      : []),
    ...(further.length > 0 ? ["## Beside it", ...further.map((doc) => markdownOf(doc.text, link))] : []),
    ...measureSection(subject, book),
    ...heldSection(subject, book),
  ];
  return `${out.join("\n\n")}\n`;
}

/** Links of a page's words: to pages of files, by the path or the name a comment uses, and of checks. */
function linksFrom({ page, file }: FileSubject, { subjects, pageOfCheck, pageOfModel }: Book): LinkTo {
  const folder = page.split("/").slice(0, -1).join("/");
  const pages = new Map(subjects.map((s) => [s.file.path, s.page]));
  return (name) => {
    const target = name.endsWith(".ts")
      ? (pages.get(name) ?? pages.get(folder === "" ? name : `${folder}/${name}`))
      : (pageOfCheck.get(name) ?? pageOfModel.get(name));
    if (target === undefined || target === page || name === file.path) return undefined;
    return relative(page, target);
  };
}
/** The way from one page to another, both under docs/models. */
export function relative(from: string, to: string): string {
  const a = from.split("/").slice(0, -1);
  const b = to.split("/");
  let same = 0;
  while (same < a.length && a[same] === b[same]) same++;
  return [...a.slice(same).map(() => ".."), ...b.slice(same)].join("/");
}
const unique = <T>(list: Iterable<T>): T[] => [...new Set(list)];
const listed = (items: readonly string[], word = "and"): string =>
  items.length < 2 ? items.join("") : `${items.slice(0, -1).join(", ")} ${word} ${items.at(-1)}`;

/** A quantity as a sentence names it: its title, symbol, and the text of a number that no file gives. */
function named(q: Quantity, scene: Scene): string {
  if (q.kind === "model") return `${q.title} ${printed(q.symbol)}`;
  const words = givenWords(q, scene);
  if (q.address.startsWith("bound/")) return q.text.replace(/^0 .*/, "0");
  return `${words.title} ${printed(q.symbol)}${words.text === undefined ? "" : ` (\`${words.text}\`)`}`;
}

/** Titles of things made alike: "current of the feed or peel drive's motor", or the first and how many more. */
function sayAlike(titles: readonly string[]): string {
  const [first = "", second] = titles;
  if (second === undefined) return first;
  const [a, b] = [first.split(" "), second.split(" ")];
  const differs = a.flatMap((word, i) => (word === b[i] ? [] : [i]));
  if (titles.length === 2 && a.length === b.length && differs.length === 1)
    return a.map((word, i) => (i === differs[0] ? `${word} or ${b[i]}` : word)).join(" ");
  return titles.length === 2 ? `${first}; ${second}` : `${first} and ${titles.length - 1} like it`;
}

function checkSection(check: Check, { reach }: Book, link: LinkTo): string[] {
  const scenes = reach.applies.get(check) ?? [];
  const sides = (of: (scene: Scene) => Quantity | undefined): string[] =>
    unique(
      scenes.flatMap(([, scene]) => {
        const q = of(scene);
        return q ? [named(q, scene)] : [];
      }),
    );
  const value = sides((scene) => chosen<Quantity>(check.value, scene));
  const least = sides((scene) => chosen<Quantity>(check.atLeast, scene));
  const most = sides((scene) => chosen<Quantity>(check.atMost, scene));
  const window = [
    ...(least.length > 0 ? [`at least ${listed(least, "or")}`] : []),
    ...(most.length > 0 ? [`at most ${listed(most, "or")}`] : []),
  ];
  const absent = reach.absent.get(check) ?? [];
  return [
    `### ${capital(check.title)}: \`${check.id}\``,
    [
      `- **Window**: ${listed(value, "or")}, ${window.join("; ")}`,
      `- **Station** ${stationText(check)} · **severity** ${check.severity}, ${severityWords[check.severity]} · **status** ${check.status}`,
      ...(absent.length > 0 ? [`- **Does not apply** where ${absent.map(whereWords).join("; or where ")}`] : []),
      ...besides(check, reach, link),
    ].join("\n"),
    ...exampleOf(check, scenes),
  ];
}
const whereWords = (why: string): string => why.replace(/[.;]$/, "");
function besides(check: Check, { applies }: Reach, link: LinkTo): string[] {
  const shown = new Map<string, string>();
  for (const [, scene] of applies.get(check) ?? [])
    for (const q of check.beside?.(scene) ?? []) {
      const words = q.kind === "model" ? q.title : givenWords(q, scene).title;
      const target = q.kind === "model" ? link(q.id) : undefined;
      shown.set(words, target ? `[${words}](${target})` : words);
    }
  return shown.size === 0 ? [] : [`- **Shown beside it**: ${[...shown.values()].join("; ")}`];
}
/** The sentence that a finding says, in the first scene in which it has an answer. Everything as written, guesses in their middle. */
function exampleOf(check: Check, scenes: readonly (readonly [string, Scene])[]): string[] {
  for (const [name, scene] of scenes) {
    const value = chosen<Quantity>(check.value, scene);
    const bounds = [chosen<Quantity>(check.atLeast, scene), chosen<Quantity>(check.atMost, scene)];
    if (!value) continue;
    const said: Quantity[] = [];
    check.because((q) => {
      said.push(q);
      return "";
    }, scene);
    const all = [value, ...bounds.flatMap((q) => q ?? []), ...said];
    const run = new Realiser(scene, all).run(asWritten);
    const sentence = check.because((q) => showValue(q, run.number(q)), scene);
    const [least, most] = bounds.map((q) => q && run.number(q));
    const v = run.number(value);
    if (!Number.isFinite(v)) continue;
    const holds = (least === undefined || v >= least) && (most === undefined || v <= most);
    return [
      `*An example, the invented scene "${name}", as written and with guesses in their middle:* ${sentence} It ${holds ? "holds" : "does not hold"}.`,
    ];
  }
  return [];
}

function modelSection({ models, doc }: ModelGroup, subject: FileSubject, book: Book, link: LinkTo): string[] {
  const first = models[0]!;
  const { reach, pageOfCheck } = book;
  const maths = first.form === "closed" ? mathsOf(first.symbol, first.equation) : undefined;
  const written = `${first.symbol} = ${first.equation}`;
  const readers = unique(models.flatMap((m) => [...(reach.readers.get(m) ?? [])].map((r) => r.id)));
  const mine = new Set(subject.groups.flatMap((g) => g.models.map((m) => m.id)));
  const decides = unique(models.flatMap((m) => reach.decides.get(m) ?? []));
  const shows = unique(models.flatMap((m) => reach.shows.get(m) ?? [])).filter((id) => !decides.includes(id));
  const checkLinks = (ids: readonly string[]): string => {
    const some = ids.map((id) => {
      const target = pageOfCheck.get(id);
      const to = target === undefined || target === subject.page ? undefined : link(id);
      return to ? `[\`${id}\`](${to})` : `\`${id}\``;
    });
    return listed(some);
  };
  const facts = [
    `- ${first.unit === "" ? "" : `**Unit**: ${unitOfModel(first)} · `}**form**: ${first.form === "closed" ? "closed, evaluated as it stands" : "solved"}${first.costly ? "; over many draws it stands as its first differences" : ""}`,
    `- **Source**: ${sourceOf(first.origin)}`,
    ...(decides.length > 0 ? [`- **Rests on it**: ${checkLinks(decides)}`] : []),
    ...(shows.length > 0 ? [`- **Shown with**: ${checkLinks(shows)}`] : []),
    ...(decides.length + shows.length === 0 ? ["- **Rests on it**: no check; a command or a drawing uses it"] : []),
    ...(readers.filter((id) => !mine.has(id)).length > 0
      ? [
          `- **Read by**: ${listed(readers.filter((id) => !mine.has(id)).map((id) => (link(id) ? `[\`${id}\`](${link(id)})` : `\`${id}\``)))}`,
        ]
      : []),
  ];
  const title = unique(models.map((m) => m.title));
  return [
    `### ${capital(sayAlike(title))}: ${listed(unique(models.map((m) => `\`${m.id}\``)))}`,
    ...(doc ? [markdownOf(doc.text, link)] : []),
    ...(maths ? [`\`\`\`math\n${maths}\n\`\`\``, `As written: \`${written}\``] : [`\`\`\`text\n${written}\n\`\`\``]),
    ...symbolsTable(first, models, book, link),
    facts.join("\n"),
  ];
}

const unitOfModel = (m: Model<unknown>): string =>
  m.unit === "1" && shownUnit(m as Model) === "" ? "a plain number" : unitWord(shownUnit(m as Model) || m.unit);

interface SymbolRow {
  readonly symbol: string;
  readonly title: string;
  readonly unit: string;
  readonly where: string;
  readonly text: string;
  readonly source: string;
}
/** The numbers that an equation reads, over all scenes: under one symbol stands whatever some scene reads there. */
function symbolsTable(
  first: Model<unknown>,
  models: readonly Model<unknown>[],
  { reach }: Book,
  link: LinkTo,
): string[] {
  const rows = new Map<string, SymbolRow[]>();
  const add = (symbol: string, q: Given | Model<unknown>, scene: Scene): void => {
    const row = rowOf(symbol, q, scene, link);
    // One model in many places is one row, and so is one meaning in the files of two drives.
    const key = q.kind === "model" ? `${symbol} ${q.id}` : `${symbol} ${row.title} ${row.text}`;
    const known = rows.get(key) ?? [];
    if (!known.some((one) => one.title === row.title && one.where === row.where)) rows.set(key, [...known, row]);
  };
  const walk = (read: Read | Reads, symbol: string, scene: Scene): void => {
    if (isFact(read)) return;
    if (isQuantity(read as Read)) add(symbol, read as Given | Model<unknown>, scene);
    else if (Array.isArray(read)) for (const inner of read) walk(inner, symbol, scene);
    else
      for (const [name, inner] of Object.entries(read)) walk(inner, symbol === "" ? name : `${symbol}.${name}`, scene);
  };
  for (const m of models) for (const { scene, reads } of reach.uses.get(m) ?? []) walk(reads, "", scene);
  // What different scenes read under one symbol stands together.
  const joined = [...rows.values()].map(
    (same): SymbolRow => ({
      ...same[0]!,
      title: sayAlike(unique(same.map((row) => row.title))),
      where: listed(unique(same.map((row) => row.where))),
    }),
  );
  const order = unique(joined.map((row) => row.symbol));
  const list = order.flatMap((symbol) => joined.filter((row) => row.symbol === symbol));
  if (list.length === 0) return [];
  const shown = list.slice(0, mostRows);
  const left = list.length - shown.length;
  return [
    table(
      ["symbol", "what it is", "unit", "known to hold in", "where it stands"],
      shown.map((row) => [
        printed(row.symbol),
        row.title,
        row.unit,
        rangeOf(first, row),
        `${row.where}${row.text === "" ? "" : `, \`${row.text}\``}${row.source === "" ? "" : `; ${row.source}`}`,
      ]),
    ),
    ...(left > 0 ? [`and ${left} more of their kind.`] : []),
  ];
}
const mostRows = 24;
function rowOf(symbol: string, q: Given | Model<unknown>, scene: Scene, link: LinkTo): SymbolRow {
  if (q.kind === "model") {
    const target = link(q.id);
    const id = `\`${q.id}\``;
    return {
      symbol,
      title: q.title,
      unit: q.unit === "" ? "" : unitWord(shownUnit(q as Model) || q.unit),
      where: target ? `[${id}](${target})` : `${id}, on this page`,
      text: "",
      source: "",
    };
  }
  const words: GivenWords = givenWords(q, scene);
  return {
    symbol,
    title: words.title,
    unit: givenUnit(q),
    where: words.where,
    text: words.text ?? "",
    source: words.source ?? "",
  };
}
/** The range in which the equation is known to hold, in the unit of the row. */
function rangeOf(m: Model<unknown>, row: SymbolRow): string {
  const range = m.valid?.[row.symbol];
  if (!range) return "";
  const unit =
    row.unit === "–" ? "" : row.unit.replaceAll("·", "*").replace("²", "^2").replace("³", "^3").replace("⁴", "^4");
  const { factor } = unitOf(unit === "" ? "1" : unit);
  const [low, high] = range.map((v) =>
    figures(v / factor, 3)
      .replace(/(\.\d*?)0+$/, "$1")
      .replace(/\.$/, ""),
  );
  return `${low} .. ${high}`;
}

/** What nobody knows beforehand and the checks or models of this page rest on: measure it, or it stays a guess. */
function measureSection({ checks, groups }: FileSubject, { reach }: Book): string[] {
  const found = new Map<string, readonly [g: Given, scene: Scene, direct: boolean]>();
  const note = (g: Given, scene: Scene, direct: boolean): void => {
    if (!g.unknown) return;
    const known = found.get(g.address);
    if (!known || (direct && !known[2])) found.set(g.address, [g, scene, direct]);
  };
  for (const check of checks)
    for (const [, scene] of reach.applies.get(check) ?? [])
      for (const q of [check.value, check.atLeast, check.atMost]) {
        const one = chosen<Quantity>(q, scene);
        if (one) for (const g of rootsOf(one, scene)) note(g, scene, one === g);
      }
  for (const { models } of groups)
    for (const m of models)
      for (const { scene } of reach.uses.get(m) ?? [])
        for (const g of rootsOf(m, scene)) note(g, scene, reach.readers.get(g)?.has(m) ?? false);
  /** One number of many tapes or units is one row, its ranges beside each other. */
  const rows = new Map<string, { title: string; where: string; texts: string[]; source: string; isDirect: boolean }>();
  for (const [g, scene, direct] of found.values()) {
    const words = givenWords(g, scene);
    const invented = !isPlace(g.origin) && g.origin.cite === "invented for the tests";
    const text = words.text ?? (invented ? "" : g.text);
    const source = words.source ?? (invented ? "a guess of the invented unit" : sourceOf(g.origin));
    const key = `${words.title} ${words.where}`;
    const known = rows.get(key) ?? { title: words.title, where: words.where, texts: [], source, isDirect: false };
    if (text !== "" && !known.texts.includes(text)) known.texts.push(text);
    known.isDirect ||= direct;
    rows.set(key, known);
  }
  if (rows.size === 0) return [];
  const all = [...rows.values()];
  const direct = all
    .filter((row) => row.isDirect)
    .map(({ title, where, texts, source }) => [title, texts.map((text) => `\`${text}\``).join(" or "), where, source]);
  const through = unique(all.filter((row) => !row.isDirect).map((row) => row.title)).filter(
    (title) => !direct.some(([one]) => one === title),
  );
  return [
    "## Measure me",
    ...(direct.length > 0
      ? [
          "Not known until somebody measures it; a range is a guess. What a file gives as `measured` takes its place.",
          table(["what", "range", "where it stands", "where that comes from"], direct),
        ]
      : []),
    ...(through.length > 0 ? [`Through other models also: ${listed(through)}.`] : []),
  ];
}

function heldSection({ groups }: FileSubject, { figures: held }: Book): string[] {
  const mine = new Set(groups.flatMap(({ models }) => models.map((m) => m.id)));
  const rows = held.filter((row) => mine.has(row.model));
  if (rows.length === 0) return [];
  return [
    "## Held against",
    "Figures from outside the code; `npm run validate` works them out again.",
    table(
      ["figure", "expected", "within", "unit", "how known", "source"],
      rows.map((row) => [
        row.id,
        plain(row.expected),
        plain(row.tolerance, 2),
        row.unit === "1" ? "" : unitWord(row.unit),
        row.how,
        row.source,
      ]),
    ),
  ];
}
const plain = (v: number, count = 5): string =>
  Number.isFinite(v) ? String(Number(v.toPrecision(count))) : showIn("", v);
