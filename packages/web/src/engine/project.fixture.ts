import { readdirSync, readFileSync } from "node:fs";

const folder = new URL("../../../../examples/saltgrass/", import.meta.url);
/** The design files of the example that comes with the project, as its folder holds them. */
export const example: ReadonlyMap<string, string> = new Map(
  readdirSync(folder, { recursive: true, encoding: "utf8" })
    .map((path) => path.replaceAll("\\", "/"))
    .filter((path) => /^(project|known)\.yaml$|^(units|tapes)\//.test(path))
    .sort()
    .map((path) => [path, readFileSync(new URL(path, folder), "utf8")]),
);
/** The same with few pairs and one record, so that drawing them takes a second or two. */
export const few: ReadonlyMap<string, string> = new Map([
  ...example,
  [
    "project.yaml",
    example
      .get("project.yaml")!
      .replace(/wanted:[\s\S]*?ladder:.*\n/, "wanted:\n  plover: [so8-12, so20-24]\n  dunlin: [so8-12]\n"),
  ],
  [
    "known.yaml",
    "format: 1\nknown:\n  - {unit: plover, tape: so8-12, result: runs, reels run: 310, reels refused: 1}\n",
  ],
]);
/** Fewer still: one unit on two tapes, and no record. */
export const two: ReadonlyMap<string, string> = new Map(
  [...few]
    .filter(([path]) => path !== "known.yaml")
    .map(([path, text]) => [path, path === "project.yaml" ? text.replace("  dunlin: [so8-12]\n", "") : text]),
);
