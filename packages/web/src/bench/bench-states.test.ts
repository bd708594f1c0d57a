// What lies on the bench in every state: what it says, and what axe finds, in light and dark. The engine stands still, answers are laid ready.
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { faultsInBoth, heldPage, isWanted, launched } from "../browser.fixture.ts";
import type { EngineState } from "../engine/state.ts";
import { asText, errorsOf } from "../states.fixture.ts";
import { answered, benchAnswers, benchState, openedLog } from "./bench-states.fixture.ts";

const bench = "#plover/so20-24?sheet=bench";
const thickness = "tapes/dpak-16/T";

describe.runIf(isWanted)("the bench", () => {
  let browser: Browser;
  let page: Page;
  let held: Awaited<ReturnType<typeof heldPage>>;
  const good = benchState();
  let log: string;
  beforeAll(async () => {
    [browser, held, log] = await Promise.all([
      launched(),
      heldPage(),
      openedLog(good, "T-03", 1, "bench/T-03/raw.parquet"),
    ]);
    page = await held.opened(browser, asText(good));
    await page.locator(".strip").waitFor();
  }, 360_000);
  afterAll(async () => {
    await browser?.close();
    await held?.close();
  });
  let shows = 0;
  async function shown(state: EngineState, hash: string, ready: Record<string, string>): Promise<void> {
    // Another text each time: what was answered for the state before is not shown for this one.
    const texts = new Map(state.texts).set("note.txt", `${++shows}`);
    await page.evaluate(`location.hash = "#plover/so20-24"; ready = ${JSON.stringify(ready)};`);
    await page.locator(".draw").waitFor();
    await page.evaluate(
      `show(${JSON.stringify(asText({ ...state, texts }))}); location.hash = ${JSON.stringify(hash)};`,
    );
    await page.locator("main.bench").waitFor();
  }
  const text = async () => (await page.locator("#page").textContent())!.replace(/\s+/g, " ");
  const with_ = (state: EngineState, more: Record<string, string>): EngineState => ({
    ...state,
    texts: new Map([...state.texts, ...Object.entries(more)]),
  });
  const ledger = good.texts.get("ledger.yaml")!;
  const bare: EngineState = {
    ...good,
    texts: new Map([...good.texts].filter(([name]) => !/^(bench\/|ledger)/.test(name))),
  };
  const noWanted: EngineState = {
    ...bare,
    pairs: [],
    project: { ...good.project!, units: good.project!.units.map((u) => ({ ...u, wanted: [] })) },
  };
  const apart = with_(good, { "ledger.yaml": `${ledger}  - apart: T-01\n    reason: the micrometer was not zeroed\n` });
  const thinner = good.texts.get("tapes/dpak-16.yaml")!.replace("part: TO-252", "part: TO-263");
  const retired = with_(good, { "tapes/dpak-16.yaml": thinner });
  const written = with_(good, {
    "tapes/dpak-16.yaml": good.texts
      .get("tapes/dpak-16.yaml")!
      .replace(/^(A0: .*)$/m, "$1\nT: 0.2531 ±0.01 mm measured   # T-01, 2026-11-18, 5 reels"),
  });
  const badLog = {
    "log read": JSON.stringify({
      errors: [
        {
          place: { file: "pull.csv", line: 3, column: 9, length: 4 },
          found: '"n/a?"',
          expected: "a number",
          shown: 'pull.csv:3:9: found "n/a?", expected a number\nWrite a gap as an empty cell.',
        },
      ],
    }),
  };
  const bad = with_(good, {
    "units/plover.yaml": good.texts.get("units/plover.yaml")!.replace("1.0 ±0.1 mm", "1,0 mm"),
  });
  type Case = readonly [
    name: string,
    state: EngineState,
    hash: string,
    trial: string | undefined,
    says: readonly string[],
  ];
  const states: readonly Case[] = [
    [
      "questions",
      good,
      bench,
      undefined,
      ["Open questions", "Chance it fails", "Trials", "waits: 20 readings not taken into the design"],
    ],
    ["no trial yet", bare, bench, undefined, ["Nothing frozen yet", "Nobody has tried"]],
    ["nothing wanted", noWanted, bench, undefined, ["Nothing is asked"]],
    [
      "a trial that waits",
      good,
      `${bench}&trial=T-01`,
      "T-01",
      ["from T-01", "Before and after", "Take into the design", "Keep apart", "Would write"],
    ],
    [
      "a trial that contradicts",
      good,
      `${bench}&trial=T-03`,
      "T-03",
      [
        "T-03 contradicts the model",
        "belief does not move by it",
        "Plateau from",
        // What its trial's file holds: 0.79 of the ripple at P1, 0.008 at P0, which noise alone may do.
        "79 % of the ripple comes again with every P1 of 12 mm, its first peak at",
        "P1 12 mm",
      ],
    ],
    [
      "a trial kept apart",
      apart,
      `${bench}&trial=T-01`,
      "T-01",
      ["T-01 is kept apart", "the micrometer was not zeroed"],
    ],
    ["a retired trial", retired, `${bench}&trial=T-01`, "T-01", ["T-01 is retired", "TO-252", "TO-263"]],
    ["a trial in the design", written, `${bench}&trial=T-01`, "T-01", ["is measured, and stands in the design"]],
    [
      "a card",
      good,
      `${bench}&question=${encodeURIComponent(thickness)}&card=open`,
      undefined,
      ["How thick is the carrier?", "Readings", "Print the card", "Back to the questions"],
    ],
    [
      "a card of a question without a finding",
      good,
      `${bench}&question=${encodeURIComponent("assume/wound density")}&card=open`,
      undefined,
      ["How heavy is tape as it is wound?"],
    ],
    [
      "a check that nobody has tried",
      bare,
      `${bench}&question=nip.even`,
      undefined,
      ["Does nip.even hold for plover on so20-24?", "Freeze the prediction"],
    ],
    ["a bad file", { ...bad, errors: errorsOf(bad.texts) }, bench, undefined, ["to put right"]],
    [
      "computing",
      {
        ...bare,
        pairs: bare.pairs.map((p) => ({ ...p, result: undefined, sharpness: "waiting" as const })),
        busy: { done: 0, of: 2 },
      },
      bench,
      "none",
      ["are being worked out: questions come with them"],
    ],
  ];
  test.each(states)(
    "%s: says so, and axe finds nothing in light or dark",
    async (_, state, hash, trial, says) => {
      const ready = trial === "none" || state.errors.length > 0 ? {} : await benchAnswers(state, trial);
      await shown(state, hash, { ...ready, "log open": log });
      for (const words of says) await expect.poll(text).toContain(words);
      expect(await faultsInBoth(page)).toEqual([]);
    },
    360_000,
  );

  test("a log that can't be read says where, what was found and the way out, and nothing is written", async () => {
    await shown(good, `${bench}&trial=T-03`, { ...(await benchAnswers(good)), ...badLog, "log open": log });
    await page.evaluate("asked.length = 0");
    await page.keyboard.press("i");
    await page
      .locator('input[type="file"]')
      .setInputFiles({ name: "pull.csv", mimeType: "text/csv", buffer: Buffer.from("a\n1\n") });
    await expect.poll(text).toContain('pull.csv:3:9: found "n/a?", expected a number');
    expect(await faultsInBoth(page)).toEqual([]);
    await page.keyboard.press("Escape");
    await expect.poll(() => page.locator(".read-log").count()).toBe(0);
    expect(await page.evaluate("asked.filter(([what]) => what === 'put').length")).toBe(0);
  }, 360_000);

  test("the flags of a log are sliders of 24 px: arrows move them, and a typed number does", async () => {
    await shown(good, `${bench}&trial=T-03`, { ...(await benchAnswers(good)), "log open": log });
    const flag = page.getByRole("slider").first();
    await flag.waitFor();
    const box = (await flag.boundingBox())!;
    expect(Math.min(box.width, box.height)).toBeGreaterThanOrEqual(24);
    const at = async () => Number(await flag.getAttribute("aria-valuenow"));
    const before = await at();
    expect(before).toBeCloseTo(0.025, 9);
    await flag.focus();
    await page.keyboard.press("ArrowRight");
    const step = (await at()) - before;
    expect(step).toBeGreaterThan(0);
    await page.keyboard.press("Shift+ArrowRight");
    expect((await at()) - before).toBeGreaterThan(2 * step);
    await page.getByLabel("Plateau from, mm").fill("40");
    await page.keyboard.press("Enter");
    await expect.poll(at).toBeCloseTo(0.04, 9);
  }, 360_000);

  const cardOf = (address: string): string => `${bench}&question=${encodeURIComponent(address)}&card=open`;
  const fields = () => page.locator(".panel .readings fieldset input");
  const typed = () => fields().evaluateAll((all) => all.map((one) => (one as HTMLInputElement).value));
  const action = (name: string) => page.locator(".panel").getByRole("button", { name });
  test("readings typed into a card outlive a reload, are another card's on no card, and are gone once they are cleared", async () => {
    await shown(good, cardOf(thickness), await benchAnswers(good));
    await fields().first().waitFor();
    expect(await text()).toContain("0 of 12 typed");
    await fields().nth(0).fill("2530");
    await fields().nth(4).fill("25l0");
    expect(await text()).toContain("1 of 12 typed");
    const was = await typed();
    await page.reload();
    await fields().first().waitFor();
    await expect.poll(typed).toEqual(was);
    expect(was.filter((one) => one !== "")).toEqual(["2530", "25l0"]);
    // Another card is empty; back at the first, what was typed is there.
    await page.evaluate(`location.hash = ${JSON.stringify(cardOf("assume/wound density"))}`);
    await expect.poll(text).toContain("How heavy is tape as it is wound?");
    expect((await typed()).every((one) => one === "")).toBe(true);
    await page.evaluate(`location.hash = ${JSON.stringify(cardOf(thickness))}`);
    await expect.poll(typed).toEqual(was);
    // Cleared by mistake they can be put back; cleared they stay so over a reload.
    await action("Clear the fields").click();
    await action("Put back what was typed").click();
    await expect.poll(typed).toEqual(was);
    await action("Clear the fields").click();
    await page.reload();
    await fields().first().waitFor();
    expect((await typed()).every((one) => one === "")).toBe(true);
    expect(await page.evaluate("sessionStorage.length")).toBe(0);
  }, 360_000);

  test("readings that are saved are kept by the browser no longer, those whose saving fails are", async () => {
    await shown(good, cardOf(thickness), await benchAnswers(good));
    await fields().first().waitFor();
    await fields().nth(0).fill("2530");
    await expect.poll(() => page.evaluate("sessionStorage.length")).toBe(1);
    await page.evaluate("asked.length = 0; refuses = 'the disk is full'");
    const save = page.locator(".panel").getByRole("button", { name: /^Save the readings into / });
    await save.click();
    await expect.poll(text).toContain("the disk is full");
    expect((await typed())[0]).toBe("2530");
    expect(await page.evaluate("sessionStorage.length")).toBe(1);
    await page.evaluate("refuses = undefined");
    await save.click();
    await expect.poll(() => page.evaluate("sessionStorage.length")).toBe(0);
    expect(await page.evaluate("asked.filter(([what]) => what === 'put').length")).toBe(2);
  }, 360_000);

  test("a reading of five numbers has five fields to fill", async () => {
    await shown(good, cardOf("assume/winding capacity"), await benchAnswers(good));
    await fields().first().waitFor();
    const n = await fields().count();
    await fields().first().fill("21.5");
    expect(await text()).toContain(`1 of ${n} typed`);
  }, 360_000);

  test.each([
    ["bench-sheet.tsx", bench, "main.bench"],
    ["text-pane.tsx", "#plover/so20-24?text=units/plover.yaml", "section.text"],
  ])(
    "where %s is of another build than the page, a button reloads it and shows what was chosen",
    async (part, hash, place) => {
      const other = await held.opened(browser, asText(good));
      const gone = (url: URL): boolean => url.pathname.endsWith(part);
      await other.route(gone, (route) => route.fulfill({ status: 404 }));
      await other.locator(".draw").waitFor();
      await other.evaluate(`location.hash = ${JSON.stringify(hash)}`);
      const said = other.locator(place).getByRole("alert");
      await said.waitFor();
      expect(await said.textContent()).toContain("The program has changed: reload");
      expect(await faultsInBoth(other)).toEqual([]);
      await other.unroute(gone);
      await said.getByRole("button", { name: "Reload" }).click();
      await other
        .locator(place)
        .locator(part === "bench-sheet.tsx" ? ".questions" : ".editor .cm-content")
        .waitFor();
      expect(await other.getByText("The program has changed").count()).toBe(0);
      await other.context().close();
    },
    360_000,
  );

  test("arrows go from question to question, Enter opens the card, Escape lays it back", async () => {
    await shown(good, bench, await benchAnswers(good));
    const rows = page.locator(".questions tr[data-address]");
    await expect.poll(() => rows.count()).toBeGreaterThan(1);
    await page.locator('.questions tr[tabindex="0"]').first().focus();
    await page.keyboard.press("ArrowDown");
    const second = await rows.nth(1).getAttribute("data-address");
    await expect.poll(() => page.locator(".questions tr.on").getAttribute("data-address")).toBe(second);
    expect(await page.evaluate("document.activeElement.dataset.address")).toBe(second);
    await page.keyboard.press("Enter");
    await page.locator(".paper-card").waitFor();
    await page.keyboard.press("Escape");
    await expect.poll(() => page.locator(".paper-card").count()).toBe(0);
    await page.keyboard.press("1");
    await page.locator(".draw").waitFor();
    await page.keyboard.press("2");
    await page.locator("main.bench").waitFor();
  }, 360_000);

  test.each([
    [1920, 1080],
    [900, 900],
    [390, 844],
  ])(
    "at %d by %d nothing scrolls sideways, with questions and with a card",
    async (width, height) => {
      await page.setViewportSize({ width, height });
      const ready = { ...(await benchAnswers(good, "T-03")), "log open": log };
      for (const hash of [`${bench}&trial=T-03`, `${bench}&question=${encodeURIComponent(thickness)}&card=open`]) {
        await shown(good, hash, ready);
        await expect.poll(() => page.locator(".ledger").count()).toBe(1);
        expect(await page.evaluate("document.documentElement.scrollWidth")).toBe(width);
        expect(await faultsInBoth(page)).toEqual([]);
      }
      await page.setViewportSize({ width: 1280, height: 800 });
    },
    360_000,
  );

  test("a card prints alone, on one page of A4", async () => {
    await shown(good, `${bench}&question=${encodeURIComponent(thickness)}&card=open`, await benchAnswers(good));
    await page.locator(".paper-card").waitFor();
    const pdf = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
    expect(pdf.match(/\/Type\s*\/Page\b/g)).toHaveLength(1);
    const [, wide, tall] = /\/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)/.exec(pdf)!;
    expect([Math.round(Number(wide)), Math.round(Number(tall))]).toEqual([595, 842]);
  }, 360_000);

  test("questions are ranked by the draws of belief, not by the shares of findings", async () => {
    const answer = await answered(good, { kind: "next" });
    expect(
      answer.kind === "next" &&
        answer.next.questions.ranked.concat(answer.next.questions.open).every((q) => q.from === "draws"),
    ).toBe(true);
  }, 360_000);
});
