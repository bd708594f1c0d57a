import { readdirSync, readFileSync } from "node:fs";
import { resolve } from "node:path";
import { assumed, belief, type Finding, type Requirement, type Scene, type TapeResult, tabled } from "@tapeworthy/core";
import { readProject } from "@tapeworthy/project";
import { type UnitShape, unitShape } from "./unit-shape.ts";

/** The bundled example, read from its files: both units at every width they are wanted at. */
const root = resolve(import.meta.dirname, "../../../examples/saltgrass");
const texts = new Map<string, string>();
for (const path of ["project.yaml", "known.yaml"]) texts.set(path, readFileSync(`${root}/${path}`, "utf8"));
for (const folder of ["units", "tapes"])
  for (const file of readdirSync(`${root}/${folder}`))
    texts.set(`${folder}/${file}`, readFileSync(`${root}/${folder}/${file}`, "utf8"));
const { project, errors } = readProject(texts);
if (!project) throw new Error(errors.map((e) => e.found).join("; "));
export const example = project;

export function sceneOf(unit: string, tape: string): Scene {
  const served = example.tapes.get(tape)!.tape;
  const variant = [...example.units.get(unit)!.variants.values()].find((v) => v.row === served.row)!;
  return { unit: variant, tape: served, requirement: example.requirement };
}
const shapes = new Map<string, UnitShape>();
export function shapeOf(unit: string, tape: string): UnitShape {
  const key = `${unit} ${tape}`;
  const known = shapes.get(key) ?? unitShape(sceneOf(unit, tape));
  shapes.set(key, known);
  return known;
}
export const pairs: readonly (readonly [unit: string, tape: string])[] = [...example.wanted].flatMap(([unit, tapes]) =>
  tapes.map((tape) => [unit, tape] as const),
);

const invented = { cite: "invented for a test", how: "judgement" } as const;
export const requirement: Requirement = {
  allowPairs: 0.02,
  filmSpeed: tabled("project/film speed", "v", "80 mm/s", [1, 0, -1, 0, 0], invented, "unit"),
  breakSafety: tabled("project/film break", "s", "1.5", [0, 0, 0, 0, 0], invented, "unit"),
  front: belief("assume/peel front", "s_f", ["free", "clamped"], 0.5, invented),
  assume: assumed(),
};

/** A finding with a part of it given. */
export const findingWith = (more: Partial<Finding> & Pick<Finding, "check">): Finding => ({
  station: 4,
  severity: "S",
  verdict: "feeds",
  share: 1,
  shareAlone: 1,
  value: 0.02,
  unit: "1",
  bounds: { most: 0.03 },
  ratio: 0.67,
  margin: 3.4,
  marginBy: "drawn",
  letter: "d",
  more: 3,
  status: "established",
  because: "The film's fibres differ by 2.0 % of the span; it bears about 3.0 %.",
  beside: [],
  contradicted: false,
  allowanceError: 0,
  ...more,
});
export const absent = (check: string, station: Finding["station"] = 1): Finding =>
  findingWith({
    check,
    station,
    verdict: "n/a",
    share: null,
    shareAlone: null,
    value: null,
    unit: "",
    bounds: {},
    ratio: null,
    margin: null,
    marginBy: null,
    letter: null,
    because: "Not applicable: the route has no bend.",
  });
export const resultWith = (
  tape: string,
  W: number,
  findings: readonly Finding[],
  more: Partial<TapeResult> = {},
): TapeResult => ({
  unit: "plover",
  tape,
  W,
  verdict: "feeds",
  share: 1,
  shareAlone: 1,
  verdictAlone: "feeds",
  first: [],
  findings,
  ...more,
});

/** One element of a text of SVG or HTML: its name and attributes. */
export interface Element {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
}
/** Reads the elements of SVG or HTML in order and throws where tags don't match: what is written must be well formed. */
export function elementsOf(markup: string): Element[] {
  const out: Element[] = [];
  const open: string[] = [];
  for (const [whole, close, name, attributes, self] of markup.matchAll(
    /<(\/?)([a-zA-Z][\w-]*)((?:\s+[\w:-]+(?:="[^"<]*")?)*)\s*(\/?)>|<[^>]*>?/g,
  )) {
    if (name === undefined) throw new Error(`not a tag: ${whole}`);
    if (close === "/") {
      const last = open.pop();
      if (last !== name) throw new Error(`</${name}> closes <${last}>`);
      continue;
    }
    const found: Record<string, string> = {};
    for (const [, key, value] of attributes!.matchAll(/([\w:-]+)(?:="([^"]*)")?/g)) {
      if (Object.hasOwn(found, key!)) throw new Error(`${key} twice in <${name}>`);
      found[key!] = value ?? "";
    }
    out.push({ name, attributes: found });
    if (self !== "/" && !["br", "meta", "hr", "input"].includes(name)) open.push(name);
  }
  if (open.length > 0) throw new Error(`<${open.at(-1)}> stays open`);
  return out;
}
/** The numbers of a path's data, as points; an arc gives its end. */
export function pointsOf(d: string): [number, number][] {
  const out: [number, number][] = [];
  for (const [, letter, rest] of d.matchAll(/([MLAC])([^MLACZ]*)/g)) {
    const n = rest!
      .trim()
      .split(/[\s,]+/)
      .map(Number);
    if (letter === "A") out.push([n[5]!, n[6]!]);
    else if (letter === "C") out.push([n[4]!, n[5]!]);
    else out.push([n[0]!, n[1]!]);
  }
  return out;
}
