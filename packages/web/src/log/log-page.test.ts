import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { extname, join, resolve } from "node:path";
import type { Page } from "playwright-core";
import { build, defaultClientConditions } from "vite";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { isWanted, launched } from "../browser.fixture.ts";
import { freshTrial } from "./log.fixture.ts";
import type { Told } from "./log-page.fixture.ts";

const kinds: Readonly<Record<string, string>> = { ".html": "text/html", ".js": "text/javascript" };

describe.runIf(isWanted)("a log of many rows, in a browser", () => {
  let folder: string;
  let page: Page;
  let close: () => Promise<void> = async () => {};
  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), "tapeworthy-log-"));
    await build({
      root: resolve(import.meta.dirname, "../.."),
      configFile: false,
      logLevel: "error",
      base: "./",
      resolve: { conditions: ["source", ...defaultClientConditions] },
      worker: { format: "es" },
      build: {
        outDir: folder,
        emptyOutDir: true,
        minify: false,
        target: "es2023",
        modulePreload: { polyfill: false },
        rollupOptions: {
          input: resolve(import.meta.dirname, "log-page.fixture.ts"),
          output: { entryFileNames: "page.js" },
        },
      },
    });
    writeFileSync(
      join(folder, "index.html"),
      '<!doctype html><title>log</title><script type="module" src="page.js"></script>',
    );
    // The page's own rules: scripts and threads from here alone.
    const server = createServer((request, response) => {
      const path = request.url === "/" ? "/index.html" : request.url!;
      response.setHeader("Content-Security-Policy", "default-src 'none'; script-src 'self'; worker-src 'self'");
      response.setHeader("Content-Type", kinds[extname(path)] ?? "text/plain");
      try {
        response.end(readFileSync(join(folder, path)));
      } catch {
        response.statusCode = 404;
        response.end();
      }
    });
    await new Promise<void>((ready) => server.listen(0, "127.0.0.1", ready));
    const browser = await launched();
    close = async () => {
      await browser.close();
      server.close();
    };
    page = await browser.newPage();
    await page.goto(`http://127.0.0.1:${(server.address() as AddressInfo).port}/`);
    await page.waitForFunction("window.tried");
  }, 360_000);
  afterAll(async () => {
    await close();
    rmSync(folder, { recursive: true, force: true });
  });

  test("is read, mapped, kept and opened again on a thread of its own, while the page goes on", async () => {
    const rows = Number(process.env.LOG_ROWS ?? 200_000);
    const told = await page.evaluate<Told>(`tried(${JSON.stringify(freshTrial())}, ${rows})`);
    if (process.env.LOG_ROWS !== undefined) console.log(JSON.stringify(told, undefined, 1));
    expect([told.rows, told.stopped]).toEqual([rows, true]);
    expect(told.progress).toBe(Math.ceil(told.bytes / 262_144));
    // 2 N, the mean of 0 to 16 hundredths, and of a sine over many turns next to nothing.
    for (const mean of told.means) expect(mean).toBeCloseTo(2.08, 2);
    expect(told.means[2]).toBe(told.means[0]);
    expect(told.points).toBeLessThanOrEqual(4002);
    expect(told.kept).toBeGreaterThan(rows * 3);
    // The page was free all along: it had its turns while the log was read.
    expect(told.steps.read!.turns).toBeGreaterThan(10);
  }, 540_000);
});
