import { ChangeSet } from "@codemirror/state";
import { toJson } from "@tapeworthy/project";
import { expect, test } from "vitest";
import type { DeskPort } from "./desk-port.ts";
import { createEngine, type FileEdit } from "./engine.ts";
import { MemoryServer } from "./memory-transport.ts";
import { few } from "./project.fixture.ts";
import type { FromDesk, ToDesk } from "./protocol.ts";

const settle = () => new Promise((resolve) => setTimeout(resolve, 5));
const main = "project.yaml";
const before = few.get(main)!;
const begun: FileEdit = {
  file: "bench/T-01.yaml",
  base: undefined,
  changes: toJson(ChangeSet.of({ from: 0, insert: "trial: T-01\n" }, 0)),
};
const noted: FileEdit = {
  file: main,
  base: before,
  changes: toJson(ChangeSet.of({ from: before.length, insert: "# T-01\n" }, before.length)),
};
/** An engine whose desk finds these errors in what is to be written. */
async function opened(errors: readonly object[] = []) {
  let heard: (message: FromDesk) => void = () => {};
  const asked: ToDesk[] = [];
  const port: DeskPort = {
    post: (message) => {
      if (message.kind !== "ask") return;
      asked.push(message);
      queueMicrotask(() =>
        heard({ kind: "answer", id: message.id, answer: { kind: "errors", errors: errors as never } }),
      );
    },
    hear: (f) => {
      heard = f;
    },
    close: () => {},
  };
  const server = new MemoryServer(few, 5);
  const engine = createEngine(server, port);
  await settle();
  const on = (file: string) => server.texts.all().find((one) => one.file === file && one.there)?.text;
  return { engine, server, asked, on };
}

test("a new file and an edit go in together, and one undo takes both back", async () => {
  const { engine, on } = await opened();
  expect(await engine.put([noted, begun])).toEqual([]);
  await settle();
  expect([on("bench/T-01.yaml"), on(main)]).toEqual(["trial: T-01\n", `${before}# T-01\n`]);
  expect(engine.state().texts.get("bench/T-01.yaml")).toBe("trial: T-01\n");
  await engine.undo();
  await settle();
  expect([on("bench/T-01.yaml"), on(main)]).toEqual([undefined, before]);
  expect(engine.state().texts.has("bench/T-01.yaml")).toBe(false);
  await engine.redo();
  await settle();
  expect([on("bench/T-01.yaml"), on(main)]).toEqual(["trial: T-01\n", `${before}# T-01\n`]);
});
test("new files alone are one step of undo too", async () => {
  const { engine, on } = await opened();
  const other: FileEdit = { ...begun, file: "bench/T-02.yaml" };
  await engine.put([begun, other]);
  await settle();
  await engine.undo();
  await settle();
  expect([on("bench/T-01.yaml"), on("bench/T-02.yaml")]).toEqual([undefined, undefined]);
});
test("what brings an error is not written, none of it", async () => {
  const error = { place: { file: main, line: 1, column: 1, length: 1 }, found: "x", expected: "y", shown: "no" };
  const { engine, asked, on } = await opened([error]);
  expect(await engine.put([begun, noted])).toEqual([error]);
  expect(asked.at(-1)).toMatchObject({
    question: {
      texts: [
        ["bench/T-01.yaml", "trial: T-01\n"],
        [main, `${before}# T-01\n`],
      ],
    },
  });
  expect([on("bench/T-01.yaml"), on(main)]).toEqual([undefined, before]);
});
test("an edit of a text that somebody has changed meanwhile is not made, and says so", async () => {
  const { engine, server, on } = await opened();
  server.outside(main, `# theirs\n${before}`);
  await settle();
  const [error] = await engine.put([begun, noted]);
  expect(error!.shown).toBe(
    `${main}: found a file that has changed meanwhile, expected the file as it was. Look at it, and do it again.`,
  );
  expect([on("bench/T-01.yaml"), on(main)]).toEqual([undefined, `# theirs\n${before}`]);
});
test("a new file that is there by now keeps the rest from being written", async () => {
  const { engine, server, on } = await opened();
  const put = engine.put([begun, noted]);
  server.outside("bench/T-01.yaml", "trial: T-01, theirs\n");
  const errors = await put;
  await settle();
  expect(errors).toHaveLength(1);
  expect([on("bench/T-01.yaml"), on(main)]).toEqual(["trial: T-01, theirs\n", before]);
});
