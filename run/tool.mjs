// node run/tool.mjs NAME [arguments]: set-up, then one of the project's own programs, with its exit code.
import { existsSync } from "node:fs";
import { join } from "node:path";
import { root, runNode, say, setUp } from "./setup.mjs";

/** @type {Record<string, string>} */
const programs = {
  validation: "validation/dist/main.js",
  speed: "speed/dist/main.js",
  mutate: "packages/cli/dist/mutate.js",
};

/** @param {string[]} args */
function tool([name = "", ...args]) {
  const program = Object.hasOwn(programs, name) ? programs[name] : undefined;
  if (!program) {
    say(`found "${name}", expected one of ${Object.keys(programs).join(", ")}`);
    return 2;
  }
  if (!setUp()) return 1;
  if (!existsSync(join(root, program))) {
    say(`${program} is missing after the build; has its source been renamed?`);
    return 2;
  }
  return runNode(program, ...args);
}

process.exitCode = tool(process.argv.slice(2));
