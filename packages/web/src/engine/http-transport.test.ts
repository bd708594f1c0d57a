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

describe("raw rows", () => {
  const file = "bench/T-01/raw 2.parquet";
  const calls = (status: number, body: BodyInit) => {
    const asked: [path: string, init: RequestInit | undefined][] = [];
    vi.stubGlobal("fetch", async (path: string, init?: RequestInit) => {
      asked.push([path, init]);
      return new Response(body, { status });
    });
    return asked;
  };
  test("are asked for by their name and come as bytes, or not at all", async () => {
    const asked = calls(200, Uint8Array.of(80, 65, 0, 255));
    expect(await httpTransport().raw(file)).toEqual(Uint8Array.of(80, 65, 0, 255));
    expect(asked[0]![0]).toBe("/raw?file=bench%2FT-01%2Fraw%202.parquet");
    calls(404, '{"code":"not found"}');
    expect(await httpTransport().raw(file)).toBeUndefined();
    calls(401, '{"code":"session"}');
    await expect(httpTransport().raw(file)).rejects.toThrow("could not be read: 401");
  });
  test("go out as bytes, and come back as kept", async () => {
    const asked = calls(200, JSON.stringify({ file, bytes: 3, same: true }));
    expect(await httpTransport().keep(file, Uint8Array.of(1, 2, 3))).toEqual({ file, bytes: 3, same: true });
    expect(asked[0]).toEqual([
      "/keep?file=bench%2FT-01%2Fraw%202.parquet",
      { method: "POST", headers: { "Content-Type": "application/octet-stream" }, body: Uint8Array.of(1, 2, 3) },
    ]);
  });
  test.each([
    [409, "exists", "exists"],
    [413, "too long", "too long"],
    [401, "session", "session"],
    [507, "disk", "disk"],
    [400, "malformed", "other"],
  ])("refused with %d, %s, are an answer", async (status, code, refused) => {
    calls(status, JSON.stringify({ code, words: "no" }));
    expect(await httpTransport().keep(file, Uint8Array.of(1))).toEqual({ refused, words: "no" });
  });
  test("that are too long are not sent at all", async () => {
    const asked = calls(200, "{}");
    const long = { length: 512_000_001 } as Uint8Array;
    expect(await httpTransport().keep(file, long)).toMatchObject({ refused: "too long" });
    expect(asked).toEqual([]);
  });
  test("that meet a fault of the server reject: nobody knows whether they arrived", async () => {
    calls(500, '{"code":"bug"}');
    await expect(httpTransport().keep(file, Uint8Array.of(1))).rejects.toThrow("/keep: 500");
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
