// The console blocks of a page: commands a reader types, with the output the program has for them.
import { spawnSync } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { callHere } from "../packages/cli/dist/call-here.js";
import { root } from "./setup.mjs";

/** A command as the pages write it, and what it calls. */
const programs = /** @type {const} */ ([
  ["npx tapeworthy ", callTapeworthy],
  ["tapeworthy ", callTapeworthy],
  ["npm run --silent validate", callValidation],
]);

/** @param {string[]} words @param {string} folder */
function callTapeworthy(words, folder) {
  // Beside other tests, which keep every processor busy, the long one runs on one thread: the answer does not depend on it.
  if (process.env.VITEST && words[0] === "check") words.push("--workers", "1");
  const here = process.cwd();
  process.chdir(folder);
  try {
    return callHere(words);
  } finally {
    process.chdir(here);
  }
}
/** @param {string[]} words @param {string} folder */
function callValidation(words, folder) {
  const script = join(root, "validation/dist/main.js");
  const { status, stdout, stderr, error } = spawnSync(process.execPath, [script, ...words], {
    cwd: folder,
    encoding: "utf8",
    maxBuffer: 1 << 28,
  });
  if (error) throw error;
  return { code: status ?? -1, out: stdout, err: stderr };
}

/**
 * Words of a command; double quotes hold a word together.
 * @param {string} text
 */
const wordsOf = (text) => [...text.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, plain]) => quoted ?? plain ?? "");

/**
 * What a command prints, as a list of lines. Errors go to stderr and count where the input was bad; what stderr holds otherwise is
 * progress. `; echo $?` behind a command adds its exit code.
 * @param {string} command
 * @param {string} folder where it is run
 */
function outputOf(command, folder) {
  const [, asked = "", echo] = /^(.*?)(; echo \$\?)?$/.exec(command) ?? [];
  const program = programs.find(([name]) => `${asked} `.startsWith(name));
  if (!program)
    throw new Error(
      `"${command}" is no command of a page; it begins with ${programs.map(([name]) => `"${name}"`).join(" or ")}`,
    );
  const [name, run] = program;
  const { code, out, err } = run(wordsOf(asked.slice(name.length)), folder);
  if (code < 0 || code > 3) throw new Error(`${command}\n${err}`);
  const lines = `${out}${code === 2 ? err : ""}`.trimEnd().split("\n");
  return [...lines.map((line) => line.trimEnd()), ...(echo ? [String(code)] : [])];
}

/**
 * The lines of an output that a page shows, with "..." for those it leaves out. `shown` names them in order: `"first words"` is one line,
 * `"first" to "last"` a stretch, joined by semicolons; each is looked for behind the one before.
 * @param {string[]} lines
 * @param {string} shown
 */
function cut(lines, shown) {
  const out = [];
  let next = 0;
  for (const piece of shown.split(";")) {
    const [from, to] = [...piece.matchAll(/"([^"]+)"/g)].map(([, text]) => text ?? "");
    const first = lines.findIndex((line, i) => i >= next && line.includes(from ?? ""));
    const last = to === undefined ? first : lines.findIndex((line, i) => i >= first && line.includes(to));
    if (from === undefined || first < 0 || last < 0)
      throw new Error(`no line for ${piece.trim()} in\n${lines.join("\n")}`);
    if (first > next) out.push("...");
    out.push(...lines.slice(first, last + 1));
    next = last + 1;
  }
  if (next < lines.length) out.push("...");
  return out;
}

const block =
  /(?:^<!-- shown: (?<shown>.*) -->\n)?^```(?<kind>console|edit)(?: (?<path>\S+))?\n(?<body>[\s\S]*?)^```$/gm;

/**
 * A page with every console block's output worked out again, its edits made on the way.
 * @param {string} page
 * @param {string} folder where the commands are run and the edits made
 */
export function withOutputs(page, folder) {
  return page.replace(block, (whole, ...rest) => {
    const { shown, kind, path, body } = /** @type {Record<string, string | undefined>} */ (rest.at(-1));
    if (kind === "edit") {
      edit(join(folder, path ?? ""), body ?? "");
      return whole;
    }
    const commands = (body ?? "").split("\n").filter((line) => line.startsWith("$ "));
    if (commands.length === 0) throw new Error(`a console block without a command:\n${body}`);
    const fresh = commands.flatMap((line) => {
      const lines = outputOf(line.slice(2), folder);
      return [line, ...(shown ? cut(lines, shown) : lines)];
    });
    return `${shown ? `<!-- shown: ${shown} -->\n` : ""}\`\`\`console\n${fresh.join("\n")}\n\`\`\``;
  });
}

/**
 * One edit of a page: lines that begin with "-" are found once in the file and replaced by those that begin with "+". A block without
 * such lines is a new file.
 * @param {string} file
 * @param {string} body
 */
function edit(file, body) {
  const lines = body.trimEnd().split("\n");
  if (!lines.some((line) => /^[-+]/.test(line))) {
    if (existsSync(file)) throw new Error(`${file} is there already`);
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, body);
    return;
  }
  const side = (/** @type {string} */ sign) =>
    lines
      .filter((line) => line.startsWith(sign))
      .map((line) => `${line.slice(1)}\n`)
      .join("");
  const text = readFileSync(file, "utf8");
  const [before, after] = [side("-"), side("+")];
  if (before === "" || text.split(before).length !== 2) throw new Error(`not found once in ${file}:\n${before}`);
  writeFileSync(
    file,
    text.replace(before, () => after),
  );
}
