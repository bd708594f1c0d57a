import { randomBytes, timingSafeEqual } from "node:crypto";
import type { IncomingHttpHeaders } from "node:http";

/** Why a request is turned away. */
export interface TurnedAway {
  readonly status: 401 | 403 | 415;
  readonly code: "host" | "session" | "origin" | "site" | "type";
  readonly words: string;
}

/**
 * Who may come in: whoever shows the cookie that was given for the address printed in the terminal. The address works once. The cookie's
 * name holds the port, since browsers do not tell the ports of one computer apart when they send cookies.
 */
export class Keys {
  private readonly sessions: string[] = [];
  private token: string | undefined;
  private readonly name: string;
  constructor(port: number) {
    this.name = `tapeworthy-${port}`;
  }
  /** A new token; the one before it is dead. */
  newToken(): string {
    this.token = randomBytes(32).toString("hex");
    return this.token;
  }
  /** Gives the cookie for a token, once; undefined for any other. */
  trade(token: string): string | undefined {
    if (this.token === undefined || !isSame(token, this.token)) return undefined;
    this.token = undefined;
    const session = randomBytes(32).toString("hex");
    this.sessions.push(session);
    if (this.sessions.length > 100) this.sessions.shift();
    return `${this.name}=${session}; Path=/; HttpOnly; SameSite=Strict`;
  }
  isKnown(cookies: string | undefined): boolean {
    const shown = (cookies ?? "")
      .split(";")
      .map((one) => one.trim())
      .filter((one) => one.startsWith(`${this.name}=`))
      .map((one) => one.slice(this.name.length + 1));
    return shown.slice(0, 4).some((one) => this.sessions.some((session) => isSame(one, session)));
  }
}
function isSame(a: string, b: string): boolean {
  const [p, q] = [Buffer.from(a), Buffer.from(b)];
  return p.length === q.length && timingSafeEqual(p, q);
}

/** A page of another name that leads here (by a name server that changes its mind) is not ours. */
export function checkHost(headers: IncomingHttpHeaders, port: number): TurnedAway | undefined {
  if (headers.host === `127.0.0.1:${port}` || headers.host === `localhost:${port}`) return undefined;
  return { status: 403, code: "host", words: `This is 127.0.0.1:${port} and answers to no other name.` };
}
/** A browser that says another site asks, is believed. Going to the page itself is allowed from anywhere: without the cookie it shows nothing. */
export function checkSite(headers: IncomingHttpHeaders, isPage: boolean): TurnedAway | undefined {
  const site = headers["sec-fetch-site"];
  if (site === undefined || site === "same-origin" || site === "none") return undefined;
  if (isPage && headers["sec-fetch-mode"] === "navigate") return undefined;
  return { status: 403, code: "site", words: "Another site may not ask this." };
}
/** What changes something comes from our own page, as plain JSON or as bytes, and from nowhere else. */
export function checkWriting(
  headers: IncomingHttpHeaders,
  kind: "json" | "octet-stream" = "json",
): TurnedAway | undefined {
  const site = headers["sec-fetch-site"];
  if (headers.origin !== `http://${headers.host}` || (site !== undefined && site !== "same-origin"))
    return { status: 403, code: "origin", words: "Only the page of this address may change something." };
  const wanted = kind === "json" ? /^application\/json(; *charset=utf-8)?$/i : /^application\/octet-stream$/i;
  if (!wanted.test(headers["content-type"] ?? ""))
    return { status: 415, code: "type", words: `Send application/${kind}.` };
  return undefined;
}

/** On every answer. Scripts and styles come in files of their own; nothing that stands in a text is run. */
export const guardingHeaders: Readonly<Record<string, string>> = {
  "Content-Security-Policy":
    "default-src 'none'; script-src 'self'; worker-src 'self'; style-src 'self'; img-src 'self' data: blob:; font-src 'self'; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
  "X-Content-Type-Options": "nosniff",
  "X-Frame-Options": "DENY",
  "Referrer-Policy": "no-referrer",
  "Cross-Origin-Opener-Policy": "same-origin",
  "Cross-Origin-Resource-Policy": "same-origin",
  "Cache-Control": "no-store",
};
