import { spawn } from "node:child_process";
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { hostname, tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { Lock } from "./lock.ts";

const inCorner = async (use: (inner: string, path: string) => void | Promise<void>): Promise<void> => {
  const inner = mkdtempSync(join(tmpdir(), "tapeworthy-lock-"));
  try {
    await use(inner, join(inner, "lock-1-00000000"));
  } finally {
    rmSync(inner, { recursive: true });
  }
};
const left = (fields: object): string =>
  `${JSON.stringify({ process: 1, computer: hostname(), began: "", ...fields })}\n`;
/** The number of a process that is gone. */
const gone = (): Promise<number> =>
  new Promise((resolve) => {
    const child = spawn(process.execPath, ["-e", ""]);
    child.on("exit", () => resolve(child.pid!));
  });

test("one server takes the lock, the next is refused until it lets go", async () => {
  await inCorner((inner) => {
    const lock = Lock.take(inner, "my-feeder");
    expect(() => Lock.take(inner, "my-feeder")).toThrow(
      `"my-feeder" is open already, in process ${process.pid}. Use its page, or end it there with Ctrl-C.`,
    );
    lock.release();
    expect(readdirSync(inner)).toEqual([]);
    Lock.take(inner, "my-feeder").release();
  });
});
test("the lock of a process that is gone is taken over, and its number is told", async () => {
  await inCorner(async (inner, path) => {
    const number = await gone();
    writeFileSync(path, left({ process: number }));
    const lock = Lock.take(inner, "my-feeder");
    expect([lock.left, readdirSync(inner)]).toEqual([
      [number],
      [expect.stringMatching(new RegExp(`^lock-${process.pid}-`))],
    ]);
    lock.release();
  });
});
test.skipIf(process.platform !== "linux")(
  "the lock of an earlier process of the same number is taken over",
  async () => {
    await inCorner((inner, path) => {
      // This test's own number, and its parent's, which lives: both began at another time than the lock says.
      for (const number of [process.pid, process.ppid]) {
        writeFileSync(path, left({ process: number, began: "another start 1" }));
        Lock.take(inner, "my-feeder").release();
      }
    });
  },
);
test.each(["", "{", "null", '{"process":"1"}', "12"])("a lock that says nothing (%j) is taken over", async (text) => {
  await inCorner((inner, path) => {
    writeFileSync(path, text);
    const lock = Lock.take(inner, "my-feeder");
    expect(lock.left).toEqual([]);
    lock.release();
  });
});
test("the lock of another computer is respected, and the way out is said", async () => {
  await inCorner((inner, path) => {
    writeFileSync(path, left({ computer: "the-other" }));
    const before = readdirSync(inner);
    expect(() => Lock.take(inner, "my-feeder")).toThrow(
      `"my-feeder" is open on the computer "the-other". If that is not so any more, delete ${path}.`,
    );
    expect(readdirSync(inner)).toEqual(before);
  });
});
test("a lock that was removed is put back under the same name, and let go all the same", async () => {
  await inCorner((inner) => {
    const lock = Lock.take(inner, "my-feeder");
    const names = readdirSync(inner);
    rmSync(join(inner, names[0]!));
    expect([lock.renew(), readdirSync(inner)]).toEqual([true, names]);
    lock.release();
    expect(readdirSync(inner)).toEqual([]);
  });
});
test("a lock that was removed is not put back where another server has the folder since", async () => {
  await inCorner((inner, path) => {
    const lock = Lock.take(inner, "my-feeder");
    rmSync(join(inner, readdirSync(inner)[0]!));
    writeFileSync(path, left({ computer: "the-other" }));
    expect([lock.renew(), readdirSync(inner)]).toEqual([false, ["lock-1-00000000"]]);
  });
});
test("of many that find a dead lock at once, one gets it", async () => {
  await inCorner(async (inner, path) => {
    writeFileSync(path, left({ process: await gone() }));
    const built = new URL("../../dist/open/lock.js", import.meta.url).href;
    const script = `import { Lock } from ${JSON.stringify(built)};
      process.stdin.once("data", () => {
        try { Lock.take(${JSON.stringify(inner)}, "f"); console.log("mine"); } catch (e) { console.log(e.name); }
      });
      console.log("ready");`;
    const children = Array.from({ length: 6 }, () => spawn(process.execPath, ["--input-type=module", "-e", script]));
    /** The next line of each. */
    const lines = () =>
      Promise.all(
        children.map(
          ({ stdout }) => new Promise<string>((resolve) => stdout.once("data", (d) => resolve(`${d}`.trim()))),
        ),
      );
    expect(new Set(await lines())).toEqual(new Set(["ready"]));
    const answers = lines();
    for (const { stdin } of children) stdin.write("go\n");
    const says = await answers;
    for (const child of children) child.kill();
    expect(says.sort()).toEqual([...Array(5).fill("CallError"), "mine"]);
  });
});
