import { readdirSync, readFileSync } from "node:fs";

/** The design files of the example that comes with the project, as its folder holds them. */
const folder = new URL("../../../examples/saltgrass/", import.meta.url);
const paths = readdirSync(folder, { recursive: true, encoding: "utf8" })
  .map((path) => path.replaceAll("\\", "/"))
  .filter((path) => /^(project|known)\.yaml$|^(units|tapes)\//.test(path))
  .sort();
export const example: ReadonlyMap<string, string> = new Map(
  paths.map((path) => [path, readFileSync(new URL(path, folder), "utf8")]),
);
