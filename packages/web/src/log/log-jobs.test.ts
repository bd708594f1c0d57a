import { describe, expect, test } from "vitest";
import { aboutTrial, benchBytes, benchFile, done, fileOf, freshTrial } from "./log.fixture.ts";
import { LogJobs } from "./log-jobs.ts";
import { LogPort, type LogThread } from "./log-port.ts";
import type { FromLog, ToLog } from "./log-protocol.ts";

/** The worker's own work without a worker: messages are copied and come in turn, as between threads. Every look for messages finds some. */
const thread = (): LogThread & { readonly posted: FromLog[] } => {
  let heard: (message: FromLog) => void = () => {};
  const posted: FromLog[] = [];
  let time = 0;
  const later = (f: () => void): void => void setImmediate(f);
  const jobs = new LogJobs(
    (message) => {
      posted.push(message);
      later(() => heard(structuredClone(message)));
    },
    { now: () => (time += 100), turn: () => new Promise((resolve) => later(() => later(resolve))) },
  );
  return {
    posted,
    post(message: ToLog) {
      // Files are handed over as they are; node copies none.
      const copy = "do" in message && message.do === "read" ? message : structuredClone(message);
      later(() => jobs.hear(copy));
    },
    hear(f) {
      heard = f;
    },
    close() {},
  };
};
const long = fileOf(
  "long.csv",
  `film [mm],pull [N]\n${Array.from({ length: 100_000 }, (_, i) => `${i / 2},${2 + (i % 13) / 8}\n`).join("")}`,
);
const opened = async (port: LogPort) =>
  done(await port.open("bench/T-03/raw.parquet", benchBytes("T-03/raw.parquet"), aboutTrial("T-03"), 1, 200));

describe("work at logs", () => {
  test("crosses to another thread and back: read, mapped, planned, opened, settled", async () => {
    const port = new LogPort(thread);
    const about = freshTrial(["T-03"]);
    expect(done(await port.read(benchFile("T-03-A.csv"), about)).rows).toBe(421);
    const result = done(await port.map([], {}, 100));
    expect(result.what.kind === "trace" && result.what.summary.mean).toBeCloseTo(3.58093, 5);
    const plan = done(await port.plan({ date: "2026-11-28" }, about));
    expect(plan.files[0]!.bytes.subarray(0, 4)).toEqual(Uint8Array.from([80, 65, 82, 49]));
    expect((await opened(port)).run).toBe(1);
    expect(done(await port.plateau(0.05, 0.15)).plateau).toEqual([0.05, 0.15]);
    expect(done(await port.lanes(0, 0.2, 100))).toHaveLength(1);
    expect(done(await port.settle(0.05, 0.15, aboutTrial("T-03"))).text).toContain("plateau: [50 mm, 150 mm]");
  });
  test("that was stopped says so, and what is asked afterwards is answered", async () => {
    const port = new LogPort(thread);
    let told = 0;
    const reading = port.read(long, freshTrial(), {}, () => {
      told++;
      port.stop();
    });
    expect(await reading).toEqual({ stopped: true });
    expect(told).toBeLessThan(5);
    expect(await port.map([], {}, 100)).toEqual({ why: "No log has been read. Read one first." });
    expect(done(await port.read(benchFile("T-03-B.csv"), freshTrial())).rows).toBe(421);
  });
  test("of a log ends where another one is chosen, which is read whole", async () => {
    const port = new LogPort(thread);
    const [first, second] = await Promise.all([
      port.read(long, freshTrial()),
      port.read(benchFile("T-03-B.csv"), freshTrial()),
    ]);
    expect(first).toEqual({ stopped: true });
    expect(done(second).file).toBe("T-03-B.csv");
    expect(done(await port.map([], {}, 100)).columns.map((c) => c.column)).toEqual(["film", "pull"]);
  });
  test("at flags that move fast works at the first and the last place, so that figures come while the hand moves", async () => {
    const port = new LogPort(thread);
    await opened(port);
    const places = Array.from({ length: 40 }, (_, i) => 0.03 + i / 1000);
    const all = await Promise.all(places.map((from) => port.plateau(from, 0.2)));
    const answered = places.filter((_, i) => "done" in all[i]!);
    expect(answered).toEqual([places[0], places.at(-1)]);
    expect(all.filter((o) => "stopped" in o)).toHaveLength(38);
  });
  test("at flags that move slowly answers every place", async () => {
    const port = new LogPort(thread);
    await opened(port);
    for (const from of [0.03, 0.04, 0.05]) expect(done(await port.plateau(from, 0.2)).plateau[0]).toBe(from);
  });
  test("that writes into a trial is not overtaken by flags that move on", async () => {
    const port = new LogPort(thread);
    await opened(port);
    const [settled] = await Promise.all([
      port.settle(0.05, 0.15, aboutTrial("T-03")),
      port.plateau(0.06, 0.15),
      port.plateau(0.07, 0.15),
    ]);
    expect(done(settled).text).toContain("plateau: [50 mm, 150 mm]");
  });
  test("that meets a fault of ours rejects for that call alone, and goes on", async () => {
    const port = new LogPort(thread);
    const broken = { name: "x.csv", size: 10, slice: () => null } as unknown as File;
    await expect(port.read(broken, freshTrial())).rejects.toThrow("please report this with the log");
    expect(done(await port.read(benchFile("T-03-B.csv"), freshTrial())).rows).toBe(421);
  });
  test("under way when the page goes is stopped", async () => {
    const port = new LogPort(thread);
    const reading = port.read(long, freshTrial());
    port.close();
    expect(await reading).toEqual({ stopped: true });
  });
});
