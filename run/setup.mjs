// Makes a checkout ready to run: the libraries the lock file names, then the build. Needs only Node itself.
// All it says goes to stderr, so that a command's --json output stays alone on stdout.
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { constants } from "node:os";
import { fileURLToPath } from "node:url";
import { ensurePage } from "./page.mjs";

export const root = fileURLToPath(new URL("..", import.meta.url));

const lockFile = new URL("../package-lock.json", import.meta.url);
const installed = new URL("../node_modules/.tapeworthy-lock", import.meta.url);
const installedByNpm = new URL("../node_modules/.package-lock.json", import.meta.url);

/** Libraries, then build; true when both are ready. */
export function setUp() {
  return ensureLibraries() && ensureBuild();
}

/** Runs `npm ci` when the lock file is not the one last installed. */
export function ensureLibraries() {
  const lock = readFileSync(lockFile, "utf8");
  const wanted = createHash("sha256").update(lock).digest("hex");
  if (existsSync(installed)) {
    if (readFileSync(installed, "utf8") === wanted) return true;
  } else if (npmInstalled(lock)) {
    writeFileSync(installed, wanted);
    return true;
  }
  say("Installing libraries (once, about a minute)...");
  if (!quietly(...npmCommand("ci", "--no-audit", "--no-fund", "--loglevel=error"))) return false;
  writeFileSync(installed, wanted);
  return true;
}

/** Compiles what changed, which is also the type check of sources and tests, and makes the page where it is not up to date. */
export function ensureBuild() {
  say("Checking types and building...");
  if (!quietly(process.execPath, ["node_modules/typescript/lib/tsc.js", "-b"])) return false;
  return ensurePage(root, () =>
    quietly(process.execPath, ["node_modules/vite/bin/vite.js", "build", "packages/web", "--logLevel", "warn"]),
  );
}

/**
 * Runs Node in the foreground and returns its exit code; ended by a signal, 128 and the signal's number, as shells do.
 * @param {string[]} args
 */
export function runNode(...args) {
  const { status, signal, error } = spawnSync(process.execPath, args, { cwd: root, stdio: "inherit" });
  if (error) throw error;
  return status ?? 128 + (signal ? constants.signals[signal] : 0);
}

/** @param {string} line */
export function say(line) {
  process.stderr.write(`${line}\n`);
}

/**
 * Runs a command and shows its output only when it fails.
 * @param {string} command
 * @param {string[]} args
 * @param {{ shell?: boolean }} [options]
 */
function quietly(command, args, options) {
  const { status, error, stdout, stderr } = spawnSync(command, args, { ...options, cwd: root, encoding: "utf8" });
  if (status === 0) return true;
  process.stderr.write(`${stdout ?? ""}${stderr ?? ""}`);
  if (error) say(`${command}: ${error.message}`);
  return false;
}

/**
 * The npm that started us, else the one on the path, which on Windows is a script that needs a shell.
 * @param {string[]} args
 * @returns {[command: string, args: string[], options?: { shell: boolean }]}
 */
function npmCommand(...args) {
  const npm = process.env.npm_execpath;
  if (npm && /npm-cli\.c?js$/.test(npm)) return [process.execPath, [npm, ...args]];
  return ["npm", args, { shell: process.platform === "win32" }];
}

/**
 * Whether npm's own record of the last install, run by hand, has every package the lock file names.
 * Packages for other systems are optional and may be absent.
 * @param {string} lock
 */
function npmInstalled(lock) {
  if (!existsSync(installedByNpm)) return false;
  const found = JSON.parse(readFileSync(installedByNpm, "utf8")).packages;
  return Object.entries(JSON.parse(lock).packages).every(
    ([path, { version, optional }]) =>
      !path.startsWith("node_modules/") || (found[path] ? found[path].version === version : optional),
  );
}
