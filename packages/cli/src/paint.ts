/** Colour only on a terminal that wants it; a word or mark always stands beside the colour. */
export interface Paint {
  readonly feeds: (text: string) => string;
  readonly depends: (text: string) => string;
  readonly stops: (text: string) => string;
  readonly strong: (text: string) => string;
  readonly faint: (text: string) => string;
}
const code = (open: number, close: number) => (text: string) => `\u001b[${open}m${text}\u001b[${close}m`;
const plain = (text: string): string => text;

export function paintFor(stream: { readonly isTTY?: boolean }, env: NodeJS.ProcessEnv = process.env): Paint {
  const colour = stream.isTTY === true && env.NO_COLOR === undefined && env.TERM !== "dumb";
  return colour
    ? { feeds: code(32, 39), depends: code(33, 39), stops: code(31, 39), strong: code(1, 22), faint: code(2, 22) }
    : { feeds: plain, depends: plain, stops: plain, strong: plain, faint: plain };
}

/** Breaks a text into lines of at most `width`, later lines indented. */
export function wrapped(text: string, width: number, indent = ""): string {
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(" ")) {
    if (line !== "" && line.length + 1 + word.length > width) {
      lines.push(line);
      line = indent + word;
    } else line = line === "" ? word : `${line} ${word}`;
  }
  lines.push(line);
  return lines.join("\n");
}
