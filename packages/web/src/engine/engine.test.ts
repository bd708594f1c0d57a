import { ChangeSet } from "@codemirror/state";
import type { Finding, TapeResult } from "@tapeworthy/core";
import { describe, expect, test } from "vitest";
import type { DeskPort } from "./desk-port.ts";
import { createEngine } from "./engine.ts";
import { localDesk } from "./local-desk.ts";
import { MemoryServer } from "./memory-transport.ts";
import { few } from "./project.fixture.ts";
import type { FromDesk, QuickPair, ToDesk } from "./protocol.ts";
import type { NumberView } from "./state.ts";

const file = "units/plover.yaml";
const shoulder = "plover/film.guides.shoulder.through.2";
const settle = () => new Promise((resolve) => setTimeout(resolve, 0));

/** A desk that says what the test wants said. */
class TestPort implements DeskPort {
  readonly posted: ToDesk[] = [];
  private heard: (message: FromDesk) => void = () => {};
  post = (message: ToDesk): void => void this.posted.push(structuredClone(message));
  hear(heard: (message: FromDesk) => void): void {
    this.heard = heard;
  }
  close(): void {}
  say(message: FromDesk): void {
    this.heard(message);
  }
  get last(): ToDesk {
    return this.posted.at(-1)!;
  }
  get seq(): number {
    return this.posted.reduce((seq, m) => ("seq" in m ? m.seq : seq), 0);
  }
}
const result = (tape: string, verdict: "feeds" | "stops" | "depends"): TapeResult => {
  const share = { feeds: 1, depends: 0.5, stops: 0 }[verdict];
  const findings = [
    { check: "c", severity: "S", verdict, share } as Finding,
    { check: "d", severity: "S", verdict: "feeds", share: 1 } as Finding,
  ];
  return { unit: "plover", tape, W: 8, verdict, share, shareAlone: share, verdictAlone: verdict, first: [], findings };
};
const quick = (tape: string, verdict: "feeds" | "stops"): QuickPair => {
  const { findings, ...rest } = result(tape, verdict);
  return { ...rest, findings: [findings[0]!] as never };
};
const text = few.get(file)!;
const at = (find: string): { line: number; column: number } => {
  const before = text.slice(0, text.indexOf(find)).split("\n");
  return { line: before.length, column: before.at(-1)!.length + 1 };
};
const numberOf = (address: string, find: string, more: Partial<NumberView> = {}): NumberView =>
  ({
    address,
    path: address.replace("plover/", ""),
    text: find,
    place: { file, ...at(find), length: find.length },
    value: 32.2e-3,
    unit: "m",
    shownIn: "mm",
    step: 0.05e-3,
    coarse: 1e-3,
    draggable: true,
    widths: [],
    names: [],
    ...more,
  }) as unknown as NumberView;
const numbers = [numberOf(shoulder, "1.25*W + 2.2 mm")];

async function opened() {
  const port = new TestPort();
  const server = new MemoryServer(few, 5);
  const engine = createEngine(server, port);
  await settle();
  const read = (stale = true) => {
    const pairs = ["p", "q"].map((tape) => ({ unit: "plover", tape, stale }));
    const project = { name: "n", allowPairs: 0.02, units: [], tapes: [] };
    port.say({ kind: "read", seq: port.seq, project, errors: [], pairs });
  };
  const shape = (numbers?: readonly NumberView[]) =>
    port.say({
      kind: "shape",
      seq: port.seq,
      look: { unit: "plover", tape: "p" },
      trouble: "none",
      ...(numbers ? { numbers } : {}),
    });
  const drawn = (tape: string, verdict: "feeds" | "stops" | "depends", { seq = port.seq, final = true } = {}) =>
    port.say({ kind: "drawn", seq, result: result(tape, verdict), final });
  read();
  shape(numbers);
  drawn("p", "feeds");
  drawn("q", "stops");
  port.say({ kind: "rest", seq: port.seq });
  const pairs = () =>
    engine.state().pairs.map((p) => [p.tape, p.sharpness, p.result?.verdict, p.before?.verdict, p.quick.size]);
  return { port, server, engine, read, shape, drawn, pairs };
}

describe("the page's state", () => {
  test("opens the desk with the server's texts and seed, and fills in pair by pair", async () => {
    const { port, engine, pairs } = await opened();
    expect(port.posted[0]).toMatchObject({ kind: "open", seed: 5 });
    expect(new Map((port.posted[0] as Extract<ToDesk, { kind: "open" }>).texts)).toEqual(few);
    expect(pairs()).toEqual([
      ["p", "drawn", "feeds", undefined, 0],
      ["q", "drawn", "stops", undefined, 0],
    ]);
    expect(engine.state()).toMatchObject({ look: { unit: "plover", tape: "p" }, connection: "live", busy: undefined });
  });
  test("is told once for all that happens together, and stays the same object in between", async () => {
    const { engine, port } = await opened();
    await settle();
    let told = 0;
    const end = engine.subscribe(() => told++);
    engine.edit(file, ChangeSet.of({ from: 0, insert: "# a\n" }, text.length));
    const first = engine.state();
    expect([told, engine.state() === first]).toEqual([0, true]);
    await Promise.resolve();
    expect(told).toBe(1);
    end();
    port.say({ kind: "rest", seq: port.seq });
    await settle();
    expect(told).toBeGreaterThan(0);
  });
  test("keeps the last good reading beside the errors of the present text", async () => {
    const { engine, port, pairs } = await opened();
    const error = {
      place: { file, line: 1, column: 1, length: 1 },
      found: "x",
      expected: "y",
      hint: undefined,
      shown: "",
    };
    engine.edit(file, ChangeSet.of({ from: 0, insert: "?" }, text.length));
    port.say({ kind: "read", seq: port.seq, errors: [error] });
    expect(engine.state()).toMatchObject({ errors: [error], project: { name: "n" } });
    expect(pairs().map(([, sharp]) => sharp)).toEqual(["older", "older"]);
  });
});

describe("a drag", () => {
  test("posts each step at once with how far it stands off, moves the number on screen, and is one step of undo", async () => {
    const { engine, port, server } = await opened();
    const drag = engine.beginGesture(shoulder);
    expect(port.last).toEqual({ kind: "aim", members: [shoulder], reach: 40 * 0.05e-3 });
    expect(engine.move(drag, 0.32e-3)).toBeCloseTo(0.3e-3, 12);
    expect(engine.move(drag, 1.1e-3, "coarse")).toBeCloseTo(1e-3, 12);
    expect(port.last).toMatchObject({ kind: "edits", drag: { members: [shoulder], by: 1e-3 } });
    expect(engine.state().texts.get(file)).toBe(text.replace("1.25*W + 2.2 mm", "1.25*W + 3.2 mm"));
    expect(engine.state().numbers[0]).toMatchObject({ text: "1.25*W + 3.2 mm", place: numbers[0]!.place });
    expect(engine.state().numbers[0]!.value).toBeCloseTo(33.2e-3, 12);
    expect(engine.state().gesture).toMatchObject({ address: shoulder, by: 1e-3 });
    engine.endGesture(drag);
    expect(port.last).toEqual({ kind: "release" });
    await settle();
    expect(server.texts.now(file)!.text).toBe(engine.state().texts.get(file));
    await engine.undo();
    expect([engine.state().texts.get(file), engine.state().canRedo]).toEqual([text, true]);
    expect(server.texts.depth).toEqual({ undo: 0, redo: 1 });
  });
  test("lays quick numbers over what was drawn, with what stood before for the carets, and tells what flips", async () => {
    const { engine, port, pairs } = await opened();
    const drag = engine.beginGesture(shoulder);
    engine.move(drag, 1e-3);
    port.say({ kind: "quick", seq: port.seq, by: 1e-3, pairs: [quick("p", "stops")] });
    expect(pairs()).toEqual([
      ["p", "quick", "stops", "feeds", 1],
      ["q", "drawn", "stops", "stops", 0],
    ]);
    const [p] = engine.state().pairs;
    expect(p!.result!.findings.map((f) => [f.check, f.verdict])).toEqual([
      ["c", "stops"],
      ["d", "feeds"],
    ]);
    expect(engine.state().changed).toMatchObject({
      what: [{ address: shoulder, before: "1.25*W + 2.2 mm", after: "1.25*W + 3.2 mm" }],
      worse: 2,
      better: 0,
      settled: false,
    });
  });
  test("that is given up puts everything back and is no step of undo", async () => {
    const { engine, server } = await opened();
    const drag = engine.beginGesture(shoulder);
    engine.move(drag, 1e-3);
    await settle();
    engine.endGesture(drag, false);
    await settle();
    expect([engine.state().texts.get(file), engine.state().canUndo, server.texts.now(file)!.text]).toEqual([
      text,
      false,
      text,
    ]);
  });
  test("of several numbers moves all of them", async () => {
    const { engine, shape } = await opened();
    shape([...numbers, numberOf("plover/film.guides.nip.radius", "5.0 mm")]);
    const drag = engine.beginGesture([shoulder, "plover/film.guides.nip.radius"]);
    engine.move(drag, 0.5e-3);
    expect(engine.state().texts.get(file)).toBe(
      text.replace("1.25*W + 2.2 mm", "1.25*W + 2.7 mm").replace("5.0 mm", "5.5 mm"),
    );
  });
});

describe("what a change moved", () => {
  test("is held against what stood before it, and is settled when everything is drawn", async () => {
    const { engine, port, read, shape, drawn, pairs } = await opened();
    engine.edit(file, ChangeSet.of({ from: 0, insert: "# a\n" }, text.length));
    read();
    shape(numbers);
    drawn("p", "depends", { final: false });
    expect(pairs()[0]).toEqual(["p", "quick", "depends", "feeds", 0]);
    drawn("p", "stops");
    drawn("q", "feeds");
    port.say({ kind: "rest", seq: port.seq });
    expect(engine.state().changed).toMatchObject({ worse: 2, better: 2, settled: true });
    expect(engine.state().changed!.flips[0]).toMatchObject({
      tape: "p",
      check: undefined,
      before: { verdict: "feeds" },
      after: { verdict: "stops" },
    });
  });
  test("before it was drawn by a change after it, counts from before both", async () => {
    const { engine, read, drawn, pairs } = await opened();
    engine.edit(file, ChangeSet.of({ from: 0, insert: "# a\n" }, text.length));
    read();
    drawn("p", "depends");
    engine.edit(file, ChangeSet.of({ from: 0, insert: "# b\n" }, text.length + 4));
    read();
    // p was drawn after the first change, q was not.
    expect(pairs().map(([tape, , , before]) => [tape, before])).toEqual([
      ["p", "depends"],
      ["q", "stops"],
    ]);
    drawn("p", "depends");
    drawn("q", "feeds");
    expect(engine.state().changed!.flips.map((f) => f.tape)).toEqual(["q", "q"]);
  });
  test("by numbers of a text that is not the last any more is shown as older", async () => {
    const { engine, port, drawn, pairs } = await opened();
    const seq = port.seq;
    engine.edit(file, ChangeSet.of({ from: 0, insert: "# a\n" }, text.length));
    drawn("p", "stops", { seq });
    expect(pairs()[0]!.slice(0, 3)).toEqual(["p", "older", "stops"]);
  });
});

describe("typing", () => {
  const answer = async (port: TestPort, errors: never[] | object[] = []) => {
    const { id } = port.last as { id: number };
    port.say({ kind: "answer", id, answer: { kind: "errors", errors: errors as never } });
    await settle();
  };
  test("a number asks first, and writes where nothing is wrong", async () => {
    const { engine, port } = await opened();
    const typed = engine.type(shoulder, " 30 mm ");
    expect(port.last).toMatchObject({ kind: "ask", question: { kind: "errors" } });
    expect(engine.state().texts.get(file)).toBe(text);
    await answer(port);
    expect([await typed, engine.state().texts.get(file)]).toEqual([[], text.replace("1.25*W + 2.2 mm", "30 mm")]);
  });
  test("writes nothing where it brings an error, and tells it; errors that were there before stop nobody", async () => {
    const { engine, port } = await opened();
    const [old, fresh] = ["old", "new"].map((found) => ({
      place: { file, line: 1, column: 1, length: 1 },
      found,
      expected: "y",
      hint: undefined,
      shown: "",
    }));
    port.say({ kind: "read", seq: port.seq, errors: [old!] });
    const typed = engine.type(shoulder, "30 N");
    await answer(port, [old!, fresh!]);
    expect([await typed, engine.state().texts.get(file)]).toEqual([[fresh], text]);
    const again = engine.type(shoulder, "30 mm");
    await answer(port, [old!]);
    expect([(await again).length, engine.state().texts.get(file)!.includes("30 mm")]).toEqual([0, true]);
  });
  test("for one width writes under `per width`", async () => {
    const { engine, port } = await opened();
    const typed = engine.writeForWidth(shoulder, 16);
    await answer(port);
    await typed;
    expect(engine.state().texts.get(file)).toContain("  16: {film.guides.shoulder.through.2: 1.25*W + 2.2 mm}\n");
  });
  test("goes beside what others wrote meanwhile, and not over it", async () => {
    const { engine, port, server } = await opened();
    const beside = engine.type(shoulder, "30 mm");
    server.outside(file, `# theirs\n${text}`);
    await answer(port);
    expect([(await beside).length, engine.state().texts.get(file)]).toEqual([
      0,
      `# theirs\n${text.replace("1.25*W + 2.2 mm", "30 mm")}`,
    ]);
    const over = await opened();
    const typed = over.engine.type(shoulder, "30 mm");
    over.server.outside(file, text.replace("1.25*W + 2.2 mm", "1.25*W + 9 mm"));
    await answer(over.port);
    expect((await typed).map((e) => e.found)).toEqual(["a line that has changed meanwhile"]);
    expect(over.engine.state().texts.get(file)).toContain("1.25*W + 9 mm");
  });
  test("a number that is not on screen is refused", async () => {
    const { engine } = await opened();
    await expect(engine.type("plover/nothing", "1 mm")).rejects.toThrow("there is no number plover/nothing on screen");
  });
});

test("from texts to verdicts: the whole engine on a few pairs of the example", async () => {
  const server = new MemoryServer(few, 1);
  const engine = createEngine(server, localDesk());
  const state = () => engine.state();
  const drawn = async () => {
    const end = performance.now() + 100_000;
    while (state().busy || state().pairs.length === 0 || state().pairs.some((p) => p.sharpness !== "drawn")) {
      if (performance.now() > end) throw new Error("it is never drawn");
      await new Promise((resolve) => setTimeout(resolve, 5));
    }
    await settle();
  };
  await drawn();
  const verdicts = () => state().pairs.map((p) => `${p.unit} ${p.tape} ${p.result!.verdict}`);
  const before = verdicts();
  expect(before).toEqual(["plover so8-12 feeds", "plover so20-24 stops", "dunlin so8-12 feeds"]);
  engine.look({ unit: "dunlin", tape: "so8-12" });
  while (!state().numbers.some((n) => n.address === "dunlin/nip.preload")) await settle();
  const { text: preload } = state().numbers.find((n) => n.address === "dunlin/nip.preload")!;
  // A preload of next to nothing pulls no film, and no record says that this unit runs.
  expect(await engine.type("dunlin/nip.preload", "0.6 ±0.1 N")).toEqual([]);
  await drawn();
  expect(verdicts()).toEqual(["plover so8-12 feeds", "plover so20-24 stops", "dunlin so8-12 stops"]);
  expect(state().changed).toMatchObject({
    what: [{ address: "dunlin/nip.preload", before: preload, after: "0.6 ±0.1 N" }],
    settled: true,
  });
  expect(state().changed!.flips.slice(0, 2)).toMatchObject([
    { unit: "dunlin", tape: "so8-12", check: undefined, worse: true },
    { unit: "dunlin", tape: "so8-12", check: "nip.pulls", worse: true },
  ]);
  expect((await engine.explain("dunlin", "so8-12", "nip.pulls"))!.value.symbol).toBe("S");
  await engine.undo();
  await drawn();
  expect(verdicts()).toEqual(before);
  expect(state().texts).toEqual(few);
  engine.close();
}, 900_000);

describe("what was found of all pairs", () => {
  const found = { rows: [], weights: new Float64Array(0), contradicted: [], known: [] };
  const asks = (port: TestPort) => port.posted.filter((m) => m.kind === "ask" && m.question.kind === "judged");
  const answer = (port: TestPort, judged?: typeof found) => {
    const asked = asks(port).at(-1) as Extract<ToDesk, { kind: "ask" }>;
    port.say({ kind: "answer", id: asked.id, answer: judged && { kind: "judged", judged } });
  };
  test("is there at rest, for these very texts alone", async () => {
    const { engine, port } = await opened();
    const asked = engine.judged(engine.state().texts);
    answer(port, found);
    expect(await asked).toBe(found);
    expect(await engine.judged(new Map(engine.state().texts))).toBeUndefined();
    expect(asks(port).length).toBe(1);
  });
  test("is waited for while pairs are being drawn, told how far, and is nothing once the texts are others", async () => {
    const { engine, port } = await opened();
    engine.edit(file, ChangeSet.of({ from: 0, insert: "# a\n" }, text.length));
    const told: string[] = [];
    const first = engine.judged(engine.state().texts, (done, of) => told.push(`${done} of ${of}`));
    expect(await engine.judged(engine.state().texts)).toBeUndefined();
    port.say({ kind: "progress", seq: port.seq, done: 1, of: 2 });
    await settle();
    expect([[...new Set(told)], asks(port)]).toEqual([["0 of 2", "1 of 2"], []]);
    port.say({ kind: "rest", seq: port.seq });
    await settle();
    answer(port, found);
    expect(await first).toBe(found);
    engine.edit(file, ChangeSet.of({ from: 0, insert: "# b\n" }, text.length + 4));
    const second = engine.judged(engine.state().texts, () => {});
    engine.edit(file, ChangeSet.of({ from: 0, insert: "# c\n" }, text.length + 8));
    await settle();
    expect(await second).toBeUndefined();
  });
  test("is not waited for where a fault of ours has ended the drawing", async () => {
    const { engine, port } = await opened();
    engine.edit(file, ChangeSet.of({ from: 0, insert: "# a\n" }, text.length));
    const asked = engine.judged(engine.state().texts, () => {});
    let isOver = false;
    void asked.then(() => {
      isOver = true;
    });
    // A desk beside has died, and the others go on: that is waited for.
    port.say({ kind: "fault", words: "a thread broke", goesOn: true });
    await settle();
    expect(isOver).toBe(false);
    port.say({ kind: "fault", words: "a model broke" });
    expect(await asked).toBeUndefined();
    expect(engine.state().troubles.map((t) => t.words)).toEqual([
      "A fault of ours, please report it: a thread broke",
      "A fault of ours, please report it: a model broke",
    ]);
  });
});
