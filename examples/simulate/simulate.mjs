// npm run simulate: the bench of the example. Nobody measured any of it: truths are chosen here, instruments are drawn from a seed.
// Writes examples/saltgrass/bench and ledger.yaml anew: predictions frozen, logs read in, scores. The program must be built.
//
//   T-01  thickness of a carrier that the catalogue knows only up to 0.4 mm: narrows a guess, a cell feeds
//   T-02  three units, four reels each, count their indexes: the loop never spilt, cells move
//   T-03  pull on the film of a 24 mm tape, four times what the model says: contradicts it
import { spawnSync } from "node:child_process";
import { mkdirSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const here = dirname(fileURLToPath(import.meta.url));
const seed = 20261116;
const [folder = join(here, "..", "saltgrass"), program = join(here, "../../packages/cli/bin/tapeworthy.mjs")] =
  process.argv.slice(2);
const bench = join(folder, "bench");
const simulated = "Simulated by examples/simulate/simulate.mjs: nobody measured this.";

/** Uniform in [0, 1): a 32-bit counter, mixed. @param {number} state */
function uniform(state) {
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}
const random = uniform(seed);
/** One standard normal number (Box and Muller). */
const normal = () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
/** @param {number} v @param {number} places */
const comma = (v, places) => v.toFixed(places).replace(".", ",");

/** Micrometer readings of the flange: semicolons, decimal commas, a row of units. */
function thickness() {
  const truth = 0.252;
  const lines = [`# ${simulated}`, "no;reel;thickness;by", ";;mm;"];
  let no = 1;
  for (const reel of ["A", "B", "C", "D", "E"]) {
    const ofReel = truth * Math.exp(0.02 * normal());
    for (let k = 0; k < 4; k++) lines.push(`${no++};${reel};${comma(ofReel + 0.002 * normal(), 3)};mk`);
  }
  return lines.join("\r\n");
}
/** Counted indexes: tabs, a blank between thousands. */
function counts() {
  const lines = [`# ${simulated}`, "# place: rail 2", "built unit\treel\tindexes\tmisfeeds\tmode"];
  for (const unit of ["D1", "D2", "D3"])
    for (const reel of ["1", "2", "3", "4"]) {
      const n = 2100 + Math.floor(120 * random());
      const missed = unit === "D2" && reel === "3" ? 1 : 0;
      lines.push(
        `${unit}\t${reel}\t${Math.floor(n / 1000)} ${String(n % 1000).padStart(3, "0")}\t${missed}\t${missed ? "pick.radius" : ""}`,
      );
    }
  return `${lines.join("\n")}\n`;
}
/** Pull on the film over 210 mm of it, N, at each half millimetre: a mean of the reel, ripple with the pockets, noise; 20 mm of start. @param {number} mean */
function pull(mean) {
  const ofReel = mean * Math.exp(0.08 * normal());
  return Array.from({ length: 421 }, (_, i) => {
    const s = i * 0.5;
    const start = Math.min(1, s / 12);
    const ripple = 1 + 0.1 * Math.sin((2 * Math.PI * s) / 12) + 0.04 * normal();
    return { s, F: start * ofReel * ripple };
  });
}
/** @param {ReturnType<typeof pull>} trace @param {string} reel */
const semicolons = (trace, reel) =>
  [
    `# ${simulated}`,
    `Reel;${reel}`,
    "film;pull",
    "mm;cN",
    ...trace.map(({ s, F }) => `${comma(s, 1)};${comma(100 * F, 1)}`),
  ].join("\n");
/** @param {ReturnType<typeof pull>} trace @param {string} reel */
const commas = (trace, reel) =>
  [
    `# ${simulated}`,
    `# reel ${reel}`,
    "film [mm],pull [gf]",
    ...trace.map(({ s, F }, i) => `${s.toFixed(1)},${i === 200 ? "n/a" : ((1000 * F) / 9.80665).toFixed(1)}`),
  ].join("\r\n");
/** @param {ReturnType<typeof pull>} trace @param {string} reel */
const tabs = (trace, reel) =>
  [
    `# ${simulated}`,
    `# reel ${reel}; the cell was mounted the other way round`,
    "film/mm\tpull/N",
    ...trace.map(({ s, F }) => `${s.toFixed(1)}\t${(-F).toFixed(3)}`),
  ].join("\n");

/** @param {string[]} args */
function tapeworthy(...args) {
  const done = spawnSync(process.execPath, [program, ...args], {
    stdio: ["ignore", "pipe", "inherit"],
    encoding: "utf8",
  });
  if (done.status !== 0) throw new Error(`tapeworthy ${args.join(" ")} ended with ${done.status}`);
  process.stdout.write(done.stdout);
}
/** @param {string} name @param {string} text */
const log = (name, text) => {
  const path = join(bench, name);
  writeFileSync(path, text);
  return path;
};
/** @param {{trial: string, unit: string, tape: string, question: string, built: string, date: string, conditions: string}} head */
function begin({ trial, unit, tape, question, built, date, conditions }) {
  const lines = [
    `# ${simulated}`,
    "format: 1",
    `trial: ${trial}`,
    `unit: ${unit}`,
    `tape: ${tape}`,
    `question: ${question}`,
    `built: ${built}`,
    `date: ${date}`,
    `conditions: ${conditions}`,
  ];
  writeFileSync(join(bench, `${trial}.yaml`), `${lines.join("\n")}\n`);
}

rmSync(bench, { recursive: true, force: true });
mkdirSync(bench, { recursive: true });
writeFileSync(
  join(folder, "ledger.yaml"),
  "# Predictions frozen before their trials, and how they came out. The trials are simulated: examples/simulate.\n",
);

begin({
  trial: "T-01",
  unit: "dunlin",
  tape: "dpak-16",
  question: "tapes/dpak-16/T",
  built: "nothing; five reels from the shelf",
  date: "2026-11-18",
  conditions: "{temperature: 22 degC}",
});
begin({
  trial: "T-02",
  unit: "dunlin",
  tape: "radio-44",
  question: "reel.jerks",
  built: "three whole units",
  date: "2026-11-20",
  conditions: "{temperature: 23 degC, humidity: 41 %, speed: 80 mm/s}",
});
begin({
  trial: "T-03",
  unit: "dunlin",
  tape: "so20-24",
  question: "film.pull",
  built: "peel edge, film route and nip, turned by a crank; no sprocket",
  date: "2026-11-24",
  conditions: "{temperature: 23 degC, speed: 80 mm/s}",
});
for (const trial of ["T-01", "T-02", "T-03"]) tapeworthy("freeze", folder, trial, "--date", "2026-11-16");
tapeworthy(
  "read",
  folder,
  log("T-01.csv", thickness()),
  "--trial",
  "T-01",
  "--date",
  "2026-11-18",
  "--map",
  "thickness=value mm",
);
tapeworthy(
  "read",
  folder,
  log("T-02.csv", counts()),
  "--trial",
  "T-02",
  "--date",
  "2026-11-20",
  "--map",
  "built unit=unit",
);
for (const [reel, write, map] of /** @type {const} */ ([
  ["A", semicolons, []],
  ["B", commas, []],
  ["C", tabs, ["--map", "pull=force N, reversed"]],
]))
  tapeworthy(
    "read",
    folder,
    log(`T-03-${reel}.csv`, write(pull(3.9), reel)),
    "--trial",
    "T-03",
    "--reel",
    reel,
    "--date",
    "2026-11-24",
    ...map,
  );
tapeworthy("score", folder, "--date", "2026-11-25");
