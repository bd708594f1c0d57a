// npm start: shows the verdicts of the example project, here and as a page. Verdicts are what it is for, so they are no failure here.
import { readdirSync } from "node:fs";
import { basename, join } from "node:path";
import { pathToFileURL } from "node:url";
import { root, runNode, say, setUp } from "./setup.mjs";

const feedsStopsOrDepends = [0, 1, 3];

function start() {
  if (!setUp()) return 1;
  const example = exampleFolder();
  if (!example) {
    say("There is no example project in examples/.");
    return 2;
  }
  const report = `build/${basename(example)}.html`;
  const code = runNode("packages/cli/bin/tapeworthy.mjs", "check", example, "--html", report, ...process.argv.slice(2));
  if (feedsStopsOrDepends.includes(code)) say(`To open it: ${pathToFileURL(join(root, report)).href}`);
  return feedsStopsOrDepends.includes(code) ? 0 : code;
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

process.exitCode = start();
