// Every state of the sheet in a browser: what it says, and what axe finds, in light and dark. The engine stands still and shows what it is handed.
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { faultsInBoth, heldPage, isWanted, launched } from "./browser.fixture.ts";
import type { EngineState } from "./engine/state.ts";
import { asText, errorsOf, goodState, indexAnswer, sizeAnswer, sureAnswers, withFinding } from "./states.fixture.ts";

const file = "units/plover.yaml";
const plain = "#plover/so20-24";
const open = "#plover/so20-24/film.mismatch";

describe.runIf(isWanted)("the sheet", () => {
  let browser: Browser;
  let page: Page;
  let held: Awaited<ReturnType<typeof heldPage>>;
  const good = goodState();
  const index = indexAnswer();
  const answers = { index, ...sureAnswers(), size: sizeAnswer() };
  beforeAll(async () => {
    [browser, held] = await Promise.all([launched(), heldPage()]);
    page = await held.opened(browser, asText(good));
    await page.locator(".strip").waitFor();
  }, 180_000);
  afterAll(async () => {
    await browser?.close();
    await held?.close();
  });

  const bad = new Map(good.texts).set(
    file,
    good.texts.get(file)!.replace("edge radius: 1.0 ±0.1 mm", "edge radius: 1,0 mm"),
  );
  const lineOfBad =
    bad
      .get(file)!
      .split("\n")
      .findIndex((line) => line.includes("edge radius: 1,0 mm")) + 1;
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
      ["Start from a unit that looks like yours", "Put saltgrass into this folder", "tapeworthy start my-feeder"],
    ],
    ["what is known", good, plain, ["The checks reproduce the one thing you know", "What the drawing stands on"]],
    ["a finding that stops", good, open, ["Stops: mismatch is", "Window", "Equation"].slice(0, 2)],
    [
      "a bad file, with the last good reading",
      worse,
      open,
      [
        "3 things to put right",
        "The sheet shows the last good reading",
        `line ${lineOfBad}, column 33`,
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
    [
      "one index in time",
      good,
      `${plain}?over=index`,
      [
        "The tape rests after",
        "In which order it takes load",
        "a tooth carries the tape",
        "µm short of its pitch",
        "Teeth in their holes",
      ],
    ],
    [
      "error at the pick",
      good,
      `${plain}?over=pick`,
      [
        "of parts lie within",
        "any cycle of any unit",
        "Parts on the tool, by package",
        "What would narrow it",
        "trims out",
      ],
    ],
    [
      "misfeeds",
      good,
      `${plain}?over=misfeed`,
      ["in a million; 10 are allowed", "The part lies outside what the pick tool forgives", "cannot fail as drawn"],
    ],
    [
      "widening all windows",
      good,
      `${plain}?over=size`,
      [
        "1 dimension moves; 1 cell comes through and none breaks",
        "now set by so8-12, slips. At 0 and above, the checks that these dimensions move hold together on each wanted tape in at least 95 % of belief. 1 cell gives up some room for 1 that gains.",
        "What pays",
        "Set aside",
        "Write 1 line",
      ],
    ],
    ["the finding unfolded", good, `${open}?over=finding`, ["The finding", "Stops: mismatch is"]],
  ];

  test.each(states)(
    "%s: says so, and axe finds nothing in light or dark",
    async (_, state, hash, says) => {
      await page.evaluate(`ready = ${JSON.stringify(answers)};`);
      await page.evaluate(`show(${JSON.stringify(asText(state))}); location.hash = ${JSON.stringify(hash)};`);
      const text = async () => (await page.locator("#page").textContent())!.replace(/\s+/g, " ");
      for (const words of says) await expect.poll(text).toContain(words);
      expect(await faultsInBoth(page)).toEqual([]);
    },
    180_000,
  );

  test("a dimension being widened is a slider: arrows move it, its target is 24 px, and nothing is written but by a press", async () => {
    await page.evaluate(
      `asked.length = 0; ready = ${JSON.stringify(answers)}; show(${JSON.stringify(asText(good))}); location.hash = ${JSON.stringify(`${plain}?over=size`)};`,
    );
    const slider = page.locator(".over").getByRole("slider", { name: /preload/ });
    await slider.waitFor();
    const box = (await slider.boundingBox())!;
    expect(Math.min(box.width, box.height)).toBeGreaterThanOrEqual(24);
    expect(Number(await slider.getAttribute("aria-valuenow"))).toBeCloseTo(5.3, 6);
    await slider.focus();
    await slider.press("ArrowRight");
    await expect.poll(async () => Number(await slider.getAttribute("aria-valuenow"))).toBeCloseTo(5.4, 6);
    await slider.press("Home");
    await expect.poll(async () => Number(await slider.getAttribute("aria-valuenow"))).toBeCloseTo(2.7, 6);
    expect(await page.evaluate("asked.filter(([what]) => what === 'writeWhole').length")).toBe(0);
    await page.getByRole("button", { name: "Write 1 line" }).click();
    await expect.poll(() => page.evaluate("asked.filter(([what]) => what === 'writeWhole').length")).toBe(1);
  }, 180_000);

  describe("one index in time", () => {
    const scrub = () => page.locator(".scrub");
    const unfolded = async (text = index) => {
      await page.evaluate(`location.hash = ${JSON.stringify(plain)}; ready = { index: ${JSON.stringify(text)} };`);
      // Another text of the project: what was answered before is not shown again.
      const texts = new Map(good.texts).set("note.txt", `${Math.random()}`);
      await page.evaluate(
        `show(${JSON.stringify(asText({ ...good, texts }))}); location.hash = ${JSON.stringify(`${plain}?over=index`)};`,
      );
      await scrub().waitFor();
    };
    const spoken = () => scrub().getAttribute("aria-valuetext");
    const time = async () => Number(await scrub().getAttribute("aria-valuenow"));
    const pocket = () =>
      page
        .locator('.moving [data-pocket="-2"]')
        .first()
        .evaluate((one) => one.getBoundingClientRect().x);
    const now = () => page.locator(".panel .story li.now").textContent();

    test("arrow keys move it by a tenth and a whole millisecond, Page keys from event to event", async () => {
      await unfolded();
      await scrub().focus();
      await page.keyboard.press("Home");
      await page.keyboard.press("ArrowRight");
      expect(await time()).toBe(0.1);
      await page.keyboard.press("Shift+ArrowRight");
      expect(await time()).toBe(1.1);
      await page.keyboard.press("Home");
      await page.keyboard.press("PageUp");
      expect(await now()).toContain("the film is taut");
      await page.keyboard.press("End");
      expect(await time()).toBe(Number(await scrub().getAttribute("aria-valuemax")));
      expect(await spoken()).toMatch(/tape \d+(\.\d+)? mm on, wheel .*, film .*last: /);
    });
    test("drawn over the lanes it takes tape, wheel and story along", async () => {
      await unfolded();
      await scrub().focus();
      await page.keyboard.press("Home");
      const at = await pocket();
      const box = (await page.locator(".lanes").boundingBox())!;
      await page.mouse.move(box.x + 80, box.y + 100);
      await page.mouse.down();
      await page.mouse.move(box.x + 300, box.y + 120);
      await page.mouse.move(box.x + 500, box.y + 140);
      await page.mouse.up();
      await expect.poll(time).toBeGreaterThan(20);
      expect(await pocket()).toBeGreaterThan(at + 3);
      expect(await now()).not.toContain("the peel motor is switched on");
      const left = await time();
      await page.mouse.move(box.x + 200, box.y + 140);
      expect(await time()).toBe(left);
    });
    test("an event of the story is gone to, also where it lies outside the part that is shown", async () => {
      await unfolded();
      await page.getByLabel("Coming to rest").check();
      await page.locator(".panel .story li button", { hasText: "a tooth carries the tape" }).click();
      expect(await now()).toContain("a tooth carries the tape");
      await expect.poll(() => page.getByLabel("Whole index").isChecked()).toBe(true);
    });
    test("steps that did not converge are said beside the lanes and in the story", async () => {
      await unfolded(indexAnswer({ steps: { taken: 400, unsolved: 3, unsolvedAt: 0.03 } }));
      expect(await page.locator(".panel .story .warning").textContent()).toContain("3 of 400 steps did not converge");
      expect(await page.locator(".lanes svg .unsolved").count()).toBe(1);
    });
    test.each([
      [1920, 1080],
      [900, 900],
      [390, 844],
    ])("at %d by %d lanes, story and slider are there and nothing scrolls sideways", async (width, height) => {
      await page.setViewportSize({ width, height });
      await unfolded();
      expect(await page.evaluate("document.documentElement.scrollWidth")).toBe(width);
      const lanes = (await page.locator(".lanes").boundingBox())!;
      expect(lanes.height).toBeGreaterThan(300);
      expect(lanes.x + lanes.width).toBeLessThanOrEqual(width + 0.5);
      expect((await scrub().boundingBox())!.width).toBeGreaterThanOrEqual(24);
      expect(await page.locator(".story:visible").count()).toBe(1);
      expect(await faultsInBoth(page)).toEqual([]);
      await page.setViewportSize({ width: 1280, height: 800 });
    });
  });

  describe("whatever it is shown on", () => {
    const shown = async (hash = open) => {
      await page.evaluate(`show(${JSON.stringify(asText(good))}); location.hash = ${JSON.stringify(hash)};`);
      await page.locator(".panel .finding").waitFor();
    };
    test("two buttons lead past the drawing, to the map and to the finding, by keyboard", async () => {
      await shown();
      const focused = (selector: string) =>
        page.evaluate<boolean>(`document.activeElement.closest(${JSON.stringify(selector)}) !== null`);
      for (const [name, to] of [
        ["To the route map", '.map a.cell[tabindex="0"]'],
        ["To the finding", ".panel"],
      ] as const) {
        const button = page.getByRole("button", { name, exact: true });
        await button.focus();
        // Seen by whoever gets to it: it stands off the page until it has the focus.
        await expect.poll(async () => (await button.boundingBox())!.y).toBeGreaterThanOrEqual(0);
        expect(await focused(to)).toBe(false);
        await page.keyboard.press("Enter");
        await expect.poll(() => focused(to)).toBe(true);
      }
    });
    test("every cell of the map is a target of 24 px", async () => {
      await shown();
      const cells = () =>
        page.locator(".map a.cell .clear").evaluateAll((all) =>
          all.map((one) => {
            const { width, height } = one.getBoundingClientRect();
            return Math.min(width, height + 2);
          }),
        );
      for (const [width, height] of [
        [1280, 800],
        [390, 844],
      ] as const) {
        await page.setViewportSize({ width, height });
        await expect.poll(async () => Math.min(...(await cells()))).toBeGreaterThanOrEqual(23.9);
      }
      await page.setViewportSize({ width: 1280, height: 800 });
    });
    test.each([
      [1920, 1080],
      [1280, 800],
      [1000, 800],
      [900, 1200],
      [390, 844],
    ])(
      "at %d by %d nothing makes the page itself scroll sideways, and the strip is at the foot",
      async (width, height) => {
        await page.setViewportSize({ width, height });
        await shown();
        expect(await page.evaluate("document.documentElement.scrollWidth")).toBe(width);
        const strip = (await page.locator(".strip").boundingBox())!;
        expect(Math.round(strip.y + strip.height)).toBe(height);
        expect(await faultsInBoth(page)).toEqual([]);
        await page.setViewportSize({ width: 1280, height: 800 });
      },
    );
    test("below 1000 px the panel stands under the map, above it beside it", async () => {
      await shown();
      const below = async () => {
        const [panel, map] = [await page.locator(".panel").boundingBox(), await page.locator(".route").boundingBox()];
        return panel!.y >= map!.y + map!.height - 1;
      };
      expect(await below()).toBe(false);
      await page.setViewportSize({ width: 900, height: 900 });
      await expect.poll(below).toBe(true);
      await page.setViewportSize({ width: 1280, height: 800 });
    });
    test("every diamond is a target of 24 px that a finger can drag without scrolling the page", async () => {
      await shown();
      const sizes = await page.locator(".handle").evaluateAll((all) =>
        all.map((one) => {
          const { width, height } = one.getBoundingClientRect();
          return [width, height, getComputedStyle(one).touchAction].join(" ");
        }),
      );
      expect(sizes.length).toBeGreaterThan(8);
      expect([...new Set(sizes)]).toEqual(["24 24 none"]);
    });
    test("with letters twice as large, as a browser can be set, the drawings are twice as large too and nothing is hidden", async () => {
      const large = await launched("--blink-settings=defaultFontSize=32");
      const one = await held.opened(large, asText(good), open);
      await one.locator(".panel .finding").waitFor();
      const tall = (selector: string) =>
        one
          .locator(selector)
          .first()
          .evaluate((element) => element.getBoundingClientRect().height);
      await expect.poll(() => tall(".draw .dim-text")).toBeGreaterThan(18);
      await expect.poll(() => tall(".map a.cell .clear")).toBeGreaterThan(40);
      expect(await one.evaluate("document.documentElement.scrollWidth <= innerWidth")).toBe(true);
      const strip = (await one.locator(".strip").boundingBox())!;
      expect(strip.y + strip.height).toBeLessThanOrEqual(801);
      // A diamond is twice as large, and goes with the hand.
      const box = (await one.locator('.handle[data-address="plover/tape.section.width"]').boundingBox())!;
      expect(box.width).toBe(48);
      const [x, y] = [box.x + 24, box.y + 24];
      await one.mouse.move(x, y);
      await one.mouse.down();
      await one.mouse.move(x + 20, y);
      await one.mouse.move(x + 40, y);
      const asked = () => one.evaluate<[string, string, number][]>("asked.filter(([name]) => name === 'move')");
      await expect.poll(async () => (await asked()).length).toBeGreaterThan(0);
      const [, , by] = (await asked()).at(-1)!;
      expect(by).toBeGreaterThan(0);
      expect(await faultsInBoth(one)).toEqual([]);
      await large.close();
    }, 180_000);
    test("on paper it is white, without diamonds and buttons, the words of the finding with it", async () => {
      await shown();
      await page.emulateMedia({ media: "print", colorScheme: "dark" });
      expect(await page.evaluate("getComputedStyle(document.body).backgroundColor")).toBe("rgb(255, 255, 255)");
      expect(await page.locator(".handle").first().isVisible()).toBe(false);
      expect(await page.locator(".tools").isVisible()).toBe(false);
      expect(await page.locator(".panel .headline").first().isVisible()).toBe(true);
      await page.emulateMedia({ media: "screen", colorScheme: "light", reducedMotion: "reduce" });
    });
    test("a finger opens a cell, and a tap on a diamond asks for its number", async () => {
      const touch = await held.opened(browser, asText(good), plain, { hasTouch: true });
      await touch.locator('.map a.cell[data-check="film.steer"][data-tape="so20-24"]').tap();
      await expect.poll(() => touch.evaluate("location.hash")).toContain("film.steer");
      await touch.locator('.handle[data-address="plover/tape.section.width"]').tap();
      await touch.locator(".type-in input").first().waitFor();
      await touch.context().close();
    });
    test("where motion is not wanted nothing moves by itself", async () => {
      await shown();
      const moving = await page.evaluate("document.getAnimations().length");
      expect(moving).toBe(0);
    });
  });

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
    test.each([
      ["attributes", '<svg><path d="M0 0" class="a"/></svg>', '<svg><path d="M1 1" data-x="&amp;2"/></svg>'],
      ["words with marks in them", "<p>a &lt; b</p>", "<p>a &gt; b &amp; c &#39;d&#x27;</p>"],
      ["a row more", "<ul><li>a</li></ul>", "<ul><li>a</li><li>b</li></ul>"],
      ["another tag at the same place", "<p><b>1</b></p>", "<p><i>1</i></p>"],
      ["what the parser puts in by itself", "<table><tr><td>1</td></tr></table>", "<table><tr><td>2</td></tr></table>"],
      ["nothing", "<p>1</p>", ""],
      ["an attribute without a value", '<input class="a" disabled>', '<input class="b">'],
    ])("is retold with %s as if it were written anew", async (_, before, after) => {
      const found = await page.evaluate<string[]>(`(async () => {
        const { Retold } = await import("/src/sheet/retold.ts");
        const host = document.createElement("div");
        const told = new Retold(host);
        return [${JSON.stringify(before)}, ${JSON.stringify(after)}, ${JSON.stringify(before)}, ${JSON.stringify(after)}].map((text) => {
          told.show(text);
          return host.innerHTML;
        });
      })()`);
      const plain = (text: string) =>
        page.evaluate<string>(
          `(() => { const t = document.createElement("div"); t.innerHTML = ${JSON.stringify(text)}; return t.innerHTML; })()`,
        );
      const [one, two] = [await plain(before), await plain(after)];
      expect(found).toEqual([one, two, one, two]);
    });
    test("in which some numbers became others is not parsed again, and keeps its nodes", async () => {
      const found = await page.evaluate(`(async () => {
        const { Retold } = await import("/src/sheet/retold.ts");
        const host = document.createElement("div");
        const told = new Retold(host);
        const text = (x) => '<svg><g class="a">' + [1, 2, 3].map((i) => '<path d="M' + i + ' ' + (i === 2 ? x : 0) + '"/><text>' + i + '</text>').join("") + "</g></svg>";
        told.show(text(0));
        const nodes = [...host.querySelectorAll("*")];
        let parsed = 0;
        const own = Object.getOwnPropertyDescriptor(Element.prototype, "innerHTML");
        Object.defineProperty(HTMLTemplateElement.prototype, "innerHTML", { configurable: true, set(v) { parsed++; own.set.call(this, v); } });
        told.show(text(7));
        delete HTMLTemplateElement.prototype.innerHTML;
        return { parsed, same: [...host.querySelectorAll("*")].every((one, i) => one === nodes[i]), d: nodes[4].getAttribute("d") };
      })()`);
      expect(found).toEqual({ parsed: 0, same: true, d: "M2 7" });
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
