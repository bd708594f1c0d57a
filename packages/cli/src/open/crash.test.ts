import { type ChildProcess, spawn } from "node:child_process";
import { appendFileSync, readdirSync, readFileSync, renameSync, statSync, symlinkSync, writeFileSync } from "node:fs";
import { createConnection } from "node:net";
import { fileURLToPath } from "node:url";
import { afterEach, describe, expect, test } from "vitest";
import { Folder, first, until, Visitor, wren } from "./open.fixture.ts";

const bin = fileURLToPath(new URL("../../bin/tapeworthy.mjs", import.meta.url));
const twenty = first.replace("two: 2", "two: 20");

/** The built command, as a person starts it. */
class Run {
  readonly child: ChildProcess;
  out = "";
  err = "";
  readonly ended: Promise<number | NodeJS.Signals | null>;
  constructor(folder: string, ...more: string[]) {
    this.child = spawn(process.execPath, [bin, "open", folder, "--no-browser", ...more]);
    this.child.stdout!.on("data", (piece) => {
      this.out += piece;
    });
    this.child.stderr!.on("data", (piece) => {
      this.err += piece;
    });
    this.ended = new Promise((resolve) => this.child.on("exit", (code, signal) => resolve(code ?? signal)));
  }
  addresses = (): string[] => [...this.out.matchAll(/^Open (http:\S+)$/gm)].map((one) => one[1]!);
  async page(): Promise<Visitor> {
    await until(() => expect(this.addresses(), this.err).not.toEqual([]), 45_000);
    return Visitor.by(this.addresses().at(-1)!);
  }
  end(signal: NodeJS.Signals): Promise<number | NodeJS.Signals | null> {
    this.child.kill(signal);
    return this.ended;
  }
}
const folders: Folder[] = [];
const runs: Run[] = [];
const newFolder = (): Folder => {
  folders.push(new Folder());
  return folders.at(-1)!;
};
const run = (folder: Folder, ...more: string[]): Run => {
  runs.push(new Run(folder.path, ...more));
  return runs.at(-1)!;
};
afterEach(async () => {
  for (const one of runs.splice(0)) await one.end("SIGKILL");
  for (const one of folders.splice(0)) one.remove();
});

describe("killed in the middle of a gesture", () => {
  test("and started again, it has the text that was accepted, writes it, and can undo all of it", async () => {
    const folder = newFolder();
    const killed = run(folder);
    const page = await killed.page();
    const five = first.replace("four: 4", "four: 5");
    await page.edit(first, five, { gesture: "a" });
    const both = five.replace("two: 2", "two: 20");
    await page.edit(five, five.replace("two: 2", "two: 10"), { gesture: "drag", done: false });
    await page.edit(five.replace("two: 2", "two: 10"), both, { gesture: "drag", done: false });
    expect(await killed.end("SIGKILL")).toBe("SIGKILL");
    expect(folder.read()).toBe(five);

    const again = run(folder);
    const back = await again.page();
    expect(again.out).toContain("units/wren.yaml: what was not written yet is restored.");
    expect([await back.text(), folder.read()]).toEqual([both, both]);
    await back.post("/undo", {});
    expect(folder.read()).toBe(five);
    await back.post("/undo", {});
    expect(folder.read()).toBe(first);
    await back.post("/redo", {});
    expect(folder.read()).toBe(five);
  });
  test("at any moment of a stream of edits, nothing that was acknowledged is lost", async () => {
    const folder = newFolder();
    let text = first;
    let sent = text;
    for (let round = 0; round < 3; round++) {
      const one = run(folder);
      const page = await one.page();
      expect([text, sent]).toContain(await page.text());
      text = (await page.text())!;
      let going = true;
      setTimeout(() => void one.end("SIGKILL"), 120 + 45 * round);
      for (let i = 0; going; i++) {
        sent = text.replace(/two: .*/, `two: ${round * 10_000 + i}`);
        await page.edit(text, sent, { gesture: `g${i >> 3}`, done: i % 8 === 7 }).then(
          ({ status }) => {
            expect(status).toBe(200);
            text = sent;
          },
          () => {
            going = false;
          },
        );
      }
      await one.ended;
      // The file is whole whenever it is looked at.
      expect(folder.read()).toMatch(/^one: 1\ntwo: \d+\nthree: 3\nfour: 4\n$/);
    }
    const last = await run(folder).page();
    expect([text, sent]).toContain(await last.text());
    while ((await last.post("/undo", {})).status === 200);
    expect(folder.read()).toBe(first);
  });
  test("and the file changed by somebody else before it starts again, the text is offered, not put in silently", async () => {
    const folder = newFolder();
    const killed = run(folder);
    await (await killed.page()).edit(first, twenty, { gesture: "drag", done: false });
    await killed.end("SIGKILL");
    const theirs = first.replace("four: 4", "four: 44");
    folder.write(wren, theirs);
    const again = run(folder);
    const back = await again.page();
    expect(again.out).toContain("Changes that were not written fit their files no more; the page offers them.");
    const { offered } = await back.state();
    expect(offered).toEqual([{ id: expect.any(String), file: wren, when: expect.any(String), text: twenty }]);
    expect([await back.text(), folder.read()]).toEqual([theirs, theirs]);
    expect((await back.post("/offer", { offer: offered[0]!.id, answer: "maybe" })).json.words).toBe(
      '"answer" is "take" or "drop".',
    );
    expect((await back.post("/offer", { offer: "none", answer: "take" })).json).toEqual({
      code: "nothing",
      words: "There is no such offer any more.",
    });
    expect((await back.post("/offer", { offer: offered[0]!.id, answer: "drop" })).json.changes).toEqual([]);
    expect(folder.read()).toBe(theirs);
    await again.end("SIGKILL");
    expect((await (await run(folder).page()).state()).offered).toEqual([]);
  });
  test("and left with half a line of journal and half a file beside, both are cleared away", async () => {
    const folder = newFolder();
    const killed = run(folder);
    await (await killed.page()).edit(first, twenty, { gesture: "drag", done: false });
    await killed.end("SIGKILL");
    appendFileSync(folder.file(".tapeworthy/journal"), '{"is":"edit","when":"20');
    folder.write(`${wren}.${killed.child.pid}.tmp`, "half");
    const back = await run(folder).page();
    expect(folder.contents()).toEqual({ "project.yaml": "format: 1\n", [wren]: twenty, "tapes/a-8.yaml": "a: 1\n" });
    await back.edit(twenty, first, { gesture: "h" });
    for (const line of folder.read(".tapeworthy/journal")!.trimEnd().split("\n"))
      expect(() => JSON.parse(line)).not.toThrow();
  });
  test("and its journal spoilt in the middle, the journal is put aside with a word and what stands before is used", async () => {
    const folder = newFolder();
    const killed = run(folder);
    const page = await killed.page();
    await page.edit(first, twenty, { gesture: "drag", done: false });
    await page.edit(twenty, `${twenty}five: 5\n`, { gesture: "drag", done: false });
    await killed.end("SIGKILL");
    const journal = folder.file(".tapeworthy/journal");
    const lines = folder.read(".tapeworthy/journal")!.split("\n");
    const bad = lines.findIndex((line) => line.includes("five: 5"));
    const spoilt =
      lines.map((line, i) => (i === bad ? "#" : line)).join("\n") + '{"is":"skip","of":"undo","gesture":"x"}\n';
    writeFileSync(journal, spoilt);
    const again = run(folder);
    expect(await (await again.page()).text()).toBe(twenty);
    const aside = readdirSync(folder.file(".tapeworthy")).find((name) => name.startsWith("journal."))!;
    expect(again.out).toContain(
      `Line ${bad + 1} of the journal makes no sense (it is not JSON). It was put aside as ${folder.file(`.tapeworthy/${aside}`)}.`,
    );
    expect(readFileSync(folder.file(`.tapeworthy/${aside}`), "utf8")).toBe(spoilt);
  });
});

test("killed while raw rows come in, it leaves no half file under their name, and none at all once it runs again", async () => {
  const folder = newFolder();
  const killed = run(folder);
  const page = await killed.page();
  const socket = createConnection(page.port, "127.0.0.1");
  socket.on("error", () => {});
  socket.write(
    `POST /keep?file=bench/T-01/raw.parquet HTTP/1.1\r\nHost: 127.0.0.1:${page.port}\r\nCookie: ${page.cookie}\r\nOrigin: ${page.origin}\r\nContent-Type: application/octet-stream\r\nContent-Length: 3000000\r\n\r\nPAR1${"x".repeat(1_000_000)}`,
  );
  const kept = (): string[] => readdirSync(folder.file("bench/T-01"));
  await until(() => expect(statSync(folder.file(`bench/T-01/${kept()[0]}`)).size).toBeGreaterThan(500_000));
  await killed.end("SIGKILL");
  expect(kept()).toEqual([expect.stringMatching(/^raw\.parquet\.[0-9a-f]{16}\.keeping$/)]);

  const back = await run(folder).page();
  expect(kept()).toEqual([]);
  expect((await back.ask("/raw?file=bench/T-01/raw.parquet")).status).toBe(404);
});

describe("a second one on the same folder", () => {
  test("is refused with words, also by another way to it; a killed one holds nothing", async () => {
    const folder = newFolder();
    const one = run(folder);
    await one.page();
    symlinkSync(folder.path, folder.file("way"));
    runs.push(new Run(folder.file("way")));
    const two = runs.at(-1)!;
    expect([await two.ended, two.err]).toEqual([
      2,
      `"${folder.file("way")}" is open already, in process ${one.child.pid}. Use its page, or end it there with Ctrl-C.\n`,
    ]);
    await one.end("SIGKILL");
    await run(folder).page();
  });
});

describe("ended with Ctrl-C", () => {
  test("it writes what there is to write, lets go and says nothing of a fault", async () => {
    const folder = newFolder();
    const one = run(folder, "--seed", "7");
    const page = await one.page();
    expect((await page.ask("/state")).json.seed).toBe(7);
    const listener = await page.listen();
    await page.edit(first, twenty, { gesture: "drag", done: false });
    expect([await one.end("SIGINT"), one.err]).toEqual([0, ""]);
    await until(() => expect(listener.isOver).toBe(true));
    expect([folder.read(), readdirSync(folder.file(".tapeworthy")).sort()]).toEqual([
      twenty,
      [".gitignore", "journal"],
    ]);
    expect(folder.read(".tapeworthy/.gitignore")).toBe("*\n");
  });
  test("and changed while it did not run, the project can be undone past that change", async () => {
    const folder = newFolder();
    const one = run(folder);
    await (await one.page()).edit(first, twenty);
    await one.end("SIGTERM");
    folder.write(wren, `# new\n${twenty}`);
    renameSync(folder.file("tapes/a-8.yaml"), folder.file("tapes/b-8.yaml"));
    const back = await run(folder).page();
    expect((await back.state()).history).toEqual({ undo: 1, redo: 0 });
    await back.post("/undo", {});
    expect(folder.read()).toBe(`# new\n${first}`);
  });
});

describe("at the terminal", () => {
  test("Enter gives a new address, and the old one is dead", async () => {
    const folder = newFolder();
    const one = run(folder);
    await until(() => expect(one.addresses()).toHaveLength(1), 45_000);
    await until(() => expect(one.out).toContain("The address works once. Enter: a new one. Ctrl-C: the end.\n"));
    one.child.stdin!.write("\n");
    await until(() => expect(one.addresses()).toHaveLength(2));
    expect((await Visitor.by(one.addresses()[0]!)).cookie).toBe("");
    expect((await Visitor.by(one.addresses()[1]!)).cookie).not.toBe("");
  });
  test.skipIf(process.platform !== "linux")("a browser is shown the address where there is one", async () => {
    const folder = newFolder();
    // Stands for the program that knows the browser: it writes down what it was called with.
    writeFileSync(folder.file("xdg-open"), `#!/bin/sh\necho "$#" "$@" > ${folder.file("called.txt")}\n`, {
      mode: 0o755,
    });
    const child = spawn(process.execPath, [bin, "open", folder.path], {
      env: { ...process.env, DISPLAY: ":0", PATH: `${folder.path}:${process.env.PATH}` },
    });
    let out = "";
    child.stdout.on("data", (piece) => {
      out += piece;
    });
    try {
      await until(() => expect(folder.read("called.txt")).toMatch(/^1 http/), 45_000);
      expect(out).toContain(`Open ${folder.read("called.txt")!.slice(2)}`);
    } finally {
      child.kill("SIGINT");
      await new Promise((resolve) => child.on("exit", resolve));
    }
  });
  test.each([
    ["a folder that is not there", ["nowhere"], () => `There is no folder "nowhere".\n`],
    [
      "a port that is none",
      ["--port", "65536"],
      () => "option '--port <number>' argument '65536' is invalid. A whole number from 0 to 65535 is wanted.\n",
    ],
    [
      "a host, which cannot be chosen",
      ["--host", "0.0.0.0"],
      () => "unknown option '--host'\n(Did you mean --port?)\n",
    ],
  ])("%s is refused in a line", async (_, more, words) => {
    const folder = newFolder();
    const one = more[0] === "nowhere" ? new Run("nowhere") : run(folder, ...more);
    expect([await one.ended, one.err]).toEqual([2, words()]);
    expect(readdirSync(folder.path)).not.toContain(".tapeworthy");
  });
});
