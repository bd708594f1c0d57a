import { afterEach, describe, expect, test, vi } from "vitest";
import { httpTransport } from "./http-transport.ts";
import type { ServerEvent } from "./transport.ts";

afterEach(() => vi.unstubAllGlobals());
const answering = (status: number, body: unknown) => {
  const asked: { path: string; body: unknown }[] = [];
  vi.stubGlobal("fetch", async (path: string, init?: { body?: string }) => {
    asked.push({ path, body: init?.body === undefined ? undefined : JSON.parse(init.body) });
    return new Response(JSON.stringify(body), { status });
  });
  return asked;
};
const request = { id: "1", file: "units/a.yaml", base: "h", changes: [3], gesture: "g", done: true };

describe("a request", () => {
  test("goes to the server's address with what it asks, and comes back as it was answered", async () => {
    const taken = { changes: [], history: { undo: 1, redo: 0 } };
    const asked = answering(200, taken);
    const transport = httpTransport();
    expect(await transport.edit(request)).toEqual(taken);
    await transport.undo();
    await transport.redo("g");
    await transport.answerOffer("o", false);
    expect(asked).toEqual([
      { path: "/edit", body: request },
      { path: "/undo", body: {} },
      { path: "/redo", body: { skip: "g" } },
      { path: "/offer", body: { offer: "o", answer: "drop" } },
    ]);
  });
  test.each([
    [409, "conflict", "conflict"],
    [423, "locked", "locked"],
    [401, "session", "session"],
    [507, "journal", "journal"],
    [403, "origin", "other"],
  ])("refused with %d, %s, is an answer", async (status, code, refused) => {
    answering(status, { code, words: "no", yours: "x" });
    expect(await httpTransport().edit(request)).toEqual({ refused, words: "no", yours: "x" });
  });
  test("that meets a fault of the server, or no server, rejects: nobody knows whether it arrived", async () => {
    answering(500, { code: "bug", words: "a fault" });
    await expect(httpTransport().edit(request)).rejects.toThrow("/edit: 500");
    answering(503, {});
    await expect(httpTransport().state()).rejects.toThrow("503");
    vi.stubGlobal("fetch", async () => {
      throw new TypeError("no line");
    });
    await expect(httpTransport().undo()).rejects.toThrow("no line");
  });
});

describe("the stream of events", () => {
  class Source {
    static last: Source;
    readonly url: string;
    readonly listeners = new Map<string, (message: unknown) => void>();
    onopen: (() => void) | undefined;
    onerror: (() => void) | undefined;
    isClosed = false;
    constructor(url: string) {
      this.url = url;
      Source.last = this;
    }
    addEventListener(event: string, f: (message: unknown) => void): void {
      this.listeners.set(event, f);
    }
    close(): void {
      this.isClosed = true;
    }
  }
  const listening = () => {
    vi.stubGlobal("EventSource", Source);
    const heard: (ServerEvent | "opened" | "lost")[] = [];
    const end = httpTransport().events("run-7", {
      hear: (event) => heard.push(event),
      opened: () => heard.push("opened"),
      lost: () => heard.push("lost"),
    });
    return { heard, end, source: Source.last };
  };
  test("begins at the event named, and tells each as it comes", () => {
    const { heard, source } = listening();
    expect(source.url).toBe("/events?last=run-7");
    source.onopen!();
    source.listeners.get("history")!({ data: '{"undo":1,"redo":0}', lastEventId: "run-8" });
    source.listeners.get("reload")!({ data: "{}", lastEventId: "run-9" });
    expect(heard).toEqual([
      "opened",
      { id: "run-8", event: "history", data: { undo: 1, redo: 0 } },
      { id: "run-9", event: "reload", data: {} },
    ]);
  });
  test("is lost once, and does not begin again by itself", () => {
    const { heard, source } = listening();
    source.onerror!();
    source.onerror!();
    expect([heard, source.isClosed]).toEqual([["lost"], true]);
  });
  test("that was ended is not lost", () => {
    const { heard, end, source } = listening();
    end();
    source.onerror!();
    expect([heard, source.isClosed]).toEqual([[], true]);
  });
});
