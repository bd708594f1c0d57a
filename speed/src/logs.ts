import { spawnSync } from "node:child_process";
import { closeSync, mkdtempSync, openSync, readFileSync, readSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { finished, indexesByNumber, indexStatistics, type Steps } from "@tapeworthy/core";
import { guessedMapping, imported, type Log, LogReader, openRaw, rawOf } from "@tapeworthy/project";
import { csvParseRows } from "d3-dsv";
import { type Measured, machine, median } from "./measure.ts";

const rows = 1_000_000;
const indexes = 5000;
const rounds = 5;

/** A log of a million rows, 36 MB, in chunks as a file gives them; the numbers depend on the seed. */
function* chunksOf(seed: number): Generator<Uint8Array> {
  const size = 1 << 18;
  let out = new Uint8Array(size + 100);
  let at = 0;
  let state = seed * 2654435761 + 1;
  const random = (): number => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state;
  };
  const text = (t: string): void => {
    for (let i = 0; i < t.length; i++) out[at++] = t.charCodeAt(i);
  };
  /** `value` over 10^places, with all of its places. */
  const fixed = (value: number, places: number): void => {
    let scale = 10 ** places;
    while (scale * 10 <= value) scale *= 10;
    for (let left = scale, digit = Math.round(Math.log10(scale)); left >= 1; left /= 10, digit--) {
      out[at++] = 48 + (Math.floor(value / left) % 10);
      if (digit === places && places > 0) out[at++] = 46;
    }
  };
  text("t_s,index,force_N,current_A,pos_mm\n");
  for (let i = 0; i < rows; i++) {
    fixed(i, 3);
    out[at++] = 44;
    fixed(Math.floor((i * indexes) / rows), 0);
    out[at++] = 44;
    fixed(5000 + (random() >>> 22), 4);
    out[at++] = 44;
    fixed(2000 + (random() >>> 23), 4);
    out[at++] = 44;
    fixed(20 * i, 3);
    out[at++] = 10;
    if (at < size) continue;
    yield out.subarray(0, at);
    out = new Uint8Array(size + 100);
    at = 0;
  }
  yield out.subarray(0, at);
}

/** Runs steps to their end and notes how long each took. */
function paced<T>(steps: Steps<T>, times: number[]): T {
  for (;;) {
    const begun = performance.now();
    const step = steps.next();
    times.push(performance.now() - begun);
    if (step.done) return step.value;
  }
}
function readFrom(file: string, chunks: Iterable<Uint8Array>, times: number[] = []): Log {
  const reader = new LogReader(file);
  for (const chunk of chunks) paced(reader.take(chunk), times);
  const { log, errors } = paced(reader.end(), times);
  if (!log) throw new Error(errors[0]?.message);
  return log;
}
function* chunksOfFile(path: string): Generator<Uint8Array> {
  const handle = openSync(path, "r");
  try {
    for (;;) {
      const chunk = new Uint8Array(1 << 18);
      const n = readSync(handle, chunk);
      if (n === 0) return;
      yield chunk.subarray(0, n);
    }
  } finally {
    closeSync(handle);
  }
}
const rawMeta = (log: Log) => ({
  source: log.file,
  sha: "0".repeat(64),
  read: "2026-03-01",
  mapping: guessedMapping(log),
  marks: [],
});
const column = (log: Log, name: string): Float64Array => {
  const c = log.columns.find((one) => one.name === name);
  if (c?.kind !== "number") throw new Error(`no column ${name}`);
  return c.values;
};
const seconds = async (f: () => unknown): Promise<number> => {
  const begun = process.hrtime.bigint();
  await f();
  return Number(process.hrtime.bigint() - begun) / 1e9;
};

/** Many logs one after another, as a bench that has run for a month: read, worked out, kept, let go. What memory that takes at its most. */
function many(count: number): { seconds: number; rss: number[]; peak: number; times: number[] } {
  const folder = mkdtempSync(join(tmpdir(), "logs-"));
  const times: number[] = [];
  const rss: number[] = [];
  const begun = performance.now();
  try {
    for (let i = 0; i < count; i++) {
      const log = readFrom(`run-${i}.csv`, chunksOf(i), times);
      const mapping = guessedMapping(log);
      const { imported: done } = paced(imported(log, mapping, { P1: 0.004, P0: 0.004 }), []);
      if (done?.what.kind !== "trace" || done.what.by.mean.length !== indexes)
        throw new Error("not every index was found");
      writeFileSync(join(folder, "raw.parquet"), paced(rawOf(log, rawMeta(log)), []));
      rss.push(process.memoryUsage().rss / 1e6);
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  return { seconds: (performance.now() - begun) / 1e3, rss, peak: process.resourceUsage().maxRSS / 1e3, times };
}

interface Database {
  run(sql: string): Promise<unknown>;
  all(sql: string): Promise<unknown[][]>;
  close(): void;
}
/** The database that is measured beside us; a sentence where it is not installed. */
async function database(): Promise<Database | string> {
  try {
    const { DuckDBInstance } = await import("@duckdb/node-api");
    const instance = await DuckDBInstance.create(":memory:", { threads: "1" });
    const connection = await instance.connect();
    return {
      run: (sql) => connection.run(sql),
      all: async (sql) => (await connection.runAndReadAll(sql)).getRows() as unknown[][],
      close: () => connection.closeSync(),
    };
  } catch (e) {
    return `DuckDB skipped: ${e instanceof Error ? e.message.split("\n")[0] : e}`;
  }
}

/** `npm run speed -- logs`: a log of a million rows by us, by d3-dsv and by DuckDB, in turn; then fifty logs (`--logs N`) in a process of their own. */
export async function measureLogs(): Promise<Measured> {
  const flag = process.argv.indexOf("--logs");
  const count = flag < 0 ? 50 : Number(process.argv[flag + 1]);
  if (!Number.isInteger(count) || count < 1) throw new RangeError("--logs wants a number of logs");
  if (process.argv.includes("--alone")) {
    const { times: all, ...rest } = many(count);
    const times = all.sort((a, b) => a - b);
    const share = (p: number): number => times[Math.floor(p * (times.length - 1))]!;
    const piece = { median: share(0.5), p99: share(0.99), p999: share(0.999), longest: share(1) };
    return {
      name: "logs alone",
      ratio: 1,
      against: "itself",
      ours: rest.seconds,
      theirs: rest.seconds,
      spread: 0,
      machine: machine(),
      ...rest,
      piece,
    };
  }
  const folder = mkdtempSync(join(tmpdir(), "logs-"));
  const path = join(folder, "log.csv");
  const [parquet, other] = [join(folder, "ours.parquet"), join(folder, "theirs.parquet")];
  try {
    const handle = openSync(path, "w");
    for (const chunk of chunksOf(1)) writeFileSync(handle, chunk);
    closeSync(handle);
    const size = statSync(path).size;
    const db = await database();
    const t: Record<string, number[]> = {};
    const note = (what: string, s: number): void => {
      t[what] = [...(t[what] ?? []), s];
    };
    let log = readFrom("log.csv", chunksOfFile(path));
    const sums: number[] = [];
    for (let round = -1; round < rounds; round++) {
      const keep = round < 0 ? (_: string, __: number) => undefined : note;
      keep("parse ours", await seconds(() => (log = readFrom("log.csv", chunksOfFile(path)))));
      let cells: string[][] = [];
      const texts = await seconds(() => (cells = csvParseRows(readFileSync(path, "utf8"))));
      keep("parse d3 texts", texts);
      const numbers = await seconds(() => {
        const columns = [0, 1, 2, 3, 4].map(() => new Float64Array(cells.length - 1));
        for (let i = 1; i < cells.length; i++) for (let c = 0; c < 5; c++) columns[c]![i - 1] = +cells[i]![c]!;
        sums.push(columns[2]!.reduce((a, b) => a + b, 0));
      });
      keep("parse d3 numbers", texts + numbers);
      cells = [];
      keep("write ours", await seconds(() => writeFileSync(parquet, finished(rawOf(log, rawMeta(log))))));
      const { raw } = openRaw("ours.parquet", readFileSync(parquet));
      keep(
        "column ours",
        await seconds(async () => {
          const back = await openRaw("ours.parquet", readFileSync(parquet)).raw!.column("force");
          if (back.kind !== "number" || back.values.length !== rows) throw new Error("the column did not come back");
        }),
      );
      if (!raw) throw new Error("the file can't be opened");
      keep(
        "statistics ours",
        await seconds(() =>
          finished(indexStatistics(column(log, "force"), finished(indexesByNumber(column(log, "index"))))),
        ),
      );
      if (typeof db === "string") continue;
      await db.run("drop table if exists s");
      keep("parse theirs", await seconds(() => db.run(`create table s as select * from read_csv('${path}')`)));
      keep("write theirs", await seconds(() => db.run(`copy s to '${other}' (format parquet, compression snappy)`)));
      keep("column theirs", await seconds(() => db.all(`select force_N from '${other}'`)));
      keep("column theirs, summed there", await seconds(() => db.all(`select sum(force_N) from '${other}'`)));
      keep(
        "statistics theirs",
        await seconds(() =>
          db.all(
            'select "index", count(*), avg(force_N), stddev_samp(force_N), max(force_N), min(force_N) from s group by 1 order by 1',
          ),
        ),
      );
    }
    // They must agree on the same bytes: with d3 on every number, with the database on our own file and on every index.
    const ours = column(log, "force").reduce((a, b) => a + b, 0);
    if (sums.some((s) => s !== ours)) throw new Error("the parsers disagree");
    let agreed = "sum of the force equal to d3-dsv's to the last bit";
    if (typeof db !== "string") {
      const [[n, sum] = []] = await db.all(`select count(*), sum(force) from '${parquet}'`);
      if (Number(n) !== rows || Math.abs(Number(sum) / ours - 1) > 1e-12)
        throw new Error("DuckDB reads another sum out of our file");
      const theirs = await db.all(
        'select avg(force_N), stddev_samp(force_N), max(force_N) from s group by "index" order by "index"',
      );
      const by = finished(indexStatistics(column(log, "force"), finished(indexesByNumber(column(log, "index")))));
      let worst = 0;
      for (const [i, [mean, sd, greatest]] of theirs.entries())
        worst = Math.max(
          worst,
          Math.abs(by.mean[i]! - Number(mean)),
          Math.abs(by.sd[i]! - Number(sd)),
          Math.abs(by.greatest[i]! - Number(greatest)),
        );
      if (theirs.length !== indexes || worst > 1e-11) throw new Error(`the statistics of an index differ by ${worst}`);
      agreed += `; DuckDB reads our Parquet file to the same sum, and ${indexes} means, deviations and maxima agree within ${worst.toExponential(0)} N`;
      db.close();
    }
    const m = (what: string): string =>
      t[what] ? `${median(t[what]).toFixed(what.startsWith("stat") || what.startsWith("column") ? 3 : 2)} s` : "-";
    const ratios = t["parse ours"]!.map((v, i) => v / t["parse d3 numbers"]![i]!);
    const sorted = [...ratios].sort((a, b) => a - b);
    const mb = (p: string): string => `${(statSync(p).size / 1e6).toFixed(1)} MB`;
    const child = spawnSync(
      process.execPath,
      [fileURLToPath(new URL("./main.js", import.meta.url)), "logs", "--alone", "--logs", `${count}`, "--json"],
      {
        encoding: "utf8",
        maxBuffer: 1 << 26,
      },
    );
    if (child.status !== 0) throw new Error(`the logs one after another: ${child.stderr}`);
    const run = JSON.parse(child.stdout) as {
      seconds: number;
      rss: number[];
      peak: number;
      piece: Record<string, number>;
    };
    const at = [1, 5, 10, 20, count].filter((n, i, all) => n <= count && all.indexOf(n) === i);
    return {
      name: "logs",
      ours: median(t["parse ours"]!),
      theirs: median(t["parse d3 numbers"]!),
      ratio: median(ratios),
      against: `d3-dsv's rows as numbers, ${rows} rows of 5 columns, ${(size / 1e6).toFixed(0)} MB`,
      spread: (sorted.at(-1)! - sorted[0]!) / median(ratios),
      machine: machine(),
      medians: Object.fromEntries(Object.entries(t).map(([k, v]) => [k, median(v)])),
      logs: { count, ...run },
      lines: [
        `parse to typed columns: ours ${m("parse ours")}, d3-dsv ${m("parse d3 texts")} to texts and ${m("parse d3 numbers")} to numbers, DuckDB ${m("parse theirs")} (one thread)`,
        `Parquet: ours ${m("write ours")}, ${mb(parquet)}; DuckDB ${m("write theirs")}${typeof db === "string" ? "" : `, ${mb(other)}`} (snappy both)`,
        `one column back: ours ${m("column ours")}, DuckDB ${m("column theirs")} as rows, ${m("column theirs, summed there")} where only its sum leaves it`,
        `${indexes} indexes: ours ${m("statistics ours")}, DuckDB ${m("statistics theirs")}`,
        agreed,
        `longest piece of reading between two pauses: ${run.piece.longest!.toFixed(1)} ms; 999 of 1000 within ${run.piece.p999!.toFixed(1)} ms, 99 of 100 within ${run.piece.p99!.toFixed(1)} ms`,
        `${count} logs one after another, made, read, worked out, kept: ${run.seconds.toFixed(0)} s; peak memory ${run.peak.toFixed(0)} MB; after ${at.map((n) => `${n}: ${run.rss[n - 1]!.toFixed(0)}`).join(", ")} MB`,
        ...(typeof db === "string" ? [db] : []),
      ],
    };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
