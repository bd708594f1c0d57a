import { describe, expect, test } from "vitest";
import { MemoryServer } from "../engine/memory-transport.ts";
import { keepLog } from "./keep-log.ts";
import { benchFile, done, freshTrial } from "./log.fixture.ts";
import { LogDesk } from "./log-desk.ts";
import type { KeepHow, TrialAbout } from "./log-protocol.ts";

const about = freshTrial();
const how = { date: "2026-11-28" };
/** A desk with a log mapped. */
const mapped = async (file = "T-03-A.csv") => {
  const desk = new LogDesk();
  await desk.readLog(benchFile(file), about, {}, () => undefined);
  await desk.map([], {}, 100, () => undefined);
  return { plan: (h: KeepHow, a: TrialAbout) => desk.plan(h, a, () => undefined) };
};

describe("the rows of a log", () => {
  test("are kept before its text is made, under the names that the text gives them", async () => {
    const server = new MemoryServer(new Map(), 1);
    const { edit, raw, indexes } = done(await keepLog(server, await mapped(), how, about));
    expect([...server.kept.keys()]).toEqual([raw, indexes]);
    expect(edit.text).toContain(`raw: ${raw}\n`);
    expect((await server.state()).files).toEqual([]);
  });
  test("that undo has left are not kept twice", async () => {
    const server = new MemoryServer(new Map(), 1);
    await keepLog(server, await mapped(), how, about);
    const before = [...server.kept.keys()];
    expect(done(await keepLog(server, await mapped(), how, about)).raw).toBe("bench/T-09/raw.parquet");
    expect([...server.kept.keys()]).toEqual(before);
  });
  test("of another log under their name are passed over, and stay as they are", async () => {
    const server = new MemoryServer(new Map(), 1);
    await keepLog(server, await mapped("T-03-B.csv"), how, about);
    const other = server.kept.get("bench/T-09/raw.parquet")!;
    const { raw, indexes, edit } = done(await keepLog(server, await mapped(), how, about));
    expect([raw, indexes]).toEqual(["bench/T-09/raw-2.parquet", "bench/T-09/indexes-2.parquet"]);
    expect(edit.text).toContain(`raw: ${raw}\n`);
    expect(server.kept.get("bench/T-09/raw.parquet")).toEqual(other);
  });
  test("whose indexes alone would meet others get another number, both of them", async () => {
    const server = new MemoryServer(new Map(), 1);
    await server.keep("bench/T-09/indexes.parquet", Uint8Array.of(1));
    const { raw, indexes } = done(await keepLog(server, await mapped(), how, about));
    expect([raw, indexes]).toEqual(["bench/T-09/raw-2.parquet", "bench/T-09/indexes-2.parquet"]);
  });
  test("that can't be kept are said so, and no text is made", async () => {
    const refusing = { keep: async () => ({ refused: "disk" as const, words: "The disk is full." }) };
    expect(await keepLog(refusing, await mapped(), how, about)).toEqual({ why: "The disk is full." });
  });
  test("of a line that breaks reject: nobody knows whether they arrived", async () => {
    const broken = { keep: () => Promise.reject(new TypeError("no line")) };
    await expect(keepLog(broken, await mapped(), how, about)).rejects.toThrow("no line");
  });
});
