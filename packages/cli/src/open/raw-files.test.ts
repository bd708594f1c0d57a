import { randomBytes } from "node:crypto";
import {
  existsSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { createConnection } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { type Ask, Folder, first, quick, served, until, Visitor } from "./open.fixture.ts";
import { OpenServer } from "./server.ts";

const file = "bench/T-01/raw.parquet";
/** Bytes that pass for a Parquet file, with every value among them. */
const rows = (length: number, of = 7): Buffer => {
  const bytes = Buffer.alloc(length);
  for (let i = 0; i < length; i++) bytes[i] = (i * of) % 256;
  bytes.write("PAR1", 0);
  bytes.write("PAR1", length - 4);
  return bytes;
};
const keep = (page: Visitor, body: Buffer | string, path = file, headers: Ask["headers"] = {}) =>
  page.ask(`/keep?file=${encodeURIComponent(path)}`, {
    method: "POST",
    headers: { Origin: page.origin, "Content-Type": "application/octet-stream", ...headers },
    body: typeof body === "string" ? Buffer.from(body) : body,
  });
const ask = (page: Visitor, path: string, headers: Ask["headers"] = {}, method = "GET") =>
  page.ask(`/raw?file=${encodeURIComponent(path)}`, { headers, method });
const bytesOf = async (page: Visitor, path: string): Promise<Buffer> => {
  const answer = await fetch(`${page.origin}/raw?file=${encodeURIComponent(path)}`, {
    headers: { Cookie: page.cookie },
  });
  expect(answer.status).toBe(200);
  return Buffer.from(await answer.arrayBuffer());
};
/** Everything under the folder but our own corner, folders too. */
const names = (folder: Folder): string[] =>
  (readdirSync(folder.path, { recursive: true }) as string[]).filter((name) => !name.startsWith(".tapeworthy")).sort();
const before = ["project.yaml", "tapes", "tapes/a-8.yaml", "units", "units/wren.yaml"];
/** Lets somebody try something, and expects no file or folder more than before. */
const tried = (use: Parameters<typeof served>[0], options: Parameters<typeof served>[1] = {}): Promise<void> =>
  served(async (at) => {
    const was = names(at.folder);
    await use(at);
    await until(() => expect(names(at.folder)).toEqual(was));
    expect(at.folder.read()).toBe(first);
    expect((await at.page.ask("/state")).status).toBe(200);
  }, options);

describe("raw rows", () => {
  test("are kept under their name and come back byte for byte", async () => {
    await served(async ({ page, folder }) => {
      const bytes = rows(3_000_001);
      const kept = await keep(page, bytes);
      expect([kept.status, kept.json]).toEqual([200, { file, bytes: 3_000_001 }]);
      expect(readFileSync(folder.file(file)).equals(bytes)).toBe(true);
      expect((await bytesOf(page, file)).equals(bytes)).toBe(true);
      expect(names(folder)).toEqual(["bench", "bench/T-01", file, ...before].sort());
    });
  });
  test("are told by their length alone, without a body", async () => {
    await served(async ({ page }) => {
      await keep(page, rows(5000));
      const { status, headers, text } = await ask(page, file, {}, "HEAD");
      expect([status, headers["content-length"], headers["content-type"], text]).toEqual([
        200,
        "5000",
        "application/octet-stream",
        "",
      ]);
      expect(headers["cache-control"]).toBe("no-store");
      expect((await ask(page, "bench/T-02/raw.parquet", {}, "HEAD")).status).toBe(404);
    });
  });
  test("that are there already are the same where their bytes are, and stay as they are where they are not", async () => {
    await served(async ({ page, folder }) => {
      const bytes = rows(2000);
      await keep(page, bytes);
      const again = await keep(page, bytes);
      expect([again.status, again.json]).toEqual([200, { file, bytes: 2000, same: true }]);
      for (const other of [rows(2000, 11), rows(1999), rows(2001)]) {
        const refused = await keep(page, other);
        expect([refused.status, refused.json]).toEqual([
          409,
          { code: "exists", words: `There is another file ${file} already; it was left as it is.` },
        ]);
      }
      expect(readFileSync(folder.file(file)).equals(bytes)).toBe(true);
      expect(readdirSync(folder.file("bench/T-01"))).toEqual(["raw.parquet"]);
    });
  });
  test("sent fifty times at once under one name are kept once, whole", async () => {
    await served(async ({ page, folder }) => {
      const all = Array.from({ length: 50 }, (_, i) => rows(100_000, 3 + 2 * (i % 5)));
      const answers = await Promise.all(all.map((bytes) => keep(page, bytes)));
      const fresh = answers.filter(({ status, json }) => status === 200 && json.same !== true);
      expect(fresh).toHaveLength(1);
      const winner = all[answers.indexOf(fresh[0]!)]!;
      expect(readFileSync(folder.file(file)).equals(winner)).toBe(true);
      for (const [i, { status, json }] of answers.entries())
        expect([status, json.same ?? json.code]).toEqual(
          all[i]!.equals(winner) ? [200, i === all.indexOf(winner) ? json.same : true] : [409, "exists"],
        );
      expect(readdirSync(folder.file("bench/T-01"))).toEqual(["raw.parquet"]);
    });
  });
  test("sent fifty times at once under fifty names are all kept", async () => {
    await served(async ({ page, folder }) => {
      const paths = Array.from({ length: 50 }, (_, i) => `bench/T-${i % 5}/raw-${i}.parquet`);
      const answers = await Promise.all(paths.map((path, i) => keep(page, rows(50_000 + i), path)));
      expect(answers.map(({ status }) => status)).toEqual(paths.map(() => 200));
      for (const [i, path] of paths.entries()) expect(readFileSync(folder.file(path)).length).toBe(50_000 + i);
      expect(readdirSync(folder.file("bench/T-0"))).toHaveLength(10);
    });
  });
  test("are no texts of the project, which goes on as before", async () => {
    await served(async ({ page }) => {
      await keep(page, rows(2000));
      expect((await page.state()).files.map((one) => one.file)).toEqual([
        "project.yaml",
        "tapes/a-8.yaml",
        "units/wren.yaml",
      ]);
    });
  });
});

describe("a name that is none", () => {
  const paths = [
    "",
    "raw.parquet",
    "bench/raw.parquet",
    "bench/T-01/raw.csv",
    "bench/T-01/raw.parquet.tmp",
    "bench/T-01/deep/raw.parquet",
    "bench/../units/raw.parquet",
    "bench/T-01/../raw.parquet",
    "../bench/T-01/raw.parquet",
    "bench/../bench/T-01/../../raw.parquet",
    "/bench/T-01/raw.parquet",
    "//bench/T-01/raw.parquet",
    "bench//raw.parquet",
    "bench/./raw.parquet",
    "bench/.hidden/raw.parquet",
    "bench/T-01/.parquet",
    "bench\\T-01\\raw.parquet",
    "bench/T-01\\..\\..\\raw.parquet",
    "bench/T-01/raw\u0000.parquet",
    "bench/T-01/raw.parquet\u0000",
    "bench/T-01/raw.parquet\n",
    "bench/T-01/con:raw.parquet",
    "bench/T-01/%2e%2e.parquet",
    `bench/${"x".repeat(80)}/raw.parquet`,
    `bench/T-01/${"x".repeat(5000)}.parquet`,
    ".tapeworthy/T-01/raw.parquet",
    "units/wren.yaml",
    "file:///etc/passwd",
    "/etc/passwd",
  ];
  test("is not written to, however it is written", async () => {
    await tried(async ({ page }) => {
      for (const path of paths) {
        const { status, json } = await keep(page, rows(100), path);
        expect([path, status, json]).toEqual([
          path,
          400,
          { code: "malformed", words: '"file" is a path such as bench/T-01/raw.parquet.' },
        ]);
      }
    });
  });
  test("is not read from either, be there a file or not", async () => {
    await served(async ({ page, folder }) => {
      folder.write("bench/T-01/raw.csv", "hush");
      folder.write("bench/T-01/.parquet", "hush");
      folder.write("secret.parquet", "hush");
      for (const path of [...paths, "bench/T-01/../../secret.parquet"]) {
        const { status, text } = await ask(page, path);
        expect([path, [400, 404].includes(status), text.includes("hush")]).toEqual([path, true, false]);
      }
    });
  });
  test("is none where it is asked for twice, with something else or not at all", async () => {
    await tried(async ({ page }) => {
      for (const query of ["", "file", `file=${file}&file=${file}`, `file=${file}&x=1`, `x=${file}`, "file[]=a"]) {
        expect((await page.ask(`/raw?${query}`)).status).toBe(400);
        const { status } = await page.ask(`/keep?${query}`, {
          method: "POST",
          headers: { Origin: page.origin, "Content-Type": "application/octet-stream" },
          body: rows(100),
        });
        expect(status).toBe(400);
      }
    });
  });
});

describe("a link", () => {
  const outside = (): string => {
    const path = mkdtempSync(join(tmpdir(), "tapeworthy-outside-"));
    mkdirSync(join(path, "T-01"));
    writeFileSync(join(path, "T-01/raw.parquet"), "secret");
    return path;
  };
  test.each<[string, (folder: Folder, out: string) => void, string]>([
    ["folder of all trials", (folder, out) => symlinkSync(out, folder.file("bench")), "bench"],
    [
      "folder of a trial",
      (folder, out) => {
        mkdirSync(folder.file("bench"));
        symlinkSync(join(out, "T-01"), folder.file("bench/T-01"));
      },
      "bench/T-01",
    ],
    [
      "file",
      (folder, out) => {
        mkdirSync(folder.file("bench/T-01"), { recursive: true });
        symlinkSync(join(out, "T-01/raw.parquet"), folder.file(file));
      },
      file,
    ],
    [
      "file that is not there yet",
      (folder, out) => {
        mkdirSync(folder.file("bench/T-01"), { recursive: true });
        symlinkSync(join(out, "new.parquet"), folder.file(file));
      },
      file,
    ],
  ])("in the place of the %s that leads out is not followed", async (_, prepare, part) => {
    const out = outside();
    try {
      await served(
        async ({ page }) => {
          const read = await ask(page, file);
          expect([read.status, read.text.includes("secret")]).toEqual([404, false]);
          const wrote = await keep(page, rows(100));
          expect([wrote.status, wrote.json]).toEqual([
            400,
            { code: "malformed", words: `${part} is a link that leads out of the folder.` },
          ]);
          expect(readdirSync(out, { recursive: true })).toEqual(["T-01", "T-01/raw.parquet"]);
          expect(readFileSync(join(out, "T-01/raw.parquet"), "utf8")).toBe("secret");
        },
        { prepare: (folder) => prepare(folder, out) },
      );
    } finally {
      rmSync(out, { recursive: true });
    }
  });
  test("that stays within the folder is one that works", async () => {
    await served(
      async ({ page, folder }) => {
        expect((await keep(page, rows(100))).status).toBe(200);
        expect((await bytesOf(page, file)).equals(rows(100))).toBe(true);
        expect(existsSync(folder.file("trials/T-01/raw.parquet"))).toBe(true);
      },
      {
        prepare: (folder) => {
          mkdirSync(folder.file("trials"));
          symlinkSync("trials", folder.file("bench"));
        },
      },
    );
  });
  test("or a file in the place of a folder is left as it is, and said so", async () => {
    await tried(
      async ({ page, folder }) => {
        const { status, json } = await keep(page, rows(100));
        expect([status, json.code, json.words]).toEqual([
          507,
          "disk",
          expect.stringMatching(/^bench\/T-01\/raw\.parquet cannot be kept: /),
        ]);
        expect(folder.read("bench")).toBe("a file");
      },
      { prepare: (folder) => folder.write("bench", "a file") },
    );
  });
});

describe("whoever may not come in", () => {
  test("reads and writes nothing without the cookie", async () => {
    await tried(async ({ server }) => {
      const stranger = new Visitor(server.port);
      expect((await ask(stranger, file)).status).toBe(401);
      expect((await keep(stranger, rows(100))).status).toBe(401);
    });
  });
  test("reads and writes nothing under another name, even with the cookie", async () => {
    await tried(async ({ page, server }) => {
      for (const Host of ["evil.example", `evil.example:${server.port}`, `127.0.0.1:${server.port + 1}`]) {
        expect((await ask(page, file, { Host })).json.code).toBe("host");
        expect((await keep(page, rows(100), file, { Host, Origin: `http://${Host}` })).json.code).toBe("host");
      }
    });
  });
  test.each<[string, (port: number) => Ask["headers"], number, string]>([
    ["another site", () => ({ Origin: "http://evil.example" }), 403, "origin"],
    ["another port", (port) => ({ Origin: `http://127.0.0.1:${port + 1}` }), 403, "origin"],
    ["a file or a sandbox", () => ({ Origin: "null" }), 403, "origin"],
    ["nowhere", () => ({ Origin: "" }), 403, "origin"],
    ["a browser that says cross-site", () => ({ "Sec-Fetch-Site": "cross-site" }), 403, "site"],
    ["a browser that says none", () => ({ "Sec-Fetch-Site": "none" }), 403, "origin"],
    ["a form", () => ({ "Content-Type": "multipart/form-data; boundary=x" }), 415, "type"],
    ["a form of plain text", () => ({ "Content-Type": "text/plain" }), 415, "type"],
    ["JSON", () => ({ "Content-Type": "application/json" }), 415, "type"],
    ["nobody who says what it is", () => ({ "Content-Type": "" }), 415, "type"],
  ])("writes nothing from %s", async (_, headers, status, code) => {
    await tried(async ({ page, server }) => {
      const answer = await keep(page, rows(100), file, headers(server.port));
      expect([answer.status, answer.json.code]).toEqual([status, code]);
    });
  });
  test("reads nothing from another site", async () => {
    await served(async ({ page }) => {
      await keep(page, rows(100));
      for (const mode of ["no-cors", "cors", "navigate"])
        expect((await ask(page, file, { "Sec-Fetch-Site": "cross-site", "Sec-Fetch-Mode": mode })).json).toEqual({
          code: "site",
          words: "Another site may not ask this.",
        });
    });
  });
  test("bytes do not pass for an edit, nor an edit for bytes", async () => {
    await tried(async ({ page }) => {
      const { status } = await page.post("/edit", "{}", { "Content-Type": "application/octet-stream" });
      expect(status).toBe(415);
    });
  });
  test.each(["PUT", "DELETE", "PATCH", "OPTIONS", "GET", "HEAD"])("keeps nothing by %s", async (method) => {
    await tried(async ({ page }) => {
      const answer = await page.ask(`/keep?file=${file}`, {
        method,
        headers: { Origin: page.origin, "Content-Type": "application/octet-stream" },
      });
      expect([answer.status, answer.headers.allow]).toEqual([405, "POST"]);
    });
  });
});

describe("a body", () => {
  const head = (page: Visitor, ...more: string[]): string =>
    [
      `POST /keep?file=${file} HTTP/1.1`,
      `Host: 127.0.0.1:${page.port}`,
      `Cookie: ${page.cookie}`,
      `Origin: ${page.origin}`,
      "Content-Type: application/octet-stream",
      ...more,
      "\r\n",
    ].join("\r\n");
  /** Sends what it is given and gives what comes back, until the other side ends it. */
  const raw = (port: number, bytes: string): Promise<string> =>
    new Promise((resolve) => {
      const socket = createConnection(port, "127.0.0.1");
      let text = "";
      socket.on("data", (piece) => {
        text += piece.toString("latin1");
      });
      socket.on("error", () => resolve(text));
      socket.on("close", () => resolve(text));
      socket.write(bytes, "latin1");
    });
  test("said to be longer than may be kept is refused before any of it is sent", async () => {
    await tried(async ({ page }) => {
      for (const extra of [[], ["Expect: 100-continue"]]) {
        const text = await raw(page.port, `${head(page, "Content-Length: 512000001", ...extra)}`);
        expect(text).toMatch(/^HTTP\/1.1 413 /);
        expect(text).toContain('{"code":"too long","words":"At most 512 MB of raw rows are kept in one file."}');
      }
    });
  });
  test("that turns out longer than may be kept is not read to its end, and nothing of it stays", async () => {
    await tried(
      async ({ page, folder }) => {
        const socket = createConnection(page.port, "127.0.0.1");
        let [sent, text, over] = [0, "", false];
        socket.on("data", (piece) => {
          text += piece.toString();
        });
        socket.on("error", () => {});
        socket.on("close", () => {
          over = true;
        });
        socket.write(head(page, "Transfer-Encoding: chunked"));
        const piece = `10000\r\n${"P".repeat(65536)}\r\n`;
        while (!over && sent < 104_857_600) {
          if (!socket.write(piece)) await new Promise((resolve) => setTimeout(resolve, 1));
          sent += 65536;
        }
        await until(() => expect(over).toBe(true));
        expect(sent).toBeLessThan(60_000_000);
        expect(text === "" || text.startsWith("HTTP/1.1 413 ")).toBe(true);
        await until(() => expect(existsSync(folder.file("bench"))).toBe(false));
      },
      { mostKept: 1_000_000 },
    );
  });
  test("of just the length that may be kept is kept", async () => {
    await served(
      async ({ page }) => {
        expect((await keep(page, rows(100_000))).status).toBe(200);
        expect((await keep(page, rows(100_001), "bench/T-01/raw-2.parquet")).json).toEqual({
          code: "too long",
          words: "At most 100000 bytes of raw rows are kept in one file.",
        });
      },
      { mostKept: 100_000 },
    );
  });
  test("cut short leaves nothing, wherever it is cut and however it is sent", async () => {
    await tried(async ({ page, folder }) => {
      const bytes = rows(300_000).toString("latin1");
      const chunked = `${bytes.length.toString(16)}\r\n${bytes}`;
      for (const [more, body] of [
        ["Content-Length: 300000", ""],
        ["Content-Length: 300000", bytes.slice(0, 1)],
        ["Content-Length: 300000", bytes.slice(0, 299_999)],
        ["Transfer-Encoding: chunked", chunked.slice(0, 1000)],
        ["Transfer-Encoding: chunked", `${chunked}\r\n`],
        ["Transfer-Encoding: chunked", `${chunked}\r\nnonsense`],
      ] as const) {
        const socket = createConnection(page.port, "127.0.0.1");
        socket.on("error", () => {});
        socket.write(head(page, more) + body, "latin1");
        if (body.length > 1 && !body.endsWith("nonsense"))
          await until(() => expect(existsSync(folder.file("bench/T-01"))).toBe(true));
        else await new Promise((resolve) => setTimeout(resolve, 20));
        socket.resetAndDestroy();
        await until(() => expect(existsSync(folder.file("bench"))).toBe(false));
      }
    });
  });
  test("that stops coming is not waited for", async () => {
    await tried(
      async ({ page, folder }) => {
        const text = await raw(page.port, `${head(page, "Content-Length: 300000")}PAR1`);
        expect(text === "" || text.startsWith("HTTP/1.1 408 ")).toBe(true);
        await until(() => expect(existsSync(folder.file("bench"))).toBe(false));
      },
      { head: 300, whole: 600 },
    );
  });
  test.each([
    ["nothing", ""],
    ["a text", "time;force\n0;1\n"],
    ["the beginning of a Parquet file", rows(5000).subarray(0, 4000)],
    ["the end of one", rows(5000).subarray(1000)],
    ["four letters", "PAR1"],
    ["eight letters", "PAR1PAR1"],
  ])("of %s is refused, and nothing stays", async (_, body) => {
    await tried(async ({ page }) => {
      const { status, json } = await keep(page, body as Buffer);
      expect([status, json]).toEqual([
        400,
        { code: "malformed", words: "The body is no whole Parquet file: it begins and ends with PAR1." },
      ]);
    });
  });
});

describe("what a killed process has left", () => {
  const half = `${file}.0123456789abcdef.keeping`;
  test("is removed at the next start, and nothing else is", async () => {
    const folder = new Folder();
    try {
      folder.write(half, "PAR1 half of it");
      folder.write(file, "whole");
      folder.write("bench/T-01/raw.parquet.keeping", "a person's");
      folder.write("bench/T-01/notes.txt", "a person's");
      const server = await OpenServer.start(folder.path, { patience: quick, page: folder.file("none") });
      await server.close();
      expect(readdirSync(folder.file("bench/T-01")).sort()).toEqual([
        "notes.txt",
        "raw.parquet",
        "raw.parquet.keeping",
      ]);
    } finally {
      folder.remove();
    }
  });
  test("is left alone where it lies outside the folder", async () => {
    const out = mkdtempSync(join(tmpdir(), "tapeworthy-outside-"));
    const folder = new Folder();
    try {
      writeFileSync(join(out, "raw.parquet.0123456789abcdef.keeping"), "somebody's");
      mkdirSync(folder.file("bench"));
      symlinkSync(out, folder.file("bench/T-01"));
      const server = await OpenServer.start(folder.path, { patience: quick, page: folder.file("none") });
      await server.close();
      expect(readdirSync(out)).toHaveLength(1);
    } finally {
      folder.remove();
      rmSync(out, { recursive: true });
    }
  });
});

test("rows kept under a name are a file of their own: a link made to them elsewhere has the same bytes", async () => {
  await served(async ({ page, folder }) => {
    const bytes = Buffer.concat([Buffer.from("PAR1"), randomBytes(4000), Buffer.from("PAR1")]);
    await keep(page, bytes);
    const stat = lstatSync(folder.file(file));
    expect([stat.isFile(), stat.nlink, stat.size]).toEqual([true, 1, bytes.length]);
  });
});
