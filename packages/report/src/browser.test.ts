// The page in a browser: what a reader without sight, without a mouse, without scripts or with a narrow screen gets. Needs Chromium; where
// CI is set a missing one is a failure, elsewhere these tests are left out.
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { type Browser, type BrowserContextOptions, chromium, type Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { climbed, few } from "./report.fixture.ts";
import { reportHtml } from "./report.ts";

const executablePath =
  process.env.CHROMIUM ?? ["/usr/bin/chromium", "/usr/bin/chromium-browser"].find((path) => existsSync(path));
const isWanted = executablePath !== undefined || process.env.CI !== undefined;
const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/** What a test runs in the page is text: the page's own world has no types here. */
const unfoldAll = 'for (const one of document.querySelectorAll("details")) one.open = true;';
interface AxeResults {
  readonly passes: readonly unknown[];
  readonly violations: readonly { readonly id: string; readonly nodes: readonly { readonly html: string }[] }[];
}

describe.runIf(isWanted)("in Chromium", () => {
  const folder = mkdtempSync(join(tmpdir(), "tapeworthy-report-"));
  const file = join(folder, "report.html");
  let browser: Browser;
  beforeAll(async () => {
    writeFileSync(file, reportHtml(few({ ladders: [climbed] })));
    browser = await chromium.launch({
      executablePath: executablePath ?? "chromium",
      args: ["--no-sandbox", "--disable-gpu"],
    });
  }, 180_000);
  afterAll(async () => {
    await browser?.close();
    rmSync(folder, { recursive: true });
  });
  const opened = async (options: BrowserContextOptions = {}, hash = ""): Promise<Page> => {
    const context = await browser.newContext({ viewport: { width: 1280, height: 800 }, ...options });
    const page = await context.newPage();
    await page.goto(pathToFileURL(file).href + hash);
    return page;
  };
  const stops = "#finding/plover/so20-24/film.mismatch";

  test.each([
    ["light, with everything unfolded", { colorScheme: "light" }, unfoldAll],
    ["dark", { colorScheme: "dark" }, ""],
    ["390 px wide", { viewport: { width: 390, height: 844 } }, ""],
  ] as const)(
    "%s: axe finds nothing",
    async (_, options, first) => {
      const page = await opened({ ...options, reducedMotion: "reduce" }, stops);
      await page.evaluate(axe);
      await page.evaluate(first);
      const { passes, violations } = await page.evaluate<AxeResults>("axe.run(document)");
      const found = violations.map(
        ({ id, nodes }) => `${id}: ${nodes.length} times, first ${nodes[0]!.html.slice(0, 200)}`,
      );
      expect(found).toEqual([]);
      expect(passes.length).toBeGreaterThan(25);
      await page.context().close();
    },
    540_000,
  );

  test.each([390, 760, 1100, 1280])(
    "at %d px nothing makes the page itself scroll sideways",
    async (width) => {
      const page = await opened({ viewport: { width, height: 844 } });
      await page.evaluate(unfoldAll);
      expect(await page.evaluate("document.documentElement.scrollWidth")).toBe(width);
      await page.context().close();
    },
    180_000,
  );

  test("it asks for nothing outside itself", async () => {
    const context = await browser.newContext();
    const page = await context.newPage();
    const asked: string[] = [];
    page.on("request", (request) => asked.push(request.url()));
    const said: string[] = [];
    page.on("console", (message) => said.push(message.text()));
    page.on("pageerror", (error) => said.push(error.message));
    await page.goto(pathToFileURL(file).href);
    expect(asked.filter((url) => !url.startsWith("data:font/"))).toEqual([pathToFileURL(file).href]);
    expect(said.filter((words) => !/decode downloaded font|OTS parsing/.test(words))).toEqual([]);
    await context.close();
  });

  test("without scripts a link shows the drawing, the marks and the cell of what it opens", async () => {
    const page = await opened({ javaScriptEnabled: false }, stops);
    const seen = (selector: string) => page.locator(selector).first().isVisible();
    expect(await seen('#unit\\/plover .sheet[data-at="24"]')).toBe(true);
    expect(await seen('#unit\\/plover .sheet[data-at="8"]')).toBe(false);
    const marks = await page.locator('#unit\\/plover .sheet[data-at="24"] .overlay').all();
    const shown = await Promise.all(marks.map((one) => one.isVisible()));
    expect(shown.filter((isShown) => isShown)).toHaveLength(1);
    expect(await seen('[id="cell/plover/so20-24/film.mismatch"] .pick')).toBe(true);
    expect(await seen('[id="cell/plover/so20-24/film.steer"] .pick')).toBe(false);
    expect(await seen("#theme")).toBe(false);
    await page.goto(`${pathToFileURL(file).href}#width/plover/8`);
    expect(await seen('#unit\\/plover .sheet[data-at="8"]')).toBe(true);
    expect(await seen('#unit\\/plover .sheet[data-at="24"]')).toBe(false);
    await page.context().close();
  }, 180_000);

  test("the map is one stop of the Tab key, arrows move in it, Enter opens the finding", async () => {
    const page = await opened();
    const cells = page.locator("#unit\\/plover .map svg a");
    expect(await cells.count()).toBeGreaterThan(20);
    expect(await page.locator('#unit\\/plover .map svg a[tabindex="0"]').count()).toBe(1);
    await cells.first().focus();
    await page.keyboard.press("ArrowDown");
    const below = await page.evaluate("document.activeElement.id");
    expect(below).toMatch(/^cell\/plover\/so20-24\//);
    await page.keyboard.press("End");
    await page.keyboard.press("Home");
    for (let i = 0; i < 40 && !(await page.evaluate('document.activeElement.id.endsWith("film.mismatch")')); i++)
      await page.keyboard.press("ArrowRight");
    await page.keyboard.press("Enter");
    expect(new URL(page.url()).hash).toBe(stops);
    await page.context().close();
  }, 180_000);

  test("the button turns the theme and keeps it nowhere", async () => {
    const page = await opened({ colorScheme: "light" });
    const paper = () => page.evaluate("getComputedStyle(document.body).backgroundColor");
    const before = await paper();
    await page.locator("#theme").click();
    expect(await paper()).not.toBe(before);
    await page.reload();
    expect(await paper()).toBe(before);
    await page.context().close();
  }, 180_000);

  test("on paper it is A4 across, and every folded table is open", async () => {
    const page = await opened({ colorScheme: "dark" });
    const pdf = (await page.pdf({ preferCSSPageSize: true, printBackground: true })).toString("latin1");
    const sizes = new Set(
      [...pdf.matchAll(/\/MediaBox \[([^\]]*)\]/g)].map(([, box]) =>
        box!
          .split(" ")
          .map((v) => Math.round(Number(v)))
          .join(" "),
      ),
    );
    // 297 mm by 210 mm in points of 1/72 inch. [derived]
    expect([...sizes]).toEqual(["0 0 842 595"]);
    await page.emulateMedia({ media: "print" });
    expect(await page.locator("details.checks table").first().isVisible()).toBe(true);
    expect(await page.evaluate('getComputedStyle(document.documentElement).getPropertyValue("--paper").trim()')).toBe(
      "#ffffff",
    );
    await page.context().close();
  }, 180_000);
});
