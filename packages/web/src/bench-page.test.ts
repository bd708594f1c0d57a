// The bench in a browser, against the real server on a folder of its own: from a cell that depends to a cell that feeds, by a card. Needs a build.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { button, example, headline, type OpenBench, openedOn, patience, projectOn } from "./bench-page.fixture.ts";
import { faultsInBoth, isWanted, launched } from "./browser.fixture.ts";

const tape = "tapes/dpak-16.yaml";
/** Ten layers of carrier, in µm: three readings of four reels, invented. */
const stacks = [
  [2530, 2540, 2520],
  [2490, 2500, 2510],
  [2560, 2550, 2540],
  [2520, 2510, 2530],
];

describe.runIf(isWanted)("the bench", () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launched();
  }, 180_000);
  afterAll(() => browser?.close());

  /** Wanted of one tape that depends on how thick its carrier is. */
  const opened = (...tried: string[]): Promise<OpenBench> => openedOn(browser, "dpak-16", tried);
  const cell = (page: Page, check: string) => page.locator(`.map a.cell[data-tape="dpak-16"][data-check="${check}"]`);
  const verdict = (page: Page, check: string) => cell(page, check).getAttribute("data-verdict");
  const ledger = (page: Page) => page.locator(".panel .ledger tr[data-ledger]");

  describe("by mouse", () => {
    let at: OpenBench;
    const before = projectOn("dpak-16").get(tape)!;
    beforeAll(async () => {
      at = await opened();
    }, 900_000);
    afterAll(() => at?.close());

    test("a cell that depends leads to the card of what it hangs on", async () => {
      const { page } = at;
      await cell(page, "entry.pockets").waitFor(patience);
      await expect.poll(() => verdict(page, "entry.pockets"), patience).toBe("depends");
      await cell(page, "entry.pockets").click();
      await button(page, /^Measure it: card pocket-thickness, 10 min$/).click();
      await expect.poll(() => headline(page).textContent(), patience).toBe("How thick is the carrier? 10 min");
      expect(await page.locator(".strip .sheets[aria-current=page]").textContent()).toContain("Bench");
      expect(await page.locator(".panel .readings input").count()).toBe(12 + 1);
      await page.locator(".paper-card").waitFor();
    }, 900_000);

    test("the prediction is frozen into the ledger, and the trial begun, before anything is read", async () => {
      const { page, read } = at;
      await page.getByLabel("Day that is written").fill("2026-03-01");
      await button(page, "Freeze the prediction").click();
      await expect.poll(() => ledger(page).count(), patience).toBe(1);
      expect(await ledger(page).first().textContent()).toContain("L-01, frozen 2026-03-01");
      await expect.poll(() => read("ledger.yaml"), patience).toContain("frozen: L-01");
      expect(read("ledger.yaml")).toContain("question: tapes/dpak-16/T");
      expect(read("bench/T-01.yaml")).toContain("unit: dunlin");
      expect(read("bench/T-01.yaml")).not.toContain("readings:");
    }, 900_000);

    test("readings are typed with Enter, and say at once what they are and what would move", async () => {
      const { page, read } = at;
      await page.locator(".panel .readings input").first().focus();
      for (const reading of stacks.flat()) await page.keyboard.type(`${reading}\n`);
      await expect.poll(() => headline(page).textContent()).toMatch(/^Thickness 0\.25\d* ±0\.0\d+ mm: it holds$/);
      await expect
        .poll(() => page.locator(".panel .if-taken").textContent(), patience)
        .toMatch(/dpak-16.*depends.*feeds/s);
      // Nothing has been written yet.
      expect(read("bench/T-01.yaml")).not.toContain("readings:");
      expect(read(tape)).toBe(before);
    }, 900_000);

    test("they are saved into the trial, one reading a reel, with what was typed beside it", async () => {
      const { page, read } = at;
      await button(page, "Save the readings into T-01").click();
      await expect.poll(() => read("bench/T-01.yaml"), patience).toContain("card: pocket-thickness");
      expect(read("bench/T-01.yaml").match(/reel: [A-D]/g)).toHaveLength(4);
      expect(read("bench/T-01.yaml")).toContain("2530");
      await expect.poll(() => headline(page).textContent(), patience).toMatch(/verdicts? turns? if it is taken$/);
      expect(read(tape)).toBe(before);
    }, 900_000);

    test("the frozen prediction is scored against them", async () => {
      const { page, read } = at;
      await button(page, "Score the prediction").click();
      await expect.poll(() => ledger(page).first().textContent(), patience).toMatch(/came out 0\.25.*agreed/s);
      await expect.poll(() => read("ledger.yaml"), patience).toContain("scored: L-01");
      expect(read("ledger.yaml").indexOf("frozen: L-01")).toBeLessThan(read("ledger.yaml").indexOf("scored: L-01"));
    }, 900_000);

    test("taken into the design the measured value stands there with its source, and the tape feeds", async () => {
      const { page, read } = at;
      await button(page, "Take into the design").click();
      await expect
        .poll(() => read(tape), patience)
        .toMatch(/^T: 0\.24\d\.\.0\.26\d mm .* measured {3}# T-01, 2026-03-01, 4 reels: 0\.253 /m);
      await expect
        .poll(() => headline(page).textContent(), patience)
        .toContain("is measured, and stands in the design");
      await page.locator(".strip .sheets").first().click();
      await expect.poll(() => verdict(page, "entry.pockets"), patience).toBe("feeds");
    }, 900_000);

    test("undo takes the design back and leaves the trial and the ledger", async () => {
      const { page, read } = at;
      const kept = read("ledger.yaml");
      await page.keyboard.press("z");
      await expect.poll(() => read(tape), patience).toBe(before);
      await expect.poll(() => verdict(page, "entry.pockets"), patience).toBe("depends");
      expect(read("ledger.yaml")).toBe(kept);
      expect(read("bench/T-01.yaml")).toContain("readings:");
    }, 900_000);

    test("axe finds nothing on the bench, in light and dark", async () => {
      const { page, said } = at;
      await page.keyboard.press("2");
      await page.locator(".questions").waitFor();
      expect(await faultsInBoth(page)).toEqual([]);
      expect(said).toEqual([]);
    }, 900_000);
  });

  test("a log is looked at, its flag dragged, a run set aside, another log read; each is a step in the trial's file", async () => {
    const { page, read, close, said } = await opened("bench/T-03", "bench/T-03.yaml");
    const trial = "bench/T-03.yaml";
    const before = readFileSync(join(example, trial), "utf8");
    const runs = () =>
      read(trial)
        .split(/^ {2}- log: /m)
        .slice(1);
    try {
      await page.evaluate('location.hash = "#dunlin/dpak-16?sheet=bench&trial=T-03"');
      const flag = page.getByRole("slider").first();
      await flag.waitFor(patience);
      expect(await flag.getAttribute("aria-valuetext")).toBe("25 mm");
      await expect.poll(() => headline(page).textContent(), patience).toContain("T-03 contradicts the model");
      expect(await button(page, /^Take into/).count()).toBe(0);
      const box = (await flag.boundingBox())!;
      const [x, y] = [box.x + box.width / 2, box.y + 8];
      await page.mouse.move(x, y);
      await page.mouse.down();
      for (let i = 1; i <= 10; i++) await page.mouse.move(x + 4 * i, y);
      const dragged = Number.parseFloat((await flag.getAttribute("aria-valuetext"))!);
      expect(dragged).toBeGreaterThan(30);
      await page.mouse.up();
      await expect.poll(() => runs()[0], patience).toContain(`plateau: [${dragged} mm, 205 mm]`);
      // The other runs keep theirs, and the statistics are those of the new stretch.
      expect(runs()[1]).toContain("plateau: [25 mm, 205 mm]");
      expect(runs()[0]).not.toContain("rows: 360,");
      await page.keyboard.press("z");
      await expect.poll(() => read(trial), patience).toBe(before);
      await expect.poll(() => flag.getAttribute("aria-valuetext"), patience).toBe("25 mm");

      await page.getByRole("button", { name: "Set run 2 aside" }).click();
      await page.keyboard.type("the camera lost the edge\n");
      await expect.poll(() => runs()[1], patience).toContain("set aside: the camera lost the edge");

      await page.locator("body").press("i");
      // The first log again with another cell: other bytes, the same header.
      const log = readFileSync(join(example, "bench/T-03-A.csv"), "utf8").replace("0,5;15,0", "0,5;15,1");
      const file = { name: "T-03-D.csv", mimeType: "text/csv", buffer: Buffer.from(log) };
      await page.locator('input[type="file"]').setInputFiles(file);
      await expect.poll(() => page.locator(".read-log").textContent(), patience).toContain("have been read before");
      await page.getByLabel("Reel", { exact: true }).fill("D");
      await page.getByRole("button", { name: "Read it into T-03" }).click();
      await expect.poll(() => runs().length, patience).toBe(4);
      expect(runs()[3]).toContain("reel: D");
      expect(read("bench/T-03/raw-4.parquet")).toMatch(/^PAR1/);
      expect(said).toEqual([]);
    } finally {
      await close();
    }
  }, 900_000);

  test("all of it is done by keyboard alone", async () => {
    const { page, read, close, said } = await opened();
    try {
      await expect.poll(() => verdict(page, "entry.pockets"), patience).toBe("depends");
      await page.keyboard.press("2");
      const row = page.locator(".questions tr[data-address='tapes/dpak-16/T'].on");
      await row.waitFor(patience);
      // By the Tab key to the question, by Enter to its card.
      await tabTo(page, "tr");
      await page.keyboard.press("Enter");
      await page.locator(".panel .readings input").first().waitFor();
      await tabTo(page, "Freeze the prediction");
      await page.keyboard.press("Enter");
      await expect.poll(() => ledger(page).count(), patience).toBe(1);
      await expect.poll(() => headline(page).textContent()).toContain("How thick is the carrier?");
      await tabTo(page, "reel 1, reading 1, thickness of the stack, um");
      for (const reading of stacks.flat()) await page.keyboard.type(`${reading}\n`);
      await expect.poll(() => page.locator(".panel .if-taken").textContent(), patience).toMatch(/depends.*feeds/s);
      await tabTo(page, "Save the readings into T-01");
      await page.keyboard.press("Enter");
      await expect.poll(() => headline(page).textContent(), patience).toMatch(/verdicts? turns? if it is taken$/);
      await tabTo(page, "Take into the design");
      await page.keyboard.press("Enter");
      await expect.poll(() => read(tape), patience).toContain("# T-01");
      await expect.poll(() => headline(page).textContent(), patience).toContain("stands in the design");
      await page.keyboard.press("1");
      // What holds on every tape is folded: the strip says it.
      await expect
        .poll(() => page.locator(".strip .next").textContent(), patience)
        .toContain("none: every wanted tape feeds");
      expect(said).toEqual([]);
    } finally {
      await close();
    }
  }, 900_000);
});
/** Presses the Tab key until what has the focus is called so, or is such an element. */
async function tabTo(page: Page, wanted: string): Promise<void> {
  const now = () =>
    page.evaluate<string[]>(
      "[document.activeElement.tagName.toLowerCase(), document.activeElement.getAttribute('aria-label') ?? '', document.activeElement.textContent.trim()]",
    );
  for (let i = 0; i < 120; i++) {
    if ((await now()).includes(wanted)) return;
    await page.keyboard.press("Tab");
  }
  throw new Error(`no way by the Tab key to "${wanted}": it came to ${(await now()).join(" | ")}`);
}
