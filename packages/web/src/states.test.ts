// Every state of the sheet in a browser: what it says, and what axe finds, in light and dark. The engine stands still and shows what it is handed.
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { faultsOf, heldPage, isWanted, launched } from "./browser.fixture.ts";
import type { EngineState } from "./engine/state.ts";
import { asText, errorsOf, goodState, withFinding } from "./states.fixture.ts";

const file = "units/plover.yaml";
const plain = "#plover/so20-24";
const open = "#plover/so20-24/film.mismatch";

describe.runIf(isWanted)("the sheet", () => {
  let browser: Browser;
  let page: Page;
  let held: Awaited<ReturnType<typeof heldPage>>;
  const good = goodState();
  beforeAll(async () => {
    [browser, held] = await Promise.all([launched(), heldPage()]);
    page = await held.opened(browser, asText(good));
    await page.locator(".strip").waitFor();
  }, 60_000);
  afterAll(async () => {
    await browser?.close();
    await held?.close();
  });

  const bad = new Map(good.texts).set(
    file,
    good.texts.get(file)!.replace("edge radius: 1.0 ±0.1 mm", "edge radius: 1,0 mm"),
  );
  const worse: EngineState = { ...good, texts: bad, errors: errorsOf(bad) };
  const noWanted: EngineState = {
    ...good,
    pairs: [],
    project: { ...good.project!, units: good.project!.units.map((u) => ({ ...u, wanted: [] })) },
  };
  const moved: EngineState = {
    ...good,
    canUndo: true,
    pairs: good.pairs.map((p) => ({ ...p, before: p.result })),
    changed: {
      what: [
        {
          address: "plover/film.guides.shoulder.through.2",
          file,
          line: 54,
          before: "1.25*W + 2.2 mm",
          after: "1.25*W + 12.2 mm",
        },
      ],
      flips: [
        {
          unit: "plover",
          tape: "so20-24",
          W: 24,
          check: "film.mismatch",
          severity: "S",
          before: { verdict: "stops", share: 0 },
          after: { verdict: "depends", share: 0.41 },
          worse: false,
        },
      ],
      worse: 0,
      better: 1,
      settled: true,
    },
  };
  const states: readonly (readonly [name: string, state: EngineState, hash: string, says: readonly string[]])[] = [
    [
      "first run",
      { ...good, texts: new Map(), project: undefined, pairs: [], shape: undefined, numbers: [] },
      "",
      ["Start from a unit that looks like yours", "tapeworthy start my-feeder"],
    ],
    ["what is known", good, plain, ["The checks reproduce 1 of the 1 things you know", "What the drawing stands on"]],
    ["a finding that stops", good, open, ["Stops: mismatch is", "Window", "Equation"].slice(0, 2)],
    [
      "a bad file, with the last good reading",
      worse,
      open,
      [
        "3 things to put right",
        "The sheet shows the last good reading",
        "line 51, column 33",
        "Found 1 without a unit, expected a length.",
        "Stops: mismatch is",
      ],
    ],
    [
      "a bad file, never read",
      { ...worse, project: undefined, pairs: [], shape: undefined, numbers: [] },
      "",
      ["The files can't be read yet", "Open there"],
    ],
    [
      "computing",
      {
        ...good,
        pairs: good.pairs.map((p, i) => (i === 0 ? p : { ...p, sharpness: "waiting", result: undefined })),
        busy: { done: 1, of: 2 },
      },
      plain,
      ["Working out", "1 of 2", "being worked out"],
    ],
    [
      "weighing what is known",
      { ...good, known: { ...good.known, of: 0, lines: [], sharp: false } },
      "",
      ["Weighing what is known"],
    ],
    ["empty", noWanted, plain, ["No tape is wanted of Plover yet", "Open project.yaml"]],
    ["not applicable", good, "#plover/so20-24/entry.bend", ["Not applicable"]],
    [
      "outside the range of an equation",
      withFinding(good, "so20-24", "film.pull", { status: "outside range" }),
      "#plover/so20-24/film.pull",
      ["outside the range in which it is known to hold"],
    ],
    [
      "contradicted by a known unit",
      {
        ...withFinding(good, "so20-24", "film.mismatch", { contradicted: true }),
        known: {
          ...good.known,
          reproduced: 0,
          contradicted: ["plover on so16-16"],
          contradictedChecks: ["film.mismatch"],
          lines: good.known.lines.map((l) => ({
            ...l,
            standing: "contradicted" as const,
            verdict: "stops" as const,
            share: 0.01,
            checks: ["film.mismatch"],
          })),
        },
      },
      open,
      ["A known unit contradicts this check"],
    ],
    [
      "connection lost",
      { ...good, connection: "lost", unsaved: 2 },
      open,
      ["No connection to the program", "2 changes are not written yet", "2 unsaved"],
    ],
    [
      "a file that can't be written",
      { ...good, troubles: [{ file, words: "It may not be written: permission denied." }] },
      plain,
      ["It may not be written"],
    ],
    [
      "a conflict",
      { ...good, conflicts: [{ id: "c1", file, line: 3, before: "a: 1 mm", mine: "a: 2 mm", theirs: "a: 3 mm" }] },
      "",
      ["Changed here and outside at once", "a: 2 mm", "Take theirs"],
    ],
    [
      "edits of an earlier session",
      { ...good, offered: [{ id: "o1", file, lines: [{ line: 3, before: "a: 1 mm", after: "a: 2 mm" }] }] },
      "",
      ["Edits of an earlier session", "a: 2 mm", "Leave them out"],
    ],
    ["after a change", moved, open, ["What this change moved", "1 better", "Write it for 24 mm only"]],
    [
      "a unit that can't be drawn",
      { ...good, shape: undefined, trouble: "the film meets no roller" },
      "",
      ["It can't be drawn: the film meets no roller."],
    ],
    ["the finding unfolded", good, `${open}?over=finding`, ["The finding", "Stops: mismatch is"]],
  ];

  test.each(states)(
    "%s: says so, and axe finds nothing in light or dark",
    async (_, state, hash, says) => {
      await page.evaluate(`show(${JSON.stringify(asText(state))}); location.hash = ${JSON.stringify(hash)};`);
      const text = async () => (await page.locator("#page").textContent())!.replace(/\s+/g, " ");
      for (const words of says) await expect.poll(text, { timeout: 5000 }).toContain(words);
      await page.emulateMedia({ colorScheme: "light", reducedMotion: "reduce" });
      expect(await faultsOf(page)).toEqual([]);
      await page.emulateMedia({ colorScheme: "dark", reducedMotion: "reduce" });
      expect(await faultsOf(page, ["color-contrast"])).toEqual([]);
    },
    60_000,
  );

  describe("a text put into the page", () => {
    /** Morphs one text into another in the page; tells what is there then, and which of the named nodes are still the same. */
    const morphed = (before: string, after: string, held: string) =>
      page.evaluate<{ html: string; same: boolean[] }>(`(async () => {
        const { morph } = await import("/src/sheet/morph.ts");
        const host = document.createElement("div");
        morph(host, ${JSON.stringify(before)});
        const held = [...host.querySelectorAll(${JSON.stringify(held)})];
        morph(host, ${JSON.stringify(after)});
        const now = [...host.querySelectorAll(${JSON.stringify(held)})];
        return { html: host.innerHTML, same: held.map((one) => now.includes(one)) };
      })()`);
    const part = "<h3>Ways out</h3><table><tbody><tr><td>1</td></tr></tbody></table>";
    const fold = "<h3>Equation</h3><div class='eq'><details><summary>rests on 2</summary><p>x</p></details></div>";

    test.each([
      ["attributes", '<svg><path d="M0 0" class="a"/></svg>', '<svg><path d="M1 1" data-x="2"/></svg>', "svg, path"],
      ["words", "<p>one <b>two</b></p>", "<p>1 <b>2</b></p>", "p, b"],
      ["something that went before it", `<p>x</p>${part}${fold}`, `${part}${fold}`, "details, .eq, table"],
      ["something that came before it", fold, `${part}${fold}`, "details, .eq"],
      ["a part that became another", `${part}${fold}`, `<h3>Ways out</h3><p>none</p>${fold}`, "details, .eq"],
      [
        "rows that moved up",
        "<ul><li data-key=a>a</li><li data-key=b>b</li><li data-key=c>c</li></ul>",
        "<ul><li data-key=b>b</li><li data-key=c>c</li></ul>",
        "[data-key=b], [data-key=c]",
      ],
    ])("keeps its nodes over %s", async (_, before, after, kept) => {
      const { html, same } = await morphed(before, after, kept);
      const plain = await page.evaluate(
        `(() => { const t = document.createElement("div"); t.innerHTML = ${JSON.stringify(after)}; return t.innerHTML; })()`,
      );
      expect(html).toBe(plain);
      expect(same.length).toBeGreaterThan(0);
      expect(same).toEqual(same.map(() => true));
    });
    test("keeps what a reader has unfolded", async () => {
      const { html } = await morphed(
        "<details open><summary>a</summary></details>",
        "<details><summary>b</summary></details>",
        "details",
      );
      expect(html).toBe('<details open=""><summary>b</summary></details>');
    });
    test("becomes any other text, whatever was there", async () => {
      const texts = [
        "",
        "x",
        "<b>1</b>",
        "<b>1</b><i>2</i><b>3</b>",
        "<i>2</i>",
        "<p><b>1</b>x<i>2</i></p>",
        "<i>1</i><b>2</b>y",
        `${part}${fold}${part}`,
      ];
      for (const before of texts)
        for (const after of texts) {
          const { html } = await morphed(before, after, "none");
          expect(html.replace(/'/g, '"')).toBe(after.replace(/'/g, '"'));
        }
    });
  });
});
