import { LogPort } from "./log-port.ts";
import type { TrialAbout } from "./log-protocol.ts";

/** What a page with a log of many rows has to tell: what came out, how long each step took, and the longest time in which the page could do nothing, ms. */
export interface Told {
  readonly rows: number;
  readonly bytes: number;
  readonly means: readonly number[];
  readonly points: number;
  readonly kept: number;
  readonly steps: Readonly<Record<string, { readonly took: number; readonly longest: number; readonly turns: number }>>;
  readonly stopped: boolean;
  readonly progress: number;
}

/** Reads, maps, keeps and opens a log of so many rows in a page. */
async function tried(about: TrialAbout, rows: number): Promise<Told> {
  const parts: string[] = ["time [s],film [mm],pull [N]\n"];
  for (let at = 0; at < rows; at += 1000) {
    let text = "";
    for (let i = at; i < Math.min(rows, at + 1000); i++)
      text += `${(i / 2000).toFixed(4)},${(i / 250).toFixed(3)},${(2 + 0.3 * Math.sin(i / 700) + (i % 17) / 100).toFixed(3)}\n`;
    parts.push(text);
  }
  const file = new File(parts, "many.csv");
  const port = new LogPort();
  const steps: Record<string, { took: number; longest: number; turns: number }> = {};
  const timed = async <T>(name: string, act: () => Promise<T>): Promise<T> => {
    const began = performance.now();
    let [last, longest, turns, isOver] = [began, 0, 0, false];
    const tick = (): void => {
      const now = performance.now();
      longest = Math.max(longest, now - last);
      last = now;
      turns++;
      if (!isOver) setTimeout(tick, 0);
    };
    setTimeout(tick, 0);
    try {
      return await act();
    } finally {
      isOver = true;
      tick();
      steps[name] = { took: performance.now() - began, longest, turns };
    }
  };
  const done = <T>(outcome: object): T => {
    if (!("done" in outcome)) throw new Error(JSON.stringify(outcome));
    return outcome.done as T;
  };
  let progress = 0;
  const count = (): void => {
    progress++;
  };
  const reading = port.read(file, about, {}, () => port.stop());
  const stopped = "stopped" in (await reading);
  const look = done<{ rows: number; bytes: number }>(await timed("read", () => port.read(file, about, {}, count)));
  const result = done<{ what: { summary: { mean: number }; lanes: { trace: { x: Float64Array } }[] } }>(
    await timed("map", () => port.map([], {}, 1000)),
  );
  const moved = done<{ summary: { mean: number } }>(
    await timed("plateau", async () => {
      // A hand that moves for half a second: figures are asked for with every frame.
      const all: Promise<object>[] = [];
      for (let i = 0; i < 30; i++) {
        all.push(port.plateau(0.1 + i / 1000, (rows - 1) / 250_000 - 0.1));
        await new Promise((resolve) => setTimeout(resolve, 16));
      }
      const answers = await Promise.all(all);
      steps["of these answered"] = { took: answers.filter((a) => "done" in a).length, longest: 0, turns: 0 };
      return answers.at(-1)!;
    }),
  );
  const plan = done<{ raw: string; files: { bytes: Uint8Array }[]; edit: { file: string; text: string } }>(
    await timed("plan", () => port.plan({ date: "2026-11-28" }, about)),
  );
  const bytes = plan.files[0]!.bytes;
  const texts = [...about.texts, [plan.edit.file, plan.edit.text] as const];
  const opened = done<{ summary: { mean: number } }>(
    await timed("open", () => port.open(plan.raw, bytes, { texts, trial: about.trial }, 1, 1000)),
  );
  port.close();
  return {
    rows: look.rows,
    bytes: look.bytes,
    means: [result.what.summary.mean, moved.summary.mean, opened.summary.mean],
    points: result.what.lanes[0]!.trace.x.length,
    kept: bytes.length,
    steps,
    stopped,
    progress,
  };
}
(window as unknown as { tried: typeof tried }).tried = tried;
