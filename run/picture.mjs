// The picture of the first screen: one unit of the example with the tape that stops it, over its route map. Imported only after a build.
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { callHere } from "../packages/cli/dist/call-here.js";
import { fontFiles } from "../packages/drawing/dist/index.js";
import { readProject, sceneOf } from "../packages/project/dist/index.js";
import { pictureSvg } from "../packages/report/dist/index.js";
import { root } from "./setup.mjs";

const example = "examples/saltgrass";
const shown = { unit: "plover", tape: "so20-24" };

/** @typedef {import("../packages/report/dist/index.js").ReportInput} ReportInput */
/** @type {ReportInput | undefined} */
let known;
/** The example, judged by the command itself: once, however many pictures are asked for. @returns {ReportInput} */
function judged() {
  if (known) return known;
  const texts = new Map();
  for (const path of ["project.yaml", "known.yaml"]) texts.set(path, readFileSync(join(root, example, path), "utf8"));
  for (const folder of ["units", "tapes"])
    for (const name of readdirSync(join(root, example, folder)))
      texts.set(`${folder}/${name}`, readFileSync(join(root, example, folder, name), "utf8"));
  const { project } = readProject(texts);
  if (!project) throw new Error(`${example} can't be read`);
  const { out, err } = callHere(["check", join(root, example), "--json"]);
  if (out === "") throw new Error(err);
  const fonts = new Map(
    fontFiles.map((file) => [file, readFileSync(join(root, "packages/drawing/fonts", file)).toString("base64")]),
  );
  known = {
    project,
    judged: JSON.parse(out),
    version: "",
    sceneOf: (unit, tape) => sceneOf(project, unit, tape),
    font: (file) => `data:font/woff2;base64,${fonts.get(file)}`,
  };
  return known;
}

/** The picture in one theme. @param {"light" | "dark"} theme */
export function picture(theme) {
  const svg = pictureSvg(judged(), { ...shown, theme });
  if (svg === undefined) throw new Error(`${example} has no ${shown.unit} on ${shown.tape}`);
  return svg;
}
