import { readdirSync, readFileSync } from "node:fs";

/** The example that comes with the project, as its folder holds it. */
const folder = new URL("../../../examples/saltgrass/", import.meta.url);
const paths = readdirSync(folder, { recursive: true, encoding: "utf8" })
  .map((path) => path.replaceAll("\\", "/"))
  .filter((path) => path.endsWith(".yaml"))
  .sort();
export const example: ReadonlyMap<string, string> = new Map(
  paths.map((path) => [path, readFileSync(new URL(path, folder), "utf8")]),
);
