// npm run shots: takes the pictures of the page in docs/images anew, from the example on the real server. Needs Chromium.
import { spawn } from "node:child_process";
import { cpSync, existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { chromium } from "playwright-core";
import { root, say, setUp } from "./setup.mjs";

const example = "examples/saltgrass";
const first = "#plover/so20-24/film.mismatch";
const atShoulder = `&text=units%2Fplover.yaml&at=${encodeURIComponent("plover/film.guides.shoulder.through.2")}`;

/**
 * @typedef {object} Shot
 * @property {string} name
 * @property {string} hash what the page shows
 * @property {string} [wait] what has to be there before it is taken
 * @property {[number, number]} [size]
 * @property {"light" | "dark"} [scheme]
 * @property {(page: import("playwright-core").Page) => Promise<void>} [after]
 */
/** @type {Shot[]} */
const shots = [
  { name: "page-known", hash: "#plover/so20-24" },
  { name: "page-finding", hash: first },
  { name: "page-finding-dark", hash: first, scheme: "dark" },
  { name: "page-wide", hash: first, size: [1920, 1080] },
  { name: "page-narrow", hash: first, size: [900, 1200] },
  { name: "page-text", hash: `${first}?${atShoulder.slice(1)}`, wait: ".text .cm-pointed", size: [1600, 900] },
  { name: "page-ladder", hash: `${first}?over=ladder`, wait: ".over .fill svg text" },
  { name: "page-sweep", hash: `${first}?over=sweep`, wait: ".over .fill svg text" },
  { name: "page-index", hash: "#plover/so16-16?over=index", wait: ".over svg text", size: [1440, 900] },
  { name: "page-pick", hash: "#plover/so16-16?over=pick", wait: ".over svg text", size: [1440, 900] },
  { name: "page-misfeed", hash: "#dunlin/radio-44?over=misfeed", wait: ".over svg text", size: [1440, 900] },
  { name: "page-size", hash: "#dunlin/so20-24?over=size", wait: ".over svg text", size: [1440, 900] },
  {
    name: "page-bench",
    hash: "#dunlin/so20-24?sheet=bench&trial=T-03&run=2",
    wait: ".bench .log svg",
    size: [1440, 900],
  },
  {
    name: "page-bench-dark",
    hash: "#dunlin/dpak-16?sheet=bench&trial=T-01",
    wait: ".panel .if-taken svg",
    size: [1440, 900],
    scheme: "dark",
  },
  {
    name: "page-card",
    hash: `#dunlin/dpak-16?sheet=bench&question=${encodeURIComponent("tapes/dpak-16/T")}&card=open`,
    wait: ".bench .card-lies",
    size: [1440, 900],
  },
  { name: "page-compare", hash: "#plover/so20-24?over=compare", wait: ".over .column svg" },
  {
    name: "page-moved",
    hash: first,
    async after(page) {
      const box = await page.locator('.handle[data-address="plover/film.guides.shoulder.through.2"]').boundingBox();
      if (!box) throw new Error("the shoulder has no diamond");
      const [x, y] = [box.x + 12, box.y + 12];
      await page.mouse.move(x, y);
      await page.mouse.down();
      for (let i = 1; i <= 12; i++) await page.mouse.move(x, y - i * 6);
      await page.mouse.up();
      await page.mouse.move(600, 200);
      await page.locator(".moved .flips").waitFor({ timeout: 60_000 });
      await settled(page);
    },
  },
];

/** Waits until every number is drawn, and what is unfolded is as sharp as it gets. @param {import("playwright-core").Page} page */
async function settled(page) {
  const isSettled = `document.querySelector(".things b")?.textContent === "all drawn" && !document.querySelector(".map .waiting, .map .older")
    && !document.querySelector(".over progress, .bench progress, .panel progress")
    && !/Looking for ways out|Weighing|being weighed/.test(document.querySelector(".panel").textContent)`;
  for (let i = 0; i < 4800; i++) {
    if (await page.evaluate(isSettled)) return;
    await page.waitForTimeout(100);
  }
  throw new Error("the page is not settled after eight minutes");
}

/** @param {string[]} names */
async function takeAll(names) {
  const folder = mkdtempSync(join(tmpdir(), "tapeworthy-shots-"));
  cpSync(join(root, example), folder, { recursive: true });
  const server = spawn(process.execPath, ["packages/cli/bin/tapeworthy.mjs", "open", folder, "--no-browser"], {
    cwd: root,
    stdio: ["pipe", "pipe", "inherit"],
  });
  const path =
    process.env.CHROMIUM ?? ["/usr/bin/chromium", "/usr/bin/chromium-browser"].find((one) => existsSync(one));
  const browser = await chromium.launch({
    executablePath: path ?? "chromium",
    args: ["--no-sandbox", "--disable-gpu"],
  });
  try {
    const address = await new Promise((done, fail) => {
      server.stdout.on("data", (data) => {
        const found = /http:\S+/.exec(`${data}`)?.[0];
        if (found) done(found);
      });
      server.on("exit", (code) => fail(new Error(`the server ended with ${code}`)));
    });
    const page = await browser.newPage({ reducedMotion: "reduce" });
    await page.goto(address);
    for (const { name, hash, wait, size: [width, height] = [1280, 800], scheme = "light", after } of shots) {
      if (names.length > 0 && !names.includes(name)) continue;
      await page.setViewportSize({ width, height });
      await page.emulateMedia({ colorScheme: scheme, reducedMotion: "reduce" });
      await page.evaluate(`location.hash = ${JSON.stringify(hash)}`);
      if (wait) await page.locator(wait).first().waitFor({ timeout: 480_000 });
      await settled(page);
      if (after) await after(page);
      await page.screenshot({ path: join(root, "docs/images", `${name}.png`) });
      say(`docs/images/${name}.png`);
    }
  } finally {
    await browser.close();
    server.removeAllListeners("exit");
    const ended = new Promise((done) => server.once("exit", done));
    server.kill();
    await ended;
    rmSync(folder, { recursive: true, force: true });
  }
}

const names = process.argv.slice(2);
const odd = names.find((name) => !shots.some((shot) => shot.name === name));
if (odd) {
  say(`found "${odd}", expected one of ${shots.map(({ name }) => name).join(", ")}`);
  process.exitCode = 2;
} else if (setUp()) await takeAll(names);
else process.exitCode = 1;
