import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { createConnection, type Socket } from "node:net";
import { networkInterfaces, tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { type Ask, first, quick, served, sha256, until, Visitor, wren } from "./open.fixture.ts";
import { OpenServer } from "./server.ts";

/** Lets somebody try something, and expects every file untouched and the server well afterwards. */
const tried = (use: Parameters<typeof served>[0], options: Parameters<typeof served>[1] = {}): Promise<void> =>
  served(async (at) => {
    const before = at.folder.contents();
    await use(at);
    expect(at.folder.contents()).toEqual(before);
    expect((await at.page.state()).files.map(({ text, version }) => [text, version])).toEqual(
      Object.entries(before).map(([, text]) => [text, 1]),
    );
  }, options);
const wish = { file: wren, base: sha256(first), changes: [first.length, [0, "evil: 1", ""]], gesture: "g", done: true };
const page = (port: number): Record<string, string> => ({
  Origin: `http://127.0.0.1:${port}`,
  "Content-Type": "application/json",
});
/** Sends bytes as they are and gives what comes back. */
const raw = (port: number, bytes: string): Promise<string> =>
  new Promise((resolve) => {
    const socket = createConnection(port, "127.0.0.1");
    let text = "";
    socket.on("data", (piece) => {
      text += piece.toString("latin1");
    });
    socket.on("error", () => resolve(text));
    socket.on("close", () => resolve(text));
    socket.end(bytes, "latin1");
  });

describe("the address", () => {
  test("is traded once for a strict cookie and leads to the page; then it is dead", async () => {
    await served(async ({ server }) => {
      const address = server.newAddress();
      expect(address).toMatch(new RegExp(`^http://127\\.0\\.0\\.1:${server.port}/\\?token=[0-9a-f]{64}$`));
      const visitor = new Visitor(server.port);
      const { status, headers } = await visitor.ask(address.replace(/^.*\/\?/, "/?"));
      expect([status, headers.location]).toEqual([303, "/"]);
      expect(headers["set-cookie"]).toEqual([
        expect.stringMatching(
          new RegExp(`^tapeworthy-${server.port}=[0-9a-f]{64}; Path=/; HttpOnly; SameSite=Strict$`),
        ),
      ]);
      const again = await visitor.ask(address.replace(/^.*\/\?/, "/?"));
      expect([again.status, again.headers["set-cookie"], again.headers.location]).toEqual([401, undefined, undefined]);
      expect(again.text).toContain("Press Enter in the terminal for a new one.");
    });
  });
  test("is dead once a newer one is made, traded or not", async () => {
    await served(async ({ server }) => {
      const old = server.newAddress();
      const fresh = server.newAddress();
      expect((await Visitor.by(old)).cookie).toBe("");
      expect((await Visitor.by(fresh)).cookie).not.toBe("");
    });
  });
  test("asked for without its body does not use it up", async () => {
    await served(async ({ server }) => {
      const address = server.newAddress();
      const path = address.replace(/^.*\/\?/, "/?");
      expect((await new Visitor(server.port).ask(path, { method: "HEAD" })).status).toBe(401);
      expect((await Visitor.by(address)).cookie).not.toBe("");
    });
  });
  test("guessed is refused, however long or strange", async () => {
    await served(async ({ server }) => {
      for (const token of ["", "0".repeat(64), "x".repeat(8000), "%00", "a&token=b", "é"])
        expect((await new Visitor(server.port).ask(`/?token=${encodeURI(token)}`)).status).toBe(401);
    });
  });
  test("keeps earlier pages open: two browsers may look at one project", async () => {
    await served(async ({ server, page: one }) => {
      const two = await Visitor.by(server.newAddress());
      expect([(await one.ask("/state")).status, (await two.ask("/state")).status]).toEqual([200, 200]);
    });
  });
});

describe("without the cookie", () => {
  test.each([
    ["GET", "/state"],
    ["GET", "/events"],
    ["GET", "/index.html"],
    ["GET", "/nothing"],
    ["POST", "/edit"],
    ["POST", "/undo"],
    ["POST", "/redo"],
    ["POST", "/offer"],
  ])("%s %s is refused", async (method, path) => {
    await tried(async ({ server }) => {
      const body = method === "POST" ? JSON.stringify(wish) : "";
      const { status, json } = await new Visitor(server.port).ask(path, { method, headers: page(server.port), body });
      expect([status, json]).toEqual([401, { code: "session", words: "Open the address that the terminal shows." }]);
    });
  });
  test("of this port, one of another is refused too", async () => {
    await served(async ({ server, page: good }) => {
      const value = good.cookie.split("=")[1]!;
      for (const cookie of [
        `tapeworthy-${server.port + 1}=${value}`,
        `tapeworthy-${server.port}=${value}0`,
        `tapeworthy-${server.port}=`,
        value,
      ]) {
        const visitor = new Visitor(server.port);
        visitor.cookie = cookie;
        expect((await visitor.ask("/state")).status).toBe(401);
      }
    });
  });
});

describe("a request under another name is refused, even with the cookie", () => {
  const names = (port: number) => [
    "evil.example",
    `evil.example:${port}`,
    "127.0.0.1",
    "localhost",
    `127.0.0.1:${port + 1}`,
    `127.0.0.1:${port}.evil.example`,
    `[::1]:${port}`,
    `0.0.0.0:${port}`,
    `LOCALHOST:${port}`,
    `user@127.0.0.1:${port}`,
  ];
  test("to read and to write", async () => {
    await tried(async ({ server, page: good }) => {
      for (const Host of names(server.port)) {
        const words = `This is 127.0.0.1:${server.port} and answers to no other name.`;
        const read = await good.ask("/state", { headers: { Host } });
        expect([Host, read.status, read.json]).toEqual([Host, 403, { code: "host", words }]);
        const write = await good.post("/edit", wish, { Host, Origin: `http://${Host}` });
        expect([Host, write.status]).toEqual([Host, 403]);
      }
    });
  });
  test("and does not use up the address", async () => {
    await served(async ({ server }) => {
      const address = server.newAddress();
      const path = address.replace(/^.*\/\?/, "/?");
      expect((await new Visitor(server.port).ask(path, { headers: { Host: "evil.example" } })).status).toBe(403);
      expect((await Visitor.by(address)).cookie).not.toBe("");
    });
  });
  test("and localhost is a name of its own that works", async () => {
    await served(async ({ server, page: good, folder }) => {
      const Host = `localhost:${server.port}`;
      expect((await good.ask("/state", { headers: { Host } })).status).toBe(200);
      const { status } = await good.post("/edit", wish, { Host, Origin: `http://${Host}` });
      expect([status, folder.read()]).toEqual([200, `${first}evil: 1\n`]);
    });
  });
  test("and so are requests without a name or with a whole address for a path", async () => {
    await tried(async ({ server, page: good }) => {
      const head = `Cookie: ${good.cookie}\r\nConnection: close\r\n\r\n`;
      expect(await raw(server.port, `GET /state HTTP/1.1\r\n${head}`)).toMatch(/^HTTP\/1.1 400 /);
      expect(await raw(server.port, `GET /state HTTP/1.0\r\n${head}`)).toMatch(/^HTTP\/1.1 403 /);
      const Host = `Host: 127.0.0.1:${server.port}\r\n`;
      expect(await raw(server.port, `GET http://evil.example/state HTTP/1.1\r\n${Host}${head}`)).toMatch(
        /^HTTP\/1.1 404 /,
      );
      expect(await raw(server.port, `GET //evil.example/state HTTP/1.1\r\n${Host}${head}`)).toMatch(/^HTTP\/1.1 404 /);
      expect(await raw(server.port, `CONNECT evil.example:80 HTTP/1.1\r\n${Host}${head}`)).toBe("");
    });
  });
});

describe("a writing request from elsewhere is refused, even with the cookie:", () => {
  const origin = { code: "origin", words: "Only the page of this address may change something." };
  test.each<[string, (port: number) => Ask["headers"], number, object]>([
    ["another site", () => ({ Origin: "http://evil.example" }), 403, origin],
    ["another port", (port) => ({ Origin: `http://127.0.0.1:${port + 1}` }), 403, origin],
    ["our other name", (port) => ({ Origin: `http://localhost:${port}` }), 403, origin],
    ["our name over another protocol", (port) => ({ Origin: `https://127.0.0.1:${port}` }), 403, origin],
    ["a file or a sandbox", () => ({ Origin: "null" }), 403, origin],
    ["nowhere", () => ({ Origin: "" }), 403, origin],
    [
      "a browser that says cross-site",
      () => ({ "Sec-Fetch-Site": "cross-site" }),
      403,
      { code: "site", words: "Another site may not ask this." },
    ],
    [
      "a browser that says same-site",
      () => ({ "Sec-Fetch-Site": "same-site" }),
      403,
      { code: "site", words: "Another site may not ask this." },
    ],
    ["a browser that says none", () => ({ "Sec-Fetch-Site": "none" }), 403, origin],
    ["a form", () => ({ "Content-Type": "text/plain" }), 415, { code: "type", words: "Send application/json." }],
    [
      "a form that says nothing",
      () => ({ "Content-Type": "" }),
      415,
      { code: "type", words: "Send application/json." },
    ],
  ])("%s", async (_, headers, status, json) => {
    await tried(async ({ server, page: good }) => {
      for (const path of ["/edit", "/undo", "/redo", "/offer"]) {
        const reply = await good.post(path, wish, headers(server.port));
        expect([path, reply.status, reply.json]).toEqual([path, status, json]);
      }
    });
  });
  test("while our own page, which says same-origin, is served", async () => {
    await served(async ({ page: good }) => {
      expect((await good.post("/edit", wish, { "Sec-Fetch-Site": "same-origin" })).status).toBe(200);
    });
  });
  test("and reading by another site is refused, while coming to the page from there is not", async () => {
    await served(async ({ page: good }) => {
      const from = { "Sec-Fetch-Site": "cross-site", "Sec-Fetch-Mode": "no-cors" };
      for (const path of ["/state", "/events", "/"]) expect((await good.ask(path, { headers: from })).status).toBe(403);
      const to = { "Sec-Fetch-Site": "cross-site", "Sec-Fetch-Mode": "navigate" };
      expect([
        (await good.ask("/", { headers: to })).status,
        (await good.ask("/state", { headers: to })).status,
      ]).toEqual([200, 403]);
    });
  });
});

test("every answer carries the headers that guard it, and no script may stand in the page", async () => {
  await served(async ({ page: good, server }) => {
    const stream = await new Promise<Record<string, unknown>>((resolve) => {
      void raw(
        server.port,
        `GET /events HTTP/1.1\r\nHost: 127.0.0.1:${server.port}\r\nCookie: ${good.cookie}\r\n\r\n`,
      ).then((text) =>
        resolve(
          Object.fromEntries(
            text
              .split("\r\n")
              .flatMap((line) =>
                /^[\w-]+: /.test(line)
                  ? [[line.split(": ")[0]!.toLowerCase(), line.slice(line.indexOf(": ") + 2)]]
                  : [],
              ),
          ),
        ),
      );
    });
    const replies = [
      ...(await Promise.all(["/", "/state", "/none"].map((path) => good.ask(path)))),
      await good.ask("/", { headers: { Host: "evil.example" } }),
      await new Visitor(server.port).ask("/"),
      await good.post("/edit", "x"),
    ].map(({ headers }) => headers as Record<string, unknown>);
    for (const headers of [...replies, stream]) {
      expect(headers).toMatchObject({
        "x-content-type-options": "nosniff",
        "referrer-policy": "no-referrer",
        "cross-origin-opener-policy": "same-origin",
        "cross-origin-resource-policy": "same-origin",
        "x-frame-options": "DENY",
        "cache-control": "no-store",
      });
      const csp = String(headers["content-security-policy"]);
      expect(csp).toMatch(/default-src 'none'; script-src 'self'; /);
      expect(csp).toMatch(/frame-ancestors 'none'/);
      expect(csp).not.toMatch(/unsafe/);
      expect(Object.keys(headers).filter((name) => name.startsWith("access-control"))).toEqual([]);
    }
    expect((await good.ask("/")).text).not.toMatch(/<script|style=|on\w+=/);
  });
});

describe("the page's files", () => {
  const built = (): string => {
    const page = mkdtempSync(join(tmpdir(), "tapeworthy-page-"));
    mkdirSync(join(page, "dist/assets"), { recursive: true });
    writeFileSync(join(page, "secret.js"), "secret");
    writeFileSync(join(page, "dist/index.html"), "<!doctype html><title>the page</title>");
    writeFileSync(join(page, "dist/assets/a b-1.js"), "export {};");
    writeFileSync(join(page, "dist/.env"), "secret");
    symlinkSync("../secret.js", join(page, "dist/link.js"));
    return page;
  };
  test("are served with their kinds, and nothing outside them is, however it is written", async () => {
    const folder = built();
    try {
      await tried(
        async ({ page: good }) => {
          const index = await good.ask("/");
          expect([index.status, index.headers["content-type"], index.text]).toEqual([
            200,
            "text/html; charset=utf-8",
            "<!doctype html><title>the page</title>",
          ]);
          const script = await good.ask("/assets/a%20b-1.js");
          expect([script.status, script.headers["content-type"], script.text]).toEqual([
            200,
            "text/javascript; charset=utf-8",
            "export {};",
          ]);
          for (const path of [
            "/../secret.js",
            "/%2e%2e/secret.js",
            "/..%2fsecret.js",
            "/%2e%2e%2fsecret.js",
            "/..%5csecret.js",
            "/assets/../../secret.js",
            "/assets/..%2f..%2fsecret.js",
            "/%252e%252e%252fsecret.js",
            "/....//secret.js",
            "/.%00./secret.js",
            "//secret.js",
            "/./index.html",
            "/link.js",
            "/.env",
            "/assets",
            "/assets/",
            `${folder}/secret.js`,
            "/%c0%ae%c0%ae/secret.js",
            "/__proto__",
            "/constructor",
            "/units/wren.yaml",
            "/.tapeworthy/journal",
          ]) {
            const { status, text } = await good.ask(path);
            expect([path, status, text.includes("secret\n") || text === "secret"]).toEqual([path, 404, false]);
          }
        },
        { page: join(folder, "dist") },
      );
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
  test("that are not built yet leave a page which says how, and are there once they are", async () => {
    const folder = built();
    try {
      await served(
        async ({ page: good }) => {
          const none = await good.ask("/");
          expect([none.status, none.text]).toEqual([200, expect.stringContaining("npm run build")]);
          mkdirSync(join(folder, "later"));
          writeFileSync(join(folder, "later/index.html"), "built");
          expect((await good.ask("/")).text).toBe("built");
        },
        { page: join(folder, "later") },
      );
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
  test.each(["PUT", "DELETE", "PATCH", "OPTIONS", "POST", "TRACE"])("are not there for %s", async (method) => {
    await tried(async ({ page: good, server }) => {
      for (const path of ["/", "/state", "/events"])
        expect((await good.ask(path, { method, headers: page(server.port) })).status).toBe(405);
      if (method !== "POST") expect((await good.ask("/edit", { method, headers: page(server.port) })).status).toBe(405);
    });
  });
});

describe("a body", () => {
  test("said to be of 100 MB is refused before any of it is sent", async () => {
    await tried(async ({ server, page: good }) => {
      const head = `POST /edit HTTP/1.1\r\nHost: 127.0.0.1:${server.port}\r\nCookie: ${good.cookie}\r\nOrigin: ${good.origin}\r\nContent-Type: application/json\r\nContent-Length: 104857600\r\n`;
      for (const extra of ["", "Expect: 100-continue\r\n"]) {
        const text = await raw(server.port, `${head}${extra}\r\n{`);
        expect(text).toMatch(/^HTTP\/1.1 413 /);
        expect(text).toContain('{"code":"too long","words":"At most 1000000 bytes are taken."}');
      }
    });
  });
  test("of 100 MB in pieces is not read to its end", async () => {
    await tried(async ({ server, page: good }) => {
      const socket = createConnection(server.port, "127.0.0.1");
      let [sent, text, over] = [0, "", false];
      socket.on("data", (piece) => {
        text += piece.toString();
      });
      socket.on("error", () => {});
      socket.on("close", () => {
        over = true;
      });
      socket.write(
        `POST /edit HTTP/1.1\r\nHost: 127.0.0.1:${server.port}\r\nCookie: ${good.cookie}\r\nOrigin: ${good.origin}\r\nContent-Type: application/json\r\nTransfer-Encoding: chunked\r\n\r\n`,
      );
      const piece = `10000\r\n${" ".repeat(65536)}\r\n`;
      while (!over && sent < 104_857_600) {
        if (!socket.write(piece)) await new Promise((resolve) => setTimeout(resolve, 1));
        sent += 65536;
      }
      await until(() => expect(over).toBe(true));
      expect(sent).toBeLessThan(30_000_000);
      expect(text === "" || text.startsWith("HTTP/1.1 413 ")).toBe(true);
    });
  });
  test.each([
    ["nothing", "", "The body is not JSON."],
    ["text", "evil", "The body is not JSON."],
    ["half an object", '{"file":"units/', "The body is not JSON."],
    ["a list", "[]", "The body is no JSON object."],
    ["null", "null", "The body is no JSON object."],
    ["brackets without end", "[".repeat(500_000), "The body is not JSON."],
    ["a prototype", '{"__proto__":{"file":"units/wren.yaml"}}', '"file" is a path such as "units/plover.yaml".'],
  ])("of %s is refused with the reason", async (_, body, words) => {
    await tried(async ({ page: good }) => {
      const { status, json } = await good.post("/edit", body);
      expect([status, json]).toEqual([400, { code: "malformed", words }]);
    });
  });
  test("that goes on asking is asked to, and read", async () => {
    await served(async ({ server, page: good, folder }) => {
      const body = JSON.stringify(wish);
      const head = `POST /edit HTTP/1.1\r\nHost: 127.0.0.1:${server.port}\r\nCookie: ${good.cookie}\r\nOrigin: ${good.origin}\r\nContent-Type: application/json\r\nContent-Length: ${body.length}\r\nExpect: 100-continue\r\nConnection: close\r\n\r\n`;
      const text = await raw(server.port, head + body);
      expect(text).toMatch(/^HTTP\/1.1 100 Continue\r\n\r\nHTTP\/1.1 200 OK/);
      expect(folder.read()).toBe(`${first}evil: 1\n`);
    });
  });
});

describe("connections", () => {
  const open = (port: number, bytes = ""): Promise<Socket> =>
    new Promise((resolve) => {
      const socket = createConnection(port, "127.0.0.1");
      socket.on("error", () => resolve(socket));
      socket.resume();
      socket.on("connect", () => {
        if (bytes !== "") socket.write(bytes);
        resolve(socket);
      });
    });
  test("a thousand that say nothing or half a request leave the page as quick as before, and are ended", async () => {
    await tried(
      async ({ server, page: good }) => {
        const listener = await good.listen();
        const halves = [
          "",
          "GET / HTTP/1.1\r\n",
          "POST /edit HTTP/1.1\r\nContent-Length: 5\r\n\r\n",
          "\u0000\u0001\u0002",
          "GET /state HTTP/9.9\r\n\r\n",
        ];
        const sockets = await Promise.all(
          Array.from({ length: 1000 }, (_, i) => open(server.port, halves[i % halves.length])),
        );
        for (let i = 0; i < 20; i++) expect((await good.ask("/state")).status).toBe(200);
        expect(listener.isOver).toBe(false);
        await until(() => expect(sockets.filter((socket) => !socket.destroyed).length).toBeLessThanOrEqual(410));
        await until(() => expect(sockets.filter((socket) => !socket.destroyed).length).toBe(0));
        expect(listener.isOver).toBe(false);
        for (const socket of sockets) socket.destroy();
      },
      { head: 1500 },
    );
  });
  test("broken off in the middle of everything harm nobody", async () => {
    await tried(async ({ server, page: good }) => {
      const head = (path: string, method = "GET") =>
        `${method} ${path} HTTP/1.1\r\nHost: 127.0.0.1:${server.port}\r\nCookie: ${good.cookie}\r\nOrigin: ${good.origin}\r\nContent-Type: application/json\r\n`;
      for (let i = 0; i < 100; i++) {
        const bytes = [
          `${head("/events")}\r\n`,
          `${head("/state")}\r\n`,
          `${head("/edit", "POST")}Content-Length: 100\r\n\r\n{"file":`,
        ][i % 3]!;
        const socket = await open(server.port, bytes);
        if (i % 2 === 0) await new Promise((resolve) => setTimeout(resolve, 1));
        socket.resetAndDestroy();
      }
      await good.post("/undo", {});
      const { events } = server as unknown as { events: { open: number } };
      await until(() => expect(events.open).toBe(0));
    });
  });
  test("come from this computer alone", async () => {
    await served(async ({ server }) => {
      const others = Object.values(networkInterfaces()).flatMap((all) =>
        (all ?? []).filter((one) => !one.internal && one.family === "IPv4"),
      );
      for (const { address } of others) {
        const why = await new Promise((resolve) => {
          const socket = createConnection({ port: server.port, host: address, timeout: 1000 });
          socket.on("connect", () => resolve("connected"));
          socket.on("timeout", () => resolve("nobody"));
          socket.on("error", (e: NodeJS.ErrnoException) => resolve(e.code));
        });
        expect(["ECONNREFUSED", "nobody"]).toContain(why);
      }
      const address = (server as unknown as { server: { address(): unknown } }).server.address();
      expect(address).toMatchObject({ address: "127.0.0.1" });
    });
  });
  test("a port that is taken is said so", async () => {
    await served(async ({ server, folder }) => {
      await expect(OpenServer.start(folder.path, { port: server.port, patience: quick })).rejects.toThrow(
        `Port ${server.port} is taken; leave --port away for any that is free.`,
      );
    });
  });
});

test("a journal that cannot be written refuses the edit, and nothing has happened", async () => {
  await served(async ({ page: good, server, folder }) => {
    const { shared } = server as unknown as { shared: { journal: { append(text: string): void } } };
    const { append } = Object.getPrototypeOf(shared.journal);
    const { JournalError } = await import("./journal-file.ts");
    shared.journal.append = () => {
      throw new JournalError("The journal cannot be written: ENOSPC: no space left on device");
    };
    const { status, json } = await good.post("/edit", wish);
    expect([status, json]).toEqual([
      507,
      { code: "journal", words: "The journal cannot be written: ENOSPC: no space left on device" },
    ]);
    expect([await good.text(), folder.read()]).toEqual([first, first]);
    shared.journal.append = append;
    expect((await good.post("/edit", wish)).status).toBe(200);
  });
});
test("a fault of ours is answered, said at the terminal, and ends nothing", async () => {
  await served(async ({ page: good, server, said }) => {
    const { shared } = server as unknown as { shared: { state(): unknown } };
    const { state } = Object.getPrototypeOf(shared);
    shared.state = () => {
      throw new Error("a fault");
    };
    const { status, json } = await good.ask("/state");
    expect([status, json]).toEqual([500, { code: "bug", words: "The program has a fault; the terminal says more." }]);
    expect(said[0]).toMatch(/^A request could not be answered, please report this: Error: a fault\n/);
    shared.state = state;
    expect((await good.ask("/state")).status).toBe(200);
  });
});
