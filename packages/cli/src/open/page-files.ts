import { readdirSync, readFileSync } from "node:fs";
import { extname, join } from "node:path";
import { fileURLToPath } from "node:url";

/** Where the page lies once it is built. */
export const pageFolder = fileURLToPath(new URL("../../../web/dist/", import.meta.url));

const kinds: Readonly<Record<string, string>> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".mjs": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".json": "application/json",
  ".map": "application/json",
  ".svg": "image/svg+xml",
  ".png": "image/png",
  ".ico": "image/x-icon",
  ".woff2": "font/woff2",
  ".wasm": "application/wasm",
  ".txt": "text/plain; charset=utf-8",
};
export interface PageFile {
  readonly kind: string;
  readonly path: string;
}

/**
 * The files of the built page by the path they are asked for. A request is looked up here as it came and never turned into a path of its own,
 * so no way of writing "up one folder" leads anywhere. Links are left out.
 */
export class PageFiles {
  private readonly folder: string;
  private files = new Map<string, PageFile>();
  constructor(folder: string) {
    this.folder = folder;
    this.refresh();
  }
  /** Looks for the files again: the page may have been built meanwhile. */
  refresh(): void {
    this.files = new Map();
    this.collect("");
    const page = this.files.get("/index.html");
    if (page) this.files.set("/", page);
  }
  find(asked: string): PageFile | undefined {
    return this.files.get(asked);
  }
  read(file: PageFile): Buffer | undefined {
    try {
      return readFileSync(file.path);
    } catch {
      return undefined;
    }
  }
  private collect(inner: string): void {
    let entries: ReturnType<typeof list>;
    try {
      entries = list(join(this.folder, inner));
    } catch {
      return;
    }
    for (const entry of entries) {
      const path = `${inner}/${entry.name}`;
      if (entry.isDirectory()) this.collect(path);
      const kind = entry.isFile() ? kinds[extname(entry.name)] : undefined;
      if (kind) this.files.set(encodeURI(path), { kind, path: join(this.folder, path) });
    }
  }
}
const list = (folder: string) => readdirSync(folder, { withFileTypes: true });

const plain = (title: string, lines: readonly string[]): string =>
  `<!doctype html>\n<html lang="en">\n<meta charset="utf-8">\n<title>${title}</title>\n<h1>${title}</h1>\n${lines.map((line) => `<p>${line}</p>\n`).join("")}</html>\n`;
export const notBuilt: string = plain("The page is not built yet", [
  "Run <code>npm run build</code> in the folder of the program, then load this page again.",
  "The server runs and guards your project's folder meanwhile; what other programs change there is taken in.",
]);
export const noSession: string = plain("Open the address that the terminal shows", [
  "It works once. Press Enter in the terminal for a new one.",
  'If you have just come by that address, <a href="/">go on here</a>.',
]);
