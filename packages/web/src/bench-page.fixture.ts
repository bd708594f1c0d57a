import { type ChildProcess, spawn } from "node:child_process";
import { cpSync, existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, resolve } from "node:path";
import type { Browser, Page } from "playwright-core";

export const command = resolve(import.meta.dirname, "../../cli/bin/tapeworthy.mjs");
export const example = resolve(import.meta.dirname, "../../../examples/saltgrass");
/** Numbers are worked out on a machine that may be busy. */
export const patience = { timeout: 540_000 };

/** The bundled example, wanted of one tape alone, with what of its record moves belief; nobody has tried anything. */
export function projectOn(tape: string): Map<string, string> {
  const texts = new Map<string, string>();
  for (const name of readdirSync(example, { recursive: true, encoding: "utf8" }))
    if (/^(units\/|tapes\/|project|known).*\.yaml$/.test(name))
      texts.set(name, readFileSync(join(example, name), "utf8"));
  const main = texts.get("project.yaml")!;
  // Every line is worked out at each opening. Three of five say what the checks are sure of, and move next to nothing: without them belief is
  // worth 334 of 1000 even draws instead of 324.
  const sure = /^ {2}- .*tape: (?:sensor-8|so8-12|socket-32),.*\n/gm;
  texts.set("known.yaml", texts.get("known.yaml")!.replaceAll(sure, ""));
  return texts.set("project.yaml", main.replace(/^wanted:\n(?: .*\n)+/m, `wanted:\n  dunlin: [${tape}]\n`));
}

export interface OpenBench {
  readonly page: Page;
  readonly folder: string;
  readonly read: (name: string) => string;
  /** From outside: the page is not asked. */
  readonly write: (name: string, text: string) => void;
  /** What the page complained of. */
  readonly said: string[];
  readonly close: () => Promise<void>;
}
/** A folder with a server of its own, and the page open on it; `tried` is what of the example's trials lies in it. */
export async function openedOn(browser: Browser, tape: string, tried: readonly string[] = []): Promise<OpenBench> {
  const folder = mkdtempSync(join(tmpdir(), "tapeworthy-bench-"));
  const write = (name: string, text: string): void => {
    mkdirSync(dirname(join(folder, name)), { recursive: true });
    writeFileSync(join(folder, name), text);
  };
  for (const [name, text] of projectOn(tape)) write(name, text);
  for (const name of tried) cpSync(join(example, name), join(folder, name), { recursive: true });
  const server: ChildProcess = spawn(process.execPath, [command, "open", folder, "--no-browser"], {
    stdio: ["pipe", "pipe", "inherit"],
  });
  const address = await new Promise<string>((done, fail) => {
    server.stdout!.on("data", (data: Buffer) => {
      const found = /http:\S+/.exec(`${data}`)?.[0];
      if (found) done(found);
    });
    server.once("exit", (code) => fail(new Error(`the server ended with ${code}`)));
  });
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 }, reducedMotion: "reduce" });
  const page = await context.newPage();
  const said: string[] = [];
  page.on("console", (message) => said.push(message.text()));
  page.on("pageerror", (error) => said.push(error.message));
  await page.goto(address);
  return {
    page,
    folder,
    write,
    said,
    read: (name) => (existsSync(join(folder, name)) ? readFileSync(join(folder, name), "utf8") : ""),
    close: async () => {
      await context.close();
      server.removeAllListeners("exit");
      const ended = new Promise((done) => server.once("exit", done));
      server.kill("SIGTERM");
      await ended;
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
export const headline = (page: Page) => page.locator(".panel .headline").first();
export const button = (page: Page, name: RegExp | string) => page.locator(".panel").getByRole("button", { name });
