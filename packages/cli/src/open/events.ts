import { randomBytes } from "node:crypto";
import type { IncomingMessage, ServerResponse } from "node:http";
import type { Told } from "./shared-folder.ts";

export const mostStreams = 64;
const keptEvents = 2000;
const keptLength = 8_000_000;
/** A reader that leaves so many bytes waiting has gone to sleep. */
const mostWaiting = 4_000_000;

/**
 * Tells every open page what happens, in one order. An event's id is RUN-NUMBER; a page that was away names the last one it had and is told
 * the rest, or to load everything again where that is not known any more.
 */
export class Events {
  private readonly run = randomBytes(6).toString("hex");
  private count = 0;
  private readonly streams = new Set<ServerResponse>();
  private readonly kept: string[] = [];
  private length = 0;
  private readonly timer: NodeJS.Timeout;

  /** `beat` ms between signs of life. */
  constructor(beat: number) {
    this.timer = setInterval(() => this.send(":\n\n"), beat).unref();
  }
  /** The last event's id. */
  get last(): string {
    return `${this.run}-${this.count}`;
  }
  get open(): number {
    return this.streams.size;
  }
  tell({ event, data }: Told): void {
    this.count++;
    const text = eventText(event, data, this.last);
    this.kept.push(text);
    this.length += text.length;
    while (this.kept.length > keptEvents || (this.length > keptLength && this.kept.length > 1))
      this.length -= this.kept.shift()!.length;
    this.send(text);
  }
  /** Opens a stream; false where there are too many already. */
  connect(request: IncomingMessage, response: ServerResponse, last: string | undefined): boolean {
    if (this.streams.size >= mostStreams) return false;
    response.writeHead(200, { "Content-Type": "text/event-stream" });
    response.write("retry: 1000\n\n");
    const missed = last === undefined ? [] : this.since(last);
    if (missed) for (const text of missed) response.write(text);
    else response.write(eventText("reload", {}, this.last));
    this.streams.add(response);
    const forget = () => void this.streams.delete(response);
    response.on("close", forget);
    response.on("error", forget);
    request.on("error", forget);
    return true;
  }
  close(): void {
    clearInterval(this.timer);
    for (const stream of this.streams) stream.end();
  }
  private since(last: string): readonly string[] | undefined {
    const number = last.startsWith(`${this.run}-`) ? last.slice(this.run.length + 1) : "";
    const behind = this.count - Number(number);
    return /^\d+$/.test(number) && behind >= 0 && behind <= this.kept.length
      ? this.kept.slice(this.kept.length - behind)
      : undefined;
  }
  private send(text: string): void {
    for (const stream of this.streams) {
      if (stream.writableLength > mostWaiting) stream.destroy();
      else stream.write(text);
    }
  }
}
const eventText = (event: string, data: unknown, id: string): string =>
  `id: ${id}\nevent: ${event}\ndata: ${JSON.stringify(data)}\n\n`;
