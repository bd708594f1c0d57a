import { existsSync, readFileSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { resolve } from "node:path";
import { type Browser, type BrowserContextOptions, chromium, type Page } from "playwright-core";
import { createServer, defaultClientConditions } from "vite";

/** Where Chromium lies. Where there is none, tests of the page are left out, unless CI is set: then they fail. */
const executablePath =
  process.env.CHROMIUM ?? ["/usr/bin/chromium", "/usr/bin/chromium-browser"].find((path) => existsSync(path));
export const isWanted = executablePath !== undefined || process.env.CI !== undefined;
export const launched = (...more: string[]): Promise<Browser> =>
  chromium.launch({ executablePath: executablePath ?? "chromium", args: ["--no-sandbox", "--disable-gpu", ...more] });

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
interface AxeResults {
  readonly passes: readonly unknown[];
  readonly violations: readonly {
    readonly id: string;
    readonly nodes: readonly { readonly html: string; readonly failureSummary?: string }[];
  }[];
}
/**
 * What axe does not look for: it takes a link with a hash that lies off the screen for a way past, where ours are places of the page;
 * the ways past are buttons, and tried by keyboard.
 */
const notAsked = { "skip-link": { enabled: false } };
/** What axe finds on a page; `only` limits it to some rules. Drawings are one image or many links each: what they hold is looked at once. */
export async function faultsOf(page: Page, only?: readonly string[]): Promise<string[]> {
  if (!(await page.evaluate("'axe' in window"))) await page.evaluate(axe);
  const rules = JSON.stringify(only ? { runOnly: only } : { rules: notAsked });
  const { violations } = await page.evaluate<AxeResults>(`axe.run(document, ${rules})`);
  return violations.map(
    ({ id, nodes }) =>
      `${id}: ${nodes.length} times, first ${nodes[0]!.html.slice(0, 160)} ${nodes[0]!.failureSummary ?? ""}`,
  );
}

/** What axe finds by colours alone: all else is the same page in dark. */
const ofColours = ["color-contrast", "link-in-text-block"];
/** Everything in light, and what colours decide in dark too; the page is left in light. */
export async function faultsInBoth(page: Page): Promise<string[]> {
  const found: string[] = [];
  for (const [colorScheme, only] of [["dark", ofColours], ["light"]] as const) {
    await page.emulateMedia({ colorScheme, reducedMotion: "reduce" });
    found.push(...(await faultsOf(page, only)).map((fault) => `${colorScheme}: ${fault}`));
  }
  return found;
}

/** The page over an engine that stands still, served from its sources. */
export async function heldPage() {
  const root = resolve(import.meta.dirname, "..");
  // One for each process: two that prepare libraries in one folder at once take them from under each other.
  const cacheDir = resolve(root, `node_modules/.vite-held-${process.pid}`);
  const server = await createServer({
    root,
    configFile: false,
    logLevel: "error",
    resolve: { conditions: ["source", ...defaultClientConditions] },
    esbuild: { jsx: "automatic" },
    cacheDir,
    // Libraries are looked for before the first page is opened: one found later reloads the page under a test.
    optimizeDeps: { entries: ["index.html", "src/held-page.fixture.tsx"] },
    server: { port: 0, host: "127.0.0.1", hmr: false, watch: null, fs: { allow: [resolve(root, "../..")] } },
    plugins: [
      {
        name: "held-page",
        configureServer: ({ middlewares }) => {
          middlewares.use((request, response, next) => {
            if (request.url !== "/held") return next();
            response.setHeader("Content-Type", "text/html");
            response.end(
              '<!doctype html><html lang="en"><head><meta charset="utf-8"><title>Tapeworthy</title></head><body><div id="page"></div><script type="module" src="/src/held-page.fixture.tsx"></script></body></html>',
            );
          });
        },
      },
    ],
  });
  await server.listen();
  const address = server.resolvedUrls!.local[0]!;
  return {
    async opened(browser: Browser, state: string, hash = "", options: BrowserContextOptions = {}): Promise<Page> {
      const context = await browser.newContext({
        viewport: { width: 1280, height: 800 },
        reducedMotion: "reduce",
        ...options,
      });
      const page = await context.newPage();
      await page.addInitScript(`window.heldState = ${JSON.stringify(state)};`);
      await page.goto(`${address}held${hash}`);
      return page;
    },
    async close(): Promise<void> {
      await server.close();
      rmSync(cacheDir, { recursive: true, force: true });
    },
  };
}
