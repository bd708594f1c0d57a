// Trials of a check on the bench, in a browser against the real server: one that agrees, then is retired; one that contradicts; and the longest card on paper. Needs a build.
import { execFile, spawnSync } from "node:child_process";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { promisify } from "node:util";
import { allCards } from "@tapeworthy/core";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { button, command, headline, type OpenBench, openedOn, patience } from "./bench-page.fixture.ts";
import { faultsInBoth, isWanted, launched } from "./browser.fixture.ts";

const tried = ["bench", "ledger.yaml"];
const day = "2026-12-01";
const why = (page: Page) => page.locator(".panel .why").first();
const alarm = (page: Page) => page.locator(".panel .result [role=alert]");
const row = (page: Page, trial: string) => page.locator(`table.trials tr[data-trial="${trial}"]`);
const standing = (page: Page, trial: string) => row(page, trial).locator(".standing").textContent();
/** The bench, with one of its trials chosen by hand. */
async function choose({ page }: OpenBench, trial: string): Promise<void> {
  await page.keyboard.press("2");
  await row(page, trial).click(patience);
}

describe.runIf(isWanted)("trials of a check", () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launched();
  }, 180_000);
  afterAll(() => browser?.close());

  describe("one that agrees", () => {
    let at: OpenBench;
    let ledger = "";
    /** What the command says of the same folder, worked out meanwhile. */
    let told: Promise<string>;
    /** Percent of radio-44 as it stands, and as it was announced. */
    let [was, announced] = [Number.NaN, Number.NaN];
    /** Percent of radio-44 on the map of sheet 1. */
    const shareOnMap = async (): Promise<number> =>
      Number(/radio-44, 44 mm: depends (\d+) %/.exec((await at.page.locator("#map-desc").textContent())!)?.[1]);

    beforeAll(async () => {
      at = await openedOn(browser, "radio-44", tried);
      ledger = at.read("ledger.yaml");
      const call = [command, "proof", at.folder, "--unit", "dunlin", "--workers", "1"];
      told = promisify(execFile)(process.execPath, call).then(({ stdout }) => stdout);
      // Whoever waits for it hears of it.
      told.catch(() => {});
    }, 900_000);
    afterAll(() => at?.close());

    test("the cells that would move begin from the map's own share, and nothing is written", async () => {
      const { page, read } = at;
      await choose(at, "T-02");
      const cells = page.locator(".panel .if-taken tbody tr");
      await cells.first().waitFor(patience);
      expect(await headline(page).textContent()).toBe("reel.jerks: no verdict turns if it is taken");
      expect(await cells.count()).toBe(1);
      const words = (await cells.first().textContent())!;
      expect(words).toContain("radio-44");
      [was, announced] = [...words.matchAll(/depends (\d+) %/g)].map(([, percent]) => Number(percent)) as [
        number,
        number,
      ];
      // So far apart that a map that stays as it was can't pass for one that moved.
      expect(announced - was).toBeGreaterThan(5);
      await page.keyboard.press("1");
      await expect.poll(shareOnMap, patience).toBe(was);
      await page.keyboard.press("2");
      expect(read("ledger.yaml")).toBe(ledger);
    }, 900_000);

    test("of its counts three statements stand side by side, in the numbers that the command says", async () => {
      const { page } = at;
      const rows = page.locator(".panel .proof tbody tr");
      await expect.poll(() => rows.count(), patience).toBe(3);
      const shown = await rows.evaluateAll((all) =>
        all.map((tr) => [
          tr.querySelector("th")!.firstChild!.textContent!.trim(),
          tr.querySelector("td")!.textContent!,
        ]),
      );
      const cli = await told;
      const said = (begins: string): string =>
        new RegExp(`${begins}.*(fewer than 1 in \\d+(?: \\d{3})*)`).exec(cli)?.[1] ?? `nothing in:\n${cli}`;
      expect(shown).toEqual([
        ["by test alone, were all units alike", said("by test alone, were all units alike")],
        ["by test alone, units differ", said("by test alone, units differ")],
        [expect.stringMatching(/^with the model \(1 in [\d ]+, .+\)$/), said("with the model")],
      ]);
      const sentence = /To be said: .*\.$/.exec(cli.replaceAll(/\s+/g, " ").trim())?.[0];
      expect(sentence).toContain("fewer than 1 in");
      expect(await page.locator(".panel .proof").textContent()).toContain(sentence);
    }, 900_000);

    test("taken into belief it stands in the ledger with its day, and the map's share is the announced one", async () => {
      const { page, read } = at;
      await page.getByLabel("Day that is written").fill(day);
      await button(page, "Take into belief").click();
      await expect.poll(() => read("ledger.yaml"), patience).toBe(`${ledger}  - taken: T-02\n    date: ${day}\n`);
      await expect.poll(() => headline(page).textContent(), patience).toBe("T-02 is taken into belief");
      await expect.poll(() => why(page).textContent(), patience).toContain(`Taken into belief on ${day}.`);
      expect(await standing(page, "T-02")).toBe("taken into belief");
      expect(await button(page, /^Take into/).count()).toBe(0);
      await page.keyboard.press("1");
      await expect.poll(async () => Math.abs((await shareOnMap()) - announced), patience).toBeLessThanOrEqual(1);
      await page.keyboard.press("2");
      // What it moved has moved: nothing stands there as if it could still be taken.
      const moves = page.locator(".panel .if-taken");
      await expect.poll(() => moves.textContent(), patience).not.toContain("being worked out");
      expect(await moves.textContent()).toBe("");
    }, 900_000);

    test("undo takes the line out of the ledger again, and the share goes back", async () => {
      const { page, read } = at;
      await page.keyboard.press("z");
      await expect.poll(() => read("ledger.yaml"), patience).toBe(ledger);
      await expect.poll(() => standing(page, "T-02"), patience).toBe("waits: 12 pieces not taken into belief");
      await button(page, "Take into belief").waitFor(patience);
      await page.keyboard.press("1");
      await expect.poll(shareOnMap, patience).toBe(was);
      await page.keyboard.press("2");
    }, 900_000);

    test("a number it rests on changed from outside retires it, by name, was and is; changed back it stands again", async () => {
      const { page, read, write } = at;
      const tape = "tapes/radio-44.yaml";
      const before = read(tape);
      write(tape, before.replace("part mass: 3200 mg", "part mass: 3300 mg"));
      await expect
        .poll(() => headline(page).textContent(), patience)
        .toBe("T-02 is retired: what it was built from has changed");
      await expect
        .poll(() => why(page).textContent(), patience)
        .toContain("tapes/radio-44/part mass was 3200 mg, is 3300 mg.");
      expect(await page.locator(".panel .changes li").allTextContents()).toEqual([
        "part mass of radio-44: 3200 mg 3300 mg",
      ]);
      expect(await standing(page, "T-02")).toBe("retired");
      expect(await button(page, /^Take into|^Keep apart/).count()).toBe(0);
      await expect
        .poll(() => page.locator(".panel .proof").textContent(), patience)
        .toContain("No cycles of dunlin were counted that still stand.");
      expect(await faultsInBoth(page)).toEqual([]);
      write(tape, before);
      await button(page, "Take into belief").waitFor(patience);
      expect(await headline(page).textContent()).toBe("reel.jerks: no verdict turns if it is taken");
      expect(read("ledger.yaml")).toBe(ledger);
      expect(at.said).toEqual([]);
    }, 900_000);
  });

  describe("one that contradicts", () => {
    let at: OpenBench;
    let ledger = "";
    beforeAll(async () => {
      at = await openedOn(browser, "so20-24", tried);
      ledger = at.read("ledger.yaml");
    }, 900_000);
    afterAll(() => at?.close());

    test("it says so, and can't be taken", async () => {
      const { page } = at;
      await choose(at, "T-03");
      await expect
        .poll(() => headline(page).textContent(), patience)
        .toBe("T-03 contradicts the model: look before you believe it");
      expect(await why(page).textContent()).toMatch(/The result contradicts the model of film\.pull: its chance was /);
      expect(await button(page, /^Take/).count()).toBe(0);
      expect(await page.locator(".panel .if-taken table").count()).toBe(0);
    }, 900_000);

    test("without a reason it is not kept apart: what is wanted is said until it is dropped, and nothing is written", async () => {
      const { page, read } = at;
      await button(page, "Keep apart").click();
      for (const reason of ["", "   "]) {
        await page.getByLabel("Why T-03 is kept apart").fill(reason);
        await button(page, "Keep it apart").click();
        await expect.poll(() => alarm(page).textContent(), patience).toMatch(/^Say why it is kept apart/);
      }
      expect(await faultsInBoth(page)).toEqual([]);
      await button(page, "Drop").click();
      await expect.poll(() => alarm(page).count()).toBe(0);
      // Nor does it stand beside another trial.
      await button(page, "Keep apart").click();
      await button(page, "Keep it apart").click();
      await alarm(page).waitFor();
      await row(page, "T-02").click();
      await expect.poll(() => alarm(page).count()).toBe(0);
      await row(page, "T-03").click();
      await button(page, "Keep apart").waitFor(patience);
      expect(read("ledger.yaml")).toBe(ledger);
      expect(await standing(page, "T-03")).not.toBe("kept apart");
    }, 900_000);

    test("with a reason it is kept apart, and reason and day stand in the ledger", async () => {
      const { page, read } = at;
      await page.getByLabel("Day that is written").fill(day);
      await button(page, "Keep apart").click();
      await page.keyboard.type("the scale was not zeroed\n");
      await expect
        .poll(() => read("ledger.yaml"), patience)
        .toBe(`${ledger}  - apart: T-03\n    reason: the scale was not zeroed\n    date: ${day}\n`);
      await expect.poll(() => headline(page).textContent(), patience).toBe("T-03 is kept apart");
      await expect.poll(() => why(page).textContent(), patience).toContain("Kept apart: the scale was not zeroed.");
      expect(await standing(page, "T-03")).toBe("kept apart");
      expect(await button(page, /^Take|^Keep/).count()).toBe(0);
    }, 900_000);

    test("the card with the most blanks prints on two pages of A4 at most, with nothing cut off", async () => {
      const { page, folder, said } = at;
      const blanks = ({ method }: ReturnType<typeof allCards>[number]): number =>
        method.pieces * method.repeats * method.entries.length;
      const card = allCards().reduce((most, one) => (blanks(one) > blanks(most) ? one : most));
      const about = encodeURIComponent(card.answers[0]!);
      await page.evaluate(`location.hash = "#dunlin/so20-24?sheet=bench&question=${about}&card=open"`);
      await page.locator(".paper-card").waitFor(patience);
      expect(await headline(page).textContent()).toContain(card.asks);
      // On the screen of a printer: within its sheet, and no cell wider than its column.
      await page.emulateMedia({ media: "print" });
      const over = await page.evaluate<string[]>(`(() => {
        const sheet = document.querySelector(".paper-card").shadowRoot.querySelector(".page");
        const { left, right, top, bottom } = sheet.getBoundingClientRect();
        return [...sheet.querySelectorAll("*:not(.unseen, title, desc, defs, defs *)")].filter((one) => {
          const box = one.getBoundingClientRect();
          const out = box.left < left - 1 || box.right > right + 1 || box.top < top - 1 || box.bottom > bottom + 1;
          return out || (one.matches("p, li, th, td, span, b") && one.scrollWidth > one.clientWidth + 1 && one.clientWidth > 0);
        }).map((one) => one.outerHTML.slice(0, 120));
      })()`);
      expect(over).toEqual([]);
      await page.emulateMedia({ media: null });
      const pdf = await page.pdf({ preferCSSPageSize: true });
      const sheets = [...pdf.toString("latin1").matchAll(/\/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)/g)];
      expect(sheets.length).toBeGreaterThan(0);
      expect(sheets.length).toBeLessThanOrEqual(2);
      // 210 mm by 297 mm in points of 1/72 inch. [derived]
      for (const [, wide, tall] of sheets) expect([Number(wide), Number(tall)].map(Math.round)).toEqual([595, 842]);
      writeFileSync(join(folder, "card.pdf"), pdf);
      const text = spawnSync("pdftotext", ["-layout", join(folder, "card.pdf"), "-"], { encoding: "utf8" });
      // Where nothing reads a PDF its words are not looked for.
      if (!text.error) {
        const words = text.stdout.replaceAll(/\s+/g, " ");
        expect(words).toContain(card.asks);
        expect(words).toContain(card.cautions.at(-1));
        for (let i = 1; i <= card.method.pieces; i++) expect(words.toLowerCase()).toContain(`${card.method.per} ${i}`);
        // The foot, which comes after all.
        expect(words).toContain("1 of 1");
      }
      expect(said).toEqual([]);
    }, 900_000);
  });
});
