import { readdirSync, readFileSync } from "node:fs";
import { resolve } from "node:path";
import {
  asWritten,
  checks,
  chosen,
  type Finding,
  type Ladder,
  type Quantity,
  Realiser,
  type Scene,
  showValue,
  type TapeResult,
  type Verdict,
} from "@tapeworthy/core";
import { type Project, readProject, sceneOf, type Texts } from "@tapeworthy/project";
import type { Judged, JudgedUnit, ReportInput } from "./report-input.ts";

const root = resolve(import.meta.dirname, "../../../examples/saltgrass");
/** Texts of the bundled example. */
export function exampleTexts(): Map<string, string> {
  const texts = new Map<string, string>();
  for (const path of ["project.yaml", "known.yaml"]) texts.set(path, readFileSync(`${root}/${path}`, "utf8"));
  for (const folder of ["units", "tapes"])
    for (const file of readdirSync(`${root}/${folder}`))
      texts.set(`${folder}/${file}`, readFileSync(`${root}/${folder}/${file}`, "utf8"));
  return texts;
}
export function projectOf(texts: Texts): Project {
  const { project, errors } = readProject(texts);
  if (!project) throw new Error(errors.map((e) => e.found).join("; "));
  return project;
}
export const example = projectOf(exampleTexts());

export const sceneIn =
  (project: Project) =>
  (unit: string, tape: string): Scene =>
    sceneOf(project, unit, tape);

const friction = {
  address: "plover/film.friction",
  symbol: "mu",
  tipping: 0.34,
  guess: { low: 0.18, high: 0.35 },
  unit: "1",
  shownIn: "",
  shareIfMeasured: 0.99,
};
/**
 * Results in the shape that judging gives them, without its draws: values, bounds and sentences are those of the checks as written, a value
 * outside its bounds stops, and every `open`-th check depends on an invented unknown. Enough to fill a page, and to do so at once.
 */
export function judgedAsWritten(project: Project, wanted = project.wanted, open = 9): Judged {
  const units = [...wanted].map(([unit, tapes]): JudgedUnit => {
    const file = project.units.get(unit)!;
    return {
      unit,
      name: file.name,
      revision: [...file.variants.values()][0]!.revision ?? "",
      tapes: tapes.map((tape) => resultAsWritten(unit, tape, sceneIn(project)(unit, tape), open)),
    };
  });
  const line = (tape: string, share: number, verdict: Exclude<Verdict, "n/a">) => ({
    unit: "plover",
    tape,
    result: "runs" as const,
    reelsRun: 420,
    reelsRefused: 2,
    share,
    verdict,
    standing: verdict === "feeds" ? ("reproduced" as const) : ("open" as const),
    checks: [],
  });
  return {
    seed: 1,
    units,
    known: {
      of: 2,
      reproduced: 1,
      open: 1,
      contradicted: [],
      contradictedChecks: [],
      lines: [line("sensor-8", 0.99, "feeds"), line("coil-12", 0.4, "depends")],
      weighed: true,
      effective: 384,
    },
  };
}

function resultAsWritten(unit: string, tape: string, scene: Scene, open: number): TapeResult {
  const findings = checks.map((check, i): Finding => {
    const base = {
      check: check.id,
      station: check.station,
      severity: check.severity,
      status: check.status,
      beside: [],
      contradicted: false,
      allowanceError: 0,
    };
    const absent = check.absent(scene);
    const value = absent === undefined ? chosen<Quantity>(check.value, scene) : undefined;
    const [least, most] = [chosen<Quantity>(check.atLeast, scene), chosen<Quantity>(check.atMost, scene)];
    if (!value || (!least && !most))
      return {
        ...base,
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
        more: 0,
        because: `Not applicable: ${absent ?? "the unit has no such member"}.`,
      };
    const quantities = [value, ...(least ? [least] : []), ...(most ? [most] : [])];
    const run = new Realiser(scene, quantities).run(asWritten);
    const v = run.number(value);
    const bounds = { ...(least ? { least: run.number(least) } : {}), ...(most ? { most: run.number(most) } : {}) };
    const outside = v < (bounds.least ?? Number.NEGATIVE_INFINITY) || v > (bounds.most ?? Number.POSITIVE_INFINITY);
    const verdict: Verdict = outside ? "stops" : i % open === open - 1 ? "depends" : "feeds";
    const share = { stops: 0, depends: 0.41, feeds: 1 }[verdict];
    return {
      ...base,
      verdict,
      share,
      shareAlone: share,
      value: v,
      unit: value.unit,
      bounds,
      ratio: bounds.most ? v / bounds.most : bounds.least ? v / bounds.least : null,
      margin: { stops: -6, depends: 0.4, feeds: 3.2 }[verdict],
      marginBy: "drawn",
      letter: "g",
      more: 7,
      because: sentence(check.because, scene),
      ...(verdict === "depends" ? { decisive: friction } : {}),
    };
  });
  const hard = findings.filter((f) => f.severity === "S" && (f.verdict === "stops" || f.verdict === "depends"));
  const first = hard.sort((a, b) => a.share! - b.share!).map((f) => f.check);
  const verdict: Verdict = hard.some((f) => f.verdict === "stops") ? "stops" : hard.length > 0 ? "depends" : "feeds";
  const share = { stops: 0, depends: 0.41, feeds: 1, "n/a": 0 }[verdict];
  return { unit, tape, W: scene.tape.row, verdict, share, shareAlone: share, verdictAlone: verdict, first, findings };
}
/** What a check says of a scene as written. */
function sentence(because: (say: (q: Quantity) => string, scene: Scene) => string, scene: Scene): string {
  return because((q) => showValue(q, new Realiser(scene, [q]).run(asWritten).number(q)), scene);
}

export const inputOf = (project: Project, judged: Judged, more: Partial<ReportInput> = {}): ReportInput => ({
  project,
  judged,
  version: "0.1.0",
  sceneOf: sceneIn(project),
  font: () => "data:font/woff2;base64,",
  ...more,
});
/** A page of three pairs: one plain, one that stops, one of a second unit. */
export const fewWanted: ReadonlyMap<string, readonly string[]> = new Map([
  ["plover", ["sensor-8", "so20-24"]],
  ["dunlin", ["dpak-16"]],
]);
export const few = (more: Partial<ReportInput> = {}): ReportInput =>
  inputOf(example, judgedAsWritten(example, fewWanted), more);

const point = (W: number, margin: number) => ({
  W,
  above: false,
  gap: { low: margin, middle: margin, high: margin },
  margin: { low: margin - 1, middle: margin, high: margin + 1 },
  share: margin > 2 ? 1 : 0.4,
});
/** A ladder of two checks, one of which turns. */
export const climbed: Ladder = {
  unit: "plover",
  name: "Plover",
  from: 8,
  to: 24,
  allowed: 2.05,
  rows: [8, 12, 16, 24],
  tapes: [
    { W: 8, tape: "sensor-8" },
    { W: 24, tape: "so20-24" },
  ],
  leftOut: [],
  spans: [
    { from: 8, to: 13.4, verdict: "feeds", by: [] },
    { from: 13.4, to: 24, verdict: "depends", by: ["film.mismatch"] },
  ],
  turns: [],
  points: [],
  lines: [
    {
      check: "film.mismatch",
      unit: "1",
      station: 4,
      severity: "S",
      title: "fibres of the film differ little in length",
      contradicted: false,
      spans: [
        { from: 8, to: 13.4, verdict: "feeds", by: [] },
        { from: 13.4, to: 24, verdict: "depends", by: [] },
      ],
      turns: [{ W: 13.4, where: "between 12 and 16 (about 13.4)", before: "feeds", after: "depends", step: null }],
      median: [],
      points: [point(8, 5), point(24, 0)],
    },
    {
      check: "entry.play",
      unit: "m",
      station: 1,
      severity: "S",
      title: "the tape has play",
      contradicted: false,
      spans: [{ from: 8, to: 24, verdict: "feeds", by: [] }],
      turns: [],
      median: [],
      points: [point(8, 4), point(24, 4)],
    },
  ],
  steps: [],
};

/** One element of a page: its name and attributes. */
export interface Element {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
}
const empty = ["meta", "br", "input", "link"];
/** Reads the elements of a page in order; throws where tags do not match. Style and script are left out. */
export function elementsOf(page: string): Element[] {
  const out: Element[] = [];
  const open: string[] = [];
  const markup = page.replace(/^<!doctype html>/, "").replace(/<(style|script)>[\s\S]*?<\/\1>/g, "<$1></$1>");
  for (const [whole, close, name, attributes, self] of markup.matchAll(
    /<(\/?)([a-zA-Z][\w-]*)((?:\s+[\w:-]+(?:="[^"<]*")?)*)\s*(\/?)>|<[^>]*>?/g,
  )) {
    if (name === undefined) throw new Error(`not a tag: ${whole}`);
    if (close === "/") {
      const last = open.pop();
      if (last !== name) throw new Error(`</${name}> closes <${last}>`);
      continue;
    }
    const found = Object.fromEntries(
      [...attributes!.matchAll(/([\w:-]+)(?:="([^"]*)")?/g)].map(([, key, value]) => [key!, value ?? ""]),
    );
    out.push({ name, attributes: found });
    if (self !== "/" && !empty.includes(name)) open.push(name);
  }
  if (open.length > 0) throw new Error(`<${open.at(-1)}> stays open`);
  return out;
}
