import { createConnection } from "node:net";
import { describe, expect, test } from "vitest";
import { first, type Listener, quick, served, until, wren } from "./open.fixture.ts";

const version = (n: number): string => first.replace("two: 2", `two: ${100 + n}`);

describe("a stream of events", () => {
  test("begins where the state was read, so that nothing falls between", async () => {
    await served(async ({ page }) => {
      const { event } = await page.state();
      await page.edit(first, version(1));
      await page.edit(version(1), version(2));
      const listener = await page.listen(event);
      await until(() => expect(listener.of("change").map(({ data }) => data.version)).toEqual([2, 3]));
    });
  });
  test("taken up again with the last event's id gives the rest, once each", async () => {
    await served(async ({ page }) => {
      const one = await page.listen();
      await page.edit(first, version(1));
      await until(() => expect(one.of("written")).toHaveLength(1));
      one.end();
      await page.edit(version(1), version(2));
      const last = one.heard.at(-1)!.id;
      // As a browser does it: the address is the old one, the header the last event.
      const two = await page.listen("nonsense", { "Last-Event-ID": last });
      await page.edit(version(2), version(3));
      await until(() => expect(two.of("written")).toHaveLength(2));
      expect(two.of("change").map(({ data }) => data.version)).toEqual([3, 4]);
      expect(two.of("reload")).toEqual([]);
      const numbers = [...one.heard, ...two.heard].map(({ id }) => Number(id.split("-")[1]));
      expect(numbers).toEqual(numbers.map((_, i) => numbers[0]! + i));
    });
  });
  test.each(["", "0", "000000000000-5", "nonsense"])(
    "taken up with an id that is not known (%j) says: load again",
    async (last) => {
      await served(async ({ page }) => {
        const { event } = await page.state();
        const listener = await page.listen(last);
        await until(() => expect(listener.heard).toEqual([{ id: event, event: "reload", data: {} }]));
      });
    },
  );
  test("taken up with an id of the future says: load again", async () => {
    await served(async ({ page }) => {
      const { event } = await page.state();
      const listener = await page.listen(`${event}9`);
      await until(() => expect(listener.of("reload")).toHaveLength(1));
    });
  });
  test("taken up after more events than are kept says: load again", async () => {
    await served(async ({ page, server }) => {
      const { event } = await page.state();
      const { events } = server as unknown as { events: { tell(told: unknown): void } };
      for (let i = 0; i < 2001; i++) events.tell({ event: "history", data: { undo: 0, redo: 0 } });
      const listener = await page.listen(event);
      await until(() => expect(listener.of("reload")).toHaveLength(1));
      const all = await page.listen(event.replace(/\d+$/, (n) => `${Number(n) + 1}`));
      await until(() => expect(all.heard).toHaveLength(2000));
    });
  });
  test("shows signs of life", async () => {
    await served(
      async ({ page }) => {
        const listener = await page.listen();
        await until(() => expect(listener.beats).toBeGreaterThan(2));
      },
      { beat: 20 },
    );
  });
  test("is refused to the 65th page, until another ends", async () => {
    await served(async ({ page }) => {
      const open: Listener[] = [];
      for (let i = 0; i < 64; i++) open.push(await page.listen());
      const { status, json } = await page.ask("/events");
      expect([status, json]).toEqual([503, { code: "busy", words: "64 pages listen already; close some." }]);
      expect((await page.state()).files).toHaveLength(3);
      open[0]!.end();
      await until(async () => {
        const next = await page.listen();
        next.end();
        expect(next.status).toBe(200);
      });
    });
  });
  test("ends with the server", async () => {
    let listener: Listener | undefined;
    await served(async ({ page }) => {
      listener = await page.listen();
    });
    await until(() => expect(listener!.isOver).toBe(true));
  });
});

test("a reader that has gone to sleep is left behind, and holds up nobody", async () => {
  await served(
    async ({ page, server }) => {
      const { events } = server as unknown as { events: { tell(told: unknown): void; open: number } };
      const sleeper = createConnection(page.port, "127.0.0.1");
      sleeper.write(`GET /events HTTP/1.1\r\nHost: 127.0.0.1:${page.port}\r\nCookie: ${page.cookie}\r\n\r\n`);
      sleeper.pause();
      await until(() => expect(events.open).toBe(1));
      const awake = await page.listen();
      const long = "x".repeat(200_000);
      await until(() => {
        events.tell({ event: "trouble", data: { trouble: [{ file: wren, words: long }] } });
        expect(events.open).toBe(1);
      });
      await until(() => expect(awake.of("trouble").length).toBeGreaterThan(5));
      await page.edit(first, version(1));
      await until(() => expect(awake.of("change")).toHaveLength(1));
      sleeper.destroy();
    },
    { patience: quick },
  );
});
