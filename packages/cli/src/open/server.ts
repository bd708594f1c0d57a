import { createServer, type IncomingMessage, type Server, type ServerResponse } from "node:http";
import type { AddressInfo, Socket } from "node:net";
import { pipeline } from "node:stream/promises";
import { isProjectPath } from "@tapeworthy/project";
import { CallError } from "../folder.ts";
import { exampleNames, exampleRaw, exampleTexts } from "../start-project.ts";
import { readObject, tooLongByItsHead } from "./body.ts";
import { Events, mostStreams } from "./events.ts";
import { checkHost, checkSite, checkWriting, guardingHeaders, Keys } from "./guard.ts";
import { JournalError } from "./journal-file.ts";
import { noSession, notBuilt, PageFiles, pageFolder } from "./page-files.ts";
import { RawFiles } from "./raw-files.ts";
import { beginWish, editWish, fileAsked, offerAnswer, skipWish } from "./requests.ts";
import { type Answer, type Patience, SharedFolder } from "./shared-folder.ts";

export interface ServerOptions {
  /** 0: any that is free. */
  readonly port?: number;
  /** Seed of the page's draws. */
  readonly seed?: number;
  readonly patience?: Patience;
  /** Milliseconds between signs of life on an event stream. */
  readonly beat?: number;
  /** Milliseconds that a request's head, and a whole request, may take. */
  readonly head?: number;
  readonly whole?: number;
  /** Where the built page lies. */
  readonly page?: string;
  /** Bytes of raw rows that are kept in one file. */
  readonly mostKept?: number;
  /** What a person at the terminal should know. */
  readonly say?: (line: string) => void;
}

const mostConnections = 1024;
/** Connections that have not shown a cookie yet; the oldest makes room for the next. */
const mostStrangers = 400;

const loopback = "127.0.0.1";
/** What a refusal of the texts is as a status. */
const statusOf = {
  malformed: 400,
  "unknown base": 409,
  conflict: 409,
  gone: 409,
  exists: 409,
  nothing: 409,
  locked: 423,
};

/** The local server of one project's folder. */
export class OpenServer {
  private readonly shared: SharedFolder;
  private readonly raw: RawFiles;
  private readonly events: Events;
  private readonly server: Server;
  private readonly pages: PageFiles;
  private readonly strangers = new Set<Socket>();
  private readonly say: (line: string) => void;
  private readonly keys: Keys;
  private readonly seed: number;
  readonly port: number;

  /** Opens a folder. Rejects with CallError where it is open already, is no project, or the port is taken. */
  static async start(folder: string, options: ServerOptions = {}): Promise<OpenServer> {
    const { port: wanted = 0, head = 5000, whole = 15_000 } = options;
    const server = createServer({
      headersTimeout: head,
      requestTimeout: whole,
      keepAliveTimeout: head,
      connectionsCheckingInterval: Math.min(1000, head),
    });
    server.maxConnections = mostConnections;
    const port = await listen(server, wanted);
    try {
      return new OpenServer(server, port, folder, options);
    } catch (e) {
      server.close();
      throw e;
    }
  }
  private constructor(server: Server, port: number, folder: string, options: ServerOptions) {
    this.server = server;
    this.port = port;
    this.say = options.say ?? (() => {});
    this.events = new Events(options.beat ?? 15_000);
    this.pages = new PageFiles(options.page ?? pageFolder);
    this.keys = new Keys(port);
    this.seed = options.seed ?? 1;
    this.shared = new SharedFolder(folder, (told) => this.events.tell(told), this.say, options.patience);
    this.raw = new RawFiles(folder, options.mostKept);
    server.on("request", (request, response) => void this.serve(request, response));
    // A body is asked for only where it will be read.
    server.on("checkContinue", (request, response) => void this.serve(request, response));
    server.on("clientError", (_, socket) => socket.destroy());
    server.on("connection", (socket) => this.meet(socket));
  }
  /** An address that opens the page once; the one before it opens it no more. */
  newAddress(): string {
    return `http://${loopback}:${this.port}/?token=${this.keys.newToken()}`;
  }
  /** Looks at the folder now. */
  look(): void {
    this.shared.look();
  }
  /** Ends all connections, writes what there is to write and lets the folder go. */
  async close(): Promise<void> {
    this.events.close();
    this.shared.close();
    const closed = new Promise<void>((resolve) => this.server.close(() => resolve()));
    this.server.closeAllConnections();
    await closed;
  }

  private meet(socket: Socket): void {
    socket.on("error", () => socket.destroy());
    socket.on("close", () => this.strangers.delete(socket));
    this.strangers.add(socket);
    const [oldest] = this.strangers;
    if (this.strangers.size > mostStrangers) oldest?.destroy();
  }
  private async serve(request: IncomingMessage, response: ServerResponse): Promise<void> {
    response.on("error", () => response.destroy());
    try {
      const reply = await this.reply(request, response);
      // A body that nobody will read is not waited for.
      const isUnread = reply !== undefined && reply.status >= 400 && request.method === "POST" && !request.complete;
      if (reply) send(response, isUnread ? { ...reply, isLast: true } : reply);
    } catch (e) {
      if (e instanceof JournalError) return send(response, json(507, { code: "journal", words: e.message }));
      if (!request.complete && request.destroyed) return;
      this.say(`A request could not be answered, please report this: ${(e as Error).stack ?? e}`);
      send(response, json(500, { code: "bug", words: "The program has a fault; the terminal says more." }));
    }
  }
  /** Undefined where the answer is a stream, which is under way. */
  private async reply(request: IncomingMessage, response: ServerResponse): Promise<Reply | undefined> {
    const { headers, method = "" } = request;
    const [path = "", query = ""] = (request.url ?? "").split(/\?(.*)/s);
    const away = checkHost(headers, this.port) ?? checkSite(headers, path === "/");
    if (away) return json(away.status, away);
    if (path === "/" && method === "GET" && query.startsWith("token=")) return this.trade(query.slice(6));
    if (!this.keys.isKnown(headers.cookie))
      return path === "/"
        ? html(401, noSession)
        : json(401, { code: "session", words: "Open the address that the terminal shows." });
    this.strangers.delete(request.socket);
    const act = Object.hasOwn(writing, path) ? writing[path] : undefined;
    if (act) return method === "POST" ? this.write(act, request, response) : notAllowed("POST");
    if (path === "/keep") return method === "POST" ? this.keep(query, request, response) : notAllowed("POST");
    if (path === "/events" && method === "GET") return this.openStream(request, response, query);
    if (method !== "GET" && method !== "HEAD") return notAllowed("GET, HEAD");
    if (path === "/events") return notAllowed("GET");
    if (path === "/state")
      return json(200, {
        ...this.shared.state(),
        examples: exampleNames(),
        seed: this.seed,
        event: this.events.last,
      });
    if (path === "/raw") return this.openRaw(query, method, response);
    return this.page(path);
  }
  private trade(token: string): Reply {
    const cookie = this.keys.trade(token);
    if (cookie === undefined) return html(401, noSession);
    return { ...html(303, ""), headers: { "Set-Cookie": cookie, Location: "/" } };
  }
  private openStream(request: IncomingMessage, response: ServerResponse, query: string): Reply | undefined {
    const header = request.headers["last-event-id"];
    const asked = (typeof header === "string" ? header : undefined) ?? /^last=([\w-]*)$/.exec(query)?.[1];
    response.setHeaders(new Map(Object.entries(guardingHeaders)));
    if (this.events.connect(request, response, asked)) return undefined;
    return json(503, { code: "busy", words: `${mostStreams} pages listen already; close some.` });
  }
  /** Sends raw rows as they lie on disk, never whole in memory. */
  private async openRaw(query: string, method: string, response: ServerResponse): Promise<Reply | undefined> {
    const file = fileAsked(query);
    if (file === undefined) return json(400, { code: "malformed", words: "Ask for /raw?file=bench/T-01/raw.parquet." });
    const found = this.raw.find(file);
    if (!found) return json(404, { code: "not found", words: `There is no file of raw rows ${file}.` });
    response.writeHead(200, {
      ...guardingHeaders,
      "Content-Type": "application/octet-stream",
      "Content-Length": found.bytes,
    });
    if (method === "HEAD") {
      found.close();
      response.end();
      return undefined;
    }
    // Whoever goes away, or a disk that fails: the connection ends, and a length that was promised shows what is missing.
    await pipeline(found.read(), response).catch(() => response.destroy());
    return undefined;
  }
  private async keep(query: string, request: IncomingMessage, response: ServerResponse): Promise<Reply> {
    const away = checkWriting(request.headers, "octet-stream");
    if (away) return json(away.status, away);
    const file = fileAsked(query) ?? "";
    const refused = this.raw.refusal(file, Number(request.headers["content-length"] ?? 0));
    if (refused) return json(refused.status, refused);
    if (request.headers.expect !== undefined) response.writeContinue();
    const kept = await this.raw.keep(file, request);
    return "status" in kept ? json(kept.status, kept) : json(200, kept);
  }
  private page(path: string): Reply {
    if (path === "/") this.pages.refresh();
    const file = this.pages.find(path);
    const body = file && this.pages.read(file);
    if (file && body) return { status: 200, kind: file.kind, body };
    return path === "/" ? html(200, notBuilt) : json(404, { code: "not found", words: "There is nothing here." });
  }
  private async write(act: Act, request: IncomingMessage, response: ServerResponse): Promise<Reply> {
    const away = checkWriting(request.headers) ?? tooLongByItsHead(request);
    if (away) return json(away.status, away);
    if (request.headers.expect !== undefined) response.writeContinue();
    const read = await readObject(request);
    if ("status" in read) return json(read.status, read);
    const answer = act(this.shared, read.body);
    if (typeof answer === "string") return json(400, { code: "malformed", words: answer });
    if ("refused" in answer) {
      const { refused, ...rest } = answer;
      return json(statusOf[refused], { code: refused, ...rest });
    }
    const changes = answer.changes.map((change) => ({ ...change, written: this.shared.isWritten(change.file) }));
    return json(200, { changes, history: this.shared.depth });
  }
}

/** What a writing request does; a text says what is wrong with its fields. */
type Act = (shared: SharedFolder, body: Record<string, unknown>) => Answer | string;
const writing: Readonly<Record<string, Act>> = {
  "/edit": (shared, body) => {
    const wish = editWish(body);
    return typeof wish === "string" ? wish : shared.edit(wish);
  },
  "/undo": (shared, body) => {
    const wish = skipWish(body);
    if (typeof wish === "string") return wish;
    return wish.skip === undefined ? shared.undo() : shared.skip("undo", wish.skip);
  },
  "/redo": (shared, body) => {
    const wish = skipWish(body);
    if (typeof wish === "string") return wish;
    return wish.skip === undefined ? shared.redo() : shared.skip("redo", wish.skip);
  },
  "/begin": (shared, body) => {
    const from = beginWish(body, exampleNames());
    return typeof from === "string" ? from : shared.begin(projectTexts(from.example), exampleRaw(from.example));
  },
  "/offer": (shared, body) => {
    const wish = offerAnswer(body);
    return typeof wish === "string" ? wish : shared.answer(wish.offer, wish.take);
  },
};

/** What of an example belongs to a project: notes beside it stay where they are. */
const projectTexts = (example: string): ReadonlyMap<string, string> =>
  new Map([...exampleTexts(example)].filter(([file]) => isProjectPath(file)));

async function listen(server: Server, port: number): Promise<number> {
  await new Promise<void>((resolve, reject) => {
    server.once("error", (e: NodeJS.ErrnoException) => {
      const why = { EADDRINUSE: "is taken", EACCES: "is reserved for the system" }[e.code ?? ""];
      reject(why ? new CallError(`Port ${port} ${why}; leave --port away for any that is free.`) : e);
    });
    server.listen(port, loopback, resolve);
  });
  server.removeAllListeners("error");
  server.on("error", () => {});
  return (server.address() as AddressInfo).port;
}
interface Reply {
  readonly status: number;
  readonly kind: string;
  readonly body: string | Buffer;
  readonly headers?: Readonly<Record<string, string>>;
  /** What is left of the request is not read, and the connection ends. */
  readonly isLast?: true;
}
function json(status: number, fields: object): Reply {
  const { status: _, ...body } = fields as { status?: number };
  return { status, kind: "application/json", body: `${JSON.stringify(body)}\n` };
}
const html = (status: number, body: string): Reply => ({ status, kind: "text/html; charset=utf-8", body });
const notAllowed = (allow: string): Reply => ({
  ...json(405, { code: "method", words: `Only ${allow}.` }),
  headers: { Allow: allow },
  isLast: true,
});
function send(response: ServerResponse, { status, kind, body, headers, isLast }: Reply): void {
  if (response.headersSent) {
    response.destroy();
    return;
  }
  response.writeHead(status, {
    ...guardingHeaders,
    ...headers,
    ...(isLast ? { Connection: "close" } : {}),
    "Content-Type": kind,
    "Content-Length": Buffer.byteLength(body),
  });
  response.end(body);
}
