/**
 * The doc comments of a source file, each with what it stands over: its words are the handbook's prose, so that there is one place to edit.
 * Only comments that begin a line at the left margin count; those inside a declaration speak to whoever reads the code.
 */
export interface DocComment {
  readonly text: string;
  /** Ids that the declaration behind it writes: of models and checks; a template's hole stands as "*". */
  readonly ids: readonly string[];
  /** Where it begins in the file. */
  readonly at: number;
}

export function docComments(source: string): DocComment[] {
  return [...source.matchAll(/^\/\*\*([\s\S]*?)\*\/\n/gm)].map((match) => {
    const behind = source.slice(match.index + match[0].length);
    return { text: bare(match[1]!), ids: idsIn(declaration(behind)).map((one) => one.id), at: match.index };
  });
}
/** A comment's words without its stars. */
const bare = (body: string): string =>
  body
    .split("\n")
    .map((line) => line.replace(/^\s*\* ?/, "").trimEnd())
    .join("\n")
    .replace(/^\s*\n/, "")
    .trim();

/** The declaration at the beginning of a text: up to the next line that begins one. */
function declaration(text: string): string {
  const next = /\n(?=\/\*\*|\/\/|export |const |function |class |interface |type |import )/.exec(text);
  return next ? text.slice(0, next.index) : text;
}

/** The ids that a source writes, in order: `id: "film.peel"` as it is, a template with "*" for each of its holes. */
export function idsIn(source: string): { readonly id: string; readonly at: number }[] {
  return [...source.matchAll(/\bid: (?:"([^"]+)"|`([^`]+)`)/g)].map((match) => ({
    id: match[1] ?? match[2]!.replace(/\$\{[^}]*\}/g, "*"),
    at: match.index,
  }));
}
/** Whether an id is one that was written so: "drive.*-reserve" is "drive.feed-reserve". */
export const isWritten = (written: string, id: string): boolean =>
  written === id ||
  (written.includes("*") &&
    new RegExp(`^${written.replace(/[.+?^${}()|[\]\\]/g, "\\$&").replaceAll("*", "[A-Za-z.-]+")}$`).test(id));

/** A model as its source writes it: for one that no scene at hand reads. */
export interface WrittenModel {
  readonly id: string;
  readonly title: string;
  readonly equation: string;
}
export function writtenModels(source: string): WrittenModel[] {
  return [...source.matchAll(/\{\n\s+id: "([^"]+)",\n([\s\S]*?)\n\s*reads\b/g)].flatMap(([, id = "", body = ""]) => {
    const word = (name: string): string | undefined =>
      new RegExp(`\\b${name}:\\s+"((?:[^"\\\\]|\\\\.)*)"`).exec(body)?.[1];
    const [symbol, title, equation] = [word("symbol"), word("title"), word("equation")];
    // A check's braces begin alike.
    if (/\b(?:station|id):/.test(body)) return [];
    return title && equation ? [{ id, title, equation: `${symbol ?? "x"} = ${equation}` }] : [];
  });
}
