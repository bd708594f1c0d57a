import { type ChildProcess, spawn } from "node:child_process";
import { cpSync, existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import { fileURLToPath } from "node:url";
import type { Page } from "playwright-core";
import { median } from "./measure.ts";

/** Milliseconds of each kind of work a step of a drag costs. */
export interface PageSteps {
  readonly steps: number;
  /** The page's own thread: its scripts, its styles and layout, its painting, and all it did. */
  readonly script: Spread;
  readonly layout: Spread;
  readonly paint: Spread;
  readonly busy: Spread;
  /** The desk's thread: quick numbers, the drawing, and slopes taken afresh while there is room. */
  readonly desk: Spread;
  /** From the pointer's move until the second frame after it is begun. */
  readonly twoFrames: Spread;
}
interface Spread {
  readonly median: number;
  readonly p95: number;
}
export type PageDrag =
  | { readonly skipped: string }
  | {
      readonly address: string;
      /** The page as it is, and the same page handed the same answers without computing them. */
      readonly asItIs: PageSteps;
      readonly computeOff: PageSteps;
      readonly chromium: string;
    };

const steps = 200;
const address = "plover/film.guides.shoulder.through.2";
const root = fileURLToPath(new URL("../../", import.meta.url));

/**
 * Put before the page's scripts: hands over to the desk's thread as ever and notes what it answers to a drag; when told to, answers a drag from
 * these notes and lets nothing be computed.
 */
const noting = `{
  const Thread = window.Worker;
  const notes = new Map();
  window.isComputeOff = false;
  window.Worker = class extends Thread {
    bySeq = new Map();
    addNotes = this.addEventListener("message", ({ data }) => {
      const by = this.bySeq.get(data.seq);
      if (by === undefined || (data.kind !== "quick" && data.kind !== "shape")) return;
      notes.set(by, { ...notes.get(by), [data.kind]: data });
    });
    held = [];
    postMessage(message, ...more) {
      const by = message.kind === "edits" && message.drag ? message.drag.by.toFixed(9) : undefined;
      const known = window.isComputeOff && by !== undefined ? notes.get(by) : undefined;
      if (!known) {
        // The desk's texts follow once the hand has let go.
        const held = message.kind === "release" || message.kind === "edits" ? this.held.splice(0) : [];
        if (held.length > 0)
          super.postMessage({ kind: "edits", seq: held.at(-1).seq, edits: held.flatMap(({ edits }) => edits) });
        if (by !== undefined) this.bySeq.set(message.seq, by);
        return super.postMessage(message, ...more);
      }
      this.held.push(message);
      window.handedOver = (window.handedOver ?? 0) + 1;
      for (const data of Object.values(known))
        this.dispatchEvent(new MessageEvent("message", { data: { ...data, seq: message.seq } }));
    }
  };
}`;

/** Two hundred steps of a drag on the example in a real browser, taken apart into what they cost; and again with compute switched off. */
export async function measureDragPage(): Promise<PageDrag> {
  const executablePath =
    process.env.CHROMIUM ?? ["/usr/bin/chromium", "/usr/bin/chromium-browser"].find((path) => existsSync(path));
  if (!executablePath) return { skipped: "no Chromium on this machine (set CHROMIUM to its path)" };
  const { chromium } = await import("playwright-core");
  const folder = mkdtempSync(join(tmpdir(), "tapeworthy-drag-"));
  cpSync(join(root, "examples/saltgrass"), folder, {
    recursive: true,
    filter: (path) => basename(path) !== ".tapeworthy",
  });
  const server = spawn(
    process.execPath,
    [join(root, "packages/cli/bin/tapeworthy.mjs"), "open", folder, "--no-browser"],
    {
      stdio: ["pipe", "pipe", "inherit"],
    },
  );
  const browser = await chromium.launch({ executablePath, args: ["--no-sandbox"] });
  try {
    const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
    await page.addInitScript(noting);
    await page.goto(await addressOf(server));
    await page.evaluate('location.hash = "#plover/so20-24/film.mismatch"');
    await settled(page);
    const traced = async (): Promise<PageSteps> => {
      await browser.startTracing(page, { categories: ["devtools.timeline", "blink.user_timing", "v8.execute"] });
      const twoFrames = await drag(page);
      const trace = JSON.parse((await browser.stopTracing()).toString()) as { traceEvents: TraceEvent[] };
      await page.keyboard.press("Control+z");
      await settled(page);
      return { ...perStep(trace.traceEvents), twoFrames: spread(twoFrames) };
    };
    await drag(page);
    await page.keyboard.press("Control+z");
    await settled(page);
    const asItIs = await traced();
    await page.evaluate("window.isComputeOff = true; window.handedOver = 0;");
    const computeOff = await traced();
    const handed = await page.evaluate<number>("window.handedOver");
    if (handed < steps / 2) throw new Error(`only ${handed} steps were answered from the notes`);
    return { address, asItIs, computeOff, chromium: browser.version() };
  } finally {
    await browser.close();
    server.removeAllListeners("exit");
    const ended = new Promise((done) => server.once("exit", done));
    server.kill();
    await ended;
    rmSync(folder, { recursive: true, force: true });
  }
}

function addressOf(server: ChildProcess): Promise<string> {
  return new Promise((done, fail) => {
    server.stdout!.on("data", (data: Buffer) => {
      const found = /http:\S+/.exec(`${data}`)?.[0];
      if (found) done(found);
    });
    server.on("exit", (code) => fail(new Error(`the server ended with ${code}`)));
  });
}
/** Waits until every number is drawn. */
async function settled(page: Page): Promise<void> {
  const isSettled = `document.querySelector(".things b")?.textContent === "all drawn" && !document.querySelector(".map .waiting, .map .older")`;
  for (let i = 0; i < 1200; i++) {
    if (await page.evaluate<boolean>(isSettled)) return;
    await page.waitForTimeout(100);
  }
  throw new Error("the page is not settled after two minutes");
}
/** Takes hold of the diamond and moves it out and back, a pixel a step; milliseconds from each move until two frames have begun. */
async function drag(page: Page): Promise<number[]> {
  const box = await page.locator(`.handle[data-address="${address}"]`).boundingBox();
  if (!box) throw new Error(`there is no diamond for ${address}`);
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let i = 1; i <= 8; i++) await page.mouse.move(x, y - i);
  await page.waitForTimeout(1500);
  const took: number[] = [];
  for (let i = 0; i < steps; i++) {
    const out = 8 + (i % 100 < 50 ? i % 50 : 50 - (i % 50));
    await page.evaluate(`performance.mark("step ${i}")`);
    const begun = performance.now();
    await page.mouse.move(x, y - out);
    await page.evaluate("new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))");
    took.push(performance.now() - begun);
  }
  await page.evaluate(`performance.mark("step ${steps}")`);
  await page.mouse.up();
  return took;
}

interface TraceEvent {
  readonly name: string;
  readonly cat: string;
  readonly ph: string;
  readonly pid: number;
  readonly tid: number;
  readonly ts: number;
  readonly dur?: number;
  readonly args?: { readonly name?: string };
}
const kinds: readonly (readonly ["script" | "layout" | "paint", RegExp])[] = [
  ["layout", /^(UpdateLayoutTree|Layout|RecalculateStyles|HitTest|ScheduleStyleRecalculation|IntersectionObserver.*)$/],
  ["paint", /^(PrePaint|Paint|PaintImage|Layerize|Commit|CompositeLayers|UpdateLayer|UpdateLayerTree|RasterTask)$/],
  [
    "script",
    /^(FunctionCall|EvaluateScript|EventDispatch|FireAnimationFrame|TimerFire|RunMicrotasks|HandlePostMessage|v8\..*|V8\..*|MinorGC|MajorGC|GCEvent|ParseHTML|SchedulePostMessage.*)$/,
  ],
];
type Work = { script: number; layout: number; paint: number; busy: number; desk: number };

/** Self times of the page's and the desk's thread, by step. */
function perStep(events: readonly TraceEvent[]): Omit<PageSteps, "twoFrames"> {
  const marks = events
    .filter(({ name, cat }) => cat.includes("blink.user_timing") && name.startsWith("step "))
    .sort((a, b) => a.ts - b.ts);
  const main = marks[0];
  if (!main) throw new Error("the trace holds no marks");
  const starts = [...new Map(marks.map((m) => [m.name, m.ts])).values()];
  const work: Work[] = Array.from({ length: steps }, () => ({ script: 0, layout: 0, paint: 0, busy: 0, desk: 0 }));
  const stepAt = (ts: number): Work | undefined => {
    let [low, high] = [0, starts.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (starts[middle]! <= ts) low = middle + 1;
      else high = middle;
    }
    return work[low - 1];
  };
  const deskThreads = new Set(
    events
      .filter((e) => e.name === "thread_name" && e.pid === main.pid && /Worker/.test(e.args?.name ?? ""))
      .map(({ tid }) => tid),
  );
  const threads = new Map<number, TraceEvent[]>();
  for (const e of events)
    if (e.ph === "X" && e.pid === main.pid && (e.tid === main.tid || deskThreads.has(e.tid)) && e.dur !== undefined)
      threads.set(e.tid, [...(threads.get(e.tid) ?? []), e]);
  for (const [tid, all] of threads) {
    all.sort((a, b) => a.ts - b.ts || b.dur! - a.dur!);
    const open: { readonly end: number; readonly event: TraceEvent; inner: number }[] = [];
    const close = (until: number): void => {
      while (open.length > 0 && open.at(-1)!.end <= until) {
        const { event, inner } = open.pop()!;
        const self = Math.max(0, event.dur! - inner) / 1e3;
        const step = stepAt(event.ts);
        if (!step) continue;
        if (tid !== main.tid) {
          step.desk += self;
          continue;
        }
        const kind = kinds.find(([, names]) => names.test(event.name))?.[0];
        if (kind) step[kind] += self;
        step.busy += self;
      }
    };
    for (const event of all) {
      // The task that holds all the others is no work of its own kind.
      if (event.name === "RunTask" || event.name.startsWith("ThreadControllerImpl")) continue;
      close(event.ts);
      const above = open.at(-1);
      if (above) above.inner += event.dur!;
      open.push({ end: event.ts + event.dur!, event, inner: 0 });
    }
    close(Number.POSITIVE_INFINITY);
  }
  const of = (kind: keyof Work): Spread => spread(work.map((w) => w[kind]));
  return {
    steps,
    script: of("script"),
    layout: of("layout"),
    paint: of("paint"),
    busy: of("busy"),
    desk: of("desk"),
  };
}
const spread = (x: readonly number[]): Spread => ({
  median: round(median(x)),
  p95: round([...x].sort((a, b) => a - b)[Math.floor(0.95 * x.length)]!),
});
const round = (ms: number): number => Number(ms.toFixed(2));
