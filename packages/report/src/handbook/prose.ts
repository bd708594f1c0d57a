import { moreGreek, printed } from "./printed.ts";

/** What a word of the prose leads to: the page of a source file, or of a check; undefined where there is none. */
export type LinkTo = (name: string) => string | undefined;

const greek = ["alpha|beta|delta|eps|eta|theta|kappa|lambda|mu|nu|phi|psi|pi", ...moreGreek].join("|");
const greekWord = new RegExp(`(?<![\\w.-])(?:(?:${greek})|[A-Za-z]+_(?:${greek}))(?:_[A-Za-z0-9]+)*(?![\\w-])`, "g");
const inPrint = (text: string): string => text.replace(greekWord, printed);
/** The same where words stand in columns: what letters save is filled up before the next column. */
const columnsInPrint = (text: string): string =>
  text
    .split("\n")
    .map((line) => {
      let saved = 0;
      return line
        .split(/((?<=\S) {2,})/)
        .map((piece, i) => {
          if (i % 2 === 1) return piece + " ".repeat(saved);
          const printed = inPrint(piece);
          saved = piece.length - printed.length;
          return printed;
        })
        .join("");
    })
    .join("\n");

/**
 * A doc comment as Markdown. Paragraphs stay paragraphs; what is indented (equations) and what stands in columns (symbols, units, ranges) stays as it
 * is set, in a block of its own.
 */
export function markdownOf(comment: string, link: LinkTo = () => undefined): string {
  return blocksOf(comment)
    .map(({ kind, lines }) =>
      kind === "words" ? words(lines.join("\n"), link) : `\`\`\`text\n${columnsInPrint(dedented(lines))}\n\`\`\``,
    )
    .join("\n\n");
}
/** Whether a comment sets an equation. */
export const hasEquation = (comment: string): boolean => blocksOf(comment).some((b) => b.kind === "equation");

interface Block {
  readonly kind: "words" | "equation" | "columns";
  readonly lines: readonly string[];
}
function blocksOf(comment: string): Block[] {
  const out: { kind: Block["kind"]; lines: string[] }[] = [];
  for (const paragraph of comment.split(/\n[ \t]*\n/)) {
    const lines = paragraph.split("\n").filter((line) => line !== "");
    const columns =
      lines.filter((line) => /^\S(?:.{0,30}?\S)?\s{2,}\S/.test(line)).length >= Math.max(2, lines.length / 2);
    for (const line of lines) {
      const kind = /^ {4}/.test(line) ? "equation" : columns ? "columns" : "words";
      const last = out.at(-1);
      if (last?.kind === kind && line !== lines[0]) last.lines.push(line);
      // An equation set over several paragraphs is one block.
      else if (last?.kind === kind && kind === "equation") last.lines.push("", line);
      else out.push({ kind, lines: [line] });
    }
  }
  return out;
}
function dedented(lines: readonly string[]): string {
  const margins = lines.filter((line) => line !== "").map((line) => /^ */.exec(line)![0].length);
  const margin = Math.min(...margins);
  return lines.map((line) => line.slice(margin)).join("\n");
}

/** Words of a paragraph: code marks stay, signs of Markdown are shielded, files and checks become links, Greek letters are printed. */
function words(text: string, link: LinkTo): string {
  const plain = text.replace(/\{@link (\w+)\}/g, "$1");
  return plain
    .split(/(`[^`]*`)/)
    .map((piece) => (piece.startsWith("`") ? linked(piece.slice(1, -1), link, true) : prose(piece, link)))
    .join("");
}
function linked(name: string, link: LinkTo, code: boolean): string {
  const target = link(name);
  const shown = code || target ? `\`${name}\`` : name;
  return target ? `[${shown}](${target})` : shown;
}
const prose = (text: string, link: LinkTo): string =>
  text
    .split(/((?<![\w./-])(?:[a-z-]+\/)*[a-z][a-z-]*\.[a-z][a-z-]*(?![\w-]))/)
    .map((piece, i) => (i % 2 === 1 ? linked(piece, link, false) : shielded(inPrint(piece))))
    .join("");
const shielded = (text: string): string =>
  text
    .replace(/[*<>$[\]]/g, "\\$&")
    .replace(/(?<![\p{L}\d])_|_(?![\p{L}\d])/gu, "\\_")
    .replace(/^(\s*)([+#]|\d+\.)(?= )/gm, "$1\\$2");

/** The first sentence of a comment, on one line; files it names lose their marks. */
export function firstSentence(comment: string): string {
  const paragraph =
    blocksOf(comment)
      .find((b) => b.kind === "words")
      ?.lines.join(" ") ?? "";
  const end = /[.?:!](?=\s+[A-Z]|\s*$)/.exec(paragraph);
  const sentence = (end ? paragraph.slice(0, end.index + 1) : paragraph)
    .replace(/\{@link (\w+)\}/g, "$1")
    .replace(/`([\w/-]+)\.ts`/g, "$1");
  return shielded(inPrint(sentence)).replace(/:$/, ".");
}
