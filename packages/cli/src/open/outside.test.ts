import { chmodSync, mkdirSync, readdirSync, renameSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { Folder, first, quick, served, sha256, until, wren } from "./open.fixture.ts";

const twenty = first.replace("two: 2", "two: 20");
const pause = (time: number) => new Promise((resolve) => setTimeout(resolve, time));

describe("a file changed by somebody else", () => {
  test("is told to every page as a change by lines", async () => {
    await served(async ({ page, folder }) => {
      const listener = await page.listen();
      folder.write(wren, `# new\n${twenty}`);
      await until(() => expect(listener.of("change")).toHaveLength(1));
      expect(listener.of("change")[0]!.data).toEqual({
        file: wren,
        version: 2,
        base: sha256(first),
        hash: sha256(`# new\n${twenty}`),
        there: true,
        changes: [[0, "# new", ""], 7, [7, "two: 20", ""], 17],
        by: "outside",
        history: { undo: 0, redo: 0 },
      });
    });
  });
  test("in lines that no page has touched goes together with a gesture that is under way", async () => {
    await served(async ({ page, folder }) => {
      await page.edit(first, twenty, { gesture: "drag", done: false });
      folder.write(wren, first.replace("four: 4", "four: 44"));
      const both = twenty.replace("four: 4", "four: 44");
      await until(async () => expect(await page.text()).toBe(both));
      await page.edit(both, both.replace("two: 20", "two: 21"), { gesture: "drag" });
      expect(folder.read()).toBe(both.replace("two: 20", "two: 21"));
      await page.post("/undo", {});
      expect(folder.read()).toBe(first.replace("four: 4", "four: 44"));
    });
  });
  test("in the line of a gesture that is under way stands, and what the page had is offered", async () => {
    await served(async ({ page, folder }) => {
      const listener = await page.listen();
      await page.edit(first, twenty, { gesture: "drag", done: false });
      const theirs = first.replace("two: 2", "two: 5");
      folder.write(wren, theirs);
      await until(() => expect(listener.of("offered")).toHaveLength(1));
      const [offer] = listener.of("offered")[0]!.data.offered;
      expect(offer).toEqual({
        id: expect.any(String),
        file: wren,
        when: expect.stringMatching(/^20..-.*Z$/),
        text: twenty,
      });
      expect((await page.state()).offered).toEqual([offer]);
      expect([await page.text(), folder.read()]).toEqual([theirs, theirs]);
      const late = await page.edit(twenty, first.replace("two: 2", "two: 22"), { gesture: "drag" });
      expect([late.status, late.json.code, late.json.theirs.text]).toEqual([409, "conflict", theirs]);
      expect((await page.post("/offer", { offer: offer.id, answer: "take" })).json.changes).toMatchObject([
        { file: wren, hash: sha256(twenty), written: true },
      ]);
      expect([folder.read(), (await page.state()).offered]).toEqual([twenty, []]);
      await page.post("/undo", {});
      expect(folder.read()).toBe(theirs);
    });
  });
  test("just before the page's gesture ends is never written over", async () => {
    await served(
      async ({ page, folder }) => {
        folder.write(wren, `# theirs\n${first}`);
        const { json } = await page.edit(first, twenty);
        expect(json.changes[0].written).toBe(false);
        expect(folder.read()).toBe(`# theirs\n${first}`);
        await until(() => expect(folder.read()).toBe(`# theirs\n${twenty}`));
      },
      { patience: { ...quick, settle: 80 } },
    );
  });
  test("is found by looking where the system tells nothing", async () => {
    await served(
      async ({ page, folder, server }) => {
        // The watchers are taken away; what is left is looking now and then.
        const shared = (
          server as unknown as { shared: { watcher: { watchers: Map<string, { close(): void }>; watchAll(): void } } }
        ).shared;
        for (const one of shared.watcher.watchers.values()) one.close();
        shared.watcher.watchAll = () => {};
        folder.write(wren, twenty);
        await until(async () => expect(await page.text()).toBe(twenty));
      },
      { patience: { ...quick, look: 60 } },
    );
  });
  test("that keeps its length and its time of change is found all the same", async () => {
    await served(async ({ page, folder }) => {
      const { statSync, utimesSync } = await import("node:fs");
      const { atime, mtime } = statSync(folder.file(wren));
      folder.write(wren, first.replace("two: 2", "two: 9"));
      utimesSync(folder.file(wren), atime, mtime);
      await until(async () => expect(await page.text()).toBe(first.replace("two: 2", "two: 9")));
    });
  });
});

describe("a file half written", () => {
  test.each([
    ["emptied and then filled", ["", twenty]],
    ["filled in pieces", ["", first.slice(0, 5), first.slice(0, 12), twenty]],
    ["removed and made again", [undefined, twenty]],
  ])("is not taken before it is whole: %s", async (_, pieces) => {
    await served(
      async ({ page, folder }) => {
        const listener = await page.listen();
        for (const piece of pieces) {
          if (piece === undefined) rmSync(folder.file(wren));
          else folder.write(wren, piece);
          await pause(40);
        }
        await until(() => expect(listener.of("change")).toHaveLength(1));
        expect(listener.of("change")[0]!.data).toMatchObject({ version: 2, hash: sha256(twenty), there: true });
      },
      { patience: { ...quick, doubt: 3000 } },
    );
  });
  test("and left empty is taken as empty in the end, and undo goes on working once it is back", async () => {
    await served(async ({ page, folder }) => {
      await page.edit(first, twenty);
      folder.write(wren, "");
      await until(async () => expect(await page.text()).toBe(""));
      expect((await page.post("/undo", {})).status).toBe(409);
    });
  });
});

describe("a file", () => {
  test("added, removed and renamed by somebody else is told so", async () => {
    await served(async ({ page, folder }) => {
      const listener = await page.listen();
      const told = () => listener.of("change").map(({ data }) => [data.file, data.there, data.version, data.changes]);
      folder.write("tapes/new.yaml", "x: 1\n");
      await until(() => expect(told()).toEqual([["tapes/new.yaml", true, 1, [[0, "x: 1", ""]]]]));
      rmSync(folder.file("tapes/new.yaml"));
      await until(() => expect(told()[1]).toEqual(["tapes/new.yaml", false, 2, [[5]]]));
      renameSync(folder.file(wren), folder.file("units/robin.yaml"));
      await until(() => expect(told()).toHaveLength(4));
      expect(told().slice(2)).toEqual(
        expect.arrayContaining([
          ["units/robin.yaml", true, 1, [[0, "one: 1", "two: 2", "three: 3", "four: 4", ""]]],
          [wren, false, 2, [[first.length]]],
        ]),
      );
      expect((await page.state()).files.map(({ file }) => file)).toEqual([
        "project.yaml",
        "tapes/a-8.yaml",
        "units/robin.yaml",
      ]);
      expect((await page.edit(first, twenty)).json).toMatchObject({
        code: "gone",
        words: "There is no file units/wren.yaml.",
      });
    });
  });
  test("of the bench is one of the project's: begun, entered in the ledger and read by somebody else, it is told", async () => {
    await served(async ({ page, folder }) => {
      const listener = await page.listen();
      const told = () => listener.of("change").map(({ data }) => [data.file, data.there, data.version]);
      folder.write("bench/T-01.yaml", "trial: T-01\n");
      await until(() => expect(told()).toEqual([["bench/T-01.yaml", true, 1]]));
      folder.write("ledger.yaml", "ledger: []\n");
      // The rows of a log lie one folder deeper and are none of its texts.
      folder.write("bench/T-01/raw.parquet", "PAR1");
      folder.write("bench/T-01/notes.yaml", "x: 1\n");
      await until(() => expect(told()).toHaveLength(2));
      const { json } = await page.edit("trial: T-01\n", "trial: T-01\ndate: 2026-03-04\n", { file: "bench/T-01.yaml" });
      expect(json.changes).toHaveLength(1);
      expect(folder.read("bench/T-01.yaml")).toBe("trial: T-01\ndate: 2026-03-04\n");
      expect((await page.state()).files.map(({ file }) => file)).toEqual([
        "bench/T-01.yaml",
        "ledger.yaml",
        "project.yaml",
        "tapes/a-8.yaml",
        wren,
      ]);
      expect(
        told()
          .slice(0, 2)
          .map(([file]) => file),
      ).toEqual(["bench/T-01.yaml", "ledger.yaml"]);
    });
  });
  test("in a folder that goes and comes back is seen again", async () => {
    await served(async ({ page, folder }) => {
      await page.edit(first, twenty);
      renameSync(folder.file("units"), folder.file("elsewhere"));
      await until(async () => expect(await page.text()).toBeUndefined());
      renameSync(folder.file("elsewhere"), folder.file("units"));
      await until(async () => expect(await page.text()).toBe(twenty));
      folder.write(wren, `${twenty}five: 5\n`);
      await until(async () => expect(await page.text()).toBe(`${twenty}five: 5\n`));
      await page.post("/undo", {});
      expect(folder.read()).toBe(`${first}five: 5\n`);
    });
  });
});

describe("a file that cannot be kept is shown, and not changed from here:", () => {
  const locked = async (
    make: (folder: Folder) => void,
    words: string,
    text: string,
    after: (folder: Folder) => void = () => {},
  ): Promise<void> => {
    await served(async ({ page, folder }) => {
      make(folder);
      await until(async () => {
        const one = (await page.state()).files.find(({ file }) => file === "tapes/odd.yaml");
        expect([one?.locked, one?.text]).toEqual([words, text]);
      });
      const { status, json } = await page.edit(text, "new\n", { file: "tapes/odd.yaml" });
      expect([status, json]).toEqual([423, { code: "locked", words, file: "tapes/odd.yaml" }]);
      after(folder);
    });
  };
  test("bytes that are no UTF-8", async () => {
    const bytes = Buffer.from([0x61, 0xff, 0x0a]);
    await locked(
      (folder) => folder.write("tapes/odd.yaml", bytes),
      "tapes/odd.yaml is no UTF-8 text; save it as UTF-8 to change it here.",
      "a\ufffd\n",
    );
  });
  test("more than a million bytes", async () => {
    await locked(
      (folder) => folder.write("tapes/odd.yaml", "x".repeat(1_000_001)),
      "tapes/odd.yaml is 1000001 bytes long; files of more than 1000000 are not shown.",
      "",
    );
  });
  test("a link that leads out", async () => {
    const other = new Folder({ "theirs.yaml": "a: 1\n" });
    try {
      await locked(
        (folder) => symlinkSync(other.file("theirs.yaml"), folder.file("tapes/odd.yaml")),
        "tapes/odd.yaml is a link that leads out of the folder; change it where it lies.",
        "a: 1\n",
        () => expect(other.read("theirs.yaml")).toBe("a: 1\n"),
      );
    } finally {
      other.remove();
    }
  });
  test.skipIf(process.getuid?.() === 0)("a write-protected file", async () => {
    await locked(
      (folder) => {
        folder.write("tapes/odd.yaml", "a: 1\n");
        chmodSync(folder.file("tapes/odd.yaml"), 0o444);
      },
      "tapes/odd.yaml is write-protected.",
      "a: 1\n",
    );
  });
});
test("a link within the folder stays a link, and what it leads to is changed", async () => {
  await served(async ({ page, folder }) => {
    mkdirSync(folder.file("store"));
    folder.write("store/real.yaml", first);
    symlinkSync("../store/real.yaml", folder.file("units/link.yaml"));
    await until(async () => expect(await page.text("units/link.yaml")).toBe(first));
    await page.edit(first, twenty, { file: "units/link.yaml" });
    const { lstatSync } = await import("node:fs");
    expect([folder.read("store/real.yaml"), lstatSync(folder.file("units/link.yaml")).isSymbolicLink()]).toEqual([
      twenty,
      true,
    ]);
  });
});
test("a new file is not made through a folder that leads out", async () => {
  const other = new Folder({});
  try {
    await served(
      async ({ page }) => {
        const wish = { file: "tapes/new.yaml", base: null, changes: [[0, "x"]], gesture: "n", done: true };
        const { json } = await page.post("/edit", wish);
        expect(json.changes[0].written).toBe(false);
        expect(other.contents()).toEqual({});
        expect((await page.state()).trouble).toEqual([
          {
            file: "tapes/new.yaml",
            words: "tapes/new.yaml cannot be written: tapes is a link that leads out of the folder",
          },
        ]);
      },
      { files: { "project.yaml": "format: 1\n" }, prepare: (folder) => symlinkSync(other.path, folder.file("tapes")) },
    );
  } finally {
    other.remove();
  }
});
test("a file that cannot be written stays accepted, is said so, and is written once it can be", async () => {
  await served(async ({ page, folder }) => {
    // A folder in the place of the temporary file is in the way.
    const inTheWay = folder.file(`${wren}.${process.pid}.tmp`);
    mkdirSync(inTheWay);
    writeFileSync(`${inTheWay}/x`, "");
    const { json } = await page.edit(first, twenty);
    expect([json.changes[0].written, folder.read(), await page.text()]).toEqual([false, first, twenty]);
    const [trouble] = (await page.state()).trouble;
    expect(trouble).toMatchObject({
      file: wren,
      words: expect.stringContaining("units/wren.yaml cannot be written: EEXIST"),
    });
    rmSync(inTheWay, { recursive: true });
    await until(() => expect(folder.read()).toBe(twenty));
    expect((await page.state()).trouble).toEqual([]);
  });
});
test("a corner cleared away by somebody else is made again, with all that is needed to undo after a restart", async () => {
  await served(async ({ page, folder, server }) => {
    await page.edit(first, twenty);
    rmSync(folder.file(".tapeworthy"), { recursive: true });
    await page.edit(twenty, twenty.replace("four: 4", "four: 5"), { gesture: "h" });
    expect(folder.read(".tapeworthy/journal")!.split("\n").length).toBeGreaterThan(3);
    expect(readdirSync(folder.file(".tapeworthy")).some((name) => name.startsWith(`lock-${process.pid}-`))).toBe(true);
    await server.close();
    const { OpenServer } = await import("./server.ts");
    const again = await OpenServer.start(folder.path);
    const { Visitor } = await import("./open.fixture.ts");
    const back = await Visitor.by(again.newAddress());
    await back.post("/undo", {});
    await back.post("/undo", {});
    expect(folder.read()).toBe(first);
    await again.close();
  });
});
