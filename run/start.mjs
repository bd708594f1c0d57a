// npm start: the bundled example as a live page, from a copy of it that may be changed at will.
import { spawn } from "node:child_process";
import { cpSync, existsSync, mkdirSync, readdirSync, renameSync, rmSync } from "node:fs";
import { constants } from "node:os";
import { basename, join } from "node:path";
import { root, say, setUp } from "./setup.mjs";

async function start() {
  if (!setUp()) return 1;
  const example = exampleFolder();
  if (!example) {
    say("There is no example project in examples/.");
    return 2;
  }
  const copy = `build/${basename(example)}`;
  if (existsSync(join(root, copy, "project.yaml")))
    say(`Your copy of the example from before: ${copy} (delete it for a fresh one).`);
  else {
    copyWhole(join(root, example), join(root, copy));
    say(`A copy of the example, to change as you like: ${copy}`);
  }
  return open(copy);
}

/** A folder that is there is whole: it is copied beside and moved into its place. @param {string} from @param {string} to */
function copyWhole(from, to) {
  const beside = `${to}.${process.pid}.tmp`;
  mkdirSync(join(to, ".."), { recursive: true });
  cpSync(from, beside, { recursive: true, filter: (path) => basename(path) !== ".tapeworthy" });
  rmSync(to, { recursive: true, force: true });
  renameSync(beside, to);
}

/** Runs the server until it ends, and hands it what this process is told to do. @param {string} folder @returns {Promise<number>} */
function open(folder) {
  const server = spawn(
    process.execPath,
    ["packages/cli/bin/tapeworthy.mjs", "open", folder, ...process.argv.slice(2)],
    { cwd: root, stdio: "inherit" },
  );
  // A Ctrl-C reaches the server by itself; this process waits for it to write what there is to write.
  for (const signal of /** @type {const} */ (["SIGINT", "SIGTERM", "SIGHUP"]))
    process.on(signal, () => void (signal !== "SIGINT" && server.kill(signal)));
  return new Promise((resolve, reject) => {
    server.on("error", reject);
    server.on("exit", (code, signal) => resolve(code ?? 128 + (signal ? constants.signals[signal] : 0)));
  });
}

function exampleFolder() {
  try {
    const [first] = readdirSync(join(root, "examples"), { withFileTypes: true })
      .filter((entry) => entry.isDirectory())
      .map((entry) => `examples/${entry.name}`)
      .sort();
    return first;
  } catch {
    return undefined;
  }
}

process.exitCode = await start();
