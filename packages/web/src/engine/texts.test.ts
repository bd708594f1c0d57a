import { ChangeSet, Text } from "@codemirror/state";
import { changed } from "@tapeworthy/project";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { TestClock, TestNetwork, turn } from "./network.fixture.ts";
import type { Conflict } from "./state.ts";
import { SharedTexts, type TextChanged } from "./texts.ts";

const file = "units/wren.yaml";
const lines = (n: number): string => Array.from({ length: n }, (_, i) => `line ${i}: 0\n`).join("");

/** A page on a line of the test's own, with a copy of its texts kept by its changes alone, as the worker and the editor keep theirs. */
class Page {
  readonly clock = new TestClock();
  readonly kept = new Map<string, string>();
  readonly texts: SharedTexts;
  readonly own: boolean[] = [];
  readonly network: TestNetwork;
  constructor(network: TestNetwork) {
    this.network = network;
    this.texts = new SharedTexts(network, this.clock, { changed: (change) => this.take(change), noted: () => {} });
  }
  private take({ file, changes, text, own }: TextChanged): void {
    this.own.push(own);
    const before = this.kept.get(file);
    if (text === undefined) this.kept.delete(file);
    else if (changes && before !== undefined) {
      this.kept.set(file, changed(before, changes));
      expect(this.kept.get(file)).toBe(text);
    } else this.kept.set(file, text);
  }
  get text(): string {
    return this.texts.text(file)!;
  }
  replace(old: string, fresh: string, gesture = this.texts.newGesture()): string {
    const from = this.text.indexOf(old);
    expect(from).toBeGreaterThanOrEqual(0);
    const insert = Text.of(fresh.split("\n"));
    this.texts.edit(file, ChangeSet.of({ from, to: from + old.length, insert }, this.text.length), gesture);
    return gesture;
  }
  settle = () => this.network.settle(this.clock);
}
async function opened(text = lines(4), network = new TestNetwork(new Map([[file, text]]))): Promise<Page> {
  const page = new Page(network);
  await page.settle();
  expect(page.texts.connection).toBe("live");
  return page;
}
const serverText = ({ network }: Page): string => network.server.texts.now(file)!.text;
const lineOf = (text: string, i: number): string => text.split("\n")[i]!;

describe("an edit", () => {
  test("shows at once, and is the server's text when it has been answered", async () => {
    const page = await opened();
    page.texts.end(page.replace("line 1: 0", "line 1: 5"));
    expect([lineOf(page.text, 1), page.texts.unsaved, page.texts.canUndo]).toEqual(["line 1: 5", 1, true]);
    expect(lineOf(serverText(page), 1)).toBe("line 1: 0");
    await page.settle();
    expect([serverText(page), page.texts.unsaved]).toEqual([page.text, 0]);
  });
  test("of many steps is one step of undo, and what came between from outside is not undone", async () => {
    const page = await opened();
    const drag = page.texts.newGesture();
    for (let i = 1; i <= 5; i++) {
      page.replace(`line 1: ${i - 1}`, `line 1: ${i}`, drag);
      if (i === 3) page.network.server.outside(file, serverText(page).replace("line 3: 0", "line 3: 9"));
      if (i % 2 === 0) await turn();
    }
    page.texts.end(drag);
    await page.settle();
    expect(serverText(page)).toBe("line 0: 0\nline 1: 5\nline 2: 0\nline 3: 9\n");
    const undo = page.texts.undo();
    await page.settle();
    await undo;
    expect(page.text).toBe("line 0: 0\nline 1: 0\nline 2: 0\nline 3: 9\n");
    expect([page.texts.canUndo, page.texts.canRedo, serverText(page)]).toEqual([false, true, page.text]);
  });
  test("of another gesture is another step of undo, though both wait for one answer", async () => {
    const page = await opened();
    page.texts.end(page.replace("line 0: 0", "line 0: 1"));
    page.texts.end(page.replace("line 1: 0", "line 1: 1"));
    page.texts.end(page.replace("line 2: 0", "line 2: 1"));
    await page.settle();
    expect(page.network.server.texts.depth.undo).toBe(3);
    const undo = page.texts.undo();
    await page.settle();
    await undo;
    expect(page.text).toBe(
      "line 0: 0\nline 1: 0\nline 2: 0\nline 3: 0\n".replace("0: 0", "0: 1").replace("1: 0\nline 2", "1: 1\nline 2"),
    );
  });
  test("that ended after its last step was sent is ended at the server too", async () => {
    const page = await opened();
    const drag = page.replace("line 0: 0", "line 0: 1");
    await page.settle();
    page.texts.end(drag);
    await page.settle();
    page.replace("line 0: 1", "line 0: 2", drag);
    await page.settle();
    expect(page.network.server.texts.depth.undo).toBe(2);
  });
  test("is waited for by undo, which would undo the one before it", async () => {
    const page = await opened();
    page.texts.end(page.replace("line 0: 0", "line 0: 1"));
    await page.settle();
    page.texts.end(page.replace("line 1: 0", "line 1: 1"));
    const undo = page.texts.undo();
    await page.settle();
    await undo;
    expect(page.text).toBe("line 0: 1\nline 1: 0\nline 2: 0\nline 3: 0\n");
  });
});

describe("two hands on one line", () => {
  const clashed = async (mine: string, theirs: string): Promise<Page> => {
    const page = await opened();
    page.texts.end(page.replace("line 1: 0", mine));
    page.texts.end(page.replace("line 3: 0", "line 3: mine"));
    page.network.server.outside(file, lines(4).replace("line 1: 0", theirs));
    await page.settle();
    return page;
  };
  test("show both texts: theirs stands, mine waits beside it, and my other lines go in", async () => {
    const page = await clashed("line 1: mine", "line 1: theirs");
    const text = "line 0: 0\nline 1: theirs\nline 2: 0\nline 3: mine\n";
    expect([page.text, serverText(page)]).toEqual([text, text]);
    expect(page.texts.conflicts).toMatchObject([
      { file, line: 2, before: "line 1: 0\n", mine: "line 1: mine\n", theirs: "line 1: theirs\n" },
    ]);
  });
  test("mine can be put in, in place of theirs, as one step of undo", async () => {
    const page = await clashed("line 1: mine", "line 1: theirs");
    page.network.server.outside(file, `# above\n${serverText(page)}`);
    await page.settle();
    expect(page.texts.conflicts[0]!.line).toBe(3);
    page.texts.resolve(page.texts.conflicts[0]!.id, "mine");
    await page.settle();
    expect(serverText(page)).toBe("# above\nline 0: 0\nline 1: mine\nline 2: 0\nline 3: mine\n");
    expect(page.texts.conflicts).toEqual([]);
    const undo = page.texts.undo();
    await page.settle();
    await undo;
    expect(lineOf(serverText(page), 2)).toBe("line 1: theirs");
  });
  test("theirs can be left as it is", async () => {
    const page = await clashed("line 1: mine", "line 1: theirs");
    page.texts.resolve(page.texts.conflicts[0]!.id, "theirs");
    await page.settle();
    expect([lineOf(serverText(page), 1), page.texts.conflicts]).toEqual(["line 1: theirs", []]);
  });
  test("that wrote the same are no conflict", async () => {
    const page = await clashed("line 1: same", "line 1: same");
    expect(page.texts.conflicts).toEqual([]);
    expect(serverText(page)).toBe("line 0: 0\nline 1: same\nline 2: 0\nline 3: mine\n");
  });
  test("are told apart by undo too: it is refused with both texts, and those before it can be undone", async () => {
    const page = await opened();
    page.texts.end(page.replace("line 0: 0", "line 0: 1"));
    await page.settle();
    page.texts.end(page.replace("line 1: 0", "line 1: mine"));
    await page.settle();
    page.network.server.outside(file, serverText(page).replace("line 1: mine", "line 1: theirs"));
    await page.settle();
    const undo = page.texts.undo();
    await page.settle();
    await undo;
    expect(page.texts.conflicts).toMatchObject([{ mine: "line 1: 0\n", theirs: "line 1: theirs\n" }]);
    page.texts.resolve(page.texts.conflicts[0]!.id, "theirs");
    await page.settle();
    const next = page.texts.undo();
    await page.settle();
    await next;
    expect(page.text).toBe("line 0: 0\nline 1: theirs\nline 2: 0\nline 3: 0\n");
  });
  test("a file that went away keeps what was typed in it, and it can be made again", async () => {
    const page = await opened();
    page.replace("line 1: 0", "line 1: mine");
    page.network.server.outside(file, undefined);
    await page.settle();
    expect(page.kept.has(file)).toBe(false);
    const mine = lines(4).replace("line 1: 0", "line 1: mine");
    expect(page.texts.conflicts).toMatchObject([{ mine, theirs: "" }]);
    page.texts.resolve(page.texts.conflicts[0]!.id, "mine");
    await page.settle();
    expect([page.text, serverText(page)]).toEqual([mine, mine]);
  });
});

describe("a line that breaks", () => {
  test("is tried again after 0.4 s, then twice as late each time up to 15 s, and at once shorter when it has held", async () => {
    const page = await opened();
    page.network.isDown = true;
    page.network.break();
    await turn();
    const waits: number[] = [];
    for (let i = 0; i < 8; i++) {
      expect(page.texts.connection).toBe("lost");
      let waited = 0;
      const before = page.clock.isIdle;
      expect(before).toBe(false);
      while (!page.clock.isIdle) {
        page.clock.pass(100);
        waited += 100;
      }
      waits.push(waited);
      await turn();
    }
    expect(waits).toEqual([400, 800, 1600, 3200, 6400, 12_800, 15_000, 15_000]);
    page.network.isDown = false;
    await page.settle();
    expect(page.texts.connection).toBe("live");
  });
  test("loses no edit, whether it broke before the server had it or after", async () => {
    for (const served of [0, 1]) {
      const page = await opened();
      page.replace("line 1: 0", "line 1: 5");
      for (let i = 0; i < served; i++) page.network.calls[0]!.go();
      await turn();
      page.network.break();
      page.replace("line 2: 0", "line 2: 7");
      await page.settle();
      expect([page.text, serverText(page)]).toEqual(Array(2).fill("line 0: 0\nline 1: 5\nline 2: 7\nline 3: 0\n"));
      expect(page.texts.conflicts).toEqual([]);
      expect(page.network.server.texts.depth.undo).toBe(2);
    }
  });
  test("to a server that began anew loads everything again, and knows by name what had arrived", async () => {
    for (const served of [0, 1]) {
      const page = await opened();
      page.replace("line 1: 0", "line 1: 5");
      for (let i = 0; i < served; i++) page.network.calls[0]!.go();
      await turn();
      page.network.break();
      page.replace("line 1: 5", "line 1: 6");
      page.network.server.outside(file, serverText(page).replace("line 3: 0", "line 3: 9"));
      await page.network.forget();
      await page.settle();
      expect([page.text, serverText(page)]).toEqual(Array(2).fill("line 0: 0\nline 1: 6\nline 2: 0\nline 3: 9\n"));
      expect(page.texts.conflicts).toEqual([]);
    }
  });
});

// Every edit writes a word of its own behind the last one's in its line, so that whatever becomes of it can be found: in the server's text, in a
// conflict, or undone.
describe("nothing is lost", () => {
  const step = fc.record({
    what: fc.constantFrom(
      "type",
      "type",
      "type",
      "end",
      "call",
      "call",
      "call",
      "hear",
      "hear",
      "outside",
      "break",
      "forget",
      "wait",
      "other",
    ),
    line: fc.nat(5),
    pick: fc.nat(9),
  });
  test("whatever arrives when, in which order, or not at all", async () => {
    let [edits, clashes, breaks] = [0, 0, 0];
    await fc.assert(
      fc.asyncProperty(fc.array(step, { minLength: 30, maxLength: 80 }), async (steps) => {
        const network = new TestNetwork(new Map([[file, lines(6)]]));
        const page = await opened(lines(6), network);
        const other = new SharedTexts(network.server, new TestClock(), { changed: () => {}, noted: () => {} });
        await turn();
        const words: string[] = [];
        let gesture = page.texts.newGesture();
        for (const { what, line, pick } of steps) {
          if (what === "type" || what === "other") {
            const word = ` w${words.length}`;
            const on = what === "type" ? page.texts : other;
            const text = on.text(file)!;
            const at = text
              .split("\n")
              .slice(0, line + 1)
              .join("\n").length;
            on.edit(file, ChangeSet.of({ from: at, insert: word }, text.length), what === "type" ? gesture : word);
            words.push(word);
            edits++;
          } else if (what === "end") {
            page.texts.end(gesture);
            gesture = page.texts.newGesture();
          } else if (what === "call") network.calls[pick % Math.max(1, network.calls.length)]?.go();
          else if (what === "hear") network.stream.shift()?.go();
          else if (what === "outside") {
            const word = ` o${words.length}`;
            words.push(word);
            network.server.outside(file, serverText(page).replace(`line ${line}: 0`, `line ${line}: 0${word}`));
          } else if (what === "break") {
            network.break();
            breaks++;
          } else if (what === "forget") {
            await network.forget();
            network.break();
          } else page.clock.pass(500);
          await turn();
        }
        page.texts.end(gesture);
        await page.settle();
        await turn();
        await page.settle();
        expect(page.texts.unsaved).toBe(0);
        expect([page.text, page.kept.get(file)]).toEqual([serverText(page), serverText(page)]);
        clashes += page.texts.conflicts.length;
        const all = [serverText(page), ...[page.texts, other].flatMap(({ conflicts }) => conflicts.map(textsOf))].join(
          "\n",
        );
        for (const word of words) expect(`${all}\n`).toMatch(new RegExp(`${word}(?!\\d)`));
        page.texts.close();
        other.close();
      }),
      { seed: 12, numRuns: 600 },
    );
    expect(edits).toBeGreaterThan(5000);
    expect(clashes).toBeGreaterThan(250);
    expect(breaks).toBeGreaterThan(500);
  });
  test("and with undo, redo and settled conflicts between, page and server come to one text", async () => {
    const more = fc.record({
      what: fc.constantFrom(
        "type",
        "type",
        "end",
        "call",
        "call",
        "hear",
        "outside",
        "break",
        "wait",
        "undo",
        "redo",
        "mine",
        "theirs",
      ),
      line: fc.nat(5),
      pick: fc.nat(9),
    });
    let [wound, resolved] = [0, 0];
    await fc.assert(
      fc.asyncProperty(fc.array(more, { minLength: 30, maxLength: 80 }), async (steps) => {
        const network = new TestNetwork(new Map([[file, lines(6)]]));
        const page = await opened(lines(6), network);
        let gesture = page.texts.newGesture();
        let words = 0;
        const winding: Promise<void>[] = [];
        for (const { what, line, pick } of steps) {
          if (what === "type") {
            const at = page.text
              .split("\n")
              .slice(0, line + 1)
              .join("\n").length;
            page.texts.edit(file, ChangeSet.of({ from: at, insert: ` w${++words}` }, page.text.length), gesture);
          } else if (what === "end") {
            page.texts.end(gesture);
            gesture = page.texts.newGesture();
          } else if (what === "call") network.calls[pick % Math.max(1, network.calls.length)]?.go();
          else if (what === "hear") network.stream.shift()?.go();
          else if (what === "outside")
            network.server.outside(file, serverText(page).replace(`line ${line}: 0`, `line ${line}: 0 o${++words}`));
          else if (what === "break") network.break();
          else if (what === "undo" || what === "redo") {
            winding.push(page.texts[what]());
            wound++;
          } else if (what === "mine" || what === "theirs") {
            const conflict = page.texts.conflicts[pick % Math.max(1, page.texts.conflicts.length)];
            if (conflict) page.texts.resolve(conflict.id, what);
            if (conflict) resolved++;
          } else page.clock.pass(500);
          await turn();
        }
        page.texts.end(gesture);
        await page.settle();
        await Promise.all(winding);
        await page.settle();
        expect(page.texts.unsaved).toBe(0);
        expect([page.text, page.kept.get(file)]).toEqual([serverText(page), serverText(page)]);
        page.texts.close();
      }),
      { seed: 3, numRuns: 400 },
    );
    expect(wound).toBeGreaterThan(500);
    expect(resolved).toBeGreaterThan(30);
  });
});
const textsOf = ({ mine, theirs }: Conflict): string => `${mine}\n${theirs}`;
