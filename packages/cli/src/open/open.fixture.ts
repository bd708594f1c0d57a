import { createHash } from "node:crypto";
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  realpathSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { type IncomingHttpHeaders, type IncomingMessage, request } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { lineDiff, toJson } from "@tapeworthy/project";
import { OpenServer, type ServerOptions } from "./server.ts";
import type { SharedState } from "./shared-folder.ts";

export const sha256 = (text: string): string => createHash("sha256").update(text).digest("hex");
export const wren = "units/wren.yaml";
export const first = "one: 1\ntwo: 2\nthree: 3\nfour: 4\n";
export const quick = { settle: 20, doubt: 120, look: 400, idle: 10_000 };

/** An invented project's folder; it need make no sense, only be text. */
export class Folder {
  readonly path = realpathSync(mkdtempSync(join(tmpdir(), "tapeworthy-open-")));
  constructor(
    files: Readonly<Record<string, string>> = {
      "project.yaml": "format: 1\n",
      [wren]: first,
      "tapes/a-8.yaml": "a: 1\n",
    },
  ) {
    for (const [file, text] of Object.entries(files)) this.write(file, text);
  }
  file = (name: string): string => join(this.path, name);
  write(name: string, text: string | Buffer): void {
    mkdirSync(join(this.file(name), ".."), { recursive: true });
    writeFileSync(this.file(name), text);
  }
  read = (name = wren): string | undefined =>
    existsSync(this.file(name)) ? readFileSync(this.file(name), "utf8") : undefined;
  /** Everything in it but our own corner. */
  contents(inner = ""): Record<string, string> {
    const all: Record<string, string> = {};
    for (const entry of readdirSync(this.file(inner), { withFileTypes: true })) {
      const name = inner === "" ? entry.name : `${inner}/${entry.name}`;
      if (name === ".tapeworthy") continue;
      if (entry.isDirectory()) Object.assign(all, this.contents(name));
      else all[name] = this.read(name)!;
    }
    return all;
  }
  remove(): void {
    rmSync(this.path, { recursive: true, force: true });
  }
}

export interface Reply {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly text: string;
  // biome-ignore lint/suspicious/noExplicitAny: tests look at what the server says, whatever it is.
  readonly json: any;
}
export interface Ask {
  readonly method?: string;
  readonly headers?: Readonly<Record<string, string | undefined>>;
  readonly body?: string | Buffer;
}
/** Somebody who talks to a server, with a cookie or without. */
export class Visitor {
  readonly port: number;
  cookie = "";
  constructor(port: number) {
    this.port = port;
  }
  /** Comes by an address, as a browser does. */
  static async by(address: string): Promise<Visitor> {
    const url = new URL(address);
    const visitor = new Visitor(Number(url.port));
    const { headers } = await visitor.ask(url.pathname + url.search);
    visitor.cookie = headers["set-cookie"]?.[0]?.split(";")[0] ?? "";
    return visitor;
  }
  get origin(): string {
    return `http://127.0.0.1:${this.port}`;
  }
  ask(path: string, { method = "GET", headers = {}, body }: Ask = {}): Promise<Reply> {
    return new Promise((resolve, reject) => {
      const all = { Cookie: this.cookie, ...headers };
      const sent = Object.fromEntries(Object.entries(all).filter(([, v]) => v !== undefined && v !== ""));
      const out = request({
        host: "127.0.0.1",
        port: this.port,
        path,
        method,
        headers: sent as Record<string, string>,
        agent: false,
      });
      out.on("response", (response) => {
        let text = "";
        response.setEncoding("utf8");
        response.on("data", (piece: string) => {
          text += piece;
        });
        response.on("error", reject);
        response.on("end", () => {
          const isJson = text !== "" && response.headers["content-type"] === "application/json";
          resolve({
            status: response.statusCode!,
            headers: response.headers,
            text,
            json: isJson ? JSON.parse(text) : undefined,
          });
        });
      });
      out.on("error", reject);
      out.end(body);
    });
  }
  post(path: string, body: unknown, headers: Ask["headers"] = {}): Promise<Reply> {
    const text = typeof body === "string" ? body : JSON.stringify(body);
    return this.ask(path, {
      method: "POST",
      headers: { Origin: this.origin, "Content-Type": "application/json", ...headers },
      body: text,
    });
  }
  async state(): Promise<SharedState & { readonly event: string; readonly examples: readonly string[] }> {
    return (await this.ask("/state")).json;
  }
  async text(file = wren): Promise<string | undefined> {
    return (await this.state()).files.find((one) => one.file === file)?.text;
  }
  /** Turns a text into another. */
  edit(
    before: string,
    after: string,
    { file = wren, gesture = "g", done = true, id = undefined as string | undefined } = {},
  ): Promise<Reply> {
    return this.post("/edit", {
      file,
      base: sha256(before),
      changes: toJson(lineDiff(before, after)),
      gesture,
      done,
      id,
    });
  }
  listen(last?: string, headers: Ask["headers"] = {}): Promise<Listener> {
    return new Promise((resolve, reject) => {
      const path = last === undefined ? "/events" : `/events?last=${last}`;
      const sent = { Cookie: this.cookie, ...headers } as Record<string, string>;
      const out = request({ host: "127.0.0.1", port: this.port, path, headers: sent, agent: false });
      out.on("response", (response) => resolve(new Listener(response)));
      out.on("error", reject);
      out.end();
    });
  }
}
export interface Heard {
  readonly id: string;
  readonly event: string;
  // biome-ignore lint/suspicious/noExplicitAny: as above.
  readonly data: any;
}
/** Reads a stream of events. */
export class Listener {
  readonly status: number;
  readonly heard: Heard[] = [];
  isOver = false;
  beats = 0;
  private readonly response: IncomingMessage;
  constructor(response: IncomingMessage) {
    this.response = response;
    this.status = response.statusCode!;
    let rest = "";
    response.setEncoding("utf8");
    response.on("data", (piece: string) => {
      const blocks = (rest + piece).split("\n\n");
      rest = blocks.pop()!;
      for (const block of blocks) this.take(block);
    });
    response.on("error", () => {});
    response.on("close", () => {
      this.isOver = true;
    });
  }
  of(event: string): Heard[] {
    return this.heard.filter((one) => one.event === event);
  }
  end(): void {
    this.response.destroy();
  }
  private take(block: string): void {
    if (block === ":") this.beats++;
    const field = (name: string) =>
      block
        .split("\n")
        .find((line) => line.startsWith(`${name}: `))
        ?.slice(name.length + 2);
    const [id, event, data] = [field("id"), field("event"), field("data")];
    if (id !== undefined && event !== undefined) this.heard.push({ id, event, data: JSON.parse(data!) });
  }
}

/** Waits until a claim holds; says what was wrong with it after a while. */
export async function until(claim: () => void | Promise<void>, time = 60_000): Promise<void> {
  const end = performance.now() + time;
  for (;;) {
    try {
      await claim();
      return;
    } catch (e) {
      if (performance.now() > end) throw e;
      await new Promise((resolve) => setTimeout(resolve, 10));
    }
  }
}
/** A folder, a server on it and a page that came by its address; everything is gone afterwards. */
export async function served(
  use: (at: { folder: Folder; server: OpenServer; page: Visitor; said: string[] }) => Promise<void>,
  {
    files,
    prepare = () => {},
    ...options
  }: ServerOptions & {
    readonly files?: Readonly<Record<string, string>>;
    readonly prepare?: (folder: Folder) => void;
  } = {},
): Promise<void> {
  const folder = files ? new Folder(files) : new Folder();
  prepare(folder);
  const said: string[] = [];
  const server = await OpenServer.start(folder.path, {
    patience: quick,
    page: folder.file("no page"),
    say: (line) => said.push(line),
    ...options,
  });
  try {
    await use({ folder, server, page: await Visitor.by(server.newAddress()), said });
  } finally {
    await server.close();
    folder.remove();
  }
}
